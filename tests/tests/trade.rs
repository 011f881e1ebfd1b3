//! Facts of the trade that must come out by computing, over many riders and bikes, with every
//! lever kept at its heading unless it is said to stay where it is clamped. All of them common
//! practice without a source.

#![expect(
    clippy::unwrap_used,
    clippy::print_stdout,
    reason = "a failure here is a failed test, and a law tells how many it was held for"
)]

use acceptance::{Fit, fits};
use fit_doc::Flare;
use fit_math::cockpit::{Cockpit, Stem};
use fit_math::curve::{Arc, Piece};
use fit_math::{DAffine3, DVec3, HandPlace};

const MANY: usize = 1000;

/// A law is held where at least this share of the fits drawn could be looked at; the others are told.
fn held_for(law: &str, looked_at: usize, of: usize, least_share: f64) {
    let share = looked_at as f64 / of as f64;
    println!("{law}: {looked_at} of {of}");
    assert!(share >= least_share, "{law}: only {looked_at} of {of}");
}

fn at(cockpit: &Cockpit, place: HandPlace) -> DVec3 {
    cockpit.grips(place).unwrap().right.centre
}

fn trunk_deg(fit: &Fit, cockpit: &Cockpit, place: HandPlace) -> f64 {
    let (_, report) = fit.posture(cockpit, place);
    let numbers = [report.trunk_rad, report.pelvis_rad, report.spine_rad, report.hip_min_rad];
    assert!(numbers.iter().all(|n| n.is_finite()), "{report:?}");
    report.trunk_rad.to_degrees()
}

#[test]
fn a_shorter_stem_makes_up_for_longer_reach_only_in_part() {
    let mut left_over: Vec<f64> = Vec::new();
    for fit in fits(MANY) {
        let longer = fit_doc::Bar { reach_mm: fit.bar.reach_mm + 10.0, ..fit.bar.clone() };
        let short = Stem { length_mm: fit.stem.length_mm - 10.0, ..fit.stem };
        let before = fit.cockpit();
        let with_reach = fit.with(&longer, fit.stem, fit.spacers_mm, fit.roll_rad);
        let with_both = fit.with(&longer, short, fit.spacers_mm, fit.roll_rad);
        let off = |c: &Cockpit| at(c, HandPlace::Hoods).distance(at(&before, HandPlace::Hoods));
        assert!(off(&with_both) < off(&with_reach), "it makes up for some of it");
        assert!(off(&with_both) > 1e-3, "but never for all of it: {}", off(&with_both));
        let tops = at(&with_both, HandPlace::Tops).x - at(&before, HandPlace::Tops).x;
        assert!(tops < -7.0, "and the tops come nearer as well: {tops}");
        left_over.push(off(&with_both));
    }
    left_over.sort_by(f64::total_cmp);
    println!(
        "10 mm more reach, 10 mm less stem: the hoods stay {:.1} mm off (median)",
        left_over[MANY / 2]
    );
}

#[test]
fn raising_the_stem_lifts_hoods_and_drops_alike() {
    for fit in fits(MANY) {
        let before = fit.cockpit();
        let raised = fit.with(&fit.bar, fit.stem, fit.spacers_mm + 10.0, fit.roll_rad);
        let moved = |place| at(&raised, place) - at(&before, place);
        let hoods = moved(HandPlace::Hoods);
        for place in HandPlace::ALL {
            assert!((moved(place) - hoods).length() < 1e-9, "{place:?}");
        }
        assert!(hoods.y > 9.0 && hoods.x < 0.0, "up and a little back: {hoods}");
    }
}

