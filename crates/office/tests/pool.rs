//! Run records of a shelf: gathered, followed, and moving the figures of other jobs; what nobody can
//! believe moves none.
#![expect(clippy::expect_used, reason = "helpers of tests fail by panic")]

mod common;

use std::sync::Arc;

use chrono::NaiveDate;
use common::{Clerk, day, office_in_memory};
use quillbore_job::results::results_quick;
use quillbore_job::taught::Why;
use quillbore_job::words::taught;
use quillbore_job::{Field, Form, Job, Line, SlipKind};
use quillbore_office::Office;
use quillbore_office::learned::{Teaches, learned};
use quillbore_office::shelf::memory::Fault;
use quillbore_office::shelf::{Doc, Memory};

/// A job in tool steel of 60 holes, with run records.
fn ran(office: &Arc<Office>, records: &[&[(Line, &str)]]) -> Clerk {
    let mut clerk = Clerk::with(office, Job::default());
    clerk.field(Field::Material, "Tool steel D2");
    clerk.field(Field::Machine, "Barrow");
    clerk.field(Field::Quantity, "5");
    clerk.holes(["A", "12", "1.00 +-0.05", "25"]);
    for record in records {
        clerk.pin(SlipKind::Run, record);
    }
    clerk.save().expect("saved");
    clerk
}

/// Twice what the start values say, or so.
const SLOW: &[(Line, &str)] = &[
    (Line::Date, "2026-11-20"),
    (Line::Mark, "A"),
    (Line::Holes, "60"),
    (Line::SparkMinutes, "160"),
];

/// Minutes of a hole of the same kind on another job.
fn minutes(office: &Office, on: NaiveDate) -> f64 {
    let mut clerk = Clerk::with(&Arc::new(office.clone()), Job::default());
    clerk.field(Field::Material, "Tool steel D2");
    clerk.field(Field::Machine, "Barrow");
    clerk.field(Field::Quantity, "1");
    clerk.holes(["X", "3", "1.00 +-0.05", "25"]);
    let results = results_quick(&clerk.job, &office.shop_as_taught(on));
    results.figures.holes[0].minutes.expect("minutes").p50
}

fn shelf() -> (Arc<Office>, Arc<Memory>) {
    office_in_memory()
}

#[test]
fn a_saved_record_moves_another_jobs_minutes_and_one_that_is_gone_moves_none() {
    let (office, memory) = shelf();
    let before = minutes(&office, day());
    let mut clerk = ran(&office, &[SLOW]);
    let after = minutes(&office, day());
    assert!(after > 1.3 * before, "{before} {after}");
    // The same record says nothing on a day before it was written.
    let earlier = NaiveDate::from_ymd_opt(2026, 11, 1).expect("a day");
    assert_eq!(minutes(&office, earlier), before);
    // Left out with a reason it says nothing, and the reason stays on it.
    let slip = clerk.job.slips.last().expect("a record").id;
    clerk.type_on(slip, Line::LeftOut, "the guide was worn");
    clerk.save().expect("saved");
    assert_eq!(minutes(&office, day()), before);
    clerk.type_on(slip, Line::LeftOut, "");
    clerk.save().expect("saved");
    assert_eq!(minutes(&office, day()), after);
    let key = clerk.opened.expect("saved").key;
    memory.take_away(&Doc::Job(key));
    assert_eq!(minutes(&office, day()), before);
}

#[test]
fn the_order_in_which_records_were_saved_does_not_matter() {
    let quick: &[(Line, &str)] = &[
        (Line::Date, "2026-11-21"),
        (Line::Mark, "A"),
        (Line::Holes, "60"),
        (Line::SparkMinutes, "60"),
    ];
    let of = |records: [&[(Line, &str)]; 2]| {
        let (office, _) = shelf();
        for record in records {
            ran(&office, &[record]);
        }
        minutes(&office, day())
    };
    let (one, other) = (of([SLOW, quick]), of([quick, SLOW]));
    assert!((one / other - 1.0).abs() < 1e-12, "{one} {other}");
}

