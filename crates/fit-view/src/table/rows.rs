//! The rows: which questions are asked, and how a weighed cockpit answers each.
//!
//! From the bike frame in mm and radians to whole mm and degrees. The order is that of a
//! conversation: how the client sits, what joints are asked for, what moves, where the hands are,
//! what the bar measures. Ramps and ends are left to the detail behind the table.

use super::cell::{Answer, Cell, Scale};
use crate::weigh::{Weighed, WeighedCockpit, WeighedPlace};
use fit_doc::{Date, Dimension, HandPlace, Message};
use fit_math::body::Body;
use fit_math::frame::Side;
use fit_math::posture::Outcome;

/// The dimensions that lengths of links come from; the others change no answer here, but for the
/// stature, at which the survey's means are taken for those of these that nobody measured.
const BEHIND_THE_ANSWERS: [Dimension; 13] = [
    Dimension::AcromialHeight,
    Dimension::TrochanterionHeight,
    Dimension::CrotchHeight,
    Dimension::LateralFemoralEpicondyleHeight,
    Dimension::LateralMalleolusHeight,
    Dimension::FootLength,
    Dimension::BallOfFootLength,
    Dimension::AcromionRadialeLength,
    Dimension::RadialeStylionLength,
    Dimension::ForearmHandLength,
    Dimension::ForearmGripLength,
    Dimension::HandLength,
    Dimension::BiacromialBreadth,
];

/// Rows that belong together under one heading.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Group {
    /// The trunk above the horizontal.
    Trunk,
    /// Bend of the elbow.
    Elbow,
    /// How far the head must be lifted to look ahead.
    Neck,
    /// Smallest angle between thigh and trunk.
    Hip,
    /// Sideways turn of the hand.
    Wrist,
    /// What moves from the hoods to the drops.
    Travel,
    /// Where the hands are from where they were.
    Moved,
    /// Where the hands are from the saddle.
    FromSaddle,
    /// What the bar measures.
    Bar,
}

/// A direction in the side view.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Axis {
    /// Forward positive.
    Forward,
    /// Up positive.
    Up,
}

/// A question that a client asks.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Question {
    /// How low is the trunk with the hands there?
    Trunk(HandPlace),
    /// How bent are the elbows?
    Elbow(HandPlace),
    /// How far must the head be lifted?
    Neck(HandPlace),
    /// How closed is the hip when the pedal is at the top?
    Hip(HandPlace),
    /// Which way does the hand turn?
    Wrist(HandPlace),
    /// How far do the hands move from the hoods to the drops?
    HandTravel,
    /// How far does the trunk come down with them? Down is positive here.
    TrunkTravel,
    /// How far are the hands from where they were?
    Moved(HandPlace, Axis),
    /// How far are the hands from the saddle's nose, level?
    FromNose(HandPlace),
    /// How far are the hands below the saddle?
    BelowSaddle(HandPlace),
    /// How wide is the bar at the hoods?
    WidthAtHoods,
    /// How wide is it at the ends?
    WidthAtEnds,
    /// How far does it reach?
    BarReach,
    /// How deep is it?
    BarDrop,
}

impl Question {
    /// Every question, in the order of the table.
    pub const ALL: [Self; 25] = {
        use HandPlace::{Drops, Hoods, Tops};
        [
            Self::Trunk(Tops),
            Self::Trunk(Hoods),
            Self::Trunk(Drops),
            Self::Elbow(Hoods),
            Self::Elbow(Drops),
            Self::Neck(Hoods),
            Self::Neck(Drops),
            Self::Hip(Hoods),
            Self::Hip(Drops),
            Self::Wrist(Hoods),
            Self::Wrist(Drops),
            Self::HandTravel,
            Self::TrunkTravel,
            Self::Moved(Hoods, Axis::Forward),
            Self::Moved(Hoods, Axis::Up),
            Self::Moved(Drops, Axis::Forward),
            Self::Moved(Drops, Axis::Up),
            Self::FromNose(Hoods),
            Self::BelowSaddle(Hoods),
            Self::FromNose(Drops),
            Self::BelowSaddle(Drops),
            Self::WidthAtHoods,
            Self::WidthAtEnds,
            Self::BarReach,
            Self::BarDrop,
        ]
    };

    /// The heading it stands under.
    pub const fn group(self) -> Group {
        match self {
            Self::Trunk(_) => Group::Trunk,
            Self::Elbow(_) => Group::Elbow,
            Self::Neck(_) => Group::Neck,
            Self::Hip(_) => Group::Hip,
            Self::Wrist(_) => Group::Wrist,
            Self::HandTravel | Self::TrunkTravel => Group::Travel,
            Self::Moved(..) => Group::Moved,
            Self::FromNose(_) | Self::BelowSaddle(_) => Group::FromSaddle,
            Self::WidthAtHoods | Self::WidthAtEnds | Self::BarReach | Self::BarDrop => Group::Bar,
        }
    }

