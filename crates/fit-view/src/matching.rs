//! What of the sums a desk needs to bring a hand place back: see [`fit_math::cockpit`].

pub use fit_math::cockpit::{Axes, Match, MatchGoal, match_place};
