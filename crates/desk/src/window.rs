//! Opens the window, or says in one sentence why there is none.

use std::path::Path;

use chrono::NaiveDate;
use quillbore_calc::assemble;

use crate::app::{App, Places};
use crate::commands::{Ended, Failure};
use crate::desk::Desk;
use crate::dialogs::DesktopDialogs;
use crate::files;
use crate::settings::Settings;
use crate::shelf;
use crate::shelf_list::ShelfList;
use crate::worker::Worker;

/// Opens the window on the shelf, or on a job.
///
/// # Errors
/// Where there is no display or no usable OpenGL, or the job, shop or shelf can't be opened.
pub fn open(
    job: Option<&Path>,
    shelf: Option<&Path>,
    shop: Option<&Path>,
    today: NaiveDate,
) -> Result<Ended, Failure> {
    let shop = files::shop_on(shop, today)?;
    let settings_path = shelf::settings_path();
    let settings = Settings::read(&settings_path);
    let folder = shelf
        .map(Path::to_owned)
        .or_else(|| settings.shelf.clone())
        .unwrap_or_else(shelf::usual_shelf);
    shelf::prepare(&folder)?;
    if let Some(job) = job {
        files::open_job(job)?;
    }
    no_display()?;
    let job = job.map(Path::to_owned);
    let options = eframe::NativeOptions {
        viewport: egui::ViewportBuilder::default()
            .with_inner_size([1280.0, 760.0])
            .with_min_inner_size([900.0, 560.0])
            .with_title("Quillbore")
            .with_app_id("quillbore"),
        system_font_fallback: false,
        ..eframe::NativeOptions::default()
    };
    let made = eframe::run_native(
        "quillbore",
        options,
        Box::new(move |creation| {
            let ctx = creation.egui_ctx.clone();
            let make = {
                let (ctx, folder) = (ctx.clone(), folder.clone());
                let name = desk_name(&settings);
                move || {
                    let wake = ctx.clone();
                    let worker =
                        Worker::on_thread(assemble::answer, move || wake.request_repaint());
                    let mut desk = Desk::new(shop.clone(), today, folder.clone(), worker);
                    desk.name.clone_from(&name);
                    desk
                }
            };
            let mut desk = make();
            if let Some(job) = job {
                desk.open(&job);
            }
            let wake = ctx.clone();
            let cache = shelf::cache_path(&folder);
            let list = ShelfList::on_thread(&folder, today, cache, move || wake.request_repaint());
            let places = Places {
                settings: Some(settings_path),
                drafts: Some(shelf::drafts_folder()),
                run: std::process::id().to_string(),
            };
            let dialogs = Box::new(DesktopDialogs::new(ctx.clone()));
            Ok(Box::new(App::new(
                &ctx,
                desk,
                Box::new(make),
                list,
                dialogs,
                settings,
                places,
            )))
        }),
    );
    made.map(|()| Ended::Done).map_err(|error| {
        Failure::new(
            format!("The window can't be opened, since OpenGL can't be used here ({error})"),
            "without a window, quillbore papers JOB.ron --out DIR prints and quillbore figures JOB.ron computes",
        )
    })
}

/// What this desk calls itself: its setting, else who works on which machine.
fn desk_name(settings: &Settings) -> String {
    if !settings.desk_name.trim().is_empty() {
        return settings.desk_name.trim().to_owned();
    }
    let from = |names: [&str; 2]| names.iter().find_map(|name| std::env::var(name).ok());
    let machine = from(["HOSTNAME", "COMPUTERNAME"]).or_else(|| {
        let name = std::fs::read_to_string("/etc/hostname").ok()?;
        Some(name.trim().to_owned())
    });
    match (from(["USER", "USERNAME"]), machine) {
        (Some(user), Some(machine)) => format!("{user} on {machine}"),
        (Some(one), None) | (None, Some(one)) => one,
        (None, None) => "another desk".to_owned(),
    }
}

/// On systems where a display is named by the environment: that there is one.
fn no_display() -> Result<(), Failure> {
    let has = |name: &str| std::env::var_os(name).is_some_and(|value| !value.is_empty());
    let named_by_environment = cfg!(all(unix, not(target_os = "macos")));
    if named_by_environment && !has("DISPLAY") && !has("WAYLAND_DISPLAY") {
        return Err(Failure::new(
            "There is no display to open a window on",
            "without a window, quillbore papers JOB.ron --out DIR prints and quillbore figures JOB.ron computes",
        ));
    }
    Ok(())
}
