//! Two things that are wanted held against each other: the answers, and what no other assembly beats in
//! one of them without losing in the other, told in the table's own whole numbers, each with what of the
//! rest that is wanted it makes worse.

use super::advice::{Advice, Bench, base_of, weighed_surely};
use super::asked::weight;
use super::reason::Reason;
use super::rules::{is_too_small, row_of};
use super::search::{Ask, Balance, NoSearch, Progress};
use super::stops::lifts_head;
use super::tipped::tipped_out;
use crate::table::{Change, Doubt, Question, Telling, told};
use crate::weigh::{Weighed, WeighedCockpit};
use crate::words::Words;
use fit_doc::concern::stopped_by;
use fit_doc::work::{Job, Work};
use fit_doc::{Cockpit, Session, Visit};
use fit_math::body::Survey;

/// Most points that are told besides the answers: more lie on top of each other in whole numbers.
const MOST: usize = 24;

/// What an axis counts.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum AxisOf {
    /// The change of a row of the table, in its scale; `more` is wanted, or less.
    Row {
        /// Which row.
        row: Question,
        /// More of it is wanted.
        more: bool,
    },
    /// The most minutes in the workshop; fewer are wanted.
    Minutes,
}

/// An assembly on the trade-off.
#[derive(Debug, Clone, PartialEq)]
pub struct Point {
    /// The number under which it stands among the answers, counted from one; none: no answer.
    pub answer: Option<usize>,
    /// It, under a name of its own.
    pub cockpit: Cockpit,
    /// What has to be done for it.
    pub work: Work,
    /// Its whole numbers along both axes.
    pub values: [i64; 2],
    /// How far chance may take each, where the row tells that.
    pub doubts: [Option<Doubt>; 2],
    /// What of all else that is wanted or held to it makes worse, and what goes with it.
    pub against: Vec<Reason>,
    /// The points, by their places, that it cannot be told apart from along either axis.
    pub like: Vec<usize>,
}

impl Point {
    /// Along which axes it changes too little to tell.
    pub fn too_small(&self) -> [bool; 2] {
        self.doubts.map(is_too_small)
    }
}

/// A trade-off of two things.
#[derive(Debug, Clone, PartialEq)]
pub struct TradeOff {
    /// Places of what is held against each other among what is wanted; none: minutes.
    pub axes: [Option<usize>; 2],
    /// What the axes count.
    pub of: [AxisOf; 2],
    /// The points, the best along the first axis first: the answers, beaten or not, and what nothing
    /// beats; of the latter no two with the same numbers.
    pub points: Vec<Point>,
}

impl TradeOff {
    /// What marks each point: an answer its number, the others letters in their order.
    pub fn marks(&self, words: &dyn Words) -> Vec<String> {
        let mut letters = 0..;
        let mark = |point: &Point| match point.answer {
            Some(number) => number.to_string(),
            None => words.letter(letters.next().unwrap_or_default()),
        };
        self.points.iter().map(mark).collect()
    }

    /// Whether there are two points that lie apart.
    pub fn is_a_choice(&self) -> bool {
        self.points.iter().any(|of| of.values != self.points[0].values)
    }
}

impl Ask {
    /// The axes that stand first: the two things that count most of what is wanted and has rows of its own;
    /// one alone is held against the minutes.
    pub fn first_axes(&self) -> [Option<usize>; 2] {
        self.first_two(&self.axes_by_count())
    }

    fn axes_by_count(&self) -> Vec<usize> {
        let mut axes: Vec<usize> = self.axes().collect();
        let counts = |at: &usize| self.wanted.get(*at).map_or(0.0, |of| weight(of.counts));
        axes.sort_by(|one, other| counts(other).total_cmp(&counts(one)));
        axes
    }

    fn first_two(&self, axes: &[usize]) -> [Option<usize>; 2] {
        let first = axes.first().copied();
        let other = axes.iter().find(|at| self.axis(Some(**at)) != self.axis(first));
        [first, other.copied()]
    }

