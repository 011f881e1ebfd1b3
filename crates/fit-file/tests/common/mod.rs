//! What the tests of this crate share: a small session, a folder that is looked at before and
//! after.

#![allow(dead_code, reason = "each test binary uses its own part of this module")]

use fit_doc::tape::{BarKnown, HoodAt, Laid, Of};
use fit_doc::{
    AfterNote, AfterScore, Aim, AsBuilt, Bar, Bike, Blade, Bounds, Client, ClientThen, Cockpit,
    Complaint, Concern, Corrected, Counts, Dimension, Elsewhere, Extent, Family, FingerPart, Flare,
    Frame, HandCheck, HandPlace, Helmet, Interview, Joint, KnownBy, Lever, LeverSetting, LeverSort,
    Levers, Liking, Looked, Message, Mobility, OnTheShelf, Price, Reaches, Reading, Ride,
    RideBrake, RideNumber, RideRow, RideScore, RuleOut, RuledOut, Saddle, Seen, SendOn, Session,
    Sex, Share, Stays, Stem, Suppleness, Tape, TapeReading, Veto, Visit, Wanted, Where, WidthAt,
    WidthHow,
};
use rustix::time::{ClockId, clock_gettime};
use std::collections::BTreeMap;
use std::fs;
use std::path::{Path, PathBuf};
use std::sync::Arc;
use tempfile::TempDir;

fn shelf() -> OnTheShelf {
    OnTheShelf { price: Some(Price { cents: 6990 }), in_stock: 2, known_by: KnownBy::Catalogue }
}

fn bar() -> Bar {
    Bar {
        id: "bar-1".into(),
        name: "Deep round".into(),
        family: Family::Round,
        proportions: None,
        reach_mm: 88.0,
        drop_mm: 150.0,
        width_mm: 440.0,
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
        clamp_zone_mm: Some((150.0, 260.0)),
        no_levers: false,
        one_piece: None,
        tolerance_mm: None,
        shelf: shelf(),
    }
}

fn stem() -> Stem {
    Stem {
        id: "stem-1".into(),
        name: "Forged".into(),
        length_mm: 110.0,
        angle_deg: -6.0,
        reversible: true,
        clamp_height_mm: 40.0,
        bar_diameter_mm: 31.8,
        steerer_diameter_mm: 28.6,
        shelf: shelf(),
    }
}

fn levers() -> Levers {
    let setting = LeverSetting { along_mm: 205.5, turn_in_deg: 3.0, clicks: 1 };
    Levers {
        lever: Lever {
            id: "lever-1".into(),
            name: "Plain".into(),
            sort: LeverSort::Mechanical,
            grip_mm: (19.0, 43.0),
            hood_slope_deg: 40.0,
            grip_radius_mm: 17.5,
            hood_outline_mm: vec![(-20.0, 12.0), (60.0, 62.25), (75.0, 30.0)],
            blade: Blade {
                pivot_mm: (8.0, 42.0),
                length_mm: 105.0,
                usable_mm: (40.0, 95.0),
                rest_angle_deg: -20.0,
                adjuster_deg: vec![0.0, -4.0, -8.0],
                free_travel_mm: 14.0,
            },
            clamp_width_mm: 18.0,
            shelf: shelf(),
        },
        left: setting,
        right: LeverSetting { clicks: 0, ..setting },
    }
}

fn cockpit(id: &str, label: &str) -> Cockpit {
    Cockpit {
        id: id.into(),
        label: label.into(),
        bar: bar(),
        stem: stem(),
        spacers_mm: 17.5,
        roll_deg: 1.25,
        levers: Some(levers()),
        drops_hand_mm: 0.0,
        saddle: Saddle {
            height_mm: 742.0,
            nose_behind_mm: 61.0,
            sit_from_nose_mm: 135.0,
            tilt_deg: -0.5,
        },
        ridden: false,
    }
}

fn ride() -> Ride {
    Ride {
        cockpit: "came".into(),
        minutes: Some(4),
        brakes: vec![RideBrake { side: Where::Left, reaches: Reaches::Just }],
        scores: vec![RideScore {
            about: Concern::Neck,
            side: Where::Left,
            place: Some(HandPlace::Drops),
            before: Some(6),
            after: Some(3),
        }],
        foretold: vec![RideNumber { row: RideRow::Trunk, place: HandPlace::Hoods, deg: 43.25 }],
        seen: vec![RideNumber { row: RideRow::Trunk, place: HandPlace::Hoods, deg: 44.0 }],
        words: "better".into(),
        likes: Some(Liking::Likes),
        ended: true,
        as_it_came: true,
        corrected: vec![Corrected::Frame, Corrected::Seen],
    }
}

