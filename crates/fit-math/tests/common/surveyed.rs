//! People of the survey's own population, whose covariances are read here anew.

#![allow(dead_code, reason = "each test takes what it needs")]

use super::random::Random;
use fit_math::body::{Dimension, Sex, Survey};

/// Dimensions in the survey's order, mm and kg.
pub(crate) struct Surveyed {
    pub(crate) mean: Vec<f64>,
    pub(crate) covariance: Vec<Vec<f64>>,
    /// Lower triangle of the covariance's Cholesky factor.
    root: Vec<Vec<f64>>,
}

impl Surveyed {
    pub(crate) fn of(sex: Sex) -> Self {
        let text = match sex {
            Sex::Male => include_str!("../../../../assets/body/ansur2_male_cov.csv"),
            Sex::Female => include_str!("../../../../assets/body/ansur2_female_cov.csv"),
        };
        let mut rows = text.lines().map(|line| line.split(','));
        let names: Vec<_> = rows.next().unwrap().skip(1).map(Dimension::from_id).collect();
        assert_eq!(names, Dimension::ALL.map(Some), "columns in the survey's order");
        let covariance: Vec<Vec<f64>> = rows
            .map(|row| row.skip(1).map(|cell| cell.trim().parse().unwrap()).collect())
            .collect();
        let survey = Survey::shipped().unwrap();
        let mean = Dimension::ALL.map(|d| survey.statistics(sex, d).mean).to_vec();
        Self { mean, root: cholesky(&covariance), covariance }
    }

    /// All dimensions of one person, so much wider about the means.
    pub(crate) fn draw(&self, random: &mut Random, wider: f64) -> Vec<f64> {
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
