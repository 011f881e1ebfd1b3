//! Looks through a shop, rung by rung, on all cores; the same answers whatever their number.

use super::asked::{AskedOf, Asking, weight};
use super::effort::Effort;
use super::idea::SAME_BAR_MM;
use super::most::Most;
use super::row::First;
use super::rungs::{NotOffered, Rung, Shelf, usual_spacers_mm};
use super::shallower::ToOrder;
use super::takes;
use super::tipped::on_hoods_rad;
use crate::first_width::shoulders_mm;
use crate::table::whole;
use crate::weigh::{Weighed, WeighedCockpit};
use core::sync::atomic::{AtomicBool, AtomicU64, Ordering};
use fit_doc::work::{Job, Work};
use fit_doc::{
    Aim, Bike, Bounds, Cockpit, Concern, Counts, HandPlace, Place, Session, Stays, Stock, Visit,
    Wanted, geometry,
};
use fit_math::choose::{
    Allowed, Answer, Axis, ChooseError, Found, Front, Limited, Number, OfBar, Pick, Question,
    STEP_MM, Search, Shape, Tables, Why,
};
use fit_math::posture::Rider;
use fit_math::saddle::Seat;
use rayon::prelude::*;
use std::collections::BTreeMap;
use thiserror::Error;

/// So many are kept of each rung, so that there are several with other parts.
pub(super) const KEPT: usize = 40;
/// Of each rung so many are told that differ in their bar.
const OF_A_RUNG: usize = 3;
/// So many times as many of bars where the next narrower that tells is looked for: a size, two and three.
const SIZES: usize = 3;
/// A single step that needs no part and does this share of one of the things that are asked is tried
/// before several changes at once (common practice, no source: one change at a time; the share is
/// judgement).
const MIGHT_DO_ONE: f64 = 0.5;
/// What forks mostly take under the stem without a word of their maker, mm (from memory: many allow 30 to
/// 40); higher than that, and than it is, somebody has to look at the steerer first. What that takes, in
/// units of a whole aim: one thing more to do (judgement).
pub(super) const SURE_SPACERS_MM: f64 = 30.0;
const UNSURE: f64 = 0.03;
/// What an answer must be worth more than what is there, of a whole aim (judgement).
pub(super) const LEAST_GAIN: f64 = 0.05;
/// The shortest stem that is proposed, mm, and the same for a bike that is to be steadier: on the road
/// (common practice, no source).
const LEAST_STEM_MM: f64 = 70.0;
const LEAST_STEM_STEADY_MM: f64 = 80.0;
/// What bars measure where stems of today clamp them, less what one is off, mm: 31.8; before it were 25.4
/// to 26.0 (common practice, no source).
pub(super) const USUAL_CLAMP_MM: f64 = 31.0;
/// Half of the step in which bars are made wider, mm (common practice, no source).
const HALF_A_SIZE_MM: f64 = 10.0;
/// How much narrower than the shoulders a bar is proposed, mm: one size for comfort, three for the
/// wind (common practice, no source).
const NARROWER_MM: f64 = 20.0;
const NARROWER_FOR_WIND_MM: f64 = 60.0;

/// Why a shop cannot be looked through.
#[derive(Debug, Clone, PartialEq, Error)]
pub enum NoSearch {
    /// The bike as it came has no levers: hands on hoods and brakes cannot be told of.
    #[error("the cockpit as it came has no levers")]
    NoLevers,
    /// Nobody sits on the bike yet: a child who was not measured enough.
    #[error("the client is a child who was not measured enough")]
    NotMeasured,
    /// What was offered or asked cannot be: a fault of the program.
    #[error("the search was refused: {0}")]
    Refused(#[from] ChooseError),
}

/// How far a search is, and whether it should stop: shared with whoever waits for it.
#[derive(Debug, Default)]
pub struct Progress {
    done: AtomicU64,
    all: AtomicU64,
    stop: AtomicBool,
}

impl Progress {
    /// Parts of the work that are done, and all that are known of.
    pub fn parts(&self) -> (u64, u64) {
        (self.done.load(Ordering::Relaxed), self.all.load(Ordering::Relaxed))
    }

    /// Asks the search to stop.
    pub fn stop(&self) {
        self.stop.store(true, Ordering::Relaxed);
    }

