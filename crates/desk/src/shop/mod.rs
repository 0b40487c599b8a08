//! The shop in the window: its lists and lines as they are typed, over the sheet until Esc. What is typed
//! is saved at once, and counts for all desks.

mod choices;
mod columns;
mod lines;
mod list;
mod logo;
mod model;
mod notes;
mod page;
mod start;
mod taken;

use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

use quillbore_job::Form;
use quillbore_job::shop::Shop;
use quillbore_job::shop::sheet::{
    ShopChange, ShopColumn, ShopEdit, ShopLine, ShopList, ShopNote, ShopSheet, ShownRow, Still,
    shown_rows, still_sample,
};
use quillbore_job::shop_history::ShopHistory;
use quillbore_job::words::shop_sheet as words;
use quillbore_office::office::shop::SheetStands;
use quillbore_office::office::shop_lost::InPlaceOfLost;
use quillbore_office::pool::Pool;

use crate::grid::GridView;
use crate::words::first_start;
pub(crate) use page::commit_typed;
pub use page::{shop_foot_ui, shop_head_ui, shop_ui};
pub use start::StartLine;
pub use start::start_ui;
pub use taken::Met;

/// A part of the page that one can go to.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Part {
    /// One of its lists.
    List(ShopList),
    /// What papers say beside the figures.
    Texts,
    /// Who it is.
    Identity,
    /// What was changed last.
    Changes,
}

/// The page as the window keeps it.
#[derive(Default)]
pub struct ShopPage {
    /// It lies over the sheet.
    pub open: bool,
    /// It is the first start: six lines in place of the whole.
    pub is_start: bool,
    /// There are sample jobs in a folder of their own.
    pub has_samples: bool,
    /// It was opened just now, and is shown from its top.
    pub is_fresh: bool,
    /// The sheet, and how it came about.
    pub history: ShopHistory,
    /// What stands on the shelf; none until the clerk told it.
    pub stands: Option<SheetStands>,
    /// What is being saved.
    pub saving: Option<Arc<ShopSheet>>,
    /// Why it could not be read or saved last; what was typed is not saved then.
    pub failed: Option<String>,
    /// A look at the shelf is under way.
    pub looking: bool,
    /// It was left as it is, unsaved, when the window was closed.
    pub let_go: bool,
    /// Where another desk changed the same thing, until somebody chose.
    pub clashes: Vec<Met>,
    /// What was done last.
    pub notice: String,
    /// The shop was named on the command line, so that this sheet counts for nothing here.
    pub is_overruled: bool,
    /// Cursor and draft of each list.
    pub grids: BTreeMap<ShopList, GridView>,
    /// Lists whose samples are shown though there are many.
    pub shown_samples: BTreeSet<ShopList>,
    /// Lines being typed in.
    pub(crate) drafts: BTreeMap<At, String>,
    /// This part is brought into sight as soon as it is drawn.
    pub(crate) go: Option<Part>,
    /// This line takes the keyboard as soon as it is drawn.
    pub(crate) focus: Option<At>,
    /// The choice that is marked in the list of a line.
    pub(crate) marked: Option<(At, usize)>,
    /// The pointer is over the list of this line.
    pub(crate) choosing: Option<At>,
    /// The line that was left in this frame.
    pub(crate) left: Option<At>,
    /// What is worked out for rows: what lies in the drawer by now, what was learned.
    pub(crate) computed: Arc<model::Computed>,
    /// From what it was worked out.
    pub(crate) computed_of: Option<(Arc<Pool>, Arc<Shop>)>,
    /// The shop's file can't be read or is gone: something has to take its place.
    pub is_lost: bool,
    /// Electrodes and guides of which more is promised than lies there.
    pub(crate) short: usize,
    /// The path that is typed for the logo.
    pub(crate) logo_path: String,
    /// What is said once all is saved: of a list that was taken in, of what was filled in.
    pub(crate) told_when_saved: String,
    /// A change that was made and that the file on the shelf lacks, once that was told.
    pub(crate) lacks: Option<ShopChange>,
    /// The paths that are typed for files of lists.
    pub(crate) list_paths: BTreeMap<ShopList, String>,
    kept: Option<Kept>,
}

/// A place that is typed in under a label.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) enum At {
    /// A single line.
    Line(ShopLine),
    /// A text of several lines of the row where the cursor of a list is.
    Long(ShopList, ShopColumn),
    /// A place of the first start.
    Start(StartLine),
}