    /// The same, but what differs among the answers before what is the same of all of them.
    pub fn telling_axes(&self, advice: &Advice) -> [Option<usize>; 2] {
        let differs = |at: &usize| {
            let Some(axis) = self.axis(Some(*at)) else { return false };
            let all = answers([axis, AxisOf::Minutes], advice);
            all.iter().any(|of| of.values[0] != all[0].values[0])
        };
        let by_count = self.axes_by_count();
        let (telling, same): (Vec<usize>, Vec<usize>) = by_count.into_iter().partition(differs);
        // two of which one says nothing are no choice: what tells is held against the minutes
        let axes = if telling.is_empty() { same } else { telling };
        self.first_two(&axes)
    }

    /// Places of what may be an axis among what is wanted.
    pub fn axes(&self) -> impl Iterator<Item = usize> {
        let rows = self.wanted.iter().enumerate().filter(|(_, of)| row_of(of).is_some());
        rows.map(|(at, _)| at)
    }

    fn axis(&self, of: Option<usize>) -> Option<AxisOf> {
        let Some(at) = of else { return Some(AxisOf::Minutes) };
        let (row, way) = row_of(self.wanted.get(at)?)?;
        Some(AxisOf::Row { row, more: way > 0 })
    }

    /// The trade-off of two axes, with the answers on it; none where they are one, or it was stopped.
    ///
    /// # Errors
    /// [`NoSearch::Refused`].
    pub fn told_trade_off(
        &self,
        axes: [Option<usize>; 2],
        advice: &Advice,
        (session, visit): (&Session, &Visit),
        survey: &Survey,
        progress: &Progress,
        words: &dyn Words,
    ) -> Result<Option<TradeOff>, NoSearch> {
        let (Some(one), Some(other)) = (self.axis(axes[0]), self.axis(axes[1])) else {
            return Ok(None);
        };
        if one == other || stopped_by(visit).is_some() {
            return Ok(None);
        }
        let of = [one, other];
        let mut points = answers(of, advice);
        // what is no answer because it waits, was refused or was ridden in vain is no point either
        let near = self.near(session, visit);
        let may = |job, of: &Cockpit| near.may(job, of);
        let Some(mut found) = self.trade_off(axes, may, progress)? else { return Ok(None) };
        for of in &mut found {
            of.cockpit.roll_deg = whole_roll_deg(self.base(), &of.cockpit);
        }
        found.retain(|of| may(of.job, &of.cockpit));
        found.dedup_by(|one, other| one.cockpit.is_set_up_as(&other.cockpit));
        found.retain(|of| !points.iter().any(|point| point.cockpit.is_set_up_as(&of.cockpit)));
        let mut bench = Bench::of(visit);
        let spread = found.len().div_ceil(MOST).max(1);
        let ids: Vec<String> = found
            .iter()
            .step_by(spread)
            .map(|Balance { job, cockpit, .. }| bench.add((*job, cockpit), self.base(), words))
            .collect();
        let jobs = found.iter().step_by(spread).map(|of| of.job);
        let ids: Vec<(Job, String)> = jobs.zip(ids).collect();
        for point in points.iter().filter(|of| !of.work.is_none()) {
            if !bench.visit.cockpits().any(|of| of.is_set_up_as(&point.cockpit)) {
                bench.add((Job::OtherBar, &point.cockpit), self.base(), words);
            }
        }
        // what cannot be weighed beside the bench is on no trade-off
        let Ok(weighed) = weighed_surely(session, &bench.visit, survey) else { return Ok(None) };
        let Some(base) = base_of(&weighed) else { return Ok(None) };
        let common = self.common(&weighed, visit, base, &[]);
        for (job, id) in &ids {
            let Some(to) = weighed.cockpits.iter().find(|of| of.id == *id) else { continue };
            // what is no answer for the hand that it tips, or the head that it lifts, is no point either
            if tipped_out(common, to, *job).is_some() || lifts_head(common, to) {
                continue;
            }
            let work = Work::between(self.base(), &to.parts);
            let Some(numbers) = numbers(of, to, &work, (base, &weighed)) else { continue };
            let (values, doubts) = apart(numbers);
            if !points.iter().any(|point| point.values == values) {
                let against = against(&common.reasons(to, &work), of);
                let cockpit = to.parts.clone();
                let like = Vec::new();
                points.push(Point { answer: None, cockpit, work, values, doubts, against, like });
            }
        }
        let mut points = in_order(&points, of);
        tell_alike(&mut points, of, &weighed);
        Ok(Some(TradeOff { axes, of, points }))
    }
}

