//! The shape of what `weigh --json` prints: one struct per object, named like the keys.
//!
//! Angles in degrees, lengths in mm, weights in kg. Keys are only ever added; [`VERSION`] goes up
//! when a meaning changes. Nothing is computed here.

use super::hands_json::{BrakesOut, ClearanceOut, DoubtOut, RoomOut};
use super::json_tape::TapeOut;
use super::place_id;
use fit_doc::HandPlace;
use fit_math::body::{Dimension, Item};
use serde::ser::Error as _;
use serde::{Serialize, Serializer};
use std::collections::BTreeMap;

/// What tells this output from any other JSON.
pub(super) const KIND: &str = "barwright-weigh";
/// Goes up when a key changes its meaning.
pub(super) const VERSION: u32 = 1;

/// Numbers are written to ten decimals: whoever recomputes them can hold exact geometry to 1e-9 mm,
/// and −6° through radians still reads −6.
const PER_UNIT: f64 = 1e10;

/// A number that JSON can hold: anything not finite is an error, never null.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Number(pub(super) f64);

impl Number {
    /// As it is written.
    pub(super) fn rounded(self) -> f64 {
        // the sum with nought turns −0 into 0
        (self.0 * PER_UNIT).round() / PER_UNIT + 0.0
    }
}

impl Serialize for Number {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        if self.0.is_finite() {
            serializer.serialize_f64(self.rounded())
        } else {
            Err(S::Error::custom(format_args!("{} is not a number that JSON can hold", self.0)))
        }
    }
}

/// A hand place by its name in the output, in the order of the places.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct PlaceKey(pub(super) HandPlace);

impl PlaceKey {
    pub(super) const fn name(self) -> &'static str {
        place_id(self.0)
    }
}

impl Serialize for PlaceKey {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.serialize_str(self.name())
    }
}

/// A body dimension by the survey's name, in the survey's order.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct DimensionKey(pub(super) Dimension);

impl Serialize for DimensionKey {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.serialize_str(self.0.id())
    }
}

/// Something that is read off a body.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct ItemKey(pub(super) Item);

impl Serialize for ItemKey {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.collect_str(&self.0)
    }
}

#[derive(Serialize)]
pub(super) struct Output {
    pub(super) kind: &'static str,
    pub(super) version: u32,
    pub(super) session: SessionOut,
    pub(super) bike: BikeOut,
    pub(super) calibration: Option<CalibrationOut>,
    pub(super) tape: Option<TapeOut>,
    /// Under 18; else absent.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) child: Option<bool>,
    pub(super) body: BTreeMap<DimensionKey, KnownOut>,
    pub(super) first_width: Option<Number>,
    pub(super) doubtful: Vec<DoubtfulOut>,
    pub(super) measure_next: Option<MeasureNextOut>,
    pub(super) cockpits: Vec<CockpitOut>,
    pub(super) baselines: BaselinesOut,
    pub(super) changes: Vec<ChangeOut>,
    pub(super) notes: Vec<NoteOut>,
}

#[derive(Serialize)]
pub(super) struct SessionOut {
    pub(super) id: String,
    pub(super) client: String,
    pub(super) visit: String,
}

#[derive(Serialize)]
pub(super) struct BikeOut {
    pub(super) name: String,
    pub(super) stack: Number,
    pub(super) reach: Number,
    pub(super) head_angle: Number,
    pub(super) headset_cover: Number,
    pub(super) fork_offset: Number,
    pub(super) wheel_radius: Number,
    pub(super) bottom_bracket_drop: Number,
    pub(super) rear_centre: Number,
    pub(super) crank: Number,
}

/// What was seen on the cockpit as it came, hands in that place, and what it moved.
#[derive(Serialize)]
pub(super) struct CalibrationOut {
    pub(super) seen: Vec<SeenOut>,
    pub(super) shift: BTreeMap<&'static str, Number>,
}

/// One angle beside what the model says without it and with it, degrees.
#[derive(Serialize)]
pub(super) struct SeenOut {
    pub(super) place: PlaceKey,
    pub(super) angle: &'static str,
    pub(super) seen: Number,
    pub(super) before: Number,
    pub(super) after: Number,
}

