//! Writes the kept pictures of drawing and window anew, after a change that was meant: look at each
//! before keeping it.

use acceptance::{pictures, window_pictures};
use std::fs;

fn main() -> Result<(), Box<dyn std::error::Error>> {
    for kept in pictures::all() {
        fs::write(kept.path("png"), fit_paper::png(&kept.picture, 1.0)?)?;
        fs::write(kept.path("txt"), kept.twin())?;
    }
    fs::create_dir_all(window_pictures::file(""))?;
    for kept in window_pictures::all() {
        fs::write(kept.path("png"), window_pictures::png(&kept.canvas))?;
        fs::write(kept.path("txt"), kept.twin())?;
    }
    Ok(())
}
