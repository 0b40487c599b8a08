//! Side notes and figures: what they offer, how one comes about, what is answered.

use egui::accesskit::Role;
use egui::{Event, Key, Modifiers};
use egui_kittest::{Harness, kittest::Queryable as _};

use crate::hands::{Window, do_word, paste, press, type_on, window};

#[test]
fn a_remedy_in_a_side_note_mends_what_it_speaks_of() {
    let folder = tempfile::tempdir().expect("a folder");
    let mut harness = window(folder.path());
    paste(
        &mut harness,
        "hole\tdia\tdepth\tend\tbehind\r\nA\t0.8 +-0.05\t8\tinto\t1\r\n",
    );
    let codes = |harness: &Harness<'_, Window>| -> Vec<&'static str> {
        harness
            .state()
            .app()
            .desk()
            .results()
            .notes
            .iter()
            .map(quillbore_job::results::SideNote::code)
            .collect()
    };
    assert!(codes(&harness).contains(&"backing-needed"));
    harness.get_by_label("add backing").click();
    harness.run();
    assert!(!codes(&harness).contains(&"backing-needed"));
}

#[test]
fn a_figure_of_the_foot_opens_its_working() {
    let folder = tempfile::tempdir().expect("a folder");
    let mut harness = window(folder.path());
    paste(&mut harness, "A\t6\t0.8 +-0.05\t12\r\n");
    let price = harness
        .state()
        .app()
        .desk()
        .results()
        .figures
        .price
        .clone()
        .expect("a price");
    let each = price.breaks.first().expect("a quantity").each;
    let said = format!("{each} {}", price.currency);
    harness.get_by_label(&said).click();
    harness.run();
    assert_eq!(
        harness.state().app().view().opened,
        Some(quillbore_calc::Figure::UnitPrice(12))
    );
    let told = harness
        .query_all_by_label_contains("minimum charge")
        .count();
    assert!(told > 0, "the working names what went into the price");
}

#[test]
fn a_check_is_answered_in_its_side_note_and_by_keyboard() {
    let folder = tempfile::tempdir().expect("a folder");
    let mut harness = window(folder.path());
    paste(
        &mut harness,
        "hole\tdia\tdepth\tend\tbehind\r\nA\t0.8\t8\tinto\t1\r\nB\t0.8\t8\tthrough\t\r\n",
    );
    let notice = |harness: &Harness<'_, Window>| harness.state().app().desk().notice.clone();
    let open = |harness: &Harness<'_, Window>| {
        let results = harness.state().app().desk().results().clone();
        results.found().unanswered.len()
    };
    let heads = |harness: &Harness<'_, Window>, text: &str| {
        harness.query_all_by_label_contains(text).count() > 0
    };
    assert_eq!(open(&harness), 3);
    assert!(heads(&harness, "to quote: "), "not ready");
    do_word(&mut harness, "issue quotation");
    assert!(
        notice(&harness).contains("limits assumed (A, B)"),
        "{}",
        notice(&harness)
    );
    assert_eq!(harness.state().job().issued.len(), 0);

    // The note about both rows is answered once, for both.
    press(&mut harness, "told and agreed: limits assumed of A, B");
    let line = "the customer was told and agreed, by whom: limits assumed of A, B";
    let field = harness.get_by_role_and_label(Role::TextInput, line);
    assert!(field.is_focused(), "the line has the keyboard");
    harness.key_press(Key::Escape);
    harness.run();
    assert!(
        harness.state().app().view().answering.is_none() && open(&harness) == 3,
        "Esc backs out"
    );
    press(&mut harness, "told and agreed: limits assumed of A, B");
    harness.key_press(Key::Enter);
    harness.run();
    assert_eq!(open(&harness), 3, "nobody is named");
    type_on(&mut harness, line, "M. Oakes");
    assert_eq!(open(&harness), 1, "{}", notice(&harness));
    assert!(heads(&harness, "agreed by M. Oakes"));

    // By keyboard alone: command, line, Enter.
    do_word(&mut harness, "answer wall a accepted");
    harness.event(Event::Text("a dead end, a mark does no harm".to_owned()));
    harness.run();
    harness.key_press(Key::Enter);
    harness.run();
    assert_eq!(open(&harness), 0, "{}", notice(&harness));
    assert!(heads(&harness, "ready to quote"));
    harness.key_press_modifiers(Modifiers::COMMAND, Key::Z);
    harness.run();
    assert_eq!(open(&harness), 1, "undo takes it back");
    harness.key_press_modifiers(Modifiers::COMMAND.plus(Modifiers::SHIFT), Key::Z);
    harness.run();
    do_word(&mut harness, "issue quotation");
    assert_eq!(
        harness.state().job().issued.len(),
        1,
        "{}",
        notice(&harness)
    );
    let text = harness.state().job().issued[0].pages.join("\n");
    assert!(text.contains("Agreed by M. Oakes"), "{text}");
    press(&mut harness, "delete the answer: wall behind the exit of A");
    assert_eq!(open(&harness), 1);
}

/// A job of many rows has an answer for each of them: a hundred words are laid out, and what is typed
/// finds the others.
#[test]
fn the_words_of_very_many_rows_are_counted_and_found() {
    let folder = tempfile::tempdir().expect("a folder");
    let mut harness = window(folder.path());
    // Without limits the shop assumes some, which wants an answer.
    let rows: String = (0..300)
        .map(|row| format!("H{row}\t1\t0.8\t12\r\n"))
        .collect();
    paste(&mut harness, &format!("hole\tqty\tdia\tdepth\r\n{rows}"));
    harness.key_press_modifiers(Modifiers::COMMAND, Key::K);
    harness.run();
    let answers = |harness: &Harness<'_, Window>| {
        let all = harness.query_all_by_label_contains("answer limits assumed of hole");
        all.count()
    };
    assert!(
        (1..100).contains(&answers(&harness)),
        "{}",
        answers(&harness)
    );
    let more = harness.query_all_by_label_contains("more: type a part of the one you want");
    assert_eq!(more.count(), 1);
    type_on(&mut harness, "find a command", "hole H299: accepted");
    let answering = harness.state().app().view().answering.clone();
    assert!(answering.is_some(), "the last row's answer was found");
}

/// The picture is of what one works at: a hole, the electrodes, the spread.
#[test]
fn the_picture_follows_to_the_block_that_one_works_in() {
    let folder = tempfile::tempdir().expect("a folder");
    let mut harness = window(folder.path());
    paste(&mut harness, "A\t6\t0.8 +-0.05\t12\r\n");
    harness.get_by_label_contains("hole A, 0\u{b0} from the normal; flush ");
    harness
        .get_by_role_and_label(Role::TextInput, "machine")
        .click();
    harness.run();
    harness.get_by_label("electrodes of the lot, by what they drill");
    harness
        .get_by_role_and_label(Role::TextInput, "margin")
        .click();
    harness.run();
    harness.get_by_label("hatched: low to high; thick line: likely");
    harness.get_by_label("hole 1 mark").click();
    harness.run();
    harness.get_by_label_contains("hole A, 0\u{b0} from the normal; flush ");
}
