//! A text as it is looked for: small letters without accents.

use unicode_normalization::UnicodeNormalization as _;
use unicode_normalization::char::is_combining_mark;

/// The text in small letters, without accents, compatible forms made one (Unicode Standard Annex 15,
/// NFKD); letters with a stroke and joined letters, which have no such parts, as they are typed without.
///
/// ```
/// assert_eq!(fit_folder::folded("Søren Ångström-Łuß"), "soren angstrom-luss");
/// ```
pub fn folded(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for letter in text.nfkd().filter(|letter| !is_combining_mark(*letter)) {
        for letter in letter.to_lowercase() {
            match plain(letter) {
                Some(plain) => out.push_str(plain),
                // capitals may come apart when they become small
                None if is_combining_mark(letter) => {}
                None => out.push(letter),
            }
        }
    }
    out
}

/// A small letter that is typed otherwise without its stroke or its join.
const fn plain(letter: char) -> Option<&'static str> {
    Some(match letter {
        'ø' => "o",
        'đ' | 'ð' => "d",
        'ł' => "l",
        'ħ' => "h",
        'ı' => "i",
        'þ' => "th",
        'ß' => "ss",
        'æ' => "ae",
        'œ' => "oe",
        'ς' => "σ",
        _ => return None,
    })
}
