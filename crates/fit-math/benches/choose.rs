//! The best of a shop's assemblies, beside putting each together and solving it.
//!
//! Run with `cargo bench -p fit-math --bench choose`. Processor time of one thread, then wall time on
//! two; printed, never judged. The plain loop runs over a part of the same shop, evenly spread, and
//! is scaled up to the whole. Judged is what no slow machine excuses: one thread and two find the
//! same, and ten times the assemblies hold no more memory but for their parts.

#![expect(clippy::print_stdout, clippy::expect_used, reason = "it says what is timed")]

#[path = "../tests/common/lever.rs"]
mod lever;

use cap::Cap;
use core::sync::atomic::{AtomicUsize, Ordering};
use fit_math::bar::{BarDimensions, Bend, Family};
use fit_math::body::{Body, Segments, Sex, Survey};
use fit_math::choose::{
    Aim, Answer, Asked, AtHands, Axis, Bar, Found, Front, Number, OfBar, Pick, Question, STEP_MM,
    Search, Setting, Shape, Shop, StemOffer,
};
use fit_math::cockpit::{FrontEnd, LeverPair, Mount, Stem, move_lever};
use fit_math::posture::{HandPlace, Joint, Limits, Rider};
use fit_math::saddle::{Saddle, Seat};
use rustix::time::{ClockId, clock_gettime};
use std::alloc::System;
use std::hint::black_box;
use std::sync::Arc;

/// Counts the bytes that are held, and hands everything on.
#[global_allocator]
static HEAP: Cap<System> = Cap::new(System, usize::MAX);

/// Answers asked for.
const MOST: usize = 12;
/// Most bytes that a search may hold while it runs, besides what it has made ready.
const SPARE: usize = 512 * 1024;
/// Assemblies that the plain loop tries.
const PLAIN: usize = 20_000;

/// Processor time of this thread so far, ms.
fn cpu_ms() -> f64 {
    ms(ClockId::ThreadCPUTime)
}

fn ms(clock: ClockId) -> f64 {
    let time = clock_gettime(clock);
    time.tv_sec as f64 * 1e3 + time.tv_nsec as f64 / 1e6
}

/// A bend of that reach, or of the next longer one that can be bent.
fn bend(reach_mm: f64, drop_mm: f64, width_mm: f64, family: Family) -> Arc<Bend> {
    let of = |longer: u32| {
        let reach_mm = reach_mm + f64::from(longer);
        BarDimensions::usual(family, reach_mm, drop_mm, width_mm).build().ok()
    };
    Arc::new((0..20).find_map(of).expect("it can be bent"))
}

/// So many bars: reaches, drops, widths and families over and over, the present one first.
fn bars(count: u32, settings: (u32, u32)) -> Vec<Bar> {
    let shape = Arc::new(lever::lever(&[0.0, -4.0]));
    let present = bend(80.0, 130.0, 420.0, Family::Round);
    let present_mm = present.along_from_s(present.default_clamp().s_mm);
    let bar = |id: u32| {
        let n = f64::from(id);
        let family = [Family::Round, Family::Variable, Family::Flat][id as usize % 3];
        let bend = if id == 0 {
            present.clone()
        } else {
            bend(
                68.0 + (n * 3.7) % 22.0,
                112.0 + (n * 5.3) % 28.0,
                370.0 + (n * 7.1) % 80.0,
                family,
            )
        };
        let along_mm = move_lever((&present, 0.0), present_mm, (&bend, 0.0)).along_mm;
        let mount = Mount { along_mm, turn_in_rad: 0.0, clicks: 0 };
        let levers = LeverPair { shape: shape.clone(), left: mount, right: mount };
        let zone_mm = bend.clamp_zone();
        let (rolls, shifts) = settings;
        let half = f64::from(rolls / 2) / 2.0;
        let mut rolls_of = Bar::half_degrees(-half, half, 0.0, 0.02);
        rolls_of.truncate(rolls as usize);
        let mut shifts_of = Bar::whole_mm(&bend, &levers, zone_mm, 0.05);
        // as many lever places on every bar, so that assemblies can be counted beforehand
        while shifts_of.len() < shifts as usize {
            let at = shifts_of.len() as f64 / 10.0;
            shifts_of.push(Setting { at: at.fract(), effort: 0.05, jobs: 0 });
        }
        shifts_of.truncate(shifts as usize);
        Bar {
            id,
            levers,
            lever_clamp_mm: 24.0,
            zone_mm,
            drops_hand_mm: 0.0,
            rolls: rolls_of,
            shifts: shifts_of,
            rolls_at: Vec::new(),
            own_stem: None,
            effort: if id == 0 { 0.0 } else { 0.35 + (n * 0.013) % 0.3 },
            jobs: 0,
            price: None,
            is_there: false,
            bend,
        }
    };
    (0..count).map(bar).collect()
}

