//! The window's triangles drawn by the processor: what a graphics card would show, without one.
//!
//! Pixels from the upper left, four bytes each, premultiplied, blended in the gamma space that egui
//! mixes in. A pixel belongs to a triangle when its middle does, so smooth edges are those that
//! egui's own feathering makes. Textures are read between their texels in both directions. It draws
//! meshes alone: no callbacks, no repeated or mirrored textures.

use egui::epaint::{ClippedPrimitive, Primitive, Vertex};
use egui::{Color32, ColorImage, ImageData, Pos2, Rect, TextureId, TexturesDelta};
use egui_kittest::TestRenderer;
use std::collections::HashMap;
use std::sync::{Arc, Mutex, PoisonError};

/// Steps to a pixel in which corners are placed, so that two triangles with a common edge share
/// each pixel on it exactly once.
const STEPS: f32 = 256.0;

/// The textures that meshes are drawn from; clones share them.
#[derive(Debug, Clone, Default)]
pub struct Raster {
    textures: Arc<Mutex<HashMap<TextureId, ColorImage>>>,
}

/// A picture in pixels.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Canvas {
    /// Pixels across.
    pub width: usize,
    /// Pixels down.
    pub height: usize,
    /// Rows from the top, premultiplied.
    pub pixels: Vec<Color32>,
}

impl Canvas {
    /// A picture of one colour.
    pub fn new(width: usize, height: usize, colour: Color32) -> Self {
        Self { width, height, pixels: vec![colour; width * height] }
    }

    /// The colour of a pixel that is on the canvas.
    pub fn at(&self, x: usize, y: usize) -> Color32 {
        self.pixels[y * self.width + x]
    }
}

impl TestRenderer for Raster {
    fn handle_delta(&mut self, delta: &mut TexturesDelta) {
        self.take(delta);
    }
}

impl Raster {
    /// Takes over new and changed textures. Freed ones are kept: no mesh names them any more.
    pub fn take(&self, delta: &mut TexturesDelta) {
        let mut textures = self.textures.lock().unwrap_or_else(PoisonError::into_inner);
        delta.set.drain().for_each(|(id, images)| {
            for image in images {
                let ImageData::Color(pixels) = &image.image;
                match image.pos {
                    None => {
                        textures.insert(id, (**pixels).clone());
                    }
                    Some(at) => {
                        if let Some(texture) = textures.get_mut(&id) {
                            patch(texture, pixels, at);
                        }
                    }
                }
            }
        });
        delta.clear();
    }

    /// Draws meshes over a canvas that has `scale` pixels to a point.
    pub fn draw(&self, canvas: &mut Canvas, meshes: &[ClippedPrimitive], scale: f32) {
        let textures = self.textures.lock().unwrap_or_else(PoisonError::into_inner);
        for clipped in meshes {
            let Primitive::Mesh(mesh) = &clipped.primitive else { continue };
            let Some(texture) = textures.get(&mesh.texture_id) else { continue };
            let clip = clip(clipped.clip_rect, scale, canvas);
            for corners in mesh.indices.chunks_exact(3) {
                let corner = |index: u32| mesh.vertices[index as usize];
                let of = [corner(corners[0]), corner(corners[1]), corner(corners[2])];
                triangle(canvas, texture, of, clip, scale);
            }
        }
    }
}

/// Columns and rows that may be drawn in: from, and up to.
type Clip = [(i64, i64); 2];

fn clip(rect: Rect, scale: f32, canvas: &Canvas) -> Clip {
    let pixel = |points: f32, most: usize| whole(points * scale).clamp(0, signed(most));
    [
        (pixel(rect.min.x, canvas.width), pixel(rect.max.x, canvas.width)),
        (pixel(rect.min.y, canvas.height), pixel(rect.max.y, canvas.height)),
    ]
}

fn patch(texture: &mut ColorImage, pixels: &ColorImage, [left, top]: [usize; 2]) {
    let width = texture.width();
    for (row, line) in pixels.pixels.chunks(pixels.width()).enumerate() {
        let from = (top + row) * width + left;
        texture.pixels[from..from + line.len()].copy_from_slice(line);
    }
}

