//! Trials on the desk: what must stay as it is while something is tried, and which cockpit was ridden
//! last.

use super::Desk;
use crate::command::{Command, Gesture};
use crate::look::ForClient;
use crate::shelf;
use fit_doc::edit::{CHANGED, free_id};
use fit_doc::{CockpitEdit, Edit, Ride, Session};
use fit_view::weigh::{foretold, foretold_brakes};
use std::sync::Arc;

impl Desk {
    /// Whether a change that is tried leaves this cockpit alone: the one as it came is what the rest
    /// is compared with, and one of which something was told on a trial is what that leads back to.
    pub fn stays(&self, id: &str) -> bool {
        let ridden = |ride: &Ride| ride.is_told() && ride.cockpit == id;
        self.visit().is_some_and(|v| v.as_it_came.id == id || v.rides.iter().any(ridden))
    }

    /// The session with what is foretold of a trial that is set up still: nothing was told on it yet,
    /// and the cockpit that is ridden was changed.
    pub(super) fn foretold_anew(&self, mut session: Session, edit: &Edit) -> Session {
        let Edit::Cockpit { visit, id, .. } = edit else { return session };
        let its = self.weighed.cockpits.iter().find(|of| of.id == *id);
        let running = session.visits.get(*visit).and_then(|of| of.ride());
        let set_up = running.filter(|(_, ride)| ride.cockpit == *id && !ride.is_told());
        if let (Some(its), Some((at, _))) = (its.filter(|_| *visit == self.look.visit), set_up) {
            let visit = Arc::make_mut(&mut session.visits[*visit]);
            visit.rides[at].foretold = foretold(its);
            visit.rides[at].brakes = foretold_brakes(its, visit);
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
        let wished = match self.visit().and_then(|of| of.cockpit(id)) {
            Some(ridden) if !self.is_as_it_came(id) => ridden.label.clone(),
            _ => label,
        };
        let taken =
            |label: &str| self.visit().is_some_and(|of| of.cockpits().any(|c| c.label == label));
        let label = shelf::free_label(&wished, taken);
        self.edit(&Edit::AddChanged { visit, like, label, change }, gesture);
        if self.told.is_empty() {
            self.look.selected = to;
        }
    }
}
