//! The program is stopped at every call of a save, and the power is cut there with every subset of
//! what was not on the disk yet.

use super::disks::{FILE, Stands, stands};
use super::shut::{by_key, open_any, shows_nothing};
use super::{Bed, InMemory, Said, TODAY, Tally, Three, Writer, Wrong};
use fit_file::{Faulty, Kept, Model, Over, Storage as _};
use std::path::Path;

/// Stops a way to save at every call, over a file and where none is yet, and looks what is left: with
/// the power on, and after a power cut.
pub fn power_cuts(writer: &impl Writer, three: &Three, tally: &mut Tally) {
    power_cuts_on::<InMemory>(writer, three, tally);
}

/// The same on disks of another kind.
pub fn power_cuts_on<B: Bed<Disk = Model>>(writer: &impl Writer, three: &Three, tally: &mut Tally) {
    for old in [Some(&three.old), None] {
        let bed = B::with(old);
        for at in 0.. {
            let bed = bed.again(old);
            tally.trials += 1;
            let stopped = Faulty::stopped(bed.disk(), at);
            let said = writer.save(&stopped, bed.path(), &three.new);
            let went_through = stopped.calls() <= at;
            let mut images = bed.after_power_cut();
            images.push(bed.disk().as_seen());
            for image in images {
                tally.images += 1;
                let case = || {
                    let names: Vec<_> = image.look().into_keys().collect();
                    format!("stopped at call {at}, over: {}, left {names:?}", old.is_some())
                };
                let said = if went_through { said } else { Said::NotSaved };
                one(&image, writer, three, (said, old.is_some()), tally, &case);
            }
            if went_through {
                break;
            }
        }
    }
}

fn one(
    image: &Model,
    writer: &impl Writer,
    three: &Three,
    (said, over): (Said, bool),
    tally: &mut Tally,
    case: &dyn Fn() -> String,
) {
    let path = Path::new(FILE);
    let now = stands(image, path, three);
    match now {
        Stands::New => {}
        Stands::Old if said != Said::Saved => {}
        Stands::Nothing if !over && said != Said::Saved => {}
        Stands::Old | Stands::Nothing if said == Said::Saved => tally.found(Wrong::Lost, case),
        _ => tally.found(Wrong::Damaged, case),
    }
    // the next start: the file is ours again, and nothing of the last one lies about
    if matches!(now, Stands::Old | Stands::New) {
        match Kept::open_by(image, path, by_key()) {
            Ok((opened, mut kept)) if !opened.read_only && opened.notices.is_empty() => {
                let names = image.list(Path::new("/")).unwrap_or_default();
                let left = names.iter().any(|name| {
                    let name = name.to_string_lossy();
                    name.starts_with(".barwright-") || name.ends_with(".tmp")
                });
                if left {
                    tally.found(Wrong::Untidy, case);
                }
                // each of the earlier contents can be opened, and none went without being replaced
                let earlier = kept.earlier().unwrap_or_default();
                let all = earlier.iter().all(|of| open_any(image, &of.path).is_ok());
                if !all || (over && earlier.len() < 2) {
                    tally.found(Wrong::NotKept, case);
                }
                if kept.key().is_some() && !shows_nothing(image, three) {
                    tally.found(Wrong::Shown, case);
                }
                let _ = kept.save(&three.old, Over::WhatWasSeen, TODAY);
            }
            _ => tally.found(Wrong::Untidy, case),
        }
    }
    if writer.save(image, path, &three.next) != Said::Saved {
        tally.found(Wrong::Stuck, case);
    }
}
