//! Places of holes: patterns and pasted lists.

mod vector;

pub use vector::unit_vector;
