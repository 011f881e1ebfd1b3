//! What the program says, whichever way it comes to say it: every text that stands in the words is
//! read out of their source, so that none is left out because nobody listed it. No text promises
//! anything about pain, names a disease, marks a fit as a whole, or speaks in newtons; watts stand
//! behind the differences only. Texts that stand elsewhere (in the other sources, in what the shop has,
//! on the pages beside the program) promise and name nothing either; keys and units are words of theirs.

#![expect(clippy::unwrap_used, reason = "a failure here is a failed test")]

use acceptance::root;
use fit_view::act::Act;
use fit_view::words::{Caption, English, Words};
use std::fs;
use std::path::{Path, PathBuf};

/// Pieces that promise, whatever else stands in the text.
const PROMISES: [&str; 20] = [
    "pain-free",
    "painless",
    "no pain",
    "no more pain",
    "without pain",
    "free of pain",
    "free from pain",
    "less pain",
    "cure",
    "heal",
    "relief",
    "relieve",
    "will help",
    "helps against",
    "fixes",
    "fix your",
    "guarantee",
    "optimal",
    "perfect",
    "the best ",
];

/// What hurts, by its name or by its place: beside one of [`GETS_LESS`] in a sentence a promise.
const HURTS: [&str; 27] = [
    "pain",
    "pains",
    "tingling",
    "hurt",
    "hurts",
    "ache",
    "aches",
    "soreness",
    "numbness",
    "discomfort",
    "complaint",
    "complaints",
    "stiffness",
    "tension",
    "neck",
    "low back",
    "shoulder",
    "shoulders",
    "elbow",
    "elbows",
    "hands",
    "fingers",
    "wrists",
    "knee",
    "knees",
    "hips",
    "feet",
];

/// What a promise says becomes of it.
const GETS_LESS: [&str; 45] = [
    "ease",
    "eases",
    "eased",
    "easing",
    "soothe",
    "soothes",
    "spares",
    "calms",
    "comforts",
    "comfortable",
    "vanish",
    "vanishes",
    "disappear",
    "disappears",
    "goes away",
    "go away",
    "is gone",
    "are gone",
    "will go",
    "stops the",
    "ends the",
    "reduces",
    "reduced",
    "lessens",
    "lightens",
    "alleviates",
    "prevents",
    "feels better",
    "feel better",
    "gets better",
    "get better",
    "is better",
    "takes away",
    "improves",
    "fade",
    "fades",
    "fading",
    "clears",
    "clear up",
    "kinder",
    "kind to",
    "gentler",
    "gentle on",
    "settles",
    "subsides",
];

/// What has less of something, or makes an end of it: right before [`HURTS`] a promise.
const LESS_OF: [&str; 6] = ["less", "fewer", "stop", "stops", "lose", "loses"];
/// So many words after such a one what hurts is what there is less of.
const RIGHT_BEFORE: usize = 2;

/// Promises that need no other word.
const BY_THEMSELVES: [&str; 14] = [
    "hurts less",
    "hurt less",
    "hurting less",
    "aches less",
    "ache less",
    "less sore",
    "less numb",
    "less discomfort",
    "no longer hurt",
    "no longer hurts",
    "stops hurting",
    "stop hurting",
    "ideal",
    "better in",
];

/// What the client asks for is an aim and said to be his, so that it may be quoted.
const AIMS: [&str; 3] = ["wants to", "wishes to", "asks to"];

/// The words of a text.
fn words(text: &str) -> Vec<&str> {
    text.split(|c: char| !c.is_alphanumeric()).filter(|word| !word.is_empty()).collect()
}

/// Whether a text holds a piece as words of their own.
fn says(text: &str, piece: &str) -> bool {
    let spaced = |text: &str| format!(" {} ", words(text).join(" "));
    spaced(text).contains(&spaced(piece))
}

