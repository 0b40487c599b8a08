//! A foreign table on its way into the hole table: each of its columns is understood, or somebody
//! says what it is, before anything is taken.

use quillbore_job::Column;
use quillbore_job::report::{FileStamp, Source};

use crate::column::{ColumnView, ForeignColumn, Holds, How, Question};
use crate::delimited::{Cells, MOST_CELLS, MOST_CELLS_IN_ALL, MOST_LINES, TooManyCells, split};
use crate::encoding::decode;
use crate::error::IntakeError;
use crate::gaps::split_by_blanks;
use crate::head::{Head, Says};
use crate::in_cells::{line_ends, lines_in_cells};
use crate::layout::Layout;
use crate::lines::{Line, Lines};
use crate::meaning::Meaning;
use crate::no_row::Role;
use crate::of_book::{self, OfBook};
use crate::other_kinds;
use crate::reply::without_quote_marks;
use crate::single_blanks::split_by_single_blanks;
use crate::understand::understand;
use crate::values::Look;
use crate::watch::Watch;
use crate::words;
use crate::workbook::Workbook;

/// Values of a column that are shown when it is asked about.
const SHOWN: usize = 4;

/// A foreign table, split into cells, with what its columns hold as far as that is known.
#[derive(Clone, Debug, PartialEq)]
pub struct Foreign {
    pub(crate) from: Source,
    pub(crate) lines: Lines,
    /// Which lines are no rows.
    pub(crate) layout: Layout,
    pub(crate) columns: Vec<ForeignColumn>,
    /// It has no head, and its columns lie as they were laid.
    pub(crate) laid: bool,
    /// What parts its cells, where that was found out.
    pub(crate) separator: Option<char>,
    /// The encoding that was guessed.
    pub(crate) encoding: Option<&'static str>,
    /// The workbook that it is a sheet of.
    pub(crate) sheet: Option<OfBook>,
}

impl Foreign {
    /// A block of cells, row by row; without a head the columns hold what `places` says where their
    /// values can be that, and what lies beyond is guessed or not understood.
    ///
    /// A block of one column whose cells are lines of a table, by upright strokes or with a known
    /// head, is taken apart first.
    ///
    /// # Errors
    /// Where no cell has anything in it, or there are more cells than a hole table has.
    pub fn of_rows(rows: &[Vec<String>], places: &[Option<Column>]) -> Result<Self, IntakeError> {
        if let Some(cells) = lines_in_cells(rows)? {
            let places = all_places();
            let separator = Some(cells.separator);
            return Self::of_lines(Source::Pasted, cells.lines, separator, &places);
        }
        let mut lines = Lines::default();
        for (number, cells) in (1..).zip(rows) {
            if cells.len() > MOST_CELLS {
                return Err(TooManyCells::InLine(number).into());
            }
            let breaks = cells.iter().map(|cell| line_ends(cell)).sum();
            lines.push(number, breaks, cells.iter().map(String::as_str));
            if lines.cells() > MOST_CELLS_IN_ALL {
                return Err(TooManyCells::InAll.into());
            }
        }
        Self::of_lines(Source::Pasted, lines, None, places)
    }

    /// The bytes of a file, a workbook or delimited text, and the file's name; of a workbook the sheet that is
    /// likeliest a hole table, see [`Self::sheets`]. Without a head its columns are mark, count, size,
    /// depth and so on, in the hole table's order, where their values can be that.
    ///
    /// # Errors
    /// Where the bytes are neither, nothing is in it, or there are more cells than a hole table has.
    pub fn of_file(bytes: &[u8], name: &str) -> Result<Self, IntakeError> {
        Self::read(bytes, name, &|_| false)
    }

