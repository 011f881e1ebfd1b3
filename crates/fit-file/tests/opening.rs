//! Files that should not open, or not without a word: each says what is wrong, and where, and
//! none of them is touched.

#![allow(clippy::unwrap_used, reason = "a test that cannot go on has failed")]

mod common;

use common::{Folder, edited, refusal, session, text, unsealed};
use fit_doc::{FileKind, Keeping, Message, Place, Quantity, Slip, Spot, VisitPlace};
use fit_file::{MOST_BYTES, MOST_DEPTH, MOST_ITEMS, open, read_session};

/// Where a text stands first in a file.
fn spot_of(file: &str, text: &str) -> Spot {
    let before = &file[..file.find(text).unwrap()];
    let line = before.matches('\n').count() + 1;
    Spot { line, column: before.chars().rev().take_while(|&c| c != '\n').count() + 1 }
}

#[test]
fn what_cannot_be_a_session_is_refused_and_left_alone() {
    let folder = Folder::new();
    let text = text();
    let utf16: Vec<u8> = text.encode_utf16().flat_map(u16::to_le_bytes).collect();
    folder.with("empty", "");
    folder.with("blank", " \n\r\n");
    folder.with("foreign", "[package]\nname = \"barwright-session\"\n");
    folder.with("stock", "// barwright stock\n(kind: \"barwright-stock\", version: 0)\n");
    folder.with("zeros", [0; 4096]);
    folder.with("photo", b"\x89PNG\r\n\x1a\n\0\0\0\rIHDR");
    folder.with("zip", b"PK\x03\x04\x14\0");
    folder.with("pdf", b"%PDF-1.7\n%\xE2\xE3");
    folder.with("utf16", utf16);
    folder.with("latin1", [text.as_bytes(), b"// caf\xE9\n"].concat());
    std::fs::File::create(folder.path("large")).unwrap().set_len(10_000_000).unwrap();
    std::fs::create_dir(folder.path("folder")).unwrap();
    let before = folder.look();

    let says = |name: &str| open(&folder.path(name)).unwrap_err().message().clone();
    let path = |name: &str| folder.path(name).display().to_string();
    assert_eq!(says("missing"), Message::FileMissing { path: path("missing") });
    assert_eq!(says("empty"), Message::FileEmpty { path: path("empty") });
    assert_eq!(says("blank"), Message::FileEmpty { path: path("blank") });
    for name in ["foreign", "stock", "zeros"] {
        assert_eq!(says(name), Message::NotASession { path: path(name) });
    }
    for (name, kind) in
        [("photo", FileKind::Picture), ("zip", FileKind::Archive), ("pdf", FileKind::Pdf)]
    {
        assert_eq!(says(name), Message::OtherKindOfFile { path: path(name), kind });
    }
    let not_text = |name: &str, at_byte| Message::NotText { path: path(name), at_byte };
    // in UTF-16 the é is the first byte that UTF-8 has not; everything before it is ASCII and NULs
    let before_accent = text[..text.find('é').unwrap()].encode_utf16().count();
    assert_eq!(says("utf16"), not_text("utf16", 2 * before_accent));
    assert_eq!(says("latin1"), not_text("latin1", text.len() + "// caf".len()));
    let large = Message::FileTooLarge { path: path("large"), bytes: 10_000_000, most: MOST_BYTES };
    assert_eq!(says("large"), large);
    assert_eq!(says("folder"), Message::NotARegularFile { path: path("folder") });
    assert_eq!(folder.look(), before, "opening changes nothing");
}

#[test]
fn size_is_refused_at_the_limit_and_not_before() {
    let most = usize::try_from(MOST_BYTES).unwrap();
    let mut text = unsealed();
    text.push_str("//");
    text.push_str(&" ".repeat(most - text.len()));
    assert_eq!(read_session(text.as_bytes(), "given").unwrap().session, session());
    text.push(' ');
    assert!(matches!(refusal(text), Message::FileTooLarge { .. }));
}

#[test]
fn a_mark_and_other_line_ends_are_forgiven() {
    let text = text();
    for form in [
        format!("\u{feff}{text}"),
        text.replace('\n', "\r\n"),
        format!("\u{feff}{}", text.replace('\n', "\r\n")),
        text.trim_end().to_owned(),
    ] {
        let opened = read_session(form.as_bytes(), "given").unwrap();
        assert_eq!(opened.session, session());
        assert_eq!(opened.notices, [], "nothing to say: the check line still fits");
    }
    let utf16_with_mark: Vec<u8> =
        format!("\u{feff}{text}").encode_utf16().flat_map(u16::to_le_bytes).collect();
    assert_eq!(refusal(utf16_with_mark), Message::NotText { path: "given".into(), at_byte: 0 });
}

