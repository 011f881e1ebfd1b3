//! Match held against a plain loop over the same grid that knows nothing of how the real one is done.
//!
//! Source of the rules: least distance, then fewest changed, then least roll, then least spacers.

#![allow(
    clippy::unwrap_used,
    clippy::print_stdout,
    reason = "helpers of tests, which may panic and tell figures"
)]

mod bench;

use bench::{bare, compact, deep, front, kind, levers, stem};
use fit_math::bar::Bend;
use fit_math::cockpit::{
    Axes, Cockpit, LeverPair, LeverShape, MatchGoal, Mount, Stem, match_place,
};
use fit_math::{DVec2, HandPlace};
use std::sync::Arc;

fn axes() -> Axes {
    let stems = vec![stem(80.0, -6.0), stem(80.0, 6.0), stem(90.0, -6.0), stem(110.0, -6.0)];
    Axes::usual(stems, 30, (-3, 4), 6)
}

fn goal(cockpit: &Cockpit, place: HandPlace) -> MatchGoal {
    MatchGoal { place, grip: cockpit.grips(place).unwrap().midway() }
}

#[test]
fn the_usual_axes_are_steps_that_clients_feel() {
    let axes = axes();
    assert_eq!(axes.spacers_mm, [0.0, 5.0, 10.0, 15.0, 20.0, 25.0, 30.0]);
    assert_eq!(axes.rolls_rad.len(), 15);
    assert!((axes.rolls_rad[1] - (-2.5_f64).to_radians()).abs() < 1e-15);
    assert_eq!(axes.shifts_mm.len(), 13);
}

#[test]
fn the_same_bar_comes_back_as_it_was() {
    // present values off the grid on purpose: they are among the points all the same
    for (spacers, roll_deg) in [(10.0, 0.0), (12.5, 1.3)] {
        let present = bare(deep(), stem(100.0, -6.0), spacers, roll_deg);
        for place in HandPlace::ALL {
            let found = match_place(&goal(&present, place), &present, &axes()).unwrap().unwrap();
            assert_eq!(found.cockpit, present, "{place:?}");
            assert!(found.residual_mm < 1e-9 && found.changed == 0 && found.wider_mm == 0.0);
        }
    }
}

#[test]
fn no_lever_is_put_where_the_bar_cannot_hold_one() {
    let present = bare(compact(), stem(100.0, -6.0), 10.0, 0.0);
    let wide = Axes { shifts_mm: (-120..=120).map(f64::from).collect(), ..axes() };
    let here = goal(&present, HandPlace::Hoods);
    // wanted so far off that only a lever beyond its zone would come near
    for (x, y) in [(0.0, -150.0), (-120.0, 80.0), (60.0, -60.0)] {
        let far = MatchGoal { grip: here.grip + fit_math::DVec3::new(x, y, 0.0), ..here };
        let found = match_place(&far, &present, &wide).unwrap().unwrap();
        let bend = found.cockpit.bend();
        let (from, to) = bend.clamp_zone();
        let pair = found.cockpit.levers().unwrap();
        for mount in [pair.left, pair.right] {
            let s = bend.s_from_along(mount.along_mm);
            assert!((from - 1e-9..=to + 1e-9).contains(&s), "{x} {y}: {s} outside {from}..{to}");
        }
    }
}

/// Seen from the side, where the hands are on average, mm.
fn between_the_hands(cockpit: &Cockpit, place: HandPlace) -> DVec2 {
    let pair = cockpit.grips(place).unwrap();
    let [left, right] = [pair.left, pair.right].map(|grip| grip.centre);
    DVec2::new(f64::midpoint(left.x, right.x), f64::midpoint(left.y, right.y))
}

/// Every point of the grid is built whole, and its grip measured.
struct Naive {
    distance: f64,
    changed: u32,
    roll: f64,
    spacers: f64,
    cockpit: Cockpit,
}

