//! Repeatable random bikes, measured with the errors of tape and protractor. All invented.
//!
//! The generator is splitmix64 (Steele, Lea & Flood 2014), seeded by each test; normal draws after
//! Box & Muller 1958.

pub(crate) use super::random::Random as Draw;
use std::sync::Arc;

use fit_math::DVec2;
use fit_math::bar::{BarDimensions, Family, Flare, WidthHow};
use fit_math::cockpit::{Blade, Cockpit, LeverPair, LeverShape, Mount, Stem};
use fit_math::saddle::Saddle;
use fit_math::tape::{
    BarKnown, HoodAt, Known, LEVER_KIND_SD_MM, Laid, Of, Reading, StemParts, predict,
};

/// Every distance level, the hood at its trough, the width over the outsides.
pub(crate) const ALL: [Of; 18] = [
    Of::SaddleHeight,
    Of::NoseBehindAxle,
    Of::NoseToWide(Laid::Level),
    Of::SaddleTilt,
    Of::NoseToBar(Laid::Level),
    Of::BarBelowSaddle,
    Of::NoseToHood(HoodAt::Trough, Laid::Level),
    Of::HoodBelowSaddle(HoodAt::Trough),
    Of::NoseToHookFront(Laid::Level),
    Of::HookLowestBelowSaddle,
    Of::NoseToBarEnd(Laid::Level),
    Of::BarEndBelowSaddle,
    Of::RampSlope,
    Of::HoodSlope,
    Of::TailSlope,
    Of::LeverFromEnd,
    Of::WidthAtHoods(WidthHow::OutsideToOutside),
    Of::AxleToBar,
];

/// A bike as it really is, and what is known of it.
pub(crate) struct Bike {
    pub(crate) cockpit: Cockpit,
    pub(crate) saddle: Saddle,
    pub(crate) known: Known,
}

impl Bike {
    pub(crate) fn exact(&self, of: Of) -> Reading {
        let value = predict(of, &self.cockpit, &self.saddle, self.known.pitch_rad).unwrap();
        Reading::usual(of, value)
    }

    pub(crate) fn all_exact(&self, list: &[Of]) -> Vec<Reading> {
        list.iter().map(|&of| self.exact(of)).collect()
    }
}

impl Draw {
    /// Readings of a bike with errors of their usual doubt.
    pub(crate) fn taped(&mut self, bike: &Bike, list: &[Of]) -> Vec<Reading> {
        let mut readings = bike.all_exact(list);
        for reading in &mut readings {
            reading.value += reading.sd * self.normal();
        }
        readings
    }

    /// A bike whose bar and lever are exactly as known (`spread` 0), or as far off as their doubt
    /// says (`spread` 1).
    pub(crate) fn bike(&mut self, spread: f64) -> Bike {
        loop {
            if let Some(bike) = self.try_bike(spread) {
                return bike;
            }
        }
    }

    fn try_bike(&mut self, spread: f64) -> Option<Bike> {
        let family = [Family::Round, Family::Flat, Family::Variable][self.below(3)];
        let mut bar = BarDimensions::usual(
            family,
            self.between(68.0, 92.0),
            self.between(112.0, 145.0),
            self.between(370.0, 440.0),
        );
        bar.ramp_slope_rad = self.degrees(0.0, 9.0);
        bar.tail_slope_rad = self.degrees(1.0, 10.0);
        bar.tail_length_mm = self.between(35.0, 60.0);
        bar.flare = Flare::Angle(self.degrees(0.0, 18.0));
        bar.build().ok()?;
        let mut real = bar;
        real.reach_mm += 3.0 * spread * self.normal();
        real.drop_mm += 3.0 * spread * self.normal();
        real.width_mm += 3.0 * spread * self.normal();
        real.ramp_slope_rad += 2_f64.to_radians() * spread * self.normal();
        real.tail_slope_rad += 2_f64.to_radians() * spread * self.normal();
        real.tail_length_mm += 5.0 * spread * self.normal();
        let bend = real.build().ok()?;

        let saddle = Saddle::new(
            self.between(640.0, 800.0),
            self.between(20.0, 85.0),
            self.between(110.0, 155.0),
            self.degrees(-3.0, 1.0),
        )
        .ok()?;
        let parts = StemParts {
            stem: Stem {
                length_mm: self.between(70.0, 120.0),
                angle_rad: self.degrees(-17.0, 6.0),
                clamp_height_mm: 40.0,
            },
            spacers_mm: self.between(0.0, 30.0),
            head_angle_rad: self.degrees(70.0, 74.0),
            headset_cover_mm: self.between(5.0, 20.0),
        };
        let clamp = DVec2::new(
            self.between(460.0, 570.0) - saddle.nose_behind_mm(),
            saddle.sit_point().y - self.between(-10.0, 90.0),
        );
        let along_mm = bend.along_from_s(bend.default_clamp().s_mm) + self.between(-12.0, 12.0);
        let mount = Mount { along_mm, turn_in_rad: self.degrees(0.0, 5.0), clicks: 0 };
        let off = DVec2::new(self.normal(), self.normal()) * LEVER_KIND_SD_MM * spread;
        let real_levers = LeverPair { shape: Arc::new(kind(off)), left: mount, right: mount };
        let roll_rad = self.degrees(-3.0, 5.0);
        let cockpit = Cockpit::new(
            parts.front_at(clamp),
            parts.stem,
            parts.spacers_mm,
            Arc::new(bend),
            roll_rad,
            Some(real_levers),
            0.0,
        )
        .ok()?;
        // where the levers are is not known, only their kind
        let loose = Mount { along_mm: 200.0, ..mount };
        let known = Known {
            bar,
            bar_known: BarKnown::Catalogue,
            levers: Some(LeverPair {
                shape: Arc::new(kind(DVec2::ZERO)),
                left: loose,
                right: loose,
            }),
            parts,
            drops_hand_mm: 0.0,
            pitch_rad: 0.0,
            besides: Vec::new(),
        };
        Some(Bike { cockpit, saddle, known })
    }
}

fn kind(grip_off_mm: DVec2) -> LeverShape {
    LeverShape {
        grip_mm: DVec2::new(19.0, 43.0) + grip_off_mm,
        hood_slope_rad: 40_f64.to_radians(),
        grip_radius_mm: 16.0,
        hood_outline_mm: vec![DVec2::ZERO, DVec2::new(24.4, 88.8), DVec2::new(-10.0, 50.0)],
        blade: Blade {
            pivot_mm: DVec2::new(8.0, 42.0),
            length_mm: 105.0,
            free_travel_mm: 9.0,
            usable_mm: (40.0, 95.0),
            rest_angle_rad: -20_f64.to_radians(),
            adjuster_rad: vec![0.0],
        },
    }
    .checked()
    .unwrap()
}
