//! Each edit does what it says, or is refused and says why.
#![expect(clippy::panic, reason = "a helper of tests fails by panic")]

use std::sync::Arc;

use quillbore_calc::RowId;
use quillbore_calc::input::Place;
use quillbore_job::Unit::{Inch, Mm};
use quillbore_job::field::AngleBasis;
use quillbore_job::job::FigureKey;
use quillbore_job::limits::{LONGEST_TEXT, MOST_PLACES, MOST_ROWS};
use quillbore_job::{CellAt, Change, Column, Edit, EditRefused, Entry, Field, Job, Value, apply};

#[track_caller]
fn done(job: &Job, edit: &Edit) -> (Job, Change) {
    apply(job, edit).unwrap_or_else(|why| panic!("{edit:?}: {why}"))
}

#[track_caller]
fn refused(job: &Job, edit: &Edit) -> EditRefused {
    let Err(why) = apply(job, edit) else {
        panic!("{edit:?} was done");
    };
    assert!(!why.to_string().ends_with('.') && why.hint().ends_with('.'));
    why
}

fn block(row: usize, column: Column, rows: &[&[&str]]) -> Edit {
    Edit::SetCells {
        at: CellAt { row, column },
        rows: rows
            .iter()
            .map(|cells| cells.iter().map(|text| Some((*text).to_owned())).collect())
            .collect(),
        unit: Mm,
    }
}

fn field(field: Field, text: &str) -> Edit {
    Edit::SetField {
        field,
        text: text.to_owned(),
        unit: Mm,
    }
}

fn three_rows() -> Job {
    let rows: &[&[&str]] = &[
        &["A", "36", "0.80 +-0.02", "14"],
        &["B", "4", "1.2"],
        &["C", "x1", "#60", "20", "blind", "30"],
    ];
    done(&Job::default(), &block(0, Column::Mark, rows)).0
}

#[test]
fn a_block_past_the_end_adds_rows() {
    let (job, change) = done(
        &three_rows(),
        &block(2, Column::Count, &[&["5"], &["6"], &["bad"]]),
    );
    assert_eq!(job.rows.len(), 5);
    assert_eq!(change.rows, [RowId(2), RowId(3), RowId(4)]);
    assert_eq!(change.added, [RowId(3), RowId(4)]);
    assert_eq!((change.read, change.unread), (2, 1));
    assert_eq!(job.rows[2].count.value(), Some(&5));
    assert_eq!(job.rows[2].mark.text(), "C");
    assert_eq!(job.rows[4].count.text(), "bad");
    assert!(job.rows[4].count.why().is_some());
    assert_eq!(job.next_row, 5);
}

#[test]
fn a_ragged_block_leaves_the_rest_alone() {
    let job = three_rows();
    let edit = Edit::SetCells {
        at: CellAt {
            row: 0,
            column: Column::Mark,
        },
        rows: vec![
            vec![None, Some("40".to_owned())],
            vec![],
            vec![Some(String::new())],
        ],
        unit: Mm,
    };
    let (after, change) = done(&job, &edit);
    assert_eq!(after.rows[0].mark.text(), "A");
    assert_eq!(after.rows[0].count.value(), Some(&40));
    assert!(
        Arc::ptr_eq(&after.rows[1], &job.rows[1]),
        "untouched rows are shared"
    );
    assert_eq!(after.rows[2].mark, Entry::EMPTY);
    assert_eq!(change.rows, [RowId(0), RowId(2)]);
}

#[test]
fn forty_rows_paste_as_one_edit() {
    let lines: Vec<Vec<String>> = (1..=40)
        .map(|n| {
            vec![
                format!("H{n}"),
                "12".to_owned(),
                format!("0,{:02} \u{b1} 0,02", 40 + n),
            ]
        })
        .collect();
    let edit = Edit::SetCells {
        at: CellAt {
            row: 0,
            column: Column::Mark,
        },
        rows: lines
            .into_iter()
            .map(|cells| cells.into_iter().map(Some).collect())
            .collect(),
        unit: Mm,
    };
    let (job, change) = done(&Job::default(), &edit);
    assert_eq!((job.rows.len(), change.read, change.unread), (40, 120, 0));
    assert_eq!(job.rows[39].size.value().unwrap().upper.mm(), 0.82);
}

