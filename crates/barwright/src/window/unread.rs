//! Numbers that stand for what nobody has read yet: faded, and said to be so.

use super::theme::{ink, quiet};
use super::widgets::named;
use eframe::egui;
use egui::{Label, Role, Ui};
use fit_desk::Desk;
use fit_doc::Quantity;
use fit_doc::tape::not_read;
use fit_view::scene::Ink;
use fit_view::words::{Caption, Words};

/// Which numbers of the bike that is looked at nobody has read.
pub(super) struct Unread(Vec<Quantity>);

impl Unread {
    /// Of the bike as it came to the visit that is looked at.
    pub(super) fn of(desk: &Desk) -> Self {
        Self(desk.visit().map_or_else(Vec::new, |visit| not_read(desk.session(), visit)))
    }

    /// Whether something was not read.
    pub(super) fn any(&self) -> bool {
        !self.0.is_empty()
    }

    /// Whether that was not read.
    pub(super) fn has(&self, quantity: Quantity) -> bool {
        self.0.contains(&quantity)
    }

    /// Says beside a heading that numbers under it are faded, and to who hears it which.
    pub(super) fn say(&self, ui: &mut Ui, under: &[Quantity], words: &dyn Words) {
        let unread: Vec<Quantity> =
            under.iter().copied().filter(|of| self.0.contains(of)).collect();
        if unread.is_empty() {
            return;
        }
        let text = quiet(ui, words.caption(Caption::FadedNotRead));
        let response = ui.add(Label::new(text).truncate());
        named(&response, Role::Label, None, &words.not_read(&unread));
    }

    /// Shows a number, faded where it was not read.
    pub(super) fn faded<R>(
        &self,
        ui: &mut Ui,
        quantity: Quantity,
        show: impl FnOnce(&mut Ui) -> R,
    ) -> R {
        if !self.has(quantity) {
            return show(ui);
        }
        ui.scope(|ui| {
            ui.visuals_mut().override_text_color = Some(ink(ui, Ink::Quiet));
            show(ui)
        })
        .inner
    }
}
