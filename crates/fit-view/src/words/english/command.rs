//! What the command line says, in English: help, and why a command was not understood.

use crate::words::{Help, UsageError, WindowNeeds};

pub(super) fn help(text: Help) -> &'static str {
    match text {
        Help::About => {
            "Compares drop handlebars for one client: how each cockpit on the bench changes the posture, the \
             reach and the hands.\n\nWithout a command it shows the demo client, or the session named, in a \
             window. Where there is no display, or a drawing is asked for, it prints the table, draws \
             the side view and writes the client sheet."
        }
        Help::Weigh => "Prints how the cockpits of one visit differ",
        Help::Choose => {
            "Prints what of the stock is worth trying for the client, and why; nothing is changed"
        }
        Help::Paper => "Writes the client sheet of one visit as a PDF",
        Help::Check => "Says of each session whether it is fine, what is wrong and what is unusual",
        Help::Stock => {
            "Brings a shop’s own bars, stems and levers in from a table (CSV), writes all stock as tables, or \
             prints what their columns hold"
        }
        Help::StockWhat => "in, out or columns",
        Help::StockWhere => "The table that comes in, or the folder for the tables that go out",
        Help::StockReplace => "Parts that are in stock already are replaced by those of the table",
        Help::StockKeep => "Parts that are in stock already stay as they are",
        Help::Find => {
            "Prints whose sessions are in a folder, and which files there cannot be opened"
        }
        Help::Export => {
            "Writes one row per visit of all sessions in a folder, without names and notes, for statistics"
        }
        Help::Erase => {
            "Takes a client away for good: the session, its earlier contents and all that is kept of it here"
        }
        Help::Help => "Prints what a command does and how it is typed",
        Help::FileToDraw => "A session to open instead of the demo client’s",
        Help::File => "The session",
        Help::Files => "The sessions",
        Help::FolderOfSessions => "The folder; the folders in it are looked through as well",
        Help::FindWords => {
            "What must stand in name, days of visits, bikes or complaints, all of it; capitals and accents do \
             not matter"
        }
        Help::Past => "Only those whose data were to be kept until before today",
        Help::ExportOut => "The table to write, ending in .csv or .parquet",
        Help::ExportReplace => "A table that is there is replaced; otherwise nothing is written",
        Help::Columns => "Prints what each column is, instead of writing",
        Help::Yes => "Does it; otherwise it is only said what would go",
        Help::Accept => {
            "Gives sessions that were edited by hand on purpose a new check line; what was there is kept as an \
             earlier content"
        }
        Help::HelpAbout => "A command; otherwise the whole program",
        Help::Visit => "The day of the visit, such as 2026-03-02; otherwise the latest",
        Help::Detail => {
            "Adds what stands behind each cockpit: how the client may take the change, the brake in every \
             setting, room for the palm, what comes close"
        }
        Help::Json => "Prints everything as one JSON object for other programs",
        Help::Best => {
            "How many ideas that change the cockpit; what is like one of them, what was ridden, the saddle, the \
             frame and leaving it come besides; otherwise 6"
        }
        Help::Place => {
            "Where the hands are drawn: tops, ramps, hoods, bent-elbow-hoods, drops or ends; otherwise in \
             the drops"
        }
        Help::On => {
            "The cockpit that the rider is drawn on: its label, or its number in the table, 1 being as it \
             came; otherwise the chosen one, or else the first candidate"
        }
        Help::Out => "The folder for what is written; otherwise barwright-out",
        Help::KeepEvery => {
            "In a window, how many seconds after a change what is not saved is kept for the case that the \
             program ends; otherwise 10"
        }
        Help::PassphraseFile => {
            "A file whose first line is the passphrase of a session that is under one; otherwise it is \
             asked for"
        }
        Help::ShowHelp => "Prints this help",
        Help::ShowVersion => "Prints the version",
        Help::UsageHeading => "Usage:",
        Help::CommandsHeading => "Commands",
        Help::ArgumentsHeading => "Arguments",
        Help::OptionsHeading => "Options",
        Help::FileValue => "FILE",
        Help::DateValue => "DATE",
        Help::PlaceValue => "PLACE",
        Help::CockpitValue => "COCKPIT",
        Help::FolderValue => "FOLDER",
        Help::CommandValue => "COMMAND",
        Help::CountValue => "COUNT",
        Help::SecondsValue => "SECONDS",
        Help::WhatValue => "WHAT",
        Help::WordValue => "WORD",
    }
}

