//! Answers that go the same way: they are told with the first of them.

use super::advice::{Answer, Step};
use super::reason::Reason;
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
        let as_good = all.iter().filter(|at| does_as_much(&answers[**at], &answers[first]));
        let least = as_good.min_by(|one, other| {
            takes(&answers[**one].work).total_cmp(&takes(&answers[**other].work))
        });
        answers.swap(first, least.copied().unwrap_or(first));
        for at in others {
            answers[*at].like = Some(first);
        }
    }
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
