//! Inks by role, and what they look like in light and dark.
//!
//! The series colours are those of Okabe and Ito 2008 ("Color universal design", jfly.uni-koeln.de)
//! where they carry enough contrast on the ground, and darker or lighter neighbours where they do
//! not. Colour never stands alone: each series has its dash and its direct label. Contrast is
//! tested against the grounds by the formula of WCAG 2.2: text 4.5:1, lines 3:1.

use super::mark::Dash;

/// A colour, each part 0–255.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Rgb(pub u8, pub u8, pub u8);

impl Rgb {
    /// As `#rrggbb`.
    pub fn hex(self) -> String {
        format!("#{:02x}{:02x}{:02x}", self.0, self.1, self.2)
    }

    /// Relative luminance after WCAG 2.2, 0 (black) to 1 (white).
    pub fn luminance(self) -> f64 {
        let linear = |part: u8| {
            let c = f64::from(part) / 255.0;
            if c <= 0.04045 { c / 12.92 } else { ((c + 0.055) / 1.055).powf(2.4) }
        };
        0.2126 * linear(self.0) + 0.7152 * linear(self.1) + 0.0722 * linear(self.2)
    }

    /// Contrast ratio after WCAG 2.2, 1 to 21.
    pub fn contrast(self, other: Self) -> f64 {
        let (a, b) = (self.luminance(), other.luminance());
        (a.max(b) + 0.05) / (a.min(b) + 0.05)
    }
}

/// A cockpit's place in the row of line styles; 0 is as it came.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub struct Series(pub usize);

impl Series {
    /// How many series look different from each other: as it came, and four colours in five dashes.
    pub const DISTINCT: usize = 1 + Self::COLOURS * DASHES.len();

    /// Colours of the candidates.
    const COLOURS: usize = 4;

    /// Its dash. As it came and the first four candidates differ in colour and dash; each further
    /// round of four pairs the same colours with the next dash.
    pub fn dash(self) -> Dash {
        let Some(candidate) = self.0.checked_sub(1) else { return Dash::Solid };
        let round = candidate / Self::COLOURS;
        DASHES[(candidate % Self::COLOURS + round) % DASHES.len()]
    }

    /// Its place among the colours: the first is for as it came alone.
    fn colour(self) -> usize {
        self.0.checked_sub(1).map_or(0, |candidate| 1 + candidate % Self::COLOURS)
    }
}

/// Dashes of the candidates; the solid line, which is as it came's, comes last.
const DASHES: [Dash; 5] = [Dash::Long, Dash::Dots, Dash::DashDot, Dash::DashDotDot, Dash::Solid];

/// What something is drawn with, by role.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Ink {
    /// The page.
    Page,
    /// The ground of a drawing.
    Ground,
    /// The squares of the ground.
    Grid,
    /// Contours of frame and wheels.
    Bike,
    /// Inside of the frame's tubes.
    BikeTube,
    /// The saddle.
    Saddle,
    /// The rider's body on the near side.
    Rider,
    /// Its contours, and the helmet.
    RiderEdge,
    /// The rider's far leg, and a second rider behind the first.
    RiderFar,
    /// Its contours.
    RiderFarEdge,
    /// Ordinary text.
    Text,
    /// Secondary text.
    Quiet,
    /// Rules and frames of the page.
    Rule,
    /// What can be pressed or is chosen: buttons that lead on, the tab that is open.
    Accent,
    /// Text on the accent.
    OnAccent,
    /// Ground of a button or field.
    Chip,
    /// Edge of a button or field; a line that must be seen.
    ChipEdge,
    /// The ground under the pointer.
    ChipHover,
    /// What did not go, or cannot be.
    Refuse,
    /// A cockpit.
    Series(Series),
}

/// Light, dark or paper.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Theme {
    /// Dark on a warm light ground.
    Light,
    /// Dark on the white of the paper itself.
    Paper,
    /// Light on dark.
    Dark,
}

impl Theme {
    /// The two themes of a screen.
    pub const BOTH: [Self; 2] = [Self::Light, Self::Dark];

    /// The colour of an ink.
    pub fn colour(self, ink: Ink) -> Rgb {
        match self {
            Self::Light => light(ink),
            Self::Paper => paper(ink),
            Self::Dark => dark(ink),
        }
    }
}

