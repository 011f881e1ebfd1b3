//! Client and visits in the file. Lengths in mm, weight in kg, days as ISO 8601.

use super::cockpit::Cockpit;
use super::kept::{Kept, Number, kept, required, words};
use super::tape::Tape;
use crate::text::{Field, Shape, snake};
use fit_doc::Suppleness;
use jiff::civil::Date;
use serde::{Deserialize, Serialize};

words! {
    Sex { Male, Female, }
    Joint { Spine, Pelvis, Hip, Shoulder, Neck, }
    Region { Neck, Shoulders, Arms, Hands, LowBack, Hips, Seat, Knees, Feet, }
    Where { Left, Right, Both, }
    Reaches { Yes, Just, No, }
    HandPlace { Tops, Ramps, Hoods, BentElbowHoods, Drops, Ends, }
}

kept! {
    Client { name: String, sex: Option<Sex>, born: Option<i16>, notes: String, }
    Mobility { joint: Joint, side: Where, extent: Extent, painful: bool, }
    Seen {
        cockpit: String,
        place: HandPlace,
        trunk_deg: Option<Number>,
        elbow_deg: Option<Number>,
        neck_deg: Option<Number>,
        knee_deg: Option<Number>,
        slide_mm: Option<Number>,
    }
    HandCheck { cockpit: String, side: Where, reaches: Reaches, }
    Complaint {
        region: Region,
        side: Where,
        place: Option<HandPlace>,
        after_minutes: Option<u32>,
        score: u8,
        words: String,
    }
    Visit {
        date: Day,
        bike: String,
        body: Vec<Reading>,
        mobility: Vec<Mobility>,
        seen: Vec<Seen>,
        hand_checks: Vec<HandCheck>,
        glove_mm: Number,
        complaints: Vec<Complaint>,
        wishes: Vec<String>,
        as_it_came: Cockpit,
        bench: Vec<Cockpit>,
        put_right: Option<String>,
        chosen: Option<String>,
        notes: String,
    } + {
        tape: Tape,
    }
}

/// How far a joint goes: `measured(deg: 105.0)` or a word.
#[derive(Debug, Clone, Copy, Serialize, Deserialize)]
#[serde(rename_all = "snake_case", deny_unknown_fields)]
pub(super) enum Extent {
    Measured {
        #[serde(deserialize_with = "required")]
        deg: Number,
    },
    Free,
    Ordinary,
    Stiff,
}

impl Kept for Extent {
    type Doc = fit_doc::Extent;

    fn from_doc(doc: &Self::Doc) -> Self {
        match doc {
            fit_doc::Extent::Measured { deg } => Self::Measured { deg: Kept::from_doc(deg) },
            fit_doc::Extent::Said(Suppleness::Free) => Self::Free,
            fit_doc::Extent::Said(Suppleness::Ordinary) => Self::Ordinary,
            fit_doc::Extent::Said(Suppleness::Stiff) => Self::Stiff,
        }
    }

    fn into_doc(self) -> Self::Doc {
        match self {
            Self::Measured { deg } => fit_doc::Extent::Measured { deg: deg.into_doc() },
            Self::Free => fit_doc::Extent::Said(Suppleness::Free),
            Self::Ordinary => fit_doc::Extent::Said(Suppleness::Ordinary),
            Self::Stiff => fit_doc::Extent::Said(Suppleness::Stiff),
        }
    }

    fn shape() -> Shape {
        let measured = vec![Field::new("deg", Number::shape())];
        let word = |name: &str| (name.to_owned(), Vec::new());
        Shape::Choice(vec![
            ("measured".to_owned(), measured),
            word("free"),
            word("ordinary"),
            word("stiff"),
        ])
    }
}

/// A day, `2026-03-14`.
#[derive(Debug, Clone, Copy, Serialize, Deserialize)]
#[serde(try_from = "String", into = "String")]
pub(super) struct Day(Date);

impl TryFrom<String> for Day {
    type Error = String;

    fn try_from(text: String) -> Result<Self, String> {
        // the parser also takes a day with a time and drops the time
        let day = text.parse::<Date>().ok().filter(|day| day.to_string() == text);
        day.map(Self)
            .ok_or_else(|| format!("Expected a day such as \"2026-03-14\" but found {text:?}"))
    }
}

impl From<Day> for String {
    fn from(day: Day) -> Self {
        day.0.to_string()
    }
}

impl Kept for Day {
    type Doc = Date;

    fn from_doc(doc: &Date) -> Self {
        Self(*doc)
    }

