//! From a client and a shop's stock to what is worth trying.
//!
//! [`Search`] goes through every assembly of a [`Shop`] on its grid (bars with levers, stems, heights
//! of spacers, rolls, lever places) and gives the best that differ, the same list as putting each one
//! together and solving it; [`Front`] gives what no other assembly beats in either of two aims. What
//! an assembly is worth follows from [`Asked`] alone: the caller says what is wanted, how much it
//! counts, and what effort each change is. Millimetres and radians; no threads, no clock: the caller
//! runs chunk by chunk and may stop after any.
//!
//! A client whose hands are to come 20 mm nearer, and a shop with his own bar and three stems:
//!
//! ```
//! use fit_math::bar::{BarDimensions, Family};
//! use fit_math::body::{Body, Segments, Sex, Survey};
//! use fit_math::choose::{
//!     Aim, Asked, AtHands, Bar, Found, Number, Pick, Question, STEP_MM, Search, Setting, Shape,
//!     Shop, StemOffer,
//! };
//! use fit_math::cockpit::{Blade, FrontEnd, LeverPair, LeverShape, Mount, Stem};
//! use fit_math::posture::Rider;
//! use fit_math::saddle::{Saddle, Seat};
//! use fit_math::{DVec2, HandPlace};
//! use std::sync::Arc;
//! # fn main() -> Result<(), Box<dyn std::error::Error>> {
//! # let sex = Some(Sex::Male);
//! # let rider = Rider::new(Segments::of(&Body::new(&Survey::shipped()?, sex, &[])?)?, sex);
//! # let seat = Seat::on(&Saddle::new(732.0, 68.0, 140.0, 0.0)?, 172.5)?;
//! # let front = FrontEnd { stack_mm: 560.0, reach_mm: 390.0,
//! #     head_angle_rad: 73_f64.to_radians(), headset_cover_mm: 10.0 };
//! # let blade = Blade { pivot_mm: DVec2::new(8.0, 42.0), length_mm: 105.0, usable_mm: (40.0, 95.0),
//! #     rest_angle_rad: -0.35, adjuster_rad: vec![0.0], free_travel_mm: 11.0 };
//! # let shape = Arc::new(LeverShape { grip_mm: DVec2::new(19.0, 43.0), hood_slope_rad: 0.7,
//! #     grip_radius_mm: 16.0, hood_outline_mm: Vec::new(), blade }.checked()?);
//! let bend = Arc::new(BarDimensions::usual(Family::Round, 80.0, 130.0, 420.0).build()?);
//! let along_mm = bend.along_from_s(bend.default_clamp().s_mm);
//! let mount = Mount { along_mm, turn_in_rad: 0.0, clicks: 0 };
//! let levers = LeverPair { shape, left: mount, right: mount };
//! // effort: a retape costs a tenth of having the hands wholly where they are wanted
//! let bar = Bar {
//!     id: 0, own_stem: None, effort: 0.0, jobs: 0, price: Some(0), is_there: true,
//!     drops_hand_mm: 0.0, lever_clamp_mm: 24.0,
//!     zone_mm: bend.clamp_zone(),
//!     rolls: Bar::half_degrees(-2.0, 2.0, 0.0, 0.02),
//!     shifts: Bar::whole_mm(&bend, &levers, bend.clamp_zone(), 0.1),
//!     rolls_at: Vec::new(), bend, levers,
//! };
//! let stems = [110.0, 100.0, 90.0].into_iter().enumerate().map(|(at, length_mm)| StemOffer {
//!     id: at as u32,
//!     stem: Stem { length_mm, angle_rad: -6_f64.to_radians(), clamp_height_mm: 40.0 },
//!     clamps_mm: 31.8,
//!     effort: if at == 0 { 0.0 } else { 0.05 },
//!     jobs: 0,
//!     price: None,
//!     is_there: at == 0,
//! });
//! let present = Pick { bar: 0, stem: Some(0), spacers: 0, roll: 0, shift: 0 };
//! let shop = Shop {
//!     front, bars: vec![bar], stems: stems.collect(), present: Some(present),
//!     spacers: vec![Setting { at: 20.0, effort: 0.0, jobs: 0 }],
//!     minutes: Vec::new(),
//! };
//! let now = shop.cockpit(&present)?.and_then(|c| c.grips(HandPlace::Hoods));
//! let wanted = now.ok_or("it has levers")?.midway().truncate() - DVec2::new(20.0, 0.0);
//! let asked = Asked {
//!     places: vec![(HandPlace::Hoods, 1.0)],
//!     aims: vec![Aim {
//!         of: Number::Hands(0, AtHands::AwayFrom(wanted)),
//!         weight: 1.0,
//!         shape: Shape::Near { at: 0.0, scale: 20.0 },
//!     }],
//!     palm_mm: 84.0,
//! };
//!
//! let question = Question { rider: &rider, seat: &seat, shop: &shop, asked: &asked };
//! let search = Search::new(question, &[], STEP_MM)?;
//! let mut found = Found::none(3);
//! for chunk in 0..search.chunks() {
//!     search.run(chunk, &mut found);
//! }
//! let best = &found.answers()[0];
//! assert_eq!(best.pick.stem, Some(2), "a stem 20 mm shorter");
//! assert!(best.worth > search.present().ok_or("it is there")?.worth);
//! # Ok(())
//! # }
//! ```

