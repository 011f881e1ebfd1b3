//! What is said at a visit, in English: what brings the client, what is tried and ridden.

use super::{English, concern, decide, later, names, picture, window};
use crate::frame_question::FrameQuestion;
use crate::table::Change;
use crate::words::VisitWords;
use fit_doc::concern::{Attempt, Held, Outcome, Said};
use fit_doc::work::{Job, Step, Work};
use fit_doc::{
    Bar, Cockpit, Complaint, Concern, Corrected, Date, Elsewhere, HandPlace, Helmet, Liking,
    Looked, Price, Quantity, Ridden, Ride, RideScore, RuleOut, SendOn, Where,
};

impl VisitWords for English {
    fn concern(&self, of: Concern) -> &'static str {
        concern::concern(of)
    }

    fn rule_out(&self, item: RuleOut) -> &'static str {
        concern::rule_out(item)
    }

    fn looked(&self, looked: Looked) -> &'static str {
        concern::looked(looked)
    }

    fn attempt(&self, attempt: Attempt) -> &'static str {
        concern::attempt(attempt)
    }

    fn must_say(&self, said: Said) -> &'static str {
        concern::said(said)
    }

    fn red_flag(&self, of: SendOn) -> &'static str {
        concern::red_flag(of)
    }

    fn sent_on_before(&self, day: Date, of: &[&str]) -> String {
        format!(
            "Sent on at the visit of {}: {}. Ask whether somebody looked at it, and whether it is still so.",
            picture::day(day),
            of.join("; ")
        )
    }

    fn send_on(&self, to: SendOn) -> &'static str {
        concern::send_on(to)
    }

    fn outcome(&self, outcome: Outcome) -> &'static str {
        concern::outcome(outcome)
    }

    fn on_body(&self, about: Concern, side: Where) -> String {
        concern::on_body(about, side)
    }

    fn rule_out_first(&self, looked: usize, of: usize) -> String {
        format!("First rule out: {looked} of {of} looked at")
    }

    fn ride_heading(&self, number: usize) -> String {
        format!("Trial {number}")
    }

    fn ride_runs(&self, minutes: u32) -> String {
        format!("runs for {minutes}\u{a0}min")
    }

    fn ride(&self, number: usize, label: &str, ride: &Ride) -> String {
        concern::ride(number, Some(label), ride)
    }

    fn ride_said(&self, number: usize, ride: &Ride) -> String {
        concern::ride(number, None, ride)
    }

    fn liking(&self, liking: Liking) -> &'static str {
        concern::liking(liking)
    }

    fn score_of(&self, score: RideScore) -> String {
        concern::score_of(score)
    }

    fn score_before(&self, score: RideScore) -> String {
        format!("{}, now", later::was(score.before))
    }

    fn score_mark(&self, score: Option<u8>) -> String {
        score.map_or("?".to_owned(), |score| score.to_string())
    }

    fn score_now(&self, score: RideScore) -> String {
        format!("{}, {}", concern::score_of(score), later::was(score.before))
    }

    fn foretold(&self, deg: f64) -> String {
        format!("Foretold {deg:.0}°")
    }

    fn foretold_before(&self, corrected: &[Corrected]) -> Option<String> {
        concern::corrected(corrected).map(|said| format!("Not counted: {said}"))
    }

    fn against_trial(&self, place: HandPlace, number: usize, label: &str) -> String {
        format!("Against trial {number}, {label}, hands {}", names::with_hands(place))
    }

    fn same_as_trial(&self, closer_than_deg: i64, closer_than_mm: i64) -> String {
        format!("Same: less than {closer_than_deg}° or {closer_than_mm}\u{a0}mm from it")
    }

    fn back_to_trial(&self, number: usize, label: &str) -> String {
        format!("back to trial {number}, {label}")
    }

    fn helmet(&self, of: Helmet) -> &'static str {
        concern::helmet(of)
    }

    fn shares(&self, sum: Option<u32>) -> String {
        let sum = sum.map_or_else(String::new, |sum| format!(": {sum}\u{a0}%"));
        format!("Share of the time, hands{sum}")
    }

    fn held_back(&self, held: Held) -> String {
        concern::held_back(held)
    }

    fn complaint(&self, complaint: &Complaint, now: Option<u8>) -> String {
        let text = window::complaint(complaint);
        match now {
            Some(now) => format!("{text}, now {now}"),
            // what stands there is of an earlier visit
            None if complaint.carried => format!("{text}, not asked yet"),
            None => text,
        }
    }

    fn bar_and_width(&self, bar: &Bar) -> String {
        format!("{} {:.0}", bar.name, bar.width_mm)
    }

    fn job(&self, job: Job) -> &'static str {
        decide::job(job)
    }

    fn job_done(&self, step: &Step, came: &Cockpit, to: &Cockpit) -> String {
        decide::done(step, came, to)
    }

    fn brake_fact(&self, to_spare_mm: i64, sd_mm: i64, change: Change) -> String {
        decide::brake(to_spare_mm, sd_mm, change)
    }

    fn question_as_seen(&self, question: &str) -> String {
        format!("{question}, as seen")
    }

    fn brake_stands_on(&self, cockpits: &[&str]) -> String {
        format!("Brake reach stands on what was seen of the hands on {}", cockpits.join(", "))
    }

    fn job_takes(&self, step: &Step) -> String {
        decide::takes(step)
    }

    fn work_takes(&self, work: &Work, hour: Option<Price>) -> String {
        decide::total(work, hour)
    }

    fn left_alone(&self, jobs: &[Job]) -> String {
        decide::left_alone(jobs)
    }

    fn changed_to_what(&self, of: &[Quantity]) -> String {
        decide::changed_to_what(of)
    }

    fn saddle_not_on(&self, of: &[Quantity]) -> String {
        decide::saddle_not_on(of)
    }

    fn ridden(&self, how: Ridden) -> String {
        decide::ridden(how)
    }

    fn short_ridden(&self, how: Ridden) -> &'static str {
        match how {
            Ridden::No => "drawn",
            Ridden::Here => "ridden",
            Ridden::Otherwise { .. } => "ridden before",
        }
    }

    fn on_trials(&self, how: Ridden, rides: &[&Ride]) -> String {
        decide::on_trials(how, rides)
    }

    fn ride_first(&self, how: Ridden) -> Option<String> {
        decide::ride_first(how)
    }

    fn elsewhere(&self, of: Elsewhere) -> &'static str {
        decide::elsewhere(of)
    }

    fn frame_question(&self, of: FrameQuestion) -> String {
        decide::frame_question(of)
    }
}
