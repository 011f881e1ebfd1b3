//! Slips of the hand among a client's readings are found, and right ones are left alone.

use crate::{Random, SURVEY, Surveyed};
use fit_math::body::{Dimension, Item, Reading, Sex, SlipKind, unlikely};

/// People of each sex, each with eight readings.
const DRAWN: usize = 100;

fn eight(person: &[f64], random: &mut Random) -> Vec<Reading> {
    use Dimension as D;
    let value = |d: Dimension| person[d.index()];
    [
        Item::from(D::Stature),
        D::CrotchHeight.into(),
        Item::ShoulderToFist,
        D::BiacromialBreadth.into(),
        Item::Notch,
        D::HandLength.into(),
        D::HandBreadth.into(),
        D::Weight.into(),
    ]
    .map(|item| {
        let error = item.measuring_sd() * random.normal();
        Reading::new(item, (item.gradient().at(value) + error).round())
    })
    .to_vec()
}

fn everybody(mut look: impl FnMut(Option<Sex>, Vec<Reading>, &mut Random)) {
    for sex in Sex::BOTH {
        let population = Surveyed::of(sex);
        let mut random = Random(40 + sex as u64);
        for at in 0..DRAWN {
            let person = population.draw(&mut random, 1.0);
            let readings = eight(&person, &mut random);
            look((at % 4 != 0).then_some(sex), readings, &mut random);
        }
    }
}

#[test]
fn centimetres_are_found_in_every_reading() {
    let mut explained = 0;
    everybody(|sex, mut readings, random| {
        let at = random.below(7);
        let meant = readings[at].value;
        readings[at].value /= 10.0;
        let found = unlikely(&SURVEY, sex, &readings);
        let worst = &found[0];
        assert_eq!((&worst.at[..], worst.item), (&[at][..], readings[at].item));
        // what is itself unusual is not explained
        if let Some(slip) = worst.slip {
            assert_eq!(slip.kind, SlipKind::Centimetres, "{}: {slip:?}", worst.item);
            assert!((slip.meant - meant).abs() < 1e-9);
            explained += 1;
        }
    });
    println!("centimetres are found in all of {} and put right in {explained}", 2 * DRAWN);
    assert!(f64::from(explained) > 0.98 * 2.0 * DRAWN as f64, "{explained}");
}

#[test]
fn inches_and_pounds_are_found() {
    let (mut tried, mut named) = (0_u32, 0_u32);
    everybody(|sex, readings, random| {
        let at = random.below(8);
        let (into, kind) = match at {
            7 => (1.0 / 0.453_592_37, SlipKind::Pounds),
            _ => (1.0 / 25.4, SlipKind::Inches),
        };
        let mut wrong = readings.clone();
        wrong[at].value *= into;
        let found = unlikely(&SURVEY, sex, &wrong);
        assert_eq!(found[0].at, [at]);
        tried += 1;
        if let Some(slip) = found[0].slip {
            assert_eq!(slip.kind, kind, "{}: {slip:?}", found[0].item);
            named += 1;
        }
    });
    println!("inches and pounds: {named} of {tried} named");
    assert!(f64::from(named) >= 0.9 * f64::from(tried), "{named} of {tried}");
}

/// Two digits of stature or inseam change places, so that it is 150 mm or more off: mostly seen.
#[test]
fn a_mistyped_reading_among_eight_is_found() {
    let (mut tried, mut seen, mut explained) = (0, 0, 0);
    everybody(|sex, mut readings, random| {
        let at = random.below(2);
        let text = readings[at].value.to_string();
        let mut digits = text.into_bytes();
        let tens = digits.len() - 2;
        digits.swap(tens - 1, tens);
        let wrong: f64 = String::from_utf8(digits).unwrap().parse().unwrap();
        let meant = readings[at].value;
        if (wrong - meant).abs() < 150.0 {
            return;
        }
        readings[at].value = wrong;
        tried += 1;
        let found = unlikely(&SURVEY, sex, &readings);
        if found.first().is_some_and(|worst| worst.at == [at]) {
            seen += 1;
            let slip = found[0].slip;
            explained += u32::from(slip.is_some_and(|slip| slip.meant == meant));
        }
    });
    println!("of {tried} swapped by 150 mm or more {seen} are found, {explained} put right");
    assert!(tried > 50 && f64::from(seen) > 0.95 * f64::from(tried), "{seen} of {tried}");
    assert!(f64::from(explained) > 0.9 * f64::from(tried), "{explained} of {tried}");
}

#[test]
fn right_readings_are_seldom_asked_about() {
    let (mut people, mut asked) = (0, 0);
    everybody(|sex, readings, _| {
        people += 1;
        asked += u32::from(!unlikely(&SURVEY, sex, &readings).is_empty());
    });
    println!("{asked} of {people} people are asked about a right reading");
    assert!(f64::from(asked) < 0.03 * f64::from(people), "{asked} of {people}");
}

/// One of three inseams, both of two, and what cannot be read at all.
#[test]
fn one_of_several_is_found_and_all_of_several() {
    use Dimension::{CrotchHeight, Stature};
    let others = [Reading::new(Stature, 1741.0), Reading::new(Dimension::Span, 1790.0)];
    let inseams = |mm: &[f64]| {
        let mut readings = others.to_vec();
        readings.extend(mm.iter().map(|&mm| Reading::new(CrotchHeight, mm)));
        readings.push(Reading::new(Dimension::Weight, f64::NAN));
        unlikely(&SURVEY, Some(Sex::Male), &readings)
    };
    let found = inseams(&[822.0, 282.0, 819.0]);
    assert_eq!((found.len(), &found[0].at[..]), (1, &[3][..]));
    assert_eq!(found[0].slip.unwrap().kind, SlipKind::DigitsSwapped);
    assert_eq!(found[0].slip.unwrap().meant, 822.0);
    let found = inseams(&[82.2, 81.9]);
    assert_eq!((found.len(), &found[0].at[..]), (1, &[2, 3][..]));
    assert_eq!(found[0].slip.unwrap().kind, SlipKind::Centimetres);
    assert!(inseams(&[822.0, 819.0]).is_empty());

    // shoulders at the joint, typed as the outer edges, of a narrow man
    let shoulders = |value| {
        let mut readings = others.to_vec();
        readings.push(Reading::new(Dimension::BiacromialBreadth, value));
        unlikely(&SURVEY, Some(Sex::Male), &readings)
    };
    let found = shoulders(345.0);
    assert_eq!(found[0].slip.map(|slip| slip.kind), Some(SlipKind::JointForAcromion));
    assert!(shoulders(385.0).is_empty());
}
