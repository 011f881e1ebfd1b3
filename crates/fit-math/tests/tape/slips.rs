//! Each likely slip is caught and named.

use fit_math::bar::WidthHow;
use fit_math::tape::{Blamed, Explained, Found, HoodAt, Laid, Of, Reading, Slip, explain};

use super::draw::{ALL, Bike, Draw};

const BIKES: usize = 20;
/// Bikes where a share in the high nineties is asked for: of twenty, two misses would be too many.
const MANY: usize = 100;

fn value(readings: &mut [Reading], of: Of) -> &mut f64 {
    &mut readings.iter_mut().find(|reading| reading.of == of).unwrap().value
}

fn names(explained: &Explained, slip: Slip, of: Of) -> bool {
    let mended = explained.mended.iter();
    let likely = explained.suspicion.iter().flat_map(|suspicion| &suspicion.likely);
    mended.chain(likely).any(|mend| mend.slip == slip && mend.from.of == of)
}

/// Share of bikes on which the slip in that reading is named, in per cent.
fn caught(name: &str, slip: Slip, of: Of, make: impl Fn(&Bike, &mut Vec<Reading>)) -> f64 {
    let mut draw = Draw(200);
    let mut hits = 0;
    for _ in 0..MANY {
        let bike = draw.bike(1.0);
        let mut readings = draw.taped(&bike, &ALL);
        make(&bike, &mut readings);
        let explained = explain(&bike.known, &readings).unwrap();
        hits += usize::from(names(&explained, slip, of));
    }
    let percent = 100.0 * f64::from(u32::try_from(hits).unwrap()) / MANY as f64;
    println!("{name}: {percent:.0} %");
    percent
}

#[test]
fn centimetres_for_millimetres() {
    for of in ALL.into_iter().filter(|of| !of.is_angle()) {
        let (mut hits, mut told) = (0, 0);
        let mut draw = Draw(200);
        for _ in 0..BIKES {
            let bike = draw.bike(1.0);
            let mut readings = draw.taped(&bike, &ALL);
            let found = Found::new(&bike.known, &readings).unwrap();
            let read = *value(&mut readings, of);
            *value(&mut readings, of) = read / 10.0;
            let judged = found.judged().iter().find(|j| j.what == Blamed::Reading(of)).unwrap();
            let seen = judged.smallest_slip_seen().unwrap_or(f64::INFINITY);
            let (least, _) = of.met_mm().unwrap();
            // a bar level with the saddle reads much the same in either unit, and a tenth of a
            // nose behind the axle is still one
            let large = judged.can_be_singled_out() && 0.9 * read.abs() > 1.25 * seen;
            if large || read / 10.0 < least {
                told += 1;
                let explained = explain(&bike.known, &readings).unwrap();
                hits += usize::from(names(&explained, Slip::CentimetresForMillimetres, of));
            }
        }
        println!("{of:?} in cm: {hits} of {told} where it can be told, of {BIKES}");
        assert!(hits * 100 >= told * 95, "{of:?}");
    }
}

#[test]
fn outside_for_centre() {
    let of = Of::WidthAtHoods(WidthHow::CentreToCentre);
    let mut draw = Draw(201);
    let mut hits = 0;
    for _ in 0..BIKES {
        let bike = draw.bike(1.0);
        let mut readings = draw.taped(&bike, &ALL);
        let width = readings.iter_mut().find(|r| matches!(r.of, Of::WidthAtHoods(_))).unwrap();
        width.of = of;
        let explained = explain(&bike.known, &readings).unwrap();
        hits += usize::from(names(&explained, Slip::OutsideForCentre, of));
    }
    println!("outside for centre: {hits} of {BIKES}");
    assert!(hits * 100 >= BIKES * 95);
}

