//! What a posture does beyond the body: the outline that the wind sees, what the hands carry, what
//! stands on the front wheel. Worked out when somebody asks, once for a bench; nothing else of it
//! hangs on it.
//!
//! m² and shares of the rider's weight. Meant for differences of one rider between two cockpits.

use super::weighed::{Weighed, WeighedCockpit, WeighedPlace};
use fit_doc::{Dimension, HandPlace, Sex, geometry};
use fit_math::body::Body;
use fit_math::doubt::{Look, Nearby, SlopesOf};
use fit_math::effect::load::{HandLoad, Masses, Wheels};
use fit_math::effect::silhouette::{Flesh, TOLERANCE, frontal_area_m2};
use std::sync::OnceLock;

/// Cranks level: the legs then hide least of each other.
const LEVEL_RAD: f64 = core::f64::consts::FRAC_PI_2;

/// One of the effects that are followed.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Effect {
    /// Area of the rider's outline from the front, m².
    Outline,
    /// Weight on both hands, as a share of the rider's.
    OnHands,
    /// Share of the weight of rider and bicycle that stands on the front wheel.
    OnFrontWheel,
}

/// How many there are.
const COUNT: usize = 3;

impl Effect {
    /// Every one.
    pub const ALL: [Self; COUNT] = [Self::Outline, Self::OnHands, Self::OnFrontWheel];
}

/// The effects of one posture.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Effects {
    numbers: [Option<f64>; COUNT],
    /// How they change with what is not known.
    pub(super) slopes: SlopesOf<COUNT>,
}

impl Effects {
    /// One of them; none where the hands are not ahead of the hips, or the frame's numbers give no
    /// two wheels.
    pub fn get(&self, effect: Effect) -> Option<f64> {
        self.numbers[effect as usize]
    }
}

/// The rider and the bicycle that effects are of.
struct Measured {
    flesh: Flesh,
    sex: Option<Sex>,
    weight_kg: f64,
    wheels: Option<Wheels>,
}

impl Measured {
    fn of(weighed: &Weighed) -> Self {
        let frame = &weighed.bike.frame;
        let wheels = Wheels::of_frame(
            &geometry::front_end(frame),
            frame.fork_offset_mm,
            frame.bottom_bracket_drop_mm,
            frame.rear_centre_mm,
        );
        let body: &Body = &weighed.body;
        Self {
            flesh: Flesh::of(body),
            sex: weighed.sex,
            weight_kg: body.value(Dimension::Weight),
            wheels: wheels.ok(),
        }
    }

    fn numbers(&self, at: &Look<'_>) -> [Option<f64>; COUNT] {
        let figure = at.posture.figure(at.rider, at.seat, at.hands, at.place, LEVEL_RAD);
        let on_wheel = self
            .wheels
            .map(|wheels| wheels.front_share(&Masses::of(&figure, self.sex), self.weight_kg));
        [
            Some(frontal_area_m2(&figure, &self.flesh, TOLERANCE)),
            HandLoad::of(&figure, self.sex).ok().map(|load| load.share),
            on_wheel,
        ]
    }

    fn effects(&self, weighed: &Weighed, of: &WeighedCockpit, place: HandPlace) -> Option<Effects> {
        let at = of.places.get(&place).filter(|at| at.is_reached())?;
        let WeighedPlace { grips, hands, posture, .. } = at;
        let (rider, seat) = (&weighed.rider, &of.seat);
        let numbers = self.numbers(&Look { rider, seat, grips, hands, place, posture });
        let nearby = Nearby::to(rider);
        let slopes = SlopesOf::of_numbers(&nearby, seat, grips, place, posture, |look| {
            // a number that there is not has no slope
            let near = self.numbers(look);
            core::array::from_fn(|i| near[i].or(numbers[i]).unwrap_or_default())
        });
        Some(Effects { numbers, slopes })
    }
}

/// The effects of a bench, each worked out once. They follow from the rest of what was weighed, so
/// that two benches are equal whichever of them somebody has asked.
#[derive(Debug, Clone)]
pub(super) struct KeptEffects(Vec<[OnceLock<Option<Effects>>; HandPlace::COUNT]>);

impl KeptEffects {
    /// Of so many cockpits, nothing asked yet.
    pub(super) fn of(cockpits: usize) -> Self {
        Self(vec![Default::default(); cockpits])
    }
}

impl PartialEq for KeptEffects {
    fn eq(&self, _: &Self) -> bool {
        true
    }
}

impl Weighed {
    /// The effects of one cockpit's posture with the hands in a place; none where the hands do not
    /// get there, and of a cockpit that is not on the bench.
    pub fn effects(&self, of: &WeighedCockpit, place: HandPlace) -> Option<Effects> {
        let index = self.cockpits.iter().position(|other| other.id == of.id)?;
        let kept = &self.effects.0.get(index)?[place.index()];
        *kept.get_or_init(|| Measured::of(self).effects(self, of, place))
    }
}
