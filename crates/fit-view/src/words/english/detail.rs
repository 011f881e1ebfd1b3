//! What stands behind the differences, in English.

use super::{names, number};
use crate::words::DetailText;
use fit_doc::HandPlace;
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
            "Lever and screw alone decide from the hoods; no bar changes it.".to_owned()
        }
        T::Room => "Room for the palm".to_owned(),
        T::RoomColumn => "there is".to_owned(),
        T::VerdictColumn => String::new(),
        T::Palm(PalmPlace::Hook) => "along the hook".to_owned(),
        T::Palm(PalmPlace::AcrossTheHook) => "across the hook".to_owned(),
        T::Palm(PalmPlace::Flat) => "on the flat".to_owned(),
        T::Fits => "fits".to_owned(),
        T::TooLittle { mm: missing } => format!("{} too little", mm(missing)),
        T::Close => "What comes close in the drops".to_owned(),
        T::DistanceColumn => "skin to tape".to_owned(),
        T::Between(between, of) => {
            let what = match between {
                Close::ForearmToTops => "forearm and tops",
                Close::WristToRamp => "wrist and ramp",
                Close::KneeToBarEnd => "knee and bar end",
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
