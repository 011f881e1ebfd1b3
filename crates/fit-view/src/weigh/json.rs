//! The weighed bench as JSON for other programs (RFC 8259).
//!
//! Radians become degrees here. Only finite numbers are written: a number that is not is an error,
//! never null. Null stands where no joint is at its limit; a key that is not computed is absent.
//! The shape is in `output`, and as a schema in `assets/weigh.schema.json`.

use super::doubt::EFFECTS;
use super::json_tape::tape;
use super::output::{
    BarOut, BaselinesOut, BikeOut, BracketOut, CalibrationOut, ChangeOut, CockpitOut, DimensionKey,
    DoubtfulOut, HandOut, HandTravelsOut, ItemKey, KIND, KnownOut, LeverOut, MeasureNextOut,
    NoteOut, Number, Output, PlaceKey, PlaceOut, SaddleOut, SeenOut, SessionOut, SidesOut,
    SteeringHandsOut, SteeringOut, StemOut, TravelOut, TravelsOut, VERSION,
};
use super::{
    AskedAngle, MeasureNext, Travel, Weighed, WeighedCockpit, WeighedPlace, deltas, doubt_json,
    hands_json,
};
use crate::words::Words;
use fit_doc::{Bike, Family, HandPlace, KnownBy, Message, Where, geometry};
use fit_math::body::{Body, Dimension, SlipKind};
use fit_math::cockpit::Grip;
use fit_math::frame::Side;
use fit_math::posture::{Angle, Bracket, Calibration, End, Joint, Outcome, Shift};
use fit_math::tolerance::{DRAWN_MM, EXACT_MM};
use fit_math::{DVec2, DVec3};
use serde_json::Value;
use std::collections::BTreeMap;
use thiserror::Error;

/// Angles of two arms that differ by less are the same, radians: rounding only.
const SAME_RAD: f64 = 1e-9;

