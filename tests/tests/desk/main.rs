//! Undo, gestures and what counts as modified, over random edits of the demo session.

#![expect(clippy::unwrap_used, clippy::expect_used, reason = "a failure here is a failed test")]

mod any_edit;

use acceptance::kinds::Kind;
use any_edit::Drawn;
use fit_desk::{AfterChange, Changed, Command, Desk, Effect, Gesture, Saying, Setup, Told};
use fit_doc::edit::{cockpit_number, lever_number};
use fit_doc::{CockpitEdit, Edit, HandPlace, Quantity, Session, UndoStep};
use fit_math::frame::Side;
use fit_view::weigh::Survey;
use proptest::prelude::*;
use proptest::test_runner::TestRunner;
use std::cell::RefCell;
use std::collections::BTreeMap;
use std::path::{Path, PathBuf};
use std::sync::{Arc, LazyLock};

static SETUP: LazyLock<(Arc<Setup>, Session)> = LazyLock::new(|| {
    let folder = acceptance::root().join("sessions");
    let demo = fit_file::open(&folder.join("demo.session.ron")).expect("the demo opens").session;
    let setup =
        Setup { survey: Survey::shipped().unwrap(), stock: fit_file::stock::shipped().unwrap() };
    (Arc::new(setup), demo)
});

fn desk() -> Desk {
    Desk::new(Arc::clone(&SETUP.0), SETUP.1.clone(), None).expect("the demo can be weighed")
}

/// The same as a pull: some numbers on the way, then the last, all of one movement.
fn pulled(command: Command, gesture: Gesture) -> Vec<Command> {
    let Command::Edit(Edit::Cockpit { visit, id, change }, None) = command else {
        return vec![command];
    };
    let CockpitEdit::Number { quantity, to } = change else {
        return vec![Command::Edit(Edit::Cockpit { visit, id, change }, None)];
    };
    let part = |off: f64| {
        let change = CockpitEdit::Number { quantity, to: to + off };
        Command::Edit(Edit::Cockpit { visit, id: id.clone(), change }, Some(gesture))
    };
    [2.0, -1.0, 0.0].map(part).into()
}

/// What is done for one choice: each a step of its own, the last one perhaps a pull.
fn done(desk: &Desk, (which, drawn): (usize, Drawn), gesture: Gesture) -> Vec<Vec<Command>> {
    let kinds = Kind::all();
    let Some(&kind) = kinds.get(which) else {
        return vec![vec![any_edit::other(desk, which - kinds.len(), drawn)]];
    };
    let edits = any_edit::edits(desk, kind, drawn);
    assert_eq!(edits.last().map(Kind::of), Some(kind), "what was asked for");
    let commands = edits.into_iter().map(|edit| Command::Edit(edit, None));
    commands.map(|of| if drawn.flag { pulled(of, gesture) } else { vec![of] }).collect()
}

/// Something a user might do next; every number lies in what the trade sees, a few beyond.
fn any_choice() -> impl Strategy<Value = (usize, Drawn)> {
    let which = 0..Kind::all().len() + any_edit::OTHERS;
    (which, any::<u32>(), -0.2..1.2, any::<bool>())
        .prop_map(|(which, pick, share, flag)| (which, Drawn { pick: pick as usize, share, flag }))
}

