//! A shop's parts before they are put together: what of an assembly follows from bar and lever
//! alone, from stem and spacers alone, and which of them are left out.
//!
//! Grips in the bar frame, before roll, mm. A grip is then the clamp plus the rolled grip: what
//! brings it there costs a few multiplications.

use super::aims::{Asked, OfBar, Terms};
use super::limits::{self, Allowed, Counts, Limited, Why};
use super::shop::{Bar, Jobs, Pick, Setting, Shop};
use crate::HandPlace;
use crate::cockpit::{GripPair, HandPlaces, LeverPose, clamp_position};
use crate::frame::Side;
use crate::hand::{palm_room, spans_now_mm};
use glam::{DVec2, DVec3};

/// A setting that may be used, or that the present cockpit has.
#[derive(Debug, Clone, Copy)]
pub(super) struct Usable {
    /// Where it stands in its list.
    pub(super) index: usize,
    pub(super) effort: f64,
    pub(super) jobs: Jobs,
    /// No range leaves it out.
    pub(super) allowed: bool,
}

/// A roll, with its cosine and sine.
#[derive(Debug, Clone, Copy)]
pub(super) struct Rolled {
    pub(super) usable: Usable,
    pub(super) at_rad: f64,
    pub(super) cos_sin: DVec2,
}

/// A lever place.
#[derive(Debug, Clone)]
pub(super) struct Shifted {
    pub(super) usable: Usable,
    /// The least and the most roll that goes with it, radians.
    rolls_rad: (f64, f64),
    pub(super) numbers: BarNumbers,
    /// What they are worth.
    pub(super) worth: f64,
}

impl Shifted {
    /// Whether a roll goes with it.
    #[inline]
    pub(super) fn goes_with(&self, roll: &Rolled) -> bool {
        is_between(self.rolls_rad, roll.at_rad)
    }
}

#[inline]
fn is_between((from, to): (f64, f64), at: f64) -> bool {
    (from..=to).contains(&at)
}

/// Grips of one hand place on one bar.
#[derive(Debug, Clone)]
pub(super) struct PlaceOnBar {
    /// The grips move with the levers: one for each lever place, else one for all.
    pub(super) moves: bool,
    /// Midway between the hands, bar frame, mm.
    pub(super) grips: Vec<DVec3>,
    /// Left and right mirror each other in every lever place.
    pub(super) even: bool,
    /// No hand is on the other's side.
    pub(super) uncrossed: bool,
    /// The box of the rolled grips about the clamp, mm.
    pub(super) around: (DVec3, DVec3),
}

/// A bar that something can be made of.
#[derive(Debug, Clone)]
pub(super) struct OnBar {
    pub(super) rolls: Vec<Rolled>,
    pub(super) shifts: Vec<Shifted>,
    pub(super) places: Vec<PlaceOnBar>,
    /// The most that the numbers of bar and lever are worth.
    pub(super) best_worth: f64,
    /// The least effort of roll and lever place.
    pub(super) least_effort: f64,
    /// The sets of jobs that a roll and a lever place have together, each once.
    pub(super) jobs: Vec<Jobs>,
    /// Why the bar is left out.
    pub(super) out: Option<Why>,
    /// Clamp for every height of spacers on its own stem.
    pub(super) own_clamps: Vec<DVec2>,
}

/// The shop's parts, prepared.
#[derive(Debug, Clone)]
pub(super) struct Prepared {
    pub(super) bars: Vec<OnBar>,
    pub(super) stems_out: Vec<Option<Why>>,
    pub(super) spacers_out: Vec<Option<Why>>,
    /// Clamp for every stem (rows) and height of spacers.
    pub(super) clamps: Vec<DVec2>,
    /// What bar and stem may cost.
    price: Option<(f64, f64)>,
    pub(super) left_out: Counts,
}

