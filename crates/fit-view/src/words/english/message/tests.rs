//! Every message is a sentence that says what was found and what to do, and promises nothing.

use super::*;
use fit_doc::tape::{Blamed, Of, TapeSlip};
use fit_doc::{CockpitOn, Slip, TapeDoubt, TapeReading, VisitPlace, Whole};
use fit_doc::{Keeping, LeftBehind, NotSaved};
use fit_math::bar::{BarDimensions, Family};

/// One of every message.
#[expect(clippy::too_many_lines, reason = "one of each")]
fn all() -> Vec<Message> {
    use Message as M;
    let path = || "lena.session.ron".to_owned();
    let detail = || "no space left on device".to_owned();
    let place = || Place::cockpit("deep");
    let date = fit_doc::Date::constant(2026, 3, 2);
    let visit_place = |latest| VisitPlace { index: 0, date, latest };
    let visit = || Place::from(Whole::Visit(visit_place(true)));
    let spot = Spot { line: 12, column: 5 };
    let quantity = Quantity::StemLength;
    let bent = BarDimensions::usual(Family::Round, 60.0, 190.0, 420.0).build();
    vec![
        M::FileMissing { path: path() },
        M::NotARegularFile { path: path() },
        M::FileTooLarge { path: path(), bytes: 5_300_000, most: 4_194_304 },
        M::FileEmpty { path: path() },
        M::NotText { path: path(), at_byte: 17 },
        M::OtherKindOfFile { path: path(), kind: FileKind::Picture },
        M::OtherKindOfFile { path: path(), kind: FileKind::Archive },
        M::OtherKindOfFile { path: path(), kind: FileKind::Pdf },
        M::NotASession { path: path() },
        M::NewerVersion { path: path(), needs: 3, reads: 1 },
        M::WrittenByNewer { path: path(), version: 2, reads: 1 },
        M::DanglingLink { path: path() },
        M::Damaged { path: path() },
        M::NoCheckLine { path: path() },
        M::TooManyItems { path: path(), most: 200_000 },
        M::NestedTooDeep { path: path(), spot, most: 32 },
        M::DoesNotParse { path: path(), spot, slip: Slip::NoComma { instead: None } },
        M::SessionRefused { path: path() },
        M::CannotRead { path: path(), detail: detail() },
        M::NotSaved { path: path(), why: NotSaved::System(detail()), left: None },
        M::NotSaved {
            path: path(),
            why: NotSaved::ReadsOtherwise,
            left: Some(LeftBehind { path: "a.new".into(), detail: detail() }),
        },
        M::MarkedReadOnly { path: path() },
        M::SavedUnconfirmed { path: path(), detail: detail() },
        M::NotSaved { path: path(), why: NotSaved::NotKept(detail()), left: None },
        M::NotSaved { path: path(), why: NotSaved::NoFile, left: None },
        M::NotSaved { path: path(), why: NotSaved::LeadsNowhere, left: None },
        M::Keeping(Keeping::ChangedMeanwhile { path: path() }),
        M::Keeping(Keeping::GoneMeanwhile { path: path() }),
        M::Keeping(Keeping::InTheWay { path: path() }),
        M::Keeping(Keeping::OpenElsewhere { path: path() }),
        M::Keeping(Keeping::HeldElsewhere { path: path() }),
        M::Keeping(Keeping::WrittenByEarlier { path: path(), version: 0, reads: 1 }),
        M::Keeping(Keeping::NoneEarlier { path: path() }),
        M::Keeping(Keeping::IsKept { path: path() }),
        M::Keeping(Keeping::IsEarlier { path: path(), day: fit_doc::Date::constant(2026, 4, 11) }),
        M::Keeping(Keeping::NotHeld { path: path(), detail: detail() }),
        M::Keeping(Keeping::LockShut {
            path: path(),
            lock: ".barwright/a/lock".into(),
            detail: detail(),
        }),
        M::Keeping(Keeping::LockNoFile { path: path(), lock: ".barwright/a/lock".into() }),
        M::Keeping(Keeping::TooLong { path: path(), bytes: 4_200_000, most: 4_194_304 }),
        M::Keeping(Keeping::TooMany { path: path(), most: 200_000 }),
        M::Keeping(Keeping::NearlyFull { path: path(), bytes: 3_200_000, most: 4_194_304 }),
        M::Keeping(Keeping::NewerUnread { path: path(), version: 2, reads: 1 }),
        M::Keeping(Keeping::DamagedUnder { path: path() }),
        M::Keeping(Keeping::BrokenUnder { path: path() }),
        M::Keeping(Keeping::UnderPassphrase { path: path() }),
        M::Keeping(Keeping::WrongPassphrase { path: path() }),
        M::Keeping(Keeping::TooMuchWork { path: path() }),
        M::Keeping(Keeping::NoPassphrase { path: path() }),
        M::Keeping(Keeping::StillPlain {
            path: path(),
            detail: detail(),
            unconfirmed: Some(detail()),
        }),
        M::WouldNotReadBack { path: path() },
        M::Refused { place: place(), quantity, found: f64::NAN, least: 0.0, most: 200.0 },
        M::Unusual { place: place(), quantity, found: 35.0 },
        M::NoId { place: Place::session() },
        M::IdTwice { place: place(), id: "a".into() },
        M::NoSuchBike { place: visit(), id: "b".into(), known: Vec::new() },
        M::NoSuchBike { place: visit(), id: "b".into(), known: vec!["road".into()] },
        M::NoSuchCockpit { place: visit(), id: "c".into(), known: Vec::new() },
        M::NoSuchCockpit { place: visit(), id: "c".into(), known: vec!["came".into()] },
        M::NoSuchNumber { place: place(), quantity },
        M::NoVisit,
        M::NoVisitOn { date: "2026-01-01".into(), dates: Vec::new() },
        M::NoVisitOn { date: "2026-01-01".into(), dates: vec!["2026-03-02".into()] },
        M::EmptyReading { place: Place::client(), quantity },
        M::ReadingTwice { place: Place::client(), quantity },
        M::RuledOutTwice { place: visit(), item: fit_doc::RuleOut::Glasses },
        M::SharesOverAll { place: visit(), sum: 130 },
        M::AimTwice { place: visit(), aim: fit_doc::Aim::EaseNeck },
        M::AimOfNoPlace { place: visit(), aim: fit_doc::Aim::Slimmer },
        M::AimNotByMm { place: visit(), aim: fit_doc::Aim::EaseNeck },
        M::SpanBackwards {
            place: visit(),
            quantity: fit_doc::Quantity::StemLength,
            from: 100.0,
            to: 80.0,
        },
        M::MaybeNotGrownUp { place: visit() },
        M::JointHasNoSides { place: visit(), joint: fit_doc::Joint::Neck },
        M::JointInDegrees { place: visit(), joint: fit_doc::Joint::Spine },
        M::SeenTwice { place: visit() },
        M::ReadingUnlikely {
            place: visit(),
            item: Dimension::HandLength.into(),
            side: Where::Left,
            found: 19.3,
            expected: 191.0,
            slip: Some(fit_math::body::Slip { kind: SlipKind::Centimetres, meant: 193.0 }),
        },
        M::ReadingHasNoSides { place: visit(), item: Dimension::Stature.into() },
        M::ChildNotMeasured { place: visit(), missing: vec![Dimension::Span] },
        M::SeenDoesNotFit { place: visit(), shift: None },
        M::TapeOfNothing { place: visit(), quantity },
        M::TapeMakesNoBike { place: visit() },
        M::SeenOfNothing { place: visit() },
        M::SeenContradicts { place: visit(), quantity, seen_deg: 55.0, beside_deg: 42.2 },
        M::TapeNotTaken { place: visit(), quantity, weighed: 750.0, found: 770.0 },
        M::BikeNotRead { place: visit(), only_stem: false },
        M::BikeNotRead { place: visit(), only_stem: true },
        M::BikeMoved { place: visit(), moved: None },
        M::TapeSlipped {
            place: visit(),
            typed: TapeReading { of: Of::BarBelowSaddle, value: 5.2 },
            slip: TapeSlip::CentimetresForMillimetres,
            meant: TapeReading { of: Of::BarBelowSaddle, value: 52.0 },
        },
        M::TapeDoubted {
            place: visit(),
            doubt: Box::new(TapeDoubt {
                what: Blamed::Reading(Of::BarBelowSaddle),
                value: 52.0,
                too_large_by: (-30.0, 3.0),
                standardised: -10.0,
                alike: Vec::new(),
                slip: None,
                meant: Vec::new(),
                rest_agrees: false,
                of_the_pen: false,
            }),
        },
        M::SeenDoesNotFit { place: visit(), shift: Some((fit_math::posture::Shift::Arm, -43.0)) },
        M::PutRightDiffers { place: visit(), label: "Put right".into() },
        M::BarRefused { place: place(), refusal: bent.unwrap_err() },
        M::LeverOffBar { place: place(), along_mm: 600.0, half_mm: 480.4 },
        M::LeverTurned { place: place(), up_deg: 34.0, as_before_mm: 178.2 },
        M::LeverTurned { place: place(), up_deg: -20.0, as_before_mm: 206.0 },
        M::LeverOutsideZone {
            place: place(),
            along_mm: 320.0,
            lowest_mm: 155.4,
            highest_mm: 203.6,
        },
        M::ClicksBeyond { place: place(), clicks: 39, most: 6 },
        M::SameDay { place: visit() },
        M::VisitClosed { place: visit(), later: date },
        M::WasRidden { place: place(), running: true },
        M::WasRidden { place: place(), running: false },
        M::FollowsBefore { place: visit(), date, earlier: date },
        M::TrialRuns { place: visit(), label: "Deep".into() },
        M::VisitStays { place: visit() },
        M::ReadingsApart {
            place: visit(),
            item: Dimension::Stature.into(),
            apart: 47.0,
            most: 11.2,
        },
        M::ReadAsTwo { found: "409,5".into(), meant: "409.5".into() },
        M::NoName { place: Place::client() },
        M::LabelTwice { place: place(), label: "deep".into() },
        M::CockpitImpossible {
            place: place(),
            clash: CockpitClash::BladeBackwards { from_mm: 90.0, to_mm: 40.0 },
        },
        M::CockpitImpossible {
            place: Place::from(Whole::Cockpit {
                on: CockpitOn::Came(visit_place(false)),
                label: "deep".into(),
            }),
            clash: CockpitClash::SaddleTooFarBehind { behind_mm: 520.4, height_mm: 310.0 },
        },
        M::CockpitImpossible { place: place(), clash: CockpitClash::HandsAstray },
        M::ClampMismatch { place: place(), bar_mm: 26.0, stem_mm: 31.8 },
        M::BodyImpossible {
            place: visit(),
            clash: vec![Dimension::AcromialHeight, Dimension::TrochanterionHeight],
            length_mm: -20.4,
        },
        M::BodyImpossible { place: visit(), clash: vec![Dimension::FootLength], length_mm: 1300.0 },
        M::LegCannotTurn { place: place(), short_by_mm: 11.6, folded: false },
        M::LegCannotTurn { place: place(), short_by_mm: 0.2, folded: true },
    ]
}

