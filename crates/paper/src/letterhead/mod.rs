//! What every paper of a job has alike: head and foot of its pages, and how it begins.

pub(crate) mod bar;
pub mod frame;
pub(crate) mod opening;
pub(crate) mod who;
