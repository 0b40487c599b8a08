//! The shelf at the left: the jobs of its folder, found as one types or scans.

use std::sync::Arc;

use egui::{Key, Label, RichText, Role, ScrollArea, Sense, Ui, WidgetInfo};
use quillbore_office::digest::ShelfLine;
use quillbore_office::listing::Listing;
use quillbore_office::names::JobKey;
use quillbore_office::office::Wanted;

use super::parts::pencil;
use crate::look;
use crate::view::Ask;
use crate::words::shelf as words;

/// The height of a job's two lines.
const LINE: f32 = 38.0;

/// The list of jobs; only those in sight are laid out.
pub fn shelf_ui(
    ui: &mut Ui,
    open: Option<&JobKey>,
    list: &mut Listing,
    find_focus: &mut bool,
    recent: &[String],
    asks: &mut Vec<Ask>,
) {
    let t = look::tokens(ui);
    ui.add_space(8.0);
    ui.label(look::spaced_caps(words::HEAD, t.ink));
    find_ui(ui, list, find_focus, asks);
    let said = match (list.notice.as_str(), list.busy) {
        ("", true) => words::LOOKING,
        (notice, _) => notice,
    };
    if !said.is_empty() {
        ui.label(RichText::new(said).font(look::small()).color(t.accent));
    }
    if list.find.is_empty() && recent.len() > 1 {
        recent_ui(ui, recent, asks);
    }
    ui.add_space(4.0);
    let found = list.found().to_vec();
    let lines = Arc::clone(&list.index);
    let height = LINE - ui.spacing().item_spacing.y;
    ScrollArea::vertical()
        .id_salt("shelf")
        .auto_shrink([false, false])
        .show_rows(ui, height, found.len(), |ui, range| {
            for at in found.get(range).unwrap_or_default() {
                if let Some(job) = lines.lines.get(*at as usize) {
                    job_ui(ui, job, open.is_some() && open == job.job.as_ref(), asks);
                }
            }
        });
}

/// The line that finds a job, and opens the one that is meant.
fn find_ui(ui: &mut Ui, list: &mut Listing, find_focus: &mut bool, asks: &mut Vec<Ask>) {
    ui.horizontal(|ui| {
        pencil(ui, words::FIND);
        let width = ui.available_width() - 4.0;
        let response = look::line_edit(ui, &mut list.find, width);
        response.widget_info(|| WidgetInfo::labeled(Role::TextInput, true, words::FIND_ON_SHELF));
        if std::mem::take(find_focus) {
            response.request_focus();
        }
        if response.lost_focus()
            && ui.input(|input| input.key_pressed(Key::Enter))
            && !list.find.trim().is_empty()
            && let Some(key) = list.meant()
        {
            list.find.clear();
            asks.push(Ask::Open(Wanted::Key(key)));
        }
    });
}

/// The jobs opened last.
fn recent_ui(ui: &mut Ui, recent: &[String], asks: &mut Vec<Ask>) {
    ui.horizontal_wrapped(|ui| {
        pencil(ui, words::LATELY);
        for kept in recent {
            let wanted = Wanted::read(kept);
            let number = match &wanted {
                Wanted::Key(key) => key.as_str().into(),
                Wanted::Path(path) => path.file_stem().unwrap_or_default().to_string_lossy(),
            };
            let word = look::quiet_word(ui, &number);
            let named = words::lately(&number);
            word.widget_info(|| WidgetInfo::labeled(Role::Link, true, &named));
            if word.clicked() {
                asks.push(Ask::Open(wanted.clone()));
            }
        }
    });
}

/// A job in two lines: number and state, then who and what, or why it can't be read.
fn job_ui(ui: &mut Ui, job: &ShelfLine, is_open: bool, asks: &mut Vec<Ask>) {
    let t = look::tokens(ui);
    let wanted = job.job.clone().map(Wanted::Key);
    let (says, state) = match &job.says {
        Ok(digest) => {
            let says = &digest.summary;
            let who = [says.customer.as_str(), says.part.as_str()].join(" ");
            (who, says.state.as_str())
        }
        Err(why) if job.job.is_none() => (why.clone(), words::NO_JOB),
        Err(why) => (why.clone(), words::UNREADABLE),
    };
    ui.allocate_ui(egui::vec2(ui.available_width(), LINE - 4.0), |ui| {
        ui.set_height(LINE - 6.0);
        ui.spacing_mut().item_spacing.y = 0.0;
        ui.horizontal(|ui| {
            let color = if is_open { t.accent } else { t.ink };
            let number = RichText::new(&job.name).font(look::bold()).color(color);
            let line = ui
                .add(Label::new(number).sense(Sense::click()))
                .on_hover_cursor(egui::CursorIcon::PointingHand);
            let named = words::job(&job.name);
            line.widget_info(|| WidgetInfo::labeled(Role::Link, true, &named));
            pencil(ui, state);
            if line.clicked() {
                asks.extend(wanted.clone().map(Ask::Open));
            }
        });
        let said = RichText::new(&says).font(look::small()).color(t.pencil);
        let below = ui.add(Label::new(said).truncate().sense(Sense::click()));
        if job.says.is_err() {
            below.clone().on_hover_text(&says);
        }
        if below.clicked() {
            asks.extend(wanted.map(Ask::Open));
        }
    });
}
