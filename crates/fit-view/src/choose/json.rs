//! The advice as JSON for other programs (RFC 8259): the answers in order with their reasons, and bench
//! and answers weighed as `weigh --json` gives them, under the ids that the answers name.
//!
//! Numbers of reasons are whole mm and degrees as on the screens; all others are exact. The shape as a
//! schema is `assets/choose.schema.json`, each number is explained in `assets/choose.md`.

use super::rungs::{MOST_SHIFT_MM, ROLLS_DEG, SPACERS_STEP_MM};
use super::{Advice, Answer, Ask, Bears, NotOffered, Reason, Source};
use crate::weigh::{self, JsonError};
use crate::words::Words;
use fit_doc::work::Step as WorkStep;
use fit_doc::{Aim, Bounds, Cockpit, Counts, Price, Stays, Wanted};
use fit_math::choose::{ALONG_STEP_MM, Limited, ROLL_STEP_DEG, Why};
use serde_json::{Value, json};

/// What the output calls itself.
const KIND: &str = "barwright-choose";
/// The version of its shape.
const VERSION: u32 = 1;

/// The advice on what was asked as one JSON object, indented.
///
/// # Errors
/// When a number is not finite, which weighed cockpits never hold.
pub fn json(advice: &Advice, ask: &Ask, words: &dyn Words) -> Result<String, JsonError> {
    let (wanted, base) = (ask.wanted(), ask.base());
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
        "limits": limits(&ask.held),
        "grid": grid(),
        "against": base.id,
        "said": reasons(&advice.said, words),
        "answers": answers,
        "assemblies": counted.assemblies,
        "given_up": advice.given_up.as_ref().map(|of| {
            json!({ "wanted": wanted_out(&of.wanted), "text": words.given_up(of) })
        }),
        "left_out": left_out,
        "tipped_answers": advice.tipped,
        "head_lifted_answers": advice.lifted,
        "too_small": advice.too_small,
        "no_more": advice.no_more,
        "ridden_alike": advice.ridden_alike,
        "bars_not_offered": counted
            .not_offered
            .iter()
            .map(|(&why, &count)| {
                json!({ "why": not_offered_id(why), "count": count, "text": words.not_offered(why, count) })
            })
            .collect::<Vec<_>>(),
        "weighed": weighed,
    });
    Ok(serde_json::to_string_pretty(&output)?)
}

/// What no answer leaves; null where there is no end to it.
fn limits(of: &Bounds) -> Value {
    let range = |(least, most): (f64, f64)| json!({ "least": finite(least), "most": finite(most) });
    let stays: Vec<&str> =
        Stays::ALL.into_iter().filter(|what| of.stays(*what)).map(stays_id).collect();
    json!({
        "stays": stays,
        "width": of.width_mm.filter(|_| !of.stays(Stays::Bar)).map(range),
        "stem": of.stem_mm.map(range),
        "spacers": of.spacers_mm.map(|most| range((0.0, most))),
        "parts": of.money.map(|most| range((0.0, money(most)))),
        "minutes": of.minutes.map(|most| range((0.0, f64::from(most)))),
        "in_stock_only": of.in_stock_only,
        "event_rules": of.event_rules,
    })
}

/// A number, or none where it is no end.
fn finite(end: f64) -> Option<f64> {
    end.is_finite().then_some(end)
}

/// The settings that are tried besides those that are there; in degrees and mm.
fn grid() -> Value {
    let (least, most) = ROLLS_DEG;
    json!({
        "roll": { "least": least, "most": most, "step": ROLL_STEP_DEG },
        "along": { "least": -MOST_SHIFT_MM, "most": MOST_SHIFT_MM, "step": ALONG_STEP_MM },
        "spacers": { "step": SPACERS_STEP_MM },
    })
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

pub(super) const fn bears_id(of: Bears) -> &'static str {
    match of {
        Bears::MustSay => "must_say",
        Bears::For => "for",
        Bears::Against => "against",
        Bears::Instead => "instead",
        Bears::WouldChange => "would_change",
    }
}

pub(super) const fn source_id(of: Source) -> &'static str {
    match of {
        Source::Geometry => "geometry",
        Source::Computed => "computed",
        Source::Seen => "seen",
        Source::CommonPractice => "common_practice",
        Source::Judgement => "judgement",
    }
}

pub(super) const fn why_id(why: Why) -> &'static str {
    match why {
        Why::ClampDiameter => "clamp_diameter",
        Why::ClampZone => "clamp_zone",
        Why::RollAtLever => "hand_tipped",
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

pub(super) const fn aim_id(of: Aim) -> &'static str {
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

pub(super) const fn stays_id(of: Stays) -> &'static str {
    match of {
        Stays::LeverPlace => "lever_place",
        Stays::LeverKind => "levers",
        Stays::Roll => "roll",
        Stays::Spacers => "spacers",
        Stays::Stem => "stem",
        Stays::Bar => "bar",
    }
}

pub(super) const fn not_offered_id(of: NotOffered) -> &'static str {
    match of {
        NotOffered::NotInStock => "not_in_stock",
        NotOffered::OverBudget => "over_budget",
        NotOffered::NoLevers => "no_levers",
        NotOffered::CannotCarry => "cannot_carry",
        NotOffered::OtherRiding => "other_riding",
        NotOffered::DeeperOrLonger => "deeper_or_longer",
        NotOffered::EventRules => "event_rules",
    }
}

pub(super) const fn counts_id(of: Counts) -> &'static str {
    match of {
        Counts::Little => "little",
        Counts::Ordinary => "ordinary",
        Counts::Much => "much",
    }
}
