//! By how much a number goes with an arrow key, a nudge button or a handle that has the keyboard.
//!
//! All steps are common practice, no source. The *felt* step is the smallest that clients feel: hands
//! 10 mm, saddle 5 mm, a lever 5 mm, roll 2°, width 20 mm, spacers as they come. The *fine* one is
//! what a workshop can still set.

use fit_doc::{Dimension, Item, Quantity};

/// The two steps of a quantity: mm, degrees, kg or a count.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Steps {
    /// What a client feels.
    pub felt: f64,
    /// What can still be set.
    pub fine: f64,
}

/// The steps of a quantity.
pub fn steps(quantity: Quantity) -> Steps {
    use Quantity as Q;
    let (felt, fine) = match quantity {
        // what moves the hands or the saddle; shares and prices in round numbers
        Q::StemLength
        | Q::HandsAhead
        | Q::HandsUp
        | Q::HandShare(_)
        | Q::KmRidden
        | Q::HourPrice
        | Q::PartsPrice => (10.0, 1.0),
        Q::Spacers
        | Q::WorkMinutes
        | Q::AimBy
        | Q::LeverAlong
        | Q::HandInDrops
        | Q::SaddleHeight
        | Q::NoseBehind => (5.0, 1.0),
        Q::Roll | Q::LeverTurnIn => (2.0, 0.5),
        Q::BarWidthAtHoods | Q::BarWidthAtEnds => (20.0, 1.0),
        // angles of saddles, frames and stems
        Q::SaddleTilt | Q::NoseUp | Q::HeadAngle | Q::SeatAngle => (0.5, 0.1),
        Q::Crank => (2.5, 0.5),
        // counts
        Q::ComplaintScore
        | Q::AfterMinutes
        | Q::RideMinutes
        | Q::HoursPerWeek
        | Q::BirthYear
        | Q::LeverClicks => (1.0, 1.0),
        Q::Body(Item::Dimension(Dimension::Weight)) => (1.0, 0.1),
        Q::Proportion => (1.0, 0.01),
        _ => (1.0, 0.5),
    };
    Steps { felt, fine }
}

/// The next value up or down: the next whole step, so that nudged numbers are round ones.
pub fn next(quantity: Quantity, value: f64, up: bool, fine: bool) -> f64 {
    /// Nearer than that to a whole step a value is on it: rounding only.
    const ON_IT: f64 = 1e-9;
    let Steps { felt, fine: finest } = steps(quantity);
    let step = if fine { finest } else { felt };
    let along = value / step;
    let on_it = (along - along.round()).abs() < ON_IT;
    let whole = match up {
        _ if on_it => along.round() + if up { 1.0 } else { -1.0 },
        true => along.ceil(),
        false => along.floor(),
    };
    // no number of the document has more than hundredths; and no −0
    (whole * step * 100.0).round() / 100.0 + 0.0
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::entry;
    use crate::words::English;

    #[test]
    fn a_step_goes_to_the_next_round_number() {
        let from = |value: f64| {
            [(true, false), (false, false), (true, true), (false, true)]
                .map(|(up, fine)| next(Quantity::StemLength, value, up, fine))
        };
        assert_eq!(from(100.0), [110.0, 90.0, 101.0, 99.0]);
        assert_eq!(from(95.0), [100.0, 90.0, 96.0, 94.0]);
        assert_eq!(from(95.4), [100.0, 90.0, 96.0, 95.0]);
        assert_eq!(next(Quantity::Roll, -2.0, true, false).to_string(), "0");
        assert_eq!(next(Quantity::Roll, 0.0, false, true), -0.5);
    }

    #[test]
    fn there_and_back_is_where_it_was() {
        for quantity in [Quantity::Roll, Quantity::Spacers, Quantity::LeverAlong, Quantity::Crank] {
            let Steps { felt, fine } = steps(quantity);
            assert!(fine < felt, "{quantity:?}");
            let start = 4.0 * felt;
            for is_fine in [false, true] {
                let there = next(quantity, start, true, is_fine);
                assert!(there > start);
                assert_eq!(next(quantity, there, false, is_fine), start, "{quantity:?}");
            }
        }
    }

    #[test]
    fn a_step_of_any_quantity_stays_in_what_can_be_typed() {
        for quantity in [Quantity::Roll, Quantity::Spacers, Quantity::LeverAlong, Quantity::Crank] {
            for fine in [false, true] {
                let value = next(quantity, quantity.range().usual.0, true, fine);
                let shown = entry::text(quantity, value);
                let read = entry::read(quantity, &shown, None, &English).unwrap();
                assert_eq!(read.value, value, "{shown}");
            }
        }
    }
}
