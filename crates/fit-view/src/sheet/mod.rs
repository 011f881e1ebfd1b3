//! The client sheet: one page in plain words to take home. Who and when, what was asked, one
//! picture, what changes, how it is set and how to go back, what to do before riding.
//!
//! [`client_sheet`] gathers the words (`content`) and lays them out (`page`) on A4, points, y
//! down. Whole millimetres and degrees, the same numbers as in the table. Nothing is scored, no
//! cause is named and nothing promised. Left and right margins hold whatever the session holds:
//! long texts are wrapped, then cut with an ellipsis, and the picture takes what room is left.

mod content;
mod figure;
mod flow;
mod page;
#[cfg(test)]
mod tests;

use crate::file_name::slug;
use crate::picture::Picture;
use crate::scene::FontError;
use crate::weigh::{NotAsRead, Weighed};
use crate::words::Words;
use fit_doc::concern::stopped_by;
use fit_doc::{Date, Session, Visit};

/// The client sheet of a weighed visit: as it came beside the cockpit at that place of the bench,
/// 0 for as it came by itself; a place that is not there counts as 0. `not_as_read` is why the bike is
/// drawn otherwise than it was read, where it is: who takes the sheet home is told.
///
/// # Errors
/// When the embedded font cannot be read.
pub fn client_sheet(
    weighed: &Weighed,
    (session, visit): (&Session, &Visit),
    chosen: usize,
    not_as_read: Option<NotAsRead>,
    words: &dyn Words,
) -> Result<Picture, FontError> {
    // where the fit stops only what was decided before it stands there, as what is kept
    let chosen = if stopped_by(visit).is_some() { decided(weighed, visit) } else { chosen };
    let chosen = if chosen < weighed.cockpits.len() { chosen } else { 0 };
    let mut content = content::content(weighed, (session, visit), chosen, words);
    content.not_as_read = not_as_read.map(|why| words.sheet_not_as_read(&why).to_owned());
    let figure = figure::Figure::new(weighed, visit, chosen, words);
    page::page(&content, &figure, words)
}

/// The cockpit that a sheet is about: the chosen one, else the first candidate, else as it came. Where
/// the answer is not a bar, or the fit stops, none is proposed.
pub fn decided(weighed: &Weighed, visit: &Visit) -> usize {
    let chosen = weighed.cockpits.iter().position(|cockpit| cockpit.chosen);
    let proposed =
        weighed.cockpits.len() > 1 && visit.elsewhere.is_none() && stopped_by(visit).is_none();
    chosen.unwrap_or(usize::from(proposed))
}

/// Name of the sheet's file: the client and the day.
pub fn file_name(client: &str, visit: Date) -> String {
    format!("{}-{visit}.pdf", slug(client))
}
