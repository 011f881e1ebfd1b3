//! The sessions that come with the program, put together from the stock lists.
//!
//! Invented people on invented bikes; lengths in mm, angles in degrees, weights in kg. Bodies lie
//! within the spread of ANSUR II (Gordon et al. 2014, NATICK/TR-15/007) for their stature and are
//! measured link by link, so that no survey mean decides a posture. Frames, saddles and what is
//! said at a first visit are common practice, no source. A lever on another bar keeps the heading
//! that it had after roll; only that is computed here.

mod all_road;
mod bench;
mod followed;
mod small;
mod tall;

pub use bench::{DemoError, Parts, as_it_came, both, candidate};

use fit_doc::Session;
use fit_file::stock;
use fit_view::weigh::Survey;

/// The sessions of one visit with the name of its file in `sessions/`.
///
/// # Errors
/// Where the stock lists lack a part or a bar cannot be built.
pub fn sessions() -> Result<Vec<(&'static str, Session)>, DemoError> {
    let stock = stock::shipped()?;
    Ok(vec![
        ("demo.session.ron", all_road::session(&stock)?),
        ("small-hands.session.ron", small::session(&stock)?),
        ("stiff-neck.session.ron", tall::session(&stock)?),
    ])
}

/// The session of a client who came twice, with the name of its file in `sessions/`.
///
/// # Errors
/// Where the stock lists lack a part, or a cockpit cannot be built or weighed.
pub fn followed() -> Result<(&'static str, Session), DemoError> {
    let survey = Survey::shipped().map_err(|error| DemoError::NotWeighed(format!("{error:?}")))?;
    Ok(("two-visits.session.ron", followed::session(&stock::shipped()?, &survey)?))
}
