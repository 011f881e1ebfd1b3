//! How sure numbers and changes are, in the output: in the shape of the numbers themselves. Angles in
//! degrees, lengths in mm.

use super::doubt::{ASKED, Doubted, doubted_of};
use super::output::{DeltaOut, Number, PlaceKey};
use super::weighed::{Weighed, WeighedCockpit};
use fit_math::doubt::{Asked, tells};
use serde::Serialize;
use std::collections::BTreeMap;

/// One standard deviation of each number of a hand place, by its key.
pub(super) type PlaceDoubts = BTreeMap<PlaceKey, BTreeMap<&'static str, Number>>;

/// The same of what changes from hoods to drops.
#[derive(Serialize)]
pub(super) struct TravelsDoubtOut {
    hoods_to_drops: BTreeMap<&'static str, Number>,
}

fn is_angle(of: Doubted) -> bool {
    match of {
        Doubted::At(_, asked) | Doubted::Travel(asked) => asked != Asked::Protraction,
        Doubted::Hand(..)
        | Doubted::HandTravel
        | Doubted::Brake(_)
        | Doubted::Steering(_)
        | Doubted::Effect(..) => false,
    }
}

/// In the output's unit.
fn shown(of: Doubted, sd: f64) -> f64 {
    if is_angle(of) { sd.to_degrees() } else { sd }
}

/// Of all numbers of one cockpit's hand places; nothing of a place that is out of reach.
pub(super) fn places(weighed: &Weighed, of: &WeighedCockpit) -> PlaceDoubts {
    let at = |&place: &_| {
        let sd = |&(key, asked): &(&'static str, Asked)| {
            let number = Doubted::At(place, asked);
            Some((key, Number(shown(number, weighed.sd(of, number)?))))
        };
        let all: BTreeMap<_, _> = ASKED.iter().filter_map(sd).collect();
        (!all.is_empty()).then_some((PlaceKey(place), all))
    };
    of.places.keys().filter_map(at).collect()
}

/// Of what changes from hoods to drops.
pub(super) fn travel(weighed: &Weighed, of: &WeighedCockpit) -> Option<TravelsDoubtOut> {
    let numbers = [
        ("hand", Doubted::HandTravel),
        ("trunk", Doubted::Travel(Asked::Trunk)),
        ("hip_min", Doubted::Travel(Asked::HipMin)),
        ("neck", Doubted::Travel(Asked::Neck)),
    ];
    let sd = |(key, number)| Some((key, Number(shown(number, weighed.sd(of, number)?))));
    let hoods_to_drops: BTreeMap<_, _> = numbers.into_iter().filter_map(sd).collect();
    (!hoods_to_drops.is_empty()).then_some(TravelsDoubtOut { hoods_to_drops })
}

/// A change of the number under that path, in the output's unit, with its doubt where that is
/// followed.
pub(super) fn delta(
    weighed: &Weighed,
    [from, to]: [Option<&WeighedCockpit>; 2],
    path: &str,
    delta: f64,
) -> DeltaOut {
    let sd = doubted_of(path).and_then(|number| {
        let change = if is_angle(number) { delta.to_radians() } else { delta };
        let sd = weighed.change_sd(from?, to?, number, change)?;
        Some(shown(number, sd))
    });
    DeltaOut { delta: Number(delta), sd: sd.map(Number), tells: sd.map(|sd| tells(delta, sd)) }
}
