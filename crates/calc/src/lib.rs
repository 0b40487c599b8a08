//! The mathematics of drilling small deep holes by EDM: pure, no_std.
#![no_std]

extern crate alloc;
