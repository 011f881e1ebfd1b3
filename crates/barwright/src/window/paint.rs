//! A scene on the window: millimetres to points, lines with their dashes, filled shapes, labels.
//!
//! Lines have round ends as on paper, so that dots are dots. Shapes may be concave: they are cut
//! into triangles, and their edge is drawn over in the same colour, which smooths it.

use super::strip::{Disc, strips};
use super::theme::{colour, font};
use eframe::egui;
use egui::epaint::{Mesh, PathShape, PathStroke};
use egui::{Align2, Color32, Painter, Pos2, Rect, Shape, Stroke, pos2, vec2};
use fit_math::DVec2;
use fit_view::scene::{Anchor, Ink, LayerName, Mark, Path, Pen, Scene, Theme, Width, Window};

/// How far a line may be from where it belongs before it shows, points (judgement).
const UNSEEN: f32 = 0.09;
/// Most points that one straight piece takes the place of: each is looked at again with the next.
const LONGEST: usize = 24;

/// Where a part of a scene lies on the window: the middle of one in the middle of the other, the
/// same scale in both directions.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct View {
    pub(super) frame: Rect,
    pub(super) middle: DVec2,
    pub(super) points_per_mm: f64,
}

impl View {
    /// A view that just holds the window.
    pub(super) fn fitted(frame: Rect, window: &Window) -> Self {
        let size = window.size();
        let across = f64::from(frame.width()) / size.x;
        let up = f64::from(frame.height()) / size.y;
        let middle = (window.least + window.most) / 2.0;
        Self { frame, middle, points_per_mm: across.min(up) }
    }

    /// The part of the scene that fills the frame.
    pub(super) fn window(&self) -> Window {
        let size = DVec2::new(self.frame.width().into(), self.frame.height().into());
        let half = size / (2.0 * self.points_per_mm);
        Window { least: self.middle - half, most: self.middle + half }
    }

    pub(super) fn screen(&self, mm: DVec2) -> Pos2 {
        let off = (mm - self.middle) * self.points_per_mm;
        let centre = self.frame.center();
        pos2(centre.x + narrow(off.x), centre.y - narrow(off.y))
    }

    pub(super) fn scene(&self, at: Pos2) -> DVec2 {
        let off = at - self.frame.center();
        self.middle + DVec2::new(off.x.into(), (-off.y).into()) / self.points_per_mm
    }
}

/// The shapes of a scene.
pub(super) fn shapes(scene: &Scene, view: &View, theme: Theme, painter: &Painter) -> Vec<Shape> {
    let mut shapes = Vec::new();
    for layer in &scene.layers {
        for mark in &layer.marks {
            let label = layer.name == LayerName::Labels;
            mark_shapes(mark, label, view, theme, painter, &[], &mut shapes);
        }
    }
    shapes
}

/// The shapes of one mark; a label is read over whatever lies under it. Dashes are made of pictures of
/// discs as far as there are any.
pub(super) fn mark_shapes(
    mark: &Mark,
    label: bool,
    view: &View,
    theme: Theme,
    painter: &Painter,
    discs: &[Disc],
    shapes: &mut Vec<Shape>,
) {
    match mark {
        Mark::Fill { path, ink, opacity } => {
            fill(path, view, faded(colour(theme, *ink), *opacity), shapes);
        }
        Mark::Stroke { path, pen } => stroke(path, pen, view, theme, discs, shapes),
        Mark::Text { at, anchor, text, size, ink, weight } => {
            let align = match anchor {
                Anchor::Start => Align2::LEFT_CENTER,
                Anchor::Middle => Align2::CENTER_CENTER,
                Anchor::End => Align2::RIGHT_CENTER,
            };
            let ink = colour(theme, *ink);
            let font = font(*weight, narrow(*size));
            let galley = painter.layout_no_wrap(text.clone(), font, ink);
            let place = align.anchor_size(view.screen(*at), galley.size());
            if label {
                let ground = faded(colour(theme, Ink::Ground), 0.82);
                shapes.push(Shape::rect_filled(place.expand2(vec2(4.0, 0.0)), 4.0, ground));
            }
            shapes.push(Shape::galley(place.min, galley, ink));
        }
    }
}

fn fill(path: &Path, view: &View, colour: Color32, shapes: &mut Vec<Shape>) {
    if colour == Color32::TRANSPARENT {
        return;
    }
    let points = on_screen(path, view);
    let Some(indices) = triangles(&points) else { return };
    let mut mesh = Mesh { indices, ..Mesh::default() };
    for point in &points {
        mesh.colored_vertex(*point, colour);
    }
    shapes.push(Shape::mesh(mesh));
    if colour.a() == u8::MAX {
        shapes.push(Shape::closed_line(points, Stroke::new(1.0, colour)));
    }
}

