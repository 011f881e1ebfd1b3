//! Tests of chains of lines and arcs.

#[cfg(test)]
mod laws;
#[cfg(test)]
mod reference;
