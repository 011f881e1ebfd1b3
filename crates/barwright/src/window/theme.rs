//! The look of the window: the inks of the drawings carried over to buttons, fields and texts, and
//! a type scale that can be read from two metres.

use eframe::egui;
use egui::style::{ScrollStyle, Selection, TextCursorStyle, WidgetVisuals, Widgets};
use egui::{
    Color32, CornerRadius, FontData, FontDefinitions, FontFamily, FontId, Margin, RichText, Shadow,
    Stroke, Style, TextStyle, Visuals, vec2,
};
use fit_desk::ThemeChoice;
use fit_view::scene::{FONT_REGULAR, FONT_SEMIBOLD, Ink, Theme, Weight};
use std::sync::Arc;

/// Corners of cards and buttons, points.
pub(super) const CORNER: u8 = 8;
/// Smallest height of anything that is pressed, points (WCAG 2.2, success criterion 2.5.8: 24).
pub(super) const TARGET: f32 = 24.0;

/// Size of a text that stands back, points.
pub(super) const QUIET: f32 = 12.5;

const SEMIBOLD: &str = "semibold";

/// Puts fonts and both looks into the window.
pub(super) fn install(ctx: &egui::Context) {
    ctx.set_fonts(fonts());
    // a desktop that says nothing gets paper
    ctx.options_mut(|options| options.fallback_theme = egui::Theme::Light);
    for (of, theme) in [(egui::Theme::Light, Theme::Light), (egui::Theme::Dark, Theme::Dark)] {
        ctx.set_style_of(of, style(theme));
    }
}

/// The other of light and dark: as the desktop has it, where it has that one.
pub(super) fn other(ctx: &egui::Context) -> ThemeChoice {
    let (other, choice) = match ctx.theme() {
        egui::Theme::Light => (egui::Theme::Dark, ThemeChoice::Dark),
        egui::Theme::Dark => (egui::Theme::Light, ThemeChoice::Light),
    };
    let without = ctx.options(|options| options.fallback_theme);
    let desktop = ctx.system_theme().unwrap_or(without);
    if desktop == other { ThemeChoice::System } else { choice }
}

/// The theme of the drawings that goes with the window's.
pub(super) fn theme(ui: &egui::Ui) -> Theme {
    if ui.visuals().dark_mode { Theme::Dark } else { Theme::Light }
}

/// The colour of an ink in the window's theme.
pub(super) fn ink(ui: &egui::Ui, ink: Ink) -> Color32 {
    colour(theme(ui), ink)
}

pub(super) fn colour(theme: Theme, ink: Ink) -> Color32 {
    let rgb = theme.colour(ink);
    Color32::from_rgb(rgb.0, rgb.1, rgb.2)
}

/// A font of that weight and size.
pub(super) fn font(weight: Weight, size: f32) -> FontId {
    match weight {
        Weight::Regular => FontId::proportional(size),
        Weight::SemiBold => FontId::new(size, FontFamily::Name(SEMIBOLD.into())),
    }
}

/// A text that leads.
pub(super) fn strong(text: impl Into<String>, size: f32) -> RichText {
    RichText::new(text).font(font(Weight::SemiBold, size))
}

/// A text that stands back.
pub(super) fn quiet(ui: &egui::Ui, text: impl Into<String>) -> RichText {
    RichText::new(text).size(QUIET).color(ink(ui, Ink::Quiet))
}

fn fonts() -> FontDefinitions {
    let mut fonts = FontDefinitions::empty();
    let regular = FontData::from_static(FONT_REGULAR);
    let semibold = FontData::from_static(FONT_SEMIBOLD);
    fonts.font_data.insert("regular".to_owned(), Arc::new(regular));
    fonts.font_data.insert(SEMIBOLD.to_owned(), Arc::new(semibold));
    for family in [FontFamily::Proportional, FontFamily::Monospace] {
        fonts.families.insert(family, vec!["regular".to_owned()]);
    }
    fonts.families.insert(FontFamily::Name(SEMIBOLD.into()), vec![SEMIBOLD.to_owned()]);
    fonts
}

fn style(theme: Theme) -> Style {
    let mut style = Style { visuals: visuals(theme), ..Style::default() };
    style.text_styles = [
        (TextStyle::Small, font(Weight::Regular, 12.0)),
        (TextStyle::Body, font(Weight::Regular, 14.0)),
        (TextStyle::Button, font(Weight::Regular, 14.0)),
        (TextStyle::Heading, font(Weight::SemiBold, 16.0)),
        (TextStyle::Monospace, font(Weight::Regular, 14.0)),
    ]
    .into();
    style.animation_time = 0.0;
    let spacing = &mut style.spacing;
    spacing.item_spacing = vec2(8.0, 6.0);
    spacing.button_padding = vec2(10.0, 4.0);
    spacing.interact_size = vec2(TARGET, TARGET);
    spacing.menu_margin = Margin::same(8);
    spacing.window_margin = Margin::same(18);
    spacing.combo_width = 80.0;
    // beside what is scrolled, never over it
    spacing.scroll = ScrollStyle::thin();
    style
}

fn visuals(theme: Theme) -> Visuals {
    let of = |ink| colour(theme, ink);
    let base = match theme {
        Theme::Light | Theme::Paper => Visuals::light(),
        Theme::Dark => Visuals::dark(),
    };
    let corner = CornerRadius::same(6);
    let widget = |fill: Ink, edge: Ink, width: f32| WidgetVisuals {
        bg_fill: of(fill),
        weak_bg_fill: of(fill),
        bg_stroke: Stroke::new(width, of(edge)),
        corner_radius: corner,
        fg_stroke: Stroke::new(1.0, of(Ink::Text)),
        expansion: 0.0,
    };
    Visuals {
        widgets: Widgets {
            noninteractive: widget(Ink::Ground, Ink::Rule, 1.0),
            inactive: widget(Ink::Chip, Ink::Rule, 1.0),
            hovered: widget(Ink::ChipHover, Ink::ChipEdge, 1.0),
            active: widget(Ink::ChipHover, Ink::Accent, 2.0),
            open: widget(Ink::ChipHover, Ink::ChipEdge, 1.0),
        },
        selection: Selection {
            bg_fill: of(Ink::Accent).gamma_multiply(0.28),
            stroke: Stroke::new(2.0, of(Ink::Accent)),
        },
        override_text_color: None,
        weak_text_color: Some(of(Ink::Quiet)),
        hyperlink_color: of(Ink::Accent),
        faint_bg_color: of(Ink::Chip),
        extreme_bg_color: of(Ink::Ground),
        text_edit_bg_color: Some(of(Ink::Ground)),
        code_bg_color: of(Ink::Chip),
        warn_fg_color: of(Ink::Text),
        error_fg_color: of(Ink::Refuse),
        // a caret that blinks is two frames a second while nothing happens
        text_cursor: TextCursorStyle { blink: false, ..base.text_cursor.clone() },
        window_fill: of(Ink::Ground),
        window_stroke: Stroke::new(1.0, of(Ink::Rule)),
        window_corner_radius: CornerRadius::same(10),
        menu_corner_radius: CornerRadius::same(8),
        panel_fill: of(Ink::Page),
        window_shadow: Shadow {
            offset: [0, 6],
            blur: 24,
            spread: 0,
            color: Color32::from_black_alpha(60),
        },
        popup_shadow: Shadow {
            offset: [0, 4],
            blur: 14,
            spread: 0,
            color: Color32::from_black_alpha(50),
        },
        ..base
    }
}
