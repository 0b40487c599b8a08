//! What a hole takes of an electrode, as the floor measures it.

use quillbore_calc::RowId;
use quillbore_calc::input::{Ends, HoleEnd};
use quillbore_calc::job_figures::HoleFigures;

use crate::matter::Matter;

/// Whether a hole takes several electrodes from one end, one after another.
pub(super) fn takes_several(figures: &HoleFigures) -> bool {
    let count = figures.electrodes_per_hole;
    count.is_some_and(|count| count > ends(figures))
}

/// What is lost of an electrode in one end of a hole by the plan, what is dressed off before it included [mm].
pub(super) fn lost_mm(matter: &Matter<'_>, figures: &HoleFigures) -> Option<f64> {
    let wear = figures.wear_mm? / f64::from(ends(figures));
    Some(wear + dressing_mm(matter, figures.row)?)
}

/// Length that is dressed off before a hole of a row, where any is [mm].
pub(super) fn dressing_mm(matter: &Matter<'_>, row: RowId) -> Option<f64> {
    let asked = matter.asked(row)?;
    let dressed = match asked.dress_every {
        Some(every) => every > 0,
        None => asked.end == HoleEnd::Blind,
    };
    let dressing = matter.tables.start.dressing_mm;
    Some(if dressed { dressing } else { 0.0 })
}

/// From how many ends a hole is drilled.
pub(super) fn ends(figures: &HoleFigures) -> u32 {
    match figures.ends {
        Some(Ends::Both) => 2,
        Some(Ends::One) | None => 1,
    }
}
