//! From what a search found to what is told: answers in order, each weighed like any cockpit of the
//! bench and with its reasons; what the client said of a ridden trial outranks what was computed.

use super::alike::Near;
use super::alone::take_back;
use super::as_it_is::Beside;
use super::beats::{Beaten, Found};
use super::idea::{Idea, fold};
use super::most::Most;
use super::reason::Reason;
use super::ridden::{in_vain, last_ride, met, ridden_in_vain_of, tell_ride};
use super::rules::{Common, FELT_MM, hands_higher, row_of, rules_left};
pub(super) use super::search::base as base_of;
use super::search::{Ask, Counted, Outcome, Sought};
use super::shallower::{GivenUp, ToOrder, is_free_raise, would_order};
use super::stops::lifts_head;
use super::tipped::tipped_out;
use super::worst::worse_first;
use crate::frame_question::{FrameQuestion, frame_questions};
use crate::table::{Axis, Question, whole};
use crate::weigh::{NotAsRead, Weighed, WeighedCockpit, not_as_read, tape, weigh_visit};
use crate::words::{LaterText, Words};
use fit_doc::concern::{self, Held, held_back, stopped_by};
use fit_doc::edit::{free_id, free_label, free_label_among};
use fit_doc::work::{Job, Work};
use fit_doc::{
    Aim, Bar, Cockpit, Concern, HandPlace, Message, Ride, RideScore, Session, Stays, Visit, Wanted,
};
use fit_math::body::Survey;
use std::sync::Arc;

/// Hands that are asked to come back or up further than this are the frame's business, mm (common
/// practice, no source).
const FRAME_BACK_MM: f64 = 30.0;

/// So many of what was found are weighed, so that enough are left of which something tells.
const WEIGHED: usize = 16;

/// So many ideas that change the cockpit are told unless somebody says how many: as many as are compared
/// in one visit (judgement).
pub const IDEAS: usize = 6;

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
    /// What has slipped since the visit before is put back; the dearest change is that job.
    PutBack(Job),
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
            Self::PutBack(job) => Self::Cockpit(job).id(),
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
    /// The best of what each job does by itself, and the most for each row that is asked about, by ids among
    /// what was weighed.
    pub(super) alone: Vec<(Job, String)>,
    /// How many take more than another answer and do no more of what is asked, by an amount that tells.
    pub no_more: usize,
    /// How many tip the hand too far where it lies much.
    pub tipped: usize,
    /// How many would lift the head further for a client who gets dizzy by that.
    pub lifted: usize,
    /// How many put the hands where they were on a trial that did no good.
    pub ridden_alike: usize,
    /// What is not asked any more, since nothing in the shop does it.
    pub given_up: Option<GivenUp>,
}

impl Answer {
    /// The bar that it puts in the place of the one there.
    pub fn other_bar(&self) -> Option<&Bar> {
        let other = self.work.steps.iter().any(|step| step.job == Job::OtherBar);
        self.cockpit.as_ref().map(|of| &of.bar).filter(|_| other)
    }

    /// It is a cockpit for which something has to be done.
    pub fn is_something_to_do(&self) -> bool {
        self.cockpit.is_some() && !self.work.is_none()
    }
}

/// What is worth telling of what was found, and how many are not.
pub(super) struct Worth<'a> {
    pub(super) found: Vec<Found<'a>>,
    too_small: usize,
    no_more: usize,
    tipped: usize,
    pub(super) lifted: usize,
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

    /// What that job does by itself, by ids among what was weighed: the best of it, and the most for each row
    /// that is asked about.
    pub(super) fn alone(&self, job: Job) -> impl Iterator<Item = &str> {
        self.alone.iter().filter(move |(of, _)| *of == job).map(|(_, id)| id.as_str())
    }

    /// What is said once of all answers: what must be known before they are read, and what goes with
    /// the client's complaints after them.
    pub fn said_before_and_after(&self) -> (Vec<&Reason>, Vec<&Reason>) {
        self.said.iter().partition(|of| of.comes_before())
    }
}

