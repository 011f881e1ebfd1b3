//! What has to fit: nothing pushes a card out of its column, nothing is cut short in the smallest window,
//! and the Tab key walks from field to field.

use acceptance::demo::followed;
use acceptance::window::{SIZE, Window, demo, demo_with};
use egui::accesskit::Role;
use egui::{Key, Modifiers, Rect, Shape};
use fit_desk::{Saying, Told, Tone};
use fit_doc::{Quantity, Session, TapeItem};
use fit_view::words::{DoubtWords, English, Words};

/// The smallest window that all must fit, points.
const SMALL: (f32, f32) = (1024.0, 700.0);

/// Texts that are painted shortened.
fn cut(window: &mut Window) -> Vec<String> {
    fn of(shape: &Shape, cut: &mut Vec<String>) {
        match shape {
            Shape::Vec(all) => all.iter().for_each(|shape| of(shape, cut)),
            Shape::Text(text) if text.galley.elided => cut.push(text.galley.text().to_owned()),
            _ => {}
        }
    }
    let mut all = Vec::new();
    for clipped in &window.harness().output().shapes {
        of(&clipped.shape, &mut all);
    }
    all
}

/// Controls that reach beyond the bar by which their column is scrolled.
fn beyond(window: &Window) -> Vec<String> {
    let heard = window.heard();
    let bars: Vec<f32> =
        heard.iter().filter(|h| h.role == Role::ScrollBar).map(|h| h.place.right()).collect();
    assert!(!bars.is_empty(), "something is scrolled");
    let own = |left: f32| bars.iter().copied().filter(|bar| *bar > left).reduce(f32::min);
    let all = heard.iter().filter(|h| h.works && h.role != Role::ScrollBar && h.place.top() > 60.0);
    let all = all.filter(|h| own(h.place.left()).is_some_and(|bar| h.place.right() > bar + 1.0));
    all.map(|h| format!("{:?} {} {:?}", h.role, h.name, h.place)).collect()
}

fn later(session: Session, size: (f32, f32)) -> Window {
    let mut window = Window::with(session, size);
    window.key(Modifiers::NONE, Key::F10);
    window
}

#[test]
fn a_card_pushes_nothing_out_of_its_column() {
    for size in [SMALL, SIZE] {
        let mut window = Window::with(demo(), size);
        window.key(Modifiers::NONE, Key::F5);
        window.press(Role::RadioButton, "left hand");
        assert_eq!(beyond(&window), Vec::<String>::new(), "{size:?}");
        let mut window = later(followed().unwrap().1, size);
        window.activate(Role::Button, "Note what was heard after the visit");
        assert!(window.texts("Note of").len() == 1);
        assert_eq!(beyond(&window), Vec::<String>::new(), "{size:?}");
    }
}

#[test]
fn nothing_is_cut_short_in_a_small_window() {
    let mut window = later(followed().unwrap().1, SMALL);
    assert_eq!(cut(&mut window), Vec::<String>::new());
    window.activate(Role::Button, "Note what was heard after the visit");
    assert_eq!(cut(&mut window), Vec::<String>::new());
    // whose fit it is, and of which day
    let mut window = Window::with(demo(), SMALL);
    for key in [Key::F5, Key::F6, Key::F7, Key::F8] {
        window.key(Modifiers::NONE, key);
        assert_eq!(cut(&mut window), Vec::<String>::new(), "{key:?}");
    }
    window.key(Modifiers::COMMAND, Key::E);
    assert_eq!(cut(&mut window), Vec::<String>::new(), "details");
}

/// How a reading is taken is read whole, drawing and words, also in the smallest window.
#[test]
fn how_the_tape_is_laid_is_read_whole_in_a_small_window() {
    let mut window = Window::with(demo(), SMALL);
    window.key(Modifiers::NONE, Key::F7);
    for &item in TapeItem::ALL.iter().take(TapeItem::USUAL) {
        let name = English.quantity(Quantity::Tape(item));
        window.reach_and_press(Role::TextInput, name);
        let mut seen = 0;
        for clipped in &window.harness().output().shapes {
            if let Shape::Text(text) = &clipped.shape
                && text.galley.text() == English.how_to_tape(item)
            {
                let place = text.visual_bounding_rect();
                let room = clipped.clip_rect;
                assert!(place.bottom() <= room.bottom().min(668.0), "{name}: {place:?} {room:?}");
                assert!(place.right() <= room.right(), "{name}: {place:?} {room:?}");
                seen += 1;
            }
        }
        assert_eq!(seen, 1, "{name}");
    }
}

