//! The program: hands arguments, standard output and standard error to the library.

use std::io;
use std::process::ExitCode;

fn main() -> ExitCode {
    let (mut out, mut err) = (io::stdout().lock(), io::stderr().lock());
    barwright::run(std::env::args_os(), &mut out, &mut err).into()
}
