//! A man of middle size on a road bike, seen twice: a shallower bar and a shorter stem in spring, and
//! three months later, when the bar has slipped in its clamp.

use super::bench::{DemoError, Parts, as_it_came, both, candidate, readings};
use crate::tape::laid;
use fit_doc::edit::{AfterEdit, InterviewEdit};
use fit_doc::tape::Of;
use fit_doc::{
    AsBuilt, Bike, Client, Cockpit, Complaint, Concern, Date, Dimension as D, Edit, Frame,
    HandPlace, Joint, Liking, Mobility, RideEdit, RideRow, Saddle, Session, Sex, Sight, TapeEdit,
    Visit, Where,
};
use fit_file::stock::Stock;
use fit_view::weigh::{Survey, foretold, foretold_brakes, weigh_visit};
use std::sync::Arc;

const FIRST: Date = Date::constant(2026, 3, 14);
const CALLED: Date = Date::constant(2026, 3, 29);
const BACK: Date = Date::constant(2026, 6, 20);

/// How far the bar has slipped by then, nose down, degrees.
const SLIPPED_DEG: f64 = 4.0;

const CAME: Parts = Parts {
    bar: "bar-round-medium-420",
    stem: "stem-forged6-110",
    turned_over: true,
    spacers_mm: 15.0,
    roll_deg: 1.0,
    lever: "lever-cable",
};

/// What is read of the finished bike, and again when it comes back.
const READ: [Of; 6] = [
    Of::SaddleHeight,
    Of::NoseToBar(fit_doc::Laid::Level),
    Of::NoseToHood(fit_doc::HoodAt::Trough, fit_doc::Laid::Level),
    Of::HoodBelowSaddle(fit_doc::HoodAt::Trough),
    Of::RampSlope,
    Of::LeverFromEnd,
];

pub(super) fn session(stock: &Stock, survey: &Survey) -> Result<Session, DemoError> {
    let mut session = first(stock)?;
    let mut edit = |session: &mut Session, edit: Edit| -> Result<(), DemoError> {
        *session = edit.apply(session).map_err(DemoError::Bar)?.0;
        Ok(())
    };
    for (at, seen) in [("compact", [1.0, -3.0, 2.0]), ("compact-short", [-2.0, 4.0, -6.0])] {
        trial(&mut session, &mut edit, survey, at, seen)?;
    }
    edit(&mut session, Edit::Choose { visit: 0, id: Some("compact-short".into()) })?;
    let built = read_off(&session, 0.0)?;
    for (of, value) in built {
        let change = TapeEdit::Reading { of, to: Some(value) };
        edit(&mut session, Edit::Built { visit: 0, change })?;
    }
    let words = "Quiet on the flat. Long descents still tire the hands.";
    for change in [
        AfterEdit::Add(CALLED),
        AfterEdit::Km { at: 0, to: Some(290) },
        AfterEdit::Score { at: 0, index: 0, to: Some(3) },
        AfterEdit::Score { at: 0, index: 1, to: Some(4) },
        AfterEdit::AsBuilt { at: 0, to: AsBuilt::NotLookedAt },
        AfterEdit::Words { at: 0, to: words.into() },
    ] {
        edit(&mut session, Edit::After { visit: 0, change })?;
    }
    edit(&mut session, Edit::FollowUp { visit: 0, date: BACK })?;
    for (of, value) in read_off(&session, SLIPPED_DEG)? {
        let change = TapeEdit::Reading { of, to: Some(value) };
        edit(&mut session, Edit::Tape { visit: 1, change })?;
    }
    let mut complaints = session.visits[1].complaints.clone();
    for (complaint, score) in complaints.iter_mut().zip([2, 5]) {
        (complaint.score, complaint.carried) = (Some(score), false);
    }
    edit(&mut session, Edit::Complaints { visit: 1, to: complaints })?;
    let notes = "Rode the coast in May. Says the hoods feel lower than in spring.".to_owned();
    edit(&mut session, Edit::VisitNotes { visit: 1, to: notes })?;
    Ok(session)
}

/// A trial of a candidate: what is seen on it is off what was foretold by so many degrees, trunk, elbow
/// and neck on the hoods.
fn trial(
    session: &mut Session,
    edit: &mut impl FnMut(&mut Session, Edit) -> Result<(), DemoError>,
    survey: &Survey,
    id: &str,
    off_deg: [f64; 3],
) -> Result<(), DemoError> {
    let weighed = weigh_visit(session, &session.visits[0], survey);
    let weighed = weighed.map_err(|all| DemoError::NotWeighed(format!("{all:?}")))?;
    let its = weighed.cockpits.iter().find(|of| of.id == id);
    let its = its.ok_or_else(|| DemoError::NotWeighed(id.to_owned()))?;
    let all = foretold(its);
    let at = session.visits[0].rides.len();
    let brakes = foretold_brakes(its, &session.visits[0]);
    let start = Edit::StartRide { visit: 0, cockpit: id.into(), foretold: all.clone(), brakes };
    edit(session, start)?;
    let place = HandPlace::Hoods;
    let mut changes = Vec::new();
    for (row, off) in RideRow::ALL.into_iter().zip(off_deg) {
        let told = all.iter().find(|of| of.row == row && of.place == place);
        let to = told.map(|told| (told.deg + off).round());
        changes.push(RideEdit::Seen { row, place, to });
    }
    changes.extend([
        RideEdit::After { index: 0, to: Some(if at == 0 { 5 } else { 4 }) },
        RideEdit::After { index: 1, to: Some(4) },
        RideEdit::Likes(Some(if at == 0 { Liking::Unsure } else { Liking::Likes })),
        RideEdit::End { minutes: Some(6) },
    ]);
    for change in changes {
        edit(session, Edit::Ride { visit: 0, at, change })?;
    }
    Ok(())
}

