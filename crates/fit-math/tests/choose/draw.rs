//! Small shops, riders and wishes, drawn. All invented.

use crate::lever::lever;
use crate::random::Random;
use crate::surveyed::Surveyed;
use fit_math::DVec2;
use fit_math::bar::{BarDimensions, Family, Flare};
use fit_math::body::{Body, Dimension, Segments, Sex, Survey};
use fit_math::choose::{
    Aim, Allowed, Asked, AtHands, Bar, Limited, Number, OfBar, Pick, Question, Setting, Shape,
    Shop, StemOffer,
};
use fit_math::cockpit::{FrontEnd, LeverPair, Mount, Stem};
use fit_math::frame::Side;
use fit_math::posture::{HandPlace, Joint, Limits, Rider};
use fit_math::saddle::Seat;
use std::sync::Arc;

pub(crate) struct Case {
    pub(crate) rider: Rider,
    pub(crate) seat: Seat,
    pub(crate) shop: Shop,
    pub(crate) asked: Asked,
    pub(crate) ranges: Vec<Allowed>,
    /// How many answers are asked for.
    pub(crate) most: usize,
}

impl Case {
    pub(crate) fn question(&self) -> Question<'_> {
        Question { rider: &self.rider, seat: &self.seat, shop: &self.shop, asked: &self.asked }
    }
}

/// People of the survey's population on bikes scaled to them.
pub(crate) struct People {
    survey: Survey,
    each: [(Sex, Surveyed); 2],
}

impl People {
    pub(crate) fn all() -> Self {
        let each = Sex::BOTH.map(|sex| (sex, Surveyed::of(sex)));
        Self { survey: Survey::shipped().unwrap(), each }
    }

    /// A rider, stiff in some joints or not, on a seat; and how tall beside the mean man.
    pub(crate) fn draw(&self, random: &mut Random, stiff: bool) -> (Rider, Seat, f64) {
        let (sex, people) = &self.each[random.below(2)];
        let readings: Vec<_> = Dimension::ALL
            .into_iter()
            .zip(people.draw(random, 1.0))
            .map(|(dimension, drawn)| {
                let (lowest, highest) = Body::taken_range(&self.survey, dimension);
                (dimension, drawn.clamp(lowest, highest))
            })
            .collect();
        let body = Body::new(&self.survey, Some(*sex), &readings).unwrap();
        let mut rider = Rider::new(Segments::of(&body).unwrap(), Some(*sex));
        if stiff {
            rider = rider.with_limits(stiffened(random));
        }
        let up = DVec2::from_angle(73.5_f64.to_radians());
        let height_mm = 0.866 * body.value(Dimension::CrotchHeight);
        let seat = Seat::new(height_mm * DVec2::new(-up.x, up.y), 172.5).unwrap();
        (rider, seat, body.value(Dimension::Stature) / 1756.0)
    }
}

fn stiffened(random: &mut Random) -> Limits {
    let most_deg = [
        (Joint::Hip, 70.0, 100.0),
        (Joint::Neck, 20.0, 60.0),
        (Joint::Spine, 45.0, 65.0),
        (Joint::Pelvis, 8.0, 25.0),
        (Joint::Shoulder(Side::Left), 70.0, 110.0),
    ];
    let mut limits = Limits::usual();
    for (joint, low, high) in most_deg {
        if random.below(2) == 0 {
            limits = limits.with_reading(joint, random.degrees(low, high), false).unwrap();
        }
    }
    limits
}

fn bend(random: &mut Random, clamp_mm: f64) -> Arc<fit_math::bar::Bend> {
    loop {
        let family = random.pick(&[Family::Round, Family::Flat, Family::Variable]);
        let whole = |random: &mut Random, low, high| random.between(low, high).round();
        let (reach, drop) = (whole(random, 65.0, 95.0), whole(random, 105.0, 150.0));
        let dimensions = BarDimensions {
            flare: Flare::Angle(random.degrees(0.0, 20.0)),
            clamp_diameter_mm: clamp_mm,
            ..BarDimensions::usual(family, reach, drop, whole(random, 360.0, 460.0))
        };
        if let Ok(bend) = dimensions.build() {
            return Arc::new(bend);
        }
    }
}

fn settings(random: &mut Random, values: Vec<f64>, effort: f64) -> Vec<Setting> {
    // what stands first is preferred among equals: any order may be asked for
    let mut left = values;
    let mut all = Vec::new();
    while !left.is_empty() {
        let at = left.swap_remove(random.below(left.len()));
        // many equal efforts, so that equals are met
        let effort = if random.below(2) == 0 { effort } else { effort / 4.0 };
        all.push(Setting { at, effort, jobs: 0 });
    }
    all
}

fn stem(random: &mut Random, mm: f64) -> Stem {
    let angle_deg = random.pick(&[-17.0_f64, -6.0, 6.0]);
    Stem { length_mm: mm, angle_rad: angle_deg.to_radians(), clamp_height_mm: 40.0 }
}

