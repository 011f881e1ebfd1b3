//! Barwright: the commands, as a function of arguments and two writers, and the window.
//!
//! Nothing is computed, drawn or worded here: files are opened by `fit-file`, everything else comes
//! from `fit-view`. Results go to the first writer, messages about what could not be done to the
//! second.

mod args;
mod blank;
mod check;
mod choose;
mod demo;
mod erase;
mod exit;
mod export;
mod find;
mod home;
mod out;
mod paper;
mod run;
mod say;
mod start;
mod stock;
mod unlock;
mod usage;
mod weigh;
pub mod window;

pub use exit::Exit;
pub use home::Home;
pub use run::{Screen, run, run_at};
pub use unlock::Ask;
