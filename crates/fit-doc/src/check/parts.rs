//! Checks parts by themselves: bars, stems and levers, on a cockpit or in a stock list.
//!
//! Lengths mm, angles degrees. The place is the part's own; what is said of a number adds its field.

use super::Findings;
use crate::{Bar, Flare, Lever, Message, Place, Quantity, Stem, WidthAt, geometry};
use fit_math::bar::BarRefusal;

/// Checks a stem's numbers.
pub fn check_stem(findings: &mut Findings, place: &Place, stem: &Stem) {
    let fields = [
        ("length_mm", Quantity::StemLength, stem.length_mm),
        ("angle_deg", Quantity::StemAngle, stem.angle_deg),
        ("clamp_height_mm", Quantity::StemClampHeight, stem.clamp_height_mm),
        ("bar_diameter_mm", Quantity::TubeDiameter, stem.bar_diameter_mm),
        ("steerer_diameter_mm", Quantity::TubeDiameter, stem.steerer_diameter_mm),
    ];
    let asked = findings.unusual.len();
    findings.fields(place, &fields);
    if stem.is_trial() {
        // a position, not a part: no shop needs to have it
        findings.unusual.truncate(asked);
    }
}

/// Checks a bar's numbers and that it builds. Says whether the bar itself is without refusal.
pub fn check_bar(findings: &mut Findings, place: &Place, bar: &Bar) -> bool {
    let numbers_clean = findings.clean(|findings| check_numbers(findings, place, bar));
    numbers_clean
        && match geometry::bend(place, bar) {
            Ok(_) => true,
            Err(message) => {
                findings.refused.push(at_its_field(message));
                false
            }
        }
}

fn check_numbers(findings: &mut Findings, place: &Place, bar: &Bar) {
    let width = match bar.width_at {
        WidthAt::Hoods => Quantity::BarWidthAtHoods,
        WidthAt::Ends => Quantity::BarWidthAtEnds,
    };
    let fields = [
        ("reach_mm", Quantity::BarReach, bar.reach_mm),
        ("drop_mm", Quantity::BarDrop, bar.drop_mm),
        ("width_mm", width, bar.width_mm),
        ("outsweep_deg", Quantity::Outsweep, bar.outsweep_deg),
        ("backsweep_deg", Quantity::Backsweep, bar.backsweep_deg),
        ("rise_deg", Quantity::Rise, bar.rise_deg),
        ("ramp_slope_deg", Quantity::RampSlope, bar.ramp_slope_deg),
        ("ramp_outsweep_deg", Quantity::RampOutsweep, bar.ramp_outsweep_deg),
        ("tail_slope_deg", Quantity::TailSlope, bar.tail_slope_deg),
        ("tail_length_mm", Quantity::TailLength, bar.tail_length_mm),
        ("forward_bend_radius_mm", Quantity::ForwardBendRadius, bar.forward_bend_radius_mm),
        ("clamp_diameter_mm", Quantity::TubeDiameter, bar.clamp_diameter_mm),
        ("tops_diameter_mm", Quantity::TubeDiameter, bar.tops_diameter_mm),
        ("drops_diameter_mm", Quantity::TubeDiameter, bar.drops_diameter_mm),
    ];
    findings.fields(place, &fields);
    let flare = place.field("flare");
    match bar.flare {
        Flare::Angle { deg } => findings.value(|| flare.field("deg"), Quantity::Flare, deg),
        Flare::EndsWidth { mm, .. } => {
            findings.value(|| flare.field("mm"), Quantity::BarWidthAtEnds, mm);
        }
    }
    if let Some(depth) = bar.tops_depth_mm {
        findings.value(|| place.field("tops_depth_mm"), Quantity::TopsDepth, depth);
    }
    for (nth, proportion) in bar.proportions.into_iter().flatten().enumerate() {
        findings.value(|| place.field("proportions").nth(nth), Quantity::Proportion, proportion);
    }
    if let Some(zone) = bar.clamp_zone_mm {
        findings.pair(place, "clamp_zone_mm", Quantity::ClampZone, zone);
    }
    if let Some(one_piece) = &bar.one_piece {
        let fields = [
            ("stem_length_mm", Quantity::StemLength, one_piece.stem_length_mm),
            ("stem_angle_deg", Quantity::StemAngle, one_piece.stem_angle_deg),
            ("stem_clamp_height_mm", Quantity::StemClampHeight, one_piece.stem_clamp_height_mm),
        ];
        findings.fields(&place.field("one_piece"), &fields);
    }
    if let Some(tolerance) = bar.tolerance_mm {
        findings.value(|| place.field("tolerance_mm"), Quantity::Tolerance, tolerance);
    }
}

