//! Anything pressed, typed, pulled and scrolled, in any order: no panic, a session that is always
//! one that could be opened, and undo that always leads back to the start.
//!
//! Events come from a seed, so that what fails fails again. `BARWRIGHT_EVENTS` and
//! `BARWRIGHT_SEED` change how many there are and which; before a release it is 100 000.

use acceptance::window::{Heard, Window};
use egui::accesskit::Role;
use egui::{Event, Key, Modifiers, MouseWheelUnit, Pos2, pos2, vec2};
use fit_desk::{ForClient, Look, Room, Saying};
use fit_doc::edit::AfterStep;
use fit_doc::{HandPlace, Session, UndoStep};
use fit_math::body::Survey;
use fit_view::act::Act;
use fit_view::weigh::weigh_visit;
use fit_view::words::{English, Words};
use std::collections::BTreeMap;

/// Input events of the ordinary suite.
const EVENTS: usize = 20_000;
/// From so many on, everything that can be done must have been done.
const ENOUGH: usize = 10_000;
/// Least share of what was done that must have changed something.
const SHARE: f64 = 0.6;
/// Undo is followed back to the start after so many things done.
const BACK_EVERY: usize = 300;

/// Numbers from a seed (`SplitMix64`, Steele, Lea and Flood 2014).
struct Seeded {
    state: u64,
    turn: usize,
}

