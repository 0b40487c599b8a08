//! What the values of a column can be, and what they can't.

use quillbore_job::Column;

use crate::column::ForeignColumn;
use crate::meaning::Meaning;
use crate::values::{Kind, Look};
use Kind::{
    Angle, Callout, Depth, End, FitOrMark, Limited, Mark, Number, Numbered, Signed, Size, Text,
    Times, Whole,
};

pub(crate) const MARK: Meaning = Meaning::Ours(Column::Mark);
pub(crate) const COUNT: Meaning = Meaning::Ours(Column::Count);
pub(crate) const SIZE: Meaning = Meaning::Ours(Column::Size);
pub(crate) const DEPTH: Meaning = Meaning::Ours(Column::Depth);
pub(crate) const END: Meaning = Meaning::Ours(Column::End);
pub(crate) const ANGLE: Meaning = Meaning::Ours(Column::Angle);
pub(crate) const NOTE: Meaning = Meaning::Ours(Column::Note);

/// Numbers that say nothing beside their value.
pub(crate) const NUMBERS: [Kind; 3] = [Whole, Number, Signed];

/// Whether values say that they are sizes.
pub(crate) fn is_surely_size(look: &Look) -> bool {
    look.is_surely(&[Size, Limited, Callout], &[Whole, Number, Numbered, Depth])
}

/// Whether values say that they are diameters: limits alone may be those of a depth.
fn is_surely_diameter(look: &Look) -> bool {
    look.is_surely(&[Size, Callout], &[Whole, Number, Numbered, Depth, Limited])
}

/// Numbers in every line that has something, in two lines at least.
pub(crate) fn is_numbers(look: &Look) -> bool {
    look.filled >= 2 && look.is(&NUMBERS)
}

/// Whether half of the values are words at least.
pub(crate) fn is_mostly_words(look: &Look) -> bool {
    look.filled > 0 && look.count(&[Text]) * 2 >= look.filled
}

/// Whole numbers from one on that are no numbering: that would rise from line to line.
pub(crate) fn can_be_count(look: &Look) -> bool {
    let values = || look.numbers.iter().map(|(_, number)| *number);
    let rises = look.filled >= 3 && values().zip(values().skip(1)).all(|(one, next)| one < next);
    look.is(&[Whole, Times]) && !look.rising && !rises && values().all(|number| number >= 1.0)
}

/// Whether numbers of two columns can be compared: no head names thousandths.
pub(crate) fn in_one_unit(one: &ForeignColumn, other: &ForeignColumn) -> bool {
    one.head.unit == other.head.unit || one.head.unit.is_none() || other.head.unit.is_none()
}

/// Whether values are plainly something else than a head or a place says.
pub(crate) fn is_contradicted(meaning: Meaning, look: &Look) -> bool {
    let times = look.is_surely(&[Times], &[]);
    let angle = look.is_surely(&[Angle], &[]);
    let end = look.is(&[End]);
    let size = is_surely_size(look);
    let tolerance = look.is(&[Kind::Tolerance]);
    let mark = look.is(&[Mark, FitOrMark]);
    let depth = look.is_surely(&[Depth], &NUMBERS);
    match meaning {
        MARK => times || angle || size || tolerance || depth,
        COUNT => {
            let parts = look.is(&[Number]) && look.decimals;
            angle || end || size || tolerance || mark || depth || parts
        }
        SIZE => times || angle || end || tolerance || depth,
        DEPTH => times || angle || tolerance || mark || is_surely_diameter(look),
        Meaning::Point(_) | Meaning::Lower | Meaning::Upper => {
            times
                || angle
                || tolerance
                || mark
                || (size && meaning != Meaning::Lower && meaning != Meaning::Upper)
        }
        END => times || angle || size || look.is(&[Number, Signed]) || tolerance,
        ANGLE => times || end || size || tolerance || mark,
        Meaning::Tolerance => times || angle || end || size,
        _ => false,
    }
}
