//! After the visit, without a screen: what a follow-up begins with and leaves alone, what slipped, how
//! complaints go, how often what was foretold was seen.

#![expect(clippy::unwrap_used, reason = "a failure here is a failed test")]

mod begun;
mod ridden;
mod told;

use acceptance::{demo, tape::laid};
use fit_desk::{Command, Desk, Saying, Setup};
use fit_doc::course::{ScoredAt, courses};
use fit_doc::edit::{AfterEdit, InterviewEdit};
use fit_doc::tally::{brake_tally, tallies};
use fit_doc::tape::{Agrees, Of, TapeSlip, built, moved};
use fit_doc::{
    AsBuilt, Cockpit, CockpitEdit, Complaint, Concern, Date, Edit, FingerPart, Frame, Message,
    Quantity, Reaches, RideBrake, RideEdit, RideRow, Session, Tape, TapeEdit, TapeItem,
    TapeReading, Where,
};
use fit_math::DVec2;
use fit_view::scene::{Mark, Scene};
use fit_view::trend::trend_scene;
use fit_view::weigh::{Survey, foretold_brakes, laid_over, weigh_visit};
use fit_view::words::{English, LaterWords, Than};
use std::sync::{Arc, LazyLock};

static SETUP: LazyLock<Arc<Setup>> = LazyLock::new(|| {
    let survey = Survey::shipped().unwrap();
    Arc::new(Setup { survey, stock: fit_file::stock::shipped().unwrap() })
});

const LATER: Date = Date::constant(2026, 7, 11);

/// The readings of the card of a follow-up.
const FEW: [TapeItem; 6] = [
    TapeItem::SaddleHeight,
    TapeItem::NoseToBar,
    TapeItem::NoseToHood,
    TapeItem::HoodBelowSaddle,
    TapeItem::RampSlope,
    TapeItem::LeverFromEnd,
];

fn demo() -> Session {
    demo::sessions().unwrap().swap_remove(0).1
}

/// All that is written in a drawing, in its order.
fn texts(scene: &Scene) -> Vec<String> {
    let marks = scene.layers.iter().flat_map(|layer| &layer.marks);
    let text = |mark: &Mark| match mark {
        Mark::Text { text, .. } => Some(text.clone()),
        _ => None,
    };
    marks.filter_map(text).collect()
}

#[expect(clippy::needless_pass_by_value, reason = "an edit is made where it is asked for")]
fn edited(session: &Session, edit: Edit) -> Session {
    edit.apply(session).unwrap().0
}

/// The demo client's visit with everything that may be carried over or left.
fn visited() -> Session {
    let mut session = edited(&demo(), Edit::Choose { visit: 0, id: Some("compact-420".into()) });
    let cockpit = || "compact-420".to_owned();
    let of = |change| Edit::Interview { visit: 0, change };
    for edit in [
        of(InterviewEdit::Riding("hills".into())),
        of(InterviewEdit::Hours(Some(6.0))),
        of(InterviewEdit::Consent(true)),
        of(InterviewEdit::RedFlag { of: fit_doc::SendOn::Dizziness, on: true }),
        Edit::Glove { visit: 0, to: 3.0 },
        Edit::StartRide { visit: 0, cockpit: cockpit(), foretold: Vec::new(), brakes: Vec::new() },
        Edit::Ride { visit: 0, at: 0, change: RideEdit::After { index: 0, to: Some(4) } },
        Edit::Ride { visit: 0, at: 0, change: RideEdit::End { minutes: Some(4) } },
        // another cockpit made it worse, but the client does not ride that one
        Edit::StartRide {
            visit: 0,
            cockpit: "as-it-came".into(),
            foretold: Vec::new(),
            brakes: Vec::new(),
        },
        Edit::Ride { visit: 0, at: 1, change: RideEdit::After { index: 0, to: Some(8) } },
        Edit::Ride { visit: 0, at: 1, change: RideEdit::End { minutes: Some(4) } },
    ] {
        session = edited(&session, edit);
    }
    session
}

/// The lines of a file that stand between two others.
fn between<'a>(text: &'a str, from: &str, to: &str) -> &'a str {
    let begin = text.find(from).unwrap();
    &text[begin..begin + text[begin..].find(to).unwrap()]
}

#[test]
fn a_follow_up_leaves_every_earlier_visit_as_it_is() {
    let before = visited();
    let after = edited(&before, Edit::FollowUp { visit: 0, date: LATER });
    assert_eq!(after.visits.len(), 2);
    assert_eq!(after.visits[0], before.visits[0]);
    assert!(Arc::ptr_eq(&after.visits[0], &before.visits[0]), "not even copied");
    let text = |session| fit_file::session_text(session, "later").unwrap();
    let visit = |text: &str| between(text, "date: \"2026-04-11\"", "\n    ),\n").to_owned();
    let (old, new) = (visit(&text(&before)), visit(&text(&after)));
    assert!(old.len() > 5000 && old == new, "the text of the first visit, byte for byte");
    // worked on, it still is
    let mut worked = after.clone();
    let id = worked.visits[1].as_it_came.id.clone();
    let change = CockpitEdit::Number { quantity: Quantity::Roll, to: -2.0 };
    worked = edited(&worked, Edit::Cockpit { visit: 1, id, change });
    worked = edited(&worked, Edit::TakeTapeOver { visit: 1 });
    assert_eq!(visit(&text(&worked)), old);
    assert!(fit_doc::check(&worked).refused.is_empty());
}

