//! What may be promised of a job: from which day its working days count, when it is done, and what is
//! said of a lead time that is shorter.
#![expect(clippy::expect_used, reason = "a helper of tests fails by panic")]

mod hands;

use chrono::NaiveDate;
use hands::{day, field, issue, pin, ring};
use quillbore_calc::finding::Level;
use quillbore_calc::promise::WorkingDays;
use quillbore_job::life::begins;
use quillbore_job::results::promise::{Promise, hours_left, promise};
use quillbore_job::results::{Beside, NoteKind, Telling, results_now};
use quillbore_job::{Field, Job, Line, Paper, Shop, SlipKind};

fn shop() -> Shop {
    Shop::embedded().expect("the shop").clone()
}

/// The ring with all that its hours need.
fn ready() -> Job {
    let job = field(&ring(), Field::Material, "Inconel 718");
    field(&job, Field::Machine, "Barrow")
}

fn ordered(job: &Job, on: &str, quantity: &str) -> Job {
    let lines = [(Line::Date, on), (Line::Quantity, quantity)];
    pin(job, SlipKind::Order, &lines)
}

fn received(job: &Job, on: &str, count: &str) -> Job {
    let lines = [(Line::Date, on), (Line::Count, count)];
    pin(job, SlipKind::Received, &lines)
}

fn called(job: &Job, on: &str, quantity: &str) -> Job {
    let lines = [(Line::Date, on), (Line::Quantity, quantity)];
    pin(job, SlipKind::Release, &lines)
}

fn delivered(job: &Job, count: &str) -> Job {
    pin(job, SlipKind::Delivery, &[(Line::Count, count)])
}

/// A day of the year before anything happened.
fn long_ago() -> NaiveDate {
    day(1, 5)
}

fn promised(job: &Job, shop: &Shop, queued_hours: f64, today: NaiveDate) -> Option<Promise> {
    promise(job, &results_now(job, shop), shop, queued_hours, today)
}

#[test]
fn a_lot_begins_once_it_is_ordered_and_enough_parts_are_here() {
    let begins = |job: &Job| begins(job, long_ago());
    let job = received(&ring(), "2026-02-20", "25");
    assert_eq!(begins(&job), None, "no order");
    assert_eq!(begins(&ordered(&job, "2026-02-16", "25")), Some(day(2, 20)));
    assert_eq!(begins(&ordered(&job, "2026-02-24", "25")), Some(day(2, 24)));
    // An order without a quantity is for that of the sheet; one without a day says none.
    assert_eq!(begins(&ordered(&job, "2026-02-16", "")), Some(day(2, 20)));
    assert_eq!(begins(&ordered(&job, "", "25")), None);
    assert_eq!(begins(&ordered(&job, "next week", "25")), None);
    let job = ordered(&job, "2026-02-16", "40");
    assert_eq!(begins(&job), None, "15 are missing");
    let some = received(&job, "2026-03-04", "10");
    assert_eq!(begins(&some), None, "5 are missing");
    // Slips need not stand in the order of their days.
    let all = received(&some, "2026-02-27", "5");
    assert_eq!(begins(&all), Some(day(3, 4)));
    let undated = received(&some, "", "5");
    assert_eq!(begins(&undated), None);
    let second = ordered(&all, "2026-03-09", "0");
    assert_eq!(begins(&second), None, "an unread quantity is the sheet's");
    let second = received(&ordered(&all, "2026-03-09", "1"), "2026-03-06", "1");
    assert_eq!(begins(&second), Some(day(3, 9)));
    assert_eq!(begins(&delivered(&second, "41")), None);
    assert_eq!(begins(&field(&second, Field::LaidAside, "no answer")), None);
}

#[test]
fn until_the_traveler_is_released_no_lot_begins_before_today() {
    let job = received(&ordered(&ring(), "2026-02-16", "25"), "2026-02-20", "25");
    assert_eq!(begins(&job, day(2, 27)), Some(day(2, 27)));
    let part = issue(&job, Paper::Traveler, &[(10, "")]);
    assert_eq!(begins(&part, day(3, 27)), Some(day(3, 27)));
    // That of the tests is of the second of March.
    let all = issue(&part, Paper::Traveler, &[(15, "")]);
    assert_eq!(begins(&all, day(3, 27)), Some(day(3, 2)));
}

