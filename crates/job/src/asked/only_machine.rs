//! The machine of a shop that has but one.

use crate::edits::edit::Edit;
use crate::job::Job;
use crate::shop::rows::Shop;
use crate::typed::field::Field;

/// An edit that brings the first holes onto a sheet, with the machine of a shop that has only one,
/// after that one's name; `None` where the edit does something else, there is a choice, or the sheet names a machine already.
///
/// The machine is typed and not presumed: a shop that buys a second one still knows what its open jobs
/// were planned for.
#[must_use]
pub fn with_only_machine(job: &Job, shop: &Shop, edit: &Edit) -> Option<(String, Edit)> {
    let [only] = shop.tables.machines.as_slice() else {
        return None;
    };
    let is_open = job.text(Field::Machine).trim().is_empty();
    (brings_holes(edit) && job.rows.is_empty() && is_open).then(|| {
        let machine = Edit::SetField {
            field: Field::Machine,
            text: only.name.clone(),
            unit: job.unit,
        };
        // What the edit itself says of the machine comes after, and stands.
        let edits = vec![machine, edit.clone()];
        (only.name.clone(), Edit::Together { edits })
    })
}

fn brings_holes(edit: &Edit) -> bool {
    match edit {
        Edit::SetCells { .. } | Edit::SetRows { .. } => true,
        Edit::Together { edits } => edits.iter().any(brings_holes),
        _ => false,
    }
}
