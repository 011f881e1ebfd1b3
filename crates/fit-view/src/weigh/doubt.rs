//! How sure the weighed numbers are: what is not known of person, bike and bar, carried through to
//! each, and to its change from one cockpit to another. To first order; one standard deviation.
//!
//! mm and radians. Numbers whose doubt nobody follows (where the clamp is, what the bike's frame
//! measures) have none here.

use super::effects::Effect;
use super::place_id;
use super::weighed::{Weighed, WeighedCockpit, WeighedPlace};
use fit_doc::{HandPlace, KnownBy, LeverSetting, Levers};
use fit_math::DVec3;
use fit_math::doubt::sample::{Row, Tally};
use fit_math::doubt::{Alike, Asked, GAIN, Known, Sensitivity, change_sd};
use fit_math::posture::Outcome;

/// Share of the draws that must have an answer for their spread to be told (judgement).
const ENOUGH: f64 = 0.5;
/// What a change of the outline is off, as a share of it: as much as the outline itself (judgement:
/// bodies are not made of cones).
const OUTLINE_GAIN: f64 = 0.15;

/// A number whose doubt is followed.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Doubted {
    /// An angle of the posture with the hands in a place; the shift of the shoulders in mm.
    At(HandPlace, Asked),
    /// How far the right hand is along a direction of the bike frame, mm.
    Hand(HandPlace, DVec3),
    /// What an angle changes by from the hoods to the drops.
    Travel(Asked),
    /// How far the hands move from the hoods to the drops, mm.
    HandTravel,
    /// How far the fingers reach beyond what the brake asks, of both hands the lesser, mm.
    Brake(HandPlace),
    /// What turning the bar takes with the hands in a place, as a share; only of its change.
    Steering(HandPlace),
    /// What the posture does beyond the body with the hands in a place; only of its change.
    Effect(HandPlace, Effect),
}

impl WeighedCockpit {
    /// How its bar is known.
    pub(super) fn known(&self) -> Known {
        match self.parts.bar.shelf.known_by {
            KnownBy::Catalogue => Known::by_catalogue(self.parts.bar.tolerance_mm),
            KnownBy::Measured => Known::measured(),
            KnownBy::Traced => Known::traced(),
        }
    }

    fn reached(&self, place: HandPlace) -> Option<&WeighedPlace> {
        self.places.get(&place).filter(|at| at.is_reached())
    }

    /// Whether a posture that the number is of is at a limit, where a slope says too little: what was
    /// not drawn is not doubted there rather than doubted wrongly.
    fn is_near_a_limit(&self, of: Doubted) -> bool {
        let at_limit =
            |place| self.reached(place).is_some_and(|at| at.posture.outcome != Outcome::Reached);
        match of {
            Doubted::At(place, _) | Doubted::Effect(place, _) => at_limit(place),
            Doubted::Travel(_) => at_limit(HandPlace::Hoods) || at_limit(HandPlace::Drops),
            Doubted::Hand(..) | Doubted::HandTravel | Doubted::Brake(_) | Doubted::Steering(_) => {
                false
            }
        }
    }

    /// What this cockpit and another have in common.
    pub(super) fn alike(&self, other: &Self) -> Alike {
        let bar = self.parts.bar == other.parts.bar;
        let levers = bar && stand_alike(self.parts.levers.as_ref(), other.parts.levers.as_ref());
        let all = levers && self.places == other.places;
        Alike { bar, levers, all }
    }
}

/// Whether levers stand in the same place: the screw of the blade moves no hood.
fn stand_alike(one: Option<&Levers>, other: Option<&Levers>) -> bool {
    let stands = |of: &Levers| {
        let side = |side: LeverSetting| LeverSetting { clicks: 0, ..side };
        Levers { lever: of.lever.clone(), left: side(of.left), right: side(of.right) }
    };
    one.map(stands) == other.map(stands)
}