#[test]
fn what_stays_true_is_carried_over_and_the_rest_is_asked_anew() {
    let after = edited(&visited(), Edit::FollowUp { visit: 0, date: LATER });
    let [old, new] = &after.visits[..] else { panic!("two visits") };
    let left = old.left();
    assert_eq!(left.id, "compact-420");
    let expected =
        Cockpit { ridden: true, ..left.with_name(&old.as_it_came.id, &old.as_it_came.label) };
    assert_eq!(new.as_it_came, expected, "what the client left with, as it came now");
    assert_eq!(after.bikes[0].cockpit.bar, left.bar, "and the bike carries it");
    assert_eq!((&new.body, &new.mobility), (&old.body, &old.mobility));
    assert_eq!(new.glove_mm, 3.0);
    assert_eq!((new.interview.riding.as_str(), new.interview.consent), ("hills", true));
    assert_eq!((new.interview.hours_per_week, &new.interview.red_flags[..]), (None, &[][..]));
    assert!(new.bench.is_empty() && new.rides.is_empty() && new.chosen.is_none());
    assert!(new.seen.is_empty() && new.ruled_out.is_empty() && new.tape.readings.is_empty());
    assert!(new.tape.frame_known, "the frame was found with the tape before");
    let scores = |of: &fit_doc::Visit| -> Vec<(Option<u8>, bool)> {
        of.complaints.iter().map(|of| (of.score, of.carried)).collect()
    };
    assert_eq!(scores(old), [(Some(6), false), (Some(4), false)]);
    assert_eq!(
        scores(new),
        [(Some(4), true), (Some(4), true)],
        "the trial of what is ridden, not of another"
    );
    // a note is later than any trial
    let mut noted = visited();
    for change in [
        AfterEdit::Add(Date::constant(2026, 4, 25)),
        AfterEdit::Score { at: 0, index: 0, to: Some(3) },
    ] {
        noted = edited(&noted, Edit::After { visit: 0, change });
    }
    let noted = edited(&noted, Edit::FollowUp { visit: 0, date: LATER });
    assert_eq!(scores(&noted.visits[1]), [(Some(3), true), (Some(4), true)]);
}

/// Until somebody says how bad it is nothing is charted, foretold or carried over as if they had.
#[test]
fn what_nobody_has_scored_has_no_score_anywhere() {
    let session = demo();
    let feet = Complaint::about(Concern::Feet, Where::Left);
    let complaints = vec![feet];
    let session = edited(&session, Edit::Complaints { visit: 0, to: complaints.clone() });
    assert!(courses(&session, 0).is_empty());
    let cockpit = session.visits[0].bench[0].id.clone();
    let start = Edit::StartRide { visit: 0, cockpit, foretold: Vec::new(), brakes: Vec::new() };
    let ridden = edited(&session, start);
    let [score] = ridden.visits[0].rides[0].scores[..] else { panic!("one complaint") };
    assert_eq!((score.before, score.after), (None, None));
    let later = edited(&session, Edit::FollowUp { visit: 0, date: LATER });
    let [begun] = &later.visits[1].complaints[..] else { panic!("one complaint") };
    assert_eq!((begun.score, begun.carried), (None, false));
    // the file writes nothing of it, and is the same again
    let text = fit_file::session_text(&ridden, "ridden").unwrap();
    assert!(!text.contains("score:") && !text.contains(", before:"), "{text}");
    assert_eq!(fit_file::read_session(text.as_bytes(), "ridden").unwrap().session, ridden);
    // asked, it is one
    let asked = vec![Complaint { score: Some(0), ..complaints[0].clone() }];
    let asked = edited(&session, Edit::Complaints { visit: 0, to: asked });
    assert_eq!(courses(&asked, 0)[0].scores[0].score, 0);
}

#[test]
fn a_child_is_measured_again_and_nothing_chosen_is_as_it_came() {
    let mut young = demo();
    young.client.born = Some(2014);
    let after = edited(&young, Edit::FollowUp { visit: 0, date: LATER });
    assert!(after.visits[1].body.is_empty() && after.visits[1].mobility.is_empty());
    assert_eq!(after.visits[1].as_it_came, after.visits[0].as_it_came);
}

#[test]
fn no_follow_up_comes_before_its_visit_or_beside_another() {
    let early = Edit::FollowUp { visit: 0, date: Date::constant(2026, 4, 10) };
    assert!(matches!(early.apply(&demo()), Err(Message::FollowsBefore { .. })));
    let after = edited(&demo(), Edit::FollowUp { visit: 0, date: LATER });
    let second = Edit::FollowUp { visit: 0, date: LATER };
    assert!(matches!(second.apply(&after), Err(Message::VisitClosed { .. })));
    assert_eq!((after.earlier(1), after.later(0)), (Some(0), Some(1)));
    assert_eq!((after.earlier(0), after.later(1)), (None, None));
}

