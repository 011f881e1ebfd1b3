//! The units a number can be typed or shown in, and how much each is.
//!
//! Values are stored in mm, radians, kilograms, per cent or bare numbers ([`Quantity`]); a unit is
//! only a way of writing them. Every unit but the radian is an exact fraction of whole numbers of
//! the stored one: inch, foot and pound by the international yard and pound agreement of 1959 (yard
//! 0.9144 m, pound 0.453 592 37 kg; NIST Special Publication 811, appendix B.8). It does not know
//! how numbers are written: that is parsing and formatting.

use crate::ratio::Ratio;

/// What is measured, which settles the stored unit.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Quantity {
    /// Stored in mm.
    Length,
    /// Stored in radians.
    Angle,
    /// Stored in kg.
    Mass,
    /// Stored in per cent: 12 % is 12.
    Percent,
    /// A number without a unit: minutes, a complaint from 0 to 10.
    Number,
}

/// A unit in which numbers are typed and shown.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Unit {
    /// mm
    Millimetre,
    /// cm, 10 mm
    Centimetre,
    /// m, 1000 mm
    Metre,
    /// in, 25.4 mm exactly
    Inch,
    /// ft, 12 in or 304.8 mm exactly
    Foot,
    /// °
    Degree,
    /// rad, 180/π degrees
    Radian,
    /// kg
    Kilogram,
    /// lb, 0.453 592 37 kg exactly
    Pound,
    /// %
    Percent,
    /// no unit
    One,
}

impl Unit {
    /// Every unit; those of one quantity in the order in which they are likeliest meant.
    pub const ALL: [Self; 11] = [
        Self::Millimetre,
        Self::Centimetre,
        Self::Metre,
        Self::Inch,
        Self::Foot,
        Self::Degree,
        Self::Radian,
        Self::Kilogram,
        Self::Pound,
        Self::Percent,
        Self::One,
    ];

    /// What the unit measures.
    pub const fn quantity(self) -> Quantity {
        match self {
            Self::Millimetre | Self::Centimetre | Self::Metre | Self::Inch | Self::Foot => {
                Quantity::Length
            }
            Self::Degree | Self::Radian => Quantity::Angle,
            Self::Kilogram | Self::Pound => Quantity::Mass,
            Self::Percent => Quantity::Percent,
            Self::One => Quantity::Number,
        }
    }

    /// The sign of the unit as shown after a number, the same in every language.
    pub const fn symbol(self) -> &'static str {
        match self {
            Self::Millimetre => "mm",
            Self::Centimetre => "cm",
            Self::Metre => "m",
            Self::Inch => "in",
            Self::Foot => "ft",
            Self::Degree => "°",
            Self::Radian => "rad",
            Self::Kilogram => "kg",
            Self::Pound => "lb",
            Self::Percent => "%",
            Self::One => "",
        }
    }

    /// The unit that a word typed in small letters names, if it names one.
    pub(crate) fn from_word(word: &str) -> Option<Self> {
        Some(match word {
            "mm" | "millimetre" | "millimetres" | "millimeter" | "millimeters" => Self::Millimetre,
            "cm" | "centimetre" | "centimetres" | "centimeter" | "centimeters" => Self::Centimetre,
            "m" | "metre" | "metres" | "meter" | "meters" => Self::Metre,
            "in" | "inch" | "inches" => Self::Inch,
            "ft" | "foot" | "feet" => Self::Foot,
            "deg" | "degree" | "degrees" => Self::Degree,
            "rad" | "radian" | "radians" => Self::Radian,
            "kg" | "kilogram" | "kilograms" => Self::Kilogram,
            "lb" | "lbs" | "pound" | "pounds" => Self::Pound,
            _ => return None,
        })
    }

    /// How many mm, degrees, kg, per cent or ones the unit is; `None` for the radian, which is no
    /// fraction of whole numbers of degrees.
    pub(crate) fn exact(self) -> Option<Ratio> {
        let (n, d) = match self {
            Self::Millimetre | Self::Degree | Self::Kilogram | Self::Percent | Self::One => (1, 1),
            Self::Centimetre => (10, 1),
            Self::Metre => (1000, 1),
            Self::Inch => (127, 5),
            Self::Foot => (1524, 5),
            Self::Pound => (45_359_237, 100_000_000),
            Self::Radian => return None,
        };
        Ratio::new(n, d)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Yard 0.9144 m, three feet of twelve inches; pound 0.453 592 37 kg: the agreement of 1959.
    #[test]
    fn units_follow_from_the_yard_and_the_pound() {
        let yard_mm = Ratio::new(9144, 10).unwrap();
        let foot = yard_mm.over(Ratio::new(3, 1).unwrap());
        assert_eq!(Unit::Foot.exact(), foot);
        assert_eq!(Unit::Inch.exact(), foot.unwrap().over(Ratio::new(12, 1).unwrap()));
        assert_eq!(Unit::Inch.exact().unwrap().to_f64(), Some(25.4));
        assert_eq!(Unit::Pound.exact().unwrap().to_f64(), Some(0.453_592_37));
    }

    #[test]
    fn the_list_of_units_is_whole_and_every_symbol_of_letters_is_a_word() {
        for (index, unit) in Unit::ALL.iter().enumerate() {
            assert_eq!(*unit as usize, index);
            let symbol = unit.symbol();
            if symbol.chars().any(char::is_alphabetic) {
                assert_eq!(Unit::from_word(symbol), Some(*unit));
            }
        }
    }
}
