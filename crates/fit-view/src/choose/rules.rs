//! The rules: each looks at one answer and says one thing of it, or nothing. Changes are those that the
//! table shows, so that a sentence never says another number than the row beside it, and none that
//! chance alone could make.

use super::reason::Reason;
use super::rungs::{SMOOTH_DEG, is_tried_from_hoods, is_turned_in, off_ramp_deg};
use super::search::is_neck_in_drops;
use super::why_not::{bar_alone_rarely, cheaper_does_less, cheaper_has_its_price};
use crate::first_width::shoulders_mm;
use crate::frame_question::frame_questions;
use crate::table::{Axis, Cell, Change, Doubt, Question, told, whole};
use crate::weigh::{Doubted, Effect, MeasureNext, Weighed, WeighedCockpit};
use fit_doc::work::{Job, Work};
use fit_doc::{
    Aim, Concern, EventNumber, EventRule, HandPlace, KnownBy, Quantity, Stays, Visit, Wanted,
    event_rules,
};
use fit_math::DVec2;
use fit_math::cockpit::GripPair;
use fit_math::doubt::{TELLS_SD, tells};

/// What moves less is not felt in the hands, mm (common practice, no source).
pub(super) const FELT_MM: i64 = 10;
/// A change of a brake that is felt, mm (common practice, no source: levers are felt from 3 mm on).
pub(super) const FELT_BRAKE_MM: i64 = 3;
/// Hoods that move less stay where they are, mm (common practice, no source).
const HELD_MM: f64 = 5.0;
/// A turn of the bar that is felt, degrees (common practice, no source).
const FELT_TURN_DEG: f64 = 2.0;
/// What hoses and cables are asked about, mm (judgement).
const HOSES_MM: f64 = 5.0;
/// A change of steering effort that is worth a word, per cent: some 20 mm of width (judgement).
const FELT_STEERING: i64 = 4;
/// Room that is lost in neck or hip without a word, degrees (judgement: as two answers are the same).
const LOST_DEG: i64 = 1;

/// How much further a hand tips to one side before it is told, degrees (judgement: of a wrist only the
/// change can be worked out).
const TIPPED_DEG: i64 = 5;

/// What all answers have in common that a rule may look at.
#[derive(Clone, Copy)]
pub(super) struct Common<'a> {
    pub(super) weighed: &'a Weighed,
    pub(super) visit: &'a Visit,
    pub(super) wanted: &'a [Wanted],
    /// The hoods of the client's other bike, bike frame.
    pub(super) other_hoods: Option<DVec2>,
    /// What answers are held against.
    pub(super) base: &'a WeighedCockpit,
    /// What each job does by itself.
    pub(super) others: &'a [(Job, &'a WeighedCockpit)],
}

/// An answer with all that a rule may look at.
pub(super) struct Case<'a> {
    pub(super) of: Common<'a>,
    pub(super) to: &'a WeighedCockpit,
    pub(super) work: &'a Work,
}

impl<'a> Common<'a> {
    /// One answer, with the work that it takes.
    pub(super) fn case<'c>(&self, to: &'c WeighedCockpit, work: &'c Work) -> Case<'c>
    where
        'a: 'c,
    {
        Case { of: *self, to, work }
    }

    /// All that the rules say of an answer.
    pub(super) fn reasons(&self, to: &WeighedCockpit, work: &Work) -> Vec<Reason> {
        let case = self.case(to, work);
        RULES.iter().flat_map(|rule| rule(&case)).collect()
    }
}