/// There is less of what hurts, or an end of it: so it says in so many words.
fn less_of(text: &str) -> Option<&'static str> {
    let all = words(text);
    let begins = |at: usize| LESS_OF.into_iter().find(|piece| all[at] == *piece);
    let hurts = |at: usize| {
        let next = all[at + 1..].iter().take(RIGHT_BEFORE);
        next.into_iter().any(|word| HURTS.contains(word))
    };
    (0..all.len()).find_map(|at| begins(at).filter(|_| hurts(at)))
}

/// What a score will be is foretold: one for now, and one for what is offered.
fn foretold(text: &str) -> Option<&'static str> {
    let is_score = says(text, "now") && says(text, "with");
    (is_score && HURTS.into_iter().any(|of| says(text, of))).then_some("now, with")
}

/// The promise in one sentence that something hurts less: that which is said to become of it. Of an aim
/// only the clause is free in which it stands.
fn less_pain(sentence: &str) -> Option<&'static str> {
    let is_aim = |clause: &str| AIMS.into_iter().any(|aim| says(clause, aim));
    let clauses = sentence.split([':', ',', '–', '—', '(', ')']);
    let clauses = clauses.flat_map(|of| of.split(" and "));
    let rest: Vec<&str> = clauses.filter(|clause| !is_aim(clause)).collect();
    let rest = rest.join(" , ");
    let by_itself = BY_THEMSELVES.into_iter().find(|piece| says(&rest, piece));
    let becomes = || GETS_LESS.into_iter().find(|piece| says(&rest, piece));
    by_itself
        .or_else(|| becomes().filter(|_| HURTS.into_iter().any(|of| says(&rest, of))))
        .or_else(|| less_of(&rest))
        .or_else(|| foretold(&rest))
}

/// Pieces that name a disease, or say that one was found.
const DISEASES: [&str; 12] = [
    "diagnos",
    "syndrome",
    "carpal",
    "arthr",
    "hernia",
    "tendin",
    "bursitis",
    "sciatic",
    "neuropath",
    "scolio",
    "impinge",
    "patholog",
];

/// Marks of a fit as a whole; a complaint has a score, which the client gives it.
const MARKS: [&str; 7] =
    ["score", "rating", "rated", "overall", "grade", "stability", "out of 100"];

/// Ticks, however they are drawn: none stands anywhere but where somebody made it, and those are drawn and not
/// written.
const TICKS: [char; 10] = ['✓', '✔', '☑', '✅', '🗸', '🗹', '√', '☒', '👍', '⍻'];

/// Words that tick something off which nobody looked at here.
const TICKED: [&str; 20] = [
    "verified",
    "certified",
    "approved",
    "guaranteed",
    "safe to ride",
    "safe to use",
    "is safe",
    "are safe",
    "all clear",
    "all good",
    "fits you",
    "fits perfectly",
    "nothing to worry",
    "no risk",
    "without risk",
    "risk-free",
    "roadworthy",
    "ready to ride",
    "long enough for",
    "double-checked",
];

/// What stands in one of these is asked or told to be looked at, and no tick.
const LOOKED_AT: [&str; 3] = ["have it checked that", "check that", "How it fits you"];

/// A tick that nobody made.
fn ticked(text: &str) -> Option<&'static str> {
    if text.contains(TICKS) {
        return Some("a tick");
    }
    let plain = LOOKED_AT.into_iter().any(|of| text.contains(of));
    let small = text.to_lowercase();
    TICKED.into_iter().find(|piece| small.contains(piece)).filter(|_| !plain)
}

/// Units that no screen shows of itself, as words of their own.
const UNITS: [&str; 8] = ["newton", "newtons", "watt", "watts", "N", "W", "kN", "Nm"];

