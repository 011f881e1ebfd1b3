//! Barwright without its window: the commands, as a function of arguments and two writers.
//!
//! Nothing is computed, drawn or worded here: files are opened by `fit-file`, everything else comes
//! from `fit-view`. Results go to the first writer, messages about what could not be done to the
//! second.

mod args;
mod check;
mod demo;
mod exit;
mod out;
mod run;
mod say;
mod usage;
mod weigh;

pub use exit::Exit;
pub use run::run;
