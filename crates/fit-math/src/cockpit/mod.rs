//! From parts and settings to where the hands lie.
//!
//! A stem on its steerer puts the clamp in the bike frame (`stem`), the roll turns the bar about
//! it (`assembly`), levers ride on the bend (`lever`), and the hand places follow (`places`).
//! `matching` goes the other way: the parts and settings that bring a wanted hand place back.
//! All lengths in mm, all angles in radians, forward only: tape readings are explained
//! in [`crate::tape`].

mod assembly;
mod hold;
mod lever;
mod matching;
mod places;
mod steering;
mod stem;

pub use assembly::{Cockpit, CockpitError, CockpitNumber, LeverPair};
pub use hold::Hold;
pub use lever::{
    Blade, LeverFrame, LeverPose, LeverShape, LeverShapeError, Mount, MovedLever, move_lever,
};
pub use matching::{Axes, Match, MatchGoal, TIE_MM, match_place};
pub use places::{Grip, GripPair, HandPlaces, TAPE_MM};
pub use steering::{flop_mm, trail_mm};
pub use stem::{FrontEnd, Stem, clamp_position};
