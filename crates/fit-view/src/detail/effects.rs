//! What a cockpit does beyond the body: wind, weight on hands and wheels, steering, and the rules of
//! events where the client rides them. As differences from the cockpit as it came, and only where
//! they tell.

use super::{Block, Line, mm, whole};
use crate::weigh::{Doubted, Effect, Weighed, WeighedCockpit};
use crate::words::{DetailText as T, Words};
use fit_doc::{Dimension, HandPlace, event_rules};
use fit_math::doubt::{TELLS_SD, tells};
use fit_math::effect::air::Air;
use fit_math::effect::load::{BIKE_KG, LEAST_FRONT_SHARE};
use fit_math::effect::power::{CHAIN_PASSES_ON, ROLLING, Ride, WHOLE_DRAG_COEFFICIENT, Worth};
use fit_math::effect::silhouette::BIKE_M2;

/// Speeds at which an outline's worth is told, km/h (judgement: a brisk ride alone, and a fast one).
const SPEEDS_KM_H: [i64; 2] = [30, 40];
/// The air that is reckoned with: °C and share of the most water it can hold.
const CELSIUS: f64 = 20.0;
const HUMIDITY: f64 = 0.5;
/// cm² of a m².
const CM2_OF_M2: f64 = 1e4;
/// km/h of a m/s.
const KM_H_OF_M_S: f64 = 3.6;

/// A change of an effect from the cockpit as it came.
struct Change {
    before: f64,
    by: f64,
    /// One standard deviation; none near a joint's limit, where slopes tell nothing.
    sd: Option<f64>,
}

impl Change {
    /// None on the cockpit as it came, and where one of the two has no such number.
    fn of(
        weighed: &Weighed,
        of: &WeighedCockpit,
        place: HandPlace,
        effect: Effect,
    ) -> Option<Self> {
        let came = weighed.as_it_came().filter(|came| came.id != of.id)?;
        let number = |of| weighed.effects(of, place)?.get(effect);
        let before = number(came)?;
        let by = number(of)? - before;
        let sd = weighed.change_sd(came, of, Doubted::Effect(place, effect), by);
        Some(Self { before, by, sd })
    }

    /// What is said of it where it does not tell.
    fn untold(&self) -> Option<T> {
        match self.sd {
            _ if self.by == 0.0 => Some(T::AsBefore),
            None => Some(T::NotReckoned),
            Some(sd) => (!tells(self.by, sd)).then_some(T::TooSmall),
        }
    }
}

fn row(words: &dyn Words, name: T, cell: T) -> Line {
    Line { name: words.detail(name), cells: vec![words.detail(cell)], falls_short: false }
}

/// What the wind sees, and what that is worth at a speed.
pub(super) fn wind(
    weighed: &Weighed,
    of: &WeighedCockpit,
    place: HandPlace,
    words: &dyn Words,
) -> Option<Block> {
    let change = Change::of(weighed, of, place, Effect::Outline)?;
    let untold = change.untold();
    let area = T::Area {
        cm2: whole(CM2_OF_M2 * change.by),
        percent: whole(100.0 * change.by / change.before),
    };
    let mut rows = vec![row(words, T::Outline, untold.unwrap_or(area))];
    if untold.is_none() {
        for km_h in SPEEDS_KM_H {
            let worth = worth(weighed, &change, km_h as f64 / KM_H_OF_M_S)?;
            rows.push(row(words, T::Holding { km_h }, T::PowerMore(worth.watts.map(whole))));
        }
        // the seconds hardly hang on the speed
        let km_h = SPEEDS_KM_H[0];
        let worth = worth(weighed, &change, km_h as f64 / KM_H_OF_M_S)?;
        let seconds = worth.seconds_per_hour.map(whole);
        rows.push(row(words, T::AnHour { km_h }, T::Longer(seconds)));
    }
    Some(Block {
        heading: words.detail(T::Wind),
        columns: vec![words.detail(T::AgainstCame)],
        rows,
        notes: vec![words.detail(T::WindMeans)],
    })
}

