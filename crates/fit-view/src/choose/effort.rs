//! What a change takes, beside what it is worth: time, money and one thing more that is different.
//!
//! In units of a whole aim. It only puts answers in order and is shown to nobody: minutes and money of
//! an answer are those of [`fit_doc::work::Work`].

use fit_doc::work::{Job, Step, Work};
use fit_doc::{OnTheShelf, Price};

/// What an aim that is wholly reached is worth, in the shop's currency (judgement: of two answers
/// that reach it, nobody takes the one that costs this much more).
const WHOLE_AIM: f64 = 400.0;
/// An hour in a workshop that has not said what it costs (judgement).
const HOUR: f64 = 60.0;
/// A part whose price nobody knows (judgement).
const PART: f64 = 60.0;
/// A roll of bar tape (judgement).
const TAPE: f64 = 15.0;
/// Waiting for a part that is not there, and paying for one that nobody has held (judgement).
const WAITING: f64 = 0.08;
/// One thing more that is different: one at a time (common practice, no source).
const ANOTHER_CHANGE: f64 = 0.03;
/// A habit of the hands is not changed by a tool: it takes more than a turn of a screw and less than a
/// turn of the bar (common practice, no source).
const HABIT: f64 = 0.05;
/// A degree of roll or turn away from where the hands are used to be (judgement).
const PER_DEGREE: f64 = 0.005;
/// A click of the reach screw, which takes stroke from the lever (judgement).
const PER_CLICK: f64 = 0.001;
/// A setting that is made anyway while a part is changed, and need not differ (judgement).
const SET_ANYWAY: f64 = 0.03;

/// What changes take in one workshop.
#[derive(Debug, Clone, Copy)]
pub(super) struct Effort {
    hour: f64,
}

impl Effort {
    /// At that price of an hour.
    pub(super) fn at(hour: Option<Price>) -> Self {
        Self { hour: hour.map_or(HOUR, |price| f64::from(price.cents) / 100.0) }
    }

    /// A job by itself, parts left out.
    pub(super) fn job(self, job: Job) -> f64 {
        if job == Job::HandInDrops {
            return HABIT;
        }
        let (least, most) = job.minutes();
        let minutes = f64::from(least + most) / 2.0;
        let tape = if job.takes_tape_off() { TAPE } else { 0.0 };
        ANOTHER_CHANGE + (minutes / 60.0 * self.hour + tape) / WHOLE_AIM
    }

    /// All that has to be done, with what is bought.
    pub(super) fn work(self, work: &Work) -> f64 {
        let step = |of: &Step| {
            let alone = if of.minutes.is_some() { self.job(of.job) } else { SET_ANYWAY };
            let part = of.bought.as_ref().map_or(0.0, |of| bought(of.price, of.to_order));
            alone + part
        };
        work.steps.iter().map(step).sum()
    }

    /// So many degrees of roll, in the course of that job or by themselves.
    pub(super) fn roll(self, degrees: f64, within: Option<Job>) -> f64 {
        let done = match within {
            Some(Job::StemTurned | Job::OtherStem | Job::OtherBar) => SET_ANYWAY,
            _ => self.job(Job::Roll),
        };
        done + PER_DEGREE * degrees.abs()
    }

    /// Levers elsewhere along the bend.
    pub(super) fn lever(self, within: Option<Job>) -> f64 {
        match within {
            Some(Job::OtherBar | Job::OtherLevers) => SET_ANYWAY,
            _ => self.job(Job::LeverAlong),
        }
    }

    /// Another height of spacers.
    pub(super) fn spacers(self, within: Option<Job>) -> f64 {
        match within {
            Some(Job::StemTurned | Job::OtherStem) => SET_ANYWAY,
            _ => self.job(Job::Spacers),
        }
    }

    /// So many clicks of the reach screws.
    pub(super) fn screw(self, clicks: u32) -> f64 {
        self.job(Job::ReachScrew) + PER_CLICK * f64::from(clicks)
    }

    /// Levers turned in by so many degrees.
    pub(super) fn turn_in(self, degrees: f64) -> f64 {
        self.job(Job::TurnIn) + PER_DEGREE * degrees.abs()
    }
}

/// What a part takes.
pub(super) fn part(shelf: OnTheShelf) -> f64 {
    bought(shelf.price, shelf.in_stock == 0)
}

fn bought(price: Option<Price>, to_order: bool) -> f64 {
    let money = price.map_or(PART, |price| f64::from(price.cents) / 100.0);
    let waiting = if to_order { WAITING } else { 0.0 };
    waiting + money / WHOLE_AIM
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Common practice, no source: free before cheap before dear.
    #[test]
    fn the_ladder_climbs_from_the_screw_to_the_levers() {
        let effort = Effort::at(None);
        let part = |cents| {
            let price = Some(Price { cents });
            super::part(OnTheShelf { price, in_stock: 1, known_by: fit_doc::KnownBy::Catalogue })
        };
        let rungs = [
            effort.screw(1),
            effort.job(Job::HandInDrops),
            effort.roll(2.0, None),
            effort.spacers(None),
            effort.lever(None),
            effort.job(Job::OtherStem) + part(4000),
            effort.job(Job::OtherBar) + part(6000),
            effort.job(Job::OtherLevers) + part(20_000),
        ];
        assert!(rungs.windows(2).all(|two| two[0] < two[1]), "{rungs:?}");
    }

    #[test]
    fn what_is_not_there_and_what_nobody_priced_takes_more_than_nothing() {
        let effort = Effort::at(Some(Price { cents: 9000 }));
        let shelf =
            |price, in_stock| OnTheShelf { price, in_stock, known_by: fit_doc::KnownBy::Catalogue };
        let price = Some(Price { cents: 5000 });
        assert!(super::part(shelf(price, 0)) > super::part(shelf(price, 1)));
        assert!(super::part(shelf(None, 1)) > 0.0);
        assert!(effort.job(Job::Spacers) > Effort::at(None).job(Job::Spacers), "a dearer hour");
    }
}