    /// The same; `watch` hears how far it is.
    ///
    /// # Errors
    /// As [`Self::of_file`], and where `watch` stopped it.
    pub fn read(bytes: &[u8], name: &str, watch: Watch<'_>) -> Result<Self, IntakeError> {
        if Workbook::is_one(bytes) {
            return of_book::likeliest(Workbook::of(bytes, watch)?, name);
        }
        other_kinds::refuse(bytes, name)?;
        let decoded = decode(bytes).ok_or(IntakeError::NotText)?;
        let text = without_quote_marks(decoded.text);
        let printed = is_printed(&text)
            .then(|| split_by_blanks(&text).or_else(|| split_by_single_blanks(&text)));
        let Cells { separator, lines } = match printed.flatten() {
            Some(cells) => cells,
            None => split(&text, watch)?,
        };
        let from = Source::named(name);
        let mut foreign =
            Self::of_lines(from, lines, Some(separator), &all_places())?.with_rows()?;
        foreign.encoding = decoded.guessed.then_some(decoded.encoding);
        Ok(foreign)
    }

    /// The same, with what tells its file's content from another's: the report keeps it.
    #[must_use]
    pub fn stamped(mut self, stamp: FileStamp) -> Self {
        self.from = self.from.stamped(stamp);
        self
    }

    /// Where it came from.
    #[must_use]
    pub const fn from(&self) -> &Source {
        &self.from
    }

    /// The table, where there is more than a head.
    pub(crate) fn with_rows(self) -> Result<Self, IntakeError> {
        if self.layout.is_head_alone(&self.lines) {
            return Err(IntakeError::HeadAlone);
        }
        Ok(self)
    }

    pub(crate) fn of_lines(
        from: Source,
        lines: Lines,
        separator: Option<char>,
        places: &[Option<Column>],
    ) -> Result<Self, IntakeError> {
        let filled = lines.from(0).filter(Line::is_filled).count();
        if filled == 0 {
            return Err(IntakeError::Empty);
        }
        if filled > MOST_LINES {
            return Err(TooManyCells::Lines.into());
        }
        let layout = Layout::of(&lines, from == Source::Pasted && separator.is_none());
        let width = lines.from(0).map(|line| line.width()).max();
        let headed = !layout.heads.is_empty();
        let mut foreign = Self {
            from,
            lines,
            layout,
            columns: Vec::new(),
            laid: false,
            separator,
            encoding: None,
            sheet: None,
        };
        foreign.columns = (0..width.unwrap_or(0))
            .map(|at| ForeignColumn {
                head: foreign.layout.heads.get(at).cloned().unwrap_or_default(),
                place: places.get(at).copied().flatten().filter(|_| !headed),
                look: foreign.look(at),
                holds: None,
                how: How::NotUnderstood,
            })
            .collect();
        foreign.laid = understand(&mut foreign.columns);
        Ok(foreign)
    }

    fn look(&self, column: usize) -> Look {
        let lines = self.rows();
        let cells = lines.filter_map(|(at, line)| Some((at, line.cell(column)?.trim())));
        Look::of(cells.filter(|(_, cell)| !cell.is_empty()))
    }

    /// The lines that are rows, with their places: below a head those that anything stands in.
    pub(crate) fn rows(&self) -> impl Iterator<Item = (usize, Line<'_>)> {
        let lines = self.lines.from(0).enumerate();
        let blank_too = self.layout.heads.is_empty();
        lines.filter(move |(at, line)| self.layout.is_row(*at) && (blank_too || line.is_filled()))
    }

    /// Whether the table is a list of places and nothing else: one row with all of them.
    pub(crate) fn is_places_alone(&self) -> bool {
        let mut filled = self.columns.iter().filter(|column| column.look.filled > 0);
        let has = |meaning| self.columns.iter().any(|column| column.holds(meaning));
        has(Meaning::Point(0))
            && has(Meaning::Point(1))
            && filled.all(|column| {
                matches!(
                    column.holds,
                    Some(Holds::LeftOut | Holds::A(Meaning::Point(_) | Meaning::Axis(_)))
                )
            })
    }

