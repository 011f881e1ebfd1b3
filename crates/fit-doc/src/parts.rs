//! Parts as a shop knows them: bars, stems and levers, held by value wherever they are used, so
//! that a session opens on a machine without that stock list.
//!
//! Lengths in mm and angles in *degrees*, exactly as they were typed or printed in a catalogue;
//! [`crate::geometry`] turns them into the radians of the sums.

/// Which curve the hook of a bar follows.
pub use fit_math::bar::Family;
/// Where a width was measured: at the hoods (the furthest-forward points) or at the ends.
pub use fit_math::bar::WidthAt;
/// How a width was measured: between centres or over the outsides.
pub use fit_math::bar::WidthHow;

/// How the dimensions of a part came to be known; it decides how far they can be trusted.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum KnownBy {
    /// Printed by the maker: reach, drop and width good to ± 3 mm, the hook to ± 6–8 mm
    /// (common practice, no source).
    Catalogue,
    /// Measured in the hand: ± 3 mm.
    Measured,
    /// Traced or photographed: ± 2 mm.
    Traced,
}

/// An amount of money in the shop's own currency.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub struct Price {
    /// In hundredths of the currency's unit, so that sums stay exact.
    pub cents: u32,
}

/// What a shop says of a part: what it costs, how many lie there, how it is known.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct OnTheShelf {
    /// Price of one, where known.
    pub price: Option<Price>,
    /// Pieces in stock.
    pub in_stock: u32,
    /// Where the dimensions come from.
    pub known_by: KnownBy,
}

/// How far the ends stand out from the hoods.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Flare {
    /// The printed angle of flare, in degrees.
    Angle {
        /// Degrees outwards.
        deg: f64,
    },
    /// The width at the ends was given; the flare follows from it.
    EndsWidth {
        /// Width at the ends, mm.
        mm: f64,
        /// Between centres or over the outsides.
        how: WidthHow,
    },
}

/// What a one-piece bar and stem fixes.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct OnePiece {
    /// Length of its stem along the stem's axis, mm.
    pub stem_length_mm: f64,
    /// Angle of its stem from the perpendicular to the steerer, up positive, degrees.
    pub stem_angle_deg: f64,
    /// Height that its clamp takes on the steerer, mm.
    pub stem_clamp_height_mm: f64,
}

/// One bar in one width.
#[derive(Debug, Clone, PartialEq)]
pub struct Bar {
    /// Stock number, unique in a list.
    pub id: String,
    /// What the shop calls it, width left out.
    pub name: String,
    /// Kind of bend.
    pub family: Family,
    /// The three curve proportions where this bar's differ from its family's.
    pub proportions: Option<[f64; 3]>,
    /// Horizontal, centre of the top to the centre of the furthest-forward point, mm.
    pub reach_mm: f64,
    /// Vertical, centre of the top to the centre of the lowest point, mm.
    pub drop_mm: f64,
    /// Width, mm.
    pub width_mm: f64,
    /// Where the width was measured.
    pub width_at: WidthAt,
    /// How the width was measured.
    pub width_how: WidthHow,
    /// Flare, printed or as a width at the ends.
    pub flare: Flare,
    /// Where the maker says that the flare begins; kept as text, the tube is the same.
    pub flare_from: String,
    /// Outward turn of the tail, degrees.
    pub outsweep_deg: f64,
    /// Backward slant of the tops, degrees.
    pub backsweep_deg: f64,
    /// Upward slant of the tops, degrees.
    pub rise_deg: f64,
    /// Downward slope of the ramp, degrees.
    pub ramp_slope_deg: f64,
    /// Outward turn of the ramp in plan, degrees.
    pub ramp_outsweep_deg: f64,
    /// Slope of the tail, falling to the rear positive, degrees.
    pub tail_slope_deg: f64,
    /// Length of the tail, mm.
    pub tail_length_mm: f64,
    /// Radius of the bend between tops and ramp, mm.
    pub forward_bend_radius_mm: f64,
    /// Diameter in the stem's clamp, mm.
    pub clamp_diameter_mm: f64,
    /// Diameter of the tube at the tops beside the clamp, mm.
    pub tops_diameter_mm: f64,
    /// Diameter of the tube from the ramps to the ends, mm.
    pub drops_diameter_mm: f64,
    /// Fore-and-aft depth of flat tops, mm; none where the tops are round.
    pub tops_depth_mm: Option<f64>,
    /// Where a lever may be clamped: lowest and highest, mm along the bar from its end; none: the
    /// default.
    pub clamp_zone_mm: Option<(f64, f64)>,
    /// No lever is made to be put on it: a bar for the track.
    pub no_levers: bool,
    /// Present when bar and stem are one piece: no roll, and this stem.
    pub one_piece: Option<OnePiece>,
    /// The bar's own tolerance, mm, where the maker states one.
    pub tolerance_mm: Option<f64>,
    /// Price, stock and how it is known.
    pub shelf: OnTheShelf,
}

