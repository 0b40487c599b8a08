//! Jobs beside each other on the desk, and the shelf that they are saved to.

use std::sync::Arc;

use egui::{Key, Modifiers, ViewportEvent, ViewportId};
use egui_kittest::{Harness, kittest::Queryable as _};
use quillbore_desk::view::{Next, Waiting};
use quillbore_job::{Field, Job};
use quillbore_office::disk::{Disk, RealDisk};
use quillbore_office::shelf::Folder;
use quillbore_office::start::Standing;

use crate::hands::{Window, desk_of, office_over, press, type_on, window, window_with};

#[test]
fn a_new_job_lies_beside_the_open_one_and_putting_that_away_asks_first() {
    let folder = tempfile::tempdir().expect("a folder");
    let mut harness = window(folder.path());
    harness.key_press_modifiers(Modifiers::COMMAND, Key::N);
    harness.run();
    assert_eq!(harness.state().app().open_jobs(), 2);
    assert_eq!(harness.state().job().text(Field::Customer), "");
    harness.get_by_label("new job GP-12, not saved").click();
    harness.run();
    assert_eq!(
        harness.state().job().text(Field::Customer),
        "Grove Pump Works"
    );
    harness.key_press_modifiers(Modifiers::COMMAND, Key::W);
    harness.run();
    assert_eq!(
        harness.state().app().view().waiting,
        Some(Waiting::Guard(Next::CloseJob))
    );
    harness.get_by_label("save and close");
    harness.get_by_label("cancel").click();
    harness.run();
    assert_eq!(harness.state().app().open_jobs(), 2);
    // Escape backs out of the question as well.
    harness.key_press_modifiers(Modifiers::COMMAND, Key::W);
    harness.run();
    harness.key_press(Key::Escape);
    harness.run();
    assert_eq!(harness.state().app().view().waiting, None);
    assert_eq!(harness.state().app().open_jobs(), 2);
    harness.key_press_modifiers(Modifiers::COMMAND, Key::W);
    harness.run();
    harness.get_by_label("discard the changes").click();
    harness.run();
    assert_eq!(harness.state().app().open_jobs(), 1);
    assert_eq!(harness.state().job().text(Field::Customer), "");
}

#[test]
fn a_folder_that_nobody_marked_is_asked_about_and_nothing_is_saved_before_the_yes() {
    let folder = tempfile::tempdir().expect("a folder");
    let job = Job {
        number: "26-0107".to_owned(),
        ..Job::default()
    };
    let file = folder.path().join("26-0107.ron");
    std::fs::write(&file, quillbore_job::file::write_job(&job)).expect("a job");
    let disk: Arc<dyn Disk> = Arc::new(RealDisk::default());
    let shelf = Arc::new(Folder::new(Arc::clone(&disk), folder.path(), None));
    let office = office_over(shelf, disk);
    let mut harness = window_with(desk_of(&office), office, Standing::NotMarked(1));
    harness.get_by_label("job 26-0107");
    harness.get_by_label("not now").click();
    harness.run();
    type_on(&mut harness, "customer", "Grove Pump Works");
    harness.key_press_modifiers(Modifiers::COMMAND, Key::S);
    harness.run();
    let notice = harness.state().app().desk().notice.clone();
    assert!(notice.contains("Nobody said yet"), "{notice}");
    assert!(harness.state().app().desk().history.is_dirty());
    let names = std::fs::read_dir(folder.path())
        .expect("the folder")
        .count();
    assert_eq!(names, 1, "nothing was written");
    // It is asked again, and after the yes it saves.
    harness.get_by_label("use it as the shelf").click();
    harness.run();
    harness.key_press_modifiers(Modifiers::COMMAND, Key::S);
    harness.run();
    assert!(!harness.state().app().desk().history.is_dirty());
    assert_eq!(harness.state().job().number, "26-0108");
    harness.get_by_label("job 26-0108");
}

#[test]
fn who_backs_out_of_closing_the_window_has_lost_nothing_that_was_discarded_before() {
    let folder = tempfile::tempdir().expect("a folder");
    let mut harness = window(folder.path());
    harness.key_press_modifiers(Modifiers::COMMAND, Key::N);
    harness.run();
    type_on(&mut harness, "customer", "Alder Valves");
    let close = |harness: &mut Harness<'_, Window>| {
        let window = harness.input_mut().viewports.entry(ViewportId::ROOT);
        window.or_default().events.push(ViewportEvent::Close);
        harness.step();
        let window = harness.input_mut().viewports.entry(ViewportId::ROOT);
        window.or_default().events.clear();
        harness.run();
    };
    close(&mut harness);
    let customer = |harness: &Harness<'_, Window>| {
        let job = harness.state().job();
        job.text(Field::Customer).to_owned()
    };
    assert_eq!(customer(&harness), "Grove Pump Works");
    press(&mut harness, "discard the changes");
    assert_eq!(
        customer(&harness),
        "Alder Valves",
        "the next one is asked about"
    );
    press(&mut harness, "cancel");
    harness.key_press_modifiers(Modifiers::COMMAND, Key::J);
    harness.run();
    assert_eq!(customer(&harness), "Grove Pump Works");
    assert!(
        harness.state().app().desk().history.is_dirty(),
        "it is not saved"
    );
    // Closing again asks about it again.
    close(&mut harness);
    assert_eq!(customer(&harness), "Grove Pump Works");
    assert_eq!(
        harness.state().app().view().waiting,
        Some(Waiting::Guard(Next::CloseWindow))
    );
}
