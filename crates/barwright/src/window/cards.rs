//! The cockpits on the bench, as cards on the left: how each is drawn, what it is called, what it
//! is made of.

use super::theme::{QUIET, font, ink, quiet, strong};
use super::trials::{trials_height, trials_ui};
use super::widgets::{
    card, heading, line_sample, named, news, primary, row, secondary, small_heading,
};
use eframe::egui;
use egui::{Align, Layout, Role, ScrollArea, Sense, Stroke, Ui, UiBuilder};
use fit_desk::{Command, Desk, Revision};
use fit_doc::{Cockpit, Ride};
use fit_view::act::Act;
use fit_view::detail::palm_lacks;
use fit_view::scene::{Ink, Series, Weight};
use fit_view::words::{Caption, Words};

/// Width of the sample of a cockpit's line, points: a dash and two dots, by which the longest pattern
/// is told from the others.
const SAMPLE: f32 = 34.0;
/// Between the sample, the name and what stands behind it, points.
const BETWEEN: f32 = 4.0;
/// Size of what stands behind the name, points.
const STATE: f32 = 11.5;
/// Most complaints and wishes that are kept in sight.
const MOST_WISHES: usize = 4;

/// What the cards say, kept while their cockpits stay.
#[derive(Debug, Default)]
pub(super) struct KeptTexts {
    all: Vec<(Cockpit, Texts)>,
    palms: Option<Palms>,
}

/// Where the palm does not fit, by place on the bench, as of that visit and state of the document.
#[derive(Debug)]
struct Palms {
    of: (Revision, usize),
    all: Vec<Option<Palm>>,
}

/// Where a palm lacks room on a card, and the same with its numbers.
type Palm = (String, String);

/// Two lines of a card: bar and settings.
#[derive(Debug)]
struct Texts {
    bar: String,
    settings: String,
}

impl KeptTexts {
    /// Where on the cockpit at that place the palm does not fit, and the same with its numbers.
    fn palm(&mut self, index: usize, desk: &Desk, words: &dyn Words) -> Option<&Palm> {
        let key = (desk.revision(), desk.look().visit);
        if self.palms.as_ref().is_none_or(|palms| palms.of != key) {
            let weighed = desk.weighed();
            let all = weighed.cockpits.iter().map(|of| palm_lacks(weighed, of, words));
            self.palms = Some(Palms { of: key, all: all.collect() });
        }
        self.palms.as_ref()?.all.get(index)?.as_ref()
    }

    /// What the card at that place says of its cockpit.
    fn of(&mut self, index: usize, cockpit: &Cockpit, words: &dyn Words) -> Option<&Texts> {
        if self.all.get(index).is_none_or(|(of, _)| of != cockpit) {
            let (bar, settings) = (words.card_bar(&cockpit.bar), words.card_settings(cockpit));
            let texts = (cockpit.clone(), Texts { bar, settings });
            match self.all.get_mut(index) {
                Some(kept) => *kept = texts,
                // shown in their order, so that this is the next one
                None => self.all.push(texts),
            }
        }
        self.all.get(index).map(|(_, texts)| texts)
    }
}

