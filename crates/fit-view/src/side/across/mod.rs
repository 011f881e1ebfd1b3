//! The cockpits from the front and from above: bars in their whole width, levers with their turn-in,
//! both hands, and the rider behind them.
//!
//! Bike frame, mm; what is flat in the side view (hood, blade, stem) gets a thickness here, so that
//! it is a body from whichever way it is looked at. It is drawn, never computed with.

mod body;
mod shape;

pub(super) use body::{fists, hand_names, rider_on_bike};
pub(super) use shape::{on_one_line, shape};
