//! From what a search found to what is told: answers in order, each weighed like any cockpit of the
//! bench and with its reasons; what the client said of a ridden trial outranks what was computed.

use super::alike::{ALIKE_MM, ridden_in_vain_near};
use super::as_it_is::Beside;
use super::beats::{Beaten, Found};
use super::reason::Reason;
use super::rules::Common;
pub(super) use super::search::base as base_of;
use super::search::{Ask, Counted, Outcome, Sought};
use crate::frame_question::{FrameQuestion, frame_questions};
use crate::table::{Question, whole};
use crate::weigh::{Weighed, WeighedCockpit, weigh_visit};
use crate::words::Words;
use core::cmp::Ordering;
use fit_doc::concern::{self, Held, held_back};
use fit_doc::edit::{free_id, free_label};
use fit_doc::work::{Job, Work};
use fit_doc::{
    Aim, Bar, Cockpit, Concern, HandPlace, Liking, Message, Ride, RideScore, Session, Visit,
};
use fit_math::body::Survey;
use std::sync::Arc;

/// A complaint that fell by so many of ten was met: the client stops there (common practice, no
/// source).
const MET: i16 = 3;
/// Hands that are asked to come back or up further than this are the frame's business, mm (common
/// practice, no source).
const FRAME_BACK_MM: f64 = 30.0;

/// Bars that differ by less go the same way: as much as catalogues are off, mm (common practice, no
/// source).
const SAME_BAR_MM: f64 = 3.0;
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
    /// The answer of the same idea that stands before it, by its place among the answers.
    pub like: Option<usize>,
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
    /// How many take more than another answer and do no more of what is asked, by an amount that tells.
    pub no_more: usize,
    /// How many put the hands where they were on a trial that did no good.
    pub ridden_alike: usize,
}

impl Answer {
    /// It is a cockpit for which something has to be done.
    pub fn is_something_to_do(&self) -> bool {
        self.cockpit.is_some() && !self.work.is_none()
    }
}

impl Advice {
    /// The answers that differ, each with its place among all of them; what is like one is told with it.
    pub fn ideas(&self) -> impl Iterator<Item = (usize, &Answer)> {
        self.answers.iter().enumerate().filter(|(_, of)| of.like.is_none())
    }

    /// Those that are of the same idea as the one at that place.
    pub fn like(&self, at: usize) -> impl Iterator<Item = (usize, &Answer)> {
        self.answers.iter().enumerate().filter(move |(_, of)| of.like == Some(at))
    }

