//! A job's figures with its side notes, and what both say of its next steps.

use std::collections::BTreeSet;

use quillbore_calc::JobFigures;
use quillbore_calc::finding::Level;

use super::kind::NoteKind;
use super::note::{Beside, SideNote};
use crate::asked::to_input::Asked;
use crate::ground::keyed_list::Keyed as _;
use crate::ground::stands_in::StandsIn;
use crate::life;
use crate::pinned::answer::Answer;

/// A job's figures, with everything that is to be said beside its lines.
#[derive(Clone, Debug, PartialEq)]
pub struct Results {
    /// What the calculation was asked.
    pub asked: Asked,
    /// Its figures.
    pub figures: JobFigures,
    /// Side notes, in the sheet's order.
    pub notes: Vec<SideNote>,
    /// What of the shop is a sample's, so that papers would leave under it.
    pub stands_in: Vec<StandsIn>,
}

impl Results {
    /// True where a finding says that the job can't be done as it stands.
    #[must_use]
    pub fn stopped(&self) -> bool {
        self.notes.iter().any(|note| note.level == Level::Stop)
    }

    /// The answers that count, in the sheet's order.
    #[must_use]
    pub fn answers(&self) -> Vec<Answer> {
        let mut told = BTreeSet::new();
        let questions = self.notes.iter().filter_map(|note| note.question.as_ref());
        let answers = questions.filter_map(|question| question.answer.as_deref());
        let first = answers.filter(|answer| told.insert(answer.key()));
        first.cloned().collect()
    }

    /// What they say of the job's next steps.
    #[must_use]
    pub fn found(&self) -> life::Found {
        let price = |note: &SideNote| note.kind.is_order_price() && note.level == Level::Check;
        let has = |kind: NoteKind| self.notes.iter().any(|note| note.kind == kind);
        let open = |note: &SideNote| {
            let question = note.question.as_ref()?;
            let asks = (question.concern, question.row);
            question.answer.is_none().then_some(asks)
        };
        let mut unanswered: Vec<_> = self.notes.iter().filter_map(open).collect();
        unanswered.dedup();
        life::Found {
            stands_in: self.stands_in.clone(),
            stop: self.stopped(),
            unpriced: self.figures.price.is_none(),
            order_price: self.notes.iter().any(price),
            unanswered,
            exchange: has(NoteKind::ExchangeMissing),
            amounts_currency: has(NoteKind::AmountsInOtherCurrency),
            order_currency: has(NoteKind::OrderInOtherCurrency),
            unread: self.notes.iter().any(|note| {
                let on_sheet = matches!(note.beside, Beside::Field(_) | Beside::Row(..));
                on_sheet && note.kind.is_unread()
            }),
        }
    }
}
