//! What is written at the working of a figure.

/// Puts the working away.
pub const CLOSE: &str = "close";

/// That there is no figure yet.
pub const NOTHING_YET: &str = "Nothing can be computed yet.";

/// Before what comes out.
pub const RESULT: &str = "result";

/// Before the figure that stands instead.
pub const OVERRULED: &str = "overruled";

/// Takes an overrule back.
pub const LET_COMPUTED_STAND: &str = "let the computed one stand";

/// Before the place to overrule.
pub const OVERRULE_WITH: &str = "overrule with ";

/// The name of the place to overrule.
pub const OVERRULING_VALUE: &str = "overruling value";

/// Before the place for the reason.
pub const BECAUSE: &str = "because ";

/// The name of the place for the reason.
pub const REASON: &str = "reason";

/// Overrules.
pub const OVERRULE: &str = "overrule";

/// Why a figure is overruled.
#[must_use]
pub fn because(reason: &str) -> String {
    format!("because: {reason}")
}
