//! The client's place: what brings the client, what is ruled out and who else is asked, the visit's day as it is typed, and which of several visits is looked at.

use acceptance::window::{SIZE, Window, demo, typed};
use egui::accesskit::Role;
use egui::{Key, Modifiers};
use fit_desk::Room;
use fit_doc::{Complaint, Concern, HandPlace, Message, Quantity, RuleOut, SendOn, Where};
use fit_view::words::{Caption, English, LaterWords, VisitWords, Words};
use std::sync::Arc;

#[test]
fn a_day_that_is_none_stays_with_the_reason_and_the_old_one_holds() {
    let mut window = Window::demo();
    window.key(Modifiers::NONE, Key::F5);
    let start = window.desk().session().clone();
    for typed in ["31.2.2026", "2026-02-30", "", "tomorrow"] {
        window.enter("Day", typed);
        assert_eq!(window.value(Role::TextInput, "Day"), typed);
        assert_eq!(window.texts("is no day").len(), 1, "“{typed}”");
        assert_eq!(window.desk().session(), &start, "“{typed}”");
        // going to and fro throws nothing away
        window.key(Modifiers::NONE, Key::F8);
        window.key(Modifiers::NONE, Key::F5);
        assert_eq!(window.value(Role::TextInput, "Day"), typed);
    }
    window.enter("Day", " 2026-05-01 ");
    assert_eq!(window.value(Role::TextInput, "Day"), "2026-05-01");
    assert!(window.texts("is no day").is_empty());
    assert_eq!(window.desk().visit().unwrap().date.to_string(), "2026-05-01");
    // Escape brings back what stood there
    window.type_into("Day", "nonsense");
    window.key(Modifiers::NONE, Key::Escape);
    assert_eq!(window.value(Role::TextInput, "Day"), "2026-05-01");
}

#[test]
fn an_earlier_visit_can_be_looked_at_and_nothing_in_it_changes() {
    let mut session = demo();
    let mut earlier = (**session.visits.last().unwrap()).clone();
    earlier.date = "2025-10-02".parse().unwrap();
    earlier.notes = "the first time".to_owned();
    earlier.bench.truncate(1);
    session.visits.insert(0, Arc::new(earlier));
    let mut window = Window::with(session.clone(), SIZE);
    assert_eq!(window.desk().look().visit, 1);
    window.key(Modifiers::NONE, Key::F5);
    window.press(Role::ComboBox, "Visit looked at");
    window.press(Role::Button, "All-road bike · visit of 2025-10-02");
    assert_eq!(window.desk().look().visit, 0);
    assert_eq!(window.value(Role::MultilineTextInput, "Notes about the visit"), "the first time");
    assert_eq!(window.desk().weighed().cockpits.len(), 2);
    assert!(!window.desk().modified());
    assert_eq!(window.desk().session(), &session);
    // whatever is typed, pressed or pulled there: it says that it is closed, and stays
    let closed = |window: &Window| {
        let said = window.texts("so nothing is changed at it any more").len();
        (said, window.desk().session() == &session && !window.desk().modified())
    };
    window.enter("Day", "2025-10-03");
    assert_eq!(closed(&window), (1, true));
    window.press(Role::RadioButton, "left knee");
    assert_eq!(closed(&window), (1, true));
    window.key(Modifiers::NONE, Key::F6);
    window.enter("shoulder width", "412");
    assert_eq!(closed(&window), (1, true));
    window.key(Modifiers::NONE, Key::F7);
    window.enter("axle to saddle top", "700");
    assert_eq!(closed(&window), (1, true));
    window.key(Modifiers::NONE, Key::F8);
    window.key(Modifiers::NONE, Key::Escape);
    for (modifiers, key) in
        [(Modifiers::NONE, Key::T), (Modifiers::NONE, Key::Delete), (Modifiers::COMMAND, Key::D)]
    {
        window.key(modifiers, key);
        assert_eq!(closed(&window), (1, true), "{key:?}");
    }
    window.enter("roll of the bar", "3");
    assert_eq!(closed(&window), (1, true));
}

