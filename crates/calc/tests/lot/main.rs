//! From the rows' figures to the lot's: clampings, minutes, cost, price, spread.

mod clampings;
mod money;
mod rows;
mod spread;
