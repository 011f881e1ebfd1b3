//! How long a look through a shop takes as the window and the command ask for it, beside a plain loop that
//! puts a part of the same shop together and solves it, scaled up to the whole.
//!
//! Run with `cargo bench -p acceptance --bench choose`. Processor time of one thread; printed, never
//! judged.

#![expect(clippy::print_stdout, clippy::expect_used, reason = "it says what is timed")]

use core::hint::black_box;
use fit_doc::edit::carry_levers;
use fit_doc::{Bar, Cockpit, Frame, Place, Session, Stem, Stock, geometry};
use fit_math::HandPlace;
use fit_math::body::Survey;
use fit_math::posture::{Grips, solve};
use fit_view::choose::{Ask, Progress};
use fit_view::weigh::{Weighed, weigh};
use fit_view::words::English;
use rustix::time::{ClockId, clock_gettime};

/// The sizes of the larger shop.
const BARS: usize = 300;
const STEMS: usize = 60;
/// Assemblies that the plain loop tries.
const PLAIN: usize = 5000;
/// How often each is timed; the least is told.
const TIMES: usize = 5;

/// Processor time of this thread so far, ms.
fn cpu_ms() -> f64 {
    let time = clock_gettime(ClockId::ThreadCPUTime);
    time.tv_sec as f64 * 1e3 + time.tv_nsec as f64 / 1e6
}

/// What it gives, and the least that it took of some times.
fn timed<T>(of: impl Fn() -> T) -> (T, f64) {
    let mut best = f64::INFINITY;
    let mut once = || {
        let begun = cpu_ms();
        let made = of();
        best = best.min(cpu_ms() - begun);
        made
    };
    let mut made = once();
    for _ in 1..TIMES {
        made = once();
    }
    (made, best)
}

fn session(name: &str) -> Session {
    let file = format!("{}/../sessions/{name}.session.ron", env!("CARGO_MANIFEST_DIR"));
    fit_file::open(file.as_ref()).expect("it opens").session
}

/// The shipped stock over and over, a millimetre of reach and of drop more each time.
fn larger(stock: &Stock) -> Stock {
    let bar = |(at, bar): (usize, &Bar)| {
        let more_mm = f64::from(u32::try_from(at / stock.bars.len()).unwrap_or(0));
        let id = format!("{}-{at}", bar.id);
        Bar { id, reach_mm: bar.reach_mm + more_mm, drop_mm: bar.drop_mm + more_mm, ..bar.clone() }
    };
    let stem =
        |(at, stem): (usize, &Stem)| Stem { id: format!("{}-{at}", stem.id), ..stem.clone() };
    Stock {
        bars: stock.bars.iter().cycle().take(BARS).enumerate().map(bar).collect(),
        stems: stock.stems.iter().cycle().take(STEMS).enumerate().map(stem).collect(),
        ..stock.clone()
    }
}

/// Puts assemblies of bars, stems, spacers and rolls together, evenly spread, and solves hoods and drops.
fn plain(weighed: &Weighed, frame: &Frame, stock: &Stock) -> f64 {
    let came = weighed.as_it_came().expect("it is there");
    let on = |bar: &Bar| {
        let mut cockpit = Cockpit { bar: bar.clone(), ..came.parts.clone() };
        let carried = !bar.no_levers && carry_levers(&came.parts, &mut cockpit).is_ok();
        carried.then_some(cockpit)
    };
    let bars: Vec<Cockpit> = stock.bars.iter().filter_map(on).collect();
    let (_, ms) = timed(|| {
        let mut lowest = f64::INFINITY;
        for turn in 0..PLAIN {
            let mut cockpit = bars[turn * 7919 % bars.len()].clone();
            cockpit.stem.clone_from(&stock.stems[turn * 104_729 % stock.stems.len()]);
            cockpit.stem.bar_diameter_mm = cockpit.bar.clamp_diameter_mm;
            cockpit.spacers_mm = [0.0, 5.0, 10.0, 15.0, 20.0][turn % 5];
            cockpit.roll_deg = [-2.0, -1.0, 0.0, 1.0, 2.0, 3.0][turn % 6];
            let Ok(built) = geometry::cockpit(&Place::cockpit("plain"), frame, &cockpit) else {
                continue;
            };
            for place in [HandPlace::Hoods, HandPlace::Drops] {
                let Some(pair) = built.grips(place) else { continue };
                let Ok(grips) = Grips::new(pair.right.centre, pair.left.centre) else { continue };
                let posture = solve(&weighed.rider, &came.seat, &grips, place, None);
                let report = posture.report(&weighed.rider, &came.seat, &grips, place);
                lowest = lowest.min(report.neck_need_rad);
            }
        }
        black_box(lowest)
    });
    ms / PLAIN as f64
}

fn look(what: &str, session: &Session, stock: &Stock) {
    let survey = Survey::shipped().expect("the survey can be read");
    let visit = session.latest_visit().expect("it has a visit");
    let weighed = weigh(session, None, &survey).expect("the bench weighs");
    let (ask, asking) = timed(|| Ask::new(session, visit, &weighed, stock).expect("it has levers"));
    let (outcome, searching) = timed(|| {
        ask.search(&Progress::default()).expect("it can be searched").expect("nobody stops it")
    });
    let advise = || ask.advise(session, visit, &survey, &outcome, 8, &English);
    let (advice, telling) = timed(|| advise().expect("it can be weighed"));
    let (balance, balancing) = timed(|| {
        let axes = ask.first_axes();
        ask.trade_off(axes, |_, _| true, &Progress::default())
            .expect("it can be searched")
            .expect("not stopped")
    });
    let looked = outcome.counted.looked_through();
    println!(
        "{what}: {looked} assemblies of {}; asked {asking:.0} ms, searched {searching:.0} ms, told \
         {telling:.0} ms ({} answers); a trade-off {balancing:.0} ms ({} points)",
        outcome.counted.assemblies,
        advice.answers.len(),
        balance.len(),
    );
    let each_ms = plain(&weighed, &weighed.bike.frame, stock);
    println!(
        "  plain loop over {PLAIN}: {:.1} µs each, for all {:.1} s",
        each_ms * 1e3,
        each_ms * looked as f64 / 1e3
    );
}

fn main() {
    let shipped = fit_file::stock::shipped().expect("the stock can be read");
    let larger = larger(&shipped);
    // one thread, so that its processor time is all there is
    let one = rayon::ThreadPoolBuilder::new().num_threads(1).build().expect("a thread");
    one.install(|| {
        for name in ["demo", "stiff-neck", "small-hands"] {
            let session = session(name);
            look(&format!("{name}, the shipped stock"), &session, &shipped);
            look(&format!("{name}, {BARS} bars and {STEMS} stems"), &session, &larger);
        }
    });
}
