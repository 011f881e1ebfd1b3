//! A change of every kind, with numbers that the trade sees and a few beyond. The matches have an arm for
//! each kind: a new one cannot be forgotten.

use acceptance::kinds::{
    AfterKind, CockpitKind, EditKind, InterviewKind, Kind, RideKind, TapeKind,
};
use fit_desk::{Command, Desk};
use fit_doc::edit::InterviewEdit;
use fit_doc::tape::{BarKnown, TapeSlip};
use fit_doc::{
    AfterEdit, Aim, AsBuilt, Bounds, CockpitEdit, Counts, Date, Dimension, Edit, Elsewhere, Extent,
    FingerPart, HandPlace, Helmet, Item, Joint, Liking, Looked, Price, Quantity, Reaches, RideEdit,
    RideNumber, RideRow, RuleOut, SendOn, Sex, Sight, Stays, Suppleness, TapeEdit, TapeItem,
    TapeReading, Visit, Wanted, Where,
};

const COCKPIT: [Quantity; 13] = [
    Quantity::Spacers,
    Quantity::Roll,
    Quantity::HandInDrops,
    Quantity::SaddleHeight,
    Quantity::NoseBehind,
    Quantity::SaddleTilt,
    Quantity::StemLength,
    Quantity::StemAngle,
    Quantity::BarReach,
    Quantity::BarDrop,
    Quantity::BarWidthAtHoods,
    Quantity::Flare,
    Quantity::TailLength,
];
const LEVER: [Quantity; 3] = [Quantity::LeverAlong, Quantity::LeverTurnIn, Quantity::LeverClicks];
const FRAME: [Quantity; 4] =
    [Quantity::FrameStack, Quantity::FrameReach, Quantity::HeadAngle, Quantity::Crank];

/// What is drawn for one thing done: a pick among many, where in a range, and yes or no.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Drawn {
    pub(crate) pick: usize,
    pub(crate) share: f64,
    pub(crate) flag: bool,
}

impl Drawn {
    /// One of some; `by` is another for each of several that are picked for one thing.
    fn of<T: Copy>(&self, by: usize, all: &[T]) -> T {
        all[self.pick / by % all.len()]
    }

    fn value(&self, quantity: Quantity) -> f64 {
        let (from, to) = quantity.range().ask;
        (10.0 * (from + (to - from) * self.share)).round() / 10.0
    }

    fn text(&self) -> String {
        format!("said {}", self.pick)
    }

    fn maybe<T>(&self, value: T) -> Option<T> {
        // what is taken away must have been there to be a change
        (!(self.pick / 64).is_multiple_of(4)).then_some(value)
    }
}

/// What a command does that is not an edit by itself.
pub(crate) const OTHERS: usize = 3;

/// Such a command.
pub(crate) fn other(desk: &Desk, which: usize, drawn: Drawn) -> Command {
    let id = any_id(desk.visit().unwrap(), drawn);
    match which {
        0 => {
            let bars = &desk.stock().bars;
            Command::AddFromStock(bars[drawn.pick % bars.len()].id.clone())
        }
        1 => Command::Duplicate(id),
        _ => {
            // what came or was ridden stays, and a copy is changed
            let quantity = drawn.of(7, &COCKPIT);
            let change = CockpitEdit::Number { quantity, to: drawn.value(quantity) };
            let label = format!("changed {}", drawn.pick);
            Command::Try { id, change, label, gesture: None }
        }
    }
}

fn any_id(at: &Visit, drawn: Drawn) -> String {
    let ids: Vec<&str> = at.cockpits().map(|c| c.id.as_str()).collect();
    drawn.of(1, &ids).to_owned()
}

