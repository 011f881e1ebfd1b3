//! From tape through the document: a bike whose every number is known is read with the tape, the
//! session says something else of it, and the program finds the bike again, or the slip.

#![expect(clippy::expect_used, reason = "a failure here is a failed test")]
#![allow(dead_code, reason = "the helpers are shared with other tests")]

mod weighing;

use acceptance::tape::laid;
use fit_doc::tape::{BarKnown, Laid, Of, TapeSlip};
use fit_doc::{
    Bike, Cockpit, Edit, Frame, HandPlace, Place, Quantity, Session, Tape, TapeEdit, TapeItem,
    TapeReading, UndoStep, Visit, WidthHow, geometry,
};
use serde_json::Value;
use std::sync::Arc;
use weighing::{barwright, json_of, saved, twins};

/// What was typed comes back to this, mm and degrees.
const EXACT: f64 = 0.1;
/// What was taken over, in whole mm and degrees, keeps the hands to this, mm: less than a tape tells.
const TAKEN_MM: f64 = 2.0;

/// The usual walk.
fn twelve() -> Vec<Of> {
    TapeItem::ALL[..TapeItem::USUAL].iter().map(|item| item.usual()).collect()
}

/// A visit whose bike was read without error, and that bike.
struct Read {
    session: Session,
    truth: (Bike, Cockpit),
}

/// The demo's bike, or another way to set it up, read with the tape.
fn read(of: &[Of], nose_up_deg: f64, set_up: impl Fn(&mut Bike, &mut Cockpit)) -> Read {
    let mut session = twins();
    let visit = Arc::make_mut(session.visits.last_mut().expect("a visit"));
    let bike = session.bikes.iter_mut().find(|bike| bike.id == visit.bike).expect("its bike");
    set_up(bike, &mut visit.as_it_came);
    let readings = laid(&bike.frame, &visit.as_it_came, of.iter().copied(), nose_up_deg);
    visit.tape = Tape { readings: readings.expect("a bike"), nose_up_deg, ..Tape::default() };
    let truth = (bike.clone(), visit.as_it_came.clone());
    Read { session, truth }
}

impl Read {
    fn visit(&mut self) -> &mut Visit {
        Arc::make_mut(self.session.visits.last_mut().expect("a visit"))
    }

    /// The session now says other things of the bike than it is.
    fn mistaken(mut self) -> Self {
        let bike = &mut self.session.bikes[0];
        bike.frame.stack_mm += 23.0;
        bike.frame.reach_mm -= 14.0;
        let came = &mut self.visit().as_it_came;
        came.saddle.height_mm -= 31.0;
        came.saddle.nose_behind_mm += 12.0;
        came.saddle.sit_from_nose_mm -= 8.0;
        came.saddle.tilt_deg += 1.5;
        came.roll_deg += 2.5;
        let levers = came.levers.as_mut().expect("levers");
        levers.left.along_mm += 9.0;
        levers.right.along_mm += 9.0;
        self
    }

    fn reading(&mut self, item: TapeItem) -> &mut TapeReading {
        let readings = &mut self.visit().tape.readings;
        readings.iter_mut().find(|r| TapeItem::from(r.of) == item).expect("it was read")
    }

    fn json(&self) -> Value {
        json_of(&saved(&self.session).1)
    }

    /// Where bar and hands truly are, bike frame.
    fn true_point(&self, what: &str) -> [f64; 2] {
        let (bike, came) = &self.truth;
        let built = geometry::cockpit(&Place::cockpit("truth"), &bike.frame, came).expect("built");
        let hands = |place| built.grips(place).expect("hands").midway().truncate();
        let point = match what {
            "clamp" => built.clamp(),
            "hoods" => hands(HandPlace::Hoods),
            _ => hands(HandPlace::Drops),
        };
        point.to_array()
    }
}

fn json_saved(session: &Session) -> Value {
    let (_folder, file) = saved(session);
    json_of(&file)
}

fn near(found: &Value, truth: f64, within: f64, what: &str) {
    let found = found.as_f64().unwrap_or_else(|| panic!("{what}: {found}"));
    assert!((found - truth).abs() < within, "{what}: {found}, truly {truth}");
}

