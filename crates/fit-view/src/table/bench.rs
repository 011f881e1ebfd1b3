//! The table of the bench: the questions about hands in one place, then what moves from hoods to
//! drops. What the bars measure stands on their cards.

use super::cell::Answer;
use super::rows::{Axis, Question, Row, Table, table};
use crate::weigh::Weighed;
use fit_doc::HandPlace;

/// The differences with the hands in one place, fit to stand under a drawing of it.
pub fn bench_table(weighed: &Weighed, place: HandPlace) -> Table {
    let whole = table(weighed);
    let came = weighed.as_it_came();
    let rows = questions(place).into_iter().map(|question| Row {
        question,
        cells: weighed.cockpits.iter().map(|of| question.cell(of, came)).collect(),
    });
    let answered = |row: &Row| row.cells.iter().any(|cell| cell.answer != Answer::None);
    Table { rows: rows.filter(answered).collect(), ..whole }
}

fn questions(place: HandPlace) -> [Question; 11] {
    [
        Question::Trunk(place),
        Question::Neck(place),
        Question::Elbow(place),
        Question::Hip(place),
        Question::Wrist(place),
        Question::Moved(place, Axis::Forward),
        Question::Moved(place, Axis::Up),
        Question::FromNose(place),
        Question::BelowSaddle(place),
        Question::HandTravel,
        Question::TrunkTravel,
    ]
}
