//! What is said of answers, held against what it is to say.

use super::*;

/// As the card of a bar has it.
#[test]
fn a_width_is_told_as_it_is_measured_and_hoods_that_come_in_are_told() {
    let came = crate::testing::deep();
    let mut to = came.clone();
    to.bar.width_mm = 440.0;
    let title = |to: &Cockpit| English.job_makes(Job::OtherBar, &came, to);
    assert!(title(&to).ends_with(", 440\u{a0}mm"), "{}", title(&to));
    to.bar.width_how = fit_doc::WidthHow::OutsideToOutside;
    assert!(title(&to).ends_with(", 440\u{a0}mm outside"), "{}", title(&to));
    to.bar.width_at = fit_doc::WidthAt::Ends;
    assert!(title(&to).ends_with(", 440\u{a0}mm outside at the ends"), "{}", title(&to));
    let held = |out_mm| reason_text(&Reason::HoodsHeld { out_mm });
    assert_eq!(held(0), "The hoods stay where they are");
    assert!(held(-12).ends_with("each goes 12\u{a0}mm further in"), "{}", held(-12));
    assert!(held(10).ends_with("each goes 10\u{a0}mm further out"), "{}", held(10));
}

#[test]
fn a_saddle_is_behind_a_complaint_and_only_before_a_wish() {
    let said = |by| {
        let next = fit_doc::RuleOut::Cleats;
        reason_text(&Reason::SaddleFirst(fit_doc::concern::Held { by, next }))
    };
    for about in fit_doc::Concern::ALL {
        let behind = said(about).contains("may be behind it");
        assert_eq!(behind, !about.is_wish(), "{about:?}");
        assert!(said(about).contains("look at the cleats next"), "{about:?}");
    }
}

/// What slipped cannot be put back by a search that has the bike as it was left.
#[test]
fn what_slipped_and_is_not_said_yet_is_said_first() {
    let quantity = Quantity::Roll;
    let moved = fit_doc::tape::Moved { quantity, from: 1.0, to: -3.0, sd: 1.0, misfit: 0.0 };
    let said = |moved| reason_text(&Reason::BikeNotAsRead(NotAsRead::Moved(moved)));
    let one = said(Some(moved));
    assert!(one.contains("1 nose down") && one.contains("Say so first"), "{one}");
    assert!(one.contains("putting it back is the first answer"), "{one}");
    assert!(!said(None).contains("putting it back"), "nothing single is put back");
}

#[test]
fn one_way_and_one_millimetre_are_told_as_one() {
    let none = |looked| reason_text(&Reason::NothingBeatsIt { looked, row: None, most: None });
    assert_eq!(none(1), "Nothing else can be put together here");
    assert_eq!(none(2), "None of 2 ways to put parts and settings together is worth what it takes");
    let place = HandPlace::Drops;
    let just = |after_mm| reason_text(&Reason::Brake { place, before_mm: 0, after_mm, just: true });
    assert!(just(1).contains("1\u{a0}mm to spare is less"), "{}", just(1));
    assert!(just(2).contains("2\u{a0}mm to spare are less"), "{}", just(2));
    let gap = |mm| reason_text(&Reason::SqueezeGap { mm });
    assert!(gap(1).contains("1\u{a0}mm stays") && gap(2).contains("2\u{a0}mm stay between"));
}