/// Why a weighed bench could not be written as JSON.
#[derive(Debug, Error)]
#[error("the weighed bench cannot be written as JSON: {0}")]
pub struct JsonError(#[from] serde_json::Error);

/// The weighed bench as one JSON object, indented; notes are worded by `words`.
///
/// # Errors
/// When a number is not finite, which a weighed bench never holds.
pub fn json(weighed: &Weighed, words: &dyn Words) -> Result<String, JsonError> {
    let as_it_came = weighed.as_it_came().map(|came| came.id.clone()).unwrap_or_default();
    let find = |id: &str| weighed.cockpits.iter().find(|of| of.id == id);
    let changes = deltas(weighed)?.into_iter().map(|change| {
        let between = [find(&change.against), find(&change.cockpit)];
        let told = |(path, delta): (String, f64)| {
            let out = doubt_json::delta(weighed, between, &path, delta);
            (path, out)
        };
        let values = change.values.into_iter().map(told).collect();
        ChangeOut { cockpit: change.cockpit, against: change.against, values }
    });
    let output = Output {
        kind: KIND,
        version: VERSION,
        session: SessionOut {
            id: weighed.session.clone(),
            client: weighed.client.clone(),
            visit: weighed.visit.to_string(),
        },
        bike: bike(&weighed.bike),
        calibration: weighed.calibration.as_ref().map(calibration),
        tape: weighed.tape.as_ref().map(tape),
        child: (!weighed.is_grown_up).then_some(true),
        body: Dimension::ALL
            .into_iter()
            .filter(|&d| weighed.is_grown_up || weighed.body.known(d).measured)
            .map(|d| (DimensionKey(d), known(&weighed.body, d)))
            .collect(),
        first_width: first_width_mm(&weighed.body).map(Number),
        doubtful: weighed.notes.iter().filter_map(doubtful).collect(),
        measure_next: weighed.measure_next().as_ref().map(measure_next),
        cockpits: weighed
            .cockpits
            .iter()
            .map(|of| cockpit(weighed, of, |place| weighed.bracket(of, place)))
            .collect(),
        baselines: BaselinesOut { as_it_came, put_right: weighed.put_right.clone() },
        changes: changes.collect(),
        notes: weighed
            .notes
            .iter()
            .map(|message| NoteOut { text: words.message(message) })
            .collect(),
    };
    Ok(serde_json::to_string_pretty(&output)?)
}

/// One cockpit as the output has it, but for what only says how it compares.
pub(super) fn cockpit_values(weighed: &Weighed, of: &WeighedCockpit) -> Result<Value, JsonError> {
    Ok(serde_json::to_value(cockpit(weighed, of, |_| None))?)
}

fn degrees(rad: f64) -> Number {
    Number(rad.to_degrees())
}

fn point2(p: DVec2) -> [Number; 2] {
    [Number(p.x), Number(p.y)]
}

fn point3(p: DVec3) -> [Number; 3] {
    [Number(p.x), Number(p.y), Number(p.z)]
}

fn bike(bike: &Bike) -> BikeOut {
    let frame = &bike.frame;
    BikeOut {
        name: bike.name.clone(),
        stack: Number(frame.stack_mm),
        reach: Number(frame.reach_mm),
        head_angle: Number(frame.head_angle_deg),
        headset_cover: Number(frame.headset_cover_mm),
        fork_offset: Number(frame.fork_offset_mm),
        wheel_radius: Number(frame.wheel_radius_mm),
        bottom_bracket_drop: Number(frame.bottom_bracket_drop_mm),
        rear_centre: Number(frame.rear_centre_mm),
        crank: Number(frame.crank_mm),
    }
}

/// The width to begin with: the breadth of the shoulders as it was read.
fn first_width_mm(body: &Body) -> Option<f64> {
    let shoulders = body.known(Dimension::BiacromialBreadth);
    shoulders.measured.then_some(shoulders.value)
}

fn measure_next(next: &MeasureNext) -> MeasureNextOut {
    let most = next.most();
    MeasureNextOut {
        question: format!(
            "places/{}/{}",
            PlaceKey(most.question.place).name(),
            match most.question.angle {
                AskedAngle::Trunk => "trunk",
                AskedAngle::Elbow => "elbow",
                AskedAngle::HipMin => "hip_min",
            }
        ),
        reading: ItemKey(next.item),
        sd_now: degrees(most.sd_now_rad),
        sd_then: degrees(most.sd_then_rad),
    }
}

fn doubtful(note: &Message) -> Option<DoubtfulOut> {
    let Message::ReadingUnlikely { item, side, found, expected, slip, .. } = note else {
        return None;
    };
    Some(DoubtfulOut {
        reading: ItemKey(*item),
        side: match side {
            Where::Left => Some("left"),
            Where::Right => Some("right"),
            Where::Both => None,
        },
        found: Number(*found),
        expected: Number(*expected),
        meant: slip.map(|slip| Number(slip.meant)),
        slip: slip.map(|slip| slip_name(slip.kind)),
    })
}

fn slip_name(kind: SlipKind) -> &'static str {
    match kind {
        SlipKind::Centimetres => "centimetres",
        SlipKind::Inches => "inches",
        SlipKind::Pounds => "pounds",
        SlipKind::DigitsSwapped => "digits-swapped",
        SlipKind::JointForAcromion => "joint-for-acromion",
        SlipKind::AcromionForJoint => "acromion-for-joint",
    }
}

fn known(body: &Body, dimension: Dimension) -> KnownOut {
    let known = body.known(dimension);
    KnownOut { value: Number(known.value), sd: Number(known.sd), measured: known.measured }
}

fn cockpit(
    bench: &Weighed,
    weighed: &WeighedCockpit,
    bracketed: impl Fn(HandPlace) -> Option<Bracket>,
) -> CockpitOut {
    let parts = &weighed.parts;
    let placed = &weighed.cockpit;
    let set = &parts.saddle;
    let stem = placed.stem();
    let close = bench.clearances(weighed);
    CockpitOut {
        id: weighed.id.clone(),
        label: weighed.label.clone(),
        as_it_came: weighed.as_it_came,
        chosen: weighed.chosen,
        saddle: SaddleOut {
            height: Number(set.height_mm),
            nose_behind: Number(set.nose_behind_mm),
            sit_from_nose: Number(set.sit_from_nose_mm),
            tilt: Number(set.tilt_deg),
            sit: point2(weighed.seat.sit()),
        },
        clamp: point2(placed.clamp()),
        bar: bar(weighed),
        stem: StemOut {
            length: Number(stem.length_mm),
            angle: degrees(stem.angle_rad),
            clamp_height: Number(stem.clamp_height_mm),
        },
        spacers: Number(parts.spacers_mm),
        roll: Number(geometry::mounted_roll_deg(parts)),
        lever: parts.levers.as_ref().map(lever),
        one_piece: parts.bar.one_piece.is_some(),
        known_by: known_by(parts.bar.shelf.known_by),
        ridden: parts.ridden,
        hood_transition: placed.hood_transition_rad().map(degrees),
        places: weighed
            .places
            .iter()
            .map(|(&key, at)| {
                let effects = effects(bench, weighed, key);
                (PlaceKey(key), place(at, effects, bracketed(key)))
            })
            .collect(),
        travel: TravelsOut { hoods_to_drops: weighed.travel.as_ref().map(travel) },
        brake: hands_json::brakes(weighed),
        room: hands_json::rooms(bench, weighed),
        clearance: hands_json::clearances(&close),
        sd: hands_json::doubt(bench, weighed, &close),
        steering: SteeringOut {
            trail: Number(weighed.trail_mm),
            flop: Number(weighed.flop_mm),
            hands: steering_hands(bench, weighed),
        },
    }
}

