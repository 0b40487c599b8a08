//! What is said when a file can't be the shop's logo.

use std::fmt;

use crate::shop::{LARGEST_LOGO_KIB, LogoError};

impl fmt::Display for LogoError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::Empty => "The logo's file is empty",
            Self::TooLarge { kib } => {
                return write!(
                    f,
                    "The logo's file has {kib} KiB, and a logo has {LARGEST_LOGO_KIB} KiB at most"
                );
            }
            Self::Jpeg => "The logo's file is a JPEG picture, and a logo is a PNG or an SVG",
            Self::Packed => "The logo's file is packed (gzip, as in svgz)",
            Self::NotUtf8 => "The logo's file is not written in UTF-8",
            Self::Neither => "The logo's file is neither a PNG nor an SVG",
        })
    }
}

impl LogoError {
    /// What to do about it.
    #[must_use]
    pub const fn hint(&self) -> &'static str {
        match self {
            Self::Empty | Self::Neither => "Choose a PNG or an SVG file.",
            Self::TooLarge { .. } => {
                "Save it smaller: a PNG of 1,900 pixels across is as fine as papers print it."
            }
            Self::Jpeg => "Save it as PNG in a picture editor.",
            Self::Packed => "Save it as plain SVG.",
            Self::NotUtf8 => "Save it as plain SVG in UTF-8.",
        }
    }
}
