//! What is said of answers to a search of the shop, in English: facts with their numbers, no promise.

use super::counted::{self, ways};
use super::{English, concern, decide, names, number, picture};
use crate::choose::{
    Answer, AxisOf, Bears, Counted, GivenUp, NoSearch, NotOffered, Point, Quick, Reason, Source,
    Step,
};
use crate::table::{Axis, Cell, Change, Doubt, Question, whole};
use crate::weigh::NotAsRead;
use crate::words::{ChoiceWords, DoubtWords, LaterWords as _, Setting, VisitWords, Words};
use fit_doc::edit::levers_on_another_bar_mm;
use fit_doc::work::{Job, Work};
use fit_doc::{Aim, Cockpit, Counts, EventNumber, HandPlace, Quantity, Stays, Wanted};
use fit_math::choose::Why;
use fit_units::Unit;

impl ChoiceWords for English {
    fn job_makes(&self, job: Job, base: &Cockpit, to: &Cockpit) -> String {
        let value = |setting: Setting| self.sheet_value(setting, to).unwrap_or_default();
        match job {
            Job::OtherBar => {
                let (bar, width) = (&to.bar, mm(whole(to.bar.width_mm)));
                format!("Bar {}, {width}{}", bar.name, picture::measured(bar))
            }
            Job::OtherStem => format!("Stem {}", value(Setting::Stem)),
            Job::StemTurned => "Stem turned over".to_owned(),
            Job::Spacers => format!("Spacers {}", value(Setting::Spacers)),
            Job::Roll => format!("Roll {}", value(Setting::Roll)),
            Job::LeverAlong => format!("Levers {}", lever_way(base, to)),
            Job::TurnIn => "Levers turned in".to_owned(),
            Job::ReachScrew => screws_in(base, to),
            Job::HandInDrops => {
                let by = whole(to.drops_hand_mm - base.drops_hand_mm);
                format!("Hands {} further forward in the drops", mm(by))
            }
            Job::OtherLevers => to
                .levers
                .as_ref()
                .map_or_else(|| "No levers".to_owned(), |levers| levers.lever.name.clone()),
            Job::SaddleHeight | Job::SaddleTilt | Job::SaddleSetback => "Saddle".to_owned(),
        }
    }

    fn answer_title(&self, work: &Work, base: &Cockpit, to: &Cockpit) -> String {
        let said: Vec<Job> = work.steps.iter().map(|step| step.job).collect();
        // with another bar these are set anew, which is no job of its own
        let roll = to.roll_deg != base.roll_deg && to.bar.one_piece.is_none();
        let screwed = clicks_in(base, to).is_some_and(|sides| sides.iter().any(|by| *by > 0));
        let set_mm = levers_on_another_bar_mm(base, to).map_or(0, whole);
        let set = set_mm.abs() >= FELT_LEVER_MM && said.contains(&Job::OtherBar);
        let besides = [(Job::LeverAlong, set), (Job::Roll, roll), (Job::ReachScrew, screwed)];
        let besides = besides.into_iter().filter(|(job, is)| *is && !said.contains(job));
        let jobs = said.iter().copied().chain(besides.map(|(job, _)| job));
        let all: Vec<String> = jobs.map(|job| lower(&self.job_makes(job, base, to))).collect();
        names::capital(&all.join(", "))
    }

    fn answer(&self, of: &Answer, base: &Cockpit) -> String {
        match (of.step, &of.cockpit) {
            (Step::AsItIs, _) => "Leave it as it is".to_owned(),
            (Step::Saddle, _) => "The saddle first".to_owned(),
            (Step::NotTheBar, _) => "Not the bar".to_owned(),
            (Step::TheFrame, _) => "The frame, not the bar".to_owned(),
            (Step::PutBack(_), Some(to)) => {
                let title = self.answer_title(&of.work, base, to);
                format!("Put back what slipped: {}", lower(&title))
            }
            (Step::Cockpit(_), Some(to)) => self.answer_title(&of.work, base, to),
            (Step::Cockpit(job) | Step::PutBack(job), None) => decide::job(job).to_owned(),
        }
    }

