//! What words mean in the line that finds jobs, and by what they are sorted: by hand, and held against
//! plain filters and sorts over random lists.

use std::cmp::Ordering;
use std::collections::BTreeMap;
use std::sync::Arc;

use chrono::NaiveDate;
use proptest::prelude::{Strategy, proptest};
use proptest::sample::select;
use proptest::test_runner::Config;
use quillbore_job::form::{Dates, Numbers};
use quillbore_job::{Form, Shop, Unit};
use quillbore_office::digest::{
    Asking, Digest, Hours, Index, OpenMatter, Price, Query, ShelfLine, Sort, SortBy, Summary,
};
use quillbore_office::week::five_days;
use rust_decimal::Decimal;

use crate::jobs::{asked, day, find, key};

/// A line that is like this one in all that a test doesn't say.
fn line(number: &str, summary: Summary, open: Vec<OpenMatter>) -> Arc<ShelfLine> {
    Arc::new(ShelfLine {
        name: number.to_owned(),
        job: Some(key(number)),
        says: Ok(Digest {
            summary,
            open,
            ..Digest::default()
        }),
    })
}

fn due(day: NaiveDate) -> OpenMatter {
    OpenMatter::Due {
        day,
        slip: None,
        left: None,
    }
}

fn quotation(date: NaiveDate) -> OpenMatter {
    OpenMatter::Quotation {
        number: "Q1".to_owned(),
        date,
        follow_up: None,
    }
}

fn said(typed: &str) -> String {
    asked(typed).said("USD", Unit::Mm, Form::default())
}

/// Four jobs of a shop: on the floor, quoted, delivered, and one that can't be read.
fn four() -> Index {
    let floor = Summary {
        customer: "Alder Finch Rotors".to_owned(),
        material: "Nickel alloy 718".to_owned(),
        machine: "Barrow".to_owned(),
        state: "on the floor".to_owned(),
        due: Some(day("2026-11-26")),
        quantity: Some(25),
        size_mm: Some(0.8),
        depth_mm: Some(16.0),
        price: Some(Price {
            quantity: 25,
            each: Decimal::new(4820, 2),
            ..Price::default()
        }),
        hours: Some(Hours {
            each: 0.5,
            by_clock: true,
            scaled: false,
        }),
        ..Summary::default()
    };
    let quoted = Summary {
        customer: "Dunmoor Hydraulics".to_owned(),
        part_name: "die plate".to_owned(),
        material: "Tool steel D2".to_owned(),
        state: "quoted".to_owned(),
        notes: "called about 718, price over the phone".to_owned(),
        due: Some(day("2026-12-03")),
        // A thirty-second of an inch.
        size_mm: Some(0.79375),
        depth_mm: Some(20.0),
        price: Some(Price {
            quantity: 2,
            each: Decimal::new(500, 0),
            ..Price::default()
        }),
        ..Summary::default()
    };
    let delivered = Summary {
        state: "delivered".to_owned(),
        due: Some(day("2026-11-24")),
        ..floor.clone()
    };
    let unreadable = ShelfLine {
        name: "26-0104".to_owned(),
        job: Some(key("26-0104")),
        says: Err("late".to_owned()),
    };
    Index::new(vec![
        line("26-0101", floor, vec![due(day("2026-11-24"))]),
        line("26-0102", quoted, vec![quotation(day("2026-11-11"))]),
        line("26-0103", delivered, Vec::new()),
        Arc::new(unreadable),
    ])
}

/// The last digits of the jobs that a text finds.
fn digits(index: &Index, typed: &str) -> String {
    let found = find(index, typed);
    let names = found.iter().map(|at| &index.lines[*at as usize].name);
    names.filter_map(|name| name.chars().last()).collect()
}

