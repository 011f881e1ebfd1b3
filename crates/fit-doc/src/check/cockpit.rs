//! Checks a cockpit: its settings, whether its parts go together, whether its levers sit where they
//! can.
//!
//! Lengths mm, angles degrees. The sums are only asked once every number is one they can take.

use super::Findings;
use super::parts::{check_bar, check_lever, check_stem};
use crate::{Cockpit, Frame, LeverSetting, Message, Place, Quantity, Saddle, geometry};
use fit_math::cockpit::{Cockpit as Built, move_lever};
use fit_math::frame::{heading_rad, wrapped_rad};

/// A tape along the bar is no better than this, mm (judgement).
const ZONE_SLACK_MM: f64 = 2.0;

/// A lever turned by less than this against the one as it came may be meant, degrees (judgement:
/// some 15 mm along the bend; moving a lever 5–10 mm is common practice).
const TURNED_DEG: f64 = 12.0;

/// Checks a cockpit on a frame, none where the frame cannot be built on; gives it back put together
/// where it can be.
pub(super) fn check_cockpit(
    findings: &mut Findings,
    place: &Place,
    frame: Option<&Frame>,
    cockpit: &Cockpit,
) -> Option<Built> {
    let clean = findings.clean(|findings| {
        let settings = [
            ("spacers_mm", Quantity::Spacers, cockpit.spacers_mm),
            ("roll_deg", Quantity::Roll, cockpit.roll_deg),
            ("drops_hand_mm", Quantity::HandInDrops, cockpit.drops_hand_mm),
        ];
        findings.fields(place, &settings);
        check_saddle(findings, &place.field("saddle"), &cockpit.saddle);
        let parts_clean = findings.clean(|findings| {
            check_stem(findings, &place.field("stem"), &cockpit.stem);
            check_bar(findings, &place.field("bar"), &cockpit.bar);
        });
        if parts_clean {
            check_clamp(findings, place, cockpit);
        }
        if let Some(levers) = &cockpit.levers {
            let place = place.field("levers");
            check_lever(findings, &place.field("lever"), &levers.lever);
            check_setting(findings, &place.field("left"), &levers.left);
            check_setting(findings, &place.field("right"), &levers.right);
        }
    });
    let frame = frame.filter(|_| clean)?;
    if let Err(message) = geometry::seat(place, frame, cockpit) {
        findings.refused.push(message);
    }
    match geometry::cockpit(place, frame, cockpit) {
        Ok(built) => {
            check_mounts(findings, place, cockpit, &built);
            Some(built)
        }
        Err(message) => {
            findings.refused.push(message);
            None
        }
    }
}

fn check_clamp(findings: &mut Findings, place: &Place, cockpit: &Cockpit) {
    if !cockpit.stem.takes(&cockpit.bar) {
        let (bar_mm, stem_mm) = (cockpit.bar.clamp_diameter_mm, cockpit.stem.bar_diameter_mm);
        let place = place.field("stem").field("bar_diameter_mm");
        findings.refused.push(Message::ClampMismatch { place, bar_mm, stem_mm });
    }
}

fn check_saddle(findings: &mut Findings, place: &Place, saddle: &Saddle) {
    let fields = [
        ("height_mm", Quantity::SaddleHeight, saddle.height_mm),
        ("nose_behind_mm", Quantity::NoseBehind, saddle.nose_behind_mm),
        ("sit_from_nose_mm", Quantity::SitFromNose, saddle.sit_from_nose_mm),
        ("tilt_deg", Quantity::SaddleTilt, saddle.tilt_deg),
    ];
    findings.fields(place, &fields);
}

fn check_setting(findings: &mut Findings, place: &Place, setting: &LeverSetting) {
    let fields = [
        ("along_mm", Quantity::LeverAlong, setting.along_mm),
        ("turn_in_deg", Quantity::LeverTurnIn, setting.turn_in_deg),
        ("clicks", Quantity::LeverClicks, f64::from(setting.clicks)),
    ];
    findings.fields(place, &fields);
}

/// A lever belongs where its bar can hold it, and its adjuster has only so many clicks.
fn check_mounts(findings: &mut Findings, place: &Place, cockpit: &Cockpit, built: &Built) {
    let Some(levers) = &cockpit.levers else { return };
    let bend = built.bend();
    let (from, to) = bend.clamp_zone();
    let (lowest_mm, highest_mm) = (bend.along_from_s(to), bend.along_from_s(from));
    let last = levers.lever.blade.adjuster_deg.len().saturating_sub(1);
    let most = u32::try_from(last).unwrap_or(u32::MAX);
    let place = place.field("levers");
    let sides = [("left", &levers.left), ("right", &levers.right)];
    // once a cockpit: what is wrong on one side is looked at on both
    let outside =
        |along: f64| along < lowest_mm - ZONE_SLACK_MM || along > highest_mm + ZONE_SLACK_MM;
    if let Some((side, setting)) = sides.into_iter().find(|(_, set)| outside(set.along_mm)) {
        findings.unusual.push(Message::LeverOutsideZone {
            place: place.field(side).field("along_mm"),
            along_mm: setting.along_mm,
            lowest_mm,
            highest_mm,
        });
    }
    if let Some((side, setting)) = sides.into_iter().find(|(_, set)| set.clicks > most) {
        let place = place.field(side).field("clicks");
        findings.unusual.push(Message::ClicksBeyond { place, clicks: setting.clicks, most });
    }
}

/// A lever's distance along the bar copied from another bend turns it by tens of degrees, and every
/// answer about the hoods with it.
pub(super) fn check_heading(findings: &mut Findings, place: &Place, before: &Built, after: &Built) {
    let (Some(old), Some(new)) = (before.levers(), after.levers()) else { return };
    for (side, old, new) in [("left", old.left, new.left), ("right", old.right, new.right)] {
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
            let place = place.field("levers").field(side).field("along_mm");
            let as_before_mm = moved.along_mm;
            findings.unusual.push(Message::LeverTurned { place, up_deg, as_before_mm });
            return;
        }
    }
}
