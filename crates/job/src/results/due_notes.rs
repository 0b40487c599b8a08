//! Days on which something is due though the shop doesn't work, or that have passed, or have not come.

use chrono::NaiveDate;
use quillbore_calc::finding::Level;

use super::kind::NoteKind;
use super::note::{Beside, SideNote};
use crate::job::Job;
use crate::life;
use crate::life::state::State;
use crate::pinned::slip::lists::{Line, SlipKind, kind, line};
use crate::pinned::slip::pinned::Slip;
use crate::shop::rows::Shop;
use crate::typed::field::Field;
use crate::words::promise as words;

/// That the sheet is due on a day that has passed, as long as nobody ordered it: it can be neither offered nor
/// kept.
pub(super) fn past(job: &Job, shop: &Shop) -> Option<SideNote> {
    if !matches!(life::state(job), State::Inquiry | State::Quoted) {
        return None;
    }
    let (due, today) = (job.date(Field::Due)?, shop.day?);
    (due < today).then(|| {
        let beside = Beside::Field(Field::Due);
        let said = words::due_has_passed(due, today, shop.form);
        SideNote::new(Level::Check, NoteKind::DuePast, beside, said)
    })
}

/// Due dates of the sheet, of orders and of call-offs on which the shop doesn't work, as long as something
/// is due.
pub(super) fn all(job: &Job, shop: &Shop) -> Vec<SideNote> {
    if matches!(life::state(job), State::Delivered | State::LaidAside) {
        return Vec::new();
    }
    let on_sheet = job.date(Field::Due);
    let mut due: Vec<(Beside, NaiveDate)> = Vec::new();
    due.extend(on_sheet.map(|day| (Beside::Field(Field::Due), day)));
    let other = |day: &NaiveDate| on_sheet != Some(*day);
    let orders = job.slips_of::<kind::Order>();
    let orders = orders.filter_map(|order| Some((order.id(), order.get(line::Due)?)));
    let calls = job.slips_of::<kind::Release>();
    let calls = calls.filter_map(|call| Some((call.id(), call.get(line::Due)?)));
    let of_slips = orders.chain(calls).filter(|(_, day)| other(day));
    due.extend(of_slips.map(|(slip, day)| (Beside::Slip(slip, Some(Line::Due)), day)));
    due.into_iter()
        .filter(|(_, day)| !shop.calendar.works_on(*day))
        .map(|(beside, day)| {
            let before = shop.calendar.last_before(day);
            let said = words::due_on_day_off(day, before, shop.form);
            SideNote::new(Level::Note, NoteKind::DueOnDayOff, beside, said)
        })
        .collect()
}

/// Slips of what happened that are dated on a day that has not come; a delivery may be made ready for
/// another day.
pub(super) fn ahead(job: &Job, shop: &Shop) -> Vec<SideNote> {
    let Some(today) = shop.day else {
        return Vec::new();
    };
    let happened = |slip: &&Slip| !matches!(slip.kind, SlipKind::Delivery | SlipKind::Hold);
    let slips = job.slips.iter().map(AsRef::as_ref).filter(happened);
    let ahead = slips.filter_map(|slip: &Slip| {
        let day = slip.line(Line::Date).value()?.date()?;
        (day > today).then(|| {
            let beside = Beside::Slip(slip.id, Some(Line::Date));
            let said = words::not_come(day, today, shop.form);
            SideNote::new(Level::Note, NoteKind::SlipAhead, beside, said)
        })
    });
    ahead.collect()
}
