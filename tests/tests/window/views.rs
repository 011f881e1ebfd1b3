//! The drawing looked at from the side, the front and above; its measures, its ruler, the way that
//! the hands went, and handles moved with the keyboard.

#![expect(clippy::cast_possible_truncation, reason = "whole millimetres on a bench")]

use acceptance::window::{SIZE, Window, demo, demo_with, workbench};
use egui::accesskit::Role;
use egui::{Key, Modifiers, pos2, vec2};
use fit_desk::ThemeChoice;
use fit_doc::edit::{cockpit_number, lever_number};
use fit_doc::{Dimension, Quantity};
use fit_math::DVec2;
use fit_view::act::Act;
use fit_view::picture::{SideChoice, side_view};
use fit_view::scene::{Anchor, Ink, Mark, Path, Width, Window as SceneWindow, text_width};
use fit_view::side::{MeasureKind, SideView, Sight, close_window, cockpits_scene};
use fit_view::words::{English, Words};
use std::sync::Arc;

/// All that is said of the drawing.
fn drawing(window: &Window) -> String {
    let heard = window.heard().into_iter().filter(|heard| heard.role == Role::Image);
    let mut all = heard.filter(|heard| heard.name.contains("drawn to scale"));
    let found = all.next().unwrap();
    assert!(all.next().is_none(), "one drawing");
    found.name
}

/// Whole numbers with their unit, in the order in which they are said.
fn numbers(text: &str, unit: &str) -> Vec<i64> {
    let words: Vec<&str> = text.split([' ', '\u{a0}']).collect();
    let of = |pair: &[&str]| {
        let is = pair[1].trim_end_matches([',', '.']) == unit;
        is.then(|| pair[0].replace('−', "-").parse().ok()).flatten()
    };
    words.windows(2).filter_map(of).collect()
}

fn number(window: &Window, quantity: Quantity) -> f64 {
    let cockpit = window.desk().selected().unwrap();
    let lever = cockpit.levers.as_ref().and_then(|of| lever_number(&of.right, quantity));
    lever.or_else(|| cockpit_number(cockpit, quantity)).unwrap()
}

/// Texts painted whole in the last frame, and where.
fn painted(window: &mut Window) -> Vec<(String, egui::Rect)> {
    let all = painted_in(window).into_iter();
    all.filter(|(_, place, clip)| clip.contains_rect(*place)).map(|(t, at, _)| (t, at)).collect()
}

/// Texts of which something is painted in the last frame, and where.
fn painted_anywhere(window: &mut Window) -> Vec<(String, egui::Rect)> {
    let all = painted_in(window).into_iter();
    all.filter(|(_, place, clip)| clip.intersects(*place)).map(|(t, at, _)| (t, at)).collect()
}

/// All texts of the last frame, where each stands, and what is shown there.
fn painted_in(window: &mut Window) -> Vec<(String, egui::Rect, egui::Rect)> {
    let shapes = window.harness().output().shapes.clone();
    let texts = shapes.into_iter().filter_map(|clipped| match clipped.shape {
        egui::Shape::Text(text) => {
            let place = text.galley.rect.translate(text.pos.to_vec2());
            Some((text.galley.text().to_owned(), place, clipped.clip_rect))
        }
        _ => None,
    });
    texts.collect()
}

