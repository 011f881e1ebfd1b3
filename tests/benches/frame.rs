//! What one frame of the window costs its thread: layout, posture and triangles.
//!
//! Run with `cargo bench -p acceptance --bench frame`. Processor time of this one thread, without
//! the driver; printed, never judged. A drag of the roll changes a number in every frame, so each
//! weighs the whole bench anew in all hand places; beside it frames in which nothing changes, and
//! what the parts of such a frame cost by themselves.

#![expect(clippy::print_stdout, clippy::expect_used, reason = "it says what is timed")]

use acceptance::window::{SIZE, Window, demo_with, workbench};
use barwright::window::Workbench;
use egui::accesskit::Role;
use egui::{Context, Event, Modifiers, PointerButton, Pos2, RawInput, Rect, pos2, vec2};
use fit_desk::{Command, Desk, Gesture};
use fit_doc::edit::cockpit_number;
use fit_doc::{CockpitEdit, Edit, Quantity};
use fit_math::body::Survey;
use fit_view::picture::{SideChoice, side_view};
use fit_view::side::{close_window, cockpits_scene, rider_scene};
use fit_view::table::bench_table;
use fit_view::weigh::weigh;
use fit_view::words::English;
use rustix::time::{ClockId, clock_gettime};

/// Candidates beside the cockpit as it came.
const CANDIDATES: usize = 12;
/// Frames that are timed, after as many that are not.
const FRAMES: usize = 600;

/// Processor time of this thread so far, ms.
fn cpu_ms() -> f64 {
    let time = clock_gettime(ClockId::ThreadCPUTime);
    time.tv_sec as f64 * 1e3 + time.tv_nsec as f64 / 1e6
}

/// A window without a frame around it.
struct Bare {
    ctx: Context,
    bench: Workbench,
    frame: u32,
}

/// What one frame took, ms, and made.
#[derive(Clone, Copy)]
struct Frame {
    layout: f64,
    triangles: f64,
    vertices: usize,
}

impl Bare {
    fn frame(&mut self, events: Vec<Event>) -> Frame {
        self.frame += 1;
        let input = RawInput {
            screen_rect: Some(Rect::from_min_size(Pos2::ZERO, vec2(SIZE.0, SIZE.1))),
            time: Some(f64::from(self.frame) / 60.0),
            events,
            ..RawInput::default()
        };
        let begun = cpu_ms();
        let mut output = self.ctx.run_ui(input, |ui| self.bench.ui(ui));
        let laid_out = cpu_ms();
        let shapes = core::mem::take(&mut output.shapes);
        let meshes = self.ctx.tessellate(shapes, output.pixels_per_point);
        let triangles = cpu_ms() - laid_out;
        output.textures_delta.clear();
        let vertices = meshes.iter().map(|clipped| match &clipped.primitive {
            egui::epaint::Primitive::Mesh(mesh) => mesh.vertices.len(),
            egui::epaint::Primitive::Callback(_) => 0,
        });
        Frame { layout: laid_out - begun, triangles, vertices: vertices.sum() }
    }
}

fn pressed(pos: Pos2, pressed: bool) -> Event {
    let (button, modifiers) = (PointerButton::Primary, Modifiers::NONE);
    Event::PointerButton { pos, button, pressed, modifiers }
}

fn print(what: &str, frames: &[Frame]) {
    let mut all: Vec<f64> = frames.iter().map(|f| f.layout + f.triangles).collect();
    all.sort_by(f64::total_cmp);
    let mean = |of: fn(&Frame) -> f64| frames.iter().map(of).sum::<f64>() / frames.len() as f64;
    let (median, p99) = (all[all.len() / 2], all[all.len() * 99 / 100]);
    let vertices = frames.iter().map(|f| f.vertices).max().unwrap_or_default();
    println!(
        "{what}: median {median:.2} ms, 99th percentile {p99:.2} ms, worst {:.2} ms \
         (means: layout and posture {:.2}, triangles {:.2}); {vertices} vertices",
        all[all.len() - 1],
        mean(|f| f.layout),
        mean(|f| f.triangles),
    );
}

