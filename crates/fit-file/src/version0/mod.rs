//! Version 0 of the session file: not yet released, may still change.
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

pub(crate) use way::file_way;

use crate::text::{Field, KIND, Shape};
use cockpit::Bike;
use kept::{Kept, Shared, required};
use ron::error::SpannedError;
use serde::{Deserialize, Serialize};
use visit::{Client, Visit};

/// Number of this version, and of the least that must be known to read it.
pub(crate) const VERSION: u64 = 0;

const WRITTEN_BY: &str = concat!("barwright ", env!("CARGO_PKG_VERSION"));

#[derive(Debug, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Session {
    kind: String,
    version: u64,
    least_reader: u64,
    written_by: String,
    id: String,
    #[serde(deserialize_with = "required")]
    client: Client,
    #[serde(deserialize_with = "required")]
    bikes: Vec<Bike>,
    #[serde(deserialize_with = "required")]
    visits: Vec<Shared<Visit>>,
}

/// The document as RON on one line.
pub(crate) fn to_ron(document: &fit_doc::Session) -> Result<String, ron::Error> {
    let fit_doc::Session { id, client, bikes, visits } = document;
    ron::to_string(&Session {
        kind: KIND.to_owned(),
        version: VERSION,
        least_reader: VERSION,
        written_by: WRITTEN_BY.to_owned(),
        id: id.clone(),
        client: Kept::from_doc(client),
        bikes: Kept::from_doc(bikes),
        visits: Kept::from_doc(visits),
    })
}

/// The document that a text of this version holds.
pub(crate) fn from_ron(text: &str) -> Result<fit_doc::Session, SpannedError> {
    let Session { id, client, bikes, visits, .. } = ron::from_str(text)?;
    Ok(fit_doc::Session {
        id,
        client: client.into_doc(),
        bikes: bikes.into_doc(),
        visits: visits.into_doc(),
    })
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
            let back = from_ron(&text).unwrap();
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
                let written_by = lines[dropped].trim_start().starts_with("written_by");
                prop_assert!(back != document && !written_by, "{}", lines[dropped]);
            }
        }
    }
}
