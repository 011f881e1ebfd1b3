//! The best answers so far, each exact; lists of parts of the shop join into that of the whole.

use super::exact::{Answer, before};
use super::shop::Key;

/// The best answers that differ, best first.
#[derive(Debug, Clone, PartialEq)]
pub struct Found {
    most: usize,
    answers: Vec<Answer>,
    /// How many assemblies were put together and solved: what the search cost, no part of the answer.
    pub solved: u64,
}

impl Found {
    /// Nothing yet, of at most so many.
    pub const fn none(most: usize) -> Self {
        Self { most, answers: Vec::new(), solved: 0 }
    }

    /// The answers, best first.
    pub fn answers(&self) -> &[Answer] {
        &self.answers
    }

    /// The better of both lists. In whatever order lists are joined, the outcome is the same.
    #[must_use]
    pub fn joined(mut self, other: Self) -> Self {
        self.solved += other.solved;
        for answer in other.answers {
            self.take(answer);
        }
        self
    }

    /// Whether something worth as much would be kept.
    #[inline]
    pub(super) fn would_keep(&self, worth: f64, key: Key) -> bool {
        match self.answers.last() {
            Some(last) if self.answers.len() >= self.most => {
                before((worth, key), (last.worth, last.key))
            }
            _ => self.most > 0,
        }
    }

    pub(super) fn take(&mut self, answer: Answer) {
        if !self.would_keep(answer.worth, answer.key)
            || self.answers.iter().any(|known| known.key == answer.key)
        {
            return;
        }
        let at = self.answers.partition_point(|known| known.comes_before(&answer));
        self.answers.insert(at, answer);
        self.answers.truncate(self.most);
    }
}
