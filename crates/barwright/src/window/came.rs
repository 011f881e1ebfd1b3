//! The numbers of the bike as it came: its saddle and the one put right beside it, its cockpit, and
//! its levers, left and right beside each other.

use super::close::{both_ui, close_ui, in_columns, of_two_ui};
use super::number::{Asked, NumberField};
use super::setup::tried;
use super::unread::Unread;
use super::widgets::{heading, secondary};
use eframe::egui;
use egui::{Align, Layout, Ui};
use fit_desk::{Command, Desk};
use fit_doc::edit::{cockpit_number, lever_number};
use fit_doc::tape::stem_as_read;
use fit_doc::{Cockpit, CockpitEdit, Edit, Quantity, Where};
use fit_math::frame::Side;
use fit_view::words::{Caption, Words};

const SADDLE: [Quantity; 4] =
    [Quantity::SaddleHeight, Quantity::NoseBehind, Quantity::SitFromNose, Quantity::SaddleTilt];

const COCKPIT: [Quantity; 8] = [
    Quantity::StemLength,
    Quantity::StemAngle,
    Quantity::StemClampHeight,
    Quantity::Spacers,
    Quantity::BarWidthAtHoods,
    Quantity::BarReach,
    Quantity::BarDrop,
    Quantity::Roll,
];

const LEVER: [Quantity; 3] = [Quantity::LeverAlong, Quantity::LeverTurnIn, Quantity::LeverClicks];

/// Shows the saddle as it came, and put right where it was.
pub(super) fn saddle_ui(ui: &mut Ui, desk: &Desk, words: &dyn Words, commands: &mut Vec<Command>) {
    let Some(visit) = desk.visit() else { return };
    let came = &visit.as_it_came;
    let unread = Unread::of(desk);
    let title = |ui: &mut Ui| {
        heading(ui, words.caption(Caption::Saddle));
        unread.say(ui, &SADDLE, words);
    };
    let Some(put_right) = visit.saddle_put_right() else {
        ui.horizontal(|ui| {
            title(ui);
            ui.with_layout(Layout::right_to_left(Align::Center), |ui| {
                put_right_ui(ui, desk, words, commands);
            });
        });
        for quantity in SADDLE {
            with_field(desk, came, quantity, words, |field| {
                let asked = unread.faded(ui, quantity, |ui| close_ui(ui, field, words));
                commands.extend(asked.and_then(|asked| edit(desk, came, quantity, asked, words)));
            });
        }
        return;
    };
    let two = [Caption::CameLabel, Caption::PutRight].map(|of| words.caption(of));
    of_two_ui(ui, title, two);
    for quantity in SADDLE {
        with_field(desk, came, quantity, words, |of_came| {
            with_field(desk, put_right, quantity, words, |of_right| {
                let both = both_ui(ui, [of_came, of_right], words, words.quantity(quantity));
                for (asked, of) in both.into_iter().zip([came, put_right]) {
                    commands.extend(asked.and_then(|asked| edit(desk, of, quantity, asked, words)));
                }
            });
        });
    }
}

/// The button that puts the saddle right: a second cockpit to compare with, as it came but for the
/// saddle; whether it was pressed.
pub(super) fn put_right_ui(
    ui: &mut Ui,
    desk: &Desk,
    words: &dyn Words,
    commands: &mut Vec<Command>,
) -> bool {
    let pressed = secondary(ui, words.caption(Caption::PutSaddleRight)).clicked();
    if pressed {
        let label = words.caption(Caption::SaddlePutRight).to_owned();
        let visit = desk.look().visit;
        commands.push(Command::Edit(Edit::PutSaddleRight { visit, label }, None));
    }
    pressed
}

/// Numbers of the saddle put right, where they are asked for: each on a row with its whole name.
pub(super) fn right_ui(
    ui: &mut Ui,
    desk: &Desk,
    put_right: &Cockpit,
    all: &[Quantity],
    words: &dyn Words,
    commands: &mut Vec<Command>,
) {
    for (index, &quantity) in all.iter().enumerate() {
        let next = all.get(index + 1).map(|&next| salt(put_right, next));
        with_field(desk, put_right, quantity, words, |field| {
            let asked = NumberField { shown: field.name, ..*field };
            let asked = asked.show_then(ui, words, next.as_deref());
            commands.extend(asked.and_then(|asked| edit(desk, put_right, quantity, asked, words)));
        });
    }
}

/// What keeps the field of a number of a cockpit apart from all others.
pub(super) fn salt(of: &Cockpit, quantity: Quantity) -> String {
    format!("{}/{quantity:?}", of.id)
}

