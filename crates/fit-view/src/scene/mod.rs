//! A drawing in millimetres: layers of lines, fills and labels, without a screen or a page.
//!
//! One scene feeds the window, the paper and the tests. x forward and y up, bike frame, mm. Only
//! text sizes and line widths are in *points*, the unit of whatever it is shown on, because a
//! label must stay readable at any zoom. A scene can describe itself in words ([`Scene::twin`]).

mod ink;
mod label;
mod mark;
mod path;
mod text;

pub use ink::{Ink, Rgb, Series, Theme};
pub use label::{LabelWish, place_labels};
pub use mark::{Anchor, Dash, Layer, LayerName, Mark, Pen, Scene, Width, Window};
pub use path::Path;
pub use text::{
    FONT_REGULAR, FONT_SEMIBOLD, FontError, Glyph, Weight, fitted, glyphs, shrunk, text_width,
    wrapped,
};
