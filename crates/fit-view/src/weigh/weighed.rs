//! What weighing computes about a bench: the cockpits in place, and the client on them.
//!
//! Bike frame, mm and radians.

use super::asked::Asked;
use super::effects::KeptEffects;
use fit_doc::tape::TapeAnswer;
use fit_doc::{Bike, Date, Message, Sex};
use fit_math::body::Body;
use fit_math::cockpit::{self, GripPair};
use fit_math::doubt::sample::Sample;
use fit_math::doubt::{Person, Slopes};
use fit_math::effect::steering::HandsAboutAxis;
use fit_math::frame::Side;
use fit_math::hand::{BrakeReach, Cover, brake_reach};
use fit_math::posture::{
    Before, Bracket, Calibration, Figure, Grips, Joint, Outcome, Posture, Report, Rider, bracket,
};
use fit_math::saddle::Seat;
use fit_math::{DVec2, HandPlace};
use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

/// Everything computed about the bench of one visit.
#[derive(Debug, Clone, PartialEq)]
pub struct Weighed {
    /// Identity of the session.
    pub session: String,
    /// The client's name.
    pub client: String,
    /// The day of the visit.
    pub visit: Date,
    /// The bike: its name and frame.
    pub bike: Bike,
    /// The client's body.
    pub body: Body,
    /// Whose masses are taken; none where nobody said.
    pub sex: Option<Sex>,
    /// The client is grown up. Of a child no dimension is estimated but for drawing, and one who was
    /// not measured enough is not weighed: no cockpit has a hand place.
    pub is_grown_up: bool,
    /// The rider that all postures were solved for, as seen on the bike where that was looked at.
    pub rider: Rider,
    /// What was seen, and what it moved; none where nothing was seen or it did not fit.
    pub calibration: Option<Calibration>,
    /// What is not known of the client on the bike, the same for all cockpits.
    pub person: Person,
    /// As it came first, then the candidates in the order of the bench.
    pub cockpits: Vec<WeighedCockpit>,
    /// Id of the cockpit that is as it came with the saddle put right, where there is one.
    pub put_right: Option<String>,
    /// Ids of the cockpits on which somebody looked whether the fingers reach the brake.
    pub hands_seen_on: BTreeSet<String>,
    /// What was drawn of what is not known, where a posture is near a limit and somebody asked.
    pub drawn: Option<Arc<Sample>>,
    /// The client rides events whose rules the bar must keep.
    pub event_rules: bool,
    /// What its postures do beyond the body, as far as somebody asked.
    pub(super) effects: KeptEffects,
    /// The questions on the table, the worst first; never none.
    pub questions: Vec<Asked>,
    /// What was read off the bike as it came; none where nothing was, or nobody asked.
    pub tape: Option<TapeAnswer>,
    /// What is unusual and should be asked about.
    pub notes: Vec<Message>,
}

/// One cockpit on its bike, with the client on it.
#[derive(Debug, Clone, PartialEq)]
pub struct WeighedCockpit {
    /// Identity within the session.
    pub id: String,
    /// Short name on the bench.
    pub label: String,
    /// The cockpit the client arrived with.
    pub as_it_came: bool,
    /// The one that was chosen.
    pub chosen: bool,
    /// Parts and settings as the document holds them.
    pub parts: fit_doc::Cockpit,
    /// The same in place, bike frame.
    pub cockpit: cockpit::Cockpit,
    /// Where the client sits, and the crank.
    pub seat: Seat,
    /// Every hand place there is; no hoods without levers.
    pub places: BTreeMap<HandPlace, WeighedPlace>,
    /// What moves between hoods and drops; none without levers.
    pub travel: Option<Travel>,
    /// Whether the fingers reach the brake, from the hoods and from the drops; none without levers.
    pub brakes: Option<Brakes>,
    /// Ground trail, mm.
    pub trail_mm: f64,
    /// Wheel flop, mm.
    pub flop_mm: f64,
}

/// The client with the hands in one place.
#[derive(Debug, Clone, PartialEq)]
pub struct WeighedPlace {
    /// Both grips, bike frame.
    pub grips: GripPair,
    /// Their centres, as the posture was solved for them.
    pub hands: Grips,
    /// The posture.
    pub posture: Posture,
    /// Its angles.
    pub report: Report,
    /// How the angles change with what is not known.
    pub slopes: Slopes,
    /// How far each hand is turned towards the thumb, left and right, radians; only its change
    /// between two cockpits means anything.
    pub wrist_line_rad: [f64; 2],
    /// How the hands stand to the steering axis.
    pub about_axis: HandsAboutAxis,
    /// Of each joint whose range is known, the share of it that is left; below nought past it.
    pub reserves: Vec<(Joint, f64)>,
}

/// What the brakes ask of both hands at the levers' present settings, and what the hands cover.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Brakes {
    /// What each hand covers, left and right.
    pub covers: [Cover; 2],
    /// Span from the hoods, left and right, mm: lever and setting alone decide.
    pub hoods_mm: [f64; 2],
    /// Span from the drops, left and right, mm.
    pub drops_mm: [f64; 2],
}

