//! Room for the palm: in the hook below the lever, and on the flat.
//!
//! mm, along the bar. The palm must fit with some millimetres to spare. The hand is taken as a
//! length on the bar; how thick tape or a glove make it is for the client to feel.

use crate::bar::Bend;
use crate::cockpit::TAPE_MM;

/// What a hand needs beyond the breadth of its palm, mm (common practice, no source).
pub const BESIDE_PALM_MM: f64 = 10.0;

/// Where the palm needs room.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum PalmPlace {
    /// In the hook, anywhere between the lever's clamp and the start of the tail, along the bar.
    Hook,
    /// Within the bend, straight across from the start of the hook to its end, tube and tape taken
    /// off: the inner diameter of a round bend. The palm alone must fit, as it may stand out of the
    /// open side (judgement).
    AcrossTheHook,
    /// In the middle of the flat, between the lever's clamp and the bar's end, along the bar.
    Flat,
}

/// Room in one place.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PalmRoom {
    /// Where.
    pub place: PalmPlace,
    /// How much there is, mm.
    pub room_mm: f64,
    /// How much the hand needs, mm.
    pub needed_mm: f64,
}

impl PalmRoom {
    /// The palm fits.
    pub fn fits(&self) -> bool {
        self.room_mm >= self.needed_mm
    }
}

/// Room for a palm of that breadth (mm) below a lever whose clamp, `clamp_width_mm` wide, has its
/// middle `along_mm` from the bar's end: in the hook, across it, and on the flat of a bar that has
/// one.
pub fn palm_room(bend: &Bend, along_mm: f64, clamp_width_mm: f64, palm_mm: f64) -> Vec<PalmRoom> {
    let needed_mm = palm_mm + BESIDE_PALM_MM;
    let lever_mm = bend.s_from_along(along_mm) + 0.5 * clamp_width_mm;
    let (hook_from_mm, hook_to_mm) = bend.hook();
    let across_mm = bend.chain().at(hook_from_mm).point.distance(bend.chain().at(hook_to_mm).point);
    let room = |place: PalmPlace, room_mm: f64| PalmRoom { place, room_mm, needed_mm };
    let inner_mm = (across_mm - bend.dimensions().drops_mm - 2.0 * TAPE_MM).max(0.0);
    let mut rooms = vec![
        room(PalmPlace::Hook, (hook_to_mm - lever_mm.max(hook_from_mm)).max(0.0)),
        PalmRoom { place: PalmPlace::AcrossTheHook, room_mm: inner_mm, needed_mm: palm_mm },
    ];
    if let Some((flat_from_mm, flat_to_mm)) = bend.flat() {
        // a hand whose middle lies there has as much as the shorter way, on both sides
        let middle_mm = f64::midpoint(flat_from_mm, flat_to_mm);
        let shorter_mm = (middle_mm - lever_mm).min(bend.chain().length_mm() - middle_mm);
        rooms.push(room(PalmPlace::Flat, 2.0 * shorter_mm.max(0.0)));
    }
    rooms
}
