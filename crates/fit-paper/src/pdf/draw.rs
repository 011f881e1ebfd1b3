//! Drawing on a PDF page: boxes, scenes clipped to their frames, and text.
//!
//! Points, y down. Every mark is tagged: what carries meaning gets an identifier that a tag of the
//! structure takes up, what does not is an artifact.

use super::PaperError;
use fit_view::picture::{Item, Panel, Rect};
use fit_view::scene::{
    Anchor, Ink, Mark, Path, Pen, Rgb, Theme, Weight, Width, glyphs, text_width,
};
use krilla::color::rgb;
use krilla::geom::{PathBuilder, Point};
use krilla::num::NormalizedF32;
use krilla::paint::{Fill, FillRule, LineCap, LineJoin, Stroke, StrokeDash};
use krilla::surface::Surface;
use krilla::tagging::{Artifact, ArtifactType, ContentTag, Identifier, SpanTag};
use krilla::text::{Font, GlyphId, KrillaGlyph};

/// Size of the halo that keeps labels readable over lines, in parts of the text's size.
const HALO: f64 = 0.28;
/// Half the height of a capital letter of Open Sans (1462 of 2048 units), in text sizes.
const MIDDLE: f64 = 0.357;
/// Control points of a Bézier quarter circle, in parts of its radius: 4 (√2 − 1) / 3.
const QUARTER: f64 = 0.552_284_749_830_793_6;

/// A number as PDF keeps it.
#[expect(clippy::cast_possible_truncation, reason = "PDF readers keep single precision")]
pub(super) fn number(value: f64) -> Result<f32, PaperError> {
    let short = value as f32;
    if short.is_finite() {
        Ok(short)
    } else {
        Err(PaperError(format!("{value} is no place on it")))
    }
}

/// A text without the signs that a PDF's text cannot hold: controls, and the two that are no
/// letters (U+FEFF, U+FFFE).
pub(super) fn readable(text: &str) -> String {
    let hidden = |c: char| c.is_control() || matches!(c, '\u{feff}' | '\u{fffe}');
    text.replace(hidden, "\u{fffd}")
}

/// What draws on a page.
pub(super) struct Brush<'a> {
    surface: Surface<'a>,
    regular: Font,
    semibold: Font,
    theme: Theme,
}

struct TextStyle {
    anchor: Anchor,
    size: f64,
    ink: Ink,
    weight: Weight,
}

impl<'a> Brush<'a> {
    /// A brush on a page.
    pub(super) fn new(surface: Surface<'a>, theme: Theme) -> Result<Self, PaperError> {
        let font = |weight: Weight| {
            let broken = || PaperError("a font that comes with the program cannot be read".into());
            Font::new(weight.font().into(), 0).ok_or_else(broken)
        };
        let (regular, semibold) = (font(Weight::Regular)?, font(Weight::SemiBold)?);
        Ok(Self { surface, regular, semibold, theme })
    }

    /// The page is drawn.
    pub(super) fn finish(self) {
        self.surface.finish();
    }

    /// The ground of the whole page; on paper that is the paper itself.
    pub(super) fn ground(&mut self, width: f64, height: f64) -> Result<(), PaperError> {
        if self.theme == Theme::Paper {
            return Ok(());
        }
        let frame = Rect { x: 0.0, y: 0.0, width, height };
        self.decoration(&Item::Box { frame, fill: Ink::Page, rule: None, corner: 0.0 })
    }

    /// Something that says nothing by itself.
    pub(super) fn decoration(&mut self, item: &Item) -> Result<(), PaperError> {
        self.surface.start_tagged(ContentTag::Artifact(Artifact::with_kind(ArtifactType::Layout)));
        let drawn = self.plain(item);
        self.surface.end_tagged();
        drawn
    }

    /// Drawings that are read as one.
    pub(super) fn figure(&mut self, items: &[Item]) -> Result<Identifier, PaperError> {
        let id = self.surface.start_tagged(ContentTag::Other);
        let leaves = items.iter().flat_map(Item::leaves);
        let drawn = leaves.into_iter().try_for_each(|item| self.plain(item));
        self.surface.end_tagged();
        drawn.map(|()| id)
    }

