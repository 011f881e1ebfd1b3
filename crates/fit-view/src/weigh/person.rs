//! From what was read off a client to the rider that the posture needs.
//!
//! Lengths mm, weight kg, angles radians. Habits stay the usual ones of the client's sex: nothing
//! observed on the bike enters here.

use fit_doc::{Client, Joint, Message, Mobility, Place, Quantity, Visit};
use fit_math::body::{Body, Segments, Survey};
use fit_math::frame::Side;
use fit_math::posture::{self, Limits, Rider};

/// Largest joint range that is one, degrees: folded.
const FOLDED_DEG: f64 = 180.0;

/// The client's body: readings where there are any, the survey's figures for the rest.
pub(super) fn body(client: &Client, visit: &Visit, survey: &Survey) -> Result<Body, Message> {
    let readings: Vec<_> = visit
        .body
        .iter()
        .flat_map(|reading| reading.values.iter().map(|&value| (reading.dimension, value)))
        .collect();
    Body::new(survey, client.sex, &readings)
        .map_err(|error| Message::BodyImpossible { detail: error.to_string() })
}

/// The rider with the joint ranges that were measured.
pub(super) fn rider(visit: &Visit, body: &Body) -> Result<Rider, Message> {
    let segments = Segments::of(body)
        .map_err(|error| Message::BodyImpossible { detail: error.to_string() })?;
    let limits = visit.mobility.iter().try_fold(Limits::usual(), |limits, mobility| {
        with_mobility(limits, mobility).map_err(|()| Message::Refused {
            place: Place::Visit(visit.date.to_string()),
            quantity: Quantity::Mobility(mobility.joint),
            found: mobility.limit_deg,
            least: 0.0,
            most: FOLDED_DEG,
        })
    })?;
    Ok(Rider::new(segments, body.sex()).with_limits(limits))
}

fn with_mobility(limits: Limits, mobility: &Mobility) -> Result<Limits, ()> {
    let limit_rad = mobility.limit_deg.to_radians();
    joints(mobility.joint)
        .iter()
        .try_fold(limits, |limits, &joint| limits.with_reading(joint, limit_rad, false))
        // which joint and which value it was, the caller knows
        .map_err(|_| ())
}

fn joints(joint: Joint) -> &'static [posture::Joint] {
    use posture::Joint as J;
    match joint {
        Joint::Spine => &[J::Spine],
        Joint::Pelvis => &[J::Pelvis],
        Joint::Hip => &[J::Hip],
        Joint::Shoulder => &[J::Shoulder(Side::Left), J::Shoulder(Side::Right)],
        Joint::Neck => &[J::Neck],
    }
}
