//! A trial stem: a position that was ridden, entered as where the hands came to lie, not as parts.
//!
//! Bike frame, mm and rad.

use glam::DVec2;

use crate::HandPlace;
use crate::cockpit::{Cockpit, CockpitError, LeverPair, Mount, Stem};
use crate::frame::{heading_rad, wrapped_rad};

/// Where a trial put a hand place, against the cockpit as it came.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TrialPosition {
    /// Which hand place was measured.
    pub place: HandPlace,
    /// Ahead of where it was, mm; behind negative.
    pub ahead_mm: f64,
    /// Above where it was, mm; below negative.
    pub up_mm: f64,
    /// Bar rolled further nose up, rad.
    pub roll_rad: f64,
    /// Both levers moved along the bar towards the hoods, mm.
    pub levers_mm: f64,
}

/// The cockpit of a trial: bar, levers and frame as they came, rolled and shifted as said, on a
/// stem of no make that brings the hand place (midway between the hands) where it was ridden.
/// None for the hoods of a bar without levers.
///
/// # Errors
/// [`CockpitError`] for a number that is none, or a lever that would leave the bar.
pub fn trial_cockpit(
    as_it_came: &Cockpit,
    trial: &TrialPosition,
) -> Result<Option<Cockpit>, CockpitError> {
    let roll_rad = as_it_came.roll_rad() + trial.roll_rad;
    let levers = as_it_came.levers().map(|pair| shifted(pair, trial.levers_mm));
    let on = |stem: Stem| {
        Cockpit::new(
            *as_it_came.front(),
            stem,
            as_it_came.spacers_mm(),
            as_it_came.bend().clone(),
            roll_rad,
            levers.clone(),
            as_it_came.drops_hand_mm(),
        )
    };
    let on_old_stem = on(*as_it_came.stem())?;
    let at = |cockpit: &Cockpit| cockpit.grips(trial.place).map(|p| p.midway().truncate());
    let (Some(was), Some(is)) = (at(as_it_came), at(&on_old_stem)) else { return Ok(None) };
    let by = was + DVec2::new(trial.ahead_mm, trial.up_mm) - is;
    on(reaching(&on_old_stem, by)).map(Some)
}

/// The stem from the same foot whose clamp lies `by` further on.
fn reaching(cockpit: &Cockpit, by: DVec2) -> Stem {
    let (front, old) = (cockpit.front(), *cockpit.stem());
    let way = cockpit.clamp() + by - old.foot(front, cockpit.spacers_mm());
    let square_rad = Stem { angle_rad: 0.0, ..old }.direction(front).to_angle();
    let angle_rad = wrapped_rad(heading_rad(way.extend(0.0)) - square_rad);
    Stem { length_mm: way.length(), angle_rad, ..old }
}

fn shifted(pair: &LeverPair, by_mm: f64) -> LeverPair {
    let moved = |mount: Mount| Mount { along_mm: mount.along_mm + by_mm, ..mount };
    LeverPair { left: moved(pair.left), right: moved(pair.right), ..pair.clone() }
}
