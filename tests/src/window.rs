//! The window as a test holds it: driven by the names that a screen reader reads out, with files in
//! a folder of its own, drawn by the processor.
//!
//! Time does not pass: a frame is shown for each event, then until nothing asks for another. What
//! reads and writes files is waited for.

#![expect(clippy::expect_used, reason = "test support: a failure here is a failed test")]

use crate::raster::{Canvas, Raster};
use crate::root;
use barwright::window::Workbench;
use egui::accesskit::{Action, Role, Toggled};
use egui::{Color32, Event, Key, Modifiers, PointerButton, Pos2, Rect, ViewportCommand};
use egui_kittest::kittest::{NodeT, Queryable};
use egui_kittest::{Harness, Node};
use fit_desk::{Desk, Room, Setup};
use fit_doc::Session;
use fit_math::body::Survey;
use std::path::{Path, PathBuf};
use std::sync::{Arc, LazyLock, Mutex, PoisonError};

/// The size a window opens at, points.
pub const SIZE: (f32, f32) = (1280.0, 800.0);

/// Seconds after which what is not saved is kept.
pub const KEPT_AFTER_S: f64 = 10.0;

/// More frames than keys wait for that were typed into one.
const MOST_FRAMES: usize = 200;

static SETUP: LazyLock<(Arc<Setup>, Session)> = LazyLock::new(|| {
    let path = root().join("sessions/demo.session.ron");
    let demo = fit_file::open(&path).expect("the demo session opens").session;
    let setup = Setup {
        survey: Survey::shipped().expect("the survey can be read"),
        stock: fit_file::stock::shipped().expect("the stock can be read"),
    };
    (Arc::new(setup), demo)
});

/// The demo client's session.
pub fn demo() -> Session {
    SETUP.1.clone()
}

/// The demo client with so many candidates, each a little different.
///
/// # Panics
/// When the demo has no visit.
pub fn demo_with(candidates: usize) -> Session {
    let mut session = demo();
    let visit = Arc::make_mut(session.visits.last_mut().expect("it has a visit"));
    let own = visit.bench.clone();
    while visit.bench.len() < candidates {
        let more = visit.bench.len();
        let mut next = own[more % own.len()].clone();
        next.id = format!("more-{more}");
        next.label = format!("More {more}");
        next.spacers_mm += more as f64;
        visit.bench.push(next);
    }
    session
}

/// A workbench with a session on it that no file holds.
///
/// # Panics
/// When the session cannot be shown.
pub fn workbench(session: Session, state_folder: Option<&Path>) -> Workbench {
    Workbench::new(Arc::clone(&SETUP.0), session, None, state_folder)
        .expect("the session can be weighed")
}

/// A window, and whoever works at it.
pub struct Window {
    harness: Harness<'static, Workbench>,
    raster: Raster,
    asked_of_frame: Arc<Mutex<Vec<ViewportCommand>>>,
    folder: tempfile::TempDir,
}

/// Notes what the window asks of its frame: to close, to stay, a title.
struct Notes(Arc<Mutex<Vec<ViewportCommand>>>);

impl egui::Plugin for Notes {
    fn debug_name(&self) -> &'static str {
        "notes"
    }

    fn output_hook(&mut self, _: &egui::Context, output: &mut egui::FullOutput) {
        let mut noted = self.0.lock().unwrap_or_else(PoisonError::into_inner);
        noted
            .extend(output.viewport_output.values().flat_map(|viewport| viewport.commands.clone()));
    }
}

/// A file let go of over the window.
#[derive(Debug)]
struct Dropped(PathBuf);

impl egui::DroppedFile for Dropped {
    fn path(&self) -> &Path {
        &self.0
    }

    fn bytes(&self) -> Result<Vec<u8>, String> {
        std::fs::read(&self.0).map_err(|error| error.to_string())
    }
}

impl Window {
    /// A window with the demo client's session, that no file holds.
    ///
    /// # Panics
    /// When the demo cannot be shown.
    pub fn demo() -> Self {
        Self::with(demo(), SIZE)
    }

    /// A window of that size with a session on it.
    ///
    /// # Panics
    /// When the session cannot be shown.
    pub fn with(session: Session, size: (f32, f32)) -> Self {
        Self::over(tempfile::tempdir().expect("a folder"), session, size)
    }

    /// The program was stopped, and is started again with the demo client's session on it, in the same
    /// folders.
    ///
    /// # Panics
    /// When the demo cannot be shown.
    #[must_use]
    pub fn stopped_and_started(self) -> Self {
        let Self { harness, folder, .. } = self;
        drop(harness);
        Self::over(folder, demo(), SIZE)
    }

