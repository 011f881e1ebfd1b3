//! Riders on bicycles scaled to them, in the postures that they take.

use crate::people::{Population, Random, mean_bike, scaled_seat};
use fit_math::DVec3;
use fit_math::body::{Body, Dimension, Segments, Sex, Survey};
use fit_math::posture::{Figure, Grips, HandPlace, Rider, solve};
use fit_math::saddle::Seat;
use std::sync::LazyLock;

/// Cranks level, the right one forwards.
pub(crate) const LEVEL_RAD: f64 = core::f64::consts::FRAC_PI_2;

/// The mean man's and the mean woman's bicycle.
static BIKES: LazyLock<[Vec<(HandPlace, DVec3, f64)>; 2]> =
    LazyLock::new(|| Sex::BOTH.map(mean_bike));

/// Somebody on a bicycle.
pub(crate) struct Riding {
    pub(crate) body: Body,
    pub(crate) rider: Rider,
    pub(crate) seat: Seat,
    pub(crate) place: HandPlace,
    pub(crate) grip: DVec3,
    pub(crate) sex: Sex,
    /// The right grip on the hoods of the same bicycle.
    pub(crate) hoods: DVec3,
}

impl Riding {
    pub(crate) fn new(body: Body, sex: Sex, place: HandPlace, scale: f64) -> Self {
        let of = |place| {
            let bikes = Sex::BOTH.into_iter().position(|one| one == sex).map(|at| &BIKES[at]);
            *bikes.unwrap().iter().find(|bike| bike.0 == place).unwrap()
        };
        let (_, grip, crank_mm) = of(place);
        Self {
            rider: Rider::new(Segments::of(&body).unwrap(), Some(sex)),
            seat: scaled_seat(body.value(Dimension::CrotchHeight), crank_mm),
            grip: scale * grip,
            hoods: scale * of(HandPlace::Hoods).1,
            place,
            sex,
            body,
        }
    }

    /// The mean man or woman.
    pub(crate) fn mean(sex: Sex, place: HandPlace) -> Self {
        let body = Body::new(&Survey::shipped().unwrap(), Some(sex), &[]).unwrap();
        Self::new(body, sex, place, 1.0)
    }

    /// So many people drawn from the survey, men and women by turns.
    pub(crate) fn drawn(place: HandPlace, count: usize, seed: u64) -> Vec<Self> {
        let populations = Sex::BOTH.map(|sex| (sex, Population::of(sex)));
        let mut random = Random(seed);
        let draw = |at: usize| {
            let (sex, population) = &populations[at % 2];
            let body = population.draw(&mut random);
            let stature = Dimension::Stature;
            let scale = body.value(stature) / population.mean(stature);
            Self::new(body, *sex, place, scale)
        };
        (0..count).map(draw).collect()
    }

    /// The joints with the hands at the right grip and its mirror.
    pub(crate) fn holding(&self, grip: DVec3) -> Figure {
        let grips = Grips::symmetric(grip).unwrap();
        let posture = solve(&self.rider, &self.seat, &grips, self.place, None);
        posture.figure(&self.rider, &self.seat, &grips, self.place, LEVEL_RAD)
    }

    /// The joints on their own bicycle.
    pub(crate) fn figure(&self) -> Figure {
        self.holding(self.grip)
    }
}
