//! Tables of stock: what is written reads back, what is wrong is told where it is, and nothing that
//! anybody may hand in makes the program fall over.

#![allow(clippy::unwrap_used, reason = "a test that cannot go on has failed")]

use fit_doc::{
    Bar, Flare, Lever, Price, Stem, Stock, StockList, TableColumn as C, TableFault, TableSlip as S,
    TableWants as W,
};
use fit_file::stock::csv::{MOST_FAULTS, MOST_ROWS, Parts, read_table, write_table};
use fit_file::stock::shipped;
use proptest::prelude::*;
use std::sync::LazyLock;

static SHIPPED: LazyLock<Stock> = LazyLock::new(|| shipped().unwrap());

fn text(stock: &Stock, list: StockList) -> String {
    String::from_utf8(write_table(stock, list).unwrap()).unwrap()
}

fn bars(text: &str) -> Vec<Bar> {
    match read_table(text.as_bytes()).map(|table| table.parts) {
        Ok(Parts::Bars(bars)) => bars.into_iter().map(|(_, bar)| bar).collect(),
        other => panic!("{other:?}"),
    }
}

fn stems(text: &str) -> Vec<(usize, Stem)> {
    match read_table(text.as_bytes()).map(|table| table.parts) {
        Ok(Parts::Stems(stems)) => stems,
        other => panic!("{other:?}"),
    }
}

fn levers(text: &str) -> Vec<Lever> {
    match read_table(text.as_bytes()).map(|table| table.parts) {
        Ok(Parts::Levers(levers)) => levers.into_iter().map(|(_, lever)| lever).collect(),
        other => panic!("{other:?}"),
    }
}

fn faults(text: &str) -> Vec<TableFault> {
    read_table(text.as_bytes()).unwrap_err()
}

/// The one fault of a table: line, column and slip.
fn only(text: &str) -> (usize, String, S) {
    let mut all = faults(text);
    assert_eq!(all.len(), 1, "{all:?}");
    let fault = all.remove(0);
    (fault.line, fault.column.unwrap_or_default(), fault.slip)
}

const HEAD: &str = "id,name,length_mm,angle_deg,reversible,clamp_height_mm,bar_diameter_mm,\
                    steerer_diameter_mm,price,in_stock,known_by\n";

/// A table of stems with one good row in line 2 and this one in line 3.
fn third_line(row: &str) -> String {
    format!("{HEAD}s-1,Plain,90,-6,yes,40,31.8,28.6,27.90,3,catalogue\n{row}\n")
}

#[test]
fn what_is_shipped_goes_out_and_comes_in_again() {
    assert_eq!(bars(&text(&SHIPPED, StockList::Bars)), SHIPPED.bars);
    assert_eq!(levers(&text(&SHIPPED, StockList::Levers)), SHIPPED.levers);
    let back: Vec<Stem> =
        stems(&text(&SHIPPED, StockList::Stems)).into_iter().map(|(_, stem)| stem).collect();
    assert_eq!(back, SHIPPED.stems);
    for (list, kinds) in [
        (SHIPPED.bars.iter().any(|bar| matches!(bar.flare, Flare::EndsWidth { .. })), "ends"),
        (SHIPPED.bars.iter().any(|bar| bar.one_piece.is_some()), "one piece"),
        (SHIPPED.bars.iter().any(|bar| bar.clamp_zone_mm.is_some()), "clamp zone"),
    ] {
        assert!(list, "no bar with {kinds} was tried");
    }
}