/// Twice the area of a triangle, positive when it turns from x to y; in steps squared.
fn area(a: [i64; 2], b: [i64; 2], c: [i64; 2]) -> i64 {
    (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])
}

/// Pixels whose middle lies on this edge belong to the triangle: those of a left or an upper edge.
fn owns(a: [i64; 2], b: [i64; 2]) -> bool {
    (a[1] == b[1] && b[0] > a[0]) || b[1] < a[1]
}

fn triangle(canvas: &mut Canvas, texture: &ColorImage, of: [Vertex; 3], clip: Clip, scale: f32) {
    let step = |points: f32| whole(points * scale * STEPS);
    let at = |vertex: &Vertex| [step(vertex.pos.x), step(vertex.pos.y)];
    let [a, mut b, mut c] = of;
    if area(at(&a), at(&b), at(&c)) < 0 {
        (b, c) = (c, b);
    }
    let [pa, pb, pc] = [at(&a), at(&b), at(&c)];
    let whole_area = area(pa, pb, pc);
    if whole_area == 0 {
        return;
    }
    let pixel = whole(STEPS);
    let span = |axis: usize| {
        let (low, high) =
            (pa[axis].min(pb[axis]).min(pc[axis]), pa[axis].max(pb[axis]).max(pc[axis]));
        let (from, to) = clip[axis];
        (low.div_euclid(pixel).max(from), (high.div_euclid(pixel) + 1).min(to))
    };
    let edges = [(pb, pc), (pc, pa), (pa, pb)].map(|(p, q)| (p, q, i64::from(!owns(p, q))));
    let flat = (a.uv == b.uv && b.uv == c.uv).then(|| texel(texture, a.uv));
    let colours = [a, b, c].map(|vertex| vertex.color.to_array().map(f32::from));
    for y in span(1).0..span(1).1 {
        for x in span(0).0..span(0).1 {
            let middle = [x * pixel + pixel / 2, y * pixel + pixel / 2];
            let inside = edges.map(|(p, q, least)| (area(p, q, middle), least));
            if inside.iter().any(|(area, least)| area < least) {
                continue;
            }
            let share = inside.map(|(area, _)| area as f32 / whole_area as f32);
            let uv = || {
                Pos2::new(
                    mix(share, [a, b, c].map(|v| v.uv.x)),
                    mix(share, [a, b, c].map(|v| v.uv.y)),
                )
            };
            let texel = flat.unwrap_or_else(|| texel(texture, uv()));
            let over: [f32; 4] = core::array::from_fn(|channel| {
                mix(share, colours.map(|colour| colour[channel])) * texel[channel] / 255.0
            });
            blend(canvas, (x, y), over);
        }
    }
}

fn mix(share: [f32; 3], of: [f32; 3]) -> f32 {
    share[0] * of[0] + share[1] * of[1] + share[2] * of[2]
}

/// A texture between its texels, 0 to 255; at its rim the outermost.
fn texel(texture: &ColorImage, uv: Pos2) -> [f32; 4] {
    let [width, height] = texture.size;
    let axis = |part: f32, size: usize| {
        let at = part * size as f32 - 0.5;
        let most = signed(size) - 1;
        let low = at.floor();
        (whole(low).clamp(0, most), (whole(low) + 1).clamp(0, most), at - low)
    };
    let ((left, right, x), (top, bottom, y)) = (axis(uv.x, width), axis(uv.y, height));
    let at = |x: i64, y: i64| texture.pixels[index(x, y, width)].to_array().map(f32::from);
    let corners = [at(left, top), at(right, top), at(left, bottom), at(right, bottom)];
    core::array::from_fn(|channel| {
        let [a, b, c, d] = corners.map(|corner| corner[channel]);
        (a * (1.0 - x) + b * x) * (1.0 - y) + (c * (1.0 - x) + d * x) * y
    })
}