/// Where it hurts is tapped; the score is asked next, and the saddle comes first.
#[test]
fn a_place_on_the_body_is_tapped_scored_and_sends_to_the_saddle_first() {
    let mut session = demo();
    Arc::make_mut(session.visits.last_mut().unwrap()).complaints.clear();
    let mut window = Window::with(session, SIZE);
    window.key(Modifiers::NONE, Key::F5);
    let complaints = |window: &Window| window.desk().visit().unwrap().complaints.clone();
    let held = |window: &Window| window.texts("The saddle first (").len();
    assert_eq!(held(&window), 0, "nothing to hold back");
    window.press(Role::RadioButton, "left knee");
    assert_eq!(window.focused().unwrap().name, "How bad, 0 to 10");
    window.type_text("7");
    window.key(Modifiers::NONE, Key::Enter);
    let found = &complaints(&window)[..];
    let [knee] = found else { panic!("{found:?}") };
    assert_eq!((knee.about, knee.side, knee.score), (Concern::Knees, Where::Left, Some(7)));
    // tapped again it is the same one
    window.press(Role::RadioButton, "left knee");
    assert_eq!(complaints(&window).len(), 1);
    assert_eq!(held(&window), 1);
    for item in RuleOut::SADDLE {
        let name = format!("The saddle first: {}: done", English.rule_out(item));
        window.press(Role::RadioButton, &name);
    }
    assert_eq!(held(&window), 0, "looked at");
    window.press(
        Role::RadioButton,
        &format!("The saddle first: {}: not now", English.rule_out(RuleOut::Cleats)),
    );
    assert_eq!(held(&window), 1, "what is left for now was not looked at");
    // tapped, scored, four looked at, one put off: a step each
    for _ in 0..7 {
        window.key(Modifiers::COMMAND, Key::Z);
    }
    assert!(complaints(&window).is_empty() && window.desk().visit().unwrap().ruled_out.is_empty());
}

/// What is on both sides is marked on both places of the outline, and a tap on either comes to it; what is
/// on one side is marked there. The same goes for what stands in words beside it.
#[test]
fn what_is_on_both_sides_is_marked_on_both() {
    let mut session = demo();
    Arc::make_mut(session.visits.last_mut().unwrap()).complaints.clear();
    let mut window = Window::with(session, SIZE);
    window.key(Modifiers::NONE, Key::F5);
    let places = ["left hand", "right hand"];
    let marked = |window: &Window| places.map(|name| window.is_on(Role::RadioButton, name));
    let all = |window: &Window| window.desk().visit().unwrap().complaints.clone();
    assert_eq!(marked(&window), [false; 2]);
    window.press(Role::RadioButton, "left hand");
    window.type_text("5");
    window.key(Modifiers::NONE, Key::Enter);
    assert_eq!(marked(&window), [true, false]);
    window.reach_and_press(Role::ComboBox, "Side");
    window.press(Role::Button, "both, or the middle");
    assert_eq!(all(&window)[0].side, Where::Both);
    assert_eq!(marked(&window), [true; 2]);
    for name in places {
        window.reach_and_press(Role::RadioButton, name);
        assert_eq!(window.focused().unwrap().name, "How bad, 0 to 10", "{name}");
        assert_eq!(all(&window).len(), 1, "{name} is there already");
    }
    // what has its place in the middle is marked on the side that it is on, and can join on the other
    let middle = [
        (Concern::Neck, "neck"),
        (Concern::LowBack, "low back"),
        (Concern::Seat, "side where the saddle bears"),
    ];
    for (about, name) in middle {
        let mut to = vec![Complaint::about(about, Where::Left)];
        to[0].score = Some(4);
        let edited = fit_doc::Edit::Complaints { visit: 0, to: to.clone() };
        let session = edited.apply(window.desk().session()).unwrap().0;
        let mut window = Window::with(session, SIZE);
        window.key(Modifiers::NONE, Key::F5);
        let names = ["left", "right"].map(|side| format!("{side} {name}"));
        let on =
            |window: &Window| names.each_ref().map(|name| window.is_on(Role::RadioButton, name));
        assert_eq!(on(&window), [true, false], "{name}");
        window.press(Role::RadioButton, &names[0]);
        assert_eq!(all(&window), to, "it is there already");
        window.press(Role::RadioButton, &names[1]);
        window.type_text("3");
        window.key(Modifiers::NONE, Key::Enter);
        assert_eq!(all(&window)[1].about, about);
        assert_eq!((all(&window)[1].side, all(&window)[1].score), (Where::Right, Some(3)));
        assert_eq!(on(&window), [true; 2], "{name}");
    }
    // brakes of one hand are what stands in words
    let brakes = English.concern(Concern::BrakesFromDrops);
    let mut to = all(&window);
    to[0] = Complaint::about(Concern::BrakesFromDrops, Where::Left);
    let edited = fit_doc::Edit::Complaints { visit: 0, to }.apply(window.desk().session()).unwrap();
    let mut window = Window::with(edited.0, SIZE);
    window.key(Modifiers::NONE, Key::F5);
    assert!(window.is_on(Role::RadioButton, brakes));
    window.press(Role::RadioButton, brakes);
    assert_eq!(all(&window).len(), 1);
}

