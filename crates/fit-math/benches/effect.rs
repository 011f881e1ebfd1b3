//! One rider's frontal area, against a union of polygons and a raster of the same outlines.
//!
//! Run with `cargo bench -p fit-math --bench effect`. Before anything is timed each peer is given
//! the coarsest polygons or pixels that bring every outline within [`ERROR`] of the area; that it
//! got there is asserted, and what it took is printed with the error that is left.

#![allow(
    clippy::unwrap_used,
    clippy::print_stdout,
    reason = "a benchmark that cannot be set up has nothing to measure, and prints what it found"
)]

#[path = "../tests/common/held.rs"]
mod held;

use core::f64::consts::{FRAC_PI_2, TAU};
use divan::{Bencher, black_box};
use fit_math::DVec2;
use fit_math::body::{Body, Segments, Survey};
use fit_math::effect::silhouette::{Flesh, Hull, TOLERANCE, frontal_area_m2, outline, union_area};
use fit_math::posture::{Figure, Grips, Rider, solve};
use fit_math::saddle::Seat;
use i_overlay::core::fill_rule::FillRule;
use i_overlay::core::overlay_rule::OverlayRule;
use i_overlay::float::overlay::FloatOverlay;
use std::sync::LazyLock;
use tiny_skia::{Mask, Path, PathBuilder, Transform};

/// Largest error of an area that a peer may stop with, as a share.
const ERROR: f64 = TOLERANCE;
/// An area is taken to be this right, as a share.
const EXACT: f64 = 1e-7;
/// Outlines per sample, and samples.
const SAMPLE: u32 = 60;
const SAMPLES: u32 = 300;
/// Sides on a turn of the polygons that are handed to the raster: enough not to count beside pixels.
const RASTER_SIDES: u32 = 32;

/// Mean man and woman on tops, hoods and drops.
struct Question {
    figure: Figure,
    flesh: Flesh,
    hulls: Vec<Hull>,
    area: f64,
}

static QUESTIONS: LazyLock<Vec<Question>> = LazyLock::new(|| {
    let survey = Survey::shipped().unwrap();
    held::held()
        .into_iter()
        .map(|((sex, sit, crank_mm), place, right)| {
            let body = Body::new(&survey, Some(sex), &[]).unwrap();
            let rider = Rider::new(Segments::of(&body).unwrap(), Some(sex));
            let seat = Seat::new(sit, crank_mm).unwrap();
            let grips = Grips::symmetric(right).unwrap();
            let posture = solve(&rider, &seat, &grips, place, None);
            let figure = posture.figure(&rider, &seat, &grips, place, FRAC_PI_2);
            let flesh = Flesh::of(&body);
            let hulls = outline(&figure, &flesh).to_vec();
            let area = union_area(&hulls, EXACT);
            Question { figure, flesh, hulls, area }
        })
        .collect()
});

/// A hull as a polygon with that many sides on every whole turn of an arc. Where arcs meet straight
/// pieces it is exact; between, corners lie outside the arc by what makes the areas equal.
fn polygon(hull: &Hull, sides: u32) -> Vec<[f64; 2]> {
    let stretch = DVec2::new(1.0, hull.tall());
    let [(c0, r0), (c1, r1)] = hull.ends().map(|end| (end.centre / stretch, end.half_breadth));
    let apart = c1 - c0;
    let cos = (r0 - r1) / apart.length();
    let points = if cos.abs() < 1.0 {
        let (along, half) = (apart.to_angle(), cos.acos());
        let mut points = arc(c0, r0, along + half, TAU - 2.0 * half, sides);
        points.extend(arc(c1, r1, along - half, 2.0 * half, sides));
        points
    } else {
        let (centre, radius) = if r0 > r1 { (c0, r0) } else { (c1, r1) };
        let mut points = arc(centre, radius, 0.0, TAU, sides);
        points.pop();
        points
    };
    points.into_iter().map(|point| (point * stretch).to_array()).collect()
}

/// Corners along an arc, both ends on it.
fn arc(centre: DVec2, radius: f64, from: f64, turn: f64, sides: u32) -> Vec<DVec2> {
    let pieces = (f64::from(sides) * turn / TAU).ceil().max(2.0);
    let step = turn / pieces;
    // two triangles with one corner outside and the others with two have the arc's area:
    // 2 g + (pieces − 2) g² = pieces · step / sin step
    let (inner, wanted) = (pieces - 2.0, pieces * step / step.sin());
    let grown =
        if inner > 0.0 { ((1.0 + inner * wanted).sqrt() - 1.0) / inner } else { wanted / 2.0 };
    let mut at = 0.0;
    let mut points = Vec::new();
    while at <= pieces {
        let out = if at == 0.0 || at == pieces { radius } else { grown * radius };
        points.push(centre + out * DVec2::from_angle(from + at * step));
        at += 1.0;
    }
    points
}

