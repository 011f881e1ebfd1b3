//! The differences table with its texts, kept from frame to frame: only a change of the document or
//! of the hands makes it anew, and of its texts only those whose answers became others.

use fit_desk::{Desk, Revision};
use fit_doc::HandPlace;
use fit_view::table::{Cell, CellText, Question, Row, Table, bench_table_against};
use fit_view::words::Words;

/// What a table was made from: the document, which of its visits, where the hands are, the id of the
/// cockpit that all are compared with where that is not the one as it came, and whether it was drawn
/// how sure the changes are.
type Of = (Revision, usize, HandPlace, Option<String>, bool);

/// The table that was shown last.
#[derive(Debug, Default)]
pub(super) struct KeptAnswers {
    kept: Option<(Of, Answers)>,
}

/// A table, and what its cells say.
#[derive(Debug)]
pub(super) struct Answers {
    pub(super) table: Table,
    /// By row and column.
    texts: Vec<Vec<CellText>>,
}

impl KeptAnswers {
    /// The table of the bench as it is now.
    pub(super) fn now(&mut self, desk: &Desk, words: &dyn Words) -> &Answers {
        let (look, revision) = (desk.look(), desk.revision());
        let against = desk.against().map(str::to_owned);
        let of = (revision, look.visit, look.hands, against, desk.weighed().drawn.is_some());
        let before = self.kept.take();
        let answers = match before {
            Some((kept, answers)) if kept == of => answers,
            before => {
                let table = bench_table_against(desk.weighed(), look.hands, desk.against());
                Answers::new(table, before.map(|(_, answers)| answers), words)
            }
        };
        &self.kept.insert((of, answers)).1
    }
}

impl Answers {
    fn new(table: Table, before: Option<Self>, words: &dyn Words) -> Self {
        let (rows, mut said) = before.map_or_else(Default::default, |b| (b.table.rows, b.texts));
        let mut said = |row: usize, column: usize, question: Question, cell: Cell| {
            let is_same = |of: &Row| of.question == question && of.cells.get(column) == Some(&cell);
            let text = said.get_mut(row).and_then(|texts| texts.get_mut(column));
            match text.filter(|_| rows.get(row).is_some_and(is_same)) {
                Some(text) => core::mem::take(text),
                None => CellText::of(question, cell, words),
            }
        };
        let texts = table.rows.iter().enumerate().map(|(at, row)| {
            let cells = row.cells.iter().enumerate();
            cells.map(|(column, cell)| said(at, column, row.question, *cell)).collect()
        });
        Self { texts: texts.collect(), table }
    }

    /// What stands in a cell; none where there is no such column.
    pub(super) fn text(&self, row: usize, column: usize) -> Option<&CellText> {
        self.texts.get(row)?.get(column)
    }
}
