//! Working days of a lot, against a shop that is worked minute by minute.

use quillbore_calc::Band;
use quillbore_calc::promise::{Floor, WorkingDays, working_days};

/// A shop of eight attended hours and nothing else.
const DAY: Floor = Floor {
    attended_hours: 8.0,
    unattended_hours: 0.0,
    attended_share: 0.35,
    queued_hours: 0.0,
    outside_days: 0,
};

fn took(machine_hours: f64, labor_hours: f64, floor: &Floor) -> Option<u32> {
    let days = working_days(Band::exact(machine_hours), Band::exact(labor_hours), floor)?;
    assert_eq!(days.p50, days.p90);
    Some(days.p50)
}

/// Days until nothing is left, minute by minute: with somebody there the machine does what has to be
/// attended first, alone it does only what may run alone; the person works as long as somebody is
/// there.
fn by_minutes(attended: u32, alone: u32, labor: u32, day: u32, night: u32) -> u32 {
    let (mut attended, mut alone, mut labor) = (attended, alone, labor);
    let mut days = 0;
    while days == 0 || attended + alone + labor > 0 {
        days += 1;
        for minute in 0..day + night {
            let there = minute < day;
            if there && attended > 0 {
                attended -= 1;
            } else {
                alone = alone.saturating_sub(1);
            }
            labor = labor.saturating_sub(u32::from(there));
        }
    }
    days
}

/// Brute force over lots of every size and days of every kind.
#[test]
fn days_are_those_of_a_shop_worked_minute_by_minute() {
    let mut bound_by = [0; 3];
    for (day, night) in [
        (480, 0),
        (480, 300),
        (480, 960),
        (600, 120),
        (1440, 0),
        (1, 0),
        (60, 1380),
    ] {
        for minutes in [0_u32, 10, 20, 480, 500, 960, 1440, 9180, 9200] {
            for tenths in 0..=10_u32 {
                for labor in [0, 9, 480, 481, 2000] {
                    let attended = minutes / 10 * tenths;
                    let expected = by_minutes(attended, minutes - attended, labor, day, night);
                    let floor = Floor {
                        attended_hours: f64::from(day) / 60.0,
                        unattended_hours: f64::from(night) / 60.0,
                        attended_share: f64::from(tenths) / 10.0,
                        ..DAY
                    };
                    let hours = |minutes| f64::from(minutes) / 60.0;
                    let found = took(hours(minutes), hours(labor), &floor);
                    let said = (day, night, minutes, tenths, labor);
                    assert_eq!(found, Some(expected), "{said:?}");
                    let bounds = [
                        minutes.div_ceil(day + night),
                        attended.div_ceil(day),
                        labor.div_ceil(day),
                    ];
                    for (bound, times) in bounds.iter().zip(&mut bound_by) {
                        *times +=
                            u32::from(*bound == expected && bounds.iter().max() == Some(bound));
                    }
                }
            }
        }
    }
    // Each of the three decided often.
    assert!(bound_by.iter().all(|times| *times > 300), "{bound_by:?}");
}

/// By hand: 12 hours of others and 12 of ours are three days, though each alone would take two.
#[test]
fn what_comes_first_ends_in_the_middle_of_a_day() {
    assert_eq!(took(12.0, 1.0, &DAY), Some(2));
    let waits = Floor {
        queued_hours: 12.0,
        ..DAY
    };
    assert_eq!(took(12.0, 1.0, &waits), Some(3));
    // The person is by the machine of the others first, too: 1.5 days, then 16 hours of labor.
    assert_eq!(took(12.0, 16.0, &waits), Some(4));
    let away = Floor {
        outside_days: 10,
        ..waits
    };
    assert_eq!(took(12.0, 1.0, &away), Some(13));
}

#[test]
fn days_are_whole_and_at_least_one() {
    assert_eq!(took(10.0 / 60.0, 10.0 / 60.0, &DAY), Some(1));
    assert_eq!(took(0.0, 0.0, &DAY), Some(1));
    // Thirty times eight tenths of an hour are no more than three days.
    let mut hours = 0.0;
    for _ in 0..30 {
        hours += 0.8;
    }
    assert!(hours > 24.0);
    assert_eq!(took(hours, 0.0, &DAY), Some(3));
    assert_eq!(took(24.001, 0.0, &DAY), Some(4));
}

#[test]
fn a_band_of_labor_alone_counts_and_never_turns_round() {
    let band = |p50, p90| Band { p10: 0.0, p50, p90 };
    let days = |machine, labor| working_days(machine, labor, &DAY);
    let found = days(Band::exact(1.0), band(8.5, 17.0));
    assert_eq!(found, Some(WorkingDays { p50: 2, p90: 3 }));
    let found = days(band(80.0, 8.0), Band::exact(1.0));
    assert_eq!(found, Some(WorkingDays { p50: 10, p90: 10 }));
}

#[test]
fn what_is_no_figure_promises_nothing() {
    for hours in [f64::NAN, f64::INFINITY, -1.0, 1e9] {
        assert_eq!(took(hours, 1.0, &DAY), None);
        assert_eq!(took(1.0, hours, &DAY), None);
        assert_eq!(
            took(
                1.0,
                1.0,
                &Floor {
                    queued_hours: hours,
                    ..DAY
                }
            ),
            None
        );
    }
    for hours in [0.0, -8.0, f64::NAN, f64::INFINITY] {
        assert_eq!(
            took(
                1.0,
                1.0,
                &Floor {
                    attended_hours: hours,
                    ..DAY
                }
            ),
            None
        );
    }
    let attended_share = f64::NAN;
    assert_eq!(
        took(
            1.0,
            1.0,
            &Floor {
                attended_share,
                ..DAY
            }
        ),
        None
    );
    let outside_days = u32::MAX;
    assert_eq!(
        took(
            1.0,
            1.0,
            &Floor {
                outside_days,
                ..DAY
            }
        ),
        Some(u32::MAX)
    );
    // A share beyond all bounds is held to them.
    let floor = |attended_share| Floor {
        attended_share,
        unattended_hours: 16.0,
        ..DAY
    };
    assert_eq!(took(48.0, 1.0, &floor(7.0)), took(48.0, 1.0, &floor(1.0)));
    assert_eq!(took(48.0, 1.0, &floor(-7.0)), Some(2));
}