/// Undo takes back exactly what was done, redo brings exactly it again, and a session is modified
/// exactly when it differs from what was opened; whatever is done by a pull is one step.
#[test]
fn undo_to_the_start_is_the_opened_file() {
    let (mut steps, mut kinds) = (0, BTreeMap::<Kind, usize>::new());
    let seen = RefCell::new((&mut steps, &mut kinds));
    let mut runner = TestRunner::new(ProptestConfig::with_cases(96));
    let todo = prop::collection::vec(any_choice(), 1..60);
    let run = |todo: Vec<(usize, Drawn)>| {
        let mut desk = desk();
        let mut kept = vec![desk.session().clone()];
        for (gesture, choice) in (0..).zip(todo) {
            for wished in done(&desk, choice, Gesture(gesture)) {
                let before = desk.session().clone();
                let kind = match wished.last() {
                    Some(Command::Edit(edit, _)) => Some(Kind::of(edit)),
                    _ => None,
                };
                for part in wished {
                    prop_assert!(desk.apply(part).is_empty());
                    prop_assert!(fit_doc::check(desk.session()).refused.is_empty());
                }
                if *desk.session() != before {
                    kept.push(desk.session().clone());
                    prop_assert!(desk.modified() && desk.can_redo().is_none());
                    if let Some(kind) = kind {
                        *seen.borrow_mut().1.entry(kind).or_default() += 1;
                    }
                }
                prop_assert!(desk.selected().is_some());
            }
        }
        *seen.borrow_mut().0 += kept.len() - 1;
        for expected in kept.iter().rev() {
            prop_assert_eq!(desk.session(), expected);
            desk.apply(Command::Undo);
        }
        prop_assert!(!desk.modified() && desk.can_undo().is_none());
        for expected in &kept {
            prop_assert_eq!(desk.session(), expected);
            desk.apply(Command::Redo);
        }
        prop_assert!(desk.can_redo().is_none());
        Ok(())
    };
    runner.run(&todo, run).unwrap();
    println!("{steps} steps: {kinds:?}");
    assert!(steps > 400, "too much is refused: {steps} steps");
    let never: Vec<Kind> = Kind::all().into_iter().filter(|of| !kinds.contains_key(of)).collect();
    assert!(never.is_empty(), "kinds of change that were never taken: {never:?}");
}

fn roll(desk: &Desk) -> f64 {
    cockpit_number(desk.selected().unwrap(), Quantity::Roll).unwrap()
}

fn set_roll(desk: &mut Desk, to: f64, gesture: Option<Gesture>) {
    let (visit, id) = (desk.look().visit, desk.look().selected.clone());
    let change = CockpitEdit::Number { quantity: Quantity::Roll, to };
    desk.apply(Command::Edit(Edit::Cockpit { visit, id, change }, gesture));
}

#[test]
fn a_drag_is_one_step_from_where_it_began_to_where_it_ended() {
    let mut desk = desk();
    let began = roll(&desk);
    for tenth in 1..=20_i32 {
        set_roll(&mut desk, began + f64::from(tenth) / 10.0, Some(Gesture(1)));
    }
    let Some(UndoStep::Number { from, to, .. }) = desk.can_undo() else { panic!("a number") };
    assert_eq!((*from, *to), (Some(began), Some(began + 2.0)));
    set_roll(&mut desk, began + 3.0, Some(Gesture(2)));
    desk.apply(Command::Undo);
    assert_eq!(roll(&desk), began + 2.0, "another gesture is another step");
    desk.apply(Command::Undo);
    assert_eq!(roll(&desk), began);
    assert!(!desk.modified());
}

#[test]
fn a_drag_that_ends_where_it_began_leaves_no_step() {
    let mut desk = desk();
    let began = roll(&desk);
    for to in [began + 1.0, began + 2.0, began] {
        set_roll(&mut desk, to, Some(Gesture(7)));
    }
    assert!(desk.can_undo().is_none() && !desk.modified());
}

#[test]
fn after_an_undo_the_same_gesture_does_not_eat_an_older_step() {
    let mut desk = desk();
    let began = roll(&desk);
    set_roll(&mut desk, began + 1.0, Some(Gesture(1)));
    set_roll(&mut desk, began + 2.0, None);
    desk.apply(Command::Undo);
    set_roll(&mut desk, began + 3.0, Some(Gesture(1)));
    desk.apply(Command::Undo);
    assert_eq!(roll(&desk), began + 1.0);
}

