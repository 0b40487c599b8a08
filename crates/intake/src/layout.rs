//! Which lines of a foreign table are rows, and which are its head, titles above it, rules, sums.

use std::collections::{BTreeMap, BTreeSet};

use quillbore_job::Column;

use crate::cell_words::{CellWord, cell_word};
use crate::fold::folded;
use crate::head::{Head, Says};
use crate::head_unit::is_unit_alone;
use crate::lines::{Line, Lines};
use crate::meaning::Meaning;
use crate::no_row::{Role, filled_cells, is_a_remark, is_no_mark, role_by_itself};

/// Lines from the top among which a head is looked for.
const HEAD_AMONG: usize = 30;

/// The lines that are no rows, and the heads of the columns.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub(crate) struct Layout {
    /// What lines are, by their place, where they are no rows.
    pub(crate) roles: BTreeMap<usize, Role>,
    /// The heads from the left; none where no line is a head.
    pub(crate) heads: Vec<Head>,
}

impl Layout {
    /// Looks at the lines of a table; one that is `laid` over cells of the hole table, column for
    /// column, has no words among its rows.
    pub(crate) fn of(lines: &Lines, laid: bool) -> Self {
        let mut layout = Self::default();
        let width = lines.from(0).map(|line| line.width()).max().unwrap_or(0);
        for (at, line) in lines.from(0).enumerate() {
            if let Some(role) = role_by_itself(at, line, width, laid) {
                layout.roles.insert(at, role);
            }
        }
        if let Some(at) = layout.find_head(lines) {
            layout.take_head(lines, at);
        }
        if !layout.heads.is_empty() || (!laid && width >= 3) {
            layout.find_words(lines);
            layout.find_sum(lines);
        }
        layout.leave_some_row(lines);
        layout
    }

    /// Whether all there is, beside titles, is a head.
    pub(crate) fn is_head_alone(&self, lines: &Lines) -> bool {
        let filled = |at: &usize| lines.line(*at).is_some_and(|line| line.is_filled());
        let rows = (0..lines.len()).filter(|at| self.is_row(*at));
        let rows: Vec<usize> = rows.filter(filled).take(HEAD_AMONG).collect();
        let Some((last, above)) = rows.split_last() else {
            return false;
        };
        let is_head = |at: usize| {
            let line = lines
                .line(at)
                .filter(|line| !filled_cells(*line).any(|(_, cell)| starts_like_a_number(cell)));
            let cells = line.into_iter().flat_map(filled_cells);
            cells.filter(|(_, cell)| Head::of(cell).is_known()).count() >= 2
        };
        let is_title = |at: &usize| {
            let line = lines.line(*at);
            line.is_some_and(|line| filled_cells(line).count() <= 2)
        };
        self.heads.is_empty() && is_head(*last) && above.iter().all(is_title)
    }

    /// Whether a line is a row.
    pub(crate) fn is_row(&self, at: usize) -> bool {
        !self.roles.contains_key(&at)
    }

    /// The line that is most like a head, of those near the top with no row above them.
    fn find_head(&self, lines: &Lines) -> Option<usize> {
        let filled = |at: &usize| lines.line(*at).is_some_and(|line| line.is_filled());
        let near = (0..lines.len())
            .filter(|at| self.is_row(*at))
            .filter(filled);
        let near: Vec<usize> = near.take(HEAD_AMONG).collect();
        let mut best = None;
        for (count, at) in near.iter().enumerate() {
            let above = near.iter().take(count);
            let mut above = above.filter_map(|above| lines.line(*above));
            if let Some(found) = self.as_head(lines, *at, count == 0)
                && !above.any(|line| found.is_row(line))
                && best.is_none_or(|(words, _)| found.words > words)
            {
                best = Some((found.words, *at));
            }
        }
        best.map(|(_, at)| at)
    }

