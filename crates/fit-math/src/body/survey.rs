//! Statistics of the survey: mean, spread and extremes of every dimension, for men and women, and
//! what stature and crotch height tell of it.
//!
//! Lengths mm, weight kg. Read from the text of two CSV files, one per sex; the files shipped with
//! the program are compiled in, so that nothing is looked for on a disk. What any other dimension
//! tells is not here.
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
    /// Covariance with stature, mm² (for weight kg mm).
    pub cov_stature: f64,
    /// Covariance with crotch height, mm² (for weight kg mm).
    pub cov_crotch: f64,
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
    /// Crotch height and stature go wholly together: neither tells anything beside the other.
    #[error(
        "body statistics ({sex:?}): the covariances of stature and crotch height are not those of \
         two dimensions"
    )]
    OneForTheOther {
        /// Whose statistics.
        sex: Sex,
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
    /// `max`, `cov_stature` and `cov_crotch_height`; rows of other dimensions are passed over.
    ///
    /// # Errors
    /// When a table is no CSV, a column or a dimension is missing, a number is not positive, or
    /// stature and crotch height are not two dimensions.
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
    /// The mean of one dimension among people of that stature and that crotch height, mm, as far as
    /// they are given: the regression of the dimension on them in that sex, or the mean of both
    /// sexes' regressions when the sex is not given.
    ///
    /// Source: the mean of a multivariate normal, some of whose dimensions are known (textbook).
    pub fn mean_at(
        &self,
        sex: Option<Sex>,
        dimension: Dimension,
        stature_mm: Option<f64>,
        crotch_mm: Option<f64>,
    ) -> f64 {
        let of = |sex| {
            let known = [Dimension::Stature, Dimension::CrotchHeight];
            let [stature, crotch] = known.map(|dimension| self.statistics(sex, dimension));
            let other = self.statistics(sex, dimension);
            let beyond = [(stature_mm, stature), (crotch_mm, crotch)]
                .map(|(read_mm, of)| read_mm.map(|mm| mm - of.mean));
            match beyond {
                [None, None] => other.mean,
                [Some(taller), None] => {
                    other.mean + other.cov_stature / stature.cov_stature * taller
                }
                [None, Some(longer)] => other.mean + other.cov_crotch / crotch.cov_crotch * longer,
                [Some(taller), Some(longer)] => {
                    let [on_stature, on_crotch] = slopes(stature, crotch, other);
                    other.mean + on_stature * taller + on_crotch * longer
                }
            }
        };
        sex.map_or_else(|| f64::midpoint(of(Sex::Male), of(Sex::Female)), of)
    }
}

/// How much of a dimension goes with a mm of stature and with a mm of crotch height, the other of
/// the two being the same.
fn slopes(stature: &Statistics, crotch: &Statistics, other: &Statistics) -> [f64; 2] {
    let apart = apart(stature, crotch);
    [
        (other.cov_stature * crotch.cov_crotch - other.cov_crotch * crotch.cov_stature) / apart,
        (other.cov_crotch * stature.cov_stature - other.cov_stature * crotch.cov_stature) / apart,
    ]
}

/// Determinant of the covariance of stature and crotch height: nought where one is the other.
fn apart(stature: &Statistics, crotch: &Statistics) -> f64 {
    stature.cov_stature * crotch.cov_crotch - crotch.cov_stature * crotch.cov_stature
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
    let columns = [
        column("mean")?,
        column("sd")?,
        column("min")?,
        column("max")?,
        column("cov_stature")?,
        column("cov_crotch_height")?,
    ];

    let mut found = [None; Dimension::COUNT];
    for record in reader.records() {
        let record = record.map_err(csv_error)?;
        let name = record.get(name_at).unwrap_or_default().trim();
        let Some(dimension) = Dimension::from_id(name) else { continue };
        let mut numbers = [0.0; 6];
        for (number, (column, at)) in numbers.iter_mut().zip(columns) {
            let cell = record.get(at).unwrap_or_default().trim();
            *number =
                cell.parse().ok().filter(|n: &f64| n.is_finite() && *n > 0.0).ok_or_else(|| {
                    SurveyError::BadNumber { sex, dimension, column, text: cell.to_owned() }
                })?;
        }
        let [mean, sd, min, max, cov_stature, cov_crotch] = numbers;
        if !(min <= mean && mean <= max) {
            return Err(SurveyError::Disordered { sex, dimension });
        }
        found[dimension.index()] = Some(Statistics { mean, sd, min, max, cov_stature, cov_crotch });
    }

    let nothing =
        Statistics { mean: 0.0, sd: 0.0, min: 0.0, max: 0.0, cov_stature: 0.0, cov_crotch: 0.0 };
    let mut table = [nothing; Dimension::COUNT];
    for dimension in Dimension::ALL {
        table[dimension.index()] =
            found[dimension.index()].ok_or(SurveyError::Missing { sex, dimension })?;
    }
    let apart = apart(&table[Dimension::Stature.index()], &table[Dimension::CrotchHeight.index()]);
    // whatever is divided by it then stays a number
    if apart.is_normal() && apart > 0.0 {
        Ok(table)
    } else {
        Err(SurveyError::OneForTheOther { sex })
    }
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
            let at = |mm| survey.mean_at(Some(sex), Dimension::BiacromialBreadth, Some(mm), None);
            assert!((at(1800.0) - at(1700.0) - slope).abs() < 1e-3, "{}", at(1800.0) - at(1700.0));
        }
    }

    #[test]
    fn a_broken_table_names_what_is_wrong() {
        let read = |text: &str| Survey::from_csv(text, FEMALE_CSV).unwrap_err().to_string();
        assert!(read("dimension,mean,sd,min\n").contains("\"max\""));
        let table = |rows: &str| {
            read(&format!("dimension,mean,sd,min,max,cov_stature,cov_crotch_height\n{rows}"))
        };
        assert!(table("").contains("stature is missing"));
        let message = table("stature,tall,60,1500,2000,3600,1\n");
        assert!(message.contains("mean of stature is \"tall\""), "{message}");
        let message = table("stature,1400,60,1500,2000,3600,1\n");
        assert!(message.contains("outside"), "{message}");
        let message = table("stature,1400\n");
        assert!(message.contains("CSV"), "{message}");
        // a crotch height that is stature over again
        let stature = MALE_CSV.lines().find(|line| line.starts_with("stature,")).unwrap();
        let variance = stature.split(',').nth(15).unwrap();
        let message: Vec<_> = MALE_CSV
            .lines()
            .map(|line| match line.strip_prefix("crotch_height,") {
                Some(row) => {
                    let kept: Vec<_> = row.split(',').take(14).collect();
                    format!("crotch_height,{},{variance},{variance}", kept.join(","))
                }
                None => line.to_owned(),
            })
            .collect();
        let message = read(&message.join("\n"));
        assert!(message.contains("not those of two dimensions"), "{message}");
        let cut = MALE_CSV.rsplit_once("head_length").unwrap().0;
        assert!(read(cut).contains("head_length is missing"));
    }
}