fn found_again(read: &Read, what: &str) {
    let tape = &json_saved(&read.session)["tape"];
    assert_eq!(tape["suspicion"], Value::Null, "{what}");
    assert_eq!(tape["open"], Value::Array(Vec::new()), "{what}");
    let found = &tape["found"];
    for point in ["clamp", "hoods", "drops"] {
        let truth = read.true_point(point);
        for axis in 0..2 {
            near(&found[point]["at"][axis], truth[axis], EXACT, &format!("{what} {point} {axis}"));
        }
    }
    let (bike, came) = &read.truth;
    let along_mm = came.levers.as_ref().expect("levers").right.along_mm;
    for (key, truth) in [
        ("saddle_height", came.saddle.height_mm),
        ("nose_behind", came.saddle.nose_behind_mm),
        ("sit_from_nose", came.saddle.sit_from_nose_mm),
        ("tilt", came.saddle.tilt_deg),
        ("roll", came.roll_deg),
        ("lever_along", along_mm),
        ("frame_stack", bike.frame.stack_mm),
        ("frame_reach", bike.frame.reach_mm),
        ("bar_reach", came.bar.reach_mm),
        ("bar_drop", came.bar.drop_mm),
    ] {
        near(&found[key]["value"], truth, EXACT, &format!("{what} {key}"));
        assert!(found[key]["sd"].as_f64().is_some_and(|sd| sd > 0.1), "{what} {key}");
    }
    for row in tape["readings"].as_array().expect("rows") {
        near(&row["residual"], 0.0, EXACT, &format!("{what} {}", row["of"]));
    }
}

#[test]
fn a_bike_read_without_error_is_found_to_a_tenth_of_a_millimetre() {
    let as_it_is = |_: &mut Bike, _: &mut Cockpit| {};
    found_again(&read(&twelve(), 0.0, as_it_is).mistaken(), "as it is");
    found_again(&read(&twelve(), 2.0, as_it_is).mistaken(), "nose up");
    let turned = |_: &mut Bike, came: &mut Cockpit| came.roll_deg = -4.0;
    let slant: Vec<Of> =
        TapeItem::ALL.iter().map(|item| item.ways()[item.ways().len() - 1]).collect();
    found_again(&read(&slant, -1.5, turned).mistaken(), "slant, tip, centres");
    let upright = |bike: &mut Bike, came: &mut Cockpit| {
        bike.frame.stack_mm = 640.0;
        came.spacers_mm = 30.0;
        came.stem.angle_deg = 17.0;
        came.saddle.tilt_deg = -3.0;
    };
    found_again(&read(&twelve(), 0.0, upright).mistaken(), "upright");
}

#[test]
fn the_four_of_the_saddle_stand_alone_until_something_checks_them() {
    let alone = |read: &Read| -> Vec<String> {
        let json = json_saved(&read.session);
        let rows = json["tape"]["readings"].as_array().expect("rows").clone();
        let alone = rows.iter().filter(|row| row["alone"] == true);
        alone.map(|row| row["of"].as_str().expect("a name").to_owned()).collect()
    };
    let mut walk = read(&twelve(), 0.0, |_, _| {});
    let saddle = ["saddle_height", "nose_behind_axle", "nose_to_wide", "saddle_tilt"];
    assert_eq!(alone(&walk), saddle);
    walk.visit().tape.frame_known = true;
    assert!(!alone(&walk).contains(&"saddle_height".to_owned()), "the frame checks it");
}