impl Case<'_> {
    fn cell(&self, question: Question) -> Cell {
        told(question, self.to, Some(self.of.base), self.of.weighed)
    }

    /// A change that the table shows and that tells.
    fn by(&self, question: Question) -> Option<i64> {
        let cell = self.cell(question);
        match cell.change {
            Change::By(by) if cell.doubt.is_none_or(|doubt| doubt.tells) => Some(by),
            _ => None,
        }
    }

    /// It does more of a row than another cockpit, from the exact numbers of both, and that tells.
    pub(super) fn does_more_than(
        &self,
        (question, way): (Question, i64),
        other: &WeighedCockpit,
    ) -> bool {
        let cell = told(question, self.to, Some(other), self.of.weighed);
        let tells = cell.doubt.is_none_or(|doubt| doubt.tells);
        // what is too small to speak for the answer speaks against no other
        let own = self.cell(question);
        let small = matches!(own.change, Change::By(_) if is_too_small(own.doubt));
        matches!(cell.change, Change::By(by) if by * way > 0) && tells && !small
    }

    pub(super) fn does(&self, job: Job) -> bool {
        self.work.steps.iter().any(|step| step.job == job)
    }

    pub(super) fn asks(&self, aim: Aim) -> bool {
        self.of.wanted.iter().any(|of| of.aim == aim)
    }

    /// How much larger the outline that the wind meets is, as a share, and whether that tells.
    fn outline_share(&self, place: HandPlace) -> Option<(f64, bool)> {
        let outline =
            |of: &WeighedCockpit| self.of.weighed.effects(of, place)?.get(Effect::Outline);
        let before = outline(self.of.base)?;
        let by = outline(self.to)? - before;
        let number = Doubted::Effect(place, Effect::Outline);
        let sd = self.of.weighed.change_sd(self.of.base, self.to, number, by);
        Some((by / before, sd.is_none_or(|sd| tells(by, sd))))
    }

    /// The same in whole per cent, where that is any and tells.
    fn outline_percent(&self, place: HandPlace) -> Option<i64> {
        let (share, tells) = self.outline_share(place)?;
        let percent = whole(100.0 * share);
        (percent != 0 && tells).then_some(percent)
    }

    /// Where the wind counts: where the hands are most, the hoods where nobody said.
    fn windy_place(&self) -> HandPlace {
        let share = |place: &HandPlace| self.of.visit.interview.share(*place).unwrap_or(0);
        let there = HandPlace::ALL.into_iter().filter(|of| self.of.base.places.contains_key(of));
        let most = there.filter(|of| share(of) > 0).max_by_key(share);
        most.unwrap_or(HandPlace::Hoods)
    }

    /// Whether chance alone may take what the fingers have to spare at a brake.
    fn brake_may_be_missed(&self, place: HandPlace) -> bool {
        let spare = self.to.brakes.and_then(|of| of.to_spare_mm(place));
        let sd = self.of.weighed.sd(self.to, Doubted::Brake(place));
        spare.zip(sd).is_some_and(|(mm, sd)| mm < TELLS_SD * sd)
    }

    /// How the hands move, forward and up, mm.
    fn moves(&self, place: HandPlace) -> Option<DVec2> {
        let hand = |of: &WeighedCockpit| Some(of.places.get(&place)?.grips.midway().truncate());
        Some(hand(self.to)? - hand(self.of.base)?)
    }

    /// The same in whole mm as the table shows it: sentence and row are rounded once.
    fn moves_shown(&self, place: HandPlace) -> (i64, i64) {
        let shown = |axis| match self.cell(Question::Moved(place, axis)).change {
            Change::By(by) => by,
            Change::Same | Change::None => 0,
        };
        (shown(Axis::Forward), shown(Axis::Up))
    }

    /// Hands hurt or go numb, and what is asked follows from that.
    fn asks_of_hands(&self) -> bool {
        self.asks_of(|about| about == Concern::Hands)
    }

    fn asks_of(&self, is_it: impl Fn(Concern) -> bool) -> bool {
        let bad = |of: &fit_doc::Complaint| is_it(of.about) && of.score != Some(0);
        self.of.visit.complaints.iter().any(bad) && self.asks(Aim::BendElbows)
    }

    /// Something is asked of the hands in the drops, and the hoods are to stay.
    pub(super) fn asks_of_drops_alone(&self) -> bool {
        self.asks(Aim::HoodsStay) && self.of.wanted.iter().any(is_neck_in_drops)
    }

    /// How far the hoods are from those of the other bike, before and after, where that is asked.
    fn off_other_mm(&self) -> Option<(i64, i64)> {
        let there = self.of.other_hoods.filter(|_| self.asks(Aim::LikeOtherBike))?;
        let off = |of: &WeighedCockpit| {
            Some(of.places.get(&HandPlace::Hoods)?.grips.midway().truncate().distance(there))
        };
        Some((whole(off(self.of.base)?), whole(off(self.to)?)))
    }

    /// How far the bar is off the width of the shoulders, before and after, where that is asked.
    fn off_shoulders_mm(&self) -> Option<(i64, i64)> {
        let shoulders = shoulders_mm(self.of.visit).filter(|_| self.asks(Aim::LikeShoulders))?;
        let off =
            |of: &WeighedCockpit| whole((of.cockpit.bend().width_hoods_cc_mm() - shoulders).abs());
        Some((off(self.of.base), off(self.to)))
    }
}

