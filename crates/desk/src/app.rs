//! The window: lays out shelf, head, sheet, notes and foot of the job on top, and does what they ask
//! in one place.

mod closing;
mod drawer;
mod dropped;
mod follow_shop;
mod hand_over;
mod incoming;
mod keep;
mod learned;
mod next;
mod opening;
mod others;
mod painted;
mod panels;
mod paste;
mod perform;
mod pin;
mod questions;
mod remember;
mod reorder;
mod server;
mod shop;
mod today;

pub(crate) use follow_shop::SHOP_EVERY;

use std::path::PathBuf;
use std::sync::Arc;

use egui::{Context, Ui, ViewportCommand};
use quillbore_job::{Field, Job, Line};
use quillbore_office::Office;
use quillbore_office::clerk::Clerk;
use quillbore_office::drafts::{Keeper, Left};
use quillbore_office::hole_file::Readers;
use quillbore_office::listing::Listing;
use quillbore_office::names::JobKey;
use quillbore_office::office::Wanted;
use quillbore_office::office::shelf_news::ShelfNews;
use quillbore_office::office::shop_watch::ShopWatch;
use quillbore_office::start::Standing;
use quillbore_paper::Sheet;

use crate::actions::pressed;
use crate::desk::Desk;
use crate::dialogs::Dialogs;
use crate::learned::LearnedPage;
use crate::look;
use crate::settings::Settings;
use crate::shop::ShopPage;
use crate::spot::Spot;
use crate::today::TodayPage;
use crate::view::{Ask, Next, SheetView, Waiting};
use crate::words::head as words;

/// The window's application.
pub struct App {
    /// The jobs on the desk; never none.
    jobs: Vec<OpenJob>,
    at: usize,
    next_id: u64,
    /// The shelf.
    pub list: Listing,
    settings: Settings,
    settings_path: Option<PathBuf>,
    /// The shelf as it was named, for its mark in the settings.
    shelf_root: PathBuf,
    /// The list could not be read at the last frame.
    was_away: bool,
    office: Arc<Office>,
    /// Who opens jobs; each job on the desk has its own clerk for the rest.
    clerk: Clerk,
    /// Jobs that are being opened.
    opening: Vec<Wanted>,
    drafts: Option<Keeper>,
    /// Work of earlier runs that is still to be asked about.
    left: Vec<Left>,
    /// The jobs on one quotation with another, as they were when it was asked for.
    joint: Vec<(u64, Arc<Job>)>,
    dialogs: Box<dyn Dialogs>,
    open_mail: OpenMail,
    open_path: OpenPath,
    open_samples: OpenSamples,
    /// Files on their way into a hole table.
    incoming: incoming::Incoming,
    /// The file that is to be printed once the printer is known.
    to_print: Option<PathBuf>,
    make_desk: Box<dyn Fn() -> Desk>,
    find_focus: bool,
    /// The job of the shelf whose line has the keyboard.
    on_shelf: Option<JobKey>,
    /// The job that is to be done again once it is on top.
    to_reorder: Option<JobKey>,
    /// The shelf lies over the sheet, where it has no place beside it.
    shelf_over: bool,
    /// The window is too narrow for the shelf to stand beside the sheet.
    shelf_lies_over: bool,
    closing: bool,
    told_title: String,
    last_kept: f64,
    was_focused: bool,
    /// The page of what the shop has learned.
    learned: LearnedPage,
    /// The page of the shop.
    pub shop: ShopPage,
    /// Says when another desk changed the shop; without it the sheet is looked at again and again.
    shop_watch: Option<ShopWatch>,
    /// Says when another desk may have saved something, where the shelf tells.
    shelf_news: Option<ShelfNews>,
    /// Somebody put off giving the password of the shelf's server.
    password_put_off: bool,
    /// When the shop's sheet on the shelf was looked at last [s].
    shop_looked: f64,
    /// What the shelf has of the shop was known at the last frame.
    shop_known: bool,
    /// The page of the day's list.
    pub today: TodayPage,
    /// The place that somebody wants to go to, while its job is being opened.
    to_place: Option<(JobKey, quillbore_office::today::Spot)>,
    /// The record that somebody wants to see, while its job is being opened.
    to_record: Option<(JobKey, u32, Line)>,
    /// The list's version at the last look at the run records.
    records_seen: u64,
    /// The window is to be closed once nothing is being written any more.
    close_when_done: bool,
}

/// A job on the desk, with what the window remembers of it.
struct OpenJob {
    desk: Desk,
    view: SheetView,
    /// What tells it from every other job that lay on this desk.
    id: u64,
    /// What was going to be done, and goes on once it is saved.
    after: Option<Next>,
    /// The state of its history in which somebody let go of it, unsaved, when the window was closed.
    let_go: Option<u64>,
    /// What was said of a file whose rows landed, until it lies in the job's folder, too.
    landed: Option<String>,
}

/// Hands a mailto address to a mail program.
pub type OpenMail = Box<dyn FnMut(&str) -> Result<(), String>>;

