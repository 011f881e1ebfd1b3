//! Two pictures held against each other as an eye would: tile by tile, so that a small thing counts
//! as much in a large picture as in a small one.
//!
//! A tile differs in one of two ways. Its mean colour is another: something has another colour, came,
//! went, or crossed into the next tile. Or it holds points whose brightness is found nowhere about
//! the same point of the other picture, in either direction: something has another shape. An edge
//! that lies a part of a pixel elsewhere does neither.

use crate::raster::Canvas;
use egui::Color32;

/// Edge of a tile, pixels: about a letter of a heading.
pub const TILE: usize = 16;

/// How much two pictures may differ before they are different pictures.
#[derive(Debug, Clone, Copy)]
pub struct Tolerance {
    /// Difference of a tile's mean in one of its channels, of 255.
    pub mean: f64,
    /// A point is out of place when a channel is further than this from all points about it.
    pub channel: u8,
    /// Points out of place in a tile.
    pub points: usize,
}

/// Tiles that differ, by the pixel at their upper left.
///
/// # Panics
/// When the pictures are of different size.
pub fn different(a: &Canvas, b: &Canvas, tolerance: Tolerance) -> Vec<(usize, usize)> {
    assert_eq!((a.width, a.height), (b.width, b.height), "pictures of different size");
    let mut found = Vec::new();
    for top in (0..a.height).step_by(TILE) {
        for left in (0..a.width).step_by(TILE) {
            let tile = Tile {
                columns: (left, (left + TILE).min(a.width)),
                rows: (top, (top + TILE).min(a.height)),
            };
            let shape = tile.strangers(a, b, tolerance) + tile.strangers(b, a, tolerance);
            let colour = tile.means(a).into_iter().zip(tile.means(b));
            let colour = colour.map(|(a, b)| (a - b).abs()).fold(0.0, f64::max);
            if shape > tolerance.points || colour > tolerance.mean {
                found.push((left, top));
            }
        }
    }
    found
}

struct Tile {
    columns: (usize, usize),
    rows: (usize, usize),
}

impl Tile {
    fn points(&self) -> impl Iterator<Item = (usize, usize)> {
        let (columns, rows) = (self.columns, self.rows);
        (rows.0..rows.1).flat_map(move |y| (columns.0..columns.1).map(move |x| (x, y)))
    }

    fn means(&self, of: &Canvas) -> [f64; 3] {
        let (mut sum, mut count) = ([0.0; 3], 0.0);
        for (x, y) in self.points() {
            let [red, green, blue] = channels(of.at(x, y));
            sum = [sum[0] + f64::from(red), sum[1] + f64::from(green), sum[2] + f64::from(blue)];
            count += 1.0;
        }
        sum.map(|sum| sum / count)
    }

    /// Points of one picture that are brighter or darker than all about them in the other.
    fn strangers(&self, of: &Canvas, about: &Canvas, tolerance: Tolerance) -> usize {
        let is_strange = |(x, y): (usize, usize)| {
            let point = channels(of.at(x, y));
            if point == channels(about.at(x, y)) {
                return false;
            }
            let (mut least, mut most) = ([u8::MAX; 3], [0; 3]);
            for y in y.saturating_sub(1)..(y + 2).min(about.height) {
                for x in x.saturating_sub(1)..(x + 2).min(about.width) {
                    for (channel, value) in channels(about.at(x, y)).into_iter().enumerate() {
                        least[channel] = least[channel].min(value);
                        most[channel] = most[channel].max(value);
                    }
                }
            }
            (0..3).any(|channel| {
                let (low, high) = (least[channel], most[channel]);
                point[channel] < low.saturating_sub(tolerance.channel)
                    || point[channel] > high.saturating_add(tolerance.channel)
            })
        };
        self.points().filter(|point| is_strange(*point)).count()
    }
}

fn channels(colour: Color32) -> [u8; 3] {
    [colour.r(), colour.g(), colour.b()]
}

#[cfg(test)]
mod tests {
    use super::*;

    const STRICT: Tolerance = Tolerance { mean: 2.0, channel: 16, points: 2 };

    /// White with a black bar from `left`, which may end within a pixel.
    fn bar(left: f32) -> Canvas {
        let mut canvas = Canvas::new(48, 48, Color32::WHITE);
        for (index, pixel) in canvas.pixels.iter_mut().enumerate() {
            let (x, y) = ((index % 48) as f32, index / 48);
            if (20..30).contains(&y) {
                let covered = (x + 1.0 - left).clamp(0.0, 1.0) * (left + 6.0 - x).clamp(0.0, 1.0);
                *pixel = Color32::from_gray((255.0 * (1.0 - covered)) as u8);
            }
        }
        canvas
    }

    #[test]
    fn a_part_of_a_pixel_is_nothing_and_two_pixels_are_something() {
        assert_eq!(different(&bar(20.0), &bar(20.0), STRICT), []);
        assert_eq!(different(&bar(20.0), &bar(20.3), STRICT), []);
        assert_eq!(different(&bar(20.0), &bar(22.0), STRICT), [(16, 16)]);
    }

    #[test]
    fn a_fainter_colour_is_something() {
        let mut fainter = bar(20.0);
        fainter.pixels.iter_mut().filter(|p| **p == Color32::BLACK).for_each(|pixel| {
            *pixel = Color32::from_gray(20);
        });
        assert_eq!(different(&bar(20.0), &fainter, STRICT), [(16, 16)]);
    }
}