#[test]
fn a_visit_with_a_follow_up_is_closed_but_for_the_notes_after_it() {
    let mut desk = Desk::new(Arc::clone(&SETUP), visited(), None).unwrap();
    desk.apply(Command::Edit(Edit::FollowUp { visit: 0, date: LATER }, None));
    assert_eq!(desk.look().visit, 1, "the follow-up is looked at");
    let closed = |desk: &Desk| {
        let said = desk.told().iter().map(|told| &told.text);
        let is = |text: &Saying| matches!(text, Saying::Message(message) if matches!(**message, Message::VisitClosed { .. }));
        said.filter(|text| is(text)).count()
    };
    assert_eq!(closed(&desk), 0);
    desk.apply(Command::Visit(0));
    assert_eq!(closed(&desk), 1, "an earlier visit says so when it is opened");
    let kept = desk.session().clone();
    let edits = [
        Edit::VisitNotes { visit: 0, to: "changed".into() },
        Edit::Remove { visit: 0, id: "compact-420".into() },
        Edit::Choose { visit: 0, id: None },
        Edit::Built { visit: 0, change: TapeEdit::NoseUp(1.0) },
        Edit::Date { visit: 0, to: Date::constant(2026, 4, 12) },
        // nor does a follow-up become an earlier visit by its day
        Edit::Date { visit: 1, to: Date::constant(2026, 4, 1) },
    ];
    for edit in edits {
        desk.apply(Command::Edit(edit.clone(), None));
        assert_eq!(closed(&desk), 1, "{edit:?}");
        assert_eq!(*desk.session(), kept, "{edit:?}");
    }
    desk.apply(Command::Duplicate("compact-420".into()));
    assert_eq!(*desk.session(), kept);
    let note = Edit::After { visit: 0, change: AfterEdit::Add(Date::constant(2026, 4, 25)) };
    desk.apply(Command::Edit(note, None));
    assert_eq!(desk.session().visits[0].afterwards.len(), 1);
    desk.apply(Command::Edit(Edit::VisitNotes { visit: 1, to: "open".into() }, None));
    assert_eq!(desk.session().visits[1].notes, "open");
    // taken back to before the follow-up, there is a visit to look at all the way
    desk.apply(Command::Visit(1));
    for _ in 0..3 {
        desk.apply(Command::Undo);
        assert!(desk.visit().is_some() && desk.selected().is_some());
    }
    assert_eq!((desk.look().visit, desk.session().visits.len()), (0, 1));
    desk.apply(Command::Redo);
    assert_eq!(desk.look().visit, 1, "done again it is looked at again");
}

/// Readings of a cockpit in whole mm and half degrees, as they are typed.
fn read(frame: &Frame, of: &Cockpit, items: &[TapeItem]) -> Tape {
    let exact = laid(frame, of, items.iter().map(|item| item.usual()), 0.0).unwrap();
    let whole = |reading: TapeReading| {
        let per_unit = if reading.of.is_angle() { 2.0 } else { 1.0 };
        let value = (reading.value * per_unit).round() / per_unit + 0.0;
        TapeReading { value, ..reading }
    };
    Tape { readings: exact.into_iter().map(whole).collect(), ..Tape::default() }
}

#[test]
fn what_was_built_as_it_was_chosen_reads_as_planned() {
    for (_, session) in demo::sessions().unwrap() {
        let (visit, frame) = (&session.visits[0], &session.bikes[0].frame);
        for cockpit in visit.cockpits() {
            let tape = read(frame, cockpit, &TapeItem::ALL);
            let rows = built(frame, cockpit, &tape, None).unwrap();
            assert_eq!(rows.len(), TapeItem::ALL.len());
            for row in rows {
                assert!(row.by().abs() <= 0.5 && row.agrees() == Agrees::Yes, "{row:?}");
            }
        }
    }
}

/// A reading is held against the readings taken when it was built, where there are any, whatever the
/// cockpit in the file says, and however the bike stood in its trainer then.
#[test]
fn what_was_read_when_it_was_built_counts_before_the_file() {
    let session = demo();
    let (frame, left) = (&session.bikes[0].frame, &session.visits[0].as_it_came);
    let stem = Cockpit { spacers_mm: left.spacers_mm + 7.0, ..left.clone() };
    let before = Tape { nose_up_deg: 1.0, ..read_pitched(frame, &stem, 1.0) };
    let now = read(frame, &stem, &FEW);
    let against_file = built(frame, left, &now, None).unwrap();
    assert!(against_file.iter().any(|row| row.agrees() == Agrees::No));
    let rows = built(frame, left, &now, Some(&before)).unwrap();
    for row in &rows {
        assert!(row.by().abs() < 1.1 && row.agrees() == Agrees::Yes, "{row:?}");
    }
}

