//! A visit after another one of the same bike: which comes before which, and with what it begins.
//!
//! Visits are told apart by where they stand in the session. Of two of one bike the one with the
//! later day follows, of two on one day the one that stands further back.

use crate::tape::differs;
use crate::{Bounds, Cockpit, Complaint, Date, Interview, Ride, Session, Tape, Visit};
use fit_math::body::GROWN_UP_YEARS;

impl Session {
    /// The visit of the same bike that came last before this one.
    pub fn earlier(&self, index: usize) -> Option<usize> {
        let own = self.when(index)?;
        self.of_its_bike(index).filter(|of| *of < own).max().map(|(_, at)| at)
    }

    /// That visit itself, before one of this session.
    pub fn before(&self, visit: &Visit) -> Option<&Visit> {
        let at = self.earlier(self.index_of(visit)?)?;
        self.visits.get(at).map(AsRef::as_ref)
    }

    /// What the client left the visit before with, where something that slips by itself is otherwise on the
    /// bike as it came to this one: what it is put back to.
    pub fn slipped_from(&self, visit: &Visit) -> Option<&Cockpit> {
        let left = self.before(visit)?.left();
        (!differs(left, &visit.as_it_came).is_empty()).then_some(left)
    }

    /// The visit of the same bike that came first after this one.
    pub fn later(&self, index: usize) -> Option<usize> {
        let own = self.when(index)?;
        self.of_its_bike(index).filter(|of| *of > own).min().map(|(_, at)| at)
    }

    /// All visits of the same bike in the order of time, this one among them.
    pub fn visits_of_its_bike(&self, index: usize) -> Vec<usize> {
        let mut all: Vec<_> = self.of_its_bike(index).collect();
        all.sort();
        all.into_iter().map(|(_, at)| at).collect()
    }

    /// Which of the visits of its bike on its day one is, from 1; none where it is the only one.
    pub fn number_that_day(&self, index: usize) -> Option<usize> {
        let (day, _) = self.when(index)?;
        let mut all: Vec<_> = self.of_its_bike(index).filter(|(date, _)| *date == day).collect();
        all.sort();
        let at = all.iter().position(|(_, at)| *at == index)?;
        (all.len() > 1).then_some(at + 1)
    }

    /// Whether a visit is a follow-up at which nothing was entered yet: it is what it would be were it
    /// begun now. What was heard since of the visit before it was not entered at this one.
    pub fn is_just_begun(&self, index: usize) -> bool {
        let before = self.earlier(index).and_then(|at| self.visits.get(at));
        let (Some(visit), Some(before)) = (self.visits.get(index), before) else { return false };
        let born = before.client_then.map_or(self.client.born, |then| then.born);
        let mut anew = follow_up(before, visit.date, born);
        for (of, carried) in anew.complaints.iter_mut().zip(&visit.complaints) {
            if of.asked().is_none() && carried.asked().is_none() {
                (of.score, of.carried) = (carried.score, carried.carried);
            }
        }
        self.later(index).is_none() && anew == **visit
    }

    /// Id of the bike that stands for all that are the same one.
    fn one_bike<'a>(&'a self, id: &'a str) -> &'a str {
        let mut one = id;
        // a loop in a file edited by hand ends as well
        for _ in &self.bikes {
            let Some(other) = self.bike(one).and_then(|bike| bike.same_as.as_deref()) else {
                break;
            };
            one = other;
        }
        one
    }

    /// Whether two bikes are one, known by other numbers at one visit than at another.
    pub fn is_same_bike(&self, one: &str, other: &str) -> bool {
        self.one_bike(one) == self.one_bike(other)
    }

    fn when(&self, index: usize) -> Option<(Date, usize)> {
        self.visits.get(index).map(|visit| (visit.date, index))
    }

    fn of_its_bike(&self, index: usize) -> impl Iterator<Item = (Date, usize)> {
        let bike = self.visits.get(index).map(|visit| self.one_bike(&visit.bike));
        let all = self.visits.iter().enumerate();
        all.filter(move |(_, visit)| Some(self.one_bike(&visit.bike)) == bike)
            .map(|(at, visit)| (visit.date, at))
    }
}

