//! What is said of a cockpit by the way it is looked at: widths from the front, sweep and turn-in
//! from above, its measures, and how far the hands went.

use super::SideChoice;
use super::side_page::{by, whole};
use crate::side::{self, Hands, Measure, Sight};
use crate::table::{Axis, Question, SAME_MM, told};
use crate::weigh::{Doubted, Weighed, WeighedCockpit};
use crate::words::{FromAbove, FromFront, Way, Went, Words};
use fit_doc::Dimension;
use fit_math::cockpit::Hold;
use fit_math::doubt::TELLS_SD;
use fit_math::frame::Side;
use fit_math::{DVec2, DVec3};

/// What chance moves a hand by is not drawn below this, mm.
const LEAST_MM: f64 = 1.0;

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

/// How far chance takes the hands of the cockpit that is spoken of from those of the one that is compared
/// with, to the right and upwards in the picture, mm; nought where it is less than a millimetre, and
/// where the cockpits are not drawn where they really are.
pub(super) fn within(weighed: &Weighed, choice: &SideChoice) -> DVec2 {
    let of = || {
        let from = weighed.cockpits.get(choice.travel?)?;
        let of = weighed.cockpits.get(choice.focus).filter(|of| of.id != from.id)?;
        let by = |way: DVec3| {
            let hand = Doubted::Hand(choice.place, way);
            let sd = weighed.change_sd(from, of, hand, 0.0).unwrap_or_default();
            Some(TELLS_SD * sd).filter(|by| *by >= LEAST_MM).unwrap_or_default()
        };
        let by = DVec3::new(by(DVec3::X), by(DVec3::Y), by(DVec3::Z));
        Some(choice.sight.flat(by).abs())
    };
    of().filter(|_| choice.hold == Hold::Axle).unwrap_or_default()
}

