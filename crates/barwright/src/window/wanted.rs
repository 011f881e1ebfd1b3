//! What a cockpit is looked for, and what an answer may not leave: said before the shop is looked
//! through.

use super::choose::quick_ui;
use super::number::{Asked, NumberField, count_of};
use super::theme::TARGET;
use super::widgets::{choice, in_sight, note, sign, small_heading};
use eframe::egui;
use egui::{ComboBox, Ui, vec2};
use fit_desk::{Command, Desk};
use fit_doc::{Aim, Bounds, Counts, Edit, Price, Quantity, Stays, Wanted};
use fit_view::words::{Caption, Words};

/// Shows both.
pub(super) fn wanted_ui(ui: &mut Ui, desk: &Desk, words: &dyn Words, commands: &mut Vec<Command>) {
    let Some(visit) = desk.visit() else { return };
    let at = desk.look().visit;
    small_heading(ui, words.caption(Caption::LookedFor));
    let aims = visit.aims();
    let mut to = aims.clone();
    for (index, of) in aims.iter().enumerate() {
        aim_ui(ui, index, of, words, &mut to);
    }
    if aims.is_empty() {
        note(ui, words.caption(Caption::NothingLookedFor));
    } else if visit.wanted.is_empty() {
        note(ui, words.caption(Caption::FollowsFromComplaints));
    }
    add_ui(ui, &aims, words, &mut to);
    if to != aims {
        commands.push(Command::Edit(Edit::Wanted { visit: at, to }, None));
    }
    let mut bounds = visit.bounds.clone();
    bounds_ui(ui, &mut bounds, words);
    if bounds != visit.bounds {
        let to = Box::new(bounds);
        commands.push(Command::Edit(Edit::Bounds { visit: at, to }, None));
    }
    quick_ui(ui, words, commands);
}

/// One aim: what, how much it counts, and away with it.
fn aim_ui(ui: &mut Ui, index: usize, of: &Wanted, words: &dyn Words, to: &mut Vec<Wanted>) {
    let name = words.wanted(of);
    ui.add(egui::Label::new(&name).wrap());
    ui.horizontal(|ui| {
        ui.spacing_mut().item_spacing.x = 4.0;
        for counts in Counts::ALL {
            let word = words.counts(counts);
            let picked = choice(ui, of.counts == counts, word, &words.of_it(&name, word)).clicked();
            if let Some(changed) = to.get_mut(index).filter(|_| picked) {
                changed.counts = counts;
            }
        }
        let away = words.of_it(&name, words.caption(Caption::NotLookedFor));
        if sign(ui, "×", &away).clicked() {
            to.remove(index);
        }
    });
}

fn add_ui(ui: &mut Ui, aims: &[Wanted], words: &dyn Words, to: &mut Vec<Wanted>) {
    let combo = ComboBox::from_id_salt("add-aim")
        .selected_text(words.caption(Caption::LookForMore))
        .width(ui.available_width() - 8.0)
        .truncate();
    ui.name_inputs(words.caption(Caption::LookForMore), |ui| {
        combo.show_ui(ui, |ui| {
            for aim in Aim::ALL.into_iter().filter(|aim| !aims.iter().any(|of| of.aim == *aim)) {
                if ui.selectable_label(false, words.aim(aim)).clicked() {
                    to.push(Wanted::new(aim));
                }
            }
        });
    });
}

fn bounds_ui(ui: &mut Ui, bounds: &mut Bounds, words: &dyn Words) {
    small_heading(ui, words.caption(Caption::MustStay));
    ui.horizontal_wrapped(|ui| {
        ui.spacing_mut().item_spacing = vec2(4.0, 4.0);
        for what in Stays::ALL {
            let stays = bounds.stays(what);
            let name = words.of_it(words.caption(Caption::MustStay), words.stays(what));
            if choice(ui, stays, words.stays(what), &name).clicked() {
                if stays {
                    bounds.stays.retain(|of| *of != what);
                } else {
                    bounds.stays.push(what);
                }
            }
        }
    });
    small_heading(ui, words.caption(Caption::AtMost));
    ui.spacing_mut().interact_size.y = TARGET;
    let mut number = |salt: &str, shown: Caption, quantity: Quantity, value: Option<f64>| {
        let name = words.most_of(quantity);
        let field = NumberField {
            salt,
            quantity,
            name: &name,
            shown: words.caption(shown),
            value,
            hint: "",
            can_be_empty: true,
        };
        field.show(ui, words)
    };
    let units = bounds.money.map(|price| f64::from(price.cents) / 100.0);
    match number("most-spacers", Caption::MostSpacers, Quantity::Spacers, bounds.spacers_mm) {
        Some(Asked::Value(mm)) => bounds.spacers_mm = Some(mm),
        Some(Asked::Nothing) => bounds.spacers_mm = None,
        None => {}
    }
    let minutes = bounds.minutes.map(f64::from);
    match number("most-minutes", Caption::MostMinutes, Quantity::WorkMinutes, minutes) {
        Some(Asked::Value(minutes)) => bounds.minutes = Some(count_of(minutes)),
        Some(Asked::Nothing) => bounds.minutes = None,
        None => {}
    }
    match number("most-money", Caption::MostMoney, Quantity::PartsPrice, units) {
        Some(Asked::Value(units)) => bounds.money = Some(Price { cents: count_of(units * 100.0) }),
        Some(Asked::Nothing) => bounds.money = None,
        None => {}
    }
    let mut stock = bounds.in_stock_only;
    if in_sight(ui.checkbox(&mut stock, words.caption(Caption::InStockOnly))).clicked() {
        bounds.in_stock_only = stock;
    }
}
