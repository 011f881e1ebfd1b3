//! What was ridden outranks what is computed: hands that lie where a trial already put them are not
//! proposed once more where that trial did no good.

use super::ridden::{in_vain, ridden_in_vain, vetoed};
use super::search::Ask;
use fit_doc::concern::held_back;
use fit_doc::work::Job;
use fit_doc::{Aim, Cockpit, Concern, Frame, HandPlace, Place, RideScore, Visit, geometry};
use fit_math::DVec2;

/// Hands that are nearer to where they were on a trial are where they were, mm (judgement: half of what
/// hands feel).
const ALIKE_MM: f64 = 5.0;
/// A trial with the hands nearer than this speaks of them, mm: what hands feel (common practice, no source).
const NEAR_MM: f64 = 10.0;

/// What trials that did no good say of cockpits that put the hands near to where they were on them.
pub(super) struct Near<'a> {
    pub(super) ask: &'a Ask,
    pub(super) visit: &'a Visit,
    /// The frame that all cockpits stand on; without one nothing is near.
    pub(super) frame: Option<&'a Frame>,
}

impl Near<'_> {
    /// Whether a cockpit whose dearest change is that job may be told at all: no bar while bars wait for
    /// the saddle, and nothing that the client refused or rode in vain.
    pub(super) fn may(&self, job: Job, cockpit: &Cockpit) -> bool {
        let waits = job == Job::OtherBar && held_back(self.visit).is_some();
        let visit = self.visit;
        !waits
            && !vetoed(visit, cockpit)
            && !ridden_in_vain(visit, cockpit)
            && !self.is_alike(cockpit)
    }

    /// The hands lie where they were on a trial that did no good.
    pub(super) fn is_alike(&self, cockpit: &Cockpit) -> bool {
        self.in_vain(cockpit).is_some_and(|(_, mm)| mm < ALIKE_MM)
    }

    /// The trial that did no good and had the hands nearest to where this cockpit has them, in the place
    /// that was complained of, and how far away they were, mm; none where something is asked that the hands
    /// do not decide, or where they were further away than is felt.
    pub(super) fn in_vain(&self, cockpit: &Cockpit) -> Option<(RideScore, f64)> {
        let (visit, frame) = (self.visit, self.frame?);
        if !self.ask.wanted.iter().all(|of| hands_decide(of.aim)) {
            return None;
        }
        let hand = |of: &Cockpit, place| -> Option<DVec2> {
            let built = geometry::cockpit(&Place::cockpit(&of.label), frame, of).ok()?;
            Some(built.grips(place)?.midway().truncate())
        };
        let others =
            visit.rides.iter().filter(|ride| !visit.is_ride_of(ride, &visit.as_it_came.id));
        let near = others.filter_map(|ride| {
            let (score, ridden) = (in_vain(ride)?, visit.cockpit(&ride.cockpit)?);
            let place = score.place.unwrap_or(HandPlace::Hoods);
            let apart = hand(ridden, place)?.distance(hand(cockpit, place)?);
            let tells = is_of_the_posture(score.about) && ridden.saddle == cockpit.saddle;
            (tells && apart < NEAR_MM).then_some((score, apart))
        });
        near.min_by(|a, b| a.1.total_cmp(&b.1))
    }
}

/// Whether where the hands are decides alone what comes of an aim.
const fn hands_decide(aim: Aim) -> bool {
    matches!(
        aim,
        Aim::EaseNeck
            | Aim::EaseBack
            | Aim::BendElbows
            | Aim::Nearer
            | Aim::Further
            | Aim::HoodsStay
            | Aim::LikeOtherBike
    )
}

