//! How a weighed cockpit answers a question.
//!
//! From the bike frame in mm and radians to mm, degrees and per cent, and to the cell that shows them. Where
//! the two hands are set differently a place is midway between them.

use super::cell::{Cell, Change};
use super::question::{Axis, Question};
use crate::weigh::{WeighedCockpit, WeighedPlace};
use fit_doc::HandPlace;
use fit_math::DVec3;
use fit_math::frame::Side;
use fit_math::posture::Outcome;

impl Question {
    /// The answer of one cockpit, mm or degrees; none where it has no such place, where the hands
    /// do not get there, where only a change means anything, or where it is reckoned from what
    /// stands in other rows.
    pub fn answer(self, of: &WeighedCockpit) -> Option<f64> {
        let bend = of.cockpit.bend();
        let reached = |place| of.places.get(&place).filter(|at| at.is_reached());
        let angle =
            |place, of: fn(&WeighedPlace) -> f64| reached(place).map(|at| of(at).to_degrees());
        match self {
            Self::Trunk(place) => angle(place, |at| at.report.trunk_rad),
            Self::Elbow(place) => angle(place, WeighedPlace::straighter_elbow_rad),
            Self::Neck(place) => angle(place, |at| at.report.neck_need_rad),
            Self::Hip(place) => angle(place, |at| at.report.hip_min_rad),
            Self::Wrist(_)
            | Self::Moved(..)
            | Self::LeftFromRight(_)
            | Self::TrunkTravel
            | Self::Steering(_) => None,
            Self::Brake(place) => of.brakes?.to_spare_mm(place),
            Self::HandTravel => of.travel.map(|travel| travel.hand_mm()),
            Self::FromNose(place) => {
                of.places.get(&place).map(|at| grip(at).x + of.parts.saddle.nose_behind_mm)
            }
            Self::BelowSaddle(place) => {
                of.places.get(&place).map(|at| of.seat.sit().y - grip(at).y)
            }
            Self::WidthAtHoods => Some(bend.width_hoods_cc_mm()),
            Self::WidthAtEnds => Some(bend.width_ends_cc_mm()),
            Self::BarReach => Some(bend.reach_mm()),
            Self::BarDrop => Some(bend.drop_mm()),
        }
    }

    /// What one cockpit had and another has, mm or degrees, for the questions that have no answer
    /// of their own.
    pub(super) fn before_and_after(
        self,
        came: &WeighedCockpit,
        of: &WeighedCockpit,
    ) -> Option<(f64, f64)> {
        let place = self.place()?;
        let (before, after) = (came.places.get(&place)?, of.places.get(&place)?);
        match self {
            // seen from the saddle as it came, so that rounding agrees with the rows that give the
            // hands from the saddle
            Self::Moved(_, Axis::Forward) => {
                let nose = came.parts.saddle.nose_behind_mm;
                Some((grip(before).x + nose, grip(after).x + nose))
            }
            Self::Moved(_, Axis::Up) => {
                let top = came.seat.sit().y;
                Some((grip(before).y - top, grip(after).y - top))
            }
            Self::Wrist(_) if before.is_reached() && after.is_reached() => {
                Some((0.0, larger_wrist_change_rad(before, after).to_degrees()))
            }
            Self::Steering(_) => Some((0.0, 100.0 * (after.steer_effort(before) - 1.0))),
            _ => None,
        }
    }

    /// The answer of one cockpit beside the one that all are compared with; joints at their limits are not in it.
    pub(crate) fn cell(self, of: &WeighedCockpit, as_it_came: Option<&WeighedCockpit>) -> Cell {
        let compared = as_it_came.filter(|came| came.id != of.id);
        match self {
            Self::Moved(..) | Self::Wrist(_) | Self::Steering(_) => {
                let both = compared.and_then(|came| self.before_and_after(came, of));
                both.map_or(Cell::EMPTY, |(before, after)| {
                    Cell::change_only(self.scale(), before, after)
                })
            }
            Self::LeftFromRight(axis) => {
                let left = |of: &WeighedCockpit| {
                    of.left_from_right_mm().map(|off| match axis {
                        Axis::Forward => off.x,
                        Axis::Up => off.y,
                    })
                };
                left(of).map_or(Cell::EMPTY, |by_mm| Cell::apart(by_mm, compared.and_then(left)))
            }
            Self::Trunk(place) => match of.places.get(&place).map(|at| at.posture.outcome) {
                Some(Outcome::OutOfReach { short_by_mm }) => Cell::out_of_reach(short_by_mm),
                _ => self.number(of, compared),
            },
            Self::TrunkTravel => {
                let after = trunk_travel_deg(of, compared);
                let before = compared.and_then(|came| trunk_travel_deg(came, None));
                after.map_or(Cell::EMPTY, |after| Cell::number(self.scale(), after, before))
            }
            Self::HandTravel => {
                let cell = self.number(of, compared);
                let came = compared.filter(|came| hands_stay(of, came));
                // hands that are where they were in both places move from one to the other as before
                came.and_then(|came| self.answer(came))
                    .map_or(cell, |before| Cell::number(self.scale(), before, Some(before)))
            }
            Self::Brake(HandPlace::Hoods | HandPlace::BentElbowHoods) => {
                let cell = self.number(of, compared);
                // there the screw turns the blade under the hand: what that does to the span is no reason
                // for or against it
                let came = compared.filter(|came| screw_alone(of, came));
                came.and_then(|came| self.answer(came))
                    .map_or(cell, |before| Cell::number(self.scale(), before, Some(before)))
            }
            _ => self.number(of, compared),
        }
    }

