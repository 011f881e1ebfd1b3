//! What a cockpit is looked for, and what an answer may not leave: said before the shop is looked
//! through.

use super::choose::quick_ui;
use super::number::{Asked, NumberField, count_of};
use super::theme::TARGET;
use super::widgets::{choice, in_sight, note, sign, small_heading};
use eframe::egui;
use egui::{ComboBox, Ui, vec2};
use fit_desk::{Command, Desk};
use fit_doc::{Aim, Bounds, Counts, Edit, HandPlace, Price, Quantity, Stays, Wanted};
use fit_view::choose::Quick;
use fit_view::words::{Caption, Words};

/// Width of the choice of a hand place, points.
const PLACE: f32 = 78.0;
/// Where an aim may be meant.
const PLACES: [HandPlace; 3] = [HandPlace::Tops, HandPlace::Hoods, HandPlace::Drops];

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
        let came = !visit.complaints.is_empty();
        let why = if came { Caption::NothingFollows } else { Caption::NothingLookedFor };
        note(ui, words.caption(why));
    } else if visit.wanted.is_empty() {
        note(ui, words.caption(Caption::FollowsFromComplaints));
    }
    let other_bike = Quick::OtherBike.can_be_asked(desk.session(), visit);
    let can_be = |aim: &Aim| *aim != Aim::LikeOtherBike || other_bike;
    let more = Aim::ALL.into_iter().filter(can_be);
    add_ui(ui, more.filter(|aim| !aims.iter().any(|of| of.aim == *aim)), words, &mut to);
    let mut bounds = visit.bounds.clone();
    bounds_ui(ui, &mut bounds, &mut to, words);
    if to != aims {
        commands.push(Command::Edit(Edit::Wanted { visit: at, to }, None));
    }
    if bounds != visit.bounds {
        let to = Box::new(bounds);
        commands.push(Command::Edit(Edit::Bounds { visit: at, to }, None));
    }
    quick_ui(ui, desk, words, commands);
}

/// One aim: what, where and how far, how much it counts, and away with it.
fn aim_ui(ui: &mut Ui, index: usize, of: &Wanted, words: &dyn Words, to: &mut Vec<Wanted>) {
    let name = words.wanted(of);
    let mut changed = *of;
    ui.horizontal(|ui| {
        let taken = if of.aim.is_of_a_place() { PLACE + 16.0 } else { 0.0 };
        let room = vec2(ui.available_width() - taken, TARGET);
        let align = egui::Layout::left_to_right(egui::Align::Center);
        ui.allocate_ui_with_layout(room, align, |ui| {
            ui.set_min_width(room.x);
            ui.add(egui::Label::new(words.aim(of.aim)).truncate());
        });
        if of.aim.is_of_a_place() {
            place_ui(ui, index, &name, &mut changed, words);
        }
    });
    let mut away = false;
    ui.horizontal(|ui| {
        ui.spacing_mut().item_spacing.x = 4.0;
        for counts in Counts::ALL {
            let word = words.counts(counts);
            if choice(ui, of.counts == counts, word, &words.of_it(&name, word)).clicked() {
                changed.counts = counts;
            }
        }
        let named = words.of_it(&name, words.caption(Caption::NotLookedFor));
        away = sign(ui, "×", &named).clicked();
    });
    if of.aim.is_by_mm() {
        let field = NumberField {
            salt: &format!("aim-by/{index}"),
            quantity: Quantity::AimBy,
            name: &words.of_it(&name, words.quantity(Quantity::AimBy)),
            shown: words.caption(Caption::AimBy),
            value: of.by_mm,
            hint: "",
            can_be_empty: true,
        };
        match field.show(ui, words) {
            Some(Asked::Value(mm)) => changed.by_mm = Some(mm),
            Some(Asked::Nothing) => changed.by_mm = None,
            None => {}
        }
    }
    // one aim with the hands in one place stands once
    let stands = |other: &Wanted| (other.aim, other.place) == (changed.aim, changed.place);
    let twice = to.iter().enumerate().any(|(at, other)| at != index && stands(other));
    if away {
        to.remove(index);
    } else if let Some(kept) = to.get_mut(index).filter(|_| !twice) {
        *kept = changed;
    }
}

/// Where the hands are meant.
fn place_ui(ui: &mut Ui, index: usize, name: &str, wanted: &mut Wanted, words: &dyn Words) {
    // there is no brake on the tops
    let brakes = wanted.aim == Aim::ReachBrakes;
    let places = PLACES.into_iter().filter(|place| !brakes || *place != HandPlace::Tops);
    let place = &mut wanted.place;
    let text = |of: Option<HandPlace>| {
        of.map_or(words.caption(Caption::AnyPlace), |place| words.hand_place(place))
    };
    let combo = ComboBox::from_id_salt(("aim-place", index))
        .selected_text(text(*place))
        .width(PLACE)
        .truncate();
    ui.name_inputs(words.of_it(name, words.caption(Caption::WhereHands)), |ui| {
        combo.show_ui(ui, |ui| {
            for of in [None].into_iter().chain(places.map(Some)) {
                if ui.selectable_label(*place == of, text(of)).clicked() {
                    *place = of;
                }
            }
        });
    });
}