    pub(super) fn stopped(&self) -> bool {
        self.stop.load(Ordering::Relaxed)
    }
}

/// What a search is asked: all of it by value, so that it can go to another thread.
#[derive(Debug)]
pub struct Ask {
    pub(super) wanted: Vec<Wanted>,
    /// What no answer leaves: what was said, else what is usual.
    pub(super) held: Bounds,
    pub(super) other_hoods: Option<fit_math::DVec2>,
    pub(super) base: Cockpit,
    pub(super) asked: AskedOf,
    pub(super) rider: Rider,
    pub(super) seat: Seat,
    pub(super) allowed: Vec<Allowed>,
    pub(super) effort: Effort,
    rungs: Vec<Rung>,
    /// Each job by itself.
    pub(super) single: Vec<Rung>,
    /// Single steps of one size, the best of each of which is an answer of its own.
    one_size: Vec<Rung>,
    /// Another bar with what is set in its course, and nothing else with it.
    bars_alone: Option<Rung>,
    /// Levers down the bend, with the reach screws, where a brake is complained of.
    levers_down: Option<Rung>,
    /// The way to the brake from the drops at which the fingers just reach it, mm.
    reach_mm: f64,
    not_offered: BTreeMap<NotOffered, usize>,
    base_alone: (Rung, Pick),
    /// Somebody said how many spacers there may be.
    steerer_known: bool,
    /// Nothing is wrong, and a bar is wanted that has the hoods where they are.
    pub(super) new_bar: bool,
    /// Levers turned in come first: hands, elbows or forearms hurt, and nothing that is complained of is worse.
    pub(super) turn_in_first: bool,
    /// What is tried first for hands and brakes that are complained of together.
    for_both: Option<&'static [First]>,
    /// What would be ordered where the drops are to be less deep and the shop has no bar for it.
    pub(super) to_order: Option<ToOrder>,
}

/// Something that was found.
#[derive(Debug, Clone, PartialEq)]
#[expect(
    clippy::struct_excessive_bools,
    reason = "each is asked by itself, and none excludes another"
)]
pub struct Sought {
    /// Its dearest change.
    pub job: Job,
    /// Put together; its name and id are still those of what it is compared with.
    pub cockpit: Cockpit,
    /// What it is worth less what it takes, against what is there: only to put answers in order.
    pub(super) gain: f64,
    /// What it is worth whatever it takes.
    pub(super) gross: f64,
    pub(super) jobs: Vec<Job>,
    /// It does as much of one of the things that are asked as lets it be tried before several changes.
    pub(super) might_do_one: bool,
    /// It is one step: nothing else than what is set in its course.
    pub(super) is_one_step: bool,
    /// It is one job, and nothing is set in its course that need not be.
    pub(super) is_plain: bool,
    /// It goes one size, and no further.
    pub(super) is_one_size: bool,
    /// The fingers reach the brakes in the drops.
    pub(super) reaches: bool,
    /// They do by nothing else that is free.
    pub(super) is_last_resort: bool,
}

impl Sought {
    /// Another cockpit that stands in its place; none where there is nothing to do for that.
    pub(super) fn as_cockpit(&self, ask: &Ask, cockpit: Cockpit) -> Option<Self> {
        let work = Work::between(&ask.base, &cockpit);
        let (job, jobs) = (work.steps.last()?.job, ask.jobs(&cockpit, &work));
        Some(Self { job, cockpit, jobs, is_one_step: work.steps.len() == 1, ..self.clone() })
    }
}

/// How much of the stock was looked through, and what was not.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Counted {
    /// How many assemblies there were.
    pub assemblies: u64,
    /// How many were left out, and why.
    pub left_out: BTreeMap<Why, u64>,
    /// Bars of the stock that were not offered, and why.
    pub not_offered: BTreeMap<NotOffered, usize>,
}

impl Counted {
    /// How many assemblies were not left out.
    pub fn looked_through(&self) -> u64 {
        self.assemblies.saturating_sub(self.left_out.values().sum())
    }
}

/// What came of a search.
#[derive(Debug, Clone, PartialEq)]
pub struct Outcome {
    /// What is worth more than what is there, the best first.
    pub sought: Vec<Sought>,
    /// The best that each job does by itself, worth its effort or not, the smallest job first.
    pub single: Vec<Sought>,
    /// What each job does most by itself for each row that is asked about.
    pub(super) most: Vec<Most>,
    /// How much was looked through, and what was not.
    pub counted: Counted,
}

