//! What is said to the client in English.

use super::{English, names, number, sheet};
use crate::client_view::Plain;
use crate::words::{ClientWords, Decision};
use fit_doc::{HandPlace, SendOn};
use fit_units::Unit;

impl ClientWords for English {
    fn plain(&self, of: Plain) -> String {
        match of {
            Plain::AsItCame => "This is your bike as it came.".to_owned(),
            Plain::HandsStay { place } => {
                format!("Your hands, {}, are about where they were.", names::with_hands(place))
            }
            Plain::HandsMoved { place, further_mm, higher_mm } => {
                let part = |by: i64, more: &str, less: &str| {
                    let amount = number::whole(by.saturating_abs(), Unit::Millimetre);
                    (by != 0).then(|| format!("{amount} {}", if by > 0 { more } else { less }))
                };
                let parts = [
                    part(further_mm, "further away", "nearer"),
                    part(higher_mm, "higher", "lower"),
                ];
                let parts: Vec<String> = parts.into_iter().flatten().collect();
                let (place, moved) = (names::with_hands(place), parts.join(" and "));
                format!("Your hands, {place}, are {moved} than on the bike as it came.")
            }
            Plain::Otherwise { upright_deg, brake_nearer_mm } => {
                let sits = (upright_deg != 0).then(|| {
                    let amount = number::whole(upright_deg.saturating_abs(), Unit::Degree);
                    if upright_deg > 0 {
                        format!("you sit {amount} more upright")
                    } else {
                        format!("you lean {amount} further forward")
                    }
                });
                let brake = (brake_nearer_mm != 0).then(|| {
                    let amount = number::whole(brake_nearer_mm.saturating_abs(), Unit::Millimetre);
                    let way = if brake_nearer_mm > 0 { "nearer to" } else { "further from" };
                    format!("the brake lever is {amount} {way} your fingers")
                });
                let parts: Vec<String> = sits.into_iter().chain(brake).collect();
                format!("{}.", names::capital(&parts.join(", and ")))
            }
            Plain::RideIt => "Ride it and say how it feels.".to_owned(),
            // what he told is not written over the room
            Plain::SentOn(SendOn::LegAndBladder) => {
                "Stop here: please see a doctor today.".to_owned()
            }
            Plain::SentOn(_) => "Please see a health professional first.".to_owned(),
            Plain::Waits => "The bike waits until then.".to_owned(),
        }
    }

    fn sheet_noted(&self, label: &str, decision: Decision) -> String {
        sheet::noted(label, decision)
    }

    fn plain_hands(&self, place: HandPlace) -> String {
        format!("Hands {}", names::with_hands(place))
    }

    fn plain_picture(&self, label: &str, as_it_came: bool) -> String {
        if as_it_came {
            "You on your bike as it came".to_owned()
        } else {
            format!("You on {label}, and your bike as it came")
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_told_of_the_hands_names_only_what_changed() {
        let place = HandPlace::Hoods;
        let said = |further_mm, higher_mm| {
            English.plain(Plain::HandsMoved { place, further_mm, higher_mm }).replace('\u{a0}', " ")
        };
        assert_eq!(
            said(-18, 12),
            "Your hands, on the hoods, are 18 mm nearer and 12 mm higher than on the bike as it came."
        );
        assert_eq!(
            said(0, -5),
            "Your hands, on the hoods, are 5 mm lower than on the bike as it came."
        );
        let said = |upright_deg, brake_nearer_mm| {
            let otherwise = Plain::Otherwise { upright_deg, brake_nearer_mm };
            English.plain(otherwise).replace('\u{a0}', " ")
        };
        assert_eq!(said(3, 0), "You sit 3° more upright.");
        assert_eq!(said(0, 10), "The brake lever is 10 mm nearer to your fingers.");
        assert_eq!(
            said(-2, -4),
            "You lean 2° further forward, and the brake lever is 4 mm further from your fingers."
        );
    }
}
