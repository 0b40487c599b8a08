//! Job files read back as they were saved, and one clear sentence for each that can't be.

#![expect(
    clippy::expect_used,
    reason = "helpers of the tests stand outside the test functions"
)]

use chrono::NaiveDate;
use proptest::prelude::*;
use quillbore_calc::input::Place;
use quillbore_job::file::{LARGEST_FILE, read_job, write_job};
use quillbore_job::job::FigureKey;
use quillbore_job::{CellAt, Column, Edit, Field, Job, Unit, apply};

fn done(job: &Job, edit: &Edit) -> Job {
    apply(job, edit).map_or_else(|_| job.clone(), |(job, _)| job)
}

fn sample() -> Job {
    let mut job = Job {
        number: "26-0107".to_owned(),
        opened: NaiveDate::from_ymd_opt(2026, 11, 25),
        ..Job::default()
    };
    let field = |field, text: &str, unit| Edit::SetField {
        field,
        text: text.to_owned(),
        unit,
    };
    let cells = |row, column, text: &str, unit| Edit::SetCells {
        at: CellAt { row, column },
        rows: vec![vec![Some(text.to_owned())]],
        unit,
    };
    for edit in [
        field(Field::Customer, "Alder Finch Rotors", Unit::Mm),
        field(Field::SizeX, "3 1/2", Unit::Inch),
        field(Field::Quantity, "twenty or so", Unit::Mm),
        field(
            Field::Notes,
            "first line\nsecond \"line\" \\ \u{d8}",
            Unit::Mm,
        ),
        cells(0, Column::Mark, "A", Unit::Mm),
        cells(0, Column::Size, ".031 +.003/-0", Unit::Inch),
        cells(1, Column::Size, "about one", Unit::Mm),
        cells(1, Column::Angle, "30 from surface", Unit::Mm),
        Edit::SetPlaces {
            row: quillbore_calc::RowId(0),
            places: vec![Place {
                number: 1,
                point_mm: [0.1, -2.0, 1e-7],
                axis: [0.6, 0.0, -0.8],
            }],
        },
        Edit::SetUnit(Unit::Inch),
        Edit::Overrule {
            figure: FigureKey::MachineHours,
            text: "12.5".to_owned(),
            reason: "as last time".to_owned(),
            unit: Unit::Mm,
        },
    ] {
        job = apply(&job, &edit).expect("an edit of the sample").0;
    }
    job
}

#[test]
fn what_was_saved_is_what_is_opened() {
    let job = sample();
    let text = write_job(&job);
    assert!(text[..256].contains("format: 1"), "{text}");
    assert_eq!(read_job(text.as_bytes()).expect("a job"), job);
    assert_eq!(
        write_job(&read_job(text.as_bytes()).expect("a job")),
        text,
        "same job, same bytes"
    );
    assert!(
        text.contains("about one") && text.contains("twenty or so"),
        "unread text is kept"
    );
}

#[track_caller]
fn refused(bytes: &[u8], says: &str) {
    let error = read_job(bytes).expect_err("no job");
    let sentence = error.to_string();
    assert!(sentence.contains(says), "{sentence}");
    assert!(
        !sentence.contains('\n') && sentence.len() < 300,
        "one sentence: {sentence}"
    );
    assert!(!error.hint().is_empty());
}

#[test]
fn a_file_that_is_no_job_gets_one_sentence() {
    let text = write_job(&sample());
    refused(b"", "empty");
    refused(b" \n\n", "empty");
    refused(b"\x7fELF\x02\x01\0\0", "not text");
    refused(&[0xff; 100], "UTF-8");
    refused(b"dear reader", "format number");
    refused(
        text.replace("format: 1", "format: 2").as_bytes(),
        "format 2",
    );
    refused(
        text.replace("format: 1", "format: 0").as_bytes(),
        "never existed",
    );
    refused(
        text.replace("format: 1", "format: 99999999999999999999")
            .as_bytes(),
        "format number",
    );
    refused(
        text.replace("number:", "colour: 1,\n  number:").as_bytes(),
        "Line 3",
    );
    refused(
        text.replace("customer\"", "costumer\"").as_bytes(),
        "costumer",
    );
    refused(
        text.replace("-0.8", "NaN").as_bytes(),
        "no usable point or direction",
    );
    refused(
        text.replace("0.1,", "inf,").as_bytes(),
        "no usable point or direction",
    );
    refused(
        text.replace("next_row: 2", "next_row: 1").as_bytes(),
        "identity 1",
    );
    refused(text.replace("id: 1", "id: 0").as_bytes(), "identity 0");
    refused(
        text.replace("2026-11-25", "2026-13-25").as_bytes(),
        "no day",
    );
    let nested = format!("(format: 1, number: {}", "(".repeat(100_000));
    refused(nested.as_bytes(), "can't be read");
    let nested = format!(
        "(format: 1, number: \"\", unit: mm, fields: {}",
        "[".repeat(100_000)
    );
    refused(nested.as_bytes(), "can't be read");
    refused(&vec![b' '; LARGEST_FILE + 1], "64 MB");
}

#[test]
fn a_file_cut_off_anywhere_is_refused_or_the_job_itself() {
    let text = write_job(&sample());
    for end in (0..text.len()).filter(|end| text.is_char_boundary(*end)) {
        match read_job(&text.as_bytes()[..end]) {
            Ok(job) => assert_eq!(job, sample(), "only blanks were cut off"),
            Err(error) => assert!(!error.to_string().is_empty()),
        }
    }
}

fn any_edit() -> impl Strategy<Value = Edit> {
    let unit = prop_oneof![Just(Unit::Mm), Just(Unit::Inch)];
    let text = prop_oneof![
        "\\PC{0,12}",
        any::<String>(),
        "[0-9]{0,3}[.,/]?[0-9]{0,3}( mm| in|\")?( ?(\\+-|/)[0-9.]{1,4})?",
    ];
    let field = (
        proptest::sample::select(Field::ALL),
        text.clone(),
        unit.clone(),
    )
        .prop_map(|(field, text, unit)| Edit::SetField { field, text, unit });
    let cells = (
        0..4_usize,
        proptest::sample::select(Column::ALL),
        text,
        unit,
    )
        .prop_map(|(row, column, text, unit)| Edit::SetCells {
            at: CellAt { row, column },
            rows: vec![vec![Some(text)]],
            unit,
        });
    prop_oneof![field, cells, Just(Edit::SetUnit(Unit::Inch))]
}

proptest! {
    #[test]
    fn any_job_comes_back_as_it_was(edits in proptest::collection::vec(any_edit(), 0..30)) {
        let job = edits.iter().fold(Job::default(), |job, edit| done(&job, edit));
        let text = write_job(&job);
        prop_assert_eq!(read_job(text.as_bytes()), Ok(job), "{}", text);
    }

    #[test]
    fn no_bytes_make_it_panic(bytes in proptest::collection::vec(any::<u8>(), 0..400)) {
        let _ = read_job(&bytes);
    }
}
