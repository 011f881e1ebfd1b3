//! Who complains of what on which bike, for each case of `tests/clients/choices.txt`.

use crate::people::Person;
use crate::session;
use fit_doc::edit::carry_levers;
use fit_doc::{
    Aim, Bar, Cockpit, Complaint, Concern, FingerPart, Frame, HandCheck, HandPlace, Looked, Place,
    Reaches, Ride, RideScore, RuleOut, RuledOut, Seen, Session, Stays, Stock, Visit, Wanted, Where,
    geometry,
};
use fit_view::choose::Quick;
use std::collections::BTreeMap;
use std::sync::Arc;

use Concern as C;
use HandPlace::{Drops, Hoods};

/// The session of a case, and the shop.
#[expect(clippy::too_many_lines, reason = "a case for each complaint")]
pub(crate) fn of(name: &str, people: &BTreeMap<String, Person>) -> (Session, Stock) {
    let client = |name: &str| session::of(name, &people[name]);
    let stock = fit_file::stock::shipped().unwrap();
    let looked = Looking::Everything;
    let session = match name {
        "brakes-in-the-drops" => {
            visit(client("small-hands"), looked, &[(C::BrakesFromDrops, None)])
        }
        "brakes-in-the-drops-screw-at-its-end" => {
            let session = visit(client("small-hands"), looked, &[(C::BrakesFromDrops, None)]);
            came(session, screw_at_its_end)
        }
        "hand-sits-further-forward-on-another-bar" => {
            let session = visit(client("small-hands"), looked, &[(C::BrakesFromDrops, None)]);
            let session = came(session, screw_at_its_end);
            with_visit(session, |visit, frame| {
                visit.bounds.stays = vec![Stays::LeverPlace, Stays::LeverKind];
                let compact = visit.bench.iter_mut().find(|of| of.id == "compact").unwrap();
                turned_forward(compact, frame, 12.0);
            })
        }
        "brakes-from-the-hoods" => {
            let session =
                visit(client("small-hands"), looked, &[(C::BrakesFromHoods, Some(Hoods))]);
            return (session, with_small_lever(stock));
        }
        "brakes-from-the-hoods-screw-at-its-end" => {
            let session =
                visit(client("small-hands"), looked, &[(C::BrakesFromHoods, Some(Hoods))]);
            return (came(session, screw_at_its_end), with_small_lever(stock));
        }
        "numb-hands-saddle-not-looked-at" => {
            visit(client("mean-man"), Looking::Nothing, &[(C::Hands, Some(Hoods))])
        }
        "numb-hands-elbows-locked" => {
            let session = visit(client("mean-man"), looked, &[(C::Hands, Some(Hoods))]);
            with_visit(session, |visit, _| {
                visit.seen.push(Seen {
                    cockpit: "came".into(),
                    place: Hoods,
                    trunk_deg: None,
                    elbow_deg: Some(6.0),
                    neck_deg: None,
                    knee_deg: None,
                    slide_mm: None,
                });
            })
        }
        "numb-hands-hoods-off-the-ramps" => {
            let session = visit(client("mean-man"), looked, &[(C::Hands, Some(Hoods))]);
            came(session, |came| {
                let levers = came.levers.as_mut().unwrap();
                levers.left.along_mm -= LOW_LEVERS_MM;
                levers.right.along_mm -= LOW_LEVERS_MM;
            })
        }
        "neck-on-the-hoods" => visit(client("stiff-neck"), looked, &[(C::Neck, Some(Hoods))]),
        "neck-in-the-drops-only" => {
            let session = visit(client("stiff-neck"), looked, &[(C::Neck, Some(Drops))]);
            wanted(session, vec![Wanted::new(Aim::EaseNeck).at(Drops), Wanted::new(Aim::HoodsStay)])
        }
        "neck-everywhere" => {
            visit(client("stiff-neck"), looked, &[(C::Neck, Some(Hoods)), (C::Neck, Some(Drops))])
        }
        "shoulders-narrow-bar" => {
            let session = visit(client("wide-shoulders"), looked, &[(C::Shoulders, Some(Hoods))]);
            came(session, |came| bar_of(came, &stock, "bar-deep-classic-380"))
        }
        "saddle-pain-saddle-looked-at" => visit(client("mean-man"), looked, &[(C::Seat, None)]),
        "saddle-pain" => visit(client("mean-man"), Looking::Nothing, &[(C::Seat, None)]),
        "low-back" => visit(client("tall"), looked, &[(C::LowBack, Some(Hoods))]),
        "stretched-hoods-only" => {
            let session = visit(client("short"), looked, &[(C::Stretched, Some(Hoods))]);
            came(session, |came| stem_of(came, &stock, 110.0))
        }
        "stretched-and-drops-too-deep" => {
            let complaints = [(C::Stretched, Some(Hoods)), (C::DropsUnused, None)];
            let session = visit(client("short"), looked, &complaints);
            came(session, |came| bar_with(came, |bar| (bar.reach_mm, bar.drop_mm) = (88.0, 150.0)))
        }
        "cramped" => {
            let session = visit(client("tall"), looked, &[(C::Cramped, Some(Hoods))]);
            came(session, |came| stem_of(came, &stock, 80.0))
        }
        "unstable-on-descents" => {
            let session = visit(client("mean-man"), looked, &[(C::Unsteady, Some(Drops))]);
            with_visit(session, |visit, _| {
                visit.hand_checks.push(HandCheck {
                    cockpit: "came".into(),
                    side: Where::Both,
                    part: FingerPart::LastJoint,
                    reaches: Reaches::No,
                });
            })
        }
        "cannot-use-the-drops" => visit(client("stiff-hips"), looked, &[(C::DropsUnused, None)]),
        "wants-to-be-slim" => visit(client("mean-man"), looked, &[(C::Slimmer, Some(Hoods))]),
        "wider-than-one-size-narrower" => {
            let session = visit(client("wide-shoulders"), looked, &[(C::Shoulders, Some(Hoods))]);
            came(session, |came| bar_of(came, &stock, "bar-deep-classic-440"))
        }
        "small-adult" => {
            let session = visit(client("short"), looked, &[(C::SmallRider, None)]);
            came(session, |came| {
                bar_with(came, |bar| {
                    (bar.reach_mm, bar.drop_mm, bar.width_mm) = (85.0, 140.0, 440.0);
                });
            })
        }
        "nothing-wrong" => visit(client("mean-man"), looked, &[(C::NewBar, None)]),
        "nothing-in-stock" => {
            let mut stock = stock;
            for bar in stock.bars.iter_mut().filter(|bar| bar.drop_mm <= SHALLOW_MM) {
                bar.shelf.in_stock = 0;
            }
            return (visit(client("small-hands"), looked, &[(C::DropsUnused, None)]), stock);
        }
        "frame-not-bar" => {
            let session = visit(client("short"), looked, &[(C::Stretched, Some(Hoods))]);
            let nearer = Wanted { by_mm: Some(45.0), ..Wanted::new(Aim::Nearer).at(Hoods) };
            wanted(session, vec![nearer])
        }
        "saddle-before-bar" => {
            visit(client("stiff-neck"), Looking::Nothing, &[(C::Neck, Some(Hoods))])
        }
        "ridden-outranks" => {
            let session = visit(client("mean-man"), looked, &[(C::Neck, Some(Hoods))]);
            with_visit(session, |visit, _| {
                let mut raised = visit.as_it_came.with_name("ridden-raised", "ridden, raised");
                raised.spacers_mm += 10.0;
                let mut shorter = visit.as_it_came.with_name("ridden-shorter", "ridden, shorter");
                stem_of(&mut shorter, &stock, 90.0);
                for (cockpit, after) in [(raised, 2), (shorter, 6)] {
                    let complaints = visit.complaints.clone();
                    let ride = Ride::begun(&cockpit.id, &complaints, &[], (Vec::new(), Vec::new()));
                    let score = |of: &RideScore| RideScore { after: Some(after), ..*of };
                    let scores = ride.scores.iter().map(score).collect();
                    visit.rides.push(Ride { scores, ended: true, ..ride });
                    visit.bench.push(Cockpit { ridden: true, ..cockpit });
                }
            })
        }
        "hands-and-worse-brakes-from-the-drops" => hands_and_brakes(client("small-hands"), 8),
        "hands-and-lesser-brakes-from-the-drops" => hands_and_brakes(client("small-hands"), 4),
        "neck-in-the-drops-nothing-shallower" => {
            let session = visit(client("mean-man"), looked, &[(C::Neck, Some(Drops))]);
            let session = came(session, |came| bar_of(came, &stock, "bar-compact-standard-400"));
            return (session, without_shallow_bars(stock));
        }
        "neck-in-the-drops-hoods-stay-nothing-shallower" => {
            let session = visit(client("mean-man"), looked, &[(C::Neck, Some(Drops))]);
            let session = came(session, |came| bar_of(came, &stock, "bar-compact-standard-400"));
            let aims = vec![Wanted::new(Aim::EaseNeck).at(Drops), Wanted::new(Aim::HoodsStay)];
            return (wanted(session, aims), without_shallow_bars(stock));
        }
        "one-press-shallower-drop-nothing-shallower" => {
            let session = visit(client("mean-man"), looked, &[(C::Neck, Some(Drops))]);
            let session = came(session, |came| bar_of(came, &stock, "bar-compact-standard-400"));
            return (pressed(session, Quick::ShallowerDrop), without_shallow_bars(stock));
        }
        "one-press-shallower-drop" => {
            pressed(shipped("neck-in-the-drops-of-demo"), Quick::ShallowerDrop)
        }
        "stretched-and-worse-brakes" => {
            let session = stretched_and_brakes(client("small-hands"));
            came(session, |came| bar_with(came, |bar| (bar.reach_mm, bar.drop_mm) = (88.0, 150.0)))
        }
        "stretched-and-worse-brakes-of-demo" => stretched_and_brakes(shipped("stretched-of-demo")),
        "stretched-and-worse-brakes-of-small-hands" => {
            stretched_and_brakes(shipped("stretched-of-small-hands"))
        }
        "one-press-raise-it-of-stiff-neck" => {
            pressed(shipped("neck-in-the-drops-of-stiff-neck"), Quick::RaiseInstead)
        }
        "one-press-raise-it" => {
            pressed(shipped("neck-in-the-drops-of-small-hands"), Quick::RaiseInstead)
        }
        _ => shipped(name),
    };
    (session, stock)
}