    /// Whether a line is a head, so that the columns lie where it says.
    #[must_use]
    pub const fn is_headed(&self) -> bool {
        !self.layout.heads.is_empty()
    }

    /// Whether the columns lie where they were pasted, or in the hole table's order: there is no head,
    /// and no value is plainly something else.
    #[must_use]
    pub const fn lies_as_laid(&self) -> bool {
        self.laid
    }

    /// The numbers of the lines of its head, from 1.
    #[must_use]
    pub fn head_lines(&self) -> Vec<usize> {
        let roles = self.layout.roles.iter();
        let heads = roles.filter(|(_, role)| **role == Role::Head);
        let lines = heads.filter_map(|(at, _)| self.lines.line(*at));
        lines.map(|line| line.number).collect()
    }

    /// Every column from the left that has a head or anything in it, with what it holds and how that
    /// is known.
    #[must_use]
    pub fn columns(&self) -> Vec<ColumnView> {
        let columns = self.columns.iter().enumerate();
        columns
            .filter(|(_, column)| column.look.filled > 0 || !column.head.text.is_empty())
            .map(|(at, column)| ColumnView {
                about: self.about(at),
                holds: column.holds,
                how: column.how,
            })
            .collect()
    }

    /// The columns that are not understood and have something in them, from the left.
    #[must_use]
    pub fn questions(&self) -> Vec<Question> {
        self.open().map(|at| self.about(at)).collect()
    }

    fn open(&self) -> impl Iterator<Item = usize> {
        let columns = self.columns.iter().enumerate();
        let open = columns.filter(|(_, column)| column.holds.is_none() && column.look.filled > 0);
        open.map(|(at, _)| at)
    }

    /// How many columns are not understood, of how many that have something in them.
    #[must_use]
    pub fn not_understood(&self) -> (usize, usize) {
        let filled = self.columns.iter().filter(|column| column.look.filled > 0);
        (self.open().count(), filled.count())
    }

    /// How many columns are guessed.
    #[must_use]
    pub fn guessed(&self) -> usize {
        let guessed = |column: &&ForeignColumn| matches!(column.how, How::Guess(_));
        self.columns.iter().filter(guessed).count()
    }

    /// A column with its head and the first of its values.
    pub(crate) fn about(&self, column: usize) -> Question {
        let there = self.columns.get(column);
        let is_filled = there.is_some_and(|column| column.look.filled > 0);
        // Of a column with nothing in it no line needs to be looked at.
        let rows = is_filled.then(|| self.rows()).into_iter().flatten();
        let cells = rows.filter_map(|(_, line)| line.cell(column));
        let mut filled = cells.map(str::trim).filter(|cell| !cell.is_empty());
        let values: Vec<String> = filled.by_ref().take(SHOWN).map(str::to_owned).collect();
        Question {
            column,
            head: there.map_or_else(String::new, |column| column.head.text.clone()),
            values,
            more: filled.next().is_some(),
        }
    }

    /// What a column may be said to hold: what no other column surely holds, and nothing.
    #[must_use]
    pub fn choices(&self) -> Vec<Holds> {
        let free = |meaning: &Meaning| self.is_free(*meaning);
        let free = Meaning::all().into_iter().filter(free).map(Holds::A);
        free.chain([Holds::LeftOut]).collect()
    }

    /// All that any column may be said to hold, in the order of the choices.
    #[must_use]
    pub fn all_choices() -> Vec<Holds> {
        let all = Meaning::all().into_iter().map(Holds::A);
        all.chain([Holds::LeftOut]).collect()
    }

    fn is_free(&self, meaning: Meaning) -> bool {
        let other = |column: &ForeignColumn| column.holds(meaning) && !column.gives_way();
        meaning.may_repeat() || !self.columns.iter().any(other)
    }