impl At {
    /// What tells it from every other place.
    fn key(self) -> (&'static str, &'static str) {
        match self {
            Self::Line(line) => ("", line.key()),
            Self::Long(list, column) => (list.key(), column.key()),
            Self::Start(StartLine::Of(line)) => ("start", line.key()),
            Self::Start(StartLine::Unit) => ("start", "unit"),
            Self::Start(StartLine::Rate(column)) => ("start rate", column.key()),
            Self::Start(StartLine::Machine(column)) => ("start machine", column.key()),
            Self::Start(StartLine::Sizes) => ("start", "sizes"),
        }
    }
}

/// What the page asks for.
#[derive(Clone, Debug, PartialEq)]
pub enum ShopAsk {
    /// An edit of the sheet.
    Edit(ShopEdit),
    /// The last step is taken back.
    Undo,
    /// It is done again.
    Redo,
    /// Save once more what could not be saved.
    SaveAgain,
    /// Something takes the place of the shop's file that is lost.
    ReplaceLost(InPlaceOfLost),
    /// The page is closed.
    Close,
    /// What another desk wanted stands, of the clash at this place.
    TakeTheirs(usize),
    /// Ours stays, of the clash at this place.
    KeepOurs(usize),
    /// The whole page in place of the first start.
    WholePage,
    /// Open the sample jobs in a window of their own.
    SeeSamples,
    /// Remove the sample jobs.
    RemoveSamples,
    /// A logo is chosen from a file.
    ChooseLogo,
    /// This file is the logo.
    TakeLogo(std::path::PathBuf),
    /// A file for a list is chosen.
    ChooseList(ShopList),
    /// The list is written into this new file.
    ListTo(ShopList, std::path::PathBuf),
    /// The list takes in this file.
    ListFrom(ShopList, std::path::PathBuf),
    /// Say this in the foot.
    Tell(String),
    /// Say this in the foot once all is saved.
    TellWhenSaved(String),
}

/// What was worked out of a sheet, until it is another one.
struct Kept {
    of: Arc<ShopSheet>,
    notes: Arc<[ShopNote]>,
    form: Form,
    still: Vec<Still>,
    rows: BTreeMap<(ShopList, bool), Arc<[ShownRow]>>,
}

impl ShopPage {
    /// Whether something that was typed is not saved yet.
    #[must_use]
    pub fn is_unsaved(&self) -> bool {
        let stands = self.stands.as_ref();
        stands.is_some_and(|stands| stands.sheet != *self.history.now())
    }

    /// What is typed where one is, in a sentence.
    #[must_use]
    pub fn about_here(&self) -> String {
        if let Some(at) = self.drafts.keys().next() {
            return match at {
                At::Line(line) => words::line_about(*line),
                At::Long(_, column) => words::column_about(*column),
                At::Start(line) => first_start::about(*line),
            }
            .to_owned();
        }
        let active = self.grids.iter().find(|(_, view)| view.is_active());
        let about = active.map(|(list, view)| {
            let column = list.columns().get(view.cursor().col);
            column.map_or(words::list_about(*list), |column| {
                words::column_about(*column)
            })
        });
        about.unwrap_or_default().to_owned()
    }

    fn kept(&mut self) -> &mut Kept {
        let now = self.history.now();
        let same = |kept: &Kept| Arc::ptr_eq(&kept.of, now);
        if !self.kept.as_ref().is_some_and(same) {
            let shop = Shop::of_sheet(now);
            let form = shop
                .as_ref()
                .map_or_else(|_| Form::default(), |shop| shop.form);
            let notes = shop.map_or_else(|_| Vec::new(), |shop| shop.not_used);
            self.kept = None;
            return self.kept.insert(Kept {
                of: Arc::clone(now),
                notes: notes.into(),
                form,
                still: still_sample(now),
                rows: BTreeMap::new(),
            });
        }
        self.kept.get_or_insert_with(|| Kept {
            of: Arc::default(),
            notes: Arc::default(),
            form: Form::default(),
            still: Vec::new(),
            rows: BTreeMap::new(),
        })
    }

    /// How the sheet writes numbers and days.
    fn form(&mut self) -> Form {
        self.kept().form
    }

    /// What can't be used of the sheet.
    pub(crate) fn notes(&mut self) -> Arc<[ShopNote]> {
        Arc::clone(&self.kept().notes)
    }

    /// The rows of a list as they are shown.
    pub(crate) fn rows(&mut self, list: ShopList) -> Arc<[ShownRow]> {
        let with_samples = is_short(list) || self.shown_samples.contains(&list);
        let sheet = Arc::clone(self.history.now());
        let rows = &mut self.kept().rows;
        let rows = rows
            .entry((list, with_samples))
            .or_insert_with(|| shown_rows(&sheet, list, with_samples).into());
        Arc::clone(rows)
    }
}

/// Whether a list has so few samples that they are always shown.
const fn is_short(list: ShopList) -> bool {
    !matches!(
        list,
        ShopList::Electrodes | ShopList::Guides | ShopList::Materials
    )
}
