//! The closed list of changes to a session.
//!
//! An [`Edit`] is data: what a window, a test or a script wants changed. [`Edit::apply`] gives the
//! changed session and the [`UndoStep`] by which an undo list names it; the session it was asked of
//! stays as it is. It deliberately does not judge whether the new numbers can be right: that is
//! [`crate::check`], asked by whoever applies edits before keeping one.

mod bike;
mod body;
mod came;
mod cockpit;
mod corrected;
mod decide;
mod free;
mod interview;
mod later;
mod number;
mod ride;
mod saddle;
mod step;
mod tape;
mod trial;
mod whose;

pub use body::Sight;
pub(crate) use cockpit::along_the_post;
pub(crate) use cockpit::no_longer_stock;
pub use cockpit::{CockpitEdit, Levered, carry_levers, levers_on_another_bar_mm};
pub use free::{free_id, free_label, free_label_among};
pub use interview::{ComplaintStep, InterviewEdit};
pub use later::{AfterEdit, AfterStep};
pub use number::{cockpit_number, frame_number, lever_number};
pub use ride::RideEdit;
pub use step::{StepOf, UndoStep};
pub use tape::TapeEdit;
pub(crate) use tape::set_number;
pub use trial::{TRIAL_STEM, trial_position};

use crate::{
    Bounds, Cockpit, Complaint, Date, Elsewhere, Extent, FingerPart, HandPlace, Item, Joint,
    Looked, Message, Place, Price, Quantity, Reaches, RideBrake, RideNumber, RuleOut, Session, Sex,
    Visit, VisitPlace, Wanted, Where,
};
use std::sync::Arc;