    /// What its row counts in.
    pub const fn scale(self) -> Scale {
        match self {
            Self::Trunk(_)
            | Self::Elbow(_)
            | Self::Neck(_)
            | Self::Hip(_)
            | Self::Wrist(_)
            | Self::TrunkTravel => Scale::Degrees,
            _ => Scale::Millimetres,
        }
    }

    /// The hand place it is about, where it is about one.
    pub const fn place(self) -> Option<HandPlace> {
        match self {
            Self::Trunk(place)
            | Self::Elbow(place)
            | Self::Neck(place)
            | Self::Hip(place)
            | Self::Wrist(place)
            | Self::Moved(place, _)
            | Self::FromNose(place)
            | Self::BelowSaddle(place) => Some(place),
            _ => None,
        }
    }

    /// The answer of one cockpit, mm or degrees; none where it has no such place, where the hands
    /// do not get there, or where only a change means anything.
    pub fn answer(self, of: &WeighedCockpit) -> Option<f64> {
        let bend = of.cockpit.bend();
        let reached = |place| of.places.get(&place).filter(|at| !is_out_of_reach(at));
        let angle =
            |place, of: fn(&WeighedPlace) -> f64| reached(place).map(|at| of(at).to_degrees());
        match self {
            Self::Trunk(place) => angle(place, |at| at.report.trunk_rad),
            Self::Elbow(place) => angle(place, straighter_elbow_rad),
            Self::Neck(place) => angle(place, |at| at.report.neck_need_rad),
            Self::Hip(place) => angle(place, |at| at.report.hip_min_rad),
            Self::Wrist(_) | Self::Moved(..) => None,
            Self::HandTravel => of.travel.map(|travel| travel.hand_mm),
            Self::TrunkTravel => {
                // of the whole degrees that stand above it, so that nobody subtracts otherwise
                let shown = |place| angle(place, |at| at.report.trunk_rad).map(f64::round);
                Some(shown(HandPlace::Hoods)? - shown(HandPlace::Drops)?)
            }
            Self::FromNose(place) => {
                of.places.get(&place).map(|at| grip(at).x + of.parts.saddle.nose_behind_mm)
            }
            Self::BelowSaddle(place) => {
                of.places.get(&place).map(|at| of.seat.sit().y - grip(at).y)
            }
            Self::WidthAtHoods => Some(bend.width_hoods_cc_mm()),
            Self::WidthAtEnds => Some(bend.width_ends_cc_mm()),
            Self::BarReach => Some(bend.reach_mm()),
            Self::BarDrop => Some(bend.drop_mm()),
        }
    }

    /// What one cockpit had and another has, mm or degrees, for the questions that have no answer
    /// of their own.
    fn before_and_after(self, came: &WeighedCockpit, of: &WeighedCockpit) -> Option<(f64, f64)> {
        let place = self.place()?;
        let (before, after) = (came.places.get(&place)?, of.places.get(&place)?);
        match self {
            // seen from the saddle as it came, so that rounding agrees with the rows that give the
            // hands from the saddle
            Self::Moved(_, Axis::Forward) => {
                let nose = came.parts.saddle.nose_behind_mm;
                Some((grip(before).x + nose, grip(after).x + nose))
            }
            Self::Moved(_, Axis::Up) => {
                let top = came.seat.sit().y;
                Some((grip(before).y - top, grip(after).y - top))
            }
            Self::Wrist(_) if !is_out_of_reach(before) && !is_out_of_reach(after) => {
                Some((0.0, larger_wrist_change_rad(before, after).to_degrees()))
            }
            _ => None,
        }
    }

    /// The answer of one cockpit beside the one as it came.
    pub(crate) fn cell(self, of: &WeighedCockpit, as_it_came: Option<&WeighedCockpit>) -> Cell {
        let compared = as_it_came.filter(|came| came.id != of.id);
        match self {
            Self::Moved(..) | Self::Wrist(_) => {
                let both = compared.and_then(|came| self.before_and_after(came, of));
                both.map_or(Cell::EMPTY, |(before, after)| {
                    Cell::change_only(self.scale(), before, after)
                })
            }
            Self::Trunk(place) => match of.places.get(&place).map(|at| at.posture.outcome) {
                Some(Outcome::OutOfReach { short_by_mm }) => Cell::out_of_reach(short_by_mm),
                Some(Outcome::AtLimit { joint }) => {
                    self.number(of, compared).with_limit(Some(joint))
                }
                _ => self.number(of, compared),
            },
            _ => self.number(of, compared),
        }
    }

