//! Which acts can be done now, and which keys work where: an act is done where what it acts on is in
//! sight, so that nothing changes that nobody looks at.

use super::{Desk, Sought};
use crate::look::Room;
use fit_view::act::Act;

impl Desk {
    /// Whether something in a menu can be done now.
    pub fn enabled(&self, act: Act) -> bool {
        // asked for by its name it leads to where it is done, or is looked at
        let leads = matches!(act, Act::AfterNote | Act::FollowUp | Act::Hands(_) | Act::AllHands);
        (leads || self.at_hand(act)) && self.can_be(act)
    }

    /// Whether the key of an act works in the place of work that is open: what it acts on, or shows
    /// otherwise, is in sight there.
    pub fn at_hand(&self, act: Act) -> bool {
        let room = self.look.room;
        match act {
            // the cockpit that is spoken of, and the list that it stands in
            Act::AddBar
            | Act::OtherBar
            | Act::Trial
            | Act::Duplicate
            | Act::Remove
            | Act::MatchHoods
            | Act::MatchDrops => matches!(room, Room::Bench | Room::Decide),
            // drawing, table and what stands beside them
            Act::EndTrial
            | Act::AllHands
            | Act::Sight(_)
            | Act::Measures
            | Act::Ruler
            | Act::Behind
            | Act::AgainstTrial
            | Act::Choosing
            | Act::Search
            | Act::Balance
            | Act::Hold(_) => room == Room::Bench,
            // where the readings are, and where it is said that they were not taken over
            Act::TakeTape => matches!(room, Room::Bike | Room::Bench | Room::Decide),
            Act::Hands(_) => matches!(room, Room::Bench | Room::Decide | Room::Later),
            Act::AfterNote | Act::FollowUp => room == Room::Later,
            // files and steps say themselves what was done; a place of work is what comes into sight
            Act::New
            | Act::Open
            | Act::Save
            | Act::SaveAs
            | Act::Passphrase
            | Act::Erase
            | Act::Paper
            | Act::TableIn
            | Act::Close
            | Act::Undo
            | Act::Redo
            | Act::Who
            | Act::Body
            | Act::Bike
            | Act::Bench
            | Act::Decide
            | Act::Later
            | Act::Trials
            | Act::ClientView
            | Act::ClientBeside
            | Act::SwitchTheme
            | Act::Larger
            | Act::Smaller
            | Act::UsualSize
            | Act::Palette
            | Act::Keys => true,
        }
    }

    /// Whether there is something that it can be done with.
    fn can_be(&self, act: Act) -> bool {
        let running = || self.visit().is_some_and(|visit| visit.ride().is_some());
        match act {
            Act::Undo => self.can_undo().is_some(),
            Act::Redo => self.can_redo().is_some(),
            Act::Save => self.modified() || self.file.is_none(),
            Act::Passphrase | Act::Erase => self.file.is_some(),
            Act::Duplicate => self.selected().is_some(),
            Act::Trial => self.visit().is_some() && !running(),
            Act::AgainstTrial | Act::Trials => {
                self.visit().is_some_and(|visit| visit.last_trial().is_some())
            }
            Act::EndTrial => running(),
            Act::FollowUp => self.closed().is_none() && !running(),
            // a trial takes the place in which it is shown
            Act::Choosing => !running(),
            Act::Balance => self.can_balance(),
            Act::TakeTape => self.tape_can_be_taken(),
            Act::Search => !running() && !matches!(self.sought, Sought::Running(_)),
            Act::Remove | Act::MatchHoods | Act::MatchDrops => {
                self.selected().is_some_and(|of| !self.is_as_it_came(&of.id))
            }
            _ => true,
        }
    }
}