impl Prepared {
    pub(super) fn new(shop: &Shop, asked: &Asked, ranges: &[Allowed]) -> Self {
        let stems_out = shop.stems.iter().map(|stem| limits::of_stem(ranges, stem)).collect();
        let of_spacers = |s: &Setting| limits::of_setting(ranges, Limited::Spacers, s);
        let spacers_out = shop.spacers.iter().map(of_spacers).collect();
        let clamp = |stem, spacers: &Setting| clamp_position(&shop.front, stem, spacers.at);
        let row = |stem| shop.spacers.iter().map(move |spacers| clamp(stem, spacers));
        let clamps = shop.stems.iter().flat_map(|offer| row(&offer.stem)).collect();
        let mut prepared = Self {
            bars: Vec::new(),
            stems_out,
            spacers_out,
            clamps,
            price: limits::all_of(ranges, Limited::Price),
            left_out: Counts::new(),
        };
        let terms = asked.of_bar();
        for (index, bar) in shop.bars.iter().enumerate() {
            let out = limits::of_bar(ranges, bar);
            let present = shop.present.filter(|present| present.bar == index);
            let own_clamps = bar.own_stem.as_ref().map_or(Vec::new(), |own| row(own).collect());
            let (mut on, out_by) = on_bar(bar, asked, &terms, ranges, present.as_ref());
            on.own_clamps = own_clamps;
            on.out = out;
            prepared.count(shop, index, out, &out_by);
            prepared.bars.push(on);
        }
        prepared
    }

    /// Why bar and stem may not be put together.
    pub(super) fn pair_out(&self, shop: &Shop, bar: usize, stem: Option<usize>) -> Option<Why> {
        self.pair_with_out(shop, bar, self.bars[bar].out, stem)
    }

    fn pair_with_out(
        &self,
        shop: &Shop,
        bar: usize,
        bar_out: Option<Why>,
        stem: Option<usize>,
    ) -> Option<Why> {
        if shop.present.is_some_and(|present| present.bar == bar && present.stem == stem) {
            return None;
        }
        let of_stem = |stem: usize| {
            let clamps = limits::clamps(&shop.stems[stem], &shop.bars[bar]);
            if clamps { self.stems_out[stem] } else { Some(Why::ClampDiameter) }
        };
        bar_out.or_else(|| of_stem(stem?)).or_else(|| {
            let paid =
                self.price.is_none() || limits::is_within(self.price, shop.price_of(bar, stem));
            (!paid).then_some(Why::Beyond(Limited::Price))
        })
    }

    /// Counts what is left out of the assemblies with that bar, but for minutes and effort.
    fn count(&mut self, shop: &Shop, index: usize, out: Option<Why>, settings: &SettingsOut) {
        let bar = &shop.bars[index];
        let (rolls, shifts) = (bar.rolls.len() as u64, bar.shifts.len() as u64);
        let mut counts = core::mem::take(&mut self.left_out);
        let mut add = |why: Why, count: u64| *counts.entry(why).or_default() += count;
        let mut pairs = 0;
        for stem in stems_for(shop, bar) {
            match self.pair_with_out(shop, index, out, stem) {
                Some(why) => add(why, shop.spacers.len() as u64 * rolls * shifts),
                None => pairs += 1,
            }
        }
        // what is left after each setting in turn
        let mut left = pairs;
        let in_turn =
            [(&self.spacers_out, rolls * shifts), (&settings.rolls, shifts), (&settings.shifts, 1)];
        for (list, others) in in_turn {
            for why in list.iter().flatten() {
                add(*why, left * others);
            }
            left *= list.iter().filter(|out| out.is_none()).count() as u64;
        }
        let apart = settings.allowed().filter(|of| !of.go_together(bar)).count() as u64;
        let spacers = self.spacers_out.iter().filter(|out| out.is_none()).count() as u64;
        add(Why::RollAtLever, pairs * spacers * apart);
        if let Some(present) = shop.present.filter(|present| present.bar == index) {
            let of = Settings { roll: present.roll, shift: present.shift };
            let out = self.spacers_out[present.spacers]
                .or(settings.rolls[present.roll])
                .or(settings.shifts[present.shift])
                .or((!of.go_together(bar)).then_some(Why::RollAtLever));
            if let Some(count) = out.and_then(|why| counts.get_mut(&why)) {
                *count -= 1;
            }
        }
        counts.retain(|_, count| *count > 0);
        self.left_out = counts;
    }
}

/// The stems that may stand beside a bar: its own, or every other.
pub(super) fn stems_for(shop: &Shop, bar: &Bar) -> impl Iterator<Item = Option<usize>> + use<> {
    let own = bar.own_stem.is_some();
    let count = if own { 1 } else { shop.stems.len() };
    (0..count).map(move |stem| (!own).then_some(stem))
}

/// Why settings of a bar are left out, each list in the order of the bar's.
struct SettingsOut {
    rolls: Vec<Option<Why>>,
    shifts: Vec<Option<Why>>,
}

/// A roll and a lever place, by their places in the lists of a bar.
#[derive(Clone, Copy)]
struct Settings {
    roll: usize,
    shift: usize,
}

