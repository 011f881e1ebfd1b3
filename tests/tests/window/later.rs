//! After the visit: built and read back, a call after two weeks, and a follow-up after three months with
//! a bar that has slipped.

use acceptance::window::{SIZE, Window, demo, typed};
use egui::accesskit::Role;
use egui::{Key, Modifiers};
use fit_desk::Room;
use fit_doc::tape::Of;
use fit_doc::{AsBuilt, Cockpit, Edit, Quantity, SendOn, Session, TapeItem};
use fit_view::words::{English, VisitWords, Words};
use std::sync::Arc;

/// The demo client's visit after it was decided.
fn decided() -> Session {
    let choose = Edit::Choose { visit: 0, id: Some("compact-420".into()) };
    choose.apply(&demo()).unwrap().0
}

fn session(window: &Window) -> Session {
    window.desk().session().clone()
}

/// What a tape reads on a cockpit, in whole mm and half degrees, as it is typed.
fn reads(session: &Session, of: &Cockpit, what: Of) -> String {
    let frame = &session.bike(&session.visits[0].bike).unwrap().frame;
    let value = acceptance::tape::laid(frame, of, [what], 0.0).unwrap()[0].value;
    let per_unit = if what.is_angle() { 2.0 } else { 1.0 };
    format!("{}", (value * per_unit).round() / per_unit + 0.0)
}

pub(super) const FEW: [(&str, fit_doc::TapeItem); 6] = [
    ("axle to saddle top", fit_doc::TapeItem::SaddleHeight),
    ("nose to middle of the bar", fit_doc::TapeItem::NoseToBar),
    ("nose to the hood", fit_doc::TapeItem::NoseToHood),
    ("hood below the saddle", fit_doc::TapeItem::HoodBelowSaddle),
    ("slope of the ramp", fit_doc::TapeItem::RampSlope),
    ("bar’s end to the lever, along it", fit_doc::TapeItem::LeverFromEnd),
];

#[test]
fn what_was_built_is_read_back_and_the_difference_stands_beside_it() {
    let mut window = Window::with(decided(), SIZE);
    window.key(Modifiers::NONE, Key::F10);
    assert_eq!(window.desk().look().room, Room::Later);
    assert!(window.has(Role::Label, "Compact 420"), "what was chosen is what is built");
    // where nothing was chosen, nothing is said of a choice
    let mut undecided = Window::with(demo(), SIZE);
    undecided.key(Modifiers::NONE, Key::F10);
    assert!(undecided.has(Role::Label, "As it was built"));
    assert!(undecided.texts("chosen cockpit").is_empty());
    let session = session(&window);
    let left = session.visits[0].left().clone();
    for (name, item) in &FEW[..3] {
        window.enter(name, &reads(&session, &left, item.usual()));
    }
    assert_eq!(window.texts("as planned").len(), 3);
    let lower = Cockpit { spacers_mm: left.spacers_mm - 10.0, ..left };
    window.enter(FEW[3].0, &reads(&session, &lower, FEW[3].1.usual()));
    let said = window.texts(" lower than planned");
    assert!(said.len() == 1 && said[0].starts_with("10\u{a0}mm lower"), "{said:?}");
    assert_eq!(window.desk().session().visits[0].built.readings.len(), 4);
    // and each is a step of its own that names the cockpit
    window.key(Modifiers::NONE, Key::Escape);
    window.press(Role::Button, "Undo");
    let undone = window.texts("Undone: Compact 420: hood below the saddle");
    assert_eq!(undone.len(), 1, "{:?}", window.texts("Undone"));
}

