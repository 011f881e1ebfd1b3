//! The list of levers: one entry for each kind.
//!
//! Coordinates (forward, up) in mm in the lever's own frame, from the bar's centreline at the
//! clamp's middle; angles in degrees against the bar's tangent. "None" is not in the list: a bar
//! without levers has no lever.

use fit_doc::{Blade, Findings, Lever, Quantity};
use serde::Deserialize;

use super::error::{StockError, StockList};
use super::reading::{Ids, Raw, Section};
use super::shelf::{KnownBy, on_the_shelf};

/// Fewest corners that go round a shape.
pub(super) const FEWEST_OUTLINE_POINTS: usize = 3;

#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
struct LeverList {
    kind: Raw,
    version: Raw,
    levers: Vec<Raw>,
}

#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
struct LeverEntry {
    id: Raw,
    name: Raw,
    sort: Sort,
    grip_mm: (Raw, Raw),
    hood_slope_deg: Raw,
    grip_radius_mm: Raw,
    clamp_width_mm: Raw,
    blade: BladeEntry,
    hood_outline_mm: Vec<(Raw, Raw)>,
    price_cents: Option<u32>,
    in_stock: u32,
    known_by: KnownBy,
}

#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
struct BladeEntry {
    pivot_mm: (Raw, Raw),
    length_mm: Raw,
    usable_mm: (Raw, Raw),
    rest_angle_deg: Raw,
    adjuster_deg: Vec<Raw>,
    free_travel_mm: Raw,
}

#[derive(Debug, Clone, Copy, Deserialize)]
#[serde(rename_all = "snake_case")]
enum Sort {
    Mechanical,
    Hydraulic,
    SmallHand,
    LongBody,
    BrakeOnly,
    WideFlare,
}

impl From<Sort> for fit_doc::LeverSort {
    fn from(sort: Sort) -> Self {
        match sort {
            Sort::Mechanical => Self::Mechanical,
            Sort::Hydraulic => Self::Hydraulic,
            Sort::SmallHand => Self::SmallHand,
            Sort::LongBody => Self::LongBody,
            Sort::BrakeOnly => Self::BrakeOnly,
            Sort::WideFlare => Self::WideFlare,
        }
    }
}

/// Reads a list of levers, each checked against the ranges of the trade and against itself.
///
/// # Errors
/// Names the first fault by line, column and entry: a slip in the format, an unknown field, a
/// number that is none or that no lever can have, a stock number that stands twice, a usable
/// stretch that is not on the blade, an adjuster whose first click is not the rest.
pub fn parse_levers(text: &str) -> Result<Vec<Lever>, StockError> {
    let section = Section::whole(StockList::Levers, text)?;
    let list: LeverList = section.read()?;
    section.check_head(&list.kind, &list.version)?;
    let mut ids = Ids::default();
    let mut levers = Vec::new();
    for raw in &list.levers {
        let section = section.inner(raw);
        let entry: LeverEntry = section.read()?;
        let id = ids.claim(&section, &entry.id)?;
        levers.push(lever(&section.named(&id), id, &entry)?);
    }
    Ok(levers)
}

fn lever(at: &Section<'_>, id: String, entry: &LeverEntry) -> Result<Lever, StockError> {
    let outline = &entry.hood_outline_mm;
    let lever = Lever {
        id,
        name: at.name(&entry.name)?,
        sort: entry.sort.into(),
        grip_mm: shape_pair(at, &entry.grip_mm)?,
        hood_slope_deg: at.number(&entry.hood_slope_deg, Quantity::LeverAngle)?,
        grip_radius_mm: at.number(&entry.grip_radius_mm, Quantity::LeverLength)?,
        hood_outline_mm: outline.iter().map(|p| shape_pair(at, p)).collect::<Result<_, _>>()?,
        blade: blade(at, &entry.blade)?,
        clamp_width_mm: at.number(&entry.clamp_width_mm, Quantity::LeverLength)?,
        shelf: on_the_shelf(entry.price_cents, entry.in_stock, entry.known_by),
    };
    if outline.len() < FEWEST_OUTLINE_POINTS {
        let found = format!("an outline of {} points", outline.len());
        return Err(at.fault_at(&entry.id, found, "at least three points".into()));
    }
    let mut findings = Findings::default();
    fit_doc::check_lever(&mut findings, &at.place(), &lever);
    at.pass(findings.refused, &entry.id)?;
    if let Err(wrong) = fit_doc::geometry::lever_shape(&lever).checked() {
        let found = format!("{} of {}", wrong.field, wrong.found);
        return Err(at.fault_at(&entry.id, found, "a length that is not negative".into()));
    }
    Ok(lever)
}

fn blade(at: &Section<'_>, entry: &BladeEntry) -> Result<Blade, StockError> {
    let clicks = &entry.adjuster_deg;
    let angle = |raw| at.number(raw, Quantity::LeverAngle);
    let blade = Blade {
        pivot_mm: shape_pair(at, &entry.pivot_mm)?,
        length_mm: at.number(&entry.length_mm, Quantity::LeverLength)?,
        usable_mm: at.pair(&entry.usable_mm, Quantity::LeverLength)?,
        rest_angle_deg: at.number(&entry.rest_angle_deg, Quantity::LeverAngle)?,
        adjuster_deg: clicks.iter().map(angle).collect::<Result<_, _>>()?,
        free_travel_mm: at.number(&entry.free_travel_mm, Quantity::LeverLength)?,
    };
    match (wrong_with(&blade), clicks.first()) {
        (None, _) => Ok(blade),
        (Some(LeverWrong::FirstClick(first)), Some(raw)) => {
            let expected = "0: the first click is the blade at rest".into();
            Err(at.fault_at(raw, format!("{first}"), expected))
        }
        (Some(_), _) => {
            let (from_mm, to_mm) = blade.usable_mm;
            let found = format!("a usable stretch from {from_mm} to {to_mm} mm");
            let expected = format!("one that lies on a blade of {} mm", blade.length_mm);
            Err(at.fault_at(&entry.usable_mm.0, found, expected))
        }
    }
}

/// What makes no blade.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum LeverWrong {
    /// The usable stretch is not on it.
    Usable,
    /// The first click of the adjuster turns it by so many degrees, and is the blade at rest.
    FirstClick(f64),
}

/// What is wrong with a blade beyond its single numbers.
pub(super) fn wrong_with(blade: &Blade) -> Option<LeverWrong> {
    let (from_mm, to_mm) = blade.usable_mm;
    if from_mm > to_mm || to_mm > blade.length_mm {
        return Some(LeverWrong::Usable);
    }
    let first = blade.adjuster_deg.first().copied().filter(|first| *first != 0.0);
    first.map(LeverWrong::FirstClick)
}

fn shape_pair(at: &Section<'_>, raw: &(Raw, Raw)) -> Result<(f64, f64), StockError> {
    at.pair(raw, Quantity::LeverShape)
}
