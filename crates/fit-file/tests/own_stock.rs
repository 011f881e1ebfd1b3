//! A shop's own lists: what comes in stands over what is shipped, whatever stops the program the old or
//! the new list is whole, and a list that is broken takes nothing else with it.

#![allow(clippy::unwrap_used, reason = "a test that cannot go on has failed")]

mod common;

use common::Folder;
use fit_doc::{
    BrokenList, BroughtIn, IfKnown, Message, NotBroughtIn, SaveOutcome, Stock, StockList, TableSlip,
};
use fit_file::stock::csv::write_table;
use fit_file::stock::{ShopStock, bring_in, of_shop, path_of, shipped};
use fit_file::{Disk, Faulty};
use std::fs;
use std::path::Path;

/// Brings a table in, which the disk confirms.
fn brought(state: &Path, file: &Path, if_known: IfKnown) -> BroughtIn {
    let (brought, saved) = bring_in(&Disk, state, file, if_known).unwrap();
    assert_eq!(saved, SaveOutcome::Saved);
    brought
}

fn shop(state: &Path) -> ShopStock {
    of_shop(&Disk, Some(state)).unwrap()
}

/// The shipped parts under numbers of the shop's own, so that none of them is known.
fn renamed() -> Stock {
    let mut stock = shipped().unwrap();
    stock.bars.iter_mut().for_each(|bar| bar.id = format!("own \"{}\" é\n=", bar.id).trim().into());
    stock.stems.iter_mut().for_each(|stem| stem.id = format!("own-{}", stem.id));
    stock.levers.iter_mut().for_each(|lever| lever.id = format!("own-{}", lever.id));
    stock
}

fn table(folder: &Folder, stock: &Stock, list: StockList) -> std::path::PathBuf {
    let file = folder.path(&format!("{list}.csv"));
    fs::write(&file, write_table(stock, list).unwrap()).unwrap();
    file
}

#[test]
fn what_comes_in_is_there_to_the_last_bit_behind_what_is_shipped() {
    let folder = Folder::new();
    let (state, own) = (folder.path("not/there/yet"), renamed());
    assert_eq!(shop(&state), of_shop(&Disk, None).unwrap());
    for list in StockList::ALL {
        let file = table(&folder, &own, list);
        let brought = self::brought(&state, &file, IfKnown::Ask);
        assert_eq!((brought.list, brought.replaced, brought.left_out), (list, 0, 0));
    }
    let shop = shop(&state);
    assert_eq!((&shop.own, shop.broken.len()), (&own, 0));
    let mut all = shipped().unwrap();
    all.bars.extend(own.bars);
    all.stems.extend(own.stems);
    all.levers.extend(own.levers);
    assert_eq!(shop.stock, all);
}

#[test]
fn what_is_known_is_asked_about_replaced_or_kept() {
    let folder = Folder::new();
    let state = folder.path("state");
    let mut some = Stock { stems: shipped().unwrap().stems[..2].to_vec(), ..Stock::default() };
    some.stems[0].name = "Another name".into();
    some.stems[1].id = "own-1".into();
    let file = table(&folder, &some, StockList::Stems);
    let Err(NotBroughtIn::Rows(faults)) = bring_in(&Disk, &state, &file, IfKnown::Ask) else {
        panic!("one of them is known")
    };
    assert_eq!(faults.len(), 1);
    assert_eq!((faults[0].line, &faults[0].slip), (2, &TableSlip::InStock));
    assert_eq!(shop(&state).own, Stock::default(), "nothing came in");

    let brought = self::brought(&state, &file, IfKnown::Keep);
    assert_eq!((brought.new, brought.replaced, brought.left_out), (1, 0, 1));
    let stock = shop(&state).stock;
    assert_eq!(stock.stems[0], shipped().unwrap().stems[0]);
    assert_eq!(stock.stem("own-1"), Some(&some.stems[1]));

    let brought = self::brought(&state, &file, IfKnown::Replace);
    assert_eq!((brought.new, brought.replaced, brought.left_out), (0, 2, 0));
    let stock = shop(&state).stock;
    assert_eq!(stock.stems[0], some.stems[0], "in the place of the shipped one");
    assert_eq!(stock.stems.len(), shipped().unwrap().stems.len() + 1);
}

