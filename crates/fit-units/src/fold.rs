//! What a single typed character stands for.
//!
//! Keyboards, spelling correction and pasted text give many characters for one meaning: `′`, `’`
//! and `'` are all feet. Full-width forms are read as their plain ones, as the compatibility
//! normalization NFKC of Unicode does (Unicode Standard Annex 15). NFKC itself is not applied: it
//! turns `16¼` into `161⁄4`, `″` into two feet marks and `41²` into `412`, so vulgar fractions
//! and double primes have a meaning of their own here and superscript digits none.

use crate::unit::Unit;

/// The meaning of one character.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Glyph {
    Digit(u32),
    /// Decimal comma or point.
    Mark,
    Plus,
    Minus,
    Equals,
    Slash,
    /// `'`: feet, or half of an inch mark.
    Prime,
    /// A unit written as one character.
    Sign(Unit),
    /// A fraction written as one character: numerator, denominator.
    Vulgar(u8, u8),
    Letter(char),
    Blank,
    Infinity,
    ForeignDigit,
    Other,
}

/// Distance of a full-width form from its plain ASCII character.
const FULL_WIDTH: u32 = 0xFF01 - 0x21;

/// The meaning of `typed`.
pub(crate) fn fold(typed: char) -> Glyph {
    let c = match typed {
        '\u{FF01}'..='\u{FF5E}' => char::from_u32(u32::from(typed) - FULL_WIDTH).unwrap_or(typed),
        _ => typed,
    };
    match c {
        '0'..='9' => Glyph::Digit(c.to_digit(10).unwrap_or(0)),
        '.' | ',' => Glyph::Mark,
        '+' => Glyph::Plus,
        // hyphen, non-breaking hyphen, en dash (what word processors make of a minus), minus
        '-' | '\u{2010}' | '\u{2011}' | '\u{2013}' | '\u{2212}' => Glyph::Minus,
        '=' => Glyph::Equals,
        // fraction slash, division slash
        '/' | '\u{2044}' | '\u{2215}' => Glyph::Slash,
        // quotes as spelling correction makes them, prime
        '\'' | '\u{2018}' | '\u{2019}' | '\u{2032}' => Glyph::Prime,
        '"' | '\u{201C}' | '\u{201D}' | '\u{2033}' => Glyph::Sign(Unit::Inch),
        // degree; the ordinal and the ring that other keyboards have in its place
        '°' | 'º' | '˚' => Glyph::Sign(Unit::Degree),
        '%' => Glyph::Sign(Unit::Percent),
        '㎜' => Glyph::Sign(Unit::Millimetre),
        '㎝' => Glyph::Sign(Unit::Centimetre),
        '∞' => Glyph::Infinity,
        // zero-width space and joiner, writing direction marks: invisible, come with pasted text
        '\u{200B}' | '\u{200E}' | '\u{200F}' | '\u{2060}' | '\u{FEFF}' => Glyph::Blank,
        _ => fold_by_class(c),
    }
}

fn fold_by_class(c: char) -> Glyph {
    if let Some((n, d)) = vulgar(c) {
        Glyph::Vulgar(n, d)
    } else if c.is_whitespace() {
        Glyph::Blank
    } else if c.is_alphabetic() {
        Glyph::Letter(c)
    } else if c.is_numeric() {
        Glyph::ForeignDigit
    } else {
        Glyph::Other
    }
}

/// Numerator and denominator of a fraction that is one character.
fn vulgar(c: char) -> Option<(u8, u8)> {
    Some(match c {
        '½' => (1, 2),
        '⅓' => (1, 3),
        '⅔' => (2, 3),
        '¼' => (1, 4),
        '¾' => (3, 4),
        '⅕' => (1, 5),
        '⅖' => (2, 5),
        '⅗' => (3, 5),
        '⅘' => (4, 5),
        '⅙' => (1, 6),
        '⅚' => (5, 6),
        '⅐' => (1, 7),
        '⅛' => (1, 8),
        '⅜' => (3, 8),
        '⅝' => (5, 8),
        '⅞' => (7, 8),
        '⅑' => (1, 9),
        '⅒' => (1, 10),
        _ => return None,
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use unicode_normalization::UnicodeNormalization;

    /// Unicode's own tables as the second opinion, over every character there is.
    #[test]
    fn folding_agrees_with_nfkc_wherever_it_accepts() {
        let (mut digits, mut fractions, mut refused, mut with_digits) = (0, 0, 0, 0);
        for c in '\0'..=char::MAX {
            let plain: String = c.nfkc().collect();
            let has_digit = plain.chars().any(|p| p.is_ascii_digit());
            with_digits += usize::from(has_digit);
            match fold(c) {
                Glyph::Digit(d) => {
                    assert_eq!(plain, d.to_string(), "{c:?}");
                    digits += 1;
                }
                Glyph::Vulgar(n, d) => {
                    assert_eq!(plain, format!("{n}\u{2044}{d}"), "{c:?}");
                    fractions += 1;
                }
                Glyph::Mark => assert!(plain == "." || plain == ",", "{c:?}"),
                Glyph::Plus => assert_eq!(plain, "+"),
                Glyph::Equals => assert_eq!(plain, "="),
                Glyph::Sign(unit @ (Unit::Millimetre | Unit::Centimetre)) => {
                    assert_eq!(plain, unit.symbol());
                }
                Glyph::ForeignDigit | Glyph::Other if has_digit => refused += 1,
                glyph => {
                    assert!(!has_digit, "{c:?} read as {glyph:?}");
                    assert!(plain != " " || glyph == Glyph::Blank, "{c:?} is a blank");
                }
            }
        }
        // plain and full-width digits; Unicode's vulgar fractions but for the nought thirds
        assert_eq!((digits, fractions), (20, 18));
        assert_eq!(refused, with_digits - digits - fractions, "superscript, circled and the like");
        assert!(refused > 0);
    }

    #[test]
    fn the_traps_of_nfkc_are_kept_out() {
        assert_eq!("16¼".nfkc().collect::<String>(), "161⁄4");
        assert_eq!("9″".nfkc().collect::<String>(), "9′′");
        assert_eq!("41²".nfkc().collect::<String>(), "412");
        assert_eq!(fold('¼'), Glyph::Vulgar(1, 4));
        assert_eq!(fold('″'), Glyph::Sign(Unit::Inch));
        assert_eq!(fold('²'), Glyph::ForeignDigit);
        assert_eq!(fold('٤'), Glyph::ForeignDigit);
        assert_eq!(fold('º'), Glyph::Sign(Unit::Degree));
    }

    #[test]
    fn full_width_forms_are_the_plain_ones() {
        let pairs = "０9．,＋+－-＝=／/＇'＂\"％%ｍmＭM";
        let glyphs: Vec<Glyph> = pairs.chars().map(fold).collect();
        assert_eq!(fold('０'), Glyph::Digit(0));
        assert_eq!(fold('９'), Glyph::Digit(9));
        for pair in glyphs[2..].chunks(2) {
            assert_eq!(pair[0], pair[1]);
        }
    }
}
