//! What is wrong with a text that stands where a number should.
//!
//! Only what is no question of arithmetic: units, fractions and misspelt digits are left to the
//! reader of typed numbers, who knows them better.

use fit_doc::{Measure, NumberSlip};

/// Quotes other than the plain ones, and what is typed for them.
pub(super) const OTHER_QUOTES: [char; 14] =
    ['“', '”', '„', '‟', '‘', '’', '‚', '‛', '«', '»', '‹', '›', '\'', '`'];

/// What part thousands on paper, the decimal marks left out.
const GAPS: [char; 6] = [' ', '\u{a0}', '\u{2009}', '\u{202f}', '\'', '’'];

/// What stands between the two ends of a range.
const DASHES: [&str; 5] = ["..", "-", "–", "—", "…"];

/// What is wrong with it.
pub(super) fn number_slip(found: &str, measure: Measure) -> NumberSlip {
    let is_quote = |c: char| c == '"' || OTHER_QUOTES.contains(&c);
    if found.starts_with(is_quote) {
        return NumberSlip::InQuotes { inner: found.trim_matches(is_quote).to_owned() };
    }
    // words of the format, and powers of ten without end
    if found.parse::<f64>().is_ok_and(|number| !number.is_finite()) {
        return NumberSlip::NotFinite;
    }
    if !found.contains(|c: char| c.is_ascii_digit()) {
        return NumberSlip::Word;
    }
    if is_range(found) {
        return NumberSlip::Range;
    }
    match grouped(found, measure) {
        Some((meant, ' ')) => NumberSlip::GroupedOrTwo { meant },
        Some((meant, _)) => NumberSlip::Grouped { meant },
        None => NumberSlip::Typed,
    }
}

/// Whether it goes from one number to another, a unit behind them or not.
fn is_range(found: &str) -> bool {
    let bare = found.trim_end_matches(|c: char| c.is_alphabetic() || c == '°' || c == ' ');
    let is_number = |text: &str| {
        let text = text.trim();
        text.starts_with(|c: char| c.is_ascii_digit())
            && text.replace(',', ".").parse::<f64>().is_ok()
    };
    // a blank on one side only: the dash is a sign
    let between = |(one, other): (&str, &str)| {
        is_number(one) && is_number(other) && one.ends_with(' ') == other.starts_with(' ')
    };
    let words: Vec<_> = bare.split_whitespace().collect();
    let worded = matches!(words[..], [one, word, other] if between((one, other))
        && word.chars().all(char::is_alphabetic));
    worded || DASHES.iter().filter_map(|dash| bare.split_once(dash)).any(between)
}

/// The number without what parts its thousands, and what that is, if anything parts them.
fn grouped(found: &str, measure: Measure) -> Option<(String, char)> {
    let unsigned = found.trim_start_matches(['-', '+']);
    let sign = &found[..found.len() - unsigned.len()];
    let mark = unsigned.chars().find(|c| !c.is_ascii_digit())?;
    let (whole, decimals) = match mark {
        '.' => unsigned.split_once(',').unwrap_or((unsigned, "")),
        ',' => unsigned.split_once('.').unwrap_or((unsigned, "")),
        mark if GAPS.contains(&mark) => unsigned.split_once(['.', ',']).unwrap_or((unsigned, "")),
        _ => return None,
    };
    let groups: Vec<_> = whole.split(mark).collect();
    let is_digits = |text: &&str| text.bytes().all(|byte| byte.is_ascii_digit());
    let in_threes = groups.split_first().is_some_and(|(first, rest)| {
        (1..=3).contains(&first.len())
            && !first.starts_with('0')
            && !rest.is_empty()
            && rest.iter().all(|g| g.len() == 3)
    });
    if !in_threes || !groups.iter().chain([&decimals]).all(is_digits) {
        return None;
    }
    // one comma before three digits: no tape and no scales tell thousandths
    let one_mark = groups.len() == 2 && decimals.is_empty();
    let is_measured = matches!(measure, Measure::Length | Measure::Weight);
    if one_mark && (mark == '.' || mark == ',' && !is_measured) {
        return None;
    }
    let point = if decimals.is_empty() { "" } else { "." };
    let shown = if mark.is_whitespace() { ' ' } else { mark };
    Some((format!("{sign}{}{point}{decimals}", groups.concat()), shown))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_wrong_with_a_number_is_told_apart() {
        use NumberSlip as N;
        let grouped = |meant: &str| N::Grouped { meant: meant.to_owned() };
        let quoted = |inner: &str| N::InQuotes { inner: inner.to_owned() };
        for (found, expected) in [
            ("\"41,2\"", quoted("41,2")),
            ("“412”", quoted("412")),
            ("'412'", quoted("412")),
            ("NaN", N::NotFinite),
            ("-inf", N::NotFinite),
            ("1e999", N::NotFinite),
            ("none", N::Word),
            ("-", N::Word),
            ("10-15", N::Range),
            ("10.5–15", N::Range),
            ("10..15", N::Range),
            ("0.0 -0.9", N::Typed),
            ("10-x", N::Typed),
            ("10 - 15 mm", N::Range),
            ("10,5 to 15", N::Range),
            ("1'798", grouped("1798")),
            ("1’798.5", grouped("1798.5")),
            ("1,798.0", grouped("1798.0")),
            ("1.798,0", grouped("1798.0")),
            ("-1,798", grouped("-1798")),
            ("1.234.567", grouped("1234567")),
            ("1 798", N::GroupedOrTwo { meant: "1798".to_owned() }),
            ("1798 1796", N::Typed),
            ("409,5", N::Typed),
            ("5'9\"", N::Typed),
            ("1e-5x", N::Typed),
            ("16 1/4 in", N::Typed),
            ("4l2", N::Typed),
            ("-6,5", N::Typed),
        ] {
            assert_eq!(number_slip(found, Measure::Length), expected, "{found}");
        }
        assert_eq!(number_slip("0,125", Measure::Plain), N::Typed, "a fraction, not thousands");
    }
}