/// Hands that go numb, five of ten, and brakes out of reach from the drops, so bad.
fn hands_and_brakes(session: Session, brakes: u8) -> Session {
    let complaints = [(C::Hands, Some(Hoods)), (C::BrakesFromDrops, None)];
    with_visit(visit(session, Looking::Everything, &complaints), |visit, _| {
        visit.complaints[0].score = Some(5);
        visit.complaints[1].score = Some(brakes);
    })
}

/// Stretched, six of ten, and brakes out of reach from the drops, eight of ten.
fn stretched_and_brakes(session: Session) -> Session {
    let complaints = [(C::Stretched, Some(Hoods)), (C::BrakesFromDrops, None)];
    with_visit(visit(session, Looking::Everything, &complaints), |visit, _| {
        visit.complaints[1].score = Some(8);
    })
}

/// A question of one press asked of the last visit.
fn pressed(session: Session, quick: Quick) -> Session {
    with_visit(session, |visit, _| *visit = quick.asked(visit, visit.as_it_came.bar.width_mm))
}

/// No bar that is less deep than most compact ones.
fn without_shallow_bars(mut stock: Stock) -> Stock {
    stock.bars.retain(|bar| bar.drop_mm >= COMPACT_MM);
    stock
}

/// Most compact bars are so deep or deeper, mm.
const COMPACT_MM: f64 = 118.0;

