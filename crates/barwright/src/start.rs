//! Starting the window on a session that was opened.

use crate::home::Home;
use crate::run::Screen;
use crate::say;
use crate::window::Workbench;
use fit_desk::{Setup, Told};
use fit_file::{Disk, FileError, Kept, Opened};
use fit_view::weigh::Survey;
use fit_view::words::Words;
use std::path::Path;
use std::sync::Arc;

/// What a window begins with.
#[derive(Debug)]
pub(crate) struct Shown<'a> {
    /// The session on the desk.
    pub(crate) opened: &'a Opened,
    /// Its file, held.
    pub(crate) kept: Option<Kept<Disk>>,
    /// What was to be opened and cannot be.
    pub(crate) cannot: Option<(&'a Path, &'a FileError)>,
}

/// Shows the session until the window is closed, or says why there is no window.
pub(crate) fn window(
    screen: Screen,
    home: &Home,
    Shown { opened, kept, cannot }: Shown<'_>,
    keep_every_s: f64,
    words: &dyn Words,
) -> Result<(), String> {
    let state = home.state.as_deref();
    let file = kept.as_ref().map(|kept| kept.path().to_owned());
    let Some(show) = screen.window else { return Err(words.no_display().to_owned()) };
    let fault = |error: &dyn core::error::Error| words.fault(&error.to_string());
    let shop = fit_file::stock::of_shop(&Disk, state).map_err(|error| fault(&error))?;
    let survey = Survey::shipped().map_err(|error| fault(&error))?;
    let setup = Setup { survey, stock: shop.stock };
    // what may not be saved over has no file of its own
    let own = file.clone().filter(|_| !opened.read_only);
    let first = state.is_none_or(|folder| !folder.join("recent").exists());
    let workbench = Workbench::new(Arc::new(setup), opened.session.clone(), own, state).map_err(
        |messages| {
            let lines: Vec<String> = messages.iter().map(|m| words.message(m)).collect();
            lines.join("\n")
        },
    )?;
    let mut workbench = workbench.holding(kept).keeping_unsaved(state, keep_every_s);
    workbench = workbench.keeping_seen(home.cache.as_deref());
    if let Some((path, error)) = cannot {
        workbench.could_not_open(path, error);
    } else if file.is_none() && first {
        workbench.hint();
    }
    if let Some(file) = &file {
        workbench.say_of(file, opened);
    }
    let broken = shop.broken.iter().map(|(_, broken)| say::printable(&words.broken_list(broken)));
    workbench.tell(broken.map(Told::worded_notice).collect());
    show(workbench).map_err(|error| say::printable(&words.no_window(error.needs, &error.why)))
}
