//! One posture, against general optimisers on the same function, derivatives and start.
//!
//! Run with `cargo bench -p fit-math --bench posture`. Before anything is timed each optimiser is
//! given the loosest stopping rule of its own that brings every question within [`ERROR`] of the
//! minimum from both starts; that it got there is asserted, and the rule is printed.

#![allow(
    clippy::unwrap_used,
    clippy::print_stdout,
    reason = "a benchmark that cannot be set up has nothing to measure, and prints what it found"
)]

mod argmin_peer;
mod basin_peer;
#[path = "../../tests/common/held.rs"]
mod held;

use divan::{Bencher, black_box};
use fit_math::DVec3;
use fit_math::body::{Body, Segments, Survey};
use fit_math::posture::{
    Before, Discomfort, Grips, HandPlace, Joint, Limits, Outcome, Posture, Rider, Start, bracket,
    solve,
};
use fit_math::saddle::Seat;
use std::sync::LazyLock;

/// Largest error of any scaled unknown that an optimiser may stop with: 1.5e-5° of pelvis.
const ERROR: f64 = 1e-6;

/// Solves per sample, and samples.
const SAMPLE: u32 = 60;
const SAMPLES: u32 = 300;

/// Six questions: mean man and woman on tops, hoods and drops, with the usual limits.
struct Question {
    rider: Rider,
    seat: Seat,
    grips: Grips,
    uneven: Grips,
    /// The same rider with a stiff hip and neck, past both of which every one of these bars is.
    stiff: Rider,
    place: HandPlace,
    /// Grips 5 mm away, and the posture there: a warm start.
    away: Grips,
    was: Posture,
    near: Start,
    least: Posture,
}

impl Question {
    fn discomfort(&self) -> Discomfort<'_> {
        Discomfort::new(&self.rider, &self.seat, &self.grips, self.place)
    }
}

static QUESTIONS: LazyLock<Vec<Question>> = LazyLock::new(|| {
    let survey = Survey::shipped().unwrap();
    held::held()
        .into_iter()
        .map(|((sex, sit, crank_mm), place, right)| {
            let stiff = [(Joint::Hip, 85.0_f64), (Joint::Neck, 25.0)].into_iter().fold(
                Limits::usual(),
                |limits, (joint, most_deg)| {
                    limits.with_reading(joint, most_deg.to_radians(), false).unwrap()
                },
            );
            let body = Body::new(&survey, Some(sex), &[]).unwrap();
            let rider = Rider::new(Segments::of(&body).unwrap(), Some(sex));
            let seat = Seat::new(sit, crank_mm).unwrap();
            let grips = Grips::symmetric(right).unwrap();
            let left = DVec3::new(right.x - 2.0, right.y + 3.0, -right.z);
            let away = Grips::symmetric(right + DVec3::new(-3.0, 4.0, 0.0)).unwrap();
            let was = solve(&rider, &seat, &away, place, None);
            Question {
                away,
                was,
                near: was.start(),
                least: solve(&rider, &seat, &grips, place, None),
                uneven: Grips::new(right, left).unwrap(),
                stiff: rider.clone().with_limits(stiff),
                rider,
                seat,
                grips,
                place,
            }
        })
        .collect()
});