    fn aim(&self, aim: Aim) -> &'static str {
        match aim {
            Aim::ReachBrakes => "brakes within reach",
            Aim::EaseDrops => "drops that can be held",
            Aim::EaseNeck => "less lift for the neck",
            Aim::EaseBack => "a higher trunk",
            Aim::BendElbows => "elbows not locked",
            Aim::Nearer => "hands nearer",
            Aim::Further => "hands further away",
            Aim::LikeShoulders => "as wide as the shoulders",
            Aim::Slimmer => "slimmer in the wind",
            Aim::EasierToSteer => "less effort to steer",
            Aim::HoodsStay => "hoods where they are",
            Aim::LikeOtherBike => "hoods as on the other bike",
        }
    }

    fn wanted(&self, of: &Wanted) -> String {
        let aim = self.aim(of.aim);
        let by = of.by_mm.map(|by| format!(" by {}", mm(whole(by)))).unwrap_or_default();
        match of.place {
            Some(place) => format!("{aim}{by}, {}", names::with_hands(place)),
            None => format!("{aim}{by}"),
        }
    }

    fn counts(&self, counts: Counts) -> &'static str {
        match counts {
            Counts::Little => "a little",
            Counts::Ordinary => "as others",
            Counts::Much => "most",
        }
    }

    fn stays(&self, what: Stays) -> &'static str {
        match what {
            Stays::LeverPlace => "lever place",
            Stays::LeverKind => "kind of lever",
            Stays::Roll => "roll",
            Stays::Spacers => "spacers",
            Stays::Stem => "stem",
            Stays::Bar => "bar",
        }
    }

    fn least_of(&self, quantity: Quantity) -> String {
        format!("at least: {}", names::quantity(quantity))
    }

    fn at_least(&self, what: &str) -> String {
        format!("{what} from")
    }

    fn at_most(&self, what: &str) -> String {
        format!("{what} up to")
    }

    fn most_of(&self, quantity: Quantity) -> String {
        format!("at most: {}", names::quantity(quantity))
    }

    fn quick(&self, quick: Quick) -> &'static str {
        match quick {
            Quick::ShallowerDrop => "Same hoods, shallower drop",
            Quick::BarNotStem => "A bar, the stem stays",
            Quick::RaiseInstead => "Raise it, the bar stays",
            Quick::Narrower => "One size narrower",
            Quick::Wider => "One size wider",
            Quick::OtherBike => "Hoods as on the other bike",
        }
    }

    fn balanced(&self, axes: [AxisOf; 2], point: &Point, label: &str) -> String {
        let (values, small) = (point.values, point.too_small());
        let along = |at: usize| match axes[at] {
            AxisOf::Minutes => {
                number::whole(values[at], Unit::One).trim_end().to_owned() + "\u{a0}min"
            }
            AxisOf::Row { .. } if values[at] == 0 => "same".to_owned(),
            AxisOf::Row { row, .. } if small[at] => format!("({})", self.moved(row, values[at])),
            AxisOf::Row { row, .. } => {
                let size = number::whole(values[at].saturating_abs(), row.scale().unit());
                let with = format!("{size}{}", within(point.doubts[at]));
                self.moved(row, values[at]).replacen(&size, &with, 1)
            }
        };
        format!("{}, {}: {label}", along(0), along(1))
    }

    fn answer_number(&self, number: usize) -> String {
        format!("Answer {number}")
    }

    fn too_near(&self, marks: &[String]) -> String {
        format!("In these two not to be told apart from {}", marks.join(", "))
    }

    fn made_worse(&self, all: &[Reason]) -> String {
        let all: Vec<String> = all.iter().map(|of| small(&reason_text(of))).collect();
        format!("{}: {}", self.bears(Bears::Against), all.join("; "))
    }

    fn axis(&self, of: AxisOf) -> String {
        match of {
            AxisOf::Minutes => "minutes".to_owned(),
            AxisOf::Row { row, .. } => short_row(row),
        }
    }

    fn reason(&self, reason: &Reason) -> String {
        reason_text(reason)
    }

    fn more_like_it(&self, count: usize) -> String {
        format!("and {count} more like it")
    }

    fn bears(&self, bears: Bears) -> &'static str {
        match bears {
            Bears::MustSay => "To be said",
            Bears::For => "For it",
            Bears::Against => "Against it",
            Bears::Instead => "Why not something else",
            Bears::WouldChange => "What would change this",
        }
    }

    fn source(&self, source: Source) -> &'static str {
        match source {
            Source::Geometry => "from lengths and angles",
            Source::Computed => "from the model, within its doubt",
            Source::Seen => "from this visit and the stock list",
            Source::CommonPractice => "common practice, no source",
            Source::Judgement => "our judgement",
        }
    }

    fn row_behind(&self, question: Question, before: Cell, after: Cell) -> String {
        let shown = |cell: &Cell| cell.shown().map(|at| number::whole(at, question.scale().unit()));
        let mut parts = Vec::new();
        if let (Some(before), Some(after)) = (shown(&before), shown(&after)) {
            parts.push(format!("{before} before, {after} after"));
        }
        parts.push(match after.change {
            Change::By(by) => match after.doubt {
                Some(doubt) if doubt.tells => {
                    format!("change {} {}", self.moved(question, by), self.within(doubt.within))
                }
                Some(_) => format!("change {}, {}", self.moved(question, by), self.too_small()),
                None => format!("change {}", self.moved(question, by)),
            },
            Change::Same | Change::None => self.same().to_owned(),
        });
        format!("{}: {}", row_name(question), parts.join(", "))
    }

    fn rule_from(&self, source: Source) -> String {
        format!("The rule is {}", self.source(source))
    }

    fn looked_through(&self, of: &Counted) -> String {
        counted::looked_through(of)
    }

    fn given_up(&self, of: &GivenUp) -> String {
        counted::given_up(&self.wanted(&of.wanted), of.by)
    }

    fn left_out(&self, why: Why, count: u64) -> String {
        counted::left_out(why, count)
    }

    fn tipped_answers(&self, count: usize) -> String {
        counted::tipped_answers(count)
    }

    fn head_lifted_answers(&self, count: usize) -> String {
        format!("{count} of the best: the head would be lifted further")
    }

    fn too_small_answers(&self, count: usize) -> String {
        counted::too_small_answers(count)
    }

    fn no_more_answers(&self, count: usize) -> String {
        counted::no_more_answers(count)
    }

    fn ridden_alike_answers(&self, count: usize) -> String {
        counted::ridden_alike_answers(count)
    }

    fn not_offered(&self, why: NotOffered, count: usize) -> String {
        counted::not_offered(why, count)
    }

    fn no_search(&self, why: &NoSearch) -> String {
        match why {
            NoSearch::NoLevers => {
                "The bike as it came has no levers, so nothing can be looked for that depends on hoods \
                 or brakes. Put levers on it in the place of the bike, or compare bars on the bench."
                    .to_owned()
            }
            NoSearch::NotMeasured => {
                "The client is a child and not measured enough to sit on a bike here. Take the readings \
                 that the place of the body asks for, then search again."
                    .to_owned()
            }
            NoSearch::Refused(why) => self.fault(&why.to_string()),
        }
    }
}