/// Opens a file or a folder.
pub type OpenPath = Box<dyn FnMut(&std::path::Path) -> Result<(), String>>;

/// Opens the sample jobs.
pub type OpenSamples = Box<dyn FnMut() -> Result<(), String>>;

/// What a window is made of.
pub struct WindowParts {
    /// A first job.
    pub first: Desk,
    /// Makes an empty desk for every further one.
    pub make_desk: Box<dyn Fn() -> Desk>,
    /// The office.
    pub office: Arc<Office>,
    /// Who opens jobs.
    pub clerk: Clerk,
    /// The shelf.
    pub list: Listing,
    /// How files and folders are asked for.
    pub dialogs: Box<dyn Dialogs>,
    /// Hands a letter, as a mailto address, to the user's mail program; why not, where there is none.
    pub open_mail: OpenMail,
    /// Opens a file or a folder with what the desktop has for it; why not, where there is nothing.
    pub open_path: OpenPath,
    /// Opens the sample jobs in a window of their own; why not, where that can't be done.
    pub open_samples: OpenSamples,
    /// These are the sample jobs.
    pub is_samples: bool,
    /// There are sample jobs on this machine.
    pub has_samples: bool,
    /// The settings.
    pub settings: Settings,
    /// Their file, if they are kept.
    pub settings_path: Option<PathBuf>,
    /// The shelf as it was named.
    pub shelf_root: PathBuf,
    /// Says when another desk changed the shop, if somebody watches.
    pub shop_watch: Option<ShopWatch>,
    /// Says when another desk may have saved something, where the shelf tells.
    pub shelf_news: Option<ShelfNews>,
    /// Who reads the customers' files.
    pub readers: Readers,
    /// Who keeps drafts, if they are kept.
    pub drafts: Option<Keeper>,
    /// How the shelf was found.
    pub standing: Standing,
}

impl App {
    /// A window over a first job.
    #[must_use]
    pub fn new(ctx: &Context, parts: WindowParts) -> Self {
        look::dress(ctx);
        let mut app = Self {
            jobs: vec![OpenJob::new(parts.first, 0)],
            next_id: 1,
            at: 0,
            list: parts.list,
            settings: parts.settings,
            settings_path: parts.settings_path,
            office: parts.office,
            clerk: parts.clerk,
            opening: Vec::new(),
            drafts: parts.drafts,
            left: Vec::new(),
            joint: Vec::new(),
            dialogs: parts.dialogs,
            open_mail: parts.open_mail,
            open_path: parts.open_path,
            open_samples: parts.open_samples,
            incoming: incoming::Incoming::new(parts.readers),
            to_print: None,
            make_desk: parts.make_desk,
            find_focus: false,
            on_shelf: None,
            to_reorder: None,
            shelf_over: false,
            shelf_lies_over: false,
            closing: false,
            told_title: String::new(),
            last_kept: 0.0,
            was_focused: true,
            learned: LearnedPage::default(),
            shop: ShopPage::default(),
            shop_watch: parts.shop_watch,
            shelf_news: parts.shelf_news,
            password_put_off: false,
            shelf_root: parts.shelf_root,
            was_away: false,
            shop_looked: 0.0,
            shop_known: false,
            today: TodayPage::default(),
            to_place: None,
            to_record: None,
            records_seen: 0,
            close_when_done: false,
        };
        app.dress(ctx);
        app.shop.has_samples = parts.has_samples;
        app.look_at_shop();
        if parts.standing == Standing::New && !parts.is_samples {
            app.shop.open = true;
            app.shop.is_start = true;
            app.shop.is_fresh = true;
        } else if !parts.is_samples && app.desk().opened.is_none() {
            app.begin_the_day();
        }
        match parts.standing {
            Standing::NotMarked(jobs) => app.view_mut().wait_for(Waiting::Adopt(jobs)),
            Standing::Away(why) => app.desk_mut().notice = why,
            Standing::Ready | Standing::New => {}
        }
        if let Some(drafts) = &mut app.drafts {
            drafts.look(Arc::clone(&app.office));
        }
        app
    }

    /// The job on top.
    #[must_use]
    pub fn desk(&self) -> &Desk {
        &self.jobs[self.at].desk
    }

    /// What the window remembers of it.
    #[must_use]
    pub fn view(&self) -> &SheetView {
        &self.jobs[self.at].view
    }

    /// How many jobs lie on the desk.
    #[must_use]
    pub const fn open_jobs(&self) -> usize {
        self.jobs.len()
    }

    fn desk_mut(&mut self) -> &mut Desk {
        &mut self.jobs[self.at].desk
    }

    fn view_mut(&mut self) -> &mut SheetView {
        &mut self.jobs[self.at].view
    }

