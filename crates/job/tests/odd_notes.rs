//! Notes about what is possible and hardly meant, and what takes a check off.

mod hands;

use hands::{cells, done, field, issue, pin, ring};
use quillbore_calc::finding::Level;
use quillbore_calc::input::Place;
use quillbore_job::results::{Beside, NoteKind, Telling, results_now};
use quillbore_job::{Column, Edit, Field, Job, Line, Paper, Shop, SlipKind};

/// The ring with all that its price needs.
fn ready() -> Job {
    let job = field(&ring(), Field::Material, "Inconel 718");
    field(&job, Field::Machine, "Barrow")
}

#[test]
fn a_margin_that_makes_ten_times_the_cost_is_told() {
    let shop = Shop::embedded().expect("the shop");
    let told = |margin: &str| -> Option<String> {
        let job = field(&ready(), Field::Margin, margin);
        let results = results_now(&job, shop);
        let telling = Telling::new(&job, shop);
        let mut notes = results.notes.iter();
        let note = notes.find(|note| note.kind == NoteKind::MarginOdd)?;
        Some(telling.text(note).into_owned())
    };
    // 1 / (1 - 0.95) = 20, and 1 / (1 - 0.99) = 100.
    assert!(told("95").is_some_and(|said| said.contains("95 % the price is 20 times")));
    assert!(told("99").is_some_and(|said| said.contains("is 100 times the cost")));
    for usual in ["0", "30", "60", "89"] {
        assert_eq!(told(usual), None, "{usual} %");
    }
}

/// What is told of a kind, note by note, each beside its field.
fn told(job: &Job, shop: &Shop, kind: &NoteKind) -> Vec<(Beside, String)> {
    let results = results_now(job, shop);
    let telling = Telling::new(job, shop);
    let notes = results.notes.iter().filter(|note| note.kind == *kind);
    let told = notes.map(|note| {
        // A shop may have its labor in the machine's hour.
        let is_labor = (note.kind.clone(), note.beside) == (NoteKind::HourFree, Beside::Price);
        let level = if is_labor { Level::Note } else { Level::Check };
        assert_eq!(note.level, level);
        assert!(!note.kind.is_for_the_floor());
        (note.beside, telling.text(note).into_owned())
    });
    told.collect()
}

#[test]
fn days_that_nobody_means_are_told_beside_their_field() {
    let shop = Shop::embedded().expect("the shop");
    for field_of in [Field::LeadDays, Field::ValidDays] {
        for (days, is_told) in [
            ("1", false),
            ("30", false),
            ("999", false),
            ("1000", true),
            ("3000", true),
            ("1000000", true),
        ] {
            let job = field(&ready(), field_of, days);
            let told = told(&job, shop, &NoteKind::DaysOdd);
            let beside: Vec<Beside> = told.iter().map(|(beside, _)| *beside).collect();
            let wanted = if is_told {
                vec![Beside::Field(field_of)]
            } else {
                vec![]
            };
            assert_eq!(beside, wanted, "{field_of:?} {days}");
        }
    }
    let job = field(&ready(), Field::ValidDays, "3000");
    let (_, said) = &told(&job, shop, &NoteKind::DaysOdd)[0];
    assert!(
        said.contains("valid for 3,000 days") && said.contains("about 8 years"),
        "{said}"
    );
    // A lead time of none is told once: with the days that the lot takes where they are known.
    let none = |job: &Job| {
        let job = field(job, Field::LeadDays, "0");
        let kinds = [NoteKind::DaysOdd, NoteKind::LeadTimeShort];
        kinds.map(|kind| told(&job, shop, &kind).len())
    };
    assert_eq!(none(&ready()), [0, 1]);
    assert_eq!(none(&Job::default()), [1, 0]);
    // A validity of none can't be.
    let job = field(&ready(), Field::ValidDays, "0");
    assert!(job.field(Field::ValidDays).why().is_some());
}

