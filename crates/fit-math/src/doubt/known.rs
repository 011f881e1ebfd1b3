//! How a bar is known, as the spread of what hangs on it.
//!
//! Lengths mm, one standard deviation each.

use crate::HandPlace;
use glam::DVec3;

/// Reach, drop and half a width of a bar by its catalogue, mm (common practice, no source).
const CATALOGUE_MM: f64 = 3.0;
/// From the hand in the hook to the blade of a bar of which the catalogue gives two numbers, mm: these
/// hide 8 to 15 mm of shape (common practice, no source: 6 to 8 at the finger).
const CATALOGUE_FINGER_MM: f64 = 7.0;
/// How far the shape of a hook moves the hand in it, beyond what reach and drop do, as a share of what
/// it does between hand and blade (judgement: both hand and blade move with it).
const HAND_OF_FINGER: f64 = 0.43;
/// Reach, drop and half a width by a tape, mm (judgement: the tape's own error).
const MEASURED_MM: f64 = 2.0;
/// The same of a bar measured in the hand, mm (common practice, no source).
const MEASURED_FINGER_MM: f64 = 3.0;
/// Reach, drop and half a width of a traced bar, mm (judgement).
const TRACED_MM: f64 = 1.0;
/// The same of a traced bar, mm (common practice, no source).
const TRACED_FINGER_MM: f64 = 2.0;
/// Where a lever is set along the bend, mm: what a tape is good to (judgement).
pub(super) const LEVER_MM: f64 = 2.0;

/// How well a bar is known.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Known {
    /// Its reach, drop and half its width, mm.
    size_mm: f64,
    /// From the hand in the hook to the blade, mm.
    finger_mm: f64,
}

impl Known {
    /// From a catalogue; with the tolerance that the maker states, mm, where one does. A tolerance
    /// that is no length counts as none.
    pub fn by_catalogue(tolerance_mm: Option<f64>) -> Self {
        let stated = tolerance_mm.filter(|mm| mm.is_finite() && *mm >= 0.0);
        let size_mm = stated.unwrap_or(CATALOGUE_MM);
        Self { size_mm, finger_mm: CATALOGUE_FINGER_MM.max(size_mm) }
    }

    /// Measured in the hand.
    pub const fn measured() -> Self {
        Self { size_mm: MEASURED_MM, finger_mm: MEASURED_FINGER_MM }
    }

    /// Traced.
    pub const fn traced() -> Self {
        Self { size_mm: TRACED_MM, finger_mm: TRACED_FINGER_MM }
    }

    /// From the hand in the hook to the blade, mm.
    pub const fn finger_mm(&self) -> f64 {
        self.finger_mm
    }

    /// What the hook's shape adds to the errors of reach and drop at the hand, mm.
    fn hook_mm(&self) -> f64 {
        HAND_OF_FINGER * self.finger_mm
    }

    /// How the right grip in a place moves with one standard deviation of each thing that is not
    /// known of the bar: its reach, its drop, half its width, and the shape of its hook forward and
    /// up. Bike frame, mm; what a roll of some degrees turns is left out.
    pub(super) fn grip_by_bar(&self, place: HandPlace) -> [DVec3; 5] {
        let (size, hook) = (self.size_mm, self.hook_mm());
        // what share of reach and drop lies before the hand, whether width, whether the hook
        let (reach, drop, width, in_hook) = match place {
            HandPlace::Tops => (0.0, 0.0, 0.0, 0.0),
            HandPlace::Ramps => (0.5, 0.0, 1.0, 0.0),
            HandPlace::Hoods | HandPlace::BentElbowHoods => (1.0, 0.0, 1.0, 0.0),
            HandPlace::Drops => (1.0, 0.5, 1.0, 1.0),
            HandPlace::Ends => (0.0, 1.0, 1.0, 1.0),
        };
        [
            DVec3::X * (size * reach),
            DVec3::NEG_Y * (size * drop),
            DVec3::Z * (size * width),
            DVec3::X * (hook * in_hook),
            DVec3::Y * (hook * in_hook),
        ]
    }

    /// The same of where the lever is set: along the bend it goes down and forward or back.
    pub(super) fn grip_by_lever(place: HandPlace) -> [DVec3; 2] {
        match place {
            HandPlace::Hoods | HandPlace::BentElbowHoods => {
                [DVec3::X * LEVER_MM, DVec3::Y * LEVER_MM]
            }
            _ => [DVec3::ZERO; 2],
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The better a bar is known the better is its hook, everywhere a hand goes.
    #[test]
    fn a_bar_that_was_looked_at_is_better_known() {
        let all = [Known::by_catalogue(None), Known::measured(), Known::traced()];
        for place in HandPlace::ALL {
            let spread = |known: &Known| {
                let all = known.grip_by_bar(place);
                all.iter().map(|moves| moves.length_squared()).sum::<f64>()
            };
            for pair in all.windows(2) {
                assert!(place == HandPlace::Tops || spread(&pair[1]) < spread(&pair[0]));
            }
        }
    }

    #[test]
    fn a_stated_tolerance_stands_and_nonsense_does_not() {
        assert_eq!(Known::by_catalogue(Some(1.0)).size_mm, 1.0);
        assert_eq!(Known::by_catalogue(Some(f64::NAN)), Known::by_catalogue(None));
        assert_eq!(Known::by_catalogue(Some(9.0)).finger_mm(), 9.0, "a hook is no better known");
    }
}