/// The cockpit of the session's only bike.
fn known_place() -> Place {
    Place::bike_cockpit(0, &session().bikes[0])
}

#[test]
fn edited_by_hand_opens_with_a_notice() {
    let notice = Message::NoCheckLine { path: "given".into() };
    let opened =
        read_session(edited("spacers_mm: 17.5", "spacers_mm: 5").as_bytes(), "given").unwrap();
    assert_eq!(opened.session.bikes[0].cockpit.spacers_mm, 5.0);
    assert_eq!(opened.notices.len(), 1);
    assert_eq!(opened.notices[0].message, notice);

    let unusual = edited("length_mm: 110.0", "length_mm: 35");
    let opened = read_session(unusual.as_bytes(), "given").unwrap();
    let place = known_place().field("stem").field("length_mm");
    let asked = Message::Unusual { place, quantity: Quantity::StemLength, found: 35.0 };
    assert_eq!(opened.notices[1].message, asked);
    assert_eq!(opened.notices[1].spot, Some(spot_of(&unusual, "35,")));
    assert!(!opened.read_only);
}

#[test]
fn damage_is_told_from_editing() {
    let text = text();
    let damaged = Message::Damaged { path: "given".into() };
    assert_eq!(refusal(text.replacen("17.5", "18.5", 1)), damaged);
    assert_eq!(refusal(format!("{text}{text}")), damaged, "two files joined");
    assert_eq!(refusal(format!("{text}\0\0\0\0")), damaged, "a tail of zeros");
    assert_eq!(refusal(text.replace("len=", "len=1")), damaged);
}

#[test]
fn later_versions_are_refused_by_name_or_only_looked_at() {
    let needs = |needs| Message::NewerVersion { path: "given".into(), needs, reads: 1 };
    assert_eq!(refusal(edited("least_reader: 1", "least_reader: 3")), needs(3));
    let unreadable = "// barwright session\n(kind: \"barwright-session\", version: 9, \
                      least_reader: 9, anything: {\"that\": no_one, knows}";
    assert_eq!(refusal(unreadable), needs(9), "before anything is parsed");

    let opened = read_session(edited("version: 1", "version: 2").as_bytes(), "given").unwrap();
    assert!(opened.read_only);
    let written = Message::WrittenByNewer { path: "given".into(), version: 2, reads: 1 };
    assert_eq!(opened.notices[0].message, written);
}

/// The last resort, where no slip is known: the reader's own words, with line and column.
#[test]
fn what_no_slip_explains_is_told_in_the_reader_s_own_words() {
    // the format allows a type's name before its bracket, if it is the right one
    let named = edited("client: (", "client: Client(");
    assert_eq!(read_session(named.as_bytes(), "given").unwrap().session, session());
    let file = edited("client: (", "client: Person(");
    match refusal(&file) {
        Message::DoesNotParse { spot, slip: Slip::Other { detail }, .. } => {
            assert_eq!(spot, spot_of(&file, "Person"), "{detail}");
            assert!(detail.contains("Person") && detail.contains("Client"), "{detail}");
        }
        other => panic!("{other:?}"),
    }
}

#[test]
fn what_cannot_be_right_is_refused_by_its_line() {
    let refused = |file: &str| {
        let error = read_session(file.as_bytes(), "given").unwrap_err();
        assert_eq!(*error.message(), Message::SessionRefused { path: "given".into() });
        error.findings().to_vec()
    };
    let file = edited("height_mm: 742.0", "height_mm: 7420");
    let found = refused(&file);
    let (least, most) = Quantity::SaddleHeight.range().refuse;
    let place = known_place().field("saddle").field("height_mm");
    let quantity = Quantity::SaddleHeight;
    assert_eq!(found.len(), 1);
    assert_eq!(found[0].message, Message::Refused { place, quantity, found: 7420.0, least, most });
    assert_eq!(found[0].spot, Some(spot_of(&file, "7420")));

    let file = edited("id: \"short\"", "id: \"came\"");
    let found = refused(&file);
    let visit = VisitPlace { index: 0, date: session().visits[0].date, latest: true };
    let place = Place::visit_cockpit(visit, 1, &session().visits[0].bench[0]).field("id");
    assert_eq!(found[0].message, Message::IdTwice { place, id: "came".into() });
    let id = file.rfind("id: \"came\"").unwrap();
    assert_eq!(found[0].spot.unwrap().line, 1 + file[..id].matches('\n').count());

    let found = refused(&edited("bike: \"bike-1\"", "bike: \"bike-2\""));
    assert!(matches!(&found[0].message, Message::NoSuchBike { id, .. } if id == "bike-2"));

    let two = edited("score: 6", "score: 60").replacen("born: Some(1984)", "born: Some(184)", 1);
    assert_eq!(refused(&two).len(), 2, "all that is wrong is said at once");
}

