//! The posture of least discomfort, and whether the hands got there.
//!
//! Unknowns scaled as in [`Discomfort`]; bike frame, mm and radians outside. The box in which they
//! are sought is part of the model.
//!
//! Within reach and short of every limit one descent from a guess is all: no second hollow that
//! counts was ever met on a bicycle. With a limit acting, or a bar too far, there can be several
//! (`starts` says which), and the least of eleven looks (fourteen with two arms that differ)
//! is kept. That is not a proof that none is lower; `tests/posture/hollows.rs` counts how often one is.

use super::discomfort::{Discomfort, SCALES, scaled, unscaled};
use super::limits::Joint;
use super::newton::{Bounds, Least, least, newton_step, stepped};
use super::starts::{BENT_DEG, STRAIGHT_DEG};
use super::{Grips, HandPlace, Rider};
use crate::saddle::Seat;

const fn degrees((low, high): (f64, f64)) -> (f64, f64) {
    (low.to_radians(), high.to_radians())
}

/// The box: pelvis −20…60°, spine 10…85°, shift ±80 mm (judgement: beyond what people do).
pub(super) const BOX: [(f64, f64); 3] =
    [degrees((-20.0, 60.0)), degrees((10.0, 85.0)), (-80.0, 80.0)];
/// Where a solve sets out from: a posture near the one sought saves steps.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Start {
    /// Forward turn of the pelvis, radians.
    pub pelvis_rad: f64,
    /// Bend of the spine, radians.
    pub spine_rad: f64,
    /// Forward shift of the shoulders, mm.
    pub protraction_mm: f64,
}

impl Start {
    /// In the units of [`Discomfort`]: pelvis, spine and shift, each 1 at the departure that costs
    /// one unit.
    pub fn scaled(&self) -> [f64; 3] {
        scaled([self.pelvis_rad, self.spine_rad, self.protraction_mm])
    }
}

/// What is known of one unknown beforehand.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Unknown {
    /// To be found, within the model's box.
    Free,
    /// Kept at this value, radians or mm; one outside the box is brought to its edge.
    Fixed(f64),
}

/// Which unknowns are to be found.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Unknowns {
    /// Forward turn of the pelvis, radians.
    pub pelvis: Unknown,
    /// Bend of the spine, radians.
    pub spine: Unknown,
    /// Forward shift of the shoulders, mm.
    pub protraction: Unknown,
}

impl Unknowns {
    /// All to be found.
    pub const FREE: Self =
        Self { pelvis: Unknown::Free, spine: Unknown::Free, protraction: Unknown::Free };
}

/// How a rider came to hold the bar.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Outcome {
    /// The hands are there and no joint is at its end.
    Reached,
    /// The hands are there, and a joint is past its limit by more than half a degree or mm.
    AtLimit {
        /// The joint that is passed most.
        joint: Joint,
    },
    /// Even with no limits the arms are too short.
    OutOfReach {
        /// How much is missing with no limits, mm.
        short_by_mm: f64,
    },
}

/// The posture of least discomfort.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Posture {
    /// Forward turn of the pelvis, radians.
    pub pelvis_rad: f64,
    /// Bend of the spine, radians.
    pub spine_rad: f64,
    /// Forward shift of the shoulders, mm.
    pub protraction_mm: f64,
    /// The discomfort, no unit.
    pub discomfort: f64,
    /// Whether the hands got there.
    pub outcome: Outcome,
}

impl Posture {
    /// The same posture as a start for a neighbouring one.
    pub fn start(&self) -> Start {
        Start {
            pelvis_rad: self.pelvis_rad,
            spine_rad: self.spine_rad,
            protraction_mm: self.protraction_mm,
        }
    }
}

/// The posture of least discomfort of a rider on a seat, holding those grips at that hand place.
/// Without a start it sets out from [`Discomfort::guess`].
pub fn solve(
    rider: &Rider,
    seat: &Seat,
    grips: &Grips,
    place: HandPlace,
    start: Option<Start>,
) -> Posture {
    solve_held(rider, seat, grips, place, &Unknowns::FREE, start)
}

