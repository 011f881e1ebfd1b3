//! The air that a rider goes through: its density, and its pressure by height.
//!
//! Degrees Celsius, pascal, kg/m³, metres above the sea. Weather is what it is said to be: nothing
//! is foretold of it.
//!
//! Sources: CIPM-2007, Picard, Davis, Gläser & Fujii 2008, Metrologia 45:149, for a share of
//! 400 millionths of carbon dioxide; International Standard Atmosphere, ISO 2533.

use thiserror::Error;

/// 0 °C in kelvin.
const NOUGHT_CELSIUS_K: f64 = 273.15;
/// Temperatures that are taken, °C. The formula is meant for 15 to 27; beyond, it is good enough for
/// bicycles (judgement).
const CELSIUS: (f64, f64) = (-40.0, 60.0);
/// Pressures that are taken, Pa. The formula is meant for 60 000 to 110 000.
const PASCAL: (f64, f64) = (30_000.0, 120_000.0);
/// Heights at which the lowest layer of the standard atmosphere holds, m.
const HEIGHT_M: (f64, f64) = (-2000.0, 11_000.0);

/// Temperature, pressure and humidity of the air.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Air {
    celsius: f64,
    pascal: f64,
    humidity: f64,
}

/// A number that air is given by.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum AirNumber {
    /// Temperature, °C.
    Temperature,
    /// Pressure, Pa.
    Pressure,
    /// Relative humidity, 0 to 1.
    Humidity,
    /// Height above the sea, m.
    Height,
}

/// Why air was refused.
#[derive(Debug, Clone, PartialEq, Error)]
#[error("{what:?} of {found} is refused; expected {lowest} to {highest}")]
pub struct AirError {
    /// The number.
    pub what: AirNumber,
    /// What it was.
    pub found: f64,
    /// The smallest taken.
    pub lowest: f64,
    /// The largest taken.
    pub highest: f64,
}

fn within(what: AirNumber, found: f64, (lowest, highest): (f64, f64)) -> Result<f64, AirError> {
    if (lowest..=highest).contains(&found) {
        Ok(found)
    } else {
        Err(AirError { what, found, lowest, highest })
    }
}

impl Air {
    /// Air of that temperature (°C), pressure (Pa) and relative humidity (0 to 1).
    ///
    /// # Errors
    /// When a number is not finite or outside what is taken.
    pub fn new(celsius: f64, pascal: f64, humidity: f64) -> Result<Self, AirError> {
        Ok(Self {
            celsius: within(AirNumber::Temperature, celsius, CELSIUS)?,
            pascal: within(AirNumber::Pressure, pascal, PASCAL)?,
            humidity: within(AirNumber::Humidity, humidity, (0.0, 1.0))?,
        })
    }

    /// Air of that temperature and humidity at a height above the sea, m, under the pressure that
    /// the standard atmosphere has there.
    ///
    /// # Errors
    /// As [`Self::new`], and when the height is refused.
    pub fn at_height(celsius: f64, height_m: f64, humidity: f64) -> Result<Self, AirError> {
        within(AirNumber::Height, height_m, HEIGHT_M)?;
        Self::new(celsius, standard_pressure_pa(height_m), humidity)
    }

    /// Its density, kg/m³, by CIPM-2007: to 1e-4 as a share where that is meant to hold.
    pub fn density_kg_m3(&self) -> f64 {
        /// Molar masses of dry air and of water, kg/mol.
        const DRY: f64 = 28.965_46e-3;
        const WATER: f64 = 18.015_28e-3;
        /// Gas constant, J/(mol K), as the formula has it.
        const GAS: f64 = 8.314_472;
        let kelvin = self.celsius + NOUGHT_CELSIUS_K;
        let ideal = self.pascal * DRY / (GAS * kelvin);
        ideal / self.compressibility() * (1.0 - self.share_of_vapour() * (1.0 - WATER / DRY))
    }

    /// Share of the molecules that are water.
    fn share_of_vapour(&self) -> f64 {
        let t = self.celsius;
        let kelvin = t + NOUGHT_CELSIUS_K;
        let saturated_pa = (1.237_884_7e-5 * kelvin * kelvin - 1.912_131_6e-2 * kelvin
            + 33.937_110_47
            - 6.343_164_5e3 / kelvin)
            .exp();
        let enhancement = 1.000_62 + 3.14e-8 * self.pascal + 5.6e-7 * t * t;
        self.humidity * enhancement * saturated_pa / self.pascal
    }

    /// How far it is from an ideal gas; no unit.
    fn compressibility(&self) -> f64 {
        let (t, x) = (self.celsius, self.share_of_vapour());
        let per_kelvin = self.pascal / (t + NOUGHT_CELSIUS_K);
        let dry = 1.581_23e-6 - 2.9331e-8 * t + 1.1043e-10 * t * t;
        let moist = (5.707e-6 - 2.051e-8 * t) * x + (1.9898e-4 - 2.376e-6 * t) * x * x;
        1.0 - per_kelvin * (dry + moist) + per_kelvin * per_kelvin * (1.83e-11 - 0.765e-8 * x * x)
    }
}

/// Temperature of the standard atmosphere at a height above the sea in m, up to 11 000: °C.
pub fn standard_celsius(height_m: f64) -> f64 {
    15.0 - LAPSE_K_M * height_m
}

/// Kelvin that the standard atmosphere grows colder with every metre.
const LAPSE_K_M: f64 = 0.0065;

/// Pressure of the standard atmosphere at a height above the sea in m, up to 11 000: Pa.
pub fn standard_pressure_pa(height_m: f64) -> f64 {
    /// At the sea, Pa.
    const SEA_PA: f64 = 101_325.0;
    /// Acceleration of gravity, m/s².
    const GRAVITY: f64 = 9.806_65;
    /// Specific gas constant of dry air, J/(kg K).
    const DRY_AIR: f64 = 287.052_87;
    let sea_k = 15.0 + NOUGHT_CELSIUS_K;
    let share = (standard_celsius(height_m) + NOUGHT_CELSIUS_K) / sea_k;
    SEA_PA * share.max(0.0).powf(GRAVITY / (DRY_AIR * LAPSE_K_M))
}