/// Shows the cockpit as it came.
pub(super) fn cockpit_ui(ui: &mut Ui, desk: &Desk, words: &dyn Words, commands: &mut Vec<Command>) {
    let Some(visit) = desk.visit() else { return };
    let came = &visit.as_it_came;
    let unread = Unread::of(desk);
    ui.horizontal(|ui| {
        heading(ui, words.caption(Caption::AsItCame));
        unread.say(ui, &COCKPIT, words);
        // what is as it stands there is not typed again
        if unread.has(Quantity::StemLength) {
            ui.with_layout(Layout::right_to_left(Align::Center), |ui| {
                if secondary(ui, words.caption(Caption::StemIsSo)).clicked() {
                    let change = CockpitEdit::Stem(Box::new(stem_as_read(&came.stem)));
                    let (visit, id) = (desk.look().visit, came.id.clone());
                    commands.push(Command::Edit(Edit::Cockpit { visit, id, change }, None));
                }
            });
        }
    });
    let has = |quantity: &Quantity| cockpit_number(came, *quantity).is_some();
    let all: Vec<Quantity> = COCKPIT.into_iter().filter(has).collect();
    let names: Vec<&str> = all.iter().map(|of| words.quantity(*of)).collect();
    in_columns(ui, &names, |ui, index| {
        let quantity = all[index];
        with_field(desk, came, quantity, words, |field| {
            let asked = unread.faded(ui, quantity, |ui| close_ui(ui, field, words));
            commands.extend(asked.and_then(|asked| edit(desk, came, quantity, asked, words)));
        });
    });
    levers_ui(ui, desk, came, words, commands);
}

fn levers_ui(
    ui: &mut Ui,
    desk: &Desk,
    came: &Cockpit,
    words: &dyn Words,
    commands: &mut Vec<Command>,
) {
    let Some(levers) = &came.levers else { return };
    let unread = Unread::of(desk);
    let title = |ui: &mut Ui| heading(ui, words.caption(Caption::Levers));
    of_two_ui(ui, title, [Where::Left, Where::Right].map(|side| words.body_side(side)));
    let two = [(Side::Left, &levers.left), (Side::Right, &levers.right)];
    for quantity in LEVER {
        let names = two.map(|(side, _)| words.on_side(quantity, side == Side::Left));
        let salts = two.map(|(side, _)| format!("came/{quantity:?}/{side:?}"));
        let [left, right] = [0, 1].map(|at| NumberField {
            salt: &salts[at],
            quantity,
            name: &names[at],
            shown: &names[at],
            value: lever_number(two[at].1, quantity),
            hint: "",
            can_be_empty: false,
        });
        let name = words.quantity(quantity);
        let both = unread.faded(ui, quantity, |ui| both_ui(ui, [&left, &right], words, name));
        for (asked, (side, _)) in both.into_iter().zip(two) {
            if let Some(Asked::Value(to)) = asked {
                let (visit, id) = (desk.look().visit, came.id.clone());
                let change = CockpitEdit::Lever { side: Some(side), quantity, to };
                commands.push(Command::Edit(Edit::Cockpit { visit, id, change }, None));
            }
        }
    }
}

/// The field of a number of a cockpit, where it has that number.
fn with_field(
    desk: &Desk,
    of: &Cockpit,
    quantity: Quantity,
    words: &dyn Words,
    show: impl FnOnce(&NumberField<'_>),
) {
    let Some(value) = cockpit_number(of, quantity) else { return };
    let shown = words.quantity(quantity);
    // the same numbers stand there of the bike as it came
    let name = if is_came(desk, of) { shown.to_owned() } else { words.of_it(&of.label, shown) };
    show(&NumberField {
        salt: &salt(of, quantity),
        quantity,
        name: &name,
        shown,
        value: Some(value),
        hint: "",
        can_be_empty: false,
    });
}

fn is_came(desk: &Desk, of: &Cockpit) -> bool {
    desk.visit().is_some_and(|visit| visit.as_it_came.id == of.id)
}

fn edit(
    desk: &Desk,
    of: &Cockpit,
    quantity: Quantity,
    asked: Asked,
    words: &dyn Words,
) -> Option<Command> {
    let Asked::Value(to) = asked else { return None };
    let (visit, id) = (desk.look().visit, of.id.clone());
    let change = CockpitEdit::Number { quantity, to };
    Some(if is_came(desk, of) {
        Command::Edit(Edit::Cockpit { visit, id, change }, None)
    } else {
        // once it was ridden it is what a trial leads back to
        tried(desk, &id, change, words)
    })
}
