//! A visit: one appointment, with what was said, measured, tried and chosen.

use crate::{Cockpit, Mobility, Reading};
pub use fit_math::HandPlace;
use jiff::civil::Date;

/// Where on the body a complaint sits.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Region {
    /// Neck.
    Neck,
    /// Shoulders.
    Shoulders,
    /// Elbows and forearms.
    Arms,
    /// Hands and fingers.
    Hands,
    /// Low back.
    LowBack,
    /// Hips and groin.
    Hips,
    /// Where the saddle bears.
    Seat,
    /// Knees.
    Knees,
    /// Feet.
    Feet,
}

/// Which side a complaint is on.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Where {
    /// Left only.
    Left,
    /// Right only.
    Right,
    /// Both, or the middle.
    Both,
}

/// Something that hurts or goes numb.
#[derive(Debug, Clone, PartialEq)]
pub struct Complaint {
    /// Where on the body.
    pub region: Region,
    /// On which side.
    pub side: Where,
    /// In which hand place it shows, where it depends on one.
    pub place: Option<HandPlace>,
    /// After how many minutes it starts, where known.
    pub after_minutes: Option<u32>,
    /// How bad, 0–10.
    pub score: u8,
    /// The client's own words.
    pub words: String,
}

/// One appointment.
#[derive(Debug, Clone, PartialEq)]
pub struct Visit {
    /// The day.
    pub date: Date,
    /// Id of the bike that was looked at.
    pub bike: String,
    /// What was read off the body.
    pub body: Vec<Reading>,
    /// Joint ranges that were measured.
    pub mobility: Vec<Mobility>,
    /// What hurts.
    pub complaints: Vec<Complaint>,
    /// What the client wants, in the client's words.
    pub wishes: Vec<String>,
    /// The cockpit the client arrived with.
    pub as_it_came: Cockpit,
    /// The candidates, in the order of the bench.
    pub bench: Vec<Cockpit>,
    /// Id of the cockpit that was chosen.
    pub chosen: Option<String>,
    /// Anything worth remembering.
    pub notes: String,
}

impl Visit {
    /// As it came first, then the candidates.
    pub fn cockpits(&self) -> impl Iterator<Item = &Cockpit> {
        core::iter::once(&self.as_it_came).chain(&self.bench)
    }

    /// The cockpit with this id.
    pub fn cockpit(&self, id: &str) -> Option<&Cockpit> {
        self.cockpits().find(|cockpit| cockpit.id == id)
    }

    /// The same, to be changed.
    pub fn cockpit_mut(&mut self, id: &str) -> Option<&mut Cockpit> {
        let mut all = core::iter::once(&mut self.as_it_came).chain(&mut self.bench);
        all.find(|cockpit| cockpit.id == id)
    }
}
