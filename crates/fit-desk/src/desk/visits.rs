//! Several visits of one bike: which is looked at, and which is closed.

use super::Desk;
use fit_doc::tape::{BuiltRow, Moved, built, differs, hoods_read, is_said, left_reads, moved};
use fit_doc::{Cockpit, Edit, Frame, Message, Ridden, Ride, Session, Tape, UndoStep, Visit};
use fit_view::weigh::{Weighed, knows_more, laid_over};

impl Desk {
    /// Why nothing is changed at the visit that is looked at; none: it has no follow-up.
    pub fn closed(&self) -> Option<Message> {
        self.session().closed(self.look.visit)
    }

    /// The visit of the same bike before the one that is looked at.
    pub fn before(&self) -> Option<&Visit> {
        let at = self.session().earlier(self.look.visit)?;
        self.session().visits.get(at).map(AsRef::as_ref)
    }

    /// How a cockpit of the visit that is looked at was ridden.
    pub fn ridden(&self, cockpit: &Cockpit) -> Ridden {
        self.session().ridden(self.look.visit, cockpit)
    }

    /// The trials that are over of a cockpit of it, or of what is like it and was ridden.
    pub fn trials_of(&self, cockpit: &Cockpit) -> Vec<&Ride> {
        self.session().trials_of(self.look.visit, cockpit)
    }

    /// The visit that is looked at laid over the one before, weighed; none where there is none before.
    /// Weighed when it is first asked for, and kept while the document stays.
    pub fn over(&self) -> Option<&Weighed> {
        let weigh = || laid_over(self.session(), self.look.visit, &self.setup.survey);
        self.over.get_or_init(weigh).as_ref()
    }

    /// Whether what is laid over knows more of the client than the benches of the two days did.
    pub fn over_knows_more(&self) -> bool {
        knows_more(self.session(), self.look.visit)
    }

    /// The readings of what the client leaves this visit with, each beside what it should be.
    pub fn built(&self) -> Vec<BuiltRow> {
        let rows = || {
            let visit = self.visit()?;
            let frame = self.frame()?;
            // of the hood what was read of it when it came
            let readings = hoods_read(frame, visit);
            let came = Tape { readings, nose_up_deg: visit.built.nose_up_deg, ..Tape::default() };
            built(frame, visit.left(), &visit.built, Some(&came)).ok()
        };
        rows().unwrap_or_default()
    }

    /// The readings of the bike as it came to this visit, each beside what it should be were it as the
    /// client left the visit before. A slip in a reading is asked about where nothing that moved explains
    /// it.
    pub fn as_left(&self) -> Vec<BuiltRow> {
        let rows = || {
            let (visit, before) = (self.visit()?, self.before()?);
            let frame = self.frame()?;
            built(frame, before.left(), &visit.tape, Some(&left_reads(frame, before))).ok()
        };
        let mut rows = rows().unwrap_or_default();
        if !self.not_taken_over() || !self.slipped().is_empty() {
            for row in &mut rows {
                row.slip = None;
            }
        }
        rows
    }

    /// What may have slipped since the visit before, beyond what the bike as it came says already.
    pub fn slipped(&self) -> Vec<Moved> {
        let found = || {
            let (visit, before) = (self.visit()?, self.before()?);
            let frame = self.frame()?;
            let was = (before.left(), &left_reads(frame, before));
            moved(frame, was, &visit.as_it_came, &visit.tape).ok()
        };
        found().unwrap_or_default()
    }

    /// What of the bike as it came is not as it was left, of what slips by itself.
    pub fn not_as_left(&self) -> Vec<Moved> {
        let (Some(visit), Some(before)) = (self.visit(), self.before()) else { return Vec::new() };
        differs(before.left(), &visit.as_it_came)
    }

    /// Whether nothing was read yet of the bike that came to a follow-up: it stands there as it was left.
    pub fn nothing_read_yet(&self) -> bool {
        let both = self.visit().zip(self.before());
        both.is_some_and(|(visit, before)| {
            visit.tape.readings.is_empty() && visit.as_it_came.is_set_up_as(before.left())
        })
    }

    /// What is to be put back: what the client left the visit before with, where something of it has
    /// slipped and no cockpit of this one is set up so yet.
    pub fn to_put_back(&self) -> Option<&Cockpit> {
        let visit = self.visit().filter(|_| self.closed().is_none())?;
        let left = self.session().slipped_from(visit)?;
        visit.cockpits().all(|of| !of.is_set_up_as(left)).then_some(left)
    }

    /// The readings of this visit say that something has moved, and the bike as it came does not say so
    /// yet: it is compared and drawn as it was left.
    pub fn not_taken_over(&self) -> bool {
        let said = || {
            let (visit, before) = (self.visit()?, self.before()?);
            let frame = self.frame()?;
            let was = (before.left(), &left_reads(frame, before));
            is_said(frame, was, &visit.as_it_came, &visit.tape).ok()
        };
        said() == Some(false)
    }

    /// Whether what is built at this visit is read back: always after a first visit, later on once
    /// another cockpit than the one as it came was chosen, which was read when it came.
    pub fn built_is_due(&self) -> bool {
        let Some(visit) = self.visit() else { return false };
        let other = visit.left().id != visit.as_it_came.id;
        self.before().is_none() || other || !visit.built.readings.is_empty()
    }

    pub(super) fn frame(&self) -> Option<&Frame> {
        let visit = self.visit()?;
        self.session().bike(&visit.bike).map(|bike| &bike.frame)
    }

    /// Whether an edit may be kept, given what it would make of the session: a visit that has a
    /// follow-up is closed, with the frame of its bike, and no visit becomes an earlier one by its day.
    pub(super) fn is_open(&self, edit: &Edit, after: &Session) -> Result<(), Message> {
        let looked_at = self.look.visit;
        let its_frame = matches!(edit, Edit::Frame { bike, .. }
            if self.visit().is_some_and(|visit| visit.bike == *bike));
        let Some(visit) = edit.visit().or(its_frame.then_some(looked_at)) else { return Ok(()) };
        let closed = self.session().closed(visit).or_else(|| after.closed(visit));
        closed.map_or(Ok(()), Err)
    }

    /// Whether the visit that is looked at is a follow-up that can be taken back: nothing was entered.
    pub fn just_begun(&self) -> bool {
        self.session().is_just_begun(self.look.visit)
    }

    /// Which visit is looked at once an edit was kept: one that is taken away leaves the one before it.
    pub(super) fn looked_at_after(&self, edit: &Edit) -> usize {
        let at = self.look.visit;
        let Edit::TakeFollowUpBack { visit: gone } = *edit else { return at };
        let to = if at == gone { self.session().earlier(gone).unwrap_or_default() } else { at };
        if to > gone { to - 1 } else { to }
    }

    /// After a step back or forward the visit that was looked at may be gone, or another be there.
    pub(super) fn look_where_there_is_one(&mut self, step: &UndoStep) {
        let last = self.session().visits.len().saturating_sub(1);
        if matches!(step, UndoStep::FollowUp { .. } | UndoStep::FollowUpGone { .. }) {
            self.look.visit = last;
        }
        self.look.visit = self.look.visit.min(last);
    }
}
