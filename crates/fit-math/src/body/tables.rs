//! The survey's tables, read from CSV text.
//!
//! Columns are found by their headings and rows by the dimension they begin with, so neither order
//! matters; rows of other dimensions are passed over. Everything that the sums rely on is checked
//! here: numbers are numbers, and a covariance is one.

use super::normal::{Matrix, Vector};
use super::survey::{Statistics, SurveyError, Table};
use super::{Dimension, Normal};
use csv::StringRecord;

/// A covariance table's two halves agree to this share of their entries' spreads (its rounding).
const MIRRORED: f64 = 1e-9;
/// The variances on the covariance's diagonal agree with the spreads to this share: both are
/// rounded to thousandths, of spreads of some 4 and more.
const SAME_SPREAD: f64 = 1e-3;

/// A table with the columns that are looked at.
struct Rows {
    table: Table,
    columns: Vec<(String, usize)>,
    of: Vec<Option<StringRecord>>,
}

impl Rows {
    fn read(table: Table, text: &str, headings: &[&str]) -> Result<Self, SurveyError> {
        let csv_error = |source| SurveyError::Csv { table, source };
        let mut reader = csv::Reader::from_reader(text.as_bytes());
        let found = reader.headers().map_err(csv_error)?.clone();
        let column = |heading: &str| {
            let at = found.iter().position(|found| found.trim() == heading);
            let missing = || SurveyError::NoColumn { table, column: heading.to_owned() };
            at.map(|at| (heading.to_owned(), at)).ok_or_else(missing)
        };
        let name_at = column("dimension")?.1;
        let columns = headings.iter().map(|heading| column(heading)).collect::<Result<_, _>>()?;
        let mut of = vec![None; Dimension::COUNT];
        for record in reader.records() {
            let record = record.map_err(csv_error)?;
            let name = record.get(name_at).unwrap_or_default().trim();
            if let Some(dimension) = Dimension::from_id(name) {
                of[dimension.index()] = Some(record);
            }
        }
        Ok(Self { table, columns, of })
    }

    /// The numbers of one row, in the order of the headings.
    fn numbers(&self, dimension: Dimension) -> Result<Vec<f64>, SurveyError> {
        let table = self.table;
        let row =
            self.of[dimension.index()].as_ref().ok_or(SurveyError::Missing { table, dimension })?;
        let number = |(column, at): &(String, usize)| {
            let cell = row.get(*at).unwrap_or_default().trim();
            let bad = || SurveyError::BadNumber {
                table,
                dimension,
                column: column.clone(),
                text: cell.to_owned(),
            };
            cell.parse().ok().filter(|n: &f64| n.is_finite()).ok_or_else(bad)
        };
        self.columns.iter().map(number).collect()
    }

    /// The same, every one of them above nought.
    fn positive(&self, dimension: Dimension) -> Result<Vec<f64>, SurveyError> {
        let numbers = self.numbers(dimension)?;
        match numbers.iter().zip(&self.columns).find(|(number, _)| **number <= 0.0) {
            Some((number, (column, _))) => Err(SurveyError::BadNumber {
                table: self.table,
                dimension,
                column: column.clone(),
                text: number.to_string(),
            }),
            None => Ok(numbers),
        }
    }
}

/// Mean, spread and extremes of every dimension.
pub(super) fn statistics(
    table: Table,
    text: &str,
) -> Result<[Statistics; Dimension::COUNT], SurveyError> {
    let rows = Rows::read(table, text, &["mean", "sd", "min", "max"])?;
    let nothing = Statistics { mean: 0.0, sd: 0.0, min: 0.0, max: 0.0 };
    let mut all = [nothing; Dimension::COUNT];
    for dimension in Dimension::ALL {
        if let [mean, sd, min, max] = rows.positive(dimension)?[..] {
            if !(min <= mean && mean <= max) {
                return Err(SurveyError::Disordered { table, dimension });
            }
            all[dimension.index()] = Statistics { mean, sd, min, max };
        }
    }
    Ok(all)
}

/// The people of whom those are the statistics, with the covariances of another table.
pub(super) fn people(
    table: Table,
    text: &str,
    statistics: &[Statistics; Dimension::COUNT],
) -> Result<Normal, SurveyError> {
    let rows = Rows::read(table, text, &Dimension::ALL.map(Dimension::id))?;
    let mut covariance = Matrix::zeros();
    for dimension in Dimension::ALL {
        for (column, number) in rows.numbers(dimension)?.into_iter().enumerate() {
            covariance[(dimension.index(), column)] = number;
        }
    }
    let spread = |at: usize| statistics[at].sd;
    let agrees = (0..Dimension::COUNT).all(|row| {
        let same = |column: usize| {
            let halves = covariance[(row, column)] - covariance[(column, row)];
            halves.abs() <= MIRRORED * spread(row) * spread(column)
        };
        let sd = covariance[(row, row)].max(0.0).sqrt();
        (sd / spread(row) - 1.0).abs() < SAME_SPREAD && (0..row).all(same)
    });
    if !agrees || covariance.cholesky().is_none() {
        return Err(SurveyError::NoCovariance { table });
    }
    Ok(Normal::new(&Vector::from_fn(|row, _| statistics[row].mean), &covariance))
}
