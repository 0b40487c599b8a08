//! Helpers shared by the tests of the whole.