    /// A line as a head: no cell starts like a number, and at least two are known words, or numbers
    /// stand under at least two in every row below; in the first line a single word is one, too,
    /// where it is known and numbers stand under it. Below other lines two words must be more than
    /// letters that a mark can be as well, and without known words a head has three cells.
    fn as_head(&self, lines: &Lines, at: usize, first: bool) -> Option<Found> {
        let line = lines.line(at)?;
        let mut cells = filled_cells(line).peekable();
        cells.peek()?;
        if cells.any(|(_, cell)| starts_like_a_number(cell)) {
            return None;
        }
        self.rows_below(lines, at).next()?;
        let heads: Vec<(usize, Head)> = filled_cells(line)
            .map(|(column, cell)| (column, Head::of(cell)))
            .collect();
        let of_ours = |head: &Head| !matches!(head.says, Says::Nothing | Says::Other);
        // A single letter may be a mark as well.
        let letter =
            |head: &Head| head.folded.len() == 1 && matches!(head.says, Says::OneOf { .. });
        let number = |is: &dyn Fn(&Head) -> bool| heads.iter().filter(|(_, head)| is(head)).count();
        let words = number(&of_ours);
        let sure = number(&|head| of_ours(head) && !letter(head));
        let known = if sure > 0 { number(&Head::is_known) } else { 0 };
        let over = || -> Vec<usize> {
            let over = |column: &usize| self.is_over_numbers(lines, at, *column);
            heads
                .iter()
                .map(|(column, _)| *column)
                .filter(over)
                .collect()
        };
        let is_head = match (heads.len(), first) {
            (1, true) => known == 1 && over().len() == 1,
            (1, false) => false,
            (_, true) => known >= 2 || over().len() >= 2,
            (all, false) => sure >= 2 || (all >= 3 && over().len() >= 2),
        };
        if !is_head {
            return None;
        }
        let numeric = heads.iter().filter(|(_, head)| is_of_numbers(head.says));
        let mut numbers: BTreeSet<usize> = numeric.map(|(column, _)| *column).collect();
        if known < 2 {
            numbers.extend(over());
        }
        Some(Found {
            words,
            numbers,
            filled: heads.iter().map(|(column, _)| *column).collect(),
        })
    }

    fn is_over_numbers(&self, lines: &Lines, at: usize, column: usize) -> bool {
        let below = self.rows_below(lines, at);
        let under = below.filter_map(|line| line.cell(column));
        let mut under = under.filter(|cell| !cell.trim().is_empty()).peekable();
        under.peek().is_some() && under.all(starts_like_a_number)
    }

