//! Columns that are crossed where a hole ends so: `Thru` with an X at the through holes, alone or with
//! `Blind` beside it.

use quillbore_job::Column;

use crate::cell_words::CellWord;
use crate::column::ForeignColumn;
use crate::foreign::Foreign;
use crate::line::Sorted;
use crate::lines::Line;
use crate::meaning::Meaning;
use crate::mend::{end_of_head, yes_as_end};
use crate::words;

/// The columns of a table that are crossed.
pub(crate) enum Crosses {
    /// One, with nothing in it but crosses; the other end is what has none.
    One { at: usize, says: CellWord },
    /// One for each end.
    Both([(usize, CellWord); 2]),
}

impl Crosses {
    /// Those of a table, where it has a head.
    pub(crate) fn of(foreign: &Foreign) -> Option<Self> {
        let columns = foreign.columns.iter().enumerate();
        let ends: Vec<_> = columns
            .filter(|(_, column)| column.holds(Meaning::Ours(Column::End)))
            .filter_map(|(at, column)| Some((at, end_of_head(&column.head.text)?)))
            .collect();
        match *ends.as_slice() {
            [one, other] => Some(Self::Both([one, other])),
            [(at, says)] if !foreign.laid => {
                let cells = foreign.rows().filter_map(|(_, line)| line.cell(at));
                let mut filled = cells.filter(|cell| !cell.trim().is_empty()).peekable();
                let is_crossed = filled.peek().is_some()
                    && filled.all(|cell| yes_as_end(cell, says) == Some(says.english()));
                is_crossed.then_some(Self::One { at, says })
            }
            _ => None,
        }
    }

    /// Puts where a line's hole ends by its crosses; what they contradict each other in stays to be read.
    pub(crate) fn settle(&self, line: Line<'_>, sorted: &mut Sorted) {
        match self {
            Self::One { at, says } => {
                let is_blank = line.cell(*at).is_none_or(|cell| cell.trim().is_empty());
                let has = |column| sorted.cells.contains_key(&column);
                // Of a blank line under `Thru` nothing says how deep it would be.
                let is_hole = match says {
                    CellWord::Through => has(Column::Depth),
                    _ => has(Column::Size) || has(Column::Depth),
                };
                if is_blank && is_hole {
                    let other = other(*says).english();
                    sorted.cells.insert(Column::End, other.to_owned());
                    let told = words::no_cross(says.english(), other);
                    sorted.guesses.push(told);
                }
            }
            Self::Both(both) => {
                let crossed = both.iter().filter_map(|(at, says)| {
                    let cell = line.cell(*at)?.trim();
                    (!cell.is_empty()).then_some((cell, *says))
                });
                match *crossed.collect::<Vec<_>>().as_slice() {
                    [(cell, says)] => {
                        sorted.cells.insert(Column::End, cell.to_owned());
                        sorted.says_end = Some(says);
                    }
                    [(one, says), (other, says_other)] => {
                        let ends = [yes_as_end(one, says), yes_as_end(other, says_other)];
                        let both = format!("{one} / {other}");
                        let end = match ends {
                            [Some(one), Some(other)] if one == other => {
                                sorted.guesses.push(words::read_as(&both, one));
                                one.to_owned()
                            }
                            _ => both,
                        };
                        sorted.cells.insert(Column::End, end);
                    }
                    _ => {}
                }
            }
        }
    }
}

/// Whether two columns say one end each, and the one the other's.
pub(crate) fn are_both_ends(one: &ForeignColumn, other: &ForeignColumn) -> bool {
    let ends = [one, other].map(|column| end_of_head(&column.head.text));
    matches!(ends, [Some(one), Some(two)] if one != two)
}

const fn other(end: CellWord) -> CellWord {
    match end {
        CellWord::Through => CellWord::Blind,
        _ => CellWord::Through,
    }
}