/// A reading that is off by a slip that is known is asked about; one that is off by chance, or that
/// agrees, is not.
#[test]
fn a_reading_of_the_finished_bike_that_slipped_is_asked_about() {
    let session = demo();
    let (frame, left) = (&session.bikes[0].frame, &session.visits[0].as_it_came);
    let said = |of: TapeItem, slip: fn(TapeReading) -> TapeReading| {
        let mut tape = read(frame, left, &FEW);
        let typed = tape.readings.iter_mut().find(|typed| TapeItem::from(typed.of) == of).unwrap();
        *typed = slip(*typed);
        let rows = built(frame, left, &tape, None).unwrap();
        let (its, others): (Vec<_>, Vec<_>) =
            rows.into_iter().partition(|row| TapeItem::from(row.reading.of) == of);
        assert!(others.iter().all(|row| row.slip.is_none()));
        let shown = English.built_row(&its[0], Than::Planned).replace('\u{a0}', " ");
        (its[0], shown)
    };
    let (row, shown) = said(TapeItem::NoseToBar, |of| TapeReading { value: of.value / 10.0, ..of });
    let (slip, meant) = row.slip.unwrap();
    assert_eq!(slip, TapeSlip::CentimetresForMillimetres);
    assert!((meant.value - row.expected).abs() < 6.0, "{row:?}");
    let asked = format!("Was it centimetres for millimetres? {} mm would agree.", meant.value);
    assert!(shown.ends_with(&asked), "{shown}");
    // the other end of the hood, entered as this one
    let (row, shown) = {
        let tip = Of::NoseToHood(fit_math::tape::HoodAt::Tip, fit_math::tape::Laid::Level);
        let at_tip = laid(frame, left, [tip], 0.0).unwrap()[0].value.round();
        let mut tape = read(frame, left, &[TapeItem::NoseToHood]);
        tape.readings[0].value = at_tip;
        let row = built(frame, left, &tape, None).unwrap()[0];
        (row, English.built_row(&row, Than::Left).replace('\u{a0}', " "))
    };
    assert_eq!(row.slip.unwrap().0, TapeSlip::TipForTrough, "{row:?}");
    assert!(shown.contains("Was it the hood’s tip for its trough?"), "{shown}");
    // by so much nobody slips
    let (row, shown) =
        said(TapeItem::HoodBelowSaddle, |of| TapeReading { value: of.value + 23.0, ..of });
    assert!(row.agrees() == Agrees::No && row.slip.is_none(), "{row:?}");
    assert!(!shown.contains("Was it"), "{shown}");
    let (row, _) = said(TapeItem::NoseToBar, |of| of);
    assert!(row.agrees() == Agrees::Yes && row.slip.is_none());
}

fn read_pitched(frame: &Frame, of: &Cockpit, nose_up_deg: f64) -> Tape {
    let readings = laid(frame, of, FEW.map(TapeItem::usual), nose_up_deg).unwrap();
    Tape { readings, ..Tape::default() }
}

/// One thing moved by what a shop meets, on each bike: it is found by its name and to what a tape tells,
/// and where the readings cannot tell it from another, it is among those that are named.
#[test]
fn what_has_slipped_is_found_by_its_name() {
    let slips = [
        (Quantity::Roll, -4.0, 0.6),
        (Quantity::Roll, 3.0, 0.6),
        (Quantity::LeverAlong, -14.0, 2.0),
        (Quantity::SaddleHeight, -9.0, 1.0),
        (Quantity::NoseBehind, 10.0, 1.0),
    ];
    for (name, session) in demo::sessions().unwrap() {
        let (visit, frame) = (&session.visits[0], &session.bikes[0].frame);
        let left = &visit.as_it_came;
        for (quantity, by, within) in slips {
            let mut slipped = left.clone();
            match quantity {
                Quantity::Roll => slipped.roll_deg += by,
                Quantity::SaddleHeight => down_the_post(&mut slipped.saddle, by, frame),
                Quantity::NoseBehind => slipped.saddle.nose_behind_mm += by,
                _ => {
                    let levers = slipped.levers.as_mut().unwrap();
                    levers.left.along_mm += by;
                    levers.right.along_mm += by;
                }
            }
            let tape = read(frame, &slipped, &FEW);
            let none = Tape::default();
            let found = moved(frame, (left, &none), left, &tape).unwrap();
            let its = found.iter().find(|of| of.quantity == quantity);
            let its = its.unwrap_or_else(|| panic!("{name}: {quantity:?} {by}: {found:?}"));
            assert!((its.to - its.from - by).abs() <= within, "{name}: {its:?}");
            // what the walk reads directly is told from all others
            if quantity == Quantity::Roll {
                assert_eq!(found.len(), 1, "{name}: {found:?}");
            }
            // once the bike as it came says so, nothing is left to be found
            let taken = moved(frame, (left, &none), &slipped, &tape).unwrap();
            assert_eq!(taken, [], "{name}: {quantity:?}");
        }
        let still = read(frame, left, &FEW);
        assert_eq!(moved(frame, (left, &Tape::default()), left, &still).unwrap(), []);
    }
}

/// A saddle that is another distance from the axle, moved along the seat tube: found by halving.
fn down_the_post(saddle: &mut fit_doc::Saddle, by: f64, frame: &Frame) {
    let (sin, cos) = frame.seat_angle_deg.to_radians().sin_cos();
    let behind = saddle.nose_behind_mm + saddle.sit_from_nose_mm;
    let up = (saddle.height_mm.powi(2) - behind.powi(2)).sqrt();
    let away = |along: f64| (behind + along * cos).hypot(up + along * sin);
    let (wanted, mut low, mut high) = (saddle.height_mm + by, -100.0, 100.0);
    for _ in 0..60 {
        let middle = f64::midpoint(low, high);
        if away(middle) < wanted { low = middle } else { high = middle }
    }
    saddle.nose_behind_mm += low * cos;
    saddle.height_mm = wanted;
}

