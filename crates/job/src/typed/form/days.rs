//! Days, and ranges of them.

use chrono::{Datelike as _, NaiveDate};

use super::Form;
use crate::ground::list::list;

list! {
    /// How days are written, each by a day that is written so.
    ///
    /// A form of three numbers with strokes is none of them: `01/02/2026` is a day of January to some and
    /// of February to others, and nothing on a paper says which.
    #[derive(Default)]
    pub enum Dates {
        /// A day with its year.
        whole: &'static str,
        /// A day without its year.
        short: &'static str,
    }

    /// Day, month by name, year.
    #[default]
    DayFirst "31 Jan 2026" "%-d %b %Y", "%-d %b";
    /// Month by name, day, year.
    MonthFirst "Jan 31, 2026" "%b %-d, %Y", "%b %-d";
    /// Year, month and day by numbers, as ISO 8601 has them.
    YearFirst "2026-01-31" "%Y-%m-%d", "%m-%d";
    /// Day, month and year by numbers with points.
    Points "31.01.2026" "%d.%m.%Y", "%d.%m.";
}

impl Dates {
    /// The form that another day was typed in: `23.11.2026`.
    #[must_use]
    pub fn like(text: &str) -> Option<Self> {
        let text = text.trim();
        let is_it = |dates: &Self| {
            let read = NaiveDate::parse_from_str(text, dates.whole());
            read.is_ok_and(|day| day.format(dates.whole()).to_string() == text)
        };
        Self::ALL.iter().copied().find(is_it)
    }
}

impl Form {
    /// A day: `27 Nov 2026`.
    #[must_use]
    pub fn day(self, day: NaiveDate) -> String {
        day.format(self.dates.whole()).to_string()
    }

    /// A day of a year that is known: `27 Nov`.
    #[must_use]
    pub fn day_of_year(self, day: NaiveDate) -> String {
        day.format(self.dates.short()).to_string()
    }

    /// From one day to another, what they have in common said once: `23 to 27 Nov 2026`.
    #[must_use]
    pub fn days(self, from: NaiveDate, to: NaiveDate) -> String {
        let same_year = from.year() == to.year();
        let same_month = same_year && from.month() == to.month();
        let [from_as, to_as] = match self.dates {
            // A day without its year, or without its month, is none by this standard.
            Dates::YearFirst => [self.dates.whole(); 2],
            Dates::DayFirst if same_month => ["%-d", self.dates.whole()],
            Dates::Points if same_month => ["%d.", self.dates.whole()],
            Dates::MonthFirst if same_month => ["%b %-d", "%-d, %Y"],
            _ if same_year => [self.dates.short(), self.dates.whole()],
            _ => [self.dates.whole(); 2],
        };
        format!("{} to {}", from.format(from_as), to.format(to_as))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::typed::form::Numbers;

    fn day(text: &str) -> NaiveDate {
        text.parse().expect("a day")
    }

    fn form(dates: Dates) -> Form {
        Form {
            numbers: Numbers::default(),
            dates,
        }
    }

    #[test]
    fn every_form_of_days_is_called_by_one_of_them() {
        for dates in Dates::ALL {
            assert_eq!(form(*dates).day(day("2026-01-31")), dates.key());
        }
    }

    #[test]
    fn a_range_says_once_what_its_days_have_in_common() {
        let ranges = [
            ("2026-11-23", "2026-11-27"),
            ("2026-11-30", "2026-12-04"),
            ("2026-12-28", "2027-01-01"),
        ];
        for (dates, said) in [
            (
                Dates::DayFirst,
                [
                    "23 to 27 Nov 2026",
                    "30 Nov to 4 Dec 2026",
                    "28 Dec 2026 to 1 Jan 2027",
                ],
            ),
            (
                Dates::MonthFirst,
                [
                    "Nov 23 to 27, 2026",
                    "Nov 30 to Dec 4, 2026",
                    "Dec 28, 2026 to Jan 1, 2027",
                ],
            ),
            (
                Dates::YearFirst,
                [
                    "2026-11-23 to 2026-11-27",
                    "2026-11-30 to 2026-12-04",
                    "2026-12-28 to 2027-01-01",
                ],
            ),
            (
                Dates::Points,
                [
                    "23. to 27.11.2026",
                    "30.11. to 04.12.2026",
                    "28.12.2026 to 01.01.2027",
                ],
            ),
        ] {
            let days = ranges.map(|(from, to)| form(dates).days(day(from), day(to)));
            assert_eq!(days, said);
        }
        assert_eq!(form(Dates::Points).day_of_year(day("2026-11-03")), "03.11.");
    }
}
