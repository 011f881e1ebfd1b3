//! Riders, seats and grips for the checks, and repeatable randomness.

use fit_math::DVec2;
use fit_math::body::{ArmLengths, Body, Dimension, SegmentLengths, Segments, Sex, Survey};
use fit_math::posture::{HandPlace, Rider};
use fit_math::saddle::Seat;
use serde_json::Value;

/// Repeatable random numbers: the splitmix64 generator (Steele, Lea & Flood 2014).
pub(crate) struct Random(pub(crate) u64);

impl Random {
    fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        z ^ (z >> 31)
    }

    /// Evenly spread between two numbers.
    pub(crate) fn between(&mut self, low: f64, high: f64) -> f64 {
        low + (high - low) * (self.next() >> 11) as f64 / (1_u64 << 53) as f64
    }

    /// One of several.
    pub(crate) fn pick<T: Copy>(&mut self, from: &[T]) -> T {
        let below = self.between(0.0, from.len() as f64);
        let mut last = from[0];
        for (at, one) in from.iter().enumerate() {
            if at as f64 <= below {
                last = *one;
            }
        }
        last
    }

    /// Normal, mean 0 and spread 1 (Box & Muller 1958).
    pub(crate) fn normal(&mut self) -> f64 {
        let radius = (-2.0 * self.between(f64::MIN_POSITIVE, 1.0).ln()).sqrt();
        radius * self.between(0.0, core::f64::consts::TAU).cos()
    }
}

/// The rider with the survey's mean dimensions.
pub(crate) fn mean_rider(sex: Sex) -> Rider {
    let body = Body::new(&Survey::shipped().unwrap(), Some(sex), &[]).unwrap();
    Rider::new(Segments::of(&body).unwrap(), Some(sex))
}

/// The mean rider of the reference solutions' own lengths.
pub(crate) fn reference_rider(bodies: &Value, sex: Sex) -> Rider {
    let b = &bodies[if sex == Sex::Male { "male" } else { "female" }];
    let mm = |name: &str| b[name].as_f64().unwrap();
    let arm = ArmLengths { upper_arm_mm: mm("ua"), forearm_mm: mm("fa"), hand_mm: mm("gr") };
    let lengths = SegmentLengths {
        arms: [arm; 2],
        trunk_mm: mm("trunk"),
        shoulders_apart_mm: mm("shw"),
        hip_ahead_mm: mm("ox"),
        hip_above_mm: mm("oy"),
        thigh_mm: mm("thigh"),
        shank_mm: mm("shank"),
        ankle_above_sole_mm: mm("ah"),
        ball_mm: mm("ball"),
        foot_mm: mm("foot"),
        // the head does not enter a posture
        ..*mean_rider(sex).segments().lengths()
    };
    Rider::new(Segments::new(lengths).unwrap(), Some(sex))
}

/// The reference solutions.
pub(crate) fn solutions() -> Value {
    serde_json::from_str(include_str!("../data/posture_solutions.json")).unwrap()
}

pub(crate) fn place_named(name: &str) -> HandPlace {
    match name {
        "tops" => HandPlace::Tops,
        "ramps" => HandPlace::Ramps,
        "hoods" => HandPlace::Hoods,
        "drops" => HandPlace::Drops,
        "ends" => HandPlace::Ends,
        other => panic!("no hand place {other}"),
    }
}

/// Means and a triangular root of the survey's covariance: people are drawn from these.
pub(crate) struct Population {
    survey: Survey,
    sex: Sex,
    /// Lower triangle of the Cholesky factor.
    root: Vec<Vec<f64>>,
}

impl Population {
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
        Self { survey, sex, root: cholesky(&covariance) }
    }

    /// A person's body, every dimension drawn.
    pub(crate) fn draw(&self, random: &mut Random) -> Body {
        let normals: Vec<f64> = (0..Dimension::COUNT).map(|_| random.normal()).collect();
        let readings: Vec<_> = Dimension::ALL
            .into_iter()
            .zip(&self.root)
            .map(|(dimension, row)| {
                let off: f64 = row.iter().zip(&normals).map(|(l, n)| l * n).sum();
                let drawn = self.survey.mean(Some(self.sex), dimension) + off;
                // the far tail of a girth's normal is nobody's
                let (lowest, highest) = Body::taken_range(&self.survey, dimension);
                (dimension, drawn.clamp(lowest, highest))
            })
            .collect();
        Body::new(&self.survey, Some(self.sex), &readings).unwrap()
    }

    pub(crate) fn mean(&self, dimension: Dimension) -> f64 {
        self.survey.mean(Some(self.sex), dimension)
    }

    pub(crate) fn spread(&self, dimension: Dimension) -> f64 {
        self.survey.statistics(self.sex, dimension).sd
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

/// A seat scaled to a crotch height: saddle height 0.866 of it, along a seat tube at 73.5°.
pub(crate) fn scaled_seat(crotch_mm: f64, crank_mm: f64) -> Seat {
    let up = DVec2::from_angle(73.5_f64.to_radians());
    Seat::new(0.866 * crotch_mm * DVec2::new(-up.x, up.y), crank_mm).unwrap()
}

pub(crate) fn median(values: &[f64]) -> f64 {
    let mut sorted = values.to_vec();
    sorted.sort_by(f64::total_cmp);
    f64::midpoint(sorted[(sorted.len() - 1) / 2], sorted[sorted.len() / 2])
}
