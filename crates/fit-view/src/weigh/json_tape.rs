//! What `weigh --json` prints of the tape: a row for each reading, what does not go with the others,
//! and what was found, each with its SD.
//!
//! mm and degrees. What is known beforehand stands beside readings as `known/…`. Null is what the
//! readings leave open, or what stands alone and cannot be checked. Nothing is computed here.

use super::output::Number;
use fit_doc::tape::{Blamed, HoodAt, Laid, Of, TapeAnswer, TapeRow, TapeSlip, Unknown};
use fit_doc::{HandPlace, TapeDoubt, TapeItem, TapeReading, WidthHow};
use fit_math::tape::{PlaceEstimate, frame_from_clamp};
use serde::Serialize;

#[derive(Serialize)]
pub(super) struct TapeOut {
    readings: Vec<ReadingOut>,
    suspicion: Option<SuspicionOut>,
    found: Option<FoundOut>,
    /// What the readings leave open and is taken as the session has it.
    open: Vec<&'static str>,
}

#[derive(Serialize)]
struct ReadingOut {
    of: &'static str,
    /// How it was laid.
    how: Vec<&'static str>,
    value: Number,
    found: Option<Number>,
    residual: Option<Number>,
    standardised: Option<Number>,
    alone: bool,
    alike: Vec<String>,
}

#[derive(Serialize)]
struct SuspicionOut {
    of: String,
    value: Number,
    too_large_by: Number,
    sd: Number,
    standardised: Number,
    slip: Option<&'static str>,
    meant: Vec<MeantOut>,
    alike: Vec<String>,
    rest_agrees: bool,
}

#[derive(Serialize)]
struct MeantOut {
    of: &'static str,
    how: Vec<&'static str>,
    value: Number,
}

#[derive(Serialize)]
struct FoundOut {
    clamp: Option<PointOut>,
    hoods: Option<PointOut>,
    drops: Option<PointOut>,
    saddle_height: Option<ValueOut>,
    nose_behind: Option<ValueOut>,
    sit_from_nose: Option<ValueOut>,
    tilt: Option<ValueOut>,
    roll: Option<ValueOut>,
    bar_reach: Option<ValueOut>,
    bar_drop: Option<ValueOut>,
    bar_width: Option<ValueOut>,
    ramp_slope: Option<ValueOut>,
    tail_slope: Option<ValueOut>,
    tail_length: Option<ValueOut>,
    lever_along: Option<ValueOut>,
    hood_forward: Option<ValueOut>,
    hood_up: Option<ValueOut>,
    frame_stack: Option<ValueOut>,
    frame_reach: Option<ValueOut>,
}

#[derive(Serialize)]
struct PointOut {
    at: [Number; 2],
    sd: [Number; 2],
}

#[derive(Serialize)]
struct ValueOut {
    value: Number,
    sd: Number,
}

pub(super) fn tape(answer: &TapeAnswer) -> TapeOut {
    TapeOut {
        readings: answer.rows.iter().map(reading).collect(),
        suspicion: answer.doubt.as_ref().map(suspicion),
        found: answer.found.is_some().then(|| found(answer)),
        open: answer.open.iter().map(|&of| unknown(of)).collect(),
    }
}

fn reading(row: &TapeRow) -> ReadingOut {
    ReadingOut {
        of: item(row.reading.of),
        how: how(row.reading.of),
        value: Number(row.reading.value),
        found: row.found.map(Number),
        residual: row.residual().map(Number),
        standardised: row.standardised.map(Number),
        alone: row.stands_alone(),
        alike: row.alike.iter().map(|&of| blamed(of)).collect(),
    }
}

fn suspicion(doubt: &TapeDoubt) -> SuspicionOut {
    let (by, sd) = doubt.too_large_by;
    let meant =
        |to: &TapeReading| MeantOut { of: item(to.of), how: how(to.of), value: Number(to.value) };
    SuspicionOut {
        of: blamed(doubt.what),
        value: Number(doubt.value),
        too_large_by: Number(by),
        sd: Number(sd),
        standardised: Number(doubt.standardised),
        slip: doubt.slip.map(slip),
        meant: doubt.meant.iter().map(meant).collect(),
        alike: doubt.alike.iter().map(|&of| blamed(of)).collect(),
        rest_agrees: doubt.rest_agrees,
    }
}

