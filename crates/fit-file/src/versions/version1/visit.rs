//! Client and visits in the file. Lengths in mm, weight in kg, days as ISO 8601.

use super::cockpit::Cockpit;
use super::kept::{Kept, Number, bare, kept, required, said, words, write_bare};
use super::parts::Price;
use super::tape::Tape;
use crate::text::{Field, Shape, snake};
use fit_doc::{Item, Suppleness};
use jiff::civil::Date;
use serde::{Deserialize, Serialize};

words! {
    Sex { Male, Female, }
    Joint { Spine, Pelvis, Hip, Shoulder, Neck, }
    Concern {
        Neck, Shoulders, Arms, Hands, LowBack, Hips, Seat, Knees, Feet, BrakesFromDrops,
        BrakesFromHoods, Stretched, Cramped, Unsteady, DropsUnused, Slimmer, SmallRider, NewBar,
    }
    RuleOut {
        Cleats, SaddleHeight, SaddleTilt, SaddleSetback, SaddleWidth, Shorts, LegDifference,
        ReachScrew, BrakeStroke, Gloves, HandInHook, LeverPlace, LockedElbows, TyrePressure,
        KnownNerveTrouble, Glasses, HelmetPeak, Shrugging, SuddenMileage, OldInjury, OneSide,
        HandsOnTips, LongFrame, Headset, Tyres, Wheels, BrakesReached, Fear, WhichLimit, HoldsDrops,
        HoldsPosture, NeckAndHipLeft, EventRules, Traffic, FrameSize, Cranks,
    }
    Looked { Done, Changed, NotNow, }
    Elsewhere { NotTheBar, TheFrame, }
    Helmet { WithPeak, WithoutPeak, BareHead, }
    RideRow { Trunk, Elbow, Neck, }
    Liking { Likes, Unsure, Dislikes, }
    Corrected { Frame, Body, Seen, }
    AsBuilt { NotLookedAt, Same, Changed, }
    SendOn {
        NumbForDays, Weakness, ArmPain, Dizziness, SaddleNumbness, LegAndBladder, PainAtRest,
        Mechanic, BrakeMechanic, Organiser,
    }
    Where { Left, Right, Both, }
    Reaches { Yes, Just, No, }
    FingerPart { Pad, LastJoint, MiddleJoint, }
    HandPlace { Tops, Ramps, Hoods, BentElbowHoods, Drops, Ends, }
    Aim {
        ReachBrakes, EaseDrops, EaseNeck, EaseBack, BendElbows, Nearer, Further, LikeShoulders, Slimmer,
        EasierToSteer, HoodsStay, LikeOtherBike,
    }
    Counts { Little, Ordinary, Much, }
    Stays { LeverPlace, LeverKind, Roll, Spacers, Stem, Bar, }
}

kept! {
    Client { name: String, sex: Option<Sex>, born: Option<i16>, notes: String, }
    ClientThen { sex: Option<Sex>, born: Option<i16>, }
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
    HandCheck { cockpit: String, side: Where, reaches: Reaches, } + { part: FingerPart, }
    Share { place: HandPlace, percent: u8, }
    Interview {
        changed_before: String,
        riding: String,
        hours_per_week: Option<Number>,
        shares: Vec<Share>,
        glasses: bool,
        injuries: String,
        fears: String,
        red_flags: Vec<SendOn>,
        consent: bool,
    } + { helmet: Option<Helmet>, }
    RuledOut { item: RuleOut, looked: Looked, }
    RideNumber { row: RideRow, place: HandPlace, deg: Number, }
    RideBrake { side: Where, reaches: Reaches, }
    Ride {
        cockpit: String,
        minutes: Option<u32>,
        scores: Vec<RideScore>,
        foretold: Vec<RideNumber>,
        seen: Vec<RideNumber>,
        words: String,
        likes: Option<Liking>,
        ended: bool,
    } + { brakes: Vec<RideBrake>, as_it_came: bool, corrected: Vec<Corrected>, }
    AfterScore {
        about: Concern,
        side: Where,
        place: Option<HandPlace>,
        score: Option<u8>,
    }
    AfterNote {
        date: Day,
        km: Option<u32>,
        scores: Vec<AfterScore>,
        as_built: AsBuilt,
        words: String,
    }
    Wanted { aim: Aim, place: Option<HandPlace>, by_mm: Option<Number>, counts: Counts, }
    Bounds {} + {
        stays: Vec<Stays>,
        width_mm: Option<(Number, Number)>,
        stem_mm: Option<(Number, Number)>,
        spacers_mm: Option<Number>,
        money: Option<Price>,
        minutes: Option<u32>,
        in_stock_only: bool,
        event_rules: bool,
    }
    Veto { cockpit: String, words: String, }
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
        interview: Interview,
        ruled_out: Vec<RuledOut>,
        rides: Vec<Ride>,
        tape: Tape,
        built: Tape,
        afterwards: Vec<AfterNote>,
        elsewhere: Option<Elsewhere>,
        vetoes: Vec<Veto>,
        hour: Option<Price>,
        client_then: Option<ClientThen>,
        wanted: Vec<Wanted>,
        bounds: Bounds,
    }
}

