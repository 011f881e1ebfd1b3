//! What brings a client, in English: names, what is ruled out, what is tried, what must be said.
//!
//! Nothing here names a disease or promises less pain; whoever may be hurt is sent on.

use super::names;
use fit_doc::concern::{Attempt, Held, Outcome, Said};
use fit_doc::{
    Concern, Corrected, Helmet, Liking, Looked, Ride, RideScore, RuleOut, SendOn, Where,
};

pub(super) fn concern(concern: Concern) -> &'static str {
    match concern {
        Concern::Neck => "neck",
        Concern::Shoulders => "shoulders",
        Concern::Arms => "elbows and forearms",
        Concern::Hands => "hands and fingers",
        Concern::LowBack => "low back",
        Concern::Hips => "hips and groin",
        Concern::Seat => "where the saddle bears",
        Concern::Knees => "knees",
        Concern::Feet => "feet",
        Concern::BrakesFromDrops => "brakes from the drops",
        Concern::BrakesFromHoods => "brakes from the hoods",
        Concern::Stretched => "stretched",
        Concern::Cramped => "cramped",
        Concern::Unsteady => "unsteady on descents",
        Concern::DropsUnused => "drops not used",
        Concern::Slimmer => "wants to be slimmer",
        Concern::SmallRider => "small adult or child",
        Concern::NewBar => "wants a new bar",
    }
}

/// A place on the body with its side: "left knee".
pub(super) fn on_body(about: Concern, side: Where) -> String {
    let one = match about {
        Concern::Shoulders => "shoulder",
        Concern::Arms => "elbow and forearm",
        Concern::Hands => "hand",
        Concern::Hips => "hip",
        Concern::Knees => "knee",
        Concern::Feet => "foot",
        Concern::Seat => "side where the saddle bears",
        other => concern(other),
    };
    match side {
        Where::Left => format!("left {one}"),
        Where::Right => format!("right {one}"),
        Where::Both => concern(about).to_owned(),
    }
}

/// What is looked at, as a fitter would ask it.
pub(super) fn rule_out(item: RuleOut) -> &'static str {
    match item {
        RuleOut::Cleats => "cleats",
        RuleOut::SaddleHeight => "saddle height (knee about 30 ± 5° at the bottom, standing still)",
        RuleOut::SaddleTilt => "saddle tilt (nose not down by more than 2°, not up)",
        RuleOut::SaddleSetback => "saddle not too far forward or back",
        RuleOut::SaddleWidth => "saddle width",
        RuleOut::Shorts => "shorts",
        RuleOut::LegDifference => "legs of one length",
        RuleOut::ReachScrew => "reach screw set for this hand",
        RuleOut::BrakeStroke => "blade bites in time",
        RuleOut::Gloves => "gloves",
        RuleOut::HandInHook => "where the hand sits in the hook",
        RuleOut::LeverPlace => "lever not too high on the bend, not turned",
        RuleOut::LockedElbows => "elbows not locked (10° of bend at least)",
        RuleOut::TyrePressure => "tyres not too hard",
        RuleOut::KnownNerveTrouble => "no nerve trouble that is known",
        RuleOut::Glasses => "glasses: looks through them, not under the rim",
        RuleOut::HelmetPeak => "helmet’s peak out of sight",
        RuleOut::Shrugging => "shoulders not drawn up",
        RuleOut::SuddenMileage => "no sudden mileage",
        RuleOut::OldInjury => "no old injury of collarbone or shoulder",
        RuleOut::OneSide => "one side only?",
        RuleOut::HandsOnTips => "hands not on the tips of the hoods",
        RuleOut::LongFrame => "frame not too long",
        RuleOut::Headset => "headset neither loose nor notched",
        RuleOut::Tyres => "tyres sound and hard enough",
        RuleOut::Wheels => "wheels true, no loose spokes",
        RuleOut::BrakesReached => "brakes within reach",
        RuleOut::Fear => "fear",
        RuleOut::WhichLimit => "which limit: brakes, neck, hip or belly, wrist, fear",
        RuleOut::HoldsDrops => "holds the drops for a minute",
        RuleOut::HoldsPosture => "holds the present posture for 20 minutes",
        RuleOut::NeckAndHipLeft => "neck and hip have some range left",
        RuleOut::EventRules => "rules of the events that are ridden",
        RuleOut::Traffic => "rides in traffic",
        RuleOut::FrameSize => "size of the frame",
        RuleOut::Cranks => "length of the cranks",
    }
}

pub(super) fn looked(looked: Looked) -> &'static str {
    match looked {
        Looked::Done => "done",
        Looked::Changed => "changed",
        Looked::NotNow => "not now",
    }
}

