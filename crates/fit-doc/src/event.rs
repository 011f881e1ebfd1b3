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

/// What a rule asks about.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum EventNumber {
    /// How wide the bar is outside, at its widest.
    Width,
    /// How far each end stands out beyond the hood.
    Flare,
    /// How much is between the levers.
    BetweenLevers,
}

/// One rule, and the number that a cockpit has there, mm.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct EventRule {
    /// What it asks about.
    pub number: EventNumber,
    /// What the cockpit has, mm.
    pub mm: f64,
    /// The least that is asked, of a flare the most, mm.
    pub asked_mm: f64,
}

impl EventRule {
    /// Whether the cockpit keeps it.
    pub fn is_kept(&self) -> bool {
        match self.number {
            EventNumber::Width | EventNumber::BetweenLevers => self.mm >= self.asked_mm,
            EventNumber::Flare => self.mm <= self.asked_mm,
        }
    }
}

/// What the rules of a day ask, and what a cockpit has there; nothing before the rules begin, and
/// nothing between levers that there are not.
pub fn event_rules(cockpit: &Cockpit, day: Date) -> Vec<EventRule> {
    if (day.year(), day.month(), day.day()) < FROM {
        return Vec::new();
    }
    let bend = cockpit.bend();
    let tube = bend.dimensions().drops_mm;
    let (hoods, ends) = (bend.width_hoods_cc_mm(), bend.width_ends_cc_mm());
    let between = cockpit.lever_poses().map(|poses| {
        let [left, right] = Side::BOTH.map(|side| {
            let pose = &poses[side as usize];
            pose.grip().z.abs() - pose.shape.grip_radius_mm
        });
        left + right
    });
    let rule = |number, mm, asked_mm| EventRule { number, mm, asked_mm };
    [
        Some(rule(EventNumber::Width, hoods.max(ends) + tube, LEAST_WIDTH_MM)),
        Some(rule(EventNumber::Flare, (ends - hoods) / 2.0, MOST_FLARE_MM)),
        between.map(|mm| rule(EventNumber::BetweenLevers, mm, BETWEEN_LEVERS_MM)),
    ]
    .into_iter()
    .flatten()
    .collect()
}
