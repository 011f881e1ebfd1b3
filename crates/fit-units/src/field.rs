//! What a field takes: its unit, its signs and its ranges.
//!
//! A field describes one number of the program, its value is held elsewhere. Ranges are plain
//! numbers given by the caller, in mm, degrees, kg, per cent or bare numbers whatever unit the
//! field is typed in. A value outside is *said* to be outside ([`Verdict`]) and never moved.

use crate::unit::{Quantity, Unit};

/// Two limits, both inside.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Interval {
    low: f64,
    high: f64,
}

impl Interval {
    /// From one limit to the other, whichever way round. A limit that is NaN limits nothing.
    pub const fn new(one: f64, other: f64) -> Self {
        if one > other { Self { low: other, high: one } } else { Self { low: one, high: other } }
    }

    /// The lower limit.
    pub const fn low(&self) -> f64 {
        self.low
    }

    /// The upper limit.
    pub const fn high(&self) -> f64 {
        self.high
    }

    /// Whether `value` lies between the limits or on one of them.
    pub fn contains(&self, value: f64) -> bool {
        !(value < self.low || value > self.high)
    }
}

/// What is usual, what is worth asking about and what cannot be.
///
/// ```
/// use fit_units::{Ranges, Verdict};
/// const STATURE: Ranges = Ranges::NONE
///     .usual(1500.0, 1950.0)
///     .ask_outside(1400.0, 2050.0)
///     .refuse_outside(900.0, 2400.0);
/// assert_eq!(STATURE.verdict(1750.0), Verdict::Usual);
/// assert_eq!(STATURE.verdict(1450.0), Verdict::Unusual);
/// assert_eq!(STATURE.verdict(2100.0), Verdict::AskSure);
/// assert_eq!(STATURE.verdict(175.0), Verdict::Refuse);
/// ```
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Ranges {
    usual: Option<Interval>,
    ask_outside: Option<Interval>,
    refuse_outside: Option<Interval>,
}

impl Ranges {
    /// Every value is usual.
    pub const NONE: Self = Self { usual: None, ask_outside: None, refuse_outside: None };

    /// The same ranges with what is usual, in mm, degrees, kg, per cent or bare numbers.
    #[must_use]
    pub const fn usual(mut self, one: f64, other: f64) -> Self {
        self.usual = Some(Interval::new(one, other));
        self
    }

    /// The same ranges, asking "sure?" outside these limits.
    #[must_use]
    pub const fn ask_outside(mut self, one: f64, other: f64) -> Self {
        self.ask_outside = Some(Interval::new(one, other));
        self
    }

    /// The same ranges, refusing outside these limits.
    #[must_use]
    pub const fn refuse_outside(mut self, one: f64, other: f64) -> Self {
        self.refuse_outside = Some(Interval::new(one, other));
        self
    }

    /// What is usual, if that was given.
    pub const fn usual_interval(&self) -> Option<Interval> {
        self.usual
    }

    /// Outside of what to ask, if that was given.
    pub const fn ask_interval(&self) -> Option<Interval> {
        self.ask_outside
    }

    /// Outside of what to refuse, if that was given.
    pub const fn refuse_interval(&self) -> Option<Interval> {
        self.refuse_outside
    }

    /// The sternest thing that the ranges say of `value`, which is in mm, degrees, kg, per cent or
    /// a bare number.
    pub fn verdict(&self, value: f64) -> Verdict {
        let outside = |interval: &Option<Interval>| interval.is_some_and(|i| !i.contains(value));
        if outside(&self.refuse_outside) {
            Verdict::Refuse
        } else if outside(&self.ask_outside) {
            Verdict::AskSure
        } else if outside(&self.usual) {
            Verdict::Unusual
        } else {
            Verdict::Usual
        }
    }
}

/// What the ranges say of a value, from mild to stern.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Verdict {
    /// Within the usual range.
    Usual,
    /// Outside the usual range, and nothing to ask about.
    Unusual,
    /// Take it when the person says "sure".
    AskSure,
    /// It cannot be: outside the refusing range, or below zero where nothing can be.
    Refuse,
}

/// One number field.
///
/// ```
/// use fit_units::{Field, Ranges, Unit};
/// const STEM_ANGLE: Field =
///     Field::new(Unit::Degree).signed().with_ranges(Ranges::NONE.usual(-17.0, 17.0));
/// assert!(STEM_ANGLE.can_be_negative());
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Field {
    unit: Unit,
    signed: bool,
    feet: bool,
    ranges: Ranges,
}

impl Field {
    /// A length in mm that cannot be negative.
    pub const MILLIMETRES: Self = Self::new(Unit::Millimetre);

