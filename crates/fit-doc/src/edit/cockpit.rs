//! Changes to one cockpit: numbers, other parts, and what a matched cockpit takes over.

use super::number::{cockpit_mut, shapes_bar, shapes_stem, step};
use super::{StepOf, UndoStep, trial};
use crate::{
    Bar, Cockpit, Frame, HandPlace, KnownBy, Lever, LeverSetting, Levers, Message, Place, Price,
    Quantity, Stem, geometry,
};
use fit_math::cockpit::move_lever;
use fit_math::frame::Side;

/// One change to a cockpit.
#[derive(Debug, Clone, PartialEq)]
pub enum CockpitEdit {
    /// A number both sides share.
    Number {
        /// Which.
        quantity: Quantity,
        /// Its new value, mm or degrees.
        to: f64,
    },
    /// A number that is another because a part has slipped: a saddle slides down along its post.
    Slipped {
        /// Which.
        quantity: Quantity,
        /// Its new value, mm or degrees.
        to: f64,
    },
    /// A number of the levers' settings. Without a side it is the right lever's, and the left one
    /// moves along by as much.
    Lever {
        /// Which side alone.
        side: Option<Side>,
        /// Which number.
        quantity: Quantity,
        /// Its new value: mm, degrees or clicks.
        to: f64,
    },
    /// Its short name; one that is taken gets a number.
    Label(String),
    /// Another bar; the levers keep their heading.
    Bar {
        /// The bar.
        bar: Box<Bar>,
        /// The stem it needs, where the present one does not take it.
        stem: Option<Box<Stem>>,
    },
    /// Another stem, as it will be mounted.
    Stem(Box<Stem>),
    /// A stem of no make that puts the hands where a trial had them: a position, not parts.
    Trial {
        /// Which hand place was measured.
        place: HandPlace,
        /// Ahead of where it is on the cockpit as it came, mm; behind negative.
        ahead_mm: f64,
        /// Above that, mm; below negative.
        up_mm: f64,
        /// What such a stem is called.
        name: String,
    },
    /// Another kind of lever, or none.
    Levers(Option<Box<Lever>>),
    /// The client has ridden it.
    Ridden(bool),
    /// Stem, spacers, roll and lever settings of a cockpit that was matched.
    Settings {
        /// Where they come from; bar, saddle and name stay.
        of: Box<Cockpit>,
        /// The hand place that was brought back.
        place: HandPlace,
    },
}

/// What became of the levers on another bar.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Levered {
    /// They point where they did.
    AtHeading,
    /// The new bar cannot hold them at that heading: they are as near as it allows.
    Turned,
    /// There are none.
    None,
}

