//! Writes the kept pictures anew, after a change that was meant: look at each before keeping it.

use std::fs;

fn main() -> Result<(), Box<dyn std::error::Error>> {
    for kept in acceptance::pictures::all() {
        fs::write(kept.path("png"), fit_paper::png(&kept.picture, 1.0)?)?;
        fs::write(kept.path("txt"), kept.twin())?;
    }
    Ok(())
}
