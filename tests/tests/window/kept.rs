//! The window against the pictures of it that were looked at, and what such a picture must show.

use acceptance::compare::different;
use acceptance::raster::Canvas;
use acceptance::weighed::{
    SAME_DEG, SAME_MM, angle, change, elbow, from_saddle, hand_travel, numbers, weighed,
    wrist_change,
};
use acceptance::window::{SIZE, Window, sure};
use acceptance::window_pictures::{all, bench, file, from_png, png};
use egui::accesskit::Role;
use egui::epaint::{ClippedShape, Shape};
use egui::{Color32, Key, Modifiers, vec2};
use fit_desk::ThemeChoice;
use serde_json::Value;
use std::fs;
use std::path::Path;

/// Most that a tile may be off on average, of 255, before it shows something else. Measured: what
/// 256 colours in place of all cost is 4, a word that moves by a pixel is 15 or more.
const SAME: f64 = 6.0;
/// The same for a picture of a real window: a graphics driver smooths edges in its own way. Measured
/// with all colours: 3.4.
const SAME_FOR_OTHERS: f64 = 10.0;

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
        let found = different(&picture.canvas, &kept, SAME);
        assert!(found.is_empty(), "{name}: another picture at {:?} …", found.first());
    }
}

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
    let found = different(&window.picture(), &real, SAME_FOR_OTHERS);
    assert!(found.is_empty(), "another picture at {:?} …", found.first());

    let output = weighed(&window.copy_of("demo"));
    let cockpits = output["cockpits"].as_array().unwrap();
    let came = &cockpits[0];
    let mut cells = window.texts_of(Role::Cell);
    for cockpit in cockpits {
        let is_came = cockpit["as_it_came"] == true;
        let label = cockpit["label"].as_str().unwrap();
        let mut say = |head: &str, wanted: Option<Vec<f64>>| {
            let begin = format!("{head}, {label}: ");
            let at = cells.iter().position(|cell| cell.starts_with(&begin));
            let cell = cells.remove(at.unwrap_or_else(|| panic!("no “{begin}”")));
            let (says, _) = sure(&cell[begin.len()..]);
            match wanted {
                Some(wanted) => assert_eq!(numbers(says), wanted, "{cell}"),
                None => assert_eq!(says, if is_came { "–" } else { "same" }, "{cell}"),
            }
        };
        for (head, same, answer) in QUESTIONS {
            let (before, after) = (answer(came), answer(cockpit));
            let by = change(before, after, same).map(|by| vec![after.round(), by]);
            say(head, if is_came { Some(vec![after.round()]) } else { by });
        }
        // of the whole degrees that stand in the rows of the two places
        let trunk = |of: &Value, place: &str| {
            let [before, after] = [came, of].map(|of| angle(of, place, "trunk").unwrap());
            if change(before, after, SAME_DEG).is_none() { before.round() } else { after.round() }
        };
        let [before, after] = [came, cockpit].map(|of| trunk(of, "hoods") - trunk(of, DROPS));
        let by = change(before, after, SAME_DEG).map(|by| vec![after, by]);
        say("Trunk comes down with them", if is_came { Some(vec![after]) } else { by });
        let [before, after] = [came, cockpit].map(|of| from_saddle(came, of, DROPS).unwrap());
        for (axis, head) in [(0, "Hands forward or back"), (1, "Hands up or down")] {
            say(head, change(before[axis], after[axis], SAME_MM).map(|by| vec![by.abs()]));
        }
        // one over how far out the hands are; one per cent is the same
        let out = |of: &Value| of["places"][DROPS]["grip"][2].as_f64().unwrap();
        let effort = change(0.0, 100.0 * (out(came) / out(cockpit) - 1.0), 1.0);
        say("Effort to steer", effort.map(|by| vec![by.abs()]));
        let turn = change(0.0, wrist_change(came, cockpit, DROPS).unwrap(), SAME_DEG);
        say("Wrist tips sideways", turn.map(|by| vec![by.abs()]));
    }
    assert_eq!(cells, Vec::<String>::new(), "nothing in the table is left");
}

/// A visit begins with the hands there.
const DROPS: &str = "drops";

