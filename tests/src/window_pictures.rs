//! The pictures of the window that are kept and compared: the bench in both sizes and both looks,
//! and the bench in the middle of a visit. Beside each stands what a screen reader reads out, with
//! places, a line each: what the picture shows in words, and where a real pointer finds it.

#![expect(clippy::expect_used, reason = "test support: a failure here is a failed test")]

use crate::raster::Canvas;
use crate::root;
use crate::window::{Heard, SIZE, Window, demo};
use egui::accesskit::Role;
use egui::{Color32, Key, Modifiers};
use fit_desk::ThemeChoice;
use std::collections::BTreeMap;
use std::path::PathBuf;

/// A screen of the usual size, points.
pub const LARGE: (f32, f32) = (1920.0, 1080.0);

/// A picture of the window, with the name of its files.
#[derive(Debug)]
pub struct KeptWindow {
    /// Name without ending.
    pub name: &'static str,
    /// What is seen.
    pub canvas: Canvas,
    /// What is heard.
    pub heard: Vec<Heard>,
}

impl KeptWindow {
    fn of(name: &'static str, window: &Window) -> Self {
        Self { name, canvas: window.picture(), heard: window.heard() }
    }

    /// Where its file with that ending is kept.
    pub fn path(&self, ending: &str) -> PathBuf {
        file(&format!("{}.{ending}", self.name))
    }

    /// Everything that can be heard, a line each: place (left, top, width, height, whole points),
    /// role, name, value.
    pub fn twin(&self) -> String {
        let line = |heard: &Heard| {
            let place = heard.place;
            let value = heard.value.as_ref().filter(|value| **value != heard.name);
            let value = value.map_or_else(String::new, |value| format!(" = {value}"));
            let [left, top, width, height] =
                [place.left(), place.top(), place.width(), place.height()].map(f32::round);
            let text = format!("{:?} {}{value}", heard.role, heard.name);
            format!("{left} {top} {width} {height} {}\n", text.replace('\n', " "))
        };
        // lines of a text are parts of something that is read out as a whole
        let own = |h: &&Heard| h.role != Role::TextRun && !h.name.is_empty();
        self.heard.iter().filter(own).filter(|h| h.place.is_positive()).map(line).collect()
    }
}

/// A file among the pictures of the window.
pub fn file(name: &str) -> PathBuf {
    root().join("tests/pictures/window").join(name)
}

/// All pictures, made anew.
///
/// # Panics
/// When the window does not do what leads to them.
pub fn all() -> Vec<KeptWindow> {
    vec![
        KeptWindow::of("bench", &bench(SIZE, ThemeChoice::Light)),
        KeptWindow::of("bench-dark", &bench(SIZE, ThemeChoice::Dark)),
        KeptWindow::of("bench-large", &bench(LARGE, ThemeChoice::Light)),
        KeptWindow::of("bench-large-dark", &bench(LARGE, ThemeChoice::Dark)),
        KeptWindow::of("measures", &looked_at(Key::S, ThemeChoice::Light, true)),
        KeptWindow::of("measures-dark", &looked_at(Key::S, ThemeChoice::Dark, true)),
        KeptWindow::of("front", &looked_at(Key::F, ThemeChoice::Light, false)),
        KeptWindow::of("front-dark", &looked_at(Key::F, ThemeChoice::Dark, false)),
        KeptWindow::of("above", &looked_at(Key::A, ThemeChoice::Light, false)),
        KeptWindow::of("above-dark", &looked_at(Key::A, ThemeChoice::Dark, false)),
        KeptWindow::of("visit", &visit(ThemeChoice::Light)),
        KeptWindow::of("visit-dark", &visit(ThemeChoice::Dark)),
        KeptWindow::of("details", &details(ThemeChoice::Light)),
        KeptWindow::of("details-dark", &details(ThemeChoice::Dark)),
        KeptWindow::of("trial", &trial(ThemeChoice::Light)),
        KeptWindow::of("trial-dark", &trial(ThemeChoice::Dark)),
        KeptWindow::of("client-view", &for_client(SIZE, ThemeChoice::Light)),
        KeptWindow::of("client-view-dark", &for_client(LARGE, ThemeChoice::Dark)),
        KeptWindow::of("aims", &aims(ThemeChoice::Light)),
        KeptWindow::of("aims-dark", &aims(ThemeChoice::Dark)),
        KeptWindow::of("answers", &answers(ThemeChoice::Light)),
        KeptWindow::of("answers-dark", &answers(ThemeChoice::Dark)),
        KeptWindow::of("against-trial", &against_trial(ThemeChoice::Light)),
        KeptWindow::of("against-trial-dark", &against_trial(ThemeChoice::Dark)),
        KeptWindow::of("client", &client(ThemeChoice::Light)),
        KeptWindow::of("client-dark", &client(ThemeChoice::Dark)),
        KeptWindow::of("body", &place(Key::F6, ThemeChoice::Light)),
        KeptWindow::of("body-dark", &place(Key::F6, ThemeChoice::Dark)),
        KeptWindow::of("bike", &bike(ThemeChoice::Light)),
        KeptWindow::of("bike-dark", &bike(ThemeChoice::Dark)),
        KeptWindow::of("later", &later(ThemeChoice::Light)),
        KeptWindow::of("later-dark", &later(ThemeChoice::Dark)),
        KeptWindow::of("decision", &decision(ThemeChoice::Light)),
        KeptWindow::of("decision-dark", &decision(ThemeChoice::Dark)),
    ]
}