/// A change of that kind, the last of these; before it what must be so first.
pub(crate) fn edits(desk: &Desk, kind: Kind, drawn: Drawn) -> Vec<Edit> {
    let visit = desk.look().visit;
    let at = desk.visit().unwrap();
    match kind {
        Kind::Of(kind) => of(desk, kind, drawn),
        Kind::Cockpit(kind) => {
            let change = cockpit(desk, kind, drawn);
            vec![Edit::Cockpit { visit, id: any_id(at, drawn), change }]
        }
        Kind::Interview(kind) => vec![Edit::Interview { visit, change: asked(kind, drawn) }],
        Kind::Ride(kind) => {
            let (running, change) = (at.ride(), ridden(kind, drawn));
            let ride = Edit::Ride {
                visit,
                at: running.map_or(at.rides.len(), |(index, _)| index),
                change,
            };
            let begun = running.is_none().then(|| start(visit, any_id(at, drawn)));
            begun.into_iter().chain([ride]).collect()
        }
        Kind::After(kind) => {
            let last = at.afterwards.len().checked_sub(1);
            let begun =
                last.is_none().then_some(Edit::After { visit, change: AfterEdit::Add(at.date) });
            let change = afterwards(kind, last.unwrap_or_default(), at.date, drawn);
            begun.into_iter().chain([Edit::After { visit, change }]).collect()
        }
        Kind::Tape(kind) => {
            let all = taped(kind, drawn).into_iter();
            all.map(|change| Edit::Tape { visit, change }).collect()
        }
        Kind::Built(kind) => {
            let all = taped(kind, drawn).into_iter();
            all.map(|change| Edit::Built { visit, change }).collect()
        }
    }
}

fn saddle_right_on(at: &Visit, visit: usize, label: String, id: String) -> Vec<Edit> {
    let put_right = at.put_right.is_none().then_some(Edit::PutSaddleRight { visit, label });
    put_right.into_iter().chain([Edit::SaddleRightOn { visit, id }]).collect()
}

fn of(desk: &Desk, kind: EditKind, drawn: Drawn) -> Vec<Edit> {
    let visit = desk.look().visit;
    let at = desk.visit().unwrap();
    let (pick, flag, text) = (drawn.pick, drawn.flag, drawn.text());
    let (id, bike) = (any_id(at, drawn), at.bike.clone());
    vec![match kind {
        EditKind::ClientName => Edit::ClientName(text),
        EditKind::ClientNotes => Edit::ClientNotes(text),
        EditKind::KeepUntil => Edit::KeepUntil(drawn.maybe(at.date)),
        EditKind::Sex => Edit::Sex(drawn.maybe(Sex::Female)),
        EditKind::Born => {
            let year = i16::try_from(1940 + pick % 60).unwrap();
            Edit::Born(drawn.maybe(year))
        }
        EditKind::BikeName => Edit::BikeName { bike, to: text },
        EditKind::Frame => {
            let quantity = drawn.of(1, &FRAME);
            Edit::Frame { bike, quantity, to: drawn.value(quantity) }
        }
        EditKind::Date => {
            let day = format!("2026-{:02}-{:02}", pick % 12 + 1, pick / 12 % 28 + 1);
            Edit::Date { visit, to: day.parse().unwrap() }
        }
        EditKind::Landmark => {
            let (from, to) = (Dimension::BiacromialBreadth.into(), Item::ShoulderJoints);
            let values = vec![drawn.value(Quantity::Body(from))];
            let read = Edit::Reading { visit, item: from, side: Where::Both, values };
            return vec![read, Edit::Landmark { visit, from, to }];
        }
        EditKind::Reading => read(visit, drawn),
        EditKind::Mobility => mobility(visit, drawn),
        EditKind::Seen => {
            let sight = drawn.of(1, &Sight::ALL);
            let place = drawn.of(5, &[HandPlace::Hoods, HandPlace::Drops]);
            let to = drawn.maybe(drawn.value(sight.quantity()));
            Edit::Seen { visit, cockpit: id, place, sight, to }
        }
        EditKind::HandCheck => {
            let side = drawn.of(1, &[Where::Left, Where::Right]);
            let to =
                drawn.of(2, &[None, Some(Reaches::Yes), Some(Reaches::Just), Some(Reaches::No)]);
            let part = drawn.of(8, &FingerPart::ALL);
            Edit::HandCheck { visit, cockpit: id, side, part, to }
        }
        EditKind::Glove => Edit::Glove { visit, to: drawn.value(Quantity::Glove) },
        EditKind::TakeTapeOver => {
            let read = taped(TapeKind::Reading, drawn).into_iter();
            let read = read.map(|change| Edit::Tape { visit, change });
            return read.chain([Edit::TakeTapeOver { visit }]).collect();
        }
        EditKind::FollowUp => return follow_up(at, visit),
        EditKind::TakeFollowUpBack => {
            let gone = Edit::TakeFollowUpBack { visit: desk.session().visits.len() };
            return follow_up(at, visit).into_iter().chain([gone]).collect();
        }
        EditKind::PutSaddleRight => Edit::PutSaddleRight { visit, label: text },
        EditKind::SaddleRightOn => return saddle_right_on(at, visit, text, id),
        EditKind::StartRide => start(visit, id),
        EditKind::RuledOut => {
            let to = drawn.maybe(drawn.of(8, &Looked::ALL));
            Edit::RuledOut { visit, item: drawn.of(3, &RuleOut::ALL), to }
        }
        EditKind::Complaints => {
            let mut to = at.complaints.clone();
            for complaint in &mut to {
                complaint.score = u8::try_from(pick % 11).ok().filter(|_| flag);
            }
            // never none: what is scored later is scored of these
            to.truncate(1 + pick / 11 % 2);
            Edit::Complaints { visit, to }
        }
        EditKind::Wishes => {
            let to = (0..pick % 3).map(|wish| format!("wish {wish} of {pick}")).collect();
            Edit::Wishes { visit, to }
        }
        EditKind::Wanted => Edit::Wanted { visit, to: wanted(drawn) },
        EditKind::Bounds => Edit::Bounds { visit, to: Box::new(bounds(drawn)) },
        EditKind::VisitNotes => Edit::VisitNotes { visit, to: text },
        EditKind::Add => {
            let cockpit = Box::new(at.cockpit(&id).unwrap().with_name("added", &text));
            Edit::Add { visit, cockpit }
        }
        EditKind::AddChanged => {
            let change = cockpit(desk, CockpitKind::Number, drawn);
            Edit::AddChanged { visit, like: id, label: text, change }
        }
        EditKind::Remove => Edit::Remove { visit, id },
        EditKind::Move => Edit::Move { visit, id, to: pick / 7 % 4 },
        EditKind::Choose => Edit::Choose { visit, id: drawn.maybe(id) },
        EditKind::Elsewhere => {
            Edit::Elsewhere { visit, to: drawn.maybe(drawn.of(3, &Elsewhere::ALL)) }
        }
        EditKind::Veto => Edit::Veto { visit, cockpit: id, to: drawn.maybe(text) },
        EditKind::Hour => Edit::Hour { visit, to: drawn.maybe(Price { cents: 6000 }) },
        // these have kinds of their own
        EditKind::Tape
        | EditKind::Built
        | EditKind::After
        | EditKind::Interview
        | EditKind::Ride
        | EditKind::Cockpit => return Vec::new(),
    }]
}

