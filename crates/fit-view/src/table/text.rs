//! The table as plain text for a terminal: aligned, calm, never wider than the screen.
//!
//! Where nobody knows how wide that is, it is 100 columns, which five cockpits take. As many stand
//! side by side as there is room for; more come in blocks, each beginning with the cockpit as it
//! came, so that no column stands without what it is compared with. Under the table its legend
//! stands, then what is asked, what is assumed and what is warned of.

use super::cell::{Answer, Cell, Change, LEVEL_MM, SAME_DEG, SAME_MM, SAME_PERCENT, Scale};
use super::question::Group;
use super::rows::{Row, Table};
use super::wrap::{left, right, width, wrapped};
use crate::words::Words;
use fit_units::{Unit, change, whole};

/// Width where nobody knows how wide the screen is, and of the lines under the table on a wider one,
/// characters.
pub const WIDTH: usize = 100;
/// Narrowest that is still a table: two cockpits beside the headings, characters.
const NARROWEST: usize = 56;
/// Width of one cockpit's column, characters.
const COLUMN: usize = 13;
/// Between two columns, characters.
const GAP: usize = 1;
/// Rows stand in from their group's heading by so much, characters.
const INDENT: usize = 2;
/// Room for a number with its unit at the left of a cell, characters: "1234 mm".
const NUMBER: usize = 7;

/// The table in lines of at most so many `columns`, or [`WIDTH`] where they are not known, each
/// ended by a line break; on fewer than 56 the table keeps that width, which two cockpits need.
pub fn text(table: &Table, words: &dyn Words, columns: Option<usize>) -> String {
    let columns = columns.unwrap_or(WIDTH).max(NARROWEST);
    // long lines of prose are hard to read on
    let prose = columns.min(WIDTH);
    let mut lines = wrapped(&words.bench(&table.client, &table.bike, table.visit), prose);
    let labels = label_width(table, words);
    let fit = (columns.saturating_sub(labels) / (COLUMN + GAP)).max(2);
    for block in blocks(table.columns.len(), fit) {
        lines.push(String::new());
        lines.extend(head(table, &block, labels, words));
        let mut group = None;
        for row in &table.rows {
            if group != Some(row.question.group()) {
                group = Some(row.question.group());
                lines.push(String::new());
                lines.push(words.group(row.question.group()).to_owned());
            }
            lines.extend(body(row, &block, labels, words));
        }
    }
    let seen = table.calibration.as_ref().map(|seen| words.calibrated(seen));
    let questions = table.notes.iter().map(|note| words.message(note));
    let means = words.not_measured(&table.not_measured);
    let cautions = words.cautions().iter().map(|&caution| caution.to_owned());
    for sentences in [
        legend(table, words),
        Vec::from_iter(seen),
        questions.collect(),
        Vec::from_iter(means),
        cautions.collect(),
    ] {
        lines.extend(paragraph(&sentences, prose));
    }
    let ended = lines.iter().flat_map(|line| [line.trim_end(), "\n"]);
    ended.collect()
}

/// What the words in the cells mean, of those that stand there.
fn legend(table: &Table, words: &dyn Words) -> Vec<String> {
    let any = |group: Group| table.rows.iter().any(|row| row.question.group() == group);
    // nothing is the same as anything where there is nothing to compare
    let compared = table.columns.len() > 1;
    let mut lines = Vec::new();
    lines.extend(compared.then(|| words.same_means(SAME_DEG, SAME_MM)));
    lines.extend((compared && any(Group::Wrist)).then(|| words.wrist_means().to_owned()));
    lines.extend((compared && any(Group::Steering)).then(|| words.steering_means(SAME_PERCENT)));
    let is_doubted = |row: &Row| row.cells.iter().any(|cell| cell.doubt.is_some());
    lines.extend(table.rows.iter().any(is_doubted).then(|| words.doubt_means().to_owned()));
    let brake = table.brake_sd_mm.filter(|_| any(Group::Brake));
    lines.extend(brake.map(|sd_mm| words.brake_means(sd_mm)));
    lines.extend(any(Group::Sides).then(|| words.level_means(LEVEL_MM)));
    lines
}

/// Sentences of one kind, apart from what stands above; nothing where there are none.
fn paragraph(sentences: &[String], columns: usize) -> Vec<String> {
    let apart = (!sentences.is_empty()).then(String::new);
    apart.into_iter().chain(sentences.iter().flat_map(|s| wrapped(s, columns))).collect()
}

