//! What stands behind the differences, in English.

use super::{English, names, number};
use crate::words::{DetailText, DoubtWords};
use fit_doc::{EventNumber, HandPlace};
use fit_math::frame::Side;
use fit_math::hand::{Close, CoverKnown, PalmPlace};
use fit_math::posture::Joint;
use fit_units::Unit;

fn mm(amount: i64) -> String {
    number::whole(amount, Unit::Millimetre)
}

const fn side(of: Side) -> &'static str {
    match of {
        Side::Left => "left",
        Side::Right => "right",
    }
}

const fn palm(place: PalmPlace) -> &'static str {
    match place {
        PalmPlace::Hook => "along the hook",
        PalmPlace::AcrossTheHook => "across the hook",
        PalmPlace::Flat => "on the flat",
    }
}

/// A head of a column, of one side or of both.
fn column(what: &str, of: Option<Side>) -> String {
    of.map_or_else(|| what.to_owned(), |of| format!("{what}, {}", side(of)))
}

/// "Both hands", "The left hand".
fn hand(of: Option<Side>, one: &str, both: &str) -> String {
    match of {
        None => format!("Both hands {both}"),
        Some(of) => format!("The {} hand {one}", side(of)),
    }
}

fn clicks(count: u32) -> String {
    match count {
        0 => "as delivered".to_owned(),
        1 => "1 click in".to_owned(),
        count => format!("{count} clicks in"),
    }
}

/// "3 % more", "3 % less".
fn more_or_less(amount: i64, shown: impl Fn(u64) -> String) -> String {
    let way = if amount < 0 { "less" } else { "more" };
    format!("{} {way}", shown(amount.unsigned_abs()))
}

/// "1 to 3 W more" of a range on one side of nought.
fn between([least, most]: [i64; 2], unit: &str, ways: [&str; 2]) -> String {
    let way = ways[usize::from(least.saturating_add(most) < 0)];
    let (a, b) = (least.unsigned_abs(), most.unsigned_abs());
    let (low, high) = (a.min(b), a.max(b));
    match (low, high) {
        (_, 0) => format!("less than 1\u{a0}{unit} {way}"),
        (0, _) => format!("up to {high}\u{a0}{unit} {way}"),
        _ if low == high => format!("{high}\u{a0}{unit} {way}"),
        _ => format!("{low} to {high}\u{a0}{unit} {way}"),
    }
}

