//! What can be put together on a bike from a shop's stock, rung by rung of the ladder: each rung holds
//! the assemblies whose dearest change is one job, so that a dear answer is always held against the
//! best of every cheaper one.

use super::asked::{SHALLOWER, SHALLOWER_MM, TAIL, weight};
use super::effort::{Effort, part};
use super::idea::SAME_BAR_MM;
use super::{screw, takes};
use crate::table::whole;
use fit_doc::edit::carry_levers;
use fit_doc::work::Job;
use fit_doc::{
    Bar, Bounds, Cockpit, Date, Frame, HandPlace, Levers, Place, Stays, Stem, Stock, Wanted,
    event_rules, geometry,
};
use fit_math::DVec2;
use fit_math::bar::Bend;
use fit_math::choose::{self, Found, Pick, Setting, Shop, StemOffer};
use fit_math::cockpit::{Cockpit as Built, LeverPair, LeverPose, Mount};
use fit_math::frame::{Side, heading_rad, wrapped_rad};
use fit_math::hand::Cover;
use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

/// Rolls that are looked through, degrees (common practice, no source).
pub(super) const ROLLS_DEG: (f64, f64) = (-3.0, 5.0);
/// How far levers are moved along the bend, mm (common practice, no source).
pub(super) const MOST_SHIFT_MM: f64 = 15.0;
/// How far levers go down the bend that they are on, mm: 5 to 10 (common practice, no source).
const LEAST_DOWN_MM: f64 = 5.0;
const MOST_DOWN_MM: f64 = 10.0;
/// Spacers come in steps of, mm (common practice, no source).
pub(super) const SPACERS_STEP_MM: f64 = 5.0;
/// As much more under the stem as is tried while nobody said what the steerer has left, mm: what a
/// neck is first raised by (common practice, no source).
const MORE_SPACERS_MM: f64 = 20.0;
/// The most spacers that are usual, mm (common practice, no source).
const MOST_SPACERS_MM: f64 = 40.0;
/// How far a hand on the hoods tips on another bar without a cost, degrees: as much as a roll gives back,
/// and as much again as is told of a wrist (judgement).
const TIPPED_DEG: f64 = 10.0;
/// The same where a lever goes along the bend that it is on, degrees: as far as 10 mm turn it on a bend of
/// 50 mm (geometry; that levers go 5 to 10 mm down the bend is common practice, no source).
const TIPPED_ALONG_DEG: f64 = 12.0;
/// What each degree more takes, in units of a whole aim: 10 are half an aim (judgement).
const PER_TIPPED_DEG: f64 = 0.05;
/// How much further forward in the hook a hand is asked to go, mm (judgement: half a palm's breadth is
/// 40 mm, and 10 of it still leave the hand in the hook).
const HAND_FORWARD_MM: f64 = 10.0;
/// How much more a bar may stand out at its ends than the one that came, mm: further out is a bar for
/// another kind of riding, which the fitter puts on the bench himself (judgement).
const MORE_SPLAY_MM: f64 = 40.0;
/// How far levers are turned in, degrees: 3 to 5 (common practice, no source).
const TURN_IN_DEG: f64 = 4.0;
/// Up to so far off the line of the ramp a hood goes on smoothly, degrees (common practice, no source).
pub(super) const SMOOTH_DEG: f64 = 10.0;
/// What a screw that is further in, or a lever that is turned in, is worth for a brake from the hoods, of a
/// whole aim: tried before other levers (common practice, no source; the share is judgement).
const TRIED: f64 = 0.5;

/// What the shelf is looked through for, and where from.
pub(super) struct Shelf<'a> {
    /// The cockpit that everything is compared with.
    pub(super) base: &'a Cockpit,
    /// The same in place.
    pub(super) base_built: &'a Built,
    pub(super) frame: &'a Frame,
    pub(super) stock: &'a Stock,
    /// What no answer leaves, the usual where nothing was said.
    pub(super) bounds: &'a Bounds,
    pub(super) effort: Effort,
    /// The day of the visit.
    pub(super) day: Date,
    /// What the client's hands cover, left and right.
    pub(super) covers: [Cover; 2],
    /// What the fingers are to have to spare at the brakes from the drops, mm, where that is asked.
    pub(super) brakes: Option<f64>,
    /// What they have to spare on what is there, where that is less than nothing, else nothing: another bar
    /// takes no brake away, mm.
    pub(super) spare_mm: f64,
    /// A brake that is to be reached from the hoods, where that is asked.
    pub(super) hoods_brakes: Option<FromHoods>,
    /// Drops that can be held, where they are asked for.
    pub(super) drops: Option<Wanted>,
    /// A neck is to have it easier in the drops.
    pub(super) neck_in_drops: bool,
    /// How far the hand on the hoods is off the line of its forearm, radians, where it lies there much.
    pub(super) on_hoods_rad: Option<f64>,
    /// Where the client was seen to hold the drops of a bar, mm from the usual place, by its stock
    /// number.
    pub(super) held: Vec<(String, f64)>,
    /// What hands that hurt or go numb count, where they are complained of first.
    pub(super) hands: Option<f64>,
    /// The same of what levers that are turned in are tried for.
    pub(super) turn_in: Option<f64>,
    /// The other bars as they were looked at ([`Shelf::looked_at`]).
    pub(super) bars: Vec<Result<Variant, NotOffered>>,
}

