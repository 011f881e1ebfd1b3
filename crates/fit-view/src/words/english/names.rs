//! Names in English: hand places, body dimensions, quantities, places in the document.
//!
//! Nothing is computed here; a place's way is only looked at for a closer name.

use super::tape;
use crate::entry;
use fit_doc::{
    CockpitOn, Dimension, HandPlace, Item, Joint, Place, Quantity, Suppleness, VisitPlace, Whole,
};
use fit_math::posture::{self, Shift};
use fit_units::Unit;

pub(super) fn hand_place(place: HandPlace) -> &'static str {
    match place {
        HandPlace::Tops => "tops",
        HandPlace::Ramps => "ramps",
        HandPlace::Hoods => "hoods",
        HandPlace::BentElbowHoods => "hoods, elbows bent",
        HandPlace::Drops => "drops",
        HandPlace::Ends => "ends",
    }
}

pub(super) fn with_hands(place: HandPlace) -> &'static str {
    match place {
        HandPlace::Tops => "on the tops",
        HandPlace::Ramps => "on the ramps",
        HandPlace::Hoods => "on the hoods",
        HandPlace::BentElbowHoods => "on the hoods, elbows bent",
        HandPlace::Drops => "in the drops",
        HandPlace::Ends => "on the ends",
    }
}

/// How much of the time the hands are in a place.
fn share(place: HandPlace) -> &'static str {
    match place {
        HandPlace::Tops => "time on the tops",
        HandPlace::Ramps => "time on the ramps",
        HandPlace::Hoods => "time on the hoods",
        HandPlace::BentElbowHoods => "time on the hoods, elbows bent",
        HandPlace::Drops => "time in the drops",
        HandPlace::Ends => "time on the ends",
    }
}

pub(super) fn forward_or_back(place: HandPlace) -> &'static str {
    match place {
        HandPlace::Tops => "tops, forward or back",
        HandPlace::Ramps => "ramps, forward or back",
        HandPlace::Hoods | HandPlace::BentElbowHoods => "hoods, forward or back",
        HandPlace::Drops => "drops, forward or back",
        HandPlace::Ends => "ends, forward or back",
    }
}

pub(super) fn up_or_down(place: HandPlace) -> &'static str {
    match place {
        HandPlace::Tops => "tops, up or down",
        HandPlace::Ramps => "ramps, up or down",
        HandPlace::Hoods | HandPlace::BentElbowHoods => "hoods, up or down",
        HandPlace::Drops => "drops, up or down",
        HandPlace::Ends => "ends, up or down",
    }
}

pub(super) fn ahead_of_nose(place: HandPlace) -> &'static str {
    match place {
        HandPlace::Tops => "tops ahead of its nose",
        HandPlace::Ramps => "ramps ahead of its nose",
        HandPlace::Hoods | HandPlace::BentElbowHoods => "hoods ahead of its nose",
        HandPlace::Drops => "drops ahead of its nose",
        HandPlace::Ends => "ends ahead of its nose",
    }
}

pub(super) fn below_saddle(place: HandPlace) -> &'static str {
    match place {
        HandPlace::Tops => "tops below its top",
        HandPlace::Ramps => "ramps below its top",
        HandPlace::Hoods | HandPlace::BentElbowHoods => "hoods below its top",
        HandPlace::Drops => "drops below its top",
        HandPlace::Ends => "ends below its top",
    }
}

/// A text that begins a sentence.
pub(super) fn capital(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}

pub(super) fn joint(joint: posture::Joint) -> &'static str {
    use posture::Joint as J;
    match joint {
        J::Spine => "back",
        J::Pelvis => "pelvis",
        J::Protraction => "shoulders forward or back",
        J::Hip => "hip",
        J::Shoulder(_) => "shoulder",
        J::Neck => "neck",
    }
}