/// How many clicks further in the reach screws of both levers are, left and right.
fn clicks_in(base: &Cockpit, to: &Cockpit) -> Option<[i64; 2]> {
    let clicks = |of: &Cockpit| {
        let levers = of.levers.as_ref()?;
        Some([levers.left.clicks, levers.right.clicks].map(i64::from))
    };
    let (before, after) = (clicks(base).unwrap_or_default(), clicks(to)?);
    Some([after[0] - before[0], after[1] - before[1]])
}

fn screws_in(base: &Cockpit, to: &Cockpit) -> String {
    let [left, right] = clicks_in(base, to).unwrap_or_default();
    let clicks = |by: i64| format!("{by} {}", if by == 1 { "click" } else { "clicks" });
    match (left, right) {
        (0, by) => return format!("Right reach screw {} in", clicks(by)),
        (by, 0) => return format!("Left reach screw {} in", clicks(by)),
        _ => {}
    }
    if left == right {
        format!("Reach screws {} in", clicks(left))
    } else {
        format!("Reach screws in, left {left} and right {}", clicks(right))
    }
}

/// Levers that stand elsewhere along another bar by less are not told of, mm (common practice, no source: levers
/// are felt from 3 to 5 on).
const FELT_LEVER_MM: i64 = 3;

/// How far the levers go along the bend, and which way; on another bar from where they are carried over to.
fn lever_way(base: &Cockpit, to: &Cockpit) -> String {
    let along = |of: &Cockpit| of.levers.as_ref().map(|levers| levers.right.along_mm);
    let by = along(to).zip(along(base)).map(|(to, from)| to - from);
    let by = levers_on_another_bar_mm(base, to).or(by).map_or(0, whole);
    let way = if by < 0 { "down" } else { "up" };
    format!("{} {way} the bend", mm(by.saturating_abs()))
}

