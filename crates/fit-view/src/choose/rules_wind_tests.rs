//! What is said where somebody wants to be slimmer in the wind.

use super::tests::said;
use super::*;
use crate::choose::{Bears, Source};
use crate::testing::{bar, cockpit, deep};
use fit_doc::{Cockpit, Family};

/// A smaller outline is what is asked for, and nothing narrower that leaves it as it is.
#[test]
fn an_outline_is_told_where_its_change_tells_and_narrower_is_nothing_by_itself() {
    let wide = |mm: f64| cockpit("to", "to", bar(Family::Round, 85.0, 145.0, mm), 203.0);
    let wanted = [Wanted::new(Aim::Slimmer)];
    let hoods = |of: &Reason| match of {
        Reason::Outline { place: HandPlace::Hoods, percent } => Some(*percent),
        _ => None,
    };
    let told = said(outline, &wide(360.0), &wanted);
    let by = told.iter().find_map(hoods).unwrap();
    // 60 mm of width are some 2.6 per cent for the mean man
    assert!((-4..=-1).contains(&by), "{told:?}");
    assert!(told.iter().all(Reason::is_about_an_aim), "{told:?}");
    let row = Question::WidthAtHoods;
    let better = |all: &[Reason]| all.iter().any(|of| matches!(of, Reason::Better { .. }));
    assert!(better(&said(what_is_asked, &wide(360.0), &wanted)));
    assert_eq!(said(outline, &wide(418.0), &wanted), []);
    let small = said(what_is_asked, &wide(418.0), &wanted);
    assert_eq!(small, [Reason::TooSmall { question: row }], "2 mm of width");
    // of a width that is felt it is enough that the outline is no larger, however little that tells
    assert!(better(&said(what_is_asked, &wide(410.0), &wanted)));
    // and where that is too small to tell it is said
    let by_size = said(outline_too_small, &wide(410.0), &wanted);
    assert_eq!(by_size, [Reason::OutlineTooSmall { place: HandPlace::Hoods }]);
    assert_eq!(by_size[0].bears(), Bears::Against);
    assert_eq!(by_size[0].source(), Source::CommonPractice);
    assert_eq!(said(outline_too_small, &wide(360.0), &wanted), [], "that tells");
    assert_eq!(said(outline_too_small, &wide(418.0), &wanted), [], "that is no size");
    assert_eq!(said(outline_too_small, &wide(410.0), &[]), [], "nobody asked");
    let raised = Cockpit { spacers_mm: 40.0, ..wide(410.0) };
    // the trunk comes up: the width tells, what it does not make smaller is the outline
    let no_smaller = Reason::OutlineNoSmaller { place: HandPlace::Hoods, narrower_mm: 10 };
    assert_eq!(said(what_is_asked, &raised, &wanted), [no_smaller]);
    let larger = said(outline, &wide(480.0), &wanted);
    assert!(larger.iter().any(|of| of.bears() == Bears::Against), "{larger:?}");
    assert_eq!(
        said(outline, &wide(360.0), &[Wanted::new(Aim::EaseNeck).at(HandPlace::Hoods)]),
        [],
        "nobody asked"
    );
}

/// Levers that are turned in bring the hands a little in, and the wind meets what it met.
#[test]
fn levers_turned_in_a_little_make_nobody_slimmer() {
    let mut to = deep();
    let levers = to.levers.as_mut().unwrap();
    (levers.left.turn_in_deg, levers.right.turn_in_deg) = (4.0, 4.0);
    let wanted = [Wanted::new(Aim::Slimmer)];
    let told = [said(outline, &to, &wanted), said(what_is_asked, &to, &wanted)].concat();
    assert!(!told.iter().any(Reason::is_about_an_aim), "{told:?}");
}