#[test]
fn a_drag_given_up_leaves_nothing_and_only_itself_goes() {
    let mut desk = desk();
    let began = roll(&desk);
    set_roll(&mut desk, began + 1.0, None);
    set_roll(&mut desk, began + 2.0, Some(Gesture(3)));
    set_roll(&mut desk, began + 3.0, Some(Gesture(3)));
    desk.apply(Command::GiveUp(Gesture(3)));
    assert_eq!(roll(&desk), began + 1.0);
    assert!(desk.can_redo().is_none());
    desk.apply(Command::GiveUp(Gesture(3)));
    assert_eq!(roll(&desk), began + 1.0);
    desk.apply(Command::Undo);
    assert!(!desk.modified());
}

#[test]
fn two_typed_changes_are_two_steps() {
    let mut desk = desk();
    let began = roll(&desk);
    set_roll(&mut desk, began + 1.0, None);
    set_roll(&mut desk, began + 2.0, None);
    desk.apply(Command::Undo);
    assert_eq!(roll(&desk), began + 1.0);
}

#[test]
fn what_cannot_be_is_refused_said_and_changes_nothing() {
    let mut desk = desk();
    let before = desk.session().clone();
    set_roll(&mut desk, f64::NAN, None);
    set_roll(&mut desk, 90.0, None);
    assert_eq!(*desk.session(), before);
    assert_eq!(desk.told().len(), 1);
    assert!(desk.can_undo().is_none());
}

#[test]
fn another_bar_keeps_the_heading_of_the_levers() {
    let mut desk = desk();
    let along = |desk: &Desk| {
        let levers = desk.selected().unwrap().levers.clone().unwrap();
        lever_number(&levers.right, Quantity::LeverAlong).unwrap()
    };
    let came = desk.visit().unwrap().as_it_came.id.clone();
    desk.apply(Command::Select(came));
    let before = along(&desk);
    desk.apply(Command::AddFromStock("bar-compact-standard-400".into()));
    let after = along(&desk);
    assert!((after - before).abs() > 15.0, "a deep bend's distance is not a compact one's");
    let turned = |m: &fit_doc::Message| matches!(m, fit_doc::Message::LeverTurned { .. });
    assert!(!desk.weighed().notes.iter().any(turned), "{:?}", desk.weighed().notes);
}

#[test]
fn matching_the_hoods_brings_them_back_and_is_one_step() {
    let mut desk = desk();
    desk.apply(Command::AddFromStock("bar-compact-standard-400".into()));
    let id = desk.look().selected.clone();
    let off = |desk: &Desk| {
        let weighed = desk.weighed();
        let hoods = |id: &str| {
            let cockpit = weighed.cockpits.iter().find(|c| c.id == id).unwrap();
            cockpit.places[&HandPlace::Hoods].grips.right.centre.truncate()
        };
        hoods(&id).distance(hoods(&weighed.cockpits[0].id))
    };
    let before = off(&desk);
    let state = desk.session().clone();
    desk.apply(Command::Match(id.clone(), HandPlace::Hoods));
    let after = off(&desk);
    assert!(after < 3.0 && after < before, "{before} mm became {after} mm");
    // how far the hoods turn is told with it: the line along a hood, seen from the side
    let points_deg = |index: usize| {
        let axis = desk.weighed().cockpits[index].places[&HandPlace::Hoods].grips.right.axis;
        axis.y.atan2(axis.x).to_degrees()
    };
    let by = points_deg(desk.weighed().cockpits.len() - 1) - points_deg(0);
    let [Told { text: Saying::Matched { turned_deg, .. }, .. }] = desk.told() else {
        panic!("{:?}", desk.told())
    };
    assert!((turned_deg - by).abs() < 0.02 && by.abs() > 0.5, "{turned_deg} {by}");
    desk.apply(Command::Undo);
    assert_eq!(*desk.session(), state);
}

