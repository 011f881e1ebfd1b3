//! Which width of a bend to try first: the one nearest to the client's shoulders.

use fit_doc::{Bar, Dimension, Visit};
use fit_math::choose::first_width_mm;

/// A bar further from the width of the shoulders than this is no first choice, mm (judgement: half
/// of the 20 mm by which widths are commonly made; common practice, no source).
const NEAR_MM: f64 = 10.0;

/// The distance between the bony points of the shoulders as read at this visit, mm; none where it
/// was not read: an estimate says too little about one client.
pub fn shoulders_mm(visit: &Visit) -> Option<f64> {
    let read = visit.body.iter().find(|r| r.dimension == Dimension::BiacromialBreadth);
    read.map(fit_doc::Reading::mean)
}

/// Of the bars of one bend the one to try first on shoulders of that width; none where none is near.
pub fn first_bar<'a>(bend: &[&'a Bar], shoulders_mm: f64) -> Option<&'a Bar> {
    let widths: Vec<f64> = bend.iter().map(|bar| bar.width_mm).collect();
    let first = first_width_mm(shoulders_mm, &widths)?;
    let near = (first - shoulders_mm).abs() <= NEAR_MM;
    bend.iter().copied().find(|bar| near && bar.width_mm == first)
}
