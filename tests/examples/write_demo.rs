//! Writes the demo sessions into `sessions/`: `cargo run -p acceptance --example write_demo`.

use std::error::Error;

fn main() -> Result<(), Box<dyn Error>> {
    let folder = acceptance::root().join("sessions");
    let all = acceptance::demo::sessions()?.into_iter().chain([acceptance::demo::followed()?]);
    for (name, session) in all {
        if let Some(message) = fit_file::save(&folder.join(name), &session)?.told() {
            return Err(format!("{message:?}").into());
        }
    }
    Ok(())
}