fn found(answer: &TapeAnswer) -> FoundOut {
    let one =
        |of| answer.found(of).map(|(value, sd)| ValueOut { value: Number(value), sd: Number(sd) });
    let point = |of: PlaceEstimate| PointOut {
        at: [Number(of.at.x), Number(of.at.y)],
        sd: [Number(of.sd_mm.x), Number(of.sd_mm.y)],
    };
    // the hands hang on clamp and roll, those on the hoods on the levers as well
    let clamp_found = answer.clamp_found();
    let hands = clamp_found && answer.found(Unknown::Roll).is_some();
    let on_levers = hands && answer.found(Unknown::Along).is_some();
    let explained = answer.found.as_ref();
    let at = |place| explained.and_then(|found| found.place(place)).map(point);
    let clamp = explained.filter(|_| clamp_found).map(fit_math::tape::Found::clamp);
    let frame = clamp.map(|clamp| frame_from_clamp(&clamp, &answer.parts));
    FoundOut {
        hoods: if on_levers { at(HandPlace::Hoods) } else { None },
        drops: if hands { at(HandPlace::Drops) } else { None },
        frame_stack: frame.map(|frame| ValueOut {
            value: Number(frame.front.stack_mm),
            sd: Number(frame.stack_sd_mm),
        }),
        frame_reach: frame.map(|frame| ValueOut {
            value: Number(frame.front.reach_mm),
            sd: Number(frame.reach_sd_mm),
        }),
        clamp: clamp.map(point),
        saddle_height: one(Unknown::SaddleHeight),
        nose_behind: one(Unknown::NoseBehindAxle),
        sit_from_nose: one(Unknown::NoseToWide),
        tilt: one(Unknown::SaddleTilt),
        roll: one(Unknown::Roll),
        bar_reach: one(Unknown::Reach),
        bar_drop: one(Unknown::Drop),
        bar_width: one(Unknown::Width),
        ramp_slope: one(Unknown::RampSlope),
        tail_slope: one(Unknown::TailSlope),
        tail_length: one(Unknown::TailLength),
        lever_along: one(Unknown::Along),
        hood_forward: one(Unknown::HoodForward),
        hood_up: one(Unknown::HoodUp),
    }
}

fn blamed(of: Blamed) -> String {
    match of {
        Blamed::Reading(of) => item(of).to_owned(),
        Blamed::Known(of) => format!("known/{}", unknown(of)),
    }
}

fn item(of: Of) -> &'static str {
    match TapeItem::from(of) {
        TapeItem::SaddleHeight => "saddle_height",
        TapeItem::NoseBehindAxle => "nose_behind_axle",
        TapeItem::NoseToWide => "nose_to_wide",
        TapeItem::SaddleTilt => "saddle_tilt",
        TapeItem::NoseToBar => "nose_to_bar",
        TapeItem::BarBelowSaddle => "bar_below_saddle",
        TapeItem::NoseToHood => "nose_to_hood",
        TapeItem::HoodBelowSaddle => "hood_below_saddle",
        TapeItem::NoseToHookFront => "nose_to_hook_front",
        TapeItem::HookLowestBelowSaddle => "hook_lowest_below_saddle",
        TapeItem::RampSlope => "ramp_slope",
        TapeItem::LeverFromEnd => "lever_from_end",
        TapeItem::WidthAtHoods => "width_at_hoods",
        TapeItem::AxleToBar => "axle_to_bar",
        TapeItem::TailSlope => "tail_slope",
        TapeItem::HoodSlope => "hood_slope",
        TapeItem::NoseToBarEnd => "nose_to_bar_end",
        TapeItem::BarEndBelowSaddle => "bar_end_below_saddle",
    }
}

fn how(of: Of) -> Vec<&'static str> {
    let laid = |laid| match laid {
        Laid::Level => "level",
        Laid::Slant => "slant",
    };
    let at = |at| match at {
        HoodAt::Trough => "trough",
        HoodAt::Tip => "tip",
    };
    match of {
        Of::NoseToWide(l) | Of::NoseToBar(l) | Of::NoseToHookFront(l) | Of::NoseToBarEnd(l) => {
            vec![laid(l)]
        }
        Of::NoseToHood(a, l) => vec![at(a), laid(l)],
        Of::HoodBelowSaddle(a) => vec![at(a)],
        Of::WidthAtHoods(WidthHow::CentreToCentre) => vec!["centre_to_centre"],
        Of::WidthAtHoods(WidthHow::OutsideToOutside) => vec!["outside_to_outside"],
        _ => Vec::new(),
    }
}

fn unknown(of: Unknown) -> &'static str {
    match of {
        Unknown::SaddleHeight => "saddle_height",
        Unknown::NoseBehindAxle => "nose_behind",
        Unknown::NoseToWide => "sit_from_nose",
        Unknown::SaddleTilt => "tilt",
        Unknown::ClampX => "clamp_x",
        Unknown::ClampY => "clamp_y",
        Unknown::Roll => "roll",
        Unknown::Reach => "bar_reach",
        Unknown::Drop => "bar_drop",
        Unknown::Width => "bar_width",
        Unknown::RampSlope => "ramp_slope",
        Unknown::TailSlope => "tail_slope",
        Unknown::TailLength => "tail_length",
        Unknown::Along => "lever_along",
        Unknown::HoodForward => "hood_forward",
        Unknown::HoodUp => "hood_up",
    }
}

fn slip(of: TapeSlip) -> &'static str {
    match of {
        TapeSlip::CentimetresForMillimetres => "centimetres_for_millimetres",
        TapeSlip::NoughtTooMany => "nought_too_many",
        TapeSlip::DigitsSwapped => "digits_swapped",
        TapeSlip::WrongSign => "wrong_sign",
        TapeSlip::SlantForLevel => "slant_for_level",
        TapeSlip::LevelForSlant => "level_for_slant",
        TapeSlip::AllSlantForLevel => "all_slant_for_level",
        TapeSlip::OutsideForCentre => "outside_for_centre",
        TapeSlip::CentreForOutside => "centre_for_outside",
        TapeSlip::TipForTrough => "tip_for_trough",
        TapeSlip::TroughForTip => "trough_for_tip",
        TapeSlip::BarAndHoodSwapped => "bar_and_hood_swapped",
    }
}
