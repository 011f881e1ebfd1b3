//! A tall man with wide shoulders and a stiff neck on an endurance bike with a narrow bar.

use super::bench::{DemoError, Parts, as_it_came, both, candidate, readings};
use fit_doc::{
    Bike, Bounds, Client, Cockpit, Complaint, Concern, Dimension as D, Frame, HandPlace, Interview,
    Joint, Mobility, Saddle, Session, Sex, Tape, Visit, Where,
};
use fit_file::stock::Stock;
use std::sync::Arc;

const CAME: Parts = Parts {
    bar: "bar-deep-classic-420",
    stem: "stem-forged6-120",
    turned_over: false,
    spacers_mm: 10.0,
    roll_deg: -1.0,
    lever: "lever-long-body",
};

pub(super) fn session(stock: &Stock) -> Result<Session, DemoError> {
    let saddle =
        Saddle { height_mm: 829.0, nose_behind_mm: 78.0, sit_from_nose_mm: 142.0, tilt_deg: -1.5 };
    let came = as_it_came(stock, &CAME, both(207.0, 0.0, 0), saddle)?;
    let bench = bench(stock, &came)?;
    Ok(Session {
        id: "e05d2c71-68ab-4f19-b3c4-2a7f1e9d8063".into(),
        client: Client {
            name: "Bertold Haverquist".into(),
            sex: Some(Sex::Male),
            born: Some(1966),
            notes: "Whiplash in 2009, looked after by a physiotherapist since. Varifocal glasses."
                .into(),
        },
        bikes: vec![endurance(&came)],
        visits: vec![Arc::new(visit(came, bench))],
        keep_until: None,
    })
}

fn bench(stock: &Stock, came: &Cockpit) -> Result<Vec<Cockpit>, DemoError> {
    Ok(vec![
        candidate(
            stock,
            came,
            ("raised", "Stem turned over"),
            &Parts { turned_over: true, spacers_mm: 35.0, ..CAME },
        )?,
        candidate(
            stock,
            came,
            ("nearer", "Same bar, stem 100"),
            &Parts { stem: "stem-forged6-100", spacers_mm: 35.0, ..CAME },
        )?,
        candidate(
            stock,
            came,
            ("compact-460", "Compact 460, raised"),
            &Parts { bar: "bar-compact-standard-460", turned_over: true, spacers_mm: 25.0, ..CAME },
        )?,
        candidate(
            stock,
            came,
            ("comfort-470", "Risen tops 470"),
            &Parts {
                bar: "bar-comfort-rise-470",
                stem: "stem-forged6-110",
                turned_over: true,
                spacers_mm: 25.0,
                ..CAME
            },
        )?,
    ])
}

fn endurance(came: &Cockpit) -> Bike {
    Bike {
        id: "endurance".into(),
        name: "Endurance bike".into(),
        frame: Frame {
            stack_mm: 648.0,
            reach_mm: 406.0,
            head_angle_deg: 72.5,
            seat_angle_deg: 73.0,
            headset_cover_mm: 15.0,
            head_tube_mm: 225.0,
            fork_offset_mm: 45.0,
            wheel_radius_mm: 343.0,
            bottom_bracket_drop_mm: 72.0,
            rear_centre_mm: 420.0,
            crank_mm: 175.0,
        },
        cockpit: came.clone(),
        same_as: None,
    }
}

fn visit(as_it_came: Cockpit, bench: Vec<Cockpit>) -> Visit {
    Visit {
        date: jiff::civil::date(2026, 5, 20),
        bike: "endurance".into(),
        body: readings(&[
            (D::Stature, &[1936.0]),
            (D::CervicaleHeight, &[1681.0]),
            (D::AcromialHeight, &[1597.0]),
            (D::TrochanterionHeight, &[1009.0, 1004.0]),
            (D::CrotchHeight, &[944.0, 945.0]),
            (D::LateralFemoralEpicondyleHeight, &[550.0]),
            (D::LateralMalleolusHeight, &[80.0]),
            (D::FootLength, &[296.0]),
            (D::BallOfFootLength, &[219.0]),
            (D::BiacromialBreadth, &[455.0, 458.0]),
            (D::AcromionRadialeLength, &[371.0]),
            (D::RadialeStylionLength, &[296.0]),
            (D::ForearmHandLength, &[528.0]),
            (D::ForearmGripLength, &[385.0]),
            (D::HandLength, &[210.0]),
            (D::HandBreadth, &[95.0]),
            (D::Weight, &[93.6]),
        ]),
        mobility: vec![
            Mobility::measured(Joint::Hip, 106.0),
            Mobility::measured(Joint::Shoulder, 150.0),
            Mobility::measured(Joint::Neck, 37.0),
        ],
        seen: Vec::new(),
        hand_checks: Vec::new(),
        glove_mm: 0.0,
        complaints: vec![
            Complaint {
                about: Concern::Neck,
                side: Where::Right,
                place: Some(HandPlace::Hoods),
                after_minutes: Some(45),
                score: Some(6),
                words: "after three quarters of an hour I ride with my eyes on the front wheel"
                    .into(),
                since: String::new(),
                carried: false,
            },
            Complaint {
                about: Concern::Neck,
                side: Where::Right,
                place: Some(HandPlace::Drops),
                after_minutes: Some(5),
                score: Some(8),
                words: "not for more than a minute".into(),
                since: String::new(),
                carried: false,
            },
            Complaint {
                about: Concern::Shoulders,
                side: Where::Both,
                place: None,
                after_minutes: Some(60),
                score: Some(3),
                words: "squeezed together at the front".into(),
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
        wishes: vec![
            "see the road without thinking of it".into(),
            "two hours without stopping".into(),
        ],
        as_it_came,
        tape: Tape::default(),
        bench,
        put_right: None,
        chosen: None,
        built: Tape::default(),
        afterwards: Vec::new(),
        notes: "No arm pain, no dizziness on looking up. Peak of the helmet taken off before \
                measuring. Steerer uncut: 40 mm can go under the stem."
            .into(),
    }
}
