//! Tables pasted into the hole table: one step, asked about, kept with what became of them.

use egui::{Event, Key, Modifiers};
use egui_kittest::{Harness, kittest::Queryable as _};
use quillbore_desk::view::Waiting;

use crate::hands::{Window, land, paste, press, type_on, window};

fn forty_rows() -> String {
    let rows: String = (0..40)
        .map(|row| format!("H{row}\t3\t0,{:02} +-0,05\t{}\r\n", 60 + row, 5 + row))
        .collect();
    format!("hole\tqty\tdia (mm)\tdepth (mm)\r\n{rows}")
}

#[test]
fn forty_rows_of_a_spreadsheet_are_one_step_and_priced() {
    let folder = tempfile::tempdir().expect("a folder");
    let mut harness = window(folder.path());
    paste(&mut harness, &forty_rows());
    assert_eq!(harness.state().job().rows.len(), 40);
    let unread = harness
        .state()
        .job()
        .rows
        .iter()
        .filter(|row| row.size.why().is_some())
        .count();
    assert_eq!(unread, 0);
    let figures = &harness.state().app().desk().results().figures;
    assert!(figures.settled && figures.price.is_some());
    assert_eq!(
        harness.state().app().desk().history.undo_label(),
        Some("paste 40 rows")
    );
    harness.key_press_modifiers(Modifiers::COMMAND, Key::Z);
    harness.run();
    assert_eq!(harness.state().job().rows.len(), 0, "one step back");
    harness.key_press_modifiers(Modifiers::COMMAND.plus(Modifiers::SHIFT), Key::Z);
    harness.run();
    assert_eq!(harness.state().job().rows.len(), 40, "and again");
}

const WITH_FINISH: &str = "hole\tqty\tdia\tfinish\tdepth\tlot\r\nA\t4\t0.8 +-0.05\tRa 1.6\t12\t7\r\nB\t2\t1.2 +-0.05\tRa 3.2\t14\t7\r\n";

#[test]
fn a_pasted_column_that_is_not_understood_is_asked_about_by_keyboard() {
    let folder = tempfile::tempdir().expect("a folder");
    let mut harness = window(folder.path());
    paste(&mut harness, WITH_FINISH);
    assert_eq!(
        harness.state().job().rows.len(),
        0,
        "nothing before the answer"
    );
    harness.get_by_label("2 of 6 columns not understood: which are they?");
    harness.get_by_label_contains("6 holes in 2 rows");
    // No other line takes the question's place.
    harness.key_press_modifiers(Modifiers::COMMAND, Key::O);
    harness.run();
    assert!(matches!(
        harness.state().app().view().waiting,
        Some(Waiting::Column(..))
    ));
    harness.get_by_label("finish is");
    type_on(&mut harness, "which is this", "note");
    harness.get_by_label("lot is");
    type_on(&mut harness, "which is this", "leave");
    assert_eq!(harness.state().job().rows.len(), 0, "Enter lands it");
    land(&mut harness);
    let job = harness.state().job();
    assert_eq!(job.rows.len(), 2);
    assert_eq!(job.rows[0].note.text(), "finish: Ra 1.6");
    assert_eq!(job.rows[1].depth.text(), "14");
    let notice = harness.state().app().desk().notice.clone();
    assert!(
        notice.contains("Left out: column 6 \u{201c}lot\u{201d} (7; 7)."),
        "{notice}"
    );
    harness.key_press_modifiers(Modifiers::COMMAND, Key::Z);
    harness.run();
    assert_eq!(harness.state().job().rows.len(), 0, "one step back");
}