/// What the client makes of a trial.
pub(super) fn liking(liking: Liking) -> &'static str {
    match liking {
        Liking::Likes => "likes it",
        Liking::Unsure => "cannot say",
        Liking::Dislikes => "does not like it",
    }
}

/// A trial in a line: what was ridden, where that is not plain, how long, each complaint before and after,
/// whether it is liked.
pub(super) fn ride(number: usize, label: Option<&str>, ride: &Ride) -> String {
    let scored = ride.scores.iter().filter_map(|score| {
        let of = score_of(*score);
        score.after.map(|after| match score.before {
            Some(before) => format!("{of} {before} to {after}"),
            None => format!("{of} {after} after it"),
        })
    });
    let minutes = ride.minutes.map(|minutes| format!("{minutes}\u{a0}min"));
    let all = label.map(str::to_owned).into_iter().chain(minutes).chain(scored);
    let all: Vec<String> = all.chain(ride.likes.map(|of| liking(of).to_owned())).collect();
    let before =
        corrected(&ride.corrected).map_or_else(String::new, |before| format!(", {before}"));
    if all.len() == usize::from(label.is_some()) {
        let whose = label.map_or_else(String::new, |label| format!("{label}, "));
        return format!("{number}  {whose}nothing was said of it{before}");
    }
    format!("{number}  {}{before}", all.join(", "))
}

/// What was put right since a trial was foretold; none: nothing.
pub(super) fn corrected(all: &[Corrected]) -> Option<String> {
    let name = |of: &Corrected| match of {
        Corrected::Frame => "the frame",
        Corrected::Body => "readings of the body",
        Corrected::Seen => "what was seen",
    };
    let were = match all {
        [] => return None,
        [Corrected::Frame | Corrected::Seen] => "was",
        _ => "were",
    };
    let names: Vec<&str> = all.iter().map(name).collect();
    Some(format!("foretold before {} {were} put right", names.join(" and ")))
}

/// A complaint that is scored on a trial: "left knee in the drops".
pub(super) fn score_of(score: RideScore) -> String {
    let about = on_body(score.about, score.side);
    score.place.map_or(about.clone(), |place| format!("{about} {}", names::with_hands(place)))
}

/// How bad a complaint is after a trial.
pub(super) fn scored(label: &str, score: RideScore) -> String {
    let after = score.after.map_or("not asked".to_owned(), |after| after.to_string());
    format!("{label}, {}: {after}", score_of(score))
}

/// What is worn on the head.
pub(super) fn helmet(of: Helmet) -> &'static str {
    match of {
        Helmet::WithPeak => "helmet with a peak",
        Helmet::WithoutPeak => "helmet without a peak",
        Helmet::BareHead => "no helmet",
    }
}

/// What is tried, with its size.
pub(super) fn attempt(attempt: Attempt) -> &'static str {
    match attempt {
        Attempt::SaddleLevel => "saddle tilt to 0…−1°",
        Attempt::SaddleBack => "saddle back 5–10 mm",
        Attempt::SaddleHeight => "saddle height, 5 mm at a time",
        Attempt::SaddleSetback => "saddle forward or back, 5 mm at a time",
        Attempt::Cleats => "cleats",
        Attempt::ShorterCranks => "shorter cranks",
        Attempt::ReachScrew => "reach screw: blade 5–15 mm nearer",
        Attempt::ReachScrewFromHoods => {
            "reach screw: from the hoods 1 mm at most as computed here, so it is tried and not counted on"
        }
        Attempt::HandFurtherForward => "hand further forward in the hook",
        Attempt::LeverDown => "lever 5–10 mm down the bend: 3–6 mm nearer, new tape",
        Attempt::LeverBack => "levers back",
        Attempt::LeverTurnedIn => "levers turned in 3–5°",
        Attempt::OtherLever => "another lever",
        Attempt::SmallHandLever => "lever for small hands",
        Attempt::ThickerTape => "tape of 3–4 mm",
        Attempt::FlatterTransition => "ramp and hood nearer to one line, 10° at most",
        Attempt::RollTailDown => "roll until the ends fall 5–10° to the rear",
        Attempt::BarUp => "bar up 10–20 mm",
        Attempt::BarUpForNeck => "bar up 10–20 mm (stiff or older 30–40)",
        Attempt::BarUpALittle => "bar up 10 mm",
        Attempt::BarUpShortens => "bar up 10 mm, which is 3 mm nearer as well",
        Attempt::BarDown => "bar down 5–10 mm",
        Attempt::BarDownStepwise => "bar down 10 mm at a time",
        Attempt::Nearer => "10 mm nearer",
        Attempt::NearerIfLocked => "10 mm nearer, if the elbows are bent by less than 10°",
        Attempt::NearerToBendElbows => "elbows to 15–25° of bend: 10–20 mm nearer",
        Attempt::FurtherIfCramped => "10 mm further instead, if cramped",
        Attempt::HoodsIfSliding => {
            "the bar last: hoods up 10–20 mm or back 10 mm, if the client slides forward"
        }
        Attempt::StemShorter => "else a stem 10 mm shorter, then 20 mm",
        Attempt::StemLonger => "stem 10 mm longer",
        Attempt::ShallowerShorterBar => {
            "shallower, shorter bar: 0–2 mm where the hand is held alike, 5–8 mm for each 10° that it \
             then sits further forward"
        }
        Attempt::ShallowerDrop => "drop 15–30 mm less, hoods where they are",
        Attempt::ShallowerDropHoodsHeld => "drop 20–30 mm less, hoods where they are",
        Attempt::ShorterReachBar => {
            "bar of 80 mm reach at most, if it is 85 or more and drops or brakes are bad too"
        }
        Attempt::LongerReachBar => "bar reach 10 mm more",
        Attempt::BarWiderOrNarrower => "width towards the shoulders, 20 mm at a time",
        Attempt::WiderBar => "bar 20 mm wider",
        Attempt::NarrowerBar => "bar 20 mm narrower at a time, not under the shoulders less 60",
        Attempt::Flare => "flare",
        Attempt::SmallBar => "reach 70 mm, drop 110 mm at most, width 340–380 mm",
        Attempt::BentElbows => "bent elbows: costs nothing",
        Attempt::BrakesAndDropsFirst => "first brakes and drops that can be used",
        Attempt::MatchHoods => "bring the hoods to where they were",
        Attempt::KeepTheRest => "keep the rest",
    }
}