    fn over(folder: tempfile::TempDir, session: Session, size: (f32, f32)) -> Self {
        let state = folder.path().join("state");
        let bench = workbench(session, Some(&state))
            .keeping_unsaved(Some(&state), KEPT_AFTER_S)
            .keeping_seen(Some(&folder.path().join("cache")));
        let raster = Raster::default();
        let asked_of_frame = Arc::default();
        let notes = Notes(Arc::clone(&asked_of_frame));
        let harness = Harness::builder()
            .with_size(size)
            .with_max_steps(12)
            .with_accessibility_check(false)
            .renderer(raster.clone())
            .with_context_setup(move |ctx| {
                Workbench::install(ctx);
                ctx.add_plugin(notes);
            })
            .build_ui_state(whole_window, bench);
        let mut window = Self { harness, raster, asked_of_frame, folder };
        window.settle();
        window
    }

    /// So many seconds pass.
    pub fn pass(&mut self, seconds: f64) {
        let now = self.harness.ctx.input(|input| input.time);
        self.harness.input_mut().time = Some(now + seconds);
        self.harness.step();
        self.harness.input_mut().time = None;
        self.settle();
    }

    // —— what there is ——

    /// What the window works on.
    pub fn desk(&self) -> &Desk {
        self.harness.state().desk()
    }