impl Ask {
    /// What is asked of the shop for a visit; `weighed` is its bench.
    ///
    /// # Errors
    /// [`NoSearch::NoLevers`], [`NoSearch::NotMeasured`].
    pub fn new(
        session: &Session,
        visit: &Visit,
        weighed: &Weighed,
        stock: &Stock,
    ) -> Result<Self, NoSearch> {
        let mut wanted = visit.aims();
        let base = base(weighed).ok_or(NoSearch::NotMeasured)?;
        if base.places.is_empty() {
            return Err(NoSearch::NotMeasured);
        }
        let brakes = base.brakes.ok_or(NoSearch::NoLevers)?;
        let shoulders_mm = shoulders_mm(visit);
        let asking = Asking {
            visit,
            weighed,
            base,
            born: session.client_at(visit).born,
            shoulders_mm,
            other_hoods: other_hoods(session, visit),
        };
        let other_hoods = asking.other_hoods;
        let bike = &weighed.bike;
        let bounds = bounds(&visit.bounds, &wanted, base, shoulders_mm);
        let mut shelf = Shelf {
            base: &base.parts,
            base_built: &base.cockpit,
            frame: &bike.frame,
            stock,
            bounds: &bounds,
            effort: Effort::at(visit.hour),
            day: visit.date,
            covers: brakes.covers,
            brakes: asking.brakes_enough_mm(&wanted),
            spare_mm: brakes.to_spare_mm(HandPlace::Drops).map_or(0.0, |mm| mm.min(0.0)),
            hoods_brakes: wanted.iter().find_map(|of| asking.brake_from_hoods(of)),
            drops: wanted.iter().find(|of| of.aim == Aim::EaseDrops).copied(),
            neck_in_drops: wanted.iter().any(is_neck_in_drops),
            on_hoods_rad: on_hoods_rad(visit, base),
            held: held(visit, &base.parts),
            hands: numb_hands(visit),
            turn_in: hurt_by_wrists(visit),
            bars: Vec::new(),
        };
        shelf.bars = shelf.looked_at();
        let palm_mm = weighed.body.value(fit_doc::Dimension::HandBreadth);
        let to_order = shelf.to_order(visit, &mut wanted, palm_mm);
        let asked = asking.asked(&wanted);
        let base_alone = shelf.base_alone().ok_or(NoSearch::NoLevers)?;
        let (rungs, single) = (shelf.rungs(), shelf.single());
        let first = First::of(&wanted, &base.parts, turns_in_first(visit));
        let one_size = shelf.one_size(&wanted, shoulders_mm, first);
        let bars_alone = shelf.bars_alone(|_| true);
        let is_said = |of: &Wanted| of.counts != Counts::Little;
        let brakes_said = wanted.iter().any(|of| of.aim == Aim::ReachBrakes && is_said(of));
        let levers_down = brakes_said.then(|| shelf.levers_down()).flatten();
        let reach_mm = brakes.drops_mm[0].max(brakes.drops_mm[1])
            + brakes.to_spare_mm(HandPlace::Drops).unwrap_or(0.0);
        let not_offered = shelf.not_offered();
        let effort = shelf.effort;
        Ok(Self {
            wanted,
            allowed: allowed(&bounds),
            held: bounds,
            other_hoods,
            base: base.parts.clone(),
            asked,
            rider: weighed.rider.clone(),
            seat: base.seat,
            effort,
            rungs,
            single,
            one_size,
            bars_alone,
            levers_down,
            reach_mm,
            not_offered,
            base_alone,
            steerer_known: visit.bounds.spacers_mm.is_some(),
            new_bar: new_bar(visit),
            turn_in_first: turns_in_first(visit),
            for_both: for_both(visit),
            to_order,
        })
    }

    /// The rungs that are looked for besides the ladder: each job by itself, steps of one size, bars alone, and
    /// last the levers down the bend.
    fn besides(&self) -> impl Iterator<Item = &Rung> {
        let all = self.single.iter().chain(&self.one_size).chain(&self.bars_alone);
        all.chain(&self.levers_down)
    }

