//! In which unit the lengths of a table are: heads, headings, commas, tolerances beside another unit.
#![expect(
    clippy::expect_used,
    reason = "helpers of tests stop the test as tests do"
)]

mod told;

use quillbore_calc::Length;
use quillbore_intake::Taken;
use quillbore_job::{Column, Job, RowsAt, Unit, apply};

use told::{read, tells};

fn taken(text: &str) -> (Taken, Job) {
    let taken = read(text).take(&Job::default(), RowsAt::Append, Unit::Mm);
    let taken = taken.expect("all columns understood");
    let (job, _) = apply(&Job::default(), &taken.edit).expect("an edit");
    (taken, job)
}

/// Lower and upper limit of each row's size in millimeters; none where it can't be read.
fn sizes_mm(job: &Job) -> Vec<Option<[f64; 2]>> {
    let sizes = job.rows.iter().map(|row| row.size.value());
    sizes
        .map(|size| size.map(|size| [size.lower.mm(), size.upper.mm()]))
        .collect()
}

fn depths_mm(job: &Job) -> Vec<Option<f64>> {
    let depths = job.rows.iter().map(|row| row.depth.value());
    depths
        .map(|depth| depth.and_then(|depth| depth.aim).map(Length::mm))
        .collect()
}

#[test]
fn a_unit_behind_a_tolerance_is_not_that_of_the_size() {
    let (_, job) =
        taken("Hole,Qty,Dia,Depth\nA,4,0.80 0/+20µm,12\nB,4,20 ±15µm,12\nC,4,0.8 +20/0 µm,12\n");
    let limits = [[0.8, 0.82], [19.985, 20.015], [0.8, 0.82]];
    assert_eq!(sizes_mm(&job), limits.map(Some));
    let (_, job) = taken("Hole,Qty,Dia,Tol,Depth\n,,mm,µm,inch\nA,4,0.5,+30/-0,1\n");
    assert_eq!(sizes_mm(&job), [Some([0.5, 0.53])]);
    assert_eq!(depths_mm(&job), [Some(25.4)]);
}

#[test]
fn heads_may_count_in_parts_of_a_unit() {
    for (head, row, limits) in [
        ("Dia,Tol [1/100 mm]", "3,±2", [2.98, 3.02]),
        ("Dia [mm],Tol [1/1000 mm]", "3,±20", [2.98, 3.02]),
        ("Dia [1/100 mm],Note", "80,", [0.8, 0.8]),
        ("Dia [0.001 in],Note", "31.5,", [0.8001, 0.8001]),
        ("Dia (1/1000 in),Tol (0.0001 in)", "31,±10", [0.762, 0.8128]),
    ] {
        let (taken, job) = taken(&format!("Hole,Qty,{head}\nA,4,{row}\n"));
        assert_eq!(sizes_mm(&job), [Some(limits)], "{head}");
        tells(&taken, "those under");
    }
    // Tenths are of a millimeter or of a thousandth of an inch.
    let (taken, job) = taken("Hole,Qty,Dia,Tol (tenths),Depth\nA,4,0.8,±5,12\n");
    assert_eq!(sizes_mm(&job), [None]);
    tells(&taken, "tenths");
}

#[test]
fn a_head_with_two_units_is_never_taken_as_the_second() {
    let (taken_one, job) =
        taken("Hole,Qty,Dia mm (in),Depth mm (in)\nA,4,0.80,12.7\nB,4,0.80 (.0315),12.7\n");
    assert_eq!(sizes_mm(&job), [Some([0.8, 0.8]); 2]);
    assert_eq!(depths_mm(&job), [Some(12.7); 2]);
    tells(&taken_one, "the first of two units");
    let (taken, job) =
        taken("Hole,Qty,Dia mm / inch,Depth\nA,4,0.80,12.7\nB,4,0.80 / .0315,12.7\n");
    assert_eq!(sizes_mm(&job), [None, Some([0.8, 0.8])]);
    assert_eq!(depths_mm(&job), [Some(12.7); 2]);
    tells(&taken, "neither of two units");
}