/// The refusal of a bar, said at the field that it names, where it names one.
fn at_its_field(message: Message) -> Message {
    let Message::BarRefused { place, refusal } = message else { return message };
    let field = match &refusal {
        BarRefusal::Invalid { field, .. } | BarRefusal::Contradiction { field, .. } => {
            field_of(field)
        }
        BarRefusal::EndsWidth { .. } => Some("flare"),
        BarRefusal::Unbuildable { .. } => Some("reach_mm"),
        BarRefusal::NothingFits { .. } | BarRefusal::NotReproduced { .. } => None,
    };
    let place = field.map_or_else(|| place.clone(), |field| place.field(field));
    Message::BarRefused { place, refusal }
}

/// The document's field for a field of the sums.
fn field_of(of_the_sums: &str) -> Option<&'static str> {
    Some(match of_the_sums {
        "reach_mm" => "reach_mm",
        "drop_mm" => "drop_mm",
        "width_mm" => "width_mm",
        "width_at" => "width_at",
        "flare" => "flare",
        "outsweep_rad" => "outsweep_deg",
        "backsweep_rad" => "backsweep_deg",
        "rise_rad" => "rise_deg",
        "ramp_outsweep_rad" => "ramp_outsweep_deg",
        "ramp_slope_rad" => "ramp_slope_deg",
        "tail_slope_rad" => "tail_slope_deg",
        "tail_length_mm" => "tail_length_mm",
        "forward_bend_radius_mm" => "forward_bend_radius_mm",
        "clamp_diameter_mm" => "clamp_diameter_mm",
        "tops_mm" => "tops_diameter_mm",
        "drops_mm" => "drops_diameter_mm",
        "tops_depth_mm" => "tops_depth_mm",
        "proportions" => "proportions",
        "clamp_zone" => "clamp_zone_mm",
        _ => return None,
    })
}

/// Checks a lever's numbers.
pub fn check_lever(findings: &mut Findings, place: &Place, lever: &Lever) {
    use Quantity::{LeverAngle, LeverLength, LeverShape};
    findings.pair(place, "grip_mm", LeverShape, lever.grip_mm);
    let fields = [
        ("hood_slope_deg", LeverAngle, lever.hood_slope_deg),
        ("grip_radius_mm", LeverLength, lever.grip_radius_mm),
        ("clamp_width_mm", LeverLength, lever.clamp_width_mm),
    ];
    findings.fields(place, &fields);
    for (nth, &(forward, up)) in lever.hood_outline_mm.iter().enumerate() {
        let point = || place.field("hood_outline_mm").nth(nth);
        findings.value(|| point().nth(0), LeverShape, forward);
        findings.value(|| point().nth(1), LeverShape, up);
    }
    let (place, blade) = (place.field("blade"), &lever.blade);
    findings.pair(&place, "pivot_mm", LeverShape, blade.pivot_mm);
    findings.pair(&place, "usable_mm", LeverLength, blade.usable_mm);
    let fields = [
        ("length_mm", LeverLength, blade.length_mm),
        ("rest_angle_deg", LeverAngle, blade.rest_angle_deg),
        ("free_travel_mm", LeverLength, blade.free_travel_mm),
    ];
    findings.fields(&place, &fields);
    for (nth, &click) in blade.adjuster_deg.iter().enumerate() {
        findings.value(|| place.field("adjuster_deg").nth(nth), LeverAngle, click);
    }
}
