//! What a text may hold, as far as slips in it are told apart: a description of the format's types
//! that is taken from the types themselves.
//!
//! It deliberately knows no ranges and no meaning; those are the document's.

use fit_doc::{Measure, Quantity};

/// The shape of one value.
#[derive(Debug, Clone)]
pub(crate) enum Shape {
    /// A number that is one.
    Number,
    /// A whole number within these, both included.
    Whole(i64, i64),
    /// `true` or `false`.
    Flag,
    /// A text in quotes.
    Text,
    /// This text in quotes and no other.
    Exactly(&'static str),
    /// A text in quotes that passes as a day.
    Day(fn(&str) -> bool),
    /// One of these words.
    Words(Vec<String>),
    /// `None`, or `Some(…)` of this.
    Maybe(Box<Shape>),
    /// Any number of these, in square brackets.
    List(Box<Shape>),
    /// So many of these, in round brackets.
    Row(usize, Box<Shape>),
    /// Keys with their values, in round brackets.
    Object(Vec<Field>),
    /// One of these words, with keys and values in round brackets behind it where it has any.
    Choice(Vec<(String, Vec<Field>)>),
}

/// A key and the shape of its value.
#[derive(Debug, Clone)]
pub(crate) struct Field {
    /// The key.
    pub key: &'static str,
    /// The shape.
    pub shape: Shape,
    /// It may be left out.
    pub may_lack: bool,
}

impl Field {
    /// A key and its shape.
    pub(crate) fn new(key: &'static str, shape: Shape) -> Self {
        Self { key, shape, may_lack: false }
    }

    /// The same of a key that may be left out.
    pub(crate) fn or_none(key: &'static str, shape: Shape) -> Self {
        Self { may_lack: true, ..Self::new(key, shape) }
    }
}

/// Least and most of a key's whole number, where the document has a range for what it counts: its
/// type alone takes far more.
#[expect(
    clippy::cast_possible_truncation,
    reason = "ranges of what is counted are whole and small"
)]
pub(crate) fn counted(key: &str) -> Option<(i64, i64)> {
    let quantity = match key {
        "score" | "before" | "after" => Quantity::ComplaintScore,
        "minutes" => Quantity::RideMinutes,
        "km" => Quantity::KmRidden,
        "percent" => Quantity::HandShare(fit_doc::HandPlace::Hoods),
        "after_minutes" => Quantity::AfterMinutes,
        "born" => Quantity::BirthYear,
        "clicks" => Quantity::LeverClicks,
        _ => return None,
    };
    let (least, most) = quantity.range().refuse;
    Some((least as i64, most as i64))
}

/// What a key's number measures: its ending names the unit.
pub(crate) fn measure(key: &str) -> Measure {
    match key.rsplit_once('_').map(|(_, unit)| unit) {
        Some("mm") => Measure::Length,
        Some("deg") => Measure::Angle,
        Some("kg") => Measure::Weight,
        _ if key == "mm" => Measure::Length,
        _ if key == "deg" => Measure::Angle,
        _ => Measure::Plain,
    }
}

/// A name as the file writes it: `CentreToCentre` is `centre_to_centre`.
pub(crate) fn snake(name: &str) -> String {
    let mut snake = String::with_capacity(name.len() + 4);
    for (at, c) in name.char_indices() {
        if c.is_ascii_uppercase() && at > 0 {
            snake.push('_');
        }
        snake.push(c.to_ascii_lowercase());
    }
    snake
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn names_are_written_as_the_file_writes_them() {
        assert_eq!(snake("CentreToCentre"), "centre_to_centre");
        assert_eq!(snake("Hip"), "hip");
        assert_eq!(measure("roll_deg"), Measure::Angle);
        assert_eq!(measure("readings_kg"), Measure::Weight);
        assert_eq!(measure("mm"), Measure::Length);
        assert_eq!(measure("score"), Measure::Plain);
    }
}
