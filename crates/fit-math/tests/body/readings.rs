//! Laws of readings: their order, their number, and what is not known.

use crate::{Random, SURVEY, Surveyed};
use Dimension::{BiacromialBreadth, CrotchHeight, HandLength, Span, Stature, Weight};
use fit_math::body::{
    Body, Dimension, Estimate, Gradient, Item, People, Reading, Sex, measure_next,
};

/// Rounding alone is between two ways, mm.
const EXACT_MM: f64 = 1e-9;

fn eight() -> Vec<Reading> {
    vec![
        Reading::new(Stature, 1741.0),
        Reading::new(CrotchHeight, 822.0),
        Reading::new(Item::ShoulderToFist, 671.0),
        Reading::new(BiacromialBreadth, 401.0),
        Reading::new(Item::Notch, 595.0),
        Reading::new(HandLength, 188.0),
        Reading::new(Dimension::HandBreadth, 85.0),
        Reading::new(Weight, 71.0),
    ]
}

fn apart(one: &Estimate, other: &Estimate) -> f64 {
    let off = |d: Dimension| {
        let (a, b) = (one.normal(), other.normal());
        let gradient = Gradient::from(d);
        (a.mean(d) - b.mean(d)).abs().max((a.sd_of(&gradient) - b.sd_of(&gradient)).abs())
    };
    Dimension::ALL.into_iter().map(off).fold(0.0, f64::max)
}

fn estimate(sex: Option<Sex>, readings: &[Reading]) -> Estimate {
    Estimate::new(&SURVEY, sex, People::Clients, readings)
}

#[test]
fn the_order_of_readings_does_not_matter() {
    let mut random = Random(5);
    for sex in [Some(Sex::Male), Some(Sex::Female), None] {
        let mut readings = eight();
        readings.extend([Reading::new(Stature, 1744.0), Reading::new(CrotchHeight, 815.0)]);
        let first = estimate(sex, &readings);
        let mut worst = 0.0_f64;
        for _ in 0..20 {
            for at in (1..readings.len()).rev() {
                readings.swap(at, random.below(at + 1));
            }
            worst = worst.max(apart(&first, &estimate(sex, &readings)));
        }
        println!("{sex:?}: 20 orders, {worst:.1e} mm apart");
        assert!(worst < EXACT_MM, "{worst}");
    }
}

/// What was learnt one after the other, in the order given and in the other, is what is learnt of
/// all at once.
#[test]
fn one_after_the_other_is_all_at_once() {
    for sex in Sex::BOTH {
        let at_once = estimate(Some(sex), &eight());
        for backwards in [false, true] {
            let mut person = estimate(Some(sex), &[]).normal().clone();
            let mut readings = eight();
            if backwards {
                readings.reverse();
            }
            for one in readings {
                let error = one.item.measuring_sd();
                person.learn(&one.item.gradient(), one.value, error * error);
            }
            for d in Dimension::ALL {
                let off = (person.mean(d) - at_once.normal().mean(d)).abs();
                assert!(off < 1e-8, "{sex:?} {d}: {off}");
            }
        }
    }
}

/// Two equal readings are one with less of an error: of 4 mm, four times as usual and once as found
/// (nothing apart), by two: variance 4² · 4/5 / 2. Any number of them keeps half of one's error.
#[test]
fn several_readings_are_one_with_a_smaller_error() {
    for (count, variance) in [(1, 16.0), (2, 6.4), (40, 4.0)] {
        let several = estimate(Some(Sex::Male), &vec![Reading::new(Stature, 1800.0); count]);
        let mut once = estimate(Some(Sex::Male), &[]).normal().clone();
        once.learn(&Stature.into(), 1800.0, variance);
        for d in Dimension::ALL {
            let gradient = Gradient::from(d);
            let off = once.sd_of(&gradient) - several.normal().sd_of(&gradient);
            assert!(off.abs() < 1e-8, "{count} {d}: {off}");
            assert!((once.mean(d) - several.normal().mean(d)).abs() < 1e-8);
        }
    }
    // readings far apart count for less than readings close together
    let sd = |readings: [f64; 3]| {
        let readings = readings.map(|mm| Reading::new(CrotchHeight, mm));
        estimate(None, &readings).normal().sd_of(&CrotchHeight.into())
    };
    assert!(sd([790.0, 820.0, 850.0]) > 1.5 * sd([819.0, 820.0, 821.0]));
}

