//! Lists of stock written down in the form in which they are read: an entry for each part.
//!
//! Lengths in mm, angles in degrees. What is usual is written out, so that a part stays as it is
//! whatever a later program takes for usual. It deliberately does not gather the sizes of one bend.

use core::fmt::Write;
use fit_doc::{
    Bar, Family, Flare, KnownBy, Lever, LeverSort, OnTheShelf, Stem, Stock, StockList, WidthAt,
    WidthHow,
};

/// The text of one list; none where a text in it cannot be written down.
pub(super) fn list_text(stock: &Stock, list: StockList) -> Option<String> {
    let (key, entries): (_, Option<Vec<String>>) = match list {
        StockList::Bars => ("bends", stock.bars.iter().map(bar).collect()),
        StockList::Stems => ("families", stock.stems.iter().map(stem).collect()),
        StockList::Levers => ("levers", stock.levers.iter().map(lever).collect()),
    };
    let mut text = format!(
        "// The shop's own {}. Lengths in mm, angles in degrees, prices in hundredths.\n\
         (\n    kind: {:?},\n    version: 1,\n    {key}: [\n",
        list.file_stem(),
        list.kind()
    );
    for entry in entries? {
        text.push_str(&entry);
    }
    text.push_str("    ],\n)\n");
    Some(text)
}

fn bar(bar: &Bar) -> Option<String> {
    let mut text = String::from("        (\n");
    let family = match bar.family {
        Family::Round => "round",
        Family::Flat => "flat",
        Family::Variable => "variable",
    };
    let width_at = match bar.width_at {
        WidthAt::Hoods => "hoods",
        WidthAt::Ends => "ends",
    };
    let width_how = match bar.width_how {
        WidthHow::CentreToCentre => "centre_to_centre",
        WidthHow::OutsideToOutside => "outside_to_outside",
    };
    let number = |number: f64| format!("{number:?}");
    let maybe = |number: Option<f64>| number.map(|number| format!("{number:?}"));
    let pair = |(low, high): (f64, f64)| format!("({low:?}, {high:?})");
    let flare = match bar.flare {
        Flare::Angle { deg } => Some(number(deg)),
        Flare::EndsWidth { .. } => None,
    };
    let stem = bar.one_piece.as_ref().map(|stem| {
        let (angle, height) = (stem.stem_angle_deg, stem.stem_clamp_height_mm);
        format!("(angle_deg: {angle:?}, clamp_height_mm: {height:?})")
    });
    let fields = [
        ("name", Some(quoted(&bar.name)?)),
        ("family", Some(family.to_owned())),
        ("proportions", bar.proportions.map(|[a, b, c]| format!("({a:?}, {b:?}, {c:?})"))),
        ("reach_mm", Some(number(bar.reach_mm))),
        ("drop_mm", Some(number(bar.drop_mm))),
        ("width_at", Some(width_at.to_owned())),
        ("width_how", Some(width_how.to_owned())),
        ("flare_deg", flare),
        ("flare_from", Some(quoted(&bar.flare_from)?)),
        ("ramp_slope_deg", Some(number(bar.ramp_slope_deg))),
        ("tail_slope_deg", Some(number(bar.tail_slope_deg))),
        ("tail_length_mm", Some(number(bar.tail_length_mm))),
        ("backsweep_deg", Some(number(bar.backsweep_deg))),
        ("rise_deg", Some(number(bar.rise_deg))),
        ("ramp_outsweep_deg", Some(number(bar.ramp_outsweep_deg))),
        ("outsweep_deg", Some(number(bar.outsweep_deg))),
        ("forward_bend_radius_mm", Some(number(bar.forward_bend_radius_mm))),
        ("clamp_diameter_mm", Some(number(bar.clamp_diameter_mm))),
        ("tops_diameter_mm", Some(number(bar.tops_diameter_mm))),
        ("tops_depth_mm", maybe(bar.tops_depth_mm)),
        ("drops_diameter_mm", Some(number(bar.drops_diameter_mm))),
        ("clamp_zone_mm", bar.clamp_zone_mm.map(pair)),
        ("no_levers", Some(bar.no_levers.to_string())),
        ("stem", stem),
        ("tolerance_mm", maybe(bar.tolerance_mm)),
        ("known_by", Some(known_by(bar.shelf.known_by).to_owned())),
    ];
    fields_into(&mut text, &fields);
    let _ =
        write!(text, "            sizes: [(id: {}, width_mm: {:?}", quoted(&bar.id)?, bar.width_mm);
    if let Flare::EndsWidth { mm, .. } = bar.flare {
        let _ = write!(text, ", ends_width_mm: {mm:?}");
    }
    if let Some(stem) = &bar.one_piece {
        let _ = write!(text, ", stem_length_mm: {:?}", stem.stem_length_mm);
    }
    let _ = writeln!(text, "{})],\n        ),", shelf(&bar.shelf));
    Some(text)
}

