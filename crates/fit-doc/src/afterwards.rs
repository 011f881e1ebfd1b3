//! What is heard of a client after a visit, without another one: a call after two weeks.

use crate::{Complaint, Concern, HandPlace, Visit, Where};
use jiff::civil::Date;

/// Whether the bike still is as it was left.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Default)]
pub enum AsBuilt {
    /// Nobody looked.
    #[default]
    NotLookedAt,
    /// Still as it was left.
    Same,
    /// Something was changed, or has moved.
    Changed,
}

impl AsBuilt {
    /// All, what is not known first.
    pub const ALL: [Self; 3] = [Self::NotLookedAt, Self::Same, Self::Changed];
}

/// How bad a complaint is by then.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct AfterScore {
    /// What it is about.
    pub about: Concern,
    /// On which side.
    pub side: Where,
    /// With the hands where it shows.
    pub place: Option<HandPlace>,
    /// How bad, 0–10; none: not asked.
    pub score: Option<u8>,
}

impl AfterScore {
    /// Whether it is of that complaint.
    pub fn is_of(&self, of: &Complaint) -> bool {
        (self.about, self.side, self.place) == (of.about, of.side, of.place)
    }
}

/// What was heard on one day.
#[derive(Debug, Clone, PartialEq)]
pub struct AfterNote {
    /// The day.
    pub date: Date,
    /// Ridden since the visit, km; none: not asked.
    pub km: Option<u32>,
    /// The complaints of the visit.
    pub scores: Vec<AfterScore>,
    /// Whether the bike still is as it was left.
    pub as_built: AsBuilt,
    /// The client's own words.
    pub words: String,
}

impl AfterNote {
    /// Nothing was asked or written in it yet.
    pub fn is_empty(&self) -> bool {
        self.km.is_none()
            && self.words.trim().is_empty()
            && self.as_built == AsBuilt::NotLookedAt
            && self.scores.iter().all(|of| of.score.is_none())
    }

    /// A note in which nothing was asked yet, of what was complained of at the visit; a wish has no
    /// score.
    pub fn begun(date: Date, visit: &Visit) -> Self {
        let score = |of: &Complaint| AfterScore {
            about: of.about,
            side: of.side,
            place: of.place,
            score: None,
        };
        let scored = visit.complaints.iter().filter(|of| !of.about.is_wish());
        Self {
            date,
            km: None,
            scores: scored.map(score).collect(),
            as_built: AsBuilt::NotLookedAt,
            words: String::new(),
        }
    }
}
