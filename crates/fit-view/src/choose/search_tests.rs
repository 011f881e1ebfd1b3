//! A search within money and minutes against trying everything: every cockpit of a small shop put
//! together, its work told as the screens tell it, its posture solved.

use super::*;
use crate::choose::most::Row;
use crate::testing::{bar, deep, session, stem};
use crate::weigh::{Survey, weigh_visit};
use fit_doc::{Bar, Family, KnownBy, OnTheShelf, OnePiece, Price};
use fit_math::choose::{Number, OfBar};
use fit_math::frame::{heading_rad, wrapped_rad};
use std::sync::{Arc, LazyLock};

static SURVEY: LazyLock<Survey> = LazyLock::new(|| Survey::shipped().unwrap());

/// Repeatable random numbers: splitmix64 (Steele, Lea & Flood 2014).
struct Random(u64);

impl Random {
    fn below(&mut self, count: usize) -> usize {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        usize::try_from((z ^ (z >> 31)) % count as u64).unwrap()
    }

    fn pick<T: Copy>(&mut self, from: &[T]) -> T {
        from[self.below(from.len())]
    }

    fn shelf(&mut self) -> OnTheShelf {
        let cents = self.pick(&[0, 2000, 4000, 5000, 6000, 9000, 14_000]);
        let price = (cents > 0).then_some(Price { cents });
        OnTheShelf { price, in_stock: 1, known_by: KnownBy::Catalogue }
    }
}

/// Bars of few names, so that one bend comes in several widths and at several prices; some with a stem
/// of their own.
fn bars(random: &mut Random) -> Vec<Bar> {
    let one = |random: &mut Random, at: usize| {
        let (reach_mm, drop_mm) = random.pick(&[(75.0, 125.0), (80.0, 130.0), (85.0, 135.0)]);
        let mut bar = bar(Family::Round, reach_mm, drop_mm, random.pick(&[400.0, 420.0, 440.0]));
        bar.id = format!("bar-{at}");
        bar.shelf = random.shelf();
        bar.one_piece = (random.below(5) == 0).then_some(OnePiece {
            stem_length_mm: random.pick(&[90.0, 100.0]),
            stem_angle_deg: -6.0,
            stem_clamp_height_mm: 40.0,
        });
        bar
    };
    (0..=1 + random.below(3)).map(|at| one(random, at)).collect()
}

/// A client in a small shop who has so much money, and so much time.
fn client(random: &mut Random) -> (Session, Stock) {
    let mut session = session(Vec::new());
    let stems = (0..=random.below(3)).map(|at| {
        let mut stem = stem(random.pick(&[70.0, 80.0, 90.0, 100.0]), random.pick(&[-6.0, 17.0]));
        stem.id = format!("stem-{at}");
        // a part that fits in all but its clamp's height is no other part
        stem.clamp_height_mm = random.pick(&[40.0, 42.0]);
        stem.shelf = random.shelf();
        stem
    });
    let stems = stems.collect();
    let mut lever = deep().levers.unwrap().lever;
    (lever.id, lever.shelf) = ("other-lever".into(), random.shelf());
    lever.grip_mm.0 -= 4.0;
    let stock = Stock { bars: bars(random), stems, levers: vec![lever] };
    let visit = Arc::make_mut(&mut session.visits[0]);
    if random.below(8) == 0 {
        visit.as_it_came.bar.one_piece = Some(OnePiece {
            stem_length_mm: 110.0,
            stem_angle_deg: -6.0,
            stem_clamp_height_mm: 40.0,
        });
    }
    let aims = [
        Wanted::new(Aim::EaseNeck).at(HandPlace::Hoods),
        Wanted::new(Aim::Nearer).at(HandPlace::Hoods),
        Wanted::new(Aim::EaseDrops),
        Wanted::new(Aim::HoodsStay),
        Wanted::new(Aim::ReachBrakes).at(HandPlace::Drops),
        Wanted::new(Aim::Slimmer),
    ];
    let first = random.below(aims.len());
    visit.wanted = vec![aims[first]];
    if random.below(2) == 0 {
        visit.wanted.push(aims[(first + 1 + random.below(aims.len() - 1)) % aims.len()]);
    }
    let bounds = &mut visit.bounds;
    bounds.spacers_mm = Some(random.pick(&[15.0, 20.0, 25.0]));
    // one of both is enough of a grid
    bounds.stays = vec![random.pick(&[Stays::Roll, Stays::LeverPlace])];
    let money = random.pick(&[0, 3000, 4000, 6000, 9000, 11_000, 15_000, 100_000]);
    bounds.money = (random.below(4) > 0).then_some(Price { cents: money });
    let minutes = random.pick(&[5, 10, 15, 20, 25, 35, 45, 90, 100, 105, 115, 130, 300]);
    bounds.minutes = (random.below(4) > 0).then_some(minutes);
    (session, stock)
}

