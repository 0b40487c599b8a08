//! What is said of names that can't be used.

use crate::names::NameRefused;

/// What to do about a name that can't be used.
pub(crate) const HINT: &str = "take letters, digits and hyphens, as in 26-0107";

/// One sentence: why a text is no name of a job or of a file beside one.
pub(crate) fn refused(why: &NameRefused) -> String {
    match why {
        NameRefused::Empty => "The name is empty".to_owned(),
        NameRefused::TooLong { most } => {
            format!("The name is longer than {most} letters, and not every disk takes that")
        }
        NameRefused::Sign { name, sign } => {
            let sign = sign.escape_default();
            let name = name.escape_debug();
            format!(
                "The name \u{201c}{name}\u{201d} has the sign {sign} in it, so it could lead to another folder"
            )
        }
        NameRefused::Edge { name } => {
            format!("The name \u{201c}{name}\u{201d} begins or ends with a dot or a blank")
        }
        NameRefused::Kept { name } => {
            format!("The name \u{201c}{name}\u{201d} is kept for something else")
        }
    }
}
