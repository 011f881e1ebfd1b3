//! What must be chosen for each complaint (`tests/clients/choices.txt`), written before the code that
//! chooses, held over what `choose --json` prints.

use crate::cases;
use crate::people::people;
use fit_doc::work::Job;
use fit_doc::{Session, Stock};
use fit_math::body::Survey;
use fit_view::choose::{Ask, Progress, Step, json};
use fit_view::weigh::weigh_visit;
use fit_view::words::English;
use serde_json::Value;

/// The answers looked at.
const BEST: usize = 12;

/// A case of the file: its name, and its lines over the answers.
struct Case {
    name: String,
    lines: Vec<String>,
}

fn cases_of(text: &str) -> Vec<Case> {
    let mut all: Vec<Case> = Vec::new();
    for line in text.lines() {
        let line = line.split('#').next().unwrap().trim_end();
        if let Some(name) = line.strip_prefix("case ") {
            all.push(Case { name: name.trim().to_owned(), lines: Vec::new() });
        } else if let Some(case) = all.last_mut().filter(|_| !line.trim().is_empty()) {
            // who it is comes first, and then nothing but claims
            let is_claim = is_claim(line.trim());
            assert!(is_claim || case.lines.is_empty(), "{}: “{line}” claims nothing", case.name);
            case.lines.extend(is_claim.then(|| line.trim().to_owned()));
        }
    }
    all
}

/// Every step that an answer may have.
fn is_step(of: &str) -> bool {
    let jobs = Job::ALL.into_iter().map(Step::Cockpit);
    let others = [Step::AsItIs, Step::Saddle, Step::NotTheBar, Step::TheFrame];
    jobs.chain(others).any(|step| step.id() == of)
}

/// Whether a line is about the answers, and not about the client.
fn is_claim(line: &str) -> bool {
    let words: Vec<&str> = line.split_whitespace().collect();
    matches!(
        words[..],
        ["first" | "no" | "says" | "unsaid", ..]
            | [_, "before" | "no", _]
            | [_, _, "<" | "<=" | ">" | ">=", ..]
    )
}

/// What `choose --json` prints for a session, all answers.
fn chosen(session: &Session, stock: &Stock) -> Value {
    let survey = Survey::shipped().unwrap();
    let visit = session.latest_visit().unwrap();
    let weighed = weigh_visit(session, visit, &survey).unwrap();
    let ask = Ask::new(session, visit, &weighed, stock).unwrap();
    let outcome = ask.search(&Progress::default()).unwrap().unwrap();
    let advice = ask.advise(session, visit, &survey, &outcome, BEST, &English).unwrap();
    let text = json(&advice, &ask, &English).unwrap();
    serde_json::from_str(&text).unwrap()
}

fn steps(output: &Value) -> Vec<&str> {
    output["answers"].as_array().unwrap().iter().map(|of| of["step"].as_str().unwrap()).collect()
}

/// The cockpit of the best answer of that step, or the one as it came.
fn cockpit<'a>(output: &'a Value, step: &str) -> Option<&'a Value> {
    let id = if step == "came" {
        output["against"].as_str()?
    } else {
        let answers = output["answers"].as_array()?;
        answers.iter().find(|of| of["step"] == step)?["cockpit"].as_str()?
    };
    let cockpits = output["weighed"]["cockpits"].as_array()?;
    cockpits.iter().find(|of| of["id"] == id)
}

/// A number of a cockpit; of two hands, where no side is named, the lesser.
fn number(of: &Value, path: &str) -> Option<f64> {
    let at = |path: &str| of.pointer(&format!("/{path}")).and_then(Value::as_f64);
    at(path).or_else(|| {
        let (place, key) = path.rsplit_once('/')?;
        let sides = ["left", "right"].map(|side| {
            at(&format!("{place}/{side}/{key}"))
                .or_else(|| at(&format!("{place}/{side}/now/{key}")))
        });
        Some(sides[0]?.min(sides[1]?))
    })
}

/// Whether a rule speaks, of an answer or of all.
fn says(output: &Value, rule: &str) -> bool {
    let answers = output["answers"].as_array().unwrap();
    let reasons = answers.iter().flat_map(|of| of["reasons"].as_array().unwrap());
    let mut said = output["said"].as_array().unwrap().iter().chain(reasons);
    said.any(|reason| reason["rule"] == rule)
}

