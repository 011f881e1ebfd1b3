//! Named frames and the few helpers that every subject needs.
//!
//! - **bike**: origin at the bottom bracket axle, x forward, y up, z to the rider's right, mm.
//! - **bar**: origin at the middle of the clamped top, x forward, y up, z right, before roll.
//! - **lever**: origin on the bar's centreline at the clamp's middle; forward along the bar's
//!   tangent (from the tops to the end), up away from the bend's centre in the plane of the hook,
//!   right = forward × up; then turned in about up.
//!
//! Transforms are named `to_from_from`: `bike_from_bar * point_in_bar`, so that adjacent names
//! must match.

use glam::DVec3;

/// The side of the rider's body, or of the bar.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Side {
    /// The rider's left, z < 0.
    Left,
    /// The rider's right, z > 0.
    Right,
}

impl Side {
    /// Both sides, left first.
    pub const BOTH: [Self; 2] = [Self::Left, Self::Right];
}

/// The point or direction mirrored in the plane of the bike, z = 0.
pub fn mirrored(v: DVec3) -> DVec3 {
    DVec3::new(v.x, v.y, -v.z)
}

/// Heading of a direction in space: the angle of its projection on x–y above the forward
/// horizontal, in radians in (−π, π].
pub fn heading_rad(direction: DVec3) -> f64 {
    direction.y.atan2(direction.x)
}

/// An angle brought into (−π, π].
pub fn wrapped_rad(angle_rad: f64) -> f64 {
    use core::f64::consts::{PI, TAU};
    let wrapped = (angle_rad + PI).rem_euclid(TAU) - PI;
    if wrapped <= -PI { PI } else { wrapped }
}

#[cfg(test)]
mod tests {
    use super::*;
    use core::f64::consts::PI;

    #[test]
    fn heading_is_measured_from_forward_and_positive_upwards() {
        assert_eq!(heading_rad(DVec3::X), 0.0);
        assert_eq!(heading_rad(DVec3::Y), PI / 2.0);
        assert_eq!(heading_rad(DVec3::new(1.0, 0.0, 5.0)), 0.0, "the sideways part does not enter");
    }

    #[test]
    fn wrapping_keeps_the_direction() {
        for k in -3..=3 {
            for a in [-3.0, -0.5, 0.0, 1.0, 3.1] {
                let w = wrapped_rad(a + f64::from(k) * 2.0 * PI);
                assert!((w - a).abs() < 1e-12 && w > -PI && w <= PI);
            }
        }
        assert_eq!(wrapped_rad(-PI), PI);
    }

    #[test]
    fn mirroring_twice_changes_nothing() {
        let v = DVec3::new(1.0, 2.0, 3.0);
        assert_eq!(mirrored(mirrored(v)), v);
        assert_eq!(mirrored(v).z, -3.0);
    }
}
