//! Job files read back as they were saved, and one clear sentence for each that can't be.

#![expect(
    clippy::expect_used,
    reason = "helpers of the tests stand outside the test functions"
)]

use chrono::NaiveDate;
use proptest::prelude::*;
use quillbore_calc::input::Place;
use quillbore_job::file::{LARGEST_FILE, ReadError, TextError, read_job, write_job};
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
        cells(0, Column::Depth, "1/2", Unit::Inch),
        cells(1, Column::Size, "about one", Unit::Mm),
        cells(1, Column::Angle, "30 from surface", Unit::Mm),
        Edit::SetPlaces {
            row: quillbore_calc::RowId(0),
            places: vec![
                Place {
                    number: 1,
                    point_mm: [0.1, -2.0, 1e-7],
                    axis: [0.6, 0.0, -0.8],
                },
                Place {
                    number: 2,
                    point_mm: [1.0 / 3.0, 1e-22, -0.0],
                    axis: [0.0, 0.0, -1.0],
                },
            ],
        },
        Edit::SetUnit(Unit::Inch),
        Edit::Overrule {
            figure: FigureKey::MachineHours,
            text: "12.5".to_owned(),
            reason: "as last time".to_owned(),
            unit: Unit::Mm,
        },
        Edit::Overrule {
            figure: FigureKey::LaborHours,
            text: "many".to_owned(),
            reason: "two helpers".to_owned(),
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
    assert!(text[..256].contains("format: 2"), "{text}");
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
    assert!(error.hint().ends_with('.'), "{}", error.hint());
}

#[test]
fn a_file_that_is_no_job_gets_one_sentence() {
    refused(b"", "The file is empty");
    refused(b" \n\n", "The file is empty");
    refused(b"\x7fELF\x02\x01\0\0", "not text: byte 7 is zero");
    refused(&[0xff; 100], "Line 1 of the file is not UTF-8");
    refused(
        b"(format: 1,\n number: \"\xe4\"",
        "Line 2 of the file is not UTF-8",
    );
    refused(b"dear reader", "does not begin with a format number");
    refused(
        b"(number: \"1\", format: 1)",
        "does not begin with a format number",
    );
    let late = format!("//{}\n(format: 1)", " ".repeat(256));
    refused(late.as_bytes(), "does not begin with a format number");
    let blanks = usize::try_from(LARGEST_FILE).expect("fits") + 1;
    refused(&vec![b' '; blanks], "larger than 64 MB");
}

