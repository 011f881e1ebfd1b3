//! People of the survey on bikes scaled to them, with two bars.

use crate::people::{Population, place_named, scaled_seat, solutions};
use crate::random::Random;
use fit_math::body::{Body, Dimension, Segments, Sex, Survey};
use fit_math::cockpit::{Grip, GripPair};
use fit_math::doubt::sample::Drawn;
use fit_math::doubt::{Asked, Known, Nearby, Person, Sensitivity, Slopes};
use fit_math::frame::mirrored;
use fit_math::posture::{Grips, HandPlace, Outcome, Posture, Prior, Rider, solve};
use fit_math::saddle::Seat;
use fit_math::{DVec2, DVec3};

pub(crate) const PLACES: [HandPlace; 3] = [HandPlace::Tops, HandPlace::Hoods, HandPlace::Drops];

/// How a bar of 75 × 125 holds the hands beside one of 85 × 145, about: nearer on the hoods, nearer and
/// higher in the drops.
const OTHER: [DVec2; 3] = [DVec2::ZERO, DVec2::new(-10.0, 2.0), DVec2::new(-9.0, 15.0)];

/// One person on a bike that has both bars.
pub(crate) struct Ride {
    pub(crate) rider: Rider,
    pub(crate) seat: Seat,
    /// The client of whom stature and inseam were read and all else is estimated.
    pub(crate) hardly_read: Person,
    /// As it came, and with the other bar: grips in each of [`PLACES`].
    pub(crate) bars: [[GripPair; 3]; 2],
}

fn pair(centre: DVec3, place: HandPlace) -> GripPair {
    let axis = match place {
        HandPlace::Tops => DVec3::NEG_Z,
        HandPlace::Drops => DVec3::new(0.26, 0.97, 0.0).normalize(),
        _ => DVec3::new(0.9, 0.43, -0.09).normalize(),
    };
    let right = Grip { centre, axis, radius_mm: 16.0 };
    GripPair { right, left: Grip { centre: mirrored(centre), axis: mirrored(axis), ..right } }
}

/// So many people of one sex.
pub(crate) fn rides(sex: Sex, count: usize) -> Vec<Ride> {
    let population = Population::of(sex);
    let mut random = Random(if sex == Sex::Male { 31 } else { 32 });
    let all = solutions();
    let own = if sex == Sex::Male { "male" } else { "female" };
    let grips = PLACES.map(|place| {
        let cases = all["cases"].as_array().unwrap();
        let is_it = |case: &&serde_json::Value| {
            case["sex"] == own && place_named(case["place"].as_str().unwrap()) == place
        };
        let case = cases[..6].iter().find(is_it).unwrap();
        DVec3::from([0, 1, 2].map(|i| case["grip"][i].as_f64().unwrap()))
    });
    (0..count)
        .map(|_| {
            let body = population.draw(&mut random);
            let scale = body.value(Dimension::Stature) / population.mean(Dimension::Stature);
            let came = [0, 1, 2].map(|i| pair(scale * grips[i], PLACES[i]));
            let other = [0, 1, 2].map(|i| pair(scale * grips[i] + OTHER[i].extend(0.0), PLACES[i]));
            let read = [Dimension::Stature, Dimension::CrotchHeight];
            let readings = read.map(|dimension| (dimension, body.value(dimension)));
            let estimated = Body::new(&Survey::shipped().unwrap(), Some(sex), &readings).unwrap();
            Ride {
                hardly_read: Person::unseen(&Prior::of(&estimated)),
                rider: Rider::new(Segments::of(&body).unwrap(), Some(sex)),
                seat: scaled_seat(body.value(Dimension::CrotchHeight), 172.5),
                bars: [came, other],
            }
        })
        .collect()
}

impl Ride {
    /// The rider's posture; none past a limit, where a slope says too little.
    pub(crate) fn posture(&self, grips: &GripPair, place: HandPlace) -> Option<Posture> {
        let hands = Grips::new(grips.right.centre, grips.left.centre).unwrap();
        let posture = solve(&self.rider, &self.seat, &hands, place, None);
        (posture.outcome == Outcome::Reached).then_some(posture)
    }

    /// How a number in one place moves with what is not known, on both bars.
    pub(crate) fn sensitivities(
        &self,
        asked: Asked,
        place: usize,
        known: Known,
    ) -> Option<[Sensitivity; 2]> {
        let nearby = Nearby::to(&self.rider);
        let of = |grips: &GripPair| {
            let posture = self.posture(grips, PLACES[place])?;
            let slopes = Slopes::of(&nearby, &self.seat, grips, PLACES[place], &posture);
            Some(Sensitivity::of(&slopes, asked, PLACES[place], known))
        };
        Some([of(&self.bars[0][place])?, of(&self.bars[1][place])?])
    }

    /// Both bars, to be drawn.
    pub(crate) fn drawn(&self, known: Known) -> [Drawn; 2] {
        [0, 1].map(|bar| Drawn {
            seat: self.seat,
            places: PLACES.into_iter().zip(self.bars[bar]).collect(),
            known,
            bar,
            levers: bar,
            all: bar,
        })
    }
}
