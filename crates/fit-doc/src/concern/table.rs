//! The table: of every concern what is ruled out, what is tried, what must be said, what can come of
//! it, and who else is asked.
//!
//! Source: common practice, no source, unless [`Said`] says otherwise. Judgement are the rows of arms,
//! hips, knees and feet; who else is asked where nobody is hurt; and what can come of each.

use super::{Attempt, Concern, RuleOut};
use crate::HandPlace;

/// What must be said with the advice.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Said {
    /// Stem, spacers and roll change the way to the blade by nothing (geometry).
    NothingAtTheStem,
    /// A blade set nearer has less stroke: 15 mm must stay at a hard squeeze.
    LessStroke,
    /// No bar changes the brake from the hoods by as much as 2 mm (computed).
    NotTheBarFromHoods,
    /// From deep to compact gives about 2° (computed): a bar alone rarely changes a neck on the hoods.
    BarAloneRarely,
    /// One side: left and right are both looked at, the worse is shown.
    BothSides,
    /// Not the bar until the saddle is excluded.
    SaddleFirst,
    /// Hands that take load from seat or feet are the saddle's matter first.
    LoadOnHands,
    /// A stem under 70 mm (50 off the road) is a question of the frame.
    ShortStem,
    /// The hip closes when the hands come nearer or lower.
    WatchTheHip,
    /// A wobble at speed is for the mechanic first; no number of ours tells how steady a bike is.
    WobbleFirst,
    /// No stem under 80 mm on the road for a bike that is unsteady.
    StemNotUnder80,
    /// Raising the stem lifts the hoods by the same (geometry).
    RaisingLiftsHoods,
    /// Stop when brakes, hip or neck run out.
    StopWhen,
    /// Children are measured, never estimated; allow for growth.
    MeasureChildren,
    /// To keep what there is is an answer.
    KeepIsAnAnswer,
    /// What hands and bar have to do with it is little.
    NotTheHands,
}

impl Said {
    /// Everything that is said.
    pub const ALL: [Self; 16] = [
        Self::NothingAtTheStem,
        Self::LessStroke,
        Self::NotTheBarFromHoods,
        Self::BarAloneRarely,
        Self::BothSides,
        Self::SaddleFirst,
        Self::LoadOnHands,
        Self::ShortStem,
        Self::WatchTheHip,
        Self::WobbleFirst,
        Self::StemNotUnder80,
        Self::RaisingLiftsHoods,
        Self::StopWhen,
        Self::MeasureChildren,
        Self::KeepIsAnAnswer,
        Self::NotTheHands,
    ];
}

/// Who else is asked, and when.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum SendOn {
    /// Numb for more than 48 hours after a ride: a health professional.
    NumbForDays,
    /// Weakness of arm or hand: a health professional.
    Weakness,
    /// Pain that runs down the arm: a health professional.
    ArmPain,
    /// Dizzy on looking up: a health professional.
    Dizziness,
    /// Numbness in the saddle that lasts: a health professional.
    SaddleNumbness,
    /// Leg pain with weakness, or bladder trouble: stop, urgent.
    LegAndBladder,
    /// Pain that stays at rest or was there before the bike: a health professional.
    PainAtRest,
    /// A bike that wobbles, or a part that is worn or damaged: a qualified mechanic, before it is ridden.
    Mechanic,
    /// Brakes and what they are held by are set by a qualified mechanic, as their maker says.
    BrakeMechanic,
    /// Rules of an event: whoever runs it.
    Organiser,
}

impl SendOn {
    /// Everyone who is asked, the urgent one first.
    pub const ALL: [Self; 10] = [
        Self::LegAndBladder,
        Self::NumbForDays,
        Self::Weakness,
        Self::ArmPain,
        Self::Dizziness,
        Self::SaddleNumbness,
        Self::PainAtRest,
        Self::Mechanic,
        Self::BrakeMechanic,
        Self::Organiser,
    ];

    /// Those that a client is asked about at once, whatever else brings him.
    pub const RED_FLAGS: [Self; 6] = [
        Self::LegAndBladder,
        Self::NumbForDays,
        Self::Weakness,
        Self::ArmPain,
        Self::Dizziness,
        Self::SaddleNumbness,
    ];

    /// Whether the fit stops there.
    pub const fn stops(self) -> bool {
        matches!(self, Self::LegAndBladder)
    }
}

/// What can come of it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Outcome {
    /// A cockpit that is set or built otherwise.
    Cockpit,
    /// As it is.
    AsItIs,
    /// Not the bar: saddle, feet, brakes, or the client.
    NotTheBar,
    /// The frame, not the bar.
    TheFrame,
}