impl Settings {
    fn go_together(self, bar: &Bar) -> bool {
        is_between(bar.rolls_with(self.shift), bar.rolls[self.roll].at)
    }
}

impl SettingsOut {
    /// Every roll with every lever place of which neither is left out by itself.
    fn allowed(&self) -> impl Iterator<Item = Settings> {
        fn left(list: &[Option<Why>]) -> impl Iterator<Item = usize> {
            list.iter().enumerate().filter(|(_, out)| out.is_none()).map(|(at, _)| at)
        }
        left(&self.rolls)
            .flat_map(move |roll| left(&self.shifts).map(move |shift| Settings { roll, shift }))
    }
}

fn on_bar(
    bar: &Bar,
    asked: &Asked,
    terms: &Terms<OfBar>,
    ranges: &[Allowed],
    present: Option<&Pick>,
) -> (OnBar, SettingsOut) {
    // neither is quick to find
    let wants = |of: OfBar, limited: Limited| {
        terms.each.iter().any(|term| term.0 == of) || ranges.iter().any(|r| r.of == limited)
    };
    let (spans, palms) =
        (wants(OfBar::BrakeSpan, Limited::BrakeSpan), wants(OfBar::PalmSpare, Limited::PalmSpare));
    let rolls_out: Vec<_> =
        bar.rolls.iter().map(|s| limits::of_setting(ranges, Limited::Roll, s)).collect();
    let usable = |index: usize, setting: &Setting, out: Option<Why>, present: Option<usize>| {
        let allowed = out.is_none();
        let usable = Usable { index, effort: setting.effort, jobs: setting.jobs, allowed };
        (allowed || present == Some(index)).then_some(usable)
    };
    let mut rolls: Vec<Rolled> = bar
        .rolls
        .iter()
        .enumerate()
        .filter_map(|(index, roll)| {
            let usable = usable(index, roll, rolls_out[index], present.map(|p| p.roll))?;
            Some(Rolled { usable, at_rad: roll.at, cos_sin: DVec2::from_angle(roll.at) })
        })
        .collect();
    let (mut shifts, mut shifts_out, mut hands) = (Vec::new(), Vec::new(), Vec::new());
    for (index, shift) in bar.shifts.iter().enumerate() {
        let is_present = present.is_some_and(|p| p.shift == index);
        let in_zone = bar.in_zone(shift.at);
        if !in_zone && !is_present {
            shifts_out.push(Some(Why::ClampZone));
            continue;
        }
        let numbers = bar_numbers(bar, asked, shift.at, spans, palms);
        let out = if in_zone {
            limits::beyond(ranges, |of| match of {
                Limited::LeverMoved => Some(shift.at),
                Limited::BrakeSpan => Some(numbers.get(OfBar::BrakeSpan)),
                Limited::PalmSpare => Some(numbers.get(OfBar::PalmSpare)),
                _ => None,
            })
        } else {
            Some(Why::ClampZone)
        };
        shifts_out.push(out);
        if let Some(usable) = usable(index, shift, out, present.map(|p| p.shift)) {
            let (rolls_rad, worth) = (bar.rolls_with(index), terms.worth(|of| numbers.get(of)));
            shifts.push(Shifted { usable, rolls_rad, numbers, worth });
            hands.push(hand_places(bar, shift.at));
        }
    }
    let may = |roll: &Rolled, shift: &Shifted| {
        let is_present = |p: &Pick| (p.roll, p.shift) == (roll.usable.index, shift.usable.index);
        shift.goes_with(roll) || present.is_some_and(is_present)
    };
    // what goes with nothing is not there
    let goes: Vec<bool> = shifts.iter().map(|of| rolls.iter().any(|roll| may(roll, of))).collect();
    (shifts, hands) = shifts
        .into_iter()
        .zip(hands)
        .zip(&goes)
        .filter(|(_, goes)| **goes)
        .map(|(both, _)| both)
        .unzip();
    rolls.retain(|roll| shifts.iter().any(|shift| may(roll, shift)));
    let settings = (&rolls[..], &shifts[..]);
    let places = asked.places.iter().map(|&(place, _)| place_on_bar(place, &hands, settings, may));
    let least = |list: &mut dyn Iterator<Item = f64>| list.fold(f64::INFINITY, f64::min);
    let mut jobs: Vec<Jobs> = Vec::new();
    for roll in &rolls {
        for both in shifts.iter().map(|shift| roll.usable.jobs | shift.usable.jobs) {
            if !jobs.contains(&both) {
                jobs.push(both);
            }
        }
    }
    let on = OnBar {
        places: places.collect(),
        best_worth: shifts.iter().map(|s| s.worth).fold(f64::NEG_INFINITY, f64::max),
        least_effort: least(&mut rolls.iter().map(|r| r.usable.effort))
            + least(&mut shifts.iter().map(|s| s.usable.effort)),
        jobs,
        rolls,
        shifts,
        out: None,
        own_clamps: Vec::new(),
    };
    (on, SettingsOut { rolls: rolls_out, shifts: shifts_out })
}

