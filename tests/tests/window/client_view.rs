//! The client's view: what it shows, what never appears in it, and how it is come to and left.

use acceptance::root;
use acceptance::window::{SIZE, Window, sure};
use egui::accesskit::Role;
use egui::{Key, Modifiers, ViewportCommand};
use fit_desk::{ForClient, Room};
use fit_doc::{CockpitEdit, Edit, HandPlace, Quantity, Session};
use fit_view::words::{Caption, English, Words};
use std::sync::Arc;

/// Everything that can be heard of the view.
fn heard(window: &Window) -> Vec<String> {
    let all = window.heard().into_iter().filter(|heard| heard.role != Role::TextRun);
    all.flat_map(|h| [Some(h.name.clone()), h.value.filter(|value| *value != h.name)])
        .flatten()
        .filter(|text| !text.is_empty())
        .collect()
}

fn session(name: &str) -> Session {
    let path = root().join(format!("sessions/{name}.session.ron"));
    fit_file::open(&path).unwrap().session
}

/// The first candidate on a bike that is far too long, with the longest stem.
fn far_away(session: &Session) -> Session {
    let visit = session.visits.len() - 1;
    let id = session.visits[visit].bench[0].id.clone();
    let most = |quantity: Quantity| quantity.range().refuse.1;
    let quantity = Quantity::StemLength;
    let change = CockpitEdit::Number { quantity, to: quantity.range().refuse.1 };
    let (session, _) = Edit::Cockpit { visit, id, change }.apply(session).unwrap();
    let (bike, quantity) = (session.visits[visit].bike.clone(), Quantity::FrameReach);
    Edit::Frame { bike, quantity, to: most(quantity) }.apply(&session).unwrap().0
}

/// A child that was measured too little to be weighed, and one that was measured.
fn children() -> [Session; 2] {
    let mut little = session("demo");
    let year = little.visits.last().unwrap().date.year();
    little.client.born = Some(year - 11);
    let measured = little.clone();
    let visit = Arc::make_mut(little.visits.last_mut().unwrap());
    visit.body.truncate(1);
    [little, measured]
}

#[test]
fn it_shows_the_selected_cockpit_and_says_three_plain_sentences() {
    let mut window = Window::demo();
    window.key(Modifiers::NONE, Key::F11);
    assert_eq!(window.desk().look().for_client, ForClient::Here);
    assert!(window.asked_of_frame().contains(&ViewportCommand::Fullscreen(true)));
    assert!(window.has(Role::Image, "You on Compact 420, and your bike as it came"));
    let said: Vec<String> =
        window.texts_of(Role::Label).into_iter().filter(|text| text.ends_with('.')).collect();
    assert!(said.len() <= 3, "{said:?}");
    assert!(said[0].starts_with("Your hands, in the drops, are "), "{said:?}");
    assert_eq!(said.last().unwrap(), "Ride it and say how it feels.");
    // nothing of the workbench is left
    assert!(window.texts_of(Role::Cell).is_empty() && window.texts_of(Role::TextInput).is_empty());
    window.key(Modifiers::NONE, Key::Escape);
    assert_eq!(window.desk().look().for_client, ForClient::Not);
    assert!(window.asked_of_frame().contains(&ViewportCommand::Fullscreen(false)));
    assert!(!window.texts_of(Role::Cell).is_empty());
}

/// What is told agrees with what stands in the fitter's table.
#[test]
fn it_tells_what_the_table_tells() {
    let mut window = Window::demo();
    for key in [Key::Num3, Key::Num4] {
        window.key(Modifiers::NONE, key);
        let up = window.cell("Hands up or down", "Compact 420");
        let along = window.cell("Hands forward or back", "Compact 420");
        let trunk = window.cell("Trunk above level", "Compact 420");
        let brake = window.cell("Brake reach to spare", "Compact 420");
        window.key(Modifiers::NONE, Key::F11);
        let said = window.texts("Your hands").concat();
        for (cell, more, less) in [(up, " up", " down"), (along, " forward", " back")] {
            let (cell, tells) = sure(&cell);
            let amount = cell.trim_end_matches(more).trim_end_matches(less);
            assert_eq!(said.contains(amount), tells && cell != "same", "{cell}: {said}");
        }
        assert_eq!(
            window.texts("You sit").len() + window.texts("You lean").len(),
            usize::from(!trunk.contains("same")),
            "{trunk}"
        );
        let (change, tells) = sure(&brake);
        let told = tells && !change.contains("same");
        assert_eq!(window.texts("brake lever is ").len(), usize::from(told), "{brake}");
        window.key(Modifiers::NONE, Key::F11);
    }
}

