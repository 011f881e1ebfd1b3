//! From tape: about twelve readings, taken in one walk round the bike, and the cockpit and saddle
//! that explain them.
//!
//! Bike frame, mm and rad. [`explain`] takes the readings and what is known beforehand ([`Known`]:
//! bar, kind of lever, stem, how far the trainer is out of level), solves for the unknowns by
//! weighted least squares, and says of each reading how well it agrees, whether any other checks
//! it, and which one was mistyped and how.
//!
//! **The twelve** ([`Of::TWELVE`]), each with its usual SD (tape 2 mm, slope 1°):
//!
//! | reading | for |
//! |---|---|
//! | axle to saddle top where it is 80 mm wide | saddle height |
//! | nose behind the axle, level | where the saddle is |
//! | nose to where the saddle is 80 mm wide | the sit point |
//! | slope of the saddle | tilt |
//! | nose to the middle of the bar | clamp, forward |
//! | middle of the bar below the saddle | clamp, up |
//! | nose to the hood's trough or tip | hoods, forward |
//! | that below the saddle | hoods, up |
//! | nose to the front of the hooks | reach, and checks nose to bar |
//! | lowest of the hooks below the saddle | drop, and checks bar below saddle |
//! | slope of the ramp | roll |
//! | lever from the bar's end | lever along the bend |
//!
//! **Besides**, where there is time ([`Of::BESIDES`]): the width (nothing else speaks of it), the
//! diagonal from axle to bar, the slopes of tail and hood; the bar's end in place of the hooks or
//! with them. Distances may be level or slant.
//!
//! **Unknowns** ([`Unknown`]): saddle height, nose, nose to 80 mm and tilt; the clamp; roll; the
//! bar's reach, drop, width, slopes and tail; the lever along the bar and how far its hood is off
//! its kind's. Bar and lever kind enter as observations with their own doubt ([`BarKnown`]).
//!
//! **What stands alone** is computed for each set of readings ([`Found::alone`]). Of the twelve
//! those are the four of the saddle: a slip there moves saddle and bar together and nothing shows
//! it. The diagonal, or frame numbers ([`clamp_from_frame`]), check saddle height and nose; the
//! three then still cannot be told apart. The tilt always stands alone, and the 80 mm nearly so.
//! A reading that cannot be told from another is named with it ([`Judged::alike`]).
//!
//! One side is measured, the right one; how far apart the levers are stays as it is known. The
//! frame's stack and reach follow from the clamp ([`frame_from_clamp`]). It deliberately does not
//! read text, and it judges no reading as unusual.
//! Source: Gauss's least squares; testing after Baarda 1968, A testing procedure for use in
//! geodetic networks.

mod check;
mod fit;
mod found;
mod frame;
mod predict;
mod reading;
mod slip;
mod start;
mod trial;
mod unknown;

pub use check::{Explained, SINGLED_OUT, Suspicion, explain};
pub use fit::TapeError;
pub use found::{ALIKE_ABOVE, ALONE_BELOW, Blamed, Estimate, Found, Judged, PlaceEstimate};
pub use frame::{
    FRAME_SD_MM, FrameFound, HEAD_ANGLE_SD_RAD, STEERER_SD_MM, STEM_ANGLE_SD_RAD,
    STEM_LENGTH_SD_MM, clamp_from_frame, frame_from_clamp,
};
pub use predict::{Held, Spot, predict, spot};
pub use reading::{HOOD_SLOPE_SD_RAD, HoodAt, Laid, Of, Reading, SLOPE_SD_RAD, TAPE_SD_MM};
pub use slip::{Mend, Slip, mend_impossible, mends_alone};
pub use trial::{TrialPosition, trial_cockpit};
pub use unknown::{BarKnown, Known, LEVER_KIND_SD_MM, Prior, StemParts, Unknown};
