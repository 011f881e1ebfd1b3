//! Ranges of the trade: usual, ask "sure?" outside, refuse outside.
//!
//! Usual and ask ranges are common practice without a source. Where the trade names no range to
//! refuse, a wide physical one stands here, marked so: judgement, only there to keep slips of the
//! keyboard out of the sums. Lengths in mm, angles in degrees, weight in kg.

use crate::{HandPlace, Joint, TapeItem};
use fit_math::body::{Dimension, Item};

/// What a range says of a value.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Verdict {
    /// As usual.
    Usual,
    /// Ask "sure?"; never blocks.
    Ask,
    /// Cannot be right.
    Refuse,
}

/// Three nested ranges, inclusive.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Range {
    /// Seen every week.
    pub usual: (f64, f64),
    /// Asked about outside, and at its ends already where the usual range stops before them: who
    /// reads what is usual expects to be asked there.
    pub ask: (f64, f64),
    /// Refused outside.
    pub refuse: (f64, f64),
}

impl Range {
    /// What the range says of a value; anything not finite is refused.
    pub fn verdict(&self, value: f64) -> Verdict {
        let inside = |(from, to): (f64, f64)| value >= from && value <= to;
        let within_ask = value > self.ask.0 && value < self.ask.1;
        if !inside(self.refuse) {
            Verdict::Refuse
        } else if within_ask || inside(self.usual) {
            Verdict::Usual
        } else {
            Verdict::Ask
        }
    }
}

/// A quantity with a range. Its name is worded by the view.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
#[expect(missing_docs, reason = "each is the quantity that its name says, in mm, degrees or kg")]
pub enum Quantity {
    Body(Item),
    Mobility(Joint),
    Tape(TapeItem),
    NoseUp,
    HandsAhead,
    HandsUp,
    SeenTrunk,
    SeenElbow,
    SeenNeck,
    SeenKnee,
    SeenSlide,
    Glove,
    ComplaintScore,
    AfterMinutes,
    RideMinutes,
    KmRidden,
    HoursPerWeek,
    HandShare(HandPlace),
    HourPrice,
    WorkMinutes,
    PartsPrice,
    AimBy,
    BirthYear,
    FrameStack,
    FrameReach,
    HeadAngle,
    SeatAngle,
    HeadsetCover,
    HeadTube,
    ForkOffset,
    WheelRadius,
    BottomBracketDrop,
    RearCentre,
    Crank,
    SaddleHeight,
    NoseBehind,
    SitFromNose,
    SaddleTilt,
    Spacers,
    StemLength,
    StemAngle,
    StemClampHeight,
    BarReach,
    BarDrop,
    BarWidthAtHoods,
    BarWidthAtEnds,
    Flare,
    Outsweep,
    Backsweep,
    Rise,
    RampSlope,
    RampOutsweep,
    TailSlope,
    TailLength,
    ForwardBendRadius,
    TubeDiameter,
    TopsDepth,
    Proportion,
    ClampZone,
    Tolerance,
    Roll,
    LeverAlong,
    LeverTurnIn,
    LeverClicks,
    LeverShape,
    LeverLength,
    LeverAngle,
    HandInDrops,
}

/// Widest body length that is not a slip of the keyboard, mm (judgement).
const BODY_REFUSE_MM: (f64, f64) = (20.0, 2600.0);

const fn range(usual: (f64, f64), ask: (f64, f64), refuse: (f64, f64)) -> Range {
    Range { usual, ask, refuse }
}

