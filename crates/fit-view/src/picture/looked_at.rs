//! What is said of a cockpit by the way it is looked at: widths from the front, sweep and turn-in
//! from above, its measures, and how far the hands went.

use super::SideChoice;
use super::side_page::{by, whole};
use crate::side::{self, Hands, Measure, Sight};
use crate::table::{Axis, Question, SAME_MM};
use crate::weigh::{Weighed, WeighedCockpit};
use crate::words::{FromAbove, FromFront, Went, Words};
use fit_doc::Dimension;
use fit_math::DVec3;
use fit_math::cockpit::Hold;
use fit_math::frame::Side;

/// The breadth of the client's shoulders, mm, and what is said of it; none of a child who was not
/// measured.
pub(super) fn shoulders(weighed: &Weighed, words: &dyn Words) -> Option<(f64, String)> {
    let known = weighed.body.known(Dimension::BiacromialBreadth);
    let estimated = (!known.measured).then(|| whole(known.sd).max(1));
    let said = words.shoulders(whole(known.value), estimated);
    (known.measured || weighed.is_grown_up).then_some((known.value, said))
}

/// What is said of a cockpit beside what the side view says.
pub(super) fn twin(of: &WeighedCockpit, choice: &SideChoice, words: &dyn Words) -> Option<String> {
    let bend = of.cockpit.bend();
    let hands = of.places.get(&choice.place).map(|at| at.grips);
    let hands_mm = hands.map(|grips| whole(grips.right.centre.z - grips.left.centre.z));
    let degrees = |rad: f64| whole(rad.to_degrees());
    match choice.sight {
        Sight::Side => None,
        Sight::Front => {
            let [hoods_mm, ends_mm] =
                [bend.width_hoods_cc_mm(), bend.width_ends_cc_mm()].map(whole);
            let flare_deg = degrees(bend.flare_rad());
            let front = FromFront { hoods_mm, ends_mm, flare_deg, hands_mm };
            Some(words.twin_front(&of.label, front))
        }
        Sight::Above => {
            let levers = of.cockpit.lever_poses();
            let above = FromAbove {
                reach_mm: whole(bend.reach_mm()),
                stem_mm: whole(of.cockpit.stem().length_mm),
                backsweep_deg: degrees(bend.dimensions().backsweep_rad),
                turned_in_deg: levers.map(|both| both.map(|l| degrees(l.mount.turn_in_rad))),
                hands_mm,
            };
            Some(words.twin_above(&of.label, above))
        }
    }
}

/// What is drawn with numbers: the measures of one cockpit, the ways of the hands.
pub(super) fn measures(
    weighed: &Weighed,
    choice: &SideChoice,
    words: &dyn Words,
) -> Vec<(usize, Measure)> {
    let mut all = Vec::new();
    if choice.hands == Hands::Chosen {
        all.extend(ways(weighed, choice, words).into_iter().map(|way| (choice.focus, way)));
    }
    let measured = choice.measured.and_then(|index| Some((index, weighed.cockpits.get(index)?)));
    if let Some((index, of)) = measured {
        let its = side::measures(&of.cockpit, choice.sight, words);
        all.extend(its.into_iter().map(|measure| (index, measure)));
    }
    all
}

/// How far the hands of the cockpit that is spoken of went from where they were on the one that is
/// compared with, where anybody could tell and the cockpits are drawn where they really are.
fn ways(weighed: &Weighed, choice: &SideChoice, words: &dyn Words) -> Vec<Measure> {
    let places = || {
        let from = weighed.cockpits.get(choice.travel?)?;
        let of = weighed.cockpits.get(choice.focus).filter(|of| of.id != from.id)?;
        let grips = |of: &WeighedCockpit| Some(of.places.get(&choice.place)?.grips);
        Some((from, of, grips(from)?, grips(of)?))
    };
    let Some((came, of, before, after)) = places().filter(|_| choice.hold == Hold::Axle) else {
        return Vec::new();
    };
    let moved = |axis| by(Question::Moved(choice.place, axis).cell(of, Some(came)));
    let (forward_mm, up_mm) = (moved(Axis::Forward), moved(Axis::Up));
    let way = |side: Side| {
        let [from, to] = [before, after].map(|pair| match side {
            Side::Left => pair.left.centre,
            Side::Right => pair.right.centre,
        });
        let out = whole(to.z.abs() - from.z.abs());
        let out_mm = Some(out).filter(|by| by.abs() >= SAME_MM);
        // only what can be seen that way is said
        let went = match choice.sight {
            Sight::Side => Went { forward_mm, up_mm, out_mm: None },
            Sight::Front => Went { forward_mm: None, up_mm, out_mm },
            Sight::Above => Went { forward_mm, up_mm: None, out_mm },
        };
        let [from, to] = [from, to].map(|p: DVec3| choice.sight.flat(p));
        let middle = choice.sight.of_plane(of.cockpit.clamp());
        Some(side::travel(from, to, middle, words.went(went)?))
    };
    let [left, right] = Side::BOTH.map(way);
    match (choice.sight, left, right) {
        (Sight::Side, _, right) => right.into_iter().collect(),
        // what is the same on both sides is told once, on the right of the picture
        (Sight::Front, Some(left), Some(right)) if left.text == right.text => vec![left],
        (_, Some(left), Some(right)) if left.text == right.text => vec![right],
        (_, left, right) => left.into_iter().chain(right).collect(),
    }
}
