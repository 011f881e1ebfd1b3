//! Riders on bikes with cockpits from the shipped stock, drawn at random but the same every time.

#![expect(clippy::expect_used, reason = "test support: a failure here is a failed test")]

use fit_doc::{Bar, Frame, geometry};
use fit_math::body::{Body, Dimension, Segments, Sex, Survey};
use fit_math::cockpit::{Cockpit, LeverPair, LeverShape, Mount, Stem, move_lever};
use fit_math::posture::{Grips, Posture, Report, Rider, solve};
use fit_math::saddle::Seat;
use fit_math::{DVec2, HandPlace};
use proptest::prelude::{Strategy, any};
use proptest::strategy::ValueTree;
use proptest::test_runner::TestRunner;
use std::sync::Arc;

/// Sit point above the axle as a share of the crotch height, along a 73.5° seat tube: the scaled
/// bikes of common practice (no source).
const SIT_OF_CROTCH: f64 = 0.866;
/// Angle of that line, degrees.
const SEAT_TUBE_DEG: f64 = 73.5;

/// A rider, a bike and the settings of a cockpit with one bar of the stock.
#[derive(Debug, Clone)]
pub struct Fit {
    /// The rider.
    pub rider: Rider,
    /// Where the rider sits.
    pub seat: Seat,
    /// Frame of the bike.
    pub frame: Frame,
    /// The bar.
    pub bar: Bar,
    /// The stem.
    pub stem: Stem,
    /// Spacers, mm.
    pub spacers_mm: f64,
    /// Roll, radians.
    pub roll_rad: f64,
    /// The lever.
    pub lever: Arc<LeverShape>,
    /// Arc length of the levers from the end of this bar, mm.
    pub along_mm: f64,
}

impl Fit {
    /// The cockpit.
    pub fn cockpit(&self) -> Cockpit {
        self.with(&self.bar, self.stem, self.spacers_mm, self.roll_rad)
    }

    /// The cockpit with other parts and settings, the levers carried over at their heading.
    ///
    /// # Panics
    /// When such a cockpit cannot be put together.
    pub fn with(&self, bar: &Bar, stem: Stem, spacers_mm: f64, roll_rad: f64) -> Cockpit {
        let bend = |bar| geometry::dimensions(bar).build().expect("the bar builds");
        let (old, new) = (bend(&self.bar), Arc::new(bend(bar)));
        let moved = move_lever((&old, self.roll_rad), self.along_mm, (&new, roll_rad));
        let mount = Mount { along_mm: moved.along_mm, turn_in_rad: 0.0, clicks: 0 };
        let levers = LeverPair { shape: self.lever.clone(), left: mount, right: mount };
        let front = geometry::front_end(&self.frame);
        Cockpit::new(front, stem, spacers_mm, new, roll_rad, Some(levers), 0.0)
            .expect("the cockpit can be put together")
    }

    /// The posture at a hand place.
    ///
    /// # Panics
    /// When the cockpit has no levers and the place needs them.
    pub fn posture(&self, cockpit: &Cockpit, place: HandPlace) -> (Posture, Report) {
        let pair = cockpit.grips(place).expect("it has levers");
        let grips = Grips::new(pair.right.centre, pair.left.centre).expect("grips on a bike");
        let posture = solve(&self.rider, &self.seat, &grips, place, None);
        (posture, posture.report(&self.rider, &self.seat, &grips, place))
    }
}

/// `count` fits: both sexes, statures within two standard deviations of the survey's, limbs up to
/// 4 % longer or shorter than stature says, bikes scaled to the rider with frames up to 20 mm
/// longer, shorter, higher or lower, and any bar of the stock that takes a stem.
///
/// # Panics
/// When what comes with the program cannot be read.
pub fn fits(count: usize) -> Vec<Fit> {
    let survey = Survey::shipped().expect("the survey can be read");
    let stock = fit_file::stock::shipped().expect("the stock can be read");
    let lever = Arc::new(geometry::lever_shape(&stock.levers[0]));
    let bars: Vec<&Bar> = stock.bars.iter().filter(|bar| bar.one_piece.is_none()).collect();
    let mut runner = TestRunner::deterministic();
    let tilted = || -1.0..1.0_f64;
    let draw = (
        (any::<bool>(), 0.92..1.08_f64, 0.96..1.04_f64, 0.96..1.04_f64),
        (tilted(), tilted(), tilted(), 0.0..1.0_f64, 0.0..1.0_f64),
        (0..bars.len(), 0..stock.stems.len(), -3.0..5.0_f64),
    );
    let mut fits = Vec::new();
    while fits.len() < count {
        let (person, bike, parts) = draw.new_tree(&mut runner).expect("drawn").current();
        let (is_man, size, arms, trunk) = person;
        let sex = if is_man { Sex::Male } else { Sex::Female };
        let body = scaled_body(&survey, sex, size, arms, trunk);
        let Ok(segments) = Segments::of(&body) else { continue };
        let up = DVec2::from_angle((180.0 - SEAT_TUBE_DEG).to_radians());
        let sit = up * SIT_OF_CROTCH * body.value(Dimension::CrotchHeight);
        let seat = Seat::new(sit, 170.0).expect("a seat");
        let scale = body.value(Dimension::Stature) / 1756.0;
        let (longer, higher, head, spacers, length) = bike;
        let frame = Frame {
            stack_mm: 570.0 * scale + 20.0 * higher,
            reach_mm: 385.0 * scale + 20.0 * longer,
            head_angle_deg: 72.5 + head,
            seat_angle_deg: SEAT_TUBE_DEG,
            headset_cover_mm: 10.0,
            head_tube_mm: 150.0 * scale,
            fork_offset_mm: 46.0,
            wheel_radius_mm: 340.0,
            bottom_bracket_drop_mm: 72.0,
            rear_centre_mm: 420.0,
            crank_mm: 170.0,
        };
        let (bar, stem, roll_deg) = parts;
        let bar = bars[bar].clone();
        let bend = geometry::dimensions(&bar).build().expect("stock bars build");
        let along_mm = bend.along_from_s(bend.default_clamp().s_mm);
        let stem = Stem { length_mm: 80.0 + 40.0 * length, ..geometry::stem(&stock.stems[stem]) };
        fits.push(Fit {
            rider: Rider::new(segments, Some(sex)),
            seat,
            frame,
            bar,
            stem,
            spacers_mm: 35.0 * spacers,
            roll_rad: roll_deg.to_radians(),
            lever: lever.clone(),
            along_mm,
        });
    }
    fits
}

fn scaled_body(survey: &Survey, sex: Sex, size: f64, arms: f64, trunk: f64) -> Body {
    use Dimension as D;
    let mean = Body::new(survey, Some(sex), &[]).expect("the survey's own means");
    let longer = |dimension| match dimension {
        D::AcromionRadialeLength
        | D::RadialeStylionLength
        | D::ForearmGripLength
        | D::ForearmHandLength
        | D::HandLength => size * arms,
        D::AcromialHeight | D::SuprasternaleHeight | D::CervicaleHeight => {
            // the trunk alone is longer: what lies under it stays
            let legs = mean.value(D::CrotchHeight) * size;
            (legs + (mean.value(dimension) * size - legs) * trunk) / mean.value(dimension)
        }
        D::Weight => size * size,
        _ => size,
    };
    let readings: Vec<_> = Dimension::ALL.map(|d| (d, mean.value(d) * longer(d))).into();
    Body::new(survey, Some(sex), &readings).expect("a person")
}
