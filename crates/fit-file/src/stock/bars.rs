//! The list of bars: one entry for each bend, its widths inside.
//!
//! Lengths and diameters in mm, angles in degrees. A size takes from its bend what it does not say
//! itself. Each bar is bent once on reading, so that a list holds no bar that cannot be. It
//! deliberately does not ask about what is merely rare.

use fit_doc::{Bar, Findings, Flare, OnePiece, Quantity};
use serde::Deserialize;

use super::error::{StockError, StockList};
use super::reading::{Ids, Raw, Section};
use super::shelf::{KnownBy, on_the_shelf};

/// Radius of the bend between tops and ramp where none is given, mm; judgement.
pub(super) const USUAL_FORWARD_BEND_MM: f64 = 40.0;
/// Diameter in the clamp where none is given, mm; common practice, no source.
pub(super) const USUAL_CLAMP_MM: f64 = 31.8;
/// Diameter of the tube where none is given, mm; common practice, no source.
pub(super) const USUAL_TUBE_MM: f64 = 23.8;

#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
struct BarList {
    kind: Raw,
    version: Raw,
    bends: Vec<Raw>,
}

#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
struct BendEntry {
    name: Raw,
    family: Family,
    proportions: Option<[Raw; 3]>,
    reach_mm: Raw,
    drop_mm: Raw,
    width_at: WidthAt,
    width_how: WidthHow,
    flare_deg: Option<Raw>,
    flare_from: Option<String>,
    ramp_slope_deg: Raw,
    tail_slope_deg: Raw,
    tail_length_mm: Raw,
    backsweep_deg: Option<Raw>,
    rise_deg: Option<Raw>,
    ramp_outsweep_deg: Option<Raw>,
    outsweep_deg: Option<Raw>,
    forward_bend_radius_mm: Option<Raw>,
    clamp_diameter_mm: Option<Raw>,
    tops_diameter_mm: Option<Raw>,
    tops_depth_mm: Option<Raw>,
    drops_diameter_mm: Option<Raw>,
    clamp_zone_mm: Option<(Raw, Raw)>,
    #[serde(default)]
    no_levers: bool,
    stem: Option<OwnStem>,
    tolerance_mm: Option<Raw>,
    known_by: KnownBy,
    sizes: Vec<Raw>,
}

#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
struct OwnStem {
    angle_deg: Raw,
    clamp_height_mm: Raw,
}

#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
struct SizeEntry {
    id: Raw,
    width_mm: Raw,
    reach_mm: Option<Raw>,
    drop_mm: Option<Raw>,
    tail_length_mm: Option<Raw>,
    flare_deg: Option<Raw>,
    ends_width_mm: Option<Raw>,
    stem_length_mm: Option<Raw>,
    price_cents: Option<u32>,
    in_stock: u32,
}

#[derive(Debug, Clone, Copy, Deserialize)]
#[serde(rename_all = "snake_case")]
enum Family {
    Round,
    Flat,
    Variable,
}

#[derive(Debug, Clone, Copy, Deserialize)]
#[serde(rename_all = "snake_case")]
enum WidthAt {
    Hoods,
    Ends,
}

#[derive(Debug, Clone, Copy, Deserialize)]
#[serde(rename_all = "snake_case")]
enum WidthHow {
    CentreToCentre,
    OutsideToOutside,
}

impl From<Family> for fit_doc::Family {
    fn from(family: Family) -> Self {
        match family {
            Family::Round => Self::Round,
            Family::Flat => Self::Flat,
            Family::Variable => Self::Variable,
        }
    }
}

impl From<WidthAt> for fit_doc::WidthAt {
    fn from(at: WidthAt) -> Self {
        match at {
            WidthAt::Hoods => Self::Hoods,
            WidthAt::Ends => Self::Ends,
        }
    }
}

impl From<WidthHow> for fit_doc::WidthHow {
    fn from(how: WidthHow) -> Self {
        match how {
            WidthHow::CentreToCentre => Self::CentreToCentre,
            WidthHow::OutsideToOutside => Self::OutsideToOutside,
        }
    }
}

/// Reads a list of bars, each checked against the ranges of the trade and bent once.
///
/// # Errors
/// Names the first fault by line, column and entry: a slip in the format, an unknown field, a
/// number that is none or that no bar can have, a stock number that stands twice, a bar that
/// cannot be bent.
pub fn parse_bars(text: &str) -> Result<Vec<Bar>, StockError> {
    let section = Section::whole(StockList::Bars, text)?;
    let list: BarList = section.read()?;
    section.check_head(&list.kind, &list.version)?;
    let mut ids = Ids::default();
    let mut bars = Vec::new();
    for raw in &list.bends {
        let section = section.inner(raw);
        let bend: BendEntry = section.read()?;
        let name = section.name(&bend.name)?;
        let section = section.named(&name);
        section.check_sizes(&bend.sizes, &bend.name)?;
        for raw in &bend.sizes {
            let section = section.inner(raw);
            let size: SizeEntry = section.read()?;
            let id = ids.claim(&section, &size.id)?;
            let section = section.named(&id);
            let bar = bar(&section, id, name.clone(), &bend, &size)?;
            let mut findings = Findings::default();
            fit_doc::check_bar(&mut findings, &section.place(), &bar);
            section.pass(findings.refused, &size.id)?;
            bars.push(bar);
        }
    }
    Ok(bars)
}

