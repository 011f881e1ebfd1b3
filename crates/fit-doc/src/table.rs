//! Tables of stock as a spreadsheet has them: which there are, their columns, and what can be wrong
//! with a cell.
//!
//! Ids with arguments; the view words them. The header of a column carries its unit. Nothing is read
//! or written here.

use crate::{Message, Spot};
use core::fmt;

/// Which list of the stock.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum StockList {
    /// Bars.
    Bars,
    /// Stems.
    Stems,
    /// Levers.
    Levers,
}

impl StockList {
    /// All.
    pub const ALL: [Self; 3] = [Self::Bars, Self::Stems, Self::Levers];

    /// The `kind` that the list names itself by.
    pub fn kind(self) -> &'static str {
        match self {
            Self::Bars => "barwright-stock-bars",
            Self::Stems => "barwright-stock-stems",
            Self::Levers => "barwright-stock-levers",
        }
    }

    /// What its files are called, without their ending.
    pub fn file_stem(self) -> &'static str {
        match self {
            Self::Bars => "bars",
            Self::Stems => "stems",
            Self::Levers => "levers",
        }
    }

    /// The columns of its table, in the order in which they are written, and whether a table must
    /// have them.
    pub fn columns(self) -> &'static [(TableColumn, bool)] {
        match self {
            Self::Bars => BARS,
            Self::Stems => STEMS,
            Self::Levers => LEVERS,
        }
    }
}

impl fmt::Display for StockList {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::Bars => "list of bars",
            Self::Stems => "list of stems",
            Self::Levers => "list of levers",
        })
    }
}

/// A column of a table.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
#[expect(missing_docs, reason = "each is the field of a part that its name says")]
pub enum TableColumn {
    Id,
    Name,
    Price,
    InStock,
    KnownBy,
    Family,
    Proportions,
    Reach,
    Drop,
    Width,
    WidthAt,
    WidthHow,
    Flare,
    EndsWidth,
    FlareFrom,
    Backsweep,
    Rise,
    RampSlope,
    RampOutsweep,
    TailSlope,
    TailLength,
    Outsweep,
    ForwardBendRadius,
    ClampDiameter,
    TopsDiameter,
    TopsDepth,
    DropsDiameter,
    ClampZone,
    NoLevers,
    OwnStemLength,
    OwnStemAngle,
    OwnStemClampHeight,
    Tolerance,
    Length,
    Angle,
    Reversible,
    ClampHeight,
    BarDiameter,
    SteererDiameter,
    Sort,
    Grip,
    HoodSlope,
    GripRadius,
    ClampWidth,
    Pivot,
    BladeLength,
    Usable,
    RestAngle,
    Adjuster,
    FreeTravel,
    HoodOutline,
}

use TableColumn as C;

const BARS: &[(C, bool)] = &[
    (C::Id, true),
    (C::Name, true),
    (C::Family, true),
    (C::Width, true),
    (C::WidthAt, true),
    (C::WidthHow, true),
    (C::Reach, true),
    (C::Drop, true),
    (C::RampSlope, true),
    (C::TailSlope, true),
    (C::TailLength, true),
    (C::Flare, false),
    (C::EndsWidth, false),
    (C::FlareFrom, false),
    (C::Outsweep, false),
    (C::Backsweep, false),
    (C::Rise, false),
    (C::RampOutsweep, false),
    (C::ForwardBendRadius, false),
    (C::ClampDiameter, false),
    (C::TopsDiameter, false),
    (C::TopsDepth, false),
    (C::DropsDiameter, false),
    (C::ClampZone, false),
    (C::NoLevers, false),
    (C::OwnStemLength, false),
    (C::OwnStemAngle, false),
    (C::OwnStemClampHeight, false),
    (C::Proportions, false),
    (C::Tolerance, false),
    (C::Price, false),
    (C::InStock, true),
    (C::KnownBy, false),
];

const STEMS: &[(C, bool)] = &[
    (C::Id, true),
    (C::Name, true),
    (C::Length, true),
    (C::Angle, true),
    (C::Reversible, true),
    (C::ClampHeight, true),
    (C::BarDiameter, true),
    (C::SteererDiameter, true),
    (C::Price, false),
    (C::InStock, true),
    (C::KnownBy, false),
];

