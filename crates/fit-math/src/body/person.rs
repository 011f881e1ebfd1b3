//! A client's body: every dimension with its value, measured or estimated, and the doubt of each.
//!
//! Lengths mm, weight kg. What was read stands as it was read (the mean of several readings, midway
//! between left and right): the fitter finds his own numbers again. How far a reading may be off
//! decides how much it tells of everything else.

use super::estimate::{Estimate, People};
use super::normal::Vector;
use super::taken::{self, Taken};
use super::{Dimension, Item, Link, Normal, Reading, Sex, Survey, sides};
use crate::frame::Side;
use thiserror::Error;

/// Stature outside this is refused, mm (judgement: children of four to the tallest alive).
const STATURE_REFUSED_OUTSIDE_MM: (f64, f64) = (900.0, 2400.0);
/// Weight outside this is refused, kg (judgement).
const WEIGHT_REFUSED_OUTSIDE_KG: (f64, f64) = (15.0, 250.0);
/// Other dimensions are refused below this share of the survey's smallest (judgement: what the
/// refusal of stature comes to).
const REFUSED_BELOW_SMALLEST: f64 = 0.6;
/// Other dimensions are refused above this share of the survey's largest (judgement, likewise).
const REFUSED_ABOVE_LARGEST: f64 = 1.25;

/// Nothing is estimated of anybody younger: the survey is of grown-up people.
pub const GROWN_UP_YEARS: u32 = 18;

/// One dimension of a body.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Known {
    /// mm, or kg for weight.
    pub value: f64,
    /// Whether it was read off the client; otherwise it is estimated.
    pub measured: bool,
    /// How far the value may be off, as a standard deviation, mm or kg.
    pub sd: f64,
}

/// Every dimension of one person.
#[derive(Debug, Clone, PartialEq)]
pub struct Body {
    sex: Option<Sex>,
    share_of_men: f64,
    known: [Known; Dimension::COUNT],
    read: Vec<Item>,
    normal: Normal,
    /// Left less right.
    apart: Vector,
}

/// Why a dimension's reading was refused.
#[derive(Debug, Clone, PartialEq, Error)]
pub enum BodyError {
    /// The reading is not a number.
    #[error("{dimension}: the reading is not a number")]
    NotANumber {
        /// What was read.
        dimension: Dimension,
    },
    /// No person has this.
    #[error(
        "{dimension}: {value} {} is not a person's; expected {lowest:.0} to {highest:.0}",
        dimension.unit()
    )]
    Impossible {
        /// What was read.
        dimension: Dimension,
        /// The reading, mm or kg.
        value: f64,
        /// The smallest that is taken.
        lowest: f64,
        /// The largest that is taken.
        highest: f64,
    },
}

/// Why readings were refused.
#[derive(Debug, Clone, PartialEq, Error)]
pub enum ReadError {
    /// A reading is not a number.
    #[error("{item}: the reading is not a number")]
    NotANumber {
        /// What was read.
        item: Item,
    },
    /// No person has this.
    #[error("{item}: {value} is not a person's; expected {lowest:.0} to {highest:.0}")]
    Impossible {
        /// What was read.
        item: Item,
        /// The reading, mm or kg.
        value: f64,
        /// The smallest that is taken.
        lowest: f64,
        /// The largest that is taken.
        highest: f64,
    },
    /// Of a child nothing is estimated, and a link between joints needs what was not measured.
    #[error(
        "nothing is estimated under {GROWN_UP_YEARS}; still to be measured: {}",
        .missing.iter().map(|dimension| dimension.id()).collect::<Vec<_>>().join(", ")
    )]
    TooYoung {
        /// What must still be measured, in the survey's order.
        missing: Vec<Dimension>,
    },
}

/// What is wrong with one reading.
enum Fault {
    NotANumber,
    Outside(f64, f64),
}

fn fault(survey: &Survey, item: Item, value: f64) -> Option<Fault> {
    if !value.is_finite() {
        return Some(Fault::NotANumber);
    }
    let (lowest, highest) = item.taken_range(survey);
    (!(lowest..=highest).contains(&value)).then_some(Fault::Outside(lowest, highest))
}

/// What is taken where people have from this to that.
pub(super) fn taken_between(smallest: f64, largest: f64) -> (f64, f64) {
    (REFUSED_BELOW_SMALLEST * smallest, REFUSED_ABOVE_LARGEST * largest)
}

impl Body {
    /// A grown-up client's body from readings of dimensions, in mm (weight kg), no side noted:
    /// [`Body::read`] with nothing else said.
    ///
    /// # Errors
    /// When a reading is not finite, or is outside what any person has.
    pub fn new(
        survey: &Survey,
        sex: Option<Sex>,
        readings: &[(Dimension, f64)],
    ) -> Result<Self, BodyError> {
        for &(dimension, value) in readings {
            match fault(survey, dimension.into(), value) {
                None => {}
                Some(Fault::NotANumber) => return Err(BodyError::NotANumber { dimension }),
                Some(Fault::Outside(lowest, highest)) => {
                    return Err(BodyError::Impossible { dimension, value, lowest, highest });
                }
            }
        }
        let readings: Vec<_> = readings.iter().map(|&(d, value)| Reading::new(d, value)).collect();
        Ok(Self::taken(survey, sex, &taken::all(survey, &readings)))
    }

