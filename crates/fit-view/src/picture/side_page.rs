//! The side view of a weighed bench as a page.

use super::looked_at;
use super::page_of_bench::MOST_CARDS;
use super::{Card, PageWords, Picture, page_of_bench};
use crate::scene::{FontError, Series, Theme};
use crate::side::{self, Flesh, Hands, RiderFigure, SQUARE_MM, SideCockpit, SideView, Sight};
use crate::table::{Answer, Axis, Cell, Change, Question, at_limits, told};
use crate::weigh::{Weighed, WeighedCockpit, WeighedPlace};
use crate::words::Words;
use fit_math::HandPlace;
use fit_math::cockpit::Hold;
use fit_math::saddle::LegTurn;

/// Angle of the right crank from the top, forwards, radians: the near leg stretched down and out
/// of the cockpit's way.
const CRANK_RAD: f64 = 2.7;

/// What the page shows of a bench.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SideChoice {
    /// Where the rider's hands are.
    pub place: HandPlace,
    /// Whether hands are marked there or in every place.
    pub hands: Hands,
    /// Which cockpit carries the rider, by its place on the bench; 0 is as it came.
    pub focus: usize,
    /// Which point of all cockpits is laid over each other.
    pub hold: Hold,
    /// Light or dark.
    pub theme: Theme,
    /// Which way the cockpits are looked at.
    pub sight: Sight,
    /// Whose measures are drawn, by its place on the bench.
    pub measured: Option<usize>,
    /// From which cockpit, by its place on the bench, an arrow shows how far the hands went, and lines
    /// through them how far chance takes that; none: neither.
    pub travel: Option<usize>,
}

impl SideChoice {
    /// The hands in the drops, every cockpit where it really is, on light ground; the rider on the
    /// chosen cockpit, or else on the first candidate.
    pub fn usual(weighed: &Weighed) -> Self {
        let chosen = weighed.cockpits.iter().position(|c| c.chosen);
        let first = usize::from(weighed.cockpits.len() > 1);
        Self {
            place: HandPlace::Drops,
            hands: Hands::Chosen,
            focus: chosen.unwrap_or(first),
            hold: Hold::Axle,
            theme: Theme::Light,
            sight: Sight::Side,
            measured: None,
            travel: None,
        }
    }
}

/// The page.
///
/// # Errors
/// When the embedded font cannot be read.
pub fn side_page(
    weighed: &Weighed,
    choice: &SideChoice,
    words: &dyn Words,
) -> Result<Picture, FontError> {
    let view = side_view(weighed, choice, words);
    let cards: Vec<Card> =
        weighed.cockpits.iter().map(|c| card(weighed, c, choice.place, words)).collect();
    page_of_bench(&view, &cards, &page_words(weighed, choice, words), choice.theme)
}

/// What a side view of the bench shows.
pub fn side_view<'a>(weighed: &'a Weighed, choice: &SideChoice, words: &dyn Words) -> SideView<'a> {
    let mut view = plain_view(weighed, choice, words);
    say_hidden_lines(&mut view, words);
    view
}

/// The same without the text twin, which takes as long to say as the lines to draw, and is often
/// heard by nobody.
pub fn silent_side_view<'a>(
    weighed: &'a Weighed,
    choice: &SideChoice,
    words: &dyn Words,
) -> SideView<'a> {
    let mut view = view_with(weighed, choice, words, |_| Vec::new());
    say_hidden_lines(&mut view, words);
    view
}

/// The same before anything is said of lines that lie on each other, to choose from.
pub(crate) fn plain_view<'a>(
    weighed: &'a Weighed,
    choice: &SideChoice,
    words: &dyn Words,
) -> SideView<'a> {
    view_with(weighed, choice, words, |c| twin(weighed, c, choice, words))
}

