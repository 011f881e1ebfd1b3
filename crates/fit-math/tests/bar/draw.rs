//! Repeatable random bars, seeded by each test.

pub(crate) use super::random::Random as Draw;
use fit_math::bar::{BarDimensions, Family, Flare};

pub(crate) const FAMILIES: [Family; 3] = [Family::Round, Family::Flat, Family::Variable];

impl Draw {
    /// A bar from the ranges in which bars are sold: reach 60–110, drop 100–160, width 340–460,
    /// ramp and tail 0–15°, tail 30–70, flare 0–25°, backsweep 0–8°.
    pub(crate) fn bar(&mut self, family: Family) -> BarDimensions {
        let mut bar = BarDimensions::usual(
            family,
            self.between(60.0, 110.0),
            self.between(100.0, 160.0),
            self.between(340.0, 460.0),
        );
        bar.ramp_slope_rad = self.degrees(0.0, 15.0);
        bar.tail_slope_rad = self.degrees(0.0, 15.0);
        bar.tail_length_mm = self.between(30.0, 70.0);
        bar.flare = Flare::Angle(self.degrees(0.0, 25.0));
        bar.backsweep_rad = self.degrees(0.0, 8.0);
        bar
    }

    /// The same with every other dimension drawn as well, rising tails and ramps among them.
    pub(crate) fn odd_bar(&mut self, family: Family) -> BarDimensions {
        let mut bar = self.bar(family);
        bar.ramp_slope_rad = self.degrees(-10.0, 20.0);
        bar.tail_slope_rad = self.degrees(-10.0, 20.0);
        bar.flare = Flare::Angle(self.degrees(-8.0, 30.0));
        bar.outsweep_rad = self.degrees(-8.0, 25.0);
        bar.backsweep_rad = self.degrees(-6.0, 12.0);
        bar.rise_rad = self.degrees(-6.0, 10.0);
        bar.ramp_outsweep_rad = self.degrees(-6.0, 12.0);
        bar
    }
}