    /// A body from readings. Several of one item are averaged; left and right give the body the
    /// mean and each side its own. The rest is estimated from all of them together.
    ///
    /// Under [`GROWN_UP_YEARS`] everything that a link needs must have been measured as the
    /// dimension that it is.
    ///
    /// # Errors
    /// When a reading is not finite or is outside what any person has, or a child is not measured
    /// enough.
    pub fn read(
        survey: &Survey,
        sex: Option<Sex>,
        age_years: Option<u32>,
        readings: &[Reading],
    ) -> Result<Self, ReadError> {
        for &Reading { item, value, .. } in readings {
            match fault(survey, item, value) {
                None => {}
                Some(Fault::NotANumber) => return Err(ReadError::NotANumber { item }),
                Some(Fault::Outside(lowest, highest)) => {
                    return Err(ReadError::Impossible { item, value, lowest, highest });
                }
            }
        }
        let taken = taken::all(survey, readings);
        if age_years.is_some_and(|years| years < GROWN_UP_YEARS) {
            let measured = |d: Dimension| taken.iter().any(|one| one.item.dimension() == Some(d));
            let missing: Vec<_> =
                Dimension::ALL.into_iter().filter(|&d| Link::needs(d) && !measured(d)).collect();
            if !missing.is_empty() {
                return Err(ReadError::TooYoung { missing });
            }
        }
        Ok(Self::taken(survey, sex, &taken))
    }

    fn taken(survey: &Survey, sex: Option<Sex>, taken: &[Taken]) -> Self {
        let estimate = Estimate::from_taken(survey, sex, People::Clients, taken);
        let normal = estimate.normal();
        let known = Dimension::ALL.map(|dimension| {
            let read = read_as(taken, dimension);
            Known {
                value: read.unwrap_or_else(|| normal.mean(dimension)),
                measured: read.is_some(),
                sd: normal.sd_of(&dimension.into()),
            }
        });
        let likelier = if estimate.share_of_men() < 0.5 { Sex::Female } else { Sex::Male };
        Self {
            sex,
            share_of_men: estimate.share_of_men(),
            known,
            read: taken.iter().map(|one| one.item).collect(),
            apart: sides::apart(survey, sex.unwrap_or(likelier), taken),
            normal: normal.clone(),
        }
    }

    /// The smallest and largest reading that is taken, mm or kg.
    pub fn taken_range(survey: &Survey, dimension: Dimension) -> (f64, f64) {
        match dimension {
            Dimension::Stature => STATURE_REFUSED_OUTSIDE_MM,
            Dimension::Weight => WEIGHT_REFUSED_OUTSIDE_KG,
            _ => {
                let [men, women] = Sex::BOTH.map(|sex| survey.statistics(sex, dimension));
                taken_between(men.min.min(women.min), men.max.max(women.max))
            }
        }
    }

    /// One dimension, with whether it was measured.
    pub fn known(&self, dimension: Dimension) -> Known {
        self.known[dimension.index()]
    }

    /// One dimension's value, mm or kg.
    pub fn value(&self, dimension: Dimension) -> f64 {
        self.known(dimension).value
    }

    /// One dimension's value on one side, mm: that of the body where the sides were not both read.
    pub fn value_on(&self, side: Side, dimension: Dimension) -> f64 {
        let half = self.apart[dimension.index()] / 2.0;
        self.value(dimension)
            + match side {
                Side::Left => half,
                Side::Right => -half,
            }
    }

    /// What an item would read, mm or kg, and how well that is known, read or not.
    pub fn foretold(&self, item: Item) -> Known {
        let gradient = item.gradient();
        Known {
            value: gradient.at(|dimension| self.value(dimension)) + item.offset(),
            sd: self.normal.sd_of(&gradient),
            measured: self.has_read(item),
        }
    }

    /// What is believed of all dimensions together: the doubt of anything that follows from them,
    /// and how two such doubts go together.
    pub fn normal(&self) -> &Normal {
        &self.normal
    }

    /// Whether an item was read; a shoulder breadth whichever landmark was felt.
    pub fn has_read(&self, item: Item) -> bool {
        let dimension = item.dimension();
        let same = |one: &Item| *one == item || dimension.is_some() && one.dimension() == dimension;
        self.read.iter().any(same)
    }

    /// The client's sex, if given.
    pub fn sex(&self) -> Option<Sex> {
        self.sex
    }

    /// How likely the client is among the survey's men, 0 to 1.
    pub fn share_of_men(&self) -> f64 {
        self.share_of_men
    }
}