/// A peer: the function, a start, and its stopping rule.
type Peer = fn(Discomfort<'_>, [f64; 3], f64) -> [f64; 3];

/// A peer's largest error over all questions and both starts with that stopping rule.
fn error(peer: Peer, rule: f64) -> f64 {
    let mut worst = 0.0_f64;
    for q in QUESTIONS.iter() {
        let least = q.least.start().scaled();
        for from in [q.discomfort().guess(), q.near.scaled()] {
            let found = peer(q.discomfort(), from, rule);
            for i in 0..3 {
                let off = (found[i] - least[i]).abs();
                worst = if off.is_nan() { f64::INFINITY } else { worst.max(off) };
            }
        }
    }
    worst
}

/// The loosest rule of a ladder that reaches the minimum.
fn loosest(name: &str, peer: Peer, ladder: impl IntoIterator<Item = f64>) -> f64 {
    for rule in ladder {
        let off = error(peer, rule);
        if off <= ERROR {
            println!("{name:34} stops by {rule:.0e}: within {off:.0e} of the minimum");
            return rule;
        }
    }
    panic!("{name} did not reach the minimum");
}

/// Tolerances from loose to tight.
fn tolerances() -> impl Iterator<Item = f64> {
    (4..40).map(|half| 10.0_f64.powf(-0.5 * f64::from(half)))
}

static RULES: LazyLock<[f64; 5]> = LazyLock::new(|| {
    [
        loosest("argmin Newton (steps)", argmin_peer::newton, (1..30).map(f64::from)),
        loosest("basin trust-region Newton", basin_peer::trust_region, tolerances()),
        loosest("argmin BFGS, Moré–Thuente", argmin_peer::bfgs, tolerances()),
        loosest("basin BFGS", basin_peer::bfgs, tolerances()),
        loosest("argmin Nelder–Mead", argmin_peer::nelder_mead, tolerances()),
    ]
});

fn main() {
    let mut apart = 0.0_f64;
    for q in QUESTIONS.iter() {
        let warm = solve(&q.rider, &q.seat, &q.grips, q.place, Some(q.near)).start().scaled();
        let cold = q.least.start().scaled();
        apart = (0..3).fold(apart, |most, i| most.max((warm[i] - cold[i]).abs()));
        let stiff = solve(&q.stiff, &q.seat, &q.grips, q.place, None).outcome;
        assert!(matches!(stiff, Outcome::AtLimit { .. }), "{stiff:?}");
    }
    println!("{:34} warm and cold are {apart:.0e} apart", "ours");
    assert!(apart < ERROR);
    assert!(RULES.iter().all(|rule| *rule > 0.0));
    // every sample goes ten times round the questions
    divan::Divan::from_args().sample_size(SAMPLE).sample_count(SAMPLES).main();
}

/// Runs a solve of one question after another.
fn each(bencher: Bencher<'_, '_>, solve: impl Fn(&'static Question) -> [f64; 3] + Sync) {
    let mut turn = 0;
    bencher
        .with_inputs(move || {
            turn = (turn + 1) % QUESTIONS.len();
            &QUESTIONS[turn]
        })
        .bench_local_values(|q| solve(black_box(q)));
}

fn ours(q: &Question, grips: &Grips, start: Option<Start>) -> [f64; 3] {
    joints(solve(&q.rider, &q.seat, grips, q.place, start))
}

fn joints(posture: Posture) -> [f64; 3] {
    [posture.pelvis_rad, posture.spine_rad, posture.protraction_mm]
}

#[divan::bench]
fn one_arm_cold(bencher: Bencher<'_, '_>) {
    each(bencher, |q| ours(q, &q.grips, None));
}

#[divan::bench]
fn one_arm_warm(bencher: Bencher<'_, '_>) {
    each(bencher, |q| ours(q, &q.grips, Some(q.near)));
}

#[divan::bench]
fn two_arms_cold(bencher: Bencher<'_, '_>) {
    each(bencher, |q| ours(q, &q.uneven, None));
}

#[divan::bench]
fn two_arms_warm(bencher: Bencher<'_, '_>) {
    each(bencher, |q| ours(q, &q.uneven, Some(q.near)));
}

/// With limits acting all hollows are looked at; the peers look at one.
#[divan::bench]
fn limits_acting_cold(bencher: Bencher<'_, '_>) {
    each(bencher, |q| joints(solve(&q.stiff, &q.seat, &q.grips, q.place, None)));
}

#[divan::bench]
fn limits_acting_warm(bencher: Bencher<'_, '_>) {
    each(bencher, |q| joints(solve(&q.stiff, &q.seat, &q.grips, q.place, Some(q.near))));
}

/// The angles on top of a solve: both arms, leg and neck.
#[divan::bench]
fn report(bencher: Bencher<'_, '_>) {
    each(bencher, |q| {
        let r = q.least.report(&q.rider, &q.seat, &q.grips, q.place);
        [r.trunk_rad, r.hip_min_rad, r.neck_need_rad]
    });
}

fn ends(q: &Question, grips: &Grips) -> [f64; 3] {
    let before = Before { seat: &q.seat, grips: &q.away, posture: &q.was };
    let ends = bracket(&q.rider, &before, &q.seat, grips, q.place);
    [ends.by_trunk.trunk_rad, ends.by_elbows.trunk_rad, ends.by_elbows.elbows_rad[0]]
}

/// Both ends of the bracket beside a change of 5 mm.
#[divan::bench]
fn bracket_one_arm(bencher: Bencher<'_, '_>) {
    each(bencher, |q| ends(q, &q.grips));
}

#[divan::bench]
fn bracket_two_arms(bencher: Bencher<'_, '_>) {
    each(bencher, |q| ends(q, &q.uneven));
}

/// The function itself with gradient and second derivatives.
#[divan::bench]
fn derivatives(bencher: Bencher<'_, '_>) {
    each(bencher, |q| q.discomfort().at(black_box([1.1, 5.0, 0.05])).gradient);
}

macro_rules! peers {
    ($($cold:ident, $warm:ident: $peer:path, $rule:literal;)*) => {
        $(
            #[divan::bench]
            fn $cold(bencher: Bencher<'_, '_>) {
                let rule = RULES[$rule];
                each(bencher, |q| $peer(q.discomfort(), q.discomfort().guess(), rule));
            }

            #[divan::bench]
            fn $warm(bencher: Bencher<'_, '_>) {
                let rule = RULES[$rule];
                each(bencher, |q| $peer(q.discomfort(), q.near.scaled(), rule));
            }
        )*
    };
}

peers! {
    peer_newton_argmin_cold, peer_newton_argmin_warm: argmin_peer::newton, 0;
    peer_newton_basin_cold, peer_newton_basin_warm: basin_peer::trust_region, 1;
    peer_bfgs_argmin_cold, peer_bfgs_argmin_warm: argmin_peer::bfgs, 2;
    peer_bfgs_basin_cold, peer_bfgs_basin_warm: basin_peer::bfgs, 3;
    peer_nelder_mead_argmin_cold, peer_nelder_mead_argmin_warm: argmin_peer::nelder_mead, 4;
}
