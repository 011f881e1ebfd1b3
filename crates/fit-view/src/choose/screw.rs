//! How far the reach screws have to go in for a client's hands.

use fit_math::HandPlace;
use fit_math::cockpit::Cockpit;
use fit_math::hand::{BrakeSetting, BrakeSide, Cover, brake_reach, spans_now_mm};

/// The clicks of both levers, left and right, with which the hands have so much to spare in each of those
/// places, mm, or come as near as a hard squeeze allows; none where they stand there already, or nothing
/// would be won.
///
/// A screw that is in is never let out: what the client reaches today he keeps.
pub(super) fn needed(
    cockpit: &Cockpit,
    covers: [Cover; 2],
    enough_mm: &[(HandPlace, f64)],
) -> Option<(u32, u32)> {
    let poses = cockpit.lever_poses()?;
    let hand_mm = cockpit.drops_hand_mm();
    let (mut most, mut differs) = ([0, 0], false);
    for &(place, enough_mm) in enough_mm {
        let reach = brake_reach(place, cockpit.bend(), poses, covers, hand_mm)?;
        for (most, side) in most.iter_mut().zip(&reach.sides) {
            let needed = clicks(side, enough_mm);
            differs |= needed != side.now.clicks;
            *most = needed.max(*most);
        }
    }
    differs.then_some((most[0], most[1]))
}

fn clicks(side: &BrakeSide, enough_mm: f64) -> u32 {
    if side.now.reserve_mm >= enough_mm {
        return side.now.clicks;
    }
    let further = side.settings.iter().filter(|of| of.clicks > side.now.clicks);
    let may: Vec<&BrakeSetting> = further.filter(|of| of.clears_the_bar()).collect();
    let reaching = may.iter().find(|of| of.reserve_mm >= enough_mm);
    let nearest = || may.iter().max_by(|a, b| a.reserve_mm.total_cmp(&b.reserve_mm));
    let best = reaching.or_else(nearest).filter(|of| of.reserve_mm > side.now.reserve_mm);
    best.map_or(side.now.clicks, |of| of.clicks)
}

/// How far the fingers reach beyond what the brake asks from the hoods, of both hands the lesser, mm;
/// none without levers.
pub(super) fn hoods_spare_mm(cockpit: &Cockpit, covers: [Cover; 2]) -> Option<f64> {
    let poses = cockpit.lever_poses()?;
    let spans = spans_now_mm(HandPlace::Hoods, cockpit.bend(), poses, cockpit.drops_hand_mm())?;
    let [left, right] = [0, 1].map(|hand| covers[hand].mm - spans[hand]);
    Some(left.min(right))
}
