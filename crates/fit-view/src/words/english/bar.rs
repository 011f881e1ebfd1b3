//! Why a bar cannot be built, in English: what failed, what is needed, what could be had instead.

use super::number::{mm, plain};
use fit_math::bar::{BarRefusal, ReachDrop, Rule};

pub(super) fn refusal(bar: &str, refusal: &BarRefusal) -> String {
    match refusal {
        BarRefusal::Invalid { field, value, from, to } => {
            let in_degrees = in_degrees(field, *to);
            let show = |x: f64| plain(if in_degrees { x.to_degrees() } else { x });
            let unit = if in_degrees {
                "°"
            } else if *field == "proportions" {
                ""
            } else {
                "\u{a0}mm"
            };
            format!(
                "{bar}: {} is {}{unit}, and no drop bar has that; expected {} to {}{unit}. Measure the bar \
                 again, or look it up.",
                named(field),
                show(*value),
                show(*from),
                show(*to),
            )
        }
        BarRefusal::Contradiction { field, with } => format!(
            "{bar}: {} and {} contradict each other. Leave one as it is and correct the other.",
            named(field),
            named(with)
        ),
        BarRefusal::EndsWidth { asked_mm, narrowest_mm, widest_mm } => format!(
            "{bar}: the ends cannot be {} wide; with this reach, drop and width at the hoods they are {} \
             to {}. Measure the width at the ends again, or give the flare instead.",
            mm(asked_mm.round()),
            plain(narrowest_mm.round()),
            mm(widest_mm.round())
        ),
        BarRefusal::Unbuildable { rules, asked, nearest_whole, .. } => format!(
            "{bar}: {} cannot be bent, because {}. The nearest that can is {}; measure again, or take \
             that.",
            size(*asked),
            reasons(rules),
            size(*nearest_whole)
        ),
        BarRefusal::NothingFits { rules } => format!(
            "{bar}: no reach and drop can be bent with the rest, because {}. Measure slopes, radius and \
             tail again.",
            reasons(rules)
        ),
        BarRefusal::NotReproduced { asked, measured, width_off_mm } => format!(
            "{bar}: asked for {}, the built bar measures {} and is {} off in width. This is a fault of the \
             program, please report it.",
            size(*asked),
            size(*measured),
            mm(*width_off_mm)
        ),
    }
}

fn size(of: ReachDrop) -> String {
    format!("reach {} and drop {}", mm(of.reach_mm), mm(of.drop_mm))
}

/// Angles come in radians; a flare may also come as the width at the ends in mm.
fn in_degrees(field: &str, most: f64) -> bool {
    field.ends_with("_rad") || (field == "flare" && most < core::f64::consts::TAU)
}

fn named(field: &str) -> &str {
    match field {
        "reach_mm" => "the reach",
        "drop_mm" => "the drop",
        "width_mm" => "the width",
        "width_at" => "a width measured at the ends",
        "flare" => "the flare or width at the ends",
        "outsweep_rad" => "the outsweep",
        "backsweep_rad" => "the backsweep",
        "rise_rad" => "the rise",
        "ramp_outsweep_rad" => "the ramp’s outsweep",
        "ramp_slope_rad" => "the ramp’s slope",
        "tail_slope_rad" => "the tail’s slope",
        "tail_length_mm" => "the tail’s length",
        "forward_bend_radius_mm" => "the radius between tops and ramp",
        "clamp_diameter_mm" => "the diameter at the clamp",
        "tops_mm" => "the diameter of the tops",
        "drops_mm" => "the diameter in the drops",
        "tops_depth_mm" => "the depth of the tops",
        "proportions" => "the proportions of the bend",
        "family" => "a round bend",
        "clamp_zone" => "the zone for levers",
        other => other,
    }
}

fn reasons(rules: &[Rule]) -> String {
    let words: Vec<_> = rules.iter().map(|&rule| reason(rule)).collect();
    match words.split_last() {
        None => "the bend does not close".to_owned(),
        Some((last, [])) => (*last).to_owned(),
        Some((last, others)) => format!("{} and {last}", others.join(", ")),
    }
}

fn reason(rule: Rule) -> &'static str {
    match rule {
        Rule::RampLength => "the ramp would be too short",
        Rule::ForwardBend => "the bend between tops and ramp would be too tight",
        Rule::HookRadius => "the hook would be bent too tightly",
        Rule::StraightTop => "too little of the top would stay straight",
        Rule::HookBelowTops => "the hook would not hang below the tops",
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use fit_math::bar::{BarDimensions, Family, Flare, WidthHow};

    #[test]
    fn every_field_that_can_be_refused_has_a_name() {
        let usual = BarDimensions::usual(Family::Variable, 75.0, 125.0, 420.0);
        let wrong = 1e6;
        let all = [
            BarDimensions { reach_mm: wrong, ..usual },
            BarDimensions { drop_mm: wrong, ..usual },
            BarDimensions { width_mm: wrong, ..usual },
            BarDimensions { flare: Flare::Angle(wrong), ..usual },
            BarDimensions {
                flare: Flare::EndsWidth { width_mm: wrong, how: WidthHow::CentreToCentre },
                ..usual
            },
            BarDimensions { outsweep_rad: wrong, ..usual },
            BarDimensions { backsweep_rad: wrong, ..usual },
            BarDimensions { rise_rad: wrong, ..usual },
            BarDimensions { ramp_outsweep_rad: wrong, ..usual },
            BarDimensions { ramp_slope_rad: wrong, ..usual },
            BarDimensions { tail_slope_rad: wrong, ..usual },
            BarDimensions { tail_length_mm: wrong, ..usual },
            BarDimensions { forward_bend_radius_mm: wrong, ..usual },
            BarDimensions { clamp_diameter_mm: wrong, ..usual },
            BarDimensions { tops_mm: wrong, ..usual },
            BarDimensions { drops_mm: wrong, ..usual },
            BarDimensions { tops_depth_mm: Some(wrong), ..usual },
            BarDimensions { proportions: Some([wrong; 3]), ..usual },
            BarDimensions { reach_mm: 20.0, ..usual },
        ];
        for bar in all {
            let words = refusal("Cockpit “x”", &bar.build().unwrap_err());
            assert!(!words.contains('_'), "{words}");
            assert!(words.ends_with('.'), "{words}");
        }
    }

    #[test]
    fn an_angle_is_said_in_degrees_and_a_width_in_millimetres() {
        let usual = BarDimensions::usual(Family::Round, 85.0, 145.0, 420.0);
        let flare = BarDimensions { flare: Flare::Angle(1.0), ..usual }.build().unwrap_err();
        assert!(refusal("bar", &flare).contains("expected \u{2212}10 to 45°"));
        let narrow = Flare::EndsWidth { width_mm: 100.0, how: WidthHow::CentreToCentre };
        let ends = BarDimensions { flare: narrow, ..usual }.build().unwrap_err();
        assert!(refusal("bar", &ends).contains("200 to 1000\u{a0}mm"));
    }

    #[test]
    fn what_cannot_be_bent_names_the_nearest_that_can() {
        let usual = BarDimensions::usual(Family::Round, 60.0, 190.0, 420.0);
        let words = refusal("Cockpit “deep”", &usual.build().unwrap_err());
        assert!(words.contains("reach 60\u{a0}mm and drop 190\u{a0}mm cannot be bent"), "{words}");
        assert!(words.contains("The nearest that can is reach"), "{words}");
    }
}
