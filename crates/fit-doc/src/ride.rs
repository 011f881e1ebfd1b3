//! Trials: what was ridden in the room, what the model foretold of it, what was seen and what the client
//! said.
//!
//! The foretelling is of the cockpit that is ridden. Once something was told on the trial neither
//! changes any more, so that nobody can make it right afterwards. Degrees.

use crate::{Complaint, Concern, HandPlace, Reaches, Visit, Where};

/// Something that is foretold of a trial, and may be seen on it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum RideRow {
    /// Trunk above level, hip to shoulder, degrees.
    Trunk,
    /// Bend of the elbow, 0 straight, degrees.
    Elbow,
    /// Head lifted on the trunk to look ahead, degrees.
    Neck,
}

impl RideRow {
    /// All, in the order of the table.
    pub const ALL: [Self; 3] = [Self::Trunk, Self::Elbow, Self::Neck];
}

/// A number of a trial.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RideNumber {
    /// Of what.
    pub row: RideRow,
    /// With the hands there.
    pub place: HandPlace,
    /// Degrees.
    pub deg: f64,
}

/// Whether a hand is foretold to reach the brake from the drops.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct RideBrake {
    /// Which hand: left or right.
    pub side: Where,
    /// Whether the last joint of its index finger comes to lie on the blade.
    pub reaches: Reaches,
}

/// A complaint before and after.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct RideScore {
    /// What it is about.
    pub about: Concern,
    /// On which side.
    pub side: Where,
    /// With the hands where it shows.
    pub place: Option<HandPlace>,
    /// How bad before, 0–10; none: not asked by then.
    pub before: Option<u8>,
    /// How bad after; none: not asked yet.
    pub after: Option<u8>,
}

/// What the client makes of it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Liking {
    /// Likes it.
    Likes,
    /// Cannot say.
    Unsure,
    /// Does not.
    Dislikes,
}

impl Liking {
    /// All, the best first.
    pub const ALL: [Self; 3] = [Self::Likes, Self::Unsure, Self::Dislikes];
}

/// What a foretelling followed from that was put right since.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Corrected {
    /// The frame.
    Frame,
    /// A reading of the body, how far a joint goes, what gloves take off the reach, or the client's sex or
    /// year of birth.
    Body,
    /// What was seen of the client on the bike.
    Seen,
}

impl Corrected {
    /// All.
    pub const ALL: [Self; 3] = [Self::Frame, Self::Body, Self::Seen];
}

/// One trial.
#[derive(Debug, Clone, PartialEq)]
pub struct Ride {
    /// Id of the cockpit that is ridden.
    pub cockpit: String,
    /// For how many minutes.
    pub minutes: Option<u32>,
    /// Each complaint before and after.
    pub scores: Vec<RideScore>,
    /// What the model foretold when it began.
    pub foretold: Vec<RideNumber>,
    /// Of which hands it foretold whether they reach the brake: those not looked at on that cockpit by then.
    pub brakes: Vec<RideBrake>,
    /// What was seen on it.
    pub seen: Vec<RideNumber>,
    /// The client's own words.
    pub words: String,
    /// What the client makes of it; none: not asked yet.
    pub likes: Option<Liking>,
    /// It is over.
    pub ended: bool,
    /// It was of the cockpit as it came, which was corrected since: `cockpit` is a copy of what was
    /// ridden.
    pub as_it_came: bool,
    /// What was put right since, of all that the foretelling followed from: what it came to says
    /// nothing of the model any more.
    pub corrected: Vec<Corrected>,
}

impl Ride {
    /// A trial that begins: what is bad now is what the last trial left, or what the client came with. A
    /// score that was carried over from an earlier visit is neither.
    pub fn begun(
        cockpit: &str,
        complaints: &[Complaint],
        earlier: &[Self],
        (foretold, brakes): (Vec<RideNumber>, Vec<RideBrake>),
    ) -> Self {
        let score = |of: &Complaint| Self::score_before(earlier, of);
        Self {
            cockpit: cockpit.to_owned(),
            minutes: None,
            scores: complaints.iter().filter(|of| !of.about.is_wish()).map(score).collect(),
            foretold,
            brakes,
            seen: Vec::new(),
            words: String::new(),
            likes: None,
            ended: false,
            as_it_came: false,
            corrected: Vec::new(),
        }
    }