/// The same, with what is said of each cockpit.
fn view_with<'a>(
    weighed: &'a Weighed,
    choice: &SideChoice,
    words: &dyn Words,
    twin: impl Fn(&WeighedCockpit) -> Vec<String>,
) -> SideView<'a> {
    let flesh = Flesh::of(&weighed.body);
    let cockpits = weighed.cockpits.iter().enumerate().map(|(index, c)| SideCockpit {
        label: c.label.clone(),
        on_line_of: Vec::new(),
        series: Series(index),
        cockpit: &c.cockpit,
        saddle: &c.parts.saddle,
        sit: c.seat.sit(),
        rider: c
            .figure(&weighed.rider, choice.place, CRANK_RAD)
            .map(|figure| RiderFigure { figure, flesh }),
        twin: twin(c),
    });
    let mut cockpits: Vec<SideCockpit<'_>> = cockpits.collect();
    if let Some(of) = choice.measured.and_then(|index| cockpits.get_mut(index)) {
        let said = side::measures(of.cockpit, choice.sight, words);
        let said: Vec<String> = said.into_iter().map(|measure| measure.text).collect();
        of.twin.push(words.twin_measured(&of.label, &said));
    }
    if let Some(of) = cockpits.get_mut(choice.focus) {
        of.twin.extend(looked_at::twin_within(weighed, choice, words));
    }
    SideView {
        frame: &weighed.bike.frame,
        cockpits,
        focus: choice.focus,
        place: choice.place,
        hands: choice.hands,
        place_names: HandPlace::ALL.map(|place| words.hand_place(place)),
        handles: Vec::new(),
        labels_from_mm: None,
        few_names: false,
        free: None,
        hold: choice.hold,
        headline: page_words(weighed, choice, words).under_client,
        sight: choice.sight,
        shoulders: looked_at::shoulders(weighed, words),
        hand_names: [true, false].map(|left| words.one_hand(left)),
        measures: looked_at::measures(weighed, choice, words),
        within: looked_at::within(weighed, choice),
    }
}

/// A cockpit whose lines lie on those of another one would vanish without a word: its label and
/// its twin say which.
pub(crate) fn say_hidden_lines(view: &mut SideView<'_>, words: &dyn Words) {
    let labels: Vec<String> = view.cockpits.iter().map(|c| c.label.clone()).collect();
    let others = view.on_lines_of();
    for ((cockpit, label), other) in view.cockpits.iter_mut().zip(&labels).zip(others) {
        if let Some(other) = other.and_then(|index| labels.get(index)) {
            cockpit.on_line_of =
                vec![words.picture_same_line(label, other), words.picture_same_line_short(label)];
            cockpit.twin.push(words.twin_same_line(label, other));
        }
    }
}

fn page_words(weighed: &Weighed, choice: &SideChoice, words: &dyn Words) -> PageWords {
    let label = weighed.cockpits.get(choice.focus).map_or("", |c| c.label.as_str());
    let mut under_client = words.picture_heading(&weighed.bike.name, weighed.visit, choice.place);
    let without_card = weighed.cockpits.len().saturating_sub(MOST_CARDS);
    if without_card > 0 {
        under_client = format!("{under_client} · {}", words.picture_without_card(without_card));
    }
    PageWords {
        client: weighed.client.clone(),
        under_client,
        rider: words.picture_rider(label, choice.focus != 0),
        close: words.picture_close(choice.hold, choice.hands).to_owned(),
        squares: words.picture_squares(whole(SQUARE_MM)),
        foot: words.picture_foot().to_owned(),
        language: words.language(),
    }
}

fn card(weighed: &Weighed, of: &WeighedCockpit, place: HandPlace, words: &dyn Words) -> Card {
    let bar = &of.parts.bar;
    let parts = vec![words.card_bar(bar), words.card_settings(&of.parts)];
    let facts = card_facts(weighed, of, place, words);
    Card { label: of.label.clone(), bar: bar.name.clone(), parts, facts }
}

