//! The plain way, sharing nothing with the search but the questions: every assembly put together as
//! a cockpit, every posture solved, the list sorted.

use crate::draw::Case;
use fit_math::DVec3;
use fit_math::HandPlace;
use fit_math::choose::{Aim, AtHands, Bar, Limited, Number, OfBar, Pick, Shape, Why};
use fit_math::cockpit::{Cockpit, LeverPair, Mount};
use fit_math::frame::Side;
use fit_math::hand::{palm_room, spans_now_mm};
use fit_math::posture::{Grips, solve};
use std::collections::BTreeMap;

/// One assembly.
#[derive(Debug, Clone)]
pub(crate) struct Tried {
    pub(crate) pick: Pick,
    pub(crate) worth: f64,
    pub(crate) effort: f64,
    pub(crate) minutes: u32,
    pub(crate) grips: Vec<DVec3>,
    /// What each aim's shape makes of its number.
    pub(crate) values: Vec<f64>,
    /// Ids, then places in the lists.
    pub(crate) order: [u64; 5],
}

fn shaped(shape: Shape, x: f64) -> f64 {
    match shape {
        Shape::Enough { from, enough } => ((x - from) / (enough - from)).clamp(0.0, 1.0),
        Shape::Near { at, scale } => -(x - at).abs() / scale,
        Shape::NotAbove { most, scale } if x > most => -(x - most) / scale,
        Shape::NotBelow { least, scale } if x < least => -(least - x) / scale,
        Shape::NotAbove { .. } | Shape::NotBelow { .. } => 0.0,
    }
}

fn moved(mount: Mount, mm: f64) -> Mount {
    Mount { along_mm: mount.along_mm + mm, ..mount }
}

fn cockpit(case: &Case, pick: &Pick) -> Cockpit {
    let bar = &case.shop.bars[pick.bar];
    let stem = pick.stem.map_or_else(|| bar.own_stem.unwrap(), |s| case.shop.stems[s].stem);
    let shift = bar.shifts[pick.shift].at;
    let levers = LeverPair {
        shape: bar.levers.shape.clone(),
        left: moved(bar.levers.left, shift),
        right: moved(bar.levers.right, shift),
    };
    let spacers = case.shop.spacers[pick.spacers].at;
    let roll = bar.rolls[pick.roll].at;
    let (front, bend) = (case.shop.front, bar.bend.clone());
    Cockpit::new(front, stem, spacers, bend, roll, Some(levers), bar.drops_hand_mm).unwrap()
}

fn of_bar(case: &Case, cockpit: &Cockpit, bar: &Bar, of: OfBar) -> f64 {
    let poses = cockpit.lever_poses().unwrap();
    match of {
        OfBar::Width => cockpit.bend().width_hoods_cc_mm(),
        OfBar::BrakeSpan => {
            let drops = cockpit.drops_hand_mm();
            let spans = spans_now_mm(HandPlace::Drops, cockpit.bend(), poses, drops).unwrap();
            spans[0].max(spans[1])
        }
        OfBar::PalmSpare => {
            let mut least = f64::INFINITY;
            for pose in poses {
                let along_mm = pose.mount.along_mm;
                let (bend, palm_mm) = (cockpit.bend(), case.asked.palm_mm);
                for room in palm_room(bend, along_mm, bar.lever_clamp_mm, palm_mm) {
                    least = least.min(room.room_mm - room.needed_mm);
                }
            }
            least
        }
    }
}

fn of_hands(case: &Case, cockpit: &Cockpit, place: HandPlace, what: AtHands) -> f64 {
    let pair = cockpit.grips(place).unwrap();
    let grips = Grips::new(pair.right.centre, pair.left.centre).unwrap();
    let middle = pair.midway();
    let report = || {
        let posture = solve(&case.rider, &case.seat, &grips, place, None);
        posture.report(&case.rider, &case.seat, &grips, place)
    };
    match what {
        AtHands::Trunk => report().trunk_rad,
        AtHands::NeckNeed => report().neck_need_rad,
        AtHands::HipMin => report().hip_min_rad,
        AtHands::Elbow => {
            let report = report();
            report.arm(Side::Left).elbow_rad.min(report.arm(Side::Right).elbow_rad)
        }
        AtHands::Forward => middle.x,
        AtHands::Up => middle.y,
        AtHands::Out => middle.z,
        AtHands::AwayFrom(point) => middle.truncate().distance(point),
    }
}

