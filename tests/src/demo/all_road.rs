//! A man on an all-road bike with a deep old bar, whose road bike has a bar 40 mm narrower.

use super::bench::{DemoError, Parts, as_it_came, both, candidate, readings, walked};
use fit_doc::{
    Bike, Bounds, Client, Cockpit, Complaint, Concern, Dimension as D, Frame, HandPlace, Interview,
    Joint, Mobility, Saddle, Session, Sex, Tape, Visit, Where,
};
use fit_file::stock::Stock;
use std::sync::Arc;

const CAME: Parts = Parts {
    bar: "bar-deep-classic-440",
    stem: "stem-forged6-110",
    turned_over: false,
    spacers_mm: 10.0,
    roll_deg: 0.0,
    lever: "lever-hydraulic",
};

pub(super) fn session(stock: &Stock) -> Result<Session, DemoError> {
    let saddle =
        Saddle { height_mm: 750.0, nose_behind_mm: 62.0, sit_from_nose_mm: 140.0, tilt_deg: -0.5 };
    // the usual place on such a bar, the right one a little higher
    let (mut left, right) = both(209.0, 2.0, 0);
    left.along_mm = 206.0;
    let came = as_it_came(stock, &CAME, (left, right), saddle)?;
    let bench = bench(stock, &came)?;
    let bike = all_road(&came);
    let tape = walked(&bike.frame, &came)?;
    Ok(Session {
        id: "3f1c8a52-7d0e-4b66-9a31-5c2e8f7b1d04".into(),
        client: Client {
            name: "Torvald Ekenbrink".into(),
            sex: Some(Sex::Male),
            born: Some(1981),
            notes: "Rides to work all year, four or five hours on Sundays. Glasses.".into(),
        },
        bikes: vec![bike, road(stock)?],
        visits: vec![Arc::new(visit(came, tape, bench))],
        keep_until: None,
    })
}

fn bench(stock: &Stock, came: &Cockpit) -> Result<Vec<Cockpit>, DemoError> {
    Ok(vec![
        candidate(
            stock,
            came,
            ("compact-420", "Compact 420"),
            &Parts { bar: "bar-compact-standard-420", ..CAME },
        )?,
        candidate(
            stock,
            came,
            ("flare-8", "Flared 440"),
            &Parts { bar: "bar-allroad-8-440", ..CAME },
        )?,
        candidate(
            stock,
            came,
            ("raised", "Same bar, stem 90"),
            &Parts { stem: "stem-forged6-90", spacers_mm: 30.0, ..CAME },
        )?,
        candidate(
            stock,
            came,
            ("ergo-440", "Ergonomic 440"),
            &Parts { bar: "bar-ergo-medium-440", ..CAME },
        )?,
    ])
}

fn all_road(came: &Cockpit) -> Bike {
    Bike {
        id: "all-road".into(),
        name: "All-road bike".into(),
        frame: Frame {
            stack_mm: 588.0,
            reach_mm: 388.0,
            head_angle_deg: 71.5,
            seat_angle_deg: 73.5,
            headset_cover_mm: 15.0,
            head_tube_mm: 160.0,
            fork_offset_mm: 50.0,
            wheel_radius_mm: 351.0,
            bottom_bracket_drop_mm: 74.0,
            rear_centre_mm: 427.0,
            crank_mm: 172.5,
        },
        cockpit: came.clone(),
        same_as: None,
    }
}

fn road(stock: &Stock) -> Result<Bike, DemoError> {
    let parts = Parts {
        bar: "bar-compact-standard-400",
        stem: "stem-light7-110",
        turned_over: false,
        spacers_mm: 20.0,
        roll_deg: 1.0,
        lever: "lever-cable",
    };
    let saddle =
        Saddle { height_mm: 752.0, nose_behind_mm: 60.0, sit_from_nose_mm: 140.0, tilt_deg: -0.5 };
    let mut cockpit = as_it_came(stock, &parts, both(178.0, 3.0, 1), saddle)?;
    cockpit.id = "road".into();
    cockpit.label = "Road bike".into();
    Ok(Bike {
        id: "road".into(),
        name: "Road bike".into(),
        frame: Frame {
            stack_mm: 578.0,
            reach_mm: 392.0,
            head_angle_deg: 73.0,
            seat_angle_deg: 73.5,
            headset_cover_mm: 12.0,
            head_tube_mm: 168.0,
            fork_offset_mm: 45.0,
            wheel_radius_mm: 339.0,
            bottom_bracket_drop_mm: 70.0,
            rear_centre_mm: 412.0,
            crank_mm: 172.5,
        },
        cockpit,
        same_as: None,
    })
}

fn visit(as_it_came: Cockpit, tape: Tape, bench: Vec<Cockpit>) -> Visit {
    let complaint = |about, place, after_minutes, score, words: &str| Complaint {
        about,
        side: Where::Both,
        place,
        after_minutes,
        score: Some(score),
        words: words.into(),
        since: String::new(),
        carried: false,
    };
    Visit {
        date: jiff::civil::date(2026, 4, 11),
        bike: "all-road".into(),
        body: readings(&[
            (D::Stature, &[1798.0]),
            (D::CervicaleHeight, &[1555.0]),
            (D::AcromialHeight, &[1477.0, 1475.0]),
            (D::TrochanterionHeight, &[925.0, 921.0, 923.0]),
            (D::CrotchHeight, &[863.0, 861.0, 862.0]),
            (D::LateralFemoralEpicondyleHeight, &[504.0]),
            (D::LateralMalleolusHeight, &[74.0]),
            (D::FootLength, &[276.0]),
            (D::BallOfFootLength, &[204.0]),
            (D::BiacromialBreadth, &[409.0, 411.0]),
            (D::AcromionRadialeLength, &[344.0, 345.0]),
            (D::RadialeStylionLength, &[274.0]),
            (D::ForearmHandLength, &[491.0]),
            (D::ForearmGripLength, &[357.0]),
            (D::HandLength, &[196.0]),
            (D::HandBreadth, &[89.0]),
            (D::Weight, &[78.5]),
        ]),
        mobility: vec![
            Mobility::measured(Joint::Hip, 112.0),
            Mobility::measured(Joint::Neck, 51.0),
        ],
        seen: Vec::new(),
        hand_checks: Vec::new(),
        glove_mm: 0.0,
        complaints: vec![
            complaint(
                Concern::Neck,
                Some(HandPlace::Drops),
                Some(15),
                6,
                "it pulls up the back of the neck when I look ahead",
            ),
            complaint(
                Concern::BrakesFromDrops,
                None,
                None,
                4,
                "from the drops I cannot reach the brakes, I have to let go to get a finger on",
            ),
        ],
        interview: Interview::default(),
        ruled_out: Vec::new(),
        rides: Vec::new(),
        elsewhere: None,
        client_then: None,
        vetoes: Vec::new(),
        hour: None,
        wanted: Vec::new(),
        bounds: Bounds::default(),
        wishes: vec![
            "use the drops on descents and brake from there".into(),
            "keep the hoods, they feel right".into(),
            "why is the road bike more comfortable?".into(),
        ],
        as_it_came,
        tape,
        bench,
        put_right: None,
        chosen: None,
        built: Tape::default(),
        afterwards: Vec::new(),
        notes:
            "Likes the hoods: nine tenths of the time there, hands unasked on them. The bar came \
                with the frame, the road bike's is 40 mm narrower. Saddle left as it was."
                .into(),
    }
}
