//! Three pictures of the client on the bike: as it came, as it is now, as it is proposed.

use super::paint::View;
use super::painted::Painted;
use super::theme::{ink, quiet, theme};
use super::widgets::{card, named, strong_line};
use eframe::egui;
use egui::{Rect, Role, ScrollArea, Sense, Ui, UiBuilder, vec2};
use fit_desk::{Desk, Revision};
use fit_doc::{Concern, HandPlace};
use fit_view::picture::{Hands, SideChoice, card_brake, card_facts, side_view};
use fit_view::scene::{Ink, Series, Theme};
use fit_view::side::{Hold, rider_scene};
use fit_view::weigh::WeighedCockpit;
use fit_view::words::{Caption, Words};

/// Between the pictures, points.
const GAP: f32 = 8.0;
/// Width of what is said beside a picture, points.
const FACTS: f32 = 138.0;
/// Size of what is said there where little room is left for it, and the height below which it is, points.
const SMALL: f32 = 12.5;
const LOW: f32 = 200.0;

/// What one picture hangs on.
#[derive(Debug, Clone, PartialEq)]
struct Key {
    revision: Revision,
    visit: usize,
    cockpit: usize,
    place: HandPlace,
    frame: Rect,
    theme: Theme,
    pixels: u32,
}

/// What was drawn last, kept while nothing it depends on changes.
#[derive(Debug, Default)]
pub(super) struct Three {
    kept: [Option<(Key, Painted)>; 3],
}

impl Three {
    /// A picture was drawn with the texture of the letters as it was before it grew.
    pub(super) fn is_stale(&self, ctx: &egui::Context) -> bool {
        self.kept.iter().flatten().any(|(_, painted)| painted.is_stale(ctx))
    }

    /// Shows the cockpits of these places on the bench under these headings.
    pub(super) fn show(
        &mut self,
        ui: &mut Ui,
        desk: &Desk,
        words: &dyn Words,
        shown: [(Caption, usize); 3],
        height: f32,
    ) {
        let whole = ui.available_rect_before_wrap();
        let width = (whole.width() - 2.0 * GAP) / 3.0;
        for (at, (caption, cockpit)) in shown.into_iter().enumerate() {
            let left = whole.left() + (width + GAP) * at as f32;
            let frame = Rect::from_min_size(egui::pos2(left, whole.top()), vec2(width, height));
            ui.scope_builder(UiBuilder::new().id_salt(("three", at)).max_rect(frame), |ui| {
                card(ui).show(ui, |ui| {
                    ui.set_min_size(ui.available_size());
                    self.picture(ui, desk, words, at, (caption, cockpit));
                });
            });
        }
    }

    fn picture(
        &mut self,
        ui: &mut Ui,
        desk: &Desk,
        words: &dyn Words,
        at: usize,
        (caption, cockpit): (Caption, usize),
    ) {
        let Some(of) = desk.weighed().cockpits.get(cockpit) else { return };
        let heading = words.caption(caption);
        let series = ink(ui, Ink::Series(Series(cockpit)));
        let label = if of.label == heading { "" } else { &of.label };
        strong_line(ui, heading, label, series);
        let settings = quiet(ui, words.card_settings(&of.parts));
        ui.add(egui::Label::new(settings).truncate());
        let room = ui.available_rect_before_wrap();
        let beside = FACTS.min(room.width() * 0.45);
        let facts = Rect::from_min_max(egui::pos2(room.right() - beside, room.top()), room.max);
        let frame = Rect::from_min_max(room.min, egui::pos2(facts.left(), room.bottom()));
        ui.scope_builder(UiBuilder::new().max_rect(facts), |ui| {
            // however much there is to say, the three cards stay alike
            ScrollArea::vertical().id_salt(("facts", at)).show(ui, |ui| {
                facts_ui(ui, desk, of, room.height() < LOW, words);
            });
        });
        let key = Key {
            revision: desk.revision(),
            visit: desk.look().visit,
            cockpit,
            place: desk.look().hands,
            frame,
            theme: theme(ui),
            pixels: ui.pixels_per_point().to_bits(),
        };
        let kept = &mut self.kept[at];
        let stale = |painted: &Painted| painted.is_stale(ui.ctx());
        if kept.as_ref().is_none_or(|(before, painted)| *before != key || stale(painted)) {
            let choice = SideChoice {
                place: key.place,
                hands: Hands::Chosen,
                focus: cockpit,
                hold: Hold::Axle,
                theme: key.theme,
                ..SideChoice::usual(desk.weighed())
            };
            let scene = rider_scene(&side_view(desk.weighed(), &choice, words));
            let view = View::fitted(frame, &scene.window);
            let before = kept.take().map(|(_, painted)| painted);
            let painted = Painted::new(scene, &view, key.theme, ui.painter(), before);
            *kept = Some((key, painted));
        }
        if let Some((_, painted)) = kept {
            painted.paint(ui.painter(), frame);
        }
        let response = ui.interact(frame, ui.scope_id().with("picture"), Sense::hover());
        named(&response, Role::Image, None, &words.of_it(heading, &of.label));
    }
}

/// What is said of a cockpit beside its picture.
fn facts_ui(ui: &mut Ui, desk: &Desk, of: &WeighedCockpit, low: bool, words: &dyn Words) {
    let place = desk.look().hands;
    if low {
        ui.spacing_mut().item_spacing.y = 3.0;
    }
    let brake = brake_fact(desk, of, place, words);
    // another cockpit's hands may have made it another number since it was looked at last
    let seen_on = brake.is_some().then(|| desk.weighed().brake_seen_on(of));
    let seen_on = seen_on.filter(|on| !on.is_empty()).map(|on| words.brake_stands_on(&on));
    let facts = card_facts(desk.weighed(), of, place, words).into_iter();
    for fact in facts.chain(brake).chain(seen_on) {
        let text = egui::RichText::new(fact);
        ui.add(egui::Label::new(if low { text.size(SMALL) } else { text }).wrap());
    }
}

/// Whether the fingers reach the brake there, of a client who came for that.
fn brake_fact(
    desk: &Desk,
    of: &WeighedCockpit,
    place: HandPlace,
    words: &dyn Words,
) -> Option<String> {
    let came_for = match place {
        HandPlace::Drops => Concern::BrakesFromDrops,
        _ => Concern::BrakesFromHoods,
    };
    desk.visit()?.complaints.iter().find(|complaint| complaint.about == came_for)?;
    card_brake(desk.weighed(), of, place, words)
}
