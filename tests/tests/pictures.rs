//! The drawn pictures against the kept ones, and what must hold of any of them.

#![expect(clippy::unwrap_used, reason = "a failure here is a failed test")]

use acceptance::pictures::{Kept, all};
use fit_view::picture::{Item, Panel};
use fit_view::scene::{Anchor, Ink, LayerName, Mark, text_width};
use resvg::tiny_skia::Pixmap;
use std::fs;

/// A pixel differs when one of its channels does by more than this, of 255.
const CHANNEL: u8 = 12;
/// Share of pixels that may differ: a hair of anti-aliasing, not a line.
const SHARE: f64 = 0.0005;

fn kept(path: &std::path::Path) -> Vec<u8> {
    fs::read(path).unwrap_or_else(|e| {
        panic!(
            "{}: {e}. Write the pictures with `cargo run -p acceptance --example pictures`",
            path.display()
        )
    })
}

fn different(a: &Pixmap, b: &Pixmap) -> f64 {
    assert_eq!((a.width(), a.height()), (b.width(), b.height()));
    let far = |(x, y): (&[u8], &[u8])| x.iter().zip(y).any(|(p, q)| p.abs_diff(*q) > CHANNEL);
    let count = a.data().chunks(4).zip(b.data().chunks(4)).filter(|pair| far(*pair)).count();
    count as f64 / f64::from(a.width() * a.height())
}

#[test]
fn pictures_are_the_ones_that_were_looked_at() {
    for picture in all() {
        let twin = String::from_utf8(kept(&picture.path("txt"))).unwrap();
        assert_eq!(picture.twin(), twin, "{}: the picture in words", picture.name);
        let old = Pixmap::decode_png(&kept(&picture.path("png"))).unwrap();
        let new = Pixmap::decode_png(&fit_paper::png(&picture.picture, 1.0).unwrap()).unwrap();
        let share = different(&old, &new);
        assert!(share <= SHARE, "{}: {:.3} % of the pixels differ", picture.name, 100.0 * share);
    }
}

#[test]
fn a_picture_that_lost_a_line_is_noticed() {
    let mut picture = all().swap_remove(0);
    let old = Pixmap::decode_png(&fit_paper::png(&picture.picture, 1.0).unwrap()).unwrap();
    for item in &mut picture.picture.items {
        if let Item::Panel(panel) = item {
            for layer in &mut panel.scene.layers {
                if layer.name == LayerName::Cockpits {
                    layer.marks.pop();
                }
            }
        }
    }
    let new = Pixmap::decode_png(&fit_paper::png(&picture.picture, 1.0).unwrap()).unwrap();
    assert!(different(&old, &new) > SHARE);
}

/// Left, right and middle height of every label in a panel, on the page, with its half height.
fn labels(panel: &Panel) -> Vec<(String, [f64; 4])> {
    let layer = panel.scene.layers.iter().filter(|layer| layer.name == LayerName::Labels);
    let texts = layer.flat_map(|layer| &layer.marks).filter_map(|mark| match mark {
        Mark::Text { at, anchor, text, size, weight, .. } => {
            let width = text_width(text, *size, *weight).unwrap();
            let at = panel.page_from_scene(*at);
            let left = match anchor {
                Anchor::Start => at.x,
                Anchor::Middle => at.x - width / 2.0,
                Anchor::End => at.x - width,
            };
            Some((text.clone(), [left, left + width, at.y - size / 2.0, at.y + size / 2.0]))
        }
        _ => None,
    });
    texts.collect()
}

fn panels(kept: &Kept) -> impl Iterator<Item = &Panel> {
    kept.picture.items.iter().filter_map(|item| match item {
        Item::Panel(panel) => Some(panel),
        _ => None,
    })
}

#[test]
fn every_cockpit_has_a_label_that_is_inside_and_touches_no_other() {
    for picture in all() {
        let mut found = 0;
        for panel in panels(&picture) {
            let labels = labels(panel);
            for (i, (text, a)) in labels.iter().enumerate() {
                found += 1;
                let f = &panel.frame;
                let inside =
                    a[0] > f.x && a[1] < f.x + f.width && a[2] > f.y && a[3] < f.y + f.height;
                assert!(inside, "{}: “{text}” leaves its frame", picture.name);
                for (other, b) in &labels[..i] {
                    let apart = a[1] <= b[0] || b[1] <= a[0] || a[3] <= b[2] || b[3] <= a[2];
                    assert!(apart, "{}: “{text}” lies on “{other}”", picture.name);
                }
            }
        }
        let places = if picture.name.ends_with("all-hands") { 5 } else { 0 };
        assert_eq!(found, 5 + places, "{}: as it came and four candidates", picture.name);
    }
}