/// The hoods' height alone cannot tell a bar from a lever that slid: both are named.
#[test]
fn too_few_readings_name_all_that_it_may_be() {
    let session = demo();
    let (frame, left) = (&session.bikes[0].frame, &session.visits[0].as_it_came);
    let slipped = Cockpit { roll_deg: left.roll_deg - 4.0, ..left.clone() };
    let tape = read(frame, &slipped, &[TapeItem::HoodBelowSaddle]);
    let found = moved(frame, (left, &Tape::default()), left, &tape).unwrap();
    let named: Vec<Quantity> = found.iter().map(|of| of.quantity).collect();
    assert_eq!(named[..2], [Quantity::Roll, Quantity::LeverAlong], "{found:?}");
}

#[test]
fn a_complaint_has_its_scores_of_visits_and_notes_in_the_order_of_time() {
    let (_, session) = demo::followed().unwrap();
    let all = courses(&session, 0);
    let scores: Vec<Vec<u8>> =
        all.iter().map(|course| course.scores.iter().map(|of| of.score).collect()).collect();
    assert_eq!(scores, [vec![6, 4, 3, 2], vec![5, 4, 4, 5]]);
    assert_eq!(
        (all[0].about, all[0].fallen_by(), all[0].is_enough()),
        (Concern::Neck, Some(4), true)
    );
    assert_eq!((all[1].fallen_by(), all[1].is_enough()), (Some(0), false));
    assert!(all[0].scores.is_sorted_by_key(|of| of.date));
    // the second trial's is of the day of its visit, and comes behind what the client came with
    let [came, ridden, ..] = all[0].scores[..] else { panic!("{:?}", all[0]) };
    assert_eq!((came.at, ridden.at), (ScoredAt::Visit, ScoredAt::Ride(2)));
    assert_eq!(came.date, ridden.date);
    let said = English.course(&all[0]);
    assert!(said.starts_with("6 on 14 March 2026, 4 after trial 2 that day, 3 on "), "{said}");
    let drawn = trend_scene(&all[0], DVec2::new(300.0, 94.0), &English);
    let days: Vec<String> = texts(&drawn).into_iter().filter(|of| of.contains('\u{a0}')).collect();
    assert_eq!(days[..2], ["14\u{a0}Mar", "trial\u{a0}2"]);
    assert_eq!(days.len(), 4, "{days:?}");
    // a score that was only carried over was not asked
    let follow_up = edited(&visited(), Edit::FollowUp { visit: 0, date: LATER });
    let today = |session: &Session| {
        let all = courses(session, 1).into_iter().flat_map(|course| course.scores);
        all.filter(|of| of.date == LATER).count()
    };
    assert_eq!(today(&follow_up), 0);
    let mut to = follow_up.visits[1].complaints.clone();
    to[0].carried = false;
    let asked = edited(&follow_up, Edit::Complaints { visit: 1, to });
    assert_eq!(today(&asked), 1, "asked, and found the same");
}

/// A number of the frame that is put right at a follow-up is not put into the visit before.
#[test]
fn a_frame_that_is_changed_later_leaves_the_closed_visit_as_it_was() {
    let (_, session) = demo::followed().unwrap();
    let bike = session.visits[0].bike.clone();
    let all = |session: &Session, at: usize| {
        let weighed = weigh_visit(session, &session.visits[at], &SETUP.survey).unwrap();
        // every number of it, with all its digits
        format!("{weighed:?}")
    };
    let frame = |session: &Session, at: usize| {
        session.bike(&session.visits[at].bike).unwrap().frame.clone()
    };
    let (before, frame_before) = (all(&session, 0), frame(&session, 0));
    let stack =
        |bike: &str, to| Edit::Frame { bike: bike.to_owned(), quantity: Quantity::FrameStack, to };
    let changed = edited(&session, stack(&bike, frame_before.stack_mm + 12.0));
    assert_eq!(all(&changed, 0), before);
    assert_eq!(changed.visits[0], session.visits[0]);
    assert_eq!(frame(&changed, 1).stack_mm, frame_before.stack_mm + 12.0);
    assert_ne!(all(&changed, 1), all(&session, 1));
    // it is one bike all the same
    assert_eq!((changed.earlier(1), changed.later(0)), (Some(0), Some(1)));
    assert_eq!(courses(&changed, 1), courses(&session, 1));
    assert_eq!(changed.bikes.len(), 2);
    // from then on the open visit's own bike is changed, whose name is that of both
    let own = changed.visits[1].bike.clone();
    let again = edited(&changed, stack(&own, frame_before.stack_mm));
    assert_eq!(again.bikes.len(), 2);
    assert_eq!(frame(&again, 1), frame_before);
    let named = edited(&again, Edit::BikeName { bike: own, to: "Blue".into() });
    assert!(named.bikes.iter().all(|bike| bike.name == "Blue"));
    // and the closed visit's is not
    let refused = stack(&bike, 500.0).apply(&changed);
    assert!(matches!(refused, Err(Message::VisitClosed { .. })), "{refused:?}");
    // the next follow-up stands on the bike of the last
    let third = edited(&changed, Edit::FollowUp { visit: 1, date: Date::constant(2026, 12, 1) });
    assert_eq!(third.visits_of_its_bike(0), [0, 1, 2]);
    // kept, found without a slip, and refused where it goes round
    let text = fit_file::session_text(&third, "third").unwrap();
    assert_eq!(fit_file::read_session(text.as_bytes(), "third").unwrap().session, third);
    assert_eq!(fit_doc::check(&third).refused, []);
    let mut round = third;
    round.bikes[0].same_as = Some(round.bikes[1].id.clone());
    let refused = fit_doc::check(&round).refused;
    assert!(matches!(refused[..], [Message::NoSuchBike { .. }]), "{refused:?}");
    assert!(round.visits_of_its_bike(0).contains(&0), "and nothing hangs");
}