#[test]
fn blank_lines_at_a_blocks_end_are_no_rows() {
    let (job, change) = done(
        &Job::default(),
        &block(0, Column::Mark, &[&["A"], &["", ""], &["B"], &[" "], &[]]),
    );
    assert_eq!(job.rows.len(), 3, "the blank line between stays");
    assert_eq!(change.added.len(), 3);
    let (same, change) = done(&job, &block(3, Column::Mark, &[&[""], &[]]));
    assert_eq!(same, job);
    assert!(change.is_nothing());
}

#[test]
fn a_block_past_the_last_column_is_refused() {
    let job = three_rows();
    let why = refused(
        &job,
        &block(0, Column::Zone, &[&["B3"], &["B3", "note", "lost", ""]]),
    );
    assert_eq!(
        why.to_string(),
        "The block has 3 columns, but from drawing zone on the table has only 2"
    );
    // Empty cells past the last column lose nothing.
    let (job, _) = done(&job, &block(0, Column::Zone, &[&["B3", "note", "", " "]]));
    assert_eq!(job.rows[0].note.text(), "note");
}

#[test]
fn text_is_kept_to_the_letter_and_read_in_the_units_it_was_typed_in() {
    let (job, _) = done(
        &Job::default(),
        &block(0, Column::Size, &[&["  0,80 +-0,02 "]]),
    );
    let edit = Edit::SetCells {
        at: CellAt {
            row: 1,
            column: Column::Size,
        },
        rows: vec![vec![Some(".031".to_owned())]],
        unit: Inch,
    };
    let (job, _) = done(&job, &edit);
    let (job, change) = done(&job, &Edit::SetUnit(Inch));
    assert!(change.other);
    assert_eq!(job.unit, Inch);
    assert_eq!(job.rows[0].size.text(), "  0,80 +-0,02 ");
    assert_eq!(job.rows[0].size.unit(), Some(Mm));
    assert_eq!(job.rows[0].size.value().unwrap().lower.mm(), 0.78);
    assert_eq!(job.rows[1].size.value().unwrap().lower.mm(), 0.7874);
    let (_, change) = done(&job, &Edit::SetUnit(Inch));
    assert!(change.is_nothing());
}

#[test]
fn fields_are_read_emptied_and_kept_where_they_cannot_be_read() {
    let job = Job::default();
    let (job, change) = done(&job, &field(Field::Quantity, "25 pcs"));
    assert_eq!(job.field(Field::Quantity).value(), Some(&Value::Count(25)));
    assert_eq!(change.fields, [Field::Quantity]);
    let (job, change) = done(&job, &field(Field::Due, "12/01/2027"));
    assert_eq!((change.read, change.unread), (0, 1));
    assert_eq!(job.text(Field::Due), "12/01/2027");
    let (job, change) = done(&job, &field(Field::Due, "12/01/2027"));
    assert!(change.is_nothing());
    let (job, _) = done(&job, &field(Field::Due, "  "));
    assert!(job.field(Field::Due).is_empty());
    assert_eq!(job.fields.len(), 1);
}

#[test]
fn every_field_takes_text_of_its_kind() {
    for field in Field::ALL {
        let text = match field.key() {
            "mass" => "12.5 kg",
            "resistivity" => "120 uohm cm",
            "default_tolerance" => "+-0.05",
            "angle_basis" => "from surface",
            "due" | "follow_up" | "exchange_day" => "2027-01-12",
            "currency" | "amounts_in" | "values_in" => "EUR",
            "index_about" => "z",
            "rests_on" => "60 x 40",
            "language" => "German",
            "breaks" => "10, 50",
            _ => "12",
        };
        let (job, change) = done(&Job::default(), &self::field(*field, text));
        assert_eq!(change.read, 1, "{field:?}: {:?}", job.field(*field));
    }
}

