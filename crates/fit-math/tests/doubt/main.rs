//! Doubt: the slopes against solving anew, first order against drawing, and both against what is
//! known of how sure such an answer can be.

#[cfg(test)]
mod coverage;
#[cfg(test)]
mod figures;
#[cfg(test)]
#[path = "../posture/people.rs"]
#[allow(dead_code, reason = "shared with the checks of postures")]
mod people;
#[cfg(test)]
#[path = "../common/random.rs"]
mod random;
#[cfg(test)]
mod rides;
#[cfg(test)]
mod seen;
#[cfg(test)]
mod slopes;
#[cfg(test)]
#[path = "../common/surveyed.rs"]
mod surveyed;
