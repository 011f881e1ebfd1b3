//! Measure this next: which reading not yet taken would tell most of the question on the table, on the
//! bike as it came.
//!
//! How the answer turns with the body is taken from the solver by small differences of each link,
//! and from links to dimensions by [`Link::gradient_of_all`]. Radians.

use super::asked::Question;
use super::weighed::{Weighed, WeighedCockpit};
use fit_doc::HandPlace;
use fit_math::body::{ArmLengths, Item, Link, SegmentLengths, Segments, measure_next as worth_of};
use fit_math::posture::solve;

/// A reading that makes the doubt less by under this is not worth the client's time, degrees
/// (judgement: half of the least that is told apart).
const WORTH_DEG: f64 = 0.5;
/// How far a link is moved to see what turns with it, mm, either way.
const STEP_MM: f64 = 1.0;

/// The reading that would tell most.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct MeasureNext {
    /// What to read.
    pub item: Item,
    /// What it would tell of.
    pub question: Question,
    /// Standard deviation of the answer as the body is known now, radians.
    pub sd_now_rad: f64,
    /// The same with that reading, radians.
    pub sd_then_rad: f64,
}

impl MeasureNext {
    /// Whether the doubt gets so much less that it is worth the client's time.
    pub fn is_worth_its_time(&self) -> bool {
        (self.sd_now_rad - self.sd_then_rad).to_degrees() >= WORTH_DEG
    }
}

impl Weighed {
    /// What to measure next; none where all that is read with tape and level was read. Without levers nobody's
    /// hands are on hoods: then they are on the tops.
    pub fn measure_next(&self) -> Option<MeasureNext> {
        let came = self.as_it_came().filter(|_| self.is_grown_up)?;
        let places = [self.question.place, HandPlace::Hoods, HandPlace::Tops];
        let place = places.into_iter().find(|place| came.places.contains_key(place))?;
        let question = Question { place, ..self.question };
        let turns: Vec<(Link, f64)> = Link::ALL
            .into_iter()
            .filter_map(|link| Some((link, self.answer_by_link(came, question, link)?)))
            .collect();
        let answer = Link::gradient_of_all(&turns, &self.body);
        let items = [&Item::USUAL[..], &Item::MORE].concat();
        let worth = *worth_of(&self.body, &answer, &items).first()?;
        Some(MeasureNext {
            item: worth.item,
            question,
            sd_now_rad: worth.sd_now,
            sd_then_rad: worth.sd_then,
        })
    }

    /// How the answer turns with a link, radians per mm; none where no such body can be, or where
    /// no posture turns with it.
    fn answer_by_link(&self, on: &WeighedCockpit, question: Question, link: Link) -> Option<f64> {
        let place = question.place;
        let at = on.places.get(&place)?;
        let answer_rad = |by_mm: f64| {
            let mut lengths = *self.rider.segments().lengths();
            lengthen(&mut lengths, link, by_mm)?;
            let rider = self.rider.clone().with_segments(Segments::new(lengths).ok()?);
            let posture = solve(&rider, &on.seat, &at.hands, place, None);
            Some(question.angle.of(&posture.report(&rider, &on.seat, &at.hands, place)))
        };
        Some((answer_rad(STEP_MM)? - answer_rad(-STEP_MM)?) / (2.0 * STEP_MM))
    }
}

/// Makes one link longer, of arms both; none where no posture turns with it.
fn lengthen(lengths: &mut SegmentLengths, link: Link, by_mm: f64) -> Option<()> {
    let in_both = |of: fn(&mut ArmLengths) -> &mut f64, arms: &mut [ArmLengths; 2]| {
        for arm in arms {
            *of(arm) += by_mm;
        }
    };
    match link {
        Link::UpperArm => in_both(|arm| &mut arm.upper_arm_mm, &mut lengths.arms),
        Link::Forearm => in_both(|arm| &mut arm.forearm_mm, &mut lengths.arms),
        Link::Hand => in_both(|arm| &mut arm.hand_mm, &mut lengths.arms),
        Link::Trunk => lengths.trunk_mm += by_mm,
        Link::ShouldersApart => lengths.shoulders_apart_mm += by_mm,
        Link::HipAbove => lengths.hip_above_mm += by_mm,
        Link::Thigh => lengths.thigh_mm += by_mm,
        Link::Shank => lengths.shank_mm += by_mm,
        Link::AnkleAboveSole => lengths.ankle_above_sole_mm += by_mm,
        Link::Ball => lengths.ball_mm += by_mm,
        Link::Foot => lengths.foot_mm += by_mm,
        Link::NeckFoot | Link::Neck | Link::Crown => return None,
    }
    Some(())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::testing::{candidates, session};
    use crate::weigh::{AskedAngle, Survey, weigh};
    use fit_doc::{Complaint, Concern, Dimension as D, Reading, Session, Where};
    use std::sync::Arc;

    /// The doubt that is foretold is the doubt that is found once the reading was taken.
    #[test]
    fn the_doubt_foretold_is_the_doubt_found() {
        use HandPlace::{Drops, Hoods, Tops};
        let to_the_hands = [Item::ShoulderToFist, Item::Notch, D::Span.into()];
        let to_the_thigh =
            [D::TrochanterionHeight.into(), D::LateralFemoralEpicondyleHeight.into()];
        for (complaint, angle, place, first) in [
            (None, AskedAngle::Trunk, Hoods, &to_the_hands[..]),
            (Some((Concern::Neck, Drops)), AskedAngle::Trunk, Drops, &to_the_hands),
            (Some((Concern::Hands, Tops)), AskedAngle::Elbow, Tops, &to_the_hands),
            (Some((Concern::Hips, Drops)), AskedAngle::HipMin, Drops, &to_the_thigh),
        ] {
            let mut session = session(candidates());
            let visit = Arc::make_mut(&mut session.visits[0]);
            visit.complaints = complaint.into_iter().map(|(about, at)| of(about, at)).collect();
            visit.body = vec![
                Reading::of(D::Stature, vec![1756.0]),
                Reading::of(D::Weight, vec![85.5]),
                Reading::of(D::CrotchHeight, vec![846.0]),
            ];
            let taken = taken_in_turn(&mut session, Question { angle, place });
            assert!(first.contains(&taken[0]), "{angle:?} {place:?}: {taken:?}");
            assert!(taken.len() >= 5, "{taken:?}");
        }
    }

    /// Takes what is to be measured next, as foretold, until nothing is left.
    fn taken_in_turn(session: &mut Session, question: Question) -> Vec<Item> {
        let survey = Survey::shipped().unwrap();
        let mut before = f64::INFINITY;
        let mut taken = Vec::new();
        while let Some(next) = weigh(session, None, &survey).unwrap().measure_next() {
            assert_eq!(next.question, question);
            assert!(next.sd_then_rad <= next.sd_now_rad && next.sd_now_rad <= before * 1.02);
            // what was foretold is found, but that the answer turns a little otherwise there
            if before.is_finite() {
                assert!((next.sd_now_rad / before - 1.0).abs() < 0.02, "{next:?} {before}");
            }
            before = next.sd_then_rad;
            let known = weigh(session, None, &survey).unwrap().body;
            let value = next.item.gradient().at(|d| known.value(d)) + next.item.offset();
            Arc::make_mut(&mut session.visits[0]).body.push(Reading::of(next.item, vec![value]));
            taken.push(next.item);
        }
        taken
    }

    fn of(about: Concern, place: HandPlace) -> Complaint {
        Complaint { place: Some(place), ..Complaint::about(about, Where::Both) }
    }
}