/// A sample's text with one piece of it replaced, and what is said of it.
#[test]
fn a_damaged_job_gets_one_sentence_with_its_line() {
    let text = write_job(&sample());
    let rows = [
        (
            "format: 2,",
            "format: 3,",
            "format 3 and was written by a newer version: this version, which reads formats up to 2, would lose parts of it",
        ),
        ("format: 2,", "format: 0,", "format 0, which never existed"),
        (
            "format: 2,",
            "format: 99999999999999999999,",
            "does not begin with a format number",
        ),
        ("format: 2,", "format: 1.5,", "Line 2, column 12"),
        (
            "number:",
            "colour: 1,\n  number:",
            "Line 3, column 9 of the file says \"colour\", a name that was written by a newer version: this version would lose parts of it",
        ),
        (
            "\"customer\"",
            "\"costumer\"",
            "says \"costumer\", a name that was written by a newer version",
        ),
        (
            "machine_hours,",
            "machine_days,",
            "says \"machine_days\", a name",
        ),
        (
            "\"quantity\"",
            "\"customer\"",
            "the field \"customer\" appears twice",
        ),
        (
            "\"depth\"",
            "\"deep\"",
            "says \"deep\", a name that was written by a newer version",
        ),
        ("\"depth\"", "\"size\"", "the column \"size\" appears twice"),
        (
            ", 0.0, -0.8)",
            ", NaN, -0.8)",
            "hole location 1 has no usable point or direction",
        ),
        (
            "(1, 0.1,",
            "(1, inf,",
            "hole location 1 has no usable point or direction",
        ),
        (
            ", 0.0, -0.8)",
            ", 0.5, -0.8)",
            "hole location 1 has no usable point or direction",
        ),
        (
            "(2, ",
            "(1, ",
            "Hole location 1 of the row with the identity 0 appears twice",
        ),
        ("next_row: 2", "next_row: 1", "has the identity 1, but"),
        ("next_row: 2", "next_row: -1", "Line "),
        ("id: 1", "id: 0", "Two rows of the job have the identity 0"),
        ("2026-11-25", "2026-13-25", "Line 4, column "),
        ("as last time", "  ", "an overruled figure has no reason"),
        ("labor_hours", "machine_hours", "overruled twice"),
        ("unit: inch", "unit: furlong", "says \"furlong\", a name"),
        (", inch)", ", inch, 1)", "Line "),
    ];
    for (piece, other, says) in rows {
        let damaged = text.replacen(piece, other, 1);
        assert_ne!(damaged, text, "{piece} stands in the sample");
        refused(damaged.as_bytes(), says);
    }
    assert!(
        text.contains("\"customer\": (\"Alder"),
        "the sample's own text"
    );
    for deep in ["(", "[", "{", "/*", "Some("] {
        let deep = deep.repeat(100_000);
        refused(format!("(format: 1, number: {deep}").as_bytes(), "ine 1");
        refused(
            format!("(format: 1, number: \"\", unit: mm, rows: {deep}").as_bytes(),
            "ine 1",
        );
        refused(format!("(format: {deep}").as_bytes(), "format number");
        refused(deep.as_bytes(), "format number");
    }
}

#[test]
fn a_file_cut_off_anywhere_is_said_to_be_so() {
    let text = write_job(&sample());
    let whole = text.trim_end().len();
    for end in (0..text.len()).filter(|end| text.is_char_boundary(*end)) {
        let cut = read_job(&text.as_bytes()[..end]);
        match cut {
            Ok(job) => assert!(end >= whole && job == sample(), "only blanks were cut off"),
            Err(ReadError::Text(TextError::Empty)) => assert_eq!(end, 0),
            Err(ReadError::Text(TextError::NoFormat)) => assert!(end < 15, "{end}"),
            Err(ReadError::Text(TextError::Truncated { line, .. })) => {
                assert!(
                    line <= 1 + text[..end].matches('\n').count(),
                    "{end}: line {line}"
                );
            }
            other => panic!(
                "{end}: {other:?} after {:?}",
                &text[end.saturating_sub(40)..end]
            ),
        }
    }
}

#[test]
fn the_sheets_order_and_one_line_each_for_cells_and_places() {
    let text = write_job(&sample());
    let at = |piece: &str| {
        text.find(piece)
            .unwrap_or_else(|| panic!("{piece} in {text}"))
    };
    assert!(at("\"customer\"") < at("\"size_x\"") && at("\"size_x\"") < at("\"notes\""));
    assert!(at("\"mark\"") < at("\"size\"") && at("\"size\"") < at("\"depth\""));
    for line in [
        "    \"customer\": (\"Alder Finch Rotors\", mm),\n",
        "        \"size\": (\".031 +.003/-0\", inch),\n",
        "        (2, 0.3333333333333333, 1e-22, -0.0, 0.0, 0.0, -1.0),\n",
    ] {
        assert!(text.contains(line), "{line} in {text}");
    }
}

#[test]
fn names_in_files_are_each_somebodys_own() {
    let mut keys: Vec<&str> = Field::ALL.iter().map(|field| field.key()).collect();
    keys.sort_unstable();
    keys.dedup();
    assert_eq!(keys.len(), Field::ALL.len());
    let mut keys: Vec<&str> = Column::ALL.iter().map(|column| column.key()).collect();
    keys.sort_unstable();
    keys.dedup();
    assert_eq!(keys.len(), Column::ALL.len());
}

