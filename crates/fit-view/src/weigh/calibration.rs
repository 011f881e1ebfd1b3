//! The client as seen on the bike: what calibrates the model, and what is said where it cannot.
//!
//! Bike frame, mm and radians. Readings of all cockpits on one saddle count together; the elbow that
//! was read stands for both arms.

use super::weighed::WeighedCockpit;
use fit_doc::{Message, Place, Visit};
use fit_math::frame::Side;
use fit_math::posture::{
    Angle, Calibration, CalibrationError, Prior, Reading, Rider, Seen, SeenError, calibrate,
};

/// The rider as seen; none where nothing was seen, or nothing that fits.
///
/// # Errors
/// Why what was seen does not fit this body or this saddle: to be asked about, the rider stays as
/// the model has it. `place` is the visit's.
pub(super) fn calibrated(
    place: &Place,
    visit: &Visit,
    rider: &Rider,
    cockpits: &[WeighedCockpit],
) -> Result<Option<Calibration>, Message> {
    let of = |seen: &fit_doc::Seen| cockpits.iter().find(|cockpit| cockpit.id == seen.cockpit);
    let Some(seat) = visit.seen.iter().find_map(|seen| Some(of(seen)?.seat)) else {
        return Ok(None);
    };
    let mut all = Vec::new();
    for (index, seen) in visit.seen.iter().enumerate() {
        // what was seen from another saddle would need a sit point of its own
        let Some(on) = of(seen).filter(|on| on.seat == seat) else { continue };
        let Some(at) = on.places.get(&seen.place) else { continue };
        let not_taken = |_: SeenError| Message::SeenDoesNotFit {
            place: place.field("seen").nth(index),
            shift: None,
        };
        let readings = readings(seen).map_err(not_taken)?;
        all.push(Seen { place: seen.place, grips: at.hands, slide_mm: seen.slide_mm, readings });
    }
    match calibrate(rider, &seat, &all, &Prior::usual()) {
        Ok(found) => Ok(Some(found)),
        Err(error) => {
            let shift = match error {
                CalibrationError::DoesNotFit { shift, by, .. }
                | CalibrationError::NotSettled { shift, by, .. } => Some((shift, by)),
                CalibrationError::Slide(_) | CalibrationError::Seat(_) => None,
            };
            Err(Message::SeenDoesNotFit { place: place.field("seen"), shift })
        }
    }
}

fn readings(seen: &fit_doc::Seen) -> Result<Vec<Reading>, SeenError> {
    let angles = [
        (Angle::Trunk, seen.trunk_deg),
        (Angle::Elbow(Side::Right), seen.elbow_deg),
        (Angle::Neck, seen.neck_deg),
        (Angle::Knee, seen.knee_deg),
    ];
    angles
        .into_iter()
        .filter_map(|(angle, deg)| Some(Reading::usual(angle, deg?.to_radians())))
        .collect()
}
