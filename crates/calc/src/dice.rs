//! A small repeatable source of random numbers for the searches.

/// SplitMix64 (Steele, Lea and Flood, OOPSLA 2014 «memory»): same seed, same throws, on every
/// platform.
pub(crate) struct Dice(u64);

impl Dice {
    /// Starts the sequence that belongs to `seed`.
    pub(crate) fn new(seed: u64) -> Self {
        Dice(seed)
    }

    /// The next 64 random bits.
    pub(crate) fn bits(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut mixed = self.0;
        mixed = (mixed ^ (mixed >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        mixed = (mixed ^ (mixed >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        mixed ^ (mixed >> 31)
    }

    /// A number in `0..sides`; 0 when there are no sides.
    ///
    /// Multiply and shift: the bias is below `sides` / 2^64, nothing to a search.
    pub(crate) fn below(&mut self, sides: usize) -> usize {
        let product = u128::from(self.bits()) * (sides as u128);
        (product >> 64) as usize
    }
}

#[cfg(test)]
mod tests {
    use super::Dice;

    #[test]
    fn first_throws_of_seed_zero_are_the_known_ones() {
        // SplitMix64 from seed 0, first two outputs «memory».
        let mut dice = Dice::new(0);
        assert_eq!(dice.bits(), 0xe220_a839_7b1d_cdaf);
        assert_eq!(dice.bits(), 0x6e78_9e6a_a1b9_65f4);
    }

    #[test]
    fn throws_stay_below_the_number_of_sides_and_reach_every_side() {
        let mut dice = Dice::new(7);
        let mut seen = [0_u32; 6];
        for _ in 0..600 {
            seen[dice.below(6)] += 1;
        }
        assert!(seen.iter().all(|&times| times > 50), "{seen:?}");
        assert_eq!(dice.below(0), 0);
    }
}