/// What is said of a match lies over nothing that is read: the table ends above it, and cards and set-up
/// are beside it.
#[test]
fn what_is_said_of_a_match_covers_no_row_of_the_table() {
    let mut window = Window::with(demo(), SMALL);
    window.press(Role::RadioButton, "Compact 420");
    window.key(Modifiers::COMMAND, Key::H);
    let said = "the hoods are where they were";
    let all = |window: &mut Window| {
        let shapes = &window.harness().output().shapes;
        let texts = shapes.iter().filter_map(|clipped| match &clipped.shape {
            Shape::Text(text) => {
                let seen = text.visual_bounding_rect().intersect(clipped.clip_rect);
                seen.is_positive().then(|| (text.galley.text().to_owned(), seen))
            }
            _ => None,
        });
        texts.collect::<Vec<_>>()
    };
    let painted = all(&mut window);
    let is_it = |text: &str| text.contains(said);
    let notice = painted.iter().find(|(text, _)| is_it(text)).unwrap().1.expand(8.0);
    for (text, place) in painted.iter().filter(|(text, _)| !is_it(text) && text != "×") {
        assert!(!place.intersect(notice).is_positive(), "{text}: {place:?} under {notice:?}");
    }
    assert!(painted.iter().any(|(text, _)| text == "Trunk above level"), "the table is there");
    // it is of the bench, and waits there
    window.key(Modifiers::NONE, Key::F6);
    assert!(window.texts(said).is_empty());
    window.key(Modifiers::NONE, Key::F8);
    assert_eq!(window.texts(said).len(), 1);
}

/// All that is set on an ordinary cockpit is seen at once beside the drawing.
#[test]
fn the_set_up_of_a_cockpit_is_seen_whole() {
    let mut window = Window::demo();
    let labels: Vec<String> =
        window.desk().visit().unwrap().cockpits().map(|of| of.label.clone()).collect();
    let middle = SIZE.0 / 2.0;
    for label in labels {
        window.press(Role::RadioButton, &label);
        let heard = window.heard();
        let scrolled = heard.iter().find(|h| h.role == Role::ScrollBar && h.place.left() > middle);
        assert_eq!(scrolled, None, "{label}");
        let last = window.the(Role::TextInput, English.quantity(Quantity::HandInDrops)).rect();
        let button = window.the(Role::Button, "Choose it").rect();
        assert!(last.bottom() < button.top(), "{label}: {last:?}");
    }
}

/// All that is asked of a bike while it is measured is seen at once, how the tape is laid and the
/// saddle put right among it; so are the frame's other numbers while nothing is measured.
#[test]
fn the_bike_is_measured_without_scrolling() {
    let mut window = Window::demo();
    window.key(Modifiers::NONE, Key::F7);
    window.press(Role::Button, "Put the saddle right");
    let scrolled = |window: &Window| {
        window.heard().into_iter().filter(|h| h.role == Role::ScrollBar).collect::<Vec<_>>()
    };
    let seen = |window: &Window, quantity: Quantity, under: f32| {
        let place = window.the(Role::TextInput, English.quantity(quantity)).rect();
        assert!(place.top() > 60.0 && place.bottom() < under, "{quantity:?}: {place:?}");
    };
    let of_frame = "The frame’s other numbers";
    window.press(Role::DisclosureTriangle, of_frame);
    assert_eq!(scrolled(&window), []);
    seen(&window, Quantity::RearCentre, SIZE.1);
    window.press(Role::DisclosureTriangle, of_frame);
    for &item in &TapeItem::ALL[..TapeItem::USUAL] {
        let name = English.quantity(Quantity::Tape(item));
        window.press(Role::TextInput, name);
        let heard = window.heard();
        let shown = heard.iter().find(|h| h.role == Role::Image && h.name.starts_with(name));
        let how_to = shown.unwrap_or_else(|| panic!("how {name} is taken")).place;
        assert_eq!(scrolled(&window), [], "{name}");
        assert!(how_to.bottom() < SIZE.1, "{name}: {how_to:?}");
        for quantity in [Quantity::SaddleTilt, Quantity::Spacers, Quantity::Roll, Quantity::Crank] {
            seen(&window, quantity, how_to.top());
        }
    }
}

