//! Match: the parts and settings from stock that bring a wanted hand place back.
//!
//! Exhaustive over a grid: stems × spacers × roll × lever position along the bar, the
//! present value of each always among the points. Least distance in the side view wins; ties (to
//! [`TIE_MM`]) go to the fewest changed, then the least roll, then the least spacers. Width is not
//! part of the distance: nothing on the grid can bring it back, so it is reported beside it.

use super::assembly::{Cockpit, CockpitError, LeverPair, bike_from_bar};
use super::lever::{LeverPose, Mount};
use super::places::HandPlaces;
use super::stem::{Stem, clamp_position};
use crate::HandPlace;
use crate::frame::Side;
use glam::{DVec2, DVec3};

/// Two distances closer than this are a tie, mm.
pub const TIE_MM: f64 = 1e-9;

/// A value equal to the present one to within this counts as unchanged.
const SAME: f64 = 1e-12;

/// What to bring back.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct MatchGoal {
    /// Which hand place.
    pub place: HandPlace,
    /// Where its grip is wanted, bike frame, mm: [`super::GripPair::midway`], so that levers set differently
    /// bring back what both hands had on average.
    pub grip: DVec3,
}

/// The points of the grid. Present values are added by [`match_place`] where they are missing.
#[derive(Debug, Clone, PartialEq)]
pub struct Axes {
    /// Stems that may be used; reversible ones appear once for each way up.
    pub stems: Vec<Stem>,
    /// Heights of spacers, mm.
    pub spacers_mm: Vec<f64>,
    /// Rolls, radians.
    pub rolls_rad: Vec<f64>,
    /// Shifts of both levers along the bar from where they sit now, towards the hoods positive, mm.
    pub shifts_mm: Vec<f64>,
}

impl Axes {
    /// The usual grid: spacers from 0 to `most_spacers_mm` by 5 mm, roll from `rolls_deg.0` to
    /// `rolls_deg.1` degrees by half a degree, levers up to `most_shift_mm` either way by 1 mm.
    pub fn usual(
        stems: Vec<Stem>,
        most_spacers_mm: u32,
        rolls_deg: (i32, i32),
        most_shift_mm: i32,
    ) -> Self {
        Self {
            stems,
            spacers_mm: (0..=most_spacers_mm / 5).map(|k| f64::from(5 * k)).collect(),
            rolls_rad: (2 * rolls_deg.0..=2 * rolls_deg.1)
                .map(|half| (f64::from(half) / 2.0).to_radians())
                .collect(),
            shifts_mm: (-most_shift_mm..=most_shift_mm).map(f64::from).collect(),
        }
    }
}

/// The best point of the grid.
#[derive(Debug, Clone, PartialEq)]
pub struct Match {
    /// The cockpit with the matched parts and settings.
    pub cockpit: Cockpit,
    /// What is left of the distance in the side view, mm.
    pub residual_mm: f64,
    /// How much further out the grips lie than wanted, mm; negative is further in.
    pub wider_mm: f64,
    /// How many of stem, spacers, roll and lever position differ from the present ones.
    pub changed: u32,
}

struct Best {
    rank: (f64, u32, f64, f64),
    stem: Stem,
    spacers_mm: f64,
    roll_rad: f64,
    shift_mm: f64,
}

/// Finds the parts and settings on the grid whose grip comes nearest to the wanted one.
///
/// `present` carries the bar to use and the settings it has now. None when the place needs levers
/// and there are none.
///
/// # Errors
/// When the winning settings do not make a cockpit, which only non-finite axes can cause.
pub fn match_place(
    goal: &MatchGoal,
    present: &Cockpit,
    axes: &Axes,
) -> Result<Option<Match>, CockpitError> {
    if present.grips(goal.place).is_none() {
        return Ok(None);
    }
    let uses_lever = matches!(goal.place, HandPlace::Hoods | HandPlace::BentElbowHoods);
    let shifts = if uses_lever { with(&axes.shifts_mm, 0.0) } else { vec![0.0] };
    let stems = with(&axes.stems, *present.stem());
    let spacers = with(&axes.spacers_mm, present.spacers_mm());
    let rolls = with(&axes.rolls_rad, present.roll_rad());
    let grips_in_bar: Vec<(f64, DVec3)> = shifts
        .iter()
        .filter_map(|&shift| Some((shift, grip_in_bar(present, goal.place, shift)?)))
        .collect();

    let mut best: Option<Best> = None;
    for &roll_rad in &rolls {
        let turned = bike_from_bar(DVec2::ZERO, roll_rad);
        for &(shift_mm, grip) in &grips_in_bar {
            let from_clamp = turned.transform_vector3(grip).truncate();
            for stem in &stems {
                for &spacers_mm in &spacers {
                    let clamp = clamp_position(present.front(), stem, spacers_mm);
                    let distance = (clamp + from_clamp - goal.grip.truncate()).length();
                    let changed = [
                        *stem != *present.stem(),
                        !same(spacers_mm, present.spacers_mm()),
                        !same(roll_rad, present.roll_rad()),
                        !same(shift_mm, 0.0),
                    ];
                    let changed = changed.into_iter().map(u32::from).sum();
                    let rank = (distance, changed, roll_rad.abs(), spacers_mm);
                    if best.as_ref().is_none_or(|b| better(&rank, &b.rank)) {
                        best = Some(Best { rank, stem: *stem, spacers_mm, roll_rad, shift_mm });
                    }
                }
            }
        }
    }
    best.map(|best| assemble(goal, present, &best)).transpose()
}