#[test]
fn an_unknown_sex_lies_between() {
    let mut random = Random(23);
    let populations = Sex::BOTH.map(Surveyed::of);
    let mut told = [0.0, 0.0];
    for at in 0..200 {
        let person = populations[at % 2].draw(&mut random, 1.0);
        let readings: Vec<_> = [Stature, Weight, CrotchHeight, BiacromialBreadth, HandLength]
            .map(|d| Reading::new(d, person[d.index()]))
            .to_vec();
        let [men, women, unknown] =
            [Some(Sex::Male), Some(Sex::Female), None].map(|sex| estimate(sex, &readings));
        for d in Dimension::ALL {
            let (a, b) = (men.normal().mean(d), women.normal().mean(d));
            let found = unknown.normal().mean(d);
            let within = a.min(b) - EXACT_MM..=a.max(b) + EXACT_MM;
            assert!(within.contains(&found), "{d}: {a} {b} {found}");
        }
        told[at % 2] += unknown.share_of_men() / 100.0;
    }
    println!("men are taken as men by {:.2}, women by {:.2}", told[0], told[1]);
    assert!(told[0] > 0.8 && told[1] < 0.2, "{told:?}");
    // without a reading nothing is known
    assert_eq!(estimate(None, &[]).share_of_men(), 0.5);
}

/// The doubt foretold for a further reading is the doubt once it is read, whatever it says.
#[test]
fn the_next_reading_is_worth_what_was_foretold() {
    let question = Gradient::from(Dimension::AcromialHeight)
        - Dimension::TrochanterionHeight.into()
        + Gradient::from(Dimension::AcromionRadialeLength) * 0.5;
    let readings = &eight()[..2];
    let body = Body::read(&SURVEY, Some(Sex::Female), None, readings).unwrap();
    let items = [Item::USUAL.as_slice(), &[Item::from(Dimension::TrochanterionHeight)]].concat();
    let found = measure_next(&body, &question, &items);
    assert_eq!(found.len(), items.len() - 2, "stature and inseam were read");
    assert!(found.is_sorted_by(|a, b| a.sd_then <= b.sd_then));
    for one in &found {
        println!("{}: {:.2} → {:.2} mm", one.item, one.sd_now, one.sd_then);
        assert!(one.sd_then <= one.sd_now);
        for off in [-20.0, 13.0] {
            let value = body.normal().mean_of(&one.item.gradient()) + one.item.offset() + off;
            let mut more = readings.to_vec();
            more.push(Reading::new(one.item, value));
            let then = estimate(Some(Sex::Female), &more).normal().sd_of(&question);
            assert!((then - one.sd_then).abs() < 1e-8, "{}: {then}", one.item);
        }
    }
    assert_eq!(found[0].item, Item::from(Dimension::TrochanterionHeight));

    // shoulders felt at the joint are read: the other landmark is not asked for
    let felt = [Reading::new(Item::ShoulderJoints, 330.0)];
    let body = Body::read(&SURVEY, None, None, &felt).unwrap();
    let known = body.known(BiacromialBreadth);
    assert!(known.measured && known.value == 360.0 && known.sd > 8.0, "{known:?}");
    let next = measure_next(&body, &Gradient::from(Span), &Item::USUAL);
    let shoulders = |item: Item| item.dimension() == Some(BiacromialBreadth);
    assert!(!next.iter().any(|one| shoulders(one.item)));
}
