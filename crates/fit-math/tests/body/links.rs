//! Links held against the independent implementation's, and the leg against the triangle of hip, knee
//! and ankle.
//!
//! Sources: `data/posture_solutions.json` (links of the mean man and woman, worked out apart from
//! this crate); triangles: plane geometry, worked out beside each.

use fit_math::DVec2;
use fit_math::body::{Body, Dimension, Item, Link, Reading, Segments, Sex, Survey};
use fit_math::frame::Side;
use fit_math::saddle::{Leg, LegTurn};
use std::collections::HashMap;

/// Links agree to this, mm: the solutions' have three decimals.
const LINK_MM: f64 = 1e-3;

fn body(sex: Option<Sex>, readings: &[(Dimension, f64)]) -> Body {
    Body::new(&Survey::shipped().unwrap(), sex, readings).unwrap()
}

fn segments(sex: Sex) -> Segments {
    Segments::of(&body(Some(sex), &[])).unwrap()
}

/// Every link that a posture is computed from, for the mean man and the mean woman.
#[test]
fn links_of_the_mean_bodies_are_those_of_the_independent_implementation() {
    let text = include_str!("../data/posture_solutions.json");
    let all: serde_json::Value = serde_json::from_str(text).unwrap();
    let bodies = all["bodies"].as_object().unwrap();
    assert_eq!(bodies.len(), 2);
    let mut worst_mm = 0.0_f64;
    for (name, expected) in bodies {
        let sex = if name == "male" { Sex::Male } else { Sex::Female };
        let found = *segments(sex).lengths();
        for arm in found.arms {
            let links = HashMap::from([
                ("ua", arm.upper_arm_mm),
                ("fa", arm.forearm_mm),
                ("gr", arm.hand_mm),
                ("shw", found.shoulders_apart_mm),
                ("trunk", found.trunk_mm),
                ("thigh", found.thigh_mm),
                ("shank", found.shank_mm),
                ("ah", found.ankle_above_sole_mm),
                ("ball", found.ball_mm),
                ("foot", found.foot_mm),
                ("ox", found.hip_ahead_mm),
                ("oy", found.hip_above_mm),
            ]);
            assert_eq!(expected.as_object().unwrap().len(), links.len());
            for (link, expected_mm) in expected.as_object().unwrap() {
                let off_mm = (links[link.as_str()] - expected_mm.as_f64().unwrap()).abs();
                assert!(off_mm < LINK_MM, "{name} {link}: {off_mm}");
                worst_mm = worst_mm.max(off_mm);
            }
        }
    }
    println!("links of 2 mean bodies: worst {worst_mm:.1e} mm");
}

/// By how much hip and knee rise with the inseam among people of one stature, by hand from the
/// survey's covariances in mm² (ANSUR II, Gordon et al. 2014): a hip or knee's covariance with
/// crotch height times the variance of stature, less its covariance with stature times that of the
/// two, over the determinant of the two.
#[test]
fn hip_and_knee_rise_with_the_inseam_as_in_the_survey() {
    use Dimension::{CrotchHeight, LateralFemoralEpicondyleHeight, Stature, TrochanterionHeight};
    // variances of stature and crotch height, their covariance; hip and knee with each of them
    let men = ([4699.21, 2162.17, 2735.29], [2865.37, 2103.55], [1564.79, 1128.20]);
    let women = ([4121.58, 1992.44, 2433.28], [2460.72, 1863.35], [1392.84, 1099.50]);
    let survey = Survey::shipped().unwrap();
    for (sex, ([stature, crotch, both], hip, knee)) in [(Sex::Male, men), (Sex::Female, women)] {
        let by_hand = |[with_stature, with_crotch]: [f64; 2]| {
            (with_crotch * stature - with_stature * both) / (stature * crotch - both * both)
        };
        // both read without an error
        let at = |crotch_mm, of| {
            let mut person = survey.people(sex).clone();
            person.learn(&Stature.into(), 1700.0, 0.0);
            person.learn(&CrotchHeight.into(), crotch_mm, 0.0);
            person.mean(of)
        };
        for (of, with) in [(TrochanterionHeight, hip), (LateralFemoralEpicondyleHeight, knee)] {
            let rise = (at(830.0, of) - at(780.0, of)) / 50.0;
            println!("{sex:?}, {of} rises {rise:.3} mm with a mm of inseam");
            assert!((rise - by_hand(with)).abs() < 1e-4, "{sex:?} {of}: {}", by_hand(with));
        }
    }
}

/// A link's gradient against the link itself, one dimension after the other a mm longer.
#[test]
fn links_turn_with_dimensions_as_their_gradients_say() {
    let means = |d| Survey::shipped().unwrap().mean(Some(Sex::Female), d);
    let all = Dimension::ALL.map(|d| (d, means(d)));
    let base = body(Some(Sex::Female), &all);
    let length = |body: &Body, link| {
        let s = *Segments::of(body).unwrap().lengths();
        match link {
            Link::UpperArm => s.arms[0].upper_arm_mm,
            Link::Forearm => s.arms[0].forearm_mm,
            Link::Hand => s.arms[1].hand_mm,
            Link::Trunk => s.trunk_mm,
            Link::ShouldersApart => s.shoulders_apart_mm,
            Link::HipAbove => s.hip_above_mm,
            Link::Thigh => s.thigh_mm,
            Link::Shank => s.shank_mm,
            Link::AnkleAboveSole => s.ankle_above_sole_mm,
            Link::Ball => s.ball_mm,
            Link::Foot => s.foot_mm,
            Link::NeckFoot => s.neck_foot_mm,
            Link::Neck => s.neck_mm,
            Link::Crown => s.crown_mm,
        }
    };
    for (at, dimension) in Dimension::ALL.into_iter().enumerate() {
        let mut longer = all;
        longer[at].1 += 1.0;
        let longer = body(Some(Sex::Female), &longer);
        let mut touched = false;
        for link in Link::ALL {
            let by = length(&longer, link) - length(&base, link);
            let said = link.gradient(&base).weight(dimension);
            assert!((by - said).abs() < 1e-9, "{link:?} with {dimension}: {by}, said {said}");
            touched |= by != 0.0 && link.is_in_postures();
        }
        assert_eq!(touched, Link::needs(dimension), "{dimension}");
    }
    // twice the thigh less the trunk: the hip counts three times
    let turns = [(Link::Thigh, 2.0), (Link::Trunk, -1.0)];
    let gradient = Link::gradient_of_all(&turns, &base);
    assert_eq!(gradient.weight(Dimension::TrochanterionHeight), 3.0);
    assert_eq!(gradient.weight(Dimension::AcromialHeight), -1.0);
}

