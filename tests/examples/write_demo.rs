//! Writes the demo sessions into `sessions/`: `cargo run -p acceptance --example write_demo`.

use std::error::Error;

fn main() -> Result<(), Box<dyn Error>> {
    let folder = acceptance::root().join("sessions");
    let all = acceptance::demo::sessions()?.into_iter().chain([acceptance::demo::followed()?]);
    for (name, session) in all {
        match fit_file::save(&folder.join(name), &session)? {
            fit_doc::SaveOutcome::Saved => {}
            fit_doc::SaveOutcome::SavedUnconfirmed(message) => {
                return Err(format!("{message:?}").into());
            }
        }
    }
    Ok(())
}
