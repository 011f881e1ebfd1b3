//! The doubt that is stated is the doubt there is.

use fit_math::HandPlace;
use fit_math::tape::{Found, Of, Unknown};

use super::draw::{ALL, Draw};

/// Half width of a 90 % interval, SDs of a normal distribution.
const NINETY: f64 = 1.645;
const BIKES: usize = 500;

fn coverage(list: &[Of], seed: u64) {
    let mut draw = Draw(seed);
    let names =
        ["clamp x", "clamp y", "roll", "reach", "drop", "width", "along", "hoods x", "hoods y"];
    let mut inside = [0_usize; 9];
    let mut spread = [0.0; 9];
    let mut accused = 0;
    for _ in 0..BIKES {
        let bike = draw.bike(1.0);
        let readings = draw.taped(&bike, list);
        let found = Found::new(&bike.known, &readings).unwrap();
        let real = &bike.cockpit;
        let of = |unknown, real: f64| {
            let estimate = found.estimate(unknown).unwrap();
            (estimate.value - real, estimate.sd)
        };
        let hoods = found.place(HandPlace::Hoods).unwrap();
        let real_hoods = real.grips(HandPlace::Hoods).unwrap().midway().truncate();
        let off = [
            of(Unknown::ClampX, real.clamp().x),
            of(Unknown::ClampY, real.clamp().y),
            of(Unknown::Roll, real.roll_rad()),
            of(Unknown::Reach, real.bend().reach_mm()),
            of(Unknown::Drop, real.bend().drop_mm()),
            of(Unknown::Width, real.bend().dimensions().width_mm),
            of(Unknown::Along, real.levers().unwrap().right.along_mm),
            (hoods.at.x - real_hoods.x, hoods.sd_mm.x),
            (hoods.at.y - real_hoods.y, hoods.sd_mm.y),
        ];
        for (k, (off, sd)) in off.into_iter().enumerate() {
            inside[k] += usize::from(off.abs() <= NINETY * sd);
            spread[k] += sd / BIKES as f64;
        }
        let beyond = |found: &Found| {
            let all = found.judged().iter().filter_map(|judged| judged.standardised);
            all.into_iter().any(|w| w.abs() > fit_math::tape::SINGLED_OUT)
        };
        accused += usize::from(beyond(&found));
    }
    for (k, name) in names.into_iter().enumerate() {
        let share = 100.0 * inside[k] as f64 / BIKES as f64;
        println!("{name}: 90 % intervals hold {share:.1} % (mean SD {:.3})", spread[k]);
        assert!((86.0..=94.0).contains(&share), "{name}: {share}");
    }
    println!("wrongly accused in {accused} of {BIKES}");
    assert!(accused <= BIKES / 25);
}

#[test]
fn ninety_per_cent_intervals_of_the_twelve_hold_ninety() {
    coverage(&Of::TWELVE, 11);
}

#[test]
fn ninety_per_cent_intervals_of_all_readings_hold_ninety() {
    coverage(&ALL, 12);
}
