//! Text in columns of a fixed width: words wrapped, widths counted in characters.
//!
//! No-break spaces hold words together. Control characters, which a label from a foreign file may
//! hold and a terminal would obey, are left out. Every character counts as one column, which holds for all
//! that this program writes itself; a label in a wide script comes out a little ragged.

/// How many columns a text takes.
pub(crate) fn width(text: &str) -> usize {
    text.chars().count()
}

/// A text in lines of at most `most` characters, broken at spaces; a longer word is cut.
pub(crate) fn wrapped(text: &str, most: usize) -> Vec<String> {
    let most = most.max(1);
    let mut lines = Vec::new();
    let mut line = String::new();
    let words = text.split([' ', '\n', '\t']).map(|word| word.replace(char::is_control, ""));
    for word in words.filter(|word| !word.is_empty()) {
        let mut word = word.as_str();
        if !line.is_empty() && width(&line) + 1 + width(word) > most {
            lines.push(core::mem::take(&mut line));
        }
        while width(word) > most {
            let cut = word.char_indices().nth(most).map_or(word.len(), |(at, _)| at);
            let (head, tail) = word.split_at(cut);
            lines.push(head.to_owned());
            word = tail;
        }
        if !line.is_empty() {
            line.push(' ');
        }
        line.push_str(word);
    }
    if !line.is_empty() || lines.is_empty() {
        lines.push(line);
    }
    lines
}

/// A text filled up with spaces on its right.
pub(super) fn left(text: &str, to: usize) -> String {
    format!("{text}{}", " ".repeat(to.saturating_sub(width(text))))
}

/// A text filled up with spaces on its left.
pub(super) fn right(text: &str, to: usize) -> String {
    format!("{}{text}", " ".repeat(to.saturating_sub(width(text))))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn words_are_kept_whole_where_they_fit() {
        assert_eq!(wrapped("out of reach by 12\u{a0}mm", 13), ["out of reach", "by 12\u{a0}mm"]);
        assert_eq!(wrapped("same", 13), ["same"]);
        assert_eq!(wrapped("", 13), [""]);
        assert_eq!(wrapped("a  b", 13), ["a b"]);
    }

    #[test]
    fn a_longer_word_is_cut_between_characters() {
        assert_eq!(wrapped("é".repeat(7).as_str(), 3), ["ééé", "ééé", "é"]);
        assert_eq!(wrapped("ab cdefgh i", 4), ["ab", "cdef", "gh i"]);
    }

    #[test]
    fn a_terminal_is_given_no_orders() {
        assert_eq!(wrapped("a\u{1b}[31mb\u{7} \u{8}\nc", 9), ["a[31mb c"]);
    }

    #[test]
    fn no_line_is_too_long_and_no_character_lost() {
        let text = "the straight leg is 12 short of the pedal-at-the-very-bottom";
        for most in 1..30 {
            let lines = wrapped(text, most);
            assert!(lines.iter().all(|line| width(line) <= most), "{lines:?}");
            let kept = |s: &str| s.chars().filter(|c| *c != ' ').collect::<String>();
            assert_eq!(kept(&lines.concat()), kept(text));
        }
    }

    #[test]
    fn filling_never_cuts() {
        assert_eq!((left("ab", 4), right("ab", 4)), ("ab  ".into(), "  ab".into()));
        assert_eq!(left("abcdef", 4), "abcdef");
    }
}
