//! What may be promised: working days of the lot, and days once order and parts are in.

use chrono::NaiveDate;
use quillbore_calc::finding::Level;
use quillbore_calc::promise::{Floor, WorkingDays, working_days};
use quillbore_calc::{JobFigures, assemble};

use super::kind::NoteKind;
use super::note::{Beside, SideNote};
use super::whole::Results;
use crate::asked::to_input::{Asked, to_input};
use crate::job::Job;
use crate::life::{actual_hours, begins, left_to_deliver, ordered};
use crate::shop::rows::Shop;
use crate::typed::field::Field;
use crate::typed::form::Form;
use crate::words::promise as words;

/// What may be promised of a job's lot.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Promise {
    /// Working days, once order, parts and drawing are in.
    pub days: WorkingDays,
    /// By this day of the shop, and what comes first.
    pub floor: Floor,
    /// Once they are: the day from which these count.
    pub begins: Option<NaiveDate>,
    /// The day on which as many lots are done as not.
    pub date_p50: Option<NaiveDate>,
    /// The day by which nine lots in ten are done.
    pub date_p90: Option<NaiveDate>,
}

impl Promise {
    /// All of it in one line.
    #[must_use]
    pub fn said(&self, form: Form) -> String {
        let dates = [self.date_p50, self.date_p90];
        words::promise(self.days, self.begins, dates, form)
    }
}

/// What may be promised of a job, with machine hours of other jobs [h] that come first on its machine;
/// `None` where a row has no hours, or its days outside can't be read.
#[must_use]
pub fn promise(
    job: &Job,
    results: &Results,
    shop: &Shop,
    queued_hours: f64,
    today: NaiveDate,
) -> Option<Promise> {
    let floor = floor(job, &results.asked, shop, queued_hours)?;
    let days = days(&results.figures, &floor)?;
    let begins = begins(job, today);
    let done = |days| shop.calendar.after(begins?, days);
    Some(Promise {
        days,
        floor,
        begins,
        date_p50: done(days.p50),
        date_p90: done(days.p90),
    })
}

/// Machine hours that a job still keeps its machine for [h], by a quick estimate: those of its lot, less
/// the share that was delivered or what its run records tell, whichever leaves less; `None` where a
/// row has none.
#[must_use]
pub fn hours_left(job: &Job, shop: &Shop) -> Option<f64> {
    let figures = assemble::quick(&to_input(job, shop).input, &shop.tables);
    let hours = figures.lot?.machine_hours.p50;
    let share = match (left_to_deliver(job), ordered(job)) {
        (Some(left), Some(ordered)) if ordered > 0 => f64::from(left) / f64::from(ordered),
        _ => 1.0,
    };
    let ran = actual_hours(job).unwrap_or(0.0);
    Some((hours * share).min(hours - ran).max(0.0))
}

fn days(figures: &JobFigures, floor: &Floor) -> Option<WorkingDays> {
    let lot = figures.lot.as_ref()?;
    working_days(lot.machine_hours, lot.labor_hours, floor)
}

fn floor(job: &Job, asked: &Asked, shop: &Shop, queued_hours: f64) -> Option<Floor> {
    let machine = asked.input.machine?.of(&shop.tables.machines)?;
    let outside = job.field(Field::OutsideDays);
    if outside.why().is_some() {
        return None;
    }
    Some(Floor {
        attended_hours: shop.calendar.hours_per_day,
        unattended_hours: shop.calendar.unattended_hours_per_day,
        attended_share: machine.attended,
        queued_hours,
        outside_days: job.count(Field::OutsideDays).unwrap_or(0),
    })
}

/// That the lot takes longer than the lead time, more often than not, though nothing comes first on
/// its machine.
pub(super) fn lead_time_short(
    job: &Job,
    asked: &Asked,
    figures: &JobFigures,
    shop: &Shop,
) -> Option<SideNote> {
    let lead_days = job.count(Field::LeadDays)?;
    let takes = days(figures, &floor(job, asked, shop, 0.0)?)?;
    let lot = figures.lot.as_ref().filter(|_| lead_days < takes.p50)?;
    let outside = job.count(Field::OutsideDays).unwrap_or(0);
    let hours = [lot.machine_hours.p50, lot.labor_hours.p50];
    let said = words::lead_time_short(lead_days, hours, takes, outside, shop.form);
    let beside = Beside::Field(Field::LeadDays);
    Some(SideNote::new(
        Level::Check,
        NoteKind::LeadTimeShort,
        beside,
        said,
    ))
}
