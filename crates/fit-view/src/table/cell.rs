//! One cell: a whole number and how it differs from the cockpit as it came.
//!
//! Three whole numbers stand side by side: the one as it came, the candidate's, and the change.
//! Rounding each by itself can make 42 and 44 stand beside "+1", which a client who subtracts takes
//! for a fault. So the change shown is the difference *of the numbers shown*; it is off the exact
//! one by less than a whole unit, which is less than anybody tells apart. Whether there is a change
//! at all is asked of the exact numbers, and where there is none the word "same" stands alone,
//! because 42 and 43 beside "same" would contradict each other too. An exact change of a whole
//! degree or more moves the rounded number by at least one, so that "+0" never stands anywhere.

use fit_math::posture::Joint;
use fit_units::Unit;

/// Two lengths closer than this are the same answer, mm (judgement).
const SAME_MM: f64 = 2.0;
/// Two hands closer than this are level, mm (judgement: what a tape laid over both hoods tells).
const LEVEL_MM: f64 = 1.0;
/// Two angles closer than this are the same answer, degrees (judgement).
const SAME_DEG: f64 = 1.0;

/// What a row counts in.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Scale {
    /// Whole millimetres.
    Millimetres,
    /// Whole degrees.
    Degrees,
}

impl Scale {
    /// The unit that stands beside the numbers.
    pub const fn unit(self) -> Unit {
        match self {
            Self::Millimetres => Unit::Millimetre,
            Self::Degrees => Unit::Degree,
        }
    }

    const fn same(self) -> f64 {
        match self {
            Self::Millimetres => SAME_MM,
            Self::Degrees => SAME_DEG,
        }
    }
}

/// What a cell answers.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Answer {
    /// There is no such hand place on this cockpit, or nothing to say of it.
    None,
    /// The hands do not get there.
    OutOfReach {
        /// What the arms lack, whole mm, at least 1.
        short_by_mm: i64,
    },
    /// A whole number of the row's scale.
    Number(i64),
    /// Only the change means anything.
    ChangeOnly,
}

/// How an answer differs from the one as it came.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Change {
    /// This is the cockpit as it came, or one of the two has no answer.
    None,
    /// The same answer.
    Same,
    /// By a whole number of the row's scale, never nought.
    By(i64),
}

/// One cell of the table.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Cell {
    /// The answer.
    pub answer: Answer,
    /// Its change.
    pub change: Change,
    /// The joint that is at its limit there.
    pub at_limit: Option<Joint>,
}

impl Cell {
    /// A cell without an answer.
    pub const EMPTY: Self = Self { answer: Answer::None, change: Change::None, at_limit: None };

    /// Hands that are short of the bar.
    pub fn out_of_reach(short_by_mm: f64) -> Self {
        // half a millimetre short is short
        let answer = Answer::OutOfReach { short_by_mm: whole(short_by_mm).max(1) };
        Self { answer, ..Self::EMPTY }
    }

    /// A number, mm or degrees, beside the one as it came where that has one.
    pub fn number(scale: Scale, value: f64, as_it_came: Option<f64>) -> Self {
        let change = match as_it_came {
            None => Change::None,
            Some(before) if (value - before).abs() < scale.same() => Change::Same,
            Some(before) => Change::By(whole(value) - whole(before)),
        };
        Self { answer: Answer::Number(whole(value)), change, at_limit: None }
    }

    /// A change by itself, between two numbers in mm or degrees that stand elsewhere or nowhere.
    pub fn change_only(scale: Scale, before: f64, after: f64) -> Self {
        Self { answer: Answer::ChangeOnly, ..Self::number(scale, after, Some(before)) }
    }

    /// How far one of two hands is from the other, mm, on one cockpit.
    pub fn apart(by_mm: f64) -> Self {
        let change = if by_mm.abs() > LEVEL_MM { Change::By(whole(by_mm)) } else { Change::Same };
        Self { answer: Answer::ChangeOnly, change, ..Self::EMPTY }
    }

    /// The same with a joint at its limit.
    #[must_use]
    pub fn with_limit(self, at_limit: Option<Joint>) -> Self {
        Self { at_limit, ..self }
    }
}

/// The nearest whole number, halves away from nought, as everywhere numbers are shown.
#[expect(clippy::cast_possible_truncation, reason = "saturates, and no reading is near 2⁶³")]
fn whole(value: f64) -> i64 {
    value.round() as i64
}

#[cfg(test)]
mod tests {
    use super::*;

    const STEPS: i32 = 600;

    /// Over many pairs: what stands in three cells never contradicts itself.
    #[test]
    fn the_change_is_the_difference_of_the_numbers_beside_it() {
        for scale in [Scale::Millimetres, Scale::Degrees] {
            let (mut same, mut by) = (0, 0);
            for i in 0..STEPS {
                for j in 0..STEPS {
                    let (before, after) =
                        (40.0 + f64::from(i) * 0.017, 40.0 + f64::from(j) * 0.017);
                    let reference = Cell::number(scale, before, None);
                    let cell = Cell::number(scale, after, Some(before));
                    let (Answer::Number(was), Answer::Number(is)) = (reference.answer, cell.answer)
                    else {
                        panic!("numbers")
                    };
                    let exact = after - before;
                    match cell.change {
                        Change::Same => {
                            assert!(exact.abs() < scale.same());
                            same += 1;
                        }
                        Change::By(change) => {
                            assert_eq!(change, is - was);
                            assert_ne!(change, 0);
                            assert!((change as f64 - exact).abs() < 1.0 + 1e-9);
                            assert!((change > 0) == (exact > 0.0));
                            by += 1;
                        }
                        Change::None => panic!("both have an answer"),
                    }
                }
            }
            assert!(same > 1000 && by > 1000);
        }
    }

    #[test]
    fn hands_a_little_short_are_short_by_one() {
        let cell = Cell::out_of_reach(0.2);
        assert_eq!(cell.answer, Answer::OutOfReach { short_by_mm: 1 });
        assert_eq!(Cell::out_of_reach(12.4).answer, Answer::OutOfReach { short_by_mm: 12 });
    }

    #[test]
    fn hands_within_a_millimetre_are_level() {
        assert_eq!(Cell::apart(-1.0).change, Change::Same);
        assert_eq!(Cell::apart(-1.01).change, Change::By(-1));
        assert_eq!(Cell::apart(2.6).change, Change::By(3));
    }

    #[test]
    fn a_small_change_by_itself_is_the_same() {
        let change = |scale, before, after| Cell::change_only(scale, before, after).change;
        assert_eq!(change(Scale::Millimetres, 0.0, -1.9), Change::Same);
        assert_eq!(change(Scale::Millimetres, 0.0, -2.0), Change::By(-2));
        assert_eq!(change(Scale::Degrees, 0.0, 0.99), Change::Same);
        assert_eq!(change(Scale::Degrees, 0.0, 1.4), Change::By(1));
        assert_eq!(change(Scale::Millimetres, 169.6, 159.4), Change::By(-11), "170 and 159");
    }
}