#[test]
fn a_broken_list_is_told_with_its_line_and_takes_nothing_with_it() {
    let folder = Folder::new();
    let state = folder.path("state");
    let own = renamed();
    for list in StockList::ALL {
        brought(&state, &table(&folder, &own, list), IfKnown::Ask);
    }
    let path = path_of(&state, StockList::Stems);
    let text = fs::read_to_string(&path).unwrap();
    let spoiled = text.replacen("length_mm: 60", "length_mm: 6000", 1);
    let line = 1 + spoiled[..spoiled.find("6000").unwrap()].matches('\n').count();
    fs::write(&path, &spoiled).unwrap();
    let found = shop(&state);
    let [(StockList::Stems, BrokenList::Text { path: said, spot, entry, .. })] =
        found.broken.as_slice()
    else {
        panic!("{:?}", found.broken)
    };
    assert_eq!((said.as_str(), spot.line), (path.to_str().unwrap(), line));
    assert_eq!(entry.as_deref(), Some(own.stems[0].id.as_str()));
    assert_eq!(found.stock.stems, shipped().unwrap().stems);
    assert_eq!(found.own.bars, own.bars);

    // it is not written over
    let mut other = own.clone();
    other.stems.iter_mut().for_each(|stem| stem.id = format!("more-{}", stem.id));
    let file = table(&folder, &other, StockList::Stems);
    let refused = bring_in(&Disk, &state, &file, IfKnown::Replace);
    assert!(matches!(refused, Err(NotBroughtIn::Broken(_))), "{refused:?}");
    assert_eq!(fs::read_to_string(&path).unwrap(), spoiled);

    fs::write(&path, b"\xff").unwrap();
    assert!(matches!(shop(&state).broken[0].1, BrokenList::File(Message::NotText { .. })));
    fs::remove_file(&path).unwrap();
    fs::create_dir(&path).unwrap();
    assert!(matches!(shop(&state).broken[0].1, BrokenList::File(Message::CannotRead { .. })));
}

#[test]
fn a_program_that_is_stopped_leaves_the_old_list_or_the_new_one() {
    let (before, after) = (renamed(), {
        let mut stock = renamed();
        stock.stems.iter_mut().for_each(|stem| stem.name = "Other".into());
        stock
    });
    let mut seen = Vec::new();
    for at in 0.. {
        let folder = Folder::new();
        let state = folder.path("state");
        let stems = |stock| table(&folder, stock, StockList::Stems);
        brought(&state, &stems(&before), IfKnown::Ask);
        let disk = Faulty::stopped(Disk, at);
        let done = bring_in(&disk, &state, &stems(&after), IfKnown::Replace);
        let found = shop(&state);
        assert!(found.broken.is_empty(), "{at}");
        let is_new = found.own.stems == after.stems;
        assert!(is_new || found.own.stems == before.stems, "{at}");
        let confirmed = matches!(done, Ok((_, SaveOutcome::Saved)));
        assert!(is_new || done.is_err(), "{at}: what is said to be in is in");
        seen.push((is_new, confirmed));
        if disk.calls() <= at {
            break;
        }
        // what it left goes with the next
        brought(&state, &stems(&after), IfKnown::Replace);
        let names = fs::read_dir(state.join("stock")).unwrap().count();
        assert_eq!(names, 2, "{at}: the list and the lock");
    }
    seen.dedup();
    assert_eq!(seen, [(false, false), (true, false), (true, true)]);
}

#[test]
fn what_is_no_table_is_told_and_two_do_not_bring_in_at_once() {
    let folder = Folder::new();
    let state = folder.path("state");
    let told = |file: &Path| match bring_in(&Disk, &state, file, IfKnown::Ask) {
        Err(NotBroughtIn::File(message)) => *message,
        other => panic!("{other:?}"),
    };
    assert!(matches!(told(&folder.path("none.csv")), Message::FileMissing { .. }));
    fs::create_dir(folder.path("folder.csv")).unwrap();
    let no_table = bring_in(&Disk, &state, &folder.path("folder.csv"), IfKnown::Ask);
    assert_eq!(no_table, Err(NotBroughtIn::NoTable));
    assert!(!state.exists(), "nothing was made for it");

    let file = table(&folder, &renamed(), StockList::Levers);
    let (own, meanwhile) = (file.clone(), state.clone());
    fs::create_dir_all(state.join("stock")).unwrap();
    let held = fs::File::create(state.join("stock/lock")).unwrap();
    held.lock().unwrap();
    assert_eq!(bring_in(&Disk, &meanwhile, &own, IfKnown::Ask), Err(NotBroughtIn::InHand));
    drop(held);
    brought(&state, &file, IfKnown::Ask);
}