fn interview() -> Interview {
    Interview {
        changed_before: "new shoes".into(),
        riding: "hills, gravel".into(),
        hours_per_week: Some(6.5),
        shares: vec![
            Share { place: HandPlace::Hoods, percent: 70 },
            Share { place: HandPlace::Drops, percent: 10 },
        ],
        glasses: true,
        helmet: Some(Helmet::WithPeak),
        injuries: "left collarbone, 2019".into(),
        fears: "wet descents".into(),
        red_flags: vec![SendOn::ArmPain],
        consent: true,
    }
}

fn after() -> AfterNote {
    AfterNote {
        date: jiff::civil::date(2026, 3, 29),
        km: Some(310),
        scores: vec![AfterScore {
            about: Concern::Neck,
            side: Where::Left,
            place: Some(HandPlace::Drops),
            score: Some(3),
        }],
        as_built: AsBuilt::Same,
        words: "better on the flat".into(),
    }
}

fn built() -> Tape {
    Tape { readings: vec![TapeReading { of: Of::SaddleHeight, value: 742.0 }], ..Tape::default() }
}

fn mobility() -> Vec<Mobility> {
    vec![
        Mobility::measured(Joint::Neck, 52.0),
        Mobility {
            joint: Joint::Hip,
            side: Where::Left,
            extent: Extent::Said(Suppleness::Stiff),
            painful: true,
        },
    ]
}

fn wanted() -> Vec<Wanted> {
    vec![Wanted {
        by_mm: Some(25.0),
        counts: Counts::Much,
        ..Wanted::new(Aim::Nearer).at(HandPlace::Hoods)
    }]
}

fn bounds() -> Bounds {
    Bounds {
        stays: vec![Stays::Roll, Stays::LeverKind],
        width_mm: Some((400.0, 440.0)),
        stem_mm: Some((80.0, 110.0)),
        spacers_mm: Some(30.0),
        money: Some(Price { cents: 12_000 }),
        minutes: Some(90),
        in_stock_only: true,
        event_rules: true,
    }
}

/// A small session with something of everything; the check finds nothing to say about it.
pub(crate) fn session() -> Session {
    let visit = Visit {
        date: jiff::civil::date(2026, 3, 14),
        bike: "bike-1".into(),
        body: vec![
            Reading::of(Dimension::Stature, vec![1782.0, 1784.0]),
            Reading::of(Dimension::Weight, vec![74.3]),
        ],
        mobility: mobility(),
        seen: vec![Seen {
            cockpit: "came".into(),
            place: HandPlace::Hoods,
            trunk_deg: Some(43.0),
            elbow_deg: Some(14.0),
            neck_deg: None,
            knee_deg: None,
            slide_mm: None,
        }],
        hand_checks: vec![HandCheck {
            cockpit: "came".into(),
            side: Where::Right,
            part: FingerPart::Pad,
            reaches: Reaches::Just,
        }],
        glove_mm: 2.0,
        complaints: vec![Complaint {
            about: Concern::Neck,
            side: Where::Left,
            place: Some(HandPlace::Drops),
            after_minutes: Some(40),
            score: Some(6),
            words: "“like a knot”, it's worse on the left".into(),
            since: "since spring".into(),
            carried: false,
        }],
        interview: interview(),
        rides: vec![ride()],
        elsewhere: Some(Elsewhere::NotTheBar),
        vetoes: vec![Veto { cockpit: "came".into(), words: "too wide".into() }],
        hour: Some(Price { cents: 6550 }),
        client_then: Some(ClientThen { sex: Some(Sex::Female), born: Some(1984) }),
        ruled_out: vec![
            RuledOut { item: RuleOut::SaddleTilt, looked: Looked::Changed },
            RuledOut { item: RuleOut::Glasses, looked: Looked::NotNow },
        ],
        wanted: wanted(),
        bounds: bounds(),
        wishes: vec!["brake from the drops".into()],
        as_it_came: cockpit("came", "As it came today"),
        tape: Tape {
            readings: vec![
                TapeReading { of: Of::NoseToHood(HoodAt::Tip, Laid::Slant), value: 668.5 },
                TapeReading { of: Of::RampSlope, value: 4.5 },
                TapeReading { of: Of::WidthAtHoods(WidthHow::OutsideToOutside), value: 424.0 },
            ],
            nose_up_deg: 0.5,
            bar_known: BarKnown::FamilyOnly,
            frame_known: true,
        },
        bench: vec![cockpit("short", "Shorter stem")],
        put_right: None,
        chosen: None,
        built: built(),
        afterwards: vec![after()],
        notes: "first line\nsecond line\twith a \"quote\", a \\ and an é".into(),
    };
    Session {
        id: "6a0cd6fe-4f0e-4d0f-9a58-3cf2a0a4d001".into(),
        client: Client {
            name: "Invented Person".into(),
            sex: Some(Sex::Female),
            born: Some(1984),
            notes: String::new(),
        },
        bikes: vec![Bike {
            same_as: None,
            id: "bike-1".into(),
            name: "All-road".into(),
            frame: Frame {
                stack_mm: 585.0,
                reach_mm: 385.0,
                head_angle_deg: 71.5,
                seat_angle_deg: 73.5,
                headset_cover_mm: 15.0,
                head_tube_mm: 155.0,
                fork_offset_mm: 47.0,
                wheel_radius_mm: 345.0,
                bottom_bracket_drop_mm: 75.0,
                rear_centre_mm: 425.0,
                crank_mm: 172.5,
            },
            cockpit: cockpit("last", "As it was last known"),
        }],
        visits: vec![Arc::new(visit)],
        keep_until: Some(jiff::civil::date(2036, 4, 11)),
    }
}

