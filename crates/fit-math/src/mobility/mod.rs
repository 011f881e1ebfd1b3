//! How far joints usually go: norms by age and sex, to draw beside a reading and to give a word a
//! number.
//!
//! Degrees, since that is what goniometers and tables have; the sums take radians ([`Norm::of`]).
//! A norm never limits a posture by itself: only a reading or a word does.
//!
//! ```
//! use fit_math::mobility::{Motion, Norm, Suppleness};
//! let neck = Norm::of(Motion::NeckExtension, None, Some(40));
//! assert!(neck.word_deg(Suppleness::Stiff) < neck.word_deg(Suppleness::Ordinary));
//! ```

use crate::body::Sex;

/// A movement that is measured with a goniometer.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Motion {
    /// Thigh towards the trunk, moved by the examiner.
    HipFlexion,
    /// Upper arm raised forwards from the trunk's line.
    ShoulderFlexion,
    /// Looking up, by the client's own strength.
    NeckExtension,
}

/// What a fitter says of a joint without a goniometer.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Suppleness {
    /// Further than most.
    Free,
    /// As most.
    Ordinary,
    /// Less far than most.
    Stiff,
}

impl Suppleness {
    /// Every word, from the furthest.
    pub const ALL: [Self; 3] = [Self::Free, Self::Ordinary, Self::Stiff];
}

/// What people of an age and sex have, degrees.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Norm {
    /// Mean.
    pub mean_deg: f64,
    /// Standard deviation among people.
    pub sd_deg: f64,
    /// Where it comes from.
    pub source: &'static str,
}

/// Passive hip flexion by age up to 44 and from 45, men and women, mean, degrees.
const HIP_DEG: [[f64; 2]; 2] = [[130.4, 133.8], [127.2, 130.8]];
/// Its standard deviation, degrees: judgement, between what the study's confidence limits come to
/// (about 7) and older women's (122.6 ± 10.8, J Physiol Anthropol 2016).
const HIP_SD_DEG: f64 = 8.0;
/// Shoulder flexion likewise, mean, degrees.
const SHOULDER_DEG: [[f64; 2]; 2] = [[168.8, 172.0], [164.0, 168.1]];
/// Its standard deviation, degrees: 4.7 in men (Boone & Azen), 5–8 in several studies (from memory).
const SHOULDER_SD_DEG: f64 = 6.0;
/// Age from which the second of two means holds, years.
const OLDER_FROM: u32 = 45;
const SOUCIE: &str =
    "Soucie et al. 2011, Haemophilia 17:500 (means from memory; spread: judgement)";

/// Active extension of the neck: age up to which it holds, mean and SD, degrees.
const NECK_DEG: [(u32, f64, f64); 3] = [(29, 75.5, 8.5), (49, 70.5, 17.5), (u32::MAX, 64.5, 7.0)];
const AAOS: &str = "American Academy of Orthopaedic Surgeons, as given by Kosmahl, Univ. Scranton";

/// Age that stands where none is given, years (judgement: the middle of a shop's clients).
const USUAL_AGE: u32 = 40;

impl Norm {
    /// What people of that sex and age (years) have; between the sexes where it is not given, at 40
    /// years where the age is not.
    pub fn of(motion: Motion, sex: Option<Sex>, age: Option<u32>) -> Self {
        let age = age.unwrap_or(USUAL_AGE);
        let of_two = |means: [[f64; 2]; 2]| {
            let [men, women] = means[usize::from(age >= OLDER_FROM)];
            match sex {
                Some(Sex::Male) => men,
                Some(Sex::Female) => women,
                None => f64::midpoint(men, women),
            }
        };
        match motion {
            Motion::HipFlexion => {
                Self { mean_deg: of_two(HIP_DEG), sd_deg: HIP_SD_DEG, source: SOUCIE }
            }
            Motion::ShoulderFlexion => {
                Self { mean_deg: of_two(SHOULDER_DEG), sd_deg: SHOULDER_SD_DEG, source: SOUCIE }
            }
            Motion::NeckExtension => {
                let (_, mean_deg, sd_deg) =
                    NECK_DEG.into_iter().find(|(to, ..)| age <= *to).unwrap_or(NECK_DEG[2]);
                Self { mean_deg, sd_deg, source: AAOS }
            }
        }
    }

    /// The end of the range that a word stands for, degrees: a standard deviation above the mean,
    /// the mean, or a standard deviation below it (judgement).
    pub fn word_deg(&self, word: Suppleness) -> f64 {
        match word {
            Suppleness::Free => self.mean_deg + self.sd_deg,
            Suppleness::Ordinary => self.mean_deg,
            Suppleness::Stiff => self.mean_deg - self.sd_deg,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Neck extension by age as the academy prints it: 75.5 ± 8.5 from 20 to 29 years, 70.5 ± 17.5
    /// from 30 to 49, 64.5 ± 7 above 50.
    #[test]
    fn necks_get_stiffer_with_age_as_the_academy_has_it() {
        let neck = |age| Norm::of(Motion::NeckExtension, None, Some(age));
        let stiff = |age: u32| neck(age).word_deg(Suppleness::Stiff);
        assert_eq!([25, 29].map(stiff), [67.0; 2]);
        assert_eq!([30, 40, 49].map(stiff), [53.0; 3]);
        assert_eq!([50, 68, 90].map(stiff), [57.5; 3]);
        assert_eq!(neck(68).word_deg(Suppleness::Free), 71.5);
    }

    #[test]
    fn nobody_s_sex_lies_between_the_two_and_words_in_their_order() {
        for motion in [Motion::HipFlexion, Motion::ShoulderFlexion, Motion::NeckExtension] {
            for age in [None, Some(18), Some(44), Some(45), Some(80)] {
                let [men, women, either] = [Some(Sex::Male), Some(Sex::Female), None]
                    .map(|sex| Norm::of(motion, sex, age).mean_deg);
                assert!((men..=women).contains(&either), "{motion:?} {age:?}");
                let norm = Norm::of(motion, None, age);
                let [stiff, ordinary, free] =
                    [Suppleness::Stiff, Suppleness::Ordinary, Suppleness::Free]
                        .map(|word| norm.word_deg(word));
                assert!(stiff < ordinary && ordinary < free && free <= 180.0, "{motion:?} {age:?}");
            }
        }
    }
}
