//! What the dated rules of mass-start events ask of a bar.
//!
//! Lengths in mm. From memory; the text of whoever runs the event decides.

use crate::Date;
use fit_math::cockpit::Cockpit;
use fit_math::frame::Side;

/// The first day of the rules: mass-start road and cyclo-cross.
const FROM: (i16, i8, i8) = (2026, 1, 1);
/// The least width, outside to outside, at its widest.
const LEAST_WIDTH_MM: f64 = 400.0;
/// The most that an end stands out beyond the hood, each side.
const MOST_FLARE_MM: f64 = 65.0;
/// The least distance between the inner edges of the levers.
const BETWEEN_LEVERS_MM: f64 = 280.0;

/// Which rule a cockpit leaves, mm.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum EventRule {
    /// The bar is so wide outside, and wider is asked.
    Width(f64),
    /// Each end stands so far out beyond the hood.
    Flare(f64),
    /// So much is between the levers.
    BetweenLevers(f64),
}

/// The rules that a cockpit leaves on a day; none before the rules begin.
pub fn event_rules(cockpit: &Cockpit, day: Date) -> Vec<EventRule> {
    if (day.year(), day.month(), day.day()) < FROM {
        return Vec::new();
    }
    let bend = cockpit.bend();
    let tube = bend.dimensions().drops_mm;
    let (hoods, ends) = (bend.width_hoods_cc_mm(), bend.width_ends_cc_mm());
    let (width, flare) = (hoods.max(ends) + tube, (ends - hoods) / 2.0);
    let between = cockpit.lever_poses().map(|poses| {
        let [left, right] = Side::BOTH.map(|side| {
            let pose = &poses[side as usize];
            pose.grip().z.abs() - pose.shape.grip_radius_mm
        });
        left + right
    });
    let all = [
        (width < LEAST_WIDTH_MM).then_some(EventRule::Width(width)),
        (flare > MOST_FLARE_MM).then_some(EventRule::Flare(flare)),
        between.filter(|mm| *mm < BETWEEN_LEVERS_MM).map(EventRule::BetweenLevers),
    ];
    all.into_iter().flatten().collect()
}
