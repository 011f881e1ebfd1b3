//! What stands in the document arrives in the sums, and what the sums say arrives in the output and
//! in the drawing: every value by its own name.

#![expect(clippy::unwrap_used, reason = "a failure here is a failed test")]

use acceptance::root;
use fit_doc::{
    Cockpit, Dimension, Flare, LeverSetting, Place, Reading, Session, WidthHow, geometry,
};
use fit_math::frame::Side;
use fit_math::{DVec2, HandPlace, cockpit};
use fit_view::scene::{LayerName, Mark, Path, Scene, Series};
use fit_view::side::{
    Hands, Hold, SideCockpit, SideView, Sight, close_window, cockpits_scene, rider_scene,
};
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

#[test]
fn every_number_of_a_lever_arrives_in_the_sums() {
    let mut lever = demo().bikes[0].cockpit.levers.clone().unwrap().lever;
    (lever.grip_mm, lever.hood_slope_deg, lever.grip_radius_mm) = ((21.0, 44.0), 38.0, 17.0);
    lever.hood_outline_mm = vec![(-20.0, 12.0), (-9.0, 52.0), (31.0, 78.0)];
    let blade = &mut lever.blade;
    (blade.pivot_mm, blade.length_mm, blade.usable_mm) = ((7.0, 41.0), 103.0, (39.0, 96.0));
    (blade.rest_angle_deg, blade.adjuster_deg) = (-19.0, vec![0.0, -2.5, -6.0]);
    let got = geometry::lever_shape(&lever);
    let near = |rad: f64, deg: f64| assert!((rad.to_degrees() - deg).abs() < 1e-12, "{deg}");
    assert_eq!((got.grip_mm, got.grip_radius_mm), (DVec2::new(21.0, 44.0), 17.0));
    near(got.hood_slope_rad, 38.0);
    let outline = [(-20.0, 12.0), (-9.0, 52.0), (31.0, 78.0)].map(|(x, y)| DVec2::new(x, y));
    assert_eq!(got.hood_outline_mm, outline);
    assert_eq!((got.blade.pivot_mm, got.blade.length_mm), (DVec2::new(7.0, 41.0), 103.0));
    assert_eq!(got.blade.usable_mm, (39.0, 96.0));
    near(got.blade.rest_angle_rad, -19.0);
    assert_eq!(got.blade.adjuster_rad.len(), 3);
    for (rad, deg) in got.blade.adjuster_rad.iter().zip([0.0, -2.5, -6.0]) {
        near(*rad, deg);
    }
    // towards the bar is negative: from −19° by another 2.5° and 6°
    for (clicks, deg) in [(0, -19.0), (1, -21.5), (2, -25.0)] {
        near(got.blade.angle_rad(clicks), deg);
    }
}

/// 1764, 1767 and 1775 mm are 5306 mm in three readings.
#[test]
fn readings_of_one_dimension_count_as_their_mean() {
    let values = vec![1764.0, 1767.0, 1775.0];
    let reading = Reading::of(Dimension::Stature, values);
    let mean = 5306.0 / 3.0;
    assert!((reading.mean() - mean).abs() < 1e-9, "{}", reading.mean());
    let mut session = demo();
    let visit = std::sync::Arc::make_mut(session.visits.last_mut().unwrap());
    visit.body.retain(|known| known.item != Dimension::Stature.into());
    visit.body.push(reading);
    let weighed = weigh(&session, None, &Survey::shipped().unwrap()).unwrap();
    assert!((weighed.body.known(Dimension::Stature).value - mean).abs() < 1e-9);
}

/// The first two cockpits of the demo's bench, in place.
fn two_in_place(edit: impl Fn(&mut Cockpit)) -> (Session, [cockpit::Cockpit; 2]) {
    let session = demo();
    let visit = session.latest_visit().unwrap();
    let frame = &session.bike(&visit.bike).unwrap().frame;
    let place = |of: &Cockpit| geometry::cockpit(&Place::cockpit(&of.label), frame, of).unwrap();
    let built = [&visit.as_it_came, &visit.bench[0]].map(|of| {
        let mut of = of.clone();
        edit(&mut of);
        place(&of)
    });
    (session, built)
}

/// The close look at both and the small picture of the second, held at one point.
fn scenes(
    session: &Session,
    built: &[cockpit::Cockpit; 2],
    place: HandPlace,
    hold: Hold,
) -> [Scene; 2] {
    let visit = session.latest_visit().unwrap();
    let side = |(index, cockpit)| SideCockpit {
        label: "a".to_owned(),
        on_line_of: Vec::new(),
        series: Series(index),
        cockpit,
        saddle: &visit.as_it_came.saddle,
        sit: DVec2::new(-200.0, 700.0),
        rider: None,
        twin: Vec::new(),
    };
    let view = SideView {
        frame: &session.bike(&visit.bike).unwrap().frame,
        cockpits: built.iter().enumerate().map(side).collect(),
        focus: 1,
        place,
        hands: Hands::Chosen,
        place_names: Default::default(),
        handles: Vec::new(),
        labels_from_mm: None,
        few_names: false,
        free: None,
        hold,
        headline: String::new(),
        sight: Sight::Side,
        shoulders: None,
        hand_names: Default::default(),
        measures: Vec::new(),
        within: DVec2::ZERO,
    };
    [cockpits_scene(&view, close_window(&view, 1.3), 0.5), rider_scene(&view)]
}

