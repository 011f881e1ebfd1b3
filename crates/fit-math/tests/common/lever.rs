//! An invented kind of lever, for the checks and times that need one.

use fit_math::DVec2;
use fit_math::cockpit::{Blade, LeverShape};

/// The lever with the blade at these settings of its reach screw, degrees.
pub(crate) fn lever(clicks_deg: &[f64]) -> LeverShape {
    LeverShape {
        grip_mm: DVec2::new(19.0, 43.0),
        hood_slope_rad: 40_f64.to_radians(),
        grip_radius_mm: 16.0,
        hood_outline_mm: Vec::new(),
        blade: Blade {
            pivot_mm: DVec2::new(8.0, 42.0),
            length_mm: 105.0,
            usable_mm: (40.0, 95.0),
            rest_angle_rad: -20_f64.to_radians(),
            adjuster_rad: clicks_deg.iter().map(|deg| deg.to_radians()).collect(),
            free_travel_mm: 11.0,
        },
    }
}
