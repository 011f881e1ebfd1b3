//! The bike in thin line: wheels, frame, fork, crank and saddle, true to the numbers the fit knows.
//!
//! Bike frame, mm. What the fit does not know (tube lengths, where the stays meet the seat tube,
//! the saddle's outline) is drawn plausibly and computed with nowhere.

use super::part::{Coat, part};
use crate::scene::{Dash, Ink, Mark, Path, Pen, Width};
use fit_doc::{Frame, Saddle};
use fit_math::DVec2;
use fit_math::cockpit::FrontEnd;

/// Height of the seat cluster as a share of the frame's stack; a drawing (judgement).
const SEAT_CLUSTER_OF_STACK: f64 = 0.88;
/// From the saddle's top down to the rails' clamp, mm; a drawing (judgement).
const SADDLE_TO_CLAMP_MM: f64 = 52.0;
/// Length of the drawn saddle behind its 80 mm wide place, mm (judgement).
const SADDLE_TAIL_MM: f64 = 128.0;

/// Tubes of the frame.
const TUBE: Coat = Coat { contour: Ink::Bike, inside: Ink::BikeTube };

/// Where the named points of a frame lie.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct FramePoints {
    /// Rear axle.
    pub(super) rear_axle: DVec2,
    /// Front axle.
    pub(super) front_axle: DVec2,
    /// Top of the head tube.
    pub(super) head_top: DVec2,
    /// Foot of the head tube.
    pub(super) head_foot: DVec2,
    /// Where the seat tube, the top tube and the stays meet.
    pub(super) seat_cluster: DVec2,
}

/// The named points of a frame, from its own numbers; the axles stand level.
pub(super) fn frame_points(frame: &Frame, front: &FrontEnd) -> FramePoints {
    let drop = frame.bottom_bracket_drop_mm;
    let behind = (frame.rear_centre_mm.powi(2) - drop * drop).max(0.0).sqrt();
    let up = front.steerer_up();
    let forward = DVec2::new(up.y, -up.x);
    // down the steering axis until the axle, offset forward, stands at the rear axle's height
    let top = front.head_tube_top();
    let down_mm = (top.y + forward.y * frame.fork_offset_mm - drop) / up.y.max(0.1);
    let seat = DVec2::from_angle(core::f64::consts::PI - frame.seat_angle_deg.to_radians());
    let cluster_mm = SEAT_CLUSTER_OF_STACK * frame.stack_mm / seat.y.max(0.1);
    FramePoints {
        rear_axle: DVec2::new(-behind, drop),
        front_axle: top - up * down_mm + forward * frame.fork_offset_mm,
        head_top: top,
        head_foot: top - up * frame.head_tube_mm,
        seat_cluster: seat * cluster_mm,
    }
}

/// Wheels and frame, furthest back first.
pub(super) fn frame_marks(frame: &Frame, front: &FrontEnd) -> Vec<Mark> {
    /// height of the drawn tyre, mm
    const TYRE_MM: f64 = 32.0;
    let p = frame_points(frame, front);
    let mut marks = Vec::new();
    for axle in [p.rear_axle, p.front_axle] {
        let tyre =
            Pen { ink: Ink::BikeTube, width: Width::Mm(TYRE_MM), dash: Dash::Solid, opacity: 1.0 };
        let middle = Path::circle(axle, frame.wheel_radius_mm - TYRE_MM / 2.0);
        marks.push(Mark::Stroke { path: middle, pen: tyre });
        for radius in [frame.wheel_radius_mm, frame.wheel_radius_mm - TYRE_MM] {
            let path = Path::circle(axle, radius);
            marks.push(Mark::Stroke { path, pen: Pen::solid(Ink::Bike, 1.1) });
        }
        marks.extend(part(&[Path::circle(axle, 20.0)], TUBE));
    }
    // the fork leaves the steering axis gently, as forks do
    let down = (p.head_foot - p.head_top).normalize_or_zero();
    let bow = p.head_foot.lerp(p.front_axle, 0.5) + down * 14.0;
    let bottom = DVec2::ZERO;
    let tubes = [
        (bottom, 12.0, p.rear_axle, 8.0),
        (p.seat_cluster, 7.0, p.rear_axle, 6.0),
        (p.head_foot, 16.0, bow, 13.0),
        (bow, 13.0, p.front_axle, 8.0),
        (bottom, 18.0, p.head_foot.lerp(p.head_top, 0.22), 17.0),
        (p.seat_cluster, 13.0, p.head_foot.lerp(p.head_top, 0.80), 14.0),
        (bottom, 16.0, p.seat_cluster, 15.0),
        (p.head_foot, 20.0, p.head_top, 19.0),
    ];
    let paths: Vec<Path> =
        tubes.iter().map(|&(from, r0, to, r1)| Path::limb(from, r0, to, r1)).collect();
    marks.extend(part(&paths, TUBE));
    marks
}

