//! The whole window without a display: new job, paste, remedy, working, undo, guard.

#![expect(
    clippy::expect_used,
    reason = "helpers of the tests stand outside the test functions"
)]

use std::path::Path;
use std::sync::Arc;

use chrono::NaiveDate;
use egui::{Event, Key, Modifiers};
use egui_kittest::{Harness, kittest::Queryable as _};
use quillbore_desk::app::{App, Parts};
use quillbore_desk::desk::Desk;
use quillbore_desk::dialogs::{Answer, Dialogs, Question};
use quillbore_desk::settings::Settings;
use quillbore_desk::view::{Next, Waiting};
use quillbore_job::life::{self, State};
use quillbore_job::{Edit, Field, Job, SealState, Shop, Unit};
use quillbore_office::clerk::Clerk;
use quillbore_office::clock::FixedClock;
use quillbore_office::disk::{Disk, RealDisk};
use quillbore_office::listing::Listing;
use quillbore_office::shelf::{Folder, Shelf as _};
use quillbore_office::start::Standing;
use quillbore_office::{Office, places};

/// No dialog on this machine.
struct NoDialogs;

impl Dialogs for NoDialogs {
    fn ask(&mut self, _: Question) {}
    fn answer(&mut self) -> Option<(Question, Answer)> {
        None
    }
}

/// The window; made in the first frame, since it dresses the context it is shown in.
struct Window {
    desk: Option<Desk>,
    app: Option<App>,
}

impl Window {
    fn app(&self) -> &App {
        self.app.as_ref().expect("the first frame made it")
    }

    fn job(&self) -> &Job {
        self.app().desk().job()
    }
}

fn day() -> NaiveDate {
    NaiveDate::from_ymd_opt(2026, 11, 25).expect("a day")
}

/// An office over a folder, which is made a shelf.
fn office(root: &Path) -> Arc<Office> {
    let disk: Arc<dyn Disk> = Arc::new(RealDisk::default());
    let folder = Arc::new(Folder::new(Arc::clone(&disk), root, None));
    let mark = places::new_mark().expect("a mark");
    folder.adopt(&mark).expect("a shelf");
    office_over(folder, disk)
}

fn office_over(folder: Arc<Folder>, disk: Arc<dyn Disk>) -> Arc<Office> {
    let shop = Shop::embedded().expect("the shop").clone();
    Arc::new(Office::over(folder, disk, Arc::new(shop)))
}

fn desk_of(office: &Arc<Office>) -> Desk {
    Desk::at_once(Arc::clone(office), Arc::new(FixedClock(day())))
}

fn empty_desk(folder: &Path) -> Desk {
    desk_of(&office(folder))
}

fn window(folder: &Path) -> Harness<'static, Window> {
    let mut desk = empty_desk(folder);
    for (field, text) in [
        (Field::Customer, "Grove Pump Works"),
        (Field::Part, "GP-12"),
        (Field::Material, "Stainless 316"),
        (Field::Machine, "Wren"),
        (Field::Quantity, "12"),
    ] {
        let edit = Edit::SetField {
            field,
            text: text.to_owned(),
            unit: Unit::Mm,
        };
        desk.edit(
            &edit,
            quillbore_desk::grid::CellAt::default(),
            quillbore_desk::grid::CellAt::default(),
        );
    }
    window_with(desk, office(folder), Standing::Ready)
}

fn window_with(desk: Desk, office: Arc<Office>, standing: Standing) -> Harness<'static, Window> {
    let mut harness = Harness::builder()
        .with_size(egui::vec2(1280.0, 1600.0))
        .with_context_setup(quillbore_desk::look::dress)
        .build_ui_state(
            move |ui, window: &mut Window| {
                if let Some(desk) = window.desk.take() {
                    let (office, another) = (Arc::clone(&office), Arc::clone(&office));
                    let clock = Arc::new(FixedClock(day()));
                    let parts = Parts {
                        first: desk,
                        make_desk: Box::new(move || desk_of(&another)),
                        clerk: Clerk::at_once(Arc::clone(&office)),
                        list: Listing::at_once(Arc::clone(&office.shelf), clock),
                        dialogs: Box::new(NoDialogs),
                        settings: Settings::default(),
                        settings_path: None,
                        drafts: None,
                        standing: standing.clone(),
                        office,
                    };
                    window.app = Some(App::new(ui.ctx(), parts));
                }
                if let Some(app) = &mut window.app {
                    app.frame(ui);
                }
            },
            Window {
                desk: Some(desk),
                app: None,
            },
        );
    harness.run();
    harness
}

