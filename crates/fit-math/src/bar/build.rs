//! Building: dimensions are checked, solved and drawn, and what was drawn is measured again.
//!
//! Frame: **bar**; mm and rad. It deliberately returns no bend that measures otherwise than asked.
//! Source: elementary geometry.

use super::bend::{Bend, Marks};
use super::dimensions::{BarDimensions, Flare};
use super::ends;
use super::family::HookPiece;
use super::nearest;
use super::refusal::{BarRefusal, ReachDrop};
use super::solve::{Lean, Sizes};
use super::validate;
use crate::curve::{Chain, ChainError};
use crate::tolerance::EXACT_MM;

/// Radius at which a tail is turned out of the hook's plane, mm; judgement.
pub(super) const OUTSWEEP_RADIUS_MM: f64 = 40.0;

impl BarDimensions {
    /// Bends the bar of these dimensions. Every number is checked; the bend's closed form then
    /// has the asked reach, drop and widths to 1e-9 mm.
    ///
    /// # Errors
    /// A [`BarRefusal`]: a number that is none of a drop bar's, or a bend that would break a
    /// [`super::Rule`], with the nearest reach and drop that would not.
    pub fn build(&self) -> Result<Bend, BarRefusal> {
        validate::validate(self)?;
        let asked = ReachDrop { reach_mm: self.reach_mm, drop_mm: self.drop_mm };
        let flare_rad = match self.flare {
            Flare::Angle(flare_rad) => flare_rad,
            Flare::EndsWidth { width_mm, how } => ends::flare_rad(self, asked, width_mm, how)
                .ok_or_else(|| ends::refusal(self, asked, width_mm, how))?,
        };
        let lean = Lean::of(self, flare_rad);
        let Some(sizes) = lean.sizes(asked.reach_mm, asked.drop_mm) else {
            return Err(BarRefusal::NothingFits { rules: Vec::new() });
        };
        let rules = lean.broken(sizes);
        if !rules.is_empty() {
            return Err(nearest::refusal(self, &lean, asked, rules));
        }
        let bend = draw(self, flare_rad, &lean, sizes)
            .map_err(|_| BarRefusal::NothingFits { rules: Vec::new() })?;
        bend.within_clamp_zone(self.clamp_zone)?.measured_as_asked(&lean)
    }
}

impl BarDimensions {
    /// Whether [`BarDimensions::build`] finds a bend, without the search for the nearest one where
    /// it does not.
    pub fn can_be_built(&self) -> bool {
        let at = ReachDrop { reach_mm: self.reach_mm, drop_mm: self.drop_mm };
        validate::validate(self).is_ok() && is_buildable(self, at)
    }
}

/// Whether a bar of this reach and drop, all else kept, breaks no rule. The bar's other numbers
/// are valid.
pub(super) fn is_buildable(bar: &BarDimensions, at: ReachDrop) -> bool {
    let flare_rad = match bar.flare {
        Flare::Angle(flare_rad) => Some(flare_rad),
        Flare::EndsWidth { width_mm, how } => ends::flare_rad(bar, at, width_mm, how),
    };
    validate::is_reach_and_drop(at.reach_mm, at.drop_mm)
        && flare_rad.is_some_and(|flare_rad| {
            let lean = Lean::of(bar, flare_rad);
            lean.sizes(at.reach_mm, at.drop_mm).is_some_and(|sizes| lean.broken(sizes).is_empty())
        })
}

/// Draws the right half from the middle of the clamped top to the end.
fn draw(
    bar: &BarDimensions,
    flare_rad: f64,
    lean: &Lean,
    sizes: Sizes,
) -> Result<Bend, ChainError> {
    let forward_bend_mm = lean.forward_bend_mm(sizes);
    let bend_takes_mm = forward_bend_mm * (0.5 * lean.forward_turn_rad).tan();
    let tops_mm = sizes.corner_mm * lean.tops.length() - bend_takes_mm;
    let tops = lean.tops.normalize();
    let forwards = (lean.ramp - lean.ramp.dot(tops) * tops).normalize();
    let mut pen = Chain::start(glam::DVec3::ZERO, tops)
        .line(tops_mm)
        .arc(forward_bend_mm, lean.forward_turn_rad, forwards)
        .line(sizes.ramp_mm - bend_takes_mm);
    for piece in lean.hook.pieces() {
        // square to the pen and to the hook's outward side: towards the inside of the bend
        let inwards = pen.tangent().cross(lean.outwards);
        pen = match *piece {
            HookPiece::Turn { radius, turn_rad } => {
                pen.arc(radius * sizes.hook_mm, turn_rad, inwards)
            }
            HookPiece::Straight { length } => pen.line(length * sizes.hook_mm),
        };
    }
    let outsweep_mm = bar.outsweep_rad.abs() * OUTSWEEP_RADIUS_MM;
    let towards = if bar.outsweep_rad < 0.0 { -lean.outwards } else { lean.outwards };
    let chain = pen
        .arc(OUTSWEEP_RADIUS_MM, bar.outsweep_rad.abs(), towards)
        .line((bar.tail_length_mm - outsweep_mm).max(0.0))
        .build()?;
    let bend_end_mm = tops_mm + forward_bend_mm * lean.forward_turn_rad;
    let hook_start_mm = bend_end_mm + sizes.ramp_mm - bend_takes_mm;
    let marks = Marks {
        tops_end_mm: tops_mm,
        bend_end_mm,
        hook_start_mm,
        hook_end_mm: hook_start_mm + sizes.hook_mm * lean.hook.length_to(lean.hook.turn_rad()),
    };
    Ok(Bend::new(*bar, chain, marks, flare_rad, forward_bend_mm, lean, sizes))
}

impl Bend {
    /// This bend, where it measures what was asked.
    fn measured_as_asked(self, lean: &Lean) -> Result<Self, BarRefusal> {
        let bar = self.dimensions();
        let measured = ReachDrop { reach_mm: self.reach_mm(), drop_mm: self.drop_mm() };
        let asked = ReachDrop { reach_mm: bar.reach_mm, drop_mm: bar.drop_mm };
        let ends_off_mm = match bar.flare {
            Flare::Angle(_) => 0.0,
            Flare::EndsWidth { width_mm, how } => {
                self.width_ends_cc_mm() - bar.centre_to_centre_mm(width_mm, how)
            }
        };
        let width_off_mm = (self.width_cc_mm(bar.width_at) - 2.0 * lean.half_width_mm)
            .abs()
            .max(ends_off_mm.abs());
        let within = |off_mm: f64| off_mm.abs() <= EXACT_MM;
        if within(measured.reach_mm - asked.reach_mm)
            && within(measured.drop_mm - asked.drop_mm)
            && within(width_off_mm)
        {
            Ok(self)
        } else {
            Err(BarRefusal::NotReproduced { asked, measured, width_off_mm })
        }
    }
}
