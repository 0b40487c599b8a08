//! A foreign table on its way into the hole table: each of its columns is understood, or somebody
//! says what it is, before anything is taken.

use quillbore_job::Column;
use quillbore_job::report::Source;

use crate::column::{ForeignColumn, Holds, Question};
use crate::columns::{Meaning, heads};
use crate::delimited::{Cells, split};
use crate::encoding::decode;
use crate::error::IntakeError;
use crate::words;

/// Values of a column that are shown when it is asked about.
const SHOWN: usize = 4;

/// A foreign table, split into cells, with what its columns hold as far as that is known.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Foreign {
    pub(crate) from: Source,
    pub(crate) lines: Vec<(usize, Vec<String>)>,
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
    /// Where no cell has anything in it.
    pub fn of_rows(rows: Vec<Vec<String>>, places: &[Option<Column>]) -> Result<Self, IntakeError> {
        let lines = rows.into_iter().enumerate();
        let lines: Vec<_> = lines.map(|(at, cells)| (at + 1, cells)).collect();
        Self::of_lines(Source::Pasted, lines, places)
    }

    /// The bytes of a file of delimited text and the file's name; without a head its columns are mark, count, size,
    /// depth and so on, in the hole table's order.
    ///
    /// # Errors
    /// Where the bytes are no text, or nothing is in it.
    pub fn of_file(bytes: &[u8], name: &str) -> Result<Self, IntakeError> {
        let decoded = decode(bytes).ok_or(IntakeError::NotText)?;
        let places: Vec<Option<Column>> = Column::ALL.iter().copied().map(Some).collect();
        let Cells { separator, lines } = split(&decoded.text);
        if let [(_, only)] = lines.as_slice()
            && heads(only, &[]).is_some()
        {
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
        mut lines: Vec<(usize, Vec<String>)>,
        places: &[Option<Column>],
    ) -> Result<Self, IntakeError> {
        let filled = |cells: &[String]| cells.iter().any(|cell| !cell.trim().is_empty());
        let first = lines.iter().position(|(_, cells)| filled(cells));
        let first = first.ok_or(IntakeError::Empty)?;
        let width = lines.iter().map(|(_, cells)| cells.len()).max();
        let width = width.unwrap_or(0);
        let below = &lines[first + 1..];
        let found = heads(&lines[first].1, below);
        let found = found.filter(|_| below.iter().any(|(_, cells)| filled(cells)));
        let mut whole = Vec::new();
        let mut columns = Vec::with_capacity(width);
        if let Some(heads) = &found {
            lines.drain(..=first);
            lines.retain(|(_, cells)| filled(cells));
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
        let cells = self.lines.iter().filter_map(|(_, cells)| cells.get(column));
        let mut filled = cells
            .map(|cell| cell.trim())
            .filter(|cell| !cell.is_empty());
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
