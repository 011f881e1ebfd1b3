//! How sure the changes of the table are.
//!
//! mm and degrees, as the rows count. What the bars measure is not doubted here: their cards say how
//! they are known.

use super::cell::{Cell, Scale};
use super::question::{Axis, Question};
use crate::weigh::{Doubted, Weighed, WeighedCockpit};
use fit_doc::HandPlace;
use fit_math::DVec3;
use fit_math::doubt::Asked;
use fit_math::frame::Side;

impl Question {
    /// The number that it asks, where its doubt is followed; of hands that turn differently `side` says
    /// whose turn is told.
    fn doubted(self, side: Side) -> Option<Doubted> {
        Some(match self {
            Self::Trunk(place) => Doubted::At(place, Asked::Trunk),
            Self::Elbow(place) => Doubted::At(place, Asked::Elbow),
            Self::Neck(place) => Doubted::At(place, Asked::Neck),
            Self::Hip(place) => Doubted::At(place, Asked::HipMin),
            Self::Wrist(place) => match side {
                Side::Left => Doubted::At(place, Asked::WristLeft),
                Side::Right => Doubted::At(place, Asked::WristRight),
            },
            Self::Brake(place) => Doubted::Brake(place),
            Self::HandTravel => Doubted::HandTravel,
            Self::TrunkTravel => Doubted::Travel(Asked::Trunk),
            Self::Moved(place, Axis::Forward) | Self::FromNose(place) => {
                Doubted::Hand(place, DVec3::X)
            }
            Self::Moved(place, Axis::Up) | Self::BelowSaddle(place) => {
                Doubted::Hand(place, DVec3::Y)
            }
            Self::Steering(place) => Doubted::Steering(place),
            Self::LeftFromRight(_)
            | Self::WidthAtHoods
            | Self::WidthAtEnds
            | Self::BarReach
            | Self::BarDrop => return None,
        })
    }

    /// The exact change from one cockpit to another, in the row's scale.
    fn exact_change(self, from: &WeighedCockpit, to: &WeighedCockpit) -> Option<f64> {
        if let Self::TrunkTravel = self {
            let trunk = |of, place| Self::Trunk(place).answer(of);
            let travel = |of| Some(trunk(of, HandPlace::Hoods)? - trunk(of, HandPlace::Drops)?);
            return Some(travel(to)? - travel(from)?);
        }
        let (before, after) = self
            .before_and_after(from, to)
            .or_else(|| Some((self.answer(from)?, self.answer(to)?)))?;
        Some(after - before)
    }
}

/// The cell of one cockpit beside the one that it is compared with, and how sure its change is; joints at
/// their limits are not in it.
pub fn told(
    question: Question,
    of: &WeighedCockpit,
    against: Option<&WeighedCockpit>,
    weighed: &Weighed,
) -> Cell {
    doubted(question.cell(of, against), question, of, against, weighed)
}

/// A cell with how sure its change from the one that is compared with is.
pub(super) fn doubted(
    cell: Cell,
    question: Question,
    of: &WeighedCockpit,
    against: Option<&WeighedCockpit>,
    weighed: &Weighed,
) -> Cell {
    let doubt = || {
        let from = against.filter(|from| from.id != of.id)?;
        let exact = question.exact_change(from, of)?;
        let number = question.doubted(turned_more(question, from, of))?;
        let scale = question.scale();
        let change = if scale == Scale::Degrees { exact.to_radians() } else { exact };
        let sd = weighed.change_sd(from, of, number, change)?;
        let shown = match scale {
            Scale::Degrees => sd.to_degrees(),
            Scale::Percent => 100.0 * sd,
            Scale::Millimetres => sd,
        };
        Some((exact, shown))
    };
    doubt().map_or(cell, |(exact, sd)| cell.with_doubt(exact, sd))
}

/// Of two hands the one whose turn is told: that which turns more.
fn turned_more(question: Question, from: &WeighedCockpit, to: &WeighedCockpit) -> Side {
    let change = |side: Side| {
        let place = question.place()?;
        let (before, after) = (from.places.get(&place)?, to.places.get(&place)?);
        Some((after.wrist_line_rad[side as usize] - before.wrist_line_rad[side as usize]).abs())
    };
    if change(Side::Left) > change(Side::Right) { Side::Left } else { Side::Right }
}