    fn rows_below<'a>(&self, lines: &'a Lines, at: usize) -> impl Iterator<Item = Line<'a>> {
        let below = (at + 1..lines.len()).filter(|below| self.is_row(*below));
        let below = below.filter_map(|below| lines.line(below));
        below.filter(|line| line.is_filled() && !is_units(*line))
    }

    /// Takes a line as the head, with what belongs to it, and what stands above it as titles.
    fn take_head(&mut self, lines: &Lines, at: usize) {
        let Some(line) = lines.line(at) else {
            return;
        };
        let above = (0..at).filter(|above| self.is_row(*above));
        let above: Vec<usize> = above
            .filter(|above| lines.line(*above).is_some_and(|line| line.is_filled()))
            .collect();
        self.roles
            .extend(above.iter().map(|above| (*above, Role::Title)));
        self.roles.insert(at, Role::Head);
        self.heads = line.cells().map(Head::of).collect();
        if let Some((at, first)) = above.last().and_then(|at| Some((*at, lines.line(*at)?)))
            && is_of_heads(first)
        {
            self.heads = first.cells().map(Head::of).collect();
            self.put_below(line);
            self.roles.insert(at, Role::Head);
        }
        let next = (at + 1..lines.len()).find(|next| {
            self.is_row(*next) && lines.line(*next).is_some_and(|line| line.is_filled())
        });
        if let Some((at, next)) = next.and_then(|at| Some((at, lines.line(at)?)))
            && (is_units(next) || self.goes_on(next))
            && self.rows_below(lines, at).next().is_some()
        {
            self.put_below(next);
            self.roles.insert(at, Role::Head);
        }
        let mut further = false;
        for (at, again) in lines.from(0).enumerate().skip(at + 1) {
            if !self.is_row(at) || !again.is_filled() {
                continue;
            }
            if repeats(again, line) || (!further && self.is_said_again(again)) {
                self.roles.insert(at, Role::HeadAgain);
                further = false;
            } else if further || is_another_head(again) {
                self.roles.insert(at, Role::Further);
                further = true;
            }
        }
    }

    /// Whether a line says the same of the columns as the head, in words or units of its own.
    fn is_said_again(&self, line: Line<'_>) -> bool {
        let said = |(column, cell): (usize, &str)| {
            let head = self.heads.get(column);
            head.is_some_and(|head| {
                let again = Head::of(cell);
                head.says == again.says && head.unit == again.unit && head.is_known()
            })
        };
        is_another_head(line) && filled_cells(line).all(said)
    }

    /// Puts a further line of the head below the others.
    fn put_below(&mut self, line: Line<'_>) {
        let width = self.heads.len().max(line.width());
        self.heads.resize(width, Head::default());
        // A head over several columns names the unit of each.
        let mut over = None;
        for (head, cell) in self.heads.iter_mut().zip(line.cells()) {
            let is_under = head.text.is_empty();
            if !is_under {
                over = head.unit.filter(|unit| unit.is_of_length());
            }
            // What is merged over both lines stands in each of them.
            if !cell.trim().is_empty() && folded(cell) != head.folded {
                *head = head.over(cell);
            }
            if is_under && !head.text.is_empty() {
                head.unit = head.unit.or(over);
            }
        }
    }

    /// Whether a line below the head is its second line: words for columns and units, and no other
    /// cell but those that make a known word with the one above.
    fn goes_on(&self, line: Line<'_>) -> bool {
        let by_itself = |cell: &str| match Head::of(cell).says {
            Says::Plainly(Meaning::Ours(Column::End | Column::Note)) => false,
            says => matches!(says, Says::Plainly(_)),
        };
        let with_above = |at: usize, cell: &str| {
            let above = self.heads.get(at);
            above.is_some_and(|above| !above.text.is_empty() && above.over(cell).is_known())
        };
        let own = filled_cells(line).filter(|(_, cell)| by_itself(cell));
        own.count() >= 2
            && filled_cells(line).all(|(at, cell)| {
                !starts_like_a_number(cell)
                    && (by_itself(cell) || is_unit_alone(cell) || with_above(at, cell))
            })
    }

    /// Finds lines with words in their first cell and nothing else: captions and remarks.
    fn find_words(&mut self, lines: &Lines) {
        let named = |head: &Head| !head.text.is_empty();
        let first = self.heads.iter().position(named).unwrap_or(0);
        let notes = Says::Plainly(Meaning::Ours(Column::Note));
        let named = self
            .heads
            .iter()
            .filter(|head| !head.text.is_empty())
            .count();
        let is_note = self.heads.get(first).is_some_and(|head| head.says == notes);
        if is_note || (!self.heads.is_empty() && named < 3) {
            return;
        }
        for (at, line) in lines.from(0).enumerate() {
            let mut cells = filled_cells(line);
            if let (true, Some((column, cell)), None) =
                (self.is_row(at), cells.next(), cells.next())
                && column == first
                && (is_a_remark(cell) || (self.heads.len() >= 3 && is_no_mark(cell)))
            {
                self.roles.insert(at, Role::Words);
            }
        }
    }

    /// Finds a number below the counts that is their sum, alone or behind a word that is no mark.
    fn find_sum(&mut self, lines: &Lines) {
        let count = Says::Plainly(Meaning::Ours(Column::Count));
        let Some(column) = self.heads.iter().position(|head| head.says == count) else {
            return;
        };
        let (mut sum, mut rows) = (0_u64, 0_usize);
        for (at, line) in lines.from(0).enumerate() {
            let number = line
                .cell(column)
                .and_then(|cell| cell.trim().parse::<u64>().ok());
            let (true, Some(number)) = (self.is_row(at), number) else {
                continue;
            };
            let mut others = filled_cells(line).filter(|(at, _)| *at != column);
            let named = match (others.next(), others.next()) {
                (None, _) => true,
                (Some((0, word)), None) => is_no_mark(word),
                _ => false,
            };
            if rows >= 2 && number == sum && named {
                self.roles.insert(at, Role::Sum(Some(number)));
                continue;
            }
            sum = sum.saturating_add(number);
            rows += 1;
        }
    }

    /// Where no row would be left, what looked like a sum or a remark is one.
    fn leave_some_row(&mut self, lines: &Lines) {
        let row =
            |at: usize| self.is_row(at) && lines.line(at).is_some_and(|line| line.is_filled());
        if !(0..lines.len()).any(row) {
            self.roles
                .retain(|_, role| !matches!(role, Role::Sum(_) | Role::Words | Role::Rule));
        }
    }
}

