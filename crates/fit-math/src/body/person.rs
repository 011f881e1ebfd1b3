//! A client's body: every dimension with its value, measured or taken from the survey.
//!
//! Lengths mm, weight kg. An unmeasured dimension is the survey's mean of the client's sex, at the
//! client's stature where that was read: plain means beside a tall client's own readings would make
//! a body that nobody has. The heights of hip and knee are those at the client's stature and
//! inseam. No other reading tells anything about another dimension here.

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

/// Heights along the leg, which are told by the inseam as well where they were not read themselves.
/// Among people of one stature trochanter and knee rise by 0.76 and 0.38 mm per mm of crotch height
/// in men, 0.74 and 0.50 in women (covariances of ANSUR II 2012).
const FOLLOW_THE_INSEAM: [Dimension; 4] = [
    Dimension::TrochanterionHeight,
    Dimension::LateralFemoralEpicondyleHeight,
    Dimension::KneeHeightMidpatella,
    Dimension::TibialeHeight,
];

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
    /// what was not read is the survey's mean of that sex (or of the two sexes' means), at the
    /// stature that was read if one was; along the leg at the crotch height that was read, too.
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
        let read = |dimension: Dimension| match sums[dimension.index()] {
            (_, 0) => None,
            (sum, count) => Some(sum / f64::from(count)),
        };
        let (stature_mm, crotch_mm) = (read(Dimension::Stature), read(Dimension::CrotchHeight));
        let expected = |dimension: Dimension| {
            let told_by_crotch = FOLLOW_THE_INSEAM.contains(&dimension);
            let crotch_mm = crotch_mm.filter(|_| told_by_crotch);
            survey.mean_at(sex, dimension, stature_mm, crotch_mm)
        };
        let known = Dimension::ALL.map(|dimension| match read(dimension) {
            Some(value) => Known { value, measured: true },
            None => Known { value: expected(dimension), measured: false },
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
        let at_stature = survey().mean_at(Some(Sex::Male), Span, Some(1820.0), None);
        assert!(!span.measured && span.value == at_stature);
        let unread = Body::new(&survey(), Some(Sex::Male), &[]).unwrap();
        assert_eq!(unread.value(Span), survey().mean(Some(Sex::Male), Span));
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
                    let read = [(Stature, stature), (Dimension::CrotchHeight, share * stature)];
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
