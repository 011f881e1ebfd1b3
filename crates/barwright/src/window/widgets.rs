//! The few controls that the window is made of.

use super::half_typed;
use super::paint::{View, shapes};
use super::theme::{CORNER, TARGET, colour, font, ink, quiet, strong, theme};
use eframe::egui;
use egui::{
    Align, Button, Color32, CornerRadius, Frame, Id, Layout, Margin, Rect, Response, RichText,
    Role, ScrollArea, Sense, Stroke, Ui, UiBuilder, Vec2, WidgetInfo, vec2,
};
use fit_desk::Gesture;
use fit_math::DVec2;
use fit_view::scene::{
    Ink, Layer, LayerName, Mark, Path, Pen, Scene, Series, Weight, Width as ScenePenWidth, Window,
};

/// A card on the page.
pub(super) fn card(ui: &Ui) -> Frame {
    Frame::new()
        .fill(ink(ui, Ink::Ground))
        .stroke(Stroke::new(1.0, ink(ui, Ink::Rule)))
        .corner_radius(CornerRadius::same(CORNER))
        .inner_margin(Margin::same(12))
}

/// A button that leads on.
pub(super) fn primary(ui: &mut Ui, text: &str) -> Response {
    let (fill, on) = (ink(ui, Ink::Accent), ink(ui, Ink::OnAccent));
    let text = RichText::new(text).font(font(Weight::SemiBold, 14.0)).color(on);
    in_sight(ui.add(Button::new(text).fill(fill).stroke(Stroke::NONE).min_size(vec2(0.0, 30.0))))
}

/// A button beside it.
pub(super) fn secondary(ui: &mut Ui, text: &str) -> Response {
    let edge = ink(ui, Ink::ChipEdge);
    in_sight(
        ui.add(
            Button::new(text)
                .fill(ink(ui, Ink::Ground))
                .stroke(Stroke::new(1.0, edge))
                .min_size(vec2(0.0, TARGET)),
        ),
    )
}

/// Several of which one holds, in a row behind what they say something of; another that was picked.
pub(super) fn one_of<T: Copy + PartialEq>(
    ui: &mut Ui,
    what: &str,
    holds: T,
    all: &[(T, &str)],
) -> Option<T> {
    let mut picked = None;
    ui.horizontal_wrapped(|ui| {
        ui.spacing_mut().item_spacing = vec2(4.0, 4.0);
        ui.label(what);
        for &(to, word) in all {
            if choice(ui, to == holds, word, &format!("{what}: {word}")).clicked() {
                picked = Some(to);
            }
        }
    });
    picked.filter(|&to| to != holds)
}

/// One of several of which one holds; `name` is what it is called where its text is too short.
pub(super) fn choice(ui: &mut Ui, selected: bool, text: &str, name: &str) -> Response {
    let theme = theme(ui);
    let (fill, on) = if selected { (Ink::Accent, Ink::OnAccent) } else { (Ink::Chip, Ink::Text) };
    let text = RichText::new(text).size(13.5).color(colour(theme, on));
    let button = Button::new(text)
        .fill(colour(theme, fill))
        .stroke(Stroke::new(1.0, colour(theme, if selected { Ink::Accent } else { Ink::Rule })))
        .min_size(vec2(TARGET, TARGET));
    let response = in_sight(ui.add(button));
    named(&response, Role::RadioButton, Some(selected), name);
    response
}

/// A small square button with one sign.
pub(super) fn sign(ui: &mut Ui, text: &str, name: &str) -> Response {
    sign_that(ui, text, name, Sense::click())
}

/// A sign beside a field whose arrow keys do the same: the Tab key passes it by and goes from field to
/// field.
pub(super) fn stepper(ui: &mut Ui, text: &str, name: &str) -> Response {
    sign_that(ui, text, name, Sense::CLICK)
}

fn sign_that(ui: &mut Ui, text: &str, name: &str, sense: Sense) -> Response {
    let text = RichText::new(text).font(font(Weight::SemiBold, 15.0));
    let button = Button::new(text).min_size(Vec2::splat(TARGET)).sense(sense);
    let shown = ui.scope(|ui| {
        ui.spacing_mut().button_padding = vec2(2.0, 2.0);
        ui.add(button)
    });
    let response = in_sight(shown.inner);
    named(&response, Role::Button, None, name);
    response
}

