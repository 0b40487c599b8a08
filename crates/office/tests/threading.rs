//! The threading list: a line for each hole that a wire goes into, nothing dropped, nothing overwritten.

#![expect(
    clippy::expect_used,
    reason = "helpers of the tests stand outside the test functions"
)]

use std::fs;

use quillbore_job::file::read_job;
use quillbore_job::results::results_now;
use quillbore_job::{Edit, Job, Shop, Unit, apply};
use quillbore_office::failure::Failure;
use quillbore_office::print::Sitting;
use quillbore_office::threading::{Threading, list};

fn hard(name: &str) -> Job {
    let path = format!(
        "{}/../../tests/hard-jobs/{name}.ron",
        env!("CARGO_MANIFEST_DIR")
    );
    read_job(&fs::read(path).expect("a job")).expect("a job")
}

fn listed(job: &Job) -> Result<Threading, Failure> {
    let shop = Shop::embedded().expect("the shop").for_job(job);
    let results = results_now(job, &shop);
    list(Sitting {
        job,
        results: &results,
    })
}

fn lines(threading: &Threading) -> Vec<Vec<String>> {
    let text = String::from_utf8(threading.printed.bytes.clone()).expect("text");
    let lines = text.lines();
    lines
        .map(|line| line.split(',').map(str::to_owned).collect())
        .collect()
}

#[test]
fn every_hole_with_a_wire_has_a_line() {
    let threading = listed(&hard("start-holes")).expect("a list");
    let lines = lines(&threading);
    assert_eq!(
        lines[0],
        [
            "number",
            "mark",
            "x (mm)",
            "y (mm)",
            "smallest exit (mm)",
            "expected exit (mm)",
            "wire (mm)"
        ]
    );
    let of = |line: &[String]| [0, 1, 2, 3, 6].map(|at| line[at].clone());
    let told: Vec<[String; 5]> = lines[1..].iter().map(|line| of(line)).collect();
    let expected = [
        ["1", "A", "20.0000", "20.0000", "0.2500"],
        ["2", "A", "40.0000", "20.0000", "0.2500"],
        ["3", "A", "60.0000", "20.0000", "0.2500"],
        ["4", "A", "80.0000", "20.0000", "0.2500"],
        ["5", "B", "30.5000", "60.2500", "0.1000"],
        ["6", "B", "90.5000", "60.2500", "0.1000"],
        ["", "C", "", "", "0.2500"],
        ["", "C", "", "", "0.2500"],
    ];
    assert_eq!(told, expected.map(|line| line.map(str::to_owned)));
    for line in &lines[1..] {
        let [smallest, expected]: [f64; 2] = [4, 5].map(|at| line[at].parse().expect("a size"));
        assert!(smallest > 0.1 && smallest < expected, "{line:?}");
    }
    assert_eq!(
        threading.told,
        ["C: its 2 holes have no locations, their lines in the threading list have no x and y."]
    );
}

#[test]
fn inches_are_inches() {
    let job = hard("start-holes");
    let (inch, _) = apply(&job, &Edit::SetUnit(Unit::Inch)).expect("an edit");
    let lines = lines(&listed(&inch).expect("a list"));
    assert_eq!(lines[0][2], "x (in)");
    // 30.5 mm and 60.25 mm, by hand.
    assert_eq!(lines[5][2..4], ["1.20079", "2.37205"]);
}

#[test]
fn a_job_without_wires_has_no_list() {
    let refused = listed(&hard("surfaces")).expect_err("no wire");
    assert!(
        refused
            .to_string()
            .contains("no hole that a wire goes into")
    );
}
