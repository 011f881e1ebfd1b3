//! What the model foretells of a trial when it begins: kept with it, and held against what is seen.

use super::WeighedCockpit;
use fit_doc::{HandPlace, Reaches, RideBrake, RideNumber, RideRow, Visit, Where};

/// Where the hands are looked at on a trial.
pub const SEEN_ON_A_RIDE: [HandPlace; 2] = [HandPlace::Hoods, HandPlace::Drops];

/// Trunk, elbow and neck with the hands on the hoods and in the drops, degrees to a hundredth; what is
/// out of reach is not foretold.
pub fn foretold(of: &WeighedCockpit) -> Vec<RideNumber> {
    let mut all = Vec::new();
    for place in SEEN_ON_A_RIDE {
        let Some(at) = of.places.get(&place).filter(|at| at.is_reached()) else { continue };
        let [left, right] = &at.report.arms;
        for row in RideRow::ALL {
            let rad = match row {
                RideRow::Trunk => at.report.trunk_rad,
                RideRow::Elbow => f64::midpoint(left.elbow_rad, right.elbow_rad),
                RideRow::Neck => at.report.neck_need_rad,
            };
            let deg = (100.0 * rad.to_degrees()).round() / 100.0;
            all.push(RideNumber { row, place, deg });
        }
    }
    all
}

/// Whether each hand reaches the brake from the drops of a visit's cockpit. A hand that was looked at on
/// that very cockpit is not foretold: what was seen there is in what it is said to cover.
pub fn foretold_brakes(of: &WeighedCockpit, visit: &Visit) -> Vec<RideBrake> {
    let Some(brakes) = of.brakes else { return Vec::new() };
    let sides = [Where::Left, Where::Right].into_iter().zip(brakes.covers).zip(brakes.drops_mm);
    let foretold = |((side, cover), span_mm): ((Where, fit_math::hand::Cover), f64)| {
        let reaches = Reaches::with_to_spare_mm(cover.mm - span_mm);
        (!visit.looked_at_hand(&of.id, side)).then_some(RideBrake { side, reaches })
    };
    sides.filter_map(foretold).collect()
}
