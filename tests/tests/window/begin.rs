//! How a visit begins: a new client in two fields, what he wears on the head, and that bars wait for
//! the saddle, said where one is chosen.

use acceptance::window::{SIZE, Window, demo, key_events, typed};
use egui::accesskit::Role;
use egui::{Key, Modifiers};
use fit_desk::Room;
use fit_doc::{Complaint, Concern, HandPlace, Helmet, Looked, RuleOut, Share, Where};
use fit_view::weigh::not_as_read;
use fit_view::words::{English, Words};
use std::sync::Arc;

/// Ctrl+N, two fields each ended with Enter: three keys beside what is typed, then what brings the
/// client is at hand, and one key leads on to the body.
#[test]
fn a_new_client_is_begun_with_two_fields_and_three_keys() {
    let mut window = Window::demo();
    window.key(Modifiers::COMMAND, Key::N);
    assert_eq!(window.focused().unwrap().name, "Name");
    window.type_text("Ada Brook");
    window.key(Modifiers::NONE, Key::Enter);
    assert_eq!(window.focused().unwrap().name, "Year of birth");
    window.type_text("1981");
    window.key(Modifiers::NONE, Key::Enter);
    let client = &window.desk().session().client;
    assert_eq!((client.name.as_str(), client.born), ("Ada Brook", Some(1981)));
    let first = window.focused().unwrap();
    assert_eq!((first.role, first.name.as_str()), (Role::RadioButton, "left shoulder"));
    // a key notes it, and how bad it is is asked next
    window.key(Modifiers::NONE, Key::Space);
    assert_eq!(window.focused().unwrap().name, "How bad, 0 to 10");
    assert_eq!(window.desk().visit().unwrap().complaints[0].about, Concern::Shoulders);
    window.key(Modifiers::NONE, Key::F6);
    assert_eq!(window.desk().look().room, fit_desk::Room::Body);
    // each of the two is a step of its own
    for _ in 0..3 {
        window.key(Modifiers::COMMAND, Key::Z);
    }
    let client = &window.desk().session().client;
    assert_eq!((client.name.as_str(), client.born), ("", None));
}

/// Numbers of a new client's bike are said to be read by nobody, where they stand and over the table,
/// until a hand or the tape has put them.
#[test]
fn what_nobody_read_of_a_bike_is_said_to_be_so() {
    let header = |window: &Window| window.texts_of(Role::ColumnHeader)[0].clone();
    let unread = |window: &Window| window.texts("not read yet, so that what stands here").concat();
    let mut window = Window::demo();
    assert_eq!(header(&window), "As it came", "the demo client's bike was measured");
    window.key(Modifiers::NONE, Key::F7);
    assert_eq!(unread(&window), "");
    window.key(Modifiers::COMMAND, Key::N);
    window.key(Modifiers::NONE, Key::F8);
    assert_eq!(header(&window), "As it came, not all read");
    window.key(Modifiers::NONE, Key::F7);
    for of in ["saddle height", "stem length", "frame stack"] {
        assert!(unread(&window).contains(of), "{of}: {}", unread(&window));
    }
    window.enter("saddle height", "731");
    window.enter("frame stack", "580");
    window.enter("stem length", "90");
    for of in ["saddle height", "stem length", "frame stack"] {
        assert!(!unread(&window).contains(of), "{of}: {}", unread(&window));
    }
    assert!(unread(&window).contains("frame reach"));
    window.key(Modifiers::COMMAND, Key::Z);
    assert!(unread(&window).contains("stem length"));
}

/// No reading of the tape tells a stem: that nobody looked at it is said where cockpits are compared and
/// chosen and on the sheet, until it is; also one that is as it stood there from the start.
#[test]
fn a_stem_that_nobody_read_is_said_to_be_so_until_somebody_looks_at_it() {
    const SAID: &str = "The stem was not read yet";
    let mut window = Window::demo();
    window.key(Modifiers::COMMAND, Key::N);
    window.key(Modifiers::NONE, Key::F7);
    window.press(Role::RadioButton, "Stack and reach: known, and used");
    let sheet = |window: &Window| {
        let session = window.desk().session();
        let visit = session.latest_visit().unwrap();
        not_as_read(session, visit, None).map(|why| English.sheet_not_as_read(&why))
    };
    for place in [Key::F8, Key::F9] {
        window.key(Modifiers::NONE, place);
        assert_eq!(window.texts(SAID).len(), 1, "{place:?}");
    }
    assert!(sheet(&window).unwrap().starts_with("Your stem and the spacers"));
    window.press(Role::Button, "Look at the stem");
    assert_eq!(window.desk().look().room, Room::Bike);
    window.press(Role::Button, "Stem and spacers are so");
    assert!(!window.has(Role::Button, "Stem and spacers are so"));
    let stem = &window.desk().visit().unwrap().as_it_came.stem;
    assert_eq!((stem.length_mm, stem.angle_deg), (100.0, -6.0), "it is as it was");
    assert_eq!(sheet(&window), None);
    window.key(Modifiers::NONE, Key::F8);
    assert!(window.texts(SAID).is_empty());
    // one step back nobody has looked at it; turned over it was looked at
    window.key(Modifiers::COMMAND, Key::Z);
    assert_eq!(window.texts(SAID).len(), 1);
    window.key(Modifiers::NONE, Key::F7);
    window.enter("stem angle", "6");
    assert_eq!(sheet(&window), None);
}

