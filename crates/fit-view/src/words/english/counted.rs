//! How much of a shop was looked through and what was left out of it, in English: counts and why.

use super::names;
use crate::choose::{Counted, LeftNothing, NotOffered, tips_at_most_deg};
use fit_doc::work::Job;
use fit_math::choose::{Limited, Why};

pub(super) fn looked_through(of: &Counted) -> String {
    let through = of.looked_through();
    let were = was_or_were(through);
    if through == of.assemblies {
        return format!("{} {were} looked at", names::capital(&ways(through)));
    }
    let others = match of.assemblies.saturating_sub(through) {
        1 => "the other was left out, for one reason:",
        _ => "the others were left out, each for one reason:",
    };
    format!("Of {}, {} {were} looked at; {others}", ways(of.assemblies), about(through))
}

pub(super) fn given_up(wanted: &str, by: Option<LeftNothing>) -> String {
    let within = match by {
        Some(LeftNothing::Money) => "no bar within the money allowed has",
        Some(LeftNothing::InStockOnly) => "no bar on the shelf has",
        Some(LeftNothing::Width) => "no bar of the widths allowed has",
        Some(LeftNothing::EventRules) => "no bar within the rules of events has",
        None => "no bar of the stock has",
    };
    format!("Not asked any more, {wanted}: {within} the drops less deep for this client")
}

pub(super) fn left_out(why: Why, count: u64) -> String {
    let why = match why {
        Why::ClampDiameter => "the stem does not clamp that bar",
        Why::ClampZone => "a lever would leave the part of the bend that may be clamped",
        Why::RollAtLever => {
            &format!("the hand on the hoods would tip by more than {}", tipped_most())
        }
        Why::Beyond(limited) => beyond(limited),
    };
    format!("{}: {why}", about(count))
}

pub(super) fn tipped_answers(count: usize) -> String {
    format!(
        "{count} of the best: where it lies much the hand would tip by more than {}",
        tipped_most()
    )
}

/// How far a hand may tip, for each part that tips it.
fn tipped_most() -> String {
    let [along, other] = [Job::LeverAlong, Job::OtherBar].map(tips_at_most_deg);
    format!("{other:.0}°, with levers moved along their own bend by more than {along:.0}°")
}

pub(super) fn too_small_answers(count: usize) -> String {
    let they_change = if count == 1 { "it changes" } else { "they change" };
    format!("{count} of the best: what {they_change} of what is asked is too small to tell")
}

pub(super) fn no_more_answers(count: usize) -> String {
    let (they_take, do_no_more) =
        if count == 1 { ("it takes", "does no more") } else { ("they take", "do no more") };
    format!(
        "{count} of the best: {they_take} more than an answer above and {do_no_more} that tells"
    )
}

pub(super) fn ridden_alike_answers(count: usize) -> String {
    format!("{count} of the best: the hands lie as on a ride that did no good")
}

pub(super) fn not_offered(why: NotOffered, count: usize) -> String {
    let one = count == 1;
    let why = match why {
        NotOffered::NotInStock => "not in stock",
        NotOffered::OverBudget => "dearer than allowed",
        NotOffered::NoLevers if one => "no lever is made for it",
        NotOffered::NoLevers => "no lever is made for them",
        NotOffered::CannotCarry if one => "the levers cannot be put on it",
        NotOffered::CannotCarry => "the levers cannot be put on them",
        NotOffered::OtherRiding if one => "its ends stand out as for another kind of riding",
        NotOffered::OtherRiding => "their ends stand out as for another kind of riding",
        NotOffered::DeeperOrLonger => "deeper or longer, which a neck in the drops does not want",
        NotOffered::EventRules => "outside the rules of events; the organiser’s own text decides",
    };
    let bars = if one { "bar was" } else { "bars were" };
    format!("Besides these, {count} {bars} not offered: {why}")
}

/// A large count in words: nobody reads its last digits.
pub(super) fn about(count: u64) -> String {
    match count {
        0..1_000 => count.to_string(),
        1_000..999_500 => format!("some {} thousand", rounded(count, 1_000)),
        _ => format!("some {} million", rounded(count, 1_000_000)),
    }
}

/// So many ways to put parts and settings together.
pub(super) fn ways(count: u64) -> String {
    let ways = if count == 1 { "way" } else { "ways" };
    format!("{} {ways} to put parts and settings together", about(count))
}

const fn was_or_were(count: u64) -> &'static str {
    if count == 1 { "was" } else { "were" }
}

const fn rounded(count: u64, to: u64) -> u64 {
    (count + to / 2) / to
}

fn beyond(limited: Limited) -> &'static str {
    match limited {
        Limited::Width => "the bar is narrower or wider than allowed",
        Limited::Reach => "the bar’s reach is not allowed",
        Limited::Drop => "the bar’s drop is not allowed",
        Limited::StemLength => "the stem is shorter or longer than allowed",
        Limited::StemAngle => "the stem’s angle is not allowed",
        Limited::Spacers => "more spacers than allowed",
        Limited::Roll => "more roll than allowed",
        Limited::LeverMoved => "the levers would move too far",
        Limited::BrakeSpan => "the brake would be too far away",
        Limited::PalmSpare => "the palm would not fit",
        Limited::Price => "the parts cost more than allowed, or nobody knows what they cost",
        Limited::Minutes => "more minutes in the workshop than allowed",
        Limited::Effort => "more is changed than allowed",
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn looked(assemblies: u64, left_out: u64) -> String {
        let left_out = [(Why::RollAtLever, left_out)].into();
        looked_through(&Counted { assemblies, left_out, ..Counted::default() })
    }

    /// A lever that goes along its bend may tip the hand further than anything else.
    #[test]
    fn how_far_a_hand_may_tip_is_told_of_each_part() {
        for text in [left_out(Why::RollAtLever, 3), tipped_answers(3)] {
            let most = text.split("more than ").skip(1).map(|of| of.split('°').next().unwrap());
            let deg: Vec<f64> = most.map(|of| of.parse().unwrap()).collect();
            assert_eq!(deg, [Job::Roll, Job::LeverAlong].map(tips_at_most_deg), "{text}");
        }
    }

    #[test]
    fn one_is_told_as_one() {
        assert_eq!(looked(1, 0), "1 way to put parts and settings together was looked at");
        assert_eq!(looked(3, 0), "3 ways to put parts and settings together were looked at");
        let (one, more) = (looked(2, 1), looked(5, 3));
        assert!(one.contains("1 was looked at; the other was left out, for one reason"), "{one}");
        assert!(more.contains("2 were looked at; the others were left out"), "{more}");
        assert!(too_small_answers(1).contains("what it changes"));
        assert!(too_small_answers(2).contains("what they change"));
        assert!(no_more_answers(1).contains("it takes more than an answer above and does no more"));
        assert!(no_more_answers(2).contains("they take more than an answer above and do no more"));
        let bars = |count| {
            let all = [
                NotOffered::NotInStock,
                NotOffered::OverBudget,
                NotOffered::NoLevers,
                NotOffered::CannotCarry,
                NotOffered::OtherRiding,
                NotOffered::DeeperOrLonger,
                NotOffered::EventRules,
            ];
            all.map(|why| not_offered(why, count)).join(" ")
        };
        for word in ["bars", "them", "their"] {
            assert!(!bars(1).contains(word) && bars(2).contains(word), "{}", bars(1));
        }
    }
}