#[test]
fn words_that_mean_something_find_by_it_and_say_so() {
    let index = four();
    for (typed, found, says) in [
        ("", "4321", ""),
        ("late", "1", "late"),
        ("LATE", "1", "late"),
        // Letters of a longer word are letters.
        ("plate", "2", ""),
        ("\"late\"", "2", ""),
        ("late plate", "", "late; with \u{201c}plate\u{201d}"),
        // Delivered parts are not due any more.
        ("due this week", "1", "due from 23 to 29 Nov 2026"),
        ("due next week", "2", "due from 30 Nov to 6 Dec 2026"),
        ("due today", "", "due on 25 Nov 2026"),
        ("due 2026-12-03", "2", "due on 3 Dec 2026"),
        ("due 3.12.2026", "2", "due on 3 Dec 2026"),
        ("no answer", "2", "no answer"),
        ("no answer 14 days", "2", "no answer for 14 days or more"),
        ("no answer 2 weeks", "2", "no answer for 14 days or more"),
        ("no answer 15d", "", "no answer for 15 days or more"),
        (
            "no answer 1 day alder",
            "",
            "no answer for 1 day or more; with \u{201c}alder\u{201d}",
        ),
        // A bare number is the beginning of a job's.
        (
            "no answer 26-01",
            "2",
            "no answer; with \u{201c}26-01\u{201d}",
        ),
        ("718", "321", ""),
        ("material 718", "31", "material 718"),
        ("material 718 size 0.8", "31", "material 718; size 0.80 mm"),
        ("customer alder", "31", "customer alder"),
        ("machine barrow", "31", "machine barrow"),
        ("barrow", "31", ""),
        ("size 0.8 mm", "31", "size 0.80 mm"),
        ("size 0.795", "321", "size 0.795 mm"),
        ("size 1/32\"", "2", "size 0.794 mm"),
        ("size 1/32 in", "2", "size 0.794 mm"),
        ("size .031in", "", "size 0.787 mm"),
        ("size 0.79-0.81", "321", "size from 0.79 mm to 0.81 mm"),
        ("size over 0.795", "31", "size over 0.795 mm"),
        ("size under 0.8", "2", "size under 0.80 mm"),
        ("depth 20", "2", "depth 20.00 mm"),
        ("depth .787in", "2", "depth 19.99 mm"),
        ("depth over 16", "2", "depth over 16.00 mm"),
        // 16 over 0.8 is 20, 20 over 1/32 inch is 25.2.
        ("l/d 20", "321", "l/d 20 or more"),
        ("l/d 20,5", "2", "l/d 20.5 or more"),
        ("l/d under 20", "", "l/d under 20"),
        // 25 at 48.20 are 1,205; two at 500 are just 1,000.
        ("price over 1000", "31", "lot over 1,000 USD"),
        ("price over 1,000", "31", "lot over 1,000 USD"),
        ("price over 999.99", "321", "lot over 999.99 USD"),
        ("price under 1205", "2", "lot under 1,205 USD"),
        // A state's word is letters, as it always was.
        ("on floor", "1", ""),
        ("quoted", "2", ""),
        ("late on floor", "1", "late; with \u{201c}on floor\u{201d}"),
    ] {
        assert_eq!(digits(&index, typed), found, "{typed}");
        assert_eq!(said(typed), says, "{typed}");
    }
}

#[test]
fn a_lot_in_another_currency_is_found_and_sorted_by_what_it_is_in_the_shops_own() {
    let lot = |each, currency: &str, rate| Summary {
        price: Some(Price {
            quantity: 10,
            each: Decimal::from(each),
            currency: currency.to_owned(),
            rate,
        }),
        ..Summary::default()
    };
    // 10 at 100; 10 at 96 EUR at 0.92 for one are 1,043.48; 10 at 1,500 SEK at 10.5 are 1,428.57.
    let index = Index::new(vec![
        line("26-0101", lot(100, "", None), Vec::new()),
        line("26-0102", lot(96, "EUR", Some(0.92)), Vec::new()),
        line("26-0103", lot(1500, "SEK", Some(10.5)), Vec::new()),
    ]);
    assert_eq!(digits(&index, "price over 1040"), "32");
    assert_eq!(digits(&index, "price under 1044"), "21");
    let worth = index.lines.iter().map(|line| line.worth());
    let cents = worth.map(|worth| worth.map(|worth| worth.round_dp(2).to_string()));
    let cents: Vec<_> = cents.collect();
    let of = |text: &str| Some(text.to_owned());
    assert_eq!(cents, [of("1428.57"), of("1043.48"), of("1000")]);
}

