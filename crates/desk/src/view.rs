//! What the window remembers that is in no job: drafts, what is folded, what is opened.

use std::collections::{BTreeMap, BTreeSet};
use std::path::PathBuf;
use std::sync::Arc;

use egui::Pos2;
use quillbore_calc::{Figure, RowId};
use quillbore_intake::{Foreign, Holds, IntakeError, Summary};
use quillbore_job::answer::How;
use quillbore_job::apply::EditRefused;
use quillbore_job::concern::Concern;
use quillbore_job::quick::LeadsTo;
use quillbore_job::results::Beside;
use quillbore_job::{Block, Edit, Line, Paper, SlipKind, Unit};

use quillbore_office::names::{AttachmentName, JobKey};
use quillbore_paper::BlankForm;

use crate::actions::Action;
use crate::desk::Then;
use crate::grid::{GridAt, GridView};
use crate::incoming::{Choosing, FromFile, Offering};
use crate::sheet::Pages;
use crate::sheet::map::MapView;
use crate::sheet::note_index::NoteIndex;
use crate::sheet::pictured::PictureAt;
use crate::sheet::quick_line::QuickLine;
use crate::sheet::runs::PlanKept;
use crate::sheet::whole::Whole;
use crate::spot::Spot;
use crate::working::WorkingKept;

/// The window's own state.
#[derive(Default)]
pub struct SheetView {
    /// The hole table's cursor, selection and draft.
    pub grid: GridView,
    /// The same of the run records.
    pub runs: GridView,
    /// The quick price of a sheet that began empty.
    pub quick: Option<QuickLine>,
    /// Lines being typed in.
    pub drafts: BTreeMap<Spot, String>,
    /// A choice is under the pointer: leaving the field does not commit its draft.
    pub choosing: bool,
    /// The name that is marked in the list of a field, by its place.
    pub marked: Option<(Spot, usize)>,
    /// Blocks folded to one line, by their names.
    pub folded: BTreeSet<&'static str>,
    /// Slips with every line laid out.
    pub open_slips: BTreeSet<u32>,
    /// This line takes the keyboard as soon as it is drawn.
    pub focus: Option<Spot>,
    /// The first empty line of this slip takes the keyboard as soon as it is drawn.
    pub focus_slip: Option<u32>,
    /// Blocks that show the lines, too, that a first quotation doesn't need.
    pub more: BTreeSet<Block>,
    /// Where somebody asked what can be done to a row of the hole table.
    pub row_menu: Option<Pos2>,
    /// Every column of the hole table.
    pub all_columns: bool,
    /// Every column of the run records.
    pub all_run_columns: bool,
    /// What is planned beside the run records, by the results that it was worked out from.
    pub run_plan: Option<PlanKept>,
    /// The side notes by where they stand.
    pub note_index: Option<NoteIndex>,
    /// What was said last of all rows together.
    pub whole: Option<Arc<Whole>>,
    /// The figure whose working is open.
    pub opened: Option<Figure>,
    /// Its working, by what it was worked out from.
    pub working: Option<WorkingKept>,
    /// Where its working lies.
    pub opened_at: WorkingAt,
    /// How high the working was drawn last.
    pub working_height: f32,
    /// Where each note of the margin stood last, by what tells it from the others.
    pub held_notes: Vec<(u64, f32)>,
    /// The notes in the list of all as they stood there last, each with its height.
    pub held_list: Vec<((u64, usize), f32)>,
    /// Since when each note has been on the screen.
    pub seen_notes: BTreeMap<u64, f64>,
    /// All notes are listed, in place of those about the lines in sight.
    pub all_notes: bool,
    /// The first word of a note beside this line takes the keyboard as soon as it is drawn.
    pub go_to_note: Option<Beside>,
    /// Which of the stops and checks somebody went to last.
    pub at_note: Option<NoteAt>,
    /// This line is brought into sight as soon as it is drawn.
    pub bring: Option<Beside>,
    /// The command that is marked in their list.
    pub command: usize,
    /// The margin is open over the sheet, where it is but a strip.
    pub margin_over: bool,
    /// What F1 says lies over the margin.
    pub help: bool,
    /// The field that had the keyboard last.
    pub at_field: Option<Spot>,
    /// What stood on the line that has the keyboard, at the last frame.
    pub stood: Option<(Spot, String)>,
    /// The field in which something was typed since it has the keyboard.
    pub typed_in: Option<Spot>,
    /// The picture lies over the margin, where it has no place of its own.
    pub picture: bool,
    /// What is pictured.
    pub picture_at: PictureAt,
    /// How the map of the holes is looked at.
    pub map: MapView,
    /// The price each that is being typed over another, with its quantity.
    pub price_draft: Option<(u32, String)>,
    /// The overrule being typed.
    pub overrule: OverruleDraft,
    /// The answer being typed to what a side note asks.
    pub answering: Option<Answering>,
    /// The row whose places are laid out, and the text being typed for them.
    pub places: Option<(RowId, String)>,
    /// Reports of tables, by where they stand among the job's, with every line laid out.
    pub open_reports: BTreeSet<usize>,
    /// The paper whose pages lie over the sheet.
    pub paper: Option<Paper>,
    /// Its pages as they were laid out last.
    pub pages: Option<Pages>,
    /// A path or an answer that the window waits for.
    pub waiting: Option<Waiting>,
    /// The waiting line has been drawn: it took the keyboard when it was new.
    pub waiting_shown: bool,
    /// What is typed in the settings, while they are laid out.
    pub settings: Option<SettingDrafts>,
    /// The jobs most like this one, by the state of the job and of the shelf that they were found in.
    pub alike: Option<(u64, u64, Vec<quillbore_office::digest::Alike>)>,
}

