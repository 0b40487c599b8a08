//! A bare number with the unit that its head, its line or a heading above it names.

use quillbore_job::{Unit, read_quantity as read};

use crate::head_unit::HeadUnit;

/// A bare number with a unit behind it; what has a unit itself stays as it is.
pub(crate) fn with_unit(cell: &str, unit: Option<HeadUnit>) -> String {
    let Some(unit) = unit.filter(|_| is_bare(cell)) else {
        return cell.to_owned();
    };
    if let HeadUnit::Part(of, power) = unit {
        let of = behind(of);
        // What can't be put in decimals stays with its unit, and is asked about.
        return divided(cell, power).map_or_else(
            || format!("{cell} 10^-{power} {of}"),
            |decimal| format!("{decimal} {of}"),
        );
    }
    let of_two = matches!(unit, HeadUnit::FirstOf(_) | HeadUnit::Either(_));
    match unit.behind() {
        Some(_) if of_two && is_in_both(cell) => cell.to_owned(),
        Some(unit) => format!("{cell} {unit}"),
        None => cell.to_owned(),
    }
}

/// A unit as it stands behind a number.
pub(crate) const fn behind(unit: Unit) -> &'static str {
    match unit {
        Unit::Mm => "mm",
        Unit::Inch => "in",
    }
}

/// Whether a text names no unit.
pub(crate) fn is_bare(text: &str) -> bool {
    !text
        .chars()
        .any(|letter| (letter.is_alphabetic() && !is_diameter(letter)) || letter == '"')
}

const fn is_diameter(letter: char) -> bool {
    matches!(letter, '\u{d8}' | '\u{f8}' | '\u{3a6}' | '\u{3c6}')
}

/// Whether a cell gives one length in both units, so that it is the same whatever bare numbers are in.
pub(crate) fn is_in_both(cell: &str) -> bool {
    let in_unit = |unit| read::size(cell, unit).ok()?.nominal;
    let in_mm = in_unit(Unit::Mm);
    in_mm.is_some() && in_mm == in_unit(Unit::Inch)
}

/// A cell whose numbers are divided by a power of ten; `None` where one of them is no plain decimal.
fn divided(cell: &str, power: u8) -> Option<String> {
    let of_number = |letter: char| letter.is_ascii_digit() || matches!(letter, '.' | ',');
    let mut divided = String::with_capacity(cell.len() + 8);
    let mut rest = cell;
    while let Some(begins) = rest.find(of_number) {
        let (before, number) = rest.split_at(begins);
        let ends = number.find(|letter| !of_number(letter));
        let (number, behind) = number.split_at(ends.unwrap_or(number.len()));
        divided += before;
        let (whole, part) = number.split_once(['.', ',']).unwrap_or((number, ""));
        if part.contains(['.', ',']) {
            return None;
        }
        let places = usize::from(power);
        let whole = format!("{whole:0>width$}", width = places + 1);
        let (whole, shifted) = whole.split_at(whole.len() - places);
        divided += &format!("{whole}.{shifted}{part}");
        rest = behind;
    }
    divided += rest;
    Some(divided)
}

#[cfg(test)]
mod tests {
    use quillbore_job::Unit;

    use super::with_unit;
    use crate::head_unit::HeadUnit;

    #[test]
    fn numbers_of_a_part_become_decimals() {
        for (cell, unit, text) in [
            ("80", HeadUnit::Part(Unit::Mm, 2), "0.80 mm"),
            ("\u{b1}2", HeadUnit::Part(Unit::Mm, 2), "\u{b1}0.02 mm"),
            ("+2,5/-0", HeadUnit::Part(Unit::Mm, 2), "+0.025/-0.00 mm"),
            ("1200", HeadUnit::Part(Unit::Mm, 2), "12.00 mm"),
            ("8", HeadUnit::Part(Unit::Inch, 4), "0.0008 in"),
            ("1.200,5", HeadUnit::Part(Unit::Mm, 1), "1.200,5 10^-1 mm"),
            ("0.8 mm", HeadUnit::Part(Unit::Mm, 2), "0.8 mm"),
            ("0.8", HeadUnit::FirstOf(Unit::Mm), "0.8 mm"),
            ("0.8", HeadUnit::Either("mm / in"), "0.8 mm / in"),
            ("0.8 (.0315)", HeadUnit::FirstOf(Unit::Mm), "0.8 (.0315)"),
            ("0.8/.0315", HeadUnit::Either("mm / in"), "0.8/.0315"),
            ("5", HeadUnit::Tenths, "5 tenths"),
        ] {
            assert_eq!(with_unit(cell, Some(unit)), text, "{cell}");
        }
    }
}
