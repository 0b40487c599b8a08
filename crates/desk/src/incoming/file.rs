//! What the window remembers of a file before its rows land.

use std::path::PathBuf;

use egui::Pos2;
use quillbore_intake::compare::Comparison;
use quillbore_intake::drawn::Drawn;
use quillbore_job::RowsAt;
use quillbore_office::hole_file::Weighed;

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
    /// What differs from the rows that are there, where that was asked.
    pub comparison: Option<Comparison>,
    /// Rows that would come.
    pub rows: usize,
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
