//! What a command writes, line by line.

use std::fmt::Display;
use std::io::Write;

use crate::failure::Failure;
use crate::words::commands as words;

/// Writes a line.
pub(super) fn say(out: &mut impl Write, line: impl Display) -> Result<(), Failure> {
    writeln!(out, "{line}").map_err(|error| words::not_written_out(&error))
}