#[test]
fn each_lot_that_is_called_off_begins_by_itself() {
    let lines = [
        (Line::Date, "2026-01-12"),
        (Line::Quantity, "100"),
        (Line::Blanket, "yes"),
    ];
    let job = pin(&ring(), SlipKind::Order, &lines);
    let job = received(&job, "2026-01-20", "30");
    let first = called(&job, "2026-02-02", "25");
    assert_eq!(begins(&first, long_ago()), Some(day(2, 2)));
    let first = issue(&first, Paper::Traveler, &[(25, "")]);
    let second = called(&first, "2026-02-23", "25");
    assert_eq!(begins(&second, long_ago()), None, "5 of the 25 are here");
    let second = received(&second, "2026-03-06", "20");
    assert_eq!(begins(&second, long_ago()), Some(day(3, 6)));
    assert_eq!(begins(&second, day(3, 20)), Some(day(3, 20)));
}

#[test]
fn days_go_by_the_shops_hours_and_dates_by_its_calendar() {
    let mut shop = shop();
    let job = field(&ready(), Field::Quantity, "400");
    let results = results_now(&job, &shop);
    let lot = results.figures.lot.as_ref().expect("a lot");
    let (machine, labor) = (lot.machine_hours, lot.labor_hours);
    // By hand: one shift, so every machine hour takes an eighth of a day.
    let whole = |hours: f64| (hours / 8.0).ceil() as u32;
    let expected = WorkingDays {
        p50: whole(machine.p50.max(labor.p50)),
        p90: whole(machine.p90.max(labor.p90)),
    };
    let found = promised(&job, &shop, 0.0, day(2, 27)).expect("a promise");
    assert_eq!((found.days, found.begins), (expected, None));
    assert_eq!((found.date_p50, found.date_p90), (None, None));
    assert!(
        expected.p50 >= 10 && expected.p90 > expected.p50,
        "{expected:?}"
    );
    // Eighty hours before it are ten days, and outside days stand behind.
    let away = field(&job, Field::OutsideDays, "4");
    let later = promised(&away, &shop, 80.0, day(2, 27))
        .expect("a promise")
        .days;
    assert_eq!(
        [later.p50, later.p90],
        [expected.p50 + 14, expected.p90 + 14]
    );
    let job = received(&ordered(&job, "2026-02-16", "400"), "2026-02-27", "400");
    let found = promised(&job, &shop, 0.0, day(2, 27)).expect("a promise");
    assert_eq!(found.begins, Some(day(2, 27)));
    assert_eq!(
        found.date_p50,
        shop.calendar.after(day(2, 27), expected.p50)
    );
    assert_eq!(
        found.date_p90,
        shop.calendar.after(day(2, 27), expected.p90)
    );
    // A day off that lies between is a day more.
    shop.calendar.days_off.insert(day(3, 2));
    let off = promised(&job, &shop, 0.0, day(2, 27)).expect("a promise");
    assert_eq!(off.date_p50, shop.calendar.after(day(2, 27), expected.p50));
    assert!(off.date_p50 > found.date_p50 && off.days == found.days);
    // Nights in which it runs alone: the person then is what it waits for, or the attended share.
    shop.calendar.unattended_hours_per_day = 16.0;
    let night = promised(&job, &shop, 0.0, day(2, 27))
        .expect("a promise")
        .days;
    assert_eq!(
        night.p50,
        whole((machine.p50 * 0.35).max(labor.p50).max(machine.p50 / 3.0))
    );
}

#[test]
fn nothing_is_promised_of_what_has_no_hours_or_cannot_be_read() {
    let shop = shop();
    assert_eq!(promised(&ring(), &shop, 0.0, day(2, 27)), None);
    let away = field(&ready(), Field::OutsideDays, "a week or so");
    assert_eq!(promised(&away, &shop, 0.0, day(2, 27)), None);
    assert_eq!(promised(&ready(), &shop, f64::NAN, day(2, 27)), None);
    // One row without a depth, and nobody knows the hours of the lot.
    let half = hands::cells(&ready(), 1, &["B", "4", "0.80 +-0.05"]);
    assert_eq!(promised(&half, &shop, 0.0, day(2, 27)), None);
    assert_eq!(hours_left(&half, &shop), None);
}

/// What is said beside the lead time.
fn told(job: &Job) -> Option<String> {
    let shop = shop();
    let results = results_now(job, &shop);
    let short = |note: &&_| {
        matches!(
            note,
            quillbore_job::results::SideNote {
                kind: NoteKind::LeadTimeShort,
                ..
            }
        )
    };
    let note = results.notes.iter().find(short)?;
    assert_eq!(
        (note.level, note.beside),
        (Level::Check, Beside::Field(Field::LeadDays))
    );
    assert!(!results.stopped());
    Some(Telling::new(job, &shop).text(note).into_owned())
}