fn cockpit(desk: &Desk, kind: CockpitKind, drawn: Drawn) -> CockpitEdit {
    let stock = desk.stock();
    match kind {
        CockpitKind::Number => {
            let quantity = drawn.of(7, &COCKPIT);
            CockpitEdit::Number { quantity, to: drawn.value(quantity) }
        }
        CockpitKind::Slipped => {
            let slips = [Quantity::Roll, Quantity::LeverAlong, Quantity::SaddleHeight];
            let quantity = drawn.of(7, &slips);
            CockpitEdit::Slipped { quantity, to: drawn.value(quantity) }
        }
        CockpitKind::Lever => {
            let quantity = drawn.of(7, &LEVER);
            CockpitEdit::Lever { side: None, quantity, to: drawn.value(quantity).round() }
        }
        CockpitKind::Label => CockpitEdit::Label(drawn.text()),
        CockpitKind::Bar => {
            let bar = &stock.bars[drawn.pick / 7 % stock.bars.len()];
            CockpitEdit::Bar { bar: Box::new(bar.clone()), stem: None }
        }
        CockpitKind::Stem => {
            let stem = &stock.stems[drawn.pick / 7 % stock.stems.len()];
            CockpitEdit::Stem(Box::new(stem.clone()))
        }
        CockpitKind::Trial => {
            let (ahead_mm, up_mm) = (120.0 * drawn.share - 60.0, 40.0 - 80.0 * drawn.share);
            let place = drawn.of(1, &[HandPlace::Hoods, HandPlace::Drops]);
            CockpitEdit::Trial { place, ahead_mm, up_mm, name: "trial stem".into() }
        }
        CockpitKind::Levers => {
            let lever = &stock.levers[drawn.pick / 7 % stock.levers.len()];
            CockpitEdit::Levers(drawn.maybe(Box::new(lever.clone())))
        }
        CockpitKind::Ridden => CockpitEdit::Ridden(drawn.flag),
        CockpitKind::Settings => {
            let mut of = desk.visit().unwrap().as_it_came.clone();
            of.spacers_mm = drawn.value(Quantity::Spacers);
            of.roll_deg = drawn.value(Quantity::Roll);
            CockpitEdit::Settings { of: Box::new(of), place: HandPlace::Hoods }
        }
    }
}

