//! How a complaint goes from visit to visit and note to note of one bike, and over a visit's trials.

use crate::{Concern, HandPlace, Session, Visit, Where};
use jiff::civil::Date;

/// What a fall of a score makes it worth to stop at (common practice, no source).
pub const ENOUGH: u8 = 3;

/// Where a score was asked.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum ScoredAt {
    /// At a visit.
    Visit,
    /// After a trial of a visit, by its number from 1: that day's last word on it.
    Ride(usize),
    /// In a note after one.
    Note,
}

/// A score on a day.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Scored {
    /// The day.
    pub date: Date,
    /// How bad, 0–10.
    pub score: u8,
    /// Where it was asked.
    pub at: ScoredAt,
}

/// One complaint with all its scores, oldest first; of one day in the order in which they were asked.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Course {
    /// What it is about.
    pub about: Concern,
    /// On which side.
    pub side: Where,
    /// With the hands where it shows.
    pub place: Option<HandPlace>,
    /// Its scores; never empty.
    pub scores: Vec<Scored>,
}

impl Course {
    /// By how much it has fallen from first to last; negative: it has risen. None: asked once.
    pub fn fallen_by(&self) -> Option<i16> {
        let [first, .., last] = &self.scores[..] else { return None };
        Some(i16::from(first.score) - i16::from(last.score))
    }

    /// It has fallen far enough to let it be.
    pub fn is_enough(&self) -> bool {
        self.fallen_by().is_some_and(|by| by >= i16::from(ENOUGH))
    }
}

/// The courses of all complaints of the bike of a visit, over all its visits, what their trials came
/// to, and the notes after each, in the order in which they were first scored. A score that was carried over and not asked
/// yet is none; a wish has no score.
pub fn courses(session: &Session, visit: usize) -> Vec<Course> {
    let mut all: Vec<Course> = Vec::new();
    for at in session.visits_of_its_bike(visit) {
        let Some(visit) = session.visits.get(at) else { continue };
        let complaints = visit.complaints.iter().filter(|of| !of.about.is_wish());
        for of in complaints {
            let Some(score) = of.asked() else { continue };
            let score = Scored { date: visit.date, score, at: ScoredAt::Visit };
            add(&mut all, (of.about, of.side, of.place), score);
        }
        for (of, score) in after_trials(visit) {
            add(&mut all, of, score);
        }
        for note in &visit.afterwards {
            for of in &note.scores {
                let Some(score) = of.score else { continue };
                let score = Scored { date: note.date, score, at: ScoredAt::Note };
                add(&mut all, (of.about, of.side, of.place), score);
            }
        }
    }
    for course in &mut all {
        course.scores.sort_by_key(|scored| scored.date);
    }
    all
}

/// What a complaint is known by.
type Of = (Concern, Where, Option<HandPlace>);

/// What each complaint was scored after the last trial of the cockpit that the client left with. Other
/// trials are steps on the way, and told where the trials are.
fn after_trials(visit: &Visit) -> Vec<(Of, Scored)> {
    let mut all: Vec<(Of, Scored)> = Vec::new();
    for (index, ride) in visit.rides_that_count() {
        for score in &ride.scores {
            let Some(after) = score.after else { continue };
            let of = (score.about, score.side, score.place);
            let scored = Scored { date: visit.date, score: after, at: ScoredAt::Ride(index + 1) };
            match all.iter_mut().find(|(known, _)| *known == of) {
                Some((_, last)) => *last = scored,
                None => all.push((of, scored)),
            }
        }
    }
    all
}

fn add(all: &mut Vec<Course>, of: Of, score: Scored) {
    let same = |course: &&mut Course| (course.about, course.side, course.place) == of;
    if let Some(course) = all.iter_mut().find(same) {
        course.scores.push(score);
        return;
    }
    let (about, side, place) = of;
    all.push(Course { about, side, place, scores: vec![score] });
}