/// The same in words; none where nothing is drawn.
pub(super) fn twin_within(
    weighed: &Weighed,
    choice: &SideChoice,
    words: &dyn Words,
) -> Option<String> {
    let within = within(weighed, choice);
    let label = &weighed.cockpits.get(choice.focus)?.label;
    let shown = choice.hands == Hands::Chosen && within != DVec2::ZERO;
    shown.then(|| words.twin_within(label, choice.sight, whole(within.x), whole(within.y)))
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
    let moved = |axis| {
        let cell = told(Question::Moved(choice.place, axis), of, Some(came), weighed);
        let is_small = cell.doubt.is_some_and(|doubt| !doubt.tells);
        by(cell).map(|mm| Way { mm, is_small })
    };
    let (forward, up) = (moved(Axis::Forward), moved(Axis::Up));
    let way = |side: Side| {
        let [from, to] = [before, after].map(|pair| match side {
            Side::Left => pair.left.centre,
            Side::Right => pair.right.centre,
        });
        let mm = whole(to.z.abs() - from.z.abs());
        // how wide bars are is not doubted
        let out = (mm.abs() >= SAME_MM).then_some(Way { mm, is_small: false });
        // only what can be seen that way is said
        let went = match choice.sight {
            Sight::Side => Went { forward, up, out: None },
            Sight::Front => Went { forward: None, up, out },
            Sight::Above => Went { forward, up: None, out },
        };
        let [from, to] = [from, to].map(|p: DVec3| choice.sight.flat(p));
        let middle = choice.sight.of_plane(of.cockpit.clamp());
        let said = words.went(went)?;
        Some(side::travel(from, to, middle, said))
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

#[cfg(test)]
mod tests {
    use super::*;
    use crate::picture::side_view;
    use crate::scene::{LayerName, Mark};
    use crate::side::{close_window, cockpits_scene};
    use crate::testing::{deep, session, stem};
    use crate::weigh::{Survey, weigh};
    use crate::words::English;
    use fit_doc::{Cockpit, HandPlace};

    /// As it came, a shorter stem, a shallower bar, and one that is hardly another.
    fn bench() -> Weighed {
        let named = |id: &str, cockpit: Cockpit| Cockpit { id: id.into(), ..cockpit };
        let bar = |drop_mm: f64, reach_mm: f64| {
            let mut bar = deep().bar;
            (bar.drop_mm, bar.reach_mm) = (bar.drop_mm - drop_mm, bar.reach_mm - reach_mm);
            Cockpit { bar, ..deep() }
        };
        let bench = vec![
            named("stem", Cockpit { stem: stem(90.0, -6.0), ..deep() }),
            named("shallow", bar(25.0, 0.0)),
            named("near", bar(0.0, 3.0)),
        ];
        weigh(&session(bench), None, &Survey::shipped().unwrap()).unwrap()
    }

    fn choice(weighed: &Weighed, focus: usize) -> SideChoice {
        let usual = SideChoice::usual(weighed);
        SideChoice { place: HandPlace::Drops, focus, travel: Some(0), ..usual }
    }

    /// Lines through the hand, level and upright, as far as they go to either side.
    fn whiskers(weighed: &Weighed, choice: &SideChoice) -> Vec<DVec2> {
        let view = side_view(weighed, choice, &English);
        let hand = choice
            .sight
            .flat(weighed.cockpits[choice.focus].places[&choice.place].grips.right.centre);
        let scene = cockpits_scene(&view, close_window(&view, 1.3), 0.5);
        let hands = scene.layers.iter().filter(|layer| layer.name == LayerName::Hands);
        let lines = hands.flat_map(|layer| &layer.marks).filter_map(|mark| match mark {
            Mark::Stroke { path, .. } => match path.points[..] {
                [from, to] => Some([from, to]),
                _ => None,
            },
            _ => None,
        });
        let through = lines.filter(|[from, to]| from.midpoint(*to).distance(hand) < 1e-9);
        through.map(|[from, to]| (to - from) / 2.0).collect()
    }

    #[test]
    fn a_bar_from_a_catalogue_has_whiskers_and_a_stem_has_none() {
        let weighed = bench();
        assert_eq!(
            within(&weighed, &choice(&weighed, 1)),
            DVec2::ZERO,
            "how far a stem moves is sure"
        );
        assert!(whiskers(&weighed, &choice(&weighed, 1)).is_empty());
        let shallow = choice(&weighed, 2);
        let by = within(&weighed, &shallow);
        assert!((1.0..15.0).contains(&by.x) && (1.0..15.0).contains(&by.y), "{by}");
        let lines = whiskers(&weighed, &shallow);
        assert_eq!(lines.len(), 2);
        assert!(lines[0].distance(DVec2::X * by.x) < 1e-9, "{lines:?}");
        assert!(lines[1].distance(DVec2::Y * by.y) < 1e-9, "{lines:?}");
        let said = |choice: &SideChoice| {
            let twin = side_view(&weighed, choice, &English).twin();
            twin.into_iter().filter(|said| said.contains("may take the hands")).collect::<Vec<_>>()
        };
        let [said_of_it] = &said(&shallow)[..] else { panic!("{:?}", said(&shallow)) };
        assert!(
            said_of_it.contains(&format!("{}\u{a0}mm forward or back", whole(by.x))),
            "{said_of_it}"
        );
        assert!(said(&choice(&weighed, 1)).is_empty());
        // where no arrow is wanted, as for the client, there are none
        for without in [
            SideChoice { travel: None, ..shallow },
            SideChoice { hold: Hold::Clamp, ..shallow },
            SideChoice { travel: Some(2), ..shallow },
        ] {
            assert!(whiskers(&weighed, &without).is_empty() && said(&without).is_empty());
        }
        let all = SideChoice { hands: Hands::All, ..shallow };
        assert!(whiskers(&weighed, &all).is_empty() && said(&all).is_empty());
    }

    #[test]
    fn a_way_that_chance_may_have_made_stands_in_brackets() {
        let weighed = bench();
        let said = |focus: usize| -> Vec<String> {
            let measures = measures(&weighed, &choice(&weighed, focus), &English);
            measures.into_iter().map(|(_, measure)| measure.text).collect()
        };
        let in_brackets = |text: &String| text.starts_with('(') && text.ends_with(')');
        let [stem, shallow, near] = [said(1), said(2), said(3)];
        assert!(stem.len() == 1 && !stem.iter().any(in_brackets), "{stem:?}");
        assert!(shallow.len() == 1 && !shallow.iter().any(in_brackets), "{shallow:?}");
        assert!(near.len() == 1 && near.iter().all(in_brackets), "{near:?}");
    }
}
