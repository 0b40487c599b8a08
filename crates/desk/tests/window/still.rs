//! Nothing moves under the hand: what is typed, opened and closed leaves every line where it was.

use egui::accesskit::Role;
use egui::{Event, Key, Modifiers, PointerButton, Rect};
use egui_kittest::{Harness, kittest::NodeT as _, kittest::Queryable as _};
use quillbore_job::file::read_job;

use crate::hands::{Window, desk_of, office, press, window_with};

/// A demo job in a window that shows its whole sheet.
pub(crate) fn demo(folder: &std::path::Path, number: &str) -> Harness<'static, Window> {
    let path = format!(
        "{}/../../demo-jobs/{number}.ron",
        env!("CARGO_MANIFEST_DIR")
    );
    let bytes = std::fs::read(path).expect("a demo job");
    let job = read_job(&bytes).expect("it opens");
    let mut desk = desk_of(&office(folder));
    desk.put(job);
    window_with(
        desk,
        office(folder),
        quillbore_office::start::Standing::Ready,
    )
}

/// What can be typed on or pressed, by what it is called, and where it stands.
fn lines(harness: &Harness<'_, Window>) -> Vec<(String, Rect)> {
    let wanted = [
        Role::TextInput,
        Role::MultilineTextInput,
        Role::Link,
        Role::Cell,
    ];
    let all = harness.query_all_by(|node| wanted.contains(&node.role()));
    let named = all.filter_map(|node| {
        let label = node.accesskit_node().label()?;
        Some((label, node.rect()))
    });
    named.collect()
}

/// The lines that stand elsewhere than before, or are gone; those of the margin and the foot may say
/// other things than before.
fn moved(before: &[(String, Rect)], after: &[(String, Rect)]) -> Vec<String> {
    const SHEET: std::ops::Range<f32> = 180.0..982.0;
    // There may be fewer figures than before: a figure stands somewhere, or nowhere.
    let of_sheet = |(label, rect): &&(String, Rect)| {
        !says_other_things(label)
            && SHEET.contains(&rect.left())
            && rect.top() > 70.0
            && rect.bottom() < 2_500.0
    };
    let stands = |(label, rect): &&(String, Rect)| {
        let mut all = after.iter();
        // A cell that is typed in has a name of its own.
        let editing = format!("editing {label}");
        all.any(|(other, at)| {
            let same = other == label || *other == editing;
            // Figures stand under each other at their right.
            same && (at.min == rect.min || at.right_top() == rect.right_top())
        })
    };
    let gone = before.iter().filter(of_sheet).filter(|line| !stands(line));
    gone.map(|(label, rect)| format!("{label} at {:?}", rect.min))
        .collect()
}

/// Whether a word is a figure, or names the row one is at: it says other things in the same place.
fn says_other_things(label: &str) -> bool {
    let figure = |sign: char| sign.is_ascii_digit() || "\u{2009}.,% ".contains(sign);
    label.chars().all(figure) || label.contains("hole locations of") || label.ends_with(" setup")
}

#[track_caller]
fn nothing_moved(harness: &Harness<'_, Window>, before: &[(String, Rect)], after_what: &str) {
    let moved = moved(before, &lines(harness));
    assert!(moved.is_empty(), "after {after_what}: {moved:?}");
}

#[test]
fn typing_on_every_field_moves_nothing() {
    let folder = tempfile::tempdir().expect("a folder");
    let mut harness = demo(folder.path(), "26-0101");
    let before = lines(&harness);
    let fields = harness
        .query_all_by(|node| [Role::TextInput, Role::MultilineTextInput].contains(&node.role()));
    let names: Vec<String> = fields
        .filter_map(|node| node.accesskit_node().label())
        .collect();
    assert!(names.len() > 25, "{names:?}");
    for name in names {
        let field = |node: &egui_kittest::kittest::AccessKitNode<'_>| {
            let typed = [Role::TextInput, Role::MultilineTextInput].contains(&node.role());
            typed && node.label().as_deref() == Some(name.as_str())
        };
        harness.get_by(field).focus();
        harness.run();
        nothing_moved(&harness, &before, &format!("going to {name}"));
        // What can't be read there, and what begins a name of a list.
        for text in ["n", "x"] {
            harness.event(Event::Text(text.to_owned()));
            harness.run();
            nothing_moved(&harness, &before, &format!("typing {text} on {name}"));
        }
        harness.key_press(Key::Escape);
        harness.run();
        nothing_moved(&harness, &before, &format!("leaving {name}"));
    }
}

#[test]
fn what_is_entered_moves_nothing_even_where_it_makes_or_ends_notes() {
    let folder = tempfile::tempdir().expect("a folder");
    let mut harness = demo(folder.path(), "26-0101");
    let before = lines(&harness);
    for (name, text) in [
        ("quantity", "1"),
        ("quantity", "many"),
        ("material", "Titanium"),
        ("material", ""),
        ("machine", "no such machine"),
        ("machine", ""),
    ] {
        harness.get_by_role_and_label(Role::TextInput, name).focus();
        harness.run();
        harness.key_press_modifiers(Modifiers::COMMAND, Key::A);
        harness.run();
        if text.is_empty() {
            harness.key_press(Key::Delete);
        } else {
            harness.event(Event::Text(text.to_owned()));
        }
        harness.run();
        harness.key_press(Key::Enter);
        harness.run();
        harness.key_press(Key::Escape);
        harness.run();
        nothing_moved(&harness, &before, &format!("entering {text:?} for {name}"));
    }
}