/// Everything that a range can be set on.
fn limited(case: &Case, pick: &Pick, cockpit: &Cockpit, of: Limited) -> f64 {
    let bar = &case.shop.bars[pick.bar];
    match of {
        Limited::Width => cockpit.bend().width_hoods_cc_mm(),
        Limited::Reach => cockpit.bend().reach_mm(),
        Limited::Drop => cockpit.bend().drop_mm(),
        Limited::StemLength => cockpit.stem().length_mm,
        Limited::StemAngle => cockpit.stem().angle_rad,
        Limited::Spacers => cockpit.spacers_mm(),
        Limited::Roll => cockpit.roll_rad(),
        Limited::LeverMoved => bar.shifts[pick.shift].at,
        Limited::BrakeSpan => of_bar(case, cockpit, bar, OfBar::BrakeSpan),
        Limited::PalmSpare => of_bar(case, cockpit, bar, OfBar::PalmSpare),
        Limited::Price => {
            let stem = pick.stem.map_or(Some(0), |s| case.shop.stems[s].price);
            bar.price.zip(stem).map_or(f64::INFINITY, |(bar, stem)| f64::from(bar + stem))
        }
        Limited::Minutes => f64::from(minutes(case, pick)),
        Limited::Effort => effort(case, pick),
    }
}

fn effort(case: &Case, pick: &Pick) -> f64 {
    let bar = &case.shop.bars[pick.bar];
    let stem = pick.stem.map_or(0.0, |s| case.shop.stems[s].effort);
    let parts = bar.effort + stem + case.shop.spacers[pick.spacers].effort;
    parts + (bar.rolls[pick.roll].effort + bar.shifts[pick.shift].effort)
}

fn minutes(case: &Case, pick: &Pick) -> u32 {
    let bar = &case.shop.bars[pick.bar];
    let settings = [case.shop.spacers[pick.spacers], bar.rolls[pick.roll], bar.shifts[pick.shift]];
    let parts = bar.jobs | pick.stem.map_or(0, |s| case.shop.stems[s].jobs);
    let all = settings.iter().fold(parts, |jobs, setting| jobs | setting.jobs);
    case.shop.minutes[usize::from(all)]
}

/// Why an assembly is left out; nothing leaves out the present one, nor its bar and stem together.
fn out(case: &Case, pick: &Pick) -> Option<Why> {
    let (shop, bar) = (&case.shop, &case.shop.bars[pick.bar]);
    if shop.present == Some(*pick) {
        return None;
    }
    let own = pick.stem.is_none();
    let parts_stand = shop.present.is_some_and(|p| p.bar == pick.bar && p.stem == pick.stem);
    let shift = bar.shifts[pick.shift].at;
    let in_zone = [bar.levers.left, bar.levers.right].iter().all(|mount| {
        let s_mm = bar.bend.chain().length_mm() - (mount.along_mm + shift);
        bar.zone_mm.0 <= s_mm && s_mm <= bar.zone_mm.1
    });
    let goes = bar.rolls_at.is_empty() || {
        let ((from, to), roll) = (bar.rolls_at[pick.shift], bar.rolls[pick.roll].at);
        from <= roll && roll <= to
    };
    // without the levers' place, which may be off the bar
    let bare = Pick { shift: bar.shifts.iter().position(|s| s.at == 0.0).unwrap(), ..*pick };
    let cockpit_of = |pick: &Pick| cockpit(case, pick);
    let beyond = |kinds: &[Limited], pick: &Pick| {
        if !case.ranges.iter().any(|range| kinds.contains(&range.of)) {
            return None;
        }
        let cockpit = cockpit_of(pick);
        let is_out = |range: &&fit_math::choose::Allowed| {
            let x = limited(case, pick, &cockpit, range.of);
            kinds.contains(&range.of) && (x < range.from || x > range.to)
        };
        case.ranges.iter().find(is_out).map(|range| Why::Beyond(range.of))
    };
    if !parts_stand {
        let mut of_bar = vec![Limited::Width, Limited::Reach, Limited::Drop];
        let of_stem = [Limited::StemLength, Limited::StemAngle];
        if own {
            of_bar.extend(of_stem);
        }
        let why = beyond(&of_bar, &bare);
        let clamps = pick.stem.is_none_or(|s| {
            (shop.stems[s].clamps_mm - bar.bend.dimensions().clamp_diameter_mm).abs() < 0.1
        });
        let why = why.or((!clamps).then_some(Why::ClampDiameter));
        let why = why.or_else(|| beyond(&of_stem, &bare));
        let why = why.or_else(|| beyond(&[Limited::Price], &bare));
        if why.is_some() {
            return why;
        }
    }
    beyond(&[Limited::Spacers], &bare)
        .or_else(|| beyond(&[Limited::Roll], &bare))
        .or((!in_zone).then_some(Why::ClampZone))
        .or_else(|| beyond(&[Limited::LeverMoved, Limited::BrakeSpan, Limited::PalmSpare], pick))
        .or((!goes).then_some(Why::RollAtLever))
        .or_else(|| beyond(&[Limited::Minutes], pick))
        .or_else(|| beyond(&[Limited::Effort], pick))
}