/// What an answer that was not ridden tips the hand on the hoods further from its forearm, where that is more
/// than 10°, or 15° of a lever along its own bend: nobody here said that he lies elsewhere most.
fn tipped_by(output: &Value) -> Option<f64> {
    let cockpits = output["weighed"]["cockpits"].as_array()?;
    let find = |id: &Value| cockpits.iter().find(|of| of["id"] == *id);
    let off = |of: &Value| number(of, "places/hoods/wrist_line");
    let before = off(find(&output["against"])?)?;
    let answers = output["answers"].as_array()?.iter().filter(|of| of["ridden"] == false);
    let after = answers.filter_map(|of| {
        let most = if of["step"] == "lever" { 15.01 } else { 10.01 };
        Some((off(find(&of["cockpit"])?)?, most))
    });
    let further = after.filter(|(of, _)| of.abs() > before.abs());
    let mut by = further.map(|(of, most)| ((of - before).abs(), most));
    by.find(|(deg, most)| deg > most).map(|(deg, _)| deg)
}

/// Whether a line holds, else what stands there.
fn held(output: &Value, line: &str) -> Result<(), String> {
    let steps = steps(output);
    let place = |step: &str| {
        assert!(is_step(step), "“{line}”: there is no step {step}");
        steps.iter().position(|of| *of == step)
    };
    let words: Vec<&str> = line.split_whitespace().collect();
    let told = |holds: bool| if holds { Ok(()) } else { Err(format!("{steps:?}")) };
    match words[..] {
        ["first", step] => told(place(step) == Some(0)),
        ["no", "bar", "narrower", "than", mm] => {
            let least: f64 = mm.parse().unwrap();
            let answers = output["answers"].as_array().unwrap();
            let bars = answers.iter().filter(|of| of["step"] == "bar");
            let widths: Vec<f64> = bars
                .filter_map(|of| {
                    let cockpits = output["weighed"]["cockpits"].as_array()?;
                    let cockpit = cockpits.iter().find(|to| to["id"] == of["cockpit"])?;
                    number(cockpit, "bar/width_hoods_cc")
                })
                .collect();
            let holds = !widths.is_empty() && widths.iter().all(|width| *width >= least);
            if holds { Ok(()) } else { Err(format!("{widths:?}")) }
        }
        ["no", step] => told(place(step).is_none()),
        [one, "before", other] if one == other => {
            assert!(is_step(one), "“{line}”: there is no step {one}");
            told(steps.iter().filter(|of| **of == one).count() > 1)
        }
        // a line about an answer that there is not would hold whatever is chosen
        [one, "before", other] => match (place(one), place(other)) {
            (Some(one), Some(other)) => told(one < other),
            (None, _) => Err(format!("no {one}: {steps:?}")),
            (_, None) => Err(format!("no {other}: {steps:?}")),
        },
        [one, "no", other] => {
            let one = one.strip_suffix(',').unwrap_or_else(|| panic!("“{line}” says nothing"));
            told(place(one).is_some() && place(other).is_none())
        }
        ["says", rule] => told(says(output, rule)),
        ["unsaid", rule] => told(!says(output, rule)),
        [step, path, relation, ref right @ ..] => {
            let of = |step: &str, path: &str| {
                let cockpit = cockpit(output, step).ok_or(format!("no {step}: {steps:?}"))?;
                number(cockpit, path).ok_or(format!("no {path} of {step}"))
            };
            let left = of(step, path)?;
            let right = match right {
                [number] => number.parse().unwrap(),
                [step, path] => of(step, path)?,
                [step, path, "+", more] => of(step, path)? + more.parse::<f64>().unwrap(),
                [step, path, "-", less] => of(step, path)? - less.parse::<f64>().unwrap(),
                _ => panic!("“{line}” says nothing"),
            };
            let holds = match relation {
                "<" => left < right,
                "<=" => left <= right,
                ">" => left > right,
                ">=" => left >= right,
                _ => panic!("“{line}” says nothing"),
            };
            if holds { Ok(()) } else { Err(format!("{left} and {right}")) }
        }
        _ => panic!("“{line}” says nothing"),
    }
}

