//! What is said of an answer, held against the exact numbers of its cockpit: every rule that states a number or
//! a direction.

use crate::choices::{CHOSEN, Chosen, number};
use fit_doc::Cockpit;
use fit_doc::edit::carry_levers;
use fit_doc::work::{Job, Work};
use fit_view::choose::{Answer, Bears, Reason};
use fit_view::table::{Axis, Question, told};
use fit_view::weigh::{Weighed, WeighedCockpit, place_id};
use serde_json::Value;
use std::collections::BTreeMap;

/// A whole number is off by half of one; a change is between two of them.
const ROUNDED: f64 = 0.51;
const CHANGED: f64 = 1.01;
/// Hands that move less than 2 mm along an axis are told as not moved along it.
const SAME: f64 = 2.01;
/// What moves so far is felt, mm (common practice, no source).
const FELT_MM: f64 = 10.5;

/// The exact number that a row is about.
fn exact(of: &Value, row: Question) -> Option<f64> {
    let at = |place, key: &str| number(of, &format!("places/{}/{key}", place_id(place)));
    match row {
        Question::Trunk(place) => at(place, "trunk"),
        Question::Neck(place) => at(place, "neck"),
        Question::Hip(place) => at(place, "hip_min"),
        Question::Elbow(place) => at(place, "elbow"),
        Question::Wrist(place) => at(place, "wrist_line"),
        Question::Moved(place, Axis::Forward) => at(place, "grip/0"),
        Question::Moved(place, Axis::Up) => at(place, "grip/1"),
        Question::Brake(place) => number(of, &format!("brake/{}/reserve", place_id(place))),
        Question::WidthAtHoods => number(of, "bar/width_hoods_cc"),
        _ => None,
    }
}

/// What is compared: the cockpit that answers are held against, and that of an answer.
struct Two<'a> {
    /// Everything that was weighed with them, and as it was printed.
    all: &'a [(&'a WeighedCockpit, &'a Value)],
    weighed: &'a Weighed,
    base: &'a Value,
    to: &'a Value,
}

impl Two<'_> {
    fn by(&self, row: Question) -> Option<f64> {
        Some(exact(self.to, row)? - exact(self.base, row)?)
    }

    /// Whether a row changes by so much, the same way.
    fn changes(&self, row: Question, by: i64) -> Option<bool> {
        let (exact, by) = (self.by(row)?, by as f64);
        let off = if matches!(row, Question::Moved(..)) { SAME } else { CHANGED };
        Some(match row {
            // which side is which of a hand is told in words
            Question::Wrist(_) => (exact.abs() - by.abs()).abs() < off,
            _ => (exact - by).abs() < off && exact * by > 0.0,
        })
    }

    fn moves(&self, place: fit_doc::HandPlace, (forward, up): (i64, i64)) -> Option<bool> {
        let off = |axis, mm: i64| Some((self.by(Question::Moved(place, axis))? - mm as f64).abs());
        Some(off(Axis::Forward, forward)? < SAME && off(Axis::Up, up)? < SAME)
    }

    /// Whether a change of a row is more than chance may have made.
    fn tells(&self, row: Question, of: &WeighedCockpit) -> bool {
        let base = self.weighed.cockpits.iter().find(|of| self.base["id"] == of.id.as_str());
        told(row, of, base, self.weighed).doubt.is_none_or(|doubt| doubt.tells)
    }

    /// Whether the most that those do of which it is said is so much, the way that is wanted (+1, −1) or nothing
    /// that way; none where none of them is there.
    fn most_is(
        &self,
        (row, way): (Question, f64),
        by: Option<i64>,
        only_what_tells: bool,
        is_said_of: impl Fn(&Cockpit) -> bool,
    ) -> Option<bool> {
        self.all.iter().find(|(of, _)| is_said_of(&of.parts))?;
        let base = exact(self.base, row)?;
        let off = if matches!(row, Question::Moved(..)) { SAME } else { CHANGED };
        let of_it = self.all.iter().filter(|(of, _)| is_said_of(&of.parts));
        let of_it = of_it.filter(|(of, _)| !only_what_tells || self.tells(row, of));
        let does = of_it.filter_map(|(_, of)| Some(way * (exact(of, row)? - base)));
        let most = does.max_by(f64::total_cmp).unwrap_or(0.0);
        Some((most.max(0.0) - way * by.unwrap_or(0) as f64).abs() < off)
    }
}

