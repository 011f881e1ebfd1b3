//! `erase`: takes a client away for good, and says what went.
//!
//! Besides what is kept with the file: its line in the list of files that were open lately and its entry
//! in the indexes of folders.

use crate::exit::Exit;
use crate::home::Home;
use crate::say;
use crate::window::Recent;
use fit_file::{Disk, FileError, Piece, Remains};
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
    let account = if yes { erased(file, home, words) } else { to_erase(file, home, words) };
    let account = match account {
        Ok(account) => account,
        Err(error) => return say::file_error(&error, words, err).map(|()| Exit::CouldNot),
    };
    let lines = |lines: &[String], to: &mut dyn Write| {
        lines.iter().try_for_each(|line| writeln!(to, "{line}"))
    };
    if !yes {
        writeln!(err, "{}", words.would_erase())?;
        account.gone.iter().try_for_each(|line| writeln!(out, "  {line}"))?;
        lines(&account.left, err)?;
        return Ok(Exit::CouldNot);
    }
    writeln!(out, "{}", now(words))?;
    account.gone.iter().try_for_each(|line| writeln!(out, "  {line}"))?;
    lines(&account.still, err)?;
    lines(&account.doubts, err)?;
    lines(&account.left, out)?;
    Ok(if account.still.is_empty() { Exit::Done } else { Exit::CouldNot })
}

/// What erasing came to, or would, in words.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub(crate) struct Account {
    /// What went, or would, a line each.
    pub(crate) gone: Vec<String>,
    /// What could not be taken away.
    pub(crate) still: Vec<String>,
    /// What nobody can be sure of.
    pub(crate) doubts: Vec<String>,
    /// What stays, and what is out of reach.
    pub(crate) left: Vec<String>,
}

/// Over what went, with the time as it is.
pub(crate) fn now(words: &dyn Words) -> String {
    words.erased_on(&ZonedDateTime::now().strftime("%F %H:%M").to_string())
}

/// What would go if a session file were erased; changes nothing.
///
/// # Errors
/// As [`fit_file::to_erase`].
pub(crate) fn to_erase(file: &Path, home: &Home, words: &dyn Words) -> Result<Account, FileError> {
    let state = home.state.as_deref();
    let would = fit_file::to_erase(&Disk, file, state)?;
    let gone = would.files.iter().map(|of| words.erased(gone(of.piece), &shown(&of.path)));
    let lately = lately(&Recent::read(state), file);
    let lately = lately.iter().map(|path| words.erased(Gone::Recent, &shown(path)));
    let (gone, left) = (gone.chain(lately).collect(), left(&would.remains, words));
    Ok(Account { gone, left, ..Account::default() })
}

/// Erases a session file with everything that is kept of it.
///
/// # Errors
/// As [`fit_file::erase`]; nothing has changed then.
pub(crate) fn erased(file: &Path, home: &Home, words: &dyn Words) -> Result<Account, FileError> {
    let state = home.state.as_deref();
    let mut recent = Recent::read(state);
    // where it leads is known only as long as it is there
    let (real, lately) = (real(file), lately(&recent, file));
    let erasure = fit_file::erase(&Disk, file, state)?;
    let mut account = Account { left: left(&erasure.remains, words), ..Account::default() };
    for of in &erasure.files {
        let (what, path) = (gone(of.piece), shown(&of.path));
        match &of.refused {
            None => account.gone.push(words.erased(what, &path)),
            Some(why) => account.still.push(words.not_erased(what, &path, why)),
        }
    }
    if !lately.is_empty() {
        recent.take_out(&lately);
        let lines = lately.iter().map(|path| words.erased(Gone::Recent, &shown(path)));
        account.gone.extend(lines);
    }
    if let (Some(cache), Some(real)) = (&home.cache, &real) {
        match fit_folder::forget(cache, real) {
            Ok(0) => {}
            Ok(_) => account.gone.push(words.erased(Gone::Index, &shown(file))),
            Err((index, error)) => {
                let why = error.to_string();
                account.still.push(words.not_erased(Gone::Index, &shown(&index), &why));
            }
        }
    }
    account.doubts.extend(erasure.not_held.iter().map(|why| words.erase_not_held(why)));
    account.doubts.extend(erasure.unconfirmed.iter().map(|why| words.erase_unconfirmed(why)));
    Ok(account)
}

/// Names under which it stands in the list of files that were open lately.
fn lately(recent: &Recent, file: &Path) -> Vec<PathBuf> {
    let real = real(file);
    let is_it = |path: &&PathBuf| *path == file || real.is_some() && self::real(path) == real;
    recent.paths().iter().filter(is_it).cloned().collect()
}

/// What stays of it, and what is out of reach.
fn left(remains: &[Remains], words: &dyn Words) -> Vec<String> {
    let remains = remains.iter().map(|of| {
        let (what, path) = match of {
            Remains::OtherName(path) => (words::Remains::OtherName, path),
            Remains::Another(path) => (words::Remains::Another, path),
            Remains::Unknown(path) => (words::Remains::Unknown, path),
        };
        words.erase_leaves(what, &shown(path))
    });
    remains.chain([words.erase_does_not_reach().to_owned()]).collect()
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
