//! Which aims follow from what brought a client, while nobody said otherwise (common practice, no
//! source: the steps that are tried for each concern).

use super::{Aim, Counts, Wanted};
use crate::{Concern, HandPlace, Visit};

impl Visit {
    /// What a cockpit is looked for: what the fitter said, else what follows from what brought the
    /// client and is still bad.
    pub fn aims(&self) -> Vec<Wanted> {
        if !self.wanted.is_empty() {
            return self.wanted.clone();
        }
        let still_bad = self.complaints.iter().filter(|of| of.score != Some(0));
        let mut all: Vec<Wanted> = Vec::new();
        for wanted in still_bad.flat_map(|of| follows(of.about, of.place)) {
            match all.iter_mut().find(|of| (of.aim, of.place) == (wanted.aim, wanted.place)) {
                Some(known) => known.counts = known.counts.max(wanted.counts),
                None => all.push(wanted),
            }
        }
        all
    }
}

/// The aims of one concern, hands where it shows.
fn follows(about: Concern, place: Option<HandPlace>) -> Vec<Wanted> {
    use HandPlace::{Drops, Hoods};
    let at = |aim: Aim, usual: HandPlace| Wanted::new(aim).at(place.unwrap_or(usual));
    let counting = |of: Wanted, counts: Counts| Wanted { counts, ..of };
    match about {
        Concern::Neck => vec![Wanted { place, ..Wanted::new(Aim::EaseNeck) }],
        Concern::Shoulders => vec![Wanted::new(Aim::LikeShoulders), at(Aim::BendElbows, Hoods)],
        Concern::Arms => vec![at(Aim::BendElbows, Hoods)],
        Concern::Hands => {
            vec![at(Aim::BendElbows, Hoods), counting(at(Aim::EaseBack, Hoods), Counts::Little)]
        }
        Concern::LowBack | Concern::Hips => vec![at(Aim::EaseBack, Hoods)],
        Concern::BrakesFromDrops => vec![Wanted::new(Aim::ReachBrakes).at(Drops)],
        Concern::BrakesFromHoods => vec![Wanted::new(Aim::ReachBrakes).at(Hoods)],
        Concern::Stretched => vec![at(Aim::Nearer, Hoods)],
        Concern::Cramped => vec![at(Aim::Further, Hoods)],
        Concern::Unsteady => vec![
            counting(Wanted::new(Aim::ReachBrakes).at(Drops), Counts::Much),
            Wanted::new(Aim::EasierToSteer),
        ],
        Concern::DropsUnused => vec![
            Wanted::new(Aim::EaseDrops),
            counting(Wanted::new(Aim::ReachBrakes).at(Drops), Counts::Little),
        ],
        Concern::Slimmer => vec![Wanted::new(Aim::Slimmer)],
        Concern::SmallRider => vec![
            at(Aim::Nearer, Hoods),
            Wanted::new(Aim::EaseDrops),
            Wanted::new(Aim::ReachBrakes).at(Drops),
            Wanted::new(Aim::LikeShoulders),
        ],
        Concern::NewBar => vec![Wanted::new(Aim::HoodsStay)],
        Concern::Seat | Concern::Knees | Concern::Feet => Vec::new(),
    }
}