#[test]
fn with_less_drop_the_hands_travel_less() {
    let mut looked_at = 0;
    for fit in fits(MANY) {
        let shallower = fit_doc::Bar { drop_mm: fit.bar.drop_mm - 5.0, ..fit.bar.clone() };
        // a very shallow bar cannot be bent shallower still
        if fit_doc::geometry::dimensions(&shallower).build().is_err() {
            continue;
        }
        let travel = |c: &Cockpit| at(c, HandPlace::Hoods).distance(at(c, HandPlace::Drops));
        let less = fit.with(&shallower, fit.stem, fit.spacers_mm, fit.roll_rad);
        assert!(travel(&less) < travel(&fit.cockpit()), "{}", fit.bar.id);
        looked_at += 1;
    }
    held_for("less drop", looked_at, MANY, 0.95);
}

#[test]
fn flare_puts_the_drops_outside_the_hoods() {
    let (mut flared, mut straight) = (0, 0);
    for fit in fits(MANY) {
        let cockpit = fit.cockpit();
        let outside = at(&cockpit, HandPlace::Drops).z - at(&cockpit, HandPlace::Hoods).z;
        let flare = cockpit.bend().flare_rad().to_degrees();
        if flare > 0.5 {
            flared += 1;
            assert!(outside > 0.0, "{}: {outside:.1}", fit.bar.id);
        } else if flare == 0.0
            && matches!(fit.bar.flare, Flare::Angle { .. })
            && fit.bar.ramp_outsweep_deg == 0.0
        {
            straight += 1;
            assert!(outside.abs() < 1e-9, "{}: {outside}", fit.bar.id);
        }
    }
    println!("{flared} flared, {straight} not");
    assert!(flared > 100 && straight > 100, "both were met");
}

#[test]
fn growing_one_dimension_moves_hands_and_trunk_the_right_way() {
    let (mut deeper_bars, mut level_stems) = (0, 0);
    let mut most_by_width = 0.0_f64;
    for fit in fits(MANY) {
        let before = fit.cockpit();
        let changed = |c: &Cockpit, place| {
            let hand = at(c, place) - at(&before, place);
            (hand, trunk_deg(&fit, c, place) - trunk_deg(&fit, &before, place))
        };
        let bar = |reach: f64, drop: f64| fit_doc::Bar {
            reach_mm: fit.bar.reach_mm + reach,
            drop_mm: fit.bar.drop_mm + drop,
            ..fit.bar.clone()
        };

        let longer = fit.with(&bar(8.0, 0.0), fit.stem, fit.spacers_mm, fit.roll_rad);
        for place in [HandPlace::Hoods, HandPlace::Drops] {
            let (hand, trunk) = changed(&longer, place);
            assert!(hand.x > 0.0 && trunk < 0.0, "reach, {place:?}: {hand} {trunk}");
        }
        let deeper_bar = bar(0.0, 5.0);
        if fit_doc::geometry::dimensions(&deeper_bar).build().is_ok() {
            let deeper = fit.with(&deeper_bar, fit.stem, fit.spacers_mm, fit.roll_rad);
            let (hand, trunk) = changed(&deeper, HandPlace::Drops);
            assert!(hand.y < 0.0 && trunk < 0.0, "drop: {hand} {trunk}");
            deeper_bars += 1;
        }
        let stem = Stem { length_mm: fit.stem.length_mm + 10.0, ..fit.stem };
        let longer_stem = fit.with(&fit.bar, stem, fit.spacers_mm, fit.roll_rad);
        let raised = fit.with(&fit.bar, fit.stem, fit.spacers_mm + 10.0, fit.roll_rad);
        for place in HandPlace::ALL {
            let (hand, trunk) = changed(&longer_stem, place);
            // along itself, at its angle from the perpendicular to the steerer
            let slope_rad = (90.0 - fit.frame.head_angle_deg).to_radians() + fit.stem.angle_rad;
            let along = DVec3::new(10.0 * slope_rad.cos(), 10.0 * slope_rad.sin(), 0.0);
            assert!(hand.distance(along) < 1e-9, "stem, {place:?}: {hand} {along}");
            // a steep stem lifts as much as it lengthens: only a level one is sure to lower
            if hand.y.abs() < hand.x / 3.0 {
                assert!(hand.x > 0.0 && trunk < 0.0, "stem, {place:?}: {hand} {trunk}");
                level_stems += 1;
            }
            let (hand, trunk) = changed(&raised, place);
            assert!(hand.y > 9.0 && trunk > 0.0, "spacers, {place:?}: {hand} {trunk}");
        }
        // the lever stays where it is clamped and turns with the bar
        let rolled = rolled_with_levers(&fit, 2.0);
        let (hand, trunk) = changed(&rolled, HandPlace::Hoods);
        assert!(hand.y > 0.0 && trunk > 0.0, "roll: {hand} {trunk}");

        let wider_bar =
            fit_doc::Bar { width_mm: fit.bar.width_mm + 20.0, ..widened_ends(&fit.bar) };
        let wider = fit.with(&wider_bar, fit.stem, fit.spacers_mm, fit.roll_rad);
        let (hand, trunk) = changed(&wider, HandPlace::Hoods);
        assert!(hand.z > 5.0, "width: {hand}");
        assert!(trunk.is_finite());
        most_by_width = most_by_width.max(trunk.abs());
    }
    println!("20 mm more width changes the trunk by {most_by_width:.2}° at the most");
    assert!(most_by_width < 1.0, "width is no argument about posture");
    held_for("more drop", deeper_bars, MANY, 0.95);
    // of the shop's stems some seven in ten lie within 18° of level on such heads
    held_for("a longer stem", level_stems, MANY * HandPlace::ALL.len(), 0.65);
}

