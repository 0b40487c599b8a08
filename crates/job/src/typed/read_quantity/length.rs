//! Lengths and coordinates.

use quillbore_calc::Length;

use super::measure::{Sign, whole_length};
use super::misread::{Misread, What};
use super::scan::Scan;
use crate::typed::entry::Unit;

/// Reads a length that is more than nothing: `1/32 in`, `.020`, `0,5 mm`, `20 thou`.
pub fn length(text: &str, unit: Unit) -> Result<Length, Misread> {
    whole_length(
        &mut Scan::of_length(text)?,
        unit,
        What::Length,
        Sign::Positive,
    )
}

/// Reads a length that may be nothing.
pub fn length_or_zero(text: &str, unit: Unit) -> Result<Length, Misread> {
    whole_length(
        &mut Scan::of_length(text)?,
        unit,
        What::Length,
        Sign::NotNegative,
    )
}

/// Reads a coordinate: a length of any sign.
pub fn coordinate(text: &str, unit: Unit) -> Result<Length, Misread> {
    whole_length(&mut Scan::of_length(text)?, unit, What::Length, Sign::Any)
}
