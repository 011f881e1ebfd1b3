//! From what a search found to what is told: answers in order, each weighed like any cockpit of the
//! bench and with its reasons; what the client said of a ridden trial outranks what was computed.

use super::as_it_is::Beside;
use super::reason::Reason;
use super::rules::{Case, RULES};
pub(super) use super::search::base as base_of;
use super::search::{Ask, Counted, Outcome, Sought};
use crate::frame_question::{FrameQuestion, frame_questions};
use crate::table::whole;
use crate::weigh::{Weighed, WeighedCockpit, weigh_visit};
use crate::words::Words;
use fit_doc::concern::{self, Held, held_back};
use fit_doc::edit::{free_id, free_label};
use fit_doc::work::{Job, Work};
use fit_doc::{Aim, Cockpit, Concern, HandPlace, Liking, Message, Ride, RideScore, Session, Visit};
use fit_math::body::Survey;
use std::sync::Arc;

/// A complaint that fell by so many of ten was met: the client stops there (common practice, no
/// source).
const MET: i16 = 3;
/// Hands that are asked to come back or up further than this are the frame's business, mm (common
/// practice, no source).
const FRAME_BACK_MM: f64 = 30.0;

/// So many of what was found are weighed, so that enough are left of which something tells.
const WEIGHED: usize = 16;

/// What an answer is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Step {
    /// Leave it as it is.
    AsItIs,
    /// Look at the saddle before anything at the hands.
    Saddle,
    /// It is not the bar.
    NotTheBar,
    /// It is the frame.
    TheFrame,
    /// A cockpit whose dearest change is that job.
    Cockpit(Job),
}

impl Step {
    /// Its name for other programs.
    pub const fn id(self) -> &'static str {
        match self {
            Self::AsItIs => "as-it-is",
            Self::Saddle
            | Self::Cockpit(Job::SaddleHeight | Job::SaddleTilt | Job::SaddleSetback) => "saddle",
            Self::NotTheBar => "not-the-bar",
            Self::TheFrame => "frame",
            Self::Cockpit(Job::HandInDrops) => "hand-in-drops",
            Self::Cockpit(Job::ReachScrew) => "reach-screw",
            Self::Cockpit(Job::TurnIn) => "turn-in",
            Self::Cockpit(Job::LeverAlong) => "lever",
            Self::Cockpit(Job::Roll) => "roll",
            Self::Cockpit(Job::Spacers) => "spacers",
            Self::Cockpit(Job::StemTurned) => "stem-turned",
            Self::Cockpit(Job::OtherStem) => "stem",
            Self::Cockpit(Job::OtherBar) => "bar",
            Self::Cockpit(Job::OtherLevers) => "levers",
        }
    }
}

/// One answer.
#[derive(Debug, Clone, PartialEq)]
pub struct Answer {
    /// What it is.
    pub step: Step,
    /// Its cockpit, where it has one: a name of its own, and an id that the bench does not have.
    pub cockpit: Option<Cockpit>,
    /// All that has to be done for it.
    pub work: Work,
    /// What is said of it, in the order in which it is told.
    pub reasons: Vec<Reason>,
    /// The client has ridden it.
    pub ridden: bool,
}

/// What comes of a search.
#[derive(Debug, Clone, PartialEq)]
pub struct Advice {
    /// The answers, the best first; as it is stands among them.
    pub answers: Vec<Answer>,
    /// What must be said before any of them.
    pub said: Vec<Reason>,
    /// Bench and answers weighed.
    pub weighed: Arc<Weighed>,
    /// How much was looked through, and what was not.
    pub counted: Counted,
    /// How many change too little to tell of what is asked.
    pub too_small: usize,
}

