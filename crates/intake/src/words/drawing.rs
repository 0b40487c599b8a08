//! Why a drawing could not be read.

use std::error::Error;
use std::fmt;

use super::in_quotes;
use crate::dxf::{DxfError, Spot};

impl DxfError {
    /// What to do about it.
    #[must_use]
    pub const fn hint(&self) -> &'static str {
        match self {
            Self::NotDxf => "save the drawing as DXF in the program that it was drawn with",
            Self::Dwg => {
                "save it as DXF in the program that it was drawn with, or ask the customer for a DXF"
            }
            Self::Empty => {
                "see whether this is the drawing, and whether its model was saved with it"
            }
            Self::Cut(_) | Self::NoCode { .. } => {
                "fetch or save the drawing again: this copy of it is not as it was written"
            }
            Self::TooMuchPlaced(_) => "save the view that shows the holes to a drawing of its own",
            Self::Cancelled => "open the drawing again",
        }
    }
}

impl Error for DxfError {}

impl fmt::Display for DxfError {
    /// One sentence: why a drawing could not be read.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::NotDxf => f.write_str("This is not a DXF drawing"),
            Self::Dwg => f.write_str("This is a DWG drawing, which is not read"),
            Self::Empty => f.write_str("Nothing is drawn in this file"),
            Self::Cut(spot) => write!(f, "The drawing breaks off before its end, at {}", at(*spot)),
            Self::NoCode { spot, found } if found.is_empty() => {
                write!(f, "The drawing has no group code at {}", at(*spot))
            }
            Self::NoCode { spot, found } => write!(
                f,
                "The drawing has {} in the place of a group code, at {}",
                in_quotes(found),
                at(*spot)
            ),
            Self::TooMuchPlaced(most) => write!(
                f,
                "The drawing places its blocks so often that they come to more than {most} edges"
            ),
            Self::Cancelled => f.write_str("Reading the drawing was stopped"),
        }
    }
}

fn at(spot: Spot) -> String {
    match spot {
        Spot::Line(line) => format!("line {line}"),
        Spot::Byte(byte) => format!("byte {byte}"),
    }
}