/// The object at the beginning of a message, with the side of the bike where that matters.
pub(super) fn place(place: &Place) -> String {
    let of_visit = |visit: &VisitPlace, label: &str| {
        if visit.latest {
            format!("Cockpit “{label}”")
        } else {
            format!("Visit of {}, cockpit “{label}”", visit.date)
        }
    };
    let whole = match &*place.whole {
        Whole::Session => "Session".to_owned(),
        Whole::Client => "Client".to_owned(),
        Whole::Bike { name, .. } => format!("Bike “{name}”"),
        Whole::Visit(visit) => format!("Visit of {}", visit.date),
        Whole::Cockpit { on: CockpitOn::Bike { name, .. }, .. } => {
            format!("Bike “{name}”, the cockpit on it")
        }
        Whole::Cockpit { on: CockpitOn::Came(visit) | CockpitOn::Bench { visit, .. }, label } => {
            of_visit(visit, label)
        }
        Whole::Cockpit { on: CockpitOn::Nothing, label } => format!("Cockpit “{label}”"),
        Whole::Stock(id) => format!("Stock number {id}"),
    };
    let side = ["left", "right"].into_iter().find(|side| place.passes(side));
    match side {
        Some(side) => format!("{whole}, {side} side"),
        None => whole,
    }
}

/// What a number stands for at a place: closer than the quantity alone, where that has several.
pub(super) fn quantity_at(place: &Place, of: Quantity) -> &'static str {
    use Quantity as Q;
    match (of, place.last_field()) {
        (Q::TubeDiameter, Some("clamp_diameter_mm")) => "bar diameter where it is clamped",
        (Q::TubeDiameter, Some("tops_diameter_mm")) => "tube diameter of the tops",
        (Q::TubeDiameter, Some("drops_diameter_mm")) => "tube diameter of the drops",
        (Q::TubeDiameter, Some("bar_diameter_mm")) => "bar diameter that the stem takes",
        (Q::TubeDiameter, Some("steerer_diameter_mm")) => "steerer diameter that the stem takes",
        (Q::LeverShape, Some("grip_mm")) => "place of the lever’s grip",
        (Q::LeverShape, Some("hood_outline_mm")) => "outline of the lever’s hood",
        (Q::LeverShape, Some("pivot_mm")) => "pivot of the lever’s blade",
        (Q::LeverLength, Some("grip_radius_mm")) => "radius of the lever’s grip",
        (Q::LeverLength, Some("clamp_width_mm")) => "width of the lever’s clamp",
        (Q::LeverLength, Some("usable_mm")) => "usable stretch of the lever’s blade",
        (Q::LeverLength, Some("length_mm")) => "length of the lever’s blade",
        (Q::LeverLength, Some("free_travel_mm")) => "free travel of the lever’s blade",
        (Q::LeverAngle, Some("hood_slope_deg")) => "slope of the lever’s hood",
        (Q::LeverAngle, Some("rest_angle_deg")) => "angle of the lever’s blade at rest",
        (Q::LeverAngle, Some("adjuster_deg")) => "angle of the lever’s reach screw",
        _ => quantity(of),
    }
}

/// Whether a quantity's name is of several things: "spacers … are".
pub(super) fn is_plural(quantity: Quantity) -> bool {
    use Quantity as Q;
    matches!(
        quantity,
        Q::Spacers
            | Q::LeverClicks
            | Q::AfterMinutes
            | Q::HoursPerWeek
            | Q::RideMinutes
            | Q::WorkMinutes
            | Q::KmRidden
            | Q::HandInDrops
            | Q::HandsAhead
            | Q::HandsUp
    )
}

/// How most numbers are made sure of.
const MEASURE_AGAIN: &str = "measure again";

/// How a number is made sure of: not everything was measured.
pub(super) fn make_sure(quantity: Quantity) -> &'static str {
    use Quantity as Q;
    match quantity {
        Q::ComplaintScore
        | Q::AfterMinutes
        | Q::RideMinutes
        | Q::KmRidden
        | Q::HoursPerWeek
        | Q::HandShare(_)
        | Q::PartsPrice
        | Q::AimBy
        | Q::BirthYear => "ask the client again",
        Q::LeverClicks => "count again",
        Q::HourPrice | Q::WorkMinutes => "ask in the shop",
        Q::LeverShape | Q::LeverLength | Q::LeverAngle | Q::Proportion | Q::Tolerance => {
            "look it up again"
        }
        Q::HandsAhead | Q::HandsUp => "look again",
        _ => MEASURE_AGAIN,
    }
}

/// Whether a number at a place is only planned: nobody can measure it. A saddle on the bench is one that
/// was set, and where hands are to come is never measured.
pub(super) fn is_planned(place: &Place, quantity: Quantity) -> bool {
    use Quantity as Q;
    match quantity {
        Q::HandsAhead | Q::HandsUp => true,
        Q::SaddleHeight | Q::SaddleTilt | Q::NoseBehind | Q::SitFromNose => false,
        _ => matches!(&*place.whole, Whole::Cockpit { on: CockpitOn::Bench { .. }, .. }),
    }
}