impl Ask {
    /// What is told of an outcome, of at most so many answers with a cockpit.
    ///
    /// # Errors
    /// What keeps the answers from being weighed beside the bench.
    pub fn advise(
        &self,
        session: &Session,
        visit: &Visit,
        survey: &Survey,
        outcome: &Outcome,
        most: usize,
        words: &dyn Words,
    ) -> Result<Advice, Vec<Message>> {
        let held = held_back(visit);
        let vetoed = |cockpit: &Cockpit| {
            let of = |veto: &fit_doc::Veto| visit.cockpit(&veto.cockpit);
            visit.vetoes.iter().filter_map(of).any(|of| is_same(of, cockpit))
        };
        let may = |sought: &&Sought| {
            let waits = held.is_some() && sought.job == Job::OtherBar;
            !waits && !vetoed(&sought.cockpit) && !ridden_in_vain(visit, &sought.cockpit)
        };
        let best: Vec<&Sought> =
            outcome.sought.iter().filter(may).take(WEIGHED.max(2 * most)).collect();
        // what each job does by itself is weighed as well: why the obvious is not the answer
        let others = &outcome.single;
        let mut bench = Bench::of(visit);
        let mut put = |sought: &Sought| bench.add((sought.job, &sought.cockpit), &self.base, words);
        let ids: Vec<String> = best.iter().map(|sought| put(sought)).collect();
        let mut beside: Vec<(Job, String)> = Vec::new();
        for sought in others {
            let there = best.iter().position(|of| **of == *sought);
            let id = there.map_or_else(|| put(sought), |at| ids[at].clone());
            beside.push((sought.job, id));
        }
        let weighed = Arc::new(weigh_visit(session, &bench.visit, survey)?);
        let find = |id: &str| weighed.cockpits.iter().find(|of| of.id == id);
        let Some(base) = base_of(&weighed) else {
            return Ok(Self::nothing(weighed, outcome));
        };
        let beside: Vec<(Job, &WeighedCockpit)> =
            beside.iter().filter_map(|(job, id)| Some((*job, find(id)?))).collect();
        let about = |to: &WeighedCockpit| {
            let work = Work::between(&self.base, &to.parts);
            let case = Case {
                weighed: &weighed,
                visit,
                wanted: &self.wanted,
                other_hoods: self.other_hoods,
                base,
                to,
                work: &work,
                others: &beside,
            };
            let reasons = RULES.iter().flat_map(|rule| rule(&case)).collect::<Vec<_>>();
            (work, reasons)
        };
        let (mut answers, mut too_small, mut told) = (Vec::new(), 0, 0);
        for (ride, score) in met(visit) {
            let Some(to) = find(&ride.cockpit) else { continue };
            let (work, mut reasons) = about(to);
            let Some(job) = work.steps.iter().map(|step| step.job).max() else { continue };
            let others = ride.scores.iter().copied().filter(|of| *of != score);
            let better = others.filter(|of| fell_by(*of).is_some_and(|by| by > 0));
            let told: Vec<Reason> = [score].into_iter().chain(better).map(ridden).collect();
            reasons.splice(0..0, told);
            reasons.extend(got_worse(ride).map(ridden_worse));
            let cockpit = Some(to.parts.clone());
            answers.push(Answer { step: Step::Cockpit(job), cockpit, work, reasons, ridden: true });
        }
        for (sought, id) in best.iter().zip(&ids) {
            let Some(to) = find(id) else { continue };
            let twice = |of: &Answer| of.cockpit.as_ref().is_some_and(|of| is_same(of, &to.parts));
            if answers.iter().any(twice) {
                continue;
            }
            let (work, reasons) = about(to);
            // nothing is an answer that nothing which tells speaks for
            if !reasons.iter().any(Reason::is_about_an_aim) {
                too_small += 1;
                continue;
            }
            if told == most {
                break;
            }
            told += 1;
            let step = Step::Cockpit(sought.job);
            let cockpit = Some(to.parts.clone());
            answers.push(Answer { step, cockpit, work, reasons, ridden: false });
        }
        let mut steps: Vec<&WeighedCockpit> = ids.iter().filter_map(|id| find(id)).collect();
        steps.extend(beside.iter().map(|(_, of)| *of));
        let (wanted, looked) = (&self.wanted, outcome.counted.looked_through());
        let found = Beside { weighed: &weighed, wanted, base, looked, steps: &steps };
        let first = answers.first().and_then(|of| find(&of.cockpit.as_ref()?.id));
        let waits = outcome.sought.iter().any(|sought| !may(&sought));
        let why = match first {
            Some(first) => found.gives_up(first),
            // what waits, or is not wanted, may well be worth it
            None => (!waits).then(|| found.nothing_beats_it()),
        };
        answers.push(self.as_it_is(visit, why));
        let mut all = self.elsewhere(visit, &weighed, base, &answers, held);
        all.append(&mut answers);
        Ok(Advice {
            answers: all,
            said: Self::must_say(visit, held),
            counted: outcome.counted.clone(),
            too_small,
            weighed,
        })
    }

