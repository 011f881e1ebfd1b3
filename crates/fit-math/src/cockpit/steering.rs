//! Trail and wheel flop from head angle, fork offset and wheel radius.
//!
//! The usual definitions, as in Meijaard, Papadopoulos, Ruina and Schwab 2007, Proc. R. Soc. A
//! 463:1955 (their *c* is the trail). Nothing here says how a bike will feel: no published number
//! ties these or the bar's width to stability.

/// Ground trail in mm: how far the tyre's contact lies behind the steering axis on the ground.
///
/// `head_angle_rad` from the horizontal, `offset_mm` of the axle perpendicular to the steering
/// axis, `wheel_radius_mm` over the tyre.
pub fn trail_mm(head_angle_rad: f64, offset_mm: f64, wheel_radius_mm: f64) -> f64 {
    let (sin, cos) = head_angle_rad.sin_cos();
    (wheel_radius_mm * cos - offset_mm) / sin
}

/// Wheel flop in mm: trail · sin · cos of the head angle.
pub fn flop_mm(head_angle_rad: f64, offset_mm: f64, wheel_radius_mm: f64) -> f64 {
    let (sin, cos) = head_angle_rad.sin_cos();
    trail_mm(head_angle_rad, offset_mm, wheel_radius_mm) * sin * cos
}
