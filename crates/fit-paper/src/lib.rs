//! Pictures on paper and in files.
//!
//! A page ([`fit_view::picture::Picture`]) becomes SVG text ([`svg`]), the same SVG becomes a PNG
//! ([`png`]), and the page itself becomes a PDF ([`pdf`]). Nothing is measured or worded here: numbers, texts and colours arrive finished.

mod pdf;
mod png;
mod svg;

pub use pdf::{PaperError, pdf};
pub use png::{PngError, png};
pub use svg::svg;