/// The median of what something costs each time, ms.
fn median(mut work: impl FnMut(usize)) -> f64 {
    let time = |turn| {
        let begun = cpu_ms();
        work(turn);
        cpu_ms() - begun
    };
    let mut all: Vec<f64> = (0..2 * FRAMES).map(time).skip(FRAMES).collect();
    all.sort_by(f64::total_cmp);
    all[all.len() / 2]
}

/// What a frame of a drag consists of, each part done as the window does it.
fn parts() {
    let session = demo_with(CANDIDATES);
    let survey = Survey::shipped().expect("the survey can be read");
    let weighed = weigh(&session, None, &survey).expect("the bench weighs");
    let choice = SideChoice::usual(&weighed);
    let said = |what: &str, ms: f64| println!("  {what}: {ms:.2} ms");
    println!("parts of such a frame by themselves, medians:");
    let mut desk: Desk = workbench(session.clone(), None).desk().clone();
    let selected = desk.selected().expect("one is spoken of").clone();
    let roll = cockpit_number(&selected, Quantity::Roll).expect("it rolls");
    let change = median(|turn| {
        let to = roll + if turn % 2 == 0 { 0.5 } else { 0.0 };
        let change = CockpitEdit::Number { quantity: Quantity::Roll, to };
        let edit = Edit::Cockpit { visit: desk.look().visit, id: selected.id.clone(), change };
        desk.apply(Command::Edit(edit, Some(Gesture(1))));
    });
    said("the change itself: copied, checked, weighed, kept for undo", change);
    said("of that, checked", median(|_| drop(core::hint::black_box(fit_doc::check(&session)))));
    said(
        "of that, weighed",
        median(|_| drop(core::hint::black_box(weigh(&session, None, &survey)))),
    );
    let drawn = median(|_| {
        let view = side_view(&weighed, &choice, &English);
        let window = close_window(&view, 1.5);
        core::hint::black_box((cockpits_scene(&view, window, 1.0), rider_scene(&view)));
    });
    said("both drawings as lines and shapes", drawn);
    let table = median(|_| drop(core::hint::black_box(bench_table(&weighed, choice.place))));
    said("the table of differences", table);
}

fn main() {
    let handle = {
        let window = Window::with(demo_with(CANDIDATES), SIZE);
        window.the(Role::Slider, "Roll").rect().center()
    };
    let ctx = Context::default();
    Workbench::install(&ctx);
    let mut bare = Bare { ctx, bench: workbench(demo_with(CANDIDATES), None), frame: 0 };
    for _ in 0..10 {
        bare.frame(Vec::new());
    }
    println!("as it came and {CANDIDATES} candidates, {} × {} points", SIZE.0, SIZE.1);

    let still: Vec<Frame> = (0..FRAMES).map(|_| bare.frame(Vec::new())).collect();
    print("nothing changes", &still);
    let hovering = |frame: usize| Event::PointerMoved(pos2(400.0 + (frame % 300) as f32, 400.0));
    let hover: Vec<Frame> = (0..FRAMES).map(|frame| bare.frame(vec![hovering(frame)])).collect();
    print("the pointer moves over the drawing", &hover);

    bare.frame(vec![Event::PointerMoved(handle)]);
    bare.frame(vec![pressed(handle, true)]);
    let (mut changed, mut frames) = (0, Vec::new());
    for frame in 0..2 * FRAMES {
        // up and down, by more than half a degree from frame to frame
        let swing = (frame as f32 * 0.7).sin() * 60.0;
        let before = bare.bench.desk().revision();
        let timed = bare.frame(vec![Event::PointerMoved(handle + vec2(0.0, swing))]);
        if frame >= FRAMES {
            changed += usize::from(bare.bench.desk().revision() != before);
            frames.push(timed);
        }
    }
    bare.frame(vec![pressed(handle, false)]);
    print("the roll is dragged", &frames);
    println!("{changed} of {} frames of the drag changed the roll", frames.len());
    let step = bare.bench.desk().can_undo();
    println!("undo: {}", if step.is_some() { "one step" } else { "none" });
    assert!(changed * 10 >= frames.len() * 9, "the drag changed too little to be timed");
    step.map(|_| ()).expect("the drag left a step");
    parts();
}