fn shop(bar_count: u32, stem_count: u32, settings: (u32, u32)) -> Shop {
    let stem = |id: u32| {
        let angle_deg = [-6.0_f64, 6.0, -17.0, 17.0][id as usize % 4];
        let length_mm = 70.0 + f64::from(id / 4) * 60.0 / f64::from(stem_count.div_ceil(4));
        let stem = Stem { length_mm, angle_rad: angle_deg.to_radians(), clamp_height_mm: 40.0 };
        let effort = if id == 0 { 0.0 } else { 0.15 };
        StemOffer { id, stem, clamps_mm: 31.8, effort, jobs: 0, price: None, is_there: false }
    };
    let spacers = (0..5).map(|k| Setting {
        at: 5.0 * f64::from(k),
        effort: if k == 2 { 0.0 } else { 0.05 },
        jobs: 0,
    });
    Shop {
        front: FrontEnd {
            stack_mm: 560.0,
            reach_mm: 390.0,
            head_angle_rad: 73_f64.to_radians(),
            headset_cover_mm: 10.0,
        },
        bars: bars(bar_count, settings),
        stems: (0..stem_count).map(stem).collect(),
        spacers: spacers.collect(),
        present: Some(Pick { bar: 0, stem: Some(0), spacers: 2, roll: 0, shift: 0 }),
        minutes: Vec::new(),
    }
}

/// A client who wants his neck and back eased a little, and reaches his brakes badly.
fn asked() -> Asked {
    let deg = f64::to_radians;
    let at = |place, what, weight, shape| Aim { of: Number::Hands(place, what), weight, shape };
    let (hoods, drops, tops) = (0, 1, 2);
    let aims = vec![
        at(hoods, AtHands::Trunk, 1.0, Shape::Near { at: deg(44.0), scale: deg(6.0) }),
        at(hoods, AtHands::NeckNeed, 1.0, Shape::Enough { from: deg(38.0), enough: deg(30.0) }),
        at(hoods, AtHands::Elbow, 0.5, Shape::NotBelow { least: deg(14.0), scale: deg(10.0) }),
        at(hoods, AtHands::HipMin, 0.5, Shape::NotBelow { least: deg(52.0), scale: deg(8.0) }),
        at(drops, AtHands::NeckNeed, 1.0, Shape::Enough { from: deg(50.0), enough: deg(40.0) }),
        at(drops, AtHands::Elbow, 0.5, Shape::Near { at: deg(30.0), scale: deg(20.0) }),
        at(tops, AtHands::Elbow, 0.5, Shape::NotAbove { most: deg(35.0), scale: deg(15.0) }),
        Aim {
            of: Number::Bar(OfBar::BrakeSpan),
            weight: 0.6,
            shape: Shape::Enough { from: 82.0, enough: 72.0 },
        },
        Aim {
            of: Number::Bar(OfBar::Width),
            weight: 0.4,
            shape: Shape::Near { at: 400.0, scale: 40.0 },
        },
    ];
    let places = vec![(HandPlace::Hoods, 0.6), (HandPlace::Drops, 0.25), (HandPlace::Tops, 0.15)];
    Asked { places, aims, palm_mm: 84.0 }
}

