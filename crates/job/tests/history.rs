//! Undo and redo: labels, gestures, selections, the saved mark, identities.

use std::sync::Arc;

use quillbore_calc::RowId;
use quillbore_calc::input::Place;
use quillbore_job::history::{Doing, History, MOST_STEPS};
use quillbore_job::job::FigureKey;
use quillbore_job::words::edits::label;
use quillbore_job::{CellAt, Column, Edit, Field, Job, Unit};

fn cell(row: usize, column: Column, text: &str) -> Edit {
    block(row, column, &[&[text]])
}

fn block(row: usize, column: Column, rows: &[&[&str]]) -> Edit {
    Edit::SetCells {
        at: CellAt { row, column },
        rows: rows
            .iter()
            .map(|cells| cells.iter().map(|text| Some((*text).to_owned())).collect())
            .collect(),
        unit: Unit::Mm,
    }
}

fn field(field: Field, text: &str) -> Edit {
    Edit::SetField {
        field,
        text: text.to_owned(),
        unit: Unit::Mm,
    }
}

/// Does an edit with the selection before and after it as plain numbers.
fn go(history: &mut History<u32>, edit: &Edit, gesture: Option<u64>, before: u32, after: u32) {
    let doing = Doing {
        gesture,
        before,
        after,
    };
    assert!(history.do_edit(edit, doing).is_ok(), "{edit:?}");
}

#[test]
fn steps_go_back_and_forth_with_their_selections() {
    let mut history = History::new(Job::default(), true);
    go(&mut history, &cell(0, Column::Mark, "A"), None, 1, 2);
    go(&mut history, &cell(0, Column::Size, "0.8"), None, 2, 3);
    let done = Arc::clone(history.now());
    assert_eq!(history.undo_label(), Some("type size of hole A"));
    assert_eq!(history.redo_label(), None);
    assert_eq!(history.undo(), Some(2));
    assert_eq!(history.now().rows[0].size.text(), "");
    assert_eq!(history.redo_label(), Some("type size of hole A"));
    assert_eq!(history.undo_label(), Some("type mark of a new row"));
    assert_eq!(history.undo(), Some(1));
    assert_eq!(history.undo(), None);
    assert_eq!((history.redo(), history.redo()), (Some(2), Some(3)));
    assert_eq!(history.redo(), None);
    assert_eq!(*history.now(), done);
}

#[test]
fn a_new_edit_ends_what_could_be_done_again() {
    let mut history = History::new(Job::default(), true);
    go(&mut history, &field(Field::Part, "ring"), None, 0, 0);
    history.undo();
    go(&mut history, &field(Field::Part, "plate"), None, 0, 0);
    assert_eq!(history.redo_label(), None);
    assert_eq!(history.now().text(Field::Part), "plate");
}

#[test]
fn one_gesture_is_one_step() {
    let mut history = History::new(Job::default(), true);
    for (at, text) in ["1", "2", "3"].into_iter().enumerate() {
        let after = u32::try_from(at).unwrap() + 1;
        go(
            &mut history,
            &field(Field::Quantity, text),
            Some(7),
            0,
            after,
        );
    }
    go(&mut history, &field(Field::Quantity, "4"), Some(8), 3, 4);
    assert_eq!(history.undo(), Some(3));
    assert_eq!(history.now().text(Field::Quantity), "3");
    // The step was closed by undo: the same key starts anew.
    go(&mut history, &field(Field::Quantity, "5"), Some(7), 3, 5);
    history.end_gesture();
    go(&mut history, &field(Field::Quantity, "6"), Some(7), 5, 6);
    history.undo();
    assert_eq!(history.now().text(Field::Quantity), "5");
    history.undo();
    assert_eq!(history.now().text(Field::Quantity), "3");
    history.undo();
    assert!(history.now().fields.is_empty());
    assert_eq!(
        (history.redo(), history.redo_label()),
        (Some(3), Some("type quantity"))
    );
}

#[test]
fn what_changes_nothing_is_no_step_and_what_is_refused_neither() {
    let mut history = History::new(Job::default(), true);
    go(&mut history, &field(Field::Part, ""), None, 0, 0);
    go(&mut history, &Edit::SetUnit(Unit::Mm), None, 0, 0);
    let refused = Edit::DeleteRows {
        rows: vec![RowId(5)],
    };
    let doing = Doing {
        gesture: None,
        before: 0,
        after: 0,
    };
    assert!(history.do_edit(&refused, doing).is_err());
    assert_eq!(history.undo_label(), None);
    assert!(!history.is_dirty());
}

