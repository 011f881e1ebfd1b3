//! `erase`: takes a client away for good, and says what went.
//!
//! Besides what is kept with the file: its line in the list of files that were open lately and its entry
//! in the indexes of folders.

use crate::exit::Exit;
use crate::home::Home;
use crate::say;
use crate::window::Recent;
use fit_file::{Disk, Erasure, FileError, Piece, Remains};
use fit_view::file_name::slug;
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
    /// Those of it that were not saved.
    pub(crate) unsaved: Vec<String>,
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
    let known = known(file, home, would.id.as_deref());
    let lately = Names::of(file, known.clone(), &would).in_list(&Recent::read(state));
    let gone = would.files.iter().map(|of| words.erased(gone(of.piece), &shown(&of.path)));
    let lately = lately.iter().map(|path| words.erased(Gone::Recent, &shown(path)));
    let known = known.iter().map(|path| words.erased(Gone::Index, &shown(path)));
    let unsaved = would.files.iter().filter(|of| of.piece == Piece::Unsaved);
    let unsaved = unsaved.map(|of| words.erased(Gone::Unsaved, &shown(&of.path))).collect();
    let (gone, left) = (gone.chain(lately).chain(known).collect(), left(&would.remains, words));
    Ok(Account { gone, unsaved, left, ..Account::default() })
}

/// Erases a session file with everything that is kept of it.
///
/// # Errors
/// As [`fit_file::erase`]; nothing has changed then.
pub(crate) fn erased(file: &Path, home: &Home, words: &dyn Words) -> Result<Account, FileError> {
    let state = home.state.as_deref();
    // where it leads, and who it is of, is known only as long as it is there
    let would = fit_file::to_erase(&Disk, file, state)?;
    let (real, known) = (real(file), known(file, home, would.id.as_deref()));
    let names = Names::of(file, known, &would);
    let erasure = fit_file::erase(&Disk, file, state)?;
    let mut account = Account { left: left(&erasure.remains, words), ..Account::default() };
    for of in &erasure.files {
        let (what, path) = (gone(of.piece), shown(&of.path));
        match &of.refused {
            None => account.gone.push(words.erased(what, &path)),
            Some(why) => account.still.push(words.not_erased(what, &path, why)),
        }
    }
    let mut recent = Recent::read(state);
    let lately = names.in_list(&recent);
    let not_taken_out = if lately.is_empty() { Ok(()) } else { recent.take_out(&lately) };
    if let Some((at, why)) = recent.unread() {
        let why = why.to_string();
        account.still.push(words.not_erased(Gone::Recent, &shown(at), &why));
    } else if let (Err(error), Some(at)) = (not_taken_out, recent.at()) {
        let why = say::printable(&words.message(error.message()));
        account.still.push(words.not_erased(Gone::Recent, &shown(at), &why));
    } else {
        let lines = lately.iter().map(|path| words.erased(Gone::Recent, &shown(path)));
        account.gone.extend(lines);
    }
    if let (Some(cache), Some(real)) = (&home.cache, &real) {
        match fit_folder::forget(cache, real, erasure.id.as_deref()) {
            Ok(paths) => {
                let lines = paths.iter().map(|path| words.erased(Gone::Index, &shown(path)));
                account.gone.extend(lines);
            }
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

/// Under which paths the indexes know it.
fn known(file: &Path, home: &Home, id: Option<&str>) -> Vec<PathBuf> {
    let places = home.cache.as_deref().zip(real(file));
    places.map(|(cache, real)| fit_folder::known(cache, &real, id)).unwrap_or_default()
}

/// Under which names a client may stand in the list of files that were open lately.
struct Names {
    file: PathBuf,
    real: Option<PathBuf>,
    /// Names that count where no file is there any more: former ones, and the one that is proposed for him.
    former: Vec<PathBuf>,
}

impl Names {
    fn of(file: &Path, known: Vec<PathBuf>, erasure: &Erasure) -> Self {
        let real = real(file);
        let mut former = known;
        former.extend(erasure.former.iter().cloned());
        let folder = real.as_deref().and_then(Path::parent);
        if let (Some(folder), Ok(opened)) = (folder, fit_file::open(file)) {
            let name = slug(&opened.session.client.name);
            former.push(folder.join(format!("{name}{}", fit_file::ENDING)));
        }
        Self { file: file.to_owned(), real, former }
    }

    /// Those that stand in a list.
    fn in_list(&self, recent: &Recent) -> Vec<PathBuf> {
        let is_lost = |path: &Path| {
            // as programs of before wrote a path that is no text, or has more than one line
            let as_told = self.file.to_string_lossy();
            let told = path.to_string_lossy();
            let is_line = as_told.contains('\n') && as_told.lines().any(|line| line == told);
            told == as_told || is_line
        };
        let is_former = |path: &PathBuf| {
            let is_gone = fs::symlink_metadata(path)
                .is_err_and(|error| error.kind() == io::ErrorKind::NotFound);
            is_gone && real(path).is_some_and(|path| self.former.contains(&path))
        };
        let is_it = |path: &&PathBuf| {
            **path == self.file
                || is_lost(path)
                || self.real.is_some() && real(path) == self.real
                || is_former(path)
        };
        recent.paths().iter().filter(is_it).cloned().collect()
    }
}

/// What stays of it, and what is out of reach.
fn left(remains: &[Remains], words: &dyn Words) -> Vec<String> {
    let remains = remains.iter().map(|of| {
        let (what, path) = match of {
            Remains::OtherName(path) => (words::Remains::OtherName, path),
            Remains::Another(path) => (words::Remains::Another, path),
            Remains::Unknown(path) => (words::Remains::Unknown, path),
            Remains::Copied(path) => (words::Remains::Copied, path),
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