/// One change to a session. Visits are named by their position, cockpits by their id within one.
#[derive(Debug, Clone, PartialEq)]
pub enum Edit {
    /// The client's name.
    ClientName(String),
    /// Notes about the client.
    ClientNotes(String),
    /// Until when the client agreed that the session is kept.
    KeepUntil(Option<Date>),
    /// The client's sex, for the survey's numbers; none where not given.
    Sex(Option<Sex>),
    /// Year of birth.
    Born(Option<i16>),
    /// What the client calls a bike.
    BikeName {
        /// Id of the bike.
        bike: String,
        /// The new name.
        to: String,
    },
    /// A number of a bike's frame.
    Frame {
        /// Id of the bike.
        bike: String,
        /// Which number.
        quantity: Quantity,
        /// Its new value, mm or degrees.
        to: f64,
    },
    /// The day of a visit.
    Date {
        /// Which visit.
        visit: usize,
        /// The day.
        to: Date,
    },
    /// What was read of one thing was in truth read of another, such as of another landmark.
    Landmark {
        /// Which visit.
        visit: usize,
        /// Of what it was taken to be.
        from: Item,
        /// Of what it is.
        to: Item,
    },
    /// Readings of one thing about the body, mm or kg; an empty list takes them away.
    Reading {
        /// Which visit.
        visit: usize,
        /// Of what.
        item: Item,
        /// On which side; both: of no side in particular.
        side: Where,
        /// All its readings.
        values: Vec<f64>,
    },
    /// How far a joint goes on one side or both; none takes it away.
    Mobility {
        /// Which visit.
        visit: usize,
        /// Which joint.
        joint: Joint,
        /// On which side.
        side: Where,
        /// How far, and whether it hurts there.
        to: Option<(Extent, bool)>,
    },
    /// What was seen of the client on a cockpit, hands in one place; none takes it away.
    Seen {
        /// Which visit.
        visit: usize,
        /// Id of the cockpit.
        cockpit: String,
        /// Where the hands were.
        place: HandPlace,
        /// What was looked at.
        sight: Sight,
        /// What was seen, degrees or mm.
        to: Option<f64>,
    },
    /// Whether a hand reaches the brake; none takes it away.
    HandCheck {
        /// Which visit.
        visit: usize,
        /// Id of the cockpit.
        cockpit: String,
        /// Which hand.
        side: Where,
        /// Which part of the finger.
        part: FingerPart,
        /// Whether it does.
        to: Option<Reaches>,
    },
    /// What gloves take off the fingers' reach, mm.
    Glove {
        /// Which visit.
        visit: usize,
        /// How much.
        to: f64,
    },
    /// What was read off the bike with the tape.
    Tape {
        /// Which visit.
        visit: usize,
        /// What changes.
        change: TapeEdit,
    },
    /// What was found with the tape becomes the bike as it came.
    TakeTapeOver {
        /// Which visit.
        visit: usize,
    },
    /// What was read with the tape off what the client leaves with, once it is built.
    Built {
        /// Which visit.
        visit: usize,
        /// What changes.
        change: TapeEdit,
    },
    /// What is heard of the client after a visit.
    After {
        /// Which visit.
        visit: usize,
        /// What changes.
        change: AfterEdit,
    },
    /// Another visit with the same bike, behind the last.
    FollowUp {
        /// Which visit it follows.
        visit: usize,
        /// Its day.
        date: Date,
    },
    /// A follow-up that was begun by mistake never was; only while nothing was entered in it.
    TakeFollowUpBack {
        /// Which visit.
        visit: usize,
    },
    /// A copy of the cockpit as it came joins the bench, to have its saddle put right: a second one
    /// to compare with.
    PutSaddleRight {
        /// Which visit.
        visit: usize,
        /// Its short name; one that is taken gets a number.
        label: String,
    },
    /// The saddle that was put right goes onto a cockpit that has the one as it came; of what was ridden
    /// or seen a copy gets it, and is chosen where that was.
    SaddleRightOn {
        /// Which visit.
        visit: usize,
        /// Id of the cockpit.
        id: String,
    },
    /// What the client was asked.
    Interview {
        /// Which visit.
        visit: usize,
        /// What changes.
        change: InterviewEdit,
    },
    /// A trial begins.
    StartRide {
        /// Which visit.
        visit: usize,
        /// Id of the cockpit that is ridden.
        cockpit: String,
        /// What the model foretells of it.
        foretold: Vec<RideNumber>,
        /// Which hands it foretells to reach the brake.
        brakes: Vec<RideBrake>,
    },
    /// A change to a trial.
    Ride {
        /// Which visit.
        visit: usize,
        /// Which trial.
        at: usize,
        /// What changes.
        change: RideEdit,
    },
    /// What became of something that is ruled out first; none: nobody looked at it.
    RuledOut {
        /// Which visit.
        visit: usize,
        /// What.
        item: RuleOut,
        /// What became of it.
        to: Option<Looked>,
    },
    /// What brought the client, all of it.
    Complaints {
        /// Which visit.
        visit: usize,
        /// The complaints.
        to: Vec<Complaint>,
    },
    /// What the client wants, all of it.
    Wishes {
        /// Which visit.
        visit: usize,
        /// The wishes.
        to: Vec<String>,
    },
    /// What a cockpit is looked for; empty: what follows from what brought the client.
    Wanted {
        /// Which visit.
        visit: usize,
        /// All of it.
        to: Vec<Wanted>,
    },
    /// What an answer may not leave.
    Bounds {
        /// Which visit.
        visit: usize,
        /// All of it.
        to: Box<Bounds>,
    },
    /// Anything worth remembering.
    VisitNotes {
        /// Which visit.
        visit: usize,
        /// The notes.
        to: String,
    },
    /// A change to one cockpit.
    Cockpit {
        /// Which visit.
        visit: usize,
        /// Id of the cockpit.
        id: String,
        /// What changes.
        change: CockpitEdit,
    },
    /// A new candidate, behind the last.
    Add {
        /// Which visit.
        visit: usize,
        /// The candidate; an id or a name that is taken is replaced by one that is not.
        cockpit: Box<Cockpit>,
    },
    /// A copy of a cockpit joins the bench, changed: what it is a copy of stays as it is.
    AddChanged {
        /// Which visit.
        visit: usize,
        /// Id of the cockpit that is copied.
        like: String,
        /// Short name of the copy; one that is taken gets a number.
        label: String,
        /// What is changed on it.
        change: CockpitEdit,
    },
    /// A candidate that was never ridden leaves the bench.
    Remove {
        /// Which visit.
        visit: usize,
        /// Id of the candidate.
        id: String,
    },
    /// A candidate moves on the bench.
    Move {
        /// Which visit.
        visit: usize,
        /// Id of the candidate.
        id: String,
        /// Its new position among the candidates; beyond the last is the last.
        to: usize,
    },
    /// The decision; none: not decided.
    Choose {
        /// Which visit.
        visit: usize,
        /// Id of the cockpit.
        id: Option<String>,
    },
    /// Where the answer lies, if it is not the bar; none: it may be.
    Elsewhere {
        /// Which visit.
        visit: usize,
        /// Where.
        to: Option<Elsewhere>,
    },
    /// What the client has against a cockpit; none: nothing.
    Veto {
        /// Which visit.
        visit: usize,
        /// Id of the cockpit.
        cockpit: String,
        /// Why, may be empty.
        to: Option<String>,
    },
    /// What an hour in the workshop costs; none: only the time is told.
    Hour {
        /// Which visit.
        visit: usize,
        /// How much.
        to: Option<Price>,
    },
}