/// Digits that come while the keyboard is led from one reading to the next are of the next one, all of
/// them, however many keys a frame is given.
#[test]
fn readings_typed_faster_than_the_window_is_drawn_are_all_there() {
    for keys_in_a_frame in [1, 2, 3, 5, 200] {
        let mut window = Window::with(decided(), SIZE);
        window.key(Modifiers::NONE, Key::F10);
        window.press(Role::TextInput, FEW[0].0);
        for frame in typed("734\n512\n655\n41\n").chunks(keys_in_a_frame) {
            window.harness().input_mut().events.extend(frame.iter().cloned());
            window.harness().step();
        }
        window.in_one_frame([]);
        let read = ["734", "512", "655", "41"];
        let values: Vec<_> =
            FEW[..4].iter().map(|of| window.value(Role::TextInput, of.0)).collect();
        assert_eq!(values, read, "{keys_in_a_frame} in a frame");
        assert_eq!(window.desk().session().visits[0].built.readings.len(), 4);
        assert_eq!(window.focused().unwrap().name, FEW[4].0);
    }
}

/// A call after two weeks, in keys: the place, the note, km, two scores.
#[test]
fn a_call_is_noted_with_a_few_keys() {
    let mut window = Window::with(decided(), SIZE);
    let start = session(&window);
    for key in [Key::F10, Key::N] {
        window.key(Modifiers::NONE, key);
    }
    for (name, typed) in [
        ("km ridden since, note of", "310"),
        ("Neck in the drops, note of", "3"),
        ("Brakes from the drops, note of", "4"),
    ] {
        let focused = window.focused().unwrap().name;
        assert!(focused.starts_with(name), "{focused}");
        window.type_text(typed);
        window.key(Modifiers::NONE, Key::Enter);
    }
    let now = session(&window);
    let [note] = &now.visits[0].afterwards[..] else { panic!("one note") };
    assert_eq!(note.km, Some(310));
    assert_eq!(note.scores.iter().map(|of| of.score).collect::<Vec<_>>(), [Some(3), Some(4)]);
    assert_eq!(note.as_built, AsBuilt::NotLookedAt);
    let heard = window.texts_of(Role::RadioButton);
    let changed = heard.iter().find(|name| name.ends_with(": changed")).unwrap().clone();
    window.activate(Role::RadioButton, &changed);
    assert_eq!(session(&window).visits[0].afterwards[0].as_built, AsBuilt::Changed);
    // the drawing says what it shows
    let images = window.texts_of(Role::Image);
    assert!(
        images.iter().any(|name| name.starts_with("Neck in the drops: 6 on 11 April 2026, 3 on ")),
        "{images:?}"
    );
    assert!(
        images
            .iter()
            .any(|name| name.ends_with("3 of 10 less, which is enough to leave it at that"))
    );
    // of another day, and back: each step says of which note it is
    let day = window
        .texts_of(Role::TextInput)
        .into_iter()
        .find(|name| name.starts_with("Day of the note"));
    let was = session(&window).visits[0].afterwards[0].date;
    let before = was.yesterday().unwrap();
    window.reach_and_enter(&day.unwrap(), &before.to_string());
    window.key(Modifiers::COMMAND, Key::Z);
    let undone = window.texts("Undone: note of ");
    let [undone] = &undone[..] else { panic!("{:?}", window.texts("Undone")) };
    assert!(undone.contains(", was of ") && undone.ends_with(&was.year().to_string()), "{undone}");
    for _ in 0..5 {
        window.key(Modifiers::COMMAND, Key::Z);
        assert_eq!(window.texts("Undone: note of ").len(), 1, "{:?}", window.texts("Undone"));
    }
    assert_eq!(window.desk().session(), &start);
}

