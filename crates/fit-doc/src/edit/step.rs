//! What an undo list calls a change, as data; the words are the view's.

use super::{AfterStep, ComplaintStep};
use crate::tape::{BarKnown, Of, TapeItem, TapeSlip};
use crate::{
    Concern, Date, Elsewhere, Extent, FingerPart, Helmet, Item, Joint, Liking, Looked, Quantity,
    Reaches, RideScore, RuleOut, SendOn, Sex, Where,
};

/// Which text was changed.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum StepOf {
    /// The client's name.
    ClientName,
    /// Notes about the client.
    ClientNotes,
    /// A bike's name.
    BikeName,
    /// The day of the visit.
    Date,
    /// Notes about the visit.
    VisitNotes,
    /// What was changed before a complaint began.
    ChangedBefore,
    /// What is ridden, and where.
    Riding,
    /// Old injuries.
    Injuries,
    /// What the client is afraid of.
    Fears,
    /// A cockpit's short name.
    Label,
}

/// One step of an undo list.
#[derive(Debug, Clone, PartialEq)]
pub enum UndoStep {
    /// A number, with what it was and became: mm, degrees, kg or a count.
    Number {
        /// Short name of the cockpit or bike, where there are several.
        of: Option<String>,
        /// Which number.
        quantity: Quantity,
        /// What it was; none: not known before.
        from: Option<f64>,
        /// What it is; none: taken away.
        to: Option<f64>,
    },
    /// What was read off the body.
    Reading {
        /// Of what.
        item: Item,
        /// On which side.
        side: Where,
        /// Mean of what was read before, mm or kg; none: not read before.
        from: Option<f64>,
        /// Mean of what is read now; none: taken away.
        to: Option<f64>,
    },
    /// What was felt at a landmark is of this.
    Landmark {
        /// Of what.
        to: Item,
    },
    /// A text.
    Text {
        /// Which.
        of: StepOf,
        /// What it is now.
        to: String,
    },
    /// The client's sex.
    Sex {
        /// What it is now.
        to: Option<Sex>,
    },
    /// Until when the client agreed that the session is kept.
    KeepUntil {
        /// The day; none where nobody asked.
        to: Option<Date>,
    },
    /// How far a joint goes.
    Mobility {
        /// Which joint.
        joint: Joint,
        /// On which side.
        side: Where,
        /// How far now, and whether it hurts there; none: taken away.
        to: Option<(Extent, bool)>,
    },
    /// Whether a hand reaches the brake.
    HandCheck {
        /// The cockpit.
        label: String,
        /// Which hand.
        side: Where,
        /// Which part of the finger.
        part: FingerPart,
        /// Whether it does; none: not looked at.
        to: Option<Reaches>,
    },
    /// How the tape of a reading was laid.
    TapeLaid {
        /// What was read, and how.
        of: Of,
    },
    /// How the bar is known.
    TapeBarKnown {
        /// How.
        to: BarKnown,
    },
    /// Whether the frame's numbers are known.
    TapeFrameKnown {
        /// They are.
        to: bool,
    },
    /// Readings without a slip.
    TapeMended {
        /// The slip.
        slip: TapeSlip,
        /// The readings that were mended.
        items: Vec<TapeItem>,
    },
    /// What was found with the tape became the bike as it came.
    TapeTaken {
        /// The cockpit.
        label: String,
        /// The numbers that changed.
        of: Vec<Quantity>,
    },
    /// A follow-up.
    FollowUp {
        /// Its day.
        date: Date,
    },
    /// A follow-up that was begun by mistake is gone.
    FollowUpGone {
        /// Its day.
        date: Date,
    },
    /// A note of what was heard after a visit.
    After {
        /// Its day.
        date: Date,
        /// What became of it.
        change: AfterStep,
    },
    /// What brought the client.
    Complaints {
        /// Which of it; none: nothing that can be named.
        of: Option<Concern>,
        /// What became of it.
        change: ComplaintStep,
    },
    /// Something that is ruled out first.
    RuledOut {
        /// What.
        item: RuleOut,
        /// What became of it; none: nobody looked at it.
        to: Option<Looked>,
    },
    /// A trial begins.
    RideBegun {
        /// The cockpit that is ridden.
        label: String,
    },
    /// It is over.
    RideEnded {
        /// The cockpit.
        label: String,
    },
    /// It never was.
    RideTakenBack {
        /// The cockpit.
        label: String,
    },
    /// How bad a complaint is after it.
    RideScored {
        /// The cockpit.
        label: String,
        /// The complaint, as it is now.
        score: RideScore,
    },
    /// What the client said on it.
    RideSaid {
        /// The cockpit.
        label: String,
    },
    /// What the client makes of it.
    RideLikes {
        /// The cockpit.
        label: String,
        /// What; none: not asked.
        to: Option<Liking>,
    },
    /// Rides with glasses, or not.
    Glasses {
        /// With.
        to: bool,
    },
    /// What is worn on the head.
    Helmet {
        /// What; none: not asked.
        to: Option<Helmet>,
    },
    /// Something that sends the client on.
    RedFlag {
        /// What.
        of: SendOn,
        /// It is so.
        to: bool,
    },
    /// The client agrees that it is kept, or no longer.
    Consent {
        /// Agrees.
        to: bool,
    },
    /// What is wanted.
    Wishes,
    /// What a cockpit is looked for.
    Wanted,
    /// What an answer may not leave.
    Bounds,
    /// Another bar.
    Bar {
        /// The cockpit.
        label: String,
        /// What the bar is called.
        bar: String,
        /// Its width, mm.
        width_mm: f64,
    },
    /// Another stem.
    Stem {
        /// The cockpit.
        label: String,
        /// Its length, mm.
        length_mm: f64,
        /// Its angle as mounted, degrees.
        angle_deg: f64,
    },
    /// Another kind of lever, or none.
    Levers {
        /// The cockpit.
        label: String,
        /// What they are called.
        lever: Option<String>,
    },
    /// Ridden, or not yet.
    Ridden {
        /// The cockpit.
        label: String,
        /// It is now.
        to: bool,
    },
    /// A trial stem that puts the hands somewhere, mm against as it came.
    Trial {
        /// The cockpit.
        label: String,
        /// Which hand place.
        place: crate::HandPlace,
        /// Ahead of where it was; behind negative.
        ahead_mm: f64,
        /// Above where it was; below negative.
        up_mm: f64,
    },
    /// Stem, spacers, roll and levers set so that a hand place comes back.
    Matched {
        /// The cockpit.
        label: String,
        /// Which hand place was brought back.
        place: crate::HandPlace,
    },
    /// A new candidate.
    Add {
        /// Its short name.
        label: String,
    },
    /// The saddle that was put right is on it.
    SaddleRightOn {
        /// The cockpit that had it as it came.
        label: String,
    },
    /// A candidate gone.
    Remove {
        /// Its short name.
        label: String,
    },
    /// A candidate moved on the bench.
    Move {
        /// Its short name.
        label: String,
    },
    /// The decision.
    Choose {
        /// Short name of what was chosen; none: not decided.
        label: Option<String>,
    },
    /// Where the answer lies, if not in the bar.
    Elsewhere {
        /// Where; none: it may be the bar.
        to: Option<Elsewhere>,
    },
    /// What the client will not have.
    Veto {
        /// The cockpit.
        label: String,
        /// Will not have it; else nothing against it.
        to: bool,
    },
    /// Why not, in the client's words.
    VetoSaid {
        /// The cockpit.
        label: String,
    },
}

impl UndoStep {
    /// Sets a text and names the step.
    pub(super) fn text(of: StepOf, value: &mut String, to: &str) -> Self {
        to.clone_into(value);
        Self::Text { of, to: to.to_owned() }
    }

    /// The same step begun where an earlier one began: what a drag makes of its parts.
    #[must_use]
    pub fn begun_at(self, first: &Self) -> Self {
        match (self, first) {
            (
                Self::Number { of, quantity, to, .. },
                Self::Number { quantity: before, from, .. },
            ) if quantity == *before => Self::Number { of, quantity, from: *from, to },
            (step, _) => step,
        }
    }
}
