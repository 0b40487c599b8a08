//! The report of a table stays with the job: saved, opened, undone with its step, merged; papers and
//! the next order don't carry it.

#![expect(
    clippy::expect_used,
    reason = "helpers of the tests stand outside the test functions"
)]

use std::sync::Arc;

use quillbore_job::file::{hash, read_job, write_job};
use quillbore_job::history::{Doing, History};
use quillbore_job::merge::merge;
use quillbore_job::reorder::again;
use quillbore_job::report::{LineOutcome, MOST_REPORTS, MOST_TOLD, Report, ReportLine, Source};
use quillbore_job::words::reports;
use quillbore_job::{Edit, Issued, Job, Paper, RowsAt, Unit, apply};

fn line(number: u32, outcome: LineOutcome, says: &str) -> ReportLine {
    ReportLine {
        number,
        outcome,
        says: says.to_owned(),
    }
}

/// A report with a line of each kind, as the intake makes it.
fn whole_report(name: &str) -> Report {
    Report {
        from: Source::named(name),
        whole: vec!["The cells are parted by semicolons.".to_owned()],
        taken: 0,
        lines: vec![
            line(2, LineOutcome::Taken, "taken"),
            line(
                3,
                LineOutcome::Unread,
                "size \u{201c}about 1\u{201d}: \"why\"\nand more",
            ),
            line(
                4,
                LineOutcome::Taken,
                "taken as a further place of the row before",
            ),
            line(
                5,
                LineOutcome::InPart,
                "left out: \u{201c}finish Ra 1.6\u{201d}",
            ),
            line(
                6,
                LineOutcome::LeftOut,
                "left out: \u{201c}finish see view C\u{201d}",
            ),
            line(
                9,
                LineOutcome::Guessed,
                "the size 0.8 was left for its limits 0.78 and 0.82",
            ),
        ],
        outline: Vec::new(),
    }
}

fn edit(mark: &str, report: Report) -> Edit {
    Edit::SetRows {
        at: RowsAt::Append,
        cells: vec![vec![Some(mark.to_owned())]],
        places: Vec::new(),
        unit: Unit::Mm,
        report: Some(Arc::new(report)),
    }
}

fn with(job: &Job, mark: &str, name: &str) -> Job {
    let report = whole_report(name).in_short();
    apply(job, &edit(mark, report)).expect("an edit").0
}

#[test]
fn in_short_lines_taken_as_they_stand_are_counted_and_all_others_told() {
    let whole = whole_report("holes.csv");
    let short = whole.in_short();
    assert_eq!(short.taken, 2);
    let numbers: Vec<u32> = short.lines.iter().map(|line| line.number).collect();
    assert_eq!(numbers, [3, 5, 6, 9]);
    assert_eq!((whole.all(), short.all()), (6, 6));
    for outcome in LineOutcome::ALL {
        assert_eq!(whole.count(*outcome), short.count(*outcome), "{outcome:?}");
    }
    assert_eq!(short.in_short(), short);
}

#[test]
fn a_report_is_said_in_one_line_and_told_line_by_line() {
    let said = |taken, outcomes: &[LineOutcome]| {
        reports::summary(&Report {
            from: Source::Pasted,
            whole: Vec::new(),
            taken,
            lines: outcomes
                .iter()
                .map(|outcome| line(1, *outcome, ""))
                .collect(),
            outline: Vec::new(),
        })
    };
    use LineOutcome::{Guessed, InPart, LeftOut, Unread};
    assert_eq!(
        said(38, &[Guessed, Unread]),
        "pasted: 40 lines, 38 as they stand, 2 to look at"
    );
    assert_eq!(said(40, &[]), "pasted: 40 lines, all as they stand");
    assert_eq!(said(1, &[]), "pasted: 1 line, as it stands");
    assert_eq!(
        said(1, &[InPart, InPart, LeftOut, Unread]),
        "pasted: 5 lines, 1 as it stands, 2 in part, 1 left out, 1 to look at"
    );
    assert_eq!(
        said(0, &[Guessed]),
        "pasted: 1 line, 0 as they stand, 1 to look at"
    );
    let told: Vec<String> = whole_report("holes.csv")
        .lines
        .iter()
        .map(reports::line)
        .collect();
    assert_eq!(
        told,
        [
            "line 2: taken",
            "line 3: unread: size \u{201c}about 1\u{201d}: \"why\"\nand more",
            "line 4: taken: as a further place of the row before",
            "line 5: taken: left out: \u{201c}finish Ra 1.6\u{201d}",
            "line 6: left out: \u{201c}finish see view C\u{201d}",
            "line 9: look: the size 0.8 was left for its limits 0.78 and 0.82",
        ]
    );
    let long = Report {
        from: Source::named(&"h".repeat(300)),
        ..whole_report("")
    };
    assert!(reports::summary(&long).chars().count() < 130);
}

#[test]
fn it_is_saved_and_opened_as_it_is() {
    let pasted = Report {
        from: Source::Pasted,
        ..whole_report("")
    };
    let job = with(&Job::default(), "A", "holes \"7\".csv");
    // One that tells lines that were taken comes back as well.
    let job = apply(&job, &edit("B", pasted)).expect("an edit").0;
    assert_eq!(job.reports.len(), 2);
    let text = write_job(&job);
    assert_eq!(read_job(text.as_bytes()).as_ref(), Ok(&job));
    // One line of the table is one line of the file.
    let line = "(9, \"guessed\", \"the size 0.8 was left for its limits 0.78 and 0.82\"),";
    assert!(text.lines().any(|told| told.trim() == line), "{text}");
}

