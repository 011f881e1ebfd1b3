//! The fonts that come with the program, and how wide a text is in them.
//!
//! Needed wherever labels must not collide; shaping (ligatures, right-to-left) is left to whatever
//! draws the text. Widths come from the font's own advances.

use thiserror::Error;
use ttf_parser::Face;

/// Open Sans Regular.
pub const FONT_REGULAR: &[u8] = include_bytes!("../../../../assets/fonts/OpenSans-Regular.ttf");

/// Open Sans, the semibold cut.
pub const FONT_SEMIBOLD: &[u8] = include_bytes!("../../../../assets/fonts/OpenSans-Semibold.ttf");

/// Weight of a text.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Weight {
    /// For reading.
    Regular,
    /// For labels and figures that lead.
    SemiBold,
}

impl Weight {
    /// The font's bytes.
    pub fn font(self) -> &'static [u8] {
        match self {
            Self::Regular => FONT_REGULAR,
            Self::SemiBold => FONT_SEMIBOLD,
        }
    }
}

/// The font could not be read: the program was built from a broken file.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Error)]
#[error("the font that comes with the program cannot be read")]
pub struct FontError;

/// Width of a text in the units of its size.
///
/// # Errors
/// When the embedded font cannot be read.
pub fn text_width(text: &str, size: f64, weight: Weight) -> Result<f64, FontError> {
    let face = Face::parse(weight.font(), 0).map_err(|_| FontError)?;
    let units: u32 = text
        .chars()
        .map(|c| {
            let glyph = face.glyph_index(c).unwrap_or_default();
            u32::from(face.glyph_hor_advance(glyph).unwrap_or_default())
        })
        .sum();
    Ok(f64::from(units) * size / f64::from(face.units_per_em()))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn digits_have_one_advance() {
        for weight in [Weight::Regular, Weight::SemiBold] {
            let zero = text_width("0", 100.0, weight).unwrap();
            assert!(zero > 40.0);
            for digit in '1'..='9' {
                assert_eq!(text_width(&digit.to_string(), 100.0, weight).unwrap(), zero, "{digit}");
            }
        }
    }

    #[test]
    fn every_sign_that_the_tables_use_is_in_the_font() {
        for weight in [Weight::Regular, Weight::SemiBold] {
            let face = Face::parse(weight.font(), 0).unwrap();
            for sign in "°±−×–…½¼¾’“”·éüßøñ".chars() {
                assert!(face.glyph_index(sign).is_some(), "{sign} is missing");
            }
        }
    }
}
