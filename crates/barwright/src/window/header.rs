//! The head of the window: whose fit it is, the places of work, the menu, and whether all is saved.

use super::notices::said;
use super::theme::{QUIET, font, ink, quiet, strong};
use super::widgets::{CLEAR, named};
use eframe::egui;
use egui::{Button, Color32, Popup, Rect, Role, Stroke, Ui, UiBuilder, pos2, vec2};
use fit_desk::{Command, Desk, Room};
use fit_doc::Visit;
use fit_view::act::{Act, Stroke as KeyStroke};
use fit_view::scene::{Ink, Weight};
use fit_view::words::{Caption, Words};

/// Height of the head, points.
pub(super) const HEIGHT: f32 = 52.0;
/// Width of the name of a place of work, points, where there is room for it.
const ROOM: f32 = 84.0;
/// The same in a small window: the longest name and some air.
const NARROW: f32 = 72.0;
/// Room that is kept for whose fit it is, least and where the names of places can be narrow, and for
/// what stands at the right, points.
const WHOSE: f32 = 190.0;
const WHOSE_AND_DAY: f32 = 262.0;
/// Least width of the list of visits, points.
const VISITS: f32 = 92.0;
const STATE: f32 = 296.0;
/// At the right of the menu, points.
const RIGHT: f32 = 6.0;
/// Above a name that stands over bike and day, points.
const UNDER: f32 = 4.0;
/// With less room than this for bike and day, the day stands alone, points.
const DAY_ALONE: f32 = 150.0;

/// Shows the head; acts that are the window's own come back.
pub(super) fn header_ui(
    ui: &mut Ui,
    desk: &Desk,
    words: &dyn Words,
    commands: &mut Vec<Command>,
) -> Option<Act> {
    let mut act = None;
    let whole = ui.max_rect();
    ui.painter().hline(whole.x_range(), whole.bottom(), Stroke::new(1.0, ink(ui, Ink::Rule)));
    let (rooms_left, room_width) = rooms_at(whole, Room::ALL.len());
    let left = Rect::from_min_max(whole.min, pos2(rooms_left - 8.0, whole.bottom()));
    ui.scope_builder(UiBuilder::new().max_rect(left), |ui| {
        ui.horizontal_centered(|ui| whose_ui(ui, desk, words, commands));
    });
    rooms(ui, whole, (rooms_left, room_width), desk, words, commands);
    let right = Rect::from_min_max(pos2(whole.right() - STATE, whole.top()), whole.max);
    ui.scope_builder(UiBuilder::new().max_rect(right), |ui| {
        let layout = egui::Layout::left_to_right(egui::Align::Center);
        ui.with_layout(layout, |ui| act = state_ui(ui, desk, words));
    });
    act
}

/// Whether all is saved, the steps back and forward and the menu, at the right end, in the order in which they
/// are read: the keyboard comes to them so.
fn state_ui(ui: &mut Ui, desk: &Desk, words: &dyn Words) -> Option<Act> {
    let mut act = None;
    let state = match (desk.looks_at(), desk.modified(), desk.file()) {
        (Some(_), ..) => Caption::OnlyToLookAt,
        (None, true, _) => Caption::Modified,
        (None, false, Some(_)) => Caption::Saved,
        (None, false, None) => Caption::NoFile,
    };
    let state = words.caption(state);
    let steps = [(Act::Undo, desk.can_undo()), (Act::Redo, desk.can_redo())];
    let steps = steps.map(|(of, on)| (of, words.act(of), on));
    let menu = words.caption(Caption::Menu);
    let spacing = ui.spacing();
    let (padding, between) = (2.0 * spacing.button_padding.x, spacing.item_spacing.x);
    let buttons = steps.iter().map(|(_, text, _)| text.as_str()).chain([menu]);
    let buttons: f32 = buttons.map(|text| button_text_width(ui, text) + padding + between).sum();
    let all = quiet_width(ui, state) + buttons + RIGHT;
    ui.add_space((ui.available_width() - all).max(0.0));
    let text = quiet(ui, state);
    let shown = ui.label(text);
    if let Some(of) = desk.looks_at() {
        let why: Vec<String> = of.why.iter().map(|told| said(told, words)).collect();
        let why = why.join("\n");
        ui.ctx().accesskit_node_builder(shown.id, |node| node.set_description(why.as_str()));
        shown.on_hover_text(why);
    }
    for (of, text, on) in steps {
        let button = ui.add_enabled(on.is_some(), Button::new(&text));
        let button = match on {
            Some(step) => button.on_hover_text(words.of_it(&text, &words.step(step))),
            None => button,
        };
        if button.clicked() {
            act = Some(of);
        }
    }
    let menu = ui.button(menu);
    Popup::menu(&menu).show(|ui| act = act.or(menu_ui(ui, desk, words)));
    act
}