fn ask_of(session: &Session, stock: &Stock) -> Ask {
    let visit = session.latest_visit().unwrap();
    let weighed = weigh_visit(session, visit, &SURVEY).unwrap();
    Ask::new(session, visit, &weighed, stock).unwrap()
}

/// The hand on the hoods of what answers are held against: how far it is off the line of its forearm, none
/// where it lies there little; and how the hood lies in the bike, radians.
struct OnHoods {
    off_rad: Option<f64>,
    hood_rad: f64,
}

fn hood_rad(of: &fit_math::cockpit::Cockpit) -> f64 {
    let [_, right] = of.lever_poses().unwrap();
    heading_rad(right.hood_line()) + of.roll_rad()
}

impl OnHoods {
    fn of(session: &Session) -> Self {
        let visit = session.latest_visit().unwrap();
        let weighed = weigh_visit(session, visit, &SURVEY).unwrap();
        let base = base(&weighed).unwrap();
        Self { off_rad: on_hoods_rad(visit, base), hood_rad: hood_rad(&base.cockpit) }
    }

    /// Whether the hand would be further off the line of its forearm, and tips by more than 10°, or by 15
    /// where levers go along the bend they are on.
    fn tips_too_far(&self, rung: &Rung, on: &fit_math::cockpit::Cockpit) -> bool {
        let most_deg: f64 = if rung.job == Job::LeverAlong { 15.0 } else { 10.0 };
        let by_rad = wrapped_rad(hood_rad(on) - self.hood_rad);
        let further = |off_rad: f64| (off_rad + by_rad).abs() > off_rad.abs();
        by_rad.abs() > most_deg.to_radians() && self.off_rad.is_some_and(further)
    }
}

/// What limits the client, money and minutes left out, by the cockpit as it is built.
fn is_allowed(ask: &Ask, rung: &Rung, hoods: &OnHoods, pick: &Pick) -> bool {
    let bar = &rung.shop.bars[pick.bar];
    let clamps = pick.stem.is_none_or(|stem| {
        (rung.shop.stems[stem].clamps_mm - bar.bend.dimensions().clamp_diameter_mm).abs() < 0.05
    });
    let in_zone = [bar.levers.left, bar.levers.right].iter().all(|mount| {
        let s_mm = bar.bend.s_from_along(mount.along_mm + bar.shifts[pick.shift].at);
        bar.zone_mm.0 <= s_mm && s_mm <= bar.zone_mm.1
    });
    let built = rung.shop.cockpit(pick).unwrap().unwrap();
    let same_stem = pick.stem.map_or(bar.is_there, |stem| rung.shop.stems[stem].is_there);
    let within = |of: &Allowed| {
        let number = match of.of {
            // what is on the bike may stay
            Limited::Width if bar.is_there => return true,
            Limited::StemLength if same_stem => return true,
            Limited::Width => built.bend().width_hoods_cc_mm(),
            Limited::StemLength => built.stem().length_mm,
            Limited::Price | Limited::Minutes => return true,
            ref other => panic!("{other:?}"),
        };
        of.from <= number && number <= of.to
    };
    clamps && in_zone && !hoods.tips_too_far(rung, &built) && ask.allowed.iter().all(within)
}

fn every_pick(shop: &fit_math::choose::Shop) -> Vec<Pick> {
    let mut all = Vec::new();
    for (at, bar) in shop.bars.iter().enumerate() {
        let own = bar.own_stem.is_some();
        for stem in 0..if own { 1 } else { shop.stems.len() } {
            for spacers in 0..shop.spacers.len() {
                for roll in 0..bar.rolls.len() {
                    for shift in 0..bar.shifts.len() {
                        let stem = (!own).then_some(stem);
                        all.push(Pick { bar: at, stem, spacers, roll, shift });
                    }
                }
            }
        }
    }
    all
}

fn is_paid(work: &Work, bounds: &Bounds) -> bool {
    bounds.money.is_none_or(|most| work.parts() <= most && !work.price_unknown())
}

fn is_in_time(work: &Work, bounds: &Bounds) -> bool {
    bounds.minutes.is_none_or(|most| *work.minutes().end() <= most)
}

/// How a rung was tried.
#[derive(Default)]
struct Tried {
    within: usize,
    too_dear: usize,
    too_long: usize,
    /// Some bend is within the limits only with parts that are not its best.
    second_best: usize,
}

