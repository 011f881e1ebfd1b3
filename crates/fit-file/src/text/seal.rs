//! The check line: length and CRC-32C of everything above it.
//!
//! It finds what happens to files by accident, a flipped bit or a cut end; it is no signature.
//! CRC-32C finds every single flipped bit and every burst up to 32 bits (Castagnoli, Bräuer and
//! Herrmann 1993, IEEE Trans. Communications 41:883).

/// How the check line starts.
const MARK: &str = "// check ";

/// What the check line says.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Seal {
    /// It fits what stands above it.
    Whole,
    /// There is none: edited by hand.
    Missing,
    /// It does not fit, or something stands below it.
    Broken,
}

/// The text with its check line.
pub(crate) fn sealed(body: &str) -> String {
    format!("{body}{MARK}len={} crc32c={:08x}\n", body.len(), crc32c::crc32c(body.as_bytes()))
}

/// Looks at the check line of a cleaned text.
pub(crate) fn seal(text: &str) -> Seal {
    let Some(at) = last_mark(text) else { return Seal::Missing };
    let (body, rest) = text.split_at(at);
    let (line, below) = rest.split_once('\n').unwrap_or((rest, ""));
    let fits = fields(line)
        .is_some_and(|(len, crc)| len == body.len() && crc == crc32c::crc32c(body.as_bytes()));
    if fits && below.trim().is_empty() { Seal::Whole } else { Seal::Broken }
}

/// Byte at which the last line that starts with the mark begins.
fn last_mark(text: &str) -> Option<usize> {
    let inside = text.rfind(&format!("\n{MARK}")).map(|at| at + 1);
    inside.or_else(|| text.starts_with(MARK).then_some(0))
}

fn fields(line: &str) -> Option<(usize, u32)> {
    let (len, crc) = line.strip_prefix(MARK)?.trim_end().split_once(' ')?;
    let len = len.strip_prefix("len=")?.parse().ok()?;
    let crc = crc.strip_prefix("crc32c=")?;
    Some((len, u32::from_str_radix(crc, 16).ok()?))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_sum_is_the_published_one() {
        // check value of CRC-32C for "123456789": RFC 3720 (iSCSI) and the CRC catalogues
        assert!(sealed("123456789").ends_with("len=9 crc32c=e3069283\n"));
    }

    #[test]
    fn whole_missing_broken() {
        let text = sealed("(a: 1)\n");
        assert_eq!(seal(&text), Seal::Whole);
        assert_eq!(seal(text.trim_end()), Seal::Whole, "an editor may take the last line end");
        assert_eq!(seal(&format!("{text}\n\n")), Seal::Whole, "or add some");
        assert_eq!(seal("(a: 1)\n"), Seal::Missing);
        assert_eq!(seal(&text.replace("a: 1", "a: 2")), Seal::Broken);
        assert_eq!(seal(&format!("{text}(b: 2)\n")), Seal::Broken, "something stands below");
        assert_eq!(seal(&format!("{text}{text}")), Seal::Broken, "two files joined");
        assert_eq!(seal(&format!("{text}\0\0")), Seal::Broken, "a tail of zeros");
        assert_eq!(seal("(a: 1)\n// check len=7"), Seal::Broken, "cut in the check line");
    }
}
