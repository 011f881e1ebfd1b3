//! Where the client told what stops the fit nothing is advised: where he is sent is said, and that the rest
//! waits.

use super::advice::{Advice, Answer, Step, base_of, weighed_surely};
use super::reason::Reason;
use super::search::{Ask, Outcome};
use fit_doc::work::Work;
use fit_doc::{Message, SendOn, Session, Visit};
use fit_math::body::Survey;
use std::sync::Arc;

impl Ask {
    /// What is told where the fit stops: nothing to try, and the bike stays as it is.
    pub(super) fn stopped(
        &self,
        (session, visit): (&Session, &Visit),
        survey: &Survey,
        outcome: &Outcome,
    ) -> Result<Advice, Vec<Message>> {
        let weighed = Arc::new(weighed_surely(session, visit, survey)?);
        let is_there = base_of(&weighed).is_some();
        let flags = visit.interview.red_flags.iter().copied();
        let (first, others): (Vec<SendOn>, Vec<SendOn>) = flags.partition(|of| of.stops());
        let sent_on = first.into_iter().chain(others).map(Reason::SendOn);
        let stays = is_there.then(|| Answer {
            step: Step::AsItIs,
            cockpit: Some(self.base().clone()),
            work: Work::default(),
            reasons: Vec::new(),
            ridden: visit.rides.iter().any(|ride| visit.is_ride_of(ride, &self.base().id)),
            like: None,
        });
        Ok(Advice {
            answers: stays.into_iter().collect(),
            said: sent_on.chain([Reason::AllWaits]).collect(),
            given_up: None,
            ..self.nothing(weighed, outcome)
        })
    }
}

impl Advice {
    /// Whether the fit stops, so that nothing is advised.
    pub fn stops(&self) -> bool {
        self.said.contains(&Reason::AllWaits)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::choose::Progress;
    use crate::choose::anything::advised;
    use crate::testing::session;
    use crate::words::English;
    use fit_doc::concern::{held_back, not_looked_at};
    use fit_doc::{Aim, Complaint, Concern, HandPlace, Looked, RuleOut, RuledOut, Wanted, Where};

    /// What is told a client with a neck on an unsteady bike who told this, and whether two aims are held
    /// against each other.
    fn told(flags: &[SendOn]) -> (Advice, bool) {
        let mut session = session(Vec::new());
        let visit = Arc::make_mut(&mut session.visits[0]);
        let neck = Wanted::new(Aim::EaseNeck).at(HandPlace::Hoods);
        visit.wanted = vec![neck, Wanted::new(Aim::ReachBrakes).at(HandPlace::Drops)];
        visit.complaints = [Concern::Neck, Concern::Unsteady]
            .map(|about| Complaint::about(about, Where::Both))
            .to_vec();
        visit.interview.red_flags = flags.to_vec();
        let visit = session.latest_visit().unwrap();
        let survey = Survey::shipped().unwrap();
        let (ask, advice) = advised(&session, &survey);
        let of = (&session, visit);
        let axes = [Some(0), Some(1)];
        let (progress, words) = (Progress::default(), &English);
        let held = ask.told_trade_off(axes, &advice, of, &survey, &progress, words).unwrap();
        (advice, held.is_some())
    }

    #[test]
    fn where_the_fit_stops_nothing_is_advised() {
        let (advice, held) = told(&[SendOn::Dizziness, SendOn::LegAndBladder]);
        let steps: Vec<Step> = advice.answers.iter().map(|of| of.step).collect();
        assert_eq!(steps, [Step::AsItIs]);
        let sent_on = [SendOn::LegAndBladder, SendOn::Dizziness].map(Reason::SendOn);
        assert_eq!(advice.said, [&sent_on[..], &[Reason::AllWaits]].concat());
        assert!(advice.stops() && !held);
        assert!(advice.said.iter().all(Reason::comes_before));
    }

    #[test]
    fn where_it_goes_on_something_is() {
        let (advice, held) = told(&[SendOn::Dizziness]);
        assert!(advice.answers.iter().any(Answer::is_something_to_do));
        assert!(!advice.stops() && held);
        // and what is first on the bike is said
        let left = |of: &Reason| matches!(of, Reason::NotLookedAt { about: Concern::Unsteady, .. });
        let at = advice.said.iter().position(left).unwrap();
        assert!(advice.said[at].comes_before());
    }

    fn visit(abouts: &[Concern]) -> Visit {
        let mut visit = crate::testing::session(Vec::new()).visits[0].as_ref().clone();
        visit.complaints = abouts.iter().map(|of| Complaint::about(*of, Where::Both)).collect();
        visit
    }

    /// A saddle is looked at for what hurts, whatever is wished before it.
    #[test]
    fn bars_wait_by_what_hurts_before_what_is_wished() {
        let by = |abouts: &[Concern]| held_back(&visit(abouts)).map(|of| of.by);
        assert_eq!(by(&[Concern::Slimmer, Concern::Neck]), Some(Concern::Neck));
        assert_eq!(by(&[Concern::Slimmer]), Some(Concern::Slimmer));
        assert_eq!(by(&[Concern::NewBar]), None);
    }

    #[test]
    fn what_of_the_bike_comes_first_is_told_until_it_was_looked_at() {
        let mut visit = visit(&[Concern::Neck, Concern::Unsteady, Concern::Unsteady]);
        let all = vec![RuleOut::Headset, RuleOut::Tyres, RuleOut::Wheels];
        assert_eq!(not_looked_at(&visit), [(Concern::Unsteady, all)]);
        let of = |item, looked| RuledOut { item, looked };
        visit.ruled_out =
            vec![of(RuleOut::Headset, Looked::Done), of(RuleOut::Tyres, Looked::Changed)];
        visit.ruled_out.push(of(RuleOut::Wheels, Looked::NotNow));
        assert_eq!(not_looked_at(&visit), [(Concern::Unsteady, vec![RuleOut::Wheels])]);
        visit.ruled_out[2].looked = Looked::Done;
        assert_eq!(not_looked_at(&visit), []);
        // each is of the row that it is told for
        for about in Concern::ALL {
            let row = about.advice().rule_out;
            assert!(about.first_on_the_bike().iter().all(|of| row.contains(of)), "{about:?}");
        }
    }
}
