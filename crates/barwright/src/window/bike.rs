//! The bike: contact points from tape first, beside them what is set on it, its cockpit as it came, and
//! its frame. All that is asked while it is measured is seen at once in a window of the usual size.

use super::came::{cockpit_ui, saddle_ui};
use super::close::{ROWS, close_ui, in_columns};
use super::how_to::{HowTo, over_how_to};
use super::number::{Asked, NumberField};
use super::tape::{asked, tape_ui};
use super::unread::Unread;
use super::widgets::{columns, heading, one_of, text_field};
use eframe::egui;
use egui::{Ui, Vec2, vec2};
use fit_desk::{Command, Desk};
use fit_doc::edit::frame_number;
use fit_doc::{Bike, Edit, Quantity, TapeEdit, TapeItem};
use fit_view::side::taped_scene;
use fit_view::words::{Caption, Words};

/// What the tape can find of the frame, and what is read off a crank.
const IN_SIGHT: [Quantity; 3] = [Quantity::FrameStack, Quantity::FrameReach, Quantity::Crank];

/// What stands behind a heading.
const BESIDES: [Quantity; 8] = [
    Quantity::HeadAngle,
    Quantity::SeatAngle,
    Quantity::HeadTube,
    Quantity::HeadsetCover,
    Quantity::ForkOffset,
    Quantity::WheelRadius,
    Quantity::BottomBracketDrop,
    Quantity::RearCentre,
];

/// Share of the width that the walk with the tape takes, and the least it needs, points.
const WALK_SHARE: f32 = 0.58;
const WALK_LEAST: f32 = 640.0;
/// The least that the numbers beside it need, points.
const DOOR_LEAST: f32 = 300.0;

/// Between what is set on the bike, its cockpit and its frame, points.
const APART: f32 = 6.0;

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
            ui.spacing_mut().item_spacing.y = ROWS;
            saddle_ui(ui, desk, words, commands);
            ui.add_space(APART);
            cockpit_ui(ui, desk, words, commands);
            ui.add_space(APART);
            frame_ui(ui, desk, words, commands);
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

/// The bike's name, and its frame: contact points lead, so what is seldom known, or read off a drawing
/// of the maker's, is behind a heading.
fn frame_ui(ui: &mut Ui, desk: &Desk, words: &dyn Words, commands: &mut Vec<Command>) {
    let Some(bike) = desk.visit().and_then(|visit| desk.session().bike(&visit.bike)) else {
        return;
    };
    ui.horizontal(|ui| {
        heading(ui, words.caption(Caption::Frame));
        Unread::of(desk).say(ui, &IN_SIGHT, words);
        let name = text_field(ui, "bike", words.caption(Caption::Name), &bike.name, 1);
        if let Some((to, typing)) = name {
            let edit = Edit::BikeName { bike: bike.id.clone(), to };
            commands.push(Command::Edit(edit, Some(typing)));
        }
    });
    frame_known_ui(ui, desk, words, commands);
    numbers_ui(ui, desk, bike, &IN_SIGHT, words, commands);
    ui.collapsing(words.caption(Caption::FrameBesides), |ui| {
        ui.spacing_mut().item_spacing.y = ROWS;
        numbers_ui(ui, desk, bike, &BESIDES, words, commands);
    });
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

/// Numbers of the frame.
fn numbers_ui(
    ui: &mut Ui,
    desk: &Desk,
    bike: &Bike,
    all: &[Quantity],
    words: &dyn Words,
    commands: &mut Vec<Command>,
) {
    let unread = Unread::of(desk);
    let names: Vec<&str> = all.iter().map(|of| words.quantity(*of)).collect();
    in_columns(ui, &names, |ui, index| {
        let quantity = all[index];
        let field = NumberField {
            // a visit may get a bike of its own while a number is typed
            salt: &format!("frame/{}/{quantity:?}", desk.look().visit),
            quantity,
            name: names[index],
            shown: names[index],
            value: frame_number(&bike.frame, quantity),
            hint: "",
            can_be_empty: false,
        };
        let asked = unread.faded(ui, quantity, |ui| close_ui(ui, &field, words));
        if let Some(Asked::Value(to)) = asked {
            let bike = bike.id.clone();
            commands.push(Command::Edit(Edit::Frame { bike, quantity, to }, None));
        }
    });
}
