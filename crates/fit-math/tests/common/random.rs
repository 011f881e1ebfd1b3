//! Repeatable random numbers for tests: the splitmix64 generator (Steele, Lea & Flood 2014).

#![allow(dead_code, reason = "each test takes what it needs")]

pub(crate) struct Random(pub(crate) u64);

impl Random {
    pub(crate) fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        z ^ (z >> 31)
    }

    /// Evenly spread between two numbers.
    pub(crate) fn between(&mut self, low: f64, high: f64) -> f64 {
        low + (high - low) * (self.next() >> 11) as f64 / (1_u64 << 53) as f64
    }

    /// An angle evenly spread between two in degrees, radians.
    pub(crate) fn degrees(&mut self, low: f64, high: f64) -> f64 {
        self.between(low, high).to_radians()
    }

    /// One of so many.
    pub(crate) fn below(&mut self, count: usize) -> usize {
        usize::try_from(self.next() % count as u64).unwrap()
    }

    /// One of several.
    pub(crate) fn pick<T: Copy>(&mut self, from: &[T]) -> T {
        let below = self.between(0.0, from.len() as f64);
        let mut last = from[0];
        for (at, one) in from.iter().enumerate() {
            if at as f64 <= below {
                last = *one;
            }
        }
        last
    }

    /// Normal, mean 0 and spread 1 (Box & Muller 1958).
    pub(crate) fn normal(&mut self) -> f64 {
        let radius = (-2.0 * self.between(f64::MIN_POSITIVE, 1.0).ln()).sqrt();
        radius * self.between(0.0, core::f64::consts::TAU).cos()
    }
}
