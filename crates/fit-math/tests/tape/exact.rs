//! Readings without error, laid level or slant, in a trainer that is level or not.

use fit_math::HandPlace;
use fit_math::bar::WidthHow;
use fit_math::tape::{
    Blamed, Found, HoodAt, Laid, Of, Reading, TapeError, Unknown, explain, predict,
};

use super::draw::{ALL, Bike, Draw};

/// What was found is the bike itself.
fn assert_found(found: &Found, bike: &Bike, within: f64) {
    let (got, real) = (found.cockpit(), &bike.cockpit);
    assert!(got.clamp().distance(real.clamp()) < within, "clamp {:?}", got.clamp());
    assert!((got.roll_rad() - real.roll_rad()).abs() < within / 100.0);
    assert!((got.bend().reach_mm() - real.bend().reach_mm()).abs() < within);
    assert!((got.bend().drop_mm() - real.bend().drop_mm()).abs() < within);
    for place in [HandPlace::Tops, HandPlace::Hoods, HandPlace::Drops, HandPlace::Ends] {
        let (got, real) = (got.grips(place).unwrap(), real.grips(place).unwrap());
        assert!(got.right.centre.distance(real.right.centre) < within, "{place:?}");
        assert!(got.left.centre.distance(real.left.centre) < within, "{place:?}");
    }
    assert!(found.saddle().sit_point().distance(bike.saddle.sit_point()) < within);
    assert!((found.saddle().tilt_rad() - bike.saddle.tilt_rad()).abs() < within / 100.0);
}

#[test]
fn exact_readings_come_back_to_a_millionth_of_a_millimetre() {
    let mut draw = Draw(1);
    for case in 0..60 {
        let bike = draw.bike(0.0);
        let list: &[Of] = if case % 2 == 0 { &Of::TWELVE } else { &ALL };
        let explained = explain(&bike.known, &bike.all_exact(list)).unwrap();
        assert!(explained.suspicion.is_none() && explained.mended.is_empty());
        assert_found(&explained.found, &bike, 1e-6);
        assert!(explained.found.misfit() < 1e-12, "{}", explained.found.misfit());
        for judged in explained.found.judged() {
            assert!((0.0..=1.0).contains(&judged.redundancy));
        }
    }
}

#[test]
fn redundancies_add_up_to_what_is_observed_beyond_need() {
    let mut draw = Draw(2);
    let bike = draw.bike(1.0);
    let readings = draw.taped(&bike, &ALL);
    let found = Found::new(&bike.known, &readings).unwrap();
    let sum: f64 = found.judged().iter().map(|judged| judged.redundancy).sum();
    let beyond = found.judged().len() - found.estimates().len();
    assert!((sum - beyond as f64).abs() < 1e-6, "{sum} of {beyond}");
}

#[test]
fn level_is_slant_times_the_cosine_of_its_slope() {
    let mut draw = Draw(3);
    for _ in 0..50 {
        let bike = draw.bike(1.0);
        let read = |of| predict(of, &bike.cockpit, &bike.saddle, 0.0).unwrap();
        let nose_y =
            bike.saddle.sit_point().y + bike.saddle.nose_to_sit_mm() * bike.saddle.tilt_rad().tan();
        let slope = |level: f64, y: f64| (y - nose_y).atan2(level);
        let level = read(Of::NoseToBar(Laid::Level));
        let slant = read(Of::NoseToBar(Laid::Slant));
        let cos = slope(level, bike.cockpit.clamp().y).cos();
        assert!((level - slant * cos).abs() < 1e-9, "{level} {slant} {cos}");
        assert!(slant >= level);
        let level = read(Of::NoseToHood(HoodAt::Trough, Laid::Level));
        let slant = read(Of::NoseToHood(HoodAt::Trough, Laid::Slant));
        let below = read(Of::HoodBelowSaddle(HoodAt::Trough));
        let cos = slope(level, bike.saddle.sit_point().y - below).cos();
        assert!((level - slant * cos).abs() < 1e-9);
    }
}

#[test]
fn distances_taken_slant_give_the_same_cockpit() {
    let slant: Vec<Of> = Of::TWELVE
        .into_iter()
        .map(|of| match of {
            Of::NoseToBar(_) => Of::NoseToBar(Laid::Slant),
            Of::NoseToHood(..) => Of::NoseToHood(HoodAt::Tip, Laid::Slant),
            Of::HoodBelowSaddle(_) => Of::HoodBelowSaddle(HoodAt::Tip),
            Of::NoseToHookFront(_) => Of::NoseToHookFront(Laid::Slant),
            other => other,
        })
        .collect();
    let mut draw = Draw(4);
    for _ in 0..20 {
        let bike = draw.bike(0.0);
        let found = Found::new(&bike.known, &bike.all_exact(&slant)).unwrap();
        assert_found(&found, &bike, 1e-6);
    }
}

