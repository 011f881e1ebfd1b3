//! Writes an export of a million invented visits, in which it is known what shallower drops did:
//! `cargo run -p acceptance --example million_visits FILE.parquet [VISITS]`.
//!
//! Everything is the demo client's but what the question is about. Of those who came with a neck that
//! was scored, half were given shallower drops, and those more often a shorter stem as well. Between
//! then and later a score falls by a point for half of all, for four in five of those with shallower
//! drops by one more, and for three in five of those with a shorter stem by one more. Who only compares
//! with shallower drops and without finds what the stems did as well.

use fit_folder::export::{ParquetTable, Table, Value, columns, row};
use fit_view::weigh::{Survey, weigh_visit};
use rand_xoshiro::SplitMix64;
use rand_xoshiro::rand_core::{Rng, SeedableRng};
use std::env;
use std::error::Error;
use std::fs::File;
use std::io::BufWriter;

/// Visits, where nobody says otherwise.
const VISITS: u64 = 1_000_000;
/// The same invented clients every time.
const SEED: u64 = 11;
/// How much shallower the shallower drops are, mm.
const SHALLOWER_MM: f64 = 20.0;
/// How much shorter the shorter stems are, mm.
const SHORTER_MM: f64 = 10.0;

fn main() -> Result<(), Box<dyn Error>> {
    let mut args = env::args().skip(1);
    let file = args.next().ok_or("which file?")?;
    let visits = args.next().map_or(Ok(VISITS), |number| number.parse())?;
    let demo = fit_file::open(&acceptance::root().join("sessions/demo.session.ron"))?.session;
    let survey = Survey::shipped()?;
    let visit = demo.visits.first().ok_or("the demo has a visit")?;
    let weighed = weigh_visit(&demo, visit, &survey).map_err(|why| format!("{why:?}"))?;
    let mut values = row(&demo, 0, Some(&weighed));
    let names = columns();
    let at = |name: &str| {
        names.iter().position(|column| column.name == name).ok_or_else(|| format!("no {name}"))
    };
    let [session, date] = [at("session")?, at("visit_date")?];
    let [came_drop, went_drop] = [at("came_bar_drop_mm")?, at("went_bar_drop_mm")?];
    let [came_stem, went_stem] = [at("came_stem_length_mm")?, at("went_stem_length_mm")?];
    let [before, later] = [at("neck_score_before")?, at("neck_score_later")?];
    let days = at("neck_later_days")?;

    let mut random = SplitMix64::seed_from_u64(SEED);
    let mut table: Box<dyn Table> =
        Box::new(ParquetTable::begin(BufWriter::new(File::create(file)?))?);
    for number in 0..visits {
        let mut below = |most: u64| random.next_u64() % most;
        let mut tenths = |of: u64| below(10) < of;
        let (neck, told) = (tenths(4), tenths(6));
        let shallower = tenths(5);
        let shorter = tenths(if shallower { 7 } else { 3 });
        let fall = i32::from(tenths(5))
            + i32::from(shallower && tenths(8))
            + i32::from(shorter && tenths(6));
        // high enough that no score falls below zero
        let score = 4 + i32::try_from(below(7))?;
        let (drop_mm, stem_mm) = (120.0 + below(30) as f64, 80.0 + 10.0 * below(5) as f64);
        let went =
            |was: f64, less: bool, by: f64| Value::Number(Some(if less { was - by } else { was }));
        values[session] = Value::Text(Some(format!("00000000-0000-4000-8000-{number:012x}")));
        let day = i64::try_from(below(3650))?;
        let day = jiff::civil::date(2016, 1, 1).checked_add(jiff::Span::new().days(day))?;
        values[date] = Value::Date(Some(day));
        values[came_drop] = Value::Number(Some(drop_mm));
        values[went_drop] = went(drop_mm, shallower, SHALLOWER_MM);
        values[came_stem] = Value::Number(Some(stem_mm));
        values[went_stem] = went(stem_mm, shorter, SHORTER_MM);
        values[before] = Value::Whole(neck.then_some(score));
        values[later] = Value::Whole((neck && told).then_some(score - fall));
        values[days] = Value::Whole((neck && told).then_some(20 + i32::try_from(below(100))?));
        table.row(&values)?;
    }
    table.finish()?;
    Ok(())
}