/// Every assembly of a rung that no other limit leaves out, and whether its work keeps to those of money and
/// minutes.
fn everything_of(
    ask: &Ask,
    rung: &Rung,
    (bounds, hoods): (&Bounds, &OnHoods),
    tried: &mut Tried,
) -> Vec<(Answer, bool)> {
    let question = ask.question(rung);
    let mut all: Vec<(Answer, bool)> = Vec::new();
    let picks = every_pick(&rung.shop).into_iter();
    for pick in picks.filter(|pick| is_allowed(ask, rung, hoods, pick)) {
        let work = Work::between(&ask.base, &rung.cockpit(&pick).unwrap());
        let (paid, in_time) = (is_paid(&work, bounds), is_in_time(&work, bounds));
        tried.too_dear += usize::from(!paid);
        tried.too_long += usize::from(paid && !in_time);
        tried.within += usize::from(paid && in_time);
        all.push((question.answer(&pick).unwrap(), paid && in_time));
    }
    all
}

/// The best that differ, from every assembly of a rung whose work keeps to the limits.
fn everything(
    ask: &Ask,
    rung: &Rung,
    limits: (&Bounds, &OnHoods),
    tried: &mut Tried,
) -> Vec<Answer> {
    let question = ask.question(rung);
    let mut all = everything_of(ask, rung, limits, tried);
    let order = |of: &Answer| {
        let Pick { bar, stem, spacers, roll, shift } = of.pick;
        [bar, stem.unwrap_or(0), spacers, roll, shift]
    };
    all.sort_by(|(a, _), (b, _)| b.worth.total_cmp(&a.worth).then(order(a).cmp(&order(b))));
    let name = |of: &Answer| rung.variants[of.pick.bar].bar.name.as_str();
    let hands = |of: &Answer| {
        let built = rung.shop.cockpit(&of.pick).unwrap().unwrap();
        let places = &question.asked.places;
        places.iter().map(|(at, _)| built.grips(*at).unwrap().midway()).collect::<Vec<_>>()
    };
    let mut taken: Vec<Answer> = Vec::new();
    for (at, (next, within)) in all.iter().enumerate() {
        let parts = |of: &Answer| (of.pick.bar, of.pick.stem, of.pick.spacers);
        let stands = |better: &Answer| {
            if rung.job == Job::OtherBar {
                return name(better) == name(next);
            }
            let near =
                || hands(better).iter().zip(hands(next)).all(|(a, b)| a.distance(b) < 4.9999);
            parts(better) == parts(next) && near()
        };
        if !within || taken.len() == KEPT || taken.iter().any(stands) {
            continue;
        }
        let is_best = !all[..at].iter().any(|(of, _)| name(of) == name(next));
        tried.second_best += usize::from(rung.job == Job::OtherBar && !is_best);
        taken.push(next.clone());
    }
    taken
}

impl Row {
    /// The number of an assembly, the more the better.
    fn good(&self, of: &Answer) -> f64 {
        let number = match self.number {
            Number::Hands(place, what) => of.hands[place].get(what),
            Number::Bar(OfBar::BrakeSpan) => of.bar.brake_span_mm,
            Number::Bar(OfBar::PalmSpare) => of.bar.palm_spare_mm,
            Number::Bar(OfBar::Width) => of.bar.width_mm,
        };
        self.way * number
    }
}

/// What each job does most by itself for a row is that of all of its assemblies; how many there were.
fn same_most(ask: &Ask, limits: (&Bounds, &OnHoods), ours: &[Most]) -> usize {
    let mut met = 0;
    for rung in &ask.single {
        let all = everything_of(ask, rung, limits, &mut Tried::default());
        let all: Vec<(Cockpit, Answer)> = all
            .into_iter()
            .filter(|(_, within)| *within)
            .filter_map(|(of, _)| Some((ask.as_most(rung, &of)?.cockpit, of)))
            .collect();
        for row in ask.rows_asked() {
            let most = all.iter().map(|(_, of)| row.good(of)).max_by(f64::total_cmp);
            let told = |of: &&(Cockpit, Answer)| {
                ours.iter().any(|most| most.job == rung.job && most.cockpit.is_set_up_as(&of.0))
            };
            let of_ours =
                all.iter().filter(told).map(|(_, of)| row.good(of)).max_by(f64::total_cmp);
            let off = most.zip(of_ours).map(|(all, ours)| all - ours);
            assert_eq!(most.is_some(), off.is_some(), "{:?}", rung.job);
            assert!(off.is_none_or(|off| off < 1e-5), "{:?}, {row:?}: {off:?}", rung.job);
            met += usize::from(most.is_some());
        }
    }
    met
}

