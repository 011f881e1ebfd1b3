//! Every call of a save goes wrong in turn, in every way that a disk is known to.

use super::disks::{Stands, before, stands};
use super::shut::open_any;
use super::{Bed, Said, Tally, Three, Writer, Wrong};
use fit_file::{Fault, Faulty, earlier};

/// Errors of the system that a disk is known to give, by their numbers on Linux.
const ERRORS: &[(&str, i32)] = &[
    ("EPERM", 1),
    ("EINTR", 4),
    ("EIO", 5),
    ("EACCES", 13),
    ("EMFILE", 24),
    ("ENOSPC", 28),
    ("EROFS", 30),
    ("EOPNOTSUPP", 95),
    ("EDQUOT", 122),
];

/// Every fault that a disk is known to have.
pub fn every_fault() -> Vec<Fault> {
    let errors = ERRORS.iter().map(|&(_, number)| Fault::Error(number));
    errors.chain([Fault::ShortWrite, Fault::LyingWrite]).collect()
}

/// Puts a way to save through these faults at every call, once and for good, over a file and where none
/// is yet.
///
/// # Panics
/// When it does not save on a disk that works.
pub fn faults<B: Bed>(writer: &impl Writer, faults: &[Fault], three: &Three, tally: &mut Tally) {
    for old in [Some(&three.old), None] {
        let bed = B::with(old);
        let counting = bed.again(old);
        let calls = {
            let counted = Faulty::none(counting.disk());
            let said = writer.save(&counted, counting.path(), &three.new);
            assert_eq!(said, Said::Saved, "on a disk that works");
            counted.calls()
        };
        for &fault in faults {
            for (at, for_good) in (0..calls).flat_map(|at| [(at, false), (at, true)]) {
                let case = || {
                    format!(
                        "{fault:?} at call {at} of {calls}, for good: {for_good}, over: {}",
                        old.is_some()
                    )
                };
                one(
                    &bed.again(old),
                    writer,
                    three,
                    (fault, at, for_good),
                    old.is_some(),
                    tally,
                    &case,
                );
            }
        }
    }
}

fn one<B: Bed>(
    bed: &B,
    writer: &impl Writer,
    three: &Three,
    (fault, at, for_good): (Fault, usize, bool),
    over: bool,
    tally: &mut Tally,
    case: &dyn Fn() -> String,
) {
    tally.trials += 1;
    let (disk, path) = (bed.disk(), bed.path());
    let said = writer.save(&Faulty::new(disk, fault, at, for_good), path, &three.new);
    let untouched = if over { Stands::Old } else { Stands::Nothing };
    let now = stands(disk, path, three);
    let expected = if said == Said::NotSaved { untouched } else { Stands::New };
    if now == Stands::Neither || (over && now == Stands::Nothing) {
        tally.found(Wrong::Damaged, case);
    } else if now != expected {
        tally.found(Wrong::Message, || format!("{}: {said:?}, and {now:?} is there", case()));
    }
    for image in bed.after_power_cut() {
        tally.images += 1;
        match (said, stands(&image, path, three)) {
            (_, Stands::New) | (Said::Unconfirmed | Said::NotSaved, Stands::Old) => {}
            (Said::Saved, Stands::Old | Stands::Nothing) => tally.found(Wrong::Lost, case),
            (_, Stands::Nothing) if !over => {}
            _ => tally.found(Wrong::Damaged, case),
        }
    }
    let next = writer.save(disk, path, &three.next);
    let is_there = open_any(disk, path).is_ok_and(|opened| opened.session == three.next);
    if next != Said::Saved || !is_there {
        tally.found(Wrong::Stuck, || format!("{}: {next:?}", case()));
    }
    // the three that were replaced last, each once, whatever went wrong
    let [first, second] = before(&three.old);
    let replaced = match (now, over) {
        (Stands::New, true) => vec![&three.new, &three.old, &second],
        (Stands::Old, _) => vec![&three.old, &second, &first],
        (Stands::New, false) => vec![&three.new],
        _ => vec![],
    };
    let kept = earlier(disk, path).unwrap_or_default();
    let kept: Vec<_> = kept.iter().filter_map(|of| open_any(disk, &of.path).ok()).collect();
    if next == Said::Saved && kept.iter().map(|of| &of.session).ne(replaced) {
        let notes: Vec<_> = kept.iter().map(|of| &of.session.client.notes).collect();
        tally.found(Wrong::NotKept, || format!("{}: {now:?}, {notes:?}", case()));
    }
}
