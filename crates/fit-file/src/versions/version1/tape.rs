//! What was read off the bike with the tape, in the file. Lengths in mm, slopes in degrees.
//!
//! Each reading is a word of its own with how the tape was laid and its value:
//! `nose_to_bar(laid: level, mm: 512.0)`, `ramp_slope(deg: 4.0)`.

use super::kept::{Kept, Number, kept, required, words};
use super::parts::WidthHow;
use crate::text::{Field, Shape, snake};
use fit_doc::tape::Of;
use serde::{Deserialize, Serialize};

words! {
    Laid { Level, Slant, }
    HoodAt { Trough, Tip, }
    BarKnown { Catalogue, Measured, FamilyOnly, }
}

kept! {
    Tape {
        readings: Vec<TapeReading>,
        nose_up_deg: Number,
        bar_known: BarKnown,
        frame_known: bool,
    }
}

/// Readings by their words; the arguments of each are those of the sums' own, in their order.
macro_rules! readings {
    ($($name:ident { $($key:ident: $kind:ty,)* } $unit:ident,)+) => {
        /// One reading.
        #[derive(Debug, Serialize, Deserialize)]
        #[serde(rename_all = "snake_case", deny_unknown_fields)]
        pub(crate) enum TapeReading {
            $($name {
                $(#[serde(deserialize_with = "required")] $key: $kind,)*
                #[serde(deserialize_with = "required")]
                $unit: Number,
            },)+
        }

        impl Kept for TapeReading {
            type Doc = fit_doc::TapeReading;

            fn from_doc(doc: &Self::Doc) -> Self {
                let value = Number::from_doc(&doc.value);
                match &doc.of {
                    $(readings!(@of $name $($key)*) => {
                        Self::$name { $($key: Kept::from_doc($key),)* $unit: value }
                    })+
                }
            }

            fn into_doc(self) -> Self::Doc {
                let (of, value) = match self {
                    $(Self::$name { $($key,)* $unit } => {
                        $(let $key = $key.into_doc();)*
                        (readings!(@of $name $($key)*), $unit)
                    })+
                };
                fit_doc::TapeReading { of, value: value.into_doc() }
            }

            fn shape() -> Shape {
                Shape::Choice(vec![$((
                    snake(stringify!($name)),
                    vec![
                        $(Field::new(stringify!($key), <$kind>::shape()),)*
                        Field::new(stringify!($unit), Number::shape()),
                    ],
                ),)+])
            }
        }
    };
    (@of $name:ident) => { Of::$name };
    (@of $name:ident $($key:ident)+) => { Of::$name($($key),+) };
}

readings! {
    SaddleHeight { } mm,
    NoseBehindAxle { } mm,
    NoseToWide { laid: Laid, } mm,
    SaddleTilt { } deg,
    NoseToBar { laid: Laid, } mm,
    BarBelowSaddle { } mm,
    NoseToHood { at: HoodAt, laid: Laid, } mm,
    HoodBelowSaddle { at: HoodAt, } mm,
    NoseToHookFront { laid: Laid, } mm,
    HookLowestBelowSaddle { } mm,
    RampSlope { } deg,
    LeverFromEnd { } mm,
    WidthAtHoods { how: WidthHow, } mm,
    AxleToBar { } mm,
    TailSlope { } deg,
    HoodSlope { } deg,
    NoseToBarEnd { laid: Laid, } mm,
    BarEndBelowSaddle { } mm,
}

#[cfg(test)]
mod tests {
    use super::*;
    use fit_doc::TapeItem;

    #[test]
    fn a_reading_is_a_word_with_its_unit() {
        let text = |of, value| {
            let reading = fit_doc::TapeReading { of, value };
            let text = ron::to_string(&TapeReading::from_doc(&reading)).unwrap();
            let back: TapeReading = ron::from_str(&text).unwrap();
            assert_eq!(back.into_doc(), reading);
            text
        };
        for item in TapeItem::ALL {
            for &of in item.ways() {
                let unit = if item.is_angle() { "deg:4.5)" } else { "mm:4.5)" };
                let text = text(of, 4.5);
                assert!(text.ends_with(unit), "{text}");
                assert!(text.starts_with(&snake(&format!("{item:?}"))), "{text}");
            }
        }
        let hood = Of::NoseToHood(fit_doc::tape::HoodAt::Trough, fit_doc::tape::Laid::Slant);
        assert_eq!(text(hood, 650.0), "nose_to_hood(at:trough,laid:slant,mm:650.0)");
        let width = Of::WidthAtHoods(fit_doc::WidthHow::OutsideToOutside);
        assert_eq!(text(width, 424.0), "width_at_hoods(how:outside_to_outside,mm:424.0)");
    }
}
