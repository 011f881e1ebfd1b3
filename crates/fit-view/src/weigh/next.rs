//! Measure this next: which reading not yet taken would tell most of the questions on the table, on the
//! bike as it came.
//!
//! How the answer turns with the body is taken from the solver by small differences of each link,
//! and from links to dimensions by [`Link::gradient_of_all`]. Radians.

use super::asked::{Asked, Question};
use super::weighed::{Weighed, WeighedCockpit};
use fit_doc::HandPlace;
use fit_math::body::{
    ArmLengths, Gradient, Item, Link, SegmentLengths, Segments, Worth, measure_next as worth_of,
};
use fit_math::posture::solve;

/// A reading that makes the doubt less by under this is not worth the client's time, degrees
/// (judgement: half of the least that is told apart).
const WORTH_DEG: f64 = 0.5;
/// How far a link is moved to see what turns with it, mm, either way.
const STEP_MM: f64 = 1.0;

/// The reading that would tell most.
#[derive(Debug, Clone, PartialEq)]
pub struct MeasureNext {
    /// What to read.
    pub item: Item,
    /// What it would tell of each question on the table, the worst first; never nothing.
    pub of: Vec<Sharper>,
}

/// How much better one answer is known with a reading.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Sharper {
    /// What it would tell of.
    pub question: Question,
    /// Standard deviation of the answer as the body is known now, radians.
    pub sd_now_rad: f64,
    /// The same with that reading, radians.
    pub sd_then_rad: f64,
}

impl Sharper {
    /// By how much the doubt gets less, radians.
    fn by_rad(&self) -> f64 {
        self.sd_now_rad - self.sd_then_rad
    }

    /// Whether the doubt gets so much less that it is worth the client's time.
    pub fn is_worth_its_time(&self) -> bool {
        self.by_rad().to_degrees() >= WORTH_DEG
    }
}

impl MeasureNext {
    /// Whether it is worth the client's time for any of the questions.
    pub fn is_worth_its_time(&self) -> bool {
        self.of.iter().any(Sharper::is_worth_its_time)
    }

    /// Of which question it tells most; of two of which it tells as much, of the worse.
    pub fn most(&self) -> &Sharper {
        let more = |most, next: &'_ Sharper| next.by_rad() > Sharper::by_rad(most);
        self.of.iter().fold(&self.of[0], |most, next| if more(most, next) { next } else { most })
    }
}

impl Weighed {
    /// What to measure next: what leaves the least doubt over all questions on the table, a degree of
    /// each as heavy as what turns on it is bad. None where all that is read with tape and level was
    /// read. Without levers nobody's hands are on hoods: then they are on the tops.
    pub fn measure_next(&self) -> Option<MeasureNext> {
        let came = self.as_it_came().filter(|_| self.is_grown_up)?;
        let items = [&Item::USUAL[..], &Item::MORE].concat();
        let asked = self.asked_on(came);
        let worth: Vec<Vec<Worth>> = asked
            .iter()
            .map(|of| worth_of(&self.body, &self.answer(came, of.question), &items))
            .collect();
        let of = |item: Item| -> Option<Vec<Sharper>> {
            let each = asked.iter().zip(&worth).map(|(of, all)| {
                let told = all.iter().find(|told| told.item == item)?;
                let (sd_now_rad, sd_then_rad) = (told.sd_now, told.sd_then);
                Some(Sharper { question: of.question, sd_now_rad, sd_then_rad })
            });
            each.collect()
        };
        let told = |of: &[Sharper]| -> f64 {
            of.iter().zip(&asked).map(|(sharper, of)| sharper.by_rad() * of.weight).sum()
        };
        // what tells most of the worst comes before what tells as much over all
        let mut all: Vec<MeasureNext> = worth
            .first()?
            .iter()
            .filter_map(|first| Some(MeasureNext { item: first.item, of: of(first.item)? }))
            .collect();
        all.sort_by(|a, b| told(&b.of).total_cmp(&told(&a.of)));
        all.into_iter().next()
    }

