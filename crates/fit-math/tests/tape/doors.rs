//! The side door (frame numbers) and a trial stem's position.

use fit_math::tape::{
    Found, Of, PlaceEstimate, Prior, StemParts, TrialPosition, Unknown, clamp_from_frame,
    frame_from_clamp, trial_cockpit,
};
use fit_math::{DVec2, HandPlace};

use super::draw::Draw;

/// A 90 % interval, SDs.
const NINETY: f64 = 1.645;

#[test]
fn the_frame_comes_back_from_the_clamp() {
    let mut draw = Draw(301);
    for _ in 0..50 {
        let bike = draw.bike(0.0);
        let found = Found::new(&bike.known, &bike.all_exact(&Of::TWELVE)).unwrap();
        let frame = frame_from_clamp(&found.clamp(), &bike.known.parts);
        let real = bike.cockpit.front();
        assert!((frame.front.stack_mm - real.stack_mm).abs() < 1e-6);
        assert!((frame.front.reach_mm - real.reach_mm).abs() < 1e-6);
        let its = found.cockpit().front();
        assert!(frame.front.head_tube_top().distance(its.head_tube_top()) < 1e-9);
        assert!(frame.stack_sd_mm > found.clamp().sd_mm.y && frame.stack_sd_mm < 8.0);
    }
}

/// What is printed on parts is off by its doubt: the stated doubt of the frame covers it.
#[test]
fn the_frames_doubt_holds() {
    use fit_math::tape::{HEAD_ANGLE_SD_RAD, STEERER_SD_MM, STEM_ANGLE_SD_RAD, STEM_LENGTH_SD_MM};
    let mut draw = Draw(302);
    let bikes = 2000;
    let mut inside = [0_u32; 2];
    for _ in 0..bikes {
        let bike = draw.bike(0.0);
        let printed = bike.known.parts;
        let mut real: StemParts = printed;
        real.stem.length_mm += STEM_LENGTH_SD_MM * draw.normal();
        real.stem.angle_rad += STEM_ANGLE_SD_RAD * draw.normal();
        real.spacers_mm += STEERER_SD_MM * draw.normal();
        real.head_angle_rad += HEAD_ANGLE_SD_RAD * draw.normal();
        let sd_mm = DVec2::new(2.5, 2.0);
        let at = bike.cockpit.clamp() + DVec2::new(draw.normal(), draw.normal()) * sd_mm;
        let clamp = PlaceEstimate { at, sd_mm, correlation: 0.0 };
        let frame = frame_from_clamp(&clamp, &printed);
        let really = real.front_at(bike.cockpit.clamp());
        let off = [frame.front.reach_mm - really.reach_mm, frame.front.stack_mm - really.stack_mm];
        let sd = [frame.reach_sd_mm, frame.stack_sd_mm];
        for k in 0..2 {
            inside[k] += u32::from(off[k].abs() <= NINETY * sd[k]);
        }
    }
    let share = inside.map(|k| 100.0 * f64::from(k) / f64::from(bikes));
    println!("frame: 90 % intervals hold {share:.1?} %");
    assert!(share.iter().all(|share| (88.0..=92.0).contains(share)));
}

#[test]
fn frame_numbers_check_the_saddle_against_the_bar() {
    let mut draw = Draw(303);
    let mut bike = draw.bike(0.0);
    let readings = bike.all_exact(&Of::TWELVE);
    let alone = Found::new(&bike.known, &readings).unwrap();
    let front = *bike.cockpit.front();
    let priors: [Prior; 2] = clamp_from_frame(front.stack_mm, front.reach_mm, &bike.known.parts);
    assert!((priors[0].value - bike.cockpit.clamp().x).abs() < 1e-9);
    assert!((priors[1].value - bike.cockpit.clamp().y).abs() < 1e-9);
    bike.known.besides = priors.to_vec();
    let with = Found::new(&bike.known, &readings).unwrap();
    assert!(alone.alone().contains(&Of::SaddleHeight) && !with.alone().contains(&Of::SaddleHeight));
    let sd = |found: &Found| found.estimate(Unknown::SaddleHeight).unwrap().sd;
    assert!(sd(&with) < sd(&alone));
}

#[test]
fn a_trial_puts_the_hands_where_they_were_ridden() {
    let mut draw = Draw(304);
    for place in [HandPlace::Hoods, HandPlace::Drops, HandPlace::Tops] {
        let bike = draw.bike(1.0);
        let trial = TrialPosition {
            place,
            ahead_mm: -20.0,
            up_mm: 10.0,
            roll_rad: 1.5_f64.to_radians(),
            levers_mm: 5.0,
        };
        let ridden = trial_cockpit(&bike.cockpit, &trial).unwrap().unwrap();
        let at = |cockpit: &fit_math::cockpit::Cockpit| {
            cockpit.grips(place).unwrap().midway().truncate()
        };
        let moved = at(&ridden) - at(&bike.cockpit);
        assert!(moved.distance(DVec2::new(-20.0, 10.0)) < 1e-9, "{place:?} {moved}");
        assert_eq!(ridden.front(), bike.cockpit.front());
        assert_eq!(ridden.bend(), bike.cockpit.bend());
        // with nothing moved it is the cockpit as it came, but for rounding of the stem
        let still =
            TrialPosition { ahead_mm: 0.0, up_mm: 0.0, roll_rad: 0.0, levers_mm: 0.0, ..trial };
        let same = trial_cockpit(&bike.cockpit, &still).unwrap().unwrap();
        assert!(same.clamp().distance(bike.cockpit.clamp()) < 1e-9);
        assert!((same.stem().length_mm - bike.cockpit.stem().length_mm).abs() < 1e-9);
        assert!((same.stem().angle_rad - bike.cockpit.stem().angle_rad).abs() < 1e-9);
    }
}
