//! How the client may take the change, joints whose range is known, left and right.

use super::{Block, Line, degrees, mm, whole};
use crate::table::{Cell, CellText, Question, Scale};
use crate::weigh::{Weighed, WeighedCockpit, WeighedPlace};
use crate::words::{DetailText as T, Words};
use fit_doc::HandPlace;
use fit_math::frame::Side;
use fit_math::posture::{Bound, End, Held, Joint};

/// Two angles that are shown alike, radians.
const ALIKE_RAD: f64 = 0.5 * core::f64::consts::PI / 180.0;

/// All by the trunk, the model's guess, all by the elbows; none on the cockpit as it came.
pub(super) fn bracket(
    weighed: &Weighed,
    of: &WeighedCockpit,
    place: HandPlace,
    words: &dyn Words,
) -> Option<Block> {
    let bracket = weighed.bracket(of, place)?;
    let (came, now) = (weighed.as_it_came()?.places.get(&place)?, of.places.get(&place)?);
    let ends = [&bracket.by_trunk, &bracket.by_elbows];
    let said = |text| words.detail(text);
    let elbow = |end: &End| end.elbows_rad[0].min(end.elbows_rad[1]);
    let before = [came.report.trunk_rad, came.straighter_elbow_rad()];
    let model = [now.report.trunk_rad, now.straighter_elbow_rad()];
    let questions = [Question::Trunk(place), Question::Elbow(place)];
    let row = |name: T, rad: [f64; 2]| {
        let compared = name != T::CameRow;
        let cell = |index: usize| {
            let before = compared.then(|| before[index].to_degrees());
            let cell = Cell::number(Scale::Degrees, rad[index].to_degrees(), before);
            CellText::of(questions[index], cell, words).to_string()
        };
        Line { name: said(name), cells: [0, 1].map(cell).into(), falls_short: false }
    };
    let [by_trunk, by_elbows] = ends.map(|end| [end.trunk_rad, elbow(end)]);
    let rows = vec![
        row(T::CameRow, before),
        row(T::ByTrunkRow, by_trunk),
        row(T::ModelRow, model),
        row(T::ByElbowsRow, by_elbows),
    ];
    let mut notes = vec![said(T::BracketMeans)];
    if matches!(bracket.by_elbows.held, Held::RestByTrunk) {
        notes.push(said(T::RestByTrunk));
    }
    let short = |end: &&End| match end.held {
        Held::ShortBy { short_by_mm } => Some(short_by_mm),
        Held::AsAsked | Held::RestByTrunk => None,
    };
    let short_mm = ends.iter().filter_map(short).fold(0.0, f64::max);
    if short_mm > 0.0 {
        notes.push(said(T::BracketShort { mm: whole(short_mm).max(1) }));
    }
    let columns = [T::TrunkColumn, T::ElbowColumn].map(said).into();
    Some(Block { heading: said(T::Bracket), columns, rows, notes })
}

/// What each joint whose range is known is asked for, and how much of it is left.
pub(super) fn joints(weighed: &Weighed, at: &WeighedPlace, words: &dyn Words) -> Option<Block> {
    let limits = weighed.rider.limits();
    let row = |&(joint, left): &(Joint, f64)| {
        let Bound::Measured(most) = limits.bound(joint) else { return None };
        let shown = |amount: f64| match joint {
            Joint::Protraction => mm(amount),
            _ => degrees(amount),
        };
        let percent = whole(100.0 * left);
        let cells =
            vec![shown(at.report.need(joint)), shown(most), words.detail(T::ShareLeft { percent })];
        Some(Line { name: words.detail(T::Joint(joint)), cells, falls_short: left < 0.0 })
    };
    let rows: Vec<Line> = at.reserves.iter().filter_map(row).collect();
    let columns = [T::NeededColumn, T::GoesToColumn, T::LeftColumn];
    (!rows.is_empty()).then(|| Block {
        heading: words.detail(T::Joints),
        columns: columns.map(|of| words.detail(of)).into(),
        rows,
        notes: Vec::new(),
    })
}

/// Elbow and upper arm of each side, where they differ.
pub(super) fn sides(at: &WeighedPlace, words: &dyn Words) -> Option<Block> {
    let arms = Side::BOTH.map(|side| *at.report.arm(side));
    let row = |name: T, of: [f64; 2]| Line {
        name: words.detail(name),
        cells: of.map(degrees).into(),
        falls_short: false,
    };
    let elbows = arms.map(|arm| arm.elbow_rad);
    let upper_arms = arms.map(|arm| arm.shoulder_rad);
    let differ = |[left, right]: [f64; 2]| (left - right).abs() > ALIKE_RAD;
    (differ(elbows) || differ(upper_arms)).then(|| Block {
        heading: words.detail(T::Sides),
        columns: Side::BOTH.map(|side| words.detail(T::SideColumn(side))).into(),
        rows: vec![row(T::Elbow, elbows), row(T::UpperArm, upper_arms)],
        notes: Vec::new(),
    })
}