    /// Takes what the rung at that place among those found.
    fn take_besides(
        &self,
        at: usize,
        rung: &Rung,
        answers: &[Answer],
        here: f64,
        outcome: &mut Outcome,
    ) {
        if at < self.single.len() {
            self.take_single(rung, answers, here, outcome);
        } else if at < self.single.len() + self.one_size.len() {
            self.take_one_size(rung, answers, here, outcome);
        } else if rung.job == Job::OtherBar {
            self.take(rung, answers, here, outcome);
        } else {
            self.take_levers_down(rung, answers, here, outcome);
        }
    }

    /// What is tried first for what is asked.
    fn first(&self) -> &'static [First] {
        self.for_both.unwrap_or_else(|| First::of(&self.wanted, &self.base, self.turn_in_first))
    }

    pub(super) fn wants_slimmer(&self) -> bool {
        self.wanted.iter().any(|of| of.aim == Aim::Slimmer)
    }

    /// What a cockpit is looked for.
    pub fn wanted(&self) -> &[Wanted] {
        &self.wanted
    }

    /// The cockpit that answers are held against.
    pub fn base(&self) -> &Cockpit {
        &self.base
    }

    /// What the base is worth, and the outcome of nothing but that.
    fn begun(&self) -> Result<(f64, Outcome), NoSearch> {
        let (alone, pick) = &self.base_alone;
        let here = self.question(alone).answer(pick)?.worth;
        let not_offered = self.not_offered.clone();
        let counted = Counted { assemblies: 1, not_offered, ..Counted::default() };
        Ok((here, Outcome { sought: Vec::new(), single: Vec::new(), most: Vec::new(), counted }))
    }

    /// Looks through the shop; none where it was stopped.
    ///
    /// # Errors
    /// [`NoSearch::Refused`].
    pub fn search(&self, progress: &Progress) -> Result<Option<Outcome>, NoSearch> {
        let (here, mut outcome) = self.begun()?;
        let all: Vec<&Rung> = self.rungs.iter().chain(self.besides()).collect();
        let Some(searches) = self.searches(&all, progress)? else { return Ok(None) };
        let (searches, alone) = searches.split_at(self.rungs.len());
        for (rung, search) in self.rungs.iter().zip(searches) {
            if progress.stopped() {
                return Ok(None);
            }
            outcome.counted.assemblies += search.assemblies();
            for (why, count) in search.left_out() {
                *outcome.counted.left_out.entry(why).or_default() += count;
            }
            progress.all.fetch_add(search.chunks() as u64, Ordering::Relaxed);
            let none = || rung.none_found(KEPT, self.wants_slimmer());
            let found = (0..search.chunks())
                .into_par_iter()
                .fold(none, |mut found, chunk| {
                    if !progress.stopped() {
                        search.run(chunk, &mut found);
                        progress.done.fetch_add(1, Ordering::Relaxed);
                    }
                    found
                })
                .reduce(none, Found::joined);
            self.take(rung, found.answers(), here, &mut outcome);
        }
        for (at, (rung, search)) in self.besides().zip(alone).enumerate() {
            if progress.stopped() {
                return Ok(None);
            }
            let mut found = rung.none_found(KEPT, self.wants_slimmer());
            for chunk in 0..search.chunks() {
                search.run(chunk, &mut found);
            }
            self.take_besides(at, rung, found.answers(), here, &mut outcome);
        }
        if progress.stopped() {
            return Ok(None);
        }
        let Some(most) = self.most_of_each(progress)? else { return Ok(None) };
        outcome.most = most;
        outcome.in_order(self.first());
        Ok(Some(outcome))
    }

    /// What no other assembly beats in one of two wanted aims (by their places among the wanted), or in an
    /// aim and the minutes, where the second is none; of those with a dearest change and a cockpit that
    /// `may` be told.
    ///
    /// # Errors
    /// [`NoSearch::Refused`].
    pub fn trade_off(
        &self,
        [one, other]: [Option<usize>; 2],
        may: impl Fn(Job, &Cockpit) -> bool,
        progress: &Progress,
    ) -> Result<Option<Vec<Balance>>, NoSearch> {
        let axis = |of: Option<usize>| match of {
            None => Some(Axis::Minutes),
            Some(of) => self.asked.of.get(of)?.first().map(|aim| Axis::Aim(*aim)),
        };
        let (Some(one), Some(other)) = (axis(one), axis(other)) else {
            return Ok(Some(Vec::new()));
        };
        let mut all: Vec<Balance> = Vec::new();
        let (alone, pick) = &self.base_alone;
        let mut take = |job, cockpit: Option<Cockpit>, good: [f64; 2]| {
            all.extend(cockpit.map(|cockpit| Balance { job, cockpit, good }));
        };
        let search = Search::new(self.question(alone), &[], STEP_MM)?;
        let mut front = Front::none([one, other]);
        search.run_front(0, &mut front)?;
        for point in front.points() {
            take(Job::HandInDrops, alone.cockpit(pick), point.good);
        }
        let rungs: Vec<&Rung> = self.rungs.iter().collect();
        let Some(searches) = self.searches(&rungs, progress)? else { return Ok(None) };
        for (rung, search) in self.rungs.iter().zip(&searches) {
            if progress.stopped() {
                return Ok(None);
            }
            progress.all.fetch_add(search.chunks() as u64, Ordering::Relaxed);
            let none = || Front::none([one, other]);
            let front = (0..search.chunks())
                .into_par_iter()
                .try_fold(none, |mut front, chunk| {
                    if !progress.stopped() {
                        search.run_front(chunk, &mut front)?;
                        progress.done.fetch_add(1, Ordering::Relaxed);
                    }
                    Ok::<_, ChooseError>(front)
                })
                .try_reduce(none, |a, b| Ok(a.joined(b)))?;
            for point in front.points() {
                let cockpit = rung.cockpit(&point.pick).filter(|of| may(rung.job, of));
                take(rung.job, cockpit, point.good);
            }
        }
        if progress.stopped() {
            return Ok(None);
        }
        Ok(Some(unbeaten(all)))
    }

    /// A search for each of some rungs; none where it was stopped. The widest is made ready first, so that
    /// the postures that are solved for it serve the others, which mostly reach no further.
    fn searches<'a>(
        &'a self,
        rungs: &[&'a Rung],
        progress: &Progress,
    ) -> Result<Option<Vec<Search<'a>>>, NoSearch> {
        let mut tables = Tables::none(&self.rider, &self.seat, STEP_MM);
        let mut order: Vec<usize> = (0..rungs.len()).collect();
        order.sort_by_key(|&at| core::cmp::Reverse(rungs[at].parts()));
        let mut ready = Vec::with_capacity(rungs.len());
        for at in order {
            if progress.stopped() {
                return Ok(None);
            }
            let (shop, asked) = (&rungs[at].shop, &self.asked.asked);
            ready.push((at, Search::sharing(shop, asked, &self.allowed, &mut tables)?));
        }
        ready.sort_by_key(|(at, _)| *at);
        Ok(Some(ready.into_iter().map(|(_, search)| search).collect()))
    }

    fn question<'a>(&'a self, rung: &'a Rung) -> Question<'a> {
        Question {
            rider: &self.rider,
            seat: &self.seat,
            shop: &rung.shop,
            asked: &self.asked.asked,
        }
    }

    /// What an assembly of a rung is; none where it came out as another rung's.
    pub(super) fn sought(&self, rung: &Rung, answer: &Answer, here: f64) -> Option<Sought> {
        let cockpit = rung.cockpit(&answer.pick)?;
        let work = Work::between(&self.base, &cockpit);
        // parts that came out the same by another way belong to another rung
        work.steps.last().filter(|step| step.job == rung.job)?;
        let (jobs, gain) = (self.jobs(&cockpit, &work), answer.worth - here);
        let gross = gain + self.effort.work(&work);
        let might_do_one = self.might_do_one(answer);
        let gain = gain - self.unsure(&cockpit);
        Some(Sought {
            job: rung.job,
            cockpit,
            gain,
            gross,
            jobs,
            might_do_one,
            is_one_step: work.steps.len() == 1,
            is_plain: false,
            is_one_size: false,
            reaches: answer.bar.brake_span_mm <= self.reach_mm,
            is_last_resort: false,
        })
    }

    /// What it takes that somebody has to look at the steerer first.
    fn unsure(&self, to: &Cockpit) -> f64 {
        let sure_mm = SURE_SPACERS_MM.max(self.base.spacers_mm);
        if self.steerer_known || to.spacers_mm <= sure_mm { 0.0 } else { UNSURE }
    }

    /// Whether an assembly does a good share of one of the things that are asked, of those that do not
    /// only go along with another. What drops are worth counts with bar and roll, and is left out.
    fn might_do_one(&self, answer: &Answer) -> bool {
        // what helps one place and moves hoods that are to stay is no such step
        if self.wanted.iter().any(|of| of.aim == Aim::HoodsStay) {
            return false;
        }
        let asked = &self.asked.asked;
        let share = |at: &usize| {
            let of = asked.aims[*at];
            let number = match of.of {
                Number::Hands(place, what) => answer.hands[place].get(what),
                Number::Bar(OfBar::BrakeSpan) => answer.bar.brake_span_mm,
                Number::Bar(OfBar::PalmSpare) => answer.bar.palm_spare_mm,
                Number::Bar(OfBar::Width) => answer.bar.width_mm,
            };
            matches!(of.shape, Shape::Enough { .. }) && of.shape.value(number) >= MIGHT_DO_ONE
        };
        let counts = |of: &Wanted| of.counts != Counts::Little && of.aim != Aim::EaseDrops;
        let each = self.wanted.iter().zip(&self.asked.of).filter(|(of, _)| counts(of));
        each.into_iter().any(|(_, places)| !places.is_empty() && places.iter().all(share))
    }

    /// Takes what a rung found and is worth its effort: of bars one of each bend, of what is only set
    /// one of each set of jobs.
    fn take(&self, rung: &Rung, answers: &[Answer], here: f64, outcome: &mut Outcome) {
        let mut taken: Vec<(String, i64, Vec<Job>)> = Vec::new();
        // whether the next size narrower tells is only known once it is weighed
        let sizes = if self.wants_slimmer() { SIZES } else { 1 };
        for sought in answers.iter().filter_map(|answer| self.sought(rung, answer, here)) {
            let is_bar = rung.job == Job::OtherBar;
            let alike = is_bar && self.new_bar && is_alike(&sought.cockpit, &self.base);
            let jobs = if is_bar { Vec::new() } else { sought.jobs.clone() };
            let width_mm = if sizes > 1 { whole(sought.cockpit.bar.width_mm) } else { 0 };
            let what = (sought.cockpit.bar.name.clone(), width_mm, jobs);
            if taken.len() == OF_A_RUNG * sizes
                || taken.contains(&what)
                || sought.gain <= LEAST_GAIN && !alike
                || outcome.sought.iter().any(|of| of.cockpit.is_set_up_as(&sought.cockpit))
            {
                continue;
            }
            taken.push(what);
            outcome.sought.push(sought);
        }
    }

    /// Takes the best that a job does by itself, and tells it with the rest where it is worth its effort.
    fn take_single(&self, rung: &Rung, answers: &[Answer], here: f64, outcome: &mut Outcome) {
        let mut found = answers.iter().filter_map(|answer| self.sought(rung, answer, here));
        let Some(best) = found.next().map(|of| Sought { is_plain: true, ..of }) else { return };
        outcome.single.push(best.clone());
        let alike = |of: &Sought| {
            of.job == best.job
                && of.jobs == best.jobs
                && of.cockpit.bar.name == best.cockpit.bar.name
        };
        if outcome.sought.iter().any(alike) {
            return;
        }
        let all = answers.iter().filter_map(|answer| self.sought(rung, answer, here));
        let mut raise = all.filter(|of| self.is_raise_for_drops(of));
        if best.gain > LEAST_GAIN {
            outcome.sought.push(best);
        } else if let Some(raise) = raise.next() {
            outcome.sought.push(Sought { is_plain: true, ..raise });
        }
    }

    /// Takes the best that goes one size and is worth its effort.
    fn take_one_size(&self, rung: &Rung, answers: &[Answer], here: f64, outcome: &mut Outcome) {
        let mut found = answers.iter().filter_map(|answer| self.sought(rung, answer, here));
        let Some(best) = found.next().filter(|of| of.gain > LEAST_GAIN) else { return };
        outcome.sought.retain(|of| !of.cockpit.is_set_up_as(&best.cockpit));
        outcome.sought.push(Sought { is_one_size: true, ..best });
    }

    /// Takes the best of levers down the bend by which the fingers reach a brake that is complained of, where
    /// nothing else that is free brings it so near: worth its effort or not.
    fn take_levers_down(&self, rung: &Rung, answers: &[Answer], here: f64, outcome: &mut Outcome) {
        let mut found = answers.iter().filter_map(|answer| self.sought(rung, answer, here));
        let Some(best) = found.find(|of| of.reaches) else { return };
        let other =
            |of: &Sought| of.reaches && of.is_free() && !of.cockpit.is_set_up_as(&best.cockpit);
        if outcome.sought.iter().any(other) {
            return;
        }
        outcome.sought.retain(|of| of.job != Job::LeverAlong || !of.reaches);
        outcome.sought.push(Sought { is_last_resort: true, ..best });
    }

    /// All that is changed, also what is set anew in the course of another job.
    fn jobs(&self, to: &Cockpit, work: &Work) -> Vec<Job> {
        let clicks = |of: &Cockpit| {
            of.levers.as_ref().map(|levers| (levers.left.clicks, levers.right.clicks))
        };
        let besides = [
            (Job::ReachScrew, clicks(to) != clicks(&self.base)),
            (Job::Roll, to.roll_deg != self.base.roll_deg),
            (Job::HandInDrops, to.drops_hand_mm != self.base.drops_hand_mm),
        ];
        let mut all: Vec<Job> = work.steps.iter().map(|step| step.job).collect();
        all.extend(besides.into_iter().filter(|(_, is)| *is).map(|(job, _)| job));
        all.sort_unstable();
        all.dedup();
        all
    }
}

