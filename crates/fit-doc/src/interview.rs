//! What the client is asked before anything is measured.

use crate::{HandPlace, SendOn};

/// What the client said.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Interview {
    /// What was changed before it began: bike, shoes, riding.
    pub changed_before: String,
    /// What is ridden, and where.
    pub riding: String,
    /// Hours on the bike in a week, where asked.
    pub hours_per_week: Option<f64>,
    /// Share of the time that the hands are in a place, none twice.
    pub shares: Vec<Share>,
    /// Rides with glasses.
    pub glasses: bool,
    /// What is worn on the head; none: not asked.
    pub helmet: Option<Helmet>,
    /// Old injuries, operations.
    pub injuries: String,
    /// What the client is afraid of on the bike.
    pub fears: String,
    /// What sends the client on that was said to be so, none twice.
    pub red_flags: Vec<SendOn>,
    /// The client agrees that what is said and measured is kept.
    pub consent: bool,
}

/// What is worn on the head: a peak makes it lift to look ahead.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Helmet {
    /// A helmet with a peak.
    WithPeak,
    /// A helmet without one.
    WithoutPeak,
    /// No helmet.
    BareHead,
}

impl Helmet {
    /// All.
    pub const ALL: [Self; 3] = [Self::WithPeak, Self::WithoutPeak, Self::BareHead];
}

/// How much of the time the hands are in a place.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Share {
    /// Where.
    pub place: HandPlace,
    /// Of a hundred.
    pub percent: u8,
}

impl Interview {
    /// How much of the time the hands are there, of a hundred, where asked.
    pub fn share(&self, place: HandPlace) -> Option<u8> {
        self.shares.iter().find(|share| share.place == place).map(|share| share.percent)
    }

    /// All the shares together; none where nobody asked.
    pub fn shares_sum(&self) -> Option<u32> {
        let sum = self.shares.iter().map(|share| u32::from(share.percent)).sum();
        (!self.shares.is_empty()).then_some(sum)
    }
}
