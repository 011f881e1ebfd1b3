//! The advice for a terminal: the answers in order, each with what it takes and why.

use super::{Advice, Answer, Bears};
use crate::table::{WIDTH, wrapped};
use crate::words::Words;
use fit_doc::{Cockpit, Price};

/// What stands before a reason.
const INDENT: usize = 4;

/// The advice in lines for a screen of so many columns.
pub fn text(
    advice: &Advice,
    base: &Cockpit,
    hour: Option<Price>,
    columns: Option<usize>,
    words: &dyn Words,
) -> String {
    let columns = columns.unwrap_or(WIDTH).max(2 * INDENT);
    let mut out = String::new();
    let mut line = |indent: usize, text: &str| {
        for part in wrapped(text, columns - indent) {
            out.push_str(&" ".repeat(indent));
            out.push_str(&part);
            out.push('\n');
        }
    };
    for (at, answer) in advice.answers.iter().enumerate() {
        line(0, "");
        line(0, &format!("{}  {}", at + 1, words.answer(answer, base)));
        if answer.cockpit.is_some() && !answer.work.is_none() {
            line(INDENT, &words.work_takes(&answer.work, hour));
        }
        reasons(answer, words, &mut line);
    }
    if !advice.said.is_empty() {
        line(0, "");
    }
    for reason in &advice.said {
        line(0, &words.reason(reason));
    }
    line(0, "");
    for of in counted(advice, words) {
        line(0, &of);
    }
    out
}

/// How much was looked through, and what was left out and why, a line each.
pub fn counted(advice: &Advice, words: &dyn Words) -> Vec<String> {
    let of = &advice.counted;
    let mut all = vec![words.looked_through(of)];
    all.extend(of.left_out.iter().map(|(&why, &count)| words.left_out(why, count)));
    all.extend(of.not_offered.iter().map(|(&why, &count)| words.not_offered(why, count)));
    all.extend((advice.too_small > 0).then(|| words.too_small_answers(advice.too_small)));
    all
}

fn reasons(answer: &Answer, words: &dyn Words, line: &mut impl FnMut(usize, &str)) {
    for bears in Bears::ALL {
        let mut of = answer.reasons.iter().filter(|of| of.bears() == bears).peekable();
        if of.peek().is_some() {
            line(INDENT, &format!("{}:", words.bears(bears)));
        }
        for reason in of {
            line(2 * INDENT, &words.reason(reason));
        }
    }
}