/// What a cockpit does, hands in one place, a line each.
pub fn card_facts(
    weighed: &Weighed,
    of: &WeighedCockpit,
    place: HandPlace,
    words: &dyn Words,
) -> Vec<String> {
    let came = weighed.as_it_came();
    let cell = |question: Question| told(question, of, came, weighed);
    let mut facts = Vec::new();
    if !of.places.contains_key(&place) {
        facts.push(words.card_no_place().to_owned());
    } else if !of.as_it_came {
        let moved = |axis| cell(Question::Moved(place, axis));
        facts.push(words.card_hands(moved(Axis::Forward), moved(Axis::Up)));
    }
    let trunk = cell(Question::Trunk(place));
    match trunk.answer {
        Answer::Number(degrees) => facts.push(words.card_trunk(degrees, trunk)),
        Answer::OutOfReach { short_by_mm } => facts.push(words.out_of_reach(short_by_mm)),
        Answer::None | Answer::ChangeOnly | Answer::Apart(_) => {}
    }
    let neck = cell(Question::Neck(place));
    if let Answer::Number(degrees) = neck.answer {
        facts.push(words.card_neck(degrees, neck));
    }
    let at_limits = at_limits(weighed.rider.limits(), of, came, place);
    facts.extend(at_limits.into_iter().map(|at| words.at_limit(at)));
    facts
}

/// Whether the fingers reach the brake with the hands in a place; none where there is no brake.
pub fn card_brake(
    weighed: &Weighed,
    of: &WeighedCockpit,
    place: HandPlace,
    words: &dyn Words,
) -> Option<String> {
    let cell = Question::Brake(place).cell(of, weighed.as_it_came());
    let sd_mm = of.brakes?.worse_cover(place)?.sd_mm;
    Some(words.brake_fact(cell.shown()?, whole(sd_mm), cell.change))
}

pub(super) fn by(cell: Cell) -> Option<i64> {
    match cell.change {
        Change::By(by) => Some(by),
        Change::None | Change::Same => None,
    }
}

/// How far the left lever is from the right one, whole mm forward and up; none where they are
/// level.
fn levers_apart(of: &WeighedCockpit) -> Option<[Option<i64>; 2]> {
    let apart = [Axis::Forward, Axis::Up].map(|axis| {
        match Question::LeftFromRight(axis).cell(of, None).answer {
            Answer::Apart(by) => Some(by).filter(|&by| by != 0),
            _ => None,
        }
    });
    apart.iter().any(Option::is_some).then_some(apart)
}

/// What the leg lacks to turn the crank, mm, and whether it is too folded rather than too short.
fn leg_lacks(at: &WeighedPlace) -> Option<(f64, bool)> {
    match at.report.leg {
        LegTurn::Turns { .. } => None,
        LegTurn::TooFar { short_by_mm } => Some((short_by_mm, false)),
        LegTurn::TooNear { short_by_mm } => Some((short_by_mm, true)),
    }
}

/// What is drawn of one cockpit and of the client on it, a sentence each.
fn twin(
    weighed: &Weighed,
    of: &WeighedCockpit,
    choice: &SideChoice,
    words: &dyn Words,
) -> Vec<String> {
    let (came, place) = (weighed.as_it_came(), choice.place);
    let parts = format!(
        "{}: {}; {}",
        of.label,
        words.card_bar(&of.parts.bar),
        words.card_settings(&of.parts)
    );
    let mut sentences = vec![parts];
    if let Some([forward, up]) = levers_apart(of) {
        sentences.push(words.twin_levers(&of.label, forward, up));
    }
    let mut shown = choice.hands.places(place);
    if !shown.contains(&place) {
        shown.push(place);
    }
    for place in shown {
        sentences.push(match of.places.get(&place).map(|at| at.grips.middle()) {
            Some(grip) => words.twin_hands(&of.label, place, whole(grip.x), whole(grip.y)),
            None => words.twin_no_place(&of.label, place),
        });
    }
    sentences.extend(looked_at::twin(of, choice, words));
    let Some(at) = of.places.get(&place) else { return sentences };
    let cell = |question: Question| question.cell(of, came);
    let (trunk, neck) = (cell(Question::Trunk(place)), cell(Question::Neck(place)));
    sentences.push(match (trunk.answer, neck.answer) {
        (Answer::OutOfReach { short_by_mm }, _) => words.twin_out_of_reach(&of.label, short_by_mm),
        (Answer::Number(lean), Answer::Number(lift)) => {
            let at_limits = at_limits(weighed.rider.limits(), of, came, place);
            words.twin_posture(&of.label, (lean, trunk.change), (lift, neck.change), &at_limits)
        }
        _ => return sentences,
    });
    if let Some((short_by_mm, folded)) = leg_lacks(at) {
        sentences.push(words.twin_leg(&of.label, whole(short_by_mm).max(1), folded));
    }
    sentences
}