/// The table, the sheet and the output speak of the middle of both hands, so that is brought back.
#[test]
fn levers_set_differently_are_brought_back_to_the_middle_of_both() {
    let mut desk = desk();
    let came = desk.weighed().cockpits[0].id.clone();
    let levers = desk.visit().unwrap().as_it_came.levers.clone().unwrap();
    let uneven = (levers.left.along_mm - levers.right.along_mm).abs();
    assert!(uneven > 2.0, "the demo's levers stand {uneven} mm apart");
    desk.apply(Command::Duplicate(came.clone()));
    let id = desk.look().selected.clone();
    // the left one beside the right one
    let (side, quantity) = (Some(Side::Left), Quantity::LeverAlong);
    let change = CockpitEdit::Lever { side, quantity, to: levers.right.along_mm };
    let edit = Edit::Cockpit { visit: desk.look().visit, id: id.clone(), change };
    desk.apply(Command::Edit(edit, None));
    let off = |desk: &Desk| {
        let of = |id: &str| {
            let cockpit = desk.weighed().cockpits.iter().find(|c| c.id == id).unwrap();
            let grips = cockpit.places[&HandPlace::Hoods].grips;
            (grips.left.centre.truncate() + grips.right.centre.truncate()) / 2.0
        };
        of(&id).distance(of(&came))
    };
    let before = off(&desk);
    desk.apply(Command::Match(id.clone(), HandPlace::Hoods));
    let after = off(&desk);
    println!("{before:.2} mm off, then {after:.2}");
    assert!(before > 1.0 && after < 0.6, "{before} mm became {after} mm");
}

#[test]
fn a_bar_of_another_clamp_comes_with_a_stem_that_takes_it() {
    let mut desk = desk();
    let old = desk.stock().bars.iter().find(|bar| bar.clamp_diameter_mm < 27.0).unwrap().clone();
    desk.apply(Command::AddFromStock(old.id.clone()));
    let selected = desk.selected().unwrap();
    assert!(desk.told().is_empty(), "{:?}", desk.told());
    assert_eq!(selected.bar.id, old.id);
    assert_eq!(selected.stem.bar_diameter_mm, old.clamp_diameter_mm);
}

#[test]
fn closing_with_changes_asks_and_without_does_not() {
    let mut clean = desk();
    assert_eq!(clean.apply(Command::Close), [Effect::Quit]);
    let mut desk = desk();
    let to = roll(&desk) + 1.0;
    set_roll(&mut desk, to, None);
    assert!(desk.apply(Command::Close).is_empty() && desk.question());
    desk.apply(Command::Answer(fit_desk::Answer::Cancel));
    assert!(!desk.question() && desk.modified());
    desk.apply(Command::Close);
    assert_eq!(desk.apply(Command::Answer(fit_desk::Answer::Discard)), [Effect::Quit]);
}

#[test]
fn a_new_client_takes_the_desk_and_begins_with_who_it_is() {
    let mut desk = desk();
    assert_eq!(desk.apply(Command::New), [Effect::Begin]);
    let mut new = SETUP.1.clone();
    new.client.name = String::new();
    desk.apply(Command::Begun(Box::new(new.clone())));
    assert_eq!((desk.session(), desk.look().room), (&new, fit_desk::Room::Who));
    assert!(!desk.modified() && desk.file().is_none() && desk.can_undo().is_none());
}

#[test]
fn saving_before_closing_quits_once_it_is_saved_and_not_before() {
    let mut desk = desk();
    let to = roll(&desk) + 1.0;
    set_roll(&mut desk, to, None);
    desk.apply(Command::Close);
    let asked = desk.apply(Command::Answer(fit_desk::Answer::Save));
    let [Effect::AskSave { path }] = &asked[..] else { panic!("{asked:?}") };
    assert_eq!(path, Path::new("torvald-ekenbrink.session.ron"));
    let wrote = desk.apply(save_to("a.session.ron"));
    let [Effect::Write { path, revision, session, replace: false }] = &wrote[..] else {
        panic!("{wrote:?}")
    };
    assert_eq!(**session, *desk.session());
    let told = vec![];
    let (path, revision) = (path.clone(), *revision);
    let saved = Command::Saved { path, revision, notices: told };
    assert_eq!(desk.apply(saved), [Effect::Quit]);
    assert!(!desk.modified());
}

