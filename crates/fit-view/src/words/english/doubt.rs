//! How sure something is, in English.

use super::English;
use crate::words::DoubtWords;

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
}
