//! What is said of stock that comes in from tables and goes out to them, in English.

use super::English;
use super::message::{megabytes, message};
use super::number::{mm, plain};
use crate::words::StockWords;
use fit_doc::{
    BrokenList, BroughtIn, NotBroughtIn, StockList, TableColumn, TableFault, TableSlip, TableWants,
};

impl StockWords for English {
    fn stock_list(&self, list: StockList) -> &'static str {
        match list {
            StockList::Bars => "Bars",
            StockList::Stems => "Stems",
            StockList::Levers => "Levers",
        }
    }

    fn tables_are(&self) -> &'static str {
        "A table is UTF-8 text with a header and a row for each part: a bar in several widths is a row \
         for each. Cells are parted by commas, semicolons or tabs, whichever the header has; with \
         semicolons or tabs a number may have a comma for its point. Columns may stand in any order. \
         What ends in _mm may end in _cm instead, and is then in centimetres. Lists stand in square \
         brackets with blanks between their numbers, points with a stroke between them: [1 2 / 3 4]. A \
         text that begins with = + - @ or ' is written with ' before it, so that no spreadsheet works it \
         out, and is read without."
    }

    fn column_holds(&self, column: TableColumn) -> &'static str {
        holds(column)
    }

    fn may_be_blank(&self, holds: &str) -> String {
        format!("{holds} (may be left out)")
    }

    fn table_fault(&self, fault: &TableFault) -> String {
        let said = slip(&fault.slip);
        match &fault.column {
            Some(column) => format!("Line {}, column {column}: {said}", fault.line),
            None => format!("Line {}: {said}", fault.line),
        }
    }

    fn brought_in(&self, brought: &BroughtIn) -> String {
        let BroughtIn { list, new, replaced, left_out, .. } = brought;
        let one = match list {
            StockList::Bars => ["bar", "bars"],
            StockList::Stems => ["stem", "stems"],
            StockList::Levers => ["lever", "levers"],
        };
        let of = |count: usize| format!("{count} {}", one[usize::from(count != 1)]);
        let mut parts = vec![format!("{} brought in", of(*new))];
        if *replaced > 0 {
            parts.push(format!("{replaced} in the place of what was there"));
        }
        if *left_out > 0 {
            parts.push(format!("{left_out} left out, since they were there"));
        }
        parts.join(", ")
    }

    fn not_brought_in(&self, file: &str, why: &NotBroughtIn) -> String {
        match why {
            NotBroughtIn::File(of) => format!("Nothing was brought in. {}", message(of)),
            NotBroughtIn::NoTable => format!(
                "Nothing was brought in: {file} is a folder or a device, not a file. Name a table (CSV) of \
                 bars, stems or levers."
            ),
            NotBroughtIn::Rows(faults) if faults.iter().all(|of| of.slip == TableSlip::InStock) => {
                format!(
                    "Nothing was brought in: parts of {file} are in stock already. Say whether they take \
                     the place of those (--replace) or are left out (--keep):"
                )
            }
            NotBroughtIn::Rows(_) => format!(
                "Nothing was brought in: {file} holds what cannot be taken. Correct these and bring it in \
                 again:"
            ),
            NotBroughtIn::Broken(broken) => format!(
                "Nothing was brought in, since what is in the shop’s own list would be lost. {}",
                self.broken_list(broken)
            ),
            NotBroughtIn::ListTooLarge { most } => format!(
                "Nothing was brought in: the shop’s own list would have more than {}. Bring in what can \
                 be sold only.",
                megabytes(*most)
            ),
            NotBroughtIn::InHand => {
                "Nothing was brought in: another window or command is bringing \
                                     something in. Try it again."
                    .to_owned()
            }
        }
    }

    fn broken_list(&self, broken: &BrokenList) -> String {
        match broken {
            BrokenList::File(of) => {
                format!("A list of the shop’s own was left out. {}", message(of))
            }
            BrokenList::Text { path, spot, entry, found, expected } => {
                let entry = entry.as_ref().map(|entry| format!(" in “{entry}”"));
                format!(
                    "A list of the shop’s own was left out: {path}, line {}, column {}{}, has {found} in \
                     the place of {expected}. Correct it there, or move the file elsewhere.",
                    spot.line,
                    spot.column,
                    entry.unwrap_or_default()
                )
            }
        }
    }

    fn nowhere_to_keep(&self) -> &'static str {
        "Nothing was brought in: the desktop does not say where a program may keep what is its own. Set \
         HOME or XDG_STATE_HOME."
    }

    fn tables_written(&self, paths: &[String]) -> String {
        format!("Written: {}", paths.join(", "))
    }
}