fn widened_ends(bar: &fit_doc::Bar) -> fit_doc::Bar {
    match bar.flare {
        Flare::EndsWidth { mm, how } => {
            fit_doc::Bar { flare: Flare::EndsWidth { mm: mm + 20.0, how }, ..bar.clone() }
        }
        Flare::Angle { .. } => bar.clone(),
    }
}

fn rolled_with_levers(fit: &Fit, more_deg: f64) -> Cockpit {
    let before = fit.cockpit();
    Cockpit::new(
        *before.front(),
        *before.stem(),
        before.spacers_mm(),
        before.bend().clone(),
        before.roll_rad() + more_deg.to_radians(),
        before.levers().cloned(),
        0.0,
    )
    .unwrap()
}

/// The arc of the bend on which the right lever of a cockpit sits, by its index.
fn arc_of_lever(cockpit: &Cockpit) -> Option<(usize, Arc)> {
    let bend = cockpit.bend();
    let s_mm = bend.s_from_along(cockpit.levers()?.right.along_mm);
    let pieces = bend.chain().pieces();
    let index = (0..pieces.len()).rfind(|&index| bend.chain().piece_start_mm(index) <= s_mm)?;
    match pieces[index] {
        Piece::Arc(arc) => Some((index, arc)),
        Piece::Line(_) => None,
    }
}