/// A brake that is to be reached from the hoods.
#[derive(Debug, Clone, Copy)]
pub(super) struct FromHoods {
    pub(super) weight: f64,
    /// What the fingers have to spare there, and what they are to have, mm.
    pub(super) spare_mm: f64,
    pub(super) enough_mm: f64,
    /// What they have to spare in the drops once the blades are as much nearer to the bar as is felt, mm.
    pub(super) drops_enough_mm: f64,
}

/// The assemblies whose dearest change is one job.
#[derive(Debug)]
pub(super) struct Rung {
    pub(super) job: Job,
    pub(super) shop: Shop,
    /// A cockpit for each bar of the shop, its stem, spacers, roll and lever place still the base's.
    pub(super) variants: Vec<Cockpit>,
    /// A stem for each of the shop.
    pub(super) stems: Vec<Stem>,
}

impl Rung {
    /// Nothing found yet: of bars only the best width of each bend counts, or each of its widths where
    /// the next that tells is looked for.
    pub(super) fn none_found(&self, most: usize, widths: bool) -> Found {
        if self.job != Job::OtherBar {
            return Found::none(most);
        }
        let bend = |of: &Cockpit| {
            let width_mm = if widths { whole(of.bar.width_mm) } else { 0 };
            (of.bar.name.clone(), width_mm)
        };
        let bends: BTreeSet<_> = self.variants.iter().map(bend).collect();
        let kind = |of: &Cockpit| bends.iter().position(|known| *known == bend(of));
        let kinds = self
            .shop
            .bars
            .iter()
            .zip(&self.variants)
            .filter_map(|(bar, of)| Some((bar.id, u32::try_from(kind(of)?).ok()?)));
        Found::one_of_each(most, Arc::new(kinds.collect()))
    }

    /// In how many ways its parts go together.
    pub(super) fn parts(&self) -> usize {
        self.shop.bars.len() * self.shop.stems.len().max(1) * self.shop.spacers.len()
    }

    /// The cockpit that an assembly is.
    pub(super) fn cockpit(&self, pick: &Pick) -> Option<Cockpit> {
        let bar = self.shop.bars.get(pick.bar)?;
        let mut cockpit = self.variants.get(pick.bar)?.clone();
        let roll_there = geometry::mounted_roll_deg(&cockpit).to_radians();
        if let Some(stem) = pick.stem {
            cockpit.stem = self.stems.get(stem)?.clone();
        }
        cockpit.spacers_mm = self.shop.spacers.get(pick.spacers)?.at;
        let roll_rad = bar.rolls.get(pick.roll)?.at;
        // the present roll stays as it was typed
        if cockpit.bar.one_piece.is_none() && roll_rad != roll_there {
            cockpit.roll_deg = (2.0 * roll_rad.to_degrees()).round() / 2.0;
        }
        let shift_mm = bar.shifts.get(pick.shift)?.at;
        Some(with_levers_moved(&cockpit, shift_mm))
    }
}

/// Whether other things are changed as well.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum With {
    /// Whatever is set in the same go.
    Others,
    /// Of another bar what is set in its course: its roll, its levers.
    ItsSettings,
    /// One job by itself.
    NothingElse,
}

impl With {
    /// Whether a setting may differ: where it is the job itself, or may be changed besides.
    const fn may(self, itself: bool, besides: bool) -> bool {
        itself || besides && !matches!(self, Self::NothingElse)
    }
}