#[test]
fn each_sight_is_reached_by_key_button_and_palette_and_says_what_it_shows() {
    let mut window = Window::demo();
    assert!(drawing(&window).starts_with("Side view, drawn to scale"));
    for (key, sight, begins) in [
        (Key::F, Sight::Front, "Front view, drawn to scale"),
        (Key::A, Sight::Above, "From above, drawn to scale"),
        (Key::S, Sight::Side, "Side view, drawn to scale"),
    ] {
        window.key(Modifiers::NONE, key);
        assert_eq!(window.desk().look().sight, sight);
        assert!(drawing(&window).starts_with(begins), "{}", drawing(&window));
        window.key(Modifiers::NONE, Key::S);
        window.press(Role::RadioButton, &English.act(Act::Sight(sight)));
        assert_eq!(window.desk().look().sight, sight);
        window.key(Modifiers::NONE, Key::S);
        window.key(Modifiers::COMMAND.plus(Modifiers::SHIFT), Key::P);
        window.type_text(&English.act(Act::Sight(sight)));
        window.key(Modifiers::NONE, Key::Enter);
        assert_eq!(window.desk().look().sight, sight);
    }
    assert_eq!(window.desk().can_undo(), None, "a look is no step");
    // typed into a field it is a letter, and in another place it is nothing
    window.type_into("Name", "AF");
    assert_eq!(window.desk().look().sight, Sight::Side);
    window.key(Modifiers::NONE, Key::F6);
    window.key(Modifiers::NONE, Key::F);
    assert_eq!(window.desk().look().sight, Sight::Side);
}

/// What is said from the front and from above is what the bar is.
#[test]
fn widths_flare_and_turn_in_are_said_of_every_cockpit() {
    let mut window = Window::demo();
    window.key(Modifiers::NONE, Key::F);
    let front = drawing(&window);
    window.key(Modifiers::NONE, Key::A);
    let above = drawing(&window);
    for of in &window.desk().weighed().cockpits {
        let bend = of.cockpit.bend();
        let sentence = |text: &str, piece: &str| {
            let mut all = text.split(". ").filter(|line| line.starts_with(&of.label));
            all.find(|line| line.contains(piece)).unwrap_or_default().to_owned()
        };
        let round = |value: f64| value.round() as i64;
        let wide = sentence(&front, "wide at the hoods");
        let hands = of.places[&window.desk().look().hands].grips;
        let apart = hands.right.centre.z - hands.left.centre.z;
        let widths = [bend.width_hoods_cc_mm(), bend.width_ends_cc_mm(), apart].map(round);
        assert_eq!(numbers(&wide, "mm"), widths, "{wide}");
        let flare = round(bend.flare_rad().to_degrees());
        let said =
            if flare == 0 { "no flare".to_owned() } else { format!("flare {flare}\u{a0}°") };
        assert!(wide.contains(&said) || wide.contains(&format!("flare {flare}°")), "{wide}");
        let seen = sentence(&above, "levers");
        let lengths = [of.parts.stem.length_mm, bend.reach_mm()].map(round);
        assert_eq!(numbers(&seen, "mm")[..2], lengths, "{seen}");
    }
}

/// The client's shoulders stand beside the bars; a breadth that nobody read says so.
#[test]
fn shoulders_are_measured_or_said_to_be_estimated() {
    let session = demo();
    let said = |session| {
        let mut window = Window::with(session, SIZE);
        window.key(Modifiers::NONE, Key::F);
        let of = window.desk().weighed().body.known(Dimension::BiacromialBreadth);
        let text = drawing(&window);
        let line = text.split(". ").find(|line| line.starts_with("shoulders")).unwrap().to_owned();
        assert_eq!(numbers(&line, "mm")[0], of.value.round() as i64, "{line}");
        // what is said is painted beside the bar that it measures
        let on_it: Vec<_> = painted(&mut window).into_iter().filter(|(t, _)| *t == line).collect();
        assert_eq!(on_it.len(), 1, "{line}");
        line
    };
    let read = said(session.clone());
    assert!(!read.contains("estimated"), "{read}");
    let mut guessed = session;
    let visit = Arc::make_mut(guessed.visits.last_mut().unwrap());
    visit.body.retain(|r| {
        r.item != Dimension::BiacromialBreadth.into() && r.item != fit_doc::Item::ShoulderJoints
    });
    let guess = said(guessed);
    assert!(guess.contains("about") && guess.ends_with("estimated"), "{guess}");
}

/// Whether a text names a cockpit, in full or shortened in its middle.
fn is_label(text: &str, name: &str) -> bool {
    text.starts_with(name)
        || text
            .split_once('…')
            .is_some_and(|(begin, end)| name.starts_with(begin) && name.ends_with(end.trim()))
}