/// One stem.
#[derive(Debug, Clone, PartialEq)]
pub struct Stem {
    /// Stock number, unique in a list.
    pub id: String,
    /// What the shop calls it.
    pub name: String,
    /// Steerer axis to bar axis along the stem, mm.
    pub length_mm: f64,
    /// Angle from the perpendicular to the steerer, up positive, degrees, as mounted.
    pub angle_deg: f64,
    /// May be turned over, so that the angle changes sign.
    pub reversible: bool,
    /// Height that its clamp takes on the steerer, mm.
    pub clamp_height_mm: f64,
    /// Diameter of the bar it takes, mm.
    pub bar_diameter_mm: f64,
    /// Diameter of the steerer it takes, mm.
    pub steerer_diameter_mm: f64,
    /// Price, stock and how it is known.
    pub shelf: OnTheShelf,
}

/// A clamp and a bar this close in diameter are of one size, mm (judgement; sizes in use are
/// 25.4, 26.0, 31.8 and 35.0, common practice, no source).
const CLAMP_FITS_MM: f64 = 0.25;

impl Stem {
    /// The stem as it is listed and, where it is reversible, the other way up.
    pub fn ways_up(&self) -> impl Iterator<Item = Self> + use<> {
        let over = (self.reversible && self.angle_deg != 0.0)
            .then(|| Self { angle_deg: -self.angle_deg, ..self.clone() });
        core::iter::once(self.clone()).chain(over)
    }

    /// Whether its clamp takes a bar; one that is its own stem needs none.
    pub fn takes(&self, bar: &Bar) -> bool {
        let off_mm = (self.bar_diameter_mm - bar.clamp_diameter_mm).abs();
        bar.one_piece.is_some() || off_mm <= CLAMP_FITS_MM
    }
}

/// The sort of lever, as the trade tells them apart.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum LeverSort {
    /// Cable brake with a shifter.
    Mechanical,
    /// Hydraulic brake with a shifter.
    Hydraulic,
    /// Made for small hands.
    SmallHand,
    /// A long body that puts the hood further forward.
    LongBody,
    /// Brake only, old style, no shifter.
    BrakeOnly,
    /// Shaped to stand upright on a widely flared bar.
    WideFlare,
}

/// A brake blade in the lever's own frame (forward along the bar's tangent, up away from the bar).
#[derive(Debug, Clone, PartialEq)]
pub struct Blade {
    /// Pivot: forward, up, mm from the bar's centreline at the clamp's middle.
    pub pivot_mm: (f64, f64),
    /// Length from the pivot, mm.
    pub length_mm: f64,
    /// Stretch that a finger can use, from and to, mm from the pivot.
    pub usable_mm: (f64, f64),
    /// Angle at rest from the bar's tangent, towards the bar negative, degrees.
    pub rest_angle_deg: f64,
    /// What each click of the reach adjuster adds to the rest angle, degrees, first is zero.
    pub adjuster_deg: Vec<f64>,
    /// Travel of the tip before the brake bites, mm.
    pub free_travel_mm: f64,
}

/// One kind of lever.
#[derive(Debug, Clone, PartialEq)]
pub struct Lever {
    /// Stock number, unique in a list.
    pub id: String,
    /// What the shop calls it.
    pub name: String,
    /// Sort of lever.
    pub sort: LeverSort,
    /// Grip point: forward, up, mm from the bar's centreline at the clamp's middle.
    pub grip_mm: (f64, f64),
    /// Slope of the hood's top line against the bar's tangent, degrees.
    pub hood_slope_deg: f64,
    /// Radius of the hood where the hand holds it, mm.
    pub grip_radius_mm: f64,
    /// Outline of hood and body, forward and up in mm, in order round the shape.
    pub hood_outline_mm: Vec<(f64, f64)>,
    /// The brake blade.
    pub blade: Blade,
    /// Width of the clamp along the bar, mm.
    pub clamp_width_mm: f64,
    /// Price, stock and how it is known.
    pub shelf: OnTheShelf,
}
