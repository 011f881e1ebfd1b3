//! Choose: what of a shop's stock is worth trying for a client, and why.
//!
//! An [`Ask`] is made of a visit's aims, its bench as weighed, and the stock; its search goes rung by
//! rung up the ladder (a screw before a lever before a bar), so that every dear answer is held against
//! the best of the cheaper ones; the [`Outcome`] is then told as [`Advice`]: answers weighed like any
//! cockpit of the bench, each with its [`Reason`]s. Nothing is scored: worth only puts answers in
//! order.
//!
//! The search is exact on its grid ([`fit_math::choose`]): whole millimetres of lever place, half
//! degrees of roll, 5 mm of spacers.

mod advice;
mod alike;
mod alone;
#[cfg(test)]
mod anything;
mod as_it_is;
mod asked;
mod balance;
mod beats;
mod behind;
mod effort;
mod idea;
mod json;
mod lean;
mod most;
mod order;
mod quick;
mod reason;
mod ridden;
mod row;
mod rules;
mod rungs;
#[cfg(test)]
mod schema;
mod screw;
mod search;
mod shallower;
mod sizes;
mod steady;
mod stops;
mod takes;
mod text;
mod tipped;
mod why_not;
mod worst;

pub use advice::{Advice, Answer, IDEAS, Step};
pub use balance::{AxisOf, Point, TradeOff};
pub use behind::behind;
pub use json::json;
pub use quick::Quick;
pub use reason::{Bears, Reason, Source};
pub use rungs::NotOffered;
pub use search::{Ask, Balance, Counted, NoSearch, Outcome, Progress, Sought};
pub use shallower::{GivenUp, LeftNothing};
pub use stops::without_what_waits;
pub use text::{left_out, text};
pub(crate) use tipped::tips_at_most_deg;