#[test]
fn tab_walks_round_the_bike_from_reading_to_reading_and_back_to_what_stands_beside() {
    let mut window = Window::demo();
    window.key(Modifiers::NONE, Key::F7);
    let walk = &TapeItem::ALL[..TapeItem::USUAL];
    let name = |item: TapeItem| English.quantity(Quantity::Tape(item)).to_owned();
    window.press(Role::TextInput, &name(walk[0]));
    for &item in &walk[1..] {
        window.key(Modifiers::NONE, Key::Tab);
        assert_eq!(window.focused().map(|of| of.name), Some(name(item)));
    }
    // what is typed is taken on the way
    window.press(Role::TextInput, &name(walk[4]));
    window.type_text("545");
    window.key(Modifiers::NONE, Key::Tab);
    assert_eq!(window.value(Role::TextInput, &name(walk[4])), "545");
    assert_eq!(window.focused().map(|of| of.name), Some(name(walk[5])));
    // how the tape is laid is come to from behind
    window.key(Modifiers::SHIFT, Key::Tab);
    assert_eq!(window.focused().map(|of| of.role), Some(Role::ComboBox));
    window.key(Modifiers::SHIFT, Key::Tab);
    assert_eq!(window.focused().map(|of| of.name), Some(name(walk[4])));
}

/// Of several messages one lies over the page, what went wrong first; the others are counted.
#[test]
fn one_message_lies_over_the_page_at_a_time() {
    let mut window = Window::with(demo(), SMALL);
    let long = |word: &str| format!("{word} ").repeat(30);
    let told = |tone, word: &str| Told { tone, text: Saying::Worded(long(word)) };
    let all =
        vec![told(Tone::Notice, "first"), told(Tone::Error, "wrong"), told(Tone::Notice, "last")];
    window.harness().state_mut().tell(all);
    window.settle();
    let shown =
        |window: &Window| ["first", "wrong", "last"].map(|word| window.texts(&long(word)).len());
    assert_eq!(shown(&window), [0, 1, 0]);
    assert_eq!(window.texts("2 more messages are behind this one").len(), 1);
    window.press(Role::Button, "Close this message");
    assert_eq!(shown(&window), [0, 0, 1]);
    window.press(Role::Button, "Close this message");
    assert_eq!(shown(&window), [1, 0, 0]);
}

/// What the ruler reads keeps clear of what is written in the drawing, wherever its ends are.
#[test]
fn the_rulers_plate_lies_on_no_measure() {
    for size in [SMALL, SIZE] {
        let mut window = Window::with(demo(), size);
        window.press(Role::RadioButton, "Flared 440");
        window.key(Modifiers::NONE, Key::M);
        window.key(Modifiers::NONE, Key::D);
        for step in 0..12 {
            window
                .key(Modifiers::SHIFT, if step % 3 == 0 { Key::ArrowUp } else { Key::ArrowRight });
            let plate = window.heard().into_iter().find(|h| h.name.ends_with(" straight")).unwrap();
            let of_drawing =
                ["Side", "Front", "From above", "Ruler", "Measures", "drops", "All in view"];
            let is_of_drawing = |name: &str| of_drawing.contains(&name);
            for heard in window.heard().iter().filter(|h| h.works && is_of_drawing(&h.name)) {
                let both = heard.place.intersect(plate.place);
                assert!(!both.is_positive(), "{size:?} {step}: over {}", heard.name);
            }
            let mut written = Vec::new();
            for clipped in &window.harness().output().shapes {
                if let Shape::Text(text) = &clipped.shape {
                    let said = text.galley.text();
                    let is_measure = ["stem ", "reach ", "drop ", "spacers "].iter().any(|of| {
                        said.strip_prefix(of)
                            .is_some_and(|rest| rest.ends_with("mm") && rest.len() < 9)
                    });
                    if is_measure && clipped.clip_rect.left() > 240.0 {
                        written.push((said.to_owned(), text.visual_bounding_rect()));
                    }
                }
            }
            assert!(written.len() >= 3, "{written:?}");
            for (said, place) in written {
                let both = place.intersect(plate.place);
                assert!(!both.is_positive(), "{size:?} {step}: {said} under {}", plate.name);
            }
        }
    }
}

