//! From tape: the cockpit that explains readings, and the reading that does not go with the rest.

#[cfg(test)]
mod coverage;
#[cfg(test)]
mod doors;
#[cfg(test)]
mod draw;
#[cfg(test)]
mod exact;
#[cfg(test)]
mod gross;
#[cfg(test)]
#[path = "../common/random.rs"]
mod random;
#[cfg(test)]
mod slips;