/// All by the trunk and all by the elbows, lesser first.
#[derive(Serialize)]
pub(super) struct BracketOut {
    pub(super) trunk: [Number; 2],
    pub(super) elbow: [Number; 2],
}

/// The reading that would tell most of the question, degrees.
#[derive(Serialize)]
pub(super) struct MeasureNextOut {
    pub(super) question: String,
    pub(super) reading: ItemKey,
    pub(super) sd_now: Number,
    pub(super) sd_then: Number,
}

/// A reading that the others make unlikely.
#[derive(Serialize)]
pub(super) struct DoubtfulOut {
    pub(super) reading: ItemKey,
    pub(super) side: Option<&'static str>,
    pub(super) found: Number,
    pub(super) expected: Number,
    pub(super) meant: Option<Number>,
    pub(super) slip: Option<&'static str>,
}

#[derive(Serialize)]
pub(super) struct KnownOut {
    pub(super) value: Number,
    pub(super) sd: Number,
    pub(super) measured: bool,
}

#[derive(Serialize)]
#[expect(clippy::struct_excessive_bools, reason = "the contract has four")]
pub(super) struct CockpitOut {
    pub(super) id: String,
    pub(super) label: String,
    pub(super) as_it_came: bool,
    pub(super) chosen: bool,
    pub(super) saddle: SaddleOut,
    pub(super) clamp: [Number; 2],
    pub(super) bar: BarOut,
    pub(super) stem: StemOut,
    pub(super) spacers: Number,
    pub(super) roll: Number,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) lever: Option<LeverOut>,
    pub(super) one_piece: bool,
    pub(super) known_by: &'static str,
    pub(super) ridden: bool,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) hood_transition: Option<Number>,
    pub(super) places: BTreeMap<PlaceKey, PlaceOut>,
    pub(super) travel: TravelsOut,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) brake: Option<BrakesOut>,
    #[serde(skip_serializing_if = "BTreeMap::is_empty")]
    pub(super) room: BTreeMap<&'static str, RoomOut>,
    #[serde(skip_serializing_if = "BTreeMap::is_empty")]
    pub(super) clearance: BTreeMap<&'static str, ClearanceOut>,
    pub(super) steering: SteeringOut,
    pub(super) sd: DoubtOut,
}

#[derive(Serialize)]
pub(super) struct SaddleOut {
    pub(super) height: Number,
    pub(super) nose_behind: Number,
    pub(super) sit_from_nose: Number,
    pub(super) tilt: Number,
    pub(super) sit: [Number; 2],
}

#[derive(Serialize)]
pub(super) struct BarOut {
    pub(super) name: String,
    pub(super) family: &'static str,
    pub(super) reach: Number,
    pub(super) drop: Number,
    pub(super) rolled_reach: Number,
    pub(super) rolled_drop: Number,
    pub(super) width_hoods_cc: Number,
    pub(super) width_ends_cc: Number,
    pub(super) width_ends_oo: Number,
    pub(super) length_half: Number,
    pub(super) profile: Vec<[Number; 3]>,
}

#[derive(Serialize)]
pub(super) struct StemOut {
    pub(super) length: Number,
    pub(super) angle: Number,
    pub(super) clamp_height: Number,
}

#[derive(Serialize)]
pub(super) struct LeverOut {
    pub(super) name: String,
    pub(super) along: [Number; 2],
    pub(super) turn_in: [Number; 2],
    pub(super) setting: [u32; 2],
}

#[derive(Serialize)]
pub(super) struct PlaceOut {
    /// The right hand, but for the elbow: that of the straighter arm.
    #[serde(flatten)]
    pub(super) hand: HandOut,
    /// Each side by itself, where they differ.
    #[serde(flatten)]
    pub(super) sides: Option<SidesOut>,
    pub(super) state: &'static str,
    pub(super) joint: Option<&'static str>,
    pub(super) short_by: Number,
    pub(super) trunk: Number,
    pub(super) pelvis: Number,
    pub(super) spine: Number,
    pub(super) protraction: Number,
    pub(super) hip_min: Number,
    pub(super) neck: Number,
    /// Outline, weight on the hands and on the front wheel.
    #[serde(flatten)]
    pub(super) effects: BTreeMap<&'static str, Number>,
    pub(super) bracket: Option<BracketOut>,
    /// Share of each known range that is left.
    pub(super) reserve: BTreeMap<&'static str, Number>,
}