impl CockpitEdit {
    /// Changes a cockpit and names the step. `came` is the cockpit as it came: levers put on a bar
    /// that had none take its lever's heading.
    pub(super) fn apply(
        &self,
        cockpit: &mut Cockpit,
        came: &Cockpit,
        frame: Option<&Frame>,
    ) -> Result<UndoStep, Message> {
        let label = cockpit.label.clone();
        match self {
            Self::Number { quantity, to } => {
                let (own_bar, own_stem) = (shapes_bar(cockpit, *quantity), shapes_stem(*quantity));
                let before = cockpit.clone();
                let named = step(cockpit_mut(cockpit, *quantity), Some(label), *quantity, *to)?;
                if let (Quantity::SaddleHeight, Some(frame)) = (*quantity, frame)
                    && cockpit.id != came.id
                {
                    // what is on the bike is measured; what is tried is pulled out along the post
                    let back_mm = along_the_post(&before.saddle, *to, frame.seat_angle_deg);
                    cockpit.saddle.nose_behind_mm = tenth(before.saddle.nose_behind_mm + back_mm);
                }
                if own_bar {
                    no_longer_stock(&mut cockpit.bar.id, &mut cockpit.bar.shelf);
                    // a bar whose numbers are typed may for a moment be one that cannot be built;
                    // whoever keeps the edit checks that
                    let _ = carry_levers(&before, cockpit);
                } else if own_stem
                    && !before.stem.is_trial()
                    && !turned_over(&before.stem, &cockpit.stem)
                {
                    no_longer_stock(&mut cockpit.stem.id, &mut cockpit.stem.shelf);
                }
                Ok(named)
            }
            Self::Slipped { quantity: quantity @ Quantity::LeverAlong, to } => {
                set_lever(cockpit, None, *quantity, *to)
            }
            Self::Slipped { quantity, to } => {
                let before = cockpit.saddle;
                let named = step(cockpit_mut(cockpit, *quantity), Some(label), *quantity, *to)?;
                if let (Quantity::SaddleHeight, Some(frame)) = (*quantity, frame) {
                    let back_mm = along_the_post(&before, *to, frame.seat_angle_deg);
                    cockpit.saddle.nose_behind_mm = tenth(before.nose_behind_mm + back_mm);
                }
                Ok(named)
            }
            Self::Lever { side, quantity, to } => set_lever(cockpit, *side, *quantity, *to),
            Self::Label(to) => Ok(UndoStep::text(StepOf::Label, &mut cockpit.label, to)),
            Self::Bar { bar, stem } => {
                let before = cockpit.clone();
                cockpit.bar = (**bar).clone();
                if let Some(stem) = stem {
                    cockpit.stem = (**stem).clone();
                }
                carry_levers(&before, cockpit)?;
                Ok(UndoStep::Bar { label, bar: bar.name.clone(), width_mm: bar.width_mm })
            }
            Self::Stem(stem) => {
                cockpit.stem = (**stem).clone();
                let (length_mm, angle_deg) = (stem.length_mm, stem.angle_deg);
                Ok(UndoStep::Stem { label, length_mm, angle_deg })
            }
            Self::Trial { place, ahead_mm, up_mm, name } => {
                let (place, ahead_mm, up_mm) = (*place, *ahead_mm, *up_mm);
                cockpit.stem = trial::stem(cockpit, came, frame, place, (ahead_mm, up_mm), name)?;
                Ok(UndoStep::Trial { label, place, ahead_mm, up_mm })
            }
            Self::Levers(lever) => {
                let settings = cockpit.levers.as_ref().map(|levers| (levers.left, levers.right));
                let settings = match settings {
                    Some(settings) => settings,
                    None => first_settings(came, cockpit)?,
                };
                let named = lever.as_ref().map(|lever| lever.name.clone());
                cockpit.levers = lever.as_ref().map(|lever| Levers {
                    lever: (**lever).clone(),
                    left: settings.0,
                    right: settings.1,
                });
                Ok(UndoStep::Levers { label, lever: named })
            }
            Self::Ridden(to) => {
                cockpit.ridden = *to;
                Ok(UndoStep::Ridden { label, to: *to })
            }
            Self::Settings { of, place } => {
                cockpit.stem = of.stem.clone();
                cockpit.spacers_mm = of.spacers_mm;
                cockpit.roll_deg = of.roll_deg;
                if let (Some(levers), Some(new)) = (&mut cockpit.levers, &of.levers) {
                    (levers.left, levers.right) = (new.left, new.right);
                }
                Ok(UndoStep::Matched { label, place: *place })
            }
        }
    }
}

/// How much further back the nose is, mm, when a saddle is set to another height by its post alone, which
/// runs along the seat tube. Nought where no post leads to that height.
pub(crate) fn along_the_post(saddle: &crate::Saddle, to_mm: f64, seat_angle_deg: f64) -> f64 {
    let (sin, cos) = seat_angle_deg.to_radians().sin_cos();
    let behind = saddle.nose_behind_mm + saddle.sit_from_nose_mm;
    let up_squared = saddle.height_mm * saddle.height_mm - behind * behind;
    // the sit point moves by t along the post until it is as far from the axle as asked
    let half = up_squared.max(0.0).sqrt() * sin + behind * cos;
    let more = to_mm * to_mm - saddle.height_mm * saddle.height_mm;
    let t = (half * half + more).max(0.0).sqrt() - half;
    if t.is_finite() && up_squared > 0.0 { t * cos } else { 0.0 }
}

/// Puts the levers of `to` at the heading after roll that they have on `from`, to a tenth of a
/// millimetre along the bar (less than a tenth of a degree on any hook). Carrying the distance
/// along the bar over instead would turn them by tens of degrees.
///
/// # Errors
/// When one of the two bars cannot be built.
pub fn carry_levers(from: &Cockpit, to: &mut Cockpit) -> Result<Levered, Message> {
    let (old, new) = (bend(from)?, bend(to)?);
    let rolls = [from, to].map(|cockpit| geometry::mounted_roll_deg(cockpit).to_radians());
    let Some(levers) = &mut to.levers else { return Ok(Levered::None) };
    let mut levered = Levered::AtHeading;
    for setting in [&mut levers.left, &mut levers.right] {
        let moved = move_lever((&old, rolls[0]), setting.along_mm, (&new, rolls[1]));
        setting.along_mm = tenth(moved.along_mm);
        if moved.heading_off_rad != 0.0 {
            levered = Levered::Turned;
        }
    }
    Ok(levered)
}