/// How far a joint goes.
fn mobility(visit: usize, drawn: Drawn) -> Edit {
    let side = drawn.of(7, &[Where::Both, Where::Left, Where::Right]);
    let deg = drawn.value(Quantity::Mobility(Joint::Hip));
    let stiff = drawn.pick.is_multiple_of(5);
    let extent = if stiff { Extent::Said(Suppleness::Stiff) } else { Extent::Measured { deg } };
    let to = drawn.maybe((extent, drawn.pick.is_multiple_of(3)));
    Edit::Mobility { visit, joint: Joint::Hip, side, to }
}

/// Something read off the body.
fn read(visit: usize, drawn: Drawn) -> Edit {
    let items = [
        Item::from(Dimension::Stature),
        Dimension::HandLength.into(),
        Dimension::BiacromialBreadth.into(),
        Item::ShoulderJoints,
    ];
    let item = drawn.of(1, &items);
    let values = if drawn.flag { vec![drawn.value(Quantity::Body(item))] } else { vec![] };
    let sides = [Where::Both, Where::Left, Where::Right];
    let side = if item.has_sides() { drawn.of(4, &sides) } else { Where::Both };
    Edit::Reading { visit, item, side, values }
}

/// Something read with the tape, right or wrong.
fn taped(kind: TapeKind, drawn: Drawn) -> Vec<TapeEdit> {
    let item = drawn.of(8, &TapeItem::ALL);
    let of = drawn.of(1, item.ways());
    let to = drawn.value(Quantity::Tape(item));
    vec![match kind {
        TapeKind::Reading => TapeEdit::Reading { of, to: drawn.maybe(to) },
        TapeKind::Laid => {
            let item = TapeItem::ALL.into_iter().find(|item| item.ways().len() > 1).unwrap();
            let (one, other) = (item.ways()[0], item.ways()[1]);
            let to = Some(drawn.value(Quantity::Tape(item)));
            return vec![TapeEdit::Reading { of: one, to }, TapeEdit::Laid(other)];
        }
        TapeKind::NoseUp => TapeEdit::NoseUp(drawn.value(Quantity::NoseUp)),
        TapeKind::BarKnown => {
            TapeEdit::BarKnown(drawn.of(8, &[BarKnown::Measured, BarKnown::FamilyOnly]))
        }
        TapeKind::FrameKnown => TapeEdit::FrameKnown(drawn.flag),
        TapeKind::Mend => {
            let to = vec![TapeReading { of, value: to }];
            TapeEdit::Mend { slip: TapeSlip::CentimetresForMillimetres, to }
        }
    }]
}

/// Another visit; a trial that runs is over before.
fn follow_up(at: &Visit, visit: usize) -> Vec<Edit> {
    let over = at.ride().map(|(index, _)| {
        let change = RideEdit::End { minutes: Some(7) };
        Edit::Ride { visit, at: index, change }
    });
    over.into_iter().chain([Edit::FollowUp { visit, date: at.date }]).collect()
}

fn start(visit: usize, cockpit: String) -> Edit {
    let foretold = vec![RideNumber { row: RideRow::Trunk, place: HandPlace::Hoods, deg: 43.0 }];
    Edit::StartRide { visit, cockpit, foretold, brakes: Vec::new() }
}

