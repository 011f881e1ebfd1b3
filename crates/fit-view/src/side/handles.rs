//! Handles of a cockpit in the side view and from above: where they are, and what pulling one makes of
//! its number.
//!
//! Bike frame as it is seen, mm. Pulling is measured from where a handle was taken hold of, so that nothing jumps
//! when it is. The numbers are the document's: mm and degrees, in the steps a workshop sets.

use super::Sight;
use fit_doc::{HandPlace, Quantity};
use fit_math::DVec2;
use fit_math::cockpit::{Cockpit, LeverPose, Stem, clamp_position};
use fit_math::frame::{Side, wrapped_rad};

/// Pulled rolls and levers come in half degrees, everything else in whole millimetres.
const TURN_STEP_DEG: f64 = 0.5;
/// How finely the bend is searched for the point nearest to the pointer, mm.
const ALONG_STEP_MM: f64 = 1.0;

/// Something in the drawing that can be pulled.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Handle {
    /// Whose number it changes.
    pub quantity: Quantity,
    /// Where it is, mm.
    pub at: DVec2,
}

/// The handles of a cockpit looked at that way: what shows there and is changed there. From the front
/// that is nothing: widths and flare are the bar's, and spacers and roll show from the side.
pub fn handles(cockpit: &Cockpit, one_piece: bool, hands: HandPlace, sight: Sight) -> Vec<Handle> {
    match sight {
        Sight::Side => from_side(cockpit, one_piece, hands),
        Sight::Front => Vec::new(),
        Sight::Above => from_above(cockpit, one_piece),
    }
}

/// From above: the stem, and where there are levers, how far they are turned in, on the right one.
fn from_above(cockpit: &Cockpit, one_piece: bool) -> Vec<Handle> {
    let stem = Sight::Above.of_plane(cockpit.clamp());
    let stem = (!one_piece).then_some(Handle { quantity: Quantity::StemLength, at: stem });
    let turn = right_tip(cockpit, 0.0).map(|at| Handle { quantity: Quantity::LeverTurnIn, at });
    stem.into_iter().chain(turn).collect()
}

/// The tip of the right blade from above, its lever turned in by so many degrees more: a turn shows
/// most there.
fn right_tip(cockpit: &Cockpit, more_deg: f64) -> Option<DVec2> {
    let levers = cockpit.levers()?;
    let mut mount = levers.right;
    mount.turn_in_rad += more_deg.to_radians();
    let lever = LeverPose::new(&levers.shape, cockpit.bend(), mount, Side::Right);
    let tip = lever.blade_point(levers.shape.blade.length_mm);
    Some(Sight::Above.flat(cockpit.bike_from_bar().transform_point3(tip)))
}

/// From the side: spacers, stem, roll, levers where there are any, and where the hands are
/// in the drops, the hand. A bar with its own stem has neither stem nor roll to pull.
fn from_side(cockpit: &Cockpit, one_piece: bool, hands: HandPlace) -> Vec<Handle> {
    // in the order in which people read, from above
    let mut handles = vec![Handle { quantity: Quantity::Spacers, at: steerer_end(cockpit) }];
    if !one_piece {
        handles.push(Handle { quantity: Quantity::StemLength, at: cockpit.clamp() });
    }
    if let Some(levers) = cockpit.levers() {
        let s_mm = cockpit.bend().s_from_along(levers.right.along_mm);
        let at = on_bike(cockpit, s_mm);
        handles.push(Handle { quantity: Quantity::LeverAlong, at });
    }
    if hands == HandPlace::Drops {
        let at = cockpit.places().drops().right.centre.truncate();
        handles.push(Handle { quantity: Quantity::HandInDrops, at });
    }
    if !one_piece {
        handles.push(Handle { quantity: Quantity::Roll, at: bar_end(cockpit) });
    }
    handles
}

