//! The window with an office behind it, and the hands that work in it.

use std::path::{Path, PathBuf};
use std::sync::Arc;

use chrono::NaiveDate;
use egui::{Event, Key, Modifiers};
use egui_kittest::{Harness, kittest::Queryable as _};
use quillbore_desk::app::{App, WindowParts};
use quillbore_desk::desk::Desk;
use quillbore_desk::dialogs::{Dialogs, PathAnswer, PathQuestion};
use quillbore_desk::settings::Settings;
use quillbore_desk::view::Waiting;
use quillbore_job::{Edit, Field, Job, Shop, Unit};
use quillbore_office::clerk::Clerk;
use quillbore_office::clock::FixedClock;
use quillbore_office::disk::{Disk, RealDisk};
use quillbore_office::hole_file::Readers;
use quillbore_office::listing::Listing;
use quillbore_office::shelf::{Folder, Shelf as _};
use quillbore_office::start::Standing;
use quillbore_office::{Office, places};

thread_local! {
    /// The files and folders that the desktop was asked to open.
    pub(crate) static OPENED: std::cell::RefCell<Vec<PathBuf>> = const { std::cell::RefCell::new(Vec::new()) };
    /// The letters that the mail program was given.
    pub(crate) static MAILED: std::cell::RefCell<Vec<String>> = const { std::cell::RefCell::new(Vec::new()) };
}

/// No dialog on this machine.
struct NoDialogs;

impl Dialogs for NoDialogs {
    fn ask(&mut self, _: PathQuestion) {}
    fn answer(&mut self) -> Option<(PathQuestion, PathAnswer)> {
        None
    }
}

/// The window; made in the first frame, since it dresses the context it is shown in.
pub(crate) struct Window {
    desk: Option<Desk>,
    app: Option<App>,
}

impl Window {
    pub(crate) fn app(&self) -> &App {
        self.app.as_ref().expect("the first frame made it")
    }

    pub(crate) fn app_mut(&mut self) -> &mut App {
        self.app.as_mut().expect("the first frame made it")
    }

    pub(crate) fn job(&self) -> &Job {
        self.app().desk().job()
    }
}

pub(crate) fn day() -> NaiveDate {
    NaiveDate::from_ymd_opt(2026, 11, 25).expect("a day")
}

/// An office over a folder, which is made a shelf.
pub(crate) fn office(root: &Path) -> Arc<Office> {
    let disk: Arc<dyn Disk> = Arc::new(RealDisk::default());
    let folder = Arc::new(Folder::new(Arc::clone(&disk), root, None));
    let mark = places::new_mark().expect("a mark");
    folder.adopt(&mark).expect("a shelf");
    office_over(folder, disk)
}

pub(crate) fn office_over(folder: Arc<Folder>, disk: Arc<dyn Disk>) -> Arc<Office> {
    let shop = Shop::embedded().expect("the shop").clone();
    Arc::new(Office::over(folder, disk, Arc::new(shop)))
}

pub(crate) fn desk_of(office: &Arc<Office>) -> Desk {
    Desk::at_once(Arc::clone(office), Arc::new(FixedClock(day())))
}

pub(crate) fn empty_desk(folder: &Path) -> Desk {
    desk_of(&office(folder))
}

pub(crate) fn window(folder: &Path) -> Harness<'static, Window> {
    let mut desk = empty_desk(folder);
    inquire(&mut desk);
    window_with(desk, office(folder), Standing::Ready)
}

/// An inquiry without its holes.
pub(crate) fn inquire(desk: &mut Desk) {
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
            quillbore_desk::grid::GridAt::default(),
            quillbore_desk::grid::GridAt::default(),
        );
    }
}

pub(crate) fn window_with(
    desk: Desk,
    office: Arc<Office>,
    standing: Standing,
) -> Harness<'static, Window> {
    window_around(desk, office, |parts| parts.standing = standing)
}

/// The window with some of its parts in place of what answers at once.
pub(crate) fn window_around(
    desk: Desk,
    office: Arc<Office>,
    change: impl FnOnce(&mut WindowParts) + 'static,
) -> Harness<'static, Window> {
    let mut change = Some(change);
    let mut harness = Harness::builder()
        .with_size(window_size(1280.0, 2600.0))
        .with_context_setup(quillbore_desk::look::dress)
        .build_ui_state(
            move |ui, window: &mut Window| {
                if let Some(desk) = window.desk.take() {
                    let (office, another) = (Arc::clone(&office), Arc::clone(&office));
                    let clock = Arc::new(FixedClock(day()));
                    let mut parts = WindowParts {
                        first: desk,
                        make_desk: Box::new(move || desk_of(&another)),
                        clerk: Clerk::at_once(Arc::clone(&office)),
                        list: Listing::at_once(Arc::clone(&office.shelf), clock),
                        dialogs: Box::new(NoDialogs),
                        open_path: Box::new(|path| {
                            OPENED.with_borrow_mut(|opened| opened.push(path.to_owned()));
                            Ok(())
                        }),
                        open_samples: Box::new(|| Ok(())),
                        is_samples: false,
                        has_samples: false,
                        open_mail: Box::new(|letter| {
                            MAILED.with_borrow_mut(|mailed| mailed.push(letter.to_owned()));
                            Ok(())
                        }),
                        settings: Settings::default(),
                        settings_path: None,
                        shelf_root: PathBuf::default(),
                        shop_watch: None,
                        shelf_news: None,
                        readers: Readers::at_once(Arc::clone(&office.disk)),
                        drafts: None,
                        standing: Standing::Ready,
                        office,
                    };
                    if let Some(change) = change.take() {
                        change(&mut parts);
                    }
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

/// The size of a window around so wide and high an inside: the harness keeps a margin of its own.
pub(crate) fn window_size(width: f32, height: f32) -> egui::Vec2 {
    egui::vec2(width + 16.0, height + 16.0)
}

pub(crate) fn paste(harness: &mut Harness<'_, Window>, text: &str) {
    harness.get_by_label("hole 1 mark").click();
    harness.run();
    harness.event(Event::Paste(text.to_owned()));
    harness.run();
    land(harness);
}

/// Lands a table that is shown before it does, where all its columns are understood.
pub(crate) fn land(harness: &mut Harness<'_, Window>) {
    let waiting = &harness.state().app().view().waiting;
    if let Some(Waiting::Column(pasting, _)) = waiting
        && pasting.table.not_understood().0 == 0
    {
        harness.key_press(Key::Enter);
        harness.run();
    }
}

#[track_caller]
pub(crate) fn press(harness: &mut Harness<'_, Window>, label: &str) {
    harness.get_by_label(label).click();
    harness.run();
}

/// Types into the line that has a name, and leaves it.
pub(crate) fn type_on(harness: &mut Harness<'_, Window>, label: &str, text: &str) {
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
pub(crate) fn do_word(harness: &mut Harness<'_, Window>, word: &str) {
    harness.key_press_modifiers(Modifiers::COMMAND, Key::K);
    harness.run();
    type_on(harness, "find a command", word);
}
