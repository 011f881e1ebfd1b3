//! How sure something is, in words.

use crate::side::Sight;

/// Every text about doubt; a part of [`Words`](super::Words).
pub trait DoubtWords {
    /// How far chance alone takes a change, beside it: "±2".
    fn within(&self, within: i64) -> String;
    /// A change that chance alone may have made.
    fn too_small(&self) -> &'static str;
    /// What the brackets round a change mean, before what else stands beside the table.
    fn brackets_mean(&self) -> &'static str;
    /// What both mean, for a legend under a table that puts in brackets what is too small to tell.
    fn doubt_means(&self) -> &'static str;
    /// How sure changes near a limit are is still being worked out.
    fn being_reckoned(&self) -> &'static str;
    /// It was stopped, and is not known.
    fn not_reckoned(&self) -> &'static str;
    /// Stops it.
    fn stop_reckoning(&self) -> &'static str;
    /// Works it out after all.
    fn reckon(&self) -> &'static str;
    /// How far chance takes the hands on a cockpit in the picture, mm to the right and upwards; nought
    /// where that is not drawn.
    fn twin_within(&self, label: &str, sight: Sight, right_mm: i64, up_mm: i64) -> String;
}
