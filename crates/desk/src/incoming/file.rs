//! What the window remembers of a file before its rows land.

use std::path::PathBuf;

use egui::{Pos2, Vec2, vec2};
use quillbore_intake::compare::Comparison;
use quillbore_intake::drawn::Drawn;
use quillbore_intake::pdf::Offered;
use quillbore_job::RowsAt;
use quillbore_office::hole_file::Weighed;

use super::page::Shown;
use super::picture::Seen;

/// A file whose rows are about to land.
#[derive(Clone, Debug, PartialEq)]
pub struct FromFile {
    /// Where it lies.
    pub path: PathBuf,
    /// What is said of it: its size and day, and whether it changed since holes came from it.
    pub told: Vec<String>,
    /// Where its rows go.
    pub lands: Lands,
    /// It goes into the job's folder, too.
    pub is_kept: bool,
    /// What it makes of the job; `None` until it was looked at anew.
    pub reckoned: Option<Reckoned>,
}

/// Where the rows of a file go.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Lands {
    /// Below those that are there.
    #[default]
    Below,
    /// In their place.
    InPlace,
    /// Beside them: what is the same stays.
    Compared,
}

/// What a file would make of the job.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Reckoned {
    /// The state of the job's history that it is of.
    pub of: u64,
    /// What differs from the rows that are there, where that was asked.
    pub comparison: Option<Comparison>,
    /// Why it can't land yet.
    pub why_not: Option<String>,
    /// The price before and after, once it is reckoned.
    pub weighed: Option<Weighed>,
}

impl FromFile {
    /// A file of which nothing is said yet; beside rows that came from an earlier one it is compared.
    #[must_use]
    pub const fn new(path: PathBuf, told: Vec<String>, lands: Lands) -> Self {
        Self {
            path,
            told,
            lands,
            is_kept: true,
            reckoned: None,
        }
    }

    /// Has it looked at anew: something was said of it.
    pub fn changed(&mut self) {
        self.reckoned = None;
    }
}

impl Lands {
    /// Every way.
    pub const ALL: [Self; 3] = [Self::Below, Self::InPlace, Self::Compared];

    /// Where its rows go in the hole table.
    #[must_use]
    pub const fn rows_at(self) -> RowsAt {
        match self {
            Self::Below => RowsAt::Append,
            Self::InPlace | Self::Compared => RowsAt::Replace,
        }
    }
}

/// A drawing or a solid, of which somebody chooses the holes.
#[derive(Clone, Debug, PartialEq)]
pub struct Choosing {
    /// What was read.
    pub drawn: Drawn,
    /// What of it looks like a hole and was not taken, in words.
    pub not_taken: Vec<String>,
    /// The file.
    pub file: FromFile,
    /// Sizes being typed.
    pub typed: String,
    /// That what was typed is no sizes.
    pub is_unread: bool,
    /// The kind that is marked in the list.
    pub marked: usize,
    /// From where the picture is seen.
    pub seen: Seen,
    /// How many times larger than the whole the picture is.
    pub zoom: f32,
    /// What stands in its middle, as shares of the whole.
    pub middle: (f32, f32),
    /// Where somebody began to draw a frame around holes.
    pub frame_from: Option<Pos2>,
}

impl Choosing {
    /// A drawing or a solid of which nothing is said yet: all its holes are chosen.
    #[must_use]
    pub fn new(drawn: Drawn, file: FromFile) -> Self {
        let seen = Seen::best(&drawn);
        Self {
            not_taken: drawn.told(),
            drawn,
            file,
            typed: String::new(),
            is_unread: false,
            marked: 0,
            seen,
            zoom: 1.0,
            middle: (0.5, 0.5),
            frame_from: None,
        }
    }
}

/// A drawing in PDF, of which somebody takes callouts.
#[derive(Clone, Debug, PartialEq)]
pub struct Offering {
    /// What was read.
    pub offered: Offered,
    /// The file.
    pub file: FromFile,
    /// A text being typed whose callouts are to be taken.
    pub typed: String,
    /// The callout that is marked in the list.
    pub marked: usize,
    /// It is brought into sight.
    pub bring: bool,
    /// The page that stands beside the list, from 0.
    pub page: usize,
    /// How it is shown.
    pub shown: Shown,
    /// How many times larger than the whole it is.
    pub zoom: f32,
    /// What stands in its middle, as shares of the whole.
    pub middle: (f32, f32),
}

impl Offering {
    /// A drawing of which nothing is taken yet, at the page of its first callout.
    #[must_use]
    pub fn new(offered: Offered, file: FromFile) -> Self {
        let page = offered.callouts().next().map_or(0, |first| first.page);
        Self {
            offered,
            file,
            typed: String::new(),
            marked: 0,
            bring: false,
            page,
            shown: Shown::Wanted,
            zoom: 1.0,
            middle: (0.5, 0.5),
        }
    }

    /// The size of the page that is shown, in points of the file.
    #[must_use]
    pub fn size(&self) -> Option<Vec2> {
        let page = self.offered.paged().pages.get(self.page)?;
        let size = vec2(page.width as f32, page.height as f32);
        (size.x > 0.0 && size.y > 0.0).then_some(size)
    }

    /// Shows all of the page.
    pub fn whole(&mut self) {
        (self.zoom, self.middle) = (1.0, (0.5, 0.5));
    }

    /// Turns to a page.
    pub fn turn_to(&mut self, page: usize) {
        if page != self.page {
            self.page = page;
            self.shown = Shown::Wanted;
            self.whole();
        }
    }

    /// Marks a callout, and turns to its page.
    pub fn mark(&mut self, callout: usize) {
        self.marked = callout;
        let found = self.offered.callouts().nth(callout);
        let Some((page, place)) = found.map(|of| (of.page, of.place)) else {
            return;
        };
        self.turn_to(page);
        if let Some(size) = self.size().filter(|_| self.zoom > 1.0) {
            // Whoever looks closer looks at the one that is marked.
            let [left, top, right, bottom] = place.map(|points| points as f32);
            self.middle = (
                f32::midpoint(left, right) / size.x,
                f32::midpoint(top, bottom) / size.y,
            );
        }
    }

    /// How many callouts are taken.
    #[must_use]
    pub fn taken(&self) -> usize {
        let all = self.offered.callouts().count();
        (0..all).filter(|at| self.offered.is_taken(*at)).count()
    }

    /// Takes all callouts, or none.
    pub fn take_all(&mut self, is_taken: bool) {
        let all = self.offered.callouts().count();
        for at in 0..all {
            if self.offered.is_taken(at) != is_taken {
                self.offered.toggle(at);
            }
        }
        self.file.changed();
    }

    /// Takes the callouts that have what was typed in their text, and no others.
    pub fn take_those_with_typed(&mut self) {
        let wanted = self.typed.trim().to_lowercase();
        let all = self.offered.callouts().enumerate();
        let with = all.filter(|(_, callout)| callout.text.to_lowercase().contains(&wanted));
        let with: Vec<usize> = with.map(|(at, _)| at).collect();
        for at in 0..self.offered.callouts().count() {
            if self.offered.is_taken(at) != with.contains(&at) {
                self.offered.toggle(at);
            }
        }
        self.typed.clear();
        self.file.changed();
    }
}
