//! A page that is shown or printed: panels with scenes, boxes, texts, all in points.
//!
//! x to the right and y *down*, as pages count; scenes inside their panels keep mm and y up.

mod looked_at;
mod page;
mod page_of_bench;
mod side_page;

pub use crate::side::Hands;
pub use page::{Align, Item, Panel, Picture, Rect, Role};
pub use page_of_bench::{Card, PageWords, page_of_bench};
pub use side_page::{SideChoice, card_brake, card_facts, side_page, side_view, silent_side_view};
pub(crate) use side_page::{plain_view, say_hidden_lines};
