//! The page itself: A4 upright. What is said is measured first; the picture takes the height that
//! is left between it.

use super::content::{Content, Grid};
use super::figure::Figure;
use super::flow::{Column, Made, Style, block, line, list, rule, table};
use crate::picture::{Item, Picture, Rect, Role};
use crate::scene::{FontError, Ink, Theme, Weight, fitted, shrunk, text_width};
use crate::words::Words;

/// A4, 210 × 297 mm (ISO 216), points of 1/72 inch.
const WIDTH: f64 = 210.0 / 25.4 * 72.0;
const HEIGHT: f64 = 297.0 / 25.4 * 72.0;
/// Margins, points: left and right, top, bottom.
const MARGIN: f64 = 42.0;
const TOP: f64 = 36.0;
const BOTTOM: f64 = 30.0;
/// Between two columns, points.
const BETWEEN: f64 = 20.0;
/// Above a heading, points.
const ABOVE: f64 = 11.0;
/// Width kept free at the top right for a studio's name, points.
const STUDIO: f64 = 150.0;
/// The picture's height where there is much room, points.
const TALLEST: f64 = 292.0;
/// Its height that texts above it give way to, points.
const SHORTEST: f64 = 170.0;
/// Between it and what is next to it, points.
const AIR: f64 = 2.0;
/// Text sizes, points.
const BODY: f64 = 8.8;
const SMALL: f64 = 8.2;
const HEADING: f64 = 10.6;
/// Where the client is sent where the fit stops.
const STOP: f64 = 15.0;
/// What was decided: usual size, and least where the name is long.
const DECIDED: (f64, f64) = (11.4, 8.5);
/// Most lines of entries under "asked" and "wanted".
const MOST_LINES: usize = 7;
/// Most lines of one entry, and of one cell.
const EACH: usize = 3;
const EACH_CELL: usize = 3;
/// Shares of the columns of the two tables.
const CHANGES: [f64; 4] = [113.0, 38.0, 35.0, 78.0];
const SETTINGS: [f64; 3] = [56.0, 73.0, 73.0];

/// Something that was made at the top of the page, and its height.
struct Laid {
    items: Vec<Item>,
    height: f64,
}

/// Lays the sheet out.
pub(super) fn page(
    content: &Content,
    figure: &Figure<'_>,
    words: &dyn Words,
) -> Result<Picture, FontError> {
    let whole = Column { x: MARGIN, y: TOP, width: WIDTH - 2.0 * MARGIN };
    let header = header(content, whole, words)?;
    // from the foot upwards, so that the picture gets what is between
    let foot = foot(content, whole)?;
    let below = |y: f64| lower(content, figure, Column { y, ..whole });
    let bottom = HEIGHT - BOTTOM - foot.height - below(0.0)?.height;
    let under_header = Column { y: TOP + header.height, ..whole };
    let mut asked = asked(content, under_header, MOST_LINES, words)?;
    let picture_top = |asked: &Laid| {
        let y = under_header.y + asked.height + ABOVE;
        heading(Column { y, ..whole }, &content.picture).map(|(item, height)| (item, y + height))
    };
    let (mut title, mut top) = picture_top(&asked)?;
    for lines in (1..MOST_LINES).rev() {
        if bottom - top >= SHORTEST {
            break;
        }
        asked = self::asked(content, under_header, lines, words)?;
        (title, top) = picture_top(&asked)?;
    }
    let frame = Rect {
        x: whole.x,
        y: top + AIR,
        width: whole.width,
        height: (bottom - top - AIR).min(TALLEST),
    };

    let mut items = header.items;
    items.extend(asked.items);
    items.push(title);
    items.push(figure_part(figure.panels(frame, 8.0)));
    items.extend(below(frame.y + frame.height)?.items);
    items.extend(foot.items);
    let (title, language) = (content.title.clone(), content.language);
    Ok(Picture { width: WIDTH, height: HEIGHT, theme: Theme::Paper, title, language, items })
}

/// What hurts beside what is wanted, in at most so many lines.
fn asked(
    content: &Content,
    at: Column,
    lines: usize,
    words: &dyn Words,
) -> Result<Laid, FontError> {
    two_columns(
        at,
        0.60,
        |at| said(at, &content.asked, lines, words),
        |at| said(at, &content.wanted, lines, words),
    )
}

