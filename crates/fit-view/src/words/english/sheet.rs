//! The client sheet in English: plain words for somebody who is not of the trade.

use super::number::{plain, whole};
use super::{English, concern, decide, names, picture, window};
use crate::table::{Question, Scale, Telling};
use crate::weigh::NotAsRead;
use crate::words::{Decision, DoubtWords as _, LaterWords as _, Setting, SheetText};
use fit_doc::{
    Cockpit, Complaint, Date, Elsewhere, HandPlace, LeverSetting, Ridden, RideScore, SendOn, Where,
    geometry,
};
use fit_units::Unit;

pub(super) fn title(client: &str, visit: Date) -> String {
    format!("Handlebar fit: {client}, {}", picture::day(visit))
}

pub(super) fn under_client(bike: &str, visit: Date) -> String {
    format!("{bike} · visit of {}", picture::day(visit))
}

pub(super) fn text(text: SheetText) -> &'static str {
    match text {
        SheetText::Asked => "What you told us",
        SheetText::Wanted => "What you would like",
        SheetText::NothingSaid => "Nothing hurts, and nothing in particular was asked for",
        SheetText::Picture => "How you sit",
        SheetText::Changes => "What changes",
        SheetText::Numbers => "How it fits you",
        SheetText::Settings => "How it is set, and how to go back",
        SheetText::SettingsKept => "How it is set",
        SheetText::What => "",
        SheetText::AsItCame => "As it came",
        SheetText::Now => "Now",
        SheetText::Proposed => "Proposed",
        SheetText::Change => "Change",
        SheetText::CameLabel => "as it came",
        SheetText::Advice => "Before you ride",
        SheetText::Besides => "What else to know",
        SheetText::NotedChanges => "What was noted",
        SheetText::NotedSettings => "How it was set, and what was noted",
        SheetText::Noted => "Noted",
        SheetText::MoreSpacers => {
            "More spacers than before: have it checked that the steerer is long enough for them"
        }
        SheetText::GoBack => {
            "Ride somewhere quiet first. To go back, set everything as in the column “As it came”"
        }
        SheetText::AsLeft => "As it was left",
        SheetText::GoBackToLeft => {
            "Ride somewhere quiet first. Something had slipped on your bike: to go back, set everything as it was \
             left at your last visit, in the column “As it was left”"
        }
        SheetText::IsAsLeft => {
            "Ride somewhere quiet first. What had slipped is put back as it was left at your last visit: go back \
             to this, in the column “Now”, if something slips again"
        }
        SheetText::GiveOrTake => {
            "±: measuring, and how you sit from day to day, may make a change so much more or less"
        }
        SheetText::Glossary => {
            "Hoods: the rubber grips of the brake levers. Drops: the lower, hooked part of the bar. \
             Stem: the arm that holds the bar. Spacers: the rings under it. Roll: how far the bar is turned \
             in the stem. Cockpit: all of these together."
        }
        SheetText::Estimated => {
            "Worked out for you from what was measured; what was not measured is estimated by a survey of \
             bodies"
        }
    }
}

/// That the bike is drawn otherwise than it was read.
pub(super) const fn not_as_read(why: &NotAsRead) -> &'static str {
    match why {
        NotAsRead::NothingRead => {
            "Your bike was not measured yet: what is shown and worked out here is for a bike of middle size"
        }
        NotAsRead::StemNotRead => {
            "Your stem and the spacers under it were not read yet: those named here stand for them, and what is \
             worked out with them may be otherwise"
        }
        NotAsRead::Moved(_) => {
            "Something on your bike has moved since the last visit: it is shown as it was left then"
        }
        NotAsRead::Doubtful => {
            "What was measured on your bike does not go together yet: it is shown without that"
        }
        NotAsRead::NotTaken { .. } => {
            "What was measured on your bike is not used here yet: it is shown otherwise than it was measured"
        }
    }
}

/// Where the client was sent at a visit before, of what is not told today or of what is.
pub(super) fn sent_on_before(
    (day, number): (Date, Option<usize>),
    of: &[SendOn],
    told_today: bool,
) -> String {
    let visit = English.of_that_day(&format!("at the visit of {}", picture::day(day)), number);
    if told_today {
        return format!("You were sent there {visit} as well: if you have not been yet, go");
    }
    let where_to: Vec<&str> = of.iter().map(|of| concern::send_on(*of)).collect();
    let where_to = where_to.join(" ");
    format!("{} you were told: {where_to} If you have not been there yet, go", first_large(&visit))
}

