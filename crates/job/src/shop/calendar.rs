//! When the shop works.

use std::collections::BTreeSet;

use chrono::{Datelike, NaiveDate, Weekday};

/// When the shop works.
#[derive(Clone, Debug, PartialEq)]
pub struct Calendar {
    /// Days of the week that are worked, at least one.
    pub work_days: Vec<Weekday>,
    /// Attended hours of a working day.
    pub hours_per_day: f64,
    /// Hours of a working day that machines may run alone.
    pub unattended_hours_per_day: f64,
    /// Holidays and shutdowns.
    pub days_off: BTreeSet<NaiveDate>,
}

impl Calendar {
    /// True where the shop works on a day.
    #[must_use]
    pub fn works_on(&self, day: NaiveDate) -> bool {
        self.work_days.contains(&day.weekday()) && !self.days_off.contains(&day)
    }

    /// The last working day before a day; `None` where none is found within a year.
    #[must_use]
    pub fn last_before(&self, day: NaiveDate) -> Option<NaiveDate> {
        let days = std::iter::successors(day.pred_opt(), NaiveDate::pred_opt);
        days.take(366).find(|day| self.works_on(*day))
    }

    /// The day that lies a number of working days after another one, which is not counted itself.
    ///
    /// `None` where no such day is found within ten years.
    #[must_use]
    pub fn after(&self, day: NaiveDate, working_days: u32) -> Option<NaiveDate> {
        if working_days == 0 {
            return Some(day);
        }
        day.iter_days()
            .skip(1)
            .take(3653)
            .filter(|day| self.works_on(*day))
            .nth(working_days as usize - 1)
    }
}
