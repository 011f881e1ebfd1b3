//! Which joints are at the end of their range, and by how much they are past it.
//!
//! Spoken of in the whole numbers that stand in the table, so that a neck that is lifted by 39° and
//! goes to 37° is 2° past its limit, and one at 37° is at it, whatever stands behind the point. A
//! joint that nobody measured has a limit for the solver's sake only: being past that is said,
//! being at it means nothing.

use super::cell::{Cell, Scale, whole};
use super::question::Question;
use crate::weigh::WeighedCockpit;
use fit_doc::HandPlace;
use fit_math::posture::{Bound, Joint, Limits, Outcome, Report};

/// A joint that is at its limit or past it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct AtLimit {
    /// The joint.
    pub joint: Joint,
    /// How far it goes, whole degrees; of the shoulders' shift mm.
    pub limit: i64,
    /// How far it is past that, in the same unit; nought where it is just at its limit.
    pub past: i64,
    /// The limit was measured on the client.
    pub measured: bool,
}

/// The joints at their limits with the hands in one place, the one that is furthest past it first.
pub fn at_limits(
    limits: &Limits,
    of: &WeighedCockpit,
    as_it_came: Option<&WeighedCockpit>,
    place: HandPlace,
) -> Vec<AtLimit> {
    let Some(report) = reached(of, place) else { return Vec::new() };
    let before = as_it_came.filter(|came| came.id != of.id).and_then(|came| reached(came, place));
    let at_limit = |joint| {
        let need = |report: &Report| in_units(joint, report.need(joint));
        let most = Some(in_units(joint, limits.most(joint))).filter(|most| most.is_finite())?;
        let shown = Cell::number(scale(joint), need(report), before.map(need)).shown()?;
        let measured = matches!(limits.bound(joint), Bound::Measured(_));
        let past = shown - whole(most);
        let least = i64::from(!measured);
        (past >= least).then_some(AtLimit { joint, limit: whole(most), past, measured })
    };
    let mut found: Vec<_> = Joint::ALL.into_iter().filter_map(at_limit).collect();
    found.sort_by_key(|at| core::cmp::Reverse(at.past));
    // of two shoulders the one that is further past is spoken of
    let mut shoulders = 0;
    found.retain(|at| {
        shoulders += usize::from(is_shoulder(at.joint));
        !is_shoulder(at.joint) || shoulders == 1
    });
    found
}

fn reached(of: &WeighedCockpit, place: HandPlace) -> Option<&Report> {
    let at = of.places.get(&place)?;
    (!matches!(at.posture.outcome, Outcome::OutOfReach { .. })).then_some(&at.report)
}

impl Question {
    /// The row speaks of that joint: necks and hips have rows of their own, all others stand with
    /// the trunk.
    pub(super) fn speaks_of(self, joint: Joint) -> bool {
        match self {
            Self::Neck(_) => joint == Joint::Neck,
            Self::Hip(_) => joint == Joint::Hip,
            Self::Trunk(_) => !matches!(joint, Joint::Neck | Joint::Hip),
            _ => false,
        }
    }
}

fn scale(joint: Joint) -> Scale {
    if joint == Joint::Protraction { Scale::Millimetres } else { Scale::Degrees }
}

fn in_units(joint: Joint, amount: f64) -> f64 {
    match scale(joint) {
        Scale::Millimetres | Scale::Percent => amount,
        Scale::Degrees => amount.to_degrees(),
    }
}

fn is_shoulder(joint: Joint) -> bool {
    matches!(joint, Joint::Shoulder(_))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::table::{Answer, table};
    use crate::testing::{candidates, session};
    use crate::weigh::weigh;
    use crate::words::{English, Words};
    use fit_doc::{Mobility, Session};
    use fit_math::body::Survey;
    use std::sync::Arc;

    fn limited(joint: fit_doc::Joint, limit_deg: f64) -> Session {
        let mut session = session(candidates());
        Arc::make_mut(&mut session.visits[0]).mobility = vec![Mobility::measured(joint, limit_deg)];
        session
    }

    /// For a stiff neck of every degree: what is said beside a number agrees with the number.
    #[test]
    fn what_is_said_of_the_neck_agrees_with_the_number_beside_it() {
        let survey = Survey::shipped().unwrap();
        let mut said = std::collections::BTreeMap::new();
        for limit in 25..50 {
            let session = limited(fit_doc::Joint::Neck, f64::from(limit));
            let table = table(&weigh(&session, None, &survey).unwrap());
            let rows = table.rows.iter().filter(|row| matches!(row.question, Question::Neck(_)));
            for cell in rows.flat_map(|row| &row.cells) {
                let Some(shown) = cell.shown() else { continue };
                let past = shown - i64::from(limit);
                let expected = (past >= 0).then_some(past);
                assert_eq!(cell.at_limit.map(|at| at.past), expected, "{shown} of {limit}");
                *said.entry(expected.map(|past| past.min(1))).or_insert(0) += 1;
            }
            let others = table.rows.iter().filter(|row| !matches!(row.question, Question::Neck(_)));
            let others = others.flat_map(|row| &row.cells).filter_map(|cell| cell.at_limit);
            assert!(others.into_iter().all(|at| at.joint != Joint::Neck));
        }
        assert!(said.len() == 3 && said.values().all(|&count| count >= 5), "{said:?}");
    }

    #[test]
    fn a_joint_that_nobody_measured_is_never_at_its_limit() {
        let survey = Survey::shipped().unwrap();
        let weighed = weigh(&session(candidates()), None, &survey).unwrap();
        for of in &weighed.cockpits {
            for &place in of.places.keys() {
                let found = at_limits(weighed.rider.limits(), of, weighed.as_it_came(), place);
                assert!(found.iter().all(|at| !at.measured && at.past > 0), "{found:?}");
            }
        }
    }

    #[test]
    fn several_joints_are_all_said_each_in_its_row() {
        let survey = Survey::shipped().unwrap();
        let mut session = limited(fit_doc::Joint::Neck, 30.0);
        let hip = Mobility::measured(fit_doc::Joint::Hip, 65.0);
        Arc::make_mut(&mut session.visits[0]).mobility.push(hip);
        let table = table(&weigh(&session, None, &survey).unwrap());
        let joint = |question| {
            let row = table.rows.iter().find(|row| row.question == question).unwrap();
            assert!(matches!(row.cells[0].answer, Answer::Number(_)));
            row.cells[0].at_limit.map(|at| at.joint)
        };
        assert_eq!(joint(Question::Neck(HandPlace::Drops)), Some(Joint::Neck));
        assert_eq!(joint(Question::Hip(HandPlace::Drops)), Some(Joint::Hip));
    }

    #[test]
    fn a_limit_is_worded_with_its_numbers() {
        let words = |past, measured| {
            let at = AtLimit { joint: Joint::Neck, limit: 37, past, measured };
            English.at_limit(at).replace('\u{a0}', " ")
        };
        assert_eq!(words(2, true), "neck 2° past its limit of 37°");
        assert_eq!(words(0, true), "neck at its limit of 37°");
        assert_eq!(words(1, false), "neck 1° past the usual limit of 37°");
    }
}
