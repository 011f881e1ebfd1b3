//! How the angles of a solved posture change with whatever is not known: central differences of
//! postures one Newton step away, which is the derivative of the least discomfort's place.
//!
//! mm and radians, bike frame. Past a joint's limit or out of reach the answer bends within the
//! spread, and a slope says too little: [`sample`](super::sample) serves there.

use crate::HandPlace;
use crate::cockpit::GripPair;
use crate::frame::Side;
use crate::hand::wrist_line_rad;
use crate::posture::{
    Grips, Outcome, Posture, Prior, Report, Rider, Shift, Shifts, solve, solve_nearby,
};
use crate::saddle::Seat;
use glam::DVec3;

/// How far to either side a length is moved, mm, and an angle, radians: small beside their spreads,
/// large beside rounding.
const STEP_MM: f64 = 0.05;
const STEP_RAD: f64 = 0.0005;

/// A number that is asked of a posture, radians or mm.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Asked {
    /// Trunk above the horizontal.
    Trunk,
    /// Forward turn of the pelvis.
    Pelvis,
    /// Bend of the spine.
    Spine,
    /// Forward shift of the shoulders, mm.
    Protraction,
    /// Smallest angle between thigh and trunk.
    HipMin,
    /// Upper arm from the trunk line, of both the larger.
    Shoulder,
    /// Bend of the straighter elbow.
    Elbow,
    /// Extension of the head that looking ahead needs.
    Neck,
    /// Turn of the left hand towards the thumb.
    WristLeft,
    /// Turn of the right hand towards the thumb.
    WristRight,
}

impl Asked {
    /// How many there are.
    pub const COUNT: usize = 10;
    /// Every one, in the order of slopes.
    pub const ALL: [Self; Self::COUNT] = [
        Self::Trunk,
        Self::Pelvis,
        Self::Spine,
        Self::Protraction,
        Self::HipMin,
        Self::Shoulder,
        Self::Elbow,
        Self::Neck,
        Self::WristLeft,
        Self::WristRight,
    ];
}

/// Everything that is asked of one posture, in the order of [`Asked::ALL`].
pub fn asked(report: &Report, grips: &GripPair, place: HandPlace) -> [f64; Asked::COUNT] {
    let [left, right] = [report.arm(Side::Left), report.arm(Side::Right)];
    [
        report.trunk_rad,
        report.pelvis_rad,
        report.spine_rad,
        report.protraction_mm,
        report.hip_min_rad,
        left.shoulder_rad.max(right.shoulder_rad),
        left.elbow_rad.min(right.elbow_rad),
        report.neck_need_rad,
        wrist_line_rad(place, left.forearm, grips.left.axis),
        wrist_line_rad(place, right.forearm, grips.right.axis),
    ]
}

/// A rider and everybody who is a little different: made once for all cockpits.
#[derive(Debug, Clone, PartialEq)]
pub struct Nearby {
    rider: Rider,
    /// The rider a step to either side by each shift; none where nobody is like that.
    moved: [Option<[Rider; 2]>; Shift::COUNT],
    /// The rider with elbows liked straighter and more bent, by what people differ by.
    elbows: [Option<Rider>; 2],
    /// How far that is.
    elbows_rad: f64,
}

impl Nearby {
    /// Everybody near a rider.
    pub fn to(rider: &Rider) -> Self {
        let moved = Shift::ALL.map(|shift| {
            let by = |step: f64| shifts(shift, step).rider(rider).ok();
            Some([by(-step(shift))?, by(step(shift))?])
        });
        let elbows_rad = Prior::usual().sd(Shift::Elbow);
        let elbows = [-elbows_rad, elbows_rad].map(|by| shifts(Shift::Elbow, by).rider(rider).ok());
        Self { rider: rider.clone(), moved, elbows, elbows_rad }
    }

    /// The rider.
    pub fn rider(&self) -> &Rider {
        &self.rider
    }
}

/// How far a shift is moved to either side, mm or radians.
const fn step(shift: Shift) -> f64 {
    match shift {
        Shift::Arm | Shift::Trunk | Shift::Sit | Shift::Hip | Shift::Protraction => STEP_MM,
        Shift::Elbow | Shift::Spine | Shift::Pelvis | Shift::UpperBack | Shift::Knee => STEP_RAD,
    }
}

fn shifts(shift: Shift, by: f64) -> Shifts {
    let mut each = [0.0; Shift::COUNT];
    each[shift.index()] = by;
    Shifts::new(each)
}

/// A posture near the one that was solved, with whom, where and on what.
#[derive(Debug, Clone, Copy)]
pub struct Look<'a> {
    /// Who.
    pub rider: &'a Rider,
    /// Where the rider sits.
    pub seat: &'a Seat,
    /// The grips.
    pub grips: &'a GripPair,
    /// Their centres.
    pub hands: &'a Grips,
    /// The hand place.
    pub place: HandPlace,
    /// How the rider then sits.
    pub posture: &'a Posture,
}