    /// The questions with the hands where this cockpit has a place for them, each once.
    fn asked_on(&self, on: &WeighedCockpit) -> Vec<Asked> {
        let mut all: Vec<Asked> = Vec::new();
        for of in &self.questions {
            let places = [of.question.place, HandPlace::Hoods, HandPlace::Tops];
            let Some(place) = places.into_iter().find(|place| on.places.contains_key(place)) else {
                continue;
            };
            let question = Question { place, ..of.question };
            match all.iter_mut().find(|known| known.question == question) {
                Some(known) => known.weight += of.weight,
                None => all.push(Asked { question, weight: of.weight }),
            }
        }
        all
    }

    /// How an answer turns with the body's dimensions, radians per mm.
    fn answer(&self, on: &WeighedCockpit, question: Question) -> Gradient {
        let turns: Vec<(Link, f64)> = Link::ALL
            .into_iter()
            .filter_map(|link| Some((link, self.answer_by_link(on, question, link)?)))
            .collect();
        Link::gradient_of_all(&turns, &self.body)
    }

    /// How the answer turns with a link, radians per mm; none where no such body can be, or where
    /// no posture turns with it.
    fn answer_by_link(&self, on: &WeighedCockpit, question: Question, link: Link) -> Option<f64> {
        let place = question.place;
        let at = on.places.get(&place)?;
        let answer_rad = |by_mm: f64| {
            let mut lengths = *self.rider.segments().lengths();
            lengthen(&mut lengths, link, by_mm)?;
            let rider = self.rider.clone().with_segments(Segments::new(lengths).ok()?);
            let posture = solve(&rider, &on.seat, &at.hands, place, None);
            Some(question.angle.of(&posture.report(&rider, &on.seat, &at.hands, place)))
        };
        Some((answer_rad(STEP_MM)? - answer_rad(-STEP_MM)?) / (2.0 * STEP_MM))
    }
}