/// One quiet line under the table for each table that came from elsewhere, laid out by a click.
#[test]
fn what_became_of_a_pasted_table_stays_under_the_hole_table() {
    let folder = tempfile::tempdir().expect("a folder");
    let mut harness = window(folder.path());
    paste(
        &mut harness,
        "hole\tqty\tdia\tmin\tmax\tdepth\r\nA\t4\t0.8\t\t\t12\r\nB\t2\t1.2\t1.15\t1.25\t14\r\nC\t2\tabout 1\t\t\t14\r\n",
    );
    let summary = "pasted: 3 lines, 1 as it stands, 2 to look at";
    let count = |harness: &Harness<'_, Window>, said: &str| {
        harness.query_all_by_label_contains(said).count()
    };
    let unread = "line 4: unread: size \u{201c}about 1\u{201d}";
    assert_eq!(count(&harness, unread), 0, "folded");
    harness.get_by_label(summary).click();
    harness.run();
    // The foot says some of it too, among other things: here each stands by itself.
    for said in [
        "The first line was taken as the head: hole, qty, dia, min, max, depth.",
        "Lengths without a unit were read in millimeters.",
    ] {
        assert_eq!(harness.query_all_by_label(said).count(), 1, "{said}");
    }
    for said in [
        "line 3: look: the limits 1.15 and 1.25 were taken, not the size 1.2",
        unread,
    ] {
        assert_eq!(count(&harness, said), 1, "{said}");
    }
    harness.get_by_label(summary).click();
    harness.run();
    assert_eq!(count(&harness, unread), 0, "folded again");
    // A further table has a line of its own; cells pasted as they stand have none.
    harness.get_by_label("hole 4 mark").click();
    harness.run();
    harness.event(Event::Paste("hole\tdia\r\nD\t0.8\r\n".to_owned()));
    harness.run();
    land(&mut harness);
    harness.get_by_label("pasted: 1 line, as it stands");
    harness.get_by_label("hole 5 mark").click();
    harness.run();
    harness.event(Event::Paste("E\t2\t0.8\r\nF\t2\t0.9\r\n".to_owned()));
    harness.run();
    assert_eq!(harness.state().job().rows.len(), 6);
    assert_eq!(count(&harness, "pasted: "), 2);
    // They go with their steps.
    for left in [2, 2, 1, 0] {
        assert_eq!(harness.state().job().reports.len(), left);
        assert_eq!(count(&harness, "pasted: "), left);
        harness.key_press_modifiers(Modifiers::COMMAND, Key::Z);
        harness.run();
    }
}

#[test]
fn a_list_of_places_pasted_below_the_table_is_one_row_and_over_a_row_its_places() {
    let folder = tempfile::tempdir().expect("a folder");
    let mut harness = window(folder.path());
    paste(&mut harness, "A\t3\t0.8 +-0.05\t12\r\n");
    harness.get_by_label("hole 2 mark").click();
    harness.run();
    let list = "x\ty\r\n10\t5\r\n20\t5\r\n30\t5\r\n";
    harness.event(Event::Paste(list.to_owned()));
    harness.run();
    land(&mut harness);
    let job = harness.state().job();
    assert_eq!(job.rows.len(), 2);
    assert_eq!((job.rows[1].places.len(), job.rows[1].holes()), (3, 3));
    assert_eq!(
        harness.state().app().desk().history.undo_label(),
        Some("paste a row")
    );
    harness.get_by_label("hole 1 mark").click();
    harness.run();
    harness.event(Event::Paste(list.to_owned()));
    harness.run();
    land(&mut harness);
    let job = harness.state().job();
    assert_eq!(job.rows.len(), 2);
    assert_eq!(job.rows[0].places.len(), 3);
    assert_eq!(job.rows[0].size.text(), "0.8 +-0.05");
}

#[test]
fn escape_pastes_nothing_and_says_so() {
    let folder = tempfile::tempdir().expect("a folder");
    let mut harness = window(folder.path());
    paste(&mut harness, WITH_FINISH);
    harness.key_press(Key::Escape);
    harness.run();
    assert_eq!(harness.state().app().view().waiting, None);
    assert_eq!(harness.state().job().rows.len(), 0);
    let notice = &harness.state().app().desk().notice;
    assert!(notice.starts_with("Nothing was pasted"), "{notice}");
}

#[test]
fn a_row_copied_within_the_table_leaves_no_computed_figure_behind() {
    let folder = tempfile::tempdir().expect("a folder");
    let mut harness = window(folder.path());
    paste(&mut harness, "A\t6\t0.8 +-0.05\t12\r\n");
    harness.get_by_label("hole 1 mark").click();
    harness.run();
    harness.key_press_modifiers(Modifiers::SHIFT, Key::End);
    harness.run();
    harness.event(Event::Copy);
    harness.step();
    let commands = harness.output().platform_output.commands.clone();
    let copied = commands.into_iter().find_map(|command| match command {
        egui::OutputCommand::CopyText(text) => Some(text),
        _ => None,
    });
    let copied = copied.expect("the row is on the clipboard");
    assert!(
        copied.split('\t').count() > 7,
        "with computed cells: {copied}"
    );
    harness.get_by_label("hole 2 mark").click();
    harness.run();
    harness.event(Event::Paste(copied));
    harness.run();
    let job = harness.state().job();
    assert_eq!(job.rows.len(), 2);
    assert_eq!(job.rows[1].size.text(), "0.8 +-0.05");
    assert!(job.rows[1].note.is_empty());
}