#[test]
fn taking_over_puts_bar_and_hands_where_they_are_in_one_step() {
    let walk = read(&twelve(), 1.0, |_, _| {}).mistaken();
    let before = walk.session.clone();
    let bench_saddle = before.visits.last().expect("a visit").bench[0].saddle;
    let edit = Edit::TakeTapeOver { visit: before.visits.len() - 1 };
    let (after, step) = edit.apply(&before).expect("taken over");
    let UndoStep::TapeTaken { of, .. } = step else { panic!("{step:?}") };
    assert!(of.contains(&Quantity::FrameStack) && of.contains(&Quantity::LeverAlong), "{of:?}");
    let json = json_saved(&after);
    let came = &json["cockpits"][0];
    for axis in 0..2 {
        near(&came["clamp"][axis], walk.true_point("clamp")[axis], TAKEN_MM, "clamp");
        for place in ["hoods", "drops"] {
            // the demo's levers are not level, the middle of both hands is
            let grip = &came["places"][place];
            let of = |hand: &str| grip[hand]["grip"][axis].as_f64();
            let middle = match (of("left"), of("right")) {
                (Some(left), Some(right)) => Value::from(f64::midpoint(left, right)),
                _ => grip["grip"][axis].clone(),
            };
            near(&middle, walk.true_point(place)[axis], TAKEN_MM, place);
        }
    }
    let now = after.visits.last().expect("a visit");
    let truth = &walk.truth.1;
    // no decimals that nobody read
    let (frame, came) = (&after.bikes[0].frame, &now.as_it_came);
    let right = came.levers.as_ref().expect("levers").right.along_mm;
    for written in [frame.stack_mm, frame.reach_mm, came.saddle.height_mm, came.roll_deg, right] {
        assert_eq!(written, written.round());
    }
    assert_eq!(came.saddle.tilt_deg, truth.saddle.tilt_deg, "as it was read, in half degrees");
    // how the readings go together is said of what was found, with its decimals
    let found = |of: &Value| of["tape"]["readings"].clone();
    assert_eq!(found(&json), found(&json_saved(&before)));
    assert_eq!(now.as_it_came.bar, truth.bar, "a catalogue's bar stays the catalogue's");
    let [left, right] = [truth, &now.as_it_came].map(|of| {
        let levers = of.levers.as_ref().expect("levers");
        levers.left.along_mm - levers.right.along_mm
    });
    assert!((left - right).abs() < 1e-9, "as far apart as they were");
    // the bench had another saddle than the mistaken one, so it keeps its own
    assert_eq!(now.bench[0].saddle, bench_saddle);
    // again changes nothing
    let visit = before.visits.len() - 1;
    let again = Edit::TakeTapeOver { visit }.apply(&after).expect("again");
    assert!(matches!(&again.1, UndoStep::TapeTaken { of, .. } if of.is_empty()), "{:?}", again.1);
}

#[test]
fn a_saddle_taken_over_is_that_of_every_candidate_that_had_it() {
    let mut walk = read(&twelve(), 0.0, |_, _| {}).mistaken();
    let visit = walk.visit();
    visit.bench[0].saddle = visit.as_it_came.saddle;
    let edit = Edit::TakeTapeOver { visit: walk.session.visits.len() - 1 };
    let (after, _) = edit.apply(&walk.session).expect("taken over");
    let now = after.visits.last().expect("a visit");
    assert_eq!(now.bench[0].saddle, now.as_it_came.saddle);
    near(&now.as_it_came.saddle.height_mm.into(), walk.truth.1.saddle.height_mm, EXACT, "height");
}

#[test]
fn a_bar_that_is_no_catalogue_s_takes_what_was_found_of_it() {
    let mut all = twelve();
    all.extend(TapeItem::ALL[TapeItem::USUAL..].iter().map(|item| item.usual()));
    let mut walk = read(&all, 0.0, |_, _| {});
    let truth = walk.truth.1.bar.clone();
    let visit = walk.visit();
    visit.tape.bar_known = BarKnown::FamilyOnly;
    visit.as_it_came.bar.reach_mm += 6.0;
    visit.as_it_came.bar.drop_mm -= 9.0;
    visit.as_it_came.bar.width_mm -= 30.0;
    let edit = Edit::TakeTapeOver { visit: walk.session.visits.len() - 1 };
    let (after, _) = edit.apply(&walk.session).expect("taken over");
    let bar = &after.visits.last().expect("a visit").as_it_came.bar;
    // what is known of its family still pulls a little
    near(&bar.reach_mm.into(), truth.reach_mm, 1.5, "reach");
    near(&bar.drop_mm.into(), truth.drop_mm, 1.5, "drop");
    near(&bar.width_mm.into(), truth.width_mm, 1.5, "width");
    assert!(bar.id.ends_with("-own") && bar.shelf.in_stock == 0, "{}", bar.id);
}

#[test]
fn only_what_was_read_is_taken_over() {
    let saddle = &twelve()[..4];
    let mut walk = read(saddle, 0.0, |_, _| {}).mistaken();
    let tape = &json_saved(&walk.session)["tape"];
    near(&tape["found"]["saddle_height"]["value"], 750.0, EXACT, "saddle height");
    assert_eq!(tape["found"]["clamp"], Value::Null);
    assert_eq!(tape["suspicion"], Value::Null);
    let before = walk.visit().as_it_came.clone();
    let frame = walk.session.bikes[0].frame.clone();
    let edit = Edit::TakeTapeOver { visit: walk.session.visits.len() - 1 };
    let (after, _) = edit.apply(&walk.session).expect("taken over");
    let came = &after.visits.last().expect("a visit").as_it_came;
    assert_eq!(came.saddle, walk.truth.1.saddle);
    assert_eq!((came.roll_deg, &came.levers), (before.roll_deg, &before.levers));
    assert_eq!(after.bikes[0].frame, frame);
}

