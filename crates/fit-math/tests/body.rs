//! Bodies held against the independent implementation's links, the survey's covariances and the
//! triangle of hip, knee and ankle.
//!
//! Sources: `data/posture_solutions.json` (links of the mean man and woman, worked out apart from
//! this crate), `data/ansur2_*_cov.csv` (covariances of ANSUR II, Gordon et al. 2014,
//! NATICK/TR-15/007); triangles: plane geometry, worked out beside each.

#![allow(
    clippy::unwrap_used,
    clippy::print_stdout,
    reason = "helpers of tests, which may panic and tell figures"
)]

use fit_math::DVec2;
use fit_math::body::{Body, Dimension, Segments, Sex, Survey};
use fit_math::saddle::{Leg, LegTurn};
use std::collections::HashMap;

/// Links agree to this, mm: the solutions' have three decimals.
const LINK_MM: f64 = 1e-3;
/// Conditional means agree to this, mm: nothing but rounding is between them.
const EXACT_MM: f64 = 1e-6;

fn body(sex: Option<Sex>, readings: &[(Dimension, f64)]) -> Body {
    Body::new(&Survey::shipped().unwrap(), sex, readings).unwrap()
}

fn segments(sex: Sex) -> Segments {
    Segments::of(&body(Some(sex), &[])).unwrap()
}

/// Every link that a posture is computed from, for the mean man and the mean woman.
#[test]
fn links_of_the_mean_bodies_are_those_of_the_independent_implementation() {
    let text = include_str!("data/posture_solutions.json");
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

/// The survey's covariances by name.
struct Covariances(HashMap<(String, String), f64>);

impl Covariances {
    fn of(sex: Sex) -> Self {
        let text = match sex {
            Sex::Male => include_str!("data/ansur2_male_cov.csv"),
            Sex::Female => include_str!("data/ansur2_female_cov.csv"),
        };
        let mut rows = text.lines().map(|line| line.split(',').map(str::trim));
        let columns: Vec<_> = rows.next().unwrap().skip(1).collect();
        let mut all = HashMap::new();
        for mut row in rows {
            let name = row.next().unwrap();
            for (column, cell) in columns.iter().zip(row) {
                all.insert((name.to_owned(), (*column).to_owned()), cell.parse().unwrap());
            }
        }
        Self(all)
    }

    fn between(&self, a: Dimension, b: Dimension) -> f64 {
        self.0[&(a.id().to_owned(), b.id().to_owned())]
    }

    /// Slope of one dimension on another alone.
    fn slope(&self, of: Dimension, on: Dimension) -> f64 {
        self.between(of, on) / self.between(on, on)
    }

    /// Slope on crotch height among people of one stature, the way of Frisch & Waugh 1933
    /// (Econometrica 1:387): what stature leaves open of the dimension, on what stature leaves open
    /// of the crotch height.
    fn slope_at_stature(&self, of: Dimension) -> f64 {
        use Dimension::{CrotchHeight, Stature};
        let left_open =
            |a, b| self.between(a, b) - self.slope(a, Stature) * self.between(Stature, b);
        left_open(of, CrotchHeight) / left_open(CrotchHeight, CrotchHeight)
    }
}

const ALONG_THE_LEG: [Dimension; 4] = [
    Dimension::TrochanterionHeight,
    Dimension::LateralFemoralEpicondyleHeight,
    Dimension::KneeHeightMidpatella,
    Dimension::TibialeHeight,
];

/// What is expected of a dimension in one sex where stature, inseam, both or none was read.
fn expected_mm(
    sex: Sex,
    covariances: &Covariances,
    of: Dimension,
    stature: Option<f64>,
    crotch: Option<f64>,
) -> f64 {
    use Dimension::{CrotchHeight, Stature};
    let mean = |dimension| Survey::shipped().unwrap().mean(Some(sex), dimension);
    let at_stature = |of| {
        let taller = stature.map_or(0.0, |mm| mm - mean(Stature));
        mean(of) + covariances.slope(of, Stature) * taller
    };
    let Some(crotch) = crotch.filter(|_| ALONG_THE_LEG.contains(&of)) else {
        return at_stature(of);
    };
    let beyond = crotch - at_stature(CrotchHeight);
    let slope = match stature {
        Some(_) => covariances.slope_at_stature(of),
        None => covariances.slope(of, CrotchHeight),
    };
    at_stature(of) + slope * beyond
}

#[test]
fn unread_heights_along_the_leg_are_those_at_the_stature_and_inseam_read() {
    use Dimension::{CrotchHeight, Stature};
    let [cov_men, cov_women] = Sex::BOTH.map(Covariances::of);
    let mut worst_mm = 0.0_f64;
    for stature in [None, Some(1560.0), Some(1690.0), Some(1874.0)] {
        for crotch in [None, Some(731.0), Some(802.0), Some(866.0)] {
            let readings: Vec<_> = [(Stature, stature), (CrotchHeight, crotch)]
                .into_iter()
                .filter_map(|(dimension, mm)| mm.map(|mm| (dimension, mm)))
                .collect();
            let of = |sex| body(sex, &readings);
            let (men, women) = (of(Some(Sex::Male)), of(Some(Sex::Female)));
            let unknown = of(None);
            let unread = Dimension::ALL.into_iter().filter(|&d| !men.known(d).measured);
            for dimension in unread {
                let expected = [(Sex::Male, &cov_men), (Sex::Female, &cov_women)]
                    .map(|(sex, cov)| expected_mm(sex, cov, dimension, stature, crotch));
                for (found, expected) in [
                    (men.value(dimension), expected[0]),
                    (women.value(dimension), expected[1]),
                    (unknown.value(dimension), f64::midpoint(expected[0], expected[1])),
                ] {
                    let off = (found - expected).abs();
                    assert!(off < EXACT_MM, "{dimension} at {readings:?}: {off}");
                    worst_mm = worst_mm.max(off);
                }
            }
        }
    }
    println!("16 pairs of stature and inseam, every dimension: worst {worst_mm:.1e} mm");
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
    for (sex, ([stature, crotch, both], hip, knee)) in [(Sex::Male, men), (Sex::Female, women)] {
        let by_hand = |[with_stature, with_crotch]: [f64; 2]| {
            (with_crotch * stature - with_stature * both) / (stature * crotch - both * both)
        };
        let at = |crotch_mm, of| {
            body(Some(sex), &[(Stature, 1700.0), (CrotchHeight, crotch_mm)]).value(of)
        };
        for (of, with) in [(TrochanterionHeight, hip), (LateralFemoralEpicondyleHeight, knee)] {
            let rise = (at(830.0, of) - at(780.0, of)) / 50.0;
            println!("{sex:?}, {of} rises {rise:.3} mm with a mm of inseam");
            assert!((rise - by_hand(with)).abs() < 1e-4, "{sex:?} {of}: {}", by_hand(with));
        }
    }
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