    fn into_doc(self) -> Date {
        self.0
    }

    fn shape() -> Shape {
        Shape::Day(|text| Self::try_from(text.to_owned()).is_ok())
    }
}

/// Readings of the body; lengths and weight have keys of their own, so that each names its unit.
macro_rules! readings {
    ($($length:ident,)+) => {
        /// A body length, under the survey's name for it.
        #[derive(Debug, Clone, Copy, Serialize, Deserialize)]
        #[serde(rename_all = "snake_case")]
        #[allow(clippy::enum_variant_names, reason = "the words are the survey's")]
        pub(super) enum Length { $($length,)+ }

        /// One dimension with its readings.
        #[derive(Debug, Serialize, Deserialize)]
        #[serde(rename_all = "snake_case", deny_unknown_fields)]
        pub(super) enum Reading {
            Length {
                #[serde(deserialize_with = "required")]
                of: Length,
                #[serde(deserialize_with = "required")]
                readings_mm: Vec<Number>,
            },
            Weight {
                #[serde(deserialize_with = "required")]
                readings_kg: Vec<Number>,
            },
        }

        impl Kept for Reading {
            type Doc = fit_doc::Reading;

            fn from_doc(doc: &Self::Doc) -> Self {
                let fit_doc::Reading { dimension, values } = doc;
                let values = Kept::from_doc(values);
                match dimension {
                    fit_doc::Dimension::Weight => Self::Weight { readings_kg: values },
                    $(fit_doc::Dimension::$length => {
                        Self::Length { of: Length::$length, readings_mm: values }
                    })+
                }
            }

            fn into_doc(self) -> Self::Doc {
                let (dimension, values) = match self {
                    Self::Weight { readings_kg } => (fit_doc::Dimension::Weight, readings_kg),
                    $(Self::Length { of: Length::$length, readings_mm } => {
                        (fit_doc::Dimension::$length, readings_mm)
                    })+
                };
                fit_doc::Reading { dimension, values: values.into_doc() }
            }

            fn shape() -> Shape {
                let of = Shape::Words(vec![$(snake(stringify!($length)),)+]);
                let values = || Vec::<Number>::shape();
                let length = vec![Field::new("of", of), Field::new("readings_mm", values())];
                let weight = vec![Field::new("readings_kg", values())];
                Shape::Choice(vec![("length".to_owned(), length), ("weight".to_owned(), weight)])
            }
        }
    };
}

readings! {
    Stature, SittingHeight, EyeHeightSitting, CervicaleHeight, AcromialHeight,
    SuprasternaleHeight, IliocristaleHeight, TrochanterionHeight, CrotchHeight,
    KneeHeightMidpatella, LateralFemoralEpicondyleHeight, TibialeHeight, LateralMalleolusHeight,
    ButtockKneeLength, ButtockPoplitealLength, KneeHeightSitting, PoplitealHeight, ThighClearance,
    FootLength, BallOfFootLength, FootBreadth, AcromionRadialeLength, RadialeStylionLength,
    ShoulderElbowLength, ForearmHandLength, ForearmGripLength, HandLength, PalmLength,
    HandBreadth, ThumbtipReach, SpineWristLength, Span, BiacromialBreadth, BideltoidBreadth,
    BicristalBreadth, HipBreadth, HipBreadthSitting, ChestBreadth, ChestDepth,
    WaistCircumference, ThighCircumference, TragionTopOfHead, HeadBreadth, HeadLength,
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_day_is_a_day_and_nothing_more() {
        let day = |text: &str| Day::try_from(text.to_owned()).map(String::from);
        assert_eq!(day("2026-03-14").as_deref(), Ok("2026-03-14"));
        for text in ["2026-3-14", "14.03.2026", "2026-03-14T10:00", "20260314", "2026-02-30", ""] {
            assert!(day(text).is_err(), "{text}");
        }
    }

    #[test]
    fn a_length_has_the_survey_s_own_name() {
        for dimension in fit_doc::Dimension::ALL {
            let reading = fit_doc::Reading { dimension, values: vec![1.5] };
            let text = ron::to_string(&Reading::from_doc(&reading)).unwrap();
            let unit = dimension.unit();
            let expected = match dimension {
                fit_doc::Dimension::Weight => format!("weight(readings_{unit}:[1.5])"),
                _ => format!("length(of:{dimension},readings_{unit}:[1.5])"),
            };
            assert_eq!(text, expected);
            let back: Reading = ron::from_str(&text).unwrap();
            assert_eq!(back.into_doc(), reading);
        }
    }
}
