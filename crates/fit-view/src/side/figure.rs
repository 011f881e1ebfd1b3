//! The rider as a body: flesh around the joints that a posture gives.
//!
//! Bike frame, mm. The joints are computed; the outline between them is a drawing, its thicknesses
//! from the body's own breadths, depths and girths where the survey has them. Each part is drawn
//! contour first, then filled, so that the links of one limb flow into each other.

use super::part::{Coat, part};
use crate::scene::{Dash, Ink, Mark, Path, Pen, Width};
use fit_math::DVec2;
use fit_math::body::{Body, Dimension};
use fit_math::frame::Side;
use fit_math::posture::Figure;
use fit_math::saddle::LegPose;

/// A grip that shows less of its length than this is seen end on, as a share (judgement).
const END_ON: f64 = 0.3;

/// Thicknesses of a body, mm: radii unless said.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Flesh {
    chest: f64,
    waist: f64,
    thigh: f64,
    knee: f64,
    ankle: f64,
    pub(super) arm: f64,
    pub(super) hand: f64,
    pub(super) wrist: f64,
    neck: f64,
    head_half_length: f64,
    crown_above_ear: f64,
    foot_length: f64,
}

impl Flesh {
    /// The thicknesses of a body. Where the survey has no girth the share of another one is a
    /// drawing's judgement.
    pub fn of(body: &Body) -> Self {
        let value = |dimension| body.value(dimension);
        let girth = |dimension| value(dimension) / core::f64::consts::TAU;
        let thigh = girth(Dimension::ThighCircumference);
        let hand = value(Dimension::HandBreadth);
        Self {
            chest: value(Dimension::ChestDepth) / 2.0,
            waist: girth(Dimension::WaistCircumference) * 0.80,
            thigh: thigh * 0.92,
            knee: thigh * 0.62,
            ankle: thigh * 0.36,
            arm: hand * 0.55,
            hand,
            wrist: hand * 0.31,
            neck: hand * 0.64,
            head_half_length: value(Dimension::HeadLength) / 2.0,
            crown_above_ear: value(Dimension::TragionTopOfHead),
            foot_length: value(Dimension::FootLength),
        }
    }
}

/// A rider to be drawn: joints and flesh.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RiderFigure {
    /// Joints, bike frame.
    pub figure: Figure,
    /// Thicknesses.
    pub flesh: Flesh,
}

impl RiderFigure {
    /// The leg on the far side.
    pub fn far_leg(&self) -> Vec<Mark> {
        let coat = Coat { contour: Ink::RiderFarEdge, inside: Ink::RiderFar };
        part(&self.leg(self.figure.leg(Side::Left)), coat)
    }

    /// Trunk, head, near leg and near arm, furthest first.
    pub fn near_body(&self) -> Vec<Mark> {
        let coat = Coat { contour: Ink::RiderEdge, inside: Ink::Rider };
        let mut body = vec![self.neck(), self.trunk(), self.head()];
        body.extend(self.leg(self.figure.leg(Side::Right)));
        let mut marks = part(&body, coat);
        marks.extend(self.helmet());
        marks.extend(part(&self.arm(), coat));
        marks
    }

    /// The whole body as one quiet shape, to stand behind another rider; `axis` as for the fist.
    pub fn shadow(&self, axis: DVec2) -> Vec<Mark> {
        let coat = Coat { contour: Ink::RiderFarEdge, inside: Ink::RiderFar };
        let mut parts = vec![self.neck(), self.trunk(), self.head()];
        parts.extend(self.arm());
        parts.push(self.fist_outline(axis));
        parts.extend(self.leg(self.figure.leg(Side::Right)));
        part(&parts, coat)
    }

