//! What is looked at: no part of the document, never saved with it, not undone.

use fit_doc::HandPlace;
use fit_view::side::{Hold, Sight};

/// A place of work in the window.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Room {
    /// The client, what hurts, what is wanted.
    Who,
    /// What was read off the body.
    Body,
    /// Frame, saddle and the cockpit as it came.
    Bike,
    /// The cockpits beside each other.
    Bench,
    /// What is decided, and what it takes.
    Decide,
    /// What happens after the visit.
    Later,
}

impl Room {
    /// All, in the order of a visit.
    pub const ALL: [Self; 6] =
        [Self::Who, Self::Body, Self::Bike, Self::Bench, Self::Decide, Self::Later];
}

/// Light or dark.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum ThemeChoice {
    /// As the desktop has it.
    #[default]
    System,
    /// Always light.
    Light,
    /// Always dark.
    Dark,
}

/// Where the client's view is shown.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum ForClient {
    /// Nowhere.
    #[default]
    Not,
    /// In this window, in the place of everything else.
    Here,
    /// In a window of its own, for a second screen.
    Beside,
}

/// What is looked at.
#[expect(clippy::struct_excessive_bools, reason = "each is a switch of its own")]
#[derive(Debug, Clone, PartialEq)]
pub struct Look {
    /// Which place of work.
    pub room: Room,
    /// Which visit of the session.
    pub visit: usize,
    /// Where the hands are.
    pub hands: HandPlace,
    /// The hands of all places are shown.
    pub all_hands: bool,
    /// Which point of all cockpits is laid over each other.
    pub hold: Hold,
    /// Which way the cockpits are looked at.
    pub sight: Sight,
    /// The measures of the selected cockpit are drawn.
    pub measures: bool,
    /// The ruler lies on the drawing.
    pub ruler: bool,
    /// What stands behind the differences of that cockpit is shown in their place.
    pub behind: bool,
    /// The cockpit that was ridden last is what the others are compared with, where there is one.
    pub against_trial: bool,
    /// What of the shop is worth trying is shown in the place of the set-up.
    pub choosing: bool,
    /// Two things that are wanted are held against each other in the place of drawing and differences.
    pub balancing: bool,
    /// Where the client's view is shown.
    pub for_client: ForClient,
    /// Id of the cockpit that is spoken of.
    pub selected: String,
    /// Light or dark.
    pub theme: ThemeChoice,
}