fn marks(scene: &Scene, layer: LayerName) -> impl Iterator<Item = &Mark> {
    scene.layers.iter().filter(move |of| of.name == layer).flat_map(|of| &of.marks)
}

fn middle(path: &Path) -> DVec2 {
    path.points.iter().sum::<DVec2>() / path.points.len() as f64
}

/// What is held lies on the reference's, and the dot of each hand moves with its cockpit.
#[test]
fn hands_are_dotted_where_their_cockpit_is_drawn() {
    let (session, built) = two_in_place(|_| ());
    let hand = |of: usize, place| built[of].grips(place).unwrap().right.centre.truncate();
    let dots = |place, hold| -> Vec<DVec2> {
        let [scene, _] = scenes(&session, &built, place, hold);
        let dot = |mark: &Mark| match mark {
            Mark::Stroke { path, .. } => Some(middle(path)),
            _ => None,
        };
        marks(&scene, LayerName::Hands).filter_map(dot).collect()
    };
    let drawn = |place, hold, expected: [DVec2; 2]| {
        let found = dots(place, hold);
        assert_eq!(found.len(), 2, "{hold:?}");
        // the one that is spoken of, the second, is drawn last
        for (dot, expected) in found.iter().zip(expected) {
            // a circle closes on its own first point: its corners' mean is near its middle only
            assert!(dot.distance(expected) < 1.0, "{hold:?}: {dot} {expected}");
        }
    };
    let (hoods, drops) = (HandPlace::Hoods, HandPlace::Drops);
    assert!(hand(0, hoods).distance(hand(1, hoods)) > 4.0, "they lie apart by themselves");
    drawn(hoods, Hold::Axle, [hand(0, hoods), hand(1, hoods)]);
    drawn(hoods, Hold::Hoods, [hand(0, hoods), hand(0, hoods)]);
    let by = built[0].clamp() - built[1].clamp();
    drawn(hoods, Hold::Clamp, [hand(0, hoods), hand(1, hoods) + by]);
    let by = hand(0, hoods) - hand(1, hoods);
    assert!((drops_apart(&built) - by).length() > 4.0, "hoods and drops are not moved alike");
    drawn(drops, Hold::Hoods, [hand(0, drops), hand(1, drops) + by]);
}

fn drops_apart(built: &[cockpit::Cockpit; 2]) -> DVec2 {
    let drops = |of: usize| built[of].grips(HandPlace::Drops).unwrap().right.centre.truncate();
    drops(0) - drops(1)
}

/// A blade bows away from the bar: forward of the straight line from its pivot on which the sums
/// have it, by less than a tenth of its length. A click brings it nearer to the hook.
#[test]
fn blades_are_drawn_bowing_forwards_and_nearer_with_each_click() {
    let blade_of = |clicks: u32| {
        let (session, built) = two_in_place(|cockpit| {
            let levers = cockpit.levers.as_mut().unwrap();
            (levers.left.clicks, levers.right.clicks) = (clicks, clicks);
        });
        let [_, small] = scenes(&session, &built, HandPlace::Drops, Hold::Axle);
        let fill = |mark: &Mark| match mark {
            Mark::Fill { path, .. } => Some(path.clone()),
            _ => None,
        };
        let blade = marks(&small, LayerName::Cockpits).filter_map(fill).last().unwrap();
        let [_, right] = built[1].lever_poses().unwrap();
        let on_bike = |from_pivot_mm: f64| {
            let of_bar = right.blade_point(from_pivot_mm);
            built[1].bike_from_bar().transform_point3(of_bar).truncate()
        };
        let length_mm = right.shape.blade.length_mm;
        let hook = built[1].grips(HandPlace::Drops).unwrap().right.centre.truncate();
        (blade, on_bike(0.0), on_bike(length_mm), hook)
    };
    let (blade, pivot, tip, hook) = blade_of(0);
    let along = (tip - pivot).normalize();
    let ahead_mm = |p: DVec2| along.perp_dot(p - pivot);
    assert!(ahead_mm(hook) < -20.0, "the hook lies behind it");
    let bow_mm = ahead_mm(middle(&blade));
    assert!(bow_mm > 1.0 && bow_mm < 0.1 * pivot.distance(tip), "{bow_mm}");
    assert!(blade.distance_mm(pivot) < 8.0 && blade.distance_mm(tip) < 12.0, "on its line");
    let (clicked, ..) = blade_of(2);
    let nearer_mm = hook.distance(middle(&blade)) - hook.distance(middle(&clicked));
    assert!(nearer_mm > 1.0, "{nearer_mm}");
}