/// What a dimension was read as, if it was; of two ways to feel one, each counts as it is certain.
fn read_as(taken: &[Taken], dimension: Dimension) -> Option<f64> {
    let of_it = || taken.iter().filter(|one| one.item.dimension() == Some(dimension));
    let certain: f64 = of_it().map(|one| 1.0 / one.variance).sum();
    let summed: f64 = of_it().map(|one| (one.value - one.item.offset()) / one.variance).sum();
    match of_it().count() {
        0 => None,
        // not through its own weight and back, which would round it
        1 => of_it().next().map(|one| one.value - one.item.offset()),
        _ => Some(summed / certain),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use Dimension::{CrotchHeight, HandLength, Span, Stature, Weight};

    fn survey() -> Survey {
        Survey::shipped().unwrap()
    }

    #[test]
    fn readings_stand_and_the_rest_is_estimated() {
        let readings = [(Stature, 1820.0), (HandLength, 200.0), (HandLength, 202.0)];
        let body = Body::new(&survey(), Some(Sex::Male), &readings).unwrap();
        assert_eq!((body.value(Stature), body.known(Stature).measured), (1820.0, true));
        assert_eq!(body.value(HandLength), 201.0, "two readings are averaged");
        let span = body.known(Span);
        assert!(!span.measured && span.value > survey().mean(Some(Sex::Male), Span));
        assert!(body.known(Stature).sd < 4.0 && span.sd > 30.0);
        for sex in [Some(Sex::Male), Some(Sex::Female), None] {
            let unread = Body::new(&survey(), sex, &[]).unwrap();
            for dimension in Dimension::ALL {
                let off = unread.value(dimension) - survey().mean(sex, dimension);
                assert!(off.abs() < 1e-9, "{dimension}: {off}");
            }
        }
    }

    /// The survey's tallest and shortest, with stature and inseam read and nothing else, must have
    /// a body: a fitter who has just begun to measure is not to be refused. Thigh and shank over
    /// the inseam are 0.971 ± 0.023 in the survey's men and 0.991 ± 0.021 in its women (to first
    /// order, from the covariances of ANSUR II 2012): taken from two SD below to two above.
    #[test]
    fn stature_and_inseam_alone_make_a_body() {
        use crate::body::Segments;
        for sex in [Some(Sex::Male), Some(Sex::Female), None] {
            for stature in [1400.0, 1500.0, 1650.0, 1800.0, 1950.0, 2050.0] {
                for share in [0.45, 0.47, 0.49] {
                    let read = [(Stature, stature), (CrotchHeight, share * stature)];
                    let body = Body::new(&survey(), sex, &read).unwrap();
                    let segments = Segments::of(&body).unwrap();
                    let trunk = segments.trunk_mm() / stature;
                    assert!((0.24..0.35).contains(&trunk), "{stature} {share}: {trunk}");
                    let legs = segments.lengths().thigh_mm + segments.lengths().shank_mm;
                    let leg_share = legs / (share * stature);
                    assert!((0.924..1.034).contains(&leg_share), "{stature} {share}: {leg_share}");
                }
            }
        }
    }

    #[test]
    fn what_no_person_has_is_refused_by_name() {
        let new = |dimension, value| Body::new(&survey(), None, &[(dimension, value)]);
        for wrong in [f64::NAN, f64::INFINITY, f64::NEG_INFINITY] {
            assert_eq!(new(Span, wrong), Err(BodyError::NotANumber { dimension: Span }));
        }
        for (dimension, wrong) in [(Stature, 176.0), (Weight, 0.0), (HandLength, -190.0)] {
            let message = new(dimension, wrong).unwrap_err().to_string();
            assert!(message.starts_with(dimension.id()), "{message}");
        }
        for (item, wrong) in [(Item::Notch, 58.0), (Item::ShoulderToFist, 6400.0)] {
            let read = [Reading::new(item, wrong)];
            let message = Body::read(&survey(), None, None, &read).unwrap_err().to_string();
            assert!(message.starts_with(&item.to_string()), "{message}");
        }
    }

    #[test]
    fn everybody_in_the_survey_is_taken() {
        let survey = survey();
        for dimension in Dimension::ALL {
            for sex in Sex::BOTH {
                let s = survey.statistics(sex, dimension);
                for value in [s.min, s.mean, s.max] {
                    assert!(Body::new(&survey, Some(sex), &[(dimension, value)]).is_ok());
                }
            }
        }
    }

    #[test]
    fn of_a_child_nothing_is_estimated() {
        let survey = survey();
        let mean = |d| Reading::new(d, survey.mean(Some(Sex::Female), d));
        let read = |readings: &[Reading]| Body::read(&survey, None, Some(17), readings);
        let ReadError::TooYoung { missing } = read(&[mean(Stature), mean(Span)]).unwrap_err()
        else {
            panic!("the links are not measured")
        };
        assert!(missing.contains(&CrotchHeight) && missing.contains(&HandLength));
        assert!(!missing.contains(&Stature) && !missing.contains(&Weight));
        let all: Vec<_> = missing.into_iter().chain([Stature]).map(mean).collect();
        assert!(read(&all).is_ok());
        assert!(read(&all[1..]).is_err());
        assert!(Body::read(&survey, None, Some(18), &all[1..]).is_ok());
    }
}
