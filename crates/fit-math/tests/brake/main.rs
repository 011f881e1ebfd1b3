//! Brake reach and room for the palm, held against figures worked out apart from this crate and
//! against what geometry says must and must not change them.

#![allow(
    clippy::unwrap_used,
    clippy::print_stdout,
    reason = "helpers of tests, which may panic and tell figures"
)]

#[path = "../bench/mod.rs"]
#[allow(dead_code, reason = "shared by tests, not all of which need each part")]
mod bench;
mod clear;
#[path = "../bar/draw.rs"]
#[allow(dead_code, reason = "shared by tests, not all of which need each draw")]
mod draw;
mod figures;
#[path = "../common/lever.rs"]
mod invented;
mod laws;
#[path = "../common/random.rs"]
mod random;

use fit_math::bar::{BarDimensions, Bend, Family};
use fit_math::cockpit::{LeverPose, LeverShape, Mount};
use fit_math::frame::Side;
use fit_math::hand::{Cover, CoverKnown};

/// The kind of lever that the figures are for, with six settings; invented.
fn kind() -> LeverShape {
    invented::lever(&[0.0, -1.4, -2.7, -4.3, -6.1, -8.0]).checked().unwrap()
}

fn bend(family: Family, reach_mm: f64, drop_mm: f64) -> Bend {
    BarDimensions::usual(family, reach_mm, drop_mm, 420.0).build().unwrap()
}

/// Bends of the sizes that shops keep; invented.
fn stock_like() -> Vec<Bend> {
    let of = |family, sizes: &[(f64, f64)]| -> Vec<Bend> {
        sizes.iter().map(|&(reach, drop)| bend(family, reach, drop)).collect()
    };
    let mut all = of(Family::Round, &[(79.0, 135.0), (85.0, 149.0), (88.0, 150.0), (89.0, 152.0)]);
    all.extend(of(Family::Variable, &[(70.0, 115.0), (75.0, 125.0), (80.0, 130.0)]));
    all
}

fn flat_bends() -> Vec<Bend> {
    [(75.0, 130.0), (80.0, 135.0), (85.0, 145.0)].map(|(r, d)| bend(Family::Flat, r, d)).to_vec()
}

fn usual_mount(bend: &Bend) -> Mount {
    let along_mm = bend.along_from_s(bend.default_clamp().s_mm);
    Mount { along_mm, turn_in_rad: 0.0, clicks: 0 }
}

fn lever<'a>(shape: &'a LeverShape, bend: &Bend) -> LeverPose<'a> {
    LeverPose::new(shape, bend, usual_mount(bend), Side::Right)
}

fn levers<'a>(shape: &'a LeverShape, bend: &Bend, mount: Mount) -> [LeverPose<'a>; 2] {
    Side::BOTH.map(|side| LeverPose::new(shape, bend, mount, side))
}

fn cover(mm: f64) -> Cover {
    Cover { mm, sd_mm: 5.0, known: CoverKnown::Estimated }
}

fn s_at_deg(bend: &Bend, heading_deg: f64) -> f64 {
    bend.station_at_heading(heading_deg.to_radians()).unwrap().s_mm
}