/// The texts between quotes in Rust source, with what they escape, up to its tests.
fn literals(source: &str) -> Vec<String> {
    let source = source.split("#[cfg(test)]").next().unwrap_or_default();
    let all: Vec<char> = source.chars().collect();
    let (mut at, mut found) = (0, Vec::new());
    let is =
        |at: usize, text: &str| text.chars().enumerate().all(|(i, c)| all.get(at + i) == Some(&c));
    while at < all.len() {
        let after_name = at > 0 && (all[at - 1].is_alphanumeric() || all[at - 1] == '_');
        if is(at, "//") {
            at += all[at..].iter().take_while(|c| **c != '\n').count();
        } else if is(at, "/*") {
            while at < all.len() && !is(at, "*/") {
                at += 1;
            }
            at += 2;
        } else if all[at] == 'r' && !after_name && raw_hashes(&all[at + 1..]).is_some() {
            let hashes = raw_hashes(&all[at + 1..]).unwrap_or_default();
            let end = format!("\"{}", "#".repeat(hashes));
            let begin = at + 2 + hashes;
            at = begin;
            while at < all.len() && !is(at, &end) {
                at += 1;
            }
            found.push(all[begin..at].iter().collect());
            at += 1 + hashes;
        } else if all[at] == '"' {
            let (text, length) = quoted(&all[at + 1..]);
            found.push(text);
            at += length + 2;
        } else if is(at, "'\"'") || is(at, "'\\\"'") || is(at, "'\\''") {
            // a letter that is a quote begins no text
            at += if is(at, "'\"'") { 3 } else { 4 };
        } else {
            at += 1;
        }
    }
    found
}

/// How many signs stand before the quote of a raw text.
fn raw_hashes(after: &[char]) -> Option<usize> {
    let hashes = after.iter().take_while(|c| **c == '#').count();
    (after.get(hashes) == Some(&'"')).then_some(hashes)
}

/// A text up to its closing quote, and how many letters of source it took.
fn quoted(after: &[char]) -> (String, usize) {
    let (mut at, mut text) = (0, String::new());
    while let Some(&letter) = after.get(at).filter(|c| **c != '"') {
        at += 1;
        if letter != '\\' {
            text.push(letter);
            continue;
        }
        let escaped = after.get(at).copied().unwrap_or_default();
        at += 1;
        match escaped {
            'n' | 't' | 'r' => text.push(' '),
            // the line goes on below, without what it begins with
            '\n' => at += after[at..].iter().take_while(|c| c.is_whitespace()).count(),
            'u' => {
                let code: String = after[at + 1..].iter().take_while(|c| **c != '}').collect();
                let code_point = u32::from_str_radix(&code, 16).unwrap();
                text.push(char::from_u32(code_point).unwrap());
                at += code.len() + 2;
            }
            other => text.push(other),
        }
    }
    (text, at)
}

/// A text as it is read: without the names of what is put into it, with ordinary blanks.
fn read(text: &str) -> String {
    let mut read = String::new();
    let mut within = false;
    for letter in text.chars() {
        match letter {
            '{' => within = true,
            '}' => within = false,
            '\u{a0}' | '\u{202f}' => read.push(' '),
            '’' => read.push('\''),
            other if !within => read.push(other),
            _ => {}
        }
    }
    read
}

/// What of a text must not be said, whoever reads it.
fn promise(text: &str) -> Option<&'static str> {
    let small = read(text).to_lowercase().replace("health", "");
    let promised = PROMISES.into_iter().chain(DISEASES).find(|piece| small.contains(piece));
    // a point or a semicolon parts what is said of one thing from the next
    let less = || small.split(['.', ';', '?']).find_map(less_pain);
    promised.or_else(less)
}

/// What of a text must not be said in the program.
fn fault(text: &str) -> Option<&'static str> {
    let promised = promise(text);
    let text = read(text);
    let small = text.to_lowercase();
    let marked = MARKS.into_iter().find(|piece| small.contains(piece));
    let marked = marked.filter(|piece| *piece != "score" || !small.contains("complaint"));
    let unit = text.split(|c: char| !c.is_alphanumeric()).find_map(|word| {
        // short ones are letters of something else when they are small
        let is = |unit: &&str| word == *unit || unit.len() > 2 && word.to_lowercase() == **unit;
        UNITS.into_iter().find(is)
    });
    promised.or(marked).or_else(|| ticked(&text)).or(unit)
}

/// The same of what stands elsewhere: nothing is promised, and nothing ticked.
fn promised_or_ticked(text: &str) -> Option<&'static str> {
    promise(text).or_else(|| ticked(&read(text)))
}