/// Whether a cockpit is another with that one thing done to it, and nothing set in its course.
fn is_alone(base: &Cockpit, of: &Cockpit, job: Job) -> bool {
    if job == Job::OtherBar {
        let mut with = Cockpit { bar: of.bar.clone(), ..base.clone() };
        return of.bar.id != base.bar.id
            && carry_levers(base, &mut with).is_ok()
            && with.is_set_up_as(of);
    }
    let work = Work::between(base, of);
    let clicks =
        |of: &Cockpit| of.levers.as_ref().map(|levers| (levers.left.clicks, levers.right.clicks));
    let same = |of_job, same: bool| job == of_job || same;
    matches!(work.steps[..], [ref step] if step.job == job)
        && same(Job::Roll, of.roll_deg == base.roll_deg)
        && (job == Job::OtherLevers || same(Job::ReachScrew, clicks(of) == clicks(base)))
        && same(Job::HandInDrops, of.drops_hand_mm == base.drops_hand_mm)
}

/// The way that is wanted of a row; none where either may be.
const fn wanted_way(row: Question) -> Option<f64> {
    match row {
        Question::Neck(_) => Some(-1.0),
        Question::Trunk(_)
        | Question::Elbow(_)
        | Question::Brake(_)
        | Question::Moved(_, Axis::Up) => Some(1.0),
        _ => None,
    }
}

fn is_near(of: Option<f64>, whole: i64) -> Option<bool> {
    Some((of? - whole as f64).abs() < ROUNDED)
}

