//! Puts sessions through every trial again and writes what was found into the README:
//! `cargo run -p acceptance --example figures`. Rows of the real program are those that its scripts left in
//! `tests/figures`; with the word `real` behind it only those are written.

#![expect(clippy::print_stdout, reason = "it says what is tried")]

use acceptance::figures::{Trial, readme, real_rows};
use std::error::Error;
use std::fs;

fn main() -> Result<(), Box<dyn Error>> {
    let only_real = std::env::args().nth(1).is_some_and(|word| word == "real");
    let (mut tried, mut known_wrong) = (String::new(), String::new());
    for trial in Trial::all() {
        let said = trial.as_said().filter(|_| only_real);
        let line = said.unwrap_or_else(|| trial.row().line());
        print!("{line}");
        let rows = if trial.is_to_find() { &mut known_wrong } else { &mut tried };
        rows.push_str(&line);
    }
    let rows = [tried, real_rows(), known_wrong].concat();
    fs::write(acceptance::root().join("README.md"), readme(&rows))?;
    Ok(())
}
