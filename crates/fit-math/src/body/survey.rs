//! Statistics of the survey: mean, spread, extremes and covariances of every dimension, for men and
//! women, and how far a fitter's reading of each is off.
//!
//! Lengths mm, weight kg. Read from the text of CSV files; those shipped with the program are
//! compiled in, so that nothing is looked for on a disk. What a reading tells is not here.
//!
//! Source: ANSUR II, the 2012 Anthropometric Survey of U.S. Army Personnel, Gordon et al. 2014,
//! NATICK/TR-15/007; 4082 men, 1986 women. Measuring errors: judgement, see `assets/body`.

use super::{Dimension, Normal, tables};
use core::fmt;
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
}

/// The survey's statistics, valid and complete.
#[derive(Debug, Clone, PartialEq)]
pub struct Survey {
    statistics: [[Statistics; Dimension::COUNT]; 2],
    people: [Normal; 2],
}

/// One of the survey's tables.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Table {
    /// Mean, spread and extremes.
    Statistics(Sex),
    /// Covariances.
    Covariances(Sex),
}

impl fmt::Display for Table {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Statistics(sex) => write!(f, "body statistics ({sex:?})"),
            Self::Covariances(sex) => write!(f, "body covariances ({sex:?})"),
        }
    }
}

/// Why a survey could not be read.
#[derive(Debug, Error)]
pub enum SurveyError {
    /// The text is no CSV.
    #[error("{table}: {source}")]
    Csv {
        /// Which table.
        table: Table,
        /// What the reader met.
        source: csv::Error,
    },
    /// A column that the table needs is not there.
    #[error("{table}: there is no column \"{column}\"")]
    NoColumn {
        /// Which table.
        table: Table,
        /// The column's heading.
        column: String,
    },
    /// A cell holds no usable number.
    #[error("{table}: {column} of {dimension} is \"{text}\", expected a usable number")]
    BadNumber {
        /// Which table.
        table: Table,
        /// The row.
        dimension: Dimension,
        /// The column's heading.
        column: String,
        /// What stands there.
        text: String,
    },
    /// The mean lies outside the extremes.
    #[error("{table}: {dimension} has a mean outside its smallest and largest")]
    Disordered {
        /// Which table.
        table: Table,
        /// The row.
        dimension: Dimension,
    },
    /// The halves differ, the diagonal is not that of the statistics, or one dimension is wholly
    /// told by the others.
    #[error("{table}: these are not the covariances of dimensions with these spreads")]
    NoCovariance {
        /// Which table.
        table: Table,
    },
    /// A dimension has no row.
    #[error("{table}: {dimension} is missing")]
    Missing {
        /// Which table.
        table: Table,
        /// The row that is not there.
        dimension: Dimension,
    },
}

/// The text of the survey's tables, men's before women's.
#[derive(Debug, Clone, Copy)]
pub struct Texts<'a> {
    /// Columns `dimension`, `mean`, `sd`, `min`, `max`.
    pub statistics: [&'a str; 2],
    /// Columns `dimension` and each dimension's name.
    pub covariances: [&'a str; 2],
}

/// The tables that come with the program.
const SHIPPED: Texts<'static> = Texts {
    statistics: [
        include_str!("../../../../assets/body/ansur2_male_stats.csv"),
        include_str!("../../../../assets/body/ansur2_female_stats.csv"),
    ],
    covariances: [
        include_str!("../../../../assets/body/ansur2_male_cov.csv"),
        include_str!("../../../../assets/body/ansur2_female_cov.csv"),
    ],
};

impl Survey {
    /// The survey that comes with the program.
    ///
    /// # Errors
    /// When the compiled-in text is no set of complete tables.
    pub fn shipped() -> Result<Self, SurveyError> {
        Self::from_csv(&SHIPPED)
    }

    /// A survey from the text of its tables; rows of other dimensions are passed over.
    ///
    /// # Errors
    /// When a table is no CSV, a column or a dimension is missing, a number is none or not positive
    /// where it must be, or the covariances are not those of the statistics.
    pub fn from_csv(texts: &Texts<'_>) -> Result<Self, SurveyError> {
        let statistics =
            |sex: Sex| tables::statistics(Table::Statistics(sex), texts.statistics[sex as usize]);
        let statistics = [statistics(Sex::Male)?, statistics(Sex::Female)?];
        let people = |sex: Sex| {
            let text = texts.covariances[sex as usize];
            tables::people(Table::Covariances(sex), text, &statistics[sex as usize])
        };
        Ok(Self { people: [people(Sex::Male)?, people(Sex::Female)?], statistics })
    }

