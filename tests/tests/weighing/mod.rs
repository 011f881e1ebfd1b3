//! Runs the program on sessions and reads what it prints.

use acceptance::root;
use fit_doc::{Bike, Session, Visit};
use serde_json::Value;
use std::ffi::OsString;
use std::path::{Path, PathBuf};
use std::sync::Arc;

/// What one run printed, and its status.
pub(crate) struct Run {
    pub(crate) status: u8,
    pub(crate) out: String,
    pub(crate) err: String,
}

/// Runs the program in this process.
pub(crate) fn barwright<const N: usize>(args: [&str; N]) -> Run {
    on_columns(None, args)
}

/// The same on a screen of so many columns.
pub(crate) fn on_columns<const N: usize>(columns: Option<usize>, args: [&str; N]) -> Run {
    let args = std::iter::once("barwright").chain(args).map(OsString::from);
    let (mut out, mut err) = (Vec::new(), Vec::new());
    let screen = barwright::Screen { columns, ..barwright::Screen::default() };
    let exit = barwright::run(args, screen, &mut out, &mut err);
    let text = |bytes| String::from_utf8(bytes).expect("the program prints UTF-8");
    Run { status: exit.status(), out: text(out), err: text(err) }
}

/// The sessions that come with the program.
pub(crate) fn shipped() -> Vec<PathBuf> {
    let mut files: Vec<_> = std::fs::read_dir(root().join("sessions"))
        .expect("the folder of sessions")
        .map(|entry| entry.expect("an entry").path())
        .filter(|path| path.extension() == Some("ron".as_ref()))
        .collect();
    files.sort();
    assert!(files.len() >= 3, "{files:?}");
    files
}

/// The demo session, with one candidate equal to the cockpit as it came.
pub(crate) fn twins() -> Session {
    let mut session =
        fit_file::open(&root().join("sessions/demo.session.ron")).expect("the demo").session;
    let visit = Arc::make_mut(session.visits.last_mut().expect("a visit"));
    let mut twin = visit.as_it_came.clone();
    twin.id = "twin".into();
    twin.label = "twin".into();
    visit.bench = vec![twin];
    visit.chosen = None;
    session
}

/// The demo session with a 73° head, a level-headed 100 mm stem at −6° and one candidate like it,
/// which `edit` then changes.
pub(crate) fn on_a_73_degree_head(edit: impl Fn(&mut fit_doc::Cockpit)) -> Session {
    let mut session = twins();
    let bike: &mut Bike = &mut session.bikes[0];
    bike.frame.head_angle_deg = 73.0;
    let visit: &mut Visit = Arc::make_mut(session.visits.last_mut().expect("a visit"));
    assert_eq!(visit.bike, bike.id);
    visit.as_it_came.stem.length_mm = 100.0;
    visit.as_it_came.stem.angle_deg = -6.0;
    visit.as_it_came.spacers_mm = 10.0;
    visit.as_it_came.roll_deg = 0.0;
    // what was read is of the bike as it was
    visit.tape = fit_doc::Tape::default();
    let twin = &mut visit.bench[0];
    let (id, label) = (twin.id.clone(), twin.label.clone());
    *twin = fit_doc::Cockpit { id, label, ..visit.as_it_came.clone() };
    edit(twin);
    session
}

/// The path as the program takes it.
pub(crate) fn path(file: &Path) -> &str {
    file.to_str().expect("a plain path")
}

/// A session saved into a folder of its own, to be named on the command line.
pub(crate) fn saved(session: &Session) -> (tempfile::TempDir, String) {
    let folder = tempfile::tempdir().expect("a folder");
    let file = folder.path().join("client.session.ron");
    let text = fit_file::session_text(session, "client").expect("text of the session");
    std::fs::write(&file, text).expect("written");
    let name = path(&file).to_owned();
    (folder, name)
}

/// What `weigh --json` prints of a file.
pub(crate) fn json_of(file: &str) -> Value {
    let run = barwright(["weigh", file, "--json"]);
    assert_eq!((run.status, run.err.as_str()), (0, ""), "{file}");
    serde_json::from_str(&run.out).expect("JSON")
}
