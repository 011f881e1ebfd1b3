//! Which width of a bend to try first: the one nearest to the client's shoulders.

use fit_doc::{Bar, Dimension, Item, Visit};
use fit_math::body::ACROMIA_BEYOND_FELT_JOINTS_MM;
use fit_math::choose::first_width_mm;

/// A bar further from the width of the shoulders than this is no first choice, mm (judgement: half
/// of the 20 mm by which widths are commonly made; common practice, no source).
const NEAR_MM: f64 = 10.0;

/// The distance between the bony points of the shoulders as read at this visit, mm; none where it
/// was not read: an estimate says too little about one client.
pub fn shoulders_mm(visit: &Visit) -> Option<f64> {
    let mean = |item: Item| {
        visit.body.iter().find(|reading| reading.item == item).map(fit_doc::Reading::mean)
    };
    // joints that were felt lie within the outer edges
    mean(Dimension::BiacromialBreadth.into())
        .or_else(|| mean(Item::ShoulderJoints).map(|mm| mm + ACROMIA_BEYOND_FELT_JOINTS_MM))
}

/// Of the bars of one bend the one to try first on shoulders of that width; none where none is near.
pub fn first_bar<'a>(bend: &[&'a Bar], shoulders_mm: f64) -> Option<&'a Bar> {
    let widths: Vec<f64> = bend.iter().map(|bar| bar.width_mm).collect();
    let first = first_width_mm(shoulders_mm, &widths)?;
    let near = (first - shoulders_mm).abs() <= NEAR_MM;
    bend.iter().copied().find(|bar| near && bar.width_mm == first)
}
