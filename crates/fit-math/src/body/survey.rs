//! Statistics of the survey: mean, spread and extremes of every dimension, for men and women.
//!
//! Lengths mm, weight kg. Read from the text of two CSV files, one per sex; the files shipped with
//! the program are compiled in, so that nothing is looked for on a disk. Covariances, and what
//! follows from them, are not here.
//!
//! Source: ANSUR II, the 2012 Anthropometric Survey of U.S. Army Personnel, Gordon et al. 2014,
//! NATICK/TR-15/007; 4082 men, 1986 women.

use super::Dimension;
use thiserror::Error;

/// The sex under which the survey measured a person.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Sex {
    /// Among the survey's men.
    Male,
    /// Among the survey's women.
    Female,
}

impl Sex {
    /// Both, men first.
    pub const BOTH: [Self; 2] = [Self::Male, Self::Female];
}

/// What the survey says of one dimension of one sex: mm, or kg for weight.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Statistics {
    /// Mean.
    pub mean: f64,
    /// Standard deviation.
    pub sd: f64,
    /// Smallest value met.
    pub min: f64,
    /// Largest value met.
    pub max: f64,
    /// Correlation with stature.
    pub r_stature: f64,
}

/// The survey's statistics, valid and complete.
#[derive(Debug, Clone, PartialEq)]
pub struct Survey {
    by_sex: [[Statistics; Dimension::COUNT]; 2],
}

/// Why a survey could not be read.
#[derive(Debug, Error)]
pub enum SurveyError {
    /// The text is no CSV, or has no such column.
    #[error("body statistics ({sex:?}): {source}")]
    Csv {
        /// Whose statistics.
        sex: Sex,
        /// What the reader met.
        source: csv::Error,
    },
    /// A column that every table needs is not there.
    #[error("body statistics ({sex:?}): there is no column \"{column}\"")]
    NoColumn {
        /// Whose statistics.
        sex: Sex,
        /// The column's heading.
        column: &'static str,
    },
    /// A cell holds no usable number.
    #[error(
        "body statistics ({sex:?}): {column} of {dimension} is \"{text}\", expected a positive number"
    )]
    BadNumber {
        /// Whose statistics.
        sex: Sex,
        /// The row.
        dimension: Dimension,
        /// The column's heading.
        column: &'static str,
        /// What stands there.
        text: String,
    },
    /// The mean lies outside the extremes.
    #[error("body statistics ({sex:?}): {dimension} has a mean outside its smallest and largest")]
    Disordered {
        /// Whose statistics.
        sex: Sex,
        /// The row.
        dimension: Dimension,
    },
    /// A dimension has no row.
    #[error("body statistics ({sex:?}): {dimension} is missing")]
    Missing {
        /// Whose statistics.
        sex: Sex,
        /// The row that is not there.
        dimension: Dimension,
    },
}

const MALE_CSV: &str = include_str!("../../../../assets/body/ansur2_male_stats.csv");
const FEMALE_CSV: &str = include_str!("../../../../assets/body/ansur2_female_stats.csv");

impl Survey {
    /// The survey that comes with the program.
    ///
    /// # Errors
    /// When the compiled-in text is not a complete table.
    pub fn shipped() -> Result<Self, SurveyError> {
        Self::from_csv(MALE_CSV, FEMALE_CSV)
    }

    /// A survey from the text of two tables with the columns `dimension`, `mean`, `sd`, `min`,
    /// `max` and `r_stature`; rows of other dimensions are passed over.
    ///
    /// # Errors
    /// When a table is no CSV, a column or a dimension is missing, or a number is not positive.
    pub fn from_csv(male: &str, female: &str) -> Result<Self, SurveyError> {
        Ok(Self { by_sex: [table(Sex::Male, male)?, table(Sex::Female, female)?] })
    }

    /// What the survey says of one dimension of one sex.
    pub fn statistics(&self, sex: Sex, dimension: Dimension) -> &Statistics {
        &self.by_sex[sex as usize][dimension.index()]
    }

    /// The mean of one dimension; of the two sexes' means when the sex is not given.
    pub fn mean(&self, sex: Option<Sex>, dimension: Dimension) -> f64 {
        let of = |sex| self.statistics(sex, dimension).mean;
        sex.map_or_else(|| f64::midpoint(of(Sex::Male), of(Sex::Female)), of)
    }
}

impl Survey {
    /// The mean of one dimension among people of that stature (mm): the regression of the dimension
    /// on stature in that sex, or the mean of both sexes' regressions when the sex is not given.
    pub fn mean_at_stature(&self, sex: Option<Sex>, dimension: Dimension, stature_mm: f64) -> f64 {
        let of = |sex| {
            let stature = self.statistics(sex, Dimension::Stature);
            let other = self.statistics(sex, dimension);
            let slope = other.r_stature * other.sd / stature.sd;
            other.mean + slope * (stature_mm - stature.mean)
        };
        sex.map_or_else(|| f64::midpoint(of(Sex::Male), of(Sex::Female)), of)
    }
}

