//! The way to a place of the document through the keys and lists of this version's file.
//!
//! The file's keys are the document's fields but where they name a unit. Nothing is looked up here.

use crate::text::FileStep;
use fit_doc::{CockpitOn, Place, Step, Whole};

/// The way from the whole file; none to what is in no session.
pub(crate) fn file_way(place: &Place) -> Option<Vec<FileStep>> {
    use FileStep::{Either, Key, Nth};
    let mut way = match &*place.whole {
        Whole::Session => Vec::new(),
        Whole::Client => vec![Key("client")],
        Whole::Bike { index, .. } => vec![Key("bikes"), Nth(*index)],
        Whole::Visit(visit) => vec![Key("visits"), Nth(visit.index)],
        Whole::Cockpit { on: CockpitOn::Bike { index, .. }, .. } => {
            vec![Key("bikes"), Nth(*index), Key("cockpit")]
        }
        Whole::Cockpit { on: CockpitOn::Came(visit), .. } => {
            vec![Key("visits"), Nth(visit.index), Key("as_it_came")]
        }
        Whole::Cockpit { on: CockpitOn::Bench { visit, position }, .. } => {
            vec![Key("visits"), Nth(visit.index), Key("bench"), Nth(*position)]
        }
        Whole::Cockpit { on: CockpitOn::Nothing, .. } | Whole::Stock(_) => return None,
    };
    way.extend(place.way.iter().map(|step| match step {
        Step::Field("values") => Either("readings_mm", "readings_kg"),
        // of what the tape read
        Step::Field("value") => Either("mm", "deg"),
        Step::Field(name) => Key(name),
        Step::Nth(index) => Nth(*index),
    }));
    Some(way)
}
