//! The fixed texts of the window in English.

use crate::words::Caption;

#[expect(clippy::match_same_arms, reason = "two texts may read alike in one language")]
#[expect(clippy::too_many_lines, reason = "a list of texts, a line each")]
pub(super) fn caption(caption: Caption) -> &'static str {
    use Caption as C;
    match caption {
        C::CameLabel => "As it came",
        C::NewBike => "Bike",
        C::Untitled => "New client",
        C::Menu => "Menu",
        C::OnlyToLookAt => "Only to look at",
        C::Modified => "Not saved",
        C::Saved => "Saved",
        C::FieldFirst => {
            "Nothing done yet: what stands in red was not taken; the same again leaves it"
        }
        C::NotTaken => "Not taken; the message below says why",
        C::NoFile => "Not saved yet",
        C::RoomWho => "Client",
        C::RoomBody => "Body",
        C::RoomBike => "Bike",
        C::RoomBench => "Bench",
        C::RoomLater => "Later",
        C::RoomDecide => "Decision",
        C::OnTheBikeNow => "On the bike now",
        C::AllEstimated => "Nothing read: the body is estimated",
        C::EnterOpens => "Enter opens",
        C::EnterTakes => "Enter takes",
        C::ProposedHere => "Proposed",
        C::LookedAtHere => "Looked at",
        C::ChosenHere => "Chosen",
        C::WhatToChoose => "What to choose from, the least work first",
        C::KeptForLater => "Kept for later",
        C::WhatWasNoted => "noted before, and nothing to do now",
        C::WhatIsDone => "what is done, the smallest step first",
        C::InAll => "In all",
        C::StaysAsItIs => "Left alone",
        C::NothingToDo => "The bike stays as it came.",
        C::WillNotDo => "Will not do",
        C::WillNotDoWhy => "Why, in the client’s words",
        C::ElsewhereHeading => "Or the answer is not a bar",
        C::HourPrice => "An hour in the workshop costs",
        C::LeaveIt => "Leave it as it came",
        C::CameFor => "What the client came for",
        C::OnTheBench => "On the bench",
        C::AddFromStock => "Add from stock",
        C::Duplicate => "Duplicate",
        C::Remove => "Take off",
        C::Choose => "Choose it",
        C::Unchoose => "Not decided after all",
        C::Chosen => "chosen",
        C::Hands => "Hands",
        C::AllHands => "All",
        C::AllCockpits => "Differences",
        C::Behind => "Details",
        C::WhatItMeans => "What stands here",
        C::AgainstTrial => "Last trial",
        C::ElbowsBent => "Elbows bent",
        C::Hold => "Held at",
        C::HoldAxle => "Bottom bracket",
        C::HoldClamp => "Clamp",
        C::HoldHoods => "Hoods",
        C::HoldDrops => "Drops",
        C::ZoomIn => "Nearer",
        C::ZoomOut => "Further",
        C::ZoomFit => "All in view",
        C::Settings => "Set-up",
        C::Label => "Name",
        C::Bar => "Bar",
        C::BarNumbers => "The bar’s own numbers",
        C::BringBack => "Bring back",
        C::OtherBar => "Another bar…",
        C::Width => "Width",
        C::Stem => "Stem",
        C::Levers => "Levers",
        C::NoLevers => "No levers",
        C::TurnStemOver => "Turn over",
        C::Saddle => "Saddle",
        C::Frame => "Frame",
        C::AsItCame => "Cockpit as it came",
        C::Client => "Client",
        C::Name => "Name",
        C::BornIn => "Year of birth",
        C::Sex => "Sex, for the survey’s numbers",
        C::Male => "male",
        C::Female => "female",
        C::NotGiven => "not given",
        C::Notes => "Notes",
        C::VisitHeading => "This visit",
        C::VisitDay => "Day",
        C::KeepUntil => "Kept until (day agreed)",
        C::VisitNotes => "Notes about the visit",
        C::Wishes => "What the client wants, one wish a line",
        C::Complaints => "What the client says",
        C::RemoveComplaint => "Take away",
        C::Side => "Side",
        C::HowBad => "How bad, 0 to 10",
        C::ItsWords => "In the client’s words",
        C::AnyPlace => "any hand place",
        C::Readings => "Readings",
        C::Mobility => "How far the joints go",
        C::EachSide => "Left and right each",
        C::ReadEachSide => "Left and right read apart",
        C::WeightApart => "Weight, out of the client’s sight",
        C::FeltAt => "felt at",
        C::OuterEdges => "outer edges",
        C::TheJoints => "joints",
        C::Painful => "painful",
        C::SeenOnTheBike => "Seen on the bike as it came",
        C::TapeHeading => "From tape, one walk round the bike",
        C::TapeBesides => "Worth taking besides",
        C::TapeHow => "How the readings are used",
        C::TapeTake => "Take it over",
        C::RiddenOldSaddle => "with the saddle as it came",
        C::MeasureBike => "Measure the bike",
        C::LookAtTape => "Look at the readings",
        C::TapeLaid => "how laid",
        C::BarNumbersKnown => "The bar’s numbers are known",
        C::FrameNumbers => "Stack and reach",
        C::FrameKnown => "known, and used",
        C::LookAtStem => "Look at the stem",
        C::StemIsSo => "Stem and spacers are so",
        C::FadedNotRead => "faded: not read",
        C::NotAllRead => "not all read",
        C::FrameBesides => "The frame’s other numbers",
        C::FrameToFind => "found from tape",
        C::TrialStem => "Trial stem",
        C::PutSaddleRight => "Put the saddle right",
        C::SaddleRightOn => "Put the saddle right on it",
        C::PutRight => "Put right",
        C::SaddlePutRight => "Saddle put right",
        C::MoreReadings => "More readings",
        C::StockHeading => "Bars in stock",
        C::Search => "Find",
        C::Cancel => "Cancel",
        C::FirstWidth => "nearest to the shoulders",
        C::MoreSpacers => "More than it came with: is the steerer long enough?",
        C::SaveFirst => "Save the changes first?",
        C::SaveFirstWhy => "The session has changes that no file holds.",
        C::ReplaceFile => "Replace this file?",
        C::FileChanged => "Another program has changed this file",
        C::FileChangedWhy => {
            "It is no longer what was opened here. Nothing of either is lost, whatever you choose."
        }
        C::FileTakenAway => "This file is no longer there",
        C::FileTakenAwayWhy => "Another program has moved it or taken it away.",
        C::KeepBoth => "Keep both: save mine beside it",
        C::PutMine => "Put mine in its place",
        C::OpenTheirs => "Open what is there",
        C::SaveThereAgain => "Save it there again",
        C::Passphrase => "Passphrase",
        C::PassphraseAsked => "Passphrase of the session",
        C::PassphraseNeeded => "It is under a passphrase, which is needed to open it",
        C::PassphraseWrong => "That is not its passphrase; the file itself is whole",
        C::PassphraseTried => "Trying the passphrase…",
        C::UnderPassphrase => "Under a passphrase",
        C::PassphraseSet => "Put the session under a passphrase",
        C::PassphraseChange => "The session is under a passphrase",
        C::PassphraseCaution => {
            "Without it nobody can open the session any more, you included: there is no way round it. Keep \
             it where the shop keeps what must not be lost; its duty to keep records stays with the shop. \
             Earlier contents change with the file. What was exported, printed or copied before does not."
        }
        C::PassphraseNew => "New passphrase",
        C::PassphraseAgain => "The same once more",
        C::PassphraseDiffers => "The two are not the same",
        C::PassphrasePut => "Saving…",
        C::DoSetPassphrase => "Put it under this passphrase",
        C::DoChangePassphrase => "Change to this one",
        C::RemovePassphrase => "Remove the passphrase",
        C::RemovePassphraseWhy => {
            "Whoever gets hold of the file, or of one of its earlier contents, can read it then."
        }
        C::DoRemovePassphrase => "Remove it all the same",
        C::IsUnderPassphrase => "The session and its earlier contents are under the passphrase",
        C::IsPlain => "The passphrase is removed: the session can be opened without one",
        C::InFolder => "In this folder",
        C::TableIn => "Bring a table of parts into the stock",
        C::TableInWhy => {
            "Bars, stems or levers as CSV, one a line. What the columns are called and hold is printed by \
             barwright stock columns; barwright stock out FOLDER writes tables to begin with."
        }
        C::TableDoIn => "Bring in",
        C::TableRefused => "Nothing was brought in",
        C::TableAgain => "Read it again",
        C::TableKnown => "Parts of this table are in stock already",
        C::TableKnownWhy => "Nothing is brought in yet. These are there:",
        C::TableKeep => "Leave these out, bring in the others",
        C::TableReplace => "Put these in the place of those in stock",
        C::FileBroken => "This file cannot be opened as it is",
        C::FileBrokenWhy => {
            "Nothing on the disk has changed, and whatever you choose it stays there."
        }
        C::LookAtBroken => "Only look at it as it is",
        C::LeaveBroken => "Leave it",
        C::LeftOver => "Not saved when Barwright ended",
        C::LeftOverWhy => "This was being worked on. Take it up and save it, or do away with it.",
        C::OfNoFile => "a client without a file yet",
        C::OfNobodyKnows => "Nobody can tell whose this is",
        C::NothingDiffers => "nothing differs from its file",
        C::LeftOverGone => {
            "There is no file of that name any more: it may have another one by now, and what differs cannot \
             be told."
        }
        C::OfAnother => {
            "its file holds the session of another client now: saving asks what becomes of that"
        }
        C::SavedSince => {
            "its file was saved or changed after this was begun: saving asks which of them stays"
        }
        C::TakeUp => "Take it up",
        C::ThrowAway => "Do away with it",
        C::ThrowAwaySure => "This cannot be taken back",
        C::ThrowAwayYes => "Yes, do away with it",
        C::ThrowAwayNo => "Keep it",
        C::NextTime => "Ask next time",
        C::ReplaceFileWhy => {
            "It lies there already; what it holds would only stay as an earlier content."
        }
        C::DoReplace => "Replace it",
        C::AnotherName => "Another name…",
        C::FileGone => "no longer there",
        C::WhichVisit => "Visit looked at",
        C::AnswerSave => "Save",
        C::AnswerDiscard => "Go on without saving",
        C::CloseDiscard => "Close without saving",
        C::Open => "Open a session",
        C::SaveAs => "Save the session",
        C::PathField => "File",
        C::Browse => "Browse…",
        C::DoOpen => "Open",
        C::DoSave => "Save",
        C::Recent => "Recent",
        C::ClearRecent => "Forget these",
        C::Erase => "Erase this client",
        C::EraseWhy => {
            "All of it goes for good and cannot be brought back, what is not saved included; whether records \
             must be kept is for the shop to know. This would go:"
        }
        C::EraseBusy => "One moment…",
        C::DoErase => "Erase for good",
        C::IsErased => "The client is erased",
        C::NotErased => "It is not all gone",
        C::EraseWaits => {
            "A file is still being read or written, on a disk that does not answer, and nothing is taken away under \
             that."
        }
        C::NothingErased => {
            "Nothing of the client is gone, nor anything that is not saved. Once that is seen to, erase the client \
             again."
        }
        C::DeskErased => {
            "What was not saved is gone. The file and what is kept with it are still there: once that is seen to, \
             open it and erase the client again."
        }
        C::CopyText => "Copy this",
        C::EarlierWhy => {
            "What the file held before it was saved. One is opened only to look at; to work on it, save it \
             under another name."
        }
        C::Dismiss => "Close this message",
        C::PaletteHint => "What do you want to do?",
        C::KeysHeading => "Keys",
        C::CloseThis => "Close",
        C::AfterIt => "How bad now, 0 to 10",
        C::TakeBack => "Take it back",
        C::Trials => "Trials",
        C::BrakesOnIt => "Brakes, digits 1 to 3",
        C::SeenOnIt => "Seen on it",
        C::WithPart => "with which part of the finger",
        C::Brings => "What brings the client? Tap it",
        C::FromBehind => "From behind: left is left",
        C::NoComplaints => "Nothing yet",
        C::SinceWhen => "Since when",
        C::SaddleFirst => "The saddle first",
        C::SaddleLookedAt => "Looked at: the hands come next",
        C::ThenInOrder => "Then, in this order",
        C::CanComeOfIt => "What can come of it",
        C::WhoElse => "Who else is asked",
        C::AskedAtOnce => "Asked at once",
        C::Riding => "Riding, and before",
        C::WhatIsRidden => "What is ridden, and where",
        C::ChangedBefore => "What was changed before it began",
        C::Injuries => "Old injuries",
        C::Fears => "What is feared on the bike",
        C::Glasses => "rides with glasses",
        C::Helmet => "Helmet",
        C::NotAsked => "not asked",
        C::Consent => "agrees that this is kept",
        C::Ruler => "Ruler",
        C::Measures => "Measures",
        C::ForClient => "Barwright, for the client",
        C::Back => "Back",
        C::CockpitBefore => "the cockpit before",
        C::CockpitAfter => "the next cockpit",
        C::WholeRider => "The whole rider",
        C::Asked => "Sure?",
        C::WorthTrying => "What is worth trying",
        C::FromTheShop => "From the shop",
        C::SetUp => "Set-up",
        C::LookThrough => "Look through the shop",
        C::LookAgain => "Look again",
        C::LikeIt => "Like it",
        C::LeftOut => "What was left out",
        C::MustBeMounted => "On the bike for it",
        C::HoodsStayCounts => "Counts most; an answer that moves them says so",
        C::ToTheDrawing => "Back to the drawing",
        C::GoToTheSaddle => "Look at the saddle",
        C::LookForOther => "Other aims",
        C::LookingThrough => "looking through the shop",
        C::StopLooking => "Stop",
        C::AskedInPassing => "Asked in passing",
        C::ChangedSince => "Something was changed since; look again",
        C::ShowOnBench => "Show it on the bench",
        C::PutOnBench => "Put it on the bench",
        C::LookedFor => "Looked for",
        C::NothingFollows => {
            "Nothing: of where the hands are nothing is asked by what the client came for"
        }
        C::NothingLookedFor => {
            "Nothing yet: say on the client’s page what brings him, or add it here"
        }
        C::FollowsFromComplaints => {
            "Follows from what the client came for, until something else is said"
        }
        C::NotLookedFor => "not looked for",
        C::LookForMore => "Look for something more",
        C::MustStay => "Stays as it is",
        C::Limits => "Limits",
        C::AimBy => "by",
        C::WhereHands => "hands",
        C::MostSpacers => "Spacers",
        C::MostMinutes => "Minutes",
        C::MostMoney => "Parts",
        C::EventRules => "within the rules of mass-start events; ask the organiser",
        C::InStockOnly => "only what is in stock",
        C::HeldAgainst => "Held against each other",
        C::NothingAgainst => {
            "None of them gives up one of these for the other, so there is no picture"
        }
        C::FewerMinutes => "fewer minutes in the workshop",
        C::FirstAxis => "to the right",
        C::SecondAxis => "upwards",
        C::Hint1 => "Tap a cockpit on the left.",
        C::Hint2 => {
            "Type or nudge its numbers on the right, or pull a round handle in the drawing."
        }
        C::Hint3 => "Keys 1 to 6 move the hands, Ctrl+Z takes anything back.",
    }
}
