//! From the document to the sums: degrees become radians, refusals become messages.

use crate::{Bar, Cockpit, Flare, Frame, Lever, LeverSetting, Message, Place, Stem};
use fit_math::DVec2;
use fit_math::bar::{BarDimensions, Bend, ClampZone};
use fit_math::cockpit::{self, Blade, CockpitError, FrontEnd, LeverPair, LeverShape, Mount};
use std::sync::Arc;

/// The bend of a bar.
///
/// # Errors
/// Says why it cannot be built, with the nearest dimensions that can.
pub fn bend(place: &Place, bar: &Bar) -> Result<Bend, Message> {
    dimensions(bar).build().map_err(|refusal| Message::BarRefused { place: place.clone(), refusal })
}

/// The dimensions of a bar as the sums take them, radians.
pub fn dimensions(bar: &Bar) -> BarDimensions {
    BarDimensions {
        family: bar.family,
        proportions: bar.proportions,
        reach_mm: bar.reach_mm,
        drop_mm: bar.drop_mm,
        width_mm: bar.width_mm,
        width_at: bar.width_at,
        width_how: bar.width_how,
        flare: match bar.flare {
            Flare::Angle { deg } => fit_math::bar::Flare::Angle(deg.to_radians()),
            Flare::EndsWidth { mm, how } => fit_math::bar::Flare::EndsWidth { width_mm: mm, how },
        },
        outsweep_rad: bar.outsweep_deg.to_radians(),
        backsweep_rad: bar.backsweep_deg.to_radians(),
        rise_rad: bar.rise_deg.to_radians(),
        ramp_outsweep_rad: bar.ramp_outsweep_deg.to_radians(),
        ramp_slope_rad: bar.ramp_slope_deg.to_radians(),
        tail_slope_rad: bar.tail_slope_deg.to_radians(),
        tail_length_mm: bar.tail_length_mm,
        forward_bend_radius_mm: bar.forward_bend_radius_mm,
        clamp_diameter_mm: bar.clamp_diameter_mm,
        tops_mm: bar.tops_diameter_mm,
        drops_mm: bar.drops_diameter_mm,
        tops_depth_mm: bar.tops_depth_mm,
        clamp_zone: bar.clamp_zone_mm.map(|(lowest_along_mm, highest_along_mm)| ClampZone {
            lowest_along_mm,
            highest_along_mm,
        }),
    }
}

/// The front end of a frame.
pub fn front_end(frame: &Frame) -> FrontEnd {
    FrontEnd {
        stack_mm: frame.stack_mm,
        reach_mm: frame.reach_mm,
        head_angle_rad: frame.head_angle_deg.to_radians(),
        headset_cover_mm: frame.headset_cover_mm,
    }
}

/// A stem.
pub fn stem(stem: &Stem) -> cockpit::Stem {
    cockpit::Stem {
        length_mm: stem.length_mm,
        angle_rad: stem.angle_deg.to_radians(),
        clamp_height_mm: stem.clamp_height_mm,
    }
}

/// The stem that counts on a cockpit: the bar's own where it is one piece.
pub fn mounted_stem(cockpit: &Cockpit) -> cockpit::Stem {
    cockpit.bar.one_piece.map_or_else(
        || stem(&cockpit.stem),
        |own| cockpit::Stem {
            length_mm: own.stem_length_mm,
            angle_rad: own.stem_angle_deg.to_radians(),
            clamp_height_mm: own.stem_clamp_height_mm,
        },
    )
}

/// The roll that counts on a cockpit, degrees: none where bar and stem are one piece.
pub fn mounted_roll_deg(cockpit: &Cockpit) -> f64 {
    if cockpit.bar.one_piece.is_some() { 0.0 } else { cockpit.roll_deg }
}

/// The shape of a lever.
pub fn lever_shape(lever: &Lever) -> LeverShape {
    let point = |(forward, up): (f64, f64)| DVec2::new(forward, up);
    LeverShape {
        grip_mm: point(lever.grip_mm),
        hood_slope_rad: lever.hood_slope_deg.to_radians(),
        grip_radius_mm: lever.grip_radius_mm,
        hood_outline_mm: lever.hood_outline_mm.iter().map(|&p| point(p)).collect(),
        blade: Blade {
            pivot_mm: point(lever.blade.pivot_mm),
            length_mm: lever.blade.length_mm,
            usable_mm: lever.blade.usable_mm,
            rest_angle_rad: lever.blade.rest_angle_deg.to_radians(),
            adjuster_rad: lever.blade.adjuster_deg.iter().map(|a| a.to_radians()).collect(),
        },
    }
}

fn mount(setting: &LeverSetting) -> Mount {
    Mount {
        along_mm: setting.along_mm,
        turn_in_rad: setting.turn_in_deg.to_radians(),
        clicks: setting.clicks,
    }
}

/// A whole cockpit on its frame.
///
/// # Errors
/// Says what clashes: a bar that cannot be built, a lever beyond the bar, a number that is none.
pub fn cockpit(frame: &Frame, cockpit: &Cockpit) -> Result<cockpit::Cockpit, Message> {
    let place = Place::cockpit(&cockpit.label);
    let bend = Arc::new(bend(&place, &cockpit.bar)?);
    let impossible = |detail: String| Message::CockpitImpossible { place: place.clone(), detail };
    let levers = match &cockpit.levers {
        None => None,
        Some(levers) => {
            let shape = lever_shape(&levers.lever).checked();
            let shape = Arc::new(shape.map_err(|e| impossible(e.to_string()))?);
            Some(LeverPair { shape, left: mount(&levers.left), right: mount(&levers.right) })
        }
    };
    cockpit::Cockpit::new(
        front_end(frame),
        mounted_stem(cockpit),
        cockpit.spacers_mm,
        bend,
        mounted_roll_deg(cockpit).to_radians(),
        levers,
        cockpit.drops_hand_mm,
    )
    .map_err(|error| match error {
        CockpitError::LeverOffBar { along_mm, half_mm, .. } => {
            Message::LeverOffBar { place: place.clone(), along_mm, half_mm }
        }
        CockpitError::Number { .. } => impossible(error.to_string()),
    })
}
