//! One cell: a whole number and how it differs from the cockpit as it came.
//!
//! Three whole numbers stand side by side: the one as it came, the candidate's, and the change.
//! Rounding each by itself can make 42 and 44 stand beside "+1", which a client who subtracts takes
//! for a fault. So the change shown is the difference *of the numbers shown*; it is off the exact
//! one by less than a whole unit, which is less than anybody tells apart. Whether there is a change
//! at all is asked of the exact numbers. Where there is none the answer *is* the one as it came, also
//! for whatever is reckoned from it, and the word "same" stands alone: 42 and 43 beside "same" would
//! contradict each other. An exact change of a whole degree or more moves the rounded number by at
//! least one, so that "+0" never stands anywhere.

use super::limit::AtLimit;
use fit_math::doubt::{TELLS_SD, tells};
use fit_units::Unit;

/// Two lengths closer than this are the same answer, mm (judgement).
pub const SAME_MM: i64 = 2;
/// Two hands closer than this or just so far apart are level, mm (judgement: what a tape laid over
/// both hoods tells).
pub const LEVEL_MM: i64 = 1;
/// Two angles closer than this are the same answer, degrees (judgement).
pub const SAME_DEG: i64 = 1;

/// Two efforts closer than this are the same answer, per cent (judgement: some 4 mm of a bar's width).
pub const SAME_PERCENT: i64 = 1;

/// What a row counts in.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Scale {
    /// Whole millimetres.
    Millimetres,
    /// Whole degrees.
    Degrees,
    /// Whole per cent.
    Percent,
}

impl Scale {
    /// The unit that stands beside the numbers.
    pub const fn unit(self) -> Unit {
        match self {
            Self::Millimetres => Unit::Millimetre,
            Self::Degrees => Unit::Degree,
            Self::Percent => Unit::Percent,
        }
    }

    /// Two answers closer than this are the same one.
    pub(crate) const fn same_whole(self) -> i64 {
        match self {
            Self::Millimetres => SAME_MM,
            Self::Degrees => SAME_DEG,
            Self::Percent => SAME_PERCENT,
        }
    }

    const fn same(self) -> f64 {
        self.same_whole() as f64
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
    /// How far one hand is from the other, whole mm; nought where they are level.
    Apart(i64),
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

/// How far chance alone takes a change, nine times in ten.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Doubt {
    /// By a whole number of the row's scale, at least 1. Of a change that tells it is never more than
    /// the change, of one that does not never less: what stands side by side agrees.
    pub within: i64,
    /// The change is larger.
    pub tells: bool,
}

impl Doubt {
    /// Of a change, and how far chance takes it, both in the row's scale; nothing where nothing is
    /// doubted.
    pub fn of(change: f64, by: i64, sd: f64) -> Option<Self> {
        let tells = tells(change, sd);
        let (within, size) = (whole(TELLS_SD * sd).max(1), by.saturating_abs());
        let within = if tells { within.min(size) } else { within.max(size) };
        (sd > 0.0).then_some(Self { within, tells })
    }
}

/// A change as it is told whoever reads no brackets: the client, in his view and on his sheet.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Telling {
    /// There is none to be told.
    None,
    /// The same answer.
    Same,
    /// Chance alone may have made it: its number is kept back.
    TooSmall,
    /// By a whole number of the row's scale, and how far chance takes it where that is followed.
    By(i64, Option<i64>),
}

/// One cell of the table.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Cell {
    /// The answer.
    pub answer: Answer,
    /// Its change.
    pub change: Change,
    /// The joint that is at its limit there, of those that the row speaks of.
    pub at_limit: Option<AtLimit>,
    /// How sure its change is; none where there is no change or nobody follows that.
    pub doubt: Option<Doubt>,
}

impl Cell {
    /// A cell without an answer.
    pub const EMPTY: Self =
        Self { answer: Answer::None, change: Change::None, at_limit: None, doubt: None };

    /// Hands that are short of the bar.
    pub fn out_of_reach(short_by_mm: f64) -> Self {
        // half a millimetre short is short
        let answer = Answer::OutOfReach { short_by_mm: whole(short_by_mm).max(1) };
        Self { answer, ..Self::EMPTY }
    }

    /// A number, mm or degrees, beside the one as it came where that has one.
    pub fn number(scale: Scale, value: f64, as_it_came: Option<f64>) -> Self {
        let (shown, change) = match as_it_came {
            None => (value, Change::None),
            Some(before) if (value - before).abs() < scale.same() => (before, Change::Same),
            Some(before) => (value, Change::By(whole(value) - whole(before))),
        };
        Self { answer: Answer::Number(whole(shown)), change, ..Self::EMPTY }
    }

