//! The posture model against the outside: an independent implementation's solutions, a population
//! drawn from a survey, published tilts and bends, and the laws that must hold for anybody on any
//! bicycle; calibration and the bracket.

#[cfg(test)]
mod bracket;
#[cfg(test)]
mod calibration;
#[cfg(test)]
#[path = "../common/grid.rs"]
mod grid;
#[cfg(test)]
mod hard;
#[cfg(test)]
mod hollows;
#[cfg(test)]
mod laws;
#[cfg(test)]
mod people;
#[cfg(test)]
mod population;
#[cfg(test)]
#[path = "../common/random.rs"]
mod random;
#[cfg(test)]
mod reference;
#[cfg(test)]
mod search;
#[cfg(test)]
#[path = "../common/surveyed.rs"]
mod surveyed;
