//! A second bar, slow and plain: a turtle walks the bend in space with rotation matrices, every
//! extreme is searched by trying, and sizes are found by scanning.
//!
//! It shares no formula with the library: it knows no linear system, no heading of an extreme, no
//! closed form of the lean. Frame: bar; mm and rad.

use core::f64::consts::PI;

use fit_math::bar::{BarDimensions, Family, WidthAt, WidthHow};
use fit_math::{DMat3, DVec3};

#[derive(Clone, Copy)]
pub(crate) enum Step {
    Line { from: DVec3, to: DVec3 },
    Arc { centre: DVec3, spoke: DVec3, square: DVec3, turn: f64 },
}

impl Step {
    fn moved(self, by: DVec3) -> Self {
        match self {
            Self::Line { from, to } => Self::Line { from: from + by, to: to + by },
            Self::Arc { centre, spoke, square, turn } => {
                Self::Arc { centre: centre + by, spoke, square, turn }
            }
        }
    }

    pub(crate) fn length(&self) -> f64 {
        match *self {
            Self::Line { from, to } => from.distance(to),
            Self::Arc { spoke, turn, .. } => spoke.length() * turn,
        }
    }

    pub(crate) fn point(&self, share: f64) -> DVec3 {
        match *self {
            Self::Line { from, to } => from.lerp(to, share),
            Self::Arc { centre, spoke, square, turn } => {
                let (sin, cos) = (share * turn).sin_cos();
                centre + cos * spoke + sin * square
            }
        }
    }

    /// Along the step, of any length.
    fn onwards(&self, share: f64) -> DVec3 {
        match *self {
            Self::Line { from, to } => to - from,
            Self::Arc { spoke, square, turn, .. } => {
                let (sin, cos) = (share * turn).sin_cos();
                cos * square - sin * spoke
            }
        }
    }

    /// The furthest point in a direction: by trying, then by halving until the step no longer
    /// runs that way (a search for the greatest value alone would leave the place vague).
    fn furthest(&self, direction: DVec3) -> DVec3 {
        let far = |share: f64| self.point(share).dot(direction);
        if let Self::Line { from, to } = *self {
            return if far(1.0) > far(0.0) { to } else { from };
        }
        let best = (0..=24)
            .map(|i| f64::from(i) / 24.0)
            .max_by(|&a, &b| far(a).total_cmp(&far(b)))
            .unwrap();
        let (mut low, mut high) = ((best - 1.0 / 24.0).max(0.0), (best + 1.0 / 24.0).min(1.0));
        for _ in 0..48 {
            let middle = 0.5 * (low + high);
            if self.onwards(middle).dot(direction) > 0.0 {
                low = middle;
            } else {
                high = middle;
            }
        }
        [0.0, 0.5 * (low + high), 1.0]
            .map(|share| self.point(share))
            .into_iter()
            .max_by(|a, b| a.dot(direction).total_cmp(&b.dot(direction)))
            .unwrap()
    }
}

/// What a bend of given sizes measures, mm.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Measure {
    pub(crate) reach: f64,
    pub(crate) drop: f64,
    /// Half width at the corner of tops and ramp.
    pub(crate) corner: f64,
    pub(crate) half_hoods: f64,
    pub(crate) half_ends: f64,
}

/// A bar with everything known but ramp length and hook size.
pub(crate) struct Slow {
    bar: BarDimensions,
    /// Hook: radius or length in k, turn (zero for a straight).
    hook: Vec<(f64, f64)>,
    lean: f64,
    half_width: f64,
}

struct Turtle {
    at: DVec3,
    forward: DVec3,
    inside: DVec3,
    out: DVec3,
    steps: Vec<Step>,
}

impl Turtle {
    fn rotate(&mut self, about: DVec3, angle: f64) {
        let turn = DMat3::from_axis_angle(about, angle);
        self.forward = turn * self.forward;
        self.inside = turn * self.inside;
        self.out = turn * self.out;
    }

    fn straight(&mut self, length: f64) {
        let to = self.at + length * self.forward;
        self.steps.push(Step::Line { from: self.at, to });
        self.at = to;
    }

    /// Walks round a centre that lies `radius` away in the direction `towards`.
    fn round(&mut self, radius: f64, turn: f64, towards: DVec3) {
        let centre = self.at + radius * towards;
        let axis = self.forward.cross(towards).normalize();
        let spoke = self.at - centre;
        let quarter = DMat3::from_axis_angle(axis, PI / 2.0) * spoke;
        self.steps.push(Step::Arc { centre, spoke, square: quarter, turn });
        self.at = centre + DMat3::from_axis_angle(axis, turn) * spoke;
        self.rotate(axis, turn);
    }
}

