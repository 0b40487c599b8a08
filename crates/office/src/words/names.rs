//! What is said of names that can't be used.

use std::error::Error;
use std::fmt;

use crate::names::NameRefused;

impl NameRefused {
    /// What to do about it.
    #[must_use]
    pub const fn hint(&self) -> &'static str {
        "use letters, digits and hyphens, as in 26-0107"
    }
}

impl Error for NameRefused {}

impl fmt::Display for NameRefused {
    /// One sentence: why a text can't be the name of a job or of a file beside one.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let said = match self {
            NameRefused::Empty => "The name is empty".to_owned(),
            NameRefused::TooLong { most } => {
                format!("The name is longer than {most} letters, and not every disk takes that")
            }
            NameRefused::Sign { name, sign } => {
                let sign = sign.escape_default();
                let name = name.escape_debug();
                format!(
                    "The name \u{201c}{name}\u{201d} has the character {sign} in it, so it could lead to another folder"
                )
            }
            NameRefused::Edge { name } => {
                format!("The name \u{201c}{name}\u{201d} begins or ends with a dot or a space")
            }
            NameRefused::Kept { name } => {
                format!("The name \u{201c}{name}\u{201d} is reserved for something else")
            }
        };
        f.write_str(&said)
    }
}
