//! One row per visit of all sessions in a folder, for the statistics of a studio: CSV or Parquet.
//!
//! No name, no note, nothing that anybody typed as text: numbers, days and words of a closed list. Files
//! are read one at a time on each thread, and rows written as they come, in the order of the files'
//! names. The table is written beside what it replaces and takes its place once it is whole.

mod beside;
mod row;
mod tables;

pub use row::{Column, Kind, Value, columns, row};
pub use tables::{CsvTable, ParquetTable, Table};

use crate::look::is_shut;
use crate::walk::walk;
use beside::Beside;
use fit_doc::{Message, SaveOutcome};
use fit_file::{Disk, FileError, open};
use fit_view::weigh::{Survey, weigh_visit};
use fit_view::words::InTheWay;
use rayon::prelude::*;
use std::collections::BTreeMap;
use std::collections::btree_map::Entry;
use std::io::{self, BufWriter};
use std::path::{Path, PathBuf};
use thiserror::Error;

/// Files whose rows wait to be written at most: some for each thread.
const FILES_AT_ONCE: usize = 64;

/// How a table is written.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Form {
    /// Comma-separated values (RFC 4180), UTF-8, decimal points, nothing where nothing is known.
    Csv,
    /// Apache Parquet, compressed with Snappy.
    Parquet,
}

impl Form {
    /// By the ending of a name; none: it is neither.
    pub fn of(path: &Path) -> Option<Self> {
        let ending = path.extension()?.to_str()?.to_ascii_lowercase();
        match ending.as_str() {
            "csv" => Some(Self::Csv),
            "parquet" => Some(Self::Parquet),
            _ => None,
        }
    }
}

/// Why there is no table.
#[derive(Debug, Error)]
pub enum ExportError {
    /// The folder cannot be looked into.
    #[error("{0}")]
    Folder(io::Error),
    /// This is where the table is to be, and stays.
    #[error("{0:?} is in the way")]
    InTheWay(InTheWay),
    /// The table cannot be written.
    #[error("{0}")]
    NotWritten(io::Error),
    /// A fault of the program: what is known of bodies cannot be read.
    #[error("{0}")]
    Fault(String),
}

impl From<io::Error> for ExportError {
    fn from(error: io::Error) -> Self {
        Self::NotWritten(error)
    }
}

/// What was left out or is not whole.
#[derive(Debug)]
pub enum Told {
    /// A session that is under a passphrase.
    Shut(PathBuf),
    /// A file or folder that cannot be opened.
    Bad(PathBuf, FileError),
    /// A visit that cannot be weighed: its row has no angles.
    Unweighed(PathBuf, fit_doc::Date, Vec<Message>),
    /// Two files of one session, each with its visits: what is in both is counted twice.
    Twice(PathBuf, PathBuf),
}

/// How much was written.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Counts {
    /// Rows.
    pub rows: u64,
    /// Sessions.
    pub files: u64,
    /// Sessions under a passphrase, which were left out.
    pub shut: u64,
    /// Files and folders that could not be opened.
    pub bad: u64,
}

/// Rows of one file, and what is to be told of it.
struct OfFile {
    rows: Vec<Vec<Value>>,
    told: Vec<Told>,
    /// The identity of its session, where it has visits.
    id: Option<String>,
}

/// Writes the visits of a folder as a table, in the place of a file that is there where that is said; `tell` is
/// given what is left out.
///
/// Says besides what the disk did not confirm of the table, which is in its place then.
///
/// # Errors
/// There is no table, and what was there before still is.
pub fn export(
    folder: &Path,
    (to, replace): (&Path, bool),
    form: Form,
    tell: &mut dyn FnMut(&Told) -> io::Result<()>,
) -> Result<(Counts, SaveOutcome), ExportError> {
    let survey = Survey::shipped().map_err(|error| ExportError::Fault(error.to_string()))?;
    let walked = walk(folder).map_err(ExportError::Folder)?;
    let beside = Beside::of(to, replace)?;
    let mut counts = Counts::default();
    {
        let file = BufWriter::new(beside.file().map_err(ExportError::NotWritten)?);
        let mut table: Box<dyn Table> = match form {
            Form::Csv => Box::new(CsvTable::begin(file).map_err(ExportError::NotWritten)?),
            Form::Parquet => Box::new(ParquetTable::begin(file).map_err(ExportError::NotWritten)?),
        };
        for (path, error) in &walked.shut {
            let (given, detail) = (path.display().to_string(), error.to_string());
            counts.bad += 1;
            let error = Message::CannotRead { path: given, detail }.into();
            tell(&Told::Bad(path.clone(), error)).map_err(ExportError::NotWritten)?;
        }
        let mut first: BTreeMap<String, &PathBuf> = BTreeMap::new();
        let paths: Vec<&PathBuf> = walked.files.values().map(|seen| &seen.path).collect();
        for some in paths.chunks(FILES_AT_ONCE) {
            let read: Vec<OfFile> = some.par_iter().map(|path| rows(path, &survey)).collect();
            for (OfFile { rows, mut told, id }, path) in read.into_iter().zip(some) {
                if let Some(id) = id {
                    match first.entry(id) {
                        Entry::Occupied(of) => {
                            told.push(Told::Twice((*of.get()).clone(), (*path).clone()));
                        }
                        Entry::Vacant(free) => {
                            free.insert(path);
                        }
                    }
                }
                let bad = told.iter().any(|of| matches!(of, Told::Bad(..)));
                let shut = told.iter().any(|of| matches!(of, Told::Shut(..)));
                counts.bad += u64::from(bad);
                counts.shut += u64::from(shut);
                counts.files += u64::from(!(bad || shut));
                counts.rows += rows.len() as u64;
                told.iter().try_for_each(&mut *tell).map_err(ExportError::NotWritten)?;
                rows.iter().try_for_each(|row| table.row(row)).map_err(ExportError::NotWritten)?;
            }
        }
        table.finish().map_err(ExportError::NotWritten)?;
    }
    let unconfirmed = beside.in_place(&Disk)?;
    let outcome = unconfirmed.map_or(SaveOutcome::Saved, |error| {
        let (path, detail) = (to.display().to_string(), error.to_string());
        SaveOutcome::SavedUnconfirmed(Message::SavedUnconfirmed { path, detail })
    });
    Ok((counts, outcome))
}

/// The rows of one file.
fn rows(path: &Path, survey: &Survey) -> OfFile {
    let none = |told: Told| OfFile { rows: Vec::new(), told: vec![told], id: None };
    let session = match open(path) {
        Ok(opened) => opened.session,
        Err(error) if is_shut(&error) => return none(Told::Shut(path.to_owned())),
        Err(error) => return none(Told::Bad(path.to_owned(), error)),
    };
    let mut told = Vec::new();
    let mut rows = Vec::with_capacity(session.visits.len());
    for (at, visit) in session.visits.iter().enumerate() {
        let weighed = match weigh_visit(&session, visit, survey) {
            Ok(weighed) => Some(weighed),
            Err(why) => {
                told.push(Told::Unweighed(path.to_owned(), visit.date, why));
                None
            }
        };
        rows.push(row(&session, at, weighed.as_ref()));
    }
    let id = Some(session.id).filter(|_| !session.visits.is_empty());
    OfFile { rows, told, id }
}
