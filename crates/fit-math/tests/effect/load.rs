//! What hands and wheels carry: statics, and people drawn from the survey.

use crate::people::median;
use crate::riders::Riding;
use fit_math::body::masses::Segment;
use fit_math::body::{Dimension, Sex};
use fit_math::cockpit::FrontEnd;
use fit_math::effect::load::{
    BIKE_CENTRE, BIKE_KG, GRAVITY, HandLoad, LEAST_FRONT_SHARE, LoadError, Masses, Wheels,
};
use fit_math::posture::{Figure, HandPlace};
use fit_math::saddle::Seat;
use fit_math::{DVec2, DVec3};

const PEOPLE: usize = 1000;
const PLACES: [HandPlace; 3] = [HandPlace::Tops, HandPlace::Hoods, HandPlace::Drops];

/// A frame that suits the grips on the hoods: stem and bar bring the hands 196 mm ahead of the head
/// tube and 79 above it; 73° (men) and 72° (women), offset 45, bottom bracket drop 70, rear centre
/// 410 mm (usual numbers, from memory).
fn wheels(one: &Riding) -> Wheels {
    let head_deg: f64 = if one.sex == Sex::Male { 73.0 } else { 72.0 };
    let front = FrontEnd {
        stack_mm: one.hoods.y - 79.0,
        reach_mm: one.hoods.x - 196.0,
        head_angle_rad: head_deg.to_radians(),
        headset_cover_mm: 10.0,
    };
    Wheels::of_frame(&front, 45.0, 70.0, 410.0).unwrap()
}

fn weight_kg(one: &Riding) -> f64 {
    one.body.value(Dimension::Weight)
}

/// Every segment's share of weight and centre of mass in the plane of the bike.
fn weights(figure: &Figure, sex: Option<Sex>) -> Vec<(Segment, f64, DVec2)> {
    let mut all = Vec::new();
    let mut add = |segment: Segment, from: DVec2, to: DVec2| {
        let centre = from + segment.centre(sex) * (to - from);
        all.push((segment, segment.mass(sex), centre));
    };
    add(Segment::HeadAndNeck, figure.crown.truncate(), figure.neck.truncate());
    add(Segment::Trunk, figure.shoulders.truncate(), figure.hip.truncate());
    for (arm, leg) in figure.arms.iter().zip(&figure.legs) {
        add(Segment::UpperArm, arm.shoulder.truncate(), arm.elbow.truncate());
        add(Segment::Forearm, arm.elbow.truncate(), arm.wrist.truncate());
        add(Segment::Hand, arm.wrist.truncate(), arm.hand.truncate());
        add(Segment::Thigh, leg.hip, leg.knee);
        add(Segment::Shank, leg.knee, leg.ankle);
        add(Segment::Foot, leg.heel, leg.toe);
    }
    all
}