#[expect(clippy::too_many_lines, reason = "an arm for each text")]
pub(super) fn text(text: DetailText) -> String {
    use DetailText as T;
    match text {
        T::Bracket => "How this client may take the change".to_owned(),
        T::TrunkColumn => "trunk above level".to_owned(),
        T::ElbowColumn => "straighter elbow".to_owned(),
        T::CameRow => "as it came".to_owned(),
        T::ByTrunkRow => "all by the trunk".to_owned(),
        T::ModelRow => "the model’s guess".to_owned(),
        T::ByElbowsRow => "all by the elbows".to_owned(),
        T::BracketMeans => "A change of the hands can go into the trunk or into the elbows. Which, is \
                            a habit: look while the client rides."
            .to_owned(),
        T::RestByTrunk => {
            "The elbows alone cannot take it all: they would be straight, and the trunk takes the rest."
                .to_owned()
        }
        T::BracketShort { mm: short } => {
            format!("At one end the hands would miss the bar by {}.", mm(short))
        }
        T::Joints => "Joints whose range is known".to_owned(),
        T::NeededColumn => "asked for".to_owned(),
        T::GoesToColumn => "goes to".to_owned(),
        T::LeftColumn => "left".to_owned(),
        T::Joint(Joint::Shoulder(of)) => format!("{} shoulder", side(of)),
        T::Joint(joint) => names::joint(joint).to_owned(),
        T::ShareLeft { percent } if percent < -100 => "far past it".to_owned(),
        T::ShareLeft { percent } if percent < 0 => format!("past by {}\u{a0}%", -percent),
        T::ShareLeft { percent } => format!("{percent}\u{a0}%"),
        T::Sides => "Left and right".to_owned(),
        T::SideColumn(of) => side(of).to_owned(),
        T::Elbow => "Bend of the elbow".to_owned(),
        T::UpperArm => "Upper arm from the trunk’s line".to_owned(),
        T::Brake(place) => format!("Brake {}, by the reach screw", reached_from(place)),
        T::SpanColumn => "needed".to_owned(),
        T::SpareColumn(of) => column(of.map_or("to spare", |_| "spare"), of),
        T::SqueezeColumn => "blade–bar".to_owned(),
        T::Setting { clicks: count, now } => {
            format!("{}{}", clicks(count), if now { " (now)" } else { "" })
        }
        T::Cover { side: of, mm: covers, sd_mm, known } => {
            let how = match known {
                CoverKnown::Estimated => "from the hand’s length",
                CoverKnown::Observed => "as seen at the lever",
                CoverKnown::Contradicted => "midway: what was seen contradicts itself",
            };
            format!("{} {} ± {sd_mm}, {how}.", hand(of, "covers", "cover"), mm(covers))
        }
        T::Works { side: of, clicks: count, already } => {
            let from = if already {
                "reach it as the levers stand".to_owned()
            } else {
                format!("reach it from {} on", clicks(count))
            };
            let one = from.replacen("reach", "reaches", 1);
            format!("{}.", hand(of, &one, &from))
        }
        T::TooNearTheBar { side: of, clicks: count, gap_mm } => {
            let rest = format!(
                "it with {}, but a hard squeeze then leaves {} of the 15 that must stay: try it on the \
                 stand.",
                clicks(count),
                mm(gap_mm)
            );
            hand(of, &format!("reaches {rest}"), &format!("reach {rest}"))
        }
        T::NoneReaches { side: of, clicks: count, short_mm } => {
            let rest = format!(
                "by no setting: {}, {} are missing.",
                clicks(count),
                mm(short_mm)
            );
            hand(of, &format!("gets there {rest}"), &format!("get there {rest}"))
        }
        T::HandUp { mm: up } => {
            format!("With the screw as it is a hand {} further up the hook reaches.", mm(up))
        }
        T::NowhereInTheHook => {
            "With the screw as it is no place in the hook is near enough.".to_owned()
        }
        T::LeverDown { mm: down, nearer_mm } => format!(
            "A lever {} further down the bend comes {} nearer; the bar is taped anew.",
            mm(down),
            mm(nearer_mm)
        ),
        T::BrakeLaw => "Stem, spacers and roll change none of this, and at one place in the hook \
                        the bend hardly does."
            .to_owned(),
        T::BrakeLawHoods => {
            "No bar changes it from the hoods. There the blade turns under the hand: the screw moves it by a \
             millimetre or two either way, which speaks neither for nor against a setting; whether the \
             fingers find it better is tried on the stand."
                .to_owned()
        }
        T::Room => "Room for the palm".to_owned(),
        T::RoomColumn => "there is".to_owned(),
        T::VerdictColumn => String::new(),
        T::Palm(place) => palm(place).to_owned(),
        T::Fits => "fits".to_owned(),
        T::TooLittle { mm: missing } => format!("{} too little", mm(missing)),
        T::RoomMeans { palm_mm, beside_mm } => format!(
            "The palm is {} broad: along hook and flat, between lever and bar end, it needs {} more, across \
             the hook its breadth alone.",
            mm(palm_mm),
            mm(beside_mm)
        ),
        T::PalmLacks { place, mm: missing } => {
            format!("Palm lacks {} {}", mm(missing), palm(place))
        }
        T::PalmNeeds { place, room_mm, needed_mm, palm_mm } => {
            let why = match needed_mm - palm_mm {
                beside if beside > 0 => format!(" with {} beside it", mm(beside)),
                _ => String::new(),
            };
            format!(
                "There are {} for the palm {}, and {} are needed: it is {} broad{why}",
                mm(room_mm),
                palm(place),
                mm(needed_mm),
                mm(palm_mm)
            )
        }
        T::Wind => "In the wind".to_owned(),
        T::AgainstCame => "against as it came".to_owned(),
        T::Outline => "outline from the front".to_owned(),
        T::Area { cm2, percent: 0 } => more_or_less(cm2, |cm2| format!("{cm2}\u{a0}cm²")),
        T::Area { cm2, percent } => {
            let share = percent.saturating_abs();
            format!("{} ({share}\u{a0}%)", more_or_less(cm2, |cm2| format!("{cm2}\u{a0}cm²")))
        }
        T::NotReckoned => "not reckoned near a joint’s limit".to_owned(),
        T::TooSmall => English.too_small().to_owned(),
        T::Holding { km_h } => format!("holding {km_h}\u{a0}km/h"),
        T::PowerMore(range) => between(range, "W", ["more", "less"]),
        T::AnHour { km_h } => format!("an hour’s way at {km_h}\u{a0}km/h"),
        T::Longer(range) => between(range, "s", ["longer", "shorter"]),
        T::WindMeans => "Reckoned for a level road, still air of 20\u{a0}°C at sea level, level cranks and a \
                         helmet. How a body’s outline slows it differs from body to body: hence from \
                         and to. Hoods and drops are not compared here."
            .to_owned(),
        T::Load => "Weight on hands and wheels".to_owned(),
        T::OnHands => "on both hands".to_owned(),
        T::PercentMore(percent) => more_or_less(percent, |of| format!("{of}\u{a0}%")),
        T::OnFrontWheel => "on the front wheel".to_owned(),
        T::FrontShare { percent, more: None } => format!("{percent}\u{a0}% of all"),
        T::FrontShare { percent, more: Some(more) } => {
            format!("{percent}\u{a0}% of all, {}", more_or_less(more, |of| of.to_string()))
        }
        T::FrontTooLight => "Less than a quarter of the weight on the front wheel: bicycles are not sold so \
                             (ISO 4210-2, from memory). Have the frame’s numbers and the saddle’s place \
                             looked at."
            .to_owned(),
        T::LoadMeans => "Reckoned for a client who sits still and leaves the back at rest. Pushing on the \
                         pedals takes weight off the hands, and so does a back that works."
            .to_owned(),
        T::Steering => "Steering".to_owned(),
        T::Effort => "effort to steer".to_owned(),
        T::AheadOfAxis => "hands ahead of the steering axis".to_owned(),
        T::Trail => "trail".to_owned(),
        T::Flop => "wheel flop".to_owned(),
        T::SteeringMeans => "Trail and flop are the frame’s and the fork’s: no cockpit changes them. How \
                             steady a bike feels cannot be read off any of this: let the client ride."
            .to_owned(),
        T::Events => "Rules of mass-start events".to_owned(),
        T::AskedColumn => "asked".to_owned(),
        T::Event(number) => match number {
            EventNumber::Width => "width outside, at the widest",
            EventNumber::Flare => "an end out beyond its hood",
            EventNumber::BetweenLevers => "between the levers",
        }
        .to_owned(),
        T::EventAsks { number: EventNumber::Flare, mm: most } => format!("{} at most", mm(most)),
        T::EventAsks { mm: least, .. } => format!("{} or more", mm(least)),
        T::EventsMean => "From 2026 on, road and cyclo-cross, from memory: the organiser’s own text \
                          decides."
            .to_owned(),
        T::Close => "What comes close in the drops".to_owned(),
        T::DistanceColumn => "between them".to_owned(),
        T::Between(between, of) => {
            let what = match between {
                Close::ForearmToTops => "forearm and tops",
                Close::WristToRamp => "wrist and ramp",
                Close::KneeToBarEnd => "knee and bar end",
                Close::ThighToBelly => "thigh and belly",
            };
            column(what, of)
        }
        T::Distance { mm: distance, sd_mm } => format!("{} ± {sd_mm}", mm(distance)),
        T::AsBefore => "as before".to_owned(),
        T::Nearer { mm: nearer } if nearer > 0 => format!("{} nearer", mm(nearer)),
        T::Nearer { mm: nearer } => format!("{} further", mm(-nearer)),
        T::CloseMeans => "Limbs are taken as round and of usual girth: a reason to look, no more. \
                          Standing up and turning the bar bring knees nearer."
            .to_owned(),
    }
}

const fn reached_from(place: HandPlace) -> &'static str {
    match place {
        HandPlace::Hoods | HandPlace::BentElbowHoods => "from the hoods",
        HandPlace::Drops => "from the drops",
        HandPlace::Tops | HandPlace::Ramps | HandPlace::Ends => "",
    }
}
