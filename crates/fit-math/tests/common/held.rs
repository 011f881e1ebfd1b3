//! Where the survey's mean man and mean woman hold the bars of bikes of their size: what is timed.

use fit_math::body::Sex;
use fit_math::posture::HandPlace;
use fit_math::{DVec2, DVec3};

/// Sex, sit point (mm) and crank (mm).
pub(crate) type On = (Sex, DVec2, f64);

/// On which bike, in which place, and the right grip, bike frame, mm.
pub(crate) fn held() -> [(On, HandPlace, DVec3); 6] {
    let man = (Sex::Male, DVec2::new(-208.063, 702.408), 172.5);
    let woman = (Sex::Female, DVec2::new(-192.417, 649.588), 167.5);
    [
        (man, HandPlace::Tops, DVec3::new(472.034, 625.175, 150.0)),
        (woman, HandPlace::Tops, DVec3::new(445.676, 587.269, 120.0)),
        (man, HandPlace::Hoods, DVec3::new(586.034, 639.175, 208.0)),
        (woman, HandPlace::Hoods, DVec3::new(555.676, 601.269, 178.0)),
        (man, HandPlace::Drops, DVec3::new(542.034, 533.015, 214.0)),
        (woman, HandPlace::Drops, DVec3::new(510.676, 500.869, 184.0)),
    ]
}