/// What the tape reads off the cockpit that was chosen, with its bar turned so far nose down: whole mm
/// and half degrees, as they are read.
fn read_off(session: &Session, down_deg: f64) -> Result<Vec<(Of, f64)>, DemoError> {
    let mut cockpit = session.visits[0].left().clone();
    cockpit.roll_deg -= down_deg;
    let frame = &session.bikes[0].frame;
    let read = laid(frame, &cockpit, READ, 0.0).map_err(DemoError::Bar)?;
    let rounded = |of: Of, value: f64| {
        let per_unit = if of.is_angle() { 2.0 } else { 1.0 };
        (value * per_unit).round() / per_unit + 0.0
    };
    Ok(read.into_iter().map(|of| (of.of, rounded(of.of, of.value))).collect())
}

/// The first visit, before anything was tried.
fn first(stock: &Stock) -> Result<Session, DemoError> {
    let saddle =
        Saddle { height_mm: 735.0, nose_behind_mm: 55.0, sit_from_nose_mm: 140.0, tilt_deg: -1.0 };
    let came = as_it_came(stock, &CAME, both(190.0, 2.0, 1), saddle)?;
    let compact = Parts { bar: "bar-compact-standard-420", ..CAME };
    let bench = vec![
        candidate(stock, &came, ("compact", "Compact 420"), &compact)?,
        candidate(
            stock,
            &came,
            ("compact-short", "Compact 420, stem 100"),
            &Parts { stem: "stem-forged6-100", ..compact },
        )?,
    ];
    let mut session = Session {
        id: "3f6f5c1a-7d52-4b0e-9c11-5e8a2d47b906".into(),
        client: Client {
            name: "Joris Valkenaar".into(),
            sex: Some(Sex::Male),
            born: Some(1979),
            notes: "Rides to work and long tours at the weekend.".into(),
        },
        bikes: vec![road(&came)],
        visits: vec![Arc::new(visit(came, bench))],
        keep_until: None,
    };
    for (sight, deg) in [(Sight::Trunk, 40.0), (Sight::Elbow, 15.0), (Sight::Neck, 46.0)] {
        let (cockpit, place) = (session.visits[0].as_it_came.id.clone(), HandPlace::Hoods);
        let seen = Edit::Seen { visit: 0, cockpit, place, sight, to: Some(deg) };
        session = seen.apply(&session).map_err(DemoError::Bar)?.0;
    }
    for change in [
        InterviewEdit::Riding("road, two tours of 200 km a month".into()),
        InterviewEdit::Hours(Some(7.0)),
        InterviewEdit::Glasses(true),
        InterviewEdit::Consent(true),
    ] {
        let asked = Edit::Interview { visit: 0, change };
        session = asked.apply(&session).map_err(DemoError::Bar)?.0;
    }
    Ok(session)
}

fn road(came: &Cockpit) -> Bike {
    Bike {
        id: "road".into(),
        name: "Road bike".into(),
        frame: Frame {
            stack_mm: 560.0,
            reach_mm: 386.0,
            head_angle_deg: 73.0,
            seat_angle_deg: 73.5,
            headset_cover_mm: 12.0,
            head_tube_mm: 148.0,
            fork_offset_mm: 45.0,
            wheel_radius_mm: 339.0,
            bottom_bracket_drop_mm: 70.0,
            rear_centre_mm: 411.0,
            crank_mm: 172.5,
        },
        cockpit: came.clone(),
        same_as: None,
    }
}

fn visit(as_it_came: Cockpit, bench: Vec<Cockpit>) -> Visit {
    let mut visit = Visit::new(FIRST, "road".into(), as_it_came);
    visit.body = readings(&[
        (D::Stature, &[1762.0]),
        (D::CervicaleHeight, &[1524.0]),
        (D::AcromialHeight, &[1447.0, 1449.0]),
        (D::TrochanterionHeight, &[905.0, 903.0]),
        (D::CrotchHeight, &[845.0, 846.0]),
        (D::LateralFemoralEpicondyleHeight, &[494.0]),
        (D::LateralMalleolusHeight, &[72.0]),
        (D::FootLength, &[270.0]),
        (D::BallOfFootLength, &[200.0]),
        (D::BiacromialBreadth, &[404.0]),
        (D::AcromionRadialeLength, &[337.0]),
        (D::RadialeStylionLength, &[268.0]),
        (D::ForearmHandLength, &[481.0]),
        (D::ForearmGripLength, &[350.0]),
        (D::HandLength, &[192.0]),
        (D::HandBreadth, &[88.0]),
        (D::Weight, &[74.0]),
    ]);
    visit.mobility = vec![Mobility::measured(Joint::Neck, 60.0)];
    let complaint = |about, place, after_minutes, score, words: &str| Complaint {
        place: Some(place),
        after_minutes: Some(after_minutes),
        score: Some(score),
        words: words.into(),
        ..Complaint::about(about, Where::Both)
    };
    visit.complaints = vec![
        complaint(Concern::Neck, HandPlace::Drops, 20, 6, "a knot under the skull by the top"),
        complaint(Concern::Hands, HandPlace::Hoods, 60, 5, "asleep after an hour, both thumbs"),
    ];
    visit.wishes = vec!["ride the long tours without shaking out the hands".into()];
    visit.notes = "Bar as the bike was sold. Saddle was put right a year ago.".into();
    visit.bench = bench;
    visit
}
