//! Work that is not saved yet, kept on this machine so that a crash or a power cut loses seconds at
//! most; and what an earlier run left behind.

mod file;
mod keeper;

pub use file::{Left, forget, left_behind};
pub use keeper::{Keeper, Told};

#[cfg(test)]
mod tests;
