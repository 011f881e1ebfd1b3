//! Holds a document against the ranges of the trade and against itself.
//!
//! Refusals are what the sums cannot take or what cannot be right; doubts are asked and never
//! block. Geometry (does the bar build, does the leg turn) is asked of [`crate::geometry`].

use crate::{
    Bar, Bike, Cockpit, Flare, Frame, Lever, LeverSetting, Message, Place, Quantity, Saddle,
    Session, Stem, Verdict, Visit, WidthAt, geometry,
};
use fit_math::cockpit::move_lever;
use fit_math::frame::{heading_rad, wrapped_rad};
use std::collections::BTreeSet;

/// What a check found.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Findings {
    /// What cannot be right, or contradicts itself.
    pub refused: Vec<Message>,
    /// What is seldom right: ask "sure?".
    pub unusual: Vec<Message>,
}

impl Findings {
    fn value(&mut self, place: &Place, quantity: Quantity, found: f64) {
        let range = quantity.range();
        let place = place.clone();
        match range.verdict(found) {
            Verdict::Usual => {}
            Verdict::Ask => self.unusual.push(Message::Unusual { place, quantity, found }),
            Verdict::Refuse => {
                let (least, most) = range.refuse;
                self.refused.push(Message::Refused { place, quantity, found, least, most });
            }
        }
    }

    fn values(&mut self, place: &Place, values: &[(Quantity, f64)]) {
        for &(quantity, found) in values {
            self.value(place, quantity, found);
        }
    }
}

/// Checks a whole session: ranges, ids, references, and that every cockpit builds.
pub fn check(session: &Session) -> Findings {
    let mut findings = Findings::default();
    if let Some(born) = session.client.born {
        findings.value(&Place::Client, Quantity::BirthYear, f64::from(born));
    }
    let mut bike_ids = BTreeSet::new();
    for bike in &session.bikes {
        let place = Place::bike(&bike.name);
        if !bike_ids.insert(bike.id.as_str()) {
            let id = bike.id.clone();
            findings.refused.push(Message::IdTwice { place: place.clone(), id });
        }
        check_bike(&mut findings, &place, bike);
    }
    for visit in &session.visits {
        add_visit(&mut findings, session, visit);
    }
    findings
}

/// Checks one visit and the frame of its bike: all that must be clean before its bench is weighed.
pub fn check_visit(session: &Session, visit: &Visit) -> Findings {
    let mut findings = Findings::default();
    if let Some(bike) = session.bike(&visit.bike) {
        check_frame(&mut findings, &Place::Bike(bike.name.clone()), &bike.frame);
    }
    add_visit(&mut findings, session, visit);
    findings
}

fn check_bike(findings: &mut Findings, place: &Place, bike: &Bike) {
    check_frame(findings, place, &bike.frame);
    check_cockpit(findings, bike, &bike.cockpit);
}

fn check_frame(findings: &mut Findings, place: &Place, f: &Frame) {
    findings.values(
        place,
        &[
            (Quantity::FrameStack, f.stack_mm),
            (Quantity::FrameReach, f.reach_mm),
            (Quantity::HeadAngle, f.head_angle_deg),
            (Quantity::SeatAngle, f.seat_angle_deg),
            (Quantity::HeadsetCover, f.headset_cover_mm),
            (Quantity::HeadTube, f.head_tube_mm),
            (Quantity::ForkOffset, f.fork_offset_mm),
            (Quantity::WheelRadius, f.wheel_radius_mm),
            (Quantity::BottomBracketDrop, f.bottom_bracket_drop_mm),
            (Quantity::RearCentre, f.rear_centre_mm),
            (Quantity::Crank, f.crank_mm),
        ],
    );
}

fn add_visit(findings: &mut Findings, session: &Session, visit: &Visit) {
    let place = Place::Visit(visit.date.to_string());
    let mut dimensions = BTreeSet::new();
    for reading in &visit.body {
        let quantity = Quantity::Body(reading.dimension);
        if reading.values.is_empty() {
            findings.refused.push(Message::EmptyReading { place: place.clone(), quantity });
        }
        if !dimensions.insert(reading.dimension) {
            findings.refused.push(Message::ReadingTwice { place: place.clone(), quantity });
        }
        for &value in &reading.values {
            findings.value(&place, quantity, value);
        }
    }
    let mut joints = BTreeSet::new();
    for mobility in &visit.mobility {
        let quantity = Quantity::Mobility(mobility.joint);
        if !joints.insert(mobility.joint) {
            findings.refused.push(Message::ReadingTwice { place: place.clone(), quantity });
        }
        findings.value(&place, quantity, mobility.limit_deg);
    }
    for complaint in &visit.complaints {
        findings.value(&place, Quantity::ComplaintScore, f64::from(complaint.score));
    }
    let mut ids = BTreeSet::new();
    for cockpit in visit.cockpits() {
        if !ids.insert(cockpit.id.as_str()) {
            let id = cockpit.id.clone();
            let place = Place::cockpit(&cockpit.label);
            findings.refused.push(Message::IdTwice { place, id });
        }
    }
    if let Some(chosen) = &visit.chosen
        && !ids.contains(chosen.as_str())
    {
        let id = chosen.clone();
        findings.refused.push(Message::NoSuchCockpit { place: place.clone(), id });
    }
    match session.bike(&visit.bike) {
        Some(bike) => {
            for cockpit in visit.cockpits() {
                check_cockpit(findings, bike, cockpit);
            }
            for candidate in &visit.bench {
                check_heading(findings, bike, &visit.as_it_came, candidate);
            }
        }
        None => findings.refused.push(Message::NoSuchBike { place, id: visit.bike.clone() }),
    }
}

