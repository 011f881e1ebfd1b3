//! What a posture does beyond the body.
//!
//! - [`silhouette`]: what the wind sees of the rider
//! - [`air`] and [`power`]: what that is worth at a speed
//! - [`steering`]: how the hands stand to the steering axis
//! - [`load`]: what the hands carry, and how rider and bicycle stand on the wheels
//!
//! All of it is meant for differences between cockpits for one rider on one bicycle, and follows
//! without steps from the joints of a posture's [`Figure`](crate::posture::Figure).
//!
//! ```
//! use fit_math::body::{Body, Segments, Sex, Survey};
//! use fit_math::cockpit::FrontEnd;
//! use fit_math::effect::load::HandLoad;
//! use fit_math::effect::silhouette::{Flesh, TOLERANCE, frontal_area_m2};
//! use fit_math::effect::steering::HandsAboutAxis;
//! use fit_math::posture::{Grips, HandPlace, Rider, solve};
//! use fit_math::saddle::{Saddle, Seat};
//! use fit_math::DVec3;
//! # fn main() -> Result<(), Box<dyn std::error::Error>> {
//! let sex = Some(Sex::Male);
//! let body = Body::new(&Survey::shipped()?, sex, &[])?;
//! let rider = Rider::new(Segments::of(&body)?, sex);
//! let seat = Seat::on(&Saddle::new(732.0, 68.0, 140.0, 0.0)?, 172.5)?;
//! let front = FrontEnd { stack_mm: 560.0, reach_mm: 390.0,
//!     head_angle_rad: 73_f64.to_radians(), headset_cover_mm: 10.0 };
//! let flesh = Flesh::of(&body);
//!
//! let level = core::f64::consts::FRAC_PI_2;
//! let hoods = |half_width_mm: f64| -> Result<_, Box<dyn std::error::Error>> {
//!     let grips = Grips::symmetric(DVec3::new(586.0, 639.0, half_width_mm))?;
//!     let posture = solve(&rider, &seat, &grips, HandPlace::Hoods, None);
//!     let figure = posture.figure(&rider, &seat, &grips, HandPlace::Hoods, level);
//!     let area_m2 = frontal_area_m2(&figure, &flesh, TOLERANCE);
//!     let hands = HandsAboutAxis::new(&front, grips.both());
//!     Ok((area_m2, hands, HandLoad::of(&figure, sex)?.share))
//! };
//! let (narrow, wide) = (hoods(190.0)?, hoods(220.0)?);
//! assert!(wide.0 > 1.01 * narrow.0, "the wind sees more of a wider bar's rider");
//! assert!(wide.1.effort(&narrow.1) < 1.0, "a wider bar is lighter to turn");
//! assert!((wide.2 - narrow.2).abs() < 0.005, "the hands carry the same");
//! # Ok(())
//! # }
//! ```

pub mod air;
pub mod load;
pub mod power;
pub mod silhouette;
pub mod steering;
