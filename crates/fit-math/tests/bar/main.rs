//! Tests of bars: dimensions in, bends or refusals out.

#[cfg(test)]
mod draw;
#[cfg(test)]
mod ends;
#[cfg(test)]
mod families;
#[cfg(test)]
mod figures;
#[cfg(test)]
mod laws;
#[cfg(test)]
#[path = "../common/random.rs"]
mod random;
#[cfg(test)]
mod refusals;
#[cfg(test)]
mod second_opinion;
#[cfg(test)]
mod slow;
