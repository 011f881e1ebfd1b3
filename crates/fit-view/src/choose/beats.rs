//! What a dearer answer must do to stand beside a cheaper one: more of what is asked, by an amount that
//! tells, or without something that speaks against the cheaper.

use super::asked::UP_MM;
use super::reason::Reason;
use super::row::First;
use super::rules::{Case, Common, FELT_BRAKE_MM, FELT_MM, FOR_WHAT_IS_ASKED, depth_mm};
use super::sizes::goes_further;
use crate::table::{Question, whole};
use crate::weigh::WeighedCockpit;
use fit_doc::work::{Job, Work};
use fit_doc::{Aim, HandPlace};

/// A cockpit that was found, with what is said of it.
pub(super) struct Found<'a> {
    pub(super) job: Job,
    pub(super) to: &'a WeighedCockpit,
    pub(super) work: Work,
    pub(super) reasons: Vec<Reason>,
}

/// What was found and is beaten by nothing cheaper, in order.
pub(super) struct Beaten<'a> {
    pub(super) common: Common<'a>,
    pub(super) found: Vec<Found<'a>>,
    /// How many were beaten.
    pub(super) no_more: usize,
}

impl<'a> Beaten<'a> {
    /// Takes one more, unless one of the others takes less and does as much; it stands in the place of
    /// those of which it is so itself.
    pub(super) fn take(&mut self, new: Found<'a>) {
        let common = self.common;
        let base = &common.base.parts;
        let beats = |one: &Found<'_>, other: &Found<'_>| {
            let several = one.work.steps.len() > 1;
            let stands = several && does_for_both(common, other)
                || goes_further(base, (&one.to.parts, &one.work), (&other.to.parts, &other.work));
            takes_less(&one.work, &other.work)
                && !stands
                && (is_felt_by_itself(common, one) || !is_felt_by_itself(common, other))
                && !does_more(&common.case(other.to, &other.work), one.to)
                && !harms_more(&one.reasons, &other.reasons)
        };
        if self.found.iter().any(|of| beats(of, &new)) {
            self.no_more += 1;
            return;
        }
        let (before, place) = (self.found.len(), self.found.iter().position(|of| beats(&new, of)));
        self.found.retain(|of| !beats(&new, of));
        self.no_more += before - self.found.len();
        self.found.insert(place.unwrap_or(before), new);
    }
}

/// Whether what an answer does of what is asked is felt, a millimetre that a part at an angle leaves of it
/// given.
fn is_felt_by_itself(common: Common<'_>, of: &Found<'_>) -> bool {
    let case = common.case(of.to, &of.work);
    FOR_WHAT_IS_ASKED.iter().flat_map(|rule| rule(&case)).any(|reason| is_felt_but_for(&reason, 1))
}

/// A shorter bar in the stead of a long one that is all that is changed, where what is asked has to do with its
/// reach and more: several changes for it do not beat one (common practice, no source: one at a time).
fn does_for_both(common: Common<'_>, of: &Found<'_>) -> bool {
    let first = First::of(common.wanted, &common.base.parts, false);
    let short = |first: &First| match first {
        First::ShortBar(most_mm) => of.to.parts.bar.reach_mm <= *most_mm,
        _ => false,
    };
    of.job == Job::OtherBar && of.work.steps.len() == 1 && first.iter().any(short)
}

/// Whether the answer of a case does more of what is asked than another cockpit, from the exact numbers
/// of both and by as much as is felt.
pub(super) fn does_more(case: &Case<'_>, than: &WeighedCockpit) -> bool {
    let work = Work::between(&than.parts, &case.to.parts);
    let beside = Common { base: than, others: &[], ..case.of }.case(case.to, &work);
    let more = FOR_WHAT_IS_ASKED.iter().flat_map(|rule| rule(&beside));
    let depth = |of: &WeighedCockpit| depth_mm(of).unwrap_or(0.0);
    let shallower = depth(than) - depth(case.to) >= FELT_MM as f64;
    let drops = case.asks(Aim::EaseDrops) || case.asks_of_drops_alone();
    let mut more = more.filter(|reason| !is_raised_enough(case, than, reason));
    drops && shallower || more.any(|reason| is_felt(&reason))
}

/// Whether another cockpit has the hands as high as is tried for a back, a millimetre that a part at an angle
/// leaves of it given: a trunk that comes up further is more than is asked.
fn is_raised_enough(case: &Case<'_>, than: &WeighedCockpit, reason: &Reason) -> bool {
    let Reason::Better { question: Question::Trunk(place), .. } = *reason else { return false };
    let up = |of: &WeighedCockpit| Some(of.places.get(&place)?.grips.midway().y);
    let raised = up(than).zip(up(case.of.base)).map(|(then, now)| whole(then - now));
    raised.is_some_and(|mm| mm + 1 >= whole(UP_MM))
}

/// What speaks for an answer is as much as is felt.
fn is_felt(reason: &Reason) -> bool {
    is_felt_but_for(reason, 0)
}

/// The same, a way of the hands that lacks so many mm of it among it.
fn is_felt_but_for(reason: &Reason, less_mm: i64) -> bool {
    match *reason {
        Reason::Better { question: Question::Moved(..) | Question::WidthAtHoods, by, .. } => {
            by.abs() + less_mm >= FELT_MM
        }
        Reason::Brake { before_mm, after_mm, .. } => {
            after_mm - before_mm >= FELT_BRAKE_MM || before_mm < 0 && after_mm >= 0
        }
        Reason::NearShoulders { before_mm, after_mm } => before_mm - after_mm >= FELT_MM,
        _ => reason.is_about_an_aim(),
    }
}

/// Whether something speaks against one answer that does not against another.
pub(super) fn harms_more(one: &[Reason], other: &[Reason]) -> bool {
    let same = |of: &Reason, to: &Reason| of.rule() == to.rule() && of.behind() == to.behind();
    let harms = one.iter().filter(|of| is_harm(of));
    harms.into_iter().any(|of| !other.iter().any(|to| same(of, to)))
}

/// What gets worse or stays away; what an answer takes is counted elsewhere.
const fn is_harm(reason: &Reason) -> bool {
    let away = matches!(
        reason,
        Reason::StillOutOfReach { place: HandPlace::Hoods | HandPlace::Drops, .. }
    );
    away || reason.makes_worse()
}

/// Whether one list of work takes no more money and minutes than another, and less of one of them or
/// fewer jobs. A habit of the hands takes no minutes and is not the less for it.
fn takes_less(one: &Work, other: &Work) -> bool {
    let habit = |of: &Work| of.steps.iter().any(|step| step.job == Job::HandInDrops);
    if habit(one) && !habit(other) {
        return false;
    }
    let (a, b) = (one.effort(), other.effort());
    let no_more = a.0 <= b.0 && a.1 <= b.1 && a.2 <= b.2;
    no_more && (a != b || one.steps.len() < other.steps.len())
}

#[cfg(test)]
#[path = "beats_tests.rs"]
mod tests;
