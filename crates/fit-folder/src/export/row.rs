//! The columns of an export, and what stands in them for a visit.
//!
//! Names and values come from one walk over all columns, so that a value cannot come to stand under
//! another's name. Lengths in mm, angles in degrees; angles of the body as `weigh --json` has them.

use fit_doc::concern::Outcome;
use fit_doc::course::{ScoredAt, courses};
use fit_doc::{Complaint, Concern, Date, Family, HandPlace, Session, Sex, Visit};
use fit_math::posture::Outcome as Reached;
use fit_view::weigh::{Weighed, WeighedCockpit, WeighedPlace, place_id};
use fit_view::words::ExportColumn;

/// What stands in a column.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Kind {
    /// A word of a closed list, or the session's identity.
    Text,
    /// A day.
    Date,
    /// A whole number.
    Whole,
    /// A number.
    Number,
}

/// A column.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Column {
    /// Its name, which ends in the unit where it has one.
    pub name: String,
    /// What it is.
    pub about: ExportColumn,
    /// What stands in it.
    pub kind: Kind,
}

/// A value; none: not known.
#[derive(Debug, Clone, PartialEq)]
pub enum Value {
    /// Of [`Kind::Text`].
    Text(Option<String>),
    /// Of [`Kind::Date`].
    Date(Option<Date>),
    /// Of [`Kind::Whole`].
    Whole(Option<i32>),
    /// Of [`Kind::Number`].
    Number(Option<f64>),
}

impl Value {
    /// Its kind.
    pub const fn kind(&self) -> Kind {
        match self {
            Self::Text(_) => Kind::Text,
            Self::Date(_) => Kind::Date,
            Self::Whole(_) => Kind::Whole,
            Self::Number(_) => Kind::Number,
        }
    }

    /// A number to ten decimals, as the output of a weighing has it: −6° that went through radians is −6 again.
    fn number(number: Option<f64>) -> Self {
        const PER_UNIT: f64 = 1e10;
        // the sum with nought turns −0 into 0
        Self::Number(number.map(|number| (number * PER_UNIT).round() / PER_UNIT + 0.0))
    }

    /// As text, numbers with as many digits as they need to come back the same; empty: not known.
    pub fn text(&self) -> String {
        let text = match self {
            Self::Text(text) => text.clone(),
            Self::Date(day) => day.map(|day| day.to_string()),
            Self::Whole(number) => number.map(|number| number.to_string()),
            Self::Number(number) => number.map(|number| number.to_string()),
        };
        text.unwrap_or_default()
    }

    /// A day as days since 1970.
    pub(super) fn days(&self) -> Option<i32> {
        let Self::Date(Some(day)) = self else { return None };
        Some((*day - Date::constant(1970, 1, 1)).get_days())
    }
}

/// A visit whose row is made.
#[derive(Clone, Copy)]
struct Of<'a> {
    session: &'a Session,
    at: usize,
    visit: &'a Visit,
    weighed: Option<&'a Weighed>,
}

/// Hand places whose angles are exported: those that the differences are shown of.
const PLACES: [HandPlace; 3] = [HandPlace::Tops, HandPlace::Hoods, HandPlace::Drops];

/// All columns, in their order.
pub fn columns() -> Vec<Column> {
    let mut all = Vec::new();
    each(None, &mut |name, about, value| {
        all.push(Column { name: name.to_owned(), about, kind: value.kind() });
    });
    all
}

/// The values of one of a session's visits, in the order of [`columns`]; without what is weighed where
/// it cannot be. Empty where there is no such visit.
pub fn row(session: &Session, at: usize, weighed: Option<&Weighed>) -> Vec<Value> {
    let mut all = Vec::new();
    if let Some(visit) = session.visits.get(at) {
        let of = Of { session, at, visit, weighed };
        each(Some(of), &mut |_, _, value| all.push(value));
    }
    all
}

/// Takes a column's name, what it is, and what stands in it.
type Put<'a> = &'a mut dyn FnMut(&str, ExportColumn, Value);