/// How far along the bend of another bar the levers are set from where they would stand at the heading that they
/// have now, mm, of the right one; none on the same bar, without levers, or where they cannot be carried over.
pub fn levers_on_another_bar_mm(from: &Cockpit, to: &Cockpit) -> Option<f64> {
    if from.bar.id == to.bar.id {
        return None;
    }
    let mut carried = Cockpit { bar: to.bar.clone(), ..from.clone() };
    carry_levers(from, &mut carried).ok()?;
    let along_mm = |of: &Cockpit| of.levers.as_ref().map(|levers| levers.right.along_mm);
    Some(along_mm(to)? - along_mm(&carried)?)
}

/// Settings for levers on a bar that had none: at the heading of those as it came, or where the
/// bar is usually clamped.
fn first_settings(
    came: &Cockpit,
    cockpit: &Cockpit,
) -> Result<(LeverSetting, LeverSetting), Message> {
    if came.levers.is_some() {
        let mut carried = cockpit.clone();
        carried.levers.clone_from(&came.levers);
        carry_levers(came, &mut carried)?;
        if let Some(levers) = carried.levers {
            return Ok((levers.left, levers.right));
        }
    }
    let bend = bend(cockpit)?;
    let along_mm = tenth(bend.along_from_s(bend.default_clamp().s_mm));
    let setting = LeverSetting { along_mm, turn_in_deg: 0.0, clicks: 0 };
    Ok((setting, setting))
}

fn set_lever(
    cockpit: &mut Cockpit,
    side: Option<Side>,
    quantity: Quantity,
    to: f64,
) -> Result<UndoStep, Message> {
    let label = cockpit.label.clone();
    let missing = || Message::NoSuchNumber { place: Place::cockpit(&label), quantity };
    let levers = cockpit.levers.as_mut().ok_or_else(missing)?;
    let led = match side {
        Some(Side::Left) => levers.left,
        Some(Side::Right) | None => levers.right,
    };
    let from = super::lever_number(&led, quantity).ok_or_else(missing)?;
    let moved = |setting: LeverSetting| match quantity {
        Quantity::LeverAlong => {
            LeverSetting { along_mm: setting.along_mm + (to - from), ..setting }
        }
        Quantity::LeverTurnIn => {
            LeverSetting { turn_in_deg: setting.turn_in_deg + (to - from), ..setting }
        }
        _ => LeverSetting { clicks: clicks(f64::from(setting.clicks) + (to - from)), ..setting },
    };
    if side != Some(Side::Right) {
        levers.left = moved(levers.left);
    }
    if side != Some(Side::Left) {
        levers.right = moved(levers.right);
    }
    // the number that was typed stands as it was typed, whatever the sum's last digit says
    let exact = |setting: &mut LeverSetting| match quantity {
        Quantity::LeverAlong => setting.along_mm = to,
        Quantity::LeverTurnIn => setting.turn_in_deg = to,
        _ => setting.clicks = clicks(to),
    };
    match side {
        Some(Side::Left) => exact(&mut levers.left),
        Some(Side::Right) | None => exact(&mut levers.right),
    }
    Ok(UndoStep::Number { of: Some(label), quantity, from: Some(from), to: Some(to) })
}

fn bend(cockpit: &Cockpit) -> Result<fit_math::bar::Bend, Message> {
    geometry::bend(&Place::cockpit(&cockpit.label), &cockpit.bar)
}

/// A stem with its angle the other way up is still that stem.
fn turned_over(before: &Stem, after: &Stem) -> bool {
    before.reversible
        && after.angle_deg == -before.angle_deg
        && after.length_mm == before.length_mm
        && after.clamp_height_mm == before.clamp_height_mm
}

/// A part whose numbers were typed is measured, not from a catalogue: its price and stock are
/// another part's.
pub(crate) fn no_longer_stock(id: &mut String, shelf: &mut crate::OnTheShelf) {
    if !id.ends_with(OWN) {
        id.push_str(OWN);
    }
    *shelf = crate::OnTheShelf { price: None::<Price>, in_stock: 0, known_by: KnownBy::Measured };
}

/// Ends the number of a part that was changed by hand.
const OWN: &str = "-own";

fn tenth(mm: f64) -> f64 {
    (mm * 10.0).round() / 10.0
}

#[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "saturates")]
fn clicks(count: f64) -> u32 {
    count.round() as u32
}
