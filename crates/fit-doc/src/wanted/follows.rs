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

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{Complaint, Where};

    fn visit(complaints: Vec<Complaint>) -> Visit {
        let bare = crate::testing::visit();
        Visit { complaints, wanted: Vec::new(), ..bare }
    }

    fn about(concern: Concern, place: Option<HandPlace>) -> Complaint {
        Complaint { place, score: Some(5), ..Complaint::about(concern, Where::Both) }
    }

    #[test]
    fn what_the_fitter_said_stands_in_the_place_of_what_follows() {
        let mut visit = visit(vec![about(Concern::Neck, None)]);
        assert_eq!(visit.aims(), [Wanted::new(Aim::EaseNeck)]);
        visit.wanted = vec![Wanted::new(Aim::HoodsStay)];
        assert_eq!(visit.aims(), [Wanted::new(Aim::HoodsStay)]);
    }

    #[test]
    fn what_no_longer_bothers_is_not_looked_for() {
        let well = Complaint { score: Some(0), ..about(Concern::Neck, None) };
        assert_eq!(visit(vec![well]).aims(), []);
    }

    #[test]
    fn an_aim_of_two_concerns_stands_once_with_the_greater_weight() {
        let aims = visit(vec![
            about(Concern::DropsUnused, None),
            about(Concern::BrakesFromDrops, None),
            about(Concern::Unsteady, Some(HandPlace::Drops)),
        ])
        .aims();
        let brakes: Vec<&Wanted> = aims.iter().filter(|of| of.aim == Aim::ReachBrakes).collect();
        assert_eq!(brakes.len(), 1);
        assert_eq!(brakes[0].counts, Counts::Much);
    }

    /// An aim of no place names none, and what is not in the hands asks nothing of them.
    #[test]
    fn every_concern_asks_what_can_be_asked() {
        for concern in Concern::ALL {
            let aims = visit(vec![about(concern, Some(HandPlace::Drops))]).aims();
            assert!(aims.iter().all(|of| of.aim.is_of_a_place() || of.place.is_none()));
            let only_elsewhere =
                concern.advice().outcomes.first() == Some(&crate::concern::Outcome::NotTheBar);
            assert!(only_elsewhere || !aims.is_empty(), "{concern:?}");
        }
    }
}
