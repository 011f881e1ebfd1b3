//! Bodies: what is estimated from readings, held against the survey's own people, civilians, a
//! textbook's formula and slips of the hand; and the links that follow.

#![allow(
    clippy::unwrap_used,
    clippy::print_stdout,
    reason = "helpers of tests, which may panic and tell figures"
)]

mod civilians;
mod coverage;
mod links;
#[path = "../common/random.rs"]
mod random;
mod readings;
mod slips;
mod survey_error;
#[path = "../common/surveyed.rs"]
mod surveyed;
mod textbook;

use fit_math::body::Survey;
use random::Random;
use std::sync::LazyLock;
use surveyed::Surveyed;

static SURVEY: LazyLock<Survey> = LazyLock::new(|| Survey::shipped().unwrap());
