//! Opens the window, or says in one sentence why there is none.

use std::path::{Path, PathBuf};
use std::process::Command;
use std::sync::Arc;

use egui::Context;
use quillbore_office::clerk::Clerk;
use quillbore_office::clock::Clock;
use quillbore_office::commands::Ended;
use quillbore_office::disk::{Disk, RealDisk};
use quillbore_office::drafts::Keeper;
use quillbore_office::hole_file::Readers;
use quillbore_office::listing::Listing;
use quillbore_office::office::Wanted;
use quillbore_office::office::shelf_news::ShelfNews;
use quillbore_office::office::shop_watch::ShopWatch;
use quillbore_office::open::OnDesk;
use quillbore_office::shelf::Mark;
use quillbore_office::shelf_at::{ShelfAt, is_server, shelf_at};
use quillbore_office::start::{Begins, Standing};
use quillbore_office::words::drafts as drafts_words;
use quillbore_office::worker::Worker;
use quillbore_office::{Failure, Office, files, places, start};

use crate::app::{App, SHOP_EVERY, WindowParts};
use crate::desk::Desk;
use crate::dialogs::DesktopDialogs;
use crate::fault;
use crate::settings::Settings;
use crate::words::window as words;

/// What somebody named on the command line.
#[derive(Clone, Copy, Debug, Default)]
pub struct Named<'a> {
    /// A job's file.
    pub job: Option<&'a Path>,
    /// The folder of the shelf.
    pub shelf: Option<&'a Path>,
    /// The shop's own file.
    pub shop: Option<&'a Path>,
    /// The sample jobs, in place of any shelf.
    pub samples: bool,
}

/// What is read before there is a window.
struct ReadFirst {
    office: Arc<Office>,
    standing: Standing,
    /// The folder of the shelf.
    root: PathBuf,
    settings: Settings,
    /// Where settings are kept, where there is a place for them.
    settings_path: Option<PathBuf>,
    /// What this desk calls itself.
    name: String,
    job: Option<OnDesk>,
    /// What tells the drafts of this run from those of others.
    run: String,
    clock: Arc<dyn Clock>,
}

/// Opens the window on the shelf, or on a job.
///
/// # Errors
/// Where there is no display or no usable OpenGL, or the job, shop or shelf can't be opened.
pub fn open(named: Named<'_>, clock: Arc<dyn Clock>) -> Result<Ended, Failure> {
    let read = read_first(named, clock)?;
    let options = eframe::NativeOptions {
        viewport: egui::ViewportBuilder::default()
            .with_inner_size([1280.0, 760.0])
            .with_min_inner_size([900.0, 560.0])
            .with_title(words::NAME)
            .with_app_id("quillbore"),
        system_font_fallback: false,
        ..eframe::NativeOptions::default()
    };
    let made = eframe::run_native(
        "quillbore",
        options,
        Box::new(move |creation| Ok(Box::new(app(&creation.egui_ctx, read)))),
    );
    made.map(|()| Ended::Done)
        .map_err(|error| no_window(&error))
}

/// Why there is no window: the display, or OpenGL, and only where it is that.
fn no_window(error: &eframe::Error) -> Failure {
    let why = words::without_source(&error.to_string());
    let said = match error {
        eframe::Error::Winit(_) | eframe::Error::WinitEventLoop(_) => {
            words::no_reach(named_display().as_deref(), &why)
        }
        eframe::Error::AppCreation(_) => words::no_window(&why),
        _ => words::no_opengl(&why),
    };
    Failure::new(said, words::WITHOUT_WINDOW)
}

fn read_first(named: Named<'_>, clock: Arc<dyn Clock>) -> Result<ReadFirst, Failure> {
    let Named {
        job,
        shelf,
        shop,
        samples,
    } = named;
    let disk: Arc<dyn Disk> = Arc::new(RealDisk::default());
    let settings_path = places::settings_path();
    let settings = settings_path.as_deref().map(Settings::read);
    let mut settings = settings.unwrap_or_default();
    let root = if samples {
        places::sample_shelf()?
    } else {
        let named = shelf.map(Path::to_owned).or_else(|| settings.shelf.clone());
        named.map_or_else(places::usual_shelf, Ok)?
    };
    let known = settings
        .shelves
        .get(&root)
        .and_then(|mark| Mark::read(mark));
    // Sample jobs that were removed are made anew when somebody asks for them again.
    let known = known.filter(|_| !samples);
    let begins = if samples {
        Begins::WithDemoJobs
    } else {
        Begins::Empty
    };
    let name = places::desk_name(&settings.desk_name);
    let (at, standing) = if is_server(&root) {
        let was_known = known.is_some();
        let at = shelf_at(&disk, &root, known, &name)?;
        let standing = start::open_on_server(&at.shelf, was_known)?;
        (at, standing)
    } else {
        let (folder, standing) = start::open(&disk, &root, known, begins)?;
        (ShelfAt::folder(folder), standing)
    };
    let is_away = matches!(standing, Standing::Away(_));
    let is_named = shop.is_some();
    let shop = match is_away && !is_named {
        true => files::shop_while_away(at.shelf.as_ref())?,
        false => files::shop_in_window(disk.as_ref(), shop, at.shelf.as_ref())?,
    };
    if !is_away && let Some(mark) = at.shelf.mark()? {
        // A shelf that was seen once is missed when it is not there.
        settings
            .shelves
            .insert(root.clone(), mark.as_str().to_owned());
        if let Some(path) = &settings_path {
            let _ = settings.write(path);
        }
    }
    let mut office = Office::new(at.shelf, at.root, disk, Arc::new(shop));
    if is_named {
        office = office.with_named_shop();
    }
    let office = Arc::new(office);
    // What can't be read is told by the page, which looks again.
    if !is_away {
        let _ = office.look_at_shop();
    }
    let job = job.map(|path| office.open(&Wanted::Path(path.to_owned()), &name, &[]));
    let job = job.transpose()?;
    no_display()?;
    let run = places::run_id()?;
    Ok(ReadFirst {
        office,
        standing,
        root,
        settings,
        settings_path,
        name,
        job,
        run,
        clock,
    })
}