/// Something of a trial is said or seen.
fn ridden(kind: RideKind, drawn: Drawn) -> RideEdit {
    match kind {
        RideKind::After => RideEdit::After { index: 0, to: Some(drawn.of(1, &[1, 3, 9])) },
        RideKind::Minutes => RideEdit::Minutes(drawn.maybe(4)),
        RideKind::Words => RideEdit::Words(drawn.text()),
        RideKind::Likes => RideEdit::Likes(drawn.maybe(Liking::Likes)),
        RideKind::Seen => {
            let (row, place) = (drawn.of(1, &RideRow::ALL), drawn.of(8, &HandPlace::ALL));
            RideEdit::Seen { row, place, to: drawn.maybe(drawn.value(row.quantity())) }
        }
        RideKind::End => RideEdit::End { minutes: drawn.maybe(7) },
        RideKind::TakeBack => RideEdit::TakeBack,
    }
}

/// Something is heard after the visit.
fn afterwards(kind: AfterKind, at: usize, date: Date, drawn: Drawn) -> AfterEdit {
    match kind {
        AfterKind::Add => AfterEdit::Add(date),
        AfterKind::Date => AfterEdit::Date { at, to: date.tomorrow().unwrap() },
        AfterKind::Km => AfterEdit::Km { at, to: drawn.maybe(310) },
        AfterKind::Score => AfterEdit::Score { at, index: 0, to: Some(drawn.of(1, &[1, 3, 9])) },
        AfterKind::AsBuilt => AfterEdit::AsBuilt { at, to: drawn.of(8, &AsBuilt::ALL) },
        AfterKind::Words => AfterEdit::Words { at, to: drawn.text() },
        AfterKind::TakeBack => AfterEdit::TakeBack { at },
    }
}

/// Something that the client was asked.
fn asked(kind: InterviewKind, drawn: Drawn) -> InterviewEdit {
    match kind {
        InterviewKind::ChangedBefore => InterviewEdit::ChangedBefore(drawn.text()),
        InterviewKind::Riding => InterviewEdit::Riding(drawn.text()),
        InterviewKind::Hours => {
            InterviewEdit::Hours(drawn.maybe(drawn.value(Quantity::HoursPerWeek)))
        }
        InterviewKind::Share => {
            InterviewEdit::Share { place: drawn.of(8, &HandPlace::ALL), to: drawn.maybe(40) }
        }
        InterviewKind::Glasses => InterviewEdit::Glasses(drawn.flag),
        InterviewKind::Helmet => InterviewEdit::Helmet(drawn.maybe(drawn.of(16, &Helmet::ALL))),
        InterviewKind::Injuries => InterviewEdit::Injuries(drawn.text()),
        InterviewKind::Fears => InterviewEdit::Fears(drawn.text()),
        InterviewKind::RedFlag => {
            InterviewEdit::RedFlag { of: drawn.of(8, &SendOn::ALL), on: drawn.flag }
        }
        InterviewKind::Consent => InterviewEdit::Consent(drawn.flag),
    }
}

/// Some aims, none twice; sometimes with the place or the millimetres that one may not have.
fn wanted(drawn: Drawn) -> Vec<Wanted> {
    let some = (0..drawn.pick % 4).map(|nth| {
        let aim = Aim::ALL[(drawn.pick / 5 + 3 * nth) % Aim::ALL.len()];
        Wanted {
            aim,
            place: drawn.maybe(drawn.of(3, &HandPlace::ALL)).filter(|_| aim.is_of_a_place()),
            by_mm: drawn
                .maybe(drawn.value(Quantity::AimBy))
                .filter(|_| aim.is_by_mm() || drawn.pick.is_multiple_of(9)),
            counts: drawn.of(7, &Counts::ALL),
        }
    });
    some.collect()
}

/// What an answer may not leave; spans sometimes backwards.
fn bounds(drawn: Drawn) -> Bounds {
    let span = |quantity| {
        let (least, most) = (drawn.value(quantity), quantity.range().ask.1);
        drawn.maybe((least, most))
    };
    let not = drawn.pick.is_multiple_of(2);
    Bounds {
        stays: Stays::ALL.into_iter().take(drawn.pick / 3 % 4).collect(),
        width_mm: span(Quantity::BarWidthAtHoods),
        stem_mm: span(Quantity::StemLength),
        spacers_mm: (!not).then(|| drawn.value(Quantity::Spacers)),
        money: drawn.maybe(Price { cents: 10_000 }),
        minutes: (!not).then_some(60),
        in_stock_only: drawn.flag,
        event_rules: not,
    }
}
