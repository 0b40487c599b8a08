//! A running number beside the marks of holes: `Pos.` 1, 2, 3 beside `Bohrung` A, B, C.

use crate::column::{ForeignColumn, Holds, How, Why};
use crate::fits::{COUNT, MARK, is_contradicted};
use crate::fold::{Key, tokens};
use crate::guess::Table;
use crate::head::Says;
use crate::trade_words::is_numbering as is_numbering_word;
use crate::values::{Kind, Look};

impl Table<'_> {
    /// Takes the column with short labels under a head for holes as the marks, and leaves out the
    /// running number beside it; else both could be the mark.
    pub(crate) fn marks_beside_row_numbers(&mut self) {
        let counted = self.columns.iter().any(|column| {
            column.holds(COUNT)
                || column.holds.is_none()
                    && column.head.says == Says::Plainly(COUNT)
                    && !is_contradicted(COUNT, &column.look)
        });
        let numbers = self.at(|column| is_row_number(column, counted));
        let marks = self.at(is_marks);
        let (Some(first), [mark]) = (numbers.first(), marks.as_slice()) else {
            return;
        };
        let filled = |at: usize| self.columns.get(at).map_or(0, |column| column.look.filled);
        if !self.is_free(MARK) || filled(*mark) * 10 < filled(*first) * 9 {
            return;
        }
        self.guess(*mark, MARK, Why::HeadAndValues);
        for at in numbers {
            if let Some(column) = self.columns.get_mut(at) {
                column.set(Holds::LeftOut, How::Guess(Why::RowNumber));
            }
        }
    }

    fn at(&self, is: impl Fn(&ForeignColumn) -> bool) -> Vec<usize> {
        let columns = self.columns.iter().enumerate();
        let found = columns.filter(|(_, column)| column.holds.is_none() && is(column));
        found.map(|(at, _)| at).collect()
    }
}

/// A number that runs from line to line under a head for that; where the head can mean a count, one
/// only where another column is `counted`.
fn is_row_number(column: &ForeignColumn, counted: bool) -> bool {
    let is_count =
        matches!(column.head.says, Says::OneOf { meanings, .. } if meanings.contains(&COUNT));
    runs(&column.look) && is_numbering(column) && (counted || !is_count)
}

/// From 1 by ones, or from 10 by tens.
fn runs(look: &Look) -> bool {
    let tens = || {
        let mut numbers = (1..).zip(&look.numbers);
        look.count(&[Kind::Whole]) == look.filled
            && numbers.all(|(line, (_, number))| *number == f64::from(line * 10))
    };
    look.filled > 0 && look.count(&[Kind::Whole]) == look.filled && (look.rising || tens())
}

/// Labels that are all different under a head that means holes.
fn is_marks(column: &ForeignColumn) -> bool {
    let look = &column.look;
    let labels = match column.head.says {
        Says::Plainly(MARK) => look.is(&[Kind::Mark, Kind::FitOrMark, Kind::Other]),
        Says::OneOf { meanings, .. } if meanings.contains(&MARK) => {
            look.is(&[Kind::Mark, Kind::FitOrMark])
        }
        _ => false,
    };
    labels && look.count(&[Kind::Mark]) > 0 && look.distinct && !is_numbering(column)
}

/// Whether a head is one for running numbers, in each of its languages.
fn is_numbering(column: &ForeignColumn) -> bool {
    let words = tokens(&column.head.text);
    let mut parts = words.chunk_by(|one, other| one.part == other.part);
    !words.is_empty() && parts.all(|part| is_numbering_word(&Key::of(part)))
}
