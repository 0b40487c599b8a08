//! Readers of the screen: everything that can be pressed or typed on has a name, and no two places to
//! type have the same.

use std::collections::BTreeSet;

use egui::accesskit::Role;
use egui::{Event, Key, Modifiers, PointerButton};
use egui_kittest::{Harness, kittest::NodeT as _, kittest::Queryable as _};

use crate::hands::{Window, paste, press, window};
use crate::still::demo;

/// What has no name, and what has the name of another place to type.
fn unnamed(harness: &Harness<'_, Window>) -> Vec<String> {
    let used = [
        Role::TextInput,
        Role::MultilineTextInput,
        Role::Link,
        Role::Button,
        Role::Cell,
        Role::Grid,
        Role::Image,
        Role::CheckBox,
    ];
    let mut names = BTreeSet::new();
    let mut faults = Vec::new();
    for node in harness.query_all_by(|node| used.contains(&node.role())) {
        let (node, rect) = (node.accesskit_node(), node.rect());
        let name = node.label().unwrap_or_default();
        if name.trim().is_empty() {
            faults.push(format!("{:?} without a name at {rect:?}", node.role()));
        }
        let is_typed = matches!(node.role(), Role::TextInput | Role::MultilineTextInput);
        if is_typed && !names.insert(name.clone()) {
            faults.push(format!("two places to type are called {name}"));
        }
    }
    faults
}

#[test]
fn everything_on_every_page_has_a_name() {
    let folder = tempfile::tempdir().expect("a folder");
    for number in ["26-0101", "25-0388"] {
        let mut harness = demo(folder.path(), number);
        assert_eq!(unnamed(&harness), Vec::<String>::new(), "{number}");
        for block in ["Inquiry", "Plan", "Price"] {
            press(&mut harness, &format!("more lines of {block}"));
        }
        press(&mut harness, "all columns");
        press(&mut harness, "hole 1 min per hole");
        assert_eq!(unnamed(&harness), Vec::<String>::new(), "{number}, opened");
        harness.key_press(Key::Escape);
        harness.run();
        for key in [Key::K, Key::Comma, Key::P] {
            harness.key_press_modifiers(Modifiers::COMMAND, key);
            harness.run();
            assert_eq!(unnamed(&harness), Vec::<String>::new(), "{number}, {key:?}");
            harness.key_press(Key::Escape);
            harness.run();
        }
        harness.key_press(Key::F8);
        harness.run();
        assert_eq!(unnamed(&harness), Vec::<String>::new(), "{number}, learned");
        for key in [Key::F7, Key::F5] {
            harness.key_press(key);
            harness.run();
            assert_eq!(unnamed(&harness), Vec::<String>::new(), "{number}, {key:?}");
        }
    }
}

#[test]
fn what_can_be_done_to_a_row_is_offered_where_it_is_asked() {
    let folder = tempfile::tempdir().expect("a folder");
    let mut harness = window(folder.path());
    paste(
        &mut harness,
        "A\t6\t0.8 +-0.05\t12\r\nB\t4\t0.8 +-0.05\t12\r\n",
    );
    let ask = |harness: &mut Harness<'_, Window>| {
        harness
            .get_by_label("hole 2 size")
            .click_button(PointerButton::Secondary);
        harness.run();
    };
    let offered = |harness: &Harness<'_, Window>| harness.state().app().view().row_menu.is_some();
    ask(&mut harness);
    assert!(offered(&harness));
    assert_eq!(unnamed(&harness), Vec::<String>::new());
    harness.key_press(Key::Escape);
    harness.run();
    assert!(!offered(&harness), "Esc backs out");
    ask(&mut harness);
    // The word under the table is called so, too: the menu's stands last.
    let words: Vec<_> = harness.query_all_by_label("delete row").collect();
    assert_eq!(words.len(), 2);
    words[1].click();
    drop(words);
    harness.run();
    let job = harness.state().job();
    assert_eq!(job.rows.len(), 1);
    assert_eq!(job.rows[0].mark.text(), "A");
    assert!(!offered(&harness));
}

#[test]
fn a_ditto_mark_takes_what_stands_above() {
    let folder = tempfile::tempdir().expect("a folder");
    let mut harness = window(folder.path());
    paste(&mut harness, "A\t6\t0.8 +-0.05\t12\r\n");
    press(&mut harness, "hole 2 size");
    harness.event(Event::Text("\"".to_owned()));
    harness.run();
    harness.key_press(Key::Enter);
    harness.run();
    let job = harness.state().job();
    assert_eq!(job.rows.len(), 2);
    assert_eq!(job.rows[1].size.text(), "0.8 +-0.05");
    // In the first row there is nothing above it.
    press(&mut harness, "hole 1 mark");
    harness.event(Event::Text("\"".to_owned()));
    harness.run();
    harness.key_press(Key::Enter);
    harness.run();
    assert_eq!(harness.state().job().rows[0].mark.text(), "\"");
}
