//! The list of stems: one entry for each family, its lengths inside.
//!
//! Lengths and diameters in mm, angles in degrees, up positive, the way round the stem is sold. It
//! deliberately does not list a reversible stem a second time turned over.

use fit_doc::{Findings, Quantity, Stem};
use serde::Deserialize;

use super::error::{StockError, StockList};
use super::reading::{Ids, Raw, Section};
use super::shelf::{KnownBy, on_the_shelf};

#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
struct StemList {
    kind: Raw,
    version: Raw,
    families: Vec<Raw>,
}

#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
struct FamilyEntry {
    name: Raw,
    angle_deg: Raw,
    reversible: bool,
    clamp_height_mm: Raw,
    bar_diameter_mm: Raw,
    steerer_diameter_mm: Raw,
    known_by: KnownBy,
    sizes: Vec<Raw>,
}

#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
struct SizeEntry {
    id: Raw,
    length_mm: Raw,
    angle_deg: Option<Raw>,
    clamp_height_mm: Option<Raw>,
    price_cents: Option<u32>,
    in_stock: u32,
}

/// Reads a list of stems, each checked against the ranges of the trade.
///
/// # Errors
/// Names the first fault by line, column and entry: a slip in the format, an unknown field, a
/// number that is none or that no stem can have, a stock number that stands twice.
pub fn parse_stems(text: &str) -> Result<Vec<Stem>, StockError> {
    let section = Section::whole(StockList::Stems, text)?;
    let list: StemList = section.read()?;
    section.check_head(&list.kind, &list.version)?;
    let mut ids = Ids::default();
    let mut stems = Vec::new();
    for raw in &list.families {
        let section = section.inner(raw);
        let family: FamilyEntry = section.read()?;
        let name = section.name(&family.name)?;
        let section = section.named(&name);
        section.check_sizes(&family.sizes, &family.name)?;
        for raw in &family.sizes {
            let section = section.inner(raw);
            let size: SizeEntry = section.read()?;
            let id = ids.claim(&section, &size.id)?;
            stems.push(stem(&section.named(&id), id, name.clone(), &family, &size)?);
        }
    }
    Ok(stems)
}

fn stem(
    at: &Section<'_>,
    id: String,
    name: String,
    family: &FamilyEntry,
    size: &SizeEntry,
) -> Result<Stem, StockError> {
    let angle = size.angle_deg.as_ref().unwrap_or(&family.angle_deg);
    let clamp_height = size.clamp_height_mm.as_ref().unwrap_or(&family.clamp_height_mm);
    let stem = Stem {
        id,
        name,
        length_mm: at.number(&size.length_mm, Quantity::StemLength)?,
        angle_deg: at.number(angle, Quantity::StemAngle)?,
        reversible: family.reversible,
        clamp_height_mm: at.number(clamp_height, Quantity::StemClampHeight)?,
        bar_diameter_mm: at.number(&family.bar_diameter_mm, Quantity::TubeDiameter)?,
        steerer_diameter_mm: at.number(&family.steerer_diameter_mm, Quantity::TubeDiameter)?,
        shelf: on_the_shelf(size.price_cents, size.in_stock, family.known_by),
    };
    let mut findings = Findings::default();
    fit_doc::check_stem(&mut findings, &at.place(), &stem);
    at.pass(findings.refused, &size.id)?;
    Ok(stem)
}
