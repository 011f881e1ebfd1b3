//! A real window on this desktop.

use super::Workbench;
use eframe::egui;
use egui::{Ui, ViewportBuilder, vec2};
use thiserror::Error;

/// No window could be opened: no display, or nothing that draws on it.
#[derive(Debug, Error)]
#[error("{0}")]
pub struct NoWindow(String);

/// Shows a workbench in a window of its own until it is closed.
///
/// # Errors
/// When there is no display or no way to draw on it.
pub fn open(workbench: Workbench) -> Result<(), NoWindow> {
    let options = eframe::NativeOptions {
        viewport: ViewportBuilder::default()
            .with_title("Barwright")
            .with_app_id("barwright")
            .with_inner_size(vec2(1280.0, 800.0))
            .with_min_inner_size(vec2(1024.0, 640.0))
            .with_drag_and_drop(true),
        renderer: eframe::Renderer::Glow,
        multisampling: 4,
        persist_window: false,
        ..eframe::NativeOptions::default()
    };
    eframe::run_native(
        "barwright",
        options,
        Box::new(|creation| {
            Workbench::install(&creation.egui_ctx);
            Ok(Box::new(App { workbench }))
        }),
    )
    .map_err(|error| NoWindow(error.to_string()))
}

struct App {
    workbench: Workbench,
}

impl eframe::App for App {
    fn ui(&mut self, ui: &mut Ui, _frame: &mut eframe::Frame) {
        self.workbench.ui(ui);
    }
}