#[derive(Serialize)]
pub(super) struct SidesOut {
    pub(super) left: HandOut,
    pub(super) right: HandOut,
}

/// What belongs to one hand and arm.
#[derive(Clone, Copy, Serialize)]
pub(super) struct HandOut {
    pub(super) grip: [Number; 3],
    pub(super) axis: [Number; 3],
    pub(super) shoulder: Number,
    pub(super) elbow: Number,
    pub(super) wrist_line: Number,
}

#[derive(Serialize)]
pub(super) struct TravelsOut {
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) hoods_to_drops: Option<TravelOut>,
}

#[derive(Serialize)]
pub(super) struct TravelOut {
    /// The mean of both hands.
    pub(super) hand: Number,
    /// Each side by itself, where they differ.
    #[serde(flatten)]
    pub(super) hands: Option<HandTravelsOut>,
    pub(super) trunk: Number,
    pub(super) hip_min: Number,
    pub(super) neck: Number,
}

#[derive(Serialize)]
pub(super) struct HandTravelsOut {
    pub(super) hand_left: Number,
    pub(super) hand_right: Number,
}

#[derive(Serialize)]
pub(super) struct SteeringOut {
    pub(super) trail: Number,
    pub(super) flop: Number,
    #[serde(flatten)]
    pub(super) hands: Option<SteeringHandsOut>,
}

/// The hands on the hoods about the steering axis; in the drops where there are no levers.
#[derive(Serialize)]
pub(super) struct SteeringHandsOut {
    /// Half of how wide the hands are apart.
    pub(super) arm: Number,
    /// As a share of what it took as the bike came; none where the hands had no such place there.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) effort: Option<Number>,
    pub(super) ahead_of_axis: Number,
}

#[derive(Serialize)]
pub(super) struct BaselinesOut {
    pub(super) as_it_came: String,
    pub(super) put_right: Option<String>,
}

#[derive(Serialize)]
pub(super) struct ChangeOut {
    pub(super) cockpit: String,
    pub(super) against: String,
    pub(super) values: BTreeMap<String, DeltaOut>,
}

#[derive(Serialize)]
pub(super) struct DeltaOut {
    pub(super) delta: Number,
    /// One standard deviation, where it is followed.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) sd: Option<Number>,
    /// Whether the change is larger than chance.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) tells: Option<bool>,
}

#[derive(Serialize)]
pub(super) struct NoteOut {
    pub(super) text: String,
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_not_a_number_is_an_error_and_never_null() {
        for wrong in [f64::NAN, f64::INFINITY, f64::NEG_INFINITY] {
            let error = serde_json::to_string(&Number(wrong)).unwrap_err();
            assert!(error.to_string().contains("not a number that JSON can hold"), "{error}");
        }
    }

    #[test]
    fn numbers_are_written_to_ten_decimals_and_nought_has_no_sign() {
        let text = |x: f64| serde_json::to_string(&Number(x)).unwrap();
        assert_eq!(text(0.1 + 0.2), "0.3");
        assert_eq!(text(-6_f64.to_radians().to_degrees()), "-6.0");
        assert_eq!(text(-1e-12), "0.0");
        assert_eq!(text(1.234_567_890_12), "1.2345678901");
    }

    #[test]
    fn keys_keep_the_order_of_the_places() {
        let map: BTreeMap<_, _> = HandPlace::ALL.map(|place| (PlaceKey(place), 0)).into();
        let text = serde_json::to_string(&map).unwrap();
        assert_eq!(
            text,
            r#"{"tops":0,"ramps":0,"hoods":0,"bent-elbow-hoods":0,"drops":0,"ends":0}"#
        );
    }
}
