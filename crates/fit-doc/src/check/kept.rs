//! Cockpits that were checked and put together, kept from one check of a visit to the next: while one
//! is changed the others stay, and putting a bar together is most of what a check takes.
//!
//! What was found of a cockpit depends on nothing but the frame, itself and where it is said, and what
//! was found of its levers on the cockpit as it came as well. All of that is compared by value.

use super::Findings;
use super::cockpit::{check_cockpit, check_heading};
use crate::{Cockpit, Frame, Place};
use fit_math::cockpit::Cockpit as Built;

/// One cockpit, and what was found.
#[derive(Debug, Clone)]
pub(super) struct Checked {
    place: Place,
    cockpit: Cockpit,
    /// What was found of itself.
    pub(super) own: Findings,
    /// What was found of its levers beside those of the cockpit as it came.
    pub(super) beside: Findings,
    built: Option<Built>,
}

/// The cockpits of the visit that was checked last, as it came first.
#[derive(Debug, Clone, Default)]
pub struct KeptCockpits {
    frame: Option<Frame>,
    pub(super) all: Vec<Checked>,
}

impl KeptCockpits {
    /// The cockpit at that place on the bench, put together; none where it cannot be.
    pub fn built(&self, index: usize) -> Option<&Built> {
        self.all.get(index)?.built.as_ref()
    }

    /// Checks the cockpits, on a frame where it can be built on.
    pub(super) fn check<'a>(
        &mut self,
        frame: Option<&Frame>,
        cockpits: impl Iterator<Item = (Place, &'a Cockpit)>,
    ) {
        let mut before = core::mem::take(&mut self.all).into_iter();
        if self.frame.as_ref() != frame {
            before = Vec::new().into_iter();
            self.frame = frame.cloned();
        }
        let mut same_came = true;
        for (place, cockpit) in cockpits {
            let is_same = |of: &Checked| of.place == place && of.cockpit == *cockpit;
            let kept = before.next().filter(is_same);
            let is_kept = kept.is_some();
            let mut checked = kept.unwrap_or_else(|| Checked::of(place, cockpit, frame));
            match self.all.first() {
                None => same_came = is_kept,
                Some(came) if !(is_kept && same_came) => checked.look_beside(came),
                Some(_) => {}
            }
            self.all.push(checked);
        }
    }
}

impl Checked {
    fn of(place: Place, cockpit: &Cockpit, frame: Option<&Frame>) -> Self {
        let mut own = Findings::default();
        let built = check_cockpit(&mut own, &place, frame, cockpit);
        Self { place, cockpit: cockpit.clone(), own, beside: Findings::default(), built }
    }

    fn look_beside(&mut self, came: &Self) {
        self.beside = Findings::default();
        if let (Some(before), Some(after)) = (&came.built, &self.built) {
            check_heading(&mut self.beside, &self.place, before, after);
        }
    }
}
