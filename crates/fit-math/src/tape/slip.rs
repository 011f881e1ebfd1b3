//! Slips of hand and pen, and what the readings would be without them.
//!
//! A slip that can be told from one reading alone (it lies where no bike's does, and would not
//! without the slip) is mended before anything is solved. All others are trial mends: the check
//! solves with each and keeps the one that explains the readings.

use super::reading::{HoodAt, Laid, Of, Reading};
use crate::bar::WidthHow;

/// A likely slip.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Slip {
    /// Centimetres were typed for millimetres.
    CentimetresForMillimetres,
    /// A nought too many was typed.
    NoughtTooMany,
    /// Two digits beside each other were changed about.
    DigitsSwapped,
    /// The sign is wrong.
    WrongSign,
    /// Taken slant, entered as level.
    SlantForLevel,
    /// Taken level, entered as slant.
    LevelForSlant,
    /// Every distance from the nose was taken slant, and entered as level.
    AllSlantForLevel,
    /// Taken over the outsides, entered as centre to centre.
    OutsideForCentre,
    /// Taken centre to centre, entered as over the outsides.
    CentreForOutside,
    /// The hood's tip was taken for its trough.
    TipForTrough,
    /// The hood's trough was taken for its tip.
    TroughForTip,
    /// Nose to bar and nose to hood are swapped.
    BarAndHoodSwapped,
}

/// What a reading would be without the slip.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Mend {
    /// The slip.
    pub slip: Slip,
    /// The reading as it was given.
    pub from: Reading,
    /// The reading without the slip.
    pub to: Reading,
}

impl Mend {
    /// Whether what was meant is one of several that it could have been.
    pub(super) fn is_a_guess(&self) -> bool {
        self.slip == Slip::DigitsSwapped
    }
}

/// Mends the readings that lie where no bike's does, and would not without a slip of the pen.
/// Returns the readings to go on with and what was mended.
pub fn mend_impossible(readings: &[Reading]) -> (Vec<Reading>, Vec<Mend>) {
    let mut mends = Vec::new();
    let mended = readings.iter().map(|&from| match impossible(from) {
        Some((slip, value)) => {
            let to = Reading { value, ..from };
            mends.push(Mend { slip, from, to });
            to
        }
        None => from,
    });
    let mended = mended.collect();
    (mended, mends)
}

fn impossible(reading: Reading) -> Option<(Slip, f64)> {
    let (least, most) = reading.of.met_mm()?;
    let met = |value: f64| least <= value && value <= most;
    if met(reading.value) {
        return None;
    }
    let slips = [
        (Slip::CentimetresForMillimetres, reading.value * 10.0),
        (Slip::NoughtTooMany, reading.value / 10.0),
        (Slip::WrongSign, -reading.value),
    ];
    let mut likely = slips.into_iter().filter(|&(_, value)| met(value));
    // where several would do, the other readings are asked
    let first = likely.next();
    first.filter(|_| likely.next().is_none())
}

/// Every trial mend of one reading.
pub(super) fn mends_of(from: Reading) -> Vec<Mend> {
    let to_value = |slip, value| Mend { slip, from, to: Reading { value, ..from } };
    let mut mends = vec![to_value(Slip::WrongSign, -from.value)];
    if !from.of.is_angle() {
        mends.push(to_value(Slip::CentimetresForMillimetres, from.value * 10.0));
        mends.push(to_value(Slip::NoughtTooMany, from.value / 10.0));
        let swapped = digits_swapped(from.value);
        mends.extend(swapped.map(|value| to_value(Slip::DigitsSwapped, value)));
    }
    let otherwise = |(slip, of): (Slip, Of)| Mend { slip, from, to: Reading { of, ..from } };
    mends.extend(laid_otherwise(from.of).map(otherwise));
    match from.of {
        Of::WidthAtHoods(WidthHow::CentreToCentre) => mends.push(otherwise((
            Slip::OutsideForCentre,
            Of::WidthAtHoods(WidthHow::OutsideToOutside),
        ))),
        Of::WidthAtHoods(WidthHow::OutsideToOutside) => mends
            .push(otherwise((Slip::CentreForOutside, Of::WidthAtHoods(WidthHow::CentreToCentre)))),
        _ => {}
    }
    mends
}

