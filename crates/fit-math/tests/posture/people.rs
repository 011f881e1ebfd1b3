//! Riders, seats and grips for the checks.

pub(crate) use super::random::Random;
use super::surveyed::Surveyed;
use fit_math::body::{ArmLengths, Body, Dimension, SegmentLengths, Segments, Sex, Survey};
use fit_math::posture::{HandPlace, Rider};
use fit_math::saddle::Seat;
use fit_math::{DVec2, DVec3};
use serde_json::Value;

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

/// Bodies of the survey's own people.
pub(crate) struct Population {
    survey: Survey,
    sex: Sex,
    people: Surveyed,
}

impl Population {
    pub(crate) fn of(sex: Sex) -> Self {
        Self { survey: Survey::shipped().unwrap(), sex, people: Surveyed::of(sex) }
    }

    /// A person's body, every dimension drawn.
    pub(crate) fn draw(&self, random: &mut Random) -> Body {
        let drawn = Dimension::ALL.into_iter().zip(self.people.draw(random, 1.0));
        // the far tail of a girth's normal is nobody's
        let taken = |(dimension, drawn): (Dimension, f64)| {
            let (lowest, highest) = Body::taken_range(&self.survey, dimension);
            (dimension, drawn.clamp(lowest, highest))
        };
        let readings: Vec<_> = drawn.map(taken).collect();
        Body::new(&self.survey, Some(self.sex), &readings).unwrap()
    }

    pub(crate) fn mean(&self, dimension: Dimension) -> f64 {
        self.survey.mean(Some(self.sex), dimension)
    }

    pub(crate) fn spread(&self, dimension: Dimension) -> f64 {
        self.survey.statistics(self.sex, dimension).sd
    }
}

/// The bicycle that the reference solutions' mean rider of that sex has: hand place, right grip and
/// crank length of each of its hand places.
pub(crate) fn mean_bike(sex: Sex) -> Vec<(HandPlace, DVec3, f64)> {
    let own = if sex == Sex::Male { "male" } else { "female" };
    let all = solutions();
    // the first six are of these bicycles, the others of stranger ones
    let cases = all["cases"].as_array().unwrap()[..6].iter().filter(|case| case["sex"] == own);
    let bike = |case: &Value| {
        let grip = |i: usize| case["grip"][i].as_f64().unwrap();
        let place = place_named(case["place"].as_str().unwrap());
        (place, DVec3::new(grip(0), grip(1), grip(2)), case["crank"].as_f64().unwrap())
    };
    cases.map(bike).collect()
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
