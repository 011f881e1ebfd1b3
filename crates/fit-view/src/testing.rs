//! A session for the tests of this crate, with candidates that differ in one thing each. Invented.

use fit_doc::{
    Bar, Bike, Blade, Client, Cockpit, Date, Dimension, Family, Flare, Frame, KnownBy, Lever,
    LeverSetting, LeverSort, Levers, OnTheShelf, Reading, Saddle, Session, Sex, Stem, Visit,
    WidthAt, WidthHow,
};
use std::sync::Arc;

const SHELF: OnTheShelf = OnTheShelf { price: None, in_stock: 1, known_by: KnownBy::Catalogue };

/// A bar of which the usual is known.
pub(crate) fn bar(family: Family, reach_mm: f64, drop_mm: f64, width_mm: f64) -> Bar {
    Bar {
        id: format!("{family:?}-{reach_mm}-{drop_mm}-{width_mm}"),
        name: format!("{family:?} {reach_mm} × {drop_mm}"),
        family,
        proportions: None,
        reach_mm,
        drop_mm,
        width_mm,
        width_at: WidthAt::Hoods,
        width_how: WidthHow::CentreToCentre,
        flare: Flare::Angle { deg: 0.0 },
        flare_from: String::new(),
        outsweep_deg: 0.0,
        backsweep_deg: 0.0,
        rise_deg: 0.0,
        ramp_slope_deg: 5.0,
        ramp_outsweep_deg: 0.0,
        tail_slope_deg: 5.0,
        tail_length_mm: 45.0,
        forward_bend_radius_mm: 40.0,
        clamp_diameter_mm: 31.8,
        tops_diameter_mm: 31.8,
        drops_diameter_mm: 23.8,
        tops_depth_mm: None,
        clamp_zone_mm: None,
        no_levers: false,
        one_piece: None,
        tolerance_mm: None,
        shelf: SHELF,
    }
}

pub(crate) fn stem(length_mm: f64, angle_deg: f64) -> Stem {
    Stem {
        id: format!("stem-{length_mm}-{angle_deg}"),
        name: format!("stem {length_mm}"),
        length_mm,
        angle_deg,
        reversible: true,
        clamp_height_mm: 40.0,
        bar_diameter_mm: 31.8,
        steerer_diameter_mm: 28.6,
        shelf: SHELF,
    }
}

pub(crate) fn levers(along_mm: f64) -> Levers {
    let lever = Lever {
        id: "lever".into(),
        name: "mechanical lever".into(),
        sort: LeverSort::Mechanical,
        grip_mm: (19.0, 43.0),
        hood_slope_deg: 40.0,
        grip_radius_mm: 16.0,
        hood_outline_mm: vec![(-20.0, 12.0), (-10.0, 52.0), (30.0, 78.0), (24.0, 18.0)],
        blade: Blade {
            pivot_mm: (8.0, 42.0),
            length_mm: 105.0,
            usable_mm: (40.0, 95.0),
            rest_angle_deg: -20.0,
            adjuster_deg: vec![0.0, -4.0, -8.0],
            free_travel_mm: 12.0,
        },
        clamp_width_mm: 24.0,
        shelf: SHELF,
    };
    let setting = LeverSetting { along_mm, turn_in_deg: 2.0, clicks: 0 };
    Levers { lever, left: setting, right: setting }
}

pub(crate) fn cockpit(id: &str, label: &str, bar: Bar, along_mm: f64) -> Cockpit {
    Cockpit {
        id: id.into(),
        label: label.into(),
        bar,
        stem: stem(100.0, -6.0),
        spacers_mm: 15.0,
        roll_deg: 0.0,
        levers: Some(levers(along_mm)),
        drops_hand_mm: 0.0,
        saddle: Saddle {
            height_mm: 735.0,
            nose_behind_mm: 60.0,
            sit_from_nose_mm: 140.0,
            tilt_deg: -1.0,
        },
        ridden: false,
    }
}

/// The cockpit that everything else is compared with.
pub(crate) fn deep() -> Cockpit {
    cockpit("came", "deep", bar(Family::Round, 85.0, 145.0, 420.0), 203.0)
}

/// One client, one bike, one visit: the deep bar as it came, these candidates.
pub(crate) fn session(bench: Vec<Cockpit>) -> Session {
    let bike = Bike {
        same_as: None,
        id: "bike".into(),
        name: "road bike".into(),
        frame: Frame {
            stack_mm: 565.0,
            reach_mm: 388.0,
            head_angle_deg: 73.0,
            seat_angle_deg: 73.5,
            headset_cover_mm: 10.0,
            head_tube_mm: 150.0,
            fork_offset_mm: 45.0,
            wheel_radius_mm: 338.0,
            bottom_bracket_drop_mm: 70.0,
            rear_centre_mm: 410.0,
            crank_mm: 172.5,
        },
        cockpit: deep(),
    };
    let reading = |dimension, value| Reading::of(dimension, vec![value]);
    let visit = Visit {
        body: vec![
            reading(Dimension::Stature, 1765.0),
            reading(Dimension::CrotchHeight, 850.0),
            reading(Dimension::BiacromialBreadth, 410.0),
        ],
        bench,
        ..Visit::new(Date::constant(2026, 3, 2), "bike".into(), deep())
    };
    Session {
        id: "0b5b4f0e-2f0a-4a39-9d2c-6d2f6f1c9a11".into(),
        client: Client {
            name: "Robin Example".into(),
            sex: Some(Sex::Male),
            born: Some(1980),
            notes: String::new(),
        },
        bikes: vec![bike],
        visits: vec![Arc::new(visit)],
        keep_until: None,
    }
}

/// Candidates that differ in many ways.
pub(crate) fn candidates() -> Vec<Cockpit> {
    let compact =
        || cockpit("compact", "compact", bar(Family::Variable, 75.0, 125.0, 420.0), 178.0);
    let flared =
        Bar { flare: Flare::Angle { deg: 16.0 }, ..bar(Family::Variable, 70.0, 118.0, 440.0) };
    vec![
        compact(),
        Cockpit {
            id: "raised".into(),
            label: "compact, raised".into(),
            spacers_mm: 30.0,
            ..compact()
        },
        cockpit("flared", "flared and wide", flared, 170.0),
        Cockpit { id: "track".into(), label: "no levers".into(), levers: None, ..deep() },
    ]
}
