//! The window: egui on top of a desk.
//!
//! Every part is a function of the desk that pushes commands; nothing here knows about bicycles, and
//! no text stands here: words come from `fit-view`.

mod behind;
mod bike;
mod body;
mod cards;
mod complaint;
mod dialogs;
mod differences;
mod drawing;
mod handles;
mod header;
mod how_to;
mod interview;
mod keys;
mod mobility;
mod native;
mod notices;
mod number;
mod outline;
mod paint;
mod painted;
mod recent;
mod ride;
mod rule_out;
mod ruler;
mod runner;
mod seen;
mod setup;
mod stock;
mod tape;
mod tape_row;
mod theme;
mod trial;
mod who;
mod widgets;
mod workbench;

pub use native::{NoWindow, open};
pub use workbench::Workbench;
