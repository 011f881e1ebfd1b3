//! How far left and right differ: what the readings of both sides come to.
//!
//! mm, left less right. A client's arms are taken to differ from each other as the arms of two
//! people do, only less, and the legs likewise; readings of arms tell nothing of legs. A difference
//! that is within the tape's error is therefore nearly nothing, and a large one stays a large one.

use super::normal::Vector;
use super::taken::Taken;
use super::{Dimension, Gradient, Item, Sex, Survey};

/// Spread of what the two sides differ by, over the spread between people (judgement: legs differ
/// by 5 mm on average, from memory, which is a spread of 0.14 of that between people; but both
/// sides are read where a difference is suspected).
const SIDES_OVER_PEOPLE: f64 = 0.3;

/// What an arm has.
const ARM: &[Dimension] = &[
    Dimension::AcromionRadialeLength,
    Dimension::RadialeStylionLength,
    Dimension::ShoulderElbowLength,
    Dimension::ForearmHandLength,
    Dimension::ForearmGripLength,
    Dimension::HandLength,
    Dimension::PalmLength,
    Dimension::HandBreadth,
];

/// What a leg has.
const LEG: &[Dimension] = &[
    Dimension::TrochanterionHeight,
    Dimension::CrotchHeight,
    Dimension::KneeHeightMidpatella,
    Dimension::LateralFemoralEpicondyleHeight,
    Dimension::TibialeHeight,
    Dimension::LateralMalleolusHeight,
    Dimension::ButtockKneeLength,
    Dimension::ButtockPoplitealLength,
    Dimension::KneeHeightSitting,
    Dimension::PoplitealHeight,
    Dimension::FootLength,
    Dimension::BallOfFootLength,
    Dimension::FootBreadth,
    Dimension::ThighCircumference,
];

/// The limb that an item lies in wholly.
fn limb(item: Item) -> Option<&'static [Dimension]> {
    let gradient = item.gradient();
    let within = |limb: &&[Dimension]| gradient.weights().all(|(d, _)| limb.contains(&d));
    [ARM, LEG].into_iter().find(within)
}

impl Item {
    /// Whether it is of an arm or a leg, so that left and right are each read by themselves.
    pub fn has_sides(self) -> bool {
        limb(self).is_some()
    }
}

/// Variance of half of what an item's sides differ by, mm²; nought where it has no sides. The men's
/// for everybody: the women's spread is within a fifth of it.
pub(super) fn half_variance(survey: &Survey, item: Item) -> f64 {
    let spread = survey.people(Sex::Male).sd_of(&item.gradient());
    limb(item).map_or(0.0, |_| (SIDES_OVER_PEOPLE * spread / 2.0).powi(2))
}

/// Left less right of every dimension, mm; nought where no two sides tell of it.
pub(super) fn apart(survey: &Survey, sex: Sex, taken: &[Taken]) -> Vector {
    let mut apart = Vector::zeros();
    for of in [ARM, LEG] {
        let mut both = taken.iter().filter(|one| limb(one.item) == Some(of) && one.apart.is_some());
        if both.clone().next().is_none() {
            continue;
        }
        let mut differences = survey.people(sex).about_nought(SIDES_OVER_PEOPLE);
        for one in &mut both {
            if let Some((left_less_right, variance)) = one.apart {
                differences.learn(&one.item.gradient(), left_less_right, variance);
            }
        }
        for &dimension in of {
            apart[dimension.index()] = differences.mean_of(&Gradient::from(dimension));
        }
    }
    apart
}
