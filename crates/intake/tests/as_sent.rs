//! Tables as purchasing departments send them: what must not be misread, and what must be told.
#![expect(
    clippy::expect_used,
    reason = "helpers of tests stop the test as tests do"
)]

mod told;

use quillbore_intake::{Foreign, IntakeError, Taken};
use quillbore_job::report::LineOutcome;
use quillbore_job::{Column, Job, RowsAt, Unit, apply};

use told::{read, tells};

fn taken(table: &Foreign) -> (Taken, Job) {
    let taken = table.take(&Job::default(), RowsAt::Append, Unit::Mm);
    let taken = taken.expect("all columns understood");
    let (job, _) = apply(&Job::default(), &taken.edit).expect("an edit");
    (taken, job)
}

fn texts(job: &Job, column: Column) -> Vec<&str> {
    job.rows.iter().map(|row| row.cell(column).text).collect()
}

fn sizes_mm(job: &Job) -> Vec<[f64; 2]> {
    let sizes = job.rows.iter().filter_map(|row| row.size.value());
    sizes
        .map(|size| [size.lower.mm(), size.upper.mm()])
        .collect()
}

/// Whose a tolerance behind the depth is nothing says.
#[test]
fn a_tolerance_behind_the_depth_is_asked_about() {
    for head in [
        "Hole;Dia;Depth;Tol",
        "Bohrung;Ø;Tiefe;Toleranz",
        "Hole;Dia;Angle;Tol.",
    ] {
        let table = read(&format!("{head}\nA;0.8;14;0.2\nB;0.9;12;0.2\n"));
        let asked = table.questions();
        assert_eq!(asked.len(), 1, "{head}");
        assert_eq!(asked[0].column, 3, "{head}");
    }
    // Beside the size, as a class of fit, or by its own words it is plain.
    for (text, limits) in [
        ("Hole;Dia;Tol;Depth\nA;0.8;0.02;14\n", [0.78, 0.82]),
        ("Hole;Dia;Depth;Tol\nA;3;14;H7\n", [3.0, 3.01]),
        ("Hole;Dia;Depth;Dia tol\nA;0.8;14;0.02\n", [0.78, 0.82]),
    ] {
        assert_eq!(sizes_mm(&taken(&read(text)).1), [limits], "{text}");
    }
}

#[test]
fn a_unit_beside_the_table_holds_for_it() {
    for title in [
        "Units:;inch",
        "Maßeinheit;Zoll",
        "Units;in",
        "UOM: IN",
        "INCH",
        "Dims: in.",
        "Dimensiones en pulgadas",
        "ALL DIMENSIONS;IN;INCHES",
    ] {
        let table = read(&format!(
            "{title}\nHole;Qty;Dia;Depth\nA;4;.0315;.5\nB;2;.04;.25\n"
        ));
        let (taken, job) = taken(&table);
        let lower: Vec<f64> = sizes_mm(&job).iter().map(|size| size[0]).collect();
        assert_eq!(lower, [0.8001, 1.016], "{title}");
        tells(&taken, "inch");
    }
    // A sentence that is cut off names no unit.
    let table = read("ALL DIMENSIONS GIVEN ON SHEET IN\nHole;Qty;Dia;Depth\nA;4;0.8;5\n");
    assert_eq!(sizes_mm(&taken(&table).1), [[0.8, 0.8]]);
}

#[test]
fn each_line_may_say_its_unit() {
    let table = read(
        "Hole;Qty;Dia;Depth;UOM\nA;4;0.8;14;mm\nB;2;.0315;.5;in\nC;1;800;12000;µm\nD;1;0.9;10;EA\n",
    );
    let (taken, job) = taken(&table);
    let lower: Vec<f64> = sizes_mm(&job).iter().map(|size| size[0]).collect();
    assert_eq!(lower, [0.8, 0.8001, 0.8, 0.9]);
    assert_eq!(
        texts(&job, Column::Depth),
        ["14", ".5 in", "12000 um", "10"]
    );
    tells(&taken, "EA");
}

#[test]
fn a_head_says_what_angles_are_measured_from() {
    for (head, degrees) in [
        ("Angle to surface", 65.0),
        ("Angle from surface [°]", 65.0),
        ("Angle from normal", 25.0),
        ("Winkel zur Oberfläche", 65.0),
        ("Winkel zur Normalen (°)", 25.0),
        ("Angle", 25.0),
    ] {
        let table = read(&format!(
            "Hole;Qty;Dia;Depth;{head}\nA;4;0.8;14;25\nB;4;0.8;14;25°\n"
        ));
        let (_, job) = taken(&table);
        for row in &job.rows {
            let tilt = row.angle.value().expect("an angle");
            assert!((tilt.from_normal.deg() - degrees).abs() < 1e-9, "{head}");
        }
    }
}