fn table(sex: Sex, text: &str) -> Result<[Statistics; Dimension::COUNT], SurveyError> {
    let csv_error = |source| SurveyError::Csv { sex, source };
    let mut reader = csv::Reader::from_reader(text.as_bytes());
    let headings = reader.headers().map_err(csv_error)?.clone();
    let column = |heading: &'static str| {
        let at = headings.iter().position(|found| found.trim() == heading);
        at.map(|at| (heading, at)).ok_or(SurveyError::NoColumn { sex, column: heading })
    };
    let (_, name_at) = column("dimension")?;
    let columns =
        [column("mean")?, column("sd")?, column("min")?, column("max")?, column("r_stature")?];

    let mut found = [None; Dimension::COUNT];
    for record in reader.records() {
        let record = record.map_err(csv_error)?;
        let name = record.get(name_at).unwrap_or_default().trim();
        let Some(dimension) = Dimension::from_id(name) else { continue };
        let mut numbers = [0.0; 5];
        for (number, (column, at)) in numbers.iter_mut().zip(columns) {
            let cell = record.get(at).unwrap_or_default().trim();
            *number =
                cell.parse().ok().filter(|n: &f64| n.is_finite() && *n > 0.0).ok_or_else(|| {
                    SurveyError::BadNumber { sex, dimension, column, text: cell.to_owned() }
                })?;
        }
        let [mean, sd, min, max, r_stature] = numbers;
        if !(min <= mean && mean <= max) {
            return Err(SurveyError::Disordered { sex, dimension });
        }
        found[dimension.index()] = Some(Statistics { mean, sd, min, max, r_stature });
    }

    let nothing = Statistics { mean: 0.0, sd: 0.0, min: 0.0, max: 0.0, r_stature: 0.0 };
    let mut table = [nothing; Dimension::COUNT];
    for dimension in Dimension::ALL {
        table[dimension.index()] =
            found[dimension.index()].ok_or(SurveyError::Missing { sex, dimension })?;
    }
    Ok(table)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Means printed in the survey's report, mm: stature, sleeve of the men and women.
    #[test]
    fn the_shipped_survey_is_complete_and_in_millimetres() {
        let survey = Survey::shipped().unwrap();
        for dimension in Dimension::ALL {
            for sex in Sex::BOTH {
                let s = survey.statistics(sex, dimension);
                assert!(s.sd < 0.25 * s.mean, "{dimension}: a spread beyond a quarter of the mean");
                assert!(s.min < s.mean - s.sd && s.max > s.mean + s.sd);
            }
        }
        let stature = |sex| survey.mean(sex, Dimension::Stature);
        assert!((stature(Some(Sex::Male)) - 1756.0).abs() < 1.0);
        assert!((stature(Some(Sex::Female)) - 1628.0).abs() < 1.0);
        let both = stature(None) * 2.0;
        assert!((both - stature(Some(Sex::Male)) - stature(Some(Sex::Female))).abs() < 1e-9);
    }

    /// Biacromial breadth on stature: 14.86 mm per 100 mm in men, 16.12 in women, computed from
    /// the survey's individuals (n = 4082 and 1986).
    #[test]
    fn the_regression_on_stature_is_that_of_the_individuals() {
        let survey = Survey::shipped().unwrap();
        for (sex, slope) in [(Sex::Male, 14.8637), (Sex::Female, 16.1214)] {
            let at = |mm| survey.mean_at_stature(Some(sex), Dimension::BiacromialBreadth, mm);
            assert!((at(1800.0) - at(1700.0) - slope).abs() < 0.03, "{}", at(1800.0) - at(1700.0));
        }
    }

    #[test]
    fn a_broken_table_names_what_is_wrong() {
        let read = |text: &str| Survey::from_csv(text, FEMALE_CSV).unwrap_err().to_string();
        assert!(read("dimension,mean,sd,min\n").contains("\"max\""));
        assert!(read("dimension,mean,sd,min,max,r_stature\n").contains("stature is missing"));
        let message = read("dimension,mean,sd,min,max,r_stature\nstature,tall,60,1500,2000,1\n");
        assert!(message.contains("mean of stature is \"tall\""), "{message}");
        let message = read("dimension,mean,sd,min,max,r_stature\nstature,1400,60,1500,2000,1\n");
        assert!(message.contains("outside"), "{message}");
        let message = read("dimension,mean,sd,min,max,r_stature\nstature,1400\n");
        assert!(message.contains("CSV"), "{message}");
        let cut = MALE_CSV.rsplit_once("head_length").unwrap().0;
        assert!(read(cut).contains("head_length is missing"));
    }
}
