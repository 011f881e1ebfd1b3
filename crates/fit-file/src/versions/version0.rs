//! Version 0 of the session file, from before the first release: read, never written.
//!
//! It says nothing of how long a session is kept; all else is as version 1 has it.

use super::version1::{self, Bike, Client, Kept, Shared, Visit, required};
use crate::text::{Field, KIND, Shape};
use ron::error::SpannedError;
use serde::Deserialize;

/// Number of that version.
pub(super) const VERSION: u64 = 0;

/// A session as that version had it.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct Session {
    kind: String,
    #[expect(dead_code, reason = "looked at before the file is parsed")]
    version: u64,
    #[expect(dead_code, reason = "looked at before the file is parsed")]
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

/// What a text of that version holds.
pub(crate) fn from_ron(text: &str) -> Result<Session, SpannedError> {
    ron::from_str(text)
}

impl Session {
    /// The same as version 1 has it: nobody was asked how long it is kept.
    pub(crate) fn migrated(self) -> version1::Session {
        let Self { kind, written_by, id, client, bikes, visits, .. } = self;
        let (version, least_reader) = (version1::VERSION, version1::VERSION);
        version1::Session {
            kind,
            version,
            least_reader,
            written_by,
            id,
            client,
            bikes,
            visits,
            keep_until: None,
        }
    }
}

/// What a text of that version looks like.
pub(crate) fn shape() -> Shape {
    Shape::Object(vec![
        Field::new("kind", Shape::Exactly(KIND)),
        Field::new("version", Shape::Whole(0, i64::MAX)),
        Field::new("least_reader", Shape::Whole(0, i64::MAX)),
        Field::new("written_by", Shape::Text),
        Field::new("id", Shape::Text),
        Field::new("client", Client::shape()),
        Field::new("bikes", Vec::<Bike>::shape()),
        Field::new("visits", Vec::<Shared<Visit>>::shape()),
    ])
}
