//! Drops that are to come up. A neck that hurts there: a shallower bar under hoods that stay, and where the shop
//! has none all is raised instead; else what would be ordered. Drops that cannot be used: what raises them.

use super::rungs::{NotOffered, Shelf, Variant};
use super::search::{Ask, Sought, USUAL_CLAMP_MM, is_neck_in_drops};
use core::ops::RangeInclusive;
use fit_doc::work::{Job, Work};
use fit_doc::{Aim, Bounds, Cockpit, Counts, Visit, Wanted};
use fit_math::cockpit::Cockpit as Built;
use fit_math::hand::palm_room;

/// A bar is shallower by as much as hands feel, mm (common practice, no source).
const FELT_MM: f64 = 10.0;
/// How much less deep the drops are made for a neck, mm: what is ordered where the shop has nothing (common
/// practice, no source).
const LESS_DEEP_MM: (f64, f64) = (15.0, 30.0);

/// How much more under the stem is tried for drops that cannot be used, mm (common practice, no source).
const RAISE_MM: RangeInclusive<f64> = 10.0..=20.0;

/// Bars with less drop are hardly made, mm (common practice, no source).
const LEAST_DROP_MM: f64 = 90.0;

/// A limit within which the shop has nothing, and would without it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum LeftNothing {
    /// What a part may cost.
    Money,
    /// Only what lies on the shelf.
    InStockOnly,
    /// How wide the bar may be.
    Width,
    /// Only what the rules of events allow.
    EventRules,
}

/// Something that is wanted and is not asked any more.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct GivenUp {
    /// What.
    pub wanted: Wanted,
    /// The limit that left nothing that does it; none: the shop has nothing.
    pub by: Option<LeftNothing>,
}

/// What would be ordered, mm.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct ToOrder {
    /// Its drop, least and most.
    pub(super) drop_mm: (f64, f64),
    /// Its reach, at most.
    pub(super) reach_mm: f64,
    pub(super) width_mm: f64,
    /// Money, time, width or the shelf are limited: beyond that the shop may have one.
    pub(super) is_limited: bool,
    /// Until it is there all is raised instead: nobody said that the hoods stay.
    pub(super) is_raised: bool,
    /// The limit that leaves nothing in the shop, where it is one by itself.
    pub(super) left_nothing: Option<LeftNothing>,
}

/// What would be ordered in place of a bar so that its drops are less deep under hoods that stay; none where
/// that is not asked, or where no such bar is made.
pub(super) fn would_order(wanted: &[Wanted], base: &Cockpit, held: &Bounds) -> Option<ToOrder> {
    let asks = |aim: Aim| wanted.iter().any(|of| of.aim == aim);
    let of_drops = asks(Aim::EaseDrops) || wanted.iter().any(is_neck_in_drops);
    let bar = &base.bar;
    let (from, to) = (bar.drop_mm - LESS_DEEP_MM.1, bar.drop_mm - LESS_DEEP_MM.0);
    (asks(Aim::HoodsStay) && of_drops && to >= LEAST_DROP_MM).then(|| ToOrder {
        drop_mm: (from.max(LEAST_DROP_MM), to),
        reach_mm: bar.reach_mm,
        width_mm: held.width_mm.map_or(bar.width_mm, |(from, to)| bar.width_mm.min(to).max(from)),
        is_limited: held.money.is_some()
            || held.minutes.is_some()
            || held.width_mm.is_some()
            || held.in_stock_only,
        is_raised: false,
        left_nothing: None,
    })
}

impl Shelf<'_> {
    /// What would be ordered where the drops are to be less deep under hoods that stay, and no bar that may be
    /// offered is so by as much as is felt and takes the palm. Where a neck hurts in the drops, and nobody said
    /// that the hoods stay, that is then asked no more.
    pub(super) fn to_order(
        &self,
        visit: &Visit,
        wanted: &mut Vec<Wanted>,
        palm_mm: f64,
    ) -> Option<ToOrder> {
        let to_order = would_order(wanted, self.base, self.bounds)?;
        if self.has_shallower(&self.bars, palm_mm) {
            return None;
        }
        let is_raised = visit.wanted.is_empty() && wanted.iter().any(is_neck_in_drops);
        wanted.retain(|of| !(is_raised && of.aim == Aim::HoodsStay));
        let left_nothing = self.left_nothing(&visit.bounds, palm_mm);
        Some(ToOrder { is_raised, left_nothing, ..to_order })
    }

    fn has_shallower(&self, bars: &[Result<Variant, NotOffered>], palm_mm: f64) -> bool {
        let offered = bars.iter().filter_map(|of| of.as_ref().ok());
        offered.into_iter().any(|(of, _)| self.is_shallower(of, palm_mm))
    }

    /// The limit, of those that were said, without which there would be such a bar.
    fn left_nothing(&self, said: &Bounds, palm_mm: f64) -> Option<LeftNothing> {
        let all = [
            (LeftNothing::Money, Bounds { money: None, ..self.bounds.clone() }),
            (LeftNothing::InStockOnly, Bounds { in_stock_only: false, ..self.bounds.clone() }),
            (LeftNothing::EventRules, Bounds { event_rules: false, ..self.bounds.clone() }),
            (LeftNothing::Width, Bounds { width_mm: None, ..self.bounds.clone() }),
        ];
        let was_said = |limit: LeftNothing| match limit {
            LeftNothing::Money => said.money.is_some(),
            LeftNothing::InStockOnly => said.in_stock_only,
            LeftNothing::EventRules => said.event_rules,
            LeftNothing::Width => said.width_mm.is_some(),
        };
        let mut said = all.iter().filter(|(limit, _)| was_said(*limit));
        let without = said.find(|(_, bounds)| {
            let shelf = self.within(bounds);
            shelf.has_shallower(&shelf.looked_at(), palm_mm)
        });
        without.map(|(limit, _)| *limit)
    }

    fn is_shallower(&self, of: &Cockpit, palm_mm: f64) -> bool {
        let Some(built) = self.built(of) else { return false };
        let width_mm = built.bend().width_hoods_cc_mm();
        let (from, to) = self.bounds.width_mm.unwrap_or((0.0, f64::INFINITY));
        let spare = |of: &Cockpit, built: &Built| palm_spare_mm(of, built, palm_mm);
        let fits = spare(of, &built)
            .zip(spare(self.base, self.base_built))
            .is_some_and(|(then, now)| then >= now.min(0.0));
        of.bar.drop_mm <= self.base.bar.drop_mm - FELT_MM
            && of.bar.clamp_diameter_mm >= USUAL_CLAMP_MM
            && (from..=to).contains(&width_mm)
            && fits
    }
}

