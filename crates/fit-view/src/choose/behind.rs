//! The numbers behind a reason: the rows of the table that it was read off, of the cockpit that it speaks
//! of beside the one that answers are held against, and where its rule is from.

use super::advice::base_of;
use super::{Advice, Answer, Reason};
use crate::table::{Axis, Change, Question, told};
use crate::weigh::WeighedCockpit;
use crate::words::Words;
use fit_doc::work::Job;

/// The rows behind a reason of an answer, a line each, and where the rule is from last; none where
/// no row is behind it.
pub fn behind(
    advice: &Advice,
    answer: &Answer,
    reason: &Reason,
    words: &dyn Words,
) -> Option<Vec<String>> {
    let row = reason.behind()?;
    let base = base_of(&advice.weighed)?;
    let of = spoken_of(advice, answer, reason, base)?;
    let line = |question: Question| {
        let cell = told(question, of, Some(base), &advice.weighed);
        words.row_behind(question, question.cell(base, None), cell)
    };
    let from = match row {
        // of a move alone nobody sees from where
        Question::Moved(place, Axis::Forward) => Some(Question::FromNose(place)),
        Question::Moved(place, Axis::Up) => Some(Question::BelowSaddle(place)),
        _ => None,
    };
    let mut lines: Vec<String> = core::iter::once(row).chain(from).map(line).collect();
    lines.push(words.rule_from(reason.source()));
    Some(lines)
}

/// The cockpit whose numbers a reason tells: the answer's own, but of what others do theirs.
fn spoken_of<'a>(
    advice: &'a Advice,
    answer: &Answer,
    reason: &Reason,
    base: &WeighedCockpit,
) -> Option<&'a WeighedCockpit> {
    let all = &advice.weighed.cockpits;
    let find = |id: &str| all.iter().find(|of| of.id == id);
    let change = |row, of: &WeighedCockpit| told(row, of, Some(base), &advice.weighed).change;
    let alone = |job, row, by: Option<i64>| {
        let does = |of: &&WeighedCockpit| by.is_none_or(|by| change(row, of) == Change::By(by));
        advice.alone(job).filter_map(find).find(does)
    };
    match reason {
        Reason::DoesLess { job, question, by } => alone(*job, *question, *by),
        Reason::HasItsPrice { job, question, by, .. } => alone(*job, *question, Some(*by)),
        Reason::BarAloneRarely { question, by } => {
            alone(Job::OtherBar, *question, Some(*by).filter(|by| *by != 0))
        }
        Reason::GivesUp { .. } => {
            let first = advice.answers.iter().find(|of| of.is_something_to_do())?;
            find(&first.cockpit.as_ref()?.id)
        }
        Reason::NothingBeatsIt { row: Some(row), most: Some(most), .. } => {
            all.iter().find(|of| change(*row, of) == Change::By(*most))
        }
        Reason::NothingBeatsIt { .. } => None,
        _ => find(&answer.cockpit.as_ref()?.id),
    }
}
