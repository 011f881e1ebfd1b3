//! `erase`: takes a client away for good, and says what went.
//!
//! Besides what is kept with the file: its line in the list of files that were open lately and its entry
//! in the indexes of folders.

use crate::exit::Exit;
use crate::home::Home;
use crate::say;
use crate::window::Recent;
use fit_file::{Disk, Piece, Remains};
use fit_view::words::{self, Gone, Words};
use jiff::ZonedDateTime;
use std::fs;
use std::io::{self, Write};
use std::path::{Path, PathBuf};

pub(crate) fn erase(
    file: &Path,
    yes: bool,
    home: &Home,
    words: &dyn Words,
    out: &mut dyn Write,
    err: &mut dyn Write,
) -> io::Result<Exit> {
    let state = home.state.as_deref();
    // where it leads is known only as long as it is there
    let real = real(file);
    let is_it = |path: &Path| path == file || real.is_some() && self::real(path) == real;
    let mut recent = Recent::read(state);
    let lately: Vec<PathBuf> = recent.paths().iter().filter(|path| is_it(path)).cloned().collect();
    if !yes {
        let would = match fit_file::to_erase(&Disk, file, state) {
            Ok(would) => would,
            Err(error) => return say::file_error(&error, words, err).map(|()| Exit::CouldNot),
        };
        writeln!(err, "{}", words.would_erase())?;
        for of in &would.files {
            line(&words.erased(gone(of.piece), &shown(&of.path)), out)?;
        }
        for path in lately {
            line(&words.erased(Gone::Recent, &shown(&path)), out)?;
        }
        leaves(&would.remains, words, err)?;
        writeln!(err, "{}", words.erase_does_not_reach())?;
        return Ok(Exit::CouldNot);
    }
    let erasure = match fit_file::erase(&Disk, file, state) {
        Ok(erasure) => erasure,
        Err(error) => return say::file_error(&error, words, err).map(|()| Exit::CouldNot),
    };
    writeln!(out, "{}", words.erased_on(&ZonedDateTime::now().strftime("%F %H:%M").to_string()))?;
    let mut whole = erasure.is_whole();
    for of in &erasure.files {
        match &of.refused {
            None => line(&words.erased(gone(of.piece), &shown(&of.path)), out)?,
            Some(why) => {
                writeln!(err, "{}", words.not_erased(gone(of.piece), &shown(&of.path), why))?;
            }
        }
    }
    if !lately.is_empty() {
        recent.take_out(&lately);
        for path in lately {
            line(&words.erased(Gone::Recent, &shown(&path)), out)?;
        }
    }
    if let (Some(cache), Some(real)) = (&home.cache, &real) {
        match fit_folder::forget(cache, real) {
            Ok(0) => {}
            Ok(_) => line(&words.erased(Gone::Index, &shown(file)), out)?,
            Err((index, error)) => {
                whole = false;
                let why = error.to_string();
                writeln!(err, "{}", words.not_erased(Gone::Index, &shown(&index), &why))?;
            }
        }
    }
    if let Some(why) = &erasure.not_held {
        writeln!(err, "{}", words.erase_not_held(why))?;
    }
    if let Some(why) = &erasure.unconfirmed {
        writeln!(err, "{}", words.erase_unconfirmed(why))?;
    }
    leaves(&erasure.remains, words, out)?;
    writeln!(out, "{}", words.erase_does_not_reach())?;
    Ok(if whole { Exit::Done } else { Exit::CouldNot })
}

/// What stays of it.
fn leaves(remains: &[Remains], words: &dyn Words, to: &mut dyn Write) -> io::Result<()> {
    for of in remains {
        let (what, path) = match of {
            Remains::OtherName(path) => (words::Remains::OtherName, path),
            Remains::Another(path) => (words::Remains::Another, path),
            Remains::Unknown(path) => (words::Remains::Unknown, path),
        };
        writeln!(to, "{}", words.erase_leaves(what, &shown(path)))?;
    }
    Ok(())
}

fn line(text: &str, to: &mut dyn Write) -> io::Result<()> {
    writeln!(to, "  {text}")
}

fn shown(path: &Path) -> String {
    say::printable(&path.display().to_string())
}

/// Where a file is, links followed, also where it is no longer there.
fn real(file: &Path) -> Option<PathBuf> {
    fs::canonicalize(file).ok().or_else(|| {
        let file = std::path::absolute(file).ok()?;
        Some(fs::canonicalize(file.parent()?).ok()?.join(file.file_name()?))
    })
}

const fn gone(piece: Piece) -> Gone {
    match piece {
        Piece::File => Gone::File,
        Piece::Link => Gone::Link,
        Piece::Earlier => Gone::Earlier,
        Piece::LeftBehind => Gone::LeftBehind,
        Piece::Unsaved => Gone::Unsaved,
        Piece::Lock => Gone::Lock,
    }
}
