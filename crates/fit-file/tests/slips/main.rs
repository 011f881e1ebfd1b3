//! Slips of the hand in the demo session, each made at every place where it can be made: one kind of
//! message, and the right line.

#![allow(clippy::unwrap_used, reason = "a test that cannot go on has failed")]
#![allow(clippy::print_stdout, reason = "how many places were tried is a figure to be read")]

mod atoms;
mod brackets;
mod header;
mod plain;
mod values;
