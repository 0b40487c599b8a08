//! The whole window without a display: new job, paste, remedy, working, undo, guard.

#![expect(
    clippy::expect_used,
    reason = "helpers of the tests stand outside the test functions"
)]

use std::path::Path;

use chrono::NaiveDate;
use egui::{Event, Key, Modifiers};
use egui_kittest::{Harness, kittest::Queryable as _};
use quillbore_desk::app::App;
use quillbore_desk::desk::Desk;
use quillbore_desk::dialogs::{Answer, Dialogs, Question};
use quillbore_desk::settings::Settings;
use quillbore_desk::view::{Next, Waiting};
use quillbore_job::{Edit, Field, Job, Shop, Unit};

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
        self.app().desk.job()
    }
}

fn window(folder: &Path) -> Harness<'static, Window> {
    let shop = Shop::embedded().expect("the shop").clone();
    let day = NaiveDate::from_ymd_opt(2026, 11, 25).expect("a day");
    let mut desk = Desk::at_once(shop, day, folder.to_owned());
    for (field, text) in [
        (Field::Customer, "Grove Pump Works"),
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
    let mut harness = Harness::builder()
        .with_size(egui::vec2(1280.0, 1600.0))
        .with_context_setup(quillbore_desk::look::dress)
        .build_ui_state(
            |ui, window: &mut Window| {
                if let Some(desk) = window.desk.take() {
                    let dialogs = Box::new(NoDialogs);
                    window.app = Some(App::new(ui.ctx(), desk, dialogs, Settings::default(), None));
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
    let figures = &harness.state().app().desk.results().figures;
    assert!(figures.settled && figures.price.is_some());
    assert_eq!(
        harness.state().app().desk.history.undo_label(),
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
            .desk
            .results()
            .notes
            .iter()
            .map(|note| note.code)
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
        .desk
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
        harness.state().app().view.opened,
        Some(quillbore_calc::Figure::UnitPrice(12))
    );
    let told = harness
        .query_all_by_label_contains("minimum charge")
        .count();
    assert!(told > 0, "the working names what went into the price");
}

#[test]
fn a_job_that_is_not_saved_is_not_lost_to_a_new_one() {
    let folder = tempfile::tempdir().expect("a folder");
    let mut harness = window(folder.path());
    harness.key_press_modifiers(Modifiers::COMMAND, Key::N);
    harness.run();
    assert_eq!(
        harness.state().app().view.waiting,
        Some(Waiting::Guard(Next::New))
    );
    harness.get_by_label("stay here").click();
    harness.run();
    assert_eq!(
        harness.state().job().text(Field::Customer),
        "Grove Pump Works"
    );
    harness.key_press_modifiers(Modifiers::COMMAND, Key::N);
    harness.run();
    harness.get_by_label("leave the changes").click();
    harness.run();
    assert_eq!(harness.state().job().text(Field::Customer), "");
}