/// What a tape reads after the bar has turned by 4° nose down in its clamp, worked out by hand, in the
/// order of [`FEW`]; nothing of it is asked of the program.
///
/// What was left is known: saddle 750 mm from the axle, ramps 5° down on a bar that stands at 0°, the
/// lever 173 mm from the bar's end (the demo client's session). On a drawing of it the middle of the
/// bar is 543 mm ahead of the nose and 68 mm below the saddle, the hood's trough 654 mm ahead of the
/// nose and 50 mm below the saddle.
pub(super) fn slipped_readings() -> [String; 6] {
    const TURNED_DEG: f64 = 4.0;
    // seen from the clamp, about which all that the bar carries turns as one piece
    const AHEAD_MM: f64 = 654.0 - 543.0;
    const ABOVE_MM: f64 = 68.0 - 50.0;
    let (sine, cosine) = TURNED_DEG.to_radians().sin_cos();
    // a point A ahead and B above comes to A cos + B sin ahead and B cos − A sin above
    let (ahead, above) = (AHEAD_MM * cosine + ABOVE_MM * sine, ABOVE_MM * cosine - AHEAD_MM * sine);
    let whole = |mm: f64| format!("{mm:.0}");
    [
        // saddle and clamp stay where they are
        whole(750.0),
        whole(543.0),
        whole(543.0 + ahead),
        whole(68.0 - above),
        whole(5.0 + TURNED_DEG),
        // along the bar nothing moved
        whole(173.0),
    ]
}

#[test]
fn three_months_later_a_slipped_bar_is_named_before_it_is_asked_how_it_went() {
    let mut window = Window::with(demo(), SIZE);
    window.press(Role::RadioButton, "Compact 420");
    window.press(Role::Button, "Choose it");
    let start = session(&window);
    assert_eq!(start, decided(), "what is pressed is what is chosen");
    window.key(Modifiers::NONE, Key::F10);
    window.reach_and_press(Role::Button, "Begin a follow-up visit");
    assert_eq!((window.desk().look().room, window.desk().look().visit), (Room::Later, 1));
    let began = session(&window);
    // the keyboard is at the first reading: measured first
    let first = window.focused().unwrap().name;
    assert_eq!(first, FEW[0].0);
    let left = began.visits[0].left().clone();
    let unread = window.texts_of(Role::Cell);
    assert!(unread.iter().all(|cell| !cell.ends_with(": same")), "{unread:?}");
    assert!(unread.iter().any(|cell| cell.ends_with(": not read yet")), "{unread:?}");
    let slipped = slipped_readings();
    for ((name, _), typed) in FEW.iter().zip(&slipped) {
        let of = window.focused().unwrap().name;
        assert_eq!(of, *name, "Enter leads on");
        window.type_text(typed);
        window.key(Modifiers::NONE, Key::Enter);
    }
    // while nothing was read nothing is called the same; now it is
    assert!(window.texts_of(Role::Cell).iter().all(|cell| !cell.ends_with("not read yet")));
    // the program's own sums for a bar that is rolled by 4° agree
    let rolled = Cockpit { roll_deg: left.roll_deg - 4.0, ..left.clone() };
    for ((name, item), typed) in FEW.iter().zip(&slipped) {
        let (own, by_hand): (f64, f64) =
            (reads(&began, &rolled, item.usual()).parse().unwrap(), typed.parse().unwrap());
        assert!((own - by_hand).abs() <= 1.0, "{name}: {own}, by hand {by_hand}");
    }
    let asked = window.texts("Has the bar slipped in its clamp, 4°\u{a0}±\u{a0}1 nose down?");
    // what is compared is the bike as drawn, and says so while what was read is not in it
    let as_drawn = "As drawn: what the readings say has moved";
    assert_eq!(window.texts(as_drawn).len(), 1);
    assert!(asked.len() == 1 && asked[0].starts_with("Hoods: "), "{:?}", window.texts("Has "));
    let lower = window.texts("mm lower than left");
    assert!(lower.iter().any(|text| text.starts_with("8\u{a0}mm lower")), "{lower:?}");
    // the fitter says so: the bike as it came is set so, the cockpit of the first visit is not
    let yes = window.texts_of(Role::Button);
    let yes = yes.into_iter().find(|name| name.starts_with("Yes: roll of the bar")).unwrap();
    window.reach_and_press(Role::Button, &yes);
    let taken = session(&window);
    assert_eq!(taken.visits[1].as_it_came.roll_deg, left.roll_deg - 4.0);
    assert_eq!(
        window.texts("Moved since it was left, in the bike as it came: roll of the bar").len(),
        1
    );
    assert!(window.texts("Has the bar slipped").is_empty(), "it is answered");
    assert!(window.texts(as_drawn).is_empty(), "and is compared");
    // then how it went
    window.reach_and_enter("Neck in the drops today", "2");
    let complaint = &session(&window).visits[1].complaints[0];
    assert_eq!((complaint.score, complaint.carried), (Some(2), false));
    let images = window.texts_of(Role::Image);
    let course =
        images.iter().find(|name| name.starts_with("Neck in the drops: 6 on 11 April 2026, 2 on "));
    assert!(course.is_some(), "{images:?}");
    // visit over visit: the table tells how far the hands came down
    let cells = window.texts_of(Role::Cell);
    let down =
        cells.iter().find(|name| name.starts_with("Hands up or down, ") && name.contains("down"));
    assert!(down.is_some(), "{cells:?}");
    // nothing of the first visit changed
    assert_eq!(session(&window).visits[0], start.visits[0]);
    // which can be looked at, and is closed
    let visits = window.texts_of(Role::Button);
    let which = visits.into_iter().find(|name| name.starts_with("Visit: ")).unwrap();
    window.press(Role::Button, &which);
    let listed = window.texts_of(Role::Button);
    let earlier = listed.into_iter().find(|name| name.ends_with("11 April 2026, closed")).unwrap();
    window.reach_and_press(Role::Button, &earlier);
    assert_eq!(window.desk().look().visit, 0);
    assert_eq!(window.texts("An earlier visit: nothing is changed here").len(), 1);
    let before = session(&window);
    window.reach_and_enter("axle to saddle top", "700");
    assert_eq!(session(&window), before);
    assert!(!window.texts("it was followed by the visit of").is_empty());
}

