//! From what was read off a client to the rider that the posture needs.
//!
//! Lengths mm, weight kg, angles radians. Habits stay the usual ones of the client's sex: nothing
//! observed on the bike enters here.

use fit_doc::{
    Client, Dimension, Extent, Joint, Message, Mobility, Place, Quantity, Session, Visit,
    VisitPlace, Where, Whole,
};
use fit_math::body::{self, Body, Item, ReadError, SegmentError, Segments, Survey};
use fit_math::frame::Side;
use fit_math::mobility::{Motion, Norm};
use fit_math::posture::{self, Bound, Limits, Rider};

/// Largest joint range that is one, degrees: folded.
const FOLDED_DEG: f64 = 180.0;

/// The client's body: readings where there are any, the survey's figures for the rest; and, of a child
/// who was not measured enough, what is to be measured yet. Such a body is nobody's to be weighed.
/// `place` is the visit's.
pub(super) fn body(
    client: &Client,
    place: &Place,
    visit: &Visit,
    survey: &Survey,
) -> Result<(Body, Option<Message>), Message> {
    let readings: Vec<_> = readings(visit).map(|(_, reading)| reading).collect();
    let read = |age| Body::read(survey, client.sex, age, &readings);
    let mut child = None;
    let body = match read(age(client, visit)) {
        Err(ReadError::TooYoung { missing }) => {
            child = Some(Message::ChildNotMeasured { place: place.field("body"), missing });
            read(None)
        }
        as_read => as_read,
    };
    let body = body.map_err(|error| {
        let refused = |item: Item, found: f64, (least, most): (f64, f64)| {
            let at = visit
                .body
                .iter()
                .position(|reading| reading.item == item && reading.values.contains(&found));
            let body = place.field("body");
            let place = at.map_or(body.clone(), |at| body.nth(at).field("values"));
            Message::Refused { place, quantity: Quantity::Body(item), found, least, most }
        };
        match error {
            ReadError::NotANumber { item } => {
                refused(item, f64::NAN, Quantity::Body(item).range().refuse)
            }
            ReadError::Impossible { item, value, lowest, highest } => {
                refused(item, value, (lowest.ceil(), highest.floor()))
            }
            ReadError::TooYoung { missing } => {
                Message::ChildNotMeasured { place: place.field("body"), missing }
            }
        }
    })?;
    Ok((body, child))
}

/// Whether the client is a child no longer, as far as the year of birth tells; who does not give it is
/// taken for grown up.
pub(super) fn is_grown_up(client: &Client, visit: &Visit) -> bool {
    age(client, visit).is_none_or(|years| years >= body::GROWN_UP_YEARS)
}

/// Every single reading, with the place of its item among the visit's.
fn readings(visit: &Visit) -> impl Iterator<Item = (usize, body::Reading)> {
    visit.body.iter().enumerate().flat_map(|(index, of)| {
        let side = match of.side {
            Where::Left => Some(Side::Left),
            Where::Right => Some(Side::Right),
            Where::Both => None,
        };
        let one = move |&value: &f64| body::Reading { item: of.item, side, value };
        of.values.iter().map(move |value| (index, one(value)))
    })
}

/// Readings that the others make unlikely: to be looked at again, never refused.
pub fn doubtful(session: &Session, visit: &Visit, survey: &Survey) -> Vec<Message> {
    let (at, readings): (Vec<usize>, Vec<_>) = readings(visit).unzip();
    let place = Place::from(Whole::Visit(VisitPlace::of(session, visit))).field("body");
    let unlikely = body::unlikely(survey, session.client_at(visit).sex, &readings);
    // of readings that lie apart that is said already
    let asked = fit_doc::check_visit(session, visit).unusual;
    let apart = |of: Item| {
        let said = |m: &Message| matches!(m, Message::ReadingsApart { item, .. } if *item == of);
        asked.iter().any(said)
    };
    unlikely
        .into_iter()
        .filter(|of| !apart(of.item))
        .filter_map(|of| {
            let index = *at.get(*of.at.first()?)?;
            let side = |&of: &usize| Some(visit.body.get(*at.get(of)?)?.side);
            let first = side(of.at.first()?)?;
            let alike = of.at.iter().all(|of| side(of) == Some(first));
            Some(Message::ReadingUnlikely {
                place: place.nth(index).field("values"),
                item: of.item,
                side: if alike { first } else { Where::Both },
                found: of.value,
                expected: of.expected,
                slip: of.slip,
            })
        })
        .collect()
}

/// The first reading that is of one of these dimensions; all readings where none of them was read.
fn place_of(dimensions: &[Dimension], visit_place: &Place, visit: &Visit) -> Place {
    let body = visit_place.field("body");
    let mut readings = visit.body.iter();
    let is_of = |item: Item| dimensions.iter().any(|&d| item.gradient().weight(d) != 0.0);
    match readings.position(|reading| is_of(reading.item)) {
        Some(index) => body.nth(index).field("values"),
        None => body,
    }
}

