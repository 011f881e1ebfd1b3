//! Parts in the file: bars, stems and levers by value. Lengths in mm, angles in degrees.

use super::kept::{Kept, Number, kept, required, words};
use crate::text::{Field, Shape};
use serde::{Deserialize, Serialize};

words! {
    Family { Round, Flat, Variable, }
    WidthAt { Hoods, Ends, }
    WidthHow { CentreToCentre, OutsideToOutside, }
    KnownBy { Catalogue, Measured, Traced, }
    LeverSort { Mechanical, Hydraulic, SmallHand, LongBody, BrakeOnly, WideFlare, }
}

kept! {
    Price { cents: u32, }
    OnTheShelf { price: Option<Price>, in_stock: u32, known_by: KnownBy, }
    OnePiece { stem_length_mm: Number, stem_angle_deg: Number, stem_clamp_height_mm: Number, }
    Bar {
        id: String,
        name: String,
        family: Family,
        proportions: Option<[Number; 3]>,
        reach_mm: Number,
        drop_mm: Number,
        width_mm: Number,
        width_at: WidthAt,
        width_how: WidthHow,
        flare: Flare,
        flare_from: String,
        outsweep_deg: Number,
        backsweep_deg: Number,
        rise_deg: Number,
        ramp_slope_deg: Number,
        ramp_outsweep_deg: Number,
        tail_slope_deg: Number,
        tail_length_mm: Number,
        forward_bend_radius_mm: Number,
        clamp_diameter_mm: Number,
        tops_diameter_mm: Number,
        drops_diameter_mm: Number,
        tops_depth_mm: Option<Number>,
        clamp_zone_mm: Option<(Number, Number)>,
        one_piece: Option<OnePiece>,
        tolerance_mm: Option<Number>,
        shelf: OnTheShelf,
    } + {
        no_levers: bool,
    }
    Stem {
        id: String,
        name: String,
        length_mm: Number,
        angle_deg: Number,
        reversible: bool,
        clamp_height_mm: Number,
        bar_diameter_mm: Number,
        steerer_diameter_mm: Number,
        shelf: OnTheShelf,
    }
    Blade {
        pivot_mm: (Number, Number),
        length_mm: Number,
        usable_mm: (Number, Number),
        rest_angle_deg: Number,
        adjuster_deg: Vec<Number>,
        free_travel_mm: Number,
    }
    Lever {
        id: String,
        name: String,
        sort: LeverSort,
        grip_mm: (Number, Number),
        hood_slope_deg: Number,
        grip_radius_mm: Number,
        hood_outline_mm: Vec<(Number, Number)>,
        blade: Blade,
        clamp_width_mm: Number,
        shelf: OnTheShelf,
    }
}

/// Flare as it was given.
#[derive(Debug, Serialize, Deserialize)]
#[serde(rename_all = "snake_case", deny_unknown_fields)]
pub(crate) enum Flare {
    Angle {
        #[serde(deserialize_with = "required")]
        deg: Number,
    },
    EndsWidth {
        #[serde(deserialize_with = "required")]
        mm: Number,
        #[serde(deserialize_with = "required")]
        how: WidthHow,
    },
}

impl Kept for Flare {
    type Doc = fit_doc::Flare;

    fn from_doc(doc: &Self::Doc) -> Self {
        match doc {
            fit_doc::Flare::Angle { deg } => Self::Angle { deg: Kept::from_doc(deg) },
            fit_doc::Flare::EndsWidth { mm, how } => {
                Self::EndsWidth { mm: Kept::from_doc(mm), how: Kept::from_doc(how) }
            }
        }
    }

    fn into_doc(self) -> Self::Doc {
        match self {
            Self::Angle { deg } => fit_doc::Flare::Angle { deg: deg.into_doc() },
            Self::EndsWidth { mm, how } => {
                fit_doc::Flare::EndsWidth { mm: mm.into_doc(), how: how.into_doc() }
            }
        }
    }

    fn shape() -> Shape {
        let angle = vec![Field::new("deg", Number::shape())];
        let ends = vec![Field::new("mm", Number::shape()), Field::new("how", WidthHow::shape())];
        Shape::Choice(vec![("angle".to_owned(), angle), ("ends_width".to_owned(), ends)])
    }
}
