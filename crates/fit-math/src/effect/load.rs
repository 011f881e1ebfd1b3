//! What the hands carry, what the hips hold, and how rider and bicycle stand on the wheels.
//!
//! Bike frame, mm; forces newtons, moments newton metres. A rider who sits still on the level and
//! does not pedal: pushing on the pedals lifts weight off saddle and hands and is not known here.
//! Forces are for differences between cockpits and are said in words: no screen shows a newton.
//!
//! Masses and centres are de Leva's (see [`crate::body::masses`]), about the joints of a
//! [`Figure`]. The upper body is taken as a beam that rests on hips and grips and hinges freely at
//! the hips. A rider who tenses the back carries less on the hands, and
//! [`HandLoad::hip_moment_nm`] is what the back then holds.

use crate::body::Sex;
use crate::body::masses::Segment;
use crate::cockpit::FrontEnd;
use crate::posture::Figure;
use glam::DVec2;
use thiserror::Error;

/// Acceleration of gravity, m/s² (standard).
pub const GRAVITY: f64 = 9.806_65;
/// A road bicycle with what it carries, kg (judgement).
pub const BIKE_KG: f64 = 8.0;
/// Where its centre of mass is between the axles, from the rear one, as a share (judgement: a
/// little behind the middle, for the drive train).
pub const BIKE_CENTRE: f64 = 0.47;
/// Least share of the weight on the front wheel of a bicycle that may be sold, the rider sitting as
/// far back as the saddle goes (ISO 4210-2, from memory, unverified).
pub const LEAST_FRONT_SHARE: f64 = 0.25;
/// Hands that are not this far ahead of the hips cannot be leant on, mm (judgement).
const HANDS_AHEAD_MM: f64 = 100.0;
/// Wheels nearer to each other are no bicycle's, mm (judgement).
const SHORTEST_WHEELBASE_MM: f64 = 300.0;

/// Some mass and its centre in the plane of the bike.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Mass {
    /// As a share of the rider's weight, or kg.
    pub mass: f64,
    /// Bike frame, mm.
    pub centre: DVec2,
}

/// A rider's masses, as shares of the whole.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Masses {
    /// Head, trunk and arms: what hips and hands carry.
    pub upper: Mass,
    /// Everything; its share is 1 but for the rounding of a table.
    pub whole: Mass,
}

/// What the hands bear.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct HandLoad {
    /// Weight on both hands together, as a share of the rider's weight, where the hips hold no
    /// moment; either hand has half of it.
    pub share: f64,
    /// How far the upper body's centre lies ahead of the hips, mm.
    pub centre_ahead_mm: f64,
    /// How far the middle of the hands lies ahead of the hips, mm.
    pub hands_ahead_mm: f64,
    /// Weight of head, trunk and arms as a share of the rider's.
    pub upper_share: f64,
}

/// Why there is no load to tell of.
#[derive(Debug, Clone, PartialEq, Error)]
pub enum LoadError {
    /// The hands are over or behind the hips.
    #[error(
        "the hands are {ahead_mm:.0} mm ahead of the hips; expected {HANDS_AHEAD_MM:.0} or more"
    )]
    HandsNotAhead {
        /// How far they are ahead, mm.
        ahead_mm: f64,
    },
    /// The frame's numbers give no bicycle.
    #[error(
        "the axles would be {wheelbase_mm:.0} mm apart; check rear centre, fork and head angle"
    )]
    NoWheelbase {
        /// Rear to front axle, mm.
        wheelbase_mm: f64,
    },
}

impl Masses {
    /// The masses of a rider with these joints.
    ///
    /// The hand ends at the middle of the grip, where its third knuckle is to a centimetre
    /// (judgement: 0.6 % of the weight).
    pub fn of(figure: &Figure, sex: Option<Sex>) -> Self {
        let one = |segment: Segment, from: DVec2, to: DVec2| Mass {
            mass: segment.mass(sex),
            centre: from.lerp(to, segment.centre(sex)),
        };
        let (shoulders, hip) = (figure.shoulders.truncate(), figure.hip.truncate());
        let trunk = [
            one(Segment::HeadAndNeck, figure.crown.truncate(), figure.neck.truncate()),
            one(Segment::Trunk, shoulders, hip),
        ];
        let arms = figure.arms.map(|arm| {
            let (elbow, wrist) = (arm.elbow.truncate(), arm.wrist.truncate());
            [
                one(Segment::UpperArm, arm.shoulder.truncate(), elbow),
                one(Segment::Forearm, elbow, wrist),
                one(Segment::Hand, wrist, arm.hand.truncate()),
            ]
        });
        let legs = figure.legs.map(|leg| {
            [
                one(Segment::Thigh, leg.hip, leg.knee),
                one(Segment::Shank, leg.knee, leg.ankle),
                one(Segment::Foot, leg.heel, leg.toe),
            ]
        });
        let upper = together(trunk.into_iter().chain(arms.into_iter().flatten()));
        Self { upper, whole: together(legs.into_iter().flatten().chain([upper])) }
    }
}