fn bar(
    at: &Section<'_>,
    id: String,
    name: String,
    bend: &BendEntry,
    size: &SizeEntry,
) -> Result<Bar, StockError> {
    let width = match bend.width_at {
        WidthAt::Hoods => Quantity::BarWidthAtHoods,
        WidthAt::Ends => Quantity::BarWidthAtEnds,
    };
    let angle = |raw: &Option<Raw>, quantity| at.number_or(raw.as_ref(), quantity, 0.0);
    let tube = |raw: &Option<Raw>, mm| at.number_or(raw.as_ref(), Quantity::TubeDiameter, mm);
    let own =
        |own: &Option<Raw>, bend: &Raw, quantity| at.number(own.as_ref().unwrap_or(bend), quantity);
    Ok(Bar {
        id,
        name,
        family: bend.family.into(),
        proportions: proportions(at, bend.proportions.as_ref())?,
        reach_mm: own(&size.reach_mm, &bend.reach_mm, Quantity::BarReach)?,
        drop_mm: own(&size.drop_mm, &bend.drop_mm, Quantity::BarDrop)?,
        width_mm: at.number(&size.width_mm, width)?,
        width_at: bend.width_at.into(),
        width_how: bend.width_how.into(),
        flare: flare(at, bend, size)?,
        flare_from: bend.flare_from.clone().unwrap_or_default(),
        outsweep_deg: angle(&bend.outsweep_deg, Quantity::Outsweep)?,
        backsweep_deg: angle(&bend.backsweep_deg, Quantity::Backsweep)?,
        rise_deg: angle(&bend.rise_deg, Quantity::Rise)?,
        ramp_slope_deg: at.number(&bend.ramp_slope_deg, Quantity::RampSlope)?,
        ramp_outsweep_deg: angle(&bend.ramp_outsweep_deg, Quantity::RampOutsweep)?,
        tail_slope_deg: at.number(&bend.tail_slope_deg, Quantity::TailSlope)?,
        tail_length_mm: own(&size.tail_length_mm, &bend.tail_length_mm, Quantity::TailLength)?,
        forward_bend_radius_mm: at.number_or(
            bend.forward_bend_radius_mm.as_ref(),
            Quantity::ForwardBendRadius,
            USUAL_FORWARD_BEND_MM,
        )?,
        clamp_diameter_mm: tube(&bend.clamp_diameter_mm, USUAL_CLAMP_MM)?,
        tops_diameter_mm: tube(&bend.tops_diameter_mm, USUAL_TUBE_MM)?,
        drops_diameter_mm: tube(&bend.drops_diameter_mm, USUAL_TUBE_MM)?,
        tops_depth_mm: bend
            .tops_depth_mm
            .as_ref()
            .map(|raw| at.number(raw, Quantity::TopsDepth))
            .transpose()?,
        clamp_zone_mm: bend
            .clamp_zone_mm
            .as_ref()
            .map(|zone| at.pair(zone, Quantity::ClampZone))
            .transpose()?,
        no_levers: bend.no_levers,
        one_piece: one_piece(at, bend, size)?,
        tolerance_mm: bend
            .tolerance_mm
            .as_ref()
            .map(|raw| at.number(raw, Quantity::Tolerance))
            .transpose()?,
        shelf: on_the_shelf(size.price_cents, size.in_stock, bend.known_by),
    })
}

fn proportions(at: &Section<'_>, raw: Option<&[Raw; 3]>) -> Result<Option<[f64; 3]>, StockError> {
    let Some([first, middle, last]) = raw else { return Ok(None) };
    let part = |raw| at.number(raw, Quantity::Proportion);
    Ok(Some([part(first)?, part(middle)?, part(last)?]))
}

/// The flare of a size: its width at the ends wins over an angle, its own angle over its bend's.
fn flare(at: &Section<'_>, bend: &BendEntry, size: &SizeEntry) -> Result<Flare, StockError> {
    if let Some(raw) = &size.ends_width_mm {
        let mm = at.number(raw, Quantity::BarWidthAtEnds)?;
        return Ok(Flare::EndsWidth { mm, how: bend.width_how.into() });
    }
    let raw = size.flare_deg.as_ref().or(bend.flare_deg.as_ref());
    Ok(Flare::Angle { deg: at.number_or(raw, Quantity::Flare, 0.0)? })
}

fn one_piece(
    at: &Section<'_>,
    bend: &BendEntry,
    size: &SizeEntry,
) -> Result<Option<OnePiece>, StockError> {
    match (&bend.stem, &size.stem_length_mm) {
        (None, None) => Ok(None),
        (Some(stem), Some(length)) => Ok(Some(OnePiece {
            stem_length_mm: at.number(length, Quantity::StemLength)?,
            stem_angle_deg: at.number(&stem.angle_deg, Quantity::StemAngle)?,
            stem_clamp_height_mm: at.number(&stem.clamp_height_mm, Quantity::StemClampHeight)?,
        })),
        (Some(_), None) => {
            let expected = "stem_length_mm, since bar and stem are one piece".into();
            Err(at.fault_at(&size.id, "no length of the stem".into(), expected))
        }
        (None, Some(length)) => {
            let expected = "none, since the bend names no stem of its own".into();
            Err(at.fault_at(length, "a length of the stem".into(), expected))
        }
    }
}
