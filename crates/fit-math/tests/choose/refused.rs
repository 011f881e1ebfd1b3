//! What cannot be asked or offered is refused, and named.

use crate::draw::{Case, People, case};
use crate::random::Random;
use fit_math::DVec2;
use fit_math::choose::{
    Aim, Allowed, AtHands, Bar, ChooseError, Limited, Number, Pick, Search, Setting, Shape,
};

fn refused(change: impl Fn(&mut Case)) -> ChooseError {
    let mut case = case(&mut Random(2), &People::all());
    change(&mut case);
    Search::new(case.question(), &case.ranges, 10.0).map(|_| ()).unwrap_err()
}

#[test]
fn what_is_no_number_or_of_no_use_is_refused() {
    let aim = |of, weight, shape| Aim { of, weight, shape };
    let trunk = Number::Hands(0, AtHands::Trunk);
    let near = Shape::Near { at: 0.7, scale: 0.1 };
    let wrong = [
        aim(trunk, -1.0, near),
        aim(trunk, f64::NAN, near),
        aim(Number::Hands(9, AtHands::Trunk), 1.0, near),
        aim(Number::Hands(0, AtHands::AwayFrom(DVec2::NAN)), 1.0, near),
        aim(trunk, 1.0, Shape::Enough { from: 0.5, enough: 0.5 }),
        aim(trunk, 1.0, Shape::Near { at: 0.5, scale: 0.0 }),
        aim(trunk, 1.0, Shape::NotAbove { most: f64::NAN, scale: 1.0 }),
        aim(trunk, 1.0, Shape::NotBelow { least: 0.0, scale: -1.0 }),
    ];
    for aim in wrong {
        assert_eq!(refused(|case| case.asked.aims = vec![aim]), ChooseError::Aim { index: 0 });
    }
    assert_eq!(refused(|case| case.asked.places.clear()), ChooseError::Places);
    assert_eq!(refused(|case| case.asked.places[0].1 = -0.1), ChooseError::Places);
    assert_eq!(refused(|case| case.asked.palm_mm = f64::NAN), ChooseError::Palm);
    let range = Allowed { of: Limited::Drop, from: f64::NAN, to: 1.0 };
    assert_eq!(refused(|case| case.ranges.push(range)), ChooseError::Ranges);
}

#[test]
fn parts_that_do_not_go_together_are_refused() {
    assert_eq!(refused(|case| case.shop.spacers.clear()), ChooseError::Spacers);
    let bar = ChooseError::Bar { index: 0 };
    assert_eq!(refused(|case| case.shop.bars[0].rolls.clear()), bar);
    assert_eq!(refused(|case| case.shop.bars[0].zone_mm.1 = 1e4), bar);
    let rolls_at = |more: usize, from: f64| {
        let at = |case: &mut Case| {
            let of = &mut case.shop.bars[0];
            of.rolls_at = vec![(from, 1.0); of.shifts.len() + more];
        };
        refused(at)
    };
    assert_eq!([rolls_at(1, 0.0), rolls_at(0, f64::NAN)], [bar.clone(), bar.clone()]);
    assert_eq!(refused(|case| case.shop.bars[0].levers.left.turn_in_rad = f64::NAN), bar);
    let stem = ChooseError::Stem { index: 0 };
    assert_eq!(refused(|case| case.shop.stems[0].stem.length_mm = f64::INFINITY), stem);
    assert_eq!(refused(|case| case.shop.stems[0].stem.length_mm = -1.0), stem);
    let twice = |case: &mut Case| case.shop.bars.push(case.shop.bars[0].clone());
    assert_eq!(refused(twice), ChooseError::Ids);
    let nowhere = Pick { bar: 0, stem: Some(99), spacers: 0, roll: 0, shift: 0 };
    assert_eq!(refused(|case| case.shop.present = Some(nowhere)), ChooseError::Present);
    assert_eq!(refused(|case| case.shop.front.reach_mm = -1.0), ChooseError::Front);
    let far = refused(|case| {
        case.shop.present = None;
        case.shop.front.reach_mm = 1e5;
    });
    assert!(matches!(far, ChooseError::Grips { .. }), "{far:?}");
}

#[test]
fn settings_are_whole_steps_with_what_is_there_first() {
    let rolls = Bar::half_degrees(-1.0, 2.2, 0.5_f64.to_radians(), 0.1);
    let degrees: Vec<f64> = rolls.iter().map(|s| s.at.to_degrees()).collect();
    let expected = [0.5, -1.0, -0.5, 0.0, 1.0, 1.5, 2.0];
    assert!(degrees.iter().zip(expected).all(|(a, b)| (a - b).abs() < 1e-9), "{degrees:?}");
    assert_eq!(degrees.len(), expected.len());
    assert_eq!(rolls[0].effort, 0.0);
    assert!(rolls[1..].iter().all(|s| s.effort == 0.1));

    let case = case(&mut Random(2), &People::all());
    let bar = &case.shop.bars[0];
    let (from, to) = bar.zone_mm;
    let shifts = Bar::whole_mm(&bar.bend, &bar.levers, bar.zone_mm, 0.2);
    assert_eq!(shifts[0], Setting { at: 0.0, effort: 0.0, jobs: 0 });
    let s_mm = |shift: f64| bar.bend.s_from_along(bar.levers.right.along_mm + shift);
    assert!(shifts.iter().all(|s| (from..=to).contains(&s_mm(s.at)) && s.at.fract() == 0.0));
    // one more either way would leave the zone
    let most = shifts.iter().map(|s| s.at).fold(0.0, f64::max);
    let least = shifts.iter().map(|s| s.at).fold(0.0, f64::min);
    assert_eq!(shifts.len() as f64, most - least + 1.0);
    let off = bar.levers.left.along_mm - bar.levers.right.along_mm;
    assert_eq!(off, 0.0, "the drawn levers are set alike");
    assert!(s_mm(most + 1.0) < from && s_mm(least - 1.0) > to);
}
