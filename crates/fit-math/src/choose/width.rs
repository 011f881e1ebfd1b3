//! The width to begin with. mm; widths at the hoods, centre to centre.

/// The first width to try: of those on offer the one nearest to the distance between the bony
/// points of the shoulders (common practice, no source), the wider of two that are equally near.
/// The hands in the drops then stand just outside the shoulders. None where nothing is on offer.
///
/// ```
/// use fit_math::choose::first_width_mm;
/// assert_eq!(first_width_mm(396.0, &[380.0, 400.0, 420.0]), Some(400.0));
/// ```
pub fn first_width_mm(shoulders_mm: f64, on_offer_mm: &[f64]) -> Option<f64> {
    let off = |width: f64| (width - shoulders_mm).abs();
    on_offer_mm.iter().copied().reduce(|best, next| match off(next).total_cmp(&off(best)) {
        core::cmp::Ordering::Less => next,
        core::cmp::Ordering::Equal => best.max(next),
        core::cmp::Ordering::Greater => best,
    })
}

#[cfg(test)]
mod tests {
    use super::first_width_mm;

    #[test]
    fn the_wider_of_two_equally_near_whatever_their_order() {
        assert_eq!(first_width_mm(390.0, &[380.0, 400.0]), Some(400.0));
        assert_eq!(first_width_mm(390.0, &[400.0, 380.0]), Some(400.0));
        assert_eq!(first_width_mm(300.0, &[400.0, 380.0]), Some(380.0));
        assert_eq!(first_width_mm(400.0, &[]), None);
    }
}
