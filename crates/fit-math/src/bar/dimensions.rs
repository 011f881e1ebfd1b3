//! What is known of a bar: the dimensions of a catalogue page or of a tape.
//!
//! Frame: **bar**; mm and rad. Plain data, not yet checked: [`BarDimensions::build`] does that.
//! It deliberately does not hold name, price or doubt: those belong to the document.
//! Source: the trade's own definitions, common practice, no source.

/// Tail length where none is known, mm; judgement.
const USUAL_TAIL_MM: f64 = 45.0;
/// Slopes of ramp and tail where none are known, rad: 5°; judgement.
const USUAL_SLOPE_RAD: f64 = 5.0 * core::f64::consts::PI / 180.0;
/// Radius of the bend between tops and ramp where none is known, mm; judgement.
const USUAL_FORWARD_BEND_MM: f64 = 40.0;
/// Diameter where the stem clamps, mm; common practice, no source.
const USUAL_CLAMP_MM: f64 = 31.8;
/// Diameter of the tube elsewhere, mm; common practice, no source.
const USUAL_TUBE_MM: f64 = 23.8;

/// The family of bend: how the hook is put together. `k` scales the hook, `r` is the slope of the
/// ramp and `t` that of the tail. The proportions are judgement.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Family {
    /// One arc of radius k turning 180° − r − t.
    Round,
    /// Ergonomic: an arc of .62 k turning 100° − r, a flat of .55 k, an arc of .50 k turning
    /// 80° − t.
    Flat,
    /// Compact: an arc of .55 k turning 60° − r, one of .90 k turning 60°, one of .62 k turning
    /// 60° − t.
    Variable,
}

/// Where along the bar a width is taken.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum WidthAt {
    /// At the furthest-forward points.
    Hoods,
    /// At the ends of the tails.
    Ends,
}

/// Between which points of the tube a width is taken.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum WidthHow {
    /// Between the middles of the tube.
    CentreToCentre,
    /// Over the outsides: centre to centre and one diameter of the tube there.
    OutsideToOutside,
}

/// How far the hooks lean outwards.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Flare {
    /// Angle of the hook from upright seen level from the front, rad, + outwards; where the ramp
    /// runs outwards, seen level along it.
    Angle(f64),
    /// The width at the ends says it; the width of the bar is then the one at the hoods.
    EndsWidth {
        /// Width at the ends, mm.
        width_mm: f64,
        /// How it was taken.
        how: WidthHow,
    },
}

/// The stretch of the bar on which the middle of a lever's clamp may sit, as arc lengths from the
/// bar's end: what a tape laid along the bar reads.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ClampZone {
    /// The limit nearer to the end, mm.
    pub lowest_along_mm: f64,
    /// The limit nearer to the tops, mm.
    pub highest_along_mm: f64,
}

/// The dimensions of a bar.
///
/// Reach is horizontal from the middle of the clamped top to the middle of the tube at the
/// furthest-forward point, drop is vertical from there to its lowest point (the end of the tail
/// where that falls). The slopes are those before the hook is flared.
///
/// ```
/// use fit_math::bar::{BarDimensions, Family};
///
/// let bend = BarDimensions::usual(Family::Round, 88.0, 150.0, 420.0).build()?;
/// assert!((bend.reach_mm() - 88.0).abs() < 1e-9);
/// assert!((bend.drop_mm() - 150.0).abs() < 1e-9);
/// assert!((bend.width_hoods_cc_mm() - 420.0).abs() < 1e-9);
/// # Ok::<(), fit_math::bar::BarRefusal>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BarDimensions {
    /// Family of bend.
    pub family: Family,
    /// This bar's own factors of k in the order of [`Family`] (flat .62, .55, .50; variable .55,
    /// .90, .62); a round bend has none.
    pub proportions: Option<[f64; 3]>,
    /// Reach, mm.
    pub reach_mm: f64,
    /// Drop, mm.
    pub drop_mm: f64,
    /// Width, mm.
    pub width_mm: f64,
    /// Where the width is taken.
    pub width_at: WidthAt,
    /// How the width is taken.
    pub width_how: WidthHow,
    /// Lean of the hooks.
    pub flare: Flare,
    /// Turn of the tails out of the hook's plane, rad, + outwards; an arc of 40 mm radius taken
    /// from the start of the tail.
    pub outsweep_rad: f64,
    /// Angle of the tops in plan, rad, + with the corners behind the clamp.
    pub backsweep_rad: f64,
    /// Angle of the tops seen from the front, rad, + with the corners above the clamp.
    pub rise_rad: f64,
    /// Angle of the ramps in plan, rad, + forwards and outwards.
    pub ramp_outsweep_rad: f64,
    /// Slope of the ramp, rad, + falling forwards.
    pub ramp_slope_rad: f64,
    /// Slope of the tail, rad, + falling rearwards.
    pub tail_slope_rad: f64,
    /// Straight length after the hook, mm.
    pub tail_length_mm: f64,
    /// Radius of the bend between tops and ramp, mm; less is built where the ramp is too short.
    pub forward_bend_radius_mm: f64,
    /// Diameter where the stem clamps, mm.
    pub clamp_diameter_mm: f64,
    /// Diameter of the tops where the hands hold them, mm (their height where they are flat).
    pub tops_mm: f64,
    /// Diameter of ramps, hooks and tails, mm.
    pub drops_mm: f64,
    /// Depth of flat tops fore and aft, mm; none where they are round.
    pub tops_depth_mm: Option<f64>,
    /// Where levers may be clamped; none for the usual zone, see [`super::Bend::clamp_zone`].
    pub clamp_zone: Option<ClampZone>,
}

impl BarDimensions {
    /// A bar of which no more is known than family, reach, drop and width centre to centre at the
    /// hoods, in mm: slopes of 5°, a tail of 45 mm, no flare, no sweep, round tops, 31.8 mm where
    /// it is clamped and 23.8 mm elsewhere (judgement).
    pub const fn usual(family: Family, reach_mm: f64, drop_mm: f64, width_mm: f64) -> Self {
        Self {
            family,
            proportions: None,
            reach_mm,
            drop_mm,
            width_mm,
            width_at: WidthAt::Hoods,
            width_how: WidthHow::CentreToCentre,
            flare: Flare::Angle(0.0),
            outsweep_rad: 0.0,
            backsweep_rad: 0.0,
            rise_rad: 0.0,
            ramp_outsweep_rad: 0.0,
            ramp_slope_rad: USUAL_SLOPE_RAD,
            tail_slope_rad: USUAL_SLOPE_RAD,
            tail_length_mm: USUAL_TAIL_MM,
            forward_bend_radius_mm: USUAL_FORWARD_BEND_MM,
            clamp_diameter_mm: USUAL_CLAMP_MM,
            tops_mm: USUAL_TUBE_MM,
            drops_mm: USUAL_TUBE_MM,
            tops_depth_mm: None,
            clamp_zone: None,
        }
    }

    /// A width at hoods or ends brought to centre to centre, mm.
    pub(super) fn centre_to_centre_mm(&self, width_mm: f64, how: WidthHow) -> f64 {
        match how {
            WidthHow::CentreToCentre => width_mm,
            WidthHow::OutsideToOutside => width_mm - self.drops_mm,
        }
    }

    /// A width centre to centre brought to how it is taken, mm.
    pub(super) fn as_taken_mm(&self, centre_to_centre_mm: f64, how: WidthHow) -> f64 {
        match how {
            WidthHow::CentreToCentre => centre_to_centre_mm,
            WidthHow::OutsideToOutside => centre_to_centre_mm + self.drops_mm,
        }
    }
}
