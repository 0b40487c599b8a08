//! The units that lengths were read in, and numbers that may be read in two ways.

use quillbore_job::Unit;

use super::in_quotes;
use crate::head_unit::HeadUnit;

/// The unit that bare lengths were read in, the line that says so, and the heads that name another.
pub(crate) fn units(unit: Unit, line: Option<usize>, others: &[(&str, HeadUnit)]) -> String {
    let line = line.map_or_else(String::new, |line| format!(", as line {line} says"));
    let others = others
        .iter()
        .map(|(head, unit)| format!(", those under {} in {}", in_quotes(head), of_head(*unit)));
    let others: String = others.collect();
    format!(
        "Lengths without a unit were read in {}{line}{others}.",
        named(unit)
    )
}

/// The unit that a line between the rows names; `other` where heads name another, too.
pub(crate) fn unit_of_section(line: usize, unit: HeadUnit, other: bool) -> String {
    let unit = of_head(unit);
    match other {
        true => format!(
            "Line {line} names {unit}, and the head names another unit, which was taken: see which is meant."
        ),
        false => format!("Lengths below line {line} were read in {unit}, as it says."),
    }
}

/// A number with a comma whose reading was decided.
pub(crate) fn comma_read(cell: &str, read: &str) -> String {
    format!("{} was read as {read}", in_quotes(cell))
}

/// A number with a comma that may group digits.
pub(crate) fn comma_in_doubt(cell: &str, one: &str, other: &str) -> String {
    format!(
        "{} could be {one} or {other}: type the one that is meant",
        in_quotes(cell)
    )
}

/// The tolerance beside a size or depth of another unit, in the unit of bare numbers.
pub(crate) fn tolerance_in_units(tolerance: &str, unit: Unit) -> String {
    format!(
        "the tolerance {} was read in {}, as other bare numbers, not in the unit of what it stands beside: see whether that is meant",
        in_quotes(tolerance),
        named(unit)
    )
}

/// The tolerance beside a size or depth of another unit, in that one.
pub(crate) fn tolerance_in_its_unit(tolerance: &str) -> String {
    format!(
        "the tolerance {} was read in the unit of what it stands beside: see whether that is meant",
        in_quotes(tolerance)
    )
}

pub(super) const fn named(unit: Unit) -> &'static str {
    match unit {
        Unit::Mm => "millimeters",
        Unit::Inch => "inches",
    }
}

const fn of_head(unit: HeadUnit) -> &'static str {
    match unit {
        HeadUnit::Whole(unit) => named(unit),
        HeadUnit::FirstOf(Unit::Mm) => "millimeters, the first of two units",
        HeadUnit::FirstOf(Unit::Inch) => "inches, the first of two units",
        HeadUnit::Either(_) => "neither of two units: see which is meant",
        HeadUnit::Part(Unit::Mm, 1) => "tenths of a millimeter",
        HeadUnit::Part(Unit::Mm, 2) => "hundredths of a millimeter",
        HeadUnit::Part(Unit::Inch, 1) => "tenths of an inch",
        HeadUnit::Part(Unit::Inch, 2) => "hundredths of an inch",
        HeadUnit::Part(Unit::Inch, 4) => "ten-thousandths of an inch",
        HeadUnit::Part(..) => "the part of a unit that it names",
        HeadUnit::Tenths => "no unit: tenths may be of a millimeter or of a thousandth of an inch",
        HeadUnit::Cm => "centimeters",
        HeadUnit::Um => "micrometers",
        HeadUnit::Thou => "thousandths of an inch",
        HeadUnit::Degrees => "degrees",
    }
}
