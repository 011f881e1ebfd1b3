//! What `barwright weigh --json` prints, and the answers that screens and sheets show of it:
//! gathered and compared by formulas of this file, from the printed numbers alone.
//!
//! Millimetres and degrees; hands in the bike frame (x forward, y up, z right).

#![expect(clippy::expect_used, reason = "test support: a failure here is a failed test")]

use serde_json::Value;
use std::ffi::OsString;
use std::path::Path;

/// Two lengths or angles closer than this are one answer: common practice, no source.
pub const SAME_MM: f64 = 2.0;
/// See [`SAME_MM`].
pub const SAME_DEG: f64 = 1.0;

/// What a command of the program prints.
///
/// # Panics
/// When the command cannot do it.
pub fn printed<'a>(args: impl IntoIterator<Item = &'a Path>) -> String {
    let (mut out, mut err) = (Vec::new(), Vec::new());
    let program = core::iter::once(OsString::from("barwright"));
    let args = program.chain(args.into_iter().map(|arg| arg.as_os_str().to_owned()));
    let exit = barwright::run(args, barwright::Screen::default(), &mut out, &mut err);
    assert_eq!(exit, barwright::Exit::Done, "{}", String::from_utf8_lossy(&err));
    String::from_utf8(out).expect("UTF-8")
}

/// The output for a session in a file.
///
/// # Panics
/// When it cannot be weighed.
pub fn weighed(file: &Path) -> Value {
    let json = printed([Path::new("weigh"), file, Path::new("--json")]);
    serde_json::from_str(&json).expect("JSON")
}

/// An angle of a cockpit at a hand place; none where there is no such place or no getting there.
pub fn angle(cockpit: &Value, place: &str, key: &str) -> Option<f64> {
    let at = cockpit["places"].get(place)?;
    (at["state"] != "out-of-reach").then(|| at[key].as_f64())?
}

/// Of two elbows the straighter.
pub fn elbow(cockpit: &Value, place: &str) -> Option<f64> {
    angle(cockpit, place, "elbow")
}

/// How a hand turns sideways on one cockpit against another, of both hands the one that turns more.
pub fn wrist_change(came: &Value, cockpit: &Value, place: &str) -> Option<f64> {
    let line = |of: &Value, left: bool| {
        let right = angle(of, place, "wrist_line")?;
        let own = of["places"][place]["left"]["wrist_line"].as_f64().filter(|_| left);
        Some(own.unwrap_or(right))
    };
    let [right, left] = [false, true].map(|left| Some(line(cockpit, left)? - line(came, left)?));
    let (right, left) = (right?, left?);
    Some(if left.abs() > right.abs() { left } else { right })
}

/// Both hands, left and right; the left one mirrored where nothing else is said of it.
pub fn hands(cockpit: &Value, place: &str) -> Option<[[f64; 3]; 2]> {
    let point = |grip: &Value| -> Option<[f64; 3]> {
        Some([grip[0].as_f64()?, grip[1].as_f64()?, grip[2].as_f64()?])
    };
    let at = cockpit["places"].get(place)?;
    let right = point(&at["grip"])?;
    let left = point(&at["left"]["grip"]).unwrap_or([right[0], right[1], -right[2]]);
    Some([left, right])
}

/// Midway between the hands, as a tape on the saddle measures it: ahead of its nose, below its sit
/// point; from the saddle of the one cockpit to the hands on the other.
///
/// # Panics
/// When the output has no saddle.
pub fn from_saddle(saddle_of: &Value, cockpit: &Value, place: &str) -> Option<[f64; 2]> {
    let saddle = &saddle_of["saddle"];
    let nose_behind = saddle["nose_behind"].as_f64().expect("a saddle");
    let sit_y = saddle["sit"][1].as_f64().expect("a saddle");
    let [left, right] = hands(cockpit, place)?;
    let middle = |axis: usize| f64::midpoint(left[axis], right[axis]);
    Some([middle(0) + nose_behind, sit_y - middle(1)])
}

/// From the hoods to the drops in space, the mean of both hands.
pub fn hand_travel(cockpit: &Value) -> Option<f64> {
    let (hoods, drops) = (hands(cockpit, "hoods")?, hands(cockpit, "drops")?);
    let apart = |a: [f64; 3], b: [f64; 3]| -> f64 {
        a.iter().zip(b).map(|(a, b)| (a - b).powi(2)).sum::<f64>().sqrt()
    };
    Some(f64::midpoint(apart(hoods[0], drops[0]), apart(hoods[1], drops[1])))
}

/// By how much two answers differ as they are shown, rounded each; none where they are one answer.
pub fn change(before: f64, after: f64, same: f64) -> Option<f64> {
    ((after - before).abs() >= same).then(|| after.round() - before.round())
}

/// Every number in a text, with its sign.
pub fn numbers(text: &str) -> Vec<f64> {
    let (mut found, mut word) = (Vec::new(), String::new());
    for letter in text.replace('\u{2212}', "-").chars().chain([' ']) {
        let begins = word.is_empty() && letter == '-';
        if letter.is_ascii_digit() || begins || (letter == '.' && !word.is_empty()) {
            word.push(letter);
        } else if let Ok(number) = core::mem::take(&mut word).parse() {
            found.push(number);
        }
    }
    found
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_of_a_text() {
        assert_eq!(numbers("left 203 mm, right \u{2212}4.5° – 7."), [203.0, -4.5, 7.0]);
        assert_eq!(numbers("Maria-Antonia, no. six"), Vec::<f64>::new());
    }
}