    /// Advice about a bench of which nothing can be told.
    fn nothing(weighed: Arc<Weighed>, outcome: &Outcome) -> Advice {
        Advice {
            answers: Vec::new(),
            said: Vec::new(),
            weighed,
            counted: outcome.counted.clone(),
            too_small: 0,
        }
    }

    /// Leave it: with why nothing beats it, or what that gives up.
    fn as_it_is(&self, visit: &Visit, why: Option<Reason>) -> Answer {
        let others = visit.rides.iter().filter(|ride| !visit.is_ride_of(ride, &self.base.id));
        let in_vain = others.filter_map(|ride| Some((ride, in_vain(ride)?)));
        let in_vain = in_vain.map(|(_, score)| ridden_in_vain_of(score));
        let mut reasons: Vec<Reason> = why.into_iter().chain(in_vain).collect();
        let new_bar = visit.complaints.iter().any(|of| of.about == Concern::NewBar);
        if visit.complaints.is_empty() || new_bar {
            reasons.push(Reason::Said(concern::Said::KeepIsAnAnswer));
        }
        let ridden = visit.rides.iter().any(|ride| visit.is_ride_of(ride, &self.base.id));
        let (cockpit, work) = (Some(self.base.clone()), Work::default());
        Answer { step: Step::AsItIs, cockpit, work, reasons, ridden }
    }

    /// The answers that are no cockpit, before all that are.
    fn elsewhere(
        &self,
        visit: &Visit,
        weighed: &Weighed,
        base: &WeighedCockpit,
        answers: &[Answer],
        held: Option<Held>,
    ) -> Vec<Answer> {
        let without = |step, reasons| Answer {
            step,
            cockpit: None,
            work: Work::default(),
            reasons,
            ridden: false,
        };
        let mut all = Vec::new();
        let at_hoods = |place: Option<HandPlace>| place.is_none_or(|of| of == HandPlace::Hoods);
        let back = self.wanted.iter().filter(|of| of.aim == Aim::Nearer && at_hoods(of.place));
        let back = back.filter_map(|of| of.by_mm).fold(0.0, f64::max);
        let asked = (back > FRAME_BACK_MM).then(|| FrameQuestion::HoodsBack { mm: whole(back) });
        let first = answers.first().filter(|of| of.step != Step::AsItIs && !of.ridden);
        let first = first.and_then(|of| of.cockpit.as_ref());
        let first = first.and_then(|of| weighed.cockpits.iter().find(|to| to.id == of.id));
        let found = first.map(|to| frame_questions(base, to)).unwrap_or_default();
        let frame: Vec<Reason> = asked.into_iter().chain(found).map(Reason::Frame).collect();
        let abouts = || visit.complaints.iter().map(|of| of.about);
        let not_the_bar =
            |of: Concern| of.advice().outcomes.first() == Some(&concern::Outcome::NotTheBar);
        if self.wanted.is_empty() && abouts().next().is_some() && abouts().all(not_the_bar) {
            let said = abouts().flat_map(|of| of.advice().said).map(|&said| Reason::Said(said));
            all.push(without(Step::NotTheBar, said.collect()));
        }
        if let Some(held) = held {
            all.push(without(Step::Saddle, vec![Reason::SaddleFirst(held)]));
        }
        if !frame.is_empty() {
            all.push(without(Step::TheFrame, frame));
        }
        all
    }

    /// What goes with what brought the client, each once.
    fn must_say(visit: &Visit, held: Option<Held>) -> Vec<Reason> {
        let unread = visit.body.is_empty().then_some(Reason::NothingRead);
        let held = held.map(Reason::SaddleFirst);
        let mut all: Vec<Reason> = unread.into_iter().chain(held).collect();
        for said in visit.complaints.iter().flat_map(|of| of.about.advice().said) {
            let said = Reason::Said(*said);
            if !all.contains(&said) {
                all.push(said);
            }
        }
        all
    }
}

