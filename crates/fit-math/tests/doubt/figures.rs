//! How sure such answers can be, as figures: an independent trial of the model gave an absolute trunk
//! of 2.2 to 3.3°, 1.6° once it was seen, a difference between two bars of .4 to .5°, of which person
//! and bike alone make .05 to .11°.

use crate::people::median;
use crate::random::Random;
use crate::rides::{OTHERS, PLACES, rides};
use fit_math::body::Sex;
use fit_math::doubt::sample::{Row, sample};
use fit_math::doubt::{Alike, Asked, GAIN, Known, Nearby, Person, Sensitivity, change_sd, tells};
use fit_math::frame::Side;
use fit_math::posture::{Angle, Grips, HandPlace, Prior, Reading, Seen, calibrate};

const SAME: Alike = Alike { bar: true, levers: true, all: true };

fn person() -> Person {
    Person::unseen(&Prior::usual())
}

#[test]
fn a_trunk_by_itself_is_known_to_two_or_three_degrees() {
    let known = Known::by_catalogue(None);
    for sex in Sex::BOTH {
        let mut by_drawing = [Vec::new(), Vec::new(), Vec::new()];
        let mut by_slope = [Vec::new(), Vec::new(), Vec::new()];
        for (index, ride) in rides(sex, 40).iter().enumerate() {
            let mut random = Random(300 + index as u64);
            let drawn = ride.drawn(known);
            let found =
                sample(&ride.rider, &ride.hardly_read, (&drawn, 0), 300, &mut || random.normal());
            for (at, place) in PLACES.into_iter().enumerate() {
                let tally = found.value(0, Row::At(place), Asked::Trunk).unwrap();
                by_drawing[at].push(tally.sd().unwrap().to_degrees());
                if let Some([came, _]) = ride.sensitivities(Asked::Trunk, at, known) {
                    by_slope[at].push(came.sd(&ride.hardly_read).to_degrees());
                }
            }
        }
        for (at, place) in PLACES.into_iter().enumerate() {
            let [drawing, slope] = [&by_drawing[at], &by_slope[at]].map(|sds| median(sds));
            let [_, most, all] = halves_most_all(&by_drawing[at]);
            println!(
                "{sex:?} {place:?}: trunk ± {drawing:.2}° by drawing, {slope:.2}° first order; by \
                 drawing {most:.2}° in 19 of 20, {all:.2}° in all"
            );
            assert!((2.0..=3.3).contains(&drawing), "{sex:?} {place:?}: {drawing}");
            // hardly anybody beyond; a sample of 300 is itself off by 4 %
            assert!(most <= 3.35 && all <= 3.45, "{sex:?} {place:?}: {most} {all}");
        }
    }
}

#[test]
fn a_trunk_that_was_seen_is_known_better() {
    for sex in Sex::BOTH {
        let mut sds = Vec::new();
        for ride in rides(sex, 30) {
            let place = HandPlace::Hoods;
            let Some(posture) = ride.posture(&ride.bars[0][1], place) else { continue };
            let [right, left] = [ride.bars[0][1].right.centre, ride.bars[0][1].left.centre];
            let grips = Grips::new(right, left).unwrap();
            let report = posture.report(&ride.rider, &ride.seat, &grips, place);
            let readings = vec![
                Reading::usual(Angle::Trunk, report.trunk_rad).unwrap(),
                Reading::usual(Angle::Elbow(Side::Right), report.arms[1].elbow_rad).unwrap(),
            ];
            let seen = Seen { place, grips, slide_mm: None, readings };
            let found = calibrate(&ride.rider, &ride.seat, &[seen], &Prior::usual()).unwrap();
            let known = Known::by_catalogue(None);
            let [came, _] = ride.sensitivities(Asked::Trunk, 1, known).unwrap();
            sds.push(came.sd(&Person::seen(&found)).to_degrees());
        }
        let middle = median(&sds);
        println!("{sex:?}: trunk that was seen ± {middle:.2}°");
        assert!((1.3..=1.9).contains(&middle), "{middle}");
    }
}

