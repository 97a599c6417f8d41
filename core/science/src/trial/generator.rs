//! The generator of layouts: splitmix64, bounded draws by rejection, shuffles from the last index down.
//!
//! A layout is kept with its seed, [`NAME`] and [`VERSION`]; another order of draws is another version.

/// What is written beside a layout.
pub const NAME: &str = "splitmix64";
/// Raised on any change of what a seed gives.
pub const VERSION: u32 = 1;

const GAMMA: u64 = 0x9E37_79B9_7F4A_7C15;

/// Steele, Lea & Flood 2014, Fast splittable pseudorandom number generators, OOPSLA; constants after Stafford's Mix13.
#[derive(Debug, Clone)]
pub struct SplitMix64(u64);

impl SplitMix64 {
    /// Starts from a seed.
    pub const fn new(seed: u64) -> Self {
        Self(seed)
    }

    /// The next 64 bits.
    pub fn draw(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(GAMMA);
        let z = (self.0 ^ (self.0 >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        let z = (z ^ (z >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        z ^ (z >> 31)
    }

    /// A number below `limit`, each as likely as the others; 0 where the limit is 0.
    pub fn below(&mut self, limit: usize) -> usize {
        let Ok(limit) = u64::try_from(limit) else { return 0 };
        if limit < 2 {
            return 0;
        }
        // 2^64 mod limit draws at the top would favour the small numbers.
        let surplus = (u64::MAX % limit + 1) % limit;
        loop {
            let drawn = self.draw();
            if surplus == 0 || drawn < u64::MAX - surplus + 1 {
                return usize::try_from(drawn % limit).unwrap_or(0);
            }
        }
    }

    /// Shuffles in place (Durstenfeld 1964, Algorithm 235, Communications of the ACM 7:420).
    pub fn shuffle<T>(&mut self, items: &mut [T]) {
        for last in (1..items.len()).rev() {
            let other = self.below(last + 1);
            items.swap(last, other);
        }
    }

    /// A uniform number in (0, 1).
    #[expect(clippy::cast_precision_loss, reason = "53 bits fit a double exactly")]
    pub fn uniform(&mut self) -> f64 {
        ((self.draw() >> 11) as f64 + 0.5) * (1.0 / 9_007_199_254_740_992.0)
    }
}
