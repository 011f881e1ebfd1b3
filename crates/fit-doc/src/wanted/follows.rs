//! Which aims follow from what brought a client, while nobody said otherwise (common practice, no
//! source: the steps that are tried for each concern).

use super::{Aim, Counts, Wanted};
use crate::concern::held_back;
use crate::{Complaint, Concern, HandPlace, Visit};
use core::cmp::Reverse;

/// From that score on a complaint is severe, and up to that it is slight: the usual marks on a scale of
/// ten (from memory); that it then counts a step more or less is judgement.
const SEVERE: u8 = 7;
const SLIGHT: u8 = 3;
/// A complaint of which nobody asked how bad it is stands where this score does: neither severe nor slight
/// (judgement).
const NOT_ASKED: u8 = 5;

impl Complaint {
    /// Its score among others, 0–10; of one of which nobody asked how bad it is, a middling one.
    pub fn as_bad_as(&self) -> u8 {
        self.score.unwrap_or(NOT_ASKED)
    }

    /// What follows from it by itself.
    pub fn aims(&self) -> Vec<Wanted> {
        follows(self.about, self.place).into_iter().map(|of| by_score(of, self.score)).collect()
    }
}

impl Visit {
    /// What brought the client and is still bad, the worst first; of what is as bad what was told first.
    pub fn still_bad(&self) -> Vec<&Complaint> {
        let mut all: Vec<&Complaint> =
            self.complaints.iter().filter(|of| of.score != Some(0)).collect();
        all.sort_by_key(|of| Reverse(of.as_bad_as()));
        all
    }

    /// What a cockpit is looked for: what the fitter said, else what follows from what brought the
    /// client and is still bad, the worst first.
    pub fn aims(&self) -> Vec<Wanted> {
        if !self.wanted.is_empty() {
            return self.wanted.clone();
        }
        // the hands come after the saddle for whoever is hurt by it
        let waits = |of: &&Complaint| of.about == Concern::Seat && held_back(self).is_some();
        let still_bad = self.still_bad().into_iter().filter(|of| !waits(of));
        let mut all: Vec<Wanted> = Vec::new();
        for wanted in still_bad.flat_map(Complaint::aims) {
            match all.iter_mut().find(|of| (of.aim, of.place) == (wanted.aim, wanted.place)) {
                Some(known) => known.counts = known.counts.max(wanted.counts),
                None => all.push(wanted),
            }
        }
        // the drops are made less deep under hoods that stay, not raised with them
        if is_of_the_drops_alone(&all) {
            all.push(Wanted::new(Aim::HoodsStay));
        }
        all
    }
}

/// A neck in the drops, and nothing else that the hands on the hoods could have to do with.
fn is_of_the_drops_alone(all: &[Wanted]) -> bool {
    let neck = |of: &Wanted| of.aim == Aim::EaseNeck && of.place == Some(HandPlace::Drops);
    let at_drops = |of: &Wanted| of.place == Some(HandPlace::Drops) || of.aim == Aim::EaseDrops;
    all.iter().any(neck) && all.iter().all(at_drops)
}

/// An aim that counts as much as the complaint is bad. What counts a little only goes along with
/// another, and does so however bad that is; that a brake is complained of says more than how badly.
fn by_score(wanted: Wanted, score: Option<u8>) -> Wanted {
    let counts = match (score, wanted.counts) {
        (Some(SEVERE..), Counts::Ordinary) => Counts::Much,
        (Some(..=SLIGHT), Counts::Much) => Counts::Ordinary,
        (Some(..=SLIGHT), Counts::Ordinary) if wanted.aim != Aim::ReachBrakes => Counts::Little,
        (_, counts) => counts,
    };
    Wanted { counts, ..wanted }
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
        // hands higher and nearer take weight off the front of the saddle, and no bar does
        Concern::Seat => vec![counting(at(Aim::EaseBack, Hoods), Counts::Little)],
        Concern::Knees | Concern::Feet => Vec::new(),
    }
}