/// No text of the drawing lies on another or on what can be pressed there, none of them leaves it, and
/// each of `named` has its label.
#[track_caller]
fn no_label_collides(window: &mut Window, named: &[String], case: &str) {
    window.harness().remove_cursor();
    window.settle();
    let heard = window.heard();
    let frame = heard.iter().find(|heard| heard.name.contains("drawn to scale")).unwrap().place;
    let bench = window.desk().visit().unwrap().cockpits().map(|c| c.label.clone());
    let bench: Vec<String> = bench.collect();
    let cards = frame.left();
    let painted = painted_anywhere(window).into_iter();
    let texts: Vec<_> = painted.filter(|(_, at)| frame.intersects(*at)).collect();
    let is_one = |text: &str| bench.iter().any(|name| is_label(text, name));
    for (text, at) in texts.iter().filter(|(text, _)| is_one(text)) {
        assert!(frame.contains_rect(*at), "{case}: {text} leaves the drawing, at {at:?}");
        assert!(at.left() > cards, "{case}: {text}");
    }
    for name in named {
        assert!(texts.iter().any(|(text, _)| is_label(text, name)), "{case}: {name} has no label");
    }
    // nor on what can be pressed in the drawing
    let controls: Vec<_> = heard
        .iter()
        .filter(|of| of.works && of.role != Role::Slider)
        .filter(|of| frame.contains_rect(of.place))
        .collect();
    assert!(controls.len() > 10);
    let of_control = |at: &egui::Rect| controls.iter().any(|of| of.place.contains_rect(*at));
    for (text, at) in texts.iter().filter(|(_, at)| !of_control(at)) {
        let under = controls.iter().find(|of| of.place.intersects(at.shrink(1.0)));
        assert_eq!(under.map(|of| &of.name), None, "{case}: {text}");
    }
    for (i, (text, at)) in texts.iter().enumerate() {
        let hit = texts[..i].iter().find(|(_, other)| other.shrink(1.0).intersects(at.shrink(1.0)));
        assert_eq!(hit, None, "{case}: {text} at {at:?}");
    }
    let rings = heard.iter().filter(|of| of.role == Role::Slider);
    for (name, ring) in rings.map(|of| (&of.name, of.place.center())) {
        // the handle's own radius, 7 points
        let ring = egui::Rect::from_center_size(ring, vec2(14.0, 14.0));
        let hit = texts.iter().find(|(text, at)| is_one(text) && at.intersects(ring));
        assert_eq!(hit, None, "{case}: {name} at {ring:?}");
    }
}

/// In every sight, whichever cockpit is spoken of and measured: no text lies on another. All are named, but
/// where one is measured only that one and what it is compared with.
#[test]
fn no_label_lies_on_another_whichever_way_it_is_looked_at() {
    let sizes = [SIZE, (1024.0, 700.0), (1920.0, 1080.0)];
    for (size, measured) in sizes.into_iter().flat_map(|size| [(size, true), (size, false)]) {
        let mut window = Window::with(demo(), size);
        if measured {
            window.key(Modifiers::NONE, Key::M);
        }
        let labels: Vec<String> =
            window.desk().visit().unwrap().cockpits().map(|c| c.label.clone()).collect();
        for key in [Key::S, Key::F, Key::A] {
            window.key(Modifiers::NONE, key);
            for label in &labels {
                window.activate(Role::RadioButton, label);
                let few = [labels[0].clone(), label.clone()];
                let named = if measured { &few[..] } else { &labels[..] };
                let case = format!("{size:?} {key:?} {label}, measured: {measured}");
                no_label_collides(&mut window, named, &case);
                let heard = window.heard();
                let frame = heard.iter().find(|of| of.name.contains("drawn to scale")).unwrap();
                let there = painted_anywhere(&mut window);
                let there = there.iter().filter(|(_, at)| frame.place.contains_rect(*at));
                let of_other = |text: &str| {
                    labels.iter().any(|name| !few.contains(name) && is_label(text, name))
                };
                let told = there.filter(|(text, _)| of_other(text)).count();
                assert_eq!(told == 0, measured, "{case}: {told} others are named in the drawing");
            }
        }
    }
}