/// Whether what a reason claims is borne by the exact numbers; none where it claims nothing that is weighed.
fn is_borne(two: &Two<'_>, answer: &Answer, base: &Cockpit, of: &Reason) -> Option<bool> {
    use fit_doc::HandPlace::{Drops, Hoods, Tops};
    let parts = answer.cockpit.as_ref();
    let width = || two.by(Question::WidthAtHoods);
    Some(match *of {
        Reason::Better { question, by, .. } | Reason::Worse { question, by, .. } => {
            two.changes(question, by)?
        }
        Reason::Brake { place, before_mm, after_mm, .. } => {
            let row = Question::Brake(place);
            is_near(exact(two.base, row), before_mm)?
                && is_near(exact(two.to, row), after_mm)?
                && two.by(row)? > 0.0
        }
        Reason::StillOutOfReach { place, mm } => {
            is_near(exact(two.to, Question::Brake(place)), -mm)?
        }
        Reason::TailFalls { by_deg } => {
            let slope = |of: &Cockpit| of.bar.tail_slope_deg + of.roll_deg;
            is_near(Some(slope(parts?) - slope(base)), by_deg)? && by_deg > 0
        }
        Reason::NearShoulders { before_mm, after_mm } => {
            let nearer = before_mm - after_mm;
            nearer > 0 && nearer as f64 <= width()?.abs() + CHANGED
        }
        Reason::UnderShoulders { by_mm } => by_mm > 0 && width()? < 0.0,
        // hands further out take less effort
        Reason::Steering { percent } => {
            let out = |of| number(of, "places/hoods/grip/2").map(f64::abs);
            let exact = 100.0 * (out(two.base)? / out(two.to)? - 1.0);
            (exact - percent as f64).abs() < CHANGED && exact * percent as f64 > 0.0
        }
        Reason::Outline { place, percent } => {
            let area = |of| number(of, &format!("places/{}/outline", place_id(place)));
            is_near(Some(100.0 * (area(two.to)? / area(two.base)? - 1.0)), percent)?
        }
        Reason::SqueezeGap { mm } => is_near(number(two.to, "brake/drops/squeeze_gap"), mm)?,
        Reason::SmootherHoods { before_deg, after_deg } => {
            let off = |of| number(of, "hood_transition").map(f64::abs);
            is_near(off(two.base), before_deg)? && is_near(off(two.to), after_deg)?
        }
        Reason::HoodsMove { forward_mm, up_mm } | Reason::HoodsGo { forward_mm, up_mm } => {
            two.moves(Hoods, (forward_mm, up_mm))?
        }
        Reason::Hoses { by: Some(by) } => two.moves(Hoods, by)?,
        Reason::RaisingLiftsHoods { mm } | Reason::BarLiftsHoods { mm } => {
            two.changes(Question::Moved(Hoods, Axis::Up), mm)?
        }
        Reason::StemMovesTops { mm } => two.changes(Question::Moved(Tops, Axis::Forward), -mm)?,
        Reason::Steerer { mm } => is_near(Some(parts?.spacers_mm - base.spacers_mm), mm)?,
        Reason::HeldForward { mm } => {
            is_near(Some(parts?.drops_hand_mm - base.drops_hand_mm), mm)?
                && two.by(Question::Moved(Drops, Axis::Forward)).is_some()
        }
        // the answer does more, and the job by itself no more than is said
        Reason::BarAloneRarely { question, by } => {
            let way = two.by(question)?.signum();
            let by = Some(by).filter(|by| *by != 0);
            two.most_is((question, way), by, true, |of| is_alone(base, of, Job::OtherBar))?
        }
        Reason::DoesLess { question, by, job } => {
            let way = two.by(question)?.signum();
            two.most_is((question, way), by, true, |of| is_alone(base, of, job))?
        }
        Reason::NothingBeatsIt { row, most, .. } => {
            let way = most.map_or_else(|| wanted_way(row?), |by| Some(by.signum() as f64));
            two.most_is((row?, way?), most, false, |of| !of.is_set_up_as(base))?
        }
        Reason::HoodsHeld { out_mm } => {
            let by = |axis| two.by(Question::Moved(Hoods, axis));
            let across = |of| number(of, "places/hoods/grip/2").map(f64::abs);
            let out = across(two.to)? - across(two.base)?;
            by(Axis::Forward)?.hypot(by(Axis::Up)?) < 5.0
                && if out_mm == 0 { out.abs() < 5.0 + CHANGED } else { is_near(Some(out), out_mm)? }
        }
        Reason::NothingBought => answer.work.parts().cents == 0 && !answer.work.price_unknown(),
        _ => return None,
    })
}

