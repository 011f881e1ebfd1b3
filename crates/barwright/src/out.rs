//! Drawings of a weighed bench, written into a folder.
//!
//! The side view as SVG for sharp print and as PNG for everything else. The folder is made where it
//! is missing; drawings of an earlier run are replaced.

use fit_view::picture::{SideChoice, side_page};
use fit_view::weigh::Weighed;
use fit_view::words::Words;
use std::fs;
use std::path::Path;

/// The two files.
const SVG: &str = "side-view.svg";
const PNG: &str = "side-view.png";

/// Pixels of the PNG to a point of the page: twice what a plain screen has, so that it stays sharp
/// on a fine one.
const PIXELS_PER_POINT: f32 = 2.0;

/// Draws the bench and says where the drawings are.
///
/// # Errors
/// Words for what could not be drawn or written.
pub(crate) fn draw(
    weighed: &Weighed,
    folder: &Path,
    words: &dyn Words,
) -> Result<Vec<String>, String> {
    let page = side_page(weighed, &SideChoice::usual(weighed), words)
        .map_err(|error| words.fault(&error.to_string()))?;
    let pixels =
        fit_paper::png(&page, PIXELS_PER_POINT).map_err(|error| words.fault(&error.to_string()))?;
    let not_written = |path: &Path, error: std::io::Error| {
        words.not_written(&path.display().to_string(), &error.to_string())
    };
    fs::create_dir_all(folder).map_err(|error| not_written(folder, error))?;
    [(PNG, pixels), (SVG, fit_paper::svg(&page).into_bytes())]
        .into_iter()
        .map(|(name, bytes)| {
            let path = folder.join(name);
            fs::write(&path, bytes).map_err(|error| not_written(&path, error))?;
            Ok(path.display().to_string())
        })
        .collect()
}
