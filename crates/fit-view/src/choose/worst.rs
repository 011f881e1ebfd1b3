//! Of several complaints the worst is answered first: what does something for it stands before what does
//! something for a much lesser one only.

use super::beats::Found;
use super::rules::{Common, FOR_WHAT_IS_ASKED};
use fit_doc::{Visit, Wanted};

/// Scores that are no further apart are close, of ten: a complaint that falls by as much counts as met
/// (common practice, no source; that it is held to here is judgement).
const CLOSE: u8 = 3;

/// The aims of complaints whose scores are close to that of the worst of them, the worst first; none where
/// the fitter said what is wanted.
fn by_score(visit: &Visit) -> Vec<Vec<Wanted>> {
    let mut all: Vec<(u8, Vec<Wanted>)> = Vec::new();
    for of in visit.still_bad().into_iter().filter(|_| visit.wanted.is_empty()) {
        let score = of.as_bad_as();
        match all.last_mut() {
            Some((worst, aims)) if *worst <= score + CLOSE => aims.extend(of.aims()),
            _ => all.push((score, of.aims())),
        }
    }
    all.into_iter().map(|(_, aims)| aims).collect()
}

/// The same in the order of complaints: one step for a worse one before what does something for a lesser one
/// only, and several changes for it where no step does anything for it.
pub(super) fn worse_first<'a>(common: Common<'_>, found: Vec<Found<'a>>) -> Vec<Found<'a>> {
    let complaints = by_score(common.visit);
    if complaints.len() < 2 {
        return found;
    }
    let worst = |of: &Found<'_>| {
        let speaks = |wanted: &Vec<Wanted>| {
            let case = Common { wanted, ..common }.case(of.to, &of.work);
            let mut said = FOR_WHAT_IS_ASKED.iter().flat_map(|rule| rule(&case));
            said.any(|reason| reason.is_about_an_aim())
        };
        complaints.iter().position(speaks).unwrap_or(complaints.len())
    };
    let mut all: Vec<(usize, Found<'a>)> = found.into_iter().map(|of| (worst(&of), of)).collect();
    let mut at = 0;
    while at < all.len() {
        let told = |of: usize| all[..at].iter().any(|(worst, _)| *worst <= of);
        let goes_before = |&next: &usize| {
            let (worst, of) = &all[next];
            *worst < all[at].0 && (of.work.steps.len() == 1 || !told(*worst))
        };
        match (at + 1..all.len()).find(goes_before) {
            Some(next) => all[at..=next].rotate_right(1),
            None => at += 1,
        }
    }
    all.into_iter().map(|(_, of)| of).collect()
}

#[cfg(test)]
#[path = "worst_tests.rs"]
mod tests;
