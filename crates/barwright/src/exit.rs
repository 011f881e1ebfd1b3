//! How a command can end.

use std::process::ExitCode;

/// How a command ended.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Exit {
    /// Done.
    Done,
    /// The work could not be done; why was said on standard error.
    CouldNot,
    /// The command was not understood; how it is used was said on standard error.
    WrongUsage,
}

impl Exit {
    /// The status that a shell sees.
    pub const fn status(self) -> u8 {
        match self {
            Self::Done => 0,
            Self::CouldNot => 1,
            Self::WrongUsage => 2,
        }
    }
}

impl From<Exit> for ExitCode {
    fn from(exit: Exit) -> Self {
        Self::from(exit.status())
    }
}
