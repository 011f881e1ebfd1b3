//! Questions that a fitter asks in passing, each one press: other aims and limits than the visit's, for
//! one look through the shop.

use super::search::other_bike;
use fit_doc::{Aim, Bounds, HandPlace, Session, Stays, Visit, Wanted};

/// How much narrower or wider one size is, mm: 20, and as much either way as makes of a bend differ
/// (common practice, no source).
const SIZE_MM: (f64, f64) = (12.0, 28.0);

/// A question asked in passing.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Quick {
    /// The hoods where they are, and a shallower drop.
    ShallowerDrop,
    /// What a bar does, the stem staying.
    BarNotStem,
    /// What raising the stem does, the bar staying.
    RaiseInstead,
    /// One size narrower.
    Narrower,
    /// One size wider.
    Wider,
    /// The hoods as on the client's other bike.
    OtherBike,
}

impl Quick {
    /// All, in the order in which they are offered.
    pub const ALL: [Self; 6] = [
        Self::ShallowerDrop,
        Self::BarNotStem,
        Self::RaiseInstead,
        Self::Narrower,
        Self::Wider,
        Self::OtherBike,
    ];

    /// Whether it can be asked of a visit: of another bike only where the client has one.
    pub fn can_be_asked(self, session: &Session, visit: &Visit) -> bool {
        self != Self::OtherBike || other_bike(session, visit).is_some()
    }

    /// The visit as it is asked; `width_mm` is that of the bar at the hoods, centre to centre.
    pub fn asked(self, visit: &Visit, width_mm: f64) -> Visit {
        let mut asked = visit.clone();
        let (aims, bounds) = (visit.aims(), &mut asked.bounds);
        let stay = |bounds: &mut Bounds, all: &[Stays]| {
            for &what in all {
                if !bounds.stays(what) {
                    bounds.stays.push(what);
                }
            }
        };
        asked.wanted = match self {
            Self::ShallowerDrop => {
                // a turn of the bar lifts the hoods, and its drop stays as deep
                stay(bounds, &[Stays::Roll]);
                vec![Wanted::new(Aim::EaseDrops), Wanted::new(Aim::HoodsStay)]
            }
            Self::BarNotStem => {
                stay(bounds, &[Stays::Stem, Stays::Spacers, Stays::LeverKind]);
                aims
            }
            Self::RaiseInstead => {
                stay(bounds, &[Stays::Bar, Stays::LeverKind, Stays::LeverPlace, Stays::Roll]);
                // who raises the stem does not ask that the hoods stay
                let mut aims = aims;
                aims.retain(|of| of.aim != Aim::HoodsStay);
                if aims.is_empty() {
                    aims.push(Wanted::new(Aim::EaseBack).at(HandPlace::Hoods));
                }
                aims
            }
            Self::Narrower => {
                bounds.width_mm = Some((width_mm - SIZE_MM.1, width_mm - SIZE_MM.0));
                vec![Wanted::new(Aim::Slimmer), Wanted::new(Aim::HoodsStay)]
            }
            Self::Wider => {
                bounds.width_mm = Some((width_mm + SIZE_MM.0, width_mm + SIZE_MM.1));
                vec![Wanted::new(Aim::EasierToSteer), Wanted::new(Aim::HoodsStay)]
            }
            Self::OtherBike => vec![Wanted::new(Aim::LikeOtherBike)],
        };
        asked
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::testing::session;

    #[test]
    fn hoods_as_on_another_bike_are_asked_only_where_there_is_one() {
        let mut session = session(Vec::new());
        let asked = |session: &Session| {
            let visit = session.latest_visit().unwrap();
            Quick::ALL.into_iter().filter(|of| of.can_be_asked(session, visit)).count()
        };
        assert_eq!(asked(&session), Quick::ALL.len() - 1);
        let mut other = session.bikes[0].clone();
        other.id = "other".into();
        session.bikes.push(other);
        assert_eq!(asked(&session), Quick::ALL.len());
        // the same bike with other parts is no other bike
        let same = session.bikes[0].id.clone();
        session.bikes[1].same_as = Some(same);
        assert_eq!(asked(&session), Quick::ALL.len() - 1);
    }
}
