//! What is said in English of a folder of clients.

use super::{English, concern};
use crate::words::{ExportColumn, FolderWords, FoundClient, Gone, InTheWay};

impl FolderWords for English {
    fn found_client(&self, of: &FoundClient<'_>) -> String {
        let visit = of.last_visit.map_or("no visit".to_owned(), |day| format!("last visit {day}"));
        let kept = of.keep_until.map(|day| format!("was to be kept until {day}"));
        let lists = [of.bikes.join(", "), of.complaints.join(", ")];
        let lists = lists.into_iter().filter(|list| !list.is_empty());
        let all: Vec<String> = core::iter::once(visit).chain(kept).chain(lists).collect();
        all.join(" · ")
    }

    fn no_name(&self) -> &'static str {
        "No name"
    }

    fn found_count(&self, found: usize, of: usize, shut: usize, bad: usize) -> String {
        let clients = if of == 1 { "client" } else { "clients" };
        let shut = (shut > 0).then(|| format!("{shut} under a passphrase"));
        let bad = match bad {
            0 => None,
            1 => Some("1 file that cannot be opened".to_owned()),
            bad => Some(format!("{bad} files that cannot be opened")),
        };
        let all = format!("{found} of {of} {clients}");
        match (shut, bad) {
            (Some(shut), Some(bad)) => format!("{all}, {shut}, and {bad}"),
            (Some(one), None) | (None, Some(one)) => format!("{all}, and {one}"),
            (None, None) => all,
        }
    }

    fn found_shut(&self, count: usize) -> String {
        match count {
            1 => "Under a passphrase".to_owned(),
            count => format!("Under a passphrase ({count})"),
        }
    }

    fn found_bad(&self, count: usize) -> String {
        match count {
            1 => "Cannot be opened".to_owned(),
            count => format!("Cannot be opened ({count})"),
        }
    }

    fn no_folder(&self, path: &str, detail: &str) -> String {
        format!(
            "{path} cannot be looked into ({detail}). Type the name of a folder in which sessions are."
        )
    }

    fn would_erase(&self) -> &'static str {
        "Nothing has changed. This would go for good; type --yes behind the command to have it so:"
    }

    fn erased_on(&self, when: &str) -> String {
        format!("Erased on {when}:")
    }

    fn erased(&self, what: Gone, path: &str) -> String {
        format!("{}: {path}", gone(what))
    }

    fn not_erased(&self, what: Gone, path: &str, detail: &str) -> String {
        format!("Still there, {}: {path} ({detail}). Take it away by hand.", gone(what))
    }

    fn erase_does_not_reach(&self) -> &'static str {
        "Not reached, and to be taken away by hand where there are any: copies and sessions saved under \
         another name, sheets and drawings, exports, backups, what a sync service keeps, and what the disk \
         holds of the files until it writes over it."
    }

    fn erase_unconfirmed(&self, detail: &str) -> String {
        format!(
            "The disk did not confirm it ({detail}): after a power cut look whether the files are gone"
        )
    }

    fn erase_not_held(&self, detail: &str) -> String {
        format!(
            "On this disk nobody can tell whether another window has the file open ({detail}): close it \
             there without saving"
        )
    }

    fn export_column(&self, of: ExportColumn) -> String {
        column(of)
    }

    fn export_in_the_way(&self, path: &str, what: InTheWay) -> String {
        let why = match what {
            InTheWay::File => {
                "is there already. Name another table, or type --replace behind the command to have it replaced"
            }
            InTheWay::ReadOnly => {
                "is marked as read-only. Name another table, or take the mark away"
            }
            InTheWay::NoFile => "is a folder, a pipe or a device. Name another table",
        };
        format!("No table is written: {path} {why}.")
    }

    fn exported(&self, path: &str, rows: u64, files: u64, shut: u64, bad: u64) -> String {
        let rows = if rows == 1 { "1 visit".to_owned() } else { format!("{rows} visits") };
        let files = if files == 1 { "1 session".to_owned() } else { format!("{files} sessions") };
        let left = [("they are under a passphrase", shut), ("they cannot be opened", bad)];
        let left = left.iter().filter(|(_, count)| *count > 0);
        let left = left.map(|(why, count)| format!("; left out as {why}: {count}"));
        format!("{rows} of {files} in {path}{}", left.collect::<String>())
    }

    fn exported_without(&self, path: &str) -> String {
        format!("{path} is left out: it is under a passphrase")
    }

    fn exported_twice(&self, first: &str, path: &str) -> String {
        format!(
            "{path} and {first} are copies of one session, so its visits are in the table twice. Take the \
             copy out of the folder and export again, or keep one row of each session and visit."
        )
    }

    fn exported_unweighed(&self, path: &str, day: &str, why: &str) -> String {
        format!(
            "{path}: the visit of {day} is there without angles, as it cannot be weighed. {why}"
        )
    }
}

