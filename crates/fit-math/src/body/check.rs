//! Check this reading: readings that all the others make unlikely, and the slip that explains one.
//!
//! mm, kg for weight. Every item, and every reading of an item that was read more than once, is
//! foretold from everything else; the one that is furthest off is set aside and the rest looked at
//! again, so that a wrong reading does not accuse the right ones. Nothing is refused here.

use super::estimate::{Estimate, People};
use super::{Dimension, Item, Reading, Sex, Survey, item, taken};

/// A reading further off than this many standard deviations is asked about (judgement: 1 in 370).
pub const ASKED_BEYOND_SD: f64 = 3.0;
/// A centimetre and an inch in mm (exact).
const CENTIMETRE_MM: f64 = 10.0;
const INCH_MM: f64 = 25.4;
/// Kilograms in a pound (exact).
const POUND_KG: f64 = 0.453_592_37;

/// What may have happened at the keyboard or at the shoulder.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum SlipKind {
    /// Centimetres were typed for mm.
    Centimetres,
    /// Inches were typed for mm.
    Inches,
    /// Pounds were typed for kg.
    Pounds,
    /// Two neighbouring digits changed places.
    DigitsSwapped,
    /// The shoulder joints were felt, and taken for the acromia's outer edges.
    JointForAcromion,
    /// The acromia's outer edges were felt, and taken for the shoulder joints.
    AcromionForJoint,
}

/// A slip, and the reading without it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Slip {
    /// What may have happened.
    pub kind: SlipKind,
    /// The reading that was meant, mm or kg.
    pub meant: f64,
}

/// A reading that the others make unlikely.
#[derive(Debug, Clone, PartialEq)]
pub struct Unlikely {
    /// Where it is among the readings; several where all of one item's are off together.
    pub at: Vec<usize>,
    /// What was read.
    pub item: Item,
    /// The reading, or the mean of several, mm or kg.
    pub value: f64,
    /// What all others foretell, mm or kg.
    pub expected: f64,
    /// Standard deviation of a reading about that, mm or kg.
    pub sd: f64,
    /// How many of those the reading is off; never within [`ASKED_BEYOND_SD`].
    pub z: f64,
    /// What would explain it.
    pub slip: Option<Slip>,
}

/// Readings to look at again, the one furthest off first. What is not a number is passed over.
pub fn unlikely(survey: &Survey, sex: Option<Sex>, readings: &[Reading]) -> Vec<Unlikely> {
    let mut left: Vec<usize> =
        (0..readings.len()).filter(|&at| readings[at].value.is_finite()).collect();
    let mut found = Vec::new();
    loop {
        let looked_at = together(readings, &left)
            .into_iter()
            .map(|at| foretold(survey, sex, readings, &left, at))
            .max_by(|a, b| a.z.abs().total_cmp(&b.z.abs()));
        let Some(worst) = looked_at.filter(|worst| worst.z.abs() > ASKED_BEYOND_SD) else {
            return found;
        };
        left.retain(|at| !worst.at.contains(at));
        found.push(worst);
    }
}

/// What may be wrong together: each reading, and all of an item that was read more than once.
fn together(readings: &[Reading], left: &[usize]) -> Vec<Vec<usize>> {
    let mut groups: Vec<Vec<usize>> = left.iter().map(|&at| vec![at]).collect();
    for &first in left {
        let same = |&&at: &&usize| readings[at].item == readings[first].item;
        let all: Vec<usize> = left.iter().filter(same).copied().collect();
        if all.len() > 1 && all[0] == first {
            groups.push(all);
        }
    }
    groups
}

fn foretold(
    survey: &Survey,
    sex: Option<Sex>,
    readings: &[Reading],
    left: &[usize],
    at: Vec<usize>,
) -> Unlikely {
    let pick = |keep: &dyn Fn(&usize) -> bool| -> Vec<Reading> {
        left.iter().filter(|at| keep(at)).map(|&at| readings[at]).collect()
    };
    let others = pick(&|one| !at.contains(one));
    let group = pick(&|one| at.contains(one));
    let item = readings[at[0]].item;
    let read = taken::one(survey, &group, item);
    let estimate = Estimate::new(survey, sex, People::Clients, &others);
    let gradient = item.gradient();
    let expected = estimate.normal().mean_of(&gradient) + item.offset();
    let sd = (estimate.normal().sd_of(&gradient).powi(2) + read.variance).sqrt();
    let z = (read.value - expected) / sd;
    let slip = slip(item, read.value, at.len() == 1, |meant| (meant - expected) / sd);
    Unlikely { at, item, value: read.value, expected, sd, z, slip }
}

/// The slip without which the reading would not be asked about: units before landmarks before
/// digits, of which the nearest (judgement: as often as they happen).
fn slip(item: Item, value: f64, is_one: bool, z: impl Fn(f64) -> f64) -> Option<Slip> {
    let of = |kind, meant| Slip { kind, meant };
    let mut slips = Vec::new();
    if item == Item::Dimension(Dimension::Weight) {
        slips.push(of(SlipKind::Pounds, value * POUND_KG));
    } else {
        slips.push(of(SlipKind::Centimetres, value * CENTIMETRE_MM));
        slips.push(of(SlipKind::Inches, value * INCH_MM));
    }
    match item {
        Item::Dimension(Dimension::BiacromialBreadth) => {
            let meant = value + item::ACROMIA_BEYOND_FELT_JOINTS_MM;
            slips.push(of(SlipKind::JointForAcromion, meant));
        }
        Item::ShoulderJoints => {
            let meant = value - item::ACROMIA_BEYOND_FELT_JOINTS_MM;
            slips.push(of(SlipKind::AcromionForJoint, meant));
        }
        _ => {}
    }
    if is_one {
        let mut digits: Vec<f64> = swapped(value).collect();
        digits.sort_by(|&a, &b| z(a).abs().total_cmp(&z(b).abs()));
        slips.extend(digits.into_iter().map(|meant| of(SlipKind::DigitsSwapped, meant)));
    }
    slips.into_iter().find(|slip| z(slip.meant).abs() <= ASKED_BEYOND_SD)
}

/// The number with each two neighbouring digits before the point changed about.
fn swapped(value: f64) -> impl Iterator<Item = f64> {
    let whole = value.trunc();
    (0..3).filter_map(move |place| {
        let unit = 10_f64.powi(place);
        let digit = |unit: f64| (whole / unit).floor() % 10.0;
        let (low, high) = (digit(unit), digit(unit * 10.0));
        let by = (high - low) * unit - (high - low) * unit * 10.0;
        (low != high && value >= unit * 10.0).then_some(value + by)
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn neighbouring_digits_change_places() {
        assert_eq!(swapped(1870.5).collect::<Vec<_>>(), [1807.5, 1780.5, 8170.5]);
        assert_eq!(swapped(77.0).count(), 0);
    }
}
