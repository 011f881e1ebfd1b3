//! Weigh: everything that is computed about the bench of one visit.
//!
//! The document goes in, numbers come out: for every cockpit its parts in place, its hand places in
//! the bike frame, and the posture that the client takes in each. Lengths mm, angles radians; the
//! output for other programs ([`json`]) is in degrees. Nothing is worded, rounded or judged here,
//! and nothing is stored: the same document always weighs the same.
//!
//! The posture is the model's for this one person. What counts is the difference between two
//! cockpits, with its doubt ([`Doubted`]).

mod asked;
mod before;
mod bench;
mod brakes;
mod calibration;
mod changes;
mod doubt;
mod doubt_json;
mod effects;
mod foretold;
mod hands_json;
mod json;
mod json_tape;
mod near;
mod next;
mod output;
mod over;
mod person;
mod place_id;
mod sampled;
#[cfg(test)]
mod schema;
mod tape;
mod weighed;

pub use asked::{Asked, AskedAngle, Question};
pub use before::Before;
pub use bench::{of_day, weigh, weigh_visit, weigh_visit_again};
pub use changes::{Deltas, deltas};
pub use doubt::Doubted;
pub use effects::{Effect, Effects};
pub use fit_math::body::Survey;
pub use fit_math::doubt::sample::Sample;
pub use foretold::{SEEN_ON_A_RIDE, foretold, foretold_brakes};
pub use json::{JsonError, json};
pub use next::{MeasureNext, Sharper};
pub use over::{knows_more, laid_over};
pub use person::{doubtful, norm};
pub use place_id::place_id;
pub use tape::{NotAsRead, is_doubted_already, not_as_read, tape, tape_doubts};
pub use weighed::{Brakes, Travel, Weighed, WeighedCockpit, WeighedPlace};