impl Quantity {
    /// Its range.
    pub fn range(self) -> Range {
        use Quantity as Q;
        match self {
            Q::Body(item) => body(item),
            Q::Mobility(joint) => mobility(joint),
            Q::Tape(item) => tape(item),
            // a trainer: usual and asked common practice
            Q::NoseUp => range((-1.0, 1.0), (-3.0, 3.0), (-20.0, 20.0)),
            // where a trial puts the hands: judgement
            Q::HandsAhead | Q::HandsUp => range((-40.0, 40.0), (-80.0, 80.0), (-200.0, 200.0)),
            // what is seen on the bike, and gloves: judgement, but for the gloves (common practice)
            Q::SeenTrunk => range((25.0, 60.0), (10.0, 80.0), (-30.0, 110.0)),
            Q::SeenElbow => range((5.0, 45.0), (0.0, 100.0), (0.0, 150.0)),
            Q::SeenNeck => range((10.0, 70.0), (0.0, 90.0), (-40.0, 140.0)),
            Q::SeenKnee => range((20.0, 45.0), (10.0, 70.0), (0.0, 150.0)),
            Q::SeenSlide => range((0.0, 30.0), (-20.0, 60.0), (-150.0, 150.0)),
            Q::Glove => range((0.0, 8.0), (0.0, 10.0), (0.0, 30.0)),
            Q::ComplaintScore => range((0.0, 10.0), (0.0, 10.0), (0.0, 10.0)),
            // judgement: a room has no more than an afternoon
            Q::RideMinutes => range((1.0, 30.0), (0.0, 120.0), (0.0, 600.0)),
            // judgement: a year's riding of somebody who rides every day
            Q::KmRidden => range((20.0, 3000.0), (0.0, 8000.0), (0.0, 60_000.0)),
            // judgement: a week has 168
            Q::HoursPerWeek => range((1.0, 20.0), (0.0, 35.0), (0.0, 168.0)),
            Q::HandShare(_) => range((0.0, 100.0), (0.0, 100.0), (0.0, 100.0)),
            // judgement: currencies differ
            Q::HourPrice => range((20.0, 200.0), (0.0, 2000.0), (0.0, 1_000_000.0)),
            // judgement: a day in the workshop
            Q::WorkMinutes => range((0.0, 240.0), (0.0, 480.0), (0.0, 600.0)),
            Q::PartsPrice => range((0.0, 1000.0), (0.0, 10_000.0), (0.0, 1_000_000.0)),
            // common practice, no source: beyond 30 to 40 mm it is the frame's business
            Q::AimBy => range((5.0, 40.0), (1.0, 60.0), (0.5, 200.0)),
            Q::AfterMinutes => range((0.0, 240.0), (0.0, 1440.0), (0.0, 10_080.0)),
            Q::BirthYear => range((1930.0, 2015.0), (1920.0, 2020.0), (1900.0, 2100.0)),
            Q::FrameStack => range((500.0, 640.0), (440.0, 700.0), (250.0, 900.0)),
            Q::FrameReach => range((355.0, 410.0), (330.0, 450.0), (200.0, 650.0)),
            Q::HeadAngle => range((70.0, 74.0), (66.0, 76.0), (50.0, 85.0)),
            Q::SeatAngle => range((72.5, 75.5), (70.0, 80.0), (55.0, 89.0)),
            Q::HeadsetCover => range((5.0, 25.0), (0.0, 45.0), (0.0, 100.0)),
            Q::HeadTube => range((90.0, 220.0), (70.0, 280.0), (40.0, 400.0)),
            Q::ForkOffset => range((38.0, 55.0), (30.0, 75.0), (-100.0, 150.0)),
            Q::WheelRadius => range((325.0, 365.0), (280.0, 385.0), (150.0, 450.0)),
            Q::BottomBracketDrop => range((60.0, 85.0), (40.0, 95.0), (-50.0, 150.0)),
            Q::RearCentre => range((400.0, 450.0), (390.0, 480.0), (300.0, 700.0)),
            Q::Crank => range((160.0, 175.0), (140.0, 180.0), (80.0, 230.0)),
            Q::SaddleHeight => range((620.0, 820.0), (540.0, 900.0), (300.0, 1200.0)),
            Q::NoseBehind => range((20.0, 90.0), (-20.0, 120.0), (-200.0, 300.0)),
            Q::SitFromNose => range((105.0, 160.0), (90.0, 180.0), (40.0, 260.0)),
            Q::SaddleTilt => range((-3.0, 1.0), (-7.0, 4.0), (-30.0, 30.0)),
            Q::Spacers => range((0.0, 35.0), (0.0, 40.0), (0.0, 120.0)),
            Q::StemLength => range((70.0, 120.0), (40.0, 140.0), (0.0, 200.0)),
            Q::StemAngle => range((-17.0, 17.0), (-35.0, 35.0), (-70.0, 70.0)),
            Q::StemClampHeight => range((36.0, 46.0), (25.0, 60.0), (0.0, 120.0)),
            Q::BarReach => range((65.0, 95.0), (55.0, 110.0), (30.0, 180.0)),
            Q::BarDrop => range((105.0, 150.0), (90.0, 170.0), (50.0, 260.0)),
            Q::BarWidthAtHoods => range((360.0, 440.0), (330.0, 480.0), (200.0, 1000.0)),
            Q::BarWidthAtEnds => range((380.0, 540.0), (340.0, 650.0), (200.0, 1000.0)),
            Q::Flare => range((0.0, 25.0), (0.0, 35.0), (-15.0, 60.0)),
            Q::Outsweep => range((0.0, 10.0), (0.0, 20.0), (-30.0, 60.0)),
            Q::Backsweep => range((0.0, 6.0), (0.0, 15.0), (-10.0, 40.0)),
            Q::Rise => range((0.0, 10.0), (-10.0, 20.0), (-40.0, 40.0)),
            Q::RampSlope => range((0.0, 12.0), (-5.0, 20.0), (-20.0, 40.0)),
            Q::RampOutsweep => range((0.0, 8.0), (-5.0, 15.0), (-30.0, 45.0)),
            Q::TailSlope => range((0.0, 12.0), (-8.0, 25.0), (-30.0, 60.0)),
            Q::TailLength => range((25.0, 75.0), (10.0, 110.0), (0.0, 250.0)),
            Q::ForwardBendRadius => range((25.0, 50.0), (12.0, 80.0), (12.0, 200.0)),
            Q::TubeDiameter => range((22.0, 32.0), (20.0, 36.0), (10.0, 60.0)),
            Q::TopsDepth => range((24.0, 50.0), (20.0, 70.0), (10.0, 120.0)),
            Q::Proportion => range((0.3, 1.2), (0.2, 1.5), (0.05, 5.0)),
            Q::ClampZone => range((120.0, 320.0), (60.0, 380.0), (0.0, 600.0)),
            Q::Tolerance => range((0.5, 5.0), (0.0, 10.0), (0.0, 20.0)),
            Q::Roll => range((-3.0, 5.0), (-10.0, 10.0), (-45.0, 45.0)),
            Q::LeverAlong => range((170.0, 260.0), (130.0, 320.0), (0.0, 600.0)),
            Q::LeverTurnIn => range((0.0, 8.0), (-5.0, 20.0), (-45.0, 45.0)),
            Q::LeverClicks => range((0.0, 20.0), (0.0, 40.0), (0.0, 1000.0)),
            Q::LeverShape => range((-150.0, 200.0), (-200.0, 250.0), (-400.0, 400.0)),
            Q::LeverLength => range((0.0, 120.0), (0.0, 160.0), (0.0, 400.0)),
            Q::LeverAngle => range((-45.0, 60.0), (-90.0, 120.0), (-180.0, 180.0)),
            Q::HandInDrops => range((-30.0, 40.0), (-60.0, 60.0), (-150.0, 150.0)),
        }
    }
}

