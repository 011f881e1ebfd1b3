//! What is said on the drawing of the cockpits, in English.

use super::English;
use super::number::whole;
use crate::side::{Measured, Sight};
use crate::words::drawing::{DrawingWords, FromAbove, FromFront, Reads, Way, Went};
use fit_doc::Quantity;
use fit_units::Unit;

impl DrawingWords for English {
    fn sight(&self, sight: Sight) -> &'static str {
        match sight {
            Sight::Side => "Side",
            Sight::Front => "Front",
            Sight::Above => "From above",
        }
    }

    fn drawing(&self, sight: Sight) -> &'static str {
        match sight {
            Sight::Side => "Side view, drawn to scale",
            Sight::Front => "Front view, drawn to scale, the right hand on the left",
            Sight::Above => "From above, drawn to scale, forwards up",
        }
    }

    fn one_hand(&self, left: bool) -> &'static str {
        if left { "left hand" } else { "right hand" }
    }

    fn measured(&self, what: Measured, value: i64) -> String {
        let (mm, deg) = (whole(value, Unit::Millimetre), whole(value, Unit::Degree));
        match what {
            Measured::Reach => format!("reach {mm}"),
            Measured::Drop => format!("drop {mm}"),
            Measured::WidthAtHoods => format!("width at the hoods {mm}"),
            Measured::WidthAtEnds => format!("width at the ends {mm}"),
            Measured::Stem => format!("stem {mm}"),
            Measured::Spacers => format!("spacers {mm}"),
            Measured::Flare => format!("flare {deg}"),
            Measured::Backsweep => format!("backsweep {deg}"),
            Measured::TurnIn if value < 0 => {
                format!("turned out {}", whole(-value, Unit::Degree))
            }
            Measured::TurnIn => format!("turned in {deg}"),
        }
    }

    fn went(&self, went: Went) -> Option<String> {
        let way = |by: Option<Way>, more: &str, less: &str| {
            let Way { mm: by, is_small } = by?;
            let mm = whole(by.saturating_abs(), Unit::Millimetre);
            let said = format!("{mm} {}", if by < 0 { less } else { more });
            // as in the table
            Some(if is_small { format!("({said})") } else { said })
        };
        let parts = [
            way(went.forward, "forward", "back"),
            way(went.up, "up", "down"),
            way(went.out, "out", "in"),
        ];
        let parts: Vec<String> = parts.into_iter().flatten().collect();
        (!parts.is_empty()).then(|| parts.join(", "))
    }

    fn shoulders(&self, mm: i64, estimated_sd_mm: Option<i64>) -> String {
        let mm = whole(mm, Unit::Millimetre);
        match estimated_sd_mm {
            None => format!("shoulders {mm}"),
            Some(sd) => format!("shoulders about {mm} ± {sd}, estimated"),
        }
    }

    fn twin_front(&self, label: &str, of: FromFront) -> String {
        let [hoods, ends] = [of.hoods_mm, of.ends_mm].map(|mm| whole(mm, Unit::Millimetre));
        let flare = match of.flare_deg {
            0 => "no flare".to_owned(),
            deg => format!("flare {}", whole(deg, Unit::Degree)),
        };
        format!(
            "{label}: {hoods} wide at the hoods and {ends} at the ends, centre to centre, {flare}{}",
            hands_apart(of.hands_mm)
        )
    }

    fn twin_above(&self, label: &str, of: FromAbove) -> String {
        let [reach, stem] = [of.reach_mm, of.stem_mm].map(|mm| whole(mm, Unit::Millimetre));
        let deg = |by: i64| whole(by, Unit::Degree);
        let sweep = match of.backsweep_deg {
            0 => "no backsweep".to_owned(),
            by => format!("backsweep {}", deg(by)),
        };
        let turned = match of.turned_in_deg {
            None => "no levers".to_owned(),
            Some([0, 0]) => "levers straight".to_owned(),
            Some([left, right]) if left == right => format!("levers turned in {}", deg(right)),
            Some([left, right]) => {
                format!("levers turned in {} left and {} right", deg(left), deg(right))
            }
        };
        format!(
            "{label}: stem {stem}, reach {reach}, {sweep}, {turned}{}",
            hands_apart(of.hands_mm)
        )
    }

    fn twin_measured(&self, label: &str, measures: &[String]) -> String {
        format!("Measured on {label}: {}", measures.join(", "))
    }

    fn ruler_reads(&self, sight: Sight, reads: Reads) -> String {
        let mm = |by: i64| whole(by.saturating_abs(), Unit::Millimetre);
        let up = format!("{} {}", mm(reads.up_mm), if reads.up_mm < 0 { "down" } else { "up" });
        let (right, straight) = (mm(reads.right_mm), mm(reads.straight_mm));
        match sight {
            Sight::Side => format!("{right} along, {up}, {straight} straight"),
            Sight::Front => format!("{right} across, {up}, {straight} straight"),
            Sight::Above => {
                format!("{} along, {right} across, {straight} straight", mm(reads.up_mm))
            }
        }
    }

    fn ruler_end(&self, first: bool) -> &'static str {
        if first { "Ruler, first end" } else { "Ruler, second end" }
    }

    fn ruler_at(&self, sight: Sight, right_mm: i64, up_mm: i64) -> String {
        let way = |by: i64, more: &str, less: &str| {
            let mm = whole(by.saturating_abs(), Unit::Millimetre);
            format!("{mm} {}", if by < 0 { less } else { more })
        };
        let (first, second) = match sight {
            Sight::Side => (way(right_mm, "ahead", "behind"), way(up_mm, "above", "below")),
            Sight::Front => (way(right_mm, "left", "right"), way(up_mm, "above", "below")),
            Sight::Above => (way(up_mm, "ahead", "behind"), way(right_mm, "right", "left")),
        };
        format!("{first}, {second}, from the bottom bracket")
    }

    fn ruler_how(&self) -> &'static str {
        "Arrows move an end by 1 mm, with Shift by 10; Tab goes to the other, Escape leaves"
    }

    fn handle(&self, quantity: Quantity) -> &'static str {
        match quantity {
            Quantity::Spacers => "Spacers",
            Quantity::StemLength => "Stem length",
            Quantity::Roll => "Roll",
            Quantity::HandInDrops => "Hand in the drops",
            Quantity::LeverTurnIn => "Levers turned in",
            _ => "Levers along the bend",
        }
    }
}

fn hands_apart(mm: Option<i64>) -> String {
    mm.map_or_else(String::new, |mm| format!(", hands {} apart", whole(mm, Unit::Millimetre)))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn only_what_can_be_told_is_said_of_a_way() {
        let way = |by: Option<i64>| by.map(|mm| Way { mm, is_small: mm.abs() < 4 });
        let went = |forward, up, out| {
            English.went(Went { forward: way(forward), up: way(up), out: way(out) })
        };
        assert_eq!(went(None, None, None), None);
        let said = went(Some(-22), Some(4), None).unwrap();
        assert_eq!(said, "22\u{a0}mm back, 4\u{a0}mm up");
        assert_eq!(went(None, Some(-3), Some(-10)).unwrap(), "(3\u{a0}mm down), 10\u{a0}mm in");
    }
}