#[test]
fn a_save_that_fails_keeps_the_window_and_everything_in_it() {
    let mut desk = desk();
    let to = roll(&desk) + 1.0;
    set_roll(&mut desk, to, None);
    desk.apply(Command::Close);
    desk.apply(Command::Answer(fit_desk::Answer::Save));
    desk.apply(save_to("a.session.ron"));
    let failed = fit_doc::Message::MarkedReadOnly { path: "a".into() };
    assert!(desk.apply(Command::NotSaved(vec![fit_desk::Told::error(failed)])).is_empty());
    assert!(desk.modified() && desk.told().len() == 1);
    let (path, revision) = ("b.session.ron".into(), desk.revision());
    let saved = Command::Saved { path, revision, notices: vec![] };
    assert!(desk.apply(saved).is_empty(), "the close was given up with the save that failed");
}

#[test]
fn undoing_past_a_save_is_modified_again() {
    let mut desk = desk();
    let to = roll(&desk) + 1.0;
    set_roll(&mut desk, to, None);
    let revision = desk.revision();
    desk.apply(Command::Saved { path: "a".into(), revision, notices: vec![] });
    assert!(!desk.modified());
    desk.apply(Command::Undo);
    assert!(desk.modified(), "the file holds the later state");
    desk.apply(Command::Redo);
    assert!(!desk.modified());
}

fn save_to(path: &str) -> Command {
    Command::SavePath { path: path.into(), replace: false }
}

/// What would be written, and whether over a file that lies there.
fn written(effects: &[Effect]) -> (&Path, bool) {
    let [Effect::Write { path, replace, .. }] = effects else { panic!("{effects:?}") };
    (path, *replace)
}

#[test]
fn another_file_is_written_over_only_when_that_was_agreed_to() {
    let mut desk = desk();
    let effects = desk.apply(save_to("theirs"));
    assert_eq!(written(&effects), (Path::new("theirs.session.ron"), false));
    let there = PathBuf::from("theirs.session.ron");
    assert!(desk.apply(Command::Exists(there.clone())).is_empty());
    assert_eq!(desk.replaces(), Some(&*there));
    // no: back to the name that was given
    let again = desk.apply(Command::Replace(false));
    assert_eq!(again, [Effect::AskSave { path: there.clone() }]);
    assert_eq!(desk.replaces(), None);
    desk.apply(Command::Exists(there.clone()));
    let effects = desk.apply(Command::Replace(true));
    assert_eq!(written(&effects), (&*there, true));
    let revision = desk.revision();
    desk.apply(Command::Saved { path: there.clone(), revision, notices: vec![] });
    // its own file is its own, as it was seen: what somebody else put there is asked about
    assert_eq!(written(&desk.apply(Command::Save)), (&*there, false));
    assert_eq!(written(&desk.apply(save_to("theirs"))), (&*there, false));
    let changed = Changed { path: there.clone(), gone: false };
    for (answer, open) in [(AfterChange::KeepBoth, false), (AfterChange::OpenTheirs, true)] {
        desk.apply(Command::Changed(changed.clone()));
        assert_eq!(desk.changed(), Some(&changed));
        let effects = desk.apply(Command::AfterChange(answer));
        let [Effect::WriteBeside { path, open: then, .. }] = &effects[..] else {
            panic!("{effects:?}")
        };
        assert_eq!((path, *then, desk.asks()), (&there, open, false));
    }
    desk.apply(Command::Changed(changed.clone()));
    assert!(desk.apply(Command::AfterChange(AfterChange::Cancel)).is_empty());
    desk.apply(Command::Changed(changed));
    let effects = desk.apply(Command::AfterChange(AfterChange::PutMine));
    assert_eq!(written(&effects), (&*there, true));
    assert_eq!(written(&desk.apply(save_to("others.ron"))), (Path::new("others.ron"), false));
    // agreed to one name, it is not agreed to the name with an ending
    let agreed = Command::SavePath { path: "some".into(), replace: true };
    assert_eq!(written(&desk.apply(agreed)), (Path::new("some.session.ron"), false));
    let agreed = Command::SavePath { path: "some.ron".into(), replace: true };
    assert_eq!(written(&desk.apply(agreed)), (Path::new("some.ron"), true));
}

