//! The shelf at the left: the jobs that are open, then those of its folder, found as one types or scans.

use std::sync::Arc;

use chrono::NaiveDate;
use egui::{Key, Rect, Role, ScrollArea, Sense, Stroke, Ui, WidgetInfo, pos2, vec2};
use quillbore_job::Form;
use quillbore_office::digest::{ShelfLine, Sort, SortBy};
use quillbore_office::listing::Listing;
use quillbore_office::names::JobKey;
use quillbore_office::office::Wanted;

use super::parts::pencil;
use crate::actions::Action;
use crate::look;
use crate::view::Ask;
use crate::words::{commands, shelf as words};

/// The height of a job's two lines.
const LINE: f32 = 36.0;

/// The height of an open job.
const OPEN: f32 = 24.0;

/// Places for open jobs, and behind them the jobs opened last; more of them scroll.
const PLACES_OPEN: usize = 5;

/// What the shelf is told beside its list.
#[derive(Clone, Copy)]
pub struct ShelfNews<'a> {
    /// The job in front, by its name on the shelf.
    pub open: Option<&'a JobKey>,
    /// The names of the open jobs.
    pub names: &'a [String],
    /// Which of them is in front.
    pub at: usize,
    /// The jobs opened last.
    pub recent: &'a [String],
    /// Today.
    pub today: NaiveDate,
    /// The shop's own currency.
    pub currency: &'a str,
    /// Digits of money after the point.
    pub digits: u32,
    /// How numbers and days are written.
    pub form: Form,
}

/// Where the keyboard is on the shelf.
#[derive(Debug)]
pub struct ShelfKeyboard<'a> {
    /// The line that finds takes it as soon as it is drawn.
    pub find: &'a mut bool,
    /// The job whose line has it, told back.
    pub on_job: &'a mut Option<JobKey>,
}

/// The shelf; only the jobs in sight are drawn.
pub fn shelf_ui(
    ui: &mut Ui,
    news: ShelfNews<'_>,
    list: &mut Listing,
    keyboard: ShelfKeyboard<'_>,
    asks: &mut Vec<Ask>,
) {
    let ShelfKeyboard { find, on_job } = keyboard;
    *on_job = None;
    let t = look::tokens(ui);
    ui.spacing_mut().item_spacing.y = 0.0;
    ui.add_space(8.0);
    pages_ui(ui, asks);
    ui.add_space(8.0);
    open_jobs_ui(ui, news, asks);
    ui.add_space(8.0);
    look::hairline(ui);
    ui.add_space(4.0);
    find_ui(ui, list, find, asks);
    let mut understood = list.understood().to_owned();
    if !list.find.trim().is_empty() && !list.busy && list.found().is_empty() {
        understood = words::none_found(&understood);
    }
    let said = match (list.notice.as_str(), understood.as_str(), list.busy) {
        ("", "", true) => words::LOOKING,
        ("", understood, _) => understood,
        (notice, ..) => notice,
    };
    let size = vec2(ui.available_width(), 18.0);
    // The line keeps its place while nothing is said.
    let (line, _) = ui.allocate_exact_size(size, Sense::hover());
    look::clipped_label(ui, line, said, look::small(), t.accent);
    sort_ui(ui, list);
    ui.add_space(4.0);
    let found = list.found().to_vec();
    let lines = Arc::clone(&list.index);
    ScrollArea::vertical()
        .id_salt("shelf")
        .auto_shrink([false, false])
        .show_rows(ui, LINE, found.len(), |ui, range| {
            for at in found.get(range).unwrap_or_default() {
                if let Some(job) = lines.lines.get(*at as usize) {
                    let is_open = news.open.is_some() && news.open == job.job.as_ref();
                    let beside = words::beside(
                        job,
                        list.sort.by,
                        news.today,
                        (news.currency, news.digits, news.form),
                    );
                    if job_ui(ui, (job, &beside), is_open, asks) {
                        *on_job = job.job.clone();
                    }
                }
            }
        });
}