/// The session, told apart by a note.
pub(crate) fn session_noted(note: &str) -> Session {
    let mut session = session();
    session.client.notes = note.into();
    session
}

/// Its file.
pub(crate) fn text() -> String {
    fit_file::session_text(&session(), "given").unwrap()
}

/// The file without its check line, as somebody leaves it who edits by hand.
pub(crate) fn unsealed() -> String {
    let text = text();
    text[..text.rfind("// check").unwrap()].to_owned()
}

/// The unsealed file with one thing put in the place of another that stands there once or more;
/// the first is changed.
pub(crate) fn edited(from: &str, to: &str) -> String {
    let text = unsealed();
    assert!(text.contains(from), "{from} is in the file");
    text.replacen(from, to, 1)
}

/// What opening these bytes says.
pub(crate) fn refusal(bytes: impl AsRef<[u8]>) -> Message {
    fit_file::read_session(bytes.as_ref(), "given").unwrap_err().message().clone()
}

/// Processor time of this thread so far, s.
pub(crate) fn cpu_s() -> f64 {
    let time = clock_gettime(ClockId::ThreadCPUTime);
    time.tv_sec as f64 + time.tv_nsec as f64 / 1e9
}

/// A folder for one test.
pub(crate) struct Folder {
    dir: TempDir,
}

impl Folder {
    /// An empty folder.
    pub(crate) fn new() -> Self {
        Self { dir: tempfile::tempdir().unwrap() }
    }

    /// A path in it.
    pub(crate) fn path(&self, name: &str) -> PathBuf {
        self.dir.path().join(name)
    }

    /// A file in it.
    pub(crate) fn with(&self, name: &str, bytes: impl AsRef<[u8]>) -> PathBuf {
        let path = self.path(name);
        fs::write(&path, bytes).unwrap();
        path
    }

    /// Every name in it with its content, or nothing for what is no file; without the hidden folder of
    /// earlier contents and locks.
    pub(crate) fn look(&self) -> BTreeMap<PathBuf, Option<Vec<u8>>> {
        let entries = fs::read_dir(self.dir.path()).unwrap().map(|entry| entry.unwrap().path());
        let shown = entries.filter(|path| path.file_name().unwrap() != ".barwright");
        shown.map(|path| (path.clone(), content(&path))).collect()
    }
}

fn content(path: &Path) -> Option<Vec<u8>> {
    fs::symlink_metadata(path).unwrap().is_file().then(|| fs::read(path).unwrap())
}