    /// The toolkit's own view of the window.
    pub fn harness(&mut self) -> &mut Harness<'static, Workbench> {
        &mut self.harness
    }

    /// The folder that stands for the user's documents.
    pub fn folder(&self) -> &Path {
        self.folder.path()
    }

    /// A copy of a demo session in that folder.
    ///
    /// # Panics
    /// When it cannot be copied.
    pub fn copy_of(&self, session: &str) -> PathBuf {
        let name = format!("{session}.session.ron");
        let to = self.folder().join(&name);
        std::fs::copy(root().join("sessions").join(&name), &to).expect("copied");
        to
    }

    /// Everything that can be heard: role, name, value, place and whether it can be pressed.
    pub fn heard(&self) -> Vec<Heard> {
        self.harness.root().children_recursive().map(|node| Heard::of(&node)).collect()
    }

    /// The one thing with that role and name.
    ///
    /// # Panics
    /// When there is none, or several.
    #[track_caller]
    pub fn the<'a>(&'a self, role: Role, name: &'a str) -> Node<'a> {
        self.harness.get_by_role_and_label(role, name)
    }

    /// Whether there is something with that role and name.
    pub fn has(&self, role: Role, name: &str) -> bool {
        self.heard().iter().any(|heard| heard.role == role && heard.name == name)
    }

    /// Whether something that can be on or off is on.
    ///
    /// # Panics
    /// When there is no such thing, or several.
    #[track_caller]
    pub fn is_on(&self, role: Role, name: &str) -> bool {
        self.the(role, name).accesskit_node().toggled() == Some(Toggled::True)
    }

    /// How often a text by itself is painted in the last frame, also where nobody hears it.
    pub fn painted(&self, text: &str) -> usize {
        let is_it = |shape: &egui::Shape| matches!(shape, egui::Shape::Text(of) if of.galley.text() == text);
        self.harness.output().shapes.iter().filter(|of| is_it(&of.shape)).count()
    }

    /// Every text that is painted in the last frame, also where nobody hears it.
    pub fn painted_texts(&self) -> Vec<String> {
        fn read(shape: &egui::Shape, into: &mut Vec<String>) {
            match shape {
                egui::Shape::Text(of) => into.push(of.galley.text().to_owned()),
                egui::Shape::Vec(all) => all.iter().for_each(|of| read(of, into)),
                _ => {}
            }
        }
        let mut texts = Vec::new();
        self.harness.output().shapes.iter().for_each(|of| read(&of.shape, &mut texts));
        texts
    }

    /// What a screen reader reads of a field or text.
    ///
    /// # Panics
    /// When there is no such thing, or it has no value.
    #[track_caller]
    pub fn value(&self, role: Role, name: &str) -> String {
        self.the(role, name).value().expect("it has a value")
    }

    /// The texts of all labels that hold that piece.
    pub fn texts(&self, piece: &str) -> Vec<String> {
        let heard = self.heard().into_iter();
        heard
            .filter(|heard| heard.role == Role::Label && heard.name.contains(piece))
            .map(|heard| heard.name)
            .collect()
    }

    /// The names of everything of a role, in reading order.
    pub fn texts_of(&self, role: Role) -> Vec<String> {
        self.heard().into_iter().filter(|heard| heard.role == role).map(|h| h.name).collect()
    }

    /// The answer in the differences table to a question about a cockpit.
    ///
    /// # Panics
    /// When the table has no such cell.
    #[track_caller]
    pub fn cell(&self, question: &str, cockpit: &str) -> String {
        let begin = format!("{question}, {cockpit}: ");
        let heard = self.heard();
        let found = heard.iter().find(|h| h.role == Role::Cell && h.name.starts_with(&begin));
        let cell = found.unwrap_or_else(|| panic!("no cell begins with “{begin}”"));
        cell.name[begin.len()..].to_owned()
    }

    /// Name and role of what has the keyboard.
    pub fn focused(&self) -> Option<Heard> {
        let root = self.harness.root();
        root.children_recursive().find(egui_kittest::Node::is_focused).map(|node| Heard::of(&node))
    }

    /// What the window asked of its frame since this was last called.
    pub fn asked_of_frame(&self) -> Vec<ViewportCommand> {
        let mut asked = self.asked_of_frame.lock().unwrap_or_else(PoisonError::into_inner);
        core::mem::take(&mut *asked)
    }

    /// Whether the window asked to be closed, and did not ask to stay, since it was last asked.
    pub fn closes(&self) -> bool {
        let asked = self.asked_of_frame();
        asked.contains(&ViewportCommand::Close) && !asked.contains(&ViewportCommand::CancelClose)
    }

    // —— what is done ——

    /// Shows frames until nothing asks for another and no file is being read or written.
    ///
    /// # Panics
    /// When the window never rests.
    #[track_caller]
    pub fn settle(&mut self) {
        let ctx = self.harness.ctx.clone();
        self.harness.run();
        // what came of it may begin more
        while self.harness.state_mut().settle(&ctx) {
            self.harness.run();
        }
        // what was answered meanwhile, in a frame that was shown already
        if ctx.has_requested_repaint() {
            self.harness.run();
        }
    }

    /// Presses something with the pointer.
    ///
    /// # Panics
    /// When there is no such thing, or several.
    #[track_caller]
    pub fn press(&mut self, role: Role, name: &str) {
        self.the(role, name).click();
        self.settle();
    }

    /// Scrolls with the wheel until something can be seen whole, as whoever looks for it would.
    ///
    /// # Panics
    /// When there is no such thing, when it stays out of sight, or where nothing may have to be
    /// scrolled: the decision and the walk round the bike fit a window of the usual size, and so does
    /// the bench beside the end of a long set-up.
    #[track_caller]
    pub fn reach(&mut self, role: Role, name: &str) {
        for _ in 0..20 {
            let place = self.the(role, name).rect();
            if self.in_sight(place) {
                return;
            }
            let whole = self.harness.ctx.content_rect();
            let (room, middle) = (self.desk().look().room, whole.center().y);
            let at_right = place.center().x > whole.center().x;
            let scrolls = match room {
                Room::Who | Room::Body | Room::Later => true,
                Room::Bench => at_right,
                Room::Bike | Room::Decide => false,
            };
            assert!(scrolls, "{room:?} must be scrolled to “{name}” at {place:?}");
            self.harness.hover_at(Pos2::new(place.center().x, middle));
            let delta = egui::vec2(0.0, middle - place.center().y);
            let (unit, phase) = (egui::MouseWheelUnit::Point, egui::TouchPhase::Move);
            let (source, modifiers) = (egui::MouseWheelSource::Wheel, Modifiers::NONE);
            self.harness.event(Event::MouseWheel { unit, delta, phase, source, modifiers });
            self.settle();
        }
        panic!("“{name}” cannot be scrolled to");
    }

    /// Whether what lies at a place is nowhere cut off.
    fn in_sight(&self, place: Rect) -> bool {
        let near = |one: Rect, other: Rect| {
            (one.min - other.min).abs().max_elem() < 1.0
                && (one.max - other.max).abs().max_elem() < 1.0
        };
        self.harness.ctx.viewport(|viewport| {
            let layers = viewport.prev_pass.widgets.layers();
            let mut all = layers.flat_map(|(_, widgets)| widgets.iter());
            all.any(|of| near(of.rect, place) && near(of.interact_rect, place))
        })
    }

    /// Presses something with the pointer, scrolling to it where it is out of sight.
    ///
    /// # Panics
    /// As [`Self::reach`].
    #[track_caller]
    pub fn reach_and_press(&mut self, role: Role, name: &str) {
        self.reach(role, name);
        self.press(role, name);
    }

    /// Types a new content into a field that is scrolled to, and finishes it with Enter.
    ///
    /// # Panics
    /// As [`Self::reach`].
    #[track_caller]
    pub fn reach_and_enter(&mut self, name: &str, text: &str) {
        self.reach(Role::TextInput, name);
        self.enter(name, text);
    }

    /// Presses something as a screen reader does, wherever it is scrolled to.
    ///
    /// # Panics
    /// When there is no such thing, or several.
    #[track_caller]
    pub fn activate(&mut self, role: Role, name: &str) {
        self.the(role, name).click_accesskit();
        self.settle();
    }

    /// Presses and lets go of a key.
    pub fn key(&mut self, modifiers: Modifiers, key: Key) {
        if modifiers.is_none() {
            self.harness.key_press(key);
        } else {
            self.harness.key_press_modifiers(modifiers, key);
        }
        self.settle();
    }

    /// Types into whatever has the keyboard.
    pub fn type_text(&mut self, text: &str) {
        self.harness.event(Event::Text(text.to_owned()));
        self.settle();
    }

    /// Hands all events to one frame, as a slow one is handed them.
    pub fn in_one_frame(&mut self, events: impl IntoIterator<Item = Event>) {
        self.harness.input_mut().events.extend(events);
        self.harness.step();
        let ctx = self.harness.ctx.clone();
        for _ in 0..MOST_FRAMES {
            if ctx.has_requested_repaint() {
                self.harness.step();
            }
        }
        self.settle();
    }

    /// Chooses from the menu.
    ///
    /// # Panics
    /// When the menu has no such thing.
    #[track_caller]
    pub fn menu(&mut self, act: &str) {
        self.press(Role::Button, "Menu");
        // a button of the menu names its keys as well
        let is = |heard: &Heard| {
            let rest = heard.name.strip_prefix(act);
            heard.role == Role::Button
                && rest.is_some_and(|keys| {
                    let begins = [" Ctrl", " Shift", " F"];
                    keys.is_empty() || begins.iter().any(|key| keys.starts_with(key))
                })
        };
        let found = self.heard().into_iter().find(is);
        let found = found.unwrap_or_else(|| panic!("the menu has no “{act}”"));
        self.press_at(found.place.center());
    }

    /// Presses the window at a place.
    pub fn press_at(&mut self, at: Pos2) {
        self.press_events(at);
        self.settle();
    }

    /// The events of a press, shown with the next frames; how many they are.
    pub fn press_events(&self, at: Pos2) -> usize {
        self.harness.hover_at(at);
        self.pointer(at, true);
        self.pointer(at, false);
        3
    }

    /// Pulls from one place to another, by way of the middle.
    pub fn pull(&mut self, from: Pos2, to: Pos2) {
        self.pull_events(from, to);
        self.settle();
    }

    /// The events of a pull, shown with the next frames; how many they are.
    pub fn pull_events(&self, from: Pos2, to: Pos2) -> usize {
        const STEPS: u8 = 6;
        self.harness.hover_at(from);
        self.pointer(from, true);
        for step in 1..=STEPS {
            self.harness.hover_at(from.lerp(to, f32::from(step) / f32::from(STEPS)));
        }
        self.pointer(to, false);
        self.harness.remove_cursor();
        usize::from(STEPS) + 4
    }

    fn pointer(&self, pos: Pos2, pressed: bool) {
        let (button, modifiers) = (PointerButton::Primary, Modifiers::NONE);
        self.harness.event(Event::PointerButton { pos, button, pressed, modifiers });
    }

    /// Puts the keyboard into a field and types over what is there; the field is not left.
    ///
    /// # Panics
    /// When there is no such field.
    #[track_caller]
    pub fn type_into(&mut self, name: &str, text: &str) {
        self.press(Role::TextInput, name);
        self.key(Modifiers::COMMAND, Key::A);
        if text.is_empty() {
            self.key(Modifiers::NONE, Key::Delete);
        } else {
            self.type_text(text);
        }
    }

    /// Types a new content into a field and finishes it with Enter.
    ///
    /// # Panics
    /// When there is no such field.
    #[track_caller]
    pub fn enter(&mut self, name: &str, text: &str) {
        self.type_into(name, text);
        self.key(Modifiers::NONE, Key::Enter);
    }

    /// Opens a file by typing its path into the dialog.
    pub fn open(&mut self, path: &Path) {
        self.key(Modifiers::COMMAND, Key::O);
        self.path(path);
    }

    /// Saves to a file by typing its path into the dialog.
    pub fn save_as(&mut self, path: &Path) {
        self.key(Modifiers::COMMAND.plus(Modifiers::SHIFT), Key::S);
        self.path(path);
    }

    /// Types a path into the open dialog and enters it.
    ///
    /// # Panics
    /// When no dialog asks for one.
    #[track_caller]
    pub fn path(&mut self, path: &Path) {
        self.enter(PATH, &path.display().to_string());
    }

    /// The window's own close button.
    pub fn close_button(&mut self) {
        let root = egui::ViewportId::ROOT;
        let viewports = &mut self.harness.input_mut().viewports;
        viewports.entry(root).or_default().events.push(egui::ViewportEvent::Close);
        self.harness.step();
        // the toolkit's frame says it once
        let viewports = &mut self.harness.input_mut().viewports;
        viewports.entry(root).or_default().events.clear();
        self.settle();
    }

    /// Lets go of a file over the window.
    pub fn drop_file(&mut self, path: &Path) {
        self.harness.input_mut().dropped_files.push(Arc::new(Dropped(path.to_owned())));
        self.settle();
    }

    // —— what it looks like ——

    /// The last frame, a pixel to a point.
    pub fn picture(&self) -> Canvas {
        self.drawn(&self.meshes())
    }

    /// Triangles drawn in the size of the window, a pixel to a point.
    pub fn drawn(&self, meshes: &[egui::ClippedPrimitive]) -> Canvas {
        let size = self.harness.ctx.content_rect().size();
        let mut canvas = Canvas::new(pixels(size.x), pixels(size.y), Color32::BLACK);
        self.raster.draw(&mut canvas, meshes, 1.0);
        canvas
    }

    /// The last frame in triangles.
    pub fn meshes(&self) -> Vec<egui::ClippedPrimitive> {
        let output = self.harness.output();
        self.harness.ctx.tessellate(output.shapes.clone(), output.pixels_per_point)
    }
}