    /// A field whose bare numbers are in `unit`. It cannot be negative, so a leading sign changes
    /// the present value; it takes no feet, unless its own unit is the foot; it has no ranges.
    pub const fn new(unit: Unit) -> Self {
        Self { unit, signed: false, feet: false, ranges: Ranges::NONE }
    }

    /// The same field where values can be negative and a leading sign is a sign.
    #[must_use]
    pub const fn signed(mut self) -> Self {
        self.signed = true;
        self
    }

    /// The same field taking feet, and feet and inches, besides: for a rider's stature.
    #[must_use]
    pub const fn with_feet(mut self) -> Self {
        self.feet = true;
        self
    }

    /// The same field with these ranges.
    #[must_use]
    pub const fn with_ranges(mut self, ranges: Ranges) -> Self {
        self.ranges = ranges;
        self
    }

    /// The same field typed and shown in another unit of the same quantity; unchanged when `unit`
    /// measures something else. Ranges and stored values stay as they are.
    #[must_use]
    pub fn in_unit(mut self, unit: Unit) -> Self {
        if unit.quantity() == self.quantity() {
            self.unit = unit;
        }
        self
    }

    /// The unit of a bare number.
    pub const fn unit(&self) -> Unit {
        self.unit
    }

    /// What the field measures.
    pub const fn quantity(&self) -> Quantity {
        self.unit.quantity()
    }

    /// Whether values can be below zero, and a leading sign therefore is a sign.
    pub const fn can_be_negative(&self) -> bool {
        self.signed
    }

    /// Whether feet are understood.
    pub fn takes_feet(&self) -> bool {
        self.feet || self.unit == Unit::Foot
    }

    /// The ranges, in mm, degrees, kg, per cent or bare numbers.
    pub const fn ranges(&self) -> &Ranges {
        &self.ranges
    }

    /// What to say of a value in mm, degrees, kg, per cent or a bare number.
    pub fn verdict(&self, value: f64) -> Verdict {
        if value < 0.0 && !self.signed { Verdict::Refuse } else { self.ranges.verdict(value) }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const ALL_THREE: Ranges =
        Ranges::NONE.usual(10.0, 20.0).ask_outside(5.0, 30.0).refuse_outside(0.0, 40.0);

    #[test]
    fn limits_are_inside_and_a_hair_beyond_is_outside() {
        for (value, verdict) in [
            (10.0, Verdict::Usual),
            (20.0, Verdict::Usual),
            (20.0_f64.next_up(), Verdict::Unusual),
            (10.0_f64.next_down(), Verdict::Unusual),
            (30.0, Verdict::Unusual),
            (30.0_f64.next_up(), Verdict::AskSure),
            (5.0_f64.next_down(), Verdict::AskSure),
            (40.0, Verdict::AskSure),
            (40.0_f64.next_up(), Verdict::Refuse),
            (-0.0, Verdict::AskSure),
            (0.0_f64.next_down(), Verdict::Refuse),
        ] {
            assert_eq!(ALL_THREE.verdict(value), verdict, "{value}");
        }
        assert!(Verdict::Usual < Verdict::Unusual && Verdict::AskSure < Verdict::Refuse);
    }

    #[test]
    fn an_interval_the_wrong_way_round_is_put_right_and_nan_limits_nothing() {
        assert_eq!(Interval::new(3.0, -3.0), Interval::new(-3.0, 3.0));
        let open = Interval::new(f64::NAN, 5.0);
        assert!(open.contains(-1e300));
        assert!(!open.contains(6.0));
    }

    #[test]
    fn ranges_given_alone_speak_alone() {
        assert_eq!(Ranges::NONE.verdict(1e300), Verdict::Usual);
        assert_eq!(Ranges::NONE.refuse_outside(0.0, 1.0).verdict(2.0), Verdict::Refuse);
        assert_eq!(Ranges::NONE.ask_outside(0.0, 1.0).verdict(2.0), Verdict::AskSure);
    }

    #[test]
    fn below_zero_is_refused_where_nothing_can_be() {
        let field = Field::MILLIMETRES;
        assert_eq!(field.verdict(-0.1), Verdict::Refuse);
        assert_eq!(field.signed().verdict(-0.1), Verdict::Usual);
    }

    #[test]
    fn a_field_changes_its_unit_only_within_its_quantity() {
        let field = Field::MILLIMETRES.with_ranges(ALL_THREE);
        assert_eq!(field.in_unit(Unit::Inch).unit(), Unit::Inch);
        assert_eq!(field.in_unit(Unit::Inch).ranges(), &ALL_THREE);
        assert_eq!(field.in_unit(Unit::Degree), field);
        assert!(field.in_unit(Unit::Foot).takes_feet());
        assert!(!field.in_unit(Unit::Foot).in_unit(Unit::Inch).takes_feet());
    }
}
