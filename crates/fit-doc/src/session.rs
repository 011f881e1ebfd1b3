//! The session: everything about one client, the value that is edited, saved and weighed.

use crate::{Bike, Client, ClientThen, Visit};
use jiff::civil::Date;
use std::sync::Arc;

/// One client with bikes and visits. Cheap to clone: a visit is shared until it is changed.
#[derive(Debug, Clone, PartialEq)]
pub struct Session {
    /// Identity of the session, a UUID in its usual text form.
    pub id: String,
    /// The client.
    pub client: Client,
    /// The client's bikes.
    pub bikes: Vec<Bike>,
    /// Visits, oldest first.
    pub visits: Vec<Arc<Visit>>,
    /// Until when the client agreed that this is kept; none where nobody asked.
    pub keep_until: Option<Date>,
}

impl Session {
    /// The bike with this id.
    pub fn bike(&self, id: &str) -> Option<&Bike> {
        self.bikes.iter().find(|bike| bike.id == id)
    }

    /// The client as known when a visit was weighed: of a closed one sex and year of birth stay.
    pub fn client_at(&self, visit: &Visit) -> Client {
        let client = self.client.clone();
        match visit.client_then {
            Some(ClientThen { sex, born }) => Client { sex, born, ..client },
            None => client,
        }
    }

    /// Ids of the bikes, in their order.
    pub fn bike_ids(&self) -> Vec<String> {
        self.bikes.iter().map(|bike| bike.id.clone()).collect()
    }

    /// Where one of these visits stands among them; none: it is another, or a copy of one.
    pub fn index_of(&self, visit: &Visit) -> Option<usize> {
        self.visits.iter().position(|other| core::ptr::eq(other.as_ref(), visit))
    }

    /// The visit with the latest date, wherever it stands; of two on one day the later one.
    pub fn latest_visit(&self) -> Option<&Visit> {
        self.visits.iter().max_by_key(|visit| visit.date).map(AsRef::as_ref)
    }
}
