//! Names of files that are made for a client.

use std::path::{Path, PathBuf};

/// The folder for what is made where nobody named one, below the one the program was started in.
pub const FOLDER: &str = "barwright-out";

/// Longest part of a name, characters: with an ending it fits any file system's 255 bytes, even
/// where every letter takes four.
const LONGEST: usize = 48;

/// A name as part of a file's name: its letters and digits, words joined by hyphens, in small
/// letters; "client" where nothing is left. Nothing in it can lead out of a folder.
pub fn slug(name: &str) -> String {
    let kept: String = name.chars().map(|c| if c.is_alphanumeric() { c } else { ' ' }).collect();
    let words: Vec<&str> = kept.split_whitespace().collect();
    let short: String = words.join("-").to_lowercase().chars().take(LONGEST).collect();
    let short = short.trim_end_matches('-');
    if short.is_empty() { "client".to_owned() } else { short.to_owned() }
}

/// How names of sessions end.
const ENDING: &str = ".session.ron";

/// The number of the first copy beside a session.
pub const FIRST_COPY: u32 = 2;

/// The path of a copy beside a session, by its number.
pub fn beside(path: &Path, number: u32) -> PathBuf {
    let name = path.file_name().unwrap_or_default().to_string_lossy();
    let (stem, ending) = match name.strip_suffix(ENDING) {
        Some(stem) => (stem, ENDING),
        None => (&*name, ""),
    };
    path.with_file_name(format!("{stem} ({number}){ending}"))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_copy_is_called_like_what_it_lies_beside() {
        let beside = |path: &str| beside(Path::new(path), 2);
        assert_eq!(beside("/a/zoë.session.ron"), Path::new("/a/zoë (2).session.ron"));
        assert_eq!(beside("zoë.ron"), Path::new("zoë.ron (2)"));
    }

    #[test]
    fn a_slug_has_letters_and_digits_and_leads_nowhere() {
        assert_eq!(slug("Torvald Ekenbrink"), "torvald-ekenbrink");
        assert_eq!(slug("../../etc/passwd"), "etc-passwd");
        assert_eq!(slug("Zoë  O’Neill 2"), "zoë-o-neill-2");
        assert_eq!(slug(" ./ "), "client");
        assert_eq!(slug("久保 花子"), "久保-花子");
        assert_eq!(slug("../../etc\\x:y\u{7}\0"), "etc-x-y");
        let long = slug(&"𠀋".repeat(300));
        assert!(long.len() + "-2026-04-11-bent-elbow-hoods.png".len() < 255, "{long}");
        assert!(!slug(&"a b ".repeat(300)).ends_with('-'));
    }
}