#[test]
fn what_is_changed_while_a_file_is_being_read_is_not_lost() {
    let opened = || Command::Opened {
        path: "late.session.ron".into(),
        session: Box::new(SETUP.1.clone()),
        notices: vec![],
        read_only: false,
    };
    let mut desk = desk();
    let read = Effect::Read("late.session.ron".into());
    let asked = desk.apply(Command::OpenPath("late.session.ron".into()));
    assert_eq!(asked, core::slice::from_ref(&read));
    let to = roll(&desk) + 1.0;
    set_roll(&mut desk, to, None);
    assert!(desk.apply(opened()).is_empty() && desk.question());
    assert_eq!((roll(&desk), desk.file()), (to, None));
    // given up knowingly it is read again and put down
    assert_eq!(desk.apply(Command::Answer(fit_desk::Answer::Discard)), [read]);
    desk.apply(opened());
    assert_eq!(desk.file(), Some(Path::new("late.session.ron")));
    assert!(!desk.modified() && roll(&desk) != to);
}

/// A part that does not fit, or a steerer that is too short, must never be proposed: of the stock's
/// stems some are for 25.4 mm steerers.
#[test]
fn match_takes_no_stem_that_does_not_fit_and_no_steerer_that_is_not_there() {
    let stock = &SETUP.0.stock;
    let other_steerer = stock.stems.iter().filter(|s| s.steerer_diameter_mm < 28.0).count();
    assert!(other_steerer >= 2, "{other_steerer}");
    let mut taken = 0;
    for steerer_mm in [25.4, 28.6] {
        let mut session = SETUP.1.clone();
        let visit = Arc::make_mut(&mut session.visits[0]);
        visit.bench.clear();
        visit.as_it_came.spacers_mm = 5.0;
        visit.as_it_came.stem.steerer_diameter_mm = steerer_mm;
        let mut desk = Desk::new(Arc::clone(&SETUP.0), session, None).unwrap();
        for bar in stock.bars.iter().step_by(7).filter(|bar| bar.one_piece.is_none()) {
            desk.apply(Command::AddFromStock(bar.id.clone()));
            let added = desk.selected().unwrap().clone();
            assert!(!added.ridden, "{}: a new bar was never ridden", added.label);
            let changed = added.stem != SETUP.1.visits[0].as_it_came.stem;
            assert_eq!(added.stem.steerer_diameter_mm, steerer_mm, "{}", added.label);
            taken += usize::from(changed);
            // as low as it goes: bringing the hoods back asks for all the spacers there are
            set_number(&mut desk, Quantity::Spacers, 0.0);
            set_number(&mut desk, Quantity::StemAngle, -35.0);
            desk.apply(Command::Match(added.id.clone(), HandPlace::Hoods));
            let found = desk.selected().unwrap();
            assert_eq!(found.stem.steerer_diameter_mm, steerer_mm, "{}", found.label);
            assert_eq!(found.stem.bar_diameter_mm, added.stem.bar_diameter_mm, "{}", found.label);
            assert!(found.spacers_mm <= 5.0, "{}: {}", found.label, found.spacers_mm);
        }
    }
    assert!(taken > 3, "hardly a stem was taken from stock: {taken}");
}

fn set_number(desk: &mut Desk, quantity: Quantity, to: f64) {
    let (visit, id) = (desk.look().visit, desk.look().selected.clone());
    let change = CockpitEdit::Number { quantity, to };
    desk.apply(Command::Edit(Edit::Cockpit { visit, id, change }, None));
}

