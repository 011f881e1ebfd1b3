//! What a posture does beyond the body, against the outside: areas in closed form and by a raster,
//! published balances of power and air, statics, and a population drawn from a survey.

#[cfg(test)]
mod load;
#[cfg(test)]
#[path = "../posture/people.rs"]
#[allow(dead_code, reason = "shared with the tests of the posture, which need more of it")]
mod people;
#[cfg(test)]
mod power;
#[cfg(test)]
#[path = "../common/random.rs"]
mod random;
#[cfg(test)]
mod raster;
#[cfg(test)]
mod riders;
#[cfg(test)]
mod silhouette;
#[cfg(test)]
mod steering;
#[cfg(test)]
#[path = "../common/surveyed.rs"]
mod surveyed;