#[test]
fn what_is_not_expected_is_not_said_to_be_meant() {
    let quantity = Quantity::Body(Dimension::Span.into());
    let said = |expected| refused(&Place::client(), quantity, 165.0, expected);
    assert!(said((794.0, 2651.0)).contains("Did you mean 1650"));
    assert!(!said((1700.0, 2651.0)).contains("Did you mean"));
}

#[test]
fn messages_are_sentences_and_one_by_itself_has_no_full_stop() {
    for message in all() {
        let text = super::message(&message);
        let first = text.chars().next().unwrap();
        assert!(first.is_uppercase() || text.starts_with("lena."), "{text}");
        let several = text.contains(". ");
        let ended = text.ends_with('.') || text.ends_with(':');
        assert_eq!(several, ended, "{text}");
        assert!(!text.contains("  ") && !text.contains('\n') && !text.contains('_'), "{text}");
    }
}

#[test]
fn what_was_found_and_what_was_expected_are_both_said() {
    let of = |message: Message| super::message(&message);
    let place = || Place::cockpit("deep");
    let quantity = Quantity::StemLength;
    let refused =
        of(Message::Refused { place: place(), quantity, found: 12.0, least: 40.0, most: 140.0 });
    assert_eq!(
        refused,
        "Cockpit “deep”: stem length is 12\u{a0}mm, which cannot be right; expected 40 to \
         140\u{a0}mm. Did you mean 120\u{a0}mm? Measure again, and look at the unit."
    );
    // not everything is measured, and some things are several
    let of_quantity = |quantity, found| {
        let refused =
            of(Message::Refused { place: place(), quantity, found, least: 0.0, most: 9.0 });
        refused + &of(Message::Unusual { place: place(), quantity, found })
    };
    let spacers = of_quantity(Quantity::Spacers, 155.0);
    assert!(spacers.contains("spacers under the stem are 155"), "{spacers}");
    assert!(spacers.contains("are seldom met"), "{spacers}");
    for (quantity, advice) in [
        (Quantity::ComplaintScore, "sk the client again"),
        (Quantity::BirthYear, "sk the client again"),
        (Quantity::LeverClicks, "ount again"),
        (Quantity::LeverAngle, "ook it up again"),
    ] {
        let said = of_quantity(quantity, 99.0);
        assert_eq!(said.matches(advice).count(), 2, "{said}");
        assert!(!said.contains("easure"), "{said}");
    }
    let clicks = |clicks| of(Message::ClicksBeyond { place: place(), clicks, most: 0 });
    assert!(clicks(1).contains("1 click is said") && clicks(2).contains("2 clicks are said"));
    let unusual = of(Message::Unusual { place: place(), quantity, found: 35.5 });
    assert!(unusual.contains("35.5\u{a0}mm") && unusual.contains("70 to 120"), "{unusual}");
    let dates = vec!["2026-03-02".to_owned(), "2026-09-14".to_owned()];
    let none = of(Message::NoVisitOn { date: "2026-01-01".into(), dates });
    assert!(none.contains("2026-03-02, 2026-09-14"), "{none}");
}

