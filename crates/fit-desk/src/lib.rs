//! What the workbench does without a screen.
//!
//! A [`Desk`] holds the open session, its undo list and what is looked at. It takes [`Command`]s
//! and gives [`Effect`]s: data that say what files, dialogs and the window's frame must do. It sees
//! no disk, no clock and no screen.

mod command;
mod desk;
mod history;
mod look;
mod matching;
mod shelf;

pub use command::{
    AfterBroken, AfterChange, Answer, Broken, Changed, Command, Effect, Gesture, LooksAt, Revision,
    Saying, Told, Tone,
};
pub use desk::{Desk, Found, Searched, Setup, Sought, Why};
pub use history::History;
pub use look::{ForClient, Look, Room, ThemeChoice};
