//! One hole location as printed.

use crate::words::axes::HEADS;

/// One location as printed, column by column.
pub(super) type PrintedPlace = [String; HEADS.len()];