#[test]
fn a_table_of_a_spreadsheet_elsewhere_reads() {
    let table = "\u{feff}sep=;\r\nName;ID;Length CM;angle-deg;reversible;clamp_height_mm;\
                 bar_diameter_mm;steerer_diameter_mm;in_stock;price;;\r\n\r\n\
                 \"Vorbau \"\"kurz\"\"; 6°\";s-1;9,05;\u{2212}6;Yes;40,0;31,8;28,6;3;27,9;;\r\n\
                 ;;;;;;;;;;;\r\nLang;s-2;13;17.5;FALSE;41;31.8;28.6;0;;;\r\n";
    let found = stems(table);
    assert_eq!(found.iter().map(|(line, _)| *line).collect::<Vec<_>>(), [4, 6]);
    let [(_, short), (_, long)] = found.as_slice() else { panic!("two rows") };
    assert_eq!((short.name.as_str(), short.length_mm), ("Vorbau \"kurz\"; 6°", 90.5));
    assert_eq!((short.angle_deg, short.reversible), (-6.0, true));
    assert_eq!(short.shelf.price, Some(Price { cents: 2790 }));
    assert_eq!((long.length_mm, long.angle_deg, long.reversible), (130.0, 17.5, false));
    assert_eq!((long.shelf.price, long.shelf.in_stock), (None, 0));

    let tabs = HEAD.replace(',', "\t") + "s-1\tA, B\t90\t-6,5\tno\t40\t31,8\t28,6\t\t1\t\n";
    let (_, stem) = &stems(&tabs)[0];
    assert_eq!((stem.name.as_str(), stem.angle_deg), ("A, B", -6.5));
    // 41.2 cm times ten in floating point is not what 412 mm is
    for (cm, mm) in [("7.3", 73.0), ("8.21", 82.1), ("10.07", 100.7)] {
        let table = HEAD.replace("length_mm", "length_cm")
            + &format!("s-1,A,{cm},-6,no,40,31.8,28.6,,1,\n");
        assert_eq!(stems(&table)[0].1.length_mm, mm);
    }
}

#[test]
fn each_slip_is_told_with_line_and_column() {
    let wrong = |found: &str, wants| S::Wrong { found: found.to_owned(), wants };
    let number = || W::Number { comma: false };
    let in_cm = |found| S::MayBeCm { found, column: "length_cm".to_owned() };
    let good = "s-2,Other,100,-6,no,40,31.8,28.6,,3,measured";
    assert_eq!(stems(&third_line(good)).len(), 2);
    let cases = [
        ("90 mm", "length_mm", wrong("90 mm", number()), 2),
        ("1e2", "length_mm", wrong("1e2", number()), 2),
        ("\"9,5\"", "length_mm", in_cm(9.5), 2),
        ("9.5", "length_mm", in_cm(9.5), 2),
        ("\"1,100.5\"", "length_mm", wrong("1,100.5", number()), 2),
        ("=100", "length_mm", wrong("=100", number()), 2),
        ("--6", "angle_deg", wrong("--6", number()), 3),
        ("6.", "angle_deg", wrong("6.", number()), 3),
        ("NaN", "angle_deg", wrong("NaN", number()), 3),
        ("", "angle_deg", S::Blank { wants: number() }, 3),
        ("maybe", "reversible", wrong("maybe", W::YesNo), 4),
        ("27.905", "price", wrong("27.905", W::Money), 8),
        ("-1", "price", wrong("-1", W::Money), 8),
        ("42949672.96", "price", wrong("42949672.96", W::Money), 8),
        ("1.5", "in_stock", wrong("1.5", W::Count), 9),
        (
            "guessed",
            "known_by",
            wrong("guessed", W::OneOf(&["catalogue", "measured", "traced"])),
            10,
        ),
        ("", "id", S::Blank { wants: W::Text }, 0),
        ("\"s-2 \"", "id", wrong("s-2 ", W::NoOuterBlanks), 0),
        ("s-1", "id", S::IdTwice { first: 2 }, 0),
    ];
    for (cell, column, slip, at) in cases {
        let mut cells: Vec<&str> = good.split(',').collect();
        cells[at] = cell;
        let found = only(&third_line(&cells.join(",")));
        assert_eq!(found, (3, column.to_owned(), slip), "{cell}");
    }
    // out of what the trade has: said by the check of the document, at its column
    let (line, column, slip) = only(&third_line(&good.replace(",100,", ",1000,")));
    assert_eq!((line, column.as_str()), (3, "length_mm"));
    assert!(matches!(slip, S::Said(_)), "{slip:?}");
    // a price that its comma cuts in two, the pieces left out
    let head = HEAD.replace(",known_by", "");
    let row = |price: &str| format!("{head}s-1,Plain,90,-6,yes,40,31.8,28.6,{price}\n");
    let (line, column, slip) = only(&row("27,90"));
    assert_eq!((line, column.as_str()), (2, "price"));
    assert_eq!(slip, S::MayBeOne { found: "27,90".into(), meant: "27.90".into() });
    for (price, cents, pieces) in [
        ("27.00,90", 2700, 90),
        ("\"27,90\",12", 2790, 12),
        ("27,9", 2700, 9),
        ("27,900", 2700, 900),
    ] {
        let shelf = stems(&row(price)).remove(0).1.shelf;
        assert_eq!((shelf.price, shelf.in_stock), (Some(Price { cents }), pieces), "{price}");
    }
    let quoted = good.replace("31.8", "\"31,8\"");
    assert_eq!(stems(&third_line(&quoted))[1].1.bar_diameter_mm, 31.8);
    let (line, _, slip) = only(&third_line("s-2,Other,100"));
    assert_eq!((line, slip), (3, S::TooFewCells { found: 3, wanted: 11 }));
    let (line, _, slip) = only(&third_line(&format!("{good},left over")));
    assert_eq!((line, slip), (3, S::NoHeader { found: "left over".into() }));
    // a comma in a name that is not quoted is one slip, though it shifts all cells behind it
    let (line, _, slip) = only(&third_line(&good.replace("Other", "Other, long")));
    assert_eq!((line, slip), (3, S::NoHeader { found: "measured".into() }));
    let (line, _, slip) = only(&third_line("\"s-2,Other,100"));
    assert_eq!((line, slip), (3, S::OpenQuote));
    let (line, _, slip) = only(&third_line(&good.replace("Other", "\"Other\" one")));
    assert_eq!((line, slip), (3, S::BehindQuote));
}