/// Texts that begin in a box end in it, with air to its edge.
#[test]
fn what_stands_on_a_card_stays_on_it() {
    const AIR: f64 = 10.0;
    for picture in all() {
        let boxes: Vec<_> = picture
            .picture
            .items
            .iter()
            .filter_map(|item| match item {
                Item::Box { frame, .. } => Some(*frame),
                _ => None,
            })
            .collect();
        let mut on_cards = 0;
        for item in &picture.picture.items {
            let Item::Text { at, align: Anchor::Start, text, size, weight, .. } = item else {
                continue;
            };
            let inside = |f: &&fit_view::picture::Rect| {
                (f.x..f.x + f.width).contains(&at.x) && (f.y..f.y + f.height).contains(&at.y)
            };
            let Some(f) = boxes.iter().find(inside) else { continue };
            on_cards += 1;
            let (right, below) =
                (at.x + text_width(text, *size, *weight).unwrap(), at.y + size / 2.0);
            let fits = right + AIR <= f.x + f.width && below + AIR <= f.y + f.height;
            assert!(fits, "{}: “{text}” at the edge of its card", picture.name);
        }
        assert!(on_cards >= 5 * 5, "{}: {on_cards}", picture.name);
    }
}

/// A point is inside a closed outline (even-odd rule).
fn encloses(outline: &[fit_math::DVec2], p: fit_math::DVec2) -> bool {
    let edges = outline.iter().zip(outline.iter().cycle().skip(1));
    let crossed = |(a, b): &(&fit_math::DVec2, &fit_math::DVec2)| {
        (a.y > p.y) != (b.y > p.y) && p.x < a.x + (p.y - a.y) / (b.y - a.y) * (b.x - a.x)
    };
    edges.filter(crossed).count() % 2 == 1
}

/// In every hand place the arm ends in a fist that is closed around the mark of the hand.
#[test]
fn the_arm_ends_in_a_hand() {
    for picture in all() {
        let panel = panels(&picture).nth(1).unwrap();
        let marks = |name| {
            let layer = panel.scene.layers.iter().find(|layer| layer.name == name).unwrap();
            layer.marks.iter()
        };
        let middle = |points: &[fit_math::DVec2]| {
            points.iter().sum::<fit_math::DVec2>() / points.len() as f64
        };
        let rings = marks(LayerName::Hands).filter_map(|mark| match mark {
            Mark::Fill { path, .. } => Some(middle(&path.points)),
            _ => None,
        });
        let rings: Vec<_> = rings.collect();
        let fists = |layer| {
            marks(layer).filter_map(|mark| match mark {
                Mark::Stroke { path, pen } if pen.ink == Ink::RiderEdge && path.closed => {
                    Some(path.points.as_slice())
                }
                _ => None,
            })
        };
        let fist = fists(LayerName::Hands).next().unwrap();
        // the cockpit that is ridden is drawn last
        let held: Vec<_> = rings.iter().filter(|ring| encloses(fist, **ring)).collect();
        assert!(!held.is_empty(), "{}: an empty fist", picture.name);
        if rings.len() == 5 {
            assert!(encloses(fist, rings[4]), "{}: the fist is elsewhere", picture.name);
        }
        let of_the_body = fists(LayerName::Rider).any(|part| part == fist);
        assert!(of_the_body, "{}: the hand is of the body", picture.name);
    }
}

#[test]
fn the_close_look_is_true_to_scale() {
    // the squares of the ground are 100 mm and square on the page
    for picture in all() {
        let panel = panels(&picture).nth(1).unwrap();
        let page = |x, y| panel.page_from_scene(fit_math::DVec2::new(x, y));
        let (wide, high) = (page(100.0, 0.0) - page(0.0, 0.0), page(0.0, 100.0) - page(0.0, 0.0));
        assert!((wide.length() - high.length()).abs() < 1e-9 && wide.y == 0.0 && high.x == 0.0);
        assert!(wide.length() > 100.0, "a millimetre is more than a point: {}", wide.length());
    }
}

#[test]
fn the_same_bench_gives_the_same_bytes() {
    let (one, two) = (all(), all());
    for (a, b) in one.iter().zip(&two) {
        assert_eq!(fit_paper::svg(&a.picture), fit_paper::svg(&b.picture));
    }
}