/// A cell of the differences without how sure it is, and whether it tells.
pub fn sure(cell: &str) -> (&str, bool) {
    match cell.strip_suffix(" too small to tell") {
        Some(told) => (told, false),
        None => (cell.split_once(" ±").map_or(cell, |(told, _)| told), true),
    }
}

/// The events of a key that is pressed and let go of.
pub fn key_events(modifiers: Modifiers, key: Key) -> Vec<Event> {
    let event = |pressed| {
        let (physical_key, repeat) = (None, false);
        Event::Key { key, physical_key, pressed, repeat, modifiers }
    };
    vec![event(true), event(false)]
}

/// The events of letters and digits that are typed one by one: a key and what it writes. A line's
/// end is Enter.
///
/// # Panics
/// When there is no such key.
pub fn typed(text: &str) -> Vec<Event> {
    let events = text.chars().flat_map(|letter| {
        let name = match letter {
            '\n' => "Enter".to_owned(),
            ' ' => "Space".to_owned(),
            '-' => "Minus".to_owned(),
            other => other.to_ascii_uppercase().to_string(),
        };
        let key = Key::from_name(&name).expect("a key of that name");
        let mut events = key_events(Modifiers::NONE, key);
        if letter != '\n' {
            events.insert(1, Event::Text(letter.to_string()));
        }
        events
    });
    events.collect()
}