#[test]
fn a_header_that_is_wrong_is_told_before_any_row() {
    let head = |from: &str, to: &str| third_line("").replacen(from, to, 1);
    let near = |name: &str| S::UnknownColumn { near: Some(name.to_owned()) };
    let told = |table: &str| -> Vec<(String, S)> {
        let all = faults(table).into_iter();
        all.map(|fault| (fault.column.unwrap_or_default(), fault.slip)).collect()
    };
    let missing = |name: &str| (name.to_owned(), S::MissingColumn);
    let found = told(&head("length_mm", "lenght_mm"));
    assert_eq!(found, [("lenght_mm".into(), near("length_mm")), missing("length_mm")]);
    let found = told(&head("angle_deg", "angle"));
    assert_eq!(found, [("angle".into(), near("angle_deg")), missing("angle_deg")]);
    let found = told(&head("known_by", "colour"));
    assert_eq!(found, [("colour".into(), S::UnknownColumn { near: None })]);
    // the same in other units is the same column
    let found = told(&head("known_by", "length_cm"));
    assert_eq!(found, [("length_cm".into(), S::ColumnTwice)]);
    // no cm for an angle
    assert!(told(&head("angle_deg", "angle_cm")).contains(&missing("angle_deg")));

    for nothing in ["", "\u{feff}", "\r\n\n", ";;;\n", HEAD] {
        assert_eq!(only(nothing).2, S::NothingThere, "{nothing:?}");
    }
    assert_eq!(only("id,name,price,in_stock\n1,2,3,4\n").2, S::NoSuchTable);
    assert_eq!(only("\n\nhello\nworld\n"), (3, String::new(), S::NoSuchTable));
    let mut latin = third_line("s-2,Vorbau,100,-6,no,40,31.8,28.6,,3,").into_bytes();
    let at = latin.iter().position(|byte| *byte == b'V').unwrap();
    latin[at] = 0xfc;
    let told = read_table(&latin).unwrap_err();
    assert_eq!((told[0].line, &told[0].slip), (3, &S::NotText));
}

#[test]
fn all_rows_are_told_at_once_up_to_a_hundred_and_none_comes_in() {
    let bad = "s-2,Other,x,y,no,40,31.8,28.6,,z,\n";
    let table = third_line(bad);
    let columns: Vec<_> = faults(&table).into_iter().map(|of| of.column.unwrap()).collect();
    assert_eq!(columns, ["length_mm", "angle_deg", "in_stock"]);
    let many = HEAD.to_owned() + &"x".repeat(3) + &"\nx,x".repeat(500);
    assert_eq!(faults(&many).len(), MOST_FAULTS);
    let too_many = HEAD.to_owned() + &"x\n".repeat(MOST_ROWS + 1);
    assert_eq!(faults(&too_many).len(), MOST_FAULTS);
    let row = |number: usize| format!("{number},x,90,0,n,40,30,30,,1,\n");
    let rows: String = (0..100_000).map(row).collect();
    let told = only(&(HEAD.to_owned() + &rows + &" ".repeat(2 << 20)));
    assert_eq!(told.2, S::TooLarge { most: 4 << 20 });
}

