//! What made somebody hesitate who worked in the window for the first time: each stays mended.

use egui::{Event, Key, Modifiers};
use egui_kittest::{Harness, kittest::Queryable as _};
use quillbore_desk::view::Waiting;
use quillbore_job::life::{self, State};
use quillbore_job::{Field, Line, Paper, SlipKind};

use crate::hands::{Window, do_word, paste, press, type_on, window};

fn told(harness: &Harness<'_, Window>, text: &str) -> usize {
    harness.query_all_by_label_contains(text).count()
}

fn key(harness: &mut Harness<'_, Window>, held: Modifiers, key: Key) {
    harness.key_press_modifiers(held, key);
    harness.run();
}

fn type_text(harness: &mut Harness<'_, Window>, text: &str) {
    harness.event(Event::Text(text.to_owned()));
    harness.run();
}

/// Three sizes whose limits nobody gave ask three times: answered one after another by F3 and Enter, each
/// is asked once and none is left out.
#[test]
fn no_check_is_skipped_where_the_one_before_was_answered() {
    let folder = tempfile::tempdir().expect("a folder");
    let mut harness = window(folder.path());
    paste(
        &mut harness,
        "A\t2\t0.5\t8\r\nB\t3\t0.8\t12\r\nC\t4\t1.2\t20\r\n",
    );
    let open = |harness: &Harness<'_, Window>| {
        let notes = &harness.state().app().desk().results().notes;
        let questions = notes.iter().filter_map(|note| note.question.as_ref());
        questions
            .filter(|question| question.answer.is_none())
            .count()
    };
    let all = open(&harness);
    assert!(all >= 3, "{all} are asked");
    for answered in 1..=all {
        key(&mut harness, Modifiers::NONE, Key::F3);
        harness.key_press(Key::Enter);
        harness.run();
        type_text(&mut harness, "Mr. Reed, by telephone");
        harness.key_press(Key::Enter);
        harness.run();
        assert_eq!(open(&harness), all - answered, "one at a time, none twice");
    }
}

/// The same asked of several rows, whose sizes differ, takes one answer where somebody says so.
#[test]
fn one_answer_is_for_all_rows_that_are_asked_alike() {
    let folder = tempfile::tempdir().expect("a folder");
    let mut harness = window(folder.path());
    paste(
        &mut harness,
        "A\t2\t0.5\t8\r\nB\t3\t0.8\t12\r\nC\t4\t1.2\t20\r\n",
    );
    key(&mut harness, Modifiers::NONE, Key::F3);
    harness.key_press(Key::Enter);
    harness.run();
    type_text(&mut harness, "Mr. Reed, by telephone");
    press(&mut harness, "also for B, C");
    press(&mut harness, "note it");
    let answers = &harness.state().job().answers;
    assert_eq!(answers.iter().count(), 3);
    let notes = &harness.state().app().desk().results().notes;
    let open = notes.iter().filter_map(|note| note.question.as_ref());
    assert!(open.into_iter().all(|question| question.answer.is_some()));
    key(&mut harness, Modifiers::COMMAND, Key::Z);
    assert_eq!(
        harness.state().job().answers.iter().count(),
        0,
        "one step back"
    );
}

/// What the quotation would leave open is said by a word each, as far as the shop knows it.
#[test]
fn open_terms_of_a_quotation_are_one_press_each() {
    let folder = tempfile::tempdir().expect("a folder");
    let mut harness = window(folder.path());
    paste(&mut harness, "A\t6\t0.8 +-0.05\t12\r\n");
    let days = harness
        .state()
        .app()
        .desk()
        .promise()
        .expect("a promise")
        .days
        .p90;
    key(&mut harness, Modifiers::COMMAND, Key::P);
    press(&mut harness, &format!("say lead time: {days} working days"));
    press(&mut harness, "say valid for: 30 days");
    let job = harness.state().job();
    assert_eq!(job.text(Field::LeadDays), days.to_string());
    assert_eq!(job.text(Field::ValidDays), "30");
    assert_eq!(told(&harness, "say lead time"), 1, "it keeps its place");
}

