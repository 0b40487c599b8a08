//! Jobs that released versions have saved: they must open for ever.

#![expect(clippy::unwrap_used, reason = "a helper that fails is a failed test")]

use std::path::PathBuf;

use quillbore_calc::Length;
use quillbore_calc::RowId;
use quillbore_calc::input::{Ends, HoleEnd, Surface};
use quillbore_job::file::{FORMAT, read_job, write_job};
use quillbore_job::slip::{kind, line};
use quillbore_job::{Column, Entry, Field, Job, Paper, SlipKind, Unit, Value};

fn folder(format: &str) -> PathBuf {
    let tests = PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("../../tests/old-jobs");
    tests.join(format)
}

fn open(format: &str, name: &str) -> Job {
    read_job(&std::fs::read(folder(format).join(name)).unwrap()).unwrap()
}

/// Cells whose text is kept without a value.
fn unread(job: &Job) -> Vec<&str> {
    let fields = job.fields.values().filter(|entry| entry.why().is_some());
    let cells = job.rows.iter().flat_map(|row| {
        let columns = Column::ALL.iter().map(|column| row.cell(*column));
        columns.filter(|cell| cell.why.is_some())
    });
    let overrules = job.overrules.iter().map(|overrule| &overrule.value);
    fields
        .map(Entry::text)
        .chain(cells.map(|cell| cell.text))
        .chain(
            overrules
                .filter(|value| value.why().is_some())
                .map(Entry::text),
        )
        .collect()
}

/// What must be found in each file; a file that nobody expects fails too.
#[test]
fn every_old_job_opens_with_all_that_is_in_it() {
    // File, number, fields, rows, next row, places, overrules, unread texts.
    type Expected = (
        &'static str,
        &'static str,
        usize,
        usize,
        u32,
        usize,
        usize,
        &'static [&'static str],
    );
    let expected: [Expected; 4] = [
        ("empty.ron", "", 0, 0, 0, 0, 0, &[]),
        ("every_field.ron", "26-0107", 51, 2, 7, 2, 8, &[]),
        (
            "half_filled.ron",
            "",
            3,
            2,
            3,
            0,
            0,
            &["twenty or so", "soon", "about an inch"],
        ),
        ("whole_life.ron", "26-0107", 5, 2, 2, 0, 0, &[]),
    ];
    let mut found: Vec<String> = std::fs::read_dir(folder("format-1"))
        .unwrap()
        .map(|entry| entry.unwrap().file_name().into_string().unwrap())
        .collect();
    found.sort();
    let names: Vec<&str> = expected.iter().map(|row| row.0).collect();
    assert_eq!(found, names);
    for (name, number, fields, rows, next_row, places, overrules, not_read) in expected {
        let job = open("format-1", name);
        let count = job.rows.iter().map(|row| row.places.len()).sum::<usize>();
        assert_eq!(job.number, number, "{name}");
        assert_eq!(job.fields.len(), fields, "{name}");
        assert_eq!((job.rows.len(), job.next_row), (rows, next_row), "{name}");
        assert_eq!((count, job.overrules.len()), (places, overrules), "{name}");
        assert_eq!(unread(&job), not_read, "{name}");
    }
}

/// An old file loses nothing when it is saved in the newest format: only its number changes, and
/// that of the inputs that its issued papers rest on.
#[test]
fn an_old_job_is_saved_with_all_that_was_in_it() {
    for name in [
        "empty.ron",
        "every_field.ron",
        "half_filled.ron",
        "whole_life.ron",
    ] {
        let text = std::fs::read_to_string(folder("format-1").join(name)).unwrap();
        let again = write_job(&open("format-1", name));
        let raised = text.replace("format: 1,", &format!("format: {FORMAT},"));
        for (written, stood) in again.lines().zip(raised.lines()) {
            assert_eq!(written, stood, "{name}");
        }
        assert_eq!(again.len(), raised.len(), "{name}");
    }
}

#[test]
fn values_of_format_1_mean_what_they_meant() {
    let job = open("format-1", "every_field.ron");
    assert_eq!(job.fields.len(), 51);
    assert_eq!(
        (job.unit, job.opened),
        (Unit::Mm, "2026-11-25".parse().ok())
    );
    let mm = |field| match job.field(field).value() {
        Some(Value::Length(length)) => length.mm(),
        other => panic!("{field:?}: {other:?}"),
    };
    assert_eq!(mm(Field::SizeX), 410.0);
    assert_eq!(mm(Field::SizeY), 406.4);
    assert_eq!(mm(Field::SizeZ), 60.5);
    let [a, b] = [RowId(2), RowId(6)].map(|id| job.row(id).unwrap());
    // The drawing gives 60 degrees from the surface.
    assert_eq!(a.angle.value().unwrap().from_normal.deg(), 30.0);
    assert_eq!(a.end.value(), Some(&HoleEnd::Into));
    assert_eq!(a.ends.value(), Some(&Ends::One));
    let surface = Surface::Cylinder {
        radius_mm: 205.0,
        offset_mm: 3.0,
    };
    assert_eq!(a.surface.value(), Some(&surface));
    assert_eq!(a.layers.value().unwrap().len(), 2);
    assert_eq!(a.places[0].point_mm, [205.0, 0.0, 30.25]);
    assert_eq!(b.depth.value().unwrap().aim.unwrap().mm(), 12.7);
    let size = b.size.value().unwrap();
    assert!((size.lower.mm() - 0.7874).abs() < 1e-12 && (size.upper.mm() - 0.8636).abs() < 1e-12);
    let values: Vec<f64> = job
        .overrules
        .iter()
        .filter_map(|overrule| overrule.value.value().copied())
        .collect();
    assert_eq!(values, [0.04, 18.0, 1.5, 8.0, 9.0, 41.0, 15.0, 48.2]);
}

#[test]
fn slips_and_papers_of_format_1_mean_what_they_meant() {
    let job = open("format-1", "whole_life.ron");
    let kinds: Vec<SlipKind> = job.slips.iter().map(|slip| slip.kind).collect();
    assert_eq!(
        kinds,
        [
            SlipKind::Order,
            SlipKind::Received,
            SlipKind::Run,
            SlipKind::Nonconformance,
            SlipKind::Delivery
        ]
    );
    let run = job.slips_of::<kind::Run>().next().unwrap();
    assert_eq!(run.get(line::Holes), Some(48));
    assert_eq!(run.get(line::TubeBefore).map(Length::mm), Some(400.0));
    assert_eq!(run.get(line::FloorMinutes), Some(240.0));
    let numbers: Vec<&str> = job
        .issued
        .iter()
        .map(|paper| paper.number.as_str())
        .collect();
    assert_eq!(
        numbers,
        [
            "26-0107-Q1",
            "26-0107-C1",
            "26-0107-R1",
            "26-0107-T1",
            "26-0107-P1",
            "26-0107-F1",
            "26-0107-B1"
        ]
    );
    let quotation = &job.issued[0];
    assert_eq!(quotation.paper, Paper::Quotation);
    assert_eq!(quotation.lines[0].each, "76.07".parse().ok());
    assert_eq!(quotation.rests_on[0], ("labor per hour".to_owned(), 50.0));
    assert!(quotation.pages[0].contains("Stainless 316"));
    let inputs = quotation.inputs.as_ref().unwrap();
    assert_eq!(inputs.text(Field::Part), "GP-12");
    assert!(inputs.issued.is_empty() && inputs.slips.is_empty());
}
