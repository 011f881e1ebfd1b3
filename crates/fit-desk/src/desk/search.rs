//! Looking through the shop: what is asked, what came of it, an answer put on the bench. The search
//! itself is the surroundings' business, on threads of their own.

use super::{Desk, Setup};
use crate::command::{Effect, Revision};
use fit_doc::concern::stopped_by;
use fit_doc::edit::free_id;
use fit_doc::{Cockpit, Edit, Message, Stock, Wanted};
use fit_view::choose::{Advice, NoSearch, Quick, TradeOff};
use std::sync::Arc;

/// How far looking through the shop has come.
#[derive(Debug, Clone, Default)]
pub enum Sought {
    /// Nobody asked.
    #[default]
    Not,
    /// It is being looked through, for this state of the document.
    Running(Revision),
    /// It was looked through.
    Found(Box<Found>),
    /// It cannot be looked through.
    CannotBe(Why),
}

/// What was found, of which state of the document, by which question.
#[derive(Debug, Clone)]
pub struct Found {
    /// What is told.
    pub advice: Arc<Advice>,
    /// The question asked in passing; none: the visit's own aims.
    pub quick: Option<Quick>,
    /// The cockpit that answers are held against.
    pub base: Cockpit,
    /// What was looked for.
    pub wanted: Vec<Wanted>,
    /// What of it can be held against each other.
    pub axes: Vec<usize>,
    /// Two of them held against each other; none where there are not two.
    pub trade_off: Option<TradeOff>,
    of: Revision,
}

/// Why it cannot be.
#[derive(Debug, Clone, PartialEq)]
pub enum Why {
    /// The bench or what is asked of it is not such that a shop can be searched.
    NoSearch(NoSearch),
    /// What was found cannot be weighed.
    Messages(Vec<Message>),
}

/// What comes back of a search.
#[derive(Debug, Clone, PartialEq)]
pub enum Searched {
    /// It was stopped.
    Stopped,
    /// This is told.
    Found {
        /// The answers.
        advice: Arc<Advice>,
        /// The cockpit that they are held against.
        base: Box<Cockpit>,
        /// What was looked for.
        wanted: Vec<Wanted>,
        /// What of it can be held against each other.
        axes: Vec<usize>,
        /// Two of them held against each other.
        trade_off: Option<TradeOff>,
    },
    /// It could not be done.
    CannotBe(Why),
}

impl Desk {
    /// Whether the client told what stops the fit, so that nothing is advised.
    pub fn is_stopped(&self) -> bool {
        self.visit().is_some_and(|visit| stopped_by(visit).is_some())
    }

    /// What came of looking through the shop.
    pub fn sought(&self) -> &Sought {
        &self.sought
    }

    /// Whether something was changed since what was found was looked for.
    pub fn sought_before_a_change(&self) -> bool {
        matches!(&self.sought, Sought::Found(found) if found.of != self.revision())
    }

    /// The shop has something else from now on: what was found in what it had is not told any more, and what
    /// is being looked for in it comes too late.
    pub(super) fn other_stock(&mut self, stock: Stock) -> Vec<Effect> {
        self.setup = Arc::new(Setup { survey: self.setup.survey.clone(), stock });
        self.ticket += 1;
        let was = core::mem::replace(&mut self.sought, Sought::Not);
        if matches!(was, Sought::Running(_)) { vec![Effect::StopSearch] } else { Vec::new() }
    }

    /// Begins to look through the shop.
    pub(super) fn search(
        &mut self,
        quick: Option<Quick>,
        axes: Option<[Option<usize>; 2]>,
    ) -> Vec<Effect> {
        if matches!(self.sought, Sought::Running(_)) {
            return Vec::new();
        }
        let Some(visit) = self.visit() else { return Vec::new() };
        let mut session = self.session().clone();
        if let Some(quick) = quick {
            let came = self.weighed.as_it_came();
            let width_mm = came.map_or(0.0, |came| came.cockpit.bend().width_hoods_cc_mm());
            session.visits[self.look.visit] = Arc::new(quick.asked(visit, width_mm));
        }
        self.sought = Sought::Running(self.revision());
        self.ticket += 1;
        self.look.choosing = true;
        let (visit, ticket) = (self.look.visit, self.ticket);
        vec![Effect::Search { session: Box::new(session), visit, quick, axes, ticket }]
    }

    /// Whether two things can be held against each other, or a search may still find them.
    pub(super) fn can_balance(&self) -> bool {
        match &self.sought {
            Sought::Found(found) => !found.axes.is_empty(),
            Sought::Running(_) => false,
            Sought::Not | Sought::CannotBe(_) => true,
        }
    }

    /// Shows two things held against each other, or not; what is not found yet is looked for.
    pub(super) fn balance(&mut self, balancing: bool) -> Vec<Effect> {
        self.look.balancing = balancing;
        if balancing && matches!(self.sought, Sought::Not | Sought::CannotBe(_)) {
            return self.search(None, None);
        }
        Vec::new()
    }

    /// Looks through the shop once more, with other two things held against each other.
    pub(super) fn hold_against(&mut self, axes: [Option<usize>; 2]) -> Vec<Effect> {
        let quick = match &self.sought {
            Sought::Found(found) => found.quick,
            _ => return Vec::new(),
        };
        self.search(quick, Some(axes))
    }

    /// Takes what a search brought, unless that is not waited for any more.
    pub(super) fn searched(&mut self, ticket: u64, quick: Option<Quick>, brought: Searched) {
        let Sought::Running(of) = self.sought else { return };
        if ticket != self.ticket {
            return;
        }
        self.sought = match brought {
            Searched::Stopped => Sought::Not,
            Searched::CannotBe(why) => Sought::CannotBe(why),
            Searched::Found { advice, base, wanted, axes, trade_off } => {
                Sought::Found(Box::new(Found {
                    advice,
                    quick,
                    base: *base,
                    wanted,
                    axes,
                    trade_off,
                    of,
                }))
            }
        };
    }

    /// Puts an answer on the bench, and speaks of it.
    pub(super) fn put_answer_on_bench(&mut self, index: usize) {
        let Sought::Found(found) = &self.sought else { return };
        let answer = found.advice.answers.get(index).and_then(|of| of.cockpit.clone());
        self.put_on_bench(answer);
    }

    /// The same with a point of the trade-off.
    pub(super) fn put_point_on_bench(&mut self, index: usize) {
        let Sought::Found(found) = &self.sought else { return };
        let point = found.trade_off.as_ref().and_then(|of| of.points.get(index));
        let cockpit = point.map(|of| of.cockpit.clone());
        self.put_on_bench(cockpit);
    }

    fn put_on_bench(&mut self, cockpit: Option<Cockpit>) {
        let (Some(cockpit), Some(visit)) = (cockpit, self.visit()) else { return };
        // what stands there already is only spoken of
        let known = visit.cockpits().find(|of| of.is_set_up_as(&cockpit)).map(|of| of.id.clone());
        if let Some(known) = known {
            self.look.selected = known;
            return;
        }
        let id = free_id(visit, &cockpit.id);
        let cockpit = Box::new(cockpit.with_name(&id, &cockpit.label));
        let was_current = !self.sought_before_a_change();
        self.edit(&Edit::Add { visit: self.look.visit, cockpit }, None);
        if self.visit().is_some_and(|visit| visit.cockpit(&id).is_some()) {
            self.look.selected = id;
        }
        // one candidate more on the bench changes nothing of what was found
        let now = self.revision();
        if let Sought::Found(found) = &mut self.sought
            && was_current
        {
            found.of = now;
        }
    }
}