impl Weighed {
    /// How a number moves with what is not known; none where the cockpit has no such number.
    fn sensitivity(&self, at: &WeighedCockpit, of: Doubted) -> Option<Sensitivity> {
        let known = at.known();
        match of {
            Doubted::At(place, asked) => {
                Some(Sensitivity::of(&at.reached(place)?.slopes, asked, place, known))
            }
            Doubted::Hand(place, way) => {
                at.places.get(&place)?;
                Some(Sensitivity::of_hand(way, place, known))
            }
            // told of a change only, and there by how wide the hands are apart
            Doubted::Steering(place) => self.sensitivity(at, Doubted::Hand(place, DVec3::Z)),
            Doubted::Effect(place, effect) => {
                let effects = self.effects(at, place)?;
                effects.get(effect)?;
                Some(Sensitivity::of_number(&effects.slopes, effect as usize, place, known))
            }
            Doubted::Travel(asked) => {
                let with = |place| self.sensitivity(at, Doubted::At(place, asked));
                Some(with(HandPlace::Drops)? - with(HandPlace::Hoods)?)
            }
            Doubted::HandTravel => {
                let grip = |place| Some(at.places.get(&place)?.grips.right.centre);
                let way = grip(HandPlace::Drops)? - grip(HandPlace::Hoods)?;
                let of = |place| Sensitivity::of_hand(way.normalize_or_zero(), place, known);
                Some(of(HandPlace::Drops) - of(HandPlace::Hoods))
            }
            Doubted::Brake(place) => {
                at.brakes?.to_spare_mm(place)?;
                // from the hoods lever and hand alone decide
                let spans = place == HandPlace::Drops;
                Some(if spans { Sensitivity::of_span(known) } else { Sensitivity::NONE })
            }
        }
    }

    /// How well a number of one cockpit is known, one standard deviation, mm or radians.
    pub fn sd(&self, of: &WeighedCockpit, number: Doubted) -> Option<f64> {
        if matches!(number, Doubted::Steering(_) | Doubted::Effect(..)) {
            return None;
        }
        let own = if of.is_near_a_limit(number) {
            let (row, asked) = number.drawn_as()?;
            self.spread(self.drawn.as_deref()?.value(self.place_of(of)?, row, asked)?)?
        } else {
            self.sensitivity(of, number)?.sd(&self.person)
        };
        let cover = match number {
            Doubted::Brake(place) => of.brakes?.worse_cover(place)?.sd_mm,
            _ => 0.0,
        };
        Some(own.hypot(cover))
    }

    /// How well its change from one cockpit to another is known: what a hand covers and how the
    /// client is built are the same on both.
    pub fn change_sd(
        &self,
        from: &WeighedCockpit,
        to: &WeighedCockpit,
        number: Doubted,
        change: f64,
    ) -> Option<f64> {
        let alike = from.alike(to);
        if !alike.all && (from.is_near_a_limit(number) || to.is_near_a_limit(number)) {
            let drawn = self.drawn.as_deref()?;
            // changes were drawn against one of the bench
            self.cockpits.get(drawn.against()).filter(|one| one.id == from.id)?;
            self.sensitivity(from, number)?;
            let (row, asked) = number.drawn_as()?;
            let drawn = drawn.change(self.place_of(to)?, row, asked)?;
            return Some(self.spread(drawn)?.hypot(GAIN * change));
        }
        let (before, after) = (self.sensitivity(from, number)?, self.sensitivity(to, number)?);
        // where hands are is geometry: there is no model's strength to be doubted
        let of_model = match number {
            Doubted::At(..)
            | Doubted::Travel(_)
            | Doubted::Effect(_, Effect::OnHands | Effect::OnFrontWheel) => change,
            // an outline's own share comes below
            Doubted::Effect(_, Effect::Outline)
            | Doubted::Hand(..)
            | Doubted::HandTravel
            | Doubted::Brake(_)
            | Doubted::Steering(_) => 0.0,
        };
        let sd = change_sd(&self.person, &before, &after, alike, of_model);
        match number {
            // e = b/a: to first order about bars of like width de is (db − da)/a
            Doubted::Steering(place) => {
                let [left, right] = to.places.get(&place)?.about_axis.beside_mm;
                Some(sd / f64::midpoint(left, right))
            }
            Doubted::Effect(_, Effect::Outline) => Some(sd.hypot(OUTLINE_GAIN * change)),
            _ => Some(sd),
        }
    }