/// What stands on the bench before anything was read is an estimate, and said to be; a weight alone tells
/// of no length.
#[test]
fn before_a_length_was_read_the_body_is_said_to_be_estimated() {
    let mut window = Window::demo();
    let said = |window: &Window| window.texts("Nothing read: the body is estimated").len();
    assert_eq!(said(&window), 0, "the demo client was measured");
    window.key(Modifiers::COMMAND, Key::N);
    window.type_text("Ada Brook");
    window.key(Modifiers::NONE, Key::Enter);
    window.key(Modifiers::NONE, Key::F8);
    assert_eq!(said(&window), 1);
    window.key(Modifiers::NONE, Key::F6);
    window.press(Role::DisclosureTriangle, "Weight, out of the client’s sight");
    for (item, read, still) in [("weight", "64", 1), ("stature", "1702", 0)] {
        window.key(Modifiers::NONE, Key::F6);
        window.reach_and_enter(item, read);
        window.key(Modifiers::NONE, Key::F8);
        assert_eq!(said(&window), still, "{item}");
    }
    assert_eq!(window.desk().visit().unwrap().body.len(), 2);
}

/// On a slow frame all of it comes at once: nothing typed is lost or goes to another field.
#[test]
fn a_new_client_typed_in_one_frame_arrives_in_the_fields() {
    let mut window = Window::demo();
    let mut events = key_events(Modifiers::COMMAND, Key::N);
    events.extend(typed("ada brook\n1981\n"));
    // the letter Space presses what has the keyboard, and the score is asked next
    events.extend(typed(" 7\n"));
    window.in_one_frame(events);
    let client = &window.desk().session().client;
    assert_eq!((client.name.as_str(), client.born), ("ada brook", Some(1981)));
    let complaints = &window.desk().visit().unwrap().complaints;
    let first: Vec<_> = complaints.iter().map(|of| (of.about, of.score)).collect();
    assert_eq!(first, [(Concern::Shoulders, Some(7))]);
}

/// The same where each frame is given what was typed during the one before.
#[test]
fn a_new_client_typed_at_any_pace_arrives_in_the_fields() {
    for keys_in_a_frame in 1..7 {
        let mut window = Window::demo();
        let mut events = key_events(Modifiers::COMMAND, Key::N);
        events.extend(typed("ada brook\n1981\n"));
        for frame in events.chunks(keys_in_a_frame) {
            window.harness().input_mut().events.extend(frame.iter().cloned());
            window.harness().step();
        }
        window.in_one_frame([]);
        let client = &window.desk().session().client;
        let heard = (client.name.as_str(), client.born);
        assert_eq!(heard, ("ada brook", Some(1981)), "{keys_in_a_frame}");
    }
}

/// The keyboard is taken to the name once, and only where there is none yet.
#[test]
fn an_old_client_is_not_asked_for_the_name() {
    let mut window = Window::demo();
    window.key(Modifiers::NONE, Key::F5);
    assert_ne!(window.focused().map(|heard| heard.name).as_deref(), Some("Name"));
    window.key(Modifiers::COMMAND, Key::N);
    assert_eq!(window.focused().unwrap().name, "Name");
    window.key(Modifiers::NONE, Key::F8);
    window.key(Modifiers::NONE, Key::F5);
    assert_ne!(window.focused().map(|heard| heard.name).as_deref(), Some("Name"));
}

#[test]
fn a_helmet_with_a_peak_stands_beside_what_is_ruled_out_of_the_neck() {
    let mut window = Window::with(demo(), (1280.0, 1700.0));
    window.key(Modifiers::NONE, Key::F5);
    assert!(window.texts("helmet’s peak out of sight (").is_empty());
    window.press(Role::RadioButton, "Helmet: helmet with a peak");
    let helmet = |window: &Window| window.desk().visit().unwrap().interview.helmet;
    assert_eq!(helmet(&window), Some(Helmet::WithPeak));
    assert!(!window.texts("helmet’s peak out of sight (helmet with a peak)").is_empty());
    let file = window.folder().join("with-helmet.session.ron");
    window.save_as(&file);
    let opened = fit_file::open(&file).unwrap().session;
    assert_eq!(&opened, window.desk().session());
    window.press(Role::RadioButton, "Helmet: not asked");
    assert_eq!(helmet(&window), None);
    window.key(Modifiers::COMMAND, Key::Z);
    assert_eq!(window.texts("helmet not asked").len(), 1, "undo names it");
    assert_eq!(helmet(&window), Some(Helmet::WithPeak));
}