mod aims;
mod exact;
mod found;
mod front;
mod limits;
mod prepared;
mod ready;
mod search;
mod shop;
mod table;
mod width;

pub use aims::{Aim, Asked, AtHands, HandNumbers, Number, OfBar, Shape};
pub use exact::{Answer, Question};
pub use found::Found;
pub use front::{Axis, Front, OnFront};
pub use limits::{Allowed, Limited, Why};
pub use prepared::BarNumbers;
pub use search::Search;
pub use shop::{ALONG_STEP_MM, Bar, Jobs, Key, Pick, ROLL_STEP_DEG, Setting, Shop, StemOffer};
pub use table::{PostureTable, SAFETY, SAFETY_AT_LIMITS, STEP_MM, Spans, Tables};
pub use width::first_width_mm;

use thiserror::Error;

/// Two answers of the same parts differ where a hand place lies so far apart, mm: the most that a
/// lever is moved before a client feels it (3–5 mm; common practice, no source). A millionth less
/// than 5, so that 5 mm along a straight count as 5 whatever rounding makes of them.
pub const DIFFERENT_MM: f64 = 5.0 - 1e-6;

/// Why a search is refused.
#[derive(Debug, Clone, PartialEq, Eq, Error)]
pub enum ChooseError {
    /// No hand place is asked, or a share of time is not a number from 0 up.
    #[error("expected at least one hand place, each with a share of time from 0 up")]
    Places,
    /// An aim counts less than nothing, has no slope, or is about a place that is not asked.
    #[error("aim {index} counts less than nothing, has no slope, or is about no place asked")]
    Aim {
        /// Which, from 0.
        index: usize,
    },
    /// The palm's breadth is not a number from 0 up.
    #[error("the palm's breadth is not a number from 0 up")]
    Palm,
    /// A range's end is not a number.
    #[error("a range's end is not a number")]
    Ranges,
    /// The heights of spacers are none, or not numbers from 0 up.
    #[error("expected heights of spacers from 0 up")]
    Spacers,
    /// A bar has no setting, a number that is none, a zone beyond it, levers that do not fit, or rolls that go
    /// with some of its lever places and not all.
    #[error("bar {index} has no setting, a number that is none, or a lever that is not on it")]
    Bar {
        /// Which, from 0.
        index: usize,
    },
    /// A stem has a number that is none.
    #[error("stem {index} has a number that is none")]
    Stem {
        /// Which, from 0.
        index: usize,
    },
    /// The bike has a number that is none, or is below nought.
    #[error("the bike has a number that is none")]
    Front,
    /// Two bars or two stems have one id.
    #[error("two bars or two stems have one id")]
    Ids,
    /// The present cockpit is not among the parts.
    #[error("the present cockpit is not among the parts")]
    Present,
    /// Hands on that bar would be on no bike.
    #[error("on bar {bar} a hand would be beyond any bike or on the wrong side")]
    Grips {
        /// Which, from 0.
        bar: usize,
    },
    /// An axis of a front names no aim.
    #[error("an axis names no aim")]
    Axis,
}