#[test]
fn within_money_and_minutes_the_same_as_trying_everything() {
    let (mut tried, mut found, mut most_met) = (Tried::default(), 0, 0);
    for seed in 0..60 {
        let (session, stock) = client(&mut Random(seed));
        let ask = ask_of(&session, &stock);
        let (bounds, hoods) = (&session.latest_visit().unwrap().bounds, OnHoods::of(&session));
        let (here, mut expected) = ask.begun().unwrap();
        let within_before = tried.within;
        for rung in &ask.rungs {
            let answers = everything(&ask, rung, (bounds, &hoods), &mut tried);
            ask.take(rung, &answers, here, &mut expected);
        }
        for (at, rung) in ask.besides().enumerate() {
            let answers = everything(&ask, rung, (bounds, &hoods), &mut Tried::default());
            ask.take_besides(at, rung, &answers, here, &mut expected);
        }
        expected.in_order(ask.first());
        let ours = ask.search(&Progress::default()).unwrap().unwrap();
        assert_eq!(ours.sought, expected.sought, "shop {seed}");
        assert_eq!(ours.single, expected.single, "shop {seed}");
        most_met += same_most(&ask, (bounds, &hoods), &ours.most);
        // and what they leave out is counted with the rest
        let within = (tried.within - within_before) as u64;
        assert_eq!(ours.counted.looked_through() - 1, within, "shop {seed}");
        found += ours.sought.len();
    }
    println!(
        "{} assemblies within, {} too dear, {} too long, {found} answers, {} bends with parts that are \
         not their best",
        tried.within, tried.too_dear, tried.too_long, tried.second_best
    );
    assert!(found > 60 && tried.too_dear > 10_000 && tried.too_long > 10_000);
    assert!(tried.second_best > 5, "{}", tried.second_best);
    assert!(most_met > 100, "{most_met}");
}

/// What an aim's shape makes of its number on an assembly, and the most minutes of its work.
fn along(ask: &Ask, rung: &Rung, pick: &Pick) -> [f64; 2] {
    let aim = ask.asked.asked.aims[ask.asked.of[0][0]];
    let answer = ask.question(rung).answer(pick).unwrap();
    let number = match aim.of {
        Number::Hands(place, what) => answer.hands[place].get(what),
        Number::Bar(OfBar::BrakeSpan) => answer.bar.brake_span_mm,
        Number::Bar(OfBar::PalmSpare) => answer.bar.palm_spare_mm,
        Number::Bar(OfBar::Width) => answer.bar.width_mm,
    };
    let work = Work::between(&ask.base, &rung.cockpit(pick).unwrap());
    // without a nought below nought
    [aim.shape.value(number), -f64::from(*work.minutes().end())].map(|good| good + 0.0)
}

#[test]
fn a_trade_off_against_minutes_is_that_of_all_with_all() {
    let (mut points, mut tried) = (0, 0);
    for seed in 0..60 {
        let (session, stock) = client(&mut Random(seed));
        let (ask, hoods) = (ask_of(&session, &stock), OnHoods::of(&session));
        let (alone, pick) = &ask.base_alone;
        let mut all = vec![along(&ask, alone, pick)];
        for rung in &ask.rungs {
            let bounds = &session.latest_visit().unwrap().bounds;
            let within = |pick: &Pick| {
                let work = Work::between(&ask.base, &rung.cockpit(pick).unwrap());
                is_paid(&work, bounds) && is_in_time(&work, bounds)
            };
            let picks = every_pick(&rung.shop).into_iter();
            let picks = picks.filter(|pick| is_allowed(&ask, rung, &hoods, pick) && within(pick));
            all.extend(picks.map(|pick| along(&ask, rung, &pick)));
        }
        tried += all.len();
        let beats = |one: &[f64; 2], other: &[f64; 2]| {
            one[0] >= other[0] && one[1] >= other[1] && one != other
        };
        let mut expected = Vec::new();
        for one in &all {
            if !expected.contains(one) && !all.iter().any(|other| beats(other, one)) {
                expected.push(*one);
            }
        }
        expected.sort_by(|a, b| b[0].total_cmp(&a[0]));
        let ours =
            ask.trade_off([Some(0), None], |_, _| true, &Progress::default()).unwrap().unwrap();
        assert_eq!(ours.iter().map(|of| of.good).collect::<Vec<_>>(), expected, "shop {seed}");
        points += ours.len();
    }
    println!("{tried} assemblies, {points} points");
    assert!(points > 120, "trade-offs of more than a point: {points}");
}
