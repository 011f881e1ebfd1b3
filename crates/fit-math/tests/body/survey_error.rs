//! The doubt of an estimate against the error it had in the survey's own people.
//!
//! Source: `data/estimator_error.csv`, five-fold cross-validated errors of linear estimates from
//! the individuals of ANSUR II (Gordon et al. 2014), men and women weighted alike. They are errors
//! of people that the estimate had not seen, so they are a little larger than the covariances say.

use crate::SURVEY;
use fit_math::body::{Dimension, Gradient, Sex};

/// A standard deviation agrees with the cross-validated error to this share.
const LENGTHS: f64 = 0.03;
/// The same for girths and weight, whose distributions are skew.
const GIRTHS: f64 = 0.06;

/// Each column's readings, on top of those of the column before.
const ADDED: [(&str, &[Dimension]); 4] = [
    ("stature", &[Dimension::Stature]),
    ("and_weight_crotch", &[Dimension::Weight, Dimension::CrotchHeight]),
    ("and_span_biacromial", &[Dimension::Span, Dimension::BiacromialBreadth]),
    (
        "and_sitting_knee_hand_foot",
        &[
            Dimension::SittingHeight,
            Dimension::KneeHeightSitting,
            Dimension::HandLength,
            Dimension::FootLength,
        ],
    ),
];

fn target(name: &str) -> Gradient {
    use Dimension as D;
    if let Some(dimension) = D::from_id(name) {
        return dimension.into();
    }
    match name {
        "trunk_acromion_to_trochanter" => {
            Gradient::from(D::AcromialHeight) - D::TrochanterionHeight.into()
        }
        "thigh_troch_to_epicondyle" => {
            Gradient::from(D::TrochanterionHeight) - D::LateralFemoralEpicondyleHeight.into()
        }
        "shank_epicondyle_to_malleolus" => {
            Gradient::from(D::LateralFemoralEpicondyleHeight) - D::LateralMalleolusHeight.into()
        }
        "arm_acromion_to_grip" => {
            Gradient::from(D::AcromionRadialeLength) + D::ForearmGripLength.into()
        }
        "arm_acromion_to_wrist" => {
            Gradient::from(D::AcromionRadialeLength) + D::RadialeStylionLength.into()
        }
        // shoulder above the seat
        "acromial_height_sitting_est" => {
            Gradient::from(D::AcromialHeight) - D::Stature.into() + D::SittingHeight.into()
        }
        other => panic!("no dimension {other}"),
    }
}

#[test]
fn the_doubt_is_the_error_in_people_not_seen() {
    let text = include_str!("../data/estimator_error.csv");
    let mut lines = text.lines().map(|line| line.split(',').collect::<Vec<_>>());
    let headings = lines.next().unwrap();
    assert_eq!(headings[1..], ADDED.map(|(heading, _)| heading));
    let rows: Vec<_> = lines.collect();

    let mut people = Sex::BOTH.map(|sex| SURVEY.people(sex).clone());
    for (column, (heading, added)) in ADDED.into_iter().enumerate() {
        for of in &mut people {
            for &dimension in added {
                // the survey's own values: no fitter's error
                of.learn(&dimension.into(), of.mean(dimension), 0.0);
            }
        }
        let (mut count, mut worst) = (0, (0.0_f64, ""));
        for row in &rows {
            let Ok(error) = row[column + 1].parse::<f64>() else { continue };
            let gradient = target(row[0]);
            let [men, women] = [0, 1].map(|sex| people[sex].sd_of(&gradient));
            let sd = (0.5 * (men * men + women * women)).sqrt();
            let off = sd / error - 1.0;
            let girth = row[0] == "weight" || row[0].ends_with("circumference");
            let most = if girth { GIRTHS } else { LENGTHS };
            assert!(off.abs() < most, "{} by {heading}: {sd:.3} for {error}", row[0]);
            if off.abs() > worst.0.abs() {
                worst = (off, row[0]);
            }
            count += 1;
        }
        println!("{heading}: {count} doubts, worst {:+.2} % ({})", 100.0 * worst.0, worst.1);
        assert!(count > 35, "{heading}: {count}");
    }
}
