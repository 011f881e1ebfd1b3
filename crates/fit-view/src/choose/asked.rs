//! What is wanted of a cockpit as numbers: of each aim how much of it is enough, and what may not get
//! worse meanwhile.
//!
//! mm and radians. What is enough is what the step that the trade tries first would bring on this bike,
//! computed: an answer that does as much by other means is as good. Sizes of steps are common
//! practice without a source unless they say otherwise.

use super::rungs::FromHoods;
use crate::weigh::{Weighed, WeighedCockpit};
use fit_doc::{Aim, Counts, Extent, HandPlace, Joint, Suppleness, Visit, Wanted};
use fit_math::choose::{self, Asked, AtHands, Number, OfBar, Shape};
use fit_math::frame::Side;
use fit_math::posture::{Grips, Report, Rider, solve};
use fit_math::saddle::Seat;
use fit_math::{DVec2, DVec3};

/// How much higher the hands are for a neck or a back, mm.
pub(super) const UP_MM: f64 = 20.0;
/// The same for a stiff or older neck, mm.
const UP_STIFF_MM: f64 = 35.0;
/// A neck that goes no further counts as stiff, degrees: the lower end of what is usual.
const STIFF_NECK_DEG: f64 = 45.0;
/// From that age on a neck counts as older, years (judgement).
const OLDER_YEARS: i16 = 60;
/// How much nearer the hands are for elbows, and for a back besides, mm.
const NEARER_MM: f64 = 10.0;
/// How much nearer the hands are where somebody is stretched, mm.
const REACH_MM: f64 = 20.0;
/// How much further they are where somebody is cramped, mm: the smallest step that hands feel.
const FURTHER_MM: f64 = 10.0;
/// How much further than is asked costs half an aim, mm (judgement: 10 mm more than the smallest step take
/// more than waiting for the part that does no more than it).
const BEYOND_ASKED_MM: f64 = 30.0;
/// An elbow that is not locked, degrees.
const UNLOCKED_DEG: f64 = 15.0;
/// How much shallower the drops are, mm: 20 to 30.
pub(super) const SHALLOWER_MM: f64 = 25.0;
/// A size of bars, mm.
const SIZE_MM: f64 = 20.0;
/// How much lower the hands are for a smaller outline, mm at a time (common practice, no source); what it
/// counts beside narrower ones; and what a trunk that comes up costs, radians for an aim (judgement).
const LOWER_MM: f64 = 10.0;
const LOWER: f64 = 0.5;
const RAISED_TRUNK_RAD: f64 = 0.035;
/// The next size of another make, mm: as much more as makes of a bend differ (common practice, no source).
const NEXT_SIZE_MM: f64 = 28.0;
/// How far hoods that are to stay may move, mm: a move that is not felt; and what costs as much as an
/// aim is worth (judgement).
const STAY_MM: (f64, f64) = (3.0, 20.0);
/// What moves unasked costs nothing up to there, mm, and half an aim for each so many more
/// (judgement).
const UNASKED_MM: (f64, f64) = (10.0, 80.0);
/// How much higher or lower than that costs half an aim, where only the reach is asked, and how much further
/// away, where a smaller outline is, mm: as much again as is felt (judgement).
const UNASKED_WAY_MM: f64 = 10.0;
/// How much wider or narrower costs half an aim where nobody asked, mm (judgement: two sizes and more
/// are felt).
const UNASKED_WIDTH_MM: f64 = 60.0;
/// What less room in neck or hip costs, radians for half an aim (judgement).
const LESS_ROOM_RAD: f64 = 0.15;
/// What a brake that is further away costs, mm for half an aim: less than is felt (judgement).
const FURTHER_BRAKE_MM: f64 = 4.0;
/// What a palm with less room costs, mm for half an aim (judgement).
const LESS_PALM_MM: f64 = 10.0;
/// An aim counts at least so much of itself however little of the time the hands are there: who
/// never holds the drops may be kept from them by what is wrong (judgement).
const LEAST_SHARE: f64 = 0.5;
/// Of drops that are to be used: what it counts that they are less deep under the hoods, that the tail
/// falls to the rear, and that all is raised; in the order in which it is tried (judgement).
pub(super) const SHALLOWER: f64 = 1.0;
pub(super) const TAIL: f64 = 0.5;
const RAISED: f64 = 0.2;
/// Hoods further back or up than this are the frame's business, mm (common practice, no source); and
/// how far beyond costs a whole aim (judgement).
const FRAME_BACK_MM: f64 = 30.0;
const FRAME_UP_MM: f64 = 40.0;
const BEYOND_FRAME_MM: f64 = 2.0;
/// What counts where nothing is asked of it: half an aim.
const GUARD: f64 = 0.5;

