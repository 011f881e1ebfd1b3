//! A page that is shown or printed: panels with scenes, boxes, texts, all in points.
//!
//! x to the right and y *down*, as pages count; scenes inside their panels keep mm and y up.

mod page;

pub use page::{Align, Item, Panel, Picture, Rect};