    /// What the survey says of one dimension of one sex.
    pub fn statistics(&self, sex: Sex, dimension: Dimension) -> &Statistics {
        &self.statistics[sex as usize][dimension.index()]
    }

    /// Means and covariances of all dimensions of one sex.
    pub fn people(&self, sex: Sex) -> &Normal {
        &self.people[sex as usize]
    }

    /// The mean of one dimension; of the two sexes' means when the sex is not given.
    pub fn mean(&self, sex: Option<Sex>, dimension: Dimension) -> f64 {
        let of = |sex| self.statistics(sex, dimension).mean;
        sex.map_or_else(|| f64::midpoint(of(Sex::Male), of(Sex::Female)), of)
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
                let error = dimension.measuring_sd();
                assert!(error < s.sd, "{dimension}: readings tell nothing");
            }
        }
        let stature = |sex| survey.mean(sex, Dimension::Stature);
        assert!((stature(Some(Sex::Male)) - 1756.0).abs() < 1.0);
        assert!((stature(Some(Sex::Female)) - 1628.0).abs() < 1.0);
        let both = stature(None) * 2.0;
        assert!((both - stature(Some(Sex::Male)) - stature(Some(Sex::Female))).abs() < 1e-9);
    }

    fn refusal(texts: &Texts<'_>) -> String {
        Survey::from_csv(texts).unwrap_err().to_string()
    }

    #[test]
    fn a_broken_table_names_what_is_wrong() {
        let read =
            |text: &str| refusal(&Texts { statistics: [text, SHIPPED.statistics[1]], ..SHIPPED });
        assert!(read("dimension,mean,sd,min\n").contains("\"max\""));
        let table = |rows: &str| read(&format!("dimension,mean,sd,min,max\n{rows}"));
        assert!(table("").contains("stature is missing"));
        let message = table("stature,tall,60,1500,2000\n");
        assert!(message.contains("mean of stature is \"tall\""), "{message}");
        assert!(table("stature,1700,-60,1500,2000\n").contains("sd of stature is \"-60\""));
        assert!(table("stature,1400,60,1500,2000\n").contains("outside"));
        let message = table("stature,1400\n");
        assert!(message.contains("CSV"), "{message}");
        let cut = SHIPPED.statistics[0].rsplit_once("head_length").unwrap().0;
        assert!(read(cut).contains("head_length is missing"));
    }

    /// Women's covariances beside men's statistics, halves that differ, and a crotch height that is
    /// stature over again: none of them is a covariance of these dimensions.
    #[test]
    fn covariances_must_be_those_of_the_dimensions() {
        let [men, women] = SHIPPED.covariances;
        let read = |text: &str| refusal(&Texts { covariances: [text, women], ..SHIPPED });
        assert!(read(women).contains("not the covariances"));
        let one_half = men.replacen("457.108089", "447.108089", 1);
        assert!(read(&one_half).contains("not the covariances"));

        let mut rows: Vec<Vec<String>> =
            men.lines().map(|line| line.split(',').map(str::to_owned).collect()).collect();
        let [stature, sitting] =
            [Dimension::Stature, Dimension::EyeHeightSitting].map(|d| d.index() + 1);
        // the same correlations as stature has, at its own spread
        let number = |text: &str| text.parse::<f64>().unwrap();
        let scale = (number(&rows[sitting][sitting]) / number(&rows[stature][stature])).sqrt();
        let again: Vec<String> =
            rows[stature].iter().skip(1).map(|cell| (number(cell) * scale).to_string()).collect();
        for (at, cell) in (1..).zip(again).filter(|&(at, _)| at != sitting) {
            rows[sitting][at].clone_from(&cell);
            rows[at][sitting] = cell;
        }
        let text: Vec<_> = rows.iter().map(|row| row.join(",")).collect();
        assert!(read(&text.join("\n")).contains("not the covariances"));
    }
}
