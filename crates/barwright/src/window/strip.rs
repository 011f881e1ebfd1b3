//! Dashes with round ends as strips of a picture of a disc: its left half at one end, its middle
//! drawn out along the line, its right half at the other end. Two corners for each point of the line
//! take the place of four and of dozens for the ends, and the picture smooths the edges.

use eframe::egui;
use egui::epaint::{Mesh, TextureAtlas, Vertex};
use egui::{Color32, Pos2, Rect, Vec2, pos2};

/// Where a line turns by more than this a new strip begins, its round end over the one before:
/// cosine of the angle (judgement: 45°).
const CORNER: f32 = 0.7;
/// How much smaller than its picture a disc is drawn: drawn in its own size a thin line would be as
/// pale as a single row of grey pixels (judgement; half of it would be jagged).
const SMALLER: f32 = 1.6;
/// Points closer than this are one, points (judgement).
const ONE: f32 = 1e-3;

/// A picture of a disc in the texture of the letters.
#[derive(Debug, Clone, Copy)]
pub(super) struct Disc {
    /// Radius in the picture, points.
    radius: f32,
    /// Half the width of the picture, points.
    half: f32,
    /// Where it lies, as shares of the texture.
    uv: Rect,
}

impl Disc {
    /// All there are in a texture of that size, the smallest first. They are the first that is put
    /// into a new texture, so that where they lie depends on nothing but its size.
    pub(super) fn all(atlas: [usize; 2], ctx: &egui::Context) -> Vec<Self> {
        let options = ctx.fonts(|fonts| *fonts.options());
        let per_point = ctx.pixels_per_point();
        let discs = TextureAtlas::new(atlas, options).prepared_discs().into_iter();
        let disc = |radius: f32, width: f32, uv| Self {
            radius: radius / per_point,
            half: width / 2.0 / per_point,
            uv,
        };
        discs.map(|of| disc(of.r, of.w, of.uv)).collect()
    }

    /// The one that is drawn best at that radius, points; none where that is too large.
    pub(super) fn of_radius(all: &[Self], radius: f32) -> Option<&Self> {
        all.iter().find(|disc| radius * SMALLER <= disc.radius)
    }
}

/// All dashes of a line, points; `radius` is half their width.
pub(super) fn strips(dashes: &[Vec<Pos2>], radius: f32, colour: Color32, disc: &Disc) -> Mesh {
    let mut mesh = Mesh::default();
    let half = radius * disc.half / disc.radius;
    for dash in dashes {
        let mut points = dash.clone();
        points.dedup_by(|b, a| a.distance_sq(*b) < ONE * ONE);
        let mut begun = 0;
        for at in 1..points.len() {
            if points.get(at + 1).is_none_or(|next| is_corner(points[at - 1], points[at], *next)) {
                strip(&points[begun..=at], half, colour, disc, &mut mesh);
                begun = at;
            }
        }
        if let [only] = points[..] {
            strip(&[only], half, colour, disc, &mut mesh);
        }
    }
    mesh
}

fn is_corner(before: Pos2, at: Pos2, after: Pos2) -> bool {
    let (one, other) = (at - before, after - at);
    one.dot(other) < CORNER * (one.length_sq() * other.length_sq()).sqrt()
}