const LEVERS: &[(C, bool)] = &[
    (C::Id, true),
    (C::Name, true),
    (C::Sort, true),
    (C::Grip, true),
    (C::HoodSlope, true),
    (C::GripRadius, true),
    (C::ClampWidth, true),
    (C::Pivot, true),
    (C::BladeLength, true),
    (C::Usable, true),
    (C::RestAngle, true),
    (C::Adjuster, true),
    (C::FreeTravel, true),
    (C::HoodOutline, true),
    (C::Price, false),
    (C::InStock, true),
    (C::KnownBy, false),
];

impl TableColumn {
    /// What stands in the header, unit included.
    pub fn name(self) -> &'static str {
        match self {
            C::Id => "id",
            C::Name => "name",
            C::Price => "price",
            C::InStock => "in_stock",
            C::KnownBy => "known_by",
            C::Family => "family",
            C::Proportions => "proportions",
            C::Reach => "reach_mm",
            C::Drop => "drop_mm",
            C::Width => "width_mm",
            C::WidthAt => "width_at",
            C::WidthHow => "width_how",
            C::Flare => "flare_deg",
            C::EndsWidth => "ends_width_mm",
            C::FlareFrom => "flare_from",
            C::Backsweep => "backsweep_deg",
            C::Rise => "rise_deg",
            C::RampSlope => "ramp_slope_deg",
            C::RampOutsweep => "ramp_outsweep_deg",
            C::TailSlope => "tail_slope_deg",
            C::TailLength => "tail_length_mm",
            C::Outsweep => "outsweep_deg",
            C::ForwardBendRadius => "forward_bend_radius_mm",
            C::ClampDiameter => "clamp_diameter_mm",
            C::TopsDiameter => "tops_diameter_mm",
            C::TopsDepth => "tops_depth_mm",
            C::DropsDiameter => "drops_diameter_mm",
            C::ClampZone => "clamp_zone_mm",
            C::NoLevers => "no_levers",
            C::OwnStemLength => "stem_length_mm",
            C::OwnStemAngle => "stem_angle_deg",
            C::OwnStemClampHeight => "stem_clamp_height_mm",
            C::Tolerance => "tolerance_mm",
            C::Length => "length_mm",
            C::Angle => "angle_deg",
            C::Reversible => "reversible",
            C::ClampHeight => "clamp_height_mm",
            C::BarDiameter => "bar_diameter_mm",
            C::SteererDiameter => "steerer_diameter_mm",
            C::Sort => "sort",
            C::Grip => "grip_mm",
            C::HoodSlope => "hood_slope_deg",
            C::GripRadius => "grip_radius_mm",
            C::ClampWidth => "clamp_width_mm",
            C::Pivot => "pivot_mm",
            C::BladeLength => "blade_length_mm",
            C::Usable => "usable_mm",
            C::RestAngle => "rest_angle_deg",
            C::Adjuster => "adjuster_deg",
            C::FreeTravel => "free_travel_mm",
            C::HoodOutline => "hood_outline_mm",
        }
    }

    /// Its name with the lengths in cm; none where it holds no lengths.
    pub fn name_in_cm(self) -> Option<String> {
        self.name().strip_suffix("_mm").map(|stem| format!("{stem}_cm"))
    }
}

/// What a cell should hold.
#[derive(Debug, Clone, PartialEq)]
pub enum TableWants {
    /// Any text with a letter or digit.
    Text,
    /// A number; with a comma for its mark only where the table is not parted by commas.
    Number {
        /// A comma may be the mark.
        comma: bool,
    },
    /// A whole number that is not negative.
    Count,
    /// Money: a number that is not negative, with at most two decimals.
    Money,
    /// Yes or no.
    YesNo,
    /// One of some words.
    OneOf(&'static [&'static str]),
    /// So many numbers with blanks between them.
    Numbers {
        /// How many; none: any.
        count: Option<usize>,
    },
    /// At least so many points, each two numbers, with strokes between them.
    Points {
        /// How many at least.
        least: usize,
    },
    /// A stretch of a brake blade that lies on it.
    OnTheBlade {
        /// The blade's length, mm.
        length_mm: f64,
    },
    /// Nought first: the first click is the blade at rest.
    FirstNought,
    /// No blank at its beginning or end.
    NoOuterBlanks,
}

