//! Bikes and cockpits in the file. Lengths in mm, angles in degrees.

use super::kept::{Number, kept};
use super::parts::{Bar, Lever, Stem};

kept! {
    Frame {
        stack_mm: Number,
        reach_mm: Number,
        head_angle_deg: Number,
        seat_angle_deg: Number,
        headset_cover_mm: Number,
        head_tube_mm: Number,
        fork_offset_mm: Number,
        wheel_radius_mm: Number,
        bottom_bracket_drop_mm: Number,
        rear_centre_mm: Number,
        crank_mm: Number,
    }
    Bike { id: String, name: String, frame: Frame, cockpit: Cockpit, } + { same_as: Option<String>, }
    Saddle { height_mm: Number, nose_behind_mm: Number, sit_from_nose_mm: Number, tilt_deg: Number, }
    LeverSetting { along_mm: Number, turn_in_deg: Number, clicks: u32, }
    Levers { lever: Lever, left: LeverSetting, right: LeverSetting, }
    Cockpit {
        id: String,
        label: String,
        bar: Bar,
        stem: Stem,
        spacers_mm: Number,
        roll_deg: Number,
        levers: Option<Levers>,
        drops_hand_mm: Number,
        saddle: Saddle,
        ridden: bool,
    }
}