/// One strip through points that turn little; one point is a disc.
fn strip(points: &[Pos2], half: f32, colour: Color32, disc: &Disc, mesh: &mut Mesh) {
    let (Some(&first), Some(&last)) = (points.first(), points.last()) else { return };
    let along = |i: usize| match points.get(i + 1) {
        Some(next) => (*next - points[i]).normalized(),
        None => Vec2::X,
    };
    let count = points.len();
    let mut pair = |at: Pos2, out: Vec2, across: f32| {
        #[expect(clippy::cast_possible_truncation, reason = "a mesh holds fewer by its own type")]
        let base = mesh.vertices.len() as u32;
        for (side, v) in [(out, disc.uv.top()), (-out, disc.uv.bottom())] {
            let uv = pos2(disc.uv.left() + across * disc.uv.width(), v);
            mesh.vertices.push(Vertex { pos: at + side, uv, color: colour });
        }
        if across > 0.0 {
            let corners = [base - 2, base - 1, base, base - 1, base, base + 1];
            mesh.indices.extend(corners);
        }
    };
    let begin = along(0);
    pair(first - begin * half, begin.rot90() * half, 0.0);
    let mut before = begin;
    for (i, &at) in points.iter().enumerate() {
        let after = if i + 1 < count { along(i) } else { before };
        // out along the middle of both directions, so far that both sides keep their width
        let middle = (before + after).normalized();
        let out = middle.rot90() * (half / middle.dot(after).max(CORNER));
        // of a disc by itself the middle is as broad as nothing
        if count > 1 {
            pair(at, out, 0.5);
        }
        before = after;
    }
    pair(last + before * half, before.rot90() * half, 1.0);
}

#[cfg(test)]
mod tests {
    use super::*;

    const DISC: Disc = Disc {
        radius: 2.0,
        half: 3.5,
        uv: Rect { min: Pos2 { x: 0.25, y: 0.5 }, max: Pos2 { x: 0.5, y: 0.75 } },
    };

    fn area(mesh: &Mesh) -> f32 {
        let at = |i: u32| mesh.vertices[usize::try_from(i).unwrap()].pos;
        let twice = |of: [u32; 3]| {
            let [a, b, c] = of.map(at);
            (b - a).rot90().dot(c - a).abs()
        };
        mesh.triangles().map(twice).sum::<f32>() / 2.0
    }

    fn drawn(dash: &[(f32, f32)]) -> Mesh {
        let dash: Vec<Pos2> = dash.iter().map(|&(x, y)| pos2(x, y)).collect();
        let mesh = strips(&[dash], 1.0, Color32::RED, &DISC);
        assert!(mesh.is_valid());
        mesh
    }

    /// The picture of the disc is 3.5 by half for a radius of 2: 1.75 for one of 1.
    #[test]
    fn a_dot_is_the_disc_and_a_dash_the_disc_drawn_out() {
        let dot = drawn(&[(5.0, 5.0)]);
        assert_eq!((dot.vertices.len(), dot.calc_bounds().size()), (4, Vec2::splat(3.5)));
        let dash = drawn(&[(5.0, 5.0), (9.0, 5.0)]);
        assert_eq!((dash.vertices.len(), dash.calc_bounds().size()), (8, Vec2::new(7.5, 3.5)));
        assert!((area(&dash) - 7.5 * 3.5).abs() < 1e-4);
        let inside = |mesh: &Mesh| mesh.vertices.iter().all(|v| DISC.uv.contains(v.uv));
        assert!(inside(&dot) && inside(&dash));
    }

    #[test]
    fn a_bend_keeps_its_width_and_a_corner_is_round() {
        let turn = |i: u8| f32::from(i) / 20.0 * core::f32::consts::FRAC_PI_2;
        let bend: Vec<(f32, f32)> =
            (0..=20).map(|i| (40.0 * turn(i).cos(), 40.0 * turn(i).sin())).collect();
        let length = 40.0 * core::f32::consts::FRAC_PI_2 + 3.5;
        let area_of_bend = area(&drawn(&bend));
        assert!((area_of_bend / (length * 3.5) - 1.0).abs() < 0.01, "{area_of_bend}");
        let corner = drawn(&[(0.0, 0.0), (10.0, 0.0), (10.0, 10.0)]);
        assert_eq!(corner.vertices.len(), 16, "two strips, one over the end of the other");
    }

    #[test]
    fn the_next_larger_disc_is_taken() {
        let all = [1.0, 2.0, 4.0].map(|radius| Disc { radius, ..DISC });
        let of = |radius: f32| Disc::of_radius(&all, radius).map(|disc| disc.radius);
        assert_eq!([0.5, 0.9, 1.2, 1.9].map(of), [1.0, 2.0, 2.0, 4.0].map(Some));
        assert_eq!((of(5.0), Disc::of_radius(&[], 1.0).is_none()), (None, true));
    }
}