fn light(ink: Ink) -> Rgb {
    /// black, blue, vermillion, a green and a purple darker than Okabe and Ito's
    const SERIES: [Rgb; 1 + Series::COLOURS] = [
        Rgb(0x1d, 0x1b, 0x20),
        Rgb(0x00, 0x6b, 0xa8),
        Rgb(0xb4, 0x48, 0x00),
        Rgb(0x00, 0x7a, 0x59),
        Rgb(0x93, 0x42, 0x78),
    ];
    match ink {
        Ink::Page => Rgb(0xf6, 0xf2, 0xea),
        Ink::Ground => Rgb(0xff, 0xfe, 0xfb),
        Ink::Grid => Rgb(0xee, 0xea, 0xe1),
        Ink::Bike => Rgb(0x8f, 0x88, 0x7a),
        Ink::BikeTube => Rgb(0xe9, 0xe4, 0xd9),
        Ink::Saddle => Rgb(0x4c, 0x48, 0x42),
        Ink::Rider => Rgb(0xcf, 0xdc, 0xe4),
        Ink::RiderEdge => Rgb(0x7a, 0x95, 0xa8),
        Ink::RiderFar => Rgb(0xe3, 0xea, 0xed),
        Ink::RiderFarEdge => Rgb(0xb3, 0xc2, 0xcc),
        Ink::Text => Rgb(0x1d, 0x1b, 0x20),
        Ink::Quiet => Rgb(0x62, 0x5d, 0x55),
        Ink::Rule => Rgb(0xdd, 0xd6, 0xc8),
        Ink::Accent => Rgb(0x0f, 0x4c, 0x5c),
        Ink::OnAccent => Rgb(0xff, 0xff, 0xff),
        Ink::Chip => Rgb(0xf1, 0xec, 0xe2),
        Ink::ChipEdge => Rgb(0x86, 0x7e, 0x70),
        Ink::ChipHover => Rgb(0xe6, 0xdf, 0xd1),
        Ink::Refuse => Rgb(0xa4, 0x1e, 0x22),
        Ink::Series(series) => SERIES[series.colour()],
    }
}

/// As light, where nothing is printed that only tells the ground from the page.
fn paper(ink: Ink) -> Rgb {
    match ink {
        Ink::Page | Ink::Ground => Rgb(0xff, 0xff, 0xff),
        Ink::Grid => Rgb(0xec, 0xec, 0xea),
        Ink::Rule => Rgb(0xcf, 0xcb, 0xc2),
        other => light(other),
    }
}

