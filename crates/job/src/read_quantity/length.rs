//! Lengths and depths.

use quillbore_calc::Length;

use super::measure::{Sign, whole_length};
use super::scan::Scan;
use super::{Misread, What};
use crate::Unit;

/// Reads a length that is more than nothing: `1/32 in`, `.020`, `0,5 mm`, `20 thou`.
pub fn length(text: &str, unit: Unit) -> Result<Length, Misread> {
    whole_length(&mut Scan::new(text)?, unit, What::Length, Sign::Positive)
}

/// Reads a length that may be nothing.
pub fn length_or_zero(text: &str, unit: Unit) -> Result<Length, Misread> {
    whole_length(&mut Scan::new(text)?, unit, What::Length, Sign::NotNegative)
}

/// Reads a coordinate: a length of any sign.
pub fn coordinate(text: &str, unit: Unit) -> Result<Length, Misread> {
    whole_length(&mut Scan::new(text)?, unit, What::Length, Sign::Any)
}

/// Reads a depth on a hole's axis: `14`, `.55 deep`, `depth 14 mm`.
pub fn depth(text: &str, unit: Unit) -> Result<Length, Misread> {
    let mut scan = Scan::new(text)?;
    if scan.eat_word(&["thru", "through"]) {
        return Err(Misread::ThroughIsAnEnd);
    }
    let _ = scan.eat('\u{21a7}') || scan.eat_word(&["depth", "deep"]);
    let scan = &mut scan.without_suffix(&["deep", "depth"]);
    whole_length(scan, unit, What::Depth, Sign::Positive)
}