/// That bars wait for the saddle stands on the bench and in the stock list, and blocks nothing.
#[test]
fn that_bars_wait_is_said_where_one_is_chosen() {
    let waits = "The saddle first (neck): look at the cleats.";
    let mut window = Window::demo();
    let said = window.heard().into_iter().find(|heard| heard.name.starts_with(waits)).unwrap();
    let choose = window.the(Role::Button, "Choose it").rect();
    assert!(said.place.bottom() <= choose.top() && choose.top() - said.place.bottom() < 20.0);
    window.key(Modifiers::COMMAND, Key::B);
    assert_eq!(window.texts(waits).len(), 2, "on the bench and in the list");
    window.key(Modifiers::NONE, Key::Escape);
    window.press(Role::Button, "Choose it");
    assert!(window.desk().visit().unwrap().chosen.is_some());
    // once the saddle was looked at it is gone
    let mut session = demo();
    let visit = Arc::make_mut(session.visits.last_mut().unwrap());
    let looked = Looked::Done;
    visit.ruled_out =
        RuleOut::SADDLE.map(|item| fit_doc::RuledOut { item, looked }).into_iter().collect();
    visit.ruled_out.sort_by_key(|of| of.item);
    let window = Window::with(session, SIZE);
    assert!(window.texts("The saddle first").is_empty());
}

/// Lists and dialogs as well, wherever the keyboard was.
#[test]
fn what_is_typed_behind_a_key_that_opens_a_list_is_searched_for() {
    for field in [None, Some("stem length")] {
        for (modifiers, key, searched) in [
            (Modifiers::COMMAND.plus(Modifiers::SHIFT), Key::P, "front\n"),
            (Modifiers::COMMAND, Key::B, "flared\n"),
        ] {
            let mut window = Window::demo();
            if let Some(field) = field {
                window.press(Role::TextInput, field);
            }
            let mut events = key_events(modifiers, key);
            events.extend(typed(searched));
            window.in_one_frame(events);
            let (bench, sight) =
                (window.desk().visit().unwrap().bench.len(), window.desk().look().sight);
            let before = acceptance::window::demo().visits[0].bench.len();
            let wanted = match key {
                Key::P => (before, fit_view::side::Sight::Front),
                _ => (before + 1, fit_view::side::Sight::Side),
            };
            assert_eq!((bench, sight), wanted, "{field:?} {key:?}");
        }
    }
}

/// The bench opens with the hands where it is felt most, else where they are most of the time, else on the
/// hoods; whoever moved them finds them where he left them.
#[test]
fn the_bench_opens_where_it_is_felt_most() {
    use HandPlace::{Drops, Hoods, Ramps, Tops};
    let felt =
        |about, place, score| Complaint { place, score, ..Complaint::about(about, Where::Both) };
    let (neck, hands) = (Concern::Neck, Concern::Hands);
    let share = |place, percent| Share { place, percent };
    for (complaints, shares, opens) in [
        (vec![], vec![], Hoods),
        (vec![], vec![share(Hoods, 20), share(Tops, 50), share(Ramps, 30)], Tops),
        (vec![felt(neck, None, Some(9))], vec![share(Drops, 60)], Drops),
        (vec![felt(neck, Some(Drops), Some(3)), felt(hands, Some(Hoods), Some(6))], vec![], Hoods),
        (vec![felt(neck, Some(Ramps), None), felt(hands, Some(Tops), Some(1))], vec![], Ramps),
        (vec![felt(neck, Some(Ramps), Some(0)), felt(hands, Some(Tops), Some(1))], vec![], Tops),
        (vec![felt(Concern::BrakesFromDrops, None, Some(4))], vec![], Drops),
    ] {
        let mut session = demo();
        let visit = Arc::make_mut(session.visits.last_mut().unwrap());
        (visit.complaints, visit.interview.shares) = (complaints.clone(), shares);
        let window = Window::with(session, SIZE);
        assert_eq!(window.desk().look().hands, opens, "{complaints:?}");
    }
    // what is said at this visit is followed, until somebody moves the hands
    let mut session = demo();
    Arc::make_mut(session.visits.last_mut().unwrap()).complaints.clear();
    let mut window = Window::with(session, SIZE);
    window.key(Modifiers::NONE, Key::F5);
    window.reach_and_press(Role::RadioButton, "brakes from the drops");
    window.key(Modifiers::NONE, Key::F8);
    assert_eq!(window.desk().look().hands, Drops);
    window.key(Modifiers::NONE, Key::Num2);
    window.key(Modifiers::NONE, Key::F5);
    window.key(Modifiers::NONE, Key::F8);
    assert_eq!(window.desk().look().hands, Ramps, "as they were left");
}