/// The demo client's bench, opened from a file.
///
/// # Panics
/// When it cannot be opened.
pub fn bench(size: (f32, f32), theme: ThemeChoice) -> Window {
    let mut window = Window::with(demo(), size);
    let file = window.copy_of("demo");
    window.open(&file);
    // without a desktop it begins light
    if theme == ThemeChoice::Dark {
        window.menu("Light or dark");
    }
    // the pointer hovers over nothing
    window.harness().remove_cursor();
    window.settle();
    window
}

/// The flared bar measured, looked at one way or another, with the ruler or without.
///
/// # Panics
/// When it cannot be looked at.
fn looked_at(key: Key, theme: ThemeChoice, ruler: bool) -> Window {
    let mut window = bench(SIZE, theme);
    window.press(Role::RadioButton, "Flared 440");
    window.key(Modifiers::NONE, Key::M);
    window.key(Modifiers::NONE, key);
    if ruler {
        window.key(Modifiers::NONE, Key::D);
        for key in [Key::ArrowUp, Key::ArrowRight] {
            window.key(Modifiers::SHIFT, key);
        }
    }
    window.harness().remove_cursor();
    window.settle();
    window
}

/// The walk round the demo client's bike, nose to bar mistyped in centimetres and the bar's middle
/// read too low.
///
/// # Panics
/// When it cannot be typed.
fn bike(theme: ThemeChoice) -> Window {
    let mut window = bench(SIZE, theme);
    window.key(Modifiers::NONE, Key::F7);
    window.enter("nose to the hood", "65.7");
    window.enter("middle of the bar below the saddle", "86");
    window.harness().remove_cursor();
    window.settle();
    window
}

/// A bar from stock on the bench, with the hoods brought back; the hands are on the hoods.
///
/// # Panics
/// When the stock has no such bar.
fn visit(theme: ThemeChoice) -> Window {
    let mut window = bench(SIZE, theme);
    window.key(Modifiers::NONE, Key::Num3);
    window.key(Modifiers::COMMAND, Key::B);
    window.type_text(NEW_BAR);
    window.key(Modifiers::NONE, Key::Tab);
    window.key(Modifiers::NONE, Key::Space);
    window.key(Modifiers::COMMAND, Key::H);
    window
}

/// What stands behind the differences of the first candidate, hands in the drops.
fn details(theme: ThemeChoice) -> Window {
    let mut window = bench(SIZE, theme);
    window.key(Modifiers::COMMAND, Key::E);
    window
}