    /// Its place on the bench.
    pub(crate) fn place_of(&self, of: &WeighedCockpit) -> Option<usize> {
        self.cockpits.iter().position(|other| other.id == of.id)
    }

    /// The standard deviation that was drawn, where enough of the draws have an answer.
    fn spread(&self, drawn: &Tally) -> Option<f64> {
        let draws = self.drawn.as_deref()?.draws() as f64;
        drawn.sd().filter(|_| drawn.count() >= ENOUGH * draws)
    }
}

impl Doubted {
    /// The row in which it is drawn; none for what is geometry.
    fn drawn_as(self) -> Option<(Row, Asked)> {
        match self {
            Self::At(place, asked) => Some((Row::At(place), asked)),
            Self::Travel(asked) => Some((Row::Travel, asked)),
            Self::Hand(..)
            | Self::HandTravel
            | Self::Brake(_)
            | Self::Steering(_)
            | Self::Effect(..) => None,
        }
    }
}

/// The number that stands in the output under that path, where its doubt is followed.
pub(super) fn doubted_of(path: &str) -> Option<Doubted> {
    let parts: Vec<&str> = path.split('/').collect();
    let place = |id: &str| HandPlace::ALL.into_iter().find(|&place| place_id(place) == id);
    match parts[..] {
        ["places", id, key] => {
            let place = place(id)?;
            match effect(key) {
                Some(effect) => Some(Doubted::Effect(place, effect)),
                None => Some(Doubted::At(place, asked(key)?)),
            }
        }
        ["places", id, "grip", axis] => {
            let way = match axis {
                "0" => DVec3::X,
                "1" => DVec3::Y,
                "2" => DVec3::Z,
                _ => return None,
            };
            Some(Doubted::Hand(place(id)?, way))
        }
        ["steering", "effort"] => Some(Doubted::Steering(HandPlace::Hoods)),
        ["steering", "arm"] => Some(Doubted::Hand(HandPlace::Hoods, DVec3::Z)),
        ["travel", "hoods_to_drops", "hand"] => Some(Doubted::HandTravel),
        ["travel", "hoods_to_drops", key @ ("trunk" | "hip_min" | "neck")] => {
            Some(Doubted::Travel(asked(key)?))
        }
        _ => None,
    }
}

/// What stands in a place of the output under that key.
fn asked(key: &str) -> Option<Asked> {
    ASKED.into_iter().find(|(name, _)| *name == key).map(|(_, asked)| asked)
}

fn effect(key: &str) -> Option<Effect> {
    EFFECTS.into_iter().find(|(name, _)| *name == key).map(|(_, effect)| effect)
}

/// The effects of a hand place by their keys.
pub(super) const EFFECTS: [(&str, Effect); 3] = [
    ("outline", Effect::Outline),
    ("on_hands", Effect::OnHands),
    ("on_front_wheel", Effect::OnFrontWheel),
];

/// The numbers of a hand place whose doubt is followed, by their keys. What the output gives of one
/// side is that of the right hand.
pub(super) const ASKED: [(&str, Asked); 9] = [
    ("trunk", Asked::Trunk),
    ("pelvis", Asked::Pelvis),
    ("spine", Asked::Spine),
    ("protraction", Asked::Protraction),
    ("hip_min", Asked::HipMin),
    ("shoulder", Asked::Shoulder),
    ("elbow", Asked::Elbow),
    ("neck", Asked::Neck),
    ("wrist_line", Asked::WristRight),
];

#[cfg(test)]
mod tests {
    use super::*;
    use crate::testing::{deep, session, stem};
    use crate::weigh::{Survey, weigh};
    use fit_doc::Cockpit;
    use std::sync::Arc;

    const TRUNK: Doubted = Doubted::At(HandPlace::Drops, Asked::Trunk);

    fn weighed(bench: Vec<Cockpit>) -> Weighed {
        weigh(&session(bench), None, &Survey::shipped().unwrap()).unwrap()
    }