fn bar(random: &mut Random, id: u32, uneven: bool) -> Bar {
    let clamp_mm = random.pick(&[31.8, 31.8, 31.8, 35.0]);
    let bend = bend(random, clamp_mm);
    let along_mm = bend.along_from_s(bend.default_clamp().s_mm) + random.between(-8.0, 8.0);
    let right = Mount {
        along_mm,
        turn_in_rad: random.pick(&[0.0, 0.06]),
        clicks: u32::try_from(random.below(3)).unwrap(),
    };
    let off_mm = if uneven { random.between(-4.0, 4.0) } else { 0.0 };
    let left = Mount { along_mm: along_mm + off_mm, ..right };
    let levers =
        LeverPair { shape: Arc::new(lever(&[0.0, -4.0, -8.0]).checked().unwrap()), left, right };
    let rolls = (0..=random.below(5)).map(|k| (0.5 * k as f64 - 1.0).to_radians()).collect();
    let most = i32::try_from(random.below(7)).unwrap();
    let step = random.pick(&[1.0, 5.0]);
    let shifts = (-most..=most).map(|k| step * f64::from(k)).collect();
    let own_stem = (random.below(5) == 0).then(|| stem(random, 95.0));
    Bar {
        id,
        zone_mm: bend.clamp_zone(),
        levers,
        lever_clamp_mm: 24.0,
        drops_hand_mm: random.pick(&[0.0, 12.0]),
        rolls: settings(random, rolls, 0.02),
        shifts: settings(random, shifts, 0.04),
        rolls_at: Vec::new(),
        own_stem,
        effort: random.between(0.0, 0.3),
        jobs: 0,
        price: None,
        is_there: false,
        bend,
    }
}

/// A client in a small shop.
pub(crate) fn case(random: &mut Random, people: &People) -> Case {
    let stiff = random.below(4) == 0;
    let (rider, seat, tall) = people.draw(random, stiff);
    let front = FrontEnd {
        stack_mm: 560.0 * tall + random.between(-25.0, 25.0),
        reach_mm: 390.0 * tall + random.between(-20.0, 40.0),
        head_angle_rad: 73_f64.to_radians(),
        headset_cover_mm: 10.0,
    };
    let uneven = random.below(6) == 0;
    // ids in no order, the first lists no better than the last
    let bars: Vec<Bar> =
        (0..=random.below(4)).map(|k| bar(random, [7, 3, 11, 5][k], uneven)).collect();
    let stems: Vec<StemOffer> = (0..=random.below(4))
        .map(|k| StemOffer {
            id: [4, 9, 2, 6][k],
            stem: stem(random, 70.0 + 10.0 * k as f64),
            clamps_mm: if k == 3 { 35.0 } else { 31.8 },
            effort: random.pick(&[0.0, 0.05]),
            jobs: 0,
            price: None,
            is_there: false,
        })
        .collect();
    let heights = (0..=random.below(3)).map(|k| 10.0 * k as f64).collect();
    let spacers = settings(random, heights, 0.02);
    let bar_index = random.below(bars.len());
    let on = &bars[bar_index];
    let present = Pick {
        bar: bar_index,
        stem: on.own_stem.is_none().then(|| random.below(stems.len())),
        spacers: random.below(spacers.len()),
        roll: random.below(on.rolls.len()),
        shift: random.below(on.shifts.len()),
    };
    let present = (random.below(4) > 0).then_some(present);
    let mut shop = Shop { front, bars, stems, spacers, present, minutes: Vec::new() };
    let asked = asked(random, tall);
    let ranges = if random.below(2) == 0 { ranges(random) } else { Vec::new() };
    minutes_and_prices(random, &mut shop);
    rolls_at_levers(random, &mut shop);
    Case { rider, seat, shop, asked, ranges, most: 1 + random.below(12) }
}

/// Jobs of every part and setting, minutes of every set of them, so that more jobs may take fewer; and
/// prices, some of them unknown.
fn minutes_and_prices(random: &mut Random, shop: &mut Shop) {
    let price = |random: &mut Random| {
        (random.below(8) > 0).then(|| u32::try_from(random.below(9)).unwrap() * 1000)
    };
    let jobs = |random: &mut Random| 1 << random.below(5) >> 1;
    shop.minutes = (0..16).map(|_| 5 * u32::try_from(random.below(12)).unwrap()).collect();
    for bar in &mut shop.bars {
        (bar.jobs, bar.price) = (jobs(random), price(random));
        for setting in bar.rolls.iter_mut().chain(&mut bar.shifts) {
            setting.jobs = jobs(random);
        }
    }
    for stem in &mut shop.stems {
        (stem.jobs, stem.price) = (jobs(random), price(random));
    }
    for spacers in &mut shop.spacers {
        spacers.jobs = jobs(random);
    }
}

