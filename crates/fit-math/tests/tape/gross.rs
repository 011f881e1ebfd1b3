//! A gross error is singled out.

use fit_math::tape::{Blamed, Found, Of, explain};

use super::draw::{ALL, Draw};

/// Gross errors are drawn from here on, mm.
const LEAST_MM: f64 = 25.0;
const MOST_MM: f64 = 60.0;
/// The same for slopes, degrees.
const LEAST_DEG: f64 = 12.0;
const MOST_DEG: f64 = 25.0;
const BIKES: usize = 60;

/// Errors in one reading: on how many bikes at least two others determine it (no other reading shows
/// the error just as well), and on how many of those it was singled out.
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
        if judged.can_be_singled_out() {
            could += 1;
            readings[index].value += size.copysign(sign);
            let suspicion = explain(&bike.known, &readings).unwrap().suspicion;
            hits += usize::from(suspicion.is_some_and(|suspicion| suspicion.what == what));
        }
    }
    (hits, could)
}

/// Shares of lengths and of slopes that were singled out, each printed: hits and how many could be.
struct Shares {
    lengths: (usize, usize),
    /// How many of the lengths can be singled out on most bikes.
    mostly: usize,
}

fn shares(name: &str, list: &[Of]) -> Shares {
    let (mut lengths, mut slopes, mut mostly) = ((0, 0), (0, 0), 0);
    for (index, of) in list.iter().enumerate() {
        let (hits, could) = singled_out(list, index);
        println!("{name}: {of:?}: {hits} of {could} that could be, of {BIKES}");
        let sum = if of.is_angle() { &mut slopes } else { &mut lengths };
        *sum = (sum.0 + hits, sum.1 + could);
        mostly += usize::from(!of.is_angle() && could > BIKES / 2);
    }
    println!("{name}: lengths {} of {}, slopes {} of {}", lengths.0, lengths.1, slopes.0, slopes.1);
    Shares { lengths, mostly }
}

#[test]
fn of_the_twelve() {
    let found = shares("twelve", &Of::TWELVE);
    assert!(found.mostly >= 3);
    assert!(found.lengths.0 * 100 >= found.lengths.1 * 95);
}

#[test]
fn of_all_readings() {
    let found = shares("all", &ALL);
    assert!(found.mostly >= 9);
    assert!(found.lengths.0 * 100 >= found.lengths.1 * 95);
}
