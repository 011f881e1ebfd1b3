//! The stock that comes with the program: how much of it there is, that every bar bends smoothly,
//! that it covers what a shop needs and looks like a shop's and not like a table of multiples.

use fit_doc::{
    Bar, Family, Findings, Flare, LeverSort, Message, OnePiece, Place, Quantity, WidthAt, WidthHow,
    geometry,
};
use fit_file::stock::{Stock, parse_bars, parse_stems, shipped};
use std::collections::{BTreeMap, BTreeSet};

/// Rounding of a direction after a handful of arcs.
const KINK: f64 = 1e-12;
/// A clamp and a bar of one size, mm: as the document takes it.
const CLAMP_FITS_MM: f64 = 0.25;

fn stock() -> Stock {
    shipped().unwrap_or_else(|error| panic!("{error}"))
}

/// What the tests ask of a built bend.
struct Built {
    hoods_cc_mm: f64,
    ends_cc_mm: f64,
    reach_mm: f64,
    drop_mm: f64,
    worst_kink: f64,
    worst_gap_mm: f64,
    clamp_along_mm: f64,
}

impl Built {
    /// A bend is one half, the right one; the left is mirrored from it. That it is the mirror image
    /// is a law of bends, held with the other laws where they are built, and cannot differ from bar
    /// to bar; here both halves are only to be smooth.
    fn of(bar: &Bar) -> Self {
        let place = Place::stock(&bar.id);
        let bend = geometry::bend(&place, bar).unwrap_or_else(|e| panic!("{}: {e:?}", bar.id));
        let (right, left) = (bend.chain(), bend.chain().mirrored());
        let (mut worst_kink, mut worst_gap_mm) = (0.0_f64, 0.0_f64);
        for chain in [right, &left] {
            for pair in chain.pieces().windows(2) {
                // the chord of a line or an arc halves the angle between its two tangents:
                // told from the places alone, whatever the pieces say of their ends
                let (start, end) = (pair[0].start(), pair[1].start());
                let chord = (end - start).normalize();
                let halfway = (pair[0].tangent() + pair[1].tangent()).normalize();
                worst_kink = worst_kink.max((chord - halfway).length());
                worst_gap_mm = worst_gap_mm.max((pair[0].end() - end).length());
            }
        }
        Self {
            hoods_cc_mm: bend.width_hoods_cc_mm(),
            ends_cc_mm: bend.width_ends_cc_mm(),
            reach_mm: bend.reach_mm(),
            drop_mm: bend.drop_mm(),
            worst_kink,
            worst_gap_mm,
            clamp_along_mm: bend.along_from_s(bend.default_clamp().s_mm),
        }
    }
}

/// Bars by bend: name and members in the list's order.
fn bends(stock: &Stock) -> BTreeMap<&str, Vec<&Bar>> {
    let mut bends: BTreeMap<&str, Vec<&Bar>> = BTreeMap::new();
    for bar in &stock.bars {
        bends.entry(&bar.name).or_default().push(bar);
    }
    bends
}

/// Levels of more than two values that differ by the same step throughout.
fn is_progression(values: &[f64]) -> bool {
    let steps: Vec<f64> = values.windows(2).map(|pair| pair[1] - pair[0]).collect();
    steps.len() >= 2 && steps.iter().all(|step| (step - steps[0]).abs() < 1e-9)
}

#[test]
fn there_is_enough_of_everything() {
    let stock = stock();
    let bends = bends(&stock);
    let families: BTreeSet<&str> = stock.stems.iter().map(|stem| stem.name.as_str()).collect();
    println!(
        "{} bends, {} bars, {} stems of {} families, {} levers",
        bends.len(),
        stock.bars.len(),
        stock.stems.len(),
        families.len(),
        stock.levers.len()
    );
    assert!(bends.len() >= 24 && stock.bars.len() >= 120 && stock.stems.len() >= 60);
    let sorts: Vec<LeverSort> = stock.levers.iter().map(|lever| lever.sort).collect();
    for sort in [
        LeverSort::Mechanical,
        LeverSort::Hydraulic,
        LeverSort::SmallHand,
        LeverSort::LongBody,
        LeverSort::BrakeOnly,
        LeverSort::WideFlare,
    ] {
        assert_eq!(sorts.iter().filter(|&&one| one == sort).count(), 1, "{sort:?}");
    }
    assert_eq!(sorts.len(), 6);
    let told = format!(
        "{} bars of {} bends, {} stems, six levers",
        stock.bars.len(),
        bends.len(),
        stock.stems.len()
    );
    assert!(include_str!("../../../README.md").contains(&told), "the guide says other than {told}");
}

