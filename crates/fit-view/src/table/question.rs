//! The questions that a client asks, in the order of a conversation: how the client sits, what
//! joints are asked for, what moves, where the hands are, what the bar measures. Ramps and ends are
//! left to the detail behind the table.

use super::cell::Scale;
use fit_doc::HandPlace;

/// Rows that belong together under one heading.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Group {
    /// The trunk above the horizontal.
    Trunk,
    /// Bend of the elbow.
    Elbow,
    /// How far the head must be lifted to look ahead.
    Neck,
    /// Smallest angle between thigh and trunk.
    Hip,
    /// Sideways turn of the hand.
    Wrist,
    /// How far the fingers reach beyond the brake.
    Brake,
    /// What moves from the hoods to the drops.
    Travel,
    /// Where the hands are from where they were.
    Moved,
    /// Where the hands are from the saddle.
    FromSaddle,
    /// Where the left hand is beside the right one.
    Sides,
    /// What it takes to turn the bar.
    Steering,
    /// What the bar measures.
    Bar,
}

/// A direction in the side view.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Axis {
    /// Forward positive.
    Forward,
    /// Up positive.
    Up,
}

/// A question that a client asks.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Question {
    /// How low is the trunk with the hands there?
    Trunk(HandPlace),
    /// How bent are the elbows?
    Elbow(HandPlace),
    /// How far must the head be lifted?
    Neck(HandPlace),
    /// How closed is the hip when the pedal is at the top?
    Hip(HandPlace),
    /// Which way does the hand turn?
    Wrist(HandPlace),
    /// How far do the fingers reach beyond what the brake asks of them? Of two hands the lesser;
    /// below nought they do not reach.
    Brake(HandPlace),
    /// How far do the hands move from the hoods to the drops?
    HandTravel,
    /// How far does the trunk come down with them? Down is positive here.
    TrunkTravel,
    /// How far are the hands from where they were?
    Moved(HandPlace, Axis),
    /// How far are the hands from the saddle's nose, level?
    FromNose(HandPlace),
    /// How far are the hands below the saddle?
    BelowSaddle(HandPlace),
    /// How far is the left hand on the hoods from where the right one is, side to side left out?
    LeftFromRight(Axis),
    /// How much more does it take to turn the bar?
    Steering(HandPlace),
    /// How wide is the bar at the hoods?
    WidthAtHoods,
    /// How wide is it at the ends?
    WidthAtEnds,
    /// How far does it reach?
    BarReach,
    /// How deep is it?
    BarDrop,
}

impl Question {
    /// Every question, in the order of the table.
    pub const ALL: [Self; 31] = {
        use HandPlace::{Drops, Hoods, Tops};
        [
            Self::Trunk(Tops),
            Self::Trunk(Hoods),
            Self::Trunk(Drops),
            Self::Elbow(Hoods),
            Self::Elbow(Drops),
            Self::Neck(Hoods),
            Self::Neck(Drops),
            Self::Hip(Hoods),
            Self::Hip(Drops),
            Self::Wrist(Hoods),
            Self::Wrist(Drops),
            Self::Brake(Hoods),
            Self::Brake(Drops),
            Self::HandTravel,
            Self::TrunkTravel,
            Self::Moved(Hoods, Axis::Forward),
            Self::Moved(Hoods, Axis::Up),
            Self::Moved(Drops, Axis::Forward),
            Self::Moved(Drops, Axis::Up),
            Self::FromNose(Hoods),
            Self::BelowSaddle(Hoods),
            Self::FromNose(Drops),
            Self::BelowSaddle(Drops),
            Self::LeftFromRight(Axis::Forward),
            Self::LeftFromRight(Axis::Up),
            Self::Steering(Hoods),
            Self::Steering(Drops),
            Self::WidthAtHoods,
            Self::WidthAtEnds,
            Self::BarReach,
            Self::BarDrop,
        ]
    };

    /// The heading it stands under.
    pub const fn group(self) -> Group {
        match self {
            Self::Trunk(_) => Group::Trunk,
            Self::Elbow(_) => Group::Elbow,
            Self::Neck(_) => Group::Neck,
            Self::Hip(_) => Group::Hip,
            Self::Wrist(_) => Group::Wrist,
            Self::Brake(_) => Group::Brake,
            Self::HandTravel | Self::TrunkTravel => Group::Travel,
            Self::Moved(..) => Group::Moved,
            Self::FromNose(_) | Self::BelowSaddle(_) => Group::FromSaddle,
            Self::LeftFromRight(_) => Group::Sides,
            Self::Steering(_) => Group::Steering,
            Self::WidthAtHoods | Self::WidthAtEnds | Self::BarReach | Self::BarDrop => Group::Bar,
        }
    }

    /// What its row counts in.
    pub const fn scale(self) -> Scale {
        match self {
            Self::Trunk(_)
            | Self::Elbow(_)
            | Self::Neck(_)
            | Self::Hip(_)
            | Self::Wrist(_)
            | Self::TrunkTravel => Scale::Degrees,
            Self::Steering(_) => Scale::Percent,
            _ => Scale::Millimetres,
        }
    }

    /// The hand place it is about, where it is about one.
    pub const fn place(self) -> Option<HandPlace> {
        match self {
            Self::Trunk(place)
            | Self::Elbow(place)
            | Self::Neck(place)
            | Self::Hip(place)
            | Self::Wrist(place)
            | Self::Brake(place)
            | Self::Moved(place, _)
            | Self::FromNose(place)
            | Self::BelowSaddle(place)
            | Self::Steering(place) => Some(place),
            // no other place goes with a lever
            Self::LeftFromRight(_) => Some(HandPlace::Hoods),
            _ => None,
        }
    }
}
