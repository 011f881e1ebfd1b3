//! Changes to what was decided.

use super::{UndoStep, no_cockpit};
use crate::work::{Job, Work};
use crate::{Elsewhere, Message, Price, Quantity, Veto, Visit};

pub(super) fn choose(visit: &mut Visit, id: Option<&str>) -> Result<UndoStep, Message> {
    let label = match id {
        Some(id) => Some(label(visit, id)?),
        None => None,
    };
    visit.chosen = id.map(str::to_owned);
    if let Some(id) = id {
        // what is chosen will do after all
        visit.vetoes.retain(|veto| veto.cockpit != id);
    }
    if has_another_bar(visit) {
        visit.elsewhere = None;
    }
    Ok(UndoStep::Choose { label })
}

/// Where the answer is not a bar, no other bar stays chosen.
pub(super) fn elsewhere(visit: &mut Visit, to: Option<Elsewhere>) -> UndoStep {
    visit.elsewhere = to;
    if to.is_some() && has_another_bar(visit) {
        visit.chosen = None;
    }
    UndoStep::Elsewhere { to }
}

/// The chosen cockpit has another bar than the bike came with.
fn has_another_bar(visit: &Visit) -> bool {
    let chosen = visit.chosen.as_ref().and_then(|id| visit.cockpit(id));
    let work = chosen.map(|to| Work::between(&visit.as_it_came, to));
    work.is_some_and(|work| work.steps.iter().any(|step| step.job == Job::OtherBar))
}

/// What the client will not have is not chosen any more.
pub(super) fn veto(
    visit: &mut Visit,
    cockpit: &str,
    to: Option<&str>,
) -> Result<UndoStep, Message> {
    let label = label(visit, cockpit)?;
    let before = visit.veto(cockpit).is_some();
    visit.vetoes.retain(|veto| veto.cockpit != cockpit);
    if let Some(words) = to {
        visit.vetoes.push(Veto { cockpit: cockpit.to_owned(), words: words.to_owned() });
        visit.chosen.take_if(|chosen| chosen == cockpit);
    }
    Ok(match to {
        Some(_) if before => UndoStep::VetoSaid { label },
        to => UndoStep::Veto { label, to: to.is_some() },
    })
}

pub(super) fn hour(visit: &mut Visit, to: Option<Price>) -> UndoStep {
    let units = |price: Price| f64::from(price.cents) / 100.0;
    let from = core::mem::replace(&mut visit.hour, to).map(units);
    UndoStep::Number { of: None, quantity: Quantity::HourPrice, from, to: to.map(units) }
}

fn label(visit: &Visit, id: &str) -> Result<String, Message> {
    Ok(visit.cockpit(id).ok_or_else(|| no_cockpit(id))?.label.clone())
}
