//! The client as seen on the bike: what calibrates the model, and what is said where it cannot.
//!
//! Bike frame, mm and radians. Readings of all cockpits on one saddle count together. The elbow is one
//! number for two arms: it is taken for each, half as sure, so that their mean is what was read.

use super::bench::Placed;
use fit_doc::{Message, Place, Quantity, Visit};
use fit_math::body::Body;
use fit_math::doubt::Person;
use fit_math::frame::Side;
use fit_math::posture::{
    Angle, Calibration, CalibrationError, Grips, Prior, Reading, Rider, Seen, SeenError, calibrate,
};

/// The rider as seen; none where nothing was seen, or nothing that fits.
///
/// # Errors
/// Why what was seen does not fit this body or this saddle: to be asked about, the rider stays as
/// the model has it. `place` is the visit's.
pub(super) fn calibrated<'a>(
    place: &Place,
    visit: &Visit,
    rider: &Rider,
    body: &Body,
    find: impl Fn(&str) -> Option<&'a Placed<'a>>,
) -> Result<Option<Calibration>, Message> {
    let Some(seat) = visit.seen.iter().find_map(|seen| Some(find(&seen.cockpit)?.seat)) else {
        return Ok(None);
    };
    // what is left out leaves no gap in what the sums count
    let (mut all, mut from) = (Vec::new(), Vec::new());
    for (index, seen) in visit.seen.iter().enumerate() {
        // what was seen from another saddle would need a sit point of its own
        let Some(on) = find(&seen.cockpit).filter(|on| on.seat == seat) else { continue };
        let Some(grips) = on.cockpit.grips(seen.place) else { continue };
        let does_not_fit =
            || Message::SeenDoesNotFit { place: place.field("seen").nth(index), shift: None };
        let grips =
            Grips::new(grips.right.centre, grips.left.centre).map_err(|_| does_not_fit())?;
        let readings = readings(seen).map_err(|_| does_not_fit())?;
        all.push(Seen { place: seen.place, grips, slide_mm: seen.slide_mm, readings });
        from.push(index);
    }
    calibrate(rider, &seat, &all, &Prior::of(body)).map(Some).map_err(|error| {
        let place = place.field("seen");
        match error {
            CalibrationError::Contradicts { seen, angle, seen_rad, after_rad } => {
                Message::SeenContradicts {
                    place: place.nth(from[seen]),
                    quantity: quantity(angle),
                    seen_deg: seen_rad.to_degrees(),
                    beside_deg: after_rad.to_degrees(),
                }
            }
            CalibrationError::DoesNotFit { shift, by, .. }
            | CalibrationError::NotSettled { shift, by, .. } => {
                Message::SeenDoesNotFit { place, shift: Some((shift, by)) }
            }
            CalibrationError::Slide(_) | CalibrationError::Seat(_) => {
                Message::SeenDoesNotFit { place, shift: None }
            }
        }
    })
}

const fn quantity(angle: Angle) -> Quantity {
    match angle {
        Angle::Trunk => Quantity::SeenTrunk,
        Angle::Elbow(_) => Quantity::SeenElbow,
        Angle::Neck => Quantity::SeenNeck,
        Angle::Knee => Quantity::SeenKnee,
    }
}

/// What is not known of the client on the bike: what was seen leaves less open.
pub(super) fn person(body: &Body, calibration: Option<&Calibration>) -> Person {
    calibration.map_or_else(|| Person::unseen(&Prior::of(body)), Person::seen)
}

fn readings(seen: &fit_doc::Seen) -> Result<Vec<Reading>, SeenError> {
    let angles = [
        (Angle::Trunk, seen.trunk_deg),
        (Angle::Neck, seen.neck_deg),
        (Angle::Knee, seen.knee_deg),
    ];
    let one = angles
        .into_iter()
        .filter_map(|(angle, deg)| Some(Reading::usual(angle, deg?.to_radians())));
    let elbows = Side::BOTH.into_iter().filter_map(|side| {
        let angle = Angle::Elbow(side);
        let sd_rad = angle.usual_sd_rad() * core::f64::consts::SQRT_2;
        Some(Reading::new(angle, seen.elbow_deg?.to_radians(), sd_rad))
    });
    one.chain(elbows).collect()
}

#[cfg(test)]
mod tests {
    use crate::testing::{candidates, session};
    use crate::weigh::{Survey, Weighed, weigh};
    use fit_doc::{HandPlace, Message, Seen};
    use std::sync::Arc;

