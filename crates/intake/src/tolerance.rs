//! A size or depth joined with a tolerance that stands in a column of its own.

use quillbore_job::{Column, Unit, read_quantity as read};

use crate::of_unit::{behind, is_bare};
use crate::words;

/// `0.8` and `0.02` are 0.8 plus or minus 0.02; a signed tolerance or a fit class stands as it is. What was
/// guessed is said.
///
/// A unit behind a tolerance would hold for what is before it, too, so that this gets its own.
pub(crate) fn joined(
    nominal: &str,
    tolerance: &str,
    column: Column,
    unit: Unit,
) -> (String, Option<String>) {
    let trimmed = tolerance.trim_start();
    let digits = trimmed.starts_with(|l: char| l.is_ascii_digit() || l == '.');
    let measure = read::length_or_zero(tolerance, unit).is_ok();
    let named = measure || trimmed.starts_with(['+', '-', '\u{b1}', '\u{2212}']);
    let sign = if digits && measure { "+-" } else { "" };
    let both = |of_nominal: &str, of_tolerance: &str| {
        format!("{nominal}{of_nominal} {sign}{tolerance}{of_tolerance}")
            .trim_start()
            .to_owned()
    };
    let of_table = &format!(" {}", behind(unit));
    match (is_bare(nominal), is_bare(tolerance)) {
        (true, false) if named && !nominal.is_empty() => (both(of_table, ""), None),
        (false, true) if named && !ends_in(nominal, unit) => {
            in_either([both("", of_table), both("", "")], tolerance, column, unit)
        }
        _ => (both("", ""), None),
    }
}

/// Whether a text ends in this unit.
fn ends_in(text: &str, unit: Unit) -> bool {
    let text = text.trim_end();
    text.ends_with(behind(unit)) || (unit == Unit::Inch && text.ends_with('"'))
}

/// A bare tolerance beside a value with a unit: bare numbers are in the table's unit, unless that can't be
/// and the value's own can.
fn in_either(
    [of_table, own]: [String; 2],
    tolerance: &str,
    column: Column,
    unit: Unit,
) -> (String, Option<String>) {
    let (in_table, in_own) = (limits(&of_table, column, unit), limits(&own, column, unit));
    let is_likely = |limits: &Option<[f64; 2]>| limits.is_some_and(are_likely);
    match (is_likely(&in_table), is_likely(&in_own)) {
        _ if in_table == in_own => (own, None),
        (true, false) => (of_table, None),
        (false, true) => (own, Some(words::tolerance_in_its_unit(tolerance))),
        (true, true) | (false, false) => {
            (of_table, Some(words::tolerance_in_units(tolerance, unit)))
        }
    }
}

/// Limits in millimeters, where they can be read.
fn limits(text: &str, column: Column, unit: Unit) -> Option<[f64; 2]> {
    let limits = match column {
        Column::Depth => read::depth(text, unit).ok()?.limits?,
        _ => {
            let size = read::size(text, unit).ok()?;
            return Some([size.lower.mm(), size.upper.mm()]);
        }
    };
    Some([limits.lower.mm(), limits.upper.mm()])
}

/// Whether anybody drills between such limits: they are micrometers apart at least, and less than the
/// value itself.
fn are_likely([lower, upper]: [f64; 2]) -> bool {
    const LEAST_APART_MM: f64 = 0.003;
    const MOST_OF_MIDDLE: f64 = 0.6;
    let apart = upper - lower;
    apart >= LEAST_APART_MM && apart <= (lower + upper) * 0.5 * MOST_OF_MIDDLE
}
