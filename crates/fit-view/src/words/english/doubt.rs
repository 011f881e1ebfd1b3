//! How sure something is, in English.

use super::English;
use super::number::whole;
use crate::side::Sight;
use crate::words::DoubtWords;
use fit_units::Unit;

impl DoubtWords for English {
    fn within(&self, within: i64) -> String {
        format!("±{within}")
    }

    fn too_small(&self) -> &'static str {
        "too small to tell"
    }

    fn brackets_mean(&self) -> &'static str {
        "In brackets: too small to tell"
    }

    fn doubt_means(&self) -> &'static str {
        "±: how far tape, catalogue and the day may take a change, nine times in ten; in brackets: too \
         small to tell"
    }

    fn being_reckoned(&self) -> &'static str {
        "How sure: being reckoned"
    }

    fn not_reckoned(&self) -> &'static str {
        "How sure: not reckoned"
    }

    fn stop_reckoning(&self) -> &'static str {
        "Stop"
    }

    fn reckon(&self) -> &'static str {
        "Reckon it"
    }

    fn twin_within(&self, label: &str, sight: Sight, right_mm: i64, up_mm: i64) -> String {
        let [right, up] = match sight {
            Sight::Side => ["forward or back", "up or down"],
            Sight::Front => ["to either side", "up or down"],
            Sight::Above => ["forward or back", "to either side"],
        };
        let parts = [(right_mm, right), (up_mm, up)].into_iter().filter(|(mm, _)| *mm != 0);
        let parts: Vec<String> =
            parts.map(|(mm, way)| format!("{} {way}", whole(mm, Unit::Millimetre))).collect();
        format!("{label}: tape and catalogue may take the hands {}", parts.join(" and "))
    }
}