/// The same of what stands at a place: what is only planned was not measured.
pub(super) fn make_sure_at(place: &Place, quantity: Quantity) -> String {
    let planned = matches!(&*place.whole, Whole::Cockpit { on: CockpitOn::Bench { .. }, .. });
    match (planned, make_sure(quantity)) {
        (true, MEASURE_AGAIN) if quantity == Quantity::Spacers => {
            "see that the steerer and the fork’s maker allow it".to_owned()
        }
        (true, MEASURE_AGAIN) => "see that it is meant and can be built".to_owned(),
        (_, usual) => format!("{usual} to be sure"),
    }
}

/// How something is read (landmarks as in the survey; the rest common practice, no source).
pub(super) fn how_to_read(item: Item) -> Option<&'static str> {
    use Dimension as D;
    Some(match item {
        Item::Notch => "From a level pressed up at the crotch to the notch above the breastbone.",
        Item::ShoulderToFist => {
            "From the outer edge of the shoulder blade to the middle of a rod in the fist, arm straight."
        }
        Item::ShoulderJoints => {
            "From shoulder joint to shoulder joint, felt from the front while the arms turn."
        }
        Item::Dimension(D::Stature) => "From floor to crown, standing tall, no shoes.",
        Item::Dimension(D::CrotchHeight) => {
            "From the floor to a level pressed up as firmly as a saddle, no shoes."
        }
        Item::Dimension(D::Span) => "From fingertip to fingertip, arms level, back to the wall.",
        Item::Dimension(D::BiacromialBreadth) => {
            "Between the outer edges of both shoulder blades, felt on top of the shoulders."
        }
        Item::Dimension(D::HandLength) => {
            "From the crease of the wrist to the tip of the middle finger, hand flat."
        }
        Item::Dimension(D::HandBreadth) => "Across the palm at the knuckles, thumb left out.",
        Item::Dimension(D::Weight) => "In riding clothes, no shoes.",
        Item::Dimension(_) => return None,
    })
}

pub(super) fn item(item: Item) -> &'static str {
    match item {
        Item::Dimension(of) => dimension(of),
        Item::Notch => "crotch to breastbone notch",
        Item::ShoulderToFist => "shoulder to fist",
        Item::ShoulderJoints => "shoulder joints as felt",
    }
}

pub(super) fn dimension(dimension: Dimension) -> &'static str {
    use Dimension as D;
    match dimension {
        D::Stature => "stature",
        D::Weight => "weight",
        D::SittingHeight => "sitting height",
        D::EyeHeightSitting => "eye height sitting",
        D::CervicaleHeight => "height of vertebra C7",
        D::AcromialHeight => "shoulder height",
        D::SuprasternaleHeight => "height of the breastbone’s notch",
        D::IliocristaleHeight => "height of the hip bone’s crest",
        D::TrochanterionHeight => "hip height",
        D::CrotchHeight => "inseam",
        D::KneeHeightMidpatella => "height of the kneecap",
        D::LateralFemoralEpicondyleHeight => "knee height",
        D::TibialeHeight => "height of the shin bone’s top",
        D::LateralMalleolusHeight => "ankle height",
        D::ButtockKneeLength => "buttock to knee",
        D::ButtockPoplitealLength => "buttock to hollow of the knee",
        D::KneeHeightSitting => "knee height sitting",
        D::PoplitealHeight => "height of the knee’s hollow sitting",
        D::ThighClearance => "thigh clearance",
        D::FootLength => "foot length",
        D::BallOfFootLength => "heel to ball of the foot",
        D::FootBreadth => "foot breadth",
        D::AcromionRadialeLength => "shoulder to elbow",
        D::RadialeStylionLength => "elbow to wrist",
        D::ShoulderElbowLength => "shoulder to underside of the elbow",
        D::ForearmHandLength => "elbow to fingertip",
        D::ForearmGripLength => "elbow to grip",
        D::HandLength => "hand length",
        D::PalmLength => "palm length",
        D::HandBreadth => "palm breadth",
        D::ThumbtipReach => "reach to the thumb’s tip",
        D::SpineWristLength => "spine to wrist",
        D::Span => "span",
        D::BiacromialBreadth => "shoulder width",
        D::BideltoidBreadth => "shoulder width over the muscles",
        D::BicristalBreadth => "width of the hip bones",
        D::HipBreadth => "hip width",
        D::HipBreadthSitting => "hip width sitting",
        D::ChestBreadth => "chest width",
        D::ChestDepth => "chest depth",
        D::WaistCircumference => "waist girth",
        D::ThighCircumference => "thigh girth",
        D::TragionTopOfHead => "ear to crown",
        D::HeadBreadth => "head width",
        D::HeadLength => "head length",
    }
}