fn assemble(goal: &MatchGoal, present: &Cockpit, best: &Best) -> Result<Match, CockpitError> {
    let cockpit = Cockpit::new(
        *present.front(),
        best.stem,
        best.spacers_mm,
        present.bend().clone(),
        best.roll_rad,
        present.levers().map(|pair| shifted(pair, best.shift_mm)),
        present.drops_hand_mm(),
    )?;
    let wider_mm = cockpit.grips(goal.place).map_or(0.0, |pair| pair.midway().z - goal.grip.z);
    Ok(Match { cockpit, residual_mm: best.rank.0, wider_mm, changed: best.rank.1 })
}

/// Lexicographic order in which distances within [`TIE_MM`] are equal.
fn better(a: &(f64, u32, f64, f64), b: &(f64, u32, f64, f64)) -> bool {
    if (a.0 - b.0).abs() > TIE_MM {
        return a.0 < b.0;
    }
    a.1.cmp(&b.1).then(a.2.total_cmp(&b.2)).then(a.3.total_cmp(&b.3)).is_lt()
}

fn same(a: f64, b: f64) -> bool {
    (a - b).abs() <= SAME
}

fn with<T: PartialEq + Clone>(values: &[T], present: T) -> Vec<T> {
    let mut all = vec![present];
    all.extend(values.iter().filter(|v| **v != all[0]).cloned().collect::<Vec<_>>());
    all
}

fn shifted(pair: &LeverPair, shift_mm: f64) -> LeverPair {
    let moved = |mount: Mount| Mount { along_mm: mount.along_mm + shift_mm, ..mount };
    LeverPair { left: moved(pair.left), right: moved(pair.right), ..pair.clone() }
}

/// Grip of the place midway between the hands in the bar frame with the levers shifted; none where
/// the levers would leave the clamp zone.
fn grip_in_bar(present: &Cockpit, place: HandPlace, shift_mm: f64) -> Option<DVec3> {
    let bend = present.bend();
    let pair = match present.levers() {
        Some(pair) if shift_mm != 0.0 => {
            let pair = shifted(pair, shift_mm);
            let (from, to) = bend.clamp_zone();
            let inside = |mount: &Mount| {
                let s = bend.s_from_along(mount.along_mm);
                (from..=to).contains(&s)
            };
            (inside(&pair.left) && inside(&pair.right)).then_some(Some(pair))?
        }
        other => other.cloned(),
    };
    let poses = pair.as_ref().map(|pair| {
        [
            LeverPose::new(&pair.shape, bend, pair.left, Side::Left),
            LeverPose::new(&pair.shape, bend, pair.right, Side::Right),
        ]
    });
    HandPlaces::new(bend, poses, present.drops_hand_mm()).get(place).map(|p| p.midway())
}

#[cfg(test)]
mod tests {
    use super::better;

    #[test]
    fn ties_go_to_fewest_changed_then_least_roll_then_least_spacers() {
        let order = [
            (1.0, 3, 0.2, 30.0),
            (1.0 + 1e-10, 1, 0.2, 0.0),
            (1.0, 1, 0.1, 30.0),
            (1.0 - 1e-10, 1, 0.1, 5.0),
            (0.5, 4, 0.5, 40.0),
        ];
        for pair in order.windows(2) {
            assert!(better(&pair[1], &pair[0]) && !better(&pair[0], &pair[1]), "{pair:?}");
        }
        assert!(!better(&order[0], &order[0]), "the first of two equals stays");
    }
}