    /// Says what a column holds. Another that was only guessed to hold the same, or lay there, is not
    /// understood any more.
    ///
    /// # Errors
    /// Where there is no such column, or another one surely holds that.
    pub fn say(&mut self, column: usize, holds: Holds) -> Result<(), IntakeError> {
        let there = self.columns.get(column);
        let there = there.ok_or_else(|| IntakeError::NoSuchColumn((column + 1).to_string()))?;
        let same = there.holds == Some(holds);
        if let Holds::A(meaning) = holds
            && !same
        {
            if !self.is_free(meaning) {
                return Err(IntakeError::Twice(meaning));
            }
            if !meaning.may_repeat() {
                let others = self.columns.iter_mut();
                others
                    .filter(|other| other.holds(meaning))
                    .for_each(ForeignColumn::unset);
            }
        }
        if let Some(column) = self.columns.get_mut(column)
            && !(same && column.how == How::Head)
        {
            column.set(holds, How::Said);
        }
        Ok(())
    }

    /// Says that a column is not understood after all.
    ///
    /// # Errors
    /// Where there is no such column.
    pub fn unsay(&mut self, column: usize) -> Result<(), IntakeError> {
        let there = self.columns.get_mut(column);
        let there = there.ok_or_else(|| IntakeError::NoSuchColumn((column + 1).to_string()))?;
        there.unset();
        Ok(())
    }

    /// The column that somebody names by its head, or by its number from 1.
    ///
    /// # Errors
    /// Where there is none.
    pub fn column_named(&self, name: &str) -> Result<usize, IntakeError> {
        let plain = name.trim().to_lowercase();
        let by_head = |column: &ForeignColumn| {
            !column.head.text.is_empty() && column.head.text.to_lowercase() == plain
        };
        let named: Vec<usize> = (0..self.columns.len())
            .filter(|at| by_head(&self.columns[*at]))
            .collect();
        // Of two columns with one head the one that is not understood is meant.
        let unsaid = named.iter().find(|at| self.columns[**at].holds.is_none());
        let by_number = || {
            let number: usize = plain.parse().ok()?;
            number.checked_sub(1).filter(|at| *at < self.columns.len())
        };
        unsaid
            .or(named.first())
            .copied()
            .or_else(by_number)
            .ok_or_else(|| IntakeError::NoSuchColumn(name.trim().to_owned()))
    }
}

/// Most bytes of a list that a program prints.
const MOST_PRINTED: usize = 4_000_000;

/// Whether a text has none of the signs that part cells but commas, of which fewer than lines.
fn is_printed(text: &str) -> bool {
    let is_quoted = text.starts_with('"') || text.contains("\n\"") || text.contains(",\"");
    if text.len() > MOST_PRINTED || is_quoted {
        return false;
    }
    let commas = memchr::memchr_iter(b',', text.as_bytes()).count();
    let lines = memchr::memchr_iter(b'\n', text.as_bytes()).count();
    memchr::memchr3(b'\t', b';', b'|', text.as_bytes()).is_none() && commas <= lines * 2
}

pub(crate) fn all_places() -> Vec<Option<Column>> {
    Column::ALL.iter().copied().map(Some).collect()
}

/// What a word says that a column holds; `None` where it is none of the known ones.
#[must_use]
pub fn holds_of(word: &str) -> Option<Holds> {
    let plain = word.split_whitespace().collect::<Vec<_>>().join(" ");
    let plain = plain.to_lowercase();
    if matches!(
        plain.as_str(),
        words::LEAVE_OUT | "leave out" | "left out" | "out" | "nothing"
    ) {
        return Some(Holds::LeftOut);
    }
    let by_word = |meaning: &Meaning| words::holds(Holds::A(*meaning)) == plain;
    let named = Meaning::all().into_iter().find(by_word);
    let by_head = || match Head::of(&plain).says {
        Says::Plainly(meaning)
        | Says::OneOf {
            meanings: &[meaning, ..],
            usual: true,
        } => Some(meaning),
        Says::Nothing | Says::OneOf { .. } | Says::InPart(_) | Says::Other => None,
    };
    named.or_else(by_head).map(Holds::A)
}