#[test]
fn what_must_be_chosen_for_each_complaint_is_chosen() {
    let read = |file: &str| {
        std::fs::read_to_string(acceptance::root().join("tests/clients").join(file)).unwrap()
    };
    let people = people(&read("expected.txt"));
    let all = cases_of(&read("choices.txt"));
    assert!(all.len() >= 25, "{}", all.len());
    let (mut wrong, mut lines) = (Vec::new(), 0);
    for case in &all {
        let (session, stock) = cases::of(&case.name, &people);
        let output = chosen(&session, &stock);
        assert!(!case.lines.is_empty(), "{} says nothing", case.name);
        wrong.extend(tipped_by(&output).map(|deg| format!("{}: tipped by {deg}°", case.name)));
        for line in &case.lines {
            lines += 1;
            if let Err(why) = held(&output, line) {
                wrong.push(format!("{}: {line} ({why})", case.name));
            }
        }
    }
    println!("{lines} lines of {} cases", all.len());
    assert!(wrong.is_empty(), "{} of {lines} do not hold:\n{}", wrong.len(), wrong.join("\n"));
}

/// How far the hoods of one cockpit are from those of another, side view, mm.
fn hoods_apart(one: &Value, other: &Value) -> Option<f64> {
    let at = |of: &Value, axis: usize| of.pointer(&format!("/places/hoods/grip/{axis}"))?.as_f64();
    Some((at(one, 0)? - at(other, 0)?).hypot(at(one, 1)? - at(other, 1)?))
}

/// Whether what a reason claims is borne by the exact numbers of its cockpit; none where it claims
/// nothing that is looked at here.
fn is_earned(output: &Value, answer: &Value, reason: &Value) -> Option<bool> {
    let cockpits = output["weighed"]["cockpits"].as_array()?;
    let find = |id: &Value| cockpits.iter().find(|of| of["id"] == *id);
    let (base, to) = (find(&output["against"])?, find(&answer["cockpit"])?);
    let text = reason["text"].as_str()?;
    match reason["rule"].as_str()? {
        "brake-reached" => {
            let place = if text.contains("hoods") { "hoods" } else { "drops" };
            let spare = |of| number(of, &format!("brake/{place}/reserve"));
            let reached = text.starts_with("The fingers reach");
            // what is shown as nought may lack half a millimetre
            Some(spare(to)? > spare(base)? && (!reached || spare(to)? >= -0.5))
        }
        "hoods-held" => Some(hoods_apart(base, to)? < 5.0),
        "nothing-bought" => {
            Some(answer["bought"].as_array()?.is_empty() && answer["parts"].as_f64()? == 0.0)
        }
        "outline" if reason["bears"] == "for" => {
            let area = |of| number(of, "places/hoods/outline");
            Some(area(to)? < area(base)?)
        }
        _ => None,
    }
}

/// Nothing is said for an answer that its numbers do not bear.
#[test]
fn nothing_speaks_for_an_answer_that_its_numbers_do_not_bear() {
    let read = |file: &str| {
        std::fs::read_to_string(acceptance::root().join("tests/clients").join(file)).unwrap()
    };
    let people = people(&read("expected.txt"));
    let (mut looked_at, mut wrong) = (std::collections::BTreeMap::new(), Vec::new());
    for case in cases_of(&read("choices.txt")) {
        let (session, stock) = cases::of(&case.name, &people);
        let output = chosen(&session, &stock);
        for answer in output["answers"].as_array().unwrap() {
            for reason in answer["reasons"].as_array().unwrap() {
                let Some(earned) = is_earned(&output, answer, reason) else { continue };
                *looked_at.entry(reason["rule"].as_str().unwrap().to_owned()).or_insert(0) += 1;
                if !earned {
                    wrong.push(format!("{}: {}: {}", case.name, answer["text"], reason["text"]));
                }
            }
        }
    }
    let rules = ["brake-reached", "hoods-held", "nothing-bought", "outline"];
    assert!(rules.iter().all(|rule| looked_at.contains_key(*rule)), "{looked_at:?}");
    assert!(wrong.is_empty(), "{wrong:#?}");
}