fn slip(slip: &TableSlip) -> String {
    match slip {
        TableSlip::NothingThere => {
            "there is no row of a part. Write a header and a row for each part.".to_owned()
        }
        TableSlip::NotText => "this is not UTF-8 text. Save it as CSV in UTF-8.".to_owned(),
        TableSlip::TooLarge { most } => {
            format!("the table has more than {}. Part it into several.", megabytes(*most))
        }
        TableSlip::TooManyRows { most } => {
            format!("the table has more than {most} rows. Part it into several.")
        }
        TableSlip::NoSuchTable => "this is not the header of bars, stems or levers. “barwright stock \
                                   columns” prints what each has."
            .to_owned(),
        TableSlip::UnknownColumn { near: Some(near) } => {
            format!("there is no such column. Write {near} if that is meant, or take it away.")
        }
        TableSlip::UnknownColumn { near: None } => {
            "there is no such column. Take it away, or write one that “barwright stock columns” prints."
                .to_owned()
        }
        TableSlip::ColumnTwice => "the column stands there twice. Take one away.".to_owned(),
        TableSlip::MissingColumn => "the column is missing. Write it into the header.".to_owned(),
        TableSlip::OpenQuote => {
            "a quotation mark opens a cell and is never closed. Close it, or write it twice within a \
             cell that stands in quotation marks."
                .to_owned()
        }
        TableSlip::BehindQuote => {
            "something stands behind a closing quotation mark. Take it away, or write a quotation mark \
             within a cell twice."
                .to_owned()
        }
        TableSlip::TooFewCells { found, wanted } => {
            let cells = if *found == 1 { "cell" } else { "cells" };
            format!("the row has {found} {cells} where the header has {wanted}. Write the blank ones as well.")
        }
        TableSlip::NoHeader { found } => format!(
            "“{found}” stands in a column without a header. Give it one, or put a cell that holds a comma \
             or semicolon into quotation marks."
        ),
        TableSlip::MayBeOne { found, meant } => format!(
            "“{found}” may be two cells or one price with a comma. Write {meant} if that is meant, and the \
             pieces behind it; otherwise write the price with its decimals."
        ),
        TableSlip::MayBeCm { found, column } => format!(
            "{} is no length that such a part has, and ten times that is usual. Call the column {column} \
             if its lengths are in cm.",
            mm(*found)
        ),
        TableSlip::Blank { wants } => format!("nothing stands there; expected {}", wanted(wants)),
        TableSlip::Wrong { found, wants } => {
            format!("found “{}”, expected {}", visible(found), wanted(wants))
        }
        TableSlip::NotBoth { found, other } => {
            format!("found “{found}” beside {other}. Leave one of them blank.")
        }
        TableSlip::IdTwice { first } => {
            format!("the stock number stands in line {first} as well. Give each part its own.")
        }
        TableSlip::InStock => "this stock number is in stock already".to_owned(),
        TableSlip::Said(of) => message(of),
    }
}

fn visible(found: &str) -> String {
    found.replace(char::is_control, "\u{fffd}")
}

fn wanted(wants: &TableWants) -> String {
    match wants {
        TableWants::Text => "a text".to_owned(),
        TableWants::Number { comma: true } => "a number such as 31,8 or 31.8".to_owned(),
        TableWants::Number { comma: false } => "a number such as 31.8".to_owned(),
        TableWants::Count => "a whole number such as 4".to_owned(),
        TableWants::Money => "money with at most two decimals, such as 42.90".to_owned(),
        TableWants::YesNo => "yes or no".to_owned(),
        TableWants::OneOf(words) => format!("one of {}", words.join(", ")),
        TableWants::Numbers { count: Some(count) } => {
            format!("{count} numbers with blanks between them, such as {}", example(*count))
        }
        TableWants::Numbers { count: None } => {
            "numbers with blanks between them, such as [0 -1.4]".to_owned()
        }
        TableWants::Points { least } => format!(
            "at least {least} points of two numbers with strokes between them, such as [1 2 / 3 4 / 5 6]"
        ),
        TableWants::OnTheBlade { length_mm } => format!(
            "a stretch that begins before it ends and lies on the blade of {}\u{a0}mm",
            plain(*length_mm)
        ),
        TableWants::FirstNought => {
            "nought first, since the first click is the blade at rest".to_owned()
        }
        TableWants::NoOuterBlanks => "no blank at the beginning or end".to_owned(),
    }
}

fn example(count: usize) -> String {
    let numbers: Vec<_> = (1..=count).map(|number| number.to_string()).collect();
    format!("[{}]", numbers.join(" "))
}