fn mm(amount: i64) -> String {
    number::whole(amount, Unit::Millimetre)
}

fn deg(amount: i64) -> String {
    number::whole(amount, Unit::Degree)
}

fn within(doubt: Option<Doubt>) -> String {
    doubt.map_or_else(String::new, |doubt| format!(" ±\u{a0}{}", doubt.within))
}

/// A change of a row as a sentence.
fn changed(question: Question, by: i64, doubt: Option<Doubt>) -> String {
    let (size, about) = (by.saturating_abs(), within(doubt));
    let with = |place: HandPlace| names::with_hands(place);
    let way = |more: &'static str, less: &'static str| if by > 0 { more } else { less };
    match question {
        Question::Trunk(place) => {
            let way = way("higher", "lower");
            format!("The trunk is {}{about} {way} {}", deg(size), with(place))
        }
        Question::Elbow(place) => {
            let way = way("more", "less");
            format!("The elbows are bent {}{about} {way} {}", deg(size), with(place))
        }
        Question::Neck(place) => {
            let way = way("more", "less");
            format!("Looking ahead asks {}{about} {way} of the neck {}", deg(size), with(place))
        }
        Question::Hip(place) => {
            let way = way("more open", "more closed");
            format!("The hip is {}{about} {way} {}", deg(size), with(place))
        }
        Question::Brake(place) => {
            let way = way("nearer", "further away");
            format!("The brake is {}{about} {way} {}", mm(size), with(place))
        }
        Question::Moved(place, Axis::Forward) => {
            let way = way("further away", "nearer");
            format!("The hands are {}{about} {way} {}", mm(size), with(place))
        }
        Question::Moved(place, Axis::Up) => {
            let way = way("higher", "lower");
            format!("The hands are {}{about} {way} {}", mm(size), with(place))
        }
        Question::Wrist(place) => {
            let way = way("thumb", "little finger");
            format!("The hand tips {}{about} further towards the {way} {}", deg(size), with(place))
        }
        Question::WidthAtHoods => {
            let way = way("wider", "narrower");
            format!("The bar is {} {way} at the hoods", mm(size))
        }
        _ => {
            let moved = English.moved(question, by);
            format!("{}: {moved}{about}", names::capital(English.question(question)))
        }
    }
}

/// A sentence that goes on after another.
fn small(text: &str) -> String {
    let mut chars = text.chars();
    let first = chars.next().map(|c| c.to_lowercase().to_string());
    first.map_or_else(String::new, |first| first + chars.as_str())
}

/// A brake that is reached by no more than it may be off.
fn just_reached(place: HandPlace, before_mm: i64, after_mm: i64) -> String {
    let with = names::with_hands(place);
    let spare = match after_mm {
        0 => "nothing to spare, and it may be off by more".to_owned(),
        1 => format!("{} to spare is less than it may be off", mm(1)),
        _ => format!("{} to spare are less than it may be off", mm(after_mm)),
    };
    let now = format!("The fingers just reach the brake {with}: {spare}");
    let size = mm(before_mm.saturating_abs());
    match before_mm {
        ..=-1 => format!(
            "{now}; before, {size} {} missing",
            if before_mm == -1 { "was" } else { "were" }
        ),
        _ => format!("{now}; before, {size}"),
    }
}

