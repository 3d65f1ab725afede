//! Random numbers of a fixed seed, the same on every machine and in every run.

use std::f64::consts::TAU;

/// The generator "splitmix64" (S. Vigna, public domain algorithm; constants from memory).
pub struct Random(u64);

impl Random {
    pub fn seeded(seed: u64) -> Random {
        Random(seed)
    }

    fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let mut mixed = self.0;
        mixed = (mixed ^ (mixed >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        mixed = (mixed ^ (mixed >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        mixed ^ (mixed >> 31)
    }

    /// From 0 to below 1.
    pub fn unit(&mut self) -> f64 {
        (self.next() >> 11) as f64 / (1_u64 << 53) as f64
    }

    pub fn between(&mut self, low: f64, high: f64) -> f64 {
        low + (high - low) * self.unit()
    }

    /// A whole number, both ends possible.
    pub fn whole(&mut self, low: u32, high: u32) -> u32 {
        low + (self.next() % u64::from(high - low + 1)) as u32
    }

    pub fn chance(&mut self, part: f64) -> bool {
        self.unit() < part
    }

    pub fn pick<T: Copy>(&mut self, of: &[T]) -> T {
        of[self.next() as usize % of.len()]
    }

    /// Normal with mean nought.
    pub fn normal(&mut self, deviation: f64) -> f64 {
        let (one, other) = (1.0 - self.unit(), self.unit());
        deviation * (-2.0 * one.ln()).sqrt() * (TAU * other).cos()
    }

    /// One plus a normal deviation, as a factor.
    pub fn about_one(&mut self, deviation: f64) -> f64 {
        self.normal(deviation).exp()
    }

    /// A factor inside making limits. A maker whose pieces often lie outside has them sent back: the limits are three standard
    /// deviations from their middle, and what lies outside is not delivered (common practice, no source). All pieces of a line
    /// come from one lot and deviate alike, which is the worst case.
    pub fn made(&mut self, below: f64, above: f64) -> f64 {
        loop {
            let off = (above - below) / 2.0 + self.normal((above + below) / 6.0);
            if (-below..=above).contains(&off) {
                return 1.0 + off;
            }
        }
    }
}
