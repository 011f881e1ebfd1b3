//! English, for a fitter who has never seen the program before.
//!
//! Sentence case, British spelling, plain words of the trade.

mod bar;
mod caption;
mod choice;
mod client_view;
mod command;
mod concern;
mod counted;
mod decide;
mod detail;
mod doubt;
mod drawing;
mod folder;
mod keeping;
mod later;
mod message;
mod names;
mod number;
mod picture;
mod sheet;
mod slip;
mod stock;
mod tape;
mod visit;
mod window;

use super::{
    Caption, Decision, DetailText, Help, Off, Setting, SheetText, UsageError, WindowNeeds, Words,
};
use crate::act::Act;
use crate::side::Hands;
use crate::table::{AtLimit, Axis, Cell, Change, Column, Group, Question, Scale, Telling};
use crate::weigh::{MeasureNext, NotAsRead};
use fit_doc::tape::{BarKnown, Of, TapeAnswer, TapeChange, TapeRow, TapeSlip};
use fit_doc::{
    Bar, Cockpit, Complaint, Date, Dimension, FingerPart, HandPlace, Item, Joint, Message,
    OnTheShelf, Place, Quantity, Reaches, RideScore, SendOn, Spot, Suppleness, TapeDoubt, TapeItem,
    TapeReading, UndoStep, Where,
};
use fit_math::cockpit::Hold;
use fit_math::posture::Calibration;
use fit_units::{NumberError, Unit};
use sheet::first_large;

/// The words in English.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct English;

