//! Where the solving starts: the bar as it is known, saddle and clamp from the readings taken at
//! their face, usual values for what was not read. It matters only for the number of steps.

use super::reading::{Of, Reading};
use super::unknown::{Known, Unknown, Values};

/// Usual values where nothing was read, mm (judgement, the middle of what a fitter meets).
const SADDLE_HEIGHT_MM: f64 = 720.0;
const NOSE_BEHIND_MM: f64 = 50.0;
const NOSE_TO_WIDE_MM: f64 = 135.0;
const NOSE_TO_BAR_MM: f64 = 520.0;
const BAR_BELOW_MM: f64 = 50.0;

/// Values to start from.
pub(super) fn start(known: &Known, readings: &[Reading]) -> Values {
    let read = |wanted: fn(Of) -> bool| readings.iter().find(|r| wanted(r.of)).map(|r| r.value);
    let height_mm = read(|of| of == Of::SaddleHeight).unwrap_or(SADDLE_HEIGHT_MM);
    let behind_mm = read(|of| of == Of::NoseBehindAxle).unwrap_or(NOSE_BEHIND_MM);
    let to_wide_mm = read(|of| matches!(of, Of::NoseToWide(_))).unwrap_or(NOSE_TO_WIDE_MM);
    let to_front_mm = read(|of| matches!(of, Of::NoseToHookFront(_)));
    let to_bar_mm = read(|of| matches!(of, Of::NoseToBar(_)))
        .or(to_front_mm.map(|to_front_mm| to_front_mm - known.bar.reach_mm))
        .unwrap_or(NOSE_TO_BAR_MM);
    let lowest_mm = read(|of| of == Of::HookLowestBelowSaddle);
    let below_mm = read(|of| of == Of::BarBelowSaddle)
        .or(lowest_mm.map(|lowest_mm| lowest_mm - known.bar.drop_mm))
        .unwrap_or(BAR_BELOW_MM);
    let tilt_rad = read(|of| of == Of::SaddleTilt).map_or(0.0, |tilt| tilt - known.pitch_rad);
    let sit_x = behind_mm + to_wide_mm;
    let sit_y = (height_mm * height_mm - sit_x * sit_x).max(0.0).sqrt();

    let mut values = Values::zero();
    values.set(Unknown::SaddleHeight, height_mm);
    values.set(Unknown::NoseBehindAxle, behind_mm);
    values.set(Unknown::NoseToWide, to_wide_mm);
    values.set(Unknown::SaddleTilt, tilt_rad);
    values.set(Unknown::ClampX, to_bar_mm - behind_mm);
    values.set(Unknown::ClampY, sit_y - below_mm);
    values.set(Unknown::Reach, known.bar.reach_mm);
    values.set(Unknown::Drop, known.bar.drop_mm);
    values.set(Unknown::Width, known.bar.width_mm);
    values.set(Unknown::RampSlope, known.bar.ramp_slope_rad);
    values.set(Unknown::TailSlope, known.bar.tail_slope_rad);
    values.set(Unknown::TailLength, known.bar.tail_length_mm);
    if let Some(pair) = &known.levers {
        let along_mm = read(|of| of == Of::LeverFromEnd).unwrap_or(pair.right.along_mm);
        values.set(Unknown::Along, along_mm);
    }
    values
}
