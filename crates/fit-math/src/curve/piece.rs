//! The two kinds of piece a chain is made of: a straight line and a circular arc.
//!
//! Frame: that of the chain; mm and rad. A piece is only made by the pen
//! ([`super::ChainBuilder`]), so its directions are of unit length and its sizes above zero.
//! It deliberately does not know its place along a chain.
//! Source: elementary geometry of the circle.

use glam::{DAffine3, DVec3};

use crate::frame;

/// A straight piece.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Line {
    start: DVec3,
    tangent: DVec3,
    length_mm: f64,
}

/// A circular piece: it leaves along its tangent and bends towards its normal.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Arc {
    start: DVec3,
    tangent: DVec3,
    normal: DVec3,
    radius_mm: f64,
    turn_rad: f64,
}

/// One piece of a chain.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Piece {
    /// Straight.
    Line(Line),
    /// Circular.
    Arc(Arc),
}

impl Line {
    /// `tangent` is of unit length and `length_mm` above zero: the pen sees to it.
    pub(super) fn new(start: DVec3, tangent: DVec3, length_mm: f64) -> Self {
        Self { start, tangent, length_mm }
    }

    /// Where it starts, mm.
    pub fn start(&self) -> DVec3 {
        self.start
    }

    /// Its direction, of unit length.
    pub fn tangent(&self) -> DVec3 {
        self.tangent
    }

    /// Its length, mm, above zero.
    pub fn length_mm(&self) -> f64 {
        self.length_mm
    }
}

impl Arc {
    /// `tangent` and `normal` are of unit length and perpendicular, the sizes above zero: the pen
    /// sees to it.
    pub(super) fn new(
        start: DVec3,
        tangent: DVec3,
        normal: DVec3,
        radius_mm: f64,
        turn_rad: f64,
    ) -> Self {
        Self { start, tangent, normal, radius_mm, turn_rad }
    }

    /// Where it starts, mm.
    pub fn start(&self) -> DVec3 {
        self.start
    }

    /// Its direction at the start, of unit length.
    pub fn tangent(&self) -> DVec3 {
        self.tangent
    }

    /// The direction from its start to its centre, of unit length.
    pub fn normal(&self) -> DVec3 {
        self.normal
    }

    /// Its radius, mm, above zero.
    pub fn radius_mm(&self) -> f64 {
        self.radius_mm
    }

    /// The angle it turns through, rad, above zero.
    pub fn turn_rad(&self) -> f64 {
        self.turn_rad
    }

    /// Its centre, mm.
    pub fn centre(&self) -> DVec3 {
        self.start + self.radius_mm * self.normal
    }

    pub(super) fn point_after(&self, turn_rad: f64) -> DVec3 {
        // 1 − cos as 2 sin²: a short arc of a large circle keeps all its digits
        let half = (0.5 * turn_rad).sin();
        self.start
            + self.radius_mm * (turn_rad.sin() * self.tangent + 2.0 * half * half * self.normal)
    }

    pub(super) fn tangent_after(&self, turn_rad: f64) -> DVec3 {
        (turn_rad.cos() * self.tangent + turn_rad.sin() * self.normal).normalize_or(self.tangent)
    }

    pub(super) fn normal_after(&self, turn_rad: f64) -> DVec3 {
        (turn_rad.cos() * self.normal - turn_rad.sin() * self.tangent).normalize_or(self.normal)
    }
}

impl Piece {
    /// Where it starts, mm.
    pub fn start(&self) -> DVec3 {
        match self {
            Self::Line(line) => line.start,
            Self::Arc(arc) => arc.start,
        }
    }

    /// Its direction at the start, of unit length.
    pub fn tangent(&self) -> DVec3 {
        match self {
            Self::Line(line) => line.tangent,
            Self::Arc(arc) => arc.tangent,
        }
    }

    /// Its arc length, mm, above zero.
    pub fn length_mm(&self) -> f64 {
        match self {
            Self::Line(line) => line.length_mm,
            Self::Arc(arc) => arc.radius_mm * arc.turn_rad,
        }
    }

    /// Where it ends, mm.
    pub fn end(&self) -> DVec3 {
        self.point_after(self.length_mm())
    }

    /// Its direction at the end, of unit length.
    pub fn end_tangent(&self) -> DVec3 {
        self.tangent_after(self.length_mm())
    }

    /// The point at an arc length from this piece's start.
    pub(super) fn point_after(&self, s_mm: f64) -> DVec3 {
        match self {
            Self::Line(line) => line.start + s_mm * line.tangent,
            Self::Arc(arc) => arc.point_after(s_mm / arc.radius_mm),
        }
    }

    /// The direction at an arc length from this piece's start.
    pub(super) fn tangent_after(&self, s_mm: f64) -> DVec3 {
        match self {
            Self::Line(line) => line.tangent,
            Self::Arc(arc) => arc.tangent_after(s_mm / arc.radius_mm),
        }
    }

    /// The part between two arc lengths from this piece's start, `0 ≤ from < to ≤ length`.
    pub(super) fn part(&self, from_mm: f64, to_mm: f64) -> Self {
        match self {
            Self::Line(line) => {
                Self::Line(Line::new(self.point_after(from_mm), line.tangent, to_mm - from_mm))
            }
            Self::Arc(arc) => {
                let (from, to) = (from_mm / arc.radius_mm, to_mm / arc.radius_mm);
                Self::Arc(Arc::new(
                    arc.point_after(from),
                    arc.tangent_after(from),
                    arc.normal_after(from),
                    arc.radius_mm,
                    to - from,
                ))
            }
        }
    }

    /// The same piece run through the other way.
    pub(super) fn reversed(&self) -> Self {
        match self {
            Self::Line(line) => Self::Line(Line::new(self.end(), -line.tangent, line.length_mm)),
            Self::Arc(arc) => Self::Arc(Arc::new(
                self.end(),
                -self.end_tangent(),
                arc.normal_after(arc.turn_rad),
                arc.radius_mm,
                arc.turn_rad,
            )),
        }
    }

    /// Mirrored in the plane z = 0.
    pub(super) fn mirrored(&self) -> Self {
        self.mapped(frame::mirrored, frame::mirrored)
    }

    /// Moved by a rigid map.
    pub(super) fn transformed(&self, rigid: &DAffine3) -> Self {
        self.mapped(|p| rigid.transform_point3(p), |v| rigid.transform_vector3(v).normalize_or(v))
    }

    fn mapped(&self, point: impl Fn(DVec3) -> DVec3, direction: impl Fn(DVec3) -> DVec3) -> Self {
        match self {
            Self::Line(line) => {
                Self::Line(Line::new(point(line.start), direction(line.tangent), line.length_mm))
            }
            Self::Arc(arc) => Self::Arc(Arc::new(
                point(arc.start),
                direction(arc.tangent),
                direction(arc.normal),
                arc.radius_mm,
                arc.turn_rad,
            )),
        }
    }
}
