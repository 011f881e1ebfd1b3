//! What a page consists of.

use crate::scene::{Anchor, Ink, Scene, Theme, Weight};
use fit_math::DVec2;

/// A rectangle on the page, points, y down.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Rect {
    /// Left edge.
    pub x: f64,
    /// Upper edge.
    pub y: f64,
    /// Width.
    pub width: f64,
    /// Height.
    pub height: f64,
}

/// How a text stands at its place.
pub type Align = Anchor;

/// A scene in its frame: the middle of its window in the middle of the frame.
#[derive(Debug, Clone, PartialEq)]
pub struct Panel {
    /// Frame on the page; everything outside is cut off.
    pub frame: Rect,
    /// The drawing.
    pub scene: Scene,
    /// Scale, the same in both directions.
    pub points_per_mm: f64,
}

impl Panel {
    /// A panel whose scene's window just fits into the frame.
    pub fn fitted(frame: Rect, scene: Scene) -> Self {
        let size = scene.window.size();
        let points_per_mm = (frame.width / size.x).min(frame.height / size.y);
        Self { frame, scene, points_per_mm }
    }

    /// A point of the scene on the page.
    pub fn page_from_scene(&self, mm: DVec2) -> DVec2 {
        let middle = (self.scene.window.least + self.scene.window.most) / 2.0;
        let off = (mm - middle) * self.points_per_mm;
        DVec2::new(
            self.frame.x + self.frame.width / 2.0 + off.x,
            self.frame.y + self.frame.height / 2.0 - off.y,
        )
    }
}

/// What a part of a page is to readers that follow its structure instead of looking at it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Role {
    /// The heading of the page.
    Title,
    /// The heading of a section.
    Heading,
    /// A paragraph, a line an item.
    Paragraph,
    /// A list, an entry an item.
    List,
    /// One entry of a list, a line an item.
    Entry,
    /// A table, a row an item.
    Table,
    /// One row of a table, a cell an item.
    Row,
    /// A cell that heads its column.
    ColumnHead,
    /// A cell that heads its row.
    RowHead,
    /// Any other cell.
    Cell,
    /// Drawings that belong together; what they say stands in their twins.
    Figure,
}

/// One thing on the page.
#[derive(Debug, Clone, PartialEq)]
pub enum Item {
    /// Things that belong together, in reading order.
    Part {
        /// What they are.
        role: Role,
        /// The things.
        items: Vec<Item>,
    },
    /// A box with rounded corners.
    Box {
        /// Where.
        frame: Rect,
        /// Inside.
        fill: Ink,
        /// Its rule, if any.
        rule: Option<(Ink, f64)>,
        /// Radius of the corners.
        corner: f64,
    },
    /// A drawing.
    Panel(Panel),
    /// A line of text, its middle line at `at`.
    Text {
        /// Where.
        at: DVec2,
        /// Which end stands there.
        align: Align,
        /// What it says.
        text: String,
        /// Size in points.
        size: f64,
        /// Ink.
        ink: Ink,
        /// Weight.
        weight: Weight,
    },
}

/// A page.
#[derive(Debug, Clone, PartialEq)]
pub struct Picture {
    /// Width, points.
    pub width: f64,
    /// Height, points.
    pub height: f64,
    /// Light or dark.
    pub theme: Theme,
    /// Title, for readers that announce one.
    pub title: String,
    /// The language of its words as a tag (BCP 47): "en-GB".
    pub language: &'static str,
    /// In drawing order.
    pub items: Vec<Item>,
}

impl Item {
    /// The things themselves, whatever they are part of, in drawing order.
    pub fn leaves(&self) -> Vec<&Self> {
        match self {
            Self::Part { items, .. } => items.iter().flat_map(Self::leaves).collect(),
            Self::Box { .. } | Self::Panel(_) | Self::Text { .. } => vec![self],
        }
    }

    /// The item in words: the twins of all its scenes, in order.
    pub fn twin(&self) -> Vec<&str> {
        let panels = self.leaves().into_iter().filter_map(|item| match item {
            Self::Panel(panel) => Some(panel),
            _ => None,
        });
        panels.flat_map(|panel| panel.scene.twin.iter().map(String::as_str)).collect()
    }
}

impl Picture {
    /// Everything on the page, whatever it is part of, in drawing order.
    pub fn leaves(&self) -> Vec<&Item> {
        self.items.iter().flat_map(Item::leaves).collect()
    }

    /// The page in words: the twins of all its scenes, in order.
    pub fn twin(&self) -> Vec<&str> {
        self.items.iter().flat_map(Item::twin).collect()
    }
}
