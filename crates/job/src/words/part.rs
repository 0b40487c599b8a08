//! What is said of holes whose depth is at odds with the part, and what of its size is missing.

use super::speaker::capital;
use crate::typed::entry::Unit;
use crate::typed::field::Field;
use crate::typed::form::Form;

/// A size along x, y and z with its unit.
pub(super) fn size(mm: &[f64; 3], unit: Unit, form: Form) -> String {
    let along = mm.map(|mm| form.length_mm(mm, unit));
    format!("{} {}", along.join(" x "), unit.symbol())
}

/// A hole that is deeper than the part is long in any direction.
pub(crate) fn deeper_than_part(
    size_mm: &[f64; 3],
    longest_mm: f64,
    unit: Unit,
    form: Form,
) -> String {
    format!(
        "Deeper than the part is long in any direction: no straight line in {} is longer than {}. Check the depth, and the size of the part.",
        size(size_mm, unit, form),
        form.length_with_unit(longest_mm, unit)
    )
}

/// A blind hole that the wall has no bottom for.
pub(crate) fn blind_through_wall(wall_mm: f64, unit: Unit, form: Form) -> String {
    format!(
        "Blind, but deep enough to come through the wall of {}: it would have no bottom. Check its depth and its end, unless the part is thicker there.",
        form.length_with_unit(wall_mm, unit)
    )
}

/// A through hole whose depth ends inside the wall.
pub(crate) fn shorter_than_wall(wall_mm: f64, unit: Unit, form: Form) -> String {
    format!(
        "Through, but less deep than the wall of {} along the hole's axis: the wall may be thinner there.",
        form.length_with_unit(wall_mm, unit)
    )
}

/// That it can't be told whether the part fits, by the lines of its size and mass that say nothing.
pub(super) fn not_known(unknown: &[Field]) -> String {
    let axis = |field: &Field| match field {
        Field::SizeX => Some("x"),
        Field::SizeY => Some("y"),
        Field::SizeZ => Some("z"),
        _ => None,
    };
    let axes: Vec<&str> = unknown.iter().filter_map(axis).collect();
    let size = match axes.as_slice() {
        [] => None,
        [_, _, _] => Some("the size".to_owned()),
        some => Some(format!("the size along {}", some.join(" and "))),
    };
    let mass = unknown.contains(&Field::Mass);
    let mass = mass.then(|| "the mass".to_owned());
    let (what, is) = match (size, mass) {
        (Some(size), Some(mass)) => (format!("{size} and {mass}"), "are"),
        (Some(one), None) | (None, Some(one)) => (one, "is"),
        (None, None) => ("size or mass".to_owned(), "is"),
    };
    format!(
        "{} of the part {is} not known: nobody can say yet whether it fits the machine.",
        capital(&what)
    )
}

/// The same of very many rows, told once.
pub(crate) fn in_rows(said: &str, count: usize, first: &str) -> String {
    format!("{said} It is so in {count} rows, {first} the first of them.")
}