    fn seen(trunk_deg: Option<f64>, elbow_deg: Option<f64>) -> Weighed {
        let mut session = session(candidates());
        let visit = Arc::make_mut(&mut session.visits[0]);
        visit.seen = vec![Seen {
            cockpit: visit.as_it_came.id.clone(),
            place: HandPlace::Hoods,
            trunk_deg,
            elbow_deg,
            neck_deg: None,
            knee_deg: None,
            slide_mm: None,
        }];
        weigh(&session, None, &Survey::shipped().unwrap()).unwrap()
    }

    fn at_hoods(weighed: &Weighed) -> (f64, f64) {
        let report = &weighed.cockpits[0].places[&HandPlace::Hoods].report;
        let [left, right] = report.arms.map(|arm| arm.elbow_rad.to_degrees());
        (report.trunk_rad.to_degrees(), f64::midpoint(left, right))
    }

    #[test]
    fn the_client_comes_nearer_to_what_was_seen_and_candidates_keep_their_differences() {
        let model = weigh(&session(candidates()), None, &Survey::shipped().unwrap()).unwrap();
        let (trunk, elbow) = at_hoods(&model);
        assert!(model.calibration.is_none());
        let client = seen(Some(trunk - 3.0), Some(elbow - 6.0));
        let (lower, straighter) = at_hoods(&client);
        assert!(lower < trunk - 1.0 && lower > trunk - 3.0, "{trunk} {lower}");
        assert!(straighter < elbow - 1.0, "{elbow} {straighter}");
        let change = |of: &Weighed| {
            let trunk =
                |index: usize| of.cockpits[index].places[&HandPlace::Drops].report.trunk_rad;
            (trunk(1) - trunk(0)).to_degrees()
        };
        assert!((change(&model) - change(&client)).abs() < 0.1 * change(&model).abs() + 0.02);
        let same = seen(Some(trunk), Some(elbow));
        let by = same.calibration.unwrap();
        assert!(by.shifts().each().iter().all(|by| by.abs() < 0.5), "{:?}", by.shifts());
    }

    /// A trunk about where it is with elbows that much bent: no one client is both, on any reading of it.
    #[test]
    fn two_elbows_count_as_the_one_reading_that_they_are() {
        let model = weigh(&session(candidates()), None, &Survey::shipped().unwrap()).unwrap();
        let (trunk, elbow) = at_hoods(&model);
        let bent = seen(Some(trunk + 2.0), Some(elbow + 60.0));
        assert!(bent.calibration.is_none());
        let said = |note: &Message| {
            matches!(note, Message::SeenContradicts { .. } | Message::SeenDoesNotFit { .. })
        };
        assert!(bent.notes.iter().any(said), "{:?}", bent.notes);
        assert!((at_hoods(&bent).0 - trunk).abs() < 1e-9, "left out");
    }

    #[test]
    fn what_contradicts_the_rest_is_said_and_left_out() {
        let mut session = session(candidates());
        let visit = Arc::make_mut(&mut session.visits[0]);
        let (cockpit, place) = (visit.as_it_came.id.clone(), HandPlace::Hoods);
        let trunk = |place, deg| Seen {
            cockpit: cockpit.clone(),
            place,
            trunk_deg: Some(deg),
            elbow_deg: None,
            neck_deg: None,
            knee_deg: None,
            slide_mm: None,
        };
        // nobody sits up to reach the drops
        visit.seen = vec![trunk(place, 45.0), trunk(HandPlace::Drops, 55.0)];
        let weighed = weigh(&session, None, &Survey::shipped().unwrap()).unwrap();
        assert!(weighed.calibration.is_none());
        let said = weighed.notes.iter().find_map(|note| match note {
            Message::SeenContradicts { seen_deg, beside_deg, .. } => Some((*seen_deg, *beside_deg)),
            _ => None,
        });
        let (seen_deg, beside_deg) = said.unwrap();
        assert!((seen_deg - 55.0).abs() < 1e-9 && beside_deg < 49.0, "{seen_deg} {beside_deg}");
        Arc::make_mut(&mut session.visits[0]).seen.truncate(1);
        assert!(weigh(&session, None, &Survey::shipped().unwrap()).unwrap().calibration.is_some());
    }

    #[test]
    fn what_does_not_fit_is_said_and_left_out() {
        let (trunk, _) =
            at_hoods(&weigh(&session(candidates()), None, &Survey::shipped().unwrap()).unwrap());
        let weighed = seen(Some(trunk + 25.0), None);
        assert!(weighed.calibration.is_none());
        assert!(weighed.notes.iter().any(|m| matches!(m, Message::SeenDoesNotFit { .. })));
        assert_eq!(at_hoods(&weighed).0, trunk);
    }
}