/// Where the words are.
const WORDS: &str = "crates/fit-view/src/words";

/// Every file of such an ending in a folder and what is in it.
fn files(folder: &str, is: &str) -> Vec<PathBuf> {
    let (mut folders, mut found) = (vec![root().join(folder)], Vec::new());
    while let Some(folder) = folders.pop() {
        for entry in fs::read_dir(&folder).unwrap() {
            let path = entry.unwrap().path();
            if path.is_dir() {
                folders.push(path);
            } else if path.extension().is_some_and(|ending| ending == is) {
                found.push(path);
            }
        }
    }
    found.sort();
    found
}

fn texts_of(files: Vec<PathBuf>) -> Vec<(PathBuf, String)> {
    let of = |path: PathBuf| {
        let texts = literals(&fs::read_to_string(&path).unwrap());
        texts.into_iter().map(move |text| (path.clone(), text))
    };
    files.into_iter().flat_map(of).collect()
}

/// Whether a source is a test's.
fn is_test(path: &Path) -> bool {
    let within = path.strip_prefix(root()).unwrap_or(path);
    let folder = within.components().any(|of| of.as_os_str() == "tests");
    folder || path.file_stem().is_some_and(|of| of.to_string_lossy().ends_with("tests"))
}

fn all_texts() -> Vec<(PathBuf, String)> {
    let mut all = files(WORDS, "rs");
    all.retain(|path| !is_test(path));
    texts_of(all)
}

/// Texts of all other sources, of what the shop has, and of the demo sessions.
fn texts_elsewhere() -> Vec<(PathBuf, String)> {
    let mut all = files("crates", "rs");
    all.retain(|path| !path.starts_with(root().join(WORDS)) && !is_test(path));
    all.extend(files("assets", "ron").into_iter().chain(files("sessions", "ron")));
    let mut texts = texts_of(all);
    // a single word is a key
    texts.retain(|(_, text)| text.trim().contains(' '));
    texts
}

/// Every paragraph and cell that stands on a page beside the program, its lines joined, without what is
/// quoted of a file.
fn paragraphs() -> Vec<(PathBuf, String)> {
    let pages = ["README.md", "CHANGELOG.md", "sessions/README.md", "assets/weigh.md"];
    let of = |page: &str| {
        let path = root().join(page);
        let text = fs::read_to_string(&path).unwrap();
        let paragraphs = text.split("\n\n").flat_map(|of| of.split('|'));
        let plain = |of: &str| of.replace('\n', " ").split('`').step_by(2).collect::<String>();
        let all: Vec<String> = paragraphs.map(plain).collect();
        all.into_iter().map(move |text| (path.clone(), text))
    };
    pages.into_iter().flat_map(of).collect()
}

fn faults(all: &[(PathBuf, String)], of: fn(&str) -> Option<&'static str>) -> Vec<String> {
    let fault = |(path, text): &(PathBuf, String)| {
        Some(format!("{}: “{}” in “{text}”", path.display(), of(text)?))
    };
    all.iter().filter_map(fault).collect()
}

#[test]
fn no_text_promises_diagnoses_or_marks() {
    let mut all = all_texts();
    // what an outline is worth is told on demand, behind the differences, as a range
    let told =
        |(path, text): &(PathBuf, String)| path.ends_with("english/detail.rs") && text == "W";
    assert_eq!(all.extract_if(.., |of| told(of)).count(), 1);
    let faults = faults(&all, fault);
    assert!(faults.is_empty(), "{}", faults.join("\n"));
}

#[test]
fn nothing_that_is_said_elsewhere_promises_or_diagnoses() {
    let (texts, pages) = (texts_elsewhere(), paragraphs());
    for piece in ["a list in its form", "Compact 420"] {
        assert!(texts.iter().any(|(_, text)| text.contains(piece)), "“{piece}” is read");
    }
    assert!(pages.iter().any(|(_, text)| text.contains("health professional")));
    // of a search it may be told that it finds the best of something
    let on_a_page = |text: &str| promise(text).filter(|piece| *piece != "the best ");
    let faults = [faults(&texts, promised_or_ticked), faults(&pages, on_a_page)].concat();
    assert!(faults.is_empty(), "{}", faults.join("\n"));
}

