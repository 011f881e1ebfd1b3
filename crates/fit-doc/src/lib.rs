//! The document of a fit: client, bikes, visits, cockpits and parts.
//!
//! A plain value, `Clone + PartialEq`, cheap to clone, without view state, paths or results.
//! Lengths in mm and weights in kg. Angles in *degrees*, exactly as they were typed: a session
//! must come back with the numbers that went in, and −6° through radians does not always.
//! [`geometry`] hands them to the sums in radians. [`check`] says what is wrong or unusual, as
//! [`Message`]s that the view words.

pub use jiff::civil::Date;

mod afterwards;
mod bike;
mod check;
mod client;
mod cockpit;
pub mod concern;
pub mod course;
mod differs;
pub mod edit;
mod event;
mod follow;
pub mod geometry;
mod interview;
mod message;
mod near;
mod parts;
mod place;
mod ranges;
mod ridden;
mod ride;
mod saving;
mod session;
mod slip;
mod stock;
mod table;
pub mod tally;
pub mod tape;
mod visit;
mod wanted;
pub mod work;

pub use afterwards::{AfterNote, AfterScore, AsBuilt};
pub use bike::{Bike, Frame};
pub use check::{
    Findings, KeptCockpits, check, check_bar, check_lever, check_stem, check_visit,
    check_visit_again,
};
pub use client::{
    Client, ClientThen, Dimension, Extent, Item, Joint, Mobility, Reading, Sex, Suppleness,
};
pub use cockpit::{Cockpit, LeverSetting, Levers, Saddle};
pub use concern::{Concern, Looked, RuleOut, RuledOut, SendOn};
pub use differs::{Differs, Record, differences};
pub use edit::{AfterEdit, CockpitEdit, Edit, RideEdit, Sight, TapeEdit, UndoStep};
pub use event::{EventNumber, EventRule, event_rules};
pub use interview::{Helmet, Interview, Share};
pub use message::{CockpitClash, FileKind, LeftBehind, Message, NotSaved, Spot};
pub use near::nearest;
pub use parts::{
    Bar, Blade, Family, Flare, KnownBy, Lever, LeverSort, OnTheShelf, OnePiece, Price, Stem,
    WidthAt, WidthHow,
};
pub use place::{CockpitOn, Place, Step, VisitPlace, Whole};
pub use ranges::{Quantity, Range, Verdict};
pub use ridden::Ridden;
pub use ride::{Corrected, Liking, Ride, RideBrake, RideNumber, RideRow, RideScore};
pub use saving::{Keeping, SaveOutcome};
pub use session::Session;
pub use slip::{Measure, NumberSlip, Slip};
pub use stock::Stock;
pub use table::{
    BrokenList, BroughtIn, IfKnown, NotBroughtIn, StockList, TableColumn, TableFault, TableSlip,
    TableWants,
};
pub use tape::{BarKnown, HoodAt, Laid, Tape, TapeDoubt, TapeItem, TapeReading};
pub use visit::{
    Complaint, Elsewhere, FingerPart, HandCheck, HandPlace, Reaches, Seen, Veto, Visit, Where,
};
pub use wanted::{Aim, Bounds, Counts, Stays, Wanted};
