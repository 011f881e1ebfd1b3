//! How a complaint goes, drawn: its scores from 0 to 10, oldest first, each with its number and its day.
//!
//! Points of the screen, y up. The scores stand at equal distances, so that no label meets another; how
//! long it took is told by the days under them. A trial is of the day of its visit: where that stands
//! beside it the number of the trial takes its place.

use crate::scene::{Anchor, Ink, Layer, LayerName, Mark, Path, Pen, Scene, Weight, Window};
use crate::words::Words;
use fit_doc::course::{Course, Scored, ScoredAt};
use fit_math::DVec2;

/// Highest score.
const MOST: f64 = 10.0;
/// Scores that are drawn; the sentence beside the drawing says all.
const DRAWN: usize = 7;
/// Room over the highest point and under the lowest for numbers and days, points.
const ABOVE: f64 = 26.0;
const BELOW: f64 = 20.0;
/// Room at the left and right, points: half a day's label.
const BESIDE: f64 = 30.0;
/// Radius of a point, points; of one after a trial.
const DOT: f64 = 4.0;
const SMALL_DOT: f64 = 2.5;
/// How far a number stands over its point, points.
const OVER: f64 = 16.0;
/// Size of numbers and days, points.
const SIZE: (f64, f64) = (14.0, 12.0);

/// The drawing in that size, points; its twin is the sentence that says the same. Scores of a visit are
/// filled, those after a trial smaller, those of a note are rings.
pub fn trend_scene(course: &Course, size: DVec2, words: &dyn Words) -> Scene {
    let first = course.scores.len().saturating_sub(DRAWN);
    let drawn = &course.scores[first..];
    let height = (size.y - ABOVE - BELOW).max(1.0);
    let step = match drawn.len() {
        0 | 1 => 0.0,
        several => (size.x - 2.0 * BESIDE) / (several - 1) as f64,
    };
    let at = |index: usize, scored: &Scored| {
        let up = f64::from(scored.score).min(MOST) / MOST * height;
        DVec2::new(BESIDE + step * index as f64, BELOW + up)
    };
    let points: Vec<DVec2> = drawn.iter().enumerate().map(|(i, scored)| at(i, scored)).collect();
    let rule = Pen::solid(Ink::Rule, 1.0);
    let level = |y: f64| Path::segment(DVec2::new(0.0, y), DVec2::new(size.x, y));
    let grid = [0.0, height].map(|up| Mark::Stroke { path: level(BELOW + up), pen: rule });
    let pen = Pen::solid(Ink::Accent, 2.0);
    let mut line = vec![Mark::Stroke { path: Path::open(points.iter().copied()), pen }];
    let mut labels = Vec::new();
    for (index, (scored, &at)) in drawn.iter().zip(&points).enumerate() {
        let (radius, ink) = match scored.at {
            ScoredAt::Visit => (DOT, Ink::Accent),
            ScoredAt::Ride(_) => (SMALL_DOT, Ink::Accent),
            ScoredAt::Note => (DOT, Ink::Ground),
        };
        let dot = Path::circle(at, radius);
        line.push(Mark::Fill { path: dot.clone(), ink, opacity: 1.0 });
        line.push(Mark::Stroke { path: dot, pen });
        let text = |at, text, size, ink, weight| Mark::Text {
            at,
            anchor: Anchor::Middle,
            text,
            size,
            ink,
            weight,
        };
        let number = scored.score.to_string();
        let over = at + DVec2::new(0.0, OVER);
        labels.push(text(over, number, SIZE.0, Ink::Text, Weight::SemiBold));
        let before = index.checked_sub(1).and_then(|before| drawn.get(before));
        let same_day = before.is_some_and(|before| before.date == scored.date);
        let when = match scored.at {
            ScoredAt::Ride(number) if same_day => words.short_trial(number),
            _ => words.short_day(scored.date),
        };
        let under = DVec2::new(at.x, SIZE.1 / 2.0);
        labels.push(text(under, when, SIZE.1, Ink::Quiet, Weight::Regular));
    }
    let layer = |name, marks| Layer { name, marks };
    Scene {
        window: Window { least: DVec2::ZERO, most: size },
        layers: vec![
            layer(LayerName::Grid, grid.into()),
            layer(LayerName::Cockpits, line),
            layer(LayerName::Labels, labels),
        ],
        twin: vec![words.course(course)],
    }
}