#[test]
fn opening_and_closing_moves_nothing_above_and_nothing_that_was_pressed() {
    let folder = tempfile::tempdir().expect("a folder");
    let mut harness = demo(folder.path(), "26-0101");
    let words: Vec<String> = lines(&harness)
        .into_iter()
        .map(|(label, _)| label)
        .filter(|label| {
            ["fold ", "more lines of ", "all columns"]
                .iter()
                .any(|begin| label.starts_with(begin))
        })
        .collect();
    assert!(words.len() > 8, "{words:?}");
    for word in words {
        let before = lines(&harness);
        let place = harness.get_by_label(&word).rect();
        let above: Vec<_> = before
            .iter()
            .filter(|(_, rect)| rect.bottom() <= place.top())
            .cloned()
            .collect();
        press(&mut harness, &word);
        nothing_moved(&harness, &above, &word);
        // The word itself may be another now, but it stands where the hand is.
        let other = word.replace("fold ", "open ");
        let stands = lines(&harness)
            .into_iter()
            .find(|(label, _)| *label == word || *label == other);
        let (_, now) = stands.unwrap_or_else(|| panic!("{word} is gone"));
        assert_eq!(now.right_top(), place.right_top(), "{word}");
        press(
            &mut harness,
            &if word.starts_with("fold ") {
                other
            } else {
                word.clone()
            },
        );
        nothing_moved(&harness, &before, &format!("{word}, and again"));
    }
}

#[test]
fn what_lies_over_the_sheet_moves_nothing() {
    let folder = tempfile::tempdir().expect("a folder");
    let mut harness = demo(folder.path(), "26-0101");
    let before = lines(&harness);
    // Workings: from a cell, from the price, from the foot.
    for cell in ["hole 1 min per hole", "hole 2 wear", "hole 3 electrode"] {
        press(&mut harness, cell);
        nothing_moved(&harness, &before, cell);
    }
    harness.key_press(Key::Escape);
    harness.run();
    nothing_moved(&harness, &before, "closing the working");
    for keys in [Key::K, Key::Comma] {
        harness.key_press_modifiers(Modifiers::COMMAND, keys);
        harness.run();
        let under: Vec<_> = before.clone();
        nothing_moved(&harness, &under, &format!("opening {keys:?}"));
        harness.key_press(Key::Escape);
        harness.run();
        nothing_moved(&harness, &before, &format!("closing {keys:?}"));
    }
    harness.key_press_modifiers(Modifiers::COMMAND, Key::P);
    harness.run();
    harness.key_press(Key::Escape);
    harness.run();
    nothing_moved(&harness, &before, "a preview");
}

#[test]
fn what_is_pressed_in_the_margin_leaves_the_notes_where_they_are() {
    let folder = tempfile::tempdir().expect("a folder");
    let mut harness = crate::hands::window(folder.path());
    crate::hands::paste(
        &mut harness,
        "hole\tdia\tdepth\tend\tbehind\r\nA\t0.8\t8\tinto\t1\r\nB\t0.9\t8\tinto\t1\r\n",
    );
    let margin = |harness: &Harness<'_, Window>| -> Vec<(String, Rect)> {
        let all = harness.query_all_by(|node| node.role() == Role::Link);
        let named = all.filter_map(|node| Some((node.accesskit_node().label()?, node.rect())));
        named
            .filter(|(_, rect)| rect.left() > 985.0 && rect.top() > 70.0)
            .collect()
    };
    let before = margin(&harness);
    let (word, place) = before
        .iter()
        .find(|(label, _)| label == "add backing")
        .cloned()
        .expect("a remedy");
    harness.event(Event::PointerMoved(place.center()));
    harness.run();
    for pressed in [true, false] {
        harness.event(Event::PointerButton {
            pos: place.center(),
            button: PointerButton::Primary,
            pressed,
            modifiers: Modifiers::NONE,
        });
        harness.run();
    }
    // The note is gone; those that stay, stay where they were.
    let after = margin(&harness);
    let same = |lines: &[(String, Rect)]| lines.iter().filter(|(label, _)| *label == word).count();
    assert_eq!(same(&after) + 1, same(&before), "{after:?}");
    let stays = |rect: &Rect| before.iter().any(|(_, was)| was.min == rect.min);
    assert!(
        after.iter().all(|(_, rect)| stays(rect)),
        "{before:?} {after:?}"
    );
    for (label, rect) in &after {
        let was = before.iter().filter(|(other, _)| other == label);
        assert!(
            was.into_iter().any(|(_, was)| was.min == rect.min),
            "{label}"
        );
    }
    assert!(after.len() > 1, "{after:?}");
}

#[test]
fn opening_a_job_moves_no_line_of_the_shelf() {
    let folder = tempfile::tempdir().expect("a folder");
    let first = office(folder.path());
    let demo = |number: &str| {
        let path = format!(
            "{}/../../demo-jobs/{number}.ron",
            env!("CARGO_MANIFEST_DIR")
        );
        std::fs::copy(path, folder.path().join(format!("{number}.ron"))).expect("a job");
    };
    let numbers = ["26-0101", "26-0102", "26-0103", "26-0104"];
    numbers.iter().for_each(|number| demo(number));
    let standing = quillbore_office::start::Standing::Ready;
    let mut harness = window_with(desk_of(&first), first, standing);
    let shelf = |harness: &Harness<'_, Window>| -> Vec<(String, Rect)> {
        let lines = lines(harness).into_iter();
        lines
            .filter(|(label, _)| label.starts_with("job "))
            .collect()
    };
    let before = shelf(&harness);
    assert_eq!(before.len(), numbers.len());
    for number in numbers {
        press(&mut harness, &format!("job {number}"));
        assert_eq!(harness.state().job().number, number);
        assert_eq!(shelf(&harness), before, "after opening {number}");
    }
    assert_eq!(harness.state().app().open_jobs(), numbers.len());
}
