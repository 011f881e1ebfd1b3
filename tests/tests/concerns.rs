//! The trade's table, written out by hand: for every concern what is ruled out first, what is tried
//! then and how large it is, what must be said, what can come of it, and who else is asked, each in
//! its order.
//!
//! Common practice, no source. Judgement: the rows of arms, hips, knees and feet, who else is asked
//! where nobody is hurt, and what can come of each.

use fit_doc::concern::{Attempt as A, Outcome as O, Said as S};
use fit_doc::{Concern as C, HandPlace, RuleOut as R, SendOn as To};
use fit_view::words::{English, VisitWords};

/// Something that is tried, with the sizes and conditions that its text must give.
type Tried = (A, &'static [&'static str]);

/// A row of the table.
struct Row {
    of: C,
    first: &'static [R],
    then: &'static [Tried],
    said: &'static [S],
    comes: &'static [O],
    asked: &'static [To],
    /// Bars wait for the saddle.
    saddle: bool,
}

const TURN_IN: Tried = (A::LeverTurnedIn, &["turned in 3–5°"]);
const SCREW: Tried = (A::ReachScrew, &["reach screw", "5–15 mm nearer"]);
const UP: Tried = (A::BarUp, &["up 10–20 mm"]);
const NEARER: Tried = (A::Nearer, &["10 mm nearer"]);
const CRANKS: Tried = (A::ShorterCranks, &["shorter cranks"]);
const SADDLE_HEIGHT: Tried = (A::SaddleHeight, &["saddle height", "5 mm at a time"]);

const ANY: &[O] = &[O::Cockpit, O::AsItIs, O::NotTheBar];

