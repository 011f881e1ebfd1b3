//! What a hand covers: how wide a span of grip and blade its fingers still close round.
//!
//! Lengths in mm, no frame. The hand covers as much as it measures from the knuckle to the last
//! joint of the finger, less the glove; or what was *observed*: which joint of the finger lay on
//! the blade at a known span, and how it went. Strength, nails and joints that hurt are not known
//! here: an observation holds them.

use thiserror::Error;

/// Knuckle to the finger's last joint as a share of the hand's length (Buchholz, Armstrong and
/// Goldstein 1992, Ergonomics 35, from memory): 64, 70, 75, 81 mm at 165, 180, 193, 210 mm.
const COVER_PER_HAND: f64 = 0.388;
/// The finger's last bone as a share of the hand's length (the same, from memory).
const LAST_BONE_PER_HAND: f64 = 0.097;
/// The finger's middle bone as a share of the hand's length (the same, from memory).
const MIDDLE_BONE_PER_HAND: f64 = 0.143;
/// Where the pad of the fingertip presses, as a share of the last bone from its joint (judgement:
/// its middle).
const PAD_PER_LAST_BONE: f64 = 0.5;
/// How far the cover of two hands of one length differs, one SD, mm (judgement; the middle finger
/// alone scatters by 3.2 to 3.8 mm about its mean at a length of hand, computed from the open
/// survey ANSUR II).
const ESTIMATE_SD_MM: f64 = 5.0;
/// How much further than needed a finger reaches that reaches without doubt, mm (judgement).
const PLAIN_MM: f64 = 5.0;
/// How well a joint that *just* reaches tells the cover, one SD, mm (judgement).
const JUST_SD_MM: f64 = 3.0;
/// How well a plain yes or no tells it, one SD, mm (judgement).
const PLAIN_SD_MM: f64 = 5.0;

/// Length of a hand that this is about, mm: a slip of the pen beyond (judgement, wider than any
/// rider's).
const HAND_MM: (f64, f64) = (80.0, 280.0);
/// Thickness of a glove, mm: a slip of the pen beyond (judgement; 1–3, in winter 5–8, common
/// practice, no source).
const GLOVE_MM: (f64, f64) = (0.0, 30.0);
/// A span that was looked at, and what it is good to, mm: a slip of the pen beyond (judgement).
const SPAN_MM: (f64, f64) = (0.0, 300.0);

/// Which part of the finger lay on the blade.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub enum FingerPart {
    /// The pad of the fingertip.
    Pad,
    /// The crease of the last joint: what is taken as reaching.
    #[default]
    LastJoint,
    /// The crease of the middle joint.
    MiddleJoint,
}

impl FingerPart {
    /// Every part, from the tip.
    pub const ALL: [Self; 3] = [Self::Pad, Self::LastJoint, Self::MiddleJoint];

    /// How much nearer to the knuckle than the last joint it lies, mm.
    fn before_last_joint_mm(self, hand_length_mm: f64) -> f64 {
        match self {
            Self::Pad => -PAD_PER_LAST_BONE * LAST_BONE_PER_HAND * hand_length_mm,
            Self::LastJoint => 0.0,
            Self::MiddleJoint => MIDDLE_BONE_PER_HAND * hand_length_mm,
        }
    }
}

/// Whether that part of the finger came to lie on the blade.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Reaches {
    /// Without doubt: the cover is 5 mm more than needed, or better (judgement).
    Yes,
    /// Only just: the cover is what was needed.
    Just,
    /// Not: the cover is 5 mm less than needed, or worse (judgement).
    No,
}

impl Reaches {
    /// The word that stands nearest to a cover so many mm beyond what is needed; negative: short of it.
    pub fn with_to_spare_mm(to_spare_mm: f64) -> Self {
        if to_spare_mm >= 0.5 * PLAIN_MM {
            Self::Yes
        } else if to_spare_mm <= -0.5 * PLAIN_MM {
            Self::No
        } else {
            Self::Just
        }
    }
}

/// One look at a finger on a blade whose span is known.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct HandCheck {
    /// Which part of the finger was looked at.
    pub part: FingerPart,
    /// How it went.
    pub reaches: Reaches,
    /// Span of the lever, setting and place that it was tried at, mm.
    pub span_mm: f64,
    /// How well that span is known, one SD, mm; nought where the same lever and bar are asked about.
    pub span_sd_mm: f64,
    /// Glove worn then, mm.
    pub glove_mm: f64,
}

/// Why a hand is refused.
#[derive(Debug, Clone, Copy, PartialEq, Error)]
#[error("hand: {field} is {found}, not within {from} to {to} mm")]
pub struct HandError {
    /// Which number.
    pub field: &'static str,
    /// What it was, mm.
    pub found: f64,
    /// The least that is taken, mm.
    pub from: f64,
    /// The most that is taken, mm.
    pub to: f64,
}

