//! From the rows' figures to the lot's: clampings, minutes, cost, price, spread.

mod assembled;
mod clampings;
mod minutes;
mod money;
mod rows;
mod shop;
mod spread;
mod workings;
