//! What anybody may hand in, made at random from good texts: session files, tables of stock, lengths as
//! they are typed. Nothing panics, hangs, takes much memory or is taken for what it is not.
//!
//! `BARWRIGHT_FUZZ=1000000 cargo test --release -p fit-file --test fuzz -- --nocapture` makes so many of
//! each; `BARWRIGHT_FUZZ_SEED` begins elsewhere, `BARWRIGHT_FIGURES` is a folder
//! that the figures go to. What was once found is held in `found.rs`.

#![allow(clippy::unwrap_used, reason = "a test that cannot go on has failed")]
#![expect(clippy::print_stdout, reason = "it says how much was tried")]

#[path = "../common/mod.rs"]
mod common;
mod found;
mod length;
mod mutate;
mod session;
mod table;

use cap::Cap;
use common::cpu_s;
use mutate::{Chance, mutated};
use std::alloc::System;
use std::fs;
use std::path::Path;
use std::sync::{Mutex, MutexGuard, PoisonError};

/// Counts the bytes that are held, and hands everything on.
#[global_allocator]
static HEAP: Cap<System> = Cap::new(System, usize::MAX);

/// Most bytes that may be held above what was held at the start: half of what a file of full length may take,
/// though none here is longer than a sixty-fourth of one (judgement: those that others are made from are 4 MiB
/// together). What files of full length take is tried in `tests/hostile.rs`.
const MOST_HELD: usize = 32 * 1024 * 1024;

/// Processor time after which a text is said to hang, seconds: a thousand times what any takes.
const HANGS_S: f64 = 10.0;

/// Texts that went through and are made others from, at most: what is nearly good twice over.
const POOL: usize = 64;

/// One at a time: the memory that is counted is that of all threads.
static ALONE: Mutex<()> = Mutex::new(());

/// What became of a text.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Became {
    /// It was taken.
    Taken,
    /// It was refused.
    Refused,
}

/// Tries texts made from these, so many unless the environment says otherwise; `tries` panics where one
/// is taken for what it is not.
pub(crate) fn fuzz(
    name: &str,
    seeds: &[Vec<u8>],
    usually: u64,
    mut tries: impl FnMut(&[u8]) -> Became,
) {
    let _alone = alone();
    let number = |name: &str| std::env::var(name).ok().map(|of| of.parse::<u64>().unwrap());
    let count = number("BARWRIGHT_FUZZ").unwrap_or(usually);
    let seed = number("BARWRIGHT_FUZZ_SEED").unwrap_or(1);
    let mut pool = seeds.to_owned();
    let (held, begun) = (HEAP.allocated(), cpu_s());
    let (mut taken, mut longest, mut most) = (0_u64, 0.0_f64, 0_usize);
    for at in 0..count {
        // each text by its own seed: one that is trouble is made again by itself
        let mut chance = Chance::new(seed.wrapping_mul(1 << 40).wrapping_add(at));
        let text = mutated(&pool, &mut chance);
        let before = cpu_s();
        let became = tries(&text);
        let took = cpu_s() - before;
        assert!(took < HANGS_S, "{took:.1} s for {:?}", String::from_utf8_lossy(&text));
        longest = longest.max(took);
        most = most.max(text.len());
        if became == Became::Taken {
            taken += 1;
            let place = seeds.len() + chance.below(POOL);
            if pool.len() < seeds.len() + POOL {
                pool.push(text);
            } else if chance.once_in(2) {
                pool[place] = text;
            } else {
                // what was made before goes back to a good one, or all would drift away
                pool[place].clone_from(chance.of(seeds));
            }
        }
    }
    let (took, peak) = (cpu_s() - begun, HEAP.max_allocated().saturating_sub(held));
    println!(
        "{name}: {count} texts, {taken} taken, {:.0} a second, the longest {:.1} ms, {most} bytes at \
         most, {:.1} MB held at most",
        count as f64 / took,
        longest * 1e3,
        peak as f64 / 1e6,
    );
    assert!(taken > 0 && taken < count, "{taken} of {count} were taken");
    assert!(peak < MOST_HELD, "{peak} bytes were held");
    if let Some(folder) = std::env::var_os("BARWRIGHT_FIGURES") {
        // whoever gets here has found none that was taken for another
        let figures = format!("trials={count} taken={taken} different=0\n");
        let file = Path::new(&folder).join(format!("{}.txt", name.replace(' ', "-")));
        fs::write(file, figures).unwrap();
    }
}

fn alone() -> MutexGuard<'static, ()> {
    ALONE.lock().unwrap_or_else(PoisonError::into_inner)
}
