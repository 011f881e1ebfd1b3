//! The fixed texts of the window, by what they stand for.

/// A text without arguments.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Caption {
    /// Short name of the cockpit that a client arrived with.
    CameLabel,
    /// What a new client's bike is called until somebody says.
    NewBike,
    /// A client without a name yet.
    Untitled,
    /// Opens the menu.
    Menu,
    /// There are changes that no file holds.
    Modified,
    /// The file may not be saved over.
    OnlyToLookAt,
    /// All changes are in the file.
    Saved,
    /// Under a typed number that the desk refused.
    NotTaken,
    /// A key did nothing, because a field holds what was not taken.
    FieldFirst,
    /// Nothing was saved yet.
    NoFile,
    /// A place of work.
    RoomWho,
    /// A place of work.
    RoomBody,
    /// A place of work.
    RoomBike,
    /// A place of work.
    RoomBench,
    /// A place of work.
    RoomLater,
    /// Name of the place where it is decided.
    RoomDecide,
    /// Heading over the cockpit that is ridden, or was last.
    OnTheBikeNow,
    /// Beside the differences: nothing was read off the body.
    AllEstimated,
    /// Before the file that Enter opens.
    EnterOpens,
    /// Before the bar that Enter takes.
    EnterTakes,
    /// Heading over the cockpit that is looked at.
    ProposedHere,
    /// The same where the fit stops and nothing is proposed.
    LookedAtHere,
    /// Heading over the cockpit that was chosen.
    ChosenHere,
    /// Heading over the cockpits, the least work first.
    WhatToChoose,
    /// The same where the fit stops and nothing is chosen.
    KeptForLater,
    /// Heading over the jobs.
    WhatIsDone,
    /// The same of what was chosen before the fit stopped.
    WhatWasNoted,
    /// Before time and money in all.
    InAll,
    /// Heading over what stays as it is.
    StaysAsItIs,
    /// Nothing has to be done.
    NothingToDo,
    /// The client will not have it.
    WillNotDo,
    /// Why not.
    WillNotDoWhy,
    /// Heading over where else it may lie.
    ElsewhereHeading,
    /// The price of an hour.
    HourPrice,
    /// Chosen: the cockpit as it came.
    LeaveIt,
    /// Heading over complaints and wishes on the bench.
    CameFor,
    /// Heading over the cockpits.
    OnTheBench,
    /// Button.
    AddFromStock,
    /// Button.
    Duplicate,
    /// Button.
    Remove,
    /// Button.
    Choose,
    /// Button.
    Unchoose,
    /// Mark on the chosen cockpit.
    Chosen,
    /// Heading over the hand places.
    Hands,
    /// Button.
    AllHands,
    /// Choice: the differences of all cockpits.
    AllCockpits,
    /// Choice: what stands behind those of the selected one.
    Behind,
    /// Button: opens what "same" and the brackets of the differences mean, or which limits are met.
    WhatItMeans,
    /// Choice: compared with the one that was ridden last.
    AgainstTrial,
    /// The hoods with bent elbows.
    ElbowsBent,
    /// Heading over the hold points.
    Hold,
    /// Button.
    HoldAxle,
    /// Button.
    HoldClamp,
    /// Button.
    HoldHoods,
    /// Button.
    HoldDrops,
    /// Button.
    ZoomIn,
    /// Button.
    ZoomOut,
    /// Button.
    ZoomFit,
    /// Heading over the selected cockpit.
    Settings,
    /// Field.
    Label,
    /// Heading.
    Bar,
    /// Button.
    OtherBar,
    /// Opens the numbers of the bar itself.
    BarNumbers,
    /// Before the buttons that bring a hand place back.
    BringBack,
    /// Heading.
    Width,
    /// Heading.
    Stem,
    /// Heading.
    Levers,
    /// Choice.
    NoLevers,
    /// Button.
    TurnStemOver,
    /// Heading.
    Saddle,
    /// Heading.
    Frame,
    /// Heading.
    AsItCame,
    /// Heading.
    Client,
    /// Field.
    Name,
    /// Field.
    BornIn,
    /// Field.
    Sex,
    /// Choice.
    Male,
    /// Choice.
    Female,
    /// Choice.
    NotGiven,
    /// Field.
    Notes,
    /// Heading.
    VisitHeading,
    /// Field.
    VisitDay,
    /// Until when the client agreed that the session is kept.
    KeepUntil,
    /// Field.
    VisitNotes,
    /// Field.
    Wishes,
    /// Heading.
    Complaints,
    /// Button.
    RemoveComplaint,
    /// Field.
    Side,
    /// Field.
    HowBad,
    /// Field.
    ItsWords,
    /// Choice.
    AnyPlace,
    /// Heading.
    Readings,
    /// Heading.
    Mobility,
    /// Heading over joints whose left and right differ.
    EachSide,
    /// Opens the readings of left and right.
    ReadEachSide,
    /// Opens the weight.
    WeightApart,
    /// Before the choice of a landmark.
    FeltAt,
    /// Choice: the outer edges of the shoulder blades.
    OuterEdges,
    /// Choice: the shoulder joints.
    TheJoints,
    /// A joint that hurts at the end of its range.
    Painful,
    /// Heading.
    SeenOnTheBike,
    /// Button: a copy of the cockpit as it came whose saddle is put right.
    PutSaddleRight,
    /// Button: that saddle goes onto a cockpit that has it as it came.
    SaddleRightOn,
    /// Over the numbers of that saddle, beside those of the one as it came.
    PutRight,
    /// Heading over what is read off the bike with the tape.
    TapeHeading,
    /// Opens what is worth reading besides.
    TapeBesides,
    /// Opens how the readings are used.
    TapeHow,
    /// Button.
    TapeTake,
    /// Of a cockpit that was ridden before the saddle was changed.
    RiddenOldSaddle,
    /// Button that leads to the bike nobody has measured.
    MeasureBike,
    /// Button that leads to readings that do not go together.
    LookAtTape,
    /// Name of the choice how the tape was laid.
    TapeLaid,
    /// Before the choice how the bar is known.
    BarNumbersKnown,
    /// Before the choice whether the frame’s numbers are known.
    FrameNumbers,
    /// Button: the frame’s numbers are used.
    FrameKnown,
    /// Heading over what of the frame is seldom asked.
    FrameBesides,
    /// Button: to where the stem's numbers stand.
    LookAtStem,
    /// Button beside stem and spacers that nobody has read: they are as they stand there.
    StemIsSo,
    /// Beside a heading: numbers under it are faded, since nobody has read them yet.
    FadedNotRead,
    /// Beside a cockpit's name: some of its numbers nobody has read yet.
    NotAllRead,
    /// Button: the frame’s numbers are found.
    FrameToFind,
    /// What a stem that is only a position is called.
    TrialStem,

    /// What that copy is called.
    SaddlePutRight,
    /// Heading.
    MoreReadings,
    /// Heading of the list of bars.
    StockHeading,
    /// Field.
    Search,
    /// Button.
    Cancel,
    /// The width of a bend that is nearest to the client's shoulders.
    FirstWidth,
    /// A cockpit with more spacers than the one that the client came with.
    MoreSpacers,
    /// Question.
    SaveFirst,
    /// Under the question.
    SaveFirstWhy,
    /// The question before another file is written over.
    ReplaceFile,
    /// What it means.
    ReplaceFileWhy,
    /// Heading of the question of what becomes of a file that somebody else has changed.
    FileChanged,
    /// Why it is asked.
    FileChangedWhy,
    /// The same of one that somebody else has taken away.
    FileTakenAway,
    /// Why it is asked.
    FileTakenAwayWhy,
    /// Button: save beside it and go on there.
    KeepBoth,
    /// Button: save in its place.
    PutMine,
    /// Button: save beside it and open what is there.
    OpenTheirs,
    /// Button: save where it was.
    SaveThereAgain,
    /// A passphrase to type.
    Passphrase,
    /// Heading of the question for the passphrase of a file.
    PassphraseAsked,
    /// Why it is asked.
    PassphraseNeeded,
    /// The one that was typed is another.
    PassphraseWrong,
    /// One is being tried.
    PassphraseTried,
    /// Of a session of which nothing else is known.
    UnderPassphrase,
    /// Heading where one is set.
    PassphraseSet,
    /// Heading where it is changed or removed.
    PassphraseChange,
    /// What it means to have one.
    PassphraseCaution,
    /// A new one to type.
    PassphraseNew,
    /// The same once more.
    PassphraseAgain,
    /// The two are not the same.
    PassphraseDiffers,
    /// The session is being put under it.
    PassphrasePut,
    /// Button.
    DoSetPassphrase,
    /// Button.
    DoChangePassphrase,
    /// Button.
    RemovePassphrase,
    /// What follows from that.
    RemovePassphraseWhy,
    /// Button, once that was read.
    DoRemovePassphrase,
    /// It was done.
    IsUnderPassphrase,
    /// It was removed.
    IsPlain,
    /// Heading of the clients of a folder who were found.
    InFolder,
    /// Heading of which table of parts to bring in.
    TableIn,
    /// What it may hold.
    TableInWhy,
    /// Button: bring it in.
    TableDoIn,
    /// Heading of a table of which nothing was brought in.
    TableRefused,
    /// Button: read it once more.
    TableAgain,
    /// Heading of a table with parts that are in stock already.
    TableKnown,
    /// What is asked about them.
    TableKnownWhy,
    /// Button: bring in the others.
    TableKeep,
    /// Button: those of the table take their place.
    TableReplace,
    /// Heading of what can be opened in the place of a file that cannot.
    FileBroken,
    /// What is offered there.
    FileBrokenWhy,
    /// Button: look at the file as it is.
    LookAtBroken,
    /// Button: open nothing.
    LeaveBroken,
    /// Heading of what was not saved when a window ended.
    LeftOver,
    /// What is offered there.
    LeftOverWhy,
    /// It is of no file yet.
    OfNoFile,
    /// In its place and the client's: it cannot be read whose it is.
    OfNobodyKnows,
    /// It is the same as its file.
    NothingDiffers,
    /// The file of what was not saved is no longer where it was.
    LeftOverGone,
    /// Its file holds the session of another client.
    OfAnother,
    /// Its file holds something else than what this was begun on: saving asks.
    SavedSince,
    /// Button: put it on the desk.
    TakeUp,
    /// Button: do away with it.
    ThrowAway,
    /// Once that was pressed: it cannot be taken back.
    ThrowAwaySure,
    /// Button: do away with it, once more.
    ThrowAwayYes,
    /// Button: keep it after all.
    ThrowAwayNo,
    /// Button: ask again at the next start.
    NextTime,
    /// Button.
    DoReplace,
    /// Button.
    AnotherName,
    /// Beside a recent file that is no longer there.
    FileGone,
    /// Which visit is looked at.
    WhichVisit,
    /// Button.
    AnswerSave,
    /// Button.
    AnswerDiscard,
    /// Button, where the window is being closed.
    CloseDiscard,
    /// Heading.
    Open,
    /// Heading.
    SaveAs,
    /// Field.
    PathField,
    /// Button.
    Browse,
    /// Button.
    DoOpen,
    /// Button.
    DoSave,
    /// Heading.
    Recent,
    /// Button.
    ClearRecent,
    /// Heading: a client is to be taken away for good.
    Erase,
    /// Over what would go.
    EraseWhy,
    /// It is being looked for, or taken away.
    EraseBusy,
    /// Button: it goes.
    DoErase,
    /// Heading: all of it went.
    IsErased,
    /// Heading: not all of it went.
    NotErased,
    /// On it: a thread has been at a file for too long.
    EraseWaits,
    /// Behind why: nothing of the client is gone.
    NothingErased,
    /// Behind why: only what was not saved is gone.
    DeskErased,
    /// Button: what is shown goes to the clipboard.
    CopyText,
    /// What an earlier content is, and that it is only looked at.
    EarlierWhy,
    /// Button that closes a message.
    Dismiss,
    /// Field.
    PaletteHint,
    /// Heading.
    KeysHeading,
    /// Button.
    CloseThis,
    /// Small heading: how bad it is after a trial.
    AfterIt,
    /// Button: a trial never was.
    TakeBack,
    /// Small heading over earlier trials.
    Trials,
    /// Small heading: whether the brakes are reached on a trial.
    BrakesOnIt,
    /// Heading: what is seen on a trial.
    SeenOnIt,
    /// Accessible name: with which part of the finger.
    WithPart,
    /// Heading over the outline of the body.
    Brings,
    /// Beside it: which way it looks.
    FromBehind,
    /// Where nothing was said yet.
    NoComplaints,
    /// Field.
    SinceWhen,
    /// Heading: the saddle before the hands.
    SaddleFirst,
    /// It was looked at.
    SaddleLookedAt,
    /// Heading: what is tried after ruling out.
    ThenInOrder,
    /// Small heading.
    CanComeOfIt,
    /// Small heading.
    WhoElse,
    /// Heading: what sends on.
    AskedAtOnce,
    /// Heading.
    Riding,
    /// Field.
    WhatIsRidden,
    /// Field.
    ChangedBefore,
    /// Field.
    Injuries,
    /// Field.
    Fears,
    /// Tick.
    Glasses,
    /// Before the choice what is worn on the head.
    Helmet,
    /// Choice: nobody asked.
    NotAsked,
    /// Tick.
    Consent,
    /// Button: measure between two points.
    Ruler,
    /// Button: the measures of the selected cockpit.
    Measures,
    /// Title of the client's own window.
    ForClient,
    /// Button: from the client's view back to the workbench.
    Back,
    /// Button: speak of the cockpit before.
    CockpitBefore,
    /// Button: speak of the next cockpit.
    CockpitAfter,
    /// Heading of the inset.
    WholeRider,
    /// Heading over doubts.
    Asked,
    /// Button: what of the shop is worth trying.
    WorthTrying,
    /// Heading over what of the shop is worth trying.
    FromTheShop,
    /// Button: back to the set-up of the cockpit.
    SetUp,
    /// Button: begin to look through the shop.
    LookThrough,
    /// Button: look through the shop once more.
    LookAgain,
    /// Button: back to what is looked for.
    LookForOther,
    /// Before answers that are of one idea with the one above.
    LikeIt,
    /// Opens what was counted and not offered.
    LeftOut,
    /// Before what has to be on the bike when a trial begins.
    MustBeMounted,
    /// How much it counts that the hoods stay.
    HoodsStayCounts,
    /// Leads back from what is held against each other.
    ToTheDrawing,
    /// Leads to where it is noted that the saddle was looked at.
    GoToTheSaddle,
    /// How far a search has come.
    LookingThrough,
    /// Button: stop it.
    StopLooking,
    /// Heading over questions of one press.
    AskedInPassing,
    /// Where the document is another than it was when the shop was looked through.
    ChangedSince,
    /// Button: an answer that is on the bench is spoken of.
    ShowOnBench,
    /// Button: an answer becomes a candidate.
    PutOnBench,
    /// Heading over what a cockpit is looked for.
    LookedFor,
    /// Where nothing is.
    NothingLookedFor,
    /// Nothing at the bar follows from what brought the client.
    NothingFollows,
    /// Where what is looked for was not said.
    FollowsFromComplaints,
    /// Button: it is no longer looked for.
    NotLookedFor,
    /// Choice: one thing more.
    LookForMore,
    /// Heading over what may not be changed.
    MustStay,
    /// What may be opened: how much an answer may need.
    Limits,
    /// Field: how far an aim is wanted.
    AimBy,
    /// Choice: where the hands are meant.
    WhereHands,
    /// Field: the most spacers.
    MostSpacers,
    /// Field: the most minutes.
    MostMinutes,
    /// Field: the most that parts cost.
    MostMoney,
    /// Tick: nothing outside the rules of events.
    EventRules,
    /// Tick: nothing that must be ordered.
    InStockOnly,
    /// Heading over two things that are held against each other.
    HeldAgainst,
    /// Where one answer is best in both.
    NothingAgainst,
    /// Axis: minutes in the workshop.
    FewerMinutes,
    /// Choice of the axis that goes right.
    FirstAxis,
    /// Choice of the axis that goes up.
    SecondAxis,
    /// First hint.
    Hint1,
    /// Second hint.
    Hint2,
    /// Third hint.
    Hint3,
}
