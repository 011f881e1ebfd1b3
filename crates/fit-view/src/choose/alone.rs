//! What is said of a job by itself beside an answer that is that job: the answer is what it can do.

use super::advice::{Answer, Step};
use super::reason::Reason;
use crate::table::Question;
use fit_doc::work::Job;

/// How much an answer that is one job alone does of a row.
fn does(of: &Answer, job: Job, row: Question) -> i64 {
    if of.step != Step::Cockpit(job) || of.work.steps.len() > 1 {
        return 0;
    }
    let by = |reason: &Reason| match *reason {
        Reason::Better { question, by, .. } if question == row => by.saturating_abs(),
        Reason::Brake { place, before_mm, after_mm, .. } if Question::Brake(place) == row => {
            after_mm - before_mm
        }
        _ => 0,
    };
    of.reasons.iter().map(by).max().unwrap_or(0)
}

/// Takes back what is said of a job by itself where one of the answers is that job and does more.
pub(super) fn take_back(answers: &mut [Answer]) {
    let stated = |of: &Reason| match *of {
        Reason::BarAloneRarely { question, by } => Some((Job::OtherBar, question, by)),
        Reason::DoesLess { job, question, by } => Some((job, question, by.unwrap_or(0))),
        _ => None,
    };
    let is_that_job =
        |of: &Answer, job: Job| of.step == Step::Cockpit(job) && of.work.steps.len() == 1;
    for at in 0..answers.len() {
        let mut reasons = core::mem::take(&mut answers[at].reasons);
        // what an answer is says itself what it costs
        reasons.retain(|of| match *of {
            Reason::HasItsPrice { job, .. } => !answers.iter().any(|other| is_that_job(other, job)),
            _ => true,
        });
        reasons.retain(|of| {
            stated(of).is_none_or(|(job, row, by)| {
                answers.iter().all(|other| does(other, job, row) <= by.saturating_abs())
            })
        });
        answers[at].reasons = reasons;
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::testing::{bar, deep, stem};
    use fit_doc::work::Work;
    use fit_doc::{Bar, Cockpit, Family, HandPlace};

    const NECK: Question = Question::Neck(HandPlace::Drops);

    fn answer(job: Job, to: &Cockpit, reasons: &[Reason]) -> Answer {
        let work = Work::between(&deep(), to);
        let (step, reasons) = (Step::Cockpit(job), reasons.to_vec());
        Answer { step, cockpit: Some(to.clone()), work, reasons, ridden: false, like: None }
    }

    fn other_bar() -> Cockpit {
        let bar = bar(Family::Round, 75.0, 125.0, 420.0);
        Cockpit { bar: Bar { id: "other".into(), ..bar }, ..deep() }
    }

    /// What is left of that beside a bar that eases the neck by 2°, and perhaps a stem with it.
    fn left(said: &Reason, to: &Cockpit) -> usize {
        let raised = Cockpit { spacers_mm: deep().spacers_mm + 20.0, ..deep() };
        let better = Reason::Better { question: NECK, by: -2, doubt: None };
        let mut all = [
            answer(Job::Spacers, &raised, core::slice::from_ref(said)),
            answer(Job::OtherBar, to, &[better]),
        ];
        take_back(&mut all);
        assert_eq!(all[1].reasons.len(), 1, "what it does stays");
        all[0].reasons.len()
    }

    #[test]
    fn nothing_is_said_of_a_bar_alone_that_a_bar_among_the_answers_contradicts() {
        let rarely = |by| Reason::BarAloneRarely { question: NECK, by };
        let less = |by| Reason::DoesLess { job: Job::OtherBar, question: NECK, by };
        assert_eq!(left(&rarely(0), &other_bar()), 0);
        assert_eq!(left(&rarely(-1), &other_bar()), 0);
        assert_eq!(left(&rarely(-2), &other_bar()), 1, "as much as it does");
        assert_eq!(left(&less(None), &other_bar()), 0);
        let hoods = Question::Neck(HandPlace::Hoods);
        assert_eq!(left(&Reason::BarAloneRarely { question: hoods, by: 0 }, &other_bar()), 1);
        let with_a_stem = Cockpit { stem: stem(80.0, -6.0), ..other_bar() };
        assert_eq!(left(&rarely(0), &with_a_stem), 1, "that is no bar alone");
    }

    #[test]
    fn a_brake_that_a_bar_brings_nearer_is_not_said_to_stay_away() {
        let row = Question::Brake(HandPlace::Drops);
        let said = Reason::DoesLess { job: Job::OtherBar, question: row, by: None };
        let nearer =
            Reason::Brake { place: HandPlace::Drops, before_mm: -2, after_mm: 3, just: false };
        let mut all = [
            answer(Job::OtherStem, &deep(), &[said]),
            answer(Job::OtherBar, &other_bar(), &[nearer]),
        ];
        take_back(&mut all);
        assert!(all[0].reasons.is_empty());
    }
}