    /// A line of text, with a space behind it where more of the same text follows.
    pub(super) fn words(&mut self, item: &Item, more: bool) -> Result<Identifier, PaperError> {
        let id = self.surface.start_tagged(ContentTag::Span(SpanTag::empty()));
        let drawn = match item {
            Item::Text { at, align, text, size, ink, weight } => {
                let style = TextStyle { anchor: *align, size: *size, ink: *ink, weight: *weight };
                self.line((at.x, at.y), text, &style, more)
            }
            other => self.plain(other),
        };
        self.surface.end_tagged();
        drawn.map(|()| id)
    }

    /// Anything without parts, inside a tag that is already open.
    fn plain(&mut self, item: &Item) -> Result<(), PaperError> {
        match item {
            // its leaves are drawn one by one
            Item::Part { .. } => Ok(()),
            Item::Box { frame, fill, rule, corner } => self.rounded(frame, *corner, *fill, *rule),
            Item::Panel(panel) => self.panel(panel),
            Item::Text { at, align, text, size, ink, weight } => {
                let style = TextStyle { anchor: *align, size: *size, ink: *ink, weight: *weight };
                self.line((at.x, at.y), text, &style, false)
            }
        }
    }

    fn rounded(
        &mut self,
        frame: &Rect,
        corner: f64,
        fill: Ink,
        rule: Option<(Ink, f64)>,
    ) -> Result<(), PaperError> {
        let Some(path) = rounded(frame, corner)? else { return Ok(()) };
        self.surface.set_fill(Some(self.fill(fill, 1.0)));
        self.surface.set_stroke(match rule {
            Some((ink, width)) => Some(Stroke {
                paint: paint(self.theme.colour(ink)),
                width: number(width)?,
                ..Stroke::default()
            }),
            None => None,
        });
        self.surface.draw_path(&path);
        Ok(())
    }

    fn panel(&mut self, panel: &Panel) -> Result<(), PaperError> {
        let Some(clip) = rounded(&panel.frame, 0.0)? else { return Ok(()) };
        self.surface.push_clip_path(&clip, &FillRule::NonZero);
        let marks = panel.scene.layers.iter().flat_map(|layer| &layer.marks);
        let drawn = marks.into_iter().try_for_each(|mark| self.mark(panel, mark));
        self.surface.pop();
        drawn
    }

    fn mark(&mut self, panel: &Panel, mark: &Mark) -> Result<(), PaperError> {
        match mark {
            Mark::Stroke { path, pen } => {
                let Some(path) = polyline(panel, path, path.closed)? else { return Ok(()) };
                let stroke = self.stroke(pen, panel.points_per_mm)?;
                self.surface.set_fill(None);
                self.surface.set_stroke(Some(stroke));
                self.surface.draw_path(&path);
                Ok(())
            }
            Mark::Fill { path, ink, opacity } => {
                let Some(path) = polyline(panel, path, true)? else { return Ok(()) };
                self.surface.set_fill(Some(self.fill(*ink, *opacity)));
                self.surface.set_stroke(None);
                self.surface.draw_path(&path);
                Ok(())
            }
            Mark::Text { at, anchor, text, size, ink, weight } => {
                let at = panel.page_from_scene(*at);
                let style = TextStyle { anchor: *anchor, size: *size, ink: *ink, weight: *weight };
                self.halo((at.x, at.y), text, &style)?;
                self.line((at.x, at.y), text, &style, false)
            }
        }
    }

    /// The outlines of a text in the ink of its ground; drawn as shapes, so that the text is found
    /// once only.
    fn halo(&mut self, at: (f64, f64), text: &str, style: &TextStyle) -> Result<(), PaperError> {
        let ground = paint(self.theme.colour(Ink::Ground));
        self.surface.set_fill(None);
        self.surface.set_stroke(Some(Stroke {
            paint: ground,
            width: number(HALO * style.size)?,
            line_join: LineJoin::Round,
            opacity: opaque(0.9),
            ..Stroke::default()
        }));
        self.glyphs(at, &readable(text), style, true)
    }

    /// A text with its middle line at the point.
    fn line(
        &mut self,
        at: (f64, f64),
        text: &str,
        style: &TextStyle,
        space: bool,
    ) -> Result<(), PaperError> {
        let mut text = readable(text);
        if space && style.anchor == Anchor::Start {
            text.push(' ');
        }
        self.surface.set_fill(Some(self.fill(style.ink, 1.0)));
        self.surface.set_stroke(None);
        self.glyphs(at, &text, style, false)
    }