/// What brought the client. The key is `region` from when only the body was asked about.
#[derive(Debug, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct Complaint {
    #[serde(deserialize_with = "required")]
    region: Concern,
    #[serde(deserialize_with = "required")]
    side: Where,
    #[serde(deserialize_with = "required")]
    place: Option<HandPlace>,
    #[serde(deserialize_with = "required")]
    after_minutes: Option<u32>,
    #[serde(
        default,
        skip_serializing_if = "Option::is_none",
        serialize_with = "write_bare",
        deserialize_with = "bare"
    )]
    score: Option<u8>,
    #[serde(deserialize_with = "required")]
    words: String,
    #[serde(
        default,
        skip_serializing_if = "Option::is_none",
        serialize_with = "write_bare",
        deserialize_with = "bare"
    )]
    since: Option<String>,
    #[serde(
        default,
        skip_serializing_if = "Option::is_none",
        serialize_with = "write_bare",
        deserialize_with = "bare"
    )]
    carried: Option<bool>,
}

impl Kept for Complaint {
    type Doc = fit_doc::Complaint;

    fn from_doc(doc: &Self::Doc) -> Self {
        let fit_doc::Complaint { about, side, place, after_minutes, score, words, since, carried } =
            doc;
        Self {
            region: Kept::from_doc(about),
            side: Kept::from_doc(side),
            place: Kept::from_doc(place),
            after_minutes: *after_minutes,
            score: *score,
            words: words.clone(),
            since: said(since),
            carried: said(carried),
        }
    }

    fn into_doc(self) -> Self::Doc {
        fit_doc::Complaint {
            about: self.region.into_doc(),
            side: self.side.into_doc(),
            place: self.place.into_doc(),
            after_minutes: self.after_minutes,
            score: self.score,
            words: self.words,
            since: self.since.unwrap_or_default(),
            carried: self.carried.unwrap_or_default(),
        }
    }

    fn shape() -> Shape {
        Shape::Object(vec![
            Field::new("region", Concern::shape()),
            Field::new("side", Where::shape()),
            Field::new("place", Option::<HandPlace>::shape()),
            Field::new("after_minutes", Option::<u32>::shape()),
            Field::or_none("score", u8::shape()),
            Field::new("words", String::shape()),
            Field::or_none("since", String::shape()),
            Field::or_none("carried", bool::shape()),
        ])
    }
}

/// A complaint before and after a trial; `before` is left out where nobody had asked.
#[derive(Debug, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct RideScore {
    #[serde(deserialize_with = "required")]
    about: Concern,
    #[serde(deserialize_with = "required")]
    side: Where,
    #[serde(deserialize_with = "required")]
    place: Option<HandPlace>,
    #[serde(
        default,
        skip_serializing_if = "Option::is_none",
        serialize_with = "write_bare",
        deserialize_with = "bare"
    )]
    before: Option<u8>,
    #[serde(deserialize_with = "required")]
    after: Option<u8>,
}

impl Kept for RideScore {
    type Doc = fit_doc::RideScore;

    fn from_doc(doc: &Self::Doc) -> Self {
        let fit_doc::RideScore { about, side, place, before, after } = doc;
        Self {
            about: Kept::from_doc(about),
            side: Kept::from_doc(side),
            place: Kept::from_doc(place),
            before: *before,
            after: *after,
        }
    }

    fn into_doc(self) -> Self::Doc {
        fit_doc::RideScore {
            about: self.about.into_doc(),
            side: self.side.into_doc(),
            place: self.place.into_doc(),
            before: self.before,
            after: self.after,
        }
    }

    fn shape() -> Shape {
        Shape::Object(vec![
            Field::new("about", Concern::shape()),
            Field::new("side", Where::shape()),
            Field::new("place", Option::<HandPlace>::shape()),
            Field::or_none("before", u8::shape()),
            Field::new("after", Option::<u8>::shape()),
        ])
    }
}

