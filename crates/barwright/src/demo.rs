//! No command: the window, or the same job on paper. There the differences table goes to standard
//! output, drawings of the side view and the client sheet into a folder, and where they are is said.

use crate::args::Draw;
use crate::exit::Exit;
use crate::home::Home;
use crate::run::Screen;
use crate::start::Shown;
use crate::unlock::{Unlock, is_shut};
use crate::{out as drawings, paper, say, start, weigh};
use fit_file::{Disk, FileError, Instead, Opened};
use fit_view::picture::SideChoice;
use fit_view::weigh::Weighed;
use fit_view::words::Words;
use std::io::{self, Write};

/// The demo client's session, as it stands in the project.
const DEMO: &str = include_str!("../../../sessions/demo.session.ron");
/// What the demo is called where a file would be named.
const DEMO_NAME: &str = "demo.session.ron";

/// Shows the session in a window where there is one to be had and no drawing was asked for in
/// particular; otherwise does the job on paper.
pub(crate) fn demo(
    draw: &Draw,
    screen: Screen,
    home: &Home,
    unlock: Unlock<'_>,
    out: &mut dyn Write,
    err: &mut dyn Write,
) -> io::Result<Exit> {
    let words = unlock.words;
    let opened: Result<_, FileError> = match &draw.file {
        // on paper nothing of it is changed, and nobody need be kept from it
        Some(file) if draw.on_paper() || screen.window.is_none() => {
            unlock.open(file).map(|opened| (opened, None))
        }
        // whole, so that what is proposed or kept of it leads there from any folder
        Some(file) => {
            let file = std::path::absolute(file).unwrap_or_else(|_| file.clone());
            unlock.keep(&file).map(|(opened, kept)| (opened, Some(kept)))
        }
        None => demo_session().map(|opened| (opened, None)),
    };
    let (opened, kept) = match opened {
        Ok(opened) => opened,
        Err(error) => return could_not_open(draw, &error, screen, home, words, err),
    };
    if !draw.on_paper() {
        let shown = Shown { opened: &opened, kept, cannot: None };
        match start::window(screen, home, shown, draw.keep_every_s, words) {
            Ok(()) => return Ok(Exit::Done),
            Err(said) => writeln!(err, "{said}")?,
        }
    }
    on_paper(draw, screen.columns, &opened, words, out, err)
}

/// Says why; in a window its passphrase is asked for, or what is opened in its place, where something can.
fn could_not_open(
    draw: &Draw,
    error: &FileError,
    screen: Screen,
    home: &Home,
    words: &dyn Words,
    err: &mut dyn Write,
) -> io::Result<Exit> {
    let Some(file) = &draw.file else {
        return say::file_error(error, words, err).map(|()| Exit::CouldNot);
    };
    let in_window = !draw.on_paper() && screen.window.is_some();
    let is_shut = is_shut(error);
    if !(in_window && is_shut) {
        say::cannot_open(file, error, words, err)?;
    }
    let asks = in_window && (is_shut || !Instead::find(&Disk, file, error.message()).is_nothing());
    if asks && let Ok(opened) = demo_session() {
        let shown = Shown { opened: &opened, kept: None, cannot: Some((file, error)) };
        match start::window(screen, home, shown, draw.keep_every_s, words) {
            Ok(()) => return Ok(Exit::Done),
            Err(said) => writeln!(err, "{said}")?,
        }
        if is_shut {
            say::cannot_open(file, error, words, err)?;
        }
    }
    Ok(Exit::CouldNot)
}

fn demo_session() -> Result<Opened, FileError> {
    fit_file::read_session(DEMO.as_bytes(), DEMO_NAME)
}

fn on_paper(
    draw: &Draw,
    columns: Option<usize>,
    opened: &Opened,
    words: &dyn Words,
    out: &mut dyn Write,
    err: &mut dyn Write,
) -> io::Result<Exit> {
    weigh::notices(opened, words, err)?;
    let Some(weighed) = weigh::weighed(opened, draw.visit, words, err)? else {
        return Ok(Exit::CouldNot);
    };
    let choice = match choice(draw, &weighed, words) {
        Ok(choice) => choice,
        Err(said) => return writeln!(err, "{said}").map(|()| Exit::CouldNot),
    };
    weigh::table_of(&weighed, columns, words, out)?;
    match drawings::draw(&weighed, &choice, draw.folder(), words) {
        Ok(paths) => writeln!(out, "\n{}", words.drawings(&paths))?,
        Err(said) => return writeln!(err, "{said}").map(|()| Exit::CouldNot),
    }
    paper::of_weighed(&weighed, &opened.session, draw.folder(), words, out, err)
}

/// What is drawn of this bench; words where it has no such cockpit.
fn choice(draw: &Draw, weighed: &Weighed, words: &dyn Words) -> Result<SideChoice, String> {
    let usual = SideChoice::usual(weighed);
    let labels: Vec<&str> = weighed.cockpits.iter().map(|c| c.label.as_str()).collect();
    let focus = match &draw.on {
        None => usual.focus,
        Some(wanted) => cockpit(wanted, &labels)
            .ok_or_else(|| say::printable(&words.no_such_cockpit(wanted, &labels)))?,
    };
    Ok(SideChoice { focus, place: draw.place.unwrap_or(usual.place), ..usual })
}

/// A cockpit by its label, however it is capitalised, or else by its number, counted from one.
fn cockpit(wanted: &str, labels: &[&str]) -> Option<usize> {
    let wanted = wanted.trim().to_lowercase();
    let labelled = labels.iter().position(|label| label.trim().to_lowercase() == wanted);
    let numbered = || {
        let index = wanted.parse::<usize>().ok()?.checked_sub(1)?;
        (index < labels.len()).then_some(index)
    };
    labelled.or_else(numbered)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_cockpit_is_found_by_label_and_by_number() {
        let labels = ["As it came", "Compact 420", "1"];
        let found = ["as IT came", " compact 420 ", "2", "1", "3", "0", "4", "-1", "", "Compact"]
            .map(|wanted| cockpit(wanted, &labels));
        let want = [Some(0), Some(1), Some(1), Some(2), Some(2), None, None, None, None, None];
        assert_eq!(found, want);
    }
}