/// What the keyboard comes to is scrolled into sight.
pub(super) fn in_sight(response: Response) -> Response {
    if response.gained_focus() {
        response.scroll_to_me(None);
    }
    response
}

/// Gives a control the name and role that screen readers and tests know it by.
pub(super) fn named(response: &Response, role: Role, selected: Option<bool>, name: &str) {
    let enabled = response.enabled();
    response.widget_info(|| {
        let mut info = WidgetInfo::labeled(role, enabled, name);
        info.selected = selected;
        info
    });
}

/// The same for something that is not chosen, with a name that takes a while to say: it is only made
/// where a screen reader or a test listens.
pub(super) fn named_by(response: &Response, role: Role, name: impl Fn() -> String) {
    let enabled = response.enabled();
    response.widget_info(|| WidgetInfo::labeled(role, enabled, name()));
}

/// A heading inside a card.
pub(super) fn heading(ui: &mut Ui, text: &str) {
    ui.label(strong(text, 15.0));
}

/// A heading over a few fields.
pub(super) fn small_heading(ui: &mut Ui, text: &str) {
    ui.add_space(6.0);
    let text = strong(text, 12.5).color(ink(ui, Ink::Quiet));
    ui.label(text);
}

/// A sentence that stands back.
pub(super) fn note(ui: &mut Ui, text: &str) -> Response {
    let text = quiet(ui, text);
    sentence(ui, text)
}

/// Words at their own distance, also where controls are stretched to the width of a card.
fn sentence(ui: &mut Ui, text: RichText) -> Response {
    if ui.layout().is_horizontal() {
        return ui.label(text);
    }
    ui.with_layout(Layout::top_down(Align::Min), |ui| ui.label(text)).inner
}

/// A sentence about what cannot be.
pub(super) fn refusal(ui: &mut Ui, text: &str) -> Response {
    let colour = ink(ui, Ink::Refuse);
    sentence(ui, RichText::new(text).size(12.5).color(colour))
}

/// Words as they are typed, and the gesture that all of one stay in a field belong to.
pub(super) type Said = (String, Gesture);

/// A text field with its name over it. Every letter is given at once, so that it is kept as soon as it
/// is typed; Escape brings back what stood there when the keyboard came, or when it was last saved.
pub(super) fn text_field(
    ui: &mut Ui,
    salt: &str,
    name: &str,
    value: &str,
    rows: usize,
) -> Option<Said> {
    let id = text_id(ui, salt);
    let mut typed = followed(ui, id, value);
    let mut text = typed.as_ref().map_or_else(|| value.to_owned(), |typed| typed.text.clone());
    if typed.is_none() {
        caret_behind_change(ui, id, &text);
    }
    let response = edit_ui(ui, id, name, &mut text, rows);
    if response.has_focus() {
        ui.data_mut(|data| data.insert_temp(id, Shown(text.clone())));
    } else {
        ui.data_mut(|data| data.remove::<Shown>(id));
    }
    let mut said = None;
    if response.changed() {
        let new = || Typed { before: value.to_owned(), ..Typed::default() };
        let of = typed.get_or_insert_with(new);
        let gesture = *of.gesture.get_or_insert_with(|| half_typed::typing(ui));
        (of.text, of.holds) = (text.clone(), None);
        said = Some((text.clone(), gesture));
    }
    let is_new = typed.as_ref().is_some_and(|typed| typed.text != typed.before);
    if response.has_focus() {
        let text = if is_new { half_typed::Text::Followed } else { half_typed::Text::Value };
        half_typed::has_keyboard(ui, id, text);
    }
    if response.lost_focus() {
        let escaped = ui.input(|input| input.key_pressed(egui::Key::Escape));
        if let Some(Typed { before, gesture: Some(gesture), .. }) = typed.take_if(|_| escaped)
            && is_new
        {
            said = Some((before, gesture));
        }
        ui.data_mut(|data| data.remove::<Typed>(id));
        return said;
    }
    if let Some(of) = typed {
        let taken = half_typed::is_taken(ui, id);
        let of = if taken { Typed { before: text, gesture: None, ..of } } else { of };
        ui.data_mut(|data| data.insert_temp(id, of));
    }
    said
}

