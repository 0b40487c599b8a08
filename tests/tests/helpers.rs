//! The helpers put text where they say.

use quillbore_job::{Column, Field, Job, Unit};
use quillbore_tests::{set_cell, set_field, set_holes};

#[test]
fn cells_by_mark() {
    let job = set_cell(&Job::default(), "A", Column::Size, "0.8 +-0.02").unwrap();
    let job = set_cell(&job, "B", Column::Depth, "14").unwrap();
    let job = set_cell(&job, "A", Column::Depth, "12").unwrap();
    assert_eq!(job.rows.len(), 2);
    assert_eq!(
        job.rows[0].depth.value().unwrap().nominal.unwrap().mm(),
        12.0
    );
    assert_eq!(job.rows[1].mark.text(), "B");
}

#[test]
fn fields_and_tables() {
    let job = set_field(&Job::default(), Field::Quantity, "25").unwrap();
    let job = set_holes(
        &job,
        Unit::Inch,
        "A | 36 | .031 +.003/-0 | .55 | through\nB | 4 | #60",
    )
    .unwrap();
    assert_eq!(job.text(Field::Quantity), "25");
    assert_eq!(
        job.rows[0].depth.value().unwrap().nominal.unwrap().mm(),
        13.97
    );
    assert_eq!(job.rows[1].size.value().unwrap().upper.mm(), 1.016);
}
