//! What changed: every number of a candidate against the cockpit as it came, and against the one
//! with the saddle put right, by its path.
//!
//! A path is the keys of the output joined by "/" ("places/drops/trunk"), an element of a list by
//! its index ("clamp/0"). Numbers keep the output's units. Lists of different length have no
//! elements in common, and neither has the drawn profile of a bar, whose points are wherever the
//! curve needed them. How much of a change is doubt is not said here.

use super::json::{JsonError, cockpit_values};
use super::output::Number;
use super::{Weighed, WeighedCockpit};
use serde_json::Value;
use std::collections::BTreeMap;

/// What is no change of a cockpit: lists whose elements are not the same thing in two of them, and
/// how well a number is known.
const NOT_COMPARED: [&str; 3] = ["profile", "sd", "settings"];

/// One candidate's changes.
#[derive(Debug, Clone, PartialEq)]
pub struct Deltas {
    /// Id of the candidate.
    pub cockpit: String,
    /// Id of the cockpit it is held against.
    pub against: String,
    /// Change by path, in the output's units: mm, degrees.
    pub values: BTreeMap<String, f64>,
}

/// The changes of every candidate against the cockpit as it came; where the saddle was put right,
/// then those of the other candidates against the one with the saddle put right.
///
/// # Errors
/// When a number is not finite, which a weighed bench never holds.
pub fn deltas(weighed: &Weighed) -> Result<Vec<Deltas>, JsonError> {
    let is_put_right = |of: &&WeighedCockpit| weighed.put_right.as_ref() == Some(&of.id);
    let put_right = weighed.cockpits.iter().find(is_put_right);
    let mut all = Vec::new();
    for baseline in weighed.as_it_came().into_iter().chain(put_right) {
        let before = cockpit_values(weighed, baseline)?;
        let others = weighed.cockpits.iter().filter(|c| !c.as_it_came && c.id != baseline.id);
        for candidate in others {
            all.push(against(weighed, baseline, &before, candidate)?);
        }
    }
    Ok(all)
}

fn against(
    weighed: &Weighed,
    came: &WeighedCockpit,
    before: &Value,
    candidate: &WeighedCockpit,
) -> Result<Deltas, JsonError> {
    let mut values = BTreeMap::new();
    walk("", before, &cockpit_values(weighed, candidate)?, &mut values);
    Ok(Deltas { cockpit: candidate.id.clone(), against: came.id.clone(), values })
}

/// Adds the change of every number that both have.
fn walk(path: &str, before: &Value, after: &Value, into: &mut BTreeMap<String, f64>) {
    let below = |key: &str| if path.is_empty() { key.to_owned() } else { format!("{path}/{key}") };
    match (before, after) {
        (Value::Object(before), Value::Object(after)) => {
            for (key, before) in before {
                if NOT_COMPARED.contains(&key.as_str()) {
                    continue;
                }
                if let Some(after) = after.get(key) {
                    walk(&below(key), before, after, into);
                }
            }
        }
        (Value::Array(before), Value::Array(after)) if before.len() == after.len() => {
            for (index, (before, after)) in before.iter().zip(after).enumerate() {
                walk(&below(&index.to_string()), before, after, into);
            }
        }
        (Value::Number(before), Value::Number(after)) => {
            if let (Some(before), Some(after)) = (before.as_f64(), after.as_f64()) {
                into.insert(path.to_owned(), Number(after - before).rounded());
            }
        }
        _ => {}
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use serde_json::json;

    #[test]
    fn numbers_that_both_have_are_found_by_their_path() {
        let before = json!({"a": 1.0, "b": {"c": [1.0, 2.0], "only": 4}, "name": "x", "n": null,
            "bar": {"profile": [[1.0]]}, "l": [1.0]});
        let after = json!({"a": 1.25, "b": {"c": [1.5, 2.0]}, "name": "y", "n": 3,
            "bar": {"profile": [[2.0]]}, "l": [1.0, 2.0]});
        let mut found = BTreeMap::new();
        walk("", &before, &after, &mut found);
        let want = [("a", 0.25), ("b/c/0", 0.5), ("b/c/1", 0.0)];
        assert_eq!(found, want.map(|(path, delta)| (path.to_owned(), delta)).into());
    }
}