/// Why a bar of the stock is not offered.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum NotOffered {
    /// Only what is in stock was asked for.
    NotInStock,
    /// It costs more than allowed.
    OverBudget,
    /// No lever is made for it.
    NoLevers,
    /// The levers cannot be carried over to it.
    CannotCarry,
    /// Its ends stand out as on a bar for another kind of riding.
    OtherRiding,
    /// A neck hurts in the drops, and it is deeper or longer.
    DeeperOrLonger,
    /// It leaves the rules of events.
    EventRules,
}

/// A cockpit with another bar or levers, and what having it takes.
pub(super) type Variant = (Cockpit, f64);

impl<'a> Shelf<'a> {
    /// The same shelf within other limits, its bars not looked at.
    pub(super) fn within<'b>(&self, bounds: &'b Bounds) -> Shelf<'b>
    where
        'a: 'b,
    {
        Shelf { bounds, held: self.held.clone(), bars: Vec::new(), ..*self }
    }

    /// Every rung there is, the smallest first.
    pub(super) fn rungs(&self) -> Vec<Rung> {
        Job::ALL.into_iter().filter_map(|job| self.rung(job, With::Others)).collect()
    }

    /// The same, each job by itself: what the smaller step does alone.
    pub(super) fn single(&self) -> Vec<Rung> {
        Job::ALL.into_iter().filter_map(|job| self.rung(job, With::NothingElse)).collect()
    }

    /// Every other bar of the stock: the base with it and what having it takes, or why it is not
    /// offered.
    pub(super) fn looked_at(&self) -> Vec<Result<Variant, NotOffered>> {
        let others = self.stock.bars.iter().filter(|bar| bar.id != self.base.bar.id);
        let effort = |bar: &Bar| self.effort.job(Job::OtherBar) + part(bar.shelf);
        others.map(|bar| Ok((self.other_bar(bar)?, effort(bar)))).collect()
    }

    /// Bars that are not offered, and why.
    pub(super) fn not_offered(&self) -> BTreeMap<NotOffered, usize> {
        let mut all = BTreeMap::new();
        for why in self.bars.iter().filter_map(|of| of.as_ref().err()) {
            *all.entry(*why).or_default() += 1;
        }
        all
    }

    /// The base alone: what every rung is held against.
    pub(super) fn base_alone(&self) -> Option<(Rung, Pick)> {
        let rung =
            self.put_together(Job::HandInDrops, vec![(self.base.clone(), 0.0)], With::NothingElse)?;
        let stem = rung.shop.bars.first()?.own_stem.is_none().then_some(0);
        Some((rung, Pick { bar: 0, stem, spacers: 0, roll: 0, shift: 0 }))
    }

    pub(super) fn rung(&self, job: Job, with: With) -> Option<Rung> {
        let stays = |what| self.bounds.stays(what);
        if match job {
            Job::SaddleHeight | Job::SaddleTilt | Job::SaddleSetback => true,
            // where the hand is seen to lie follows from the bar, not from a wish
            Job::HandInDrops => self.brakes.is_none() || !self.held.is_empty(),
            Job::ReachScrew => self.brakes.is_none() && self.hoods_brakes.is_none(),
            Job::TurnIn | Job::LeverAlong => stays(Stays::LeverPlace),
            Job::Roll => stays(Stays::Roll) || self.base.bar.one_piece.is_some(),
            Job::Spacers => stays(Stays::Spacers),
            Job::StemTurned | Job::OtherStem => {
                stays(Stays::Stem) || self.base.bar.one_piece.is_some()
            }
            Job::OtherBar => stays(Stays::Bar),
            Job::OtherLevers => stays(Stays::LeverKind),
        } {
            return None;
        }
        self.put_together(job, self.variants(job, with), with)
    }

    pub(super) fn variants(&self, job: Job, with: With) -> Vec<Variant> {
        let base = || (self.base.clone(), 0.0);
        match job {
            Job::HandInDrops => {
                let drops_hand_mm = self.base.drops_hand_mm + HAND_FORWARD_MM;
                let cockpit = Cockpit { drops_hand_mm, ..self.base.clone() };
                vec![(cockpit, self.effort.job(job))]
            }
            Job::ReachScrew => self.screwed(&base()).into_iter().collect(),
            Job::TurnIn => {
                let turned = turned_in(self.base).into_iter();
                let turned = turned.map(|of| (of, self.effort.turn_in(TURN_IN_DEG))).collect();
                // two cheap steps for two things that are complained of
                if self.brakes.is_some() && with == With::Others {
                    return self.with_screws(turned);
                }
                turned
            }
            Job::OtherBar if with == With::NothingElse => self.other_bars(),
            Job::OtherLevers if with == With::NothingElse => self.other_levers(),
            Job::OtherBar => self.with_screws(self.other_bars()),
            Job::OtherLevers => self.with_screws(self.other_levers()),
            _ if self.brakes.is_some() && with == With::Others => self.with_screws(vec![base()]),
            _ => vec![base()],
        }
    }

    /// Each once more with the reach screws in as far as the hand needs.
    fn with_screws(&self, mut all: Vec<Variant>) -> Vec<Variant> {
        let screwed: Vec<Variant> = all.iter().filter_map(|of| self.screwed(of)).collect();
        all.extend(screwed);
        all
    }

    fn screwed(&self, (cockpit, effort): &Variant) -> Option<Variant> {
        let built = self.built(cockpit)?;
        let drops = (HandPlace::Drops, self.brakes.unwrap_or(self.spare_mm));
        // a blade that is nearer to the bar is nearer to the hand in the drops
        let nearer = self.hoods_brakes.map(|of| (HandPlace::Drops, of.drops_enough_mm));
        let enough: Vec<_> = core::iter::once(drops).chain(nearer).collect();
        let (left, right) = screw::needed(&built, self.covers, &enough)?;
        let mut cockpit = cockpit.clone();
        let levers = cockpit.levers.as_mut()?;
        let more = left.abs_diff(levers.left.clicks).max(right.abs_diff(levers.right.clicks));
        (levers.left.clicks, levers.right.clicks) = (left, right);
        Some((cockpit, effort + self.effort.screw(more)))
    }

    /// A part that may be offered.
    fn offered(&self, shelf: fit_doc::OnTheShelf) -> bool {
        let dear = |price: fit_doc::Price| self.bounds.money.is_some_and(|most| price > most);
        (shelf.in_stock > 0 || !self.bounds.in_stock_only) && !shelf.price.is_some_and(dear)
    }

    fn other_bars(&self) -> Vec<Variant> {
        self.bars.iter().filter_map(|of| of.as_ref().ok().cloned()).collect()
    }

    /// The base with another bar, its levers carried over, or why that is not offered.
    fn other_bar(&self, bar: &Bar) -> Result<Cockpit, NotOffered> {
        if bar.shelf.in_stock == 0 && self.bounds.in_stock_only {
            return Err(NotOffered::NotInStock);
        }
        if !self.offered(bar.shelf) {
            return Err(NotOffered::OverBudget);
        }
        if bar.no_levers {
            return Err(NotOffered::NoLevers);
        }
        if self.neck_in_drops && is_deeper_or_longer(bar, &self.base.bar) {
            return Err(NotOffered::DeeperOrLonger);
        }
        let mut cockpit = self.base.clone();
        cockpit.bar = bar.clone();
        carry_levers(self.base, &mut cockpit).map_err(|_refused| NotOffered::CannotCarry)?;
        let Some(built) = self.built(&cockpit) else { return Err(NotOffered::CannotCarry) };
        if splay_mm(&built) > splay_mm(self.base_built) + MORE_SPLAY_MM {
            return Err(NotOffered::OtherRiding);
        }
        if self.bounds.event_rules && event_rules(&built, self.day).iter().any(|of| !of.is_kept()) {
            return Err(NotOffered::EventRules);
        }
        if let Some((_, held_mm)) = self.held.iter().find(|(id, _)| *id == bar.id) {
            cockpit.drops_hand_mm = *held_mm;
        }
        Ok(cockpit)
    }

    /// Levers of the same sort: another sort is another brake.
    fn other_levers(&self) -> Vec<Variant> {
        let Some(levers) = &self.base.levers else { return Vec::new() };
        let other = |of: &&fit_doc::Lever| {
            of.id != levers.lever.id && of.sort == levers.lever.sort && self.offered(of.shelf)
        };
        let all = self.stock.levers.iter().filter(other).map(|lever| {
            let levers = Some(Levers { lever: lever.clone(), ..levers.clone() });
            let cockpit = Cockpit { levers, ..self.base.clone() };
            (cockpit, self.effort.job(Job::OtherLevers) + part(lever.shelf))
        });
        all.collect()
    }

    /// Whether it leaves no rule of events that the base keeps; what the base leaves is told, and a roll
    /// changes nothing of them.
    fn keeps_rules(&self, built: &Built) -> bool {
        let left = |of: &Built| {
            let rules = event_rules(of, self.day).into_iter();
            rules.filter(|rule| !rule.is_kept()).map(|rule| rule.number).collect::<Vec<_>>()
        };
        let before = || left(self.base_built);
        !self.bounds.event_rules || left(built).iter().all(|number| before().contains(number))
    }

    pub(super) fn built(&self, cockpit: &Cockpit) -> Option<Built> {
        geometry::cockpit(&Place::cockpit(&cockpit.label), self.frame, cockpit).ok()
    }

    /// The shop of a rung; none where it has nothing.
    pub(super) fn put_together(
        &self,
        job: Job,
        variants: Vec<Variant>,
        with: With,
    ) -> Option<Rung> {
        let stems = self.stems(job, with);
        let (mut bars, mut kept) = (Vec::new(), Vec::new());
        for (cockpit, effort) in variants {
            let Some(built) = self.built(&cockpit).filter(|of| self.keeps_rules(of)) else {
                continue;
            };
            let id = u32::try_from(bars.len()).unwrap_or(u32::MAX);
            let Some(mut bar) = self.bar(job, &cockpit, &built, with) else { continue };
            (bar.id, bar.effort) = (id, effort + bar.effort);
            bars.push(bar);
            kept.push(cockpit);
        }
        let offers = stems.iter().enumerate().map(|(at, (stem, effort))| StemOffer {
            id: u32::try_from(at).unwrap_or(u32::MAX),
            stem: geometry::stem(stem),
            clamps_mm: stem.bar_diameter_mm,
            effort: *effort,
            jobs: 0,
            price: None,
            is_there: false,
        });
        let mut shop = Shop {
            front: geometry::front_end(self.frame),
            bars,
            stems: offers.collect(),
            spacers: self.spacers(job, with),
            present: None,
            minutes: Vec::new(),
        };
        let is_there = shop.bars.iter().any(|bar| bar.own_stem.is_some()) || !shop.stems.is_empty();
        if !is_there || shop.bars.is_empty() || shop.spacers.is_empty() {
            return None;
        }
        let stems: Vec<Stem> = stems.into_iter().map(|(stem, _)| stem).collect();
        takes::tell(&mut shop, self.base, &kept, &stems);
        Some(Rung { job, shop, variants: kept, stems })
    }

    fn bar(&self, job: Job, cockpit: &Cockpit, built: &Built, with: With) -> Option<choose::Bar> {
        let (bend, levers) = (built.bend().clone(), built.levers()?.clone());
        let zone_mm = bend.clamp_zone();
        let mut bar = choose::Bar {
            id: 0,
            own_stem: cockpit.bar.one_piece.map(|_| geometry::mounted_stem(cockpit)),
            effort: -self.hoods_worth(cockpit, built) - self.hands_worth(cockpit),
            jobs: 0,
            price: None,
            is_there: false,
            drops_hand_mm: cockpit.drops_hand_mm,
            lever_clamp_mm: cockpit.levers.as_ref()?.lever.clamp_width_mm,
            zone_mm,
            rolls: vec![Setting { at: built.roll_rad(), effort: 0.0, jobs: 0 }],
            shifts: vec![Setting { at: 0.0, effort: 0.0, jobs: 0 }],
            rolls_at: Vec::new(),
            bend,
            levers,
        };
        bar.rolls = self.rolls((job, with), cockpit, built.roll_rad());
        bar.shifts = self.shifts((job, with), &bar);
        if self.bounds.event_rules {
            let moved = |by_mm| self.built(&with_levers_moved(cockpit, by_mm));
            let keeps = |of: &Setting| moved(of.at).is_some_and(|of| self.keeps_rules(&of));
            bar.shifts.retain(|of| of.at == 0.0 || keeps(of));
        }
        let smooth: Vec<f64> = bar.shifts.iter().map(|of| self.smooth_worth(&bar, of.at)).collect();
        for (shift, worth) in bar.shifts.iter_mut().zip(smooth) {
            shift.effort -= worth;
        }
        // on the bar that came a lever goes along the bend for what it does there
        let free_deg = if job == Job::OtherBar { TIPPED_DEG } else { TIPPED_ALONG_DEG };
        let cost = |of: &Setting| self.tip_cost(&bar, built, of.at, free_deg);
        let tips: Vec<f64> = bar.shifts.iter().map(cost).collect();
        for (shift, cost) in bar.shifts.iter_mut().zip(tips) {
            shift.effort += cost;
        }
        for roll in &mut bar.rolls {
            roll.effort -= self.drops_worth(cockpit, built, roll.at);
        }
        bar.rolls_at = self.rolls_at(job, &bar);
        (!bar.rolls.is_empty() && !bar.shifts.is_empty()).then_some(bar)
    }

    fn rolls(&self, (job, with): (Job, With), cockpit: &Cockpit, present_rad: f64) -> Vec<Setting> {
        let stays = self.bounds.stays(Stays::Roll) || cockpit.bar.one_piece.is_some();
        let besides =
            matches!(job, Job::Spacers | Job::StemTurned | Job::OtherStem | Job::OtherBar);
        if stays || !with.may(job == Job::Roll, besides) {
            return vec![Setting { at: present_rad, effort: 0.0, jobs: 0 }];
        }
        let mut all = choose::Bar::half_degrees(ROLLS_DEG.0, ROLLS_DEG.1, present_rad, 0.0);
        for roll in all.iter_mut().skip(1) {
            roll.effort = self.effort.roll((roll.at - present_rad).to_degrees(), Some(job));
        }
        if job == Job::Roll {
            all.remove(0);
        }
        all
    }

    fn shifts(&self, (job, with): (Job, With), bar: &choose::Bar) -> Vec<Setting> {
        let besides = matches!(job, Job::OtherBar | Job::OtherLevers);
        if !with.may(job == Job::LeverAlong, besides) || self.bounds.stays(Stays::LeverPlace) {
            return vec![Setting { at: 0.0, effort: 0.0, jobs: 0 }];
        }
        let effort = self.effort.lever(Some(job));
        let mut all = choose::Bar::whole_mm(&bar.bend, &bar.levers, bar.zone_mm, effort);
        all.retain(|shift| shift.at.abs() <= MOST_SHIFT_MM);
        if job == Job::LeverAlong {
            all.retain(|shift| shift.at != 0.0);
        }
        all
    }

    /// Levers down the bend that came, with the reach screws: what reaches brakes that nothing smaller does.
    pub(super) fn levers_down(&self) -> Option<Rung> {
        self.brakes.filter(|_| self.spare_mm < 0.0)?;
        let mut rung = self.rung(Job::LeverAlong, With::Others)?;
        for bar in &mut rung.shop.bars {
            bar.shifts.retain(|shift| (LEAST_DOWN_MM..=MOST_DOWN_MM).contains(&-shift.at));
            bar.rolls_at = self.rolls_at(Job::LeverAlong, bar);
        }
        rung.shop.bars.iter().all(|bar| !bar.shifts.is_empty()).then_some(rung)
    }

    fn same_spacers(&self) -> Vec<Setting> {
        vec![Setting { at: self.base.spacers_mm, effort: 0.0, jobs: 0 }]
    }

    fn spacers(&self, job: Job, with: With) -> Vec<Setting> {
        let besides =
            matches!(job, Job::StemTurned | Job::OtherStem | Job::OtherBar | Job::OtherLevers);
        let besides = besides && with == With::Others;
        if !with.may(job == Job::Spacers, besides) || self.bounds.stays(Stays::Spacers) {
            return self.same_spacers();
        }
        let present = self.base.spacers_mm;
        let most = self.bounds.spacers_mm.unwrap_or(present);
        let effort = self.effort.spacers(Some(job));
        let heights = (0..=64).map(|step| f64::from(step) * SPACERS_STEP_MM);
        let others = heights.take_while(|&at| at <= most).filter(|&at| at != present);
        let mut all: Vec<Setting> = others.map(|at| Setting { at, effort, jobs: 0 }).collect();
        if job != Job::Spacers {
            all.insert(0, Setting { at: present, effort: 0.0, jobs: 0 });
        }
        all
    }

    /// The stems of a rung, with what each takes.
    fn stems(&self, job: Job, with: With) -> Vec<(Stem, f64)> {
        let base = &self.base.stem;
        let own = self.base.bar.one_piece.is_some();
        // as the work tells it: one that only clamps higher is no other stem
        let is_base = |stem: &Stem| {
            (stem.length_mm, stem.angle_deg, stem.bar_diameter_mm)
                == (base.length_mm, base.angle_deg, base.bar_diameter_mm)
        };
        let kept = || (base.clone(), 0.0);
        let turned = base.ways_up().nth(1).map(|over| (over, self.effort.job(Job::StemTurned)));
        // nobody buys what the one that is there is once it is turned over
        let turned_is = |stem: &Stem| {
            turned.as_ref().is_some_and(|(over, _)| {
                (stem.length_mm, stem.angle_deg, stem.bar_diameter_mm)
                    == (over.length_mm, over.angle_deg, over.bar_diameter_mm)
            })
        };
        let fits = |stem: &&Stem| stem.steerer_diameter_mm == base.steerer_diameter_mm;
        let bought = self.stock.stems.iter().filter(fits).filter(|stem| self.offered(stem.shelf));
        let others = || {
            let other = bought.clone().flat_map(Stem::ways_up);
            let other = other.filter(|stem| own || !is_base(stem) && !turned_is(stem));
            other.map(|stem| {
                let effort = self.effort.job(Job::OtherStem) + part(stem.shelf);
                (stem, effort)
            })
        };
        match job {
            Job::StemTurned => turned.into_iter().collect(),
            Job::OtherStem => others().collect(),
            // whoever has a bar with its own stem has no stem to keep
            Job::OtherBar if own => others().collect(),
            Job::OtherBar if with != With::Others || self.bounds.stays(Stays::Stem) => {
                vec![kept()]
            }
            Job::OtherBar => {
                core::iter::once(kept()).chain(turned.clone()).chain(others()).collect()
            }
            _ if own => Vec::new(),
            _ => vec![kept()],
        }
    }

    /// What a brake from the hoods is worth on a cockpit: lever and screw alone decide, so that it counts
    /// with the bar. What a screw or a lever that is turned in does there no length tells.
    fn hoods_worth(&self, cockpit: &Cockpit, built: &Built) -> f64 {
        let Some(of) = self.hoods_brakes else { return 0.0 };
        let Some(then) = screw::hoods_spare_mm(built, self.covers) else { return 0.0 };
        let reached = ((then - of.spare_mm) / (of.enough_mm - of.spare_mm)).min(1.0);
        let tried = if is_tried_from_hoods(self.base, cockpit) { TRIED } else { 0.0 };
        of.weight * reached.max(tried)
    }

    /// What levers that are turned in are worth for hands that hurt: tried before the hands go elsewhere,
    /// and no length tells what it does.
    fn hands_worth(&self, cockpit: &Cockpit) -> f64 {
        let tried = self.turn_in.filter(|_| is_turned_in(self.base, cockpit));
        tried.map_or(0.0, |weight| weight * TRIED)
    }

    /// What hoods are worth for hands that hurt that go on from the ramps more smoothly, with the levers so far
    /// along the bend: how much is gone of what is there beyond [`SMOOTH_DEG`]; what comes is held against them.
    fn smooth_worth(&self, bar: &choose::Bar, shift_mm: f64) -> f64 {
        let (Some(weight), Some(now)) = (self.hands, self.base_built.levers()) else { return 0.0 };
        let beyond = |pair: &LeverPair, bend: &Bend, shift_mm: f64| {
            (off_ramp_deg(pair, bend, shift_mm) - SMOOTH_DEG).max(0.0)
        };
        let before = beyond(now, self.base_built.bend(), 0.0);
        let after = beyond(&bar.levers, &bar.bend, shift_mm);
        let all = if before > 0.0 { before } else { SMOOTH_DEG };
        weight * TRIED * (before - after) / all
    }

    /// What a hand on the hoods takes that tips by more than is free with the levers so far along the bend:
    /// they are set so that it lies as it did. At the roll that the bar is put in with.
    fn tip_cost(&self, bar: &choose::Bar, built: &Built, shift_mm: f64, free_deg: f64) -> f64 {
        let tips_rad = self.tips_rad(bar, built.roll_rad(), shift_mm);
        PER_TIPPED_DEG * (tips_rad.to_degrees().abs() - free_deg).max(0.0)
    }

    /// What drops that can be held are worth at a roll, as far as bar and roll alone decide: how much
    /// less deep they are under the hoods, and how the tail falls, which lets the wrist be straight.
    fn drops_worth(&self, cockpit: &Cockpit, built: &Built, roll_rad: f64) -> f64 {
        let Some(wanted) = self.drops else { return 0.0 };
        let base = self.base_built;
        let shallower = depth_mm(base, base.roll_rad())
            .zip(depth_mm(built, roll_rad))
            .map_or(0.0, |(before, after)| before - after);
        let enough = wanted.by_mm.unwrap_or(SHALLOWER_MM);
        let now = self.base.bar.tail_slope_deg + geometry::mounted_roll_deg(self.base);
        let then = cockpit.bar.tail_slope_deg + roll_rad.to_degrees();
        let falls = TAIL_FALLS_DEG.max(now + LEAST_TURN_DEG);
        let tail = ((then - now) / (falls - now)).clamp(0.0, 1.0);
        weight(wanted.counts) * (SHALLOWER * (shallower / enough).min(1.0) + TAIL * tail)
    }
}

