//! In what two states of a session differ, as a fitter would tell it: what was saved, and what was not.
//!
//! Visits are held against each other by their order, cockpits and bikes by their ids. What differs in
//! more than one number is told by its name; nothing is told twice.

use crate::edit::cockpit_number;
use crate::{Bike, Cockpit, Quantity, Session, Visit};
use jiff::civil::Date;

/// The numbers of a cockpit that are told by themselves.
const NUMBERS: &[Quantity] = &[
    Quantity::StemLength,
    Quantity::StemAngle,
    Quantity::Spacers,
    Quantity::Roll,
    Quantity::BarWidthAtHoods,
    Quantity::BarReach,
    Quantity::BarDrop,
    Quantity::HandInDrops,
    Quantity::SaddleHeight,
    Quantity::NoseBehind,
    Quantity::SaddleTilt,
];

/// More numbers than these of one cockpit are told by its name alone.
const MOST_NUMBERS: usize = 3;

/// A part of what is noted of a visit.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Record {
    /// The day or the bike.
    Day,
    /// What was read off the body or seen.
    Body,
    /// What was asked, what brought the client and what was looked at.
    Interview,
    /// What was read off the bike.
    Tape,
    /// What a cockpit is looked for, and what it may not leave.
    Aims,
    /// Trials.
    Trials,
    /// What was decided.
    Decision,
    /// What was heard afterwards.
    Afterwards,
    /// Notes.
    Notes,
}

/// One difference between what there was and what there is.
#[derive(Debug, Clone, PartialEq)]
pub enum Differs {
    /// Name, sex, year of birth, notes of the client, or how long they are kept.
    Client,
    /// A bike was added.
    BikeMore(String),
    /// A bike was changed.
    Bike(String),
    /// A visit was added.
    VisitMore(Date),
    /// A visit was taken away.
    VisitLess(Date),
    /// A cockpit was added to a bench.
    CockpitMore(String),
    /// A cockpit was taken from a bench.
    CockpitLess(String),
    /// A number of a cockpit.
    Number {
        /// What the cockpit is called.
        label: String,
        /// Which number.
        quantity: Quantity,
        /// What it was, mm or degrees.
        from: f64,
        /// What it is, mm or degrees.
        to: f64,
    },
    /// A cockpit was changed in more than that.
    Cockpit(String),
    /// Part of what is noted of the visit of that day.
    Visit(Date, Record),
}

/// In what a session differs from what there was, in the order of the session; empty where it is equal.
pub fn differences(was: &Session, is: &Session) -> Vec<Differs> {
    let mut all = Vec::new();
    if (&was.client, was.keep_until) != (&is.client, is.keep_until) {
        all.push(Differs::Client);
    }
    for bike in &is.bikes {
        let name = || bike.name.clone();
        match was.bike(&bike.id) {
            None => all.push(Differs::BikeMore(name())),
            Some(before) => all.extend(bike_differs(before, bike)),
        }
    }
    for (at, visit) in is.visits.iter().enumerate() {
        match was.visits.get(at) {
            None => all.push(Differs::VisitMore(visit.date)),
            Some(before) => visit_differs(before, visit, &mut all),
        }
    }
    let gone = was.visits.iter().skip(is.visits.len());
    all.extend(gone.map(|visit| Differs::VisitLess(visit.date)));
    if all.is_empty() && was != is {
        // ids, or the order of what is otherwise equal
        all.push(Differs::Client);
    }
    all
}

fn bike_differs(was: &Bike, is: &Bike) -> Option<Differs> {
    (was != is).then(|| Differs::Bike(is.name.clone()))
}

fn visit_differs(was: &Visit, is: &Visit, all: &mut Vec<Differs>) {
    if was == is {
        return;
    }
    all.extend(cockpit_differs(&was.as_it_came, &is.as_it_came));
    for cockpit in &is.bench {
        match was.bench.iter().find(|before| before.id == cockpit.id) {
            None => all.push(Differs::CockpitMore(cockpit.label.clone())),
            Some(before) => all.extend(cockpit_differs(before, cockpit)),
        }
    }
    let gone = |before: &&Cockpit| is.bench.iter().all(|cockpit| cockpit.id != before.id);
    let gone = was.bench.iter().filter(gone);
    all.extend(gone.map(|before| Differs::CockpitLess(before.label.clone())));
    let same = |of: Record| match of {
        Record::Day => {
            (was.date, &was.bike, was.client_then) == (is.date, &is.bike, is.client_then)
        }
        Record::Body => {
            let of = |v: &Visit| (v.body.clone(), v.mobility.clone(), v.seen.clone());
            of(was) == of(is) && was.hand_checks == is.hand_checks && was.glove_mm == is.glove_mm
        }
        Record::Interview => {
            was.interview == is.interview
                && was.complaints == is.complaints
                && was.ruled_out == is.ruled_out
                && was.wishes == is.wishes
        }
        Record::Tape => was.tape == is.tape && was.put_right == is.put_right,
        Record::Aims => was.wanted == is.wanted && was.bounds == is.bounds,
        Record::Trials => was.rides == is.rides,
        Record::Decision => {
            (&was.chosen, was.elsewhere, &was.vetoes) == (&is.chosen, is.elsewhere, &is.vetoes)
                && was.hour == is.hour
                && was.built == is.built
        }
        Record::Afterwards => was.afterwards == is.afterwards,
        Record::Notes => was.notes == is.notes,
    };
    let records = [
        Record::Day,
        Record::Body,
        Record::Interview,
        Record::Tape,
        Record::Aims,
        Record::Trials,
        Record::Decision,
        Record::Afterwards,
        Record::Notes,
    ];
    let noted = records.into_iter().filter(|&of| !same(of));
    all.extend(noted.map(|of| Differs::Visit(is.date, of)));
}

fn cockpit_differs(was: &Cockpit, is: &Cockpit) -> Vec<Differs> {
    if was == is {
        return Vec::new();
    }
    let number = |&quantity: &Quantity| {
        let (from, to) = (cockpit_number(was, quantity)?, cockpit_number(is, quantity)?);
        let label = is.label.clone();
        (from != to).then_some(Differs::Number { label, quantity, from, to })
    };
    let numbers: Vec<Differs> = NUMBERS.iter().filter_map(number).collect();
    // a part that was changed in a number is another part by its id
    let same_otherwise =
        (&was.label, &was.levers, was.ridden) == (&is.label, &is.levers, is.ridden);
    if numbers.is_empty() || numbers.len() > MOST_NUMBERS || !same_otherwise {
        return vec![Differs::Cockpit(is.label.clone())];
    }
    numbers
}