/// With more cockpits than have room some labels go, those of the cockpit that is spoken of and of
/// the one as it came never; the rest collide no more than few do.
#[test]
fn of_twelve_candidates_no_label_collides_whatever_is_held_and_however_near() {
    for size in [SIZE, (1024.0, 700.0)] {
        let mut window = Window::with(demo_with(12), size);
        let labels: Vec<String> =
            window.desk().visit().unwrap().cockpits().map(|c| c.label.clone()).collect();
        for label in [&labels[0], &labels[2], &labels[12]] {
            window.activate(Role::RadioButton, label);
            let named = [labels[0].clone(), label.clone()];
            for key in [Key::S, Key::F, Key::A] {
                window.key(Modifiers::NONE, key);
                for place in ["tops", "ramps", "hoods", "drops", "ends", "All"] {
                    window.activate(Role::RadioButton, place);
                    let case = format!("{size:?} {key:?} {label} {place}");
                    no_label_collides(&mut window, &named, &case);
                }
                window.activate(Role::RadioButton, "All");
                window.activate(Role::RadioButton, "hoods");
                for nearer in 1..=3 {
                    window.activate(Role::Button, "Nearer");
                    let case = format!("{size:?} {key:?} {label} nearer {nearer}");
                    no_label_collides(&mut window, &named, &case);
                }
                window.activate(Role::Button, "All in view");
            }
        }
    }
}

/// Where there is little room a measure is left out whole: no line without its number, and no number
/// far from its line.
#[test]
fn a_measure_without_room_for_its_number_is_left_out_with_its_line() {
    let window = Window::demo();
    let weighed = window.desk().weighed();
    let (mut drawn, mut left_out, mut through) = (0, 0, 0);
    for sight in Sight::ALL {
        for index in 0..weighed.cockpits.len() {
            let side = SideChoice { sight, measured: Some(index), ..SideChoice::usual(weighed) };
            let side = side_view(weighed, &side, &English);
            let lengths =
                side.measures.iter().filter(|(_, of)| of.kind == MeasureKind::Length).count();
            for mm_per_point in [0.6, 1.2, 1.8, 2.6] {
                let about = close_window(&side, 1.6);
                let scene = cockpits_scene(&side, about, mm_per_point);
                let marks: Vec<&Mark> = scene.layers.iter().flat_map(|of| &of.marks).collect();
                let said: Vec<DVec2> = side
                    .measures
                    .iter()
                    .filter(|(_, of)| of.kind == MeasureKind::Length)
                    .filter_map(|(_, of)| {
                        marks.iter().find_map(|mark| match mark {
                            Mark::Text { at, text, .. } if *text == of.text => Some(*at),
                            _ => None,
                        })
                    })
                    .collect();
                let lines: Vec<_> = marks
                    .iter()
                    .filter_map(|mark| match mark {
                        Mark::Stroke { path, pen }
                            if pen.width == Width::Points(1.3)
                                && matches!(pen.ink, Ink::Series(_)) =>
                        {
                            Some(path)
                        }
                        _ => None,
                    })
                    .collect();
                assert_eq!(lines.len(), said.len(), "{sight:?} {index} {mm_per_point}");
                // no line runs through the name of a cockpit
                for label in marks.iter().filter_map(|mark| label_box(mark, &side, mm_per_point)) {
                    let runs = |path: &Path| {
                        (0..=40).any(|i| {
                            label.contains(path.points[0].lerp(path.points[1], f64::from(i) / 40.0))
                        })
                    };
                    through += lines.iter().filter(|path| runs(path)).count();
                }
                drawn += said.len();
                left_out += lengths - said.len();
            }
        }
    }
    assert!(drawn > 100 && left_out > 10, "{drawn} drawn, {left_out} left out");
    assert_eq!(through, 0, "lines through names");
}

