//! The advice as JSON for other programs (RFC 8259): the answers in order with their reasons, and bench
//! and answers weighed as `weigh --json` gives them, under the ids that the answers name.
//!
//! Numbers of reasons are whole mm and degrees as on the screens; all others are exact.

use super::{Advice, Answer, Bears, Reason, Source};
use crate::weigh::{self, JsonError};
use crate::words::Words;
use fit_doc::work::Step as WorkStep;
use fit_doc::{Aim, Cockpit, Counts, Price, Wanted};
use fit_math::choose::{Limited, Why};
use serde_json::{Value, json};

/// What the output calls itself.
const KIND: &str = "barwright-choose";
/// The version of its shape.
const VERSION: u32 = 0;

/// The advice as one JSON object, indented; `base` is the cockpit that answers are held against.
///
/// # Errors
/// When a number is not finite, which weighed cockpits never hold.
pub fn json(
    advice: &Advice,
    wanted: &[Wanted],
    base: &Cockpit,
    words: &dyn Words,
) -> Result<String, JsonError> {
    let weighed: Value = serde_json::from_str(&weigh::json(&advice.weighed, words)?)?;
    let answers: Vec<Value> =
        advice.answers.iter().map(|of| answer(of, advice, base, words)).collect();
    let counted = &advice.counted;
    let left_out: Vec<Value> = counted
        .left_out
        .iter()
        .map(|(&why, &count)| json!({ "why": why_id(why), "count": count, "text": words.left_out(why, count) }))
        .collect();
    let output = json!({
        "kind": KIND,
        "version": VERSION,
        "wanted": wanted.iter().map(wanted_out).collect::<Vec<_>>(),
        "against": base.id,
        "said": reasons(&advice.said, words),
        "answers": answers,
        "assemblies": counted.assemblies,
        "left_out": left_out,
        "too_small": advice.too_small,
        "bars_not_offered": counted
            .not_offered
            .iter()
            .map(|(&why, &count)| json!({ "count": count, "text": words.not_offered(why, count) }))
            .collect::<Vec<_>>(),
        "weighed": weighed,
    });
    Ok(serde_json::to_string_pretty(&output)?)
}

fn answer(of: &Answer, advice: &Advice, base: &Cockpit, words: &dyn Words) -> Value {
    let minutes = of.work.minutes();
    let like = of.like.and_then(|at| advice.answers.get(at)?.cockpit.as_ref());
    let bought = |step: &WorkStep| step.bought.as_ref().map(|of| of.name.clone());
    json!({
        "step": of.step.id(),
        "text": words.answer(of, base),
        "cockpit": of.cockpit.as_ref().map(|of| &of.id),
        "ridden": of.ridden,
        "like": like.map(|of| &of.id),
        "minutes": [minutes.start(), minutes.end()],
        "parts": money(of.work.parts()),
        "price_unknown": of.work.price_unknown(),
        "bought": of.work.steps.iter().filter_map(bought).collect::<Vec<_>>(),
        "reasons": reasons(&of.reasons, words),
    })
}

fn money(price: Price) -> f64 {
    f64::from(price.cents) / 100.0
}

fn reasons(all: &[Reason], words: &dyn Words) -> Vec<Value> {
    let one = |of: &Reason| {
        json!({
            "rule": of.rule(),
            "bears": bears_id(of.bears()),
            "source": source_id(of.source()),
            "row": of.behind().map(|row| words.question(row)),
            "text": words.reason(of),
        })
    };
    all.iter().map(one).collect()
}

fn wanted_out(of: &Wanted) -> Value {
    json!({
        "aim": aim_id(of.aim),
        "place": of.place.map(weigh::place_id),
        "by": of.by_mm,
        "counts": counts_id(of.counts),
    })
}

const fn bears_id(of: Bears) -> &'static str {
    match of {
        Bears::MustSay => "must_say",
        Bears::For => "for",
        Bears::Against => "against",
        Bears::Instead => "instead",
        Bears::WouldChange => "would_change",
    }
}

const fn source_id(of: Source) -> &'static str {
    match of {
        Source::Geometry => "geometry",
        Source::Computed => "computed",
        Source::Seen => "seen",
        Source::CommonPractice => "common_practice",
        Source::Judgement => "judgement",
    }
}

const fn why_id(why: Why) -> &'static str {
    match why {
        Why::ClampDiameter => "clamp_diameter",
        Why::ClampZone => "clamp_zone",
        Why::Beyond(limited) => match limited {
            Limited::Width => "width",
            Limited::Reach => "reach",
            Limited::Drop => "drop",
            Limited::StemLength => "stem_length",
            Limited::StemAngle => "stem_angle",
            Limited::Spacers => "spacers",
            Limited::Roll => "roll",
            Limited::LeverMoved => "lever_moved",
            Limited::BrakeSpan => "brake_span",
            Limited::PalmSpare => "palm_spare",
            Limited::Price => "price",
            Limited::Minutes => "minutes",
            Limited::Effort => "effort",
        },
    }
}

const fn aim_id(of: Aim) -> &'static str {
    match of {
        Aim::ReachBrakes => "reach_brakes",
        Aim::EaseDrops => "ease_drops",
        Aim::EaseNeck => "ease_neck",
        Aim::EaseBack => "ease_back",
        Aim::BendElbows => "bend_elbows",
        Aim::Nearer => "nearer",
        Aim::Further => "further",
        Aim::LikeShoulders => "like_shoulders",
        Aim::Slimmer => "slimmer",
        Aim::EasierToSteer => "easier_to_steer",
        Aim::HoodsStay => "hoods_stay",
        Aim::LikeOtherBike => "like_other_bike",
    }
}

const fn counts_id(of: Counts) -> &'static str {
    match of {
        Counts::Little => "little",
        Counts::Ordinary => "ordinary",
        Counts::Much => "much",
    }
}
