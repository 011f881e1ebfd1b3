//! Holds a document against the ranges of the trade and against itself.
//!
//! Refusals are what the sums cannot take or what cannot be right; doubts are asked and never
//! block. One slip is one message: what would only follow from a number that is refused already is
//! not said. Geometry (does the bar build, does the lever fit) is asked of [`crate::geometry`].

mod body;
mod cockpit;
mod kept;
mod parts;
mod tape;
mod wanted;

pub use kept::KeptCockpits;
pub use parts::{check_bar, check_lever, check_stem};

use crate::{
    AfterNote, Bike, Client, Cockpit, Frame, Message, Place, Quantity, Ride, Session, Verdict,
    Visit, VisitPlace, Whole,
};
use body::check_body;
use cockpit::check_cockpit;
use fit_math::body::GROWN_UP_YEARS;
use std::collections::BTreeSet;
use tape::check_tape;
use wanted::check_wanted;

/// What a check found.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Findings {
    /// What cannot be right, or contradicts itself.
    pub refused: Vec<Message>,
    /// What is seldom right: ask "sure?".
    pub unusual: Vec<Message>,
}

impl Findings {
    /// A number; its place is only made where there is something to say.
    fn value(&mut self, place: impl FnOnce() -> Place, quantity: Quantity, found: f64) {
        let range = quantity.range();
        match range.verdict(found) {
            Verdict::Usual => {}
            Verdict::Ask => {
                let place = place();
                self.unusual.push(Message::Unusual { place, quantity, found });
            }
            Verdict::Refuse => {
                let (place, (least, most)) = (place(), range.refuse);
                self.refused.push(Message::Refused { place, quantity, found, least, most });
            }
        }
    }

    /// What stands at the place is told from the others by its id.
    fn id(&mut self, place: &Place, id: &str) {
        if id.trim().is_empty() {
            self.refused.push(Message::NoId { place: place.field("id") });
        }
    }