/// Of some bars, which rolls go with each lever place: mostly more of them the higher the levers are, of
/// one in four none at all.
fn rolls_at_levers(random: &mut Random, shop: &mut Shop) {
    for bar in &mut shop.bars {
        if random.below(2) == 0 {
            continue;
        }
        let per_mm_rad = random.degrees(0.0, 0.5);
        let of = |shift: &Setting| {
            let from = random.degrees(-2.0, 1.5) + per_mm_rad * shift.at;
            let wide = if random.below(4) == 0 { -0.01 } else { random.degrees(0.0, 1.5) };
            (from, from + wide)
        };
        bar.rolls_at = bar.shifts.iter().map(of).collect();
    }
}

fn ranges(random: &mut Random) -> Vec<Allowed> {
    let all = [
        (Limited::Width, 380.0, 440.0),
        (Limited::Reach, 60.0, 85.0),
        (Limited::Drop, 100.0, 135.0),
        (Limited::StemLength, 75.0, 95.0),
        (Limited::StemAngle, -0.2, 0.2),
        (Limited::Spacers, 0.0, 15.0),
        (Limited::Roll, -0.01, 0.01),
        (Limited::LeverMoved, -5.0, 3.0),
        (Limited::BrakeSpan, 0.0, 78.0),
        (Limited::PalmSpare, 0.0, f64::INFINITY),
        (Limited::Effort, 0.0, 0.3),
        (Limited::Minutes, 0.0, 35.0),
        (Limited::Minutes, 10.0, 50.0),
        (Limited::Price, 0.0, 7000.0),
    ];
    (0..=random.below(4))
        .map(|_| random.pick(&all))
        .map(|(of, from, to)| Allowed { of, from, to })
        .collect()
}

fn asked(random: &mut Random, tall: f64) -> Asked {
    let mut places = vec![(HandPlace::Hoods, 0.6)];
    for place in [HandPlace::Drops, HandPlace::Tops, HandPlace::Ramps, HandPlace::BentElbowHoods] {
        if random.below(3) == 0 {
            places.push((place, 0.25));
        }
    }
    let aims = (0..=random.below(6)).map(|_| aim(random, places.len(), tall)).collect();
    Asked { places, aims, palm_mm: 84.0 }
}

/// An aim about a number that assemblies differ in, some of them with all they want.
fn aim(random: &mut Random, places: usize, tall: f64) -> Aim {
    let point = DVec2::new(580.0, 640.0) * tall;
    let hands = [
        (AtHands::Trunk, 45_f64.to_radians(), 8_f64.to_radians()),
        (AtHands::NeckNeed, 33_f64.to_radians(), 8_f64.to_radians()),
        (AtHands::Elbow, 20_f64.to_radians(), 15_f64.to_radians()),
        (AtHands::HipMin, 58_f64.to_radians(), 6_f64.to_radians()),
        (AtHands::Forward, point.x, 30.0),
        (AtHands::Up, point.y, 30.0),
        (AtHands::Out, 205.0, 15.0),
        (AtHands::AwayFrom(point), 10.0, 20.0),
    ];
    let bars =
        [(OfBar::BrakeSpan, 74.0, 8.0), (OfBar::PalmSpare, 4.0, 8.0), (OfBar::Width, 410.0, 30.0)];
    let (of, middle, scale) = if random.below(5) == 0 {
        let (of, middle, scale) = random.pick(&bars);
        (Number::Bar(of), middle, scale)
    } else {
        let (what, middle, scale) = random.pick(&hands);
        (Number::Hands(random.below(places), what), middle, scale)
    };
    let at = middle + scale * random.between(-1.0, 1.0);
    let shape = match random.below(5) {
        0 => Shape::Enough { from: at, enough: at + scale },
        1 => Shape::Enough { from: at, enough: at - scale },
        2 => Shape::Near { at, scale },
        3 => Shape::NotAbove { most: at, scale },
        _ => Shape::NotBelow { least: at, scale },
    };
    Aim { of, weight: random.pick(&[0.5, 1.0, 2.0]), shape }
}

/// A client in a shop of some thousands of bars with stems and spacers.
pub(crate) fn wide(random: &mut Random, people: &People) -> Case {
    let mut case = case(random, people);
    case.shop.present = None;
    case.ranges.clear();
    case.shop.bars = (0..60).map(|id| bar(random, (id * 37) % 101, false)).collect();
    let stems = (0..12).map(|k| StemOffer {
        id: 50 - k,
        stem: stem(random, 70.0 + 5.0 * f64::from(k)),
        clamps_mm: 31.8,
        effort: 0.01 * f64::from(k % 3),
        jobs: 0,
        price: None,
        is_there: false,
    });
    case.shop.stems = stems.collect();
    case.shop.spacers = settings(random, (0..8).map(|k| 5.0 * f64::from(k)).collect(), 0.02);
    minutes_and_prices(random, &mut case.shop);
    case
}
