//! Match on the document: which stem, spacers, roll and lever position bring a hand place back to
//! where it was as it came.

use fit_doc::{Cockpit, Frame, HandPlace, Message, Place, Stem, Stock, geometry};
use fit_view::matching::{Axes, MatchGoal, match_place};

/// Rolls that are looked through, whole degrees (common practice, no source: beyond, the wrists and
/// the tops suffer).
const ROLLS_DEG: (i32, i32) = (-3, 5);
/// How far a lever is moved along the bend, mm (common practice, no source).
const MOST_SHIFT_MM: i32 = 15;

/// A cockpit that was matched.
pub(crate) struct Found {
    /// With the settings that were found.
    pub(crate) cockpit: Cockpit,
    /// What is left of the distance in the side view, mm.
    pub(crate) residual_mm: f64,
    /// How much further out each hand ends, mm.
    pub(crate) wider_mm: f64,
    /// How much further up the hands point, in the side view, degrees.
    pub(crate) turned_deg: f64,
}

/// Looks through the stock for what brings the place back; none where a cockpit lacks it.
///
/// No more spacers are looked through than were under the stem as it came, or stand there now by
/// somebody's choice: nobody knows what the steerer has left, and none is lengthened.
pub(crate) fn bring_back(
    frame: &Frame,
    came: &Cockpit,
    present: &Cockpit,
    place: HandPlace,
    stock: &Stock,
) -> Result<Option<Found>, Message> {
    let on_stock = on_a_stock_stem(present, stock);
    let present = on_stock.as_ref().unwrap_or(present);
    let reference = geometry::cockpit(&Place::cockpit(&came.label), frame, came)?;
    let built = geometry::cockpit(&Place::cockpit(&present.label), frame, present)?;
    let Some(wanted) = reference.grips(place) else { return Ok(None) };
    let goal = MatchGoal { place, grip: wanted.midway() };
    let fixed = present.bar.one_piece.is_some();
    let fits = |stem: &&Stem| {
        stem.bar_diameter_mm == present.stem.bar_diameter_mm
            && stem.steerer_diameter_mm == present.stem.steerer_diameter_mm
    };
    let stems: Vec<Stem> = if fixed {
        Vec::new()
    } else {
        stock.stems.iter().filter(fits).flat_map(Stem::ways_up).collect()
    };
    let most_spacers = whole(came.spacers_mm.max(present.spacers_mm));
    let rolls = if fixed { (0, 0) } else { ROLLS_DEG };
    let axes =
        Axes::usual(stems.iter().map(geometry::stem).collect(), most_spacers, rolls, MOST_SHIFT_MM);
    let found = match_place(&goal, &built, &axes).map_err(|_| Message::NoSuchCockpit {
        place: Place::client(),
        id: present.id.clone(),
        known: Vec::new(),
    })?;
    Ok(found.map(|found| {
        let mut cockpit = present.clone();
        let stem = found.cockpit.stem();
        if !fixed
            && stem != built.stem()
            && let Some(taken) = stems.into_iter().find(|s| geometry::stem(s) == *stem)
        {
            cockpit.stem = taken;
        }
        cockpit.spacers_mm = found.cockpit.spacers_mm();
        if !fixed {
            cockpit.roll_deg = hundredth(found.cockpit.roll_rad().to_degrees());
        }
        if let (Some(levers), Some(pair)) = (&mut cockpit.levers, found.cockpit.levers()) {
            levers.left.along_mm = hundredth(pair.left.along_mm);
            levers.right.along_mm = hundredth(pair.right.along_mm);
        }
        let (residual_mm, wider_mm) = (found.residual_mm, found.wider_mm);
        let turned = found.cockpit.grips(place).map(|now| {
            let [was, now] = [wanted, now].map(|grips| grips.right.axis.truncate());
            was.angle_to(now).to_degrees()
        });
        Found { cockpit, residual_mm, wider_mm, turned_deg: turned.unwrap_or_default() }
    }))
}

/// A trial stem is a position, not a part: the search begins from the stem in stock that is nearest to
/// it. None for a stem that is one, or where no stem of the stock fits.
fn on_a_stock_stem(present: &Cockpit, stock: &Stock) -> Option<Cockpit> {
    let trial = Some(&present.stem).filter(|stem| stem.is_trial())?;
    let fitting = stock.stems.iter().filter(|stem| {
        stem.bar_diameter_mm == trial.bar_diameter_mm
            && stem.steerer_diameter_mm == trial.steerer_diameter_mm
    });
    let off_mm = |stem: &Stem| {
        let across = trial.length_mm * (stem.angle_deg - trial.angle_deg).to_radians();
        across.hypot(stem.length_mm - trial.length_mm)
    };
    let nearest = fitting.flat_map(Stem::ways_up).min_by(|a, b| off_mm(a).total_cmp(&off_mm(b)))?;
    Some(Cockpit { stem: nearest, ..present.clone() })
}

/// Degrees that went through radians come back as they were typed.
fn hundredth(value: f64) -> f64 {
    (value * 100.0).round() / 100.0
}

#[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "saturates")]
fn whole(mm: f64) -> u32 {
    mm.max(0.0) as u32
}