fn brake(place: HandPlace, before_mm: i64, after_mm: i64) -> String {
    let with = names::with_hands(place);
    match (before_mm < 0, after_mm < 0) {
        (true, false) => format!(
            "The fingers reach the brake {with}, with {} to spare; before, {} {} missing",
            mm(after_mm),
            mm(before_mm.saturating_abs()),
            if before_mm == -1 { "was" } else { "were" }
        ),
        (true, true) => format!(
            "The fingers come nearer to the brake {with}: {} {} missing, before {}",
            mm(after_mm.saturating_abs()),
            if after_mm == -1 { "is" } else { "are" },
            mm(before_mm.saturating_abs())
        ),
        _ => format!(
            "The fingers have {} to spare at the brake {with}, before {}",
            mm(after_mm),
            mm(before_mm)
        ),
    }
}

#[expect(clippy::too_many_lines, reason = "a sentence for each")]
fn reason_text(reason: &Reason) -> String {
    match reason {
        Reason::Brake { place, before_mm, after_mm, just: false } => {
            brake(*place, *before_mm, *after_mm)
        }
        Reason::Brake { place, before_mm, after_mm, just: true } => {
            just_reached(*place, *before_mm, *after_mm)
        }
        Reason::Better { question, by, doubt } | Reason::Worse { question, by, doubt } => {
            changed(*question, *by, *doubt)
        }
        Reason::TooSmall { question } => {
            format!("{}: the change is too small to tell", row_name(*question))
        }
        Reason::TailFalls { by_deg } => {
            format!("The bar’s tail falls {} more to the rear, which most find easier to hold", deg(*by_deg))
        }
        Reason::AsLeft { date, number } => {
            let visit = format!("As it was left at the visit of {}", picture::day(*date));
            let visit = English.of_that_day(&visit, *number);
            format!("{visit}: put back before anything else is tried")
        }
        Reason::HoodsHeld { out_mm: 0 } => "The hoods stay where they are".to_owned(),
        Reason::HoodsHeld { out_mm } => {
            let way = if *out_mm > 0 { "out" } else { "in" };
            let by = mm(out_mm.saturating_abs());
            format!("The hoods stay as high and as far ahead as they are; each goes {by} further {way}")
        }
        Reason::NearShoulders { before_mm, after_mm } => format!(
            "The bar is {} off the width of the shoulders, before {}",
            mm(*after_mm),
            mm(*before_mm)
        ),
        Reason::UnderShoulders { by_mm } => {
            format!("The bar is {} narrower than the shoulders", mm(*by_mm))
        }
        Reason::Steering { percent } => {
            let way = if *percent > 0 { "more" } else { "less" };
            format!("Steering takes {}\u{a0}% {way} effort at the hoods", percent.saturating_abs())
        }
        Reason::Ridden { about, before, after } if before == after => {
            format!("Ridden: {} stayed at {after}", concern::concern(*about))
        }
        Reason::Ridden { about, before, after } => {
            format!("Ridden: {} went from {before} to {after}", concern::concern(*about))
        }
        Reason::RiddenWorse { about, before, after } => {
            format!("On that ride {} went from {before} to {after}", concern::concern(*about))
        }
        Reason::HeldForward { mm: by } => format!(
            "On this bar the hand was seen {} further forward in the hook, nearer to the blade",
            mm(*by)
        ),
        Reason::NotAsked { about } => {
            format!("How {} was on that ride has not been asked", concern::concern(*about))
        }
        Reason::TriedFromHoods => {
            "Whether blades set otherwise suit the fingers on the hoods no length tells: it is tried on the stand".to_owned()
        }
        Reason::TriedForHands => {
            "Levers turned in may suit hands and forearms: no length tells, it is tried on a ride".to_owned()
        }
        Reason::SmootherHoods { before_deg, after_deg } => format!(
            "The hoods are {after_deg}° off the line of the ramps, before {before_deg}°: the hands lie flatter"
        ),
        Reason::Outline { place, percent } => {
            let way = if *percent > 0 { "larger" } else { "smaller" };
            let size = percent.saturating_abs();
            format!("The outline that the wind meets is {size}\u{a0}% {way} {}", names::with_hands(*place))
        }
        Reason::OutlineTooSmall { place } => format!(
            "How much smaller the outline is that the wind meets is too small to tell {}: one size \
             narrower at a time is common practice, no source",
            names::with_hands(*place)
        ),
        Reason::OutlineNoSmaller { place, narrower_mm } => format!(
            "Narrower by {}, and yet the outline that the wind meets is no smaller {}",
            mm(*narrower_mm),
            names::with_hands(*place)
        ),
        Reason::LeavesRule { number, mm: has, asked_mm } => {
            let asked = mm(*asked_mm);
            let what = match number {
                EventNumber::Width => {
                    format!("the bar is {} wide outside, and {asked} or more are asked", mm(*has))
                }
                EventNumber::Flare => {
                    format!("an end stands {} out beyond its hood, and {asked} at most are asked", mm(*has))
                }
                EventNumber::BetweenLevers => {
                    format!("{} are between the levers, and {asked} or more are asked", mm(*has))
                }
            };
            format!("Outside the rules of events: {what}; the organiser’s own text decides")
        }
        Reason::LikeOther { before_mm, after_mm } => format!(
            "The hoods are {} from where they are on the other bike, before {}",
            mm(*after_mm),
            mm(*before_mm)
        ),
        Reason::RiddenInVain { about, before, after } => format!(
            "Something else was ridden, and {} went from {before} to {after}",
            concern::concern(*about)
        ),
        Reason::HoodsMove { forward_mm, up_mm } => {
            format!("The hoods were to stay where they are: they go {}", way_of(*forward_mm, *up_mm))
        }
        Reason::OffShoulders { before_mm, after_mm } => format!(
            "The bar was to be as wide as the shoulders: it is {} off, before {}",
            mm(*after_mm),
            mm(*before_mm)
        ),
        Reason::OffOther { before_mm, after_mm } => format!(
            "The hoods were to be as on the other bike: they are {} away, before {}",
            mm(*after_mm),
            mm(*before_mm)
        ),
        Reason::NothingBeatsIt { looked, row, most } => {
            let none = match looked {
                // what is there is one of them
                ..=1 => "Nothing else can be put together here".to_owned(),
                _ => format!("None of {} is worth what it takes", ways(*looked)),
            };
            match (row, most) {
                (Some(row), Some(by)) => {
                    let most = small(&changed(*row, *by, None));
                    format!("{none}; the most that any step does: {most}")
                }
                (Some(row), None) => {
                    let row = small(&row_name(*row));
                    format!("{none}; no step changes what is asked of this: {row}")
                }
                (None, _) => none,
            }
        }
        Reason::GivesUp { answer, question, by } => {
            let does = small(&changed(*question, *by, None));
            format!("“{answer}” does what this does not: {does}")
        }
        Reason::WasToStay { what } => {
            format!("What was to stay is changed: {}", English.stays(*what))
        }
        Reason::OverLimit { quantity } => {
            format!("It is outside the limit that was set: {}", names::quantity(*quantity))
        }
        Reason::NothingBought => "Nothing has to be bought".to_owned(),
        Reason::RaisingLiftsHoods { mm: by } => {
            format!("Raising the stem lifts everything: the hoods come {} up as well", mm(*by))
        }
        Reason::BarLiftsHoods { mm: by } => format!("This bar has the hoods {} higher", mm(*by)),
        Reason::HoodsGo { forward_mm, up_mm } => {
            format!("The hoods go {}", way_of(*forward_mm, *up_mm))
        }
        Reason::StemMovesTops { mm: by } => {
            let way = if *by > 0 { "back" } else { "forward" };
            format!("Another stem moves everything: the tops come {} {way} as well", mm(by.saturating_abs()))
        }
        Reason::SqueezeGap { mm: left } => format!(
            "A blade that is set nearer has less stroke: {} {} between blade and bar at a hard squeeze; \
             15 must stay, tried on the stand",
            mm(*left),
            if *left == 1 { "stays" } else { "stay" }
        ),
        Reason::Hoses { by: Some((forward_mm, up_mm)) } => {
            format!("Check hoses and cables: the hoods go {}", way_of(*forward_mm, *up_mm))
        }
        Reason::Hoses { by: None } => "Check hoses and cables: they have to reach".to_owned(),
        Reason::StillOutOfReach { place, mm: missing } => format!(
            "The brake is still {} out of reach {}",
            mm(*missing),
            names::with_hands(*place)
        ),
        Reason::SendOn(to) => English.send_on(*to).trim_end_matches('.').to_owned(),
        Reason::NotLookedAt { about, left } => {
            let left: Vec<&str> = left.iter().map(|of| concern::rule_out(*of)).collect();
            let what = concern::concern(*about);
            format!("Not looked at yet, and first ({what}): {}", left.join("; "))
        }
        Reason::AllWaits => {
            "Until then nothing at the bike is tried for it: all else waits".to_owned()
        }
        Reason::NothingRead { bike: true } => {
            "Nothing was read off the body and no tape was laid on the bike: these are answers for a usual \
             person on the bike as it stands here".to_owned()
        }
        Reason::NothingRead { bike: false } => {
            "Nothing was read off the body: these are answers for a usual person on this bike".to_owned()
        }
        Reason::BikeNotAsRead(why @ NotAsRead::Moved(Some(_))) => format!(
            "{}. Say so first, under Later: then putting it back is the first answer, before \
             anything else is tried",
            English.not_as_read(why)
        ),
        Reason::BikeNotAsRead(why) => English.not_as_read(why),
        Reason::Steerer { mm: by } => format!(
            "Needs {} more of the steerer: look whether it is there, and keep to the fork maker’s rule \
             for spacers",
            mm(*by)
        ),
        Reason::ToOrder { name } => format!("Not in stock: {name} has to be ordered"),
        Reason::PriceUnknown { name } => format!("What {name} costs is not in the stock list"),
        Reason::OnePiece => {
            "Bar and stem are one piece: the position is settled on a trial stem first, and the building \
             takes hours"
                .to_owned()
        }
        Reason::Retape => "The tape comes off and is put on anew".to_owned(),
        Reason::Habit => {
            "The hand has to get used to the place: it is seen to on a ride, not on the stand".to_owned()
        }
        Reason::Frame(question) => decide::frame_question(*question),
        Reason::BarAloneRarely { question, by: 0 } => {
            format!("{}: another bar alone changes nothing that tells", row_name(*question))
        }
        Reason::BarAloneRarely { question, by } => {
            format!("A bar alone does little here: {}", lower(&changed(*question, *by, None)))
        }
        Reason::DoesLess { job, question, by: Some(by) } => {
            format!("{}: {}", alone(*job), lower(&changed(*question, *by, None)))
        }
        Reason::DoesLess { job, question, by: None } => {
            format!("{} changes nothing that tells of this: {}", alone(*job), lower(&row_name(*question)))
        }
        Reason::HasItsPrice { job, question, by, doubt, price } => {
            let does = lower(&changed(*question, *by, *doubt));
            format!("{}: {does}, but {}", alone(*job), lower(&reason_text(price)))
        }
        Reason::SaddleFirst(held) => {
            // nothing is behind a wish: the saddle only comes first
            let why = if held.by.is_wish() {
                "The saddle comes before the hands"
            } else {
                "The saddle may be behind it"
            };
            format!(
                "{why} ({}): look at {} next. What is only set can be tried meanwhile; bars are offered once \
                 it was looked at.",
                concern::concern(held.by),
                concern::of_the_saddle(held.next)
            )
        }
        Reason::OnlyBars(held) => format!(
            "Only another bar does that, and bars wait for the saddle: look at {} next",
            concern::of_the_saddle(held.next)
        ),
        Reason::NothingDoes => {
            "Nothing of the stock or its settings does so much of that that it is worth what it takes"
                .to_owned()
        }
        Reason::ExcludeEachOther { wishes: [one, other] } => format!(
            "What does one of two wishes undoes the other: {}; {}. Ask which of them counts, and take the other back",
            English.wanted(one),
            English.wanted(other)
        ),
        Reason::BendElbowsFirst => {
            "To be slimmer, bent elbows come first: they are free. How much they do is not computed here"
                .to_owned()
        }
        Reason::NoShallowerBar {
            drop_mm: (from, to),
            reach_mm,
            width_mm,
            is_limited,
            is_raised,
        } => {
            let (no_bar, order) = if *is_limited {
                ("Within these limits no bar", "beyond them, or to order, is one")
            } else {
                ("No bar", "to order is one")
            };
            let until = if *is_raised {
                "; until then everything can be raised, which lifts the hoods as well"
            } else {
                ""
            };
            format!(
                "{no_bar} of the stock has the drops less deep for this client with the hoods where they are: \
                 {order} with a drop of {from} to {}, a reach of {} at most and {} wide{until}",
                mm(*to),
                mm(*reach_mm),
                mm(*width_mm)
            )
        }
        Reason::Said(said) => concern::said(*said).to_owned(),
        Reason::RideIt => "What the client says after riding it outranks all of this".to_owned(),
        Reason::Measure(item) => {
            format!("Measured next, {} would tell more than any other reading", names::item(*item))
        }
        Reason::BarByCatalogue => {
            "The bar is known from a catalogue only: its hook measured in the hand may shift the drops by \
             6 to 8\u{a0}mm"
                .to_owned()
        }
    }
}