/// Ranges of joints: hip and neck as the trade sees them, the others judgement. Nothing folds by
/// more than 180°.
fn mobility(joint: Joint) -> Range {
    const REFUSE: (f64, f64) = (0.0, 180.0);
    match joint {
        Joint::Hip => range((100.0, 135.0), (85.0, 145.0), REFUSE),
        Joint::Neck => range((45.0, 80.0), (25.0, 95.0), REFUSE),
        Joint::Shoulder => range((120.0, 180.0), (90.0, 180.0), REFUSE),
        Joint::Spine => range((40.0, 85.0), (25.0, 100.0), REFUSE),
        Joint::Pelvis => range((15.0, 50.0), (5.0, 70.0), REFUSE),
    }
}

/// A length off the bike is refused only where no slip of the pen explains it: centimetres typed for
/// millimetres are asked about and named (judgement).
const TAPE_REFUSE_MM: (f64, f64) = (-500.0, 2500.0);
/// No part of a bike that is read slopes by more, degrees (judgement).
const TAPE_REFUSE_DEG: (f64, f64) = (-60.0, 60.0);

/// Ranges of what is read off the bike. Saddle, nose to bar and trough, lever: common practice, no
/// source; the others follow from those and from usual bars (judgement).
fn tape(item: TapeItem) -> Range {
    use TapeItem as I;
    let (usual, ask) = match item {
        I::SaddleHeight => ((620.0, 820.0), (540.0, 900.0)),
        I::NoseBehindAxle => ((20.0, 90.0), (-20.0, 120.0)),
        I::NoseToWide => ((105.0, 160.0), (90.0, 180.0)),
        I::SaddleTilt => ((-3.0, 1.0), (-7.0, 4.0)),
        I::NoseToBar => ((460.0, 580.0), (400.0, 640.0)),
        I::BarBelowSaddle => ((-20.0, 100.0), (-80.0, 150.0)),
        I::NoseToHood => ((570.0, 730.0), (500.0, 800.0)),
        I::HoodBelowSaddle => ((-40.0, 70.0), (-90.0, 110.0)),
        I::NoseToHookFront => ((530.0, 680.0), (455.0, 760.0)),
        I::HookLowestBelowSaddle => ((80.0, 250.0), (10.0, 320.0)),
        I::RampSlope => ((-2.0, 14.0), (-10.0, 22.0)),
        I::LeverFromEnd => ((170.0, 260.0), (130.0, 320.0)),
        I::WidthAtHoods => ((360.0, 460.0), (330.0, 500.0)),
        I::AxleToBar => ((640.0, 840.0), (560.0, 920.0)),
        I::TailSlope => ((-3.0, 15.0), (-12.0, 30.0)),
        I::HoodSlope => ((-5.0, 40.0), (-20.0, 60.0)),
        I::NoseToBarEnd => ((420.0, 600.0), (330.0, 680.0)),
        I::BarEndBelowSaddle => ((60.0, 250.0), (-10.0, 320.0)),
    };
    range(usual, ask, if item.is_angle() { TAPE_REFUSE_DEG } else { TAPE_REFUSE_MM })
}