/// The spread of half of some, at most; of 19 in 20; of all.
fn halves_most_all(sds: &[f64]) -> [f64; 3] {
    let mut sorted = sds.to_vec();
    sorted.sort_by(f64::total_cmp);
    [10, 19, 20].map(|of| sorted[((sorted.len() - 1) * of).div_ceil(20)])
}

/// Of the trunk's change what person and bike leave, of so many people of one sex, and the whole with
/// what is not known of bar, levers and elbows, degrees.
fn left_open(sex: Sex, other: usize, place: usize) -> [Vec<f64>; 2] {
    let (known, alike) = (Known::by_catalogue(None), OTHERS[other].alike);
    let [mut shared, mut whole] = [Vec::new(), Vec::new()];
    for ride in rides(sex, 200) {
        let nearby = Nearby::to(&ride.rider);
        let of = |bar| {
            let slopes = ride.slopes(&nearby, bar, place)?;
            Some(Sensitivity::of(&slopes, Asked::Trunk, PLACES[place], known))
        };
        let Some((came, other)) = of(0).zip(of(1 + other)) else { continue };
        shared.push(change_sd(&person(), &came, &other, SAME, 0.0).to_degrees());
        whole.push(change_sd(&person(), &came, &other, alike, 0.0).to_degrees());
    }
    assert!(shared.len() > 150, "{} are not at a limit", shared.len());
    [shared, whole]
}

/// The trial's .05 to .11° are what half of the people have. It goes with how far the hands move, and
/// with the person: of bars it is .14° in 19 of 20 people at most and .17° in all, of a stem or
/// spacers that move the hands by 15 or 20 mm .19 and .22°.
#[test]
fn person_and_bike_hardly_enter_a_difference() {
    for (other, parts) in OTHERS.iter().enumerate() {
        let (middle, most, all) =
            if parts.alike.bar { (0.15, 0.19, 0.22) } else { (0.115, 0.145, 0.17) };
        for sex in Sex::BOTH {
            for (index, place) in PLACES.into_iter().enumerate() {
                let [shared, whole] = left_open(sex, other, index);
                let [half, nineteen, largest] = halves_most_all(&shared);
                let differ = median(&whole);
                println!(
                    "{}, {sex:?} {place:?}: person and bike leave ± {half:.3}° in half of the \
                     people, {nineteen:.3} in 19 of 20, {largest:.3} in all; the whole ± {differ:.2}°",
                    parts.what
                );
                assert!(half <= middle && nineteen <= most && largest <= all);
                assert!((0.3..=0.8).contains(&differ), "{differ}");
                assert!(half < 0.45 * differ, "it is the smaller part by far");
                // where no hand moves nothing is left, and where one does something is
                let moves = parts.moves[index].truncate().length() > 0.0;
                assert_eq!(half > 1e-9, parts.moves[index].length() > 0.0);
                assert!(!moves || half > 0.03, "{half}");
            }
        }
    }
}

#[test]
fn a_bar_against_itself_differs_by_nothing_surely() {
    for ride in rides(Sex::Female, 20) {
        for place in 0..PLACES.len() {
            for number in Asked::ALL {
                let known = Known::by_catalogue(None);
                let Some([came, _]) = ride.sensitivities(number, place, known) else { continue };
                assert_eq!(change_sd(&person(), &came, &came, SAME, 0.0), 0.0);
                assert!(change_sd(&person(), &came, &came, Alike::NOTHING, 0.0) > 0.0);
            }
        }
    }
}