/// The number after a handle was pulled from one point to another, both mm as it is seen;
/// `value` is what it was when the handle was taken. None where the cockpit has no such handle.
pub fn pulled(
    cockpit: &Cockpit,
    quantity: Quantity,
    value: f64,
    from: DVec2,
    to: DVec2,
    sight: Sight,
) -> Option<f64> {
    match quantity {
        Quantity::Spacers => {
            let per_mm = clamp(cockpit, cockpit.stem(), cockpit.spacers_mm() + 1.0)
                - clamp(cockpit, cockpit.stem(), cockpit.spacers_mm());
            Some((value + along(to - from, per_mm)).round().max(0.0))
        }
        Quantity::StemLength => {
            let longer = Stem { length_mm: cockpit.stem().length_mm + 1.0, ..*cockpit.stem() };
            let per_mm = clamp(cockpit, &longer, cockpit.spacers_mm())
                - clamp(cockpit, cockpit.stem(), cockpit.spacers_mm());
            let per_mm = sight.of_plane(per_mm);
            Some((value + along(to - from, per_mm)).round().max(0.0))
        }
        Quantity::LeverTurnIn => {
            let per_degree = right_tip(cockpit, 0.5)? - right_tip(cockpit, -0.5)?;
            let turned_deg = along(to - from, per_degree);
            Some(((value + turned_deg) / TURN_STEP_DEG).round() * TURN_STEP_DEG)
        }
        Quantity::Roll => {
            let heading = |p: DVec2| (p - cockpit.clamp()).to_angle();
            let turned_deg = wrapped_rad(heading(to) - heading(from)).to_degrees();
            Some(((value + turned_deg) / TURN_STEP_DEG).round() * TURN_STEP_DEG)
        }
        Quantity::LeverAlong => {
            cockpit.levers()?;
            let zone = cockpit.bend().clamp_zone();
            let moved = nearest_along(cockpit, zone, to) - nearest_along(cockpit, zone, from);
            Some((value + moved).round())
        }
        Quantity::HandInDrops => {
            // where a hand can lie: from the ramp's middle, beyond which the sums hold it, to the end
            let bend = cockpit.bend();
            let zone = (bend.ramp_middle().s_mm, bend.chain().length_mm());
            let moved = nearest_along(cockpit, zone, to) - nearest_along(cockpit, zone, from);
            Some((value + moved).round())
        }
        _ => None,
    }
}

/// How far a pull goes along a direction, in units of the direction's own length.
fn along(pull: DVec2, direction: DVec2) -> f64 {
    pull.dot(direction) / direction.length_squared()
}

fn clamp(cockpit: &Cockpit, stem: &Stem, spacers_mm: f64) -> DVec2 {
    clamp_position(cockpit.front(), stem, spacers_mm)
}

/// Where the stem's middle line meets the steerer.
fn steerer_end(cockpit: &Cockpit) -> DVec2 {
    let none = Stem { length_mm: 0.0, ..*cockpit.stem() };
    clamp(cockpit, &none, cockpit.spacers_mm())
}

fn bar_end(cockpit: &Cockpit) -> DVec2 {
    on_bike(cockpit, cockpit.bend().s_from_along(0.0))
}

fn on_bike(cockpit: &Cockpit, s_mm: f64) -> DVec2 {
    let in_bar = cockpit.bend().chain().at(s_mm).point;
    cockpit.bike_from_bar().transform_point3(in_bar).truncate()
}

