//! Numbers that look random and are the same every time: the `SplitMix64` generator (Steele, Lea and Flood, 2014;
//! constants from memory).

/// A stream of numbers that a seed decides.
pub(super) struct Random(u64);

impl Random {
    pub(super) fn new(seed: u64) -> Self {
        Self(seed)
    }

    fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let mut mixed = self.0;
        mixed = (mixed ^ (mixed >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        mixed = (mixed ^ (mixed >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        mixed ^ (mixed >> 31)
    }

    /// A whole number below `end`; 0 where `end` is 0. The slight lean towards small numbers does no harm here.
    pub(super) fn below(&mut self, end: usize) -> usize {
        let end = u64::try_from(end).unwrap_or(u64::MAX).max(1);
        usize::try_from(self.next() % end).unwrap_or(0)
    }

    /// A whole number from `low` to `high`, both included.
    pub(super) fn between(&mut self, low: u32, high: u32) -> u32 {
        let span = u64::from(high.saturating_sub(low)) + 1;
        low + u32::try_from(self.next() % span).unwrap_or(0)
    }

    /// True once in `times`.
    pub(super) fn once_in(&mut self, times: usize) -> bool {
        self.below(times) == 0
    }

    /// One of some; the type's empty value where there are none.
    pub(super) fn pick<T: Copy + Default>(&mut self, of: &[T]) -> T {
        let at = self.below(of.len());
        of.get(at).copied().unwrap_or_default()
    }

    /// Puts some in another order.
    pub(super) fn shuffle<T>(&mut self, of: &mut [T]) {
        for end in (1..of.len()).rev() {
            let other = self.below(end + 1);
            of.swap(end, other);
        }
    }
}