fn rider(limits: Limits) -> Rider {
    let sex = Some(Sex::Male);
    let survey = Survey::shipped().expect("the survey can be read");
    let body = Body::new(&survey, sex, &[]).expect("it is a body");
    Rider::new(Segments::of(&body).expect("it has segments"), sex).with_limits(limits)
}

fn seat() -> Seat {
    let saddle = Saddle::new(732.0, 68.0, 140.0, 0.0).expect("it is a saddle");
    Seat::on(&saddle, 172.5).expect("it is a seat")
}

/// Runs the search once and says what it took; the bytes held when ready, over those of the shop.
/// While it runs it may hold [`SPARE`] more: with a byte beyond, the program ends.
fn search(what: &str, rider: &Rider, shop: &Shop) -> usize {
    let (seat, asked) = (seat(), asked());
    let question = Question { rider, seat: &seat, shop, asked: &asked };
    let held = HEAP.allocated();
    let begun = cpu_ms();
    let search = Search::new(question, &[], STEP_MM).expect("it can be searched");
    let ready = cpu_ms() - begun;
    let mut found = Found::none(MOST);
    let prepared = HEAP.allocated() - held;
    HEAP.set_limit(HEAP.allocated() + SPARE).expect("as much is held");
    for chunk in 0..search.chunks() {
        search.run(chunk, &mut found);
    }
    HEAP.set_limit(usize::MAX).expect("no less is held");
    let all = cpu_ms() - begun;
    let nodes: usize = search.tables().map(fit_math::choose::PostureTable::nodes).sum();
    println!(
        "{what}: {} assemblies, {} chunks: {all:.0} ms, of them {ready:.0} to make ready ({nodes} \
         nodes); {} solved; {} kB held when ready, no more than {} kB besides while it runs; the \
         program held no more than {} kB so far",
        search.assemblies(),
        search.chunks(),
        found.solved,
        prepared / 1024,
        SPARE / 1024,
        HEAP.max_allocated() / 1024,
    );
    two_threads(&search, &found);
    if shop.bars.iter().all(|bar| bar.rolls.len() * bar.shifts.len() == 1) {
        try_all(&question, &found);
        return prepared;
    }
    plain(&question, search.assemblies());
    prepared
}

/// The same on two threads that take chunk after chunk, each knowing only its own findings.
fn two_threads(search: &Search<'_>, one: &Found) {
    let begun = ms(ClockId::Monotonic);
    let next = AtomicUsize::new(0);
    let work = || {
        let mut found = Found::none(MOST);
        loop {
            let chunk = next.fetch_add(1, Ordering::Relaxed);
            if chunk >= search.chunks() {
                return found;
            }
            search.run(chunk, &mut found);
        }
    };
    let found = std::thread::scope(|scope| {
        let other = scope.spawn(work);
        let own = work();
        own.joined(other.join().expect("it does not panic"))
    });
    println!("  on two threads, wall time: {:.0} ms", ms(ClockId::Monotonic) - begun);
    assert_eq!(found.answers(), one.answers(), "threads change nothing");
}

/// Every assembly of a shop in which each has other parts, put together and solved: the same list.
fn try_all(question: &Question<'_>, found: &Found) {
    let shop = question.shop;
    let begun = cpu_ms();
    let mut best: Vec<Answer> = Vec::new();
    for bar in 0..shop.bars.len() {
        for stem in 0..shop.stems.len() {
            for spacers in 0..shop.spacers.len() {
                let pick = Pick { bar, stem: Some(stem), spacers, roll: 0, shift: 0 };
                let answer = question.answer(&pick).expect("it can be solved");
                let at = best.partition_point(|known| known.comes_before(&answer));
                best.insert(at, answer);
                best.truncate(MOST);
            }
        }
    }
    println!("  plain loop over all: {:.1} s", (cpu_ms() - begun) / 1e3);
    assert_eq!(found.answers(), best, "the same list as trying everything");
}

