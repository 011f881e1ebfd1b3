//! The best answers so far, each exact; lists of parts of the shop join into that of the whole.

use super::exact::{Answer, before};
use super::shop::Key;
use std::collections::BTreeMap;
use std::sync::Arc;

/// The best answers that differ, best first.
#[derive(Debug, Clone, PartialEq)]
pub struct Found {
    most: usize,
    /// The kind of each bar by its id, where only the best of a kind counts.
    kinds: Option<Arc<BTreeMap<u32, u32>>>,
    answers: Vec<Answer>,
    /// How many assemblies were put together and solved: what the search cost, no part of the answer.
    pub solved: u64,
}

/// What has to be passed to be kept; the same for all with one bar until something is taken.
#[derive(Debug, Clone, Copy)]
pub(super) enum Mark {
    /// Everything is kept.
    None,
    /// What comes before this.
    At(f64, Key),
    /// Nothing is kept.
    Beyond,
}

impl Mark {
    #[inline]
    pub(super) fn is_passed(self, worth: f64, key: Key) -> bool {
        match self {
            Self::None => true,
            Self::At(least, first) => before((worth, key), (least, first)),
            Self::Beyond => false,
        }
    }
}

impl Found {
    /// Nothing yet, of at most so many.
    pub const fn none(most: usize) -> Self {
        Self { most, kinds: None, answers: Vec::new(), solved: 0 }
    }

    /// Nothing yet, of at most so many, of which no two have a bar of one kind; kinds by the bars'
    /// ids, a bar that has none there being a kind of its own.
    pub const fn one_of_each(most: usize, kinds: Arc<BTreeMap<u32, u32>>) -> Self {
        Self { most, kinds: Some(kinds), answers: Vec::new(), solved: 0 }
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

    /// The answer in whose place another with that bar would come: the one of its kind.
    fn of_its_kind(&self, key: Key) -> Option<usize> {
        let kinds = self.kinds.as_ref()?;
        let kind = |id: u32| kinds.get(&id).ok_or(id);
        let wanted = kind(key.bar);
        self.answers.iter().position(|of| kind(of.key.bar) == wanted)
    }

    /// What an assembly with the bar of a key has to come before.
    pub(super) fn mark(&self, key: Key) -> Mark {
        let against = match self.of_its_kind(key) {
            Some(at) => self.answers.get(at),
            None if self.answers.len() < self.most => return Mark::None,
            None => self.answers.last(),
        };
        against.map_or(Mark::Beyond, |of| Mark::At(of.worth, of.key))
    }

    /// Whether something worth as much would be kept.
    pub(super) fn would_keep(&self, worth: f64, key: Key) -> bool {
        self.mark(key).is_passed(worth, key)
    }

    pub(super) fn take(&mut self, answer: Answer) {
        if !self.would_keep(answer.worth, answer.key)
            || self.answers.iter().any(|known| known.key == answer.key)
        {
            return;
        }
        if let Some(at) = self.of_its_kind(answer.key) {
            self.answers.remove(at);
        }
        let at = self.answers.partition_point(|known| known.comes_before(&answer));
        self.answers.insert(at, answer);
        self.answers.truncate(self.most);
    }
}