#[test]
fn it_follows_hands_and_selection_live() {
    let mut window = Window::demo();
    window.key(Modifiers::NONE, Key::F11);
    window.key(Modifiers::NONE, Key::Num3);
    assert_eq!(window.desk().look().hands, HandPlace::Hoods);
    assert_eq!(window.texts("Hands on the hoods").len(), 1);
    window.key(Modifiers::NONE, Key::ArrowRight);
    assert!(window.has(Role::Image, "You on Flared 440, and your bike as it came"));
    window.press(Role::Button, "the cockpit before");
    window.press(Role::Button, "the cockpit before");
    assert!(window.has(Role::Image, "You on your bike as it came"));
    assert_eq!(window.texts("This is your bike as it came.").len(), 1);
    // what changes something that nobody sees is not done
    let before = window.desk().session().clone();
    window.key(Modifiers::NONE, Key::Delete);
    window.key(Modifiers::NONE, Key::T);
    window.key(Modifiers::COMMAND, Key::D);
    assert_eq!(window.desk().session(), &before);
    // a place of work leads back to it
    window.key(Modifiers::NONE, Key::F6);
    assert_eq!(window.desk().look().for_client, ForClient::Not);
    assert!(window.texts_of(Role::TextInput).len() > 5);
}

/// Where no second window can be opened, it comes in this one.
#[test]
fn a_second_screen_falls_back_to_this_window() {
    let mut window = Window::demo();
    window.menu("View for the client on a second screen");
    assert_eq!(window.desk().look().for_client, ForClient::Beside);
    assert!(window.has(Role::Image, "You on Compact 420, and your bike as it came"));
    window.press(Role::Button, "Back");
    assert_eq!(window.desk().look().for_client, ForClient::Not);
}

/// What would open over it waits until it is left, and Escape then closes what is topmost and no more.
#[test]
fn a_save_without_a_file_waits_until_the_view_is_left() {
    let mut window = Window::demo();
    let has_path =
        |window: &Window| window.has(Role::TextInput, English.caption(Caption::PathField));
    window.key(Modifiers::NONE, Key::F11);
    let before = window.painted_texts();
    window.key(Modifiers::COMMAND, Key::S);
    assert_eq!(window.desk().look().for_client, ForClient::Here);
    assert!(window.texts_of(Role::TextInput).is_empty());
    assert_eq!(window.painted_texts(), before, "nothing of it is seen either");
    // it is worked on as before
    window.key(Modifiers::NONE, Key::Num3);
    assert_eq!(window.desk().look().hands, HandPlace::Hoods);
    window.key(Modifiers::NONE, Key::ArrowRight);
    assert!(window.has(Role::Image, "You on Flared 440, and your bike as it came"));
    window.key(Modifiers::NONE, Key::Escape);
    assert_eq!(window.desk().look().for_client, ForClient::Not);
    assert!(has_path(&window), "where to is asked now");
    window.key(Modifiers::NONE, Key::Escape);
    assert!(!has_path(&window));
    assert!(!window.texts_of(Role::Cell).is_empty(), "the bench is left as it was");
    // asked for again and answered it is saved
    let file = window.folder().join("waited.session.ron");
    window.key(Modifiers::NONE, Key::F11);
    window.key(Modifiers::COMMAND, Key::S);
    window.key(Modifiers::NONE, Key::F8);
    assert!(has_path(&window));
    window.path(&file);
    window.settle();
    assert_eq!(window.desk().file(), Some(file.as_path()));
}