/// A score of the visit before stands as what it was until it is asked: on the client's card, on the
/// outline, and on the bench.
#[test]
fn a_score_that_was_carried_over_is_not_todays() {
    let follow = fit_doc::Edit::FollowUp { visit: 0, date: "2026-07-11".parse().unwrap() };
    let mut window = Window::with(follow.apply(&demo()).unwrap().0, SIZE);
    let said = |window: &mut Window, piece: &str| {
        window.key(Modifiers::NONE, Key::F8);
        window.texts(piece).len()
    };
    assert_eq!(said(&mut window, "neck, in the drops: was 6 of 10, not asked yet"), 1);
    window.key(Modifiers::NONE, Key::F5);
    assert_eq!(window.painted("6"), 0, "no mark on the outline says so");
    assert_eq!(window.painted("?"), 1);
    window.press(Role::RadioButton, "neck");
    window.type_text("6");
    window.key(Modifiers::NONE, Key::Enter);
    assert_eq!((window.painted("6") > 0, window.painted("?")), (true, 0));
    assert_eq!(said(&mut window, "neck, in the drops: 6 of 10"), 1);
}

#[test]
fn a_place_that_was_only_tapped_is_told_as_not_asked() {
    let mut session = demo();
    Arc::make_mut(session.visits.last_mut().unwrap()).complaints.clear();
    let mut window = Window::with(session, SIZE);
    window.key(Modifiers::NONE, Key::F5);
    let score = |window: &Window| window.desk().visit().unwrap().complaints[0].score;
    window.press(Role::RadioButton, "left knee");
    window.key(Modifiers::NONE, Key::Enter);
    assert_eq!(score(&window), None);
    assert_eq!(window.value(Role::TextInput, "How bad, 0 to 10"), "");
    window.key(Modifiers::NONE, Key::F8);
    assert_eq!(window.texts("knees, left: not asked yet").len(), 1);
    window.key(Modifiers::NONE, Key::F10);
    assert_eq!(window.texts("No complaint was scored.").len(), 1);
    // typed it is one, and taken away it is none again
    window.key(Modifiers::NONE, Key::F5);
    window.enter("How bad, 0 to 10", "4");
    assert_eq!(score(&window), Some(4));
    window.enter("How bad, 0 to 10", "");
    assert_eq!(score(&window), None);
}

#[test]
fn what_sends_on_prompts_at_once() {
    let mut window = Window::demo();
    window.key(Modifiers::NONE, Key::F5);
    for of in SendOn::RED_FLAGS {
        let said = English.send_on(of);
        // what brings the client may ask somebody else already
        let before = window.texts(said).len();
        window.press(Role::RadioButton, English.red_flag(of));
        assert_eq!(window.texts(said).len(), before + 1, "{said}");
    }
    assert_eq!(window.desk().visit().unwrap().interview.red_flags.len(), SendOn::RED_FLAGS.len());
}