/// Whether the posture is what is complained of.
const fn is_of_the_posture(about: Concern) -> bool {
    matches!(
        about,
        Concern::Neck
            | Concern::Shoulders
            | Concern::Arms
            | Concern::Hands
            | Concern::LowBack
            | Concern::Hips
            | Concern::Seat
            | Concern::Stretched
            | Concern::Cramped
    )
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::testing::{deep, session};
    use crate::weigh::{Survey, weigh_visit};
    use fit_doc::{Complaint, Ride, Session, Stock, Wanted, Where};
    use std::sync::Arc;

    fn raised(by_mm: f64) -> Cockpit {
        let came = deep();
        Cockpit { spacers_mm: came.spacers_mm + by_mm, ..came }
    }

    /// A client with that complaint on the hoods, six of ten, who wants that, and who rode 20 mm of
    /// spacers more with so much left of it.
    fn rode(about: Concern, wanted: &[Aim], after: u8) -> Session {
        let mut session = session(vec![raised(20.0).with_name("tried", "tried")]);
        let visit = Arc::make_mut(&mut session.visits[0]);
        let complaint = Complaint::about(about, Where::Both);
        let place = Some(HandPlace::Hoods);
        visit.complaints = vec![Complaint { place, score: Some(6), ..complaint }];
        visit.wanted = wanted.iter().map(|of| Wanted::new(*of)).collect();
        let ride = Ride::begun("tried", &visit.complaints, &[], (Vec::new(), Vec::new()));
        let score = |of: &RideScore| RideScore { after: Some(after), ..*of };
        let scores = ride.scores.iter().map(score).collect();
        visit.rides.push(Ride { scores, ended: true, ..ride });
        session
    }

    /// How far the hands of a cockpit are from that trial, and whether that is where they were.
    fn told(session: &Session, of: &Cockpit, framed: bool) -> (Option<f64>, bool) {
        let visit = session.latest_visit().unwrap();
        let weighed = weigh_visit(session, visit, &Survey::shipped().unwrap()).unwrap();
        let stock = Stock { bars: Vec::new(), stems: Vec::new(), levers: Vec::new() };
        let ask = Ask::new(session, visit, &weighed, &stock).unwrap();
        let frame = session.bike(&visit.bike).map(|of| &of.frame).filter(|_| framed);
        let near = Near { ask: &ask, visit, frame };
        (near.in_vain(of).map(|(_, mm)| mm), near.is_alike(of))
    }

    /// 10 mm of spacers move the hands by 10.
    #[test]
    fn hands_within_what_is_felt_were_ridden_and_within_half_of_it_are_where_they_were() {
        let session = rode(Concern::Neck, &[Aim::EaseNeck], 6);
        let at = |by_mm: f64| told(&session, &raised(by_mm), true);
        assert!(matches!(at(20.0), (Some(mm), true) if mm < 1e-9), "{:?}", at(20.0));
        assert!(matches!(at(24.0), (Some(mm), true) if (mm - 4.0).abs() < 1e-6), "{:?}", at(24.0));
        assert!(matches!(at(27.0), (Some(mm), false) if (mm - 7.0).abs() < 1e-6), "{:?}", at(27.0));
        assert_eq!(at(31.0), (None, false), "further than is felt");
        assert_eq!(told(&session, &raised(20.0), false), (None, false), "on no frame");
        let other = fit_doc::Saddle { height_mm: 740.0, ..deep().saddle };
        let other = Cockpit { saddle: other, ..raised(20.0) };
        assert_eq!(told(&session, &other, true), (None, false), "he sat elsewhere");
    }

    #[test]
    fn a_trial_speaks_of_what_the_hands_decide_and_of_what_was_in_vain() {
        let of =
            |about, wanted: &[Aim], after| told(&rode(about, wanted, after), &raised(22.0), true).1;
        assert!(of(Concern::Neck, &[Aim::EaseNeck], 6));
        assert!(of(Concern::LowBack, &[Aim::EaseBack, Aim::HoodsStay], 7), "it got worse");
        assert!(!of(Concern::Neck, &[Aim::EaseNeck], 5), "it did some good");
        assert!(!of(Concern::Neck, &[Aim::EaseNeck, Aim::EaseDrops], 6), "a bar may do that");
        assert!(!of(Concern::BrakesFromDrops, &[Aim::EaseNeck], 6), "nothing of the posture");
    }

    /// Of two trials in vain the nearer speaks, in the place that was complained of; none of the bike as it
    /// came.
    #[test]
    fn the_nearest_trial_of_another_set_up_speaks_of_the_place_that_hurts() {
        let mut session = rode(Concern::Neck, &[Aim::EaseNeck], 6);
        let visit = Arc::make_mut(&mut session.visits[0]);
        visit.bench.push(raised(27.0).with_name("nearer", "nearer"));
        let again = Ride { cockpit: "nearer".into(), ..visit.rides[0].clone() };
        visit.rides.push(again);
        let far = |session: &Session, of: &Cockpit| told(session, of, true).0;
        assert!(far(&session, &raised(26.0)).is_some_and(|mm| (mm - 1.0).abs() < 1e-6));
        assert!(far(&session, &raised(21.0)).is_some_and(|mm| (mm - 1.0).abs() < 1e-6));
        // the hands in the drops lie elsewhere on levers that stand elsewhere, those on the hoods do not
        let mut low = raised(20.0);
        let levers = low.levers.as_mut().unwrap();
        (levers.left.along_mm, levers.right.along_mm) = (187.0, 187.0);
        assert_eq!(far(&session, &low), None, "the hoods are lower");
        let visit = Arc::make_mut(&mut session.visits[0]);
        for ride in &mut visit.rides {
            ride.scores[0].place = Some(HandPlace::Drops);
        }
        assert!(far(&session, &low).is_some_and(|mm| mm < 1e-6));
        let visit = Arc::make_mut(&mut session.visits[0]);
        visit.rides.truncate(1);
        visit.rides[0].cockpit = visit.as_it_came.id.clone();
        assert_eq!(far(&session, &raised(1.0)), None, "all is held against that");
    }

    #[test]
    fn what_waits_or_was_refused_or_ridden_in_vain_is_not_told() {
        use fit_doc::{Looked, RuleOut, RuledOut, Veto};
        let mut session = rode(Concern::Neck, &[Aim::EaseNeck], 6);
        let may = |session: &Session, job: Job, of: &Cockpit| {
            let visit = session.latest_visit().unwrap();
            let weighed = weigh_visit(session, visit, &Survey::shipped().unwrap()).unwrap();
            let stock = Stock { bars: Vec::new(), stems: Vec::new(), levers: Vec::new() };
            let ask = Ask::new(session, visit, &weighed, &stock).unwrap();
            ask.near(session, visit).may(job, of)
        };
        let spacers = |session: &Session, by_mm| may(session, Job::Spacers, &raised(by_mm));
        assert!(!spacers(&session, 22.0), "the hands were there in vain");
        assert!(spacers(&session, 5.0));
        // where a bar may do it, only the very set-up was in vain
        Arc::make_mut(&mut session.visits[0]).wanted.push(Wanted::new(Aim::EaseDrops));
        assert!(spacers(&session, 22.0) && !spacers(&session, 20.0));
        let visit = Arc::make_mut(&mut session.visits[0]);
        visit.rides.clear();
        assert!(spacers(&session, 20.0));
        let visit = Arc::make_mut(&mut session.visits[0]);
        visit.vetoes.push(Veto { cockpit: "tried".into(), words: String::new() });
        assert!(!spacers(&session, 20.0) && spacers(&session, 22.0));
        // bars wait until the saddle was looked at
        assert!(!may(&session, Job::OtherBar, &raised(5.0)));
        let visit = Arc::make_mut(&mut session.visits[0]);
        let done = |item| RuledOut { item, looked: Looked::Done };
        visit.ruled_out = RuleOut::ALL.into_iter().map(done).collect();
        assert!(may(&session, Job::OtherBar, &raised(5.0)));
    }
}
