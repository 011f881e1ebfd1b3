//! How long a bench takes: weighing, picture, and opening the file it comes from.
//!
//! Run with `cargo bench -p acceptance`. Times are printed, never judged.

#![expect(clippy::expect_used, reason = "a bench that cannot begin has failed")]
#![expect(clippy::print_stdout, reason = "it says what is timed")]

use acceptance::window::demo_with;
use fit_doc::{Joint, Mobility, Place, Session, geometry};
use fit_math::HandPlace;
use fit_math::body::Survey;
use fit_math::doubt::{Asked, Nearby, Slopes, asked};
use fit_math::effect::silhouette::{Flesh, TOLERANCE, frontal_area_m2};
use fit_math::posture::{Grips, solve};
use fit_view::detail::detail;
use fit_view::picture::{SideChoice, side_page};
use fit_view::weigh::{Doubted, doubtful, weigh, weigh_visit};
use fit_view::words::English;
use std::sync::Arc;

/// Cranks level, radians from the top.
const LEVEL: f64 = core::f64::consts::FRAC_PI_2;
/// How far a stiff neck goes back, degrees: in the drops that is too little.
const STIFF_DEG: f64 = 36.0;

fn main() {
    let session = twelve();
    let survey = Survey::shipped().expect("the survey can be read");
    let weighed = weigh(&session, None, &survey).expect("the bench weighs");
    let postures: usize = weighed.cockpits.iter().map(|c| c.places.len()).sum();
    println!("{} cockpits, {postures} postures", weighed.cockpits.len());
    assert_eq!(postures, 12 * HandPlace::COUNT);
    divan::main();
}

/// As it came and eleven candidates.
fn twelve() -> Session {
    demo_with(11)
}

/// Twelve cockpits in every hand place: parts put together, postures solved and reported, wrists,
/// travel, ranges checked.
#[divan::bench]
fn weigh_twelve_cockpits(bencher: divan::Bencher<'_, '_>) {
    let session = twelve();
    let survey = Survey::shipped().expect("the survey can be read");
    let visit = session.visits.last().expect("it has a visit");
    bencher.bench(|| weigh_visit(divan::black_box(&session), visit, &survey));
}

/// The same with the outline that the wind sees of each posture.
#[divan::bench]
fn weigh_twelve_cockpits_and_their_outlines(bencher: divan::Bencher<'_, '_>) {
    let session = twelve();
    let survey = Survey::shipped().expect("the survey can be read");
    let visit = session.visits.last().expect("it has a visit");
    bencher.bench(|| {
        let weighed = weigh_visit(divan::black_box(&session), visit, &survey).expect("it weighs");
        let flesh = Flesh::of(&weighed.body);
        let outlines = weighed.cockpits.iter().flat_map(|of| {
            let figures = of.places.keys().filter_map(|&at| of.figure(&weighed.rider, at, LEVEL));
            figures.map(|figure| frontal_area_m2(&figure, &flesh, TOLERANCE)).collect::<Vec<_>>()
        });
        outlines.sum::<f64>()
    });
}

/// Places that a hand is held in.
const FIVE: [HandPlace; 5] =
    [HandPlace::Tops, HandPlace::Ramps, HandPlace::Hoods, HandPlace::Drops, HandPlace::Ends];

/// The sums alone of twelve candidates in five hand places: parts put together, postures solved, every
/// angle reported, wrists among them; without and with outlines. No checks, brakes or doubt.
#[divan::bench(args = [false, true])]
fn sums_of_twelve_candidates(bencher: divan::Bencher<'_, '_>, outlines: bool) {
    let survey = Survey::shipped().expect("the survey can be read");
    let weighed = weigh(&demo_with(12), None, &survey).expect("the bench weighs");
    let candidates = &weighed.cockpits[1..];
    assert_eq!(candidates.len(), 12);
    let flesh = Flesh::of(&weighed.body);
    let (frame, rider) = (&weighed.bike.frame, &weighed.rider);
    let place = Place::cockpit("candidate");
    bencher.bench(|| {
        let mut area_m2 = 0.0;
        for of in divan::black_box(candidates) {
            let built = geometry::cockpit(&place, frame, &of.parts).expect("it was built before");
            for at in FIVE {
                let pair = built.grips(at).expect("it has levers");
                let grips = Grips::new(pair.right.centre, pair.left.centre).expect("on the bike");
                let posture = solve(rider, &of.seat, &grips, at, None);
                let report = posture.report(rider, &of.seat, &grips, at);
                divan::black_box(asked(&report, &pair, at));
                if outlines {
                    let figure = posture.figure(rider, &of.seat, &grips, at, LEVEL);
                    area_m2 += frontal_area_m2(&figure, &flesh, TOLERANCE);
                }
            }
        }
        area_m2
    });
}

