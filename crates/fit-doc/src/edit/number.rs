//! Numbers by their quantity: one place that knows which field a quantity names.
//!
//! mm and degrees, as the document keeps them. A quantity that the thing does not have is none.

use super::UndoStep;
use crate::{Cockpit, Flare, Frame, LeverSetting, Message, Place, Quantity, WidthAt};

/// A number of a frame.
pub fn frame_number(frame: &Frame, quantity: Quantity) -> Option<f64> {
    frame_mut(&mut frame.clone(), quantity).map(|value| *value)
}

/// A number of a cockpit that both sides share.
pub fn cockpit_number(cockpit: &Cockpit, quantity: Quantity) -> Option<f64> {
    cockpit_mut(&mut cockpit.clone(), quantity).map(|value| *value)
}

/// A number of a lever's setting.
pub fn lever_number(setting: &LeverSetting, quantity: Quantity) -> Option<f64> {
    match quantity {
        Quantity::LeverAlong => Some(setting.along_mm),
        Quantity::LeverTurnIn => Some(setting.turn_in_deg),
        Quantity::LeverClicks => Some(f64::from(setting.clicks)),
        _ => None,
    }
}

pub(super) fn frame_mut(frame: &mut Frame, quantity: Quantity) -> Option<&mut f64> {
    use Quantity as Q;
    Some(match quantity {
        Q::FrameStack => &mut frame.stack_mm,
        Q::FrameReach => &mut frame.reach_mm,
        Q::HeadAngle => &mut frame.head_angle_deg,
        Q::SeatAngle => &mut frame.seat_angle_deg,
        Q::HeadsetCover => &mut frame.headset_cover_mm,
        Q::HeadTube => &mut frame.head_tube_mm,
        Q::ForkOffset => &mut frame.fork_offset_mm,
        Q::WheelRadius => &mut frame.wheel_radius_mm,
        Q::BottomBracketDrop => &mut frame.bottom_bracket_drop_mm,
        Q::RearCentre => &mut frame.rear_centre_mm,
        Q::Crank => &mut frame.crank_mm,
        _ => return None,
    })
}

pub(super) fn cockpit_mut(cockpit: &mut Cockpit, quantity: Quantity) -> Option<&mut f64> {
    use Quantity as Q;
    let (bar, stem, saddle) = (&mut cockpit.bar, &mut cockpit.stem, &mut cockpit.saddle);
    Some(match quantity {
        Q::Spacers => &mut cockpit.spacers_mm,
        Q::Roll => &mut cockpit.roll_deg,
        Q::HandInDrops => &mut cockpit.drops_hand_mm,
        Q::SaddleHeight => &mut saddle.height_mm,
        Q::NoseBehind => &mut saddle.nose_behind_mm,
        Q::SitFromNose => &mut saddle.sit_from_nose_mm,
        Q::SaddleTilt => &mut saddle.tilt_deg,
        Q::StemLength => match &mut bar.one_piece {
            Some(own) => &mut own.stem_length_mm,
            None => &mut stem.length_mm,
        },
        Q::StemAngle => match &mut bar.one_piece {
            Some(own) => &mut own.stem_angle_deg,
            None => &mut stem.angle_deg,
        },
        Q::StemClampHeight => match &mut bar.one_piece {
            Some(own) => &mut own.stem_clamp_height_mm,
            None => &mut stem.clamp_height_mm,
        },
        Q::BarReach => &mut bar.reach_mm,
        Q::BarDrop => &mut bar.drop_mm,
        Q::BarWidthAtHoods if bar.width_at == WidthAt::Hoods => &mut bar.width_mm,
        Q::BarWidthAtEnds if bar.width_at == WidthAt::Ends => &mut bar.width_mm,
        Q::BarWidthAtEnds => match &mut bar.flare {
            Flare::EndsWidth { mm, .. } => mm,
            Flare::Angle { .. } => return None,
        },
        Q::Flare => match &mut bar.flare {
            Flare::Angle { deg } => deg,
            Flare::EndsWidth { .. } => return None,
        },
        Q::RampSlope => &mut bar.ramp_slope_deg,
        Q::TailSlope => &mut bar.tail_slope_deg,
        Q::TailLength => &mut bar.tail_length_mm,
        _ => return None,
    })
}

/// Whether the quantity belongs to the bar's own shape, so that a bar from stock is no longer that
/// stock item once it is changed.
pub(super) fn shapes_bar(cockpit: &Cockpit, quantity: Quantity) -> bool {
    use Quantity as Q;
    let bar = [Q::BarReach, Q::BarDrop, Q::BarWidthAtHoods, Q::BarWidthAtEnds, Q::Flare];
    let more = [Q::RampSlope, Q::TailSlope, Q::TailLength];
    let stem = [Q::StemLength, Q::StemAngle, Q::StemClampHeight];
    bar.contains(&quantity)
        || more.contains(&quantity)
        || (cockpit.bar.one_piece.is_some() && stem.contains(&quantity))
}

/// Whether the quantity belongs to the stem's own shape. The angle does not: a reversible stem has
/// two.
pub(super) fn shapes_stem(quantity: Quantity) -> bool {
    matches!(quantity, Quantity::StemLength | Quantity::StemAngle | Quantity::StemClampHeight)
}

/// Sets a number and names the step.
pub(super) fn step(
    value: Option<&mut f64>,
    of: Option<String>,
    quantity: Quantity,
    to: f64,
) -> Result<UndoStep, Message> {
    let Some(value) = value else {
        let place = of.map_or(Place::client(), |label| Place::cockpit(&label));
        return Err(Message::NoSuchNumber { place, quantity });
    };
    let from = Some(core::mem::replace(value, to));
    Ok(UndoStep::Number { of, quantity, from, to: Some(to) })
}