/// Corners of triangles that fill a shape: a fan where it bulges everywhere, as most do.
fn triangles(points: &[Pos2]) -> Option<Vec<u32>> {
    let count = u32::try_from(points.len()).ok()?;
    if bulges(points) {
        return Some((1..count.saturating_sub(1)).flat_map(|i| [0, i, i + 1]).collect());
    }
    let flat: Vec<f64> = points.iter().flat_map(|p| [f64::from(p.x), f64::from(p.y)]).collect();
    let corners = earcutr::earcut(&flat, &[], 2).ok()?;
    Some(corners.into_iter().filter_map(|corner| u32::try_from(corner).ok()).collect())
}

/// The outline turns one way only, and once round: forth and back along x it goes once.
fn bulges(points: &[Pos2]) -> bool {
    let count = points.len();
    let side = |i: usize| points[(i + 1) % count] - points[i];
    let (mut left, mut right, mut turns_of_x) = (false, false, 0);
    let mut before = if count > 0 { side(count - 1) } else { return false };
    // a side straight up goes on as the one before it
    let mut forth = (0..count).rev().map(|i| side(i).x).find(|x| *x != 0.0).unwrap_or(0.0) > 0.0;
    for i in 0..count {
        let next = side(i);
        let turn = before.x * next.y - before.y * next.x;
        (left, right) = (left || turn > 0.0, right || turn < 0.0);
        if next.x != 0.0 && (next.x > 0.0) != forth {
            forth = !forth;
            turns_of_x += 1;
        }
        before = next;
    }
    !(left && right) && turns_of_x <= 2
}

fn stroke(
    path: &Path,
    pen: &Pen,
    view: &View,
    theme: Theme,
    discs: &[Disc],
    shapes: &mut Vec<Shape>,
) {
    let width = narrow(match pen.width {
        Width::Points(points) => points,
        Width::Mm(mm) => mm * view.points_per_mm,
    });
    let colour = faded(colour(theme, pen.ink), pen.opacity);
    if colour == Color32::TRANSPARENT {
        return;
    }
    let mut points = on_screen(path, view);
    let pattern = pen.dash.pattern();
    if pattern.is_empty() {
        let stroke = PathStroke::new(width, colour);
        shapes.push(Shape::Path(PathShape {
            points,
            closed: path.closed,
            fill: Color32::TRANSPARENT,
            stroke,
        }));
        return;
    }
    if path.closed
        && let Some(first) = points.first()
    {
        points.push(*first);
    }
    let lengths: Vec<f32> = pattern.iter().map(|&length| narrow(length) * width).collect();
    let pieces = dashes(&points, &lengths);
    if let Some(disc) = Disc::of_radius(discs, width / 2.0) {
        shapes.push(Shape::mesh(strips(&pieces, width / 2.0, colour, disc)));
        return;
    }
    for piece in pieces {
        let (Some(&first), Some(&last)) = (piece.first(), piece.last()) else { continue };
        shapes.push(Shape::circle_filled(first, width / 2.0, colour));
        if piece.len() > 1 && first.distance(last) > 0.05 * width {
            shapes.push(Shape::circle_filled(last, width / 2.0, colour));
            shapes.push(Shape::line(piece, PathStroke::new(width, colour)));
        }
    }
}

/// A path's points on the window, without those that nobody would miss: paths are made for paper,
/// and every point costs some triangles in every frame.
fn on_screen(path: &Path, view: &View) -> Vec<Pos2> {
    let points: Vec<Pos2> = path.points.iter().map(|p| view.screen(*p)).collect();
    thinned(&points)
}

/// Points of a line, so few that none left out is further than [`UNSEEN`] from the line that stays.
fn thinned(points: &[Pos2]) -> Vec<Pos2> {
    let (Some(&first), Some(&last)) = (points.first(), points.last()) else { return Vec::new() };
    let mut kept = vec![first];
    let (mut from, mut to) = (0, 2);
    while to < points.len() {
        let chord = [points[from], points[to]];
        if to - from > LONGEST
            || points[from + 1..to].iter().any(|p| square_to(*p, chord) > UNSEEN * UNSEEN)
        {
            from = to - 1;
            kept.push(points[from]);
        }
        to += 1;
    }
    if points.len() > 1 {
        kept.push(last);
    }
    kept
}

/// The square of how far a point is from a piece of a line, points².
fn square_to(point: Pos2, [from, to]: [Pos2; 2]) -> f32 {
    let along = to - from;
    let share = ((point - from).dot(along) / along.length_sq()).clamp(0.0, 1.0);
    // both ends in one place: how far from there
    let share = if share.is_nan() { 0.0 } else { share };
    point.distance_sq(from + along * share)
}

/// The drawn pieces of a broken line: lengths of line and gap in turn.
fn dashes(points: &[Pos2], lengths: &[f32]) -> Vec<Vec<Pos2>> {
    let mut pieces = Vec::new();
    let (mut index, mut left) = (0, lengths[0]);
    let mut piece = points.first().map(|p| vec![*p]).unwrap_or_default();
    for pair in points.windows(2) {
        let (mut from, to) = (pair[0], pair[1]);
        let mut rest = from.distance(to);
        while rest > left {
            from = from.lerp(to, left / rest);
            rest -= left;
            if index % 2 == 0 {
                piece.push(from);
                pieces.push(core::mem::take(&mut piece));
            } else {
                piece = vec![from];
            }
            index = (index + 1) % lengths.len();
            left = lengths[index];
        }
        left -= rest;
        if index % 2 == 0 {
            piece.push(to);
        }
    }
    if index % 2 == 0 && !piece.is_empty() {
        pieces.push(piece);
    }
    pieces
}