#[test]
fn angles_follow_the_basis_of_the_drawing() {
    let (job, _) = done(
        &Job::default(),
        &block(
            0,
            Column::Angle,
            &[&["20"], &["20 from normal"], &["95"], &["x"]],
        ),
    );
    let tilt = |job: &Job, row: usize| job.rows[row].angle.value().map(|it| it.from_normal.deg());
    assert_eq!((tilt(&job, 0), tilt(&job, 1)), (Some(20.0), Some(20.0)));
    let (surface, change) = done(&job, &field(Field::AngleBasis, "from surface"));
    assert_eq!(
        (tilt(&surface, 0), tilt(&surface, 1)),
        (Some(70.0), Some(20.0))
    );
    assert_eq!(surface.angle_basis(), AngleBasis::FromSurface);
    assert_eq!(surface.rows[0].angle.text(), "20");
    // The second row says its basis itself; the third explains its range anew.
    assert_eq!(change.rows, [RowId(0), RowId(2)]);
    let (back, _) = done(&surface, &field(Field::AngleBasis, ""));
    assert_eq!(back, job);
}

#[test]
fn rows_are_inserted_and_taken_out_by_identity() {
    let job = three_rows();
    let (job, change) = done(
        &job,
        &Edit::InsertRows {
            before: 1,
            count: 2,
        },
    );
    let ids = |job: &Job| job.rows.iter().map(|row| row.id.0).collect::<Vec<_>>();
    assert_eq!(ids(&job), [0, 3, 4, 1, 2]);
    assert_eq!(change.added, [RowId(3), RowId(4)]);
    let (job, change) = done(
        &job,
        &Edit::DeleteRows {
            rows: vec![RowId(2), RowId(3), RowId(2)],
        },
    );
    assert_eq!(ids(&job), [0, 4, 1]);
    assert_eq!(change.removed, [RowId(3), RowId(2)]);
    let (job, _) = done(
        &job,
        &Edit::InsertRows {
            before: 3,
            count: 1,
        },
    );
    assert_eq!(ids(&job), [0, 4, 1, 5], "2 and 3 are never given again");
    assert_eq!(
        refused(
            &job,
            &Edit::DeleteRows {
                rows: vec![RowId(2)]
            }
        ),
        EditRefused::NoSuchRow { row: RowId(2) }
    );
    assert!(matches!(
        refused(
            &job,
            &Edit::InsertRows {
                before: 5,
                count: 1
            }
        ),
        EditRefused::BelowTheTable { row: 5, rows: 4 }
    ));
    assert!(matches!(
        refused(&job, &block(5, Column::Mark, &[&["A"]])),
        EditRefused::BelowTheTable { row: 5, rows: 4 }
    ));
}

#[test]
fn a_table_has_a_limit() {
    let (job, _) = done(
        &three_rows(),
        &Edit::InsertRows {
            before: 3,
            count: MOST_ROWS - 3,
        },
    );
    for edit in [
        Edit::InsertRows {
            before: 0,
            count: 1,
        },
        Edit::InsertRows {
            before: 0,
            count: usize::MAX,
        },
        block(MOST_ROWS, Column::Mark, &[&["A"]]),
    ] {
        assert_eq!(
            refused(&job, &edit),
            EditRefused::TooManyRows { most: MOST_ROWS }
        );
    }
    let used_up = Job {
        next_row: u32::MAX,
        ..Job::default()
    };
    assert!(matches!(
        refused(
            &used_up,
            &Edit::InsertRows {
                before: 0,
                count: 1
            }
        ),
        EditRefused::TooManyRows { .. }
    ));
    let long = "x".repeat(LONGEST_TEXT + 1);
    for edit in [
        field(Field::Notes, &long),
        block(0, Column::Note, &[&[&long]]),
    ] {
        assert_eq!(
            refused(&job, &edit),
            EditRefused::TextTooLong { most: LONGEST_TEXT }
        );
    }
}

