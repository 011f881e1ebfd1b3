//! Ids and short names that nothing else has.

use crate::Visit;

/// An id that no cockpit of the visit has: the wished one, or it with the next free number.
pub fn free_id(visit: &Visit, wished: &str) -> String {
    let taken = |id: &str| visit.cockpits().any(|cockpit| cockpit.id == id);
    let mut id = wished.to_owned();
    let mut number = 2_u32;
    while taken(&id) {
        id = format!("{wished}-{number}");
        number += 1;
    }
    id
}

/// The wished name, or it with the next free number.
pub fn free_label(wished: &str, taken: impl Fn(&str) -> bool) -> String {
    // the copy of a copy counts on; a name that just ends in a number is no copy
    let counted = wished.strip_suffix(')').and_then(|rest| rest.rsplit_once(" ("));
    let first = match counted {
        Some((first, number)) if number.parse::<u32>().is_ok() && taken(first) => first,
        _ => wished,
    };
    let numbered = (2_u32..).map(|number| format!("{first} ({number})"));
    core::iter::once(wished.to_owned())
        .chain(numbered)
        .find(|label| !taken(label))
        .unwrap_or_else(|| wished.to_owned())
}

/// A name that no other cockpit of the visit has, whatever its capitals, made of the wished one; `of` is
/// the cockpit that gets it, where it is there already.
pub fn free_label_among(visit: &Visit, of: Option<&str>, wished: &str) -> String {
    let plain = |label: &str| label.trim().to_lowercase();
    let others = || visit.cockpits().filter(|other| of != Some(other.id.as_str()));
    free_label(wished, |label| others().any(|other| plain(&other.label) == plain(label)))
}
