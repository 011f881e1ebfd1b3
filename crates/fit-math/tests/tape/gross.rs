//! A gross error is singled out.

use fit_math::tape::{Blamed, Found, Of, explain};

use super::draw::{ALL, Draw};

/// Gross errors are drawn from here on, mm.
const LEAST_MM: f64 = 25.0;
const MOST_MM: f64 = 60.0;
/// The same for slopes, degrees.
const LEAST_DEG: f64 = 12.0;
const MOST_DEG: f64 = 25.0;
const BIKES: usize = 20;

/// A slip is counted where it is this many times what is seen four times in five: it then shows
/// in 97 of 100.
const CLEAR: f64 = 1.25;

/// Errors in one reading: how many could be singled out (two other readings determine it, and well
/// enough), and how many of those were.
fn singled_out(list: &[Of], index: usize) -> (usize, usize) {
    let mut draw = Draw(100 + index as u64);
    let (mut hits, mut could) = (0, 0);
    for _ in 0..BIKES {
        let bike = draw.bike(1.0);
        let mut readings = draw.taped(&bike, list);
        let size = if list[index].is_angle() {
            draw.between(LEAST_DEG, MOST_DEG).to_radians()
        } else {
            draw.between(LEAST_MM, MOST_MM)
        };
        let sign = draw.normal();
        let what = Blamed::Reading(list[index]);
        let found = Found::new(&bike.known, &readings).unwrap();
        let judged = found.judged().iter().find(|judged| judged.what == what).unwrap();
        let seen = judged.smallest_slip_seen().unwrap_or(f64::INFINITY);
        if judged.can_be_singled_out() && size >= CLEAR * seen {
            could += 1;
            readings[index].value += size.copysign(sign);
            let suspicion = explain(&bike.known, &readings).unwrap().suspicion;
            hits += usize::from(suspicion.is_some_and(|suspicion| suspicion.what == what));
        }
    }
    (hits, could)
}

/// Prints the share singled out of errors in each reading, and holds it over all. Returns how many
/// of the readings can be singled out on most bikes.
fn shares(name: &str, list: &[Of]) -> usize {
    let (mut mostly, mut all_hits, mut all_could) = (0, 0, 0);
    for index in 0..list.len() {
        let (hits, could) = singled_out(list, index);
        println!("{name}: {:?}: {hits} of {could} that could be, of {BIKES}", list[index]);
        mostly += usize::from(could > BIKES / 2);
        (all_hits, all_could) = (all_hits + hits, all_could + could);
    }
    println!("{name}: {all_hits} of {all_could} singled out");
    assert!(all_hits * 100 >= all_could * 95);
    mostly
}

#[test]
fn of_the_twelve() {
    assert!(shares("twelve", &Of::TWELVE) >= 3);
}

#[test]
fn of_all_readings() {
    assert!(shares("all", &ALL) >= 11);
}