/// Name of the field that takes a file's path.
pub const PATH: &str = "File";

/// Something that a screen reader can read out.
#[derive(Debug, Clone, PartialEq)]
pub struct Heard {
    /// Its kind.
    pub role: Role,
    /// Its name.
    pub name: String,
    /// What it holds.
    pub value: Option<String>,
    /// Where it is, points.
    pub place: Rect,
    /// It can be pressed, typed into or pulled.
    pub works: bool,
    /// It takes a press, or the keyboard can come to it.
    pub pressable: bool,
}

impl Heard {
    fn of(node: &Node<'_>) -> Self {
        let of = node.accesskit_node();
        let name = of.label().or_else(|| of.value()).unwrap_or_default();
        let role = of.role();
        let place = of.bounding_box().map_or(Rect::NOTHING, |_| node.rect());
        Self {
            role,
            name,
            value: of.value(),
            place,
            works: egui::accessibility::is_input(role) && !of.is_disabled(),
            // a plain text takes a press so that it can be marked and copied
            pressable: of.data().supports_action(Action::Focus)
                || role != Role::Label && of.data().supports_action(Action::Click),
        }
    }
}

/// A real window has no margin around what it shows; the harness has one.
fn whole_window(ui: &mut egui::Ui, bench: &mut Workbench) {
    let whole = ui.ctx().content_rect();
    ui.scope_builder(egui::UiBuilder::new().max_rect(whole), |ui| {
        ui.set_clip_rect(whole);
        bench.ui(ui);
    });
}

#[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "the size of a window")]
fn pixels(points: f32) -> usize {
    points.round() as usize
}
