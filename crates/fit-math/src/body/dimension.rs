//! The 45 body dimensions of the survey, with the names its statistics use.
//!
//! Lengths are mm, weight is kg. Nothing is computed here.
//!
//! Definitions: Gordon et al. 2014, NATICK/TR-15/007 (ANSUR II), landmarks in the style of
//! ISO 7250-1.

use core::fmt;

macro_rules! dimensions {
    ($($variant:ident, $id:literal, $sd:literal, $doc:literal;)*) => {
        /// One body dimension of the survey.
        #[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
        pub enum Dimension {
            $(#[doc = $doc] $variant,)*
        }

        impl Dimension {
            /// Every dimension, in the survey's order.
            pub const ALL: [Self; Self::COUNT] = [$(Self::$variant,)*];

            /// The name used in the statistics and wherever a dimension is written down.
            pub const fn id(self) -> &'static str {
                match self {
                    $(Self::$variant => $id,)*
                }
            }

            /// How far one reading by a trained fitter with tape or calliper over thin clothes is
            /// off, as a standard deviation, mm or kg: judgement, on the differences that the
            /// survey's observers were allowed; where they had none, as for a dimension felt or
            /// laid alike.
            pub const fn measuring_sd(self) -> f64 {
                match self {
                    $(Self::$variant => $sd,)*
                }
            }
        }
    };
}

dimensions! {
    Stature, "stature", 4.0, "Floor to the crown of the head, standing.";
    Weight, "weight", 1.0, "Body weight, kg.";
    SittingHeight, "sitting_height", 6.0, "Seat to the crown of the head, sitting tall.";
    EyeHeightSitting, "eye_height_sitting", 6.0, "Seat to the outer corner of the eye, sitting tall.";
    CervicaleHeight, "cervicale_height", 8.0, "Floor to the spine of the seventh neck vertebra.";
    AcromialHeight, "acromial_height", 9.0, "Floor to the outer edge of the shoulder blade's acromion.";
    SuprasternaleHeight, "suprasternale_height", 5.0, "Floor to the notch above the breastbone.";
    IliocristaleHeight, "iliocristale_height", 9.0, "Floor to the crest of the hip bone.";
    TrochanterionHeight, "trochanterion_height", 14.0, "Floor to the top of the greater trochanter.";
    CrotchHeight, "crotch_height", 10.0, "Floor to the crotch: the inseam.";
    KneeHeightMidpatella, "knee_height_midpatella", 9.0, "Floor to the middle of the kneecap.";
    LateralFemoralEpicondyleHeight, "lateral_femoral_epicondyle_height", 9.0,
        "Floor to the outer knob of the thigh bone at the knee.";
    TibialeHeight, "tibiale_height", 9.0, "Floor to the top of the shin bone.";
    LateralMalleolusHeight, "lateral_malleolus_height", 3.0, "Floor to the outer ankle bone.";
    ButtockKneeLength, "buttock_knee_length", 7.0, "Back of the buttock to the front of the knee.";
    ButtockPoplitealLength, "buttock_popliteal_length", 7.0,
        "Back of the buttock to the hollow of the knee.";
    KneeHeightSitting, "knee_height_sitting", 4.0, "Floor to the top of the knee, sitting.";
    PoplitealHeight, "popliteal_height", 4.0, "Floor to the hollow of the knee, sitting.";
    ThighClearance, "thigh_clearance", 7.0, "Seat to the highest point of the thigh.";
    FootLength, "foot_length", 3.0, "Heel to the tip of the longest toe.";
    BallOfFootLength, "ball_of_foot_length", 5.0, "Heel to the ball of the foot.";
    FootBreadth, "foot_breadth", 2.0, "Breadth of the foot at the ball.";
    AcromionRadialeLength, "acromion_radiale_length", 7.0,
        "Acromion to the top of the radius at the elbow.";
    RadialeStylionLength, "radiale_stylion_length", 6.0,
        "Top of the radius at the elbow to its tip at the wrist.";
    ShoulderElbowLength, "shoulder_elbow_length", 6.0, "Acromion to the underside of the bent elbow.";
    ForearmHandLength, "forearm_hand_length", 5.0, "Back of the bent elbow to the tip of the middle finger.";
    ForearmGripLength, "forearm_grip_length", 6.0, "Back of the bent elbow to the middle of a gripped rod.";
    HandLength, "hand_length", 3.0, "Wrist to the tip of the middle finger.";
    PalmLength, "palm_length", 4.0, "Wrist to the root of the middle finger.";
    HandBreadth, "hand_breadth", 2.0, "Breadth of the palm at the knuckles.";
    ThumbtipReach, "thumbtip_reach", 9.0, "Wall behind the shoulders to the thumb's tip, arm forward.";
    SpineWristLength, "spine_wrist_length", 9.0, "Middle of the back to the wrist, arm raised and bent.";
    Span, "span", 12.0, "Tip to tip of the middle fingers, arms outstretched.";
    BiacromialBreadth, "biacromial_breadth", 7.0, "Outer edge to outer edge of the acromia.";
    BideltoidBreadth, "bideltoid_breadth", 8.0, "Breadth over the shoulder muscles.";
    BicristalBreadth, "bicristal_breadth", 9.0, "Breadth over the crests of the hip bones.";
    HipBreadth, "hip_breadth", 8.0, "Breadth of the hips, standing.";
    HipBreadthSitting, "hip_breadth_sitting", 8.0, "Breadth of the hips, sitting.";
    ChestBreadth, "chest_breadth", 8.0, "Breadth of the chest.";
    ChestDepth, "chest_depth", 7.0, "Depth of the chest.";
    WaistCircumference, "waist_circumference", 9.0, "Girth of the waist at the navel.";
    ThighCircumference, "thigh_circumference", 9.0, "Girth of the thigh at the gluteal fold.";
    TragionTopOfHead, "tragion_top_of_head", 5.0, "Ear (tragion) to the crown of the head.";
    HeadBreadth, "head_breadth", 2.0, "Breadth of the head.";
    HeadLength, "head_length", 2.0, "Brow to the back of the head.";
}

impl Dimension {
    /// How many dimensions there are.
    pub const COUNT: usize = 45;

    /// The dimension of that name.
    pub fn from_id(id: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|dimension| dimension.id() == id)
    }

    /// Its place in [`Self::ALL`].
    pub const fn index(self) -> usize {
        self as usize
    }

    /// "mm", or "kg" for weight.
    pub const fn unit(self) -> &'static str {
        match self {
            Self::Weight => "kg",
            _ => "mm",
        }
    }
}

impl fmt::Display for Dimension {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.id())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_name_leads_back_to_its_dimension() {
        for (index, dimension) in Dimension::ALL.into_iter().enumerate() {
            assert_eq!(Dimension::from_id(dimension.id()), Some(dimension));
            assert_eq!(dimension.index(), index);
        }
        assert_eq!(Dimension::from_id("Stature"), None, "names are lower case");
    }
}
