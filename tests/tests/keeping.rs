//! A session is never lost: every fault of a disk and every power cut that is tried leaves the old or
//! the new one, says which, and the next save works; what was damaged is never taken for another. Ways to
//! save that are known to be wrong are found out by the same trials. What is found is what the README says:
//! `cargo run -p acceptance --example figures` writes it there.

use acceptance::figures::{Lacking, Trial, real_rows, said, written};
use acceptance::trials::{Stored, Wrong};

/// Nothing is found, and the README has the row.
fn is_clean(trial: Trial) {
    let row = trial.row();
    assert!(row.is_clean(), "{row:?}");
    stands(&row.line());
}

fn stands(line: &str) {
    assert!(said().contains(line), "the README does not say:\n{line}");
}

#[test]
fn a_program_that_is_stopped_loses_nothing() {
    is_clean(Trial::Stopped);
}

#[test]
fn a_disk_that_fails_loses_nothing() {
    is_clean(Trial::Failing);
}

#[test]
fn a_file_under_a_passphrase_is_never_lost_nor_one_that_comes_under_it() {
    is_clean(Trial::UnderPassphrase);
}

/// What the model of a disk cannot tell is how a real one answers.
#[test]
fn nor_does_the_real_disk() {
    is_clean(Trial::OnDisk);
}

#[test]
fn what_is_damaged_is_never_taken_for_another() {
    for stored in [Stored::File, Stored::Visits, Stored::Earlier, Stored::Unsaved, Stored::Version0]
    {
        is_clean(Trial::Damage(stored));
    }
}

/// Else the trials above would prove nothing.
#[test]
fn without_the_check_line_it_is() {
    let row = Trial::Damage(Stored::NoCheckLine).row();
    assert!(!row.is_clean(), "{row:?}");
    stands(&row.line());
}

#[test]
fn what_the_scripts_found_is_what_the_readme_says() {
    stands(&real_rows());
    // each as often as is to be run before a release, and nothing wrong
    let least = [
        ("calls.txt", 400),
        ("disks.txt", 20),
        ("killed-0.2.txt", 1000),
        ("killed-10.txt", 20),
        ("session-files.txt", 1_000_000),
        ("tables-of-stock.txt", 1_000_000),
        ("typed-numbers.txt", 8_000_000),
    ];
    for (name, least) in least {
        let found = written(name).unwrap_or_else(|| panic!("{name}: not run"));
        let count = |key: &str| found.get(key).map_or(0, |value| value.parse().unwrap_or(u64::MAX));
        assert!((least..u64::MAX).contains(&count("trials")), "{name}: {found:?}");
        for wrong in ["damaged", "lost", "wrong", "stuck", "untidy", "different"] {
            assert_eq!(count(wrong), 0, "{name}: {found:?}");
        }
    }
}

/// These leave more wrong than what they are tried for.
fn is_found_out(lacking: Lacking, by: Wrong) {
    let tally = lacking.tally();
    assert!(tally.count(by) > 0, "{by:?} was not found: {tally}");
    stands(&Trial::KnownWrong(lacking).row_of(&tally).line());
}

#[test]
fn writing_in_place_is_found_out() {
    is_found_out(Lacking::Copy, Wrong::Damaged);
}

#[test]
fn one_name_for_the_new_file_is_found_out() {
    is_found_out(Lacking::FreeName, Wrong::Stuck);
}

#[test]
fn waiting_for_nothing_is_found_out() {
    is_found_out(Lacking::Sync, Wrong::Lost);
}

#[test]
fn believing_a_write_is_found_out() {
    is_found_out(Lacking::ReadBack, Wrong::Damaged);
}

#[test]
fn deleting_before_renaming_is_found_out() {
    is_found_out(Lacking::Old, Wrong::Damaged);
}

#[test]
fn calling_an_unconfirmed_save_none_is_found_out() {
    is_found_out(Lacking::ThirdEnd, Wrong::Message);
}
