//! Reads the parts of a list so that every fault knows its line, column and entry.
//!
//! A list is cut into values whose places are kept ([`Raw`]), and each is read by itself: a reader
//! that reads all at once knows the place of a slip in the format, but not of a number that is a
//! number and wrong. Unknown fields are refused by the types read into; NaN and infinity, which RON
//! takes for numbers, are refused here.

use core::ops::Range;
use fit_doc::{Message, Place, Quantity, Spot, Verdict};
use ron::extensions::Extensions;
use ron::value::RawValue;
use serde::de::{Deserialize, DeserializeOwned, Deserializer};
use std::collections::BTreeSet;

use super::error::{Fault, StockError, StockList};

/// Longest list that is read, bytes: as long as a session.
const MOST_BYTES: usize = 4 << 20;
/// The version of the lists' form that this program reads.
const VERSION: u32 = 1;
/// Most characters of a found value that are shown.
const SHOWN: usize = 40;
/// What stands before the name of an entry: its stock number, or what its sizes share.
const NAMING_KEYS: [&str; 2] = ["id: \"", "name: \""];

/// A value that is not read yet, known by where it stands in memory.
#[derive(Debug, Clone, Copy)]
pub(super) struct Raw {
    address: usize,
    bytes: usize,
}

impl<'de> Deserialize<'de> for Raw {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        let text = <&'de RawValue>::deserialize(deserializer)?.get_ron();
        Ok(Self { address: text.as_ptr().addr(), bytes: text.len() })
    }
}

/// A stretch of a list: the whole, an entry or one of its sizes.
#[derive(Debug, Clone)]
pub(super) struct Section<'t> {
    list: StockList,
    whole: &'t str,
    range: Range<usize>,
    entry: Option<String>,
}

impl<'t> Section<'t> {
    /// A whole list, its byte-order mark left out.
    pub(super) fn whole(list: StockList, text: &'t str) -> Result<Self, StockError> {
        let whole = text.strip_prefix('\u{feff}').unwrap_or(text);
        let section = Self { list, whole, range: 0..whole.len(), entry: None };
        if whole.len() > MOST_BYTES {
            let found = format!("{} bytes", whole.len());
            return Err(section.fault(0, found, format!("at most {MOST_BYTES}")));
        }
        Ok(section)
    }

    /// Checks what a list says of itself.
    pub(super) fn check_head(&self, kind: &Raw, version: &Raw) -> Result<(), StockError> {
        if self.value::<String>(kind, "a name in quotes")? != self.list.kind() {
            let expected = format!("{:?}", self.list.kind());
            return Err(self.fault_at(kind, self.shown(kind), expected));
        }
        if self.value::<u32>(version, "a whole number")? != VERSION {
            let expected = format!("version {VERSION}: a later one needs a later program");
            return Err(self.fault_at(version, self.shown(version), expected));
        }
        Ok(())
    }

    /// The stretch of a value in this one; named by its own stock number or name once it is read.
    pub(super) fn inner(&self, raw: &Raw) -> Self {
        Self { range: self.range_of(raw), ..self.clone() }
    }

    /// This stretch, its entry known by this name.
    pub(super) fn named(self, entry: &str) -> Self {
        Self { entry: Some(entry.to_owned()), ..self }
    }

    /// Where this entry stands in the document's words.
    pub(super) fn place(&self) -> Place {
        Place::stock(self.entry.as_deref().unwrap_or_default())
    }

    /// Reads the stretch.
    pub(super) fn read<T: DeserializeOwned>(&self) -> Result<T, StockError> {
        let text = self.text_of(self.range.clone());
        options().from_str(text).map_err(|error| {
            let at = self.range.start + byte_at(text, error.span.start);
            let (found, expected) = self.said(error.code, at);
            // sizes are read by themselves, so within an entry its own name is meant
            let entry = if self.range.len() < self.whole.len() {
                first_named(text)
            } else {
                last_named(text.get(..byte_at(text, error.span.end)).unwrap_or(text))
            };
            self.fault(at, found, expected).or_in(entry)
        })
    }

    /// Reads one value of a plain type.
    pub(super) fn value<T: DeserializeOwned>(
        &self,
        raw: &Raw,
        expected: &str,
    ) -> Result<T, StockError> {
        let text = self.text_of(self.range_of(raw));
        let wrong = |_| self.fault_at(raw, self.shown(raw), expected.to_owned());
        options().from_str(text).map_err(wrong)
    }

    /// Reads a number that a quantity of the trade can have.
    pub(super) fn number(&self, raw: &Raw, quantity: Quantity) -> Result<f64, StockError> {
        let (least, most) = quantity.range().refuse;
        let found = self.value(raw, "a number")?;
        if quantity.range().verdict(found) != Verdict::Refuse {
            return Ok(found);
        }
        let refused = Message::Refused { place: self.place(), quantity, found, least, most };
        Err(self.fault_at(raw, self.shown(raw), between(least, most)).saying(refused))
    }

    /// Reads a number, the default where there is none.
    pub(super) fn number_or(
        &self,
        raw: Option<&Raw>,
        quantity: Quantity,
        default: f64,
    ) -> Result<f64, StockError> {
        raw.map_or(Ok(default), |raw| self.number(raw, quantity))
    }

    /// Reads a pair of numbers.
    pub(super) fn pair(
        &self,
        (first, second): &(Raw, Raw),
        quantity: Quantity,
    ) -> Result<(f64, f64), StockError> {
        Ok((self.number(first, quantity)?, self.number(second, quantity)?))
    }