    fn trunk(&self) -> Path {
        let f = &self.figure;
        let flesh = &self.flesh;
        let [hip, joint, shoulder] =
            [f.hip, f.spine_joint, f.shoulders].map(fit_math::DVec3::truncate);
        let lower = (joint - hip).normalize_or(DVec2::Y);
        let upper = (shoulder - joint).normalize_or(DVec2::Y);
        let between = (lower + upper).normalize_or(DVec2::Y);
        let length = shoulder.distance(joint);
        // behind the joints lies the back, before them the belly
        let back = |direction: DVec2| direction.perp();
        let chest_at = joint + upper * (0.55 * length) + back(upper) * (0.10 * length);
        let waist_at = joint + upper * (0.12 * length) + back(between) * (0.05 * length);
        let outline = [
            hip - lower * (0.75 * flesh.thigh) + back(lower) * (0.70 * flesh.thigh),
            hip + back(lower) * (1.18 * flesh.thigh),
            joint + back(between) * (0.92 * flesh.waist),
            waist_at + back(between) * (0.92 * flesh.waist),
            chest_at + back(upper) * (0.86 * flesh.chest),
            joint + upper * (0.88 * length) + back(upper) * (0.95 * flesh.chest),
            shoulder + upper * (0.08 * length) + back(upper) * (0.55 * flesh.chest),
            shoulder + upper * (0.12 * length) - back(upper) * (0.10 * flesh.chest),
            shoulder + upper * (0.02 * length) - back(upper) * (0.48 * flesh.chest),
            chest_at + upper * (0.05 * length) - back(upper) * (1.10 * flesh.chest),
            waist_at - back(between) * (0.98 * flesh.waist),
            joint - back(between) * (0.92 * flesh.waist),
            hip + lower * (0.2 * flesh.thigh) - back(lower) * (0.95 * flesh.thigh),
            hip - lower * (0.72 * flesh.thigh) - back(lower) * (0.35 * flesh.thigh),
        ];
        Path::smooth_closed(&outline)
    }

    fn neck(&self) -> Path {
        let shoulder = self.figure.shoulders.truncate();
        let foot = shoulder.lerp(self.figure.neck.truncate(), 0.75);
        let ear = self.figure.ear.truncate();
        Path::limb(foot, self.flesh.neck * 1.12, foot.lerp(ear, 0.85), self.flesh.neck * 0.92)
    }

    /// A point of the head: ahead of the ear in half head lengths, above it in ear-to-crown heights.
    fn on_head(&self, ahead: f64, above: f64) -> DVec2 {
        let up = (self.figure.crown - self.figure.ear).truncate().normalize_or(DVec2::Y);
        let (half, top) = (self.flesh.head_half_length, self.flesh.crown_above_ear);
        self.figure.ear.truncate() - up.perp() * (ahead * half) + up * (above * top)
    }

    /// A head in profile: round at the back, a brow, a nose and a chin at the front.
    fn head(&self) -> Path {
        let at = |x, y| self.on_head(x, y);
        Path::smooth_closed(&[
            at(0.0, 1.0),
            at(0.62, 0.86),
            at(0.95, 0.42),
            at(0.99, 0.12),
            at(1.16, -0.14),
            at(1.00, -0.24),
            at(1.02, -0.48),
            at(0.90, -0.72),
            at(0.62, -0.80),
            at(0.10, -0.50),
            at(-0.50, -0.46),
            at(-0.92, 0.0),
            at(-0.94, 0.48),
            at(-0.58, 0.88),
        ])
    }

    fn helmet(&self) -> Vec<Mark> {
        let at = |x, y| self.on_head(x, y);
        let shell = Path::smooth_closed(&[
            at(1.10, 0.42),
            at(0.92, 0.86),
            at(0.35, 1.20),
            at(-0.35, 1.20),
            at(-0.95, 0.92),
            at(-1.22, 0.42),
            at(-1.05, 0.16),
            at(-0.45, 0.30),
            at(0.30, 0.36),
        ]);
        let vent = |x: f64| {
            let path = Path::smooth_open(&[at(x + 0.14, 0.62), at(x, 0.88), at(x - 0.22, 1.02)]);
            let pen =
                Pen { ink: Ink::Rider, width: Width::Mm(8.0), dash: Dash::Solid, opacity: 1.0 };
            Mark::Stroke { path, pen }
        };
        let mut marks = vec![Mark::Fill { path: shell, ink: Ink::RiderEdge, opacity: 1.0 }];
        marks.extend([0.55, 0.05, -0.45].map(vent));
        marks
    }

    fn arm(&self) -> Vec<Path> {
        let arm = self.figure.arm(Side::Right);
        let [shoulder, elbow, wrist, hand] =
            [arm.shoulder, arm.elbow, arm.wrist, arm.hand].map(fit_math::DVec3::truncate);
        let flesh = &self.flesh;
        vec![
            Path::limb(shoulder, flesh.arm * 1.18, elbow, flesh.arm * 0.80),
            Path::limb(elbow, flesh.arm * 0.84, wrist, flesh.wrist * 1.05),
            // the palm; where there is room for them the fingers are drawn over the bar
            Path::limb(wrist, flesh.wrist * 1.0, hand, flesh.arm * 0.50),
        ]
    }