/// By its keys and by the window's own button: whether to save first is asked over the workbench.
#[test]
fn closing_asks_after_the_view_is_left() {
    for by_button in [false, true] {
        let mut window = Window::demo();
        window.key(Modifiers::COMMAND, Key::D);
        assert!(window.desk().modified());
        window.key(Modifiers::NONE, Key::F11);
        if by_button {
            window.close_button();
        } else {
            window.key(Modifiers::COMMAND, Key::Q);
        }
        window.settle();
        assert!(!window.closes());
        assert_eq!(window.desk().look().for_client, ForClient::Not);
        assert!(window.desk().question());
        assert_eq!(window.texts(English.caption(Caption::SaveFirst)).len(), 1);
    }
}

#[test]
fn the_key_of_every_place_of_work_leads_back_to_it() {
    for (key, room) in [
        (Key::F5, Room::Who),
        (Key::F6, Room::Body),
        (Key::F7, Room::Bike),
        (Key::F8, Room::Bench),
        (Key::F9, Room::Decide),
        (Key::F10, Room::Later),
    ] {
        let mut window = Window::demo();
        window.key(Modifiers::NONE, Key::F11);
        window.key(Modifiers::NONE, key);
        let look = window.desk().look();
        assert_eq!((look.for_client, look.room), (ForClient::Not, room), "{key:?}");
    }
}

/// What is not for the client, in letters small.
const NEVER: [&str; 22] = [
    "out of reach",
    "short",
    "kg",
    "±",
    "reserve",
    "limit",
    "past",
    "of 10",
    "born",
    "year",
    "inseam",
    "stature",
    "cm",
    "percentile",
    "usual",
    "average",
    "complain",
    "neck",
    "weight",
    "score",
    "sure?",
    "doubt",
];

/// Nothing of a text is what is never said, or one of the words that others said; what a cockpit is
/// called is the fitter's own word.
#[track_caller]
fn is_for_the_client(text: &str, cockpits: &[String], others: &[String]) {
    let lower = text.to_lowercase();
    let said = cockpits.iter().fold(lower, |text, label| text.replace(&label.to_lowercase(), ""));
    assert!(!NEVER.iter().any(|word| said.contains(word)), "{text}");
    assert!(!others.iter().any(|word| text.contains(word)), "{text}");
}

/// Over clients, cockpits, hand places and both themes, one who cannot reach and children among them:
/// neither in what is heard nor in what is painted.
#[test]
fn nothing_appears_that_is_not_for_the_client() {
    let sessions = ["demo", "small-hands", "stiff-neck"].map(session);
    let all = sessions.into_iter().chain([far_away(&session("small-hands"))]).chain(children());
    let all =
        all.flat_map(|of| [egui::Theme::Light, egui::Theme::Dark].map(|as_| (of.clone(), as_)));
    let (mut views, mut unreached, mut silent, mut painted) = (0, 0, 0, 0);
    for (session, theme) in all {
        let mut window = Window::with(session, SIZE);
        window.harness().ctx.set_theme(theme);
        let others: Vec<String> = {
            let visit = window.desk().visit().unwrap();
            let own = |text: &String| !text.trim().is_empty();
            let words = visit.complaints.iter().map(|of| of.words.clone());
            let client = [window.desk().session().client.name.clone(), visit.notes.clone()];
            words.chain(visit.wishes.clone()).chain(client).filter(own).collect()
        };
        let cockpits: Vec<String> =
            window.desk().weighed().cockpits.iter().map(|of| of.label.clone()).collect();
        window.key(Modifiers::NONE, Key::F11);
        assert_eq!(window.harness().ctx.theme(), theme);
        for _ in &cockpits {
            window.key(Modifiers::NONE, Key::ArrowLeft);
        }
        for label in &cockpits {
            for key in [Key::Num1, Key::Num2, Key::Num3, Key::Num4, Key::Num5, Key::Num6] {
                window.key(Modifiers::NONE, key);
                let desk = window.desk();
                let of = desk.weighed().cockpits.iter().find(|of| of.label == *label).unwrap();
                match of.places.get(&desk.look().hands) {
                    Some(at) => unreached += usize::from(!at.is_reached()),
                    None => silent += 1,
                }
                let (heard, seen) = (heard(&window), window.painted_texts());
                for text in heard.iter().chain(&seen) {
                    is_for_the_client(text, &cockpits, &others);
                }
                let sentences = |of: &[String]| of.iter().filter(|of| of.ends_with('.')).count();
                assert!((1..=3).contains(&sentences(&heard)), "{heard:?}");
                assert_eq!(sentences(&seen), sentences(&heard), "{seen:?}");
                views += 1;
                painted += seen.len();
            }
            window.key(Modifiers::NONE, Key::ArrowRight);
        }
    }
    println!(
        "{views} views, {painted} texts, {unreached} out of reach, {silent} without a posture"
    );
    assert!(views > 160 && unreached > 0 && silent > 0, "{views} {unreached} {silent}");
    assert!(painted > 4 * views, "{painted} texts in {views} views");
}

