//! A slow twin of the posture solver: the model's equations written down again, the least found
//! without a derivative, held against the crate's answers over random riders, bikes and hand places.

#[cfg(test)]
mod agreement;
#[cfg(test)]
mod draw;
#[cfg(test)]
#[path = "../common/grid.rs"]
mod grid;
#[cfg(test)]
mod model;
#[cfg(test)]
#[path = "../posture/people.rs"]
#[allow(dead_code, reason = "shared with the tests of the posture, which need more of it")]
mod people;
#[cfg(test)]
#[path = "../common/random.rs"]
mod random;
#[cfg(test)]
mod robust;
#[cfg(test)]
mod search;
#[cfg(test)]
#[path = "../common/surveyed.rs"]
mod surveyed;
