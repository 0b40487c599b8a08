//! What is to be said of amounts in another currency than the one that they would count in: the shop
//! changed its own since, or an order pays in another one.

use quillbore_calc::finding::Level;

use super::kind::NoteKind;
use super::note::{Beside, SideNote};
use crate::asked::amounts_in::{of_another_currency, values_of_another_currency};
use crate::edits::edit::Edit;
use crate::job::Job;
use crate::life;
use crate::life::order::pays_in;
use crate::life::state::State;
use crate::pinned::slip::lists::{Line, kind, line};
use crate::results::remedy::Offer;
use crate::shop::rows::Shop;
use crate::typed::field::Field;
use crate::words::exchange as words;

/// A note for the typed amounts of a sheet, and one for each order; `shop` is the one
/// that the job goes by.
pub(super) fn all(job: &Job, shop: &Shop) -> Vec<SideNote> {
    let mut notes = Vec::new();
    let state = life::state(job);
    let own = shop.own().tables.rates.currency.as_str();
    // What is done and gone is in nobody's way until a paper is wanted of it again.
    let level = match state {
        State::Delivered | State::LaidAside => Level::Note,
        _ => Level::Check,
    };
    if let Some(typed_in) = of_another_currency(job, shop) {
        let beside = Beside::Field(Field::AmountsIn);
        let said = words::amounts_in_other(typed_in, own);
        let note = SideNote::new(level, NoteKind::AmountsInOtherCurrency, beside, said);
        notes.push(note.offering(Some(set(
            job,
            Field::AmountsIn,
            own,
            words::they_are_in(own),
        ))));
    }
    if let Some([typed_in, counts_in]) = values_of_another_currency(job, shop) {
        let beside = Beside::Field(Field::ValuesIn);
        let said = words::values_in_other(typed_in, counts_in);
        let note = SideNote::new(level, NoteKind::AmountsInOtherCurrency, beside, said);
        let offer = set(
            job,
            Field::ValuesIn,
            counts_in,
            words::they_are_in(counts_in),
        );
        notes.push(note.offering(Some(offer)));
    }
    let reckoned = shop.tables.rates.currency.as_str();
    for order in job.slips_of::<kind::Order>() {
        let pays = pays_in(job, order).filter(|pays| *pays != reckoned);
        let Some(pays) = pays.filter(|_| order.get(line::Each).is_some()) else {
            continue;
        };
        let beside = Beside::Slip(order.id(), Some(Line::Currency));
        let said = words::order_in_other(pays, reckoned);
        let note = SideNote::new(level, NoteKind::OrderInOtherCurrency, beside, said);
        // In the shop's own currency it is reckoned where the sheet names none.
        let named = if pays == own { "" } else { pays };
        notes.push(note.offering(Some(set(
            job,
            Field::Currency,
            named,
            words::reckon_in(pays),
        ))));
    }
    notes
}

fn set(job: &Job, field: Field, text: &str, words: String) -> Offer {
    Offer {
        words,
        edit: Edit::SetField {
            field,
            text: text.to_owned(),
            unit: job.unit,
        },
    }
}
