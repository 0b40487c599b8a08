//! A margin that is possible, and hardly meant.

use quillbore_calc::JobFigures;
use quillbore_calc::finding::Level;

use super::kind::NoteKind;
use super::note::{Beside, SideNote};
use crate::typed::field::Field;
use crate::typed::form::Form;
use crate::words::price as words;

/// From this margin on a price is ten times the cost, and the margin more likely a slip: 950 for 9.50.
const HARDLY_MEANT: f64 = 0.9;

/// That prices rest on a margin which is hardly meant, wherever it was typed.
pub(super) fn margin(figures: &JobFigures, form: Form) -> Option<SideNote> {
    let price = figures.price.as_ref()?;
    let is_odd = price.margin >= HARDLY_MEANT;
    is_odd.then(|| {
        let beside = Beside::Field(Field::Margin);
        let said = words::margin_odd(price.margin, 1.0 + price.markup, form);
        SideNote::new(Level::Check, NoteKind::MarginOdd, beside, said)
    })
}