/// Where there are more cockpits than columns have room, the one that is spoken of stands beside the one as
/// it came; and whatever the size, it is told where the hands are.
#[test]
fn the_selected_cockpit_is_always_in_the_table() {
    let mut window = Window::with(demo_with(5), (1024.0, 640.0));
    let labels: Vec<String> =
        window.desk().visit().unwrap().cockpits().map(|of| of.label.clone()).collect();
    for label in labels.iter().skip(1).rev().chain(&labels[1..]) {
        window.activate(Role::RadioButton, label);
        let first = window.the(Role::ColumnHeader, &labels[0]).rect();
        let column = window.the(Role::ColumnHeader, label).rect();
        assert!((column.left() - first.right()).abs() < 1.0, "{label}: {column:?} {first:?}");
        let set_up = window.the(Role::TextInput, "Name").rect();
        assert!(column.right() < set_up.left(), "{label}: {column:?} {set_up:?}");
        assert_eq!(cut(&mut window), Vec::<String>::new(), "{label}");
    }
}

/// Two to choose between stand beside the one as it came, also in the smallest window.
#[test]
fn two_candidates_stand_beside_as_it_came_in_the_smallest_window() {
    let mut window = Window::with(demo(), (1024.0, 640.0));
    let set_up = window.the(Role::TextInput, "Name").rect();
    let headers = window.heard().into_iter().filter(|of| of.role == Role::ColumnHeader);
    let mut places: Vec<Rect> = headers.map(|of| of.place).collect();
    places.sort_by(|a, b| a.left().total_cmp(&b.left()));
    assert!(places.len() > 3 && places[2].right() < set_up.left(), "{places:?} {set_up:?}");
    assert_eq!(cut(&mut window), Vec::<String>::new());
}

/// What brackets and "same" mean is read whole beside the heading, also after a trial.
#[test]
fn what_the_table_means_is_read_whole() {
    let mut window = Window::demo();
    window.key(Modifiers::NONE, Key::T);
    window.key(Modifiers::COMMAND, Key::Enter);
    assert!(window.has(Role::CheckBox, "Compare with the last trial, or with as it came"));
    let labels: Vec<String> =
        window.desk().visit().unwrap().cockpits().map(|of| of.label.clone()).collect();
    let mut both = 0;
    for label in &labels {
        window.activate(Role::RadioButton, label);
        for key in [Key::Num1, Key::Num2, Key::Num3, Key::Num4] {
            window.key(Modifiers::NONE, key);
            for clipped in &window.harness().output().shapes {
                if let Shape::Text(text) = &clipped.shape
                    && text.galley.text().contains("Same: ")
                {
                    let (place, room) = (text.visual_bounding_rect(), clipped.clip_rect);
                    assert!(!text.galley.elided, "{label} {key:?}: {}", text.galley.text());
                    assert!(room.contains_rect(place), "{label} {key:?}: {place:?} {room:?}");
                    both += usize::from(text.galley.text().contains(English.brackets_mean()));
                }
            }
        }
    }
    assert!(both > 0, "somewhere both are told");
}

