//! Whether a cockpit was ridden: it, or one that is set up as it is, at this visit or an earlier one.
//!
//! A copy begins unridden, whatever it is a copy of. That nobody rode it would be said wrongly of what
//! was ridden under another name, at the visit before, or with the saddle as it came.

use crate::{Cockpit, Date, Ride, Session, Visit};

/// How a cockpit was ridden.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Ridden {
    /// It is only drawn.
    No,
    /// At this visit, as it is set up.
    Here,
    /// At an earlier visit, or with another saddle; one of the two or both.
    Otherwise {
        /// The day of the earlier visit, and which of that day where there are several; none: at this one.
        earlier: Option<(Date, Option<usize>)>,
        /// Before the saddle was put right, which is put right on this one.
        old_saddle: bool,
    },
}

impl Ridden {
    /// Whether it was ridden with the saddle that it has now.
    pub const fn as_it_is(self) -> bool {
        matches!(self, Self::Here | Self::Otherwise { old_saddle: false, .. })
    }
}

impl Session {
    /// How a cockpit of a visit was ridden, by the place of the visit. What is like it in more stands for
    /// it: as it is before with another saddle, then this visit before earlier ones.
    pub fn ridden(&self, visit: usize, cockpit: &Cockpit) -> Ridden {
        self.source(visit, cockpit).map_or(Ridden::No, |(_, _, how)| how)
    }

    /// The trials that are over of a cockpit of a visit: its own, or, where it has none and what is like it
    /// was ridden, those of that one.
    pub fn trials_of(&self, visit: usize, cockpit: &Cockpit) -> Vec<&Ride> {
        let its = |at: usize, id: &str| {
            let visit = self.visits.get(at);
            let rides = visit.into_iter().flat_map(|visit| visit.rides.iter());
            rides.filter(|ride| ride.ended && ride.cockpit == id).collect::<Vec<_>>()
        };
        let own = its(visit, &cockpit.id);
        match self.source(visit, cockpit).filter(|_| own.is_empty()) {
            Some((at, of, _)) => its(at, &of.id),
            None => own,
        }
    }

    /// The cockpit that was ridden and stands for this one, at which visit, and how.
    fn source<'a>(
        &'a self,
        index: usize,
        cockpit: &'a Cockpit,
    ) -> Option<(usize, &'a Cockpit, Ridden)> {
        if cockpit.ridden {
            return Some((index, cockpit, Ridden::Here));
        }
        let right = self.visits.get(index).and_then(|visit| visit.saddle_put_right());
        let is_right = right.is_some_and(|right| right.saddle == cockpit.saddle);
        let mut visits = vec![index];
        while let Some(earlier) = visits.last().and_then(|&at| self.earlier(at)) {
            visits.push(earlier);
        }
        let found = |old_saddle: bool, at: usize| {
            let visit = self.visits.get(at)?;
            // the bike as it came is ridden every day: with another saddle it stands for no copy of itself
            let is_like = |of: &&Cockpit| {
                if old_saddle {
                    let is_came = of.id == visit.as_it_came.id;
                    is_right && !is_came && of.differs_in_saddle_from(cockpit)
                } else {
                    of.is_set_up_as(cockpit)
                }
            };
            let of = visit.cockpits().filter(|of| of.ridden).find(is_like)?;
            let earlier = (at != index).then(|| (visit.date, self.number_that_day(at)));
            let how = match (earlier, old_saddle) {
                (None, false) => Ridden::Here,
                (earlier, old_saddle) => Ridden::Otherwise { earlier, old_saddle },
            };
            Some((at, of, how))
        };
        let ways = [false, true].into_iter();
        let mut ways = ways.flat_map(|old| visits.iter().map(move |&at| (old, at)));
        ways.find_map(|(old, at)| found(old, at))
    }
}

impl Visit {
    /// The cockpit that is as it came with the saddle put right, where there is one.
    pub fn saddle_put_right(&self) -> Option<&Cockpit> {
        self.put_right.as_deref().and_then(|id| self.cockpit(id))
    }
}
