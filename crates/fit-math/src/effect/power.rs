//! What holding a speed costs, and what an area seen by the wind is worth at it.
//!
//! Watts, metres per second, kilograms, m². A straight road without bends, steady but for a stated
//! change of speed. What wind does from the side is only what it adds against the rider's way, and
//! how drag changes as a rider's back bends is not known here: an area says *about* what the wind
//! sees. So an area's worth is a range, and nothing is promised of which hand place is faster.
//!
//! Source: Martin, Milliken, Cobb and others 1998, J. Applied Biomechanics 14:276.

use thiserror::Error;

/// Acceleration of gravity, m/s².
const GRAVITY: f64 = 9.81;
/// Two wheels' moment of inertia, kg m², and radius, m (Martin 1998).
const WHEELS_KG_M2: f64 = 0.14;
const WHEEL_M: f64 = 0.311;
/// Drag area that stands for the turning of spokes, m² (Martin 1998).
const SPOKES_M2: f64 = 0.0044;
/// What two wheels' bearings brake, N, and N per m/s (Martin 1998, after Dahn, Mai, Poland & Jenkins
/// 1991).
const BEARINGS: (f64, f64) = (91e-3, 8.7e-3);
/// Coefficient of rolling resistance of road tyres on asphalt (Martin 1998).
pub const ROLLING: f64 = 0.0032;
/// Share of the power that a chain passes on (Martin 1998).
pub const CHAIN_PASSES_ON: f64 = 0.976;
/// Drag coefficients, lowest and highest, of what an outline gains or loses (judgement: limbs and
/// shoulders, blunt and in the wake of others; whole riders have about 0.9 in Martin 1998).
pub const DRAG_COEFFICIENTS: [f64; 2] = [0.6, 1.0];

/// Drag coefficient of a rider on a bicycle by their frontal area (about 0.9 in Martin 1998, from
/// memory).
pub const WHOLE_DRAG_COEFFICIENT: f64 = 0.9;
/// Speed beyond which nobody is looked for, m/s (judgement).
const FASTEST_M_S: f64 = 100.0;
/// Halvings of the speeds that hold the wanted one: 100 m/s to less than 1e-12.
const HALVINGS: u32 = 48;
const SECONDS_PER_HOUR: f64 = 3600.0;

/// What a rider goes against.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Ride {
    /// Rider, clothes and bicycle, kg.
    pub mass_kg: f64,
    /// Drag coefficient times frontal area of rider and bicycle, m².
    pub drag_area_m2: f64,
    /// Coefficient of rolling resistance; usually [`ROLLING`].
    pub rolling: f64,
    /// Rise of the road over its way on the map; negative downhill.
    pub grade: f64,
    /// Wind against the rider's way, m/s; negative from behind.
    pub headwind_m_s: f64,
    /// Density of the air, kg/m³: [`super::air::Air::density_kg_m3`].
    pub density_kg_m3: f64,
    /// Share of the power that reaches the wheel; usually [`CHAIN_PASSES_ON`].
    pub passed_on: f64,
}

/// Why a ride was refused.
#[derive(Debug, Clone, PartialEq, Error)]
#[error("{what} of {found} is refused; expected {expected}")]
pub struct RideError {
    what: &'static str,
    found: f64,
    expected: &'static str,
}

/// Where the power goes, watts.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Balance {
    /// Into the air.
    pub air_w: f64,
    /// Into the tyres.
    pub rolling_w: f64,
    /// Into the wheels' bearings.
    pub bearings_w: f64,
    /// Into height.
    pub climbing_w: f64,
    /// Into speed.
    pub speeding_w: f64,
    /// What the rider gives for all of it, with the chain's share.
    pub total_w: f64,
}

/// A change of speed, m/s, within a time, s.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SpeedChange {
    /// At first.
    pub from_m_s: f64,
    /// At last.
    pub to_m_s: f64,
    /// Within this time, s.
    pub within_s: f64,
}

/// What an area is worth at a speed: lowest first.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Worth {
    /// Watts more that holding the speed costs.
    pub watts: [f64; 2],
    /// Seconds more for the way of one hour at the same power.
    pub seconds_per_hour: [f64; 2],
}

