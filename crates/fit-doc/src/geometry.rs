//! From the document to the sums: degrees become radians, refusals become messages.

use crate::{
    Bar, Cockpit, CockpitClash, Flare, Frame, Lever, LeverSetting, Levers, Message, Place,
    Quantity, Stem,
};
use fit_math::DVec2;
use fit_math::bar::{BarDimensions, Bend, ClampZone};
use fit_math::cockpit::{
    self, Blade, CockpitError, CockpitNumber, FrontEnd, LeverPair, LeverShape, Mount,
};
use fit_math::frame::Side;
use fit_math::saddle::{Saddle, SaddleError, SaddleNumber, Seat};
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
            free_travel_mm: lever.blade.free_travel_mm,
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

/// The name of the setting of one side.
const fn side_field(side: Side) -> &'static str {
    match side {
        Side::Left => "left",
        Side::Right => "right",
    }
}

/// A whole cockpit on its frame; `place` is the cockpit's.
///
/// # Errors
/// Says what clashes: a bar that cannot be built, a lever beyond the bar, a number that is none.
pub fn cockpit(
    place: &Place,
    frame: &Frame,
    cockpit: &Cockpit,
) -> Result<cockpit::Cockpit, Message> {
    let bend = Arc::new(bend(&place.field("bar"), &cockpit.bar)?);
    let levers = cockpit.levers.as_ref().map(|levers| lever_pair(place, levers)).transpose()?;
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
        CockpitError::LeverOffBar { side, along_mm, half_mm } => {
            let place = place.field("levers").field(side_field(side)).field("along_mm");
            Message::LeverOffBar { place, along_mm, half_mm }
        }
        CockpitError::Number { field, found } => {
            no_number(place.clone(), cockpit_quantity(field), found)
        }
    })
}

fn lever_pair(place: &Place, levers: &Levers) -> Result<LeverPair, Message> {
    let place = place.field("levers").field("lever");
    let (from_mm, to_mm) = levers.lever.blade.usable_mm;
    if to_mm < from_mm {
        let place = place.field("blade").field("usable_mm");
        let clash = CockpitClash::BladeBackwards { from_mm, to_mm };
        return Err(Message::CockpitImpossible { place, clash });
    }
    // the first number that is none; the check refuses such numbers one by one before this
    let shape = lever_shape(&levers.lever)
        .checked()
        .map_err(|error| no_number(place, Quantity::LeverShape, error.found))?;
    Ok(LeverPair { shape: Arc::new(shape), left: mount(&levers.left), right: mount(&levers.right) })
}

/// Where the client sits on this cockpit's saddle, and the crank; `place` is the cockpit's.
///
/// # Errors
/// When a number of the saddle is none, or its point would lie further behind the axle than away
/// from it.
pub fn seat(place: &Place, frame: &Frame, cockpit: &Cockpit) -> Result<Seat, Message> {
    let seat = saddle(&cockpit.saddle).and_then(|saddle| Seat::on(&saddle, frame.crank_mm));
    seat.map_err(|error| saddle_refused(place, &error))
}

/// The saddle of this cockpit by itself; `place` is the cockpit's.
///
/// # Errors
/// As [`seat`].
pub fn saddle_of(place: &Place, cockpit: &Cockpit) -> Result<Saddle, Message> {
    saddle(&cockpit.saddle).map_err(|error| saddle_refused(place, &error))
}

fn saddle_refused(place: &Place, error: &SaddleError) -> Message {
    match *error {
        SaddleError::OutOfRange { what, value, .. } => {
            no_number(place.field("saddle"), saddle_quantity(what), value)
        }
        SaddleError::TooFarBehind { behind_mm, height_mm } => Message::CockpitImpossible {
            place: place.field("saddle").field("height_mm"),
            clash: CockpitClash::SaddleTooFarBehind { behind_mm, height_mm },
        },
    }
}

/// A saddle as it is set, for the sums.
///
/// # Errors
/// As [`seat`], before it is said where.
pub fn saddle(set: &crate::Saddle) -> Result<Saddle, SaddleError> {
    let tilt_rad = set.tilt_deg.to_radians();
    Saddle::new(set.height_mm, set.nose_behind_mm, set.sit_from_nose_mm, tilt_rad)
}

/// A number that the sums do not take, with the range of the trade; the check, whose ranges are
/// narrower than those of the sums, says so first.
fn no_number(place: Place, quantity: Quantity, found: f64) -> Message {
    let (least, most) = quantity.range().refuse;
    Message::Refused { place, quantity, found, least, most }
}

/// The document's quantity for a number of the sums.
fn cockpit_quantity(number: CockpitNumber) -> Quantity {
    match number {
        CockpitNumber::FrameStack => Quantity::FrameStack,
        CockpitNumber::FrameReach => Quantity::FrameReach,
        CockpitNumber::HeadAngle => Quantity::HeadAngle,
        CockpitNumber::HeadsetCover => Quantity::HeadsetCover,
        CockpitNumber::StemLength => Quantity::StemLength,
        CockpitNumber::StemAngle => Quantity::StemAngle,
        CockpitNumber::StemClampHeight => Quantity::StemClampHeight,
        CockpitNumber::Spacers => Quantity::Spacers,
        CockpitNumber::Roll => Quantity::Roll,
        CockpitNumber::HandInDrops => Quantity::HandInDrops,
        CockpitNumber::TurnIn => Quantity::LeverTurnIn,
    }
}

fn saddle_quantity(number: SaddleNumber) -> Quantity {
    match number {
        // the document has no sit point of its own: it stands where the saddle's height is measured
        SaddleNumber::Height | SaddleNumber::SitAhead | SaddleNumber::SitAbove => {
            Quantity::SaddleHeight
        }
        SaddleNumber::NoseBehind => Quantity::NoseBehind,
        SaddleNumber::NoseToSit => Quantity::SitFromNose,
        SaddleNumber::Tilt => Quantity::SaddleTilt,
        SaddleNumber::Crank => Quantity::Crank,
    }
}
