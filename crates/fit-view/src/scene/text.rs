//! The fonts that come with the program, and how wide a text is in them.
//!
//! Needed wherever labels must not collide; shaping (ligatures, right-to-left) is left to whatever
//! draws the text. Widths come from the font's own advances.

use core::ops::Range;
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

/// One sign of a text in a font.
#[derive(Debug, Clone, PartialEq)]
pub struct Glyph {
    /// Its number in the font.
    pub id: u16,
    /// How far it moves the pen, in text sizes.
    pub advance: f64,
    /// The bytes of the text that it stands for.
    pub bytes: Range<usize>,
}

/// The signs of a text, one for each letter; letters that the font does not have are all shown by
/// its one sign for that, so that none is lost without a trace.
///
/// # Errors
/// When the embedded font cannot be read.
pub fn glyphs(text: &str, weight: Weight) -> Result<Vec<Glyph>, FontError> {
    let face = Face::parse(weight.font(), 0).map_err(|_| FontError)?;
    let units = f64::from(face.units_per_em());
    let stand_in = face.glyph_index(char::REPLACEMENT_CHARACTER).unwrap_or_default();
    let glyph = |(start, c): (usize, char)| {
        let glyph = face.glyph_index(c).unwrap_or(stand_in);
        let advance = f64::from(face.glyph_hor_advance(glyph).unwrap_or_default()) / units;
        Glyph { id: glyph.0, advance, bytes: start..start + c.len_utf8() }
    };
    Ok(text.char_indices().map(glyph).collect())
}

/// Width of a text in the units of its size.
///
/// # Errors
/// When the embedded font cannot be read.
pub fn text_width(text: &str, size: f64, weight: Weight) -> Result<f64, FontError> {
    Ok(glyphs(text, weight)?.iter().map(|glyph| glyph.advance).sum::<f64>() * size)
}

/// The text at the size that fits its room, and that size: a smaller one, down to `smallest`,
/// before a word is lost.
///
/// # Errors
/// When the embedded font cannot be read.
pub fn shrunk(
    line: &str,
    size: f64,
    smallest: f64,
    weight: Weight,
    room: f64,
) -> Result<(String, f64), FontError> {
    let width = text_width(line, size, weight)?;
    let fitting = if width > room { (size * room / width).max(smallest) } else { size };
    Ok((fitted(line, fitting, weight, room)?, fitting))
}

/// A text may be wider than its room by so much, points: rounding of the sum of its letters, so that
/// what was shrunk to just fit does fit.
const HAIR: f64 = 1e-6;

/// The text, shortened with an ellipsis where it is wider than its room.
///
/// # Errors
/// When the embedded font cannot be read.
pub fn fitted(line: &str, size: f64, weight: Weight, room: f64) -> Result<String, FontError> {
    if text_width(line, size, weight)? <= room + HAIR {
        return Ok(line.to_owned());
    }
    let mut kept: Vec<char> = line.chars().collect();
    loop {
        kept.pop();
        let short: String = kept.iter().collect::<String>().trim_end().to_owned() + "…";
        if kept.is_empty() || text_width(&short, size, weight)? <= room {
            return Ok(short);
        }
    }
}

/// The text in lines no wider than their room, broken between words; a word that is wider itself
/// is broken anywhere. Of more than `most` lines the last one ends with an ellipsis.
///
/// A no-break space keeps its words together.
///
/// # Errors
/// When the embedded font cannot be read.
pub fn wrapped(
    text: &str,
    size: f64,
    weight: Weight,
    room: f64,
    most: usize,
) -> Result<Vec<String>, FontError> {
    let fits = |line: &str| text_width(line, size, weight).map(|width| width <= room);
    let mut lines: Vec<String> = Vec::new();
    let mut line = String::new();
    for word in text.split([' ', '\t', '\n']).filter(|word| !word.is_empty()) {
        let longer = if line.is_empty() { word.to_owned() } else { format!("{line} {word}") };
        if fits(&longer)? {
            line = longer;
            continue;
        }
        if !line.is_empty() {
            lines.push(core::mem::take(&mut line));
        }
        for c in word.chars() {
            line.push(c);
            if line.chars().nth(1).is_some() && !fits(&line)? {
                line.pop();
                lines.push(core::mem::take(&mut line));
                line.push(c);
            }
        }
        // what nobody will see need not be measured
        if lines.len() > most {
            break;
        }
    }
    if !line.is_empty() {
        lines.push(line);
    }
    if lines.len() > most {
        lines.truncate(most);
        if let Some(last) = lines.last_mut() {
            last.push_str(" …");
            *last = fitted(last, size, weight, room)?;
        }
    }
    Ok(lines)
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
            for sign in "°±−×–…½¼¾’“”·éüßøñ\u{fffd}".chars() {
                assert!(face.glyph_index(sign).is_some(), "{sign} is missing");
            }
        }
    }

    #[test]
    fn a_long_line_is_shortened_to_its_room_and_a_short_one_kept() {
        let long = "a very long name for a bar that no card has room for";
        let short = fitted(long, 14.0, Weight::Regular, 120.0).unwrap();
        assert!(short.ends_with('…') && short.len() < long.len());
        assert!(text_width(&short, 14.0, Weight::Regular).unwrap() <= 120.0);
        assert_eq!(fitted("short", 14.0, Weight::Regular, 120.0).unwrap(), "short");
    }

    #[test]
    fn what_is_shrunk_to_fit_loses_nothing() {
        let line = "Proposed: Compact 420, not ridden and not decided yet";
        for room in 200..270 {
            let (text, size) = shrunk(line, 11.4, 8.0, Weight::SemiBold, f64::from(room)).unwrap();
            assert_eq!(text, line, "in {room} at {size}");
        }
    }

    #[test]
    fn wrapped_lines_fit_and_lose_no_word() {
        let text =
            "hands on the hoods 22\u{a0}mm closer, Donaudampfschifffahrtsgesellschaft and more";
        for room in [40.0, 90.0, 200.0, 2000.0] {
            let lines = wrapped(text, 9.0, Weight::Regular, room, 99).unwrap();
            let width = |line: &String| text_width(line, 9.0, Weight::Regular).unwrap();
            assert!(lines.iter().all(|line| width(line) <= room), "{room}: {lines:?}");
            let letters = |s: &str| s.replace(' ', "");
            assert_eq!(letters(&lines.concat()), letters(text), "{room}");
        }
        assert_eq!(wrapped("", 9.0, Weight::Regular, 90.0, 3).unwrap(), Vec::<String>::new());
    }

    #[test]
    fn too_many_lines_end_with_an_ellipsis_that_still_fits() {
        let text = "one two three four five six seven eight nine ten eleven twelve";
        let lines = wrapped(text, 9.0, Weight::Regular, 60.0, 2).unwrap();
        assert_eq!(lines.len(), 2);
        assert!(lines[1].ends_with('…') && !lines[0].ends_with('…'), "{lines:?}");
        assert!(text_width(&lines[1], 9.0, Weight::Regular).unwrap() <= 60.0);
    }
}