pub(super) fn decided(label: &str, decision: Decision) -> String {
    match (what_was_decided(label, decision), decision) {
        (Some(what), _) => format!("Decided: {what}"),
        (None, Decision::Proposed { ridden: Ridden::No }) => {
            format!("Proposed: {label}, not ridden and not decided yet")
        }
        (None, Decision::Proposed { ridden }) => {
            format!("Proposed: {label}, which {}; not decided yet", you_rode(ridden))
        }
        (None, _) => "The bike as it came".to_owned(),
    }
}

/// What was decided before the fit stopped.
pub(super) fn noted(label: &str, decision: Decision) -> String {
    match what_was_decided(label, decision) {
        Some(what) => format!("Noted for later, and nothing to do now: {what}"),
        None => "Nothing was decided: the bike is shown as it came".to_owned(),
    }
}

fn what_was_decided(label: &str, decision: Decision) -> Option<String> {
    Some(match decision {
        Decision::Chosen { ridden: Ridden::No } => format!("{label}, not ridden yet"),
        Decision::Chosen { ridden } => format!("{label}, which {}", you_rode(ridden)),
        Decision::Kept => "the bike stays as it came".to_owned(),
        Decision::Elsewhere { of, changes: false } => {
            format!("{}; the bike stays as it came", elsewhere(of))
        }
        Decision::Elsewhere { of, changes: true } => {
            format!("{}; what changes is {label}", elsewhere(of))
        }
        Decision::Proposed { .. } | Decision::OnlyAsItCame => return None,
    })
}

/// How it was ridden, told to whoever rode it.
fn you_rode(how: Ridden) -> String {
    match how {
        Ridden::Otherwise { earlier, old_saddle } => {
            format!("you rode {}", decide::when(earlier, old_saddle))
        }
        Ridden::No | Ridden::Here => "you have ridden".to_owned(),
    }
}

fn elsewhere(of: Elsewhere) -> &'static str {
    match of {
        Elsewhere::NotTheBar => "not another bar",
        Elsewhere::TheFrame => "a question for the frame, not the bar",
    }
}

/// A complaint as it was told, and how it was before and after it was ridden.
pub(super) fn complaint(complaint: &Complaint, ridden: Option<RideScore>) -> String {
    let region = concern::concern(complaint.about);
    let mut said = match complaint.side {
        Where::Left => format!("{region}, left side"),
        Where::Right => format!("{region}, right side"),
        Where::Both => region.to_owned(),
    };
    if let Some(place) = complaint.place {
        said = format!("{said}, {}", names::with_hands(place));
    }
    if let Some(minutes) = complaint.after_minutes {
        let minute = if minutes == 1 { "minute" } else { "minutes" };
        said = format!("{said}, after {minutes}\u{a0}{minute}");
    }
    if let Some(score) = complaint.score {
        // nobody asked again: it stands as what it was at the visit before
        let when = if complaint.carried { " last time" } else { "" };
        said = format!("{said}, {score}\u{a0}of\u{a0}10{when}");
    }
    // before the client's own words, which may be long
    let before = ridden.and_then(|score| score.before);
    match (before, ridden.and_then(|score| score.after)) {
        (Some(before), Some(after)) => {
            said = format!("{said}; on your trial ride {before}, then {after}");
        }
        (None, Some(after)) => said = format!("{said}; after your trial ride {after}"),
        (_, None) => {}
    }
    let said = first_large(&said);
    let words = complaint.words.trim();
    if words.is_empty() { said } else { format!("{said}: “{words}”") }
}

/// The same with a large first letter.
pub(super) fn first_large(text: &str) -> String {
    let mut letters = text.chars();
    let first = letters.next().map(|c| c.to_uppercase().to_string()).unwrap_or_default();
    format!("{first}{}", letters.as_str())
}

pub(super) fn more(count: usize) -> String {
    match count {
        1 => "and one thing more".to_owned(),
        _ => format!("and {count} things more"),
    }
}

pub(super) fn picture(place: HandPlace, label: Option<&str>, squares_mm: i64) -> String {
    let hands = names::with_hands(place);
    let squares = whole(squares_mm, Unit::Millimetre);
    match label {
        Some(label) => format!(
            "Hands {hands}. Black: as it came, you in pale behind it. Blue dashes: {label}. Rings: your \
             hands. Squares: {squares}."
        ),
        None => {
            format!("Hands {hands}. Ring: your hands. Squares: {squares}.")
        }
    }
}