    /// A complaint as it is before a trial that comes after these.
    pub fn score_before(earlier: &[Self], of: &Complaint) -> RideScore {
        let before = Self::left(earlier, of).or(of.asked());
        RideScore { about: of.about, side: of.side, place: of.place, before, after: None }
    }

    /// Whether something was scored, seen or said on it; what was noted of the hands on its cockpit is told
    /// too ([`Visit::is_told`]).
    fn is_told(&self) -> bool {
        self.ended
            || self.scores.iter().any(|score| score.after.is_some())
            || !(self.seen.is_empty() && self.words.is_empty())
            || self.likes.is_some()
    }

    /// Whether what was foretold of it tells how well the model foretells: nothing that it followed from
    /// was put right since.
    pub fn foretelling_holds(&self) -> bool {
        self.corrected.is_empty()
    }

    /// How bad a complaint is after the last of these trials that asked of it; none: no one did.
    pub fn left(rides: &[Self], of: &Complaint) -> Option<u8> {
        let scores = rides.iter().rev().flat_map(|ride| &ride.scores);
        scores.filter(|score| score.is_of(of)).find_map(|score| score.after)
    }

    /// What was seen of a row with the hands in a place, degrees.
    pub fn seen_deg(&self, row: RideRow, place: HandPlace) -> Option<f64> {
        self.seen.iter().find(|of| of.row == row && of.place == place).map(|of| of.deg)
    }

    /// What was foretold of it, degrees.
    pub fn foretold_deg(&self, row: RideRow, place: HandPlace) -> Option<f64> {
        self.foretold.iter().find(|of| of.row == row && of.place == place).map(|of| of.deg)
    }
}

impl Visit {
    /// Whether something was scored, seen or said on a trial, or noted of a hand of which it foretold whether
    /// it reaches the brake: from then on it is of the cockpit as it is.
    pub fn is_told(&self, ride: &Ride) -> bool {
        ride.is_told() || ride.brakes.iter().any(|of| self.looked_at_hand(&ride.cockpit, of.side))
    }

    /// Whether it was looked at a hand on a cockpit: does it reach the brake from the drops?
    pub fn looked_at_hand(&self, cockpit: &str, side: Where) -> bool {
        let all = self.hand_checks.iter().filter(|check| check.cockpit == cockpit);
        all.map(|check| check.side).any(|of| [side, Where::Both].contains(&of))
    }
}

impl RideScore {
    /// Whether it is of that complaint.
    pub fn is_of(&self, of: &Complaint) -> bool {
        (self.about, self.side, self.place) == (of.about, of.side, of.place)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_trial_begins_where_the_last_one_left_the_client() {
        let neck = Complaint { score: Some(6), ..Complaint::about(Concern::Neck, Where::Both) };
        let hand = Complaint { score: Some(4), ..Complaint::about(Concern::Hands, Where::Left) };
        let foot = Complaint::about(Concern::Feet, Where::Right);
        let wish = Complaint::about(Concern::NewBar, Where::Both);
        let all = [neck, hand, foot, wish];
        let none = || (Vec::new(), Vec::new());
        let mut first = Ride::begun("a", &all, &[], none());
        let before = |ride: &Ride| ride.scores.iter().map(|of| of.before).collect::<Vec<_>>();
        assert_eq!(before(&first), [Some(6), Some(4), None], "a wish is not scored");
        first.scores[0].after = Some(3);
        let second = Ride::begun("b", &all, &[first.clone()], none());
        assert_eq!(before(&second), [Some(3), Some(4), None], "what was not asked stays");
        // the second was not asked at all: the first still holds
        let third = Ride::begun("c", &all, &[first, second], none());
        assert_eq!(before(&third), [Some(3), Some(4), None]);
        // what was said at an earlier visit was not asked at this one
        let carried = all.map(|of| Complaint { carried: of.score.is_some(), ..of });
        let later = Ride::begun("d", &carried, &[], none());
        assert_eq!(before(&later), [None, None, None]);
    }
}