/// Under what stops the fit nothing is listed to try, and nothing said to wait for the saddle only.
#[test]
fn where_the_fit_stops_no_place_lists_what_is_tried() {
    const WAITS: &str = "Until then nothing at the bike is tried for it";
    let mut window = Window::demo();
    window.key(Modifiers::NONE, Key::F5);
    window.reach_and_press(Role::DisclosureTriangle, "neck: Then, in this order");
    assert!(window.texts(WAITS).is_empty() && !window.texts("Other bars wait for it").is_empty());
    window.reach_and_press(Role::RadioButton, English.red_flag(SendOn::LegAndBladder));
    for key in [Key::F5, Key::F8, Key::F9] {
        window.key(Modifiers::NONE, key);
        assert!(!window.texts(WAITS).is_empty(), "{key:?}");
        assert!(window.texts("Other bars wait for it").is_empty(), "{key:?}");
        assert!(window.texts("What can come of it").is_empty(), "{key:?}");
    }
}

/// Where a flag sends stands over all that is asked, so that it is read without scrolling also in the
/// smallest window.
#[test]
fn where_a_flag_sends_is_in_sight_at_once() {
    for of in SendOn::RED_FLAGS {
        let mut window = Window::with(demo(), (1024.0, 640.0));
        window.key(Modifiers::NONE, Key::F5);
        window.reach_and_press(Role::RadioButton, English.red_flag(of));
        let said = English.send_on(of);
        let heard = window.heard().into_iter().filter(|heard| heard.name.contains(said));
        let first =
            heard.map(|heard| heard.place).reduce(|a, b| if b.top() < a.top() { b } else { a });
        let place = first.unwrap();
        assert!(place.top() > 0.0 && place.bottom() < 200.0, "{said}: {place:?}");
    }
}

/// As long as a flag stands it is said in every place of work, where a bar is tried and chosen what stops the
/// fit first; and the client does not read it in his view.
#[test]
fn where_a_flag_sends_is_said_in_every_place_until_it_is_taken_away() {
    let mut window = Window::demo();
    let places = [Key::F8, Key::F9, Key::F6, Key::F7, Key::F10];
    for of in SendOn::RED_FLAGS {
        let said = English.send_on(of);
        for stands in [true, false] {
            window.key(Modifiers::NONE, Key::F5);
            window.press(Role::RadioButton, English.red_flag(of));
            for key in places {
                window.key(Modifiers::NONE, key);
                assert_eq!(window.texts(said).len(), usize::from(stands), "{key:?}: {said}");
            }
        }
    }
    window.key(Modifiers::NONE, Key::F5);
    for of in SendOn::RED_FLAGS {
        window.press(Role::RadioButton, English.red_flag(of));
    }
    window.key(Modifiers::NONE, Key::F8);
    let place = |window: &Window, piece: &str| {
        let found = window.heard().into_iter().find(|heard| heard.name.contains(piece));
        found.unwrap_or_else(|| panic!("{piece}")).place
    };
    let (stops, others): (Vec<SendOn>, Vec<SendOn>) =
        SendOn::RED_FLAGS.into_iter().partition(|of| of.stops());
    let others_from = place(&window, English.send_on(others[0])).top();
    assert!(!stops.is_empty());
    for of in stops {
        let stop = place(&window, English.send_on(of));
        assert!(stop.bottom() <= others_from && stop.top() > 0.0, "{stop:?}");
    }
    window.key(Modifiers::NONE, Key::F11);
    // before the client it is said that he is sent, and not what he told
    for of in SendOn::RED_FLAGS {
        assert!(window.texts(English.send_on(of)).is_empty(), "not before the client");
    }
    assert!(!window.texts("please see a doctor today").is_empty());
}

/// What must be said with a complaint, and who else is asked, lies open; the steps are unfolded.
#[test]
fn what_must_be_said_of_a_complaint_lies_open() {
    let mut window = Window::with(demo(), (1280.0, 2400.0));
    window.key(Modifiers::NONE, Key::F5);
    let complaints = window.desk().visit().unwrap().complaints.clone();
    let mut said = 0;
    for complaint in &complaints {
        let advice = complaint.about.advice();
        let must = advice.said.iter().map(|&of| English.must_say(of));
        for text in must.chain(advice.send_on.iter().map(|&of| English.send_on(of))) {
            assert!(!window.texts(text).is_empty(), "{:?}: {text}", complaint.about);
            said += 1;
        }
        let first = complaint.about.attempts(complaint.place)[0];
        assert!(window.texts(English.attempt(first)).is_empty(), "{first:?}");
    }
    assert!(said > 1, "{said} sentences");
}

