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
    let bend = cockpit.bend();
    Some(match of {
        Of::SaddleHeight => saddle.sit_point().length(),
        Of::NoseBehindAxle => -bike.in_room(bike.nose()).x,
        Of::NoseToWide(laid) => bike.taken(laid, bike.nose() - saddle.sit_point()),
        Of::SaddleTilt => saddle.tilt_rad() + pitch_rad,
        Of::NoseToBar(laid) => bike.nose_to(laid, cockpit.clamp()),
        Of::BarBelowSaddle => bike.below(cockpit.clamp()),
        Of::NoseToHood(at, laid) => bike.nose_to(laid, bike.hood(at)?),
        Of::HoodBelowSaddle(at) => bike.below(bike.hood(at)?),
        Of::NoseToHookFront(laid) => bike.nose_to(laid, bike.furthest(DVec2::X)),
        Of::HookLowestBelowSaddle => bike.below(bike.furthest(DVec2::NEG_Y)),
        Of::NoseToBarEnd(laid) => bike.nose_to(laid, bike.end()),
        Of::BarEndBelowSaddle => bike.below(bike.end()),
        Of::RampSlope => -bike.slope(bend.ramp_middle().tangent),
        Of::HoodSlope => bike.slope(bike.right_lever()?.hood_line()),
        // the bar runs rearwards there
        Of::TailSlope => bike.slope(-bend.tail_middle().tangent),
        Of::LeverFromEnd => bike.right_lever()?.mount.along_mm,
        Of::WidthAtHoods(WidthHow::CentreToCentre) => bend.width_hoods_cc_mm(),
        Of::WidthAtHoods(WidthHow::OutsideToOutside) => {
            bend.width_hoods_cc_mm() + bend.dimensions().drops_mm
        }
        Of::AxleToBar => cockpit.clamp().length(),
    })
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

    fn taken(&self, laid: Laid, way: DVec2) -> f64 {
        match laid {
            Laid::Level => self.in_room(way).x,
            Laid::Slant => way.length(),
        }
    }

    fn nose_to(&self, laid: Laid, point: DVec2) -> f64 {
        self.taken(laid, point - self.nose())
    }

    fn below(&self, point: DVec2) -> f64 {
        self.in_room(self.saddle.sit_point() - point).y
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
