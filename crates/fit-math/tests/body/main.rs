//! Bodies: what is estimated from readings, held against the survey's own people, civilians, a
//! textbook's formula and slips of the hand; and the links that follow.

#![allow(
    clippy::unwrap_used,
    clippy::print_stdout,
    reason = "helpers of tests, which may panic and tell figures"
)]

mod civilians;
mod coverage;
mod links;
mod readings;
mod slips;
mod survey_error;
mod textbook;

use fit_math::body::{Dimension, Survey};
use std::sync::LazyLock;

static SURVEY: LazyLock<Survey> = LazyLock::new(|| Survey::shipped().unwrap());

/// Repeatable random numbers: the splitmix64 generator (Steele, Lea & Flood 2014).
struct Random(u64);

impl Random {
    fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        z ^ (z >> 31)
    }

    /// Evenly spread from 0 to 1, never 0.
    fn share(&mut self) -> f64 {
        ((self.next() >> 11) + 1) as f64 / (1_u64 << 53) as f64
    }

    /// Normal, mean 0 and spread 1 (Box & Muller 1958).
    fn normal(&mut self) -> f64 {
        let radius = (-2.0 * self.share().ln()).sqrt();
        radius * self.share_turn().cos()
    }

    fn share_turn(&mut self) -> f64 {
        self.share() * core::f64::consts::TAU
    }

    /// One of so many.
    fn below(&mut self, count: usize) -> usize {
        usize::try_from(self.next() % count as u64).unwrap()
    }
}

/// People drawn from a sex's means and covariances, which are read here anew.
struct Population {
    mean: Vec<f64>,
    covariance: Vec<Vec<f64>>,
    /// Lower triangle of the covariance's Cholesky factor.
    root: Vec<Vec<f64>>,
}

impl Population {
    fn of(sex: fit_math::body::Sex) -> Self {
        use fit_math::body::Sex;
        let text = match sex {
            Sex::Male => include_str!("../../../../assets/body/ansur2_male_cov.csv"),
            Sex::Female => include_str!("../../../../assets/body/ansur2_female_cov.csv"),
        };
        let covariance: Vec<Vec<f64>> = text
            .lines()
            .skip(1)
            .map(|line| line.split(',').skip(1).map(|cell| cell.trim().parse().unwrap()).collect())
            .collect();
        let mean = Dimension::ALL.map(|d| SURVEY.statistics(sex, d).mean).to_vec();
        Self { mean, root: cholesky(&covariance), covariance }
    }

    /// All dimensions of one person, so much wider about the means.
    fn draw(&self, random: &mut Random, wider: f64) -> Vec<f64> {
        let normals: Vec<f64> = self.mean.iter().map(|_| random.normal()).collect();
        let off = |row: &Vec<f64>| -> f64 { row.iter().zip(&normals).map(|(l, n)| l * n).sum() };
        self.mean.iter().zip(&self.root).map(|(mean, row)| mean + wider * off(row)).collect()
    }
}

fn cholesky(a: &[Vec<f64>]) -> Vec<Vec<f64>> {
    let n = a.len();
    let mut l = vec![vec![0.0; n]; n];
    for i in 0..n {
        for j in 0..=i {
            let inner: f64 = (0..j).map(|k| l[i][k] * l[j][k]).sum();
            l[i][j] = if i == j {
                let left: f64 = a[i][i] - inner;
                assert!(left > 0.0, "the covariance is positive definite");
                left.sqrt()
            } else {
                (a[i][j] - inner) / l[j][j]
            };
        }
    }
    l
}