/// Steps at the hands are not even read before the whole saddle was looked at; those that are none are.
#[test]
fn steps_at_the_hands_wait_for_the_saddle() {
    let (mut waited, mut stood) = (0, 0);
    for about in [Concern::Neck, Concern::Hands, Concern::LowBack] {
        let mut session = demo();
        let visit = Arc::make_mut(session.visits.last_mut().unwrap());
        visit.complaints = vec![Complaint::about(about, Where::Both)];
        visit.ruled_out.clear();
        let attempts = about.attempts(visit.complaints[0].place);
        let mut window = Window::with(session, (1280.0, 2400.0));
        window.key(Modifiers::NONE, Key::F5);
        let then = English.of_it(English.concern(about), English.caption(Caption::ThenInOrder));
        window.press(Role::DisclosureTriangle, &then);
        let shown = |window: &Window, at_the_hands: bool| -> Vec<bool> {
            let numbered = attempts.iter().enumerate();
            let of = numbered.filter(|(_, of)| of.is_at_the_hands() == at_the_hands);
            let lines = of.map(|(at, of)| English.numbered(at + 1, English.attempt(*of)));
            lines.map(|line| window.has(Role::Label, &line)).collect()
        };
        for item in RuleOut::SADDLE {
            assert!(shown(&window, false).into_iter().all(|is| is), "{about:?}, {item:?}");
            assert!(!shown(&window, true).into_iter().any(|is| is), "{about:?}, {item:?}");
            let name = format!("The saddle first: {}: done", English.rule_out(item));
            window.press(Role::RadioButton, &name);
        }
        let all = [true, false].map(|of| shown(&window, of));
        assert!(all.iter().flatten().all(|is| *is), "{about:?}: {all:?}");
        waited += all[0].len();
        stood += all[1].len();
    }
    assert!(waited > 3 && stood > 0, "{waited} waited, {stood} did not");
}

#[test]
fn how_the_time_is_shared_is_summed_and_asked_about() {
    // high enough for all that is asked to be in sight
    let mut window = Window::with(demo(), (1280.0, 1500.0));
    window.key(Modifiers::NONE, Key::F5);
    window.enter("time on the hoods", "70");
    window.enter("time in the drops", "20");
    assert_eq!(window.texts("hands: 90\u{a0}%").len(), 1);
    window.enter("time on the tops", "30");
    let asked = |note: &Message| matches!(note, Message::SharesOverAll { sum: 120, .. });
    assert!(window.desk().weighed().notes.iter().any(asked));
    let shares = &window.desk().visit().unwrap().interview.shares;
    assert_eq!(shares.len(), 3, "{shares:?}");
    // beside the fields, and when the file is opened again without the line of a file
    let text = "The hand places come to 120\u{a0}% of the time, more than all of it";
    assert_eq!(window.texts(text).len(), 1);
    let file = window.folder().join("shares.session.ron");
    window.save_as(&file);
    window.open(&file);
    assert!(
        window
            .desk()
            .told()
            .iter()
            .any(|told| told.text == fit_desk::Saying::Worded(text.to_owned()))
    );
    assert!(window.texts("line ").iter().all(|said| !said.contains("column")));
}

/// In the smallest window the day of the visit stands beside the name, and the rest where it is
/// pointed at.
#[test]
fn which_visit_it_is_can_be_read_in_a_small_window() {
    let (_, session) = acceptance::demo::followed().unwrap();
    let mut window = Window::with(session, (1024.0, 700.0));
    let visit = window.desk().visit().unwrap();
    let (day, bike) = (visit.date.to_string(), &window.desk().session().bikes[0].name);
    let whole = English.bike_and_visit(bike, visit.date);
    let name = English.which_visit(&whole);
    let painted = |window: &mut Window, text: &str| {
        let shapes = &window.harness().output().shapes;
        shapes.iter().any(|of| match &of.shape {
            egui::Shape::Text(of) => of.galley.text() == text && !of.galley.elided,
            _ => false,
        })
    };
    assert!(painted(&mut window, &day) && !painted(&mut window, &whole));
    let at = window.the(Role::Button, &name).rect().center();
    window.harness().hover_at(at);
    window.settle();
    window.harness().run_steps(4);
    assert!(painted(&mut window, &whole), "{whole}");
}