/// A premultiplied colour over what is there.
fn blend(canvas: &mut Canvas, (x, y): (i64, i64), over: [f32; 4]) {
    let pixel = &mut canvas.pixels[index(x, y, canvas.width)];
    let under = pixel.to_array().map(f32::from);
    let left = 1.0 - over[3] / 255.0;
    let [r, g, b, a] = core::array::from_fn(|channel| byte(over[channel] + under[channel] * left));
    *pixel = Color32::from_rgba_premultiplied(r, g, b, a);
}

#[expect(clippy::cast_possible_wrap, reason = "sizes of windows and textures")]
fn signed(size: usize) -> i64 {
    size as i64
}

#[expect(clippy::cast_possible_truncation, reason = "places on a window")]
fn whole(value: f32) -> i64 {
    value.round() as i64
}

#[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "clamped to a byte")]
fn byte(value: f32) -> u8 {
    value.round().clamp(0.0, 255.0) as u8
}

#[expect(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "clipped to the canvas"
)]
fn index(x: i64, y: i64, width: usize) -> usize {
    y as usize * width + x as usize
}

#[cfg(test)]
mod tests {
    use super::*;
    use egui::epaint::{ImageDelta, Mesh};
    use egui::{TextureOptions, pos2};

    const WHITE: Color32 = Color32::WHITE;

    /// A texture of 2 × 2: opaque white, opaque black, half-transparent white, nothing.
    fn raster() -> Raster {
        let half = Color32::from_rgba_premultiplied(128, 128, 128, 128);
        let pixels = vec![WHITE, Color32::BLACK, half, Color32::TRANSPARENT];
        let image = ColorImage::new([2, 2], pixels);
        let mut delta = TexturesDelta::default();
        delta.push(TextureId::default(), ImageDelta::full(image, TextureOptions::LINEAR));
        let raster = Raster::default();
        raster.take(&mut delta);
        raster
    }

    /// A mesh of one colour with the texture's white, clipped.
    fn mesh(
        corners: &[(f32, f32)],
        indices: &[u32],
        colour: Color32,
        clip: Rect,
    ) -> ClippedPrimitive {
        let uv = pos2(0.25, 0.25);
        let vertex = |&(x, y)| Vertex { pos: pos2(x, y), uv, color: colour };
        let mut mesh = Mesh::with_texture(TextureId::default());
        mesh.vertices = corners.iter().map(vertex).collect();
        mesh.indices = indices.to_vec();
        ClippedPrimitive { clip_rect: clip, primitive: Primitive::Mesh(mesh) }
    }

    /// The canvas as text: a mark for each pixel that was drawn on.
    fn marks(canvas: &Canvas) -> Vec<String> {
        let mark = |colour: &Color32| if *colour == WHITE { '#' } else { '.' };
        canvas.pixels.chunks(canvas.width).map(|row| row.iter().map(mark).collect()).collect()
    }

    #[test]
    fn a_triangle_covers_the_pixels_whose_middles_it_holds() {
        let mut canvas = Canvas::new(5, 4, Color32::BLACK);
        let right_angled =
            mesh(&[(0.0, 0.0), (4.0, 0.0), (0.0, 4.0)], &[0, 1, 2], WHITE, Rect::EVERYTHING);
        raster().draw(&mut canvas, &[right_angled], 1.0);
        // the long edge runs through the middles of the pixels on it, and is no upper or left edge
        assert_eq!(marks(&canvas), ["###..", "##...", "#....", "....."]);
        // the other way round, and with two pixels to a point
        let mut canvas = Canvas::new(5, 4, Color32::BLACK);
        let other =
            mesh(&[(0.0, 0.0), (0.0, 2.0), (2.0, 0.0)], &[0, 1, 2], WHITE, Rect::EVERYTHING);
        raster().draw(&mut canvas, &[other], 2.0);
        assert_eq!(marks(&canvas), ["###..", "##...", "#....", "....."]);
    }

