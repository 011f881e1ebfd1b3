//! The program: hands arguments, screen, standard output and standard error to the library.

use barwright::{Home, Screen, window};
use std::io;
use std::process::ExitCode;
use terminal_size::{Width, terminal_size_of};
use zeroize::Zeroizing;

fn main() -> ExitCode {
    let window = has_display().then_some(window::open as fn(_) -> _);
    let screen = Screen { columns: columns(), window, ask: Some(ask) };
    // not locked: whatever runs beside the window may have to say something, too
    let (args, home) = (std::env::args_os(), Home::of_user());
    barwright::run_at(args, screen, &home, &mut io::stdout(), &mut io::stderr()).into()
}

/// Asks on the terminal, also where input or output is led elsewhere.
fn ask(question: &str) -> io::Result<Zeroizing<String>> {
    rpassword::prompt_password(question).map(Zeroizing::new)
}

/// How wide a line may be: the terminal's width; where the output is a file or another program what
/// `COLUMNS` asks for (POSIX.1-2017, 8.3), if it is a number; none where nobody says.
fn columns() -> Option<usize> {
    let terminal = terminal_size_of(io::stdout()).map(|(Width(columns), _)| usize::from(columns));
    let asked = || std::env::var("COLUMNS").ok()?.trim().parse().ok();
    terminal.or_else(asked).filter(|&columns| columns > 0)
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