/// A follow-up closes the visit before it: what that leaves undone is said first, and one begun by mistake
/// is taken back.
#[test]
fn what_a_follow_up_closes_is_said_before_it_begins() {
    let mut window = Window::with(demo(), SIZE);
    let start = session(&window);
    let undecided = "Nothing is decided at this visit yet";
    // asked for by its name it leads to where that is said
    window.key(Modifiers::COMMAND.plus(Modifiers::SHIFT), Key::P);
    window.type_text("follow-up");
    window.key(Modifiers::NONE, Key::Enter);
    assert_eq!(window.desk().look().room, Room::Later);
    assert_eq!((window.texts(undecided).len(), session(&window) == start), (1, true));
    assert!(!window.has(Role::Button, "Begin a follow-up visit"));
    window.reach_and_press(Role::Button, "Decide first");
    assert_eq!(window.desk().look().room, Room::Decide);
    // while somebody rides there is no follow-up at all
    window.key(Modifiers::NONE, Key::F8);
    window.key(Modifiers::NONE, Key::T);
    window.key(Modifiers::NONE, Key::F10);
    assert_eq!(window.texts("A trial is running").len(), 1);
    assert!(window.texts_of(Role::Button).iter().all(|name| !name.contains("follow-up")));
    window.key(Modifiers::COMMAND, Key::Z);
    // begun all the same, and taken back
    window.reach_and_press(Role::Button, "Begin a follow-up all the same");
    assert_eq!((window.desk().look().visit, session(&window).visits.len()), (1, 2));
    window.reach_and_press(Role::Button, "Take this visit back");
    assert_eq!((window.desk().look().visit, session(&window) == start), (0, true));
    // once something was entered it stays
    window.reach_and_press(Role::Button, "Begin a follow-up all the same");
    window.reach_and_enter("Neck in the drops today", "5");
    assert!(!window.has(Role::Button, "Take this visit back"));
    // decided, one press begins it
    let mut window = Window::with(decided(), SIZE);
    window.key(Modifiers::NONE, Key::F10);
    assert!(window.texts(undecided).is_empty());
    window.reach_and_press(Role::Button, "Begin a follow-up visit");
    assert_eq!(session(&window).visits.len(), 2);
}