/// Which way something goes, up or down first.
fn way_of(forward_mm: i64, up_mm: i64) -> String {
    let part = |by: i64, more: &str, less: &str| {
        let way = if by > 0 { more } else { less };
        (by != 0).then(|| format!("{} {way}", mm(by.saturating_abs())))
    };
    let parts = [part(up_mm, "up", "down"), part(forward_mm, "forward", "back")];
    let parts: Vec<String> = parts.into_iter().flatten().collect();
    parts.join(" and ")
}

/// A job by itself.
fn alone(job: Job) -> String {
    match job {
        Job::HandInDrops => "Hands further forward alone".to_owned(),
        Job::OtherStem => "Another stem alone".to_owned(),
        Job::OtherBar => "Another bar alone".to_owned(),
        Job::OtherLevers => "Other levers alone".to_owned(),
        job => format!("{} alone", names::capital(decide::job(job))),
    }
}

fn lower(text: &str) -> String {
    let mut chars = text.chars();
    let first = chars.next().map(|c| c.to_lowercase().to_string());
    first.map_or_else(String::new, |first| first + chars.as_str())
}

/// What a row speaks of, as the beginning of a sentence.
fn row_name(question: Question) -> String {
    let named = |what: &str, place: HandPlace| format!("{what}, {}", names::with_hands(place));
    match question {
        Question::Trunk(place) => named("Trunk", place),
        Question::Elbow(place) => named("Elbows", place),
        Question::Neck(place) => named("What looking ahead asks of the neck", place),
        Question::Hip(place) => named("Hip", place),
        Question::Brake(place) => named("Brake reach", place),
        Question::Moved(place, Axis::Forward) => named("How far away the hands are", place),
        Question::Moved(place, Axis::Up) => named("How high the hands are", place),
        _ => names::capital(English.question(question)),
    }
}

/// A row in a few words, with its place and its unit, for an axis.
fn short_row(row: Question) -> String {
    let of = |what: &str, place: HandPlace, unit: &str| {
        format!("{what} {}, {unit}", names::with_hands(place))
    };
    match row {
        Question::Trunk(place) => of("trunk", place, "°"),
        Question::Elbow(place) => of("elbows", place, "°"),
        Question::Neck(place) => of("neck", place, "°"),
        Question::Hip(place) => of("hip", place, "°"),
        Question::Brake(place) => of("brake", place, "mm"),
        Question::Moved(place, Axis::Forward) => of("hands forward", place, "mm"),
        Question::Moved(place, Axis::Up) => of("hands up", place, "mm"),
        Question::WidthAtHoods => "width at the hoods, mm".to_owned(),
        _ => "mm".to_owned(),
    }
}

#[cfg(test)]
#[path = "choice_tests.rs"]
mod tests;