impl Visit {
    /// The cockpit that the client left with: the chosen one, or the one as it came where nothing
    /// was chosen.
    pub fn left(&self) -> &Cockpit {
        let chosen = self.chosen.as_ref().and_then(|id| self.cockpit(id));
        chosen.unwrap_or(&self.as_it_came)
    }

    /// The trials that tell how the client left, each with its place among all: those of the cockpit
    /// that the client left with. What a trial of another one came to says nothing of the one that is
    /// ridden now.
    pub fn rides_that_count(&self) -> impl Iterator<Item = (usize, &Ride)> {
        let left = &self.left().id;
        self.rides.iter().enumerate().filter(move |(_, ride)| self.is_ride_of(ride, left))
    }

    /// How bad a complaint is after the last of them that asked of it; none: no one did.
    pub fn left_after_trials(&self, of: &Complaint) -> Option<u8> {
        let scores = self.rides_that_count().flat_map(|(_, ride)| &ride.scores);
        scores.filter(|score| score.is_of(of)).filter_map(|score| score.after).last()
    }

    /// How bad a complaint was when it was last asked: in a note after the visit, on a trial of the
    /// cockpit that the client left with, else at the visit itself. None: nobody ever asked.
    pub fn last_score(&self, of: &Complaint) -> Option<u8> {
        let mut notes: Vec<_> = self.afterwards.iter().collect();
        notes.sort_by_key(|note| note.date);
        let noted = notes.into_iter().flat_map(|note| &note.scores);
        let mut noted = noted.filter(|score| score.is_of(of)).filter_map(|score| score.score);
        noted.next_back().or_else(|| self.left_after_trials(of)).or(of.score)
    }
}

/// The visit that follows this one on a day, nothing asked or measured yet.
///
/// What is true of the client and was asked once is carried over; what may have become another since is
/// empty, so that nobody takes it for asked today:
/// - the bike as it came is what the client left with, until the tape says that it is not;
/// - a complaint begins with its last score, and stands as not asked yet; since when it is stays, after how
///   many minutes it starts and the client's words are of the day on which they were told;
/// - body and mobility stay, but for a child, who grows and is measured again;
/// - gloves, what is ridden, glasses and helmet, injuries, fears, wishes, consent, the price of an hour and
///   what an answer may not leave stay until said otherwise, but for money and minutes;
/// - red flags, what was ruled out, what was changed before, hours and shares of the time are asked
///   anew: they are what a visit is there to find changed;
/// - what was seen of the client and of the hands at the brakes was seen on that cockpit as it was then:
///   one that has slipped since would be taken for the body's doing. It is looked at again;
/// - of the tape only how the bar is known stays, and that the frame is known where it was read before.
pub(crate) fn follow_up(visit: &Visit, date: Date, born: Option<i16>) -> Visit {
    let came = &visit.as_it_came;
    let left = Cockpit { ridden: true, ..visit.left().with_name(&came.id, &came.label) };
    let grows = born.is_some_and(|born| i64::from(date.year() - born) < i64::from(GROWN_UP_YEARS));
    let complaint = |of: &Complaint| {
        let score = visit.last_score(of);
        let carried = score.is_some() && !of.about.is_wish();
        Complaint { score, carried, after_minutes: None, words: String::new(), ..of.clone() }
    };
    let asked = &visit.interview;
    let mut new = Visit::new(date, visit.bike.clone(), left);
    if !grows {
        new.body.clone_from(&visit.body);
        new.mobility.clone_from(&visit.mobility);
    }
    new.glove_mm = visit.glove_mm;
    new.interview = Interview {
        riding: asked.riding.clone(),
        glasses: asked.glasses,
        helmet: asked.helmet,
        injuries: asked.injuries.clone(),
        fears: asked.fears.clone(),
        consent: asked.consent,
        ..Interview::default()
    };
    new.complaints = visit.complaints.iter().map(complaint).collect();
    new.wishes.clone_from(&visit.wishes);
    // what there is of a steerer, and what the client does not want changed, stays
    new.bounds = Bounds { money: None, minutes: None, ..visit.bounds.clone() };
    new.hour = visit.hour;
    new.tape = Tape {
        bar_known: visit.tape.bar_known,
        frame_known: visit.tape.frame_known || !visit.tape.readings.is_empty(),
        ..Tape::default()
    };
    new
}