/// A thousand steps are kept; of more the oldest go.
#[test]
fn the_oldest_steps_go_first() {
    let mut desk = desk();
    let began = roll(&desk);
    let rolled = |step: i32| began + f64::from(step) / 1000.0;
    for step in 1..=1003 {
        set_roll(&mut desk, rolled(step), None);
    }
    let mut steps = 0;
    while desk.can_undo().is_some() {
        desk.apply(Command::Undo);
        steps += 1;
    }
    assert_eq!((steps, roll(&desk)), (1000, rolled(3)));
}

/// A saddle height corrected after the candidates were put up is theirs as well, unless theirs was
/// another already.
#[test]
fn a_saddle_put_right_on_the_bike_is_put_right_for_the_candidates_that_had_it() {
    let mut desk = desk();
    let visit = desk.look().visit;
    let heights = |desk: &Desk| -> Vec<f64> {
        desk.visit().unwrap().cockpits().map(|of| of.saddle.height_mm).collect()
    };
    let set = |desk: &mut Desk, id: String, to: f64| {
        let change = CockpitEdit::Number { quantity: Quantity::SaddleHeight, to };
        desk.apply(Command::Edit(Edit::Cockpit { visit, id, change }, None));
    };
    let before = heights(&desk);
    let (came, own) = (desk.visit().unwrap().as_it_came.id.clone(), &desk.visit().unwrap().bench);
    let own = own[1].id.clone();
    set(&mut desk, own, before[0] + 5.0);
    set(&mut desk, came, before[0] + 12.0);
    for (index, height) in heights(&desk).into_iter().enumerate() {
        assert_eq!(height, before[0] + if index == 2 { 5.0 } else { 12.0 }, "cockpit {index}");
    }
    desk.apply(Command::Undo);
    desk.apply(Command::Undo);
    assert_eq!(heights(&desk), before, "one step each");
}

/// +10 mm of saddle height is +9.6 of depth and +2.8 of reach (common practice for a post at about 73°;
/// plane geometry): what is put right is pulled out along the post, what is measured stays.
#[test]
fn a_saddle_that_is_tried_higher_goes_back_along_its_post() {
    let mut desk = desk();
    let visit = desk.look().visit;
    desk.apply(Command::Edit(Edit::PutSaddleRight { visit, label: "put right".into() }, None));
    let put_right = desk.visit().unwrap().put_right.clone().unwrap();
    assert!(!desk.visit().unwrap().cockpit(&put_right).unwrap().ridden, "nobody rode it yet");
    let seat = desk.session().bikes[0].frame.seat_angle_deg.to_radians();
    let sit = |desk: &Desk, id: &str| {
        let saddle = desk.visit().unwrap().cockpit(id).unwrap().saddle;
        fit_doc::geometry::saddle(&saddle).unwrap().sit_point()
    };
    let came = desk.visit().unwrap().as_it_came.id.clone();
    let ids = [put_right, came];
    for (id, along_the_post) in [(&ids[0], true), (&ids[1], false)] {
        let before = sit(&desk, id);
        let to = desk.visit().unwrap().cockpit(id).unwrap().saddle.height_mm + 10.0;
        let change = CockpitEdit::Number { quantity: Quantity::SaddleHeight, to };
        desk.apply(Command::Edit(Edit::Cockpit { visit, id: id.clone(), change }, None));
        let way = sit(&desk, id) - before;
        if along_the_post {
            let across = way.x * seat.sin() + way.y * seat.cos();
            assert!(across.abs() < 0.06, "on the post's line: {way}");
            assert!((way.x + 2.8).abs() < 0.3 && (way.y - 9.6).abs() < 0.3, "{way}");
        } else {
            assert!(way.x.abs() < 1e-9 && way.y > 9.9, "the nose was measured: {way}");
        }
    }
}