/// Which of the stops and checks somebody went to: its place among them, and what tells it from others.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct NoteAt {
    /// Its place among them.
    pub at: usize,
    /// The line that it stands beside.
    pub beside: Beside,
    /// What it is about.
    pub code: &'static str,
}

/// Where a working lies in the margin.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub enum WorkingAt {
    /// Its top at a height on the screen, where its figure stands.
    Beside(f32),
    /// Its bottom on the foot.
    #[default]
    AboveFoot,
}

impl SheetView {
    /// Waits for a path or an answer; its line takes the keyboard when it is drawn.
    pub fn wait_for(&mut self, waiting: Waiting) {
        self.waiting_shown = false;
        self.waiting = Some(waiting);
    }

    /// Opens the working of a figure, or closes it where it is open.
    pub fn open_working(&mut self, figure: Figure, at: WorkingAt) {
        if self.opened == Some(figure) {
            self.opened = None;
        } else {
            self.show_working(figure, at);
        }
    }

    /// Shows the working of a figure.
    pub fn show_working(&mut self, figure: Figure, at: WorkingAt) {
        self.opened = Some(figure);
        self.opened_at = at;
        self.overrule = OverruleDraft::default();
    }
}

/// Settings being typed.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct SettingDrafts {
    /// What this desk calls itself.
    pub desk_name: String,
    /// The folder of the shelf.
    pub shelf: String,
    /// The printer.
    pub printer: String,
    /// The print command.
    pub print_command: String,
}

/// An overrule being typed.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct OverruleDraft {
    /// The value.
    pub value: String,
    /// Why.
    pub reason: String,
}

/// An answer being typed.
#[derive(Clone, Debug, PartialEq)]
pub struct Answering {
    /// What it answers.
    pub questions: Vec<(RowId, Concern)>,
    /// Who bears it.
    pub how: How,
    /// Who agreed, or why it is accepted.
    pub said: String,
    /// Its line has been drawn: it took the keyboard when it was new.
    pub shown: bool,
}

