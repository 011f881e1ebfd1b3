//! Shapes of cockpits, kept from one scene to the next: while one cockpit is pulled the others stay.
//!
//! What a shape is made from is compared by value, so that none is of another cockpit.

use super::cockpit::{CockpitShape, Weight};
use fit_math::DVec2;
use fit_math::cockpit::Cockpit;

/// What the shape of a cockpit depends on, its place on the bench aside.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Of {
    /// The cockpit.
    pub(super) cockpit: Cockpit,
    /// How strongly it is drawn.
    pub(super) weight: Weight,
    /// How far it is moved.
    pub(super) shift: DVec2,
    /// Whether its stem is drawn with it.
    pub(super) with_stem: bool,
}

/// The shapes of the scene that was made last, by their place on the bench. To be begun anew where
/// anything else is chosen to be seen.
#[derive(Debug, Clone, Default)]
pub struct KeptShapes {
    all: Vec<Option<(Of, CockpitShape)>>,
}

impl KeptShapes {
    /// Makes the shape of a cockpit, unless it is kept.
    pub(super) fn keep(&mut self, index: usize, of: Of, make: impl FnOnce() -> CockpitShape) {
        if self.all.len() <= index {
            self.all.resize_with(index + 1, || None);
        }
        let kept = &mut self.all[index];
        if kept.as_ref().is_none_or(|(before, _)| *before != of) {
            *kept = Some((of, make()));
        }
    }

    /// The shape of the cockpit at that place.
    pub(super) fn shape(&self, index: usize) -> Option<&CockpitShape> {
        self.all.get(index)?.as_ref().map(|(_, shape)| shape)
    }
}