#[test]
fn parts_are_found_by_their_stock_number() {
    let stock = stock();
    for bar in &stock.bars {
        assert_eq!(stock.bar(&bar.id), Some(bar));
    }
    for stem in &stock.stems {
        assert_eq!(stock.stem(&stem.id), Some(stem));
    }
    for lever in &stock.levers {
        assert_eq!(stock.lever(&lever.id), Some(lever));
    }
    assert!(stock.bar("none").is_none() && stock.stem("").is_none());
    assert!(stock.lever("bar-deep-classic-420").is_none());
}

#[test]
fn every_bar_bends_smoothly_to_what_it_says() {
    let stock = stock();
    let (mut kink, mut gap_mm) = (0.0_f64, 0.0_f64);
    for bar in &stock.bars {
        let built = Built::of(bar);
        kink = kink.max(built.worst_kink);
        gap_mm = gap_mm.max(built.worst_gap_mm);
        assert!((built.reach_mm - bar.reach_mm).abs() < 1e-9, "{}: reach", bar.id);
        assert!((built.drop_mm - bar.drop_mm).abs() < 1e-9, "{}: drop", bar.id);
        // where an unmoved lever sits: the trade's range of lever from bar end, asked outside
        assert!(
            (130.0..=320.0).contains(&built.clamp_along_mm),
            "{}: {}",
            bar.id,
            built.clamp_along_mm
        );
    }
    println!("worst kink {kink:e}, gap {gap_mm:e} mm");
    assert!(kink <= KINK, "tangents turn by {kink:e}");
    assert!(gap_mm <= 1e-9, "pieces lie {gap_mm:e} mm apart");
}

#[test]
fn nothing_is_unusual_but_what_is_listed_here() {
    let wide = "the widest all-road bars are at the end of what is seldom asked about";
    let long = "the longest stems are at the end of what is seldom asked about";
    let short = "short stems are sold for all-road bars; 40 and below is asked about";
    let listed = [
        ("bar-allroad-20-480", "width_mm", Quantity::BarWidthAtHoods, 480.0, wide),
        ("stem-level17-140", "length_mm", Quantity::StemLength, 140.0, long),
        ("stem-short-35", "length_mm", Quantity::StemLength, 35.0, short),
        ("stem-short-40", "length_mm", Quantity::StemLength, 40.0, short),
    ];
    let stock = stock();
    let mut findings = Findings::default();
    for bar in &stock.bars {
        fit_doc::check_bar(&mut findings, &Place::stock(&bar.id), bar);
    }
    for stem in &stock.stems {
        fit_doc::check_stem(&mut findings, &Place::stock(&stem.id), stem);
    }
    for lever in &stock.levers {
        fit_doc::check_lever(&mut findings, &Place::stock(&lever.id), lever);
    }
    assert_eq!(findings.refused, []);
    let expected: Vec<Message> = listed
        .iter()
        .map(|&(id, field, quantity, found, _)| {
            let place = Place::stock(id).field(field);
            Message::Unusual { place, quantity, found }
        })
        .collect();
    assert_eq!(findings.unusual, expected);
}

#[test]
fn the_lists_are_irregular_as_a_shops_are() {
    let stock = stock();
    for (name, bars) in bends(&stock) {
        let mut widths: Vec<f64> = bars.iter().map(|bar| bar.width_mm).collect();
        widths.dedup();
        assert!(widths.is_sorted() && widths.len() >= 3, "{name}: {widths:?}");
        assert!(!is_progression(&widths), "{name}: {widths:?}");
    }
    let mut families: BTreeMap<&str, Vec<f64>> = BTreeMap::new();
    for stem in &stock.stems {
        families.entry(&stem.name).or_default().push(stem.length_mm);
    }
    for (name, lengths) in families {
        assert!(lengths.is_sorted() && !is_progression(&lengths), "{name}: {lengths:?}");
    }
    let mut prices: Vec<u32> =
        stock.bars.iter().filter_map(|bar| bar.shelf.price).map(|price| price.cents).collect();
    prices.sort_unstable();
    prices.dedup();
    let steps: BTreeSet<u32> = prices.windows(2).map(|pair| pair[1] - pair[0]).collect();
    println!("{} different prices, {} different steps", prices.len(), steps.len());
    assert!(prices.len() >= 50 && steps.len() >= 25);
    for lever in &stock.levers {
        assert!(!is_progression(&lever.blade.adjuster_deg), "{}", lever.id);
    }
}