/// All effects of one cockpit in one place with their slopes, as the details ask for them.
#[divan::bench]
fn effects_of_one_place(bencher: divan::Bencher<'_, '_>) {
    let survey = Survey::shipped().expect("the survey can be read");
    let session = twelve();
    let visit = session.visits.last().expect("it has a visit");
    let weigh = || weigh_visit(&session, visit, &survey).expect("it weighs");
    bencher
        .with_inputs(weigh)
        .bench_refs(|weighed| weighed.effects(&weighed.cockpits[1], HandPlace::Hoods));
}

/// How sure everything that changes is, to first order: slopes of twelve candidates and the cockpit as it
/// came in five hand places, and every number's change with them. Part of each weighing, here by itself.
#[divan::bench]
fn how_sure_twelve_candidates_are(bencher: divan::Bencher<'_, '_>) {
    let survey = Survey::shipped().expect("the survey can be read");
    let weighed = weigh(&demo_with(12), None, &survey).expect("the bench weighs");
    bencher.bench(|| {
        let nearby = Nearby::to(divan::black_box(&weighed.rider));
        for of in &weighed.cockpits {
            for at in FIVE {
                let place = &of.places[&at];
                divan::black_box(Slopes::of(&nearby, &of.seat, &place.grips, at, &place.posture));
                for asked in Asked::ALL {
                    let number = Doubted::At(at, asked);
                    divan::black_box(weighed.change_sd(&weighed.cockpits[0], of, number, 0.1));
                }
            }
        }
    });
}

/// The same drawn instead of followed: six candidates and the cockpit as it came in three hand places, on
/// two threads, as draws a second. Of a client who is nowhere at a limit, and of one whose neck is.
#[divan::bench(args = [false, true], sample_count = 20)]
fn draw_how_sure_six_candidates_are(bencher: divan::Bencher<'_, '_>, stiff: bool) {
    let survey = Survey::shipped().expect("the survey can be read");
    let mut session = demo_with(6);
    if stiff {
        let visit = Arc::make_mut(session.visits.last_mut().expect("it has a visit"));
        visit.mobility = vec![Mobility::measured(Joint::Neck, STIFF_DEG)];
    }
    let visit = session.visits.last().expect("it has a visit");
    let mut weighed = weigh_visit(&session, visit, &survey).expect("the bench weighs");
    for of in &mut weighed.cockpits {
        of.places
            .retain(|at, _| matches!(at, HandPlace::Tops | HandPlace::Hoods | HandPlace::Drops));
    }
    assert_eq!((weighed.cockpits.len(), weighed.is_near_a_limit()), (7, stiff));
    let draws = weighed.sample().draws();
    bencher
        .counter(divan::counter::ItemsCount::new(draws))
        .bench(|| divan::black_box(&weighed).sample_on(2, &|| true));
}

/// Whether the readings of the body go together, asked of each of them.
#[divan::bench]
fn look_for_doubtful_readings(bencher: divan::Bencher<'_, '_>) {
    let session = twelve();
    let survey = Survey::shipped().expect("the survey can be read");
    let visit = session.visits.last().expect("it has a visit");
    bencher.bench(|| doubtful(divan::black_box(&session), visit, &survey));
}

/// What stands behind the differences of one of them, hands in the drops.
#[divan::bench]
fn what_stands_behind_one_cockpit(bencher: divan::Bencher<'_, '_>) {
    let survey = Survey::shipped().expect("the survey can be read");
    let weighed = weigh(&twelve(), None, &survey).expect("the bench weighs");
    bencher.bench(|| {
        detail(divan::black_box(&weighed), &weighed.cockpits[1], HandPlace::Drops, &English)
    });
}

/// The page of those twelve, without drawing it.
#[divan::bench]
fn lay_out_the_side_view(bencher: divan::Bencher<'_, '_>) {
    let survey = Survey::shipped().expect("the survey can be read");
    let weighed = weigh(&twelve(), None, &survey).expect("the bench weighs");
    let choice = SideChoice::usual(&weighed);
    bencher.bench(|| side_page(divan::black_box(&weighed), &choice, &English));
}

/// The page to SVG and on to PNG.
#[divan::bench(sample_count = 10)]
fn draw_the_side_view_as_png(bencher: divan::Bencher<'_, '_>) {
    let survey = Survey::shipped().expect("the survey can be read");
    let weighed = weigh(&twelve(), None, &survey).expect("the bench weighs");
    let picture = side_page(&weighed, &SideChoice::usual(&weighed), &English).expect("a page");
    bencher.bench(|| fit_paper::png(divan::black_box(&picture), 1.0));
}

/// The survey's tables from text.
#[divan::bench]
fn read_the_survey(bencher: divan::Bencher<'_, '_>) {
    bencher.bench(Survey::shipped);
}

/// The demo session from disk, checked.
#[divan::bench]
fn open_the_demo_session(bencher: divan::Bencher<'_, '_>) {
    let path = acceptance::root().join("sessions/demo.session.ron");
    bencher.bench(|| fit_file::open(divan::black_box(&path)));
}
