//! What the fitter saw of the client on the bike as it came: angles, the slide on the saddle, and
//! whether the fingers reach the brake from the drops.

use super::number::{Asked, NumberField, row_name};
use super::widgets::{choice, heading, in_sight, note, refusal, row};
use eframe::egui;
use egui::{ComboBox, Ui};
use fit_desk::{Command, Desk};
use fit_doc::{Edit, FingerPart, HandPlace, Message, Quantity, Reaches, Sight, Where};
use fit_view::words::{Caption, Words};

/// Where the hands are looked at.
const PLACES: [HandPlace; 2] = [HandPlace::Hoods, HandPlace::Drops];
/// Width of a field, points.
const FIELD: f32 = 96.0;

/// Width of the choice of the part of the finger, points.
const PART: f32 = 132.0;

/// Shows the card's content.
pub(super) fn seen_ui(ui: &mut Ui, desk: &Desk, words: &dyn Words, commands: &mut Vec<Command>) {
    let Some(visit) = desk.visit() else { return };
    let at = desk.look().visit;
    let came = &visit.as_it_came.id;
    heading(ui, words.caption(Caption::SeenOnTheBike));
    ui.horizontal(|ui| {
        ui.spacing_mut().item_spacing.x = 4.0;
        row_name(ui, "", (FIELD + 4.0) * PLACES.len() as f32);
        for place in PLACES {
            ui.allocate_ui(egui::vec2(FIELD, 16.0), |ui| {
                ui.set_min_width(FIELD);
                note(ui, words.with_hands(place));
            });
        }
    });
    // a column is gone down: what is looked at with the hands in one place, then in the other
    let order = PLACES.into_iter().flat_map(|place| Sight::ALL.map(|sight| (sight, place)));
    let order: Vec<_> = order.collect();
    let next = |this| {
        let at = order.iter().position(|&of| of == this)?;
        order.get(at + 1).copied().map(salt)
    };
    for sight in Sight::ALL {
        let quantity = sight.quantity();
        let names = PLACES.map(|place| words.seen(quantity, place));
        let fields = || {
            PLACES.into_iter().zip(&names).map(|(place, name)| {
                let seen = visit.seen.iter().find(|of| of.cockpit == *came && of.place == place);
                let value = seen.and_then(|seen| seen.of(sight));
                (place, name, value)
            })
        };
        ui.horizontal(|ui| {
            ui.spacing_mut().item_spacing.x = 4.0;
            row_name(ui, words.quantity(quantity), (FIELD + 4.0) * PLACES.len() as f32);
            for (place, name, value) in fields() {
                let salt = salt((sight, place));
                let field = NumberField {
                    salt: &salt,
                    quantity,
                    name,
                    shown: name,
                    value,
                    hint: "",
                    can_be_empty: true,
                };
                let next = next((sight, place));
                let to = match field.edit_then(ui, words, FIELD, next.as_deref()) {
                    Some(Asked::Value(value)) => Some(value),
                    Some(Asked::Nothing) => None,
                    None => continue,
                };
                let edit = Edit::Seen { visit: at, cockpit: came.clone(), place, sight, to };
                commands.push(Command::Edit(edit, None));
            }
        });
        for (place, name, value) in fields() {
            let salt = salt((sight, place));
            let (hint, can_be_empty) = ("", true);
            NumberField { salt: &salt, quantity, name, shown: name, value, hint, can_be_empty }
                .say(ui, words);
        }
    }
    if let Some(calibration) = &desk.weighed().calibration {
        note(ui, &words.calibrated(calibration));
    }
    for message in &desk.weighed().notes {
        if matches!(
            message,
            Message::SeenDoesNotFit { .. }
                | Message::SeenContradicts { .. }
                | Message::SeenOfNothing { .. }
        ) {
            refusal(ui, &words.message(message));
        }
    }
    hands_ui(ui, desk, words, commands);
}

/// What keeps the field of a sight apart from all others.
fn salt((sight, place): (Sight, HandPlace)) -> String {
    format!("seen/{sight:?}/{place:?}")
}

/// Whether the fingers reach the brake, and what gloves take off them.
fn hands_ui(ui: &mut Ui, desk: &Desk, words: &dyn Words, commands: &mut Vec<Command>) {
    let Some(visit) = desk.visit() else { return };
    let came = &visit.as_it_came.id;
    for side in [Where::Left, Where::Right] {
        let name = words.reaches_brake(side);
        let found = visit.hand_checks.iter().find(|of| of.cockpit == *came && of.side == side);
        ui.horizontal(|ui| {
            ui.spacing_mut().item_spacing.x = 4.0;
            let part = found.map_or_else(FingerPart::default, |of| of.part);
            let check = |part, to| {
                let (visit, cockpit) = (desk.look().visit, came.clone());
                Command::Edit(Edit::HandCheck { visit, cockpit, side, part, to }, None)
            };
            // with which part of the finger is asked where somebody looked
            let kept = (FIELD + 4.0) * PLACES.len() as f32;
            row_name(ui, name, if found.is_some() { kept + PART } else { kept });
            if let Some(of) = found
                && let Some(to) = part_ui(ui, name, part, words)
            {
                commands.push(check(to, Some(of.reaches)));
            }
            row(ui, |ui| {
                for reaches in [Reaches::Yes, Reaches::Just, Reaches::No] {
                    let on = found.is_some_and(|of| of.reaches == reaches);
                    let word = words.reaches(reaches);
                    if choice(ui, on, word, &format!("{name}: {word}")).clicked() {
                        let to = (!on).then_some(reaches);
                        commands.push(check(part, to));
                    }
                }
            });
        });
    }
    let glove = NumberField {
        salt: "glove",
        quantity: Quantity::Glove,
        name: words.quantity(Quantity::Glove),
        shown: words.quantity(Quantity::Glove),
        value: Some(visit.glove_mm),
        hint: "",
        can_be_empty: false,
    };
    if let Some(Asked::Value(to)) = glove.show(ui, words) {
        commands.push(Command::Edit(Edit::Glove { visit: desk.look().visit, to }, None));
    }
}

/// Which part of the finger lies on the blade; another one that was picked.
fn part_ui(ui: &mut Ui, hand: &str, part: FingerPart, words: &dyn Words) -> Option<FingerPart> {
    let mut picked = None;
    ui.name_inputs(words.of_it(hand, words.caption(Caption::WithPart)), |ui| {
        let list = ComboBox::from_id_salt(hand).width(PART - 12.0);
        let shown = list.selected_text(words.finger_part(part)).show_ui(ui, |ui| {
            for of in FingerPart::ALL {
                if ui.selectable_label(of == part, words.finger_part(of)).clicked() {
                    picked = Some(of);
                }
            }
        });
        in_sight(shown.response);
    });
    picked.filter(|of| *of != part)
}