#[test]
fn road_bars_cover_widths_and_drops() {
    let stock = stock();
    // deep, medium and compact, by drop in mm
    for (word, from, to) in
        [("deep", 145.0, 155.0), ("medium", 130.0, 140.0), ("compact", 117.0, 126.0)]
    {
        let class: Vec<&Bar> = stock
            .bars
            .iter()
            .filter(|bar| (from..=to).contains(&bar.drop_mm) && bar.one_piece.is_none())
            .collect();
        let bends: BTreeSet<&str> = class.iter().map(|bar| bar.name.as_str()).collect();
        let widths: Vec<f64> = class.iter().map(|bar| Built::of(bar).hoods_cc_mm).collect();
        println!("{word}: {} bends, {} bars", bends.len(), class.len());
        assert!(bends.len() >= 4 && class.len() >= 15, "{word}: {} bars", class.len());
        for wanted in [380.0, 400.0, 420.0, 440.0, 460.0_f64] {
            let near = widths.iter().any(|width| (width - wanted).abs() <= 2.0);
            assert!(near, "{word}: nothing {wanted} mm wide");
        }
    }
    let hoods: Vec<f64> = stock.bars.iter().map(|bar| Built::of(bar).hoods_cc_mm).collect();
    // 340 mm centre to centre at the hoods is the narrowest, whichever way a width is printed
    for (bar, &built_mm) in stock.bars.iter().zip(&hoods) {
        if bar.width_at == WidthAt::Hoods {
            let over_mm = match bar.width_how {
                WidthHow::CentreToCentre => 0.0,
                WidthHow::OutsideToOutside => bar.drops_diameter_mm,
            };
            let printed_mm = bar.width_mm - over_mm;
            assert!((printed_mm - built_mm).abs() < 1e-9, "{}: {printed_mm} {built_mm}", bar.id);
        }
        assert!(built_mm > 340.0 - 1e-9, "{}: {built_mm} mm centre to centre", bar.id);
    }
    let least = hoods.iter().copied().fold(f64::INFINITY, f64::min);
    let ends: Vec<f64> = stock.bars.iter().map(|bar| Built::of(bar).ends_cc_mm).collect();
    let widest = ends.iter().copied().fold(0.0, f64::max);
    println!("hoods from {least:.0} mm, ends to {widest:.0} mm");
    assert!(least < 340.0 + 1e-9 && (530.0..=550.0).contains(&widest));
    // no hook leans inwards by more than the tape can tell
    for (bar, (hoods, ends)) in stock.bars.iter().zip(hoods.iter().zip(&ends)) {
        assert!(ends - hoods > -2.0, "{}: {hoods} {ends}", bar.id);
    }
}

#[test]
fn the_special_ones_are_there() {
    let stock = stock();
    let some = |what: &str, wanted: &dyn Fn(&Bar) -> bool| {
        let found: BTreeSet<&str> =
            stock.bars.iter().filter(|bar| wanted(bar)).map(|bar| bar.name.as_str()).collect();
        println!("{what}: {found:?}");
        found.len()
    };
    let flared = |bar: &Bar| matches!(bar.flare, Flare::Angle { deg } if deg > 0.0);
    assert!(some("old 26.0", &|bar| bar.clamp_diameter_mm == 26.0) >= 1);
    assert!(
        some("steep ramps", &|bar| bar.ramp_slope_deg >= 12.0 && bar.name.contains("Track")) >= 1
    );
    assert!(some("one piece", &|bar| bar.one_piece.is_some()) >= 2);
    assert!(some("flat tops", &|bar| bar.tops_depth_mm.is_some_and(|depth| depth > 35.0)) >= 2);
    assert!(some("backsweep", &|bar| bar.backsweep_deg >= 2.0) >= 2);
    assert!(some("rise", &|bar| bar.rise_deg >= 5.0) >= 2);
    assert!(some("outswept tails", &|bar| bar.outsweep_deg > 0.0) >= 2);
    assert!(some("ramp outsweep", &|bar| bar.ramp_outsweep_deg > 0.0) >= 2);
    assert!(some("ergonomic flat", &|bar| bar.family == Family::Flat) >= 3);
    assert!(some("deep round", &|bar| bar.family == Family::Round && bar.drop_mm > 144.0) >= 4);
    assert!(some("compact", &|bar| bar.family == Family::Variable) >= 6);
    assert!(some("small", &|bar| bar.reach_mm <= 70.0 && bar.drop_mm <= 110.0) >= 1);
    for from in ["at the hoods", "mid-ramp", "below the lever"] {
        assert!(some(from, &|bar| bar.flare_from == from && flared(bar)) >= 1, "{from}");
    }
    let ends = |bar: &Bar| matches!(bar.flare, Flare::EndsWidth { .. });
    assert!(some("two widths printed", &ends) >= 1);
    assert!(some("width at the ends", &|bar| bar.width_at == WidthAt::Ends) >= 2);
    let outside = WidthHow::OutsideToOutside;
    assert!(some("outside to outside", &|bar| bar.width_how == outside) >= 2);
    let known: Vec<fit_doc::KnownBy> = stock.bars.iter().map(|bar| bar.shelf.known_by).collect();
    let count = |by| known.iter().filter(|&&one| one == by).count();
    assert!(count(fit_doc::KnownBy::Measured) > 0 && count(fit_doc::KnownBy::Traced) > 0);
    assert!(2 * count(fit_doc::KnownBy::Catalogue) > known.len());
    let varied = bends(&stock)
        .values()
        .filter(|bars| bars.windows(2).any(|pair| pair[0].drop_mm != pair[1].drop_mm))
        .count();
    println!("{varied} bends change their drop with the size");
    assert!(varied >= 5);
    let shelf = stock.bars.iter().map(|bar| &bar.shelf);
    assert!(
        shelf.clone().any(|shelf| shelf.in_stock == 0) && shelf.clone().all(|s| s.price.is_some())
    );
}