/// A second trial that is running: the neck is scored, the brakes are asked next.
///
/// # Panics
/// When it cannot be begun.
fn trial(theme: ThemeChoice) -> Window {
    let mut window = bench(SIZE, theme);
    for score in ["4", "3"] {
        window.key(Modifiers::NONE, Key::T);
        window.type_text(score);
        window.key(Modifiers::NONE, Key::Enter);
        if score == "4" {
            window.press(Role::RadioButton, "likes it");
            window.key(Modifiers::COMMAND, Key::Enter);
        }
    }
    window.harness().remove_cursor();
    window.settle();
    window
}

/// What the client may see of a flared bar, hands on the hoods.
fn for_client(size: (f32, f32), theme: ThemeChoice) -> Window {
    let mut window = bench(size, theme);
    window.key(Modifiers::NONE, Key::Num3);
    window.key(Modifiers::NONE, Key::F11);
    window.key(Modifiers::NONE, Key::ArrowRight);
    window
}

/// After two trials, the second of a changed copy: all against the last of them.
fn against_trial(theme: ThemeChoice) -> Window {
    let mut window = bench(SIZE, theme);
    for (score, spacers) in [("4", "30"), ("3", "25")] {
        window.key(Modifiers::NONE, Key::T);
        window.type_text(score);
        window.key(Modifiers::NONE, Key::Enter);
        window.key(Modifiers::COMMAND, Key::Enter);
        window.enter("spacers under the stem", spacers);
    }
    window.key(Modifiers::NONE, Key::Escape);
    window.key(Modifiers::NONE, Key::L);
    window.harness().remove_cursor();
    window.settle();
    window
}

/// What is looked for, in the place of the set-up.
fn aims(theme: ThemeChoice) -> Window {
    let mut window = bench(SIZE, theme);
    window.key(Modifiers::NONE, Key::C);
    window
}

/// What of the shop is worth trying.
fn answers(theme: ThemeChoice) -> Window {
    let mut window = bench(SIZE, theme);
    window.key(Modifiers::COMMAND, Key::F);
    window.settle();
    window.harness().run();
    window
}

/// What brings the client, a knee tapped besides, the saddle looked at in part, one red flag.
///
/// # Panics
/// When it cannot be tapped.
fn client(theme: ThemeChoice) -> Window {
    let mut window = place(Key::F5, theme);
    window.press(Role::RadioButton, "left knee");
    window.press(Role::RadioButton, "The saddle first: cleats: done");
    window.press(Role::RadioButton, "dizzy on looking up");
    window.harness().remove_cursor();
    window.settle();
    window
}

/// A client who comes back after three months: the bar has slipped, how it went is asked.
///
/// # Panics
/// When the session cannot be put together.
fn later(theme: ThemeChoice) -> Window {
    let (_, session) = crate::demo::followed().expect("a session");
    let mut window = Window::with(session, SIZE);
    // without a desktop it begins light
    if theme == ThemeChoice::Dark {
        window.menu("Light or dark");
    }
    window.key(Modifiers::NONE, Key::F10);
    window.harness().remove_cursor();
    window.settle();
    window
}

/// After a trial of the other stem: a bar is vetoed, another stem proposed, an hour has its price.
///
/// # Panics
/// When it cannot be decided.
fn decision(theme: ThemeChoice) -> Window {
    let mut window = bench(SIZE, theme);
    window.press(Role::RadioButton, "Same bar, stem 90");
    window.key(Modifiers::NONE, Key::T);
    window.type_text("3");
    window.key(Modifiers::NONE, Key::Enter);
    window.press(Role::RadioButton, "likes it");
    window.key(Modifiers::COMMAND, Key::Enter);
    window.key(Modifiers::NONE, Key::F9);
    window.press(Role::RadioButton, "Compact 420: Will not do");
    window.enter("price of an hour in the workshop", "60");
    window.press(Role::Button, "Same bar, stem 90: Choose it");
    window.harness().remove_cursor();
    window.settle();
    window
}

