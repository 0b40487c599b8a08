//! The shop's calendar against a general-purpose business-day library: numpy's `busday_offset`, whose
//! answers `tests/golden/business_days.py` wrote.
#![expect(clippy::expect_used, reason = "a helper of tests fails by panic")]

use std::collections::BTreeSet;

use chrono::{NaiveDate, Weekday};
use quillbore_job::shop::Calendar;
use serde::Deserialize;

#[derive(Deserialize)]
struct Written {
    /// From Monday to Sunday, 1 where it is worked.
    week: String,
    off: BTreeSet<NaiveDate>,
    /// A day, working days, and the day that they end on.
    cases: Vec<(NaiveDate, u32, NaiveDate)>,
}

fn written() -> Vec<Written> {
    serde_json::from_str(include_str!("../../../tests/golden/business_days.json"))
        .expect("the fixture")
}

fn calendar(written: &Written) -> Calendar {
    let mut week = Vec::new();
    let mut day = Weekday::Mon;
    for worked in written.week.chars() {
        if worked == '1' {
            week.push(day);
        }
        day = day.succ();
    }
    Calendar {
        work_days: week,
        hours_per_day: 8.0,
        unattended_hours_per_day: 0.0,
        days_off: written.off.clone(),
    }
}

#[test]
fn working_days_are_those_of_a_business_day_library() {
    let (mut cases, mut other_weeks, mut over_days_off) = (0, 0, 0);
    for written in written() {
        let calendar = calendar(&written);
        let mut without = calendar.clone();
        without.days_off.clear();
        for (day, days, done) in &written.cases {
            let found = calendar.after(*day, *days);
            let week = &written.week;
            assert_eq!(found, Some(*done), "{days} after {day} in the week {week}");
            cases += 1;
            other_weeks += u32::from(week != "1111100");
            over_days_off += u32::from(without.after(*day, *days) != found);
        }
    }
    assert_eq!(cases, 1_000);
    assert!(
        other_weeks > 500 && over_days_off > 250,
        "{other_weeks} {over_days_off}"
    );
}

#[test]
fn no_day_is_found_where_nobody_ever_works() {
    let mut calendar = calendar(&written()[0]);
    let day = NaiveDate::from_ymd_opt(2026, 11, 27).unwrap();
    calendar.work_days.clear();
    assert_eq!(calendar.after(day, 1), None);
    assert_eq!(calendar.after(day, 0), Some(day));
}