/// What `check` says of a session beside its missing check line.
fn checked(session: &Session) -> Vec<String> {
    let (_folder, file) = saved(session);
    let run = barwright(["check", &file]);
    assert_eq!(run.status, 0, "{}{}", run.out, run.err);
    run.out.lines().skip(1).map(|line| line.trim().to_owned()).collect()
}

/// Whatever the readings say of frame or saddle beyond their doubt, and that nobody read anything.
#[test]
fn a_bike_that_is_not_weighed_as_it_was_read_is_asked_about() {
    let said = |session: &Session| {
        let about = |line: &String| line.contains("not taken over") || line.contains("middle size");
        checked(session).into_iter().filter(about).collect::<Vec<_>>()
    };
    let walk = read(&twelve(), 0.0, |_, _| {});
    assert_eq!(said(&walk.session), [""; 0], "it is as it was read");
    let stack = |session: &Session, by: f64| {
        let mut session = session.clone();
        session.bikes[0].frame.stack_mm += by;
        session
    };
    assert_eq!(said(&stack(&walk.session, 2.5)), [""; 0], "within their doubt");
    let [line] = &said(&stack(&walk.session, -15.0))[..] else { panic!("one line") };
    let was = walk.session.bikes[0].frame.stack_mm;
    let wanted = format!("frame stack is {} mm there and {was} mm by the tape", was - 15.0);
    assert!(line.replace('\u{a0}', " ").contains(&wanted), "{line}");
    let mut tilted = walk.session.clone();
    Arc::make_mut(&mut tilted.visits[0]).as_it_came.roll_deg += 6.0;
    let [line] = &said(&tilted)[..] else { panic!("one line") };
    assert!(line.contains("roll of the bar is 6° there and 0° by the tape"), "{line}");

    // of a frame that stands for one that nobody measured
    let mut session = walk.session.clone();
    session.bikes[0].frame = Frame::MIDDLE_SIZE;
    Arc::make_mut(&mut session.visits[0]).tape = Tape::default();
    let [line] = &said(&session)[..] else { panic!("one line") };
    assert!(line.contains("a bike of middle size stands for the client’s"), "{line}");
    // the saddle's four say nothing of where the bar is
    let came = session.visits[0].as_it_came.clone();
    let read = laid(&session.bikes[0].frame, &came, twelve()[..4].to_vec(), 0.0);
    Arc::make_mut(&mut session.visits[0]).tape.readings = read.expect("a bike");
    assert_eq!(said(&session).len(), 1);
    // it may be of that size, and be known
    Arc::make_mut(&mut session.visits[0]).tape.frame_known = true;
    assert_eq!(said(&session), [""; 0]);
}

/// The reading's line in the file.
fn line_of(session: &Session, key: &str) -> String {
    let text = fit_file::session_text(session, "client").expect("text");
    let at = text.find(key).unwrap_or_else(|| panic!("{key} stands there"));
    format!("line {},", 1 + text[..at].matches('\n').count())
}

