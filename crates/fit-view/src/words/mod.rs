//! All words that anybody reads, in one place: a trait with a method per text, and one
//! implementation per language, so that a missing text does not compile.
//!
//! Arguments are plain values; numbers arrive in mm, degrees and kg, and are worded with their unit.
//! No sentence is built from pieces of other sentences. One sentence stands without a full stop.
//! What is said never diagnoses, promises nothing about pain, and scores nothing.

mod caption;
mod choice;
mod client_view;
mod command;
mod detail;
mod doubt;
mod drawing;
mod english;
mod folder;
mod keeping;
mod later;
mod sheet;
mod stock;
mod visit;

pub use caption::Caption;
pub use choice::ChoiceWords;
pub use client_view::ClientWords;
pub use command::{Help, UsageError, WindowNeeds};
pub use detail::DetailText;
pub use doubt::DoubtWords;
pub use drawing::{DrawingWords, FromAbove, FromFront, Reads, Way, Went};
pub use english::English;
pub use folder::{ExportColumn, FolderWords, FoundClient, Gone, InTheWay};
pub use keeping::{KeepingWords, Remains};
pub use later::{LaterText, LaterWords, Than};
pub use sheet::{Decision, Setting, SheetText};
pub use stock::StockWords;
pub use visit::VisitWords;

use crate::act::Act;
use crate::side::Hands;
use crate::table::{AtLimit, Cell, Change, Column, Group, Question, Telling};
use crate::weigh::{MeasureNext, NotAsRead};
use fit_doc::tape::{BarKnown, Of, TapeAnswer, TapeChange, TapeRow, TapeSlip};
use fit_doc::{
    Bar, Cockpit, Complaint, Date, Dimension, FingerPart, HandPlace, Item, Joint, Message, Place,
    Quantity, Reaches, RideScore, SendOn, Spot, Suppleness, TapeDoubt, TapeItem, TapeReading,
    UndoStep, Where,
};
use fit_math::cockpit::Hold;
use fit_math::posture::Calibration;
use fit_units::{NumberError, Unit};

/// What is left after a hand place was brought back, whole mm and degrees.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Off {
    /// Distance in the side view.
    pub left_mm: i64,
    /// How much further out each hand ends; negative is further in.
    pub wider_mm: i64,
    /// How much further up the hands point.
    pub turned_deg: i64,
}