fn each(of: Option<Of<'_>>, put: Put<'_>) {
    visit(of, put);
    let left = |of: Of<'_>| of.visit.outcome().map(|_| of.visit.left().id.clone());
    for (prefix, id) in
        [("came", of.map(|of| of.visit.as_it_came.id.clone())), ("went", of.and_then(left))]
    {
        let weighed = of
            .and_then(|of| of.weighed)
            .zip(id)
            .and_then(|(weighed, id)| weighed.cockpits.iter().find(|cockpit| cockpit.id == id));
        cockpit(prefix, weighed, put);
        for place in PLACES {
            let at = weighed.and_then(|weighed| weighed.places.get(&place));
            posture(&format!("{prefix}_{}", place_id(place)), at, put);
        }
    }
    for concern in Concern::ALL.into_iter().filter(|concern| !concern.is_wish()) {
        scores(concern, of, put);
    }
}

fn visit(of: Option<Of<'_>>, put: Put<'_>) {
    let whole =
        |number: Option<usize>| Value::Whole(number.and_then(|number| i32::try_from(number).ok()));
    let client = of.map(|of| of.session.client_at(of.visit));
    let id = of.map(|of| of.session.id.clone()).filter(|id| is_uuid(id));
    let bike = of.and_then(|of| of.session.bikes.iter().position(|bike| bike.id == of.visit.bike));
    let frame = of.and_then(|of| of.session.bike(&of.visit.bike)).map(|bike| &bike.frame);
    let sex = client.as_ref().and_then(|client| client.sex).map(|sex| match sex {
        Sex::Female => "female",
        Sex::Male => "male",
    });
    let born = client.and_then(|client| client.born).map(i32::from);
    let outcome = of.and_then(|of| of.visit.outcome()).map(|outcome| match outcome {
        Outcome::Cockpit => "cockpit",
        Outcome::AsItIs => "as-it-is",
        Outcome::NotTheBar => "not-the-bar",
        Outcome::TheFrame => "the-frame",
    });
    let text = |text: Option<&str>| Value::Text(text.map(str::to_owned));
    put("session", ExportColumn::Session, Value::Text(id));
    put("visit", ExportColumn::Visit, whole(of.map(|of| of.at + 1)));
    put("visit_date", ExportColumn::VisitDate, Value::Date(of.map(|of| of.visit.date)));
    put("sex", ExportColumn::Sex, text(sex));
    put("born_year", ExportColumn::Born, Value::Whole(born));
    put("bike", ExportColumn::Bike, whole(bike.map(|at| at + 1)));
    let number = Value::number;
    put("frame_stack_mm", ExportColumn::FrameStack, number(frame.map(|of| of.stack_mm)));
    put("frame_reach_mm", ExportColumn::FrameReach, number(frame.map(|of| of.reach_mm)));
    put("crank_mm", ExportColumn::Crank, number(frame.map(|of| of.crank_mm)));
    put("outcome", ExportColumn::Outcome, text(outcome));
}

fn cockpit(prefix: &str, of: Option<&WeighedCockpit>, put: Put<'_>) {
    let family = of.map(|of| match of.parts.bar.family {
        Family::Round => "round",
        Family::Flat => "flat",
        Family::Variable => "variable",
    });
    let family = Value::Text(family.map(str::to_owned));
    put(&format!("{prefix}_bar_family"), ExportColumn::BarFamily, family);
    let bend = of.map(|of| of.cockpit.bend());
    let stem = of.map(|of| of.cockpit.stem());
    let roll_deg = of.map(|of| fit_doc::geometry::mounted_roll_deg(&of.parts));
    let flare_deg = bend.map(|bend| bend.flare_rad().to_degrees());
    let saddle = of.map(|of| of.parts.saddle.height_mm);
    for (name, about, value) in [
        ("bar_reach_mm", ExportColumn::BarReach, bend.map(|of| of.reach_mm())),
        ("bar_drop_mm", ExportColumn::BarDrop, bend.map(|of| of.drop_mm())),
        ("bar_width_hoods_mm", ExportColumn::BarWidthHoods, bend.map(|of| of.width_hoods_cc_mm())),
        ("bar_width_ends_mm", ExportColumn::BarWidthEnds, bend.map(|of| of.width_ends_cc_mm())),
        ("bar_flare_deg", ExportColumn::BarFlare, flare_deg),
        ("stem_length_mm", ExportColumn::StemLength, stem.map(|of| of.length_mm)),
        ("stem_angle_deg", ExportColumn::StemAngle, stem.map(|of| of.angle_rad.to_degrees())),
        ("spacers_mm", ExportColumn::Spacers, of.map(|of| of.parts.spacers_mm)),
        ("roll_deg", ExportColumn::Roll, roll_deg),
        ("saddle_height_mm", ExportColumn::SaddleHeight, saddle),
    ] {
        put(&format!("{prefix}_{name}"), about, Value::number(value));
    }
}