#[test]
fn what_is_not_understood_is_letters_as_it_was_before() {
    for typed in [
        "due",
        "due week",
        "due this",
        "due soon",
        "no",
        "no wax",
        "size",
        "size big",
        "size 1/32",
        "size over",
        "depth",
        "l/d",
        "l/d 0",
        "l/d x",
        "l/d over",
        "price",
        "price 1000",
        "price over",
        "price over the",
        "material",
        "customer",
        "machine",
        "over 1000",
        "this week",
        "718 nickel",
    ] {
        assert_eq!(asked(typed), Query::letters(typed), "{typed}");
        assert_eq!(said(typed), "", "{typed}");
    }
    assert_eq!(digits(&four(), "price over the"), "2");
    // A name's word that means something itself is not taken for letters of the name.
    assert_eq!(
        said("material size 0.8"),
        "size 0.80 mm; with \u{201c}material\u{201d}"
    );
}

/// A number or a day with two readings is read as the shop writes it; where that doesn't decide, it is
/// told and no job is found.
#[test]
fn what_has_two_readings_is_read_by_the_shops_form_or_told() {
    let index = four();
    let calendar = five_days();
    let asked = |typed: &str, numbers: &str| {
        let mut all = Numbers::ALL.iter().copied();
        let numbers = all.find(|known| known.key() == numbers);
        let form = Form {
            numbers: numbers.expect("a form"),
            dates: Dates::Points,
        };
        let by = Asking {
            today: day("2026-11-25"),
            calendar: &calendar,
            unit: Unit::Mm,
            form,
        };
        let query = Query::read(typed, &by);
        let said = query.said("USD", Unit::Mm, form);
        (index.find(&query, Sort::default()).len(), said)
    };
    // Lots of 1,205 twice, and one of 1,000; the job that can't be read is worth nothing.
    for (typed, numbers, found, says) in [
        ("price over 1.100", "1.234,5", 2, "lot over 1.100 USD"),
        ("price over 1,100", "1.234,5", 3, "lot over 1,1 USD"),
        ("price over 1.100", "1,234.5", 3, "lot over 1.1 USD"),
        ("price over 1,100", "1,234.5", 2, "lot over 1,100 USD"),
        ("price over 1.100,5", "1.234,5", 2, "lot over 1.100,5 USD"),
        ("price over 1100", "1.234,5", 2, "lot over 1.100 USD"),
        ("price under 1.100", "1234,5", 0, "1.1 or 1100? Type 1100"),
        ("price over 1,100", "1'234.5", 0, "1.1 or 1100? Type 1100"),
        (
            "due 03/12/2026",
            "1.234,5",
            0,
            "2026-03-12 or 2026-12-03? Type 2026-12-03",
        ),
    ] {
        let of = format!("{typed} in {numbers}");
        assert_eq!(asked(typed, numbers), (found, says.to_owned()), "{of}");
    }
}

#[test]
fn weeks_go_by_the_shop_and_bare_numbers_by_the_unit() {
    let mut calendar = five_days();
    calendar.days_off.insert(day("2026-11-30"));
    let by = |today: &str, unit| Asking {
        today: day(today),
        calendar: &calendar,
        unit,
        form: Form::default(),
    };
    let said = |typed, today, unit| {
        Query::read(typed, &by(today, unit)).said("USD", unit, Form::default())
    };
    assert_eq!(
        said("due this week", "2026-11-25", Unit::Mm),
        "due from 23 to 30 Nov 2026"
    );
    assert_eq!(
        said("due next week", "2026-11-25", Unit::Mm),
        "due from 1 to 6 Dec 2026"
    );
    // A Sunday looks at the week that comes.
    assert_eq!(
        said("due this week", "2026-11-29", Unit::Mm),
        "due from 30 Nov to 6 Dec 2026"
    );
    assert_eq!(
        said("due next week", "2026-12-30", Unit::Mm),
        "due from 4 to 10 Jan 2027"
    );
    let inch = said("size 1/16 depth .787", "2026-11-25", Unit::Inch);
    assert_eq!(inch, "size 0.0625 in; depth 0.787 in");
}

fn sorted(index: &Index, by: SortBy, falling: bool) -> String {
    let found = index.find(&asked(""), Sort { by, falling });
    let names = found.iter().map(|at| &index.lines[*at as usize].name);
    names.filter_map(|name| name.chars().last()).collect()
}

#[test]
fn lines_without_what_they_are_sorted_by_come_last_either_way() {
    let index = four();
    for (by, rising, falling) in [
        (SortBy::Number, "1234", "4321"),
        (SortBy::Due, "1243", "2143"),
        (SortBy::Price, "2314", "3124"),
        (SortBy::Age, "4321", "4321"),
        (SortBy::Hours, "3142", "3142"),
        (SortBy::Customer, "3124", "2314"),
    ] {
        assert_eq!(sorted(&index, by, false), rising, "{by:?}");
        assert_eq!(sorted(&index, by, true), falling, "{by:?}");
    }
}