fn naive(goal: &MatchGoal, present: &Cockpit, axes: &Axes) -> Naive {
    let mut stems: Vec<Stem> = axes.stems.clone();
    stems.push(*present.stem());
    let mut spacers = axes.spacers_mm.clone();
    spacers.push(present.spacers_mm());
    let mut rolls = axes.rolls_rad.clone();
    rolls.push(present.roll_rad());
    let uses_lever = matches!(goal.place, HandPlace::Hoods | HandPlace::BentElbowHoods);
    let shifts = if uses_lever { axes.shifts_mm.clone() } else { vec![0.0] };
    let (from, to) = present.bend().clamp_zone();
    let mut all = Vec::new();
    for &stem in &stems {
        for &spacer in &spacers {
            for &roll in &rolls {
                for &shift in &shifts {
                    let pair = present.levers().unwrap();
                    let moved = |mount: Mount| Mount { along_mm: mount.along_mm + shift, ..mount };
                    let (left, right) = (moved(pair.left), moved(pair.right));
                    let off_zone = |mount: Mount| {
                        let s = present.bend().s_from_along(mount.along_mm);
                        s < from || s > to
                    };
                    if shift != 0.0 && (off_zone(left) || off_zone(right)) {
                        continue;
                    }
                    let pair = LeverPair { left, right, ..pair.clone() };
                    let cockpit = Cockpit::new(
                        *present.front(),
                        stem,
                        spacer,
                        present.bend().clone(),
                        roll,
                        Some(pair),
                        present.drops_hand_mm(),
                    )
                    .unwrap();
                    let off = between_the_hands(&cockpit, goal.place) - goal.grip.truncate();
                    let changed = u32::from(stem != *present.stem())
                        + u32::from(spacer != present.spacers_mm())
                        + u32::from(roll != present.roll_rad())
                        + u32::from(shift != 0.0);
                    all.push(Naive {
                        distance: off.x.hypot(off.y),
                        changed,
                        roll: roll.abs(),
                        spacers: spacer,
                        cockpit,
                    });
                }
            }
        }
    }
    let least = all.iter().map(|n| n.distance).fold(f64::INFINITY, f64::min);
    all.retain(|n| n.distance <= least + 1e-9);
    all.sort_by(|a, b| {
        a.changed
            .cmp(&b.changed)
            .then(a.roll.total_cmp(&b.roll))
            .then(a.spacers.total_cmp(&b.spacers))
    });
    all.swap_remove(0)
}

/// Holds a match against the plain loop, at every kind of place; gives back how the hoods' lever
/// moved along the bar, mm.
fn as_near_as_a_plain_loop_can(as_it_came: &Cockpit, present: &Cockpit) -> f64 {
    let mut shift_mm = 0.0;
    for place in [HandPlace::Hoods, HandPlace::Drops, HandPlace::Tops] {
        let goal = goal(as_it_came, place);
        let found = match_place(&goal, present, &axes()).unwrap().unwrap();
        let slow = naive(&goal, present, &axes());
        println!("{place:?}: {:.3} mm left, {} changed", found.residual_mm, found.changed);
        assert!((found.residual_mm - slow.distance).abs() < 1e-9, "{place:?}");
        assert_eq!(found.changed, slow.changed, "{place:?}");
        assert_eq!(found.cockpit, slow.cockpit, "{place:?}");
        let grip = between_the_hands(&found.cockpit, place);
        assert!((grip.distance(goal.grip.truncate()) - found.residual_mm).abs() < 1e-9);
        let (before, after) = (present.levers().unwrap(), found.cockpit.levers().unwrap());
        let moved = |of: fn(&LeverPair) -> Mount| of(after).along_mm - of(before).along_mm;
        let (left, right) = (moved(|pair| pair.left), moved(|pair| pair.right));
        assert!((left - right).abs() < 1e-9, "{place:?}: both levers move alike");
        if place == HandPlace::Hoods {
            shift_mm = right;
        }
    }
    shift_mm
}

#[test]
fn another_bar_is_brought_as_near_as_a_plain_loop_can() {
    let as_it_came = bare(deep(), stem(100.0, -6.0), 10.0, 0.0);
    for spacers in [10.0, 22.5] {
        let present = bare(compact(), stem(100.0, -6.0), spacers, 0.0);
        as_near_as_a_plain_loop_can(&as_it_came, &present);
    }
}

/// Another kind of lever: its hood is longer and steeper.
fn other_kind() -> LeverShape {
    let grip_mm = DVec2::new(31.0, 52.0);
    LeverShape { grip_mm, hood_slope_rad: 0.5, grip_radius_mm: 18.0, ..kind() }
}