#[test]
fn the_usual_slips_are_each_named_once_at_their_line_with_what_would_agree() {
    let mut with_width = twelve();
    with_width.push(Of::WidthAtHoods(WidthHow::CentreToCentre));
    let walk = |of: &[Of]| read(of, 0.0, |_, _| {});
    assert_eq!(checked(&walk(&with_width).session), [""; 0]);

    let mut cm = walk(&twelve());
    cm.reading(TapeItem::NoseToBar).value /= 10.0;
    // the further down the bar, the more a slant tape reads
    let mut low = read(&twelve(), 0.0, |bike, _| bike.frame.stack_mm -= 50.0);
    low.visit().tape.bar_known = BarKnown::Measured;
    let exact = laid(&low.truth.0.frame, &low.truth.1, [Of::NoseToBar(Laid::Slant)], 0.0);
    low.reading(TapeItem::NoseToBar).value = exact.expect("read")[0].value;
    let mut outside = walk(&with_width);
    outside.reading(TapeItem::WidthAtHoods).value += 24.0;
    let mut swapped = walk(&twelve());
    let bar = swapped.reading(TapeItem::NoseToBar).value;
    let hood = core::mem::replace(&mut swapped.reading(TapeItem::NoseToHood).value, bar);
    swapped.reading(TapeItem::NoseToBar).value = hood;

    for (read, key, named, slip) in [
        (&cm, "nose_to_bar(", "centimetres for millimetres", "centimetres_for_millimetres"),
        (&low, "nose_to_bar(", "slant for level", "slant_for_level"),
        (&outside, "width_at_hoods(", "outside for centre", "outside_for_centre"),
        (&swapped, "nose_to_bar(", "bar and hood swapped", "bar_and_hood_swapped"),
    ] {
        let said = checked(&read.session);
        assert_eq!(said.len(), 1, "{said:#?}");
        assert!(said[0].contains(named), "{said:#?}");
        let lines = [line_of(&read.session, key), line_of(&read.session, "nose_to_hood(")];
        assert!(lines.iter().any(|line| said[0].starts_with(line.as_str())), "{said:#?} {lines:?}");
        let json = json_saved(&read.session);
        let suspicion = &json["tape"]["suspicion"];
        assert_eq!(suspicion["slip"], slip, "{suspicion}");
        assert!(json["notes"].to_string().contains(named));
        println!("{}", said[0]);
    }
    let said = checked(&low.session);
    let level = laid(&low.truth.0.frame, &low.truth.1, [Of::NoseToBar(Laid::Level)], 0.0);
    let level = level.expect("read")[0].value;
    assert!(
        said[0].contains(&format!("{level:.0}\u{a0}mm level would agree")),
        "{level}: {said:?}"
    );
}

/// Neither a slip that is named nor one that nobody knows bends what is found and taken over.
#[test]
fn what_is_in_doubt_is_no_part_of_what_is_found() {
    for (item, by) in [(TapeItem::NoseToBar, 30.0), (TapeItem::BarBelowSaddle, -40.0)] {
        let mut walk = read(&twelve(), 0.0, |_, _| {});
        walk.reading(item).value += by;
        let json = json_saved(&walk.session);
        near(&json["tape"]["suspicion"]["too_large_by"], by, 0.5, "the slip");
        let clamp = &json["tape"]["found"]["clamp"]["at"];
        for axis in 0..2 {
            near(&clamp[axis], walk.true_point("clamp")[axis], EXACT, "the clamp");
        }
        let edit = Edit::TakeTapeOver { visit: walk.session.visits.len() - 1 };
        let (after, _) = edit.apply(&walk.session).expect("taken over");
        assert_eq!(after.visits.last().expect("a visit").as_it_came.saddle, walk.truth.1.saddle);
        assert_eq!(after.bikes[0].frame, walk.truth.0.frame);
    }
}

/// A bar that was never chosen is the usual case of a new client's bike: what hangs on it waits, and with
/// the bar known by its family only its own drop is found.
#[test]
fn what_hangs_on_the_bar_waits_while_it_is_another_one() {
    let mut walk = read(&twelve(), 0.0, |_, _| {});
    let truly = walk.visit().as_it_came.bar.drop_mm;
    walk.visit().as_it_came.bar.drop_mm -= 27.0;
    let visit = walk.session.visits.len() - 1;
    let taken = |session: &Session| {
        let (after, _) = Edit::TakeTapeOver { visit }.apply(session).expect("taken over");
        (after.visits[visit].as_it_came.clone(), after.bikes[0].frame.clone())
    };
    let came = walk.visit().as_it_came.clone();
    let frame = walk.session.bikes[0].frame.clone();
    let (after, frame_after) = taken(&walk.session);
    assert_eq!((after.levers, after.roll_deg, after.bar), (came.levers, came.roll_deg, came.bar));
    assert_eq!(frame_after, frame);
    walk.visit().tape.bar_known = BarKnown::FamilyOnly;
    let (after, _) = taken(&walk.session);
    assert!((after.bar.drop_mm - truly).abs() < 2.0, "{}, truly {truly}", after.bar.drop_mm);
}

#[test]
fn a_slip_is_mended_in_one_step_and_then_all_agree() {
    let mut walk = read(&twelve(), 0.0, |_, _| {});
    walk.reading(TapeItem::NoseToBar).value /= 10.0;
    let visit = walk.session.visits.len() - 1;
    let meant = TapeReading {
        of: Of::NoseToBar(Laid::Level),
        value: walk.reading(TapeItem::NoseToBar).value * 10.0,
    };
    let slip = TapeSlip::CentimetresForMillimetres;
    let change = TapeEdit::Mend { slip, to: vec![meant] };
    let (after, _) = Edit::Tape { visit, change }.apply(&walk.session).expect("mended");
    assert_eq!(checked(&after), [""; 0]);
    assert_eq!(json_saved(&after)["tape"]["suspicion"], Value::Null);
}

