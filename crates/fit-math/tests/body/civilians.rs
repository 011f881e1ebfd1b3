//! Shoulder breadth estimated for people outside the survey, against what was measured.
//!
//! Source: `data/bdims.csv`, 247 active men and 260 women, Heinz, Peterson, Johnson & Kerk 2003,
//! J. Statistics Education 11(2).

use crate::SURVEY;
use fit_math::body::{Body, Dimension, Reading, Sex};

/// How far the estimate may be off on average, mm.
const BIAS_MM: f64 = 2.0;
/// Share of people within an interval that should hold nine of ten.
const COVERED: core::ops::RangeInclusive<f64> = 0.85..=0.96;
/// Standard deviations to either side that hold nine of ten (normal distribution).
const NINE_OF_TEN_SD: f64 = 1.644_853_626_951;

struct Person {
    age_years: u32,
    weight_kg: f64,
    stature_mm: f64,
    biacromial_mm: f64,
}

fn people(sex: Sex) -> Vec<Person> {
    let text = include_str!("../data/bdims.csv");
    let of = if sex == Sex::Male { "male" } else { "female" };
    let rows = text.lines().map(|line| line.split(',').collect::<Vec<_>>());
    let number = |cell: &str| cell.parse::<f64>().unwrap();
    rows.filter(|row| row[0] == of)
        .map(|row| Person {
            age_years: row[1].parse().unwrap(),
            weight_kg: number(row[2]),
            stature_mm: 10.0 * number(row[3]),
            biacromial_mm: 10.0 * number(row[4]),
        })
        .collect()
}

#[test]
fn shoulders_are_estimated_from_stature_and_weight() {
    for (sex, count, rmse_mm) in [(Sex::Male, 247, 18.5), (Sex::Female, 260, 15.5)] {
        let people = people(sex);
        assert_eq!(people.len(), count);
        let (mut sum, mut squares, mut held) = (0.0, 0.0, 0.0);
        for person in &people {
            assert!(person.age_years >= 18);
            let readings = [
                Reading::new(Dimension::Stature, person.stature_mm),
                Reading::new(Dimension::Weight, person.weight_kg),
            ];
            let body = Body::read(&SURVEY, Some(sex), Some(person.age_years), &readings).unwrap();
            let known = body.known(Dimension::BiacromialBreadth);
            let off = known.value - person.biacromial_mm;
            sum += off;
            squares += off * off;
            held += f64::from(u8::from(off.abs() < NINE_OF_TEN_SD * known.sd));
        }
        let n = people.len() as f64;
        let (bias, rmse, share) = (sum / n, (squares / n).sqrt(), held / n);
        println!("{sex:?}: bias {bias:+.2} mm, RMSE {rmse:.2} mm, {:.1} % covered", 100.0 * share);
        assert!(bias.abs() < BIAS_MM, "{sex:?}: {bias}");
        assert!(rmse < rmse_mm, "{sex:?}: {rmse}");
        assert!(COVERED.contains(&share), "{sex:?}: {share}");
    }
}

/// How poorly stature alone tells the shoulders: r = .48 in the men, .47 in the women.
#[test]
fn stature_tells_little_of_shoulders() {
    for (sex, expected) in [(Sex::Male, 0.48), (Sex::Female, 0.47)] {
        let people = people(sex);
        let n = people.len() as f64;
        let mean = |of: &dyn Fn(&Person) -> f64| people.iter().map(of).sum::<f64>() / n;
        let (x, y) = (mean(&|p| p.stature_mm), mean(&|p| p.biacromial_mm));
        let xy = mean(&|p| (p.stature_mm - x) * (p.biacromial_mm - y));
        let xx = mean(&|p| (p.stature_mm - x).powi(2));
        let yy = mean(&|p| (p.biacromial_mm - y).powi(2));
        let r = xy / (xx * yy).sqrt();
        println!("{sex:?}: r = {r:.3}");
        assert!((r - expected).abs() < 0.01, "{sex:?}: {r}");
        // the survey's is in the same region, above it: soldiers are more alike
        let of = SURVEY.people(sex);
        let [stature, shoulders] =
            [Dimension::Stature, Dimension::BiacromialBreadth].map(Into::into);
        let survey =
            of.covariance_of(&stature, &shoulders) / (of.sd_of(&stature) * of.sd_of(&shoulders));
        assert!(survey > r && survey < r + 0.12, "{sex:?}: {survey}");
    }
}