/// Every trial mend of one reading that has no others beside it: the hood's other end with them.
pub fn mends_alone(from: Reading) -> Vec<Mend> {
    let at_hood = hood_otherwise(from.of);
    let at_hood = at_hood.map(|(slip, of)| Mend { slip, from, to: Reading { of, ..from } });
    mends_of(from).into_iter().chain(at_hood).collect()
}

/// The values whose whole digits are these but for two beside each other, which are changed about.
fn digits_swapped(value: f64) -> impl Iterator<Item = f64> {
    let size = value.abs();
    // 1: the last digit and the one before it
    let places = [1.0, 10.0, 100.0].into_iter().take_while(move |place| size >= 10.0 * place);
    places.filter_map(move |place| {
        let digit = |at: f64| ((size / at) % 10.0).trunc();
        let (low, high) = (digit(place), digit(10.0 * place));
        let more = (low - high) * (10.0 * place - place);
        (low != high).then_some((size + more).copysign(value))
    })
}

/// Every trial mend of several readings at once.
pub(super) fn mends_of_several(readings: &[Reading]) -> Vec<Vec<Mend>> {
    let slant = readings.iter().filter_map(|&from| match laid_otherwise(from.of) {
        Some((Slip::SlantForLevel, of)) if !matches!(of, Of::NoseToWide(_)) => {
            let to = Reading { of, ..from };
            Some(Mend { slip: Slip::AllSlantForLevel, from, to })
        }
        _ => None,
    });
    let slant: Vec<Mend> = slant.collect();
    let hood = readings.iter().filter_map(|&from| {
        let (slip, of) = hood_otherwise(from.of)?;
        Some(Mend { slip, from, to: Reading { of, ..from } })
    });
    let at_hood: Vec<Mend> = hood.collect();
    let bar = readings.iter().find(|r| matches!(r.of, Of::NoseToBar(_)));
    let hood = readings.iter().find(|r| matches!(r.of, Of::NoseToHood(..)));
    let mut all = Vec::new();
    if slant.len() > 1 {
        all.push(slant);
    }
    if !at_hood.is_empty() {
        all.push(at_hood);
    }
    if let (Some(&bar), Some(&hood)) = (bar, hood) {
        let swapped = |from: Reading, value| {
            let to = Reading { value, ..from };
            Mend { slip: Slip::BarAndHoodSwapped, from, to }
        };
        all.push(vec![swapped(bar, hood.value), swapped(hood, bar.value)]);
    }
    all
}

fn laid_otherwise(of: Of) -> Option<(Slip, Of)> {
    let other = |laid| match laid {
        Laid::Level => Laid::Slant,
        Laid::Slant => Laid::Level,
    };
    let (laid, of) = match of {
        Of::NoseToWide(laid) => (laid, Of::NoseToWide(other(laid))),
        Of::NoseToBar(laid) => (laid, Of::NoseToBar(other(laid))),
        Of::NoseToHookFront(laid) => (laid, Of::NoseToHookFront(other(laid))),
        Of::NoseToBarEnd(laid) => (laid, Of::NoseToBarEnd(other(laid))),
        Of::NoseToHood(at, laid) => (laid, Of::NoseToHood(at, other(laid))),
        _ => return None,
    };
    Some(match laid {
        Laid::Level => (Slip::SlantForLevel, of),
        Laid::Slant => (Slip::LevelForSlant, of),
    })
}

fn hood_otherwise(of: Of) -> Option<(Slip, Of)> {
    let other = |at| match at {
        HoodAt::Trough => (Slip::TipForTrough, HoodAt::Tip),
        HoodAt::Tip => (Slip::TroughForTip, HoodAt::Trough),
    };
    match of {
        Of::NoseToHood(at, laid) => {
            let (slip, at) = other(at);
            Some((slip, Of::NoseToHood(at, laid)))
        }
        Of::HoodBelowSaddle(at) => {
            let (slip, at) = other(at);
            Some((slip, Of::HoodBelowSaddle(at)))
        }
        _ => None,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn digits_are_changed_about_in_every_place_and_keep_sign_and_fraction() {
        let all = |value| digits_swapped(value).collect::<Vec<_>>();
        assert_eq!(all(86.0), [68.0]);
        assert_eq!(all(-68.0), [-86.0]);
        assert_eq!(all(657.0), [675.0, 567.0]);
        assert_eq!(all(655.0), [565.0]);
        assert_eq!(all(8.0), [0.0; 0]);
        assert!((all(86.5)[0] - 68.5).abs() < 1e-9);
    }
}
