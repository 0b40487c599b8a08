//! What the window's list finds and how it sorts: anew whenever anything that decides it changes.

use std::sync::{Arc, Mutex};

use chrono::NaiveDate;
use quillbore_job::{Field, Line, SlipKind, Unit};
use quillbore_office::clock::Clock;
use quillbore_office::digest::{Sort, SortBy};
use quillbore_office::listing::Listing;

use crate::jobs::{day, job, key, put, shelf, with_hole, with_slip};

/// A clock that somebody sets.
#[derive(Debug)]
struct Set(Mutex<NaiveDate>);

impl Clock for Set {
    fn today(&self) -> NaiveDate {
        *self.0.lock().expect("a clock")
    }
}

fn found(listing: &mut Listing) -> Vec<String> {
    let found = listing.found().to_vec();
    let lines = found.iter().map(|at| &listing.index.lines[*at as usize]);
    lines.map(|line| line.name.clone()).collect()
}

#[test]
fn a_list_finds_and_sorts_anew_when_text_sort_day_unit_or_calendar_change() {
    let shelf = shelf(1);
    let ordered = |number, due, size| {
        let job = job(number, &[(Field::Quantity, "25")]);
        let order = [(Line::Quantity, "25"), (Line::Due, due)];
        with_slip(&with_hole(&job, size, "14"), SlipKind::Order, &order)
    };
    put(&shelf, &ordered("26-0101", "2026-11-30", "0.8"));
    put(&shelf, &ordered("26-0102", "2026-11-25", "1/32 in"));
    put(&shelf, &job("26-0103", &[]));
    let clock = Arc::new(Set(Mutex::new(day("2026-11-25"))));
    let mut list = Listing::at_once(Arc::new(shelf), clock.clone());
    assert_eq!(found(&mut list), ["26-0103", "26-0102", "26-0101"]);
    assert_eq!(list.understood(), "");
    list.sort = Sort {
        by: SortBy::Due,
        falling: false,
    };
    assert_eq!(found(&mut list), ["26-0102", "26-0101", "26-0103"]);
    list.find = "late".to_owned();
    assert!(found(&mut list).is_empty());
    assert_eq!(list.understood(), "late");
    assert_eq!(list.meant(), None);
    // The night passes.
    *clock.0.lock().expect("a clock") = day("2026-11-26");
    assert_eq!(found(&mut list), ["26-0102"]);
    assert_eq!(list.meant(), Some(key("26-0102")));
    list.find = "due this week".to_owned();
    assert_eq!(found(&mut list), ["26-0102"]);
    list.calendar.days_off.insert(day("2026-11-30"));
    assert_eq!(found(&mut list), ["26-0102", "26-0101"]);
    assert_eq!(list.understood(), "due from 23 to 30 Nov 2026");
    list.find = "size 1/32".to_owned();
    assert!(found(&mut list).is_empty());
    list.unit = Unit::Inch;
    assert_eq!(found(&mut list), ["26-0102"]);
}