#[expect(clippy::cast_possible_truncation, reason = "saturates, and no reading is near 2⁶³")]
pub(super) fn whole(value: f64) -> i64 {
    value.round() as i64
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::testing::{candidates, deep, session, stem};
    use crate::weigh::weigh;
    use crate::words::English;
    use fit_doc::{Cockpit, Joint, LeverSetting, Levers, Mobility, Saddle, Session};
    use fit_math::body::Survey;
    use std::sync::Arc;

    /// What is said of one cockpit of the bench with the hands there.
    fn said(session: &Session, index: usize, place: HandPlace) -> Vec<String> {
        let weighed = weigh(session, None, &Survey::shipped().unwrap()).unwrap();
        let choice = SideChoice { place, ..SideChoice::usual(&weighed) };
        let page = side_page(&weighed, &choice, &English).unwrap();
        let own = format!("{}: ", weighed.cockpits[index].label);
        let sentences = page.twin().into_iter().filter_map(|line| line.strip_prefix(&own));
        sentences.map(str::to_owned).collect()
    }

    fn named(name: &str, cockpit: Cockpit) -> Cockpit {
        Cockpit { id: name.into(), label: name.into(), ..cockpit }
    }

    #[test]
    fn a_posture_is_said_with_its_angles_and_changes() {
        let bench = session(candidates());
        let weighed = weigh(&bench, None, &Survey::shipped().unwrap()).unwrap();
        for (index, cockpit) in weighed.cockpits.iter().enumerate() {
            let exact = |index: usize| weighed.cockpits[index].places[&HandPlace::Drops].report;
            let change = (exact(index).trunk_rad - exact(0).trunk_rad).to_degrees().abs();
            let report = exact(if change < 1.0 { 0 } else { index });
            assert_eq!(cockpit.label, weighed.cockpits[index].label);
            let degrees = |rad: f64| rad.to_degrees().round();
            let lines = said(&bench, index, HandPlace::Drops);
            let line = lines.iter().find(|line| line.starts_with("trunk ")).unwrap();
            assert!(line.contains(&format!("trunk {}° above level", degrees(report.trunk_rad))));
            assert!(line.contains(&format!("head lifted {}°", degrees(report.neck_need_rad))));
            assert!(line.ends_with("no joint at its limit"), "{line}");
            // what is about as it came is said with the number as it came
            let same = line.contains("about as it came");
            assert!(!same || index > 0, "{line}");
            assert_eq!(line.contains('('), index > 0, "a change against as it came: {line}");
        }
    }

    #[test]
    fn limits_reach_and_missing_places_are_said() {
        let mut stiff = session(Vec::new());
        Arc::make_mut(&mut stiff.visits[0]).mobility = vec![Mobility::measured(Joint::Hip, 65.0)];
        let lines = said(&stiff, 0, HandPlace::Drops);
        assert!(lines.iter().any(|line| line.contains("hip ")), "{lines:?}");
        let saddle = Saddle { nose_behind_mm: 290.0, sit_from_nose_mm: 250.0, ..deep().saddle };
        let far = named("far", Cockpit { stem: stem(190.0, 0.0), saddle, ..deep() });
        let lines = said(&session(vec![far]), 1, HandPlace::Drops);
        let short = lines.iter().find(|line| line.contains("do not get there")).unwrap();
        assert!(short.ends_with("mm short") && !short.contains(" 0"), "{short}");
        assert!(!lines.iter().any(|line| line.starts_with("trunk")), "{lines:?}");
        let track = named("track", Cockpit { levers: None, ..deep() });
        let lines = said(&session(vec![track]), 1, HandPlace::Hoods);
        assert!(lines.iter().any(|line| line.contains("no place for hands on the hoods")));
    }

    #[test]
    fn a_cockpit_that_hides_another_says_so_in_label_and_words() {
        let wider = fit_doc::Bar { width_mm: 440.0, ..deep().bar };
        let bench = session(vec![
            named("copy", deep()),
            named("raised", Cockpit { spacers_mm: 30.0, ..deep() }),
            named("wider", Cockpit { bar: wider, ..deep() }),
        ]);
        let weighed = weigh(&bench, None, &Survey::shipped().unwrap()).unwrap();
        let view = side_view(&weighed, &SideChoice::usual(&weighed), &English);
        let labels: Vec<_> = view.cockpits.iter().map(|c| c.label_in(|_| true)).collect();
        let wanted = ["deep", "copy, same line as deep", "raised", "wider, same line as deep"];
        assert_eq!(labels, wanted);
        // where there is no room for the other's name it is left out and not cut, then all but its own
        let within = |most: usize| {
            let fits = move |text: &str| text.len() <= most;
            view.cockpits.iter().map(|c| c.label_in(fits)).collect::<Vec<_>>()
        };
        assert_eq!(within(18), ["deep", "copy, same line", "raised", "wider, same line"]);
        assert_eq!(within(6), ["deep", "copy", "raised", "wider"]);
        let hidden = |index| {
            let lines = said(&bench, index, HandPlace::Drops);
            lines.iter().any(|line| line.contains("lie on those of deep"))
        };
        assert_eq!([0, 1, 2, 3].map(hidden), [false, true, false, true]);
    }

    #[test]
    fn with_hands_in_all_places_each_is_said() {
        let weighed = weigh(&session(candidates()), None, &Survey::shipped().unwrap()).unwrap();
        let choice = SideChoice { hands: Hands::All, ..SideChoice::usual(&weighed) };
        let said = side_page(&weighed, &choice, &English).unwrap().twin().join("\n");
        for place in ["on the tops", "on the ramps", "on the hoods", "in the drops", "on the ends"]
        {
            let told = said.matches(&format!("hands {place}, ")).count();
            let wanted = if place == "on the hoods" { 4 } else { 5 };
            assert_eq!(told, wanted, "{place}: one has no levers\n{said}");
        }
        assert!(said.contains("no place for hands on the hoods"));
    }

    #[test]
    fn levers_that_are_not_level_and_a_leg_that_lacks_a_little_are_said() {
        let lower = |levers: Levers| Levers {
            left: LeverSetting { along_mm: levers.left.along_mm - 6.0, ..levers.left },
            ..levers
        };
        let uneven = named("uneven", Cockpit { levers: deep().levers.map(lower), ..deep() });
        let bench = session(vec![uneven]);
        let levers = |index| {
            let lines = said(&bench, index, HandPlace::Drops);
            lines.into_iter().find(|line| line.starts_with("the left hood"))
        };
        assert_eq!(levers(0), None);
        let line = levers(1).unwrap();
        assert!(line.contains("ahead of and ") && line.contains("below the right one"), "{line}");
        let leg = |height_mm| {
            let saddle = Saddle { height_mm, ..deep().saddle };
            let bench = session(vec![named("high", Cockpit { saddle, ..deep() })]);
            said(&bench, 1, HandPlace::Drops).into_iter().find(|line| line.contains(" leg "))
        };
        let first = (735..900).step_by(5).find_map(|mm| leg(f64::from(mm))).unwrap();
        assert!(first.contains("short of the pedal"), "{first}");
        assert_eq!(leg(735.0), None);
    }
}
