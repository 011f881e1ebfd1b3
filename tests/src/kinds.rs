//! Kinds of change to a session, each list complete by the compiler's word: a new change without its
//! kind here does not build.

use fit_doc::edit::{AfterStep, CHANGED, InterviewEdit, StepOf};
use fit_doc::{
    AfterEdit, CockpitEdit, Edit, Quantity, RideEdit, Session, TapeEdit, UndoStep, Visit,
};

/// The variants of an enum as an enum without what they hold.
macro_rules! kinds {
    ($name:ident of $of:ident: $($kind:ident)+) => {
        #[doc = concat!("Kinds of `", stringify!($of), "`.")]
        #[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
        pub enum $name { $(#[doc = concat!("`", stringify!($kind), "`.")] $kind),+ }

        impl $name {
            /// All of them.
            pub const ALL: &[Self] = &[$(Self::$kind),+];

            fn of(of: &$of) -> Self {
                match of { $($of::$kind { .. } => Self::$kind),+ }
            }
        }
    };
}

kinds!(EditKind of Edit:
    ClientName ClientNotes KeepUntil Sex Born BikeName Frame Date Landmark Reading Mobility Seen HandCheck Glove
    Tape TakeTapeOver Built After FollowUp TakeFollowUpBack PutSaddleRight SaddleRightOn Interview
    StartRide Ride RuledOut Complaints Wishes Wanted Bounds VisitNotes Cockpit Add AddChanged Remove Move Choose
    Elsewhere Veto Hour);
kinds!(CockpitKind of CockpitEdit:
    Number Slipped Lever Label Bar Stem Trial Levers Ridden Settings);
kinds!(InterviewKind of InterviewEdit:
    ChangedBefore Riding Hours Share Glasses Helmet Injuries Fears RedFlag Consent);
kinds!(RideKind of RideEdit: After Minutes Words Likes Seen End TakeBack);
kinds!(AfterKind of AfterEdit: Add Date Km Score AsBuilt Words TakeBack);
kinds!(TapeKind of TapeEdit: Reading Laid NoseUp BarKnown FrameKnown Mend);

/// A kind of change, with its kinds where it has some of its own.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Kind {
    /// One without.
    Of(EditKind),
    /// Of a cockpit.
    Cockpit(CockpitKind),
    /// Of what the client was asked.
    Interview(InterviewKind),
    /// Of a trial.
    Ride(RideKind),
    /// Of a note after the visit.
    After(AfterKind),
    /// Of the tape.
    Tape(TapeKind),
    /// Of the tape on what was built.
    Built(TapeKind),
}

impl Kind {
    /// All of them.
    pub fn all() -> Vec<Self> {
        let all = EditKind::ALL.iter().flat_map(|kind| match kind {
            EditKind::Cockpit => each(CockpitKind::ALL, Self::Cockpit),
            EditKind::Interview => each(InterviewKind::ALL, Self::Interview),
            EditKind::Ride => each(RideKind::ALL, Self::Ride),
            EditKind::After => each(AfterKind::ALL, Self::After),
            EditKind::Tape => each(TapeKind::ALL, Self::Tape),
            EditKind::Built => each(TapeKind::ALL, Self::Built),
            kind => vec![Self::Of(*kind)],
        });
        all.collect()
    }

    /// What kind a change is.
    pub fn of(edit: &Edit) -> Self {
        match edit {
            Edit::Cockpit { change, .. } => Self::Cockpit(CockpitKind::of(change)),
            Edit::Interview { change, .. } => Self::Interview(InterviewKind::of(change)),
            Edit::Ride { change, .. } => Self::Ride(RideKind::of(change)),
            Edit::After { change, .. } => Self::After(AfterKind::of(change)),
            Edit::Tape { change, .. } => Self::Tape(TapeKind::of(change)),
            Edit::Built { change, .. } => Self::Built(TapeKind::of(change)),
            edit => Self::Of(EditKind::of(edit)),
        }
    }

    /// What kind of change a step of the undo list is, that led from one session to another. A number that
    /// slipped is told as any other of a cockpit.
    pub fn of_step(step: &UndoStep, before: &Session, after: &Session) -> Self {
        use EditKind as E;
        let differ = |of: fn(&Visit, &Visit) -> bool| {
            before.visits.len() == after.visits.len()
                && before.visits.iter().zip(&after.visits).any(|(one, other)| of(one, other))
        };
        let is_built = differ(|one, other| one.built != other.built);
        let tape = |kind| if is_built { Self::Built(kind) } else { Self::Tape(kind) };
        match step {
            UndoStep::Number { quantity, .. } => number(*quantity, &tape, differ),
            UndoStep::Reading { .. } => Self::Of(E::Reading),
            UndoStep::Landmark { .. } => Self::Of(E::Landmark),
            UndoStep::Text { of, .. } => text(*of),
            UndoStep::KeepUntil { .. } => Self::Of(E::KeepUntil),
            UndoStep::Sex { .. } => Self::Of(E::Sex),
            UndoStep::Mobility { .. } => Self::Of(E::Mobility),
            UndoStep::HandCheck { .. } => Self::Of(E::HandCheck),
            UndoStep::TapeLaid { .. } => tape(TapeKind::Laid),
            UndoStep::TapeBarKnown { .. } => tape(TapeKind::BarKnown),
            UndoStep::TapeFrameKnown { .. } => tape(TapeKind::FrameKnown),
            UndoStep::TapeMended { .. } => tape(TapeKind::Mend),
            UndoStep::TapeTaken { .. } => Self::Of(E::TakeTapeOver),
            UndoStep::FollowUp { .. } => Self::Of(E::FollowUp),
            UndoStep::FollowUpGone { .. } => Self::Of(E::TakeFollowUpBack),
            UndoStep::After { change, .. } => Self::After(match change {
                AfterStep::Added => AfterKind::Add,
                AfterStep::Gone => AfterKind::TakeBack,
                AfterStep::Day { .. } => AfterKind::Date,
                AfterStep::Km { .. } => AfterKind::Km,
                AfterStep::Score { .. } => AfterKind::Score,
                AfterStep::AsBuilt { .. } => AfterKind::AsBuilt,
                AfterStep::Words => AfterKind::Words,
            }),
            UndoStep::Complaints { .. } => Self::Of(E::Complaints),
            UndoStep::RuledOut { .. } => Self::Of(E::RuledOut),
            UndoStep::RideBegun { .. } => Self::Of(E::StartRide),
            UndoStep::RideEnded { .. } => Self::Ride(RideKind::End),
            UndoStep::RideTakenBack { .. } => Self::Ride(RideKind::TakeBack),
            UndoStep::RideScored { .. } => Self::Ride(RideKind::After),
            UndoStep::RideSaid { .. } => Self::Ride(RideKind::Words),
            UndoStep::RideLikes { .. } => Self::Ride(RideKind::Likes),
            UndoStep::Glasses { .. } => Self::Interview(InterviewKind::Glasses),
            UndoStep::Helmet { .. } => Self::Interview(InterviewKind::Helmet),
            UndoStep::RedFlag { .. } => Self::Interview(InterviewKind::RedFlag),
            UndoStep::Consent { .. } => Self::Interview(InterviewKind::Consent),
            UndoStep::Wishes => Self::Of(E::Wishes),
            UndoStep::Wanted => Self::Of(E::Wanted),
            UndoStep::Bounds => Self::Of(E::Bounds),
            UndoStep::Bar { .. } => Self::Cockpit(CockpitKind::Bar),
            UndoStep::Stem { .. } => Self::Cockpit(CockpitKind::Stem),
            UndoStep::Levers { .. } => Self::Cockpit(CockpitKind::Levers),
            UndoStep::Ridden { .. } => Self::Cockpit(CockpitKind::Ridden),
            UndoStep::Trial { .. } => Self::Cockpit(CockpitKind::Trial),
            UndoStep::Matched { .. } => Self::Cockpit(CockpitKind::Settings),
            UndoStep::Add { .. } if differ(|one, other| one.put_right != other.put_right) => {
                Self::Of(E::PutSaddleRight)
            }
            UndoStep::Add { .. } => {
                let is_copy = |visit: &Visit| {
                    visit.bench.last().is_some_and(|last| last.id.starts_with(CHANGED))
                };
                let of = before.visits.iter().zip(&after.visits);
                let mut grown = of.filter(|(one, other)| one.bench.len() < other.bench.len());
                let copied = grown.any(|(_, other)| is_copy(other));
                Self::Of(if copied { E::AddChanged } else { E::Add })
            }
            UndoStep::Remove { .. } => Self::Of(E::Remove),
            UndoStep::Move { .. } => Self::Of(E::Move),
            UndoStep::Choose { .. } => Self::Of(E::Choose),
            UndoStep::Elsewhere { .. } => Self::Of(E::Elsewhere),
            UndoStep::Veto { .. } | UndoStep::VetoSaid { .. } => Self::Of(E::Veto),
            UndoStep::SaddleRightOn { .. } => Self::Of(E::SaddleRightOn),
        }
    }
}

fn each<T: Copy>(all: &[T], of: fn(T) -> Kind) -> Vec<Kind> {
    all.iter().copied().map(of).collect()
}

/// Which change sets a number.
fn number(
    quantity: Quantity,
    tape: &impl Fn(TapeKind) -> Kind,
    differ: impl Fn(fn(&Visit, &Visit) -> bool) -> bool,
) -> Kind {
    use Quantity as Q;
    match quantity {
        Q::BirthYear => Kind::Of(EditKind::Born),
        Q::HourPrice => Kind::Of(EditKind::Hour),
        Q::Glove => Kind::Of(EditKind::Glove),
        Q::HoursPerWeek => Kind::Interview(InterviewKind::Hours),
        Q::HandShare(_) => Kind::Interview(InterviewKind::Share),
        Q::RideMinutes => Kind::Ride(RideKind::Minutes),
        Q::Tape(_) => tape(TapeKind::Reading),
        Q::NoseUp => tape(TapeKind::NoseUp),
        Q::SeenTrunk | Q::SeenElbow | Q::SeenNeck | Q::SeenKnee | Q::SeenSlide => {
            if differ(|one, other| one.rides != other.rides) {
                Kind::Ride(RideKind::Seen)
            } else {
                Kind::Of(EditKind::Seen)
            }
        }
        Q::LeverAlong | Q::LeverTurnIn | Q::LeverClicks => Kind::Cockpit(CockpitKind::Lever),
        _ if differ(|one, other| {
            one.as_it_came != other.as_it_came || one.bench != other.bench
        }) =>
        {
            Kind::Cockpit(CockpitKind::Number)
        }
        _ => Kind::Of(EditKind::Frame),
    }
}

/// Which change sets a text.
fn text(of: StepOf) -> Kind {
    match of {
        StepOf::ClientName => Kind::Of(EditKind::ClientName),
        StepOf::ClientNotes => Kind::Of(EditKind::ClientNotes),
        StepOf::BikeName => Kind::Of(EditKind::BikeName),
        StepOf::Date => Kind::Of(EditKind::Date),
        StepOf::VisitNotes => Kind::Of(EditKind::VisitNotes),
        StepOf::ChangedBefore => Kind::Interview(InterviewKind::ChangedBefore),
        StepOf::Riding => Kind::Interview(InterviewKind::Riding),
        StepOf::Injuries => Kind::Interview(InterviewKind::Injuries),
        StepOf::Fears => Kind::Interview(InterviewKind::Fears),
        StepOf::Label => Kind::Cockpit(CockpitKind::Label),
    }
}