#[test]
fn places_are_checked_and_their_directions_made_unit_vectors() {
    let job = three_rows();
    let place = |number, x, axis| Place {
        number,
        point_mm: [x, 0.0, 0.0],
        axis,
    };
    let set = |places: Vec<Place>| Edit::SetPlaces {
        row: RowId(1),
        places,
    };
    let (with, change) = done(
        &job,
        &set(vec![
            place(1, 0.0, [0.0, 3.0, -4.0]),
            place(2, 5.0, [0.0, 0.0, -1.0]),
        ]),
    );
    assert_eq!(with.rows[1].places[0].axis, [0.0, 0.6, -0.8]);
    assert_eq!(change.rows, [RowId(1)]);
    assert_eq!(with.rows[1].count.text(), "4", "the count keeps its text");
    let third = (1.0_f64 / 3.0).sqrt();
    let (even, _) = done(&with, &set(vec![place(1, 0.0, [1.0; 3])]));
    let again = even.rows[1].places.as_ref().clone();
    assert!((again[0].axis[0] - third).abs() < 1e-15);
    assert!(
        done(&even, &set(again)).1.is_nothing(),
        "given back it changes nothing"
    );
    let (without, _) = done(&with, &set(vec![]));
    assert_eq!(without, job);
    for (places, why) in [
        (
            vec![place(7, f64::NAN, [0.0, 0.0, 1.0])],
            EditRefused::PlaceUnusable { number: 7 },
        ),
        (
            vec![place(7, 0.0, [0.0; 3])],
            EditRefused::PlaceUnusable { number: 7 },
        ),
        (
            vec![place(7, 0.0, [f64::INFINITY, 0.0, 0.0])],
            EditRefused::PlaceUnusable { number: 7 },
        ),
        (
            vec![place(7, 0.0, [1.0; 3]), place(7, 1.0, [1.0; 3])],
            EditRefused::PlaceTwice { number: 7 },
        ),
    ] {
        assert_eq!(refused(&job, &set(places)), why);
    }
    let many = vec![place(1, 0.0, [1.0; 3]); MOST_PLACES + 1];
    assert_eq!(
        refused(&job, &set(many)),
        EditRefused::TooManyPlaces { most: MOST_PLACES }
    );
    let elsewhere = Edit::SetPlaces {
        row: RowId(9),
        places: vec![],
    };
    assert_eq!(
        refused(&job, &elsewhere),
        EditRefused::NoSuchRow { row: RowId(9) }
    );
}

#[test]
fn overrules_have_a_value_and_a_reason() {
    let job = three_rows();
    let overrule = |figure: FigureKey, text: &str, reason: &str| Edit::Overrule {
        figure,
        text: text.to_owned(),
        reason: reason.to_owned(),
        unit: Inch,
    };
    let gap = FigureKey::Gap(RowId(0));
    let (job, change) = done(&job, &overrule(gap.clone(), ".002", " measured last week "));
    assert!(change.other);
    assert_eq!(job.overrules[0].value.value(), Some(&0.0508));
    assert_eq!(job.overrules[0].reason, "measured last week");
    let (job, _) = done(&job, &overrule(gap.clone(), "0.05 mm", "again"));
    assert_eq!(job.overrules.len(), 1);
    for (figure, text, value) in [
        (FigureKey::Feed(RowId(0)), "0.5", 12.7),
        (FigureKey::HoleMinutes(RowId(0)), "90 s", 1.5),
        (FigureKey::Wear(RowId(1)), "10 mm", 10.0),
        (FigureKey::Electrodes("brass 0.7".to_owned()), "9", 9.0),
        (FigureKey::MachineHours, "41", 41.0),
        (FigureKey::LaborHours, "90 min", 1.5),
        (FigureKey::UnitPrice(25), "48.20", 48.2),
    ] {
        let (job, _) = done(&job, &overrule(figure, text, "by hand"));
        assert_eq!(job.overrules[1].value.value(), Some(&value), "{text}");
    }
    let (unread, change) = done(&job, &overrule(FigureKey::MachineHours, "a lot", "guess"));
    assert_eq!(change.unread, 1);
    assert_eq!(unread.overrules[1].value.text(), "a lot");
    assert_eq!(
        refused(&job, &overrule(gap.clone(), ".002", " ")),
        EditRefused::ReasonMissing
    );
    assert_eq!(
        refused(&job, &overrule(gap.clone(), " ", "why")),
        EditRefused::ValueMissing
    );
    assert!(matches!(
        refused(&job, &overrule(FigureKey::Feed(RowId(8)), "1", "why")),
        EditRefused::NoSuchRow { .. }
    ));
    let (gone, _) = done(
        &job,
        &Edit::DeleteRows {
            rows: vec![RowId(0)],
        },
    );
    assert!(gone.overrules.is_empty(), "an overrule goes with its row");
    let (none, _) = done(
        &job,
        &Edit::WithdrawOverrule {
            figure: gap.clone(),
        },
    );
    assert!(none.overrules.is_empty());
    assert_eq!(
        refused(&none, &Edit::WithdrawOverrule { figure: gap }),
        EditRefused::NotOverruled
    );
}