fn posture(prefix: &str, of: Option<&WeighedPlace>, put: Put<'_>) {
    let state = of.map(|at| match at.posture.outcome {
        Reached::Reached => "reached",
        Reached::AtLimit { .. } => "at-limit",
        Reached::OutOfReach { .. } => "out-of-reach",
    });
    let state = Value::Text(state.map(str::to_owned));
    put(&format!("{prefix}_state"), ExportColumn::State, state);
    for (name, about, rad) in [
        ("trunk_deg", ExportColumn::Trunk, of.map(|at| at.report.trunk_rad)),
        ("neck_deg", ExportColumn::Neck, of.map(|at| at.report.neck_need_rad)),
        ("elbow_deg", ExportColumn::Elbow, of.map(WeighedPlace::straighter_elbow_rad)),
        ("hip_deg", ExportColumn::Hip, of.map(|at| at.report.hip_min_rad)),
    ] {
        put(&format!("{prefix}_{name}"), about, Value::number(rad.map(f64::to_degrees)));
    }
}

/// The scores of one complaint; of several of one kind, left and right, those of the worst.
fn scores(concern: Concern, of: Option<Of<'_>>, put: Put<'_>) {
    let complaint = of.and_then(|of| {
        let all = of.visit.complaints.iter().filter(|complaint| complaint.about == concern);
        // the first of those that are as bad
        all.rev().max_by_key(|complaint| complaint.asked())
    });
    let later = of.zip(complaint).and_then(|(of, complaint)| {
        let key = (complaint.about, complaint.side, complaint.place);
        let course = courses(of.session, of.at);
        let course =
            course.iter().find(|course| (course.about, course.side, course.place) == key)?;
        let after = |date: Date| date > of.visit.date;
        let mut asked =
            course.scores.iter().filter(|scored| !matches!(scored.at, ScoredAt::Ride(_)));
        let last = asked.rfind(|scored| after(scored.date))?;
        Some((last.score, (last.date - of.visit.date).get_days()))
    });
    let after = of.zip(complaint).and_then(|(of, complaint)| of.visit.left_after_trials(complaint));
    let name = name(concern);
    let score = |score: Option<u8>| Value::Whole(score.map(i32::from));
    let before = complaint.and_then(Complaint::asked);
    put(&format!("{name}_score_before"), ExportColumn::ScoreBefore(concern), score(before));
    put(&format!("{name}_score_after_trial"), ExportColumn::ScoreAfterTrial(concern), score(after));
    let (later, days) = later.unzip();
    put(&format!("{name}_score_later"), ExportColumn::ScoreLater(concern), score(later));
    put(&format!("{name}_later_days"), ExportColumn::DaysLater(concern), Value::Whole(days));
}

/// What a complaint is called between programs.
const fn name(concern: Concern) -> &'static str {
    match concern {
        Concern::Neck => "neck",
        Concern::Shoulders => "shoulders",
        Concern::Arms => "arms",
        Concern::Hands => "hands",
        Concern::LowBack => "low_back",
        Concern::Hips => "hips",
        Concern::Seat => "seat",
        Concern::Knees => "knees",
        Concern::Feet => "feet",
        Concern::BrakesFromDrops => "brakes_from_drops",
        Concern::BrakesFromHoods => "brakes_from_hoods",
        Concern::Stretched => "stretched",
        Concern::Cramped => "cramped",
        Concern::Unsteady => "unsteady",
        Concern::DropsUnused => "drops_unused",
        Concern::Slimmer => "slimmer",
        Concern::SmallRider => "small_rider",
        Concern::NewBar => "new_bar",
    }
}

/// Whether it is a UUID (RFC 9562): somebody who edits by hand may have written a name there.
fn is_uuid(id: &str) -> bool {
    let hyphens = [8, 13, 18, 23];
    id.len() == 36
        && id.bytes().enumerate().all(|(at, byte)| {
            if hyphens.contains(&at) { byte == b'-' } else { byte.is_ascii_hexdigit() }
        })
}
