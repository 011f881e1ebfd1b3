//! The page that shows a bench from the side: the rider on the bike, the cockpits close up, and a
//! card for each cockpit. All words arrive finished.

use super::{Item, Panel, Picture, Rect};
use crate::scene::{
    Anchor, Dash, FontError, Ink, Layer, LayerName, Mark, Path, Pen, Scene, Series, Theme, Weight,
    Width, Window, shrunk,
};
use crate::side::{SideView, close_window, cockpits_scene, rider_scene};
use fit_math::DVec2;
use fit_math::bar::Bend;
use fit_math::tolerance::DRAWN_MM;

/// Width of the page, points.
const WIDTH: f64 = 1440.0;
/// Height of the page, points.
const HEIGHT: f64 = 900.0;
/// Margin round the page and gap between its parts, points.
const MARGIN: f64 = 28.0;
const GAP: f64 = 16.0;
/// Height of the heading, points.
const HEADING: f64 = 84.0;
/// Height of a drawing's caption, points.
const CAPTION: f64 = 40.0;
/// Height of the row of cards, points.
const CARDS: f64 = 222.0;
/// Share of the width that the whole rider takes.
const RIDER_SHARE: f64 = 0.37;
/// Width and height of a bend on its card, points.
const BEND: (f64, f64) = (72.0, 76.0);
/// How much of a bend's tube shows on its card (judgement).
const TUBE_OPACITY: f64 = 0.16;
/// Smallest size that a line is shrunk to, points.
const SMALLEST: f64 = 10.0;
/// From a card's top to the middle of its first fact, points.
const FACTS: f64 = 134.0;
/// From line to line on a card, in text sizes.
const LEADING: f64 = 1.5;
/// Most cards in a row; further cockpits keep their lines and labels in the drawing.
pub(super) const MOST_CARDS: usize = 5;

/// A card under the drawing.
#[derive(Debug, Clone, PartialEq)]
pub struct Card {
    /// The cockpit's short name.
    pub label: String,
    /// What its bar is called.
    pub bar: String,
    /// What the bar measures and how all is set, a line each.
    pub parts: Vec<String>,
    /// What it does, a line each.
    pub facts: Vec<String>,
}

/// The words on the page.
#[derive(Debug, Clone, PartialEq)]
pub struct PageWords {
    /// The client.
    pub client: String,
    /// Bike, visit and hand place.
    pub under_client: String,
    /// Over the rider.
    pub rider: String,
    /// Over the close look.
    pub close: String,
    /// What a square of the ground measures.
    pub squares: String,
    /// At the foot of the page.
    pub foot: String,
    /// The language of all these, as a tag.
    pub language: &'static str,
}

/// Puts the page together.
///
/// # Errors
/// When the embedded font cannot be read.
pub fn page_of_bench(
    view: &SideView<'_>,
    cards: &[Card],
    words: &PageWords,
    theme: Theme,
) -> Result<Picture, FontError> {
    let mut items = heading(words)?;
    let height = HEIGHT - HEADING - CARDS - MARGIN - 26.0 - GAP;
    let rider_width = (WIDTH - 2.0 * MARGIN - GAP) * RIDER_SHARE;
    let rider = Rect { x: MARGIN, y: HEADING, width: rider_width, height };
    let close = Rect {
        x: MARGIN + rider_width + GAP,
        width: WIDTH - 2.0 * MARGIN - GAP - rider_width,
        ..rider
    };
    let window = close_window(view, close.width / (close.height - CAPTION));
    let mm_per_point = window.size().x / close.width;
    for (frame, scene, caption) in [
        (rider, rider_scene(view), &words.rider),
        (close, cockpits_scene(view, window, mm_per_point), &words.close),
    ] {
        items.push(ground(frame));
        let drawing = Rect { y: frame.y + CAPTION, height: frame.height - CAPTION, ..frame };
        items.push(Item::Panel(Panel::fitted(drawing, scene)));
        let at = DVec2::new(frame.x + 16.0, frame.y + 22.0);
        items.push(text(at, Anchor::Start, caption, 15.0, Ink::Quiet, Weight::SemiBold));
    }
    let corner = DVec2::new(close.x + close.width - 16.0, close.y + 22.0);
    items.push(text(corner, Anchor::End, &words.squares, 13.0, Ink::Quiet, Weight::Regular));
    items.extend(cards_row(view, cards, HEADING + height + GAP)?);
    let foot = DVec2::new(MARGIN, HEIGHT - 20.0);
    items.push(text(foot, Anchor::Start, &words.foot, 13.0, Ink::Quiet, Weight::Regular));
    let title = format!("{} – {}", words.client, words.under_client);
    let language = words.language;
    Ok(Picture { width: WIDTH, height: HEIGHT, theme, title, language, items })
}

fn heading(words: &PageWords) -> Result<Vec<Item>, FontError> {
    let room = WIDTH - 2.0 * MARGIN;
    let (client, size) = shrunk(&words.client, 27.0, SMALLEST, Weight::SemiBold, room)?;
    let (under, under_size) = shrunk(&words.under_client, 16.0, SMALLEST, Weight::Regular, room)?;
    let item = |y, line: &str, size, ink, weight| {
        text(DVec2::new(MARGIN, y), Anchor::Start, line, size, ink, weight)
    };
    Ok(vec![
        item(34.0, &client, size, Ink::Text, Weight::SemiBold),
        item(63.0, &under, under_size, Ink::Quiet, Weight::Regular),
    ])
}

