//! Version 1 of the session file: released, and never changed again. What the document gains later goes
//! into a version of its own, and this one is migrated to it.
//!
//! RON with the file's own types, apart from the document's, so that the document may change
//! without the file. Lengths in mm, angles in degrees, weights in kg, money in hundredths, days as
//! ISO 8601; keys end in their unit; enums are plain words. Every field is written, unknown ones
//! are refused. Numbers keep their decimal text: what is written reads back to the last bit.
//! Ranges and references are not looked at here.

mod cockpit;
#[cfg(test)]
mod drawn;
mod kept;
mod parts;
mod tape;
mod visit;
mod way;

pub(crate) use cockpit::Bike;
pub(crate) use kept::{Kept, Shared, required};
use visit::Day;
pub(crate) use visit::{Client, Visit};
pub(crate) use way::file_way;

use crate::text::{Field, KIND, Shape};
use ron::error::SpannedError;
use serde::{Deserialize, Serialize};

/// Number of this version, and of the least that must be known to read it.
pub(crate) const VERSION: u64 = 1;

const WRITTEN_BY: &str = concat!("barwright ", env!("CARGO_PKG_VERSION"));

/// A session as this version has it.
#[derive(Debug, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct Session {
    pub(crate) kind: String,
    pub(crate) version: u64,
    pub(crate) least_reader: u64,
    pub(crate) written_by: String,
    pub(crate) id: String,
    #[serde(deserialize_with = "required")]
    pub(crate) keep_until: Option<Day>,
    #[serde(deserialize_with = "required")]
    pub(crate) client: Client,
    #[serde(deserialize_with = "required")]
    pub(crate) bikes: Vec<Bike>,
    #[serde(deserialize_with = "required")]
    pub(crate) visits: Vec<Shared<Visit>>,
}

/// The document as RON on one line.
pub(crate) fn to_ron(document: &fit_doc::Session) -> Result<String, ron::Error> {
    let fit_doc::Session { id, client, bikes, visits, keep_until } = document;
    ron::to_string(&Session {
        kind: KIND.to_owned(),
        version: VERSION,
        least_reader: VERSION,
        written_by: WRITTEN_BY.to_owned(),
        id: id.clone(),
        client: Kept::from_doc(client),
        bikes: Kept::from_doc(bikes),
        visits: Kept::from_doc(visits),
        keep_until: Kept::from_doc(keep_until),
    })
}

/// What a text of this version holds.
pub(crate) fn from_ron(text: &str) -> Result<Session, SpannedError> {
    ron::from_str(text)
}

impl Session {
    /// The document that it stands for.
    pub(crate) fn into_doc(self) -> fit_doc::Session {
        let Self { id, client, bikes, visits, keep_until, .. } = self;
        fit_doc::Session {
            id,
            client: client.into_doc(),
            bikes: bikes.into_doc(),
            visits: visits.into_doc(),
            keep_until: keep_until.into_doc(),
        }
    }
}

/// What a text of this version looks like.
pub(crate) fn shape() -> Shape {
    let number = || Shape::Whole(0, i64::MAX);
    Shape::Object(vec![
        Field::new("kind", Shape::Exactly(KIND)),
        Field::new("version", number()),
        Field::new("least_reader", number()),
        Field::new("written_by", Shape::Text),
        Field::new("id", Shape::Text),
        Field::new("keep_until", Option::<Day>::shape()),
        Field::new("client", Client::shape()),
        Field::new("bikes", Vec::<Bike>::shape()),
        Field::new("visits", Vec::<Shared<Visit>>::shape()),
    ])
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::text::{Seal, cleaned, first_slip, header, laid_out, seal, sealed};
    use proptest::prelude::*;

    /// What the version was on the day of its release. Where this fails a released version was changed:
    /// that change belongs into a new one, with a migration to it.
    #[test]
    fn its_shape_is_the_one_that_was_released() {
        let released = include_str!("released.txt");
        let now = keys(&shape()).join("\n") + "\n";
        assert_eq!(now, released);
    }

    /// Every key of the file with what stands at it, a line each.
    fn keys(shape: &Shape) -> Vec<String> {
        let below = |fields: &[Field]| -> Vec<String> {
            let key = |field: &Field| {
                let may = if field.may_lack { "?" } else { "" };
                let (key, rest) = (format!("{}{may}", field.key), keys(&field.shape));
                rest.into_iter().map(move |line| format!("{key}{line}"))
            };
            fields.iter().flat_map(key).map(|line| format!(".{line}")).collect()
        };
        let inside = |of: &Shape, mark: &str| -> Vec<String> {
            keys(of).into_iter().map(|line| format!("{mark}{line}")).collect()
        };
        match shape {
            Shape::Number => vec![": number".to_owned()],
            Shape::Whole(least, most) => vec![format!(": whole {least} to {most}")],
            Shape::Flag => vec![": true or false".to_owned()],
            Shape::Text => vec![": text".to_owned()],
            Shape::Exactly(text) => vec![format!(": {text:?}")],
            Shape::Day(_) => vec![": day".to_owned()],
            Shape::Words(words) => vec![format!(": {}", words.join(" "))],
            Shape::Maybe(of) => inside(of, "~"),
            Shape::List(of) => inside(of, "[]"),
            Shape::Row(count, of) => inside(of, &format!("({count})")),
            Shape::Object(fields) => below(fields),
            Shape::Choice(all) => all
                .iter()
                .flat_map(|(word, fields)| {
                    let of = if fields.is_empty() { vec![String::new()] } else { below(fields) };
                    of.into_iter().map(move |line| format!("|{word}{line}"))
                })
                .collect(),
        }
    }

    proptest! {
        #![proptest_config(ProptestConfig { failure_persistence: None, ..Default::default() })]

        #[test]
        fn any_document_comes_back_to_the_last_bit(document in drawn::session()) {
            let flat = to_ron(&document).unwrap();
            let file = sealed(&laid_out(&flat));
            let text = cleaned(file.as_bytes()).unwrap();
            prop_assert!(header(&text).is_ok());
            prop_assert_eq!(seal(&text), Seal::Whole);
            prop_assert_eq!(first_slip(&text, &shape()), None, "what is written has its shape");
            let back = from_ron(&text).unwrap().into_doc();
            prop_assert_eq!(&back, &document);
            // equality takes −0 for 0, the text does not
            prop_assert_eq!(to_ron(&back).unwrap(), flat);
        }

        #[test]
        fn a_changed_word_of_the_file_is_never_the_same_document_unnoticed(
            document in drawn::session(),
            at in any::<prop::sample::Index>(),
        ) {
            // dropping any one line of a laid-out file is an error or another document
            let page = laid_out(&to_ron(&document).unwrap());
            let lines: Vec<&str> = page.lines().collect();
            let dropped = at.index(lines.len());
            let rest: Vec<&str> =
                lines.iter().enumerate().filter(|(i, _)| *i != dropped).map(|(_, l)| *l).collect();
            if let Ok(back) = from_ron(&rest.join("\n")) {
                let back = back.into_doc();
                let written_by = lines[dropped].trim_start().starts_with("written_by");
                prop_assert!(back != document && !written_by, "{}", lines[dropped]);
            }
        }
    }
}
