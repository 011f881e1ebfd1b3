//! Two pictures held against each other tile by tile, so that a small thing counts as much in a
//! large picture as in a small one.

use crate::raster::Canvas;

/// Edge of a tile, pixels: about a letter of a heading.
pub const TILE: usize = 16;

/// A tile that differs: the pixel at its upper left, and by how much.
pub type Difference = ((usize, usize), f64);

/// Tiles whose points differ by more than `limit` on average, of 255, in one of the channels.
///
/// # Panics
/// When the pictures are of different size.
pub fn different(a: &Canvas, b: &Canvas, limit: f64) -> Vec<Difference> {
    assert_eq!((a.width, a.height), (b.width, b.height), "pictures of different size");
    let corners = (0..a.height)
        .step_by(TILE)
        .flat_map(|top| (0..a.width).step_by(TILE).map(move |left| (left, top)));
    corners.map(|at| (at, off(a, b, at))).filter(|(_, off)| *off > limit).collect()
}

/// How far the points of a tile are off on average, in the channel that is off most.
fn off(a: &Canvas, b: &Canvas, (left, top): (usize, usize)) -> f64 {
    let (mut sums, mut count) = ([0_u32; 3], 0.0);
    for y in top..(top + TILE).min(a.height) {
        for x in left..(left + TILE).min(a.width) {
            let [a, b] = [a, b].map(|of| of.at(x, y).to_array());
            for channel in 0..3 {
                sums[channel] += u32::from(a[channel].abs_diff(b[channel]));
            }
            count += 1.0;
        }
    }
    f64::from(sums.into_iter().max().unwrap_or_default()) / count
}

#[cfg(test)]
mod tests {
    use super::*;
    use egui::Color32;

    #[test]
    fn a_tile_is_off_by_what_its_points_are_off() {
        let white = Canvas::new(40, 20, Color32::WHITE);
        let mut spotted = white.clone();
        // 16 of the 256 points of the second tile, and 4 of the 32 of the last, cut by the edges
        spotted.pixels[5 * 40 + 16..5 * 40 + 32].fill(Color32::from_rgb(255, 0, 205));
        spotted.pixels[19 * 40 + 32..19 * 40 + 36].fill(Color32::from_rgb(55, 255, 255));
        assert_eq!(different(&white, &white, 0.0), []);
        let wanted = [((16, 0), 255.0 / 16.0), ((32, 16), 200.0 / 8.0)];
        assert_eq!(different(&white, &spotted, 0.0), wanted);
        assert_eq!(different(&white, &spotted, 20.0), wanted[1..]);
    }
}