/// Area of the union of polygons of so many sides.
fn by_polygons(hulls: &[Hull], sides: u32) -> f64 {
    let contours: Vec<_> = hulls.iter().map(|hull| polygon(hull, sides)).collect();
    let shapes = FloatOverlay::<[f64; 2]>::with_subj(&contours)
        .overlay(OverlayRule::Subject, FillRule::NonZero);
    // outer contours run one way and holes the other
    let signed = |contour: &Vec<[f64; 2]>| -> f64 {
        let next = contour.iter().cycle().skip(1);
        contour.iter().zip(next).map(|(p, q)| p[0] * q[1] - p[1] * q[0]).sum::<f64>() / 2.0
    };
    shapes.iter().flatten().map(signed).sum::<f64>().abs()
}

/// Outlines as one path, a pixel being so many mm.
fn path(hulls: &[Hull], pixel_mm: f64, low: DVec2) -> Path {
    let mut path = PathBuilder::new();
    for hull in hulls {
        for (at, [x, y]) in polygon(hull, RASTER_SIDES).into_iter().enumerate() {
            let point = (DVec2::new(x, y) - low) / pixel_mm;
            #[allow(
                clippy::cast_possible_truncation,
                reason = "a raster works in single precision"
            )]
            let (x, y) = (point.x as f32, point.y as f32);
            if at == 0 {
                path.move_to(x, y);
            } else {
                path.line_to(x, y);
            }
        }
        path.close();
    }
    path.finish().unwrap()
}

/// Area by what part of each pixel is covered.
fn by_raster(hulls: &[Hull], pixel_um: u32) -> f64 {
    let pixel_mm = f64::from(pixel_um) / 1000.0;
    // from 400 mm left to 400 mm right, from under the pedals to over the helmet
    let low = DVec2::new(-400.0, -200.0);
    let pixels = |mm: f64| -> u32 {
        #[allow(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "some thousand pixels"
        )]
        let pixels = (mm / pixel_mm).ceil() as u32;
        pixels
    };
    let mut mask = Mask::new(pixels(800.0), pixels(1800.0)).unwrap();
    let outlines = path(hulls, pixel_mm, low);
    mask.fill_path(&outlines, tiny_skia::FillRule::Winding, true, Transform::identity());
    let covered: u64 = mask.data().iter().map(|&alpha| u64::from(alpha)).sum();
    covered as f64 / 255.0 * pixel_mm * pixel_mm
}

/// A peer: outlines, and how fine.
type Peer = fn(&[Hull], u32) -> f64;

/// The largest error over all questions.
fn error(peer: impl Fn(&[Hull]) -> f64) -> f64 {
    QUESTIONS.iter().map(|q| (peer(&q.hulls) / q.area - 1.0).abs()).fold(0.0, f64::max)
}

/// The coarsest rung of a ladder from which on every finer one keeps the error.
fn coarsest(name: &str, unit: &str, peer: Peer, ladder: &[u32]) -> u32 {
    let errors: Vec<_> = ladder.iter().map(|&fine| error(|hulls| peer(hulls, fine))).collect();
    let kept = errors.iter().rev().take_while(|&&error| error <= ERROR).count();
    assert!(kept > 0, "{name} does not come within {ERROR:e}: {errors:?}");
    let at = ladder.len() - kept;
    println!("{name}: {} {unit}, error at most {:.1e}", ladder[at], errors[at]);
    ladder[at]
}

static SIDES: LazyLock<u32> = LazyLock::new(|| {
    coarsest(
        "i_overlay",
        "sides a turn",
        by_polygons,
        &[6, 8, 10, 12, 16, 20, 24, 32, 40, 48, 64, 96],
    )
});
static PIXEL_UM: LazyLock<u32> = LazyLock::new(|| {
    let ladder = [10_000, 8000, 6000, 5000, 4000, 3000, 2500, 2000, 1500, 1000];
    coarsest("tiny-skia", "thousandths of a mm a pixel", by_raster, &ladder)
});

fn main() {
    let ours = error(|hulls| union_area(hulls, TOLERANCE));
    println!("ours: tolerance {TOLERANCE:.0e}, error at most {ours:.1e}");
    assert!(ours <= ERROR);
    LazyLock::force(&SIDES);
    LazyLock::force(&PIXEL_UM);
    divan::main();
}

/// Every question in turn.
fn in_turn(bencher: Bencher<'_, '_>, area: impl Fn(&Question) -> f64 + Sync) {
    let mut at = 0;
    bencher.bench_local(|| {
        at = (at + 1) % QUESTIONS.len();
        area(black_box(&QUESTIONS[at]))
    });
}

#[divan::bench(sample_size = SAMPLE, sample_count = SAMPLES)]
fn area_ours(bencher: Bencher<'_, '_>) {
    in_turn(bencher, |q| union_area(&q.hulls, TOLERANCE));
}

#[divan::bench(sample_size = SAMPLE, sample_count = SAMPLES)]
fn area_ours_from_joints(bencher: Bencher<'_, '_>) {
    in_turn(bencher, |q| frontal_area_m2(&q.figure, &q.flesh, TOLERANCE));
}

#[divan::bench(sample_size = 6, sample_count = SAMPLES)]
fn area_by_i_overlay(bencher: Bencher<'_, '_>) {
    in_turn(bencher, |q| by_polygons(&q.hulls, *SIDES));
}

#[divan::bench(sample_size = 6, sample_count = SAMPLES)]
fn area_by_tiny_skia(bencher: Bencher<'_, '_>) {
    in_turn(bencher, |q| by_raster(&q.hulls, *PIXEL_UM));
}