/// A bar that brings the hands in the drops no higher and no nearer: deeper at all, or longer by as much as
/// catalogues are off (common practice, no source: a neck in the drops has them less deep).
fn is_deeper_or_longer(bar: &Bar, than: &Bar) -> bool {
    bar.drop_mm > than.drop_mm || bar.reach_mm >= than.reach_mm + SAME_BAR_MM
}

/// How far the line of the hoods is off that of the ramps with the levers so far along the bend, of both
/// sides the more, degrees.
pub(super) fn off_ramp_deg(pair: &LeverPair, bend: &Bend, shift_mm: f64) -> f64 {
    let ramp = heading_rad(bend.ramp_middle().tangent);
    let off = [(pair.left, Side::Left), (pair.right, Side::Right)].map(|(mount, side)| {
        let mount = Mount { along_mm: mount.along_mm + shift_mm, ..mount };
        let hood = LeverPose::new(&pair.shape, bend, mount, side).hood_line();
        wrapped_rad(heading_rad(hood) - ramp).to_degrees().abs()
    });
    off[0].max(off[1])
}

/// The most spacers that are tried while nobody said what the steerer has left, mm.
pub(super) fn usual_spacers_mm(base: &Cockpit) -> f64 {
    let present = base.spacers_mm;
    (present + MORE_SPACERS_MM).min(MOST_SPACERS_MM.max(present))
}