/// The room of a cockpit's name in the drawing, mm.
fn label_box(mark: &Mark, of: &SideView<'_>, mm_per_point: f64) -> Option<SceneWindow> {
    let Mark::Text { at, anchor, text, size, weight, .. } = mark else { return None };
    of.cockpits.iter().find(|cockpit| cockpit.label == *text)?;
    let wide = text_width(text, *size, *weight).unwrap() * mm_per_point;
    let left = match anchor {
        Anchor::Start => at.x,
        Anchor::Middle => at.x - wide / 2.0,
        Anchor::End => at.x - wide,
    };
    // the height of small letters
    let half = 0.3 * size * mm_per_point;
    let (least, most) = (DVec2::new(left, at.y - half), DVec2::new(left + wide, at.y + half));
    Some(SceneWindow { least, most })
}

#[test]
fn measures_show_while_a_card_or_a_line_is_pointed_at_and_stay_when_they_are_asked_for() {
    let mut window = Window::demo();
    let measured = |window: &Window| {
        let text = drawing(window);
        text.split(". ").find(|line| line.starts_with("Measured on")).map(str::to_owned)
    };
    window.harness().remove_cursor();
    window.settle();
    assert_eq!(measured(&window), None);
    let at = window.the(Role::RadioButton, "Same bar, stem 90").rect().center();
    window.harness().hover_at(at);
    window.settle();
    let said = measured(&window).unwrap();
    assert!(said.starts_with("Measured on Same bar, stem 90: "), "{said}");
    let of = window.desk().weighed().cockpits.iter().find(|c| c.label == "Same bar, stem 90");
    let of = of.unwrap();
    let bend = of.cockpit.bend();
    let wanted = [bend.reach_mm(), bend.drop_mm(), 90.0, of.parts.spacers_mm];
    assert_eq!(numbers(&said, "mm"), wanted.map(|mm| mm.round() as i64), "{said}");
    // each is painted, once
    for text in said.split_once(": ").unwrap().1.split(", ") {
        let there = painted(&mut window).into_iter().filter(|(t, _)| t == text).count();
        assert_eq!(there, 1, "{text}");
    }
    window.harness().remove_cursor();
    window.settle();
    assert_eq!(measured(&window), None, "gone with the pointer");
    // asked for, they are those of the selected one and stay
    window.press(Role::CheckBox, "Measures");
    window.harness().remove_cursor();
    window.settle();
    let selected = window.desk().selected().unwrap().label.clone();
    assert!(measured(&window).unwrap().starts_with(&format!("Measured on {selected}: ")));
    window.key(Modifiers::NONE, Key::F);
    let said = measured(&window).unwrap();
    assert!(said.contains("width at the hoods") && said.contains("width at the ends"), "{said}");
    window.key(Modifiers::NONE, Key::A);
    let said = measured(&window).unwrap();
    assert!(said.contains("stem") && said.contains("reach"), "{said}");
}

/// A line in the drawing that is pressed is spoken of.
#[test]
fn a_line_that_is_pressed_is_spoken_of() {
    let mut window = Window::demo();
    window.press(Role::RadioButton, "As it came");
    // the end of a bar lies under its handle: there is a line of the selected cockpit
    let roll = window.the(Role::Slider, "Roll").rect().center();
    window.press(Role::RadioButton, "Flared 440");
    assert_eq!(window.desk().selected().unwrap().label, "Flared 440");
    // a little inwards from the end, along the tail
    window.press_at(roll + vec2(12.0, 0.0));
    assert_eq!(window.desk().selected().unwrap().label, "As it came");
}

#[test]
fn the_way_of_the_hands_is_told_in_whole_millimetres_and_only_where_it_can_be() {
    let mut window = Window::demo();
    let way = |window: &mut Window| {
        let texts = painted(window).into_iter().map(|(text, _)| text);
        // what stands in the table says one way each
        texts.filter(|t| t.contains("mm back, ") || t.contains("mm forward, ")).collect::<Vec<_>>()
    };
    window.press(Role::RadioButton, "Same bar, stem 90");
    window.harness().remove_cursor();
    window.settle();
    let (back, up) = (
        window.cell("Hands forward or back", "Same bar, stem 90"),
        window.cell("Hands up or down", "Same bar, stem 90"),
    );
    assert_eq!(way(&mut window), [format!("{back}, {up}")]);
    window.press(Role::RadioButton, "As it came");
    window.harness().remove_cursor();
    window.settle();
    assert_eq!(way(&mut window), Vec::<String>::new());
}