/// Something on the trade-off of two things.
#[derive(Debug, Clone, PartialEq)]
pub struct Balance {
    /// Its dearest change.
    pub job: Job,
    /// Put together.
    pub cockpit: Cockpit,
    /// How good it is along either axis: of an aim how much of enough, of minutes fewer are more.
    pub good: [f64; 2],
}

/// Those that none of the others beats, the best along the first axis first.
fn unbeaten(mut all: Vec<Balance>) -> Vec<Balance> {
    // nought and less than nothing by rounding are one
    for of in &mut all {
        of.good = of.good.map(|good| good + 0.0);
    }
    all.sort_by(|a, b| b.good[0].total_cmp(&a.good[0]).then(b.good[1].total_cmp(&a.good[1])));
    let mut best = f64::NEG_INFINITY;
    all.retain(|of| {
        let stays = of.good[1] > best;
        best = best.max(of.good[1]);
        stays
    });
    all
}

/// The cockpit that answers are held against: the one as it came, or that with the saddle put right.
pub(super) fn base(weighed: &Weighed) -> Option<&WeighedCockpit> {
    let put_right = weighed.put_right.as_ref();
    let put_right = put_right.and_then(|id| weighed.cockpits.iter().find(|of| of.id == *id));
    put_right.or_else(|| weighed.as_it_came())
}