fn faded(colour: Color32, opacity: f64) -> Color32 {
    if opacity >= 1.0 { colour } else { colour.gamma_multiply(narrow(opacity)) }
}

/// Points on a screen need no more than single precision.
#[expect(clippy::cast_possible_truncation, reason = "points on a screen")]
pub(super) fn narrow(value: f64) -> f32 {
    value as f32
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_broken_line_draws_its_share_and_keeps_its_ends_on_the_line() {
        let line = [pos2(0.0, 0.0), pos2(30.0, 0.0), pos2(30.0, 40.0)];
        let pieces = dashes(&line, &[4.0, 3.0]);
        let length = |piece: &Vec<Pos2>| -> f32 {
            piece.windows(2).map(|pair| pair[0].distance(pair[1])).sum()
        };
        let drawn: f32 = pieces.iter().map(length).sum();
        assert!((drawn - 40.0).abs() < 1e-3, "ten dashes of four points: {drawn}");
        assert_eq!(pieces.len(), 10);
    }

    #[test]
    fn no_point_that_is_left_out_is_missed() {
        let turn = |i: u16| f32::from(i) / 400.0 * core::f32::consts::TAU;
        for radius in [0.0, 0.5, 3.0, 40.0, 900.0] {
            let round: Vec<Pos2> = (0..=400)
                .map(|i| pos2(radius * turn(i).cos(), 0.4 * radius * turn(i).sin()))
                .collect();
            let thin = thinned(&round);
            assert!(thin.len() <= round.len() && thin.iter().all(|p| round.contains(p)));
            for point in &round {
                let near = thin.windows(2).map(|pair| square_to(*point, [pair[0], pair[1]]).sqrt());
                let off = near.fold(f32::INFINITY, f32::min);
                assert!(off <= UNSEEN, "radius {radius}: {off}");
            }
            assert_eq!((thin.first(), thin.last()), (round.first(), round.last()));
            println!("radius {radius}: {} of {}", thin.len(), round.len());
            assert!(radius > 100.0 || thin.len() < 110, "radius {radius}: {}", thin.len());
        }
        assert!(thinned(&[]).is_empty());
        assert_eq!(thinned(&[pos2(1.0, 2.0)]), [pos2(1.0, 2.0)]);
    }

    /// A shape is filled with as much as its outline holds, whichever way its triangles are cut.
    #[test]
    fn triangles_fill_the_outline() {
        let star = |inner: f32| -> Vec<Pos2> {
            (0..20_u8)
                .map(|i| {
                    let turn = f32::from(i) / 20.0 * core::f32::consts::TAU;
                    let radius = if i % 2 == 0 { 50.0 } else { inner };
                    pos2(radius * turn.cos(), radius * turn.sin())
                })
                .collect()
        };
        let twice_round: Vec<Pos2> = (0..5_u8)
            .map(|i| 2.0 * f32::from(i) / 5.0 * core::f32::consts::TAU)
            .map(|turn| pos2(turn.cos(), turn.sin()))
            .collect();
        assert!(!bulges(&twice_round) && !bulges(&star(20.0)) && bulges(&star(50.0)));
        assert!(!bulges(&[]));
        for points in [star(50.0), star(20.0), star(49.0)] {
            let twice = |a: Pos2, b: Pos2, c: Pos2| ((b - a).rot90().dot(c - a)).abs();
            let indices = triangles(&points).unwrap();
            let corner = |i: u32| points[usize::try_from(i).unwrap()];
            let filled: f32 = indices
                .chunks(3)
                .map(|of| twice(corner(of[0]), corner(of[1]), corner(of[2])))
                .sum();
            let next = points.iter().cycle().skip(1);
            let held: f32 = points.iter().zip(next).map(|(a, b)| a.x * b.y - a.y * b.x).sum();
            assert!((filled - held.abs()).abs() < 1e-3 * filled, "{filled} of {held}");
        }
    }

    #[test]
    fn a_point_goes_to_the_screen_and_back() {
        let frame = Rect::from_min_size(pos2(10.0, 20.0), vec2(300.0, 200.0));
        let window = Window { least: DVec2::new(-50.0, 0.0), most: DVec2::new(550.0, 300.0) };
        let view = View::fitted(frame, &window);
        assert!((view.points_per_mm - 0.5).abs() < 1e-12);
        for mm in [DVec2::new(0.0, 0.0), DVec2::new(431.0, 77.5)] {
            assert!(view.scene(view.screen(mm)).distance(mm) < 1e-3);
        }
        assert!(view.window().contains(window.least) && view.window().contains(window.most));
    }
}
