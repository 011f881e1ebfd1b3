//! The hands in the output: brake reach in every setting, room for the palm, what comes close, and
//! how well these are known. One struct per object, named like the keys; lengths in mm.

use super::doubt_json::{self, PlaceDoubts, TravelsDoubtOut};
use super::output::Number;
use super::weighed::{Weighed, WeighedCockpit};
use fit_doc::HandPlace;
use fit_math::frame::Side;
use fit_math::hand::{BrakeReach, BrakeSetting, Clearance, Close, PalmPlace, PalmRoom};
use serde::Serialize;
use std::collections::BTreeMap;

#[derive(Serialize)]
pub(super) struct BrakesOut {
    hoods: BrakeOut,
    drops: BrakeOut,
}

#[derive(Serialize)]
struct BrakeOut {
    left: BrakeSideOut,
    right: BrakeSideOut,
    worse: &'static str,
}

/// One hand at the lever's present setting, and in every other.
#[derive(Serialize)]
struct BrakeSideOut {
    span_needed: Number,
    span_of_hand: Number,
    reserve: Number,
    setting: u32,
    squeeze_gap: Number,
    settings: Vec<SettingOut>,
}

#[derive(Serialize)]
struct SettingOut {
    span_needed: Number,
    reserve: Number,
    squeeze_gap: Number,
    works: bool,
}

#[derive(Serialize)]
pub(super) struct RoomOut {
    room: Number,
    needed: Number,
}

#[derive(Serialize)]
#[serde(untagged)]
pub(super) enum ClearanceOut {
    Sides { left: Number, right: Number },
    Both(Number),
}

/// One standard deviation of what is known to some extent, in the shape of the numbers themselves.
#[derive(Serialize)]
pub(super) struct DoubtOut {
    #[serde(skip_serializing_if = "BTreeMap::is_empty")]
    places: PlaceDoubts,
    #[serde(skip_serializing_if = "Option::is_none")]
    travel: Option<TravelsDoubtOut>,
    #[serde(skip_serializing_if = "Option::is_none")]
    brake: Option<BTreeMap<&'static str, SidesDoubtOut>>,
    #[serde(skip_serializing_if = "BTreeMap::is_empty")]
    clearance: BTreeMap<&'static str, ClearanceOut>,
}

#[derive(Clone, Copy, Serialize)]
struct SidesDoubtOut {
    left: HandDoubtOut,
    right: HandDoubtOut,
}

#[derive(Clone, Copy, Serialize)]
struct HandDoubtOut {
    span_of_hand: Number,
}

/// Brake reach from hoods and drops; none without levers.
pub(super) fn brakes(of: &WeighedCockpit) -> Option<BrakesOut> {
    let (hoods, drops) = of.brake(HandPlace::Hoods).zip(of.brake(HandPlace::Drops))?;
    Some(BrakesOut { hoods: brake(&hoods), drops: brake(&drops) })
}

fn brake(reach: &BrakeReach) -> BrakeOut {
    let setting = |of: &BrakeSetting| SettingOut {
        span_needed: Number(of.span_mm),
        reserve: Number(of.reserve_mm),
        squeeze_gap: Number(of.squeeze_gap_mm),
        works: of.works(),
    };
    let side = |side: Side| {
        let side = reach.side(side);
        let now = &side.now;
        BrakeSideOut {
            span_needed: Number(now.span_mm),
            span_of_hand: Number(now.span_mm + now.reserve_mm),
            reserve: Number(now.reserve_mm),
            setting: now.clicks,
            squeeze_gap: Number(now.squeeze_gap_mm),
            settings: side.settings.iter().map(setting).collect(),
        }
    };
    let worse = match reach.worse().side {
        Side::Left => "left",
        Side::Right => "right",
    };
    BrakeOut { left: side(Side::Left), right: side(Side::Right), worse }
}

/// Room for the palm by place.
pub(super) fn rooms(weighed: &Weighed, of: &WeighedCockpit) -> BTreeMap<&'static str, RoomOut> {
    let name = |place: PalmPlace| match place {
        PalmPlace::Hook => "hook",
        PalmPlace::AcrossTheHook => "across_the_hook",
        PalmPlace::Flat => "flat",
    };
    let out = |of: &PalmRoom| RoomOut { room: Number(of.room_mm), needed: Number(of.needed_mm) };
    weighed.palm_rooms(of).iter().map(|of| (name(of.place), out(of))).collect()
}

/// What comes close, by what to what.
pub(super) fn clearances(of: &[Clearance]) -> BTreeMap<&'static str, ClearanceOut> {
    by_name(of, |of| of.mm)
}

fn by_name(
    all: &[Clearance],
    number: fn(&Clearance) -> f64,
) -> BTreeMap<&'static str, ClearanceOut> {
    let find = |between: Close, side: Side| {
        let of = all.iter().find(|of| of.between == between && of.side == side)?;
        Some(Number(number(of)))
    };
    let sides = |between| {
        let (left, right) = find(between, Side::Left).zip(find(between, Side::Right))?;
        Some(ClearanceOut::Sides { left, right })
    };
    [
        ("forearm_to_tops", sides(Close::ForearmToTops)),
        ("wrist_to_ramp", sides(Close::WristToRamp)),
        ("knee_to_bar_end", find(Close::KneeToBarEnd, Side::Right).map(ClearanceOut::Both)),
        ("thigh_to_belly", find(Close::ThighToBelly, Side::Right).map(ClearanceOut::Both)),
    ]
    .into_iter()
    .filter_map(|(name, of)| Some((name, of?)))
    .collect()
}

/// How well all of that is known.
pub(super) fn doubt(weighed: &Weighed, of: &WeighedCockpit, close: &[Clearance]) -> DoubtOut {
    let brake = of.brakes.map(|brakes| {
        let [left, right] =
            brakes.covers.map(|cover| HandDoubtOut { span_of_hand: Number(cover.sd_mm) });
        ["hoods", "drops"].map(|place| (place, SidesDoubtOut { left, right })).into()
    });
    DoubtOut {
        places: doubt_json::places(weighed, of),
        travel: doubt_json::travel(weighed, of),
        brake,
        clearance: by_name(close, |of| of.sd_mm),
    }
}