/// Nothing is wrong and a new bar is wanted, and nobody said what else it should do.
fn new_bar(visit: &Visit) -> bool {
    let about = |of: &fit_doc::Complaint| of.about == Concern::NewBar;
    let hoods = |of: &Wanted| of.aim == Aim::HoodsStay;
    visit.complaints.iter().any(about) && visit.aims().iter().all(hoods)
}

/// A neck is to have it easier in the drops.
pub(super) fn is_neck_in_drops(of: &Wanted) -> bool {
    of.aim == Aim::EaseNeck && of.place == Some(HandPlace::Drops)
}

/// What hands that hurt or go numb count, where they are complained of and the aims follow from that.
fn numb_hands(visit: &Visit) -> Option<f64> {
    hurt(visit, |about| about == Concern::Hands)
}

/// The same of what levers that are turned in are tried for: hands, elbows and forearms.
fn hurt_by_wrists(visit: &Visit) -> Option<f64> {
    hurt(visit, |about| matches!(about, Concern::Hands | Concern::Arms))
}

fn hurt(visit: &Visit, is_it: impl Fn(Concern) -> bool) -> Option<f64> {
    let some = visit.still_bad().iter().any(|of| is_it(of.about));
    let aims = visit.aims();
    let theirs = aims.iter().find(|of| of.aim == Aim::BendElbows).filter(|_| some)?;
    visit.wanted.is_empty().then(|| weight(theirs.counts))
}

