//! Chances of a size.

/// What a tube makes of a hole while the lot's gap is still unknown.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Chance {
    /// Chance of a size inside both limits, 0 to 1.
    pub inside: f64,
    /// Chance of a size over the upper limit, 0 to 1.
    pub over: f64,
}

/// A tube that could be bought for a hole.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Bought {
    /// Its outer diameter [mm].
    pub outer_mm: f64,
    /// Chance of a hole inside both limits with it, once the first piece is measured.
    pub held: f64,
}
