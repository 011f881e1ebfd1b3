//! Which of some known names a misspelt one looks like.
//!
//! Letters only: what a name means is not known here.

/// The known name that looks most like the one found, if any is like it: a letter or two changed,
/// lost, doubled or swapped, or written in capitals.
pub fn nearest<'k>(found: &str, known: impl IntoIterator<Item = &'k str>) -> Option<String> {
    // quotes of whatever kind round a word are no letters of it
    let bare = found.trim_matches(|c: char| !c.is_alphanumeric());
    let found: Vec<char> = bare.to_lowercase().replace('-', "_").chars().collect();
    let far = found.len().div_ceil(3).max(1);
    known
        .into_iter()
        .map(|name| (name.chars().collect::<Vec<_>>(), name))
        .filter(|(letters, _)| letters.len().abs_diff(found.len()) <= far)
        .map(|(letters, name)| (edits(&found, &letters), name))
        .filter(|&(edits, _)| edits <= far)
        .min_by_key(|&(edits, _)| edits)
        .map(|(_, name)| name.to_owned())
}

/// Letters changed, lost, added or swapped with their neighbour between two words.
/// Source: optimal string alignment (Damerau 1964, Communications of the ACM 7:171).
fn edits(one: &[char], other: &[char]) -> usize {
    let width = other.len() + 1;
    let mut rows = vec![vec![0_usize; width]; one.len() + 1];
    for (i, row) in rows.iter_mut().enumerate() {
        row[0] = i;
    }
    rows[0] = (0..width).collect();
    for i in 1..=one.len() {
        for j in 1..width {
            let changed = usize::from(one[i - 1] != other[j - 1]);
            let mut least =
                (rows[i - 1][j] + 1).min(rows[i][j - 1] + 1).min(rows[i - 1][j - 1] + changed);
            if i > 1 && j > 1 && one[i - 1] == other[j - 2] && one[i - 2] == other[j - 1] {
                least = least.min(rows[i - 2][j - 2] + 1);
            }
            rows[i][j] = least;
        }
    }
    rows[one.len()][other.len()]
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_nearest_name_is_near() {
        let known = ["round", "flat", "variable"];
        for (found, expected) in [
            ("Round", Some("round")),
            ("rond", Some("round")),
            ("\"flat\"", Some("flat")),
            ("“flat”", Some("flat")),
            ("falt", Some("flat")),
            ("varaible", Some("variable")),
            ("compact", None),
            ("", None),
        ] {
            assert_eq!(nearest(found, known).as_deref(), expected, "{found}");
        }
        assert_eq!(nearest(&"flat".repeat(1 << 20), known), None, "a page of text is no name");
    }
}
