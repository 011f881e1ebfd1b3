//! What minutes and money the assemblies of a rung take, and which parts are there already, told to the search part by part: the same as
//! [`Work`] tells of the cockpit that comes of one, which a test holds.

use fit_doc::work::{Job, Step, Work, most_minutes};
use fit_doc::{Bounds, Cockpit, Stem, geometry};
use fit_math::choose::{Allowed, Jobs, Limited, Shop};

/// The ranges of money and minutes that nothing may leave.
pub(super) fn allowed(bounds: &Bounds) -> impl Iterator<Item = Allowed> {
    let to = |of, most: f64| Allowed { of, from: 0.0, to: most };
    let price = bounds.money.map(|most| to(Limited::Price, f64::from(most.cents)));
    let minutes = bounds.minutes.map(|most| to(Limited::Minutes, f64::from(most)));
    price.into_iter().chain(minutes)
}

/// What a bit stands for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Bit {
    Job(Job),
    /// Bar and stem are one piece, before or after.
    OnePiece,
}

/// Bits in the order in which they were met.
#[derive(Debug, Default)]
struct Bits(Vec<Bit>);

impl Bits {
    fn of(&mut self, bit: Bit) -> Jobs {
        let at = self.0.iter().position(|of| *of == bit).unwrap_or_else(|| {
            self.0.push(bit);
            self.0.len() - 1
        });
        1 << at
    }

    fn jobs<'s>(&mut self, steps: impl Iterator<Item = &'s Step>) -> Jobs {
        steps.fold(0, |all, step| all | self.of(Bit::Job(step.job)))
    }

    /// Minutes of every set of bits.
    fn minutes(&self) -> Vec<u32> {
        let of = |set: usize| {
            let bits = self.0.iter().enumerate().filter(|(at, _)| set >> at & 1 == 1);
            let jobs: Vec<Job> = bits
                .clone()
                .filter_map(|(_, bit)| match bit {
                    Bit::Job(job) => Some(*job),
                    Bit::OnePiece => None,
                })
                .collect();
            most_minutes(&jobs, bits.into_iter().any(|(_, bit)| *bit == Bit::OnePiece))
        };
        (0..1 << self.0.len()).map(of).collect()
    }
}

/// What all that is bought for steps costs, in hundredths; none where nobody knows.
fn price<'s>(steps: impl Iterator<Item = &'s Step>) -> Option<u32> {
    let mut bought = steps.filter_map(|step| step.bought.as_ref());
    bought.try_fold(0_u32, |sum, of| Some(sum.saturating_add(of.price?.cents)))
}

const fn is_of_the_stem(step: &Step) -> bool {
    matches!(step.job, Job::StemTurned | Job::OtherStem)
}

/// Tells a shop's parts and settings their jobs and prices; `variants` are the cockpits of its bars, with
/// stem, spacers, roll and lever place still the base's.
pub(super) fn tell(shop: &mut Shop, base: &Cockpit, variants: &[Cockpit], stems: &[Stem]) {
    let mut bits = Bits::default();
    for (bar, variant) in shop.bars.iter_mut().zip(variants) {
        let work = Work::between(base, variant);
        let steps = || work.steps.iter().filter(|step| !is_of_the_stem(step));
        (bar.jobs, bar.price) = (bits.jobs(steps()), price(steps()));
        if base.bar.one_piece.is_some() || variant.bar.one_piece.is_some() {
            bar.jobs |= bits.of(Bit::OnePiece);
        }
        // on another bar, or with other levers, they are set anew, which is no job of its own
        let does = |job: Job| steps().any(|step| step.job == job);
        let roll_rad = geometry::mounted_roll_deg(variant).to_radians();
        bar.is_there = !does(Job::OtherBar);
        if bar.is_there {
            for roll in bar.rolls.iter_mut().filter(|roll| roll.at != roll_rad) {
                roll.jobs = bits.of(Bit::Job(Job::Roll));
            }
            if !does(Job::OtherLevers) {
                for shift in bar.shifts.iter_mut().filter(|shift| shift.at != 0.0) {
                    shift.jobs = bits.of(Bit::Job(Job::LeverAlong));
                }
            }
        }
    }
    // which bar it is beside changes nothing of a stem's own
    if let Some(beside) = variants.iter().find(|of| of.bar.one_piece.is_none()) {
        let mut to = beside.clone();
        for (offer, stem) in shop.stems.iter_mut().zip(stems) {
            to.stem.clone_from(stem);
            let work = Work::between(base, &to);
            let steps = || work.steps.iter().filter(|step| is_of_the_stem(step));
            (offer.jobs, offer.price) = (bits.jobs(steps()), price(steps()));
            offer.is_there = !steps().any(|step| step.job == Job::OtherStem);
        }
    }
    for spacers in shop.spacers.iter_mut().filter(|spacers| spacers.at != base.spacers_mm) {
        spacers.jobs = bits.of(Bit::Job(Job::Spacers));
    }
    shop.minutes = bits.minutes();
}
