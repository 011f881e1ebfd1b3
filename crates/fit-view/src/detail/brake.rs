//! The brake from one hand place in every setting of the reach screw, and what would bring it nearer.

use super::{Block, Line, mm, whole};
use crate::weigh::{Weighed, WeighedCockpit};
use crate::words::{DetailText as T, Words};
use fit_doc::HandPlace;
use fit_math::frame::Side;
use fit_math::hand::{
    BrakeAnswer, BrakeReach, BrakeSetting, BrakeSide, Cover, hand_to_reach, lever_down_gain_mm,
};

/// How far down the bend a lever is tried, mm (common practice, no source: 5 to 10).
const LEVER_DOWN_MM: f64 = 10.0;
/// What is no more than rounding, mm.
const SAME_MM: f64 = 0.5;

/// A setting by the whole numbers that are shown of it: what stands there as 0 is reached, on either side.
fn as_shown(of: &BrakeSetting) -> BrakeSetting {
    BrakeSetting {
        reserve_mm: of.reserve_mm.round(),
        squeeze_gap_mm: of.squeeze_gap_mm.round(),
        ..*of
    }
}

/// The table with its sentences; none where there is no brake.
pub(super) fn brake(
    weighed: &Weighed,
    of: &WeighedCockpit,
    place: HandPlace,
    words: &dyn Words,
) -> Option<Block> {
    let (reach, covers) = (of.brake(place)?, of.brakes?.covers);
    let hands = Hands { reach: &reach, covers };
    let said = |text| words.detail(text);
    // of hands that stand apart what is left over says enough
    let spans = (hands.shown().len() == 1).then_some(T::SpanColumn);
    let spares = hands.shown().into_iter().map(T::SpareColumn);
    let columns = spans.into_iter().chain(spares).chain([T::SqueezeColumn]).map(said);
    let mut notes: Vec<T> = hands.covered().into_iter().map(|side| hands.cover(side)).collect();
    notes.extend(hands.shown().into_iter().map(|side| hands.answer(side)));
    if place == HandPlace::Drops {
        notes.extend(nearer(of, hands.reach.worse(), &covers));
        notes.push(T::BrakeLaw);
    } else {
        notes.push(T::BrakeLawHoods);
    }
    let seen_on = weighed.brake_seen_on(of);
    let seen_on = (!seen_on.is_empty()).then(|| words.brake_stands_on(&seen_on));
    Some(Block {
        heading: said(T::Brake(place)),
        columns: columns.collect(),
        rows: hands.rows(words),
        notes: notes.into_iter().map(said).chain(seen_on).collect(),
    })
}

/// Both hands; where they are alike one is spoken of.
struct Hands<'a> {
    reach: &'a BrakeReach,
    covers: [Cover; 2],
}

impl Hands<'_> {
    /// The sides that stand apart; none: both are alike.
    fn shown(&self) -> Vec<Option<Side>> {
        let [left, right] = &self.reach.sides;
        let close = |a: f64, b: f64| (a - b).abs() < SAME_MM;
        let settings = left.settings.iter().zip(&right.settings);
        let alike = left.now.clicks == right.now.clicks
            && close(self.covers[0].mm, self.covers[1].mm)
            && settings.into_iter().all(|(a, b)| {
                close(a.span_mm, b.span_mm) && close(a.squeeze_gap_mm, b.squeeze_gap_mm)
            });
        if alike { vec![None] } else { Side::BOTH.map(Some).into() }
    }

    /// The sides that cover each another span; none: both cover the same.
    fn covered(&self) -> Vec<Option<Side>> {
        let [left, right] = self.covers;
        if left == right { vec![None] } else { Side::BOTH.map(Some).into() }
    }

    /// One side; of two that are alike the one with less to spare.
    fn side(&self, side: Option<Side>) -> &BrakeSide {
        side.map_or_else(|| self.reach.worse(), |side| self.reach.side(side))
    }

    fn rows(&self, words: &dyn Words) -> Vec<Line> {
        let shown = self.shown();
        let first = self.side(shown.first().copied().flatten());
        let row = |index: usize, clicks: u32| {
            let all: Vec<_> = shown.iter().map(|&side| self.side(side)).collect();
            let settings = all.iter().filter_map(|side| side.settings.get(index));
            let span = settings.clone().map(|of| of.span_mm).filter(|_| shown.len() == 1);
            let spare = settings.clone().map(|of| of.reserve_mm);
            let squeeze = settings.clone().map(|of| of.squeeze_gap_mm).reduce(f64::min);
            let cells = span.chain(spare).chain(squeeze).map(mm);
            let now = all.iter().any(|side| side.now.clicks == clicks);
            Line {
                name: words.detail(T::Setting { clicks, now }),
                cells: cells.collect(),
                falls_short: settings.clone().any(|setting| !as_shown(setting).works()),
            }
        };
        first.settings.iter().enumerate().map(|(index, of)| row(index, of.clicks)).collect()
    }

    fn cover(&self, side: Option<Side>) -> T {
        let cover = self.covers[self.side(side).side as usize];
        T::Cover { side, mm: whole(cover.mm), sd_mm: whole(cover.sd_mm), known: cover.known }
    }

    fn answer(&self, side: Option<Side>) -> T {
        let exact = self.side(side);
        let of = BrakeSide {
            side: exact.side,
            now: as_shown(&exact.now),
            settings: exact.settings.iter().map(as_shown).collect(),
        };
        match of.answer() {
            BrakeAnswer::Works(_) if of.now.works() => {
                T::Works { side, clicks: of.now.clicks, already: true }
            }
            BrakeAnswer::Works(least) => T::Works { side, clicks: least.clicks, already: false },
            BrakeAnswer::TooNearTheBar(least) => {
                let gap_mm = whole(least.squeeze_gap_mm);
                T::TooNearTheBar { side, clicks: least.clicks, gap_mm }
            }
            BrakeAnswer::OutOfReach(nearest) => {
                let short_mm = whole(-nearest.reserve_mm).max(1);
                T::NoneReaches { side, clicks: nearest.clicks, short_mm }
            }
        }
    }
}

/// What would bring a lever nearer that is out of reach as it stands: the hand, then the lever.
fn nearer(of: &WeighedCockpit, worse: &BrakeSide, covers: &[Cover; 2]) -> Vec<T> {
    if as_shown(&worse.now).reaches() {
        return Vec::new();
    }
    let Some(poses) = of.cockpit.lever_poses() else { return Vec::new() };
    let (lever, cover) = (&poses[worse.side as usize], covers[worse.side as usize]);
    let (bend, hand_mm) = (of.cockpit.bend(), of.cockpit.drops_hand_mm());
    let hand = hand_to_reach(bend, lever, worse.now.clicks, cover.mm, hand_mm);
    let hand = hand.map_or(T::NowhereInTheHook, |hand| T::HandUp { mm: whole(hand.up_mm).max(1) });
    let lever = lever_down_gain_mm(bend, lever, LEVER_DOWN_MM, hand_mm)
        .filter(|gain_mm| *gain_mm >= SAME_MM)
        .map(|gain_mm| T::LeverDown { mm: whole(LEVER_DOWN_MM), nearer_mm: whole(gain_mm) });
    core::iter::once(hand).chain(lever).collect()
}