#[test]
fn a_trainer_out_of_level_that_is_told_gives_the_same_cockpit() {
    let mut draw = Draw(5);
    let (mut turned_mm, mut untold_mm): (f64, f64) = (0.0, 0.0);
    for _ in 0..20 {
        let mut bike = draw.bike(0.0);
        let level = bike.all_exact(&ALL);
        bike.known.pitch_rad = 2_f64.to_radians();
        let tilted = bike.all_exact(&ALL);
        for (a, b) in level.iter().zip(&tilted) {
            turned_mm = turned_mm.max((a.value - b.value).abs());
        }
        assert_found(&Found::new(&bike.known, &tilted).unwrap(), &bike, 1e-6);
        bike.known.pitch_rad = 0.0;
        let untold = Found::new(&bike.known, &tilted).unwrap();
        untold_mm = untold_mm.max(untold.cockpit().clamp().distance(bike.cockpit.clamp()));
    }
    println!("2°: readings change by up to {turned_mm:.1} mm, untold it is {untold_mm:.1} mm off");
    assert!(turned_mm > 15.0 && untold_mm > 10.0, "it does change what is read");
}

#[test]
fn what_stands_alone_and_what_can_be_singled_out_is_computed() {
    let mut draw = Draw(6);
    let bike = draw.bike(0.0);
    let lists: [(&str, Vec<Of>); 3] = [
        ("the twelve", Of::TWELVE.to_vec()),
        ("the twelve and four besides", [&Of::TWELVE[..], &Of::BESIDES].concat()),
        ("all", ALL.to_vec()),
    ];
    let mut alone = Vec::new();
    for (name, list) in lists {
        let found = Found::new(&bike.known, &bike.all_exact(&list)).unwrap();
        println!("{name}: alone {:?}", found.alone());
        for judged in found.judged() {
            println!(
                "  {:?}: redundancy {:.2}, smallest slip seen {:.1?}, alike {:?}",
                judged.what,
                judged.redundancy,
                judged.smallest_slip_seen(),
                judged.alike
            );
        }
        for of in [Unknown::ClampX, Unknown::ClampY, Unknown::Reach, Unknown::Drop] {
            println!("  {of:?} ± {:.2}", found.estimate(of).unwrap().sd);
        }
        let roll_sd = found.estimate(Unknown::Roll).unwrap().sd.to_degrees();
        println!(
            "  roll ± {roll_sd:.2}°, hoods {:.2}",
            found.place(HandPlace::Hoods).unwrap().sd_mm
        );
        alone.push(found.alone());
    }
    let saddle =
        [Of::SaddleHeight, Of::NoseBehindAxle, Of::NoseToWide(Laid::Level), Of::SaddleTilt];
    assert_eq!(alone[0], saddle, "nothing else of the twelve speaks of the saddle");
    assert!(!alone[1].contains(&Of::SaddleHeight), "the diagonal checks it");
    assert!(alone[2].contains(&Of::SaddleTilt));
}

#[test]
fn a_missing_reading_is_named_by_what_it_leaves_open() {
    let bike = Draw(7).bike(0.0);
    let without = |left_out: Of| {
        let rest = Of::TWELVE.into_iter().filter(|of| *of != left_out);
        explain(&bike.known, &bike.all_exact(&rest.collect::<Vec<_>>()))
    };
    // without saddle height, or without its nose, saddle and bar may lie anywhere together
    for (left_out, open) in [
        (Of::SaddleTilt, vec![Unknown::SaddleTilt]),
        (Of::SaddleHeight, vec![Unknown::SaddleHeight, Unknown::ClampY]),
        (Of::NoseBehindAxle, vec![Unknown::NoseBehindAxle, Unknown::ClampX]),
    ] {
        let refused = without(left_out).unwrap_err();
        assert_eq!(refused, TapeError::NotDetermined { unknowns: open });
    }
    // what others determine may be left out
    for of in [Of::NoseToBar(Laid::Level), Of::LeverFromEnd, Of::RampSlope] {
        assert_found(&without(of).unwrap().found, &bike, 1e-5);
    }
}

#[test]
fn numbers_that_are_none_and_levers_that_are_not_there_are_refused() {
    let mut bike = Draw(8).bike(0.0);
    let mut readings = bike.all_exact(&Of::TWELVE);
    readings[4].value = f64::NAN;
    assert!(matches!(explain(&bike.known, &readings), Err(TapeError::Number { .. })));
    readings = bike.all_exact(&Of::TWELVE);
    readings[4].sd = 0.0;
    assert!(matches!(explain(&bike.known, &readings), Err(TapeError::Number { .. })));
    readings = bike.all_exact(&Of::TWELVE);
    bike.known.levers = None;
    assert!(matches!(explain(&bike.known, &readings), Err(TapeError::NoLever { .. })));
    let bare: Vec<Reading> = readings.into_iter().filter(|r| !r.of.needs_lever()).collect();
    let found = explain(&bike.known, &bare).unwrap().found;
    assert!(found.cockpit().clamp().distance(bike.cockpit.clamp()) < 1e-6);
    assert!(found.place(HandPlace::Hoods).is_none() && found.estimate(Unknown::Along).is_none());
    // a width is worth taking where the bar is not known
    let width = Of::WidthAtHoods(WidthHow::CentreToCentre);
    let with = [bare, vec![bike.exact(width)]].concat();
    let found = Found::new(&bike.known, &with).unwrap();
    assert!(found.judged().iter().any(|judged| judged.what == Blamed::Reading(width)));
}
