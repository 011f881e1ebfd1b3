//! Answers without jobs that do nothing: each job must do something of what is asked, by an amount that
//! tells.

use super::advice::{Bench, base_of};
use super::beats::{does_more, harms_more};
use super::search::{Ask, Sought};
use crate::weigh::{WeighedCockpit, weigh_visit};
use crate::words::Words;
use fit_doc::edit::levers_on_another_bar_mm;
use fit_doc::work::{Job, Work};
use fit_doc::{Cockpit, Message, Place, Session, Visit, geometry};
use fit_math::body::Survey;

/// Levers that are moved by less stay where they are, mm: as they are carried over to another bar.
const LEAST_MOVE_MM: f64 = 0.5;

/// An answer is made leaner at most so often: of four jobs one stays.
const ROUNDS: usize = 3;

/// An answer and what is left of it without one of its jobs each.
struct Leaner {
    /// Its place among the answers.
    at: usize,
    /// Its id on the bench.
    id: String,
    /// What is left, with its id there.
    less: Vec<(Sought, String)>,
}

impl Ask {
    /// The same answers, each without the jobs that change nothing which tells; what came out alike is
    /// there once.
    pub(super) fn lean(
        &self,
        (session, visit, survey): (&Session, &Visit, &Survey),
        mut all: Vec<Sought>,
        words: &dyn Words,
    ) -> Result<Vec<Sought>, Vec<Message>> {
        let mut open: Vec<usize> = (0..all.len()).collect();
        for _ in 0..ROUNDS {
            let mut bench = Bench::of(visit);
            let mut put = |of: &Sought| bench.add((of.job, &of.cockpit), &self.base, words);
            let mut pairs: Vec<Leaner> = Vec::new();
            for &at in &open {
                let less = self.with_less(session, visit, &all[at]);
                if !less.is_empty() {
                    let id = put(&all[at]);
                    let less = less.into_iter().map(|of| (put(&of), of)).map(|(id, of)| (of, id));
                    pairs.push(Leaner { at, id, less: less.collect() });
                }
            }
            if pairs.is_empty() {
                break;
            }
            let weighed = weigh_visit(session, &bench.visit, survey)?;
            let find = |id: &str| weighed.cockpits.iter().find(|of| of.id == id);
            let Some(base) = base_of(&weighed) else { break };
            let common = self.common(&weighed, visit, base, &[]);
            let does_nothing = |full: &WeighedCockpit, less: &WeighedCockpit| {
                let [all, rest] = [full, less].map(|of| Work::between(&self.base, &of.parts));
                !does_more(&common.case(full, &all), less)
                    && !harms_more(&common.reasons(less, &rest), &common.reasons(full, &all))
            };
            open.clear();
            for Leaner { at, id, less } in pairs {
                let Some(full) = find(&id) else { continue };
                let leaner = less
                    .into_iter()
                    .find(|(_, id)| find(id).is_some_and(|less| does_nothing(full, less)));
                if let Some((leaner, _)) = leaner {
                    all[at] = leaner;
                    open.push(at);
                }
            }
        }
        Ok(once(all))
    }

    /// An answer without one of its jobs each, the dearest left out first; none where there is but one.
    fn with_less(&self, session: &Session, visit: &Visit, of: &Sought) -> Vec<Sought> {
        let Some(bike) = session.bike(&visit.bike).filter(|_| of.jobs.len() > 1) else {
            return Vec::new();
        };
        let built = |cockpit: Cockpit| {
            geometry::cockpit(&Place::cockpit(&cockpit.label), &bike.frame, &cockpit).ok()?;
            of.as_cockpit(self, cockpit)
        };
        let without = |job: &Job| {
            let less = undone(*job, &self.base, &of.cockpit);
            let carried = less.clone().and_then(|less| levers_as_they_were(*job, &self.base, less));
            [less, carried].into_iter().flatten().filter_map(built)
        };
        of.jobs.iter().rev().flat_map(without).collect()
    }
}

/// What came out alike is there once, in the first of its places.
pub(super) fn once(all: Vec<Sought>) -> Vec<Sought> {
    let mut once: Vec<Sought> = Vec::new();
    for of in all {
        if !once.iter().any(|known| known.cockpit.is_set_up_as(&of.cockpit)) {
            once.push(of);
        }
    }
    once
}

/// A cockpit on another bar of which the spacers were undone, its levers where they are put at first: what was
/// raised is not brought down again by them.
fn levers_as_they_were(undone: Job, base: &Cockpit, mut to: Cockpit) -> Option<Cockpit> {
    if undone != Job::Spacers {
        return None;
    }
    let by_mm = levers_on_another_bar_mm(base, &to).filter(|by| by.abs() >= LEAST_MOVE_MM)?;
    let levers = to.levers.as_mut()?;
    levers.left.along_mm -= by_mm;
    levers.right.along_mm -= by_mm;
    Some(to)
}

/// A cockpit with one job undone; none where the rest would not go together.
fn undone(job: Job, base: &Cockpit, of: &Cockpit) -> Option<Cockpit> {
    let mut to = of.clone();
    let same_bar = of.bar.id == base.bar.id;
    match job {
        Job::HandInDrops if same_bar => to.drops_hand_mm = base.drops_hand_mm,
        Job::Roll if of.bar.one_piece.is_none() => to.roll_deg = base.roll_deg,
        Job::Spacers => to.spacers_mm = base.spacers_mm,
        Job::StemTurned | Job::OtherStem
            if of.stem.bar_diameter_mm == base.stem.bar_diameter_mm
                && of.bar.one_piece.is_none()
                && base.bar.one_piece.is_none() =>
        {
            to.stem = base.stem.clone();
        }
        Job::OtherBar
            if of.stem.bar_diameter_mm == base.stem.bar_diameter_mm
                && of.bar.one_piece.is_none()
                && base.bar.one_piece.is_none() =>
        {
            (to.bar, to.levers) = (base.bar.clone(), base.levers.clone());
            to.drops_hand_mm = base.drops_hand_mm;
        }
        Job::ReachScrew | Job::TurnIn | Job::LeverAlong => {
            let (levers, before) = (to.levers.as_mut()?, base.levers.as_ref()?);
            for (now, before) in
                [(&mut levers.left, &before.left), (&mut levers.right, &before.right)]
            {
                match job {
                    Job::ReachScrew => now.clicks = before.clicks,
                    Job::TurnIn => now.turn_in_deg = before.turn_in_deg,
                    _ if same_bar => now.along_mm = before.along_mm,
                    _ => return None,
                }
            }
        }
        _ => return None,
    }
    (!to.is_set_up_as(of)).then_some(to)
}

#[cfg(test)]
#[path = "lean_tests.rs"]
mod tests;
