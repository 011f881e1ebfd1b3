//! Putting cockpits together from stock numbers, and readings from numbers.

use fit_doc::{
    Cockpit, Dimension, Frame, LeverSetting, Levers, Message, Place, Reading, Saddle, Tape,
    TapeItem, geometry,
};
use fit_file::stock::{Stock, StockError};
use fit_math::cockpit::move_lever;
use thiserror::Error;

/// Why a demo session cannot be put together.
#[derive(Debug, Error)]
pub enum DemoError {
    /// The lists do not read.
    #[error(transparent)]
    Stock(#[from] StockError),
    /// No such number in the lists.
    #[error("there is no {id} in stock")]
    NoSuchPart {
        /// The number.
        id: &'static str,
    },
    /// A visit cannot be weighed.
    #[error("{0}")]
    NotWeighed(String),
    /// A bar cannot be built.
    #[error("{0:?}")]
    Bar(Message),
}

/// Bar, stem and lever by stock number, with spacers (mm) and roll (degrees).
pub struct Parts {
    /// Stock number of the bar.
    pub bar: &'static str,
    /// Stock number of the stem.
    pub stem: &'static str,
    /// The stem points down.
    pub turned_over: bool,
    /// Spacers under the stem, mm.
    pub spacers_mm: f64,
    /// Roll of the bar, nose up, degrees.
    pub roll_deg: f64,
    /// Stock number of the lever.
    pub lever: &'static str,
}

/// The cockpit that a client arrived with; each lever as a tape laid along the bar from its end
/// reads it.
///
/// # Errors
/// Where the lists lack a part.
pub fn as_it_came(
    stock: &Stock,
    parts: &Parts,
    (left, right): (LeverSetting, LeverSetting),
    saddle: Saddle,
) -> Result<Cockpit, DemoError> {
    let lever = stock.lever(parts.lever).ok_or(DemoError::NoSuchPart { id: parts.lever })?.clone();
    let bar = stock.bar(parts.bar).ok_or(DemoError::NoSuchPart { id: parts.bar })?.clone();
    let stem = stock.stem(parts.stem).ok_or(DemoError::NoSuchPart { id: parts.stem })?;
    let mut stem = stem.clone();
    if parts.turned_over {
        stem.angle_deg = -stem.angle_deg;
    }
    Ok(Cockpit {
        id: "as-it-came".into(),
        label: "As it came".into(),
        bar,
        stem,
        spacers_mm: parts.spacers_mm,
        roll_deg: parts.roll_deg,
        levers: Some(Levers { lever, left, right }),
        drops_hand_mm: 0.0,
        saddle,
        ridden: true,
    })
}

/// A candidate of other parts, the levers at the heading that they have on `came`.
///
/// # Errors
/// Where the lists lack a part or a bar cannot be built.
pub fn candidate(
    stock: &Stock,
    came: &Cockpit,
    (id, label): (&str, &str),
    parts: &Parts,
) -> Result<Cockpit, DemoError> {
    let settings = came.levers.as_ref().map(|levers| (levers.left, levers.right));
    let settings = settings.unwrap_or((AT_THE_END, AT_THE_END));
    let mut made = as_it_came(stock, parts, settings, came.saddle)?;
    made.id = id.into();
    made.label = label.into();
    made.ridden = false;
    let bend = |cockpit: &Cockpit| {
        let place = Place::cockpit(&cockpit.label);
        geometry::bend(&place, &cockpit.bar).map_err(DemoError::Bar)
    };
    let (from, to) = (bend(came)?, bend(&made)?);
    let rolls = [came, &made].map(|cockpit| geometry::mounted_roll_deg(cockpit).to_radians());
    if let Some(levers) = &mut made.levers {
        for setting in [&mut levers.left, &mut levers.right] {
            let moved = move_lever((&from, rolls[0]), setting.along_mm, (&to, rolls[1]));
            setting.along_mm = tenth(moved.along_mm);
        }
    }
    Ok(made)
}

const AT_THE_END: LeverSetting = LeverSetting { along_mm: 0.0, turn_in_deg: 0.0, clicks: 0 };

/// To a tenth of a millimetre, which is less than a tenth of a degree on any hook.
fn tenth(mm: f64) -> f64 {
    (mm * 10.0).round() / 10.0
}

/// The same setting on either side.
pub fn both(along_mm: f64, turn_in_deg: f64, clicks: u32) -> (LeverSetting, LeverSetting) {
    let setting = LeverSetting { along_mm, turn_in_deg, clicks };
    (setting, setting)
}

/// The usual walk round the bike with the tape, and the two readings most worth taking besides: whole
/// mm and half degrees, as they are read.
pub(super) fn walked(frame: &Frame, came: &Cockpit) -> Result<Tape, DemoError> {
    let items = &TapeItem::ALL[..TapeItem::USUAL + 2];
    let exact = crate::tape::laid(frame, came, items.iter().map(|item| item.usual()), 0.0);
    let mut readings = exact.map_err(DemoError::Bar)?;
    for reading in &mut readings {
        let per_unit = if reading.of.is_angle() { 2.0 } else { 1.0 };
        reading.value = (reading.value * per_unit).round() / per_unit + 0.0;
    }
    Ok(Tape { readings, ..Tape::default() })
}

/// Readings in the order in which they were taken, mm (weight kg).
pub(super) fn readings(all: &[(Dimension, &[f64])]) -> Vec<Reading> {
    all.iter().map(|&(dimension, values)| Reading::of(dimension, values.to_vec())).collect()
}