/// What must be said with it.
pub(super) fn said(said: Said) -> &'static str {
    match said {
        Said::NothingAtTheStem => {
            "Stem, spacers and roll change the way to the blade by 0 mm: it is between hook and lever."
        }
        Said::LessStroke => {
            "A blade set nearer has less stroke: at a hard squeeze 15 mm must stay to the bar. Try it on \
             the stand, as the brake’s maker says."
        }
        Said::NotTheBarFromHoods => {
            "From the hoods no bar changes the brake by as much as 2 mm: not the bar."
        }
        Said::BarAloneRarely => {
            "From a deep bend to a compact one is about 2° of trunk in the drops, next to nothing on the \
             hoods: a bar alone rarely changes what the neck does there."
        }
        Said::BothSides => "On one side only: left and right are looked at, the worse one counts.",
        Said::SaddleFirst => "Not the bar until the saddle is excluded.",
        Said::LoadOnHands => {
            "Hands carry what the saddle sends forward: a nose that points down is put right first."
        }
        Said::ShortStem => {
            "A stem under 70 mm on the road, 50 mm off it, is a question of the frame, not of the bar."
        }
        Said::WatchTheHip => {
            "Hands nearer or lower close the hip: look at thigh and trunk as well."
        }
        Said::WobbleFirst => {
            "A wobble at speed: mechanic first. No number here tells how steady a bike is."
        }
        Said::StemNotUnder80 => "On the road no stem under 80 mm for it.",
        Said::RaisingLiftsHoods => "Raising the stem lifts the hoods by the same.",
        Said::StopWhen => "Stop when brakes, hip or neck run out.",
        Said::MeasureChildren => "Children are measured, never estimated; leave room to grow.",
        Said::KeepIsAnAnswer => "One answer is to keep what there is",
        Said::NotTheHands => "Where the hands are has little to do with it: not the bar.",
    }
}

/// What the client is asked, as a fitter would put it.
pub(super) fn red_flag(of: SendOn) -> &'static str {
    match of {
        SendOn::NumbForDays => "numb for more than 48 hours after a ride",
        SendOn::Weakness => "arm or hand is weak",
        SendOn::ArmPain => "pain runs down the arm",
        SendOn::Dizziness => "dizzy on looking up",
        SendOn::SaddleNumbness => "numb from the saddle, and it lasts",
        SendOn::LegAndBladder => "pain in the leg with weakness, or trouble with the bladder",
        SendOn::PainAtRest => "hurts at rest too, or did before the bike",
        SendOn::Mechanic => "the bike wobbles, or a part is worn or damaged",
        SendOn::BrakeMechanic => "brakes are set otherwise",
        SendOn::Organiser => "events are ridden",
    }
}

