//! The estimate against the textbook's formula for a conditional normal, written out densely and
//! solved by elimination: mean + C Hᵀ (H C Hᵀ + R)⁻¹ (z − H mean), C − C Hᵀ (H C Hᵀ + R)⁻¹ H C.

use crate::{Random, SURVEY, Surveyed};
use fit_math::body::{Dimension, Estimate, Gradient, Item, People, Reading, Sex};

/// Means agree to this, mm; covariances to this, mm².
const EXACT: f64 = 1e-6;

type Rows = Vec<Vec<f64>>;

fn product(a: &Rows, b: &Rows) -> Rows {
    let cell = |row: &Vec<f64>, j: usize| row.iter().zip(b).map(|(x, other)| x * other[j]).sum();
    a.iter().map(|row| (0..b[0].len()).map(|j| cell(row, j)).collect()).collect()
}

fn transposed(a: &Rows) -> Rows {
    (0..a[0].len()).map(|j| a.iter().map(|row| row[j]).collect()).collect()
}

/// a⁻¹ b, by Gauss's elimination with the largest pivot first.
fn solved(mut a: Rows, mut b: Rows) -> Rows {
    for at in 0..a.len() {
        let pivot = (at..a.len()).max_by(|&i, &j| a[i][at].abs().total_cmp(&a[j][at].abs()));
        a.swap(at, pivot.unwrap());
        b.swap(at, pivot.unwrap());
        for row in 0..a.len() {
            if row == at {
                continue;
            }
            let by = a[row][at] / a[at][at];
            for all in [&mut a, &mut b] {
                let pivot = all[at].clone();
                for (cell, from) in all[row].iter_mut().zip(pivot) {
                    *cell -= by * from;
                }
            }
        }
    }
    for (row, of) in b.iter_mut().enumerate() {
        for cell in of {
            *cell /= a[row][row];
        }
    }
    b
}

/// Mean and covariance by the formula, of clients: the survey's spread 1.2 times as wide.
fn by_the_book(population: &Surveyed, readings: &[Reading]) -> (Vec<f64>, Rows) {
    let wide = |row: &Vec<f64>| row.iter().map(|cell| 1.2 * 1.2 * cell).collect();
    let c: Rows = population.covariance.iter().map(wide).collect();
    let h: Rows = readings
        .iter()
        .map(|r| Dimension::ALL.map(|d| r.item.gradient().weight(d)).to_vec())
        .collect();
    let ch = product(&c, &transposed(&h));
    let mut inner = product(&h, &ch);
    for (at, reading) in readings.iter().enumerate() {
        let lasting = if reading.item == Item::ShoulderJoints { 8.0 } else { 0.0 };
        inner[at][at] += reading.item.measuring_sd().powi(2) + lasting * lasting;
    }
    let mean: Rows = population.mean.iter().map(|&mm| vec![mm]).collect();
    let off: Rows = product(&h, &mean)
        .iter()
        .zip(readings)
        .map(|(told, r)| {
            let shoulders = if r.item == Item::ShoulderJoints { 30.0 } else { 0.0 };
            vec![r.value + shoulders - told[0]]
        })
        .collect();
    let shift = product(&ch, &solved(inner.clone(), off));
    let told = product(&ch, &solved(inner, transposed(&ch)));
    (
        mean.iter().zip(shift).map(|(m, s)| m[0] + s[0]).collect(),
        c.iter()
            .zip(told)
            .map(|(row, less)| row.iter().zip(less).map(|(x, l)| x - l).collect())
            .collect(),
    )
}

fn drawn(random: &mut Random, population: &Surveyed) -> Vec<Reading> {
    let person = population.draw(random, 1.0);
    let mut items: Vec<Item> = Item::USUAL.to_vec();
    items.extend((0..random.below(6)).map(|_| Item::from(Dimension::ALL[random.below(45)])));
    items.sort();
    items.dedup();
    items.retain(|_| random.between(0.0, 1.0) < 0.6);
    let value = |d: Dimension| person[d.index()];
    items
        .into_iter()
        .map(|item| Reading::new(item, item.gradient().at(value) + 15.0 * random.normal()))
        .collect()
}

#[test]
fn estimates_are_those_of_the_formula() {
    let mut random = Random(11);
    let (mut worst_mean, mut worst_covariance) = (0.0_f64, 0.0_f64);
    for sex in Sex::BOTH {
        let population = Surveyed::of(sex);
        for _ in 0..30 {
            let mut readings = drawn(&mut random, &population);
            readings.truncate(12);
            if readings.is_empty() {
                continue;
            }
            let (mean, covariance) = by_the_book(&population, &readings);
            let estimate = Estimate::new(&SURVEY, Some(sex), People::Clients, &readings);
            for one in Dimension::ALL {
                let off = estimate.normal().mean(one) - mean[one.index()];
                worst_mean = worst_mean.max(off.abs());
                for other in Dimension::ALL {
                    let found = estimate.normal().covariance_of(&one.into(), &other.into());
                    let off = found - covariance[one.index()][other.index()];
                    worst_covariance = worst_covariance.max(off.abs());
                }
            }
        }
    }
    println!(
        "60 sets of readings: means to {worst_mean:.1e} mm, covariances {worst_covariance:.1e}"
    );
    assert!(worst_mean < EXACT && worst_covariance < EXACT);
}

/// Two functions of the dimensions, and the doubt of their sum.
#[test]
fn doubts_of_functions_add_up() {
    let mut random = Random(3);
    let readings = drawn(&mut random, &Surveyed::of(Sex::Male));
    let estimate = Estimate::new(&SURVEY, None, People::Clients, &readings);
    let normal = estimate.normal();
    let of = |random: &mut Random| Gradient::of(&Dimension::ALL.map(|d| (d, random.normal())));
    for _ in 0..20 {
        let (a, b) = (of(&mut random), of(&mut random));
        let sum = normal.sd_of(&a).powi(2)
            + normal.sd_of(&b).powi(2)
            + 2.0 * normal.covariance_of(&a, &b);
        let found = normal.sd_of(&(a + b)).powi(2);
        assert!((found / sum - 1.0).abs() < 1e-9, "{found} {sum}");
        let mirrored = normal.covariance_of(&b, &a) - normal.covariance_of(&a, &b);
        assert!(mirrored.abs() < 1e-7, "{mirrored}");
    }
}