/// Nothing is drawn in the colour of what cannot be.
#[test]
fn nothing_is_red_where_the_hands_do_not_reach() {
    use fit_view::scene::{Ink, Theme};
    let far_away = far_away(&session("small-hands"));
    let first = far_away.visits.last().unwrap().bench[0].label.clone();
    let mut window = Window::with(far_away, SIZE);
    window.press(Role::RadioButton, &first);
    window.key(Modifiers::NONE, Key::F11);
    let keys = [Key::Num1, Key::Num2, Key::Num3, Key::Num4, Key::Num5];
    let reaches = |window: &mut Window, key| {
        window.key(Modifiers::NONE, key);
        let (weighed, look) = (window.desk().weighed(), window.desk().look());
        let of = weighed.cockpits.iter().find(|of| of.id == look.selected).unwrap();
        of.places[&look.hands].is_reached()
    };
    let cockpits = window.desk().weighed().cockpits.len();
    for _ in 0..cockpits {
        window.key(Modifiers::NONE, Key::ArrowLeft);
    }
    // from one cockpit to the next until the hands do not get somewhere
    let mut far = false;
    for at in 0..cockpits {
        if at > 0 && !far {
            window.key(Modifiers::NONE, Key::ArrowRight);
        }
        far = far || keys.into_iter().any(|key| !reaches(&mut window, key));
    }
    assert!(far, "something is out of reach");
    let red = Theme::Light.colour(Ink::Refuse);
    let red = egui::Color32::from_rgb(red.0, red.1, red.2);
    assert!(!window.picture().pixels.contains(&red));
}

/// Shown and left alone it asks for no further frame.
#[test]
fn it_rests_while_nothing_happens() {
    let mut window = Window::demo();
    window.key(Modifiers::NONE, Key::F11);
    let ctx = window.harness().ctx.clone();
    window.harness().step();
    assert!(!ctx.has_requested_repaint());
}

/// A file let go of over the view opens nothing before the client, neither itself nor a question; once the
/// view is left it is opened, or asked about where something is not saved.
#[test]
fn a_file_dropped_on_the_view_waits_until_it_is_left() {
    for modified in [false, true] {
        let mut window = Window::demo();
        let file = window.copy_of("stiff-neck");
        if modified {
            window.key(Modifiers::COMMAND, Key::D);
        }
        let before = window.desk().session().clone();
        window.key(Modifiers::NONE, Key::F11);
        let seen = heard(&window);
        window.drop_file(&file);
        assert_eq!(heard(&window), seen, "nothing else is before the client");
        assert_eq!(window.desk().look().for_client, ForClient::Here);
        assert_eq!(*window.desk().session(), before);
        window.key(Modifiers::NONE, Key::Escape);
        if modified {
            assert!(window.desk().question());
            assert_eq!(*window.desk().session(), before, "asked first");
            window.press(Role::Button, "Go on without saving");
        }
        assert_eq!(window.desk().file(), Some(&*file), "modified: {modified}");
        assert_ne!(*window.desk().session(), before);
        assert_eq!(window.desk().look().for_client, ForClient::Not);
    }
}
