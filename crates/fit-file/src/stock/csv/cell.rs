//! What stands in one cell: numbers, money, lists, words, and how they are written.
//!
//! Numbers are plain: a sign, digits, one mark. What people type into a field (sums, units, changes)
//! is none here, since the unit is the header's.

/// The words for yes and no; the first of each is written.
const YES: [&str; 4] = ["yes", "true", "y", "1"];
const NO: [&str; 4] = ["no", "false", "n", "0"];

/// A text that begins so would be worked out by a spreadsheet, or begins as one that is kept from that.
const ACTS: [char; 7] = ['=', '+', '-', '@', '\t', '\r', '\''];

/// The number with a point for its mark, or a comma, which a cell has only where it parts no cells or stands in quotation
/// marks: a sign, digits, and decimals; none where it is anything else.
fn plain_number(text: &str) -> Option<String> {
    let text = text.trim();
    let (sign, rest) = match text.chars().next()? {
        '-' | '\u{2212}' => ("-", text.trim_start_matches(['-', '\u{2212}'])),
        '+' => ("", text.trim_start_matches('+')),
        _ => ("", text),
    };
    // one sign
    if text.chars().count() - rest.chars().count() > 1 {
        return None;
    }
    let parted = rest.split_once(['.', ',']);
    let (whole, decimals) = parted.map_or((rest, None), |(whole, rest)| (whole, Some(rest)));
    let digits = |of: &str| !of.is_empty() && of.bytes().all(|byte| byte.is_ascii_digit());
    let good = digits(whole) && decimals.is_none_or(digits);
    good.then(|| match decimals {
        Some(decimals) => format!("{sign}{whole}.{decimals}"),
        None => format!("{sign}{whole}"),
    })
}

/// A number; one in cm is multiplied before it is rounded to an `f64`, so that 41.2 cm are 412 mm.
pub(super) fn number(text: &str, in_cm: bool) -> Option<f64> {
    let plain = plain_number(text)?;
    let text = if in_cm { format!("{plain}e1") } else { plain };
    text.parse().ok().filter(|number: &f64| number.is_finite())
}

/// Numbers with blanks between them, in square brackets or not.
pub(super) fn numbers(text: &str, in_cm: bool) -> Option<Vec<f64>> {
    unbracketed(text).split_whitespace().map(|part| number(part, in_cm)).collect()
}

/// Points with strokes between them, in square brackets or not.
pub(super) fn points(text: &str, in_cm: bool) -> Option<Vec<(f64, f64)>> {
    let point = |part: &str| match numbers(part, in_cm)?.as_slice() {
        [forward, up] => Some((*forward, *up)),
        _ => None,
    };
    unbracketed(text).split('/').map(point).collect()
}

fn unbracketed(text: &str) -> &str {
    let text = text.trim();
    text.strip_prefix('[').and_then(|rest| rest.strip_suffix(']')).unwrap_or(text)
}

/// Money in hundredths.
pub(super) fn cents(text: &str) -> Option<u32> {
    let plain = plain_number(text).filter(|plain| !plain.starts_with('-'))?;
    let (whole, decimals) = plain.split_once('.').unwrap_or((&plain, ""));
    if decimals.len() > 2 {
        return None;
    }
    format!("{whole}{decimals:0<2}").parse().ok()
}

/// Yes or no.
pub(super) fn yes_or_no(text: &str) -> Option<bool> {
    let text = text.trim().to_lowercase();
    let is = |words: [&str; 4]| words.contains(&text.as_str());
    if is(YES) { Some(true) } else { is(NO).then_some(false) }
}

/// A text as it was before it was kept from acting.
pub(super) fn text(cell: &str) -> String {
    let kept = cell.strip_prefix('\'').filter(|rest| rest.starts_with(ACTS));
    kept.unwrap_or(cell).to_owned()
}

/// A text that no spreadsheet works out.
pub(super) fn text_cell(text: &str) -> String {
    if text.starts_with(ACTS) { format!("'{text}") } else { text.to_owned() }
}

/// A number.
pub(super) fn number_cell(number: f64) -> String {
    format!("{number}")
}

/// A number that may be none.
pub(super) fn maybe_cell(number: Option<f64>) -> String {
    number.map(number_cell).unwrap_or_default()
}

/// Numbers.
pub(super) fn numbers_cell(numbers: &[f64]) -> String {
    let numbers: Vec<_> = numbers.iter().copied().map(number_cell).collect();
    format!("[{}]", numbers.join(" "))
}

/// Points.
pub(super) fn points_cell(points: &[(f64, f64)]) -> String {
    let points: Vec<_> = points.iter().map(|(forward, up)| format!("{forward} {up}")).collect();
    format!("[{}]", points.join(" / "))
}

/// Money.
pub(super) fn cents_cell(cents: u32) -> String {
    format!("{}.{:02}", cents / 100, cents % 100)
}

/// Yes or no.
pub(super) fn yes_cell(yes: bool) -> String {
    (if yes { YES[0] } else { NO[0] }).to_owned()
}