/// What goes with a concern.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Advice {
    /// What is ruled out first, in order.
    pub rule_out: &'static [RuleOut],
    /// What is tried then, in order.
    pub attempts: &'static [Attempt],
    /// What must be said: the reasons.
    pub said: &'static [Said],
    /// Who else is asked.
    pub send_on: &'static [SendOn],
    /// What can come of it.
    pub outcomes: &'static [Outcome],
    /// Bars wait until the saddle was looked at.
    pub saddle_first: bool,
}

impl Concern {
    /// What is tried for it where it shows with the hands in one place, in order: a neck that minds only
    /// the drops is first spared the drop, which leaves the hoods alone; to one that minds the hoods or
    /// what is higher the drop is nothing (common practice, no source).
    pub fn attempts(self, place: Option<HandPlace>) -> Vec<Attempt> {
        let mut all = self.advice().attempts.to_vec();
        if self != Self::Neck {
            return all;
        }
        match place {
            None => {}
            Some(HandPlace::Drops | HandPlace::Ends) => {
                all.sort_by_key(|&attempt| attempt != Attempt::ShallowerDrop);
            }
            Some(_) => all.retain(|&attempt| attempt != Attempt::ShallowerDrop),
        }
        all
    }

    /// What goes with it.
    #[expect(clippy::too_many_lines, reason = "a row for each concern")]
    pub const fn advice(self) -> Advice {
        use Attempt as A;
        use Outcome as O;
        use RuleOut as R;
        use Said as S;
        use SendOn as To;
        match self {
            Self::BrakesFromDrops => Advice {
                rule_out: &[R::ReachScrew, R::BrakeStroke, R::Gloves, R::HandInHook],
                attempts: &[
                    A::ReachScrew,
                    A::HandFurtherForward,
                    A::LeverDown,
                    A::ShallowerShorterBar,
                    A::SmallHandLever,
                ],
                said: &[S::NothingAtTheStem, S::LessStroke],
                send_on: &[To::BrakeMechanic],
                outcomes: &[O::Cockpit, O::AsItIs],
                saddle_first: false,
            },
            Self::BrakesFromHoods => Advice {
                rule_out: &[R::ReachScrew, R::BrakeStroke, R::Gloves, R::LeverPlace],
                attempts: &[A::ReachScrewFromHoods, A::LeverTurnedIn, A::OtherLever],
                said: &[S::NotTheBarFromHoods, S::LessStroke],
                send_on: &[To::BrakeMechanic],
                outcomes: &[O::Cockpit, O::NotTheBar],
                saddle_first: false,
            },
            Self::Hands => Advice {
                rule_out: &[
                    R::SaddleTilt,
                    R::SaddleHeight,
                    R::SaddleSetback,
                    R::LockedElbows,
                    R::TyrePressure,
                    R::KnownNerveTrouble,
                ],
                attempts: &[
                    A::SaddleLevel,
                    A::SaddleBack,
                    A::FlatterTransition,
                    A::LeverTurnedIn,
                    A::NearerIfLocked,
                    A::BarUp,
                    A::ThickerTape,
                ],
                said: &[S::LoadOnHands],
                send_on: &[To::NumbForDays, To::Weakness],
                outcomes: &[O::Cockpit, O::AsItIs, O::NotTheBar],
                saddle_first: true,
            },
            Self::Neck => Advice {
                rule_out: &[R::Glasses, R::HelmetPeak, R::Shrugging, R::SuddenMileage],
                attempts: &[A::BarUpForNeck, A::Nearer, A::ShallowerDrop],
                said: &[S::BarAloneRarely],
                send_on: &[To::ArmPain, To::Dizziness],
                outcomes: &[O::Cockpit, O::AsItIs, O::NotTheBar],
                saddle_first: true,
            },
            Self::Shoulders => Advice {
                rule_out: &[R::SaddleTilt, R::OldInjury, R::OneSide],
                attempts: &[
                    A::NearerToBendElbows,
                    A::BarWiderOrNarrower,
                    A::LeverTurnedIn,
                    A::BarUpALittle,
                ],
                said: &[S::BothSides],
                send_on: &[To::ArmPain, To::Weakness],
                outcomes: &[O::Cockpit, O::AsItIs, O::NotTheBar],
                saddle_first: true,
            },
            Self::Arms => Advice {
                rule_out: &[R::SaddleTilt, R::LockedElbows, R::TyrePressure, R::OneSide],
                attempts: &[A::LeverTurnedIn, A::Nearer, A::BarUp],
                said: &[S::LoadOnHands, S::BothSides],
                send_on: &[To::ArmPain, To::Weakness],
                outcomes: &[O::Cockpit, O::AsItIs, O::NotTheBar],
                saddle_first: true,
            },
            Self::Seat => Advice {
                rule_out: &[R::SaddleHeight, R::SaddleTilt, R::SaddleWidth, R::Shorts, R::Cleats],
                attempts: &[A::SaddleHeight, A::SaddleLevel, A::SaddleSetback, A::HoodsIfSliding],
                said: &[S::SaddleFirst],
                send_on: &[To::SaddleNumbness],
                outcomes: &[O::NotTheBar, O::Cockpit],
                saddle_first: true,
            },
            Self::LowBack => Advice {
                rule_out: &[R::SaddleHeight, R::SaddleTilt, R::LegDifference],
                attempts: &[A::BarUp, A::Nearer, A::FurtherIfCramped, A::ShorterCranks],
                said: &[S::SaddleFirst, S::WatchTheHip],
                send_on: &[To::LegAndBladder],
                outcomes: &[O::Cockpit, O::AsItIs, O::NotTheBar],
                saddle_first: true,
            },
            Self::Hips => Advice {
                rule_out: &[R::SaddleHeight, R::SaddleSetback, R::LegDifference, R::Cranks],
                attempts: &[A::SaddleHeight, A::ShorterCranks, A::BarUp],
                said: &[S::WatchTheHip, S::SaddleFirst],
                send_on: &[To::PainAtRest],
                outcomes: &[O::NotTheBar, O::Cockpit],
                saddle_first: true,
            },
            Self::Knees => Advice {
                rule_out: &[R::Cleats, R::SaddleHeight, R::SaddleSetback, R::LegDifference],
                attempts: &[A::Cleats, A::SaddleHeight, A::SaddleBack],
                said: &[S::NotTheHands],
                send_on: &[To::PainAtRest],
                outcomes: &[O::NotTheBar],
                saddle_first: true,
            },
            Self::Feet => Advice {
                rule_out: &[R::Cleats, R::SaddleHeight],
                attempts: &[A::Cleats, A::SaddleHeight],
                said: &[S::NotTheHands],
                send_on: &[To::NumbForDays, To::PainAtRest],
                outcomes: &[O::NotTheBar],
                saddle_first: true,
            },
            Self::Stretched => Advice {
                rule_out: &[R::SaddleSetback, R::HandsOnTips, R::LongFrame],
                attempts: &[A::LeverBack, A::ShorterReachBar, A::StemShorter, A::BarUpShortens],
                said: &[S::ShortStem],
                send_on: &[To::Mechanic],
                outcomes: &[O::Cockpit, O::AsItIs, O::TheFrame],
                saddle_first: true,
            },
            Self::Cramped => Advice {
                rule_out: &[R::SaddleSetback, R::SaddleHeight],
                attempts: &[A::StemLonger, A::BarDown, A::LongerReachBar],
                said: &[S::WatchTheHip],
                send_on: &[To::Mechanic],
                outcomes: &[O::Cockpit, O::AsItIs, O::TheFrame],
                saddle_first: true,
            },
            Self::Unsteady => Advice {
                rule_out: &[R::Headset, R::Tyres, R::Wheels, R::BrakesReached, R::Fear],
                attempts: &[A::BrakesAndDropsFirst, A::WiderBar],
                said: &[S::WobbleFirst, S::StemNotUnder80],
                send_on: &[To::Mechanic],
                outcomes: &[O::NotTheBar, O::Cockpit, O::AsItIs],
                saddle_first: false,
            },
            Self::DropsUnused => Advice {
                rule_out: &[R::WhichLimit, R::HoldsDrops],
                attempts: &[
                    A::RollTailDown,
                    A::ReachScrew,
                    A::ShallowerDropHoodsHeld,
                    A::BarUp,
                    A::Flare,
                    A::ShorterCranks,
                ],
                said: &[S::RaisingLiftsHoods],
                send_on: &[To::BrakeMechanic],
                outcomes: &[O::Cockpit, O::AsItIs, O::NotTheBar],
                saddle_first: true,
            },
            Self::Slimmer => Advice {
                rule_out: &[R::HoldsPosture, R::NeckAndHipLeft, R::EventRules, R::Traffic],
                attempts: &[A::BentElbows, A::LeverTurnedIn, A::NarrowerBar, A::BarDownStepwise],
                said: &[S::StopWhen],
                send_on: &[To::Organiser],
                outcomes: &[O::Cockpit, O::AsItIs],
                saddle_first: true,
            },
            Self::SmallRider => Advice {
                rule_out: &[R::FrameSize, R::Cranks],
                attempts: &[A::SmallBar, A::SmallHandLever],
                said: &[S::MeasureChildren],
                send_on: &[To::Mechanic],
                outcomes: &[O::Cockpit, O::TheFrame],
                saddle_first: false,
            },
            Self::NewBar => Advice {
                rule_out: &[],
                attempts: &[A::MatchHoods, A::KeepTheRest],
                said: &[S::KeepIsAnAnswer],
                send_on: &[To::Mechanic],
                outcomes: &[O::AsItIs, O::Cockpit],
                saddle_first: false,
            },
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn twice<T: PartialEq>(all: &[T]) -> bool {
        all.iter().enumerate().any(|(at, one)| all[..at].contains(one))
    }

    /// Nobody is left without an answer, a reason, and somebody to ask.
    #[test]
    fn every_concern_has_its_outcome_its_reason_and_who_else_is_asked() {
        for concern in Concern::ALL {
            let of = concern.advice();
            assert!(!of.outcomes.is_empty() && !twice(of.outcomes), "{concern:?}");
            assert!(!of.said.is_empty() && !twice(of.said), "{concern:?}");
            assert!(!of.send_on.is_empty() && !twice(of.send_on), "{concern:?}");
            assert!(!of.attempts.is_empty() && !twice(of.attempts), "{concern:?}");
            assert!(!twice(of.rule_out), "{concern:?}");
            assert!(concern == Concern::NewBar || !of.rule_out.is_empty(), "{concern:?}");
        }
    }

    /// Common practice, no source: what cannot be in the hands never ends at the bar, what may be in
    /// the saddle begins there. Brakes, what is the mechanic's, what is the frame's and a plain wish
    /// for a bar need no saddle.
    #[test]
    fn the_saddle_comes_before_the_bar() {
        for concern in Concern::ALL {
            let of = concern.advice();
            let first_at_hands = of.attempts.iter().position(|a| a.is_at_the_hands());
            let last_before = of.attempts.iter().rposition(|a| {
                use Attempt as A;
                matches!(a, A::SaddleLevel | A::SaddleBack | A::SaddleHeight | A::SaddleSetback)
            });
            if let (Some(hands), Some(saddle)) = (first_at_hands, last_before) {
                assert!(saddle < hands, "{concern:?}");
            }
            if first_at_hands.is_none() {
                assert_eq!(of.outcomes, [Outcome::NotTheBar], "{concern:?}");
            }
            let without = [
                Concern::BrakesFromDrops,
                Concern::BrakesFromHoods,
                Concern::Unsteady,
                Concern::SmallRider,
                Concern::NewBar,
            ];
            assert_eq!(of.saddle_first, !without.contains(&concern), "{concern:?}");
        }
    }

    /// Common practice, no source: on the hoods a neck is met by what lifts the bar, in the drops first
    /// by what makes them less deep; elsewhere the place changes nothing.
    #[test]
    fn a_neck_in_the_drops_begins_with_the_drop() {
        use Attempt as A;
        let neck = |place| Concern::Neck.attempts(place);
        assert_eq!(neck(None), [A::BarUpForNeck, A::Nearer, A::ShallowerDrop]);
        assert_eq!(neck(Some(HandPlace::Hoods)), [A::BarUpForNeck, A::Nearer]);
        let drops = [A::ShallowerDrop, A::BarUpForNeck, A::Nearer];
        assert_eq!(neck(Some(HandPlace::Drops)), drops);
        for concern in Concern::ALL.into_iter().filter(|of| *of != Concern::Neck) {
            for place in HandPlace::ALL.map(Some).into_iter().chain([None]) {
                assert_eq!(concern.attempts(place), concern.advice().attempts, "{concern:?}");
            }
        }
    }

    /// Everything that can be ruled out, tried, said or asked belongs to some concern.
    #[test]
    fn nothing_in_the_lists_is_left_over() {
        let all = || Concern::ALL.into_iter().map(Concern::advice);
        for item in RuleOut::ALL {
            assert!(all().any(|of| of.rule_out.contains(&item)), "{item:?}");
        }
        for attempt in Attempt::ALL {
            assert!(all().any(|of| of.attempts.contains(&attempt)), "{attempt:?}");
        }
        for said in Said::ALL {
            assert!(all().any(|of| of.said.contains(&said)), "{said:?}");
        }
        for to in SendOn::ALL {
            assert!(all().any(|of| of.send_on.contains(&to)), "{to:?}");
        }
    }
}
