//! The questions on the table: the angles that what still bothers the client turns on, with the hands
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

    /// What all that still bothers the client turns on, the worst first, each as heavy as that is bad
    /// (judgement); the usual question where nothing is wrong that the hands could change.
    pub(super) fn all_of(visit: &Visit) -> Vec<Asked> {
        let asked = |complaint: &Complaint| {
            let angle = turned_on(complaint.about)?;
            let place = complaint.place.unwrap_or(Self::USUAL.place);
            let weight = f64::from(complaint.as_bad_as());
            Some(Asked { question: Self { angle, place }, weight })
        };
        let all: Vec<Asked> = visit.still_bad().into_iter().filter_map(asked).collect();
        if all.is_empty() { vec![Asked { question: Self::USUAL, weight: 1.0 }] } else { all }
    }
}

/// A question and how much it counts among others.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Asked {
    /// What is asked.
    pub question: Question,
    /// How bad what turns on it is, as a score of ten.
    pub weight: f64,
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

    fn asked(complaints: Vec<Complaint>) -> Vec<(Question, f64)> {
        let session = session(candidates());
        let visit = Visit { complaints, ..Visit::clone(&session.visits[0]) };
        Question::all_of(&visit).into_iter().map(|of| (of.question, of.weight)).collect()
    }

    #[test]
    fn all_that_still_bothers_is_asked_about_where_it_shows_the_worst_first() {
        use HandPlace::{Drops, Hoods, Tops};
        let usual = (Question::USUAL, 1.0);
        assert_eq!(asked(vec![]), [usual]);
        let neck = complaint(Concern::Neck, Some(Drops), 4);
        let of_neck = (Question { angle: AskedAngle::Trunk, place: Drops }, 4.0);
        assert_eq!(asked(vec![neck.clone()]), [of_neck]);
        let hands = complaint(Concern::Hands, Some(Tops), 6);
        let of_hands = (Question { angle: AskedAngle::Elbow, place: Tops }, 6.0);
        assert_eq!(asked(vec![neck.clone(), hands]), [of_hands, of_neck]);
        // as bad as the first: behind it
        let hips = complaint(Concern::Hips, None, 4);
        let of_hips = (Question { angle: AskedAngle::HipMin, place: Hoods }, 4.0);
        assert_eq!(asked(vec![neck.clone(), hips.clone()]), [of_neck, of_hips]);
        // of which nobody has asked how bad it is: middling
        let unasked = Complaint { score: None, ..complaint(Concern::Arms, None, 0) };
        let of_arms = (Question { angle: AskedAngle::Elbow, place: Hoods }, 5.0);
        assert_eq!(asked(vec![neck.clone(), unasked]), [of_arms, of_neck]);
        // what is over bothers nobody, and no hand place moves a knee
        let over = Complaint { score: Some(0), ..neck };
        let knees = complaint(Concern::Knees, Some(Drops), 9);
        assert_eq!(asked(vec![over.clone(), knees.clone(), hips]), [of_hips]);
        assert_eq!(asked(vec![over, knees]), [usual]);
    }
}
