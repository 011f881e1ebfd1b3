//! From what was read to what is believed of all 45 dimensions.
//!
//! mm, kg for weight. Each sex is a multivariate normal of its own, and readings are taken in with
//! their errors; where the sex is not given, both are, and each counts as it foretold the readings.
//!
//! Source: conditional normal distributions and Bayes' rule (textbook); statistics: ANSUR II,
//! Gordon et al. 2014, NATICK/TR-15/007.

use super::taken::{self, Taken};
use super::{Normal, Reading, Sex, Survey};

/// Clients differ from soldiers: what the survey leaves open of them is wider by this (judgement;
/// biacromial breadth from stature and weight was off by 18 and 15 mm in 507 civilians, where the
/// survey gives 14.5 and 14.7).
pub const CLIENTS_OVER_SURVEY: f64 = 1.2;
/// Where the sex is not given and nothing was read, this share are men (judgement).
const SHARE_OF_MEN: f64 = 0.5;

/// Among whom the person is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum People {
    /// Those who were surveyed.
    Surveyed,
    /// Everybody else.
    Clients,
}

/// What is believed of one person.
#[derive(Debug, Clone, PartialEq)]
pub struct Estimate {
    normal: Normal,
    share_of_men: f64,
}

impl Estimate {
    /// From readings; one that is not a number is passed over, and none is judged.
    pub fn new(survey: &Survey, sex: Option<Sex>, people: People, readings: &[Reading]) -> Self {
        let readings: Vec<_> = readings.iter().copied().filter(|r| r.value.is_finite()).collect();
        Self::from_taken(survey, sex, people, &taken::all(survey, &readings))
    }

    pub(super) fn from_taken(
        survey: &Survey,
        sex: Option<Sex>,
        people: People,
        taken: &[Taken],
    ) -> Self {
        let of = |sex| {
            let mut normal = match people {
                People::Surveyed => survey.people(sex).clone(),
                People::Clients => survey.people(sex).widened(CLIENTS_OVER_SURVEY),
            };
            let mut likely = 0.0;
            for one in taken {
                let reading = one.value - one.item.offset();
                likely += normal.learn(&one.item.gradient(), reading, one.variance);
            }
            (normal, likely)
        };
        match sex {
            Some(Sex::Male) => Self { normal: of(Sex::Male).0, share_of_men: 1.0 },
            Some(Sex::Female) => Self { normal: of(Sex::Female).0, share_of_men: 0.0 },
            None => {
                let ((men, men_likely), (women, women_likely)) = (of(Sex::Male), of(Sex::Female));
                let women_over_men =
                    (women_likely - men_likely).exp() * (1.0 - SHARE_OF_MEN) / SHARE_OF_MEN;
                let share_of_men = 1.0 / (1.0 + women_over_men);
                Self { normal: Normal::mixed(&men, &women, share_of_men), share_of_men }
            }
        }
    }

    /// Mean and covariance; of an unknown sex those of both together.
    pub fn normal(&self) -> &Normal {
        &self.normal
    }

    /// How likely the person is among the men, 0 to 1.
    pub fn share_of_men(&self) -> f64 {
        self.share_of_men
    }
}