/// The stock with one more lever for cables, its blades nearer.
fn with_small_lever(mut stock: Stock) -> Stock {
    let mut lever = stock.levers.iter().find(|of| of.id == "lever-cable").unwrap().clone();
    (lever.id, lever.name) = ("lever-cable-near".into(), "Cable lever, near blade".into());
    lever.blade.pivot_mm.0 -= NEAR_BLADE_MM;
    stock.levers.push(lever);
    stock
}

/// How far down the bend levers are whose hoods fall from the ramps by more than is smooth, mm.
const LOW_LEVERS_MM: f64 = 14.0;

/// How much nearer to the hand on the hoods the blades of that lever hang, mm.
const NEAR_BLADE_MM: f64 = 8.0;

/// One of the clients that the project ships, with one complaint in place of his own.
fn shipped(case: &str) -> Session {
    type Said = (Concern, Option<HandPlace>);
    let complaints: &[(&str, &[Said])] = &[
        ("stretched-drops-unused", &[(C::Stretched, Some(Hoods)), (C::DropsUnused, None)]),
        ("drops-unused", &[(C::DropsUnused, None)]),
        ("neck-in-the-drops", &[(C::Neck, Some(Drops))]),
        ("brakes-from-the-hoods", &[(C::BrakesFromHoods, Some(Hoods))]),
        ("stretched", &[(C::Stretched, Some(Hoods))]),
        ("arms", &[(C::Arms, Some(Hoods))]),
        ("numb-hands", &[(C::Hands, Some(Hoods))]),
        ("low-back", &[(C::LowBack, Some(Hoods))]),
        ("cramped", &[(C::Cramped, Some(Hoods))]),
        ("new-bar", &[(C::NewBar, None)]),
        ("slimmer", &[(C::Slimmer, Some(Hoods))]),
        ("brakes-from-the-drops", &[(C::BrakesFromDrops, None)]),
        ("shoulders", &[(C::Shoulders, Some(Hoods))]),
        ("unsteady", &[(C::Unsteady, Some(Drops))]),
        ("small-rider", &[(C::SmallRider, None)]),
    ];
    let all = acceptance::demo::sessions().unwrap();
    let all_of = case.strip_prefix("all-that-").and_then(|of| of.strip_suffix("-comes-with"));
    if let Some(name) = all_of {
        let mut own = all.into_iter().filter(|(file, _)| *file == format!("{name}.session.ron"));
        return with_visit(own.next().unwrap().1, |visit, _| {
            let done = |item| RuledOut { item, looked: Looked::Done };
            visit.ruled_out = RuleOut::SADDLE.into_iter().map(done).collect();
        });
    }
    let mut found = all.into_iter().filter_map(|(file, session)| {
        let of = format!("-of-{}", file.split('.').next().unwrap());
        let row = case.strip_suffix(&of)?;
        Some((session, complaints.iter().find(|(name, _)| *name == row)?.1))
    });
    let (session, about) = found.next().unwrap_or_else(|| panic!("nobody knows the case {case}"));
    visit(session, Looking::Everything, about)
}

