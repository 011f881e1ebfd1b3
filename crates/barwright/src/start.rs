//! Starting the window on a session that was opened.

use crate::home::Home;
use crate::run::Screen;
use crate::say;
use crate::window::Workbench;
use fit_desk::{Setup, Told};
use fit_file::Opened;
use fit_view::weigh::Survey;
use fit_view::words::Words;
use std::path::Path;
use std::sync::Arc;

/// Shows the session until the window is closed, or says why there is no window.
pub(crate) fn window(
    screen: Screen,
    opened: &Opened,
    file: Option<&Path>,
    words: &dyn Words,
) -> Result<(), String> {
    let Some(show) = screen.window else { return Err(words.no_display().to_owned()) };
    let fault = |error: &dyn core::error::Error| words.fault(&error.to_string());
    let setup = Setup {
        survey: Survey::shipped().map_err(|error| fault(&error))?,
        stock: fit_file::stock::shipped().map_err(|error| fault(&error))?,
    };
    // what may not be saved over has no file of its own
    let own = file.filter(|_| !opened.read_only).map(Path::to_owned);
    let state = Home::of_user().state;
    let first = state.as_ref().is_none_or(|folder| !folder.join("recent").exists());
    let mut workbench =
        Workbench::new(Arc::new(setup), opened.session.clone(), own, state.as_deref()).map_err(
            |messages| {
                let lines: Vec<String> = messages.iter().map(|m| words.message(m)).collect();
                lines.join("\n")
            },
        )?;
    if file.is_none() && first {
        workbench.hint();
    }
    if file.is_some() {
        let notices = opened.notices.iter().map(|finding| {
            // it is put right in the window, not in the file: no line of that
            say::printable(&words.message(&finding.message))
        });
        workbench.tell(notices.map(Told::worded_notice).collect());
    }
    show(workbench).map_err(|error| say::printable(&words.no_window(error.needs, &error.why)))
}
