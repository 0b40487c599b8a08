//! Quantities of a hole as the drawing gives them: sizes, depths, layers.

use quillbore_calc::{Length, Limits};

/// A diameter with its limits, as the drawing gives it.
#[derive(Clone, Debug, PartialEq)]
pub struct Size {
    /// Nominal diameter, where the text has one.
    pub nominal: Option<Length>,
    /// Lower limit; zero where only a maximum was given.
    pub lower: Length,
    /// Upper limit.
    pub upper: Length,
    /// How the limits were given.
    pub given: LimitsGiven,
}

/// A depth on the hole's axis, as the drawing gives it.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Depth {
    /// The text says that the hole goes through.
    pub through: bool,
    /// Nominal depth, where the text has one.
    pub nominal: Option<Length>,
    /// Lower and upper limit, where the text has them.
    pub limits: Option<Limits<Length>>,
    /// What is aimed at: the middle of the limits, else the nominal depth; `None` where the text
    /// says through and no more.
    pub aim: Option<Length>,
}

/// How a size's limits were given.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum LimitsGiven {
    /// `0.80 +-0.02`.
    PlusMinus,
    /// `.031 +.003/-0`.
    Unequal,
    /// `0.78-0.82`, `0.82/0.78`.
    Pair,
    /// `0.82 MAX`.
    Max,
    /// `3 H7`, looked up in ISO 286.
    FitClass(String),
    /// No limits in the text: lower and upper equal the nominal until a default tolerance is known.
    None,
}

/// One layer as typed: material by name, the job's own where it says nothing.
#[derive(Clone, Debug, PartialEq)]
pub struct LayerText {
    /// The shop's name of the material; `None` for the job's own.
    pub material: Option<String>,
    /// Thickness along the hole's axis.
    pub thickness: Length,
}
