//! Everything a user can do from a menu or a key: one list, from which menus, key help and the
//! palette are made. What each is called stands in the words.

use crate::side::Sight;
use fit_doc::HandPlace;
use fit_math::cockpit::Hold;

/// One thing a user can do.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Act {
    /// A new client.
    New,
    /// Open a session.
    Open,
    /// Save.
    Save,
    /// Save under another name.
    SaveAs,
    /// Set, change or remove the passphrase of the session.
    Passphrase,
    /// Take the client away for good.
    Erase,
    /// Write the client sheet.
    Paper,
    /// Bring a table of parts into the shop's stock.
    TableIn,
    /// Close the window.
    Close,
    /// Take the last step back.
    Undo,
    /// Do it again.
    Redo,
    /// Go to the client.
    Who,
    /// Go to the body.
    Body,
    /// Go to the bike.
    Bike,
    /// Go to the bench.
    Bench,
    /// Go to the decision.
    Decide,
    /// Go to what happens after the visit.
    Later,
    /// What was read off the bike becomes the bike as it came.
    TakeTape,
    /// Another visit with the same bike.
    FollowUp,
    /// Note what is heard of the client after the visit.
    AfterNote,
    /// Put the hands there.
    Hands(HandPlace),
    /// Show the hands of all places, or not.
    AllHands,
    /// Look at the cockpits that way.
    Sight(Sight),
    /// Show the measures of the selected cockpit in the drawing, or not.
    Measures,
    /// Measure between two points of the drawing, or not.
    Ruler,
    /// Show what stands behind the differences of the selected cockpit, or the differences.
    Behind,
    /// Compare with the cockpit that was ridden last, or with the one as it came.
    AgainstTrial,
    /// Show what of the shop is worth trying in the place of the set-up, or the set-up.
    Choosing,
    /// Look through the shop.
    Search,
    /// Show two things that are wanted held against each other, or the drawing.
    Balance,
    /// Lay the cockpits over each other at that point.
    Hold(Hold),
    /// Show the client's view in this window, or the workbench again.
    ClientView,
    /// The same in a window of its own, for a second screen.
    ClientBeside,
    /// Choose a bar from stock.
    AddBar,
    /// Put another bar on the selected cockpit.
    OtherBar,
    /// A trial of the selected cockpit begins.
    Trial,
    /// The trial that is running is over.
    EndTrial,
    /// Lead the keyboard to the trials that are over.
    Trials,
    /// A candidate like the selected one.
    Duplicate,
    /// Take the selected candidate off the bench.
    Remove,
    /// Bring the hoods back.
    MatchHoods,
    /// Bring the drops back.
    MatchDrops,
    /// The other of light and dark.
    SwitchTheme,
    /// Everything larger.
    Larger,
    /// Everything smaller.
    Smaller,
    /// The usual size.
    UsualSize,
    /// Find anything that can be done.
    Palette,
    /// Show the keys.
    Keys,
}

/// A key with what is held down beside it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Stroke {
    /// Ctrl, or Cmd where that is the custom.
    pub command: bool,
    /// Shift.
    pub shift: bool,
    /// Alt: the key works while something is typed as well.
    pub alt: bool,
    /// The key: a capital letter, a digit, or a name such as "Delete".
    pub key: &'static str,
}

impl Stroke {
    /// Nothing is held down and it is no function key: typed into a field it is a letter.
    pub fn is_plain(&self) -> bool {
        let function = self.key.starts_with('F') && self.key.len() > 1;
        !self.command && !self.alt && !function
    }
}

impl Act {
    /// All, in the order of the menus.
    pub const ALL: [Self; 58] = {
        use HandPlace as P;
        [
            Self::New,
            Self::Open,
            Self::Save,
            Self::SaveAs,
            Self::Passphrase,
            Self::Erase,
            Self::Paper,
            Self::TableIn,
            Self::Close,
            Self::Undo,
            Self::Redo,
            Self::AddBar,
            Self::OtherBar,
            Self::Trial,
            Self::EndTrial,
            Self::Trials,
            Self::Duplicate,
            Self::Remove,
            Self::MatchHoods,
            Self::MatchDrops,
            Self::Who,
            Self::Body,
            Self::Bike,
            Self::Bench,
            Self::Decide,
            Self::Later,
            Self::TakeTape,
            Self::FollowUp,
            Self::AfterNote,
            Self::Hands(P::Tops),
            Self::Hands(P::Ramps),
            Self::Hands(P::Hoods),
            Self::Hands(P::BentElbowHoods),
            Self::Hands(P::Drops),
            Self::Hands(P::Ends),
            Self::AllHands,
            Self::Sight(Sight::Side),
            Self::Sight(Sight::Front),
            Self::Sight(Sight::Above),
            Self::Measures,
            Self::Ruler,
            Self::Behind,
            Self::AgainstTrial,
            Self::Choosing,
            Self::Search,
            Self::Balance,
            Self::Hold(Hold::Axle),
            Self::Hold(Hold::Clamp),
            Self::Hold(Hold::Hoods),
            Self::Hold(Hold::Drops),
            Self::ClientView,
            Self::ClientBeside,
            Self::SwitchTheme,
            Self::Larger,
            Self::Smaller,
            Self::UsualSize,
            Self::Palette,
            Self::Keys,
        ]
    };