const CUSTOMERS: [&str; 5] = ["", "Alder", "alder", "Moss & S\u{f6}hne", "Tarn 718"];
const MATERIALS: [&str; 4] = ["", "Nickel 718", "Tool steel D2", "alder"];
const STATES: [&str; 4] = ["inquiry", "quoted", "delivered", "set aside"];
const DAYS: [&str; 6] = [
    "2026-11-10",
    "2026-11-11",
    "2026-11-24",
    "2026-11-25",
    "2026-11-30",
    "2026-12-07",
];
const SIZES: [f64; 4] = [0.79375, 0.8, 0.805, 1.6];
const ASKED: [&str; 24] = [
    "",
    "",
    "",
    "late",
    "due this week",
    "due next week",
    "due today",
    "no answer",
    "no answer 14 days",
    "material 718",
    "customer alder",
    "machine d",
    "size 0.8",
    "size 1/32\"",
    "size 0.8-1.6",
    "depth 16",
    "depth over 3",
    "l/d 20",
    "price over 1000",
    "price under 1000",
    "alder",
    "7",
    "26-000",
    "delivered",
];

fn may<T: Clone + std::fmt::Debug + 'static>(of: &'static [T]) -> impl Strategy<Value = Option<T>> {
    proptest::option::weighted(0.7, select(of))
}

fn one(at: u16) -> impl Strategy<Value = Arc<ShelfLine>> {
    let names = (
        select(&CUSTOMERS[..]),
        select(&MATERIALS[..]),
        select(&MATERIALS[..]),
    );
    let days = (may(&DAYS), may(&DAYS), may(&DAYS), may(&DAYS));
    let figures = (
        may(&SIZES),
        may(&[3.0, 16.0, 16.04]),
        may(&[1_u32, 2, 250]),
        0..4_i64,
    );
    let works = (select(&STATES[..]), 0..10_u8);
    (names, days, figures, works).prop_map(move |(names, days, figures, works)| {
        let (customer, material, machine) = names;
        let (opened, next, ordered, quoted) = days;
        let (size_mm, depth_mm, quantity, each) = figures;
        let (state, sort) = works;
        let number = format!("26-{at:04}");
        if sort == 0 {
            return Arc::new(ShelfLine {
                job: Some(key(&number)),
                name: number,
                says: Err("can't be read".to_owned()),
            });
        }
        let each = quantity.filter(|_| each > 0).map(|quantity| Price {
            quantity,
            each: Decimal::from(each * 500),
            ..Price::default()
        });
        let summary = Summary {
            customer: customer.to_owned(),
            material: material.to_owned(),
            machine: machine.to_owned(),
            state: state.to_owned(),
            opened: opened.map(day),
            due: next.map(day),
            quantity,
            size_mm,
            depth_mm,
            price: each,
            hours: depth_mm.filter(|_| sort > 4).map(|each| Hours {
                each,
                by_clock: true,
                scaled: false,
            }),
            ..Summary::default()
        };
        let mut open: Vec<OpenMatter> = ordered.map(day).map(due).into_iter().collect();
        open.extend(quoted.map(day).map(quotation));
        open.extend(opened.filter(|_| sort > 6).map(day).map(quotation));
        line(&number, summary, open)
    })
}

