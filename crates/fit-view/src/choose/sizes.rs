//! One size at a time (common practice, no source): the smallest step of a job that tells is an answer of its
//! own, and stands before those that go further at once.

use super::row::First;
use super::rungs::{Rung, Shelf, With};
use super::search::SURE_SPACERS_MM;
use fit_doc::work::{Job, Work};
use fit_doc::{Aim, Cockpit, HandPlace, Stem, Wanted, geometry};

/// A size of bars, mm: 20, and as much either way as makes of a bend differ (common practice, no source).
const WIDTH_MM: (f64, f64) = (12.0, 28.0);
/// How much shorter a stem is at a time, mm (common practice, no source).
const STEM_MM: f64 = 10.0;
/// Sizes that differ by less are one, mm (judgement: half of the least that stems differ by, and a quarter of
/// a size of bars).
const SAME_SIZE_MM: f64 = 5.0;

impl Shelf<'_> {
    /// The steps of one size that are asked for, each a rung of its own.
    pub(super) fn one_size(
        &self,
        wanted: &[Wanted],
        shoulders_mm: Option<f64>,
        first: &[First],
    ) -> Vec<Rung> {
        let asks = |aim: Aim| wanted.iter().any(|of| of.aim == aim);
        // a bar that is bought for its drops is bought in the client's size
        let widths = asks(Aim::LikeShoulders) && !asks(Aim::EaseDrops);
        let toward = shoulders_mm.filter(|_| widths).and_then(|mm| self.next_width(mm));
        let shorter = wanted.iter().any(is_nearer_by_a_stem).then(|| self.shorter_stem());
        let short = first.iter().filter_map(|of| match of {
            First::ShortBar(most_mm) => self.bars_alone(|of| of.bar.reach_mm <= *most_mm),
            _ => None,
        });
        let all = [toward, shorter.flatten(), self.sure_spacers()];
        all.into_iter().flatten().chain(short).collect()
    }

    /// Bars of the next size toward the shoulders.
    fn next_width(&self, shoulders_mm: f64) -> Option<Rung> {
        let now = self.base_built.bend().width_hoods_cc_mm();
        let way = (shoulders_mm - now).signum();
        let is_next = |of: &Cockpit| {
            let by = self.built(of).map(|of| way * (of.bend().width_hoods_cc_mm() - now));
            by.is_some_and(|by| (WIDTH_MM.0..=WIDTH_MM.1).contains(&by))
        };
        self.bars_alone(is_next)
    }

    /// Other bars, with what is set in their course and nothing else.
    pub(super) fn bars_alone(&self, may: impl Fn(&Cockpit) -> bool) -> Option<Rung> {
        if self.bounds.stays(fit_doc::Stays::Bar) {
            return None;
        }
        let mut bars = self.variants(Job::OtherBar, With::ItsSettings);
        bars.retain(|(of, _)| may(of));
        self.put_together(Job::OtherBar, bars, With::ItsSettings)
    }

    /// Stems that are one size shorter, at the angle that is there.
    fn shorter_stem(&self) -> Option<Rung> {
        let there = geometry::mounted_stem(self.base).length_mm;
        let is_next = |of: &Stem| {
            let by = there - of.length_mm;
            of.angle_deg == self.base.stem.angle_deg && (SAME_SIZE_MM..=STEM_MM).contains(&by)
        };
        let mut rung = self.rung(Job::OtherStem, With::NothingElse)?;
        let mut keep = rung.stems.iter().map(is_next).collect::<Vec<_>>().into_iter();
        rung.shop.stems.retain(|_| keep.next().unwrap_or(false));
        rung.stems.retain(is_next);
        (!rung.stems.is_empty()).then_some(rung)
    }

    /// Spacers up to what forks mostly take, where more are looked through.
    fn sure_spacers(&self) -> Option<Rung> {
        let mut rung = self.rung(Job::Spacers, With::NothingElse)?;
        let all = rung.shop.spacers.len();
        let sure_mm = SURE_SPACERS_MM.max(self.base.spacers_mm);
        rung.shop.spacers.retain(|of| of.at <= sure_mm);
        (!rung.shop.spacers.is_empty() && rung.shop.spacers.len() < all).then_some(rung)
    }
}