#[test]
fn what_nobody_can_believe_is_told_and_moves_nothing() {
    let (office, _) = shelf();
    let before = minutes(&office, day());
    let wrong: [(&[(Line, &str)], &str); 9] = [
        (
            &[
                (Line::Mark, "A"),
                (Line::Holes, "60"),
                (Line::SparkMinutes, "1000000000"),
            ],
            "can't be read",
        ),
        (
            &[
                (Line::Mark, "A"),
                (Line::Holes, "0"),
                (Line::SparkMinutes, "60"),
            ],
            "how many holes",
        ),
        (
            &[
                (Line::Mark, "Z"),
                (Line::Holes, "60"),
                (Line::SparkMinutes, "60"),
            ],
            "no row of the job",
        ),
        (
            &[
                (Line::Mark, "A"),
                (Line::Holes, "60"),
                (Line::TubeBefore, "200"),
                (Line::TubeAfter, "300"),
            ],
            "no shorter",
        ),
        (
            &[
                (Line::Mark, "A"),
                (Line::Holes, "60"),
                (Line::TubeBefore, "9000"),
                (Line::TubeAfter, "300"),
            ],
            "when new",
        ),
        (
            &[
                (Line::Mark, "A"),
                (Line::Holes, "60"),
                (Line::FloorMinutes, "30"),
                (Line::StopMinutes, "40"),
            ],
            "stops",
        ),
        (
            &[
                (Line::Mark, "A"),
                (Line::Holes, "60"),
                (Line::TubeUsed, "brass 77"),
            ],
            "no electrode",
        ),
        (
            &[
                (Line::Mark, "A"),
                (Line::Holes, "60"),
                (Line::Pins, "all go"),
            ],
            "numbers alone",
        ),
        (
            &[
                (Line::Mark, "A"),
                (Line::Holes, "60"),
                (Line::SparkMinutes, "60"),
                (Line::Date, "2027-01-01"),
            ],
            "after today",
        ),
    ];
    for (record, expected) in wrong {
        let clerk = ran(&office, &[record]);
        assert_eq!(minutes(&office, day()), before, "{record:?}");
        let page = learned(&office.records(), &office.shop_on(day()), day());
        let key = &clerk.opened.as_ref().expect("saved").key;
        let run = page
            .runs
            .iter()
            .find(|run| run.job == *key)
            .expect("it is listed");
        let Teaches::No(why) = &run.teaches else {
            panic!("{record:?} teaches");
        };
        let mut said = vec![taught::why(why, Form::default())];
        said.extend(
            run.without
                .iter()
                .map(|why| taught::why(why, Form::default())),
        );
        assert!(
            said.iter().any(|said| said.contains(expected)),
            "{record:?}: {said:?}"
        );
    }
}

#[test]
fn every_figure_of_a_record_counts_by_itself() {
    let (office, _) = shelf();
    // The tube can't be longer than it comes, the minutes are as good as any.
    let record: &[(Line, &str)] = &[
        (Line::Date, "2026-11-20"),
        (Line::Mark, "A"),
        (Line::Holes, "60"),
        (Line::SparkMinutes, "160"),
        (Line::TubeBefore, "9000"),
        (Line::TubeAfter, "200"),
    ];
    let before = minutes(&office, day());
    ran(&office, &[record]);
    assert!(minutes(&office, day()) > 1.3 * before);
    let page = learned(&office.records(), &office.shop_on(day()), day());
    let run = &page.runs[0];
    assert!(
        matches!(run.teaches, Teaches::Yes { far_off: None, .. }),
        "{run:?}"
    );
    assert!(
        matches!(run.without[..], [Why::TubeTooLong { .. }]),
        "{run:?}"
    );
    assert_eq!((run.wear, run.material.as_str()), (None, "Tool steel D2"));
    let took = run.minutes.expect("minutes");
    assert!((took.actual - 160.0).abs() < 1e-9 && !took.by_clock);
    assert!(took.expected[0] < took.actual && took.actual < took.expected[2]);
}

#[test]
fn an_issued_price_stays_as_issued_whatever_is_learned_later() {
    use quillbore_job::Paper;
    let (office, _) = shelf();
    let mut clerk = ran(&office, &[]);
    clerk.field(Field::Customer, "Bramblewick Die Shop");
    clerk.save().expect("saved");
    let issued = clerk.issue(Paper::Quotation);
    let each = issued.lines[0].each;
    ran(&office, &[SLOW]);
    let again = Clerk::opening(&office, clerk.opened.as_ref().expect("saved").key.as_str());
    assert_eq!(again.job.issued[0].lines[0].each, each);
    assert_eq!(again.job.issued[0].inputs, issued.inputs);
    // Today's price is another one.
    let results = results_quick(&again.job, &office.shop_as_taught(day()));
    let today = results.figures.price.expect("a price").breaks[0].each;
    assert_ne!(Some(today), each);
}

/// A shelf that can't be read teaches what it taught before, and says so; commands refuse.
#[test]
fn records_that_can_not_be_read_are_told() {
    let (office, memory) = office_in_memory();
    ran(&office, &[SLOW]);
    let known = office.records();
    assert_eq!(known.not_read(), None);
    memory.break_at(memory.calls(), Fault::Gone);
    let said = office.records().not_read().map(str::to_owned);
    assert!(said.is_some_and(|said| said.contains("not there any more")));
    assert!(office.look_at_records().is_err());
    assert_eq!(
        office.teaching(day()).lessons,
        known.teaching(day()).lessons
    );
    memory.mend();
    assert!(office.look_at_records().is_ok());
    assert_eq!(office.records().not_read(), None);
}