    #[test]
    fn two_triangles_share_an_edge_without_gap_or_overlap() {
        let half = Color32::from_rgba_premultiplied(100, 100, 100, 128);
        let square = [(0.0, 0.0), (6.0, 0.0), (6.0, 6.0), (0.0, 6.0)];
        let mut canvas = Canvas::new(6, 6, Color32::BLACK);
        raster().draw(
            &mut canvas,
            &[mesh(&square, &[0, 1, 2, 0, 2, 3], half, Rect::EVERYTHING)],
            1.0,
        );
        // black under half: 100 + 0 × (1 − 128/255), once and once only
        let once = Color32::from_rgba_premultiplied(100, 100, 100, 255);
        assert!(canvas.pixels.iter().all(|pixel| *pixel == once), "{:?}", canvas.pixels);
    }

    #[test]
    fn a_premultiplied_colour_lies_over_what_is_there() {
        let mut canvas = Canvas::new(1, 1, Color32::from_rgb(200, 100, 50));
        let over = Color32::from_rgba_premultiplied(10, 20, 30, 51);
        let square = [(0.0, 0.0), (1.0, 0.0), (1.0, 1.0), (0.0, 1.0)];
        raster().draw(
            &mut canvas,
            &[mesh(&square, &[0, 1, 2, 0, 2, 3], over, Rect::EVERYTHING)],
            1.0,
        );
        // a fifth opaque: 10 + 0.8 × 200, 20 + 0.8 × 100, 30 + 0.8 × 50
        assert_eq!(canvas.at(0, 0), Color32::from_rgb(170, 100, 70));
    }

    #[test]
    fn nothing_is_drawn_outside_the_clip() {
        let clip = Rect::from_min_max(pos2(1.0, 1.0), pos2(3.0, 2.0));
        let square = [(-9.0, -9.0), (9.0, -9.0), (9.0, 9.0), (-9.0, 9.0)];
        let mut canvas = Canvas::new(4, 3, Color32::BLACK);
        raster().draw(&mut canvas, &[mesh(&square, &[0, 1, 2, 0, 2, 3], WHITE, clip)], 1.0);
        assert_eq!(marks(&canvas), ["....", ".##.", "...."]);
    }

    #[test]
    fn colours_and_textures_run_evenly_between_corners() {
        // a row of four pixels from black to white: at their middles 1/8, 3/8, 5/8, 7/8
        let mut ramp = mesh(
            &[(0.0, 0.0), (4.0, 0.0), (4.0, 1.0), (0.0, 1.0)],
            &[0, 1, 2, 0, 2, 3],
            Color32::BLACK,
            Rect::EVERYTHING,
        );
        if let Primitive::Mesh(mesh) = &mut ramp.primitive {
            mesh.vertices[1].color = WHITE;
            mesh.vertices[2].color = WHITE;
        }
        let mut canvas = Canvas::new(4, 1, Color32::BLACK);
        raster().draw(&mut canvas, &[ramp], 1.0);
        let reds: Vec<u8> = canvas.pixels.iter().map(Color32::r).collect();
        assert_eq!(reds, [32, 96, 159, 223]);
        // the middle of the texture is the mean of its texels: (255 + 0 + 128 + 0) / 4 of each
        // colour, (255 + 255 + 128 + 0) / 4 of opacity
        let texture = raster();
        let textures = texture.textures.lock().unwrap();
        let middle = texel(&textures[&TextureId::default()], pos2(0.5, 0.5));
        assert_eq!(middle, [95.75, 95.75, 95.75, 159.5]);
        let rim = texel(&textures[&TextureId::default()], pos2(0.0, 0.0));
        assert_eq!(rim, [255.0; 4]);
    }

    #[test]
    fn a_part_of_a_texture_can_be_replaced() {
        let raster = raster();
        let part = ColorImage::new([1, 2], vec![Color32::RED, Color32::GREEN]);
        let mut delta = TexturesDelta::default();
        delta.push(TextureId::default(), ImageDelta::partial([1, 0], part, TextureOptions::LINEAR));
        raster.take(&mut delta);
        let textures = raster.textures.lock().unwrap();
        let half = Color32::from_rgba_premultiplied(128, 128, 128, 128);
        assert_eq!(
            textures[&TextureId::default()].pixels,
            [WHITE, Color32::RED, half, Color32::GREEN]
        );
    }
}