/// A line that could be the head.
struct Found {
    /// How many of its words name something that the hole table has.
    words: usize,
    /// Columns that have numbers below it.
    numbers: BTreeSet<usize>,
    /// Columns that it names.
    filled: BTreeSet<usize>,
}

impl Found {
    /// Whether a line above it is a row of the table that it would be the head of: numbers, and no
    /// words, stand over its numbers.
    fn is_row(&self, line: Line<'_>) -> bool {
        let over = filled_cells(line).filter(|(column, _)| self.numbers.contains(column));
        let (numbers, others): (Vec<_>, Vec<_>) =
            over.partition(|(_, cell)| starts_like_a_number(cell));
        let words = others
            .iter()
            .any(|(_, cell)| cell_word(cell, Column::Depth).is_none());
        let columns: BTreeSet<usize> = filled_cells(line).map(|(column, _)| column).collect();
        let fits = numbers.len() >= 2 || (numbers.len() == 1 && columns == self.filled);
        fits && !words
    }
}

/// Whether a line below the head is one itself: three words for columns at least, a size, depth, count or
/// location among them, and no cell that could stand in a row.
fn is_another_head(line: Line<'_>) -> bool {
    // Most rows have a number, and words are looked up only where none has.
    if filled_cells(line).any(|(_, cell)| starts_like_a_number(cell)) {
        return false;
    }
    let in_a_row = |cell: &str| {
        cell.len() > 60
            || [Column::End, Column::Depth].into_iter().any(|column| {
                matches!(
                    cell_word(cell, column),
                    Some(CellWord::Through | CellWord::Blind | CellWord::Into)
                )
            })
    };
    let (mut cells, mut known, mut telling) = (0_usize, 0_usize, false);
    for (_, cell) in filled_cells(line) {
        if in_a_row(cell) {
            return false;
        }
        cells += 1;
        match Head::of(cell).says {
            Says::Plainly(meaning) => {
                known += 1;
                telling |= matches!(
                    meaning,
                    Meaning::Ours(Column::Size | Column::Depth | Column::Count) | Meaning::Point(_)
                );
            }
            Says::OneOf { .. } | Says::Other if cell.trim().chars().count() > 2 => known += 1,
            Says::Nothing | Says::OneOf { .. } | Says::InPart(_) | Says::Other => {}
        }
    }
    known >= 3 && known * 2 > cells && telling
}

/// Whether every cell of a line is a known word for a column, of two at least.
fn is_of_heads(line: Line<'_>) -> bool {
    let ours = |cell: &str| {
        let says = Head::of(cell).says;
        !starts_like_a_number(cell) && !matches!(says, Says::Nothing | Says::Other)
    };
    filled_cells(line).count() >= 2 && filled_cells(line).all(|(_, cell)| ours(cell))
}

/// Whether every cell of a line names a unit and nothing else.
fn is_units(line: Line<'_>) -> bool {
    line.is_filled() && filled_cells(line).all(|(_, cell)| is_unit_alone(cell))
}

/// Whether a line has the same cells as another, capitals aside.
fn repeats(line: Line<'_>, other: Line<'_>) -> bool {
    let small = |cell: &'_ str| {
        cell.trim()
            .chars()
            .flat_map(char::to_lowercase)
            .collect::<Vec<_>>()
    };
    let same = |one: &str, other: &str| one.trim() == other.trim() || small(one) == small(other);
    let mut cells = filled_cells(line);
    line.is_filled()
        && filled_cells(other)
            .all(|(_, other)| cells.next().is_some_and(|(_, cell)| same(cell, other)))
        && cells.next().is_none()
}

fn is_of_numbers(says: Says) -> bool {
    let of_numbers = |meaning: Meaning| {
        !matches!(
            meaning,
            Meaning::Ours(Column::Mark | Column::End | Column::Note | Column::Tube)
        )
    };
    match says {
        Says::Plainly(meaning) | Says::InPart(meaning) => of_numbers(meaning),
        Says::Nothing | Says::OneOf { .. } | Says::Other => false,
    }
}

fn starts_like_a_number(cell: &str) -> bool {
    cell.trim_start_matches([
        '+', '-', '.', ',', '#', '\u{d8}', '\u{f8}', '\u{2300}', ' ', '\u{b1}', '\u{2212}', '(',
    ])
    .starts_with(|first: char| first.is_ascii_digit())
}