impl Answering {
    /// An answer to these questions, of which nothing is typed yet.
    #[must_use]
    pub const fn new(questions: Vec<(RowId, Concern)>, how: How) -> Self {
        Self {
            questions,
            how,
            said: String::new(),
            shown: false,
        }
    }
}

/// What the window waits for.
#[derive(Clone, Debug, PartialEq)]
pub enum Waiting {
    /// A path to open.
    OpenPath(String),
    /// A path to save to.
    SavePath(String),
    /// A folder to print into.
    PrintPath(String),
    /// Save and close, discard the changes, or cancel: jobs are not saved.
    Guard(Next),
    /// Save and close, discard the changes, or cancel: the shop's data are not saved.
    GuardShop,
    /// Another desk changed the file: merge, save a copy, or wait.
    Changed,
    /// This folder of so many jobs is to be the shelf, or isn't.
    Adopt(usize),
    /// Work of an earlier run that was not saved: restore or discard it.
    Left(Box<quillbore_office::drafts::Left>),
    /// A word to find an action by.
    Command(String),
    /// A table before it lands, and the word being typed for one of its columns.
    Column(Box<Pasting>, String),
    /// The order that a job is done again for: number, quantity, price each, revision.
    Again(String),
    /// The printer to print a file on, and those that there are.
    Printer(String, PathBuf, Vec<String>),
    /// A file to attach to the job.
    AttachPath(String),
    /// A file to take holes from.
    HolesPath(String),
    /// The password of the shelf's server.
    Password(String),
    /// A file is being read: its name, and which hundredth it is at.
    Reading(String, u32),
    /// A drawing or a solid before its holes land.
    Drawn(Box<Choosing>),
    /// A drawing in PDF before its callouts land.
    Pages(Box<Offering>),
}

/// A table on its way into the hole table.
#[derive(Clone, Debug, PartialEq)]
pub struct Pasting {
    /// The table.
    pub table: Foreign,
    /// The row that its first line goes to.
    pub row: usize,
    /// What bare numbers in it are meant in.
    pub unit: Unit,
    /// The column, from 0, of which one says what it is.
    pub at: usize,
    /// The file that it came from; none where it was pasted.
    pub file: Option<FromFile>,
    /// What it comes to, until something is said of it.
    told: Option<Summary>,
}

impl Pasting {
    /// A table for a row, of which nothing is said yet.
    #[must_use]
    pub fn new(table: Foreign, row: usize, unit: Unit) -> Self {
        let mut pasting = Self {
            table,
            row,
            unit,
            at: 0,
            file: None,
            told: None,
        };
        pasting.to_next_question();
        pasting
    }

    /// What it comes to as its columns are understood now: every cell is read for it once.
    pub fn summary(&mut self) -> Summary {
        let (table, unit) = (&self.table, self.unit);
        *self.told.get_or_insert_with(|| table.summary(unit))
    }

    /// Has it looked at anew: something was said of it.
    pub fn changed(&mut self) {
        self.told = None;
        if let Some(file) = &mut self.file {
            file.changed();
        }
    }

    /// Asks of the first column that is not understood, where there is one.
    pub fn to_next_question(&mut self) {
        if let Some(question) = self.table.questions().first() {
            self.at = question.column;
        }
    }
}

/// What was going to be done when a job turned out not to be saved.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Next {
    /// This job is going to be put away.
    CloseJob,
    /// The window is going to be closed.
    CloseWindow,
}

impl Waiting {
    /// Whether it stands in the head; commands, a table and a drawing lie over the sheet.
    #[must_use]
    pub const fn is_in_head(&self) -> bool {
        !matches!(
            self,
            Self::Command(_) | Self::Column(..) | Self::Drawn(_) | Self::Pages(_)
        )
    }
}

