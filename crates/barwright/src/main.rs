//! The program: hands arguments, screen, standard output and standard error to the library.

use barwright::{Screen, window};
use std::io;
use std::process::ExitCode;
use terminal_size::{Width, terminal_size_of};

fn main() -> ExitCode {
    let screen = Screen {
        // none where the output is a file or another program
        columns: terminal_size_of(io::stdout()).map(|(Width(columns), _)| usize::from(columns)),
        window: has_display().then_some(window::open),
    };
    // not locked: whatever runs beside the window may have to say something, too
    barwright::run(std::env::args_os(), screen, &mut io::stdout(), &mut io::stderr()).into()
}

/// Whether this session has a display; elsewhere than on the systems that say so by their
/// environment, trying is the only way to know.
fn has_display() -> bool {
    if !cfg!(all(unix, not(target_os = "macos"))) {
        return true;
    }
    let set = |name| std::env::var_os(name).is_some_and(|value| !value.is_empty());
    set("DISPLAY") || set("WAYLAND_DISPLAY")
}
