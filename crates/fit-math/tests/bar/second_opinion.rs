//! Unflared bars against kurbo, a library of plane curves by other hands.
//!
//! The side profile is drawn for kurbo from the table of families in degrees, from the corner of
//! tops and ramp onwards, as Bézier segments within 1e-9 mm of the arcs; frame: bar, x forward and
//! y up, mm. Kurbo's answers are asked to 1e-7 mm, agreement to 1e-8 mm.

use fit_math::DVec3;
use fit_math::bar::{Bend, Family, Flare};
use kurbo::{Arc, BezPath, ParamCurveArclen, ParamCurveNearest, Point, Shape, Vec2};

use crate::draw::{Draw, FAMILIES};

const AGREE_MM: f64 = 1e-8;
const ASKED_MM: f64 = 1e-7;
const DRAWN_MM: f64 = 1e-9;

struct Pencil {
    path: BezPath,
    at: Point,
    heading: f64,
}

impl Pencil {
    fn line(&mut self, length: f64) {
        self.at += length * Vec2::from_angle(self.heading);
        self.path.line_to(self.at);
    }

    /// Turns downwards, as a hook does.
    fn turn(&mut self, radius: f64, degrees: f64) {
        let spoke = self.heading + 90_f64.to_radians();
        let centre = self.at - radius * Vec2::from_angle(spoke);
        let arc = Arc::new(centre, (radius, radius), spoke, -degrees.to_radians(), 0.0);
        self.path.extend(arc.append_iter(DRAWN_MM));
        self.heading -= degrees.to_radians();
        self.at = centre + radius * Vec2::from_angle(self.heading + 90_f64.to_radians());
    }
}

/// The profile to the end from a place on the ramp, given by its distance from the corner of tops
/// and ramp.
fn profile(bend: &Bend, from_corner: f64) -> BezPath {
    let bar = bend.dimensions();
    let (r, t) = (bar.ramp_slope_rad.to_degrees(), bar.tail_slope_rad.to_degrees());
    let k = bend.hook_size_mm();
    let half = 0.5 * bar.width_mm;
    let corner = Point::new(-half * bar.backsweep_rad.tan(), half * bar.rise_rad.tan());
    let heading = -r.to_radians();
    let start = corner + from_corner * Vec2::from_angle(heading);
    let mut path = BezPath::new();
    path.move_to(start);
    let mut pencil = Pencil { path, at: start, heading };
    pencil.line(bend.ramp_length_mm() - from_corner);
    match bar.family {
        Family::Round => pencil.turn(k, 180.0 - r - t),
        Family::Flat => {
            pencil.turn(0.62 * k, 100.0 - r);
            pencil.line(0.55 * k);
            pencil.turn(0.50 * k, 80.0 - t);
        }
        Family::Variable => {
            pencil.turn(0.55 * k, 60.0 - r);
            pencil.turn(0.90 * k, 60.0);
            pencil.turn(0.62 * k, 60.0 - t);
        }
    }
    pencil.line(bar.tail_length_mm);
    pencil.path
}

#[test]
fn length_extremes_and_nearest_points_agree() {
    let mut draw = Draw(11);
    let mut worst = [0.0_f64; 4];
    let mut bars = 0;
    for index in 0..150 {
        let mut bar = draw.bar(FAMILIES[index % 3]);
        bar.flare = Flare::Angle(0.0);
        bar.rise_rad = draw.degrees(0.0, 4.0);
        let Ok(bend) = bar.build() else { continue };
        bars += 1;
        let path = profile(&bend, 0.0);
        let half = 0.5 * bar.width_mm;

        // the chain's side from the hook's start on, the ramp's first part being the forward bend
        let hook = bend.station_at_heading(-bar.ramp_slope_rad).unwrap();
        let length: f64 = path.segments().map(|segment| segment.arclen(ASKED_MM)).sum();
        let chain_length = bend.along_from_s(hook.s_mm) + bend.ramp_length_mm();
        worst[0] = worst[0].max((length - chain_length).abs());

        let boxed = path.bounding_box();
        worst[1] = worst[1].max((boxed.max_x() - bend.reach_mm()).abs());
        worst[2] = worst[2].max((-boxed.min_y() - bend.drop_mm()).abs());

        let side = bend.chain().between(bend.ramp_middle().s_mm, f64::INFINITY).unwrap();
        let path = profile(
            &bend,
            bend.ramp_length_mm() - (side.length_mm() - bend.along_from_s(hook.s_mm)),
        );
        for _ in 0..20 {
            let q = Point::new(draw.between(-40.0, 160.0), draw.between(-220.0, 60.0));
            let ours = side.nearest(DVec3::new(q.x, q.y, half));
            let theirs = path
                .segments()
                .map(|segment| segment.nearest(q, ASKED_MM).distance_sq.sqrt())
                .fold(f64::INFINITY, f64::min);
            worst[3] = worst[3].max((theirs - ours.distance_mm).abs());
        }
    }
    println!(
        "{bars} unflared bars against kurbo, largest differences in mm: length {:.1e}, reach \
         {:.1e}, drop {:.1e}, nearest {:.1e}",
        worst[0], worst[1], worst[2], worst[3]
    );
    assert!(bars > 100);
    assert!(worst.iter().all(|&off| off < AGREE_MM));
}
