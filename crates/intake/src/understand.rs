//! What each column of a foreign table holds, by its head, by its place, and by its values.

use crate::column::{ForeignColumn, Holds, How, Why};
use crate::crosses::are_both_ends;
use crate::fits::{
    ANGLE, COUNT, DEPTH, END, MARK, SIZE, in_one_unit, is_contradicted, is_surely_size,
};
use crate::guess::Table;
use crate::head::Says;
use crate::meaning::Meaning;
use crate::values::Kind::{self, FitOrMark, Mark, Number, Signed, Whole};
use quillbore_job::Column;

/// Understands the columns that nobody said anything of; true where columns without heads lie as they
/// were laid.
pub(crate) fn understand(columns: &mut [ForeignColumn]) -> bool {
    for column in columns.iter_mut().filter(|column| !column.is_said()) {
        column.unset();
    }
    let mut table = Table { columns };
    let headed = table
        .columns
        .iter()
        .any(|column| !column.head.text.is_empty());
    let laid = !headed && table.fits_its_places();
    if laid {
        table.by_places();
    } else {
        table.marks_beside_row_numbers();
        table.by_heads();
        table.ends_in_two();
        table.doubt_half_places();
        table.limits_or_deviations();
    }
    table.by_sure_values();
    table.tolerance_beside_depth();
    table.by_doubtful_heads();
    // Where most words are known, a column whose word isn't is asked about: its numbers say too little.
    let named = table
        .columns
        .iter()
        .filter(|column| !column.head.text.is_empty());
    let known = named
        .clone()
        .filter(|column| column.head.is_known())
        .count();
    if !laid && (known == 0 || known * 2 < named.count()) {
        table.by_numbers();
    }
    table.words_are_notes();
    table.sides_of_counts();
    laid
}