pub(super) fn hands(place: HandPlace, forward: Telling, up: Telling, saddle_moved: bool) -> String {
    let told = |of: Telling, [less, more]: [&str; 2]| match of {
        Telling::By(by, within) => Some(format!(
            "{} {}",
            give_or_take(by, within, Unit::Millimetre),
            if by < 0 { less } else { more }
        )),
        Telling::None | Telling::Same | Telling::TooSmall => None,
    };
    let ways = if saddle_moved {
        ["further back on the bike", "further forward on the bike"]
    } else {
        ["closer", "further away"]
    };
    let (level, height) = (told(forward, ways), told(up, ["lower", "higher"]));
    let hands = format!("Hands {}", names::with_hands(place));
    match (level, height) {
        (None, None) if forward == Telling::TooSmall || up == Telling::TooSmall => {
            format!("{hands}: about where they were, {}", English.too_small())
        }
        (None, None) => format!("{hands}: where they were"),
        (Some(one), None) | (None, Some(one)) => format!("{hands}: {one}"),
        (Some(level), Some(height)) => format!("{hands}: {level} and {height}"),
    }
}

/// The size of a change, and how far chance takes it: "22 mm ± 4".
fn give_or_take(by: i64, within: Option<i64>, unit: Unit) -> String {
    let size = whole(by.saturating_abs(), unit);
    within.map_or(size.clone(), |within| format!("{size}\u{a0}±\u{a0}{within}"))
}

pub(super) fn question(question: Question) -> String {
    let place = question.place().map(names::with_hands).unwrap_or_default();
    match question {
        Question::Trunk(_) => format!("Trunk above level, {place}"),
        Question::Neck(_) => format!("Head lifted, {place}"),
        Question::Elbow(_) => format!("Elbow bend, {place}"),
        Question::Brake(_) => format!("Fingers to the brake lever, {place}"),
        Question::HandTravel => "Hands, from hoods to drops".to_owned(),
        other => window::short_question(other).to_owned(),
    }
}

pub(super) fn change(question: Question, by: i64, within: Option<i64>) -> String {
    let unit = match question.scale() {
        Scale::Millimetres => Unit::Millimetre,
        Scale::Degrees => Unit::Degree,
        Scale::Percent => Unit::Percent,
    };
    let towards = match (question, by < 0) {
        (Question::Trunk(_), false) => "more upright",
        (Question::Trunk(_), true) => "lower",
        (Question::Elbow(_), false) => "more bent",
        (Question::Elbow(_), true) => "straighter",
        (Question::WidthAtHoods | Question::WidthAtEnds, false) => "wider",
        (Question::WidthAtHoods | Question::WidthAtEnds, true) => "narrower",
        (Question::Brake(_), false) => "nearer",
        (Question::Brake(_), true) => "further",
        (_, false) => "more",
        (_, true) => "less",
    };
    format!("{} {towards}", give_or_take(by, within, unit))
}

pub(super) fn arms_short(short_by_mm: i64) -> String {
    format!("arms {} short", whole(short_by_mm, Unit::Millimetre))
}

/// Whether the fingers reach the brake lever, and by how much.
pub(super) fn brake(to_spare_mm: i64) -> String {
    let mm = whole(to_spare_mm.saturating_abs(), Unit::Millimetre);
    match to_spare_mm {
        0 => "just reached".to_owned(),
        below if below < 0 => format!("{mm} short"),
        _ => format!("{mm} to spare"),
    }
}

pub(super) fn setting(setting: Setting) -> &'static str {
    match setting {
        Setting::Bar => "Bar",
        Setting::BarSize => "its size, mm",
        Setting::Stem => "Stem",
        Setting::Spacers => "Spacers",
        Setting::Roll => "Roll, nose up",
        Setting::Levers => "Levers",
        Setting::LeverPlace => "to bar’s end",
        Setting::LeverTurn => "turned in",
        Setting::LeverScrew => "reach screw",
        Setting::SaddleHeight => "Saddle height",
        Setting::SaddleBack => "behind the axle",
        Setting::SaddleTilt => "tilt, nose up",
    }
}