fn holds(column: TableColumn) -> &'static str {
    use TableColumn as C;
    match column {
        C::Id => "stock number, each once",
        C::Name => "what the shop calls it, of a bar without its width",
        C::Price => "price in the shop’s currency, such as 42.90; of levers for a pair",
        C::InStock => "pieces in stock",
        C::KnownBy => "catalogue, measured or traced; otherwise catalogue",
        C::Family => "round, flat or variable",
        C::Proportions => "three proportions of the curve, where they are not the family’s",
        C::Reach => {
            "level, from the middle of the clamped top to where the bar lies furthest forward"
        }
        C::Drop => {
            "upright, from the middle of the clamped top to the middle of the tube at its lowest"
        }
        C::Width => "width, taken as the next two columns say",
        C::WidthAt => "hoods (furthest forward) or ends",
        C::WidthHow => "centre_to_centre or outside_to_outside",
        C::Flare => "angle of the flare, outwards; not beside ends_width_mm; otherwise 0",
        C::EndsWidth => "width at the ends in place of the flare, taken as width_how says",
        C::FlareFrom => "where the maker says that the flare begins; text only",
        C::Backsweep => "backward slant of the tops; otherwise 0",
        C::Rise => "upward slant of the tops; otherwise 0",
        C::RampSlope => "slope of the ramp, falling forwards positive",
        C::RampOutsweep => "outward turn of the ramp seen from above; otherwise 0",
        C::TailSlope => "slope of the tail, falling rearwards positive",
        C::TailLength => "length of the tail",
        C::Outsweep => "outward turn of the tail; otherwise 0",
        C::ForwardBendRadius => "radius of the bend between tops and ramp; otherwise 40 mm",
        C::ClampDiameter => "diameter in the stem’s clamp; otherwise 31.8 mm",
        C::TopsDiameter => "diameter of the tops beside the clamp; otherwise 23.8 mm",
        C::TopsDepth => "depth of flat tops, fore and aft; blank where they are round",
        C::DropsDiameter => "diameter from the ramps to the ends; otherwise 23.8 mm",
        C::ClampZone => {
            "where a lever may be clamped, lowest and highest along the bar from its end"
        }
        C::NoLevers => "yes of a bar that no lever is made for; otherwise no",
        C::OwnStemLength => "of bar and stem in one piece: the stem’s length",
        C::OwnStemAngle => "of bar and stem in one piece: the stem’s angle",
        C::OwnStemClampHeight => "of bar and stem in one piece: its height on the steerer",
        C::Tolerance => "the maker’s own tolerance, where one is stated",
        C::Length => "steerer’s axis to bar’s axis along the stem",
        C::Angle => "from the perpendicular to the steerer, up positive, as it is sold",
        C::Reversible => "yes where it may be turned over, otherwise no",
        C::ClampHeight => "height that it takes on the steerer",
        C::BarDiameter => "diameter of the bar that it takes",
        C::SteererDiameter => "diameter of the steerer that it takes",
        C::Sort => "mechanical, hydraulic, small_hand, long_body, brake_only or wide_flare",
        C::Grip => {
            "middle of the hand on the hood: forward and up from the clamp’s middle on the bar"
        }
        C::HoodSlope => "slope of the hood’s top line against the bar",
        C::GripRadius => "radius of the hood where the hand holds it",
        C::ClampWidth => "width of the clamp along the bar",
        C::Pivot => "pivot of the blade: forward and up",
        C::BladeLength => "length of the blade from its pivot",
        C::Usable => "stretch of the blade that a finger can use: from and to, from its pivot",
        C::RestAngle => "angle of the blade at rest against the bar, towards the bar negative",
        C::Adjuster => "what each click of the reach adjuster adds to that, 0 first",
        C::FreeTravel => "travel of the blade’s tip before the brake bites",
        C::HoodOutline => "outline of hood and body: points forward and up, in order round it",
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_fault_names_line_column_what_is_there_and_what_should_be() {
        let wants = TableWants::OneOf(&["hoods", "ends"]);
        let slip = TableSlip::Wrong { found: "hood\u{7}".into(), wants };
        let fault = TableFault { line: 12, column: Some("width_at".into()), slip };
        assert_eq!(
            English.table_fault(&fault),
            "Line 12, column width_at: found “hood\u{fffd}”, expected one of hoods, ends"
        );
    }

    #[test]
    fn words_that_a_cell_takes_are_in_what_its_column_holds() {
        // what a reader of the columns types is what the tables take
        let text = |column| English.column_holds(column);
        for (column, words) in [
            (TableColumn::Family, "round flat variable"),
            (TableColumn::WidthAt, "hoods ends"),
            (TableColumn::WidthHow, "centre_to_centre outside_to_outside"),
            (TableColumn::KnownBy, "catalogue measured traced"),
        ] {
            assert!(words.split(' ').all(|word| text(column).contains(word)), "{column:?}");
        }
    }

    #[test]
    fn one_cell_is_told_as_one() {
        let row = |found| super::slip(&TableSlip::TooFewCells { found, wanted: 12 });
        assert!(row(1).contains("1 cell where") && row(2).contains("2 cells where"));
    }

    #[test]
    fn what_came_in_is_counted() {
        let of = |new, replaced, left_out| {
            let (list, asked) = (StockList::Stems, Vec::new());
            English.brought_in(&BroughtIn { list, new, replaced, left_out, asked })
        };
        assert_eq!(of(1, 0, 0), "1 stem brought in");
        assert_eq!(of(0, 2, 0), "0 stems brought in, 2 in the place of what was there");
        assert_eq!(of(3, 0, 4), "3 stems brought in, 4 left out, since they were there");
    }
}
