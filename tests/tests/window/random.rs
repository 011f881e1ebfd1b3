//! Anything pressed, typed, pulled and scrolled, in any order: no panic, a session that is always
//! one that could be opened, and undo that always leads back to the start.
//!
//! What changed something is counted: the document, what is selected, the place of work, or what is
//! shown there and can be read. Where the keyboard is, how large everything is, what is scrolled to,
//! what is half typed and what only the pointer shows is no change. A command counts as done by its own
//! effect alone, in the moment of it: a candidate like the one before, not any candidate.
//!
//! Events come from a seed, so that what fails fails again. `BARWRIGHT_EVENTS` and
//! `BARWRIGHT_SEED` change how many there are and which; before a release it is 100 000.

use acceptance::kinds::{CockpitKind, EditKind, Kind, TapeKind};
use acceptance::window::{Heard, Window};
use egui::accesskit::Role;
use egui::{Event, Key, Modifiers, MouseWheelUnit, Pos2, pos2, vec2};
use fit_desk::{Desk, ForClient, Look, Revision, Room, Saying, Sought, Told};
use fit_doc::edit::{AfterStep, CHANGED};
use fit_doc::{Cockpit, HandPlace, Session, UndoStep};
use fit_math::body::Survey;
use fit_view::act::Act;
use fit_view::weigh::weigh_visit;
use fit_view::words::{English, Words};
use std::collections::{BTreeMap, BTreeSet, VecDeque};
use std::path::{Path, PathBuf};
use std::sync::Arc;

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
    /// Everything that can be done, what was asked for longest ago first.
    turn: VecDeque<Act>,
    /// What was not done yet.
    missing: BTreeSet<Act>,
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

    /// All in turn, so that none is left to luck: what is so already waits until it is not, and what
    /// was never done comes as soon as it can be.
    fn act_in_turn(&mut self, desk: &Desk) -> Act {
        let new = |act: &Act| {
            self.missing.contains(act) && desk.enabled(*act) && !is_so(*act, desk.look())
        };
        let other = |act: &Act| !is_so(*act, desk.look());
        let next = self.turn.iter().position(new).or_else(|| self.turn.iter().position(other));
        let next = next.unwrap();
        let act = self.turn.remove(next).unwrap();
        self.turn.push_back(act);
        act
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

/// What can be heard, and where the keyboard is.
struct Noticed {
    heard: Vec<Heard>,
    focused: Option<Heard>,
}

impl Noticed {
    fn of(window: &Window) -> Self {
        Self { heard: window.heard(), focused: window.focused() }
    }

    /// What is shown to be read: roles, names and values, wherever they are; not what is half typed.
    fn shown(&self) -> Vec<(Role, &str, Option<&str>)> {
        let shown = self.heard.iter().map(|of| {
            let value = of
                .value
                .as_deref()
                .filter(|_| !matches!(of.role, Role::TextInput | Role::PasswordInput));
            (of.role, of.name.as_str(), value)
        });
        shown.collect()
    }

    /// Where what stands over the window begins, if something does.
    fn over(&self) -> usize {
        let is = |of: &Heard| of.role == Role::Label && OVER.contains(&of.name.as_str());
        self.heard.iter().rposition(is).unwrap_or(0)
    }
}

/// What stands at the head of all that is shown over the window.
const OVER: [&str; 9] = [
    "Open a session",
    "Save the session",
    "Bars in stock",
    "What do you want to do?",
    "Keys",
    "Save the changes first?",
    "Erase this client",
    "The client is erased",
    "It is not all gone",
];

/// The desk before something was done.
struct Before {
    look: Look,
    revision: Revision,
    document: Session,
    file: Option<PathBuf>,
    told: Vec<Told>,
    bench: usize,
    selected: Option<Cockpit>,
    /// Which answers of the shop are there.
    found: Option<usize>,
    zoom: f32,
    noticed: Noticed,
}

impl Before {
    fn of(window: &mut Window, noticed: Noticed) -> Self {
        let zoom = window.harness().ctx.zoom_factor();
        let desk = window.desk();
        Self {
            look: desk.look().clone(),
            revision: desk.revision(),
            document: desk.session().clone(),
            file: desk.file().map(Path::to_owned),
            told: desk.told().to_vec(),
            bench: desk.visit().map_or(0, |visit| visit.bench.len()),
            selected: desk.selected().cloned(),
            found: found(desk),
            zoom,
            noticed,
        }
    }

    /// Whether something is another now.
    fn changed(&self, window: &Window, now: &Noticed) -> bool {
        let desk = window.desk();
        self.revision != desk.revision()
            || self.look != *desk.look()
            || self.noticed.shown() != now.shown()
    }
}

/// The desktop's own dialog is another program; it is not opened.
fn leads_out(heard: &Heard) -> bool {
    heard.name == "Browse…"
}

/// One thing done: how many input events it was, and what was asked for by key or name.
fn something(window: &mut Window, seeded: &mut Seeded, before: &Noticed) -> (usize, Option<Act>) {
    let whole = window.harness().ctx.content_rect();
    // what a person sees that can be pressed; under a dialog nothing can
    let over = before.over();
    let works: Vec<&Heard> = before.heard[over..]
        .iter()
        .filter(|h| h.works && !leads_out(h) && whole.contains(h.place.center()))
        .collect();
    // nothing else goes on while this is asked
    let given_up = works.iter().find(|h| h.name.ends_with(" without saving"));
    if let Some(answer) = given_up.filter(|_| seeded.below(2) == 0) {
        let events = window.press_events(answer.place.center());
        window.settle();
        return (events, None);
    }
    if over > 0 && seeded.below(4) == 0 {
        window.harness().key_press(Key::Escape);
        window.settle();
        return (2, None);
    }
    // what was undone can be done again only until the next change
    if window.desk().can_redo().is_some() && seeded.below(8) == 0 {
        let modifiers = Modifiers::COMMAND.plus(Modifiers::SHIFT);
        window.harness().key_press_modifiers(modifiers, Key::Z);
        window.settle();
        return (2, Some(Act::Redo));
    }
    let mut asked = None;
    let events = match seeded.below(22) {
        0..=8 if !works.is_empty() => {
            // a press of a field or of a handle does nothing by itself: they come below
            let still = |of: &&Heard| is_field(of.role) || of.role == Role::Slider;
            let pressed: Vec<&Heard> = works.iter().copied().filter(|h| !still(h)).collect();
            let of = if pressed.is_empty() { &works } else { &pressed };
            window.press_events(seeded.of(of).place.center())
        }
        9..=11 => {
            let act = can_be_done(window, seeded);
            asked = Some(act);
            stroke(window, act, before)
        }
        12 => {
            let key = seeded.of(&KEYS);
            let out = before.focused.as_ref().is_some_and(leads_out);
            let key = if out { Key::Escape } else { key };
            let modifiers = seeded.of(&[Modifiers::NONE, Modifiers::SHIFT, Modifiers::ALT]);
            window.harness().key_press_modifiers(modifiers, key);
            2
        }
        13..=15 => {
            let fields: Vec<&Heard> = works.iter().copied().filter(|h| is_field(h.role)).collect();
            let mut count = 0;
            if !fields.is_empty() {
                count += window.press_events(seeded.of(&fields).place.center());
                window.harness().key_press_modifiers(Modifiers::COMMAND, Key::A);
                count += 2;
            }
            window.harness().event(Event::Text(seeded.of(&TEXTS).to_owned()));
            let end = match seeded.below(6) {
                0..=3 => Some((Modifiers::NONE, Key::Enter)),
                // in the middle of it
                4 => Some((Modifiers::COMMAND, Key::Z)),
                _ => None,
            };
            if let Some((modifiers, key)) = end {
                window.harness().key_press_modifiers(modifiers, key);
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
            let act = seeded.act_in_turn(window.desk());
            asked = Some(act);
            by_name(window, act)
        }
        _ => {
            let at = anywhere(window, seeded);
            let out = before.heard.iter().any(|h| leads_out(h) && h.place.expand(4.0).contains(at));
            if out { 0 } else { window.press_events(at) }
        }
    };
    window.settle();
    (events, asked)
}

/// Whether the window can make a change, and the undo list tells it from others.
fn is_made_here(kind: Kind) -> bool {
    match kind {
        // the order on the bench and that something was ridden follow from other things, a slipped number
        // is told as any other of a cockpit, and a stem is made longer or comes with a bar
        Kind::Of(EditKind::Move)
        | Kind::Cockpit(CockpitKind::Ridden | CockpitKind::Slipped | CockpitKind::Stem) => false,
        // of what was built only readings are taken
        Kind::Built(kind) => matches!(kind, TapeKind::Reading | TapeKind::Laid),
        _ => true,
    }
}

/// What kind of change to the document was made, where one was: not taken back, done again or opened.
fn edit_made(from: &Before, window: &Window) -> Option<Kind> {
    let desk = window.desk();
    let back = |told: &Told| matches!(told.text, Saying::Undone(_) | Saying::Redone(_));
    let new = desk.told().iter().filter(|told| !from.told.contains(told));
    let is_edit = desk.revision() != from.revision
        && desk.session().id == from.document.id
        && !new.clone().any(back);
    let step = desk.can_undo().filter(|_| is_edit && *desk.session() != from.document)?;
    Some(Kind::of_step(step, &from.document, desk.session()))
}

/// Whether it is what is shown already, so that asking for it does nothing.
fn is_so(act: Act, look: &Look) -> bool {
    match act {
        Act::Who => look.room == Room::Who,
        Act::Body => look.room == Room::Body,
        Act::Bike => look.room == Room::Bike,
        Act::Bench => look.room == Room::Bench,
        Act::Decide => look.room == Room::Decide,
        Act::Later => look.room == Room::Later,
        Act::Hands(hands) => look.hands == hands,
        Act::Hold(hold) => look.hold == hold,
        Act::Sight(sight) => look.sight == sight,
        _ => false,
    }
}

/// Something that can be done now and is not so already: people press what is not greyed.
fn can_be_done(window: &Window, seeded: &mut Seeded) -> Act {
    let (desk, look) = (window.desk(), window.desk().look());
    let can = |act: &Act| {
        // what has a key is pressed where that works
        let is_there = act.strokes().is_empty() || desk.at_hand(*act);
        desk.enabled(*act) && is_there && !is_so(*act, look)
    };
    let can: Vec<Act> = Act::ALL.into_iter().filter(can).collect();
    seeded.of(&can)
}

/// The act's key; where it has none, or a field is typed into that takes it, its name.
fn stroke(window: &mut Window, act: Act, before: &Noticed) -> usize {
    let typing = before.focused.as_ref().is_some_and(|of| is_field(of.role));
    // nor where words are typed
    let typing = typing || window.desk().look().room == Room::Who;
    match act.strokes().first() {
        Some(stroke) if !stroke.is_plain() || !typing => {
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
        _ => by_name(window, act),
    }
}

fn by_name(window: &mut Window, act: Act) -> usize {
    window.harness().key_press_modifiers(Modifiers::COMMAND.plus(Modifiers::SHIFT), Key::P);
    window.harness().event(Event::Text(English.act(act)));
    window.harness().key_press(Key::Enter);
    5
}

/// Numbers and words are typed there.
fn is_field(role: Role) -> bool {
    matches!(role, Role::TextInput | Role::MultilineTextInput)
}

fn anywhere(window: &mut Window, seeded: &mut Seeded) -> Pos2 {
    let size = window.harness().ctx.content_rect().size();
    pos2(seeded.within(size.x), seeded.within(size.y))
}

/// What was done, each by its own effect.
fn acts(from: &Before, window: &mut Window, now: &Noticed, asked: Option<Act>) -> Vec<Act> {
    let mut acts = Vec::new();
    if window.closes() {
        acts.push(Act::Close);
    }
    let zoom = window.harness().ctx.zoom_factor();
    // a step smaller may end at the usual size as well
    if zoom != from.zoom {
        let larger = zoom > from.zoom;
        let sizes = [(Act::Larger, larger), (Act::Smaller, !larger), (Act::UsualSize, zoom == 1.0)];
        let of = sizes.into_iter().find(|(act, is)| *is && asked == Some(*act));
        acts.extend(of.map(|(act, _)| act));
    }
    let desk = window.desk();
    if desk.revision() == from.revision {
        acts.extend(looked(from, window, now));
    } else {
        acts.extend(edited(from, window));
    }
    let new = |name: &str| {
        let is = |h: &Heard| h.role == Role::Label && h.name == name;
        now.heard.iter().any(is) && !from.noticed.heard.iter().any(is)
    };
    // without a file "Save" asks for a name as well
    let has_file = desk.file().is_some();
    for (act, is) in [
        (Act::Open, new("Open a session")),
        (Act::SaveAs, has_file && new("Save the session")),
        (Act::Passphrase, has_file && new("Put the session under a passphrase")),
        (Act::Erase, new("Erase this client")),
        (Act::TableIn, new("Bring a table of parts into the stock")),
        (Act::Palette, new("What do you want to do?")),
        (Act::Keys, new("Keys")),
    ] {
        acts.extend(is.then_some(act));
    }
    for told in desk.told().iter().filter(|told| !from.told.contains(told)) {
        match &told.text {
            // by its own name, not by one that was asked for
            Saying::Saved(path) if Some(path) == from.file.as_ref() => acts.push(Act::Save),
            Saying::Worded(text) => acts.extend(is_of_sheet(text).then_some(Act::Paper)),
            _ => {}
        }
    }
    acts
}

/// What is looked at otherwise, in the same document.
fn looked(from: &Before, window: &Window, now: &Noticed) -> Vec<Act> {
    let (before, look) = (&from.look, window.desk().look());
    let at_trials = |of: &Noticed| {
        of.focused.as_ref().is_some_and(|heard| heard.name.starts_with("back to trial"))
    };
    let led = at_trials(now) && !at_trials(&from.noticed);
    let room = match look.room {
        Room::Who => Act::Who,
        Room::Body => Act::Body,
        Room::Bike => Act::Bike,
        Room::Bench => Act::Bench,
        Room::Later => Act::Later,
        Room::Decide => Act::Decide,
    };
    let view = match look.for_client {
        ForClient::Here => Some(Act::ClientView),
        ForClient::Beside => Some(Act::ClientBeside),
        ForClient::Not => None,
    };
    let all = [
        (led.then_some(Act::Trials), true),
        (Some(room), before.room != look.room && !led),
        (Some(Act::Hands(look.hands)), before.hands != look.hands),
        (Some(Act::Hold(look.hold)), before.hold != look.hold),
        (Some(Act::AllHands), before.all_hands != look.all_hands && before.hands == look.hands),
        (Some(Act::Sight(look.sight)), before.sight != look.sight),
        (Some(Act::Measures), before.measures != look.measures),
        (Some(Act::Ruler), before.ruler != look.ruler),
        (Some(Act::Behind), before.behind != look.behind),
        (Some(Act::Balance), before.balancing != look.balancing),
        (Some(Act::Search), from.found != found(window.desk()) && found(window.desk()).is_some()),
        (
            Some(Act::Choosing),
            before.choosing != look.choosing && from.found == found(window.desk()),
        ),
        (Some(Act::AgainstTrial), before.against_trial != look.against_trial),
        (view, before.for_client != look.for_client),
        (Some(Act::SwitchTheme), before.theme != look.theme),
    ];
    all.into_iter().filter(|(_, is)| *is).filter_map(|(act, _)| act).collect()
}

/// What tells one list of answers from another.
fn found(desk: &Desk) -> Option<usize> {
    match desk.sought() {
        Sought::Found(found) => Some(Arc::as_ptr(&found.advice).addr()),
        _ => None,
    }
}

/// The same parts, set up alike.
fn alike(one: &Cockpit, other: &Cockpit) -> bool {
    let renamed = one.with_name(&other.id, &other.label);
    Cockpit { ridden: other.ridden, ..renamed } == *other
}

/// What the document says was done just now.
fn edited(from: &Before, window: &Window) -> Option<Act> {
    let desk = window.desk();
    let new = |told: &&Told| !from.told.contains(told);
    for told in desk.told().iter().filter(new) {
        match &told.text {
            Saying::Undone(_) => return Some(Act::Undo),
            Saying::Redone(_) => return Some(Act::Redo),
            Saying::Matched { place: HandPlace::Drops, .. } => return Some(Act::MatchDrops),
            Saying::Matched { .. } => return Some(Act::MatchHoods),
            _ => {}
        }
    }
    if desk.session().id != from.document.id {
        let begun = desk.file().is_none() && desk.look().room == Room::Who;
        return (begun && desk.session().client.name.is_empty()).then_some(Act::New);
    }
    let bench = &desk.visit()?.bench;
    let (last, selected) = (bench.last(), from.selected.as_ref());
    match desk.can_undo()? {
        UndoStep::Remove { .. } => (bench.len() + 1 == from.bench).then_some(Act::Remove),
        UndoStep::Bar { .. } => Some(Act::OtherBar),
        UndoStep::Add { .. } if bench.len() == from.bench + 1 => {
            let (last, selected) = (last?, selected?);
            let other = last.bar.id != selected.bar.id;
            // what was changed on the cockpit as it came goes onto a copy
            let copy = last.id.starts_with(CHANGED);
            match (copy, other) {
                (false, _) if alike(selected, last) => Some(Act::Duplicate),
                (false, true) => Some(Act::AddBar),
                (true, true) => Some(Act::OtherBar),
                (_, false) => None,
            }
        }
        UndoStep::RideBegun { .. } => Some(Act::Trial),
        UndoStep::RideEnded { .. } => Some(Act::EndTrial),
        UndoStep::TapeTaken { .. } => Some(Act::TakeTape),
        UndoStep::FollowUp { .. } => Some(Act::FollowUp),
        UndoStep::After { change: AfterStep::Added, .. } => Some(Act::AfterNote),
        _ => None,
    }
}

/// Whether a text says where a client sheet is; then one must be there.
fn is_of_sheet(text: &str) -> bool {
    let Some(path) = text.strip_prefix(&English.sheet_written("")) else { return false };
    let sheet = std::fs::read(path).unwrap_or_else(|error| panic!("{path}: {error}"));
    assert!(sheet.starts_with(b"%PDF-"), "{path} is no sheet");
    true
}

/// What a file holds of a session.
fn written(session: &Session) -> String {
    fit_file::session_text(session, "random.session.ron").unwrap()
}

/// Undo and redo lead to the start and back, whatever was done: to the same session, and to the bytes
/// that the file held.
fn to_the_start_and_back(window: &mut Window, start: &Session, bytes: &str) {
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
    assert_eq!(written(desk.session()), bytes, "{steps} steps back, as a file");
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
    let mut seeded = Seeded {
        state: number("BARWRIGHT_SEED", 7),
        turn: Act::ALL.into(),
        missing: Act::ALL.into(),
    };
    let survey = Survey::shipped().unwrap();
    let mut window = Window::demo();
    // files are saved by names without a folder, and sheets beside them: they land here
    std::env::set_current_dir(window.folder()).unwrap();
    let file = window.copy_of("demo");
    window.open(&file);

    let mut start = window.desk().session().clone();
    // what is written of it is what was opened, to the byte
    let mut bytes = std::fs::read_to_string(&file).unwrap();
    let (mut events, mut done, mut changed) = (0, 0_usize, 0_usize);
    let mut hit: BTreeMap<Act, usize> = BTreeMap::new();
    let (mut document, mut edits) = (0_usize, BTreeMap::<Kind, usize>::new());
    let noticed = Noticed::of(&window);
    let mut before = Before::of(&mut window, noticed);
    let begun = std::time::Instant::now();
    while events < wanted {
        let (count, asked) = something(&mut window, &mut seeded, &before.noticed);
        events += count;
        let now = Noticed::of(&window);
        done += 1;
        let desk = window.desk();
        if desk.revision() != before.revision {
            let refused = fit_doc::check(desk.session()).refused;
            assert!(refused.is_empty(), "after {done}: {refused:?}");
            // what was taken over from the bench before is what it would be now
            if let Some(visit) = desk.visit() {
                let afresh = weigh_visit(desk.session(), visit, &survey).unwrap();
                // how sure it is where a limit acts is drawn beside it, and not by weighing
                let mut shown = desk.weighed().clone();
                shown.drawn = None;
                assert_eq!(shown, afresh, "after {done}: another bench is shown");
            }
        }
        if desk.can_undo().is_none() {
            if desk.can_redo().is_some() {
                assert_eq!(desk.session(), &start, "after {done}: undone all the way");
            } else if *desk.session() != start {
                // only a session that was opened or begun anew is another without a step
                assert!(!desk.modified(), "after {done}: a change without a step");
                start = desk.session().clone();
                bytes = written(&start);
            }
        }
        changed += usize::from(before.changed(&window, &now));
        document += usize::from(window.desk().revision() != before.revision);
        if let Some(kind) = edit_made(&before, &window) {
            *edits.entry(kind).or_default() += 1;
        }
        for act in acts(&before, &mut window, &now, asked) {
            *hit.entry(act).or_default() += 1;
            seeded.missing.remove(&act);
        }
        if done % 1000 == 0 {
            println!("{done} things done, {events} events, {:.0?}", begun.elapsed());
        }
        if done % BACK_EVERY == 0 {
            to_the_start_and_back(&mut window, &start, &bytes);
        }
        before = Before::of(&mut window, now);
    }
    to_the_start_and_back(&mut window, &start, &bytes);
    let share = changed as f64 / done as f64;
    let of_document = document as f64 / done as f64;
    println!(
        "{events} events, {done} things done, {:.1} % changed something, {:.1} % the document",
        100.0 * share,
        100.0 * of_document
    );
    for (act, times) in &hit {
        println!("{times:>7} {act:?}");
    }
    println!("of changes to the document, without what was taken back and done again:");
    for (kind, times) in &edits {
        println!("{times:>7} {kind:?}");
    }
    let made = |kind: &Kind| edits.contains_key(kind) || !is_made_here(*kind);
    let unmade: Vec<Kind> = Kind::all().into_iter().filter(|kind| !made(kind)).collect();
    println!("changes never made: {unmade:?}");
    assert!(share >= SHARE, "too much of it did nothing");
    let missed: Vec<Act> = Act::ALL.into_iter().filter(|act| !hit.contains_key(act)).collect();
    println!("not seen: {missed:?}");
    assert!(missed.is_empty() || wanted < ENOUGH, "never done: {missed:?}");
}
