//! The pictures that are kept and compared: every demo session in the drops, and the first one in
//! every hand place, in the dark, and with the hands in all places at once.

#![expect(clippy::expect_used, reason = "test support: a failure here is a failed test")]

use crate::root;
use fit_math::HandPlace;
use fit_math::body::Survey;
use fit_view::picture::{Hands, Picture, SideChoice, side_page};
use fit_view::scene::Theme;
use fit_view::weigh::weigh;
use fit_view::words::English;
use std::path::PathBuf;

/// A picture with the name of its file.
#[derive(Debug, Clone)]
pub struct Kept {
    /// Name without ending.
    pub name: String,
    /// The page.
    pub picture: Picture,
}

impl Kept {
    /// Where its file with that ending is kept.
    pub fn path(&self, ending: &str) -> PathBuf {
        root().join("tests/pictures").join(format!("{}.{ending}", self.name))
    }

    /// The picture in words, a sentence a line.
    pub fn twin(&self) -> String {
        self.picture.twin().join("\n") + "\n"
    }
}

/// All pictures, made anew.
///
/// # Panics
/// When a demo session cannot be opened, weighed or drawn.
pub fn all() -> Vec<Kept> {
    let survey = Survey::shipped().expect("the survey can be read");
    let mut kept = Vec::new();
    for session in ["demo", "small-hands", "stiff-neck"] {
        let path = root().join(format!("sessions/{session}.session.ron"));
        let opened = fit_file::open(&path).expect("a demo session opens");
        let weighed = weigh(&opened.session, None, &survey).expect("a demo session weighs");
        let usual = SideChoice::usual(&weighed);
        let mut draw = |name: String, choice: SideChoice| {
            let picture = side_page(&weighed, &choice, &English).expect("the page is made");
            kept.push(Kept { name, picture });
        };
        draw(format!("{session}-drops"), usual);
        if session == "demo" {
            for (word, place) in [
                ("tops", HandPlace::Tops),
                ("ramps", HandPlace::Ramps),
                ("hoods", HandPlace::Hoods),
                ("bent-elbow-hoods", HandPlace::BentElbowHoods),
                ("ends", HandPlace::Ends),
            ] {
                draw(format!("{session}-{word}"), SideChoice { place, ..usual });
            }
            draw(format!("{session}-dark"), SideChoice { theme: Theme::Dark, ..usual });
            draw(format!("{session}-all-hands"), SideChoice { hands: Hands::All, ..usual });
        }
    }
    kept
}