/// Nothing moves: over every segment's weight, the hips, the hands and the wheels, forces and
/// moments about any point come to nought.
#[test]
fn forces_and_moments_are_in_balance() {
    let is_leg = |s: Segment| matches!(s, Segment::Thigh | Segment::Shank | Segment::Foot);
    for place in PLACES {
        for one in Riding::drawn(place, 60, 51) {
            let figure = one.figure();
            let load = HandLoad::of(&figure, Some(one.sex)).unwrap();
            let all = weights(&figure, Some(one.sex));
            let upper = all.iter().filter(|(segment, ..)| !is_leg(*segment));
            // the upper body on hips and hands: shares of weight, upwards, and where
            let mut forces: Vec<(f64, f64)> = upper.map(|(_, mass, at)| (-mass, at.x)).collect();
            forces.extend(figure.arms.map(|arm| (load.share / 2.0, arm.hand.x)));
            forces.push((load.upper_share - load.share, figure.hip.x));
            let in_balance = |forces: &[(f64, f64)]| {
                for about in [0.0, -300.0, 777.0] {
                    let force: f64 = forces.iter().map(|f| f.0).sum();
                    let moment: f64 = forces.iter().map(|f| f.0 * (f.1 - about)).sum();
                    assert!(force.abs() < 1e-9 && moment.abs() < 1e-9, "{force} {moment}");
                }
            };
            in_balance(&forces);
            // rider and bicycle on both wheels, kg
            let (wheels, weight_kg) = (wheels(&one), weight_kg(&one));
            let masses = Masses::of(&figure, Some(one.sex));
            let front = wheels.front_share(&masses, weight_kg);
            let rider_kg = weight_kg * masses.whole.mass;
            let mut forces: Vec<_> =
                all.iter().map(|(_, mass, at)| (-weight_kg * mass, at.x)).collect();
            let bike_x = wheels.rear_x_mm() + BIKE_CENTRE * wheels.wheelbase_mm();
            forces.push((-BIKE_KG, bike_x));
            let sum = rider_kg + BIKE_KG;
            forces.push((front * sum, wheels.front_x_mm()));
            forces.push(((1.0 - front) * sum, wheels.rear_x_mm()));
            in_balance(&forces);
            // what the hands do not carry the back holds
            let moment = |carried| load.hip_moment_nm(weight_kg, carried);
            let all_of_it: f64 = all
                .iter()
                .filter(|(segment, ..)| !is_leg(*segment))
                .map(|(_, mass, at)| mass * weight_kg * GRAVITY * (at.x - figure.hip.x) / 1000.0)
                .sum();
            assert!((moment(0.0) - all_of_it).abs() < 1e-9 && moment(1.0).abs() < 1e-9);
            let by_hands = load.force_n(weight_kg) * load.hands_ahead_mm / 1000.0;
            assert!((moment(0.0) - by_hands).abs() < 1e-9);
        }
    }
}

/// A thousand people on bicycles scaled to them: on the hoods 18 to 25 % of the weight is on the
/// hands, and 38 to 50 % of rider and bicycle on the front wheel (common practice, no source). How
/// many are outside is printed.
#[test]
fn people_load_hands_and_wheels_as_people_do() {
    for place in PLACES {
        let people = Riding::drawn(place, PEOPLE, 52);
        for sex in Sex::BOTH {
            let (mut hands, mut fronts, mut moments) = (Vec::new(), Vec::new(), Vec::new());
            for one in people.iter().filter(|one| one.sex == sex) {
                let figure = one.figure();
                let load = HandLoad::of(&figure, Some(sex)).unwrap();
                hands.push(100.0 * load.share);
                let masses = Masses::of(&figure, Some(sex));
                fronts.push(100.0 * wheels(one).front_share(&masses, weight_kg(one)));
                moments.push(load.hip_moment_nm(weight_kg(one), 0.0));
            }
            let range = |of: &[f64]| {
                let least = of.iter().copied().fold(f64::INFINITY, f64::min);
                (least, of.iter().copied().fold(f64::NEG_INFINITY, f64::max))
            };
            let outside = |of: &[f64], low: f64, high: f64| {
                of.iter().filter(|v| !(low..=high).contains(*v)).count()
            };
            let (hand, front) = (median(&hands), median(&fronts));
            let of = hands.len();
            let (light, tilted) = (outside(&hands, 18.0, 25.0), outside(&fronts, 38.0, 50.0));
            println!(
                "{sex:?}, {place:?}: hands {hand:.1} % {:.1?}, {light} of {of} outside 18..25; front \
                 wheel {front:.1} % {:.1?}, {tilted} outside 38..50; hips without hands {:.0} Nm",
                range(&hands),
                range(&fronts),
                median(&moments)
            );
            if place == HandPlace::Hoods {
                assert!((18.0..=25.0).contains(&hand) && light <= of / 20);
                assert!((38.0..=50.0).contains(&front) && tilted <= of / 20);
            }
        }
    }
}