fn gone(what: Gone) -> &'static str {
    match what {
        Gone::File => "session",
        Gone::Link => "link to the session",
        Gone::Earlier => "earlier content",
        Gone::LeftBehind => "left by a save that was stopped",
        Gone::Unsaved => "what was not saved",
        Gone::Lock => "lock",
        Gone::Recent => "in the list of files that were open lately",
        Gone::Index => "in the index of a folder",
    }
}

fn column(of: ExportColumn) -> String {
    let fixed = match of {
        ExportColumn::Session => "identity of the session (UUID), the same in all its rows",
        ExportColumn::Visit => "which visit of the session, from 1 in the order of the file",
        ExportColumn::VisitDate => "day of the visit",
        ExportColumn::Sex => "female or male, where given",
        ExportColumn::Born => "year of birth, where given",
        ExportColumn::Bike => "which bike of the session, from 1 in the order of the file",
        ExportColumn::FrameStack => "stack of its frame",
        ExportColumn::FrameReach => "reach of its frame",
        ExportColumn::Crank => "length of its cranks",
        ExportColumn::Outcome => {
            "what was decided: cockpit, as-it-is, not-the-bar or the-frame; empty where nothing was"
        }
        ExportColumn::BarFamily => "bend of the bar: round, flat or variable",
        ExportColumn::BarReach => "reach of the bar as it is made",
        ExportColumn::BarDrop => "drop of the bar as it is made",
        ExportColumn::BarWidthHoods => "width at the hoods, centre to centre",
        ExportColumn::BarWidthEnds => "width at the ends, centre to centre",
        ExportColumn::BarFlare => "flare, outwards",
        ExportColumn::StemLength => "length of the stem",
        ExportColumn::StemAngle => "angle of the stem",
        ExportColumn::Spacers => "spacers under the stem",
        ExportColumn::Roll => "roll of the bar in the clamp, nose up positive",
        ExportColumn::SaddleHeight => "height of the saddle over the bottom bracket",
        ExportColumn::State => "whether the hands get there: reached, at-limit or out-of-reach",
        ExportColumn::Trunk => "trunk above level, as weighed",
        ExportColumn::Neck => "head lifted on the trunk, as weighed",
        ExportColumn::Elbow => "bend of the straighter elbow, as weighed",
        ExportColumn::Hip => "least angle of the hip, as weighed",
        ExportColumn::ScoreBefore(of) => {
            return format!(
                "{}: how bad at the visit, 0 to 10; of several complaints the worst",
                about(of)
            );
        }
        ExportColumn::ScoreAfterTrial(of) => {
            return format!("{}: how bad after the last trial of what was left with", about(of));
        }
        ExportColumn::ScoreLater(of) => {
            return format!(
                "{}: how bad when last asked after the visit, in a note or at a later one",
                about(of)
            );
        }
        ExportColumn::DaysLater(of) => {
            return format!("{}: how many days after the visit that was", about(of));
        }
    };
    fixed.to_owned()
}

fn about(of: fit_doc::Concern) -> &'static str {
    concern::concern(of)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_client_of_whom_little_is_known_has_no_empty_places() {
        let of = FoundClient {
            name: "",
            last_visit: None,
            bikes: &[],
            complaints: &["neck".to_owned()],
            keep_until: Some("2030-01-01"),
        };
        assert_eq!(English.found_client(&of), "no visit · was to be kept until 2030-01-01 · neck");
    }
}