#[test]
fn every_clamp_has_its_counterpart() {
    let stock = stock();
    let fits = |bar: &Bar, mm: f64| (bar.clamp_diameter_mm - mm).abs() <= CLAMP_FITS_MM;
    for bar in stock.bars.iter().filter(|bar| bar.one_piece.is_none()) {
        let stems = stock.stems.iter().filter(|stem| fits(bar, stem.bar_diameter_mm)).count();
        assert!(stems >= 4, "{}: {stems} stems take it", bar.id);
    }
    for stem in &stock.stems {
        assert!(stock.bars.iter().any(|bar| fits(bar, stem.bar_diameter_mm)), "{}", stem.id);
    }
    let (mut angles, mut clamps) = (BTreeSet::new(), BTreeSet::new());
    for stem in &stock.stems {
        angles.insert(stem.angle_deg.abs().to_string());
        clamps.insert(stem.clamp_height_mm.to_string());
    }
    for angle in ["0", "6", "7", "10", "17", "25"] {
        assert!(angles.contains(angle), "no stem of {angle}°: {angles:?}");
    }
    assert!(clamps.len() >= 5 && stock.stems.iter().any(|stem| !stem.reversible));
    let lengths = stock.stems.iter().map(|stem| stem.length_mm);
    let (least, most) = lengths.fold((f64::MAX, 0.0_f64), |(l, m), x| (l.min(x), m.max(x)));
    assert_eq!((least, most), (35.0, 140.0));
}

/// A list of two bends, each with numbers of its own for tubes, flare and stem, and a size for each
/// number that a size may say itself.
const BENDS: &str = r#"(kind: "barwright-stock-bars", version: 1, bends: [
    (
        name: "Outside", family: round, reach_mm: 85, drop_mm: 149,
        width_at: hoods, width_how: outside_to_outside, flare_deg: 4,
        ramp_slope_deg: 5, tail_slope_deg: 4, tail_length_mm: 46,
        clamp_diameter_mm: 35, tops_diameter_mm: 28.6, drops_diameter_mm: 24.2,
        known_by: catalogue,
        sizes: [
            (id: "as-the-bend", width_mm: 420, in_stock: 1),
            (id: "own-reach", width_mm: 421, reach_mm: 83, in_stock: 1),
            (id: "own-drop", width_mm: 422, drop_mm: 147, in_stock: 1),
            (id: "own-tail", width_mm: 423, tail_length_mm: 39.5, in_stock: 1),
            (id: "own-flare", width_mm: 424, flare_deg: 9, in_stock: 1),
            (id: "own-ends", width_mm: 425, ends_width_mm: 470, in_stock: 1),
        ],
    ),
    (
        name: "Centre", family: variable, reach_mm: 75, drop_mm: 122,
        width_at: hoods, width_how: centre_to_centre,
        ramp_slope_deg: 5, tail_slope_deg: 5, tail_length_mm: 42,
        stem: (angle_deg: -8, clamp_height_mm: 37),
        known_by: traced,
        sizes: [
            (id: "short", width_mm: 400, stem_length_mm: 95, in_stock: 1),
            (id: "long", width_mm: 410, stem_length_mm: 112, ends_width_mm: 430, in_stock: 1),
        ],
    ),
])"#;