/// None while nobody sits on the bike.
fn steering_hands(bench: &Weighed, of: &WeighedCockpit) -> Option<SteeringHandsOut> {
    let hands = |of: &WeighedCockpit| {
        let place = [HandPlace::Hoods, HandPlace::Drops];
        place.into_iter().find(|place| of.places.contains_key(place))
    };
    let place = hands(of)?;
    let at = of.places.get(&place)?;
    let came = bench.as_it_came().filter(|came| hands(came) == Some(place));
    let before = came.and_then(|came| came.places.get(&place));
    let [left, right] = at.about_axis.beside_mm;
    Some(SteeringHandsOut {
        arm: Number(f64::midpoint(left, right)),
        effort: before.map(|before| Number(at.steer_effort(before))),
        ahead_of_axis: Number(at.about_axis.ahead_mm),
    })
}

fn bar(weighed: &WeighedCockpit) -> BarOut {
    let bend = weighed.cockpit.bend();
    let (rolled_reach, rolled_drop) = bend.rolled_reach_drop(weighed.cockpit.roll_rad());
    BarOut {
        name: weighed.parts.bar.name.clone(),
        family: family(weighed.parts.bar.family),
        reach: Number(bend.reach_mm()),
        drop: Number(bend.drop_mm()),
        rolled_reach: Number(rolled_reach),
        rolled_drop: Number(rolled_drop),
        width_hoods_cc: Number(bend.width_hoods_cc_mm()),
        width_ends_cc: Number(bend.width_ends_cc_mm()),
        width_ends_oo: Number(bend.width_ends_oo_mm()),
        length_half: Number(bend.chain().length_mm()),
        profile: bend.chain().samples(DRAWN_MM).into_iter().map(point3).collect(),
    }
}

fn family(family: Family) -> &'static str {
    match family {
        Family::Round => "round",
        Family::Flat => "flat",
        Family::Variable => "variable",
    }
}

fn known_by(known_by: KnownBy) -> &'static str {
    match known_by {
        KnownBy::Catalogue => "catalogue",
        KnownBy::Measured => "measured",
        KnownBy::Traced => "traced",
    }
}

fn lever(levers: &fit_doc::Levers) -> LeverOut {
    let (left, right) = (&levers.left, &levers.right);
    LeverOut {
        name: levers.lever.name.clone(),
        along: [Number(left.along_mm), Number(right.along_mm)],
        turn_in: [Number(left.turn_in_deg), Number(right.turn_in_deg)],
        setting: [left.clicks, right.clicks],
    }
}

/// What a posture does beyond the body, by key; nothing where the hands do not get there.
fn effects(
    bench: &Weighed,
    of: &WeighedCockpit,
    place: HandPlace,
) -> BTreeMap<&'static str, Number> {
    let all = bench.effects(of, place);
    let one = |(key, effect)| Some((key, Number(all?.get(effect)?)));
    EFFECTS.into_iter().filter_map(one).collect()
}

fn place(
    at: &WeighedPlace,
    effects: BTreeMap<&'static str, Number>,
    bracketed: Option<Bracket>,
) -> PlaceOut {
    let report = &at.report;
    let (state, joint, short_by_mm) = match at.posture.outcome {
        Outcome::Reached => ("reached", None, 0.0),
        Outcome::AtLimit { joint } => ("at-limit", Some(joint_name(joint)), 0.0),
        Outcome::OutOfReach { short_by_mm } => ("out-of-reach", None, short_by_mm),
    };
    let [left, right] = [(Side::Left, at.grips.left), (Side::Right, at.grips.right)]
        .map(|(side, grip)| hand(at, &grip, side));
    PlaceOut {
        hand: HandOut { elbow: degrees(at.straighter_elbow_rad()), ..right },
        sides: differs(at).then_some(SidesOut { left, right }),
        state,
        joint,
        short_by: Number(short_by_mm),
        trunk: degrees(report.trunk_rad),
        pelvis: degrees(report.pelvis_rad),
        spine: degrees(report.spine_rad),
        protraction: Number(report.protraction_mm),
        hip_min: degrees(report.hip_min_rad),
        neck: degrees(report.neck_need_rad),
        effects,
        bracket: bracketed.as_ref().map(bracket),
        reserve: reserve(at),
    }
}

