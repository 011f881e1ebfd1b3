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
use rayon::prelude::*;
use std::sync::atomic::{AtomicUsize, Ordering};
use std::thread;

/// In how many parts a bench is drawn.
const PARTS: usize = 16;
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

    /// Whether what was drawn of that bench is what would be drawn of this one.
    pub fn is_drawn_like(&self, other: &Self) -> bool {
        self.cockpits.len() == other.cockpits.len()
            && (&self.rider, &self.person) == (&other.rider, &other.person)
            && (0..self.cockpits.len()).all(|index| self.drawn(index) == other.drawn(index))
    }

    /// One part of the bench's draws, compared with the cockpit at that place.
    fn sample_part(&self, against: usize, part: usize) -> Sample {
        let bench: Vec<Drawn> = (0..self.cockpits.len()).map(|index| self.drawn(index)).collect();
        let mut random = Xoshiro256PlusPlus::seed_from_u64(SEED.wrapping_add(part as u64));
        let mut normal = || StandardNormal.sample(&mut random);
        sample(&self.rider, &self.person, (&bench, against), DRAWS, &mut normal)
    }

    /// All parts, compared with the first cockpit; on all cores.
    pub fn sample(&self) -> Sample {
        self.sample_against(0)
    }

    /// The same, changes against the cockpit at that place on the bench; on all cores.
    pub fn sample_against(&self, against: usize) -> Sample {
        let parts: Vec<Sample> =
            (0..PARTS).into_par_iter().map(|part| self.sample_part(against, part)).collect();
        self.joined(against, &parts)
    }

    /// The same to the last digit on so many threads, while `goes_on`; none where it was stopped.
    pub fn sample_on(&self, threads: usize, goes_on: &(dyn Fn() -> bool + Sync)) -> Option<Sample> {
        let next = AtomicUsize::new(0);
        let work = || {
            let mut made = Vec::new();
            while goes_on() {
                let part = next.fetch_add(1, Ordering::Relaxed);
                if part >= PARTS {
                    break;
                }
                made.push((part, self.sample_part(0, part)));
            }
            made
        };
        let mut parts = thread::scope(|scope| {
            let others: Vec<_> = (1..threads).map(|_| scope.spawn(work)).collect();
            let mut parts = work();
            for other in others {
                // a thread that broke off leaves a part out, and nothing is told
                parts.extend(other.join().unwrap_or_default());
            }
            parts
        });
        parts.sort_unstable_by_key(|(part, _)| *part);
        let parts: Vec<Sample> = parts.into_iter().map(|(_, sample)| sample).collect();
        (parts.len() == PARTS).then(|| self.joined(0, &parts))
    }

    fn joined(&self, against: usize, parts: &[Sample]) -> Sample {
        let mut all = Sample::empty(self.cockpits.len(), against);
        for part in parts {
            all.join(part);
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

#[cfg(test)]
mod tests {
    use crate::testing::{deep, session, stem};
    use crate::weigh::{Survey, Weighed, weigh_visit};
    use fit_doc::{Cockpit, Joint, Mobility};
    use std::sync::Arc;
    use std::sync::atomic::{AtomicUsize, Ordering};

    /// A client whose neck is stiff, so that a limit acts, and a shorter stem.
    fn bench() -> Weighed {
        let shorter = Cockpit { id: "shorter".into(), stem: stem(90.0, -6.0), ..deep() };
        let mut session = session(vec![shorter]);
        let visit = Arc::make_mut(&mut session.visits[0]);
        visit.mobility = vec![Mobility::measured(Joint::Neck, 36.0)];
        let visit = session.visits[0].clone();
        weigh_visit(&session, &visit, &Survey::shipped().unwrap()).unwrap()
    }

    #[test]
    fn so_many_threads_draw_the_same() {
        let bench = bench();
        let one = bench.sample();
        assert!(bench.is_near_a_limit() && one.draws() > 0);
        for threads in [1, 2, 5] {
            assert_eq!(bench.sample_on(threads, &|| true).as_ref(), Some(&one), "{threads}");
        }
    }

    #[test]
    fn what_is_stopped_is_no_sample() {
        let asked = AtomicUsize::new(0);
        let goes_on = || asked.fetch_add(1, Ordering::Relaxed) < 3;
        assert_eq!(bench().sample_on(2, &goes_on), None);
        let asked = asked.into_inner();
        assert!(asked <= 5, "it went on for {asked} parts");
    }

    /// What a cockpit is called draws nothing else; where it puts the hands does.
    #[test]
    fn only_what_is_drawn_is_compared() {
        let (bench, mut other) = (bench(), bench());
        other.cockpits[1].label = "another name".into();
        assert!(bench.is_drawn_like(&other));
        assert_eq!(bench.sample(), other.sample());
        let places = other.cockpits[0].places.clone();
        other.cockpits[1].places = places;
        assert!(!bench.is_drawn_like(&other));
        other.cockpits.pop();
        assert!(!bench.is_drawn_like(&other));
    }
}
