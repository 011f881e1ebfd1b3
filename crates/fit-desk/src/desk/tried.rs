//! Trials on the desk: what must stay as it is while something is tried, and which cockpit was ridden
//! last.

use super::Desk;
use crate::command::{Command, Gesture, Revision};
use crate::look::{ForClient, Room};
use fit_doc::edit::{CHANGED, free_id};
use fit_doc::{Cockpit, CockpitEdit, Edit, Ride, Session, Visit, Where};
use fit_view::weigh::{foretold, foretold_brakes};
use std::sync::Arc;

/// Since when it is noted on the trial that is running whether a hand reaches the brake, or no longer.
#[derive(Debug, Clone, Copy)]
pub(super) struct Noted {
    since: Revision,
    side: Where,
    stands: bool,
}

impl Desk {
    /// Whether that hand's reach to the brake was noted on the trial that is running; what is known of it
    /// from before is no answer of that trial.
    pub fn brake_noted(&self, side: Where) -> bool {
        let is_it = |of: &&Noted| of.side == side && of.since <= self.revision();
        self.brakes_noted.iter().rev().find(is_it).is_some_and(|of| of.stands)
    }

    /// Keeps what an edit that was made on the state before says of the brakes on a trial.
    pub(super) fn note_brakes(&mut self, edit: &Edit, before: Revision) {
        // what was undone is gone for good
        self.brakes_noted.retain(|of| of.since <= before);
        let ridden = || self.visit().and_then(Visit::ride).map(|(_, ride)| ride.cockpit.as_str());
        let (sides, stands) = match edit {
            Edit::StartRide { .. } => (Where::Both, false),
            Edit::HandCheck { cockpit, side, to, .. } if ridden() == Some(cockpit) => {
                (*side, to.is_some())
            }
            _ => return,
        };
        let since = self.revision();
        let meant = |side: &Where| [*side, Where::Both].contains(&sides);
        let sides = [Where::Left, Where::Right].into_iter().filter(meant);
        self.brakes_noted.extend(sides.map(|side| Noted { since, side, stands }));
    }

    /// Whether a change that is tried leaves this cockpit alone: the one as it came, also with the
    /// saddle put right, is what the rest is compared with, and one of which something was told on a
    /// trial is what that leads back to.
    pub fn stays(&self, id: &str) -> bool {
        self.visit().is_some_and(|visit| {
            let ridden = |ride: &Ride| visit.is_told(ride) && ride.cockpit == id;
            // in its own place of work the saddle is put right
            let put_right = visit.put_right.as_deref().filter(|_| self.look.room == Room::Bench);
            let is_baseline = visit.as_it_came.id == id || put_right == Some(id);
            is_baseline || visit.rides.iter().any(ridden)
        })
    }

    /// The session with what is foretold of a trial that is set up still: nothing was told on it yet,
    /// and the cockpit that is ridden was changed, also by the saddle of the bike, or its frame, the client's
    /// body or gloves put right.
    pub(super) fn foretold_anew(&self, mut session: Session, edit: &Edit) -> Session {
        let index = self.look.visit;
        let Some(visit) = session.visits.get(index) else { return session };
        let running = visit.ride().filter(|(_, ride)| !visit.is_told(ride));
        let Some((at, ride)) = running else { return session };
        let before = self.session().visits.get(index).and_then(|of| of.cockpit(&ride.cockpit));
        let is_changed = before
            .zip(visit.cockpit(&ride.cockpit))
            .is_some_and(|(before, after)| !before.is_set_up_as(after));
        let is_set_up_anew = match edit {
            Edit::Frame { .. }
            | Edit::TakeTapeOver { .. }
            | Edit::Reading { .. }
            | Edit::Landmark { .. }
            | Edit::Mobility { .. }
            | Edit::Glove { .. }
            | Edit::Sex(_)
            | Edit::Born(_) => true,
            // what is seen on it is not foretold
            _ => is_changed,
        };
        let its = self.weighed.cockpits.iter().find(|of| of.id == ride.cockpit);
        if let Some(its) = its.filter(|_| is_set_up_anew) {
            let visit = Arc::make_mut(&mut session.visits[index]);
            visit.rides[at].foretold = foretold(its);
            visit.rides[at].brakes = foretold_brakes(its, visit);
            visit.rides[at].corrected.clear();
        }
        session
    }

    /// Id of the cockpit that a change tried on this one ends on: its own, or that of a copy.
    pub fn tried_on(&self, id: &str) -> String {
        match self.visit().filter(|_| self.stays(id)) {
            Some(visit) => free_id(visit, CHANGED),
            None => id.to_owned(),
        }
    }

    /// Id of the cockpit that all are compared with, where that is not the one as it came.
    pub fn against(&self) -> Option<&str> {
        let (_, ride) = self.visit()?.last_trial().filter(|_| self.look.against_trial)?;
        Some(&ride.cockpit)
    }

    /// The client's view there, or nowhere where it is there already.
    pub(super) fn for_client(&self, shown: ForClient) -> Command {
        let already = self.look.for_client == shown;
        Command::ForClient(if already { ForClient::Not } else { shown })
    }

    /// The saddle put right on a cockpit. Where another one is set up so already that is spoken of, and
    /// chosen where the cockpit was.
    pub(super) fn saddle_right_on(&mut self, id: &str) {
        let Some(visit) = self.visit() else { return };
        let Some((right, cockpit)) = visit.saddle_put_right().zip(visit.cockpit(id)) else {
            return;
        };
        let after = Cockpit { saddle: right.saddle, ..cockpit.clone() };
        let alike = |visit: &Visit| {
            let mut others = visit.bench.iter().filter(|other| other.is_set_up_as(&after));
            others.next().map(|other| other.id.clone())
        };
        let chosen = visit.chosen.as_deref() == Some(id);
        if let Some(there) = alike(visit).filter(|_| !chosen) {
            self.look.selected = there;
            return;
        }
        let edit = Edit::SaddleRightOn { visit: self.look.visit, id: id.to_owned() };
        self.edit(&edit, None);
        if self.told.is_empty()
            && let Some(there) = self.visit().and_then(alike)
        {
            self.look.selected = there;
        }
    }

    pub(super) fn try_out(
        &mut self,
        id: &str,
        change: CockpitEdit,
        label: String,
        gesture: Option<Gesture>,
    ) {
        let visit = self.look.visit;
        if !self.stays(id) {
            self.edit(&Edit::Cockpit { visit, id: id.to_owned(), change }, gesture);
            return;
        }
        let (to, like) = (self.tried_on(id), id.to_owned());
        self.edit(&Edit::AddChanged { visit, like, label, change }, gesture);
        if self.told.is_empty() {
            self.look.selected = to;
        }
    }
}
