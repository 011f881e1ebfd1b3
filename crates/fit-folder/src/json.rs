//! A list of clients as JSON for other programs (RFC 8259); its shape is in `assets/find.schema.json`.

use crate::Listed;
use fit_view::words::Words;
use serde::Serialize;

/// Goes up when a key changes its meaning.
const VERSION: u32 = 1;

#[derive(Serialize)]
struct Output<'a> {
    kind: &'static str,
    version: u32,
    clients: Vec<ClientOut<'a>>,
    under_passphrase: Vec<String>,
    bad: Vec<BadOut>,
}

#[derive(Serialize)]
struct ClientOut<'a> {
    path: String,
    session: &'a str,
    name: &'a str,
    visits: &'a [String],
    bikes: &'a [String],
    complaints: &'a [String],
    keep_until: Option<&'a str>,
}

#[derive(Serialize)]
struct BadOut {
    path: String,
    reason: String,
}

/// The list as one JSON object, indented; reasons are worded by `words`.
///
/// # Errors
/// It cannot be written down, which a list always can.
pub fn json(found: &[&Listed], words: &dyn Words) -> Result<String, serde_json::Error> {
    let (mut clients, mut under_passphrase, mut bad) = (Vec::new(), Vec::new(), Vec::new());
    for listed in found {
        let path = listed.path.display().to_string();
        match &listed.client {
            Ok(client) => clients.push(ClientOut {
                path,
                session: &client.id,
                name: &client.name,
                visits: &client.visits,
                bikes: &client.bikes,
                complaints: &client.complaints,
                keep_until: client.keep_until.as_deref(),
            }),
            Err(_) if listed.is_shut() => under_passphrase.push(path),
            Err(error) => bad.push(BadOut { path, reason: words.message(error.message()) }),
        }
    }
    let kind = "barwright-find";
    serde_json::to_string_pretty(&Output { kind, version: VERSION, clients, under_passphrase, bad })
}