/// Every text, in one language.
pub trait Words:
    VisitWords
    + ClientWords
    + DrawingWords
    + LaterWords
    + DoubtWords
    + ChoiceWords
    + StockWords
    + FolderWords
    + KeepingWords
{
    /// The language as a tag (BCP 47): "en-GB".
    fn language(&self) -> &'static str;

    // —— names ——

    /// A hand place by itself: "hoods".
    fn hand_place(&self, place: HandPlace) -> &'static str;
    /// A body dimension, as a fitter calls it: "inseam".
    fn dimension(&self, dimension: Dimension) -> &'static str;
    /// What a number stands for: "stem length".
    fn quantity(&self, quantity: Quantity) -> &'static str;
    /// Where in the document something is, as the beginning of a message: "Bike “road”".
    fn place(&self, place: &Place) -> String;

    // —— messages ——

    /// What failed, what was expected, what to do.
    fn message(&self, message: &Message) -> String;
    /// The same with its place in a file.
    fn located(&self, spot: Spot, message: &str) -> String;
    /// Why a typed text is no number, and what could be typed instead.
    fn number_error(&self, error: &NumberError, of: Quantity) -> String;

    // —— the differences table ——

    /// Heading over the table.
    fn bench(&self, client: &str, bike: &str, visit: Date) -> String;
    /// What a column is, under its label: came, chosen, ridden; nothing for a plain candidate.
    fn column(&self, column: &Column) -> Option<&'static str>;
    /// Heading over rows that belong together.
    fn group(&self, group: Group) -> &'static str;
    /// A row under its group's heading.
    fn question(&self, question: Question) -> &'static str;
    /// Two answers are the same answer.
    fn same(&self) -> &'static str;
    /// Nothing to answer.
    fn no_answer(&self) -> &'static str;
    /// The hands do not get there: what the arms lack, whole mm.
    fn out_of_reach(&self, short_by_mm: i64) -> String;
    /// A joint is at its limit or past it: "neck 2° past its limit of 37°".
    fn at_limit(&self, at: AtLimit) -> String;
    /// How far one hand is from the other, whole mm: "3 mm up"; nought: level.
    fn apart(&self, question: Question, by: i64) -> String;
    /// How far it was on the cockpit as it came.
    fn was_apart(&self, question: Question, by: i64) -> String;
    /// What "same" means: how close two answers are.
    fn same_means(&self, closer_than_deg: i64, closer_than_mm: i64) -> String;
    /// The same in few words, where what all are compared with is in sight.
    fn same_briefly(&self, closer_than_deg: i64, closer_than_mm: i64) -> String;
    /// What "level" means: how close two hands are.
    fn level_means(&self, within_mm: i64) -> String;
    /// What the wrist's row means.
    fn wrist_means(&self) -> &'static str;
    /// What brake reach means, and to how many whole mm it is known.
    fn brake_means(&self, sd_mm: i64) -> String;
    /// What the effort to steer tells, and what of it is the same.
    fn steering_means(&self, closer_than_percent: i64) -> String;
    /// A question with how well its answers are known, whole mm.
    fn question_within(&self, question: Question, sd_mm: i64) -> String;
    /// A change by itself, in the question's own words: "12 mm back", "3° to the thumb".
    fn moved(&self, question: Question, by: i64) -> String;
    /// Dimensions that are the survey's because nobody measured them; none: all measured.
    fn not_measured(&self, dimensions: &[Dimension]) -> Option<String>;
    /// What must be said under every table, one sentence a line.
    fn cautions(&self) -> &'static [&'static str];

    // —— what stands behind the differences ——

    /// Over the details of one cockpit with the hands in one place.
    fn detail_heading(&self, label: &str, place: HandPlace) -> String;
    /// A text of them.
    fn detail(&self, text: DetailText) -> String;

    // —— the picture ——

    /// Under the client's name: bike, visit, where the hands are.
    fn picture_heading(&self, bike: &str, visit: Date, place: HandPlace) -> String;
    /// Over the rider: which cockpit is ridden, and whether the one as it came stands behind.
    fn picture_rider(&self, label: &str, before_behind: bool) -> String;
    /// Over the close look: which point of all cockpits is laid over each other.
    fn picture_close(&self, hold: Hold, hands: Hands) -> &'static str;
    /// Label of a cockpit that is drawn on the line of another one and hides it or is hidden.
    fn picture_same_line(&self, label: &str, other: &str) -> String;
    /// The same where there is no room for whose line it is.
    fn picture_same_line_short(&self, label: &str) -> String;
    /// What a square of the ground measures.
    fn picture_squares(&self, mm: i64) -> String;
    /// At the foot of the picture.
    fn picture_foot(&self) -> &'static str;
    /// So many cockpits have no card of their own on the page.
    fn picture_without_card(&self, count: usize) -> String;
    /// What the bar measures, on one line.
    fn card_bar(&self, bar: &Bar) -> String;
    /// Stem, spacers and roll on one line.
    fn card_settings(&self, cockpit: &Cockpit) -> String;
    /// How far the hands moved forward and up; in brackets what is too small to tell.
    fn card_hands(&self, forward: Cell, up: Cell) -> String;
    /// The trunk above level, with its change, in brackets where that is too small to tell.
    fn card_trunk(&self, degrees: i64, cell: Cell) -> String;
    /// How far the head is lifted, with its change likewise.
    fn card_neck(&self, degrees: i64, cell: Cell) -> String;
    /// This cockpit has no such hand place.
    fn card_no_place(&self) -> &'static str;
    /// A cockpit's point in the picture, for readers without eyes: mm ahead of the bottom bracket
    /// and above it.
    fn twin_hands(&self, label: &str, place: HandPlace, forward_mm: i64, up_mm: i64) -> String;

    // —— the client sheet ——

    /// Title of the document: whose it is, and of which day.
    fn sheet_title(&self, client: &str, visit: Date) -> String;
    /// Under the client's name.
    fn sheet_under_client(&self, bike: &str, visit: Date) -> String;
    /// A fixed text of the sheet.
    fn sheet_text(&self, text: SheetText) -> &'static str;
    /// Where the client was sent at the visit of that day, which of that day where there are several, and
    /// that he goes if he has not been. Told today as well: those stand before it.
    fn sheet_sent_on_before(
        &self,
        visit: (Date, Option<usize>),
        of: &[SendOn],
        told_today: bool,
    ) -> String;
    /// What was decided.
    fn sheet_decided(&self, label: &str, decision: Decision) -> String;
    /// What hurts, with the client's own words.
    fn sheet_complaint(&self, complaint: &Complaint, ridden: Option<RideScore>) -> String;
    /// What the client would like, in the client's own words.
    fn sheet_wish(&self, wish: &str) -> String;
    /// So many things have no line of their own.
    fn sheet_more(&self, count: usize) -> String;
    /// Under the picture: how to read it. The label is that of the cockpit laid over the one as it
    /// came, if any.
    fn sheet_picture(&self, place: HandPlace, label: Option<&str>, squares_mm: i64) -> String;
    /// How far the hands move forward and up on the bike, mm.
    fn sheet_hands(
        &self,
        place: HandPlace,
        forward: Telling,
        up: Telling,
        saddle_moved: bool,
    ) -> String;
    /// A row of what changes.
    fn sheet_question(&self, question: Question) -> String;
    /// A change by itself, in the row's own words: "3° ± 1 more upright"; how far chance takes it where that
    /// is followed.
    fn sheet_change(&self, question: Question, by: i64, within: Option<i64>) -> String;
    /// The hands would not get there: what the arms lack, whole mm.
    fn sheet_arms_short(&self, short_by_mm: i64) -> String;
    /// How far the fingers reach beyond the brake lever, whole mm; short of it negative.
    fn sheet_brake(&self, to_spare_mm: i64) -> String;
    /// Name of a setting.
    fn sheet_setting(&self, setting: Setting) -> &'static str;
    /// How it is set; none where the cockpit has no such thing.
    fn sheet_value(&self, setting: Setting, cockpit: &Cockpit) -> Option<String>;
    /// What to do and to look after, one sentence or two an entry.
    fn sheet_advice(&self) -> &'static [&'static str];
    /// The same for readers without eyes.
    fn twin_same_line(&self, label: &str, other: &str) -> String;
    /// A cockpit without the hand place that is drawn.
    fn twin_no_place(&self, label: &str, place: HandPlace) -> String;
    /// Hands that do not get there: what the arms lack, whole mm.
    fn twin_out_of_reach(&self, label: &str, short_by_mm: i64) -> String;
    /// The drawn posture: trunk above level and head lifted, whole degrees with their changes
    /// against as it came, and the joints that are at their limits.
    fn twin_posture(
        &self,
        label: &str,
        trunk: (i64, Change),
        neck: (i64, Change),
        at_limits: &[AtLimit],
    ) -> String;
    /// How far the left lever is from the right one, whole mm forward and up; none: level there.
    fn twin_levers(&self, label: &str, forward_mm: Option<i64>, up_mm: Option<i64>) -> String;
    /// A leg that cannot turn the crank: what it lacks, whole mm, and whether it is too folded.
    fn twin_leg(&self, label: &str, short_by_mm: i64, folded: bool) -> String;

    // —— from tape ——

    /// Heading over where a trial puts the hands: "Hoods, against as it came".
    fn trial_heading(&self, place: HandPlace) -> String;
    /// Where a trial put the hands, of that hand place: "hoods ahead of as it came".
    fn trial_hands(&self, quantity: Quantity, place: HandPlace) -> String;
    /// What a changed copy is called, of a cockpit of that name; none: of the one as it came.
    fn changed(&self, of: Option<&str>) -> String;
    /// The hood is drawn so far from where it was read, mm.
    fn hood_apart(&self, by_mm: f64) -> String;
    /// Numbers of a bike that nobody has read yet.
    fn not_read(&self, of: &[Quantity]) -> String;
    /// How the tape is laid, or which point is taken: "slant"; nothing where there is one way only.
    fn tape_way(&self, of: Of) -> &'static str;
    /// How the bar's own dimensions are known.
    fn bar_known(&self, known: BarKnown) -> &'static str;
    /// How a reading goes with the others, whole mm and degrees; nothing as long as nothing is found.
    fn tape_row(&self, row: &TapeRow) -> String;
    /// Which reading does not go with the others, by how much, and which slip explains it.
    fn tape_doubt(&self, doubt: &TapeDoubt) -> String;
    /// A slip that shows in one reading by itself.
    fn tape_slipped(&self, typed: &TapeReading, slip: TapeSlip, meant: &TapeReading) -> String;
    /// Button that mends a slip: what the readings become.
    fn tape_mend(&self, slip: TapeSlip, meant: &[TapeReading]) -> String;
    /// What was found, with its doubt, and what is still open.
    fn tape_found(&self, answer: &TapeAnswer) -> String;
    /// What taking over would change.
    fn tape_would_change(&self, changes: &[TapeChange], answer: &TapeAnswer) -> String;
    /// Why the bike that is drawn is not the one that was read.
    fn not_as_read(&self, why: &NotAsRead) -> String;
    /// The same said to the client.
    fn sheet_not_as_read(&self, why: &NotAsRead) -> &'static str;
    /// How the readings are used: what is solved for, and which of them stand alone.
    fn tape_how(&self) -> &'static [&'static str];
    /// Readings that nothing checks, of those that were taken.
    fn tape_alone(&self, answer: &TapeAnswer) -> String;

    // —— files and commands ——

    /// A text of the command line's help.
    fn help(&self, text: Help) -> &'static str;
    /// Why a command was not understood, and what to do.
    fn usage_error(&self, error: &UsageError) -> String;
    /// Which command says how everything is typed.
    fn more_help(&self, command: &str) -> String;
    /// The bench has no such cockpit, but these, numbered from one.
    fn no_such_cockpit(&self, found: &str, labels: &[&str]) -> String;
    /// A checked file in which nothing was found.
    fn file_fine(&self, path: &str) -> String;
    /// A checked file that opens, with so many things to ask about.
    fn file_unusual(&self, path: &str, count: usize) -> String;
    /// A file that was edited by hand has its check line again.
    fn file_accepted(&self, path: &str) -> String;
    /// A file that was edited by hand may not be saved here; why is said beside it.
    fn file_not_accepted(&self, path: &str) -> String;
    /// Where drawings were written.
    fn drawings(&self, paths: &[String]) -> String;
    /// There is no display, so the job is done on paper.
    fn no_display(&self) -> &'static str;
    /// A window could not be opened: what failed, what it needs and what to do; the job is done on
    /// paper.
    fn no_window(&self, needs: WindowNeeds, detail: &str) -> String;
    /// A file could not be written.
    fn not_written(&self, path: &str, detail: &str) -> String;
    /// A file stands where a folder is needed.
    fn not_a_folder(&self, path: &str) -> String;
    /// Results could not be printed.
    fn not_printed(&self, detail: &str) -> String;
    /// A fault of the program itself, not of what it was given.
    fn fault(&self, detail: &str) -> String;

    // —— the window ——

    /// Something a user can do, as a menu names it.
    fn act(&self, act: Act) -> String;
    /// A fixed text of the window.
    fn caption(&self, caption: Caption) -> &'static str;
    /// A step of the undo list: "Compact 420: stem length 100 → 90 mm".
    fn step(&self, step: &UndoStep) -> String;
    /// A step was taken back.
    fn undone(&self, step: &str) -> String;
    /// A step was done again.
    fn redone(&self, step: &str) -> String;
    /// Parts that bring a hand place of this cockpit back were found: which, and what is left.
    fn matched(&self, of: &Cockpit, place: HandPlace, off: &Off) -> String;
    /// One of the two cockpits has no such hand place.
    fn no_match(&self, label: &str, place: HandPlace) -> String;
    /// A sheet was written.
    fn sheet_written(&self, path: &str) -> String;
    /// Bike and visit, under the client's name.
    fn bike_and_visit(&self, bike: &str, visit: Date) -> String;
    /// Beside a refused text: the value that holds.
    fn still(&self, quantity: Quantity, value: f64) -> String;
    /// So many more than are shown.
    fn and_more(&self, count: usize) -> String;
    /// That so many more messages wait behind the one that is shown.
    fn messages_behind(&self, count: usize) -> String;
    /// A typed text that is no day.
    fn no_day(&self, typed: &str) -> String;
    /// A number with its unit: "412 mm".
    fn value(&self, quantity: Quantity, value: f64) -> String;
    /// The unit of a quantity by itself; nothing for a count.
    fn unit(&self, quantity: Quantity) -> &'static str;
    /// A value outside the usual: asked, never blocked.
    fn sure(&self, quantity: Quantity, value: f64) -> String;
    /// A value that cannot be, and what can.
    fn cannot_be(&self, quantity: Quantity, value: f64, meant: Option<(Unit, f64)>) -> String;
    /// A question by itself, of hands that stand in one place: "Trunk above level".
    fn short_question(&self, question: Question) -> &'static str;
    /// Heading over the differences: which hand place they are about.
    fn differences(&self, place: HandPlace) -> String;
    /// A quantity under a heading that says what it belongs to: "length".
    fn short_quantity(&self, quantity: Quantity) -> &'static str;
    /// The same of one side.
    fn short_on_side(&self, quantity: Quantity, left: bool) -> String;
    /// Accessible name of the button that makes a number less or more by one step.
    fn nudge(&self, name: &str, up: bool) -> String;
    /// A number of one side only.
    fn on_side(&self, quantity: Quantity, left: bool) -> String;
    /// Something with what it belongs to before it, where several sound alike.
    fn of_it(&self, whose: &str, what: &str) -> String;
    /// A line of an ordered list.
    fn numbered(&self, number: usize, text: &str) -> String;
    /// What a point of a picture is called there, by its place among them: not a number, which answers have.
    fn letter(&self, at: usize) -> String;
    /// A side of the body.
    fn body_side(&self, side: Where) -> &'static str;
    /// How far a joint goes, on a side.
    fn joint_range(&self, joint: Joint, side: Where) -> String;
    /// A joint, on a side: its row where the heading says the rest.
    fn joint(&self, joint: Joint, side: Where) -> String;
    /// How far a joint goes, in a word.
    fn suppleness(&self, word: Suppleness) -> &'static str;
    /// What is usual at the client's age, whole degrees.
    fn usual_range(&self, mean_deg: f64, sd_deg: f64) -> String;
    /// Hands in a place: "on the hoods".
    fn with_hands(&self, place: HandPlace) -> &'static str;
    /// Something seen on the bike, hands in a place.
    fn seen(&self, quantity: Quantity, place: HandPlace) -> String;
    /// What was learnt of the client from what was seen on the bike.
    fn calibrated(&self, calibration: &Calibration) -> String;
    /// Whether a hand reaches the brake from the drops.
    fn reaches_brake(&self, side: Where) -> &'static str;
    /// Which part of the finger lies on the blade.
    fn finger_part(&self, part: FingerPart) -> &'static str;
    /// How well.
    fn reaches(&self, reaches: Reaches) -> &'static str;
    /// Which reading would tell most of how the client sits, and how much.
    fn measure_next(&self, next: &MeasureNext) -> String;
    /// Where the tape is laid for a reading of the bike.
    fn how_to_tape(&self, item: TapeItem) -> &'static str;
    /// How that is taken, for what is usually read.
    fn how_to_read(&self, item: Item) -> Option<&'static str>;
    /// Something that is read off a body, as a fitter calls it: "inseam".
    fn item(&self, item: Item) -> &'static str;
    /// A reading of it, on a side, by its number.
    fn reading(&self, item: Item, side: Where, number: usize) -> String;
    /// A value that nobody measured with one standard deviation, whole mm or kg.
    fn estimate(&self, value: f64, sd: f64) -> String;
    /// The sizes in which one bend comes, widths left out.
    fn card_bends(&self, bars: &[&Bar]) -> String;
    /// A bar of the stock on one line.
    fn stock_bar(&self, bar: &Bar) -> String;
    /// Over the bars in stock: which width is marked for shoulders of that breadth, mm.
    fn first_width(&self, shoulders_mm: f64) -> String;
    /// Price and number on the shelf.
    fn shelf(&self, shelf: &fit_doc::OnTheShelf) -> String;
}
