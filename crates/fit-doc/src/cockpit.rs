//! A cockpit: bar, stem, spacers, roll, levers and the saddle that goes with them.

use crate::{Bar, Lever, Stem};

/// The saddle as it is set, mm and degrees.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Saddle {
    /// Bottom bracket axle to the saddle's top where it is 80 mm wide, mm.
    pub height_mm: f64,
    /// How far the nose stands behind the axle, mm.
    pub nose_behind_mm: f64,
    /// From the nose to where the saddle is 80 mm wide, mm.
    pub sit_from_nose_mm: f64,
    /// Tilt, nose up positive, degrees.
    pub tilt_deg: f64,
}

impl Saddle {
    /// The saddle that stands for one that nobody has measured yet: of middle size (common practice, no
    /// source).
    pub const MIDDLE_SIZE: Self =
        Self { height_mm: 720.0, nose_behind_mm: 55.0, sit_from_nose_mm: 140.0, tilt_deg: 0.0 };
}

/// How one lever is mounted.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LeverSetting {
    /// Arc length from the bar's end to the middle of the lever's clamp, mm.
    pub along_mm: f64,
    /// Turned inwards, degrees.
    pub turn_in_deg: f64,
    /// Clicks of the reach adjuster, 0 as delivered.
    pub clicks: u32,
}

/// A pair of levers of one kind, each side with its own setting.
#[derive(Debug, Clone, PartialEq)]
pub struct Levers {
    /// The kind.
    pub lever: Lever,
    /// Setting on the left.
    pub left: LeverSetting,
    /// Setting on the right.
    pub right: LeverSetting,
}

/// One complete cockpit.
#[derive(Debug, Clone, PartialEq)]
pub struct Cockpit {
    /// Identity within the session.
    pub id: String,
    /// Short name on the bench.
    pub label: String,
    /// The bar.
    pub bar: Bar,
    /// The stem; its place is taken by the bar's own where the bar is one piece.
    pub stem: Stem,
    /// Spacers under the stem, mm.
    pub spacers_mm: f64,
    /// Roll of the bar in the clamp, nose up positive, degrees.
    pub roll_deg: f64,
    /// The levers; none on a track bar.
    pub levers: Option<Levers>,
    /// Where the hands lie in the drops, measured along the bar from the usual place towards the
    /// hoods, mm.
    pub drops_hand_mm: f64,
    /// The saddle that goes with it.
    pub saddle: Saddle,
    /// The client has ridden it.
    pub ridden: bool,
}

impl Cockpit {
    /// The same parts and settings under another name.
    #[must_use]
    pub fn with_name(&self, id: &str, label: &str) -> Self {
        Self { id: id.to_owned(), label: label.to_owned(), ..self.clone() }
    }

    /// Whether both have the same parts and settings, whatever they are called and whether they were
    /// ridden.
    pub fn is_set_up_as(&self, other: &Self) -> bool {
        self.saddle == other.saddle && self.has_parts_of(other)
    }

    /// Whether both are set up alike but for the saddle.
    pub fn differs_in_saddle_from(&self, other: &Self) -> bool {
        self.saddle != other.saddle && self.has_parts_of(other)
    }

    /// Everything but the saddle; taken apart, so that what is added to a cockpit is thought of here.
    fn has_parts_of(&self, other: &Self) -> bool {
        let Self {
            id: _,
            label: _,
            ridden: _,
            saddle: _,
            bar,
            stem,
            spacers_mm,
            roll_deg,
            levers,
            drops_hand_mm,
        } = self;
        (*spacers_mm, *roll_deg, *drops_hand_mm)
            == (other.spacers_mm, other.roll_deg, other.drops_hand_mm)
            && (bar, stem, levers) == (&other.bar, &other.stem, &other.levers)
    }

    /// Whether it needs more of the steerer than that one did; nobody knows how much is left.
    pub fn more_spacers_than(&self, came: &Self) -> bool {
        self.spacers_mm > came.spacers_mm
    }
}