/// Where it sends the client.
pub(super) fn send_on(to: SendOn) -> &'static str {
    match to {
        SendOn::LegAndBladder => {
            "Stop here. Leg pain with weakness, or trouble with the bladder, is urgent: to a doctor today."
        }
        SendOn::NumbForDays => {
            "Numb for more than 48 hours: to a health professional, before anything is changed for it."
        }
        SendOn::Weakness => "Weak arm or hand: to a health professional.",
        SendOn::ArmPain => "Pain that runs down the arm: to a health professional.",
        SendOn::Dizziness => {
            "Dizzy on looking up: to a health professional, before anything is changed for the neck or the head \
             is lifted any further."
        }
        SendOn::SaddleNumbness => "Numbness in the saddle that lasts: to a health professional.",
        SendOn::PainAtRest => {
            "Pain at rest, or older than the bike: to a health professional as well."
        }
        SendOn::Mechanic => {
            "What wobbles, is worn or damaged: to a qualified mechanic, before it is ridden again."
        }
        SendOn::BrakeMechanic => {
            "Brakes are set by a qualified mechanic, as their maker says, and tried before the first ride."
        }
        SendOn::Organiser => "Ask those who run the event which rules hold on the day.",
    }
}

pub(super) fn outcome(outcome: Outcome) -> &'static str {
    match outcome {
        Outcome::Cockpit => "another set-up",
        Outcome::AsItIs => "as it is",
        Outcome::NotTheBar => "not the bar",
        Outcome::TheFrame => "the frame, not the bar",
    }
}

/// Why nothing is said of the bar yet.
pub(super) fn held_back(held: Held) -> String {
    let (by, next) = (concern(held.by), of_the_saddle(held.next));
    format!("The saddle first ({by}): look at {next}. Other bars wait for it.")
}

/// What of the saddle is looked at next.
pub(super) const fn of_the_saddle(item: RuleOut) -> &'static str {
    match item {
        RuleOut::Cleats => "the cleats",
        RuleOut::SaddleHeight => "the height of the saddle",
        RuleOut::SaddleTilt => "the tilt of the saddle",
        _ => "how far back the saddle is",
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Every text of this page.
    fn texts() -> Vec<String> {
        let named = Concern::ALL.map(concern);
        let looked_at = RuleOut::ALL.map(rule_out);
        let (tried, told) = (Attempt::ALL.map(attempt), Said::ALL.map(said));
        let lists = [&named[..], &looked_at, &tried, &told].concat();
        let mut all: Vec<String> = lists.into_iter().map(str::to_owned).collect();
        let mut add = |text: &str| all.push(text.to_owned());
        for of in SendOn::ALL {
            add(red_flag(of));
            add(send_on(of));
        }
        for next in RuleOut::SADDLE {
            add(&held_back(Held { by: Concern::Neck, next }));
        }
        all
    }

    /// Pieces that promise something, or name a disease.
    const NEVER: [&str; 38] = [
        "cure",
        "heal",
        "relie",
        "less pain",
        "pain-free",
        "painless",
        "no more pain",
        "hurts less",
        "hurt less",
        "aches less",
        "less numb",
        "less sore",
        "less discomfort",
        "no longer hurt",
        "stops hurting",
        "goes away",
        "go away",
        "vanish",
        "disappear",
        "eases",
        " ease ",
        "sooth",
        "alleviat",
        "lessens",
        "comfort",
        "improve",
        "will help",
        "fixes",
        "guarantee",
        "better in",
        "syndrome",
        "carpal",
        "arthr",
        "hernia",
        "diagnos",
        "score of",
        "stability",
        "feels better",
    ];

    fn promised(text: &str) -> Option<&'static str> {
        let small = text.to_lowercase().replace("health", "");
        NEVER.into_iter().find(|piece| small.contains(piece))
    }

    #[test]
    fn no_wording_promises_less_pain_or_names_a_disease() {
        for text in texts() {
            assert_eq!(promised(&text), None, "{text}");
        }
        for planted in [
            "hurts less",
            "bar up 10 mm, which eases the neck",
            "The pain goes away.",
            "to ease the hands",
            "Hands that are less numb",
        ] {
            assert!(promised(planted).is_some(), "{planted}");
        }
    }

    #[test]
    fn every_text_is_its_own() {
        let all = texts();
        for (at, text) in all.iter().enumerate() {
            assert!(!text.trim().is_empty());
            // a thing may be called the same when it is looked at and when it is tried
            let twice = all[..at].iter().filter(|other| *other == text).count();
            assert!(twice == 0 || text == "cleats", "{text}");
        }
    }

    #[test]
    fn whoever_may_be_hurt_is_sent_to_somebody() {
        for to in SendOn::RED_FLAGS {
            let text = send_on(to);
            assert!(
                ["health professional", "doctor"].iter().any(|who| text.contains(who)),
                "{text}"
            );
            assert_eq!(to.stops(), text.starts_with("Stop here"), "{text}");
        }
        for to in SendOn::ALL {
            let whom = ["health professional", "doctor", "mechanic", "those who run"];
            assert!(whom.iter().any(|who| send_on(to).contains(who)), "{to:?}");
        }
    }
}