/// By what the jobs are sorted: a word that is pressed sorts by it, pressed again the other way round.
fn sort_ui(ui: &mut Ui, list: &mut Listing) {
    ui.horizontal_wrapped(|ui| {
        ui.spacing_mut().item_spacing = vec2(8.0, 0.0);
        for by in SortBy::ALL {
            let is_by = list.sort.by == by;
            let text = words::sort(by, is_by.then_some(list.sort.falling));
            let word = look::toggle_word(ui, &text, is_by);
            let named = words::sorted_by(by);
            word.widget_info(|| WidgetInfo::selected(Role::Link, true, is_by, &named));
            if word.clicked() {
                let falling = if is_by {
                    !list.sort.falling
                } else {
                    // What is worth most and the newest number come first, what is due next first.
                    matches!(
                        by,
                        SortBy::Number | SortBy::Price | SortBy::Hours | SortBy::Age
                    )
                };
                list.sort = Sort { by, falling };
            }
        }
    });
}

/// The words of the pages that lie over the sheet.
fn pages_ui(ui: &mut Ui, asks: &mut Vec<Ask>) {
    ui.horizontal_wrapped(|ui| {
        ui.spacing_mut().item_spacing = vec2(12.0, 0.0);
        for action in [Action::Today, Action::Shop, Action::Learned] {
            let keys = action.told_keys(ui.ctx());
            if look::keyed_word(ui, commands::action(action), &keys).clicked() {
                asks.push(Ask::Do(action));
            }
        }
    });
}

/// The jobs that are open, each a line that brings it to the front, and below them the jobs opened last.
/// They have a place of fixed height, or the list below would move when a job is opened from it. Many
/// scroll; the one in front comes into view when it is another than before, else nothing moves.
pub fn open_jobs_ui(ui: &mut Ui, news: ShelfNews<'_>, asks: &mut Vec<Ask>) {
    let ShelfNews { names, at, .. } = news;
    let now = (at, names.len());
    let seen = egui::Id::unique("open jobs on the desk");
    let moved = ui.data_mut(|data| {
        let before = data.get_temp_mut_or(seen, (usize::MAX, 0));
        std::mem::replace(before, now) != now
    });
    pencil(ui, &words::open_jobs(names.len()));
    let height = OPEN * PLACES_OPEN as f32;
    let list = ScrollArea::vertical()
        .id_salt("open jobs")
        .max_height(height);
    list.auto_shrink(false).show(ui, |ui| {
        ui.spacing_mut().item_spacing.y = 0.0;
        for (index, name) in names.iter().enumerate() {
            let line = line_ui(ui, OPEN, name, index == at, [name, "", ""]);
            if index == at && moved {
                line.scroll_to_me(None);
            }
            if line.clicked() && index != at {
                asks.push(Ask::Front(index));
            }
        }
        recent_ui(ui, news, asks);
    });
}

/// The jobs opened last that are not open any more, in pencil, as far as there is room.
fn recent_ui(ui: &mut Ui, news: ShelfNews<'_>, asks: &mut Vec<Ask>) {
    let room = PLACES_OPEN.saturating_sub(news.names.len());
    let wanted = news.recent.iter().map(|kept| Wanted::read(kept));
    let number = |wanted: &Wanted| match wanted {
        Wanted::Key(key) => key.as_str().to_owned(),
        Wanted::Path(path) => path
            .file_stem()
            .unwrap_or_default()
            .to_string_lossy()
            .into_owned(),
    };
    let is_open = |number: &String| {
        let mut names = news.names.iter();
        names.any(|name| name.starts_with(number.as_str()))
    };
    let closed = wanted.map(|wanted| (number(&wanted), wanted));
    for (number, wanted) in closed.filter(|(number, _)| !is_open(number)).take(room) {
        let named = words::recent(&number);
        if line_ui(ui, OPEN, &named, false, [&named, "", ""]).clicked() {
            asks.push(Ask::Open(wanted));
        }
    }
}

