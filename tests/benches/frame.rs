//! What one frame of the window costs its thread: layout, posture and triangles.
//!
//! Run with `cargo bench -p acceptance --bench frame`. Processor time of this one thread, without
//! the driver; printed, never judged. A drag of the roll changes a number in every frame, so each
//! weighs the cockpit that is pulled anew in all hand places; beside it frames in which nothing
//! changes, and what the parts of such a frame cost by themselves.
//!
//! Judged is what no slow machine excuses: a long drag is one step of undo, and keeps no memory.
//! `BARWRIGHT_FRAMES` changes how long it is.

#![expect(clippy::print_stdout, clippy::expect_used, reason = "it says what is timed")]

use acceptance::window::{SIZE, Window, demo_with, workbench};
use barwright::window::Workbench;
use cap::Cap;
use core::hint::black_box;
use egui::accesskit::Role;
use egui::{Context, Event, Modifiers, PointerButton, Pos2, RawInput, Rect, pos2, vec2};
use fit_desk::{Command, Desk, Gesture};
use fit_doc::edit::cockpit_number;
use fit_doc::{CockpitEdit, Edit, Quantity};
use fit_math::body::Survey;
use fit_view::picture::{SideChoice, silent_side_view};
use fit_view::side::{KeptShapes, both_scenes, close_window};
use fit_view::table::bench_table;
use fit_view::weigh::{Before, weigh_visit, weigh_visit_again};
use fit_view::words::English;
use rustix::time::{ClockId, clock_gettime};
use std::alloc::System;
use std::collections::BTreeSet;

/// Counts the bytes that are held, and hands everything on.
#[global_allocator]
static HEAP: Cap<System> = Cap::new(System, usize::MAX);

/// Candidates beside the cockpit as it came.
const CANDIDATES: usize = 12;
/// Frames that are timed, after as many that are not.
const FRAMES: usize = 600;
/// Frames of the drag.
const DRAGGED: usize = 10_000;
/// Memory is counted every so many frames, the pointer at one place each time: at one state. Between
/// them it is nowhere twice, so that nothing kept of a place can be of use again.
const COUNTED: usize = 1000;
/// How far the pointer swings, points: across and up.
const SWING: (f32, f32) = (12.0, 60.0);
/// How often it goes across and up from frame to frame: no fractions, so that it never comes back (a
/// Lissajous curve that does not close); up by more than half a degree of roll.
const SWINGS: (f64, f64) =
    (0.111 * core::f64::consts::SQRT_2, 0.111 * core::f64::consts::GOLDEN_RATIO);
/// Frames of nearly the same height of the pointer that are told by the quickest of them.
const LIKE: usize = 10;
/// Most that a drag may hold more at its end than where memory was counted first, bytes.
const GROWS: usize = 64 * 1024;

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