    fn number(self, of: &WeighedCockpit, compared: Option<&WeighedCockpit>) -> Cell {
        let before = compared.and_then(|came| self.answer(came));
        self.answer(of).map_or(Cell::EMPTY, |value| Cell::number(self.scale(), value, before))
    }
}

/// Midway between the hands.
fn grip(at: &WeighedPlace) -> DVec3 {
    at.grips.middle()
}

/// How far the trunk comes down from hoods to drops, of the whole degrees that stand in the rows of
/// the two, so that nobody subtracts otherwise.
fn trunk_travel_deg(of: &WeighedCockpit, compared: Option<&WeighedCockpit>) -> Option<f64> {
    let shown = |place| Question::Trunk(place).cell(of, compared).shown();
    Some((shown(HandPlace::Hoods)? - shown(HandPlace::Drops)?) as f64)
}

/// The same levers for the same hands, in whatever setting.
fn screw_alone(of: &WeighedCockpit, came: &WeighedCockpit) -> bool {
    let lever = |of: &WeighedCockpit| of.parts.levers.as_ref().map(|levers| levers.lever.clone());
    let covers = |of: &WeighedCockpit| of.brakes.as_ref().map(|brakes| brakes.covers);
    lever(of) == lever(came) && covers(of) == covers(came)
}

/// Both rows of the hoods and both of the drops say that the hands are where they were.
fn hands_stay(of: &WeighedCockpit, came: &WeighedCockpit) -> bool {
    let same =
        |(place, axis)| Question::Moved(place, axis).cell(of, Some(came)).change == Change::Same;
    let axes = [Axis::Forward, Axis::Up];
    [HandPlace::Hoods, HandPlace::Drops]
        .into_iter()
        .all(|place| axes.map(|axis| (place, axis)).into_iter().all(same))
}

/// Of two hands that turn differently the one that turns more.
fn larger_wrist_change_rad(before: &WeighedPlace, after: &WeighedPlace) -> f64 {
    let [left, right] = Side::BOTH
        .map(|side| after.wrist_line_rad[side as usize] - before.wrist_line_rad[side as usize]);
    if left.abs() > right.abs() { left } else { right }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::testing::{candidates, session};
    use crate::weigh::{Survey, weigh};

    /// A screw that is turned brings the blade nearer from the drops; from the hoods it is told as before,
    /// whatever the blade's turning makes of the span.
    #[test]
    fn a_screw_is_told_from_the_drops_alone() {
        let mut session = session(candidates());
        let visit = std::sync::Arc::make_mut(&mut session.visits[0]);
        // a blade that turns by far more than one does, so that it shows
        let levers = visit.as_it_came.levers.as_mut().unwrap();
        levers.lever.blade.adjuster_deg = vec![0.0, -20.0];
        let mut nearer = visit.as_it_came.clone();
        nearer.id = "nearer".to_owned();
        let levers = nearer.levers.as_mut().unwrap();
        (levers.left.clicks, levers.right.clicks) = (1, 1);
        visit.bench = vec![nearer];
        let weighed = weigh(&session, None, &Survey::shipped().unwrap()).unwrap();
        let [came, of] = &weighed.cockpits[..] else { panic!("two cockpits") };
        let spare = |place, of: &WeighedCockpit| Question::Brake(place).answer(of).unwrap();
        let by = |place| spare(place, of) - spare(place, came);
        assert!(by(HandPlace::Hoods).abs() > 2.0, "the span does change: {}", by(HandPlace::Hoods));
        let told = |place| Question::Brake(place).cell(of, Some(came)).change;
        assert_eq!(told(HandPlace::Hoods), Change::Same);
        assert!(matches!(told(HandPlace::Drops), Change::By(5..)), "{:?}", told(HandPlace::Drops));
    }
}