/// Two visits of one day have a number in the head, in the list of visits, and over their columns.
#[test]
fn visits_of_one_day_are_told_apart() {
    let day = demo().visits[0].date;
    let followed = Edit::FollowUp { visit: 0, date: day }.apply(&decided()).unwrap().0;
    let mut window = Window::with(followed, SIZE);
    let head = |window: &Window| -> Vec<String> {
        let all = window.texts_of(Role::Button).into_iter();
        all.filter(|name| name.starts_with("Visit: ")).collect()
    };
    let [second] = &head(&window)[..] else { panic!("{:?}", head(&window)) };
    assert!(second.ends_with(&format!("{day} (2)")), "{second}");
    window.press(Role::Button, second);
    let listed = window.texts_of(Role::Button);
    let first = listed.into_iter().find(|name| name.ends_with("11 April 2026 (1), closed"));
    window.press(Role::Button, &first.unwrap());
    assert!(head(&window)[0].ends_with(&format!("{day} (1)")));
    window.key(Modifiers::NONE, Key::F10);
    window.press(Role::Button, &head(&window)[0]);
    let listed = window.texts_of(Role::Button);
    let second = listed.into_iter().find(|name| name.ends_with("11 April 2026 (2)"));
    window.press(Role::Button, &second.unwrap());
    assert_eq!(window.texts("Compact 420, 11 April 2026 (1)").len(), 1);
    let cells = window.texts_of(Role::Cell);
    for column in [", 2026-04-11 (1): ", ", 2026-04-11 (2): "] {
        assert!(cells.iter().any(|name| name.contains(column)), "{column}: {cells:?}");
    }
}

/// A note that waits to be filled in is led to; a second one of the day has a number.
#[test]
fn no_second_empty_note_is_begun() {
    let mut window = Window::with(decided(), SIZE);
    window.key(Modifiers::NONE, Key::F10);
    let count = |window: &Window| window.desk().visit().unwrap().afterwards.len();
    for _ in 0..3 {
        window.key(Modifiers::NONE, Key::N);
        let at = window.focused().unwrap().name;
        assert!(at.starts_with("km ridden since, note of "), "{at}");
        assert_eq!(count(&window), 1);
        window.key(Modifiers::NONE, Key::Escape);
    }
    window.key(Modifiers::NONE, Key::N);
    window.type_text("310");
    window.key(Modifiers::NONE, Key::Enter);
    window.key(Modifiers::NONE, Key::Escape);
    window.key(Modifiers::NONE, Key::N);
    assert_eq!(count(&window), 2);
    let at = window.focused().unwrap().name;
    assert!(at.ends_with(" (2)"), "{at}");
    let fields = window.texts_of(Role::TextInput);
    let km: Vec<&String> =
        fields.iter().filter(|name| name.starts_with("km ridden since")).collect();
    assert!(km.len() == 2 && km[0].ends_with(" (2)") && km[1].ends_with(" (1)"), "{km:?}");
}