/// Of two shoulders the one that has less left.
fn reserve(at: &WeighedPlace) -> BTreeMap<&'static str, Number> {
    let mut all = BTreeMap::new();
    for &(joint, left) in &at.reserves {
        let least = all.entry(joint_name(joint)).or_insert(Number(left));
        if left < least.0 {
            *least = Number(left);
        }
    }
    all
}

/// The left hand lies elsewhere than the mirrored right one, or its arm is bent otherwise.
fn differs(at: &WeighedPlace) -> bool {
    let (left, right) = (at.report.arm(Side::Left), at.report.arm(Side::Right));
    let apart = |a: f64, b: f64| (a - b).abs() > SAME_RAD;
    !at.grips.is_symmetric()
        || apart(left.elbow_rad, right.elbow_rad)
        || apart(left.shoulder_rad, right.shoulder_rad)
}

fn hand(at: &WeighedPlace, grip: &Grip, side: Side) -> HandOut {
    let arm = at.report.arm(side);
    HandOut {
        grip: point3(grip.centre),
        axis: point3(grip.axis),
        shoulder: degrees(arm.shoulder_rad),
        elbow: degrees(arm.elbow_rad),
        wrist_line: degrees(at.wrist_line_rad[side as usize]),
    }
}

fn bracket(of: &Bracket) -> BracketOut {
    let ends = [&of.by_trunk, &of.by_elbows];
    let in_order = |[a, b]: [f64; 2]| [degrees(a.min(b)), degrees(a.max(b))];
    let straighter = |end: &End| end.elbows_rad[0].min(end.elbows_rad[1]);
    BracketOut {
        trunk: in_order(ends.map(|end| end.trunk_rad)),
        elbow: in_order(ends.map(straighter)),
    }
}

fn calibration(of: &Calibration) -> CalibrationOut {
    let seen = of.compared().iter().map(|compared| SeenOut {
        place: PlaceKey(compared.place),
        angle: match compared.angle {
            Angle::Trunk => "trunk",
            Angle::Elbow(_) => "elbow",
            Angle::Neck => "neck",
            Angle::Knee => "knee",
        },
        seen: degrees(compared.seen_rad),
        before: degrees(compared.before_rad),
        after: degrees(compared.after_rad),
    });
    let by = |shift: Shift| of.shifts().get(shift);
    let shift = Shift::ALL.map(|shift| match shift {
        Shift::Arm => ("arm", Number(by(shift))),
        Shift::Trunk => ("trunk_length", Number(by(shift))),
        Shift::Sit => ("sit_x", Number(by(shift))),
        Shift::Hip => ("hip_y", Number(by(shift))),
        Shift::Elbow => ("elbow", degrees(by(shift))),
        Shift::Spine => ("spine", degrees(by(shift))),
        Shift::Pelvis => ("pelvis", degrees(by(shift))),
        Shift::Protraction => ("protraction", Number(by(shift))),
        Shift::UpperBack => ("upper_back", degrees(by(shift))),
        Shift::Knee => ("knee", degrees(by(shift))),
    });
    CalibrationOut { seen: seen.collect(), shift: shift.into() }
}

fn joint_name(joint: Joint) -> &'static str {
    match joint {
        Joint::Spine => "spine",
        Joint::Pelvis => "pelvis",
        Joint::Protraction => "protraction",
        Joint::Hip => "hip",
        Joint::Neck => "neck",
        Joint::Shoulder(_) => "shoulder",
    }
}

fn travel(travel: &Travel) -> TravelOut {
    let [left, right] = travel.hands_mm;
    let differ = (left - right).abs() > EXACT_MM;
    TravelOut {
        hand: Number(travel.hand_mm()),
        hands: differ
            .then_some(HandTravelsOut { hand_left: Number(left), hand_right: Number(right) }),
        trunk: degrees(travel.trunk_rad),
        hip_min: degrees(travel.hip_min_rad),
        neck: degrees(travel.neck_rad),
    }
}
