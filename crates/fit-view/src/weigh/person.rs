//! From what was read off a client to the rider that the posture needs.
//!
//! Lengths mm, weight kg, angles radians. Habits stay the usual ones of the client's sex: nothing
//! observed on the bike enters here.

use fit_doc::{Client, Dimension, Joint, Message, Mobility, Place, Quantity, Visit};
use fit_math::body::{Body, BodyError, SegmentError, Segments, Survey};
use fit_math::frame::Side;
use fit_math::posture::{self, Limits, Rider};

/// Largest joint range that is one, degrees: folded.
const FOLDED_DEG: f64 = 180.0;

/// The client's body: readings where there are any, the survey's figures for the rest.
/// `place` is the visit's.
pub(super) fn body(
    client: &Client,
    place: &Place,
    visit: &Visit,
    survey: &Survey,
) -> Result<Body, Message> {
    let readings: Vec<_> = visit
        .body
        .iter()
        .flat_map(|reading| reading.values.iter().map(|&value| (reading.dimension, value)))
        .collect();
    Body::new(survey, client.sex, &readings).map_err(|error| {
        let (dimension, found, (least, most)) = match error {
            BodyError::NotANumber { dimension } => {
                (dimension, f64::NAN, Quantity::Body(dimension).range().refuse)
            }
            BodyError::Impossible { dimension, value, lowest, highest } => {
                (dimension, value, (lowest.ceil(), highest.floor()))
            }
        };
        let place = place_of(&[dimension], place, visit);
        Message::Refused { place, quantity: Quantity::Body(dimension), found, least, most }
    })
}

/// The first reading of one of these dimensions; all readings where none of them was read.
fn place_of(dimensions: &[Dimension], visit_place: &Place, visit: &Visit) -> Place {
    let body = visit_place.field("body");
    let mut readings = visit.body.iter();
    match readings.position(|reading| dimensions.contains(&reading.dimension)) {
        Some(index) => body.nth(index).field("values"),
        None => body,
    }
}

/// The rider with the joint ranges that were measured.
/// `place` is the visit's.
pub(super) fn rider(place: &Place, visit: &Visit, body: &Body) -> Result<Rider, Message> {
    let segments = Segments::of(body).map_err(|error| {
        let (clash, length_mm): (&[Dimension], f64) = match error {
            SegmentError::NoLength { length_mm, from, .. }
            | SegmentError::TooLong { length_mm, from, .. } => (from, length_mm),
            SegmentError::HipOffSaddle { up_mm, .. } => {
                (&[Dimension::TrochanterionHeight, Dimension::CrotchHeight], up_mm)
            }
        };
        let place = place_of(clash, place, visit);
        Message::BodyImpossible { place, clash: clash.to_vec(), length_mm }
    })?;
    let mobilities = visit.mobility.iter().enumerate();
    let limits =
        mobilities.into_iter().try_fold(Limits::usual(), |limits, (index, mobility)| {
            with_mobility(limits, mobility).map_err(|()| Message::Refused {
                place: place.field("mobility").nth(index).field("limit_deg"),
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
