//! Which visit an edit changes.

use super::Edit;

impl Edit {
    /// The visit whose own record it changes; none for what belongs to client or bike, for the notes
    /// after a visit, which stay open when the visit is closed, for a follow-up, which leaves it as it
    /// is, and for one that is taken back, of which there is no record.
    pub fn visit(&self) -> Option<usize> {
        match self {
            Self::ClientName(_)
            | Self::ClientNotes(_)
            | Self::KeepUntil(_)
            | Self::Sex(_)
            | Self::Born(_)
            | Self::BikeName { .. }
            | Self::Frame { .. }
            | Self::After { .. }
            | Self::FollowUp { .. }
            | Self::TakeFollowUpBack { .. } => None,
            Self::Date { visit, .. }
            | Self::Landmark { visit, .. }
            | Self::Reading { visit, .. }
            | Self::Mobility { visit, .. }
            | Self::Seen { visit, .. }
            | Self::HandCheck { visit, .. }
            | Self::Glove { visit, .. }
            | Self::Tape { visit, .. }
            | Self::TakeTapeOver { visit }
            | Self::Built { visit, .. }
            | Self::PutSaddleRight { visit, .. }
            | Self::SaddleRightOn { visit, .. }
            | Self::Interview { visit, .. }
            | Self::StartRide { visit, .. }
            | Self::Ride { visit, .. }
            | Self::RuledOut { visit, .. }
            | Self::Complaints { visit, .. }
            | Self::Wanted { visit, .. }
            | Self::Bounds { visit, .. }
            | Self::Wishes { visit, .. }
            | Self::VisitNotes { visit, .. }
            | Self::Cockpit { visit, .. }
            | Self::Add { visit, .. }
            | Self::AddChanged { visit, .. }
            | Self::Elsewhere { visit, .. }
            | Self::Veto { visit, .. }
            | Self::Hour { visit, .. }
            | Self::Remove { visit, .. }
            | Self::Move { visit, .. }
            | Self::Choose { visit, .. } => Some(*visit),
        }
    }
}
