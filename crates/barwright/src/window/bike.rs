//! The bike: frame numbers, the saddle as it is set, and the cockpit it came with.

use super::number::{Asked, NumberField};
use super::widgets::{card, heading, note, row, secondary, small_heading, text_field};
use eframe::egui;
use egui::{ScrollArea, Ui};
use fit_desk::{Command, Desk};
use fit_doc::edit::{cockpit_number, frame_number, lever_number};
use fit_doc::{Cockpit, CockpitEdit, Edit, Quantity};
use fit_math::frame::Side;
use fit_view::words::{Caption, Words};

const FRAME: [Quantity; 11] = [
    Quantity::FrameStack,
    Quantity::FrameReach,
    Quantity::HeadAngle,
    Quantity::SeatAngle,
    Quantity::HeadTube,
    Quantity::HeadsetCover,
    Quantity::ForkOffset,
    Quantity::WheelRadius,
    Quantity::BottomBracketDrop,
    Quantity::RearCentre,
    Quantity::Crank,
];

const SADDLE: [Quantity; 4] =
    [Quantity::SaddleHeight, Quantity::NoseBehind, Quantity::SitFromNose, Quantity::SaddleTilt];

const COCKPIT: [Quantity; 8] = [
    Quantity::BarWidthAtHoods,
    Quantity::BarReach,
    Quantity::BarDrop,
    Quantity::Roll,
    Quantity::StemLength,
    Quantity::StemAngle,
    Quantity::StemClampHeight,
    Quantity::Spacers,
];

/// Shows the place of work.
pub(super) fn bike_ui(ui: &mut Ui, desk: &Desk, words: &dyn Words, commands: &mut Vec<Command>) {
    ui.columns(2, |columns| {
        let [left, right] = columns else { return };
        card(left).show(left, |ui| frame_ui(ui, desk, words, commands));
        card(right).show(right, |ui| {
            ScrollArea::vertical().show(ui, |ui| came_ui(ui, desk, words, commands));
        });
    });
}

fn frame_ui(ui: &mut Ui, desk: &Desk, words: &dyn Words, commands: &mut Vec<Command>) {
    let Some(bike) = desk.visit().and_then(|visit| desk.session().bike(&visit.bike)) else {
        return;
    };
    heading(ui, words.caption(Caption::Frame));
    let id = || bike.id.clone();
    if let Some(to) = text_field(ui, "bike", words.caption(Caption::Name), &bike.name, 1) {
        commands.push(Command::Edit(Edit::BikeName { bike: id(), to }, None));
    }
    for quantity in FRAME {
        let field = NumberField {
            salt: &format!("{}/{quantity:?}", bike.id),
            quantity,
            name: words.quantity(quantity),
            shown: words.quantity(quantity),
            value: frame_number(&bike.frame, quantity),
            hint: "",
            can_be_empty: false,
        };
        if let Some(Asked::Value(to)) = field.show(ui, words) {
            commands.push(Command::Edit(Edit::Frame { bike: id(), quantity, to }, None));
        }
    }
}

fn came_ui(ui: &mut Ui, desk: &Desk, words: &dyn Words, commands: &mut Vec<Command>) {
    let Some(visit) = desk.visit() else { return };
    let came = &visit.as_it_came;
    heading(ui, words.caption(Caption::Saddle));
    numbers_ui(ui, desk, came, &SADDLE, words, commands);
    put_right_ui(ui, desk, words, commands);
    heading(ui, words.caption(Caption::AsItCame));
    note(ui, &format!("{}: {}", came.bar.name, words.stock_bar(&came.bar)));
    numbers_ui(ui, desk, came, &COCKPIT, words, commands);
    let mut change = |change: CockpitEdit| {
        let (visit, id) = (desk.look().visit, came.id.clone());
        commands.push(Command::Edit(Edit::Cockpit { visit, id, change }, None));
    };
    let Some(levers) = &came.levers else { return };
    small_heading(ui, words.caption(Caption::Levers));
    for quantity in [Quantity::LeverAlong, Quantity::LeverTurnIn, Quantity::LeverClicks] {
        for (side, setting) in [(Side::Left, &levers.left), (Side::Right, &levers.right)] {
            let field = NumberField {
                salt: &format!("came/{quantity:?}/{side:?}"),
                quantity,
                name: &words.on_side(quantity, side == Side::Left),
                shown: &words.on_side(quantity, side == Side::Left),
                value: lever_number(setting, quantity),
                hint: "",
                can_be_empty: false,
            };
            if let Some(Asked::Value(to)) = field.show(ui, words) {
                change(CockpitEdit::Lever { side: Some(side), quantity, to });
            }
        }
    }
}

/// Numbers of a cockpit, each on a row.
fn numbers_ui(
    ui: &mut Ui,
    desk: &Desk,
    of: &Cockpit,
    quantities: &[Quantity],
    words: &dyn Words,
    commands: &mut Vec<Command>,
) {
    for &quantity in quantities {
        let Some(value) = cockpit_number(of, quantity) else { continue };
        let field = NumberField {
            salt: &format!("{}/{quantity:?}", of.id),
            quantity,
            name: words.quantity(quantity),
            shown: words.quantity(quantity),
            value: Some(value),
            hint: "",
            can_be_empty: false,
        };
        if let Some(Asked::Value(to)) = field.show(ui, words) {
            let (visit, id) = (desk.look().visit, of.id.clone());
            let change = CockpitEdit::Number { quantity, to };
            commands.push(Command::Edit(Edit::Cockpit { visit, id, change }, None));
        }
    }
}

/// The saddle put right: a second cockpit to compare with, as it came but for the saddle.
fn put_right_ui(ui: &mut Ui, desk: &Desk, words: &dyn Words, commands: &mut Vec<Command>) {
    let Some(visit) = desk.visit() else { return };
    let Some(put_right) = visit.put_right.as_ref().and_then(|id| visit.cockpit(id)) else {
        if row(ui, |ui| secondary(ui, words.caption(Caption::PutSaddleRight))).clicked() {
            let label = words.caption(Caption::SaddlePutRight).to_owned();
            let visit = desk.look().visit;
            commands.push(Command::Edit(Edit::PutSaddleRight { visit, label }, None));
        }
        return;
    };
    small_heading(ui, &put_right.label);
    ui.name_inputs(&put_right.label, |ui| {
        numbers_ui(ui, desk, put_right, &SADDLE, words, commands);
    });
}