/// The answers that have numbers along both axes, under their own numbers.
fn answers(of: [AxisOf; 2], advice: &Advice) -> Vec<Point> {
    let Some(base) = base_of(&advice.weighed) else { return Vec::new() };
    let ideas = advice.ideas().enumerate();
    let point = |(at, (_, answer)): (usize, (usize, &super::Answer))| {
        let cockpit = answer.cockpit.clone()?;
        let to = advice.weighed.cockpits.iter().find(|to| to.id == cockpit.id)?;
        let work = answer.work.clone();
        let (values, doubts) = apart(numbers(of, to, &work, (base, &advice.weighed))?);
        let against = against(&answer.reasons, of);
        let like = Vec::new();
        Some(Point { answer: Some(at + 1), cockpit, work, values, doubts, against, like })
    };
    ideas.filter_map(point).collect()
}

/// A roll of which the screen shows no half degree: what an answer of the search would be told with.
fn whole_roll_deg(base: &Cockpit, to: &Cockpit) -> f64 {
    let (from, roll_deg) = (base.roll_deg, to.roll_deg);
    if roll_deg > from { roll_deg.floor().max(from) } else { roll_deg.ceil().min(from) }
}

/// Says of each point which others it cannot be told apart from: by what was weighed, of both.
fn tell_alike(points: &mut [Point], of: [AxisOf; 2], weighed: &Weighed) {
    let find =
        |point: &Point| weighed.cockpits.iter().find(|to| to.parts.is_set_up_as(&point.cockpit));
    let all: Vec<Option<&WeighedCockpit>> = points.iter().map(find).collect();
    let apart = |one: usize, other: usize, axis: usize| {
        let [first, second] = [one, other].map(|at| points[at].values[axis]);
        let AxisOf::Row { row, .. } = of[axis] else { return first != second };
        let Some((from, to)) = all[one].zip(all[other]) else { return first != second };
        match told(row, to, Some(from), weighed).telling() {
            // near a limit chance is known from what is there only: of both together
            Telling::By(by, None) => {
                let within =
                    [one, other].map(|at| points[at].doubts[axis].map_or(0, |of| of.within));
                by.saturating_mul(by) > within.into_iter().map(|of| of.saturating_mul(of)).sum()
            }
            Telling::By(..) => true,
            Telling::TooSmall | Telling::Same | Telling::None => false,
        }
    };
    let alike = |at: usize| {
        let others = (0..points.len()).filter(|&other| other != at);
        let near = others.filter(|&other| !apart(at, other, 0) && !apart(at, other, 1));
        let mut near: Vec<usize> = near.collect();
        // answers by their numbers, before the rest
        near.sort_by_key(|&other| points[other].answer.unwrap_or(usize::MAX));
        near
    };
    let like: Vec<Vec<usize>> = (0..points.len()).map(alike).collect();
    for (point, like) in points.iter_mut().zip(like) {
        point.like = like;
    }
}

/// Whether a reason says what goes with an assembly beside what is asked: as answers are told with it.
const fn goes_with_it(of: &Reason) -> bool {
    match of {
        Reason::RaisingLiftsHoods { .. }
        | Reason::BarLiftsHoods { .. }
        | Reason::StemMovesTops { .. }
        | Reason::HoodsGo { .. }
        | Reason::StillOutOfReach { .. }
        | Reason::Hoses { by: Some(_) } => true,
        Reason::Steering { percent } | Reason::Outline { percent, .. } => *percent > 0,
        _ => of.makes_worse(),
    }
}

/// What reasons say of all that is wanted or held to and gets worse, and of what goes with it; what an axis
/// counts stands there.
fn against(reasons: &[Reason], of: [AxisOf; 2]) -> Vec<Reason> {
    let is_told = |reason: &Reason| {
        let axis = |axis| matches!(axis, AxisOf::Row { row, .. } if reason.behind() == Some(row));
        of.into_iter().any(axis)
    };
    let worse = reasons.iter().filter(|of| goes_with_it(of) && !is_told(of));
    worse.cloned().collect()
}

/// A number along an axis, with how far chance may take it.
type Along = (i64, Option<Doubt>);