/// Whether a line is what one of the texts asks, word by word as they are described.
fn is_asked(line: &ShelfLine, typed: &str) -> bool {
    let Ok(digest) = &line.says else {
        return typed.is_empty() || line.name.contains(typed);
    };
    let Digest { summary, open, .. } = digest;
    let has = |text: &str, word: &str| text.to_lowercase().contains(word);
    let over = summary.state == "delivered" || summary.state == "set aside";
    let is_due =
        |from, to| !over && (summary.due).is_some_and(|at| at >= day(from) && at <= day(to));
    let quoted = |by| {
        let quoted = |open: &OpenMatter| matches!(open, OpenMatter::Quotation { date, .. } if *date <= day(by));
        open.iter().any(quoted)
    };
    let is_late = |open: &OpenMatter| matches!(open, OpenMatter::Due { day: at, .. } if *at < day("2026-11-25"));
    let size = |least: f64, most: f64| {
        (summary.size_mm).is_some_and(|mm| mm > least - 0.00501 && mm < most + 0.00501)
    };
    let lot = summary
        .price
        .as_ref()
        .map(|price| price.each * Decimal::from(price.quantity));
    let thousand = Decimal::from(1000);
    match typed {
        "late" => open.iter().any(is_late),
        "due this week" => is_due("2026-11-23", "2026-11-29"),
        "due next week" => is_due("2026-11-30", "2026-12-06"),
        "due today" => is_due("2026-11-25", "2026-11-25"),
        "no answer" => quoted("2026-11-25"),
        "no answer 14 days" => quoted("2026-11-11"),
        "material 718" => has(&summary.material, "718"),
        "customer alder" => has(&summary.customer, "alder"),
        "machine d" => has(&summary.machine, "d"),
        "size 0.8" => size(0.8, 0.8),
        "size 1/32\"" => size(0.79375, 0.79375),
        "size 0.8-1.6" => size(0.8, 1.6),
        "depth 16" => summary.depth_mm.is_some_and(|mm| mm > 15.9),
        "depth over 3" => summary.depth_mm.is_some_and(|mm| mm > 3.5),
        "l/d 20" => match (summary.depth_mm, summary.size_mm) {
            (Some(depth), Some(size)) => depth > size * 19.999,
            _ => false,
        },
        "price over 1000" => lot.is_some_and(|lot| lot > thousand),
        "price under 1000" => lot.is_some_and(|lot| lot < thousand),
        letters => {
            let Summary {
                customer,
                material,
                machine,
                state,
                ..
            } = summary;
            let texts = [&line.name, customer, material, machine, state];
            texts.iter().any(|text| has(text, letters))
        }
    }
}

fn summary(line: &ShelfLine) -> Option<&Summary> {
    line.says.as_ref().ok().map(|digest| &digest.summary)
}

/// How two lines are sorted, as it is described.
fn in_order(one: &ShelfLine, other: &ShelfLine, sort: Sort) -> Ordering {
    fn by<T: PartialOrd>(one: Option<T>, other: Option<T>, falling: bool) -> Ordering {
        match (one, other) {
            (Some(one), Some(other)) => {
                let order = one.partial_cmp(&other).expect("an order");
                if falling { order.reverse() } else { order }
            }
            (Some(_), None) => Ordering::Less,
            (None, Some(_)) => Ordering::Greater,
            (None, None) => Ordering::Equal,
        }
    }
    let (a, b) = (summary(one), summary(other));
    let falling = sort.falling;
    let first = match sort.by {
        SortBy::Number => by(Some(&one.name), Some(&other.name), falling),
        SortBy::Due => {
            let due = |of: Option<&Summary>| {
                let of = of?;
                let over = ["delivered", "set aside"].contains(&of.state.as_str());
                of.due.filter(|_| !over)
            };
            by(due(a), due(b), falling)
        }
        SortBy::Price => {
            let lot = |of: Option<&Summary>| {
                of?.price
                    .as_ref()
                    .map(|price| price.each * Decimal::from(price.quantity))
            };
            by(lot(a), lot(b), falling)
        }
        SortBy::Age => {
            let today = day("2026-11-25");
            let age = |of: Option<&Summary>| of?.opened.map(|day| today - day);
            by(age(a), age(b), falling)
        }
        SortBy::Hours => {
            let hours = |of: Option<&Summary>| {
                let of = of?;
                Some(of.hours?.each * f64::from(of.quantity?))
            };
            by(hours(a), hours(b), falling)
        }
        SortBy::Customer => {
            let name = |of: Option<&Summary>| {
                of.map(|of| of.customer.to_lowercase())
                    .filter(|name| !name.is_empty())
            };
            by(name(a), name(b), falling)
        }
    };
    first.then_with(|| other.name.cmp(&one.name))
}

/// The plain way: every line looked at, and those that are asked for sorted.
fn plainly(lines: &[Arc<ShelfLine>], texts: [&str; 2], sort: Sort) -> Vec<u32> {
    let places = (0_u32..).zip(lines);
    let asked = places.filter(|(_, line)| texts.iter().all(|text| is_asked(line, text)));
    let mut asked: Vec<(u32, &Arc<ShelfLine>)> = asked.collect();
    asked.sort_by(|(_, one), (_, other)| in_order(one, other, sort));
    asked.into_iter().map(|(at, _)| at).collect()
}

