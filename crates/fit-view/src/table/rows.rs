//! The table: every cockpit a column, every question a row.

use super::cell::{Answer, Cell};
use super::doubt::doubted;
use super::limit::at_limits;
use super::question::Question;
use crate::weigh::Weighed;
use fit_doc::{Date, Dimension, Message};
use fit_math::body::Body;
use fit_math::posture::Calibration;

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
    /// Which column the changes are against.
    pub against: usize,
    /// Questions that at least one cockpit answers; of the two hands only where they differ.
    pub rows: Vec<Row>,
    /// Dimensions behind the answers that were not measured.
    pub not_measured: Vec<Dimension>,
    /// To how many whole mm brake reach is known, one standard deviation of the worse hand; none
    /// where no cockpit has a lever.
    pub brake_sd_mm: Option<i64>,
    /// What was seen of the client, and what it moved; none where nothing was.
    pub calibration: Option<Calibration>,
    /// What is unusual and should be asked about.
    pub notes: Vec<Message>,
}

/// The differences table of a weighed bench.
pub fn table(weighed: &Weighed) -> Table {
    table_of(weighed, &Question::ALL, None)
}

/// A table of these questions, against the cockpit of that id or else the one as it came; questions
/// that say nothing are left out.
pub(super) fn table_of(weighed: &Weighed, questions: &[Question], against: Option<&str>) -> Table {
    let found = |id| weighed.cockpits.iter().position(|of| of.id == id);
    let against = against
        .and_then(found)
        .or_else(|| weighed.cockpits.iter().position(|of| of.as_it_came))
        .unwrap_or_default();
    let came = weighed.cockpits.get(against);
    let limit = |of, question: Question| {
        let at = at_limits(weighed.rider.limits(), of, came, question.place()?);
        at.into_iter().find(|at| question.speaks_of(at.joint))
    };
    let cell = |of, question: Question| {
        let cell = question.cell(of, came).with_limit(limit(of, question));
        doubted(cell, question, of, came, weighed)
    };
    let rows = questions.iter().map(|&question| Row {
        question,
        cells: weighed.cockpits.iter().map(|of| cell(of, question)).collect(),
    });
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
        against,
        rows: rows.filter(says_something).collect(),
        // of a child nothing else is behind the answers
        not_measured: if weighed.is_grown_up { not_measured(&weighed.body) } else { Vec::new() },
        brake_sd_mm: brake_sd_mm(weighed),
        calibration: weighed.calibration.clone(),
        notes: weighed.notes.clone(),
    }
}

#[expect(clippy::cast_possible_truncation, reason = "a few millimetres")]
fn brake_sd_mm(weighed: &Weighed) -> Option<i64> {
    let brakes = weighed.cockpits.iter().find_map(|of| of.brakes)?;
    let [left, right] = brakes.covers.map(|cover| cover.sd_mm);
    Some(left.max(right).round() as i64)
}