/// With the levers moved so that they point where they did, a roll moves the hoods as it moves the
/// centre of the arc that the lever sits on: on a circle the place of one heading keeps its place
/// from the centre. Up, since that lies ahead of the clamp, and forward, since it lies below.
#[test]
fn a_roll_with_the_levers_kept_at_their_heading_carries_the_hoods_with_the_hook() {
    let (mut on_one_arc, mut moved) = (0, Vec::new());
    for fit in fits(MANY) {
        let before = fit.cockpit();
        for more_deg in [-2.0_f64, 2.0] {
            let roll_rad = fit.roll_rad + more_deg.to_radians();
            let after = fit.with(&fit.bar, fit.stem, fit.spacers_mm, roll_rad);
            assert_eq!(after.clamp(), before.clamp(), "the stem stays where it was");
            let turn = DAffine3::from_rotation_z(more_deg.to_radians());
            let clamp = before.clamp().extend(0.0);
            for place in HandPlace::ALL {
                if before.grips(place) != before.grips(HandPlace::Hoods) {
                    let turned = clamp + turn.transform_vector3(at(&before, place) - clamp);
                    assert!(at(&after, place).distance(turned) < 1e-9, "{place:?}");
                }
            }
            let hoods = at(&after, HandPlace::Hoods) - at(&before, HandPlace::Hoods);
            let (Some((old, arc)), Some((new, _))) = (arc_of_lever(&before), arc_of_lever(&after))
            else {
                continue;
            };
            if before.bend().flare_rad() != 0.0 || fit.bar.ramp_outsweep_deg != 0.0 || old != new {
                continue;
            }
            on_one_arc += 1;
            let of_clamp = before.bike_from_bar().transform_vector3(arc.centre());
            let expected = turn.transform_vector3(of_clamp) - of_clamp;
            assert!(hoods.distance(expected) < 1e-6, "{}: {hoods} {expected}", fit.bar.id);
            assert!(hoods.y * more_deg > 0.0 && hoods.x * more_deg > 0.0, "{hoods}");
            let line = |c: &Cockpit| {
                let [_, right] = c.lever_poses().unwrap();
                c.bike_from_bar().transform_vector3(right.hood_line())
            };
            assert!(line(&after).distance(line(&before)) < 1e-9, "the hood points where it did");
            if more_deg > 0.0 {
                moved.push(hoods);
            }
        }
    }
    let [forward, up] = [0, 1].map(|axis| spread(moved.iter().map(|by| by[axis]).collect())[1]);
    println!("{on_one_arc} rolls by 2° at one heading: median {forward:+.1} forward, {up:+.1} up");
    assert!(on_one_arc > MANY / 2, "{on_one_arc}");
}

#[test]
fn a_grip_further_forward_lowers_the_trunk_and_a_higher_one_raises_it() {
    use fit_math::posture::{Grips, solve};
    for fit in fits(MANY) {
        let cockpit = fit.cockpit();
        for place in HandPlace::ALL {
            let trunk = |by: DVec3| {
                let grips = Grips::symmetric(at(&cockpit, place) + by).unwrap();
                let posture = solve(&fit.rider, &fit.seat, &grips, place, None);
                posture.report(&fit.rider, &fit.seat, &grips, place).trunk_rad
            };
            let here = trunk(DVec3::ZERO);
            assert!(trunk(DVec3::X * 5.0) < here, "{place:?}");
            assert!(trunk(DVec3::Y * 5.0) > here, "{place:?}");
        }
    }
}

/// Outer edges of the acromia further apart than the shoulder joints, mm: as the body has it.
const ACROMIA_BEYOND_JOINTS_MM: f64 = 40.0;

/// 5 %, median and 95 %.
fn spread(mut values: Vec<f64>) -> [f64; 3] {
    values.sort_by(f64::total_cmp);
    let last = values.len() - 1;
    [last / 20, last / 2, last * 19 / 20].map(|index| values[index])
}