/// Ranges of the body; those that the trade names, and for the rest only the refusal.
fn body(item: Item) -> Range {
    let dimension = match item {
        Item::Dimension(dimension) => dimension,
        Item::Notch => return range((520.0, 660.0), (470.0, 710.0), (250.0, 900.0)),
        Item::ShoulderToFist => return range((560.0, 720.0), (500.0, 790.0), (250.0, 1000.0)),
        // as the outer edges of the acromia, 30 mm closer together
        Item::ShoulderJoints => return range((305.0, 420.0), (270.0, 460.0), (120.0, 620.0)),
    };
    match dimension {
        Dimension::Stature => range((1500.0, 1950.0), (1400.0, 2050.0), (900.0, 2400.0)),
        Dimension::Weight => range((45.0, 110.0), (38.0, 140.0), (15.0, 250.0)),
        Dimension::CrotchHeight => range((700.0, 930.0), (620.0, 1020.0), (350.0, 1300.0)),
        Dimension::BiacromialBreadth => range((335.0, 450.0), (300.0, 490.0), (150.0, 650.0)),
        Dimension::HandLength => range((165.0, 210.0), (145.0, 230.0), (80.0, 280.0)),
        Dimension::HandBreadth => range((72.0, 96.0), (65.0, 105.0), (40.0, 140.0)),
        _ => range(BODY_REFUSE_MM, BODY_REFUSE_MM, BODY_REFUSE_MM),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn ranges_are_nested_and_ends_belong_to_them() {
        let all = [
            Quantity::Body(Dimension::Stature.into()),
            Quantity::Body(Dimension::Weight.into()),
            Quantity::Body(Dimension::FootLength.into()),
            Quantity::Body(Item::Notch),
            Quantity::Body(Item::ShoulderToFist),
            Quantity::Body(Item::ShoulderJoints),
            Quantity::Mobility(Joint::Hip),
            Quantity::Mobility(Joint::Shoulder),
            Quantity::StemLength,
            Quantity::BarReach,
            Quantity::Roll,
            Quantity::ForkOffset,
            Quantity::Tape(TapeItem::HoodSlope),
            Quantity::Tape(TapeItem::NoseToBar),
            Quantity::NoseUp,
            Quantity::HandsUp,
        ];
        for quantity in all {
            let r = quantity.range();
            assert!(r.refuse.0 <= r.ask.0 && r.ask.0 <= r.usual.0, "{quantity:?}");
            assert!(r.usual.1 <= r.ask.1 && r.ask.1 <= r.refuse.1, "{quantity:?}");
            let usual_to_the_end = r.usual.0 <= r.refuse.0;
            let expected = if usual_to_the_end { Verdict::Usual } else { Verdict::Ask };
            assert_eq!(r.verdict(r.refuse.0), expected, "{quantity:?}");
            assert_eq!(r.verdict(r.refuse.1 + 0.1), Verdict::Refuse);
        }
    }

    #[test]
    fn a_value_that_is_no_number_is_refused() {
        let reach = Quantity::BarReach.range();
        assert_eq!(reach.verdict(f64::NAN), Verdict::Refuse);
        assert_eq!(reach.verdict(f64::INFINITY), Verdict::Refuse);
    }

    #[test]
    fn asked_outside_what_the_trade_sees() {
        let stem = Quantity::StemLength.range();
        assert_eq!(stem.verdict(110.0), Verdict::Usual);
        assert_eq!(stem.verdict(35.0), Verdict::Ask);
        // at the end of what is seldom asked about, but not where that is usual
        assert_eq!(Quantity::BarDrop.range().verdict(90.0), Verdict::Ask);
        assert_eq!(Quantity::BarDrop.range().verdict(90.5), Verdict::Usual);
        assert_eq!(Quantity::ComplaintScore.range().verdict(10.0), Verdict::Usual);
        assert_eq!(Quantity::Spacers.range().verdict(0.0), Verdict::Usual);
    }
}