#[test]
fn slant_for_level() {
    // the bar's end lies low enough for slant and level to differ by more than the tape's doubt
    let (mut hits, mut told) = (0, 0);
    let mut draw = Draw(202);
    for _ in 0..BIKES {
        let bike = draw.bike(1.0);
        let mut readings = draw.taped(&bike, &ALL);
        let slant = bike.exact(Of::NoseToBarEnd(Laid::Slant)).value;
        let level = bike.exact(Of::NoseToBarEnd(Laid::Level)).value;
        *value(&mut readings, Of::NoseToBarEnd(Laid::Level)) += slant - level;
        let explained = explain(&bike.known, &readings).unwrap();
        let seen = explained.found.judged().iter().find_map(|judged| {
            (judged.what == Blamed::Reading(Of::NoseToBarEnd(Laid::Level)))
                .then(|| judged.smallest_slip_seen())?
        });
        if slant - level > 1.5 * seen.unwrap() {
            told += 1;
            hits +=
                usize::from(names(&explained, Slip::SlantForLevel, Of::NoseToBarEnd(Laid::Level)));
        }
    }
    println!("slant for level, bar's end: {hits} of {told} that are large enough");
    assert!(told > 5 && hits * 100 >= told * 90);
}

#[test]
fn every_distance_slant() {
    let mut draw = Draw(203);
    let (mut hits, mut told) = (0, 0);
    for _ in 0..BIKES {
        let bike = draw.bike(1.0);
        let mut readings = draw.taped(&bike, &ALL);
        let mut largest: f64 = 0.0;
        for (level, slant) in [
            (Of::NoseToBar(Laid::Level), Of::NoseToBar(Laid::Slant)),
            (
                Of::NoseToHood(HoodAt::Trough, Laid::Level),
                Of::NoseToHood(HoodAt::Trough, Laid::Slant),
            ),
            (Of::NoseToHookFront(Laid::Level), Of::NoseToHookFront(Laid::Slant)),
            (Of::NoseToBarEnd(Laid::Level), Of::NoseToBarEnd(Laid::Slant)),
        ] {
            let more = bike.exact(slant).value - bike.exact(level).value;
            *value(&mut readings, level) += more;
            largest = largest.max(more);
        }
        let explained = explain(&bike.known, &readings).unwrap();
        if largest > 25.0 {
            told += 1;
            let named = names(&explained, Slip::AllSlantForLevel, Of::NoseToBar(Laid::Level))
                || names(&explained, Slip::SlantForLevel, Of::NoseToBarEnd(Laid::Level));
            hits += usize::from(named);
        }
    }
    println!("every distance slant: {hits} of {told} where it makes 25 mm or more");
    assert!(told > 5 && hits * 100 >= told * 80);
}

#[test]
fn bar_and_hood_swapped() {
    let (bar, hood) = (Of::NoseToBar(Laid::Level), Of::NoseToHood(HoodAt::Trough, Laid::Level));
    let percent = caught("swapped", Slip::BarAndHoodSwapped, bar, |_, all| {
        let (of_bar, of_hood) = (*value(all, bar), *value(all, hood));
        *value(all, bar) = of_hood;
        *value(all, hood) = of_bar;
    });
    assert!(percent >= 95.0);
}

#[test]
fn a_wrong_sign_and_a_hoods_tip() {
    let below = Of::HookLowestBelowSaddle;
    let percent = caught("sign", Slip::WrongSign, below, |bike, all| {
        *value(all, below) = -bike.exact(below).value;
    });
    assert!(percent >= 95.0);
    let hood = Of::HoodBelowSaddle(HoodAt::Trough);
    let percent = caught("tip", Slip::TipForTrough, hood, |bike, all| {
        *value(all, hood) = bike.exact(Of::HoodBelowSaddle(HoodAt::Tip)).value;
        let level = Of::NoseToHood(HoodAt::Trough, Laid::Level);
        *value(all, level) = bike.exact(Of::NoseToHood(HoodAt::Tip, Laid::Level)).value;
    });
    assert!(percent >= 95.0);
}

#[test]
fn the_wrong_bar_is_told_from_a_wrong_reading() {
    let mut draw = Draw(204);
    let mut hits = 0;
    for _ in 0..BIKES {
        let mut bike = draw.bike(0.0);
        let readings = draw.taped(&bike, &ALL);
        bike.known.bar.drop_mm -= 25.0;
        let Ok(explained) = explain(&bike.known, &readings) else { continue };
        let known = |s: &fit_math::tape::Suspicion| matches!(s.what, Blamed::Known(_));
        hits += usize::from(explained.suspicion.as_ref().is_some_and(known));
    }
    println!("another bar's drop: {hits} of {BIKES}");
    assert!(hits * 100 >= BIKES * 90);
}