impl Ask {
    /// What is told of an outcome, of at most so many ideas that change the cockpit: what is like one of
    /// them, what was ridden, and the answers that are no change stand besides.
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
        if stopped_by(visit).is_some() {
            return self.stopped((session, visit), survey, outcome);
        }
        let held = held_back(visit);
        let near = self.near(session, visit);
        let may = |sought: &&Sought| near.may(sought.job, &sought.cockpit);
        let ridden_alike = outcome.sought.iter().filter(|of| near.is_alike(&of.cockpit)).count();
        let best = outcome.sought.iter().filter(may).take(WEIGHED.max(2 * most)).cloned();
        // what keeps the hoods where they are does nothing else, and is left in
        let mut best = if self.new_bar {
            best.collect()
        } else {
            let of = (session, visit, survey);
            self.steady(of, self.lean(of, best.collect(), words)?, words)?
        };
        best.retain(|of| may(&of));
        let (mut bench, ids, alone) = self.on_a_bench(visit, &best, outcome, words);
        let left = session.slipped_from(visit).map(|left| bench.put_back(left, &self.base, words));
        let weighed = Arc::new(weighed_surely(session, &bench.visit, survey)?);
        let find = |id: &str| weighed.cockpits.iter().find(|of| of.id == id);
        let Some(base) = base_of(&weighed) else {
            return Ok(self.nothing(weighed, outcome));
        };
        let others: Vec<(Job, &WeighedCockpit)> =
            alone.iter().filter_map(|(job, id)| Some((*job, find(id)?))).collect();
        let common = self.common(&weighed, visit, base, &others);
        let mut answers = self.ridden(visit, common);
        let found = best.iter().zip(&ids).filter_map(|(of, id)| Some((of.job, find(id)?)));
        let to = left.as_ref().and_then(|id| find(id)).filter(|to| visit.veto(&to.id).is_none());
        let put_back = to.and_then(|to| self.put_back((session, visit), common, to));
        let is_put_back = |to: &Cockpit| {
            let back = put_back.as_ref().and_then(|of| of.cockpit.as_ref());
            back.is_some_and(|back| back.is_set_up_as(to))
        };
        answers.retain(|of| of.cockpit.as_ref().is_none_or(|to| !is_put_back(to)));
        let twice = |to: &Cockpit| {
            answers.iter().any(|of| of.cockpit.as_ref().is_some_and(|of| of.is_set_up_as(to)))
        };
        let found = found.filter(|(_, to)| !twice(&to.parts) && !is_put_back(&to.parts)).collect();
        let Worth { found, too_small, no_more, tipped, lifted } = self.worth_telling(common, found);
        answers.append(&mut self.differing(common, found, most, &near));
        take_back(&mut answers);
        let nothing = answers.is_empty();
        let mut steps: Vec<&WeighedCockpit> = ids.iter().filter_map(|id| find(id)).collect();
        steps.extend(others.iter().map(|(_, of)| *of));
        let (wanted, looked) = (&self.wanted, outcome.counted.looked_through());
        let found = Beside { weighed: &weighed, wanted, base, looked, steps: &steps };
        // what waits, or is not wanted, may well be worth it
        let waits = outcome.sought.iter().any(|sought| !may(&sought));
        let why = (nothing && !waits).then(|| found.nothing_beats_it());
        answers.extend(Self::not_the_bar_either(visit));
        let stays = self.as_it_is(visit, base, why);
        answers.insert(if self.new_bar { 0 } else { answers.len() }, stays);
        let mut all: Vec<Answer> = put_back.into_iter().collect();
        all.append(&mut self.elsewhere(visit, &weighed, base, &answers, held));
        all.append(&mut answers);
        let mut said = Self::must_say(session, visit);
        said.splice(0..0, self.exclude_each_other());
        // free, and nothing that a shop has
        said.splice(0..0, self.wants_slimmer().then_some(Reason::BendElbowsFirst));
        if nothing && !self.wanted.is_empty() {
            let bars = outcome.sought.iter().any(|of| of.job == Job::OtherBar);
            said.insert(0, held.filter(|_| bars).map_or(Reason::NothingDoes, Reason::OnlyBars));
        }
        // what waits, or was refused, is in the shop
        let has_bar = answers_have(&all, Job::OtherBar)
            || outcome.sought.iter().any(|of| of.job == Job::OtherBar && !may(&of));
        let ordered = || would_order(&self.wanted, &self.base, &self.held).filter(|_| !has_bar);
        let to_order = self.to_order.or_else(ordered);
        said.splice(0..0, to_order.filter(|_| !self.held.stays(Stays::Bar)).map(no_shallower_bar));
        // where somebody is sent stands before all else
        said.sort_by_key(|of| !matches!(of, Reason::SendOn(_)));
        said_once(&mut all, &mut said);
        fold(&mut all, &self.base, |work| self.effort.work(work));
        // which of them is the first is only known now
        let first = all.iter().find(|of| of.is_something_to_do());
        let gives_up = first.and_then(|of| {
            found.gives_up(find(&of.cockpit.as_ref()?.id)?, &words.answer(of, &self.base))
        });
        if let Some(stays) = all.iter_mut().find(|of| of.step == Step::AsItIs) {
            stays.reasons.splice(0..0, gives_up);
        }
        let counted = outcome.counted.clone();
        Ok(Advice {
            answers: all,
            said,
            weighed,
            counted,
            too_small,
            no_more,
            tipped,
            lifted,
            ridden_alike,
            given_up: self.given_up(),
            alone,
        })
    }

    /// Two wishes of which whatever does the one undoes the other.
    fn exclude_each_other(&self) -> Option<Reason> {
        let rows: Vec<(Wanted, (Question, i64))> =
            self.wanted.iter().filter_map(|of| Some((*of, row_of(of)?))).collect();
        rows.iter().enumerate().find_map(|(at, (one, (row, way)))| {
            let other =
                |(_, (of, against)): &&(Wanted, (Question, i64))| of == row && *against == -way;
            let (other, _) = rows[at..].iter().find(other)?;
            Some(Reason::ExcludeEachOther { wishes: [*one, *other] })
        })
    }

    /// What is not asked any more, since no bar that may be offered does it.
    pub(super) fn given_up(&self) -> Option<GivenUp> {
        let of = self.to_order.filter(|of| of.is_raised)?;
        Some(GivenUp { wanted: Wanted::new(Aim::HoodsStay), by: of.left_nothing })
    }

    /// What was found on a bench beside what is there, each by its id there; and what each job does by
    /// itself as well: why the obvious is not the answer.
    fn on_a_bench(
        &self,
        visit: &Visit,
        best: &[Sought],
        outcome: &Outcome,
        words: &dyn Words,
    ) -> (Bench, Vec<String>, Vec<(Job, String)>) {
        let mut bench = Bench::of(visit);
        let mut put = |sought: &Sought| bench.add((sought.job, &sought.cockpit), &self.base, words);
        let ids: Vec<String> = best.iter().map(&mut put).collect();
        let mut alone: Vec<(Job, String)> = Vec::new();
        for sought in &outcome.single {
            let there = best.iter().position(|of| of.cockpit.is_set_up_as(&sought.cockpit));
            let id = there.map_or_else(|| put(sought), |at| ids[at].clone());
            alone.push((sought.job, id));
        }
        for Most { job, cockpit } in &outcome.most {
            let there = bench.visit.bench.iter().find(|of| of.is_set_up_as(cockpit));
            let there = there.map(|of| of.id.clone());
            let id = there.unwrap_or_else(|| bench.add((*job, cockpit), &self.base, words));
            if !alone.iter().any(|(_, known)| *known == id) {
                alone.push((*job, id));
            }
        }
        (bench, ids, alone)
    }

    /// What trials that did no good say of cockpits on the visit's bike.
    pub(super) fn near<'a>(&'a self, session: &'a Session, visit: &'a Visit) -> Near<'a> {
        Near { visit, frame: session.bike(&visit.bike).map(|of| &of.frame), ask: self }
    }

    /// What a rule may look at of every answer.
    pub(super) fn common<'a>(
        &'a self,
        weighed: &'a Weighed,
        visit: &'a Visit,
        base: &'a WeighedCockpit,
        others: &'a [(Job, &'a WeighedCockpit)],
    ) -> Common<'a> {
        let (wanted, other_hoods) = (&self.wanted, self.other_hoods);
        Common { weighed, visit, wanted, other_hoods, base, others }
    }

    /// What has slipped is put back before anything else is tried: what was said at the visit before was
    /// said of the bike as it was left.
    fn put_back(
        &self,
        (session, visit): (&Session, &Visit),
        common: Common<'_>,
        to: &WeighedCockpit,
    ) -> Option<Answer> {
        let before = session.before(visit)?;
        let work = Work::between(&self.base, &to.parts);
        let step = Step::PutBack(work.steps.iter().map(|step| step.job).max()?);
        let mut reasons = common.reasons(to, &work);
        reasons.retain(|of| *of != Reason::RideIt);
        let number = session.index_of(before).and_then(|at| session.number_that_day(at));
        reasons.insert(0, Reason::AsLeft { date: before.date, number });
        let ride = last_ride(visit, &to.parts);
        if let Some(ride) = ride {
            tell_ride(ride, None, &mut reasons);
        }
        let cockpit = Some(to.parts.clone());
        Some(Answer { step, cockpit, work, reasons, ridden: ride.is_some(), like: None })
    }

    /// What met a complaint when it was ridden.
    fn ridden(&self, visit: &Visit, common: Common<'_>) -> Vec<Answer> {
        let answer = |(ride, score): (&Ride, RideScore)| {
            let to = common.weighed.cockpits.iter().find(|of| of.id == ride.cockpit)?;
            let work = Work::between(&self.base, &to.parts);
            let step = Step::Cockpit(work.steps.iter().map(|step| step.job).max()?);
            let mut reasons = common.reasons(to, &work);
            tell_ride(ride, Some(score), &mut reasons);
            let cockpit = Some(to.parts.clone());
            Some(Answer { step, cockpit, work, reasons, ridden: true, like: None })
        };
        met(visit).into_iter().filter_map(answer).collect()
    }

    /// Those of which something tells, that tip no hand too far and that nothing cheaper beats; and how many
    /// did not come so far.
    pub(super) fn worth_telling<'a>(
        &self,
        common: Common<'a>,
        found: Vec<(Job, &'a WeighedCockpit)>,
    ) -> Worth<'a> {
        let mut beaten = Beaten { common, found: Vec::new(), no_more: 0 };
        let (mut too_small, mut tipped, mut lifted) = (0, 0, 0);
        // what is told with too small a change stands behind what tells
        let mut behind = Vec::new();
        for (job, to) in found {
            let work = Work::between(&self.base, &to.parts);
            let mut reasons = common.reasons(to, &work);
            // as far apart as they were, too
            let held =
                |of: &Reason| matches!(of, Reason::HoodsHeld { out_mm } if out_mm.abs() < FELT_MM);
            let matches = self.new_bar && reasons.iter().any(held);
            if tipped_out(common, to, job).is_some() {
                tipped += 1;
            } else if lifts_head(common, to) {
                lifted += 1;
            } else if matches {
                // none of several that match is beaten: which of them is wanted the client says
                beaten.found.push(Found { job, to, work, reasons });
            } else if self.speaks_for(&reasons, job) {
                beaten.take(Found { job, to, work, reasons });
            } else if self.is_told_with_what_it_does(&to.parts, &work, &reasons) {
                reasons.splice(0..0, hands_higher(&common.case(to, &work)));
                behind.push(Found { job, to, work, reasons });
            } else {
                too_small += 1;
            }
        }
        for of in behind {
            beaten.take(of);
        }
        let Beaten { found, no_more, .. } = beaten;
        Worth { found, too_small, no_more, tipped, lifted }
    }

    /// Whether something speaks for an answer by what is asked. A bar that has the drops less deep under hoods
    /// that stay does that, whatever else it does.
    fn speaks_for(&self, reasons: &[Reason], job: Job) -> bool {
        let asks = |aim| self.wanted.iter().any(|of| of.aim == aim);
        let higher = |of: &Reason| match of {
            Reason::Better { question, .. } => {
                *question == Question::Moved(HandPlace::Drops, Axis::Up)
            }
            _ => false,
        };
        if job == Job::OtherBar && asks(Aim::EaseDrops) && asks(Aim::HoodsStay) {
            return reasons.iter().any(higher);
        }
        reasons.iter().any(Reason::is_about_an_aim)
    }

    /// Where no bar does it, or the bar stays, the free steps that raise are told also where what they do is
    /// too small to tell: with that said of them.
    fn is_told_with_what_it_does(&self, to: &Cockpit, work: &Work, reasons: &[Reason]) -> bool {
        let raised = self.to_order.is_some_and(|of| of.is_raised);
        let no_bar = raised || self.held.stays(Stays::Bar);
        let some = |of: &Reason| matches!(of, Reason::TooSmall { .. });
        no_bar && is_free_raise(&self.base, to, work) && reasons.iter().any(some)
    }

    /// So many are told that differ; what is like one of them is told with it.
    fn differing(
        &self,
        common: Common<'_>,
        mut found: Vec<Found<'_>>,
        most: usize,
        near: &Near<'_>,
    ) -> Vec<Answer> {
        let mut ideas: Vec<Idea> = Vec::new();
        found.retain(|of| {
            let idea = Idea::of(of.job, &of.reasons, &self.base, &of.to.parts);
            let is_told = ideas.contains(&idea) || ideas.len() < most;
            if is_told && !ideas.contains(&idea) {
                ideas.push(idea);
            }
            is_told
        });
        let answer = |Found { job, to, work, mut reasons }: Found<'_>| {
            let ride = last_ride(common.visit, &to.parts);
            if let Some(ride) = ride {
                tell_ride(ride, None, &mut reasons);
            } else if let Some((score, _)) = near.in_vain(&to.parts) {
                reasons.push(ridden_in_vain_of(score));
            }
            let (step, ridden) = (Step::Cockpit(job), ride.is_some());
            let cockpit = Some(to.parts.clone());
            Answer { step, cockpit, work, reasons, ridden, like: None }
        };
        worse_first(common, found).into_iter().map(answer).collect()
    }

    /// Advice about a bench of which nothing can be told.
    pub(super) fn nothing(&self, weighed: Arc<Weighed>, outcome: &Outcome) -> Advice {
        Advice {
            answers: Vec::new(),
            said: Vec::new(),
            weighed,
            counted: outcome.counted.clone(),
            too_small: 0,
            no_more: 0,
            tipped: 0,
            lifted: 0,
            ridden_alike: 0,
            given_up: self.given_up(),
            alone: Vec::new(),
        }
    }

    /// Leave it: with why nothing beats it, or what that gives up.
    fn as_it_is(&self, visit: &Visit, base: &WeighedCockpit, why: Option<Reason>) -> Answer {
        let others = visit.rides.iter().filter(|ride| !visit.is_ride_of(ride, &self.base.id));
        let in_vain = others.filter_map(|ride| Some((ride, in_vain(ride)?)));
        let in_vain = in_vain.map(|(_, score)| ridden_in_vain_of(score));
        let mut reasons: Vec<Reason> =
            why.into_iter().chain(in_vain).chain(rules_left(visit, base)).collect();
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
    fn must_say(session: &Session, visit: &Visit) -> Vec<Reason> {
        let bike = visit.tape.readings.is_empty() && !visit.tape.frame_known;
        let unread = visit.body_is_unread().then_some(Reason::NothingRead { bike });
        let sent_on = concern::sent_on(visit).into_iter().map(Reason::SendOn);
        let drawn = not_as_read(session, visit, tape(session, visit).as_ref())
            // said with the body already
            .filter(|why| !(unread.is_some() && bike && *why == NotAsRead::NothingRead))
            .map(Reason::BikeNotAsRead);
        let left = concern::not_looked_at(visit).into_iter();
        let left = left.map(|(about, left)| Reason::NotLookedAt { about, left });
        let mut all: Vec<Reason> = sent_on.chain(left).chain(unread).chain(drawn).collect();
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

/// A bench weighed, with how sure its changes from the cockpit that answers are held against are: near a
/// limit slopes tell nothing, and what chance may have made is no reason.
pub(super) fn weighed_surely(
    session: &Session,
    visit: &Visit,
    survey: &Survey,
) -> Result<Weighed, Vec<Message>> {
    let mut weighed = weigh_visit(session, visit, survey)?;
    let against = base_of(&weighed).and_then(|base| weighed.place_of(base));
    if let Some(against) = against.filter(|_| weighed.is_near_a_limit()) {
        weighed.drawn = Some(Arc::new(weighed.sample_against(against)));
    }
    Ok(weighed)
}

/// What is the same of all answers is said of none of them, but once before all; and what one of them is, not
/// once more behind them.
fn said_once(answers: &mut [Answer], said: &mut Vec<Reason>) {
    let is_one = |of: &Reason| answers.iter().any(|answer| answer.reasons.contains(of));
    said.retain(|of| !matches!(of, Reason::Said(_)) || !is_one(of));
    for answer in answers {
        for of in answer.reasons.extract_if(.., |of| of.is_of_all()) {
            if !said.contains(&of) {
                said.push(of);
            }
        }
    }
}

/// Whether the dearest change of one of the answers is that job.
fn answers_have(answers: &[Answer], job: Job) -> bool {
    answers.iter().any(|of| of.step == Step::Cockpit(job))
}

/// What would be ordered, as it is said.
fn no_shallower_bar(of: ToOrder) -> Reason {
    let (from, to) = of.drop_mm;
    Reason::NoShallowerBar {
        drop_mm: (whole(from), whole(to)),
        reach_mm: whole(of.reach_mm),
        width_mm: whole(of.width_mm),
        is_limited: of.is_limited,
        is_raised: of.is_raised,
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

    /// Puts on it what the client left with, unless it is there, and gives its id. A saddle that was put right
    /// at this visit stays so.
    fn put_back(&mut self, left: &Cockpit, base: &Cockpit, words: &dyn Words) -> String {
        let put_right = self.visit.put_right.is_some();
        let saddle = if put_right { base.saddle } else { left.saddle };
        let left = Cockpit { saddle, ..left.clone() };
        if let Some(there) = self.visit.cockpits().find(|of| of.is_set_up_as(&left)) {
            return there.id.clone();
        }
        let id = free_id(&self.visit, "as-left");
        let wished = words.later(LaterText::AsItWasLeft);
        let label = free_label_among(&self.visit, None, wished);
        self.visit.bench.push(Cockpit { ridden: false, ..left.with_name(&id, &label) });
        id
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