    /// What is said once of all answers: what must be known before they are read, and what goes with
    /// the client's complaints after them.
    pub fn said_before_and_after(&self) -> (Vec<&Reason>, Vec<&Reason>) {
        self.said.iter().partition(|of| of.comes_before())
    }
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
            visit.vetoes.iter().filter_map(of).any(|of| of.is_set_up_as(cockpit))
        };
        let frame = session.bike(&visit.bike).map(|bike| &bike.frame);
        let near = |of: &Cockpit| ridden_in_vain_near(visit, frame?, &self.wanted, of);
        let alike = |of: &Cockpit| near(of).is_some_and(|(_, mm)| mm < ALIKE_MM);
        let may = |sought: &&Sought| {
            let waits = held.is_some() && sought.job == Job::OtherBar;
            let of = &sought.cockpit;
            !waits && !vetoed(of) && !ridden_in_vain(visit, of) && !alike(of)
        };
        let ridden_alike = outcome.sought.iter().filter(|of| alike(&of.cockpit)).count();
        let best = outcome.sought.iter().filter(may).take(WEIGHED.max(2 * most)).cloned();
        let mut best = self.lean((session, visit, survey), best.collect(), words)?;
        best.retain(|of| may(&of));
        // what each job does by itself is weighed as well: why the obvious is not the answer
        let others = &outcome.single;
        let mut bench = Bench::of(visit);
        let mut put = |sought: &Sought| bench.add((sought.job, &sought.cockpit), &self.base, words);
        let ids: Vec<String> = best.iter().map(&mut put).collect();
        let mut beside: Vec<(Job, String)> = Vec::new();
        for sought in others {
            let there = best.iter().position(|of| of.cockpit.is_set_up_as(&sought.cockpit));
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
        let common = Common {
            weighed: &weighed,
            visit,
            wanted: &self.wanted,
            other_hoods: self.other_hoods,
            base,
            others: &beside,
        };
        let about = |to: &WeighedCockpit| {
            let work = Work::between(&self.base, &to.parts);
            let reasons = common.reasons(to, &work);
            (work, reasons)
        };
        let (mut answers, mut too_small) = (Vec::<Answer>::new(), 0);
        for (ride, score) in met(visit) {
            let Some(to) = find(&ride.cockpit) else { continue };
            let (work, mut reasons) = about(to);
            let Some(job) = work.steps.iter().map(|step| step.job).max() else { continue };
            tell_ride(ride, Some(score), &mut reasons);
            let cockpit = Some(to.parts.clone());
            let step = Step::Cockpit(job);
            answers.push(Answer { step, cockpit, work, reasons, ridden: true, like: None });
        }
        let mut found = Beaten { common, found: Vec::new(), no_more: 0 };
        for (sought, id) in best.iter().zip(&ids) {
            let Some(to) = find(id) else { continue };
            let twice =
                |of: &Answer| of.cockpit.as_ref().is_some_and(|of| of.is_set_up_as(&to.parts));
            if answers.iter().any(twice) {
                continue;
            }
            let (work, reasons) = about(to);
            // nothing is an answer that nothing which tells speaks for
            if !reasons.iter().any(Reason::is_about_an_aim) {
                too_small += 1;
                continue;
            }
            found.take(Found { job: sought.job, to, work, reasons });
        }
        let Beaten { found, no_more, .. } = found;
        let mut ideas: Vec<Idea> = Vec::new();
        for Found { job, to, work, mut reasons } in found {
            // so many are told that differ; what is like one of them is told with it
            let idea = Idea::of(job, &reasons, &self.base, &to.parts);
            if !ideas.contains(&idea) {
                if ideas.len() == most {
                    continue;
                }
                ideas.push(idea);
            }
            let ride = visit.rides.iter().rfind(|ride| {
                let of = visit.cockpit(&ride.cockpit).filter(|_| ride.ended);
                of.is_some_and(|of| of.is_set_up_as(&to.parts))
            });
            let ridden = ride.is_some();
            if let Some(ride) = ride {
                tell_ride(ride, None, &mut reasons);
            } else if let Some((score, _)) = near(&to.parts) {
                reasons.push(ridden_in_vain_of(score));
            }
            let (step, cockpit) = (Step::Cockpit(job), Some(to.parts.clone()));
            answers.push(Answer { step, cockpit, work, reasons, ridden, like: None });
        }
        let nothing = answers.is_empty();
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
        answers.extend(Self::not_the_bar_either(visit));
        answers.push(self.as_it_is(visit, why));
        let mut all = self.elsewhere(visit, &weighed, base, &answers, held);
        all.append(&mut answers);
        let mut said = Self::must_say(visit);
        if nothing && !self.wanted.is_empty() {
            let bars = outcome.sought.iter().any(|of| of.job == Job::OtherBar);
            said.insert(0, held.filter(|_| bars).map_or(Reason::NothingDoes, Reason::OnlyBars));
        }
        said_once(&mut all, &mut said);
        fold(&mut all, &self.base);
        let counted = outcome.counted.clone();
        Ok(Advice { answers: all, said, counted, too_small, no_more, ridden_alike, weighed })
    }

    /// Advice about a bench of which nothing can be told.
    fn nothing(weighed: Arc<Weighed>, outcome: &Outcome) -> Advice {
        Advice {
            answers: Vec::new(),
            said: Vec::new(),
            weighed,
            counted: outcome.counted.clone(),
            too_small: 0,
            no_more: 0,
            ridden_alike: 0,
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
        Answer { step: Step::AsItIs, cockpit, work, reasons, ridden, like: None }
    }

    /// That it is not the bar, behind what may be done at the levers: where that is known of all that is
    /// complained of.
    fn not_the_bar_either(visit: &Visit) -> Option<Answer> {
        let from_hoods = |of: &fit_doc::Complaint| of.about == Concern::BrakesFromHoods;
        let all = !visit.complaints.is_empty() && visit.complaints.iter().all(from_hoods);
        let reasons = vec![Reason::Said(concern::Said::NotTheBarFromHoods)];
        let (step, work) = (Step::NotTheBar, Work::default());
        all.then_some(Answer { step, cockpit: None, work, reasons, ridden: false, like: None })
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
            like: None,
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
    fn must_say(visit: &Visit) -> Vec<Reason> {
        let bike = visit.tape.readings.is_empty() && !visit.tape.frame_known;
        let unread = visit.body.is_empty().then_some(Reason::NothingRead { bike });
        let mut all: Vec<Reason> = unread.into_iter().collect();
        let excluded = held_back(visit).is_none();
        let after = |of: &&concern::Said| !(excluded && **of == concern::Said::SaddleFirst);
        let said = visit.complaints.iter().flat_map(|of| of.about.advice().said);
        for said in said.filter(after) {
            let said = Reason::Said(*said);
            if !all.contains(&said) {
                all.push(said);
            }
        }
        all
    }
}

/// What makes two answers one idea: the dearest part that is touched, what gets better by it, and of
/// another bar which way its width, drop and reach go.
#[derive(Debug, PartialEq)]
struct Idea {
    job: Job,
    better: Vec<(&'static str, Option<Question>)>,
    bar: [Ordering; 3],
}

impl Idea {
    fn of(job: Job, reasons: &[Reason], base: &Cockpit, to: &Cockpit) -> Self {
        let better = reasons.iter().filter(|of| of.is_about_an_aim());
        let mut better: Vec<_> = better.map(|of| (of.rule(), of.behind())).collect();
        better.sort_unstable();
        better.dedup();
        let way = |of: fn(&Bar) -> f64| {
            let by = of(&to.bar) - of(&base.bar);
            if by.abs() < SAME_BAR_MM { Ordering::Equal } else { by.total_cmp(&0.0) }
        };
        let bar = [way(|of| of.width_mm), way(|of| of.drop_mm), way(|of| of.reach_mm)];
        Self { job, better, bar }
    }
}

/// Says of each answer which one of the same idea stands before it; one that was ridden stands for
/// itself.
fn fold(answers: &mut [Answer], base: &Cockpit) {
    let mut first: Vec<(usize, Idea)> = Vec::new();
    for (at, answer) in answers.iter_mut().enumerate() {
        let Step::Cockpit(job) = answer.step else { continue };
        let Some(to) = answer.cockpit.as_ref().filter(|_| !answer.ridden) else { continue };
        let idea = Idea::of(job, &answer.reasons, base, to);
        match first.iter().find(|(_, of)| *of == idea) {
            Some((before, _)) => answer.like = Some(*before),
            None => first.push((at, idea)),
        }
    }
}

/// What is the same of all answers is said of none of them, but once before all.
fn said_once(answers: &mut [Answer], said: &mut Vec<Reason>) {
    for answer in answers {
        for of in answer.reasons.extract_if(.., |of| of.is_of_all()) {
            if !said.contains(&of) {
                said.push(of);
            }
        }
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

/// Says of an answer what came of the trial of it: first what fell most, then what else fell or stayed,
/// last what got worse and what nobody asked.
fn tell_ride(ride: &Ride, first: Option<RideScore>, reasons: &mut Vec<Reason>) {
    let others = ride.scores.iter().copied().filter(|of| Some(*of) != first);
    let no_worse = others.filter(|of| fell_by(*of).is_some_and(|by| by >= 0));
    let told: Vec<Reason> = first.into_iter().chain(no_worse).map(ridden).collect();
    reasons.splice(0..0, told);
    reasons.extend(got_worse(ride).map(ridden_worse));
    let not_asked = ride.scores.iter().filter(|of| of.after.is_none());
    reasons.extend(not_asked.map(|of| Reason::NotAsked { about: of.about }));
}

/// What was worse after a trial than before.
fn got_worse(ride: &Ride) -> impl Iterator<Item = RideScore> {
    ride.scores.iter().copied().filter(|score| fell_by(*score).is_some_and(|by| by < 0))
}

/// The score of a trial that changed nothing: every complaint that was asked is as bad or worse.
pub(super) fn in_vain(ride: &Ride) -> Option<RideScore> {
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
            && visit.cockpit(&ride.cockpit).is_some_and(|ridden| ridden.is_set_up_as(cockpit))
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