#[test]
fn undo_takes_it_away_with_its_step_and_redo_brings_it_again() {
    let mut history: History = History::new(Job::default(), true);
    let report = whole_report("holes.csv").in_short();
    let doing = Doing {
        gesture: None,
        before: (),
        after: (),
    };
    history
        .do_edit(&edit("A", report.clone()), doing)
        .expect("an edit");
    let kept = [Arc::new(report)];
    assert_eq!(history.now().reports, kept);
    history.undo().expect("a step");
    assert_eq!(history.now().reports, []);
    assert_eq!(history.now().rows, []);
    history.redo().expect("a step");
    assert_eq!(history.now().reports, kept);
    assert_eq!(history.now().rows.len(), 1);
    // A table of which nothing was taken is a step as well: somebody left it out.
    let nothing = Edit::SetRows {
        at: RowsAt::Append,
        cells: Vec::new(),
        places: Vec::new(),
        unit: Unit::Mm,
        report: Some(Arc::new(whole_report("other.csv"))),
    };
    let doing = Doing {
        gesture: None,
        before: (),
        after: (),
    };
    let change = history.do_edit(&nothing, doing).expect("an edit");
    assert!(!change.is_nothing());
    assert_eq!(history.now().reports.len(), 2);
}

#[test]
fn two_desks_put_together_keep_the_reports_of_both() {
    let base = with(&Job::default(), "A", "first.csv");
    let ours = with(&base, "B", "ours.csv");
    let theirs = with(&base, "C", "theirs.csv");
    let merged = merge(&base, &ours, &theirs).unwrap();
    assert_eq!(merged.clashes, []);
    let names: Vec<&Source> = merged.job.reports.iter().map(|kept| &kept.from).collect();
    let name = |name: &str| Source::named(name);
    assert_eq!(
        names,
        [&name("first.csv"), &name("theirs.csv"), &name("ours.csv")]
    );
    assert_eq!(merged.job.rows.len(), 3);
}

#[test]
fn neither_a_paper_nor_the_next_order_carries_it() {
    let job = with(&Job::default(), "A", "holes.csv");
    assert_eq!(job.inputs().reports, []);
    assert_eq!(job.inputs().rows, job.rows);
    let next = again(&job, chrono::NaiveDate::default());
    assert_eq!(next.reports, []);
    assert_eq!(next.rows, job.rows);
}

/// A job with a quotation that rests on `inputs`.
fn quoted_on(inputs: Job) -> Job {
    let issued = Issued {
        number: "26-0107-Q1".to_owned(),
        paper: Paper::Quotation,
        date: chrono::NaiveDate::default(),
        valid_until: None,
        file: "26-0107-Q1.pdf".to_owned(),
        kept_by: None,
        hash: hash(b"a quotation"),
        lines: Vec::new(),
        rests_on: Vec::new(),
        pages: Vec::new(),
        currency: None,
        replaces: Vec::new(),
        inputs: Some(Arc::new(inputs)),
        seal: None,
    };
    Job {
        issued: vec![Arc::new(issued)],
        ..Job::default()
    }
}

#[test]
fn a_paper_whose_inputs_carry_a_report_is_none_of_ours() {
    let job = with(&Job::default(), "A", "holes.csv");
    let text = write_job(&quoted_on(job.inputs()));
    assert!(read_job(text.as_bytes()).is_ok());
    refused(
        &write_job(&quoted_on(job)),
        "holds slips, papers or reports",
    );
}

#[track_caller]
fn refused(text: &str, says: &str) {
    let error = read_job(text.as_bytes()).expect_err("no job");
    let sentence = error.to_string();
    assert!(
        sentence.contains(says) && sentence.len() < 300,
        "{sentence}"
    );
    assert!(error.hint().ends_with('.'));
}

#[test]
fn a_file_with_more_than_a_job_keeps_is_told() {
    let text = write_job(&with(&Job::default(), "A", "holes.csv"));
    let put = |from: &str, to: &str| {
        assert!(text.contains(from), "{from} in {text}");
        text.replacen(from, to, 1)
    };
    let long = "z".repeat(100_001);
    refused(
        &put("the size 0.8 was", &long),
        "a text of a report is longer than 100000 characters",
    );
    refused(
        &put("holes.csv", &long),
        "a text of a report is longer than 100000 characters",
    );
    let whole = "\"w\",".repeat(MOST_TOLD);
    refused(
        &put("\"The cells are", &format!("{whole}\"The cells are")),
        "a report has more than 100000 lines",
    );
    refused(
        &put("(9, \"guessed\"", "(9, \"hoped\""),
        "written by a newer version",
    );
    refused(&put("(9, \"guessed\"", "(-9, \"guessed\""), "can't be read");
    refused(&put("taken: 2", "taken: 2, hoped: 1"), "hoped");
    let start = text.find("reports: [").expect("reports") + "reports: [".len();
    let one = "(from: pasted),";
    let with_reports = |count: usize| {
        let (before, after) = text.split_at(start);
        format!("{before}{}{after}", one.repeat(count))
    };
    // With the one that is there already.
    let most = read_job(with_reports(MOST_REPORTS - 1).as_bytes()).expect("a job");
    assert_eq!(most.reports.len(), MOST_REPORTS);
    refused(&with_reports(MOST_REPORTS), "keeps 10000 at most");
}
