//! How a hole is made that one plunge into full metal doesn't make.

use crate::broken::Plan;
use crate::plunge::Opening;

/// A broken tool's plan, and how a tube that is too thin opens the hole.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct BurntFigures {
    /// What broke, and with what it is burnt out; `None` for a hole that is opened.
    pub tool: Option<Plan>,
    /// How the hole is opened; `None` where one plunge does it.
    pub opening: Option<Opening>,
}