/// What the tape finds of the frame is a change to it like any other.
#[test]
fn a_tape_taken_over_at_a_follow_up_leaves_the_closed_visit_as_it_was() {
    let begun = edited(&demo(), Edit::FollowUp { visit: 0, date: LATER });
    let all = |session: &Session| {
        let weighed = weigh_visit(session, &session.visits[0], &SETUP.survey).unwrap();
        format!("{weighed:?}")
    };
    let before = all(&begun);
    let known = TapeEdit::FrameKnown(false);
    let mut read = edited(&begun, Edit::Tape { visit: 1, change: known });
    let frame = read.bike(&read.visits[1].bike).unwrap().frame.clone();
    let other = Frame { stack_mm: frame.stack_mm + 9.0, ..frame.clone() };
    let came = read.visits[1].as_it_came.clone();
    for of in TapeItem::ALL.map(TapeItem::usual) {
        let Ok(readings) = laid(&other, &came, [of], 0.0) else { continue };
        let Some(reading) = readings.first() else { continue };
        let change = TapeEdit::Reading { of, to: Some(reading.value) };
        read = edited(&read, Edit::Tape { visit: 1, change });
    }
    let taken = edited(&read, Edit::TakeTapeOver { visit: 1 });
    let found = taken.bike(&taken.visits[1].bike).unwrap().frame.stack_mm;
    assert!((found - other.stack_mm).abs() < 3.0, "{found}");
    assert_eq!(all(&taken), before);
    assert_eq!(taken.earlier(1), Some(0));
}

/// Two trials with numbers written by hand, and counted by hand. As it came 40, 15 and 46° were seen.
#[test]
fn the_tally_counts_what_was_foretold_and_seen_over_all_trials() {
    use fit_doc::HandPlace::{Drops, Hoods, Tops};
    let (_, mut session) = demo::followed().unwrap();
    let number = |(row, place, deg)| fit_doc::RideNumber { row, place, deg };
    let [trunk, elbow, neck] = RideRow::ALL;
    let first = [(trunk, Hoods, 43.0), (elbow, Hoods, 18.0), (neck, Hoods, 44.0)];
    let seen_first = [(trunk, Hoods, 45.0), (elbow, Hoods, 13.0), (neck, Hoods, 46.0)];
    let second = [(trunk, Hoods, 37.0), (elbow, Hoods, 20.0), (neck, Hoods, 43.0)];
    let seen_second = [(trunk, Hoods, 36.0), (elbow, Hoods, 24.0), (neck, Hoods, 38.5)];
    let visit = Arc::make_mut(&mut session.visits[0]);
    let came = &visit.seen[0];
    assert_eq!((came.trunk_deg, came.elbow_deg), (Some(40.0), Some(15.0)));
    assert_eq!((came.neck_deg, came.place), (Some(46.0), Hoods));
    for (ride, foretold, seen) in [(0, first, seen_first), (1, second, seen_second)] {
        visit.rides[ride].foretold = foretold.map(number).to_vec();
        visit.rides[ride].seen = seen.map(number).to_vec();
    }
    // in the drops nothing was seen as it came, so that no change has a way; on the tops nothing was
    // foretold, which counts for nothing
    visit.rides[1].foretold.push(number((trunk, Drops, 37.0)));
    visit.rides[1].seen.push(number((trunk, Drops, 41.5)));
    visit.rides[1].seen.push(number((elbow, Tops, 20.0)));
    let counts =
        tallies(&session).map(|of| (of.row, of.looked_at, of.within, of.turned, of.right_way));
    let expected = [
        // off by 2, −1 and 4.5; turned by 5 and −4, foretold 3 and −3
        (trunk, 3, 2, 2, 2),
        // off by −5 and 4; turned by −2 and 9, foretold 3 and 5
        (elbow, 2, 1, 2, 1),
        // off by 2 and −4.5; turned by 0 and −7.5, foretold −2 and −3
        (neck, 2, 1, 1, 1),
    ];
    assert_eq!(counts, expected);
    assert_eq!(tallies(&demo()).map(|tally| tally.looked_at), [0, 0, 0]);
}