impl Brakes {
    /// How far the fingers reach beyond what the brake asks of them, of two hands the lesser, mm;
    /// none where there is no brake.
    pub fn to_spare_mm(&self, place: HandPlace) -> Option<f64> {
        let [left, right] = self.each_to_spare_mm(place)?;
        Some(left.min(right))
    }

    /// What the hand covers that has less to spare; none where there is no brake.
    pub fn worse_cover(&self, place: HandPlace) -> Option<Cover> {
        let [left, right] = self.each_to_spare_mm(place)?;
        Some(self.covers[usize::from(left >= right)])
    }

    fn each_to_spare_mm(&self, place: HandPlace) -> Option<[f64; 2]> {
        let spans_mm = match place {
            HandPlace::Hoods | HandPlace::BentElbowHoods => self.hoods_mm,
            HandPlace::Drops => self.drops_mm,
            HandPlace::Tops | HandPlace::Ramps | HandPlace::Ends => return None,
        };
        Some([0, 1].map(|hand| self.covers[hand].mm - spans_mm[hand]))
    }
}

/// What moves when the hands go from the hoods to the drops.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Travel {
    /// From grip centre to grip centre in space, left hand and right, mm.
    pub hands_mm: [f64; 2],
    /// Change of the trunk's angle above the horizontal, radians.
    pub trunk_rad: f64,
    /// Change of the smallest angle between thigh and trunk, radians.
    pub hip_min_rad: f64,
    /// Change of what looking ahead asks of the neck, radians.
    pub neck_rad: f64,
}

impl Travel {
    /// From grip centre to grip centre in space, the mean of both hands, mm.
    pub fn hand_mm(&self) -> f64 {
        let [left, right] = self.hands_mm;
        f64::midpoint(left, right)
    }
}

impl WeighedPlace {
    /// The hands get there, at a joint's limit or not.
    pub fn is_reached(&self) -> bool {
        !matches!(self.posture.outcome, Outcome::OutOfReach { .. })
    }

    /// What turning the bar takes with hands that push and pull along the bike, as a share of what
    /// it took there: how wide they are apart decides. Exactly 1 where they are as wide.
    pub fn steer_effort(&self, than: &Self) -> f64 {
        self.about_axis.effort_along(&than.about_axis)
    }

    /// Bend of the straighter elbow, radians: of two arms it has less left to give.
    pub fn straighter_elbow_rad(&self) -> f64 {
        self.report.arm(Side::Left).elbow_rad.min(self.report.arm(Side::Right).elbow_rad)
    }
}

impl Weighed {
    /// What the change from the cockpit as it came does if the trunk takes all of it, and if the
    /// elbows do; none on that one itself, and where either has no such place.
    pub fn bracket(&self, of: &WeighedCockpit, place: HandPlace) -> Option<Bracket> {
        let came = self.as_it_came().filter(|came| came.id != of.id)?;
        let (from, to) = (came.places.get(&place)?, of.places.get(&place)?);
        let before = Before { seat: &came.seat, grips: &from.hands, posture: &from.posture };
        Some(bracket(&self.rider, &before, &of.seat, &to.hands, place))
    }

    /// Names of the cockpits on which it was looked at the hands that a brake's reach follows from, in the
    /// order of the bench; none where nobody looked, and on the one of which nothing else is known.
    pub fn brake_seen_on(&self, of: &WeighedCockpit) -> Vec<&str> {
        let seen =
            |on: &&WeighedCockpit| on.brakes.is_some() && self.hands_seen_on.contains(&on.id);
        let all: Vec<&WeighedCockpit> = self.cockpits.iter().filter(seen).collect();
        match all[..] {
            _ if of.brakes.is_none() => Vec::new(),
            [only] if only.id == of.id => Vec::new(),
            _ => all.iter().map(|on| on.label.as_str()).collect(),
        }
    }

    /// The cockpit the client arrived with.
    pub fn as_it_came(&self) -> Option<&WeighedCockpit> {
        self.cockpits.iter().find(|cockpit| cockpit.as_it_came)
    }
}

impl WeighedCockpit {
    /// Brake reach in every setting with the hands in a place; none where there is no brake.
    pub fn brake(&self, place: HandPlace) -> Option<BrakeReach> {
        let (covers, levers) = (self.brakes?.covers, self.cockpit.lever_poses()?);
        brake_reach(place, self.cockpit.bend(), levers, covers, self.cockpit.drops_hand_mm())
    }

    /// How far the left hand on the hoods is ahead of the right one and above it, mm; none without
    /// levers.
    pub fn left_from_right_mm(&self) -> Option<DVec2> {
        let grips = self.places.get(&HandPlace::Hoods)?.grips;
        Some((grips.left.centre - grips.right.centre).truncate())
    }

    /// The client's joints with the hands in one place and the right crank at that angle, radians
    /// from the top forwards; none for a place that this cockpit does not have.
    pub fn figure(&self, rider: &Rider, place: HandPlace, crank_rad: f64) -> Option<Figure> {
        let at = self.places.get(&place)?;
        Some(at.posture.figure(rider, &self.seat, &at.hands, place, crank_rad))
    }
}