#[test]
fn what_is_pasted_over_computed_columns_from_elsewhere_is_asked_about() {
    let folder = tempfile::tempdir().expect("a folder");
    let mut harness = window(folder.path());
    paste(&mut harness, "A\t6\t0.8 +-0.05\t12\tthru\t\t\t0.70\r\n");
    harness.get_by_label("column 8 is");
    type_on(&mut harness, "which is this", "leave");
    land(&mut harness);
    assert_eq!(harness.state().job().rows.len(), 1);
    assert!(harness.state().job().rows[0].note.is_empty());
}

#[test]
fn ditto_marks_take_no_lines_with_them() {
    let folder = tempfile::tempdir().expect("a folder");
    let mut harness = window(folder.path());
    let rows: String = (0..40)
        .map(|row| format!("H{row}\t3\t0.8\t5\t\"\r\n"))
        .collect();
    paste(
        &mut harness,
        &format!("hole\tqty\tdia\tdepth\tnote\r\n{rows}"),
    );
    let job = harness.state().job();
    assert_eq!(job.rows.len(), 40);
    assert!(job.rows.iter().all(|row| row.note.text() == "\""));
}

#[test]
fn what_is_too_wide_for_a_hole_table_is_told_and_nothing_is_taken() {
    let folder = tempfile::tempdir().expect("a folder");
    let mut harness = window(folder.path());
    paste(&mut harness, &format!("A\t1\n{}x\n", "\t".repeat(2_000)));
    assert_eq!(harness.state().job().rows.len(), 0);
    let notice = harness.state().app().desk().notice.clone();
    assert!(
        notice.starts_with("Line 2 has more than 1000 cells, which no hole table has: "),
        "{notice}"
    );
}

/// Lines of a drawing's title, a head in German, a sum, and the customer's own name for a column.
const FROM_ABROAD: &str = "Zeichnung 4711\r\n\r\nBohrung\tAnzahl\tDurchm. (mm)\tTiefe\tLack\r\nA\t4\t0,80 +-0,05\t12\tja\r\nB\t2\t1,2 +-0,1\t14\tnein\r\nSumme\t6\t\t\t\r\n";

#[test]
fn a_table_is_shown_before_it_lands_and_what_was_said_is_remembered_for_the_customer() {
    let folder = tempfile::tempdir().expect("a folder");
    let mut harness = window(folder.path());
    // Nothing has the keyboard: the table goes below the last row all the same.
    harness.event(Event::Paste(FROM_ABROAD.to_owned()));
    harness.run();
    assert_eq!(harness.state().job().rows.len(), 0, "it hasn't landed");
    harness.get_by_label("1 of 5 columns not understood: which is it?");
    assert!(
        harness
            .query_all_by_label_contains("6 holes in 2 rows")
            .count()
            > 0
    );
    type_on(&mut harness, "which is this", "leave");
    land(&mut harness);
    let job = harness.state().job();
    assert_eq!(job.rows.len(), 2);
    assert_eq!(job.rows[1].size.text(), "1,2 +-0,1");
    assert_eq!((job.rows[0].holes(), job.rows[1].holes()), (4, 2));

    // The same customer's next table asks nothing any more.
    harness.key_press_modifiers(Modifiers::COMMAND, Key::N);
    harness.run();
    type_on(&mut harness, "customer", "Grove Pump Works");
    harness.key_press(Key::Escape);
    harness.run();
    press(&mut harness, "hole 1 mark");
    harness.event(Event::Paste(FROM_ABROAD.to_owned()));
    harness.run();
    harness.get_by_label_contains("as said of this customer's tables before");
    land(&mut harness);
    assert_eq!(harness.state().job().rows.len(), 2);
}

#[test]
fn what_a_column_was_taken_for_can_be_said_otherwise() {
    let folder = tempfile::tempdir().expect("a folder");
    let mut harness = window(folder.path());
    press(&mut harness, "hole 1 mark");
    let table = "hole\tdia\tmin\tdepth\r\nA\t0.8 +-0.05\t6\t12\r\n";
    harness.event(Event::Paste(table.to_owned()));
    harness.run();
    assert!(matches!(
        harness.state().app().view().waiting,
        Some(Waiting::Column(..))
    ));
    // The pointer takes a column, a press what it is.
    let column = harness.get_by_label_contains("column 3");
    column.click();
    harness.run();
    harness.get_by_label("min is");
    type_on(&mut harness, "which is this", "note");
    land(&mut harness);
    assert_eq!(harness.state().job().rows[0].note.text(), "min: 6");
    assert_eq!(harness.state().job().rows[0].size.text(), "0.8 +-0.05");
}
