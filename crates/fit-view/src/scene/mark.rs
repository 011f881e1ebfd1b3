//! What a scene consists of.

use super::{Ink, Path, Weight};
use fit_math::DVec2;

/// A rectangle in mm, y up.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Window {
    /// Lower left corner, mm.
    pub least: DVec2,
    /// Upper right corner, mm.
    pub most: DVec2,
}

impl Window {
    /// Width and height, mm.
    pub fn size(&self) -> DVec2 {
        self.most - self.least
    }

    /// A point is inside.
    pub fn contains(&self, p: DVec2) -> bool {
        p.cmpge(self.least).all() && p.cmple(self.most).all()
    }

    /// The two overlap.
    pub fn overlaps(&self, other: &Self) -> bool {
        self.least.cmplt(other.most).all() && other.least.cmplt(self.most).all()
    }
}

/// How a line is broken.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Dash {
    /// Not at all.
    Solid,
    /// Long dashes.
    Long,
    /// Dots.
    Dots,
    /// Dash, dot.
    DashDot,
    /// Dash, dot, dot.
    DashDotDot,
}

impl Dash {
    /// Lengths of line and gap in turn, in line widths; empty for a solid line. Round ends add
    /// one width to each stretch of line.
    pub fn pattern(self) -> &'static [f64] {
        match self {
            Self::Solid => &[],
            Self::Long => &[3.4, 2.6],
            Self::Dots => &[0.01, 2.1],
            Self::DashDot => &[4.0, 2.3, 0.01, 2.3],
            Self::DashDotDot => &[4.6, 2.2, 0.01, 2.1, 0.01, 2.2],
        }
    }
}

/// Width of a line.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Width {
    /// In points of the page or screen: the same at every zoom.
    Points(f64),
    /// True to scale, mm.
    Mm(f64),
}

/// How a line is drawn.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Pen {
    /// Ink.
    pub ink: Ink,
    /// Width.
    pub width: Width,
    /// Dash.
    pub dash: Dash,
    /// 0 invisible, 1 solid.
    pub opacity: f64,
}

impl Pen {
    /// A solid line.
    pub fn solid(ink: Ink, width_points: f64) -> Self {
        Self { ink, width: Width::Points(width_points), dash: Dash::Solid, opacity: 1.0 }
    }
}

/// Which point of a text stands at its place.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Anchor {
    /// Its left end.
    Start,
    /// Its middle.
    Middle,
    /// Its right end.
    End,
}

/// One thing drawn.
#[derive(Debug, Clone, PartialEq)]
pub enum Mark {
    /// A line.
    Stroke {
        /// Where, mm.
        path: Path,
        /// How.
        pen: Pen,
    },
    /// A filled shape.
    Fill {
        /// Outline, mm; even closed when the path is open.
        path: Path,
        /// Ink.
        ink: Ink,
        /// 0 invisible, 1 solid.
        opacity: f64,
    },
    /// A text, its middle line at `at`.
    Text {
        /// Place, mm.
        at: DVec2,
        /// Which end stands there.
        anchor: Anchor,
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

impl Mark {
    /// The same somewhere else, mm.
    #[must_use]
    pub fn moved(mut self, by: DVec2) -> Self {
        match &mut self {
            Self::Stroke { path, .. } | Self::Fill { path, .. } => {
                path.points.iter_mut().for_each(|p| *p += by);
            }
            Self::Text { at, .. } => *at += by,
        }
        self
    }
}

/// What a layer shows.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum LayerName {
    /// Squares of 100 mm.
    Grid,
    /// The rider on the bike as it came, behind everything.
    RiderBefore,
    /// Far leg of the rider.
    RiderFar,
    /// Frame, wheels, saddle, crank.
    Bike,
    /// The rider.
    Rider,
    /// Bars, levers and stems.
    Cockpits,
    /// Hands on the bars.
    Hands,
    /// Labels and their leaders.
    Labels,
}

impl LayerName {
    /// A short word for files that name their parts.
    pub fn id(self) -> &'static str {
        match self {
            Self::Grid => "grid",
            Self::RiderBefore => "rider-before",
            Self::RiderFar => "rider-far",
            Self::Bike => "bike",
            Self::Rider => "rider",
            Self::Cockpits => "cockpits",
            Self::Hands => "hands",
            Self::Labels => "labels",
        }
    }
}

/// Things drawn together.
#[derive(Debug, Clone, PartialEq)]
pub struct Layer {
    /// What it shows.
    pub name: LayerName,
    /// In drawing order.
    pub marks: Vec<Mark>,
}

/// A drawing in mm.
#[derive(Debug, Clone, PartialEq)]
pub struct Scene {
    /// The part that is shown.
    pub window: Window,
    /// Layers, furthest back first.
    pub layers: Vec<Layer>,
    /// The scene in words, a sentence a line: what screen readers and tests read.
    pub twin: Vec<String>,
}

impl Scene {
    /// The same drawing with all lines and texts that are measured in points `by` times as large:
    /// for a page whose points are smaller than those the scene was made for.
    #[must_use]
    pub fn with_points(mut self, by: f64) -> Self {
        for mark in self.layers.iter_mut().flat_map(|layer| &mut layer.marks) {
            match mark {
                Mark::Stroke { pen: Pen { width: Width::Points(points), .. }, .. } => *points *= by,
                Mark::Text { size, .. } => *size *= by,
                Mark::Stroke { .. } | Mark::Fill { .. } => {}
            }
        }
        self
    }
}