/// How far a joint goes: `measured(deg: 105.0)` or a word.
#[derive(Debug, Clone, Copy, Serialize, Deserialize)]
#[serde(rename_all = "snake_case", deny_unknown_fields)]
pub(crate) enum Extent {
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
pub(crate) struct Day(Date);

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

/// What is read off the body by its name in the file; weight has a key of its own, so that each key
/// names its unit.
macro_rules! lengths {
    (dimensions { $($length:ident,)+ } between_landmarks { $($between:ident,)+ }) => {
        /// A body length: a dimension under the survey's name for it, or what lies between two
        /// landmarks.
        #[derive(Debug, Clone, Copy, Serialize, Deserialize)]
        #[serde(rename_all = "snake_case")]
        #[allow(clippy::enum_variant_names, reason = "the words are the survey's")]
        pub(crate) enum Length { $($length,)+ $($between,)+ }

        impl Length {
            /// The length that an item is; none: the weight.
            const fn of(item: Item) -> Option<Self> {
                match item {
                    Item::Dimension(fit_doc::Dimension::Weight) => None,
                    $(Item::Dimension(fit_doc::Dimension::$length) => Some(Self::$length),)+
                    $(Item::$between => Some(Self::$between),)+
                }
            }

            const fn item(self) -> Item {
                match self {
                    $(Self::$length => Item::Dimension(fit_doc::Dimension::$length),)+
                    $(Self::$between => Item::$between,)+
                }
            }

            fn shape() -> Shape {
                let dimensions = vec![$(snake(stringify!($length)),)+];
                let between = vec![$(snake(stringify!($between)),)+];
                Shape::Words([dimensions, between].concat())
            }
        }
    };
}

lengths! {
    dimensions {
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
    between_landmarks {
    Notch, ShoulderToFist, ShoulderJoints,
    }
}

/// Something with its readings: of no side in particular, of the left, of the right, or the weight.
#[derive(Debug, Serialize, Deserialize)]
#[serde(rename_all = "snake_case", deny_unknown_fields)]
pub(crate) enum Reading {
    Length {
        #[serde(deserialize_with = "required")]
        of: Length,
        #[serde(deserialize_with = "required")]
        readings_mm: Vec<Number>,
    },
    Left {
        #[serde(deserialize_with = "required")]
        of: Length,
        #[serde(deserialize_with = "required")]
        readings_mm: Vec<Number>,
    },
    Right {
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
        let fit_doc::Reading { item, side, values } = doc;
        let readings_mm = Kept::from_doc(values);
        match (Length::of(*item), side) {
            // a weight of one side is refused before anything is written
            (None, _) => Self::Weight { readings_kg: readings_mm },
            (Some(of), fit_doc::Where::Both) => Self::Length { of, readings_mm },
            (Some(of), fit_doc::Where::Left) => Self::Left { of, readings_mm },
            (Some(of), fit_doc::Where::Right) => Self::Right { of, readings_mm },
        }
    }

    fn into_doc(self) -> Self::Doc {
        let weight = Item::Dimension(fit_doc::Dimension::Weight);
        let (item, side, values) = match self {
            Self::Weight { readings_kg } => (weight, fit_doc::Where::Both, readings_kg),
            Self::Length { of, readings_mm } => (of.item(), fit_doc::Where::Both, readings_mm),
            Self::Left { of, readings_mm } => (of.item(), fit_doc::Where::Left, readings_mm),
            Self::Right { of, readings_mm } => (of.item(), fit_doc::Where::Right, readings_mm),
        };
        fit_doc::Reading { item, side, values: values.into_doc() }
    }

    fn shape() -> Shape {
        let values = || Vec::<Number>::shape();
        let length = |name: &str| {
            let fields =
                vec![Field::new("of", Length::shape()), Field::new("readings_mm", values())];
            (name.to_owned(), fields)
        };
        let weight = ("weight".to_owned(), vec![Field::new("readings_kg", values())]);
        Shape::Choice(vec![length("length"), length("left"), length("right"), weight])
    }
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
            let reading = fit_doc::Reading::of(dimension, vec![1.5]);
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

    #[test]
    fn what_lies_between_landmarks_and_sides_have_names_of_their_own() {
        for (item, side, text) in [
            (Item::Notch, fit_doc::Where::Both, "length(of:notch,readings_mm:[595.0])"),
            (
                Item::ShoulderJoints,
                fit_doc::Where::Both,
                "length(of:shoulder_joints,readings_mm:[595.0])",
            ),
            (
                Item::ShoulderToFist,
                fit_doc::Where::Left,
                "left(of:shoulder_to_fist,readings_mm:[595.0])",
            ),
            (
                Item::Dimension(fit_doc::Dimension::HandLength),
                fit_doc::Where::Right,
                "right(of:hand_length,readings_mm:[595.0])",
            ),
        ] {
            let reading = fit_doc::Reading { item, side, values: vec![595.0] };
            assert_eq!(ron::to_string(&Reading::from_doc(&reading)).unwrap(), text);
            let back: Reading = ron::from_str(text).unwrap();
            assert_eq!(back.into_doc(), reading);
        }
    }
}