/// The posture of a question that differs a little from one that is solved: one Newton step from
/// there, so that what is off goes as the square of the difference. The outcome is that of the solved
/// one. Where the step is no minimum's it is solved.
pub fn solve_nearby(
    rider: &Rider,
    seat: &Seat,
    grips: &Grips,
    place: HandPlace,
    solved: &Posture,
) -> Posture {
    let discomfort = Discomfort::new(rider, seat, grips, place);
    let bounds = bounds(&Unknowns::FREE);
    let x = solved.start().scaled();
    let at = discomfort.at(x);
    let Some(step) = newton_step(&at, &bounds, x, 0.0) else {
        return solve(rider, seat, grips, place, Some(solved.start()));
    };
    let (x, _) = stepped(x, step, &bounds);
    let [pelvis_rad, spine_rad, protraction_mm] = unscaled(x);
    let discomfort = at.value;
    Posture { pelvis_rad, spine_rad, protraction_mm, discomfort, outcome: solved.outcome }
}

/// [`solve`] with some unknowns kept at a value.
pub fn solve_held(
    rider: &Rider,
    seat: &Seat,
    grips: &Grips,
    place: HandPlace,
    unknowns: &Unknowns,
    start: Option<Start>,
) -> Posture {
    let discomfort = Discomfort::new(rider, seat, grips, place);
    let bounds = bounds(unknowns);
    let mut found = match start {
        Some(start) => least(&discomfort, &bounds, start.scaled()),
        None => least(&discomfort, &bounds, discomfort.guess()),
    };
    let mut beyond_mm = 0.0;
    if found.at.limits > 0.0 || found.at.beyond_mm > 0.0 {
        if start.is_some() {
            found = found.or_less(least(&discomfort, &bounds, discomfort.guess()));
        }
        let free = least_without_limits(&discomfort, &bounds);
        // looked at anew: the last step of a descent is taken without a look
        beyond_mm = discomfort.at(free.x).beyond_mm;
        found = least_of_all(&discomfort, &bounds, found, free.x);
    }
    let [pelvis_rad, spine_rad, protraction_mm] = unscaled(found.x);
    let mut posture = Posture {
        pelvis_rad,
        spine_rad,
        protraction_mm,
        discomfort: found.at.value,
        outcome: Outcome::Reached,
    };
    if beyond_mm > 0.0 {
        posture.outcome = Outcome::OutOfReach { short_by_mm: beyond_mm };
    } else if found.at.limits > 0.0 {
        let report = posture.report(rider, seat, grips, place);
        if let Some(joint) = rider.limits().passed_most(|joint| report.need(joint)) {
            posture.outcome = Outcome::AtLimit { joint };
        }
    }
    posture
}

/// The least with all limits off: how far the links reach.
#[cold]
fn least_without_limits(discomfort: &Discomfort<'_>, bounds: &Bounds) -> Least {
    let free = discomfort.without_limits();
    let look = |from| least(&free, bounds, from);
    let found = look(free.guess());
    let back = look(free.shifted_back(found.x));
    found.or_less(back)
}

/// The least of the hollows that acting limits or a bar too far leave, from one of them and the
/// least without limits.
#[cold]
fn least_of_all(
    discomfort: &Discomfort<'_>,
    bounds: &Bounds,
    mut found: Least,
    without_limits: [f64; 3],
) -> Least {
    let look = |from| least(discomfort, bounds, from);
    for from in [discomfort.neutral(), without_limits].into_iter().chain(Discomfort::trunks()) {
        found = found.or_less(look(from));
    }
    for arm in discomfort.arms().0 {
        let straight = look(discomfort.with_elbow(arm, STRAIGHT_DEG, found.x));
        found = found.or_less(straight);
    }
    let back = discomfort.shifted_back(found.x);
    for arm in discomfort.arms().0 {
        let straight = look(discomfort.with_elbow(arm, STRAIGHT_DEG, back));
        found = found.or_less(straight);
    }
    for arm in discomfort.arms().0 {
        let bent = look(discomfort.with_elbow(arm, BENT_DEG, found.x));
        found = found.or_less(bent);
    }
    found
}

pub(super) fn bounds(unknowns: &Unknowns) -> Bounds {
    let each = [unknowns.pelvis, unknowns.spine, unknowns.protraction];
    core::array::from_fn(|i| {
        let (low, high) = BOX[i];
        let (low, high) = match each[i] {
            Unknown::Fixed(value) if value.is_nan() => (low, high),
            Unknown::Fixed(value) => (value.clamp(low, high), value.clamp(low, high)),
            Unknown::Free => (low, high),
        };
        (low / SCALES[i], high / SCALES[i])
    })
}
