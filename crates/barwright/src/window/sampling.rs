//! How sure the bench is where a limit acts is drawn beside everything else: when that begins, and what
//! is shown meanwhile.

use super::theme::quiet;
use super::widgets::secondary;
use core::time::Duration;
use eframe::egui;
use egui::{Context, Ui};
use fit_desk::{Command, Desk};
use fit_view::words::Words;

/// What takes less is not told: it would only flicker, s (judgement).
const TOLD_AFTER_S: f64 = 0.3;
/// So much later it is looked whether it must be told, s: a frame that comes a little early must not
/// ask again at once.
const LATER_S: f64 = 0.05;

/// Since when it is being drawn.
#[derive(Debug, Default)]
pub(super) struct Sampling {
    began_s: Option<f64>,
}

impl Sampling {
    /// Asks for it once nothing is being pulled; wakes the window when it is time to say that it is at
    /// work.
    pub(super) fn follow(&mut self, ctx: &Context, desk: &Desk) -> Option<Command> {
        if desk.is_sampling() {
            let now = ctx.input(|input| input.time);
            let rest = TOLD_AFTER_S - (now - *self.began_s.get_or_insert(now));
            if rest > 0.0 {
                ctx.request_repaint_after(Duration::from_secs_f64(rest + LATER_S));
            }
            return None;
        }
        self.began_s = None;
        let is_pulled = ctx.input(|input| input.pointer.any_down());
        (desk.wants_sample() && !is_pulled).then_some(Command::Sample)
    }

    /// Says that it is at work, or was stopped.
    pub(super) fn show(
        &self,
        ui: &mut Ui,
        desk: &Desk,
        words: &dyn Words,
        commands: &mut Vec<Command>,
    ) {
        let (text, act, command) = if desk.is_sampling() {
            let now = ui.input(|input| input.time);
            let is_told = |began| now - began >= TOLD_AFTER_S;
            if !self.began_s.is_some_and(is_told) {
                return;
            }
            (words.being_reckoned(), words.stop_reckoning(), Command::StopSample)
        } else if desk.is_sample_stopped() {
            (words.not_reckoned(), words.reckon(), Command::Sample)
        } else {
            return;
        };
        let text = quiet(ui, text);
        ui.label(text);
        if secondary(ui, act).clicked() {
            commands.push(command);
        }
    }
}