/// How a cover came to be known.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum CoverKnown {
    /// From the length of the hand.
    Estimated,
    /// From a finger on a blade.
    Observed,
    /// Looks at the finger contradict each other: one reached a span that another did not. The
    /// cover lies midway.
    Contradicted,
}

/// What a hand covers, as a span of grip and blade.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Cover {
    /// The span that it covers, mm, glove taken off.
    pub mm: f64,
    /// One SD, mm.
    pub sd_mm: f64,
    /// How it is known.
    pub known: CoverKnown,
}

impl Cover {
    /// What a hand of that length covers in a glove, by itself or as it was observed.
    ///
    /// A check that *just* reaches replaces the estimate; of several the mean counts. After that a
    /// plain yes may only raise the cover and a plain no may only lower it: a blade that is reached
    /// with ease says nothing against a longer finger.
    ///
    /// # Errors
    /// Names the first number that is no length of a hand, glove or span.
    pub fn of(hand_length_mm: f64, glove_mm: f64, checks: &[HandCheck]) -> Result<Self, HandError> {
        within("hand length", hand_length_mm, HAND_MM)?;
        within("glove", glove_mm, GLOVE_MM)?;
        for check in checks {
            within("span", check.span_mm, SPAN_MM)?;
            within("span's SD", check.span_sd_mm, SPAN_MM)?;
            within("glove then", check.glove_mm, GLOVE_MM)?;
        }
        let bare = bare(hand_length_mm, checks);
        Ok(Self { mm: bare.mm - glove_mm, ..bare })
    }
}

impl Cover {
    /// The same of a hand whose length is known to `sd_mm` only: an estimate is as uncertain as that
    /// makes it, what was seen at the lever is not.
    #[must_use]
    pub fn of_a_hand_known_to(self, sd_mm: f64) -> Self {
        match self.known {
            CoverKnown::Estimated => {
                Self { sd_mm: self.sd_mm.hypot(COVER_PER_HAND * sd_mm), ..self }
            }
            CoverKnown::Observed | CoverKnown::Contradicted => self,
        }
    }
}

fn within(field: &'static str, found: f64, (from, to): (f64, f64)) -> Result<(), HandError> {
    if from <= found && found <= to { Ok(()) } else { Err(HandError { field, found, from, to }) }
}

/// The cover without a glove.
fn bare(hand_length_mm: f64, checks: &[HandCheck]) -> Cover {
    let told = |reaches: Reaches| {
        checks.iter().filter(move |check| check.reaches == reaches).map(move |check| {
            let needed_mm =
                check.span_mm + check.glove_mm + check.part.before_last_joint_mm(hand_length_mm);
            match reaches {
                Reaches::Yes => (needed_mm + PLAIN_MM, PLAIN_SD_MM.hypot(check.span_sd_mm)),
                Reaches::Just => (needed_mm, JUST_SD_MM.hypot(check.span_sd_mm)),
                Reaches::No => (needed_mm - PLAIN_MM, PLAIN_SD_MM.hypot(check.span_sd_mm)),
            }
        })
    };
    let by_mm = |a: &(f64, f64), b: &(f64, f64)| a.0.total_cmp(&b.0);
    let at_least = told(Reaches::Yes).max_by(by_mm);
    let at_most = told(Reaches::No).min_by(by_mm);
    if let (Some((least_mm, sd_mm)), Some((most_mm, other_sd_mm))) = (at_least, at_most)
        && least_mm > most_mm
    {
        return Cover {
            mm: f64::midpoint(least_mm, most_mm),
            sd_mm: sd_mm.max(other_sd_mm).max(0.5 * (least_mm - most_mm)),
            known: CoverKnown::Contradicted,
        };
    }
    let (count, sum_mm, sum_sd_mm) = told(Reaches::Just)
        .fold((0.0, 0.0, 0.0), |(n, mm, sd), told| (n + 1.0, mm + told.0, sd + told.1));
    let mut cover = if count > 0.0 {
        Cover { mm: sum_mm / count, sd_mm: sum_sd_mm / count, known: CoverKnown::Observed }
    } else {
        let mm = COVER_PER_HAND * hand_length_mm;
        Cover { mm, sd_mm: ESTIMATE_SD_MM, known: CoverKnown::Estimated }
    };
    if let Some((mm, sd_mm)) = at_least.filter(|least| least.0 > cover.mm) {
        cover = Cover { mm, sd_mm, known: CoverKnown::Observed };
    }
    if let Some((mm, sd_mm)) = at_most.filter(|most| most.0 < cover.mm) {
        cover = Cover { mm, sd_mm, known: CoverKnown::Observed };
    }
    cover
}

#[cfg(test)]
mod tests {
    use super::*;

    fn check(part: FingerPart, reaches: Reaches, span_mm: f64) -> HandCheck {
        HandCheck { part, reaches, span_mm, span_sd_mm: 0.0, glove_mm: 0.0 }
    }

    fn mm(checks: &[HandCheck]) -> f64 {
        Cover::of(193.0, 0.0, checks).unwrap().mm
    }