impl Seeded {
    fn next(&mut self) -> u64 {
        self.state = self.state.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let z = (self.state ^ (self.state >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        let z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        z ^ (z >> 31)
    }

    fn below(&mut self, count: usize) -> usize {
        usize::try_from(self.next() % count as u64).unwrap()
    }

    fn of<T: Copy>(&mut self, all: &[T]) -> T {
        all[self.below(all.len())]
    }

    /// All in turn, so that none is left to luck.
    fn act_in_turn(&mut self) -> Act {
        self.turn += 1;
        Act::ALL[self.turn % Act::ALL.len()]
    }

    fn within(&mut self, most: f32) -> f32 {
        self.below(1000) as f32 / 1000.0 * most
    }
}

const TEXTS: [&str; 18] = [
    "1",
    "100",
    "412",
    "90.5",
    "+5",
    "-3",
    "41,2 cm",
    "100+10-5",
    "4l2",
    "",
    "NaN",
    "5'9\"",
    "16 1/4 in",
    "flared",
    "1e9",
    "Anna",
    "2",
    "ergo 420",
];

const KEYS: [Key; 12] = [
    Key::Tab,
    Key::Tab,
    Key::Enter,
    Key::Space,
    Key::Escape,
    Key::Backspace,
    Key::ArrowUp,
    Key::ArrowDown,
    Key::ArrowLeft,
    Key::ArrowRight,
    Key::PageDown,
    Key::Home,
];

/// What a person would notice.
#[derive(PartialEq)]
struct Noticed {
    heard: Vec<Heard>,
    focused: Option<Heard>,
    zoom: f32,
}

fn noticed(window: &mut Window) -> Noticed {
    let zoom = window.harness().ctx.zoom_factor();
    Noticed { heard: window.heard(), focused: window.focused(), zoom }
}

/// The desktop's own dialog is another program; it is not opened.
fn leads_out(heard: &Heard) -> bool {
    heard.name == "Browse…"
}

/// One thing done; how many input events it was.
fn something(window: &mut Window, seeded: &mut Seeded, before: &Noticed) -> usize {
    let works: Vec<&Heard> = before.heard.iter().filter(|h| h.works && !leads_out(h)).collect();
    // nothing else goes on while this is asked
    let given_up = works.iter().find(|h| h.name == "Go on without saving");
    if let Some(answer) = given_up.filter(|_| seeded.below(2) == 0) {
        let events = window.press_events(answer.place.center());
        window.settle();
        return events;
    }
    // what was undone can be done again only until the next change
    if window.desk().can_redo().is_some() && seeded.below(8) == 0 {
        let modifiers = Modifiers::COMMAND.plus(Modifiers::SHIFT);
        window.harness().key_press_modifiers(modifiers, Key::Z);
        window.settle();
        return 2;
    }
    let events = match seeded.below(22) {
        0..=8 if !works.is_empty() => {
            let at = seeded.of(&works).place.center();
            window.press_events(at)
        }
        9..=11 => stroke(window, seeded, before),
        12 => {
            let key = seeded.of(&KEYS);
            let out = before.focused.as_ref().is_some_and(leads_out);
            let key = if out { Key::Escape } else { key };
            let modifiers = seeded.of(&[Modifiers::NONE, Modifiers::SHIFT, Modifiers::ALT]);
            window.harness().key_press_modifiers(modifiers, key);
            2
        }
        13..=15 => {
            let fields: Vec<&Heard> =
                works.iter().copied().filter(|h| h.role == Role::TextInput).collect();
            let mut count = 0;
            if !fields.is_empty() {
                count += window.press_events(seeded.of(&fields).place.center());
                window.harness().key_press_modifiers(Modifiers::COMMAND, Key::A);
                count += 2;
            }
            window.harness().event(Event::Text(seeded.of(&TEXTS).to_owned()));
            if seeded.below(3) > 0 {
                window.harness().key_press(Key::Enter);
                count += 2;
            }
            count + 1
        }
        16..=17 => {
            let handles: Vec<&Heard> =
                works.iter().copied().filter(|h| h.role == Role::Slider).collect();
            let from = if handles.is_empty() {
                anywhere(window, seeded)
            } else {
                seeded.of(&handles).place.center()
            };
            let by = vec2(seeded.within(160.0) - 80.0, seeded.within(160.0) - 80.0);
            window.pull_events(from, from + by)
        }
        18 => {
            let at = anywhere(window, seeded);
            window.harness().hover_at(at);
            let delta = vec2(0.0, seeded.within(400.0) - 200.0);
            let (unit, phase) = (MouseWheelUnit::Point, egui::TouchPhase::Move);
            let (source, modifiers) = (egui::MouseWheelSource::Wheel, Modifiers::NONE);
            window.harness().event(Event::MouseWheel { unit, delta, phase, source, modifiers });
            2
        }
        19..=20 => {
            // by its name: everything can be found there
            let act = seeded.act_in_turn();
            window.harness().key_press_modifiers(Modifiers::COMMAND.plus(Modifiers::SHIFT), Key::P);
            window.harness().event(Event::Text(English.act(act)));
            window.harness().key_press(Key::Enter);
            5
        }
        _ => {
            let at = anywhere(window, seeded);
            let out = before.heard.iter().any(|h| leads_out(h) && h.place.expand(4.0).contains(at));
            if out { 0 } else { window.press_events(at) }
        }
    };
    window.settle();
    events
}

/// A key that does something, more often those that begin something than those that end it.
fn stroke(window: &mut Window, seeded: &mut Seeded, before: &Noticed) -> usize {
    // mostly one that can be done now: people press what is not greyed
    let mut act = Act::ALL[seeded.below(Act::ALL.len())];
    for _ in 0..2 {
        if !window.desk().enabled(act) || act.strokes().is_empty() {
            act = Act::ALL[seeded.below(Act::ALL.len())];
        }
    }
    match act.strokes().first() {
        Some(stroke) => {
            let mut modifiers = Modifiers::NONE;
            if stroke.command {
                modifiers = modifiers.plus(Modifiers::COMMAND);
            }
            if stroke.shift {
                modifiers = modifiers.plus(Modifiers::SHIFT);
            }
            window.harness().key_press_modifiers(modifiers, Key::from_name(stroke.key).unwrap());
            2
        }
        // without a key: a press of something that has it in its name
        None => match before.heard.iter().find(|h| h.works && h.role == Role::ComboBox) {
            Some(heard) => window.press_events(heard.place.center()),
            None => 0,
        },
    }
}

fn anywhere(window: &mut Window, seeded: &mut Seeded) -> Pos2 {
    let size = window.harness().ctx.content_rect().size();
    pos2(seeded.within(size.x), seeded.within(size.y))
}

/// What was done, as far as it shows.
fn acts(from: &(Look, Noticed), window: &Window, now: &Noticed) -> Vec<Act> {
    let (before, look) = (&from.0, window.desk().look());
    let mut acts = Vec::new();
    if before.room != look.room {
        acts.push(match look.room {
            Room::Who => Act::Who,
            Room::Body => Act::Body,
            Room::Bike => Act::Bike,
            Room::Bench => Act::Bench,
            Room::Later => Act::Later,
            Room::Decide => Act::Decide,
        });
    }
    if before.hands != look.hands {
        acts.push(Act::Hands(look.hands));
    }
    if before.hold != look.hold {
        acts.push(Act::Hold(look.hold));
    }
    if before.all_hands != look.all_hands {
        acts.push(Act::AllHands);
    }
    if before.sight != look.sight {
        acts.push(Act::Sight(look.sight));
    }
    if before.measures != look.measures {
        acts.push(Act::Measures);
    }
    if before.ruler != look.ruler {
        acts.push(Act::Ruler);
    }
    if from.0.behind != look.behind {
        acts.push(Act::Behind);
    }
    if before.against_trial != look.against_trial {
        acts.push(Act::AgainstTrial);
    }
    if before.for_client != look.for_client {
        match look.for_client {
            ForClient::Here => acts.push(Act::ClientView),
            ForClient::Beside => acts.push(Act::ClientBeside),
            ForClient::Not => {}
        }
    }
    let at_trials = |of: &Noticed| {
        of.focused.as_ref().is_some_and(|heard| heard.name.starts_with("back to trial"))
    };
    if at_trials(now) && !at_trials(&from.1) {
        acts.push(Act::Trials);
    }
    if before.theme != look.theme {
        acts.push(Act::SwitchTheme);
    }
    if from.1.zoom != now.zoom {
        acts.push(match now.zoom {
            1.0 => Act::UsualSize,
            zoom if zoom > from.1.zoom => Act::Larger,
            _ => Act::Smaller,
        });
    }
    let new = |role: Role, name: &str| {
        let is = |h: &Heard| h.role == role && h.name == name;
        now.heard.iter().any(is) && !from.1.heard.iter().any(is)
    };
    for (act, role, name) in [
        (Act::Open, Role::Label, "Open a session"),
        (Act::SaveAs, Role::Label, "Save the session"),
        (Act::AddBar, Role::Label, "Bars in stock"),
        (Act::Palette, Role::Label, "What do you want to do?"),
        (Act::Keys, Role::Label, "Keys"),
        (Act::Close, Role::Label, "Save the changes first?"),
    ] {
        if new(role, name) {
            acts.push(act);
        }
    }
    for told in window.desk().told() {
        match &told.text {
            Saying::Undone(_) => acts.push(Act::Undo),
            Saying::Redone(_) => acts.push(Act::Redo),
            Saying::Saved(_) => acts.push(Act::Save),
            Saying::Worded(text) => acts.extend(is_of_sheet(text).then_some(Act::Paper)),
            Saying::Matched { place: HandPlace::Drops, .. } => acts.push(Act::MatchDrops),
            Saying::Matched { .. } => acts.push(Act::MatchHoods),
            _ => {}
        }
    }
    match window.desk().can_undo() {
        Some(UndoStep::Remove { .. }) => acts.push(Act::Remove),
        Some(UndoStep::Bar { .. }) => acts.push(Act::OtherBar),
        Some(UndoStep::Add { .. }) => acts.push(Act::Duplicate),
        Some(UndoStep::RideBegun { .. }) => acts.push(Act::Trial),
        Some(UndoStep::RideEnded { .. }) => acts.push(Act::EndTrial),
        Some(UndoStep::FollowUp { .. }) => acts.push(Act::FollowUp),
        Some(UndoStep::After { change: AfterStep::Added, .. }) => acts.push(Act::AfterNote),
        _ => {}
    }
    if from.0.room != Room::Who && look.room == Room::Who && window.desk().file().is_none() {
        acts.push(Act::New);
    }
    acts
}

/// Whether a text says where a client sheet is; then one must be there.
fn is_of_sheet(text: &str) -> bool {
    let Some(path) = text.strip_prefix(&English.sheet_written("")) else { return false };
    let sheet = std::fs::read(path).unwrap_or_else(|error| panic!("{path}: {error}"));
    assert!(sheet.starts_with(b"%PDF-"), "{path} is no sheet");
    true
}

/// Undo and redo lead to the start and back, whatever was done.
fn to_the_start_and_back(window: &mut Window, start: &Session) {
    let mut desk = window.desk().clone();
    while desk.can_redo().is_some() {
        desk.apply(fit_desk::Command::Redo);
    }
    let end = desk.session().clone();
    let mut steps = 0;
    while desk.can_undo().is_some() {
        desk.apply(fit_desk::Command::Undo);
        steps += 1;
    }
    assert_eq!(desk.session(), start, "{steps} steps back");
    for _ in 0..steps {
        desk.apply(fit_desk::Command::Redo);
    }
    assert_eq!(desk.session(), &end, "{steps} steps forward");
}

#[test]
fn anything_in_any_order() {
    let number = |name: &str, usual: u64| {
        std::env::var(name).ok().map_or(usual, |text| text.parse().unwrap())
    };
    let wanted = usize::try_from(number("BARWRIGHT_EVENTS", EVENTS as u64)).unwrap();
    let mut seeded = Seeded { state: number("BARWRIGHT_SEED", 7), turn: 0 };
    let survey = Survey::shipped().unwrap();
    let mut window = Window::demo();
    // files are saved by names without a folder, and sheets beside them: they land here
    std::env::set_current_dir(window.folder()).unwrap();
    let file = window.copy_of("demo");
    window.open(&file);

    let mut start = window.desk().session().clone();
    let (mut events, mut done, mut changed) = (0, 0_usize, 0_usize);
    let mut hit: BTreeMap<Act, usize> = BTreeMap::new();
    let mut before = noticed(&mut window);
    while events < wanted {
        let (look, revision) = (window.desk().look().clone(), window.desk().revision());
        events += something(&mut window, &mut seeded, &before);
        let now = noticed(&mut window);
        done += 1;
        let desk = window.desk();
        if desk.revision() != revision {
            let refused = fit_doc::check(desk.session()).refused;
            assert!(refused.is_empty(), "after {done}: {refused:?}");
            // what was taken over from the bench before is what it would be now
            if let Some(visit) = desk.visit() {
                let afresh = weigh_visit(desk.session(), visit, &survey).unwrap();
                assert_eq!(*desk.weighed(), afresh, "after {done}: another bench is shown");
            }
        }
        if desk.can_undo().is_none() {
            if desk.can_redo().is_some() {
                assert_eq!(desk.session(), &start, "after {done}: undone all the way");
            } else if *desk.session() != start {
                // only a session that was opened or begun anew is another without a step
                assert!(!desk.modified(), "after {done}: a change without a step");
                start = desk.session().clone();
            }
        }
        changed += usize::from(now != before || desk.revision() != revision);
        let from = (look, before);
        for act in acts(&from, &window, &now) {
            *hit.entry(act).or_default() += 1;
        }
        if done % BACK_EVERY == 0 {
            to_the_start_and_back(&mut window, &start);
        }
        before = now;
    }
    to_the_start_and_back(&mut window, &start);
    let share = changed as f64 / done as f64;
    println!("{events} events, {done} things done, {:.1} % changed something", 100.0 * share);
    for (act, times) in &hit {
        println!("{times:>7} {act:?}");
    }
    assert!(share >= SHARE, "too much of it did nothing");
    let missed: Vec<Act> = Act::ALL.into_iter().filter(|act| !hit.contains_key(act)).collect();
    println!("not seen: {missed:?}");
    assert!(missed.is_empty() || wanted < ENOUGH, "never done: {missed:?}");
}