#[test]
fn a_lead_time_below_the_median_is_a_check_that_gives_the_figures() {
    let job = field(&ready(), Field::Quantity, "400");
    let takes = promised(&job, &shop(), 0.0, day(2, 27))
        .expect("a promise")
        .days;
    let lead = |job: &Job, days: u32| field(job, Field::LeadDays, &days.to_string());
    assert_eq!(told(&job), None, "no lead time");
    assert_eq!(told(&lead(&job, takes.p50)), None);
    let said = told(&lead(&job, takes.p50 - 1)).expect("a check");
    let results = results_now(&job, &shop());
    let hours = results
        .figures
        .lot
        .as_ref()
        .expect("a lot")
        .machine_hours
        .p50;
    let expected = format!(
        "A lead time of {} working days is short for {hours:.0} machine hours: at this shop's hours the lot takes {} to {} working days.",
        takes.p50 - 1,
        takes.p50,
        takes.p90
    );
    assert_eq!(said, expected);
    let away = field(&job, Field::OutsideDays, "3 days");
    let said = told(&lead(&away, takes.p50 + 2)).expect("a check");
    assert!(
        said.contains(" machine hours and 3 working days outside: "),
        "{said}"
    );
    assert_eq!(told(&lead(&away, takes.p50 + 3)), None);
    // What can't be read says nothing twice.
    assert_eq!(told(&field(&job, Field::LeadDays, "soon")), None);
    assert_eq!(told(&lead(&field(&job, Field::Quantity, ""), 1)), None);
}

#[test]
fn what_was_drilled_or_delivered_no_longer_keeps_the_machine() {
    let shop = shop();
    let left = |job: &Job| hours_left(job, &shop);
    assert_eq!(left(&ring()), None);
    let job = ordered(&ready(), "2026-02-16", "25");
    let all = left(&job).expect("hours");
    let some = left(&delivered(&job, "10")).expect("hours");
    assert!((some - all * 0.6).abs() < 1e-9);
    let ran = [(Line::FloorMinutes, "90"), (Line::StopMinutes, "30")];
    let ran = pin(&job, SlipKind::Run, &ran);
    let after = left(&ran).expect("hours");
    assert!((after - (all - 1.0)).abs() < 1e-9);
    let longer = pin(&ran, SlipKind::Run, &[(Line::FloorMinutes, "99999")]);
    assert_eq!(left(&longer), Some(0.0));
}

#[test]
fn a_due_date_on_a_day_off_is_told_with_the_last_working_day_before_it() {
    let mut shop = shop();
    let told = |job: &Job, shop: &Shop| -> Vec<(Beside, String)> {
        let results = results_now(job, shop);
        let telling = Telling::new(job, shop);
        let notes = results.notes.iter();
        let notes = notes.filter(|note| note.kind == NoteKind::DueOnDayOff);
        notes
            .map(|note| (note.beside, telling.text(note).into_owned()))
            .collect()
    };
    // 29 November 2026 is a Sunday (ISO 8601 week date 2026-W48-7).
    let job = field(&ready(), Field::Due, "2026-11-29");
    let [(beside, said)] = told(&job, &shop).try_into().expect("one");
    assert_eq!(beside, Beside::Field(Field::Due));
    assert!(
        said.starts_with("Sunday ") && said.contains("before it is Friday 27 Nov 2026"),
        "{said}"
    );
    shop.calendar.days_off.insert(day(11, 27));
    let [(_, said)] = told(&job, &shop).try_into().expect("one");
    assert!(said.contains("Thursday 26 Nov 2026"), "{said}");
    // A day that the shop works says nothing, an order's own day is told at the order.
    let job = field(&ready(), Field::Due, "2026-11-26");
    assert_eq!(told(&job, &shop), []);
    let order = [(Line::Due, "2026-11-28"), (Line::Quantity, "4")];
    let job = pin(&job, SlipKind::Order, &order);
    let [(beside, _)] = told(&job, &shop).try_into().expect("one");
    assert!(matches!(beside, Beside::Slip(_, Some(Line::Due))));
    assert_eq!(told(&delivered(&job, "4"), &shop), []);
}

/// What happened on a day that has not come is told beside its day; a delivery may be made ready before.
#[test]
fn a_slip_of_a_day_to_come_is_told() {
    let mut shop = shop();
    shop.day = Some(day(11, 28));
    let told = |job: &Job| {
        let notes = results_now(job, &shop).notes.into_iter();
        let ahead = notes.filter(|note| note.kind == NoteKind::SlipAhead);
        ahead.map(|note| note.beside).collect::<Vec<_>>()
    };
    let of = |kind, date| pin(&ready(), kind, &[(Line::Date, date), (Line::Count, "4")]);
    assert_eq!(told(&of(SlipKind::Received, "2026-11-28")), []);
    let ahead = told(&of(SlipKind::Received, "2026-11-30"));
    assert!(
        matches!(ahead[..], [Beside::Slip(_, Some(Line::Date))]),
        "{ahead:?}"
    );
    assert_eq!(told(&of(SlipKind::Delivery, "2026-11-30")), []);
}