/// The whole numbers of a cockpit along both axes; none where it has not both.
fn numbers(
    of: [AxisOf; 2],
    to: &WeighedCockpit,
    work: &Work,
    (base, weighed): (&WeighedCockpit, &Weighed),
) -> Option<[Along; 2]> {
    let number = |axis| match axis {
        AxisOf::Minutes => Some((i64::from(*work.minutes().end()), None)),
        AxisOf::Row { .. } if to.id == base.id => Some((0, None)),
        AxisOf::Row { row, .. } => {
            let cell = told(row, to, Some(base), weighed);
            match cell.change {
                Change::By(by) => Some((by, cell.doubt)),
                Change::Same => Some((0, None)),
                Change::None => None,
            }
        }
    };
    Some([number(of[0])?, number(of[1])?])
}

fn apart(numbers: [Along; 2]) -> ([i64; 2], [Option<Doubt>; 2]) {
    (numbers.map(|(value, _)| value), numbers.map(|(_, doubt)| doubt))
}

impl AxisOf {
    /// A number of it so that more is better.
    const fn good(self, value: i64) -> i64 {
        match self {
            Self::Row { more: true, .. } => value,
            Self::Row { more: false, .. } | Self::Minutes => -value,
        }
    }
}

/// The answers, and of the rest those that nothing beats (in whole numbers some are beaten that exact
/// ones do not beat); the best along the first axis first.
fn in_order(points: &[Point], of: [AxisOf; 2]) -> Vec<Point> {
    let good = |point: &Point| [0, 1].map(|axis| of[axis].good(point.values[axis]));
    let beats = |one: &Point, other: &Point| {
        let (one, other) = (good(one), good(other));
        one != other && one[0] >= other[0] && one[1] >= other[1]
    };
    let stays =
        |point: &&Point| point.answer.is_some() || !points.iter().any(|other| beats(other, point));
    let mut kept: Vec<Point> = points.iter().filter(stays).cloned().collect();
    kept.sort_by_key(|point| core::cmp::Reverse(good(point)));
    kept
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::choose::anything::advised;
    use crate::testing::{deep, session};
    use crate::words::{ChoiceWords, English};
    use fit_doc::{Aim, Counts, HandPlace, Wanted};
    use std::sync::Arc;

    const NECK: AxisOf = AxisOf::Row { row: Question::Neck(HandPlace::Drops), more: false };

    fn point(answer: Option<usize>, values: [i64; 2]) -> Point {
        let (cockpit, work) = (deep(), Work::default());
        let (against, like) = (Vec::new(), Vec::new());
        Point { answer, cockpit, work, values, doubts: [None; 2], against, like }
    }

    #[test]
    fn answers_stay_under_their_numbers_and_the_rest_get_letters() {
        let all = [
            point(Some(2), [-2, 15]),
            point(Some(3), [0, 0]),
            point(None, [-3, 20]),
            point(None, [-1, 15]),
            point(None, [-1, 10]),
            // beaten by an answer that is beaten
            point(Some(4), [-2, 60]),
        ];
        let points = in_order(&all, [NECK, AxisOf::Minutes]);
        let of = TradeOff { axes: [Some(0), None], of: [NECK, AxisOf::Minutes], points };
        let values: Vec<[i64; 2]> = of.points.iter().map(|of| of.values).collect();
        assert_eq!(values, [[-3, 20], [-2, 15], [-2, 60], [-1, 10], [0, 0]]);
        assert_eq!(of.marks(&English), ["A", "2", "4", "B", "3"]);
        assert!(of.is_a_choice());
    }

    /// No bar is there to be wider: that axis is the same for every answer.
    #[test]
    fn what_is_the_same_of_all_answers_is_no_first_axis() {
        let mut session = session(Vec::new());
        let wider = Wanted { counts: Counts::Much, ..Wanted::new(Aim::EasierToSteer) };
        let neck = Wanted::new(Aim::EaseNeck).at(HandPlace::Hoods);
        Arc::make_mut(&mut session.visits[0]).wanted = vec![wider, neck];
        let (ask, advice) = advised(&session, &Survey::shipped().unwrap());
        assert!(advice.ideas().count() > 1);
        assert_eq!(ask.first_axes(), [Some(0), Some(1)]);
        assert_eq!(ask.telling_axes(&advice), [Some(1), None]);
    }

    /// A number that chance alone may make stands in brackets, as in the table.
    #[test]
    fn what_is_too_small_to_tell_of_a_point_stands_in_brackets() {
        let doubt = |tells| Some(Doubt { within: 7, tells });
        let of = |doubts| {
            let point = Point { doubts, ..point(Some(3), [-2, 15]) };
            (point.too_small(), English.balanced([NECK, AxisOf::Minutes], &point, "Bar"))
        };
        let sure = ([false; 2], "2° less, 15\u{a0}min: Bar".to_owned());
        // and one that tells with how far chance may take it
        let within = ([false; 2], "2° ±\u{a0}7 less, 15\u{a0}min: Bar".to_owned());
        assert_eq!(of([doubt(true), None]), within);
        assert_eq!(of([None, None]), sure);
        let small = ([true, false], "(2° less), 15\u{a0}min: Bar".to_owned());
        assert_eq!(of([doubt(false), None]), small);
    }

    /// Answers carry what the table says of how sure their numbers are.
    #[test]
    fn points_are_as_sure_as_their_rows() {
        let mut session = session(Vec::new());
        let neck = Wanted::new(Aim::EaseNeck).at(HandPlace::Hoods);
        Arc::make_mut(&mut session.visits[0]).wanted = vec![neck];
        let (_, advice) = advised(&session, &Survey::shipped().unwrap());
        let row = Question::Neck(HandPlace::Hoods);
        let of = [AxisOf::Row { row, more: false }, AxisOf::Minutes];
        let base = base_of(&advice.weighed).unwrap();
        let mut changed = 0;
        for point in answers(of, &advice) {
            let to = advice.weighed.cockpits.iter().find(|of| of.id == point.cockpit.id).unwrap();
            let cell = told(row, to, Some(base), &advice.weighed);
            if let Change::By(by) = cell.change {
                assert_eq!((point.values[0], point.doubts), (by, [cell.doubt, None]));
                changed += usize::from(cell.doubt.is_some());
            }
        }
        assert!(changed > 0);
    }

    #[test]
    fn points_in_one_place_are_no_choice() {
        let axes = ([Some(0), None], [NECK, AxisOf::Minutes]);
        let points = vec![point(Some(1), [-2, 10]), point(Some(2), [-2, 10])];
        let of = TradeOff { axes: axes.0, of: axes.1, points };
        assert!(!of.is_a_choice());
        assert!(!TradeOff { points: Vec::new(), ..of }.is_a_choice());
    }

    #[test]
    fn what_an_axis_counts_is_not_said_once_more() {
        let worse = |question| Reason::Worse { question, by: -13, doubt: None };
        let brake = worse(Question::Brake(HandPlace::Drops));
        let neck = worse(Question::Neck(HandPlace::Drops));
        let all = [neck, Reason::Retape, brake.clone(), Reason::NothingBought];
        assert_eq!(against(&all, [NECK, AxisOf::Minutes]), core::slice::from_ref(&brake));
        let said = English.made_worse(&[brake]);
        assert_eq!(said, "Against it: the brake is 13\u{a0}mm further away in the drops");
    }

    /// A turn that the list does not show is not set either, and none goes past where it was.
    #[test]
    fn a_point_is_turned_by_whole_degrees() {
        let of = |from: f64, to: f64| {
            let [base, to] = [from, to].map(|roll_deg| Cockpit { roll_deg, ..deep() });
            whole_roll_deg(&base, &to)
        };
        assert_eq!(
            [of(0.0, 2.5), of(0.0, -2.5), of(0.0, 3.0), of(1.5, 1.5)],
            [2.0, -2.0, 3.0, 1.5]
        );
        assert_eq!([of(2.3, 2.5), of(2.3, 2.0), of(2.5, 0.5)], [2.3, 2.0, 1.0]);
    }

    #[test]
    fn what_goes_with_a_point_is_said_as_of_answers() {
        let lifts = Reason::BarLiftsHoods { mm: 24 };
        let all = [Reason::Retape, lifts.clone(), Reason::Steering { percent: -5 }];
        assert_eq!(against(&all, [NECK, AxisOf::Minutes]), [lifts]);
    }

    #[test]
    fn two_axes_of_one_joint_are_told_apart() {
        let hoods = AxisOf::Row { row: Question::Neck(HandPlace::Hoods), more: false };
        assert_eq!(English.axis(NECK), "neck in the drops, °");
        assert_ne!(English.axis(NECK), English.axis(hoods));
    }
}