    /// The keys that do it, the usual one first.
    pub fn strokes(self) -> &'static [Stroke] {
        const fn plain(key: &'static str) -> Stroke {
            Stroke { command: false, shift: false, alt: false, key }
        }
        const fn ctrl(key: &'static str) -> Stroke {
            Stroke { command: true, shift: false, alt: false, key }
        }
        const fn shift(key: &'static str) -> Stroke {
            Stroke { command: false, shift: true, alt: false, key }
        }
        const fn ctrl_shift(key: &'static str) -> Stroke {
            Stroke { command: true, shift: true, alt: false, key }
        }
        const fn alt(key: &'static str) -> Stroke {
            Stroke { command: false, shift: false, alt: true, key }
        }
        match self {
            Self::New => const { &[ctrl("N")] },
            Self::Open => const { &[ctrl("O")] },
            Self::Save => const { &[ctrl("S")] },
            Self::SaveAs => const { &[ctrl_shift("S")] },
            Self::Paper => const { &[ctrl("P")] },
            Self::Close => const { &[ctrl("W"), ctrl("Q")] },
            Self::Undo => const { &[ctrl("Z")] },
            Self::Redo => const { &[ctrl_shift("Z"), ctrl("Y")] },
            Self::Who => const { &[plain("F5")] },
            Self::Body => const { &[plain("F6")] },
            Self::Bike => const { &[plain("F7")] },
            Self::Bench => const { &[plain("F8")] },
            Self::Later => const { &[plain("F10")] },
            Self::TakeTape => const { &[ctrl("T")] },
            Self::AfterNote => const { &[plain("N")] },
            Self::Decide => const { &[plain("F9")] },
            Self::Hands(HandPlace::Tops) => const { &[plain("1"), alt("1")] },
            Self::Hands(HandPlace::Ramps) => const { &[plain("2"), alt("2")] },
            Self::Hands(HandPlace::Hoods) => const { &[plain("3"), alt("3")] },
            Self::Hands(HandPlace::Drops) => const { &[plain("4"), alt("4")] },
            Self::Hands(HandPlace::Ends) => const { &[plain("5"), alt("5")] },
            Self::Hands(HandPlace::BentElbowHoods) => const { &[plain("6"), alt("6")] },
            Self::AllHands => const { &[plain("0"), alt("0")] },
            Self::Sight(Sight::Side) => const { &[plain("S")] },
            Self::Sight(Sight::Front) => const { &[plain("F")] },
            Self::Sight(Sight::Above) => const { &[plain("A")] },
            Self::Measures => const { &[plain("M")] },
            Self::Ruler => const { &[plain("D")] },
            Self::Behind => const { &[ctrl("E")] },
            Self::Hold(_)
            | Self::SwitchTheme
            | Self::FollowUp
            | Self::Passphrase
            | Self::Erase
            | Self::TableIn => &[],
            Self::OtherBar => const { &[ctrl_shift("B")] },
            Self::AddBar => const { &[ctrl("B")] },
            Self::Trial => const { &[plain("T")] },
            Self::EndTrial => const { &[ctrl("Enter")] },
            Self::Trials => const { &[plain("R")] },
            Self::AgainstTrial => const { &[plain("L")] },
            Self::Choosing => const { &[plain("C")] },
            Self::Search => const { &[ctrl("F")] },
            Self::Balance => const { &[plain("W")] },
            Self::ClientView => const { &[plain("F11")] },
            Self::ClientBeside => const { &[shift("F11")] },
            Self::Duplicate => const { &[ctrl("D")] },
            Self::Remove => const { &[plain("Delete")] },
            Self::MatchHoods => const { &[ctrl("H")] },
            Self::MatchDrops => const { &[ctrl_shift("H")] },
            Self::Larger => const { &[ctrl("Plus"), ctrl("Equals")] },
            Self::Smaller => const { &[ctrl("Minus")] },
            Self::UsualSize => const { &[ctrl("0")] },
            Self::Palette => const { &[ctrl_shift("P")] },
            Self::Keys => const { &[plain("F1")] },
        }
    }
}