/// The drawings as one figure, the close look in a fine frame.
fn figure_part(panels: [crate::picture::Panel; 2]) -> Item {
    let [rider, close] = panels;
    let frame = close.frame;
    let edge = Item::Box { frame, fill: Ink::Ground, rule: Some((Ink::Rule, 0.6)), corner: 0.0 };
    Item::Part { role: Role::Figure, items: vec![Item::Panel(rider), edge, Item::Panel(close)] }
}

fn header(content: &Content, at: Column, words: &dyn Words) -> Result<Laid, FontError> {
    let room = at.width - STUDIO;
    let (client, size) = shrunk(&content.client, 21.0, 13.0, Weight::SemiBold, room)?;
    let name = Style { size, ..Style::strong(21.0) };
    let mut items = vec![Item::Part { role: Role::Title, items: vec![line(at, &client, name)] }];
    let mut y = at.y + Style::strong(21.0).leading();
    let under = fitted(&content.under_client, 9.6, Weight::Regular, at.width)?;
    let paragraph = |at: Column, text: &str, style: Style| Item::Part {
        role: Role::Paragraph,
        items: vec![line(at, text, style)],
    };
    items.push(paragraph(Column { y, ..at }, &under, Style::quiet(9.6)));
    y += Style::quiet(9.6).leading() + 5.0;
    let mut style = Style { ink: Ink::Accent, ..Style::strong(DECIDED.0) };
    if let Some(stop) = &content.stop {
        let large = Style { ink: Ink::Accent, ..Style::strong(STOP) };
        for text in stop {
            let (made, height) = block(Role::Paragraph, Column { y, ..at }, text, large, 3)?;
            items.push(made);
            y += height + AIR;
        }
        // what was decided before is no more than noted
        style = Style::quiet(DECIDED.0);
    }
    if let Some(first) = &content.first {
        let (made, height) =
            block(Role::Paragraph, Column { y, ..at }, first, Style::strong(DECIDED.0), 2)?;
        items.push(made);
        y += height + AIR;
    }
    let (text, size) = decided(content, at.width, words)?;
    items.push(paragraph(Column { y, ..at }, &text, Style { size, ..style }));
    y += style.leading() + 5.0;
    if let Some(text) = &content.not_as_read {
        let (made, height) =
            block(Role::Paragraph, Column { y, ..at }, text, Style::strong(BODY), 2)?;
        items.push(made);
        y += height + AIR;
    }
    items.push(rule(Column { y, ..at }, 0.9));
    Ok(Laid { items, height: y - at.y })
}

/// What was decided in one line, and its size. Of a name that is too long the end is left out, never
/// what is said of it: whether it was ridden and decided.
fn decided(content: &Content, room: f64, words: &dyn Words) -> Result<(String, f64), FontError> {
    let ((label, decision), (usual, least)) = (&content.decided, DECIDED);
    let said = |label: &str| match content.stop {
        Some(_) => words.sheet_noted(label, *decision),
        None => words.sheet_decided(label, *decision),
    };
    let around = text_width(&said(""), least, Weight::SemiBold)?;
    let label = fitted(label, least, Weight::SemiBold, room - around)?;
    shrunk(&said(&label), usual, least, Weight::SemiBold, room)
}

fn heading(at: Column, text: &str) -> Made<Item> {
    block(Role::Heading, at, text, Style { ink: Ink::Accent, ..Style::strong(HEADING) }, 1)
}

/// Two columns side by side, as high as the higher one.
fn two_columns(
    at: Column,
    share: f64,
    left: impl FnOnce(Column) -> Result<Laid, FontError>,
    right: impl FnOnce(Column) -> Result<Laid, FontError>,
) -> Result<Laid, FontError> {
    let width = (at.width - BETWEEN) * share;
    let first = left(Column { width, ..at })?;
    let x = at.x + width + BETWEEN;
    let second = right(Column { x, width: at.width - width - BETWEEN, ..at })?;
    let height = first.height.max(second.height);
    let items = first.items.into_iter().chain(second.items).collect();
    Ok(Laid { items, height })
}