/// The line that finds a job, and opens the one that is meant.
fn find_ui(ui: &mut Ui, list: &mut Listing, find_focus: &mut bool, asks: &mut Vec<Ask>) {
    ui.horizontal(|ui| {
        ui.spacing_mut().item_spacing.x = 6.0;
        pencil(ui, words::FIND);
        let width = ui.available_width() - 2.0;
        let response = look::line_edit(ui, &mut list.find, width);
        response.widget_info(|| WidgetInfo::labeled(Role::TextInput, true, words::FIND_ON_SHELF));
        if std::mem::take(find_focus) {
            response.request_focus();
        }
        let pressed = |key| ui.input(|input| input.key_pressed(key));
        if response.lost_focus() && pressed(Key::Escape) {
            list.find.clear();
        }
        if response.lost_focus()
            && pressed(Key::Enter)
            && !list.find.trim().is_empty()
            && let Some(key) = list.meant()
        {
            list.find.clear();
            asks.push(Ask::Open(Wanted::Key(key)));
        }
    });
}

/// A job in two lines: number and state, then who and what, or why it can't be read; whether it has the
/// keyboard.
fn job_ui(
    ui: &mut Ui,
    (job, beside): (&ShelfLine, &str),
    is_open: bool,
    asks: &mut Vec<Ask>,
) -> bool {
    let wanted = job.job.clone().map(Wanted::Key);
    let (says, state) = match &job.says {
        Ok(digest) => {
            let says = &digest.summary;
            let who = [says.customer.as_str(), says.part.as_str()].join(" ");
            let who = match who.trim() {
                "" => words::NO_CUSTOMER.to_owned(),
                _ => who,
            };
            (who, says.state.as_str())
        }
        Err(why) if job.job.is_none() => (why.clone(), words::NO_JOB),
        Err(why) => (why.clone(), words::UNREADABLE),
    };
    let first = words::number_and_state(&job.name, state);
    let texts = [first.as_str(), says.as_str(), beside];
    let line = line_ui(ui, LINE, &words::job(&job.name), is_open, texts);
    if line.clicked() {
        asks.extend(wanted.map(Ask::Open));
    }
    line.has_focus()
}

/// A line that opens something: a text in ink, and where it is high enough another below it in pencil, with
/// what it is sorted by at the right.
fn line_ui(
    ui: &mut Ui,
    height: f32,
    name: &str,
    is_front: bool,
    [first, second, beside]: [&str; 3],
) -> egui::Response {
    let t = look::tokens(ui);
    let size = vec2(ui.available_width(), height);
    let (place, response) = ui.allocate_exact_size(size, Sense::click());
    response.widget_info(|| WidgetInfo::labeled(Role::Link, true, name));
    look::ground_under(ui, place, is_front, &response);
    if response.has_focus() {
        let frame = Stroke::new(2.0, t.accent);
        ui.painter()
            .rect_stroke(place, 0.0, frame, egui::StrokeKind::Inside);
    }
    let ink = if is_front { t.pressed } else { t.ink };
    let text = place.shrink2(vec2(4.0, 0.0));
    if second.is_empty() && height < LINE {
        look::clipped(ui, text, first, look::bold(), ink);
    } else {
        let half = text.center().y + 1.0;
        let above = Rect::from_min_max(text.min, pos2(text.right(), half));
        let mut below = Rect::from_min_max(pos2(text.left(), half - 1.0), text.max);
        look::clipped(ui, above, first, look::bold(), ink);
        let pencil = if is_front { t.ink } else { t.pencil };
        if !beside.is_empty() {
            let galley = ui
                .painter()
                .layout_no_wrap(beside.to_owned(), look::small(), pencil);
            let left = below.right() - galley.size().x;
            let top = below.center().y - galley.size().y / 2.0;
            ui.painter().galley(pos2(left, top), galley, pencil);
            below.set_right(left - 6.0);
        }
        look::clipped(ui, below, second, look::small(), pencil);
    }
    response.on_hover_cursor(egui::CursorIcon::PointingHand)
}