/// Another place of work.
fn place(key: Key, theme: ThemeChoice) -> Window {
    let mut window = bench(SIZE, theme);
    window.key(Modifiers::NONE, key);
    window
}

/// What finds the bar of that visit in the stock.
const NEW_BAR: &str = "ergo 420";

/// A picture as a PNG file in 256 colours, a pixel to a pixel: a third as large as with all of them,
/// and no eye sees the difference.
///
/// # Panics
/// When the picture is empty.
pub fn png(canvas: &Canvas) -> Vec<u8> {
    let palette = palette(canvas);
    let mut nearest: BTreeMap<[u8; 3], u8> = BTreeMap::new();
    let index = |pixel: &Color32| {
        let colour = channels(*pixel);
        *nearest.entry(colour).or_insert_with(|| {
            let far = |other: &[u8; 3]| -> u32 {
                let apart = colour.iter().zip(other).map(|(a, b)| u32::from(a.abs_diff(*b)).pow(2));
                apart.sum()
            };
            let found = (0..=u8::MAX).zip(&palette).min_by_key(|(_, other)| far(other));
            found.expect("a colour").0
        })
    };
    let indices: Vec<u8> = canvas.pixels.iter().map(index).collect();
    let mut bytes = Vec::new();
    let size = |pixels: usize| u32::try_from(pixels).expect("a picture");
    let mut encoder = png::Encoder::new(&mut bytes, size(canvas.width), size(canvas.height));
    encoder.set_color(png::ColorType::Indexed);
    encoder.set_palette(palette.concat());
    encoder.set_compression(png::Compression::High);
    // neighbours in a list of colours are no neighbours to the eye: differences gain nothing
    encoder.set_filter(png::Filter::NoFilter);
    let mut writer = encoder.write_header().expect("the head of a file");
    writer.write_image_data(&indices).expect("its pixels");
    writer.finish().expect("its end");
    bytes
}

/// The colours that stand for all: the most frequent, then again and again the one that is missed
/// most, by how many points have it and how far the nearest of those taken is.
fn palette(canvas: &Canvas) -> Vec<[u8; 3]> {
    let mut counts: BTreeMap<[u8; 3], u64> = BTreeMap::new();
    for pixel in &canvas.pixels {
        *counts.entry(channels(*pixel)).or_default() += 1;
    }
    let mut missed: Vec<_> = counts.into_iter().map(|of| (of, u64::MAX)).collect();
    let mut palette = Vec::new();
    while palette.len() < 256 {
        let most = missed.iter().max_by_key(|((_, count), off)| count.saturating_mul(*off));
        let Some(&((taken, _), _)) = most.filter(|(_, off)| *off > 0) else { break };
        palette.push(taken);
        for ((colour, _), off) in &mut missed {
            let apart = colour.iter().zip(taken).map(|(a, b)| u64::from(a.abs_diff(b)).pow(2));
            *off = (*off).min(apart.sum());
        }
    }
    palette
}

fn channels(colour: Color32) -> [u8; 3] {
    [colour.r(), colour.g(), colour.b()]
}

/// A picture from a PNG file, opaque.
///
/// # Panics
/// When it is none, or one without colours.
pub fn from_png(bytes: &[u8]) -> Canvas {
    let mut decoder = png::Decoder::new(std::io::Cursor::new(bytes));
    decoder.set_transformations(png::Transformations::EXPAND | png::Transformations::STRIP_16);
    let mut reader = decoder.read_info().expect("a picture");
    let mut pixels = vec![0; reader.output_buffer_size().expect("a size")];
    let info = reader.next_frame(&mut pixels).expect("its pixels");
    let samples = info.color_type.samples();
    assert!(samples >= 3, "a picture in colours");
    let colour = |pixel: &[u8]| Color32::from_rgb(pixel[0], pixel[1], pixel[2]);
    let (width, height) = (info.width as usize, info.height as usize);
    Canvas { width, height, pixels: pixels.chunks_exact(samples).map(colour).collect() }
}