/// The angles of [`Asked::ALL`] of one posture.
pub type Slopes = SlopesOf<{ Asked::COUNT }>;

/// What N numbers of one posture change by, per mm or radian of each thing.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SlopesOf<const N: usize> {
    /// By each shift.
    pub(super) by_shift: [[f64; N]; Shift::COUNT],
    /// By both grips forward, up and apart (each outwards).
    pub(super) by_grip: [[f64; N]; 3],
    /// How the slope by the elbows' habit itself changes with that habit, per radian²: straight elbows
    /// pass on more than bent ones.
    pub(super) elbow_bend: [f64; N],
}

impl Slopes {
    /// The slopes of a posture that was solved for that rider, seat, grips and hand place.
    pub fn of(
        nearby: &Nearby,
        seat: &Seat,
        grips: &GripPair,
        place: HandPlace,
        posture: &Posture,
    ) -> Self {
        Self::of_numbers(nearby, seat, grips, place, posture, |at| {
            asked(&at.posture.report(at.rider, at.seat, at.hands, place), at.grips, place)
        })
    }
}

impl<const N: usize> SlopesOf<N> {
    /// The slopes of whatever numbers of a posture are asked for; nought by what makes nobody.
    pub fn of_numbers(
        nearby: &Nearby,
        seat: &Seat,
        grips: &GripPair,
        place: HandPlace,
        posture: &Posture,
        numbers: impl Fn(&Look<'_>) -> [f64; N],
    ) -> Self {
        let looked = |rider: &Rider, seat: &Seat, by: DVec3| {
            let moved = moved(grips, by);
            let hands = Grips::new(moved.right.centre, moved.left.centre).ok()?;
            let near = solve_nearby(rider, seat, &hands, place, posture);
            let grips = &moved;
            Some(numbers(&Look { rider, seat, grips, hands: &hands, place, posture: &near }))
        };
        let between = |down: Option<[f64; N]>, up: Option<_>, step: f64| {
            down.zip(up).map_or([0.0; N], |(down, up): (_, [f64; N])| {
                core::array::from_fn(|i| (up[i] - down[i]) / (2.0 * step))
            })
        };
        let by_grip = [DVec3::X, DVec3::Y, DVec3::Z].map(|way| {
            let look = |by: f64| looked(nearby.rider(), seat, way * by);
            between(look(-STEP_MM), look(STEP_MM), STEP_MM)
        });
        let by_shift = Shift::ALL.map(|shift| {
            let Some([less, more]) = &nearby.moved[shift.index()] else {
                return [0.0; N];
            };
            let step = step(shift);
            let look = |rider: &Rider, by: f64| {
                looked(rider, &shifts(shift, by).seat(seat).ok()?, DVec3::ZERO)
            };
            match shift {
                // it moves nothing that is asked here
                Shift::Knee => [0.0; N],
                _ => between(look(less, -step), look(more, step), step),
            }
        });
        let elbow_bend = Self::elbow_bend(nearby, seat, grips, place, posture, numbers);
        Self { by_shift, by_grip, elbow_bend }
    }

    /// The second difference by the elbows' habit over what people differ by.
    fn elbow_bend(
        nearby: &Nearby,
        seat: &Seat,
        grips: &GripPair,
        place: HandPlace,
        posture: &Posture,
        numbers: impl Fn(&Look<'_>) -> [f64; N],
    ) -> [f64; N] {
        let Ok(hands) = Grips::new(grips.right.centre, grips.left.centre) else {
            return [0.0; N];
        };
        let look = |rider: &Rider, posture: &Posture| {
            numbers(&Look { rider, seat, grips, hands: &hands, place, posture })
        };
        let here = look(nearby.rider(), posture);
        let looked = |rider: &Rider| {
            let near = solve(rider, seat, &hands, place, Some(posture.start()));
            let is_there = !matches!(near.outcome, Outcome::OutOfReach { .. });
            is_there.then(|| look(rider, &near))
        };
        let [Some(less), Some(more)] = &nearby.elbows else { return [0.0; N] };
        looked(less).zip(looked(more)).map_or([0.0; N], |(less, more)| {
            core::array::from_fn(|i| {
                (more[i] - 2.0 * here[i] + less[i]) / (nearby.elbows_rad * nearby.elbows_rad)
            })
        })
    }
}

/// Both grips moved forward and up, and outwards.
pub(super) fn moved(grips: &GripPair, by: DVec3) -> GripPair {
    let mut moved = *grips;
    moved.right.centre += by;
    moved.left.centre += by * DVec3::new(1.0, 1.0, -1.0);
    moved
}