/// Hands on the hoods are to be nearer, by as much as is usual.
fn is_nearer_by_a_stem(of: &Wanted) -> bool {
    let at = of.place.unwrap_or(HandPlace::Hoods);
    of.aim == Aim::Nearer && of.by_mm.is_none() && at == HandPlace::Hoods
}

/// Whether of two single steps of one job the one goes more sizes the same way.
pub(super) fn goes_further(
    base: &Cockpit,
    one: (&Cockpit, &Work),
    other: (&Cockpit, &Work),
) -> bool {
    let job = |of: &Work| match &of.steps[..] {
        [step] => Some(step.job),
        _ => None,
    };
    let size: fn(&Cockpit) -> f64 = match (job(one.1), job(other.1)) {
        (Some(Job::OtherStem), Some(Job::OtherStem)) => |of| of.stem.length_mm,
        (Some(Job::OtherBar), Some(Job::OtherBar)) => |of| of.bar.width_mm,
        _ => return false,
    };
    let [one, other] = [one.0, other.0].map(|of| size(of) - size(base));
    is_further(one, other)
}

/// Whether of two other bars, whatever is done with them, the one goes more sizes the same way.
pub(super) fn goes_wider(base: &Cockpit, one: &Cockpit, other: &Cockpit) -> bool {
    let is_other = |of: &Cockpit| of.bar.id != base.bar.id;
    let [by, than] = [one, other].map(|of| of.bar.width_mm - base.bar.width_mm);
    is_other(one) && is_other(other) && is_further(by, than)
}

/// A size or more further the same way.
fn is_further(one: f64, other: f64) -> bool {
    one * other > 0.0 && one.abs() >= other.abs() + SAME_SIZE_MM
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::testing::{bar, deep, stem};
    use fit_doc::Family;

    #[test]
    fn one_goes_further_than_another_the_same_way_by_a_size() {
        let base = deep();
        let further = |one: &Cockpit, other: &Cockpit| {
            let works = [one, other].map(|of| Work::between(&base, of));
            goes_further(&base, (one, &works[0]), (other, &works[1]))
        };
        let shorter = |by_mm: f64| {
            let length_mm = base.stem.length_mm - by_mm;
            Cockpit { stem: stem(length_mm, base.stem.angle_deg), ..base.clone() }
        };
        assert!(further(&shorter(20.0), &shorter(10.0)));
        assert!(!further(&shorter(10.0), &shorter(20.0)));
        assert!(!further(&shorter(14.0), &shorter(10.0)), "that is no size");
        assert!(!further(&shorter(-20.0), &shorter(10.0)), "the other way");
        let wider = |by_mm: f64| {
            let width_mm = base.bar.width_mm + by_mm;
            let bar = bar(Family::Round, base.bar.reach_mm, base.bar.drop_mm, width_mm);
            Cockpit { bar: fit_doc::Bar { id: "other".into(), ..bar }, ..base.clone() }
        };
        assert!(further(&wider(40.0), &wider(20.0)) && !further(&wider(40.0), &shorter(10.0)));
        let raised = Cockpit { spacers_mm: base.spacers_mm + 10.0, ..shorter(20.0) };
        assert!(!further(&raised, &shorter(10.0)), "several changes are no size");
        let over = |of: Cockpit| Cockpit { spacers_mm: base.spacers_mm + 10.0, ..of };
        assert!(goes_wider(&base, &over(wider(40.0)), &wider(20.0)), "a width is one for all that");
        assert!(!goes_wider(&base, &wider(20.0), &over(wider(40.0))));
        assert!(!goes_wider(&base, &wider(40.0), &wider(-20.0)), "the other way");
        assert!(!goes_wider(&base, &over(base.clone()), &wider(20.0)), "the bar that came");
    }
}