fn add_ui(ui: &mut Ui, more: impl Iterator<Item = Aim>, words: &dyn Words, to: &mut Vec<Wanted>) {
    let combo = ComboBox::from_id_salt("add-aim")
        .selected_text(words.caption(Caption::LookForMore))
        .width(ui.available_width() - 8.0)
        .truncate();
    ui.name_inputs(words.caption(Caption::LookForMore), |ui| {
        combo.show_ui(ui, |ui| {
            for aim in more {
                if ui.selectable_label(false, words.aim(aim)).clicked() {
                    to.push(Wanted::new(aim));
                }
            }
        });
    });
}

fn bounds_ui(ui: &mut Ui, bounds: &mut Bounds, wanted: &mut Vec<Wanted>, words: &dyn Words) {
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
        hoods_ui(ui, wanted, words);
    });
    let limits = egui::CollapsingHeader::new(words.caption(Caption::Limits))
        .id_salt("limits")
        .default_open(*bounds != Bounds { stays: bounds.stays.clone(), ..Bounds::default() });
    limits.show(ui, |ui| {
        ui.spacing_mut().interact_size.y = TARGET;
        span_ui(ui, Quantity::BarWidthAtHoods, Caption::Width, &mut bounds.width_mm, words);
        span_ui(ui, Quantity::StemLength, Caption::Stem, &mut bounds.stem_mm, words);
        most_ui(ui, bounds, words);
        let mut stock = bounds.in_stock_only;
        if in_sight(ui.checkbox(&mut stock, words.caption(Caption::InStockOnly))).clicked() {
            bounds.in_stock_only = stock;
        }
        let mut rules = bounds.event_rules;
        if in_sight(ui.checkbox(&mut rules, words.caption(Caption::EventRules))).clicked() {
            bounds.event_rules = rules;
        }
    });
}

/// That the hoods stay is no part that is kept but an aim: it counts most here, and an answer that
/// moves them says so.
fn hoods_ui(ui: &mut Ui, wanted: &mut Vec<Wanted>, words: &dyn Words) {
    let stay = wanted.iter().any(|of| of.aim == Aim::HoodsStay);
    let text = words.hand_place(HandPlace::Hoods);
    let name = words.of_it(words.caption(Caption::MustStay), text);
    let chip = choice(ui, stay, text, &name);
    if chip.clicked() {
        if stay {
            wanted.retain(|of| of.aim != Aim::HoodsStay);
        } else {
            wanted.push(Wanted { counts: Counts::Much, ..Wanted::new(Aim::HoodsStay) });
        }
    }
    chip.on_hover_text(words.caption(Caption::HoodsStayCounts));
}

/// A number that may be left out.
fn number_ui(
    ui: &mut Ui,
    (salt, shown): (&str, &str),
    quantity: Quantity,
    name: &str,
    value: &mut Option<f64>,
    words: &dyn Words,
) {
    let field =
        NumberField { salt, quantity, name, shown, value: *value, hint: "", can_be_empty: true };
    match field.show(ui, words) {
        Some(Asked::Value(to)) => *value = Some(to),
        Some(Asked::Nothing) => *value = None,
        None => {}
    }
}

/// The least and the most of something; one of them alone leaves the other end at what can be.
fn span_ui(
    ui: &mut Ui,
    quantity: Quantity,
    shown: Caption,
    span: &mut Option<(f64, f64)>,
    words: &dyn Words,
) {
    let (from, to) = quantity.range().refuse;
    let said = |end: f64, open: f64| (end != open).then_some(end);
    let mut least = span.and_then(|span| said(span.0, from));
    let mut most = span.and_then(|span| said(span.1, to));
    let name = words.caption(shown);
    let salts = [format!("least/{quantity:?}"), format!("most/{quantity:?}")];
    let (least_name, most_name) = (words.least_of(quantity), words.most_of(quantity));
    let (low, high) = (words.at_least(name), words.at_most(name));
    number_ui(ui, (&salts[0], &low), quantity, &least_name, &mut least, words);
    number_ui(ui, (&salts[1], &high), quantity, &most_name, &mut most, words);
    *span =
        (least.is_some() || most.is_some()).then(|| (least.unwrap_or(from), most.unwrap_or(to)));
}

fn most_ui(ui: &mut Ui, bounds: &mut Bounds, words: &dyn Words) {
    let mut most = |salt: &str, shown: Caption, quantity: Quantity, value: &mut Option<f64>| {
        let shown = words.at_most(words.caption(shown));
        number_ui(ui, (salt, &shown), quantity, &words.most_of(quantity), value, words);
    };
    most("most-spacers", Caption::MostSpacers, Quantity::Spacers, &mut bounds.spacers_mm);
    let mut minutes = bounds.minutes.map(f64::from);
    most("most-minutes", Caption::MostMinutes, Quantity::WorkMinutes, &mut minutes);
    bounds.minutes = minutes.map(count_of);
    let mut units = bounds.money.map(|price| f64::from(price.cents) / 100.0);
    most("most-money", Caption::MostMoney, Quantity::PartsPrice, &mut units);
    bounds.money = units.map(|units| Price { cents: count_of(units * 100.0) });
}