/// First order says what drawing finds, where no limit is near.
#[test]
fn first_order_and_drawing_agree() {
    let (known, mut compared) = (Known::by_catalogue(None), 0);
    let numbers = [Asked::Trunk, Asked::HipMin, Asked::Elbow, Asked::Neck];
    for sex in Sex::BOTH {
        for (index, ride) in rides(sex, 4).iter().enumerate() {
            let mut random = Random(900 + index as u64);
            let drawn = ride.drawn(known);
            let found = sample(&ride.rider, &person(), (&drawn, 0), 3000, &mut || random.normal());
            for (at, place) in PLACES.into_iter().enumerate() {
                for number in numbers {
                    let Some([came, other]) = ride.sensitivities(number, at, known) else {
                        continue;
                    };
                    let by_slope = [
                        came.sd(&person()),
                        change_sd(&person(), &came, &other, Alike::NOTHING, 0.0),
                    ];
                    let row = Row::At(place);
                    let by_drawing = [
                        found.value(0, row, number).unwrap().sd().unwrap(),
                        found.change(1, row, number).unwrap().sd().unwrap(),
                    ];
                    for (slope, drawing) in by_slope.into_iter().zip(by_drawing) {
                        // elbows cannot be straighter than straight, which is within their spread
                        let within = if number == Asked::Elbow { 0.25 } else { 0.12 };
                        assert!(
                            (slope / drawing - 1.0).abs() < within,
                            "{sex:?} {place:?} {number:?}: {slope} {drawing}"
                        );
                        compared += 1;
                    }
                }
            }
        }
    }
    assert!(compared > 100, "{compared}");
}

#[test]
fn parts_of_a_sample_joined_are_the_sample() {
    let ride = &rides(Sex::Male, 1)[0];
    let drawn = ride.drawn(Known::measured());
    let mut random = Random(5);
    let whole = sample(&ride.rider, &person(), (&drawn, 0), 60, &mut || random.normal());
    let mut random = Random(5);
    let mut parts = sample(&ride.rider, &person(), (&drawn, 0), 20, &mut || random.normal());
    parts.join(&sample(&ride.rider, &person(), (&drawn, 0), 40, &mut || random.normal()));
    assert_eq!(parts.draws(), whole.draws());
    for number in Asked::ALL {
        let row = Row::At(HandPlace::Drops);
        let [one, other] = [&parts, &whole].map(|of| *of.change(1, row, number).unwrap());
        assert!((one.mean() - other.mean()).abs() < 1e-12);
        assert!((one.sd().unwrap() - other.sd().unwrap()).abs() < 1e-12, "{number:?}");
    }
}

/// Held against the other cockpit a change is the same the other way.
#[test]
fn a_sample_held_against_the_other_is_the_same_the_other_way() {
    let ride = &rides(Sex::Male, 1)[0];
    let drawn = ride.drawn(Known::measured());
    let [there, back] = [0, 1].map(|against| {
        let mut random = Random(6);
        sample(&ride.rider, &person(), (&drawn, against), 60, &mut || random.normal())
    });
    assert_eq!((there.against(), back.against()), (0, 1));
    for number in Asked::ALL {
        let row = Row::At(HandPlace::Drops);
        let (one, other) = (there.change(1, row, number), back.change(0, row, number));
        let (one, other) = (*one.unwrap(), *other.unwrap());
        assert!((one.mean() + other.mean()).abs() < 1e-12 && one.count() == other.count());
        assert!((one.sd().unwrap() - other.sd().unwrap()).abs() < 1e-12, "{number:?}");
        let itself = back.change(1, row, number).unwrap();
        assert_eq!((itself.mean(), itself.sd()), (0.0, Some(0.0)));
    }
}

/// 8 % of a change is the model's own strength: a large change of which all else is known is still
/// doubted by as much, and tells all the same.
#[test]
fn a_large_change_tells_and_is_doubted() {
    let ride = &rides(Sex::Male, 1)[0];
    let [came, _] = ride.sensitivities(Asked::Trunk, 1, Known::traced()).unwrap();
    let sd = change_sd(&person(), &came, &came, SAME, 10.0);
    assert!((sd - GAIN * 10.0).abs() < 1e-12);
    assert!(tells(10.0, sd) && tells(-10.0, sd));
    assert!(!tells(0.0, 0.0), "no change tells nothing");
    assert!(!tells(1.0, 0.61) && tells(1.0, 0.60));
}
