//! The bike: contact points from tape first, then frame numbers, the saddle as it is set, and the
//! cockpit it came with.

use super::how_to::{HowTo, over_how_to};
use super::number::{Asked, NumberField};
use super::setup::tried;
use super::tape::{asked, tape_ui};
use super::widgets::{columns, heading, note, one_of, row, secondary, small_heading, text_field};
use eframe::egui;
use egui::{Ui, Vec2, vec2};
use fit_desk::{Command, Desk};
use fit_doc::edit::{cockpit_number, frame_number, lever_number};
use fit_doc::{Cockpit, CockpitEdit, Edit, Quantity, TapeEdit, TapeItem};
use fit_math::frame::Side;
use fit_view::side::taped_scene;
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

/// Share of the width that the walk with the tape takes, and the least it needs, points.
const WALK_SHARE: f32 = 0.58;
const WALK_LEAST: f32 = 640.0;
/// The least that the numbers beside it need, points.
const DOOR_LEAST: f32 = 300.0;

/// Size of the drawing that shows where the tape is laid, points.
const FIGURE: Vec2 = vec2(230.0, 136.0);

/// Shows the place of work; whether another bar was asked for.
pub(super) fn bike_ui(
    ui: &mut Ui,
    desk: &Desk,
    words: &dyn Words,
    commands: &mut Vec<Command>,
) -> bool {
    let mut other_bar = false;
    let width = ui.available_width();
    let left = (WALK_SHARE * width).max(WALK_LEAST).min(width - DOOR_LEAST) / width;
    columns(ui, &[left, 1.0 - left], |ui, index| match index {
        0 => other_bar = tape_ui(ui, desk, words, commands),
        _ => over_how_to(ui, "bike", shown(ui, desk, words), |ui| {
            frame_ui(ui, desk, words, commands);
            ui.add_space(8.0);
            came_ui(ui, desk, words, commands);
        }),
    });
    other_bar
}

/// Where the tape is laid for the reading that is asked for, drawn on the bike as it came.
fn shown(ui: &Ui, desk: &Desk, words: &dyn Words) -> Option<HowTo> {
    let visit = desk.visit()?;
    let of = asked(ui, desk)?;
    let came = desk.weighed().as_it_came()?;
    let frame = &desk.session().bike(&visit.bike)?.frame;
    let scene = taped_scene(frame, &came.parts, &came.cockpit, of)?;
    let item = TapeItem::from(of);
    let name = words.quantity(Quantity::Tape(item)).to_owned();
    Some(HowTo { name, how: words.how_to_tape(item).to_owned(), scene, size: FIGURE })
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
    frame_known_ui(ui, desk, words, commands);
    for quantity in FRAME {
        let field = NumberField {
            // a visit may get a bike of its own while a number is typed
            salt: &format!("frame/{}/{quantity:?}", desk.look().visit),
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

/// Whether stack and reach are known, or are to be found from tape.
fn frame_known_ui(ui: &mut Ui, desk: &Desk, words: &dyn Words, commands: &mut Vec<Command>) {
    let Some(visit) = desk.visit() else { return };
    let all = [(true, Caption::FrameKnown), (false, Caption::FrameToFind)];
    let all = all.map(|(to, caption)| (to, words.caption(caption)));
    let what = words.caption(Caption::FrameNumbers);
    if let Some(to) = one_of(ui, what, visit.tape.frame_known, &all) {
        let (visit, change) = (desk.look().visit, TapeEdit::FrameKnown(to));
        commands.push(Command::Edit(Edit::Tape { visit, change }, None));
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
        let shown = words.quantity(quantity);
        // the same numbers stand there of the bike as it came
        let came = desk.visit().is_some_and(|visit| visit.as_it_came.id == of.id);
        let name = if came { shown.to_owned() } else { words.of_it(&of.label, shown) };
        let field = NumberField {
            salt: &format!("{}/{quantity:?}", of.id),
            quantity,
            name: &name,
            shown,
            value: Some(value),
            hint: "",
            can_be_empty: false,
        };
        if let Some(Asked::Value(to)) = field.show(ui, words) {
            let (visit, id) = (desk.look().visit, of.id.clone());
            let change = CockpitEdit::Number { quantity, to };
            commands.push(if came {
                Command::Edit(Edit::Cockpit { visit, id, change }, None)
            } else {
                // once it was ridden it is what a trial leads back to
                tried(&id, change, words)
            });
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