fn cards_row(view: &SideView<'_>, cards: &[Card], y: f64) -> Result<Vec<Item>, FontError> {
    let shown = cards.len().min(MOST_CARDS);
    let columns = shown.max(1) as f64;
    let width = (WIDTH - 2.0 * MARGIN - GAP * (columns - 1.0)) / columns;
    let mut items = Vec::new();
    for (index, card) in cards.iter().take(shown).enumerate() {
        let x = MARGIN + (width + GAP) * index as f64;
        let frame = Rect { x, y, width, height: CARDS };
        items.push(ground(frame));
        let ink = Ink::Series(Series(index));
        let (left, room) = (x + 16.0, width - 32.0);
        let bend = Rect { x: x + width - 14.0 - BEND.0, y: y + 6.0, width: BEND.0, height: BEND.1 };
        if let Some(cockpit) = view.cockpits.get(index) {
            let scene = bend_scene(cockpit.cockpit.bend(), Series(index));
            items.push(Item::Panel(Panel::fitted(bend, scene)));
        }
        let beside = room - BEND.0 - 8.0;
        let (label, size) = shrunk(&card.label, 17.0, SMALLEST, Weight::SemiBold, beside)?;
        let at = DVec2::new(left, y + 26.0);
        items.push(text(at, Anchor::Start, &label, size, ink, Weight::SemiBold));
        let (bar, size) = shrunk(&card.bar, 13.5, SMALLEST, Weight::Regular, beside)?;
        let at = DVec2::new(left, y + 52.0);
        items.push(text(at, Anchor::Start, &bar, size, Ink::Quiet, Weight::Regular));
        let parts = (&card.parts, y + 88.0, 13.5, Ink::Quiet, Weight::Regular);
        let facts = (&card.facts, y + FACTS, fact_size(&card.facts), Ink::Text, Weight::SemiBold);
        for (lines, top, size, ink, weight) in [parts, facts] {
            for (row, line) in lines.iter().enumerate() {
                let at = DVec2::new(left, top + size * LEADING * row as f64);
                let (line, size) = shrunk(line, size, SMALLEST, weight, room)?;
                items.push(text(at, Anchor::Start, &line, size, ink, weight));
            }
        }
    }
    Ok(items)
}

/// The size at which all facts have room on a card.
fn fact_size(facts: &[String]) -> f64 {
    let lines = facts.len().max(1) as f64;
    // the last line's lower half, and a line's height of air
    let size = (CARDS - FACTS) / (LEADING * (lines - 1.0) + 1.5);
    size.clamp(SMALLEST, 16.0)
}

/// The bend by itself, in the dash of its line over its tube and at one scale on all cards: what
/// family it is shows at a glance, and the card needs no other sample of its line.
fn bend_scene(bend: &Bend, series: Series) -> Scene {
    // tops that rise or sweep back would show as a stroke of their own, apart from the bend
    let from_the_tops = 2.0 * bend.tops_middle().s_mm;
    let chain = bend.chain().between(from_the_tops, bend.chain().length_mm());
    let points = chain.as_ref().unwrap_or(bend.chain()).samples(DRAWN_MM);
    // risen tops hang from the same height as level ones
    let top = points.iter().map(|p| p.y).fold(0.0, f64::max);
    let path = Path::open(points.into_iter().map(|p| p.truncate() - DVec2::new(0.0, top)));
    let pen = Pen {
        ink: Ink::Series(series),
        width: Width::Points(2.4),
        dash: series.dash(),
        opacity: 1.0,
    };
    let tube = Pen {
        width: Width::Mm(bend.dimensions().drops_mm),
        dash: Dash::Solid,
        opacity: TUBE_OPACITY,
        ..pen
    };
    let window = Window { least: DVec2::new(-55.0, -172.0), most: DVec2::new(115.0, 18.0) };
    let marks = vec![Mark::Stroke { path: path.clone(), pen: tube }, Mark::Stroke { path, pen }];
    let layer = Layer { name: LayerName::Cockpits, marks };
    Scene { window, layers: vec![layer], twin: Vec::new() }
}

fn ground(frame: Rect) -> Item {
    Item::Box { frame, fill: Ink::Ground, rule: Some((Ink::Rule, 1.0)), corner: 8.0 }
}

fn text(at: DVec2, align: Anchor, text: &str, size: f64, ink: Ink, weight: Weight) -> Item {
    Item::Text { at, align, text: text.to_owned(), size, ink, weight }
}

#[cfg(test)]
mod tests {
    use super::*;
    use fit_math::bar::{BarDimensions, Family};

    /// The sketch of a bar with risen tops begins where the bend does, at its highest, not with a
    /// stroke up from the clamp.
    #[test]
    fn a_card_sketches_the_bend_without_its_tops() {
        const LEVEL_MM: f64 = 3.0;
        let usual = BarDimensions::usual(Family::Variable, 80.0, 125.0, 460.0);
        let risen = BarDimensions { rise_rad: 0.2, ..usual }.build().unwrap();
        let clamp_to_highest =
            risen.chain().samples(DRAWN_MM).iter().map(|p| p.y).fold(0.0, f64::max);
        assert!(clamp_to_highest > 4.0 * LEVEL_MM, "{clamp_to_highest}");
        let scene = bend_scene(&risen, Series(1));
        let Some(Mark::Stroke { path, .. }) = scene.layers[0].marks.last() else {
            panic!("a line")
        };
        let highest = path.points.iter().map(|p| p.y).fold(f64::NEG_INFINITY, f64::max);
        assert!(highest - path.points[0].y < LEVEL_MM, "{highest} {}", path.points[0]);
    }
}