/// Puts assemblies together and solves them, evenly spread over the shop.
fn plain(question: &Question<'_>, assemblies: u64) {
    let shop = question.shop;
    let begun = cpu_ms();
    let mut best = f64::NEG_INFINITY;
    for turn in 0..PLAIN {
        let spread = |count: usize, prime: usize| (turn * prime) % count;
        let bar = spread(shop.bars.len(), 7919);
        let pick = Pick {
            bar,
            stem: Some(spread(shop.stems.len(), 104_729)),
            spacers: spread(shop.spacers.len(), 1_299_709),
            roll: spread(shop.bars[bar].rolls.len(), 15_485_863),
            shift: spread(shop.bars[bar].shifts.len(), 32_452_843),
        };
        best = best.max(question.answer(&pick).expect("it can be solved").worth);
    }
    black_box(best);
    let each_us = (cpu_ms() - begun) * 1e3 / PLAIN as f64;
    println!(
        "  plain loop over {PLAIN}: {each_us:.1} µs each, for all {:.1} s",
        each_us * assemblies as f64 / 1e6
    );
}

/// Every assembly's place between neck on the hoods and effort.
fn front(rider: &Rider, shop: &Shop) {
    let (seat, asked) = (seat(), asked());
    let question = Question { rider, seat: &seat, shop, asked: &asked };
    let begun = cpu_ms();
    let search = Search::new(question, &[], STEP_MM).expect("it can be searched");
    for axes in [[Axis::Aim(1), Axis::Effort], [Axis::Aim(0), Axis::Aim(5)]] {
        let mut front = Front::none(axes);
        for chunk in 0..search.chunks() {
            search.run_front(chunk, &mut front).expect("the axes are aims");
        }
        println!(
            "front over {axes:?}, {} assemblies: {:.0} ms so far; {} points, {} solved",
            search.assemblies(),
            cpu_ms() - begun,
            front.points().len(),
            front.solved
        );
    }
}

/// The same shop with everything free: nothing but the aims tells assemblies apart.
fn free_of_effort(mut shop: Shop) -> Shop {
    let free = |settings: &mut Vec<Setting>| settings.iter_mut().for_each(|s| s.effort = 0.0);
    free(&mut shop.spacers);
    shop.stems.iter_mut().for_each(|stem| stem.effort = 0.0);
    for bar in &mut shop.bars {
        bar.effort = 0.0;
        free(&mut bar.rolls);
        free(&mut bar.shifts);
    }
    shop
}

fn main() {
    let free = rider(Limits::usual());
    let stiff = Limits::usual().with_reading(Joint::Neck, 30_f64.to_radians(), false);
    let stiff = rider(stiff.expect("it is a reading"));
    // smaller ones first, so that the most that was held so far is theirs
    let million = shop(25, 20, (16, 25));
    search("a million", &free, &million);
    let held_for_one = search("a million of as many bars", &free, &shop(250, 20, (4, 10)));
    let ten = shop(250, 20, (16, 25));
    let held_for_ten = search("ten millions", &free, &ten);
    // what is held is of parts and settings, not of what is made of them
    assert!(held_for_ten < 4 * held_for_one, "{held_for_ten} and {held_for_one} bytes");
    let real = shop(300, 60, (1, 1));
    search("a shop of 300 bars and 60 stems, one roll and lever place", &free, &real);
    search("the same, a client whose neck turns 30°", &stiff, &real);
    let mut uneven = shop(300, 60, (1, 1));
    uneven.bars.iter_mut().for_each(|bar| bar.levers.left.along_mm += 3.0);
    search("the same shop, one lever 3 mm higher than the other", &free, &uneven);
    search("ten millions without efforts", &free, &free_of_effort(ten));
    search("ten millions, a client whose neck turns 30°", &stiff, &shop(250, 20, (16, 25)));
    search("a million in few parts and many settings", &free, &shop(10, 10, (40, 50)));
    front(&free, &million);
}