    /// Reads a name that is not empty.
    pub(super) fn name(&self, raw: &Raw) -> Result<String, StockError> {
        let name: String = self.value(raw, "a name in quotes")?;
        if name.trim().is_empty() {
            return Err(self.fault_at(raw, "an empty name".into(), "a name".into()));
        }
        Ok(name)
    }

    /// Checks that a bend or family, known by this name, comes in some size.
    pub(super) fn check_sizes(&self, sizes: &[Raw], name: &Raw) -> Result<(), StockError> {
        if sizes.is_empty() {
            let found = "an entry without a size".into();
            return Err(self.fault_at(name, found, "at least one in sizes".into()));
        }
        Ok(())
    }

    /// Fails with what the document's check refused, at a value that names the entry.
    pub(super) fn pass(&self, refused: Vec<Message>, at: &Raw) -> Result<(), StockError> {
        let Some(message) = refused.into_iter().next() else { return Ok(()) };
        let (found, expected) = match &message {
            Message::Refused { quantity, found, least, most, .. } => {
                (format!("{quantity:?} {found}"), between(*least, *most))
            }
            Message::BarRefused { refusal, .. } => {
                (refusal.to_string(), "dimensions that can be bent".into())
            }
            other => (format!("{other:?}"), "a part that can be".into()),
        };
        Err(self.fault_at(at, found, expected).saying(message))
    }

    /// A fault at a value.
    pub(super) fn fault_at(&self, raw: &Raw, found: String, expected: String) -> StockError {
        self.fault(self.range_of(raw).start, found, expected)
    }

    fn fault(&self, at: usize, found: String, expected: String) -> StockError {
        let before = self.text_of(0..at);
        let line = 1 + before.matches('\n').count();
        let column = 1 + before.chars().rev().take_while(|&c| c != '\n').count();
        Fault {
            list: self.list,
            spot: Spot { line, column },
            entry: self.entry.clone(),
            found,
            expected,
            refusal: None,
        }
        .into()
    }

    fn range_of(&self, raw: &Raw) -> Range<usize> {
        let start = raw.address.saturating_sub(self.whole.as_ptr().addr());
        start..start + raw.bytes
    }

    fn text_of(&self, range: Range<usize>) -> &'t str {
        self.whole.get(range).unwrap_or_default()
    }

    fn shown(&self, raw: &Raw) -> String {
        self.text_of(self.range_of(raw)).chars().take(SHOWN).collect()
    }

    /// What the reader of the format says, as found and expected.
    fn said(&self, error: ron::Error, at: usize) -> (String, String) {
        use ron::Error as E;
        match error {
            E::NoSuchStructField { expected, found, .. } => {
                (format!("a field {found}"), format!("one of {}", expected.join(", ")))
            }
            E::NoSuchEnumVariant { expected, found, .. } => {
                (found, format!("one of {}", expected.join(", ")))
            }
            E::MissingStructField { field, .. } => {
                ("nothing of that name".into(), format!("a field {field}"))
            }
            E::DuplicateStructField { field, .. } => {
                (format!("{field} twice"), format!("{field} once"))
            }
            E::InvalidValueForType { expected, found } => (found, expected),
            other => {
                let rest = self.text_of(at..self.range.end).trim_start().chars();
                let word: String = rest.take_while(|c| !c.is_whitespace()).take(SHOWN).collect();
                let found = if word.is_empty() { "the end of the text".into() } else { word };
                (found, format!("a list in its form ({other})"))
            }
        }
    }
}

/// The stock numbers of a list, each of which may stand once.
#[derive(Debug, Default)]
pub(super) struct Ids(BTreeSet<String>);

impl Ids {
    /// Reads a stock number and keeps it.
    pub(super) fn claim(&mut self, section: &Section<'_>, raw: &Raw) -> Result<String, StockError> {
        let id = section.name(raw)?;
        if self.0.insert(id.clone()) {
            return Ok(id);
        }
        let section = section.clone().named(&id);
        let twice = Message::IdTwice { place: section.place(), id: id.clone() };
        let found = format!("{id:?} a second time");
        Err(section.fault_at(raw, found, "every id once".into()).saying(twice))
    }
}

fn options() -> ron::Options {
    ron::Options::default().with_default_extension(Extensions::IMPLICIT_SOME)
}

fn between(least: f64, most: f64) -> String {
    format!("a number from {least} to {most}")
}

/// The byte of a position that the reader of the format names by line and column.
fn byte_at(text: &str, position: ron::error::Position) -> usize {
    let line = text.split_inclusive('\n').take(position.line.saturating_sub(1));
    let start: usize = line.map(str::len).sum();
    let rest = text.get(start..).unwrap_or_default();
    let column = position.col.saturating_sub(1);
    start + rest.char_indices().nth(column).map_or(rest.len(), |(byte, _)| byte)
}

/// The stock number or name that stands first in the text of one entry.
fn first_named(entry: &str) -> Option<String> {
    NAMING_KEYS
        .iter()
        .filter_map(|key| Some(entry.find(key)? + key.len()))
        .min()
        .and_then(|start| quoted(entry, start))
}

/// The stock number, or else the name, of the last entry begun before the end of a text.
fn last_named(text: &str) -> Option<String> {
    let [id, name] = NAMING_KEYS.map(|key| Some(text.rfind(key)? + key.len()));
    let start = match (id, name) {
        // a name after a stock number, with nothing closed between them, is of the same entry
        (Some(id), Some(name)) if name < id || text.get(id..name)?.contains(')') => id.max(name),
        (id, name) => id.or(name)?,
    };
    quoted(text, start)
}

fn quoted(text: &str, start: usize) -> Option<String> {
    let (name, _) = text.get(start..)?.split_once('"')?;
    Some(name.to_owned())
}