/// The key of the next step is about the paper that is on the screen; one that stands already is not
/// issued a second time by it, and nothing else is done.
#[test]
fn the_key_in_a_preview_is_about_its_paper_alone() {
    let folder = tempfile::tempdir().expect("a folder");
    let mut harness = window(folder.path());
    paste(&mut harness, "A\t6\t0.8 +-0.05\t12\r\n");
    do_word(&mut harness, "save");
    key(&mut harness, Modifiers::COMMAND, Key::Enter);
    key(&mut harness, Modifiers::COMMAND, Key::Enter);
    let issued = |harness: &Harness<'_, Window>| harness.state().job().issued.len();
    assert_eq!(issued(&harness), 1);
    assert_eq!(life::state(harness.state().job()), State::Quoted);
    do_word(&mut harness, "preview quotation");
    assert_eq!(harness.state().app().view().paper, Some(Paper::Quotation));
    assert_eq!(
        told(&harness, "record order"),
        0,
        "nothing else has the key"
    );
    assert_eq!(told(&harness, "issue another quotation"), 1);
    let slips = harness.state().job().slips.len();
    key(&mut harness, Modifiers::COMMAND, Key::Enter);
    assert_eq!(issued(&harness), 1);
    assert_eq!(
        harness.state().job().slips.len(),
        slips,
        "no order was added"
    );
    let notice = &harness.state().app().desk().notice;
    assert!(notice.starts_with("A quotation stands already"), "{notice}");
    key(&mut harness, Modifiers::NONE, Key::Escape);
    assert_eq!(told(&harness, "record order"), 1);
    // The head says what was quoted.
    let each = harness.state().job().issued[0].lines[0]
        .each
        .expect("a price");
    assert_eq!(told(&harness, &format!("quoted at {each} each")), 1);
}

/// In a field in which nothing was typed undo takes back what was done to the job, and the field doesn't
/// put it back.
#[test]
fn undo_in_an_untouched_field_is_the_jobs() {
    let folder = tempfile::tempdir().expect("a folder");
    let mut harness = window(folder.path());
    type_on(&mut harness, "contact", "Ms. Lind");
    press_field(&mut harness, "contact");
    key(&mut harness, Modifiers::COMMAND, Key::Z);
    assert_eq!(harness.state().job().text(Field::Contact), "");
    harness.key_press(Key::Tab);
    harness.run();
    assert_eq!(harness.state().job().text(Field::Contact), "");
    // While something is being typed there, the text has its own undo.
    press_field(&mut harness, "contact");
    type_text(&mut harness, "Mr.");
    let customer = harness.state().job().text(Field::Customer).to_owned();
    key(&mut harness, Modifiers::COMMAND, Key::Z);
    assert_eq!(harness.state().job().text(Field::Customer), customer);
    assert_eq!(harness.state().job().text(Field::Quantity), "12");
}

/// A table is no text for a field of one line; a word is.
#[test]
fn a_table_pasted_in_a_field_goes_to_the_holes() {
    let folder = tempfile::tempdir().expect("a folder");
    let mut harness = window(folder.path());
    press_field(&mut harness, "contact");
    harness.event(Event::Paste("Ms. Lind".to_owned()));
    harness.run();
    harness.event(Event::Paste(
        "dia\tdepth\r\n0.8\t12\r\n1.2\t20\r\n".to_owned(),
    ));
    harness.run();
    let waiting = &harness.state().app().view().waiting;
    assert!(matches!(waiting, Some(Waiting::Column(..))), "{waiting:?}");
    harness.key_press(Key::Enter);
    harness.run();
    assert_eq!(harness.state().job().rows.len(), 2);
    assert_eq!(harness.state().job().text(Field::Contact), "Ms. Lind");
}

