//! Side notes put into words, for those that somebody looks at.

use std::borrow::Cow;

use super::kind::NoteKind;
use super::note::{Offering, SideNote};
use crate::job::Job;
use crate::results::remedy::{Offer, Offers};
use crate::shop::rows::Shop;
use crate::words::answers;
use crate::words::speaker::Speaker;

/// Puts the side notes of a job into words.
///
/// There can be thousands of them, and few are in sight: so none is worded before it is looked at.
pub struct Telling<'a> {
    speaker: Speaker<'a>,
    offers: Offers<'a>,
}

impl<'a> Telling<'a> {
    /// The words for a job's notes, with names out of the shop's tables.
    #[must_use]
    pub const fn new(job: &'a Job, shop: &'a Shop) -> Self {
        Self {
            speaker: Speaker {
                job,
                tables: &shop.tables,
                unit: job.unit,
                form: shop.form,
            },
            offers: Offers::new(job, &shop.tables),
        }
    }

    /// What a note says.
    #[must_use]
    pub fn text<'b>(&self, note: &'b SideNote) -> Cow<'b, str> {
        let said = match &note.kind {
            NoteKind::Found(kind) => Cow::Owned(self.speaker.finding(kind)),
            _ => Cow::Borrowed(note.own.as_ref()),
        };
        let Some(question) = &note.question else {
            return said;
        };
        let form = self.speaker.form;
        let answered = (question.answer.as_deref()).map(|answer| answers::answered(answer, form));
        let more = answered.or_else(|| {
            let outdated = question.outdated.as_deref();
            outdated.map(|answer| answers::outdated(answer, form))
        });
        match more {
            Some(more) => Cow::Owned(format!("{said} {more}")),
            None => said,
        }
    }

    /// What can be done about it.
    #[must_use]
    pub fn offer<'b>(&self, note: &'b SideNote) -> Option<Cow<'b, Offer>> {
        match note.offering.as_deref()? {
            Offering::Remedy { remedy, at } => self.offers.of(*remedy, *at).map(Cow::Owned),
            Offering::Edit(offer) => Some(Cow::Borrowed(offer)),
        }
    }
}