/// What is being typed into that field, unless the document has been changed by something else since.
fn followed(ui: &Ui, id: Id, value: &str) -> Option<Typed> {
    let mut typed: Option<Typed> = ui.data(|data| data.get_temp(id));
    if let Some(typed) = &mut typed
        && typed.holds.is_none()
    {
        typed.holds = Some(value.to_owned());
    }
    typed.filter(|typed| typed.holds.as_deref() == Some(value))
}

/// The words that stood in a field with the keyboard in the frame before.
#[derive(Debug, Clone)]
struct Shown(String);

/// Undone or redone under the caret: it comes behind what has changed.
fn caret_behind_change(ui: &Ui, id: Id, text: &str) {
    use egui::text::{CCursor, CCursorRange};
    let Some(Shown(before)) = ui.data(|data| data.get_temp(id)) else { return };
    let state = egui::TextEdit::load_state(ui.ctx(), id).filter(|_| before != text);
    let Some(mut state) = state else { return };
    let same = before.chars().rev().zip(text.chars().rev()).take_while(|(a, b)| a == b).count();
    let end = CCursor::new(text.chars().count() - same);
    state.cursor.set_char_range(Some(CCursorRange::one(end)));
    egui::TextEdit::store_state(ui.ctx(), id, state);
}

/// A text being typed.
#[derive(Debug, Clone, Default)]
struct Typed {
    text: String,
    /// Why it was not taken.
    why_not: Option<String>,
    /// What Escape brings back.
    before: String,
    /// What is typed from there on.
    gesture: Option<Gesture>,
    /// What the document made of it; none: it has not been asked yet.
    holds: Option<String>,
}

/// What the keyboard knows a text field by that is shown there.
pub(super) fn text_id(ui: &Ui, salt: &str) -> Id {
    ui.make_persistent_id(("text", salt))
}

/// A text field whose text must be read as something, kept until it is finished (Enter, Tab, a press
/// elsewhere); a text that cannot be read stays, with the reason under it, and the old value holds. Escape
/// brings back what stood there.
pub(super) fn read_field<T>(
    ui: &mut Ui,
    salt: &str,
    name: &str,
    value: &str,
    read: impl FnOnce(&str) -> Result<T, String>,
) -> Option<T> {
    let id = text_id(ui, salt);
    let typed: Option<Typed> = ui.data(|data| data.get_temp(id));
    let (mut text, why_not) =
        typed.map_or_else(|| (value.to_owned(), None), |typed| (typed.text, typed.why_not));
    let response = edit_ui(ui, id, name, &mut text, 1);
    if let Some(why_not) = &why_not {
        refusal(ui, why_not);
    }
    if response.has_focus() {
        let text = match &why_not {
            _ if text == value => half_typed::Text::Value,
            None => half_typed::Text::Typed,
            Some(_) => half_typed::Text::Refused,
        };
        half_typed::has_keyboard(ui, id, text);
    }
    if response.lost_focus() || half_typed::is_taken(ui, id) {
        ui.data_mut(|data| data.remove::<Typed>(id));
        if ui.input(|input| input.key_pressed(egui::Key::Escape)) || text == value {
            return None;
        }
        return match read(&text) {
            Ok(read) => Some(read),
            Err(why_not) => {
                let kept = Typed { text, why_not: Some(why_not), ..Typed::default() };
                ui.data_mut(|data| data.insert_temp(id, kept));
                half_typed::not_taken(ui, id);
                None
            }
        };
    }
    if response.changed() {
        ui.data_mut(|data| data.insert_temp(id, Typed { text, ..Typed::default() }));
    }
    None
}

/// A field of so many rows with its name over it.
fn edit_ui(ui: &mut Ui, id: Id, name: &str, text: &mut String, rows: usize) -> Response {
    let label = note(ui, name);
    let width = ui.available_width();
    let edit = if rows > 1 {
        egui::TextEdit::multiline(text).desired_rows(rows)
    } else {
        egui::TextEdit::singleline(text)
    };
    let edit = edit.id(id).desired_width(width).margin(Margin::symmetric(8, 4));
    in_sight(ui.add(edit).labelled_by(label.id))
}

/// The field of words that has the keyboard shows what the document holds, whatever was typed in this frame.
pub(super) fn show_document(ctx: &egui::Context) {
    if let Some(id) = half_typed::followed(ctx) {
        ctx.data_mut(|data| data.remove::<Typed>(id));
    }
}

/// Forgets what stands in text fields and is not taken.
pub(super) fn forget_texts(ctx: &egui::Context) {
    half_typed::forget_all::<Typed>(ctx);
}