impl Edit {
    /// The session after this change, and what an undo list calls it.
    ///
    /// # Errors
    /// When it speaks of a bike, visit or cockpit that is not there, or a part cannot be put on.
    pub fn apply(&self, session: &Session) -> Result<(Session, UndoStep), Message> {
        let mut after = session.clone();
        let step = change(self, &mut after)?;
        corrected::mark(session, &mut after);
        Ok((after, step))
    }
}

#[expect(clippy::too_many_lines, reason = "an arm for each edit")]
fn change(edit: &Edit, session: &mut Session) -> Result<UndoStep, Message> {
    match edit {
        Edit::ClientName(to) => {
            Ok(UndoStep::text(StepOf::ClientName, &mut session.client.name, to))
        }
        Edit::ClientNotes(to) => {
            Ok(UndoStep::text(StepOf::ClientNotes, &mut session.client.notes, to))
        }
        Edit::KeepUntil(to) => {
            session.keep_until = *to;
            Ok(UndoStep::KeepUntil { to: *to })
        }
        Edit::Sex(to) => {
            if session.client.sex != *to {
                later::keep_the_client(session);
            }
            session.client.sex = *to;
            Ok(UndoStep::Sex { to: *to })
        }
        Edit::Born(to) => {
            if session.client.born != *to {
                later::keep_the_client(session);
            }
            let from = session.client.born.map(f64::from);
            session.client.born = *to;
            let to = to.map(f64::from);
            Ok(UndoStep::Number { of: None, quantity: Quantity::BirthYear, from, to })
        }
        Edit::BikeName { bike, to } => bike::rename(session, bike, to),
        Edit::Frame { bike, quantity, to } => {
            let bike = bike::to_change(session, bike)?;
            let of = Some(bike.name.clone());
            number::step(number::frame_mut(&mut bike.frame, *quantity), of, *quantity, *to)
        }
        Edit::Date { visit, to } => {
            visit_mut(session, *visit)?.date = *to;
            Ok(UndoStep::Text { of: StepOf::Date, to: to.to_string() })
        }
        Edit::Landmark { visit, from, to } => {
            Ok(body::set_landmark(visit_mut(session, *visit)?, *from, *to))
        }
        Edit::Reading { visit, item, side, values } => {
            Ok(body::set_reading(visit_mut(session, *visit)?, *item, *side, values))
        }
        Edit::Mobility { visit, joint, side, to } => {
            Ok(body::set_mobility(visit_mut(session, *visit)?, *joint, *side, *to))
        }
        Edit::Seen { visit, cockpit, place, sight, to } => {
            body::set_seen(visit_mut(session, *visit)?, cockpit, *place, *sight, *to)
        }
        Edit::HandCheck { visit, cockpit, side, part, to } => {
            body::set_hand_check(visit_mut(session, *visit)?, cockpit, (*side, *part), *to)
        }
        Edit::Glove { visit, to } => {
            let visit = visit_mut(session, *visit)?;
            number::step(Some(&mut visit.glove_mm), None, Quantity::Glove, *to)
        }
        Edit::Tape { visit, change } => tape::change(&mut visit_mut(session, *visit)?.tape, change),
        Edit::TakeTapeOver { visit } => tape::take_over(session, *visit),
        Edit::Built { visit, change } => later::built(visit_mut(session, *visit)?, change),
        Edit::After { visit, change } => later::after(visit_mut(session, *visit)?, change),
        Edit::FollowUp { visit, date } => later::follow(session, *visit, *date),
        Edit::TakeFollowUpBack { visit } => later::take_back(session, *visit),
        Edit::PutSaddleRight { visit, label } => {
            let visit = visit_mut(session, *visit)?;
            let id = free_id(visit, "put-right");
            let label = free_label_among(visit, None, label);
            let copy = visit.as_it_came.with_name(&id, &label);
            // the client came on the other one: with the saddle put right nobody rode it yet
            visit.bench.push(Cockpit { ridden: false, ..copy });
            visit.put_right = Some(id);
            Ok(UndoStep::Add { label })
        }
        Edit::SaddleRightOn { visit, id } => saddle::put_right_on(visit_mut(session, *visit)?, id),
        Edit::Interview { visit, change } => {
            Ok(interview::change(&mut visit_mut(session, *visit)?.interview, change))
        }
        Edit::StartRide { visit, cockpit, foretold, brakes } => {
            ride::start(visit_mut(session, *visit)?, cockpit, (foretold, brakes))
        }
        Edit::Ride { visit, at, change } => ride::change(visit_mut(session, *visit)?, *at, change),
        Edit::RuledOut { visit, item, to } => {
            Ok(interview::rule_out(visit_mut(session, *visit)?, *item, *to))
        }
        Edit::Complaints { visit, to } => {
            Ok(interview::set_complaints(visit_mut(session, *visit)?, to))
        }
        Edit::Wanted { visit, to } => {
            visit_mut(session, *visit)?.wanted.clone_from(to);
            Ok(UndoStep::Wanted)
        }
        Edit::Bounds { visit, to } => {
            visit_mut(session, *visit)?.bounds = (**to).clone();
            Ok(UndoStep::Bounds)
        }
        Edit::Wishes { visit, to } => {
            visit_mut(session, *visit)?.wishes.clone_from(to);
            Ok(UndoStep::Wishes)
        }
        Edit::VisitNotes { visit, to } => {
            let notes = &mut visit_mut(session, *visit)?.notes;
            Ok(UndoStep::text(StepOf::VisitNotes, notes, to))
        }
        Edit::Cockpit { visit, id, change } => change_cockpit(session, *visit, id, change),
        Edit::Add { visit, cockpit } => {
            let visit = visit_mut(session, *visit)?;
            let mut cockpit = (**cockpit).clone();
            cockpit.id = free_id(visit, &cockpit.id);
            cockpit.label = free_label_among(visit, None, &cockpit.label);
            let label = cockpit.label.clone();
            visit.bench.push(cockpit);
            Ok(UndoStep::Add { label })
        }
        Edit::AddChanged { visit, like, label, change } => {
            add_changed(session, *visit, (like, label), change)
        }
        Edit::Remove { visit, id } => remove(session, *visit, id),
        Edit::Move { visit, id, to } => {
            let visit = visit_mut(session, *visit)?;
            let moved = visit.bench.remove(candidate(visit, id)?);
            let label = moved.label.clone();
            visit.bench.insert((*to).min(visit.bench.len()), moved);
            Ok(UndoStep::Move { label })
        }
        Edit::Choose { visit, id } => decide::choose(visit_mut(session, *visit)?, id.as_deref()),
        Edit::Elsewhere { visit, to } => Ok(decide::elsewhere(visit_mut(session, *visit)?, *to)),
        Edit::Veto { visit, cockpit, to } => {
            decide::veto(visit_mut(session, *visit)?, cockpit, to.as_deref())
        }
        Edit::Hour { visit, to } => Ok(decide::hour(visit_mut(session, *visit)?, *to)),
    }
}