/// Distance from the bar's end of the point of that stretch of it that lies nearest in the side view.
fn nearest_along(cockpit: &Cockpit, (from, to): (f64, f64), at: DVec2) -> f64 {
    let bend = cockpit.bend();
    let steps = ((to - from) / ALONG_STEP_MM).ceil().max(1.0);
    let mut best = (f64::INFINITY, from);
    let mut step = 0.0;
    while step <= steps {
        let s_mm = from + (to - from) * step / steps;
        let distance = on_bike(cockpit, s_mm).distance(at);
        if distance < best.0 {
            best = (distance, s_mm);
        }
        step += 1.0;
    }
    bend.along_from_s(best.1)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::testing::deep;
    use fit_doc::{Place, geometry};

    fn built(edit: impl Fn(&mut fit_doc::Cockpit)) -> Cockpit {
        let session = crate::testing::session(Vec::new());
        let mut cockpit = deep();
        edit(&mut cockpit);
        geometry::cockpit(&Place::cockpit("deep"), &session.bikes[0].frame, &cockpit).unwrap()
    }

    fn at(cockpit: &Cockpit, quantity: Quantity) -> DVec2 {
        seen(cockpit, Sight::Side, quantity)
    }

    fn seen(cockpit: &Cockpit, sight: Sight, quantity: Quantity) -> DVec2 {
        handles(cockpit, false, HandPlace::Drops, sight)
            .into_iter()
            .find(|h| h.quantity == quantity)
            .unwrap()
            .at
    }

    type Set = fn(&mut fit_doc::Cockpit, f64);

    /// A handle pulled to where it lies on the cockpit with the new number gives that number.
    #[test]
    fn a_handle_pulled_to_its_new_place_gives_the_number_that_puts_it_there() {
        let before = built(|_| ());
        let cases: [(Quantity, f64, f64, Set); 5] = [
            (Quantity::HandInDrops, 0.0, 14.0, |c, to| c.drops_hand_mm = to),
            (Quantity::Spacers, 15.0, 25.0, |c, to| c.spacers_mm = to),
            (Quantity::StemLength, 100.0, 83.0, |c, to| c.stem.length_mm = to),
            (Quantity::Roll, 0.0, 3.5, |c, to| c.roll_deg = to),
            (Quantity::LeverAlong, deep().levers.unwrap().right.along_mm, 0.0, |c, to| {
                if let Some(levers) = &mut c.levers {
                    levers.right.along_mm = to;
                }
            }),
        ];
        for (quantity, from, to, set) in cases {
            let to = if quantity == Quantity::LeverAlong { (from + 12.0).round() } else { to };
            let after = built(|c| set(c, to));
            let got = pulled(
                &before,
                quantity,
                from,
                at(&before, quantity),
                at(&after, quantity),
                Sight::Side,
            );
            assert_eq!(got, Some(to), "{quantity:?}");
        }
    }

    /// The same from above, where the stem's length and the levers' turn show.
    #[test]
    fn a_handle_pulled_from_above_gives_the_number_that_puts_it_there() {
        fn turn(cockpit: &mut fit_doc::Cockpit, to: f64) {
            if let Some(levers) = &mut cockpit.levers {
                levers.right.turn_in_deg = to;
            }
        }
        let before = built(|_| ());
        let turned = deep().levers.unwrap().right.turn_in_deg;
        let cases: [(Quantity, f64, f64, Set); 3] = [
            (Quantity::StemLength, 100.0, 83.0, |c, to| c.stem.length_mm = to),
            (Quantity::LeverTurnIn, turned, turned + 4.0, turn),
            (Quantity::LeverTurnIn, turned, turned - 3.5, turn),
        ];
        for (quantity, from, to, set) in cases {
            let after = built(|c| set(c, to));
            let [from_at, to_at] = [&before, &after].map(|of| seen(of, Sight::Above, quantity));
            let got = pulled(&before, quantity, from, from_at, to_at, Sight::Above);
            assert_eq!(got, Some(to), "{quantity:?}");
        }
        assert!(handles(&before, false, HandPlace::Drops, Sight::Front).is_empty());
    }

    #[test]
    fn taking_hold_of_a_handle_and_letting_go_changes_nothing() {
        let cockpit = built(|_| ());
        for sight in Sight::ALL {
            for handle in handles(&cockpit, false, HandPlace::Drops, sight) {
                let grabbed = handle.at + DVec2::new(3.0, -2.0);
                let got = pulled(&cockpit, handle.quantity, 20.0, grabbed, grabbed, sight);
                assert_eq!(got, Some(20.0));
            }
        }
    }

    #[test]
    fn a_bar_that_is_its_own_stem_has_neither_stem_nor_roll_to_pull() {
        let shown: Vec<_> = Sight::ALL
            .into_iter()
            .flat_map(|sight| handles(&built(|_| ()), true, HandPlace::Hoods, sight))
            .map(|h| h.quantity)
            .collect();
        assert_eq!(shown, [Quantity::Spacers, Quantity::LeverAlong, Quantity::LeverTurnIn]);
    }
}
