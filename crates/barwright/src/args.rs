//! What can be typed after the program's name.

use clap::{Parser, Subcommand};
use fit_doc::Date;
use std::path::PathBuf;

/// Weighs drop handlebars for one client: how each cockpit on the bench changes the posture, the
/// reach and the hands.
///
/// Without a command it weighs the demo client, or the session named, and draws its side view.
#[derive(Debug, Parser)]
#[command(name = "barwright", version, propagate_version = true)]
#[command(args_conflicts_with_subcommands = true)]
pub(crate) struct Args {
    #[command(subcommand)]
    pub(crate) command: Option<Command>,
    /// A session to weigh and draw instead of the demo client's
    pub(crate) file: Option<PathBuf>,
}

#[derive(Debug, Subcommand)]
pub(crate) enum Command {
    /// Prints how the cockpits of one visit differ
    Weigh {
        /// The session
        file: PathBuf,
        /// The day of the visit, such as 2026-03-02; otherwise the latest
        #[arg(long, value_name = "DATE")]
        visit: Option<Date>,
        /// Prints everything as one JSON object for other programs
        #[arg(long)]
        json: bool,
    },
    /// Writes the client sheet of one visit as a PDF
    Paper {
        /// The session
        file: PathBuf,
        /// The day of the visit, such as 2026-03-02; otherwise the latest
        #[arg(long, value_name = "DATE")]
        visit: Option<Date>,
        /// The folder that the sheet goes into
        #[arg(long, value_name = "FOLDER")]
        out: PathBuf,
    },
    /// Says of each session whether it is fine, what is wrong and what is unusual
    Check {
        /// The sessions
        #[arg(required = true, value_name = "FILE")]
        files: Vec<PathBuf>,
    },
}