/// Crank, pedal and chainring for a spindle.
pub(super) fn crank_marks(spindle: DVec2) -> Vec<Mark> {
    let pedal = DVec2::new(34.0, -12.0);
    let ring = Path::circle(DVec2::ZERO, 98.0);
    let mut marks = vec![Mark::Stroke { path: ring, pen: Pen::solid(Ink::Bike, 1.4) }];
    let solid = Coat { contour: Ink::Bike, inside: Ink::Bike };
    let paths = [
        Path::circle(DVec2::ZERO, 17.0),
        Path::limb(DVec2::ZERO, 10.0, spindle, 8.0),
        Path::limb(spindle - pedal, 5.0, spindle + pedal, 5.0),
    ];
    marks.extend(part(&paths, solid));
    marks
}

/// Seat post and saddle for a saddle setting and the sit point it gives.
pub(super) fn saddle_marks(
    frame: &Frame,
    front: &FrontEnd,
    saddle: &Saddle,
    sit: DVec2,
) -> Vec<Mark> {
    let cluster = frame_points(frame, front).seat_cluster;
    let tilt = DVec2::from_angle(saddle.tilt_deg.to_radians());
    let at = |ahead: f64, up: f64| sit + DVec2::new(ahead, up).rotate(tilt);
    let nose = saddle.sit_from_nose_mm;
    let outline = [
        at(nose, -6.0),
        at(nose * 0.55, -1.0),
        at(0.0, 0.0),
        at(-SADDLE_TAIL_MM * 0.6, 6.0),
        at(-SADDLE_TAIL_MM, 12.0),
        at(-SADDLE_TAIL_MM - 6.0, 0.0),
        at(-SADDLE_TAIL_MM * 0.8, -26.0),
        at(-SADDLE_TAIL_MM * 0.3, -30.0),
        at(nose * 0.35, -19.0),
        at(nose * 0.9, -17.0),
    ];
    // the rails' clamp sits on the seat tube's line
    let seat = cluster.normalize_or_zero();
    let clamp = seat * ((sit.y - SADDLE_TO_CLAMP_MM) / seat.y.max(0.1));
    let rails = Path::smooth_open(&[
        at(nose * 0.6, -20.0),
        at(nose * 0.1, -46.0),
        at(-SADDLE_TAIL_MM * 0.45, -46.0),
        at(-SADDLE_TAIL_MM * 0.75, -26.0),
    ]);
    let post = Coat { contour: Ink::Bike, inside: Ink::BikeTube };
    let mut marks = part(&[Path::limb(cluster, 13.0, clamp, 13.0)], post);
    marks.push(Mark::Stroke { path: rails, pen: Pen::solid(Ink::Bike, 2.4) });
    let saddle = Path::smooth_closed(&outline);
    marks.push(Mark::Fill { path: saddle, ink: Ink::Saddle, opacity: 1.0 });
    marks
}

#[cfg(test)]
mod tests {
    use super::*;

    fn frame() -> Frame {
        Frame {
            stack_mm: 575.0,
            reach_mm: 385.0,
            head_angle_deg: 72.0,
            seat_angle_deg: 73.5,
            headset_cover_mm: 10.0,
            head_tube_mm: 150.0,
            fork_offset_mm: 48.0,
            wheel_radius_mm: 345.0,
            bottom_bracket_drop_mm: 72.0,
            rear_centre_mm: 425.0,
            crank_mm: 170.0,
        }
    }

    #[test]
    fn the_drawn_frame_measures_what_its_numbers_say() {
        let frame = frame();
        let front = fit_doc::geometry::front_end(&frame);
        let p = frame_points(&frame, &front);
        assert!((p.rear_axle.length() - frame.rear_centre_mm).abs() < 1e-9);
        assert!((p.front_axle.y - frame.bottom_bracket_drop_mm).abs() < 1e-9, "axles stand level");
        // the axle's distance from the steering axis is the fork's offset
        let off = (p.front_axle - p.head_top).perp_dot(front.steerer_up()).abs();
        assert!((off - frame.fork_offset_mm).abs() < 1e-9);
        assert!((p.head_top.distance(p.head_foot) - frame.head_tube_mm).abs() < 1e-9);
        let angle = p.seat_cluster.y.atan2(-p.seat_cluster.x).to_degrees();
        assert!((angle - frame.seat_angle_deg).abs() < 1e-9);
    }
}
