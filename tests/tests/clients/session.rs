//! The session of one client: a bike scaled with stature, three cockpits.

use super::people::Person;
use acceptance::demo::{Parts, as_it_came, both, candidate};
use fit_doc::{
    Bike, Client, Cockpit, Dimension, Extent, Frame, Joint, Mobility, Reading, Saddle, Session,
    Visit, Where,
};
use std::sync::Arc;

/// The stature that the bike is drawn for, mm.
const STATURE_MM: f64 = 1756.0;
/// Saddle above the axle as a share of the inseam (common practice, no source).
const SADDLE_PER_INSEAM: f64 = 0.883;
/// The line from axle to saddle, degrees.
const SEAT_TUBE_DEG: f64 = 73.5;
/// From the saddle's nose to where it is 80 mm wide, mm.
const SIT_FROM_NOSE_MM: f64 = 140.0;
/// How far a raised stem is raised, mm.
const RAISED_MM: f64 = 20.0;

const DEEP: Parts = Parts {
    bar: "bar-deep-classic-420",
    stem: "stem-forged6-100",
    turned_over: true,
    spacers_mm: 15.0,
    roll_deg: 0.0,
    lever: "lever-cable",
};

pub(crate) fn of(name: &str, person: &Person) -> Session {
    let stock = fit_file::stock::shipped().unwrap();
    let scale = person.read(Dimension::Stature) / STATURE_MM;
    let height_mm = SADDLE_PER_INSEAM * person.read(Dimension::CrotchHeight);
    let saddle = Saddle {
        height_mm,
        nose_behind_mm: height_mm * SEAT_TUBE_DEG.to_radians().cos() - SIT_FROM_NOSE_MM,
        sit_from_nose_mm: SIT_FROM_NOSE_MM,
        tilt_deg: 0.0,
    };
    let came = as_it_came(&stock, &DEEP, both(203.0, 2.0, 0), saddle).unwrap();
    let came = came.with_name("came", "As it came");
    let other = |id: &str, parts: &Parts| candidate(&stock, &came, (id, id), parts).unwrap();
    let bench = vec![
        other("compact", &Parts { bar: "bar-compact-standard-420", ..DEEP }),
        other("raised", &Parts { spacers_mm: DEEP.spacers_mm + RAISED_MM, ..DEEP }),
    ];
    Session {
        id: format!("client-{name}"),
        client: Client {
            name: name.to_owned(),
            sex: person.sex,
            born: Some(person.born),
            notes: String::new(),
        },
        bikes: vec![bike(scale, &came)],
        visits: vec![Arc::new(visit(person, came, bench))],
        keep_until: None,
    }
}

fn bike(scale: f64, came: &Cockpit) -> Bike {
    let frame = Frame {
        stack_mm: 570.0 * scale,
        reach_mm: 385.0 * scale,
        head_angle_deg: 73.0,
        seat_angle_deg: SEAT_TUBE_DEG,
        headset_cover_mm: 10.0,
        head_tube_mm: 150.0 * scale,
        fork_offset_mm: 45.0,
        wheel_radius_mm: 338.0,
        bottom_bracket_drop_mm: 70.0,
        rear_centre_mm: 410.0,
        crank_mm: 170.0 * scale,
    };
    Bike { id: "bike".into(), name: "bike".into(), frame, cockpit: came.clone(), same_as: None }
}

fn visit(person: &Person, came: Cockpit, bench: Vec<Cockpit>) -> Visit {
    let mut visit = Visit::new(jiff::civil::date(2026, 6, 1), "bike".into(), came);
    visit.bench = bench;
    let reading = |&(item, value)| Reading { item, side: Where::Both, values: vec![value] };
    visit.body = person.readings.iter().map(reading).collect();
    let hip = |(side, deg)| Mobility {
        joint: Joint::Hip,
        side,
        extent: Extent::Measured { deg },
        painful: false,
    };
    let hips = person.hips_deg.into_iter();
    let hips = hips.flat_map(|[left, right]| [(Where::Left, left), (Where::Right, right)]);
    visit.mobility = hips.map(hip).collect();
    visit.mobility.extend(person.neck_deg.map(|deg| Mobility::measured(Joint::Neck, deg)));
    visit
}
