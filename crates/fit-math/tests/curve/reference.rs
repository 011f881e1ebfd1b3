//! A planar chain against figures computed elsewhere.
//!
//! Source of the figures: `tests/data/arc_chain.json`, an independent computation in Python, in closed
//! form and with shapely. Frame of the figures: x forward, y up, mm; headings above the forward
//! horizontal.

use fit_math::DVec3;
use fit_math::curve::Chain;
use fit_math::frame::heading_rad;
use serde_json::Value;

/// Closed forms must agree to this, mm.
const EXACT_MM: f64 = 1e-9;
/// Shapely works on a chopped chain: its own length is 4e-8 short of the closed form.
const CHOPPED_MM: f64 = 1e-6;

fn figures() -> Value {
    serde_json::from_str(include_str!("../data/arc_chain.json")).unwrap()
}

fn number(value: &Value) -> f64 {
    value.as_f64().unwrap()
}

fn point(value: &Value) -> DVec3 {
    DVec3::new(number(&value[0]), number(&value[1]), 0.0)
}

fn chain(figures: &Value) -> Chain {
    let heading = number(&figures["heading_deg"]).to_radians();
    let direction = DVec3::new(heading.cos(), heading.sin(), 0.0);
    let mut pen = Chain::start(point(&figures["start"]), direction);
    for segment in figures["segments"].as_array().unwrap() {
        let size = number(&segment[1]);
        pen = if segment[0] == "L" {
            pen.line(size)
        } else {
            let turn = number(&segment[2]).to_radians();
            let left = DVec3::Z.cross(pen.tangent());
            pen.arc(size, turn.abs(), if turn < 0.0 { -left } else { left })
        };
    }
    pen.build().unwrap()
}

#[test]
fn joints_length_extremes_and_end_agree_in_closed_form() {
    let figures = figures();
    let chain = chain(&figures);
    let joints = figures["joints"].as_array().unwrap();
    assert_eq!(joints.len(), chain.pieces().len() + 1);
    for (index, joint) in joints.iter().enumerate() {
        let at = chain.at(chain.piece_start_mm(index)).point;
        assert!(at.distance(point(joint)) < EXACT_MM, "joint {index}: {at}");
    }
    let off = chain.length_mm() - number(&figures["arc_length_closed"]);
    assert!(off.abs() < EXACT_MM, "length off by {off}");
    let reach = chain.furthest(DVec3::X).point.x;
    assert!((reach - number(&figures["reach_max_x"])).abs() < EXACT_MM, "{reach}");
    let lowest = chain.furthest(DVec3::NEG_Y);
    assert!((lowest.point.y - number(&figures["drop_min_y"])).abs() < EXACT_MM, "{lowest:?}");
    assert!((lowest.s_mm - chain.length_mm()).abs() < EXACT_MM, "the lowest point is the end");
    let heading = heading_rad(chain.at(chain.length_mm()).tangent).to_degrees();
    assert!((heading - number(&figures["end_heading_deg"])).abs() < 1e-9, "{heading}");
}

#[test]
fn the_nearest_point_agrees_with_shapely_and_with_the_circle() {
    let figures = figures();
    let chain = chain(&figures);
    let q = point(&figures["closest"]["q"]);
    let nearest = chain.nearest(q);
    let distance_off = nearest.distance_mm - number(&figures["closest"]["dist"]);
    let s_off = nearest.station.s_mm - number(&figures["closest"]["s"]);
    println!("nearest against shapely: distance off {distance_off:.1e}, s off {s_off:.1e} mm");
    assert!(distance_off.abs() < CHOPPED_MM && s_off.abs() < 1e-3);
    // the circle itself: q lies inside the first arc's circle, whose centre is 45 mm square to
    // the first joint
    let heading = number(&figures["heading_deg"]).to_radians();
    let centre =
        point(&figures["joints"][1]) + 45.0 * DVec3::new(heading.sin(), -heading.cos(), 0.0);
    assert!((nearest.distance_mm - (45.0 - centre.distance(q)).abs()).abs() < EXACT_MM);
}

#[test]
fn the_tube_covers_length_times_width() {
    let figures = figures();
    let chain = chain(&figures);
    let width = number(&figures["strip_width"]);
    let closed = number(&figures["strip_area_flat_caps_closed"]);
    assert!((chain.length_mm() * width - closed).abs() < EXACT_MM * width);
    for tolerance in [0.1, 0.01, 1e-3, 1e-4, 1e-5] {
        let outline = chain.outline(DVec3::NEG_Z, width, tolerance);
        let ring: Vec<DVec3> =
            outline.right.iter().copied().chain(outline.left.iter().rev().copied()).collect();
        let area =
            0.5 * (0..ring.len()).map(|i| ring[i].cross(ring[(i + 1) % ring.len()]).z).sum::<f64>();
        let bound = tolerance * 2.0 * chain.length_mm();
        println!("strip of {width} mm: tolerance {tolerance:e}, area off {:.1e}", area - closed);
        assert!((area - closed).abs() < bound, "{area} against {closed}");
        if tolerance <= 1e-4 {
            let polygon = number(&figures["strip_area_flat_caps_polygon"]);
            assert!((area - polygon).abs() < 0.02, "shapely's buffer is good to about .01 mm²");
        }
    }
}
