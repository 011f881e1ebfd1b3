//! What a hand place is called between programs: in the output, on the command line, in file names.

use fit_math::HandPlace;

/// The id of a hand place: lower case, words joined by hyphens; the same in every language.
pub const fn place_id(place: HandPlace) -> &'static str {
    match place {
        HandPlace::Tops => "tops",
        HandPlace::Ramps => "ramps",
        HandPlace::Hoods => "hoods",
        HandPlace::BentElbowHoods => "bent-elbow-hoods",
        HandPlace::Drops => "drops",
        HandPlace::Ends => "ends",
    }
}