/// Shows the cards; "add from stock" comes back. `pointed` becomes the card under the pointer, else
/// the one that has the keyboard, by its place on the bench.
pub(super) fn cards_ui(
    ui: &mut Ui,
    desk: &Desk,
    kept: &mut KeptTexts,
    words: &dyn Words,
    commands: &mut Vec<Command>,
    pointed: &mut Option<usize>,
) -> Option<Act> {
    let mut act = None;
    *pointed = None;
    heading(ui, words.caption(Caption::OnTheBench));
    let wishes = wishes(desk, words);
    let trials = trials_height(desk, ui.available_width());
    let below = 44.0 + trials + wishes_height(ui, &wishes);
    let room = ui.available_height() - below;
    ScrollArea::vertical().max_height(room).auto_shrink([false, true]).show(ui, |ui| {
        let Some(visit) = desk.visit() else { return };
        for (index, cockpit) in visit.cockpits().enumerate() {
            let selected = desk.look().selected == cockpit.id;
            let chosen = visit.chosen.as_ref() == Some(&cockpit.id);
            let (edge, width) = if selected { (Ink::Accent, 2.0) } else { (Ink::Rule, 1.0) };
            let frame = card(ui).inner_margin(egui::Margin::symmetric(8, 5));
            let frame = frame.stroke(Stroke::new(width, ink(ui, edge)));
            let builder = UiBuilder::new().id_salt(("card", &cockpit.id)).sense(Sense::click());
            let shown = ui.scope_builder(builder, |ui| {
                frame.show(ui, |ui| {
                    ui.set_width(ui.available_width());
                    ui.style_mut().interaction.selectable_labels = false;
                    ui.spacing_mut().item_spacing.y = 2.0;
                    ui.horizontal(|ui| {
                        ui.spacing_mut().item_spacing.x = BETWEEN;
                        line_sample(ui, SAMPLE, Series(index));
                        let mut label = strong(&cockpit.label, 15.0);
                        label = label.color(ink(ui, Ink::Series(Series(index))));
                        ui.with_layout(Layout::right_to_left(Align::Center), |ui| {
                            // the bike as it came is ridden every day
                            if index > 0 {
                                ridden_ui(ui, desk, cockpit, words);
                            }
                            ui.with_layout(Layout::left_to_right(Align::Center), |ui| {
                                ui.add(egui::Label::new(label).truncate());
                            });
                        });
                    });
                    if chosen {
                        ui.label(strong(words.caption(Caption::Chosen), QUIET));
                    }
                    let Some(texts) = kept.of(index, cockpit, words) else { return };
                    ui.add(egui::Label::new(&texts.bar).wrap());
                    let settings = quiet(ui, &texts.settings);
                    ui.add(egui::Label::new(settings).truncate());
                    if let Some((brief, whole)) = kept.palm(index, desk, words) {
                        let brief = quiet(ui, brief);
                        ui.add(egui::Label::new(brief).wrap()).on_hover_text(whole);
                    }
                });
            });
            let response = shown.response;
            named(&response, Role::RadioButton, Some(selected), &cockpit.label);
            if selected && news(ui, "card", &cockpit.id) {
                response.scroll_to_me(None);
            }
            if response.clicked() {
                commands.push(Command::Select(cockpit.id.clone()));
            }
            if response.hovered() || (response.has_focus() && pointed.is_none()) {
                *pointed = Some(index);
            }
            if response.has_focus() {
                let rect = response.rect.expand(2.0);
                let line = Stroke::new(2.0, ink(ui, Ink::Accent));
                ui.painter().rect_stroke(rect, 9.0, line, egui::StrokeKind::Outside);
            }
        }
    });
    row(ui, |ui| {
        if primary(ui, words.caption(Caption::AddFromStock)).clicked() {
            act = Some(Act::AddBar);
        }
        if secondary(ui, words.caption(Caption::Duplicate)).clicked() {
            act = Some(Act::Duplicate);
        }
    });
    // while a trial takes the place of the answers they are not led to
    let leads = !desk.look().choosing && desk.enabled(Act::Choosing);
    if leads && secondary(ui, words.caption(Caption::WorthTrying)).clicked() {
        act = Some(Act::Choosing);
    }
    trials_ui(ui, desk, words, commands);
    wishes_ui(ui, &wishes, words);
    act
}

/// Whether somebody rode it, or it is only drawn.
fn ridden_ui(ui: &mut Ui, desk: &Desk, cockpit: &Cockpit, words: &dyn Words) {
    let how = desk.ridden(cockpit);
    let text = quiet(ui, words.short_ridden(how)).size(STATE);
    let (response, whole) = (ui.label(text), words.ridden(how));
    named(&response, Role::Label, None, &words.of_it(&cockpit.label, &whole));
    response.on_hover_text(whole);
}

/// What the client came for: complaints, then wishes, as many as may stand in sight.
fn wishes(desk: &Desk, words: &dyn Words) -> Vec<String> {
    let Some(visit) = desk.visit() else { return Vec::new() };
    // while nothing is decided the last trial is how it is now, then what the client leaves with
    let open = visit.outcome().is_none() && desk.closed().is_none();
    let now = |of| if open { Ride::left(&visit.rides, of) } else { visit.left_after_trials(of) };
    let complaints =
        visit.complaints.iter().map(|complaint| words.complaint(complaint, now(complaint)));
    let mut all: Vec<String> = complaints.chain(visit.wishes.iter().cloned()).collect();
    let hidden = all.len().saturating_sub(MOST_WISHES);
    if hidden > 0 {
        all.truncate(MOST_WISHES);
        all.push(words.and_more(hidden));
    }
    all
}

fn wishes_height(ui: &Ui, wishes: &[String]) -> f32 {
    if wishes.is_empty() {
        return 0.0;
    }
    let height = |text: &String| {
        let galley = ui.painter().layout(
            text.clone(),
            font(Weight::Regular, QUIET),
            ink(ui, Ink::Quiet),
            ui.available_width(),
        );
        galley.size().y + ui.spacing().item_spacing.y
    };
    34.0 + wishes.iter().map(height).sum::<f32>()
}

fn wishes_ui(ui: &mut Ui, wishes: &[String], words: &dyn Words) {
    if wishes.is_empty() {
        return;
    }
    small_heading(ui, words.caption(Caption::CameFor));
    for line in wishes {
        ui.add(egui::Label::new(quiet(ui, line)).wrap());
    }
}
