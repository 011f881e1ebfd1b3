//! Writes the kept pictures of drawing and window anew, after a change that was meant: look at each
//! before keeping it. With a name only those of the window are written whose names begin with it.

use acceptance::{pictures, window_pictures};
use std::fs;

fn main() -> Result<(), Box<dyn std::error::Error>> {
    let wanted = std::env::args().nth(1);
    let drawings = if wanted.is_none() { pictures::all() } else { Vec::new() };
    for kept in drawings {
        fs::write(kept.path("png"), fit_paper::png(&kept.picture, 1.0)?)?;
        fs::write(kept.path("txt"), kept.twin())?;
    }
    fs::create_dir_all(window_pictures::file(""))?;
    let is_wanted = |name: &str| wanted.as_ref().is_none_or(|of| name.starts_with(of));
    for kept in window_pictures::all().into_iter().filter(|kept| is_wanted(kept.name)) {
        fs::write(kept.path("png"), window_pictures::png(&kept.canvas))?;
        fs::write(kept.path("txt"), kept.twin())?;
    }
    Ok(())
}
