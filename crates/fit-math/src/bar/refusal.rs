//! Why a bar cannot be built, and what could be built instead.
//!
//! mm and rad. It deliberately words no advice: it names the case and its figures.
//! Source of the rules: judgement, see [`Rule`].

use core::fmt;

/// A reach and a drop, mm.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ReachDrop {
    /// Reach, mm.
    pub reach_mm: f64,
    /// Drop, mm.
    pub drop_mm: f64,
}

impl ReachDrop {
    /// Distance to another pair, mm: the root of the squares of both differences.
    pub fn distance_mm(self, other: Self) -> f64 {
        (self.reach_mm - other.reach_mm).hypot(self.drop_mm - other.drop_mm)
    }
}

impl fmt::Display for ReachDrop {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{:.0} × {:.0} mm", self.reach_mm, self.drop_mm)
    }
}

/// What a bend must leave room for; all of it judgement.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Rule {
    /// From the corner of tops and ramp to the hook are at least 14 mm, measured level.
    RampLength,
    /// The bend between tops and ramp has a radius of at least 12 mm and ends 2 mm before the
    /// hook.
    ForwardBend,
    /// The smallest radius in the hook is at least 20 mm.
    HookRadius,
    /// Half the top stays straight for at least 30 mm.
    StraightTop,
    /// The hook or tail goes down at least as far as the corner of tops and ramp.
    HookBelowTops,
}

/// Why there is no such bar.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum BarRefusal {
    /// A number is missing or beyond anything that is a drop bar.
    #[error("{field} must be from {from} to {to}: {value} was given")]
    Invalid {
        /// Which field of [`super::BarDimensions`].
        field: &'static str,
        /// What was given, in the field's unit.
        value: f64,
        /// Least that is accepted.
        from: f64,
        /// Most that is accepted.
        to: f64,
    },
    /// Two fields contradict each other.
    #[error("{field} does not go with {with}")]
    Contradiction {
        /// Which field of [`super::BarDimensions`].
        field: &'static str,
        /// Which other.
        with: &'static str,
    },
    /// No flare that is a drop bar's makes the ends as wide as asked.
    #[error(
        "the ends cannot be {asked_mm:.0} mm wide: with this reach, drop and width at the hoods \
         they lie between {narrowest_mm:.0} and {widest_mm:.0} mm"
    )]
    EndsWidth {
        /// Asked width at the ends, as it was taken, mm.
        asked_mm: f64,
        /// Least width that a flare gives, taken the same way, mm.
        narrowest_mm: f64,
        /// Most width that a flare gives, taken the same way, mm.
        widest_mm: f64,
    },
    /// The bend would break a rule, and another reach and drop would not.
    #[error("{asked} cannot be bent: the nearest is {nearest_whole}")]
    Unbuildable {
        /// Every rule that was broken.
        rules: Vec<Rule>,
        /// What was asked.
        asked: ReachDrop,
        /// The nearest pair that can be built, all else kept.
        nearest: ReachDrop,
        /// The nearest pair of whole millimetres that can be built, all else kept.
        nearest_whole: ReachDrop,
    },
    /// The bend would break a rule, whatever its reach and drop.
    #[error("no reach and drop can be bent with the other dimensions of this bar")]
    NothingFits {
        /// Every rule that was broken.
        rules: Vec<Rule>,
    },
    /// The built bend does not measure what was asked.
    #[error("the bend built for {asked} measures {measured}, width off by {width_off_mm} mm")]
    NotReproduced {
        /// What was asked.
        asked: ReachDrop,
        /// What the bend measures.
        measured: ReachDrop,
        /// How far the width is off, mm.
        width_off_mm: f64,
    },
}
