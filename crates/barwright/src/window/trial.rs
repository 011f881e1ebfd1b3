//! A trial stem's position: where the hands are against as it came, typed as two numbers.

use super::number::{Asked, NumberField};
use super::setup::tried;
use super::widgets::small_heading;
use eframe::egui::Ui;
use fit_desk::{Command, Desk};
use fit_doc::edit::trial_position;
use fit_doc::{Cockpit, CockpitEdit, HandPlace, Quantity};
use fit_view::words::{Caption, Words};

/// Shows the two numbers of a cockpit; nothing where bar and stem are one piece.
pub(super) fn trial_ui(
    ui: &mut Ui,
    desk: &Desk,
    of: &Cockpit,
    words: &dyn Words,
    commands: &mut Vec<Command>,
) {
    let weighed = desk.weighed();
    let its = weighed.cockpits.iter().find(|weighed| weighed.id == of.id);
    let (Some(its), Some(came)) = (its, weighed.as_it_came()) else { return };
    // the bike as it came is ridden as it is
    let rides = desk.visit().is_some_and(|visit| visit.ride().is_some());
    if (its.as_it_came && rides) || of.bar.one_piece.is_some() {
        return;
    }
    // where a cockpit has no levers, the drops
    let at = [HandPlace::Hoods, HandPlace::Drops]
        .into_iter()
        .find_map(|place| Some((place, trial_position(&its.cockpit, &came.cockpit, place)?)));
    let Some((place, now)) = at else { return };
    small_heading(ui, &words.trial_heading(place));
    for quantity in [Quantity::HandsAhead, Quantity::HandsUp] {
        let is = if quantity == Quantity::HandsUp { now.y } else { now.x };
        // of a real stem whole numbers are shown; a position stands as it was typed
        let shown = if of.stem.is_trial() { (1e3 * is).round() / 1e3 } else { is.round() } + 0.0;
        let name = words.trial_hands(quantity, place);
        let ends_on = desk.tried_on(&of.id);
        let salt = |quantity| format!("{ends_on}/{quantity:?}");
        // the two are typed together, again and again
        let next = match quantity {
            Quantity::HandsAhead => Quantity::HandsUp,
            _ => Quantity::HandsAhead,
        };
        let field = NumberField {
            salt: &salt(quantity),
            quantity,
            name: &name,
            shown: words.short_quantity(quantity),
            value: Some(shown),
            hint: "",
            can_be_empty: false,
        };
        if let Some(Asked::Value(to)) = field.show_then(ui, words, Some(&salt(next))) {
            // what was shown of the other number becomes the position
            let other = if of.stem.is_trial() { now } else { now.round() };
            let (ahead_mm, up_mm) =
                if quantity == Quantity::HandsUp { (other.x, to) } else { (to, other.y) };
            let name = words.caption(Caption::TrialStem).to_owned();
            let change = CockpitEdit::Trial { place, ahead_mm, up_mm, name };
            commands.push(tried(desk, &of.id, change, words));
        }
    }
}