/// Which columns stand side by side: the first in every block, then as many others as fit.
fn blocks(columns: usize, fit: usize) -> Vec<Vec<usize>> {
    let others: Vec<usize> = (1..columns).collect();
    if others.is_empty() {
        return vec![(0..columns).collect()];
    }
    others.chunks(fit - 1).map(|chunk| [&[0], chunk].concat()).collect()
}

fn label_width(table: &Table, words: &dyn Words) -> usize {
    let rows = table.rows.iter().map(|row| INDENT + width(words.question(row.question)));
    let groups = table.rows.iter().map(|row| width(words.group(row.question.group())));
    rows.chain(groups).max().unwrap_or(0)
}

fn head(table: &Table, block: &[usize], labels: usize, words: &dyn Words) -> Vec<String> {
    let columns: Vec<_> = block.iter().map(|&index| &table.columns[index]).collect();
    let names: Vec<_> = columns.iter().map(|column| wrapped(&column.label, COLUMN)).collect();
    let tags = columns.iter().map(|column| {
        // a cockpit that is labelled "As it came" need not be told twice that it is
        let tag = words.column(column).filter(|tag| !tag.eq_ignore_ascii_case(&column.label));
        tag.map_or_else(Vec::new, |tag| wrapped(tag, COLUMN))
    });
    let mut lines = beside("", labels, &names);
    lines.extend(beside("", labels, &tags.collect::<Vec<_>>()));
    let rule = "─".repeat(COLUMN);
    lines.extend(beside("", labels, &vec![vec![rule]; block.len()]));
    lines
}

fn body(row: &Row, block: &[usize], labels: usize, words: &dyn Words) -> Vec<String> {
    let cells: Vec<_> = block.iter().map(|&index| cell(row, &row.cells[index], words)).collect();
    let label = format!("{}{}", " ".repeat(INDENT), words.question(row.question));
    beside(&label, labels, &cells)
}

/// A label and columns of lines, laid side by side.
fn beside(label: &str, labels: usize, columns: &[Vec<String>]) -> Vec<String> {
    let height = columns.iter().map(Vec::len).max().unwrap_or(0);
    let line = |index: usize| {
        let mut line = left(if index == 0 { label } else { "" }, labels);
        for column in columns {
            line.push_str(&" ".repeat(GAP));
            line.push_str(&left(column.get(index).map_or("", String::as_str), COLUMN));
        }
        line
    };
    (0..height).map(line).collect()
}

/// One cell in lines no wider than a column.
fn cell(row: &Row, cell: &Cell, words: &dyn Words) -> Vec<String> {
    let mut lines = match (cell.answer, cell.change) {
        (Answer::None, _) | (Answer::ChangeOnly, Change::None) => {
            vec![right(words.no_answer(), NUMBER)]
        }
        (Answer::OutOfReach { short_by_mm }, _) => {
            wrapped(&words.out_of_reach(short_by_mm), COLUMN)
        }
        (Answer::Apart(by), change) => {
            let mut lines = wrapped(&words.apart(row.question, by), COLUMN);
            if let Change::By(more) = change {
                lines.extend(wrapped(&words.was_apart(row.question, by - more), COLUMN));
            }
            lines
        }
        (_, Change::Same) => vec![right(words.same(), NUMBER)],
        (Answer::ChangeOnly, Change::By(by)) => {
            wrapped(&doubted(cell, words.moved(row.question, by), " ", words), COLUMN)
        }
        (Answer::Number(number), Change::None) => vec![shown(row, number)],
        (Answer::Number(number), Change::By(by)) => {
            let (unit, by) = stored(row, by);
            let change = doubted(cell, change(by, unit), "", words);
            let whole = format!("{} {change}", shown(row, number));
            // what is too long for one line takes two
            if width(&whole) <= COLUMN { vec![whole] } else { vec![shown(row, number), change] }
        }
    };
    if let Some(at_limit) = cell.at_limit {
        lines.extend(wrapped(&words.at_limit(at_limit), COLUMN));
    }
    lines
}

/// A change with how far chance takes it, or in brackets where that is as far as it goes.
fn doubted(cell: &Cell, change: String, apart: &str, words: &dyn Words) -> String {
    match cell.doubt {
        None => change,
        Some(doubt) if doubt.tells => format!("{change}{apart}{}", words.within(doubt.within)),
        Some(_) => format!("({change})"),
    }
}

fn shown(row: &Row, number: i64) -> String {
    let (unit, number) = stored(row, number);
    right(&whole(number, unit), NUMBER)
}