#[test]
fn the_ruler_is_laid_with_keys_and_pointer_and_reads_whole_millimetres() {
    let mut window = Window::demo();
    let reads = |window: &Window| {
        let found = window.texts_of(Role::Label);
        found.into_iter().find(|text| text.ends_with("straight"))
    };
    assert_eq!(reads(&window), None);
    window.key(Modifiers::NONE, Key::D);
    assert_eq!(window.focused().unwrap().name, "Ruler, second end");
    let text = reads(&window).unwrap();
    let before = numbers(&text, "mm");
    assert_eq!((before[0], before[1]), (before[2], 0), "laid level: {text}");
    // arrows: a millimetre, with Shift ten
    window.key(Modifiers::NONE, Key::ArrowRight);
    window.key(Modifiers::SHIFT, Key::ArrowRight);
    window.key(Modifiers::SHIFT, Key::ArrowUp);
    window.key(Modifiers::SHIFT, Key::ArrowUp);
    window.key(Modifiers::NONE, Key::ArrowDown);
    let after = numbers(&reads(&window).unwrap(), "mm");
    assert_eq!((after[0], after[1]), (before[0] + 11, 19));
    let straight = f64::from(after[0] as i32).hypot(19.0).round() as i64;
    assert_eq!(after[2], straight);
    // the other end
    window.key(Modifiers::SHIFT, Key::Tab);
    assert_eq!(window.focused().unwrap().name, "Ruler, first end");
    window.key(Modifiers::SHIFT, Key::ArrowUp);
    assert_eq!(numbers(&reads(&window).unwrap(), "mm")[1], 9);
    window.key(Modifiers::NONE, Key::Tab);
    assert_eq!(window.focused().unwrap().name, "Ruler, second end");
    // pulled anew where nothing else is: it measures what is between, true to scale
    let frame = window.heard().into_iter();
    let frame = frame.filter(|heard| heard.name.contains("drawn to scale"));
    let frame = frame.map(|heard| heard.place).next().unwrap();
    let from = pos2(frame.left() + 0.4 * frame.width(), frame.top() + 0.55 * frame.height());
    window.pull(from, from + vec2(60.0, 30.0));
    let pulled = numbers(&reads(&window).unwrap(), "mm");
    assert!((pulled[0] - 2 * pulled[1]).abs() <= 2, "{pulled:?}");
    let ends = ["Ruler, first end", "Ruler, second end"]
        .map(|name| window.the(Role::Slider, name).rect().center());
    assert!((ends[1] - ends[0] - vec2(60.0, 30.0)).length() < 2.0, "{ends:?}");
    assert_eq!(window.desk().can_undo(), None, "nothing was changed by it");
    // Escape leaves it
    window.key(Modifiers::NONE, Key::Escape);
    assert_eq!(reads(&window), None);
    assert!(!window.desk().look().ruler && !window.has(Role::Slider, "Ruler, first end"));
}

/// A press on a name in the drawing does not take the ruler off what it measures; a pull that begins
/// on the name lays it anew, as anywhere else.
#[test]
fn a_press_on_a_label_lays_no_ruler_and_a_pull_from_it_does() {
    let mut window = Window::demo();
    window.key(Modifiers::NONE, Key::D);
    let ends = |window: &Window| {
        ["Ruler, first end", "Ruler, second end"]
            .map(|name| window.the(Role::Slider, name).rect().center())
    };
    let frame = window.heard().into_iter().find(|h| h.name.contains("drawn to scale")).unwrap();
    let labels: Vec<_> = painted(&mut window)
        .into_iter()
        .filter(|(text, at)| text == "Flared 440" && frame.place.contains_rect(*at))
        .collect();
    let [(_, label)] = labels[..] else { panic!("one label: {labels:?}") };
    let before = ends(&window);
    window.press_at(label.center());
    assert_eq!(ends(&window), before, "a press is no pull");
    let to = label.center() + vec2(-50.0, 80.0);
    window.pull(label.center(), to);
    let [first, second] = ends(&window);
    assert!((first - label.center()).length() < 2.0 && (second - to).length() < 2.0);
}