/// Width of a text on a button, points.
fn button_text_width(ui: &Ui, text: &str) -> f32 {
    let font = egui::TextStyle::Button.resolve(ui.style());
    ui.painter().layout_no_wrap(text.to_owned(), font, Color32::PLACEHOLDER).size().x
}

/// Whose fit it is, and which.
fn whose_ui(ui: &mut Ui, desk: &Desk, words: &dyn Words, commands: &mut Vec<Command>) {
    ui.add_space(6.0);
    let client = &desk.session().client.name;
    let client = if client.is_empty() { words.caption(Caption::Untitled) } else { client.as_str() };
    let several = desk.session().visits.len() > 1;
    let Some(visit) = desk.visit() else { return };
    let bike_of = |visit: &Visit| desk.session().bike(&visit.bike).map(|bike| bike.name.clone());
    let bike = bike_of(visit).unwrap_or_default();
    let of_that_day =
        |text: &str, at: usize| words.of_that_day(text, desk.session().number_that_day(at));
    let at = desk.look().visit;
    let text = of_that_day(&words.bike_and_visit(&bike, visit.date), at);
    let name = || egui::Label::new(strong(client, 20.0)).truncate();
    let beside = strong_width(ui, client) + ui.spacing().item_spacing.x + quiet_width(ui, &text);
    if !several && beside > ui.available_width() {
        ui.vertical(|ui| {
            ui.spacing_mut().item_spacing.y = 0.0;
            ui.add_space(UNDER);
            ui.add(name());
            let shown = quiet(ui, &text);
            ui.add(egui::Label::new(shown).truncate()).on_hover_text(&text);
        });
        return;
    }
    ui.scope(|ui| {
        // the list of visits keeps room to be read
        ui.set_max_width(ui.available_width() - if several { VISITS } else { 0.0 });
        ui.add(name());
    });
    // where there is no room for both the day says more than the bike
    let room = ui.available_width() - 2.0 * ui.spacing().button_padding.x;
    let day = of_that_day(&visit.date.to_string(), at);
    let whole = room >= DAY_ALONE || quiet_width(ui, &text) <= room;
    let shown = if whole { &text } else { &day };
    let shown = quiet(ui, shown);
    if !several {
        ui.add(egui::Label::new(shown).truncate()).on_hover_text(&text);
        return;
    }
    let button = ui.add(Button::new(shown).truncate()).on_hover_text(&text);
    named(&button, Role::Button, None, &words.which_visit(&text));
    Popup::menu(&button).show(|ui| {
        let all = desk.session().visits.iter().enumerate();
        for (index, visit) in all.rev() {
            let closed = desk.session().closed(index).is_some();
            let bike = bike_of(visit).unwrap_or_default();
            let number = desk.session().number_that_day(index);
            let text = words.listed_visit(&bike, visit.date, number, closed);
            let on = index == desk.look().visit;
            let text = if on { strong(text, 14.0) } else { egui::RichText::new(text) };
            if ui.add(Button::new(text).min_size(vec2(250.0, 26.0))).clicked() {
                commands.push(Command::Visit(index));
                ui.close();
            }
        }
    });
}

/// Width of the client's name on one line, points.
fn strong_width(ui: &Ui, text: &str) -> f32 {
    let font = font(Weight::SemiBold, 20.0);
    ui.painter().layout_no_wrap(text.to_owned(), font, Color32::PLACEHOLDER).size().x
}

/// Width of a text that stands back, on one line, points.
fn quiet_width(ui: &Ui, text: &str) -> f32 {
    let font = font(Weight::Regular, QUIET);
    ui.painter().layout_no_wrap(text.to_owned(), font, Color32::PLACEHOLDER).size().x
}

/// Where so many places of work begin, and how wide the name of each is: in the middle, or further left
/// and narrower where what stands at the right needs the room.
fn rooms_at(whole: Rect, count: usize) -> (f32, f32) {
    let count = count as f32;
    let each = |whose: f32| (whole.width() - whose - STATE) / count;
    let width = each(WHOSE_AND_DAY).max(each(WHOSE).min(NARROW)).min(ROOM);
    let middle = whole.center().x - width * count / 2.0;
    (middle.min(whole.right() - STATE - width * count), width)
}