/// The rider with the joint ranges that were measured.
/// `place` is the visit's.
pub(super) fn rider(
    client: &Client,
    place: &Place,
    visit: &Visit,
    body: &Body,
) -> Result<Rider, Message> {
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
    Ok(Rider::new(segments, body.sex()).with_limits(limits(place, client, visit)?))
}

/// What was found of the joints, as limits; of two sides of one joint that the model has once, the
/// stiffer one.
fn limits(place: &Place, client: &Client, visit: &Visit) -> Result<Limits, Message> {
    let mut limits = Limits::usual();
    for (index, mobility) in visit.mobility.iter().enumerate() {
        let limit_deg = limit_deg(client, visit, mobility);
        let refused = |_| Message::Refused {
            place: place.field("mobility").nth(index).field("extent"),
            quantity: Quantity::Mobility(mobility.joint),
            found: limit_deg,
            least: 0.0,
            most: FOLDED_DEG,
        };
        for &joint in joints(mobility) {
            let stiffer = limits.with_reading(joint, limit_deg.to_radians(), mobility.painful);
            let stiffer = stiffer.map_err(refused)?;
            let measured_before = matches!(limits.bound(joint), Bound::Measured(_));
            if !measured_before || stiffer.most(joint) < limits.most(joint) {
                limits = stiffer;
            }
        }
    }
    Ok(limits)
}

/// Where a joint ends, degrees: as measured, or what the word means at the client's age.
fn limit_deg(client: &Client, visit: &Visit, mobility: &Mobility) -> f64 {
    let word = match mobility.extent {
        Extent::Measured { deg } => return deg,
        Extent::Said(word) => word,
    };
    // a word is refused before for a joint without norms
    norm(client, visit, mobility.joint)
        .map_or(FOLDED_DEG, |norm| norm.word_deg(word).min(FOLDED_DEG))
}

/// What people of the client's age and sex have, for joints of which norms are known.
pub fn norm(client: &Client, visit: &Visit, joint: Joint) -> Option<Norm> {
    let motion = match joint {
        Joint::Hip => Motion::HipFlexion,
        Joint::Shoulder => Motion::ShoulderFlexion,
        Joint::Neck => Motion::NeckExtension,
        Joint::Spine | Joint::Pelvis => return None,
    };
    Some(Norm::of(motion, client.sex, age(client, visit)))
}

/// Years of age on the day of the visit, to within one.
fn age(client: &Client, visit: &Visit) -> Option<u32> {
    // whoever was born later than that is asked about, and is no adult
    Some(u32::try_from(visit.date.year() - client.born?).unwrap_or(0))
}

fn joints(mobility: &Mobility) -> &'static [posture::Joint] {
    use posture::Joint as J;
    match (mobility.joint, mobility.side) {
        (Joint::Spine, _) => &[J::Spine],
        (Joint::Pelvis, _) => &[J::Pelvis],
        (Joint::Hip, _) => &[J::Hip],
        (Joint::Neck, _) => &[J::Neck],
        (Joint::Shoulder, Where::Left) => &[J::Shoulder(Side::Left)],
        (Joint::Shoulder, Where::Right) => &[J::Shoulder(Side::Right)],
        (Joint::Shoulder, Where::Both) => &[J::Shoulder(Side::Left), J::Shoulder(Side::Right)],
    }
}

#[cfg(test)]
mod tests {
    use crate::testing::{candidates, session};
    use crate::weigh::schema::validator;
    use crate::weigh::{Survey, Weighed, json, weigh};
    use crate::words::English;
    use fit_doc::{Dimension as D, HandPlace, Item, Message, Reading, Session, Step, Where};
    use fit_math::frame::{Side, mirrored};
    use fit_math::posture::ArmReport;
    use std::sync::Arc;

    fn with(readings: &[(Item, Where, f64)]) -> Session {
        let mut session = session(candidates());
        let read =
            |&(item, side, value): &(Item, Where, f64)| Reading { item, side, values: vec![value] };
        Arc::make_mut(&mut session.visits[0]).body.extend(readings.iter().map(read));
        session
    }

    fn weighed(session: &Session) -> Weighed {
        weigh(session, None, &Survey::shipped().unwrap()).unwrap()
    }

    /// Under 18 nothing is estimated: who was not measured enough is not weighed, and opens all the same;
    /// who was is weighed by what was read alone.
    #[test]
    fn a_child_is_measured_or_not_weighed() {
        let mut session = with(&[]);
        session.client.born = Some(2014);
        let few = weighed(&session);
        assert!(few.cockpits.iter().all(|of| of.places.is_empty() && of.brakes.is_none()));
        let missing = few.notes.iter().find_map(|note| match note {
            Message::ChildNotMeasured { missing, .. } => Some(missing.clone()),
            _ => None,
        });
        let missing = missing.unwrap();
        assert!(!missing.contains(&D::TragionTopOfHead), "the head is only drawn");
        let read = |session: &Session| {
            let output = json(&weighed(session), &English).unwrap();
            let output: serde_json::Value = serde_json::from_str(&output).unwrap();
            assert!(validator().is_valid(&output));
            output["body"].as_object().unwrap().len()
        };
        assert_eq!(read(&session), 3, "what was read and no more");
        // a survey's mean made small, as a child of that stature might be
        let body = &few.body;
        let all: Vec<_> = missing
            .iter()
            .map(|&d| (Item::from(d), Where::Both, (body.value(d) * 0.9).round()))
            .collect();
        let mut measured = with(&all);
        measured.client.born = Some(2014);
        let found = weighed(&measured);
        assert!(found.cockpits.iter().all(|of| of.places.contains_key(&HandPlace::Tops)));
        assert!(found.measure_next().is_none(), "nothing tells of what is not estimated");
        assert_eq!(read(&measured), 3 + missing.len());
        // one reading less, and nothing is weighed again
        Arc::make_mut(&mut measured.visits[0]).body.pop();
        assert!(weighed(&measured).cockpits[0].places.is_empty());
    }