#[test]
fn a_comma_before_three_digits_is_told_or_asked_about() {
    let (taken_um, job) = taken(
        "Hole,Qty,Dia (µm),Tol (µm),Depth (µm)\nA,4,\"1,200\",20,\"12,500\"\nB,4,800,±20,9000\n",
    );
    assert_eq!(sizes_mm(&job), [Some([1.18, 1.22]), Some([0.78, 0.82])]);
    assert_eq!(depths_mm(&job), [Some(12.5), Some(9.0)]);
    tells(&taken_um, "“1,200” was read as 1200");
    // Where other commas are decimal, and where a zero leads, it is decimal.
    for text in [
        "Loch;Anz;Ø;Tiefe\nA;4;1,200;12,500\nB;2;0,8;9\n",
        "Loch\tAnz\tØ\tTiefe\nA\t4\t1,200\t12,500\nB\t2\t0,800\t9,5\n",
    ] {
        let (_, job) = taken(text);
        assert_eq!(
            sizes_mm(&job),
            [Some([1.2, 1.2]), Some([0.8, 0.8])],
            "{text}"
        );
        assert_eq!(depths_mm(&job)[0], Some(12.5), "{text}");
    }
    // Beside decimal points, and beside sizes like micrometers, nothing tells.
    for text in [
        "Hole,Qty,Dia,Depth\nA,4,\"1,200\",12.5\nB,2,0.8,9.5\n",
        "Hole,Qty,Dia,Depth\nA,4,\"1,200\",9\nB,2,800,9\n",
    ] {
        let (taken, job) = taken(text);
        assert_eq!(sizes_mm(&job)[0], None, "{text}");
        tells(&taken, "“1,200” could be 1.200 or 1200");
    }
}

#[test]
fn a_length_in_two_units_is_one_length() {
    let (_, job) =
        taken("Hole,Qty,Dia,Depth\nA,4,0.8mm/.0315in,10 mm / .394\"\nB,4,.0315 [0.80],.5 [12.7]\n");
    assert_eq!(sizes_mm(&job), [Some([0.8, 0.8]), Some([0.8001, 0.8001])]);
    assert_eq!(depths_mm(&job), [Some(10.0), Some(12.7)]);
}

#[test]
fn a_bare_tolerance_is_in_the_unit_of_the_table() {
    let (taken_all, job) = taken(
        "Hole,Qty,Dia,Tol,Depth\nA,4,800 µm,±0.02,12\nB,4,.0315 in,±0.02,12\nC,4,800 µm,±20,12\n",
    );
    assert_eq!(
        sizes_mm(&job),
        [
            Some([0.78, 0.82]),
            Some([0.7801, 0.8201]),
            Some([0.78, 0.82])
        ]
    );
    tells(
        &taken_all,
        "“±20” was read in the unit of what it stands beside",
    );
    // Of sizes in inches a tolerance of a micrometer is none.
    let (_, job) = taken("Hole,Qty,Dia,Tol,Depth\nA,4,0.031 in,.001,.5 in\n");
    assert_eq!(sizes_mm(&job), [Some([0.762, 0.8128])]);
}

#[test]
fn a_head_over_several_columns_names_the_unit_of_each() {
    let (_, job) = taken("Hole,Dia mm,Position [inch],,,Depth mm\n,,X,Y,Z,\nA,.8,1,2,3,5\n");
    assert_eq!(job.rows[0].places[0].point_mm, [25.4, 50.8, 76.2]);
    assert_eq!(depths_mm(&job), [Some(5.0)]);
}