    fn number(self, of: &WeighedCockpit, compared: Option<&WeighedCockpit>) -> Cell {
        let before = compared.and_then(|came| self.answer(came));
        self.answer(of).map_or(Cell::EMPTY, |value| Cell::number(self.scale(), value, before))
    }
}

fn is_out_of_reach(at: &WeighedPlace) -> bool {
    matches!(at.posture.outcome, Outcome::OutOfReach { .. })
}

fn grip(at: &WeighedPlace) -> fit_math::DVec3 {
    at.grips.right.centre
}

/// Of two arms that are bent differently the straighter one is shown: it has less left to give.
fn straighter_elbow_rad(at: &WeighedPlace) -> f64 {
    at.report.arm(Side::Left).elbow_rad.min(at.report.arm(Side::Right).elbow_rad)
}

/// Of two hands that turn differently the one that turns more.
fn larger_wrist_change_rad(before: &WeighedPlace, after: &WeighedPlace) -> f64 {
    let [left, right] = Side::BOTH
        .map(|side| after.wrist_line_rad[side as usize] - before.wrist_line_rad[side as usize]);
    if left.abs() > right.abs() { left } else { right }
}

/// The head of one column.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Column {
    /// Id of the cockpit.
    pub id: String,
    /// Its label.
    pub label: String,
    /// The cockpit the client arrived with.
    pub as_it_came: bool,
    /// The one that was chosen.
    pub chosen: bool,
    /// The client has ridden it.
    pub ridden: bool,
}

/// One question with every cockpit's answer.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Row {
    /// The question.
    pub question: Question,
    /// Answers, in the order of the columns.
    pub cells: Vec<Cell>,
}

/// The differences table.
#[derive(Debug, Clone, PartialEq)]
pub struct Table {
    /// The client's name.
    pub client: String,
    /// The bike's name.
    pub bike: String,
    /// The day of the visit.
    pub visit: Date,
    /// As it came first, then the candidates.
    pub columns: Vec<Column>,
    /// Questions that at least one cockpit answers.
    pub rows: Vec<Row>,
    /// Dimensions behind the answers that were not measured.
    pub not_measured: Vec<Dimension>,
    /// What is unusual and should be asked about.
    pub notes: Vec<Message>,
}

/// The differences table of a weighed bench.
pub fn table(weighed: &Weighed) -> Table {
    let came = weighed.as_it_came();
    let rows = Question::ALL.into_iter().map(|question| Row {
        question,
        cells: weighed.cockpits.iter().map(|of| question.cell(of, came)).collect(),
    });
    let answered = |row: &Row| row.cells.iter().any(|cell| cell.answer != Answer::None);
    Table {
        client: weighed.client.clone(),
        bike: weighed.bike.name.clone(),
        visit: weighed.visit,
        columns: weighed
            .cockpits
            .iter()
            .map(|of| Column {
                id: of.id.clone(),
                label: of.label.clone(),
                as_it_came: of.as_it_came,
                chosen: of.chosen,
                ridden: of.parts.ridden,
            })
            .collect(),
        rows: rows.filter(answered).collect(),
        not_measured: not_measured(&weighed.body),
        notes: weighed.notes.clone(),
    }
}

