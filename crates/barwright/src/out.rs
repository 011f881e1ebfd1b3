//! Drawings of a weighed bench, written into a folder.
//!
//! The side view as SVG for sharp print and as PNG for everything else. The folder is made where it
//! is missing. The files are called after the client, the visit and the hand place, so that one
//! client's do not replace another's; the same drawing made again does replace the earlier one.
//! Two clients of one name who come on one day need a folder each.

use fit_view::file_name::slug;
use fit_view::picture::{SideChoice, side_page};
use fit_view::weigh::{Weighed, place_id};
use fit_view::words::Words;
use std::fs;
use std::path::Path;

/// Pixels of the PNG to a point of the page: twice what a plain screen has, so that it stays sharp
/// on a fine one.
const PIXELS_PER_POINT: f32 = 2.0;

/// Draws the bench and says where the drawings are.
///
/// # Errors
/// Words for what could not be drawn or written.
pub(crate) fn draw(
    weighed: &Weighed,
    choice: &SideChoice,
    folder: &Path,
    words: &dyn Words,
) -> Result<Vec<String>, String> {
    let page =
        side_page(weighed, choice, words).map_err(|error| words.fault(&error.to_string()))?;
    let pixels =
        fit_paper::png(&page, PIXELS_PER_POINT).map_err(|error| words.fault(&error.to_string()))?;
    let not_written = |path: &Path, error: std::io::Error| {
        words.not_written(&path.display().to_string(), &error.to_string())
    };
    make_folder(folder, words)?;
    let name = name(weighed, choice);
    [("png", pixels), ("svg", fit_paper::svg(&page).into_bytes())]
        .into_iter()
        .map(|(ending, bytes)| {
            let path = folder.join(format!("{name}.{ending}"));
            fs::write(&path, bytes).map_err(|error| not_written(&path, error))?;
            Ok(path.display().to_string())
        })
        .collect()
}

/// Makes a folder where it is missing.
///
/// # Errors
/// Words for why there is none.
pub(crate) fn make_folder(folder: &Path, words: &dyn Words) -> Result<(), String> {
    let path = folder.display().to_string();
    if folder.exists() && !folder.is_dir() {
        return Err(words.not_a_folder(&path));
    }
    fs::create_dir_all(folder).map_err(|error| words.not_written(&path, &error.to_string()))
}

/// The files' name without its ending: "torvald-ekenbrink-2026-04-11-drops".
fn name(weighed: &Weighed, choice: &SideChoice) -> String {
    format!("{}-{}-{}", slug(&weighed.client), weighed.visit, place_id(choice.place))
}