/// After a column was said by mouse the keyboard is back on the line, so that Enter lands the table.
#[test]
fn enter_lands_a_table_whose_column_was_said_by_mouse() {
    let folder = tempfile::tempdir().expect("a folder");
    let mut harness = window(folder.path());
    press(&mut harness, "hole 1 mark");
    harness.event(Event::Paste(
        "mark\tdia\tdepth\twhat\r\nA\t0.8\t12\tgrey\r\nB\t1.2\t20\tblue\r\n".to_owned(),
    ));
    harness.run();
    // What another column is already is said to be so.
    type_text(&mut harness, "mark");
    assert_eq!(told(&harness, "“mark” is the mark already"), 1);
    for _ in 0..4 {
        harness.key_press(Key::Backspace);
    }
    harness.run();
    press(&mut harness, "leave it out");
    harness.key_press(Key::Enter);
    harness.run();
    assert_eq!(harness.state().job().rows.len(), 2);
}

/// The question before the window closes has the keyboard every time that it is asked.
#[test]
fn a_question_asked_again_has_the_keyboard_again() {
    let folder = tempfile::tempdir().expect("a folder");
    let mut harness = window(folder.path());
    for _ in 0..3 {
        key(&mut harness, Modifiers::COMMAND, Key::W);
        assert!(harness.get_by_label("save and close").is_focused());
        harness.key_press(Key::Escape);
        harness.run();
        assert!(harness.state().app().view().waiting.is_none());
    }
}

/// A search without a hit doesn't make the list small for the next one; and the window closes by word.
#[test]
fn the_list_of_commands_is_as_long_after_a_search_without_a_hit() {
    let folder = tempfile::tempdir().expect("a folder");
    let mut harness = window(folder.path());
    let shown = |harness: &mut Harness<'_, Window>| {
        key(harness, Modifiers::COMMAND, Key::K);
        harness.run();
        let place = harness.get_by_label("next stop or check").rect();
        let first = harness.get_by_label("save as").rect();
        let quit = harness.query_by_label("quit").is_some();
        (place.top() - first.top(), quit)
    };
    let before = shown(&mut harness);
    type_text(&mut harness, "xyzzy");
    assert_eq!(told(&harness, "no command has that in it"), 1);
    harness.key_press(Key::Escape);
    harness.run();
    assert_eq!(shown(&mut harness), before);
    assert!(before.1);
}

/// A line that is begun by hand in the table of run records is of today; what is pasted says itself.
#[test]
fn a_run_that_is_typed_below_the_last_is_of_today() {
    let folder = tempfile::tempdir().expect("a folder");
    let mut harness = window(folder.path());
    paste(&mut harness, "A\t6\t0.8 +-0.05\t12\r\n");
    do_word(&mut harness, "add parts");
    type_on(&mut harness, "count of parts received 1", "12");
    press(&mut harness, "run 1 mark");
    type_text(&mut harness, "A");
    harness.key_press(Key::Enter);
    harness.run();
    let runs = harness.state().job().slips.iter();
    let runs: Vec<_> = runs.filter(|slip| slip.kind == SlipKind::Run).collect();
    assert_eq!(runs.len(), 1);
    assert_eq!(runs[0].line(Line::Mark).text(), "A");
    assert_eq!(runs[0].line(Line::Date).text(), "25 Nov 2026");
}

/// A machine's name stands with what it drills and costs, so that nobody has to know.
#[test]
fn machines_are_listed_with_what_they_drill() {
    let folder = tempfile::tempdir().expect("a folder");
    let mut harness = window(folder.path());
    press_field(&mut harness, "machine");
    assert!(told(&harness, "Barrow") > 0);
    let machine = harness.get_by_label("Barrow").rect();
    assert!(machine.width() >= 300.0, "the list is open");
}

fn press_field(harness: &mut Harness<'_, Window>, label: &str) {
    harness
        .get_by_role_and_label(egui::accesskit::Role::TextInput, label)
        .click();
    harness.run();
}