    /// Numbers in fields of what stands at the place.
    fn fields(&mut self, place: &Place, fields: &[(&'static str, Quantity, f64)]) {
        for &(field, quantity, found) in fields {
            self.value(|| place.field(field), quantity, found);
        }
    }

    /// Two numbers in one field.
    fn pair(
        &mut self,
        place: &Place,
        field: &'static str,
        quantity: Quantity,
        (first, second): (f64, f64),
    ) {
        self.value(|| place.field(field).nth(0), quantity, first);
        self.value(|| place.field(field).nth(1), quantity, second);
    }

    /// Runs a check and says whether it refused nothing.
    fn clean(&mut self, check: impl FnOnce(&mut Self)) -> bool {
        let before = self.refused.len();
        check(self);
        self.refused.len() == before
    }
}

/// Checks a whole session: ranges, ids, references, and that every cockpit builds.
///
/// A bike's own cockpit is passed over where a visit began with the very same one: what is wrong
/// with it is said of the visit.
pub fn check(session: &Session) -> Findings {
    let mut findings = Findings::default();
    findings.id(&Place::session(), &session.id);
    check_client(&mut findings, &session.client);
    let mut bike_ids: BTreeSet<&str> = BTreeSet::new();
    let mut sound = BTreeSet::new();
    for (index, bike) in session.bikes.iter().enumerate() {
        let place = Place::bike(index, bike);
        findings.id(&place, &bike.id);
        // one that stands before it: so none is the same as itself by going round
        if let Some(id) = bike.same_as.clone().filter(|id| !bike_ids.contains(id.as_str())) {
            let known = bike_ids.iter().map(|&id| id.to_owned()).collect();
            let place = place.field("same_as");
            findings.refused.push(Message::NoSuchBike { place, id, known });
        }
        if !bike_ids.insert(bike.id.as_str()) {
            let (place, id) = (place.field("id"), bike.id.clone());
            findings.refused.push(Message::IdTwice { place, id });
        } else if check_frame(&mut findings, &place, &bike.frame) {
            sound.insert(bike.id.as_str());
        }
        if !is_said_of_a_visit(session, bike) {
            let frame = sound.contains(bike.id.as_str()).then_some(&bike.frame);
            check_cockpit(&mut findings, &Place::bike_cockpit(index, bike), frame, &bike.cockpit);
        }
    }
    let mut days = BTreeSet::new();
    for visit in &session.visits {
        let sound = sound.contains(visit.bike.as_str());
        let place = VisitPlace::of(session, visit);
        if !days.insert(visit.date) {
            let place = Place::from(Whole::Visit(place)).field("date");
            findings.unusual.push(Message::SameDay { place });
        }
        add_visit(&mut findings, session, place, visit, sound, &mut KeptCockpits::default());
    }
    findings
}

/// Checks one visit with its client and the frame of its bike: all that must be clean before its bench
/// is weighed.
pub fn check_visit(session: &Session, visit: &Visit) -> Findings {
    check_visit_again(session, visit, &mut KeptCockpits::default())
}

/// The same, with what was found of those cockpits taken over that are as they were.
pub fn check_visit_again(session: &Session, visit: &Visit, kept: &mut KeptCockpits) -> Findings {
    let mut findings = Findings::default();
    check_client(&mut findings, &session.client);
    let found = session.bikes.iter().enumerate().find(|(_, bike)| bike.id == visit.bike);
    let sound = found.is_some_and(|(index, bike)| {
        check_frame(&mut findings, &Place::bike(index, bike), &bike.frame)
    });
    add_visit(&mut findings, session, VisitPlace::of(session, visit), visit, sound, kept);
    findings
}

fn check_client(findings: &mut Findings, client: &Client) {
    if client.name.trim().is_empty() {
        let place = Place::client().field("name");
        findings.unusual.push(Message::NoName { place });
    }
    if let Some(born) = client.born {
        let place = || Place::client().field("born");
        findings.value(place, Quantity::BirthYear, f64::from(born));
    }
}

/// Whether a visit looked at this bike and found the very cockpit that is known to be on it.
fn is_said_of_a_visit(session: &Session, bike: &Bike) -> bool {
    let same = |came: &Cockpit| {
        let known = &bike.cockpit;
        // the one of the visit has an id and a label of its own
        *came == Cockpit { id: came.id.clone(), label: came.label.clone(), ..known.clone() }
    };
    let on_it = |bike_id: &str| session.is_same_bike(bike_id, &bike.id);
    session.visits.iter().any(|visit| on_it(&visit.bike) && same(&visit.as_it_came))
}

/// Checks a frame; says whether nothing was refused.
fn check_frame(findings: &mut Findings, bike: &Place, f: &Frame) -> bool {
    let fields = [
        ("stack_mm", Quantity::FrameStack, f.stack_mm),
        ("reach_mm", Quantity::FrameReach, f.reach_mm),
        ("head_angle_deg", Quantity::HeadAngle, f.head_angle_deg),
        ("seat_angle_deg", Quantity::SeatAngle, f.seat_angle_deg),
        ("headset_cover_mm", Quantity::HeadsetCover, f.headset_cover_mm),
        ("head_tube_mm", Quantity::HeadTube, f.head_tube_mm),
        ("fork_offset_mm", Quantity::ForkOffset, f.fork_offset_mm),
        ("wheel_radius_mm", Quantity::WheelRadius, f.wheel_radius_mm),
        ("bottom_bracket_drop_mm", Quantity::BottomBracketDrop, f.bottom_bracket_drop_mm),
        ("rear_centre_mm", Quantity::RearCentre, f.rear_centre_mm),
        ("crank_mm", Quantity::Crank, f.crank_mm),
    ];
    findings.clean(|findings| findings.fields(&bike.field("frame"), &fields))
}

/// Checks a visit; `sound` says whether the frame of its bike is.
fn add_visit(
    findings: &mut Findings,
    session: &Session,
    at: VisitPlace,
    visit: &Visit,
    sound: bool,
    kept: &mut KeptCockpits,
) {
    let place = Place::from(Whole::Visit(at));
    check_body(findings, &place, visit);
    check_tape(findings, &place.field("tape"), &visit.tape, &visit.as_it_came);
    check_tape(findings, &place.field("built"), &visit.built, visit.left());
    check_interview(findings, &place, visit);
    check_wanted(findings, &place, visit);
    let born = visit.client_then.map_or(session.client.born, |then| then.born);
    if let Some(then) = visit.client_then.and_then(|then| then.born) {
        let place = || place.field("client_then").field("born");
        findings.value(place, Quantity::BirthYear, f64::from(then));
    }
    let in_year = born.map(|born| i64::from(visit.date.year()) - i64::from(born));
    // the birthday may be still to come
    if in_year == Some(i64::from(GROWN_UP_YEARS)) {
        findings.unusual.push(Message::MaybeNotGrownUp { place: Place::client().field("born") });
    }
    for (index, complaint) in visit.complaints.iter().enumerate() {
        let place = place.field("complaints").nth(index);
        if let Some(score) = complaint.score {
            let place = || place.field("score");
            findings.value(place, Quantity::ComplaintScore, f64::from(score));
        }
        if let Some(minutes) = complaint.after_minutes {
            let place = || place.field("after_minutes");
            findings.value(place, Quantity::AfterMinutes, f64::from(minutes));
        }
    }
    for (index, note) in visit.afterwards.iter().enumerate() {
        check_after(findings, &place.field("afterwards").nth(index), note);
    }
    for (index, ride) in visit.rides.iter().enumerate() {
        check_ride(findings, &place.field("rides").nth(index), ride, visit);
    }
    let cockpits = || {
        let numbered = visit.cockpits().enumerate();
        numbered.map(|(number, cockpit)| (Place::visit_cockpit(at, number, cockpit), cockpit))
    };
    let (mut ids, mut labels) = (BTreeSet::new(), BTreeSet::new());
    for (place, cockpit) in cockpits() {
        // labels are looked for whatever their capitals
        if !labels.insert(cockpit.label.trim().to_lowercase()) {
            let (place, label) = (place.field("label"), cockpit.label.clone());
            findings.unusual.push(Message::LabelTwice { place, label });
        }
        findings.id(&place, &cockpit.id);
        if !ids.insert(cockpit.id.as_str()) {
            let (place, id) = (place.field("id"), cockpit.id.clone());
            findings.refused.push(Message::IdTwice { place, id });
        }
    }
    for (field, id) in [("chosen", &visit.chosen), ("put_right", &visit.put_right)] {
        let Some(id) = id.as_ref().filter(|id| !ids.contains(id.as_str())) else { continue };
        let (place, id) = (place.field(field), id.clone());
        let known = visit.cockpits().map(|cockpit| cockpit.id.clone()).collect();
        findings.refused.push(Message::NoSuchCockpit { place, id, known });
    }
    let mut vetoed = BTreeSet::new();
    for (index, veto) in visit.vetoes.iter().enumerate() {
        let (place, id) = (place.field("vetoes").nth(index).field("cockpit"), veto.cockpit.clone());
        if !ids.contains(id.as_str()) {
            let known = visit.cockpits().map(|cockpit| cockpit.id.clone()).collect();
            findings.refused.push(Message::NoSuchCockpit { place, id, known });
        } else if !vetoed.insert(id.clone()) {
            findings.refused.push(Message::IdTwice { place, id });
        }
    }
    if let Some(put_right) = visit.saddle_put_right() {
        let came = &visit.as_it_came;
        // who rode it and what lies in stock is nothing of the set-up
        let mut same_saddle = put_right.with_name(&came.id, &came.label);
        (same_saddle.saddle, same_saddle.ridden) = (came.saddle, came.ridden);
        same_saddle.bar.shelf = came.bar.shelf;
        same_saddle.stem.shelf = came.stem.shelf;
        if let (Some(own), Some(of_came)) = (&mut same_saddle.levers, &came.levers) {
            own.lever.shelf = of_came.lever.shelf;
        }
        if same_saddle != *came {
            let (place, label) = (place.field("put_right"), put_right.label.clone());
            findings.unusual.push(Message::PutRightDiffers { place, label });
        }
    }
    let bike = session.bike(&visit.bike);
    if bike.is_none() {
        let (place, id) = (place.field("bike"), visit.bike.clone());
        let known = session.bike_ids();
        findings.refused.push(Message::NoSuchBike { place, id, known });
    }
    let frame = bike.filter(|_| sound).map(|bike| &bike.frame);
    kept.check(frame, cockpits());
    let mut asked = Asked::default();
    for (cockpit, checked) in visit.cockpits().zip(&kept.all) {
        findings.refused.extend(checked.own.refused.iter().cloned());
        findings.unusual.extend(asked.fresh(cockpit, checked.own.unusual.clone()));
    }
    for checked in kept.all.iter().skip(1) {
        findings.refused.extend(checked.beside.refused.iter().cloned());
        findings.unusual.extend(checked.beside.unusual.iter().cloned());
    }
}

fn check_ride(findings: &mut Findings, place: &Place, ride: &Ride, visit: &Visit) {
    if visit.cockpit(&ride.cockpit).is_none() {
        let (place, id) = (place.field("cockpit"), ride.cockpit.clone());
        let known = visit.cockpits().map(|cockpit| cockpit.id.clone()).collect();
        findings.refused.push(Message::NoSuchCockpit { place, id, known });
    }
    if let Some(minutes) = ride.minutes {
        findings.value(|| place.field("minutes"), Quantity::RideMinutes, f64::from(minutes));
    }
    for (index, score) in ride.scores.iter().enumerate() {
        let place = place.field("scores").nth(index);
        for (key, asked) in [("before", score.before), ("after", score.after)] {
            if let Some(asked) = asked {
                findings.value(|| place.field(key), Quantity::ComplaintScore, f64::from(asked));
            }
        }
    }
    for (index, number) in ride.seen.iter().enumerate() {
        let at = || place.field("seen").nth(index).field("deg");
        findings.value(at, number.row.quantity(), number.deg);
    }
    // what the model foretold may be seldom seen, and is no slip of anybody's
    for (index, number) in ride.foretold.iter().enumerate() {
        if number.row.quantity().range().verdict(number.deg) == Verdict::Refuse {
            let at = || place.field("foretold").nth(index).field("deg");
            findings.value(at, number.row.quantity(), number.deg);
        }
    }
}

fn check_after(findings: &mut Findings, place: &Place, note: &AfterNote) {
    if let Some(km) = note.km {
        findings.value(|| place.field("km"), Quantity::KmRidden, f64::from(km));
    }
    for (index, score) in note.scores.iter().enumerate() {
        if let Some(score) = score.score {
            let at = || place.field("scores").nth(index).field("score");
            findings.value(at, Quantity::ComplaintScore, f64::from(score));
        }
    }
}

fn check_interview(findings: &mut Findings, place: &Place, visit: &Visit) {
    let interview = &visit.interview;
    let at = place.field("interview");
    if let Some(hours) = interview.hours_per_week {
        findings.value(|| at.field("hours_per_week"), Quantity::HoursPerWeek, hours);
    }
    let mut places = BTreeSet::new();
    for (index, share) in interview.shares.iter().enumerate() {
        let (place, quantity) = (at.field("shares").nth(index), Quantity::HandShare(share.place));
        findings.value(|| place.field("percent"), quantity, f64::from(share.percent));
        if !places.insert(share.place) {
            findings.refused.push(Message::ReadingTwice { place, quantity });
        }
    }
    if let Some(sum) = interview.shares_sum().filter(|&sum| sum > 100) {
        let place = at.field("shares");
        findings.unusual.push(Message::SharesOverAll { place, sum });
    }
    let mut items = BTreeSet::new();
    for (index, of) in visit.ruled_out.iter().enumerate() {
        if !items.insert(of.item) {
            let (place, item) = (place.field("ruled_out").nth(index), of.item);
            findings.refused.push(Message::RuledOutTwice { place, item });
        }
    }
}

/// What has been asked about the cockpits of a visit: candidates mostly share parts with the cockpit as
/// it came, and what is unusual about such a part is asked once.
#[derive(Default)]
struct Asked<'a> {
    all: Vec<(&'a Cockpit, Message)>,
}

impl<'a> Asked<'a> {
    /// Those questions about a cockpit that have not been asked about the same part before.
    fn fresh(&mut self, cockpit: &'a Cockpit, asked: Vec<Message>) -> Vec<Message> {
        let is_new = |message: &Message| {
            let mut before = self.all.iter();
            !before
                .any(|(of, said)| same_question(said, message) && same_part(of, cockpit, message))
        };
        let fresh: Vec<_> = asked.into_iter().filter(is_new).collect();
        self.all.extend(fresh.iter().map(|message| (cockpit, message.clone())));
        fresh
    }
}

/// Whether two messages ask the same but for the cockpit that they are about.
fn same_question(one: &Message, other: &Message) -> bool {
    use Message as M;
    let same_way = one.place().map(|place| &place.way) == other.place().map(|place| &place.way);
    same_way
        && match (one, other) {
            (
                M::Unusual { quantity, found, .. },
                M::Unusual { quantity: of_other, found: other, .. },
            ) => quantity == of_other && found == other,
            (
                M::LeverOutsideZone { along_mm, lowest_mm, highest_mm, .. },
                M::LeverOutsideZone {
                    along_mm: along, lowest_mm: lowest, highest_mm: highest, ..
                },
            ) => (along_mm, lowest_mm, highest_mm) == (along, lowest, highest),
            (M::ClicksBeyond { clicks, most, .. }, M::ClicksBeyond { clicks: c, most: m, .. }) => {
                (clicks, most) == (c, m)
            }
            _ => false,
        }
}

/// Whether two cockpits have in common what a message is about.
fn same_part(one: &Cockpit, other: &Cockpit, message: &Message) -> bool {
    let Some(place) = message.place() else { return false };
    if place.passes("bar") {
        one.bar == other.bar
    } else if place.passes("stem") {
        one.stem == other.stem
    } else if place.passes("levers") {
        one.levers.as_ref().map(|levers| &levers.lever)
            == other.levers.as_ref().map(|levers| &levers.lever)
    } else {
        true
    }
}