/// The squares of the ground are 100 mm, and so the ruler says.
#[test]
fn the_ruler_agrees_with_the_cockpit_that_it_measures() {
    let mut window = Window::demo();
    window.key(Modifiers::NONE, Key::D);
    let [spacers, clamp] =
        ["Spacers", "Stem length"].map(|name| window.the(Role::Slider, name).rect().center());
    for (end, to) in [("Ruler, first end", spacers), ("Ruler, second end", clamp)] {
        let at = window.the(Role::Slider, end).rect().center();
        window.pull(at, to);
    }
    let all = window.texts_of(Role::Label);
    let said = all.into_iter().find(|text| text.ends_with("straight")).unwrap();
    let stem = number(&window, Quantity::StemLength);
    let read = numbers(&said, "mm")[2] as f64;
    assert!((read - stem).abs() <= 3.0, "{said}: the stem is {stem}");
}

const HANDLES: [(&str, Quantity, f64, f64); 5] = [
    ("Roll", Quantity::Roll, 2.0, 0.5),
    ("Stem length", Quantity::StemLength, 10.0, 1.0),
    ("Spacers", Quantity::Spacers, 5.0, 1.0),
    ("Levers along the bend", Quantity::LeverAlong, 5.0, 1.0),
    ("Hand in the drops", Quantity::HandInDrops, 5.0, 1.0),
];

/// A handle that has the keyboard goes by what a client feels, with Shift by what can be set.
#[test]
fn a_handle_goes_in_felt_and_in_fine_steps() {
    for (handle, quantity, felt, fine) in HANDLES {
        let mut window = Window::demo();
        let start = window.desk().session().clone();
        let before = number(&window, quantity);
        window.the(Role::Slider, handle).focus();
        window.settle();
        window.key(Modifiers::NONE, Key::ArrowUp);
        let up = number(&window, quantity);
        assert!(up > before && up <= before + felt && (up / felt).fract() == 0.0, "{handle}: {up}");
        assert_eq!(window.focused().unwrap().name, handle, "it keeps the keyboard");
        window.key(Modifiers::NONE, Key::ArrowRight);
        assert_eq!(number(&window, quantity), up + felt, "{handle}");
        window.key(Modifiers::SHIFT, Key::ArrowLeft);
        assert_eq!(number(&window, quantity), up + felt - fine, "{handle}");
        let value = window.heard().into_iter().find(|h| h.name == handle).unwrap().value.unwrap();
        assert!(value.contains(&format!("{}", up + felt - fine)), "{handle} says {value}");
        for _ in 0..3 {
            window.key(Modifiers::COMMAND, Key::Z);
        }
        assert_eq!(window.desk().session(), &start, "{handle}: a step for each");
    }
}