    fn glyphs(
        &mut self,
        (x, y): (f64, f64),
        text: &str,
        style: &TextStyle,
        as_shapes: bool,
    ) -> Result<(), PaperError> {
        let width = text_width(text, style.size, style.weight)?;
        let left = match style.anchor {
            Anchor::Start => x,
            Anchor::Middle => x - width / 2.0,
            Anchor::End => x - width,
        };
        let start = Point::from_xy(number(left)?, number(y + MIDDLE * style.size)?);
        let mut set = Vec::new();
        for glyph in glyphs(text, style.weight)? {
            set.push(KrillaGlyph {
                glyph_id: GlyphId::new(u32::from(glyph.id)),
                text_range: glyph.bytes,
                x_advance: number(glyph.advance)?,
                x_offset: 0.0,
                y_offset: 0.0,
                y_advance: 0.0,
                location: None,
            });
        }
        let font = match style.weight {
            Weight::Regular => self.regular.clone(),
            Weight::SemiBold => self.semibold.clone(),
        };
        self.surface.draw_glyphs(start, &set, font, text, number(style.size)?, as_shapes);
        Ok(())
    }

    fn fill(&self, ink: Ink, opacity: f64) -> Fill {
        let paint = paint(self.theme.colour(ink));
        Fill { paint, opacity: opaque(opacity), rule: FillRule::NonZero }
    }

    fn stroke(&self, pen: &Pen, points_per_mm: f64) -> Result<Stroke, PaperError> {
        let width = match pen.width {
            Width::Points(points) => points,
            Width::Mm(mm) => mm * points_per_mm,
        };
        let pattern = pen.dash.pattern().iter().map(|part| number(part * width));
        let array: Vec<f32> = pattern.collect::<Result<_, _>>()?;
        let dash = (!array.is_empty()).then_some(StrokeDash { array, offset: 0.0 });
        Ok(Stroke {
            paint: paint(self.theme.colour(pen.ink)),
            width: number(width)?,
            line_cap: LineCap::Round,
            line_join: LineJoin::Round,
            opacity: opaque(pen.opacity),
            dash,
            ..Stroke::default()
        })
    }
}

fn paint(Rgb(red, green, blue): Rgb) -> krilla::paint::Paint {
    rgb::Color::new(red, green, blue).into()
}

#[expect(clippy::cast_possible_truncation, reason = "between nought and one")]
fn opaque(opacity: f64) -> NormalizedF32 {
    NormalizedF32::new(opacity.clamp(0.0, 1.0) as f32).unwrap_or(NormalizedF32::ONE)
}

/// The corners of a path on the page; none where there is nothing to draw.
fn polyline(
    panel: &Panel,
    path: &Path,
    close: bool,
) -> Result<Option<krilla::geom::Path>, PaperError> {
    let mut builder = PathBuilder::new();
    for (index, point) in path.points.iter().enumerate() {
        let p = panel.page_from_scene(*point);
        let (x, y) = (number(p.x)?, number(p.y)?);
        if index == 0 { builder.move_to(x, y) } else { builder.line_to(x, y) }
    }
    if close {
        builder.close();
    }
    Ok(builder.finish())
}

/// A rectangle with rounded corners; none where it has no area.
fn rounded(frame: &Rect, corner: f64) -> Result<Option<krilla::geom::Path>, PaperError> {
    let radius = corner.min(frame.width / 2.0).min(frame.height / 2.0).max(0.0);
    let (left, top) = (frame.x, frame.y);
    let (right, bottom) = (left + frame.width, top + frame.height);
    let mut builder = PathBuilder::new();
    builder.move_to(number(left + radius)?, number(top)?);
    // each corner once round: where the straight edge ends, its point, where the next begins
    for [edge, point, next] in [
        [(right - radius, top), (right, top), (right, top + radius)],
        [(right, bottom - radius), (right, bottom), (right - radius, bottom)],
        [(left + radius, bottom), (left, bottom), (left, bottom - radius)],
        [(left, top + radius), (left, top), (left + radius, top)],
    ] {
        builder.line_to(number(edge.0)?, number(edge.1)?);
        let towards = |from: (f64, f64)| {
            let along = |a: f64, b: f64| number(a + (b - a) * QUARTER);
            Ok::<_, PaperError>((along(from.0, point.0)?, along(from.1, point.1)?))
        };
        let (a, b) = (towards(edge)?, towards(next)?);
        builder.cubic_to(a.0, a.1, b.0, b.1, number(next.0)?, number(next.1)?);
    }
    builder.close();
    Ok(builder.finish())
}