fn stem(stem: &Stem) -> Option<String> {
    let mut text = String::from("        (\n");
    let fields = [
        ("name", Some(quoted(&stem.name)?)),
        ("angle_deg", Some(format!("{:?}", stem.angle_deg))),
        ("reversible", Some(stem.reversible.to_string())),
        ("clamp_height_mm", Some(format!("{:?}", stem.clamp_height_mm))),
        ("bar_diameter_mm", Some(format!("{:?}", stem.bar_diameter_mm))),
        ("steerer_diameter_mm", Some(format!("{:?}", stem.steerer_diameter_mm))),
        ("known_by", Some(known_by(stem.shelf.known_by).to_owned())),
    ];
    fields_into(&mut text, &fields);
    let _ = writeln!(
        text,
        "            sizes: [(id: {}, length_mm: {:?}{})],\n        ),",
        quoted(&stem.id)?,
        stem.length_mm,
        shelf(&stem.shelf)
    );
    Some(text)
}

fn lever(lever: &Lever) -> Option<String> {
    let mut text = String::from("        (\n");
    let sort = match lever.sort {
        LeverSort::Mechanical => "mechanical",
        LeverSort::Hydraulic => "hydraulic",
        LeverSort::SmallHand => "small_hand",
        LeverSort::LongBody => "long_body",
        LeverSort::BrakeOnly => "brake_only",
        LeverSort::WideFlare => "wide_flare",
    };
    let pair = |(forward, up): (f64, f64)| format!("({forward:?}, {up:?})");
    let outline: Vec<_> = lever.hood_outline_mm.iter().copied().map(pair).collect();
    let blade = &lever.blade;
    let blade = format!(
        "(pivot_mm: {}, length_mm: {:?}, usable_mm: {}, rest_angle_deg: {:?}, adjuster_deg: {:?}, \
         free_travel_mm: {:?})",
        pair(blade.pivot_mm),
        blade.length_mm,
        pair(blade.usable_mm),
        blade.rest_angle_deg,
        blade.adjuster_deg,
        blade.free_travel_mm
    );
    let fields = [
        ("id", Some(quoted(&lever.id)?)),
        ("name", Some(quoted(&lever.name)?)),
        ("sort", Some(sort.to_owned())),
        ("grip_mm", Some(pair(lever.grip_mm))),
        ("hood_slope_deg", Some(format!("{:?}", lever.hood_slope_deg))),
        ("grip_radius_mm", Some(format!("{:?}", lever.grip_radius_mm))),
        ("clamp_width_mm", Some(format!("{:?}", lever.clamp_width_mm))),
        ("blade", Some(blade)),
        ("hood_outline_mm", Some(format!("[{}]", outline.join(", ")))),
        ("price_cents", lever.shelf.price.map(|price| price.cents.to_string())),
        ("in_stock", Some(lever.shelf.in_stock.to_string())),
        ("known_by", Some(known_by(lever.shelf.known_by).to_owned())),
    ];
    fields_into(&mut text, &fields);
    text.push_str("        ),\n");
    Some(text)
}

fn fields_into(text: &mut String, fields: &[(&str, Option<String>)]) {
    for (name, value) in fields {
        if let Some(value) = value {
            let _ = writeln!(text, "            {name}: {value},");
        }
    }
}

fn shelf(shelf: &OnTheShelf) -> String {
    let price = shelf.price.map(|price| format!(", price_cents: {}", price.cents));
    format!("{}, in_stock: {}", price.unwrap_or_default(), shelf.in_stock)
}

fn known_by(known_by: KnownBy) -> &'static str {
    match known_by {
        KnownBy::Catalogue => "catalogue",
        KnownBy::Measured => "measured",
        KnownBy::Traced => "traced",
    }
}

fn quoted(text: &str) -> Option<String> {
    ron::to_string(text).ok()
}