impl Table<'_> {
    /// Takes what heads say plainly, but for columns whose values are plainly something else.
    fn by_heads(&mut self) {
        for at in 0..self.columns.len() {
            if let Some(column) = self.columns.get(at)
                && let (None, Says::Plainly(meaning)) = (column.holds, column.head.says)
                && !is_contradicted(meaning, &column.look)
                && !names_kinds(column, meaning)
                && self.is_free(meaning)
                && !(meaning == Meaning::Tolerance && self.is_behind_another(at))
                && let Some(column) = self.columns.get_mut(at)
            {
                column.set(Holds::A(meaning), How::Head);
            }
        }
    }

    /// `Thru` and `Blind` beside each other say one thing together.
    fn ends_in_two(&mut self) {
        let says_end = |column: &&ForeignColumn| column.head.says == Says::Plainly(END);
        let Some(held) = self.holder(END).filter(says_end).cloned() else {
            return;
        };
        let mut open = self.open();
        let other = open.find(|(_, column)| says_end(column) && are_both_ends(&held, column));
        let other = other.map(|(at, _)| at);
        drop(open);
        if let Some(column) = other.and_then(|at| self.columns.get_mut(at)) {
            column.set(Holds::A(END), How::Head);
        }
    }

    /// Whether what stands directly before a column of tolerances is no size but a depth or an angle, and no
    /// tolerance of theirs is beside the size: whose it is must be said.
    fn is_behind_another(&self, at: usize) -> bool {
        let column = |at: usize| self.columns.get(at);
        let says = |at: Option<usize>, meaning| {
            let column = at.and_then(column);
            column.is_some_and(|column| column.head.says == Says::Plainly(meaning))
        };
        let before = at.checked_sub(1);
        let fits = column(at).is_some_and(|column| column.look.is(&[FitOrMark]));
        let bare = column(at).is_some_and(|column| column.head.is_bare_tolerance());
        bare && !fits && (says(before, DEPTH) || says(before, ANGLE))
    }

    /// Whether the values of columns without heads can be what they were laid over. One column alone
    /// lies where somebody put it, but a callout is no mark.
    fn fits_its_places(&self) -> bool {
        let filled = self.columns.iter().filter(|column| column.look.filled > 0);
        let alone = filled.clone().count() == 1;
        let mut misfits = filled.filter(|column| {
            let place = column.place.map(Meaning::Ours);
            match (place, alone) {
                (Some(MARK), true) => is_surely_size(&column.look),
                (Some(place), false) => is_contradicted(place, &column.look),
                _ => false,
            }
        });
        misfits.next().is_none()
    }

    fn by_places(&mut self) {
        for at in 0..self.columns.len() {
            if let Some(column) = self.columns.get(at)
                && let (None, Some(place)) = (column.holds, column.place)
                && self.is_free(Meaning::Ours(place))
                && let Some(column) = self.columns.get_mut(at)
            {
                column.set(Holds::A(Meaning::Ours(place)), How::Place);
            }
        }
    }

    /// A coordinate or axis without both x and y is no place, so what it is must be said.
    fn doubt_half_places(&mut self) {
        if !self.is_free(Meaning::Point(0)) && !self.is_free(Meaning::Point(1)) {
            return;
        }
        for column in self.columns.iter_mut().filter(|column| !column.is_said()) {
            if let Some(Holds::A(Meaning::Point(_) | Meaning::Axis(_))) = column.holds {
                column.unset();
            }
        }
    }

    /// Not everybody tells limits from deviations at a head: limits lie about the size, deviations
    /// are less than half of it.
    fn limits_or_deviations(&mut self) {
        let pairs = [
            (Meaning::Lower, Meaning::LowerDeviation),
            (Meaning::Upper, Meaning::UpperDeviation),
        ];
        let Some(size) = self.holder(SIZE).cloned() else {
            return;
        };
        for (limit, deviation) in pairs {
            for (said, meant) in [(limit, deviation), (deviation, limit)] {
                let at = self.columns.iter().position(|column| {
                    let look = &column.look;
                    let is_other = if meant == deviation {
                        size.look.exceeds(look, 2.0)
                    } else {
                        look.exceeds(&size.look, 0.5) && look.count(&[Signed]) == 0
                    };
                    column.holds(said)
                        && !column.head.is_sign()
                        && column.how == How::Head
                        && is_other
                        && in_one_unit(column, &size)
                });
                if let Some(at) = at {
                    self.guess(at, meant, Why::HeadAndValues);
                    break;
                }
            }
        }
    }

    /// Holes of one side, beside a number of sides: whether they are drilled from both or there are twice as
    /// many must be said.
    fn sides_of_counts(&mut self) {
        const SIDE: [&str; 7] = ["side", "face", "seite", "cote", "lado", "lato", "cara"];
        let of_one_side = |column: &ForeignColumn| column.head.has_word(&SIDE);
        if !self.holder(COUNT).is_some_and(of_one_side) {
            return;
        }
        for column in self.columns.iter_mut().filter(|column| !column.is_said()) {
            if column.holds(Meaning::Ours(Column::Ends)) {
                column.unset();
            }
        }
    }

    /// `Tol` once more, beside the depth, where the size has its own: the depth's tolerance.
    fn tolerance_beside_depth(&mut self) {
        let depth = self.columns.iter().position(|column| column.holds(DEPTH));
        let Some(at) = depth
            .map(|depth| depth + 1)
            .filter(|_| !self.is_free(Meaning::Tolerance))
        else {
            return;
        };
        let is_tolerance = |column: &ForeignColumn| {
            column.head.says == Says::Plainly(Meaning::Tolerance)
                && column.look.is(&[Kind::Tolerance, Number, Whole, Signed])
        };
        if self
            .open()
            .any(|(open, column)| open == at && is_tolerance(column))
        {
            self.guess(at, Meaning::DepthTolerance, Why::Beside);
        }
    }
}

/// Whether marks stand under a head such as `hole type`, which may be the kind of hole and not its end.
fn names_kinds(column: &ForeignColumn, meaning: Meaning) -> bool {
    const KIND: [&str; 5] = ["type", "typ", "art", "tipo", "lochart"];
    let marks = || column.look.is(&[Mark, FitOrMark]);
    meaning == END && column.head.has_word(&KIND) && marks()
}