/// A whole number of the row's scale as the unit is stored.
fn stored(row: &Row, number: i64) -> (Unit, f64) {
    let scale = row.question.scale();
    let number = number as f64;
    match scale {
        Scale::Millimetres | Scale::Percent => (scale.unit(), number),
        Scale::Degrees => (scale.unit(), number.to_radians()),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::table::table;
    use crate::testing::{candidates, deep, session, stem};
    use crate::weigh::weigh;
    use crate::words::English;
    use fit_doc::{Cockpit, Saddle};
    use fit_math::body::Survey;

    fn shown(bench: Vec<Cockpit>) -> String {
        let weighed = weigh(&session(bench), None, &Survey::shipped().unwrap()).unwrap();
        text(&table(&weighed), &English, None)
    }

    #[test]
    fn five_cockpits_stand_side_by_side_in_a_hundred_columns() {
        let text = shown(candidates());
        println!("{text}");
        assert!(text.lines().all(|line| width(line) <= WIDTH));
        assert_eq!(text.matches("Trunk above level").count(), 1, "one block");
        assert!(!text.contains(" \n"), "no line ends in blanks");
        assert!(!text.contains("+0") && !text.contains("NaN"));
    }

    #[test]
    fn a_narrow_screen_has_fewer_cockpits_side_by_side() {
        let weighed = weigh(&session(candidates()), None, &Survey::shipped().unwrap()).unwrap();
        let at = |columns| text(&table(&weighed), &English, Some(columns));
        for (columns, widest, blocks) in
            [(132, 132, 1), (100, 100, 1), (80, 80, 2), (70, 70, 2), (60, 60, 4), (9, 56, 4)]
        {
            let text = at(columns);
            assert!(text.lines().all(|line| width(line) <= widest), "{columns}\n{text}");
            assert_eq!(text.matches("Trunk above level").count(), blocks, "{columns}\n{text}");
        }
        assert_eq!(at(300), text(&table(&weighed), &English, None));
    }

    #[test]
    fn what_is_asked_what_is_assumed_and_what_is_warned_of_stand_apart() {
        let high = Cockpit { spacers_mm: 60.0, ..deep() };
        let text = shown(vec![Cockpit { id: "high".into(), label: "high".into(), ..high }]);
        let below = text.split_once("\n  drop ").unwrap().1;
        let paragraphs: Vec<_> = below.split("\n\n").skip(1).collect();
        assert_eq!(paragraphs.len(), 4, "{below}");
        let legend = paragraphs[0].replace('\u{a0}', " ");
        assert!(legend.starts_with("Same: ") && legend.contains("1° or 2 mm"), "{below}");
        assert!(paragraphs[1].contains("spacers under the stem"), "{below}");
        assert!(paragraphs[2].starts_with("Not measured"), "{below}");
        assert!(paragraphs[3].contains("medical advice"), "{below}");
    }

    #[test]
    fn more_come_in_blocks_that_begin_with_the_one_as_it_came() {
        let many: Vec<_> = (0..9)
            .map(|i| {
                let spacers_mm = 2.0 * f64::from(i);
                Cockpit { id: format!("c{i}"), label: format!("trial {i}"), spacers_mm, ..deep() }
            })
            .collect();
        let text = shown(many);
        assert!(text.lines().all(|line| width(line) <= WIDTH));
        assert_eq!(text.matches("Trunk above level").count(), 3, "4 + 4 + 1 candidates");
        let (above, _legend) = text.split_once("\nSame: ").unwrap();
        assert_eq!(above.matches("as it came").count(), 3);
        for i in 0..9 {
            assert_eq!(text.matches(&format!("trial {i}")).count(), 1);
        }
    }

    #[test]
    fn a_bench_without_candidates_is_a_table_too() {
        let text = shown(Vec::new());
        assert!(text.contains("Trunk above level") && !text.to_lowercase().contains("same"));
    }

    #[test]
    fn hands_that_do_not_get_there_are_told_in_words() {
        let far = Cockpit {
            id: "far".into(),
            label: "far".into(),
            stem: stem(190.0, 0.0),
            saddle: Saddle { nose_behind_mm: 290.0, sit_from_nose_mm: 250.0, ..deep().saddle },
            ..deep()
        };
        let text = shown(vec![far]);
        println!("{text}");
        assert!(text.contains("out of reach"), "{text}");
    }

    #[test]
    fn the_cautions_are_under_every_table() {
        let text = shown(Vec::new());
        let flat = text.replace('\n', " ");
        for word in
            ["steering and braking", "qualified mechanic", "makers' instructions", "ride it"]
        {
            assert!(flat.contains(word), "{word}");
        }
        assert!(flat.contains("not medical advice") && flat.contains("Not measured"));
    }
}
