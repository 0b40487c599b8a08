//! A foreign table on its way into the hole table: each of its columns is understood, or somebody
//! says what it is, before anything is taken.

use quillbore_job::Column;
use quillbore_job::report::Source;

use crate::column::{ForeignColumn, Holds, Question};
use crate::columns::{Meaning, heads};
use crate::delimited::{Cells, MOST_CELLS, MOST_CELLS_IN_ALL, TooManyCells, split};
use crate::encoding::decode;
use crate::error::IntakeError;
use crate::lines::{Line, Lines};
use crate::words;

/// Values of a column that are shown when it is asked about.
const SHOWN: usize = 4;

/// A foreign table, split into cells, with what its columns hold as far as that is known.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Foreign {
    pub(crate) from: Source,
    pub(crate) lines: Lines,
    /// The first of the lines that are taken: the one below the head, where there is one.
    pub(crate) first: usize,
    pub(crate) columns: Vec<ForeignColumn>,
    /// The first line was a head.
    pub(crate) headed: bool,
    /// What is to be said of the whole.
    pub(crate) whole: Vec<String>,
}

impl Foreign {
    /// A block of cells, row by row; without a head the columns hold what `places` says, and what
    /// lies beyond is not understood.
    ///
    /// # Errors
    /// Where no cell has anything in it, or there are more cells than a hole table has.
    pub fn of_rows(rows: &[Vec<String>], places: &[Option<Column>]) -> Result<Self, IntakeError> {
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
        Self::of_lines(Source::Pasted, lines, places)
    }

    /// The bytes of a file of delimited text and the file's name; without a head its columns are mark, count, size,
    /// depth and so on, in the hole table's order.
    ///
    /// # Errors
    /// Where the bytes are no text, nothing is in it, or there are more cells than a hole table has.
    pub fn of_file(bytes: &[u8], name: &str) -> Result<Self, IntakeError> {
        let decoded = decode(bytes).ok_or(IntakeError::NotText)?;
        let places: Vec<Option<Column>> = Column::ALL.iter().copied().map(Some).collect();
        let Cells { separator, lines } = split(&decoded.text)?;
        if lines.len() == 1 && heads(&lines, 0).is_some() {
            return Err(IntakeError::HeadAlone);
        }
        let from = Source::File(name.to_owned());
        let mut foreign = Self::of_lines(from, lines, &places)?;
        if foreign.columns.len() > 1 {
            foreign.whole.push(words::separator(separator));
        }
        if decoded.guessed {
            foreign
                .whole
                .push(words::encoding_guessed(decoded.encoding));
        }
        Ok(foreign)
    }

    fn of_lines(
        from: Source,
        lines: Lines,
        places: &[Option<Column>],
    ) -> Result<Self, IntakeError> {
        let filled = lines.from(0).position(|line| line.is_filled());
        let filled = filled.ok_or(IntakeError::Empty)?;
        let width = lines.from(0).map(|line| line.width()).max();
        let width = width.unwrap_or(0);
        let any_below = lines.from(filled + 1).any(|line| line.is_filled());
        let found = heads(&lines, filled).filter(|_| any_below);
        let mut whole = Vec::new();
        let mut columns = Vec::with_capacity(width);
        if let Some(heads) = &found {
            let known = heads.iter().filter(|head| head.meaning.is_some());
            let known: Vec<&str> = known.map(|head| head.text.as_str()).collect();
            whole.push(words::head_taken(&known));
        }
        for at in 0..width {
            let head = found.as_ref().and_then(|heads| heads.get(at));
            let meaning = match &found {
                Some(_) => head.and_then(|head| head.meaning),
                None => places.get(at).copied().flatten().map(Meaning::Ours),
            };
            let free = |meaning: &Meaning| {
                let other = |column: &ForeignColumn| column.holds == Some(Holds::A(*meaning));
                meaning.may_repeat() || !columns.iter().any(other)
            };
            let holds = meaning.filter(free).map(Holds::A);
            columns.push(ForeignColumn {
                head: head.map_or_else(String::new, |head| head.text.clone()),
                unit: head.and_then(|head| head.unit),
                holds,
                said: false,
            });
        }
        let mut foreign = Self {
            from,
            first: found.as_ref().map_or(0, |_| filled + 1),
            lines,
            columns,
            headed: found.is_some(),
            whole,
        };
        foreign.doubt_half_places();
        let empty: Vec<&str> = foreign.empty_columns().collect();
        let empty = (!empty.is_empty()).then(|| words::nothing_under(&empty));
        foreign.whole.extend(empty);
        Ok(foreign)
    }