/// A click that is pressed and let go within one frame, or in two that follow each other, gives the table
/// the keyboard from wherever it was.
#[test]
fn a_quick_click_on_a_cell_takes_the_keyboard() {
    let folder = tempfile::tempdir().expect("a folder");
    let mut harness = window(folder.path());
    for (row, at_once) in [(1, true), (2, false)] {
        press_field(&mut harness, "contact");
        let cell = harness.get_by_label(&format!("hole {row} mark")).rect();
        let pos = cell.center();
        harness.event(Event::PointerMoved(pos));
        harness.step();
        let button = |pressed| Event::PointerButton {
            pos,
            button: egui::PointerButton::Primary,
            pressed,
            modifiers: Modifiers::NONE,
        };
        harness.event(button(true));
        if !at_once {
            harness.step();
        }
        harness.event(button(false));
        harness.step();
        harness.run();
        type_text(&mut harness, "A");
        harness.key_press(Key::Enter);
        harness.run();
        let rows = &harness.state().job().rows;
        assert_eq!(rows.len(), row, "at once: {at_once}");
        assert_eq!(harness.state().job().text(Field::Contact), "");
    }
}

/// F1 and Esc leave the keyboard where it was, and what was being typed there.
#[test]
fn help_gives_the_keyboard_back() {
    let folder = tempfile::tempdir().expect("a folder");
    let mut harness = window(folder.path());
    press_field(&mut harness, "contact");
    type_text(&mut harness, "Ms. ");
    key(&mut harness, Modifiers::NONE, Key::F1);
    key(&mut harness, Modifiers::NONE, Key::Escape);
    assert!(!harness.state().app().view().help);
    type_text(&mut harness, "Lind");
    harness.key_press(Key::Tab);
    harness.run();
    assert_eq!(harness.state().job().text(Field::Contact), "Ms. Lind");
}

/// Behind the fifth field of a quick price Tab comes to the word that makes it the job.
#[test]
fn enter_behind_the_fifth_field_makes_the_quick_price_the_job() {
    let folder = tempfile::tempdir().expect("a folder");
    let mut harness = window(folder.path());
    key(&mut harness, Modifiers::COMMAND, Key::N);
    for text in ["718", "0.8", "14", "36", "25"] {
        type_text(&mut harness, text);
        harness.key_press(Key::Tab);
        harness.run();
    }
    assert!(harness.get_by_label("make it the job").is_focused());
    harness.key_press(Key::Enter);
    harness.run();
    assert_eq!(harness.state().job().rows.len(), 1);
}

/// A text that was typed back to what stood there still has its own redo.
#[test]
fn what_was_undone_in_a_field_can_be_done_again_there() {
    let folder = tempfile::tempdir().expect("a folder");
    let mut harness = window(folder.path());
    press_field(&mut harness, "contact");
    type_text(&mut harness, "L");
    harness.key_press(Key::Backspace);
    harness.run();
    let customer = harness.state().job().text(Field::Customer).to_owned();
    key(&mut harness, Modifiers::COMMAND, Key::Z);
    let job = harness.state().job();
    assert_eq!(job.text(Field::Customer), customer, "the job stays");
    assert_eq!(job.text(Field::Quantity), "12");
}

/// F3 brings a check of the hole table into sight also where nothing of the table was.
#[test]
fn a_check_far_below_comes_into_sight() {
    let folder = tempfile::tempdir().expect("a folder");
    let mut harness = window(folder.path());
    paste(&mut harness, "A\t2\t0.5\t8\r\n");
    harness.set_size(crate::hands::window_size(1280.0, 560.0));
    harness.run();
    press(&mut harness, "more lines of Inquiry");
    for _ in 0..10 {
        key(&mut harness, Modifiers::NONE, Key::F3);
        harness.run();
    }
    let cell = harness.get_by_label("hole 1 size").rect();
    assert!((64.0..500.0).contains(&cell.center().y), "{cell:?}");
}
