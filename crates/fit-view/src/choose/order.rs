//! In which order what was found is tried: the best first, but single steps that might do before what takes
//! more, one size before several, and before all what is tried first for what is asked.

use super::row::First;
use super::search::{LEAST_GAIN, Outcome, Sought, USUAL_CLAMP_MM};
use core::cmp::Ordering;
use fit_doc::work::Job;

/// A single step that needs no part, and does this share of what a dearer answer does, is tried first
/// (common practice, no source: free before bought, the smallest that might do; the share is judgement).
const MIGHT_DO: f64 = 0.5;
/// A bar of an older measure is found only where nothing else is worth this share of it (judgement).
const AS_GOOD_AS_OBSOLETE: f64 = 0.5;
/// Efforts that differ by less are the same: they are sums of a few hundredths of an aim.
const SAME_EFFORT: f64 = 1e-6;

impl Sought {
    /// What it takes.
    fn effort(&self) -> f64 {
        self.gross - self.gain
    }

    /// Nothing is bought for it.
    pub(super) fn is_free(&self) -> bool {
        !matches!(self.job, Job::OtherStem | Job::OtherBar | Job::OtherLevers)
    }

    /// A bar that only a stem of the older measures clamps, and that stem is bought with it.
    fn is_obsolete(&self) -> bool {
        self.job == Job::OtherBar
            && self.jobs.contains(&Job::OtherStem)
            && self.cockpit.bar.clamp_diameter_mm < USUAL_CLAMP_MM
    }

    /// Which of two takes less; of two that take the same, the smaller job.
    fn by_effort(&self, other: &Self) -> Ordering {
        let by = self.effort() - other.effort();
        if by.abs() < SAME_EFFORT { self.job.cmp(&other.job) } else { by.total_cmp(&0.0) }
    }

    /// It is one of the changes of another answer.
    fn is_part_of(&self, other: &Self) -> bool {
        other.jobs.len() > 1 && self.jobs.len() == 1 && other.jobs.contains(&self.job)
    }

    /// It may do what another answer does: a good share of all, or of one of the things that are asked.
    fn suffices_for(&self, other: &Self) -> bool {
        self.gross >= MIGHT_DO * other.gross || self.might_do_one
    }
}

impl Sought {
    /// A bar by itself, before one with something else that does not twice as much; and the same bar as it is
    /// put on, before it is set otherwise.
    fn is_simpler_bar(&self, than: &Self) -> bool {
        let same_bar = self.cockpit.bar.id == than.cockpit.bar.id;
        let simpler =
            self.is_one_step && !than.is_one_step || same_bar && self.is_plain && !than.is_plain;
        let might_do = self.by_effort(than).is_lt() && self.gross >= MIGHT_DO * than.gross;
        let are_bars = self.job == Job::OtherBar && than.job == Job::OtherBar;
        are_bars && simpler && (same_bar || might_do)
    }
}

impl Outcome {
    /// Leaves out what a smaller step in it does alone, and puts the rest in order: the best first, but a
    /// smaller step that might do before a dearer one that takes it as well, one size before several, and
    /// before all what is tried first for what is asked.
    pub(super) fn in_order(&mut self, first: &[First]) {
        let all = core::mem::take(&mut self.sought);
        let within = |small: &Sought, of: &Sought| {
            small.job < of.job && small.jobs.iter().all(|job| of.jobs.contains(job))
        };
        let mut kept: Vec<Sought> = Vec::new();
        for of in &all {
            let done =
                all.iter().any(|small| within(small, of) && of.gross <= small.gross + LEAST_GAIN);
            // the same with something more, and no better for it
            let more = all.iter().any(|other| {
                other.job == of.job
                    && other.jobs.len() < of.jobs.len()
                    && other.jobs.iter().all(|job| of.jobs.contains(job))
                    && other.gain >= of.gain
            });
            // bars and stems of older measures are hard to come by: only where nothing else does it
            let as_good = |other: &Sought| other.gross >= AS_GOOD_AS_OBSOLETE * of.gross;
            let obsolete =
                of.is_obsolete() && all.iter().any(|other| !other.is_obsolete() && as_good(other));
            if of.is_last_resort || !(done || more && !of.is_one_size || obsolete) {
                kept.push(of.clone());
            }
        }
        kept.sort_by(|a, b| b.gain.total_cmp(&a.gain).then(a.job.cmp(&b.job)));
        while let Some(best) = kept.first().cloned() {
            let might_do = |small: &Sought| {
                let free = small.is_free()
                    && small.jobs.len() == 1
                    && small.by_effort(&best).is_lt()
                    && (small.gain >= MIGHT_DO * best.gain
                        || best.jobs.len() > 1 && small.might_do_one);
                let same_job = small.job == best.job;
                // one size at a time, and else one change
                let one_size = same_job && small.is_one_size && !best.is_one_size;
                let sized = |of: &Sought| of.is_one_size && of.job == best.job;
                let alone = small.is_simpler_bar(&best) && !kept.iter().any(sized);
                free || one_size || alone
            };
            let least = |one: &&usize, other: &&usize| kept[**one].by_effort(&kept[**other]);
            let might: Vec<usize> = (0..kept.len()).filter(|&at| might_do(&kept[at])).collect();
            let next = might.iter().min_by(least).copied().unwrap_or(0);
            self.sought.push(kept.remove(next));
        }
        for of in first.iter().rev() {
            let alone = self.sought.iter().position(|sought| of.is_all_of(sought));
            let together = || self.sought.iter().position(|sought| of.is(sought));
            let Some(at) = alone.or_else(together) else { continue };
            // several changes are not lifted over one of them that might do
            let lifted = &self.sought[at];
            let one_does = |small: &Sought| small.is_part_of(lifted) && small.suffices_for(lifted);
            if alone.is_some() || of.is_of_several() || !self.sought.iter().any(one_does) {
                self.sought[..=at].rotate_right(1);
            }
        }
        // what alone reaches a brake stands behind single free steps, and before the rest
        let Some(at) = self.sought.iter().position(|of| of.is_last_resort) else { return };
        let rest = |of: &Sought| !of.is_free() || of.jobs.len() > 1;
        let to = self.sought.iter().position(rest).filter(|to| *to < at);
        if let Some(to) = to {
            self.sought[to..=at].rotate_right(1);
        }
    }
}