/// A visit with more on its bench than the document has.
pub(super) struct Bench {
    pub(super) visit: Visit,
}

impl Bench {
    /// With nothing more yet.
    pub(super) fn of(visit: &Visit) -> Self {
        Self { visit: visit.clone() }
    }

    /// Puts a cockpit on it whose dearest change is that job, under a name of its own, and gives its
    /// id.
    pub(super) fn add(
        &mut self,
        (job, cockpit): (Job, &Cockpit),
        base: &Cockpit,
        words: &dyn Words,
    ) -> String {
        let id = free_id(&self.visit, Step::Cockpit(job).id());
        let taken = |label: &str| self.visit.cockpits().any(|of| of.label == label);
        let label =
            free_label(&words.answer_title(&Work::between(base, cockpit), base, cockpit), taken);
        let cockpit = cockpit.with_name(&id, &label);
        self.visit.bench.push(Cockpit { ridden: false, ..cockpit });
        id
    }
}

/// Whether two cockpits are the same but for name and whether they were ridden.
fn is_same(one: &Cockpit, other: &Cockpit) -> bool {
    Cockpit { ridden: other.ridden, ..one.with_name(&other.id, &other.label) } == *other
}

/// The trials on which a complaint was met and none got as much worse, which the client neither
/// dislikes nor will not have; the one that did most first.
fn met(visit: &Visit) -> Vec<(&Ride, RideScore)> {
    let refused = |ride: &Ride| {
        ride.likes == Some(Liking::Dislikes)
            || visit.veto(&ride.cockpit).is_some()
            || got_worse(ride).any(|score| fell_by(score).is_some_and(|by| by <= -MET))
    };
    let of_another =
        visit.rides.iter().filter(|ride| !visit.is_ride_of(ride, &visit.as_it_came.id));
    let mut all: Vec<(&Ride, RideScore)> = of_another
        .filter(|ride| !refused(ride))
        .filter_map(|ride| {
            let fell = |of: &&RideScore| fell_by(**of).is_some_and(|by| by >= MET);
            Some((ride, *ride.scores.iter().filter(fell).max_by_key(|of| fell_by(**of))?))
        })
        .collect();
    all.sort_by_key(|(_, score)| core::cmp::Reverse(fell_by(*score)));
    all
}

/// What was worse after a trial than before.
fn got_worse(ride: &Ride) -> impl Iterator<Item = RideScore> {
    ride.scores.iter().copied().filter(|score| fell_by(*score).is_some_and(|by| by < 0))
}

/// The score of a trial that changed nothing: every complaint that was asked is as bad or worse.
fn in_vain(ride: &Ride) -> Option<RideScore> {
    let asked: Vec<&RideScore> =
        ride.scores.iter().filter(|score| fell_by(**score).is_some()).collect();
    let vain = asked.iter().all(|score| fell_by(**score).is_some_and(|by| by <= 0));
    asked.first().filter(|_| vain).map(|score| **score)
}

fn fell_by(score: RideScore) -> Option<i16> {
    Some(i16::from(score.before?) - i16::from(score.after?))
}

fn ridden_in_vain(visit: &Visit, cockpit: &Cockpit) -> bool {
    visit.rides.iter().any(|ride| {
        in_vain(ride).is_some()
            && visit.cockpit(&ride.cockpit).is_some_and(|ridden| is_same(ridden, cockpit))
    })
}

fn ridden(score: RideScore) -> Reason {
    let (before, after) = (score.before.unwrap_or(0), score.after.unwrap_or(0));
    Reason::Ridden { about: score.about, before, after }
}

fn ridden_worse(score: RideScore) -> Reason {
    let (before, after) = (score.before.unwrap_or(0), score.after.unwrap_or(0));
    Reason::RiddenWorse { about: score.about, before, after }
}

fn ridden_in_vain_of(score: RideScore) -> Reason {
    let (before, after) = (score.before.unwrap_or(0), score.after.unwrap_or(0));
    Reason::RiddenInVain { about: score.about, before, after }
}
