//! Doubt by drawing where a slope says too little: near a joint's limit, and where hands hardly reach.
//!
//! A bench is drawn in parts that may be made in any order on any number of threads and are joined in
//! theirs: each part has random numbers of its own, the same on every machine.

use super::weighed::{Weighed, WeighedCockpit};
use fit_doc::HandPlace;
use fit_math::doubt::sample::{Drawn, Sample, sample};
use fit_math::posture::Outcome;
use rand_distr::{Distribution, StandardNormal};
use rand_xoshiro::Xoshiro256PlusPlus;
use rand_xoshiro::rand_core::SeedableRng;

/// In how many parts a bench is drawn.
pub const PARTS: usize = 16;
/// Draws of a part: all together leave a standard deviation open by some 3 % (1/√(2 · 640)).
const DRAWS: usize = 40;
/// Where the random numbers begin.
const SEED: u64 = 0x0062_6172_7772_6974;

impl Weighed {
    /// Whether some posture of the bench is at a limit, so that its doubt is better drawn.
    pub fn is_near_a_limit(&self) -> bool {
        let places = self.cockpits.iter().flat_map(|of| of.places.values());
        places.into_iter().any(|at| at.posture.outcome != Outcome::Reached)
    }

    /// One part of the bench's draws.
    pub fn sample_part(&self, part: usize) -> Sample {
        let bench: Vec<Drawn> = (0..self.cockpits.len()).map(|index| self.drawn(index)).collect();
        let mut random = Xoshiro256PlusPlus::seed_from_u64(SEED.wrapping_add(part as u64));
        let mut normal = || StandardNormal.sample(&mut random);
        sample(&self.rider, &self.person, &bench, DRAWS, &mut normal)
    }

    /// All parts, one after the other.
    pub fn sample(&self) -> Sample {
        let mut all = Sample::empty(self.cockpits.len());
        for part in 0..PARTS {
            all.join(&self.sample_part(part));
        }
        all
    }

    /// A cockpit to be drawn, with what it has in common with those before it.
    fn drawn(&self, index: usize) -> Drawn {
        let of = &self.cockpits[index];
        let first = |is: &dyn Fn(&WeighedCockpit) -> bool| {
            self.cockpits[..index].iter().position(is).unwrap_or(index)
        };
        let places = of.places.iter().map(|(&place, at)| (place, at.grips));
        Drawn {
            seat: of.seat,
            places: places.collect::<Vec<(HandPlace, _)>>(),
            known: of.known(),
            bar: first(&|other| other.alike(of).bar),
            levers: first(&|other| other.alike(of).levers),
            all: first(&|other| other.alike(of).all),
        }
    }
}