/// Hands, elbows or forearms are the worst of what is complained of.
fn turns_in_first(visit: &Visit) -> bool {
    hurt_by_wrists(visit).is_some()
        && matches!(visit.still_bad()[0].about, Concern::Hands | Concern::Arms)
}

/// One change at a time, the worse complaint first, then both at once; none where the brakes are the smaller
/// complaint.
fn for_both(visit: &Visit) -> Option<&'static [First]> {
    const BOTH: &[Job] = &[Job::ReachScrew, Job::TurnIn];
    const ALL: &[First] =
        &[First::Job(Job::ReachScrew), First::Job(Job::TurnIn), First::Jobs(BOTH)];
    (numb_hands(visit).is_some() && screws_first(visit)).then_some(ALL)
}

/// Brakes out of reach from the drops are as bad as hands that hurt or go numb, or worse.
fn screws_first(visit: &Visit) -> bool {
    let worst = |about: Concern| {
        let of_it = visit.complaints.iter().filter(|of| of.about == about);
        of_it.map(|of| of.score).max().flatten()
    };
    worst(Concern::BrakesFromDrops)
        .is_some_and(|of| worst(Concern::Hands).is_none_or(|at| of >= at))
}

/// A bar that measures what another one does, within what catalogues are off and half a size.
fn is_alike(one: &Cockpit, other: &Cockpit) -> bool {
    let (one, other) = (&one.bar, &other.bar);
    (one.reach_mm - other.reach_mm).abs() <= SAME_BAR_MM
        && (one.drop_mm - other.drop_mm).abs() <= SAME_BAR_MM
        && (one.width_mm - other.width_mm).abs() <= HALF_A_SIZE_MM
}

