//! What a line is sorted by and asked about, beside its letters: small, so that all lines are gone
//! through while somebody types.

use std::sync::Arc;

use chrono::{Datelike as _, NaiveDate};
use quillbore_job::life::State;
use quillbore_job::words::life::state;
use rust_decimal::Decimal;
use rust_decimal::prelude::ToPrimitive as _;

use super::line::ShelfLine;
use super::open::OpenMatter;
use super::sort::SortBy;

/// Kinds of holes that stand in the facts themselves: nearly every job has no more.
const FIRST: usize = 6;

/// Diameter and depth of a kind of hole [mm]; what is not known is no number.
#[derive(Clone, Copy, Debug)]
pub(super) struct Kind {
    pub(super) size_mm: f64,
    pub(super) depth_mm: f64,
}

impl Kind {
    const NONE: Self = Self {
        size_mm: f64::NAN,
        depth_mm: f64::NAN,
    };
}

/// The days and figures of a line; a figure that is not known is no number.
#[derive(Clone, Debug)]
pub(super) struct Facts {
    /// When parts are due, while anything is.
    pub(super) due: Option<NaiveDate>,
    /// When ordered parts are due that are not delivered.
    pub(super) ordered_due: Option<NaiveDate>,
    /// The day of the oldest quotation that nobody answered.
    pub(super) unanswered: Option<NaiveDate>,
    /// The day it was opened.
    opened: Option<NaiveDate>,
    /// Kinds of holes, those that are there first.
    kinds: [Kind; FIRST],
    /// Further ones, of the few jobs that have so many.
    more_kinds: Option<Arc<[Kind]>>,
    /// What the lot is worth.
    pub(super) worth: f64,
    /// Hours of the lot by the run records [h].
    hours: f64,
}

impl Facts {
    /// The facts of a line.
    pub(super) fn of(line: &ShelfLine) -> Self {
        let none = f64::NAN;
        let mut facts = Self {
            due: line.due(),
            ordered_due: None,
            unanswered: None,
            opened: line.opened(),
            kinds: [Kind::NONE; FIRST],
            more_kinds: None,
            worth: line
                .worth()
                .and_then(|worth| worth.to_f64())
                .unwrap_or(none),
            hours: line.lot_hours().unwrap_or(none),
        };
        let Ok(digest) = &line.says else { return facts };
        let summary = &digest.summary;
        let main = (summary.size_mm, summary.depth_mm);
        let kinds = std::iter::once(&main).chain(&summary.other_kinds);
        let mut kinds = kinds.map(|(size, depth)| Kind {
            size_mm: size.unwrap_or(none),
            depth_mm: depth.unwrap_or(none),
        });
        for (place, kind) in facts.kinds.iter_mut().zip(&mut kinds) {
            *place = kind;
        }
        let more: Vec<Kind> = kinds.collect();
        facts.more_kinds = (!more.is_empty()).then(|| more.into());
        for matter in &digest.open {
            match matter {
                OpenMatter::Due { day, .. } => facts.ordered_due = Some(*day),
                OpenMatter::Quotation { date, .. } => {
                    let before = facts.unanswered.unwrap_or(*date);
                    facts.unanswered = Some(before.min(*date));
                }
                _ => {}
            }
        }
        facts
    }

    /// Whether one of its kinds of holes is like that.
    pub(super) fn has_kind(&self, is: impl Fn(&Kind) -> bool) -> bool {
        let more = self.more_kinds.as_deref().unwrap_or_default();
        self.kinds.iter().chain(more).any(is)
    }

    /// What a column is sorted by, as a number that rises with it; `None` where the line has nothing
    /// there, and where the column is one of names.
    pub(super) fn key(&self, by: SortBy) -> Option<u64> {
        match by {
            SortBy::Number | SortBy::Customer => None,
            SortBy::Due => self.due.map(of_day),
            // The younger a job is, the later it was opened.
            SortBy::Age => self.opened.map(|day| !of_day(day)),
            SortBy::Price => of_figure(self.worth),
            SortBy::Hours => of_figure(self.hours),
        }
    }
}

fn of_day(day: NaiveDate) -> u64 {
    u64::from(day.num_days_from_ce().cast_unsigned() ^ (1 << 31))
}

/// The order of numbers as an order of their bits: the sign turned, and all of them where it is minus.
fn of_figure(figure: f64) -> Option<u64> {
    let bits = figure.to_bits();
    let minus = bits >> 63 == 1;
    (!figure.is_nan()).then_some(if minus { !bits } else { bits ^ (1 << 63) })
}

impl ShelfLine {
    /// When parts are due, while anything is: nothing is of a job that was delivered or set aside.
    #[must_use]
    pub fn due(&self) -> Option<NaiveDate> {
        let summary = &self.says.as_ref().ok()?.summary;
        let over = [State::Delivered, State::LaidAside].map(state);
        summary
            .due
            .filter(|_| !over.contains(&summary.state.as_str()))
    }

    /// The day it was opened: its age counts from there.
    #[must_use]
    pub fn opened(&self) -> Option<NaiveDate> {
        self.says.as_ref().ok()?.summary.opened
    }

    /// What the lot is worth in the shop's own currency: its price each times its parts, by the rate that
    /// it is quoted at.
    #[must_use]
    pub fn worth(&self) -> Option<Decimal> {
        let price = self.says.as_ref().ok()?.summary.price.as_ref()?;
        let quoted = price.each.checked_mul(Decimal::from(price.quantity))?;
        match price.rate {
            Some(rate) => quoted.checked_div(Decimal::try_from(rate).ok()?),
            None => Some(quoted),
        }
    }

    /// Hours of the lot by the run records [h]: those of one part times the parts.
    #[must_use]
    pub fn lot_hours(&self) -> Option<f64> {
        let summary = &self.says.as_ref().ok()?.summary;
        Some(summary.hours?.each * f64::from(summary.quantity?))
    }
}