/// A bar this shallow counts as shallow, mm.
const SHALLOW_MM: f64 = 135.0;

#[derive(Clone, Copy, PartialEq)]
enum Looking {
    Everything,
    Nothing,
}

/// The session with what is complained of, six of ten each, and what was looked at before.
fn visit(session: Session, looked: Looking, about: &[(Concern, Option<HandPlace>)]) -> Session {
    with_visit(session, |visit, _| {
        let complaint = |&(about, place): &(Concern, Option<HandPlace>)| Complaint {
            place,
            score: Some(6),
            ..Complaint::about(about, Where::Both)
        };
        visit.complaints = about.iter().map(complaint).collect();
        if looked == Looking::Everything {
            let done = |item| RuledOut { item, looked: Looked::Done };
            visit.ruled_out = RuleOut::ALL.into_iter().map(done).collect();
        }
    })
}

fn with_visit(mut session: Session, change: impl FnOnce(&mut Visit, &Frame)) -> Session {
    let frame = session.bikes[0].frame.clone();
    change(Arc::make_mut(session.visits.last_mut().unwrap()), &frame);
    session
}

/// Something of the bike as it came is otherwise.
fn came(session: Session, change: impl FnOnce(&mut Cockpit)) -> Session {
    with_visit(session, |visit, _| change(&mut visit.as_it_came))
}

fn wanted(session: Session, wanted: Vec<Wanted>) -> Session {
    with_visit(session, |visit, _| visit.wanted = wanted)
}

fn screw_at_its_end(of: &mut Cockpit) {
    let levers = of.levers.as_mut().unwrap();
    let last = u32::try_from(levers.lever.blade.adjuster_deg.len()).unwrap() - 1;
    (levers.left.clicks, levers.right.clicks) = (last, last);
}

fn bar_of(of: &mut Cockpit, stock: &Stock, id: &str) {
    let before = of.clone();
    of.bar = stock.bar(id).unwrap().clone();
    carry_levers(&before, of).unwrap();
}

/// A bar that is the client's own, otherwise in some numbers.
fn bar_with(of: &mut Cockpit, change: impl FnOnce(&mut Bar)) {
    let before = of.clone();
    change(&mut of.bar);
    of.bar.id = "own".into();
    carry_levers(&before, of).unwrap();
}

fn stem_of(of: &mut Cockpit, stock: &Stock, length_mm: f64) {
    let same = |stem: &&fit_doc::Stem| {
        stem.length_mm == length_mm
            && stem.bar_diameter_mm == of.stem.bar_diameter_mm
            && stem.angle_deg.abs() == of.stem.angle_deg.abs()
    };
    let stem = stock.stems.iter().find(same).unwrap();
    let over = stem.ways_up().find(|stem| stem.angle_deg == of.stem.angle_deg);
    of.stem = over.unwrap();
}

/// Moves the hand along the hook until it points so many degrees further up.
fn turned_forward(of: &mut Cockpit, frame: &Frame, deg: f64) {
    let heading = |drops_hand_mm: f64| {
        let cockpit = Cockpit { drops_hand_mm, ..of.clone() };
        let built = geometry::cockpit(&Place::cockpit(&of.label), frame, &cockpit).unwrap();
        let axis = built.grips(Drops).unwrap().right.axis.truncate();
        axis.y.atan2(axis.x).to_degrees()
    };
    let usual = heading(0.0);
    let turned = |mm: &u32| (heading(f64::from(*mm)) - usual).abs() >= deg;
    of.drops_hand_mm = f64::from((1..60).find(turned).unwrap());
}
