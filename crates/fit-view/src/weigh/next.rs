//! Measure this next: which reading not yet taken would tell most of how the client sits on the bike
//! as it came.
//!
//! The question on the table is the trunk with the hands on the hoods (on the tops, where there are
//! no levers): everything else that is asked of a posture follows it. How it turns with the body is
//! taken from the solver by small differences of each link, and from links to dimensions by
//! [`Link::gradient_of_all`]. Radians.

use super::weighed::{Weighed, WeighedCockpit};
use fit_doc::HandPlace;
use fit_math::body::{Item, Link, SegmentLengths, Segments, measure_next as worth_of};
use fit_math::posture::solve;

/// How far a link is moved to see what turns with it, mm, either way.
const STEP_MM: f64 = 1.0;

/// The reading that would tell most.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct MeasureNext {
    /// What to read.
    pub item: Item,
    /// Hands there; the question is the trunk above level.
    pub place: HandPlace,
    /// Standard deviation of the trunk as the body is known now, radians.
    pub sd_now_rad: f64,
    /// The same with that reading, radians.
    pub sd_then_rad: f64,
}

impl Weighed {
    /// What to measure next; none where all that is usually read was read.
    pub fn measure_next(&self) -> Option<MeasureNext> {
        let came = self.as_it_came()?;
        let places = [HandPlace::Hoods, HandPlace::Tops];
        let place = places.into_iter().find(|place| came.places.contains_key(place))?;
        let turns: Vec<(Link, f64)> = [
            Link::UpperArm,
            Link::Forearm,
            Link::Hand,
            Link::Trunk,
            Link::ShouldersApart,
            Link::HipAbove,
        ]
        .into_iter()
        .filter_map(|link| Some((link, self.trunk_by_link(came, place, link)?)))
        .collect();
        let question = Link::gradient_of_all(&turns, &self.body);
        let worth = *worth_of(&self.body, &question, &Item::USUAL).first()?;
        Some(MeasureNext {
            item: worth.item,
            place,
            sd_now_rad: worth.sd_now,
            sd_then_rad: worth.sd_then,
        })
    }

    /// How the trunk turns with a link, radians per mm; none where such a body cannot be.
    fn trunk_by_link(&self, on: &WeighedCockpit, place: HandPlace, link: Link) -> Option<f64> {
        let at = on.places.get(&place)?;
        let trunk_rad = |by_mm: f64| {
            let lengths = moved(*self.rider.segments().lengths(), link, by_mm);
            let rider = self.rider.clone().with_segments(Segments::new(lengths).ok()?);
            let posture = solve(&rider, &on.seat, &at.hands, place, None);
            Some(posture.report(&rider, &on.seat, &at.hands, place).trunk_rad)
        };
        Some((trunk_rad(STEP_MM)? - trunk_rad(-STEP_MM)?) / (2.0 * STEP_MM))
    }
}

/// The same body with one link longer; arms both.
fn moved(mut lengths: SegmentLengths, link: Link, by_mm: f64) -> SegmentLengths {
    match link {
        Link::UpperArm => lengths.arms.iter_mut().for_each(|arm| arm.upper_arm_mm += by_mm),
        Link::Forearm => lengths.arms.iter_mut().for_each(|arm| arm.forearm_mm += by_mm),
        Link::Hand => lengths.arms.iter_mut().for_each(|arm| arm.hand_mm += by_mm),
        Link::Trunk => lengths.trunk_mm += by_mm,
        Link::ShouldersApart => lengths.shoulders_apart_mm += by_mm,
        Link::HipAbove => lengths.hip_above_mm += by_mm,
        // no trunk turns with these
        _ => {}
    }
    lengths
}

#[cfg(test)]
mod tests {
    use crate::testing::{candidates, session};
    use crate::weigh::{Survey, weigh};
    use fit_doc::{Dimension as D, HandPlace, Item, Reading};
    use std::sync::Arc;

    /// The doubt that is foretold is the doubt that is found once the reading was taken.
    #[test]
    fn the_doubt_foretold_is_the_doubt_found() {
        let survey = Survey::shipped().unwrap();
        let mut session = session(candidates());
        Arc::make_mut(&mut session.visits[0]).body = vec![
            Reading::of(D::Stature, vec![1756.0]),
            Reading::of(D::Weight, vec![85.5]),
            Reading::of(D::CrotchHeight, vec![846.0]),
        ];
        let mut before = f64::INFINITY;
        let mut taken = Vec::new();
        while let Some(next) = weigh(&session, None, &survey).unwrap().measure_next() {
            assert_eq!(next.place, HandPlace::Hoods);
            assert!(next.sd_then_rad <= next.sd_now_rad && next.sd_now_rad <= before * 1.02);
            // what was foretold is found, but that the answer turns a little otherwise there
            if before.is_finite() {
                assert!((next.sd_now_rad / before - 1.0).abs() < 0.02, "{next:?} {before}");
            }
            before = next.sd_then_rad;
            let known = weigh(&session, None, &survey).unwrap().body;
            let value = next.item.gradient().at(|d| known.value(d)) + next.item.offset();
            Arc::make_mut(&mut session.visits[0]).body.push(Reading::of(next.item, vec![value]));
            taken.push(next.item);
        }
        assert!([Item::ShoulderToFist, Item::Notch].contains(&taken[0]), "{taken:?}");
        assert!(taken.len() >= 5, "{taken:?}");
    }
}
