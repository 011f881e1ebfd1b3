//! A session is never lost: every fault of a disk and every power cut that is tried leaves the old or
//! the new one, says which, and the next save works. Ways to save that are known to be wrong are found
//! out by the same trials.

use acceptance::trials::{
    AgainAndAgain, DeletesFirst, FixedName, InMemory, InPlace, NoReadBack, NoSync, OnDisk,
    ShutInMemory, SyncIsAll, Tally, Three, UnderKey, WorkedOn, Writer, Wrong, every_fault, faults,
    power_cuts, power_cuts_on,
};
use fit_file::Fault;

/// The system's number of "no space left on device", on Linux.
const NO_SPACE: i32 = 28;

fn in_memory(writer: &impl Writer) -> Tally {
    let (three, mut tally) = (Three::default(), Tally::default());
    faults::<InMemory>(writer, &every_fault(), &three, &mut tally);
    power_cuts(writer, &three, &mut tally);
    tally
}

#[test]
fn a_file_that_is_worked_on_is_never_lost() {
    let tally = in_memory(&WorkedOn);
    println!("{tally}");
    assert!(tally.wrong.is_empty(), "{tally}");
    assert!(tally.trials > 500 && tally.images > 1000, "{tally}");
}

#[test]
fn a_file_that_is_saved_over_is_never_lost() {
    let tally = in_memory(&AgainAndAgain);
    println!("{tally}");
    assert!(tally.wrong.is_empty(), "{tally}");
    assert!(tally.trials > 500 && tally.images > 1000, "{tally}");
}

#[test]
fn a_file_under_a_passphrase_is_never_lost_nor_one_that_comes_under_it() {
    let (three, mut tally) = (Three::default(), Tally::default());
    // from a plain file, and from one that is under it
    faults::<InMemory>(&UnderKey, &every_fault(), &three, &mut tally);
    faults::<ShutInMemory>(&UnderKey, &every_fault(), &three, &mut tally);
    power_cuts(&UnderKey, &three, &mut tally);
    power_cuts_on::<ShutInMemory>(&UnderKey, &three, &mut tally);
    println!("{tally}");
    assert!(tally.wrong.is_empty(), "{tally}");
    assert!(tally.trials > 1000 && tally.images > 2000, "{tally}");
}

/// What the model of a disk cannot tell is how a real one answers; one error stands for the others there,
/// since waiting for a disk takes long.
#[test]
fn nor_on_the_real_disk() {
    let faults_there = [Fault::Error(NO_SPACE), Fault::ShortWrite, Fault::LyingWrite];
    let (three, mut tally) = (Three::default(), Tally::default());
    faults::<OnDisk>(&WorkedOn, &faults_there, &three, &mut tally);
    faults::<OnDisk>(&AgainAndAgain, &faults_there, &three, &mut tally);
    println!("{tally}");
    assert!(tally.wrong.is_empty() && tally.trials > 300, "{tally}");
}

/// These leave more wrong than what they are tried for.
fn is_found_out(writer: &impl Writer, by: Wrong) {
    let tally = in_memory(writer);
    assert!(tally.count(by) > 0, "{by:?} was not found: {tally}");
}

#[test]
fn writing_in_place_is_found_out() {
    is_found_out(&InPlace, Wrong::Damaged);
}

#[test]
fn one_name_for_the_new_file_is_found_out() {
    is_found_out(&FixedName, Wrong::Stuck);
}

#[test]
fn waiting_for_nothing_is_found_out() {
    is_found_out(&NoSync, Wrong::Lost);
}

#[test]
fn believing_a_write_is_found_out() {
    is_found_out(&NoReadBack, Wrong::Damaged);
}

#[test]
fn deleting_before_renaming_is_found_out() {
    is_found_out(&DeletesFirst, Wrong::Damaged);
}

#[test]
fn calling_an_unconfirmed_save_none_is_found_out() {
    is_found_out(&SyncIsAll, Wrong::Message);
}