/// Rows that nobody answers are left out, and so are hands that are level everywhere.
fn says_something(row: &Row) -> bool {
    match row.question {
        Question::LeftFromRight(_) => {
            row.cells.iter().any(|cell| matches!(cell.answer, Answer::Apart(by) if by != 0))
        }
        _ => row.cells.iter().any(|cell| cell.answer != Answer::None),
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
    use crate::table::{Axis, Change};
    use crate::testing::{candidates, deep, session};
    use crate::weigh::{json, weigh};
    use crate::words::English;
    use fit_doc::{Cockpit, HandPlace, LeverSetting, Levers, Reading, Session};
    use fit_math::body::Survey;
    use std::collections::BTreeSet;
    use std::sync::Arc;

    fn weighed(session: &Session) -> Weighed {
        weigh(session, None, &Survey::shipped().unwrap()).unwrap()
    }

    fn with_readings(readings: &[(Dimension, f64)]) -> Session {
        let mut session = session(candidates());
        let visit = Arc::make_mut(&mut session.visits[0]);
        let reading = |&(dimension, value)| Reading::of(dimension, vec![value]);
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
    #[expect(clippy::cast_possible_truncation, reason = "millimetres")]
    fn whole(mm: f64) -> i64 {
        mm.round() as i64
    }

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
        let mut bench = candidates();
        bench.push(uneven(3.0));
        let table = table(&weighed(&session(bench)));
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
                    (Change::By(up), Change::By(down)) => {
                        assert_eq!(up, -down);
                    }
                    (up, down) => assert_eq!(up, down),
                }
            }
        }
    }

    /// The left lever further up the bar.
    fn uneven(by_mm: f64) -> Cockpit {
        let apart = |levers: Levers| {
            let along_mm = levers.left.along_mm + by_mm;
            Levers { left: LeverSetting { along_mm, ..levers.left }, ..levers }
        };
        let (id, label) = (String::from("uneven"), String::from("uneven"));
        Cockpit { id, label, levers: deep().levers.map(apart), ..deep() }
    }

    #[test]
    fn hands_set_differently_are_taken_midway_and_said_to_differ() {
        let of = |bench: Vec<Cockpit>| table(&weighed(&session(bench)));
        let level = of(vec![uneven(0.0)]);
        let sides = |table: &Table, axis| {
            let question = Question::LeftFromRight(axis);
            table.rows.iter().find(|row| row.question == question).map(|row| row.cells[1])
        };
        assert_eq!((sides(&level, Axis::Forward), sides(&level, Axis::Up)), (None, None));
        let far = of(vec![uneven(20.0)]);
        let weighed = weighed(&session(vec![uneven(20.0)]));
        let hoods = &weighed.cockpits[1].places[&HandPlace::Hoods].grips;
        let (left, right) = (hoods.left.centre, hoods.right.centre);
        assert!((left.y - right.y).abs() > 5.0, "{left} {right}");
        let up = sides(&far, Axis::Up).unwrap();
        let apart = whole(left.y - right.y);
        assert_eq!(up.answer, Answer::Apart(apart));
        assert_eq!(up.change, Change::By(apart), "the one as it came is level");
        let below = Question::BelowSaddle(HandPlace::Hoods);
        let row = far.rows.iter().find(|row| row.question == below).unwrap();
        let middle = weighed.cockpits[1].seat.sit().y - f64::midpoint(left.y, right.y);
        assert_eq!(row.cells[1].answer, Answer::Number(whole(middle)));
    }

    /// Over many small steps of spacers and stem: whoever subtracts two rows gets what a third one
    /// says, also where they say "same".
    #[test]
    fn what_is_reckoned_from_other_rows_agrees_with_them() {
        let small = |step: i32| {
            let deep = deep();
            let length_mm = deep.stem.length_mm - 0.7 * f64::from(step % 5);
            let spacers_mm = deep.spacers_mm + 0.6 * f64::from(step);
            let stem = fit_doc::Stem { length_mm, ..deep.stem };
            let roll_deg = 0.3 * f64::from(step % 4);
            let id = format!("step {step}");
            Cockpit { label: id.clone(), id, stem, spacers_mm, roll_deg, ..deep }
        };
        let bench: Vec<_> = (0..24).map(small).chain(candidates()).collect();
        let table = table(&weighed(&session(bench)));
        let cells =
            |question| &table.rows.iter().find(|row| row.question == question).unwrap().cells;
        let [hoods, drops] =
            [HandPlace::Hoods, HandPlace::Drops].map(|place| cells(Question::Trunk(place)));
        let (travel, hands) = (cells(Question::TrunkTravel), cells(Question::HandTravel));
        let (mut same, mut by) = (0, 0);
        for index in 1..table.columns.len() {
            let Some(shown) = travel[index].shown() else { continue };
            let of = |row: &[Cell], at: usize| row[at].shown().unwrap();
            assert_eq!(shown, of(hoods, index) - of(drops, index), "{index}");
            let change = match travel[index].change {
                Change::By(by) => by,
                _ => 0,
            };
            let moved = |row: &[Cell]| of(row, index) - of(row, 0);
            assert_eq!(change, moved(hoods) - moved(drops), "{index}");
            let stays =
                |place, axis| cells(Question::Moved(place, axis))[index].change == Change::Same;
            let all = [HandPlace::Hoods, HandPlace::Drops]
                .into_iter()
                .all(|place| stays(place, Axis::Forward) && stays(place, Axis::Up));
            assert!(!all || hands[index].change == Change::Same, "{index}");
            same += usize::from(all);
            by += usize::from(change != 0);
        }
        assert!(same > 0 && by > 0, "{same} {by}");
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
            let cockpits = output["cockpits"].as_array().unwrap();
            for (cell, cockpit) in row.cells.iter().zip(cockpits) {
                // the same answer is the one as it came
                let same = cell.change == Change::Same;
                let shown = if same { &cockpits[0] } else { cockpit };
                match (cell.answer, shown.pointer(pointer).and_then(serde_json::Value::as_f64)) {
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
