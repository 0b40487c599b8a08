//! Heads of columns that several papers have.

/// Heads of columns that several papers have.
#[derive(Clone, Copy, Debug)]
pub struct Heads {
    /// A row of holes.
    pub mark: &'static str,
    /// How many holes.
    pub holes: &'static str,
    /// Of one part.
    pub in_one_part: &'static str,
    /// The lower limit.
    pub at_least: &'static str,
    /// The upper limit.
    pub at_most: &'static str,
    /// The depth.
    pub depth: &'static str,
    /// Where a hole ends.
    pub end: &'static str,
    /// The angle to the surface's normal.
    pub from_normal: &'static str,
    /// The angle to the surface.
    pub from_surface: &'static str,
    /// What else is to be said.
    pub remark: &'static str,
    /// The pieces by their serial numbers.
    pub serials: &'static str,
    /// How many parts.
    pub parts: &'static str,
    /// How many parts are asked for.
    pub quantity: &'static str,
    /// What a count is of.
    pub in_parts: &'static str,
    /// The price of one part.
    pub price_each: &'static str,
    /// The price of all parts.
    pub price_of_lot: &'static str,
}
