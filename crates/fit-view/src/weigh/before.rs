//! What was weighed last, kept for the next weighing: while one cockpit is changed the others stay,
//! and so does what their rider does on them.
//!
//! Nothing is taken over unless everything that it follows from is equal, so that a bench weighs the
//! same whatever was weighed before.

use super::person;
use super::weighed::{Weighed, WeighedCockpit};
use fit_doc::{Client, Date, Frame, KeptCockpits, Message, Place, Reading, Sex, Visit};
use fit_math::body::{Body, Survey};
use fit_math::doubt::Nearby;
use fit_math::hand::Cover;
use fit_math::posture::{Calibration, Rider};
use std::sync::Arc;

/// What was weighed last; empty where nothing was. Of one survey.
#[derive(Debug, Clone, Default)]
pub struct Before {
    pub(super) cockpits: KeptCockpits,
    pub(super) weighed: Option<Arc<Weighed>>,
    read: Option<Read>,
}

/// A client's body and what it was read from; a name or notes are nothing of it.
#[derive(Debug, Clone)]
struct Read {
    sex: Option<Sex>,
    born: Option<i16>,
    date: Date,
    readings: Vec<Reading>,
    place: Place,
    body: (Body, Option<Message>),
}

impl Before {
    /// The client's body, as [`person::body`].
    pub(super) fn body(
        &mut self,
        client: &Client,
        place: &Place,
        visit: &Visit,
        survey: &Survey,
    ) -> Result<(Body, Option<Message>), Message> {
        let is_same = |read: &&Read| {
            (read.sex, read.born, read.date) == (client.sex, client.born, visit.date)
                && read.place == *place
                && read.readings == visit.body
        };
        if let Some(read) = self.read.as_ref().filter(is_same) {
            return Ok(read.body.clone());
        }
        let body = person::body(client, place, visit, survey)?;
        self.read = Some(Read {
            sex: client.sex,
            born: client.born,
            date: visit.date,
            readings: visit.body.clone(),
            place: place.clone(),
            body: body.clone(),
        });
        Ok(body)
    }

    /// The cockpit at that place on the bench, where it was weighed for a measured client on the same
    /// frame.
    pub(super) fn cockpit(
        &self,
        index: usize,
        parts: &fit_doc::Cockpit,
        on: &WeighedFor<'_>,
    ) -> Option<&WeighedCockpit> {
        let weighed = self.weighed.as_ref()?;
        let same_rider = weighed.bike.frame == *on.frame
            && weighed.rider == *on.rider
            && weighed.calibration.as_ref() == on.calibration;
        let of = weighed.cockpits.get(index).filter(|of| same_rider && of.parts == *parts)?;
        let same_covers = of.brakes.is_none_or(|brakes| brakes.covers == on.covers);
        // nobody sat on it while the client was not measured
        (same_covers && !of.places.is_empty()).then_some(of)
    }
}

/// What a cockpit is weighed for.
pub(super) struct WeighedFor<'a> {
    pub(super) frame: &'a Frame,
    pub(super) rider: &'a Rider,
    pub(super) nearby: &'a Nearby,
    pub(super) calibration: Option<&'a Calibration>,
    pub(super) covers: [Cover; 2],
}
