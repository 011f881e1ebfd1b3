//! Hold: which point of every cockpit is drawn at the same place when drawings are laid over each
//! other. Bike frame, mm, in the plane of the bike.

use super::Cockpit;
use crate::HandPlace;
use glam::DVec2;

/// The point that stays put.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub enum Hold {
    /// The bottom bracket axle: every cockpit where it really is.
    #[default]
    Axle,
    /// The middle of the bar's clamp.
    Clamp,
    /// The grip on the hoods.
    Hoods,
    /// The grip in the drops.
    Drops,
}

impl Hold {
    /// How far a cockpit must be moved so that its point comes to lie on the reference's. Nothing
    /// is moved where one of the two has no such point (hoods without levers).
    pub fn shift(self, reference: &Cockpit, cockpit: &Cockpit) -> DVec2 {
        let point = |of: &Cockpit| match self {
            Self::Axle => Some(DVec2::ZERO),
            Self::Clamp => Some(of.clamp()),
            Self::Hoods => of.grips(HandPlace::Hoods).map(|pair| pair.right.centre.truncate()),
            Self::Drops => of.grips(HandPlace::Drops).map(|pair| pair.right.centre.truncate()),
        };
        match (point(reference), point(cockpit)) {
            (Some(to), Some(from)) => to - from,
            _ => DVec2::ZERO,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::bar::{BarDimensions, Family};
    use crate::cockpit::{Blade, FrontEnd, LeverPair, LeverShape, Mount, Stem};
    use std::sync::Arc;

    fn cockpit(family: Family, reach: f64, drop: f64, with_levers: bool) -> Cockpit {
        let bend = Arc::new(BarDimensions::usual(family, reach, drop, 420.0).build().unwrap());
        let front = FrontEnd {
            stack_mm: 560.0,
            reach_mm: 390.0,
            head_angle_rad: 1.27,
            headset_cover_mm: 10.0,
        };
        let stem = Stem { length_mm: reach, angle_rad: -0.1, clamp_height_mm: 40.0 };
        let shape = LeverShape {
            grip_mm: DVec2::new(19.0, 43.0),
            hood_slope_rad: 0.7,
            grip_radius_mm: 16.0,
            hood_outline_mm: Vec::new(),
            blade: Blade {
                pivot_mm: DVec2::new(8.0, 42.0),
                length_mm: 105.0,
                usable_mm: (40.0, 95.0),
                rest_angle_rad: -0.35,
                adjuster_rad: vec![0.0],
                free_travel_mm: 11.0,
            },
        };
        let along_mm = bend.along_from_s(bend.default_clamp().s_mm);
        let mount = Mount { along_mm, turn_in_rad: 0.0, clicks: 0 };
        let pair = LeverPair { shape: Arc::new(shape), left: mount, right: mount };
        Cockpit::new(front, stem, 10.0, bend, 0.05, with_levers.then_some(pair), 0.0).unwrap()
    }

    #[test]
    fn the_held_point_comes_to_lie_on_the_references() {
        let (deep, compact) = (
            cockpit(Family::Round, 88.0, 150.0, true),
            cockpit(Family::Variable, 75.0, 125.0, true),
        );
        let grip = |of: &Cockpit, place| of.grips(place).unwrap().right.centre.truncate();
        let held = |hold: Hold| hold.shift(&deep, &compact);
        assert_eq!(held(Hold::Axle), DVec2::ZERO);
        assert!((compact.clamp() + held(Hold::Clamp)).distance(deep.clamp()) < 1e-9);
        for (hold, place) in [(Hold::Hoods, HandPlace::Hoods), (Hold::Drops, HandPlace::Drops)] {
            let moved = grip(&compact, place) + held(hold);
            assert!(moved.distance(grip(&deep, place)) < 1e-9, "{hold:?}");
            assert!(held(hold).length() > 1.0, "they do not lie there by themselves");
        }
    }

    #[test]
    fn nothing_moves_where_there_is_no_such_point() {
        let (with, without) =
            (cockpit(Family::Round, 88.0, 150.0, true), cockpit(Family::Round, 80.0, 140.0, false));
        assert_eq!(Hold::Hoods.shift(&with, &without), DVec2::ZERO);
        assert_eq!(Hold::Hoods.shift(&without, &with), DVec2::ZERO);
    }
}