/// What stands in for a reading: the links' dimensions, and the stature they were taken at.
fn not_measured(body: &Body) -> Vec<Dimension> {
    let unknown = |dimension: &Dimension| !body.known(*dimension).measured;
    let links: Vec<_> = BEHIND_THE_ANSWERS.into_iter().filter(unknown).collect();
    let stature = Some(Dimension::Stature).filter(unknown).filter(|_| !links.is_empty());
    stature.into_iter().chain(links).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::testing::{candidates, deep, session};
    use crate::weigh::{json, weigh};
    use crate::words::English;
    use fit_doc::{Cockpit, Reading, Session};
    use fit_math::body::Survey;
    use std::collections::BTreeSet;
    use std::sync::Arc;

    fn weighed(session: &Session) -> Weighed {
        weigh(session, None, &Survey::shipped().unwrap()).unwrap()
    }

    fn with_readings(readings: &[(Dimension, f64)]) -> Session {
        let mut session = session(candidates());
        let visit = Arc::make_mut(&mut session.visits[0]);
        let reading = |&(dimension, value)| Reading { dimension, values: vec![value] };
        visit.body = readings.iter().map(reading).collect();
        session
    }

    /// The survey's mean of every one of these dimensions.
    fn means(dimensions: &[Dimension]) -> Vec<(Dimension, f64)> {
        let survey = Survey::shipped().unwrap();
        let sex = session(Vec::new()).client.sex;
        dimensions.iter().map(|&dimension| (dimension, survey.mean(sex, dimension))).collect()
    }

    /// Everything is read, and then one dimension a little off: what then changes is behind the
    /// answers.
    #[test]
    fn the_dimensions_behind_the_answers_are_those_that_change_them() {
        let all = means(&Dimension::ALL);
        let before = weighed(&with_readings(&all)).cockpits;
        let changes = |index: usize| {
            let mut readings = all.clone();
            readings[index].1 *= 1.01;
            weighed(&with_readings(&readings)).cockpits != before
        };
        let found: BTreeSet<_> =
            (0..all.len()).filter(|&index| changes(index)).map(|index| all[index].0).collect();
        assert_eq!(found, BEHIND_THE_ANSWERS.into_iter().collect());
    }

    #[test]
    fn what_was_measured_is_not_said_to_be_missing() {
        let missing = |dimensions: &[Dimension]| {
            table(&weighed(&with_readings(&means(dimensions)))).not_measured
        };
        let most = missing(&[Dimension::CrotchHeight]);
        assert_eq!(most.len(), BEHIND_THE_ANSWERS.len(), "one less, and the stature");
        assert!(most.contains(&Dimension::Stature) && !most.contains(&Dimension::CrotchHeight));
        let but_one: Vec<_> = Dimension::ALL
            .into_iter()
            .filter(|d| ![Dimension::Stature, Dimension::HandLength].contains(d))
            .collect();
        assert_eq!(missing(&but_one), [Dimension::Stature, Dimension::HandLength]);
        assert_eq!(missing(&BEHIND_THE_ANSWERS), []);
    }

    #[test]
    fn every_question_is_answered_once_and_groups_stay_together() {
        let table = table(&weighed(&session(candidates())));
        let asked: Vec<_> = table.rows.iter().map(|row| row.question).collect();
        assert_eq!(asked, Question::ALL);
        let mut groups: Vec<_> = asked.iter().map(|question| question.group()).collect();
        groups.dedup();
        assert_eq!(groups.len(), groups.iter().collect::<BTreeSet<_>>().len());
        assert!(table.rows.iter().all(|row| row.cells.len() == table.columns.len()));
    }

    /// Seen from one saddle, two rows about the same hands never tell two changes.
    #[test]
    fn hands_moved_and_hands_from_the_saddle_agree() {
        let table = table(&weighed(&session(candidates())));
        let cells =
            |question| &table.rows.iter().find(|row| row.question == question).unwrap().cells;
        for place in [HandPlace::Hoods, HandPlace::Drops] {
            let moved = cells(Question::Moved(place, Axis::Up));
            for (moved, below) in moved.iter().zip(cells(Question::BelowSaddle(place))).skip(1) {
                match (moved.change, below.change) {
                    (crate::table::Change::By(up), crate::table::Change::By(down)) => {
                        assert_eq!(up, -down);
                    }
                    (up, down) => assert_eq!(up, down),
                }
            }
        }
    }

    #[test]
    fn a_cockpit_without_levers_has_no_answer_on_the_hoods() {
        let track = Cockpit { levers: None, ..deep() };
        let mut session = session(Vec::new());
        Arc::make_mut(&mut session.visits[0]).as_it_came = track;
        let table = table(&weighed(&session));
        let about = |row: &Row| row.question.place() == Some(HandPlace::Hoods);
        assert!(!table.rows.iter().any(about), "rows that nobody answers are left out");
        assert!(table.rows.iter().any(|row| row.question.place() == Some(HandPlace::Drops)));
    }

    #[test]
    fn the_numbers_are_those_of_the_output_rounded() {
        let weighed = weighed(&session(candidates()));
        let output: serde_json::Value =
            serde_json::from_str(&json(&weighed, &English).unwrap()).unwrap();
        let table = table(&weighed);
        let mut compared = 0;
        for (pointer, question) in [
            ("/places/tops/trunk", Question::Trunk(HandPlace::Tops)),
            ("/places/drops/elbow", Question::Elbow(HandPlace::Drops)),
            ("/places/hoods/neck", Question::Neck(HandPlace::Hoods)),
            ("/places/drops/hip_min", Question::Hip(HandPlace::Drops)),
            ("/travel/hoods_to_drops/hand", Question::HandTravel),
            ("/bar/width_ends_cc", Question::WidthAtEnds),
            ("/bar/drop", Question::BarDrop),
        ] {
            let row = table.rows.iter().find(|row| row.question == question).unwrap();
            for (cell, cockpit) in row.cells.iter().zip(output["cockpits"].as_array().unwrap()) {
                match (cell.answer, cockpit.pointer(pointer).and_then(serde_json::Value::as_f64)) {
                    (Answer::Number(shown), Some(exact)) => {
                        assert_eq!(shown as f64, exact.round(), "{pointer}");
                        compared += 1;
                    }
                    (answer, exact) => assert_eq!((answer, exact), (Answer::None, None)),
                }
            }
        }
        assert!(compared > 25, "{compared}");
    }
}