    #[test]
    fn arms_and_hands_that_differ_are_bent_and_reach_each_by_itself() {
        let (arm, hand) = (Item::ShoulderToFist, Item::from(D::HandLength));
        let uneven = weighed(&with(&[
            (arm, Where::Left, 620.0),
            (arm, Where::Right, 650.0),
            (hand, Where::Left, 180.0),
            (hand, Where::Right, 195.0),
        ]));
        let at = &uneven.cockpits[0].places[&HandPlace::Hoods];
        let elbow = |side| at.report.arm(side).elbow_rad.to_degrees();
        // some of 30 mm is the tape's error; the longer arm bends more
        assert!(elbow(Side::Right) > elbow(Side::Left) + 3.0, "{:?}", at.report.arms);
        let [left, right] = uneven.cockpits[0].brakes.unwrap().covers.map(|cover| cover.mm);
        assert!(right > left + 2.0, "{left} {right}");
        let even = weighed(&with(&[(arm, Where::Both, 635.0), (hand, Where::Both, 187.5)]));
        let at = &even.cockpits[0].places[&HandPlace::Hoods];
        let right = at.report.arm(Side::Right);
        let mirrored = ArmReport { forearm: mirrored(right.forearm), ..*right };
        assert_eq!(*at.report.arm(Side::Left), mirrored);
    }

    #[test]
    fn what_lies_between_landmarks_is_believed_and_asked_about() {
        let read = |item, value| weighed(&with(&[(item, Where::Both, value)]));
        let short = read(Item::ShoulderToFist, 600.0).body;
        let long = read(Item::ShoulderToFist, 660.0).body;
        assert!(
            long.value(D::AcromionRadialeLength) > short.value(D::AcromionRadialeLength) + 15.0
        );
        let doubtful = |item, value| {
            let notes = read(item, value).notes;
            notes.into_iter().find_map(|note| match note {
                Message::ReadingUnlikely { item, slip, .. } => Some((item, slip.map(|s| s.meant))),
                _ => None,
            })
        };
        assert_eq!(doubtful(Item::Notch, 595.0), None);
        assert_eq!(doubtful(Item::Notch, 840.0), Some((Item::Notch, None)));
        // two digits changed about
        let (item, meant) = doubtful(Item::ShoulderToFist, 365.0).unwrap();
        assert_eq!((item, meant), (Item::ShoulderToFist, Some(635.0)));
    }

    #[test]
    fn the_side_that_is_unlikely_is_named() {
        let arm = Item::ShoulderToFist;
        let uneven = weighed(&with(&[(arm, Where::Left, 635.0), (arm, Where::Right, 356.0)]));
        let [(place, side)] = &uneven
            .notes
            .iter()
            .filter_map(|note| match note {
                Message::ReadingUnlikely { place, side, .. } => Some((place, *side)),
                _ => None,
            })
            .collect::<Vec<_>>()[..]
        else {
            panic!("{:?}", uneven.notes)
        };
        assert_eq!(*side, Where::Right);
        let read = session(candidates()).visits[0].body.len();
        assert_eq!(place.way[1], Step::Nth(read + 1));
    }

    /// Arms of different lengths tell of hands, but not against a length read of both hands.
    #[test]
    fn hands_read_as_one_cover_alike_on_arms_that_differ() {
        let (arm, hand) = (Item::ShoulderToFist, Item::from(D::HandLength));
        let arms = [(arm, Where::Left, 620.0), (arm, Where::Right, 650.0)];
        let one = weighed(&with(&[arms[0], arms[1], (hand, Where::Both, 187.0)]));
        let [left, right] = one.cockpits[0].brakes.unwrap().covers.map(|cover| cover.mm);
        assert_eq!(left, right);
    }

    #[test]
    fn what_the_sums_refuse_is_said_of_the_very_reading() {
        // within the document's range, beyond what any person has
        let arm = Item::ShoulderToFist;
        let wrong = with(&[(arm, Where::Left, 640.0), (arm, Where::Right, 255.0)]);
        let refused = weigh(&wrong, None, &Survey::shipped().unwrap()).unwrap_err();
        let [Message::Refused { place, found, .. }] = &refused[..] else { panic!("{refused:?}") };
        assert_eq!(*found, 255.0);
        let read = wrong.visits[0].body.len();
        assert_eq!(place.way[1], Step::Nth(read - 1));
    }
}