/// A unit in a line of its own takes no sign from the head above it.
#[test]
fn a_line_of_units_leaves_signs() {
    let table = read("Hole;Dia;Tol +;Tol -;Depth\n;mm;mm;mm;mm\nA;0.8;0.05;0.02;14\n");
    assert_eq!(sizes_mm(&taken(&table).1), [[0.78, 0.85]]);
    let table = read("Bohrung;Ø;o. Tol.;u. Tol.;Tiefe\nA;0,8;0,05;-0,02;14\n");
    assert_eq!(sizes_mm(&taken(&table).1), [[0.78, 0.85]]);
}

/// Heads that are merged over two lines stand in both.
#[test]
fn heads_in_two_lines_are_said_once() {
    let table =
        read("Hole;Angle from normal;Dia;Dia\nHole;Angle from normal;min;max\nA;25;0.78;0.82\n");
    let heads: Vec<String> = table
        .columns()
        .into_iter()
        .map(|column| column.about.head)
        .collect();
    assert_eq!(heads, ["Hole", "Angle from normal", "Dia min", "Dia max"]);
    assert_eq!(sizes_mm(&taken(&table).1), [[0.78, 0.82]]);
}

#[test]
fn a_mark_of_several_holes_counts_them() {
    let table = read("Hole;Dia;Depth\nA1-A12;0.8;14\n13, 14, 17;0.9;12\n1-12;1;10\nB;1.1;9\n");
    let (taken, job) = taken(&table);
    assert_eq!(texts(&job, Column::Count), ["12", "3", "", ""]);
    let outcomes: Vec<LineOutcome> = taken.report.lines.iter().map(|line| line.outcome).collect();
    let guessed = LineOutcome::Guessed;
    assert!(
        outcomes
            .iter()
            .filter(|outcome| **outcome == guessed)
            .count()
            == 3
    );
    tells(&taken, "may name several");
    // A count that is given stands.
    let table = read("Hole;Qty;Dia;Depth\nA1-A12;6;0.8;14\nB;2;0.9;14\n");
    assert_eq!(texts(&self::taken(&table).1, Column::Count), ["6", "2"]);
}

#[test]
fn locations_below_a_row_are_its_own_and_counts_are_held_against_them() {
    let table = read(
        "Hole;Qty;Dia;Depth;X;Y\nA;4;0.8;14;0;0\n;;;;10;0\n;;;;20;0\n;;;;30;0\nB;4;0.9;12;5;5\nC;1;1;12;6;6\n",
    );
    let (taken, job) = taken(&table);
    let places: Vec<usize> = job.rows.iter().map(|row| row.places.len()).collect();
    // One location of four is where the drawing begins to measure: four are drilled.
    assert_eq!(places, [4, 0, 1]);
    assert_eq!(job.rows[1].holes(), 4);
    assert_eq!(job.rows[1].note.text(), "one location of 4: x 5 y 5");
    tells(&taken, "B says 4 and has 1");
    assert!(
        !taken
            .report
            .whole
            .iter()
            .any(|said| said.contains("A says"))
    );
    // A list of locations says one in each line.
    let table = read("Hole;Qty;Dia;Depth;X;Y\nA;1;0.8;14;0;0\nA;1;0.8;14;10;0\n");
    let (taken, job) = self::taken(&table);
    assert_eq!(job.rows[0].places.len(), 2);
    assert!(
        !taken
            .report
            .whole
            .iter()
            .any(|said| said.contains("says 1"))
    );
}

#[test]
fn lines_that_are_no_holes_are_left_out_and_told() {
    let text = "Hole;Qty;Dia;Depth\nSide 1\nA;4;0.8;14\nB;2;0.9;12\nSous-total;6\n## Side 2\nC;3;0.5;9\nÜbertrag;9\nTotal général;9\n;9;;\nReport;9\nM. Orrin\nTel. 555 0142\n";
    let (taken, job) = taken(&read(text));
    assert_eq!(texts(&job, Column::Mark), ["A", "B", "C"]);
    for left in [
        "Side 1",
        "Side 2",
        "Sous-total",
        "Übertrag",
        "Total général",
        "M. Orrin",
        "555",
    ] {
        tells(&taken, left);
    }
    // A mark that stands alone may be a hole.
    let (_, job) = self::taken(&read("Hole;Qty;Dia;Depth\nA;4;0.8;14\nB\n12\n"));
    assert_eq!(texts(&job, Column::Mark), ["A", "B", "12"]);
}

