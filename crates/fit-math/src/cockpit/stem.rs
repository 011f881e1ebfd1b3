//! The clamp of the bar in the bike frame: frame, headset cover, spacers and stem.
//!
//! Plane geometry in the plane of the bike; x forward, y up, mm; angles in radians.

use glam::DVec2;

/// Where the steerer leaves the frame, in the bike frame.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FrontEnd {
    /// Bottom bracket axle to the top of the head tube, vertical, mm.
    pub stack_mm: f64,
    /// Bottom bracket axle to the top of the head tube, horizontal, mm.
    pub reach_mm: f64,
    /// Head tube from the horizontal, radians.
    pub head_angle_rad: f64,
    /// Height of the headset's cover, mm.
    pub headset_cover_mm: f64,
}

impl FrontEnd {
    /// Top of the head tube, mm.
    pub fn head_tube_top(&self) -> DVec2 {
        DVec2::new(self.reach_mm, self.stack_mm)
    }

    /// Unit vector up the steerer.
    pub fn steerer_up(&self) -> DVec2 {
        let (sin, cos) = self.head_angle_rad.sin_cos();
        DVec2::new(-cos, sin)
    }

    /// The point on the steerer `height_mm` above the head tube.
    pub fn steerer_at(&self, height_mm: f64) -> DVec2 {
        self.head_tube_top() + self.steerer_up() * height_mm
    }
}

/// A stem, or the stem part of a one-piece bar.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Stem {
    /// Steerer axis to bar axis along the stem, mm.
    pub length_mm: f64,
    /// Angle from the perpendicular to the steerer, up positive, radians.
    pub angle_rad: f64,
    /// Height that the stem's clamp takes on the steerer, mm.
    pub clamp_height_mm: f64,
}

impl Stem {
    /// Unit vector along the stem, from the steerer to the bar.
    pub fn direction(&self, front: &FrontEnd) -> DVec2 {
        let above_horizontal = core::f64::consts::FRAC_PI_2 - front.head_angle_rad + self.angle_rad;
        DVec2::from_angle(above_horizontal)
    }

    /// Middle of the stem's clamp on the steerer, mm.
    pub fn foot(&self, front: &FrontEnd, spacers_mm: f64) -> DVec2 {
        front.steerer_at(front.headset_cover_mm + spacers_mm + self.clamp_height_mm / 2.0)
    }
}

/// The middle of the bar's clamp, mm, in the plane of the bike.
///
/// ```
/// use fit_math::cockpit::{FrontEnd, Stem, clamp_position};
/// // on a 73° head a stem of −17° lies level
/// let front = FrontEnd { stack_mm: 560.0, reach_mm: 390.0,
///     head_angle_rad: 73_f64.to_radians(), headset_cover_mm: 0.0 };
/// let stem = Stem { length_mm: 100.0, angle_rad: -17_f64.to_radians(), clamp_height_mm: 0.0 };
/// let clamp = clamp_position(&front, &stem, 0.0);
/// assert!((clamp.x - 490.0).abs() < 1e-9 && (clamp.y - 560.0).abs() < 1e-9);
/// ```
pub fn clamp_position(front: &FrontEnd, stem: &Stem, spacers_mm: f64) -> DVec2 {
    stem.foot(front, spacers_mm) + stem.direction(front) * stem.length_mm
}
