//! Reads who the clients are: sex, year of birth, readings, joints.

use super::expected::parts;
use fit_doc::{Dimension, Item, Sex};
use fit_units::{Field, parse};
use std::collections::BTreeMap;

/// What was asked of one client and read off the body.
#[derive(Debug, Clone, Default)]
pub(crate) struct Person {
    pub(crate) sex: Option<Sex>,
    pub(crate) born: i16,
    /// In the order of the file, mm (weight kg).
    pub(crate) readings: Vec<(Item, f64)>,
    /// How many of them were typed in inches.
    typed: usize,
    /// Neck, degrees.
    pub(crate) neck_deg: Option<f64>,
    /// Hips, left and right, degrees.
    pub(crate) hips_deg: Option<[f64; 2]>,
}

impl Person {
    /// The reading of an item.
    pub(crate) fn read(&self, item: impl Into<Item>) -> f64 {
        let item = item.into();
        self.readings.iter().find(|(of, _)| *of == item).unwrap_or_else(|| panic!("no {item}")).1
    }

    pub(crate) fn set(&mut self, item: Item, value: f64) {
        match self.readings.iter_mut().find(|(of, _)| *of == item) {
            Some(reading) => reading.1 = value,
            None => self.readings.push((item, value)),
        }
    }
}

/// Every client of the file by name; the one of no sex given also as a man and as a woman.
pub(crate) fn people(text: &str) -> BTreeMap<String, Person> {
    let mut all = BTreeMap::<String, Person>::new();
    let (mut name, mut inches) = (String::new(), false);
    for line in text.lines() {
        let line = line.split('#').next().unwrap().trim();
        if let Some(of) = line.strip_prefix("client ") {
            (name, inches) = (of.to_owned(), false);
            all.insert(name.clone(), Person::default());
        } else if line.starts_with("slip ") {
            name.clear();
        } else if !name.is_empty() && !line.is_empty() && parts(line).is_none() {
            let mut person = all[&name].clone();
            let line = match line.split_once("sixteenth:") {
                Some((like, typed)) => {
                    take(&mut person, like, &all);
                    inches = true;
                    typed
                }
                None => line,
            };
            if inches {
                typed_in_inches(&mut person, line);
            } else {
                take(&mut person, line, &all);
            }
            all.insert(name.clone(), person);
        }
    }
    for (name, sex) in [("as-man", Sex::Male), ("as-woman", Sex::Female)] {
        let person = Person { sex: Some(sex), ..all["no-sex-given"].clone() };
        all.insert(name.to_owned(), person);
    }
    all
}

/// What a line says of a person, piece by piece.
fn take(person: &mut Person, line: &str, all: &BTreeMap<String, Person>) {
    let line = line.split(" (").next().unwrap();
    for piece in line.split([',', ';']).map(str::trim) {
        let piece =
            ["but ", "with "].iter().fold(piece, |p, word| p.strip_prefix(word).unwrap_or(p));
        let words: Vec<&str> = piece.split(' ').collect();
        match words[..] {
            ["male"] => person.sex = Some(Sex::Male),
            ["female"] => person.sex = Some(Sex::Female),
            ["born", year] => person.born = year.parse().unwrap(),
            ["as", like] => {
                let like = &all[like];
                person.readings.clone_from(&like.readings);
            }
            ["neck", deg] => person.neck_deg = deg.parse().ok(),
            ["hip", deg, "left"] => person.hips_deg = Some([deg.parse().unwrap(), 0.0]),
            [deg, "right"] => person.hips_deg.as_mut().unwrap()[1] = deg.parse().unwrap(),
            ["not", "given"] | ["typed", ..] | [""] => {}
            [what, value] => person.set(item(what), value.parse().unwrap()),
            _ => panic!("“{piece}” says nothing"),
        }
    }
}

/// Readings in inches, one after the other in place of those of the client that this one is like,
/// weight left out.
fn typed_in_inches(person: &mut Person, line: &str) {
    let digits = |text: &&str| text.starts_with(|c: char| c.is_ascii_digit());
    for text in line.split([',', ';']).map(str::trim).filter(digits) {
        let typed = parse(&format!("{text} in"), &Field::MILLIMETRES, None).unwrap();
        let weight = Item::from(Dimension::Weight);
        let mut lengths = person.readings.iter_mut().filter(|(item, _)| *item != weight);
        lengths.nth(person.typed).unwrap().1 = typed.value();
        person.typed += 1;
    }
}

pub(crate) fn item(id: &str) -> Item {
    let items = [Item::Notch, Item::ShoulderToFist, Item::ShoulderJoints].into_iter();
    let dimensions = Dimension::ALL.into_iter().map(Item::from);
    items.chain(dimensions).find(|item| item.to_string() == id).unwrap_or_else(|| panic!("no {id}"))
}