    /// A coordinate or axis without both x and y is no place, so what it is must be said.
    fn doubt_half_places(&mut self) {
        let point = |axis| Some(Holds::A(Meaning::Point(axis)));
        let has = |wanted| self.columns.iter().any(|column| column.holds == wanted);
        if has(point(0)) && has(point(1)) {
            return;
        }
        for column in &mut self.columns {
            if matches!(
                column.holds,
                Some(Holds::A(Meaning::Point(_) | Meaning::Axis(_)))
            ) {
                column.holds = None;
            }
        }
    }

    /// The heads of columns that are not understood and have nothing in them: no question is asked.
    fn empty_columns(&self) -> impl Iterator<Item = &str> {
        let columns = self.columns.iter().enumerate();
        let unknown = columns.filter(|(_, column)| column.holds.is_none());
        let empty = unknown.filter(|(at, _)| self.about(*at).values.is_empty());
        let heads = empty.map(|(_, column)| column.head.as_str());
        heads.filter(|head| !head.is_empty())
    }

    /// Whether the table is a list of places and nothing else: one row with all of them.
    pub(crate) fn is_places_alone(&self) -> bool {
        let columns = self.columns.iter().enumerate();
        let mut filled = columns.filter(|(at, _)| !self.about(*at).values.is_empty());
        let has = |wanted| self.columns.iter().any(|column| column.holds == wanted);
        has(Some(Holds::A(Meaning::Point(0))))
            && has(Some(Holds::A(Meaning::Point(1))))
            && filled.all(|(_, column)| {
                matches!(
                    column.holds,
                    Some(Holds::LeftOut | Holds::A(Meaning::Point(_) | Meaning::Axis(_)))
                )
            })
    }

    /// The lines that are taken: below a head those that anything stands in.
    pub(crate) fn taken(&self) -> impl Iterator<Item = Line<'_>> {
        let lines = self.lines.from(self.first);
        lines.filter(|line| !self.headed || line.is_filled())
    }

    /// Whether the first line was a head, so that the columns lie where it says.
    #[must_use]
    pub const fn is_headed(&self) -> bool {
        self.headed
    }

    /// The columns that are not understood and have something in them, from the left.
    #[must_use]
    pub fn questions(&self) -> Vec<Question> {
        let columns = self.columns.iter().enumerate();
        columns
            .filter(|(_, column)| column.holds.is_none())
            .map(|(at, _)| self.about(at))
            .filter(|question| !question.values.is_empty())
            .collect()
    }

    /// A column with its head and the first of its values.
    pub(crate) fn about(&self, column: usize) -> Question {
        let cells = self.taken().filter_map(|line| line.cell(column));
        let mut filled = cells.map(str::trim).filter(|cell| !cell.is_empty());
        let values: Vec<String> = filled.by_ref().take(SHOWN).map(str::to_owned).collect();
        Question {
            column,
            head: self
                .columns
                .get(column)
                .map_or_else(String::new, |column| column.head.clone()),
            values,
            more: filled.next().is_some(),
        }
    }

    /// What a column that is asked about may be: what no other column holds, and nothing.
    #[must_use]
    pub fn choices(&self) -> Vec<Holds> {
        let free = |meaning: &Meaning| self.is_free(*meaning);
        let free = Meaning::all().into_iter().filter(free).map(Holds::A);
        free.chain([Holds::LeftOut]).collect()
    }

    fn is_free(&self, meaning: Meaning) -> bool {
        let other = |column: &ForeignColumn| column.holds == Some(Holds::A(meaning));
        meaning.may_repeat() || !self.columns.iter().any(other)
    }

    /// Says what a column holds.
    ///
    /// # Errors
    /// Where there is no such column, or another one holds that.
    pub fn say(&mut self, column: usize, holds: Holds) -> Result<(), IntakeError> {
        let there = self.columns.get(column).map(|column| column.holds);
        let there = there.ok_or_else(|| IntakeError::NoSuchColumn((column + 1).to_string()))?;
        if there == Some(holds) {
            return Ok(());
        }
        if let Holds::A(meaning) = holds
            && !self.is_free(meaning)
        {
            return Err(IntakeError::Twice(meaning));
        }
        if let Some(column) = self.columns.get_mut(column) {
            column.holds = Some(holds);
            column.said = true;
        }
        Ok(())
    }

    /// The column that somebody names by its head, or by its number from 1.
    ///
    /// # Errors
    /// Where there is none.
    pub fn column_named(&self, name: &str) -> Result<usize, IntakeError> {
        let plain = name.trim().to_lowercase();
        let by_head =
            |column: &ForeignColumn| !column.head.is_empty() && column.head.to_lowercase() == plain;
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

/// Line ends in a cell, a carriage return and a line feed being one.
fn line_ends(cell: &str) -> usize {
    let feeds = cell.matches('\n').count();
    let returns = cell.matches('\r').count();
    feeds + returns - cell.matches("\r\n").count()
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
    named
        .or_else(|| crate::columns::meaning(&plain))
        .map(Holds::A)
}