/// A slip's kind has got another line, or a paper's kind is new: both are a newer version's.
#[test]
fn slips_and_papers_of_a_newer_version_are_told() {
    let file = |slips: &str, issued: &str| {
        format!(
            "(format: 2, number: \"\", unit: mm, next_row: 0, next_slip: 9,\n slips: [{slips}],\n issued: [{issued}],\n)\n"
        )
    };
    let newer = "written by a newer version: this version would lose parts of it";
    for (slips, issued) in [
        (
            "(id: 0, kind: \"call\", lines: {\"heat\": (\"8\", mm)}),",
            "",
        ),
        (
            "(id: 0, kind: \"call\", lines: {\"mood\": (\"8\", mm)}),",
            "",
        ),
        ("(id: 0, kind: \"visit\"),", ""),
        ("(id: 0, kind: \"call\", color: 1),", ""),
        (
            "",
            "(number: \"1\", paper: \"flyer\", date: \"2026-11-25\", file: \"\", hash: \"\"),",
        ),
    ] {
        refused(file(slips, issued).as_bytes(), newer);
    }
    let call = "(id: 0, kind: \"call\", lines: {\"who\": (\"Robin\", mm)}),";
    assert!(read_job(file(call, "").as_bytes()).is_ok());
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
    let part = prop_oneof![-500.0..500.0, -1e-9..1e9, any::<f64>()];
    let vector = [part.clone(), part.clone(), part];
    let place = (0..9_u32, vector.clone(), vector).prop_map(|(number, point_mm, axis)| Place {
        number,
        point_mm,
        axis,
    });
    let places = (0..4_u32, proptest::collection::vec(place, 0..5)).prop_map(|(row, places)| {
        let row = quillbore_calc::RowId(row);
        Edit::SetPlaces { row, places }
    });
    let gone = (0..4_u32).prop_map(|row| Edit::DeleteRows {
        rows: vec![quillbore_calc::RowId(row)],
    });
    prop_oneof![
        4 => field,
        6 => cells,
        2 => any_overrule(),
        3 => places,
        1 => gone,
        1 => Just(Edit::SetUnit(Unit::Inch))
    ]
}

fn any_overrule() -> impl Strategy<Value = Edit> {
    let row = || (0..4_u32).prop_map(quillbore_calc::RowId);
    let figure = prop_oneof![
        row().prop_map(FigureKey::Gap),
        row().prop_map(FigureKey::Feed),
        row().prop_map(FigureKey::HoleMinutes),
        row().prop_map(FigureKey::Wear),
        any::<String>().prop_map(FigureKey::Electrodes),
        Just(FigureKey::MachineHours),
        Just(FigureKey::LaborHours),
        any::<u32>().prop_map(FigureKey::UnitPrice),
    ];
    let text = prop_oneof!["[0-9]{1,3}([.,][0-9]{1,2})?", any::<String>()];
    (figure, text, any::<String>()).prop_map(|(figure, text, reason)| Edit::Overrule {
        figure,
        text,
        reason,
        unit: Unit::Mm,
    })
}

proptest! {
    #[test]
    fn any_job_comes_back_as_it_was(
        number in any::<String>(),
        days in 0..40_000_i32,
        edits in proptest::collection::vec(any_edit(), 0..40),
    ) {
        let start = Job { number, opened: NaiveDate::from_num_days_from_ce_opt(720_000 + days), ..Job::default() };
        let job = edits.iter().fold(start, |job, edit| done(&job, edit));
        let text = write_job(&job);
        prop_assert_eq!(read_job(text.as_bytes()), Ok(job), "{}", text);
    }

    #[test]
    fn no_bytes_make_it_panic(bytes in proptest::collection::vec(any::<u8>(), 0..400)) {
        let _ = read_job(&bytes);
    }
}