    fn named(id: &str, cockpit: Cockpit) -> Cockpit {
        Cockpit { id: id.into(), label: id.into(), ..cockpit }
    }

    /// A turned reach screw moves no hood, so it makes none more doubtful; a lever that was moved does.
    #[test]
    fn a_reach_screw_makes_no_hand_doubtful() {
        let with = |id: &str, clicks: u32, along_mm: f64| {
            let mut cockpit = Cockpit { stem: stem(90.0, -6.0), ..deep() };
            let levers = cockpit.levers.as_mut().unwrap();
            for side in [&mut levers.left, &mut levers.right] {
                side.clicks = clicks;
                side.along_mm += along_mm;
            }
            named(id, cockpit)
        };
        let bench =
            weighed(vec![with("plain", 0, 0.0), with("screw", 1, 0.0), with("moved", 0, 3.0)]);
        let [came, plain, screw, moved] = &bench.cockpits[..] else { panic!("four cockpits") };
        let alike = [plain, screw, moved].map(|of| came.alike(of));
        assert_eq!(alike.map(|of| of.levers), [true, true, false]);
        assert_eq!(alike[0], alike[1]);
    }

    /// Of the change of the trunk in the drops, degrees.
    fn sd_deg(weighed: &Weighed, index: usize) -> f64 {
        let [came, to] = [&weighed.cockpits[0], &weighed.cockpits[index]];
        weighed.change_sd(came, to, TRUNK, 0.0).unwrap().to_degrees()
    }

    #[test]
    fn an_equal_cockpit_differs_by_nothing_surely() {
        let twin = weighed(vec![named("twin", deep())]);
        for (_, asked) in ASKED {
            for place in HandPlace::ALL {
                let [came, to] = [&twin.cockpits[0], &twin.cockpits[1]];
                let sd = twin.change_sd(came, to, Doubted::At(place, asked), 0.0);
                assert!(sd.is_none_or(|sd| sd == 0.0), "{place:?} {asked:?}: {sd:?}");
            }
        }
    }

    /// A bar that stays is off by the same on both; one that changes is not, and the better it is
    /// known the surer is the change.
    #[test]
    fn a_bar_that_stays_is_no_doubt_and_one_that_is_traced_is_little() {
        let other = |known_by| {
            let mut bar = deep().bar;
            bar.drop_mm -= 10.0;
            bar.shelf.known_by = known_by;
            Cockpit { bar, ..deep() }
        };
        let bench = weighed(vec![
            named("stem", Cockpit { stem: stem(90.0, -6.0), ..deep() }),
            named("traced", other(KnownBy::Traced)),
            named("measured", other(KnownBy::Measured)),
            named("catalogue", other(KnownBy::Catalogue)),
        ]);
        let sds: Vec<f64> = (1..5).map(|index| sd_deg(&bench, index)).collect();
        assert!(sds.windows(2).all(|pair| pair[0] < pair[1] - 0.005), "{sds:?}");
        assert!((0.2..1.2).contains(&sds[0]) && sds[3] < 1.2, "{sds:?}");
    }

    #[test]
    fn a_client_who_was_seen_is_surer() {
        let mut session = session(Vec::new());
        let survey = Survey::shipped().unwrap();
        let model = weigh(&session, None, &survey).unwrap();
        let at = &model.cockpits[0].places[&HandPlace::Hoods].report;
        let visit = Arc::make_mut(&mut session.visits[0]);
        visit.seen = vec![fit_doc::Seen {
            cockpit: visit.as_it_came.id.clone(),
            place: HandPlace::Hoods,
            trunk_deg: Some(at.trunk_rad.to_degrees()),
            elbow_deg: Some(at.arms[0].elbow_rad.to_degrees()),
            neck_deg: None,
            knee_deg: None,
            slide_mm: None,
        }];
        let seen = weigh(&session, None, &survey).unwrap();
        let sd = |of: &Weighed| of.sd(&of.cockpits[0], TRUNK).unwrap().to_degrees();
        assert!(sd(&seen) < 0.85 * sd(&model), "{} {}", sd(&seen), sd(&model));
        assert!(sd(&model) < 3.3, "{}", sd(&model));
    }

