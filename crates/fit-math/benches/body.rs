//! A body from its readings, from the usual eight to every dimension there is.
//!
//! Run with `cargo bench -p fit-math --bench body`.

#![allow(clippy::unwrap_used, reason = "a benchmark that cannot be set up has nothing to measure")]

use divan::{Bencher, black_box};
use fit_math::body::{
    Body, Dimension, Gradient, Item, Link, Reading, Sex, Survey, measure_next, unlikely,
};
use std::sync::LazyLock;

static SURVEY: LazyLock<Survey> = LazyLock::new(|| Survey::shipped().unwrap());

fn main() {
    divan::main();
}

/// A man's usual readings, as read.
fn eight() -> Vec<Reading> {
    vec![
        Reading::new(Dimension::Stature, 1741.0),
        Reading::new(Dimension::CrotchHeight, 822.0),
        Reading::new(Item::ShoulderToFist, 671.0),
        Reading::new(Dimension::BiacromialBreadth, 401.0),
        Reading::new(Item::Notch, 595.0),
        Reading::new(Dimension::HandLength, 188.0),
        Reading::new(Dimension::HandBreadth, 85.0),
        Reading::new(Dimension::Weight, 71.0),
    ]
}

#[divan::bench(args = [Some(Sex::Male), None])]
fn eight_readings(bencher: Bencher<'_, '_>, sex: Option<Sex>) {
    let readings = eight();
    bencher.bench(|| Body::read(&SURVEY, sex, None, black_box(&readings)).unwrap());
}

#[divan::bench]
fn every_dimension(bencher: Bencher<'_, '_>) {
    let all = Dimension::ALL.map(|d| (d, SURVEY.mean(None, d)));
    bencher.bench(|| Body::new(&SURVEY, Some(Sex::Male), black_box(&all)).unwrap());
}

#[divan::bench]
fn check_eight(bencher: Bencher<'_, '_>) {
    let readings = eight();
    bencher.bench(|| unlikely(&SURVEY, Some(Sex::Male), black_box(&readings)));
}

#[divan::bench]
fn next_of_ten(bencher: Bencher<'_, '_>) {
    let body = Body::read(&SURVEY, Some(Sex::Male), None, &eight()[..2]).unwrap();
    let question: Gradient =
        Link::gradient_of_all(&[(Link::Trunk, -0.1), (Link::UpperArm, 0.1)], &body);
    bencher.bench(|| measure_next(&body, black_box(&question), &Item::USUAL));
}

#[divan::bench]
fn survey_read(bencher: Bencher<'_, '_>) {
    bencher.bench(|| Survey::shipped().unwrap());
}
