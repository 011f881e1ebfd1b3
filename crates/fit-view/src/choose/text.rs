//! The advice for a terminal: the answers in order, each with what it takes and why.

use super::{Advice, Answer, Ask, Bears};
use crate::table::{WIDTH, wrapped};
use crate::words::{Caption, Words};
use fit_doc::{Session, Visit};

/// What stands before a reason.
const INDENT: usize = 4;

/// The advice in lines for a screen of so many columns.
pub fn text(
    advice: &Advice,
    ask: &Ask,
    (session, visit): (&Session, &Visit),
    columns: Option<usize>,
    words: &dyn Words,
) -> String {
    let columns = columns.unwrap_or(WIDTH).max(2 * INDENT);
    let mut out = String::new();
    let mut line = |indent: usize, text: &str| {
        for part in wrapped(text, columns - indent) {
            out.push_str(&" ".repeat(indent));
            out.push_str(&part);
            out.push('\n');
        }
    };
    for of in head(ask, session, visit, words) {
        line(0, &of);
    }
    let (before, after) = advice.said_before_and_after();
    if !before.is_empty() {
        line(0, "");
    }
    for reason in before {
        line(0, &words.reason(reason));
    }
    let title = |answer: &Answer| words.answer(answer, ask.base());
    let takes = |answer: &Answer| words.work_takes(&answer.work, visit.hour);
    for (number, (at, answer)) in advice.ideas().enumerate() {
        line(0, "");
        line(0, &words.numbered(number + 1, &title(answer)));
        if answer.is_something_to_do() {
            line(INDENT, &takes(answer));
        }
        if let Some(bar) = answer.other_bar() {
            line(INDENT, &words.of_it(words.caption(Caption::Bar), &words.card_bar(bar)));
        }
        reasons(answer, words, &mut line);
        for (index, (_, other)) in advice.like(at).enumerate() {
            if index == 0 {
                line(INDENT, &format!("{}:", words.caption(Caption::LikeIt)));
            }
            line(2 * INDENT, &format!("{} ({})", title(other), takes(other)));
        }
    }
    if !after.is_empty() {
        line(0, "");
    }
    for reason in after {
        line(0, &words.reason(reason));
    }
    if advice.stops() {
        return out;
    }
    line(0, "");
    line(0, &words.looked_through(&advice.counted));
    for of in left_out(advice, words) {
        line(INDENT, &of);
    }
    out
}

/// Whose answers these are, against what they are held, and what was looked for.
fn head(ask: &Ask, session: &Session, visit: &Visit, words: &dyn Words) -> Vec<String> {
    let bike = session.bike(&visit.bike).map_or("", |bike| bike.name.as_str());
    let base = ask.base();
    let parts = format!("{}, {}", words.card_bar(&base.bar), words.card_settings(base));
    let mut all =
        vec![words.bench(&session.client.name, bike, visit.date), words.of_it(&base.label, &parts)];
    let brings: Vec<String> =
        visit.still_bad().into_iter().map(|of| words.complaint(of, None)).collect();
    if !brings.is_empty() {
        all.push(words.of_it(words.caption(Caption::CameFor), &brings.join("; ")));
    }
    let wanted: Vec<String> = ask.wanted().iter().map(|of| words.wanted(of)).collect();
    let looked_for = match (wanted.is_empty(), visit.complaints.is_empty()) {
        (true, true) => words.caption(Caption::NothingLookedFor).to_owned(),
        (true, false) => words.caption(Caption::NothingFollows).to_owned(),
        (false, _) => wanted.join("; "),
    };
    all.push(words.of_it(words.caption(Caption::LookedFor), &looked_for));
    let stays: Vec<&str> = visit.bounds.stays.iter().map(|of| words.stays(*of)).collect();
    if !stays.is_empty() {
        all.push(words.of_it(words.caption(Caption::MustStay), &stays.join(", ")));
    }
    all
}

/// What was left out and why, a line each.
pub fn left_out(advice: &Advice, words: &dyn Words) -> Vec<String> {
    let of = &advice.counted;
    let mut all: Vec<String> = advice.given_up.iter().map(|of| words.given_up(of)).collect();
    all.extend(of.left_out.iter().map(|(&why, &count)| words.left_out(why, count)));
    all.extend(of.not_offered.iter().map(|(&why, &count)| words.not_offered(why, count)));
    all.extend((advice.tipped > 0).then(|| words.tipped_answers(advice.tipped)));
    all.extend((advice.lifted > 0).then(|| words.head_lifted_answers(advice.lifted)));
    all.extend((advice.too_small > 0).then(|| words.too_small_answers(advice.too_small)));
    all.extend((advice.no_more > 0).then(|| words.no_more_answers(advice.no_more)));
    let alike = advice.ridden_alike;
    all.extend((alike > 0).then(|| words.ridden_alike_answers(alike)));
    all
}

fn reasons(answer: &Answer, words: &dyn Words, line: &mut impl FnMut(usize, &str)) {
    for bears in Bears::ALL {
        let mut of = answer.reasons.iter().filter(|of| of.bears() == bears).peekable();
        if of.peek().is_some() {
            line(INDENT, &format!("{}:", words.bears(bears)));
        }
        for reason in of {
            line(2 * INDENT, &words.reason(reason));
        }
    }
}