#[test]
fn a_heading_between_rows_may_change_the_unit() {
    let text = "Side A,,,\nHole,Qty,Dia,Depth\nA,4,0.8,12\nSide B (inch),,,\nB,2,.0315,.5\n";
    let (taken_all, job) = taken(text);
    assert_eq!(sizes_mm(&job), [Some([0.8, 0.8]), Some([0.8001, 0.8001])]);
    assert_eq!(job.rows[1].cell(Column::Count).text, "2");
    tells(&taken_all, "Lengths below line 4 were read in inches");
    // A head's own unit stays, and that is told.
    let text = "Hole,Qty,Dia mm,Depth mm\nA,4,0.8,12\nSide B (inch),,,\nB,2,.5,.5\n";
    let (taken, job) = taken(text);
    assert_eq!(sizes_mm(&job)[1], Some([0.5, 0.5]));
    tells(&taken, "the head names another unit");
}

#[test]
fn each_unit_column_is_that_of_the_length_before_it() {
    let (_, job) = taken("Hole,Qty,Dia,Unit,Depth,Unit\nA,4,0.8,mm,.5,in\nB,2,.0315,in,12,mm\n");
    assert_eq!(sizes_mm(&job), [Some([0.8, 0.8]), Some([0.8001, 0.8001])]);
    assert_eq!(depths_mm(&job), [Some(12.7), Some(12.0)]);
}

#[test]
fn a_unit_of_a_row_without_lengths_is_told() {
    let (taken, job) = taken("Hole,Qty,Dia,Unit\nA,4,0.8,mm\nB,2,,inch\n");
    assert_eq!(job.rows.len(), 2);
    tells(&taken, "inch");
}

#[test]
fn signs_above_columns_are_deviations() {
    let (_, job) = taken("Loch;Menge;Ø;+;-;Tiefe\nA;4;0,8;20 µm;10 µm;12\n");
    assert_eq!(sizes_mm(&job), [Some([0.79, 0.82])]);
    let (_, job) = taken("Hole;Qty;Dia;Dia Tol +;Dia Tol -;Depth\nA;4;0.8;0.02;0.01;12\n");
    assert_eq!(sizes_mm(&job), [Some([0.79, 0.82])]);
}

#[test]
fn what_a_column_may_not_be_taken_as_is_asked() {
    for (text, column) in [
        // Holes of one side: drilled from two, or twice as many.
        ("Hole,Qty/side,Sides,Dia,Depth\nA,12,2,0.8,12\n", 2),
        (
            "Hole,Dia,Depth,Angle,Angle Tol\nA,0.8,12,30,±1\nB,0.5,12,0,±1\n",
            4,
        ),
        (
            "Hole type,Dia,Depth,Hole numbers\nA,0.8,12,1-4\nB,0.5,8,5-6\n",
            0,
        ),
    ] {
        let asked = read(text).questions();
        let asked: Vec<usize> = asked.iter().map(|asked| asked.column).collect();
        assert_eq!(asked, [column], "{text}");
    }
}

#[test]
fn a_row_without_a_count_among_others_is_told() {
    let (taken, _) = taken("Hole,Qty,Dia,Depth\nA,4,0.8,12\nB,,0.5,8\n");
    tells(
        &taken,
        "no count, where other rows have one: taken as one hole",
    );
}

#[test]
fn a_list_in_an_answered_mail_has_marks_of_its_own() {
    let (_, job) = taken(
        "> Hole   Qty  Dia   Depth\n> A      4    0.80  12\n> B      2    0.50  thru\n>\n> Regards\n",
    );
    let marks: Vec<&str> = job
        .rows
        .iter()
        .map(|row| row.cell(Column::Mark).text)
        .collect();
    assert_eq!(marks, ["A", "B"]);
}

#[test]
fn a_printed_list_may_be_parted_by_single_blanks() {
    let (_, job) = taken("Hole Qty Dia Depth\nA 4 0.80 12\nB 2 0.50 8\n");
    assert_eq!(sizes_mm(&job), [Some([0.8, 0.8]), Some([0.5, 0.5])]);
    assert_eq!(depths_mm(&job), [Some(12.0), Some(8.0)]);
}