#[test]
fn the_visits_laid_over_each_other_are_the_cockpits_of_both() {
    let (_, session) = demo::followed().unwrap();
    let survey = &SETUP.survey;
    assert!(laid_over(&session, 0, survey).is_none(), "nothing came before it");
    let over = laid_over(&session, 1, survey).unwrap();
    let labels: Vec<&str> = over.cockpits.iter().map(|of| of.label.as_str()).collect();
    assert_eq!(labels, ["2026-03-14", "2026-06-20"]);
    assert_eq!(over.cockpits[0].parts.stem, session.visits[0].left().stem);
    assert_eq!(over.cockpits[0].cockpit, over.cockpits[1].cockpit, "nothing was taken over yet");
    let id = session.visits[1].as_it_came.id.clone();
    let add = |session: &Session, label: &str| {
        let cockpit = Box::new(session.visits[1].as_it_came.with_name("before", label));
        edited(session, Edit::Add { visit: 1, cockpit })
    };
    let chosen = add(&session, "Turned back");
    let chosen = edited(&chosen, Edit::Choose { visit: 1, id: Some("before".into()) });
    let over = laid_over(&chosen, 1, survey).unwrap();
    assert_eq!(over.cockpits.len(), 3, "and what is chosen now");
    assert!(over.cockpits[2].chosen && over.cockpits[1].id == id);
}

#[test]
fn notes_are_kept_in_the_file_and_named_step_by_step() {
    let (_, session) = demo::followed().unwrap();
    let text = fit_file::session_text(&session, "noted").unwrap();
    let back = fit_file::read_session(text.as_bytes(), "noted").unwrap().session;
    assert_eq!(back, session);
    let note = &back.visits[0].afterwards[0];
    assert_eq!((note.km, note.as_built), (Some(290), AsBuilt::NotLookedAt));
    assert_eq!(note.scores.iter().map(|of| of.score).collect::<Vec<_>>(), [Some(3), Some(4)]);
    assert_eq!(note.scores[0].side, Where::Both);
    assert!(back.visits[0].built.readings.iter().any(|of| of.of == Of::SaddleHeight));
    // an older file has none of the keys
    let plain = fit_file::session_text(&demo(), "plain").unwrap();
    for key in ["built:", "afterwards:"] {
        assert!(text.contains(key) && !plain.contains(key), "{key}");
    }
    let begun = edited(&visited(), Edit::FollowUp { visit: 0, date: LATER });
    let begun = fit_file::session_text(&begun, "begun").unwrap();
    assert_eq!(begun.matches("carried: true").count(), 2);
    assert!(!text.contains("carried:") && !plain.contains("carried:"));
}

/// Foretold 41° where 37° was seen as it came: 40° is right, 33° is the wrong way and far off, 38° is too
/// little of a change to have a way. A trial of the cockpit as it came tells nothing of foretelling.
#[test]
fn the_tally_counts_the_way_and_leaves_out_what_was_seen_before() {
    let place = fit_doc::HandPlace::Hoods;
    let came = demo().visits[0].as_it_came.id.clone();
    let seen = |cockpit: &str, deg| Edit::Seen {
        visit: 0,
        cockpit: cockpit.to_owned(),
        place,
        sight: fit_doc::Sight::Trunk,
        to: Some(deg),
    };
    let mut session = edited(&demo(), seen(&came, 37.0));
    let mut ride = |cockpit: &str, deg: f64| {
        let at = session.visits[0].rides.len();
        let foretold = vec![fit_doc::RideNumber { row: RideRow::Trunk, place, deg: 41.0 }];
        let begun =
            Edit::StartRide { visit: 0, cockpit: cockpit.to_owned(), foretold, brakes: Vec::new() };
        session = edited(&session, begun);
        let change = RideEdit::Seen { row: RideRow::Trunk, place, to: Some(deg) };
        session = edited(&session, Edit::Ride { visit: 0, at, change });
        session =
            edited(&session, Edit::Ride { visit: 0, at, change: RideEdit::End { minutes: None } });
        let [trunk, elbow, neck] = tallies(&session);
        assert_eq!((elbow.looked_at, neck.looked_at), (0, 0));
        (trunk.looked_at, trunk.within, trunk.turned, trunk.right_way)
    };
    assert_eq!(ride("compact-420", 40.0), (1, 1, 1, 1));
    assert_eq!(ride("compact-420", 33.0), (2, 1, 2, 1));
    assert_eq!(ride("compact-420", 38.0), (3, 2, 2, 1));
    assert_eq!(ride(&came, 41.0), (3, 2, 2, 1));
}

/// A complaint that is corrected after a trial and a note keeps what was scored of it.
#[test]
fn a_complaint_that_is_corrected_keeps_its_scores() {
    let mut session = visited();
    session = edited(&session, Edit::After { visit: 0, change: AfterEdit::Add(LATER) });
    let change = AfterEdit::Score { at: 0, index: 0, to: Some(2) };
    session = edited(&session, Edit::After { visit: 0, change });
    let before = session.visits[0].clone();
    let mut to = before.complaints.clone();
    to[0].side = Where::Left;
    to[0].place = Some(fit_doc::HandPlace::Hoods);
    session = edited(&session, Edit::Complaints { visit: 0, to });
    let after = &session.visits[0];
    assert_eq!(after.last_score(&after.complaints[0]), Some(2));
    let scores = |of: &fit_doc::Visit| {
        let ride = |ride: &fit_doc::Ride| {
            fit_doc::Ride::left(core::slice::from_ref(ride), &of.complaints[0])
        };
        of.rides.iter().map(ride).collect::<Vec<_>>()
    };
    assert_eq!(scores(after), scores(&before));
    assert!(scores(after).iter().any(Option::is_some));
}

