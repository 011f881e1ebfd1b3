//! What is asked of an assembly: numbers, what is wanted of each, and what that is worth together.
//!
//! mm and radians. A worth has no unit, is shown to nobody and only puts assemblies in order. It is
//! summed in one fixed order, so that whoever sums in that order gets the same number to the last
//! digit: hand places in the order asked, each its own aims in the order asked, then the aims of the
//! bar, then less the effort. Sums of floating-point numbers never fall when one of them rises, so
//! the same sum over the best that each number can be is never below the worth.

use super::ChooseError;
use crate::HandPlace;
use crate::posture::Outcome;
use glam::{DVec2, DVec3};

/// What is wanted of a number: a piecewise linear function of it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Shape {
    /// As much as wanted and no more: 0 up to `from`, 1 from `enough` on, straight between; the
    /// other way round where `enough` is the smaller.
    Enough {
        /// Where it begins to be worth something.
        from: f64,
        /// Where more is worth no more.
        enough: f64,
    },
    /// As near as possible: 0 there, falling by 1 for every `scale` either way.
    Near {
        /// Where it is wanted.
        at: f64,
        /// How far off costs 1, above nought.
        scale: f64,
    },
    /// Not above: 0 up to there, then falling by 1 for every `scale`.
    NotAbove {
        /// The most that costs nothing.
        most: f64,
        /// How far beyond costs 1, above nought.
        scale: f64,
    },
    /// Not below: 0 down to there, then falling by 1 for every `scale`.
    NotBelow {
        /// The least that costs nothing.
        least: f64,
        /// How far beyond costs 1, above nought.
        scale: f64,
    },
}

impl Shape {
    /// Its value for a number.
    #[inline]
    pub fn value(&self, x: f64) -> f64 {
        match *self {
            Self::Enough { from, enough } => ((x - from) / (enough - from)).clamp(0.0, 1.0),
            Self::Near { at, scale } => -(x - at).abs() / scale,
            Self::NotAbove { most, scale } => -(x - most).max(0.0) / scale,
            Self::NotBelow { least, scale } => -(least - x).max(0.0) / scale,
        }
    }

    /// The greatest value between two numbers, `low ≤ high`, either of which may be infinite.
    #[inline]
    pub fn best(&self, (low, high): (f64, f64)) -> f64 {
        let at = match *self {
            Self::Enough { from, enough } => {
                if enough > from {
                    high
                } else {
                    low
                }
            }
            Self::Near { at, .. } => at.max(low).min(high),
            Self::NotAbove { .. } => low,
            Self::NotBelow { .. } => high,
        };
        self.value(at)
    }

    /// The most by which the value changes per unit of the number.
    pub fn steepest(&self) -> f64 {
        match *self {
            Self::Enough { from, enough } => 1.0 / (enough - from).abs(),
            Self::Near { scale, .. }
            | Self::NotAbove { scale, .. }
            | Self::NotBelow { scale, .. } => 1.0 / scale,
        }
    }

    fn is_valid(&self) -> bool {
        match *self {
            Self::Enough { from, enough } => {
                from.is_finite() && enough.is_finite() && (enough - from).recip().is_finite()
            }
            Self::Near { at: x, scale }
            | Self::NotAbove { most: x, scale }
            | Self::NotBelow { least: x, scale } => {
                x.is_finite() && scale > 0.0 && scale.is_finite()
            }
        }
    }
}

/// A number of the rider with the hands in one place.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum AtHands {
    /// Line from hip to shoulders above the horizontal, radians.
    Trunk,
    /// Extension of the head that looking ahead needs, radians.
    NeckNeed,
    /// Bend of the straighter elbow, radians.
    Elbow,
    /// Smallest angle between thigh and trunk line, radians.
    HipMin,
    /// Grip ahead of the bottom bracket, midway between the hands, mm.
    Forward,
    /// Grip above the bottom bracket, mm.
    Up,
    /// Grip out of the plane of the bike, mm.
    Out,
    /// Grip from this point of the side view (bike frame), mm.
    AwayFrom(DVec2),
}

/// A number of bar and lever that no stem, spacer or roll touches.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum OfBar {
    /// From the grip in the drops to the blade at the setting its lever stands at, the wider of both
    /// hands, mm.
    BrakeSpan,
    /// What the palm has to spare where it has least room, mm; negative where it does not fit.
    PalmSpare,
    /// Width at the hoods, centre to centre, mm.
    Width,
}

