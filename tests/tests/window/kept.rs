//! The window against the pictures of it that were looked at, and what such a picture must show.

use acceptance::compare::{Tolerance, different};
use acceptance::raster::Canvas;
use acceptance::weighed::{
    SAME_DEG, SAME_MM, angle, change, elbow, from_saddle, hand_travel, numbers, weighed,
};
use acceptance::window::{SIZE, Window};
use acceptance::window_pictures::{all, bench, file, from_png, png};
use egui::epaint::{ClippedShape, Shape};
use egui::{Color32, vec2};
use fit_desk::ThemeChoice;
use serde_json::Value;
use std::fs;
use std::path::Path;

/// Between two pictures that the same processor drew.
const OURS: Tolerance = Tolerance { mean: 2.0, channel: 16, points: 2 };

fn read(path: &Path) -> Vec<u8> {
    fs::read(path).unwrap_or_else(|error| {
        panic!(
            "{}: {error}. Write the pictures with `cargo run -p acceptance --example pictures`",
            path.display()
        )
    })
}

#[test]
fn the_window_is_the_one_that_was_looked_at() {
    for picture in all() {
        let name = picture.name;
        let twin = String::from_utf8(read(&picture.path("txt"))).unwrap();
        for (now, then) in picture.twin().lines().zip(twin.lines()) {
            assert_eq!(now, then, "{name}: what is heard");
        }
        assert_eq!(picture.twin().lines().count(), twin.lines().count(), "{name}: what is heard");
        let kept = from_png(&read(&picture.path("png")));
        let found = different(&picture.canvas, &kept, OURS);
        assert!(found.is_empty(), "{name}: another picture at {found:?}");
    }
}

/// What a picture of a real window may differ by: a graphics driver smooths edges in its own way.
const OTHERS: Tolerance = Tolerance { mean: 6.0, channel: 40, points: 6 };
/// Beside the kept pictures the one of a real window, that the README shows.
const REAL: &str = "real.png";

/// The picture in the README was taken of a real window. It is held to the window of these tests,
/// drawn by the processor in the same state; and what that one says is held to the output for other
/// programs. So every number in the picture is one that the program gives.
#[test]
fn the_readmes_picture_is_of_this_window_and_its_numbers_are_the_programs() {
    let readme = fs::read_to_string(acceptance::root().join("README.md")).unwrap();
    assert!(readme.contains(&format!("(tests/pictures/window/{REAL})")), "it shows the picture");
    let window = bench(SIZE, ThemeChoice::Light);
    let real = from_png(&read(&file(REAL)));
    let found = different(&window.picture(), &real, OTHERS);
    assert!(found.is_empty(), "another picture at {found:?}");

    let output = weighed(&window.copy_of("demo"));
    let cockpits = output["cockpits"].as_array().unwrap();
    let came = &cockpits[0];
    let mut compared = 0;
    for (head, same, answer) in QUESTIONS {
        for cockpit in cockpits {
            let label = cockpit["label"].as_str().unwrap();
            let (before, after) = (answer(came), answer(cockpit));
            let wanted = match change(before, after, same) {
                _ if cockpit["as_it_came"] == true => vec![after.round()],
                Some(by) => vec![after.round(), by],
                None => vec![],
            };
            let cell = window.cell(head, label);
            assert_eq!(numbers(&cell), wanted, "{head}, {label}: {cell}");
            assert_eq!(cell == "same", wanted.is_empty(), "{head}, {label}: {cell}");
            compared += 1;
        }
    }
    assert_eq!(compared, QUESTIONS.len() * cockpits.len());
    for cockpit in &cockpits[1..] {
        let label = cockpit["label"].as_str().unwrap();
        let [before, after] = [came, cockpit].map(|of| from_saddle(came, of, DROPS).unwrap());
        for (axis, head) in [(0, "Hands forward or back"), (1, "Hands up or down")] {
            let by = change(before[axis], after[axis], SAME_MM);
            let wanted: Vec<f64> = by.map(f64::abs).into_iter().collect();
            assert_eq!(numbers(&window.cell(head, label)), wanted, "{head}, {label}");
        }
    }
}

/// A visit begins with the hands there.
const DROPS: &str = "drops";