fn tried(case: &Case, pick: Pick) -> Tried {
    let cockpit = cockpit(case, &pick);
    let bar = &case.shop.bars[pick.bar];
    let number = |aim: &Aim| match aim.of {
        Number::Hands(at, what) => of_hands(case, &cockpit, case.asked.places[at].0, what),
        Number::Bar(of) => of_bar(case, &cockpit, bar, of),
    };
    let aims = &case.asked.aims;
    let values: Vec<f64> = aims.iter().map(|aim| shaped(aim.shape, number(aim))).collect();
    let mut worth = 0.0;
    for (at, &(_, share)) in case.asked.places.iter().enumerate() {
        let mut sum = 0.0;
        for (aim, value) in aims.iter().zip(&values) {
            if matches!(aim.of, Number::Hands(place, _) if place == at) {
                sum += aim.weight * share * value;
            }
        }
        worth += sum;
    }
    let mut sum = 0.0;
    for (aim, value) in aims.iter().zip(&values) {
        if matches!(aim.of, Number::Bar(_)) {
            sum += aim.weight * value;
        }
    }
    let effort = effort(case, &pick);
    let stem_id = pick.stem.map_or(0, |s| u64::from(case.shop.stems[s].id));
    let settings = [pick.spacers, pick.roll, pick.shift].map(|at| at as u64);
    let grip = |&(place, _): &(HandPlace, f64)| cockpit.grips(place).unwrap().midway();
    Tried {
        grips: case.asked.places.iter().map(grip).collect(),
        pick,
        worth: worth + sum - effort,
        effort,
        minutes: minutes(case, &pick),
        values,
        order: [u64::from(bar.id), stem_id, settings[0], settings[1], settings[2]],
    }
}

/// Every assembly that nothing leaves out, and how many each reason leaves out.
pub(crate) fn every(case: &Case) -> (Vec<Tried>, BTreeMap<Why, u64>) {
    let (mut all, mut left_out) = (Vec::new(), BTreeMap::new());
    for (b, bar) in case.shop.bars.iter().enumerate() {
        let stems: Vec<Option<usize>> = if bar.own_stem.is_some() {
            vec![None]
        } else {
            (0..case.shop.stems.len()).map(Some).collect()
        };
        for stem in stems {
            for spacers in 0..case.shop.spacers.len() {
                for roll in 0..bar.rolls.len() {
                    for shift in 0..bar.shifts.len() {
                        let pick = Pick { bar: b, stem, spacers, roll, shift };
                        match out(case, &pick) {
                            Some(why) => *left_out.entry(why).or_default() += 1,
                            None => all.push(tried(case, pick)),
                        }
                    }
                }
            }
        }
    }
    (all, left_out)
}

/// The best that differ, best first.
pub(crate) fn best(mut all: Vec<Tried>, most: usize) -> Vec<Tried> {
    all.sort_by(|a, b| b.worth.total_cmp(&a.worth).then(a.order.cmp(&b.order)));
    let mut taken: Vec<Tried> = Vec::new();
    for next in all {
        if taken.len() == most {
            break;
        }
        let same_parts =
            |a: &Pick, b: &Pick| (a.bar, a.stem, a.spacers) == (b.bar, b.stem, b.spacers);
        let differs = taken.iter().all(|better| {
            let mut far = better.grips.iter().zip(&next.grips).map(|(a, b)| a.distance(*b));
            !same_parts(&better.pick, &next.pick) || far.any(|mm| mm > 4.9999)
        });
        if differs {
            taken.push(next);
        }
    }
    taken
}
