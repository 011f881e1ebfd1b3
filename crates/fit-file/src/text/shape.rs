//! What a text may hold, as far as slips in it are told apart: a description of the format's types
//! that is taken from the types themselves.
//!
//! It deliberately knows no ranges and no meaning; those are the document's.

use fit_doc::Measure;

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
    /// One of these words, with keys and values in round brackets behind it.
    Choice(Vec<(String, Vec<Field>)>),
}

/// A key and the shape of its value.
#[derive(Debug, Clone)]
pub(crate) struct Field {
    /// The key.
    pub key: &'static str,
    /// The shape.
    pub shape: Shape,
}

impl Field {
    /// A key and its shape.
    pub(crate) fn new(key: &'static str, shape: Shape) -> Self {
        Self { key, shape }
    }
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

/// The known name that looks most like the one found, if any is like it: a letter or two changed,
/// lost, doubled or swapped, or written in capitals.
pub(crate) fn nearest<'k>(found: &str, known: impl IntoIterator<Item = &'k str>) -> Option<String> {
    let found: Vec<char> =
        found.trim_matches('"').to_lowercase().replace('-', "_").chars().collect();
    let far = found.len().div_ceil(3).max(1);
    known
        .into_iter()
        .map(|name| (edits(&found, &name.chars().collect::<Vec<_>>()), name))
        .filter(|&(edits, _)| edits <= far)
        .min_by_key(|&(edits, _)| edits)
        .map(|(_, name)| name.to_owned())
}

/// Letters changed, lost, added or swapped with their neighbour between two words.
/// Source: optimal string alignment (Damerau 1964, Communications of the ACM 7:171).
fn edits(one: &[char], other: &[char]) -> usize {
    let width = other.len() + 1;
    let mut rows = vec![vec![0_usize; width]; one.len() + 1];
    for (i, row) in rows.iter_mut().enumerate() {
        row[0] = i;
    }
    rows[0] = (0..width).collect();
    for i in 1..=one.len() {
        for j in 1..width {
            let changed = usize::from(one[i - 1] != other[j - 1]);
            let mut least =
                (rows[i - 1][j] + 1).min(rows[i][j - 1] + 1).min(rows[i - 1][j - 1] + changed);
            if i > 1 && j > 1 && one[i - 1] == other[j - 2] && one[i - 2] == other[j - 1] {
                least = least.min(rows[i - 2][j - 2] + 1);
            }
            rows[i][j] = least;
        }
    }
    rows[one.len()][other.len()]
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_nearest_name_is_near() {
        let known = ["round", "flat", "variable"];
        for (found, expected) in [
            ("Round", Some("round")),
            ("rond", Some("round")),
            ("\"flat\"", Some("flat")),
            ("falt", Some("flat")),
            ("varaible", Some("variable")),
            ("compact", None),
            ("", None),
        ] {
            assert_eq!(nearest(found, known).as_deref(), expected, "{found}");
        }
    }

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