const ROWS: [Row; 18] = [
    Row {
        of: C::BrakesFromDrops,
        first: &[R::ReachScrew, R::BrakeStroke, R::Gloves, R::HandInHook],
        then: &[
            SCREW,
            (A::HandFurtherForward, &["further forward in the hook"]),
            (A::LeverDown, &["5–10 mm down the bend", "3–6 mm nearer", "tape"]),
            (A::ShallowerShorterBar, &["shallower, shorter bar", "0–2 mm", "5–8 mm", "10°"]),
            (A::SmallHandLever, &["small hands"]),
        ],
        said: &[S::NothingAtTheStem, S::LessStroke],
        comes: &[O::Cockpit, O::AsItIs],
        asked: &[To::BrakeMechanic],
        saddle: false,
    },
    Row {
        of: C::BrakesFromHoods,
        first: &[R::ReachScrew, R::BrakeStroke, R::Gloves, R::LeverPlace],
        then: &[
            // computed: the blade turns about a pivot under the hand
            (A::ReachScrewFromHoods, &["reach screw", "1 mm at most"]),
            TURN_IN,
            (A::OtherLever, &["another lever"]),
        ],
        said: &[S::NotTheBarFromHoods, S::LessStroke],
        comes: &[O::Cockpit, O::NotTheBar],
        asked: &[To::BrakeMechanic],
        saddle: false,
    },
    Row {
        of: C::Hands,
        first: &[
            R::SaddleTilt,
            R::SaddleHeight,
            R::SaddleSetback,
            R::LockedElbows,
            R::TyrePressure,
            R::KnownNerveTrouble,
        ],
        then: &[
            (A::SaddleLevel, &["tilt", "0…−1°"]),
            (A::SaddleBack, &["saddle back 5–10 mm"]),
            (A::FlatterTransition, &["hood", "10° at most"]),
            TURN_IN,
            (A::NearerIfLocked, &["10 mm nearer", "if the elbows", "less than 10°"]),
            UP,
            (A::ThickerTape, &["3–4 mm"]),
        ],
        said: &[S::LoadOnHands],
        comes: ANY,
        asked: &[To::NumbForDays, To::Weakness],
        saddle: true,
    },
    Row {
        of: C::Neck,
        first: &[R::Glasses, R::HelmetPeak, R::Shrugging, R::SuddenMileage],
        then: &[
            (A::BarUpForNeck, &["up 10–20 mm", "stiff or older 30–40"]),
            NEARER,
            (A::ShallowerDrop, &["drop 15–30 mm less"]),
        ],
        said: &[S::BarAloneRarely],
        comes: ANY,
        asked: &[To::ArmPain, To::Dizziness],
        saddle: true,
    },
    Row {
        of: C::Shoulders,
        first: &[R::SaddleTilt, R::OldInjury, R::OneSide],
        then: &[
            (A::NearerToBendElbows, &["elbows to 15–25°", "10–20 mm nearer"]),
            (A::BarWiderOrNarrower, &["towards the shoulders", "20 mm"]),
            TURN_IN,
            (A::BarUpALittle, &["up 10 mm"]),
        ],
        said: &[S::BothSides],
        comes: ANY,
        asked: &[To::ArmPain, To::Weakness],
        saddle: true,
    },
    Row {
        of: C::Seat,
        first: &[R::SaddleHeight, R::SaddleTilt, R::SaddleWidth, R::Shorts, R::Cleats],
        then: &[
            SADDLE_HEIGHT,
            (A::SaddleLevel, &["tilt", "0…−1°"]),
            (A::SaddleSetback, &["forward or back", "5 mm at a time"]),
            (
                A::HoodsIfSliding,
                &[
                    "the bar last",
                    "hoods up 10–20 mm or back 10 mm",
                    "if the client slides forward",
                ],
            ),
        ],
        said: &[S::SaddleFirst],
        comes: &[O::NotTheBar, O::Cockpit],
        asked: &[To::SaddleNumbness],
        saddle: true,
    },
    Row {
        of: C::LowBack,
        first: &[R::SaddleHeight, R::SaddleTilt, R::LegDifference],
        then: &[UP, NEARER, (A::FurtherIfCramped, &["10 mm further", "if cramped"]), CRANKS],
        said: &[S::SaddleFirst, S::WatchTheHip],
        comes: ANY,
        asked: &[To::LegAndBladder],
        saddle: true,
    },
    Row {
        of: C::Stretched,
        first: &[R::SaddleSetback, R::HandsOnTips, R::LongFrame],
        then: &[
            (A::LeverBack, &["levers back"]),
            (A::ShorterReachBar, &["80 mm", "if it is 85 or more", "drops or brakes are bad too"]),
            (A::StemShorter, &["else", "10 mm shorter, then 20 mm"]),
            (A::BarUpShortens, &["up 10 mm", "3 mm nearer"]),
        ],
        said: &[S::ShortStem],
        comes: &[O::Cockpit, O::AsItIs, O::TheFrame],
        asked: &[To::Mechanic],
        saddle: true,
    },
    Row {
        of: C::Cramped,
        first: &[R::SaddleSetback, R::SaddleHeight],
        then: &[
            (A::StemLonger, &["stem 10 mm longer"]),
            (A::BarDown, &["down 5–10 mm"]),
            (A::LongerReachBar, &["reach 10 mm more"]),
        ],
        said: &[S::WatchTheHip],
        comes: &[O::Cockpit, O::AsItIs, O::TheFrame],
        asked: &[To::Mechanic],
        saddle: true,
    },
    Row {
        of: C::Unsteady,
        first: &[R::Headset, R::Tyres, R::Wheels, R::BrakesReached, R::Fear],
        then: &[
            (A::BrakesAndDropsFirst, &["first brakes and drops"]),
            (A::WiderBar, &["20 mm wider"]),
        ],
        said: &[S::WobbleFirst, S::StemNotUnder80],
        comes: &[O::NotTheBar, O::Cockpit, O::AsItIs],
        asked: &[To::Mechanic],
        saddle: false,
    },
    Row {
        of: C::DropsUnused,
        first: &[R::WhichLimit, R::HoldsDrops],
        then: &[
            (A::RollTailDown, &["5–10° to the rear"]),
            SCREW,
            (A::ShallowerDropHoodsHeld, &["drop 20–30 mm less", "hoods where they are"]),
            UP,
            (A::Flare, &["flare"]),
            CRANKS,
        ],
        said: &[S::RaisingLiftsHoods],
        comes: ANY,
        asked: &[To::BrakeMechanic],
        saddle: true,
    },
    Row {
        of: C::Slimmer,
        first: &[R::HoldsPosture, R::NeckAndHipLeft, R::EventRules, R::Traffic],
        then: &[
            (A::BentElbows, &["bent elbows", "costs nothing"]),
            TURN_IN,
            (A::NarrowerBar, &["20 mm narrower at a time", "shoulders less 60"]),
            (A::BarDownStepwise, &["down 10 mm at a time"]),
        ],
        said: &[S::StopWhen],
        comes: &[O::Cockpit, O::AsItIs],
        asked: &[To::Organiser],
        saddle: true,
    },
    Row {
        of: C::SmallRider,
        first: &[R::FrameSize, R::Cranks],
        then: &[
            (A::SmallBar, &["reach 70 mm, drop 110 mm at most", "width 340–380 mm"]),
            (A::SmallHandLever, &["small hands"]),
        ],
        said: &[S::MeasureChildren],
        comes: &[O::Cockpit, O::TheFrame],
        asked: &[To::Mechanic],
        saddle: false,
    },
    Row {
        of: C::NewBar,
        first: &[],
        then: &[(A::MatchHoods, &["hoods to where they were"]), (A::KeepTheRest, &["the rest"])],
        said: &[S::KeepIsAnAnswer],
        comes: &[O::AsItIs, O::Cockpit],
        asked: &[To::Mechanic],
        saddle: false,
    },
    // judgement from here
    Row {
        of: C::Arms,
        first: &[R::SaddleTilt, R::LockedElbows, R::TyrePressure, R::OneSide],
        then: &[TURN_IN, NEARER, UP],
        said: &[S::LoadOnHands, S::BothSides],
        comes: ANY,
        asked: &[To::ArmPain, To::Weakness],
        saddle: true,
    },
    Row {
        of: C::Hips,
        first: &[R::SaddleHeight, R::SaddleSetback, R::LegDifference, R::Cranks],
        then: &[SADDLE_HEIGHT, CRANKS, UP],
        said: &[S::WatchTheHip, S::SaddleFirst],
        comes: &[O::NotTheBar, O::Cockpit],
        asked: &[To::PainAtRest],
        saddle: true,
    },
    Row {
        of: C::Knees,
        first: &[R::Cleats, R::SaddleHeight, R::SaddleSetback, R::LegDifference],
        then: &[(A::Cleats, &["cleats"]), SADDLE_HEIGHT, (A::SaddleBack, &["saddle back 5–10 mm"])],
        said: &[S::NotTheHands],
        comes: &[O::NotTheBar],
        asked: &[To::PainAtRest],
        saddle: true,
    },
    Row {
        of: C::Feet,
        first: &[R::Cleats, R::SaddleHeight],
        then: &[(A::Cleats, &["cleats"]), SADDLE_HEIGHT],
        said: &[S::NotTheHands],
        comes: &[O::NotTheBar],
        asked: &[To::NumbForDays, To::PainAtRest],
        saddle: true,
    },
];