/// Left and right arm read 30 mm apart from shoulder to fist, and both alike: the body has the mean,
/// each arm its own links, the legs nothing of it.
#[test]
fn each_arm_keeps_its_own_length() {
    let survey = Survey::shipped().unwrap();
    let read = |left, right| {
        let readings = [
            Reading::new(Dimension::Stature, 1760.0),
            Reading::on(Side::Left, Item::ShoulderToFist, left),
            Reading::on(Side::Right, Item::ShoulderToFist, right),
        ];
        Body::read(&survey, Some(Sex::Male), None, &readings).unwrap()
    };
    let (uneven, even) = (read(700.0, 670.0), read(685.0, 685.0));
    for dimension in Dimension::ALL {
        let off = uneven.value(dimension) - even.value(dimension);
        assert!(off.abs() < 1e-9, "{dimension}: the body is that of the mean, {off}");
    }
    let segments = Segments::of(&uneven).unwrap();
    let [left, right] = Side::BOTH.map(|side| segments.arm(side).straight_mm());
    let middle = Segments::of(&even).unwrap().arm(Side::Left).straight_mm();
    println!("read 30 mm apart, taken as {:.1} mm apart", left - right);
    assert!(left - right > 5.0 && left - right < 30.0, "{}", left - right);
    assert!((f64::midpoint(left, right) - middle).abs() < 1e-9);
    let crotch = Dimension::CrotchHeight;
    assert_eq!(uneven.value_on(Side::Left, crotch), uneven.value_on(Side::Right, crotch));

    // the more often both are read, the more of the difference is believed, and never more than all
    let mut last = 0.0;
    for count in [1, 2, 5, 50] {
        let readings: Vec<_> = [(Side::Left, 196.0), (Side::Right, 184.0)]
            .into_iter()
            .flat_map(|(side, mm)| vec![Reading::on(side, Dimension::HandLength, mm); count])
            .collect();
        let body = Body::read(&survey, None, None, &readings).unwrap();
        let [left, right] = Side::BOTH.map(|side| body.value_on(side, Dimension::HandLength));
        assert!(left - right > last && left - right < 12.0, "{count}: {}", left - right);
        assert!((f64::midpoint(left, right) - 190.0).abs() < 1e-9);
        last = left - right;
    }
    assert!(last > 11.0, "{last}");
}

/// The ankle's circle by hand: the foot 20° toe-down, the spindle under the ball and 15 mm below
/// the sole, the ankle 0.22 of the foot ahead of the heel (judgement, as in the leg's model). The
/// knee at the bottom closes a triangle with thigh, shank and R + crank; thigh and trunk come
/// closest where shank and crank lie in one line.
#[test]
fn a_longer_crank_straightens_the_knee_below_and_lifts_the_thigh_above() {
    for (sex, hip) in
        [(Sex::Male, DVec2::new(-182.0, 756.0)), (Sex::Female, DVec2::new(-163.0, 710.0))]
    {
        let segments = segments(sex);
        let s = segments.lengths();
        let (sin, cos) = 20_f64.to_radians().sin_cos();
        let (behind, above) = (s.ball_mm - 0.22 * s.foot_mm, 15.0 + s.ankle_above_sole_mm);
        let centre = DVec2::new(-behind * cos + above * sin, behind * sin + above * cos);
        let r = hip.distance(centre);
        // the angle of a triangle that faces its first side
        let facing = |a: f64, b: f64, c: f64| ((b * b + c * c - a * a) / (2.0 * b * c)).acos();
        let mut last: Option<(f64, f64)> = None;
        for crank_mm in [160.0, 165.0, 170.0, 172.5, 175.0] {
            let straight = facing(r + crank_mm, s.thigh_mm, s.shank_mm);
            let knee = core::f64::consts::PI - straight;
            let down = (centre - hip).to_angle();
            let thigh = down + facing(s.shank_mm + crank_mm, r, s.thigh_mm);

            let leg = Leg::new(&segments);
            let LegTurn::Turns { knee_min_rad } = leg.turn(hip, crank_mm) else {
                panic!("{sex:?}: the leg turns a crank of {crank_mm} mm")
            };
            let thigh_top_rad = leg.thigh_at_top_rad(hip, crank_mm);
            assert!((knee_min_rad - knee).abs() < 1e-9, "{sex:?} {crank_mm}: knee");
            assert!((thigh_top_rad - thigh).abs() < 1e-9, "{sex:?} {crank_mm}: thigh");
            if let Some((knee, thigh)) = last {
                assert!(knee_min_rad < knee && thigh_top_rad > thigh, "{sex:?} {crank_mm}");
            }
            last = Some((knee_min_rad, thigh_top_rad));
        }
    }
}