/// The application, with its helpers on threads of their own, each of which wakes the window.
fn app(ctx: &Context, read: ReadFirst) -> App {
    let ReadFirst {
        office,
        name,
        clock,
        ..
    } = read;
    let wake = || {
        let ctx = ctx.clone();
        move || ctx.request_repaint()
    };
    let clerk = Clerk::on_thread(Arc::clone(&office), wake());
    let make_desk = {
        let (ctx, office, clock) = (ctx.clone(), Arc::clone(&office), Arc::clone(&clock));
        let clerk = clerk.for_another();
        move || {
            let wake = ctx.clone();
            let worker = Worker::on_thread(move || wake.request_repaint());
            let clerk = clerk.for_another();
            let mut desk = Desk::new(Arc::clone(&office), Arc::clone(&clock), clerk, worker);
            desk.name.clone_from(&name);
            desk
        }
    };
    let mut first = make_desk();
    if let Some(job) = read.job {
        first.take_opened(job);
    }
    let cache = places::cache_path(&read.root);
    let list = Listing::on_thread(Arc::clone(&office.shelf), clock, cache, wake());
    let shelf_news = ShelfNews::of(office.shelf.as_ref(), wake());
    // A shelf that tells of changes need not be asked for them.
    let every = match shelf_news {
        Some(_) => SHOP_EVERY * 20,
        None => SHOP_EVERY,
    };
    let shop_watch = ShopWatch::on_thread(Arc::clone(&office.shelf), every, wake());
    let drafts = places::drafts_folder();
    let drafts = drafts.map(|folder| {
        fault::drafts_are_in(&folder);
        Keeper::on_thread(&folder, &read.run, wake())
    });
    if drafts.is_none() {
        first.notice = drafts_words::NO_PLACE.to_owned();
    }
    App::new(
        ctx,
        WindowParts {
            first,
            make_desk: Box::new(make_desk),
            clerk,
            list,
            dialogs: Box::new(DesktopDialogs::new(ctx.clone())),
            open_mail: Box::new(|letter| {
                open::that_detached(letter).map_err(|error| error.to_string())
            }),
            open_path: Box::new(|path| {
                open::that_detached(path).map_err(|error| error.to_string())
            }),
            open_samples: Box::new(open_samples),
            is_samples: places::sample_shelf().is_ok_and(|samples| samples == read.root),
            has_samples: start::has_samples(),
            settings: read.settings,
            settings_path: read.settings_path,
            shelf_root: read.root,
            shop_watch: Some(shop_watch),
            shelf_news,
            readers: Readers::on_threads(Arc::clone(&office.disk), wake()),
            drafts,
            standing: read.standing,
            office,
        },
    )
}

/// Opens the sample jobs in a window of their own; why not, where that can't be done.
fn open_samples() -> Result<(), String> {
    let program = std::env::current_exe().map_err(|error| error.to_string())?;
    let started = Command::new(program).arg("--samples").spawn();
    started.map(drop).map_err(|error| error.to_string())
}

/// Whether displays are named by the environment here.
const NAMED_BY_ENVIRONMENT: bool = cfg!(all(unix, not(target_os = "macos")));

/// On systems where a display is named by the environment: that one is.
fn no_display() -> Result<(), Failure> {
    if NAMED_BY_ENVIRONMENT && named_display().is_none() {
        return Err(Failure::new(words::NO_DISPLAY, words::WITHOUT_WINDOW));
    }
    Ok(())
}

/// The display that the environment names, as it is named there; the first that does counts.
fn named_display() -> Option<String> {
    let mut names = ["WAYLAND_DISPLAY", "DISPLAY"].iter();
    names.find_map(|name| {
        let value = std::env::var_os(name).filter(|value| !value.is_empty())?;
        NAMED_BY_ENVIRONMENT.then(|| format!("{name}={}", value.to_string_lossy()))
    })
}
