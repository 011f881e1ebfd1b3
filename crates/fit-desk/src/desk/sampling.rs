//! How sure the bench is where a limit acts: drawn elsewhere while the window goes on, asked for once
//! for each bench, and dropped as soon as the bench is another.

use super::Desk;
use crate::command::Effect;
use crate::look::Room;
use fit_view::weigh::{Sample, Weighed};
use std::sync::Arc;

/// What becomes of a bench's draws.
#[derive(Debug, Clone)]
pub(super) struct Sampling {
    /// Which bench.
    of: Arc<Weighed>,
    state: State,
}

#[derive(Debug, Clone)]
enum State {
    AtWork,
    Stopped,
    Done(Arc<Sample>),
}

impl Desk {
    /// Whether it should be drawn how sure the bench is: a limit acts, what follows from it is in
    /// sight, and nobody asked yet.
    pub fn wants_sample(&self) -> bool {
        let in_sight = matches!(self.look.room, Room::Bench | Room::Decide);
        in_sight && self.sampling.is_none() && self.weighed.is_near_a_limit()
    }

    /// Whether that is being drawn.
    pub fn is_sampling(&self) -> bool {
        self.sampling.as_ref().is_some_and(|of| matches!(of.state, State::AtWork))
    }

    /// Whether somebody stopped it.
    pub fn is_sample_stopped(&self) -> bool {
        self.sampling.as_ref().is_some_and(|of| matches!(of.state, State::Stopped))
    }

    pub(super) fn sample(&mut self) -> Vec<Effect> {
        let is_done = self.weighed.drawn.is_some();
        if self.is_sampling() || is_done || !self.weighed.is_near_a_limit() {
            return Vec::new();
        }
        let of = Arc::clone(&self.weighed);
        self.sampling = Some(Sampling { of: Arc::clone(&of), state: State::AtWork });
        vec![Effect::Sample(of)]
    }

    pub(super) fn stop_sample(&mut self) -> Vec<Effect> {
        let Some(sampling) = self.sampling.as_mut().filter(|of| matches!(of.state, State::AtWork))
        else {
            return Vec::new();
        };
        sampling.state = State::Stopped;
        vec![Effect::StopSample]
    }

    /// What was drawn of another bench, or after it was stopped, is dropped.
    pub(super) fn sampled(&mut self, of: &Weighed, sample: Arc<Sample>) {
        if self.is_sampling() && of.is_drawn_like(&self.weighed) {
            self.keep_sample(sample);
        }
    }

    fn keep_sample(&mut self, sample: Arc<Sample>) {
        Arc::make_mut(&mut self.weighed).drawn = Some(Arc::clone(&sample));
        let of = Arc::clone(&self.weighed);
        self.sampling = Some(Sampling { of, state: State::Done(sample) });
    }

    /// Follows the bench: what was drawn, or is being drawn, stays while it would be drawn alike.
    pub(super) fn follow_sample(&mut self) -> Option<Effect> {
        let mut sampling = self.sampling.take_if(|of| !Arc::ptr_eq(&of.of, &self.weighed))?;
        if !sampling.of.is_drawn_like(&self.weighed) {
            return matches!(sampling.state, State::AtWork).then_some(Effect::StopSample);
        }
        if let State::Done(sample) = sampling.state {
            self.keep_sample(sample);
            return None;
        }
        sampling.of = Arc::clone(&self.weighed);
        self.sampling = Some(sampling);
        None
    }
}