/// A complaint is typed from its score to the client's words, each field ended with Enter; nothing of it
/// is lost or taken for a command, nor what is typed on behind the last.
#[test]
fn a_complaint_is_typed_with_enter_from_field_to_field() {
    let mut window = Window::with(demo(), SIZE);
    window.key(Modifiers::COMMAND, Key::N);
    window.in_one_frame(typed("ada brook\n1981\n 6\n40\nmarch\nstiff in the morning\ntac"));
    let look = window.desk().look();
    assert_eq!((look.room, look.choosing), (Room::Who, false));
    let visit = window.desk().visit().unwrap();
    assert!(visit.rides.is_empty());
    let [complaint] = &visit.complaints[..] else { panic!("one complaint") };
    assert_eq!((complaint.score, complaint.after_minutes), (Some(6), Some(40)));
    assert_eq!(complaint.since, "march");
    assert_eq!(complaint.words, "stiff in the morningtac");
    assert_eq!(
        window.focused().unwrap().name,
        English.caption(Caption::ItsWords),
        "the last one keeps the keyboard"
    );
    window.key(Modifiers::NONE, Key::Enter);
    assert_eq!(window.desk().visit().unwrap().complaints[0].words, "stiff in the morningtac");
}

/// What is ridden, and how the time is shared, by Enter from field to field.
#[test]
fn riding_and_shares_are_typed_with_enter_from_field_to_field() {
    let mut window = Window::with(demo(), (1280.0, 1700.0));
    window.key(Modifiers::COMMAND, Key::N);
    let names: Vec<&str> =
        HandPlace::ALL.map(|place| English.quantity(Quantity::HandShare(place))).to_vec();
    window.press(Role::TextInput, English.caption(Caption::WhatIsRidden));
    window.in_one_frame(typed("road\nnew saddle\nnone\nfalls\n6\n"));
    let asked = window.desk().visit().unwrap().interview.clone();
    let texts = [&asked.riding, &asked.changed_before, &asked.injuries, &asked.fears];
    assert_eq!(texts, ["road", "new saddle", "none", "falls"]);
    assert_eq!(asked.hours_per_week, Some(6.0));
    let percent = [10, 15, 40, 5, 20, 10];
    for (name, percent) in names.iter().zip(percent) {
        assert_eq!(window.focused().unwrap().name, *name);
        window.type_text(&percent.to_string());
        window.key(Modifiers::NONE, Key::Enter);
    }
    let asked = &window.desk().visit().unwrap().interview;
    assert_eq!(HandPlace::ALL.map(|place| asked.share(place)), percent.map(Some));
    assert_eq!(window.focused().unwrap().name, names[names.len() - 1]);
    assert_eq!(window.desk().look().room, Room::Who);
}

/// Where words are typed a letter that misses its field does nothing: no trial begins, no shop opens.
#[test]
fn a_letter_beside_its_field_is_no_command_where_words_are_typed() {
    let mut window = Window::demo();
    window.key(Modifiers::NONE, Key::F5);
    let before = (window.desk().session().clone(), window.desk().look().clone());
    for key in [Key::T, Key::C, Key::R, Key::N, Key::L, Key::Delete, Key::Num3] {
        window.key(Modifiers::NONE, key);
    }
    assert_eq!((window.desk().session().clone(), window.desk().look().clone()), before);
}