impl Words for English {
    fn language(&self) -> &'static str {
        "en-GB"
    }

    fn hand_place(&self, place: HandPlace) -> &'static str {
        names::hand_place(place)
    }

    fn dimension(&self, dimension: Dimension) -> &'static str {
        names::dimension(dimension)
    }

    fn quantity(&self, quantity: Quantity) -> &'static str {
        names::quantity(quantity)
    }

    fn place(&self, place: &Place) -> String {
        names::place(place)
    }

    fn message(&self, message: &Message) -> String {
        message::message(message)
    }

    fn located(&self, spot: Spot, message: &str) -> String {
        format!("line {}, column {}: {message}", spot.line, spot.column)
    }

    fn number_error(&self, error: &NumberError, of: Quantity) -> String {
        number::number_error(error, number::Takes::of(of))
    }

    fn bench(&self, client: &str, bike: &str, visit: Date) -> String {
        format!("{client}, {bike}, visit of {visit}")
    }

    fn column(&self, column: &Column) -> Option<&'static str> {
        match (column.as_it_came, column.chosen, column.ridden) {
            (true, true, _) => Some("as it came, kept"),
            (true, false, _) => Some("as it came"),
            (false, true, true) => Some("chosen, ridden"),
            (false, true, false) => Some("chosen"),
            (false, false, true) => Some("ridden"),
            (false, false, false) => None,
        }
    }

    fn group(&self, group: Group) -> &'static str {
        match group {
            Group::Trunk => "Trunk above level",
            Group::Elbow => "Bend of the straighter elbow",
            Group::Neck => "Head lifted to look ahead",
            Group::Hip => "Thigh to trunk, at the top",
            Group::Wrist => "Wrist tips sideways",
            Group::Brake => "Brake reach to spare",
            Group::Travel => "From hoods to drops",
            Group::Moved => "Hands from where they were",
            Group::FromSaddle => "Hands from the saddle",
            Group::Sides => "Left hand from the right",
            Group::Steering => "Effort to steer",
            Group::Bar => "Bar",
        }
    }

    fn question(&self, question: Question) -> &'static str {
        match question {
            Question::Trunk(place)
            | Question::Elbow(place)
            | Question::Neck(place)
            | Question::Hip(place)
            | Question::Wrist(place)
            | Question::Brake(place)
            | Question::Steering(place) => names::with_hands(place),
            Question::HandTravel => "the hands move",
            Question::TrunkTravel => "the trunk comes down",
            Question::Moved(place, Axis::Forward) => names::forward_or_back(place),
            Question::Moved(place, Axis::Up) => names::up_or_down(place),
            Question::LeftFromRight(Axis::Forward) => names::forward_or_back(HandPlace::Hoods),
            Question::LeftFromRight(Axis::Up) => names::up_or_down(HandPlace::Hoods),
            Question::FromNose(place) => names::ahead_of_nose(place),
            Question::BelowSaddle(place) => names::below_saddle(place),
            Question::WidthAtHoods => "width at the hoods",
            Question::WidthAtEnds => "width at the ends",
            Question::BarReach => "reach",
            Question::BarDrop => "drop",
        }
    }

    fn same(&self) -> &'static str {
        "same"
    }

    fn no_answer(&self) -> &'static str {
        "–"
    }

    fn out_of_reach(&self, short_by_mm: i64) -> String {
        format!("out of reach by {}", number::whole(short_by_mm, Unit::Millimetre))
    }

    fn at_limit(&self, at: AtLimit) -> String {
        number::at_limit(at)
    }

    fn apart(&self, question: Question, by: i64) -> String {
        if by == 0 { "level".to_owned() } else { self.moved(question, by) }
    }

    fn was_apart(&self, question: Question, by: i64) -> String {
        format!("was {}", self.apart(question, by))
    }

    fn same_means(&self, closer_than_deg: i64, closer_than_mm: i64) -> String {
        let degrees = number::whole(closer_than_deg, Unit::Degree);
        let mm = number::whole(closer_than_mm, Unit::Millimetre);
        format!("Same: less than {degrees} or {mm} from as it came")
    }

    fn same_briefly(&self, closer_than_deg: i64, closer_than_mm: i64) -> String {
        let degrees = number::whole(closer_than_deg, Unit::Degree);
        let mm = number::whole(closer_than_mm, Unit::Millimetre);
        format!("Same: less than {degrees} or {mm} apart")
    }

    fn level_means(&self, within_mm: i64) -> String {
        let mm = number::whole(within_mm, Unit::Millimetre);
        format!("Level: the hoods are within {mm} of each other")
    }

    fn wrist_means(&self) -> &'static str {
        "Wrist: how much further than as it came the hand tips towards the thumb or the little finger; \
         of this only the change can be worked out"
    }

    fn brake_means(&self, sd_mm: i64) -> String {
        let mm = number::whole(sd_mm, Unit::Millimetre);
        format!(
            "Brake reach: what the fingers reach beyond the lever where it stands; below 0 they fall \
             short; to some {mm}, and nearer once a finger is seen at the lever"
        )
    }

    fn steering_means(&self, closer_than_percent: i64) -> String {
        let percent = number::whole(closer_than_percent, Unit::Percent);
        format!(
            "Effort to steer: how much more or less than as it came the hands need to turn the bar, by \
             how wide they are apart; less than {percent} is the same"
        )
    }

    fn question_within(&self, question: Question, sd_mm: i64) -> String {
        format!("{}, ±\u{a0}{sd_mm}", window::short_question(question))
    }

    fn moved(&self, question: Question, by: i64) -> String {
        let unit = match question.scale() {
            Scale::Millimetres => Unit::Millimetre,
            Scale::Degrees => Unit::Degree,
            Scale::Percent => Unit::Percent,
        };
        let amount = number::whole(by.saturating_abs(), unit);
        let towards = match (question, by < 0) {
            (Question::Moved(_, Axis::Forward) | Question::LeftFromRight(Axis::Forward), false) => {
                "forward"
            }
            (Question::Moved(_, Axis::Forward) | Question::LeftFromRight(Axis::Forward), true) => {
                "back"
            }
            (Question::Moved(_, Axis::Up) | Question::LeftFromRight(Axis::Up), false) => "up",
            (Question::Moved(_, Axis::Up) | Question::LeftFromRight(Axis::Up), true) => "down",
            (Question::Wrist(_), false) => "to thumb",
            (Question::Wrist(_), true) => "to little finger",
            (_, false) => "more",
            (_, true) => "less",
        };
        format!("{amount} {towards}")
    }

    fn not_measured(&self, dimensions: &[Dimension]) -> Option<String> {
        let names: Vec<_> = dimensions.iter().map(|&d| names::dimension(d)).collect();
        let (last, others) = names.split_last()?;
        let all = if others.is_empty() {
            (*last).to_owned()
        } else {
            format!("{} and {last}", others.join(", "))
        };
        Some(format!(
            "Not measured, so estimated from the other readings by a survey of bodies: {all}"
        ))
    }

    fn cautions(&self) -> &'static [&'static str] {
        &[
            "A change of bar, stem or levers changes steering and braking: let a qualified mechanic fit \
             the parts after their makers' instructions, and ride it before you rely on it",
            "These are computed differences between cockpits for one person, not medical advice",
        ]
    }

    fn detail_heading(&self, label: &str, place: HandPlace) -> String {
        format!("{label}, hands {}", names::with_hands(place))
    }

    fn detail(&self, text: DetailText) -> String {
        detail::text(text)
    }

    fn picture_heading(&self, bike: &str, visit: Date, place: HandPlace) -> String {
        picture::heading(bike, visit, place)
    }

    fn picture_rider(&self, label: &str, before_behind: bool) -> String {
        picture::rider(label, before_behind)
    }

    fn picture_close(&self, hold: Hold, hands: Hands) -> &'static str {
        picture::close(hold, hands)
    }

    fn picture_same_line(&self, label: &str, other: &str) -> String {
        format!("{label}, same line as {other}")
    }

    fn picture_same_line_short(&self, label: &str) -> String {
        format!("{label}, same line")
    }

    fn picture_squares(&self, mm: i64) -> String {
        format!("squares of {}", number::whole(mm, Unit::Millimetre))
    }

    fn picture_foot(&self) -> &'static str {
        "Computed differences for one person, to be ridden before they are relied on. A change of bar, \
         stem or levers changes steering and braking: have a qualified mechanic fit the parts after \
         their makers' instructions."
    }

    fn picture_without_card(&self, count: usize) -> String {
        match count {
            1 => "one more cockpit is in the table".to_owned(),
            _ => format!("{count} more cockpits are in the table"),
        }
    }

    fn card_bar(&self, bar: &Bar) -> String {
        picture::bar_size(bar)
    }

    fn card_settings(&self, cockpit: &Cockpit) -> String {
        picture::settings(cockpit)
    }

    fn card_hands(&self, forward: Cell, up: Cell) -> String {
        picture::hands(forward, up)
    }

    fn card_trunk(&self, degrees: i64, cell: Cell) -> String {
        picture::trunk(degrees, cell)
    }

    fn card_neck(&self, degrees: i64, cell: Cell) -> String {
        picture::neck(degrees, cell)
    }

    fn card_no_place(&self) -> &'static str {
        "no such place for the hands"
    }

    fn twin_hands(&self, label: &str, place: HandPlace, forward_mm: i64, up_mm: i64) -> String {
        picture::twin_hands(label, place, forward_mm, up_mm)
    }

    fn sheet_title(&self, client: &str, visit: Date) -> String {
        sheet::title(client, visit)
    }

    fn sheet_under_client(&self, bike: &str, visit: Date) -> String {
        sheet::under_client(bike, visit)
    }

    fn sheet_text(&self, text: SheetText) -> &'static str {
        sheet::text(text)
    }

    fn sheet_sent_on_before(
        &self,
        visit: (Date, Option<usize>),
        of: &[SendOn],
        told_today: bool,
    ) -> String {
        sheet::sent_on_before(visit, of, told_today)
    }

    fn sheet_decided(&self, label: &str, decision: Decision) -> String {
        sheet::decided(label, decision)
    }

    fn sheet_complaint(&self, complaint: &Complaint, ridden: Option<RideScore>) -> String {
        sheet::complaint(complaint, ridden)
    }

    fn sheet_wish(&self, wish: &str) -> String {
        format!("“{}”", wish.trim())
    }

    fn sheet_more(&self, count: usize) -> String {
        sheet::more(count)
    }

    fn sheet_picture(&self, place: HandPlace, label: Option<&str>, squares_mm: i64) -> String {
        sheet::picture(place, label, squares_mm)
    }

    fn sheet_hands(
        &self,
        place: HandPlace,
        forward: Telling,
        up: Telling,
        saddle_moved: bool,
    ) -> String {
        sheet::hands(place, forward, up, saddle_moved)
    }

    fn sheet_question(&self, question: Question) -> String {
        sheet::question(question)
    }

    fn sheet_change(&self, question: Question, by: i64, within: Option<i64>) -> String {
        sheet::change(question, by, within)
    }

    fn sheet_arms_short(&self, short_by_mm: i64) -> String {
        sheet::arms_short(short_by_mm)
    }

    fn sheet_brake(&self, to_spare_mm: i64) -> String {
        sheet::brake(to_spare_mm)
    }

    fn sheet_setting(&self, setting: Setting) -> &'static str {
        sheet::setting(setting)
    }

    fn sheet_value(&self, setting: Setting, cockpit: &Cockpit) -> Option<String> {
        sheet::value(setting, cockpit)
    }

    fn sheet_advice(&self) -> &'static [&'static str] {
        sheet::ADVICE
    }

    fn twin_same_line(&self, label: &str, other: &str) -> String {
        format!("{label}: from the side its bar and levers lie on those of {other}")
    }

    fn twin_no_place(&self, label: &str, place: HandPlace) -> String {
        picture::twin_no_place(label, place)
    }

    fn twin_out_of_reach(&self, label: &str, short_by_mm: i64) -> String {
        picture::twin_out_of_reach(label, short_by_mm)
    }

    fn twin_posture(
        &self,
        label: &str,
        trunk: (i64, Change),
        neck: (i64, Change),
        at_limits: &[AtLimit],
    ) -> String {
        picture::twin_posture(label, trunk, neck, at_limits)
    }

    fn twin_levers(&self, label: &str, forward_mm: Option<i64>, up_mm: Option<i64>) -> String {
        picture::twin_levers(label, forward_mm, up_mm)
    }

    fn twin_leg(&self, label: &str, short_by_mm: i64, folded: bool) -> String {
        picture::twin_leg(label, short_by_mm, folded)
    }

    fn trial_heading(&self, place: HandPlace) -> String {
        first_large(&format!("{}, against as it came", names::hand_place(place)))
    }

    fn changed(&self, of: Option<&str>) -> String {
        window::changed(of)
    }

    fn hood_apart(&self, by_mm: f64) -> String {
        tape::hood_apart(by_mm)
    }

    fn not_read(&self, of: &[Quantity]) -> String {
        tape::not_read(of)
    }

    fn trial_hands(&self, quantity: Quantity, place: HandPlace) -> String {
        let way = if quantity == Quantity::HandsUp { "above" } else { "ahead of" };
        format!("{} {way} as it came", names::hand_place(place))
    }

    fn tape_way(&self, of: Of) -> &'static str {
        tape::way(of)
    }

    fn bar_known(&self, known: BarKnown) -> &'static str {
        tape::bar_known(known)
    }

    fn tape_row(&self, row: &TapeRow) -> String {
        tape::row(row)
    }

    fn tape_doubt(&self, doubt: &TapeDoubt) -> String {
        first_large(&tape::doubt(doubt))
    }

    fn tape_slipped(&self, typed: &TapeReading, slip: TapeSlip, meant: &TapeReading) -> String {
        first_large(&tape::slipped(typed, slip, meant))
    }

    fn tape_mend(&self, slip: TapeSlip, meant: &[TapeReading]) -> String {
        tape::mend(slip, meant)
    }

    fn tape_found(&self, answer: &TapeAnswer) -> String {
        tape::found(answer)
    }

    fn tape_would_change(&self, changes: &[TapeChange], answer: &TapeAnswer) -> String {
        tape::would_change(changes, answer)
    }

    fn not_as_read(&self, why: &NotAsRead) -> String {
        tape::not_as_read(why)
    }

    fn sheet_not_as_read(&self, why: &NotAsRead) -> &'static str {
        sheet::not_as_read(why)
    }

    fn tape_how(&self) -> &'static [&'static str] {
        tape::HOW
    }

    fn tape_alone(&self, answer: &TapeAnswer) -> String {
        tape::alone(answer)
    }

    fn help(&self, text: Help) -> &'static str {
        command::help(text)
    }

    fn usage_error(&self, error: &UsageError) -> String {
        command::usage_error(error)
    }

    fn more_help(&self, command: &str) -> String {
        command::more_help(command)
    }

    fn no_such_cockpit(&self, found: &str, labels: &[&str]) -> String {
        command::no_such_cockpit(found, labels)
    }

    fn file_fine(&self, path: &str) -> String {
        format!("{path}: fine")
    }

    fn file_unusual(&self, path: &str, count: usize) -> String {
        match count {
            1 => format!("{path}: opens, one thing to ask about"),
            _ => format!("{path}: opens, {count} things to ask about"),
        }
    }

    fn file_accepted(&self, path: &str) -> String {
        format!(
            "{path}: saved with a new check line, and what was there is kept as an earlier content"
        )
    }

    fn file_not_accepted(&self, path: &str) -> String {
        format!("{path}: not saved, it can only be looked at")
    }

    fn drawings(&self, paths: &[String]) -> String {
        format!("Drawings of the side view: {}", paths.join(", "))
    }

    fn no_display(&self) -> &'static str {
        "There is no display to open a window on; the same on paper:"
    }

    fn no_window(&self, needs: WindowNeeds, detail: &str) -> String {
        command::no_window(needs, detail)
    }

    fn not_written(&self, path: &str, detail: &str) -> String {
        format!(
            "{path} could not be written: {detail}. Choose a folder that you may write to, with room \
             left on the disk."
        )
    }

    fn not_a_folder(&self, path: &str) -> String {
        format!(
            "Nothing could be written into {path}: it is a file, and a folder is needed. Name another one; \
             it is made where there is none."
        )
    }

    fn not_printed(&self, detail: &str) -> String {
        format!(
            "The results could not be written: {detail}. Send them to a place that you may write to, with \
             room left."
        )
    }

    fn fault(&self, detail: &str) -> String {
        format!("This is a fault of the program, please report it: {detail}")
    }

    fn act(&self, act: Act) -> String {
        window::act(act)
    }

    fn caption(&self, caption: Caption) -> &'static str {
        caption::caption(caption)
    }

    fn step(&self, step: &UndoStep) -> String {
        window::step(step)
    }

    fn undone(&self, step: &str) -> String {
        format!("Undone: {step}")
    }

    fn redone(&self, step: &str) -> String {
        format!("Done again: {step}")
    }

    fn matched(&self, of: &Cockpit, place: HandPlace, off: &Off) -> String {
        window::matched(of, place, off)
    }

    fn no_match(&self, label: &str, place: HandPlace) -> String {
        window::no_match(label, place)
    }

    fn sheet_written(&self, path: &str) -> String {
        format!("Client sheet: {path}")
    }

    fn bike_and_visit(&self, bike: &str, visit: Date) -> String {
        format!("{bike} · visit of {visit}")
    }

    fn still(&self, quantity: Quantity, value: f64) -> String {
        format!("It is still {}.", number::valued(quantity, value))
    }

    fn and_more(&self, count: usize) -> String {
        format!("… and {count} more")
    }

    fn messages_behind(&self, count: usize) -> String {
        match count {
            1 => "One more message is behind this one: close it to read on".to_owned(),
            _ => format!("{count} more messages are behind this one: close it to read on"),
        }
    }

    fn no_day(&self, typed: &str) -> String {
        format!("“{typed}” is no day. Write year, month and day like this: 2026-04-11")
    }

    fn value(&self, quantity: Quantity, value: f64) -> String {
        number::valued(quantity, value)
    }

    fn unit(&self, quantity: Quantity) -> &'static str {
        names::unit(quantity).trim()
    }

    fn sure(&self, quantity: Quantity, value: f64) -> String {
        let (usual, value) = (quantity.range().ask, number::valued(quantity, value));
        format!("Sure? {value} is seldom seen; usual is {}", number::range(quantity, usual))
    }

    fn cannot_be(&self, quantity: Quantity, value: f64, meant: Option<(Unit, f64)>) -> String {
        let range = number::range(quantity, quantity.range().refuse);
        let cannot = format!("{} cannot be; type {range}.", number::valued(quantity, value));
        match meant {
            Some((unit, mm)) => {
                let unit = if unit == Unit::Inch { "inches" } else { "centimetres" };
                let meant = number::valued(quantity, mm.round());
                format!("{cannot} If those were {unit}, it is {meant}.")
            }
            None => cannot,
        }
    }

    fn short_question(&self, question: Question) -> &'static str {
        window::short_question(question)
    }

    fn differences(&self, place: HandPlace) -> String {
        format!("Differences, hands {}", names::with_hands(place))
    }

    fn short_quantity(&self, quantity: Quantity) -> &'static str {
        window::short_quantity(quantity)
    }

    fn short_on_side(&self, quantity: Quantity, left: bool) -> String {
        let side = if left { "left" } else { "right" };
        format!("{side}, {}", window::short_quantity(quantity))
    }

    fn nudge(&self, name: &str, up: bool) -> String {
        let direction = if up { "more" } else { "less" };
        format!("{name}: {direction}")
    }

    fn on_side(&self, quantity: Quantity, left: bool) -> String {
        let side = if left { "left" } else { "right" };
        format!("{}, {side}", names::quantity(quantity))
    }

    fn of_it(&self, whose: &str, what: &str) -> String {
        format!("{whose}: {what}")
    }

    fn numbered(&self, number: usize, text: &str) -> String {
        format!("{number}  {text}")
    }

    fn letter(&self, at: usize) -> String {
        let one = ('A'..='Z').nth(at % 26).unwrap_or('A').to_string();
        one.repeat(at / 26 + 1)
    }

    fn body_side(&self, side: Where) -> &'static str {
        window::body_side(side)
    }

    fn joint_range(&self, joint: Joint, side: Where) -> String {
        window::joint_range(joint, side)
    }

    fn joint(&self, joint: Joint, side: Where) -> String {
        window::joint_of(joint, side)
    }

    fn suppleness(&self, word: Suppleness) -> &'static str {
        names::suppleness(word)
    }

    fn usual_range(&self, mean_deg: f64, sd_deg: f64) -> String {
        format!("usual {mean_deg:.0}° ± {sd_deg:.0}° at this age")
    }

    fn with_hands(&self, place: HandPlace) -> &'static str {
        names::with_hands(place)
    }

    fn seen(&self, quantity: Quantity, place: HandPlace) -> String {
        format!("{}, {}", names::quantity(quantity), names::with_hands(place))
    }

    fn calibrated(&self, calibration: &Calibration) -> String {
        window::calibrated(calibration)
    }

    fn reaches_brake(&self, side: Where) -> &'static str {
        match side {
            Where::Left => "left hand to the brake, from the drops",
            Where::Right => "right hand to the brake, from the drops",
            Where::Both => "both hands to the brake, from the drops",
        }
    }

    fn finger_part(&self, part: FingerPart) -> &'static str {
        window::finger_part(part)
    }

    fn reaches(&self, reaches: Reaches) -> &'static str {
        match reaches {
            Reaches::Yes => "yes",
            Reaches::Just => "just",
            Reaches::No => "no",
        }
    }

    fn measure_next(&self, next: &MeasureNext) -> String {
        window::measure_next(next)
    }

    fn how_to_tape(&self, item: TapeItem) -> &'static str {
        tape::how_to_tape(item)
    }

    fn how_to_read(&self, item: Item) -> Option<&'static str> {
        names::how_to_read(item)
    }

    fn item(&self, item: Item) -> &'static str {
        names::item(item)
    }

    fn reading(&self, item: Item, side: Where, number: usize) -> String {
        let name = window::reading(item, side);
        match number {
            1 => name,
            number => format!("{name}, reading {number}"),
        }
    }

    fn estimate(&self, value: f64, sd: f64) -> String {
        format!("{value:.0} ± {sd:.0}")
    }

    fn card_bends(&self, bars: &[&Bar]) -> String {
        window::bends(bars)
    }

    fn first_width(&self, shoulders_mm: f64) -> String {
        format!(
            "• is nearest to the shoulders, {}: a width to begin with. What the client rides and likes \
             counts for more.",
            number::valued(
                Quantity::Body(Dimension::BiacromialBreadth.into()),
                shoulders_mm.round()
            )
        )
    }

    fn stock_bar(&self, bar: &Bar) -> String {
        window::stock_bar(bar)
    }

    fn shelf(&self, shelf: &OnTheShelf) -> String {
        window::shelf(shelf)
    }
}