/// The places of work.
fn rooms(
    ui: &mut Ui,
    whole: Rect,
    (left, width): (f32, f32),
    desk: &Desk,
    words: &dyn Words,
    commands: &mut Vec<Command>,
) {
    // a name is narrower than its target
    let usual = core::mem::replace(&mut ui.spacing_mut().button_padding.x, 2.0);
    for (index, room) in Room::ALL.into_iter().enumerate() {
        let frame = Rect::from_min_size(
            pos2(left + width * index as f32, whole.top()),
            vec2(width, whole.height()),
        );
        let open = desk.look().room == room;
        let name = words.caption(room_caption(room));
        let text = if open { strong(name, 15.0) } else { egui::RichText::new(name).size(15.0) };
        let response = ui.put(frame, Button::new(text).fill(CLEAR).stroke(Stroke::NONE));
        named(&response, Role::Tab, Some(open), name);
        if open {
            let line = Stroke::new(3.0, ink(ui, Ink::Accent));
            let across = (frame.left() + width * 0.19)..=(frame.right() - width * 0.19);
            ui.painter().hline(across, whole.bottom() - 8.0, line);
        }
        if response.clicked() {
            commands.push(Command::Go(room));
        }
    }
    ui.spacing_mut().button_padding.x = usual;
}

pub(super) fn room_caption(room: Room) -> Caption {
    match room {
        Room::Who => Caption::RoomWho,
        Room::Body => Caption::RoomBody,
        Room::Bike => Caption::RoomBike,
        Room::Bench => Caption::RoomBench,
        Room::Later => Caption::RoomLater,
        Room::Decide => Caption::RoomDecide,
    }
}

/// What the menu holds, in groups: what a small window has room for. What only leads the keyboard somewhere is
/// found among the keys and in the palette.
const MENU: [&[Act]; 4] = [
    &[Act::New, Act::Open, Act::Save, Act::SaveAs, Act::Passphrase, Act::Paper, Act::TableIn],
    &[
        Act::Trial,
        Act::EndTrial,
        Act::AddBar,
        Act::Duplicate,
        Act::Remove,
        Act::MatchHoods,
        Act::MatchDrops,
    ],
    &[
        Act::ClientView,
        Act::ClientBeside,
        Act::SwitchTheme,
        Act::Larger,
        Act::Smaller,
        Act::UsualSize,
    ],
    &[Act::Palette, Act::Keys, Act::Close],
];

fn menu_ui(ui: &mut Ui, desk: &Desk, words: &dyn Words) -> Option<Act> {
    let mut chosen = None;
    ui.set_min_width(270.0);
    // all of it fits the smallest window
    ui.spacing_mut().item_spacing.y = 0.0;
    for (index, group) in MENU.into_iter().enumerate() {
        if index > 0 {
            ui.separator();
        }
        for &act in group {
            let keys = act.strokes().first().map(keys_text).unwrap_or_default();
            let button = with_keys(words.act(act), keys).min_size(vec2(270.0, 26.0));
            if ui.add_enabled(desk.enabled(act), button).clicked() {
                chosen = Some(act);
                ui.close();
            }
        }
    }
    chosen
}

/// A button with what its keys are behind it, where it has any.
pub(super) fn with_keys(text: String, keys: String) -> Button<'static> {
    let button = Button::new(text);
    if keys.is_empty() { button } else { button.shortcut_text(keys) }
}

/// Keys as people read them: "Ctrl+Shift+S".
pub(super) fn keys_text(stroke: &KeyStroke) -> String {
    let mut text = String::new();
    if stroke.command {
        text.push_str(if cfg!(target_os = "macos") { "Cmd+" } else { "Ctrl+" });
    }
    if stroke.alt {
        text.push_str("Alt+");
    }
    if stroke.shift {
        text.push_str("Shift+");
    }
    text.push_str(match stroke.key {
        "Plus" => "+",
        "Minus" => "−",
        "Equals" => "=",
        key => key,
    });
    text
}

#[cfg(test)]
mod tests {
    use super::*;

    /// More places than there are: none is squeezed out at the widths that a window has.
    #[test]
    fn seven_places_of_work_fit_beside_what_stands_left_and_right_of_them() {
        for width in [1000.0, 1256.0, 1896.0] {
            let whole = Rect::from_min_size(pos2(12.0, 0.0), vec2(width, HEIGHT));
            for count in 4..=7 {
                let (left, each) = rooms_at(whole, count);
                let right = left + each * count as f32;
                assert!(left - whole.left() >= WHOSE - 0.1, "{width} {count}: {left}");
                assert!(right <= whole.right() - STATE + 0.1, "{width} {count}: {right}");
                // the longest name at the size it has, with some air
                assert!(each >= 68.0, "{width} {count}: {each}");
            }
        }
    }
}