impl Slow {
    /// `flare` is the angle, rad, whichever way the dimensions give it.
    pub(crate) fn new(bar: &BarDimensions, flare: f64) -> Self {
        let deg = |a: f64| a * PI / 180.0;
        let (r, t) = (bar.ramp_slope_rad, bar.tail_slope_rad);
        let hook = match (bar.family, bar.proportions) {
            (Family::Round, _) => vec![(1.0, deg(180.0) - r - t)],
            (Family::Flat, p) => {
                let [a, b, c] = p.unwrap_or([0.62, 0.55, 0.50]);
                vec![(a, deg(100.0) - r), (b, 0.0), (c, deg(80.0) - t)]
            }
            (Family::Variable, p) => {
                let [a, b, c] = p.unwrap_or([0.55, 0.90, 0.62]);
                vec![(a, deg(60.0) - r), (b, deg(60.0)), (c, deg(60.0) - t)]
            }
        };
        // the roll about the ramp at which the hook's inside, seen from the front, leans by flare
        let slope = DMat3::from_axis_angle(DVec3::NEG_Z, r);
        let (ramp, down) = (slope * DVec3::X, slope * DVec3::NEG_Y);
        let seen = |roll: f64| {
            let v = DMat3::from_axis_angle(ramp, roll) * down;
            v.z.atan2(-v.y)
        };
        let (mut low, mut high) = (-1.4, 1.4);
        let rising = seen(high) > seen(low);
        for _ in 0..70 {
            let middle = 0.5 * (low + high);
            if (seen(middle) < flare) == rising {
                low = middle;
            } else {
                high = middle;
            }
        }
        let outside = match bar.width_how {
            WidthHow::CentreToCentre => 0.0,
            WidthHow::OutsideToOutside => bar.drops_mm,
        };
        Self { bar: *bar, hook, lean: low, half_width: 0.5 * (bar.width_mm - outside) }
    }

    fn walk(&self, ramp: f64, hook: f64) -> Vec<Step> {
        let bar = &self.bar;
        let mut turtle = Turtle {
            at: DVec3::ZERO,
            forward: DVec3::X,
            inside: DVec3::NEG_Y,
            out: DVec3::Z,
            steps: Vec::new(),
        };
        turtle.rotate(DVec3::NEG_Z, bar.ramp_slope_rad);
        turtle.rotate(turtle.forward, self.lean);
        turtle.rotate(DVec3::NEG_Y, bar.ramp_outsweep_rad);
        turtle.straight(ramp);
        for &(size, turn) in &self.hook {
            if turn == 0.0 {
                turtle.straight(size * hook);
            } else {
                turtle.round(size * hook, turn, turtle.inside);
            }
        }
        let sweep = bar.outsweep_rad;
        if sweep != 0.0 {
            turtle.round(40.0, sweep.abs(), sweep.signum() * turtle.out);
        }
        turtle.straight(bar.tail_length_mm - 40.0 * sweep.abs());
        turtle.steps
    }

    /// The whole half from the clamp's middle to the end, the corner rounded with this radius.
    pub(crate) fn whole(&self, ramp: f64, hook: f64, rounded: f64) -> Vec<Step> {
        let corner = self.measure(ramp, hook).corner
            * DVec3::new(-self.bar.backsweep_rad.tan(), self.bar.rise_rad.tan(), 1.0);
        let mut onwards = self.walk(ramp, hook).into_iter().map(|step| step.moved(corner));
        let Some(Step::Line { to: hook_start, .. }) = onwards.next() else {
            unreachable!("a ramp is straight")
        };
        let (top, along) = (corner.normalize(), (hook_start - corner).normalize());
        // the circle that touches both: its centre on the line that halves the corner
        let between = (-top).angle_between(along);
        let centre = corner + rounded / (0.5 * between).sin() * (along - top).normalize();
        let takes = rounded / (0.5 * between).tan();
        let (from, to) = (corner - takes * top, corner + takes * along);
        let (spoke, square) = (from - centre, rounded * top);
        let mut steps = vec![
            Step::Line { from: DVec3::ZERO, to: from },
            Step::Arc { centre, spoke, square, turn: PI - between },
            Step::Line { from: to, to: hook_start },
        ];
        steps.extend(onwards);
        steps
    }

    /// Whether a corner rounded with this radius keeps to what is asked of it: no more than wanted,
    /// no more than the level ramp less 2 mm, and 2 mm of ramp and 30 mm of the top left straight.
    pub(crate) fn leaves_room(&self, ramp: f64, hook: f64, rounded: f64, slack: f64) -> bool {
        let steps = self.whole(ramp, hook, rounded);
        let (from, to) = (steps[0].point(1.0), steps[2].point(0.0));
        let hook_start = steps[2].point(1.0);
        let along = self.walk(1.0, hook)[0].point(1.0);
        rounded <= self.bar.forward_bend_radius_mm + slack
            && rounded <= ramp * self.bar.ramp_slope_rad.cos() - 2.0 + slack
            && (hook_start - to).dot(along) >= 2.0 - slack
            && from.z.signum() * from.length() >= 30.0 - slack
    }