/// What is wrong at a place of a table.
#[derive(Debug, Clone, PartialEq)]
pub enum TableSlip {
    /// There is no header, or nothing under it.
    NothingThere,
    /// Not UTF-8 text.
    NotText,
    /// More bytes than are read.
    TooLarge {
        /// The most.
        most: u64,
    },
    /// More rows than are read.
    TooManyRows {
        /// The most.
        most: usize,
    },
    /// The header is that of no table.
    NoSuchTable,
    /// The header names a column that there is not.
    UnknownColumn {
        /// The column that is like it.
        near: Option<String>,
    },
    /// The header names a column twice.
    ColumnTwice,
    /// The header lacks a column.
    MissingColumn,
    /// A quotation mark that is never closed.
    OpenQuote,
    /// Something between a closing quotation mark and the end of its cell.
    BehindQuote,
    /// Fewer cells than the header has.
    TooFewCells {
        /// How many.
        found: usize,
        /// How many there should be.
        wanted: usize,
    },
    /// Something stands in a column without a header.
    NoHeader {
        /// What.
        found: String,
    },
    /// A number that a comma may have cut in two: the cells are parted by commas.
    MayBeOne {
        /// Both cells.
        found: String,
        /// The number that may be meant.
        meant: String,
    },
    /// A length that no part has, and ten times of which is usual.
    MayBeCm {
        /// What stands there.
        found: f64,
        /// The name of the column with its lengths in cm.
        column: String,
    },
    /// Nothing stands where something must.
    Blank {
        /// What should.
        wants: TableWants,
    },
    /// Something else than what should stand there.
    Wrong {
        /// What stands there.
        found: String,
        /// What should.
        wants: TableWants,
    },
    /// Two of which only one can be.
    NotBoth {
        /// What stands there.
        found: String,
        /// The other column.
        other: &'static str,
    },
    /// The stock number stands in an earlier row as well.
    IdTwice {
        /// In which line.
        first: usize,
    },
    /// A part of that stock number is in stock already.
    InStock,
    /// What the check of the document says.
    Said(Box<Message>),
}

/// What is wrong, and where.
#[derive(Debug, Clone, PartialEq)]
pub struct TableFault {
    /// In which line of the file, counted from 1; a cell that runs over several lines begins there.
    pub line: usize,
    /// In which column, as the header has it; none where it is about the whole line.
    pub column: Option<String>,
    /// What.
    pub slip: TableSlip,
}

/// What is done with a part whose stock number is in stock already.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum IfKnown {
    /// Say so, and take nothing in.
    #[default]
    Ask,
    /// The new one takes its place.
    Replace,
    /// The old one stays.
    Keep,
}

/// What came in.
#[derive(Debug, Clone, PartialEq)]
pub struct BroughtIn {
    /// Which list it went to.
    pub list: StockList,
    /// So many that were not in stock.
    pub new: usize,
    /// So many that took the place of one that was.
    pub replaced: usize,
    /// So many that were left out, since one was there.
    pub left_out: usize,
    /// What is seldom right, line by line; the first of it.
    pub asked: Vec<TableFault>,
}

/// Why nothing was brought in.
#[derive(Debug, Clone, PartialEq)]
pub enum NotBroughtIn {
    /// The table could not be read, or the list that it goes to not written.
    File(Box<Message>),
    /// The table is a folder, a device or a pipe.
    NoTable,
    /// What is wrong in the table, in the order of its lines.
    Rows(Vec<TableFault>),
    /// The shop's own list that it would go to cannot be read: what is in it would be lost.
    Broken(Box<BrokenList>),
    /// The shop's own list would have more bytes than are read.
    ListTooLarge {
        /// The most.
        most: u64,
    },
    /// Another window or command is bringing something in.
    InHand,
}

/// A list of the shop's own that cannot be read, and is left out.
#[derive(Debug, Clone, PartialEq)]
pub enum BrokenList {
    /// Its file cannot be.
    File(Message),
    /// Its text does not read as a list.
    Text {
        /// Its path.
        path: String,
        /// Where.
        spot: Spot,
        /// In which entry, where that is known.
        entry: Option<String>,
        /// What was found there, in English.
        found: String,
        /// What was expected, in English.
        expected: String,
    },
}