    /// One frame: what was pressed, the panels, then everything that was asked.
    pub fn frame(&mut self, ui: &mut Ui) {
        let ctx = ui.ctx().clone();
        self.take_replies(&ctx);
        self.take_news(&ctx);
        self.look_when_back(&ctx);
        self.look_at_news();
        self.ask_for_password();
        self.look_at_shop_again(&ctx);
        self.follow_shop();
        self.list.poll();
        self.note_shelf();
        self.hear_of_shelf();
        self.list_goes_by_shop();
        self.look_at_records();
        self.take_drafts_told();
        self.look_alike();
        self.look_first();
        self.look_in_drawer();
        self.look_at_day();
        self.escape(&ctx);
        self.paste_anywhere(&ctx);
        let mut asks: Vec<Ask> = pressed(&ctx, self.is_typing(&ctx))
            .into_iter()
            .map(Ask::Do)
            .collect();
        self.answer_dialog(&mut asks);
        self.guard_close(&ctx);
        self.take_dropped(&ctx);
        self.follow_files(&ctx);
        self.panels(ui, &mut asks);
        let any = !asks.is_empty();
        for ask in asks {
            self.perform(&ctx, ask);
        }
        self.take_news(&ctx);
        if any {
            ctx.request_repaint();
        }
        self.keep_drafts(&ctx);
        // Telling the window anything wakes it again: only what is new is told.
        let title = self.title();
        if title != self.told_title {
            ctx.send_viewport_cmd(ViewportCommand::Title(title.clone()));
            self.told_title = title;
        }
    }

    /// Whether something was typed in the place that has the keyboard. In a field of the sheet in which
    /// nothing was, undo and redo are the job's.
    fn is_typing(&self, ctx: &Context) -> bool {
        ctx.text_edit_focused() && self.untouched_field().is_none()
    }

    /// The field that has the keyboard, where nothing was typed in it.
    fn untouched_field(&self) -> Option<Spot> {
        let (job, view) = (self.desk().job(), self.view());
        let spot = view.at_field.filter(|spot| view.typed_in != Some(*spot))?;
        let draft = view.drafts.get(&spot)?;
        (draft == spot.entry(job).text()).then_some(spot)
    }

    /// Looks at the shelf again when somebody comes back to the window: other desks went on.
    fn look_when_back(&mut self, ctx: &Context) {
        let focused = ctx.input(|input| input.viewport().focused.unwrap_or(true));
        if focused && !std::mem::replace(&mut self.was_focused, focused) {
            self.list.look_again();
            self.look_at_shop();
            self.password_put_off = false;
        }
        self.was_focused = focused;
    }

    /// "Due this week" goes by the shop's calendar, bare sizes by the unit of the job on top.
    fn list_goes_by_shop(&mut self) {
        let desk = &self.jobs[self.at].desk;
        if self.list.calendar != desk.shop.calendar {
            self.list.calendar = desk.shop.calendar.clone();
        }
        self.list.unit = desk.job().unit;
        self.list.write_in(desk.shop.form);
        let own = self.office.shop();
        self.list.knows_materials_of(&own);
        let currency = &own.tables.rates.currency;
        if self.list.currency != *currency {
            self.list.currency.clone_from(currency);
        }
    }

    /// Has every job on the desk look at the run records again when the shelf changed.
    fn look_at_records(&mut self) {
        let version = self.list.version;
        if std::mem::replace(&mut self.records_seen, version) != version {
            self.jobs.iter().for_each(|job| job.desk.look_at_records());
            self.ask_learned();
        }
    }

    fn title(&self) -> String {
        let desk = self.desk();
        words::title(&desk.file_name(), desk.history.is_dirty())
    }

    /// Lays another empty sheet on the desk, the last of all.
    fn add_sheet(&mut self) {
        let desk = (self.make_desk)();
        self.jobs.push(OpenJob::new(desk, self.next_id));
        self.next_id += 1;
    }

    fn sheet(&self) -> Sheet {
        let shop = self.desk().shop.on_letter;
        Sheet::of(shop.unwrap_or(self.settings.letter))
    }
}

impl OpenJob {
    fn new(desk: Desk, id: u64) -> Self {
        Self {
            desk,
            view: SheetView::default(),
            id,
            after: None,
            let_go: None,
            landed: None,
        }
    }

    /// What the job is called among those on the desk.
    fn name(&self) -> String {
        let job = self.desk.job();
        let part = job.text(Field::Part).trim();
        words::open_job(&job.number, part, self.desk.history.is_dirty())
    }

    /// Whether it is this job of the shelf.
    fn is_key(&self, key: &JobKey) -> bool {
        let opened = self.desk.opened.as_ref();
        opened.is_some_and(|opened| opened.key == *key)
    }

    /// Whether it would be lost: it is not saved, and nobody let go of it as it stands.
    fn would_be_lost(&self) -> bool {
        let history = &self.desk.history;
        history.is_dirty() && self.let_go != Some(history.state())
    }
}

impl eframe::App for App {
    fn ui(&mut self, ui: &mut Ui, _: &mut eframe::Frame) {
        self.frame(ui);
    }
}