impl Ride {
    /// The same, if a bicycle can be ridden so.
    ///
    /// # Errors
    /// When a number is not finite, mass, density or what is passed on is not positive, more is
    /// passed on than given, or a resistance is negative.
    pub fn checked(self) -> Result<Self, RideError> {
        let refuse = |what, found, expected| Err(RideError { what, found, expected });
        for (what, found) in [("grade", self.grade), ("headwind", self.headwind_m_s)] {
            if !found.is_finite() {
                return refuse(what, found, "a number");
            }
        }
        for (what, found) in [("mass", self.mass_kg), ("density", self.density_kg_m3)] {
            if !(found.is_finite() && found > 0.0) {
                return refuse(what, found, "a positive number");
            }
        }
        for (what, found) in [("drag area", self.drag_area_m2), ("rolling", self.rolling)] {
            if !(found.is_finite() && found >= 0.0) {
                return refuse(what, found, "nought or a positive number");
            }
        }
        if !(self.passed_on > 0.0 && self.passed_on <= 1.0) {
            return refuse("share passed on", self.passed_on, "more than 0, at most 1");
        }
        Ok(self)
    }

    /// Where the power goes at that speed over the ground, with a change of speed or without.
    pub fn balance(&self, speed_m_s: f64, change: Option<SpeedChange>) -> Balance {
        let against = speed_m_s + self.headwind_m_s;
        let area = self.drag_area_m2 + SPOKES_M2;
        let slope = self.grade.atan();
        let weight_n = self.mass_kg * GRAVITY;
        let air_w = 0.5 * self.density_kg_m3 * area * against * against.abs() * speed_m_s;
        let rolling_w = self.rolling * weight_n * slope.cos() * speed_m_s;
        let bearings_w = (BEARINGS.0 + BEARINGS.1 * speed_m_s) * speed_m_s;
        let climbing_w = weight_n * slope.sin() * speed_m_s;
        let moved_kg = self.mass_kg + WHEELS_KG_M2 / (WHEEL_M * WHEEL_M);
        let speeding_w = change.map_or(0.0, |change| {
            let (from, to) = (change.from_m_s, change.to_m_s);
            0.5 * moved_kg * (to * to - from * from) / change.within_s
        });
        let net_w = air_w + rolling_w + bearings_w + climbing_w + speeding_w;
        let total_w = net_w / self.passed_on;
        Balance { air_w, rolling_w, bearings_w, climbing_w, speeding_w, total_w }
    }

    /// The steady speed at that power, m/s, at most 100: the one at which it would neither grow nor
    /// fall. Without power it is that of rolling downhill or before the wind, or nought.
    ///
    /// Resistance only grows with speed, so that there is one such speed and halving finds it; right
    /// to 1e-12 m/s.
    pub fn speed_m_s(&self, power_w: f64) -> f64 {
        let (mut slower, mut faster) = (0.0, FASTEST_M_S);
        for _ in 0..HALVINGS {
            let middle = f64::midpoint(slower, faster);
            if self.balance(middle, None).total_w <= power_w.max(0.0) {
                slower = middle;
            } else {
                faster = middle;
            }
        }
        slower
    }

    /// What it costs at that speed if the wind sees so much more, m²; negative where it sees less.
    /// A range, from lowest to highest drag coefficient of what is added.
    pub fn worth(&self, speed_m_s: f64, more_m2: f64) -> Worth {
        let power_w = self.balance(speed_m_s, None).total_w;
        let one = |coefficient: f64| {
            let drag_area_m2 = (self.drag_area_m2 + coefficient * more_m2).max(0.0);
            let other = Self { drag_area_m2, ..*self };
            let watts = other.balance(speed_m_s, None).total_w - power_w;
            let speed = other.speed_m_s(power_w);
            let seconds = if speed > 0.0 && speed_m_s > 0.0 {
                SECONDS_PER_HOUR * (speed_m_s / speed - 1.0)
            } else {
                0.0
            };
            (watts, seconds)
        };
        let [a, b] = DRAG_COEFFICIENTS.map(one);
        let range = |a: f64, b: f64| [a.min(b), a.max(b)];
        Worth { watts: range(a.0, b.0), seconds_per_hour: range(a.1, b.1) }
    }
}
