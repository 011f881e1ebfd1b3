//! A real window on this desktop.

use super::Workbench;
use super::log::Event;
use eframe::egui;
use egui::{Ui, ViewportBuilder, vec2};
use fit_view::words::WindowNeeds;
use thiserror::Error;

/// No window could be opened: no display, or nothing that draws on it.
#[derive(Debug, Error)]
#[error("{why}")]
pub struct NoWindow {
    /// What is missing.
    pub needs: WindowNeeds,
    /// What the system says of it, in its own words.
    pub why: String,
}

impl NoWindow {
    fn of(error: &eframe::Error) -> Self {
        use eframe::Error;
        let (needs, said) = match error {
            Error::Winit(error) => (WindowNeeds::Display, error.to_string()),
            Error::WinitEventLoop(error) => (WindowNeeds::Display, error.to_string()),
            Error::Glutin(error) => (WindowNeeds::Graphics, error.to_string()),
            Error::NoGlutinConfigs(_, error) => (WindowNeeds::Graphics, error.to_string()),
            Error::OpenGL(error) => (WindowNeeds::Graphics, error.to_string()),
            Error::AppCreation(error) => (WindowNeeds::Unknown, error.to_string()),
        };
        Self { needs, why: without_source(&said).to_owned() }
    }
}

/// What went wrong, without the line of the toolkit's source in which it noticed.
fn without_source(said: &str) -> &str {
    let rest = said.strip_prefix("os error at ").and_then(|rest| rest.split_once(": "));
    rest.map_or(said, |(_, why)| why).trim().trim_end_matches('.')
}

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
    let log = workbench.log().clone();
    log.say(Event::Began);
    workbench.write_on_panic();
    eframe::run_native(
        "barwright",
        options,
        Box::new(|creation| {
            Workbench::install(&creation.egui_ctx);
            Ok(Box::new(App { workbench }))
        }),
    )
    .map_err(|error| {
        log.say(Event::NoWindow);
        NoWindow::of(&error)
    })
}

struct App {
    workbench: Workbench,
}

impl eframe::App for App {
    fn ui(&mut self, ui: &mut Ui, _frame: &mut eframe::Frame) {
        self.workbench.ui(ui);
    }

    fn on_exit(&mut self, _gl: Option<&eframe::glow::Context>) {
        self.workbench.end();
        self.workbench.log().say(Event::Ended);
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn no_line_of_the_toolkits_source_is_told() {
        let told = [
            ("os error at crate-0.30/src/linux/mod.rs:788: no such display.", "no such display"),
            (
                r"os error at C:\crate\src\windows.rs:12: refused: by the system",
                "refused: by the system",
            ),
            ("no way to draw", "no way to draw"),
        ];
        for (said, want) in told {
            assert_eq!(without_source(said), want);
        }
    }
}
