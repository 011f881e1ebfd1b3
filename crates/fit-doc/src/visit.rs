//! A visit: one appointment, with what was said, measured, tried and chosen.

use crate::concern::Outcome;
use crate::{
    AfterNote, Bounds, ClientThen, Cockpit, Concern, Dimension, Interview, Looked, Mobility, Price,
    Reading, Ride, RuleOut, RuledOut, Tape, Wanted,
};
pub use fit_math::HandPlace;
pub use fit_math::hand::{FingerPart, Reaches};
use jiff::civil::Date;

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

/// Something that brought the client: what hurts, what does not work, what is wished.
#[derive(Debug, Clone, PartialEq)]
pub struct Complaint {
    /// What it is about.
    pub about: Concern,
    /// On which side.
    pub side: Where,
    /// In which hand place it shows, where it depends on one.
    pub place: Option<HandPlace>,
    /// After how many minutes it starts, where known.
    pub after_minutes: Option<u32>,
    /// How bad, 0–10; none: not asked yet.
    pub score: Option<u8>,
    /// The client's own words.
    pub words: String,
    /// Since when, in the client's words; empty: not asked.
    pub since: String,
    /// The score is the last one of an earlier visit: nobody has asked at this one yet.
    pub carried: bool,
}

impl Complaint {
    /// Whether it is of the same thing, on the same side, with the hands in the same place.
    pub fn is_same(&self, of: &Self) -> bool {
        (self.about, self.side, self.place) == (of.about, of.side, of.place)
    }

    /// How bad it is as was asked at this visit, 0–10; none: not asked yet.
    pub fn asked(&self) -> Option<u8> {
        self.score.filter(|_| !self.carried)
    }

    /// A complaint of which nothing is known yet.
    pub fn about(about: Concern, side: Where) -> Self {
        Self {
            about,
            side,
            place: None,
            after_minutes: None,
            score: None,
            words: String::new(),
            since: String::new(),
            carried: false,
        }
    }
}

/// What was seen of the client on one cockpit, hands in one place; each calibrates the model.
#[derive(Debug, Clone, PartialEq)]
pub struct Seen {
    /// Id of the cockpit.
    pub cockpit: String,
    /// Where the hands were.
    pub place: HandPlace,
    /// Trunk above level, hip to shoulder, degrees.
    pub trunk_deg: Option<f64>,
    /// Bend of the elbow, 0 straight, degrees.
    pub elbow_deg: Option<f64>,
    /// Head lifted on the trunk, degrees.
    pub neck_deg: Option<f64>,
    /// Bend of the knee at the bottom of the stroke, 0 straight, degrees.
    pub knee_deg: Option<f64>,
    /// How far the client slides forward on the saddle there, mm.
    pub slide_mm: Option<f64>,
}

/// Whether a hand was seen to reach the brake from the drops.
#[derive(Debug, Clone, PartialEq)]
pub struct HandCheck {
    /// Id of the cockpit.
    pub cockpit: String,
    /// Which hand.
    pub side: Where,
    /// Which part of its index finger was looked at.
    pub part: FingerPart,
    /// Whether that comes to lie on the blade.
    pub reaches: Reaches,
}

/// Where the answer lies when it is not the bar.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Elsewhere {
    /// In the saddle, the feet, the brakes, or the client.
    NotTheBar,
    /// In the frame.
    TheFrame,
}

impl Elsewhere {
    /// Both.
    pub const ALL: [Self; 2] = [Self::NotTheBar, Self::TheFrame];
}

/// A cockpit that the client will not have, whatever is computed of it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Veto {
    /// Id of the cockpit.
    pub cockpit: String,
    /// Why, in the client's words; empty: not said.
    pub words: String,
}