    /// What a hand covers is not known to some millimetres, and is the same on every bar.
    #[test]
    fn the_hand_is_the_same_on_every_bar() {
        let mut bar = deep().bar;
        bar.reach_mm -= 5.0;
        let bench = weighed(vec![
            named("bar", Cockpit { bar, ..deep() }),
            named("stem", Cockpit { stem: stem(90.0, -6.0), ..deep() }),
        ]);
        let [came, bar, stem] = &bench.cockpits[..] else { panic!("three") };
        let spare = |place| Doubted::Brake(place);
        let by_itself = bench.sd(came, spare(HandPlace::Drops)).unwrap();
        let change = |to, place| bench.change_sd(came, to, spare(place), 0.0).unwrap();
        assert!(by_itself > 7.0, "{by_itself}");
        assert!(
            (change(bar, HandPlace::Drops) - 106.0_f64.sqrt()).abs() < 1e-9,
            "7 and 2 mm twice"
        );
        assert_eq!(change(stem, HandPlace::Drops), 0.0, "geometry: not by a stem");
        let moved = bench.change_sd(came, stem, Doubted::Hand(HandPlace::Hoods, DVec3::X), -20.0);
        assert_eq!(moved, Some(0.0), "and how far a stem moves the hands is sure");
        assert_eq!(change(bar, HandPlace::Hoods), 0.0, "nor from the hoods by a bar");
    }

    /// Where a limit acts nothing is said that was not drawn; what was drawn tells what a raised stem
    /// does for a stiff neck, which slopes would call too small to tell.
    #[test]
    fn at_a_limit_only_what_was_drawn_is_doubted() {
        let raised = Cockpit { spacers_mm: deep().spacers_mm + 25.0, ..deep() };
        let mut session = session(vec![named("raised", raised)]);
        let visit = Arc::make_mut(&mut session.visits[0]);
        visit.mobility = vec![fit_doc::Mobility::measured(fit_doc::Joint::Neck, 36.0)];
        let mut bench = weigh(&session, None, &Survey::shipped().unwrap()).unwrap();
        let change_sd = |bench: &Weighed| {
            let [came, raised] = &bench.cockpits[..] else { panic!("two") };
            let of = |at: &WeighedCockpit| at.places[&HandPlace::Drops].report.trunk_rad;
            let change = of(raised) - of(came);
            (change, bench.change_sd(came, raised, TRUNK, change), bench.sd(came, TRUNK))
        };
        let outcome = bench.cockpits[0].places[&HandPlace::Drops].posture.outcome;
        assert!(matches!(outcome, Outcome::AtLimit { .. }), "{outcome:?}");
        let (change, sd, own) = change_sd(&bench);
        assert!(own.is_some() && fit_math::doubt::tells(change, sd.unwrap()), "{change} {sd:?}");
        bench.drawn = None;
        assert_eq!((change_sd(&bench).1, change_sd(&bench).2), (None, None));
        // the hoods are short of the limit, and are followed as ever
        let hoods = Doubted::At(HandPlace::Hoods, Asked::Elbow);
        let short = bench.cockpits[1].places[&HandPlace::Hoods].posture.outcome;
        assert_eq!(short, Outcome::Reached);
        assert!(bench.sd(&bench.cockpits[1], hoods).is_some());
    }

    /// Every path that the output compares and that is followed is one of the numbers here.
    #[test]
    fn paths_name_numbers() {
        assert_eq!(doubted_of("places/drops/trunk"), Some(TRUNK));
        assert_eq!(
            doubted_of("places/hoods/grip/1"),
            Some(Doubted::Hand(HandPlace::Hoods, DVec3::Y))
        );
        assert_eq!(doubted_of("travel/hoods_to_drops/neck"), Some(Doubted::Travel(Asked::Neck)));
        for other in ["places/drops/axis/0", "clamp/0", "places/nowhere/trunk", "travel/trunk", ""]
        {
            assert_eq!(doubted_of(other), None, "{other}");
        }
    }
}