    /// The fingers closed around a grip: a fist as broad as the hand, the knuckles as lines. `axis`
    /// runs along the grip in the side view; nought where the grip points at the eye.
    pub(super) fn fist(&self, axis: DVec2) -> Vec<Mark> {
        let coat = Coat { contour: Ink::RiderEdge, inside: Ink::Rider };
        let mut marks = part(&[self.fist_outline(axis)], coat);
        marks.extend(self.knuckles(axis, 1.0));
        marks
    }

    /// The same fist as lines, to be drawn over the bar that it holds: where the bars are what is
    /// looked at they must stay to be seen.
    pub(super) fn fist_lines(&self, axis: DVec2) -> Vec<Mark> {
        let pen = Pen::solid(Ink::RiderEdge, 2.4);
        let mut marks = vec![Mark::Stroke { path: self.fist_outline(axis), pen }];
        marks.extend(self.knuckles(axis, 1.8));
        marks
    }

    /// Where the right hand closes: at the grip, or short of it where the arm is too short.
    fn hand(&self) -> DVec2 {
        self.figure.arm(Side::Right).hand.truncate()
    }

    /// A point of the fist: along the grip towards the thumb in half hand breadths, and out towards
    /// the fingers' knuckles in half thicknesses of the fist.
    fn on_fist(&self, axis: DVec2, along: f64, out: f64) -> DVec2 {
        let arm = self.figure.arm(Side::Right);
        let across = axis.perp().normalize_or(DVec2::X);
        // the knuckles lie on the far side of the grip from the wrist
        let away = (arm.hand - arm.wrist).truncate().dot(across) >= 0.0;
        let across = if away { across } else { -across };
        let (half, thick) = (0.52 * self.flesh.hand, 0.26 * self.flesh.hand);
        self.hand() + axis * (along * half) + across * (out * thick)
    }

    /// Four fingers side by side around the grip; seen along the grip a round fist.
    fn fist_outline(&self, axis: DVec2) -> Path {
        if axis.length() < END_ON {
            return Path::circle(self.hand(), 0.30 * self.flesh.hand);
        }
        let at = |along, out| self.on_fist(axis, along, out);
        let mut corners = vec![at(0.96, -0.55), at(1.0, 0.2)];
        for finger in [0.75, 0.25, -0.25, -0.75] {
            corners.extend([at(finger + 0.17, 0.94), at(finger, 1.06), at(finger - 0.17, 0.94)]);
            if finger > -0.5 {
                corners.push(at(finger - 0.25, 0.76));
            }
        }
        corners.extend([at(-1.0, 0.2), at(-0.94, -0.6), at(0.0, -0.92)]);
        Path::smooth_closed(&corners)
    }

    /// The gaps between the fingers.
    fn knuckles(&self, axis: DVec2, points: f64) -> Vec<Mark> {
        if axis.length() < END_ON {
            return Vec::new();
        }
        let line = |along: f64| {
            let path =
                Path::segment(self.on_fist(axis, along, 0.76), self.on_fist(axis, along, -0.35));
            Mark::Stroke { path, pen: Pen::solid(Ink::RiderEdge, points) }
        };
        [-0.5, 0.0, 0.5].map(line).into()
    }

    fn leg(&self, leg: &LegPose) -> Vec<Path> {
        let flesh = &self.flesh;
        let shin = (leg.ankle - leg.knee).normalize_or(-DVec2::Y);
        // the calf lies behind the shin
        let calf = leg.knee + shin * (0.30 * leg.ankle.distance(leg.knee))
            - shin.perp() * (0.30 * flesh.knee);
        vec![
            Path::limb(leg.hip, flesh.thigh, leg.knee, flesh.knee),
            Path::limb(leg.knee, flesh.knee * 0.96, calf, flesh.knee * 0.98),
            Path::limb(calf, flesh.knee * 0.98, leg.ankle, flesh.ankle),
            self.shoe(leg),
        ]
    }

    fn shoe(&self, leg: &LegPose) -> Path {
        let sole = (leg.toe - leg.heel).normalize_or(DVec2::X);
        let up = sole.perp();
        let length = self.flesh.foot_length;
        let at = |x: f64, y: f64| leg.heel + sole * (x * length) + up * (y * length);
        Path::smooth_closed(&[
            at(-0.06, 0.02),
            at(-0.06, 0.20),
            at(0.04, 0.38),
            at(0.24, 0.40),
            at(0.44, 0.27),
            at(0.75, 0.18),
            at(1.00, 0.12),
            at(1.05, 0.02),
            at(0.85, -0.035),
            at(0.40, -0.01),
            at(0.10, -0.045),
        ])
    }
}
