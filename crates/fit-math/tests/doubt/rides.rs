//! People of the survey on bikes scaled to them, as it came and with other parts.

use crate::people::{Population, place_named, scaled_seat, solutions};
use crate::random::Random;
use fit_math::DVec3;
use fit_math::body::{Body, Dimension, Segments, Sex, Survey};
use fit_math::cockpit::{Grip, GripPair};
use fit_math::doubt::sample::Drawn;
use fit_math::doubt::{Alike, Asked, Known, Nearby, Person, Sensitivity, Slopes};
use fit_math::frame::mirrored;
use fit_math::posture::{Grips, HandPlace, Outcome, Posture, Prior, Rider, solve};
use fit_math::saddle::Seat;

pub(crate) const PLACES: [HandPlace; 3] = [HandPlace::Tops, HandPlace::Hoods, HandPlace::Drops];

/// Parts in place of those that came.
pub(crate) struct Other {
    pub(crate) what: &'static str,
    /// How far the right grip then is, in each of [`PLACES`], about; bike frame, mm.
    pub(crate) moves: [DVec3; 3],
    /// What stays on the bike.
    pub(crate) alike: Alike,
}

const fn bar(what: &'static str, hoods: DVec3, drops: DVec3) -> Other {
    Other { what, moves: [DVec3::ZERO, hoods, drops], alike: Alike::NOTHING }
}

/// The bar and the levers on it stay, and all grips go along.
const fn under_the_bar(what: &'static str, by: DVec3) -> Other {
    Other { what, moves: [by; 3], alike: Alike { bar: true, levers: true, all: false } }
}

/// The first is a bar of 75 × 125 beside one of 85 × 145: nearer on the hoods, nearer and higher in the
/// drops. Stem and spacers are those of a head at 73° and a stem square to it.
pub(crate) const OTHERS: [Other; 6] = [
    bar("compact bar", DVec3::new(-10.0, 2.0, 0.0), DVec3::new(-9.0, 15.0, 0.0)),
    bar("40 mm narrower bar", DVec3::new(0.0, 0.0, -20.0), DVec3::new(0.0, 0.0, -20.0)),
    bar("15 mm shorter reach", DVec3::new(-15.0, 0.0, 0.0), DVec3::new(-15.0, 0.0, 0.0)),
    bar("20 mm lower drop", DVec3::ZERO, DVec3::new(0.0, -20.0, 0.0)),
    under_the_bar("20 mm longer stem", DVec3::new(19.1, 5.8, 0.0)),
    under_the_bar("15 mm of spacers more", DVec3::new(-4.4, 14.3, 0.0)),
];

/// One person on a bike that has them all.
pub(crate) struct Ride {
    pub(crate) rider: Rider,
    pub(crate) seat: Seat,
    /// The client of whom stature and inseam were read and all else is estimated.
    pub(crate) hardly_read: Person,
    /// As it came, and with each of [`OTHERS`]: grips in each of [`PLACES`].
    pub(crate) bars: [[GripPair; 3]; 1 + OTHERS.len()],
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
            let held =
                |by: [DVec3; 3]| [0, 1, 2].map(|i| pair(scale * grips[i] + by[i], PLACES[i]));
            let bars = core::array::from_fn(|bar| {
                held(bar.checked_sub(1).map_or([DVec3::ZERO; 3], |other| OTHERS[other].moves))
            });
            let read = [Dimension::Stature, Dimension::CrotchHeight];
            let readings = read.map(|dimension| (dimension, body.value(dimension)));
            let estimated = Body::new(&Survey::shipped().unwrap(), Some(sex), &readings).unwrap();
            Ride {
                hardly_read: Person::unseen(&Prior::of(&estimated)),
                rider: Rider::new(Segments::of(&body).unwrap(), Some(sex)),
                seat: scaled_seat(body.value(Dimension::CrotchHeight), 172.5),
                bars,
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

    /// The slopes of a posture in one place on one bar.
    pub(crate) fn slopes(&self, nearby: &Nearby, bar: usize, place: usize) -> Option<Slopes> {
        let grips = &self.bars[bar][place];
        let posture = self.posture(grips, PLACES[place])?;
        Some(Slopes::of(nearby, &self.seat, grips, PLACES[place], &posture))
    }

    /// How a number in one place moves with what is not known, as it came and on the first other bar.
    pub(crate) fn sensitivities(
        &self,
        asked: Asked,
        place: usize,
        known: Known,
    ) -> Option<[Sensitivity; 2]> {
        let nearby = Nearby::to(&self.rider);
        let of = |bar| {
            let slopes = self.slopes(&nearby, bar, place)?;
            Some(Sensitivity::of(&slopes, asked, PLACES[place], known))
        };
        Some([of(0)?, of(1)?])
    }

    /// As it came and the first other bar, to be drawn.
    pub(crate) fn drawn(&self, known: Known) -> [Drawn; 2] {
        let [came, other, ..] = self.all_drawn(known);
        [came, other]
    }

    /// As it came and every other, to be drawn.
    pub(crate) fn all_drawn(&self, known: Known) -> [Drawn; 1 + OTHERS.len()] {
        core::array::from_fn(|bar| {
            let alike = bar.checked_sub(1).map_or(Alike::NOTHING, |other| OTHERS[other].alike);
            Drawn {
                seat: self.seat,
                places: PLACES.into_iter().zip(self.bars[bar]).collect(),
                known,
                bar: if alike.bar { 0 } else { bar },
                levers: if alike.levers { 0 } else { bar },
                all: bar,
            }
        })
    }
}
