//! A small woman with small hands on a road bike whose bar and levers were made for others.

use super::bench::{DemoError, Parts, as_it_came, both, candidate, readings};
use fit_doc::{
    Bike, Bounds, Client, Cockpit, Complaint, Concern, Dimension as D, Frame, HandPlace, Interview,
    Joint, Mobility, Saddle, Session, Sex, Tape, Visit, Where,
};
use fit_file::stock::Stock;
use std::sync::Arc;

const CAME: Parts = Parts {
    bar: "bar-compact-standard-400",
    stem: "stem-forged6-90",
    turned_over: false,
    spacers_mm: 15.0,
    roll_deg: 0.0,
    lever: "lever-cable",
};

/// How far the levers go down the bend where that is tried first, mm.
const LOWER_MM: f64 = 8.0;

pub(super) fn session(stock: &Stock) -> Result<Session, DemoError> {
    let saddle =
        Saddle { height_mm: 648.0, nose_behind_mm: 36.0, sit_from_nose_mm: 130.0, tilt_deg: -1.0 };
    let came = as_it_came(stock, &CAME, both(178.0, 2.0, 0), saddle)?;
    let bench = bench(stock, &came)?;
    Ok(Session {
        id: "b7a90d3e-11f4-4c58-8e27-90d6c4a3f512".into(),
        client: Client {
            name: "Ilka Morwind".into(),
            sex: Some(Sex::Female),
            born: Some(1990),
            notes: "Second year on a road bike. Wears size 5 gloves.".into(),
        },
        bikes: vec![road(&came)],
        visits: vec![Arc::new(visit(came, bench))],
        keep_until: None,
    })
}

fn bench(stock: &Stock, came: &Cockpit) -> Result<Vec<Cockpit>, DemoError> {
    let mut screw = candidate(stock, came, ("screw", "Levers lower"), &CAME)?;
    if let Some(levers) = &mut screw.levers {
        for setting in [&mut levers.left, &mut levers.right] {
            setting.clicks = 4;
            setting.along_mm -= LOWER_MM;
        }
    }
    Ok(vec![
        screw,
        candidate(
            stock,
            came,
            ("stem-75", "Same bar, stem 75"),
            &Parts { stem: "stem-light7-75", spacers_mm: 25.0, ..CAME },
        )?,
        candidate(
            stock,
            came,
            ("small-bar", "Small bar 360"),
            &Parts { bar: "bar-small-hand-360", ..CAME },
        )?,
        candidate(
            stock,
            came,
            ("small-bar-levers", "Small bar and levers"),
            &Parts { bar: "bar-small-hand-360", lever: "lever-small-hand", ..CAME },
        )?,
    ])
}

fn road(came: &Cockpit) -> Bike {
    Bike {
        id: "road".into(),
        name: "Road bike".into(),
        frame: Frame {
            stack_mm: 512.0,
            reach_mm: 366.0,
            head_angle_deg: 70.5,
            seat_angle_deg: 74.5,
            headset_cover_mm: 10.0,
            head_tube_mm: 105.0,
            fork_offset_mm: 50.0,
            wheel_radius_mm: 339.0,
            bottom_bracket_drop_mm: 72.0,
            rear_centre_mm: 410.0,
            crank_mm: 165.0,
        },
        cockpit: came.clone(),
        same_as: None,
    }
}

fn visit(as_it_came: Cockpit, bench: Vec<Cockpit>) -> Visit {
    Visit {
        date: jiff::civil::date(2026, 5, 6),
        bike: "road".into(),
        body: readings(&[
            (D::Stature, &[1579.0]),
            (D::CervicaleHeight, &[1352.0]),
            (D::AcromialHeight, &[1294.0, 1296.0]),
            (D::TrochanterionHeight, &[815.0, 817.0]),
            (D::CrotchHeight, &[753.0, 752.0, 755.0]),
            (D::LateralFemoralEpicondyleHeight, &[449.0]),
            (D::LateralMalleolusHeight, &[60.0]),
            (D::FootLength, &[236.0]),
            (D::BallOfFootLength, &[175.0]),
            (D::BiacromialBreadth, &[352.0]),
            (D::AcromionRadialeLength, &[300.0]),
            (D::RadialeStylionLength, &[233.0, 232.0]),
            (D::ForearmHandLength, &[419.0]),
            (D::ForearmGripLength, &[306.0]),
            (D::HandLength, &[166.0, 166.0]),
            (D::HandBreadth, &[72.0]),
            (D::Weight, &[52.3]),
        ]),
        mobility: vec![
            Mobility::measured(Joint::Hip, 124.0),
            Mobility::measured(Joint::Neck, 66.0),
        ],
        seen: Vec::new(),
        hand_checks: Vec::new(),
        glove_mm: 0.0,
        complaints: vec![
            Complaint {
                about: Concern::Hands,
                side: Where::Both,
                place: Some(HandPlace::Hoods),
                after_minutes: Some(30),
                score: Some(5),
                words: "two fingers just reach the brakes, my hands cramp on long descents".into(),
                since: String::new(),
                carried: false,
            },
            Complaint {
                about: Concern::Shoulders,
                side: Where::Both,
                place: Some(HandPlace::Hoods),
                after_minutes: Some(60),
                score: Some(4),
                words: "as if I were carrying a tray".into(),
                since: String::new(),
                carried: false,
            },
            Complaint {
                about: Concern::BrakesFromDrops,
                side: Where::Both,
                place: None,
                after_minutes: None,
                score: Some(7),
                words: "I do not go there, there are no brakes there".into(),
                since: String::new(),
                carried: false,
            },
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
        wishes: vec!["feel safe downhill".into(), "no new bike".into()],
        as_it_came,
        tape: Tape::default(),
        bench,
        put_right: None,
        chosen: Some("small-bar-levers".into()),
        built: Tape::default(),
        afterwards: Vec::new(),
        notes:
            "Bar and levers as the bike was sold. Blades never set. Holds the hoods at their very \
                back."
                .into(),
    }
}