/// Which number an aim is about.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Number {
    /// One of the rider, in the place of that index in [`Asked::places`].
    Hands(usize, AtHands),
    /// One of the bar.
    Bar(OfBar),
}

/// One thing that is wanted.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Aim {
    /// Of which number.
    pub of: Number,
    /// How much it counts, 0 or more; times the place's share where it is of a place.
    pub weight: f64,
    /// What is wanted of it.
    pub shape: Shape,
}

/// What a client asks of a cockpit.
#[derive(Debug, Clone, PartialEq)]
pub struct Asked {
    /// His hand places, with the share of time in each, 0 or more.
    pub places: Vec<(HandPlace, f64)>,
    /// What is wanted.
    pub aims: Vec<Aim>,
    /// Breadth of his palm, mm.
    pub palm_mm: f64,
}

/// The numbers of a rider with the hands in one place.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct HandNumbers {
    /// Line from hip to shoulders above the horizontal, radians.
    pub trunk_rad: f64,
    /// Extension of the head that looking ahead needs, radians.
    pub neck_need_rad: f64,
    /// Bend of the straighter elbow, radians.
    pub elbow_rad: f64,
    /// Smallest angle between thigh and trunk line, radians.
    pub hip_min_rad: f64,
    /// Grip midway between the hands, bike frame, mm.
    pub grip: DVec3,
    /// Whether the hands got there; no aim reads it.
    pub outcome: Outcome,
}

impl HandNumbers {
    /// One of them.
    pub fn get(&self, what: AtHands) -> f64 {
        match what {
            AtHands::Trunk => self.trunk_rad,
            AtHands::NeckNeed => self.neck_need_rad,
            AtHands::Elbow => self.elbow_rad,
            AtHands::HipMin => self.hip_min_rad,
            AtHands::Forward => self.grip.x,
            AtHands::Up => self.grip.y,
            AtHands::Out => self.grip.z,
            AtHands::AwayFrom(point) => self.grip.truncate().distance(point),
        }
    }
}

/// The aims of one place, or of the bar, each with all that it counts.
#[derive(Debug, Clone)]
pub(super) struct Terms<N> {
    pub(super) each: Vec<(N, f64, Shape)>,
}

impl<N: Copy> Terms<N> {
    /// What the numbers are worth.
    #[inline]
    pub(super) fn worth(&self, number: impl Fn(N) -> f64) -> f64 {
        self.each.iter().fold(0.0, |sum, &(n, factor, shape)| sum + factor * shape.value(number(n)))
    }

    /// The most that numbers between two each can be worth.
    #[inline]
    pub(super) fn best(&self, number: impl Fn(N) -> (f64, f64)) -> f64 {
        self.each.iter().fold(0.0, |sum, &(n, factor, shape)| sum + factor * shape.best(number(n)))
    }
}

impl Asked {
    pub(super) fn check(&self) -> Result<(), ChooseError> {
        let counts = |x: f64| x.is_finite() && x >= 0.0;
        if self.places.is_empty() || !self.places.iter().all(|&(_, share)| counts(share)) {
            return Err(ChooseError::Places);
        }
        let of_asked = |of: Number| match of {
            Number::Hands(at, AtHands::AwayFrom(from)) => {
                at < self.places.len() && from.is_finite()
            }
            Number::Hands(at, _) => at < self.places.len(),
            Number::Bar(_) => true,
        };
        let wrong = |aim: &Aim| !counts(aim.weight) || !aim.shape.is_valid() || !of_asked(aim.of);
        match self.aims.iter().position(wrong) {
            Some(index) => Err(ChooseError::Aim { index }),
            None if !counts(self.palm_mm) => Err(ChooseError::Palm),
            None => Ok(()),
        }
    }

    /// The aims of the hand place of that index.
    pub(super) fn at_hands(&self, place: usize) -> Terms<AtHands> {
        let share = self.places[place].1;
        let each = self.aims.iter().filter_map(|aim| match aim.of {
            Number::Hands(at, what) if at == place => Some((what, aim.weight * share, aim.shape)),
            _ => None,
        });
        Terms { each: each.collect() }
    }

    /// The aims of the bar.
    pub(super) fn of_bar(&self) -> Terms<OfBar> {
        let each = self.aims.iter().filter_map(|aim| match aim.of {
            Number::Bar(what) => Some((what, aim.weight, aim.shape)),
            Number::Hands(..) => None,
        });
        Terms { each: each.collect() }
    }
}