#[test]
fn other_levers_and_sides_set_differently_are_brought_back_as_near_too() {
    let with = |bend: &Arc<Bend>, kind: LeverShape, left: Mount, right: Mount| {
        let pair = Some(LeverPair { shape: Arc::new(kind), left, right });
        Cockpit::new(front(), stem(100.0, -6.0), 10.0, bend.clone(), 0.02, pair, 4.0).unwrap()
    };
    let (old, new) = (deep(), compact());
    let (on_old, on_new) = (levers(&old).right, levers(&new).right);
    let down = |mount: Mount, mm: f64| Mount { along_mm: mount.along_mm - mm, ..mount };
    let turned = |mount: Mount, rad: f64| Mount { turn_in_rad: rad, ..mount };
    let zone = new.clamp_zone();
    let lowest_mm = new.along_from_s(zone.1);
    let nearly_out = Mount { along_mm: lowest_mm + 2.5, ..on_new };
    let mut shifts_mm = Vec::new();
    for (came, present) in [
        // another kind on the new bar
        (with(&old, kind(), on_old, on_old), with(&new, other_kind(), on_new, on_new)),
        (with(&old, other_kind(), on_old, on_old), with(&new, kind(), on_new, on_new)),
        // sides set differently before, now, and both
        (with(&old, kind(), down(on_old, 7.0), on_old), with(&new, kind(), on_new, on_new)),
        (
            with(&old, kind(), on_old, on_old),
            with(&new, kind(), turned(on_new, 0.1), down(on_new, 5.0)),
        ),
        (
            with(&old, other_kind(), on_old, turned(down(on_old, 4.0), 0.07)),
            with(&new, kind(), down(on_new, 6.0), turned(on_new, 0.05)),
        ),
        // both 5 mm down would do, but one lever comes to the end of its zone after 2.5
        (
            with(&new, kind(), nearly_out, down(on_new, 10.0)),
            with(&new, kind(), nearly_out, on_new),
        ),
        (
            with(&new, kind(), down(on_new, 10.0), nearly_out),
            with(&new, kind(), on_new, nearly_out),
        ),
    ] {
        shifts_mm.push(as_near_as_a_plain_loop_can(&came, &present));
    }
    println!("levers moved by {shifts_mm:?} mm");
    let moved = shifts_mm.iter().filter(|mm| mm.abs() > 0.5).count();
    assert!(moved >= 3, "{shifts_mm:?}");
    assert!(shifts_mm[5..].iter().all(|mm| (-2.5..=0.0).contains(mm)), "{shifts_mm:?}");
}

#[test]
fn a_tie_goes_to_the_fewest_changed() {
    // the tops do not see the roll when they lie in the clamp's axis: any roll would do
    let present = bare(deep(), stem(100.0, -6.0), 10.0, 2.0);
    let other = bare(deep(), stem(80.0, -6.0), 10.0, 2.0);
    let found = match_place(&goal(&other, HandPlace::Tops), &present, &axes()).unwrap().unwrap();
    assert_eq!((found.changed, found.cockpit.roll_rad()), (1, present.roll_rad()));
    assert!(found.residual_mm < 1e-9);
}

#[test]
fn width_cannot_be_matched_and_is_told() {
    use fit_math::bar::{BarDimensions, Family};
    let wide = BarDimensions::usual(Family::Round, 85.0, 145.0, 460.0).build().unwrap();
    let present = bare(std::sync::Arc::new(wide), stem(100.0, -6.0), 10.0, 0.0);
    let narrow = bare(deep(), stem(100.0, -6.0), 10.0, 0.0);
    let found = match_place(&goal(&narrow, HandPlace::Hoods), &present, &axes()).unwrap().unwrap();
    assert!(found.residual_mm < 1e-9 && found.changed == 0);
    assert!((found.wider_mm - 20.0).abs() < 1e-9, "{}", found.wider_mm);
}

#[test]
fn hoods_cannot_be_matched_without_levers() {
    let present = bare(deep(), stem(100.0, -6.0), 10.0, 0.0);
    let goal = goal(&present, HandPlace::Hoods);
    let track = Cockpit::new(
        *present.front(),
        *present.stem(),
        10.0,
        present.bend().clone(),
        0.0,
        None,
        0.0,
    )
    .unwrap();
    assert_eq!(match_place(&goal, &track, &axes()).unwrap(), None);
}
