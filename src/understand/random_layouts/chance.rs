//! Chance that follows from a number alone: the same case in every run and on every machine.

/// A generator of pseudo-random numbers (splitmix64: Steele, Lea and Flood, 2014, "Fast splittable pseudorandom number
/// generators").
pub struct Chance(u64);

impl Chance {
    /// The chance of one case.
    pub fn of(case: u64) -> Chance {
        Chance(
            case.wrapping_mul(0xD134_2543_DE82_EF95)
                .wrapping_add(0x5851_F42D_4C95_7F2D),
        )
    }

    fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let mut mixed = self.0;
        mixed = (mixed ^ (mixed >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        mixed = (mixed ^ (mixed >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        mixed ^ (mixed >> 31)
    }

    /// A whole number from `low` to `high`, both included.
    pub fn between(&mut self, low: i64, high: i64) -> i64 {
        low + (self.next() % (high - low + 1) as u64) as i64
    }

    /// True in so many of a hundred.
    pub fn percent(&mut self, percent: i64) -> bool {
        self.between(1, 100) <= percent
    }

    /// One of several.
    pub fn one<T: Copy>(&mut self, of: &[T]) -> T {
        of[self.between(0, of.len() as i64 - 1) as usize]
    }

    /// In any order.
    pub fn shuffle<T>(&mut self, all: &mut [T]) {
        for last in (1..all.len()).rev() {
            all.swap(last, self.between(0, last as i64) as usize);
        }
    }
}
