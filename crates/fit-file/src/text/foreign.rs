//! Files of other kinds, told by their first bytes.
//!
//! Source of the bytes: the formats' own specifications (PNG: ISO/IEC 15948; JPEG: ITU-T T.81; PDF: ISO
//! 32000), the others from memory.

use fit_doc::FileKind;

/// First bytes, and what begins with them.
const BEGINNINGS: [(&[u8], FileKind); 11] = [
    (b"\x89PNG\r\n", FileKind::Picture),
    (b"\xFF\xD8\xFF", FileKind::Picture),
    (b"GIF8", FileKind::Picture),
    (b"II*\0", FileKind::Picture),
    (b"MM\0*", FileKind::Picture),
    (b"PK\x03\x04", FileKind::Archive),
    (b"\x1F\x8B", FileKind::Archive),
    (b"7z\xBC\xAF\x27\x1C", FileKind::Archive),
    (b"\xFD7zXZ\0", FileKind::Archive),
    (b"\xD0\xCF\x11\xE0", FileKind::Archive),
    (b"%PDF-", FileKind::Pdf),
];

/// The kind of a file that is well known and no session, if it is one.
pub(crate) fn foreign(bytes: &[u8]) -> Option<FileKind> {
    let named = |from, name: &[u8]| bytes.get(from..).is_some_and(|rest| rest.starts_with(name));
    // pictures of telephones and of the web carry their names a little further in
    let is_boxed = named(4, b"ftyp") || named(0, b"RIFF") && named(8, b"WEBP");
    let found = BEGINNINGS.into_iter().find(|(beginning, _)| named(0, beginning));
    found.map(|(_, kind)| kind).or(is_boxed.then_some(FileKind::Picture))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_beginning_tells() {
        for (bytes, kind) in [
            (&b"\x89PNG\r\n\x1a\n\0\0\0\rIHDR"[..], Some(FileKind::Picture)),
            (b"RIFF\x10\0\0\0WEBPVP8 ", Some(FileKind::Picture)),
            (b"\0\0\0\x18ftypheic", Some(FileKind::Picture)),
            (b"PK\x03\x04\x14", Some(FileKind::Archive)),
            (b"%PDF-1.7\n", Some(FileKind::Pdf)),
            (b"// barwright session\n(", None),
            (b"PK", None),
            (b"", None),
        ] {
            assert_eq!(foreign(bytes), kind, "{bytes:?}");
        }
    }
}
