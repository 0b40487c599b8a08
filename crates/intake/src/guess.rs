//! Guesses of what columns hold: by values that only one thing has, by heads that can mean several
//! things, by numbers beside each other.

use crate::column::{ForeignColumn, Holds, How, Why};
use crate::fits::{
    ANGLE, COUNT, DEPTH, END, MARK, NOTE, NUMBERS, SIZE, can_be_count, in_one_unit,
    is_mostly_words, is_numbers, is_surely_size,
};
use crate::head::Says;
use crate::meaning::Meaning;
use crate::values::{Kind, Look};
use Kind::{
    Angle, Callout, Depth, End, FitOrMark, Limited, Mark, Number, Numbered, Signed, Size, Times,
    Whole,
};

/// The columns of a table, understood one after another.
pub(crate) struct Table<'a> {
    pub(crate) columns: &'a mut [ForeignColumn],
}

impl Table<'_> {
    pub(crate) fn is_free(&self, meaning: Meaning) -> bool {
        meaning.may_repeat() || !self.columns.iter().any(|column| column.holds(meaning))
    }

    pub(crate) fn holder(&self, meaning: Meaning) -> Option<&ForeignColumn> {
        self.columns.iter().find(|column| column.holds(meaning))
    }

    fn look_of(&self, meaning: Meaning) -> Option<&Look> {
        self.holder(meaning).map(|column| &column.look)
    }

    /// The columns that have something in them, are not understood yet, and may be guessed by their
    /// values: what their heads say speaks of nothing else.
    pub(crate) fn open(&self) -> impl Iterator<Item = (usize, &ForeignColumn)> {
        let columns = self.columns.iter().enumerate();
        columns.filter(|(_, column)| {
            let refused = matches!(
                column.head.says,
                Says::Other | Says::Plainly(Meaning::Point(_) | Meaning::Axis(_))
            );
            column.holds.is_none() && column.look.filled > 0 && !refused
        })
    }

    pub(crate) fn guess(&mut self, at: usize, meaning: Meaning, why: Why) {
        if self.is_free(meaning)
            && let Some(column) = self.columns.get_mut(at)
        {
            column.set(Holds::A(meaning), How::Guess(why));
        }
    }

    /// Guesses columns by values that only one thing has; where two columns look like it, neither.
    pub(crate) fn by_sure_values(&mut self) {
        for meaning in [SIZE, COUNT, ANGLE, END, DEPTH, Meaning::Tolerance, MARK] {
            if !self.is_free(meaning) {
                continue;
            }
            let sure = self
                .open()
                .filter(|(at, column)| self.is_surely(*at, column, meaning));
            let sure: Vec<usize> = sure.map(|(at, _)| at).collect();
            if let [one] = sure.as_slice() {
                self.guess(*one, meaning, Why::Values);
            }
        }
    }

    fn is_surely(&self, at: usize, column: &ForeignColumn, meaning: Meaning) -> bool {
        let look = &column.look;
        match meaning {
            SIZE => is_surely_size(look),
            COUNT => look.is_surely(&[Times], &[Whole]),
            ANGLE => look.is_surely(&[Angle], &NUMBERS),
            END => look.is(&[End]),
            DEPTH => {
                let said = look.count(&[Depth, End]) > 0 && look.count(&[Depth, Whole, Number]) > 0;
                said && look.is(&[Depth, End, Whole, Number])
            }
            Meaning::Tolerance => {
                let fits = look.is(&[FitOrMark]) && (!look.distinct || !self.is_free(MARK));
                let sized = !self.is_free(SIZE) && !column.head.speaks_of_angle();
                sized && (fits || look.is_surely(&[Kind::Tolerance], &NUMBERS))
            }
            MARK => {
                let first = self
                    .columns
                    .iter()
                    .position(|column| column.look.filled > 0);
                let headless = column.head.text.is_empty() && first == Some(at);
                let marks = look.is(&[Mark, FitOrMark]) && (look.distinct || headless);
                let numbered = look.rising && look.filled >= 3 && first == Some(at);
                marks || numbered || (look.rising && look.is(&[Numbered]))
            }
            _ => false,
        }
    }

    /// Heads that can mean several things: what is free and what the values can be decides, else
    /// the usual meaning.
    pub(crate) fn by_doubtful_heads(&mut self) {
        while let Some((at, meaning)) = self.decided().or_else(|| self.usual()) {
            self.guess(at, meaning, Why::HeadAndValues);
        }
    }

    /// A column whose head leaves one meaning.
    fn decided(&self) -> Option<(usize, Meaning)> {
        self.open().find_map(|(at, column)| {
            let alone = match &column.head.says {
                Says::InPart(meaning) => std::slice::from_ref(meaning),
                Says::OneOf { meanings, .. } => meanings,
                Says::Nothing | Says::Plainly(_) | Says::Other => &[],
            };
            let mut left = alone
                .iter()
                .filter(|meaning| self.can_be(column, **meaning));
            match (left.next(), left.next()) {
                (Some(meaning), None) => Some((at, *meaning)),
                _ => None,
            }
        })
    }

    fn usual(&self) -> Option<(usize, Meaning)> {
        self.open().find_map(|(at, column)| match column.head.says {
            Says::OneOf {
                meanings: [first, ..],
                usual: true,
            } => self.can_be(column, *first).then_some((at, *first)),
            _ => None,
        })
    }

    /// Whether the values of a column can be this, beside what other columns hold.
    fn can_be(&self, column: &ForeignColumn, meaning: Meaning) -> bool {
        let look = &column.look;
        let beside = |other: Meaning, holds: fn(&Look, &Look) -> bool| {
            let other = self
                .holder(other)
                .filter(|other| in_one_unit(column, other));
            other.is_none_or(|other| {
                look.numbers.is_empty() || other.look.numbers.is_empty() || holds(look, &other.look)
            })
        };
        let can = match meaning {
            MARK => look.is(&[Mark, FitOrMark, Numbered, Whole]) && look.distinct,
            COUNT => can_be_count(look),
            SIZE => {
                look.is(&[Number, Whole, Size, Limited, Callout, Numbered])
                    && beside(DEPTH, |look, depth| depth.exceeds(look, 1.0))
            }
            DEPTH => {
                look.is(&[Number, Whole, Depth, End, Limited])
                    && beside(SIZE, |look, size| look.exceeds(size, 1.0))
            }
            Meaning::Tolerance => {
                let said = look.count(&[Kind::Tolerance, FitOrMark]) > 0;
                let small =
                    || !self.is_free(SIZE) && beside(SIZE, |look, size| size.exceeds(look, 2.0));
                look.is(&[Kind::Tolerance, FitOrMark, Number, Whole, Signed]) && (said || small())
            }
            ANGLE => look.is_surely(&[Angle], &NUMBERS),
            END => look.is(&[End]),
            NOTE => is_mostly_words(look),
            _ => false,
        };
        can && self.is_free(meaning)
    }

    /// Plain numbers of a table without known words: by what is larger than what, and by the order
    /// in which everybody writes them: mark, count, size, depth.
    pub(crate) fn by_numbers(&mut self) {
        self.deviations_behind_size();
        self.coordinates();
        self.size_by_numbers();
        let Some(size) = self.columns.iter().position(|column| column.holds(SIZE)) else {
            return;
        };
        let look = self.look_of(SIZE).cloned().unwrap_or_default();
        let depth = |(at, column): &(usize, &ForeignColumn)| {
            *at > size && is_numbers(&column.look) && column.look.exceeds(&look, 1.0)
        };
        self.guess_the_one(DEPTH, depth);
        let count = |(at, column): &(usize, &ForeignColumn)| {
            *at < size && column.look.filled >= 2 && can_be_count(&column.look)
        };
        self.guess_the_one(COUNT, count);
    }

    /// Guesses the column that can be it, where there is one and no other.
    fn guess_the_one(&mut self, meaning: Meaning, can: impl Fn(&(usize, &ForeignColumn)) -> bool) {
        let found: Vec<usize> = self.open().filter(can).map(|(at, _)| at).collect();
        if let [one] = found.as_slice() {
            self.guess(*one, meaning, Why::Beside);
        }
    }

    /// Two columns behind the size, one not below nothing and the other not above, both small.
    fn deviations_behind_size(&mut self) {
        let Some(size) = self.columns.iter().position(|column| column.holds(SIZE)) else {
            return;
        };
        let look = self.look_of(SIZE).cloned().unwrap_or_default();
        let small = |at: usize| {
            let mut open = self.open();
            let found = open.find(|(open, column)| *open == at && is_numbers(&column.look));
            found
                .map(|(_, column)| &column.look)
                .filter(|small| look.exceeds(small, 2.0))
        };
        let (Some(one), Some(other)) = (small(size + 1), small(size + 2)) else {
            return;
        };
        if one.count(&[Signed]) + other.count(&[Signed]) == 0 {
            return;
        }
        let upper_first = one.has_sign(1.0) && other.has_sign(-1.0);
        let lower_first = one.has_sign(-1.0) && other.has_sign(1.0);
        let (upper, lower) = match (upper_first, lower_first) {
            (true, false) => (size + 1, size + 2),
            (false, true) => (size + 2, size + 1),
            _ => return,
        };
        self.guess(upper, Meaning::UpperDeviation, Why::Beside);
        self.guess(lower, Meaning::LowerDeviation, Why::Beside);
    }

    /// Two or three columns beside each other with signs before their numbers.
    fn coordinates(&mut self) {
        let numbers: Vec<(usize, bool, bool)> = self
            .open()
            .filter(|(_, column)| is_numbers(&column.look))
            .map(|(at, column)| {
                let look = &column.look;
                let zero = look.has_sign(1.0) && look.has_sign(-1.0);
                (at, look.count(&[Signed]) > 0 && !zero, zero)
            })
            .collect();
        let is = |at: usize, wanted: fn(&(usize, bool, bool)) -> bool| {
            numbers
                .iter()
                .any(|number| number.0 == at && wanted(number))
        };
        let signed: Vec<usize> = numbers
            .iter()
            .filter(|number| number.1)
            .map(|n| n.0)
            .collect();
        let points = match signed.as_slice() {
            [x] if is(x + 1, |_| true) != (*x > 0 && is(x - 1, |_| true)) => {
                let x = if is(x + 1, |_| true) { *x } else { x - 1 };
                vec![x, x + 1]
            }
            [x, y] if *y == x + 1 => match is(y + 1, |number| number.2) {
                true => vec![*x, *y, y + 1],
                false => vec![*x, *y],
            },
            [x, y, z] if *y == x + 1 && *z == y + 1 => vec![*x, *y, *z],
            _ => return,
        };
        for (axis, at) in points.into_iter().enumerate() {
            self.guess(at, Meaning::Point(axis), Why::Beside);
        }
    }

    /// The numbers with decimals that are smaller than all others with decimals.
    fn size_by_numbers(&mut self) {
        if !self.is_free(SIZE) {
            return;
        }
        let decimal = |column: &ForeignColumn| {
            is_numbers(&column.look) && column.look.decimals && column.look.has_sign(1.0)
        };
        let decimals: Vec<(usize, &ForeignColumn)> =
            self.open().filter(|(_, column)| decimal(column)).collect();
        let smallest = decimals.iter().find(|(at, column)| {
            let mut others = decimals.iter().filter(|(other, _)| other != at);
            others.all(|(_, other)| other.look.exceeds(&column.look, 1.0))
        });
        let Some((at, column)) = smallest else {
            return;
        };
        // A number before it that is smaller still may be the size, and this the depth.
        let before = at.checked_sub(1).and_then(|before| {
            let mut open = self.open();
            open.find(|(open, column)| *open == before && is_numbers(&column.look))
        });
        if before.is_none_or(|(_, before)| !column.look.exceeds(&before.look, 1.0)) {
            self.guess(*at, SIZE, Why::Beside);
        }
    }

    pub(crate) fn words_are_notes(&mut self) {
        let notes = self.open().filter(|(_, column)| {
            column.head.says == Says::Nothing && is_mostly_words(&column.look)
        });
        let notes: Vec<usize> = notes.map(|(at, _)| at).collect();
        for at in notes {
            self.guess(at, NOTE, Why::Values);
        }
    }
}
