//! Where the client told what stops the fit nothing is advised: where he is sent is said, and that the rest
//! waits. Where he told what one complaint waits for, nothing is looked for that is only for that.

use super::advice::{Advice, Answer, Step, base_of, weighed_surely};
use super::reason::Reason;
use super::rules::Common;
use super::search::{Ask, Outcome};
use crate::table::{Change, Question, told};
use crate::weigh::WeighedCockpit;
use fit_doc::concern::{sent_on, stopped_by, waits_for, what_goes_on};
use fit_doc::work::Work;
use fit_doc::{HandPlace, Message, SendOn, Session, Visit};
use fit_math::body::Survey;
use std::borrow::Cow;
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
        let sent_on = sent_on(visit).into_iter().map(Reason::SendOn);
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

/// The session as answers are looked for in it: without what of that visit waits until somebody was seen. Where
/// the fit stops nothing is told of it anyway.
pub fn without_what_waits<'a>(session: &'a Session, visit: &Visit) -> Cow<'a, Session> {
    let holds = visit.interview.red_flags.iter().any(|of| of.holds());
    let at = session.index_of(visit).filter(|_| holds && stopped_by(visit).is_none());
    let mut session = Cow::Borrowed(session);
    if let Some(left) = at.and_then(|at| session.to_mut().visits.get_mut(at)) {
        let left = Arc::make_mut(left);
        (left.complaints, left.wanted) = what_goes_on(visit);
        // a trial that did something for what waits speaks for nothing now
        for ride in &mut left.rides {
            ride.scores.retain(|of| waits_for(visit, of.about).is_none());
        }
    }
    session
}

/// Whether a cockpit lifts the head further of a client who gets dizzy by that.
pub(super) fn lifts_head(of: Common<'_>, to: &WeighedCockpit) -> bool {
    let further = |place| {
        let change = told(Question::Neck(place), to, Some(of.base), of.weighed).change;
        matches!(change, Change::By(by) if by > 0)
    };
    of.visit.interview.red_flags.contains(&SendOn::Dizziness)
        && [HandPlace::Hoods, HandPlace::Drops].into_iter().any(further)
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
    use fit_doc::work::Job;
    use fit_doc::{Aim, Cockpit, Complaint, Concern, Looked, RuleOut, RuledOut, Wanted, Where};

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

    /// What is looked for where the client came for these and told that.
    fn looked_for(abouts: &[Concern], wanted: &[Wanted], flag: SendOn) -> Advice {
        let mut session = session(Vec::new());
        let left = Arc::make_mut(&mut session.visits[0]);
        left.complaints = abouts.iter().map(|of| Complaint::about(*of, Where::Both)).collect();
        left.wanted = wanted.to_vec();
        left.interview.red_flags = vec![flag];
        let session = without_what_waits(&session, session.latest_visit().unwrap()).into_owned();
        advised(&session, &Survey::shipped().unwrap()).1
    }

    /// What was to wait until somebody was seen is not looked for; alone it leaves nothing to be told.
    #[test]
    fn nothing_is_told_for_what_waits_until_somebody_was_seen() {
        let neck = Wanted::new(Aim::EaseNeck).at(HandPlace::Drops);
        for (about, flag, wanted) in [
            (Concern::Hands, SendOn::NumbForDays, None),
            (Concern::Neck, SendOn::Dizziness, None),
            (Concern::Neck, SendOn::Dizziness, Some(neck)),
        ] {
            let wanted = wanted.as_slice();
            let advice = looked_for(&[about], wanted, flag);
            let steps: Vec<Step> = advice.answers.iter().map(|of| of.step).collect();
            assert_eq!(steps, [Step::AsItIs], "{about:?}");
            assert_eq!(advice.said, [Reason::SendOn(flag), Reason::AllWaits]);
            // of another flag the complaint is still looked after
            let other = looked_for(&[about], wanted, SendOn::SaddleNumbness);
            assert!(!other.stops() && other.answers.len() > 1, "{about:?}");
            // what is asked for by something else stands
            let both = looked_for(&[about, Concern::BrakesFromDrops], &[], flag);
            assert!(both.answers.iter().any(Answer::is_something_to_do) && !both.stops());
            assert!(both.said.contains(&Reason::SendOn(flag)), "{:?}", both.said);
            let of_it = |of: &Reason| match of {
                Reason::TriedForHands => about == Concern::Hands,
                Reason::Better { question, .. } => matches!(question, Question::Neck(_)),
                _ => false,
            };
            let mut reasons = both.answers.iter().flat_map(|of| &of.reasons);
            assert!(!reasons.any(of_it) && !both.answers.iter().any(|of| of.step == Step::Saddle));
        }
    }

    /// Who gets dizzy by it is told nothing that lifts the head further, whatever it is for.
    #[test]
    fn no_answer_lifts_the_head_of_who_gets_dizzy_by_it() {
        let lifted = |flag, by_mm: f64| {
            let of = crate::testing::deep();
            let moved = Cockpit { spacers_mm: of.spacers_mm + by_mm, ..of };
            let mut session = session(vec![moved.with_name("moved", "moved")]);
            let visit = Arc::make_mut(&mut session.visits[0]);
            visit.wanted = vec![Wanted::new(Aim::Further).at(HandPlace::Hoods)];
            visit.interview.red_flags = vec![flag];
            let survey = Survey::shipped().unwrap();
            let (ask, _) = advised(&session, &survey);
            let visit = session.latest_visit().unwrap();
            let weighed = weighed_surely(&session, visit, &survey).unwrap();
            let common = ask.common(&weighed, visit, base_of(&weighed).unwrap(), &[]);
            let to = weighed.cockpits.iter().find(|of| of.id == "moved").unwrap();
            ask.worth_telling(common, vec![(Job::Spacers, to)]).lifted
        };
        assert_eq!([-15.0, 15.0].map(|by_mm| lifted(SendOn::Dizziness, by_mm)), [1, 0]);
        assert_eq!(lifted(SendOn::SaddleNumbness, -15.0), 0);
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