/// How much nearer a blade is wanted that is within reach by computing, mm: levers are felt from 3 to
/// 5 on (common practice, no source).
const BLADE_NEARER_MM: f64 = 5.0;

/// What fingers that are to reach a brake have to spare, mm: about what a span may be off (judgement).
const BRAKE_MARGIN_MM: f64 = 3.0;

/// What a count is as a number (judgement).
pub(super) const fn weight(counts: Counts) -> f64 {
    match counts {
        Counts::Little => 0.5,
        Counts::Ordinary => 1.0,
        Counts::Much => 2.0,
    }
}

/// The aims of a visit, held against the cockpit that everything is compared with.
pub(super) struct Asking<'a> {
    pub(super) visit: &'a Visit,
    pub(super) weighed: &'a Weighed,
    pub(super) base: &'a WeighedCockpit,
    /// The client's year of birth.
    pub(super) born: Option<i16>,
    pub(super) shoulders_mm: Option<f64>,
    /// The hoods of the client's other bike, bike frame.
    pub(super) other_hoods: Option<DVec2>,
}

/// What is asked, and which of its aims belongs to which wanted one, by its place among them.
#[derive(Debug, Clone)]
pub(super) struct AskedOf {
    pub(super) asked: Asked,
    /// For every wanted aim the places of its aims in `asked`.
    pub(super) of: Vec<Vec<usize>>,
}

/// Sums aims up in order.
struct Aims {
    places: Vec<(HandPlace, f64)>,
    aims: Vec<choose::Aim>,
}

impl Aims {
    fn at(&self, place: HandPlace) -> Option<usize> {
        self.places.iter().position(|(of, _)| *of == place)
    }

    fn hands(&mut self, place: HandPlace, what: AtHands, weight: f64, shape: Shape) {
        if let Some(at) = self.at(place) {
            self.aims.push(choose::Aim { of: Number::Hands(at, what), weight, shape });
        }
    }

    /// From one value to where more is worth no more.
    fn between(
        &mut self,
        place: HandPlace,
        what: AtHands,
        weight: f64,
        (from, enough): (f64, f64),
    ) {
        // at the end of a range nothing more is to be had: no slope, no aim
        if (enough - from).abs() > 1e-9 {
            self.hands(place, what, weight, Shape::Enough { from, enough });
        }
    }

    fn bar(&mut self, of: OfBar, weight: f64, shape: Shape) {
        self.aims.push(choose::Aim { of: Number::Bar(of), weight, shape });
    }
}

