//! The day's list in the window: what waits in which job, over the sheet until Esc.

mod page;

use std::collections::BTreeMap;
use std::sync::Arc;

use chrono::NaiveDate;
use quillbore_job::Shop;
use quillbore_office::names::JobKey;
use quillbore_office::pool::Pool;
use quillbore_office::today::{Group, Today, Waiting};

use crate::words::today as words;

pub use page::{today_foot_ui, today_head_ui, today_ui};

/// The page as the window keeps it.
#[derive(Default)]
pub struct TodayPage {
    /// It lies over the sheet.
    pub open: bool,
    /// It was opened just now, and is shown from its top.
    pub is_fresh: bool,
    /// What it shows; none until it was worked out.
    pub list: Option<Arc<Today>>,
    /// From what it was worked out.
    pub(crate) of: Option<MadeOf>,
    /// Hours that jobs still take, as far as they were told.
    pub(crate) hours: BTreeMap<JobKey, f64>,
    /// The jobs whose hours were asked for: those on the floor, then those on the list.
    pub(crate) asked: Vec<JobKey>,
    /// How often put-off matters or hours became others.
    pub(crate) changes: u64,
    /// What is set aside stands below the list.
    pub(crate) with_aside: bool,
    /// The line one is at; those set aside come after the others.
    pub(crate) at: usize,
    /// That line is brought into sight as soon as it is drawn.
    pub(crate) follow: bool,
    /// The day being typed until which that line is set aside.
    pub until: Option<String>,
    /// The line of that day has been drawn: it took the keyboard when it was new.
    pub(crate) until_shown: bool,
    /// What was done last.
    pub notice: String,
    /// Why the shelf can't be read, where nothing is known of it.
    pub(crate) not_read: Option<String>,
}

/// From what a list was worked out.
#[derive(Clone)]
pub(crate) struct MadeOf {
    pub(crate) version: u64,
    pub(crate) changes: u64,
    pub(crate) day: NaiveDate,
    pub(crate) shop: Arc<Shop>,
    pub(crate) pool: Option<Arc<Pool>>,
}

/// What the page asks for.
#[derive(Clone, Debug, PartialEq)]
pub enum TodayAsk {
    /// Open the job of a line where it is seen to.
    Open(Box<Waiting>),
    /// Say that a line is done, where that is one edit.
    Done(Box<Waiting>),
    /// Set a line aside until a day, as it was typed.
    SetAside(Box<Waiting>, String),
    /// Put a line that was set aside back.
    BringBack(Box<Waiting>),
    /// Show what is set aside below the list, or leave it out again.
    ShowAside,
    /// The page is closed.
    Close,
    /// Say this in the foot.
    Tell(String),
}

impl TodayPage {
    /// What is said as long as there is no list.
    pub(crate) fn looking(&self) -> &str {
        self.not_read.as_deref().unwrap_or(words::LOOKING)
    }

    /// The line one is at.
    #[must_use]
    pub fn line(&self) -> Option<&Waiting> {
        self.line_at(self.list.as_deref()?, self.at)
    }

    /// A line of a list, those set aside after the others while they are shown.
    fn line_at<'a>(&self, list: &'a Today, at: usize) -> Option<&'a Waiting> {
        let aside = || list.aside.get(at.checked_sub(list.lines.len())?);
        let shown = || self.with_aside.then(aside).flatten();
        list.lines.get(at).or_else(shown)
    }

    /// How many lines of a list are shown.
    pub(crate) fn count(&self, list: &Today) -> usize {
        let aside = if self.with_aside { list.aside.len() } else { 0 };
        list.lines.len() + aside
    }

    /// Stays at a line where there are fewer than before.
    pub(crate) fn stay_in_list(&mut self) {
        let shown = self.list.as_ref().map_or(0, |list| self.count(list));
        self.at = self.at.min(shown.saturating_sub(1));
    }

    /// Goes to the first line of the group with a number, counted from 1 among those that have lines.
    pub(crate) fn go_to_group(&mut self, number: usize) {
        let Some(list) = &self.list else { return };
        let mut at = 0;
        for (index, (_, lines)) in list.groups().enumerate() {
            if index + 1 == number {
                self.at = at;
                self.follow = true;
                return;
            }
            at += lines.len();
        }
    }
}

/// A line of the page: the head of a group, or what waits.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Row {
    /// The head of a group, with how many lines it has.
    Head(Group, usize),
    /// The head of what is set aside, with how many lines it has.
    AsideHead(usize),
    /// A line, by its place in the list.
    Line(usize),
}

fn rows(list: &Today, with_aside: bool) -> Vec<Row> {
    let mut rows = Vec::new();
    let mut at = 0;
    for (group, lines) in list.groups() {
        rows.push(Row::Head(group, lines.len()));
        rows.extend((at..at + lines.len()).map(Row::Line));
        at += lines.len();
    }
    if with_aside && !list.aside.is_empty() {
        rows.push(Row::AsideHead(list.aside.len()));
        rows.extend((at..at + list.aside.len()).map(Row::Line));
    }
    rows
}
