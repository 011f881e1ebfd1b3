//! Pictures on paper and in files.
//!
//! A page ([`fit_view::picture::Picture`]) becomes SVG text ([`svg`]), and the same SVG becomes a
//! PNG ([`png`]). Nothing is measured or worded here: numbers, texts and colours arrive finished.

mod png;
mod svg;

pub use png::{PngError, png};
pub use svg::svg;