pub(super) fn usage_error(error: &UsageError) -> String {
    match error {
        UsageError::Unknown { found } if found.starts_with('-') => {
            format!(
                "There is no option {found} here. Leave it out, or take one that the help names."
            )
        }
        UsageError::Unknown { found } => {
            format!(
                "“{found}” has no meaning here. Leave it out, or put a name with blanks in it into \
                 quotation marks."
            )
        }
        UsageError::NearCommand { found, near } => format!(
            "There is no command “{found}” and no such file. Type “{near}” if that is meant."
        ),
        UsageError::SecondPlace { found } => format!(
            "“{found}” stands behind a hand place, and --place takes one. Draw one after the other; of a \
             place with several words, type the hyphens too, as in bent-elbow-hoods."
        ),
        UsageError::Blanks { option, name } => format!(
            "Behind {option} stand several words. Put a name with blanks in it into quotation marks: \
             {option} \"{name}\"."
        ),
        UsageError::Missing { what } => format!("{what} is missing. Type it behind the command."),
        UsageError::Value { option } => format!(
            "What stands behind {option} is missing, or is too much. Type it as the line below shows."
        ),
        UsageError::Conflict { found } => format!(
            "“{found}” stands here twice, or beside something that it does not go with. Leave one out."
        ),
        UsageError::NotADate { found } => {
            format!("“{found}” is not a day. Type year, month and day, such as 2026-03-02.")
        }
        UsageError::NotAPlace { found, places } => {
            format!("“{found}” is not a hand place. Type one of {}.", places.join(", "))
        }
        UsageError::NotSeconds { found, least, most } => {
            format!("“{found}” is no number of seconds from {least} to {most}. Type one, as in 10.")
        }
        UsageError::NotACount { found, most } => {
            format!("“{found}” is not a count. Type a whole number from 1 to {most}.")
        }
        UsageError::NotATable { found } => {
            format!("“{found}” ends in neither .csv nor .parquet. Type a name that does.")
        }
        UsageError::NotText => {
            "Something here is not readable text. Type it again, or rename the file.".to_owned()
        }
        UsageError::Other => {
            "This command is not understood. Type it as the line below shows.".to_owned()
        }
    }
}

pub(super) fn no_window(needs: WindowNeeds, detail: &str) -> String {
    let (failed, todo) = match needs {
        WindowNeeds::Display => (
            "the display did not let it in",
            "It needs an X11 or Wayland desktop of the user who starts it: start it from a terminal on that \
             desktop, where DISPLAY or WAYLAND_DISPLAY is set rightly. ",
        ),
        WindowNeeds::Graphics => (
            "nothing can draw on this display",
            "It needs OpenGL: install the graphics card’s driver, or what draws without a card (in Debian \
             the package libgl1-mesa-dri). ",
        ),
        WindowNeeds::Unknown => ("the system refused it", ""),
    };
    format!("No window could be opened: {failed} ({detail}). {todo}The same on paper:")
}

pub(super) fn more_help(command: &str) -> String {
    format!("{command} says more")
}

pub(super) fn no_such_cockpit(found: &str, labels: &[&str]) -> String {
    let numbered: Vec<_> = labels
        .iter()
        .enumerate()
        .map(|(index, label)| format!("{} “{label}”", index + 1))
        .collect();
    format!(
        "There is no cockpit “{found}” on this bench. Type one of these, by number or label: {}",
        numbered.join(", ")
    )
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn cockpits_are_numbered_as_people_count() {
        let text = no_such_cockpit("9", &["As it came", "Compact"]);
        assert!(text.contains("“9”") && text.ends_with("1 “As it came”, 2 “Compact”"), "{text}");
    }

    #[test]
    fn as_many_ideas_are_told_as_the_help_says() {
        assert!(help(Help::Best).ends_with(&format!("otherwise {}", crate::choose::IDEAS)));
    }
}
