//! The two ends of what a change of grips can do to a body: all of it taken by the trunk, all of it
//! by the elbows.
//!
//! Bike frame, mm and radians. A millimetre of arm is 1.1° of elbow but 0.1° of trunk: how a rider
//! divides a change between them is a habit that no reading of lengths tells, so that the model's own
//! answer is shown with both ends beside it. Which end is the likelier one is not told here.
//!
//! - *All by trunk*: the arms stay as long from shoulder to grip as they were, so that the elbows are
//!   kept; of the postures that do so, the one of least discomfort. Where the two sides differ the
//!   arms' mean is kept, and each elbow is told; one that would be more than straight is brought to
//!   straight by the trunk.
//! - *All by elbows*: pelvis, spine and shoulders are kept. Where an arm would have to be more than
//!   straight, the trunk gives the rest, by as little as it can, in the ranges of the model.

use super::arm::elbow_rad;
use super::discomfort::{Discomfort, sit_point, unscaled};
use super::newton::Bounds;
use super::report::shoulder_to_grip;
use super::solve::bounds;
use super::tied::{Rest, Tie, rest};
use super::{Grips, HandPlace, Posture, Rider, Start, Unknowns};
use crate::frame::Side;
use crate::saddle::Seat;

/// A distance that is off by less than this is kept, mm: less than a thousandth of a degree.
const KEPT_MM: f64 = 1e-4;

/// How the rider held the bar before the change.
#[derive(Debug, Clone, Copy)]
pub struct Before<'a> {
    /// The seat.
    pub seat: &'a Seat,
    /// The grips.
    pub grips: &'a Grips,
    /// The posture solved for them.
    pub posture: &'a Posture,
}

/// Whether an end is what it says.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Held {
    /// The change is taken as asked.
    AsAsked,
    /// An arm became straight, and the trunk gave the rest.
    RestByTrunk,
    /// No trunk gives as much: the hands miss it.
    ShortBy {
        /// How much is missing, mm (of the mean arm where elbows are kept).
        short_by_mm: f64,
    },
}

/// One end of the bracket.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct End {
    /// Pelvis, spine and shoulders.
    pub joints: Start,
    /// Line from hip to the middle of the shoulders above the horizontal, radians.
    pub trunk_rad: f64,
    /// Bend of the left and the right elbow, radians; 0 is straight.
    pub elbows_rad: [f64; 2],
    /// Whether it is what it says.
    pub held: Held,
}

impl End {
    /// Bend of one elbow, radians.
    pub fn elbow_rad(&self, side: Side) -> f64 {
        self.elbows_rad[side as usize]
    }
}

/// Both ends.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Bracket {
    /// The elbows kept, the trunk moved.
    pub by_trunk: End,
    /// The trunk kept, the elbows moved.
    pub by_elbows: End,
}

/// What a change to that seat and those grips does to a rider's trunk and elbows at one hand place,
/// at the most and at the least.
pub fn bracket(
    rider: &Rider,
    before: &Before<'_>,
    seat: &Seat,
    grips: &Grips,
    place: HandPlace,
) -> Bracket {
    let was = Discomfort::new(rider, before.seat, before.grips, place);
    let now = Discomfort::new(rider, seat, grips, place);
    let from = before.posture.start().scaled();
    let bounds = bounds(&Unknowns::FREE);
    let end = |x, held| end(rider, seat, grips, place, x, held);

    let beyond_mm = |x| now.at(x).beyond_mm;
    let straightened = |from| {
        let still = now.settled_at(from).without_limits();
        let rest = rest(&still, Tie::Straight, &bounds, from, 0.0);
        end(rest.x, held(&rest, Held::RestByTrunk))
    };

    let trunk = by_trunk(&was, &now, &bounds, from);
    let one_beyond = was.at(from).beyond_mm <= 0.0 && beyond_mm(trunk.x) > KEPT_MM;
    let by_trunk = if one_beyond && trunk.off_mm <= KEPT_MM {
        straightened(trunk.x)
    } else {
        end(trunk.x, held(&trunk, Held::AsAsked))
    };
    let by_elbows =
        if beyond_mm(from) <= 0.0 { end(from, Held::AsAsked) } else { straightened(from) };
    Bracket { by_trunk, by_elbows }
}

fn held(rest: &Rest, met: Held) -> Held {
    if rest.off_mm > KEPT_MM { Held::ShortBy { short_by_mm: rest.off_mm } } else { met }
}

/// The trunk of least discomfort with the arms' distances kept: in the hollow of the posture that
/// was, and where limits act in any other that is lower.
fn by_trunk(was: &Discomfort<'_>, now: &Discomfort<'_>, bounds: &Bounds, from: [f64; 3]) -> Rest {
    let (arms, weight) = was.arms();
    let (mut mean_mm, mut pull) = (0.0, 0.0);
    for arm in arms {
        let distance_mm = was.reach(arm, from).value;
        mean_mm += weight * distance_mm;
        pull += weight * arm.price.at(distance_mm)[1];
    }
    let look = |from| rest(now, Tie::Mean(mean_mm), bounds, from, pull);
    let mut found = look(from);
    if found.limits > 0.0 || found.off_mm.abs() > KEPT_MM {
        let starts = [now.neutral(), now.shifted_back(found.x)];
        for from in starts.into_iter().chain(Discomfort::trunks()) {
            let other = look(from);
            if better(&other, &found) {
                found = other;
            }
        }
    }
    found
}

/// Nearer to what was asked, or as near with less discomfort.
fn better(one: &Rest, other: &Rest) -> bool {
    let (off, least) = (one.off_mm.abs(), other.off_mm.abs());
    if off.max(least) > KEPT_MM { off < least } else { one.own < other.own }
}

fn end(
    rider: &Rider,
    seat: &Seat,
    grips: &Grips,
    place: HandPlace,
    x: [f64; 3],
    held: Held,
) -> End {
    let [pelvis_rad, spine_rad, protraction_mm] = unscaled(x);
    let trunk = rider.linkage().at(pelvis_rad, spine_rad, protraction_mm);
    let sit = sit_point(rider, seat, place);
    End {
        joints: Start { pelvis_rad, spine_rad, protraction_mm },
        trunk_rad: trunk.trunk_rad(),
        elbows_rad: Side::BOTH.map(|side| {
            let distance_mm = shoulder_to_grip(rider, &trunk, sit, grips, side).length();
            elbow_rad(rider.segments().arm(side), distance_mm)
        }),
        held,
    }
}