fn dark(ink: Ink) -> Rgb {
    /// white, sky blue, orange, a lighter green, reddish purple
    const SERIES: [Rgb; 1 + Series::COLOURS] = [
        Rgb(0xf2, 0xee, 0xe6),
        Rgb(0x56, 0xb4, 0xe9),
        Rgb(0xe6, 0x9f, 0x00),
        Rgb(0x2f, 0xbf, 0x91),
        Rgb(0xd9, 0x8f, 0xba),
    ];
    match ink {
        Ink::Page => Rgb(0x17, 0x18, 0x1b),
        Ink::Ground => Rgb(0x1f, 0x21, 0x25),
        Ink::Grid => Rgb(0x2b, 0x2e, 0x33),
        Ink::Bike => Rgb(0x8b, 0x86, 0x7c),
        Ink::BikeTube => Rgb(0x33, 0x33, 0x32),
        Ink::Saddle => Rgb(0xb9, 0xb2, 0xa6),
        Ink::Rider => Rgb(0x39, 0x4b, 0x59),
        Ink::RiderEdge => Rgb(0x64, 0x7d, 0x90),
        Ink::RiderFar => Rgb(0x29, 0x33, 0x3b),
        Ink::RiderFarEdge => Rgb(0x42, 0x52, 0x5e),
        Ink::Text => Rgb(0xf2, 0xee, 0xe6),
        Ink::Quiet => Rgb(0xb3, 0xad, 0xa2),
        Ink::Rule => Rgb(0x3a, 0x3d, 0x43),
        Ink::Accent => Rgb(0x8c, 0xd3, 0xe0),
        Ink::OnAccent => Rgb(0x10, 0x1c, 0x20),
        Ink::Chip => Rgb(0x2a, 0x2d, 0x32),
        Ink::ChipEdge => Rgb(0x82, 0x85, 0x8b),
        Ink::ChipHover => Rgb(0x37, 0x3b, 0x42),
        Ink::Refuse => Rgb(0xff, 0x9a, 0x94),
        Ink::Series(series) => SERIES[series.colour()],
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn contrast_of_black_and_white_is_twenty_one() {
        // the two ends of the scale as WCAG 2.2 states them
        assert!((Rgb(0, 0, 0).contrast(Rgb(255, 255, 255)) - 21.0).abs() < 1e-12);
    }

    #[test]
    fn text_and_series_can_be_read_on_every_ground() {
        for theme in Theme::BOTH.into_iter().chain([Theme::Paper]) {
            for ground in [Ink::Page, Ink::Ground] {
                let ground = theme.colour(ground);
                let texts = [Ink::Text, Ink::Quiet];
                // series colours are used for direct labels too, so they count as text
                let series = (0..5).map(|i| Ink::Series(Series(i)));
                for ink in texts.into_iter().chain(series) {
                    let ratio = theme.colour(ink).contrast(ground);
                    assert!(ratio >= 4.5, "{theme:?} {ink:?}: {ratio:.2}");
                }
                let ratio = theme.colour(Ink::Bike).contrast(ground);
                assert!(ratio >= 3.0, "{theme:?} bike: {ratio:.2}");
            }
            // the far leg is left out: it only repeats what the near one says, and stands back
            let ratio = theme.colour(Ink::RiderEdge).contrast(theme.colour(Ink::Ground));
            assert!(ratio >= 3.0, "{theme:?} rider: {ratio:.2}");
        }
    }

    #[test]
    fn what_is_pressed_or_typed_can_be_read_and_seen() {
        for theme in Theme::BOTH {
            let colour = |ink| theme.colour(ink);
            let grounds = [Ink::Page, Ink::Ground, Ink::Chip, Ink::ChipHover];
            for ground in grounds {
                for ink in [Ink::Text, Ink::Accent, Ink::Refuse] {
                    let ratio = colour(ink).contrast(colour(ground));
                    assert!(ratio >= 4.5, "{theme:?} {ink:?} on {ground:?}: {ratio:.2}");
                }
            }
            let quiet = colour(Ink::Quiet).contrast(colour(Ink::Chip));
            assert!(quiet >= 4.5, "{theme:?} quiet on a chip: {quiet:.2}");
            let on = colour(Ink::OnAccent).contrast(colour(Ink::Accent));
            assert!(on >= 4.5, "{theme:?} on the accent: {on:.2}");
            for ground in grounds {
                let ratio = colour(Ink::ChipEdge).contrast(colour(ground));
                assert!(ratio >= 3.0, "{theme:?} edge on {ground:?}: {ratio:.2}");
            }
        }
    }

    #[test]
    fn twenty_one_series_differ_in_dash_or_colour() {
        assert_eq!(Series::DISTINCT, 21);
        for theme in Theme::BOTH {
            let look = |n| (Series(n).dash(), theme.colour(Ink::Series(Series(n))));
            for i in 0..Series::DISTINCT {
                for j in 0..i {
                    assert_ne!(look(i), look(j), "{i} {j}");
                }
            }
            assert_eq!(look(Series::DISTINCT), look(1), "from there on they repeat");
        }
    }

    #[test]
    fn no_candidate_looks_like_as_it_came() {
        for theme in Theme::BOTH {
            let colour = |n| theme.colour(Ink::Series(Series(n)));
            assert!((1..100).all(|n| colour(n) != colour(0)));
        }
    }

    #[test]
    fn the_first_five_series_differ_in_dash_and_in_colour() {
        for theme in Theme::BOTH {
            for i in 0..5 {
                for j in 0..i {
                    assert_ne!(Series(i).dash(), Series(j).dash());
                    let (a, b) = (Ink::Series(Series(i)), Ink::Series(Series(j)));
                    assert_ne!(theme.colour(a), theme.colour(b));
                }
            }
        }
    }
}
