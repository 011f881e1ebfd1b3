//! The wrist line: how far a hand is turned sideways, towards thumb or little finger, by the way
//! the grip runs under the forearm.
//!
//! Bike frame, radians. The angle β between the forearm, towards the hand, and the grip's axis,
//! towards the thumb, less the angle at which the hand lies straight in that place. Positive is
//! towards the thumb (radial). The neutral angles are judgement, so that only the *change* between
//! two cockpits means anything. How far a wrist may turn is not said here.

use crate::HandPlace;
use glam::DVec3;

/// β with a straight hand on the tops, degrees (judgement).
const TOPS_DEG: f64 = 83.0;
/// β with a straight hand on ramps and hoods, degrees (judgement).
const HOODS_DEG: f64 = 53.0;
/// β with a straight hand in the drops, degrees (judgement).
const DROPS_DEG: f64 = 100.0;
/// β with a straight hand on the ends, degrees (judgement).
const ENDS_DEG: f64 = 90.0;

const fn straight_deg(place: HandPlace) -> f64 {
    match place {
        HandPlace::Tops => TOPS_DEG,
        HandPlace::Ramps | HandPlace::Hoods | HandPlace::BentElbowHoods => HOODS_DEG,
        HandPlace::Drops => DROPS_DEG,
        HandPlace::Ends => ENDS_DEG,
    }
}

/// The wrist line in radians, towards the thumb positive; to be shown as a change only.
///
/// `forearm` points from elbow to hand and `axis` along the grip towards the thumb, each of any
/// length, in the bike frame; for a left hand both mirrored, which gives the same angle. A forearm
/// or an axis without a direction counts as lying along the other.
pub fn wrist_line_rad(place: HandPlace, forearm: DVec3, axis: DVec3) -> f64 {
    // the sine and cosine of the same angle: exact near 0° and 180°, and never not a number
    let beta_rad = forearm.cross(axis).length().atan2(forearm.dot(axis));
    beta_rad - straight_deg(place).to_radians()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::frame::mirrored;

    fn deg(place: HandPlace, forearm: DVec3, axis: DVec3) -> f64 {
        wrist_line_rad(place, forearm, axis).to_degrees()
    }

    #[test]
    fn a_forearm_straight_ahead_onto_the_tops_is_seven_degrees_to_the_thumb() {
        // square to the tube: 90° less the 83° of a straight hand
        let got = deg(HandPlace::Tops, DVec3::X, DVec3::NEG_Z);
        assert!((got - 7.0).abs() < 1e-12, "{got}");
        // a right elbow standing out by 7° brings the hand straight
        let forearm = DVec3::new(7_f64.to_radians().cos(), 0.0, -(7_f64.to_radians().sin()));
        assert!(deg(HandPlace::Tops, forearm, DVec3::NEG_Z).abs() < 1e-12);
    }

    /// What a straight hand makes with its forearm (judgement: 83, 53, 53, 53, 100 and 90°) reads
    /// as nought in every place.
    #[test]
    fn a_straight_hand_reads_nought_everywhere() {
        let straight = [83_f64, 53.0, 53.0, 53.0, 100.0, 90.0];
        for (place, degrees) in HandPlace::ALL.into_iter().zip(straight) {
            let angle = degrees.to_radians();
            let axis = DVec3::new(angle.cos(), angle.sin(), 0.0);
            assert!(deg(place, DVec3::X, axis).abs() < 1e-9, "{place:?}");
        }
    }

    #[test]
    fn turning_the_grip_away_from_the_forearm_turns_the_hand_to_the_thumb() {
        let forearm = DVec3::new(1.0, -0.4, 0.0);
        let at = |slope_deg: f64| {
            let slope = slope_deg.to_radians();
            deg(HandPlace::Hoods, forearm, DVec3::new(slope.cos(), slope.sin(), 0.0))
        };
        for step in -2..6 {
            let slope = 10.0 * f64::from(step);
            // in one plane and above the forearm the angle follows the hood degree by degree
            assert!((at(slope + 5.0) - at(slope) - 5.0).abs() < 1e-9, "{slope}");
        }
    }

    #[test]
    fn both_hands_and_any_lengths_give_the_same() {
        let (forearm, axis) = (DVec3::new(0.8, -0.3, -0.1), DVec3::new(0.9, 0.2, -0.3));
        for place in HandPlace::ALL {
            let right = wrist_line_rad(place, forearm, axis);
            let left = wrist_line_rad(place, mirrored(forearm), mirrored(axis));
            assert!((right - left).abs() < 1e-15);
            assert!((wrist_line_rad(place, forearm * 7.0, axis * 0.1) - right).abs() < 1e-12);
        }
    }

    #[test]
    fn what_has_no_direction_gives_a_number_all_the_same() {
        assert!(wrist_line_rad(HandPlace::Drops, DVec3::ZERO, DVec3::X).is_finite());
        assert!((deg(HandPlace::Drops, DVec3::NEG_X, DVec3::X) - 80.0).abs() < 1e-9);
    }
}