#[test]
fn depth_and_number_of_items_are_bounded_before_parsing() {
    let deep = |open: &str, close: &str, n: usize| {
        edited("wishes: [", &format!("wishes: [{}{}", open.repeat(n), close.repeat(n)))
    };
    for (open, close) in [("(", ")"), ("[", "]"), ("{", "}"), ("Some(", ")")] {
        let file = deep(open, close, 100_000);
        match refusal(&file) {
            Message::NestedTooDeep { spot, most, .. } => {
                assert_eq!(most, MOST_DEPTH);
                assert_eq!(spot.line, spot_of(&file, "wishes").line);
            }
            other => panic!("{other:?}"),
        }
    }
    let many = edited("wishes: [", &format!("wishes: [{}", "\"\",".repeat(1_000_000)));
    let too_many = Message::TooManyItems { path: "given".into(), most: MOST_ITEMS };
    assert_eq!(refusal(many), too_many);
}

#[test]
fn many_faults_under_a_long_name_are_said_in_few_words() {
    let steps = "9999,".repeat(150_000);
    let file = edited("adjuster_deg: [", &format!("adjuster_deg: [{steps}"));
    let file = file.replacen("As it was last known", &"n".repeat(2_000_000), 1);
    let error = read_session(file.as_bytes(), "given").unwrap_err();
    assert_eq!(error.findings().len(), 100);
    let said = error.to_string().len();
    assert!(said < 100_000, "{said} bytes of messages");
}

#[cfg(unix)]
#[test]
fn links_are_followed_and_devices_are_not_read() {
    use std::os::unix::fs::symlink;
    let folder = Folder::new();
    folder.with("real", text());
    symlink("real", folder.path("link")).unwrap();
    symlink("nothing", folder.path("dangling")).unwrap();
    symlink("loop", folder.path("loop")).unwrap();
    assert_eq!(open(&folder.path("link")).unwrap().session, session());
    let says = |name: &str| open(&folder.path(name)).unwrap_err().message().clone();
    let path = folder.path("dangling").display().to_string();
    assert_eq!(says("dangling"), Message::DanglingLink { path });
    assert!(matches!(says("loop"), Message::CannotRead { .. }));
    let device = open(std::path::Path::new("/dev/zero")).unwrap_err();
    assert!(matches!(device.message(), Message::NotARegularFile { .. }));
}

#[test]
fn a_cut_file_is_said_to_be_cut_wherever_that_is() {
    let text = unsealed();
    let (mut said_so, mut tried) = (0, 0);
    // beyond the header, up to where only the outermost bracket is open
    let from = text.find("client:").unwrap();
    // every so many: a step that no length of a line is a multiple of
    let lengths = (from..text.len() - 200).step_by(23);
    for length in lengths.filter(|&at| text.is_char_boundary(at)) {
        let cut = &text[..length];
        let Message::DoesNotParse { slip, .. } = refusal(cut) else { panic!("cut at {length}") };
        tried += 1;
        // a bracket that is open at the end tells of a lost end as well
        said_so +=
            usize::from(matches!(slip, Slip::EndMissing | Slip::NotClosed { before: None, .. }));
    }
    assert!(said_so * 100 > tried * 95, "{said_so} of {tried}");
    let in_a_text = text.find("As it was last known").unwrap() + 4;
    let Message::DoesNotParse { slip, .. } = refusal(&text[..in_a_text]) else { panic!() };
    assert_eq!(slip, Slip::EndMissing);
    // a lost quotation mark is not a lost end
    let open = edited("name: \"", "name: ");
    let Message::DoesNotParse { slip, .. } = refusal(open) else { panic!() };
    assert_ne!(slip, Slip::EndMissing);
}

#[test]
fn what_a_later_program_added_is_said_to_be_from_a_later_program() {
    let newer =
        edited("version: 1", "version: 2").replacen("client: (", "client: (\n  shoe_mm: 1.0,", 1);
    let error = read_session(newer.as_bytes(), "given").unwrap_err();
    let unread = Keeping::NewerUnread { path: "given".into(), version: 2, reads: 1 };
    assert_eq!(*error.message(), Message::Keeping(unread));
    let [finding] = error.findings() else { panic!("{error}") };
    let Message::DoesNotParse { slip, .. } = &finding.message else { panic!("{error}") };
    assert!(matches!(slip, Slip::UnknownKey { .. }), "{slip:?}");
}