impl Asking<'_> {
    /// All that is asked.
    pub(super) fn asked(&self, wanted: &[Wanted]) -> AskedOf {
        let mut aims = Aims { places: self.places(wanted), aims: Vec::new() };
        let mut of = Vec::with_capacity(wanted.len());
        for one in wanted {
            let from = aims.aims.len();
            self.wanted(one, &mut aims);
            of.push((from..aims.aims.len()).collect());
        }
        self.guards(wanted, &mut aims);
        let palm_mm = self.weighed.body.value(fit_doc::Dimension::HandBreadth);
        AskedOf { asked: Asked { places: aims.places, aims: aims.aims, palm_mm }, of }
    }

    /// The places that count: hoods and drops, what is asked of, and where the hands are besides.
    fn places(&self, wanted: &[Wanted]) -> Vec<(HandPlace, f64)> {
        let interview = &self.visit.interview;
        let is_asked = |place| wanted.iter().any(|of| of.place == Some(place));
        let counts = |place: HandPlace| {
            matches!(place, HandPlace::Hoods | HandPlace::Drops)
                || is_asked(place)
                || interview.share(place).is_some_and(|percent| percent > 0)
        };
        let share = |place| match interview.shares_sum() {
            Some(sum) if sum > 0 => {
                let of = f64::from(interview.share(place).unwrap_or(0)) / f64::from(sum);
                LEAST_SHARE + (1.0 - LEAST_SHARE) * of
            }
            _ => 1.0,
        };
        let places = HandPlace::ALL.into_iter().filter(|&place| counts(place));
        let there = places.filter(|place| self.base.places.contains_key(place));
        there.map(|place| (place, share(place))).collect()
    }

    fn wanted(&self, of: &Wanted, aims: &mut Aims) {
        let weight = weight(of.counts);
        let place = of.place.unwrap_or(HandPlace::Hoods);
        match of.aim {
            Aim::ReachBrakes => self.brakes(of, weight, aims),
            Aim::EaseDrops => self.drops(of, weight, aims),
            Aim::EaseNeck => {
                let places = of.place.map_or(vec![HandPlace::Hoods, HandPlace::Drops], |p| vec![p]);
                let each = weight / places.len() as f64;
                for place in places {
                    let up =
                        DVec2::new(0.0, if self.neck_is_stiff() { UP_STIFF_MM } else { UP_MM });
                    self.enough(place, AtHands::NeckNeed, each, up, aims);
                }
            }
            Aim::EaseBack => {
                self.enough(place, AtHands::Trunk, weight, DVec2::new(-NEARER_MM, UP_MM), aims);
            }
            Aim::BendElbows => {
                let (Some(now), Some(then)) = (
                    self.now(place, AtHands::Elbow),
                    self.moved(place, AtHands::Elbow, DVec2::new(-NEARER_MM, 0.0)),
                ) else {
                    return;
                };
                let enough = then.min(UNLOCKED_DEG.to_radians().max(now));
                let enough = if enough > now { enough } else { then };
                aims.between(place, AtHands::Elbow, weight, (now, enough));
            }
            Aim::Nearer | Aim::Further => {
                let nearer = of.aim == Aim::Nearer;
                let by = of.by_mm.unwrap_or(if nearer { REACH_MM } else { FURTHER_MM });
                if let Some(now) = self.now(place, AtHands::Forward) {
                    let enough = if nearer { now - by } else { now + by };
                    aims.between(place, AtHands::Forward, weight, (now, enough));
                    let scale = BEYOND_ASKED_MM;
                    let no_further = if nearer {
                        Shape::NotBelow { least: enough, scale }
                    } else {
                        Shape::NotAbove { most: enough, scale }
                    };
                    aims.hands(place, AtHands::Forward, GUARD * weight, no_further);
                }
            }
            Aim::LikeShoulders => self.like_shoulders(weight, aims),
            // narrower hands are what the wind meets, a size at a time; whether the outline is smaller is
            // asked of each answer, and more than the next size only where that one does nothing
            Aim::Slimmer => {
                if let Some(now) = self.now(HandPlace::Hoods, AtHands::Out) {
                    let ends = (now, now - SIZE_MM / 2.0);
                    aims.between(HandPlace::Hoods, AtHands::Out, weight, ends);
                }
                let least = self.base.cockpit.bend().width_hoods_cc_mm() - NEXT_SIZE_MM;
                let shape = Shape::NotBelow { least, scale: UNASKED_WIDTH_MM };
                aims.bar(OfBar::Width, GUARD, shape);
                // a lower trunk is met by less wind, and a higher one by more
                let down = DVec2::new(0.0, -LOWER_MM);
                self.enough(HandPlace::Hoods, AtHands::Trunk, LOWER * weight, down, aims);
                if let Some(now) = self.now(HandPlace::Hoods, AtHands::Trunk) {
                    let shape = Shape::NotAbove { most: now, scale: RAISED_TRUNK_RAD };
                    aims.hands(HandPlace::Hoods, AtHands::Trunk, weight, shape);
                }
                // narrower, then lower: hands that are further away are no step to it
                if let Some(now) = self.now(HandPlace::Hoods, AtHands::Forward) {
                    let shape = Shape::NotAbove { most: now + UNASKED_MM.0, scale: UNASKED_WAY_MM };
                    aims.hands(HandPlace::Hoods, AtHands::Forward, GUARD, shape);
                }
            }
            Aim::EasierToSteer => {
                let width = self.base.cockpit.bend().width_hoods_cc_mm();
                let enough = width + SIZE_MM;
                aims.bar(OfBar::Width, weight, Shape::Enough { from: width, enough });
            }
            Aim::HoodsStay => {
                if let Some(hoods) = self.grip(HandPlace::Hoods) {
                    let shape = Shape::NotAbove { most: STAY_MM.0, scale: STAY_MM.1 };
                    let away = AtHands::AwayFrom(hoods.truncate());
                    aims.hands(HandPlace::Hoods, away, weight, shape);
                }
            }
            Aim::LikeOtherBike => {
                if let (Some(now), Some(there)) = (self.grip(HandPlace::Hoods), self.other_hoods) {
                    let off = now.truncate().distance(there).max(STAY_MM.1);
                    let shape = Shape::Near { at: 0.0, scale: off };
                    aims.hands(HandPlace::Hoods, AtHands::AwayFrom(there), weight, shape);
                }
            }
        }
    }

    /// Brakes from the drops; from the hoods lever and screw decide alone ([`super::rungs`]).
    fn brakes(&self, of: &Wanted, weight: f64, aims: &mut Aims) {
        let Some((spare, enough)) = self.spare_and_enough_mm(of, HandPlace::Drops) else { return };
        let Some(brakes) = &self.base.brakes else { return };
        let from = brakes.drops_mm[0].max(brakes.drops_mm[1]);
        let shape = Shape::Enough { from, enough: from - (enough - spare) };
        aims.bar(OfBar::BrakeSpan, weight, shape);
    }

    /// What the fingers are to have to spare at the brakes from the drops, mm; none where nobody asks.
    pub(super) fn brakes_enough_mm(&self, wanted: &[Wanted]) -> Option<f64> {
        let drops = |of| self.spare_and_enough_mm(of, HandPlace::Drops);
        let enough = wanted.iter().filter_map(drops);
        enough.map(|(_, enough)| enough).reduce(f64::max)
    }

    /// What a wish is about brakes from the hoods; none where it is another.
    pub(super) fn brake_from_hoods(&self, of: &Wanted) -> Option<FromHoods> {
        let (spare_mm, enough_mm) = self.spare_and_enough_mm(of, HandPlace::Hoods)?;
        let drops_mm = self.base.brakes.as_ref()?.to_spare_mm(HandPlace::Drops)?;
        let drops_enough_mm = drops_mm + BLADE_NEARER_MM;
        Some(FromHoods { weight: weight(of.counts), spare_mm, enough_mm, drops_enough_mm })
    }

    /// What they have, and what they are to have. Who complains of a brake that is within reach by
    /// computing is right; where the wish only follows from another concern, what is reached is well.
    fn spare_and_enough_mm(&self, of: &Wanted, place: HandPlace) -> Option<(f64, f64)> {
        if of.aim != Aim::ReachBrakes || of.place.unwrap_or(HandPlace::Drops) != place {
            return None;
        }
        let spare = self.base.brakes.as_ref()?.to_spare_mm(place)?;
        match (spare < 0.0, of.counts) {
            (true, Counts::Little) => Some((spare, 0.0)),
            (false, Counts::Little) => None,
            _ => Some((spare, (spare + BLADE_NEARER_MM).max(BRAKE_MARGIN_MM))),
        }
    }

    /// What is left for the drops' height over the ground: how deep they are under the hoods and how
    /// the tail falls counts with bar and roll ([`super::rungs`]).
    fn drops(&self, of: &Wanted, weight: f64, aims: &mut Aims) {
        let by = of.by_mm.unwrap_or(SHALLOWER_MM);
        if let Some(now) = self.now(HandPlace::Drops, AtHands::Up) {
            let ends = (now, now + by);
            aims.between(HandPlace::Drops, AtHands::Up, RAISED * weight, ends);
        }
    }

    fn like_shoulders(&self, weight: f64, aims: &mut Aims) {
        let Some(shoulders) = self.shoulders_mm else { return };
        let now = self.base.cockpit.bend().width_hoods_cc_mm();
        let off = (now - shoulders).abs().max(SIZE_MM);
        aims.bar(OfBar::Width, weight, Shape::Near { at: shoulders, scale: off });
    }

    /// What may not get worse while something else gets better.
    fn guards(&self, wanted: &[Wanted], aims: &mut Aims) {
        let places: Vec<HandPlace> = aims.places.iter().map(|(place, _)| *place).collect();
        let moves = |place: HandPlace| {
            wanted.iter().any(|of| match of.aim {
                Aim::EaseDrops => place == HandPlace::Drops,
                Aim::ReachBrakes | Aim::LikeShoulders | Aim::EasierToSteer => false,
                Aim::HoodsStay | Aim::LikeOtherBike | Aim::Slimmer => place == HandPlace::Hoods,
                _ => of.place.unwrap_or(HandPlace::Hoods) == place,
            })
        };
        for place in places {
            if let Some(now) = self.now(place, AtHands::HipMin) {
                let shape = Shape::NotBelow { least: now, scale: LESS_ROOM_RAD };
                aims.hands(place, AtHands::HipMin, GUARD, shape);
            }
            if let Some(now) = self.now(place, AtHands::NeckNeed) {
                let shape = Shape::NotAbove { most: now, scale: LESS_ROOM_RAD };
                aims.hands(place, AtHands::NeckNeed, GUARD, shape);
            }
            if let Some(grip) = self.grip(place).filter(|_| !moves(place)) {
                let shape = Shape::NotAbove { most: UNASKED_MM.0, scale: UNASKED_MM.1 };
                aims.hands(place, AtHands::AwayFrom(grip.truncate()), GUARD, shape);
            }
        }
        self.height_guard(wanted, aims);
        let asks_width = wanted
            .iter()
            .any(|of| matches!(of.aim, Aim::LikeShoulders | Aim::Slimmer | Aim::EasierToSteer));
        if !asks_width {
            let at = self.base.cockpit.bend().width_hoods_cc_mm();
            aims.bar(OfBar::Width, GUARD, Shape::Near { at, scale: UNASKED_WIDTH_MM });
        }
        if let Some(hoods) = self.grip(HandPlace::Hoods) {
            let least = hoods.x - FRAME_BACK_MM;
            let back = Shape::NotBelow { least, scale: BEYOND_FRAME_MM };
            aims.hands(HandPlace::Hoods, AtHands::Forward, 1.0, back);
            let most = hoods.y + FRAME_UP_MM;
            let up = Shape::NotAbove { most, scale: BEYOND_FRAME_MM };
            aims.hands(HandPlace::Hoods, AtHands::Up, 1.0, up);
        }
        if let Some(brakes) = &self.base.brakes {
            let now = brakes.drops_mm[0].max(brakes.drops_mm[1]);
            // a brake that is well within reach may come further
            let spare = brakes.to_spare_mm(HandPlace::Drops).unwrap_or(0.0).max(0.0);
            let shape = Shape::NotAbove { most: now + spare, scale: FURTHER_BRAKE_MM };
            aims.bar(OfBar::BrakeSpan, GUARD, shape);
        }
        aims.bar(OfBar::PalmSpare, GUARD, Shape::NotBelow { least: 0.0, scale: LESS_PALM_MM });
    }

    /// Who asks for hands that are nearer or further, and for nothing that height has to do with, keeps the
    /// height of the hoods as far as it is felt.
    fn height_guard(&self, wanted: &[Wanted], aims: &mut Aims) {
        let at_hoods = |of: &Wanted| of.place.unwrap_or(HandPlace::Hoods) == HandPlace::Hoods;
        let reach = |of: &Wanted| matches!(of.aim, Aim::Nearer | Aim::Further) && at_hoods(of);
        let height = |of: &Wanted| {
            matches!(
                of.aim,
                Aim::EaseNeck
                    | Aim::EaseBack
                    | Aim::BendElbows
                    | Aim::Slimmer
                    | Aim::HoodsStay
                    | Aim::LikeOtherBike
            )
        };
        if !wanted.iter().any(reach) || wanted.iter().any(height) {
            return;
        }
        if let Some(up) = self.now(HandPlace::Hoods, AtHands::Up) {
            let (felt, scale) = (UNASKED_MM.0, UNASKED_WAY_MM);
            let not_above = Shape::NotAbove { most: up + felt, scale };
            aims.hands(HandPlace::Hoods, AtHands::Up, GUARD, not_above);
            let not_below = Shape::NotBelow { least: up - felt, scale };
            aims.hands(HandPlace::Hoods, AtHands::Up, GUARD, not_below);
        }
    }

    /// From what it is to what it would be with the hands moved by that much, forward and up.
    fn enough(&self, place: HandPlace, what: AtHands, weight: f64, by: DVec2, aims: &mut Aims) {
        if let (Some(now), Some(then)) = (self.now(place, what), self.moved(place, what, by)) {
            aims.between(place, what, weight, (now, then));
        }
    }

    fn grip(&self, place: HandPlace) -> Option<DVec3> {
        Some(self.base.places.get(&place)?.grips.midway())
    }

    fn now(&self, place: HandPlace, what: AtHands) -> Option<f64> {
        let at = self.base.places.get(&place)?;
        Some(number(&at.report, at.grips.midway(), what))
    }

    fn moved(&self, place: HandPlace, what: AtHands, by: DVec2) -> Option<f64> {
        let at = self.base.places.get(&place)?;
        let (right, left) = (at.grips.right.centre, at.grips.left.centre);
        let by = by.extend(0.0);
        let report = posed(&self.weighed.rider, &self.base.seat, (right + by, left + by), place)?;
        Some(number(&report, at.grips.midway() + by, what))
    }

    /// A neck of which it is known, or to be expected, that it goes less far.
    pub(super) fn neck_is_stiff(&self) -> bool {
        let stiff = |of: &fit_doc::Mobility| {
            of.joint == Joint::Neck
                && (of.painful
                    || match of.extent {
                        Extent::Measured { deg } => deg < STIFF_NECK_DEG,
                        Extent::Said(said) => said == Suppleness::Stiff,
                    })
        };
        self.visit.mobility.iter().any(stiff)
            || self.born.is_some_and(|born| self.visit.date.year() - born >= OLDER_YEARS)
    }
}

fn posed(
    rider: &Rider,
    seat: &Seat,
    (right, left): (DVec3, DVec3),
    place: HandPlace,
) -> Option<Report> {
    let grips = Grips::new(right, left).ok()?;
    Some(solve(rider, seat, &grips, place, None).report(rider, seat, &grips, place))
}

/// The number that an aim reads.
fn number(report: &Report, grip: DVec3, what: AtHands) -> f64 {
    let [left, right] = Side::BOTH.map(|side| report.arm(side).elbow_rad);
    match what {
        AtHands::Trunk => report.trunk_rad,
        AtHands::NeckNeed => report.neck_need_rad,
        AtHands::Elbow => left.min(right),
        AtHands::HipMin => report.hip_min_rad,
        AtHands::Forward => grip.x,
        AtHands::Up => grip.y,
        AtHands::Out => grip.z,
        AtHands::AwayFrom(point) => grip.truncate().distance(point),
    }
}

#[cfg(test)]
#[path = "asked_tests.rs"]
mod tests;
