//! A drawing in PDF by the command `intake`: listed, and taken once somebody chooses.

#![expect(clippy::expect_used, reason = "a helper that fails is a failed test")]

use std::ffi::OsString;
use std::path::Path;

use chrono::NaiveDate;
use quillbore_job::{Column, file::read_job};
use quillbore_office::commands::{read, run};

/// What the command writes and tells, and how it fails.
fn intake(folder: &Path, drawing: &str, more: &[&str]) -> Result<String, String> {
    let drawing = format!(
        "{}/../../tests/pdf-corpus/{drawing}.pdf",
        env!("CARGO_MANIFEST_DIR")
    );
    let job = folder.join("26-0300.ron");
    let words = [
        "intake",
        "--holes",
        &drawing,
        "--material",
        "718",
        "--quantity",
        "5",
        "--thickness",
        "10 mm",
    ];
    let mut words: Vec<OsString> = words.iter().chain(more).map(OsString::from).collect();
    words.extend(["--out".into(), job.into_os_string()]);
    let today = NaiveDate::from_ymd_opt(2026, 11, 29).expect("a day");
    let (mut out, mut told) = (Vec::new(), Vec::new());
    let asked = read(&words, today).map_err(|failure| failure.to_string())?;
    run(&asked, &mut out, &mut told).map_err(|failure| failure.to_string())?;
    Ok(String::from_utf8_lossy(&out).into_owned())
}

#[test]
fn callouts_are_listed_and_those_that_are_chosen_taken() {
    let folder = tempfile::tempdir().expect("a folder");
    let at = folder.path();
    let job = at.join("26-0300.ron");
    let listed = intake(at, "lab-inch", &[]).expect("listed");
    let lines: Vec<&str> = listed.lines().collect();
    assert_eq!(lines.len(), 7, "{listed}");
    assert_eq!(lines[0], "1: 12X .0315 THRU, page 1, upper left");
    assert_eq!(
        lines[6],
        "Nothing was taken: choose with --callouts \"1,3,5-9\" or --callouts all."
    );
    assert!(!job.exists(), "nothing was written");

    let taken = intake(at, "lab-inch", &["--callouts", "1,3-3,5"]).expect("taken");
    assert!(taken.contains("Left out: "), "{taken}");
    assert!(taken.contains("DIMENSIONS ARE IN INCHES"), "{taken}");
    assert!(taken.contains("3 rows."), "{taken}");
    let read = read_job(&std::fs::read(&job).expect("a job")).expect("a job");
    let sizes: Vec<&str> = read
        .rows
        .iter()
        .map(|row| row.cell(Column::Size).text)
        .collect();
    assert_eq!(sizes, [".0315", ".020 +.001/-.000 DIA", "#60"]);
}

#[test]
fn what_was_asked_amiss_is_told() {
    let folder = tempfile::tempdir().expect("a folder");
    let at = folder.path();
    for (drawing, more, told) in [
        (
            "lab-inch",
            &["--callouts", "7"][..],
            "There is no callout 7: the PDF has 6 callouts",
        ),
        (
            "lab-inch",
            &["--callouts", "1-99999999999"],
            "There is no callout 7",
        ),
        (
            "lab-inch",
            &["--callouts", "3-1"],
            "\u{201c}3-1\u{201d} chooses no callouts",
        ),
        ("lab-inch", &["--callouts", "0"], "chooses no callouts"),
        (
            "lab-inch",
            &["--sizes", "0.5"],
            "A drawing in PDF has no sheets, columns and circles",
        ),
        (
            "lab-unsaid",
            &["--callouts", "all"],
            "No text of the PDF says in which unit",
        ),
        (
            "lab-both",
            &["--callouts", "all"],
            "The texts of the PDF don't agree on the unit",
        ),
        ("lab-locked", &[], "The PDF is locked with a password"),
        ("scan-alone", &[], "Page 1 is a picture without letters"),
        ("plot-strokes", &[], "Page 1 has its letters drawn as lines"),
    ] {
        let failed = intake(at, drawing, more).expect_err(drawing);
        assert!(failed.contains(told), "{drawing}: {failed}");
        assert!(!at.join("26-0300.ron").exists());
    }
    assert!(intake(at, "lab-unsaid", &["--callouts", "all", "--unit", "mm"]).is_ok());
}

#[test]
fn what_became_of_a_file_is_told_as_json() {
    let folder = tempfile::tempdir().expect("a folder");
    let said = intake(folder.path(), "lab-inch", &["--callouts", "1", "--json"]);
    let report: serde_json::Value = serde_json::from_str(&said.expect("taken")).expect("JSON");
    let file = &report["file"];
    assert_eq!(file["name"], "lab-inch.pdf");
    let drawing = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../tests/pdf-corpus/lab-inch.pdf");
    let bytes = std::fs::read(drawing).expect("the drawing");
    assert_eq!(file["bytes"], bytes.len());
    let hash = quillbore_job::file::hash(&bytes).to_string();
    assert_eq!(file["sha256"], hash.as_str());
    assert_eq!(report["rows"], 1);
    assert!(report["lines"].as_array().is_some_and(Vec::is_empty));
    let whole = report["whole"].as_array().expect("sentences");
    assert!(whole.iter().any(|line| {
        line.as_str()
            .is_some_and(|line| line.starts_with("Left out: "))
    }));
    assert!(
        report["job"]
            .as_str()
            .is_some_and(|job| job.ends_with("26-0300.ron"))
    );
    assert!(
        report["notes"]
            .as_array()
            .is_some_and(|notes| !notes.is_empty())
    );
}