#[test]
fn readings_that_make_no_bike_are_answered_without_a_fault() {
    let every: Vec<Of> = TapeItem::ALL.iter().map(|item| item.usual()).collect();
    let hostile = |change: &dyn Fn(usize, &mut TapeReading)| {
        let mut walk = read(&every, 0.0, |_, _| {});
        let readings = &mut walk.visit().tape.readings;
        readings.iter_mut().enumerate().for_each(|(index, reading)| change(index, reading));
        let (_folder, file) = saved(&walk.session);
        for command in [["weigh", &file, "--json"], ["check", &file, &file]] {
            let run = barwright(command);
            assert_eq!(run.status, 0, "{}", run.err);
        }
        let json = json_saved(&walk.session);
        let says_so = json["notes"].to_string().contains("make no bike");
        assert_eq!(json["tape"]["found"].is_null(), says_so, "{}", json["notes"]);
        usize::from(says_so)
    };
    let mut none = 0;
    let edge = |of: &TapeReading, low: bool| {
        let (least, most) = Quantity::Tape(of.of.into()).range().refuse;
        if low { least } else { most }
    };
    none += hostile(&|_, reading| reading.value = edge(reading, true));
    none += hostile(&|_, reading| reading.value = edge(reading, false));
    none += hostile(&|index, reading| reading.value = edge(reading, index % 2 == 0));
    none += hostile(&|_, reading| reading.value = 0.0);
    none += hostile(&|index, reading| {
        if index == 4 {
            reading.value = edge(reading, false);
        }
    });
    assert!(none > 0, "some of these make no bike");
    // one reading by itself, and each one missing
    for item in TapeItem::ALL {
        let one = read(&[item.usual()], 0.0, |_, _| {});
        assert!(json_saved(&one.session)["tape"]["suspicion"].is_null(), "{item:?}");
        let but = every.iter().copied().filter(|&of| TapeItem::from(of) != item);
        let but = read(&but.collect::<Vec<_>>(), 0.0, |_, _| {});
        assert!(json_saved(&but.session)["tape"]["suspicion"].is_null(), "but {item:?}");
    }
}

#[test]
fn what_a_bar_without_levers_cannot_have_is_asked_about_and_left_out() {
    let mut walk = read(&twelve(), 0.0, |_, _| {});
    walk.visit().as_it_came.levers = None;
    let said = checked(&walk.session);
    assert_eq!(said.len(), 3, "{said:#?}");
    assert!(said.iter().all(|line| line.contains("left out")), "{said:#?}");
    let json = json_saved(&walk.session);
    assert!(json["tape"]["found"]["clamp"].is_object());
    assert_eq!(json["tape"]["found"]["lever_along"], Value::Null);
}

#[test]
fn a_reading_twice_and_one_that_cannot_be_are_refused_at_their_line() {
    for twice in [true, false] {
        let mut walk = read(&twelve(), 0.0, |_, _| {});
        if twice {
            let again = TapeReading {
                of: Of::NoseToBar(Laid::Slant),
                ..*walk.reading(TapeItem::NoseToBar)
            };
            walk.visit().tape.readings.push(again);
        } else {
            walk.reading(TapeItem::LeverFromEnd).value = 12_000.0;
        }
        let (_folder, file) = saved(&walk.session);
        let run = barwright(["check", &file]);
        let line = line_of(&walk.session, if twice { "laid: slant" } else { "12000" });
        assert!(run.status == 1 && run.err.contains(&line), "{line}: {}", run.err);
        assert_eq!(run.err.lines().count(), 2, "{}", run.err);
    }
}

#[test]
fn a_file_without_a_tape_is_one_on_which_none_was_laid() {
    let session = twins();
    let mut bare = session.clone();
    Arc::make_mut(bare.visits.last_mut().expect("a visit")).tape = Tape::default();
    let text = fit_file::session_text(&bare, "client").expect("text");
    assert!(!text.contains("tape:"));
    assert_eq!(json_saved(&bare)["tape"], Value::Null);
}