/// How far the hands in the drops are below those on the hoods, mm.
pub(super) fn depth_mm(of: &WeighedCockpit) -> Option<f64> {
    let up = |place| Some(of.places.get(&place)?.grips.midway().y);
    Some(up(HandPlace::Hoods)? - up(HandPlace::Drops)?)
}

/// What is asked for, as a row of the table with the direction that is wanted.
pub(super) fn row_of(of: &Wanted) -> Option<(Question, i64)> {
    let place = of.place.unwrap_or(HandPlace::Hoods);
    Some(match of.aim {
        Aim::ReachBrakes => (Question::Brake(of.place.unwrap_or(HandPlace::Drops)), 1),
        Aim::EaseDrops => (Question::Moved(HandPlace::Drops, Axis::Up), 1),
        Aim::EaseNeck => (Question::Neck(place), -1),
        Aim::EaseBack => (Question::Trunk(place), 1),
        Aim::BendElbows => (Question::Elbow(place), 1),
        Aim::Nearer => (Question::Moved(place, Axis::Forward), -1),
        Aim::Further => (Question::Moved(place, Axis::Forward), 1),
        Aim::Slimmer => (Question::WidthAtHoods, -1),
        Aim::EasierToSteer => (Question::WidthAtHoods, 1),
        Aim::LikeShoulders | Aim::HoodsStay | Aim::LikeOtherBike => return None,
    })
}