/// The same readings are asked for of the bike that comes back and of what is built: never of both at once.
#[test]
fn a_follow_up_asks_for_the_readings_that_are_due_and_says_whose_they_are() {
    let follow = Edit::FollowUp { visit: 0, date: "2026-07-11".parse().unwrap() };
    let mut followed = follow.apply(&decided()).unwrap().0;
    let later = |session: &Session| {
        let mut window = Window::with(session.clone(), SIZE);
        window.key(Modifiers::NONE, Key::F10);
        window
    };
    let window = later(&followed);
    let fields = |window: &Window| -> Vec<String> {
        let all = window.texts_of(Role::TextInput).into_iter();
        all.filter(|name| name.contains("axle to saddle top")).collect()
    };
    assert_eq!(fields(&window), ["axle to saddle top"]);
    assert!(window.has(Role::Label, "Compact 420, 11 April 2026"), "of what was left then");
    assert_eq!(window.texts("What is chosen at this visit is read back here").len(), 1);
    // another bar is chosen: it is built, and read back
    let came = window.desk().visit().unwrap().as_it_came.clone();
    let other = Cockpit { spacers_mm: came.spacers_mm + 5.0, ..came.with_name("up", "Up") };
    for edit in [
        Edit::Add { visit: 1, cockpit: Box::new(other) },
        Edit::Choose { visit: 1, id: Some("up".into()) },
    ] {
        followed = edit.apply(&followed).unwrap().0;
    }
    let mut window = later(&followed);
    assert_eq!(fields(&window), ["As it was built: axle to saddle top"]);
    assert!(window.has(Role::Label, "Up, 11 July 2026"));
    assert!(window.texts("What is chosen at this visit").is_empty());
    // what was read when it came is still to be found
    window.press(Role::DisclosureTriangle, "Is it as it was left?");
    assert_eq!(fields(&window).len(), 2);
}

/// No field of what is read back hangs under its name.
#[test]
fn each_reading_stands_beside_its_name() {
    let mut window = Window::demo();
    window.key(Modifiers::NONE, Key::F10);
    for item in [TapeItem::SaddleHeight, TapeItem::LeverFromEnd] {
        let name = English.quantity(Quantity::Tape(item));
        let field = window.the(Role::TextInput, name).rect();
        let shown = window.the(Role::Label, name).rect();
        assert!(shown.y_range().contains(field.center().y), "{name}: {shown:?} {field:?}");
        assert!(shown.right() < field.left(), "{name}: {shown:?} {field:?}");
    }
}

/// Who was sent on in spring is asked in summer whether somebody looked at it.
#[test]
fn where_a_client_was_sent_at_the_visit_before_is_asked_after() {
    let mut session = decided();
    let visit = Arc::make_mut(&mut session.visits[0]);
    visit.interview.red_flags = vec![SendOn::RED_FLAGS[1], SendOn::RED_FLAGS[3]];
    let [first, second] = [1, 3].map(|at| English.red_flag(SendOn::RED_FLAGS[at]));
    let mut window = Window::with(session, SIZE);
    window.key(Modifiers::NONE, Key::F10);
    window.reach_and_press(Role::Button, "Begin a follow-up visit");
    window.key(Modifiers::NONE, Key::F5);
    let said = |window: &Window| window.texts("Sent on at the visit of 11 April 2026");
    let both = said(&window);
    assert!(both.len() == 1 && both[0].contains(&format!("{first}; {second}.")), "{both:?}");
    // what is told again sends on again
    window.reach_and_press(Role::RadioButton, first);
    let left = said(&window);
    assert!(left.len() == 1 && left[0].contains(second) && !left[0].contains(first), "{left:?}");
    // the visit at which it was told says it as it did
    window.key(Modifiers::NONE, Key::F10);
    assert!(said(&window).is_empty());
}

/// Where a client is sent stands in one line in every place where something is measured or asked.
#[test]
fn a_red_flag_is_seen_in_one_line_wherever_readings_are_taken() {
    let mut session = decided();
    let visit = Arc::make_mut(&mut session.visits[0]);
    visit.interview.red_flags = SendOn::RED_FLAGS.to_vec();
    let mut window = Window::with(session, SIZE);
    let stops = SendOn::RED_FLAGS.into_iter().find(|of| of.stops()).unwrap();
    for key in [Key::F6, Key::F7, Key::F10] {
        window.key(Modifiers::NONE, key);
        let heard = window.heard();
        let mut said = heard.iter().filter(|of| of.name.starts_with(English.send_on(stops)));
        let said = said.next().unwrap_or_else(|| panic!("{key:?}"));
        assert!(said.place.height() < 30.0, "{key:?}: {:?}", said.place);
        assert!(said.name.contains(English.send_on(SendOn::RED_FLAGS[3])), "{}", said.name);
    }
}
