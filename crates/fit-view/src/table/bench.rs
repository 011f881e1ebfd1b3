//! The table of the bench: the questions about hands in one place, then what moves from hoods to
//! drops. What the bars measure stands on their cards.

use super::question::{Axis, Question};
use super::rows::{Table, table_of};
use crate::weigh::Weighed;
use fit_doc::HandPlace;

/// The differences with the hands in one place, fit to stand under a drawing of it.
pub fn bench_table(weighed: &Weighed, place: HandPlace) -> Table {
    bench_table_against(weighed, place, None)
}

/// The same against the cockpit of that id; without one, or where there is none, against the one as
/// it came.
pub fn bench_table_against(weighed: &Weighed, place: HandPlace, against: Option<&str>) -> Table {
    table_of(weighed, &questions(place), against)
}

fn questions(place: HandPlace) -> Vec<Question> {
    let mut all = vec![
        Question::Trunk(place),
        Question::Neck(place),
        Question::Elbow(place),
        Question::Hip(place),
        Question::Wrist(place),
        Question::Brake(place),
        Question::Steering(place),
        Question::Moved(place, Axis::Forward),
        Question::Moved(place, Axis::Up),
    ];
    // how level the levers are is asked where the hands hold them
    if matches!(place, HandPlace::Hoods | HandPlace::BentElbowHoods) {
        all.extend([Axis::Forward, Axis::Up].map(Question::LeftFromRight));
    }
    all.extend([
        Question::FromNose(place),
        Question::BelowSaddle(place),
        Question::HandTravel,
        Question::TrunkTravel,
    ]);
    all
}