/// Masses as one.
fn together(all: impl IntoIterator<Item = Mass>) -> Mass {
    let (mut mass, mut moment) = (0.0, DVec2::ZERO);
    for one in all {
        mass += one.mass;
        moment += one.mass * one.centre;
    }
    Mass { mass, centre: moment / mass }
}

impl HandLoad {
    /// What the hands bear in that posture: V = W (x − hip)/(grip − hip), with the upper body's
    /// weight W and centre x.
    ///
    /// # Errors
    /// When the hands are not ahead of the hips.
    pub fn of(figure: &Figure, sex: Option<Sex>) -> Result<Self, LoadError> {
        let Mass { mass: upper_share, centre } = Masses::of(figure, sex).upper;
        let [left, right] = figure.arms.map(|arm| arm.hand.x);
        let hands_ahead_mm = f64::midpoint(left, right) - figure.hip.x;
        if hands_ahead_mm.is_nan() || hands_ahead_mm < HANDS_AHEAD_MM {
            return Err(LoadError::HandsNotAhead { ahead_mm: hands_ahead_mm });
        }
        let centre_ahead_mm = centre.x - figure.hip.x;
        let share = upper_share * centre_ahead_mm / hands_ahead_mm;
        Ok(Self { share, centre_ahead_mm, hands_ahead_mm, upper_share })
    }

    /// Weight on both hands together, N, of a rider of that weight, kg.
    pub fn force_n(&self, weight_kg: f64) -> f64 {
        self.share * weight_kg * GRAVITY
    }

    /// Moment about the hips that the back must hold, Nm, where the hands carry only that share of
    /// what would leave it nothing: all of it with 0, nothing with 1.
    pub fn hip_moment_nm(&self, weight_kg: f64, carried: f64) -> f64 {
        let held =
            self.upper_share * self.centre_ahead_mm - carried * self.share * self.hands_ahead_mm;
        weight_kg * GRAVITY * held / 1000.0
    }
}

/// Where the wheels stand: both axles ahead of the bottom bracket axle, mm.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Wheels {
    rear_x_mm: f64,
    front_x_mm: f64,
}

impl Wheels {
    /// The axles of a frame: the head tube, the fork's offset square to it, how far the bottom
    /// bracket lies under the line of the axles, and the way from it to the rear axle, mm.
    ///
    /// # Errors
    /// When the numbers give no two wheels one behind the other.
    pub fn of_frame(
        front: &FrontEnd,
        fork_offset_mm: f64,
        bottom_bracket_drop_mm: f64,
        rear_centre_mm: f64,
    ) -> Result<Self, LoadError> {
        let (sin, cos) = front.head_angle_rad.sin_cos();
        let rear_x_mm = -(rear_centre_mm.powi(2) - bottom_bracket_drop_mm.powi(2)).sqrt();
        // down the steering axis until, with the offset square to it, the height is the axles'
        let down_mm = (front.stack_mm + fork_offset_mm * cos - bottom_bracket_drop_mm) / sin;
        let front_x_mm = front.reach_mm + down_mm * cos + fork_offset_mm * sin;
        let wheelbase_mm = front_x_mm - rear_x_mm;
        if wheelbase_mm.is_finite() && wheelbase_mm >= SHORTEST_WHEELBASE_MM {
            Ok(Self { rear_x_mm, front_x_mm })
        } else {
            Err(LoadError::NoWheelbase { wheelbase_mm })
        }
    }

    /// Rear axle, bike frame, mm; negative is behind the bottom bracket.
    pub fn rear_x_mm(&self) -> f64 {
        self.rear_x_mm
    }

    /// Front axle, bike frame, mm.
    pub fn front_x_mm(&self) -> f64 {
        self.front_x_mm
    }

    /// Rear to front axle, mm.
    pub fn wheelbase_mm(&self) -> f64 {
        self.front_x_mm - self.rear_x_mm
    }

    /// Share of the weight of a rider and a bicycle of [`BIKE_KG`] that stands on the front wheel.
    pub fn front_share(&self, masses: &Masses, weight_kg: f64) -> f64 {
        let rider_kg = weight_kg * masses.whole.mass;
        let rider = (masses.whole.centre.x - self.rear_x_mm) / self.wheelbase_mm();
        (rider_kg * rider + BIKE_KG * BIKE_CENTRE) / (rider_kg + BIKE_KG)
    }
}