/// Takes a candidate off the bench, and what was noted of it; one that was ridden stays, or bad
/// foretellings would go with it.
fn remove(session: &mut Session, index: usize, id: &str) -> Result<UndoStep, Message> {
    let visit = session.visits.get(index).ok_or(Message::NoVisit)?;
    let at = candidate(visit, id)?;
    if visit.rides.iter().any(|ride| ride.cockpit == id) {
        let whose = VisitPlace::of(session, visit);
        let place = Place::visit_cockpit(whose, at + 1, &visit.bench[at]);
        let running = visit.ride().is_some_and(|(_, ride)| ride.cockpit == id);
        return Err(Message::WasRidden { place, running });
    }
    let visit = visit_mut(session, index)?;
    let gone = visit.bench.remove(at);
    for named in [&mut visit.chosen, &mut visit.put_right] {
        named.take_if(|named| *named == id);
    }
    visit.seen.retain(|seen| seen.cockpit != id);
    visit.hand_checks.retain(|check| check.cockpit != id);
    visit.vetoes.retain(|veto| veto.cockpit != id);
    Ok(UndoStep::Remove { label: gone.label })
}

/// What the copy of a cockpit is known by, before a number that makes it unlike the others.
pub const CHANGED: &str = "changed";

fn add_changed(
    session: &mut Session,
    index: usize,
    (like, label): (&str, &str),
    change: &CockpitEdit,
) -> Result<UndoStep, Message> {
    let visit = session.visits.get(index).ok_or(Message::NoVisit)?;
    let model = visit.cockpit(like).ok_or_else(|| no_cockpit(like))?;
    let label = free_label_among(visit, None, label);
    let mut copy = model.with_name(&free_id(visit, CHANGED), &label);
    copy.ridden = false;
    let frame = session.bike(&visit.bike).map(|bike| &bike.frame);
    change.apply(&mut copy, &visit.as_it_came, frame)?;
    visit_mut(session, index)?.bench.push(copy);
    Ok(UndoStep::Add { label })
}

