//! Where in a document something is: the object, and the way through its fields to the one value.
//!
//! Objects are named twice: by where they stand in the document's lists, so that a file or a window
//! can find the one that is meant, and by the name that a person knows. The way is given in the
//! document's own field names. Nothing is worded here, and nothing knows of lines.

use crate::{Bike, Cockpit, Session, Visit};
use jiff::civil::Date;

/// Which object of the document.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub enum Whole {
    /// The session itself.
    Session,
    /// The client's own data.
    Client,
    /// A bike.
    Bike {
        /// Its number in the list of bikes, from 0.
        index: usize,
        /// What the client calls it.
        name: String,
    },
    /// A visit.
    Visit(VisitPlace),
    /// A cockpit.
    Cockpit {
        /// Whose it is.
        on: CockpitOn,
        /// Its label.
        label: String,
    },
    /// A stock item, by its number.
    Stock(String),
}

/// Which visit.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub struct VisitPlace {
    /// Its number in the list of visits, from 0.
    pub index: usize,
    /// Its day.
    pub date: Date,
    /// It is the latest one, so that its day need not be said.
    pub latest: bool,
}

/// Whose cockpit.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub enum CockpitOn {
    /// The one last known to be on a bike.
    Bike {
        /// The bike's number in the list of bikes, from 0.
        index: usize,
        /// What the client calls the bike.
        name: String,
    },
    /// The one that a visit began with.
    Came(VisitPlace),
    /// A candidate on a visit's bench.
    Bench {
        /// The visit.
        visit: VisitPlace,
        /// Its number on the bench, from 0.
        position: usize,
    },
    /// One that stands in no document yet.
    Nothing,
}

/// One step towards a value.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Step {
    /// Into a field of the document, by its name.
    Field(&'static str),
    /// Into a list or a pair, counted from 0.
    Nth(usize),
}

/// Where something is.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub struct Place {
    /// The object; boxed, since every message carries a place.
    pub whole: Box<Whole>,
    /// The way from it to what is meant; empty where the object itself is.
    pub way: Vec<Step>,
}

/// Longest name that a place repeats, characters; a document may hold a name of any length and
/// many things to say about what carries it.
const LONGEST_NAME: usize = 80;

impl From<Whole> for Place {
    fn from(whole: Whole) -> Self {
        Self { whole: Box::new(whole), way: Vec::new() }
    }
}

impl Place {
    /// The session itself.
    pub fn session() -> Self {
        Whole::Session.into()
    }

    /// The client's own data.
    pub fn client() -> Self {
        Whole::Client.into()
    }

    /// A bike; its name is cut where it is very long, and so are all below.
    pub fn bike(index: usize, bike: &Bike) -> Self {
        Whole::Bike { index, name: cut(&bike.name) }.into()
    }

    /// The cockpit of a bike.
    pub fn bike_cockpit(index: usize, bike: &Bike) -> Self {
        let on = CockpitOn::Bike { index, name: cut(&bike.name) };
        Whole::Cockpit { on, label: cut(&bike.cockpit.label) }.into()
    }

    /// A visit of a session.
    pub fn visit(session: &Session, visit: &Visit) -> Self {
        Whole::Visit(VisitPlace::of(session, visit)).into()
    }

    /// A cockpit of a visit: number 0 is the one as it came, the bench follows.
    pub fn visit_cockpit(visit: VisitPlace, number: usize, cockpit: &Cockpit) -> Self {
        let on = match number.checked_sub(1) {
            None => CockpitOn::Came(visit),
            Some(position) => CockpitOn::Bench { visit, position },
        };
        Whole::Cockpit { on, label: cut(&cockpit.label) }.into()
    }

    /// A cockpit that stands in no document yet, by its label.
    pub fn cockpit(label: &str) -> Self {
        Whole::Cockpit { on: CockpitOn::Nothing, label: cut(label) }.into()
    }

    /// A stock item, by its number.
    pub fn stock(id: &str) -> Self {
        Whole::Stock(cut(id)).into()
    }

    /// One field further.
    #[must_use]
    pub fn field(&self, name: &'static str) -> Self {
        self.step(Step::Field(name))
    }

    /// One element further, counted from 0.
    #[must_use]
    pub fn nth(&self, index: usize) -> Self {
        self.step(Step::Nth(index))
    }

    fn step(&self, step: Step) -> Self {
        let mut further = self.clone();
        further.way.push(step);
        further
    }

    /// The name of the last field on the way.
    pub fn last_field(&self) -> Option<&'static str> {
        self.way.iter().rev().find_map(|step| match step {
            Step::Field(name) => Some(*name),
            Step::Nth(_) => None,
        })
    }

    /// Whether the way leads through this field.
    pub fn passes(&self, name: &str) -> bool {
        self.way.iter().any(|step| matches!(step, Step::Field(field) if *field == name))
    }
}

impl VisitPlace {
    /// A visit of a session; one that is not in its list stands behind the last.
    pub fn of(session: &Session, visit: &Visit) -> Self {
        let index = session.index_of(visit);
        let latest = session.latest_visit().is_some_and(|latest| core::ptr::eq(latest, visit));
        Self { index: index.unwrap_or(session.visits.len()), date: visit.date, latest }
    }
}

fn cut(name: &str) -> String {
    match name.char_indices().nth(LONGEST_NAME) {
        Some((at, _)) => format!("{}…", &name[..at]),
        None => name.to_owned(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_place_repeats_no_endless_name() {
        let label = |name: &str| match *Place::cockpit(name).whole {
            Whole::Cockpit { label, .. } => label,
            other => panic!("{other:?}"),
        };
        assert_eq!(label("road"), "road");
        assert_eq!(label(&"é".repeat(80)), "é".repeat(80));
        assert_eq!(label(&"é".repeat(81)), "é".repeat(80) + "…");
    }

    #[test]
    fn the_way_is_walked_step_by_step() {
        let place = Place::client().field("levers").field("left").field("along_mm").nth(1);
        assert_eq!(place.last_field(), Some("along_mm"));
        assert!(place.passes("left") && !place.passes("right"));
        assert_eq!(place.way.len(), 4);
    }
}