#[test]
fn the_same_cockpit_on_the_bike_and_in_a_visit_is_told_apart() {
    let date = fit_doc::Date::constant(2026, 4, 11);
    let label = || "As it came".to_owned();
    let of = |on| names::place(&Whole::Cockpit { on, label: label() }.into());
    let visit = |latest| VisitPlace { index: 0, date, latest };
    let bike = CockpitOn::Bike { index: 0, name: "Road bike".into() };
    assert_eq!(of(bike), "Bike “Road bike”, the cockpit on it");
    assert_eq!(of(CockpitOn::Came(visit(true))), "Cockpit “As it came”");
    let earlier = "Visit of 2026-04-11, cockpit “As it came”";
    assert_eq!(of(CockpitOn::Came(visit(false))), earlier);
    assert_eq!(of(CockpitOn::Bench { visit: visit(false), position: 2 }), earlier);
    // what is planned was not read off a bike
    let on = CockpitOn::Bench { visit: visit(true), position: 0 };
    let planned = Whole::Cockpit { on, label: label() }.into();
    assert!(super::unusual(&planned, Quantity::Spacers, 40.0).ends_with("maker allow it"));
    assert!(!super::unusual(&planned, Quantity::StemLength, 35.0).contains("measure"));
    let left = Place::cockpit("deep").field("levers").field("left").field("along_mm");
    assert_eq!(names::place(&left), "Cockpit “deep”, left side");
}

#[test]
fn nothing_is_promised_diagnosed_or_scored() {
    let texts = all().iter().map(super::message).collect::<String>().to_lowercase();
    for word in ["pain", "stability", "diagnos", "guarantee", "optimal", "perfect", "score"] {
        assert!(!texts.contains(word), "{word}");
    }
}
