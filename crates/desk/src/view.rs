//! What the window remembers that is in no job: drafts, what is folded, what is opened.

use std::collections::{BTreeMap, BTreeSet};
use std::path::PathBuf;

use quillbore_calc::{Figure, RowId};
use quillbore_job::{Block, Edit, Field};

use crate::actions::Action;
use crate::grid::GridView;
use crate::print::Kind;
use crate::shelf::Listed;

/// The window's own state.
#[derive(Default)]
pub struct View {
    /// The hole table's cursor, selection and draft.
    pub grid: GridView,
    /// Fields being typed in.
    pub drafts: BTreeMap<Field, String>,
    /// A choice is under the pointer: leaving the field does not commit its draft.
    pub choosing: bool,
    /// Blocks folded to one line.
    pub folded: BTreeSet<Block>,
    /// Blocks with every line laid out.
    pub laid_out: BTreeSet<Block>,
    /// Every column of the hole table.
    pub all_columns: bool,
    /// The figure whose working is open.
    pub opened: Option<Figure>,
    /// The figure whose working was brought into sight last.
    pub opened_seen: Option<Figure>,
    /// The overrule being typed.
    pub overrule: OverruleDraft,
    /// The row whose places are laid out, and the text being typed for them.
    pub places: Option<(RowId, String)>,
    /// The paper shown in its block.
    pub paper: Option<Kind>,
    /// A path or an answer that the window waits for.
    pub waiting: Option<Waiting>,
    /// The waiting line has been drawn: it took the keyboard when it was new.
    pub waiting_shown: bool,
    /// The shelf as it was last read.
    pub shelf: Vec<Listed>,
    /// What is typed to find a job on the shelf.
    pub find: String,
}

/// An overrule being typed.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct OverruleDraft {
    /// The value.
    pub value: String,
    /// Why.
    pub reason: String,
}

/// What the window waits for.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Waiting {
    /// A path to open.
    OpenPath(String),
    /// A path to save to; what was going to be done next, if anything.
    SavePath(String, Option<Next>),
    /// A folder to print into.
    PrintPath(String),
    /// Save, leave or stay: the job is not saved.
    Guard(Next),
}

/// What was going to be done when the job turned out not to be saved.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Next {
    /// A new job.
    New,
    /// A path is going to be asked for.
    AskOpen,
    /// This job is going to be opened.
    Open(PathBuf),
    /// The window is going to be closed.
    Close,
}

/// What the panels ask for; they change nothing themselves but the view.
#[derive(Clone, Debug, PartialEq)]
pub enum Ask {
    /// An edit of the job.
    Edit(Edit),
    /// An action of the list.
    Do(Action),
    /// Open this job.
    Open(PathBuf),
    /// Go on with what waited: the path was typed, or the guard answered.
    GoOn(Answer),
    /// Use the desktop's own dialog for the path.
    Browse,
}

/// How a question in the window was answered.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Answer {
    /// Do it; save first, at the guard.
    Yes,
    /// Leave the changes, at the guard.
    Leave,
    /// Forget it.
    Stay,
}
