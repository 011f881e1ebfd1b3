//! Forward: what tape and protractor read on a cockpit and saddle that are known.
//!
//! Bike frame, mm and rad. A bike that stands nose up by `pitch_rad` in its trainer is turned by
//! that much in the room: level, plumb and slope readings follow, slant ones do not.
//! The saddle's top is taken as straight between its nose and where it is 80 mm wide.

use glam::{DVec2, DVec3};

use super::reading::{HoodAt, Laid, Of};
use crate::bar::WidthHow;
use crate::cockpit::{Cockpit, LeverPose};
use crate::frame::{heading_rad, wrapped_rad};
use crate::saddle::Saddle;

/// What a reading of this cockpit and saddle is, without any error: mm, or rad for a slope.
/// `pitch_rad` is how far the bike stands nose up. None for a lever's reading on a bar without
/// levers, and for the tip of a hood whose outline is not known.
pub fn predict(of: Of, cockpit: &Cockpit, saddle: &Saddle, pitch_rad: f64) -> Option<f64> {
    let bike = Bike { cockpit, saddle, pitch_rad };
    if let Some(spot) = bike.spot(of) {
        return Some(bike.taken(&spot));
    }
    let bend = cockpit.bend();
    Some(match of {
        Of::SaddleTilt => saddle.tilt_rad() + pitch_rad,
        Of::RampSlope => -bike.slope(bend.ramp_middle().tangent),
        Of::HoodSlope => bike.slope(bike.right_lever()?.hood_line()),
        // the bar runs rearwards there
        Of::TailSlope => bike.slope(-bend.tail_middle().tangent),
        Of::LeverFromEnd => bike.right_lever()?.mount.along_mm,
        Of::WidthAtHoods(WidthHow::CentreToCentre) => bend.width_hoods_cc_mm(),
        Of::WidthAtHoods(WidthHow::OutsideToOutside) => {
            bend.width_hoods_cc_mm() + bend.dimensions().drops_mm
        }
        // all others are distances between two points
        _ => return None,
    })
}

/// Between which points a distance is taken, and how.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Spot {
    /// Where it begins, bike frame, mm.
    pub from: DVec2,
    /// Where it ends, bike frame, mm.
    pub to: DVec2,
    /// How the tape is held.
    pub held: Held,
}

/// How a tape is held between two points.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Held {
    /// Level in the room: how far the second is ahead of the first.
    Level,
    /// Plumb: how far the second is below the first.
    Plumb,
    /// From point to point.
    Slant,
}

/// Where a reading is taken on a bike that stands level; none for those that are no distance in the
/// plane of the bike, and where the bike has no such point.
pub fn spot(of: Of, cockpit: &Cockpit, saddle: &Saddle) -> Option<Spot> {
    Bike { cockpit, saddle, pitch_rad: 0.0 }.spot(of)
}

struct Bike<'a> {
    cockpit: &'a Cockpit,
    saddle: &'a Saddle,
    pitch_rad: f64,
}

impl<'a> Bike<'a> {
    fn in_room(&self, in_bike: DVec2) -> DVec2 {
        DVec2::from_angle(self.pitch_rad).rotate(in_bike)
    }

    fn in_bike(&self, in_bar: DVec3) -> DVec2 {
        self.cockpit.bike_from_bar().transform_point3(in_bar).truncate()
    }

    fn nose(&self) -> DVec2 {
        let to_nose_mm = self.saddle.nose_to_sit_mm();
        self.saddle.sit_point() + to_nose_mm * DVec2::new(1.0, self.saddle.tilt_rad().tan())
    }

    fn spot(&self, of: Of) -> Option<Spot> {
        let (sit, nose, clamp) = (self.saddle.sit_point(), self.nose(), self.cockpit.clamp());
        let laid = |laid: Laid, from, to| {
            let held = match laid {
                Laid::Level => Held::Level,
                Laid::Slant => Held::Slant,
            };
            Spot { from, to, held }
        };
        let below = |to| Spot { from: sit, to, held: Held::Plumb };
        let from_axle = |to| Spot { from: DVec2::ZERO, to, held: Held::Slant };
        let (front, lowest) = (|| self.furthest(DVec2::X), || self.furthest(DVec2::NEG_Y));
        Some(match of {
            Of::SaddleHeight => from_axle(sit),
            Of::NoseBehindAxle => Spot { from: nose, to: DVec2::ZERO, held: Held::Level },
            Of::NoseToWide(how) => laid(how, sit, nose),
            Of::NoseToBar(how) => laid(how, nose, clamp),
            Of::BarBelowSaddle => below(clamp),
            Of::NoseToHood(at, how) => laid(how, nose, self.hood(at)?),
            Of::HoodBelowSaddle(at) => below(self.hood(at)?),
            Of::NoseToHookFront(how) => laid(how, nose, front()),
            Of::HookLowestBelowSaddle => below(lowest()),
            Of::NoseToBarEnd(how) => laid(how, nose, self.end()),
            Of::BarEndBelowSaddle => below(self.end()),
            Of::AxleToBar => from_axle(clamp),
            Of::SaddleTilt
            | Of::RampSlope
            | Of::HoodSlope
            | Of::TailSlope
            | Of::LeverFromEnd
            | Of::WidthAtHoods(_) => return None,
        })
    }

    fn taken(&self, spot: &Spot) -> f64 {
        let way = spot.to - spot.from;
        match spot.held {
            Held::Level => self.in_room(way).x,
            Held::Plumb => -self.in_room(way).y,
            Held::Slant => way.length(),
        }
    }

    /// The bar's furthest point in a direction of the room.
    fn furthest(&self, in_room: DVec2) -> DVec2 {
        let turned_rad = self.pitch_rad + self.cockpit.roll_rad();
        let in_bar = DVec2::from_angle(-turned_rad).rotate(in_room);
        self.in_bike(self.cockpit.bend().chain().furthest(in_bar.extend(0.0)).point)
    }

    fn end(&self) -> DVec2 {
        let chain = self.cockpit.bend().chain();
        self.in_bike(chain.at(chain.length_mm()).point)
    }

    /// Angle of a direction of the bar frame above the level of the room, seen from the side.
    fn slope(&self, in_bar: DVec3) -> f64 {
        wrapped_rad(heading_rad(in_bar) + self.cockpit.roll_rad() + self.pitch_rad)
    }

    fn right_lever(&self) -> Option<LeverPose<'a>> {
        let [_, right] = self.cockpit.lever_poses()?;
        Some(right)
    }

    fn hood(&self, at: HoodAt) -> Option<DVec2> {
        let lever = self.right_lever()?;
        let shape = lever.shape;
        let along = DVec2::from_angle(shape.hood_slope_rad);
        let in_lever = match at {
            HoodAt::Trough => shape.grip_mm + shape.grip_radius_mm * along.perp(),
            HoodAt::Tip => {
                let points = shape.hood_outline_mm.iter().copied();
                points.max_by(|a, b| a.dot(along).total_cmp(&b.dot(along)))?
            }
        };
        Some(self.in_bike(lever.point(in_lever)))
    }
}