    /// Whole millimetres from Buchholz 1992 (from memory) at four lengths of hand.
    #[test]
    fn hands_cover_what_their_bones_measure() {
        for (hand_mm, cover_mm) in [(165.0, 64.0), (180.0, 70.0), (193.0, 75.0), (210.0, 81.0)] {
            let got = Cover::of(hand_mm, 0.0, &[]).unwrap();
            assert!((got.mm - cover_mm).abs() < 0.55, "{hand_mm}: {}", got.mm);
            let gloved = Cover::of(hand_mm, 6.5, &[]).unwrap();
            assert!((got.mm - gloved.mm - 6.5).abs() < 1e-12);
        }
    }

    #[test]
    fn a_finger_that_just_reaches_tells_the_cover() {
        use FingerPart::{LastJoint, MiddleJoint, Pad};
        let just = |part, span| mm(&[check(part, Reaches::Just, span)]);
        assert_eq!(just(LastJoint, 68.0), 68.0);
        // the pad lies beyond the last joint, the middle joint before it: 193 × .0485 and × .143
        assert!((just(Pad, 78.0) - 68.64).abs() < 0.01);
        assert!((just(MiddleJoint, 50.0) - 77.60).abs() < 0.01);
        let two = [check(LastJoint, Reaches::Just, 66.0), check(LastJoint, Reaches::Just, 72.0)];
        assert_eq!(mm(&two), 69.0);
    }

    #[test]
    fn the_word_is_that_of_the_nearest_cover() {
        let word = Reaches::with_to_spare_mm;
        assert_eq!([8.0, 5.0, 2.6].map(word), [Reaches::Yes; 3]);
        assert_eq!([2.4, 0.0, -2.4].map(word), [Reaches::Just; 3]);
        assert_eq!([-2.6, -5.0, -30.0].map(word), [Reaches::No; 3]);
    }

    #[test]
    fn yes_only_raises_and_no_only_lowers() {
        let estimate = mm(&[]);
        let plain = |reaches, span| mm(&[check(FingerPart::LastJoint, reaches, span)]);
        assert_eq!(plain(Reaches::Yes, 50.0), estimate);
        assert_eq!(plain(Reaches::Yes, 78.0), 83.0);
        assert_eq!(plain(Reaches::No, 95.0), estimate);
        assert_eq!(plain(Reaches::No, 70.0), 65.0);
        let mut before = (f64::NEG_INFINITY, f64::NEG_INFINITY);
        for step in 0..400 {
            let span = 40.0 + 0.2 * f64::from(step);
            let now = (plain(Reaches::Yes, span), plain(Reaches::No, span));
            assert!(now.0 >= before.0 && now.1 >= before.1 && now.0 > now.1);
            before = now;
        }
    }

    #[test]
    fn a_glove_worn_at_the_check_is_given_back() {
        let then = HandCheck { glove_mm: 2.0, ..check(FingerPart::LastJoint, Reaches::Just, 68.0) };
        assert_eq!(Cover::of(193.0, 2.0, &[then]).unwrap().mm, 68.0);
        assert_eq!(Cover::of(193.0, 7.0, &[then]).unwrap().mm, 63.0);
    }

    #[test]
    fn looks_that_contradict_each_other_say_so() {
        let part = FingerPart::LastJoint;
        let checks = [check(part, Reaches::Yes, 80.0), check(part, Reaches::No, 70.0)];
        let cover = Cover::of(193.0, 0.0, &checks).unwrap();
        assert_eq!((cover.mm, cover.known), (75.0, CoverKnown::Contradicted));
        assert!(cover.sd_mm >= 10.0);
        let agree = [check(part, Reaches::Yes, 60.0), check(part, Reaches::No, 78.0)];
        assert_eq!(Cover::of(193.0, 0.0, &agree).unwrap().known, CoverKnown::Observed);
    }

    #[test]
    fn a_span_known_badly_tells_less() {
        let vague =
            HandCheck { span_sd_mm: 7.0, ..check(FingerPart::LastJoint, Reaches::Just, 68.0) };
        assert!((Cover::of(193.0, 0.0, &[vague]).unwrap().sd_mm - 58_f64.sqrt()).abs() < 1e-12);
    }

    #[test]
    fn what_is_no_hand_is_refused() {
        for wrong in [f64::NAN, f64::INFINITY, -1.0, 19.3, 1930.0] {
            assert_eq!(Cover::of(wrong, 0.0, &[]).unwrap_err().field, "hand length");
        }
        for wrong in [f64::NAN, f64::INFINITY, -1.0, 31.0] {
            assert_eq!(Cover::of(193.0, wrong, &[]).unwrap_err().field, "glove");
        }
        for wrong in [f64::NAN, f64::INFINITY, -1.0, 680.0] {
            let check = check(FingerPart::Pad, Reaches::No, wrong);
            assert_eq!(Cover::of(193.0, 0.0, &[check]).unwrap_err().field, "span");
        }
    }
}