/// A question of the table, what counts as one answer, and the answer from the output.
type Asked = (&'static str, f64, fn(&Value) -> f64);
const QUESTIONS: [Asked; 8] = [
    ("Trunk above level", SAME_DEG, |of| angle(of, DROPS, "trunk").unwrap()),
    ("Bend of the straighter elbow", SAME_DEG, |of| elbow(of, DROPS).unwrap()),
    ("Head lifted to look ahead", SAME_DEG, |of| angle(of, DROPS, "neck").unwrap()),
    ("Thigh to trunk, at the top", SAME_DEG, |of| angle(of, DROPS, "hip_min").unwrap()),
    ("Brake reach to spare", SAME_MM, |of| {
        let spare = |side: &str| of["brake"][DROPS][side]["reserve"].as_f64().unwrap();
        spare("left").min(spare("right"))
    }),
    ("Hands, hoods to drops", SAME_MM, |of| hand_travel(of).unwrap()),
    ("Hands ahead of the saddle", SAME_MM, |of| from_saddle(of, of, DROPS).unwrap()[0]),
    ("Hands below the saddle", SAME_MM, |of| from_saddle(of, of, DROPS).unwrap()[1]),
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

/// Texts of every part of the window, each by itself a pixel aside.
#[test]
fn a_label_that_moved_is_noticed() {
    const EVERY: usize = 11;
    let mut window = bench(SIZE, ThemeChoice::Light);
    let kept = from_png(&png(&window.picture()));
    let shapes = window.harness().output().shapes.clone();
    let said = |of: &ClippedShape| match &of.shape {
        Shape::Text(text) => text.galley.text().to_owned(),
        _ => String::new(),
    };
    let in_sight = |of: &ClippedShape| of.clip_rect.contains_rect(of.shape.visual_bounding_rect());
    let texts = (0..shapes.len()).filter(|at| said(&shapes[*at]).chars().count() > 3);
    let texts: Vec<usize> = texts.filter(|at| in_sight(&shapes[*at])).collect();
    assert!(texts.len() > 60, "{} texts", texts.len());
    let ways = [vec2(1.0, 0.0), vec2(0.0, 1.0), vec2(-1.0, 0.0), vec2(0.0, -1.0)];
    for (turn, index) in texts.into_iter().step_by(EVERY).enumerate() {
        let by = ways[turn % ways.len()];
        let moved = redrawn(&mut window, |all| all[index].shape.translate(by));
        assert!(!different(&moved, &kept, SAME).is_empty(), "“{}” {by:?}", said(&shapes[index]));
        let further = redrawn(&mut window, |all| all[index].shape.translate(2.0 * by));
        let found = different(&further, &kept, SAME_FOR_OTHERS);
        assert!(!found.is_empty(), "“{}” {by:?} twice", said(&shapes[index]));
    }
}

/// What is drawn may lie a hair elsewhere on another processor; the rest is set on whole pixels.
#[test]
fn a_hair_is_not_noticed() {
    const HAIR: f32 = 0.02;
    let mut window = bench(SIZE, ThemeChoice::Light);
    let kept = from_png(&png(&window.picture()));
    let moved = redrawn(&mut window, |all| {
        let drawn = all.iter_mut().filter(|of| matches!(of.shape, Shape::Path(_) | Shape::Mesh(_)));
        drawn.for_each(|of| of.shape.translate(vec2(HAIR, -HAIR)));
    });
    assert_eq!(different(&moved, &kept, SAME), []);
}

#[test]
fn another_number_or_colour_is_noticed() {
    let mut window = bench(SIZE, ThemeChoice::Light);
    let before = window.picture();
    let kept = from_png(&png(&before));
    assert_eq!(different(&before, &kept, SAME), []);
    let mut darker = before;
    for pixel in &mut darker.pixels {
        let [red, green, blue, _] = pixel.to_array().map(|value| value.saturating_sub(8));
        *pixel = Color32::from_rgb(red, green, blue);
    }
    assert!(!different(&darker, &kept, SAME).is_empty());
    // one cell of the table says another number
    window.enter("roll of the bar", "0.5");
    window.key(Modifiers::NONE, Key::Escape);
    assert!(!different(&window.picture(), &kept, SAME_FOR_OTHERS).is_empty());
}
