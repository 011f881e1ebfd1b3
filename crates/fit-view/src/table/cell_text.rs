//! One cell in words, for a window or a sheet: the answer, its change, what limits it.

use super::cell::{Answer, Cell, Change};
use super::question::Question;
use crate::words::Words;
use core::fmt;
use fit_units::{Unit, change, whole};

/// What stands in a cell.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct CellText {
    /// The answer with its unit, or "same", or a dash.
    pub answer: String,
    /// How it differs from the one as it came; empty where it does not or is the whole answer.
    pub change: String,
    /// How far chance takes the change, or that it is too small to tell; empty where it is sure.
    pub doubt: String,
    /// The change is larger than chance, or there is none.
    pub tells: bool,
    /// The joint at its limit; empty where none is.
    pub limit: String,
}

impl CellText {
    /// The words of a cell.
    pub fn of(question: Question, cell: Cell, words: &dyn Words) -> Self {
        let unit = question.scale().unit();
        let number = |amount: i64| whole(stored(amount, unit), unit);
        let (answer, by) = match (cell.answer, cell.change) {
            (Answer::None, _) | (Answer::ChangeOnly, Change::None) => {
                (words.no_answer().to_owned(), String::new())
            }
            (Answer::OutOfReach { short_by_mm }, _) => {
                (words.out_of_reach(short_by_mm), String::new())
            }
            (Answer::Apart(by), change) => {
                let was = match change {
                    Change::By(more) => words.was_apart(question, by - more),
                    Change::None | Change::Same => String::new(),
                };
                (words.apart(question, by), was)
            }
            (_, Change::Same) => (words.same().to_owned(), String::new()),
            (Answer::ChangeOnly, Change::By(by)) => (words.moved(question, by), String::new()),
            (Answer::Number(amount), Change::None) => (number(amount), String::new()),
            (Answer::Number(amount), Change::By(by)) => {
                (number(amount), change(stored(by, unit), unit))
            }
        };
        let limit = cell.at_limit.map(|at| words.at_limit(at)).unwrap_or_default();
        let doubt = cell.doubt.map_or_else(String::new, |doubt| {
            if doubt.tells { words.within(doubt.within) } else { words.too_small().to_owned() }
        });
        let tells = cell.doubt.is_none_or(|doubt| doubt.tells);
        Self { answer, change: by, doubt, tells, limit }
    }
}

impl fmt::Display for CellText {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.answer)?;
        for part in [&self.change, &self.doubt, &self.limit] {
            if !part.is_empty() {
                write!(f, " {part}")?;
            }
        }
        Ok(())
    }
}

/// A whole number as the units' room keeps it: angles in radians.
#[expect(clippy::cast_precision_loss, reason = "whole millimetres and degrees")]
fn stored(amount: i64, unit: Unit) -> f64 {
    let amount = amount as f64;
    if unit == Unit::Degree { amount.to_radians() } else { amount }
}
