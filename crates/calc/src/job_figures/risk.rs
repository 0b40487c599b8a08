//! The chance of a loss, and what drives it.

/// What the price of the offered quantity risks.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Risk {
    /// Chance that the lot costs more than it is sold for [-].
    pub below_full_cost: f64,
    /// Chance that what is paid out for it is more: all of its cost but the machine's hours [-].
    pub below_paid_out: f64,
    /// Price of the lot at which the first chance is one in ten [currency].
    pub lot_at_a_tenth: f64,
    /// The same of one part [currency].
    pub each_at_a_tenth: f64,
    /// What the spread of the cost goes with.
    pub drivers: Drivers,
    /// What a test burn would make of the spread, by its number of holes.
    pub test_burns: [TestBurn; 3],
}

/// Shares of the variance of a lot's cost by what it goes with [-].
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Drivers {
    /// How fast it burns, and the wear that goes with that.
    pub burn: f64,
    /// The wear's own.
    pub wear: f64,
    /// Handling.
    pub handling: f64,
    /// Breakages, holes about the lot, and what goes with several at once.
    pub rest: f64,
}

/// The cost's band once holes like the lot's were burned on a test piece [currency].
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct TestBurn {
    /// Holes burned; 0 for none, the band as it is by the same reckoning.
    pub holes: u32,
    /// One lot in ten costs less.
    pub p10: f64,
    /// One lot in ten costs more.
    pub p90: f64,
}