/// One appointment.
#[derive(Debug, Clone, PartialEq)]
pub struct Visit {
    /// The day.
    pub date: Date,
    /// Id of the bike that was looked at.
    pub bike: String,
    /// What the visit was weighed with, where sex or year of birth were changed after it was closed;
    /// none: as the client is known now.
    pub client_then: Option<ClientThen>,
    /// What was read off the body.
    pub body: Vec<Reading>,
    /// Joint ranges that were measured.
    pub mobility: Vec<Mobility>,
    /// What was seen of the client on a cockpit.
    pub seen: Vec<Seen>,
    /// Which hands were seen to reach the brake.
    pub hand_checks: Vec<HandCheck>,
    /// What gloves take off the fingers' reach, mm.
    pub glove_mm: f64,
    /// What the client was asked besides.
    pub interview: Interview,
    /// What brought the client.
    pub complaints: Vec<Complaint>,
    /// What was looked at before any bar, nothing twice.
    pub ruled_out: Vec<RuledOut>,
    /// What the client wants, in the client's words.
    pub wishes: Vec<String>,
    /// What a cockpit is looked for, no aim twice with the hands in one place; empty: what follows from
    /// what brought the client.
    pub wanted: Vec<Wanted>,
    /// What an answer may not leave.
    pub bounds: Bounds,
    /// The cockpit the client arrived with.
    pub as_it_came: Cockpit,
    /// What was read off it with the tape.
    pub tape: Tape,
    /// The candidates, in the order of the bench.
    pub bench: Vec<Cockpit>,
    /// Id of the cockpit on the bench that is as it came with the saddle put right: a second one to
    /// compare with.
    pub put_right: Option<String>,
    /// The trials, in the order in which they were ridden.
    pub rides: Vec<Ride>,
    /// Id of the cockpit that was chosen.
    pub chosen: Option<String>,
    /// What was read with the tape off what the client left with, once it was built.
    pub built: Tape,
    /// What was heard of the client afterwards, in the order in which it was noted.
    pub afterwards: Vec<AfterNote>,
    /// Where the answer lies, if it is not the bar; a cockpit may be chosen beside it, such as the
    /// one as it came with the saddle put right.
    pub elsewhere: Option<Elsewhere>,
    /// What the client will not have, no cockpit twice.
    pub vetoes: Vec<Veto>,
    /// What an hour in the workshop costs; none: only the time is told.
    pub hour: Option<Price>,
    /// Anything worth remembering.
    pub notes: String,
}

impl Visit {
    /// Nothing was read off the body that says how long anything is: a weight alone does not.
    pub fn body_is_unread(&self) -> bool {
        self.body.iter().all(|of| of.item == Dimension::Weight.into())
    }

    /// A visit at which nothing was asked, measured or tried yet.
    pub fn new(date: Date, bike: String, as_it_came: Cockpit) -> Self {
        Self {
            date,
            bike,
            client_then: None,
            body: Vec::new(),
            mobility: Vec::new(),
            seen: Vec::new(),
            hand_checks: Vec::new(),
            glove_mm: 0.0,
            interview: Interview::default(),
            complaints: Vec::new(),
            ruled_out: Vec::new(),
            wishes: Vec::new(),
            wanted: Vec::new(),
            bounds: Bounds::default(),
            as_it_came,
            tape: Tape::default(),
            bench: Vec::new(),
            put_right: None,
            rides: Vec::new(),
            chosen: None,
            built: Tape::default(),
            afterwards: Vec::new(),
            elsewhere: None,
            vetoes: Vec::new(),
            hour: None,
            notes: String::new(),
        }
    }

    /// As it came first, then the candidates.
    pub fn cockpits(&self) -> impl Iterator<Item = &Cockpit> {
        core::iter::once(&self.as_it_came).chain(&self.bench)
    }

    /// What became of something that is ruled out first; none: nobody looked at it yet.
    pub fn looked(&self, item: RuleOut) -> Option<Looked> {
        self.ruled_out.iter().find(|of| of.item == item).map(|of| of.looked)
    }

    /// What came of it; none: not decided.
    pub fn outcome(&self) -> Option<Outcome> {
        let chosen = || self.chosen.as_ref();
        match self.elsewhere {
            Some(Elsewhere::NotTheBar) => Some(Outcome::NotTheBar),
            Some(Elsewhere::TheFrame) => Some(Outcome::TheFrame),
            None if *chosen()? == self.as_it_came.id => Some(Outcome::AsItIs),
            None => Some(Outcome::Cockpit),
        }
    }

    /// Why the client will not have a cockpit; none: nothing was said against it.
    pub fn veto(&self, cockpit: &str) -> Option<&str> {
        self.vetoes.iter().find(|of| of.cockpit == cockpit).map(|of| of.words.as_str())
    }

    /// The cockpit that is on the bike now: the one that is ridden or was ridden last, else the one
    /// as it came.
    pub fn on_the_bike(&self) -> &Cockpit {
        let last = self.rides.last().and_then(|ride| self.cockpit(&ride.cockpit));
        last.unwrap_or(&self.as_it_came)
    }

    /// The last trial that is over, and its place among them.
    pub fn last_trial(&self) -> Option<(usize, &Ride)> {
        self.rides.iter().enumerate().rfind(|(_, ride)| ride.ended)
    }

    /// The trial that is running, with its place among them.
    pub fn ride(&self) -> Option<(usize, &Ride)> {
        let last = self.rides.len().checked_sub(1)?;
        self.rides.get(last).filter(|ride| !ride.ended).map(|ride| (last, ride))
    }

    /// Whether a trial was of a cockpit, also of the one as it came before that was corrected.
    pub fn is_ride_of(&self, ride: &Ride, cockpit: &str) -> bool {
        ride.cockpit == cockpit || ride.as_it_came && cockpit == self.as_it_came.id
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
