//! Why a cockpit may be left as it is, and what that gives up: rules over all that was found, since there
//! is no change of its own to look at.

use super::reason::Reason;
use super::rules::{is_too_small, row_of};
use crate::table::{Change, Question, told};
use crate::weigh::{Weighed, WeighedCockpit};
use fit_doc::Wanted;

/// What was found, weighed beside the cockpit that it is held against.
pub(super) struct Beside<'a> {
    pub(super) weighed: &'a Weighed,
    pub(super) wanted: &'a [Wanted],
    pub(super) base: &'a WeighedCockpit,
    /// How many assemblies were looked through.
    pub(super) looked: u64,
    /// The best of each step, by itself and with others.
    pub(super) steps: &'a [&'a WeighedCockpit],
}

impl Beside<'_> {
    /// How much a row changes the way that is wanted, and whether that tells; nothing where it does not.
    fn gain(&self, question: Question, way: i64, of: &WeighedCockpit) -> Option<(i64, bool)> {
        let cell = told(question, of, Some(self.base), self.weighed);
        match cell.change {
            Change::By(by) if by * way > 0 => Some((by, !is_too_small(cell.doubt))),
            _ => None,
        }
    }

    /// None of all that was looked through is worth what it takes: of what is wanted first, the most that
    /// a step does.
    pub(super) fn nothing_beats_it(&self) -> Reason {
        let row = self.wanted.iter().find_map(row_of);
        let most = row.and_then(|(question, way)| {
            let gains = self.steps.iter().filter_map(|of| self.gain(question, way, of));
            gains.map(|(by, _)| by).max_by_key(|by| by * way)
        });
        Reason::NothingBeatsIt { looked: self.looked, row: row.map(|(row, _)| row), most }
    }

    /// What the first answer, under that title, does of what is wanted: the first of it that tells.
    pub(super) fn gives_up(&self, first: &WeighedCockpit, title: &str) -> Option<Reason> {
        self.wanted.iter().filter_map(row_of).find_map(|(question, way)| {
            let (by, _) = self.gain(question, way, first).filter(|(_, tells)| *tells)?;
            Some(Reason::GivesUp { answer: title.to_owned(), question, by })
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::choose::Bears;
    use crate::testing::{bar, cockpit, deep, session};
    use crate::weigh::{Survey, weigh};
    use fit_doc::{Aim, Cockpit, Family, HandPlace};

    fn raised(id: &str, by_mm: f64) -> Cockpit {
        let came = deep();
        Cockpit { spacers_mm: came.spacers_mm + by_mm, ..came.with_name(id, id) }
    }

    /// What is said beside steps of so many mm of spacers each, the first of them the first answer.
    fn said(steps_mm: &[f64], wanted: &[Wanted]) -> (Reason, Option<Reason>) {
        let bench = steps_mm.iter().enumerate().map(|(at, mm)| raised(&format!("step-{at}"), *mm));
        said_of(bench.collect(), wanted)
    }

    /// The same beside any steps.
    fn said_of(bench: Vec<Cockpit>, wanted: &[Wanted]) -> (Reason, Option<Reason>) {
        let weighed = weigh(&session(bench), None, &Survey::shipped().unwrap()).unwrap();
        let (base, steps) = weighed.cockpits.split_first().unwrap();
        let steps: Vec<&WeighedCockpit> = steps.iter().collect();
        let beside = Beside { weighed: &weighed, wanted, base, looked: 4312, steps: &steps };
        (beside.nothing_beats_it(), beside.gives_up(steps[0], "Spacers"))
    }

    #[test]
    fn the_most_of_any_step_is_told_and_what_the_first_answer_does() {
        let neck = Wanted::new(Aim::EaseNeck).at(HandPlace::Hoods);
        let row = Question::Neck(HandPlace::Hoods);
        let (nothing, gives_up) = said(&[20.0, 40.0, -15.0], &[Wanted::new(Aim::HoodsStay), neck]);
        let Reason::NothingBeatsIt { looked: 4312, row: Some(of), most: Some(most) } = nothing
        else {
            panic!("{nothing:?}")
        };
        let Some(Reason::GivesUp { answer, question, by }) = gives_up else {
            panic!("{gives_up:?}")
        };
        assert_eq!((of, question), (row, row));
        // 40 mm do more than the first answer's 20, and both ask less of the neck
        assert!(most < by && by < 0, "{most} and {by}");
        assert_eq!(nothing.bears(), Bears::For);
        assert!(!nothing.is_about_an_aim());
        assert_eq!(answer, "Spacers");
        assert_eq!(Reason::GivesUp { answer, question, by }.bears(), Bears::Against);
    }

    /// What is too small to speak for an answer is no reason against leaving it.
    #[test]
    fn what_is_too_small_of_the_first_answer_is_not_given_up() {
        // bars a millimetre less deep each, known from a catalogue: first too small to tell, then told
        let bench = |drop_mm: i32| {
            vec![cockpit("bar", "bar", bar(Family::Round, 85.0, f64::from(drop_mm), 420.0), 203.0)]
        };
        let steps = (115..145).rev().map(|mm| said_of(bench(mm), &[Wanted::new(Aim::EaseDrops)]));
        let some = |(nothing, _): &(Reason, Option<Reason>)| {
            matches!(nothing, Reason::NothingBeatsIt { most: Some(_), .. })
        };
        let given_up: Vec<_> = steps.filter(some).map(|(_, gives_up)| gives_up).collect();
        let small = given_up.iter().take_while(|of| of.is_none()).count();
        assert!(small > 0 && small < given_up.len(), "{given_up:?}");
        assert!(given_up[small..].iter().all(Option::is_some), "{given_up:?}");
    }

    #[test]
    fn steps_that_do_the_opposite_do_nothing() {
        let neck = Wanted::new(Aim::EaseNeck).at(HandPlace::Hoods);
        let row = Some(Question::Neck(HandPlace::Hoods));
        let nothing = |row| Reason::NothingBeatsIt { looked: 4312, row, most: None };
        assert_eq!(said(&[-15.0], &[neck]), (nothing(row), None));
        assert_eq!(said(&[20.0], &[]), (nothing(None), None), "nothing is wanted");
    }
}