/// How something is set on a cockpit; none where it has no such thing.
pub(super) fn value(setting: Setting, cockpit: &Cockpit) -> Option<String> {
    let mm = |value: f64| format!("{}\u{a0}mm", plain(value.round()));
    let deg = |value: f64| format!("{}°", picture::signed_tenths(value));
    let one_piece = cockpit.bar.one_piece.is_some();
    let levers = cockpit.levers.as_ref();
    let sides = |of: &dyn Fn(&LeverSetting) -> String| {
        levers.map(|levers| {
            let [left, right] = [&levers.left, &levers.right].map(of);
            if left == right { left } else { format!("left {left}, right {right}") }
        })
    };
    let saddle = &cockpit.saddle;
    match setting {
        Setting::Bar => Some(cockpit.bar.name.clone()),
        Setting::BarSize => Some(picture::bar_size(&cockpit.bar)),
        Setting::Stem => {
            if cockpit.stem.is_trial() && cockpit.bar.one_piece.is_none() {
                return Some("a trial stem: a position, and no part yet".to_owned());
            }
            let stem = geometry::mounted_stem(cockpit);
            let angle = deg(stem.angle_rad.to_degrees());
            let part = if one_piece { ", one piece with the bar" } else { "" };
            Some(format!("{}, {angle}{part}", mm(stem.length_mm)))
        }
        Setting::Spacers if cockpit.spacers_mm == 0.0 => Some("none".to_owned()),
        Setting::Spacers => Some(mm(cockpit.spacers_mm)),
        Setting::Roll if one_piece => None,
        Setting::Roll => Some(deg(geometry::mounted_roll_deg(cockpit))),
        Setting::Levers => {
            Some(levers.map_or_else(|| "none".to_owned(), |levers| levers.lever.name.clone()))
        }
        Setting::LeverPlace => sides(&|set| mm(set.along_mm)),
        Setting::LeverTurn => sides(&|set| deg(set.turn_in_deg).replace('+', "")),
        Setting::LeverScrew => sides(&|set| match set.clicks {
            0 => "as made".to_owned(),
            1 => "1 click in".to_owned(),
            clicks => format!("{clicks} clicks in"),
        }),
        Setting::SaddleHeight => Some(mm(saddle.height_mm)),
        Setting::SaddleBack => Some(mm(saddle.nose_behind_mm)),
        Setting::SaddleTilt => Some(deg(saddle.tilt_deg)),
    }
}

pub(super) const ADVICE: &[&str] = &[
    "Tighten every bolt to what is printed on the part or in its maker’s instructions",
    "Carbon parts: look them over for cracks and crushed places before they are clamped, and again \
     after any fall",
    "Before the first ride squeeze both brakes hard: no blade may touch the bar. Turn the bar fully \
     both ways: no hose or cable may pull",
    "Local rules for roads and events come first",
    "Pain, numbness or weakness that lasts belongs with a health professional",
];

#[cfg(test)]
mod tests {
    use super::*;
    use crate::testing::deep;
    use fit_doc::Concern;

    #[test]
    fn hands_are_told_as_a_client_would() {
        use Telling::{By, Same, TooSmall};
        let said =
            |forward, up, moved| hands(HandPlace::Hoods, forward, up, moved).replace('\u{a0}', " ");
        let both = said(By(-22, Some(4)), By(4, Some(2)), false);
        assert_eq!(both, "Hands on the hoods: 22 mm ± 4 closer and 4 mm ± 2 higher");
        assert_eq!(said(Same, Same, false), "Hands on the hoods: where they were");
        let about = "Hands on the hoods: about where they were, too small to tell";
        assert_eq!(said(TooSmall, Same, false), about);
        let only = said(By(3, None), TooSmall, false);
        assert_eq!(only, "Hands on the hoods: 3 mm further away");
        assert!(said(By(-3, None), Same, true).ends_with("further back on the bike"));
    }

    #[test]
    fn a_complaint_is_said_back_in_the_clients_words() {
        let told = Complaint {
            about: Concern::Neck,
            side: Where::Both,
            place: Some(HandPlace::Drops),
            after_minutes: Some(20),
            score: Some(6),
            words: " it pulls ".into(),
            since: String::new(),
            carried: false,
        };
        let said = complaint(&told, None).replace('\u{a0}', " ");
        assert_eq!(said, "Neck, in the drops, after 20 minutes, 6 of 10: “it pulls”");
        let carried = Complaint { carried: true, words: String::new(), ..told.clone() };
        let said = complaint(&carried, None).replace('\u{a0}', " ");
        assert_eq!(said, "Neck, in the drops, after 20 minutes, 6 of 10 last time");
        let silent = Complaint { words: " ".into(), side: Where::Left, ..told };
        assert!(
            complaint(&silent, None).ends_with("10")
                && complaint(&silent, None).contains("left side")
        );
        let soon = Complaint { after_minutes: Some(1), ..silent.clone() };
        assert!(complaint(&soon, None).contains("after 1\u{a0}minute,"));
        let unasked = complaint(&Complaint { score: None, ..silent }, None).replace('\u{a0}', " ");
        assert_eq!(unasked, "Neck, left side, in the drops, after 20 minutes");
    }

    #[test]
    fn what_is_equal_on_both_sides_is_said_once() {
        let mut cockpit = deep();
        assert_eq!(value(Setting::LeverPlace, &cockpit).as_deref(), Some("203\u{a0}mm"));
        if let Some(levers) = &mut cockpit.levers {
            levers.left.along_mm = 199.6;
        }
        let uneven = value(Setting::LeverPlace, &cockpit).unwrap();
        assert_eq!(uneven, "left 200\u{a0}mm, right 203\u{a0}mm");
        cockpit.levers = None;
        assert_eq!(value(Setting::LeverPlace, &cockpit), None);
        assert_eq!(value(Setting::Levers, &cockpit).as_deref(), Some("none"));
    }
}