fn check_cockpit(findings: &mut Findings, bike: &Bike, cockpit: &Cockpit) {
    let place = Place::cockpit(&cockpit.label);
    let before = findings.refused.len();
    findings.values(
        &place,
        &[
            (Quantity::Spacers, cockpit.spacers_mm),
            (Quantity::Roll, cockpit.roll_deg),
            (Quantity::HandInDrops, cockpit.drops_hand_mm),
        ],
    );
    check_saddle(findings, &place, &cockpit.saddle);
    check_stem(findings, &place, &cockpit.stem);
    let bar_clean = check_bar(findings, &place, &cockpit.bar);
    if let Some(levers) = &cockpit.levers {
        check_lever(findings, &place, &levers.lever);
        for setting in [&levers.left, &levers.right] {
            check_setting(findings, &place, setting);
        }
    }
    let (bar_mm, stem_mm) = (cockpit.bar.clamp_diameter_mm, cockpit.stem.bar_diameter_mm);
    if cockpit.bar.one_piece.is_none() && (bar_mm - stem_mm).abs() > CLAMP_FITS_MM {
        findings.refused.push(Message::ClampMismatch { place, bar_mm, stem_mm });
    }
    // the sums are only asked once every number is one they can take
    if bar_clean && findings.refused.len() == before {
        match geometry::cockpit(&bike.frame, cockpit) {
            Ok(built) => check_mounts(findings, cockpit, &built),
            Err(message) => findings.refused.push(message),
        }
    }
}

/// A lever belongs where its bar can hold it, and its adjuster has only so many clicks.
fn check_mounts(findings: &mut Findings, cockpit: &Cockpit, built: &fit_math::cockpit::Cockpit) {
    let Some(levers) = &cockpit.levers else { return };
    let bend = built.bend();
    let (from, to) = bend.clamp_zone();
    let (lowest_mm, highest_mm) = (bend.along_from_s(to), bend.along_from_s(from));
    let last = levers.lever.blade.adjuster_deg.len().saturating_sub(1);
    let most = u32::try_from(last).unwrap_or(u32::MAX);
    let place = || Place::cockpit(&cockpit.label);
    let sides = [levers.left, levers.right];
    // once a cockpit: what is wrong on one side is looked at on both
    let outside =
        |along: &f64| *along < lowest_mm - ZONE_SLACK_MM || *along > highest_mm + ZONE_SLACK_MM;
    if let Some(along_mm) = sides.map(|side| side.along_mm).into_iter().find(outside) {
        let message = Message::LeverOutsideZone { place: place(), along_mm, lowest_mm, highest_mm };
        findings.unusual.push(message);
    }
    if let Some(clicks) = sides.map(|side| side.clicks).into_iter().find(|clicks| *clicks > most) {
        findings.unusual.push(Message::ClicksBeyond { place: place(), clicks, most });
    }
}

/// A tape along the bar is no better than this, mm (judgement).
const ZONE_SLACK_MM: f64 = 2.0;

/// A lever turned by less than this against the one as it came may be meant, degrees (judgement:
/// some 15 mm along the bend; moving a lever 5–10 mm is common practice).
const TURNED_DEG: f64 = 12.0;

/// A lever's distance along the bar copied from another bend turns it by tens of degrees, and every
/// answer about the hoods with it.
fn check_heading(findings: &mut Findings, bike: &Bike, came: &Cockpit, candidate: &Cockpit) {
    let built = |cockpit| geometry::cockpit(&bike.frame, cockpit).ok();
    let (Some(before), Some(after)) = (built(came), built(candidate)) else { return };
    let (Some(old), Some(new)) = (before.levers(), after.levers()) else { return };
    for (old, new) in [(old.left, new.left), (old.right, new.right)] {
        let moved = move_lever(
            (before.bend(), before.roll_rad()),
            old.along_mm,
            (after.bend(), after.roll_rad()),
        );
        let heading = |along_mm| {
            let s_mm = after.bend().s_from_along(along_mm);
            heading_rad(after.bend().chain().at(s_mm).tangent)
        };
        let up_deg = wrapped_rad(heading(new.along_mm) - heading(moved.along_mm)).to_degrees();
        if up_deg.abs() > TURNED_DEG {
            let place = Place::cockpit(&candidate.label);
            let as_before_mm = moved.along_mm;
            findings.unusual.push(Message::LeverTurned { place, up_deg, as_before_mm });
            return;
        }
    }
}

