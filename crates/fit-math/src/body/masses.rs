//! What a body's segments weigh, and where along each its centre of mass lies.
//!
//! Shares only: of body weight, and of the way between two joints. Where the joints are is not
//! known here.
//!
//! Source: de Leva 1996, J. Biomechanics 29:1223, table 4 (adjusted from Zatsiorsky's 100 young men
//! and 15 young women).

use super::Sex;

/// A segment of the body.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Segment {
    /// Crown to the spine of the seventh neck vertebra.
    HeadAndNeck,
    /// Middle of the shoulder joints to the middle of the hip joints.
    Trunk,
    /// Shoulder joint to elbow joint; one arm.
    UpperArm,
    /// Elbow joint to wrist joint; one arm.
    Forearm,
    /// Wrist joint to the third knuckle; one hand.
    Hand,
    /// Hip joint to knee joint; one leg.
    Thigh,
    /// Knee joint to ankle (lateral malleolus); one leg.
    Shank,
    /// Heel to the longest toe; one foot.
    Foot,
}

/// Share of body weight, and of the way from the first of a segment's ends to the second.
struct Row {
    mass: f64,
    centre: f64,
}

const fn row(mass: f64, centre: f64) -> Row {
    Row { mass, centre }
}

impl Segment {
    /// Every segment, from the top.
    pub const ALL: [Self; 8] = [
        Self::HeadAndNeck,
        Self::Trunk,
        Self::UpperArm,
        Self::Forearm,
        Self::Hand,
        Self::Thigh,
        Self::Shank,
        Self::Foot,
    ];

    /// How many a body has.
    pub const fn count(self) -> usize {
        match self {
            Self::HeadAndNeck | Self::Trunk => 1,
            _ => 2,
        }
    }

    /// One such segment's share of body weight; the mean of the sexes' where it is not given.
    pub fn mass(self, sex: Option<Sex>) -> f64 {
        self.of(sex, |row| row.mass)
    }

    /// How far the centre of mass lies along the segment, from the end that is named first in its
    /// definition, as a share of the way to the other.
    pub fn centre(self, sex: Option<Sex>) -> f64 {
        self.of(sex, |row| row.centre)
    }

    fn of(self, sex: Option<Sex>, take: impl Fn(Row) -> f64) -> f64 {
        let of = |sex| take(self.row(sex));
        sex.map_or_else(|| f64::midpoint(of(Sex::Male), of(Sex::Female)), of)
    }

    const fn row(self, sex: Sex) -> Row {
        match (self, sex) {
            (Self::HeadAndNeck, Sex::Male) => row(0.0694, 0.5002),
            (Self::HeadAndNeck, Sex::Female) => row(0.0668, 0.4841),
            (Self::Trunk, Sex::Male) => row(0.4346, 0.4310),
            (Self::Trunk, Sex::Female) => row(0.4257, 0.3782),
            (Self::UpperArm, Sex::Male) => row(0.0271, 0.5772),
            (Self::UpperArm, Sex::Female) => row(0.0255, 0.5754),
            (Self::Forearm, Sex::Male) => row(0.0162, 0.4574),
            (Self::Forearm, Sex::Female) => row(0.0138, 0.4559),
            (Self::Hand, Sex::Male) => row(0.0061, 0.7900),
            (Self::Hand, Sex::Female) => row(0.0056, 0.7474),
            (Self::Thigh, Sex::Male) => row(0.1416, 0.4095),
            (Self::Thigh, Sex::Female) => row(0.1478, 0.3612),
            (Self::Shank, Sex::Male) => row(0.0433, 0.4459),
            (Self::Shank, Sex::Female) => row(0.0481, 0.4416),
            (Self::Foot, Sex::Male) => row(0.0137, 0.4415),
            (Self::Foot, Sex::Female) => row(0.0129, 0.4014),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::body::{Body, Dimension, Segments, Survey};

    /// Rounding of the table's four decimals over eight segments.
    const SUM: f64 = 1e-3;

    #[test]
    fn the_shares_make_a_whole_body() {
        for sex in [Some(Sex::Male), Some(Sex::Female), None] {
            let sum: f64 = Segment::ALL.into_iter().map(|s| s.count() as f64 * s.mass(sex)).sum();
            println!("{sex:?}: masses sum to {sum:.4}");
            assert!((sum - 1.0).abs() < SUM, "{sex:?}: {sum}");
        }
    }

    /// The centre of mass of people standing with their arms down is at 55–57 % of stature in men
    /// and 54–56 % in women (from memory, unverified). The third knuckle is taken to be 0.46 of the
    /// hand below the wrist, and a foot's mass half as high as the ankle (judgement; 1 % of either
    /// moves the centre by less than 0.01 %).
    #[test]
    fn a_standing_body_has_its_centre_where_people_have() {
        for (sex, low, high) in [(Sex::Male, 0.55, 0.57), (Sex::Female, 0.54, 0.56)] {
            let body = Body::new(&Survey::shipped().unwrap(), Some(sex), &[]).unwrap();
            let segments = Segments::of(&body).unwrap();
            let (s, arm) = (segments.lengths(), segments.lengths().arms[0]);
            let knee = s.ankle_above_sole_mm + s.shank_mm;
            let hip = knee + s.thigh_mm;
            let shoulder = hip + s.trunk_mm;
            let elbow = shoulder - arm.upper_arm_mm;
            let wrist = elbow - arm.forearm_mm;
            let knuckle = wrist - 0.46 * body.value(Dimension::HandLength);
            let stature = body.value(Dimension::Stature);
            let height = |segment| {
                let (from, to) = match segment {
                    Segment::HeadAndNeck => (stature, shoulder + s.neck_foot_mm),
                    Segment::Trunk => (shoulder, hip),
                    Segment::UpperArm => (shoulder, elbow),
                    Segment::Forearm => (elbow, wrist),
                    Segment::Hand => (wrist, knuckle),
                    Segment::Thigh => (hip, knee),
                    Segment::Shank => (knee, s.ankle_above_sole_mm),
                    Segment::Foot => (s.ankle_above_sole_mm / 2.0, s.ankle_above_sole_mm / 2.0),
                };
                from + (to - from) * segment.centre(Some(sex))
            };
            let centre: f64 = Segment::ALL
                .into_iter()
                .map(|one| one.count() as f64 * one.mass(Some(sex)) * height(one))
                .sum();
            let share = centre / stature;
            println!("{sex:?}: centre of mass at {:.1} % of stature", 100.0 * share);
            assert!((low..high).contains(&share), "{sex:?}: {share}");
        }
    }
}
