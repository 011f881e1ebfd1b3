//! The window: egui on top of a desk.
//!
//! Every part is a function of the desk that pushes commands; nothing here knows about bicycles, and
//! no text stands here: words come from `fit-view`.

mod answers;
mod as_read;
mod behind;
mod bike;
mod body;
mod built;
mod came;
mod cards;
mod choices;
mod choose;
mod client_view;
mod close;
mod complaint;
mod decide;
mod dialogs;
mod differences;
mod digit_row;
mod drawing;
mod half_typed;
mod handles;
mod header;
mod how_to;
mod interview;
mod kept_theme;
mod keys;
mod later;
mod mobility;
mod native;
mod note;
mod notices;
mod number;
mod outline;
mod over;
mod paint;
mod painted;
mod recent;
mod ride;
mod ride_brakes;
mod rule_out;
mod ruler;
mod runner;
mod sampling;
mod seen;
mod setup;
mod stock;
mod strip;
mod tape;
mod tape_row;
mod theme;
mod three;
mod trade_off;
mod trial;
mod trials;
mod waiting;
mod wanted;
mod went;
mod who;
mod widgets;
mod work;
mod workbench;

pub use native::{NoWindow, open};
pub(crate) use recent::Recent;
pub use workbench::Workbench;
