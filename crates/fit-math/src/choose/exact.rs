//! One assembly put together and solved: what everything else must agree with.

use super::ChooseError;
use super::aims::{Asked, AtHands, HandNumbers, OfBar, Terms};
use super::prepared::{BarNumbers, bar_numbers};
use super::shop::{Key, Pick, Shop};
use crate::HandPlace;
use crate::cockpit::Cockpit;
use crate::frame::Side;
use crate::posture::{Grips, Rider, solve};
use crate::saddle::Seat;

/// An assembly with its solved numbers.
#[derive(Debug, Clone, PartialEq)]
pub struct Answer {
    /// What it is made of.
    pub pick: Pick,
    /// What it is worth, less its effort; only to put answers in order, shown to nobody.
    pub worth: f64,
    /// Its effort.
    pub effort: f64,
    /// The rider's numbers in each place asked.
    pub hands: Vec<HandNumbers>,
    /// The numbers of bar and lever.
    pub bar: BarNumbers,
    pub(super) key: Key,
}

impl Answer {
    /// Whether it comes before another: worth more, or as much and first by its ids.
    pub fn comes_before(&self, other: &Self) -> bool {
        before((self.worth, self.key), (other.worth, other.key))
    }
}

/// The order of answers: the greater worth, then the lower key.
#[inline]
pub(super) fn before(one: (f64, Key), other: (f64, Key)) -> bool {
    one.0 > other.0 || (one.0 == other.0 && one.1 < other.1)
}

/// Who asks, of which shop.
#[derive(Debug, Clone, Copy)]
pub struct Question<'a> {
    /// The rider.
    pub rider: &'a Rider,
    /// The seat.
    pub seat: &'a Seat,
    /// What there is.
    pub shop: &'a Shop,
    /// What is asked.
    pub asked: &'a Asked,
}

/// The aims, place by place.
#[derive(Debug, Clone)]
pub(super) struct AllTerms {
    pub(super) hands: Vec<Terms<AtHands>>,
    pub(super) bar: Terms<OfBar>,
}

impl Question<'_> {
    pub(super) fn terms(&self) -> AllTerms {
        AllTerms {
            hands: (0..self.asked.places.len()).map(|i| self.asked.at_hands(i)).collect(),
            bar: self.asked.of_bar(),
        }
    }

    /// The assembly solved.
    ///
    /// # Errors
    /// Where it cannot be put together, or its grips are on no bike.
    pub fn answer(&self, pick: &Pick) -> Result<Answer, ChooseError> {
        self.answered(&self.terms(), pick)
    }

    pub(super) fn answered(&self, terms: &AllTerms, pick: &Pick) -> Result<Answer, ChooseError> {
        let wrong = ChooseError::Bar { index: pick.bar };
        let cockpit = self.shop.cockpit(pick).ok().flatten().ok_or(wrong)?;
        let effort = self.shop.effort(pick).ok_or(ChooseError::Bar { index: pick.bar })?;
        let mut hands = Vec::with_capacity(self.asked.places.len());
        let mut worth = 0.0;
        for (index, terms) in terms.hands.iter().enumerate() {
            let numbers = self.hands(&cockpit, index, pick)?;
            worth += terms.worth(|what| numbers.get(what));
            hands.push(numbers);
        }
        let bar = &self.shop.bars[pick.bar];
        let bar = bar_numbers(bar, self.asked, bar.shifts[pick.shift].at, true, true);
        let worth = worth + terms.bar.worth(|of| bar.get(of)) - effort;
        Ok(Answer { pick: *pick, worth, effort, hands, bar, key: self.shop.key(pick) })
    }

    /// The rider's numbers with the hands in the place of that index.
    pub(super) fn hands(
        &self,
        cockpit: &Cockpit,
        index: usize,
        pick: &Pick,
    ) -> Result<HandNumbers, ChooseError> {
        let place: HandPlace = self.asked.places[index].0;
        let wrong = || ChooseError::Grips { bar: pick.bar };
        let pair = cockpit.grips(place).ok_or_else(wrong)?;
        let grips = Grips::new(pair.right.centre, pair.left.centre).map_err(|_refused| wrong())?;
        let posture = solve(self.rider, self.seat, &grips, place, None);
        let report = posture.report(self.rider, self.seat, &grips, place);
        let [left, right] = Side::BOTH.map(|side| report.arm(side).elbow_rad);
        Ok(HandNumbers {
            trunk_rad: report.trunk_rad,
            neck_need_rad: report.neck_need_rad,
            elbow_rad: left.min(right),
            hip_min_rad: report.hip_min_rad,
            grip: pair.midway(),
            outcome: posture.outcome,
        })
    }
}