/// A saddle that was changed is a number: it is asked to what, and until that is said, and of what was
/// ridden with the old one afterwards, the decision says so and never that it was left alone.
#[test]
fn a_saddle_that_was_changed_is_asked_to_what() {
    let mut session = demo();
    let visit = Arc::make_mut(session.visits.last_mut().unwrap());
    (visit.put_right, visit.ruled_out) = (None, Vec::new());
    let mut window = Window::with(session, (1280.0, 1700.0));
    // ridden with the saddle as it came
    window.key(Modifiers::NONE, Key::T);
    window.type_text("3");
    window.key(Modifiers::NONE, Key::Enter);
    window.key(Modifiers::COMMAND, Key::Enter);
    let left_alone = |window: &mut Window| {
        window.key(Modifiers::NONE, Key::F9);
        let labels = window.texts_of(Role::Label);
        let heading = English.caption(Caption::StaysAsItIs);
        let at = labels.iter().position(|text| text == heading).unwrap();
        labels[at + 1].clone()
    };
    assert!(left_alone(&mut window).contains("saddle height"), "{}", left_alone(&mut window));
    window.key(Modifiers::NONE, Key::F5);
    let changed = window.texts_of(Role::RadioButton).into_iter().find(|name| {
        name.starts_with("The saddle first: saddle height") && name.ends_with(": changed")
    });
    window.press(Role::RadioButton, &changed.unwrap());
    let asks = "Changed to what: saddle height?";
    assert_eq!(window.texts(asks).len(), 1);
    assert!(!left_alone(&mut window).contains("saddle height"), "{}", left_alone(&mut window));
    assert_eq!(window.texts(asks).len(), 1, "the decision asks as well");
    assert_eq!(window.texts("with the saddle as it came").len(), 2, "and of what was ridden");
    // both lead to the number, and the decision to it where it was asked
    window.press(Role::Button, "Put the saddle right");
    assert_eq!(window.focused().unwrap().name, "Saddle put right: saddle height");
    window.key(Modifiers::COMMAND, Key::Z);
    window.key(Modifiers::NONE, Key::F5);
    window.press(Role::Button, "Put the saddle right");
    assert_eq!(window.focused().unwrap().name, "Saddle put right: saddle height");
    let came = window.desk().visit().unwrap().as_it_came.saddle.height_mm;
    window.type_text(&format!("{}", came - 8.0));
    window.key(Modifiers::NONE, Key::Enter);
    assert!(window.texts(asks).is_empty());
    let visit = window.desk().visit().unwrap();
    let put_right = visit.cockpit(visit.put_right.as_deref().unwrap()).unwrap();
    assert_eq!(put_right.saddle.height_mm, came - 8.0);
    assert!(!left_alone(&mut window).contains("saddle height"), "{}", left_alone(&mut window));
    assert_eq!(window.texts("though this was changed: saddle height").len(), 1);
}

/// While one is looked at after the other, nothing of the saddle's list moves under the finger.
#[test]
fn what_of_the_saddle_is_tapped_moves_no_row() {
    for size in [SIZE, (1024.0, 700.0)] {
        let mut session = demo();
        let to = vec![Complaint::about(Concern::Neck, Where::Both)];
        Arc::make_mut(session.visits.last_mut().unwrap()).complaints = to;
        let mut window = Window::with(session, size);
        window.key(Modifiers::NONE, Key::F5);
        let name = |item| {
            format!("{}: {}: done", English.caption(Caption::SaddleFirst), English.rule_out(item))
        };
        let places = |window: &Window| {
            RuleOut::SADDLE.map(|item| window.the(Role::RadioButton, &name(item)).rect().top())
        };
        let before = places(&window);
        for item in RuleOut::SADDLE {
            let on = window.is_on(Role::RadioButton, &name(item));
            window.press(Role::RadioButton, &name(item));
            assert_ne!(window.is_on(Role::RadioButton, &name(item)), on);
            assert_eq!(places(&window), before, "{size:?} {item:?}");
        }
    }
}

/// Of several complaints about one place the outline tells, and a tap comes to, the worst.
#[test]
fn of_several_at_one_place_the_worst_is_told() {
    let mut session = demo();
    let mut to = vec![Complaint::about(Concern::Neck, Where::Both); 3];
    for (of, (score, place)) in to.iter_mut().zip([
        (Some(6), HandPlace::Hoods),
        (Some(8), HandPlace::Drops),
        (None, HandPlace::Tops),
    ]) {
        (of.score, of.place) = (score, Some(place));
    }
    Arc::make_mut(session.visits.last_mut().unwrap()).complaints = to;
    let mut window = Window::with(session, SIZE);
    window.key(Modifiers::NONE, Key::F5);
    window.press(Role::RadioButton, "neck");
    let focused = window.focused().unwrap();
    assert_eq!((focused.name.as_str(), focused.value.as_deref()), ("How bad, 0 to 10", Some("8")));
}
