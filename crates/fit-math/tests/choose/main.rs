//! The search of what is worth trying against putting every assembly together: the same list, the
//! same front, the same counts; and the table of postures against postures that are solved.

#[cfg(test)]
mod counts;
#[cfg(test)]
mod draw;
#[cfg(test)]
mod equal;
#[cfg(test)]
mod front;
#[cfg(test)]
#[path = "../common/lever.rs"]
mod lever;
#[cfg(test)]
mod plain;
#[cfg(test)]
#[path = "../common/random.rs"]
mod random;
#[cfg(test)]
mod refused;
#[cfg(test)]
#[path = "../common/surveyed.rs"]
mod surveyed;
#[cfg(test)]
mod table;
