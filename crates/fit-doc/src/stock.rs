//! What a shop has: every bar, stem and lever that can be put on a bench.

use crate::{Bar, Lever, Stem};

/// Everything on the shelf.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Stock {
    /// Bars, one for each bend and width (and, where it is one piece, stem), in the list's order.
    pub bars: Vec<Bar>,
    /// Stems, in the list's order.
    pub stems: Vec<Stem>,
    /// Levers, in the list's order.
    pub levers: Vec<Lever>,
}

impl Stock {
    /// The bar of that stock number.
    pub fn bar(&self, id: &str) -> Option<&Bar> {
        self.bars.iter().find(|bar| bar.id == id)
    }

    /// The stem of that stock number.
    pub fn stem(&self, id: &str) -> Option<&Stem> {
        self.stems.iter().find(|stem| stem.id == id)
    }

    /// The lever of that stock number.
    pub fn lever(&self, id: &str) -> Option<&Lever> {
        self.levers.iter().find(|lever| lever.id == id)
    }
}
