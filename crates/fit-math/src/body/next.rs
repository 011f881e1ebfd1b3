//! Measure this next: which further reading would tell most of the question on the table.
//!
//! The question is a gradient over the dimensions (how much an answer turns with each); what
//! matters is how much less its doubt would be. How an answer turns with a body is not known here.

use super::{Body, Gradient, Item};

/// A reading not yet taken, and what it would be worth.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Worth {
    /// What would be read, once.
    pub item: Item,
    /// Standard deviation of the question now, in its own unit.
    pub sd_now: f64,
    /// The same with that reading.
    pub sd_then: f64,
}

/// The items that were not read, the one first that leaves the least doubt of the question. A
/// shoulder breadth counts as read whichever landmark was felt.
///
/// Source: the variance of a conditional normal does not depend on what is read (textbook); of an
/// unknown sex, to first order.
pub fn measure_next(body: &Body, question: &Gradient, of: &[Item]) -> Vec<Worth> {
    let normal = body.normal();
    let sd_now = normal.sd_of(question);
    let read = |item: &Item| body.has_read(*item);
    let mut worth: Vec<Worth> = of
        .iter()
        .filter(|item| !read(item))
        .map(|&item| {
            let gradient = item.gradient();
            let error = item.measuring_sd().powi(2) + item.lasting_sd().powi(2);
            let variance = normal.sd_of(&gradient).powi(2) + error;
            let told = normal.covariance_of(question, &gradient).powi(2) / variance;
            Worth { item, sd_now, sd_then: (sd_now * sd_now - told).max(0.0).sqrt() }
        })
        .collect();
    worth.sort_by(|a, b| a.sd_then.total_cmp(&b.sd_then));
    worth
}