/// No change stands in the table without how far chance takes it, however narrow its column: what tells is
/// painted with its ±, what does not in brackets.
#[test]
fn no_change_stands_without_its_doubt_in_a_narrow_column() {
    for size in [(1024.0, 640.0), SIZE] {
        let mut seen = 0;
        for (candidates, key) in [(3, Key::Num3), (3, Key::Num4), (6, Key::Num3), (6, Key::Num4)] {
            let mut window = Window::with(demo_with(candidates), size);
            window.key(Modifiers::NONE, key);
            let table: Vec<(Rect, String)> = window
                .heard()
                .into_iter()
                .filter(|of| of.role == Role::Cell && of.name.contains(" ±"))
                .map(|of| (of.place, of.name))
                .collect();
            assert!(!table.is_empty());
            let painted: Vec<(Rect, Rect, String)> = window
                .harness()
                .output()
                .shapes
                .iter()
                .filter_map(|clipped| match &clipped.shape {
                    Shape::Text(text) => {
                        let place = text.visual_bounding_rect();
                        Some((place, clipped.clip_rect, text.galley.text().to_owned()))
                    }
                    _ => None,
                })
                .collect();
            for (cell, name) in &table {
                let there = |text: &str| {
                    painted.iter().any(|(place, clip, of)| {
                        of == text
                            && cell.expand(3.0).contains_rect(*place)
                            && clip.contains_rect(*place)
                    })
                };
                let doubt = name.split(' ').find(|word| word.starts_with('±')).unwrap();
                let answer = name.split(": ").nth(1).unwrap().split(' ').next().unwrap();
                // what is scrolled out of sight is not painted at all
                let is_shown = painted.iter().any(|(place, clip, of)| {
                    cell.contains(place.center())
                        && clip.contains_rect(*place)
                        && of.starts_with(answer)
                });
                assert!(!is_shown || there(doubt), "{size:?} {candidates} {key:?}: {name}");
                seen += usize::from(is_shown);
            }
        }
        assert!(seen > 4, "{size:?}: {seen}");
    }
}

/// What "same" and the brackets mean stands beside the table, and in a small window behind a button there.
#[test]
fn what_the_brackets_mean_is_behind_a_button_in_a_small_window() {
    let means = |window: &Window| {
        let texts = window.texts(English.brackets_mean());
        texts.len() + window.texts("Same: ").len()
    };
    let button = "What stands here";
    let wide = Window::with(demo(), SIZE);
    assert!(means(&wide) > 0 && !wide.has(Role::Button, button));
    for height in [640.0, 700.0] {
        let mut window = Window::with(demo(), (1024.0, height));
        assert_eq!(means(&window), 0);
        window.press(Role::Button, button);
        assert!(means(&window) > 0, "{:?}", window.texts_of(Role::Label));
        assert_eq!(window.texts(English.doubt_means()).len(), 1, "and what the ± is");
        window.key(Modifiers::NONE, Key::Escape);
        assert_eq!(means(&window), 0);
    }
}

/// A palm that fits worse than on the bike as it came is told on the card, by what is missing; what it
/// needs and why stands in the details, with its numbers.
#[test]
fn a_palm_that_does_not_fit_is_told_on_the_card() {
    let with_palm = |mm: f64| {
        let mut session = demo();
        let visit = std::sync::Arc::make_mut(session.visits.last_mut().unwrap());
        let breadth = fit_doc::Item::from(fit_doc::Dimension::HandBreadth);
        visit.body.retain(|of| of.item != breadth);
        let (side, values) = (fit_doc::Where::Both, vec![mm]);
        let edit = fit_doc::Edit::Reading { visit: 0, item: breadth, side, values };
        Window::with(edit.apply(&session).unwrap().0, SIZE)
    };
    let lacks = |window: &Window| window.texts("Palm lacks ");
    assert!(lacks(&with_palm(66.0)).is_empty(), "it fits everywhere");
    let mut window = with_palm(90.0);
    window.press(Role::RadioButton, "Compact 420");
    let weighed = window.desk().weighed();
    let [came, compact] = [0, 1].map(|at| weighed.palm_rooms(&weighed.cockpits[at]));
    let missing = |rooms: &[fit_math::hand::PalmRoom]| {
        let all = rooms.iter().map(|of| of.needed_mm.round() - of.room_mm.round());
        all.fold(f64::NEG_INFINITY, f64::max)
    };
    assert!(missing(&compact) > missing(&came).max(0.0), "the compact bar is the smaller one");
    let told = format!("Palm lacks {}\u{a0}mm across the hook", missing(&compact));
    assert!(lacks(&window).contains(&told), "{told}: {:?}", lacks(&window));
    window.key(Modifiers::COMMAND, Key::E);
    let means = "The palm is 90\u{a0}mm broad: along hook and flat, between lever and bar end, it needs \
                 10\u{a0}mm more, across the hook its breadth alone.";
    assert_eq!(window.texts(means).len(), 1);
}