#[test]
fn every_concern_has_its_row() {
    for of in C::ALL {
        assert_eq!(ROWS.iter().filter(|row| row.of == of).count(), 1, "{of:?}");
    }
}

#[test]
fn every_row_is_the_trade_s_in_its_order() {
    for row in &ROWS {
        let (of, advice) = (row.of, row.of.advice());
        let then: Vec<A> = row.then.iter().map(|(tried, _)| *tried).collect();
        assert_eq!(advice.rule_out, row.first, "{of:?}");
        assert_eq!(advice.attempts, then, "{of:?}");
        assert_eq!(advice.said, row.said, "{of:?}");
        assert_eq!(advice.outcomes, row.comes, "{of:?}");
        assert_eq!(advice.send_on, row.asked, "{of:?}");
        assert_eq!(advice.saddle_first, row.saddle, "{of:?}");
    }
}

/// A step says how large it is, and when it is one.
#[test]
fn every_step_is_worded_with_its_size_and_its_condition() {
    for (tried, pieces) in ROWS.iter().flat_map(|row| row.then) {
        let text = English.attempt(*tried);
        for piece in *pieces {
            assert!(text.contains(piece), "“{piece}” in “{text}”");
        }
    }
    // what is the neck's alone, and what is said of the reach screw from the drops alone
    let has =
        |piece: &str| A::ALL.into_iter().filter(|of| English.attempt(*of).contains(piece)).count();
    assert_eq!((has("stiff or older"), has("5–15 mm nearer")), (1, 1));
}

/// What must be said gives its numbers too.
#[test]
fn what_must_be_said_has_its_numbers() {
    for (said, pieces) in [
        (S::NothingAtTheStem, &["Stem, spacers and roll", "0 mm"][..]),
        (S::LessStroke, &["less stroke", "15 mm", "on the stand"]),
        (S::NotTheBarFromHoods, &["2 mm", "not the bar"]),
        (S::BarAloneRarely, &["deep", "compact", "2°", "rarely"]),
        (S::BothSides, &["left and right"]),
        (S::SaddleFirst, &["Not the bar until the saddle is excluded"]),
        (S::ShortStem, &["under 70 mm on the road, 50 mm off it", "frame"]),
        (S::WatchTheHip, &["hip"]),
        (S::WobbleFirst, &["mechanic first", "No number"]),
        (S::StemNotUnder80, &["road", "under 80 mm"]),
        (S::RaisingLiftsHoods, &["lifts the hoods by the same"]),
        (S::StopWhen, &["brakes, hip or neck run out"]),
        (S::MeasureChildren, &["never estimated", "grow"]),
        (S::KeepIsAnAnswer, &["keep what there is"]),
    ] {
        let text = English.must_say(said);
        for piece in pieces {
            assert!(text.contains(piece), "“{piece}” in “{text}”");
        }
    }
}

/// On the hoods raise and come nearer; in the drops the drop first; both: raise first.
#[test]
fn a_neck_is_met_where_it_shows() {
    let neck = |place| C::Neck.attempts(place);
    assert_eq!(neck(Some(HandPlace::Hoods)), [A::BarUpForNeck, A::Nearer]);
    assert_eq!(neck(Some(HandPlace::Drops))[0], A::ShallowerDrop);
    assert_eq!(neck(None), [A::BarUpForNeck, A::Nearer, A::ShallowerDrop]);
}