/// What the change is worth at that speed, from the least to the most that it may be.
fn worth(weighed: &Weighed, change: &Change, speed_m_s: f64) -> Option<Worth> {
    let air = Air::at_height(CELSIUS, 0.0, HUMIDITY).ok()?;
    let ride = Ride {
        mass_kg: weighed.body.value(Dimension::Weight) + BIKE_KG,
        drag_area_m2: WHOLE_DRAG_COEFFICIENT * (change.before + BIKE_M2),
        rolling: ROLLING,
        grade: 0.0,
        headwind_m_s: 0.0,
        density_kg_m3: air.density_kg_m3(),
        passed_on: CHAIN_PASSES_ON,
    };
    let ride = ride.checked().ok()?;
    let off = TELLS_SD * change.sd.unwrap_or_default();
    let [a, b] = [change.by - off, change.by + off].map(|more_m2| ride.worth(speed_m_s, more_m2));
    let hull = |a: [f64; 2], b: [f64; 2]| [a[0].min(b[0]), a[1].max(b[1])];
    Some(Worth {
        watts: hull(a.watts, b.watts),
        seconds_per_hour: hull(a.seconds_per_hour, b.seconds_per_hour),
    })
}

/// What hands and front wheel bear.
pub(super) fn load(
    weighed: &Weighed,
    of: &WeighedCockpit,
    place: HandPlace,
    words: &dyn Words,
) -> Option<Block> {
    let on_hands = Change::of(weighed, of, place, Effect::OnHands).map(|change| {
        let percent = whole(100.0 * change.by / change.before);
        let same = (percent == 0).then_some(T::AsBefore);
        row(words, T::OnHands, change.untold().or(same).unwrap_or(T::PercentMore(percent)))
    });
    let front = weighed.effects(of, place)?.get(Effect::OnFrontWheel);
    let change = Change::of(weighed, of, place, Effect::OnFrontWheel);
    let falls_short = front.is_some_and(|share| share < LEAST_FRONT_SHARE);
    let on_front = front.map(|share| {
        let percent = whole(100.0 * share);
        let told = change.as_ref().filter(|change| change.untold().is_none());
        // of the numbers shown, so that they add up
        let more = told.map(|change| percent - whole(100.0 * change.before));
        let text = T::FrontShare { percent, more: more.filter(|more| *more != 0) };
        Line { falls_short, ..row(words, T::OnFrontWheel, text) }
    });
    let rows: Vec<Line> = on_hands.into_iter().chain(on_front).collect();
    let too_light = falls_short.then(|| words.detail(T::FrontTooLight));
    (!rows.is_empty()).then(|| Block {
        heading: words.detail(T::Load),
        columns: vec![String::new()],
        rows,
        notes: too_light.into_iter().chain([words.detail(T::LoadMeans)]).collect(),
    })
}

/// How the hands stand to the steering axis, and what no cockpit changes.
pub(super) fn steering(
    weighed: &Weighed,
    of: &WeighedCockpit,
    place: HandPlace,
    words: &dyn Words,
) -> Option<Block> {
    let at = of.places.get(&place)?;
    let came = weighed.as_it_came().filter(|came| came.id != of.id);
    let effort = came.and_then(|came| {
        let by = at.steer_effort(came.places.get(&place)?) - 1.0;
        let sd = weighed.change_sd(came, of, Doubted::Steering(place), by);
        let percent = whole(100.0 * by);
        let same = (percent == 0).then_some(T::AsBefore);
        let told = same.or(Change { before: 1.0, by, sd }.untold());
        Some(row(words, T::Effort, told.unwrap_or(T::PercentMore(percent))))
    });
    let number = |name, value: f64| Line {
        name: words.detail(name),
        cells: vec![mm(value)],
        falls_short: false,
    };
    let rest = [
        number(T::AheadOfAxis, at.about_axis.ahead_mm),
        number(T::Trail, of.trail_mm),
        number(T::Flop, of.flop_mm),
    ];
    Some(Block {
        heading: words.detail(T::Steering),
        columns: vec![String::new()],
        rows: effort.into_iter().chain(rest).collect(),
        notes: vec![words.detail(T::SteeringMeans)],
    })
}

/// What the rules of the client's events ask of the bar; none where nobody asked for them, and
/// before they begin.
pub(super) fn events(weighed: &Weighed, of: &WeighedCockpit, words: &dyn Words) -> Option<Block> {
    let rules = event_rules(&of.cockpit, weighed.visit);
    let rows: Vec<Line> = rules
        .iter()
        .map(|rule| {
            let asks = T::EventAsks { number: rule.number, mm: whole(rule.asked_mm) };
            Line {
                name: words.detail(T::Event(rule.number)),
                cells: vec![mm(rule.mm), words.detail(asks)],
                falls_short: !rule.is_kept(),
            }
        })
        .collect();
    (weighed.event_rules && !rows.is_empty()).then(|| Block {
        heading: words.detail(T::Events),
        columns: [T::RoomColumn, T::AskedColumn].map(|of| words.detail(of)).into(),
        rows,
        notes: vec![words.detail(T::EventsMean)],
    })
}
