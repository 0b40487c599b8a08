//! What stands on the sheet otherwise than the shop has agreed with the customer.

use quillbore_calc::finding::Level;

use super::kind::NoteKind;
use super::note::{Beside, SideNote};
use crate::asked::agreed::otherwise;
use crate::job::Job;
use crate::life;
use crate::life::state::State;
use crate::results::remedy::Offer;
use crate::shop::rows::Shop;
use crate::typed::field::Field;
use crate::words::exchange as words;

/// A note for each line that was agreed otherwise, with the way to take that; from the order on what was
/// quoted stands.
pub(super) fn all(job: &Job, shop: &Shop) -> Vec<SideNote> {
    if !matches!(life::state(job), State::Inquiry | State::Quoted) {
        return Vec::new();
    }
    let customer = job.text(Field::Customer).trim();
    let all = otherwise(job, shop).into_iter();
    all.map(|otherwise| {
        let said = words::agreed_otherwise(customer, &otherwise.agreed);
        let beside = Beside::Field(otherwise.field);
        let note = SideNote::new(Level::Note, NoteKind::AgreedOtherwise, beside, said);
        note.offering(Some(Offer {
            words: words::TAKE_AGREED.to_owned(),
            edit: otherwise.take,
        }))
    })
    .collect()
}