/// Makes one link longer, of arms both; none where no posture turns with it.
fn lengthen(lengths: &mut SegmentLengths, link: Link, by_mm: f64) -> Option<()> {
    let in_both = |of: fn(&mut ArmLengths) -> &mut f64, arms: &mut [ArmLengths; 2]| {
        for arm in arms {
            *of(arm) += by_mm;
        }
    };
    match link {
        Link::UpperArm => in_both(|arm| &mut arm.upper_arm_mm, &mut lengths.arms),
        Link::Forearm => in_both(|arm| &mut arm.forearm_mm, &mut lengths.arms),
        Link::Hand => in_both(|arm| &mut arm.hand_mm, &mut lengths.arms),
        Link::Trunk => lengths.trunk_mm += by_mm,
        Link::ShouldersApart => lengths.shoulders_apart_mm += by_mm,
        Link::HipAbove => lengths.hip_above_mm += by_mm,
        Link::Thigh => lengths.thigh_mm += by_mm,
        Link::Shank => lengths.shank_mm += by_mm,
        Link::AnkleAboveSole => lengths.ankle_above_sole_mm += by_mm,
        Link::Ball => lengths.ball_mm += by_mm,
        Link::Foot => lengths.foot_mm += by_mm,
        Link::NeckFoot | Link::Neck | Link::Crown => return None,
    }
    Some(())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::testing::{candidates, session};
    use crate::weigh::{AskedAngle, Survey, weigh};
    use fit_doc::{Complaint, Concern, Dimension as D, Reading, Session, Where};
    use std::sync::Arc;

    /// The doubt that is foretold is the doubt that is found once the reading was taken.
    #[test]
    fn the_doubt_foretold_is_the_doubt_found() {
        use HandPlace::{Drops, Hoods, Tops};
        let to_the_hands = [Item::ShoulderToFist, Item::Notch, D::Span.into()];
        let to_the_thigh =
            [D::TrochanterionHeight.into(), D::LateralFemoralEpicondyleHeight.into()];
        for (complaint, angle, place, first) in [
            (None, AskedAngle::Trunk, Hoods, &to_the_hands[..]),
            (Some((Concern::Neck, Drops)), AskedAngle::Trunk, Drops, &to_the_hands),
            (Some((Concern::Hands, Tops)), AskedAngle::Elbow, Tops, &to_the_hands),
            (Some((Concern::Hips, Drops)), AskedAngle::HipMin, Drops, &to_the_thigh),
        ] {
            let mut session = session(candidates());
            let visit = Arc::make_mut(&mut session.visits[0]);
            visit.complaints = complaint.into_iter().map(|(about, at)| of(about, at)).collect();
            visit.body = vec![
                Reading::of(D::Stature, vec![1756.0]),
                Reading::of(D::Weight, vec![85.5]),
                Reading::of(D::CrotchHeight, vec![846.0]),
            ];
            let taken = taken_in_turn(&mut session, Question { angle, place });
            assert!(first.contains(&taken[0]), "{angle:?} {place:?}: {taken:?}");
            assert!(taken.len() >= 5, "{taken:?}");
        }
    }

    /// Of all readings that are left, the one that is proposed leaves the least doubt over all that
    /// bothers, found by taking each in turn and asking of every complaint by itself.
    #[test]
    fn what_is_proposed_tells_most_over_all_that_bothers() {
        use HandPlace::{Drops, Hoods};
        let survey = Survey::shipped().unwrap();
        let (neck, hips) = (of(Concern::Neck, Hoods), of(Concern::Hips, Drops));
        let doubt = |session: &Session, of: &Complaint| {
            let mut session = session.clone();
            Arc::make_mut(&mut session.visits[0]).complaints = vec![of.clone()];
            weigh(&session, None, &survey).unwrap().measure_next().unwrap().most().sd_now_rad
        };
        let mut proposed = Vec::new();
        for scores in [[9, 0], [0, 9], [8, 9], [6, 9]] {
            let mut session = session(candidates());
            let complaints = [(&neck, scores[0]), (&hips, scores[1])]
                .map(|(of, score)| Complaint { score: Some(score), ..of.clone() });
            let visit = Arc::make_mut(&mut session.visits[0]);
            visit.complaints = complaints.to_vec();
            visit.body = vec![
                Reading::of(D::Stature, vec![1756.0]),
                Reading::of(D::Weight, vec![85.5]),
                Reading::of(D::CrotchHeight, vec![846.0]),
            ];
            let weighed = weigh(&session, None, &survey).unwrap();
            let left = |session: &Session| -> f64 {
                let each = complaints.iter().filter(|of| of.score != Some(0));
                each.map(|of| doubt(session, of) * f64::from(of.as_bad_as())).sum()
            };
            let with = |item: Item| {
                let value = item.gradient().at(|d| weighed.body.value(d)) + item.offset();
                let mut session = session.clone();
                let visit = Arc::make_mut(&mut session.visits[0]);
                visit.body.push(Reading::of(item, vec![value]));
                left(&session)
            };
            let next = weighed.measure_next().unwrap();
            let unread = Item::USUAL.into_iter().chain(Item::MORE);
            let unread = unread.filter(|item| !weighed.body.has_read(*item));
            let least = unread.map(with).fold(f64::INFINITY, f64::min);
            // the answer turns a little otherwise with a body that is known better
            assert!(with(next.item) <= least * 1.02, "{scores:?}: {next:?}");
            proposed.push(next.item);
        }
        let [neck, hips, both @ ..] = &proposed[..] else { panic!("{proposed:?}") };
        // what is a little less bad and of which a reading tells more decides
        assert!(neck != hips && both.contains(neck), "{proposed:?}");
    }

    /// Takes what is to be measured next, as foretold, until nothing is left.
    fn taken_in_turn(session: &mut Session, question: Question) -> Vec<Item> {
        let survey = Survey::shipped().unwrap();
        let mut before = f64::INFINITY;
        let mut taken = Vec::new();
        while let Some(next) = weigh(session, None, &survey).unwrap().measure_next() {
            assert_eq!(next.of.len(), 1);
            let told = *next.most();
            assert_eq!(told.question, question);
            assert!(told.sd_then_rad <= told.sd_now_rad && told.sd_now_rad <= before * 1.02);
            // what was foretold is found, but that the answer turns a little otherwise there
            if before.is_finite() {
                assert!((told.sd_now_rad / before - 1.0).abs() < 0.02, "{told:?} {before}");
            }
            before = told.sd_then_rad;
            let known = weigh(session, None, &survey).unwrap().body;
            let value = next.item.gradient().at(|d| known.value(d)) + next.item.offset();
            Arc::make_mut(&mut session.visits[0]).body.push(Reading::of(next.item, vec![value]));
            taken.push(next.item);
        }
        taken
    }

    fn of(about: Concern, place: HandPlace) -> Complaint {
        Complaint { place: Some(place), ..Complaint::about(about, Where::Both) }
    }
}
