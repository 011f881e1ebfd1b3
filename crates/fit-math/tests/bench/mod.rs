//! A bike, three bars and a kind of lever that the cockpit tests share. All invented.

use fit_math::DVec2;
use fit_math::bar::{BarDimensions, Bend, Family, Flare};
use fit_math::cockpit::{Blade, Cockpit, FrontEnd, LeverPair, LeverShape, Mount, Stem};
use std::sync::Arc;

/// A front end with a 73° head.
pub(crate) fn front() -> FrontEnd {
    FrontEnd {
        stack_mm: 560.0,
        reach_mm: 390.0,
        head_angle_rad: 73_f64.to_radians(),
        headset_cover_mm: 10.0,
    }
}

/// A stem of that length and angle.
pub(crate) fn stem(length_mm: f64, angle_deg: f64) -> Stem {
    Stem { length_mm, angle_rad: angle_deg.to_radians(), clamp_height_mm: 40.0 }
}

/// A deep round bar.
pub(crate) fn deep() -> Arc<Bend> {
    Arc::new(BarDimensions::usual(Family::Round, 85.0, 145.0, 420.0).build().unwrap())
}

/// A compact bar.
pub(crate) fn compact() -> Arc<Bend> {
    Arc::new(BarDimensions::usual(Family::Variable, 75.0, 125.0, 420.0).build().unwrap())
}

/// A compact bar whose hooks lean out by 16°.
#[allow(dead_code, reason = "shared by tests, not all of which need each bar")]
pub(crate) fn flared() -> Arc<Bend> {
    let dimensions = BarDimensions {
        flare: Flare::Angle(16_f64.to_radians()),
        ..BarDimensions::usual(Family::Variable, 72.0, 118.0, 440.0)
    };
    Arc::new(dimensions.build().unwrap())
}

/// A kind of lever.
pub(crate) fn kind() -> LeverShape {
    LeverShape {
        grip_mm: DVec2::new(19.0, 43.0),
        hood_slope_rad: 40_f64.to_radians(),
        grip_radius_mm: 16.0,
        hood_outline_mm: vec![DVec2::ZERO, DVec2::new(40.0, 60.0), DVec2::new(-10.0, 50.0)],
        blade: Blade {
            pivot_mm: DVec2::new(8.0, 42.0),
            length_mm: 105.0,
            usable_mm: (40.0, 95.0),
            rest_angle_rad: -20_f64.to_radians(),
            adjuster_rad: vec![0.0, -4_f64.to_radians()],
            free_travel_mm: 11.0,
        },
    }
    .checked()
    .unwrap()
}

/// Two of them where levers are usually clamped.
pub(crate) fn levers(bend: &Bend) -> LeverPair {
    let along_mm = bend.along_from_s(bend.default_clamp().s_mm);
    let mount = Mount { along_mm, turn_in_rad: 0.0, clicks: 0 };
    LeverPair { shape: Arc::new(kind()), left: mount, right: mount }
}

/// A cockpit with the usual levers, rolled by `roll_deg`.
pub(crate) fn bare(bend: Arc<Bend>, stem: Stem, spacers_mm: f64, roll_deg: f64) -> Cockpit {
    let levers = Some(levers(&bend));
    let roll_rad = roll_deg.to_radians();
    Cockpit::new(front(), stem, spacers_mm, bend, roll_rad, levers, 0.0).unwrap()
}
