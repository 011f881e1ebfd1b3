//! What is said to the client, who looks at the screen as well.

use super::Decision;
use crate::client_view::Plain;
use fit_doc::HandPlace;

/// Every text of the client's view; a part of [`Words`](super::Words).
pub trait ClientWords {
    /// A sentence, with its full stop.
    fn plain(&self, of: Plain) -> String;
    /// What was decided before the fit stopped, on the sheet: as what is kept, not as what is to be done.
    fn sheet_noted(&self, label: &str, decision: Decision) -> String;
    /// Where the hands are, beside what is shown.
    fn plain_hands(&self, place: HandPlace) -> String;
    /// What the drawings show: a cockpit beside the bike as it came, or that alone.
    fn plain_picture(&self, label: &str, as_it_came: bool) -> String;
}