/// A question of the table, what counts as one answer, and the answer from the output.
type Asked = (&'static str, f64, fn(&Value) -> f64);
const QUESTIONS: [Asked; 10] = [
    ("Trunk above level", SAME_DEG, |of| angle(of, DROPS, "trunk").unwrap()),
    ("Bend of the straighter elbow", SAME_DEG, |of| elbow(of, DROPS).unwrap()),
    ("Head lifted to look ahead", SAME_DEG, |of| angle(of, DROPS, "neck").unwrap()),
    ("Thigh to trunk, at the top", SAME_DEG, |of| angle(of, DROPS, "hip_min").unwrap()),
    ("Hands, hoods to drops", SAME_MM, |of| hand_travel(of).unwrap()),
    ("Hands ahead of the saddle", SAME_MM, |of| from_saddle(of, of, DROPS).unwrap()[0]),
    ("Hands below the saddle", SAME_MM, |of| from_saddle(of, of, DROPS).unwrap()[1]),
    ("Bar width at the hoods", SAME_MM, |of| of["bar"]["width_hoods_cc"].as_f64().unwrap()),
    ("Bar width at the ends", SAME_MM, |of| of["bar"]["width_ends_cc"].as_f64().unwrap()),
    ("Bar reach", SAME_MM, |of| of["bar"]["reach"].as_f64().unwrap()),
];

// —— what such a comparison notices ——

/// The window drawn anew, with its shapes changed.
fn redrawn(window: &mut Window, change: impl Fn(&mut Vec<ClippedShape>)) -> Canvas {
    let harness = window.harness();
    let mut shapes = harness.output().shapes.clone();
    change(&mut shapes);
    let meshes = harness.ctx.tessellate(shapes, harness.output().pixels_per_point);
    window.drawn(&meshes)
}

/// Every text of the window by itself, a pixel to the right, to the left, up or down; and in a
/// colour that is a little fainter.
#[test]
fn a_label_that_moved_or_changed_its_colour_is_noticed() {
    let mut window = bench(SIZE, ThemeChoice::Light);
    let kept = from_png(&png(&window.picture()));
    let shapes = window.harness().output().shapes.clone();
    let texts: Vec<usize> = shapes
        .iter()
        .enumerate()
        .filter(|(_, of)| matches!(&of.shape, Shape::Text(text) if text.galley.text().len() > 3))
        .map(|(index, _)| index)
        .collect();
    assert!(texts.len() > 60, "{} texts", texts.len());
    let mut unnoticed = Vec::new();
    for index in texts {
        let Shape::Text(text) = &shapes[index].shape else { unreachable!("filtered") };
        let said = text.galley.text();
        for by in [vec2(2.0, 0.0), vec2(-2.0, 0.0), vec2(0.0, 2.0), vec2(0.0, -2.0)] {
            let moved = redrawn(&mut window, |all| all[index].shape.translate(by));
            if different(&moved, &kept, OURS).is_empty() {
                unnoticed.push((said.to_owned(), by));
            }
        }
    }
    assert!(unnoticed.is_empty(), "{unnoticed:?}");
}

#[test]
fn a_part_of_a_pixel_is_not_noticed() {
    let mut window = bench(SIZE, ThemeChoice::Light);
    let kept = from_png(&png(&window.picture()));
    for by in [vec2(0.2, 0.0), vec2(0.0, -0.2), vec2(-0.15, 0.15)] {
        let moved = redrawn(&mut window, |all| {
            all.iter_mut().for_each(|shape| shape.shape.translate(by));
        });
        assert_eq!(different(&moved, &kept, OURS), [], "{by:?}");
    }
}

#[test]
fn another_number_or_colour_or_theme_is_noticed() {
    let mut window = bench(SIZE, ThemeChoice::Light);
    let kept = from_png(&png(&window.picture()));
    assert_eq!(different(&window.picture(), &kept, OURS), []);
    // a digit of one cell, in either direction of the looser tolerance
    window.enter("roll of the bar", "0.5");
    window.key(egui::Modifiers::NONE, egui::Key::Escape);
    for tolerance in [OURS, OTHERS] {
        assert!(!different(&window.picture(), &kept, tolerance).is_empty());
    }
    // every colour of the ground a little darker
    let mut darker = from_png(&png(&bench(SIZE, ThemeChoice::Light).picture()));
    for pixel in &mut darker.pixels {
        let [red, green, blue, _] = pixel.to_array().map(|value| value.saturating_sub(3));
        *pixel = Color32::from_rgb(red, green, blue);
    }
    assert!(!different(&darker, &kept, OURS).is_empty());
}