/// What a palm has to spare in the drops, of both sides the lesser, mm; none without levers.
fn palm_spare_mm(of: &Cockpit, built: &Built, palm_mm: f64) -> Option<f64> {
    let (levers, clamp_mm) = (built.levers()?, of.levers.as_ref()?.lever.clamp_width_mm);
    let sides = [levers.left, levers.right].into_iter();
    let rooms = sides.flat_map(|of| palm_room(built.bend(), of.along_mm, clamp_mm, palm_mm));
    rooms.map(|room| room.room_mm - room.needed_mm).reduce(f64::min)
}

/// Whether work is one step that raises the hands and for which nothing is bought.
pub(super) fn is_free_raise(base: &Cockpit, to: &Cockpit, work: &Work) -> bool {
    match &work.steps[..] {
        [step] => match step.job {
            Job::Spacers => to.spacers_mm > base.spacers_mm,
            Job::StemTurned => to.stem.angle_deg > base.stem.angle_deg,
            _ => false,
        },
        _ => false,
    }
}

impl Ask {
    /// Drops that cannot be used come up by 10 to 20 mm with all the rest, after what leaves the hoods: told
    /// whatever it is worth beside that (common practice, no source).
    pub(super) fn is_raise_for_drops(&self, of: &Sought) -> bool {
        let asked = |of: &Wanted| of.aim == Aim::EaseDrops && of.counts != Counts::Little;
        let stay = self.wanted.iter().any(|of| of.aim == Aim::HoodsStay);
        let raises = match of.job {
            Job::Spacers => RAISE_MM.contains(&(of.cockpit.spacers_mm - self.base.spacers_mm)),
            Job::StemTurned => of.cockpit.stem.angle_deg > self.base.stem.angle_deg,
            _ => false,
        };
        raises && !stay && self.wanted.first().is_some_and(asked)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::choose::Ask;
    use crate::testing::{bar, session};
    use crate::weigh::{Survey, weigh_visit};
    use fit_doc::{
        Complaint, Concern, Dimension, Family, HandPlace, KnownBy, OnTheShelf, Price, Reading,
        Stock, Where,
    };
    use std::sync::Arc;

    /// What is not asked any more of a neck in the drops within those limits; in the shop is a bar that is so
    /// deep and costs 90.
    fn given_up(drop_mm: f64, in_stock: u32, bounds: Bounds) -> Option<GivenUp> {
        let mut session = session(Vec::new());
        let visit = Arc::make_mut(&mut session.visits[0]);
        let place = Some(HandPlace::Drops);
        visit.complaints =
            vec![Complaint { place, ..Complaint::about(Concern::Neck, Where::Both) }];
        visit.bounds = bounds;
        // a small palm, which fits the hook of a shallower bar
        visit.body.push(Reading::of(Dimension::HandBreadth, vec![68.0]));
        let mut bar = bar(Family::Round, 85.0, drop_mm, 420.0);
        let price = Some(Price { cents: 9000 });
        (bar.id, bar.shelf) =
            ("dear".into(), OnTheShelf { price, in_stock, known_by: KnownBy::Catalogue });
        let stock = Stock { bars: vec![bar], stems: Vec::new(), levers: Vec::new() };
        let visit = session.latest_visit().unwrap();
        let weighed = weigh_visit(&session, visit, &Survey::shipped().unwrap()).unwrap();
        Ask::new(&session, visit, &weighed, &stock).unwrap().given_up()
    }

    #[test]
    fn a_wish_that_nothing_in_the_shop_does_is_told_with_the_limit_that_left_nothing() {
        let by = |drop_mm, in_stock, bounds| given_up(drop_mm, in_stock, bounds).map(|of| of.by);
        let money = |cents| Bounds { money: Some(Price { cents }), ..Bounds::default() };
        assert_eq!(by(130.0, 1, Bounds::default()), None, "there is one");
        assert_eq!(by(130.0, 1, money(9000)), None, "and it may be bought");
        assert_eq!(by(130.0, 1, money(8900)), Some(Some(LeftNothing::Money)));
        let shelf = Bounds { in_stock_only: true, ..Bounds::default() };
        assert_eq!(by(130.0, 1, shelf.clone()), None);
        assert_eq!(by(130.0, 0, shelf), Some(Some(LeftNothing::InStockOnly)));
        let narrow = Bounds { width_mm: Some((360.0, 400.0)), ..Bounds::default() };
        assert_eq!(by(130.0, 1, narrow), Some(Some(LeftNothing::Width)));
        assert_eq!(by(145.0, 1, money(8900)), Some(None), "without money as well");
        let told = given_up(130.0, 1, money(8900)).unwrap();
        assert_eq!(told.wanted, Wanted::new(Aim::HoodsStay));
    }
}
