//! Changes to what was decided.

use super::{UndoStep, no_cockpit};
use crate::{Elsewhere, Message, Price, Quantity, Veto, Visit};

pub(super) fn choose(visit: &mut Visit, id: Option<&str>) -> Result<UndoStep, Message> {
    let label = match id {
        Some(id) => Some(label(visit, id)?),
        None => None,
    };
    visit.chosen = id.map(str::to_owned);
    Ok(UndoStep::Choose { label })
}

pub(super) fn elsewhere(visit: &mut Visit, to: Option<Elsewhere>) -> UndoStep {
    visit.elsewhere = to;
    UndoStep::Elsewhere { to }
}

/// What the client will not have is not chosen any more.
pub(super) fn veto(
    visit: &mut Visit,
    cockpit: &str,
    to: Option<&str>,
) -> Result<UndoStep, Message> {
    let label = label(visit, cockpit)?;
    visit.vetoes.retain(|veto| veto.cockpit != cockpit);
    if let Some(words) = to {
        visit.vetoes.push(Veto { cockpit: cockpit.to_owned(), words: words.to_owned() });
        visit.chosen.take_if(|chosen| chosen == cockpit);
    }
    Ok(UndoStep::Veto { label, to: to.is_some() })
}

pub(super) fn hour(visit: &mut Visit, to: Option<Price>) -> UndoStep {
    let units = |price: Price| f64::from(price.cents) / 100.0;
    let from = core::mem::replace(&mut visit.hour, to).map(units);
    UndoStep::Number { of: None, quantity: Quantity::HourPrice, from, to: to.map(units) }
}

fn label(visit: &Visit, id: &str) -> Result<String, Message> {
    Ok(visit.cockpit(id).ok_or_else(|| no_cockpit(id))?.label.clone())
}
