//! The window, driven by the names that a screen reader reads out.

#![expect(clippy::unwrap_used, reason = "a failure here is a failed test")]

mod access;
mod begin;
mod body;
mod choose;
mod client;
mod client_view;
mod closing;
mod decide;
mod drawing;
mod erase;
mod files;
mod half_typed;
mod idle;
mod keeping;
mod kept;
mod keys;
mod later;
mod numbers;
mod passphrase;
mod random;
mod ride;
mod room;
mod sampled;
mod stock;
mod story;
mod tape;
mod trials;
mod views;
mod visits;