/// Sitting further back takes weight off the front wheel; 40 mm further back than usual there is
/// still what ISO 4210-2 asks of a bicycle with its rider as far back as the saddle goes.
#[test]
fn nobody_lifts_the_front_wheel() {
    let mut least = f64::INFINITY;
    for people in PLACES.map(|place| Riding::drawn(place, 200, 53)) {
        for mut one in people {
            let share = |one: &Riding| {
                let masses = Masses::of(&one.figure(), Some(one.sex));
                wheels(one).front_share(&masses, weight_kg(one))
            };
            let usual = share(&one);
            let sit = one.seat.sit() - DVec2::new(40.0, 0.0);
            one.seat = Seat::new(sit, one.seat.crank_mm()).unwrap();
            let back = share(&one);
            assert!(back < usual, "{back} {usual}");
            least = least.min(back);
        }
    }
    println!("least share on the front wheel, 40 mm back: {:.1} %", 100.0 * least);
    assert!(least >= LEAST_FRONT_SHARE);
}

/// Hands that go their way in hundredths of a millimetre: loads change as little, and their rate
/// does not jump.
#[test]
fn loads_have_no_steps() {
    for one in Riding::drawn(HandPlace::Hoods, 10, 54) {
        for along in [DVec3::X, DVec3::Y, DVec3::Z] {
            let at = |step: i32| {
                let figure = one.holding(one.grip + 0.01 * f64::from(step) * along);
                let load = HandLoad::of(&figure, Some(one.sex)).unwrap();
                let masses = Masses::of(&figure, Some(one.sex));
                [load.share, wheels(&one).front_share(&masses, weight_kg(&one))]
            };
            let mut last = [at(0), at(1)];
            for step in 2..200 {
                let now = at(step);
                for i in 0..2 {
                    let (rate, before) = (now[i] - last[1][i], last[1][i] - last[0][i]);
                    // a thousandth of the weight for every millimetre is beyond anybody
                    assert!(rate.abs() < 0.01 * 1e-3, "{rate}");
                    assert!((rate - before).abs() < 0.02 * 0.01 * 1e-3, "{rate} {before}");
                }
                last = [last[1], now];
            }
        }
    }
}

#[test]
fn what_cannot_be_leant_on_or_ridden_is_refused() {
    let one = Riding::mean(Sex::Female, HandPlace::Hoods);
    let mut figure = one.figure();
    for arm in &mut figure.arms {
        arm.hand.x = figure.hip.x + 60.0;
    }
    let refused = HandLoad::of(&figure, Some(Sex::Female));
    assert!(
        matches!(refused, Err(LoadError::HandsNotAhead { ahead_mm }) if (ahead_mm - 60.0).abs() < 1e-9)
    );
    let front = |head_angle_rad| FrontEnd {
        stack_mm: 560.0,
        reach_mm: 390.0,
        head_angle_rad,
        headset_cover_mm: 10.0,
    };
    let usual = 73_f64.to_radians();
    let good = Wheels::of_frame(&front(usual), 45.0, 70.0, 410.0).unwrap();
    // the front axle lies on the line offset from the steering axis, at the axles' height
    let axle = DVec2::new(good.front_x_mm(), 70.0) - front(usual).head_tube_top();
    assert!((axle.perp_dot(front(usual).steerer_up()) - 45.0).abs() < 1e-9);
    let rear = DVec2::new(good.rear_x_mm(), 70.0);
    assert!((rear.length() - 410.0).abs() < 1e-9);
    println!("wheelbase {:.0} mm", good.wheelbase_mm());
    for (angle, offset, drop, rear) in
        [(0.0, 45.0, 70.0, 410.0), (usual, 45.0, 70.0, 60.0), (usual, f64::NAN, 70.0, 410.0)]
    {
        assert!(Wheels::of_frame(&front(angle), offset, drop, rear).is_err());
    }
}