/// How much wider a bar is at its ends than at the hoods, mm.
fn splay_mm(built: &Built) -> f64 {
    built.bend().width_ends_cc_mm() - built.bend().width_hoods_cc_mm()
}

/// A cockpit with its levers that much further along the bend.
pub(super) fn with_levers_moved(cockpit: &Cockpit, by_mm: f64) -> Cockpit {
    let mut cockpit = cockpit.clone();
    if let Some(levers) = &mut cockpit.levers {
        levers.left.along_mm += by_mm;
        levers.right.along_mm += by_mm;
    }
    cockpit
}

/// Whether the levers of a cockpit are turned in further, or their reach screws further in, than on
/// another: what is tried at the same levers where a brake is not reached from the hoods.
pub(super) fn is_tried_from_hoods(before: &Cockpit, after: &Cockpit) -> bool {
    let (Some(before), Some(after)) = (&before.levers, &after.levers) else { return false };
    let sides = [(&before.left, &after.left), (&before.right, &after.right)];
    before.lever.id == after.lever.id
        && sides.into_iter().all(|(before, after)| {
            after.turn_in_deg > before.turn_in_deg || after.clicks > before.clicks
        })
}

/// Whether the levers of a cockpit are turned in further than on another.
pub(super) fn is_turned_in(before: &Cockpit, after: &Cockpit) -> bool {
    let (Some(before), Some(after)) = (&before.levers, &after.levers) else { return false };
    let sides = [(&before.left, &after.left), (&before.right, &after.right)];
    sides.into_iter().all(|(before, after)| after.turn_in_deg > before.turn_in_deg)
}

/// A cockpit with its levers turned in; none without levers.
fn turned_in(cockpit: &Cockpit) -> Option<Cockpit> {
    let mut cockpit = cockpit.clone();
    let levers = cockpit.levers.as_mut()?;
    levers.left.turn_in_deg += TURN_IN_DEG;
    levers.right.turn_in_deg += TURN_IN_DEG;
    Some(cockpit)
}

/// How far the hands in the drops are below those on the hoods at a roll, mm.
fn depth_mm(built: &Built, roll_rad: f64) -> Option<f64> {
    let hand = |place| Some(built.grips(place)?.midway().truncate());
    let from = hand(HandPlace::Drops)? - hand(HandPlace::Hoods)?;
    let turned = DVec2::from_angle(roll_rad - built.roll_rad()).rotate(from);
    Some(-turned.y)
}

/// How far the tail falls to the rear where the drops are easily held, degrees: 5 to 10 (common
/// practice, no source).
const TAIL_FALLS_DEG: f64 = 8.0;
/// A turn of the bar that is felt, degrees (common practice, no source).
const LEAST_TURN_DEG: f64 = 2.0;
