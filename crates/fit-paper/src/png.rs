//! A page as PNG, through its SVG, with the program's own fonts and no others: the same pixels on
//! every machine.

use crate::svg;
use fit_view::picture::Picture;
use fit_view::scene::{FONT_REGULAR, FONT_SEMIBOLD};
use resvg::{tiny_skia, usvg};
use std::sync::Arc;
use thiserror::Error;

/// Why there is no picture.
#[derive(Debug, Error)]
#[error("the picture could not be made: {0}")]
pub struct PngError(String);

/// The page as PNG bytes, `pixels_per_point` to the point.
///
/// # Errors
/// When the page is empty or too large for memory.
pub fn png(picture: &Picture, pixels_per_point: f32) -> Result<Vec<u8>, PngError> {
    let mut options = usvg::Options::default();
    let mut fonts = usvg::fontdb::Database::new();
    fonts.load_font_data(FONT_REGULAR.to_vec());
    fonts.load_font_data(FONT_SEMIBOLD.to_vec());
    options.fontdb = Arc::new(fonts);
    let tree =
        usvg::Tree::from_str(&svg(picture), &options).map_err(|e| PngError(e.to_string()))?;
    let size = tree.size().to_int_size();
    let scaled = size.scale_by(pixels_per_point).ok_or_else(|| PngError("no size".into()))?;
    let mut pixels = tiny_skia::Pixmap::new(scaled.width(), scaled.height())
        .ok_or_else(|| PngError("too large".into()))?;
    let zoom = tiny_skia::Transform::from_scale(pixels_per_point, pixels_per_point);
    resvg::render(&tree, zoom, &mut pixels.as_mut());
    pixels.encode_png().map_err(|e| PngError(e.to_string()))
}
