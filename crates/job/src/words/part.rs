//! What is said of holes whose depth is at odds with the part, and what of its size is missing.

use crate::typed::entry::Unit;
use crate::typed::show_quantity as show;

/// A size along x, y and z with its unit.
pub(super) fn size(mm: &[f64; 3], unit: Unit) -> String {
    let along = mm.map(|mm| show::length_mm(mm, unit));
    format!("{} {}", along.join(" x "), unit.symbol())
}

/// A hole that is deeper than the part is long in any direction.
pub(crate) fn deeper_than_part(size_mm: &[f64; 3], longest_mm: f64, unit: Unit) -> String {
    format!(
        "Deeper than the part is long in any direction: no straight line in {} is longer than {}. Check the depth, and the size of the part.",
        size(size_mm, unit),
        show::length_with_unit(longest_mm, unit)
    )
}

/// A blind hole that the wall has no bottom for.
pub(crate) fn blind_through_wall(wall_mm: f64, unit: Unit) -> String {
    format!(
        "Blind, but deep enough to come through the wall of {}: it would have no bottom. Check its depth and its end, unless the part is thicker there.",
        show::length_with_unit(wall_mm, unit)
    )
}

/// A through hole whose depth ends inside the wall.
pub(crate) fn shorter_than_wall(wall_mm: f64, unit: Unit) -> String {
    format!(
        "Through, but less deep than the wall of {} along the hole's axis: the wall may be thinner there.",
        show::length_with_unit(wall_mm, unit)
    )
}
