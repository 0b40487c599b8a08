//! Hours that cost nothing, which a rate card may say and hardly means.

use quillbore_calc::JobFigures;
use quillbore_calc::finding::Level;

use super::kind::NoteKind;
use super::note::{Beside, SideNote};
use crate::asked::to_input::Asked;
use crate::shop::rows::Shop;
use crate::typed::field::Field;
use crate::words::price as words;

/// That a price rests on an hour of the machine, or of work, for nothing.
pub(super) fn free_hours(asked: &Asked, figures: &JobFigures, shop: &Shop) -> Vec<SideNote> {
    if figures.price.is_none() {
        return Vec::new();
    }
    let note = |level, beside, said| SideNote::new(level, NoteKind::HourFree, beside, said);
    let machine = asked.input.machine;
    let machine = machine.and_then(|machine| machine.of(&shop.tables.machines));
    let machine = machine.filter(|machine| machine.rate_per_hour <= 0.0);
    let machine = machine.map(|machine| {
        let said = words::machine_hour_free(&machine.name);
        note(Level::Check, Beside::Field(Field::Machine), said)
    });
    let is_free = shop.tables.rates.labor_per_hour <= 0.0;
    // A shop may have its labor in the machine's hour.
    let labor = || {
        let said = words::labor_hour_free().to_owned();
        note(Level::Note, Beside::Price, said)
    };
    let labor = is_free.then(labor);
    machine.into_iter().chain(labor).collect()
}
