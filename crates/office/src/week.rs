//! The week that the shop is in, by its calendar.

use std::collections::BTreeSet;

use chrono::{Days, NaiveDate, Weekday};
use quillbore_job::shop::Calendar;

/// Nobody plans further: a calendar that has no working day for so long has none.
const LONGEST_REST: usize = 3653;

/// A calendar week, Monday to Sunday, in which the shop works.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Week {
    /// Its Monday.
    pub monday: NaiveDate,
    /// The last day of it that is worked.
    pub last_worked: NaiveDate,
    /// The last day before the shop works again after that week: what is due by then has to be ready by
    /// the last day that is worked.
    pub through: NaiveDate,
}

impl Week {
    /// The week that a day is in for the shop: that of the first working day from this day on. So on a
    /// Sunday off, and in a shutdown, it is the week that comes.
    #[must_use]
    pub fn of(day: NaiveDate, calendar: &Calendar) -> Self {
        let works = |day: &NaiveDate| calendar.works_on(*day);
        let worked = day.iter_days().take(LONGEST_REST).find(works);
        let worked = worked.unwrap_or(day);
        let week = worked.week(Weekday::Mon);
        let monday = week.checked_first_day().unwrap_or(worked);
        let sunday = week.checked_last_day().unwrap_or(worked);
        let rest = sunday.iter_days().skip(1).take(LONGEST_REST);
        Self {
            monday,
            last_worked: days_of(monday).filter(works).last().unwrap_or(worked),
            through: rest.take_while(|day| !works(day)).last().unwrap_or(sunday),
        }
    }

    /// The week in which the shop works after this one.
    #[must_use]
    pub fn next(&self, calendar: &Calendar) -> Self {
        Self::of(self.through.succ_opt().unwrap_or(self.through), calendar)
    }

    /// How many of its days are worked from a day on, that day among them.
    #[must_use]
    pub fn days_left(&self, from: NaiveDate, calendar: &Calendar) -> usize {
        let days = days_of(self.monday);
        days.filter(|day| *day >= from && calendar.works_on(*day))
            .count()
    }
}

/// The days of a week from its Monday on.
fn days_of(monday: NaiveDate) -> impl Iterator<Item = NaiveDate> {
    // Taken from behind, `iter_days` begins at the end of time.
    (0..7).filter_map(move |days| monday.checked_add_days(Days::new(days)))
}

/// A calendar where nobody said when the shop works: Monday to Friday, eight hours, no days off.
#[must_use]
pub fn five_days() -> Calendar {
    Calendar {
        work_days: [
            Weekday::Mon,
            Weekday::Tue,
            Weekday::Wed,
            Weekday::Thu,
            Weekday::Fri,
        ]
        .to_vec(),
        hours_per_day: 8.0,
        unattended_hours_per_day: 0.0,
        days_off: BTreeSet::new(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn day(text: &str) -> NaiveDate {
        text.parse().expect("a day")
    }

    fn calendar(days_off: &[&str]) -> Calendar {
        Calendar {
            days_off: days_off.iter().map(|text| day(text)).collect(),
            ..five_days()
        }
    }

    fn week(monday: &str, last_worked: &str, through: &str) -> Week {
        Week {
            monday: day(monday),
            last_worked: day(last_worked),
            through: day(through),
        }
    }

    // 23 November 2026 is a Monday.
    #[test]
    fn a_week_goes_to_the_day_before_the_shop_works_again() {
        let plain = calendar(&[]);
        let this = week("2026-11-23", "2026-11-27", "2026-11-29");
        for at in ["2026-11-23", "2026-11-25", "2026-11-27"] {
            assert_eq!(Week::of(day(at), &plain), this, "{at}");
        }
        let next = week("2026-11-30", "2026-12-04", "2026-12-06");
        assert_eq!(this.next(&plain), next);
        // Saturday and Sunday look at the week that comes.
        assert_eq!(Week::of(day("2026-11-28"), &plain), next);
        assert_eq!(Week::of(day("2026-11-29"), &plain), next);
        // A Friday and the Monday after it off: what is due on that Monday is due this week.
        let off = calendar(&["2026-11-27", "2026-11-30"]);
        let short = week("2026-11-23", "2026-11-26", "2026-11-30");
        assert_eq!(Week::of(day("2026-11-25"), &off), short);
        assert_eq!(short.next(&off), next);
        // The Friday itself is in the next one.
        assert_eq!(Week::of(day("2026-11-27"), &off), next);
        assert_eq!(short.days_left(day("2026-11-25"), &off), 2);
        assert_eq!(next.days_left(day("2026-11-27"), &off), 4);
    }

    #[test]
    fn a_shutdown_belongs_to_the_week_before_it() {
        let days: Vec<String> = (24..=31)
            .map(|at| format!("2026-12-{at}"))
            .chain(["2027-01-01".to_owned()])
            .collect();
        let days: Vec<&str> = days.iter().map(String::as_str).collect();
        let off = calendar(&days);
        let before = week("2026-12-21", "2026-12-23", "2027-01-03");
        assert_eq!(Week::of(day("2026-12-22"), &off), before);
        let after = week("2027-01-04", "2027-01-08", "2027-01-10");
        assert_eq!(before.next(&off), after);
        assert_eq!(Week::of(day("2026-12-28"), &off), after);
    }

    #[test]
    fn a_shop_that_never_works_and_the_end_of_time_have_a_week_all_the_same() {
        let never = Calendar {
            days_off: day("2026-01-01")
                .iter_days()
                .take(5000)
                .collect::<BTreeSet<_>>(),
            ..calendar(&[])
        };
        let at = day("2026-11-25");
        assert_eq!(Week::of(at, &never).monday, day("2026-11-23"));
        assert_eq!(
            Week::of(NaiveDate::MAX, &calendar(&[])).through,
            NaiveDate::MAX
        );
        assert_eq!(
            Week::of(NaiveDate::MIN, &calendar(&[])).monday,
            NaiveDate::MIN
        );
    }
}