#[test]
fn a_further_table_below_is_not_read_by_the_first_head() {
    let text = "Hole;Qty;Dia;Depth\nA;4;0.8;14\nB;2;0.9;12\n\nHole;Dia;Depth;Qty\nC;0.5;9;3\n";
    let (taken, job) = taken(&read(text));
    assert_eq!(texts(&job, Column::Mark), ["A", "B"]);
    tells(&taken, "further table");
    // The same head once more, whatever its words, is the same table.
    let text = "Hole;Qty;Dia;Depth\nA;4;0.8;14\nMark;Qty.;Diameter;Hole depth\nC;3;0.5;9\n";
    assert_eq!(texts(&self::taken(&read(text)).1, Column::Mark), ["A", "C"]);
    // In another unit it is another.
    let text = "Hole;Qty;Dia mm;Depth mm\nA;4;0.8;14\nHole;Qty;Dia in;Depth in\nC;3;0.5;9\n";
    assert_eq!(texts(&self::taken(&read(text)).1, Column::Mark), ["A"]);
}

#[test]
fn a_printed_list_is_a_table() {
    let list = "Part 4-118  rev B\n\nHole   Qty   Dia    Depth   Note\n----------------------------------\nA        4   0,80   12.5    to the plenum\nB       12   1,00\nC        1   0,50    3      deburr, then ream\nTOTAL   17\n\nDeburr all edges.\n";
    let table = Foreign::of_file(list.as_bytes(), "list.txt").expect("a table");
    let (_, job) = taken(&table);
    assert_eq!(texts(&job, Column::Mark), ["A", "B", "C"]);
    assert_eq!(texts(&job, Column::Count), ["4", "12", "1"]);
    assert_eq!(texts(&job, Column::Depth), ["12.5", "", "3"]);
    assert_eq!(sizes_mm(&job), [[0.8, 0.8], [1.0, 1.0], [0.5, 0.5]]);
    let list = "HOLE LIST   DWG 77-120 REV C         PAGE 1\n\nHOLE  QTY   DIA      DEPTH   END     REMARKS\n----  ---   ------   -----   -----   -----------------\nA      12   0.80     14.5    THRU    DEBURR BOTH ENDS\nB       4   1.20     30.0    BLIND\nC       1   0.50     6.25    THRU    SEE SECTION B-B\n      ---\nTOTAL  17\n";
    let table = Foreign::of_file(list.as_bytes(), "list.txt").expect("a table");
    let (taken, job) = taken(&table);
    assert_eq!(texts(&job, Column::Count), ["12", "4", "1"]);
    assert_eq!(
        texts(&job, Column::Note),
        ["DEBURR BOTH ENDS", "", "SEE SECTION B-B"]
    );
    tells(&taken, "TOTAL; 17");
}

#[test]
fn what_is_no_table_is_refused() {
    let iges = format!(
        "{:<72}S      1\n{:<72}G      1\n",
        "a plate", "1H,,1H;,5Hplate"
    );
    let of = |bytes: &[u8], name: &str| {
        let table = Foreign::of_file(bytes, name)?;
        table.take(&Job::default(), RowsAt::Append, Unit::Mm)
    };
    for (bytes, name) in [
        (iges.as_bytes(), "part.txt"),
        (b"solid part\n facet normal 0 0 1\n".as_slice(), "part.txt"),
        (b"A,4,0.8\n".as_slice(), "part.igs"),
    ] {
        assert!(
            matches!(of(bytes, name), Err(IntakeError::OtherPart(_))),
            "{name}"
        );
    }
    for (bytes, name) in [
        (
            b"<html><table><tr><td>A</td></tr></table>".as_slice(),
            "holes.txt",
        ),
        (b"  <?xml version=\"1.0\"?>".as_slice(), "holes.txt"),
        (b"A,4,0.8\n".as_slice(), "holes.docx"),
    ] {
        assert_eq!(
            of(bytes, name).map(|_| ()),
            Err(IntakeError::NoTable),
            "{name}"
        );
    }
    let letter = "Dear all\nplease quote the plate\nM. Orrin\n";
    assert_eq!(
        of(letter.as_bytes(), "letter.txt").map(|_| ()),
        Err(IntakeError::NoSizes)
    );
}

#[test]
fn a_measure_in_two_units_is_no_depth() {
    let text = "Hole;Callout\nA;4X Ø.0315 [0.80] THRU\nB;Ø 0.45 (x6) THRU\nC;2X 1.2 THRU\n";
    let (_, job) = taken(&read(text));
    assert_eq!(texts(&job, Column::Depth), ["", "", ""]);
    assert_eq!(texts(&job, Column::Count), ["4X", "6x", "2X"]);
    assert_eq!(sizes_mm(&job), [[0.8001, 0.8001], [0.45, 0.45], [1.2, 1.2]]);
}

#[test]
fn a_day_is_unread() {
    let (taken, job) = taken(&read("Hole;Qty;Dia;Depth\nA;4;2026-02-01;14\nB;2;0.9;12\n"));
    assert_eq!(sizes_mm(&job), [[0.9, 0.9]]);
    tells(&taken, "is a date");
}
