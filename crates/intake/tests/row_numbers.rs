//! The marks of holes beside a running number of the lines.

#![expect(
    clippy::expect_used,
    reason = "helpers of the tests stand outside the test functions"
)]

use quillbore_intake::{Foreign, Holds, How, Meaning, Taken, Why, words};
use quillbore_job::report::LineOutcome;
use quillbore_job::{Column, Job, RowsAt, Unit, apply};

const MARK: Holds = Holds::A(Meaning::Ours(Column::Mark));

fn file(text: &str) -> Foreign {
    Foreign::of_file(text.as_bytes(), "holes.csv").expect("a table")
}

fn appended(table: &Foreign) -> (Job, Taken) {
    let taken = table.take(&Job::default(), RowsAt::Append, Unit::Mm);
    let taken = taken.expect("understood");
    (
        apply(&Job::default(), &taken.edit).expect("an edit").0,
        taken,
    )
}

const TWO: &str = "Pos.;Bohrung;Anz.;\u{d8} (mm);Tiefe\n\
                   1;A;36;0,80;14\n2;B;12;0,50;8\n3;C;4;1,20;22\n4;D;24;0,30;6\n5;E;2;1,00;40\n";

#[test]
fn the_running_number_is_left_out_and_that_is_told_once() {
    let table = file(TWO);
    let columns = table.columns();
    assert_eq!(
        (columns[0].holds, columns[0].how),
        (Some(Holds::LeftOut), How::Guess(Why::RowNumber))
    );
    let (job, taken) = appended(&table);
    let marks: Vec<&str> = job.rows.iter().map(|row| row.mark.text()).collect();
    assert_eq!(marks, ["A", "B", "C", "D", "E"]);
    for told in [
        "Left out, a running number beside the marks: column 1 \u{201c}Pos.\u{201d} (1; 2; 3; 4; \u{2026}).",
        "Taken as mark, guessed by its head and values: column 2 \u{201c}Bohrung\u{201d} (A; B; C; D; \u{2026}).",
    ] {
        let whole = &taken.report.whole;
        assert!(whole.iter().any(|said| said == told), "{told} in {whole:?}");
    }
    assert_eq!(taken.report.count(LineOutcome::Taken), 5);
}

#[test]
fn somebody_can_say_that_the_running_number_is_the_mark() {
    let mut table = file(TWO);
    table.say(0, MARK).expect("a guess gives way");
    assert_eq!(table.not_understood(), (1, 5));
    table.say(1, Holds::LeftOut).expect("always possible");
    let (job, _) = appended(&table);
    assert_eq!(job.rows[2].mark.text(), "3");
}

#[test]
fn a_number_is_told_where_its_line_has_no_mark() {
    let (job, taken) = appended(&file(
        "Pos.;Bohrung;Anz.;\u{d8} (mm)\n1;A;4;0,8\n2;B;4;0,8\n3;C;4;0,8\n4;D;4;0,8\n5;E;4;0,8\n\
         6;F;4;0,8\n7;G;4;0,8\n8;H;4;0,8\n9;K;4;0,8\n10;;4;0,9\n11;L;4;0,8\n12;M;4;0,8\n",
    ));
    assert_eq!((job.rows.len(), job.rows[9].mark.text()), (12, ""));
    let told = &taken.report.lines[9];
    assert_eq!(
        (told.outcome, told.says.as_str()),
        (LineOutcome::InPart, "left out: \u{201c}Pos. 10\u{201d}")
    );
    assert_eq!(taken.report.count(LineOutcome::Taken), 11);
}

/// What of two columns is the mark. Common practice, no source.
#[test]
fn labels_of_holes_win_over_running_numbers_and_nothing_else() {
    for (text, marks) in [
        ("Pos.;Bohrung;Anz.\n1;A;4\n2;B;4\n", Some(1)),
        ("Bohrung;Pos.;Anz.\nA;1;4\nB;2;4\n", Some(0)),
        ("Item No.;Hole;Qty\n1;H1;4\n2;H2;4\n", Some(1)),
        ("Pos. / Item;Bohrung / Hole;Anz.\n10;A;4\n20;B;4\n", Some(1)),
        ("No.;Feature;Qty\n1;A;4\n2;B;4\n", Some(1)),
        ("#;Trou;Qt\u{e9}\n1;A;4\n2;B;4\n", Some(1)),
        // No running number, labels that repeat, numbers under both: the first, as before.
        ("Pos.;Bohrung;Anz.\n3;A;4\n7;B;4\n", Some(0)),
        ("Pos.;Bohrung;Anz.\n1;D;4\n2;D;4\n", Some(0)),
        ("Pos.;Bohrung;Anz.\n1;1;4\n2;2;4\n", Some(0)),
        ("Pos.;Anz.\n1;4\n2;4\n", Some(0)),
    ] {
        let columns = file(text).columns();
        let found = columns.iter().position(|column| column.holds == Some(MARK));
        assert_eq!(found, marks, "{text}");
    }
    // Without a count, numbers under a head that can mean one are asked about.
    let table = file("No.;Hole;Dia\n1;A;0.8\n2;B;0.8\n3;C;0.8\n");
    assert_eq!(table.columns()[0].how, How::NotUnderstood);
    assert_eq!(
        words::how(How::Guess(Why::RowNumber)),
        "a running number beside the marks"
    );
}

/// "Bore" is a size or a mark, by what stands under it.
#[test]
fn letters_under_bore_are_marks_and_numbers_are_sizes() {
    let (job, _) = appended(&file(
        "No.\tBore\tDia\tDepth\tQty\n1\tA\t0.8\t12\t4\n2\tB\t1.2\t10\t2\n",
    ));
    let cells: Vec<[&str; 2]> = (job.rows.iter())
        .map(|row| [row.mark.text(), row.size.text()])
        .collect();
    assert_eq!(cells, [["A", "0.8"], ["B", "1.2"]]);
    let (job, _) = appended(&file("Bore\tDepth\tQty\n0.8\t12\t4\n1.2\t10\t2\n"));
    let cells: Vec<[&str; 2]> = (job.rows.iter())
        .map(|row| [row.mark.text(), row.size.text()])
        .collect();
    assert_eq!(cells, [["", "0.8"], ["", "1.2"]]);
}