/// What calibration moved: by how much and which way; mm or radians.
pub(super) fn shift(shift: Shift, by: f64) -> String {
    let more = by >= 0.0;
    let mm = format!("{:.0}\u{a0}mm", by.abs());
    let deg = format!("{:.0}°", by.to_degrees().abs());
    let way = |up: &str, down: &str| if more { up.to_owned() } else { down.to_owned() };
    match shift {
        Shift::Arm => format!("arms {mm} {}", way("longer", "shorter")),
        Shift::Trunk => format!("a trunk {mm} {}", way("longer", "shorter")),
        Shift::Sit => format!("sitting {mm} {}", way("further forward", "further back")),
        Shift::Hip => format!("hips {mm} {}", way("higher", "lower")),
        Shift::Elbow => format!("elbows held {deg} {}", way("more bent", "straighter")),
        Shift::Spine => format!("a back held {deg} {}", way("rounder", "flatter")),
        Shift::Pelvis => {
            format!("a pelvis turned {deg} {}", way("further forward", "less forward"))
        }
        Shift::Protraction => format!("shoulders {mm} {}", way("further forward", "further back")),
        Shift::UpperBack => format!("an upper back {deg} {}", way("flatter", "steeper")),
        Shift::Knee => format!("knees {deg} {}", way("more bent", "straighter")),
    }
}

/// How far a joint goes, in a word.
pub(super) fn suppleness(word: Suppleness) -> &'static str {
    match word {
        Suppleness::Free => "free",
        Suppleness::Ordinary => "ordinary",
        Suppleness::Stiff => "stiff",
    }
}

/// A joint that is looked at, as it is called.
pub(super) fn looked_at(joint: Joint) -> &'static str {
    match joint {
        Joint::Spine => "back",
        Joint::Pelvis => "pelvis",
        Joint::Hip => "hip",
        Joint::Shoulder => "shoulder",
        Joint::Neck => "neck",
    }
}