/// Every answer of every case with its cockpits.
fn each(mut look: impl FnMut(&Chosen, &Answer, &Cockpit, &Two<'_>)) {
    for chosen in CHOSEN.iter() {
        let all = chosen.output["weighed"]["cockpits"].as_array().unwrap();
        let find = |id: &str| all.iter().find(|of| of["id"] == id).unwrap();
        let weighed = chosen.advice.weighed.cockpits.iter();
        let with_parts: Vec<_> = weighed.map(|of| (of, find(&of.id))).collect();
        let stays =
            chosen.advice.answers.iter().find(|of| of.work.is_none() && of.cockpit.is_some());
        let base = stays.and_then(|of| of.cockpit.as_ref()).unwrap();
        for answer in &chosen.advice.answers {
            let Some(cockpit) = &answer.cockpit else { continue };
            let weighed = &chosen.advice.weighed;
            let two =
                Two { all: &with_parts, weighed, base: find(&base.id), to: find(&cockpit.id) };
            look(chosen, answer, base, &two);
        }
    }
}

/// Nothing is said of an answer that its numbers do not bear.
#[test]
fn nothing_is_said_of_an_answer_that_its_numbers_do_not_bear() {
    let (mut looked_at, mut wrong) = (BTreeMap::new(), Vec::new());
    each(|chosen, answer, base, two| {
        for reason in &answer.reasons {
            let Some(borne) = is_borne(two, answer, base, reason) else { continue };
            *looked_at.entry(reason.rule()).or_insert(0) += 1;
            if !borne {
                wrong.push(format!("{}: {:?}: {reason:?}", chosen.name, answer.step));
            }
        }
    });
    println!("{looked_at:?}");
    let rules = [
        "another-bar-does-little",
        "better",
        "brake-reached",
        "does-less",
        "held-forward",
        "hoods-held",
        "hoods-move",
        "hoses",
        "near-shoulders",
        "nothing-bought",
        "outline",
        "raising-lifts-hoods",
        "smoother-hoods",
        "squeeze-gap",
        "steerer",
        "steering",
        "stem-moves-tops",
        "still-out-of-reach",
        "tail-falls",
        "worse",
    ];
    let missing: Vec<_> = rules.iter().filter(|rule| !looked_at.contains_key(**rule)).collect();
    assert!(missing.is_empty(), "nothing says {missing:?}");
    assert!(wrong.is_empty(), "{wrong:#?}");
}

/// What leaving it gives up is what the first answer at which something is done does.
#[test]
fn what_is_given_up_is_what_the_first_answer_does() {
    let mut told = 0;
    for chosen in CHOSEN.iter() {
        let answers = &chosen.advice.answers;
        let mut first = None;
        each(|of, answer, _, two| {
            if of.name == chosen.name && first.is_none() && answer.is_something_to_do() {
                let given_up = answers.iter().flat_map(|of| &of.reasons);
                first = Some(
                    given_up
                        .filter_map(|of| match of {
                            Reason::GivesUp { question, by, .. } => two.changes(*question, *by),
                            _ => None,
                        })
                        .collect::<Vec<_>>(),
                );
            }
        });
        let first = first.unwrap_or_default();
        told += first.len();
        assert!(first.iter().all(|of| *of), "{}", chosen.name);
    }
    assert!(told > 20, "{told}");
}

/// Something speaks for every answer at which something is done, beyond that it costs nothing; and where its hoods
/// go, by as much as is felt, is said.
#[test]
fn every_answer_says_what_speaks_for_it_and_where_its_hoods_go() {
    let (mut wrong, mut looked_at) = (Vec::new(), 0);
    each(|chosen, answer, _, two| {
        if !answer.is_something_to_do() {
            return;
        }
        looked_at += 1;
        let speaks =
            |of: &&Reason| of.bears() == Bears::For && !matches!(of, Reason::NothingBought);
        if !answer.reasons.iter().any(|of| speaks(&of)) {
            wrong.push(format!("{}: nothing for {:?}", chosen.name, answer.step));
        }
        let by = |axis| two.by(Question::Moved(fit_doc::HandPlace::Hoods, axis)).unwrap();
        let says = |of: &Reason| {
            let moved =
                |row: &Question| matches!(row, Question::Moved(fit_doc::HandPlace::Hoods, _));
            matches!(
                of,
                Reason::Hoses { by: Some(_) }
                    | Reason::HoodsMove { .. }
                    | Reason::HoodsGo { .. }
                    | Reason::RaisingLiftsHoods { .. }
                    | Reason::BarLiftsHoods { .. }
            ) || of.behind().is_some_and(|row| moved(&row))
        };
        let far = by(Axis::Forward).hypot(by(Axis::Up)) >= FELT_MM;
        if far && !answer.reasons.iter().any(says) {
            wrong.push(format!("{}: the hoods of {:?}", chosen.name, answer.step));
        }
    });
    assert!(looked_at > 100, "{looked_at}");
    assert!(wrong.is_empty(), "{wrong:#?}");
}

/// Who only wants another bar gets those that have the hoods where they are, also from side to side.
#[test]
fn a_new_bar_matches_the_hoods_also_from_side_to_side() {
    let (mut looked_at, mut wrong) = (0, Vec::new());
    each(|chosen, answer, _, two| {
        if !chosen.name.starts_with("new-bar") || !answer.is_something_to_do() {
            return;
        }
        looked_at += 1;
        let out = |of| number(of, "places/hoods/grip/2").map(f64::abs).unwrap();
        let by = out(two.to) - out(two.base);
        if by.abs() >= FELT_MM {
            wrong.push(format!("{}: {by} mm in {:?}", chosen.name, answer.step));
        }
    });
    assert!(looked_at > 2, "{looked_at}");
    assert!(wrong.is_empty(), "{wrong:#?}");
}