/// A clamp and a bar this close in diameter are of one size, mm (judgement; sizes in use are
/// 25.4, 26.0, 31.8 and 35.0, common practice, no source).
const CLAMP_FITS_MM: f64 = 0.25;

fn check_saddle(findings: &mut Findings, place: &Place, saddle: &Saddle) {
    findings.values(
        place,
        &[
            (Quantity::SaddleHeight, saddle.height_mm),
            (Quantity::NoseBehind, saddle.nose_behind_mm),
            (Quantity::SitFromNose, saddle.sit_from_nose_mm),
            (Quantity::SaddleTilt, saddle.tilt_deg),
        ],
    );
}

fn check_setting(findings: &mut Findings, place: &Place, setting: &LeverSetting) {
    findings.values(
        place,
        &[
            (Quantity::LeverAlong, setting.along_mm),
            (Quantity::LeverTurnIn, setting.turn_in_deg),
            (Quantity::LeverClicks, f64::from(setting.clicks)),
        ],
    );
}

/// Checks a stem's numbers.
pub fn check_stem(findings: &mut Findings, place: &Place, stem: &Stem) {
    findings.values(
        place,
        &[
            (Quantity::StemLength, stem.length_mm),
            (Quantity::StemAngle, stem.angle_deg),
            (Quantity::StemClampHeight, stem.clamp_height_mm),
            (Quantity::TubeDiameter, stem.bar_diameter_mm),
            (Quantity::TubeDiameter, stem.steerer_diameter_mm),
        ],
    );
}

/// Checks a bar's numbers and that it builds. Says whether the bar itself is without refusal.
pub fn check_bar(findings: &mut Findings, place: &Place, bar: &Bar) -> bool {
    let before = findings.refused.len();
    let width = match bar.width_at {
        WidthAt::Hoods => Quantity::BarWidthAtHoods,
        WidthAt::Ends => Quantity::BarWidthAtEnds,
    };
    let flare = match bar.flare {
        Flare::Angle { deg } => (Quantity::Flare, deg),
        Flare::EndsWidth { mm, .. } => (Quantity::BarWidthAtEnds, mm),
    };
    findings.values(
        place,
        &[
            (Quantity::BarReach, bar.reach_mm),
            (Quantity::BarDrop, bar.drop_mm),
            (width, bar.width_mm),
            flare,
            (Quantity::Outsweep, bar.outsweep_deg),
            (Quantity::Backsweep, bar.backsweep_deg),
            (Quantity::Rise, bar.rise_deg),
            (Quantity::RampSlope, bar.ramp_slope_deg),
            (Quantity::RampOutsweep, bar.ramp_outsweep_deg),
            (Quantity::TailSlope, bar.tail_slope_deg),
            (Quantity::TailLength, bar.tail_length_mm),
            (Quantity::ForwardBendRadius, bar.forward_bend_radius_mm),
            (Quantity::TubeDiameter, bar.clamp_diameter_mm),
            (Quantity::TubeDiameter, bar.tops_diameter_mm),
            (Quantity::TubeDiameter, bar.drops_diameter_mm),
        ],
    );
    if let Some(depth) = bar.tops_depth_mm {
        findings.value(place, Quantity::TopsDepth, depth);
    }
    for proportion in bar.proportions.into_iter().flatten() {
        findings.value(place, Quantity::Proportion, proportion);
    }
    if let Some((lowest, highest)) = bar.clamp_zone_mm {
        findings.values(place, &[(Quantity::ClampZone, lowest), (Quantity::ClampZone, highest)]);
    }
    if let Some(one_piece) = &bar.one_piece {
        findings.values(
            place,
            &[
                (Quantity::StemLength, one_piece.stem_length_mm),
                (Quantity::StemAngle, one_piece.stem_angle_deg),
                (Quantity::StemClampHeight, one_piece.stem_clamp_height_mm),
            ],
        );
    }
    if findings.refused.len() == before
        && let Err(message) = geometry::bend(place, bar)
    {
        findings.refused.push(message);
    }
    findings.refused.len() == before
}

/// Checks a lever's numbers.
pub fn check_lever(findings: &mut Findings, place: &Place, lever: &Lever) {
    let (forward, up) = lever.grip_mm;
    let blade = &lever.blade;
    let lengths = [
        forward,
        up,
        lever.grip_radius_mm,
        lever.hood_slope_deg,
        lever.clamp_width_mm,
        blade.pivot_mm.0,
        blade.pivot_mm.1,
        blade.length_mm,
        blade.usable_mm.0,
        blade.usable_mm.1,
        blade.rest_angle_deg,
        blade.free_travel_mm,
    ];
    let outline = lever.hood_outline_mm.iter().flat_map(|&(x, y)| [x, y]);
    for found in lengths.into_iter().chain(outline).chain(blade.adjuster_deg.iter().copied()) {
        findings.value(place, Quantity::LeverShape, found);
    }
}
