//! Rates that a card may say and hardly means: hours that cost nothing, a day that has not come.

use quillbore_calc::JobFigures;
use quillbore_calc::finding::Level;

use super::kind::NoteKind;
use super::note::{Beside, SideNote};
use crate::asked::to_input::Asked;
use crate::job::Job;
use crate::life::{self, State};
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

/// That no rate card of the shop's own is in force yet, so that the first one counts before its day.
pub(super) fn rates_not_yet(job: &Job, figures: &JobFigures, shop: &Shop) -> Option<SideNote> {
    figures.price.as_ref()?;
    let is_open = matches!(life::state(job), State::Inquiry | State::Quoted);
    let day = shop.day.filter(|_| is_open)?;
    let from = shop.own().rates_on(day).valid_from;
    (day < from).then(|| {
        let said = words::rates_not_yet(&shop.form.day(from));
        SideNote::new(Level::Check, NoteKind::RatesNotYet, Beside::Price, said)
    })
}