pub(super) fn quantity(quantity: Quantity) -> &'static str {
    use Quantity as Q;
    match quantity {
        Q::Body(of) => item(of),
        Q::Mobility(Joint::Spine) => "range of the back",
        Q::Mobility(Joint::Pelvis) => "range of the pelvis",
        Q::Mobility(Joint::Hip) => "range of the hip",
        Q::Mobility(Joint::Shoulder) => "range of the shoulder",
        Q::Mobility(Joint::Neck) => "range of the neck",
        Q::Tape(item) => tape::item(item),
        Q::NoseUp => "bike nose up in the trainer",
        Q::HandsAhead => "hands ahead of as it came",
        Q::HandsUp => "hands above as it came",
        Q::SeenTrunk => "trunk above level, seen",
        Q::SeenElbow => "bend of the elbow, seen",
        Q::SeenNeck => "head lifted, seen",
        Q::SeenKnee => "bend of the knee at the bottom, seen",
        Q::SeenSlide => "slide forward on the saddle, seen",
        Q::Glove => "glove, off the fingers’ reach",
        Q::ComplaintScore => "score of a complaint",
        Q::AfterMinutes => "minutes until a complaint",
        Q::RideMinutes => "minutes ridden",
        Q::KmRidden => "km ridden since",
        Q::WorkMinutes => "minutes in the workshop",
        Q::PartsPrice => "price of the parts",
        Q::AimBy => "by how much it is wanted",
        Q::HourPrice => "price of an hour in the workshop",
        Q::HoursPerWeek => "hours on the bike in a week",
        Q::HandShare(place) => share(place),
        Q::BirthYear => "year of birth",
        Q::FrameStack => "frame stack",
        Q::FrameReach => "frame reach",
        Q::HeadAngle => "head angle",
        Q::SeatAngle => "seat angle",
        Q::HeadsetCover => "headset cover",
        Q::HeadTube => "head tube length",
        Q::ForkOffset => "fork offset",
        Q::WheelRadius => "wheel radius",
        Q::BottomBracketDrop => "bottom bracket drop",
        Q::RearCentre => "rear centre",
        Q::Crank => "crank length",
        Q::SaddleHeight => "saddle height",
        Q::NoseBehind => "saddle nose behind the axle",
        Q::SitFromNose => "saddle nose to where it is 80 mm wide",
        Q::SaddleTilt => "saddle tilt",
        Q::Spacers => "spacers under the stem",
        Q::StemLength => "stem length",
        Q::StemAngle => "stem angle",
        Q::StemClampHeight => "stem clamp height",
        Q::BarReach => "bar reach",
        Q::BarDrop => "bar drop",
        Q::BarWidthAtHoods => "bar width at the hoods",
        Q::BarWidthAtEnds => "bar width at the ends",
        Q::Flare => "flare",
        Q::Outsweep => "outsweep",
        Q::Backsweep => "backsweep",
        Q::Rise => "rise",
        Q::RampSlope => "ramp slope",
        Q::RampOutsweep => "ramp outsweep",
        Q::TailSlope => "tail slope",
        Q::TailLength => "tail length",
        Q::ForwardBendRadius => "radius between tops and ramp",
        Q::TubeDiameter => "tube diameter",
        Q::TopsDepth => "depth of the tops",
        Q::Proportion => "proportion of the bend",
        Q::ClampZone => "lever clamp zone from the bar end",
        Q::Tolerance => "tolerance of the bar",
        Q::Roll => "roll of the bar",
        Q::LeverAlong => "lever from the bar end",
        Q::LeverTurnIn => "turn-in of the lever",
        Q::LeverClicks => "clicks of the reach screw",
        Q::LeverShape => "place on the lever",
        Q::LeverLength => "length on the lever",
        Q::LeverAngle => "angle on the lever",
        Q::HandInDrops => "hands in the drops, towards the hoods",
    }
}

/// What stands behind a value of that quantity, no-break space included.
pub(super) fn unit(quantity: Quantity) -> &'static str {
    match (quantity, entry::unit(quantity)) {
        (Quantity::AfterMinutes | Quantity::RideMinutes | Quantity::WorkMinutes, _) => "\u{a0}min",
        (Quantity::KmRidden, _) => "\u{a0}km",
        (Quantity::HoursPerWeek, _) => "\u{a0}h",
        (Quantity::HandShare(_), _) => "\u{a0}%",
        (_, Unit::Kilogram) => "\u{a0}kg",
        (_, Unit::Degree) => "°",
        (_, Unit::One) => "",
        _ => "\u{a0}mm",
    }
}

#[cfg(test)]
mod tests {
    use crate::words::{English, Words};
    use fit_doc::{CockpitOn, Message, Place, Quantity, VisitPlace, Whole};

    /// What nobody can measure is typed anew; what was read off the bike, and a saddle that was set, are
    /// read again.
    #[test]
    fn what_is_refused_of_a_plan_is_not_measured_again() {
        let visit =
            VisitPlace { index: 0, date: fit_doc::Date::constant(2026, 4, 11), latest: true };
        let refused = |on: CockpitOn, quantity: Quantity| {
            let place = Place::from(Whole::Cockpit { on, label: "Compact 420".into() });
            let (least, most) = (0.0, 200.0);
            English.message(&Message::Refused { place, quantity, found: 500.0, least, most })
        };
        let bench = || CockpitOn::Bench { visit, position: 0 };
        assert_eq!(
            refused(bench(), Quantity::StemLength),
            "Cockpit “Compact 420”: stem length is 500\u{a0}mm, beyond what can be planned: 0 to \
             200\u{a0}mm. Type another one, and look at the unit."
        );
        let ahead = refused(CockpitOn::Nothing, Quantity::HandsAhead);
        assert!(ahead.contains("beyond what can be planned"), "{ahead}");
        for (on, quantity) in
            [(CockpitOn::Came(visit), Quantity::StemLength), (bench(), Quantity::SaddleHeight)]
        {
            let said = refused(on, quantity);
            assert!(said.contains("which cannot be right; expected 0 to 200"), "{said}");
            assert!(said.ends_with("Measure again, and look at the unit."), "{said}");
        }
    }
}
