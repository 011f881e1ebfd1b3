//! The most that each job does by itself of what is asked: what may be said of it beside an answer.

use super::rules::row_of;
use super::rungs::Rung;
use super::search::{Ask, KEPT, NoSearch, Progress};
use crate::table::{Axis, Question};
use fit_doc::work::Job;
use fit_doc::{Cockpit, HandPlace};
use fit_math::choose::{
    Aim, Answer, Asked, AtHands, Found, Number, OfBar, STEP_MM, Search, Shape, Tables,
};

/// Far beyond what any job changes, mm or radians.
const FAR: f64 = 1e3;
/// What is asked counts so much that nothing which a job takes is weighed against it: a millionth of a mm is
/// a unit of effort.
const COUNTS: f64 = 1e9;

/// What a job by itself does most for a row.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Most {
    pub(super) job: Job,
    pub(super) cockpit: Cockpit,
}

/// A row that is asked about, as a number of the search, and which way is wanted.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Row {
    pub(super) number: Number,
    pub(super) way: f64,
}

impl Ask {
    /// The rows that are asked about and that the search can look for, each once.
    pub(super) fn rows_asked(&self) -> Vec<Row> {
        let places = &self.asked.asked.places;
        let at = |place: HandPlace| places.iter().position(|(of, _)| *of == place);
        let hands = |place, what| Some(Number::Hands(at(place)?, what));
        let row = |(row, way): (Question, i64)| {
            let number = match row {
                Question::Trunk(place) => hands(place, AtHands::Trunk),
                Question::Neck(place) => hands(place, AtHands::NeckNeed),
                Question::Elbow(place) => hands(place, AtHands::Elbow),
                Question::Moved(place, Axis::Forward) => hands(place, AtHands::Forward),
                Question::Moved(place, Axis::Up) => hands(place, AtHands::Up),
                Question::WidthAtHoods => Some(Number::Bar(OfBar::Width)),
                Question::Brake(HandPlace::Drops) => Some(Number::Bar(OfBar::BrakeSpan)),
                _ => None,
            };
            // what a brake has to spare grows as its span shrinks
            let way = if matches!(row, Question::Brake(_)) { -way } else { way };
            Some(Row { number: number?, way: way as f64 })
        };
        let mut all: Vec<Row> = Vec::new();
        for row in self.wanted.iter().filter_map(row_of).filter_map(row) {
            if !all.contains(&row) {
                all.push(row);
            }
        }
        all
    }

    /// What each job by itself does most for each row that is asked about, whatever else it does and takes,
    /// within the limits; none where it was stopped.
    pub(super) fn most_of_each(&self, progress: &Progress) -> Result<Option<Vec<Most>>, NoSearch> {
        let of = &self.asked.asked;
        let alone = |row: &Row| {
            let shape = Shape::Enough { from: -FAR * row.way, enough: FAR * row.way };
            let aims = vec![Aim { of: row.number, weight: COUNTS, shape }];
            Asked { places: of.places.clone(), aims, palm_mm: of.palm_mm }
        };
        let asked: Vec<Asked> = self.rows_asked().iter().map(alone).collect();
        let mut tables = Tables::none(&self.rider, &self.seat, STEP_MM);
        let mut all: Vec<Most> = Vec::new();
        for (rung, asked) in
            self.single.iter().flat_map(|rung| asked.iter().map(move |of| (rung, of)))
        {
            if progress.stopped() {
                return Ok(None);
            }
            let search = Search::sharing(&rung.shop, asked, &self.allowed, &mut tables)?;
            let mut found = Found::none(KEPT);
            for chunk in 0..search.chunks() {
                search.run(chunk, &mut found);
            }
            let most = found.answers().iter().find_map(|of| self.as_most(rung, of));
            all.extend(most.filter(|most| !all.contains(most)));
        }
        Ok(Some(all))
    }

    pub(super) fn as_most(&self, rung: &Rung, answer: &Answer) -> Option<Most> {
        let sought = self.sought(rung, answer, 0.0)?;
        Some(Most { job: sought.job, cockpit: sought.cockpit })
    }
}
