//! What is said at a visit: what brings the client, what is ruled out, tried and ridden.

use crate::frame_question::FrameQuestion;
use crate::table::Change;
use fit_doc::concern::{Attempt, Held, Outcome, Said};
use fit_doc::work::{Job, Step, Work};
use fit_doc::{
    Bar, Cockpit, Complaint, Concern, Corrected, Date, Elsewhere, HandPlace, Helmet, Liking,
    Looked, Price, Quantity, Ridden, Ride, RideScore, RuleOut, SendOn, Where,
};

/// Every text about what is asked, tried and decided at a visit; a part of [`Words`](super::Words).
pub trait VisitWords {
    /// What brings a client.
    fn concern(&self, of: Concern) -> &'static str;
    /// What is looked at before any bar.
    fn rule_out(&self, item: RuleOut) -> &'static str;
    /// What became of it.
    fn looked(&self, looked: Looked) -> &'static str;
    /// What is tried, with its size.
    fn attempt(&self, attempt: Attempt) -> &'static str;
    /// What must be said with it.
    fn must_say(&self, said: Said) -> &'static str;
    /// What a client is asked that would send him on.
    fn red_flag(&self, of: SendOn) -> &'static str;
    /// What the client was sent on for at the visit of that day, and does not tell now.
    fn sent_on_before(&self, day: Date, of: &[&str]) -> String;
    /// Where that sends him.
    fn send_on(&self, to: SendOn) -> &'static str;
    /// What can come of a concern.
    fn outcome(&self, outcome: Outcome) -> &'static str;
    /// Something on the body with its side.
    fn on_body(&self, about: Concern, side: Where) -> String;
    /// Heading over what is ruled out first: how much of it was looked at.
    fn rule_out_first(&self, looked: usize, of: usize) -> String;
    /// Heading over the trial that is running.
    fn ride_heading(&self, number: usize) -> String;
    /// For how many whole minutes it has been running.
    fn ride_runs(&self, minutes: u32) -> String;
    /// A trial that is over, in a line.
    fn ride(&self, number: usize, label: &str, ride: &Ride) -> String;
    /// The same where it is plain what was ridden.
    fn ride_said(&self, number: usize, ride: &Ride) -> String;
    /// What the client makes of a trial.
    fn liking(&self, liking: Liking) -> &'static str;
    /// A complaint that is scored after a trial.
    fn score_of(&self, score: RideScore) -> String;
    /// What it was before.
    fn score_before(&self, score: RideScore) -> String;
    /// On the outline of a body: how bad it is, or that nobody has asked.
    fn score_mark(&self, score: Option<u8>) -> String;
    /// A complaint that is scored after a trial, with what it was before.
    fn score_now(&self, score: RideScore) -> String;
    /// What was foretold of something that is seen, degrees.
    fn foretold(&self, deg: f64) -> String;
    /// What was put right since something was foretold, and that it does not count for that; none:
    /// nothing was.
    fn foretold_before(&self, corrected: &[Corrected]) -> Option<String>;
    /// Heading over the differences, hands there, against the cockpit that was ridden on a trial.
    fn against_trial(&self, place: HandPlace, number: usize, label: &str) -> String;
    /// What "same" means against a trial: answers closer than so many degrees, and mm.
    fn same_as_trial(&self, closer_than_deg: i64, closer_than_mm: i64) -> String;
    /// Leads back to what was ridden on a trial.
    fn back_to_trial(&self, number: usize, label: &str) -> String;
    /// What is worn on the head.
    fn helmet(&self, of: Helmet) -> &'static str;
    /// Heading over the shares of the time in the hand places, with what they come to.
    fn shares(&self, sum: Option<u32>) -> String;
    /// Why nothing is said of the bar yet.
    fn held_back(&self, held: Held) -> String;
    /// A complaint on one line, with how bad it is now where a trial asked.
    fn complaint(&self, complaint: &Complaint, now: Option<u8>) -> String;

    /// A bar by its name and width.
    fn bar_and_width(&self, bar: &Bar) -> String;

    // —— the decision ——

    /// A job by itself.
    fn job(&self, job: Job) -> &'static str;
    /// A job with what it changes: "spacers: 20 mm, then 30 mm".
    fn job_done(&self, step: &Step, came: &Cockpit, to: &Cockpit) -> String;
    /// How far the fingers reach beyond the brake with the hands there, whole mm, below 0 short of it;
    /// to how many that is known, with its change: "brake in reach by 5 mm ± 5, 7 mm nearer".
    fn brake_fact(&self, to_spare_mm: i64, sd_mm: i64, change: Change) -> String;
    /// A question about brakes whose answers follow from hands that were looked at.
    fn question_as_seen(&self, question: &str) -> String;
    /// On which cockpits the hands were looked at that a brake's reach follows from.
    fn brake_stands_on(&self, cockpits: &[&str]) -> String;
    /// What it takes, in time and money.
    fn job_takes(&self, step: &Step) -> String;
    /// The same of all of it; with the price of an hour where that is known.
    fn work_takes(&self, work: &Work, hour: Option<Price>) -> String;
    /// What stays as it is.
    fn left_alone(&self, jobs: &[Job]) -> String;
    /// Asks to what numbers of the saddle were changed.
    fn changed_to_what(&self, of: &[Quantity]) -> String;
    /// Of a cockpit that has numbers of the saddle as they came, though they were changed.
    fn saddle_not_on(&self, of: &[Quantity]) -> String;
    /// Whether a cockpit was ridden, and when or how: "only drawn", "ridden at the visit of 2 May 2026".
    fn ridden(&self, how: Ridden) -> String;
    /// The same in a word or two.
    fn short_ridden(&self, how: Ridden) -> &'static str;
    /// The same with what the client said of it on its trials, in their order.
    fn on_trials(&self, how: Ridden, rides: &[&Ride]) -> String;
    /// That it is ridden before anything is relied on; none where it was, as it is.
    fn ride_first(&self, how: Ridden) -> Option<String>;
    /// Where the answer lies, if it is not the bar.
    fn elsewhere(&self, of: Elsewhere) -> &'static str;
    /// What asks for another frame.
    fn frame_question(&self, of: FrameQuestion) -> String;
}
