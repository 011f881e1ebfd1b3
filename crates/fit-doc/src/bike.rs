//! A bike: its frame as far as the fit needs it, and the cockpit last known to be on it.

use crate::Cockpit;

/// Frame, fork and crank in the numbers that a fit needs, mm and degrees.
#[derive(Debug, Clone, PartialEq)]
pub struct Frame {
    /// Vertical, bottom bracket axle to the top of the head tube, mm.
    pub stack_mm: f64,
    /// Horizontal, bottom bracket axle to the top of the head tube, mm.
    pub reach_mm: f64,
    /// Head tube from the horizontal, degrees.
    pub head_angle_deg: f64,
    /// Seat tube from the horizontal, degrees.
    pub seat_angle_deg: f64,
    /// Height of the headset's cover over the head tube, mm.
    pub headset_cover_mm: f64,
    /// Length of the head tube, mm; for the drawing.
    pub head_tube_mm: f64,
    /// Perpendicular offset of the front axle from the steering axis, mm.
    pub fork_offset_mm: f64,
    /// Radius of the wheels over the tyres, mm.
    pub wheel_radius_mm: f64,
    /// How far the bottom bracket lies under the line of the axles, mm.
    pub bottom_bracket_drop_mm: f64,
    /// Bottom bracket axle to the rear axle along the stay, mm.
    pub rear_centre_mm: f64,
    /// Crank length, mm.
    pub crank_mm: f64,
}

impl Frame {
    /// The frame that stands for one that nobody has measured yet: of middle size (common practice, no
    /// source). Every number is there to be typed over.
    pub const MIDDLE_SIZE: Self = Self {
        stack_mm: 565.0,
        reach_mm: 383.0,
        head_angle_deg: 72.5,
        seat_angle_deg: 73.5,
        headset_cover_mm: 12.0,
        head_tube_mm: 150.0,
        fork_offset_mm: 47.0,
        wheel_radius_mm: 344.0,
        bottom_bracket_drop_mm: 72.0,
        rear_centre_mm: 420.0,
        crank_mm: 172.5,
    };

    /// Stack and reach are still those of [`Self::MIDDLE_SIZE`]: nobody has said where the bar is.
    pub fn stands_for_another(&self) -> bool {
        let front = |of: &Self| (of.stack_mm, of.reach_mm);
        front(self) == front(&Self::MIDDLE_SIZE)
    }

    /// What is only drawn is still that of [`Self::MIDDLE_SIZE`]: whatever was said of the rest, it began as
    /// one that stands for another.
    pub fn began_as_middle_size(&self) -> bool {
        let drawn = |of: &Self| {
            [
                of.head_tube_mm,
                of.fork_offset_mm,
                of.wheel_radius_mm,
                of.bottom_bracket_drop_mm,
                of.rear_centre_mm,
            ]
        };
        drawn(self) == drawn(&Self::MIDDLE_SIZE)
    }
}

/// One of the client's bikes.
#[derive(Debug, Clone, PartialEq)]
pub struct Bike {
    /// Identity within the session.
    pub id: String,
    /// What the client calls it.
    pub name: String,
    /// Its frame.
    pub frame: Frame,
    /// The cockpit last known to be on it.
    pub cockpit: Cockpit,
    /// Id of the bike that it is, where a visit that was followed knows that bike by other numbers of its
    /// frame; it stands before this one.
    pub same_as: Option<String>,
}