/// What is said in the window is among what was read, so that nothing is looked past.
#[test]
fn every_text_of_the_window_is_among_those_that_are_read() {
    let all = all_texts();
    assert!(all.len() > 1200, "{} texts", all.len());
    let has = |said: &str| all.iter().any(|(_, text)| text == said);
    for act in Act::ALL.into_iter().filter(|act| !matches!(act, Act::Hands(_))) {
        let said = English.act(act);
        assert!(has(&said), "“{said}”");
    }
    for caption in [Caption::Hint1, Caption::Hint2, Caption::Hint3, Caption::NotTaken] {
        assert!(has(English.caption(caption)), "{caption:?}");
    }
}

/// Planted sentences are found, in every kind of text that Rust has, and only in texts.
#[test]
fn a_planted_sentence_is_found() {
    for planted in [
        "This bar will cure the neck",
        "A pain\u{2d}free ride",
        "Fixes your hands for good",
        "We guarantee it",
        "Carpal tunnel, most likely",
        "Fit score 87",
        "Overall: good",
        "Brake force 40\u{a0}N",
        "Newtons at the lever",
        "Saves 12\u{a0}W",
        "{label} gives {count} watts more",
        "Stops the pain {place}",
        "It hurts less {place}",
        "{label} eases the neck",
        "The pain goes away",
        "After {count} rides the pain will go",
        "Your hands are less numb",
        "No longer hurts",
        "Comfortable for neck and shoulders",
        "This takes away the tension",
        "A wider bar improves the low back",
        "Less neck pain in the drops",
        "Fewer complaints after this bar",
        "The pain fades in a week",
        "Kinder to the hands",
        "The numbness clears",
        "Your hands stop tingling",
        "neck: 6 now, 3 with this bar",
        "Who wants to ride on: this eases the neck and the pain goes away",
        "Wants to ride on and the pain goes away",
        "✓ Hoses",
        "{label} \u{2714}",
        "Verified by measuring",
        "The bike is now safe to ride",
        "Steerer is long enough for it",
        "A guaranteed fit",
        "All good: nothing pulls",
    ] {
        for source in [
            format!("fn f() -> &'static str {{ \"{planted}\" }}"),
            format!("const T: &str = r#\"“{planted}” \"#;"),
            format!("let c = '\"'; say(\"a \\\"quoted\\\" {planted}\"); // fine"),
            // a text that goes on in the next line
            format!("fn g<'a>() {{ \"{}\" }}", planted.replacen(' ', " \\\n        ", 1)),
        ] {
            let texts = literals(&source);
            assert!(texts.iter().any(|text| fault(text).is_some()), "{source}: {texts:?}");
        }
        let comment =
            format!("// {planted}\n/* {planted} */ fn f() {{}}\n#[cfg(test)]\n\"{planted}\"");
        assert_eq!(literals(&comment), Vec::<String>::new());
    }
    // what is said of complaints, of health and of numbers is none of it
    for fine in [
        "score of a complaint",
        "No complaint was scored.",
        "Pain at rest: to a health professional as well.",
        "{score} of 10",
        "North, west: 12\u{a0}mm",
        // an aim, in the client's words
        "Wants to ease the neck",
        // a limit, a place, an answer, a request to look
        "Stop when brakes, hip or neck run out.",
        "Each hand ends {out}\u{a0}mm further out.",
        "Stop here. Leg pain with weakness is urgent: to a doctor today.",
        "Pain, numbness or weakness that lasts belongs with a health professional",
        "hurts at rest too, or did before the bike",
        "neck {before} to {after}",
        "The {of} is then known half a degree better from the body",
        "More spacers: have it checked that the steerer is long enough for them",
    ] {
        assert_eq!(fault(fine), None, "{fine}");
    }
    let mended = literals(
        r#"say("two \u{a0}pieces \
        of one", "next")"#,
    );
    assert_eq!(mended, ["two \u{a0}pieces of one", "next"]);
}