fn paste(harness: &mut Harness<'_, Window>, text: &str) {
    harness.get_by_label("hole 1 mark").click();
    harness.run();
    harness.event(Event::Paste(text.to_owned()));
    harness.run();
}

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
    harness
        .get_by_label("Which is this? column 4 \u{201c}finish\u{201d} (Ra 1.6; Ra 3.2) (1 more)");
    // No other line takes the question's place.
    harness.key_press_modifiers(Modifiers::COMMAND, Key::O);
    harness.run();
    assert!(matches!(
        harness.state().app().view().waiting,
        Some(Waiting::Column(..))
    ));
    type_on(&mut harness, "which is this", "note");
    harness.get_by_label("Which is this? column 6 \u{201c}lot\u{201d} (7; 7)");
    type_on(&mut harness, "which is this", "leave");
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
        "line 3: look: the size 1.2 was left for its limits 1.15 and 1.25",
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
    harness.get_by_label("Which is this? column 8 without a head (0.70)");
    type_on(&mut harness, "which is this", "leave");
    assert_eq!(harness.state().job().rows.len(), 1);
    assert!(harness.state().job().rows[0].note.is_empty());
}

#[track_caller]
fn press(harness: &mut Harness<'_, Window>, label: &str) {
    harness.get_by_label(label).click();
    harness.run();
}

/// Types into the line that has a name, and leaves it.
fn type_on(harness: &mut Harness<'_, Window>, label: &str, text: &str) {
    harness
        .get_by_role_and_label(egui::accesskit::Role::TextInput, label)
        .focus();
    harness.run();
    harness.event(Event::Text(text.to_owned()));
    harness.run();
    harness.key_press(Key::Enter);
    harness.run();
}

/// Types a word into the line of commands and does the first that is found.
fn do_word(harness: &mut Harness<'_, Window>, word: &str) {
    harness.key_press_modifiers(Modifiers::COMMAND, Key::K);
    harness.run();
    type_on(harness, "find a command", word);
}