/// The numbers of a bar with its levers in one place.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BarNumbers {
    /// From the grip in the drops to the blade, the wider of both hands, mm; 0 where nobody asked.
    pub brake_span_mm: f64,
    /// What the palm has to spare where it has least room, mm; 0 where nobody asked.
    pub palm_spare_mm: f64,
    /// Width at the hoods, centre to centre, mm.
    pub width_mm: f64,
}

impl BarNumbers {
    pub(super) fn get(&self, of: OfBar) -> f64 {
        match of {
            OfBar::BrakeSpan => self.brake_span_mm,
            OfBar::PalmSpare => self.palm_spare_mm,
            OfBar::Width => self.width_mm,
        }
    }
}

/// The numbers of a bar with its levers moved by so much.
pub(super) fn bar_numbers(
    bar: &Bar,
    asked: &Asked,
    shift_mm: f64,
    spans: bool,
    palms: bool,
) -> BarNumbers {
    let pair = bar.levers_at(shift_mm);
    let mut numbers = BarNumbers {
        brake_span_mm: 0.0,
        palm_spare_mm: 0.0,
        width_mm: bar.bend.width_hoods_cc_mm(),
    };
    if spans {
        let poses = [(pair.left, Side::Left), (pair.right, Side::Right)]
            .map(|(mount, side)| LeverPose::new(&pair.shape, &bar.bend, mount, side));
        let spans = spans_now_mm(HandPlace::Drops, &bar.bend, poses, bar.drops_hand_mm);
        numbers.brake_span_mm = spans.map_or(0.0, |[left, right]| left.max(right));
    }
    if palms {
        let rooms = [pair.left, pair.right].into_iter().flat_map(|mount| {
            palm_room(&bar.bend, mount.along_mm, bar.lever_clamp_mm, asked.palm_mm)
        });
        numbers.palm_spare_mm =
            rooms.map(|room| room.room_mm - room.needed_mm).fold(f64::INFINITY, f64::min);
    }
    numbers
}

fn hand_places(bar: &Bar, shift_mm: f64) -> HandPlaces {
    let pair = bar.levers_at(shift_mm);
    let poses = [(pair.left, Side::Left), (pair.right, Side::Right)]
        .map(|(mount, side)| LeverPose::new(&pair.shape, &bar.bend, mount, side));
    HandPlaces::new(&bar.bend, Some(poses), bar.drops_hand_mm)
}

fn place_on_bar(
    place: HandPlace,
    hands: &[HandPlaces],
    (rolls, shifts): (&[Rolled], &[Shifted]),
    may: impl Fn(&Rolled, &Shifted) -> bool,
) -> PlaceOnBar {
    let moves = matches!(place, HandPlace::Hoods | HandPlace::BentElbowHoods);
    let pairs: Vec<GripPair> = hands.iter().filter_map(|places| places.get(place)).collect();
    let even = pairs.iter().all(GripPair::is_symmetric);
    let uncrossed = pairs.iter().all(|p| p.left.centre.z <= 0.0 && p.right.centre.z >= 0.0);
    let grips: Vec<DVec3> =
        pairs.iter().take(if moves { pairs.len() } else { 1 }).map(GripPair::midway).collect();
    let mut around = (DVec3::INFINITY, DVec3::NEG_INFINITY);
    for (at, shift) in shifts.iter().enumerate() {
        let Some(grip) = grips.get(if moves { at } else { 0 }) else { continue };
        for roll in rolls.iter().filter(|roll| may(roll, shift)) {
            let grip = rolled(roll.cos_sin, *grip);
            around = (around.0.min(grip), around.1.max(grip));
        }
    }
    PlaceOnBar { moves, grips, even, uncrossed, around }
}

/// A point of the bar frame, rolled about the clamp.
#[inline]
pub(super) fn rolled(cos_sin: DVec2, point: DVec3) -> DVec3 {
    let (cos, sin) = (cos_sin.x, cos_sin.y);
    DVec3::new(cos * point.x - sin * point.y, sin * point.x + cos * point.y, point.z)
}
