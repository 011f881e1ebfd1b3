//! What must be chosen for each complaint (`tests/clients/choices.txt`), written before the code that
//! chooses, held over what `choose --json` prints.

use crate::cases;
use crate::people::people;
use fit_doc::work::Job;
use fit_doc::{Session, Stock};
use fit_math::body::Survey;
use fit_view::choose::{Advice, Answer, Ask, Progress, Step, json};
use fit_view::weigh::weigh_visit;
use fit_view::words::English;
use serde_json::Value;
use std::sync::LazyLock;

/// The answers looked at.
const BEST: usize = 12;

/// A case of the file: its name, and its lines over the answers.
struct Case {
    name: String,
    lines: Vec<String>,
}

/// What came of a case, as it is told and as `choose --json` prints it.
pub(crate) struct Chosen {
    pub(crate) name: String,
    lines: Vec<String>,
    pub(crate) advice: Advice,
    pub(crate) output: Value,
}

/// What came of every case, worked out once.
pub(crate) static CHOSEN: LazyLock<Vec<Chosen>> = LazyLock::new(|| {
    let read = |file: &str| {
        std::fs::read_to_string(acceptance::root().join("tests/clients").join(file)).unwrap()
    };
    let people = people(&read("expected.txt"));
    let chosen = |Case { name, lines }: Case| {
        let (session, stock) = cases::of(&name, &people);
        let (advice, output) = chosen(&session, &stock);
        Chosen { name, lines, advice, output }
    };
    cases_of(&read("choices.txt")).into_iter().map(chosen).collect()
});

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

/// What comes of a session, and what `choose --json` prints of it, all answers.
fn chosen(session: &Session, stock: &Stock) -> (Advice, Value) {
    let survey = Survey::shipped().unwrap();
    let visit = session.latest_visit().unwrap();
    let weighed = weigh_visit(session, visit, &survey).unwrap();
    let ask = Ask::new(session, visit, &weighed, stock).unwrap();
    let outcome = ask.search(&Progress::default()).unwrap().unwrap();
    let advice = ask.advise(session, visit, &survey, &outcome, BEST, &English).unwrap();
    let text = json(&advice, &ask, &English).unwrap();
    (advice, serde_json::from_str(&text).unwrap())
}

fn steps(output: &Value) -> Vec<&str> {
    output["answers"].as_array().unwrap().iter().map(|of| of["step"].as_str().unwrap()).collect()
}

/// Of each answer all that is done for it, by the names of steps: its dearest is but one of them.
fn parts(advice: &Advice) -> Vec<Vec<&'static str>> {
    let of = |answer: &Answer| {
        let jobs = answer.work.steps.iter().map(|step| Step::Cockpit(step.job).id());
        let mut all: Vec<_> = core::iter::once(answer.step.id()).chain(jobs).collect();
        all.sort_unstable();
        all.dedup();
        all
    };
    advice.answers.iter().map(of).collect()
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
pub(crate) fn number(of: &Value, path: &str) -> Option<f64> {
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
fn held(Chosen { output, advice, .. }: &Chosen, line: &str) -> Result<(), String> {
    let (steps, parts) = (steps(output), parts(advice));
    let place = |step: &str| {
        assert!(is_step(step), "“{line}”: there is no step {step}");
        steps.iter().position(|of| *of == step)
    };
    let words: Vec<&str> = line.split_whitespace().collect();
    let told = |holds: bool| if holds { Ok(()) } else { Err(format!("{parts:?}")) };
    // whatever else is done with it
    let takes = |step: &str| parts.iter().any(|of| of.contains(&step));
    match words[..] {
        ["first", step] => told(place(step) == Some(0) && parts[0].len() == 1),
        ["first", step, "with", other] => {
            told(place(step) == Some(0) && place(other).is_none() && parts[0].contains(&other))
        }
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
        ["no", step] => {
            assert!(is_step(step), "“{line}”: there is no step {step}");
            told(!takes(step))
        }
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
            assert!(is_step(other), "“{line}”: there is no step {other}");
            told(place(one).is_some() && !takes(other))
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
    let all = &*CHOSEN;
    assert!(all.len() >= 76, "{}", all.len());
    let (mut wrong, mut lines) = (Vec::new(), 0);
    for chosen in all {
        let Chosen { name, lines: claims, output, .. } = chosen;
        assert!(!claims.is_empty(), "{name} says nothing");
        wrong.extend(tipped_by(output).map(|deg| format!("{name}: tipped by {deg}°")));
        for line in claims {
            lines += 1;
            if let Err(why) = held(chosen, line) {
                wrong.push(format!("{name}: {line} ({why})"));
            }
        }
    }
    println!("{lines} lines of {} cases", all.len());
    assert!(wrong.is_empty(), "{} of {lines} do not hold:\n{}", wrong.len(), wrong.join("\n"));
}
