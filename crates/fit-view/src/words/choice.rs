//! What is said of answers to a search of the shop, and for and against each; a part of
//! [`Words`](super::Words).

use crate::choose::{
    Answer, AxisOf, Bears, Counted, GivenUp, NoSearch, NotOffered, Point, Quick, Reason, Source,
};
use crate::table::{Cell, Question};
use fit_doc::work::{Job, Work};
use fit_doc::{Aim, Cockpit, Counts, Quantity, Stays, Wanted};
use fit_math::choose::Why;

/// Every text about looking through the shop.
pub trait ChoiceWords {
    /// What one job makes of a cockpit, in a few words.
    fn job_makes(&self, job: Job, base: &Cockpit, to: &Cockpit) -> String;
    /// A short name for a cockpit by all that is done for it.
    fn answer_title(&self, work: &Work, base: &Cockpit, to: &Cockpit) -> String;
    /// What an answer is, in a line: what is done, minutes, money.
    fn answer(&self, of: &Answer, base: &Cockpit) -> String;
    /// What a cockpit is looked for.
    fn aim(&self, aim: Aim) -> &'static str;
    /// One thing that is wanted, with its place and how far.
    fn wanted(&self, of: &Wanted) -> String;
    /// How much an aim counts.
    fn counts(&self, counts: Counts) -> &'static str;
    /// What may stay as it is.
    fn stays(&self, what: Stays) -> &'static str;
    /// The least of something that an answer may have.
    fn least_of(&self, quantity: Quantity) -> String;
    /// The same, short, before a field.
    fn at_least(&self, what: &str) -> String;
    /// The most, short, before a field.
    fn at_most(&self, what: &str) -> String;
    /// The most of something that an answer may need.
    fn most_of(&self, quantity: Quantity) -> String;
    /// A question asked in passing.
    fn quick(&self, quick: Quick) -> &'static str;
    /// A point of a trade-off in a line: its numbers along both axes, in brackets where they are too small to
    /// tell and else with how far chance takes them, and what it is.
    fn balanced(&self, axes: [AxisOf; 2], point: &Point, label: &str) -> String;
    /// An answer by its number.
    fn answer_number(&self, number: usize) -> String;
    /// That a point cannot be told apart from those that are marked so.
    fn too_near(&self, marks: &[String]) -> String;
    /// What a point of a trade-off makes worse, under its line.
    fn made_worse(&self, all: &[Reason]) -> String;
    /// What an axis counts, with its place and its unit.
    fn axis(&self, of: AxisOf) -> String;
    /// A reason as a sentence.
    fn reason(&self, reason: &Reason) -> String;
    /// Opens so many answers of the same idea.
    fn more_like_it(&self, count: usize) -> String;
    /// Heading over the reasons that speak one way.
    fn bears(&self, bears: Bears) -> &'static str;
    /// Where a rule is from.
    fn source(&self, source: Source) -> &'static str;
    /// A row of the table in a line: what it is before, after, the change, and how sure that is.
    fn row_behind(&self, question: Question, before: Cell, after: Cell) -> String;
    /// Where the rule of a reason is from, as a line by itself.
    fn rule_from(&self, source: Source) -> String;
    /// How much was looked at, before what was left out.
    fn looked_through(&self, of: &Counted) -> String;
    /// What is not asked any more, and what left nothing that does it.
    fn given_up(&self, of: &GivenUp) -> String;
    /// How much was left out for one reason.
    fn left_out(&self, why: Why, count: u64) -> String;
    /// How many answers tip a hand too far where it lies much.
    fn tipped_answers(&self, count: usize) -> String;
    /// How many answers would lift the head further for a client who gets dizzy by that.
    fn head_lifted_answers(&self, count: usize) -> String;
    /// How many change too little to tell of what is asked.
    fn too_small_answers(&self, count: usize) -> String;
    /// How many answers take more than another and do no more of what is asked.
    fn no_more_answers(&self, count: usize) -> String;
    /// How many answers put the hands where they were on a trial that did no good.
    fn ridden_alike_answers(&self, count: usize) -> String;
    /// How many bars were not offered for one reason.
    fn not_offered(&self, why: NotOffered, count: usize) -> String;
    /// Why a shop cannot be looked through, and what to do.
    fn no_search(&self, why: &NoSearch) -> String;
}