/// The selection is another than it was where this was last asked: what shows it is brought into
/// sight once.
pub(super) fn news(ui: &Ui, whose: &str, selected: &str) -> bool {
    let id = Id::unique(("selected", whose));
    let before: Option<String> = ui.data(|data| data.get_temp(id));
    let news = before.as_deref() != Some(selected);
    if news {
        ui.data_mut(|data| data.insert_temp(id, selected.to_owned()));
    }
    news
}

/// A place of work is shown that was not in the frame before.
pub(super) fn entered(ui: &Ui, whose: &str) -> bool {
    let (id, now) = (Id::unique(("entered", whose)), ui.ctx().cumulative_frame_nr());
    let before: Option<u64> = ui.data(|data| data.get_temp(id));
    ui.data_mut(|data| data.insert_temp(id, now));
    before.is_none_or(|before| before + 1 < now)
}

/// A line sample: how a cockpit is drawn.
pub(super) fn line_sample(ui: &mut Ui, width: f32, series: Series) {
    let (rect, _) = ui.allocate_exact_size(vec2(width, 12.0), Sense::hover());
    paint_sample(ui, rect, series);
}

/// The same where its place is known.
pub(super) fn paint_sample(ui: &Ui, rect: Rect, series: Series) {
    let (ink, dash) = (Ink::Series(series), series.dash());
    let pen = Pen { ink, width: ScenePenWidth::Points(3.0), dash, opacity: 1.0 };
    let size = DVec2::new(rect.width().into(), rect.height().into());
    let path = Path::segment(DVec2::new(2.0, 0.0), DVec2::new(size.x - 2.0, 0.0));
    let half = DVec2::new(0.0, size.y / 2.0);
    let window = Window { least: -half, most: DVec2::new(size.x, half.y) };
    let layer = Layer { name: LayerName::Cockpits, marks: vec![Mark::Stroke { path, pen }] };
    let scene = Scene { window, layers: vec![layer], twin: Vec::new() };
    let drawn = shapes(&scene, &View::fitted(rect, &window), theme(ui), ui.painter());
    ui.painter().extend(drawn);
}

/// Nothing between controls of one group.
pub(super) fn row<R>(ui: &mut Ui, contents: impl FnOnce(&mut Ui) -> R) -> R {
    ui.horizontal(|ui| {
        ui.spacing_mut().item_spacing.x = 4.0;
        contents(ui)
    })
    .inner
}

/// A transparent colour for what only needs to be pressed.
pub(super) const CLEAR: Color32 = Color32::TRANSPARENT;

/// A line over a picture: what it is, and its name in its own colour.
pub(super) fn strong_line(ui: &mut Ui, what: &str, name: &str, colour: Color32) {
    ui.horizontal(|ui| {
        ui.label(strong(what, 15.0));
        ui.add(egui::Label::new(strong(name, 15.0).color(colour)).truncate());
    });
}

/// Cards side by side, as high as there is room, each with its share of the width whatever it holds:
/// one that holds too much takes nothing from the next.
pub(super) fn columns(ui: &mut Ui, shares: &[f32], mut show: impl FnMut(&mut Ui, usize)) {
    /// Between the cards, points.
    const GAP: f32 = 8.0;
    let whole = ui.available_rect_before_wrap();
    let width = whole.width() - GAP * (shares.len().max(1) - 1) as f32;
    let mut left = whole.left();
    for (index, share) in shares.iter().enumerate() {
        let size = vec2(width * share, whole.height());
        let frame = Rect::from_min_size(egui::pos2(left, whole.top()), size);
        left = frame.right() + GAP;
        ui.scope_builder(UiBuilder::new().id_salt(("column", index)).max_rect(frame), |ui| {
            ui.shrink_clip_rect(frame.expand(2.0));
            card(ui).show(ui, |ui| {
                ui.set_min_size(ui.available_size());
                ui.set_max_width(ui.available_width());
                show(ui, index);
            });
        });
    }
}

/// A list as high as that, or as the window has room for: also where it was short when it was last shown.
pub(super) fn list(ui: &Ui, height: f32) -> ScrollArea {
    /// What is left of the window's height to what stands over and under it, points.
    const AROUND: f32 = 150.0;
    let height = height.min(ui.ctx().content_rect().height() - AROUND);
    ScrollArea::vertical().max_height(height).min_scrolled_height(height)
}
