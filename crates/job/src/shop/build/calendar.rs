//! When the shop works.

use std::collections::BTreeSet;

use super::checks::{At, day};
use crate::shop::calendar::Calendar;
use crate::shop::disk::{CalendarFile, weekday};
use crate::shop::error::ShopError;
use crate::shop::unfit::RowUnfit;

/// The shop's calendar.
pub(super) fn calendar(file: &CalendarFile) -> Result<Calendar, ShopError> {
    let at = At("calendar", "hours");
    let hours_per_day = at.positive("hours_per_day", file.hours_per_day)?;
    let unattended = at.not_negative("unattended_hours_per_day", file.unattended_hours_per_day)?;
    if hours_per_day + unattended > 24.0 {
        return Err(at.bad(RowUnfit::DayTooLong));
    }
    if file.work_days.is_empty() {
        return Err(At("calendar", "work_days").bad(RowUnfit::NoWorkDay));
    }
    let mut days_off = BTreeSet::new();
    for text in &file.days_off {
        let off = day(text);
        days_off.insert(off.ok_or_else(|| At("calendar", text).bad(RowUnfit::Day))?);
    }
    Ok(Calendar {
        work_days: file.work_days.iter().map(|day| weekday(*day)).collect(),
        hours_per_day,
        unattended_hours_per_day: unattended,
        days_off,
    })
}
