//! The question on the table: the angle that the client's worst complaint turns on, with the hands
//! where it shows.
//!
//! Which angle goes with which complaint is common practice, no source.

use fit_doc::{Complaint, Concern, HandPlace, Visit};
use fit_math::posture::Report;

/// An angle of the posture that a complaint turns on.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum AskedAngle {
    /// The trunk above level; what looking ahead asks of the neck follows it.
    Trunk,
    /// The bend of the elbows, the mean of both.
    Elbow,
    /// The smallest angle between thigh and trunk.
    HipMin,
}

impl AskedAngle {
    /// Every angle.
    pub const ALL: [Self; 3] = [Self::Trunk, Self::Elbow, Self::HipMin];

    /// The angle in a posture, radians.
    pub(super) fn of(self, report: &Report) -> f64 {
        match self {
            Self::Trunk => report.trunk_rad,
            Self::Elbow => {
                let [left, right] = &report.arms;
                f64::midpoint(left.elbow_rad, right.elbow_rad)
            }
            Self::HipMin => report.hip_min_rad,
        }
    }
}

/// What is asked of a posture, with the hands in one place.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Question {
    /// The angle.
    pub angle: AskedAngle,
    /// Hands there.
    pub place: HandPlace,
}

impl Question {
    /// The trunk with the hands on the hoods: everything else that is asked of a posture follows it.
    const USUAL: Self = Self { angle: AskedAngle::Trunk, place: HandPlace::Hoods };

    /// What the worst complaint turns on, of two as bad the one named first; the usual question where
    /// nothing is wrong that the hands could change.
    pub(super) fn of(visit: &Visit) -> Self {
        let asked = |complaint: &Complaint| {
            let angle = turned_on(complaint.about)?;
            let place = complaint.place.unwrap_or(Self::USUAL.place);
            Some((complaint.score, Self { angle, place }))
        };
        // what nobody has asked how bad it is comes behind what was scored
        let first_of_the_worst = |worst: (Option<u8>, Self), next: (Option<u8>, Self)| {
            if next.0 > worst.0 { next } else { worst }
        };
        let worst = visit.complaints.iter().filter_map(asked).reduce(first_of_the_worst);
        worst.map_or(Self::USUAL, |(_, question)| question)
    }
}

/// None where it is a matter of the saddle and the feet, of the brakes, or of no posture at all.
const fn turned_on(about: Concern) -> Option<AskedAngle> {
    match about {
        Concern::Neck
        | Concern::LowBack
        | Concern::Stretched
        | Concern::Cramped
        | Concern::DropsUnused
        | Concern::Slimmer => Some(AskedAngle::Trunk),
        Concern::Shoulders | Concern::Arms | Concern::Hands => Some(AskedAngle::Elbow),
        Concern::Hips => Some(AskedAngle::HipMin),
        Concern::Seat
        | Concern::Knees
        | Concern::Feet
        | Concern::BrakesFromDrops
        | Concern::BrakesFromHoods
        | Concern::Unsteady
        | Concern::SmallRider
        | Concern::NewBar => None,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::testing::{candidates, session};
    use fit_doc::Where;

    fn complaint(about: Concern, place: Option<HandPlace>, score: u8) -> Complaint {
        Complaint { place, score: Some(score), ..Complaint::about(about, Where::Both) }
    }

    fn asked(complaints: Vec<Complaint>) -> Question {
        let session = session(candidates());
        Question::of(&Visit { complaints, ..Visit::clone(&session.visits[0]) })
    }

    #[test]
    fn the_worst_complaint_is_asked_about_where_it_shows() {
        use HandPlace::{Drops, Hoods, Tops};
        assert_eq!(asked(vec![]), Question::USUAL);
        let neck = complaint(Concern::Neck, Some(Drops), 4);
        assert_eq!(asked(vec![neck.clone()]), Question { angle: AskedAngle::Trunk, place: Drops });
        let hands = complaint(Concern::Hands, Some(Tops), 6);
        let both = asked(vec![neck.clone(), hands]);
        assert_eq!(both, Question { angle: AskedAngle::Elbow, place: Tops });
        // as bad as the first: the first
        let hips = complaint(Concern::Hips, None, 4);
        assert_eq!(asked(vec![neck.clone(), hips.clone()]).angle, AskedAngle::Trunk);
        // one that nobody has scored yet is asked about where nothing was scored, and only there
        let unasked = Complaint { score: None, ..complaint(Concern::Arms, None, 0) };
        assert_eq!(asked(vec![unasked.clone(), neck]).angle, AskedAngle::Trunk);
        assert_eq!(asked(vec![unasked]).angle, AskedAngle::Elbow);
        // no hand place moves a knee
        let knees = complaint(Concern::Knees, Some(Drops), 9);
        let hip = Question { angle: AskedAngle::HipMin, place: Hoods };
        assert_eq!(asked(vec![knees.clone(), hips]), hip);
        assert_eq!(asked(vec![knees]), Question::USUAL);
    }
}