/// Every word that may be foretold beside every word that may be seen, counted one by one.
#[test]
fn the_tally_of_the_brakes_counts_the_words_that_were_foretold() {
    const WORDS: [Reaches; 3] = [Reaches::Yes, Reaches::Just, Reaches::No];
    let cockpit = demo().visits[0].bench[0].id.clone();
    let start = |brakes: Vec<RideBrake>| Edit::StartRide {
        visit: 0,
        cockpit: cockpit.clone(),
        foretold: Vec::new(),
        brakes,
    };
    let seen = |side, part, reaches| Edit::HandCheck {
        visit: 0,
        cockpit: cockpit.clone(),
        side,
        part,
        to: Some(reaches),
    };
    let counted = |session: &Session| {
        let tally = brake_tally(session);
        (tally.looked_at, tally.as_foretold)
    };
    let part = FingerPart::LastJoint;
    for foretold in WORDS {
        for word in WORDS {
            let brake = |side| RideBrake { side, reaches: foretold };
            let begun = edited(&demo(), start(vec![brake(Where::Left), brake(Where::Right)]));
            assert_eq!(counted(&begun), (0, 0), "nobody looked");
            let right = usize::from(foretold == word);
            let one = edited(&begun, seen(Where::Left, part, word));
            assert_eq!(counted(&one), (1, right), "{foretold:?} {word:?}");
            let both = edited(&one, seen(Where::Right, part, foretold));
            assert_eq!(counted(&both), (2, right + 1));
            // ridden again, with what was seen known: the first foretelling still is the one that counts
            let again = edited(&both, start(Vec::new()));
            assert_eq!(counted(&again), (2, right + 1));
            // another part of the finger was not foretold
            let pad = edited(&begun, seen(Where::Left, FingerPart::Pad, word));
            assert_eq!(counted(&pad), (0, 0));
            let text = fit_file::session_text(&again, "brakes").unwrap();
            assert_eq!(fit_file::read_session(text.as_bytes(), "brakes").unwrap().session, again);
        }
    }
    // looked at without a trial that foretold it
    assert_eq!(counted(&edited(&demo(), seen(Where::Both, part, Reaches::Yes))), (0, 0));
}

/// Both hands at once, then one by itself: that hand was looked at once, and its last word counts.
#[test]
fn a_hand_that_is_looked_at_twice_counts_once_in_the_tally() {
    let cockpit = demo().visits[0].bench[0].id.clone();
    let brakes = [Where::Left, Where::Right].map(|side| RideBrake { side, reaches: Reaches::Yes });
    let start = Edit::StartRide {
        visit: 0,
        cockpit: cockpit.clone(),
        foretold: Vec::new(),
        brakes: brakes.to_vec(),
    };
    let seen = |side, reaches| Edit::HandCheck {
        visit: 0,
        cockpit: cockpit.clone(),
        side,
        part: FingerPart::LastJoint,
        to: Some(reaches),
    };
    let both = edited(&edited(&demo(), start), seen(Where::Both, Reaches::Yes));
    let tally = brake_tally(&both);
    assert_eq!((tally.looked_at, tally.as_foretold), (2, 2));
    let again = edited(&both, seen(Where::Left, Reaches::No));
    assert_eq!(again.visits[0].hand_checks.len(), 2);
    let tally = brake_tally(&again);
    assert_eq!((tally.looked_at, tally.as_foretold), (2, 1));
}

/// The word goes with the millimetres of the table; a hand that was looked at there is not foretold.
#[test]
fn brakes_are_foretold_as_the_table_says_but_for_hands_that_were_looked_at() {
    for (name, session) in demo::sessions().unwrap() {
        let visit = fit_doc::Visit { hand_checks: Vec::new(), ..(*session.visits[0]).clone() };
        let weighed = weigh_visit(&session, &visit, &SETUP.survey).unwrap();
        for of in &weighed.cockpits {
            let all = foretold_brakes(of, &visit);
            let spare = of.brakes.and_then(|of| of.to_spare_mm(fit_doc::HandPlace::Drops));
            let Some(spare) = spare else {
                assert_eq!(all, []);
                continue;
            };
            let worse = all.iter().map(|of| of.reaches).max().unwrap();
            let said = if spare >= 2.5 { Reaches::Yes } else { Reaches::Just };
            let said = if spare <= -2.5 { Reaches::No } else { said };
            assert_eq!((all.len(), worse), (2, said), "{name}, {}: {spare}", of.label);
            let looked = fit_doc::HandCheck {
                cockpit: of.id.clone(),
                side: Where::Left,
                part: FingerPart::Pad,
                reaches: Reaches::No,
            };
            let looked = fit_doc::Visit { hand_checks: vec![looked], ..visit.clone() };
            let left: Vec<Where> =
                foretold_brakes(of, &looked).iter().map(|brake| brake.side).collect();
            assert_eq!(left, [Where::Right]);
        }
    }
}