/// 20 mm further out on each side asks of the arm what a few mm further forward do: on bars that
/// such a rider would be shown, a size narrower than the shoulders to two sizes wider. Much
/// narrower than the shoulders a wider bar brings the hands nearer to them and costs nothing.
#[test]
fn forty_millimetres_of_width_cost_one_to_three_of_reach() {
    let (mut all, mut fitting) = (Vec::new(), Vec::new());
    for fit in fits(MANY) {
        let cockpit = fit.cockpit();
        let grip = at(&cockpit, HandPlace::Hoods);
        let (posture, _) = fit.posture(&cockpit, HandPlace::Hoods);
        let grips = fit_math::posture::Grips::symmetric(grip).unwrap();
        let figure = posture.figure(&fit.rider, &fit.seat, &grips, HandPlace::Hoods, 0.0);
        let towards = grip - figure.arm(fit_math::frame::Side::Right).shoulder;
        // the same distance to the shoulder with the hand further out and a little nearer
        let out = towards.z + 20.0;
        let square = towards.x.powi(2) + towards.z.powi(2) - out.powi(2);
        let cost_mm = towards.x - square.sqrt();
        let joints_mm = fit.rider.segments().lengths().shoulders_apart_mm;
        let wider_mm = 2.0 * grip.z - joints_mm - ACROMIA_BEYOND_JOINTS_MM;
        if (-20.0..=40.0).contains(&wider_mm) {
            fitting.push(cost_mm);
        }
        all.push(cost_mm);
    }
    let count = fitting.len();
    let extremes = fitting.iter().fold([f64::INFINITY, f64::NEG_INFINITY], |[least, most], &mm| {
        [least.min(mm), most.max(mm)]
    });
    let (of_all, of_fitting) = (spread(all), spread(fitting));
    println!(
        "40 mm of width for reach, 5 %, median and 95 %: {of_fitting:.1?} mm on {count} bars near \
         the shoulders' width ({extremes:.1?} at the most), {of_all:.1?} mm on any bar"
    );
    assert!(count > MANY / 4, "{count}");
    assert!(of_fitting[0] >= 1.0 && of_fitting[2] <= 3.0, "{of_fitting:?}");
    assert!(extremes[0] > 0.8 && extremes[1] < 3.2, "{extremes:?}");
    assert!((1.0..3.0).contains(&of_all[1]) && of_all[0] > -0.5 && of_all[2] < 4.5, "{of_all:?}");
}

/// From the middle of a fist around the bar to its outside, mm: the back of the hand lies outside
/// the bar by the bar's half and the thickness of the hand (about 12 and 28 mm, from memory).
const FIST_OUTSIDE_MM: f64 = 40.0;

#[test]
fn the_first_width_is_the_shoulders_and_the_hands_stand_just_outside() {
    let stock = fit_file::stock::shipped().unwrap();
    let bends: Vec<_> = stock
        .bars
        .iter()
        .map(|bar| fit_doc::geometry::dimensions(bar).build().unwrap())
        .filter(|bend| bend.flare_rad() < 5_f64.to_radians())
        .collect();
    let mut widths: Vec<f64> = bends.iter().map(fit_math::bar::Bend::width_hoods_cc_mm).collect();
    widths.sort_by(f64::total_cmp);
    widths.dedup();
    // shoulders from the trade's usual range, as far as the rack goes
    let (mut narrower, mut wider, mut outside) = (0, 0, [f64::INFINITY, f64::NEG_INFINITY]);
    for shoulders_mm in (345..=455).map(f64::from) {
        let first = fit_math::choose::first_width_mm(shoulders_mm, &widths).unwrap();
        // no width of the rack lies nearer
        let at = widths.iter().position(|width| *width == first).unwrap();
        for other in [at.wrapping_sub(1), at + 1].iter().filter_map(|&at| widths.get(at)) {
            assert!((other - shoulders_mm).abs() >= (first - shoulders_mm).abs(), "{shoulders_mm}");
        }
        narrower += usize::from(first < shoulders_mm);
        wider += usize::from(first > shoulders_mm);
        for bend in bends.iter().filter(|bend| bend.width_hoods_cc_mm() == first) {
            let fist = bend.drops_station().point.z + FIST_OUTSIDE_MM;
            let by = fist - shoulders_mm / 2.0;
            outside = [outside[0].min(by), outside[1].max(by)];
        }
    }
    println!("of 111: {narrower} narrower, {wider} wider; fists outside by {outside:.0?} mm");
    // neither the next narrower nor the next wider one is always taken
    assert!(narrower > 30 && wider > 30, "{narrower} narrower, {wider} wider");
    // just outside: beyond the bony point, by no more than a fist's breadth (85 mm, from memory)
    assert!(outside[0] > 0.0 && outside[1] < 85.0, "{outside:?}");
}
