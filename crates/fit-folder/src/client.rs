//! What is known of a client without opening the file again.

use crate::folded;
use fit_doc::{Concern, Date, Session};
use fit_file::Person;
use fit_view::words::{FoundClient, Words};
use serde::{Deserialize, Serialize};
use std::collections::{BTreeMap, BTreeSet};

/// What brings clients, worded.
pub(crate) type Worded = BTreeMap<Concern, &'static str>;

pub(crate) fn worded(words: &dyn Words) -> Worded {
    Concern::ALL.into_iter().map(|of| (of, words.concern(of))).collect()
}

/// A client as the list of a folder shows him.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Client {
    /// Identity of the session, a UUID in its usual text form.
    pub id: String,
    /// Name as the client wishes to be called.
    pub name: String,
    /// Days of the visits, oldest first, ISO 8601.
    pub visits: Vec<String>,
    /// What the client calls the bikes.
    pub bikes: Vec<String>,
    /// What brought the client to any visit, worded, each once.
    pub complaints: Vec<String>,
    /// Until when the client agreed that this is kept, ISO 8601; none where nobody asked.
    pub keep_until: Option<String>,
    /// Year of birth, where given.
    pub born: Option<i16>,
    /// Name, dates, bikes and complaints as they are looked for.
    folded: String,
}

impl Client {
    /// What is known of a session.
    pub(crate) fn of(session: &Session, worded: &Worded) -> Self {
        let visits: BTreeSet<Date> = session.visits.iter().map(|visit| visit.date).collect();
        let visits: Vec<String> = visits.iter().map(ToString::to_string).collect();
        let complaints = session.visits.iter().flat_map(|visit| &visit.complaints);
        let complaints: BTreeSet<_> = complaints.map(|of| of.about).collect();
        let complaints: Vec<String> =
            complaints.iter().filter_map(|about| Some((*worded.get(about)?).to_owned())).collect();
        let own = session.bikes.iter().filter(|bike| bike.same_as.is_none());
        let bikes: Vec<String> = own.map(|bike| bike.name.clone()).collect();
        let name = session.client.name.clone();
        let all = core::iter::once(&name).chain(&visits).chain(&bikes).chain(&complaints);
        let folded = all.map(|text| folded(text)).collect::<Vec<_>>().join("\n");
        let keep_until = session.keep_until.map(|day| day.to_string());
        let (id, born) = (session.id.clone(), session.client.born);
        Self { id, name, visits, bikes, complaints, keep_until, born, folded }
    }

    /// The day of the last visit; none: there was none.
    pub fn last_visit(&self) -> Option<&str> {
        self.visits.last().map(String::as_str)
    }

    /// As he is told in a list, under that name.
    pub fn told<'a>(&'a self, name: &'a str) -> FoundClient<'a> {
        FoundClient {
            name,
            last_visit: self.last_visit(),
            bikes: &self.bikes,
            complaints: &self.complaints,
            keep_until: None,
        }
    }

    /// Name, dates, bikes and complaints as they are looked for, in this order.
    pub(crate) fn folded(&self) -> &str {
        &self.folded
    }

    /// Whether all these words, folded, stand in name, dates, bikes and complaints.
    pub(crate) fn has_all(&self, folded: &[String]) -> bool {
        folded.iter().all(|word| self.folded.contains(word))
    }

    /// Who it is.
    pub(crate) fn person(&self) -> Person {
        Person::new(&self.name, self.born)
    }

    /// Whether the client agreed to less than this day.
    pub(crate) fn is_past(&self, today: Date) -> bool {
        let until = self.keep_until.as_ref().and_then(|day| day.parse::<Date>().ok());
        until.is_some_and(|day| day < today)
    }
}
