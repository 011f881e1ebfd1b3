//! The limits beyond which a number is not a drop bar's: a slip of the pen, not a rare bar.
//!
//! mm and rad. It deliberately does not judge whether a bend exists (see `solve`) nor whether a
//! number is unusual (the document asks about that).
//! Source of all limits: judgement, wider than any bar sold; width after ISO 4210-2 (350–1000 mm),
//! opened downwards for children's bars.

use core::f64::consts::PI;

use super::build::OUTSWEEP_RADIUS_MM;
use super::dimensions::{BarDimensions, Family, Flare, WidthAt};
use super::refusal::BarRefusal;

const DEGREE_RAD: f64 = PI / 180.0;

/// Least and most of a number.
type Limits = (f64, f64);

pub(super) const REACH_MM: Limits = (20.0, 250.0);
pub(super) const DROP_MM: Limits = (30.0, 350.0);
const WIDTH_MM: Limits = (200.0, 1000.0);
pub(super) const FLARE_RAD: Limits = (-10.0 * DEGREE_RAD, 45.0 * DEGREE_RAD);
const SWEEP_RAD: Limits = (-10.0 * DEGREE_RAD, 30.0 * DEGREE_RAD);
const SLOPE_RAD: Limits = (-15.0 * DEGREE_RAD, 35.0 * DEGREE_RAD);
const TAIL_MM: Limits = (0.0, 150.0);
pub(super) const FORWARD_BEND_MM: Limits = (12.0, 100.0);
const TUBE_MM: Limits = (15.0, 50.0);
const DEPTH_MM: Limits = (15.0, 80.0);
const PROPORTION: Limits = (0.1, 3.0);

/// Whether a number lies within its limits; one that is not a number does not.
fn within(value: f64, (from, to): Limits) -> bool {
    from <= value && value <= to
}

pub(super) fn check(field: &'static str, value: f64, (from, to): Limits) -> Result<(), BarRefusal> {
    if within(value, (from, to)) {
        Ok(())
    } else {
        Err(BarRefusal::Invalid { field, value, from, to })
    }
}

/// Whether a reach and a drop are within their limits.
pub(super) fn is_reach_and_drop(reach_mm: f64, drop_mm: f64) -> bool {
    within(reach_mm, REACH_MM) && within(drop_mm, DROP_MM)
}

/// Checks every number by itself and the fields that exclude each other.
pub(super) fn validate(bar: &BarDimensions) -> Result<(), BarRefusal> {
    check("reach_mm", bar.reach_mm, REACH_MM)?;
    check("drop_mm", bar.drop_mm, DROP_MM)?;
    check("width_mm", bar.width_mm, WIDTH_MM)?;
    match bar.flare {
        Flare::Angle(flare_rad) => check("flare", flare_rad, FLARE_RAD)?,
        Flare::EndsWidth { width_mm, .. } => {
            check("flare", width_mm, WIDTH_MM)?;
            if bar.width_at == WidthAt::Ends {
                return Err(BarRefusal::Contradiction { field: "flare", with: "width_at" });
            }
        }
    }
    check("outsweep_rad", bar.outsweep_rad, SWEEP_RAD)?;
    check("backsweep_rad", bar.backsweep_rad, SWEEP_RAD)?;
    check("rise_rad", bar.rise_rad, SWEEP_RAD)?;
    check("ramp_outsweep_rad", bar.ramp_outsweep_rad, SWEEP_RAD)?;
    check("ramp_slope_rad", bar.ramp_slope_rad, SLOPE_RAD)?;
    check("tail_slope_rad", bar.tail_slope_rad, SLOPE_RAD)?;
    check("tail_length_mm", bar.tail_length_mm, TAIL_MM)?;
    check("forward_bend_radius_mm", bar.forward_bend_radius_mm, FORWARD_BEND_MM)?;
    check("clamp_diameter_mm", bar.clamp_diameter_mm, TUBE_MM)?;
    check("tops_mm", bar.tops_mm, TUBE_MM)?;
    check("drops_mm", bar.drops_mm, TUBE_MM)?;
    if let Some(depth_mm) = bar.tops_depth_mm {
        check("tops_depth_mm", depth_mm, DEPTH_MM)?;
    }
    if let Some(proportions) = bar.proportions {
        if bar.family == Family::Round {
            return Err(BarRefusal::Contradiction { field: "proportions", with: "family" });
        }
        for proportion in proportions {
            check("proportions", proportion, PROPORTION)?;
        }
    }
    if bar.outsweep_rad.abs() * OUTSWEEP_RADIUS_MM > bar.tail_length_mm {
        return Err(BarRefusal::Contradiction { field: "outsweep_rad", with: "tail_length_mm" });
    }
    Ok(())
}