fn a_list(at_most: u16) -> impl Strategy<Value = BTreeMap<u16, Arc<ShelfLine>>> {
    let some = proptest::collection::btree_set(0..at_most, 0..usize::from(at_most));
    some.prop_flat_map(|numbers| {
        let lines = numbers
            .into_iter()
            .map(|at| one(at).prop_map(move |line| (at, line)));
        lines
            .collect::<Vec<_>>()
            .prop_map(|lines| lines.into_iter().collect())
    })
}

proptest! {
    #![proptest_config(Config { cases: 1000, failure_persistence: None, ..Config::default() })]

    #[test]
    fn every_sort_and_every_text_find_what_a_plain_filter_and_sort_find(
        first in a_list(40),
        came in a_list(40),
        gone in proptest::collection::vec(0..40_u16, 0..12),
        texts in (select(&ASKED[..]), select(&ASKED[..])),
    ) {
        let mut index = Index::new(first.values().cloned().collect());
        let mut lines = first;
        for at in gone {
            if let Some(line) = lines.remove(&at) {
                index.take_away(&line);
            }
        }
        for (at, line) in came {
            index.put(Arc::clone(&line));
            lines.insert(at, line);
        }
        let settled = Index::new(lines.into_values().collect());
        assert_eq!(index.lines, settled.lines);
        let query = asked(&format!("{} {}", texts.0, texts.1));
        for by in SortBy::ALL {
            for falling in [false, true] {
                let sort = Sort { by, falling };
                let plain = plainly(&settled.lines, [texts.0, texts.1], sort);
                assert_eq!(settled.find(&query, sort), plain, "{texts:?} {sort:?}");
                assert_eq!(index.find(&query, sort), plain, "{texts:?} {sort:?}, beside");
            }
        }
    }
}

#[test]
fn a_job_is_found_by_each_of_its_kinds_of_holes() {
    let job = include_bytes!("../../../../demo-jobs/26-0102.ron");
    let job = quillbore_job::file::read_job(job).expect("a job");
    let summary = Summary::of(&job);
    // 48 holes of 1.2, and 4 of 3.0, both through the wall of 40.
    assert_eq!((summary.size_mm, summary.depth_mm), (Some(1.2), Some(40.0)));
    assert_eq!(summary.other_kinds, [(Some(3.0), Some(40.0))]);
    let many = Summary {
        size_mm: Some(0.3),
        depth_mm: Some(30.0),
        other_kinds: (1..=9)
            .map(|at| (Some(f64::from(at)), (at != 9).then_some(10.0)))
            .collect(),
        ..Summary::default()
    };
    let lines = [summary, many];
    let lines = lines.into_iter().zip(["26-0102", "26-0101"]);
    let lines = lines.map(|(summary, number)| line(number, summary, Vec::new()));
    let index = Index::new(lines.collect());
    for (typed, found) in [
        ("size 1.2", "2"),
        ("size 3", "21"),
        ("size 9", "1"),
        ("size 0.3", "1"),
        ("depth 40", "2"),
        ("depth 10", "1"),
        // 30 over 0.3.
        ("l/d 100", "1"),
        ("l/d 101", ""),
        ("size over 9", ""),
    ] {
        assert_eq!(digits(&index, typed), found, "{typed}");
    }
}

/// A job is found by any name of its material, whichever of them somebody typed.
#[test]
fn a_material_is_found_by_its_other_names() {
    let shop = Shop::embedded().expect("the shop");
    let named = |number: &str, material: &str| {
        let summary = Summary {
            material: material.to_owned(),
            ..Summary::default()
        };
        line(number, summary, Vec::new())
    };
    let index = Index::new(vec![
        named("26-0001", "2.4668"),
        named("26-0002", "Nickel alloy 718"),
        named("26-0003", "1.4301"),
        named("26-0004", "our 718 from the rack"),
    ]);
    let find = |typed: &str| {
        let found = index.find(&asked(typed).with_materials(shop), Sort::default());
        let mut names: Vec<&str> = found
            .iter()
            .map(|at| index.lines[*at as usize].name.as_str())
            .collect();
        names.sort_unstable();
        names.join(" ")
    };
    assert_eq!(find("material 718"), "26-0001 26-0002 26-0004");
    assert_eq!(find("material 2.4668"), "26-0001 26-0002 26-0004");
    assert_eq!(find("material 304"), "26-0003");
    assert_eq!(find("material 7"), "26-0002 26-0004");
}