/// From above what shows there is changed there: the stem, and how far the levers are turned in, both
/// of them. From the front nothing is.
#[test]
fn from_above_the_levers_are_turned_and_the_stem_is_pulled() {
    let mut window = Window::demo();
    let handles = |window: &Window| {
        let all = window.heard().into_iter().filter(|heard| heard.role == Role::Slider);
        all.map(|heard| heard.name).collect::<Vec<_>>()
    };
    window.key(Modifiers::NONE, Key::F);
    assert_eq!(handles(&window), Vec::<String>::new());
    window.key(Modifiers::NONE, Key::A);
    assert_eq!(handles(&window), ["Stem length", "Levers turned in"]);
    let before = number(&window, Quantity::LeverTurnIn);
    let at = window.the(Role::Slider, "Levers turned in").rect().center();
    let middle = window.the(Role::Slider, "Stem length").rect().center();
    assert!(at.x > middle.x + 40.0 && at.y < middle.y, "ahead on the right");
    window.pull(at, at + vec2(-5.0, 0.0));
    let turned = number(&window, Quantity::LeverTurnIn);
    assert!(turned > before + 2.0 && turned < before + 20.0, "{before} to {turned}");
    let levers = window.desk().selected().unwrap().levers.clone().unwrap();
    assert_eq!(levers.left.turn_in_deg, levers.right.turn_in_deg);
    // it lies where the pointer let go of it
    let now = window.the(Role::Slider, "Levers turned in").rect().center();
    assert!((now.x - (at.x - 5.0)).abs() < 2.0, "{at:?} to {now:?}");
    window.the(Role::Slider, "Levers turned in").focus();
    window.settle();
    window.key(Modifiers::SHIFT, Key::ArrowDown);
    assert_eq!(number(&window, Quantity::LeverTurnIn), turned - 0.5);
    let stem = number(&window, Quantity::StemLength);
    let middle = window.the(Role::Slider, "Stem length").rect().center();
    window.pull(middle, middle + vec2(0.0, -8.0));
    assert!(number(&window, Quantity::StemLength) > stem + 5.0, "forward is longer");
    for _ in 0..3 {
        window.key(Modifiers::COMMAND, Key::Z);
    }
    assert_eq!(window.desk().can_undo(), None, "three steps");
    assert_eq!(number(&window, Quantity::LeverTurnIn), before);
}

/// The hand in the drops is held further forward in the hook, and the brake comes nearer.
#[test]
fn the_hand_in_the_drops_can_be_pulled() {
    let mut window = Window::demo();
    let spare = |window: &Window| window.cell("Brake reach to spare", "Compact 420");
    let (before, at) = (spare(&window), number(&window, Quantity::HandInDrops));
    let hand = window.the(Role::Slider, "Hand in the drops").rect().center();
    window.pull(hand, hand + vec2(6.0, -12.0));
    assert!(number(&window, Quantity::HandInDrops) > at + 8.0);
    assert_ne!(spare(&window), before);
    window.key(Modifiers::COMMAND, Key::Z);
    assert_eq!((spare(&window), number(&window, Quantity::HandInDrops)), (before, at));
    // only where the hands are there
    window.key(Modifiers::NONE, Key::Num3);
    assert!(!window.has(Role::Slider, "Hand in the drops"));
}

/// Whatever the desktop has: each press of it shows.
#[test]
fn every_switch_between_light_and_dark_shows_at_once() {
    for desktop in [None, Some(egui::Theme::Light), Some(egui::Theme::Dark)] {
        let mut window = Window::demo();
        window.harness().input_mut().system_theme = desktop;
        window.settle();
        let is_dark = |window: &mut Window| window.harness().ctx.theme() == egui::Theme::Dark;
        let mut before = is_dark(&mut window);
        assert_eq!(before, desktop == Some(egui::Theme::Dark));
        for press in 1..=4 {
            window.menu(&English.act(Act::SwitchTheme));
            assert_ne!(is_dark(&mut window), before, "{desktop:?}: press {press}");
            before = !before;
        }
        // back where it began it goes with the desktop again
        assert_eq!(window.desk().look().theme, fit_desk::ThemeChoice::System, "{desktop:?}");
    }
}

/// Light or dark, once chosen, is so in the next start; also that the desktop is followed again.
#[test]
fn the_theme_is_remembered_between_two_starts() {
    let mut window = Window::demo();
    let state = window.folder().join("state");
    let next = || workbench(demo(), Some(&state)).desk().look().theme;
    assert_eq!(next(), ThemeChoice::System);
    window.menu(&English.act(Act::SwitchTheme));
    assert_eq!(next(), ThemeChoice::Dark);
    window.menu(&English.act(Act::SwitchTheme));
    assert_eq!(next(), ThemeChoice::System);
    // what cannot be read is as nothing
    std::fs::write(state.join("theme"), "purple").unwrap();
    assert_eq!(next(), ThemeChoice::System);
}
