//! Why nothing of a STEP file could be taken.

use std::error::Error;
use std::fmt;

use crate::step::StepError;

impl StepError {
    /// What to do about it.
    #[must_use]
    pub const fn hint(&self) -> &'static str {
        match self {
            Self::NotStep => {
                "ask for the part as a STEP file (.step or .stp); one that is packed must be unpacked first"
            }
            Self::NoData | Self::Cut(_) => "see whether it was copied whole, or ask for it again",
            Self::Unreadable(_) | Self::Twice { .. } => {
                "ask for it again, exported anew from the CAD system"
            }
            Self::NoSolid => {
                "ask for an export of the solid itself (AP203, AP214 or AP242), not of a drawing or of links to other files"
            }
            Self::TooMany => "ask for the part that is to be drilled alone, without its assembly",
            Self::Stopped => "read it again when there is time",
        }
    }
}

impl Error for StepError {}

impl fmt::Display for StepError {
    /// One sentence: why nothing of a STEP file could be taken.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::NotStep => f.write_str("This is not a STEP file"),
            Self::NoData => f.write_str("The STEP file has no data in it"),
            Self::Cut(line) => write!(f, "The STEP file is cut off: it ends in line {line}"),
            Self::Unreadable(line) => {
                write!(f, "Line {line} of the STEP file is not written as STEP is")
            }
            Self::Twice { number, line } => write!(
                f,
                "Number #{number} of the STEP file is given twice, again in line {line}"
            ),
            Self::NoSolid => f.write_str("The STEP file shows no solid"),
            Self::TooMany => f.write_str("The STEP file shows more than a part can have"),
            Self::Stopped => f.write_str("Reading the STEP file was stopped"),
        }
    }
}
