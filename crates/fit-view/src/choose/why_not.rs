//! Why the obvious is not the answer: what a cheaper job does by itself of what is asked, and what that costs.

use super::reason::Reason;
use super::rules::{
    Case, Rule, against_what_is_asked, against_what_is_held_to, is_too_small, raising_lifts_hoods,
    row_of, what_gets_worse,
};
use crate::table::{Change, Doubt, Question, told};
use crate::weigh::WeighedCockpit;
use fit_doc::Aim;
use fit_doc::work::{Job, Work};

/// Of cheaper jobs that do as much at a price so many are told, the dearest of them.
const AT_A_PRICE: usize = 2;

/// What speaks against a job that does as much, the first of it that says something.
const PRICES: [Rule; 4] =
    [against_what_is_asked, against_what_is_held_to, raising_lifts_hoods, what_gets_worse];

/// A change of a row that tells, and how sure it is.
type Tells = (i64, Option<Doubt>);

/// What a job that does as much by itself does of the row that is asked about first.
struct Alone<'a> {
    job: Job,
    of: &'a WeighedCockpit,
    /// By so much, the way that is wanted.
    by: Tells,
}

impl Case<'_> {
    /// The jobs that are cheaper than the answer, each once, the smallest first.
    fn cheaper(&self) -> Vec<Job> {
        let dearest = self.work.steps.iter().map(|step| step.job).max();
        let mut jobs: Vec<Job> = self.of.others.iter().map(|(job, _)| *job).collect();
        jobs.retain(|job| Some(*job) < dearest);
        jobs.sort_unstable();
        jobs.dedup();
        jobs
    }

    fn alone(&self, job: Job) -> impl Iterator<Item = &WeighedCockpit> {
        self.of.others.iter().filter(move |(of, _)| *of == job).map(|(_, of)| *of)
    }

    /// How much a cockpit changes a row the way that is wanted, by what tells, and how sure that is.
    fn does_of(&self, (row, way): (Question, i64), of: &WeighedCockpit) -> Option<Tells> {
        let cell = told(row, of, Some(self.of.base), self.of.weighed);
        match cell.change {
            Change::By(by) if by * way > 0 && !is_too_small(cell.doubt) => Some((by, cell.doubt)),
            _ => None,
        }
    }

    /// What a job does most for a row by itself, where the answer does more than all that it can do; 0 where
    /// nothing tells of what is wanted.
    fn alone_does_less(&self, job: Job, row: (Question, i64)) -> Option<i64> {
        let mut alone = self.alone(job).peekable();
        alone.peek()?;
        let mut most = 0;
        for of in alone {
            if !self.does_more_than(row, of) {
                return None;
            }
            most = most.max(self.does_of(row, of).map_or(0, |(by, _)| by.abs()));
        }
        Some(most * row.1)
    }

    /// The cheaper jobs that do as much by themselves.
    fn alone_do_as_much(&self, row: (Question, i64)) -> Vec<Alone<'_>> {
        let most = |job: Job| {
            let does = |of| Some((self.does_of(row, of)?, of));
            let (by, of) = self.alone(job).filter_map(does).max_by_key(|((by, _), _)| by.abs())?;
            (!self.does_more_than(row, of)).then_some(Alone { job, of, by })
        };
        self.cheaper().into_iter().filter_map(most).collect()
    }
}

/// From deep to compact gives a neck some two degrees: why the answer is not a bar.
pub(super) fn bar_alone_rarely(case: &Case<'_>) -> Vec<Reason> {
    let neck = case.of.wanted.iter().find(|of| of.aim == Aim::EaseNeck);
    let Some((question, way)) = neck.and_then(row_of).filter(|_| !case.does(Job::OtherBar)) else {
        return Vec::new();
    };
    let less = case.alone_does_less(Job::OtherBar, (question, way));
    less.map(|by| Reason::BarAloneRarely { question, by }).into_iter().collect()
}

/// What the smaller steps do of what is asked first.
pub(super) fn cheaper_does_less(case: &Case<'_>) -> Vec<Reason> {
    let Some((question, way)) = case.of.wanted.first().and_then(row_of) else { return Vec::new() };
    let less = case.cheaper().into_iter().filter_map(|job| {
        let by = case.alone_does_less(job, (question, way))?;
        Some(Reason::DoesLess { job, question, by: Some(by).filter(|by| *by != 0) })
    });
    let mut less: Vec<Reason> = less.collect();
    // of those that do nothing one is enough: the dearest
    let nothing = |of: &Reason| matches!(of, Reason::DoesLess { by: None, .. });
    let last = less.iter().rposition(nothing);
    let mut at = 0;
    less.retain(|of| {
        at += 1;
        !nothing(of) || Some(at - 1) == last
    });
    less
}

/// What a cheaper job that does as much of what is asked first costs: it would be asked about.
pub(super) fn cheaper_has_its_price(case: &Case<'_>) -> Vec<Reason> {
    let Some((question, way)) = case.of.wanted.first().and_then(row_of) else { return Vec::new() };
    let price = |Alone { job, of, by }: &Alone<'_>| {
        let work = Work::between(&case.of.base.parts, &of.parts);
        let alone = case.of.case(of, &work);
        let price = PRICES.iter().find_map(|rule| rule(&alone).into_iter().next())?;
        let (by, doubt) = *by;
        Some(Reason::HasItsPrice { job: *job, question, by, doubt, price: Box::new(price) })
    };
    // where the answer does nothing of it a job that does is an answer of its own
    if case.does_of((question, way), case.to).is_none() {
        return Vec::new();
    }
    let all = case.alone_do_as_much((question, way));
    let mut told: Vec<Reason> = all.iter().rev().filter_map(price).take(AT_A_PRICE).collect();
    told.reverse();
    told
}