/// A place that somebody wants to go to.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Target {
    /// A field of the sheet or a line of a slip: it takes the keyboard.
    Spot(Spot),
    /// A cell of the hole table: it takes the keyboard.
    Cell(GridAt),
    /// The line that a note stands beside.
    Beside(Beside),
    /// The next stop or check.
    NextNote,
}

/// What the panels ask for; they change nothing themselves but the view.
#[derive(Clone, Debug, PartialEq)]
pub enum Ask {
    /// An edit of the job.
    Edit(Edit),
    /// Pin a slip to the sheet, filled in as far as is known.
    Pin(SlipKind),
    /// Add a run record for each mark that has none.
    RunsOfMarks,
    /// Add a run record for each electrode of the plan that none covers yet.
    RunsOfPlan,
    /// An action of the list.
    Do(Action),
    /// Open this job.
    Open(quillbore_office::office::Wanted),
    /// Bring this job of the desk to the front.
    Front(usize),
    /// Go to a place on the sheet.
    GoTo(Target),
    /// Show the pages of a paper.
    Preview(Paper),
    /// Print a blank form for the floor and open it.
    BlankForm(BlankForm),
    /// Write the threading list of the job's start holes.
    Threading,
    /// Open a slip and put the keyboard on one of its lines.
    TypeOn(u32, Line),
    /// Make the quick price the job, and go where one would say otherwise what it assumes.
    MakeQuick(Option<LeadsTo>),
    /// Answer what side notes ask.
    Answer(Answering),
    /// Issue a paper.
    Issue(Paper),
    /// Issue a quotation of the open inquiries of the same customer.
    IssueTogether,
    /// Call off the parts that are here as a part of the order, and release their traveler.
    ReleasePart(u32),
    /// Do this with the stored file of an issued paper, once it is known that nobody changed it.
    Reprint(String, Then),
    /// Open a file that was made here.
    OpenFile(PathBuf),
    /// Open the folder of the job's papers.
    OpenFolder,
    /// Print a file that was made here.
    PrintFile(PathBuf),
    /// Open a file that lies beside the job.
    OpenBeside(AttachmentName),
    /// Ask for a file to attach.
    AskToAttach,
    /// Say this in the foot.
    Tell(String),
    /// Write a letter with an issued paper, by its number, in the mail program.
    Mail(String),
    /// Paste a table.
    Paste(Box<Pasting>),
    /// Say why an edit can't be done.
    Refused(EditRefused),
    /// Say why what was pasted is no table.
    NoTable(IntakeError),
    /// Ask of this column, from 0, what it is.
    AtColumn(usize),
    /// The column that is asked about holds this.
    SayColumn(Holds),
    /// Land the table, drawing or solid as it is understood now.
    LandTable,
    /// Put the file that is shown into the job's folder, and take no holes from it.
    AttachAlone,
    /// Go on with what waited: the path was typed, or the guard answered.
    GoOn(Decision),
    /// Open the job of a run record, at one of its lines.
    OpenRecord(JobKey, u32, Line),
    /// Put the page of what was learned away.
    CloseLearned,
    /// What the day's list asks.
    Today(crate::today::TodayAsk),
    /// What the shop's page asks.
    Shop(crate::shop::ShopAsk),
    /// Use the desktop's own dialog for the path.
    Browse,
    /// Change a setting.
    Set(SettingChange),
}

/// A setting and its new value.
#[derive(Clone, Debug, PartialEq)]
pub enum SettingChange {
    /// Letter paper instead of A4.
    Letter(bool),
    /// What this desk calls itself.
    DeskName(String),
    /// The folder of the shelf; it is used from the next start on.
    Shelf(String),
    /// The printer; none: it is asked for at the next print.
    Printer(String),
    /// The print command.
    PrintCommand(String),
}

/// How a question in the window was answered.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Decision {
    /// Do it; save and close, at the guard; merge, where another desk changed the file.
    Yes,
    /// Discard the changes, at the guard; discard the draft; save a copy.
    Leave,
    /// Forget it.
    Stay,
}