fn change_cockpit(
    session: &mut Session,
    index: usize,
    id: &str,
    change: &CockpitEdit,
) -> Result<UndoStep, Message> {
    let visit = session.visits.get(index).ok_or(Message::NoVisit)?;
    let came = visit.as_it_came.clone();
    let mut cockpit = visit.cockpit(id).ok_or_else(|| no_cockpit(id))?.clone();
    let frame = session.bike(&visit.bike).map(|bike| &bike.frame);
    let step =
        match change {
            // two of one name could not be told apart where only that stands
            CockpitEdit::Label(to) => CockpitEdit::Label(free_label_among(visit, Some(id), to))
                .apply(&mut cockpit, &came, frame),
            _ => change.apply(&mut cockpit, &came, frame),
        }?;
    if came.id == id {
        came::changed(session, index, &cockpit)?;
    } else if let Some(place) = visit_mut(session, index)?.cockpit_mut(id) {
        *place = cockpit;
    }
    Ok(step)
}

fn visit_mut(session: &mut Session, index: usize) -> Result<&mut Visit, Message> {
    session.visits.get_mut(index).map(Arc::make_mut).ok_or(Message::NoVisit)
}

fn candidate(visit: &Visit, id: &str) -> Result<usize, Message> {
    let found = visit.bench.iter().position(|cockpit| cockpit.id == id);
    found.ok_or_else(|| no_cockpit(id))
}

fn no_cockpit(id: &str) -> Message {
    Message::NoSuchCockpit { place: Place::client(), id: id.to_owned(), known: Vec::new() }
}