/// A heading and what was said, as far as there is room; what is left out is counted.
fn said(
    at: Column,
    (title, entries): &(String, Vec<String>),
    lines: usize,
    words: &dyn Words,
) -> Result<Laid, FontError> {
    if entries.is_empty() {
        return Ok(Laid { items: Vec::new(), height: 0.0 });
    }
    let (title, height) = heading(Column { y: at.y + ABOVE, ..at }, title)?;
    let y = at.y + ABOVE + height + 1.0;
    let style = Style::regular(BODY);
    let most = style.leading() * (lines as f64 + 0.9);
    let mut shown = entries.len();
    loop {
        let mut kept: Vec<String> = entries[..shown].to_vec();
        if shown < entries.len() {
            kept.push(words.sheet_more(entries.len() - shown));
        }
        let (made, height) = list(Column { y, ..at }, &kept, style, EACH)?;
        if height <= most || shown == 0 {
            return Ok(Laid { items: vec![title, made], height: y + height - at.y });
        }
        shown -= 1;
    }
}

/// Everything under the picture: how to read it, what changes beside how it is set, what to do.
fn lower(content: &Content, figure: &Figure<'_>, at: Column) -> Result<Laid, FontError> {
    let mut laid = Laid { items: Vec::new(), height: 3.0 * AIR };
    for text in [&figure.caption, &content.glossary] {
        let at = Column { y: at.y + laid.height, ..at };
        let (made, height) = block(Role::Paragraph, at, text, Style::quiet(SMALL), 2)?;
        laid.push(made, height);
    }
    let tables = two_columns(
        Column { y: at.y + laid.height, ..at },
        0.575,
        |at| {
            let mut laid = Laid { items: Vec::new(), height: ABOVE };
            let (title, height) =
                heading(Column { y: at.y + ABOVE, ..at }, &content.changes.heading)?;
            laid.push(title, height + 1.0);
            for sentence in &content.moved {
                let at = Column { y: at.y + laid.height, ..at };
                let (made, height) = block(Role::Paragraph, at, sentence, Style::strong(BODY), 2)?;
                laid.push(made, height);
            }
            laid.height += 1.5;
            let mut laid = laid.table(at, &content.changes, &CHANGES)?;
            for text in &content.notes {
                let at = Column { y: at.y + laid.height + AIR, ..at };
                let (made, height) = block(Role::Paragraph, at, text, Style::quiet(SMALL), 2)?;
                laid.push(made, height + AIR);
            }
            Ok(laid)
        },
        |at| {
            let mut laid = Laid { items: Vec::new(), height: ABOVE };
            let (title, height) =
                heading(Column { y: at.y + ABOVE, ..at }, &content.settings.heading)?;
            laid.push(title, height);
            laid.table(at, &content.settings, &SETTINGS)
        },
    )?;
    laid.items.extend(tables.items);
    laid.height += tables.height + ABOVE;
    let (title, height) = heading(Column { y: at.y + laid.height, ..at }, &content.advice.0)?;
    laid.push(title, height + 1.0);
    let entries = &content.advice.1;
    let style = Style::regular(SMALL);
    let half = entries.len().div_ceil(2);
    let column = |entries: &[String], at: Column| {
        let (made, height) = list(at, entries, style, 4)?;
        Ok(Laid { items: vec![made], height })
    };
    let advice = two_columns(
        Column { y: at.y + laid.height, ..at },
        0.5,
        |at| column(&entries[..half], at),
        |at| column(&entries[half..], at),
    )?;
    laid.items.extend(advice.items);
    laid.height += advice.height;
    Ok(laid)
}

impl Laid {
    fn push(&mut self, item: Item, height: f64) {
        self.items.push(item);
        self.height += height;
    }

    fn table(mut self, at: Column, grid: &Grid, shares: &[f64]) -> Result<Self, FontError> {
        let at = Column { y: at.y + self.height, ..at };
        let (made, height) = table(at, grid, shares, SMALL + 0.3, EACH_CELL)?;
        self.push(made, height);
        Ok(self)
    }
}

fn foot(content: &Content, at: Column) -> Result<Laid, FontError> {
    let Some(text) = &content.foot else { return Ok(Laid { items: Vec::new(), height: 0.0 }) };
    let style = Style::quiet(7.0);
    let height = style.leading();
    let at = Column { y: HEIGHT - BOTTOM - height, ..at };
    let (made, _) = block(Role::Paragraph, at, text, style, 1)?;
    Ok(Laid { items: vec![made], height: height + 5.0 })
}