#[test]
fn a_due_date_that_has_passed_is_told_until_the_job_is_ordered() {
    let mut shop = Shop::embedded().expect("the shop").clone();
    let due = |job: &Job, day: &str| field(job, Field::Due, day);
    let is_told = |job: &Job, shop: &Shop| !told(job, shop, &NoteKind::DuePast).is_empty();
    let late = due(&ready(), "2025-03-02");
    assert!(!is_told(&late, &shop), "no day is known");
    shop.day = Some(hands::day(3, 2));
    let said = told(&late, &shop, &NoteKind::DuePast);
    assert_eq!(said[0].0, Beside::Field(Field::Due));
    assert!(
        said[0].1.contains("2 Mar 2025, 365 days ago"),
        "{}",
        said[0].1
    );
    assert!(is_told(&due(&ready(), "2026-03-01"), &shop));
    assert!(!is_told(&due(&ready(), "2026-03-02"), &shop), "today");
    assert!(!is_told(&due(&ready(), "2027-03-02"), &shop));
    let quoted = issue(&late, Paper::Quotation, &[(25, "40.00")]);
    assert!(is_told(&quoted, &shop));
    let ordered = pin(&quoted, SlipKind::Order, &[(Line::Quantity, "25")]);
    assert!(!is_told(&ordered, &shop));
}

#[test]
fn an_hour_that_costs_nothing_is_told() {
    let shop = Shop::embedded().expect("the shop").clone();
    let beside = |shop: &Shop, job: &Job| {
        let told = told(job, shop, &NoteKind::HourFree);
        let told = told.into_iter().map(|(beside, _)| beside);
        told.collect::<Vec<_>>()
    };
    assert_eq!(beside(&shop, &ready()), []);
    let mut free = shop.clone();
    free.tables.rates.labor_per_hour = 0.0;
    assert_eq!(beside(&free, &ready()), [Beside::Price]);
    for machine in &mut free.tables.machines {
        machine.rate_per_hour = 0.0;
    }
    let both = [Beside::Field(Field::Machine), Beside::Price];
    assert_eq!(beside(&free, &ready()), both);
    // Where there is no price yet nothing rests on it; another machine's rate is not this job's.
    assert_eq!(beside(&free, &Job::default()), []);
    let mut other = shop;
    for machine in &mut other.tables.machines {
        if machine.name != "Barrow" {
            machine.rate_per_hour = 0.0;
        }
    }
    assert_eq!(beside(&other, &ready()), []);
}

#[test]
fn a_tilt_that_no_axis_reaches_is_seen_to_by_a_named_fixture() {
    use quillbore_calc::finding::Kind;
    let mut shop = Shop::embedded().expect("the shop").clone();
    for machine in &mut shop.tables.machines {
        machine.tilt_deg = None;
    }
    let level = |job: &Job| {
        let results = results_now(job, &shop);
        let is_it = |kind: &NoteKind| matches!(kind, NoteKind::Found(Kind::TiltOutOfRange { .. }));
        let note = results.notes.iter().find(|note| is_it(&note.kind));
        note.map(|note| note.level)
    };
    // The index axis turns the part about z, and nothing leans it.
    let job = field(&ready(), Field::IndexAbout, "z");
    let job = cells(
        &job,
        1,
        &["B", "4", "0.80 +-0.05", "14", "through", "25 deg to normal"],
    );
    assert_eq!(level(&job), Some(Level::Check));
    let held = field(&job, Field::Fixture, "wedge 25");
    assert_eq!(level(&held), Some(Level::Note));
}

/// Five holes in the count and two locations: two are drilled and paid, and that is asked until the count
/// agrees, which a word does.
#[test]
fn a_count_beside_other_locations_is_told_until_they_agree() {
    let shop = Shop::embedded().expect("the shop");
    let job = cells(&ready(), 0, &["A", "5", "0.80 +-0.05", "14"]);
    let row = job.rows[0].id;
    let place = |number: u32| Place {
        number,
        point_mm: [f64::from(number), 0.0, 0.0],
        axis: [0.0, 0.0, -1.0],
    };
    let places = |places: Vec<Place>| done(&job, &Edit::SetPlaces { row, places });
    assert_eq!(
        told(&places(Vec::new()), shop, &NoteKind::CountIsNotPlaces),
        []
    );
    let two = places(vec![place(1), place(2)]);
    let [(beside, said)] = told(&two, shop, &NoteKind::CountIsNotPlaces)
        .try_into()
        .expect("one note");
    assert_eq!(beside, Beside::Row(row, Some(Column::Count)));
    assert!(said.contains("says 5 and 2 locations"), "{said}");
    assert_eq!(two.rows[0].holes(), 2);
    let results = results_now(&two, shop);
    let mut notes = results.notes.iter();
    let note = notes.find(|note| note.kind == NoteKind::CountIsNotPlaces);
    let telling = Telling::new(&two, shop);
    let offer = telling.offer(note.expect("a note")).expect("an offer");
    let agreed = done(&two, &offer.edit);
    assert_eq!(agreed.rows[0].count.text(), "2");
    assert_eq!(told(&agreed, shop, &NoteKind::CountIsNotPlaces), []);
}
