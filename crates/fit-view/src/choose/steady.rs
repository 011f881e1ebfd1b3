//! Answers on another bar, or with other levers, set so that the hands lie on the hoods as they do now: there
//! the levers are set anew anyway, and where they stand along the bend takes nothing more.

use super::advice::{Bench, base_of};
use super::beats::{does_more, harms_more};
use super::lean::once;
use super::rules::tips_further;
use super::rungs::{MOST_SHIFT_MM, with_levers_moved};
use super::search::{Ask, Sought};
use crate::table::whole;
use crate::weigh::{WeighedCockpit, weigh_visit};
use crate::words::Words;
use fit_doc::work::{Job, Work};
use fit_doc::{Cockpit, HandPlace, Message, Session, Stays, Visit};
use fit_math::body::Survey;
use fit_math::cockpit::{LeverPose, Mount};
use fit_math::frame::{Side, heading_rad, wrapped_rad};

/// Of what a hand tips so much is given back: all of it, else half (judgement).
const GIVEN_BACK: [f64; 2] = [1.0, 0.5];

impl Ask {
    /// The same answers, those of which the hand tips further on the hoods with their levers set so that it
    /// does less, where that loses nothing of what is asked and harms nothing else. What something cheaper
    /// beats is left as it is: it shall not come to stand beside that for its levers alone.
    pub(super) fn steady(
        &self,
        (session, visit, survey): (&Session, &Visit, &Survey),
        mut all: Vec<Sought>,
        words: &dyn Words,
    ) -> Result<Vec<Sought>, Vec<Message>> {
        if self.held.stays(Stays::LeverPlace) {
            return Ok(all);
        }
        let mut bench = Bench::of(visit);
        let mut put = |of: &Sought| bench.add((of.job, &of.cockpit), &self.base, words);
        let ids: Vec<String> = all.iter().map(&mut put).collect();
        let weighed = weigh_visit(session, &bench.visit, survey)?;
        let Some(base) = base_of(&weighed) else { return Ok(all) };
        let common = self.common(&weighed, visit, base, &[]);
        let find = |id: &String| weighed.cockpits.iter().find(|of| of.id == *id);
        let found = all.iter().zip(&ids).filter_map(|(of, id)| Some((of.job, find(id)?))).collect();
        let told = self.worth_telling(common, found).found;
        let set_anew = |job: Job| matches!(job, Job::OtherBar | Job::OtherLevers);
        let mut others: Vec<(usize, String, Sought, String)> = Vec::new();
        for (at, id) in ids.into_iter().enumerate() {
            let Some(of) = told.iter().find(|of| of.to.id == id && set_anew(of.job)) else {
                continue;
            };
            let full = of.to;
            if tips_further(&common.case(full, &of.work), HandPlace::Hoods).is_none() {
                continue;
            }
            for share in GIVEN_BACK {
                let Some(to) = turned_back(base, full, share) else { continue };
                let Some(to) = all[at].as_cockpit(self, to) else { continue };
                let other = bench.add((to.job, &to.cockpit), &self.base, words);
                others.push((at, id.clone(), to, other));
            }
        }
        if others.is_empty() {
            return Ok(all);
        }
        let weighed = weigh_visit(session, &bench.visit, survey)?;
        let Some(base) = base_of(&weighed) else { return Ok(all) };
        let common = self.common(&weighed, visit, base, &[]);
        let find = |id: &str| weighed.cockpits.iter().find(|of| of.id == id);
        let mut done: Vec<usize> = Vec::new();
        for (at, id, to, other) in others {
            let Some((full, steady)) = find(&id).zip(find(&other)) else { continue };
            let [work, works] = [full, steady].map(|of| Work::between(&self.base, &of.parts));
            let (before, after) = (common.reasons(full, &work), common.reasons(steady, &works));
            let loses = does_more(&common.case(full, &work), steady) || harms_more(&after, &before);
            if !loses && !done.contains(&at) {
                all[at] = to;
                done.push(at);
            }
        }
        Ok(once(all))
    }
}

/// A cockpit with its levers moved along the bend by whole mm so that this share of what the hand tips
/// further on the hoods is given back; none where their zone ends before, or that is less than a mm.
fn turned_back(base: &WeighedCockpit, of: &WeighedCockpit, share: f64) -> Option<Cockpit> {
    let tips = |of: &WeighedCockpit| {
        let place = of.places.get(&HandPlace::Hoods)?;
        Some(place.wrist_line_rad.iter().sum::<f64>() / 2.0)
    };
    let by_rad = -share * (tips(of)? - tips(base)?);
    let (bend, levers) = (of.cockpit.bend(), of.cockpit.levers()?);
    let hood = |by_mm: f64| {
        let mount = Mount { along_mm: levers.right.along_mm + by_mm, ..levers.right };
        heading_rad(LeverPose::new(&levers.shape, bend, mount, Side::Right).hood_line())
    };
    let (from, to) = bend.clamp_zone();
    let in_zone = |by_mm: f64| {
        let mounts = [levers.left, levers.right].into_iter();
        mounts.map(|of| bend.s_from_along(of.along_mm + by_mm)).all(|s| from <= s && s <= to)
    };
    let most = whole(MOST_SHIFT_MM);
    let off = |by_mm: f64| (wrapped_rad(hood(by_mm) - hood(0.0)) - by_rad).abs();
    let all = (-most..=most).map(|mm| mm as f64).filter(|by_mm| in_zone(*by_mm));
    let best = all.min_by(|a, b| off(*a).total_cmp(&off(*b)))?;
    (best != 0.0).then(|| with_levers_moved(&of.parts, best))
}

#[cfg(test)]
#[path = "steady_tests.rs"]
mod tests;
