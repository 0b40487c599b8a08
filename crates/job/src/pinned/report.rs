//! What became of a hole table that came from elsewhere: the job keeps it, so that what was guessed
//! and what was left out can be looked up as long as the job lives.

use chrono::NaiveDate;

use crate::ground::hash::Hash;
use crate::ground::limits::LONGEST_TEXT;
use crate::ground::list::list;

/// Most reports of a job.
pub const MOST_REPORTS: usize = 10_000;

/// Most points of an outline.
pub const MOST_OUTLINED: usize = 10_000;

/// Most sentences and lines of one report.
pub const MOST_TOLD: usize = 100_000;

/// What became of one table.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Report {
    /// Where the table came from.
    pub from: Source,
    /// What holds for the whole: head, separator, unit, columns that were left out.
    pub whole: Vec<String>,
    /// Lines of the text taken as they stand, beside those in `lines`.
    pub taken: u32,
    /// What is told line by line, in the text's order.
    pub lines: Vec<ReportLine>,
    /// The part's outline seen along z, rings of points [micrometers]; empty where the file shows none.
    pub outline: Vec<Vec<[i64; 2]>>,
}

/// Where a table came from.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Source {
    /// The clipboard.
    Pasted,
    /// A file.
    File(SourceFile),
}

/// A file that rows came from.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct SourceFile {
    /// Its name.
    pub name: String,
    /// The sheet of a workbook.
    pub sheet: Option<String>,
    /// What tells its content from another's of the same name; `None` in jobs of before it was kept.
    pub stamp: Option<FileStamp>,
}

/// What tells a file's content from another's.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct FileStamp {
    /// Its size [bytes].
    pub bytes: u64,
    /// The day that it was changed last, where the disk tells it.
    pub day: Option<NaiveDate>,
    /// The hash of its content.
    pub hash: Hash,
}

impl Source {
    /// A file of this name, of which no more is known.
    #[must_use]
    pub fn named(name: &str) -> Self {
        Self::File(SourceFile {
            name: name.to_owned(),
            ..SourceFile::default()
        })
    }

    /// The same with the stamp of its file; the clipboard has none.
    #[must_use]
    pub fn stamped(mut self, with: FileStamp) -> Self {
        if let Self::File(file) = &mut self {
            file.stamp = Some(with);
        }
        self
    }

    /// The same with the sheet of its workbook.
    #[must_use]
    pub fn on_sheet(mut self, name: &str) -> Self {
        if let Self::File(file) = &mut self {
            file.sheet = Some(name.to_owned());
        }
        self
    }

    /// The file, where it is one.
    #[must_use]
    pub const fn file(&self) -> Option<&SourceFile> {
        match self {
            Self::Pasted => None,
            Self::File(file) => Some(file),
        }
    }
}

/// What became of one line of the text.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ReportLine {
    /// Its number in the text, from 1.
    pub number: u32,
    /// What became of it.
    pub outcome: LineOutcome,
    /// In words.
    pub says: String,
}

list! {
    /// What became of a line.
    pub enum LineOutcome;

    /// Taken as it stands.
    Taken "taken";
    /// Taken but for cells that somebody said to leave out.
    InPart "in_part";
    /// Nothing of it was taken: it is no hole, or all that stands in it was to be left out.
    LeftOut "left_out";
    /// Taken, with something guessed that is worth a look.
    Guessed "guessed";
    /// Taken as text that can't be read yet; it is marked in the table.
    Unread "unread";
}

/// Why a report is no report that a job keeps.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum TooMuch {
    /// More sentences and lines than [`MOST_TOLD`], or points than [`MOST_OUTLINED`].
    Told,
    /// A text longer than [`LONGEST_TEXT`].
    Text,
}

impl Report {
    /// How many lines ended so.
    #[must_use]
    pub fn count(&self, outcome: LineOutcome) -> usize {
        let told = self.lines.iter().filter(|line| line.outcome == outcome);
        told.count()
            + if outcome == LineOutcome::Taken {
                self.taken_count()
            } else {
                0
            }
    }

    /// How many lines there were with something in them, without a head.
    #[must_use]
    pub fn all(&self) -> usize {
        self.lines.len() + self.taken_count()
    }

    fn taken_count(&self) -> usize {
        usize::try_from(self.taken).unwrap_or(usize::MAX)
    }

    /// The report as a job keeps it: lines taken as they stand are counted, all others told.
    #[must_use]
    pub fn in_short(&self) -> Self {
        let lines = self.lines.iter();
        let told = lines.filter(|line| line.outcome != LineOutcome::Taken);
        Self {
            from: self.from.clone(),
            whole: self.whole.clone(),
            taken: u32::try_from(self.count(LineOutcome::Taken)).unwrap_or(u32::MAX),
            lines: told.cloned().collect(),
            outline: self.outline.clone(),
        }
    }

    /// What of it is more than a job keeps.
    pub(crate) fn too_much(&self) -> Option<TooMuch> {
        let outlined: usize = self.outline.iter().map(Vec::len).sum();
        if self.whole.len() + self.lines.len() > MOST_TOLD || outlined > MOST_OUTLINED {
            return Some(TooMuch::Told);
        }
        let file = self.from.file().into_iter();
        let names = file.flat_map(|file| [&file.name].into_iter().chain(&file.sheet));
        let says = self.lines.iter().map(|line| &line.says);
        let mut texts = names.chain(&self.whole).chain(says);
        let long = texts.any(|text| text.chars().count() > LONGEST_TEXT);
        long.then_some(TooMuch::Text)
    }
}
