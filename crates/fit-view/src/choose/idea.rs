//! Answers that go the same way: they are told with the first of them.

use super::advice::{Answer, Step};
use super::beats::harms_more;
use super::reason::Reason;
use super::sizes::{goes_further, goes_wider};
use crate::table::{Question, SAME_MM};
use core::cmp::Ordering;
use fit_doc::work::{Job, Work};
use fit_doc::{Bar, Cockpit};

/// Bars that differ by less go the same way: as much as catalogues are off, mm (common practice, no
/// source).
pub(super) const SAME_BAR_MM: f64 = 3.0;

/// What makes two answers one idea: the dearest part that is touched, what gets better by it, and of
/// another bar which way its width, drop and reach go.
#[derive(Debug, PartialEq)]
pub(super) struct Idea {
    job: Job,
    better: Vec<(&'static str, Option<Question>)>,
    bar: [Ordering; 3],
}

impl Idea {
    pub(super) fn of(job: Job, reasons: &[Reason], base: &Cockpit, to: &Cockpit) -> Self {
        let better = reasons.iter().filter(|of| of.is_about_an_aim());
        let mut better: Vec<_> = better.map(|of| (of.rule(), of.behind())).collect();
        better.sort_unstable();
        better.dedup();
        let way = |of: fn(&Bar) -> f64| {
            let by = of(&to.bar) - of(&base.bar);
            if by.abs() < SAME_BAR_MM { Ordering::Equal } else { by.total_cmp(&0.0) }
        };
        let bar = [way(|of| of.width_mm), way(|of| of.drop_mm), way(|of| of.reach_mm)];
        Self { job, better, bar }
    }
}

/// Says of each answer which one of the same idea stands before it; one that was ridden stands for
/// itself. Of those that do as much as the first, the one that takes least stands in its place.
pub(super) fn fold(answers: &mut [Answer], base: &Cockpit, takes: impl Fn(&Work) -> f64) {
    let mut ideas: Vec<(Idea, Vec<usize>)> = Vec::new();
    for (at, answer) in answers.iter().enumerate() {
        let Step::Cockpit(job) = answer.step else { continue };
        let Some(to) = answer.cockpit.as_ref().filter(|_| !answer.ridden) else { continue };
        let idea = Idea::of(job, &answer.reasons, base, to);
        match ideas.iter_mut().find(|(of, _)| *of == idea) {
            Some((_, all)) => all.push(at),
            None => ideas.push((idea, vec![at])),
        }
    }
    for (_, all) in ideas {
        let Some((&first, others)) = all.split_first() else { continue };
        let as_good = all.iter().filter(|at| {
            let (of, first) = (&answers[**at], &answers[first]);
            let further =
                of.cockpit.as_ref().zip(first.cockpit.as_ref()).is_some_and(|(to, at)| {
                    goes_wider(base, to, at)
                        || goes_further(base, (to, &of.work), (at, &first.work))
                });
            !further && does_as_much(of, first) && !harms_more(&gets_worse(of), &gets_worse(first))
        });
        let least = as_good.min_by(|one, other| {
            takes(&answers[**one].work).total_cmp(&takes(&answers[**other].work))
        });
        answers.swap(first, least.copied().unwrap_or(first));
        for at in others {
            answers[*at].like = Some(first);
        }
    }
}

/// What gets worse by an answer. What stays away was away before, and is what a further step is for.
fn gets_worse(of: &Answer) -> Vec<Reason> {
    let stays_away = |of: &&Reason| matches!(of, Reason::StillOutOfReach { .. });
    of.reasons.iter().filter(|of| !stays_away(of)).cloned().collect()
}

/// Whether one answer does as much as another of the same idea, as the table tells them apart.
fn does_as_much(one: &Answer, other: &Answer) -> bool {
    let does = |of: &Answer| {
        let about = of.reasons.iter().filter(|of| of.is_about_an_aim());
        about.map(|of| (of.rule(), of.behind(), of.amount())).collect::<Vec<_>>()
    };
    let own = does(one);
    does(other).iter().all(|(rule, row, amount)| {
        let same = row.map_or(SAME_MM, |row| row.scale().same_whole());
        let found = own.iter().filter(|(of, at, _)| of == rule && at == row);
        found.map(|(_, _, own)| *own).max().is_some_and(|own| own + same > *amount)
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::testing::deep;
    use fit_doc::HandPlace;

    const NECK: Question = Question::Neck(HandPlace::Hoods);

    fn better(by: i64) -> Reason {
        Reason::Better { question: NECK, by, doubt: None }
    }

    /// Spacers of so many mm more, with those reasons.
    fn answer(by_mm: f64, reasons: Vec<Reason>) -> Answer {
        let came = deep();
        let to = Cockpit { spacers_mm: came.spacers_mm + by_mm, ..came.clone() };
        let work = Work::between(&came, &to);
        let step = Step::Cockpit(Job::Spacers);
        Answer { step, cockpit: Some(to), work, reasons, ridden: false, like: None }
    }

    /// Raises by their mm, in the order in which they stand once they are folded, each with what it is
    /// like; what more of them takes is the mm.
    fn folded(mut all: Vec<Answer>) -> Vec<(f64, Option<usize>)> {
        let mm = |of: &Answer| of.cockpit.as_ref().unwrap().spacers_mm - deep().spacers_mm;
        // works of one job take as much: for so many mm it is done as often
        for of in &mut all {
            let step = of.work.steps[0].clone();
            while (of.work.steps.len() as f64) < mm(of) / 10.0 {
                of.work.steps.push(step.clone());
            }
        }
        fold(&mut all, &deep(), |work| work.steps.len() as f64);
        all.iter().map(|of| (mm(of), of.like)).collect()
    }

    #[test]
    fn at_the_head_is_what_takes_least_of_those_that_do_as_much() {
        // of the neck 1 degree is the same
        let all = vec![answer(30.0, vec![better(-4)]), answer(20.0, vec![better(-4)])];
        assert_eq!(folded(all), [(20.0, None), (30.0, Some(0))]);
        let less = vec![answer(30.0, vec![better(-6)]), answer(20.0, vec![better(-4)])];
        assert_eq!(folded(less), [(30.0, None), (20.0, Some(0))], "it does less");
    }

    #[test]
    fn what_makes_something_worse_is_not_put_at_the_head() {
        let worse =
            Reason::Worse { question: Question::Hip(HandPlace::Hoods), by: -3, doubt: None };
        let harms = vec![answer(30.0, vec![better(-4)]), answer(20.0, vec![better(-4), worse])];
        assert_eq!(folded(harms), [(30.0, None), (20.0, Some(0))]);
        // what is away still was so before
        let away = Reason::StillOutOfReach { place: HandPlace::Drops, mm: 3 };
        let away = vec![answer(30.0, vec![better(-4)]), answer(20.0, vec![better(-4), away])];
        assert_eq!(folded(away), [(20.0, None), (30.0, Some(0))]);
    }

    #[test]
    fn what_makes_something_else_better_or_was_ridden_is_an_idea_of_its_own() {
        let drops =
            Reason::Better { question: Question::Neck(HandPlace::Drops), by: -4, doubt: None };
        let all = vec![answer(30.0, vec![better(-4)]), answer(20.0, vec![drops])];
        assert_eq!(folded(all), [(30.0, None), (20.0, None)]);
        let ridden = Answer { ridden: true, ..answer(20.0, vec![better(-4)]) };
        assert_eq!(
            folded(vec![answer(30.0, vec![better(-4)]), ridden]),
            [(30.0, None), (20.0, None)]
        );
    }

    /// Two millimetres of a hand are the same, as the table tells them apart.
    #[test]
    fn as_much_is_what_the_table_shows_as_the_same() {
        let row = Question::Moved(HandPlace::Hoods, crate::table::Axis::Up);
        let up = |by| vec![Reason::Better { question: row, by, doubt: None }];
        let near = vec![answer(30.0, up(20)), answer(20.0, up(19))];
        assert_eq!(folded(near), [(20.0, None), (30.0, Some(0))]);
        let less = vec![answer(30.0, up(22)), answer(20.0, up(19))];
        assert_eq!(folded(less), [(30.0, None), (20.0, Some(0))]);
    }

    /// The dearest part that is touched, and which way a bar goes by more than catalogues are off.
    #[test]
    fn ideas_differ_by_their_job_and_by_which_way_a_bar_goes() {
        let (came, all) = (deep(), vec![better(-4)]);
        let idea = |job, change: fn(&mut Bar)| {
            let mut to = came.clone();
            change(&mut to.bar);
            Idea::of(job, &all, &came, &to)
        };
        let same = idea(Job::OtherBar, |_| ());
        assert_ne!(same, idea(Job::OtherStem, |_| ()));
        assert_eq!(same, idea(Job::OtherBar, |bar| bar.reach_mm -= 2.9));
        let shorter = idea(Job::OtherBar, |bar| bar.reach_mm -= 3.0);
        assert_eq!(shorter, idea(Job::OtherBar, |bar| bar.reach_mm -= 15.0));
        let ways: [fn(&mut Bar); 6] = [
            |bar| bar.reach_mm -= 5.0,
            |bar| bar.reach_mm += 5.0,
            |bar| bar.drop_mm -= 5.0,
            |bar| bar.drop_mm += 5.0,
            |bar| bar.width_mm -= 20.0,
            |bar| bar.width_mm += 20.0,
        ];
        let ways = ways.map(|way| idea(Job::OtherBar, way));
        for (at, one) in ways.iter().enumerate() {
            assert!(*one != same && !ways[..at].contains(one), "{one:?}");
        }
    }
}
