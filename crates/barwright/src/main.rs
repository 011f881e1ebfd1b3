//! The program: hands arguments, the width of the screen, standard output and standard error to the
//! library.

use std::io;
use std::process::ExitCode;
use terminal_size::{Width, terminal_size_of};

fn main() -> ExitCode {
    // none where the output is a file or another program
    let columns = terminal_size_of(io::stdout()).map(|(Width(columns), _)| usize::from(columns));
    let (mut out, mut err) = (io::stdout().lock(), io::stderr().lock());
    barwright::run(std::env::args_os(), columns, &mut out, &mut err).into()
}