    /// What the bend with this ramp and hook measures; its corner is put where the width fits.
    pub(crate) fn measure(&self, ramp: f64, hook: f64) -> Measure {
        let steps = self.walk(ramp, hook);
        let furthest = |direction: DVec3| {
            steps
                .iter()
                .map(|step| step.furthest(direction))
                .max_by(|a, b| a.dot(direction).total_cmp(&b.dot(direction)))
                .unwrap()
        };
        let (front, low) = (furthest(DVec3::X), furthest(DVec3::NEG_Y));
        let end = steps.last().unwrap().point(1.0);
        let corner = self.half_width
            - match self.bar.width_at {
                WidthAt::Hoods => front.z,
                WidthAt::Ends => end.z,
            };
        Measure {
            reach: front.x - corner * self.bar.backsweep_rad.tan(),
            drop: -low.y - corner * self.bar.rise_rad.tan(),
            corner,
            half_hoods: corner + front.z,
            half_ends: corner + end.z,
        }
    }

    /// The smallest radius in a hook of this size.
    pub(crate) fn smallest_radius(&self, hook: f64) -> f64 {
        let arcs = self.hook.iter().filter(|(_, turn)| *turn != 0.0);
        arcs.map(|(size, _)| size * hook).fold(f64::INFINITY, f64::min)
    }

    /// How much a forward bend of 12 mm takes of ramp and top, from the angle between them.
    fn bend_takes(&self) -> (f64, f64) {
        let bar = &self.bar;
        let top = DVec3::new(-bar.backsweep_rad.tan(), bar.rise_rad.tan(), 1.0);
        let ramp = match self.walk(1.0, 1.0)[0] {
            Step::Line { from, to } => to - from,
            Step::Arc { .. } => unreachable!("a ramp is straight"),
        };
        (12.0 / (0.5 * (-top.normalize()).dot(ramp).acos()).tan(), top.length())
    }

    /// The shortest ramp that leaves room for itself and for a forward bend.
    pub(crate) fn shortest_ramp(&self) -> f64 {
        (14.0 / self.bar.ramp_slope_rad.cos()).max(2.0 + self.bend_takes().0)
    }

    pub(crate) fn is_admissible(&self, ramp: f64, hook: f64, slack: f64) -> bool {
        let (takes, per_corner) = self.bend_takes();
        ramp >= self.shortest_ramp() - slack
            && self.smallest_radius(hook) >= 20.0 - slack
            && self.measure(ramp, hook).corner * per_corner - takes >= 30.0 - slack
    }

    /// The hook with which a ramp of this length has the asked reach, by the secant method; none
    /// where the ramp alone reaches further.
    pub(crate) fn hook_for(&self, ramp: f64, reach: f64) -> Option<f64> {
        let off = |hook: f64| self.measure(ramp, hook).reach - reach;
        let (mut a, mut b) = (30.0, 60.0);
        let (mut off_a, mut off_b) = (off(a), off(b));
        for _ in 0..6 {
            if off_a == off_b || off_b.abs() < 1e-12 {
                break;
            }
            let next = b - off_b * (b - a) / (off_b - off_a);
            (a, off_a) = (b, off_b);
            (b, off_b) = (next, off(next));
        }
        (off_b.abs() < 1e-10).then_some(b)
    }

    /// Every admissible ramp and hook of this reach and drop, by scanning the ramp's length from
    /// the shortest to where the hook becomes too tight.
    pub(crate) fn solve(&self, reach: f64, drop: f64) -> Vec<(f64, f64)> {
        let shortest = self.shortest_ramp();
        let tight = |ramp: f64| {
            self.hook_for(ramp, reach).is_none_or(|hook| self.smallest_radius(hook) < 20.0)
        };
        if tight(shortest) {
            return Vec::new();
        }
        // a hair short of where it becomes too tight, so that there is a hook at every try
        let longest = bisect(shortest, shortest + 400.0, tight) - 1e-8;
        let hook_for = |ramp: f64| self.hook_for(ramp, reach).unwrap();
        let off = |ramp: f64| self.measure(ramp, hook_for(ramp)).drop - drop;
        let ramps: Vec<f64> =
            (0..=40).map(|i| shortest + (longest - shortest) * f64::from(i) / 40.0).collect();
        let offs: Vec<f64> = ramps.iter().map(|&ramp| off(ramp)).collect();
        ramps
            .windows(2)
            .zip(offs.windows(2))
            .filter(|(_, offs)| (offs[0] < 0.0) != (offs[1] < 0.0))
            .map(|(ramps, offs)| {
                let falls = |ramp: f64| (off(ramp) < 0.0) != (offs[0] < 0.0);
                let root = bisect(ramps[0], ramps[1], falls);
                (root, hook_for(root))
            })
            .filter(|&(ramp, hook)| self.is_admissible(ramp, hook, 1e-6))
            .collect()
    }
}

/// The place between `low` and `high` where `passed` turns true.
fn bisect(mut low: f64, mut high: f64, passed: impl Fn(f64) -> bool) -> f64 {
    while high - low > 1e-12 * high {
        let middle = 0.5 * (low + high);
        if passed(middle) {
            high = middle;
        } else {
            low = middle;
        }
    }
    0.5 * (low + high)
}