#[test]
fn what_goes_together_in_a_bar_or_a_lever_is_held() {
    let with = |stock: &Stock, list, column: C, value: &str, nth: usize| {
        let table = text(stock, list);
        let mut reader = csv::Reader::from_reader(table.as_bytes());
        let at = reader
            .headers()
            .unwrap()
            .iter()
            .position(|name| name.trim_start_matches('\u{feff}') == column.name());
        let mut writer = csv::Writer::from_writer(Vec::new());
        writer.write_record(reader.headers().unwrap()).unwrap();
        for (line, record) in reader.records().enumerate() {
            let record = record.unwrap();
            let cells = record
                .iter()
                .enumerate()
                .map(|(cell, found)| if line == nth && Some(cell) == at { value } else { found });
            writer.write_record(cells).unwrap();
        }
        only(&String::from_utf8(writer.into_inner().unwrap()).unwrap())
    };
    let (line, column, slip) = with(&SHIPPED, StockList::Bars, C::EndsWidth, "500", 0);
    assert_eq!((line, column.as_str()), (2, "ends_width_mm"));
    assert_eq!(slip, S::NotBoth { found: "500".into(), other: "flare_deg" });
    // half a stem
    let own = SHIPPED.bars.iter().position(|bar| bar.one_piece.is_some()).unwrap();
    let (line, column, slip) = with(&SHIPPED, StockList::Bars, C::OwnStemLength, "", own);
    assert_eq!((line, column.as_str()), (own + 2, "stem_length_mm"));
    assert!(matches!(slip, S::Blank { .. }));
    // cannot be bent
    let (line, column, slip) = with(&SHIPPED, StockList::Bars, C::Reach, "31", 0);
    assert_eq!((line, column.as_str()), (2, "reach_mm"));
    assert!(matches!(slip, S::Said(_)));
    for (column, value, wants) in [
        (C::Usable, "[40 195]", W::OnTheBlade { length_mm: 105.0 }),
        (C::Usable, "[40]", W::Numbers { count: Some(2) }),
        (C::Adjuster, "[1 2]", W::FirstNought),
        (C::HoodOutline, "[1 2 / 3 4]", W::Points { least: 3 }),
        (C::HoodOutline, "[1 2 / 3 4 / 5]", W::Points { least: 3 }),
    ] {
        let told = with(&SHIPPED, StockList::Levers, column, value, 0);
        let slip = S::Wrong { found: value.to_owned(), wants };
        assert_eq!(told, (2, column.name().to_owned(), slip));
    }
}

#[test]
fn no_text_is_worked_out_by_a_spreadsheet() {
    let mut stock = Stock { stems: SHIPPED.stems[..8].to_vec(), ..Stock::default() };
    let names = ["=1+1", "+1", "-1", "@a", "\tx", "\rx", "'n' roll", "'=1"];
    for (stem, name) in stock.stems.iter_mut().zip(names) {
        name.clone_into(&mut stem.name);
        stem.id = format!("={}", stem.id);
    }
    let table = text(&stock, StockList::Stems);
    let mut reader = csv::Reader::from_reader(table.as_bytes());
    for record in reader.records() {
        let record = record.unwrap();
        assert!(record.iter().take(2).all(|cell| cell.starts_with('\'')), "{record:?}");
    }
    let back: Vec<_> = stems(&table).into_iter().map(|(_, stem)| stem).collect();
    assert_eq!(back, stock.stems);
    // a name that somebody typed with an apostrophe stays as it is
    let row = third_line("s-2,'n roll,100,-6,no,40,31.8,28.6,,3,");
    assert_eq!(stems(&row)[1].1.name, "'n roll");
}

fn a_name() -> impl Strategy<Value = String> {
    let odd = "[=+@'\",;\t\r\n -]{0,3}[a-z\u{feff}°=]{1,6}[\"',;\r\n ]{0,2}";
    prop_oneof![odd, any::<String>()].prop_filter("not blank", |name| !name.trim().is_empty())
}

fn in_range(from: f64, to: f64) -> impl Strategy<Value = f64> {
    prop_oneof![from..to, (0.0..1.0_f64).prop_map(move |of| (from + of * (to - from)).round())]
}

