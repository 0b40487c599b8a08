//! Hole tables read from the command line.

use std::fs;

use crate::program::{path, quillbore, said};

#[test]
fn a_column_of_a_hole_table_that_is_not_understood_must_be_said() {
    let folder = tempfile::tempdir().expect("a folder");
    let table = folder.path().join("holes.csv");
    let text =
        "hole;qty;dia;finish;depth\nA;36;0,80 +-0,05;Ra 1.6;14\nB;4;1,0 +-0,05;Ra 3.2;thru\n";
    fs::write(&table, text).expect("written");
    let job = folder.path().join("26-0300.ron");
    let words = [
        "intake",
        "--holes",
        path(&table),
        "--material",
        "718",
        "--quantity",
        "25",
        "--thickness",
        "10",
        "--out",
        path(&job),
    ];
    let refused = quillbore(&words);
    assert_eq!(refused.status.code(), Some(2), "{}", said(&refused));
    assert!(
        said(&refused)
            .contains("Column 4 \u{201c}finish\u{201d} (Ra 1.6; Ra 3.2) is not understood"),
        "{}",
        said(&refused)
    );
    assert!(!job.exists(), "nothing was written");
    for (column, says) in [
        ("finish", "does not say what the column holds"),
        ("finish=color", "A column can't hold \u{201c}color\u{201d}"),
        (
            "gloss=note",
            "The table has no column \u{201c}gloss\u{201d}",
        ),
        (
            "finish=depth",
            "Two columns can't both be \u{201c}depth\u{201d}",
        ),
    ] {
        let refused = quillbore(&[words.as_slice(), &["--column", column]].concat());
        assert_eq!(refused.status.code(), Some(2), "{column}");
        assert!(
            said(&refused).contains(says),
            "{column}: {}",
            said(&refused)
        );
        assert!(!job.exists());
    }
    let done = quillbore(&[words.as_slice(), &["--column", "finish=leave it out"]].concat());
    assert!(matches!(done.status.code(), Some(0 | 1)), "{}", said(&done));
    let report = String::from_utf8_lossy(&done.stdout).into_owned();
    assert!(
        report.contains("Left out: column 4 \u{201c}finish\u{201d} (Ra 1.6; Ra 3.2).")
            && report.contains("line 2: taken: left out: \u{201c}finish Ra 1.6\u{201d}")
            && report.contains("Through: 10.00 mm deep, by the wall's thickness."),
        "{report}"
    );
}

#[test]
fn a_hole_table_becomes_a_job_row_by_row() {
    let folder = tempfile::tempdir().expect("a folder");
    let table = folder.path().join("holes.csv");
    fs::write(
        &table,
        "hole;qty;dia;depth\nA;36;0,80 +-0,05;14\nB;4;about 1;10\n",
    )
    .expect("written");
    let job = folder.path().join("26-0300.ron");
    let words = [
        "intake",
        "--holes",
        path(&table),
        "--material",
        "Nickel alloy 718",
        "--quantity",
        "25",
        "--out",
        path(&job),
    ];
    let output = quillbore(&words);
    assert!(
        matches!(output.status.code(), Some(0 | 1)),
        "{}",
        said(&output)
    );
    let report = String::from_utf8_lossy(&output.stdout).into_owned();
    assert!(
        report.contains("about 1"),
        "what can't be read is told: {report}"
    );
    let text = fs::read_to_string(&job).expect("the job");
    assert!(text.contains("about 1") && text.contains("0,80 +-0,05"));
    let kept = quillbore_job::file::read_job(text.as_bytes()).expect("a job");
    let [kept] = kept.reports.as_slice() else {
        panic!("one report: {:?}", kept.reports);
    };
    assert_eq!(
        quillbore_job::words::reports::summary(kept),
        "holes.csv, 54 bytes: 2 lines, 1 as it stands, 1 to look at"
    );
    let told = quillbore_job::words::reports::line(&kept.lines[0]);
    assert!(
        report.lines().any(|line| line == told),
        "{told} in {report}"
    );
    assert!(
        kept.whole.iter().all(|said| report.contains(said)) && report.contains("line 2: taken\n"),
        "{:?} in {report}",
        kept.whole
    );
    let mut other = words;
    other[6] = "26";
    let again = quillbore(&other);
    assert_eq!(again.status.code(), Some(2), "a job is never overwritten");
    assert_eq!(fs::read_to_string(&job).expect("the job"), text);
}

/// A quote without its other half took every line up to the next one with it.
#[test]
fn lines_in_are_rows_and_lines_told_whatever_quotes_stand_in_them() {
    let folder = tempfile::tempdir().expect("a folder");
    let table = folder.path().join("holes.csv");
    let mut text = "hole,qty,dia,depth,note\n".to_owned();
    for row in 0..40 {
        let note = ["\"", "\"as above", "1/32\"", "", "\"say \"\"thru\"\"\""][row % 5];
        text.push_str(&format!("H{row},2,0.8,12,{note}\n"));
    }
    fs::write(&table, text).expect("written");
    let job = folder.path().join("26-0300.ron");
    let output = quillbore(&[
        "intake",
        "--holes",
        path(&table),
        "--material",
        "718",
        "--quantity",
        "25",
        "--out",
        path(&job),
    ]);
    let told = String::from_utf8_lossy(&output.stdout).into_owned();
    assert!(told.contains("40 lines became 40 rows."), "{told}");
    let kept = fs::read(&job).expect("the job");
    let kept = quillbore_job::file::read_job(&kept).expect("a job");
    let notes: Vec<&str> = kept.rows.iter().map(|row| row.note.text()).collect();
    assert_eq!(
        notes[..5],
        ["\"", "\"as above", "1/32\"", "", "say \"thru\""]
    );
    assert_eq!(kept.rows.len(), 40);
}