/// Frames with the pointer nearly at one height do nearly the same: of each few the quickest, which leaves
/// out what else the machine did meanwhile.
fn print_quickest(frames: &[Frame], places: &[Pos2]) {
    let took = |frame: &Frame| frame.layout + frame.triangles;
    let mut all: Vec<(f32, f64)> =
        places.iter().zip(frames).map(|(place, frame)| (place.y, took(frame))).collect();
    all.sort_by(|one, other| one.0.total_cmp(&other.0));
    let quickest = |of: &[(f32, f64)]| of.iter().map(|of| of.1).fold(f64::INFINITY, f64::min);
    let mut all: Vec<f64> = all.chunks(LIKE).map(quickest).collect();
    all.sort_by(f64::total_cmp);
    let (median, p99) = (all[all.len() / 2], all[all.len() * 99 / 100]);
    println!(
        "the quickest of {LIKE} such frames each: median {median:.2} ms, 99th percentile {p99:.2} ms"
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
    let survey = Survey::shipped().expect("the survey can be read");
    let said = |what: &str, ms: f64| println!("  {what}: {ms:.2} ms");
    println!("parts of such a frame by themselves, medians:");
    let mut desk: Desk = workbench(demo_with(CANDIDATES), None).desk().clone();
    let selected = desk.selected().expect("one is spoken of").clone();
    let roll = roll(&desk);
    let mut sessions = Vec::new();
    let change = median(|turn| {
        let to = roll + if turn % 2 == 0 { 0.5 } else { 0.0 };
        let change = CockpitEdit::Number { quantity: Quantity::Roll, to };
        let edit = Edit::Cockpit { visit: desk.look().visit, id: selected.id.clone(), change };
        desk.apply(Command::Edit(edit, Some(Gesture(1))));
        if turn < 2 {
            sessions.push(desk.session().clone());
        }
    });
    said("the change itself: copied, checked, weighed, kept for undo", change);
    let mut before = Before::default();
    let mut again = |turn: usize| {
        let session = &sessions[turn % 2];
        let visit = session.latest_visit().expect("it has a visit");
        weigh_visit_again(session, visit, &survey, &mut before).expect("it weighs")
    };
    said("of that, checked and weighed", median(|turn| drop(black_box(again(turn)))));
    let visit = sessions[0].latest_visit().expect("it has a visit");
    let afresh = || weigh_visit(&sessions[0], visit, &survey);
    said("all cockpits weighed from nothing", median(|_| drop(black_box(afresh()))));
    let weighed = [again(0), again(1)];
    let choice = SideChoice::usual(&weighed[0]);
    let window = close_window(&silent_side_view(&weighed[0], &choice, &English), 1.5);
    let mut kept = KeptShapes::default();
    let drawn = median(|turn| {
        let view = silent_side_view(&weighed[turn % 2], &choice, &English);
        black_box(both_scenes(&view, window, 1.0, &mut kept));
    });
    said("both drawings as lines and shapes", drawn);
    let table = median(|turn| drop(black_box(bench_table(&weighed[turn % 2], choice.place))));
    said("the table of differences", table);
}

/// Where the pointer is in each frame of a drag.
#[expect(clippy::cast_possible_truncation, reason = "places on the screen are of single precision")]
fn places(handle: Pos2, count: usize) -> Vec<Pos2> {
    let turn = |frame: usize, swings: f64| {
        // where memory is counted it is at the beginning of its swings
        let frame = if frame.is_multiple_of(COUNTED) { 0.0 } else { frame as f64 };
        ((frame * swings).fract() * core::f64::consts::TAU) as f32
    };
    let place = |frame| {
        let (across, up) = (turn(frame, SWINGS.0).sin(), turn(frame, SWINGS.1).cos());
        handle + vec2(SWING.0 * across, SWING.1 * up)
    };
    (1..=count).map(place).collect()
}

/// How many of some places are not one of the others.
fn different(places: &[Pos2]) -> usize {
    places.iter().map(|place| (place.x.to_bits(), place.y.to_bits())).collect::<BTreeSet<_>>().len()
}

/// The roll of the cockpit that is dragged, degrees.
fn roll(desk: &Desk) -> f64 {
    let selected = desk.selected().expect("one is spoken of");
    cockpit_number(selected, Quantity::Roll).expect("it rolls")
}

/// Takes hold of the roll and swings it, for many frames.
fn drag(bare: &mut Bare, handle: Pos2) {
    let asked = std::env::var("BARWRIGHT_FRAMES").ok();
    let count = asked.map_or(DRAGGED, |text| text.parse().expect("a number of frames"));
    bare.frame(vec![Event::PointerMoved(handle)]);
    bare.frame(vec![pressed(handle, true)]);
    let steps_before = steps(bare.bench.desk());
    // nothing of the counting itself grows
    let mut frames = Vec::with_capacity(count);
    let (mut changed, mut held) = (0, Vec::with_capacity(count / COUNTED + 1));
    let places = places(handle, count);
    let (different, counted) = (different(&places), count / COUNTED);
    let mut rolls = Vec::with_capacity(count);
    for (place, frame) in places.iter().zip(1..) {
        let before = bare.bench.desk().revision();
        let timed = bare.frame(vec![Event::PointerMoved(*place)]);
        changed += usize::from(bare.bench.desk().revision() != before);
        rolls.push(roll(bare.bench.desk()));
        frames.push(timed);
        if frame % COUNTED == 0 {
            held.push(HEAP.allocated());
        }
    }
    print("the roll is dragged", &frames);
    print_quickest(&frames, &places);
    rolls.sort_by(f64::total_cmp);
    rolls.dedup();
    println!(
        "{changed} of {count} frames of the drag changed the roll; {different} different places of the \
         pointer, {} different rolls, {:.1} to {:.1}°",
        rolls.len(),
        rolls[0],
        rolls[rolls.len() - 1],
    );
    bare.frame(vec![pressed(handle, false)]);
    let made = steps(bare.bench.desk()) - steps_before;
    println!("undo: {made} step(s)");
    let [first, .., last] = held[..] else { panic!("{count} frames are too few to count memory") };
    println!("bytes held at frame {COUNTED}: {first}, at frame {}: {last}", counted * COUNTED);
    assert_eq!(different, count - counted + 1, "the pointer came back to a place");
    assert!(last <= first + GROWS, "the drag keeps memory: {held:?}");
    assert!(changed * 10 >= frames.len() * 9, "the drag changed too little to be timed");
    assert_eq!(made, 1, "a drag is one step");
}

/// How many steps can be taken back.
fn steps(desk: &Desk) -> usize {
    let mut desk = desk.clone();
    core::iter::from_fn(|| {
        desk.can_undo()?;
        desk.apply(Command::Undo);
        Some(())
    })
    .count()
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

    drag(&mut bare, handle);
    parts();
}