/// Where the client holds the drops of bars on the bench, where that differs.
fn held(visit: &Visit, base: &Cockpit) -> Vec<(String, f64)> {
    let others = visit.bench.iter().filter(|of| of.bar.id != base.bar.id);
    let differs = others.filter(|of| of.drops_hand_mm != base.drops_hand_mm);
    differs.map(|of| (of.bar.id.clone(), of.drops_hand_mm)).collect()
}

/// The client's other bike.
pub(super) fn other_bike<'a>(session: &'a Session, visit: &Visit) -> Option<&'a Bike> {
    session.bikes.iter().rfind(|bike| bike.id != visit.bike && bike.same_as.is_none())
}

/// Where the hoods of the client's other bike are, bike frame: those that he last left with on it.
fn other_hoods(session: &Session, visit: &Visit) -> Option<fit_math::DVec2> {
    let other = other_bike(session, visit)?;
    let visits = session.visits.iter().rev().filter(|of| of.bike == other.id);
    let left_with = visits.into_iter().find_map(|of| of.cockpit(of.chosen.as_ref()?));
    let parts = left_with.unwrap_or(&other.cockpit);
    let built = geometry::cockpit(&Place::cockpit(&parts.label), &other.frame, parts).ok()?;
    Some(built.grips(HandPlace::Hoods)?.midway().truncate())
}

/// What no answer leaves: what was said, else what is usual on this bike for what is wanted.
fn bounds(
    said: &Bounds,
    wanted: &[Wanted],
    base: &WeighedCockpit,
    shoulders_mm: Option<f64>,
) -> Bounds {
    let asks = |aim| wanted.iter().any(|of| of.aim == aim);
    let stem_mm = geometry::mounted_stem(&base.parts).length_mm;
    let least = if asks(Aim::EasierToSteer) { LEAST_STEM_STEADY_MM } else { LEAST_STEM_MM };
    let usual_width = || {
        let narrower = if asks(Aim::Slimmer) { NARROWER_FOR_WIND_MM } else { NARROWER_MM };
        let now = base.cockpit.bend().width_hoods_cc_mm();
        Some(((shoulders_mm? - narrower).min(now), f64::INFINITY))
    };
    Bounds {
        stem_mm: said.stem_mm.or(Some((least.min(stem_mm), f64::INFINITY))),
        width_mm: said.width_mm.or_else(usual_width),
        spacers_mm: said.spacers_mm.or(Some(usual_spacers_mm(&base.parts))),
        ..said.clone()
    }
}

/// The same as ranges of the search; what is of single parts is held where they are put together.
fn allowed(bounds: &Bounds) -> Vec<Allowed> {
    let range = |of, (from, to)| Allowed { of, from, to };
    let stem = bounds.stem_mm.map(|mm| range(Limited::StemLength, mm));
    let width = bounds.width_mm.filter(|_| !bounds.stays(Stays::Bar));
    let width = width.map(|mm| range(Limited::Width, mm));
    stem.into_iter().chain(width).chain(takes::allowed(bounds)).collect()
}

#[cfg(test)]
#[path = "search_tests.rs"]
mod tests;