proptest! {
    #[test]
    fn what_goes_out_comes_in_to_the_last_bit(
        names in prop::collection::vec(a_name(), 6),
        widths in prop::collection::vec(in_range(380.0, 460.0), 2),
        numbers in prop::collection::vec((in_range(50.0, 150.0), in_range(-35.0, 35.0)), 2),
        outline in prop::collection::vec((in_range(-99.0, 99.0), in_range(-1e-9, 99.0)), 3..9),
        cents in prop::option::of(any::<u32>()),
        in_stock in any::<u32>(),
        picked in any::<prop::sample::Index>(),
    ) {
        let mut stock = Stock {
            bars: vec![SHIPPED.bars[picked.index(SHIPPED.bars.len())].clone()],
            stems: vec![SHIPPED.stems[picked.index(SHIPPED.stems.len())].clone(); 2],
            levers: vec![SHIPPED.levers[picked.index(SHIPPED.levers.len())].clone()],
        };
        let bar = &mut stock.bars[0];
        (bar.name, bar.flare_from) = (names[0].clone(), names[1].clone());
        bar.id = names[2].trim().to_owned();
        bar.shelf.price = cents.map(|cents| Price { cents });
        bar.shelf.in_stock = in_stock;
        if matches!(bar.flare, Flare::Angle { .. }) {
            bar.width_mm = widths[0];
        }
        for (nth, (stem, (length, angle))) in stock.stems.iter_mut().zip(&numbers).enumerate() {
            stem.id = format!("{}{nth}", names[3].trim_start());
            (stem.length_mm, stem.angle_deg) = (*length, *angle);
            stem.shelf.price = cents.map(|cents| Price { cents });
        }
        let lever = &mut stock.levers[0];
        (lever.name, lever.hood_outline_mm) = (names[4].clone(), outline);
        let list = text(&stock, StockList::Bars);
        // a bar of another width may be one that cannot be bent: then that is all that is told
        match read_table(list.as_bytes()) {
            Ok(_) => prop_assert_eq!(bars(&list), stock.bars.clone()),
            Err(told) => prop_assert!(told.iter().all(|of| matches!(of.slip, S::Said(_))), "{:?}", told),
        }
        let back: Vec<_> =
            stems(&text(&stock, StockList::Stems)).into_iter().map(|(_, stem)| stem).collect();
        for (one, other) in back.iter().zip(&stock.stems) {
            prop_assert_eq!(one.length_mm.to_bits(), other.length_mm.to_bits());
            prop_assert_eq!(one.angle_deg.to_bits(), other.angle_deg.to_bits());
        }
        prop_assert_eq!(&back, &stock.stems);
        prop_assert_eq!(levers(&text(&stock, StockList::Levers)), stock.levers);
    }

    #[test]
    fn any_bytes_give_all_rows_or_a_place(bytes in prop::collection::vec(any::<u8>(), 0..400)) {
        all_or_a_place(&bytes)?;
    }

    #[test]
    fn a_spoiled_table_gives_all_rows_or_a_place(
        list in prop::sample::select(&StockList::ALL),
        at in any::<prop::sample::Index>(),
        with in prop::sample::select(
            vec![&b"\""[..], b",", b";", b"\n", b"\r", b"\t", b"\0", b"\xff", b"-", b"1e9", b"]", b"/"]
        ),
        cut in 0_usize..30,
    ) {
        let few = Stock {
            bars: SHIPPED.bars[..3].to_vec(),
            stems: SHIPPED.stems[..3].to_vec(),
            levers: SHIPPED.levers[..2].to_vec(),
        };
        let mut bytes = write_table(&few, list).unwrap();
        let at = at.index(bytes.len());
        let end = (at + cut).min(bytes.len());
        bytes.splice(at..end, with.iter().copied());
        all_or_a_place(&bytes)?;
    }
}

/// Every row that is not blank came in, or a fault names a line that is there.
fn all_or_a_place(bytes: &[u8]) -> Result<(), TestCaseError> {
    let ends = bytes.iter().filter(|byte| matches!(byte, b'\n' | b'\r')).count();
    match read_table(bytes) {
        Ok(table) => {
            let lines: Vec<usize> = match table.parts {
                Parts::Bars(of) => of.iter().map(|(line, _)| *line).collect(),
                Parts::Stems(of) => of.iter().map(|(line, _)| *line).collect(),
                Parts::Levers(of) => of.iter().map(|(line, _)| *line).collect(),
            };
            prop_assert!(!lines.is_empty() && lines.iter().all(|line| *line <= ends + 1));
            prop_assert!(lines.is_sorted_by(|one, next| one < next), "{:?}", lines);
        }
        Err(faults) => {
            prop_assert!(!faults.is_empty() && faults.len() <= MOST_FAULTS);
            prop_assert!(faults.iter().all(|fault| (1..=ends + 1).contains(&fault.line)));
        }
    }
    Ok(())
}