    /// The whole number that stands in the cell, or would but for the word "same".
    pub fn shown(&self) -> Option<i64> {
        match self.answer {
            Answer::Number(shown) => Some(shown),
            _ => None,
        }
    }

    /// Its change for whoever reads no brackets.
    pub fn telling(&self) -> Telling {
        match (self.change, self.doubt) {
            (Change::None, _) => Telling::None,
            (Change::Same, _) => Telling::Same,
            (Change::By(_), Some(doubt)) if !doubt.tells => Telling::TooSmall,
            (Change::By(by), doubt) => Telling::By(by, doubt.map(|of| of.within)),
        }
    }

    /// A change by itself, between two numbers in mm or degrees that stand elsewhere or nowhere.
    pub fn change_only(scale: Scale, before: f64, after: f64) -> Self {
        Self { answer: Answer::ChangeOnly, ..Self::number(scale, after, Some(before)) }
    }

    /// How far one of two hands is from the other, mm, on one cockpit and on the one as it came.
    pub fn apart(by_mm: f64, as_it_came_mm: Option<f64>) -> Self {
        let level = |mm: f64| if mm.abs() > LEVEL_MM as f64 { whole(mm) } else { 0 };
        let shown = level(by_mm);
        let change = match as_it_came_mm.map(level) {
            None => Change::None,
            Some(before) if before == shown => Change::Same,
            Some(before) => Change::By(shown - before),
        };
        Self { answer: Answer::Apart(shown), change, ..Self::EMPTY }
    }

    /// The same with a joint at its limit.
    #[must_use]
    pub fn with_limit(self, at_limit: Option<AtLimit>) -> Self {
        Self { at_limit, ..self }
    }

    /// The same with how sure its change is: `exact` and its standard deviation in the row's scale.
    #[must_use]
    pub fn with_doubt(self, exact: f64, sd: f64) -> Self {
        match self.change {
            Change::By(by) => Self { doubt: Doubt::of(exact, by, sd), ..self },
            Change::None | Change::Same => self,
        }
    }
}

/// The nearest whole number, halves away from nought, as everywhere numbers are shown.
#[expect(clippy::cast_possible_truncation, reason = "saturates, and no reading is near 2⁶³")]
pub(crate) fn whole(value: f64) -> i64 {
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
                            assert_eq!(is, was, "what is the same is the same number");
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

    /// Over many changes and spreads: what stands side by side never contradicts itself.
    #[test]
    fn a_change_that_tells_is_never_within_its_doubt() {
        let (mut told, mut silent) = (0, 0);
        for i in 0..STEPS {
            for j in 0..STEPS {
                let (change, sd) = (f64::from(i) * 0.021 - 6.3, f64::from(j) * 0.011);
                let cell = Cell::number(Scale::Degrees, 40.0 + change, Some(40.0));
                let doubted = cell.with_doubt(change, sd);
                let Change::By(by) = cell.change else {
                    assert_eq!(doubted.doubt, None, "what is the same is not doubted");
                    continue;
                };
                let Some(doubt) = doubted.doubt else {
                    assert_eq!(sd, 0.0, "what is sure is not doubted");
                    continue;
                };
                assert_eq!(doubt.tells, change.abs() > 1.64 * sd);
                assert!(doubt.within >= 1);
                if doubt.tells {
                    assert!(doubt.within <= by.abs());
                    told += 1;
                } else {
                    assert!(doubt.within >= by.abs());
                    silent += 1;
                }
                let off = doubt.within as f64 - 1.64 * sd;
                assert!(off.abs() < 1.0 + 1e-9, "{doubt:?} of {change} ± {sd}");
            }
        }
        assert!(told > 1000 && silent > 1000, "{told} {silent}");
    }

    #[test]
    fn hands_a_little_short_are_short_by_one() {
        let cell = Cell::out_of_reach(0.2);
        assert_eq!(cell.answer, Answer::OutOfReach { short_by_mm: 1 });
        assert_eq!(Cell::out_of_reach(12.4).answer, Answer::OutOfReach { short_by_mm: 12 });
    }

    #[test]
    fn hands_within_a_millimetre_are_level() {
        let apart = |by_mm, came_mm| {
            let cell = Cell::apart(by_mm, came_mm);
            (cell.answer, cell.change)
        };
        assert_eq!(apart(-1.0, None), (Answer::Apart(0), Change::None));
        assert_eq!(apart(-1.01, None), (Answer::Apart(-1), Change::None));
        assert_eq!(apart(2.6, Some(3.3)), (Answer::Apart(3), Change::Same));
        assert_eq!(apart(0.4, Some(3.3)), (Answer::Apart(0), Change::By(-3)));
        assert_eq!(apart(-2.4, Some(3.3)), (Answer::Apart(-2), Change::By(-5)));
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
