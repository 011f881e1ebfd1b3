//! What stands in the document arrives in the sums, and what the sums say arrives in the output:
//! every value by its own name.

#![expect(clippy::unwrap_used, reason = "a failure here is a failed test")]

use acceptance::root;
use fit_doc::{Cockpit, Flare, LeverSetting, Place, Session, WidthHow, geometry};
use fit_math::frame::Side;
use fit_view::weigh::{Survey, json, place_id, weigh};
use fit_view::words::English;
use serde_json::Value;

fn demo() -> Session {
    fit_file::open(&root().join("sessions/demo.session.ron")).unwrap().session
}

#[test]
fn every_number_of_a_bar_arrives_in_the_sums() {
    let mut bar = demo().bikes[0].cockpit.bar.clone();
    // no two alike, none the usual
    (bar.reach_mm, bar.drop_mm, bar.width_mm) = (81.0, 133.0, 427.0);
    (bar.outsweep_deg, bar.backsweep_deg, bar.rise_deg) = (3.0, 4.0, 6.0);
    (bar.ramp_slope_deg, bar.ramp_outsweep_deg) = (7.0, 2.0);
    (bar.tail_slope_deg, bar.tail_length_mm) = (8.0, 47.0);
    (bar.forward_bend_radius_mm, bar.clamp_diameter_mm) = (38.0, 31.8);
    (bar.tops_diameter_mm, bar.drops_diameter_mm) = (28.0, 24.0);
    (bar.tops_depth_mm, bar.clamp_zone_mm) = (Some(33.0), Some((141.0, 251.0)));
    bar.width_how = WidthHow::CentreToCentre;
    bar.flare = Flare::EndsWidth { mm: 459.0, how: WidthHow::OutsideToOutside };
    let got = geometry::dimensions(&bar);
    assert_eq!((got.reach_mm, got.drop_mm, got.width_mm), (81.0, 133.0, 427.0));
    assert_eq!(got.width_how, WidthHow::CentreToCentre);
    let ends = fit_math::bar::Flare::EndsWidth { width_mm: 459.0, how: WidthHow::OutsideToOutside };
    assert_eq!(got.flare, ends);
    let angles = [
        got.outsweep_rad,
        got.backsweep_rad,
        got.rise_rad,
        got.ramp_slope_rad,
        got.ramp_outsweep_rad,
        got.tail_slope_rad,
    ];
    for (angle, degrees) in angles.into_iter().zip([3.0, 4.0, 6.0, 7.0, 2.0, 8.0]) {
        assert!((angle.to_degrees() - degrees).abs() < 1e-12, "{degrees}");
    }
    assert_eq!((got.tail_length_mm, got.forward_bend_radius_mm), (47.0, 38.0));
    assert_eq!((got.clamp_diameter_mm, got.tops_mm, got.drops_mm), (31.8, 28.0, 24.0));
    assert_eq!(got.tops_depth_mm, Some(33.0));
    let zone = got.clamp_zone.unwrap();
    assert_eq!((zone.lowest_along_mm, zone.highest_along_mm), (141.0, 251.0));
}

#[test]
fn every_setting_of_a_cockpit_arrives_in_the_sums() {
    let session = demo();
    let mut cockpit: Cockpit = session.bikes[0].cockpit.clone();
    (cockpit.spacers_mm, cockpit.roll_deg, cockpit.drops_hand_mm) = (17.0, 3.5, 11.0);
    let levers = cockpit.levers.as_mut().unwrap();
    levers.left = LeverSetting { along_mm: 201.0, turn_in_deg: 1.0, clicks: 2 };
    levers.right = LeverSetting { along_mm: 207.0, turn_in_deg: 4.0, clicks: 5 };
    let place = Place::cockpit(&cockpit.label);
    let built = geometry::cockpit(&place, &session.bikes[0].frame, &cockpit).unwrap();
    assert_eq!((built.spacers_mm(), built.drops_hand_mm()), (17.0, 11.0));
    assert!((built.roll_rad().to_degrees() - 3.5).abs() < 1e-12);
    let pair = built.levers().unwrap();
    for (mount, along_mm, turn_in_deg, clicks) in
        [(pair.left, 201.0, 1.0, 2), (pair.right, 207.0, 4.0, 5)]
    {
        assert_eq!((mount.along_mm, mount.clicks), (along_mm, clicks));
        assert!((mount.turn_in_rad.to_degrees() - turn_in_deg).abs() < 1e-12);
    }
}

#[test]
fn every_angle_of_a_posture_stands_under_its_own_name() {
    let weighed = weigh(&demo(), None, &Survey::shipped().unwrap()).unwrap();
    let output: Value = serde_json::from_str(&json(&weighed, &English).unwrap()).unwrap();
    let (mut looked_at, mut uneven) = (0, 0);
    for (index, cockpit) in weighed.cockpits.iter().enumerate() {
        for (place, at) in &cockpit.places {
            let of = output.pointer(&format!("/cockpits/{index}/places/{}", place_id(*place)));
            let of = of.unwrap();
            let (report, right) = (&at.report, at.report.arm(Side::Right));
            let [left_deg, right_deg] =
                Side::BOTH.map(|side| report.arm(side).elbow_rad.to_degrees());
            let named = [
                ("/trunk", report.trunk_rad.to_degrees()),
                ("/pelvis", report.pelvis_rad.to_degrees()),
                ("/spine", report.spine_rad.to_degrees()),
                ("/protraction", report.protraction_mm),
                ("/hip_min", report.hip_min_rad.to_degrees()),
                ("/neck", report.neck_need_rad.to_degrees()),
                ("/shoulder", right.shoulder_rad.to_degrees()),
                ("/elbow", left_deg.min(right_deg)),
            ];
            for (key, expected) in named {
                let got = of.pointer(key).and_then(Value::as_f64);
                let got = got.unwrap_or_else(|| panic!("{key} is missing in {of}"));
                assert!((got - expected).abs() < 1e-8, "{key}: {got}, not {expected}");
                looked_at += 1;
            }
            // each arm by itself where the two differ
            for (key, elbow_deg) in [("/left/elbow", left_deg), ("/right/elbow", right_deg)] {
                let got = of.pointer(key).and_then(Value::as_f64);
                assert_eq!(got.is_some(), (left_deg - right_deg).abs() > 1e-6, "{key}");
                assert!(got.is_none_or(|got| (got - elbow_deg).abs() < 1e-8), "{key}: {got:?}");
                uneven += u32::from(got.is_some());
            }
            // a value under another name would be another number
            for (i, (key, value)) in named.iter().enumerate() {
                for (other, twin) in &named[..i] {
                    assert!((value - twin).abs() > 1e-6, "{key} and {other} cannot be told apart");
                }
            }
        }
    }
    assert!(looked_at > 200 && uneven > 0, "{looked_at} {uneven}");
}
