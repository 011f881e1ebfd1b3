//! What a tape reads on a bike whose every number is known, without any error.

use fit_doc::tape::Of;
use fit_doc::{Cockpit, Frame, Message, Place, TapeReading, geometry};
use fit_math::saddle::Saddle;
use fit_math::tape::predict;

/// Readings of a cockpit on its frame, the bike standing so many degrees nose up: mm, slopes in
/// degrees. What it has nothing for is left out.
///
/// # Errors
/// Where cockpit or saddle cannot be put together.
pub fn laid(
    frame: &Frame,
    came: &Cockpit,
    of: impl IntoIterator<Item = Of>,
    nose_up_deg: f64,
) -> Result<Vec<TapeReading>, Message> {
    let place = Place::cockpit(&came.label);
    let cockpit = geometry::cockpit(&place, frame, came)?;
    geometry::seat(&place, frame, came)?;
    let set = &came.saddle;
    let tilt_rad = set.tilt_deg.to_radians();
    let saddle = Saddle::new(set.height_mm, set.nose_behind_mm, set.sit_from_nose_mm, tilt_rad);
    let Ok(saddle) = saddle else { return Ok(Vec::new()) };
    let read = |of: Of| {
        let value = predict(of, &cockpit, &saddle, nose_up_deg.to_radians())?;
        let value = if of.is_angle() { value.to_degrees() } else { value };
        Some(TapeReading { of, value })
    };
    Ok(of.into_iter().filter_map(read).collect())
}