pub(super) type Rule = fn(&Case<'_>) -> Vec<Reason>;

/// All rules, in the order in which they speak.
const RULES: [Rule; 37] = [
    what_is_asked,
    tried_from_hoods,
    tried_for_hands,
    smoother_hoods,
    held_forward,
    outline,
    outline_too_small,
    like_other_bike,
    tail_falls,
    hoods_held,
    near_shoulders,
    nothing_bought,
    squeeze_gap,
    steerer,
    hoses,
    against_what_is_asked,
    against_what_is_held_to,
    against_limits,
    leaves_rules,
    asks_for_a_frame,
    what_gets_worse,
    still_out_of_reach,
    raising_lifts_hoods,
    bar_lifts_hoods,
    hoods_go,
    stem_moves_tops,
    under_shoulders,
    steering,
    habit,
    retape,
    one_piece,
    to_order,
    price_unknown,
    bar_alone_rarely,
    cheaper_does_less,
    cheaper_has_its_price,
    would_change,
];

/// Those that speak for an answer by what is asked for.
pub(super) const FOR_WHAT_IS_ASKED: [Rule; 8] = [
    what_is_asked,
    tried_from_hoods,
    tried_for_hands,
    smoother_hoods,
    outline,
    like_other_bike,
    tail_falls,
    near_shoulders,
];

/// A change that does not tell speaks for nothing: the one meaning of that, for table, output and answers.
pub(super) fn is_too_small(doubt: Option<Doubt>) -> bool {
    doubt.is_some_and(|doubt| !doubt.tells)
}

/// What is asked for gets better, or changes too little to tell.
fn what_is_asked(case: &Case<'_>) -> Vec<Reason> {
    let mut all = Vec::new();
    for (question, way) in case.of.wanted.iter().filter_map(row_of) {
        let cell = case.cell(question);
        let Change::By(by) = cell.change else { continue };
        if by * way <= 0 {
            continue;
        }
        let doubt = cell.doubt;
        let small = is_too_small(doubt);
        // narrower is nothing by itself for whom the wind counts; of a width that is felt all of him need only be
        // smaller, by however little: one size at a time
        let no_smaller = || {
            let felt = by.abs() >= FELT_MM;
            let of_size = case.outline_share(case.windy_place()).filter(|_| felt);
            let tells = case.outline_percent(case.windy_place()).is_some_and(|by| by < 0);
            !tells && of_size.is_none_or(|(by, _)| by >= 0.0)
        };
        let no_smaller = question == Question::WidthAtHoods && way < 0 && no_smaller();
        all.push(match question {
            // what is felt of the width tells: what does not is what it does to the outline
            _ if no_smaller && !small && by.abs() >= FELT_MM => {
                Reason::OutlineNoSmaller { place: case.windy_place(), narrower_mm: by.abs() }
            }
            _ if small || no_smaller => Reason::TooSmall { question },
            Question::Brake(place) => {
                let before = Question::Brake(place).cell(case.of.base, None);
                match (before.shown(), cell.shown()) {
                    (Some(before_mm), Some(after_mm)) => {
                        let just = after_mm >= 0 && case.brake_may_be_missed(place);
                        Reason::Brake { place, before_mm, after_mm, just }
                    }
                    _ => continue,
                }
            }
            _ => Reason::Better { question, by, doubt },
        });
    }
    all.dedup();
    all
}

/// What was seen of the hand on a bar of the bench goes before what is computed of its hook.
fn held_forward(case: &Case<'_>) -> Vec<Reason> {
    if !(case.asks(Aim::ReachBrakes) && case.does(Job::OtherBar)) {
        return Vec::new();
    }
    let seen = case.of.visit.bench.iter().any(|of| {
        of.bar.id == case.to.parts.bar.id && of.drops_hand_mm == case.to.parts.drops_hand_mm
    });
    let mm = whole(case.to.parts.drops_hand_mm - case.of.base.parts.drops_hand_mm);
    (seen && mm > 0).then_some(Reason::HeldForward { mm }).into_iter().collect()
}

/// From the hoods the blade turns with the lever, and a screw sets it nearer to the bar and not to the hand:
/// whether it lies better to the fingers is tried.
fn tried_from_hoods(case: &Case<'_>) -> Vec<Reason> {
    let from_hoods = |of: &Wanted| of.aim == Aim::ReachBrakes && of.place == Some(HandPlace::Hoods);
    let tried = is_tried_from_hoods(&case.of.base.parts, &case.to.parts);
    let tells = tried && case.of.wanted.iter().any(from_hoods);
    tells.then_some(Reason::TriedFromHoods).into_iter().collect()
}

/// Hands that hurt or go numb lie otherwise on levers that are turned in; whether that does it is tried.
fn tried_for_hands(case: &Case<'_>) -> Vec<Reason> {
    let asked = case.asks_of(|about| matches!(about, Concern::Hands | Concern::Arms));
    let tells = asked && is_turned_in(&case.of.base.parts, &case.to.parts);
    tells.then_some(Reason::TriedForHands).into_iter().collect()
}

/// Hands that hurt or go numb lie flatter where the hoods go on from the ramps: from a kink that is too much.
fn smoother_hoods(case: &Case<'_>) -> Vec<Reason> {
    let off =
        |of: &WeighedCockpit| Some(off_ramp_deg(of.cockpit.levers()?, of.cockpit.bend(), 0.0));
    let Some((before, after)) = off(case.of.base).zip(off(case.to)) else { return Vec::new() };
    let tells = before > SMOOTH_DEG && before - after.max(SMOOTH_DEG) >= FELT_TURN_DEG;
    let (before_deg, after_deg) = (whole(before), whole(after));
    (tells && case.asks_of_hands())
        .then_some(Reason::SmootherHoods { before_deg, after_deg })
        .into_iter()
        .collect()
}

/// The outline that the wind meets: smaller where the hands are most, larger anywhere.
fn outline(case: &Case<'_>) -> Vec<Reason> {
    if !case.asks(Aim::Slimmer) {
        return Vec::new();
    }
    let counts = case.windy_place();
    let told = HandPlace::ALL.into_iter().filter_map(|place| {
        let percent = case.outline_percent(place)?;
        (percent > 0 || place == counts).then_some(Reason::Outline { place, percent })
    });
    told.collect()
}

/// A size narrower is offered for the wind also where the outline is smaller by too little to tell: it is what
/// is tried (common practice, no source), and that is said.
fn outline_too_small(case: &Case<'_>) -> Vec<Reason> {
    let place = case.windy_place();
    let narrower = |of: &Reason| matches!(of, Reason::Better { question: Question::WidthAtHoods, by, .. } if *by < 0);
    let told = case.outline_percent(place).is_some_and(|by| by < 0);
    let tells = case.asks(Aim::Slimmer) && !told && what_is_asked(case).iter().any(narrower);
    tells.then_some(Reason::OutlineTooSmall { place }).into_iter().collect()
}

/// Hoods that go further than a bar should take them, or a stem that is too short, are the frame's business.
fn asks_for_a_frame(case: &Case<'_>) -> Vec<Reason> {
    frame_questions(case.of.base, case.to).into_iter().map(Reason::Frame).collect()
}

fn like_other_bike(case: &Case<'_>) -> Vec<Reason> {
    let Some((before_mm, after_mm)) = case.off_other_mm() else { return Vec::new() };
    let nearer = after_mm + FELT_MM / 2 <= before_mm;
    nearer.then_some(Reason::LikeOther { before_mm, after_mm }).into_iter().collect()
}

fn tail_falls(case: &Case<'_>) -> Vec<Reason> {
    let slope = |of: &WeighedCockpit| {
        of.parts.bar.tail_slope_deg + fit_doc::geometry::mounted_roll_deg(&of.parts)
    };
    let by = slope(case.to) - slope(case.of.base);
    let tells = case.asks(Aim::EaseDrops) && by >= FELT_TURN_DEG;
    tells.then(|| Reason::TailFalls { by_deg: whole(by) }).into_iter().collect()
}

fn hoods_held(case: &Case<'_>) -> Vec<Reason> {
    let other = case.does(Job::OtherBar) || case.does(Job::OtherStem);
    let asked = case.asks(Aim::HoodsStay) || case.asks(Aim::EaseDrops);
    let hands = |of: &WeighedCockpit| of.places.get(&HandPlace::Hoods).map(|of| of.grips);
    let hold = |(from, to): (GripPair, GripPair)| {
        let moves = [to.left.centre - from.left.centre, to.right.centre - from.right.centre];
        moves.iter().all(|by| by.truncate().length() < HELD_MM)
    };
    let held = hands(case.of.base).zip(hands(case.to)).filter(|of| hold(*of));
    // across the bike: of both sides the one that goes further
    let out = |(from, to): (GripPair, GripPair)| {
        let left = to.left.centre.z.abs() - from.left.centre.z.abs();
        let right = to.right.centre.z.abs() - from.right.centre.z.abs();
        if left.abs() > right.abs() { left } else { right }
    };
    let out_mm = held.filter(|_| other && asked).map(out);
    let told = |mm: f64| if mm.abs() < HELD_MM { 0 } else { whole(mm) };
    out_mm.map(|mm| Reason::HoodsHeld { out_mm: told(mm) }).into_iter().collect()
}

fn near_shoulders(case: &Case<'_>) -> Vec<Reason> {
    let Some((before_mm, after_mm)) = case.off_shoulders_mm() else { return Vec::new() };
    (after_mm < before_mm)
        .then_some(Reason::NearShoulders { before_mm, after_mm })
        .into_iter()
        .collect()
}

fn nothing_bought(case: &Case<'_>) -> Vec<Reason> {
    let bought = case.work.steps.iter().any(|step| step.bought.is_some() || step.to_find);
    (!bought && !case.work.needs_tape() && !case.work.is_none())
        .then_some(Reason::NothingBought)
        .into_iter()
        .collect()
}

/// A blade that is set nearer has less stroke: what a hard squeeze leaves of the tube's distance.
fn squeeze_gap(case: &Case<'_>) -> Vec<Reason> {
    if !case.does(Job::ReachScrew) && !screws_in(case) {
        return Vec::new();
    }
    let reach = case.to.brake(HandPlace::Drops);
    let gap = reach.map(|reach| {
        reach.sides.iter().map(|side| side.now.squeeze_gap_mm).fold(f64::INFINITY, f64::min)
    });
    gap.map(|mm| Reason::SqueezeGap { mm: whole(mm) }).into_iter().collect()
}

/// On another bar or of another kind levers are set anew, and that is no job of its own.
fn screws_in(case: &Case<'_>) -> bool {
    let clicks = |of: &WeighedCockpit| {
        of.parts.levers.as_ref().map(|levers| levers.left.clicks.max(levers.right.clicks))
    };
    clicks(case.to) > clicks(case.of.base)
}

fn steerer(case: &Case<'_>) -> Vec<Reason> {
    let more = case.to.parts.spacers_mm - case.of.base.parts.spacers_mm;
    (more > 0.0).then(|| Reason::Steerer { mm: whole(more) }).into_iter().collect()
}

fn hoses(case: &Case<'_>) -> Vec<Reason> {
    let Some(by) = case.moves(HandPlace::Hoods) else { return Vec::new() };
    // what comes nearer leaves more of them
    let asks = by.max(DVec2::ZERO).length() > HOSES_MM;
    // how far is said once
    let said = moves_hoods_that_stay(case) || !raising_lifts_hoods(case).is_empty();
    let by = (!said).then(|| case.moves_shown(HandPlace::Hoods));
    asks.then_some(Reason::Hoses { by }).into_iter().collect()
}

/// A brake that is asked for, and that the fingers do not reach on this cockpit either.
fn still_out_of_reach(case: &Case<'_>) -> Vec<Reason> {
    let asked = case.of.wanted.iter().filter(|of| of.aim == Aim::ReachBrakes).filter_map(row_of);
    let missing = asked.filter_map(|(row, _)| match row {
        Question::Brake(place) => {
            // of the exact number: a cell that says "same" shows the one that it is the same as
            let spare = whole(case.to.brakes?.to_spare_mm(place)?);
            let told = case.by(row).is_some();
            (spare < 0 && !told).then_some(Reason::StillOutOfReach { place, mm: -spare })
        }
        _ => None,
    });
    missing.collect()
}

/// What is asked for and gets worse.
pub(super) fn against_what_is_asked(case: &Case<'_>) -> Vec<Reason> {
    let mut all = Vec::new();
    for (question, way) in case.of.wanted.iter().filter_map(row_of) {
        if let Some(by) = case.by(question).filter(|by| by * way < 0) {
            all.push(Reason::Worse { question, by, doubt: case.cell(question).doubt });
        }
    }
    all.dedup();
    all
}

/// Hoods that are to stay do not.
fn moves_hoods_that_stay(case: &Case<'_>) -> bool {
    let by = case.moves(HandPlace::Hoods).filter(|by| by.length() >= HELD_MM);
    by.is_some() && case.asks(Aim::HoodsStay)
}

/// What has no row of its own and is asked for: hoods that stay, or are as on another bike, and a bar
/// as wide as the shoulders.
pub(super) fn against_what_is_held_to(case: &Case<'_>) -> Vec<Reason> {
    let mut all = Vec::new();
    if moves_hoods_that_stay(case) {
        let (forward_mm, up_mm) = case.moves_shown(HandPlace::Hoods);
        all.push(Reason::HoodsMove { forward_mm, up_mm });
    }
    if let Some((before_mm, after_mm)) = case.off_other_mm()
        && after_mm >= before_mm + FELT_MM / 2
    {
        all.push(Reason::OffOther { before_mm, after_mm });
    }
    if let Some((before_mm, after_mm)) = case.off_shoulders_mm()
        && after_mm > before_mm
    {
        all.push(Reason::OffShoulders { before_mm, after_mm });
    }
    all
}

/// What was to stay, and limits: only what was ridden, or stood there before they were set, is outside.
fn against_limits(case: &Case<'_>) -> Vec<Reason> {
    let (bounds, to) = (&case.of.visit.bounds, &case.to.parts);
    let changes = |what: Stays| match what {
        Stays::LeverPlace => case.does(Job::LeverAlong),
        Stays::LeverKind => case.does(Job::OtherLevers),
        Stays::Roll => case.does(Job::Roll),
        Stays::Spacers => case.does(Job::Spacers),
        Stays::Stem => case.does(Job::OtherStem) || case.does(Job::StemTurned),
        Stays::Bar => case.does(Job::OtherBar),
    };
    let changed = bounds.stays.iter().copied().filter(|what| changes(*what));
    let outside = |span: Option<(f64, f64)>, value: f64| {
        span.is_some_and(|(from, to)| value < from || value > to)
    };
    let width = case.to.cockpit.bend().width_hoods_cc_mm();
    let stem = fit_doc::geometry::mounted_stem(to).length_mm;
    // what is on the bike may stay
    let other_bar = case.does(Job::OtherBar);
    let other_stem = case.does(Job::OtherStem) || other_bar && to.bar.one_piece.is_some();
    let spacers = bounds.spacers_mm.is_some_and(|most| to.spacers_mm > most);
    let over = [
        (Quantity::BarWidthAtHoods, other_bar && outside(bounds.width_mm, width)),
        (Quantity::StemLength, other_stem && outside(bounds.stem_mm, stem)),
        (Quantity::Spacers, case.does(Job::Spacers) && spacers),
        (
            Quantity::WorkMinutes,
            bounds.minutes.is_some_and(|most| *case.work.minutes().end() > most),
        ),
        (
            Quantity::PartsPrice,
            bounds.money.is_some_and(|most| case.work.parts().cents > most.cents),
        ),
    ];
    let over = over.into_iter().filter(|(_, is)| *is && !case.work.is_none());
    let stayed = changed.map(|what| Reason::WasToStay { what });
    stayed.chain(over.map(|(quantity, _)| Reason::OverLimit { quantity })).collect()
}

/// Rules of events that the client rides and this bar leaves, also where it is the one that came.
fn leaves_rules(case: &Case<'_>) -> Vec<Reason> {
    rules_left(case.of.visit, case.to)
}

/// The same of any cockpit; nothing where nobody asked for the rules.
pub(super) fn rules_left(visit: &Visit, of: &WeighedCockpit) -> Vec<Reason> {
    let rules = visit.bounds.event_rules.then(|| event_rules(&of.cockpit, visit.date));
    let left = rules.into_iter().flatten().filter(|rule| !rule.is_kept());
    left.map(|EventRule { number, mm, asked_mm }| {
        // what is outside by less than half a millimetre is shown outside
        let mm = if number == EventNumber::Flare { mm.ceil() } else { mm.floor() };
        Reason::LeavesRule { number, mm: whole(mm), asked_mm: whole(asked_mm) }
    })
    .collect()
}

/// Room in neck and hip, the brakes, elbows and wrists, in the places that are held.
pub(super) fn what_gets_worse(case: &Case<'_>) -> Vec<Reason> {
    let mut all = Vec::new();
    let asked: Vec<Question> =
        case.of.wanted.iter().filter_map(row_of).map(|(row, _)| row).collect();
    for place in [HandPlace::Hoods, HandPlace::Drops] {
        let rows = [
            (Question::Brake(place), -1, FELT_BRAKE_MM),
            (Question::Neck(place), 1, LOST_DEG + 1),
            (Question::Hip(place), -1, LOST_DEG + 1),
            (Question::Elbow(place), -1, 2 * (LOST_DEG + 1)),
        ];
        for (question, way, least) in rows {
            let by = case.by(question).filter(|by| by * way >= least);
            if let Some(by) = by.filter(|_| !asked.contains(&question)) {
                let doubt = case.cell(question).doubt;
                all.push(Reason::Worse { question, by, doubt });
            }
        }
        all.extend(tips_further(case, place));
    }
    all
}

/// A hand that tips further from the line of its forearm.
pub(super) fn tips_further(case: &Case<'_>, place: HandPlace) -> Option<Reason> {
    let question = Question::Wrist(place);
    let by = case.by(question).filter(|by| by.abs() >= TIPPED_DEG)?;
    let off = |of: &WeighedCockpit| {
        Some(of.places.get(&place)?.wrist_line_rad.iter().map(|rad| rad.abs()).sum::<f64>())
    };
    let further = off(case.to)? > off(case.of.base)?;
    further.then(|| Reason::Worse { question, by, doubt: case.cell(question).doubt })
}

/// Raising the stem eases the drops, and the hoods rise by as much.
pub(super) fn raising_lifts_hoods(case: &Case<'_>) -> Vec<Reason> {
    let raised = case.does(Job::Spacers) || case.does(Job::StemTurned) || case.does(Job::OtherStem);
    let clamp_mm = case.to.cockpit.clamp().y - case.of.base.cockpit.clamp().y;
    // what the hoods do, roll and levers with it: of hoods that stay nothing is said
    let (mm, by_stem) = (case.moves_shown(HandPlace::Hoods).1, whole(clamp_mm));
    (raised && mm >= FELT_MM && by_stem >= FELT_MM && !moves_hoods_that_stay(case))
        .then_some(Reason::RaisingLiftsHoods { mm })
        .into_iter()
        .collect()
}

/// Another bar may lift the hoods by itself.
fn bar_lifts_hoods(case: &Case<'_>) -> Vec<Reason> {
    let clamp_mm = case.to.cockpit.clamp().y - case.of.base.cockpit.clamp().y;
    let mm = case.moves_shown(HandPlace::Hoods).1;
    (case.does(Job::OtherBar) && mm >= FELT_MM && whole(clamp_mm) < FELT_MM)
        .then_some(Reason::BarLiftsHoods { mm })
        .into_iter()
        .collect()
}

/// Where the hoods go, by as much as is felt, where nothing else of the answer says so.
fn hoods_go(case: &Case<'_>) -> Vec<Reason> {
    let felt = case.moves(HandPlace::Hoods).is_some_and(|by| whole(by.length()) >= FELT_MM);
    let row = |of: &Wanted| row_of(of).map(|(row, _)| row);
    let asked = case.of.wanted.iter().filter_map(row);
    let asked = asked.into_iter().any(|of| matches!(of, Question::Moved(HandPlace::Hoods, _)));
    let lifts = || !raising_lifts_hoods(case).is_empty() || !bar_lifts_hoods(case).is_empty();
    let with_hoses = || hoses(case).iter().any(|of| matches!(of, Reason::Hoses { by: Some(_) }));
    let said = asked || moves_hoods_that_stay(case) || lifts() || with_hoses();
    let (forward_mm, up_mm) = case.moves_shown(HandPlace::Hoods);
    (felt && !said).then_some(Reason::HoodsGo { forward_mm, up_mm }).into_iter().collect()
}

/// How much higher the hands are where a neck or a back is asked about: what speaks for raising them where what
/// that does to the body is too small to tell.
pub(super) fn hands_higher(case: &Case<'_>) -> Vec<Reason> {
    let eased = case.of.wanted.iter().filter(|of| matches!(of.aim, Aim::EaseNeck | Aim::EaseBack));
    let higher = eased.filter_map(|of| {
        let place = of.place.unwrap_or(HandPlace::Hoods);
        let question = Question::Moved(place, Axis::Up);
        let by = case.by(question).filter(|by| *by >= FELT_MM)?;
        Some(Reason::Better { question, by, doubt: case.cell(question).doubt })
    });
    let mut all: Vec<Reason> = higher.collect();
    all.dedup();
    all
}

/// A shorter stem offsets reach and moves the tops by as much.
fn stem_moves_tops(case: &Case<'_>) -> Vec<Reason> {
    let (forward_mm, _) = case.moves_shown(HandPlace::Tops);
    let mm = -forward_mm;
    (case.does(Job::OtherStem) && mm.abs() >= FELT_MM / 2)
        .then_some(Reason::StemMovesTops { mm })
        .into_iter()
        .collect()
}

fn under_shoulders(case: &Case<'_>) -> Vec<Reason> {
    let Some(shoulders) = shoulders_mm(case.of.visit).filter(|_| case.does(Job::OtherBar)) else {
        return Vec::new();
    };
    let under = |of: &WeighedCockpit| whole(shoulders - of.cockpit.bend().width_hoods_cc_mm());
    let (before, by_mm) = (under(case.of.base), under(case.to));
    (by_mm > FELT_MM && by_mm > before)
        .then_some(Reason::UnderShoulders { by_mm })
        .into_iter()
        .collect()
}

/// Effort to steer goes with one over the width of the hands about the axis.
fn steering(case: &Case<'_>) -> Vec<Reason> {
    let Some(percent) = case.by(Question::Steering(HandPlace::Hoods)) else { return Vec::new() };
    let tells = percent.abs() >= FELT_STEERING && case.does(Job::OtherBar);
    tells.then_some(Reason::Steering { percent }).into_iter().collect()
}

fn habit(case: &Case<'_>) -> Vec<Reason> {
    case.does(Job::HandInDrops).then_some(Reason::Habit).into_iter().collect()
}

fn retape(case: &Case<'_>) -> Vec<Reason> {
    case.work.needs_tape().then_some(Reason::Retape).into_iter().collect()
}

fn one_piece(case: &Case<'_>) -> Vec<Reason> {
    let new = case.to.parts.bar.one_piece.is_some() && case.does(Job::OtherBar);
    new.then_some(Reason::OnePiece).into_iter().collect()
}

fn to_order(case: &Case<'_>) -> Vec<Reason> {
    let bought = case.work.steps.iter().filter_map(|step| step.bought.as_ref());
    let ordered = bought.filter(|of| of.to_order);
    ordered.map(|of| Reason::ToOrder { name: of.name.clone() }).collect()
}

fn price_unknown(case: &Case<'_>) -> Vec<Reason> {
    let bought = case.work.steps.iter().filter_map(|step| step.bought.as_ref());
    let unknown = bought.filter(|of| of.price.is_none());
    unknown.map(|of| Reason::PriceUnknown { name: of.name.clone() }).collect()
}

/// What would change the advice.
fn would_change(case: &Case<'_>) -> Vec<Reason> {
    let mut all = Vec::new();
    let other_bar = case.does(Job::OtherBar);
    if other_bar && case.to.parts.bar.shelf.known_by == KnownBy::Catalogue {
        all.push(Reason::BarByCatalogue);
    }
    if let Some(next) = case.of.weighed.measure_next().filter(MeasureNext::is_worth_its_time) {
        all.push(Reason::Measure(next.item));
    }
    if !case.to.parts.ridden {
        all.push(Reason::RideIt);
    }
    all
}

#[cfg(test)]
#[path = "rules_tests.rs"]
mod tests;

#[cfg(test)]
#[path = "rules_why_not_tests.rs"]
mod why_not_tests;

#[cfg(test)]
#[path = "rules_wind_tests.rs"]
mod wind_tests;
