//! Reads the inequalities: a path into the output, a relation, and numbers, words or other paths.

use serde_json::{Value, json};
use std::collections::BTreeMap;

/// Numbers closer than this are equal: rounding of what is printed.
const EQUAL: f64 = 1e-9;

/// One inequality.
pub(crate) struct Expectation {
    pub(crate) client: String,
    pub(crate) line: String,
    pub(crate) left: Side,
    pub(crate) relation: Relation,
    /// Any of them may hold.
    pub(crate) right: Vec<Side>,
}

#[derive(Clone, Copy)]
pub(crate) enum Relation {
    Equal,
    Less,
    Greater,
}

impl Relation {
    pub(crate) fn holds(self, left: &Value, right: &Value) -> bool {
        match (left.as_f64(), right.as_f64()) {
            (Some(left), Some(right)) => match self {
                Self::Equal => (left - right).abs() < EQUAL,
                Self::Less => left < right,
                Self::Greater => left > right,
            },
            _ => matches!(self, Self::Equal) && left == right,
        }
    }
}

/// One side of it.
pub(crate) enum Side {
    Word(String),
    Number(f64),
    /// Of a client (none: the block's own) a place in the output, and what is added to it.
    Path {
        client: Option<String>,
        path: String,
        plus: f64,
    },
}

/// Every inequality of the file, with the client whose block it stands in.
pub(crate) fn read(text: &str) -> Vec<Expectation> {
    let mut client = String::new();
    let mut all = Vec::new();
    for line in text.lines() {
        let line = line.split('#').next().unwrap().trim();
        if let Some(name) = line.strip_prefix("client ") {
            name.clone_into(&mut client);
        } else if let Some((left, relation, right)) = parts(line) {
            let right = right.split(" | ").map(side).collect();
            let (client, line) = (client.clone(), line.to_owned());
            all.push(Expectation { client, line, left: side(left), relation, right });
        }
    }
    all
}

/// Left, relation and right, where the line is an inequality.
pub(crate) fn parts(line: &str) -> Option<(&str, Relation, &str)> {
    let relations = [(" = ", Relation::Equal), (" < ", Relation::Less), (" > ", Relation::Greater)];
    relations.into_iter().find_map(|(sign, relation)| {
        let (left, right) = line.split_once(sign)?;
        Some((left.trim(), relation, right.trim()))
    })
}

fn side(text: &str) -> Side {
    let text = text.trim();
    if let Ok(number) = text.parse() {
        return Side::Number(number);
    }
    let (path, plus) = [(" + ", 1.0), (" - ", -1.0)]
        .into_iter()
        .find_map(|(sign, factor)| {
            let (path, number) = text.split_once(sign)?;
            Some((path, factor * number.parse::<f64>().unwrap()))
        })
        .unwrap_or((text, 0.0));
    let (client, path) = match path.split_once(':') {
        Some((client, path)) => (Some(client.to_owned()), path),
        None => (None, path),
    };
    // a word has no place in the output
    if client.is_none() && !path.contains('/') && !["first_width", "doubtful"].contains(&path) {
        return Side::Word(path.to_owned());
    }
    Side::Path { client, path: path.to_owned(), plus }
}

impl Side {
    /// What stands there, for the client whose block it is.
    pub(crate) fn value(
        &self,
        own: &str,
        outputs: &BTreeMap<String, Value>,
    ) -> Result<Value, String> {
        match self {
            Self::Word(word) => Ok(match word.as_str() {
                "true" => json!(true),
                "false" => json!(false),
                word => json!(word),
            }),
            Self::Number(number) => Ok(json!(number)),
            Self::Path { client, path, plus } => {
                let name = client.as_deref().unwrap_or(own);
                let output = outputs.get(name).ok_or_else(|| format!("no client {name}"))?;
                let found = found(output, path).ok_or_else(|| format!("no {path} of {name}"))?;
                Ok(match (found.as_f64(), found.as_array()) {
                    (Some(number), _) => json!(number + plus),
                    (_, Some(list)) => json!(list.len()),
                    _ => found,
                })
            }
        }
    }
}

/// A place in the output; one that begins with a cockpit's id is that cockpit's.
fn found(output: &Value, path: &str) -> Option<Value> {
    let (first, rest) = path.split_once('/').unwrap_or((path, ""));
    let cockpits = output["cockpits"].as_array()?;
    let (at, path) = match cockpits.iter().find(|cockpit| cockpit["id"] == first) {
        Some(cockpit) => (cockpit, format!("/{rest}")),
        None => (output, format!("/{path}")),
    };
    at.pointer(&path).cloned()
}