#[test]
fn the_life_of_a_job_from_inquiry_to_reorder_by_keyboard() {
    let folder = tempfile::tempdir().expect("a folder");
    let mut harness = window(folder.path());
    paste(&mut harness, "A\t6\t0.8 +-0.05\t12\r\n");
    let notice = |harness: &Harness<'_, Window>| harness.state().app().desk().notice.clone();
    do_word(&mut harness, "issue quotation");
    assert_eq!(
        harness.state().job().number,
        "26-0101",
        "{}",
        notice(&harness)
    );
    let state = |harness: &Harness<'_, Window>| life::state(harness.state().job());
    assert_eq!(state(&harness), State::Quoted, "{}", notice(&harness));
    let files = folder.path().join("26-0101.files");
    assert!(files.join("26-0101-Q1.pdf").is_file());

    do_word(&mut harness, "add order");
    assert_eq!(state(&harness), State::Ordered);
    do_word(&mut harness, "issue order");
    assert!(
        notice(&harness).contains("no price each"),
        "a price is typed, not filled in: {}",
        notice(&harness)
    );
    let quoted = harness.state().job().issued[0].lines[0].each;
    let quoted = quoted.expect("a price").to_string();
    type_on(&mut harness, "quantity of order 1", "10");
    type_on(&mut harness, "price each of order 1", &quoted);
    do_word(&mut harness, "issue order");
    assert!(
        notice(&harness).contains("the order differs (quantity)"),
        "{}",
        notice(&harness)
    );
    type_on(
        &mut harness,
        "accepted by, why of order 1",
        "Pell: the price stays",
    );
    do_word(&mut harness, "issue order");
    assert!(
        files.join("26-0101-C1.pdf").is_file(),
        "{}",
        notice(&harness)
    );
    do_word(&mut harness, "issue traveler");
    assert!(
        notice(&harness).contains("the parts are not here"),
        "{}",
        notice(&harness)
    );
    do_word(&mut harness, "add parts");
    assert_eq!(state(&harness), State::Ordered, "nobody counted yet");
    type_on(&mut harness, "count of parts received 2", "12");
    press(&mut harness, "release the traveler");
    assert_eq!(state(&harness), State::OnTheFloor, "{}", notice(&harness));

    do_word(&mut harness, "add run");
    type_on(&mut harness, "or on the floor, min of run record 3", "240");
    let lesson = "otherwise next time of run record 3";
    type_on(&mut harness, lesson, "fresh tube after 40 holes");
    do_word(&mut harness, "add delivery");
    assert_eq!(state(&harness), State::OnTheFloor);
    type_on(&mut harness, "count of delivery 4", "12");
    assert_eq!(state(&harness), State::Delivered);
    harness.key_press_modifiers(Modifiers::COMMAND, Key::S);
    harness.run();
    assert!(
        !harness.state().app().desk().history.is_dirty(),
        "{}",
        notice(&harness)
    );

    // The reorder: find by the code on the paper, again, the order's words, confirm.
    harness.key_press_modifiers(Modifiers::COMMAND, Key::N);
    harness.run();
    harness.key_press_modifiers(Modifiers::COMMAND, Key::F);
    harness.run();
    type_on(&mut harness, "find on the shelf", "26-0101-t1/1");
    assert_eq!(harness.state().job().number, "26-0101");
    harness.key_press_modifiers(Modifiers::COMMAND, Key::R);
    harness.run();
    type_on(
        &mut harness,
        "customer's PO: number; quantity; price each; revision",
        "PO 7; 12; 400",
    );
    let job = harness.state().job();
    assert_eq!(
        (job.number.as_str(), job.text(Field::Again)),
        ("26-0102", "26-0101")
    );
    assert!(
        harness
            .state()
            .app()
            .desk()
            .results()
            .figures
            .price
            .is_some()
    );
    let told = harness.query_all_by_label_contains("fresh tube after 40 holes");
    assert!(told.count() > 0, "what was learned is told");
    press(&mut harness, "confirm the order");
    assert!(
        notice(&harness).contains("the order differs (price)"),
        "{}",
        notice(&harness)
    );
    do_word(&mut harness, "accept it");
    harness.event(Event::Text("Pell: they pay more".to_owned()));
    harness.run();
    harness.key_press(Key::Enter);
    harness.run();
    do_word(&mut harness, "issue order");
    let files = folder.path().join("26-0102.files");
    assert!(
        files.join("26-0102-C1.pdf").is_file(),
        "{}",
        notice(&harness)
    );
    do_word(&mut harness, "add parts");
    type_on(&mut harness, "count of parts received 2", "12");
    press(&mut harness, "release the traveler");
    assert!(
        files.join("26-0102-T1.pdf").is_file(),
        "{}",
        notice(&harness)
    );
}

#[test]
fn one_quotation_of_two_jobs_is_known_to_both() {
    let folder = tempfile::tempdir().expect("a folder");
    let mut harness = window(folder.path());
    paste(&mut harness, "A\t6\t0.8 +-0.05\t12\r\n");
    harness.key_press_modifiers(Modifiers::COMMAND, Key::S);
    harness.run();
    harness.key_press_modifiers(Modifiers::COMMAND, Key::R);
    harness.run();
    type_on(
        &mut harness,
        "customer's PO: number; quantity; price each; revision",
        "",
    );
    assert_eq!(harness.state().app().open_jobs(), 2);
    assert_eq!(harness.state().job().number, "26-0102");
    do_word(&mut harness, "preview quotation");
    press(&mut harness, "issue one together with 26-0101");
    let desk = harness.state().app().desk();
    let issued = desk.job().issued.first().expect("a quotation").clone();
    let jobs: Vec<&str> = issued.lines.iter().map(|line| line.job.as_str()).collect();
    assert_eq!(jobs, ["26-0102", "26-0101"], "{}", desk.notice);
    let path = folder.path().join("26-0101.ron");
    let bytes = std::fs::read(path).expect("the other job");
    let other = quillbore_job::file::read_job(&bytes).expect("it opens");
    let known = other.issued.first().expect("it knows of the quotation");
    assert_eq!(known.number, issued.number);
    // Each of both entries has a seal of its own: they rest on different sheets.
    for entry in [&issued, known] {
        assert_eq!(entry.seal_state(), SealState::Sealed);
    }
    assert_ne!(known.seal, issued.seal);
    assert_eq!(known.kept_by.as_deref(), Some("26-0102"));
    harness.key_press_modifiers(Modifiers::COMMAND, Key::J);
    harness.run();
    press(&mut harness, "reprint 26-0102-Q1");
    let notice = &harness.state().app().desk().notice;
    assert!(notice.contains("As it was issued"), "{notice}");
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
    let field = harness.get_by_role_and_label(egui::accesskit::Role::TextInput, line);
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