#[test]
fn a_size_says_for_itself_what_it_says_and_takes_the_rest_from_its_bend() {
    let bars = parse_bars(BENDS).unwrap_or_else(|error| panic!("{error}"));
    let ids = ["as-the-bend", "own-reach", "own-drop", "own-tail", "own-flare", "own-ends"];
    let plain = Flare::Angle { deg: 4.0 };
    let outside = Flare::EndsWidth { mm: 470.0, how: WidthHow::OutsideToOutside };
    // width, reach, drop, tail and flare as they stand in the list
    let outer = [
        (420.0, 85.0, 149.0, 46.0, plain),
        (421.0, 83.0, 149.0, 46.0, plain),
        (422.0, 85.0, 147.0, 46.0, plain),
        (423.0, 85.0, 149.0, 39.5, plain),
        (424.0, 85.0, 149.0, 46.0, Flare::Angle { deg: 9.0 }),
        (425.0, 85.0, 149.0, 46.0, outside),
    ];
    for (bar, (id, (width, reach, drop, tail, flare))) in bars.iter().zip(ids.iter().zip(outer)) {
        assert_eq!((bar.id.as_str(), bar.name.as_str()), (*id, "Outside"));
        assert_eq!((bar.width_mm, bar.reach_mm, bar.drop_mm), (width, reach, drop), "{id}");
        assert_eq!((bar.tail_length_mm, bar.flare), (tail, flare), "{id}");
        let tubes = (bar.clamp_diameter_mm, bar.tops_diameter_mm, bar.drops_diameter_mm);
        assert_eq!(tubes, (35.0, 28.6, 24.2), "{id}");
        assert_eq!(bar.one_piece, None, "{id}");
    }
    let [short, long] = &bars[6..] else { panic!("two of one piece") };
    let own = |stem_length_mm| {
        Some(OnePiece { stem_length_mm, stem_angle_deg: -8.0, stem_clamp_height_mm: 37.0 })
    };
    assert_eq!((short.one_piece, short.flare), (own(95.0), Flare::Angle { deg: 0.0 }));
    let centre = Flare::EndsWidth { mm: 430.0, how: WidthHow::CentreToCentre };
    assert_eq!((long.one_piece, long.flare), (own(112.0), centre));
    // what nobody says is the usual
    assert_eq!((long.clamp_diameter_mm, long.tops_diameter_mm), (31.8, 23.8));
}

/// An outside width at the ends is one tube, here 24.2 mm, more than the middles are apart.
#[test]
fn a_width_at_the_ends_is_taken_as_its_bend_takes_widths() {
    let bars = parse_bars(BENDS).unwrap_or_else(|error| panic!("{error}"));
    for (id, ends_cc_mm) in [("own-ends", 470.0 - 24.2), ("long", 430.0)] {
        let bar = bars.iter().find(|bar| bar.id == id);
        let built = Built::of(bar.unwrap_or_else(|| panic!("no {id}")));
        assert!((built.ends_cc_mm - ends_cc_mm).abs() < 1e-6, "{id}: {}", built.ends_cc_mm);
    }
}

#[test]
fn a_stem_takes_from_its_family_what_its_size_does_not_say() {
    let text = r#"(kind: "barwright-stock-stems", version: 1, families: [(
        name: "Stem", angle_deg: -7, reversible: false, clamp_height_mm: 42,
        bar_diameter_mm: 31.8, steerer_diameter_mm: 28.6, known_by: measured,
        sizes: [
            (id: "as-the-family", length_mm: 80, in_stock: 1),
            (id: "own-angle", length_mm: 90, angle_deg: 16.5, in_stock: 1),
            (id: "own-height", length_mm: 105, clamp_height_mm: 39, in_stock: 1),
        ],
    )])"#;
    let stems = parse_stems(text).unwrap_or_else(|error| panic!("{error}"));
    let got: Vec<_> = stems
        .iter()
        .map(|stem| (stem.id.as_str(), stem.length_mm, stem.angle_deg, stem.clamp_height_mm))
        .collect();
    let as_listed = [
        ("as-the-family", 80.0, -7.0, 42.0),
        ("own-angle", 90.0, 16.5, 42.0),
        ("own-height", 105.0, -7.0, 39.0),
    ];
    assert_eq!(got, as_listed);
    for stem in &stems {
        assert_eq!((stem.bar_diameter_mm, stem.steerer_diameter_mm), (31.8, 28.6), "{}", stem.id);
        assert!(!stem.reversible && stem.name == "Stem", "{}", stem.id);
    }
}