#[test]
fn the_saved_state_is_clean_from_either_side() {
    let mut history = History::new(Job::default(), false);
    assert!(history.is_dirty(), "a new job is on no disk");
    history.mark_saved();
    go(&mut history, &field(Field::Part, "ring"), None, 0, 0);
    assert!(history.is_dirty());
    history.undo();
    assert!(!history.is_dirty());
    history.redo();
    history.mark_saved();
    assert!(!history.is_dirty());
    history.undo();
    assert!(history.is_dirty());
    // The same content by another way is another state: better asked once too often.
    go(&mut history, &field(Field::Part, "ring"), None, 0, 0);
    assert!(history.is_dirty());
}

#[test]
fn identities_are_not_given_again_after_undo() {
    let mut history = History::new(Job::default(), true);
    go(&mut history, &cell(0, Column::Mark, "A"), None, 0, 0);
    history.undo();
    go(&mut history, &cell(0, Column::Mark, "B"), None, 0, 0);
    assert_eq!(history.now().rows[0].id, RowId(1));
    history.undo();
    history.redo();
    assert_eq!(history.now().rows[0].id, RowId(1));
    assert_eq!(history.now().next_row, 2);
}

#[test]
fn the_number_stays_over_undo() {
    let mut history = History::new(Job::default(), true);
    go(&mut history, &field(Field::Part, "ring"), None, 0, 0);
    history.put_number("26-0107".to_owned(), None);
    history.undo();
    assert_eq!(history.now().number, "26-0107");
    history.redo();
    assert_eq!(history.now().number, "26-0107");
}

#[test]
fn the_oldest_steps_are_let_go() {
    let mut history = History::new(Job::default(), true);
    for n in 0..MOST_STEPS + 50 {
        go(
            &mut history,
            &field(Field::Notes, &format!("note {n}")),
            None,
            0,
            0,
        );
    }
    let mut steps = 0;
    while history.undo().is_some() {
        steps += 1;
    }
    assert_eq!(steps, MOST_STEPS);
    assert_eq!(history.now().text(Field::Notes), "note 49");
    assert!(
        history.is_dirty(),
        "the saved state can't be reached any more"
    );
}

#[test]
fn an_issue_bars_undo() {
    let mut history = History::new(Job::default(), true);
    go(&mut history, &field(Field::Part, "ring"), None, 0, 0);
    history.bar_undo();
    assert_eq!(history.undo(), None);
    assert_eq!(history.now().text(Field::Part), "ring");
}

#[test]
fn labels_say_what_was_done() {
    let rows: &[&[&str]] = &[&["A", "36"], &["", "4"], &["a mark of many letters"]];
    let (job, _) = quillbore_job::apply(&Job::default(), &block(0, Column::Mark, rows)).unwrap();
    let figure = |figure| Edit::WithdrawOverrule { figure };
    let place = Place {
        number: 1,
        point_mm: [0.0; 3],
        axis: [0.0, 0.0, -1.0],
    };
    for (edit, says) in [
        (cell(0, Column::Size, "0.8"), "type size of hole A"),
        (cell(0, Column::Size, " "), "clear size of hole A"),
        (
            cell(1, Column::Behind, "3"),
            "type clearance behind of row 2",
        ),
        (cell(2, Column::Depth, "3"), "type depth of row 3"),
        (cell(3, Column::Mark, "D"), "type mark of a new row"),
        (
            block(0, Column::Size, &[&["1"], &["1"], &["1"]]),
            "fill size of 3 rows",
        ),
        (
            block(0, Column::Size, &[&["", ""], &["", ""]]),
            "clear 4 cells",
        ),
        (block(0, Column::Mark, &[&["A", "1"]]), "paste a row"),
        (
            block(0, Column::Mark, &[&["A", "1"], &["B", "2"]]),
            "paste 2 rows",
        ),
        (
            field(Field::Customer, "Alder Finch Rotors"),
            "type customer",
        ),
        (field(Field::Customer, ""), "clear customer"),
        (
            Edit::InsertRows {
                before: 0,
                count: 1,
            },
            "add a row",
        ),
        (
            Edit::InsertRows {
                before: 0,
                count: 40,
            },
            "add 40 rows",
        ),
        (
            Edit::DeleteRows {
                rows: vec![RowId(0)],
            },
            "delete hole A",
        ),
        (
            Edit::DeleteRows {
                rows: vec![RowId(0), RowId(1)],
            },
            "delete 2 rows",
        ),
        (
            Edit::SetPlaces {
                row: RowId(0),
                places: vec![],
            },
            "delete hole locations of hole A",
        ),
        (
            Edit::SetPlaces {
                row: RowId(1),
                places: vec![place; 2],
            },
            "set 2 hole locations of row 2",
        ),
        (Edit::SetUnit(Unit::Inch), "show inches"),
        (
            figure(FigureKey::Gap(RowId(0))),
            "go back to the computed gap of hole A",
        ),
        (
            figure(FigureKey::UnitPrice(25)),
            "go back to the computed price each at 25",
        ),
    ] {
        assert_eq!(label(&job, &edit), says);
    }
}