#[test]
fn several_edits_are_done_together_or_not_at_all() {
    let job = three_rows();
    let edits = vec![
        field(Field::Quantity, "25"),
        block(3, Column::Mark, &[&["D", "bad"], &["E"]]),
        Edit::DeleteRows {
            rows: vec![RowId(0), RowId(3)],
        },
        block(0, Column::Mark, &[&["B"]]),
    ];
    let (after, change) = done(&job, &Edit::Together { edits });
    assert_eq!(
        (change.rows, change.added),
        (vec![RowId(4)], vec![RowId(4)])
    );
    assert_eq!(change.removed, [RowId(0)], "row 3 came and went");
    assert_eq!(change.fields, [Field::Quantity]);
    assert_eq!((change.read, change.unread), (4, 1));
    assert_eq!(after.rows.len(), 3);
    let refused_last = Edit::Together {
        edits: vec![
            field(Field::Quantity, "25"),
            Edit::DeleteRows {
                rows: vec![RowId(9)],
            },
        ],
    };
    assert_eq!(
        refused(&job, &refused_last),
        EditRefused::NoSuchRow { row: RowId(9) }
    );
    let back_and_forth = Edit::Together {
        edits: vec![Edit::SetUnit(Inch), Edit::SetUnit(Mm)],
    };
    assert!(done(&job, &back_and_forth).1.is_nothing());
}

#[test]
fn the_same_edit_on_the_same_job_gives_the_same() {
    let edit = block(1, Column::Mark, &[&["Q", "3x", "3 H7"], &["R", "", "bad"]]);
    assert_eq!(done(&three_rows(), &edit), done(&three_rows(), &edit));
}

/// Beyond a kilometer the way between two places is no number any more.
#[test]
fn a_place_farther_than_any_part_is_refused_by_edit_and_file() {
    let (job, _) = done(
        &Job::default(),
        &Edit::InsertRows {
            before: 0,
            count: 1,
        },
    );
    let place = |x: f64| Edit::SetPlaces {
        row: job.rows[0].id,
        places: vec![Place {
            number: 7,
            point_mm: [x, 0.0, 0.0],
            axis: [0.0, 0.0, -1.0],
        }],
    };
    for x in [1e308, -1_000_001.0, f64::NAN, f64::INFINITY] {
        let refused = apply(&job, &place(x)).expect_err("refused");
        assert_eq!(refused, EditRefused::PlaceUnusable { number: 7 }, "{x}");
    }
    let (far, _) = done(&job, &place(-1_000_000.0));
    let text = quillbore_job::file::write_job(&far);
    assert_eq!(
        quillbore_job::file::read_job(text.as_bytes()).as_ref(),
        Ok(&far)
    );
    let farther = text.replace("-1000000.0", "-1e308");
    assert_ne!(farther, text);
    assert!(quillbore_job::file::read_job(farther.as_bytes()).is_err());
}
