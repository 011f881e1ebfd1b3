//! A client's body: every dimension with its value, measured or taken from the survey.
//!
//! Lengths mm, weight kg. An unmeasured dimension is the survey's mean of the client's sex,
//! whatever was measured: nothing is inferred from one dimension about another here.

use super::{Dimension, Sex, Survey};
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

/// One dimension of a body.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Known {
    /// mm, or kg for weight.
    pub value: f64,
    /// Whether it was read off the client; otherwise it is the survey's.
    pub measured: bool,
}

/// Every dimension of one person.
#[derive(Debug, Clone, PartialEq)]
pub struct Body {
    sex: Option<Sex>,
    known: [Known; Dimension::COUNT],
}

/// Why a reading was refused.
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

impl Body {
    /// A body from readings in mm (weight kg). Several readings of one dimension are averaged;
    /// what was not read is the survey's mean of that sex, or of the two sexes' means.
    ///
    /// # Errors
    /// When a reading is not finite, or is outside what any person has.
    pub fn new(
        survey: &Survey,
        sex: Option<Sex>,
        readings: &[(Dimension, f64)],
    ) -> Result<Self, BodyError> {
        let mut sums = [(0.0, 0_u32); Dimension::COUNT];
        for &(dimension, value) in readings {
            if !value.is_finite() {
                return Err(BodyError::NotANumber { dimension });
            }
            let (lowest, highest) = Self::taken_range(survey, dimension);
            if !(lowest..=highest).contains(&value) {
                return Err(BodyError::Impossible { dimension, value, lowest, highest });
            }
            let (sum, count) = &mut sums[dimension.index()];
            *sum += value;
            *count += 1;
        }
        let known = Dimension::ALL.map(|dimension| match sums[dimension.index()] {
            (_, 0) => Known { value: survey.mean(sex, dimension), measured: false },
            (sum, count) => Known { value: sum / f64::from(count), measured: true },
        });
        Ok(Self { sex, known })
    }

    /// The smallest and largest reading that is taken, mm or kg.
    pub fn taken_range(survey: &Survey, dimension: Dimension) -> (f64, f64) {
        match dimension {
            Dimension::Stature => STATURE_REFUSED_OUTSIDE_MM,
            Dimension::Weight => WEIGHT_REFUSED_OUTSIDE_KG,
            _ => {
                let [men, women] = Sex::BOTH.map(|sex| survey.statistics(sex, dimension));
                (
                    REFUSED_BELOW_SMALLEST * men.min.min(women.min),
                    REFUSED_ABOVE_LARGEST * men.max.max(women.max),
                )
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

    /// The client's sex, if given.
    pub fn sex(&self) -> Option<Sex> {
        self.sex
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use Dimension::{HandLength, Span, Stature, Weight};

    fn survey() -> Survey {
        Survey::shipped().unwrap()
    }

    #[test]
    fn readings_stand_and_the_rest_is_the_surveys() {
        let readings = [(Stature, 1820.0), (HandLength, 200.0), (HandLength, 202.0)];
        let body = Body::new(&survey(), Some(Sex::Male), &readings).unwrap();
        assert_eq!(body.known(Stature), Known { value: 1820.0, measured: true });
        assert_eq!(body.value(HandLength), 201.0, "two readings are averaged");
        let span = body.known(Span);
        assert!(!span.measured && span.value == survey().mean(Some(Sex::Male), Span));
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
}
